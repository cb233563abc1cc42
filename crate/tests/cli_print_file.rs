//! `print-file` as a print shop meets it: pixels against another library's, and what files state of themselves read by the standards.
//!
//! Pixels are compared with what the `image` library decodes, turns and crops by itself. Chunks, fields and segments are found here by
//! PNG (third edition) 5.3, TIFF 6.0 section 2 and T.81 annex B.
#![cfg(all(feature = "cli", not(target_arch = "wasm32")))]

use command::{check_refused, overmantel, path, plan, scratch, text};
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageReader, Rgb, RgbImage};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use moxcms::ColorProfile;
use read::{chunk, field, jpeg_segments, png_pixels, tiff_pixels};
use std::fs;
use std::path::{Path, PathBuf};

mod command;
mod read;

/// A plan in the folder: one piece on aluminium, so many millimetres, that shows a file of so many pixels; or made as stated.
fn planned(folder: &Path, file: &str, px: (u32, u32), mm: (u32, u32), made: &str) -> PathBuf {
    let text = fs::read_to_string(plan("harbour-pair.json")).expect("the demo's plan");
    let mut plan: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    plan["pictures"] = serde_json::json!([{ "name": "Harbour", "file": file, "pixels": [px.0, px.1] }]);
    let size = [format!("{} mm", mm.0), format!("{} mm", mm.1)];
    let made: serde_json::Value = serde_json::from_str(made).expect("JSON");
    plan["pieces"] = serde_json::json!([{ "picture": "Harbour", "image": size, "made": made }]);
    let path = folder.join("plan.json");
    fs::write(&path, plan.to_string()).expect("a plan");
    path
}

const ALUMINIUM: &str = r#"{ "aluminium": { "thickness": "1 mm", "stand_off": "2 cm" } }"#;

/// Water and masts: smooth parts, edges, and colours that change.
fn harbour(width: u32, height: u32) -> RgbImage {
    let byte = |value: u32| u8::try_from(value % 256).expect("a byte");
    RgbImage::from_fn(width, height, |x, y| {
        let mast = if x % 37 < 2 && y < height / 2 { 60 } else { 0 };
        Rgb([
            byte(x * 200 / width + mast),
            byte(y * 255 / height),
            byte((x + y) * 120 / (width + height) + 2 * mast),
        ])
    })
}

fn print(folder: &Path, plan: &Path, further: &[&str]) -> (PathBuf, String) {
    let out = folder.join("prints");
    let mut arguments = vec!["print-file", path(plan), "--out", path(&out)];
    arguments.extend(further);
    let output = overmantel(&arguments);
    assert!(output.status.success(), "{arguments:?}: {}", text(&output.stderr));
    let left = fs::read_dir(&out).expect("the folder").flatten();
    for file in left {
        let name = file.file_name().to_string_lossy().into_owned();
        assert!(!name.contains("part"), "{name} is left behind");
    }
    let format = further.iter().position(|word| *word == "--format").map_or("png", |at| further[at + 1]);
    let ending = match format {
        "tiff" => "tif",
        "jpeg" => "jpg",
        other => other,
    };
    (out.join(format!("plan-1.{ending}")), text(&output.stderr))
}

fn decoded(path: &Path) -> DynamicImage {
    let mut decoder = ImageReader::open(path).expect("a file").into_decoder().expect("a picture");
    let orientation = decoder.orientation().expect("an orientation");
    let mut image = DynamicImage::from_decoder(decoder).expect("pixels");
    image.apply_orientation(orientation);
    image
}

/// An Exif body that states an orientation and a place in words (Exif 2.3, 4.6.2).
fn exif(orientation: u8) -> Vec<u8> {
    let mut body = b"MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
    body.extend([orientation, 0, 0, 0, 0, 0, 0]);
    body.extend(b"GPS 53.2 N 6.1 E, Orla Tidewell");
    body
}

fn jpeg(picture: &RgbImage, set: impl FnOnce(&mut Encoder<&mut Vec<u8>>)) -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = Encoder::new(&mut file, 90);
    set(&mut encoder);
    let (width, height) = picture.dimensions();
    let side = |px| u16::try_from(px).expect("a small picture");
    encoder.encode(picture.as_raw(), side(width), side(height), ColorType::Rgb).expect("a JPEG");
    file
}

