//! Colours by name: of wall paints, floors, furniture, mouldings, mats and canvas edges. Names and colours are generic and our own.

use crate::colour::Colour;
use crate::quoted::short;

/// A colour with a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Named {
    /// What it is called in a sentence.
    pub name: &'static str,
    /// The colour.
    pub colour: Colour,
}

const fn named(name: &'static str, rgb: u32) -> Named {
    Named { name, colour: Colour::hex(rgb) }
}

/// Wall paints.
pub static PAINTS: [Named; 10] = [
    named("grey-green", 0xd5_dc_d6),
    named("chalk white", 0xf2_ef_e8),
    named("warm grey", 0xcf_c9_bf),
    named("stone", 0xb9_b2_a3),
    named("clay pink", 0xd9_b9_a8),
    named("ochre", 0xcf_a8_5b),
    named("slate blue", 0x5f_73_82),
    named("deep green", 0x3f_52_49),
    named("ink blue", 0x2b_39_4a),
    named("charcoal", 0x3a_3c_3d),
];

/// Colours of floors.
pub static FLOORS: [Named; 5] = [
    named("oak boards", 0xa5_83_63),
    named("pale ash boards", 0xcb_b4_92),
    named("walnut boards", 0x6b_4c_38),
    named("stone floor", 0xa9_a5_9c),
    named("dark floor", 0x3f_39_35),
];

/// Colours of furniture and curtains: fabric and wood.
pub static FURNITURE: [Named; 10] = [
    named("slate grey", 0x74_84_86),
    named("oatmeal", 0xb7_b3_a2),
    named("sand", 0xb4_ab_97),
    named("chestnut", 0x94_73_54),
    named("chalk white", 0xe8_e4_da),
    named("moss green", 0x5f_6b_4e),
    named("rust", 0x9c_5a_3c),
    named("ochre", 0xb8_8a_3e),
    named("ink blue", 0x2f_3f_52),
    named("charcoal", 0x3d_3e_3f),
];

/// Colours of mouldings and floater frames.
pub static MOULDINGS: [Named; 7] = [
    named("dark oak", 0x3b_2b_20),
    named("black", 0x1e_1d_1c),
    named("oak", 0xa8_7f_52),
    named("limed ash", 0xd2_c6_b0),
    named("white", 0xed_ea_e3),
    named("driftwood grey", 0x8d_86_7b),
    named("dull gold", 0xa6_86_4b),
];

/// Colours of mat boards.
pub static MATS: [Named; 5] = [
    named("warm white", 0xf3_ee_e1),
    named("white", 0xfa_f9_f5),
    named("cream", 0xea_de_c3),
    named("pale grey", 0xcf_d1_cf),
    named("black", 0x2a_29_28),
];

/// Colours of solid canvas edges.
pub static EDGES: [Named; 4] = [
    named("white", 0xf4_f2_ec),
    named("black", 0x22_21_20),
    named("sand", 0xc9_b7_95),
    named("slate", 0x5a_66_6d),
];

/// The name under which a list has a colour; otherwise its code.
#[must_use]
pub fn name_of(list: &[Named], colour: Colour) -> String {
    list.iter()
        .find(|entry| entry.colour == colour)
        .map_or_else(|| colour.to_string(), |entry| entry.name.to_owned())
}

/// A colour by its name in a list, or by its code `#rrggbb`, also without the `#`.
///
/// # Errors
/// When the text is neither; the error names what is offered.
pub fn find(list: &'static [Named], text: &str) -> Result<Colour, NoColour> {
    let text = text.trim();
    list.iter()
        .find(|entry| entry.name.eq_ignore_ascii_case(text))
        .map(|entry| entry.colour)
        .or_else(|| Colour::parse(text))
        .or_else(|| Colour::parse(&["#", text].concat()))
        .ok_or_else(|| NoColour { given: text.to_owned(), list })
}

/// A text that is no colour of a list, and no code.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct NoColour {
    /// The text.
    pub given: String,
    /// What is offered.
    pub list: &'static [Named],
}

impl std::fmt::Display for NoColour {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let names: Vec<_> = self.list.iter().map(|entry| entry.name).collect();
        write!(
            f,
            "\"{}\" is not one of the colours here; choose {}, or write a colour as #rrggbb",
            short(&self.given),
            names.join(", ")
        )
    }
}
