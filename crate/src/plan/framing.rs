//! Framing: what surrounds a work on paper, from its white border to the back of its frame.

use super::{Frame, Material, limits};
use crate::colour::Colour;
use crate::described::{
    Absent, Choosable, Entry, Form, Member, OneOf, Packing, Row, Shape, Slot, Thing, Variants, Words, maybe,
    maybe_filled,
};
use crate::geometry::Size;
use crate::length::{Grade, Length};

/// What a work on paper, or an original, is framed in; from the front to the back.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Framing {
    /// The frame, if any.
    pub frame: Option<Frame>,
    /// What covers the work in the frame.
    pub glazing: Glazing,
    /// What the glazing is treated with.
    pub coating: Coating,
    /// Spacers that keep the glazing off what is behind it; zero for none.
    pub spacer: Length,
    /// The mat, if any.
    pub mat: Option<Mat>,
    /// The board that the work is hinged to, if any.
    pub mount: Option<Board>,
    /// The board that closes the frame at its back, if any.
    pub backing: Option<Board>,
}

/// With a part or without it.
const WITH: Words = Words::yes_no("with", "without");

#[rustfmt::skip]
#[expect(missing_docs, reason = "each row says what it is")]
mod rows {
    use super::{Absent, BoardRows, Form, Grade, Length, Packing, Row, Shape, Size, SurroundRows, WITH, Words, limits};

    const THERE: Form = Form::Maybe { usual: true, frozen: true, words: WITH };
    const RATIO: Form = Form::Pair { least: 1, most: limits::RATIO_PARTS as i64, usual: [3, 4], packing: Packing::Together, sides: None };
    const WHOLE: Form = Form::size(Size::inches(16, 20), limits::PIECE);
    const MINUS: Length = Length::from_units(-limits::PIECE.units());

    pub static MAT: Row = Row::new("mat", "mat", 5, "mat", "", THERE).absent(Absent::Usual);
    pub static FRAME: Row = Row::new("frame", "frame", 1, "frame", "", THERE).absent(Absent::Usual);
    pub static GLAZING: Row = Row::new("glazing", "glazing", 2, "glazing", "", Form::tagged());
    pub static GLAZING_THICKNESS: Row = Row::length("glazing.thickness", "", 3, "thickness of the glazing", "", Length::mm(2)).grade(Grade::Fine).frozen(Length::ZERO);
    pub static GLAZING_COATING: Row = Row::choice("glazing.coating", "coating", 8, "treatment of the glazing", "What the glazing is treated with.").absent(Absent::Silent);
    pub static SPACER: Row = Row::length("spacer", "spacer", 4, "depth of the spacer", "Spacers that keep the glazing off what is behind it; none when 0.", Length::ZERO);
    pub static MOUNT: Row = Row::new("mount", "mount", 6, "mount board", "The board that the work is hinged to; the usual one in a frame when left out.", Form::OneOf(Shape::Board));
    pub static MOUNT_THICKNESS: Row = Row::length("mount.thickness", "", 2, "thickness of the mount board", "", Length::inches_ratio(1, 16)).grade(Grade::Fine).metric(&[(Length::inches_ratio(1, 16), Length::micrometres(1500))]);
    pub static BACKING: Row = Row::new("backing", "backing", 7, "backing", "The board that closes the frame; the usual one in a frame when left out.", Form::OneOf(Shape::Board));
    pub static BACKING_THICKNESS: Row = Row::length("backing.thickness", "", 2, "thickness of the backing", "", Length::inches_ratio(3, 16)).grade(Grade::Fine).frozen(Length::inches_ratio(1, 16)).metric(&[(Length::inches_ratio(3, 16), Length::mm(5))]);

