//! Lettering: the faces that screen and papers share, and text as outlines.
//!
//! Text is set from single glyphs with their own advances and the faces' kerning left aside: a drawing's labels are
//! figures and short words. Figures are lining and tabular; a fraction is set from the faces' numerators and denominators,
//! which the embedded subsets carry at the superior and inferior figures of Unicode.
//!
//! ```
//! use overmantel::text::{Face, typeset, width};
//! assert_eq!(typeset("16 1/2\""), "16¹⁄₂″", "the figures of a fraction, and a prime");
//! assert!(width(Face::Sans, "24", 10.0) > width(Face::Sans, "2", 10.0));
//! ```

mod font;

use crate::length::Length;
use crate::rounding::nearest;
use crate::text::font::Font;
use kurbo::{Affine, BezPath};
use std::collections::BTreeMap;
use std::sync::{LazyLock, Mutex, OnceLock};
use ttf_parser::{GlyphId, OutlineBuilder};

/// A face of the two families (SIL Open Font License 1.1; `fonts/OFL.txt`).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// Alegreya Sans Regular: lettering on drawings.
    Sans,
    /// Alegreya Sans Medium: controls.
    SansMedium,
    /// Alegreya Regular: sentences.
    Serif,
    /// Alegreya Italic: notes.
    SerifItalic,
    /// Alegreya Bold: headings.
    SerifBold,
}

impl Face {
    /// Every face.
    pub const ALL: [Self; 5] =
        [Self::Sans, Self::SansMedium, Self::Serif, Self::SerifItalic, Self::SerifBold];

    /// The font file.
    #[must_use]
    pub const fn data(self) -> &'static [u8] {
        match self {
            Self::Sans => include_bytes!("../fonts/alegreya-sans-regular.ttf"),
            Self::SansMedium => include_bytes!("../fonts/alegreya-sans-medium.ttf"),
            Self::Serif => include_bytes!("../fonts/alegreya-regular.ttf"),
            Self::SerifItalic => include_bytes!("../fonts/alegreya-italic.ttf"),
            Self::SerifBold => include_bytes!("../fonts/alegreya-bold.ttf"),
        }
    }

    /// Family, weight and style as CSS writes them.
    #[must_use]
    pub const fn css(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Self::Sans => ("Overmantel Sans", "400", "normal"),
            Self::SansMedium => ("Overmantel Sans", "500", "normal"),
            Self::Serif => ("Overmantel Serif", "400", "normal"),
            Self::SerifItalic => ("Overmantel Serif", "400", "italic"),
            Self::SerifBold => ("Overmantel Serif", "700", "normal"),
        }
    }
}

/// One letter: how far it moves the pen, and its outline, both in units of one em with y up.
#[derive(Clone)]
struct Glyph {
    advance: f64,
    outline: BezPath,
}

/// The letters used so far. Drawing the same labels again finds them here; the outcome doesn't depend on it.
static GLYPHS: LazyLock<Mutex<BTreeMap<(Face, char), Glyph>>> = LazyLock::new(Mutex::default);

fn glyph(face: Face, letter: char) -> Glyph {
    let mut known = GLYPHS.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    known.entry((face, letter)).or_insert_with(|| read_glyph(face, letter)).clone()
}

/// The fonts that have been read.
static FONTS: [OnceLock<Option<Font>>; Face::ALL.len()] = [const { OnceLock::new() }; Face::ALL.len()];

/// The font of a face.
pub(crate) fn font(face: Face) -> Option<&'static Font> {
    FONTS[face as usize].get_or_init(|| Font::read(face.data())).as_ref()
}

fn read_glyph(face: Face, letter: char) -> Glyph {
    let Some(font) = font(face) else {
        return Glyph { advance: 0.5, outline: BezPath::new() };
    };
    let em = f64::from(font.em);
    let id = font.glyph(letter).unwrap_or(GlyphId(0));
    let mut pen = Pen(BezPath::new());
    font.outline(id, &mut pen);
    let advance = f64::from(font.advance(id)) / em;
    Glyph { advance, outline: Affine::scale(1.0 / em) * pen.0 }
}

struct Pen(BezPath);

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.quad_to((f64::from(x1), f64::from(y1)), (f64::from(x), f64::from(y)));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.0.curve_to(
            (f64::from(x1), f64::from(y1)),
            (f64::from(x2), f64::from(y2)),
            (f64::from(x), f64::from(y)),
        );
    }
    fn close(&mut self) {
        self.0.close_path();
    }
}

