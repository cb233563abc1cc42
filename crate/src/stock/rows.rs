//! What a stock file consists of: the rows of each list, for reading and writing it, for its limits and for its schema.

use super::check::RowFault;
use super::limits::{GRAMS_PER_SQUARE_METRE, KG_PER_M3, NAME, PARCEL_GRAMS, VOLUME_DIVISOR};
use super::{Density, Parcel, Roll, SheetStock, StandardSize, Tube, VolumeDivisor};
use crate::described::{
    Absent, Entry, Form, Item, Leaf, Member, OneOf, Row, Slot, Thing, Variants, Words, maybe_filled,
};
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::limits::{PIECE, ROOM};

mod hangers;
mod rails;

/// A text on one line.
const TEXT: Form = Form::Text { most: NAME, may_be_empty: false };
const FLAG: Form = Form::Flag(Words::NONE);
const MAYBE: Form = Form::maybe(Words::NONE);

/// What the row of a list is called.
const fn named(about: &'static str) -> Row {
    Row::new("", "name", 0, "name", about, TEXT).needed()
}

/// A length that has to be there, of more than zero.
const fn measure(key: &'static str, label: &'static str, about: &'static str) -> Row {
    Row::length("", key, 0, label, about, Length::ZERO).range(Length::from_units(1), PIECE).needed()
}

/// A length that is nothing where it is left out.
const fn or_nothing(key: &'static str, label: &'static str, about: &'static str) -> Row {
    Row::length("", key, 0, label, about, Length::ZERO).range(Length::ZERO, PIECE).absent(Absent::Usual)
}

/// What may be missing.
const fn maybe(key: &'static str, about: &'static str) -> Row {
    Row::new("", key, 0, "", about, MAYBE).absent(Absent::Usual)
}

/// A length of up to 100 m within what may be missing.
const fn at_most(label: &'static str) -> Row {
    Row::length("", "", 0, label, "", Length::ZERO).range(Length::from_units(1), ROOM)
}

/// A number from one on.
const fn number(key: &'static str, label: &'static str, about: &'static str, most: u32) -> Row {
    let form = Form::Number { least: 1, most: most as i64, usual: 1, unit: "" };
    Row::new("", key, 0, label, about, form).needed()
}

const fn flag(key: &'static str, about: &'static str) -> Row {
    Row::new("", key, 0, "", about, FLAG).absent(Absent::Default)
}

static WIDTH: Row = measure("", "width", "");
static HEIGHT: Row = measure("", "height", "");
static SIZE: Row = Row::new(
    "",
    "size",
    0,
    "size",
    "Width and height; it can be turned.",
    Form::Size { most: PIECE, usual: Size::new(Length::ZERO, Length::ZERO), sides: Some([&WIDTH, &HEIGHT]) },
)
.needed();
static MATERIAL: Row = Row::choice("", "material", 0, "", "What it is made of.").needed();

/// A row of a list.
pub(super) trait Listed: Item + Default + 'static {
    /// The name of its list in the schema.
    const FORM: &'static str;

    /// What it is called, its own within the list.
    fn called(&self) -> &str;

    /// What is wrong with it that no range says.
    fn wrong(&self) -> Option<RowFault> {
        None
    }
}

impl Thing for StandardSize {
    fn title(&self) -> (&'static str, &'static str) {
        ("Size", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, series, system, size, is_print, is_frame } = self;
        vec![
            Member::of(const { &named("What it is called; no two sizes share a name.") }, name),
            Member::of(
                const { &Row::new("", "series", 0, "series", "The series it belongs to.", TEXT).needed() },
                series,
            ),
            Member::choice(
                const { &Row::choice("", "system", 0, "", "The system of units in which it is defined.").needed() },
                system,
            ),
            Member::of(&SIZE, size),
            Member::of(const { &flag("print", "Whether prints of it are on offer.") }, is_print),
            Member::of(
                const { &flag("frame", "Whether frames of this nominal size are on offer.") },
                is_frame,
            ),
        ]
    }
}

impl Item for StandardSize {}

impl Listed for StandardSize {
    const FORM: &'static str = "List";

    fn called(&self) -> &str {
        &self.name
    }
}

impl Thing for Roll {
    fn title(&self) -> (&'static str, &'static str) {
        ("Roll", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, width, margin, longest } = self;
        vec![
            Member::of(const { &named("What it is called; no two rolls share a name.") }, name),
            Member::of(const { &measure("width", "width", "Width of the roll.") }, width),
            Member::of(
                const {
                    &or_nothing(
                        "margin",
                        "margin",
                        "Left unprinted along each edge of the roll; 0 when left out.",
                    )
                },
                margin,
            ),
            maybe_filled(
                const { &maybe("longest", "The longest print; any length when left out.") },
                longest,
                const { &at_most("longest print") },
                Length::ZERO,
            ),
        ]
    }
}

impl Item for Roll {}

impl Listed for Roll {
    const FORM: &'static str = "List2";

    fn called(&self) -> &str {
        &self.name
    }

    fn wrong(&self) -> Option<RowFault> {
        let Roll { margin, width, .. } = *self;
        (margin * 2 >= width).then_some(RowFault::Margins { margin, width })
    }
}