    pub static MAT_OPENING: Row = Row::new("mat.opening", "opening", 1, "how the opening in the mat of * meets the picture", "", Form::tagged()).needed();
    pub static MAT_BY: Row = Row::length("mat.by", "", 2, "overlap, reveal or gap at the mat opening", "", Length::inches_ratio(1, 8)).frozen(Length::ZERO).metric(&[(Length::inches_ratio(1, 8), Length::mm(3)), (Length::inches_ratio(1, 4), Length::mm(6)), (Length::inches_ratio(1, 2), Length::mm(12))]);
    pub(super) static MAT_SURROUND: Row = Row::thing("", 3, "");
    pub static MAT_DOUBLE: Row = Row::new("mat.double", "inner_reveal", 4, "single or double mat", "Width of the bottom mat that shows in the opening of the top mat.", Form::maybe(Words::no_yes("single", "double"))).absent(Absent::Usual);
    pub static MAT_INNER: Row = Row::length("mat.inner", "", 1, "reveal of the bottom mat", "", Length::inches_ratio(1, 4)).frozen(Length::ZERO).metric(&[(Length::inches_ratio(1, 4), Length::mm(6))]);
    pub static MAT_THICKNESS: Row = Row::length("mat.thickness", "thickness", 5, "thickness of the mat board", "Thickness of the board.", Length::inches_ratio(1, 16)).grade(Grade::Fine).metric(&[(Length::inches_ratio(1, 16), Length::micrometres(1500))]);
    pub static MAT_COLOUR: Row = Row::colour("mat.colour", "colour", 6, "colour of the mat", "Colour of its face.", 0xf3_ee_e1);
    pub static MAT_INNER_COLOUR: Row = Row::new("mat.inner_colour", "inner_colour", 7, "colour of the bottom mat", "Colour of the bottom mat's face; the top mat's when left out.", Form::maybe(Words::NONE)).absent(Absent::Usual);
    pub(super) static MAT_INNER_COLOUR_ITSELF: Row = Row::colour("", "", 1, "colour of the bottom mat", "", 0xf3_ee_e1);
    pub static MAT_EXTENT: Row = Row::new("mat.extent", "extent", 1, "whether the mat of * is sized by its border or by its board", "", Form::tagged()).needed();
    pub static MAT_BORDER: Row = Row::length("mat.border", "", 2, "width of the mat border", "", Length::inches_ratio(17, 8)).frozen(Length::ZERO).metric(&[(Length::inches_ratio(17, 8), Length::mm(60)), (Length::inches(2), Length::mm(50))]);
    pub static MAT_BOARD_WIDTH: Row = Row::part("mat.board_width", "width of the mat board", SIDE);
    pub static MAT_BOARD_HEIGHT: Row = Row::part("mat.board_height", "height of the mat board", SIDE);
    pub static MAT_WHOLE: Row = Row::new("mat.whole", "", 3, "size of the mat board", "", Form::Size { most: limits::PIECE, usual: Size::inches(16, 20), sides: Some([&MAT_BOARD_WIDTH, &MAT_BOARD_HEIGHT]) }).metric(&[(Length::inches(16), Length::mm(400)), (Length::inches(20), Length::mm(500))]);
    pub static MAT_WEIGHTING: Row = Row::new("mat.weighting", "", 5, "whether the bottom border of the mat of * is set by width or by ratio", "", Form::OneOf(Shape::ByKeys));
    pub static MAT_FOOT: Row = Row::length("mat.foot", "foot_extra", 6, "extra width of the mat border at the bottom", "By how much the bottom border is wider than the top one.", Length::ZERO).range(MINUS, limits::PIECE);
    pub static MAT_RATIO: Row = Row::new("mat.ratio", "foot_ratio", 6, "ratio of the bottom border of the mat to the top one", "Instead of that: parts at the top and at the bottom.", RATIO);

