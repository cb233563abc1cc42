//! The plan as a link: all of it in the part of an address behind `#`, which is sent to no server.
//!
//! A form of its own, converted by hand. A link is base64 for addresses (RFC 4648, 5) of: the version, one byte; a checksum of
//! the version and what follows, four bytes (CRC-32 as in RFC 1952, the least byte first); and, deflated (RFC 1951), a map of CBOR
//! by the numbers of the plan's rows, in which all that is usual is left out ([`crate::described::freeze`]). The same
//! plan gives the same link. What a newer page states that this one does not know is skipped and counted.
//!
//! Pictures don't go with a link. In their places it can have [`Sketch`]es of them, from their main colours to a small likeness.
//!
//! ```
//! use overmantel::{link::{self, Link}, plan::Plan};
//! let sent = Link::of(Plan::starting());
//! let text = link::write(&sent);
//! assert!(text.len() < 100, "a plan that is nearly as usual is short: {text}");
//! let (read, unread) = link::read(&format!("https://example.org/overmantel.html#{text}")).unwrap();
//! assert_eq!((read, unread), (sent, 0));
//! ```

use crate::checksum::crc32;
use crate::described::{Form, Row, Words, freeze, maybe};
use crate::plan::{Plan, PlanError, limits};
use crate::quoted::short;
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use code::{In, Out};
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::deflate::core::{
    CompressorOxide, TDEFLFlush, compress_to_output, create_comp_flags_from_zip_params,
};
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress, inflate_flags};
use std::fmt::{self, Write as _};

mod answer;
mod code;
mod code_square;
mod likeness;
mod range;
mod sketch;
mod wavelet;
pub use answer::{Answer, Decided, Verdict};
pub use code_square::CodeSquare;
pub use sketch::{Detail, Sketch};

/// The version this module writes.
pub const VERSION: u8 = 1;
/// Characters of a link at most; nothing longer is decoded.
pub const MOST_CHARACTERS: usize = 65_536;
/// Bytes that a link may inflate to; nothing longer is inflated.
const MOST_BYTES: usize = 98_304;
/// Length of the version and the checksum.
const HEAD: usize = 5;
/// As hard as deflate is tried.
const LEVEL: u8 = 10;

/// What a link holds.
///
/// ```
/// use overmantel::link::{self, Link};
/// use overmantel::plan::Plan;
///
/// let text = link::write(&Link::of(Plan::starting()));
/// let (opened, left_out) = link::read(&text)?;
/// assert_eq!((opened.plan, left_out), (Plan::starting(), 0));
/// assert_eq!(link::address("https://example.org/wall.html", &text)?, format!("https://example.org/wall.html#{text}"));
/// # Ok::<(), overmantel::link::LinkError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The plan.
    pub plan: Plan,
    /// For each picture of the plan what stands for it; there may be fewer.
    pub sketches: Vec<Option<Sketch>>,
    /// When the plan is an answer to another.
    pub answer: Option<Answer>,
}

impl Link {
    /// A plan and nothing else.
    #[must_use]
    pub const fn of(plan: Plan) -> Self {
        Self { plan, sketches: Vec::new(), answer: None }
    }
}

/// Writes a link: what stands behind `#` in an address.
#[must_use]
pub fn write(link: &Link) -> String {
    let mut bytes = vec![VERSION, 0, 0, 0, 0];
    let (map, likenesses) = map(&mut link.clone());
    bytes.extend(deflated(&map, likenesses));
    let sum = checksum(&bytes);
    bytes[1..HEAD].copy_from_slice(&sum);
    URL_SAFE_NO_PAD.encode(bytes)
}

/// A mark of a plan, by which an answer says what it answers.
#[must_use]
pub fn mark(plan: &Plan) -> u32 {
    crc32(0, &map(&mut Link::of(plan.clone())).0)
}

