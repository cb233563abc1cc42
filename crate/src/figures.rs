//! Figures: everything that follows from a plan, worked out once and handed on.
//!
//! ```
//! use overmantel::{figures::Figures, length::Length, plan::Plan};
//! let figures = Figures::of(&Plan::starting()).unwrap();
//! assert_eq!(figures.arranged.group.y, Length::inches(42), "a sofa of 34 in and 8 in above it");
//! ```

use crate::arrange::{Arranged, arrange};
use crate::framing::{BuildUp, FramingError, build_up, build_up_shared};
use crate::geometry::Rect;
use crate::hang::{HangError, Hanging, hang, hanger_places};
use crate::plan::{Plan, PlanError};
use crate::print::{Cut, fill, split};
use std::fmt;

/// Everything that follows from a plan. Lists are in the order of the plan's pieces.
///
/// ```
/// use overmantel::{figures::Figures, geometry::Size, length::Length, plan::Plan};
///
/// let figures = Figures::of(&Plan::starting())?;
/// // A mat of 20 × 24 in with 1/8 in of allowance, in a moulding of 3/4 in whose lip covers 1/4 in of it: 20 + 1/8 + 2 × 1/2 = 21 1/8.
/// let outside = figures.build_ups[0].outside;
/// assert_eq!(outside, Size::new(Length::inches_ratio(169, 8), Length::inches_ratio(201, 8)));
/// # Ok::<(), overmantel::figures::NoAnswer>(())
/// ```
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
    /// When the plan has no answer; the error says why, and which piece it concerns.
    pub fn of(plan: &Plan) -> Result<Self, NoAnswer> {
        plan.check()?;
        let several = plan.pieces.len() > 1;
        let framing = |piece: usize| move |why| NoAnswer::Framing { piece: several.then_some(piece), why };
        let hanging = |piece: usize| move |why| NoAnswer::Hanging { piece: several.then_some(piece), why };
        let build_ups = match plan.shared {
            Some(shared) => build_up_shared(&plan.pieces, shared, &plan.group)
                .map_err(|why| NoAnswer::Framing { piece: None, why })?,
            None => plan
                .pieces
                .iter()
                .enumerate()
                .map(|(index, piece)| build_up(piece).map_err(framing(index)))
                .collect::<Result<Vec<_>, _>>()?,
        };
        let outsides: Vec<_> = build_ups.iter().map(|sizes| sizes.outside).collect();
        let arranged = arrange(plan, &outsides);
        let hanging = arranged
            .outsides
            .iter()
            .enumerate()
            .map(|(index, &outside)| {
                let usual = hanger_places(&build_ups[index], plan.fixing.hanger);
                hang(outside, plan.fixing, usual).map_err(hanging(index))
            })
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

/// Why a plan has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NoAnswer {
    /// It does not hold together.
    Plan(#[from] PlanError),
    /// A piece can't be built up; its place, where there are several.
    Framing {
        /// Which piece.
        piece: Option<usize>,
        /// Why not.
        why: FramingError,
    },
    /// A piece can't hang so; its place, where there are several.
    Hanging {
        /// Which piece.
        piece: Option<usize>,
        /// Why not.
        why: HangError,
    },
}

impl fmt::Display for NoAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Self::Framing { piece: Some(piece), .. } | Self::Hanging { piece: Some(piece), .. } = self {
            write!(f, "piece {}: ", piece + 1)?;
        }
        match self {
            Self::Plan(why) => why.fmt(f),
            Self::Framing { why, .. } => why.fmt(f),
            Self::Hanging { why, .. } => why.fmt(f),
        }
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
        let arrangement = plan.group.arrangement;
        return split(pixels(stated.picture), &windows, stated.strips, arrangement, stated.focus)
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