impl Thing for SheetStock {
    fn title(&self) -> (&'static str, &'static str) {
        ("Sheet", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, material, thickness, size, grams_per_square_metre } = self;
        vec![
            Member::of(const { &named("What it is called; no two sheets share a name.") }, name),
            Member::choice(&MATERIAL, material),
            Member::of(const { &measure("thickness", "thickness", "") }, thickness),
            Member::of(&SIZE, size),
            maybe_filled(
                const {
                    &maybe(
                        "grams_per_square_metre",
                        "Its own weight; calculated from the density of its material when left out.",
                    )
                },
                grams_per_square_metre,
                const { &number("", "grams per square metre", "", GRAMS_PER_SQUARE_METRE) },
                0,
            ),
        ]
    }
}

impl Item for SheetStock {}

impl Listed for SheetStock {
    const FORM: &'static str = "List3";

    fn called(&self) -> &str {
        &self.name
    }
}

impl Thing for Parcel {
    fn title(&self) -> (&'static str, &'static str) {
        ("Parcel", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, longest, length_and_girth, most_grams, volume_divisor } = self;
        vec![
            Member::of(const { &named("What it is called; no two parcels share a name.") }, name),
            maybe_filled(
                const { &maybe("longest", "The longest side; any when left out.") },
                longest,
                const { &at_most("longest side") },
                Length::ZERO,
            ),
            maybe_filled(
                const {
                    &maybe(
                        "length_and_girth",
                        "The longest side and the girth, L + 2(W + H); any when left out.",
                    )
                },
                length_and_girth,
                const { &at_most("length and girth") },
                Length::ZERO,
            ),
            maybe_filled(
                const { &maybe("most_grams", "The heaviest, in grams; any when left out.") },
                most_grams,
                const { &number("", "weight in grams", "", PARCEL_GRAMS) },
                0,
            ),
            maybe_filled(
                const { &maybe("volume_divisor", "How volume is charged as weight; not at all when left out.") },
                volume_divisor,
                const { &Row::new("", "", 0, "", "", Form::tagged()) },
                VolumeDivisor::CubicInchesPerPound(0),
            ),
        ]
    }
}

impl Item for Parcel {}

impl Listed for Parcel {
    const FORM: &'static str = "List6";

    fn called(&self) -> &str {
        &self.name
    }
}

static DIVISORS: Variants = Variants {
    name: "Divisor",
    about: "",
    entries: &[
        Entry::new("cubic_inches_per_pound", 0, "").about("Cubic inches per pound."),
        Entry::new("cubic_centimetres_per_kilogram", 1, "").about("Cubic centimetres per kilogram."),
    ],
};

impl OneOf for VolumeDivisor {
    fn variants(&self) -> &'static Variants {
        &DIVISORS
    }

    fn place(&self) -> usize {
        usize::from(matches!(self, Self::CubicCentimetresPerKilogram(_)))
    }

    fn turn(&mut self, place: usize) {
        let (Self::CubicInchesPerPound(count) | Self::CubicCentimetresPerKilogram(count)) = *self;
        *self = [Self::CubicInchesPerPound(count), Self::CubicCentimetresPerKilogram(count)][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let (Self::CubicInchesPerPound(count) | Self::CubicCentimetresPerKilogram(count)) = self;
        vec![Member::of(const { &number("", "divisor of the volume", "", VOLUME_DIVISOR) }, count)]
    }
}

impl Leaf for VolumeDivisor {
    fn slot(&mut self) -> Slot<'_> {
        Slot::OneOf(Box::new(self))
    }
}

impl Thing for Tube {
    fn title(&self) -> (&'static str, &'static str) {
        ("Tube", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, diameter, spare } = self;
        vec![
            Member::of(const { &named("What it is called; no two tubes share a name.") }, name),
            Member::of(const { &measure("diameter", "diameter", "Its inside diameter.") }, diameter),
            Member::of(
                const {
                    &or_nothing(
                        "spare",
                        "spare length",
                        "By how much it is longer than the print inside it; 0 when left out.",
                    )
                },
                spare,
            ),
        ]
    }
}

impl Item for Tube {}

impl Listed for Tube {
    const FORM: &'static str = "List7";

    fn called(&self) -> &str {
        &self.name
    }
}

impl Thing for Density {
    fn title(&self) -> (&'static str, &'static str) {
        ("Density", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { material, kg_per_m3, least, most, source } = self;
        vec![
            Member::choice(const { &Row::choice("", "material", 0, "", "The material.").needed() }, material),
            Member::of(
                const {
                    &number("kg_per_m3", "density", "Kilograms per cubic metre, the likely value.", KG_PER_M3)
                },
                kg_per_m3,
            ),
            Member::of(
                const { &number("least", "least", "The lowest value in practice.", KG_PER_M3) },
                least,
            ),
            Member::of(const { &number("most", "most", "The highest value in practice.", KG_PER_M3) }, most),
            Member::of(
                const { &Row::new("", "source", 0, "source", "Where the numbers come from.", TEXT).needed() },
                source,
            ),
        ]
    }
}

impl Item for Density {}

impl Listed for Density {
    const FORM: &'static str = "List8";

    fn called(&self) -> &str {
        self.material.name()
    }

    fn wrong(&self) -> Option<RowFault> {
        let Density { kg_per_m3, least, most, .. } = *self;
        (least > kg_per_m3 || kg_per_m3 > most).then_some(RowFault::Order { kg_per_m3, least, most })
    }
}
