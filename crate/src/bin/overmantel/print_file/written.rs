//! Writing rows as PNG, TIFF or JPEG, one after the other, with density and profile and nothing else.

use super::exif::exif;
use super::made::Made;
use crate::failure::Cause;
use crate::failure::pictures::ReadError;
use crate::failure::print_file::MakeError;
use crate::pictures::source::narrowed;
use clap::ValueEnum;
use jpeg_encoder::{Encoder, ImageBuffer, JpegColorType, PixelDensity, SamplingFactor, rgb_to_ycbcr};
use overmantel::length::Length;
use overmantel::print_file::Recipe;
use overmantel::print_file::resolution::Resolution;
use png::{BitDepth, ColorType, Compression, Info, PixelDimensions, SrgbRenderingIntent, Unit};
use std::borrow::Cow;
use std::cell::RefCell;
use std::io::{Seek, Write};
use tiff::encoder::{DirectoryEncoder, Rational, TiffEncoder, TiffKind};
use tiff::tags::{Tag, Type};

/// A kind of file.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// PNG: nothing is lost; 8 or 16 bits
    Png,
    /// JPEG: small, with a loss; 8 bits, at most 65,535 pixels along a side
    Jpeg,
    /// TIFF: uncompressed, nothing is lost; 8 or 16 bits; BigTIFF above 4 GB
    Tiff,
}

impl Format {
    /// The ending of its files.
    pub(super) const fn ending(self) -> &'static str {
        match self {
            Self::Png => "png",
            Self::Jpeg => "jpg",
            Self::Tiff => "tif",
        }
    }

    /// How it states a density, in words.
    pub(super) fn density(self, recipe: &Recipe) -> String {
        match self {
            Self::Png => {
                format!(
                    "{} pixels per metre, a whole number as PNG requires",
                    recipe.pixels_to(Length::mm(1000))
                )
            }
            Self::Jpeg => format!(
                "{} ppi in its Exif, as exact as the size needs; {} in its JFIF, which has whole numbers",
                recipe.ppi(),
                recipe.pixels_to(Length::inches(1))
            ),
            Self::Tiff => format!("{} ppi, as exact as the size needs", recipe.ppi()),
        }
    }

    /// Writes all rows.
    pub(super) fn write(
        self,
        out: &mut (impl Write + Seek),
        recipe: &Recipe,
        profile: Option<&[u8]>,
        quality: u8,
        made: Made,
    ) -> Result<(), Cause> {
        match self {
            Self::Png => png(out, recipe, profile, made),
            Self::Jpeg => jpeg(out, recipe, profile, quality, made),
            Self::Tiff => tiff(out, recipe, profile, made),
        }
    }
}

/// PNG, third edition: pHYs (11.3.4.3) in pixels per metre, iCCP (11.3.2.3).
fn png(out: &mut impl Write, recipe: &Recipe, profile: Option<&[u8]>, mut made: Made) -> Result<(), Cause> {
    let (width, height) = recipe.size_px();
    let mut info = Info::with_size(width, height);
    info.color_type = if made.form.is_coloured { ColorType::Rgb } else { ColorType::Grayscale };
    info.bit_depth = if made.form.is_wide { BitDepth::Sixteen } else { BitDepth::Eight };
    let per_metre = recipe.pixels_to(Length::mm(1000));
    info.pixel_dims = Some(PixelDimensions { xppu: per_metre, yppu: per_metre, unit: Unit::Meter });
    match profile {
        Some(profile) => info.icc_profile = Some(Cow::Borrowed(profile)),
        None => info.srgb = Some(SrgbRenderingIntent::Perceptual),
    }
    let mut encoder = png::Encoder::with_info(out, info)?;
    // The usual setting took many times as long as a TIFF (the example `print_file_memory` compares them).
    encoder.set_compression(Compression::Fast);
    let mut writer = encoder.write_header()?;
    let mut stream = writer.stream_writer_with_size(1 << 18)?;
    let mut row = Vec::new();
    for _ in 0..height {
        made.next(&mut row)?;
        stream.write_all(&row)?;
    }
    stream.finish()?;
    Ok(writer.finish()?)
}

/// Bytes that a TIFF without large offsets can have.
const SMALL_TIFF: u64 = 4_000_000_000;

fn tiff(
    out: &mut (impl Write + Seek),
    recipe: &Recipe,
    profile: Option<&[u8]>,
    made: Made,
) -> Result<(), Cause> {
    let (width, height) = recipe.size_px();
    let bytes = u64::from(width) * u64::from(height) * made.form.bytes() as u64;
    if bytes > SMALL_TIFF {
        let mut encoder = TiffEncoder::new_big(out)?;
        directory(encoder.image_directory()?, recipe, profile, made)
    } else {
        let mut encoder = TiffEncoder::new(out)?;
        directory(encoder.image_directory()?, recipe, profile, made)
    }
}

