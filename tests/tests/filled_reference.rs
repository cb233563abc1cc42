//! Crops and borders against a browser: SVG 2, 8.2 (preserveAspectRatio) as Chromium lays it out.
//!
//! `tests/browser/filled.json` holds what the browser does with `slice`, which is a crop, and with `meet`, which is a picture inside a
//! border; `tests/browser/filled.test.mjs` wrote it and holds that it is so. A CSS pixel is 1/96 in. Browsers count in 24 bits
//! here and there, so what they say is good to a hundredth of a pixel.

use overmantel::fit::{FitWish, Way, from_picture};
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{Focus, System};
use overmantel::print::{Exact, fill};
use overmantel::stock::StandardSize;
use serde_json::Value;

fn rows() -> Vec<Value> {
    serde_json::from_str(include_str!("../browser/filled.json")).unwrap_or_else(|error| panic!("{error}"))
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn pair(value: &Value) -> (u32, u32) {
    let side = |index: usize| value[index].as_u64().and_then(|side| u32::try_from(side).ok());
    side(0).zip(side(1)).unwrap_or_else(|| panic!("{value} is no size"))
}

fn real(value: Exact) -> f64 {
    // Six decimals, by way of a whole number that 53 bits hold.
    let millionths = (value * 1_000_000).round().to_integer();
    i32::try_from(millionths / 1_000_000).map(f64::from).unwrap_or(f64::NAN)
        + i32::try_from(millionths % 1_000_000).map(f64::from).unwrap_or(f64::NAN) / 1e6
}

fn css_px(length: Length) -> f64 {
    length.to_inches() * 96.0
}

/// A window in CSS pixels, 1/96 in each.
fn window(row: &Value) -> Size {
    let (width, height) = pair(&row["window_css_px"]);
    Size::new(Length::inches_ratio(width.into(), 96), Length::inches_ratio(height.into(), 96))
}

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64, row: &Value) {
    assert!((found - expected).abs() <= tolerance, "{found} for {expected}: {row}");
}

/// A browser lays a picture at `scale` and moves it by x and y; so the window shows it from -x / scale, -y / scale.
#[test]
fn a_crop_is_what_a_browser_slices() {
    let rows = rows();
    assert_eq!(rows.len(), 48);
    for row in &rows {
        let permille = row["focus_permille"].as_u64().and_then(|permille| u16::try_from(permille).ok());
        let permille = permille.unwrap_or_else(|| panic!("{row}"));
        let focus = Focus { x_permille: permille, y_permille: permille };
        let cut = fill(pair(&row["picture_px"]), window(row), focus);
        let scale = number(&row["slice"]["scale"]);
        let ppi = 96.0 / scale;
        near(real(cut.pixels_per_inch), ppi, ppi * 1e-6, row);
        // A hundredth of a CSS pixel, in pixels of the picture.
        let tolerance = 0.01 / scale;
        near(real(cut.source.left), -number(&row["slice"]["x"]) / scale, tolerance, row);
        near(real(cut.source.top), -number(&row["slice"]["y"]) / scale, tolerance, row);
        let shown = pair(&row["window_css_px"]);
        near(real(cut.source.width), f64::from(shown.0) / scale, tolerance, row);
        near(real(cut.source.height), f64::from(shown.1) / scale, tolerance, row);
    }
}

/// The picture inside a sheet of the window's size, with no border wished: the browser moves it by the left and the upper border.
#[test]
fn a_border_is_what_a_browser_leaves() {
    let mut checked = 0;
    for row in &rows() {
        let size = window(row);
        let picture_px = pair(&row["picture_px"]);
        // Sheets are turned as the picture is; a browser's window is not.
        if (picture_px.0 > picture_px.1) != (size.width > size.height) && size.width != size.height {
            continue;
        }
        let sheet = StandardSize {
            name: "window".to_owned(),
            series: "CSS".to_owned(),
            system: System::Inches,
            size,
            is_print: true,
            is_frame: true,
        };
        let sizes = [sheet];
        let wish = FitWish { least_border: Length::ZERO, ..FitWish::default() };
        let fits = from_picture(picture_px, &sizes, &wish);
        let Some(fit) = fits.iter().find(|fit| fit.way == Way::Bordered) else {
            // A picture of the sheet's very shape: the browser leaves nothing either.
            assert_eq!((&row["meet"]["x"], &row["meet"]["y"]), (&Value::from(0), &Value::from(0)), "{row}");
            continue;
        };
        let (scale, x, y) =
            (number(&row["meet"]["scale"]), number(&row["meet"]["x"]), number(&row["meet"]["y"]));
        near(css_px(fit.image.width), f64::from(picture_px.0) * scale, 0.01, row);
        near(css_px(fit.image.height), f64::from(picture_px.1) * scale, 0.01, row);
        near(css_px(fit.borders.left), x, 0.01, row);
        near(css_px(fit.borders.top), y, 0.01, row);
        let ppi = 96.0 / scale;
        near(real(fit.cut.pixels_per_inch), ppi, ppi * 1e-6, row);
        checked += 1;
    }
    assert_eq!(checked, 27, "28 rows have a sheet turned as the picture, one of them 2:3 in 2:3");
}
