//! A piece: what is stated of one thing that hangs, from its image to its frame.

use super::Material;
use crate::colour::Colour;
use crate::geometry::Size;
use crate::length::Length;

/// The point of a picture that a crop keeps as near the middle as it can, in thousandths of its width from the left and
/// of its height from the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Focus {
    /// From the left edge, 0 to 1000.
    pub x_permille: u16,
    /// From the top edge, 0 to 1000.
    pub y_permille: u16,
}

impl Focus {
    /// The middle of the picture.
    pub const MIDDLE: Self = Self { x_permille: 500, y_permille: 500 };
}

/// One thing that hangs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Which of [`Plan::pictures`](super::Plan::pictures) it shows; not used while the plan is split.
    pub picture: Option<usize>,
    /// What the crop keeps.
    pub focus: Focus,
    /// Size of the printed image: on canvas and aluminium the face, for an original the painting.
    pub image: Size,
    /// What it is made of.
    pub finish: Finish,
}

impl Piece {
    /// Makes the piece larger outside: by its image, and by its sheet and its mat board where those are what is stated.
    pub fn grow(&mut self, by: Size) {
        self.grow_sheet(by);
        self.grow_board(by);
    }

    /// Makes the image larger, and the sheet where that is what is stated.
    pub fn grow_sheet(&mut self, by: Size) {
        add(&mut self.image, by);
        if let Finish::Paper(paper) = &mut self.finish
            && let Extent::Whole(sheet) = &mut paper.border.extent
        {
            add(sheet, by);
        }
    }

    /// Makes the mat board larger where that is what is stated.
    pub fn grow_board(&mut self, by: Size) {
        let mat = self.finish.framing_mut().and_then(|framing| framing.mat.as_mut());
        if let Some(Extent::Whole(board)) = mat.map(|mat| &mut mat.surround.extent) {
            add(board, by);
        }
    }
}

fn add(size: &mut Size, by: Size) {
    *size = Size::new(size.width + by.width, size.height + by.height);
}

/// What a piece is made of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Finish {
    /// A print on paper.
    Paper(Paper),
    /// A print on stretched canvas.
    Canvas(Canvas),
    /// A print on an aluminium sheet.
    Aluminium(Aluminium),
    /// The original, as it is.
    Original(Original),
}

impl Finish {
    /// What it is framed in, for what can be framed behind glass.
    #[must_use]
    pub const fn framing(&self) -> Option<&Framing> {
        match self {
            Self::Paper(Paper { framing, .. }) | Self::Original(Original { framing, .. }) => Some(framing),
            Self::Canvas(_) | Self::Aluminium(_) => None,
        }
    }

    /// The same, to be changed.
    pub const fn framing_mut(&mut self) -> Option<&mut Framing> {
        match self {
            Self::Paper(Paper { framing, .. }) | Self::Original(Original { framing, .. }) => Some(framing),
            Self::Canvas(_) | Self::Aluminium(_) => None,
        }
    }

    /// The floater frame, for what can stand in one.
    #[must_use]
    pub const fn floater(&self) -> Option<&Floater> {
        match self {
            Self::Canvas(Canvas { floater, .. }) | Self::Original(Original { floater, .. }) => {
                floater.as_ref()
            }
            Self::Paper(_) | Self::Aluminium(_) => None,
        }
    }

    /// The place for a floater frame, for what can stand in one.
    pub const fn floater_mut(&mut self) -> Option<&mut Option<Floater>> {
        match self {
            Self::Canvas(Canvas { floater, .. }) | Self::Original(Original { floater, .. }) => Some(floater),
            Self::Paper(_) | Self::Aluminium(_) => None,
        }
    }
}

/// A print on paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Paper {
    /// White paper left round the image; nothing for a print to the edge.
    pub border: Surround,
    /// Weight of the paper in grams to the square metre.
    pub grammage: u32,
    /// Mat, frame and what goes with them.
    pub framing: Framing,
}

/// What a work on paper, or an original, is framed in; from the front to the back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Framing {
    /// The frame, if any.
    pub frame: Option<Frame>,
    /// What covers the work in the frame.
    pub glazing: Glazing,
    /// Fillets that hold the glazing off what is behind it; zero for none.
    pub spacer: Length,
    /// The mat, if any.
    pub mat: Option<Mat>,
    /// The board that the work is hinged to, if any.
    pub mount: Option<Board>,
    /// The board that closes the frame at its back, if any.
    pub backing: Option<Board>,
}

/// A board of some material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Board {
    /// What it is made of.
    pub material: Material,
    /// How thick it is.
    pub thickness: Length,
}

/// What is left round something: paper round an image, board round an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Surround {
    /// How it is stated.
    pub extent: Extent,
    /// How the foot stands to the head.
    pub weighting: Weighting,
}

/// How a surround is stated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// So much on the left, at the head and on the right; the foot follows from the weighting.
    Border(Length),
    /// The whole is of this size; the borders are what is left over.
    Whole(Size),
}

/// How the border at the foot stands to that at the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weighting {
    /// Wider by so much (narrower, when negative).
    Extra(Length),
    /// In this ratio, such as 3 at the head to 4 at the foot; neither is zero.
    Ratio {
        /// Parts at the head.
        head: u16,
        /// Parts at the foot.
        foot: u16,
    },
}

impl Weighting {
    /// Head and foot alike.
    pub const EVEN: Self = Self::Extra(Length::ZERO);
}

