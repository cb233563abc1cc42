//! The context of findings: a plan with all that follows from it, and what the rows of findings ask of it.
//!
//! What many rows ask is one function in the page, and not copied into each: a finding is looked for once in a change.

use super::Value;
use crate::described;
use crate::field::{Edit, Field, To};
use crate::figures::Figures;
use crate::framing::BuildUp;
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::making::{Thing, things};
use crate::measure::{Grade, shown, shown_size};
use crate::plan::{Fixture, Framing, Piece, Plan, System};
use crate::print::Exact;
use crate::rounding::{Mode, divide};
use crate::stock::Stock;
use crate::stock::thresholds::Usual;
use std::cell::{Cell, OnceCell};

/// A plan with all that follows from it.
pub(crate) struct Context<'a> {
    pub(super) plan: &'a Plan,
    pub(super) figures: &'a Figures,
    pub(super) stock: &'a Stock,
    things: OnceCell<Vec<Thing>>,
    /// Whether a limit was asked for that a list of the user's own changes.
    own: Cell<bool>,
}

impl<'a> Context<'a> {
    pub(super) fn at(plan: &'a Plan, figures: &'a Figures, stock: &'a Stock) -> Self {
        Self { plan, figures, stock, things: OnceCell::new(), own: Cell::new(false) }
    }

    pub(super) fn forget(&self) {
        self.own.set(false);
    }

    pub(super) fn is_own(&self) -> bool {
        self.own.get()
    }

    /// A limit that is a length.
    #[inline(never)]
    pub(super) fn limit(&self, usual: &Usual) -> Length {
        self.own.set(self.own.get() || self.stock.is_own(usual));
        self.stock.limit(usual)
    }

    /// A limit that is a number.
    #[inline(never)]
    pub(super) fn number(&self, usual: &Usual) -> Exact {
        self.own.set(self.own.get() || self.stock.is_own(usual));
        let (over, under) = self.stock.limit_number(usual);
        Exact::new(over.into(), under.into())
    }

    /// What hangs.
    pub(super) fn things(&self) -> &[Thing] {
        self.things.get_or_init(|| things(self.plan, self.figures, self.stock))
    }

    /// The pieces by their number, with their sizes.
    pub(super) fn pieces(&self) -> impl Iterator<Item = (usize, &'a Piece, &'a BuildUp)> {
        let pieces = self.plan.pieces.iter().zip(&self.figures.build_ups);
        pieces.enumerate().map(|(index, (piece, sizes))| (index, piece, sizes))
    }

    /// Those of them that can be framed behind glass, with that.
    pub(super) fn framed(&self) -> impl Iterator<Item = (usize, &'a Framing, &'a BuildUp)> {
        self.pieces().filter_map(|(index, piece, sizes)| Some((index, piece.finish.framing()?, sizes)))
    }

    /// The fixtures, with where they are.
    pub(super) fn fixtures(&self) -> impl Iterator<Item = (usize, &'a Fixture, Rect)> {
        let fixtures = self.plan.fixtures.iter().zip(&self.figures.arranged.fixtures);
        fixtures.enumerate().map(|(index, (fixture, &rect))| (index, fixture, rect))
    }

    /// What hangs, in one word, to begin a sentence.
    pub(super) fn all(&self) -> &'static str {
        if self.plan.pieces.len() == 1 { "The piece" } else { "The group" }
    }

    /// One piece, to begin a sentence.
    #[inline(never)]
    pub(super) fn one(&self, piece: usize) -> String {
        if self.plan.pieces.len() == 1 {
            return String::from("the piece");
        }
        String::from("piece ") + &(piece + 1).to_string()
    }

    /// A length as a remedy tells it.
    #[inline(never)]
    pub(super) fn text(&self, length: Length) -> String {
        shown(length, Grade::Piece, self.plan.units)
    }

    /// A size as a remedy tells it.
    #[inline(never)]
    pub(super) fn size_text(&self, size: Size) -> String {
        shown_size(size, self.plan.units)
    }

    /// The measure of the plan's system of units.
    pub(super) fn in_system(&self, inches: Length, metric: Length) -> Length {
        match self.plan.units.first {
            System::Inches => inches,
            System::Centimetres => metric,
        }
    }

    /// To a mark of a rule, 1/16 in or 1 mm.
    #[inline(never)]
    pub(super) fn to_mark(&self, length: Length, mode: Mode) -> Length {
        let step = match self.plan.units.first {
            System::Inches => Length::inches_ratio(1, 16),
            System::Centimetres => Length::mm(1),
        };
        step * i64::try_from(divide(length.units().into(), step.units().into(), mode)).unwrap_or(0)
    }

    /// A length times a ratio, down to the marks of a rule.
    #[inline(never)]
    pub(super) fn of(&self, length: Length, ratio: Exact) -> Length {
        let units = i128::from(length.units()) * ratio.numer();
        self.to_mark(Length::from_ratio(units, *ratio.denom(), Mode::Down), Mode::Down)
    }

    /// A size times a ratio, down to the marks of a rule.
    pub(super) fn size_of(&self, Size { width, height }: Size, ratio: Exact) -> Size {
        Size::new(self.of(width, ratio), self.of(height, ratio))
    }
}

/// A quotient of two lengths, the second more than zero.
#[inline(never)]
pub(super) fn over(one: Length, other: Length) -> Exact {
    Exact::new(one.units().into(), i128::from(other.units()).max(1))
}

/// Gives a field a value.
#[inline(never)]
pub(super) fn set(field: impl Into<Field>, to: To) -> Edit {
    Edit { field: field.into(), to }
}

/// Gives a field a length.
#[inline(never)]
pub(super) fn set_length(field: impl Into<Field>, length: Length) -> Edit {
    Edit { field: field.into(), to: To::Length(length) }
}

/// Gives a part of some pieces a value.
#[inline(never)]
pub(super) fn on_pieces(pieces: &[usize], row: &'static described::Row, to: To) -> Vec<Edit> {
    pieces.iter().map(|&piece| Edit { field: Field::piece(row, piece), to: to.clone() }).collect()
}

/// Gives a piece an image of this size.
pub(super) fn image(piece: usize, size: Size) -> Edit {
    set(Field::piece(&crate::plan::PIECE_IMAGE, piece), To::Size(size))
}

/// A whole number of these.
pub(super) fn words(text: impl Into<String>) -> Value {
    Value::Words(text.into())
}

/// A length of a piece.
pub(super) fn length(length: Length) -> Value {
    Value::Length(length, Grade::Piece)
}

/// A length, shown finely.
pub(super) fn fine(length: Length) -> Value {
    Value::Length(length, Grade::Fine)
}

/// A length, as finely as it is cut.
pub(super) fn cut(length: Length) -> Value {
    Value::Length(length, Grade::Cut)
}
