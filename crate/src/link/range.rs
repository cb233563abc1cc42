//! A binary range coder that learns how likely each kind of decision is (G. N. N. Martin, "Range encoding", 1979).
//!
//! Integers only, so that the same decisions are the same bytes on every machine. Behind the last byte more
//! noughts are read, which say "no".

/// How likely a decision is to be "yes", as far as is known: fast to learn at first, slow later.
#[derive(Clone, Copy)]
pub(super) struct Odds {
    /// Of 65,536.
    likely: u16,
    seen: u8,
}

/// Decisions after which an estimate learns no slower.
const MOST_SEEN: u8 = 62;

impl Odds {
    /// Odds to begin with, of 65,536.
    pub(super) const fn new(likely: u16) -> Self {
        Self { likely, seen: 2 }
    }

    fn learn(&mut self, bit: bool) {
        let (old, seen) = (i32::from(self.likely), i32::from(self.seen));
        let goal = if bit { 65_535 } else { 0 };
        self.likely = u16::try_from((old + (goal - old) / (seen + 1)).clamp(24, 65_512)).unwrap_or(32_768);
        self.seen = (self.seen + 1).min(MOST_SEEN);
    }
}

/// The odds that two models give together, of 65,536.
pub(super) fn together(one: &Odds, other: &Odds) -> u32 {
    u32::from(one.likely.midpoint(other.likely))
}

/// What codes decisions, one way or the other.
pub(super) trait Coder {
    /// Codes a decision of which so many in 65,536 are "yes".
    fn bit(&mut self, bit: bool, likely: u32) -> bool;

    /// Codes a decision that is as likely as not.
    fn even(&mut self, bit: bool) -> bool {
        self.bit(bit, 32_768)
    }

    /// Codes a decision by one model, which learns from it.
    fn alone(&mut self, bit: bool, odds: &mut Odds) -> bool {
        let bit = self.bit(bit, u32::from(odds.likely));
        odds.learn(bit);
        bit
    }

    /// Codes a decision by two models, which learn from it.
    fn learnt(&mut self, bit: bool, one: &mut Odds, other: &mut Odds) -> bool {
        let bit = self.bit(bit, together(one, other));
        one.learn(bit);
        other.learn(bit);
        bit
    }
}

/// Writes.
pub(super) struct Writer {
    low: u64,
    range: u32,
    bytes: Vec<u8>,
}

impl Writer {
    pub(super) fn new() -> Self {
        Self { low: 0, range: u32::MAX, bytes: Vec::new() }
    }

    fn shift(&mut self) {
        if self.low > u64::from(u32::MAX) {
            for byte in self.bytes.iter_mut().rev() {
                *byte = byte.wrapping_add(1);
                if *byte != 0 {
                    break;
                }
            }
            self.low &= u64::from(u32::MAX);
        }
        self.bytes.push(u8::try_from(self.low >> 24).unwrap_or(0));
        self.low = (self.low << 8) & u64::from(u32::MAX);
    }

    /// The bytes: of all numbers within the last range that with the most noughts at its end.
    pub(super) fn end(mut self) -> Vec<u8> {
        let top = self.low + u64::from(self.range) - 1;
        let end = (0..=32).rev().map(|bits| top >> bits << bits).find(|&end| end >= self.low);
        self.low = end.unwrap_or(self.low);
        for _ in 0..4 {
            self.shift();
        }
        while self.bytes.last() == Some(&0) {
            self.bytes.pop();
        }
        self.bytes
    }
}

impl Coder for Writer {
    fn bit(&mut self, bit: bool, likely: u32) -> bool {
        let bound = (self.range >> 16) * (65_536 - likely);
        if bit {
            self.low += u64::from(bound);
            self.range -= bound;
        } else {
            self.range = bound;
        }
        while self.range < 1 << 24 {
            self.range <<= 8;
            self.shift();
        }
        bit
    }
}

/// Reads.
pub(super) struct Reader<'a> {
    code: u32,
    range: u32,
    bytes: std::slice::Iter<'a, u8>,
}

impl<'a> Reader<'a> {
    pub(super) fn of(bytes: &'a [u8]) -> Self {
        let mut reader = Self { code: 0, range: u32::MAX, bytes: bytes.iter() };
        for _ in 0..4 {
            reader.shift();
        }
        reader
    }

    fn shift(&mut self) {
        self.code = self.code << 8 | u32::from(self.bytes.next().copied().unwrap_or(0));
    }
}

impl Coder for Reader<'_> {
    fn bit(&mut self, _bit: bool, likely: u32) -> bool {
        let bound = (self.range >> 16) * (65_536 - likely);
        let bit = self.code >= bound;
        if bit {
            self.code -= bound;
            self.range -= bound;
        } else {
            self.range = bound;
        }
        while self.range < 1 << 24 {
            self.range <<= 8;
            self.shift();
        }
        bit
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A thousand decisions of which one in ten is "yes" have 469 bits of information (Shannon: 0.469 each); these come back, in
    /// little more than that.
    #[test]
    fn decisions_come_back_in_about_as_many_bits_as_they_are_worth() {
        let bits: Vec<bool> = (0..1_000_u32).map(|at| at * 7_919 % 10 == 0).collect();
        let (mut writer, mut odds) = (Writer::new(), Odds::new(32_768));
        for bit in &bits {
            writer.alone(*bit, &mut odds);
        }
        let bytes = writer.end();
        assert!((58..66).contains(&bytes.len()), "{}", bytes.len());
        let (mut reader, mut odds) = (Reader::of(&bytes), Odds::new(32_768));
        assert!(bits.iter().all(|bit| reader.alone(false, &mut odds) == *bit));
    }
}
