//! What the page would otherwise have to work out for itself from plan files, handles and the names of fields.

use super::view::{FieldView, WantedCopy};
use super::{Desk, Handed, handed};
use crate::field::Field;
use crate::plan::{self, Picture, file};
use crate::{desk::Held, proposal};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::{JsError, prelude::wasm_bindgen};

/// What the list of kept plans needs to know of a plan file.
#[derive(Serialize, Tsify)]
pub struct PlanFacts {
    /// Its title.
    pub title: String,
    /// The pictures that it names.
    pub pictures: Vec<WantedCopy>,
}

/// The fields of a crop.
#[derive(Serialize, Tsify)]
pub struct CropView {
    /// Whether it is one crop for all pieces, which share a picture.
    pub shared: bool,
    /// Its middle, from the picture's left.
    pub across: FieldView,
    /// Its middle, from the picture's top.
    pub down: FieldView,
}

impl WantedCopy {
    fn of(Picture { name, file, width_px, height_px, .. }: Picture) -> Self {
        Self { name, file, width_px, height_px }
    }
}

#[wasm_bindgen]
impl Desk {
    /// What a plan file says of itself.
    pub fn plan_facts(text: &str) -> Handed<PlanFacts> {
        let plan = file::read(text)?;
        let pictures = plan.pictures.into_iter().map(WantedCopy::of).collect();
        handed(PlanFacts { title: plan.title, pictures })
    }

    /// The piece under a point in CSS pixels.
    pub fn piece_under(&self, x: f32, y: f32) -> Option<usize> {
        match self.desk.under(self.projection?, x * self.pixel_ratio, y * self.pixel_ratio)? {
            Held::Group(piece) => Some(piece),
            Held::Fixture(_) | Held::Corner(_) | Held::Picture(_) => None,
        }
    }

    /// The crop of the picture in a piece; none where there is no picture.
    pub fn crop(&self, piece: u32) -> Result<Option<Ts<CropView>>, JsError> {
        let view = |across, down, shared| {
            Some(CropView { shared, across: self.field_view(across)?, down: self.field_view(down)? })
        };
        let piece = usize::try_from(piece).unwrap_or(usize::MAX);
        let of_piece = |row| Field::piece(row, piece);
        let crop = view((&plan::SPLIT_FOCUS_ACROSS).into(), (&plan::SPLIT_FOCUS_DOWN).into(), true)
            .or_else(|| view(of_piece(&plan::PIECE_FOCUS_ACROSS), of_piece(&plan::PIECE_FOCUS_DOWN), false));
        crop.map(handed).transpose()
    }

    /// The sizes that the recipient of a proposal looks for first, each as a line.
    pub fn brief_sizes(&self) -> Vec<String> {
        proposal::brief_sizes(self.desk.plan(), self.desk.figures())
    }
}
