//! A link as a QR code (ISO/IEC 18004), where it is short enough to be read off a screen or a sheet of paper.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};
use std::collections::BTreeMap;

/// The largest version: 101 modules a side. What is larger, a phone seldom reads off a screen (common practice, no source).
const MOST_VERSION: u8 = 21;
/// Light modules that a reader needs round the code (ISO/IEC 18004, 5.3.8).
const QUIET: u32 = 4;

/// A QR code.
#[derive(Clone)]
pub struct CodeSquare(QrCode);

impl std::fmt::Debug for CodeSquare {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "CodeSquare({} modules)", self.side())
    }
}

impl CodeSquare {
    /// Of a text, with as much correction of errors as there is room for; `None` where it is too long to be read.
    #[must_use]
    pub fn of(text: &str) -> Option<Self> {
        let segments = QrSegment::make_segments(text);
        let (least, most) = (Version::MIN, Version::new(MOST_VERSION));
        QrCode::encode_segments_advanced(&segments, QrCodeEcc::Low, least, most, None, true).ok().map(Self)
    }

    /// Modules along a side, with the quiet ones round it.
    #[must_use]
    pub fn side(&self) -> u32 {
        u32::try_from(self.0.size()).unwrap_or(0) + QUIET * 2
    }

    /// Whether a module is dark, from the upper left corner of the quiet ones.
    #[must_use]
    pub fn is_dark(&self, across: u32, down: u32) -> bool {
        let inner = |at: u32| i32::try_from(i64::from(at) - i64::from(QUIET)).unwrap_or(-1);
        self.0.get_module(inner(across), inner(down))
    }

    /// The outlines of what is dark, in corners of modules from the upper left corner of the quiet ones: round what is dark with the
    /// clock, round what is light within it against the clock. Modules that touch are within one outline, so that no seam shows.
    #[must_use]
    pub fn outlines(&self) -> Vec<Vec<[u32; 2]>> {
        // The sides of modules that lie between dark and light, each from its beginning to its ends.
        let mut sides: BTreeMap<[u32; 2], Vec<[u32; 2]>> = BTreeMap::new();
        for (y, x) in (0..self.side()).flat_map(|y| (0..self.side()).map(move |x| (y, x))) {
            if !self.is_dark(x, y) {
                continue;
            }
            // A quiet module is round all of them.
            for (is_edge, from, to) in [
                (!self.is_dark(x, y - 1), [x, y], [x + 1, y]),
                (!self.is_dark(x + 1, y), [x + 1, y], [x + 1, y + 1]),
                (!self.is_dark(x, y + 1), [x + 1, y + 1], [x, y + 1]),
                (!self.is_dark(x - 1, y), [x, y + 1], [x, y]),
            ] {
                if is_edge {
                    sides.entry(from).or_default().push(to);
                }
            }
        }
        let mut outlines = Vec::new();
        while let Some((&first, _)) = sides.first_key_value() {
            let (mut outline, mut at) = (vec![first], first);
            while let Some(mut ends) = sides.remove(&at) {
                let Some(to) = ends.pop() else { break };
                if !ends.is_empty() {
                    sides.insert(at, ends);
                }
                // A corner is where the way turns.
                if let [.., [before_x, before_y], _] = outline.as_slice()
                    && (*before_x == to[0] || *before_y == to[1])
                {
                    outline.pop();
                }
                outline.push(to);
                at = to;
            }
            // It ends where it began.
            outline.pop();
            outlines.push(outline);
        }
        outlines
    }

    /// As pixels, so many to a module: black on white, sRGB, four bytes each. A side has `side() * px` of them.
    #[must_use]
    pub fn pixels(&self, px: u32) -> Vec<u8> {
        let side = self.side() * px.max(1);
        let code = |at: u32| if self.is_dark(at % side / px.max(1), at / side / px.max(1)) { 0 } else { 255 };
        (0..side * side).flat_map(|at| [code(at), code(at), code(at), 255]).collect()
    }
}
