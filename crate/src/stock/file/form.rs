//! The structs behind the stock file, and their conversion to and from the stock, by hand.

use super::super::{
    Bar, Density, Parcel, Profile, Roll, SheetStock, StandardSize, Stick, Stock, Tube, VolumeDivisor, limits,
};
use super::VERSION;
use crate::geometry::Size;
use crate::length::{Length, Unit, parse::parse, print::exact};
use crate::plan::{Material, System};
use crate::stock::thresholds::{ALL, Amount};
use serde::de::{Deserializer, Error, SeqAccess, Visitor};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::marker::PhantomData;

mod rows;
use rows::*;

type Read<T> = Result<T, String>;

/// A length as text with its unit.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(transparent)]
struct Text(#[cfg_attr(feature = "schema", schemars(length(min = 1, max = 64)))] String);

impl Text {
    fn of(length: Length) -> Self {
        Self(exact(length))
    }

    /// `None` for no length, which a file leaves out.
    fn unless_zero(length: Length) -> Option<Self> {
        (length != Length::ZERO).then(|| Self::of(length))
    }
}

/// A stock of Overmantel: what is offered by name, and what a workshop has.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel stock"))]
#[serde(deny_unknown_fields)]
pub(super) struct StockForm {
    /// Version of the form: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 1)))]
    overmantel_stock: u32,
    /// The system in which a length without a unit is read.
    #[serde(default)]
    units: SystemForm,
    /// Sizes that are sold by name.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    sizes: ListForm<SizeForm>,
    /// Rolls that can be printed on.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    rolls: ListForm<RollForm>,
    /// Boards, glazing and metal, as sheets to cut from.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    sheets: ListForm<SheetForm>,
    /// Mouldings and floater frames by their section.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    mouldings: ListForm<ProfileForm>,
    /// Lengths in which mouldings are bought.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    sticks: ListForm<StickForm>,
    /// What carriers take.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    parcels: ListForm<ParcelForm>,
    /// Tubes for what is sent rolled.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    tubes: ListForm<TubeForm>,
    /// How heavy each material is.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    densities: ListForm<DensityForm>,
    /// Bars that canvas is stretched on.
    #[serde(default, skip_serializing_if = "ListForm::is_untouched")]
    bars: ListForm<BarForm>,
    /// The limits of findings by their names, such as `"widest gap between pieces": "5 in"`; those left out are as usual.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    thresholds: BTreeMap<String, Text>,
}

impl StockForm {
    /// What the file says, over what is on offer.
    pub(super) fn over(self, offered: Stock) -> Read<Stock> {
        let reader = Reader { bare: System::from(self.units).bare_unit() };
        Ok(Stock {
            sizes: self.sizes.over("sizes", offered.sizes, reader)?,
            rolls: self.rolls.over("rolls", offered.rolls, reader)?,
            sheets: self.sheets.over("sheets", offered.sheets, reader)?,
            mouldings: self.mouldings.over("mouldings", offered.mouldings, reader)?,
            sticks: self.sticks.over("sticks", offered.sticks, reader)?,
            parcels: self.parcels.over("parcels", offered.parcels, reader)?,
            tubes: self.tubes.over("tubes", offered.tubes, reader)?,
            densities: self.densities.over("densities", offered.densities, reader)?,
            bars: self.bars.over("bars", offered.bars, reader)?,
            thresholds: thresholds(&self.thresholds, reader)?,
        })
    }

    pub(super) fn of(stock: &Stock) -> Self {
        Self {
            overmantel_stock: VERSION,
            units: SystemForm::default(),
            sizes: ListForm::of(&stock.sizes),
            rolls: ListForm::of(&stock.rolls),
            sheets: ListForm::of(&stock.sheets),
            mouldings: ListForm::of(&stock.mouldings),
            sticks: ListForm::of(&stock.sticks),
            parcels: ListForm::of(&stock.parcels),
            tubes: ListForm::of(&stock.tubes),
            densities: ListForm::of(&stock.densities),
            bars: ListForm::of(&stock.bars),
            thresholds: ALL
                .iter()
                .map(|usual| (usual.name.to_owned(), Text(stock.amount(usual).text())))
                .collect(),
        }
    }
}

/// The limits that a file moves.
fn thresholds(stated: &BTreeMap<String, Text>, reader: Reader) -> Read<Vec<(&'static str, Amount)>> {
    let mut moved = Vec::new();
    for (name, Text(text)) in stated {
        let place = |why: String| format!("thresholds, \"{name}\": {why}");
        let usual = ALL.iter().find(|usual| usual.name == name).ok_or_else(|| {
            place(String::from("there is no limit of this name; save the stock list to see all of them"))
        })?;
        let amount = usual.amount.read_alike(text, reader.bare).map_err(|why| place(why.to_string()))?;
        if amount != usual.amount {
            moved.push((usual.name, amount));
        }
    }
    Ok(moved)
}

/// Reads the texts of a form; a length without a unit is in `bare`.
#[derive(Clone, Copy)]
struct Reader {
    bare: Unit,
}

impl Reader {
    fn length(self, what: &str, text: &Text) -> Read<Length> {
        parse(&text.0, self.bare).map_err(|why| format!("{what}: {why}"))
    }

    fn length_or_none(self, what: &str, text: Option<&Text>) -> Read<Option<Length>> {
        text.map(|text| self.length(what, text)).transpose()
    }

    fn size(self, [width, height]: &[Text; 2]) -> Read<Size> {
        Ok(Size::new(self.length("the width", width)?, self.length("the height", height)?))
    }
}

/// A row of a list in the form of the file.
trait RowForm: Sized {
    /// What it is in the stock.
    type Row;
    fn of(row: &Self::Row) -> Self;
    fn read(self, reader: Reader) -> Read<Self::Row>;
    /// What the row is called.
    fn name(&self) -> &str;
    fn name_of(row: &Self::Row) -> &str;
}

/// What a file does to one list.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields, bound(deserialize = "T: Deserialize<'de>"))]
struct ListForm<T> {
    /// Rows in place of all that are on offer.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "at_most_the_limit")]
    #[cfg_attr(feature = "schema", schemars(with = "Vec<T>", length(max = 400)))]
    replace: Option<Vec<T>>,
    /// Rows beside them; one with a name that is there already takes that row's place.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "at_most_the_limit")]
    #[cfg_attr(feature = "schema", schemars(with = "Vec<T>", length(max = 400)))]
    add: Option<Vec<T>>,
}

impl<T> Default for ListForm<T> {
    fn default() -> Self {
        Self { replace: None, add: None }
    }
}

impl<T> ListForm<T> {
    fn is_untouched(&self) -> bool {
        self.replace.is_none() && self.add.is_none()
    }
}

impl<T: RowForm> ListForm<T> {
    fn of(rows: &[T::Row]) -> Self {
        Self { replace: Some(rows.iter().map(T::of).collect()), add: None }
    }

    fn over(self, list: &str, offered: Vec<T::Row>, reader: Reader) -> Read<Vec<T::Row>> {
        let read = |form: T| {
            let place = format!("{list}, \"{}\"", form.name());
            form.read(reader).map_err(|why| format!("{place}: {why}"))
        };
        let mut rows = match self.replace {
            None => offered,
            Some(forms) => forms.into_iter().map(read).collect::<Read<Vec<_>>>()?,
        };
        let added = self.add.unwrap_or_default().into_iter().map(read).collect::<Read<Vec<_>>>()?;
        let mut seen = BTreeSet::new();
        if let Some(twice) = added.iter().map(T::name_of).find(|name| !seen.insert(*name)) {
            return Err(format!("{list}: two rows are called \"{twice}\"; give each a name of its own"));
        }
        for row in added {
            match rows.iter_mut().find(|known| T::name_of(known) == T::name_of(&row)) {
                Some(known) => *known = row,
                None => rows.push(row),
            }
        }
        Ok(rows)
    }
}

/// Reads a list and stops at the row after the last that is allowed.
fn at_most_the_limit<'de, D: Deserializer<'de>, T: Deserialize<'de>>(
    deserializer: D,
) -> Result<Option<Vec<T>>, D::Error> {
    struct Rows<T>(PhantomData<T>);
    impl<'de, T: Deserialize<'de>> Visitor<'de> for Rows<T> {
        type Value = Vec<T>;
        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            write!(f, "a list of rows")
        }
        fn visit_seq<A: SeqAccess<'de>>(self, mut sequence: A) -> Result<Vec<T>, A::Error> {
            let mut rows = Vec::new();
            while let Some(row) = sequence.next_element()? {
                if rows.len() == limits::ROWS {
                    return Err(A::Error::custom(format!("a list takes at most {} rows", limits::ROWS)));
                }
                rows.push(row);
            }
            Ok(rows)
        }
    }
    deserializer.deserialize_seq(Rows(PhantomData)).map(Some)
}