/// Baseline JPEGs of every sampling, with restart markers and tables of their own, and a progressive one, come out as another library decodes
/// them whole.
#[test]
fn every_kind_of_jpeg_comes_out_as_it_is() {
    use SamplingFactor::{F_1_1, F_1_2, F_2_1, F_2_2};
    let folder = scratch("print-file-jpeg");
    // Neither side is a whole number of blocks, and there are several parts of 128 rows.
    let picture = harbour(333, 523);
    let file = folder.join("harbour.jpg");
    let plan = planned(&folder, "harbour.jpg", (333, 523), (333, 523), ALUMINIUM);
    let check = |bytes: Vec<u8>, what: &str, is_whole: bool| {
        fs::write(&file, bytes).expect("a JPEG");
        let (made, said) = print(&folder, &plan, &["--force"]);
        assert!(decoded(&made) == decoded(&file), "{what}");
        assert_eq!(said.contains("read as a whole"), is_whole, "{what}: {said}");
    };
    for sampling in [F_1_1, F_2_1, F_1_2, F_2_2] {
        for restart in [0, 1, 7, 100] {
            let set = |encoder: &mut Encoder<&mut Vec<u8>>| {
                encoder.set_sampling_factor(sampling);
                if restart > 0 {
                    encoder.set_restart_interval(restart);
                }
            };
            check(jpeg(&picture, set), &format!("{sampling:?}, a restart every {restart}"), false);
        }
    }
    let rough = jpeg(&picture, |encoder| encoder.set_quality(5));
    check(rough, "coarse", false);
    let fine = jpeg(&picture, |encoder| encoder.set_quality(100));
    check(fine, "fine", false);
    check(jpeg(&picture, |encoder| encoder.set_progressive(true)), "progressive", true);
    // Tables of its own come with colours one after the other.
    check(jpeg(&picture, |encoder| encoder.set_optimized_huffman_tables(true)), "colour by colour", true);
    let grey = image::imageops::grayscale(&picture);
    let mut bytes = Vec::new();
    Encoder::new(&mut bytes, 90).encode(grey.as_raw(), 333, 523, ColorType::Luma).expect("a JPEG");
    check(bytes, "grey", false);
    // What another encoder writes.
    let mut bytes = Vec::new();
    let encoder = image::codecs::jpeg::JpegEncoder::new_with_quality(&mut bytes, 85);
    picture.write_with_encoder(encoder).expect("a JPEG");
    check(bytes, "by another encoder", false);
}

#[test]
fn turned_pictures_stand_upright() {
    let folder = scratch("print-file-turned");
    let picture = harbour(90, 61);
    for orientation in 1..=8 {
        let turned = Orientation::from_exif(orientation).expect("an orientation");
        let px = if orientation < 5 { (90, 61) } else { (61, 90) };
        let mut expected = DynamicImage::ImageRgb8(picture.clone());
        expected.apply_orientation(turned);
        // PNG, with an eXIf chunk.
        let plan = planned(&folder, "harbour.png", px, px, ALUMINIUM);
        let mut info = png::Info::with_size(90, 61);
        (info.color_type, info.exif_metadata) = (png::ColorType::Rgb, Some(exif(orientation).into()));
        let file = fs::File::create(folder.join("harbour.png")).expect("a file");
        let mut writer =
            png::Encoder::with_info(file, info).and_then(png::Encoder::write_header).expect("a PNG");
        writer.write_image_data(picture.as_raw()).and_then(|()| writer.finish()).expect("a PNG");
        let (made, _) = print(&folder, &plan, &["--force"]);
        assert!(decoded(&made) == expected, "PNG, {orientation}");
        // TIFF, with its own field.
        let plan = planned(&folder, "harbour.tif", px, px, ALUMINIUM);
        let file = fs::File::create(folder.join("harbour.tif")).expect("a file");
        let mut encoder = tiff::encoder::TiffEncoder::new(file).expect("a TIFF");
        let mut image = encoder.new_image::<tiff::encoder::colortype::RGB8>(90, 61).expect("a TIFF");
        image.encoder().write_tag(tiff::tags::Tag::Orientation, u16::from(orientation)).expect("a field");
        image.write_data(picture.as_raw()).expect("a TIFF");
        let (made, _) = print(&folder, &plan, &["--force"]);
        assert!(decoded(&made) == expected, "TIFF, {orientation}");
        // JPEG, with an Exif segment.
        let plan = planned(&folder, "harbour.jpg", px, px, ALUMINIUM);
        let bytes = jpeg(&picture, |encoder| encoder.add_exif_metadata(&exif(orientation)).expect("Exif"));
        fs::write(folder.join("harbour.jpg"), bytes).expect("a JPEG");
        for format in ["png", "jpeg", "tiff"] {
            let (made, _) = print(&folder, &plan, &["--force", "--format", format]);
            let bytes = fs::read(&made).expect("a file");
            // A JPEG has Exif, for its resolution: what is in that is another test's.
            let words = ["GPS", "Tidewell", "eXIf", "Exif"];
            for word in &words[..if format == "jpeg" { 3 } else { 4 }] {
                let is_in = bytes.windows(word.len()).any(|part| part == word.as_bytes());
                assert!(!is_in, "{format} has {word}");
            }
            if format == "png" {
                assert!(decoded(&made) == decoded(&folder.join("harbour.jpg")), "JPEG, {orientation}");
            }
        }
    }
}