/// Bytes for a sketch of each of so many pictures, so that the link with them is no longer than one in so much detail should be; with
/// so many characters around it, such as an address.
#[must_use]
pub fn room(link: &Link, detail: Detail, pictures: usize, around: usize) -> usize {
    // A string of bytes has three more before it; the array, its number and two blocks of deflate have no more than sixteen.
    let more = 16 + 3 * (pictures + link.sketches.len());
    let most = detail.most_characters().saturating_sub(around) * 3 / 4;
    most.saturating_sub(write(link).len() * 3 / 4 + more) / pictures.max(1)
}

/// A map deflated. What its end has of likenesses does not get shorter, so it stands there as it is where that is shorter.
fn deflated(map: &[u8], likenesses: usize) -> Vec<u8> {
    let all = compress_to_vec(map, LEVEL);
    let (head, end) = map.split_at(map.len() - likenesses);
    let Ok(length) = u16::try_from(end.len()) else { return all };
    let mut apart = Vec::new();
    let flags = create_comp_flags_from_zip_params(i32::from(LEVEL), 0, 0);
    let mut compressor = CompressorOxide::new(flags);
    let _flushed = compress_to_output(&mut compressor, head, TDEFLFlush::Sync, |bytes| {
        apart.extend_from_slice(bytes);
        true
    });
    // RFC 1951, 3.2.4: the last block, not compressed; its length, and the complement of that.
    apart.push(1);
    apart.extend([length.to_le_bytes(), (!length).to_le_bytes()].concat());
    apart.extend(end);
    if apart.len() < all.len() { apart } else { all }
}

/// Sketches, the answer, and sketches as likenesses, beside the numbers of a plan, which go up to 31. Likenesses are the last of a
/// map, and pages of version 0.1 skip them.
const SKETCHES: u64 = 32;
const LIKENESSES: u64 = 34;
static ANSWER: Row = Row::new("", "", 33, "answer", "", Form::maybe(Words::NONE));

/// The plan that a link of version 1 is measured by. It never changes, whatever a new user's plan becomes, so that every link
/// that was ever made means what it meant.
fn usual() -> Link {
    let mut plan = Plan::default();
    freeze(&mut plan);
    Link::of(plan)
}

/// The map, and how many bytes at its end are likenesses.
fn map(link: &mut Link) -> (Vec<u8>, usize) {
    let Link { plan, sketches, answer } = link;
    let (mut out, mut usual) = (Out::default(), usual());
    out.thing(plan, &mut usual.plan);
    let blobs = |bytes: fn(&Sketch) -> Vec<u8>| -> Vec<Vec<u8>> {
        sketches.iter().map(|sketch| sketch.as_ref().map_or_else(Vec::new, bytes)).collect()
    };
    out.blobs(SKETCHES, &blobs(Sketch::waves));
    out.blobs(LIKENESSES, &blobs(Sketch::likeness));
    out.member(maybe(&ANSWER, answer), maybe(&ANSWER, &mut usual.answer));
    let likenesses = out.length_of(LIKENESSES);
    (out.map(), likenesses)
}

/// Reads a link, or the last one in a text: with or without the address before it, and broken into lines as mails do. Says how much
/// in it this version does not know.
///
/// # Errors
/// When there is no link, it is not whole, it is of a later version, or states a plan that does not hold together.
pub fn read(text: &str) -> Result<(Link, usize), LinkError> {
    let bytes = bytes(text)?;
    let inflated = inflated(&bytes)?;
    let mut found = In::of(&inflated)?;
    let mut link = usual();
    found.thing(&mut link.plan)?;
    link.sketches = sketches(&mut found)?;
    found.member(maybe(&ANSWER, &mut link.answer))?;
    let unread = found.unread();
    if unread > 0 {
        tell_apart(&mut link.plan);
    }
    link.plan.check().map_err(LinkError::Plan)?;
    link.answer.as_ref().map_or(Ok(()), Answer::check)?;
    Ok((link, unread))
}

