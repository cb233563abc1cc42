//! Findings on what bends or comes apart: both sides of every limit, by the formulae of a beam (strength of materials) worked out anew.

#![expect(clippy::cast_precision_loss, reason = "a reference in real numbers")]

use super::*;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{Canvas, Finish, Fixing, Frame, Framing, Glazing, Hanger, Material, Paper, Piece};

/// 5 W L³ / (384 E I) with I = b h³ / 12, worked out beside it: 36 × 48 in under 3 mm of glass, with mount and backing, are 10.32 kg in a
/// sight of 35 5/8 in. In pine (8500 MPa, Wood Handbook, from memory) of 1 1/8 in depth and 5/8 in of rabbet 1/4 in wide: a face of
/// 1 1/4 in has I = 1/2 × 1.25³ / 12 + 5/8 × 1³ / 12 = 0.1335 in⁴ (55,550 mm⁴) and sags by 2.07 mm, less than 1/300 of the span (3.02 mm);
/// one of 1 in has I = 0.0636 in⁴ and sags by 4.34 mm.
#[test]
fn a_rail_bears_what_lies_on_it() {
    let frame = Frame { material: Material::Pine, ..Frame::starting() };
    let framing = Framing {
        frame: Some(frame),
        glazing: Glazing::Glass(Length::mm(3)),
        mat: None,
        ..Framing::starting()
    };
    let paper = Paper { framing, ..Paper::starting() };
    let piece = Piece { image: Size::inches(36, 48), finish: Finish::Paper(paper), ..Piece::starting() };
    let plan = Plan { pieces: vec![piece], ..Plan::starting() };
    check("rail-sags", &changed(plan.clone(), &[("piece.0.frame.face", "1 1/4")]), false);
    check("rail-sags", &changed(plan.clone(), &[("piece.0.frame.face", "1")]), true);
    check("rail-sags", &changed(plan, &[("piece.0.frame.face", "1/2")]), true);
    check("rail-sags", &Plan::starting(), false);
}

/// A mitre that holds W L / 12 on (h √2)² b / 6, worked out in newtons and millimetres beside it: 30 × 40 in behind 40 mm of glass in oak
/// 3 in deep, 2 in of it a rabbet 1/4 in wide, of every face from 7/8 to 2 1/2 in. The limit of 2 N/mm² is our own choice, no source.
#[test]
fn mitres_hold_what_lies_on_them() {
    let frame = |face: Length| Frame {
        material: Material::Oak,
        face,
        depth: Length::inches(3),
        rabbet_depth: Length::inches(2),
        rabbet_width: Length::inches_ratio(1, 4),
        ..Frame::starting()
    };
    let framing = |face: Length| Framing {
        frame: Some(frame(face)),
        glazing: Glazing::Glass(Length::mm(40)),
        mat: None,
        ..Framing::starting()
    };
    let plan = |face: Length| {
        let paper = Paper { framing: framing(face), ..Paper::starting() };
        let piece = Piece { image: Size::inches(30, 40), finish: Finish::Paper(paper), ..Piece::starting() };
        Plan { pieces: vec![piece], ..Plan::starting() }
    };
    // The load by the parts themselves, and the stress by hand.
    let stress = |face: Length| {
        let plan = plan(face);
        let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
        let thing = overmantel::making::things(&plan, &figures, &stock).remove(0);
        let on_it = thing.parts.iter().filter(|(part, _)| part.name != "leg");
        let newtons = on_it.map(|(_, mass)| mass.likely_mg).sum::<i64>() as f64 * 1e-6 * 9.80665;
        let span = figures.build_ups[0].frame.as_ref().expect("a frame").sight.size.width.to_mm();
        let (h, lip) = (face.to_mm(), 25.4 / 4.0);
        let modulus = (25.4 * h * h + 50.8 * (h - lip) * (h - lip)) * 2.0 / 6.0;
        newtons * span / 12.0 / modulus
    };
    for sixteenths in 14..40 {
        let face = Length::inches_ratio(sixteenths, 16);
        let codes: Vec<&str> =
            found(&plan(face), &Stock::offered()).iter().map(|finding| finding.code).collect();
        // Where the leg sags as well, that is what is said.
        let opens = stress(face) > 2.0 && !codes.contains(&"rail-sags");
        assert_eq!(codes.contains(&"corners-open"), opens, "{sixteenths}/16 in: {}", stress(face));
    }
    check("corners-open", &plan(Length::inches_ratio(21, 16)), true);
    check("corners-open", &plan(Length::inches(2)), false);
    check("corners-open", &Plan::starting(), false);
}

/// F a² b² / (3 E I L): 24 × 36 in on canvas, with bars 1 1/4 in wide and 3/4 in deep of pine (8500 MPa, Wood Handbook, from memory), on a
/// wire that is nearly straight; with two rings, or on a steep one, nothing bends.
#[test]
fn a_wire_bends_the_sides() {
    let piece = Piece {
        image: Size::inches(24, 36),
        finish: Finish::Canvas(Canvas { depth: Length::inches_ratio(3, 4), ..Canvas::starting() }),
        ..Piece::starting()
    };
    let hung = |slack: Length| {
        let hanger = Hanger::Wire { slack, hooks_apart: None };
        let fixing = Fixing { hanger, ..Fixing::default() };
        Plan { pieces: vec![piece.clone()], fixing, ..Plan::starting() }
    };
    for parts in [1, 2, 3, 4, 6, 8, 16, 32, 64, 128, 256, 512] {
        let plan = hung(Length::inches_ratio(parts, 256));
        let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
        let hanging = &figures.hanging[0];
        let wire = hanging.wire.expect("a wire");
        let mass = overmantel::making::things(&plan, &figures, &stock)[0].mass.likely_mg;
        let force = mass as f64 * 1e-6 * 9.80665 * wire.leg_run.to_mm() / wire.rise.to_mm() / 2.0;
        let (span, at) = ((36.0 - 2.5) * 25.4, hanging.places.down.to_mm() - 1.25 * 25.4);
        let product = at * (span - at);
        let inertia = 19.05 * 31.75 * 31.75 * 31.75 / 12.0;
        let bend = force * product * product / (3.0 * 8500.0 * inertia * span);
        check("wire-bends-the-sides", &plan, bend > span / 300.0);
    }
    check("wire-bends-the-sides", &hung(Length::inches_ratio(1, 256)), true);
    check("wire-bends-the-sides", &Plan { fixing: Fixing::default(), ..hung(Length::ZERO) }, false);
}
