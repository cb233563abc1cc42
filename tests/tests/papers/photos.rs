//! Pictures in papers: coded as they came, without what they say of whoever took them, and the right way up.

use super::{bytes, demo, pages};
use image::codecs::jpeg::JpegEncoder;
use image::{ExtendedColorType, ImageFormat};
use lopdf::{Document, Object};
use overmantel::papers::jpeg::Photo;
use overmantel::papers::{Kind, Paper};

/// A JPEG of 24 × 16 px, with the segments given after its first marker.
fn jpeg(segments: &[(u8, &[u8])]) -> Vec<u8> {
    let pixels: Vec<u8> =
        (0..96_u8).cycle().take(24 * 16).flat_map(|index| [index, 255 - index, index / 2]).collect();
    let mut file = Vec::new();
    JpegEncoder::new(&mut file).encode(&pixels, 24, 16, ExtendedColorType::Rgb8).expect("a JPEG");
    let mut out = file[..2].to_vec();
    for (marker, body) in segments {
        out.extend([0xff, *marker]);
        out.extend(u16::try_from(body.len() + 2).expect("short").to_be_bytes());
        out.extend(*body);
    }
    out.extend(&file[2..]);
    out
}

/// An Exif segment with an orientation and a text (Exif 2.3, 4.6.2: one entry of the first directory is twelve bytes).
fn exif(orientation: u8) -> Vec<u8> {
    let mut body = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
    body.extend([orientation, 0, 0, 0, 0, 0, 0]);
    body.extend(b"GPS 53.2 N 6.1 E, taken by Orla Tidewell");
    body
}

#[test]
fn names_and_places_are_left_out_and_the_picture_is_as_it_was() {
    let exif = exif(1);
    let segments: [(u8, &[u8]); 4] = [
        (0xe1, &exif),
        (0xe1, b"http://ns.adobe.com/xap/1.0/\0<x/>"),
        (0xed, b"Photoshop 3.0\0"),
        (0xfe, b"a comment"),
    ];
    let mut with = jpeg(&segments);
    with.extend(b"what a camera hides behind the end: 53.2 N");
    let photo = Photo::read(&with).expect("a photo");
    assert_eq!(photo.jpeg, jpeg(&[]), "byte for byte the file without them");
    for word in [b"Exif".as_slice(), b"53.2", b"Tidewell", b"Photoshop", b"comment", b"xap"] {
        assert!(!photo.jpeg.windows(word.len()).any(|part| part == word));
    }
    let decoded = |file: &[u8]| {
        image::load_from_memory_with_format(file, ImageFormat::Jpeg).expect("a picture").into_rgb8()
    };
    assert_eq!(decoded(&photo.jpeg), decoded(&with), "the same pixels, by the image crate");
    assert_eq!((photo.width_px, photo.height_px, photo.components), (24, 16, 3));
}

#[test]
fn a_profile_is_kept_beside_the_picture() {
    let mut profile = vec![0; 128];
    profile[16..20].copy_from_slice(b"RGB ");
    let parts: Vec<Vec<u8>> = [1_u8, 2]
        .iter()
        .zip([&profile[..60], &profile[60..]])
        .map(|(number, part)| [b"ICC_PROFILE\0".as_slice(), &[*number, 2], part].concat())
        .collect();
    // In the wrong order, as ICC.1 annex B.4 allows.
    let photo = Photo::read(&jpeg(&[(0xe2, &parts[1]), (0xe2, &parts[0])])).expect("a photo");
    assert_eq!(photo.profile.as_deref(), Some(profile.as_slice()));
    assert!(!photo.jpeg.windows(11).any(|part| part == b"ICC_PROFILE"));
}

#[test]
fn what_is_no_whole_picture_is_refused() {
    let whole = jpeg(&[]);
    for file in
        [&[][..], b"not a picture", &whole[..whole.len() - 2], &whole[..30], &[0xff, 0xd8, 0xff, 0xd9]]
    {
        let why = Photo::read(file).expect_err("no picture").to_string();
        assert_eq!(why, "the picture is not a complete JPEG file; save it again as a JPEG and use that");
    }
}