/// What a link has of pictures: likenesses, and of what has none the waves. A likeness of a later form is skipped and counted.
fn sketches(found: &mut In<'_>) -> Result<Vec<Option<Sketch>>, LinkError> {
    let mut sketches = Vec::new();
    for bytes in found.blobs(LIKENESSES, limits::PICTURES)? {
        let likeness = Sketch::of_likeness(&bytes);
        if likeness.is_none() && !bytes.is_empty() {
            found.leave_unread();
        }
        sketches.push(likeness);
    }
    for (place, bytes) in found.blobs(SKETCHES, limits::PICTURES)?.iter().enumerate() {
        let waves =
            if bytes.is_empty() { None } else { Some(Sketch::of_waves(bytes).ok_or(LinkError::Broken)?) };
        match sketches.get_mut(place) {
            Some(sketch) => *sketch = sketch.take().or(waves),
            None => sketches.push(waves),
        }
    }
    Ok(sketches)
}

/// Why a text is not read as a link.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LinkError {
    /// It has more letters than are read.
    TooLong(usize),
    /// There is none in the text.
    None,
    /// A letter that no link has.
    Letter(char),
    /// Letters are missing or changed.
    Torn,
    /// It is of a later version.
    Version(u8),
    /// It inflates to more than any plan.
    Bomb,
    /// Its checksum is right, and something in it is out of place.
    Broken,
    /// There is more of something than a plan takes.
    TooMany {
        /// How many there are.
        given: u64,
        /// How many a plan takes.
        most: usize,
    },
    /// A text of the answer is too long.
    Long {
        /// Which.
        what: &'static str,
        /// Its characters.
        given: usize,
        /// Characters that are read.
        most: usize,
    },
    /// Its plan does not hold together.
    Plan(PlanError),
    /// The address of a page is none.
    Address(String),
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong(given) => write!(
                f,
                "the link has {given} characters; at most {MOST_CHARACTERS} are allowed; ask for the plan as a file"
            ),
            Self::None => {
                f.write_str("there is no link in this; the plan is the part after # in an address")
            }
            Self::Letter(letter) => write!(
                f,
                "the link has {letter:?} in it, and a link has letters, digits, - and _ only; copy it again from beginning to end"
            ),
            Self::Torn => f.write_str(
                "the link is incomplete: some of its letters are missing or changed; copy it again from beginning to end",
            ),
            Self::Version(given) => write!(
                f,
                "the link has version {given}, and this program reads version {VERSION}; open it with a newer page"
            ),
            Self::Bomb => write!(
                f,
                "the link holds more than {MOST_BYTES} bytes, which no plan has; ask for the plan as a file"
            ),
            Self::Broken => f.write_str(
                "this is not a complete link of Overmantel: part of it is wrong; ask for it again, or for the plan as a file",
            ),
            Self::TooMany { given, most } => {
                write!(f, "the link has {given} of something, and a plan takes at most {most} of it; ask for the plan as a file")
            }
            Self::Long { what, given, most } => {
                write!(f, "the {what} of the answer has {given} characters, and at most {most} are allowed; ask for a shorter one")
            }
            Self::Plan(why) => write!(f, "the plan in the link is not possible: {why}"),
            Self::Address(page) => write!(
                f,
                "\"{}\" is not the address of a published page; write all of it, such as https://example.org/overmantel.html",
                short(page)
            ),
        }
    }
}

/// What a link of so many characters, with its address, can be used for.
#[must_use]
pub fn means(characters: usize) -> &'static str {
    // Common practice, no source: what mail programs and chats make of long addresses changes from one to the next.
    match characters {
        0..=300 => "short enough for a mail, a chat, a text message and a QR code that is easy to scan",
        301..=929 => "short enough for mail and chat, and for a QR code that is scanned from close up",
        930..=2_000 => "for mail and most chats; too long for a QR code",
        _ => {
            "too long for some mail programs and chats, which cut it off: send the proposal file, or less of the pictures"
        }
    }
}

