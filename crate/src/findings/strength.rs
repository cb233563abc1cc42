//! What bends, or comes apart, under what it carries.

use super::context::{Context, fine, length, on_pieces, over, set, words};
use super::framed::frame;
use super::{About, Authority, Case, Row, Severity};
use crate::field::{self, To};
use crate::length::Length;
use crate::making::Thing;
use crate::plan::{self, Finish, Frame, Glazing, Hanger, Material};
use crate::print::Exact;
use crate::rounding::Mode;
use crate::stock::name_in;
use crate::stock::thresholds::{CORNER_STRESS, SAG_OF_RAIL};

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "rail-sags",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The bottom leg, {face} wide, carries about {weight} over {span} and would sag by {sag}: the corners open and the package slips. Choose a stronger moulding, or use acrylic.",
        find: rail_sags,
    },
    Row {
        code: "corners-open",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The bottom leg carries about {weight} over {span}, and mitres {face} wide and {depth} deep are too small to hold that: the corners open. Choose a stronger moulding, or use acrylic.",
        find: corners_open,
    },
    Row {
        code: "wire-bends-the-sides",
        about: About::Hanging,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The wire pulls each side of {piece} inwards as hard as {weight} would, and bends it by {bend}. Hang it by two rings, or let the wire rise more steeply.",
        find: wire_bends_sides,
    },
];

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

/// Lengths are whole tenths of a millimetre here, and forces thousandths of a newton.
const TENTH: Length = Length::micrometres(100);

fn tenths(length: Length) -> i128 {
    i128::from(length.units() / TENTH.units())
}

/// What pulls as this weight does: 9.80665 m/s² (from memory).
fn millinewtons(milligrams: i64) -> i128 {
    i128::from(milligrams) * 980_665 / 100_000_000
}

/// A leg of a frame, or a stretcher bar: what it is made of, and the two rectangles of its section, before and behind the lip of the
/// rabbet. Each is so wide, in the plane of the picture, and so deep.
struct Leg {
    material: Material,
    section: [(Length, Length); 2],
}

impl Leg {
    fn of(frame: &Frame) -> Self {
        let rabbet = frame.rabbet_depth.min(frame.depth);
        let behind = (frame.face - frame.rabbet_width).max(Length::ZERO);
        Self { material: frame.material, section: [(frame.face, frame.depth - rabbet), (behind, rabbet)] }
    }

    /// A bar of pine, as most are (common practice, no source).
    fn bar(width: Length, depth: Length) -> Self {
        Self { material: Material::Pine, section: [(width, depth), (Length::ZERO, Length::ZERO)] }
    }

    /// E I, each rectangle by itself b h³ / 12; at least 1. 1 MPa is 10 thousandths of a newton on a square of a tenth of a
    /// millimetre.
    fn rigidity(&self) -> i128 {
        let inertia = self.section.map(|(wide, deep)| tenths(deep) * tenths(wide).pow(3) / 12);
        (stiffness(self.material) * 10 * (inertia[0] + inertia[1])).max(1)
    }

    /// By how much it sags in the middle under a load that is spread over its span: 5 W L³ / (384 E I), its corners taken to give
    /// nothing.
    fn sag(&self, span: Length, load: i128) -> Length {
        bent(5 * load * tenths(span).pow(3), 384 * self.rigidity())
    }

    /// By how much it bends under a force at one point, so far from one end: F a² b² / (3 E I L), its corners taken to give nothing.
    fn bend(&self, span: Length, at: Length, force: i128) -> Length {
        let at = at.min(span).max(Length::ZERO);
        let (one, other) = (tenths(at), tenths(span - at));
        bent(force * one.pow(2) * other.pow(2), 3 * self.rigidity() * tenths(span).max(1))
    }

    /// By what its mitres are pulled apart under a load that is spread over its span, in newtons per square millimetre: held fast
    /// at both ends it bends them by W L / 12, and a mitre across a face h has the section modulus b (h √2)² / 6.
    fn corner_stress(&self, span: Length, load: i128) -> Exact {
        let modulus = self.section.map(|(wide, deep)| tenths(deep) * tenths(wide).pow(2));
        // W L / 12 over b h² / 3, and 10 thousandths of a newton on a square of a tenth of a millimetre to the MPa.
        Exact::new(load * tenths(span), 40 * (modulus[0] + modulus[1]).max(1))
    }
}

fn bent(over: i128, under: i128) -> Length {
    Length::from_ratio(over / under * i128::from(TENTH.units()), 1, Mode::HalfAway)
}

/// What the bottom leg of a frame carries.
struct Carried<'a> {
    piece: usize,
    frame: &'a Frame,
    span: Length,
    milligrams: i64,
}

impl Carried<'_> {
    fn load(&self) -> i128 {
        millinewtons(self.milligrams)
    }
}

/// What each bottom leg carries, of all that have a frame round a package.
fn carried<'a>(on: &'a Context<'_>) -> impl Iterator<Item = Carried<'a>> {
    on.things().iter().filter_map(|thing| {
        let piece = thing.pieces[0];
        let (frame, sizes) = (frame(on, piece)?, &on.figures.build_ups[piece]);
        let span = sizes.frame.as_ref()?.sight.size.width;
        let rails = thing.parts.iter().filter(|(part, _)| part.name == "leg");
        let milligrams = thing.mass.likely_mg - rails.map(|(_, mass)| mass.likely_mg).sum::<i64>();
        Some(Carried { piece, frame, span, milligrams })
    })
}

