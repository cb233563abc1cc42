//! Cells of a list, each read for what its column is of.

use super::problem::tell;
use super::{Created, Fault, Key, Palette, Problem, Work, limits};
use crate::geometry::Size;
use crate::length::{Length, Unit, parse::parse_typed};
use crate::plan::Focus;
use crate::plan::limits::{PICTURE_SIDE_PX, ROOM};
use crate::suggest::wishes::amount;
use std::fmt;

/// Whether an original can be had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Availability {
    /// It can be had.
    Available,
    /// Somebody has asked for it to be held.
    Reserved,
    /// It is sold.
    Sold,
    /// It stays where it is.
    NotForSale,
}

impl Availability {
    /// Each with its words, the first of which is written: ours, and the members of schema.org's `ItemAvailability`.
    const WORDS: [(Self, [&'static str; 4]); 4] = [
        (Self::Available, ["available", "instock", "yes", "forsale"]),
        (Self::Reserved, ["reserved", "onhold", "held", "reserved"]),
        (Self::Sold, ["sold", "soldout", "no", "sold"]),
        (Self::NotForSale, ["notforsale", "outofstock", "nfs", "keep"]),
    ];

    fn read(text: &str) -> Option<Self> {
        let word = text.rsplit('/').next().unwrap_or(text);
        let plain: String =
            word.chars().filter(|letter| letter.is_alphanumeric()).flat_map(char::to_lowercase).collect();
        Self::WORDS.iter().find(|(_, words)| words.contains(&plain.as_str())).map(|(one, _)| *one)
    }

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Available => "available",
            Self::Reserved => "reserved",
            Self::Sold => "sold",
            Self::NotForSale => "not for sale",
        }
    }
}

/// A print of an edition.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Edition {
    /// Its number, where it is one of them.
    pub number: Option<u32>,
    /// How many there are.
    pub size: u32,
    /// Whether it is an artist's proof, which are counted apart.
    pub is_proof: bool,
}

impl Edition {
    fn read(text: &str) -> Option<Self> {
        let lower = text.trim().to_lowercase();
        let bare = lower.trim_start_matches("ap").trim_start_matches("a.p.").trim();
        let is_proof = bare.len() < lower.len();
        let number = |text: &str| text.trim().parse::<u32>().ok().filter(|number| *number > 0);
        match bare.split_once('/') {
            Some((one, size)) => {
                let (one, size) = (number(one)?, number(size)?);
                (one <= size).then_some(Self { number: Some(one), size, is_proof })
            }
            None => Some(Self { number: None, size: number(bare)?, is_proof }),
        }
    }
}

impl fmt::Display for Edition {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { number, size, is_proof } = self;
        f.write_str(if *is_proof { "AP " } else { "" })?;
        number.map_or(Ok(()), |number| write!(f, "{number}/"))?;
        write!(f, "{size}")
    }
}

/// Where a work is signed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Signed {
    /// On the picture, about here.
    At(Focus),
    /// On the back.
    Back,
    /// Nowhere.
    Nowhere,
}

/// How far from the edges a signature in a corner is taken to be, in thousandths of the picture: our own choice, no source.
const NEAR: u16 = 60;

impl Signed {
    fn read(text: &str) -> Option<Self> {
        let (low, high) = (NEAR, 1000 - NEAR);
        let words: Vec<String> =
            text.split(|letter: char| !letter.is_alphanumeric()).map(str::to_lowercase).collect();
        let words: Vec<&str> = words.iter().map(String::as_str).filter(|word| !word.is_empty()).collect();
        let at = |x_permille, y_permille| Some(Self::At(Focus { x_permille, y_permille }));
        match words[..] {
            ["back" | "verso"] => Some(Self::Back),
            ["none" | "no" | "unsigned"] => Some(Self::Nowhere),
            ["bottom"] | ["bottom", "middle" | "centre"] => at(500, high),
            ["top"] | ["top", "middle" | "centre"] => at(500, low),
            ["bottom" | "lower", "right"] => at(high, high),
            ["bottom" | "lower", "left"] => at(low, high),
            ["top" | "upper", "right"] => at(high, low),
            ["top" | "upper", "left"] => at(low, low),
            _ => point(text).map(Self::At),
        }
    }
}