    pub static PAPER_EXTENT: Row = Row::new("paper.extent", "", 1, "whether the paper of * is sized by its border or by its sheet", "", Form::OneOf(Shape::ByKeys));
    pub static PAPER_BORDER: Row = Row::length("paper.border", "border", 2, "width of the white paper border", "White paper on each side of the image; at the bottom it can be wider.", Length::ZERO).metric(&[(Length::inches(1), Length::mm(25))]);
    pub static PAPER_WHOLE: Row = Row::new("paper.whole", "sheet", 3, "size of the sheet of paper", "Width and height of the sheet, instead of `border`: the borders are what is left over.", WHOLE).metric(&[(Length::inches(16), Length::mm(400)), (Length::inches(20), Length::mm(500))]);
    pub static PAPER_WEIGHTING: Row = Row::new("paper.weighting", "", 5, "whether the bottom border of the paper of * is set by width or by ratio", "", Form::OneOf(Shape::ByKeys));
    pub static PAPER_FOOT: Row = Row::length("paper.foot", "foot_extra", 6, "extra width of the paper border at the bottom", "By how much the bottom border is wider than the top one.", Length::ZERO).range(MINUS, limits::PIECE);
    pub static PAPER_RATIO: Row = Row::new("paper.ratio", "foot_ratio", 6, "ratio of the bottom border of the paper to the top one", "Instead of that: parts at the top and at the bottom.", RATIO);

    const SIDE: Form = Form::Length { grade: Grade::Piece, least: Length::from_units(1), most: limits::PIECE, usual: Length::ZERO, frozen: Length::ZERO };

    pub(super) static MAT_ROWS: SurroundRows = SurroundRows { extent: &MAT_EXTENT, border: &MAT_BORDER, whole: &MAT_WHOLE, weighting: &MAT_WEIGHTING, foot: &MAT_FOOT, ratio: &MAT_RATIO };
    pub(in crate::plan) static PAPER_ROWS: SurroundRows = SurroundRows { extent: &PAPER_EXTENT, border: &PAPER_BORDER, whole: &PAPER_WHOLE, weighting: &PAPER_WEIGHTING, foot: &PAPER_FOOT, ratio: &PAPER_RATIO };
    pub(super) static MOUNT_ROWS: BoardRows = BoardRows { thickness: &MOUNT_THICKNESS, variants: &super::MOUNTS };
    pub(super) static BACKING_ROWS: BoardRows = BoardRows { thickness: &BACKING_THICKNESS, variants: &super::BACKINGS };
}
pub use rows::*;

impl Thing for Framing {
    fn title(&self) -> (&'static str, &'static str) {
        ("Framing", "Mat, frame and what goes with them, as for a print on paper.")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { frame, glazing, coating, spacer, mat, mount, backing } = self;
        let board = |row, board, rows| Member::one_of(row, BoardOf { board, rows });
        vec![
            maybe(&MAT, mat),
            maybe(&FRAME, frame),
            Member::one_of(&GLAZING, glazing),
            Member::choice(&GLAZING_COATING, coating),
            Member::of(&SPACER, spacer),
            board(&MOUNT, mount, &MOUNT_ROWS),
            board(&BACKING, backing, &BACKING_ROWS),
        ]
    }

    /// Files from before boards were stated have the usual ones in their frames.
    fn stated(&mut self, row: &'static Row, in_link: bool) {
        if *row == FRAME && !in_link && self.frame.is_some() {
            [self.mount, self.backing] = Self::BOARDS;
        }
    }

    fn started(&mut self) {
        [self.mount, self.backing] = Self::BOARDS;
    }

