//! A paper as PDF 1.7: text that can be selected, its fonts within it, tagged, and printed at its true size.
//!
//! Lengths become points (1/72 in, ISO 32000-1, 8.3.2.3) here and in `content`, and nowhere else. The same document gives the same
//! bytes.

use super::Said;
use super::jpeg::Photo;
use super::sheet::Document;
use crate::length::{Length, Unit};
use crate::text::{self, Face};
use content::{Element, Tagged};
use pdf_writer::types::{CidFontType, FontFlags, StructRole, SystemInfo, TabOrder, UnicodeCmap};
use pdf_writer::{Date, Filter, Finish, Name, Pdf, Rect, Ref, Settings, Str, TextStr};
use std::collections::BTreeMap;

mod content;
mod subset;

/// Everything is written as short as can be; streams are deflated, and fonts have only the glyphs that are used.
const SHORT: Settings = Settings { pretty: false };

/// Writes a document. `photos` has a place for each picture of the plan; a picture without a copy is toned.
#[must_use]
pub fn write(document: &Document, photos: &[Option<Photo>]) -> Vec<u8> {
    let mut writer = Writer { pdf: Pdf::with_settings(SHORT), next: 1 };
    writer.pdf.set_version(1, 7);
    writer.document(document, photos);
    writer.pdf.finish()
}

struct Writer {
    pdf: Pdf,
    next: i32,
}

impl Writer {
    fn id(&mut self) -> Ref {
        self.next += 1;
        Ref::new(self.next - 1)
    }

    /// A stream, deflated.
    fn stream(&mut self, id: Ref, bytes: &[u8]) {
        self.pdf.stream(id, &deflated(bytes)).filter(Filter::FlateDecode);
    }

    fn document(&mut self, document: &Document, photos: &[Option<Photo>]) {
        let [catalog, tree, info, metadata, root] = [(); 5].map(|()| self.id());
        let mut tagged = Tagged::new(photos);
        let mut pages = Vec::new();
        for page in &document.pages {
            let [id, content] = [(); 2].map(|()| self.id());
            let stream = tagged.page(page, id);
            self.stream(content, &stream);
            pages.push((id, content, page.size));
        }
        let fonts: Vec<(Face, Ref)> = tagged.fonts.keys().map(|face| (*face, self.id())).collect();
        let pictures: Vec<(usize, Ref)> = tagged.pictures.iter().map(|index| (*index, self.id())).collect();
        for (number, &(id, content, size)) in (0..).zip(&pages) {
            let mut page = self.pdf.page(id);
            page.media_box(Rect::new(0.0, 0.0, points(size.width), points(size.height)));
            page.parent(tree).contents(content).struct_parents(number).tab_order(TabOrder::StructureOrder);
            let mut resources = page.resources();
            let mut named = resources.fonts();
            for &(face, id) in &fonts {
                named.pair(Name(font_name(face).as_bytes()), id);
            }
            named.finish();
            let mut named = resources.x_objects();
            for &(index, id) in &pictures {
                named.pair(Name(picture_name(index).as_bytes()), id);
            }
        }
        let count = i32::try_from(pages.len()).unwrap_or(i32::MAX);
        self.pdf.pages(tree).kids(pages.iter().map(|page| page.0)).count(count);
        for (face, id) in fonts {
            self.font(face, id, &tagged.fonts[&face]);
        }
        for (index, id) in pictures {
            if let Some(photo) = &photos[index] {
                self.picture(photo, id);
            }
        }
        let (top, parents) = self.structure(root, &tagged.elements, &tagged.marked);
        self.about(document, info, metadata);
        let mut written = self.pdf.catalog(catalog);
        written.pages(tree).metadata(metadata).lang(TextStr("en"));
        written.mark_info().marked(true);
        written.viewer_preferences().display_doc_title(true).pair(Name(b"PrintScaling"), Name(b"None"));
        written.pair(Name(b"StructTreeRoot"), root);
        written.finish();
        let mut tree_root = self.pdf.indirect(root).dict();
        tree_root.pair(Name(b"Type"), Name(b"StructTreeRoot")).pair(Name(b"K"), top);
        tree_root.pair(Name(b"ParentTree"), parents).pair(Name(b"ParentTreeNextKey"), count);
    }