/// Two whole numbers of thousandths.
fn point(text: &str) -> Option<Focus> {
    let text = text.trim().trim_start_matches('[').trim_end_matches(']');
    let parts = text.split([' ', ',', ';', '/']).filter(|part| !part.is_empty());
    let numbers: Vec<u16> =
        parts.map(|part| part.parse().ok().filter(|number| *number <= 1000)).collect::<Option<_>>()?;
    let [x_permille, y_permille] = numbers[..] else { return None };
    Some(Focus { x_permille, y_permille })
}

/// The cells of a row that have a column.
pub(super) struct Record {
    /// Its row.
    pub(super) row: usize,
    /// Each column with its text and the unit of bare numbers; `None` where JSON has neither text nor a number.
    pub(super) cells: Vec<(Key, Option<String>, Unit)>,
}

impl Record {
    /// A single cell.
    pub(super) fn of_one(key: Key, text: &str) -> Self {
        Self { row: 0, cells: vec![(key, Some(text.to_owned()), Unit::Inch)] }
    }
}

/// Reads a row as a work.
pub(super) fn work(record: &Record, problems: &mut Vec<Problem>) -> Work {
    let mut work = Work { row: record.row, ..Work::default() };
    take(&mut work, record, problems);
    if work.identifier.is_empty() && work.title.is_empty() && work.file.is_empty() {
        tell(problems, Fault::Nameless.at(record.row, None));
    }
    work
}

/// What two cells say together, while they are read.
#[derive(Default)]
struct Halves {
    size: [Option<Length>; 2],
    px: [Option<u32>; 2],
}

/// Takes the cells of a row into a work.
pub(super) fn take(work: &mut Work, record: &Record, problems: &mut Vec<Problem>) {
    let mut halves = Halves {
        size: [work.size.map(|size| size.width), work.size.map(|size| size.height)],
        px: [work.px.map(|px| px.0), work.px.map(|px| px.1)],
    };
    let mut seen: Vec<Key> = Vec::new();
    for (key, text, bare) in &record.cells {
        let Some(text) = text else {
            tell(problems, Fault::NoText.at(record.row, Some(*key)));
            continue;
        };
        let text = one_line(crate::cells::without_apostrophe(text));
        if text.is_empty() {
            continue;
        }
        seen.push(*key);
        if let Err(fault) = take_cell(work, &mut halves, *key, &text, *bare) {
            tell(problems, fault.at(record.row, Some(*key)));
        }
    }
    let Halves { size: [width, height], px: [across, down] } = halves;
    work.size = width.zip(height).map(|(width, height)| Size::new(width, height));
    work.px = across.zip(down);
    for (one, other) in [(Key::Width, Key::Height), (Key::WidthPx, Key::HeightPx)] {
        for (here, lacking) in [(one, other), (other, one)] {
            if record.row > 0 && seen.contains(&here) && !seen.contains(&lacking) {
                tell(problems, Fault::Half(lacking).at(record.row, Some(here)));
            }
        }
    }
}

/// A text on one line: whatever breaks lines or is no letter becomes a space.
fn one_line(text: &str) -> String {
    let plain: String = text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    plain.trim().to_owned()
}