    fn is_usual(&self) -> bool {
        *self == Self::NONE
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

impl Default for Glazing {
    fn default() -> Self {
        Self::Glass(Length::ZERO)
    }
}

static GLAZINGS: Variants = Variants {
    name: "Glazing",
    about: "",
    entries: &[
        Entry::new("none", 0, "no glazing"),
        Entry::new("glass", 1, "glass").about("Glass of this thickness."),
        Entry::new("acrylic", 2, "acrylic").about("Acrylic of this thickness."),
    ],
};

impl OneOf for Glazing {
    fn variants(&self) -> &'static Variants {
        &GLAZINGS
    }

    fn place(&self) -> usize {
        match self {
            Self::None => 0,
            Self::Glass(_) => 1,
            Self::Acrylic(_) => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        let thickness = match *self {
            Self::None => Length::mm(2),
            Self::Glass(thickness) | Self::Acrylic(thickness) => thickness,
        };
        *self = [Self::None, Self::Glass(thickness), Self::Acrylic(thickness)][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        match self {
            Self::None => Vec::new(),
            Self::Glass(thickness) | Self::Acrylic(thickness) => {
                vec![Member::of(&GLAZING_THICKNESS, thickness)]
            }
        }
    }
}

/// What glazing is treated with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Coating {
    /// Nothing.
    #[default]
    Plain,
    /// A filter that blocks about 97 to 99 % of ultraviolet (from memory).
    Uv,
    /// A coating that reflects less than 1 % (from memory), where plain glass reflects 8.
    AntiReflective,
    /// Both.
    UvAntiReflective,
}

impl Choosable for Coating {
    const NAME: &'static str = "Coating";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Plain, Entry::new("plain", 0, "plain")),
        (Self::Uv, Entry::new("uv", 1, "with a UV filter")),
        (Self::AntiReflective, Entry::new("anti_reflective", 2, "anti-reflective")),
        (Self::UvAntiReflective, Entry::new("uv_anti_reflective", 3, "anti-reflective with a UV filter")),
    ];
}

impl Coating {
    /// Whether a window or a lamp is hardly seen in it.
    #[must_use]
    pub const fn is_anti_reflective(self) -> bool {
        matches!(self, Self::AntiReflective | Self::UvAntiReflective)
    }

    /// The same without reflections.
    #[must_use]
    pub const fn without_reflections(self) -> Self {
        match self {
            Self::Plain | Self::AntiReflective => Self::AntiReflective,
            Self::Uv | Self::UvAntiReflective => Self::UvAntiReflective,
        }
    }
}

/// A board of some material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Board {
    /// What it is made of.
    pub material: Material,
    /// How thick it is.
    pub thickness: Length,
}

/// What differs between a mount board and a backing.
pub(super) struct BoardRows {
    thickness: &'static Row,
    variants: &'static Variants,
}

/// No board, or one of each material.
const fn boards(none: &'static str) -> [Entry; 7] {
    [
        Entry::new("none", 0, none),
        Material::MatBoard.listed(),
        Material::FoamBoard.listed(),
        Material::FlutedBoard.listed(),
        Material::Hardboard.listed(),
        Material::Mdf.listed(),
        Material::AluminiumComposite.listed(),
    ]
}

const ABOUT_BOARDS: &str = "A board by its material and thickness, or none.";
static MOUNTS: Variants = Variants { name: "Board", about: ABOUT_BOARDS, entries: &boards("no mount board") };
static BACKINGS: Variants = Variants { name: "Board", about: ABOUT_BOARDS, entries: &boards("no backing") };

/// A mount board or a backing: none, or one of a material.
struct BoardOf<'a> {
    board: &'a mut Option<Board>,
    rows: &'static BoardRows,
}

impl OneOf for BoardOf<'_> {
    fn variants(&self) -> &'static Variants {
        self.rows.variants
    }

    fn place(&self) -> usize {
        let key = self.board.as_ref().map_or("none", |board| board.material.listed().key);
        self.variants().entries.iter().position(|entry| entry.key == key).unwrap_or(0)
    }

    fn turn(&mut self, place: usize) {
        let usual = match self.rows.thickness.form {
            Form::Length { usual, .. } => usual,
            _ => Length::ZERO,
        };
        let thickness = self.board.as_ref().map_or(usual, |board| board.thickness);
        let key = self.variants().entries[place].key;
        *self.board = super::BOARD_MATERIALS
            .into_iter()
            .find(|material| material.listed().key == key)
            .map(|material| Board { material, thickness });
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let thickness = self.board.as_mut().map(|board| &mut board.thickness);
        thickness.map(|thickness| Member::of(self.rows.thickness, thickness)).into_iter().collect()
    }
}

