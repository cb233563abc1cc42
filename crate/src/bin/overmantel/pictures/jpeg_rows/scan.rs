//! The coded pixels of a sequential JPEG, one row of blocks after the other, each encoded again so that it needs none before it.
//!
//! T.81, annex F: the mean of a block is coded as its difference from that of the one before, everything else by itself. So only the means
//! are coded again, with the table of annex K.3, which has a code for every difference that there can be.

use super::bits::{Bits, Huffman};
use super::error::JpegError;
use std::fs::File;
use std::io::BufReader;

/// A colour of the picture: its name, how many blocks of it there are to a unit, and its tables.
#[derive(Clone, Copy)]
pub(super) struct Component {
    pub(super) name: u8,
    pub(super) sampling: u8,
    pub(super) quanta: u8,
    pub(super) dc: usize,
    pub(super) ac: usize,
}

impl Component {
    pub(super) const fn new([name, sampling, quanta]: [u8; 3]) -> Self {
        Self { name, sampling, quanta, dc: 0, ac: 0 }
    }

    fn blocks(&self) -> (usize, usize) {
        (usize::from(self.sampling >> 4), usize::from(self.sampling & 15))
    }
}

/// The table of T.81, K.3.1, for the means of bright and dark, as the body of a segment: its kind and place, how many codes there are of each
/// length, and what they stand for.
pub(super) const MEANS: [u8; 29] =
    [0, 0, 1, 5, 1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];

/// The same as codes with their lengths (T.81, table K.3).
const MEAN_CODES: [(u32, u32); 12] = [
    (0b00, 2),
    (0b010, 3),
    (0b011, 3),
    (0b100, 3),
    (0b101, 3),
    (0b110, 3),
    (0b1110, 4),
    (0b1_1110, 5),
    (0b11_1110, 6),
    (0b111_1110, 7),
    (0b1111_1110, 8),
    (0b1_1111_1110, 9),
];

/// Far beyond what eight bits can come to.
const MOST_MEAN: u32 = 1 << 15;

/// The blocks of a unit: of which colour, and by which tables.
struct UnitBlocks {
    blocks: usize,
    dc: Huffman,
    ac: Huffman,
    mean: i32,
}

/// Coded pixels on their way.
pub(super) struct Scan {
    bits: Bits<BufReader<File>>,
    parts: Vec<UnitBlocks>,
    /// Units across.
    pub(super) across: u16,
    /// Pixels of a unit, down.
    pub(super) high: usize,
    restart: u32,
    done: u32,
}

impl Scan {
    pub(super) fn new(
        input: BufReader<File>,
        components: &[Component],
        tables: Vec<(Huffman, Huffman)>,
        width: u16,
        restart: u16,
    ) -> Option<Self> {
        // A colour that stands alone comes block by block (T.81, A.2.2).
        let is_alone = components.len() == 1;
        let of = |part: &Component| if is_alone { (1, 1) } else { part.blocks() };
        let wide = components.iter().map(|part| of(part).0).max()?;
        let high = components.iter().map(|part| of(part).1).max()?;
        // At most ten blocks to a unit (T.81, B.2.3).
        let blocks = components.iter().map(|part| of(part).0 * of(part).1).sum::<usize>();
        if components.iter().any(|part| !matches!(of(part), (1..=4, 1..=4))) || blocks > 10 {
            return None;
        }
        let part = |(part, (dc, ac)): (&Component, (Huffman, Huffman))| UnitBlocks {
            blocks: of(part).0 * of(part).1,
            dc,
            ac,
            mean: 0,
        };
        Some(Self {
            bits: Bits::new(input),
            parts: components.iter().zip(tables).map(part).collect(),
            across: u16::try_from(usize::from(width).div_ceil(wide * 8)).ok()?,
            high: high * 8,
            restart: restart.into(),
            done: 0,
        })
    }

    /// Whether the picture ends here, as it should behind its last row.
    pub(super) fn is_end(&mut self) -> Result<bool, JpegError> {
        Ok(self.bits.marker()? == 0xd9)
    }

    /// The next row of units, coded by itself.
    pub(super) fn row(&mut self) -> Result<Vec<u8>, JpegError> {
        let Self { bits, parts, across, restart, done, .. } = self;
        let mut out = Written::default();
        let mut before = [0_i32; 4];
        for _ in 0..*across {
            if *restart > 0 && *done > 0 && done.is_multiple_of(*restart) {
                bits.restart()?;
                parts.iter_mut().for_each(|part| part.mean = 0);
            }
            *done += 1;
            for (part, before) in parts.iter_mut().zip(&mut before) {
                for _ in 0..part.blocks {
                    block(bits, part, before, &mut out)?;
                }
            }
        }
        Ok(out.finish())
    }
}

/// Takes a block and writes it again, its mean by the one that was written before.
fn block(
    bits: &mut Bits<BufReader<File>>,
    part: &mut UnitBlocks,
    before: &mut i32,
    out: &mut Written,
) -> Result<(), JpegError> {
    let (_, _, size) = bits.code(&part.dc)?;
    if size > 11 {
        return Err(JpegError::Mean);
    }
    let coded = i32::try_from(bits.take(size.into())?).unwrap_or(0);
    // What begins with a zero is less than nothing (T.81, F.2.2.1).
    let is_less = size > 0 && coded >> (size - 1) == 0;
    part.mean += if is_less { coded - (1 << size) + 1 } else { coded };
    if part.mean.unsigned_abs() > MOST_MEAN {
        return Err(JpegError::Mean);
    }
    let difference = part.mean - *before;
    *before = part.mean;
    let size = 32 - difference.unsigned_abs().leading_zeros();
    let (code, length) = *MEAN_CODES.get(size as usize).ok_or(JpegError::Mean)?;
    out.put(code, length);
    let rest = if difference < 0 { difference - 1 } else { difference };
    out.put(rest.cast_unsigned() & ((1 << size) - 1), size);
    let mut place = 1;
    while place < 64 {
        let (code, length, symbol) = bits.code(&part.ac)?;
        out.put(code, length);
        let (run, size) = (symbol >> 4, u32::from(symbol & 15));
        if size == 0 && run != 15 {
            return Ok(());
        }
        out.put(bits.take(size)?, size);
        place += u32::from(run) + 1;
    }
    if place > 64 { Err(JpegError::Values) } else { Ok(()) }
}

/// Bits as coded data.
#[derive(Default)]
struct Written {
    bytes: Vec<u8>,
    held: u64,
    count: u32,
}

impl Written {
    fn put(&mut self, bits: u32, count: u32) {
        self.held = self.held << count | u64::from(bits);
        self.count += count;
        while self.count >= 8 {
            self.count -= 8;
            let [.., byte] = (self.held >> self.count).to_be_bytes();
            self.bytes.push(byte);
            if byte == 0xff {
                self.bytes.push(0);
            }
        }
    }

    /// Filled up with ones (T.81, F.1.2.3).
    fn finish(mut self) -> Vec<u8> {
        let missing = (8 - self.count % 8) % 8;
        self.put((1 << missing) - 1, missing);
        self.bytes
    }
}