fn take_cell(work: &mut Work, halves: &mut Halves, key: Key, text: &str, bare: Unit) -> Result<(), Fault> {
    let given = || text.to_owned();
    let length = || {
        let length = parse_typed(text, bare).map_err(Fault::Length)?;
        let is_in = length > Length::ZERO && length <= ROOM;
        if is_in { Ok(Some(length)) } else { Err(Fault::Range(given())) }
    };
    let pixels = || {
        let number = text.parse().ok().filter(|number| (1..=PICTURE_SIDE_PX).contains(number));
        number.map(Some).ok_or_else(|| Fault::Pixels(given()))
    };
    match key {
        Key::Identifier => held(&mut work.identifier, text, limits::NAME),
        Key::Title => held(&mut work.title, text, limits::NAME),
        Key::Creator => held(&mut work.creator, text, limits::NAME),
        Key::ArtMedium => held(&mut work.medium, text, limits::TEXT),
        Key::File => held(&mut work.file, text, limits::TEXT),
        Key::Notes => held(&mut work.notes, text, limits::TEXT),
        Key::PriceCurrency => held(&mut work.currency, text, 8),
        Key::DateCreated => {
            work.created = Some(Created::read(text).ok_or_else(|| Fault::Date(given()))?);
            Ok(())
        }
        Key::Width => length().map(|length| halves.size[0] = length),
        Key::Height => length().map(|length| halves.size[1] = length),
        Key::Depth => length().map(|length| work.depth = length),
        Key::WidthPx => pixels().map(|number| halves.px[0] = number),
        Key::HeightPx => pixels().map(|number| halves.px[1] = number),
        Key::Availability => {
            work.availability = Some(Availability::read(text).ok_or_else(|| Fault::Availability(given()))?);
            Ok(())
        }
        Key::ArtEdition => {
            work.edition = Some(Edition::read(text).ok_or_else(|| Fault::Edition(given()))?);
            Ok(())
        }
        Key::Price => {
            let is_sign = |letter: char| !letter.is_ascii_digit() && !matches!(letter, '.' | ',' | '-' | '−');
            let bare = text.trim_start_matches(is_sign).trim_end_matches(is_sign);
            work.price = Some(amount(bare).map_err(|_| Fault::Price(given()))?);
            let sign: String = text.chars().filter(|letter| is_sign(*letter) && *letter != ' ').collect();
            if work.currency.is_empty() && sign.chars().count() <= 3 {
                work.currency = sign;
            }
            Ok(())
        }
        Key::Subject => {
            work.subject = Some(point(text).ok_or_else(|| Fault::Subject(given()))?);
            Ok(())
        }
        Key::Palette => {
            work.palette = Some(Palette::read(text).ok_or_else(|| Fault::Palette(given()))?);
            Ok(())
        }
        Key::Signature => {
            work.signature = Some(Signed::read(text).ok_or_else(|| Fault::Signature(given()))?);
            Ok(())
        }
    }
}

/// A text of at most so many characters; of a longer one its beginning stands.
fn held(place: &mut String, text: &str, most: usize) -> Result<(), Fault> {
    let given = text.chars().count();
    *place = text.chars().take(most).collect();
    if given <= most { Ok(()) } else { Err(Fault::Long { given, most }) }
}

/// Tells of identifiers and files that two works share.
pub(super) fn twice(works: &[Work], problems: &mut Vec<Problem>) {
    type Found<'a> = std::collections::BTreeMap<String, &'a Work>;
    let (mut identifiers, mut files): (Found<'_>, Found<'_>) = Default::default();
    for work in works {
        if !work.identifier.is_empty() {
            let text = work.identifier.clone();
            match identifiers.get(&text) {
                Some(other) => {
                    tell(
                        problems,
                        Fault::Twice { text, first: other.row }.at(work.row, Some(Key::Identifier)),
                    );
                }
                None => {
                    identifiers.insert(text, work);
                }
            }
        }
        if !work.file.is_empty() {
            match files.get(&super::matched::folded(&work.file)) {
                Some(other) => {
                    let fault = Fault::FileTwice { text: work.file.clone(), first: other.row };
                    tell(problems, fault.at(work.row, Some(Key::File)));
                }
                None => {
                    files.insert(super::matched::folded(&work.file), work);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_numbers_and_points_are_read() {
        for (text, expected) in [
            ("available", Some(Availability::Available)),
            ("https://schema.org/InStock", Some(Availability::Available)),
            ("Sold", Some(Availability::Sold)),
            ("SoldOut", Some(Availability::Sold)),
            ("on hold", Some(Availability::Reserved)),
            ("Not for sale", Some(Availability::NotForSale)),
            ("perhaps", None),
        ] {
            assert_eq!(Availability::read(text), expected, "{text}");
        }
        for one in
            [Availability::Available, Availability::Reserved, Availability::Sold, Availability::NotForSale]
        {
            assert_eq!(Availability::read(one.words()), Some(one), "what is written is read");
        }
        for text in ["7/50", "AP 1/5", "50"] {
            assert_eq!(Edition::read(text).map(|edition| edition.to_string()).as_deref(), Some(text));
        }
        assert_eq!(Edition::read("8/7"), None);
        assert_eq!(point("500, 380"), Some(Focus { x_permille: 500, y_permille: 380 }));
        assert_eq!(point("500 1001"), None);
        assert_eq!(
            Signed::read("bottom-right"),
            Some(Signed::At(Focus { x_permille: 940, y_permille: 940 }))
        );
        assert_eq!(Signed::read("under the boat"), None);
    }
}