/// How wide a line of text is at a size (the em) in the same unit as the size.
#[must_use]
pub fn width(face: Face, text: &str, size: f64) -> f64 {
    text.chars().map(|letter| glyph(face, letter).advance).sum::<f64>() * size
}

/// How wide a line of text is at a size: exact, for what is laid out in lengths.
#[must_use]
pub fn length(face: Face, text: &str, size: Length) -> Length {
    let per_mille: i64 = text.chars().map(|letter| nearest(glyph(face, letter).advance * 1000.0)).sum();
    size.times_ratio(per_mille, 1000)
}

/// Which glyph of its font file a letter is; nothing for one that the face lacks.
#[must_use]
pub fn glyph_number(face: Face, letter: char) -> Option<u16> {
    Some(font(face)?.glyph(letter)?.0)
}

/// A line of text as one outline: it begins at the origin on its baseline, y down as on a screen.
#[must_use]
pub fn outline(face: Face, text: &str, size: f64) -> BezPath {
    let mut path = BezPath::new();
    let mut pen = 0.0;
    for letter in text.chars() {
        let glyph = glyph(face, letter);
        path.extend((Affine::new([size, 0.0, 0.0, -size, pen * size, 0.0]) * glyph.outline).iter());
        pen += glyph.advance;
    }
    path
}

/// Sets a plain text typographically: fractions from small figures, primes for inch and foot marks
/// behind figures, quotation marks as in a book.
///
/// The result is for the eye; a screen reader or a clipboard is given the plain text.
#[must_use]
pub fn typeset(plain: &str) -> String {
    const SUPERIOR: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    const INFERIOR: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];
    let letters: Vec<char> = plain.chars().collect();
    let digits = |from: usize| letters[from..].iter().take_while(|letter| letter.is_ascii_digit()).count();
    let small = |set: &[char; 10], from: usize, count: usize| {
        letters[from..from + count]
            .iter()
            .filter_map(|letter| letter.to_digit(10))
            .filter_map(|digit| set.get(usize::try_from(digit).unwrap_or(0)).copied())
            .collect::<String>()
    };
    let mut set = String::new();
    let mut at = 0;
    while at < letters.len() {
        let above = digits(at);
        let slash = at + above;
        let below = if letters.get(slash) == Some(&'/') { digits(slash + 1) } else { 0 };
        if above > 0 && below > 0 {
            // The figures of a fraction are small enough to stand close, and must not be parted from their whole.
            if set.ends_with(' ') && at >= 2 && letters[at - 2].is_ascii_digit() {
                set.pop();
            }
            set += &small(&SUPERIOR, at, above);
            set.push('⁄');
            set += &small(&INFERIOR, slash + 1, below);
            at = slash + 1 + below;
        } else if above > 0 {
            set.extend(&letters[at..slash]);
            at = slash;
        } else {
            let is_measure =
                set.ends_with(|letter: char| letter.is_ascii_digit() || INFERIOR.contains(&letter));
            let opens = set.ends_with(|letter: char| letter.is_whitespace() || "([“‘/".contains(letter))
                || set.is_empty();
            set.push(match letters[at] {
                '"' if is_measure => '″',
                '\'' if is_measure => '′',
                '"' if opens => '“',
                '"' => '”',
                '\'' if opens => '‘',
                '\'' => '’',
                other => other,
            });
            at += 1;
        }
    }
    set
}

/// The plain text of what is set: `21¹⁄₈″` is `21 1/8″` again.
#[must_use]
pub fn unset(set: &str) -> String {
    const SMALL: [&str; 2] = ["⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"];
    let mut plain = String::new();
    let mut is_above = false;
    for letter in set.chars() {
        let digit = SMALL.map(|small| small.chars().position(|known| known == letter));
        // A fraction is parted from its whole again.
        if digit[0].is_some() && !is_above && plain.ends_with(|before: char| before.is_ascii_digit()) {
            plain.push(' ');
        }
        is_above = digit[0].is_some();
        match digit[0].or(digit[1]) {
            Some(digit) => plain += &digit.to_string(),
            None => plain.push(if letter == '⁄' { '/' } else { letter }),
        }
    }
    plain
}
