//! The stack: what lies behind what in a piece, from the front to the back, and how thick that is.
//!
//! In a frame the stack has to go into the rabbet. A paper sheet of a fifth to half a millimetre is not counted (common
//! practice, no source).
//!
//! ```
//! use overmantel::{framing::stack::Stack, length::Length, plan::{Board, Framing, Glazing, Material}};
//! let framing = Framing {
//!     glazing: Glazing::Acrylic(Length::inches_ratio(1, 8)),
//!     mount: None,
//!     backing: Some(Board { material: Material::FoamBoard, thickness: Length::inches_ratio(3, 16) }),
//!     ..Framing::starting()
//! };
//! let stack = Stack::package(&framing, Length::ZERO);
//! assert_eq!(stack.thickness(), Length::inches_ratio(3, 8), "1/8 acrylic + 1/16 mat + 3/16 foam board");
//! ```

use crate::length::Length;
use crate::plan::{Aluminium, Framing, Glazing, Material, OpeningRule};

/// What lies behind what.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stack {
    /// From the front to the back; each thicker than nothing.
    pub layers: Vec<StackLayer>,
}

/// One layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StackLayer {
    /// What it is.
    pub part: StackPart,
    /// How thick it is.
    pub thickness: Length,
}

/// What a layer of a stack is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StackPart {
    /// Glass or acrylic.
    Glazing(Material),
    /// Spacers that keep the glazing off.
    Spacer,
    /// The top mat, or the only one.
    Mat,
    /// The inner one of two mats.
    InnerMat,
    /// What is shown, where it is thicker than paper: painting, stretched canvas, metal sheet.
    Work,
    /// The board that a sheet is hinged to.
    Mount(Material),
    /// The board that closes the frame.
    Backing(Material),
    /// What holds a metal sheet off the wall: blocks, or a frame of bars.
    StandOff,
}

impl StackPart {
    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Glazing(Material::Acrylic) => "acrylic",
            Self::Glazing(_) => "glass",
            Self::Spacer => "spacer",
            Self::Mat => "mat",
            Self::InnerMat => "bottom mat",
            Self::Work => "work",
            Self::Mount(_) => "mount board",
            Self::Backing(_) => "backing",
            Self::StandOff => "stand-off",
        }
    }

    /// What it is made of, where that is known.
    #[must_use]
    pub const fn material(self) -> Option<Material> {
        match self {
            Self::Glazing(material) | Self::Mount(material) | Self::Backing(material) => Some(material),
            Self::Mat | Self::InnerMat => Some(Material::MatBoard),
            Self::Spacer | Self::Work | Self::StandOff => None,
        }
    }
}

impl Stack {
    /// The sum of all layers.
    #[must_use]
    pub fn thickness(&self) -> Length {
        self.layers.iter().map(|layer| layer.thickness).sum()
    }

    fn of(layers: impl IntoIterator<Item = (StackPart, Length)>) -> Self {
        let thick = layers.into_iter().filter(|&(_, thickness)| thickness > Length::ZERO);
        Self { layers: thick.map(|(part, thickness)| StackLayer { part, thickness }).collect() }
    }

    /// A canvas or a painting by itself.
    pub(super) fn work(depth: Length) -> Self {
        Self::of([(StackPart::Work, depth)])
    }

    /// A metal sheet and what holds it off the wall.
    pub(super) fn metal(sheet: &Aluminium) -> Self {
        Self::of([(StackPart::Work, sheet.thickness), (StackPart::StandOff, sheet.stand_off)])
    }

    /// What goes into a frame, with a work of this depth (nothing for paper). A work that floats lies in the mat's opening and
    /// in the gap that a spacer leaves, and takes depth only for what it is thicker. Without glazing there is no spacer.
    #[must_use]
    pub fn package(framing: &Framing, work: Length) -> Self {
        let (glazing, thickness) = match framing.glazing {
            Glazing::None => (Material::Glass, Length::ZERO),
            Glazing::Glass(thickness) => (Material::Glass, thickness),
            Glazing::Acrylic(thickness) => (Material::Acrylic, thickness),
        };
        let board = |thickness: Option<Length>| thickness.unwrap_or_default();
        let mat = framing.mat.as_ref();
        let floats = mat.is_some_and(|mat| matches!(mat.opening, OpeningRule::Float(_)));
        let inner = mat.filter(|mat| mat.inner_reveal.is_some());
        let spacer = if framing.glazing == Glazing::None { Length::ZERO } else { framing.spacer };
        let mats =
            mat.map_or(Length::ZERO, |mat| mat.thickness) + inner.map_or(Length::ZERO, |mat| mat.thickness);
        Self::of(
            [
                (StackPart::Glazing(glazing), thickness),
                (StackPart::Spacer, spacer),
                (StackPart::Mat, board(mat.map(|mat| mat.thickness))),
                (StackPart::InnerMat, board(inner.map(|mat| mat.thickness))),
                (StackPart::Work, if floats { work - mats - spacer } else { work }),
            ]
            .into_iter()
            .chain(framing.mount.map(|mount| (StackPart::Mount(mount.material), mount.thickness)))
            .chain(framing.backing.map(|backing| (StackPart::Backing(backing.material), backing.thickness))),
        )
    }
}
