//! What a stock file consists of: the rows of each list, for reading and writing it, for its limits and for its schema.

use super::check::RowFault;
use super::limits::{GRAMS_PER_SQUARE_METRE, KG_PER_M3, NAME, PARCEL_GRAMS, VOLUME_DIVISOR};
use super::{Bar, Density, Parcel, Profile, Roll, SheetStock, StandardSize, Stick, Tube, VolumeDivisor};
use crate::described::{
    Absent, Entry, Form, Item, Leaf, Member, OneOf, Row, Slot, Thing, Variants, Words, maybe_filled,
};
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::limits::{PIECE, ROOM};

/// A text on one line.
const TEXT: Form = Form::Text { most: NAME, may_be_empty: false };
const FLAG: Form = Form::Flag(Words::NONE);
const MAYBE: Form = Form::maybe(Words::NONE);

/// What the row of a list is called.
const fn named(about: &'static str) -> Row {
    Row::new("", "name", 0, "name", about, TEXT).needed()
}

/// A length that has to be there, of more than nothing.
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
    fn wrong(&self) -> Option<RowFault>;
}

/// Describes the row of a list: its members, what it is called and what can be wrong with it.
macro_rules! listed {
    ($type:ident, $title:literal, $form:literal, $called:expr, $wrong:expr, ($($field:ident),*) => [$($member:expr),* $(,)?]) => {
        impl Thing for $type {
            fn title(&self) -> (&'static str, &'static str) {
                ($title, "")
            }

            fn members(&mut self) -> Vec<Member<'_>> {
                let Self { $($field),* } = self;
                vec![$($member),*]
            }
        }

        impl Item for $type {
            fn next(_before: &[Self]) -> Self {
                Self::default()
            }
        }

        impl Listed for $type {
            const FORM: &'static str = $form;

            fn called(&self) -> &str {
                let called: fn(&Self) -> &str = $called;
                called(self)
            }

            fn wrong(&self) -> Option<RowFault> {
                let wrong: fn(&Self) -> Option<RowFault> = $wrong;
                wrong(self)
            }
        }
    };
}

listed!(StandardSize, "Size", "List", |row| &row.name, |_| None, (name, series, system, size, is_print, is_frame) => [
    Member::of(const { &named("What it is called, its own among the sizes.") }, name),
    Member::of(const { &Row::new("", "series", 0, "series", "The series it belongs to.", TEXT).needed() }, series),
    Member::choice(
        const { &Row::choice("", "system", 0, "", "The system of units in which it is defined.").needed() },
        system,
    ),
    Member::of(&SIZE, size),
    Member::of(const { &flag("print", "Whether prints of it are on offer.") }, is_print),
    Member::of(const { &flag("frame", "Whether frames of this nominal size are on offer.") }, is_frame),
]);

listed!(Roll, "Roll", "List2", |row| &row.name, |row| {
    let Roll { margin, width, .. } = *row;
    (margin * 2 >= width).then_some(RowFault::Margins { margin, width })
}, (name, width, margin, longest) => [
    Member::of(const { &named("What it is called, its own among the rolls.") }, name),
    Member::of(const { &measure("width", "width", "Width of the roll.") }, width),
    Member::of(
        const { &or_nothing("margin", "margin", "Left unprinted along each edge of the roll; nothing when left out.") },
        margin,
    ),
    maybe_filled(
        const { &maybe("longest", "The longest print; any length when left out.") },
        longest,
        const { &at_most("longest print") },
        Length::ZERO,
    ),
]);

listed!(SheetStock, "Sheet", "List3", |row| &row.name, |_| None, (name, material, thickness, size, grams_per_square_metre) => [
    Member::of(const { &named("What it is called, its own among the sheets.") }, name),
    Member::choice(&MATERIAL, material),
    Member::of(const { &measure("thickness", "thickness", "") }, thickness),
    Member::of(&SIZE, size),
    maybe_filled(
        const { &maybe("grams_per_square_metre", "Its own weight; reckoned by the density of its material when left out.") },
        grams_per_square_metre,
        const { &number("", "grams of a square metre", "", GRAMS_PER_SQUARE_METRE) },
        0,
    ),
]);

