//! Golden pictures: the demo's plans as they were last looked at and found good.
//!
//! A drawing must have the very bytes of its golden. If not, expected, difference and actual stand side by side in `tests/output`.
//! `BLESS=1` rewrites the goldens, and fails, so that a blessing run never looks green.

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{ExtendedColorType, ImageEncoder, Rgb, RgbImage};
use overmantel::desk::Desk;
use overmantel::draw::{Sheet, Theme, View};
use overmantel::plan::file;
use overmantel::resample::Raster;
use overmantel_builder::paths;
use std::fs;
use std::path::{Path, PathBuf};

/// A golden: its name, the plan of the demo that it shows, whether it is drawn on a dark sheet, and from where it is seen.
struct Golden {
    name: &'static str,
    plan: &'static str,
    dark: bool,
    view: View,
}

const GOLDENS: [Golden; 5] = [
    Golden { name: "low-water", plan: "low-water", dark: false, view: View::Elevation },
    Golden { name: "harbour-pair", plan: "harbour-pair", dark: true, view: View::Elevation },
    Golden {
        name: "three-along-the-stairs",
        plan: "three-along-the-stairs",
        dark: false,
        view: View::Elevation,
    },
    Golden { name: "low-water-oblique", plan: "low-water", dark: false, view: View::Oblique },
    Golden { name: "harbour-pair-oblique", plan: "harbour-pair", dark: false, view: View::Oblique },
];

/// Width of a golden in pixels.
const WIDTH_PX: u32 = 480;
/// A golden has at most so many bytes.
const MOST_BYTES: usize = 60 * 1024;

fn folder() -> PathBuf {
    paths::root().join("tests/golden")
}

fn read_picture(path: &Path) -> RgbImage {
    image::open(path).unwrap_or_else(|error| panic!("{}: {error}", path.display())).into_rgb8()
}

fn draw(golden: &Golden) -> RgbImage {
    let Golden { plan: name, dark, view, .. } = *golden;
    let demo = paths::root().join("demo-data");
    let text = fs::read_to_string(demo.join(format!("plans/{name}.json")));
    let plan = file::read(&text.unwrap_or_else(|error| panic!("{name}: {error}")));
    let mut desk = Desk::new(plan.unwrap_or_else(|error| panic!("{name}: {error}")))
        .unwrap_or_else(|error| panic!("{name}: {error}"));
    for picture in desk.plan().pictures.clone() {
        let copy = read_picture(&demo.join("pictures").join(&picture.file));
        let (width, height) = copy.dimensions();
        let pixels = copy.pixels().flat_map(|Rgb([red, green, blue])| [*red, *green, *blue, 255]).collect();
        let raster = Raster::new(width, height, pixels).unwrap_or_else(|| panic!("{}", picture.file));
        desk.put_copy(&picture.name, (picture.width_px, picture.height_px), raster);
    }
    let theme = if dark { Theme::DARK } else { Theme::LIGHT };
    let mut sheet = Sheet { theme, view, ..Sheet::new(WIDTH_PX, 1) };
    sheet.height_px = desk.height_for_width(&sheet);
    let pixels = desk.draw(&sheet).pixels.chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]);
    RgbImage::from_raw(sheet.width_px, sheet.height_px, pixels.collect())
        .unwrap_or_else(|| panic!("{name} is {} × {}", sheet.width_px, sheet.height_px))
}

fn encoded(picture: &RgbImage) -> Vec<u8> {
    let mut bytes = Vec::new();
    let encoder = PngEncoder::new_with_quality(&mut bytes, CompressionType::Best, FilterType::Adaptive);
    encoder
        .write_image(picture.as_raw(), picture.width(), picture.height(), ExtendedColorType::Rgb8)
        .unwrap_or_else(|error| panic!("{error}"));
    bytes
}

fn write(path: &Path, picture: &RgbImage) -> usize {
    let bytes = encoded(picture);
    let folder = path.parent().unwrap_or(path);
    fs::create_dir_all(folder)
        .and_then(|()| fs::write(path, &bytes))
        .unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    bytes.len()
}

/// Expected, difference and actual, side by side: the difference is black where they agree and white where they don't.
fn side_by_side(expected: &RgbImage, actual: &RgbImage) -> RgbImage {
    let (width, height) = (expected.width().max(actual.width()), expected.height().max(actual.height()));
    RgbImage::from_fn(width * 3, height, |x, y| {
        let place = x % width;
        let [one, other] = [expected, actual].map(|picture| picture.get_pixel_checked(place, y));
        match x / width {
            0 => one.copied().unwrap_or(Rgb([255, 0, 255])),
            1 if one == other => Rgb([0; 3]),
            1 => Rgb([255; 3]),
            _ => other.copied().unwrap_or(Rgb([255, 0, 255])),
        }
    })
}

#[test]
fn the_demos_plans_look_as_they_did() {
    let bless = std::env::var_os("BLESS").is_some();
    let mut changed = Vec::new();
    for golden in &GOLDENS {
        let (name, actual) = (golden.name, draw(golden));
        let path = folder().join(format!("{name}.png"));
        if bless {
            let bytes = write(&path, &actual);
            changed.push(format!("{} was rewritten: {bytes} bytes", path.display()));
        } else if !path.exists() {
            changed.push(format!("{} is not there; BLESS=1 writes it", path.display()));
        } else {
            let expected = read_picture(&path);
            if expected != actual {
                let output = paths::root().join(format!("tests/output/{name}.png"));
                write(&output, &side_by_side(&expected, &actual));
                changed.push(format!("{name} differs: look at {}", output.display()));
            }
        }
    }
    assert!(changed.is_empty(), "{}", changed.join("\n"));
}

#[test]
fn no_golden_is_left_over_or_too_large() {
    let mut expected = GOLDENS.map(|golden| format!("{}.png", golden.name));
    expected.sort();
    let entries = fs::read_dir(folder()).unwrap_or_else(|error| panic!("tests/golden: {error}"));
    let mut found: Vec<String> = Vec::new();
    for entry in entries.flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let bytes = fs::read(entry.path()).unwrap_or_else(|error| panic!("{name}: {error}")).len();
        assert!(bytes <= MOST_BYTES, "{name} has {bytes} bytes; draw less of it");
        found.push(name);
    }
    found.sort();
    assert_eq!(found, expected);
}

/// A picture that differs in one place is seen, and its place is shown.
#[test]
fn a_difference_of_one_code_in_one_pixel_is_a_difference() {
    let expected = RgbImage::from_pixel(4, 3, Rgb([10, 20, 30]));
    let mut actual = expected.clone();
    actual.put_pixel(2, 1, Rgb([10, 21, 30]));
    assert_ne!(expected, actual);
    let shown = side_by_side(&expected, &actual);
    assert_eq!(shown.dimensions(), (12, 3));
    let white: Vec<(u32, u32)> = shown
        .enumerate_pixels()
        .filter(|(_, _, pixel)| pixel.0 == [255; 3])
        .map(|(x, y, _)| (x, y))
        .collect();
    assert_eq!(white, [(6, 1)]);
}
