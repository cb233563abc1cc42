//! Pictures that are not what they say: lying, hostile, cut off, of another shape. Each is told of in a sentence, within bounded memory, and
//! gets into no paper and no proposal.
//!
//! Files are put together here by the standards: PNG (third edition) 5.3 and 11.2.1, T.81 B.2, the container of WebP (RFC 9649, 2.3).
//! The program runs with 1.5 GB of address space, which is more than it may take of memory.
#![cfg(all(feature = "cli", target_os = "linux"))]

use command::{check_refused, overmantel, path, plan, scratch, text};
use image::{Rgb, RgbImage};
use jpeg_encoder::{ColorType, Encoder};
use serde_json::json;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

mod command;

/// Runs the program with so much address space.
fn within(bytes: u64, arguments: &[&str]) -> Output {
    let run = format!("ulimit -v {} && exec \"$0\" \"$@\"", bytes / 1024);
    let program = env!("CARGO_BIN_EXE_overmantel");
    let output = Command::new("sh").args(["-c", &run, program]).args(arguments).output();
    output.unwrap_or_else(|error| panic!("{error}"))
}

const MOST: u64 = 1_500_000_000;

/// A folder with a page, a picture, and a plan of one piece that counts on so many pixels of it.
struct Place {
    folder: PathBuf,
    plan: PathBuf,
    picture: PathBuf,
    page: PathBuf,
}

impl Place {
    fn new(test: &str, file: &str, bytes: &[u8], px: (u32, u32)) -> Self {
        let folder = scratch(test);
        let place = Self {
            plan: folder.join("plan.json"),
            picture: folder.join(file),
            page: folder.join("page.html"),
            folder,
        };
        let page = "<title>Overmantel</title><script>let a=1;</script><script type=\"x\" class=\"core\">AA==</script>";
        fs::write(&place.page, page).expect("a page");
        place.holds(bytes, px);
        place
    }

    /// Puts another picture there.
    fn holds(&self, bytes: &[u8], px: (u32, u32)) {
        fs::write(&self.picture, bytes).expect("a picture");
        let text = fs::read_to_string(plan("harbour-pair.json")).expect("the demo's plan");
        let mut plan: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        let file = self.picture.file_name().map(|name| name.to_string_lossy().into_owned());
        plan["pictures"] = json!([{ "name": "Harbour", "file": file, "pixels": [px.0, px.1] }]);
        let made = json!({ "aluminium": { "thickness": "1 mm", "stand_off": "2 cm" } });
        plan["pieces"] = json!([{ "picture": "Harbour", "image": ["40 cm", "40 cm"], "made": made }]);
        fs::write(&self.plan, plan.to_string()).expect("a plan");
    }

    /// Every command that reads pictures, with what it would write.
    fn commands(&self) -> Vec<(Vec<String>, PathBuf)> {
        let (plan, folder) = (path(&self.plan), &self.folder);
        let out = |name: &str| folder.join("out").join(name);
        let of = |words: &[&str], name: &str| {
            let to = out(name);
            let mut all: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
            if words[0] != "link" {
                let given = if ["papers", "print-file"].contains(&words[0]) { out("") } else { to.clone() };
                all.extend(["--out".to_owned(), path(&given).to_owned(), "--force".to_owned()]);
            }
            (all, to)
        };
        fs::create_dir_all(out("")).expect("a folder");
        vec![
            of(&["link", plan, "--sketches", "likeness"], "link"),
            of(&["draw", plan], "wall.png"),
            of(&["svg", plan], "wall.svg"),
            of(&["proposal", plan, "--page", path(&self.page)], "proposal.html"),
            of(&["papers", plan, "--sheet", "proposal"], "plan-proposal.pdf"),
            of(&["print-file", plan], "plan-1.png"),
        ]
    }

    /// Every command is refused with these words and writes nothing.
    #[track_caller]
    fn check_refused(&self, words: &str) {
        for (command, to) in self.commands() {
            let arguments: Vec<&str> = command.iter().map(String::as_str).collect();
            let output = within(MOST, &arguments);
            let said = text(&output.stderr);
            assert_eq!(output.status.code(), Some(1), "{arguments:?}: {said}");
            assert!(said.starts_with("overmantel: ") && said.contains(words), "{arguments:?}: {said}");
            assert_eq!(said.lines().count(), 1, "a sentence: {said}");
            assert!(output.stdout.is_empty() && !to.exists(), "{arguments:?} left something");
            let left = fs::read_dir(to.parent().expect("a folder")).expect("a folder").count();
            assert_eq!(left, 0, "{arguments:?} left something");
        }
    }
}

