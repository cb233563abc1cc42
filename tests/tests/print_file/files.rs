//! PNG files that the core writes row by row, read back by another library.

use super::picture;
use image::{ImageFormat, RgbImage, load_from_memory_with_format};
use overmantel::print_file::png::Png;

fn written(picture: &RgbImage, per_metre: u32) -> Vec<u8> {
    let mut png = Png::new(picture.dimensions(), per_metre);
    let mut file = Vec::new();
    for row in picture.as_raw().chunks_exact(picture.width() as usize * 3) {
        png.row(row);
        file.extend(png.take());
    }
    file.extend(png.finish());
    file
}

#[test]
fn a_png_by_rows_is_read_by_another_library() {
    // The last has more than one chunk of pixels.
    for (px, per_metre) in [((1, 1), 1), ((3, 700), 5512), ((999, 1), 11_811), ((1200, 900), 3937)] {
        let whole = picture(px);
        let file = written(&whole, per_metre);
        let found = load_from_memory_with_format(&file, ImageFormat::Png).expect("a PNG");
        assert!(found.into_rgb8() == whole, "{px:?}");
        let reader = png::Decoder::new(std::io::Cursor::new(&file)).read_info().expect("a PNG");
        let info = reader.info();
        let dims = info.pixel_dims.expect("a density");
        assert_eq!((dims.xppu, dims.yppu, dims.unit), (per_metre, per_metre, png::Unit::Meter));
        assert_eq!(info.srgb, Some(png::SrgbRenderingIntent::Perceptual));
    }
}

/// Noise does not pack: the file is no larger than its pixels and what stands round them, and is made of many chunks.
#[test]
fn what_does_not_pack_comes_through() {
    let mut seed = 1_u32;
    let whole = RgbImage::from_fn(400, 300, |_, _| {
        image::Rgb([(); 3].map(|()| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            seed.to_be_bytes()[0]
        }))
    });
    let file = written(&whole, 1000);
    assert!(file.len() < 400 * 300 * 3 + 2000, "{}", file.len());
    assert!(file.windows(4).filter(|name| name == b"IDAT").count() > 3);
    assert!(load_from_memory_with_format(&file, ImageFormat::Png).expect("a PNG").into_rgb8() == whole);
}
