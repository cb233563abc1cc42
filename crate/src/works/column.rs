//! The columns of a list of works: their names, and which open vocabulary each is from.
//!
//! Names are those of schema.org (`VisualArtwork`, and `Offer` for price and availability) where it has one; Dublin Core's are read as well. Upper and lower case,
//! spaces, hyphens and underscores do not count. A column of lengths may name its unit in brackets: `width (cm)`.

use crate::length::Unit;

/// What a column is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "each row of the table says what it is")]
pub enum Key {
    Identifier,
    Title,
    Creator,
    DateCreated,
    ArtMedium,
    Width,
    Height,
    Depth,
    Availability,
    ArtEdition,
    Price,
    PriceCurrency,
    File,
    WidthPx,
    HeightPx,
    Subject,
    Signature,
    Palette,
    Notes,
}

/// A column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column {
    /// What it is of.
    pub key: Key,
    /// Its name.
    pub name: &'static str,
    /// Further names that are read.
    pub also: &'static [&'static str],
    /// The vocabularies that its name is from.
    pub from: &'static str,
    /// What it says.
    pub about: &'static str,
}

const fn column(
    key: Key,
    name: &'static str,
    also: &'static [&'static str],
    from: &'static str,
    about: &'static str,
) -> Column {
    Column { key, name, also, from, about }
}

const OURS: &str = "our own";

/// Every column, in the order in which a new list has them.
pub const COLUMNS: [Column; 19] = [
    column(
        Key::Identifier,
        "identifier",
        &["id"],
        "schema.org Thing, Dublin Core",
        "What the work is called by in your own records. No two works share one.",
    ),
    column(
        Key::Title,
        "title",
        &["name"],
        "Dublin Core; schema.org Thing has it as name",
        "Its title, at most 120 characters.",
    ),
    column(Key::Creator, "creator", &[], "schema.org CreativeWork, Dublin Core", "Who made it."),
    column(
        Key::DateCreated,
        "dateCreated",
        &["created", "date"],
        "schema.org CreativeWork; Dublin Core has it as created, or as date",
        "When it was made, as ISO 8601 has it: a year, a month, a day, or two of them with a slash between, such as 2019/2021. The last year counts.",
    ),
    column(
        Key::ArtMedium,
        "artMedium",
        &["medium"],
        "schema.org VisualArtwork; Dublin Core has it as medium",
        "What it is made with, such as oil on linen.",
    ),
    column(
        Key::Width,
        "width",
        &[],
        "schema.org VisualArtwork",
        "Width of the original, a length such as 60 cm or 23 5/8 in. Without a unit it is in the list's.",
    ),
    column(Key::Height, "height", &[], "schema.org VisualArtwork", "Height of the original."),
    column(Key::Depth, "depth", &[], "schema.org VisualArtwork", "Depth of the original."),
    column(
        Key::Availability,
        "availability",
        &[],
        "schema.org Offer, with the values of ItemAvailability",
        "Whether the original can be had: available (InStock), reserved (Reserved), sold (SoldOut) or not for sale (OutOfStock).",
    ),
    column(
        Key::ArtEdition,
        "artEdition",
        &["edition"],
        "schema.org VisualArtwork, where it is the size alone",
        "Which print of an edition it is, and its size, such as 7/50; AP 1/5 for an artist's proof; the size alone, such as 50.",
    ),
    column(
        Key::Price,
        "price",
        &[],
        "schema.org Offer",
        "Price of the original, such as 1250 or 1250.50, without marks between thousands.",
    ),
    column(
        Key::PriceCurrency,
        "priceCurrency",
        &["currency"],
        "schema.org Offer, with the codes of ISO 4217",
        "Its currency, such as EUR.",
    ),
    column(
        Key::File,
        "file",
        &["filename"],
        OURS,
        "The name of its picture's file; of a path, the last part counts.",
    ),
    column(Key::WidthPx, "widthPx", &["pixelWidth"], OURS, "Pixels of the file across, upright."),
    column(Key::HeightPx, "heightPx", &["pixelHeight"], OURS, "Pixels of the file down, upright."),
    column(
        Key::Subject,
        "subject",
        &[],
        "our own, as in a plan's pictures",
        "What must be kept of the picture: thousandths of it from the left and from the top, such as 500 380.",
    ),
    column(
        Key::Signature,
        "signature",
        &["signed"],
        OURS,
        "Where it is signed: bottom right, bottom left, bottom, top right, top left, top, back, none, or a point as subject has it.",
    ),
    column(
        Key::Palette,
        "palette",
        &[],
        OURS,
        "Its main colours with their shares in percent, such as #8a9aa0 60, #2b2f33 40; `overmantel works --palettes` finds them.",
    ),
    column(Key::Notes, "notes", &["note"], OURS, "Anything else."),
];