/// 400 × 300 px in 508 × 381 mm, which is 20 × 15 in, is 20 px/in: 787.4 px to the metre, 787 as whole ones.
#[test]
fn density_and_profile_are_in_every_file() {
    let folder = scratch("print-file-said");
    let picture = harbour(400, 300);
    let profile = ColorProfile::new_adobe_rgb().encode().expect("a profile");
    let bytes = jpeg(&picture, |encoder| encoder.add_icc_profile(&profile).expect("a profile"));
    fs::write(folder.join("harbour.jpg"), bytes).expect("a JPEG");
    let plan = planned(&folder, "harbour.jpg", (400, 300), (508, 381), ALUMINIUM);
    let expected = decoded(&folder.join("harbour.jpg")).into_rgb8();

    let (made, said) = print(&folder, &plan, &[]);
    assert!(said.contains("400 × 300 px, 508 mm × 381 mm (20\" × 15\") at 20 ppi"), "{said}");
    assert!(said.contains("colour profile kept: Adobe RGB"), "{said}");
    assert!(said.contains("no pixel is changed"), "{said}");
    let bytes = fs::read(made).expect("a PNG");
    // PNG 11.3.4.3: across, down, and 1 for the metre.
    assert_eq!(chunk(&bytes, "pHYs").expect("a density"), [0, 0, 3, 19, 0, 0, 3, 19, 1]);
    // PNG 11.3.2.3: a name, a zero, 0 for deflate, then zlib.
    let stored = chunk(&bytes, "iCCP").expect("a profile");
    let at = stored.iter().position(|byte| *byte == 0).expect("the end of a name") + 2;
    let inflated = miniz_oxide::inflate::decompress_to_vec_zlib(&stored[at..]).expect("zlib");
    assert!(inflated == profile, "byte for byte");
    assert!(chunk(&bytes, "sRGB").is_none(), "it has a profile instead");

    let (made, said) = print(&folder, &plan, &["--format", "tiff"]);
    assert!(said.contains("resolution in the file: 20 ppi"), "{said}");
    let bytes = fs::read(made).expect("a TIFF");
    // TIFF 6.0, section 8: across, down, and 2 for the inch.
    let ratio = |bytes: &[u8]| {
        let part = |at: usize| u32::from_ne_bytes([bytes[at], bytes[at + 1], bytes[at + 2], bytes[at + 3]]);
        f64::from(part(0)) / f64::from(part(4))
    };
    for tag in [282, 283] {
        assert!((ratio(&field(&bytes, tag).expect("a density")) - 20.0).abs() < 1e-6);
    }
    assert_eq!(field(&bytes, 296).expect("a unit")[..2], 2_u16.to_ne_bytes());
    assert!(field(&bytes, 34_675).expect("a profile") == profile, "byte for byte");
    assert!(tiff_pixels(&bytes) == *expected.as_raw());

    let (made, said) = print(&folder, &plan, &["--format", "jpeg"]);
    assert!(said.contains("resolution in the file: 20 ppi"), "{said}");
    let bytes = fs::read(&made).expect("a JPEG");
    let segments = jpeg_segments(&bytes);
    // JFIF 1.02: a name, the version, 1 for the inch, across and down.
    let (first, head) = &segments[0];
    assert_eq!((*first, &head[..5], &head[7..12]), (0xe0, &b"JFIF\0"[..], &[1, 0, 20, 0, 20][..]));
    // ICC.1, annex B.4: a name, which part, of how many.
    let parts = segments.iter().filter(|(marker, _)| *marker == 0xe2);
    let stored: Vec<u8> = parts.flat_map(|(_, body)| body[14..].to_vec()).collect();
    assert!(stored == profile, "byte for byte");
    let of_marker = |marker: u8| segments.iter().filter(|segment| segment.0 == marker).collect::<Vec<_>>();
    assert!(matches!(of_marker(0xe1)[..], [(_, body)] if body.starts_with(b"Exif\0\0")), "no XMP");
    let found = decoded(&made).into_rgb8();
    let off = found
        .as_raw()
        .iter()
        .zip(expected.as_raw())
        .map(|(one, other)| u64::from(one.abs_diff(*other)).pow(2));
    let squares: u64 = off.sum();
    // 45 dB: a mean square of 255² / 10^4.5 = 2.06.
    assert!(squares < 2 * 400 * 300 * 3, "{squares}");
}