fn chunk(name: &[u8; 4], data: &[u8]) -> Vec<u8> {
    let named = [name.as_slice(), data].concat();
    let length = u32::try_from(data.len()).expect("a short chunk").to_be_bytes();
    // The checksum of PNG, annex D.
    let mut sum = u32::MAX;
    for byte in &named {
        sum ^= u32::from(*byte);
        for _ in 0..8 {
            sum = if sum & 1 == 1 { 0xedb8_8320 ^ (sum >> 1) } else { sum >> 1 };
        }
    }
    [&length[..], &named, &(!sum).to_be_bytes()].concat()
}

/// A PNG that says to be so large, and has these bytes of pixels, which may be anything.
fn png((width, height): (u32, u32), [depth, colour, interlaced]: [u8; 3], data: &[u8]) -> Vec<u8> {
    let mut header = [width.to_be_bytes(), height.to_be_bytes()].concat();
    header.extend([depth, colour, 0, 0, interlaced]);
    [&b"\x89PNG\r\n\x1a\n"[..], &chunk(b"IHDR", &header), &chunk(b"IDAT", data), &chunk(b"IEND", &[])]
        .concat()
}

fn harbour(width: u32, height: u32) -> RgbImage {
    let byte = |value: u32| u8::try_from(value % 256).expect("a byte");
    RgbImage::from_fn(width, height, |x, y| Rgb([byte(x * 200 / width), byte(y * 7 + x), byte(x * y / 97)]))
}

fn jpeg(picture: &RgbImage, set: impl FnOnce(&mut Encoder<&mut Vec<u8>>)) -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = Encoder::new(&mut file, 90);
    set(&mut encoder);
    let side = |px| u16::try_from(px).expect("a small picture");
    let (width, height) = picture.dimensions();
    encoder.encode(picture.as_raw(), side(width), side(height), ColorType::Rgb).expect("a JPEG");
    file
}

/// The same JPEG with another size in its frame header (T.81, B.2.2: height, then width).
fn lying(mut file: Vec<u8>, (width, height): (u16, u16)) -> Vec<u8> {
    let mut at = 2;
    while !matches!(file[at + 1], 0xc0..=0xc2) {
        at += 2 + usize::from(u16::from_be_bytes([file[at + 2], file[at + 3]]));
    }
    file[at + 5..at + 7].copy_from_slice(&height.to_be_bytes());
    file[at + 7..at + 9].copy_from_slice(&width.to_be_bytes());
    file
}

