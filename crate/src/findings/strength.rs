//! What bends under what it carries.

use super::context::{Context, fine, length, on_pieces, over, words};
use super::framed::frame;
use super::{About, Authority, Case, Row, Severity};
use crate::field::{self, To};
use crate::length::Length;
use crate::plan::{self, Frame, Glazing, Material};
use crate::rounding::Mode;
use crate::stock::thresholds::SAG_OF_RAIL;

pub(super) const ROWS: &[Row] = &[Row {
    code: "rail-sags",
    about: About::Made,
    severity: Severity::Disappoints,
    authority: Authority::Practice,
    words: "A lower rail {face} wide carries about {weight} over {span} and would sag by {sag}: the corners open and the package slips. Take a stouter moulding, or acrylic.",
    find: rail_sags,
}];

/// Bending of wood in MPa: pine 8500, oak 12,300, poplar 10,900, obeche 6,000, boards of fibre 3,000 (USDA, Wood Handbook, chapter 5;
/// values from memory). What is not wood here bends as aluminium, 69,000 (from memory).
const fn stiffness(material: Material) -> i128 {
    match material {
        Material::Pine => 8_500,
        Material::Oak => 12_300,
        Material::Poplar => 10_900,
        Material::Obeche => 6_000,
        Material::Mdf | Material::Hardboard => 3_000,
        _ => 69_000,
    }
}

/// By how much the lower rail of a frame sags under what lies in it: a beam on two supports with its load spread evenly,
/// 5 W L³ / (384 E I); the corners are taken to give nothing. I is that of the face before the rabbet and of what the rabbet
/// leaves, each b h³ / 12. In tenths of a millimetre and thousandths of a newton, whole numbers all along.
fn sag(frame: &Frame, span: Length, milligrams: i64) -> Length {
    let tenth = Length::micrometres(100).units();
    let tenths = |length: Length| i128::from(length.units() / tenth);
    let rabbet = frame.rabbet_depth.min(frame.depth);
    let inertia = |depth: Length, height: Length| tenths(depth) * tenths(height).max(0).pow(3) / 12;
    let inertia =
        inertia(frame.depth - rabbet, frame.face) + inertia(rabbet, frame.face - frame.rabbet_width);
    // 9.80665 m/s² (from memory); 1 MPa is 10 thousandths of a newton on a square of a tenth of a millimetre.
    let load = i128::from(milligrams) * 980_665 / 100_000_000;
    let over = 5 * load * tenths(span).pow(3);
    let under = (384 * stiffness(frame.material) * 10 * inertia).max(1);
    Length::from_ratio(over / under * i128::from(tenth), 1, Mode::HalfAway)
}

fn rail_sags(on: &Context<'_>) -> Vec<Case> {
    let most = on.number(&SAG_OF_RAIL);
    let bent = on.things().iter().find_map(|thing| {
        let piece = thing.pieces[0];
        let (frame, sizes) = (frame(on, piece)?, &on.figures.build_ups[piece]);
        let span = sizes.frame.as_ref()?.sight.size.width;
        let rails = thing.parts.iter().filter(|(part, _)| part.name == "rail, long points");
        let carried = thing.mass.likely_mg - rails.map(|(_, mass)| mass.likely_mg).sum::<i64>();
        let found = sag(frame, span, carried);
        let too_much = |sag: Length| over(sag, span) > most;
        too_much(found).then(|| {
            let fits = on.stock.mouldings.iter().filter(|row| {
                let other = Frame {
                    face: row.face,
                    depth: row.depth,
                    rabbet_width: row.rabbet_width,
                    rabbet_depth: row.rabbet_depth,
                    material: row.material,
                    ..frame.clone()
                };
                !row.is_floater
                    && row.rabbet_depth >= frame.rabbet_depth
                    && row.rabbet_width >= frame.rabbet_width
                    && !too_much(sag(&other, span, carried))
            });
            let nearest = fits.min_by_key(|row| ((row.face - frame.face).abs(), row.depth));
            (piece, frame, span, carried, found, nearest.map(|row| row.name.clone()))
        })
    });
    let Some((piece, frame, span, carried, found, nearest)) = bent else { return Vec::new() };
    let weight = words(crate::measure::weight_alone(carried, on.plan.units.first));
    let framed: Vec<usize> =
        on.framed().filter(|(_, framing, _)| framing.frame.is_some()).map(|(piece, ..)| piece).collect();
    let mut case = Case::of([length(frame.face), weight, length(span), fine(found)]);
    if let Some(name) = nearest {
        let how = ["Take the moulding \"", &name, "\""].concat();
        case = case.mend(how, on_pieces(&framed, &field::FRAME_PROFILE, To::key(&name)));
    }
    let framing = on.plan.pieces[piece].finish.framing();
    if framing.is_some_and(|framing| matches!(framing.glazing, Glazing::Glass(_))) {
        let acrylic = on_pieces(&framed, &plan::GLAZING, To::one_of(&Glazing::Acrylic(Length::ZERO)));
        case = case.mend("Take acrylic", acrylic);
    }
    vec![case]
}
