//! What papers are to a reader that speaks them (ISO 14289-1, PDF/UA, as far as it can be told from a file): nothing is drawn that is
//! not tagged or set aside, drawings have words, tables have heads, the title is shown and every font is there.

use super::{DEMOS, demo, read_back};
use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object};
use overmantel::papers::{Kind, Paper};

fn followed<'a>(document: &'a Document, object: &'a Object) -> &'a Object {
    document.dereference(object).expect("an object").1
}

fn entry<'a>(document: &'a Document, dictionary: &'a Dictionary, key: &[u8]) -> &'a Object {
    followed(
        document,
        dictionary.get(key).unwrap_or_else(|_| panic!("{} is there", String::from_utf8_lossy(key))),
    )
}

/// The elements below one, each with its parent's kind.
fn elements<'a>(document: &'a Document, of: &'a Dictionary, found: &mut Vec<(&'a Dictionary, String)>) {
    let kind = of
        .get(b"S")
        .and_then(Object::as_name)
        .map_or(String::new(), |name| String::from_utf8_lossy(name).into_owned());
    let children = match followed(document, of.get(b"K").expect("children")) {
        Object::Array(children) => children.iter().collect(),
        one => vec![one],
    };
    for child in children {
        if let Object::Dictionary(child) = followed(document, child) {
            found.push((child, kind.clone()));
            elements(document, child, found);
        }
    }
}

fn kind_of(element: &Dictionary) -> String {
    String::from_utf8_lossy(element.get(b"S").and_then(Object::as_name).expect("a kind")).into_owned()
}

#[test]
fn nothing_is_drawn_outside_of_what_is_tagged_or_set_aside() {
    for name in DEMOS {
        for kind in Kind::ALL {
            let (document, _) = read_back(&demo(name), kind, Paper::A4);
            for &page in document.get_pages().values() {
                let content =
                    Content::decode(&document.get_page_content(page).expect("a stream")).expect("operators");
                let (mut depth, mut numbers) = (0, Vec::new());
                for operation in &content.operations {
                    match operation.operator.as_str() {
                        "BMC" => depth += 1,
                        "BDC" => {
                            depth += 1;
                            let properties = operation.operands[1].as_dict().expect("properties");
                            numbers.extend(
                                properties.get(b"MCID").ok().map(|number| number.as_i64().expect("a number")),
                            );
                        }
                        "EMC" => depth -= 1,
                        "S" | "f" | "B" | "Tj" | "Do" => assert!(depth > 0, "{name} {kind:?}: drawn outside"),
                        _ => {}
                    }
                }
                assert_eq!(depth, 0);
                let count = i64::try_from(numbers.len()).expect("few");
                assert_eq!(
                    numbers,
                    (0..count).collect::<Vec<_>>(),
                    "{name} {kind:?}: each content has a number of its own"
                );
            }
        }
    }
}

#[test]
fn every_element_is_what_a_reader_can_use() {
    for name in DEMOS {
        for kind in Kind::ALL {
            let (document, _) = read_back(&demo(name), kind, Paper::Letter);
            let catalog = document.catalog().expect("a catalog");
            let shown = entry(&document, catalog, b"ViewerPreferences").as_dict().expect("preferences");
            assert_eq!(shown.get(b"DisplayDocTitle").expect("stated"), &Object::Boolean(true));
            let mut found = Vec::new();
            let root = entry(&document, catalog, b"StructTreeRoot").as_dict().expect("a tree");
            elements(&document, root, &mut found);
            assert_eq!(kind_of(found[0].0), "Document");
            let kinds: Vec<String> = found.iter().map(|(element, _)| kind_of(element)).collect();
            let count = |kind: &str| kinds.iter().filter(|other| *other == kind).count();
            assert!(kind == Kind::Template || count("H1") == 1, "{name} {kind:?}: {kinds:?}");
            for (element, parent) in &found {
                match kind_of(element).as_str() {
                    "Figure" => {
                        let words = element
                            .get(b"Alt")
                            .map(lopdf::decode_text_string)
                            .expect("words")
                            .expect("a text");
                        assert!(words.chars().count() > 8, "{name} {kind:?}: {words}");
                    }
                    "TH" => {
                        let about = entry(&document, element, b"A").as_array().expect("attributes");
                        let scope =
                            followed(&document, &about[0]).as_dict().expect("of a table").get(b"Scope");
                        assert_eq!(scope.and_then(Object::as_name).expect("a scope"), b"Column");
                        assert_eq!(parent, "TR");
                    }
                    "TD" => assert_eq!(parent, "TR"),
                    "TR" => assert_eq!(parent, "Table"),
                    "Document" | "H1" | "H2" | "P" | "Table" => {}
                    other => panic!("{name} {kind:?}: an element {other}"),
                }
            }
            let fonts = document.objects.values().filter_map(|object| object.as_dict().ok());
            let composite: Vec<_> = fonts
                .filter(|dict| {
                    dict.get(b"Subtype").and_then(Object::as_name).is_ok_and(|name| name == b"Type0")
                })
                .collect();
            assert!(!composite.is_empty(), "{name} {kind:?}: there are letters");
            for font in &composite {
                assert!(font.has(b"ToUnicode"), "{name} {kind:?}: letters of every font are known");
            }
            let mut descriptors = 0;
            for descriptor in document.objects.values().filter_map(|object| object.as_dict().ok()) {
                if descriptor
                    .get(b"Type")
                    .and_then(Object::as_name)
                    .is_ok_and(|name| name == b"FontDescriptor")
                {
                    assert!(descriptor.has(b"FontFile2"), "{name} {kind:?}: every font is in the file");
                    descriptors += 1;
                }
            }
            assert_eq!(descriptors, composite.len(), "{name} {kind:?}: one for every font");
        }
    }
}
