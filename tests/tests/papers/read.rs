//! Reads papers back with lopdf, which did not write them: lines, rectangles and text, in millimetres from the lower left corner.

use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object};
use std::collections::BTreeMap;

/// Points to the millimetre (ISO 32000-1, 8.3.2.3: 72 to the inch, which is 25.4 mm).
const POINTS: f64 = 72.0 / 25.4;

/// What is on a page.
#[derive(Debug, Default)]
pub(crate) struct Seen {
    /// Width and height of the page.
    pub(crate) size: [f64; 2],
    /// Upright rectangles: left, bottom, width, height; whether filled.
    pub(crate) rects: Vec<([f64; 4], bool)>,
    /// Straight lines: from x, y to x, y; with the red, green and blue that they are drawn in.
    pub(crate) lines: Vec<([f64; 4], [f64; 3])>,
    /// What is written, a line each, by the fonts' own maps of glyphs to letters.
    pub(crate) text: String,
    /// What parts of it mean, where that is stated (ISO 32000-1, 14.9.4).
    pub(crate) meant: Vec<String>,
    /// The matrices of pictures: points of the page from the unit square, still in points.
    pub(crate) pictures: Vec<[f64; 6]>,
}

fn number(object: &Object) -> f64 {
    match object {
        #[expect(clippy::cast_precision_loss, reason = "a coordinate")]
        Object::Integer(number) => *number as f64,
        Object::Real(number) => f64::from(*number),
        other => panic!("{other:?} is no number"),
    }
}

/// Every page of a document.
pub(crate) fn pages(document: &Document) -> Vec<Seen> {
    document.get_pages().values().map(|&id| page(document, id)).collect()
}

/// The letters of a font's glyphs, from its ToUnicode map: lines of `<glyph> <UTF-16>` (ISO 32000-1, 9.10.3). lopdf's own reader of
/// such maps stops at entries that it does not know.
fn letters(document: &Document, font: &Dictionary) -> BTreeMap<u16, String> {
    let map = font.get(b"ToUnicode").and_then(Object::as_reference).expect("a map");
    let map = document.get_object(map).and_then(Object::as_stream).expect("a stream");
    let map = String::from_utf8_lossy(&map.decompressed_content().expect("deflated")).into_owned();
    let hex = |text: &str| -> Option<Vec<u16>> {
        let digits = text.strip_prefix('<')?.strip_suffix('>')?;
        digits
            .as_bytes()
            .chunks(4)
            .map(|four| u16::from_str_radix(std::str::from_utf8(four).ok()?, 16).ok())
            .collect()
    };
    let pair = |line: &str| {
        let (glyph, letter) = line.trim().split_once(' ')?;
        Some((*hex(glyph)?.first()?, String::from_utf16(&hex(letter)?).ok()?))
    };
    let (_, list) = map.split_once("beginbfchar").expect("pairs");
    list.lines().filter_map(pair).collect()
}

fn page(document: &Document, id: lopdf::ObjectId) -> Seen {
    let dictionary = document.get_dictionary(id).expect("a page");
    let media: Vec<f64> =
        dictionary.get(b"MediaBox").and_then(Object::as_array).expect("a box").iter().map(number).collect();
    let mut seen = Seen { size: [media[2] / POINTS, media[3] / POINTS], ..Seen::default() };
    let content = Content::decode(&document.get_page_content(id).expect("a stream")).expect("operators");
    let fonts: BTreeMap<Vec<u8>, BTreeMap<u16, String>> = document
        .get_page_fonts(id)
        .expect("fonts")
        .into_iter()
        .map(|(name, font)| (name, letters(document, font)))
        .collect();
    let mut font = &BTreeMap::new();
    let (mut from, mut ink) = ([0.0; 2], [0.0; 3]);
    let (mut rect, mut line) = (None, None);
    for operation in &content.operations {
        let values = || operation.operands.iter().map(number).collect::<Vec<f64>>();
        match operation.operator.as_str() {
            "RG" => ink.copy_from_slice(&values()),
            "re" => {
                let values = values();
                rect = Some([0, 1, 2, 3].map(|index| values[index] / POINTS));
                line = None;
            }
            "m" => {
                let values = values();
                from = [values[0] / POINTS, values[1] / POINTS];
                rect = None;
            }
            "l" => {
                let values = values();
                line = Some([from[0], from[1], values[0] / POINTS, values[1] / POINTS]);
            }
            "c" | "h" => line = None,
            "S" => {
                seen.lines.extend(line.take().map(|line| (line, ink)));
                seen.rects.extend(rect.take().map(|rect| (rect, false)));
            }
            "f" | "B" => {
                seen.rects.extend(rect.take().map(|rect| (rect, true)));
                line = None;
            }
            "Tf" => font = &fonts[operation.operands[0].as_name().expect("a font")],
            "Tj" => {
                let glyphs = operation.operands[0].as_str().expect("a text").chunks(2);
                let glyphs = glyphs.map(|pair| u16::from_be_bytes([pair[0], pair[1]]));
                seen.text.extend(glyphs.map(|glyph| font.get(&glyph).map_or("\u{fffd}", String::as_str)));
                seen.text.push('\n');
            }
            "BDC" => {
                let properties = operation.operands[1].as_dict().expect("properties");
                let meant = properties.get(b"ActualText").ok().map(lopdf::decode_text_string);
                seen.meant.extend(meant.map(|meant| meant.expect("a text")));
            }
            "cm" => seen.pictures.push(values().try_into().expect("six numbers")),
            _ => {}
        }
    }
    seen
}

/// Whether two lengths in millimetres are the same to a tenth of one.
pub(crate) fn near(one: f64, other: f64) -> bool {
    (one - other).abs() <= 0.1
}

impl Seen {
    /// The rectangles of a size, to a tenth of a millimetre.
    pub(crate) fn sized(&self, width: f64, height: f64) -> Vec<[f64; 4]> {
        let is = |rect: &&[f64; 4]| near(rect[2], width) && near(rect[3], height);
        self.rects.iter().map(|(rect, _)| rect).filter(is).copied().collect()
    }
}