/// A window mat.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mat {
    /// How the opening follows from the picture.
    pub opening: OpeningRule,
    /// The board round the opening.
    pub surround: Surround,
    /// How much of a bottom mat shows on each side; `None` for a single mat.
    pub inner_reveal: Option<Length>,
    /// Thickness of the board, which is also the width of its bevel seen from the front (45°).
    pub thickness: Length,
    /// Colour of its face.
    pub colour: Colour,
    /// Colour of the bottom mat's face, where there are two; the same board when `None`.
    pub inner_colour: Option<Colour>,
}

impl Thing for Mat {
    fn title(&self) -> (&'static str, &'static str) {
        ("Mat", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { opening, surround, inner_reveal, thickness, colour, inner_colour } = self;
        let face = *colour;
        vec![
            Member::one_of(&MAT_OPENING, opening),
            Member::thing(&MAT_SURROUND, SurroundOf { surround, rows: &MAT_ROWS }),
            maybe_filled(&MAT_DOUBLE, inner_reveal, &MAT_INNER, Length::inches_ratio(1, 4)),
            Member::of(&MAT_THICKNESS, thickness),
            Member::of(&MAT_COLOUR, colour),
            maybe_filled(&MAT_INNER_COLOUR, inner_colour, &MAT_INNER_COLOUR_ITSELF, face),
        ]
    }

    fn frozen(&mut self) {
        self.opening = OpeningRule::Overlap(Length::inches_ratio(1, 8));
        self.surround = Surround::even(Length::inches_ratio(17, 8));
    }
}

/// How the mat's opening follows from the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningRule {
    /// The mat covers this much of the sheet on each side: opening = sheet - 2 × overlap.
    Overlap(Length),
    /// This much of the white border shows round the whole image: opening = image + 2 × reveal.
    Reveal(Length),
    /// The sheet floats free, with this gap on each side: opening = sheet + 2 × gap.
    Float(Length),
}

impl Default for OpeningRule {
    fn default() -> Self {
        Self::Overlap(Length::ZERO)
    }
}

static OPENINGS: Variants = Variants {
    name: "Opening",
    about: "",
    entries: &[
        Entry::new("overlap", 0, "covering the sheet by")
            .about("The mat covers this much of the sheet on each side."),
        Entry::new("reveal", 1, "showing its white border by")
            .about("This much white border shows round the image."),
        Entry::new("float", 2, "floating it with a gap of")
            .about("The sheet floats with this gap on each side."),
    ],
};

impl OneOf for OpeningRule {
    fn variants(&self) -> &'static Variants {
        &OPENINGS
    }

    fn place(&self) -> usize {
        match self {
            Self::Overlap(_) => 0,
            Self::Reveal(_) => 1,
            Self::Float(_) => 2,
        }
    }

    fn turn(&mut self, place: usize) {
        *self = [
            Self::Overlap(Length::inches_ratio(1, 8)),
            Self::Reveal(Length::inches_ratio(1, 4)),
            Self::Float(Length::inches_ratio(1, 2)),
        ][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let (Self::Overlap(by) | Self::Reveal(by) | Self::Float(by)) = self;
        vec![Member::of(&MAT_BY, by)]
    }
}

/// What is left round something: paper round an image, board round an opening.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Surround {
    /// How it is stated.
    pub extent: Extent,
    /// How the bottom compares with the top.
    pub weighting: Weighting,
}

/// How a surround is stated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// This much on the left, at the top and on the right; the bottom follows from the weighting.
    Border(Length),
    /// The whole is of this size; the borders are what is left over.
    Whole(Size),
}

impl Default for Extent {
    fn default() -> Self {
        Self::Border(Length::ZERO)
    }
}

