//! A link as a QR code (ISO/IEC 18004), where it is short enough to be read off a screen or a sheet of paper.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

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

    /// As pixels, so many to a module: black on white, sRGB, four bytes each. A side has `side() * px` of them.
    #[must_use]
    pub fn pixels(&self, px: u32) -> Vec<u8> {
        let side = self.side() * px.max(1);
        let code = |at: u32| if self.is_dark(at % side / px.max(1), at / side / px.max(1)) { 0 } else { 255 };
        (0..side * side).flat_map(|at| [code(at), code(at), code(at), 255]).collect()
    }
}