/// TIFF 6.0: the fields of bilevel, grey and RGB images (sections 3 to 6); the profile as ICC.1, annex B.4 has it.
fn directory<W: Write + Seek, K: TiffKind>(
    mut directory: DirectoryEncoder<'_, W, K>,
    recipe: &Recipe,
    profile: Option<&[u8]>,
    mut made: Made,
) -> Result<(), Cause> {
    let (width, height) = recipe.size_px();
    let form = made.form;
    let rows = u32::try_from((1_usize << 20) / (width as usize * form.bytes())).unwrap_or(1).clamp(1, height);
    let (mut offsets, mut counts) = (Vec::new(), Vec::new());
    let (mut strip, mut row) = (Vec::new(), Vec::new());
    for index in 0..height {
        made.next(&mut row)?;
        if form.is_wide {
            // The encoder writes the order of bytes of this machine.
            for pair in row.as_chunks_mut::<2>().0 {
                *pair = u16::from_be_bytes(*pair).to_ne_bytes();
            }
        }
        strip.extend_from_slice(&row);
        if (index + 1) % rows == 0 || index + 1 == height {
            let offset = directory.write_data(&strip[..])?;
            offsets.push(K::convert_offset(offset)?);
            counts.push(K::convert_offset(strip.len() as u64)?);
            strip.clear();
        }
    }
    let samples = if form.is_coloured { 3_u16 } else { 1 };
    let bits = if form.is_wide { 16_u16 } else { 8 };
    let [across, down] = rationals(recipe);
    let mut tags = || {
        directory.write_tag(Tag::ImageWidth, width)?;
        directory.write_tag(Tag::ImageLength, height)?;
        directory.write_tag(Tag::BitsPerSample, &vec![bits; samples.into()][..])?;
        directory.write_tag(Tag::Compression, 1_u16)?;
        directory.write_tag(Tag::PhotometricInterpretation, if form.is_coloured { 2_u16 } else { 1 })?;
        directory.write_tag(Tag::SamplesPerPixel, samples)?;
        directory.write_tag(Tag::RowsPerStrip, rows)?;
        directory.write_tag(Tag::StripOffsets, K::convert_slice(&offsets))?;
        directory.write_tag(Tag::StripByteCounts, K::convert_slice(&counts))?;
        directory.write_tag(Tag::XResolution, across.clone())?;
        directory.write_tag(Tag::YResolution, down.clone())?;
        directory.write_tag(Tag::PlanarConfiguration, 1_u16)?;
        // 2 is the inch.
        directory.write_tag(Tag::ResolutionUnit, 2_u16)?;
        if let Some(profile) = profile {
            let entry = directory.write_entry_bytes(Type::UNDEFINED, profile)?;
            let mut tag = tiff::Directory::empty();
            tag.extend([(Tag::IccProfile, entry)]);
            directory.extend_from(&tag);
        }
        Ok::<(), tiff::TiffError>(())
    };
    tags()?;
    Ok(directory.finish()?)
}

/// Pixels per inch, across and down.
pub(super) fn rationals(recipe: &Recipe) -> [Rational; 2] {
    let Resolution { across, down } = recipe.resolution();
    [across, down].map(|(n, d)| Rational { n, d })
}

/// JFIF 1.02: density in whole pixels per inch, and beside it, in APP1, what Exif says of it; the profile in APP2 (ICC.1, annex B.4).
fn jpeg(
    out: &mut impl Write,
    recipe: &Recipe,
    profile: Option<&[u8]>,
    quality: u8,
    made: Made,
) -> Result<(), Cause> {
    let (width, height) = recipe.size_px();
    let (Ok(width), Ok(height)) = (u16::try_from(width), u16::try_from(height)) else {
        return Err(MakeError::LargeJpeg { width, height }.into());
    };
    let mut encoder = Encoder::new(out, quality);
    let density = u16::try_from(recipe.pixels_to(Length::inches(1))).unwrap_or(u16::MAX);
    encoder.set_density(PixelDensity::dpi(density.max(1)));
    // Colours are as fine as light and dark: a print is looked at closely.
    encoder.set_sampling_factor(SamplingFactor::F_1_1);
    encoder.add_exif_metadata(&exif(recipe, made.form.is_coloured, profile.is_some())?)?;
    if let Some(profile) = profile {
        encoder.add_icc_profile(profile)?;
    }
    let asked = RefCell::new(Asked { made, row: Vec::new(), have: 0, failed: None });
    encoder.encode_image(Pulled { asked: &asked, width, height })?;
    asked.into_inner().failed.map_or(Ok(()), |why| Err(why.into()))
}

/// Rows as the encoder asks for them: each once, and the last again to fill its blocks.
struct Asked {
    made: Made,
    row: Vec<u8>,
    have: u32,
    failed: Option<ReadError>,
}

struct Pulled<'a> {
    asked: &'a RefCell<Asked>,
    width: u16,
    height: u16,
}

impl ImageBuffer for Pulled<'_> {
    fn get_jpeg_color_type(&self) -> JpegColorType {
        let is_coloured = self.asked.borrow().made.form.is_coloured;
        if is_coloured { JpegColorType::Ycbcr } else { JpegColorType::Luma }
    }

    fn width(&self) -> u16 {
        self.width
    }

    fn height(&self) -> u16 {
        self.height
    }

    fn fill_buffers(&self, y: u16, buffers: &mut [Vec<u8>; 4]) {
        let Asked { made, row, have, failed } = &mut *self.asked.borrow_mut();
        let form = made.form;
        while *have <= u32::from(y) && failed.is_none() {
            match made.next(row) {
                Ok(()) => *have += 1,
                // The encoder can't be stopped: it is given what there is, and its file is thrown away.
                Err(why) => *failed = Some(why),
            }
            if form.is_wide {
                *row = row.as_chunks::<2>().0.iter().map(narrowed).collect();
            }
        }
        row.resize(usize::from(self.width) * form.samples(), 0);
        if form.is_coloured {
            for pixel in row.chunks_exact(3) {
                let (light, blue, red) = rgb_to_ycbcr(pixel[0], pixel[1], pixel[2]);
                buffers[0].push(light);
                buffers[1].push(blue);
                buffers[2].push(red);
            }
        } else {
            buffers[0].extend_from_slice(row);
        }
    }
}