/// How the border at the bottom compares with the one at the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weighting {
    /// Wider by this much (narrower when negative).
    Extra(Length),
    /// In this ratio, such as 3 at the top to 4 at the bottom; neither is zero.
    Ratio {
        /// Parts at the top.
        head: u16,
        /// Parts at the bottom.
        foot: u16,
    },
}

impl Default for Weighting {
    fn default() -> Self {
        Self::EVEN
    }
}

impl Weighting {
    /// Top and bottom alike.
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

/// The rows of a surround: of paper, or of a mat.
pub(super) struct SurroundRows {
    extent: &'static Row,
    border: &'static Row,
    whole: &'static Row,
    weighting: &'static Row,
    foot: &'static Row,
    ratio: &'static Row,
}

/// A surround with its rows.
pub(super) struct SurroundOf<'a> {
    pub(super) surround: &'a mut Surround,
    pub(super) rows: &'static SurroundRows,
}

impl Thing for SurroundOf<'_> {
    fn title(&self) -> (&'static str, &'static str) {
        ("", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Surround { extent, weighting } = &mut *self.surround;
        let rows = self.rows;
        vec![
            Member::one_of(rows.extent, ExtentOf { extent, rows }),
            Member::one_of(rows.weighting, WeightingOf { weighting, rows }),
        ]
    }
}

struct ExtentOf<'a> {
    extent: &'a mut Extent,
    rows: &'static SurroundRows,
}

/// The key of stating a surround by its border.
pub const BY_BORDER: &str = "border";
/// The key of a bottom that is wider by an amount.
pub const BY_EXTRA: &str = "foot_extra";

static PAPERS: Variants = Variants {
    name: "",
    about: "",
    entries: &[
        Entry::new(BY_BORDER, 0, "a white border of"),
        Entry::new("sheet", 1, "what is left of a sheet of"),
    ],
};
static BOARDS: Variants = Variants {
    name: "Extent",
    about: "",
    entries: &[
        Entry::new(BY_BORDER, 0, "with a border of").about("This much board on each side of the opening."),
        Entry::new("board", 1, "on a board of").about("A board of this width and height."),
    ],
};

impl OneOf for ExtentOf<'_> {
    fn variants(&self) -> &'static Variants {
        if *self.rows.extent == PAPER_EXTENT { &PAPERS } else { &BOARDS }
    }

    fn place(&self) -> usize {
        usize::from(matches!(self.extent, Extent::Whole(_)))
    }

    fn turn(&mut self, place: usize) {
        *self.extent = [Extent::Border(Length::ZERO), Extent::Whole(Size::inches(16, 20))][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![match self.extent {
            Extent::Border(border) => Member::of(self.rows.border, border),
            Extent::Whole(whole) => Member::of(self.rows.whole, whole),
        }]
    }
}

struct WeightingOf<'a> {
    weighting: &'a mut Weighting,
    rows: &'static SurroundRows,
}

static WEIGHTINGS: Variants = Variants {
    name: "",
    about: "",
    entries: &[
        Entry::new(BY_EXTRA, 0, "wider at the bottom by"),
        Entry::new("foot_ratio", 1, "bottom to top in the ratio"),
    ],
};

impl OneOf for WeightingOf<'_> {
    fn variants(&self) -> &'static Variants {
        &WEIGHTINGS
    }

    fn place(&self) -> usize {
        usize::from(matches!(self.weighting, Weighting::Ratio { .. }))
    }

    fn turn(&mut self, place: usize) {
        *self.weighting = [Weighting::EVEN, Weighting::Ratio { head: 3, foot: 4 }][place];
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        vec![match self.weighting {
            Weighting::Extra(extra) => Member::of(self.rows.foot, extra),
            Weighting::Ratio { head, foot } => Member { row: self.rows.ratio, slot: Slot::Pair(head, foot) },
        }]
    }
}
