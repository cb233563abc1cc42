//! Materials: what a part is made of.

/// What a part is made of, as far as its weight and its behaviour go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
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
    Oak,
    Aluminium,
    AluminiumComposite,
}

impl Material {
    /// Every material, sheets first.
    pub const ALL: [Self; 13] = [
        Self::Glass,
        Self::Acrylic,
        Self::MatBoard,
        Self::FoamBoard,
        Self::FlutedBoard,
        Self::Hardboard,
        Self::Mdf,
        Self::Pine,
        Self::Obeche,
        Self::Poplar,
        Self::Oak,
        Self::Aluminium,
        Self::AluminiumComposite,
    ];

    /// Its name in a sentence; in a file, the same with `_` for a blank.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Glass => "glass",
            Self::Acrylic => "acrylic",
            Self::MatBoard => "mat board",
            Self::FoamBoard => "foam board",
            Self::FlutedBoard => "fluted board",
            Self::Hardboard => "hardboard",
            Self::Mdf => "MDF",
            Self::Pine => "pine",
            Self::Obeche => "obeche",
            Self::Poplar => "poplar",
            Self::Oak => "oak",
            Self::Aluminium => "aluminium",
            Self::AluminiumComposite => "aluminium composite",
        }
    }
}
