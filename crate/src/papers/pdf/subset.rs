//! A font file with no more outlines than a paper uses. Glyphs keep their numbers, so that nothing else of the paper changes.
//!
//! The tables are those that ISO 32000-1, 9.9 asks of a font without programs for hinting; their form is that of the OpenType
//! specification (table directory, `loca`, `glyf`).

use std::collections::{BTreeMap, BTreeSet};
use ttf_parser::{RawFace, Tag};

/// The parts of composed glyphs follow in so many steps at most; the faces need one.
const MOST_DEEP: usize = 4;

/// The font with these glyphs, those that they are composed of, and the one that stands for letters that it lacks. The whole font,
/// where it is none that this can be done with.
pub(super) fn subset(font: &[u8], glyphs: impl Iterator<Item = u16>) -> Vec<u8> {
    part(font, glyphs).unwrap_or_else(|| font.to_vec())
}

fn part(font: &[u8], glyphs: impl Iterator<Item = u16>) -> Option<Vec<u8>> {
    let raw = RawFace::parse(font, 0).ok()?;
    let table = |name: &[u8; 4]| raw.table(Tag::from_bytes(name));
    let (mut head, loca, glyf) = (table(b"head")?.to_vec(), table(b"loca")?, table(b"glyf")?);
    // Offsets in halves of what they are: the short form.
    if u16_at(&head, 50)? != 0 {
        return None;
    }
    let outline = |glyph: u16| -> Option<&[u8]> {
        let at = usize::from(glyph) * 2;
        let [from, to] = [u16_at(loca, at)?, u16_at(loca, at + 2)?].map(|half| usize::from(half) * 2);
        glyf.get(from..to)
    };
    let mut kept: BTreeSet<u16> = glyphs.chain([0]).collect();
    for _ in 0..MOST_DEEP {
        let of: Vec<u16> = kept.iter().filter_map(|&glyph| outline(glyph)).flat_map(components).collect();
        kept.extend(of);
    }
    let count = kept.last()? + 1;
    let (mut places, mut outlines, mut advances) = (vec![0, 0], Vec::new(), Vec::new());
    let (metrics, mut across) = (table(b"hmtx")?, table(b"hhea")?.to_vec());
    let wide = u16_at(&across, 34)?;
    for glyph in 0..count {
        let at = usize::from(glyph) * 4;
        let is_kept = kept.contains(&glyph) && glyph < wide;
        advances.extend(if is_kept { metrics.get(at..at + 4)? } else { &[0; 4] });
        if is_kept {
            outlines.extend(outline(glyph)?);
        }
        places.extend(u16::try_from(outlines.len() / 2).ok()?.to_be_bytes());
    }
    let mut most = table(b"maxp")?.to_vec();
    most.get_mut(4..6)?.copy_from_slice(&count.to_be_bytes());
    across.get_mut(34..36)?.copy_from_slice(&count.to_be_bytes());
    head.get_mut(8..12)?.fill(0);
    Some(file(&BTreeMap::from([
        (*b"glyf", outlines),
        (*b"head", head),
        (*b"hhea", across),
        (*b"hmtx", advances),
        (*b"loca", places),
        (*b"maxp", most),
    ])))
}

/// The glyphs that one is composed of.
fn components(outline: &[u8]) -> Vec<u16> {
    let mut found = Vec::new();
    // Fewer contours than none: it is composed. Its parts begin behind the ten bytes of its bounds.
    if u16_at(outline, 0).is_none_or(|contours| contours < 0x8000) {
        return found;
    }
    let mut at = 10;
    while let (Some(flags), Some(glyph)) = (u16_at(outline, at), u16_at(outline, at + 2)) {
        found.push(glyph);
        let has = |flag: u16| flags & flag != 0;
        // Its place in words or bytes; one scale, two, or a matrix; and whether more follow.
        at += if has(0x1) { 8 } else { 6 };
        at += match (has(0x8), has(0x40), has(0x80)) {
            (true, _, _) => 2,
            (_, true, _) => 4,
            (_, _, true) => 8,
            _ => 0,
        };
        if !has(0x20) {
            break;
        }
    }
    found
}

/// Tables as a font file, with the sums that it is checked by.
fn file(tables: &BTreeMap<[u8; 4], Vec<u8>>) -> Vec<u8> {
    let count = u16::try_from(tables.len()).unwrap_or(0);
    let steps = u16::try_from(count.max(1).ilog2()).unwrap_or(0);
    let mut out = 0x0001_0000_u32.to_be_bytes().to_vec();
    for number in [count, 16 << steps, steps, (count * 16).saturating_sub(16 << steps)] {
        out.extend(number.to_be_bytes());
    }
    let mut body = Vec::new();
    let begin = out.len() + tables.len() * 16;
    let mut adjustment = None;
    for (name, table) in tables {
        out.extend(name);
        let at = begin + body.len();
        for number in [sum(table), u32_of(at), u32_of(table.len())] {
            out.extend(number.to_be_bytes());
        }
        if name == b"head" {
            adjustment = Some(at + 8);
        }
        body.extend(table);
        body.resize(body.len().next_multiple_of(4), 0);
    }
    out.extend(body);
    let whole = 0xb1b0_afba_u32.wrapping_sub(sum(&out));
    if let Some(place) = adjustment.and_then(|at| out.get_mut(at..at + 4)) {
        place.copy_from_slice(&whole.to_be_bytes());
    }
    out
}

fn sum(bytes: &[u8]) -> u32 {
    bytes.chunks(4).fold(0_u32, |sum, chunk| {
        let mut four = [0; 4];
        four[..chunk.len()].copy_from_slice(chunk);
        sum.wrapping_add(u32::from_be_bytes(four))
    })
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(bytes.get(at..at + 2)?.try_into().ok()?))
}

fn u32_of(length: usize) -> u32 {
    u32::try_from(length).unwrap_or(u32::MAX)
}

/// Six letters that tell this part of a font from other parts of it (ISO 32000-1, 9.6.4).
pub(super) fn tag(glyphs: impl Iterator<Item = u16>) -> String {
    // FNV-1a.
    let mut hash = glyphs
        .flat_map(u16::to_be_bytes)
        .fold(0x811c_9dc5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
    let mut letters = String::new();
    for _ in 0..6 {
        letters.push(char::from(b'A' + u8::try_from(hash % 26).unwrap_or(0)));
        hash /= 26;
    }
    letters
}
