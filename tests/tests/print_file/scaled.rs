//! Scaled to a density that is asked for, against another library's filter in linear light.

use super::{made, paper, plan, recipe};
use image::imageops::{FilterType, crop_imm, resize};
use image::{ImageBuffer, Rgb, RgbImage};
use overmantel::colour::Colour;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::Surround;
use overmantel::print_file::{Form, PrintWish, Recipe};

/// A harbour of sorts: smooth water, hard edges, fine lines.
#[expect(clippy::disallowed_methods, reason = "the platform's own waves, not the core's")]
pub(crate) fn harbour(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let (u, v) = (f64::from(x) / f64::from(width), f64::from(y) / f64::from(height));
        let wave = ((u * 40.0).sin() * (v * 25.0).cos() + 1.0) / 2.0;
        let mast = if (x / 7) % 9 == 0 && v < 0.6 { 0.25 } else { 1.0 };
        let hull = if (u - 0.5).abs() < 0.2 && (v - 0.7).abs() < 0.1 { 0.1 } else { 1.0 };
        let code = |share: f64| {
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 255")]
            let code = (share.clamp(0.0, 1.0) * 255.0).round() as u8;
            code
        };
        Rgb([code(wave * mast), code((0.3 + v * 0.6) * hull), code((1.0 - u) * mast * hull)])
    })
}

/// IEC 61966-2-1, both ways.
#[expect(clippy::disallowed_methods, reason = "the platform's own powers, not the core's")]
fn to_light(code: f64) -> f64 {
    if code <= 0.040_45 { code / 12.92 } else { ((code + 0.055) / 1.055).powf(2.4) }
}

#[expect(clippy::disallowed_methods, reason = "the platform's own powers, not the core's")]
fn to_code(light: f64) -> f64 {
    if light <= 0.003_130_8 { light * 12.92 } else { light.powf(1.0 / 2.4) * 1.055 - 0.055 }
}

/// The same part by the other library: Lanczos of three lobes on linear light in 32-bit reals.
pub(crate) fn by_another(
    picture: &RgbImage,
    [left, top, width, height]: [u32; 4],
    size: (u32, u32),
) -> Vec<f64> {
    #[expect(clippy::cast_possible_truncation, reason = "light as the library takes it")]
    let light = ImageBuffer::<Rgb<f32>, Vec<f32>>::from_fn(width, height, |x, y| {
        Rgb(picture.get_pixel(left + x, top + y).0.map(|code| to_light(f64::from(code) / 255.0) as f32))
    });
    let scaled = resize(&light, size.0, size.1, FilterType::Lanczos3);
    scaled.as_raw().iter().map(|&light| to_code(f64::from(light).clamp(0.0, 1.0))).collect()
}

/// Signal to noise in decibels, of values from 0 to 1.
pub(crate) fn decibels(one: &[f64], other: &[f64]) -> f64 {
    assert_eq!(one.len(), other.len());
    #[expect(clippy::cast_precision_loss, reason = "some millions")]
    let mean = one.iter().zip(other).map(|(a, b)| (a - b) * (a - b)).sum::<f64>() / one.len() as f64;
    -10.0 * mean.log10()
}

fn at(density: u32) -> Recipe {
    let plan = plan((1200, 1500), Size::inches(8, 10), paper(Surround::even(Length::ZERO)));
    recipe(&plan, 0, PrintWish { density: Some(density), ..PrintWish::default() }).expect("a recipe")
}

/// 1200 × 1500 px in 8 × 10 in is 150 px/in.
#[test]
fn scaling_agrees_with_another_library() {
    let whole = harbour(1200, 1500);
    for (density, size) in [(100, (800, 1000)), (40, (320, 400)), (225, (1800, 2250)), (150, (1200, 1500))] {
        let recipe = at(density);
        assert_eq!(recipe.size_px(), size, "8 × 10 in at {density} px/in");
        assert_eq!(recipe.is_enlarged(), density > 150);
        let found = made(&recipe, Form::RGB, whole.as_raw(), Colour::hex(0xff_ff_ff));
        let found: Vec<f64> = found.iter().map(|&code| f64::from(code) / 255.0).collect();
        let noise = decibels(&found, &by_another(&whole, [0, 0, 1200, 1500], size));
        assert!(noise > 50.0, "{density} px/in: {noise:.1} dB");
        println!("{density} px/in: {noise:.1} dB");
    }
}

#[test]
fn sixteen_bits_are_finer_than_eight() {
    let whole = harbour(1200, 1500);
    // The same shares of the whole: 255 × 257 = 65535.
    let wide: Vec<u8> = whole.as_raw().iter().flat_map(|&code| [code, code]).collect();
    let recipe = at(60);
    let found = made(&recipe, Form { is_coloured: true, is_wide: true }, &wide, Colour::hex(0xff_ff_ff));
    let found: Vec<f64> = found
        .chunks_exact(2)
        .map(|pair| f64::from(u16::from_be_bytes([pair[0], pair[1]])) / 65_535.0)
        .collect();
    let noise = decibels(&found, &by_another(&whole, [0, 0, 1200, 1500], (480, 600)));
    assert!(noise > 75.0, "{noise:.1} dB");
    println!("sixteen bits: {noise:.1} dB");
}

/// A crop of a wider picture, from 300 px on: it is scaled with what lies beside it, so its middle is compared.
#[test]
fn a_crop_is_scaled_where_it_lies() {
    let whole = harbour(1800, 1500);
    let plan = plan((1800, 1500), Size::inches(8, 10), paper(Surround::even(Length::ZERO)));
    let recipe = recipe(&plan, 0, PrintWish { density: Some(50), ..PrintWish::default() }).expect("a recipe");
    let found = made(&recipe, Form::RGB, whole.as_raw(), Colour::hex(0xff_ff_ff));
    let found = RgbImage::from_raw(400, 500, found).expect("400 × 500 px");
    let expected: Vec<f64> = by_another(&whole, [300, 0, 1200, 1500], (400, 500));
    let middle: Vec<f64> = crop_imm(&found, 10, 0, 380, 500)
        .to_image()
        .as_raw()
        .iter()
        .map(|&code| f64::from(code) / 255.0)
        .collect();
    let of_expected: Vec<f64> =
        expected.chunks_exact(1200).flat_map(|row| row[30..1170].iter().copied()).collect();
    let noise = decibels(&middle, &of_expected);
    assert!(noise > 50.0, "{noise:.1} dB");
    println!("a crop: {noise:.1} dB");
}