/// Where six fields of a stored picture, ABC over DEF, come to lie when it is upright: Pillow 13.0.0, `ImageOps.exif_transpose`.
const UPRIGHT: [&str; 8] =
    ["ABC/DEF", "CBA/FED", "FED/CBA", "DEF/ABC", "AD/BE/CF", "DA/EB/FC", "FC/EB/DA", "CF/BE/AD"];

#[test]
fn every_orientation_is_laid_upright() {
    for (orientation, upright) in (1..).zip(UPRIGHT) {
        let photo = Photo::read(&jpeg(&[(0xe1, &exif(orientation))])).expect("a photo");
        assert_eq!(photo.orientation, orientation);
        let rows: Vec<&str> = upright.split('/').collect();
        let mut plan = demo("low-water");
        let (columns, lines) =
            (u32::try_from(rows[0].len()).expect("few"), u32::try_from(rows.len()).expect("few"));
        (plan.pictures[0].width_px, plan.pictures[0].height_px) = (columns * 3000, lines * 3000);
        let file = bytes(&plan, Kind::Order, Paper::A4, &[Some(photo)]);
        let document = Document::load_mem(&file).expect("a PDF");
        // The thumbnail shows the whole of it.
        let matrix = pages(&document)[0].pictures[0];
        let [a, b, c, d, e, f] = matrix;
        let corners = [[0.0, 0.0], [1.0, 0.0], [0.0, 1.0], [1.0, 1.0]]
            .map(|[u, v]| [a * u + c * v + e, b * u + d * v + f]);
        let least = |axis: usize| corners.iter().map(|corner| corner[axis]).fold(f64::MAX, f64::min);
        let most = |axis: usize| corners.iter().map(|corner| corner[axis]).fold(f64::MIN, f64::max);
        for (index, field) in "ABCDEF".chars().enumerate() {
            let (column, row) = (index % 3, index / 3);
            // The middle of the field in the unit square of the stored picture, y up.
            #[expect(clippy::cast_precision_loss, reason = "six fields")]
            let (u, v) = ((column as f64 + 0.5) / 3.0, 1.0 - (row as f64 + 0.5) / 2.0);
            let [x, y] = [a * u + c * v + e, b * u + d * v + f];
            let across = (x - least(0)) / (most(0) - least(0)) * f64::from(columns);
            let down = (most(1) - y) / (most(1) - least(1)) * f64::from(lines);
            let found = rows.iter().enumerate().find_map(|(line, fields)| {
                #[expect(clippy::cast_precision_loss, reason = "six fields")]
                let here = (down - line as f64 - 0.5).abs() < 0.01;
                let letter = fields.chars().enumerate().find(|(column, _)| {
                    #[expect(clippy::cast_precision_loss, reason = "six fields")]
                    let here = (across - *column as f64 - 0.5).abs() < 0.01;
                    here
                });
                letter.filter(|_| here).map(|(_, letter)| letter)
            });
            assert_eq!(found, Some(field), "orientation {orientation}: {field} at {across}, {down}");
        }
    }
}

#[test]
fn the_picture_stands_in_the_file_as_it_came() {
    let photo = Photo::read(&jpeg(&[])).expect("a photo");
    let file = bytes(&demo("low-water"), Kind::Proposal, Paper::A4, &[Some(photo.clone())]);
    let document = Document::load_mem(&file).expect("a PDF");
    let streams: Vec<_> = document.objects.values().filter_map(|object| object.as_stream().ok()).collect();
    let images = streams.iter().filter(|stream| {
        stream.dict.get(b"Filter").is_ok_and(|filter| *filter == Object::Name(b"DCTDecode".to_vec()))
    });
    let contents: Vec<_> = images.map(|stream| stream.content.clone()).collect();
    assert_eq!(contents, [photo.jpeg], "once, and not coded again");
}
