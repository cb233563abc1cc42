//! Whether a JPEG has all the coded data that it says to have: every scan is gone through, block by block, as it would be decoded, without making
//! pixels of it. Decoders take zeros for what is missing.

use super::jpeg_rows::bits::{Bits, Huffman};
use super::jpeg_rows::error::JpegError;
use super::jpeg_rows::next_marker;
use std::io::Read;

/// Scans at most; a progressive picture has about ten.
const MOST_SCANS: u32 = 100;

/// Goes through a JPEG, sequential or progressive, coded by Huffman's method (T.81, annexes F and G).
///
/// # Errors
/// When coded data are missing, or there are more.
pub(super) fn check(file: &[u8]) -> Result<(), JpegError> {
    let mut walk = Walk::default();
    let mut input = file.get(2..).ok_or(JpegError::NoMarker)?;
    let (mut marker, mut scans) = (next_marker(&mut input)?, 0);
    while marker != 0xd9 {
        let body = segment(&mut input)?;
        if marker != 0xda {
            walk.take(marker, &body).ok_or(JpegError::CutOff)?;
            marker = next_marker(&mut input)?;
            continue;
        }
        scans += 1;
        if scans > MOST_SCANS {
            return Err(JpegError::Scans);
        }
        let scan = walk.scan(&body).ok_or(JpegError::Scan)?;
        let mut bits = Bits::new(input);
        walk.go_through(&scan, &mut bits)?;
        marker = bits.marker()?;
        input = bits.into_input();
    }
    let is_whole = !walk.components.is_empty() && walk.components.iter().all(|component| component.is_seen);
    if is_whole { Ok(()) } else { Err(JpegError::Scan) }
}

fn segment(input: &mut &[u8]) -> Result<Vec<u8>, JpegError> {
    let mut pair = [0; 2];
    input.read_exact(&mut pair)?;
    let length = usize::from(u16::from_be_bytes(pair)).checked_sub(2).ok_or(JpegError::NoLength)?;
    let mut body = vec![0; length];
    input.read_exact(&mut body)?;
    Ok(body)
}

/// A colour of the picture.
struct Component {
    name: u8,
    /// Blocks of it to a unit, across and down.
    across: usize,
    down: usize,
    /// Blocks that lie within the picture, across and down, and those of whole units, across.
    wide: usize,
    high: usize,
    stride: usize,
    /// For each block which of its values are not zero so far: how a later scan refines them follows from that.
    values: Vec<u64>,
    /// Whether a scan had its means.
    is_seen: bool,
}

#[derive(Default)]
struct Walk {
    components: Vec<Component>,
    is_progressive: bool,
    /// Units across and down.
    units: (usize, usize),
    dc: [Option<Huffman>; 4],
    ac: [Option<Huffman>; 4],
    restart: usize,
}

/// A scan: which colours, each with its tables; which values from and to; whether they are refined.
struct ScanOf {
    parts: Vec<(usize, usize, usize)>,
    from: u32,
    to: u32,
    is_refining: bool,
}

impl Walk {
    /// Takes a segment (T.81, annex B); `None` where it is too short or states another kind of picture.
    fn take(&mut self, marker: u8, body: &[u8]) -> Option<()> {
        match marker {
            0xc4 => self.tables(body),
            0xdd => {
                self.restart = u16::from_be_bytes([*body.first()?, *body.get(1)?]).into();
                Some(())
            }
            0xc0..=0xc2 => self.frame(marker == 0xc2, body),
            0xc3..=0xcf if marker != 0xc8 => None,
            _ => Some(()),
        }
    }

    fn frame(&mut self, is_progressive: bool, body: &[u8]) -> Option<()> {
        if !self.components.is_empty() {
            return None;
        }
        self.is_progressive = is_progressive;
        let side = |at: usize| Some(usize::from(u16::from_be_bytes([*body.get(at)?, *body.get(at + 1)?])));
        let (height, width) = (side(1)?, side(3)?);
        let stated = body.get(6..6 + usize::from(*body.get(5)?) * 3)?.as_chunks::<3>().0;
        let blocks = |sampling: u8| (usize::from(sampling >> 4), usize::from(sampling & 15));
        let most_across = stated.iter().map(|part| blocks(part[1]).0).max()?;
        let most_down = stated.iter().map(|part| blocks(part[1]).1).max()?;
        if width == 0 || height == 0 || stated.iter().any(|part| !matches!(blocks(part[1]), (1..=4, 1..=4))) {
            return None;
        }
        self.units = (width.div_ceil(8 * most_across), height.div_ceil(8 * most_down));
        for part in stated {
            let (across, down) = blocks(part[1]);
            let stride = self.units.0 * across;
            self.components.push(Component {
                name: part[0],
                across,
                down,
                wide: (width * across).div_ceil(8 * most_across),
                high: (height * down).div_ceil(8 * most_down),
                stride,
                values: if is_progressive { vec![0; stride * self.units.1 * down] } else { Vec::new() },
                is_seen: false,
            });
        }
        Some(())
    }

    fn tables(&mut self, mut body: &[u8]) -> Option<()> {
        while let [kind, rest @ ..] = body {
            let counts = rest.get(..16)?;
            let codes = counts.iter().map(|count| usize::from(*count)).sum::<usize>();
            let table = Some(Huffman::new(counts, rest.get(16..16 + codes)?)?);
            let place = usize::from(kind & 3);
            if kind >> 4 == 0 {
                self.dc[place] = table;
            } else {
                self.ac[place] = table;
            }
            body = &rest[16 + codes..];
        }
        Some(())
    }

