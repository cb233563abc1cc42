//! The Exif of a JPEG: its resolution as ratios, what Exif asks for besides, and nothing of the picture's own.

use super::written::rationals;
use overmantel::print_file::Recipe;
use std::io::Cursor;
use tiff::encoder::{TiffEncoder, TiffKindStandard};
use tiff::tags::{Tag, Type};
use tiff::{Directory, TiffResult};

/// What follows the segment's name: Exif 2.3, 4.6.4 (table 4) for the first directory and 4.6.5 (tables 7 to 9) for that of Exif; the fields are
/// those that are mandatory for compressed pictures, and the unit 2 is the inch. Without a profile the picture is sRGB.
pub(super) fn exif(recipe: &Recipe, is_coloured: bool, has_profile: bool) -> TiffResult<Vec<u8>> {
    let mut bytes = Cursor::new(Vec::new());
    let mut encoder = TiffEncoder::<_, TiffKindStandard>::new(&mut bytes)?;
    let (width, height) = recipe.size_px();
    let mut of_exif = encoder.extra_directory()?;
    // Luminance, then the two differences of colour.
    let components: &[u8] = if is_coloured { &[1, 2, 3, 0] } else { &[1, 0, 0, 0] };
    let undefined =
        [(Tag::ExifVersion, &b"0230"[..]), (COMPONENTS, components), (FLASHPIX_VERSION, &b"0100"[..])];
    for (tag, value) in undefined {
        let mut directory = Directory::empty();
        directory.extend([(tag, of_exif.write_entry_bytes(Type::UNDEFINED, value)?)]);
        of_exif.extend_from(&directory);
    }
    of_exif.write_tag(COLOUR_SPACE, if has_profile { UNCALIBRATED } else { SRGB })?;
    of_exif.write_tag(WIDTH, width)?;
    of_exif.write_tag(HEIGHT, height)?;
    let place = of_exif.finish_with_offsets()?;
    let mut first = encoder.image_directory()?;
    let [across, down] = rationals(recipe);
    first.write_tag(Tag::XResolution, across)?;
    first.write_tag(Tag::YResolution, down)?;
    first.write_tag(Tag::ResolutionUnit, 2_u16)?;
    // In the middle of the pixels they are of.
    first.write_tag(YCBCR_POSITIONING, 1_u16)?;
    first.write_tag(Tag::ExifDirectory, place.offset)?;
    first.finish()?;
    Ok(bytes.into_inner())
}

const YCBCR_POSITIONING: Tag = Tag::Unknown(531);
const COMPONENTS: Tag = Tag::Unknown(0x9101);
const FLASHPIX_VERSION: Tag = Tag::Unknown(0xa000);
const COLOUR_SPACE: Tag = Tag::Unknown(0xa001);
const WIDTH: Tag = Tag::Unknown(0xa002);
const HEIGHT: Tag = Tag::Unknown(0xa003);
const SRGB: u16 = 1;
const UNCALIBRATED: u16 = 0xffff;
