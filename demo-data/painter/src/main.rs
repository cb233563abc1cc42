//! Paints the pictures of the demo: tidal flats and harbours, each from a seed.
//!
//! ```text
//! overmantel-painter [--out DIR] [--width PIXELS] [--only NAME]
//! ```
//! Without `--width` it makes the reduced copies, each at the best quality that keeps to its number of bytes; with the
//! feature `avif` those that the page carries, too, which are AVIF and not half as long. With `--width` every picture
//! is that wide, a JPEG at quality 92: the same composition, stroke for stroke.

mod boat;
mod brush;
mod chance;
mod colour;
mod painting;
mod scenes;
mod shore;
mod sky;
mod study;

use image::ExtendedColorType::Rgb8;
use image::codecs::jpeg::JpegEncoder;
use scenes::SCENES;
use std::error::Error;
use std::path::PathBuf;
use std::process::ExitCode;

const USAGE: &str = "overmantel-painter [--out DIR] [--width PIXELS] [--only NAME]";

struct Options {
    out: PathBuf,
    columns: Option<usize>,
    only: Option<String>,
}

fn main() -> ExitCode {
    match options(std::env::args().skip(1)).and_then(|options| paint_all(&options)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}\n{USAGE}");
            ExitCode::FAILURE
        }
    }
}

fn options(mut arguments: impl Iterator<Item = String>) -> Result<Options, Box<dyn Error>> {
    let mut options = Options { out: PathBuf::from("demo-data/pictures"), columns: None, only: None };
    while let Some(flag) = arguments.next() {
        let mut value = || arguments.next().ok_or_else(|| format!("{flag} has no value"));
        match flag.as_str() {
            "--out" => options.out = value()?.into(),
            "--only" => options.only = Some(value()?),
            "--width" => {
                let given = value()?;
                let columns = given.parse().ok().filter(|columns| (16..=20_000).contains(columns));
                let refused = || format!("--width {given}: write a whole number from 16 to 20000");
                options.columns = Some(columns.ok_or_else(refused)?);
            }
            _ => return Err(format!("{flag} is not known").into()),
        }
    }
    Ok(options)
}

fn paint_all(options: &Options) -> Result<(), Box<dyn Error>> {
    std::fs::create_dir_all(&options.out)?;
    for scene in SCENES.iter().filter(|scene| options.only.as_deref().is_none_or(|only| only == scene.name)) {
        let painting = (scene.compose)(scene.seed);
        let (columns, rows, pixels) = painting.painted(options.columns.unwrap_or(scene.columns));
        let jpeg = match options.columns {
            Some(_) => encoded(columns, rows, &pixels, 92)?,
            None => within(scene.bytes, columns, rows, &pixels)?,
        };
        let write = |extension: &str, file: &[u8]| -> Result<(), Box<dyn Error>> {
            let path = options.out.join(scene.name).with_extension(extension);
            std::fs::write(&path, file)?;
            println!("{}: {columns} × {rows}, {} bytes", path.display(), file.len());
            Ok(())
        };
        write("jpg", &jpeg)?;
        #[cfg(feature = "avif")]
        if options.columns.is_none() {
            write("avif", &as_avif(columns, rows, &pixels)?)?;
        }
    }
    Ok(())
}

/// As the page carries it: by structural similarity to the painting not worse than the JPEG beside it.
#[cfg(feature = "avif")]
fn as_avif(columns: usize, rows: usize, pixels: &[u8]) -> Result<Vec<u8>, Box<dyn Error>> {
    use image::ImageEncoder as _;
    use image::codecs::avif::AvifEncoder;
    let (quality, slowest) = (42, 1);
    let mut file = Vec::new();
    AvifEncoder::new_with_speed_quality(&mut file, slowest, quality).with_num_threads(Some(1)).write_image(
        pixels,
        u32::try_from(columns)?,
        u32::try_from(rows)?,
        Rgb8,
    )?;
    Ok(file)
}

/// The best quality within a number of bytes.
fn within(bytes: usize, columns: usize, rows: usize, pixels: &[u8]) -> Result<Vec<u8>, Box<dyn Error>> {
    let mut best = encoded(columns, rows, pixels, 20)?;
    for quality in 21..=92 {
        let file = encoded(columns, rows, pixels, quality)?;
        if file.len() > bytes {
            break;
        }
        best = file;
    }
    Ok(best)
}

fn encoded(columns: usize, rows: usize, pixels: &[u8], quality: u8) -> Result<Vec<u8>, Box<dyn Error>> {
    let mut file = Vec::new();
    let encoder = &mut JpegEncoder::new_with_quality(&mut file, quality);
    encoder.encode(pixels, u32::try_from(columns)?, u32::try_from(rows)?, Rgb8)?;
    Ok(file)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_gives_the_same_picture_and_another_seed_another() {
        for scene in &SCENES {
            let painted = |seed| (scene.compose)(seed).painted(64);
            let first = painted(scene.seed);
            assert_eq!(first, painted(scene.seed), "{}", scene.name);
            assert_ne!(first, painted(scene.seed + 1), "{}", scene.name);
        }
    }

    #[test]
    fn a_picture_keeps_its_shape_at_every_width() {
        let ratios = [(15, 7), (4, 5), (4, 5), (4, 5), (3, 2)];
        for (scene, (width, height)) in SCENES.iter().zip(ratios) {
            for scale in [8, 13] {
                let (columns, rows, pixels) = (scene.compose)(scene.seed).painted(width * scale);
                assert_eq!((columns, rows), (width * scale, height * scale), "{}", scene.name);
                assert_eq!(pixels.len(), columns * rows * 3, "{}", scene.name);
            }
        }
    }

    /// The same composition whatever the size: averaged over tiles, a picture differs little from itself larger.
    #[test]
    fn a_larger_picture_is_the_same_picture() {
        let scene = &SCENES[4];
        let means = |tile: usize| {
            let (columns, rows, pixels) = (scene.compose)(scene.seed).painted(12 * tile);
            let mut sums = vec![0_u64; 12 * 8];
            for (at, value) in pixels.iter().enumerate() {
                let (column, row) = (at / 3 % columns, at / 3 / columns);
                sums[row * 8 / rows * 12 + column * 12 / columns] += u64::from(*value);
            }
            sums.into_iter().map(|sum| sum / (tile * tile * 3) as u64).collect::<Vec<_>>()
        };
        for (small, large) in means(8).into_iter().zip(means(24)) {
            assert!(small.abs_diff(large) <= 8, "{small} and {large}");
        }
    }
}
