//! A piece: what is stated of one thing that hangs, from its image to its frame.

use super::{Floater, Focus, Framing, PAPER_ROWS, Surround, SurroundOf, limits};
use crate::colour::Colour;
use crate::described::{
    Absent, Entry, Form, Item, Member, OneOf, Referred, Row, Thing, Variants, Words, maybe, maybe_filled,
};
use crate::geometry::Size;
use crate::length::{Grade, Length};

/// One thing that hangs.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Piece {
    /// Which of [`Plan::pictures`](super::Plan::pictures) it shows; not used while the plan is split.
    pub picture: Option<usize>,
    /// What is kept.
    pub focus: Focus,
    /// Size of the printed image: on canvas and aluminium the face, for an original the painting.
    pub image: Size,
    /// What it is made of.
    pub finish: Finish,
}

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, Form, Grade, Length, Referred, Row, Size, Words, limits};

    const SIDE: Form = Form::Length { grade: Grade::Piece, least: Length::from_units(1), most: limits::PIECE, usual: Length::ZERO, frozen: Length::ZERO };
    const PERMILLE: Form = Form::Number { least: 0, most: 1000, usual: 500, unit: "‰" };
    const fn grammage(usual: i64) -> Form {
        Form::Number { least: 0, most: limits::GRAMMAGE as i64, usual, unit: " g/m²" }
    }
    const FLOATED: Words = Words::yes_no("with", "without");

    pub static PIECE_PICTURE: Row = Row::new("picture", "picture", 1, "picture", "Name of the picture; none yet when left out.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static PIECE_PICTURE_ITSELF: Row = Row::new("", "", 1, "picture", "", Form::Reference(Referred::Picture));
    pub static PIECE_FOCUS_ACROSS: Row = Row::part("focus_across", "middle of what is kept, from the left edge of the picture in *", PERMILLE);
    pub static PIECE_FOCUS_DOWN: Row = Row::part("focus_down", "middle of what is kept, from the top edge of the picture in *", PERMILLE);
    pub static PIECE_FOCUS: Row = Row::new("focus", "focus", 2, "what is kept of the picture in *", "The middle of what is kept: thousandths of the picture from the left and from the top.", Form::focus(Some([&PIECE_FOCUS_ACROSS, &PIECE_FOCUS_DOWN]))).absent(Absent::Default);
    pub static PIECE_WIDTH: Row = Row::part("width", "width", SIDE);
    pub static PIECE_HEIGHT: Row = Row::part("height", "height", SIDE);
    pub static PIECE_IMAGE: Row = Row::new("image", "image", 3, "image", "Width and height of the printed image.", Form::Size { most: limits::PIECE, usual: Size::inches(16, 20), sides: Some([&PIECE_WIDTH, &PIECE_HEIGHT]) }).needed().metric(&[(Length::inches(16), Length::mm(400)), (Length::inches(20), Length::mm(500))]);
    pub static PIECE_MATERIAL: Row = Row::new("material", "made", 5, "material", "What it is made of.", Form::tagged()).needed();
    pub(super) static MADE: Row = Row::thing("", 6, "");

    pub(super) static PAPER_SURROUND: Row = Row::thing("", 1, "");
    pub static PAPER_GRAMMAGE: Row = Row::new("paper.grammage", "grammage", 2, "weight of the paper", "Grams per square metre; 310 when left out.", grammage(310));
    pub(super) static PAPER_FRAMING: Row = Row::thing("", 3, "");

    pub static CANVAS_DEPTH: Row = Row::length("canvas.depth", "depth", 1, "depth of the stretcher bars", "Depth of the bars.", Length::inches_ratio(3, 2)).needed().metric(&[(Length::inches_ratio(3, 2), Length::mm(38))]);
    pub static CANVAS_EDGE: Row = Row::new("canvas.edge", "edge", 2, "edge of the canvas", "", Form::tagged()).needed();
    pub static CANVAS_EDGE_COLOUR: Row = Row::colour("canvas.edge_colour", "", 3, "colour of the canvas edge", "", 0);
    pub static CANVAS_FOLD: Row = Row::length("canvas.fold", "fold", 4, "staple margin behind the canvas", "Staple margin: canvas behind the bars on each side.", Length::inches(1)).metric(&[(Length::inches(1), Length::mm(25))]);
    pub static CANVAS_GRAMMAGE: Row = Row::new("canvas.grammage", "grammage", 5, "weight of the canvas", "Weight of the canvas in grams per square metre; 400 when left out.", grammage(400));
    pub static CANVAS_FLOATER: Row = Row::new("floater", "floater", 6, "floater frame", "", Form::maybe(FLOATED)).absent(Absent::Usual);

    pub static ALUMINIUM_THICKNESS: Row = Row::length("aluminium.thickness", "thickness", 1, "thickness of the sheet", "", Length::inches_ratio(45, 1000)).grade(Grade::Fine).needed().metric(&[(Length::inches_ratio(45, 1000), Length::micrometres(1200))]);
    pub static ALUMINIUM_STAND_OFF: Row = Row::length("aluminium.stand_off", "stand_off", 2, "distance of the sheet from the wall", "From the wall to the back of the sheet.", Length::inches_ratio(3, 4)).needed().metric(&[(Length::inches_ratio(3, 4), Length::mm(20))]);
    pub static ALUMINIUM_CORNER_RADIUS: Row = Row::length("aluminium.corner_radius", "corner_radius", 3, "corner radius of the sheet", "Radius of its corners; square when left out.", Length::ZERO);
    pub static ALUMINIUM_BACK: Row = Row::new("aluminium.back", "sub_frame", 4, "back of the sheet", "A sub-frame of bars behind it; float blocks when left out.", Form::maybe(Words::no_yes("on float blocks", "on a sub-frame"))).absent(Absent::Usual);
    pub static SUB_FRAME_FROM_EDGES: Row = Row::length("sub_frame.inset", "inset", 1, "distance of the sub-frame from the edges", "From each edge of the sheet to the bars.", Length::inches(2)).needed().metric(&[(Length::inches(2), Length::mm(50))]);
    pub static SUB_FRAME_WIDTH: Row = Row::length("sub_frame.width", "width", 2, "width of the sub-frame's bars", "Width of the bars.", Length::inches(1)).positive().needed().metric(&[(Length::inches(1), Length::mm(25))]);

    pub static ORIGINAL_DEPTH: Row = Row::length("original.depth", "depth", 1, "depth of the original", "From its back to its front.", Length::inches_ratio(3, 4)).needed().metric(&[(Length::inches_ratio(3, 4), Length::mm(20))]);
    pub(super) static ORIGINAL_FRAMED: Row = Row::thing("framed", 2, "Mat, frame and what goes with them, if any.").absent(Absent::Usual);
    pub static ORIGINAL_FLOATER: Row = Row::new("floater", "floater", 3, "floater frame", "A floater frame, if any.", Form::maybe(FLOATED)).absent(Absent::Usual);
}
pub use rows::*;