/// What another library reads in the Exif of a JPEG, and what a TIFF's fields say: pixels by the resolution are the size in print to the last
/// unit. Sizes in millimetres, and in inches as so many of 25.4 mm; the sides' densities differ, since each is of whole pixels.
#[test]
fn resolutions_are_exact() {
    use exif::{In, Rational, Tag, Value};
    let folder = scratch("print-file-exact");
    for (px, mm, bleed) in [
        ((411, 333), ("406.4", "330.2"), None),
        ((397, 501), ("400", "500"), None),
        ((1000, 701), ("330", "230"), Some("3 mm")),
        ((613, 419), ("203.2", "139.7"), Some("3.175 mm")),
        ((97, 131), ("12.345", "16.789"), None),
    ] {
        harbour(px.0, px.1).save(folder.join("harbour.png")).expect("a PNG");
        let plan = planned(&folder, "harbour.png", px, (1, 1), ALUMINIUM);
        let mut whole: serde_json::Value =
            serde_json::from_slice(&fs::read(&plan).expect("a plan")).expect("JSON");
        whole["pieces"][0]["image"] = serde_json::json!([format!("{} mm", mm.0), format!("{} mm", mm.1)]);
        fs::write(&plan, whole.to_string()).expect("a plan");
        let further: Vec<&str> = bleed.iter().flat_map(|bleed| ["--bleed", bleed]).collect();
        // Micrometres in print, and pixels × 25 400 µm to the inch.
        let micrometres = |text: &str| (text.parse::<f64>().expect("a number") * 1000.0).round();
        let bleeds = bleed.map_or(0.0, |bleed| 2.0 * micrometres(bleed.trim_end_matches(" mm")));
        let check = |px: u32, ratio: Rational, side: &str, what: &str| {
            let size = f64::from(px) * 25_400.0 * f64::from(ratio.denom) / f64::from(ratio.num);
            // Whole numbers far below 2^53: rounding could hide no more than a billionth of a micrometre.
            assert!(
                (size - micrometres(side) - bleeds).abs() < 1e-6,
                "{what} of {px} px: {size} for {side} mm"
            );
        };
        let (made, said) = print(&folder, &plan, &[&["--force", "--format", "jpeg"], &further[..]].concat());
        assert!(said.contains("as exact as the size needs"), "{said}");
        // Each of them has a pixel or more beyond the crop on two sides.
        let of_the_picture = "to be trimmed off: the picture's own pixels beyond what is kept, ";
        assert_eq!(said.contains(of_the_picture), bleed.is_some(), "{said}");
        let bytes = fs::read(&made).expect("a JPEG");
        let found = exif::Reader::new().read_from_container(&mut std::io::Cursor::new(&bytes)).expect("Exif");
        let ratio = |tag| match found.get_field(tag, In::PRIMARY).map(|field| &field.value) {
            Some(Value::Rational(ratios)) => ratios[0],
            other => panic!("{tag}: {other:?}"),
        };
        let number = |tag| found.get_field(tag, In::PRIMARY).and_then(|field| field.value.get_uint(0));
        let size = decoded(&made).into_rgb8().dimensions();
        check(size.0, ratio(Tag::XResolution), mm.0, "JPEG");
        check(size.1, ratio(Tag::YResolution), mm.1, "JPEG");
        let stated =
            [Tag::ResolutionUnit, Tag::PixelXDimension, Tag::PixelYDimension, Tag::ColorSpace].map(number);
        assert_eq!(stated, [2, size.0, size.1, 1].map(Some), "the inch, the pixels, sRGB");
        // Exif 2.3, 4.6.8, tables 17 and 18: what a compressed picture must have, and nothing besides.
        let mut tags: Vec<u16> = found.fields().map(|field| field.tag.number()).collect();
        tags.sort_unstable();
        assert_eq!(tags, [282, 283, 296, 531, 0x9000, 0x9101, 0xa000, 0xa001, 0xa002, 0xa003]);
        let (made, _) = print(&folder, &plan, &[&["--force", "--format", "tiff"], &further[..]].concat());
        let bytes = fs::read(made).expect("a TIFF");
        for (tag, px, side) in [(282, size.0, mm.0), (283, size.1, mm.1)] {
            let field = field(&bytes, tag).expect("a ratio");
            let [num, denom] =
                [0, 4].map(|at| u32::from_ne_bytes([field[at], field[at + 1], field[at + 2], field[at + 3]]));
            check(px, Rational { num, denom }, side, "TIFF");
        }
    }
}

