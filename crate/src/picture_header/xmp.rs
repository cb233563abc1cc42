//! XMP (ISO 16684-1): properties as RDF in XML, of the picture, and of the work of art that it shows (IPTC Photo Metadata, Artwork or Object in the Image).

use super::Told;
use roxmltree::{Document, Node, ParsingOptions};

const RDF: &str = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
const DUBLIN_CORE: &str = "http://purl.org/dc/elements/1.1/";
const PHOTOSHOP: &str = "http://ns.adobe.com/photoshop/1.0/";
const IPTC_EXTENSION: &str = "http://iptc.org/std/Iptc4xmpExt/2008-02-29/";
const TIFF: &str = "http://ns.adobe.com/tiff/1.0/";
const XML: &str = "http://www.w3.org/XML/1998/namespace";

/// Elements and texts of a packet at most.
const NODES: u32 = 50_000;

/// Elements within elements at most; the parser calls itself for each.
const DEPTH: usize = 64;

/// What a packet says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Xmp {
    /// Of the picture.
    pub picture: Told,
    /// Of the work of art in it.
    pub work: Told,
    /// Which corner comes first, as Exif counts.
    pub orientation: Option<u32>,
}

/// Reads a packet; none where it is no XML, or has a document type.
#[must_use]
pub fn read(packet: &[u8]) -> Option<Xmp> {
    let text = std::str::from_utf8(packet).ok()?;
    let text = text.trim_start_matches('\u{feff}').trim_end_matches(['\0', ' ', '\n', '\r']);
    if depth(text) > DEPTH {
        return None;
    }
    let options = ParsingOptions { allow_dtd: false, nodes_limit: NODES };
    let document = Document::parse_with_options(text, options).ok()?;
    let mut found = Xmp::default();
    for description in document.descendants().filter(|node| node.has_tag_name((RDF, "Description"))) {
        // Properties of the picture stand right below rdf:RDF; deeper ones are of something else.
        if !description.parent().is_some_and(|parent| parent.has_tag_name((RDF, "RDF"))) {
            continue;
        }
        let picture = &mut found.picture;
        fill(&mut picture.title, value(description, DUBLIN_CORE, "title"));
        fill(&mut picture.creator, value(description, DUBLIN_CORE, "creator"));
        fill(&mut picture.created, value(description, PHOTOSHOP, "DateCreated"));
        let orientation = value(description, TIFF, "Orientation").and_then(|text| text.parse().ok());
        found.orientation = found.orientation.or(orientation);
        let works =
            description.children().filter(|node| node.has_tag_name((IPTC_EXTENSION, "ArtworkOrObject")));
        for item in works.flat_map(|node| node.descendants().filter(|node| node.has_tag_name((RDF, "li")))) {
            // Items of lists within a work are none themselves.
            let is_work = item.ancestors().skip(1).find(|node| node.has_tag_name((RDF, "li"))).is_none();
            if is_work && found.work == Told::default() {
                found.work = work(item);
            }
        }
    }
    Some(found)
}

/// How many elements are open at once at most: never fewer than the parser opens before it finds an error.
fn depth(text: &str) -> usize {
    let (mut open, mut most) = (0_usize, 0);
    let mut rest = text;
    while let Some(at) = rest.find('<') {
        rest = &rest[at..];
        let passed = [("<!--", "-->"), ("<![CDATA[", "]]>"), ("<?", "?>")];
        if let Some((_, end)) = passed.iter().find(|(begin, _)| rest.starts_with(begin)) {
            let Some(end) = rest.find(end) else { break };
            rest = &rest[end + 1..];
            continue;
        }
        let mut quote = None;
        let mut before = ' ';
        let end = rest.char_indices().find(|&(_, letter)| {
            let is_end = quote.is_none() && letter == '>';
            if !is_end {
                before = letter;
            }
            match quote {
                Some(mark) if mark == letter => quote = None,
                None if matches!(letter, '"' | '\'') => quote = Some(letter),
                _ => {}
            }
            is_end
        });
        if rest.starts_with("</") {
            open = open.saturating_sub(1);
        } else {
            most = most.max(open + 1);
            open += usize::from(before != '/');
        }
        let Some((end, _)) = end else { break };
        rest = &rest[end + 1..];
    }
    most
}

/// A work of art; its properties stand in the item, or in a description within.
fn work(item: Node<'_, '_>) -> Told {
    let within = item.children().find(|node| node.has_tag_name((RDF, "Description"))).unwrap_or(item);
    Told {
        title: value(within, IPTC_EXTENSION, "AOTitle"),
        creator: value(within, IPTC_EXTENSION, "AOCreator"),
        created: value(within, IPTC_EXTENSION, "AODateCreated"),
        identifier: value(within, IPTC_EXTENSION, "AOSourceInvNo"),
    }
}

fn fill(place: &mut Option<String>, found: Option<String>) {
    if place.is_none() {
        *place = found;
    }
}

/// A property: an attribute, an element with text, or a list, of whose alternatives the default counts.
fn value(of: Node<'_, '_>, space: &str, name: &str) -> Option<String> {
    let plain = |text: &str| Some(text.trim().to_owned()).filter(|text| !text.is_empty());
    if let Some(text) = of.attribute((space, name)) {
        return plain(text);
    }
    let element = of.children().find(|node| node.has_tag_name((space, name)))?;
    let items: Vec<Node<'_, '_>> =
        element.descendants().filter(|node| node.has_tag_name((RDF, "li"))).collect();
    if element.children().any(|node| node.has_tag_name((RDF, "Alt"))) {
        let is_default = |node: &&Node<'_, '_>| node.attribute((XML, "lang")) == Some("x-default");
        let item = items.iter().find(is_default).or_else(|| items.first())?;
        return item.text().and_then(plain);
    }
    if items.is_empty() {
        return element.text().and_then(plain);
    }
    let texts: Vec<String> = items.iter().filter_map(|item| item.text().and_then(plain)).collect();
    (!texts.is_empty()).then(|| texts.join("; "))
}
