//! A report on one piece: its sizes, its stack, its crop, its hooks.

use super::basic::*;
use super::hung::{ClearancesReport, LoadReport, clearances, load};
use crate::figures::Figures;
use crate::findings::{WARMING_KELVIN, acrylic_growth};
use crate::framing::inverse::Bars;
use crate::framing::{BuildUp, safe_margin};
use crate::geometry::{Rect, Size};
use crate::hang::Hanging;
use crate::plan::{Edge, Finish, Material, Plan};
use crate::print::fineness::{ACUITY, largest, largest_image, sharpness};
use crate::print::{Cut, Exact, Source, merging_distance};
use crate::weigh::Mass;
use serde::Serialize;

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
    /// White paper on each side of the image.
    pub sheet_borders: SidesReport,
    /// The share of the picture that goes to the edges when it is carried round them, 0 to 1 (to 6 decimals); canvas only.
    pub carried_round: Option<f64>,
    /// How far from each edge of what is printed, of the crop that is, a signature has to be to stay on the face; canvas only.
    pub safe_margin: Option<Measure>,
    /// Radius of the corners; aluminium only.
    pub corner_radius: Option<Measure>,
    /// What lies behind what, from the front to the back; paper is not counted.
    pub stack: Vec<LayerReport>,
    /// The sum of the stack.
    pub stack_thickness: Measure,
    /// The mat, if any.
    pub mat: Option<MatReport>,
    /// The frame, if any.
    pub frame: Option<FrameReport>,
    /// The inside of a floater frame, if any.
    pub floater_inside: Option<Extent>,
    /// What it shows of its picture; null while it has none.
    pub picture: Option<PictureReport>,
    /// What is seen of its image; null where nothing is.
    pub seen: Option<SeenReport>,
    /// What it hangs by.
    pub hanging: HangingReport,
    /// How much wall is left round it.
    pub clearances: ClearancesReport,
}

/// What is seen of an image behind its mat or its frame's lip.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SeenReport {
    /// How large it is.
    pub size: Extent,
    /// The share of the image's area that is seen, 0 to 1 (to 6 decimals).
    pub share: f64,
    /// Pixels of the file that are seen, from its upper left corner: left, top, width, height (to 6 decimals); null without a picture.
    pub picture_px: Option<[f64; 4]>,
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

/// A layer of a stack.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LayerReport {
    /// What it is.
    pub part: &'static str,
    /// What it is made of, where that is known.
    pub material: Option<&'static str>,
    /// How thick it is.
    pub thickness: Measure,
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
    /// By how much acrylic as long as the longer side grows when it warms by 20 kelvin, to be compared with the play.
    pub acrylic_growth: Measure,
    /// Depth of the rabbet that the stack leaves; negative where it stands out at the back.
    pub spare_depth: Measure,
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
    /// The same in whole pixels, as it is cut from the file: width and height to the nearest, in the same middle, so that each edge is at most a pixel from where it should be.
    pub crop_whole_px: [u32; 4],
    /// Pixels of the file to an inch of the print, to 6 decimals.
    pub pixels_per_inch: f64,
    /// Whether that is as fine as the plan wishes.
    pub keeps_fineness: bool,
    /// Pixels to the inch that an eye of decimal acuity 1.0 can tell apart from where the wall is seen (ISO 8596), to 6 decimals.
    pub needed_at_viewing_distance: f64,
    /// What follows for the eye, in words.
    pub verdict: &'static str,
    /// Whether people who walk up to it see it coarse, however far it is meant to be seen: below 150 pixels to the inch.
    pub coarse_when_near: bool,
    /// The largest print of the whole file that is as fine as wished, rounded down to 1/1440 micrometre.
    pub largest_whole: Option<Extent>,
    /// The largest image in which what is shown is as fine as wished, with edges as deep as these, rounded down to 1/1440 micrometre.
    pub largest_as_cropped: Option<Extent>,
    /// The share of the file's area that this piece does not show, 0 to 1 (to 6 decimals).
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
    /// How far the wire rises over the rings, to the nearest 1/1440 micrometre.
    pub wire_rise: Option<Measure>,
    /// Angle of the wire's legs above the horizontal, in degrees, to 3 decimals.
    pub wire_angle_degrees: Option<f64>,
    /// What hooks, wire and rings are pulled by; null where nothing is weighed.
    pub load: Option<LoadReport>,
}

