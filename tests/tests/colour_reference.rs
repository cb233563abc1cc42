//! sRGB, luminance and contrast against the standards' formulae, and pictures scaled in linear light against another library.
//!
//! No expected value here was computed by Overmantel: they follow from IEC 61966-2-1 (its formulae from memory) and the
//! definitions of relative luminance and contrast ratio in WCAG 2.2, evaluated with general tools to the digits shown.

use image::imageops::FilterType;
use image::{ImageBuffer, Rgb, RgbImage};
use overmantel::colour::{Colour, decode, encode};
use overmantel::resample::{Pyramid, Raster, RasterPart, resample};
use overmantel_builder::paths;

const WHITE: Colour = Colour::hex(0xff_ff_ff);
const BLACK: Colour = Colour::hex(0x00_00_00);

#[test]
fn iec_61966_2_1_from_code_to_light() {
    for (code, light) in [
        (0, 0.0),
        (1, 0.000_303_53),
        (10, 0.003_035_27),
        (11, 0.003_346_54),
        (50, 0.031_896_03),
        (64, 0.051_269_46),
        (127, 0.212_230_76),
        (128, 0.215_860_50),
        (188, 0.502_886_46),
        (200, 0.577_580_44),
        (254, 0.991_102_10),
        (255, 1.0),
    ] {
        let found = f64::from(decode(code));
        assert!((found - light).abs() <= 5e-8, "{code}: {found} is not {light}");
    }
}

#[test]
fn iec_61966_2_1_from_light_to_code() {
    for (light, code) in [(0.18, 118), (0.2, 124), (0.214, 127), (0.5, 188), (0.75, 225)] {
        assert_eq!(encode(light), code, "{light}");
    }
    for code in 0..=u8::MAX {
        assert_eq!(encode(decode(code)), code, "decoded and encoded");
    }
    assert_eq!([encode(-0.1), encode(1.1), encode(f32::NAN)], [0, 255, 0], "held within the codes");
}

/// Means of two codes as light: what a pattern of single pixels looks like from afar.
#[test]
fn iec_61966_2_1_means() {
    let check = |a, b, mean| assert_eq!(Colour::hex(a).mixed(Colour::hex(b), 0.5), Colour::hex(mean));
    check(0x00_00_00, 0xff_ff_ff, 0xbc_bc_bc);
    check(0x40_40_40, 0xc0_c0_c0, 0x92_92_92);
    check(0xff_00_00, 0x00_ff_00, 0xbc_bc_00);
    assert_eq!(WHITE.lit(0.5), Colour::hex(0xbc_bc_bc), "half the light on white");
    assert_eq!(WHITE.lit(2.0), WHITE);
}

/// WCAG 2.2, "relative luminance": 0.2126 R + 0.7152 G + 0.0722 B.
#[test]
fn wcag_relative_luminance() {
    for (rgb, luminance) in
        [(0xff_00_00, 0.2126), (0x00_ff_00, 0.7152), (0x00_00_ff, 0.0722), (0x80_80_80, 0.215_861), (0, 0.0)]
    {
        let found = f64::from(Colour::hex(rgb).luminance());
        assert!((found - luminance).abs() <= 5e-7, "{rgb:06x}: {found}");
    }
}

/// WCAG 2.2, "contrast ratio": (lighter + 0.05) / (darker + 0.05).
#[test]
fn wcag_contrast() {
    for (a, b, contrast) in [
        (BLACK, WHITE, 21.0),
        (Colour::hex(0x77_77_77), WHITE, 4.4781),
        (Colour::hex(0x76_76_76), WHITE, 4.5422),
        (Colour::hex(0xff_00_00), WHITE, 3.9985),
        (Colour::hex(0x00_00_ff), WHITE, 8.5925),
        (Colour::hex(0x00_80_00), WHITE, 5.1374),
        (Colour::hex(0xff_ff_00), BLACK, 19.5560),
        (Colour::hex(0x33_33_33), WHITE, 12.6347),
        (Colour::hex(0x59_59_59), WHITE, 7.0047),
        (Colour::hex(0x94_94_94), WHITE, 3.0335),
        (Colour::hex(0x95_95_95), WHITE, 2.9953),
        (WHITE, WHITE, 1.0),
    ] {
        for found in [a.contrast(b), b.contrast(a)] {
            assert!((f64::from(found) - contrast).abs() <= 6e-5, "{a} on {b}: {found}");
        }
    }
}

/// A board of black and white pixels has half the light of white, which is code 188 (IEC 61966-2-1: 187.5).
#[test]
fn a_chequered_picture_keeps_its_light() {
    let pixels = (0..64 * 64)
        .flat_map(|at| [if (at % 64 + at / 64) % 2 == 0 { 0 } else { 255 }; 3].into_iter().chain([255]));
    let board = Raster::new(64, 64, pixels.collect()).unwrap_or_else(|| panic!("64 × 64"));
    for side in [1, 3, 8, 16, 21] {
        let whole = RasterPart::whole(&board);
        for small in
            [resample(&board, whole, side, side), Pyramid::of(board.clone()).scaled(whole, side, side)]
        {
            for pixel in small.pixels().chunks_exact(4) {
                let near = pixel[..3].iter().all(|&channel| (187..=189).contains(&channel));
                assert!(near && pixel[3] == 255, "{pixel:?} at {side} px");
            }
        }
    }
    let at_its_own_size = resample(&board, RasterPart::whole(&board), 64, 64);
    assert!(at_its_own_size == board, "a picture at its own size is itself");
}

