//! Small drawings: what a choice would make of the plan, to choose by.

use super::{Desk, linked};
use crate::draw::projection::Projection;
use crate::draw::{self, Painter, Sheet, View, captioned};
use crate::field::{Field, Whose};
use crate::fields;
use crate::figures::Figures;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::{self, GroupAcross, GroupUp, Plan, ViewerOffset};
use crate::resample::Raster;
use crate::scene::section::section;
use crate::scene::{Sheen, scene};
use crate::spec::few_words::each_once;
use crate::starts;
use crate::true_size::TruePart;

/// Lettering and the strip of floor are so much smaller than on the sheet itself.
const SMALLER: f32 = 0.4;

impl Desk {
    /// The room as a starting point would have it, without lines: sRGB, four bytes a pixel. `None` where that has no answer.
    #[must_use]
    pub fn small_start(&self, code: &str, sheet: &Sheet) -> Option<Vec<u8>> {
        self.small_room(&starts::begin(&self.plan, code).ok()?, sheet)
    }

    /// The plan at work, without lines, as it stands beside others: flat all of them at one scale, on level floors; in the room each
    /// as it is seen. sRGB, four bytes a pixel. Those without an answer don't count.
    #[must_use]
    pub fn small_beside(&self, others: &[Plan], sheet: &Sheet) -> Option<Vec<u8>> {
        if sheet.view == View::Oblique {
            return self.small_room(&self.plan, sheet);
        }
        let answered = |plan: &Plan| Some(scene(plan, &Figures::of(plan).ok()?));
        let mut scenes = vec![self.scene.clone()];
        scenes.extend(others.iter().filter_map(answered));
        let window = *Projection::side_by_side(&scenes, &small_sheet(sheet)).first()?;
        self.small_room(&self.plan, &Sheet { window, ..sheet.clone() })
    }

    /// What an option of a field that is drawn would make: of an arrangement the room, of an edge a small piece seen from the
    /// side, of a moulding its cut. `None` where that has no answer.
    #[must_use]
    pub fn small_option(&self, field: Field, option: &str, sheet: &Sheet) -> Option<Vec<u8>> {
        let plan = fields::write(&self.plan, &self.stock, field, option).ok()?;
        let piece = if let Whose::Piece(piece) = field.of { piece } else { 0 };
        match field.row {
            row if *row == plan::GROUP_ARRANGEMENT => self.small_room(&plan, sheet),
            row if *row == plan::CANVAS_EDGE => self.small_side(plan, piece, sheet),
            _ => draw::section::draw_small(&section(&plan, &Figures::of(&plan).ok()?, piece)?, sheet),
        }
    }

    /// One piece, made small so that its edges are much of it, seen from its left.
    fn small_side(&self, mut plan: Plan, piece: usize, sheet: &Sheet) -> Option<Vec<u8>> {
        let mut one = plan.pieces.get(piece)?.clone();
        one.picture = plan.split.take().map(|split| split.picture).or(one.picture);
        let Size { width, height } = one.image;
        let (short, long) = (width.min(height), width.max(height));
        let sized = |side: Length| {
            Length::inches(7).times_ratio(side.units(), long.units()).max(short.min(Length::inches(4)))
        };
        one.image = Size::new(sized(width), sized(height));
        (plan.pieces, plan.shared, plan.fixtures) = (vec![one], None, Vec::new());
        plan.wall.size = Size::inches(9, 8);
        plan.wall.skirting = Length::ZERO;
        plan.viewing.figure = None;
        (plan.group.across, plan.group.up) = (GroupAcross::WallMiddle, GroupUp::CentreAt(Length::inches(4)));
        plan.viewing.eye_level = Length::inches(4);
        (plan.viewing.distance, plan.viewing.aside) =
            (Length::inches(14), ViewerOffset::Left(Length::inches(10)));
        let sheet = Sheet { view: View::Oblique, ..sheet.clone() };
        self.small_room(&plan, &sheet)
    }

    /// The drawing as a picture to hand on, with title and sizes in a strip below it, and its height at this width: sRGB, four
    /// bytes a pixel.
    #[must_use]
    pub fn captioned(&self, sheet: &Sheet) -> (Vec<u8>, u32) {
        let sheet = Sheet::new(sheet.width_px, captioned::height(&self.scene, sheet)).with_look_of(sheet);
        let copies = linked::shown(&self.plan, &self.copies, &self.sketches);
        (captioned::captioned(&self.scene, &copies, &sheet, &self.caption()), sheet.height_px)
    }

    /// A part of a print as it is on the wall, with its surface, on a sheet of the wall's paint; from the pixels of its file that are
    /// needed or, where there are none, from the copy on the desk. sRGB, four bytes a pixel.
    #[must_use]
    pub fn true_print(&self, part: &TruePart, piece: usize, pixels: &[u8], sheet: &Sheet) -> Option<Vec<u8>> {
        let picture = self.plan.pictures.get(part.picture)?;
        let file_px = (picture.width_px, picture.height_px);
        let print = match Raster::new(part.needed[2], part.needed[3], pixels.to_vec()) {
            Some(own) => part.scaled(&own),
            None => part.scaled_copy(self.copy(&picture.name)?, file_px),
        };
        let sheen = Sheen::of(&self.plan.pieces.get(piece)?.finish);
        draw::print_on_wall(&print, part, sheen, &self.plan, sheet)
    }

    /// The wall without lines, through the window of a sheet: sRGB, four bytes a pixel.
    #[must_use]
    pub fn wall_through(&self, sheet: &Sheet) -> Option<Vec<u8>> {
        let copies = linked::shown(&self.plan, &self.copies, &self.sketches);
        let sheet = Sheet { lines: false, ..sheet.clone() };
        Some(Painter::default().draw(&self.scene, &copies, &sheet).pixels.to_vec())
    }

    /// What a picture of the plan is called: its title, and what hangs, by its outside.
    #[must_use]
    pub fn caption(&self) -> String {
        let places = &self.figures.arranged.outsides;
        let texts = places.iter().map(|place| crate::measure::shown_size(place.size, self.plan.units));
        let is_one = places.iter().all(|place| place.size == places[0].size);
        let each = if places.len() > 1 && is_one { "each " } else { "" };
        [&self.plan.title, ": ", each, &each_once(texts).join(", "), " outside"].concat()
    }

    /// The copies of the plan's pictures, in their order.
    #[must_use]
    pub fn all_copies(&self) -> Vec<Option<&draw::LoadedPicture>> {
        linked::shown(&self.plan, &self.copies, &self.sketches)
    }

    pub(super) fn small_room(&self, plan: &Plan, sheet: &Sheet) -> Option<Vec<u8>> {
        let scene = scene(plan, &Figures::of(plan).ok()?);
        let copies = linked::shown(plan, &self.copies, &self.sketches);
        Some(Painter::default().draw(&scene, &copies, &small_sheet(sheet)).pixels.to_vec())
    }
}

fn small_sheet(sheet: &Sheet) -> Sheet {
    Sheet { pixel_ratio: sheet.pixel_ratio * SMALLER, lines: false, ..sheet.clone() }
}
