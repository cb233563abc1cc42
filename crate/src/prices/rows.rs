//! What a price book consists of: its rows, for reading it and for its schema.

use super::{Book, By, PriceRow, PricedPart, Rounding, Tax, limits};
use crate::described::{
    Absent, Choosable, Entry, Form, ITSELF, Item, Member, OneOf, Row, Thing, Variants, Words, maybe_filled,
};
use crate::geometry::Size;
use crate::length::{Length, Unit};
use crate::plan::Coating;
use crate::plan::limits::PIECE;
use crate::rounding::Mode;

/// The longest that a price is for: 20 m.
const MOST: Length = Length::from_units(2 * PIECE.units());

#[rustfmt::skip]
mod members {
    use super::{Absent, Form, Length, MOST, Row, Size, Words, limits};

    const AMOUNT: Form = Form::Amount { most: limits::AMOUNT };
    const FLAG: Form = Form::Flag(Words::NONE);
    const ANY_TEXT: Form = Form::Text { most: usize::MAX, may_be_empty: true };
    const SIZE: Form = Form::Size { most: MOST, usual: Size::new(Length::ZERO, Length::ZERO), sides: None };
    const ANY_LIST: Form = Form::List { least: 0, most: usize::MAX, what: "prices" };

    pub(super) static NAME: Row = Row::new("", "name", 0, "name", "What it is called.", Form::Text { most: limits::NAME, may_be_empty: false }).needed();
    pub(super) static EXAMPLE: Row = Row::new("", "example", 0, "", "Whether it is only an example: nobody sells at its prices.", FLAG).absent(Absent::Default);
    pub(super) static CURRENCY: Row = Row::new("", "currency", 0, "currency", "The currency, as written in front of an amount.", Form::Text { most: 8, may_be_empty: false }).needed();
    pub(super) static TAX: Row = Row::new("", "tax", 0, "", "The tax, where it is shown.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static ROUNDING: Row = Row::new("", "rounding", 0, "", "What the subtotal is rounded to, before a tax on top of it. When left out, it is rounded to the hundredth only.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static ROWS: Row = Row::new("", "rows", 0, "", "Prices. The first row that fits a part counts; of discounts, every row that fits.", Form::List { least: 0, most: limits::ROWS, what: "rows" }).needed();

    pub(super) static PERCENT: Row = Row::new("", "percent", 0, "", "In percent, with at most two decimals.", AMOUNT).needed();
    pub(super) static INCLUDED: Row = Row::new("", "included", 0, "", "Whether the prices include it.", FLAG).absent(Absent::Default);

    pub(super) static TO: Row = Row::new("", "to", 0, "", "To a whole number of this amount.", AMOUNT).needed();
    pub(super) static MODE: Row = Row::choice("", "mode", 0, "", "Which way.").needed();

    pub(super) static FOR: Row = Row::choice("", "for", 0, "", "The part it is for.").needed();
    pub(super) static ONLY: Row = Row::new("", "only", 0, "", "Only for this: a moulding from the stock list, a wood or a board by its name, an original by its title or its file, a mat or an edge by its colour; an extra, packing, shipping, hanging, handling, a discount, a tax or a deposit only when it is chosen by this name.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static ONLY_NAME: Row = Row::new("", "", 0, "", "", ANY_TEXT);
    pub(super) static BY: Row = Row::new("", "by", 0, "", "How it is calculated.", Form::tagged()).needed();
    pub(super) static BY_AMOUNT: Row = Row::new("", "", 0, "", "", AMOUNT);
    pub(super) static BY_LIST: Row = Row::new("", "", 0, "", "", ANY_LIST);

    pub(super) static SIZE_SIZE: Row = Row::new("", "size", 0, "size", "Width and height, as text with their unit.", SIZE).needed();
    pub(super) static SIZE_PRICE: Row = Row::new("", "price", 0, "", "The price of it.", AMOUNT).needed();
    pub(super) static STEP_UP_TO: Row = Row::length("", "up_to", 0, "width and height of a step", "The largest sum of width and height, as text with its unit.", Length::ZERO).range(Length::from_units(1), MOST).needed();
    pub(super) static STEP_PRICE: Row = Row::new("", "price", 0, "", "The price up to that size.", AMOUNT).needed();
}
use members::*;

impl Thing for Book {
    fn title(&self) -> (&'static str, &'static str) {
        ("Book", "A price book of Overmantel: a maker's own prices.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        // What is asked for is no part of a file.
        let Self { name, is_example, currency, tax, rounding, rows, asked: _ } = self;
        vec![
            Member::of(&NAME, name),
            Member::of(&EXAMPLE, is_example),
            Member::of(&CURRENCY, currency),
            maybe_filled(&TAX, tax, &ITSELF, Tax { basis_points: 0, is_included: false }),
            maybe_filled(&ROUNDING, rounding, &ITSELF, Rounding { to: 100, mode: Mode::HalfAway }),
            Member::list(&ROWS, rows),
        ]
    }
}

impl Thing for Rounding {
    fn title(&self) -> (&'static str, &'static str) {
        ("Rounding", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { to, mode } = self;
        vec![Member::of(&TO, to), Member::choice(&MODE, mode)]
    }
}

impl Choosable for Mode {
    const NAME: &'static str = "Mode";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Up, Entry::new("up", 0, "up")),
        (Self::Down, Entry::new("down", 1, "down")),
        (Self::HalfAway, Entry::new("nearest", 2, "to the nearest")),
    ];
}

impl Thing for Tax {
    fn title(&self) -> (&'static str, &'static str) {
        ("Tax", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { basis_points, is_included } = self;
        vec![Member::of(&PERCENT, basis_points), Member::of(&INCLUDED, is_included)]
    }
}

impl Choosable for PricedPart {
    const NAME: &'static str = "Part";
    /// In the order of the lines.
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Original, Entry::new("original", 0, "original")),
        (Self::Paper, Entry::new("paper", 1, "paper")),
        (Self::Canvas, Entry::new("canvas", 2, "canvas")),
        (Self::Aluminium, Entry::new("aluminium", 3, "aluminium")),
        (Self::EdgeCarried, Entry::new("edge_carried", 4, "image wrapped round the edge")),
        (Self::EdgeMirrored, Entry::new("edge_mirrored", 5, "mirrored wrap")),
        (Self::EdgePlain, Entry::new("edge_plain", 6, "solid edge")),
        (Self::Mat, Entry::new("mat", 7, "mat")),
        (Self::Frame, Entry::new("frame", 8, "frame")),
        (Self::Floater, Entry::new("floater", 9, "floater")),
        (Self::Glass(Coating::Plain), Entry::new("glass", 10, "glass")),
        (Self::Glass(Coating::Uv), Entry::new("glass_uv", 11, "glass with a UV filter")),
        (
            Self::Glass(Coating::AntiReflective),
            Entry::new("glass_anti_reflective", 12, "anti-reflective glass"),
        ),
        (
            Self::Glass(Coating::UvAntiReflective),
            Entry::new("glass_uv_anti_reflective", 13, "anti-reflective glass with a UV filter"),
        ),
        (Self::Acrylic(Coating::Plain), Entry::new("acrylic", 14, "acrylic")),
        (Self::Acrylic(Coating::Uv), Entry::new("acrylic_uv", 15, "acrylic with a UV filter")),
        (
            Self::Acrylic(Coating::AntiReflective),
            Entry::new("acrylic_anti_reflective", 16, "anti-reflective acrylic"),
        ),
        (
            Self::Acrylic(Coating::UvAntiReflective),
            Entry::new("acrylic_uv_anti_reflective", 17, "anti-reflective acrylic with a UV filter"),
        ),
        (Self::Mount, Entry::new("mount", 18, "mount board")),
        (Self::Backing, Entry::new("backing", 19, "backing")),
        (Self::Handling, Entry::new("handling", 20, "handling")),
        (Self::Extra, Entry::new("extra", 21, "extra")),
        (Self::Packing, Entry::new("packing", 22, "packing")),
        (Self::Shipping, Entry::new("shipping", 23, "shipping")),
        (Self::Hanging, Entry::new("hanging", 24, "hanging")),
        (Self::Discount, Entry::new("discount", 25, "discount")),
        (Self::Tax, Entry::new("tax", 26, "tax")),
        (Self::Deposit, Entry::new("deposit", 27, "deposit")),
    ];
}

impl Thing for PriceRow {
    fn title(&self) -> (&'static str, &'static str) {
        ("Row", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { part, only, by } = self;
        vec![
            Member::choice(&FOR, part),
            maybe_filled(&ONLY, only, &ONLY_NAME, String::new()),
            Member::one_of(&BY, by),
        ]
    }
}

impl Default for PriceRow {
    fn default() -> Self {
        Self { part: PricedPart::Paper, only: None, by: By::Each(0) }
    }
}

impl Item for PriceRow {}

static BYS: Variants = Variants {
    name: "By",
    about: "",
    entries: &[
        Entry::new("each", 0, "").about("For each piece."),
        Entry::new("size", 1, "").about("By this exact size, either way round."),
        Entry::new("square_foot", 2, "").about("By the area."),
        Entry::new("square_metre", 3, "").about("By the area."),
        Entry::new("united_inch", 4, "").about("By width and height together."),
        Entry::new("united_centimetre", 5, "").about("By width and height together."),
        Entry::new("steps", 6, "").about("By steps of width and height together."),
        Entry::new("foot", 7, "").about("By the length of moulding."),
        Entry::new("metre", 8, "").about("By the length of moulding."),
        Entry::new("once", 9, "").about("Once for everything; not for a part that every piece has."),
        Entry::new("percent", 10, "")
            .about("Of a discount: percent of all lines except packing, shipping and hanging. Of a tax: its rate. Of a deposit: percent of the total."),
    ],
};

/// As each stands in the table.
const FIRST: [By; 11] = [
    By::Each(0),
    By::Size(Vec::new()),
    By::Area(Unit::Foot, 0),
    By::Area(Unit::Metre, 0),
    By::United(Unit::Inch, 0),
    By::United(Unit::Centimetre, 0),
    By::Steps(Vec::new()),
    By::Moulding(Unit::Foot, 0),
    By::Moulding(Unit::Metre, 0),
    By::Once(0),
    By::Percent(0),
];

impl OneOf for By {
    fn variants(&self) -> &'static Variants {
        &BYS
    }

    fn place(&self) -> usize {
        let is_alike = |first: &Self| match (self, first) {
            (Self::Each(_), Self::Each(_))
            | (Self::Once(_), Self::Once(_))
            | (Self::Percent(_), Self::Percent(_))
            | (Self::Size(_), Self::Size(_))
            | (Self::Steps(_), Self::Steps(_)) => true,
            (Self::Area(unit, _), Self::Area(of, _))
            | (Self::United(unit, _), Self::United(of, _))
            | (Self::Moulding(unit, _), Self::Moulding(of, _)) => unit == of,
            _ => false,
        };
        FIRST.iter().position(is_alike).unwrap_or(0)
    }

    fn turn(&mut self, place: usize) {
        self.clone_from(&FIRST[place]);
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![match self {
            Self::Each(price)
            | Self::Once(price)
            | Self::Percent(price)
            | Self::Area(_, price)
            | Self::United(_, price)
            | Self::Moulding(_, price) => Member::of(&BY_AMOUNT, price),
            Self::Size(sizes) => Member::list(&BY_LIST, sizes),
            Self::Steps(steps) => Member::list(&BY_LIST, steps),
        }]
    }
}

impl Thing for (Size, i64) {
    fn title(&self) -> (&'static str, &'static str) {
        ("Size", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![Member::of(&SIZE_SIZE, &mut self.0), Member::of(&SIZE_PRICE, &mut self.1)]
    }
}

impl Item for (Size, i64) {}

impl Thing for (Length, i64) {
    fn title(&self) -> (&'static str, &'static str) {
        ("Step", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![Member::of(&STEP_UP_TO, &mut self.0), Member::of(&STEP_PRICE, &mut self.1)]
    }
}

impl Item for (Length, i64) {}