impl Surround {
    /// The same on every side.
    #[must_use]
    pub const fn even(border: Length) -> Self {
        Self { extent: Extent::Border(border), weighting: Weighting::EVEN }
    }

    /// The whole is of this size, and what is inside lies in its middle.
    #[must_use]
    pub const fn whole(size: Size) -> Self {
        Self { extent: Extent::Whole(size), weighting: Weighting::EVEN }
    }
}

/// How the mat's opening follows from the art.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningRule {
    /// The mat covers so much of the sheet on each side: opening = sheet - 2 × overlap.
    Overlap(Length),
    /// So much of the white border shows round the whole image: opening = image + 2 × reveal.
    Reveal(Length),
    /// The sheet floats free, with so much air on each side: opening = sheet + 2 × gap.
    Float(Length),
}

/// A window mat.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mat {
    /// How the opening follows from the art.
    pub opening: OpeningRule,
    /// The board round the opening.
    pub surround: Surround,
    /// How much of an inner mat shows on each side; `None` for a single mat.
    pub inner_reveal: Option<Length>,
    /// Thickness of the board, which is also the width of its bevel seen from the front (45°).
    pub thickness: Length,
    /// Colour of its face.
    pub colour: Colour,
    /// Colour of the inner mat's face, where there are two; the same board when `None`.
    pub inner_colour: Option<Colour>,
}

/// A frame with a lip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Frame {
    /// Width of the moulding's face, from its outer edge to its sight edge.
    pub face: Length,
    /// Width of the rabbet: how far the lip reaches over what is in the frame.
    pub rabbet_width: Length,
    /// Depth of the rabbet.
    pub rabbet_depth: Length,
    /// From the wall to the front of the moulding.
    pub depth: Length,
    /// Play in the rabbet, in total over both sides.
    pub allowance: Length,
    /// What it is made of.
    pub material: Material,
    /// How its face is shaped.
    pub shape: FaceShape,
    /// How its face is finished.
    pub surface: Surface,
    /// Its colour.
    pub colour: Colour,
}

/// How the face of a moulding is shaped, from its outer edge to its sight edge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum FaceShape {
    /// Level.
    #[default]
    Flat,
    /// Falling to the sight edge in one slope.
    Bevelled,
    /// Falling to the sight edge in a hollow.
    Scooped,
    /// Falling to the sight edge in steps.
    Stepped,
    /// A half round.
    Rounded,
}

impl FaceShape {
    /// Every shape.
    pub const ALL: [Self; 5] = [Self::Flat, Self::Bevelled, Self::Scooped, Self::Stepped, Self::Rounded];

    /// Its name in a sentence and in a plan file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Bevelled => "bevelled",
            Self::Scooped => "scooped",
            Self::Stepped => "stepped",
            Self::Rounded => "rounded",
        }
    }
}

/// How the face of a moulding is finished.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Surface {
    /// Wood with its grain to be seen.
    #[default]
    Grain,
    /// Paint.
    Paint,
    /// Brushed metal.
    Metal,
    /// Leaf.
    Gilt,
}

impl Surface {
    /// Every surface.
    pub const ALL: [Self; 4] = [Self::Grain, Self::Paint, Self::Metal, Self::Gilt];

    /// Its name in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Grain => "grained",
            Self::Paint => "painted",
            Self::Metal => "brushed",
            Self::Gilt => "gilt",
        }
    }
}

/// What covers the work in its frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glazing {
    /// Nothing.
    None,
    /// Glass of this thickness.
    Glass(Length),
    /// Acrylic of this thickness.
    Acrylic(Length),
}

/// A print on stretched canvas.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Canvas {
    /// Depth of the stretcher bars: how far the edges stand off the wall.
    pub depth: Length,
    /// What is on the edges.
    pub edge: Edge,
    /// Cloth behind the bars on each side, for folding and stapling.
    pub fold: Length,
    /// Weight of the cloth in grams to the square metre.
    pub grammage: u32,
    /// A floater frame, if any.
    pub floater: Option<Floater>,
}

/// What is on the edges of a stretched canvas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// The picture is carried round, and the face loses what the edges show.
    Carried,
    /// The outermost part of the face is repeated in mirror image.
    Mirrored,
    /// A plain colour.
    Plain(Colour),
}

/// A floater frame: the canvas stands free inside it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Floater {
    /// Air between canvas and frame, on each side.
    pub gap: Length,
    /// Width of the frame's face.
    pub face: Length,
    /// From the wall to the front of the frame.
    pub depth: Length,
    /// Its colour.
    pub colour: Colour,
}

/// A print on an aluminium sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Aluminium {
    /// Thickness of the sheet.
    pub thickness: Length,
    /// From the wall to the back of the sheet.
    pub stand_off: Length,
    /// Radius of its corners; zero for square ones.
    pub corner_radius: Length,
    /// A frame behind the sheet; `None` for float blocks.
    pub sub_frame: Option<SubFrame>,
}

/// A frame of bars behind a metal sheet, as deep as the sheet stands off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SubFrame {
    /// From each edge of the sheet to the bars, so that they are not seen.
    pub inset: Length,
    /// Width of the bars.
    pub width: Length,
}

/// The original: as it is, framed as a work on paper would be, or standing in a floater frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Original {
    /// From its back to its front.
    pub depth: Length,
    /// Mat, frame and what goes with them.
    pub framing: Framing,
    /// A floater frame, if any; then there is no other frame.
    pub floater: Option<Floater>,
}
