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
use crate::print::sharpness::{ACUITY, largest, largest_image, sharpness};
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
    /// What is printed, including the wrapped edges; canvas only.
    pub printed_with_edges: Option<Extent>,
    /// The canvas to cut, including the staple margin; canvas only.
    pub cloth: Option<Extent>,
    /// White paper on each side of the image.
    pub sheet_borders: SidesReport,
    /// The share of the picture that goes on the edges when it is wrapped round them, 0 to 1 (to 6 decimals); canvas only.
    pub carried_round: Option<f64>,
    /// How far from each edge of the print (that is, of the crop) a signature has to be to stay on the face; canvas only.
    pub safe_margin: Option<Measure>,
    /// Radius of the corners; aluminium only.
    pub corner_radius: Option<Measure>,
    /// The layers from the front to the back; paper is not counted.
    pub stack: Vec<LayerReport>,
    /// Their total thickness.
    pub stack_thickness: Measure,
    /// The mat, if any.
    pub mat: Option<MatReport>,
    /// The frame, if any.
    pub frame: Option<FrameReport>,
    /// The inside of a floater frame, if any.
    pub floater_inside: Option<Extent>,
    /// What it shows of its picture; null while it has none.
    pub picture: Option<PictureReport>,
    /// The visible part of its image; null where none is visible.
    pub seen: Option<SeenReport>,
    /// How it hangs.
    pub hanging: HangingReport,
    /// How much wall is left round it.
    pub clearances: ClearancesReport,
}

/// The part of an image that its mat or its frame's lip leaves visible.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SeenReport {
    /// How large it is.
    pub size: Extent,
    /// The visible share of the image's area, 0 to 1 (to 6 decimals).
    pub share: f64,
    /// The visible pixels of the file, from its top left corner: left, top, width, height (to 6 decimals); null without a picture.
    pub picture_px: Option<[f64; 4]>,
}

/// A mat.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MatReport {
    /// The board.
    pub board: Extent,
    /// The mat opening (at the picture), where the bevel ends; of the bottom mat where there are two.
    pub opening: Extent,
    /// The opening of the top mat at its back.
    pub upper_opening: Extent,
    /// The opening of the top mat at its face.
    pub opening_at_face: Extent,
    /// From each edge of the board to the mat opening (at the picture).
    pub borders: SidesReport,
    /// The same, without what the frame's lip hides.
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
    /// Nominal size: the size of what goes into it. Order the frame by this.
    pub nominal: Extent,
    /// The rabbet (rebate), with its allowance.
    pub rabbet: Extent,
    /// The sight opening.
    pub sight: Extent,
    /// The outside: also the outside length (long points) of its legs.
    pub outside: Extent,
    /// What the lip hides on each side.
    pub lip_hides: Measure,
    /// By how much acrylic as long as the longer side grows when it warms by 20 kelvin, to be compared with the allowance.
    pub acrylic_growth: Measure,
    /// Depth of the rabbet (rebate) that the stack leaves; negative where the stack is proud of the frame.
    pub spare_depth: Measure,
    /// Moulding in the finished frame, by the outside length (long points) of its legs.
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
    /// Pixels of the file that are shown, from its top left corner: left, top, width, height (to 6 decimals).
    pub crop_px: [f64; 4],
    /// The same in whole pixels, as it is cut from the file: width and height to the nearest, in the same middle, so that each edge is at most a pixel from where it should be.
    pub crop_whole_px: [u32; 4],
    /// Pixels of the file to an inch of the print, to 6 decimals.
    pub pixels_per_inch: f64,
    /// Whether that is the resolution the plan wants or more.
    pub keeps_fineness: bool,
    /// The resolution in pixels per inch that an eye of decimal acuity 1.0 can see from the viewing distance (ISO 8596), to 6 decimals.
    pub needed_at_viewing_distance: f64,
    /// How sharp that looks, in words.
    pub verdict: &'static str,
    /// Whether it looks coarse to people who walk up to it, whatever the viewing distance: below 150 pixels per inch.
    pub coarse_when_near: bool,
    /// The largest print of the whole file with the resolution wanted, rounded down to 1/1440 micrometre.
    pub largest_whole: Option<Extent>,
    /// The largest image with the resolution wanted for what is shown, with edges as deep as these, rounded down to 1/1440 micrometre.
    pub largest_as_cropped: Option<Extent>,
    /// The share of the file's area that this piece does not show, 0 to 1 (to 6 decimals).
    pub not_shown: f64,
    /// From this distance on, an eye of decimal acuity 1.0 does not see the pixels (one arc minute; ISO 8596).
    pub pixels_merge_from: Measure,
}

/// How a piece hangs.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct HangingReport {
    /// Where each ring or the wire rests on its hook.
    pub hooks: Vec<PointReport>,
    /// From the top edge of the outside to the hook.
    pub drop: Measure,
    /// Between the rings.
    pub ring_span: Measure,
    /// From ring to ring along the wire.
    pub wire_length: Option<Measure>,
    /// How far the wire rises above the rings, to the nearest 1/1440 micrometre.
    pub wire_rise: Option<Measure>,
    /// Angle of the wire's legs above the horizontal, in degrees, to 3 decimals.
    pub wire_angle_degrees: Option<f64>,
    /// The pull on hooks, wire and rings; null where no weight is known.
    pub load: Option<LoadReport>,
}

/// Reports on one piece of a thing of this weight.
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

/// The visible part of an image.
pub(super) fn seen(sizes: &BuildUp) -> Option<Rect> {
    sizes.image.common(sizes.window)
}

/// The visible pixels.
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
