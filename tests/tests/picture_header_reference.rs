//! Headers of pictures, written by another program (`tests/headers/README.md`); each expected value is one that was given to that program.

use overmantel::picture_file::PictureFileError;
use overmantel::picture_header::{Bytes, Header, read};
use overmantel_builder::paths;
use std::fs;

fn file(name: &str) -> Vec<u8> {
    let path = paths::root().join("tests/headers").join(name);
    fs::read(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn header(name: &str) -> Header {
    read(&mut &file(name)[..], name).unwrap_or_else(|why| panic!("{name}: {why}"))
}

fn some(text: &str) -> Option<String> {
    Some(text.to_owned())
}

#[test]
fn each_way_to_say_it_is_read() {
    let bare = Header { px: (8, 6), ..Header::default() };
    assert_eq!(header("bare.jpg"), bare);
    assert_eq!(
        header("xmp.jpg"),
        Header {
            title: some("Ebbe in der Dämmerung"),
            creator: some("Inge Priel"),
            created: some("2021-05-14"),
            ..bare.clone()
        }
    );
    assert_eq!(
        header("iim.jpg"),
        Header {
            title: some("Möwen am Siel"),
            creator: some("Inge Priel; Hinrich Deich"),
            created: some("2019"),
            ..bare.clone()
        }
    );
    // Without a character set in its envelope, text that is no UTF-8 is read as Latin-1.
    assert_eq!(header("latin1.jpg"), Header { title: some("Möwen"), ..bare.clone() });
    assert_eq!(
        header("exif.jpg"),
        Header {
            title: some("Low water"),
            creator: some("Inge Priel"),
            photographed: some("2022-03-04"),
            ..bare.clone()
        }
    );
    assert_eq!(header("turned.jpg"), Header { px: (6, 8), ..bare }, "orientation 6 lies on its side");
}

/// What is said of the work of art comes before what is said of the photograph of it.
#[test]
fn the_work_comes_before_its_photograph() {
    assert_eq!(
        header("all.jpg"),
        Header {
            px: (8, 6),
            title: some("The work"),
            creator: some("Its painter"),
            created: some("1998"),
            identifier: some("W-017"),
            photographed: some("2023-01-02"),
        }
    );
}

#[test]
fn other_kinds_of_files_have_the_same_parts() {
    let bare = Header { px: (8, 6), ..Header::default() };
    let (by, title) = (some("Inge Priel"), some);
    assert_eq!(header("work.png"), Header { title: title("Sluice"), creator: by.clone(), ..bare.clone() });
    assert_eq!(header("packed.png"), Header { title: title("Packed sluice"), ..bare.clone() });
    assert_eq!(header("work.webp"), Header { title: title("Beacon"), creator: by.clone(), ..bare.clone() });
    let photographed = some("2020-12-31");
    assert_eq!(header("work.tif"), Header { title: title("Groyne"), creator: by, photographed, ..bare });
}

const ALL: [&str; 11] = [
    "all.jpg",
    "bare.jpg",
    "exif.jpg",
    "iim.jpg",
    "latin1.jpg",
    "turned.jpg",
    "xmp.jpg",
    "work.png",
    "packed.png",
    "work.webp",
    "work.tif",
];

/// Whatever a file is cut off at, or claims in any one byte, it is read or refused, and soon.
#[test]
fn broken_files_do_no_harm() {
    for name in ALL {
        let whole = file(name);
        for end in 0..whole.len() {
            let _ = read(&mut &whole[..end], name);
        }
        for at in 0..whole.len() {
            for other in [0x00, 0xff, whole[at] ^ 0x80] {
                let mut broken = whole.clone();
                broken[at] = other;
                let _ = read(&mut &broken[..], name);
            }
        }
    }
    assert!(matches!(read(&mut &b"notes"[..], "notes.txt"), Err(PictureFileError::NoPicture(_))));
}

/// How much of a file is asked for.
struct Counted<'a> {
    bytes: &'a [u8],
    asked: usize,
}

impl Bytes for Counted<'_> {
    fn at(&mut self, place: u64, most: usize) -> Vec<u8> {
        let found = self.bytes.at(place, most);
        self.asked += found.len();
        found
    }
}

/// The picture's own bytes are passed over: of a JPEG with 20 MB behind its header little more than the first 256 KB are read.
#[test]
fn only_the_header_is_read() {
    let mut long = file("all.jpg");
    long.resize(20_000_000, 0x55);
    let mut counted = Counted { bytes: &long, asked: 0 };
    let found = read(&mut counted, "long.jpg").unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(found, header("all.jpg"));
    assert!(counted.asked < 300_000, "{}", counted.asked);
}

/// A packet of XMP in a JPEG of a pixel.
fn with_xmp(packet: &str) -> Vec<u8> {
    let whole = file("bare.jpg");
    let held = [b"http://ns.adobe.com/xap/1.0/\0", packet.as_bytes()].concat();
    let length = u16::try_from(held.len() + 2).unwrap_or_else(|why| panic!("{why}"));
    [&whole[..2], &[0xff, 0xe1], &length.to_be_bytes(), &held, &whole[2..]].concat()
}

/// Entities that grow (the "billion laughs" of XML's security notes, from memory) and depth without end say nothing, and take no time.
#[test]
fn hostile_packets_say_nothing() {
    let rdf = |title: &str| {
        format!(
            "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\
             <rdf:Description xmlns:dc=\"http://purl.org/dc/elements/1.1/\" dc:title=\"{title}\"/></rdf:RDF></x:xmpmeta>"
        )
    };
    let plain = read(&mut &with_xmp(&rdf("Ebb"))[..], "x.jpg").unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(plain.title, some("Ebb"), "a property as an attribute");
    let laughs = format!(
        "<!DOCTYPE x [<!ENTITY a \"ha\">{}]>{}",
        ('b'..='z')
            .map(|letter| {
                let before = char::from(u8::try_from(letter).unwrap_or(b'b') - 1);
                format!("<!ENTITY {letter} \"{}\">", format!("&{before};").repeat(10))
            })
            .collect::<String>(),
        rdf("&z;")
    );
    let deep = "<a>".repeat(20_000);
    for packet in [laughs, deep] {
        let found = read(&mut &with_xmp(&packet)[..], "x.jpg").unwrap_or_else(|why| panic!("{why}"));
        assert_eq!(found.title, None);
    }
}