    /// What the file says of itself: as the older dictionary, and as XMP.
    fn about(&mut self, document: &Document, info: Ref, metadata: Ref) {
        let Document { title, author, date, .. } = document;
        let mut told = self.pdf.document_info(info);
        told.title(TextStr(title)).creator(TextStr("Overmantel"));
        let mut xmp = String::from(
            "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?><x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\
             <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\"><rdf:Description rdf:about=\"\" \
             xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">\
             <dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">",
        );
        xmp += &escaped(title);
        xmp += "</rdf:li></rdf:Alt></dc:title><dc:language><rdf:Bag><rdf:li>en</rdf:li></rdf:Bag></dc:language>\
                <xmp:CreatorTool>Overmantel</xmp:CreatorTool>";
        if !author.is_empty() {
            told.author(TextStr(author));
            xmp += "<dc:creator><rdf:Seq><rdf:li>";
            xmp += &escaped(author);
            xmp += "</rdf:li></rdf:Seq></dc:creator>";
        }
        if let Some((year, month, day)) = *date {
            told.creation_date(Date::new(year).month(month).day(day));
            xmp += "<xmp:CreateDate>";
            xmp += &super::iso(year, month, day);
            xmp += "</xmp:CreateDate>";
        }
        told.finish();
        xmp += "</rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end=\"r\"?>";
        self.pdf.metadata(metadata, xmp.as_bytes());
    }

    /// The elements, and which of them the contents of each page belong to. Returns the topmost and that tree.
    fn structure(&mut self, root: Ref, elements: &[Element], marked: &[Vec<usize>]) -> (Ref, Ref) {
        let ids: Vec<Ref> = elements.iter().map(|_| self.id()).collect();
        let mut parents = vec![root; elements.len()];
        for (element, id) in elements.iter().zip(&ids) {
            for &child in &element.children {
                parents[child] = *id;
            }
        }
        for ((element, &id), parent) in elements.iter().zip(&ids).zip(parents) {
            let mut written = self.pdf.struct_element(id);
            written.kind(element.role).parent(parent);
            if let Some(words) = &element.words {
                written.alt(TextStr(words));
            }
            if element.role == StructRole::TH {
                let scope = pdf_writer::types::TableHeaderScope::Column;
                written.attributes().push().table().scope(scope);
            }
            if let Some((page, number)) = element.content {
                written.page(page);
                written.children().marked_content_id(number);
            } else {
                let mut children = written.children();
                for &child in &element.children {
                    children.struct_element(ids[child]);
                }
            }
        }
        let lists: Vec<Ref> = marked.iter().map(|_| self.id()).collect();
        for (of_page, &id) in marked.iter().zip(&lists) {
            self.pdf.indirect(id).array().items(of_page.iter().map(|&element| ids[element]));
        }
        let tree = self.id();
        let mut numbers = self.pdf.number_tree::<Ref>(tree);
        let mut entries = numbers.nums();
        for (number, list) in (0..).zip(lists) {
            entries.insert(number, list);
        }
        (ids[0], tree)
    }

