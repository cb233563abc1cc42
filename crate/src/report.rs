//! The report: every computed measure as documented data, for programs that go on from here.
//!
//! Each length is given three ways: exactly as text, and as numbers in inches and millimetres (to 6 decimals). Points are
//! measured from the lower left corner of the wall; widths stand before heights. The form is described by the JSON Schema in
//! `schema/figures.schema.json`, which is derived from the structs of this module.

use crate::figures::Figures;
use crate::framing::BuildUp;
use crate::geometry::{Point, Rect, Sides, Size};
use crate::hang::Hanging;
use crate::length::Length;
use crate::length::print::exact;
use crate::plan::Plan;
use crate::print::{Cut, Exact, merging_distance};
use serde::Serialize;

/// Everything computed for a plan.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel figures"))]
pub struct Report {
    /// The plan's title.
    pub title: String,
    /// The wall.
    pub wall: Extent,
    /// Each fixture, in the order of the plan.
    pub fixtures: Vec<FixtureReport>,
    /// The rectangle round all pieces.
    pub group: Place,
    /// From the floor to the middle of the group.
    pub group_centre_height: Measure,
    /// From the left corner of the wall to the group.
    pub margin_left: Measure,
    /// From the group to the right corner of the wall.
    pub margin_right: Measure,
    /// Each piece, in the order of the plan.
    pub pieces: Vec<PieceReport>,
}

/// A length, three ways.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Measure {
    /// Exactly, as text that a plan file takes.
    pub exact: String,
    /// In inches, to 6 decimals.
    pub inches: f64,
    /// In millimetres, to 6 decimals.
    pub mm: f64,
}

/// A width and a height.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Extent {
    /// From left to right.
    pub width: Measure,
    /// From foot to head.
    pub height: Measure,
}

/// A rectangle on the wall.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Place {
    /// From the left corner of the wall to its left edge.
    pub left: Measure,
    /// From the floor to its lower edge.
    pub bottom: Measure,
    /// Its size.
    pub size: Extent,
}

/// A point on the wall.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PointReport {
    /// From the left corner.
    pub from_left: Measure,
    /// From the right corner.
    pub from_right: Measure,
    /// From the floor.
    pub from_floor: Measure,
}

/// Four measures, seen from the front.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SidesReport {
    /// On the left.
    pub left: Measure,
    /// At the head.
    pub top: Measure,
    /// On the right.
    pub right: Measure,
    /// At the foot.
    pub bottom: Measure,
}

/// A fixture.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FixtureReport {
    /// Its name.
    pub name: String,
    /// Where it is.
    pub place: Place,
}

/// A piece.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PieceReport {
    /// Where its outside is on the wall.
    pub place: Place,
    /// From the wall to its front.
    pub depth: Measure,
    /// The printed image (the face of a canvas or metal sheet).
    pub image: Extent,
    /// The sheet: the image with its paper border; the face of a canvas or metal sheet.
    pub sheet: Extent,
    /// What is printed with its wrapped edges; canvas only.
    pub printed_with_edges: Option<Extent>,
    /// The cloth to cut; canvas only.
    pub cloth: Option<Extent>,
    /// The mat, if any.
    pub mat: Option<MatReport>,
    /// The frame, if any.
    pub frame: Option<FrameReport>,
    /// The inside of a floater frame, if any.
    pub floater_inside: Option<Extent>,
    /// What it shows of its picture; null while it has none.
    pub picture: Option<PictureReport>,
    /// What it hangs by.
    pub hanging: HangingReport,
}

/// A mat.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MatReport {
    /// The board.
    pub board: Extent,
    /// The opening at the art, the back edge of the bevel; of the inner mat where there are two.
    pub opening: Extent,
    /// The opening of the upper mat at its back.
    pub upper_opening: Extent,
    /// The opening of the upper mat at its face.
    pub opening_at_face: Extent,
    /// From each edge of the board to the opening at the art.
    pub borders: SidesReport,
    /// The same, less what the frame's lip hides.
    pub visible_borders: SidesReport,
}

/// A frame.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FrameReport {
    /// Nominal size: of what goes into it. The frame to buy.
    pub nominal: Extent,
    /// The rabbet, with its play.
    pub rabbet: Extent,
    /// The sight opening.
    pub sight: Extent,
    /// The outside: also the long points of its rails.
    pub outside: Extent,
    /// What the lip hides on each side.
    pub lip_hides: Measure,
    /// Moulding in the finished frame, at the long points.
    pub moulding_exact: Measure,
    /// Moulding by the shops' rule, 2(w + h) + 8 × face.
    pub moulding_by_rule: Measure,
}

/// What a piece shows of its picture.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PictureReport {
    /// Its name.
    pub name: String,
    /// Pixels of the file that are shown, from its upper left corner: left, top, width, height (to 6 decimals).
    pub crop_px: [f64; 4],
    /// Pixels of the file to an inch of the print.
    pub pixels_per_inch: f64,
    /// The share of the file's area that this piece does not show, 0 to 1.
    pub not_shown: f64,
    /// From here on an eye of decimal acuity 1.0 can't tell the pixels apart (one arc minute; ISO 8596).
    pub pixels_merge_from: Measure,
}