impl Thing for Piece {
    fn title(&self) -> (&'static str, &'static str) {
        ("Piece", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { picture, focus, image, finish } = self;
        vec![
            maybe_filled(&PIECE_PICTURE, picture, &PIECE_PICTURE_ITSELF, 0),
            Member::of(&PIECE_FOCUS, focus),
            Member::of(&PIECE_IMAGE, image),
            Member::one_of(&PIECE_MATERIAL, finish),
        ]
    }
}

impl Item for Piece {
    fn next(before: &[Self]) -> Self {
        before.last().cloned().unwrap_or_else(Self::starting)
    }

    /// By the one before it.
    fn measure(before: &[Self]) -> Self {
        before.last().cloned().unwrap_or_else(|| {
            let mut piece = Self::starting();
            crate::described::freeze(&mut piece);
            piece
        })
    }
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
            && let super::Extent::Whole(sheet) = &mut paper.border.extent
        {
            add(sheet, by);
        }
    }

    /// Makes the mat board larger where that is what is stated.
    pub fn grow_board(&mut self, by: Size) {
        let mat = self.finish.framing_mut().and_then(|framing| framing.mat.as_mut());
        if let Some(super::Extent::Whole(board)) = mat.map(|mat| &mut mat.surround.extent) {
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

impl Default for Finish {
    fn default() -> Self {
        Self::Paper(Paper::default())
    }
}

static FINISHES: Variants = Variants {
    name: "Made",
    about: "",
    entries: &[
        Entry::new("paper", 0, "paper").about("A print on paper."),
        Entry::new("canvas", 1, "canvas").about("A print on stretched canvas."),
        Entry::new("aluminium", 2, "aluminium").about("A print on aluminium."),
        Entry::new("original", 3, "the original").about("The original."),
    ],
};

impl OneOf for Finish {
    fn variants(&self) -> &'static Variants {
        &FINISHES
    }

    fn place(&self) -> usize {
        match self {
            Self::Paper(_) => 0,
            Self::Canvas(_) => 1,
            Self::Aluminium(_) => 2,
            Self::Original(_) => 3,
        }
    }

    fn turn(&mut self, place: usize) {
        *self = match place {
            0 => Self::Paper(Paper::starting()),
            1 => Self::Canvas(Canvas::starting()),
            2 => Self::Aluminium(Aluminium::starting()),
            _ => Self::Original(Original::starting()),
        };
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let row = &MADE;
        vec![match self {
            Self::Paper(paper) => Member::of(row, paper),
            Self::Canvas(canvas) => Member::of(row, canvas),
            Self::Aluminium(sheet) => Member::of(row, sheet),
            Self::Original(original) => Member::of(row, original),
        }]
    }
}

impl Finish {
    /// Whether it is the painting itself, which is not printed.
    #[must_use]
    pub const fn is_original(&self) -> bool {
        matches!(self, Self::Original(_))
    }

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
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Paper {
    /// White paper left round the image; nothing for a print to the edge.
    pub border: Surround,
    /// Weight of the paper in grams per square metre.
    pub grammage: u32,
    /// Mat, frame and what goes with them.
    pub framing: Framing,
}

impl Thing for Paper {
    fn title(&self) -> (&'static str, &'static str) {
        ("Paper", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { border, grammage, framing } = self;
        vec![
            Member::thing(&PAPER_SURROUND, SurroundOf { surround: border, rows: &PAPER_ROWS }),
            Member::of(&PAPER_GRAMMAGE, grammage),
            Member::of(&PAPER_FRAMING, framing),
        ]
    }

    /// Glass of 2 mm, a mount board of 1/16 in and 3/16 in of foam board, as in a plan that version 1 began with.
    fn frozen(&mut self) {
        self.framing.glazing = super::Glazing::Glass(Length::mm(2));
        let board = |material, thickness| Some(super::Board { material, thickness });
        self.framing.mount = board(super::Material::MatBoard, Length::inches_ratio(1, 16));
        self.framing.backing = board(super::Material::FoamBoard, Length::inches_ratio(3, 16));
    }
}

/// A print on stretched canvas.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Canvas {
    /// Depth of the stretcher bars: how far the edges stand off the wall.
    pub depth: Length,
    /// What is on the edges.
    pub edge: Edge,
    /// Canvas behind the bars on each side, for folding and stapling.
    pub fold: Length,
    /// Weight of the canvas in grams per square metre.
    pub grammage: u32,
    /// A floater frame, if any.
    pub floater: Option<Floater>,
}

impl Thing for Canvas {
    fn title(&self) -> (&'static str, &'static str) {
        ("Canvas", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { depth, edge, fold, grammage, floater } = self;
        let round = Floater::round(*depth);
        vec![
            Member::of(&CANVAS_DEPTH, depth),
            Member::one_of(&CANVAS_EDGE, edge),
            Member::of(&CANVAS_FOLD, fold),
            Member::of(&CANVAS_GRAMMAGE, grammage),
            maybe_filled(&CANVAS_FLOATER, floater, &crate::described::ITSELF, round),
        ]
    }
}

/// What is on the edges of a stretched canvas.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Edge {
    /// The picture is wrapped round, and the face loses what the edges show.
    Carried,
    /// The outermost part of the face is repeated in mirror image.
    #[default]
    Mirrored,
    /// A solid edge.
    Plain(Colour),
}

static EDGES: Variants = Variants {
    name: "Edge",
    about: "",
    entries: &[
        Entry::new("carried", 0, "the image wrapped round the edge")
            .about("The image is wrapped round the edge."),
        Entry::new("mirrored", 1, "a mirrored wrap").about("The edge repeats the face in mirror image."),
        Entry::new("plain", 2, "a solid edge").about("One solid colour."),
    ],
};

impl OneOf for Edge {
    fn variants(&self) -> &'static Variants {
        &EDGES
    }

    fn place(&self) -> usize {
        match self {
            Self::Carried => 0,
            Self::Mirrored => 1,
            Self::Plain(_) => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        *self = [Self::Carried, Self::Mirrored, Self::Plain(Colour::hex(0xff_ff_ff))][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::Carried | Self::Mirrored => Vec::new(),
            Self::Plain(colour) => vec![Member::of(&CANVAS_EDGE_COLOUR, colour)],
        }
    }
}

/// A print on an aluminium sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
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

impl Thing for Aluminium {
    fn title(&self) -> (&'static str, &'static str) {
        ("Aluminium", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { thickness, stand_off, corner_radius, sub_frame } = self;
        vec![
            Member::of(&ALUMINIUM_THICKNESS, thickness),
            Member::of(&ALUMINIUM_STAND_OFF, stand_off),
            Member::of(&ALUMINIUM_CORNER_RADIUS, corner_radius),
            maybe(&ALUMINIUM_BACK, sub_frame),
        ]
    }
}

/// A frame of bars behind a metal sheet, as deep as the sheet stands off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SubFrame {
    /// From each edge of the sheet to the bars, so that they are not seen.
    pub from_edges: Length,
    /// Width of the bars.
    pub width: Length,
}

impl Thing for SubFrame {
    fn title(&self) -> (&'static str, &'static str) {
        ("SubFrame", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { from_edges, width } = self;
        vec![Member::of(&SUB_FRAME_FROM_EDGES, from_edges), Member::of(&SUB_FRAME_WIDTH, width)]
    }
}

/// The original: as it is, framed as a work on paper would be, or standing in a floater frame.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Original {
    /// From its back to its front.
    pub depth: Length,
    /// Mat, frame and what goes with them.
    pub framing: Framing,
    /// A floater frame, if any; then there is no other frame.
    pub floater: Option<Floater>,
}

impl Thing for Original {
    fn title(&self) -> (&'static str, &'static str) {
        ("Original", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { depth, framing, floater } = self;
        let round = Floater::round(*depth);
        vec![
            Member::of(&ORIGINAL_DEPTH, depth),
            Member::of(&ORIGINAL_FRAMED, framing),
            maybe_filled(&ORIGINAL_FLOATER, floater, &crate::described::ITSELF, round),
        ]
    }

    fn started(&mut self) {
        self.framing = Framing::NONE;
    }

    fn frozen(&mut self) {
        self.framing = Framing::NONE;
    }
}
