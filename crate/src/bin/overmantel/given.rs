//! Numbers and lengths as they were given: what is allowed where they are not, and in what unit they were read where they name none.

use super::say;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::System;
use overmantel::quoted::short;

/// A text is no whole number in its range.
#[derive(Debug, thiserror::Error)]
#[error("write a whole number from {least} to {most}")]
pub(crate) struct NotInRange {
    least: u32,
    most: u32,
}

/// Reads whole numbers from `least` to `most`, both included.
pub(crate) fn whole<N: TryFrom<u32>>(
    least: u32,
    most: u32,
) -> impl Fn(&str) -> Result<N, NotInRange> + Clone + Send + Sync + 'static {
    move |text| {
        let number = text.trim().parse().ok().filter(|number| (least..=most).contains(number));
        number.and_then(|number| N::try_from(number).ok()).ok_or(NotInRange { least, most })
    }
}

/// A wall wider than this was hardly meant in inches: 30 ft.
const HARDLY_MEANT: Length = Length::inches(360);

/// Tells in what unit a text was read that names none. A length that was hardly meant so is told even when quiet was asked for.
pub(crate) fn tell_unit(text: &str, system: System, read: Size) {
    // "144 x 96" and "144 by 96" name none.
    let bare = text.to_lowercase().replace("by", "").replace('x', "");
    let has_unit = bare.chars().any(|letter| "'\"’”‘“′″".contains(letter) || letter.is_alphabetic());
    if has_unit {
        return;
    }
    let (was, other, unit) = match system {
        System::Inches => ("inches", "centimetres", "cm"),
        System::Centimetres => ("centimetres", "inches", "in"),
    };
    let text = short(text.trim());
    let told = format!("\"{text}\" was read in {was}; write \"{text} {unit}\" if you mean {other}");
    if read.width.max(read.height) > HARDLY_MEANT { say::tell(told) } else { say::sum_up(told) }
}