    /// What a scan's header says; `None` where that can't be.
    fn scan(&mut self, body: &[u8]) -> Option<ScanOf> {
        let count = usize::from(*body.first()?);
        let mut parts = Vec::new();
        for part in body.get(1..=count * 2)?.as_chunks::<2>().0 {
            let component = self.components.iter().position(|component| component.name == part[0])?;
            parts.push((component, usize::from(part[1] >> 4) & 3, usize::from(part[1]) & 3));
        }
        let [from, to, approximation, ..] = *body.get(1 + count * 2..)? else { return None };
        let is_taken = if self.is_progressive {
            (from == 0) == (to == 0) && from <= to && to < 64 && (from == 0 || count == 1)
        } else {
            (from, to, approximation) == (0, 63, 0)
        };
        if !is_taken || parts.is_empty() {
            return None;
        }
        if from == 0 {
            parts.iter().for_each(|part| self.components[part.0].is_seen = true);
        }
        Some(ScanOf { parts, from: from.into(), to: to.into(), is_refining: approximation >> 4 > 0 })
    }

    fn go_through(&mut self, scan: &ScanOf, bits: &mut Bits<&[u8]>) -> Result<(), JpegError> {
        let Self { components, is_progressive, units, dc, ac, restart } = self;
        // A colour that stands alone comes block by block, and only those within the picture (T.81, A.2.2).
        let alone = if let [(component, ..)] = scan.parts[..] { components.get(component) } else { None };
        let (wide, high) = alone.map_or(*units, |component| (component.wide, component.high));
        let is_alone = alone.is_some();
        // Blocks that have nothing more in this scan.
        let mut run = 0;
        for unit in 0..wide * high {
            if *restart > 0 && unit > 0 && unit.is_multiple_of(*restart) {
                bits.restart()?;
                run = 0;
            }
            for &(component, dc_place, ac_place) in &scan.parts {
                let Component { across, down, stride, values, .. } = &mut components[component];
                let blocks = if is_alone { (1, 1) } else { (*across, *down) };
                for block in 0..blocks.0 * blocks.1 {
                    let column = unit % wide * blocks.0 + block % blocks.0;
                    let row = unit / wide * blocks.1 + block / blocks.0;
                    let mut none = 0;
                    let known = values.get_mut(row * *stride + column).unwrap_or(&mut none);
                    if scan.from == 0 && scan.is_refining {
                        bits.take(1)?;
                    } else if scan.from == 0 {
                        mean(bits, dc[dc_place].as_ref().ok_or(JpegError::Code)?)?;
                        if !*is_progressive {
                            let ac = ac[ac_place].as_ref().ok_or(JpegError::Code)?;
                            first(bits, ac, (1, 63), &mut 0, known, false)?;
                        }
                    } else {
                        let ac = ac[ac_place].as_ref().ok_or(JpegError::Code)?;
                        let range = (scan.from, scan.to);
                        if scan.is_refining {
                            refined(bits, ac, range, &mut run, known)?;
                        } else {
                            first(bits, ac, range, &mut run, known, true)?;
                        }
                    }
                }
            }
        }
        Ok(())
    }
}

fn mean(bits: &mut Bits<&[u8]>, table: &Huffman) -> Result<(), JpegError> {
    let (_, _, size) = bits.code(table)?;
    if size > 15 {
        return Err(JpegError::Mean);
    }
    bits.take(size.into()).map(|_| ())
}

/// The values of a block (T.81, F.2.2.2), or the first scan of some of them (G.1.2.2), where a run may end many blocks at once.
fn first(
    bits: &mut Bits<&[u8]>,
    table: &Huffman,
    (from, to): (u32, u32),
    run: &mut u32,
    known: &mut u64,
    has_runs: bool,
) -> Result<(), JpegError> {
    if *run > 0 {
        *run -= 1;
        return Ok(());
    }
    let mut place = from;
    while place <= to {
        let (_, _, symbol) = bits.code(table)?;
        let (zeros, size) = (u32::from(symbol >> 4), u32::from(symbol & 15));
        if size == 0 && zeros < 15 {
            if has_runs {
                *run = (1 << zeros) - 1 + bits.take(zeros)?;
            }
            return Ok(());
        }
        place += zeros;
        if place > to {
            return Err(JpegError::Values);
        }
        if size > 0 {
            bits.take(size)?;
            *known |= 1 << place;
        }
        place += 1;
    }
    Ok(())
}

/// A later scan of some values of a block (T.81, G.1.2.3): a bit for each that is not zero already, and what becomes other than zero.
fn refined(
    bits: &mut Bits<&[u8]>,
    table: &Huffman,
    (from, to): (u32, u32),
    run: &mut u32,
    known: &mut u64,
) -> Result<(), JpegError> {
    let mut place = from;
    while *run == 0 && place <= to {
        let (_, _, symbol) = bits.code(table)?;
        let (mut zeros, size) = (u32::from(symbol >> 4), symbol & 15);
        match size {
            0 if zeros < 15 => {
                *run = (1 << zeros) + bits.take(zeros)?;
                break;
            }
            0 => {}
            1 => {
                bits.take(1)?;
            }
            _ => return Err(JpegError::Code),
        }
        while place <= to {
            if *known >> place & 1 == 1 {
                bits.take(1)?;
            } else if zeros == 0 {
                break;
            } else {
                zeros -= 1;
            }
            place += 1;
        }
        if size == 1 {
            if place > to {
                return Err(JpegError::Values);
            }
            *known |= 1 << place;
        }
        place += 1;
    }
    if *run > 0 {
        while place <= to {
            if *known >> place & 1 == 1 {
                bits.take(1)?;
            }
            place += 1;
        }
        *run -= 1;
    }
    Ok(())
}