/// A plan's crop never leaves its picture; should a part do so all the same, what is nearest of it is carried on.
#[test]
fn beyond_a_picture_its_nearest_pixel_stands() {
    let pixels =
        (0..16 * 16).flat_map(|at: i32| if at % 16 < 8 { [250, 20, 20, 255] } else { [20, 20, 250, 255] });
    let halves = Raster::new(16, 16, pixels.collect()).unwrap_or_else(|| panic!("16 × 16"));
    for (left, width, px, expected) in [
        (40.0, 16.0, 5, [20, 20, 250, 255]),
        (-40.0, 16.0, 5, [250, 20, 20, 255]),
        (17.5, 400.0, 1, [20, 20, 250, 255]),
        (-2.3, 1.0, 40, [250, 20, 20, 255]),
    ] {
        let part = RasterPart { left, top: 2.0, width, height: 9.0 };
        for scaled in [resample(&halves, part, px, 3), Pyramid::of(halves.clone()).scaled(part, px, 3)] {
            assert!(
                scaled.pixels().chunks_exact(4).all(|pixel| pixel == expected),
                "from {left}: {scaled:?}"
            );
        }
    }
}

/// Peak signal to noise in decibels, over the codes of all channels.
#[expect(clippy::disallowed_methods, reason = "the platform's own powers, not the core's")]
fn psnr(a: &[u8], b: &[u8]) -> f64 {
    assert_eq!(a.len(), b.len());
    let squares: f64 = a.iter().zip(b).map(|(&a, &b)| (f64::from(a) - f64::from(b)).powi(2)).sum();
    let count: f64 = a.iter().map(|_| 1.0).sum();
    10.0 * (255.0 * 255.0 * count / squares).log10()
}

/// A picture of the demo, reduced by the `image` crate's own Lanczos filter, fed with linear light by the formula of IEC 61966-2-1.
#[expect(clippy::disallowed_methods, reason = "the platform's own powers, not the core's")]
fn reduced_by_another_library(original: &RgbImage, narrow: u32, low: u32) -> Vec<u8> {
    let light = |code: u8| {
        let value = f64::from(code) / 255.0;
        if value <= 0.040_45 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    };
    let (width, height) = original.dimensions();
    let linear: ImageBuffer<Rgb<f32>, Vec<f32>> = ImageBuffer::from_fn(width, height, |x, y| {
        #[expect(clippy::cast_possible_truncation, reason = "light as that library takes it")]
        let pixel = original.get_pixel(x, y).0.map(|code| light(code) as f32);
        Rgb(pixel)
    });
    image::imageops::resize(&linear, narrow, low, FilterType::Lanczos3)
        .into_raw()
        .into_iter()
        .map(|light| {
            let light = f64::from(light).clamp(0.0, 1.0);
            let value =
                if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 };
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 255")]
            let code = (value * 255.0).round() as u8;
            code
        })
        .collect()
}

/// From the pixels themselves and from reductions kept for it, at ratios on both sides of every change of reduction.
#[test]
fn a_picture_reduced_as_another_library_does_it() {
    let path = paths::root().join("demo-data/pictures/harbour-morning.jpg");
    let original =
        image::open(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display())).into_rgb8();
    let (width, height) = original.dimensions();
    let opaque = original.pixels().flat_map(|Rgb([red, green, blue])| [*red, *green, *blue, 255]).collect();
    let raster = Raster::new(width, height, opaque).unwrap_or_else(|| panic!("{width} × {height}"));
    let pyramid = Pyramid::of(raster.clone());
    let whole = RasterPart::whole(&raster);
    for tenths in [13, 19, 20, 25, 26, 31, 39, 40, 42, 51, 55, 63, 79, 80, 97, 102, 130] {
        let (narrow, low) = (width * 10 / tenths + 1, height * 10 / tenths - 2);
        let theirs = reduced_by_another_library(&original, narrow, low);
        let near = |ours: &Raster| {
            let ours: Vec<u8> =
                ours.pixels().chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
            psnr(&ours, &theirs)
        };
        let (plain, kept) =
            (near(&resample(&raster, whole, narrow, low)), near(&pyramid.scaled(whole, narrow, low)));
        println!("to {narrow} × {low}: {plain:.1} dB from the pixels, {kept:.1} dB from the reductions");
        assert!(plain > 65.0, "{plain} dB at {tenths}");
        assert!(kept > 50.0, "{kept} dB at {tenths}");
        // And it would notice: a shift by one pixel of the result is far below that.
        let shifted: Vec<u8> = theirs.iter().skip(3).chain(&theirs[theirs.len() - 3..]).copied().collect();
        assert!(psnr(&theirs, &shifted) < 40.0);
    }
}