/// A file without a profile is said to be taken as sRGB, and the PNG says that of itself.
#[test]
fn without_a_profile_srgb_is_assumed() {
    let folder = scratch("print-file-srgb");
    harbour(40, 50).save(folder.join("harbour.png")).expect("a PNG");
    let plan = planned(&folder, "harbour.png", (40, 50), (40, 50), ALUMINIUM);
    let (made, said) = print(&folder, &plan, &[]);
    assert!(said.contains("no colour profile in the file: sRGB is assumed"), "{said}");
    let bytes = fs::read(made).expect("a PNG");
    assert!(chunk(&bytes, "iCCP").is_none() && chunk(&bytes, "sRGB").is_some());
    assert!(png_pixels(&bytes) == *harbour(40, 50).as_raw(), "by another decoder");
    let output = overmantel(&["print-file", path(&plan), "--out", path(&folder.join("prints"))]);
    let words = "already exists and was left as it is; give another name, or use --force to overwrite it";
    assert!(text(&output.stderr).contains(words), "{}", text(&output.stderr));
    assert_eq!(output.status.code(), Some(1));
}

/// Sixteen bits stay sixteen in PNG and TIFF, and what can be seen through is laid over white: half of the light of black is
/// 188 of 255 (IEC 61966-2-1: 0.5 is the code 0.7354), which is 48 192 of 65 535.
#[test]
fn sixteen_bits_and_covers() {
    let folder = scratch("print-file-wide");
    let wide = image::ImageBuffer::<image::Rgba<u16>, Vec<u16>>::from_fn(40, 50, |x, y| {
        let value = u16::try_from(x * 1600 + y * 13).expect("16 bits");
        if x == 7 {
            image::Rgba([0, 0, 0, 32_768])
        } else {
            image::Rgba([value, 65_535 - value, 300, 65_535])
        }
    });
    wide.save(folder.join("harbour.png")).expect("a PNG");
    let made = r##"{ "canvas": { "depth": "10 mm", "edge": { "plain": "#3f5a57" } } }"##;
    let plan = planned(&folder, "harbour.png", (40, 50), (40, 50), made);
    let mut expected = image::ImageBuffer::from_pixel(60, 70, Rgb([0x3f3f_u16, 0x5a5a, 0x5757]));
    for (x, y, pixel) in wide.enumerate_pixels() {
        let [red, green, blue, _] = pixel.0;
        expected.put_pixel(x + 10, y + 10, if x == 7 { Rgb([48_192; 3]) } else { Rgb([red, green, blue]) });
    }
    let near = |found: &[u16]| {
        found.len() == expected.as_raw().len()
            && found.iter().zip(expected.as_raw()).all(|(one, other)| one.abs_diff(*other) <= 2)
    };
    let (made, said) = print(&folder, &plan, &[]);
    assert!(said.contains("transparent parts are put on white"), "{said}");
    let found = decoded(&made);
    assert!(matches!(found, DynamicImage::ImageRgb16(_)));
    let found = found.into_rgb16().into_raw();
    assert!(near(&found));
    let by_another = png_pixels(&fs::read(made).expect("a PNG"));
    assert!(by_another == found.iter().flat_map(|sample| sample.to_be_bytes()).collect::<Vec<u8>>());
    let (made, _) = print(&folder, &plan, &["--format", "tiff"]);
    let pixels = tiff_pixels(&fs::read(made).expect("a TIFF"));
    let samples: Vec<u16> = pixels.as_chunks::<2>().0.iter().map(|pair| u16::from_ne_bytes(*pair)).collect();
    assert!(near(&samples));
    let (_, said) = print(&folder, &plan, &["--format", "jpeg"]);
    assert!(said.contains("16 bits become 8"), "{said}");
}

