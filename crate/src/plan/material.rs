//! Materials: what a part is made of.

use crate::described::{Choice, Choosable, Entry};

/// What a part is made of, as far as its weight and its behaviour go.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "plain names of materials")]
pub enum Material {
    Glass,
    Acrylic,
    MatBoard,
    FoamBoard,
    FlutedBoard,
    Hardboard,
    Mdf,
    Pine,
    Obeche,
    Poplar,
    #[default]
    Oak,
    Aluminium,
    AluminiumComposite,
}

/// Every material, sheets first.
const TABLE: &[(Material, Entry)] = &[
    (Material::Glass, Entry::new("glass", 0, "glass")),
    (Material::Acrylic, Entry::new("acrylic", 1, "acrylic")),
    (Material::MatBoard, Entry::new("mat_board", 2, "mat board")),
    (Material::FoamBoard, Entry::new("foam_board", 3, "foam board")),
    (Material::FlutedBoard, Entry::new("fluted_board", 4, "fluted board")),
    (Material::Hardboard, Entry::new("hardboard", 5, "hardboard")),
    (Material::Mdf, Entry::new("mdf", 6, "MDF")),
    (Material::Pine, Entry::new("pine", 7, "pine")),
    (Material::Obeche, Entry::new("obeche", 8, "obeche")),
    (Material::Poplar, Entry::new("poplar", 9, "poplar")),
    (Material::Oak, Entry::new("oak", 10, "oak")),
    (Material::Aluminium, Entry::new("aluminium", 11, "aluminium")),
    (Material::AluminiumComposite, Entry::new("aluminium_composite", 12, "aluminium composite")),
];

impl Choosable for Material {
    const NAME: &'static str = "Material";
    const ALL: &'static [(Self, Entry)] = TABLE;
}

/// What a mount board or a backing may be made of.
pub const BOARD_MATERIALS: [Material; 6] = [
    Material::MatBoard,
    Material::FoamBoard,
    Material::FlutedBoard,
    Material::Hardboard,
    Material::Mdf,
    Material::AluminiumComposite,
];

/// What a moulding may be made of.
pub const MOULDING_MATERIALS: [Material; 6] =
    [Material::Pine, Material::Obeche, Material::Poplar, Material::Oak, Material::Mdf, Material::Aluminium];

impl Material {
    /// Its name in a sentence; in a file, the same with `_` for a blank.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.entry().words
    }

    /// Its entry, where a table is made from it.
    pub(super) const fn listed(self) -> Entry {
        let mut at = 0;
        while TABLE[at].0 as u8 != self as u8 {
            at += 1;
        }
        TABLE[at].1
    }
}

/// The material of a moulding.
pub(super) struct OfMoulding<'a>(pub(super) &'a mut Material);

impl Choice for OfMoulding<'_> {
    fn title(&self) -> (&'static str, &'static str) {
        ("Moulding", "What a moulding is made of.")
    }

    fn entries(&self) -> Vec<&'static Entry> {
        MOULDING_MATERIALS.iter().map(|material| material.entry()).collect()
    }

    fn place(&self) -> usize {
        MOULDING_MATERIALS.iter().position(|material| material == self.0).unwrap_or(0)
    }

    fn choose(&mut self, place: usize) {
        if let Some(&material) = MOULDING_MATERIALS.get(place) {
            *self.0 = material;
        }
    }
}
