//! Fonts within papers: no more of them than is used, and that as it was drawn.

use super::{DEMOS, demo, read_back};
use lopdf::{Document, Object};
use overmantel::papers::{Kind, Paper};
use ttf_parser::{Face, GlyphId};

/// The fonts of a document, each with its name.
fn fonts(document: &Document) -> Vec<(String, Vec<u8>)> {
    let descriptors = document.objects.values().filter_map(|object| object.as_dict().ok());
    let descriptors = descriptors.filter(|dict| dict.has(b"FontFile2"));
    descriptors
        .map(|dict| {
            let name = dict.get(b"FontName").and_then(Object::as_name).expect("a name");
            let file = dict.get(b"FontFile2").and_then(Object::as_reference).expect("a file");
            let file = document.get_object(file).and_then(Object::as_stream).expect("a stream");
            let data = file.decompressed_content().expect("deflated");
            let stated = file.dict.get(b"Length1").and_then(Object::as_i64).expect("a length");
            assert_eq!(usize::try_from(stated).expect("a length"), data.len());
            (String::from_utf8_lossy(name).into_owned(), data)
        })
        .collect()
}

fn whole(name: &str) -> Vec<u8> {
    let file = match name.split_once('+').expect("a part of a font").1 {
        "AlegreyaSans-Regular" => "alegreya-sans-regular",
        "AlegreyaSans-Medium" => "alegreya-sans-medium",
        "Alegreya-Regular" => "alegreya-regular",
        "Alegreya-Italic" => "alegreya-italic",
        "Alegreya-Bold" => "alegreya-bold",
        other => panic!("an unknown font: {other}"),
    };
    std::fs::read(format!("{}/../crate/fonts/{file}.ttf", env!("CARGO_MANIFEST_DIR"))).expect("a font")
}

/// An outline as its steps.
#[derive(Default, PartialEq, Debug)]
struct Steps(Vec<[f32; 4]>);

impl ttf_parser::OutlineBuilder for Steps {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.push([x, y, 0.0, 0.0]);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.push([x, y, 0.0, 1.0]);
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.push([x1, y1, x, y]);
    }
    fn curve_to(&mut self, _: f32, _: f32, _: f32, _: f32, _: f32, _: f32) {
        panic!("a TrueType outline has no cubic curves");
    }
    fn close(&mut self) {}
}

#[test]
fn fonts_within_a_paper_draw_every_letter_as_the_whole_font_does() {
    let mut plan = demo("low-water");
    plan.title = String::from("Łódź, Győr, Šibenik: å, ñ, ½");
    for kind in Kind::ALL {
        let (document, seen) = read_back(&plan, kind, Paper::A4);
        assert!(seen[0].text.contains(&plan.title), "{kind:?}");
        let fonts = fonts(&document);
        assert!(fonts.len() >= 2, "{kind:?}");
        for (name, data) in fonts {
            // The sum of all its words (OpenType specification, table `head`).
            let words = data.chunks(4).map(|word| u32::from_be_bytes(word.try_into().expect("whole words")));
            assert_eq!(words.fold(0, u32::wrapping_add), 0xb1b0_afba, "{kind:?} {name}");
            let whole = whole(&name);
            let (part, all) =
                (Face::parse(&data, 0).expect("a font"), Face::parse(&whole, 0).expect("a font"));
            let mut drawn = 0;
            for glyph in (0..part.number_of_glyphs()).map(GlyphId) {
                let (mut here, mut there) = (Steps::default(), Steps::default());
                if part.outline_glyph(glyph, &mut here).is_some() {
                    all.outline_glyph(glyph, &mut there);
                    assert_eq!(here, there, "{kind:?} {name} {glyph:?}");
                    assert_eq!(
                        part.glyph_hor_advance(glyph),
                        all.glyph_hor_advance(glyph),
                        "{name} {glyph:?}"
                    );
                    drawn += 1;
                }
            }
            assert!(drawn > 4 && drawn < 120, "{kind:?} {name}: {drawn} outlines");
        }
    }
}

#[test]
fn a_paper_takes_little_room() {
    for name in DEMOS {
        for kind in Kind::ALL.into_iter().filter(|kind| *kind != Kind::Template) {
            let size = super::bytes(&demo(name), kind, Paper::A4, &[]).len();
            assert!(size < 90_000, "{name} {kind:?}: {size} bytes without pictures");
        }
    }
}