/// The edge's colour is said in the profile's terms. Worked out by the matrices and curves of IEC 61966-2-1 and of Adobe RGB (1998): sRGB
/// 63, 90, 87 is 73, 90, 88 there (73.4, 90.4, 87.7).
#[test]
fn a_plain_edge_has_its_colour_by_the_profile() {
    let folder = scratch("print-file-edge");
    let profile = ColorProfile::new_adobe_rgb().encode().expect("a profile");
    let bytes = jpeg(&harbour(40, 50), |encoder| encoder.add_icc_profile(&profile).expect("a profile"));
    fs::write(folder.join("harbour.jpg"), bytes).expect("a JPEG");
    let made = r##"{ "canvas": { "depth": "10 mm", "edge": { "plain": "#3f5a57" } } }"##;
    let plan = planned(&folder, "harbour.jpg", (40, 50), (40, 50), made);
    let (made, _) = print(&folder, &plan, &[]);
    let found = decoded(&made).into_rgb8().get_pixel(0, 0).0;
    assert!(found.iter().zip([73, 90, 88]).all(|(one, other)| one.abs_diff(other) <= 1), "{found:?}");
}

/// A grey picture with an edge in a colour becomes one of colours, unless it has a profile of greys, which says nothing of colours.
#[test]
fn a_grey_picture_takes_an_edge_in_a_colour() {
    let folder = scratch("print-file-grey");
    let grey = image::imageops::grayscale(&harbour(40, 50));
    grey.save(folder.join("harbour.png")).expect("a PNG");
    let made = r##"{ "canvas": { "depth": "10 mm", "edge": { "plain": "#3f5a57" } } }"##;
    let plan = planned(&folder, "harbour.png", (40, 50), (40, 50), made);
    let (made, said) = print(&folder, &plan, &[]);
    assert!(said.contains("the grey picture becomes RGB because of the edge's colour"), "{said}");
    let mut expected = RgbImage::from_pixel(60, 70, Rgb([0x3f, 0x5a, 0x57]));
    image::imageops::replace(&mut expected, &DynamicImage::ImageLuma8(grey.clone()).into_rgb8(), 10, 10);
    assert!(decoded(&made).into_rgb8() == expected);
    let profile = ColorProfile::new_gray_with_gamma(2.2).encode().expect("a profile");
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 90);
    encoder.add_icc_profile(&profile).expect("a profile");
    encoder.encode(grey.as_raw(), 40, 50, ColorType::Luma).expect("a JPEG");
    fs::write(folder.join("harbour.jpg"), bytes).expect("a JPEG");
    let made = r##"{ "canvas": { "depth": "10 mm", "edge": { "plain": "#3f5a57" } } }"##;
    let plan = planned(&folder, "harbour.jpg", (40, 50), (40, 50), made);
    let out = folder.join("prints");
    let arguments = ["print-file", path(&plan), "--out", path(&out), "--force"];
    check_refused(
        &arguments,
        1,
        "the picture is grey with a grey profile, and the solid edge is #3f5a57; save the picture in RGB",
    );
}

