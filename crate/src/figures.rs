//! Figures: everything that follows from a plan, worked out once and handed on.
//!
//! ```
//! use overmantel::{figures::Figures, length::Length, plan::Plan};
//! let figures = Figures::of(&Plan::starting()).unwrap();
//! assert_eq!(figures.arranged.group.y, Length::inches(42), "a sofa of 34 in and 8 in above it");
//! ```

use crate::arrange::{Arranged, arrange};
use crate::framing::{BuildUp, build_up, build_up_shared};
use crate::geometry::Rect;
use crate::hang::{Hanging, hang};
use crate::plan::{Arrangement, Plan};
use crate::print::{Cut, fill, split};

/// Everything that follows from a plan. Lists are in the order of the plan's pieces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figures {
    /// The sizes of each piece.
    pub build_ups: Vec<BuildUp>,
    /// Where everything is.
    pub arranged: Arranged,
    /// What each piece shows of its picture; `None` while it has none.
    pub cuts: Vec<Option<Cut>>,
    /// What each piece hangs by.
    pub hanging: Vec<Hanging>,
}

impl Figures {
    /// Works out a plan.
    ///
    /// # Errors
    /// When the plan has no answer, a plain sentence that says why, beginning with which piece it concerns.
    pub fn of(plan: &Plan) -> Result<Self, String> {
        plan.check()?;
        let which = |index: usize, why: &dyn std::fmt::Display| match plan.pieces.len() {
            1 => why.to_string(),
            _ => format!("piece {}: {why}", index + 1),
        };
        let build_ups = match plan.shared {
            Some(shared) => {
                build_up_shared(&plan.pieces, shared, &plan.group).map_err(|why| why.to_string())?
            }
            None => plan
                .pieces
                .iter()
                .enumerate()
                .map(|(index, piece)| build_up(piece).map_err(|why| which(index, &why)))
                .collect::<Result<Vec<_>, _>>()?,
        };
        let outsides: Vec<_> = build_ups.iter().map(|sizes| sizes.outside).collect();
        let arranged = arrange(plan, &outsides);
        let hanging = arranged
            .outsides
            .iter()
            .enumerate()
            .map(|(index, &outside)| hang(outside, plan.fixing).map_err(|why| which(index, &why)))
            .collect::<Result<Vec<_>, _>>()?;
        let cuts = cuts(plan, &build_ups, &arranged);
        Ok(Self { build_ups, arranged, cuts, hanging })
    }

    /// A rectangle of a piece's build-up, on the wall.
    #[must_use]
    pub fn on_wall(&self, piece: usize, rect: Rect) -> Rect {
        let outside = self.arranged.outsides[piece];
        rect.moved(outside.x, outside.y)
    }
}

fn cuts(plan: &Plan, build_ups: &[BuildUp], arranged: &Arranged) -> Vec<Option<Cut>> {
    let pixels = |index: usize| {
        let picture = &plan.pictures[index];
        (picture.width_px, picture.height_px)
    };
    if let Some(stated) = plan.split {
        let windows: Vec<Rect> = build_ups
            .iter()
            .zip(&arranged.outsides)
            .map(|(sizes, outside)| sizes.picture.moved(outside.x, outside.y))
            .collect();
        let stacked = plan.group.arrangement == Arrangement::Column;
        return split(pixels(stated.picture), &windows, stated.strips, stacked, stated.focus)
            .into_iter()
            .map(Some)
            .collect();
    }
    plan.pieces
        .iter()
        .zip(build_ups)
        .map(|(piece, sizes)| Some(fill(pixels(piece.picture?), sizes.picture.size, piece.focus)))
        .collect()
}