/// What a piece hangs by.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct HangingReport {
    /// Where each ring or the wire rests on its hook.
    pub hooks: Vec<PointReport>,
    /// From the upper edge of the outside to the hook.
    pub drop: Measure,
    /// Between the rings.
    pub ring_span: Measure,
    /// From ring to ring along the wire.
    pub wire_length: Option<Measure>,
    /// How far the wire rises over the rings.
    pub wire_rise: Option<Measure>,
    /// Angle of the wire's legs above the horizontal.
    pub wire_angle_degrees: Option<f64>,
}

/// Reports on a plan.
#[must_use]
pub fn report(plan: &Plan, figures: &Figures) -> Report {
    let group = figures.arranged.group;
    Report {
        title: plan.title.clone(),
        wall: extent(plan.wall.size),
        fixtures: plan
            .fixtures
            .iter()
            .zip(&figures.arranged.fixtures)
            .map(|(fixture, &rect)| FixtureReport { name: fixture.name.clone(), place: place(rect) })
            .collect(),
        group: place(group),
        group_centre_height: measure(group.centre().y),
        margin_left: measure(group.x),
        margin_right: measure(plan.wall.size.width - group.right()),
        pieces: figures
            .build_ups
            .iter()
            .enumerate()
            .map(|(index, sizes)| PieceReport {
                picture: figures.cuts[index].and_then(|cut| picture(plan, index, &cut)),
                hanging: hanging(plan, &figures.hanging[index]),
                ..piece(sizes, figures.arranged.outsides[index], &figures.hanging[index], plan)
            })
            .collect(),
    }
}

fn piece(sizes: &BuildUp, outside: Rect, hung: &Hanging, plan: &Plan) -> PieceReport {
    PieceReport {
        place: place(outside),
        depth: measure(sizes.depth),
        image: extent(sizes.image.size),
        sheet: extent(sizes.sheet.size),
        printed_with_edges: sizes.cloth.map(|_| extent(sizes.image.size.grown(sizes.wrap))),
        cloth: sizes.cloth.map(extent),
        mat: sizes.mat.as_ref().map(|mat| MatReport {
            board: extent(mat.board.size),
            opening: extent(mat.opening.size),
            upper_opening: extent(mat.upper_opening.size),
            opening_at_face: extent(mat.face_opening.size),
            borders: sides(mat.borders),
            visible_borders: sides(mat.visible_borders),
        }),
        frame: sizes.frame.as_ref().map(|frame| FrameReport {
            nominal: extent(frame.nominal),
            rabbet: extent(frame.rabbet.size),
            sight: extent(frame.sight.size),
            outside: extent(sizes.outside),
            lip_hides: measure(frame.lip_hides),
            moulding_exact: measure(frame.moulding_exact),
            moulding_by_rule: measure(frame.moulding_by_rule),
        }),
        floater_inside: sizes.floater_inside.map(|inside| extent(inside.size)),
        picture: None,
        hanging: hanging(plan, hung),
    }
}

fn picture(plan: &Plan, piece: usize, cut: &Cut) -> Option<PictureReport> {
    let index = plan.split.map(|split| split.picture).or(plan.pieces[piece].picture)?;
    let picture = &plan.pictures[index];
    let source = cut.source;
    Some(PictureReport {
        name: picture.name.clone(),
        crop_px: [source.left, source.top, source.width, source.height].map(number),
        pixels_per_inch: number(cut.pixels_per_inch),
        not_shown: number(cut.lost((picture.width_px, picture.height_px))),
        pixels_merge_from: measure(merging_distance(cut.pixels_per_inch)),
    })
}

fn hanging(plan: &Plan, hung: &Hanging) -> HangingReport {
    let point = |point: &Point| PointReport {
        from_left: measure(point.x),
        from_right: measure(plan.wall.size.width - point.x),
        from_floor: measure(point.y),
    };
    HangingReport {
        hooks: hung.hooks.iter().map(point).collect(),
        drop: measure(hung.drop),
        ring_span: measure(hung.span),
        wire_length: hung.wire.map(|wire| measure(wire.length)),
        wire_rise: hung.wire.map(|wire| measure(wire.rise)),
        wire_angle_degrees: hung.wire.map(|wire| libm::round(wire.angle_degrees() * 1e3) / 1e3),
    }
}

fn measure(length: Length) -> Measure {
    Measure { exact: exact(length), inches: six(length.to_inches()), mm: six(length.to_mm()) }
}

fn six(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6
}

#[expect(clippy::cast_precision_loss, reason = "a report: 53 bits")]
fn number(value: Exact) -> f64 {
    let whole = value.trunc();
    let rest = value - whole;
    six(whole.to_integer() as f64 + *rest.numer() as f64 / *rest.denom() as f64)
}

fn extent(size: Size) -> Extent {
    Extent { width: measure(size.width), height: measure(size.height) }
}

fn place(rect: Rect) -> Place {
    Place { left: measure(rect.x), bottom: measure(rect.y), size: extent(rect.size) }
}

fn sides(sides: Sides) -> SidesReport {
    SidesReport {
        left: measure(sides.left),
        top: measure(sides.top),
        right: measure(sides.right),
        bottom: measure(sides.bottom),
    }
}

/// The JSON Schema (draft 2020-12) of the report.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    serde_json::to_string_pretty(&schemars::schema_for!(Report)).unwrap_or_default() + "\n"
}