impl Key {
    /// Its column.
    #[must_use]
    pub fn column(self) -> &'static Column {
        // The table stands in the order of the keys, which a test holds.
        &COLUMNS[self as usize]
    }

    /// The name of its column.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.column().name
    }

    /// The column of a name, and the unit that the name has, if any.
    #[must_use]
    pub fn named(text: &str) -> Option<(Self, Option<Unit>)> {
        let text = text.trim();
        let (name, unit) = match text.split_once(['(', '[']) {
            Some((name, rest)) => (name, Some(rest.trim_end_matches([')', ']']).trim())),
            None => (text, None),
        };
        let plain = |text: &str| {
            let kept = text.chars().filter(|letter| !matches!(letter, ' ' | '-' | '_'));
            kept.flat_map(char::to_lowercase).collect::<String>()
        };
        let name = plain(name);
        let is_it = |column: &&Column| {
            plain(column.name) == name || column.also.iter().any(|also| plain(also) == name)
        };
        let key = COLUMNS.iter().find(is_it)?.key;
        let Some(unit) = unit else { return Some((key, None)) };
        let unit = unit_named(unit)?;
        matches!(key, Self::Width | Self::Height | Self::Depth).then_some((key, Some(unit)))
    }
}

/// A unit of lists by its sign.
pub(super) fn unit_named(text: &str) -> Option<Unit> {
    let known = [
        ("in", Unit::Inch),
        ("cm", Unit::Centimetre),
        ("mm", Unit::Millimetre),
        ("m", Unit::Metre),
        ("ft", Unit::Foot),
    ];
    known.into_iter().find(|(sign, _)| text.eq_ignore_ascii_case(sign)).map(|(_, unit)| unit)
}

/// The JSON Schema of a list as JSON.
#[cfg(feature = "schema")]
pub(super) fn schema() -> String {
    use serde_json::{Map, Value, json};
    let text = json!({ "type": ["string", "null"] });
    let form = |key: Key| match key {
        Key::WidthPx | Key::HeightPx => {
            json!({ "type": ["integer", "null"], "minimum": 1, "maximum": crate::plan::limits::PICTURE_SIDE_PX })
        }
        Key::Subject => json!({
            "type": ["array", "null"], "minItems": 2, "maxItems": 2,
            "items": { "type": "integer", "minimum": 0, "maximum": 1000 }
        }),
        Key::Price | Key::Width | Key::Height | Key::Depth => json!({ "type": ["string", "number", "null"] }),
        Key::Title => json!({ "type": ["string", "null"], "maxLength": super::limits::NAME }),
        _ => text.clone(),
    };
    let properties: Map<String, Value> = COLUMNS
        .iter()
        .map(|column| {
            let mut schema = Map::new();
            let about = [column.about, " Name from: ", column.from, "."].concat();
            schema.insert("description".to_owned(), about.into());
            if let Value::Object(form) = form(column.key) {
                schema.extend(form);
            }
            (column.name.to_owned(), Value::Object(schema))
        })
        .collect();
    let whole = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Overmantel list of works",
        "description": "A body of work. In CSV the properties of a work are the columns, and further ones are kept as they are.",
        "type": "object",
        "properties": {
            "overmantel_works": { "description": "The version of this form.", "const": super::VERSION },
            "units": { "description": "The unit of lengths that name none; inches when left out.", "enum": ["in", "cm", "mm", "m", "ft"], "default": "in" },
            "works": {
                "description": "The works; further properties of a work are kept as they are.",
                "type": "array",
                "maxItems": super::limits::WORKS,
                "items": { "$ref": "#/$defs/Work" }
            }
        },
        "required": ["overmantel_works", "works"],
        "$defs": { "Work": { "type": "object", "properties": properties } }
    });
    serde_json::to_string_pretty(&whole).unwrap_or_default() + "\n"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_stands_in_the_order_of_the_keys_and_no_name_stands_twice() {
        let mut names = Vec::new();
        for (place, column) in COLUMNS.iter().enumerate() {
            assert_eq!(column.key as usize, place, "{}", column.name);
            names.push(column.name);
            names.extend(column.also);
        }
        for name in &names {
            assert_eq!(names.iter().filter(|other| other.eq_ignore_ascii_case(name)).count(), 1, "{name}");
        }
    }

    #[test]
    fn names_are_read_as_people_write_them() {
        assert_eq!(Key::named("Date Created"), Some((Key::DateCreated, None)));
        assert_eq!(Key::named("width_px"), Some((Key::WidthPx, None)));
        assert_eq!(Key::named("WIDTH [cm]"), Some((Key::Width, Some(Unit::Centimetre))));
        assert_eq!(Key::named("title (cm)"), None);
        assert_eq!(Key::named("width (ells)"), None);
        assert_eq!(Key::named("shelf"), None);
    }
}