/// A JPEG of some kilobytes took more than 12 GB when its header said 65500 × 65500, and a PNG of 50000 × 50000 nearly as much.
#[test]
fn what_a_header_says_takes_no_memory() {
    let picture = harbour(90, 61);
    let large = (65_500, 65_500);
    let place = Place::new("hostile-jpeg", "p.jpg", &lying(jpeg(&picture, |_| ()), large), (65_500, 65_500));
    place.check_refused("p.jpg is incomplete: its data end too early");
    let progressive = lying(jpeg(&picture, |encoder| encoder.set_progressive(true)), large);
    place.holds(&progressive, (65_500, 65_500));
    let whole = "p.jpg says that it has 65500 × 65500 pixels and can only be read as a whole, which needs 38613 MB of memory, and at most 1100 are allowed; save it as a PNG that is not interlaced";
    place.check_refused(whole);
    // Colours one after the other.
    place.holds(
        &lying(jpeg(&picture, |encoder| encoder.set_optimized_huffman_tables(true)), large),
        (65_500, 65_500),
    );
    place.check_refused("and can only be read as a whole");

    let place = Place::new("hostile-png", "p.png", &[], (50_000, 50_000));
    // Deflate's stored blocks (RFC 1950 and 1951): some rows of nothing.
    let few = [&[0x78, 1, 0, 0xff, 0xff, 0, 0][..], &[0; 65_535]].concat();
    for (kind, words) in [
        ([8, 2, 0], "p.png is incomplete: its data are damaged"),
        ([16, 6, 0], "p.png is incomplete: its data are damaged"),
        ([8, 2, 1], "p.png says that it has 50000 × 50000 pixels and can only be read as a whole"),
    ] {
        place.holds(&png((50_000, 50_000), kind, &few), (50_000, 50_000));
        place.check_refused(words);
    }
    // As large as is still read whole, and with no pixels.
    place.holds(&png((19_000, 19_000), [8, 2, 1], &few), (19_000, 19_000));
    place.check_refused("p.png is incomplete");
    // The first 65 bytes of files whose pixels would take 4 GB and more than there is room for in any machine.
    for size in [
        (50_000, 20_000),
        (32_000, 32_000),
        (200_000, 200_000),
        (0x7fff_ffff, 0x7fff_ffff),
        (300_000, 10),
        (0, 7),
    ] {
        for kind in [[8, 6, 0], [16, 6, 0], [1, 3, 0], [8, 6, 1]] {
            let is_planned = (1..=200_000).contains(&size.0) && (1..=200_000).contains(&size.1);
            place.holds(&png(size, kind, &[0; 24])[..65], if is_planned { size } else { (1000, 1000) });
            place.check_refused("p.png ");
        }
    }
    place.holds(&png((250_000, 10), [8, 2, 0], &few), (1000, 1000));
    place.check_refused("p.png says that it has 250000 × 10 pixels, and a side may have 1 to 200000");
    let first = ["plan", "--picture", path(&place.picture)];
    check_refused(&first, 1, "p.png says that it has 250000 × 10 pixels, and a side may have 1 to 200000");
}

/// A part of a WebP that says to be of 4 GB, and a picture whose header says more than is read whole.
#[test]
fn a_webp_takes_no_more_than_is_allowed() {
    let mut whole = std::io::Cursor::new(Vec::new());
    harbour(90, 61).write_to(&mut whole, image::ImageFormat::WebP).expect("a WebP");
    let whole = whole.into_inner();
    let place = Place::new("hostile-webp", "p.webp", &whole, (90, 61));
    for (command, to) in place.commands() {
        let arguments: Vec<&str> = command.iter().map(String::as_str).collect();
        assert_eq!(within(MOST, &arguments).status.code(), Some(0), "{arguments:?}");
        assert!(to.exists() || command[0] == "link", "{arguments:?}");
        let _ = fs::remove_file(to);
    }
    // RIFF, its length, WEBP, then parts: a name, a length, bytes.
    let mut long = whole.clone();
    long[16..20].copy_from_slice(&[0xf0, 0xff, 0xff, 0xff]);
    place.holds(&long, (90, 61));
    place.check_refused("p.webp can't be read as a picture: it ends within one of its parts");
    place.holds(&whole[..whole.len() / 2], (90, 61));
    place.check_refused("p.webp can't be read as a picture: it ends within one of its parts");
    // VP8L: one byte, then 14 bits of the width less one, and as many of the height (RFC 9649, 3.3).
    let mut large = whole.clone();
    large[21..24].copy_from_slice(&[0xfe, 0xbf, 0xff]);
    large[24] |= 0x0f;
    place.holds(&large, (16_383, 16_383));
    place.check_refused("p.webp says that it has 16383 × 16383 pixels and can only be read as a whole");
}

/// What is cut off, even where it ends as a whole file would, or has more or fewer pixels than it says.
#[test]
fn a_damaged_jpeg_gets_nowhere() {
    let picture = harbour(160, 120);
    let place = Place::new("damaged-jpeg", "p.jpg", &[], (160, 120));
    for (kind, progressive) in [("sequential", false), ("progressive", true)] {
        let whole = jpeg(&picture, |encoder| encoder.set_progressive(progressive));
        place.holds(&whole, (160, 120));
        for (command, to) in place.commands() {
            let arguments: Vec<&str> = command.iter().map(String::as_str).collect();
            let output = within(MOST, &arguments);
            assert_eq!(output.status.code(), Some(0), "{kind}, {arguments:?}: {}", text(&output.stderr));
            let _ = fs::remove_file(to);
        }
        let tenth = whole.len() / 10;
        for cut in [whole.len() - 3, whole.len() - 20, 9 * tenth, 6 * tenth, 4 * tenth] {
            for end in [&[][..], &[0xff, 0xd9]] {
                place.holds(&[&whole[..cut], end].concat(), (160, 120));
                place.check_refused("p.jpg ");
            }
        }
        for lie in [(160, 240), (160, 104), (168, 120), (144, 120), (320, 120)] {
            let px = (u32::from(lie.0), u32::from(lie.1));
            place.holds(&lying(whole.clone(), lie), px);
            place.check_refused("p.jpg ");
        }
    }
    // Bytes of filling may stand before the end, as T.81, B.1.1.2 has them.
    let whole = jpeg(&picture, |_| ());
    let filled = [&whole[..whole.len() - 2], &[0xff, 0xff, 0xff, 0xd9]].concat();
    place.holds(&filled, (160, 120));
    let (papers, _) = place.commands().swap_remove(4);
    let papers: Vec<&str> = papers.iter().map(String::as_str).collect();
    let output = within(MOST, &papers);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
}