/// Whatever stands in a file, it becomes a picture or a sentence, and nothing is left behind but the picture.
#[test]
fn damaged_files_are_told_of() {
    use tiff::encoder::{Compression, TiffEncoder, colortype};
    let folder = scratch("print-file-damaged");
    let picture = harbour(60, 50);
    let mut png = std::io::Cursor::new(Vec::new());
    picture.write_to(&mut png, image::ImageFormat::Png).expect("a PNG");
    let strips = |compression| {
        let mut file = std::io::Cursor::new(Vec::new());
        let mut encoder = TiffEncoder::new(&mut file).expect("a TIFF").with_compression(compression);
        encoder.write_image::<colortype::RGB8>(60, 50, picture.as_raw()).expect("a TIFF");
        file.into_inner()
    };
    let mut webp = std::io::Cursor::new(Vec::new());
    picture.write_to(&mut webp, image::ImageFormat::WebP).expect("a WebP");
    let files = [
        ("harbour.png", png.into_inner()),
        ("harbour.webp", webp.into_inner()),
        ("harbour.jpg", jpeg(&picture, |encoder| encoder.set_progressive(true))),
        ("harbour.jpg", jpeg(&picture, |encoder| encoder.set_optimized_huffman_tables(true))),
        ("harbour.jpg", jpeg(&picture, |encoder| encoder.set_restart_interval(3))),
        ("harbour.tif", strips(Compression::Uncompressed)),
        ("harbour.tif", strips(Compression::Lzw)),
        ("harbour.tif", read::tiled((60, 50), (16, 16), |x, y| u16::try_from(x + y).expect("small"))),
    ];
    let mut seed = 20_u32;
    let mut number = |below: usize| {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        usize::try_from(seed >> 8).expect("a number") % below
    };
    let mut refused = 0;
    for round in 0..320 {
        let (name, whole) = &files[round % files.len()];
        let mut bytes = whole.clone();
        // Half of the places are near the beginning or the end, where files say how they are made.
        for _ in 0..=number(4) {
            let at = match number(4) {
                0 => number(bytes.len().min(300)),
                1 => bytes.len() - 1 - number(bytes.len().min(200)),
                _ => number(bytes.len()),
            };
            bytes[at] = u8::try_from(number(256)).expect("a byte");
        }
        fs::write(folder.join(name), bytes).expect("a file");
        let plan = planned(&folder, name, (60, 50), (60, 50), ALUMINIUM);
        let out = folder.join("prints");
        let output = overmantel(&["print-file", path(&plan), "--out", path(&out), "--force"]);
        let said = text(&output.stderr);
        assert!(matches!(output.status.code(), Some(0 | 1)) && !said.contains("panicked"), "{round}: {said}");
        refused += usize::from(!output.status.success());
        let left = fs::read_dir(&out)
            .map_or(0, |folder| folder.flatten().filter(|file| file.file_name() != *"plan-1.png").count());
        assert_eq!(left, 0, "{round}: something is left behind");
    }
    assert!(refused > 80, "{refused} of 320 were refused");
}

/// Packed strips, tiles, and one strip that is the whole picture, of either order of bytes.
#[test]
fn every_kind_of_tiff_comes_out_as_it_is() {
    use tiff::encoder::{Compression, DeflateLevel, TiffEncoder, colortype};
    let folder = scratch("print-file-tiff");
    let picture = harbour(300, 217);
    let plan = planned(&folder, "harbour.tif", (300, 217), (300, 217), ALUMINIUM);
    let kinds = [
        Compression::Uncompressed,
        Compression::Lzw,
        Compression::Deflate(DeflateLevel::Fast),
        Compression::Packbits,
    ];
    let kinds = kinds.into_iter().enumerate();
    for ((kind, compression), rows) in kinds.flat_map(|kind| [(kind, 217), (kind, 16)]) {
        let file = fs::File::create(folder.join("harbour.tif")).expect("a file");
        let mut encoder = TiffEncoder::new(file).expect("a TIFF").with_compression(compression);
        let mut image = encoder.new_image::<colortype::RGB8>(300, 217).expect("a TIFF");
        image.rows_per_strip(rows).expect("rows");
        image.write_data(picture.as_raw()).expect("a TIFF");
        let (made, _) = print(&folder, &plan, &["--force"]);
        assert!(decoded(&made).into_rgb8() == picture, "{rows} rows to the strip, kind {kind}");
    }
    // Tiles of 64 × 48 px, by hand: TIFF 6.0, sections 2 and 15; the bytes of samples with the higher one first.
    let grey = |x: u32, y: u32| u16::try_from(x * 200 + y).expect("16 bits");
    fs::write(folder.join("harbour.tif"), read::tiled((300, 217), (64, 48), grey)).expect("a TIFF");
    let (made, _) = print(&folder, &plan, &["--force"]);
    let found = decoded(&made).into_luma16();
    assert!(found.enumerate_pixels().all(|(x, y, pixel)| pixel.0 == [grey(x, y)]));
}