/// Reports on one piece of a thing that weighs so much.
pub(super) fn piece_report(plan: &Plan, figures: &Figures, index: usize, mass: Mass) -> PieceReport {
    let (sizes, stated) = (&figures.build_ups[index], &plan.pieces[index]);
    let canvas = match &stated.finish {
        Finish::Canvas(canvas) => Some(canvas),
        _ => None,
    };
    let carried = canvas.filter(|canvas| canvas.edge == Edge::Carried);
    PieceReport {
        place: place(figures.arranged.outsides[index]),
        depth: measure(sizes.depth),
        image: extent(sizes.image.size),
        sheet: extent(sizes.sheet.size),
        printed_with_edges: sizes.cloth.map(|_| extent(sizes.image.size.grown(sizes.wrap))),
        cloth: sizes.cloth.map(extent),
        sheet_borders: sides(sizes.sheet_borders),
        carried_round: carried.map(|canvas| {
            let bars = Bars { depth: canvas.depth, fold: canvas.fold };
            number(bars.share_carried_round(sizes.image.size))
        }),
        safe_margin: canvas.map(|canvas| measure(safe_margin(canvas))),
        corner_radius: matches!(stated.finish, Finish::Aluminium(_)).then(|| measure(sizes.corner_radius)),
        stack: sizes
            .stack
            .layers
            .iter()
            .map(|layer| LayerReport {
                part: layer.part.name(),
                material: layer.part.material().map(Material::name),
                thickness: measure(layer.thickness),
            })
            .collect(),
        stack_thickness: measure(sizes.stack.thickness()),
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
            acrylic_growth: measure(acrylic_growth(
                frame.nominal.width.max(frame.nominal.height),
                WARMING_KELVIN,
            )),
            spare_depth: measure(frame.spare_depth),
            moulding_exact: measure(frame.moulding_exact),
            moulding_by_rule: measure(frame.moulding_by_rule),
        }),
        floater_inside: sizes.floater_inside.map(|inside| extent(inside.size)),
        picture: figures.cuts[index].and_then(|cut| picture(plan, index, &cut, sizes.printed_beyond())),
        seen: seen_report(sizes, figures.cuts[index].as_ref()),
        hanging: hanging(plan, &figures.hanging[index], mass),
        clearances: clearances(plan, figures, index),
    }
}

/// What is seen of an image.
pub(super) fn seen(sizes: &BuildUp) -> Option<Rect> {
    sizes.image.common(sizes.window)
}

/// The pixels that are seen.
pub(super) fn seen_px(sizes: &BuildUp, cut: &Cut) -> Option<Source> {
    Some(cut.part(sizes.picture, seen(sizes)?))
}

fn seen_report(sizes: &BuildUp, cut: Option<&Cut>) -> Option<SeenReport> {
    let seen = seen(sizes)?;
    let area = |size: Size| i128::from(size.width.units()) * i128::from(size.height.units());
    Some(SeenReport {
        size: extent(seen.size),
        share: number(Exact::new(area(seen.size), area(sizes.image.size).max(1))),
        picture_px: cut.and_then(|cut| seen_px(sizes, cut)).map(four),
    })
}

fn four(source: Source) -> [f64; 4] {
    [source.left, source.top, source.width, source.height].map(number)
}

fn picture(plan: &Plan, piece: usize, cut: &Cut, beyond: Size) -> Option<PictureReport> {
    let index = plan.split.map(|split| split.picture).or(plan.pieces[piece].picture)?;
    let picture = &plan.pictures[index];
    let source = cut.source;
    let picture_px = (picture.width_px, picture.height_px);
    let crop = cut.whole_px(picture_px);
    let fineness = Exact::from_integer(plan.fineness.into());
    let seen = sharpness(cut.pixels_per_inch, plan.viewing.distance, ACUITY);
    Some(PictureReport {
        name: picture.name.clone(),
        crop_px: four(source),
        crop_whole_px: [crop.left, crop.top, crop.width, crop.height],
        pixels_per_inch: number(cut.pixels_per_inch),
        keeps_fineness: cut.pixels_per_inch >= fineness,
        needed_at_viewing_distance: number(seen.needed_there),
        verdict: seen.verdict.words(),
        coarse_when_near: seen.coarse.is_some(),
        largest_whole: largest(picture_px, None, fineness).map(extent),
        largest_as_cropped: largest_image(cut, fineness, beyond).map(extent),
        not_shown: number(cut.lost(picture_px)),
        pixels_merge_from: measure(merging_distance(cut.pixels_per_inch)),
    })
}

fn hanging(plan: &Plan, hung: &Hanging, mass: Mass) -> HangingReport {
    HangingReport {
        hooks: hung.hooks.iter().map(|&hook| point(hook, plan.wall.size)).collect(),
        drop: measure(hung.drop),
        ring_span: measure(hung.span),
        wire_length: hung.wire.map(|wire| measure(wire.length)),
        wire_rise: hung.wire.map(|wire| measure(wire.rise)),
        wire_angle_degrees: hung.wire.map(|wire| libm::round(wire.angle_degrees() * 1e3) / 1e3),
        load: load(hung, mass),
    }
}