/// The remedies of a leg that is too slight: the nearest moulding of the stock that is not, and acrylic in place of glass.
fn stouter(on: &Context<'_>, carried: &Carried<'_>, case: Case, holds: impl Fn(&Leg) -> bool) -> Vec<Case> {
    let frame = carried.frame;
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
            && holds(&Leg::of(&other))
    });
    let nearest = fits.min_by_key(|row| ((row.face - frame.face).abs(), row.depth));
    let framed: Vec<usize> =
        on.framed().filter(|(_, framing, _)| framing.frame.is_some()).map(|(piece, ..)| piece).collect();
    let mut case = case;
    if let Some(row) = nearest {
        let how = ["Choose the moulding \"", &name_in(&row.name, on.plan.units.first), "\""].concat();
        case = case.mend(how, on_pieces(&framed, &field::FRAME_PROFILE, To::key(&row.name)));
    }
    let framing = on.plan.pieces[carried.piece].finish.framing();
    if framing.is_some_and(|framing| matches!(framing.glazing, Glazing::Glass(_))) {
        let acrylic = on_pieces(&framed, &plan::GLAZING, To::one_of(&Glazing::Acrylic(Length::ZERO)));
        case = case.mend("Use acrylic", acrylic);
    }
    vec![case]
}

fn weight(on: &Context<'_>, milligrams: i64) -> super::Value {
    words(crate::measure::weight_alone(milligrams, on.plan.units.first))
}

fn rail_sags(on: &Context<'_>) -> Vec<Case> {
    let most = on.number(&SAG_OF_RAIL);
    let sag = |leg: &Leg, carried: &Carried<'_>| leg.sag(carried.span, carried.load());
    let is_too_much = |leg: &Leg, carried: &Carried<'_>| over(sag(leg, carried), carried.span) > most;
    let Some(found) = carried(on).find(|carried| is_too_much(&Leg::of(carried.frame), carried)) else {
        return Vec::new();
    };
    let Carried { frame, span, milligrams, .. } = found;
    let sag = sag(&Leg::of(frame), &found);
    let case = Case::of([length(frame.face), weight(on, milligrams), length(span), fine(sag)]);
    stouter(on, &found, case, |leg| !is_too_much(leg, &found))
}

/// Where the leg itself holds: otherwise it is said of that. Corners of metal are screwed, not glued.
fn corners_open(on: &Context<'_>) -> Vec<Case> {
    let (most, sags) = (on.number(&CORNER_STRESS), on.number(&SAG_OF_RAIL));
    let opens = |leg: &Leg, Carried { span, .. }: &Carried<'_>, load: i128| {
        leg.material != Material::Aluminium && leg.corner_stress(*span, load) > most
    };
    let holds = |leg: &Leg, carried: &Carried<'_>| {
        let Carried { span, .. } = *carried;
        over(leg.sag(span, carried.load()), span) <= sags
    };
    let wrong = |carried: &Carried<'_>| {
        let leg = Leg::of(carried.frame);
        holds(&leg, carried) && opens(&leg, carried, carried.load())
    };
    let Some(found) = carried(on).find(wrong) else { return Vec::new() };
    let Carried { frame, span, milligrams, .. } = found;
    let case = Case::of([weight(on, milligrams), length(span), length(frame.face), length(frame.depth)]);
    stouter(on, &found, case, |leg| holds(leg, &found) && !opens(leg, &found, found.load()))
}

/// The leg or bar at the side of a thing, to which the ring of a wire is screwed, and how long it is between the corners.
fn side(on: &Context<'_>, thing: &Thing) -> Option<(Leg, Length)> {
    let piece = thing.pieces[0];
    let sizes = &on.figures.build_ups[piece];
    if let Some(frame) = frame(on, piece) {
        return Some((Leg::of(frame), sizes.frame.as_ref()?.sight.size.height));
    }
    let Finish::Canvas(canvas) = &on.plan.pieces[piece].finish else { return None };
    let width = on.stock.bar_width(canvas.depth);
    let span = sizes.image.size.height - width * 2;
    (canvas.floater.is_none() && span > Length::ZERO).then(|| (Leg::bar(width, canvas.depth), span))
}

fn wire_bends_sides(on: &Context<'_>) -> Vec<Case> {
    if !matches!(on.plan.fixing.hanger, Hanger::Wire { .. }) {
        return Vec::new();
    }
    let most = on.number(&SAG_OF_RAIL);
    let bent = on.things().iter().find_map(|thing| {
        let piece = thing.pieces[0];
        let hanging = &on.figures.hanging[piece];
        let inwards = hanging.wire?.pull_inwards()? * Exact::from(i128::from(thing.mass.likely_mg));
        let milligrams = i64::try_from(inwards.to_integer()).unwrap_or(i64::MAX / 1_000_000);
        let (leg, span) = side(on, thing)?;
        let corner = (on.figures.build_ups[piece].outside.height - span).half();
        let bend = leg.bend(span, hanging.places.down - corner, millinewtons(milligrams));
        (over(bend, span) > most).then_some((piece, milligrams, bend))
    });
    let Some((piece, milligrams, bend)) = bent else { return Vec::new() };
    let [sides, down] = super::built::as_usual();
    let rings = [set(&plan::FIXING_KIND, To::key(plan::TWO_RINGS)), sides, down];
    vec![
        Case::of([words(on.one(piece)), weight(on, milligrams), fine(bend)])
            .mend("Hang it by two rings", rings),
    ]
}