#[test]
fn what_cannot_be_printed_is_said() {
    let folder = scratch("print-file-refused");
    let out = folder.join("prints");
    let plan_of = |file: &str, px| planned(&folder, file, px, (40, 50), ALUMINIUM);
    let check = |plan: &Path, further: &[&str], code: i32, words: &str| {
        let arguments = [&["print-file", path(plan), "--out", path(&out)], further].concat();
        check_refused(&arguments, code, words);
        let left = fs::read_dir(&out).map_or(0, |folder| folder.flatten().count());
        assert_eq!(left, 0, "nothing is left behind");
    };
    let help = text(&overmantel(&["print-file", "--help"]).stdout);
    assert!(help.contains("with its own pixels as far as its file has any beyond what is kept"), "{help}");
    let plan = plan_of("harbour.png", (40, 50));
    check(
        &plan,
        &[],
        1,
        "harbour.png was not found next to the plan or in a folder given with --pictures; say where it is",
    );
    harbour(40, 50).save(folder.join("harbour.png")).expect("a PNG");
    check(&plan, &["--piece", "2"], 1, "the plan has 1 piece, so there is no piece 2");
    check(&plan, &["--piece", "0"], 2, "give 1, 2 and so on, or all");
    check(&plan, &["--density", "9"], 2, "write a whole number from 10 to 2400");
    check(&plan, &["--bleed", "a hair"], 1, "the bleed: ");
    check(&plan, &["--bleed", "12 cm"], 1, "a bleed of 120 mm can't be added");
    let larger = "harbour.png has 40 × 50 pixels, and the plan expects 4000 × 5000; this is a smaller copy, so use the picture at its full size, or use it with --smaller";
    check(&plan_of("harbour.png", (4000, 5000)), &[], 1, larger);
    check(&plan_of("harbour.png", (60, 50)), &["--smaller"], 1, "which is another shape");
    let wide = planned(&folder, "harbour.png", (40, 50), (8000, 10_000), ALUMINIUM);
    check(
        &wide,
        &["--density", "300", "--format", "jpeg"],
        1,
        "a JPEG can have at most 65535 pixels along a side, and this one would have 94488 × 118110",
    );
    check(
        &wide,
        &["--density", "2400"],
        1,
        "at most 400000 along a side are allowed; choose a lower resolution",
    );
    fs::write(folder.join("notes.png"), "no picture").expect("a text");
    check(
        &plan_of("notes.png", (40, 50)),
        &[],
        1,
        "is not a picture that this program can read; save it as PNG, JPEG or TIFF",
    );
    let whole = fs::read(folder.join("harbour.png")).expect("a PNG");
    fs::write(folder.join("cut.png"), &whole[..whole.len() - 200]).expect("a PNG");
    check(&plan_of("cut.png", (40, 50)), &[], 1, "cut.png is incomplete");
    let whole = jpeg(&harbour(40, 50), |_| ());
    fs::write(folder.join("cut.jpg"), &whole[..whole.len() - 200]).expect("a JPEG");
    check(&plan_of("cut.jpg", (40, 50)), &[], 1, "cut.jpg is incomplete");
    check(&plan_of("cut.jpg", (40, 50)), &["--format", "jpeg"], 1, "cut.jpg is incomplete");
    let mut inks = Vec::new();
    Encoder::new(&mut inks, 90).encode(&[9; 40 * 50 * 4], 40, 50, ColorType::Cmyk).expect("a JPEG");
    fs::write(folder.join("inks.jpg"), inks).expect("a JPEG");
    check(
        &plan_of("inks.jpg", (40, 50)),
        &[],
        1,
        "is in CMYK, which this program does not convert; save it in RGB",
    );
    let original =
        planned(&folder, "harbour.png", (40, 50), (40, 50), r#"{ "original": { "depth": "2 cm" } }"#);
    check(&original, &[], 1, "there is nothing to print: this is the original");
    check(&original, &["--piece", "1"], 1, "piece 1 is the original, so there is nothing to print");
}