    /// A face: its file, how wide its glyphs are, and which letters they are.
    fn font(&mut self, face: Face, id: Ref, glyphs: &BTreeMap<u16, char>) {
        let [descendant, descriptor, file, letters] = [(); 4].map(|()| self.id());
        // Six letters and a plus sign: the file is a part of a larger face (ISO 32000-1, 9.6.4).
        let name = [&subset::tag(glyphs.keys().copied()), "+", postscript_name(face)].said();
        let name = Name(name.as_bytes());
        let system = SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };
        let mut font = self.pdf.type0_font(id);
        font.base_font(name).encoding_predefined(Name(b"Identity-H"));
        font.descendant_font(descendant).to_unicode(letters);
        font.finish();
        let mut font = self.pdf.cid_font(descendant);
        font.subtype(CidFontType::Type2).base_font(name).system_info(system);
        font.font_descriptor(descriptor).cid_to_gid_map_predefined(Name(b"Identity"));
        let parsed = text::font(face);
        let advance =
            |glyph: u16| parsed.map_or(0.0, |font| f32::from(font.advance(ttf_parser::GlyphId(glyph))));
        font.default_width(advance(0));
        let mut widths = font.widths();
        for &glyph in glyphs.keys() {
            widths.consecutive(glyph, [advance(glyph)]);
        }
        widths.finish();
        font.finish();
        let mut written = self.pdf.font_descriptor(descriptor);
        let is_serif = matches!(face, Face::Serif | Face::SerifItalic | Face::SerifBold);
        let mut flags = FontFlags::NON_SYMBOLIC;
        flags.set(FontFlags::SERIF, is_serif);
        flags.set(FontFlags::ITALIC, face == Face::SerifItalic);
        written.name(name).flags(flags).stem_v(80.0).font_file2(file);
        if let Some(font) = parsed {
            let bounds = font.bounds;
            let [left, bottom, right, top] =
                [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(f32::from);
            written.bbox(Rect::new(left, bottom, right, top)).italic_angle(font.italic_angle);
            written.ascent(f32::from(font.ascender)).descent(f32::from(font.descender));
            written.cap_height(font.capital_height.map_or(640.0, f32::from));
        }
        written.finish();
        let data = subset::subset(face.data(), glyphs.keys().copied());
        let length = i32::try_from(data.len()).unwrap_or(i32::MAX);
        let packed = deflated(&data);
        self.pdf.stream(file, &packed).filter(Filter::FlateDecode).pair(Name(b"Length1"), length);
        let mut map = UnicodeCmap::new(Name(b"Adobe-Identity-UCS"), system);
        for (&glyph, &letter) in glyphs {
            map.pair(glyph, letter);
        }
        self.stream(letters, &map.finish());
    }

    /// A picture, coded as it came.
    fn picture(&mut self, photo: &Photo, id: Ref) {
        let profile = photo.profile.as_ref().filter(|profile| {
            let space = profile.get(16..20).unwrap_or_default();
            matches!((space, photo.components), (b"GRAY", 1) | (b"RGB ", 3) | (b"CMYK", 4))
        });
        let profile = profile.map(|profile| (self.id(), profile));
        let mut image = self.pdf.image_xobject(id, &photo.jpeg);
        image.filter(Filter::DctDecode);
        image.width(photo.width_px.into()).height(photo.height_px.into()).bits_per_component(8);
        match profile {
            Some((profile, _)) => image.color_space().icc_based(profile),
            None => {
                let space = image.color_space();
                match photo.components {
                    1 => space.device_gray(),
                    3 => space.device_rgb(),
                    _ => space.device_cmyk(),
                }
            }
        }
        if photo.components == 4 && photo.is_inverted {
            image.decode([1.0, 0.0, 1.0, 0.0, 1.0, 0.0, 1.0, 0.0]);
        }
        image.finish();
        if let Some((id, profile)) = profile {
            let packed = deflated(profile);
            self.pdf.icc_profile(id, &packed).n(photo.components.into()).filter(Filter::FlateDecode);
        }
    }
}

fn deflated(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, 9)
}

/// In points, the unit of a page.
#[expect(clippy::cast_possible_truncation, reason = "a place on a page keeps 24 bits")]
fn points(length: Length) -> f32 {
    length.per(Unit::Point) as f32
}

const fn font_name(face: Face) -> &'static str {
    match face {
        Face::Sans => "S",
        Face::SansMedium => "M",
        Face::Serif => "R",
        Face::SerifItalic => "I",
        Face::SerifBold => "B",
    }
}

const fn postscript_name(face: Face) -> &'static str {
    match face {
        Face::Sans => "AlegreyaSans-Regular",
        Face::SansMedium => "AlegreyaSans-Medium",
        Face::Serif => "Alegreya-Regular",
        Face::SerifItalic => "Alegreya-Italic",
        Face::SerifBold => "Alegreya-Bold",
    }
}

fn picture_name(index: usize) -> String {
    ["P", &index.to_string()].said()
}

/// A text within XML.
pub(super) fn escaped(text: &str) -> String {
    let mut escaped = String::new();
    for letter in text.chars() {
        match letter {
            '&' => escaped += "&amp;",
            '<' => escaped += "&lt;",
            '>' => escaped += "&gt;",
            '"' => escaped += "&quot;",
            '\'' => escaped += "&#39;",
            // Letters that XML 1.0 does not allow at all.
            '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {
                escaped.push(' ')
            }
            other => escaped.push(other),
        }
    }
    escaped
}