/// Large pictures that are what they say are read all the same: in sixteen bits, turned, or only whole.
#[test]
fn large_pictures_are_read_by_rows() {
    let place = Place::new("large-picture", "p.png", &[], (12_000, 9_000));
    let wide = |path: &Path, px: (u32, u32)| {
        let mut encoder = png::Encoder::new(fs::File::create(path).expect("a file"), px.0, px.1);
        encoder.set_color(png::ColorType::Grayscale);
        encoder.set_depth(png::BitDepth::Sixteen);
        encoder.set_compression(png::Compression::Fastest);
        let mut writer = encoder.write_header().expect("a PNG");
        let mut stream = writer.stream_writer().expect("a PNG");
        let row = vec![0x7f; px.0 as usize * 2];
        for _ in 0..px.1 {
            std::io::Write::write_all(&mut stream, &row).expect("a row");
        }
        stream.finish().expect("a PNG");
    };
    wide(&place.picture, (12_000, 9_000));
    // Its pixels are 216 MB.
    for (command, to) in place
        .commands()
        .into_iter()
        .filter(|(command, _)| ["link", "print-file"].contains(&command[0].as_str()))
    {
        let arguments: Vec<&str> = command.iter().map(String::as_str).collect();
        let output = within(120_000_000, &arguments);
        assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", text(&output.stderr));
        assert!(to.exists() || command[0] == "link", "{arguments:?}");
    }
}

/// What papers state is counted in the pixels that the plan counts on, so a picture has to have them.
#[test]
fn pictures_have_the_pixels_that_the_plan_counts_on() {
    let small = jpeg(&harbour(160, 120), |_| ());
    let place = Place::new("other-pictures", "p.jpg", &small, (1600, 1200));
    let run = |name: &str, further: &[&str]| {
        let (command, to) =
            place.commands().into_iter().find(|(command, _)| command[0] == name).expect("a command");
        let arguments: Vec<&str> =
            command.iter().map(String::as_str).chain(further.iter().copied()).collect();
        let output = overmantel(&arguments);
        let was_written = fs::remove_file(to).is_ok();
        (output.status.code(), text(&output.stderr), was_written)
    };
    let smaller = "overmantel: p.jpg has 160 × 120 pixels, and the plan expects 1600 × 1200; this is a smaller copy, so use the picture at its full size, or use it with --smaller";
    for name in ["papers", "proposal", "print-file"] {
        let (code, said, was_written) = run(name, &[]);
        assert_eq!((code, was_written), (Some(1), false), "{name}: {said}");
        assert!(said.starts_with(smaller), "{name}: {said}");
        let (code, said, was_written) = run(name, &["--smaller"]);
        assert_eq!((code, was_written), (Some(0), true), "{name}: {said}");
        assert!(said.contains("160 × 120"), "it is told: {said}");
    }
    for name in ["draw", "svg"] {
        assert_eq!(run(name, &[]), (Some(0), String::new(), true), "a copy is as good for a drawing");
    }
    for px in [(1600, 1600), (160, 160), (120, 160)] {
        place.holds(&small, px);
        for (name, further) in [
            ("papers", &["--smaller"][..]),
            ("proposal", &["--smaller"]),
            ("draw", &[]),
            ("svg", &[]),
            ("link", &[]),
        ] {
            let (code, said, was_written) = run(name, further);
            assert_eq!((code, was_written), (Some(1), false), "{name}: {said}");
            assert!(
                said.contains("which is another shape; use the picture that the plan was made with"),
                "{said}"
            );
        }
    }
    place.holds(&small, (80, 60));
    for name in ["papers", "proposal"] {
        let (code, said, was_written) = run(name, &["--smaller"]);
        assert_eq!((code, was_written), (Some(1), false), "{name}: {said}");
        assert!(said.contains("the plan expects 80 × 60; write its pixels in the plan"), "{said}");
    }
}