/// A link behind the address of a published page.
///
/// # Errors
/// When the address is none that a browser elsewhere could open.
pub fn address(page: &str, link: &str) -> Result<String, LinkError> {
    let page = page.split('#').next().unwrap_or_default().trim();
    let host = ["https://", "http://"].iter().find_map(|scheme| page.strip_prefix(scheme));
    let is_whole = host.is_some_and(|host| !host.is_empty() && !host.starts_with('/'));
    if is_whole && page.chars().all(|letter| letter.is_ascii_graphic()) {
        return Ok([page, "#", link].concat());
    }
    Err(LinkError::Address(page.to_owned()))
}

/// A link as a text to send, where there is no published page that it could open by itself: its first line says what to do with it.
///
/// ```
/// use overmantel::link::{self, Link};
/// use overmantel::plan::Plan;
/// let text = link::message(&link::write(&Link::of(Plan::starting())));
/// assert!(text.starts_with("To see this plan, open"));
/// assert_eq!(link::read(&text)?.0.plan, Plan::starting());
/// # Ok::<(), link::LinkError>(())
/// ```
#[must_use]
pub fn message(link: &str) -> String {
    ["To see this plan, open an Overmantel page and paste this text under \"Share it as a link\", into \"Open a link you were sent\".\n\n#", link, "\n"].concat()
}

/// A sentence on what of a link was not understood; none where all was.
#[must_use]
pub fn text(unread: usize) -> Option<String> {
    match unread {
        0 => None,
        1 => Some(String::from(
            "the link states one thing that this version does not know, so it was left out; a newer page shows it",
        )),
        _ => Some(format!(
            "the link states {unread} things that this version does not know, so they were left out; a newer page shows them"
        )),
    }
}

/// What the letters of a link stand for, with its version and its checksum looked at.
fn bytes(text: &str) -> Result<Vec<u8>, LinkError> {
    let text = text.rsplit_once('#').map_or(text, |(_, behind)| behind);
    if text.len() > MOST_CHARACTERS {
        return Err(LinkError::TooLong(text.len()));
    }
    let letters: String = text.chars().filter(|letter| !letter.is_ascii_whitespace()).collect();
    if letters.is_empty() {
        return Err(LinkError::None);
    }
    let is_ours = |letter: char| letter.is_ascii_alphanumeric() || letter == '-' || letter == '_';
    if let Some(letter) = letters.chars().find(|&letter| !is_ours(letter)) {
        return Err(LinkError::Letter(letter));
    }
    let bytes = URL_SAFE_NO_PAD.decode(&letters).map_err(|_| LinkError::Torn)?;
    let [version, sum @ ..] = bytes.first_chunk::<HEAD>().ok_or(LinkError::Torn)?;
    if *sum != checksum(&bytes) {
        return Err(LinkError::Torn);
    }
    if *version != VERSION {
        return Err(LinkError::Version(*version));
    }
    Ok(bytes)
}

/// The map in a link. Its end is the link's end, and it is no longer than any plan's.
fn inflated(bytes: &[u8]) -> Result<Vec<u8>, LinkError> {
    let deflated = &bytes[HEAD..];
    let mut inflated = vec![0; MOST_BYTES];
    let flags = inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
    let (status, taken, given) = decompress(&mut DecompressorOxide::new(), deflated, &mut inflated, 0, flags);
    match status {
        TINFLStatus::Done if taken == deflated.len() => {
            inflated.truncate(given);
            Ok(inflated)
        }
        TINFLStatus::HasMoreOutput => Err(LinkError::Bomb),
        _ => Err(LinkError::Broken),
    }
}

/// Names of their own for what an older page knows by its usual name only.
fn tell_apart(plan: &mut Plan) {
    for index in 1..plan.fixtures.len() {
        let (before, rest) = plan.fixtures.split_at_mut(index);
        let name = &mut rest[0].name;
        if before.iter().any(|known| known.name == *name) {
            let _written = write!(name, " {}", index + 1);
        }
    }
}

/// The checksum of a link: of its version and of all that stands behind the checksum.
fn checksum(bytes: &[u8]) -> [u8; 4] {
    let behind = bytes.get(HEAD..).unwrap_or_default();
    crc32(0, &[&bytes[..1], behind].concat()).to_le_bytes()
}
