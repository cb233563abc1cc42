//! The plan as a link: all of it in the part of an address behind `#`, which is sent to no server.
//!
//! A form of its own, converted by hand. A link is base64 for addresses (RFC 4648, 5) of: the version, one byte; a checksum of
//! the version and what follows, four bytes (CRC-32 as in RFC 1952, the least byte first); and, deflated (RFC 1951), a map of CBOR
//! by the numbers of fields (`link/stated.rs`), in which all that is usual (`link/usual.rs`) is left out. The same
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
use crate::plan::{Plan, limits};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use code::{BROKEN, Coded, Fields};
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress, inflate_flags};
use std::fmt::Write as _;

mod answer;
mod code;
mod code_square;
mod sketch;
mod stated;
mod usual;
pub use answer::{Answer, Decided};
pub use code_square::CodeSquare;
pub use sketch::{Detail, Sketch};

/// The version this module writes.
pub const VERSION: u8 = 1;
/// Characters of a link at the most; nothing longer is decoded.
pub const MOST_CHARACTERS: usize = 65_536;
/// Bytes that a link may inflate to; nothing longer is inflated.
const MOST_BYTES: usize = 98_304;
/// Length of the version and the checksum.
const HEAD: usize = 5;
/// As hard as deflate is tried.
const LEVEL: u8 = 10;

/// What a link holds.
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
    bytes.extend(compress_to_vec(&map(&mut link.clone()), LEVEL));
    let sum = checksum(&bytes);
    bytes[1..HEAD].copy_from_slice(&sum);
    URL_SAFE_NO_PAD.encode(bytes)
}

/// A mark of a plan, by which an answer says what it answers.
#[must_use]
pub fn mark(plan: &Plan) -> u32 {
    crc32(0, &map(&mut Link::of(plan.clone())))
}

fn map(link: &mut Link) -> Vec<u8> {
    let mut code = Fields::writing();
    // Writing has nothing to refuse.
    let _written = fields(&mut code, link);
    code.map()
}

/// The fields of a plan, and from 32 on what goes with it.
fn fields(code: &mut Fields<'_>, link: &mut Link) -> Coded {
    let Link { plan, sketches, answer } = link;
    stated::plan(code, plan, &usual::plan())?;
    let mut blobs: Vec<Vec<u8>> =
        sketches.iter().map(|sketch| sketch.as_ref().map_or_else(Vec::new, Sketch::bytes)).collect();
    code.blobs(32, &mut blobs, limits::PICTURES)?;
    if code.is_reading() {
        let read =
            |bytes: &Vec<u8>| if bytes.is_empty() { Some(None) } else { Sketch::read(bytes).map(Some) };
        *sketches = blobs.iter().map(read).collect::<Option<_>>().ok_or(BROKEN)?;
    }
    code.maybe(33, answer, &None, &Answer::default(), answer::fields)
}

/// Reads a link, or the last one in a text: with or without the address before it, and broken into lines as mails do. Says how much
/// in it this version does not know.
///
/// # Errors
/// A plain sentence when there is no link, it is not whole, it is of a later version, or states a plan that does not hold together.
pub fn read(text: &str) -> Result<(Link, usize), String> {
    let bytes = bytes(text)?;
    let inflated = inflated(&bytes)?;
    let mut code = Fields::reading(&inflated)?;
    let mut link = Link::of(usual::plan());
    fields(&mut code, &mut link)?;
    let unread = code.unread();
    if unread > 0 {
        tell_apart(&mut link.plan);
    }
    link.plan.check().map_err(|why| format!("the link states a plan that does not hold together: {why}"))?;
    if let Some(answer) = &link.answer {
        answer.check()?;
    }
    Ok((link, unread))
}

/// What a link of so many characters, with its address, can be used for.
#[must_use]
pub fn means(characters: usize) -> &'static str {
    // Common practice, no source: what mail programs and chats make of long addresses changes from one to the next.
    match characters {
        0..=300 => "short enough for a mail, a chat, a text message and a QR code that is read at a glance",
        301..=929 => "short enough for mail and chat, and for a QR code that is read from near by",
        930..=2_000 => "for mail and most chats; too long for a QR code",
        _ => {
            "longer than some mail programs and chats let an address be: they cut it, so send the proposal file, or less of the pictures"
        }
    }
}

/// A link behind the address of a published page.
///
/// # Errors
/// When the address is none that a browser elsewhere could open.
pub fn address(page: &str, link: &str) -> Result<String, String> {
    let page = page.split('#').next().unwrap_or_default().trim();
    let host = ["https://", "http://"].iter().find_map(|scheme| page.strip_prefix(scheme));
    let is_whole = host.is_some_and(|host| !host.is_empty() && !host.starts_with('/'));
    if is_whole && page.chars().all(|letter| letter.is_ascii_graphic()) {
        return Ok([page, "#", link].concat());
    }
    Err(format!(
        "\"{page}\" is no address of a published page; write it whole, such as https://example.org/overmantel.html"
    ))
}

/// A sentence on what of a link was not understood; none where all was.
#[must_use]
pub fn told(unread: usize) -> Option<String> {
    match unread {
        0 => None,
        1 => Some(String::from(
            "the link states one thing that is not known here, and it is left out; a newer page shows it",
        )),
        _ => Some(format!(
            "the link states {unread} things that are not known here, and they are left out; a newer page shows them"
        )),
    }
}

/// What the letters of a link stand for, with its version and its checksum looked at.
fn bytes(text: &str) -> Result<Vec<u8>, String> {
    let text = text.rsplit_once('#').map_or(text, |(_, behind)| behind);
    if text.len() > MOST_CHARACTERS {
        return Err(format!(
            "the link has {} characters; at most {MOST_CHARACTERS} are read, so ask for the plan as a file",
            text.len()
        ));
    }
    let letters: String = text.chars().filter(|letter| !letter.is_ascii_whitespace()).collect();
    if letters.is_empty() {
        return Err(String::from("there is no link in this; the plan is what stands behind # in an address"));
    }
    let is_ours = |letter: char| letter.is_ascii_alphanumeric() || letter == '-' || letter == '_';
    if let Some(letter) = letters.chars().find(|&letter| !is_ours(letter)) {
        return Err(format!(
            "the link has {letter:?} in it, and a link has letters, digits, - and _ only; copy it again from its beginning to its end"
        ));
    }
    let torn = || {
        String::from(
            "the link is not whole: letters of it are missing or changed; copy it again from its beginning to its end",
        )
    };
    let bytes = URL_SAFE_NO_PAD.decode(&letters).map_err(|_| torn())?;
    let [version, sum @ ..] = bytes.first_chunk::<HEAD>().ok_or_else(torn)?;
    if *sum != checksum(&bytes) {
        return Err(torn());
    }
    if *version != VERSION {
        return Err(format!(
            "the link is of version {version}; this page reads version {VERSION}, so open it with a newer page"
        ));
    }
    Ok(bytes)
}

/// The map in a link. Its end is the link's end, and it is no longer than any plan's.
fn inflated(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let deflated = &bytes[HEAD..];
    let mut inflated = vec![0; MOST_BYTES];
    let flags = inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
    let (status, taken, given) = decompress(&mut DecompressorOxide::new(), deflated, &mut inflated, 0, flags);
    match status {
        TINFLStatus::Done if taken == deflated.len() => {
            inflated.truncate(given);
            Ok(inflated)
        }
        TINFLStatus::HasMoreOutput => Err(format!(
            "the link holds more than {MOST_BYTES} bytes, which no plan has; ask for the plan as a file"
        )),
        _ => Err(String::from(BROKEN)),
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
