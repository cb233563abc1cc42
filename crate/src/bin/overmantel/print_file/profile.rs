//! Colour profiles: kept byte for byte. They are only read for their name, and to say a colour of the plan in their terms.

use moxcms::{ColorProfile, DataColorSpace, Layout, ProfileText, TransformOptions};
use overmantel::colour::Colour;
use overmantel::print_file::Form;

/// What is said of a file's profile.
pub(super) fn said(profile: Option<&[u8]>) -> String {
    let Some(bytes) = profile else { return "no colour profile in the file: sRGB is assumed".into() };
    let name = ColorProfile::new_from_slice(bytes).ok().and_then(|profile| profile.description);
    let name = match name {
        Some(ProfileText::PlainString(name)) => name,
        Some(ProfileText::Localizable(names)) => {
            names.into_iter().next().map_or_else(String::new, |name| name.value)
        }
        Some(ProfileText::Description(name)) => name.ascii_string,
        None => String::new(),
    };
    let name: String = name.chars().filter(|letter| !letter.is_control()).take(80).collect();
    format!("colour profile kept: {}", if name.trim().is_empty() { "it has no name" } else { name.trim() })
}

/// The pixel of a colour beside a picture, and the form that the file then has: a grey picture becomes one of colours when the colour is none
/// of the greys.
///
/// # Errors
/// A plain sentence when a picture with a profile of greys would have to take a colour.
pub(super) fn pixel(colour: Colour, form: Form, profile: Option<&[u8]>) -> Option<(Form, Vec<u8>)> {
    let is_grey = colour.red == colour.green && colour.green == colour.blue;
    let form = match (form.is_coloured || is_grey, profile) {
        (true, _) => form,
        (false, None) => Form { is_coloured: true, ..form },
        (false, Some(_)) => {
            return None;
        }
    };
    let is_end = is_grey && matches!(colour.red, 0 | 255);
    let turned = profile.filter(|_| form.is_coloured && !is_end).and_then(|profile| turned(colour, profile));
    Some((form, form.pixel(turned.unwrap_or(colour))))
}

/// An sRGB colour in the terms of an RGB profile.
fn turned(colour: Colour, profile: &[u8]) -> Option<Colour> {
    let profile = ColorProfile::new_from_slice(profile).ok()?;
    if profile.color_space != DataColorSpace::Rgb {
        return None;
    }
    let options = TransformOptions::default();
    let srgb = ColorProfile::new_srgb();
    let transform = srgb.create_transform_8bit(Layout::Rgb, &profile, Layout::Rgb, options).ok()?;
    let mut found = [0; 3];
    transform.transform(&[colour.red, colour.green, colour.blue], &mut found).ok()?;
    let [red, green, blue] = found;
    Some(Colour { red, green, blue })
}
