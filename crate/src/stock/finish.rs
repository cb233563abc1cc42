//! How a moulding looks, in words that keep its material and its colour apart.

use super::{MOULDINGS, name_of};
use crate::colour::Colour;
use crate::plan::{Material, Surface};
use crate::words::with_article;

/// A colour of mouldings in a sentence: "a dark oak colour", or "the colour #3a4b5c" where it has no name.
#[must_use]
pub fn a_colour(colour: Colour) -> String {
    let name = name_of(&MOULDINGS, colour);
    if name.starts_with('#') {
        return ["the colour ", &name].concat();
    }
    [&with_article(&name), " colour"].concat()
}

/// How a moulding of a material (or of a wood, by its name) is finished. A colour's name never stands for the wood.
///
/// ```
/// use overmantel::{colour::Colour, plan::{Material, Surface}, stock::finish};
/// let words = |wood, surface, rgb| finish(Material::Pine, wood, surface, Colour::hex(rgb));
/// assert_eq!(words("pine", Surface::Grain, 0x3b_2b_20), "stained dark oak");
/// assert_eq!(words("oak", Surface::Grain, 0xa8_7f_52), "unstained", "oak that is to look like oak");
/// assert_eq!(words("pine", Surface::Paint, 0xed_ea_e3), "painted white");
/// assert_eq!(words("pine", Surface::Paint, 0x12_34_56), "painted in the colour #123456");
/// ```
#[must_use]
pub fn finish(material: Material, wood: &str, surface: Surface, colour: Colour) -> String {
    let is_wood = !matches!(material, Material::Mdf | Material::Aluminium);
    let name = name_of(&MOULDINGS, colour);
    let plainly = |how: &str, between: &str| {
        if name.starts_with('#') {
            [how, between, "in the colour ", &name].concat()
        } else {
            [how, between, &name].concat()
        }
    };
    match surface {
        Surface::Grain if is_wood && name == wood => "unstained".to_owned(),
        Surface::Grain if is_wood => plainly("stained", " "),
        Surface::Grain => ["in ", &a_colour(colour)].concat(),
        Surface::Paint => plainly("painted", " "),
        Surface::Metal => plainly("brushed", ", "),
        Surface::Gilt => plainly("gilt", ", "),
    }
}
