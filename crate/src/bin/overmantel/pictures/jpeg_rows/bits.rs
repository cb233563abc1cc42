//! Coded data of a JPEG as bits, and the tables by which they are codes (T.81, annexes B, C and F).

use super::error::JpegError;
use std::io::Read;

/// A table of codes: for each sixteen bits that can come, how many of them are a code, and for what.
#[derive(Clone)]
pub(in crate::pictures) struct Huffman(Vec<(u8, u8)>);

impl Huffman {
    /// From the number of codes of each length, and what they stand for (T.81, annex C); `None` where there are too many.
    pub(in crate::pictures) fn new(counts: &[u8], symbols: &[u8]) -> Option<Self> {
        let mut table = Vec::with_capacity(1 << 16);
        let mut symbols = symbols.iter();
        for (length, &count) in (1_u8..=16).zip(counts) {
            for _ in 0..count {
                let until = table.len() + (1 << (16 - length));
                if until > 1 << 16 {
                    return None;
                }
                table.resize(until, (length, *symbols.next()?));
            }
        }
        table.resize(1 << 16, (0, 0));
        Some(Self(table))
    }
}

/// Bits out of coded data, without the zeros that stand behind bytes of ones.
pub(in crate::pictures) struct Bits<R> {
    input: R,
    held: u64,
    count: u32,
    /// A marker that ends the data, once it came.
    marker: Option<u8>,
    /// Bits that were made up behind the end.
    made_up: u32,
}

impl<R: Read> Bits<R> {
    pub(in crate::pictures) const fn new(input: R) -> Self {
        Self { input, held: 0, count: 0, marker: None, made_up: 0 }
    }

    fn byte(&mut self) -> Result<u8, JpegError> {
        let mut byte = [0];
        self.input.read_exact(&mut byte)?;
        Ok(byte[0])
    }

    fn fill(&mut self) -> Result<(), JpegError> {
        while self.count <= 48 {
            let mut byte = 0;
            if self.marker.is_none() {
                byte = self.byte()?;
                if byte == 0xff {
                    let mut next = self.byte()?;
                    while next == 0xff {
                        next = self.byte()?;
                    }
                    if next != 0 {
                        self.marker = Some(next);
                        byte = 0;
                    }
                }
            }
            if self.marker.is_some() {
                self.made_up += 8;
            }
            self.held = self.held << 8 | u64::from(byte);
            self.count += 8;
        }
        Ok(())
    }

    pub(in crate::pictures) fn take(&mut self, count: u32) -> Result<u32, JpegError> {
        if self.count < count {
            self.fill()?;
        }
        self.count -= count;
        if self.count < self.made_up {
            return Err(JpegError::Early);
        }
        Ok(u32::try_from(self.held >> self.count & ((1 << count) - 1)).unwrap_or_default())
    }

    /// The next code: its bits, how many they are, and what it stands for.
    pub(in crate::pictures) fn code(&mut self, table: &Huffman) -> Result<(u32, u32, u8), JpegError> {
        if self.count < 16 {
            self.fill()?;
        }
        let (length, symbol) = table.0[(self.held >> (self.count - 16) & 0xffff) as usize];
        if length == 0 {
            return Err(JpegError::Code);
        }
        Ok((self.take(length.into())?, length.into(), symbol))
    }

    /// The marker with which the coded data end here, as they should behind the last unit. Fill bytes may stand before it (T.81,
    /// B.1.1.2), and zeros, which some programs write.
    pub(in crate::pictures) fn marker(&mut self) -> Result<u8, JpegError> {
        // What fills up the last byte is part of none.
        self.count -= (self.count - self.made_up) % 8;
        loop {
            if self.count == self.made_up && self.marker.is_none() {
                (self.held, self.count, self.made_up) = (0, 0, 0);
                self.fill()?;
            }
            if self.count > self.made_up {
                if self.take(8)? != 0 {
                    return Err(JpegError::GoesOn);
                }
                continue;
            }
            match self.marker {
                // A restart may be stated behind the last unit too.
                Some(0xd0..=0xd7) | None => self.marker = None,
                Some(marker) => return Ok(marker),
            }
        }
    }

    /// What comes behind the marker.
    pub(in crate::pictures) fn into_input(self) -> R {
        self.input
    }

    /// Passes a restart marker.
    pub(in crate::pictures) fn restart(&mut self) -> Result<(), JpegError> {
        // At most some ones are left before it.
        if self.count - self.made_up >= 8 {
            return Err(JpegError::NoRestart);
        }
        if self.marker.is_none() {
            let (one, other) = (self.byte()?, self.byte()?);
            if one != 0xff {
                return Err(JpegError::NoRestart);
            }
            self.marker = Some(other);
        }
        if !matches!(self.marker, Some(0xd0..=0xd7)) {
            return Err(JpegError::NoRestart);
        }
        (self.marker, self.held, self.count, self.made_up) = (None, 0, 0, 0);
        Ok(())
    }
}
