//! IPTC's Information Interchange Model, version 4.2: data sets of records 1 and 2, in a resource of APP13.

use super::{Told, text};

/// The resource with the IIM among the resources of APP13; each is a signature, a number, a name and its bytes, padded to an even length.
#[must_use]
pub fn resource(mut resources: &[u8]) -> Option<&[u8]> {
    const IIM: u16 = 0x0404;
    while let Some(rest) = resources.strip_prefix(b"8BIM") {
        let (number, rest) = rest.split_first_chunk::<2>()?;
        let name = 1 + usize::from(*rest.first()?);
        let rest = rest.get(name + name % 2..)?;
        let (length, rest) = rest.split_first_chunk::<4>()?;
        let length = usize::try_from(u32::from_be_bytes(*length)).ok()?;
        let held = rest.get(..length)?;
        if u16::from_be_bytes(*number) == IIM {
            return Some(held);
        }
        resources = rest.get(length + length % 2..)?;
    }
    None
}

/// What data sets say: 2:05 Object Name, 2:80 By-line, 2:55 Date Created (CCYYMMDD, zeros for what is not known).
#[must_use]
pub fn read(mut sets: &[u8]) -> Told {
    let mut told = Told::default();
    let mut creators: Vec<String> = Vec::new();
    while let [0x1c, record, set, high, low, rest @ ..] = sets {
        let length = u16::from_be_bytes([*high, *low]);
        // An extended data set holds no title: its length has a length of its own.
        if length > 0x7fff {
            break;
        }
        let Some(held) = rest.get(..usize::from(length)) else { break };
        match (record, set) {
            (2, 5) => told.title = told.title.or_else(|| text(held)),
            (2, 80) => creators.extend(text(held)),
            (2, 55) => told.created = told.created.or_else(|| date(held)),
            _ => {}
        }
        sets = &rest[usize::from(length)..];
    }
    told.creator = (!creators.is_empty()).then(|| creators.join("; "));
    told
}

/// CCYYMMDD as ISO 8601 has it.
fn date(held: &[u8]) -> Option<String> {
    let digits = std::str::from_utf8(held).ok().filter(|text| text.len() == 8)?;
    if !digits.bytes().all(|byte| byte.is_ascii_digit()) || digits.starts_with("0000") {
        return None;
    }
    Some(match (&digits[..4], &digits[4..6], &digits[6..]) {
        (year, "00", _) => year.to_owned(),
        (year, month, "00") => [year, "-", month].concat(),
        (year, month, day) => [year, "-", month, "-", day].concat(),
    })
}
