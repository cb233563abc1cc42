//! How much memory and time print-ready pictures of 400 megapixels take.
//!
//! `cargo build --release --package overmantel --features cli --bin overmantel`, then
//! `cargo run --package overmantel-tests --example print_file_memory`. It makes a picture of 20000 × 20000 pixels row by row in the
//! folder for passing files, has the program make one kind of file out of another, and reports the peak of its memory (VmHWM of Linux) and
//! its time. Last, it compares PNG with TIFF in 12000 × 9000 pixels of sixteen bits. It needs 6 GB of room there, and gives them back. A number after the
//! command takes another side than 20000.

#![allow(missing_docs, reason = "a program")]

use std::error::Error;
use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// A picture of sixteen bits: skies that change slowly, and between them squares of noise.
fn wide_picture(path: &Path, (width, height): (u32, u32)) -> Result<(), Box<dyn Error>> {
    let mut encoder = png::Encoder::new(BufWriter::new(File::create(path)?), width, height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Sixteen);
    encoder.set_compression(png::Compression::Fast);
    let mut writer = encoder.write_header()?;
    let mut stream = writer.stream_writer()?;
    let (mut row, mut seed) = (Vec::new(), 1_u32);
    for y in 0..height {
        row.clear();
        for (x, colour) in (0..width).flat_map(|x| (1..=3).map(move |colour| (x, colour))) {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let grain = (seed >> 16) % if (x / 500 + y / 500) % 2 == 0 { 1000 } else { 8 };
            let [low, high, ..] = (x * 3 + y * (colour + 1) + grain).to_le_bytes();
            row.extend([high, low]);
        }
        stream.write_all(&row)?;
    }
    stream.finish()?;
    writer.finish()?;
    Ok(())
}

/// How much longer a PNG of sixteen bits takes than a TIFF, three times in turn.
fn png_to_tiff(folder: &Path, side: u32) -> Result<(), Box<dyn Error>> {
    let px = (side * 3 / 5, side * 9 / 20);
    wide_picture(&folder.join("skies.png"), px)?;
    let sheet = r#"{ "aluminium": { "thickness": "1 mm", "stand_off": "2 cm" } }"#;
    let (made, _) = run(folder, &plan(folder, "skies.png", px, sheet)?, "tiff", &[], "16 bits, PNG to TIFF")?;
    fs::rename(made, folder.join("skies.tif"))?;
    let plan = plan(folder, "skies.tif", px, sheet)?;
    for _ in 0..3 {
        let (_, tiff) = run(folder, &plan, "tiff", &[], "16 bits, TIFF to TIFF")?;
        let (_, png) = run(folder, &plan, "png", &[], "16 bits, TIFF to PNG")?;
        println!("a PNG takes {:.2} times as long as a TIFF", png / tiff);
    }
    Ok(())
}

/// The picture: water that changes, with lines that don't pack well.
fn picture(path: &Path, side: u32) -> Result<(), Box<dyn Error>> {
    let mut encoder = png::Encoder::new(BufWriter::new(File::create(path)?), side, side);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_compression(png::Compression::Fast);
    let mut writer = encoder.write_header()?;
    let mut stream = writer.stream_writer()?;
    let mut row = Vec::new();
    for y in 0..side {
        row.clear();
        for x in 0..side {
            let grain = (x.wrapping_mul(2_654_435_761) ^ y.wrapping_mul(40_503)) >> 29;
            let [wave, depth, light] =
                [x / 97 + y / 53 + grain, y / 79 + grain, (x + y) / 157].map(|value| value.to_le_bytes()[0]);
            row.extend([wave, depth, light]);
        }
        stream.write_all(&row)?;
    }
    stream.finish()?;
    writer.finish()?;
    Ok(())
}

/// A plan of one piece, a metre wide, that shows the file.
fn plan(
    folder: &Path,
    file: &str,
    (width, height): (u32, u32),
    made: &str,
) -> Result<PathBuf, Box<dyn Error>> {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-data/plans/harbour-pair.json");
    let mut plan: serde_json::Value = serde_json::from_str(&fs::read_to_string(demo)?)?;
    plan["pictures"] = serde_json::json!([{ "name": "Flats", "file": file, "pixels": [width, height] }]);
    let made: serde_json::Value = serde_json::from_str(made)?;
    plan["pieces"] = serde_json::json!([{ "picture": "Flats", "image": ["1000 mm", format!("{} mm", 1000 * height / width)], "made": made }]);
    let path = folder.join("flats.json");
    fs::write(&path, plan.to_string())?;
    Ok(path)
}