/// What stands in mirror image is held until it is written: a bleed of 100 mm at 2400 px/in would take 8 GB.
#[test]
fn a_print_takes_no_more_than_is_allowed() {
    let place = Place::new("large-print", "p.png", &[], (400, 400));
    harbour(400, 400).save(&place.picture).expect("a PNG");
    let out = place.folder.join("prints");
    let print =
        ["print-file", path(&place.plan), "--out", path(&out), "--density", "2400", "--bleed", "100 mm"];
    let output = within(MOST, &print);
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert!(
        said.contains("MB of memory") && said.contains("choose a narrower bleed or another resolution"),
        "{said}"
    );
    assert!(fs::read_dir(&out).is_ok_and(|mut folder| folder.next().is_none()), "nothing is left behind");
}

/// The largest pictures that are read whole, of each kind: minutes, so that it is run by hand with `--ignored`.
#[test]
#[ignore = "takes minutes and gigabytes"]
fn the_largest_that_are_read_whole() {
    use tiff::encoder::{Compression, TiffEncoder, colortype};
    let check = |place: &Place| {
        let whole = place
            .commands()
            .into_iter()
            .filter(|(command, _)| ["link", "print-file"].contains(&command[0].as_str()));
        for (command, to) in whole {
            let arguments: Vec<&str> = command.iter().map(String::as_str).collect();
            let output = within(MOST, &arguments);
            let said = text(&output.stderr);
            assert_eq!(output.status.code(), Some(0), "{arguments:?}: {said}");
            assert!(to.exists() || command[0] == "link", "{arguments:?}");
        }
    };
    let flats = |side: u32| {
        RgbImage::from_fn(side, side, |x, y| {
            Rgb([x, y, x + y].map(|sum| u8::try_from(sum * 100 / side).unwrap_or(0)))
        })
    };
    // Eleven bytes a pixel.
    let place = Place::new("largest-webp", "p.webp", &[], (9_900, 9_900));
    flats(9_900).save(&place.picture).expect("a WebP");
    check(&place);
    // Six bytes a pixel, in one strip.
    let place = Place::new("largest-tiff", "p.tif", &[], (13_500, 13_500));
    let samples: Vec<u16> =
        (0..13_500_usize * 13_500 * 3).map(|at| u16::try_from(at / 3 % 13_500).unwrap_or(0)).collect();
    {
        let file = std::io::BufWriter::new(fs::File::create(&place.picture).expect("a file"));
        let mut encoder = TiffEncoder::new(file).expect("a TIFF").with_compression(Compression::Packbits);
        let mut image = encoder.new_image::<colortype::RGB16>(13_500, 13_500).expect("a TIFF");
        image.rows_per_strip(13_500).expect("one strip");
        image.write_data(&samples).expect("a TIFF");
    }
    drop(samples);
    check(&place);
    // Nine bytes a pixel, where no colour is coarser than the others.
    let progressive = jpeg(&flats(11_000), |encoder| {
        encoder.set_progressive(true);
        encoder.set_sampling_factor(jpeg_encoder::SamplingFactor::F_1_1);
    });
    let place = Place::new("largest-jpeg", "p.jpg", &progressive, (11_000, 11_000));
    check(&place);
}

/// A drawing itself is held to a number of pixels: as wide as can be, a wall of 12 × 8 ft has some 180 million.
#[test]
fn a_drawing_that_takes_too_much_is_refused_before_it_is_made() {
    let out = scratch("too-large").join("wall.png");
    let low_water = plan("low-water.json");
    let arguments = ["draw", path(&low_water), "--out", path(&out), "--width", "16384"];
    check_refused(&arguments, 1, "at most 144 million in all are allowed; give a smaller --width");
    assert!(!out.exists());
}