listed!(Profile, "Profile", "List4", |row| &row.name, |row| {
    let Profile { is_floater, face, rabbet_width, rabbet_depth, depth, .. } = *row;
    if rabbet_width > face {
        Some(RowFault::Lip { rabbet: rabbet_width, face })
    } else if rabbet_depth > depth {
        Some(RowFault::Deep { rabbet: rabbet_depth, depth })
    } else {
        let has_rabbet = (rabbet_width, rabbet_depth) != (Length::ZERO, Length::ZERO);
        (is_floater && has_rabbet).then_some(RowFault::Floater)
    }
}, (name, is_floater, face, rabbet_width, rabbet_depth, depth, material) => [
    Member::of(const { &named("What it is called, its own among the mouldings.") }, name),
    Member::of(
        const { &flag("floater", "Whether it stands round a canvas with a gap, and has no rabbet.") },
        is_floater,
    ),
    Member::of(const { &measure("face", "face", "Width of its face.") }, face),
    Member::of(
        const { &or_nothing("rabbet_width", "rabbet's width", "Width of the rabbet; none when left out.") },
        rabbet_width,
    ),
    Member::of(
        const { &or_nothing("rabbet_depth", "rabbet's depth", "Depth of the rabbet; none when left out.") },
        rabbet_depth,
    ),
    Member::of(const { &measure("depth", "depth", "From its back to its front.") }, depth),
    Member::choice(&MATERIAL, material),
]);

listed!(Stick, "Stick", "List5", |row| &row.name, |row| {
    let Stick { length, trim, .. } = *row;
    (trim >= length).then_some(RowFault::Trim { trim, length })
}, (name, length, kerf, trim) => [
    Member::of(const { &named("What it is called, its own among the sticks.") }, name),
    Member::of(const { &measure("length", "length", "") }, length),
    Member::of(
        const { &or_nothing("kerf", "kerf", "What the saw takes with each cut; nothing when left out.") },
        kerf,
    ),
    Member::of(const { &or_nothing("trim", "trim", "Cut off its two ends together; nothing when left out.") }, trim),
]);

listed!(Parcel, "Parcel", "List6", |row| &row.name, |_| None, (name, longest, length_and_girth, most_grams, volume_divisor) => [
    Member::of(const { &named("What it is called, its own among the parcels.") }, name),
    maybe_filled(
        const { &maybe("longest", "The longest side; any when left out.") },
        longest,
        const { &at_most("longest side") },
        Length::ZERO,
    ),
    maybe_filled(
        const { &maybe("length_and_girth", "The longest side and the girth, L + 2(W + H); any when left out.") },
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
]);

static DIVISORS: Variants = Variants {
    name: "Divisor",
    about: "",
    entries: &[
        Entry::new("cubic_inches_per_pound", 0, "").about("So many cubic inches to the pound."),
        Entry::new("cubic_centimetres_per_kilogram", 1, "")
            .about("So many cubic centimetres to the kilogram."),
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

listed!(Tube, "Tube", "List7", |row| &row.name, |_| None, (name, diameter, spare) => [
    Member::of(const { &named("What it is called, its own among the tubes.") }, name),
    Member::of(const { &measure("diameter", "diameter", "Its diameter within.") }, diameter),
    Member::of(
        const {
            &or_nothing(
                "spare",
                "spare length",
                "By how much it is longer than the print within it; nothing when left out.",
            )
        },
        spare,
    ),
]);

listed!(Density, "Density", "List8", |row| row.material.name(), |row| {
    let Density { kg_per_m3, least, most, .. } = *row;
    (least > kg_per_m3 || kg_per_m3 > most).then_some(RowFault::Order { kg_per_m3, least, most })
}, (material, kg_per_m3, least, most, source) => [
    Member::choice(const { &Row::choice("", "material", 0, "", "Of what.").needed() }, material),
    Member::of(
        const { &number("kg_per_m3", "density", "Kilograms to the cubic metre, most likely.", KG_PER_M3) },
        kg_per_m3,
    ),
    Member::of(const { &number("least", "least", "The least that is met with.", KG_PER_M3) }, least),
    Member::of(const { &number("most", "most", "The most that is met with.", KG_PER_M3) }, most),
    Member::of(const { &Row::new("", "source", 0, "source", "Where the numbers are from.", TEXT).needed() }, source),
]);

listed!(Bar, "Bar", "List9", |row| &row.name, |_| None, (name, depth, width) => [
    Member::of(const { &named("What it is called, its own among the bars.") }, name),
    Member::of(const { &measure("depth", "depth", "From its back to the face of the canvas.") }, depth),
    Member::of(const { &measure("width", "width", "Its width, seen from the back.") }, width),
]);