/// Runs the program, and reports the peak of its memory, its time, and the size of what it made.
fn run(
    folder: &Path,
    plan: &Path,
    format: &str,
    further: &[&str],
    what: &str,
) -> Result<(PathBuf, f64), Box<dyn Error>> {
    let program = concat!(env!("CARGO_MANIFEST_DIR"), "/../target/release/overmantel");
    let out = folder.join("out");
    let started = Instant::now();
    let mut child = Command::new(program)
        .arg("print-file")
        .arg(plan)
        .args(["--force", "--format", format, "--out"])
        .arg(&out)
        .args(further)
        .stdout(Stdio::null())
        .spawn()
        .map_err(|why| format!("{program} can't be run, so build it first: {why}"))?;
    let status = format!("/proc/{}/status", child.id());
    let mut peak = 0;
    let code = loop {
        // The figure only grows, so the last that is seen is the peak, but for the last few milliseconds.
        let seen = fs::read_to_string(&status).unwrap_or_default();
        let line = seen.lines().find_map(|line| line.strip_prefix("VmHWM:")?.trim().strip_suffix(" kB"));
        peak = line.and_then(|line| line.parse().ok()).unwrap_or(0_u64).max(peak);
        if let Some(code) = child.try_wait()? {
            break code;
        }
        std::thread::sleep(Duration::from_millis(5));
    };
    if !code.success() {
        return Err(format!("{what}: it failed").into());
    }
    let ending = [("png", "png"), ("jpeg", "jpg"), ("tiff", "tif")].into_iter().find(|kind| kind.0 == format);
    let file = out.join(format!("flats-1.{}", ending.ok_or("no such format")?.1));
    let (seconds, bytes) = (started.elapsed().as_secs_f64(), fs::metadata(&file)?.len());
    println!(
        "{what}: {} MB of memory, {seconds:.1} s, a file of {} MB",
        peak.div_ceil(1024),
        bytes / 1_000_000
    );
    Ok((file, seconds))
}

fn main() -> Result<(), Box<dyn Error>> {
    let side = std::env::args().nth(1).map_or(Ok(20_000), |side| side.parse())?;
    let folder = std::env::temp_dir().join("overmantel-print-file");
    fs::create_dir_all(&folder)?;
    println!("{side} × {side} pixels");
    picture(&folder.join("flats.png"), side)?;
    let sheet = r#"{ "aluminium": { "thickness": "1 mm", "stand_off": "2 cm" } }"#;
    let edges = r#"{ "canvas": { "depth": "38 mm", "edge": "mirrored" } }"#;
    let (made, _) = run(
        &folder,
        &plan(&folder, "flats.png", (side, side), sheet)?,
        "tiff",
        &[],
        "PNG to TIFF, as it is",
    )?;
    fs::rename(made, folder.join("flats.tif"))?;
    let (made, _) = run(
        &folder,
        &plan(&folder, "flats.tif", (side, side), sheet)?,
        "jpeg",
        &[],
        "TIFF to JPEG, as it is",
    )?;
    // The same, stored on its side: an Exif segment after the first marker (Exif 2.3, 4.6.2) that says 6.
    let mut jpeg = fs::read(&made)?;
    fs::rename(made, folder.join("flats.jpg"))?;
    let exif = b"\xff\xe1\0\x22Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0";
    jpeg.splice(2..2, exif.iter().copied());
    fs::write(folder.join("turned.jpg"), jpeg)?;
    let bleed = ["--bleed", "3 mm"];
    run(
        &folder,
        &plan(&folder, "flats.jpg", (side, side), edges)?,
        "png",
        &bleed,
        "JPEG to PNG, edges of 38 mm and a bleed in mirror image",
    )?;
    run(
        &folder,
        &plan(&folder, "flats.tif", (side, side), edges)?,
        "tiff",
        &bleed,
        "TIFF to TIFF, the same",
    )?;
    run(
        &folder,
        &plan(&folder, "turned.jpg", (side, side), sheet)?,
        "tiff",
        &[],
        "JPEG stored on its side to TIFF",
    )?;
    run(
        &folder,
        &plan(&folder, "flats.tif", (side, side), sheet)?,
        "png",
        &["--density", "150"],
        "TIFF to PNG, reduced to 150 px/in",
    )?;
    png_to_tiff(&folder, side)?;
    fs::remove_dir_all(&folder)?;
    Ok(())
}
