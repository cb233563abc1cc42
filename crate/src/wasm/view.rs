//! The plain structs that cross the boundary. The page's TypeScript is generated from them.

use crate::draw::{Sheet, Theme, View as Seen};
use crate::field::Field;
use crate::findings::{Finding, Remedy, Severity};
use crate::spec::lists::{List, ListRow};
use crate::text::typeset;
use serde::{Deserialize, Serialize};
use tsify::Tsify;

/// What a field says.
#[derive(Serialize, Tsify)]
pub struct FieldView {
    /// Its name.
    pub field: String,
    /// `length`, `size`, `number`, `ratio`, `choice`, `colour` or `name`.
    #[tsify(type = "'length' | 'size' | 'number' | 'ratio' | 'choice' | 'colour' | 'name'")]
    pub kind: &'static str,
    /// Plain text, to edit.
    pub text: String,
    /// Typeset, to show.
    pub shown: String,
    /// In the other system of units, for lengths and sizes.
    pub other: Option<String>,
    /// The key of the option that holds, of those that may be chosen.
    pub key: Option<String>,
    /// What may be chosen.
    pub options: Vec<OptionView>,
    /// Whether what may be chosen is drawn.
    pub drawn: bool,
    /// What it is.
    pub label: String,
    /// Whether the text is rounded.
    pub rounded: bool,
}

/// Something that may be chosen.
#[derive(Serialize, Tsify)]
pub struct OptionView {
    /// What the field is given to choose it.
    pub key: String,
    /// What it is called.
    pub words: String,
}

/// A part of a sentence: words, a figure or a field.
#[derive(Serialize, Tsify)]
#[serde(tag = "run", rename_all = "lowercase")]
pub enum RunView {
    /// Words, typeset.
    Text {
        /// The words.
        text: String,
    },
    /// A figure that follows.
    Figure {
        /// Typeset.
        shown: String,
        /// Plain.
        text: String,
        /// Whether it is rounded.
        rounded: bool,
    },
    /// A field.
    Field(FieldView),
    /// A term, where it first stands.
    Term {
        /// The words.
        words: String,
        /// What it is told by.
        term: &'static str,
        /// What it means, in a sentence.
        meaning: &'static str,
    },
    /// Words that write to a field when they are pressed.
    Offer {
        /// Typeset.
        shown: String,
        /// The field.
        field: String,
        /// What is written.
        text: String,
    },
}

/// Something unwise.
#[derive(Serialize, Tsify)]
pub struct FindingView {
    /// Its stable name.
    pub code: &'static str,
    /// The reason, typeset.
    pub sentence: String,
    /// How much it matters: a greater number, the more.
    pub weight: u32,
    /// The same in words.
    pub severity: &'static str,
    /// On what it rests.
    pub authority: &'static str,
    /// What would mend it.
    pub remedies: Vec<RemedyView>,
}

/// Words that mend a finding when they are pressed.
#[derive(Serialize, Tsify)]
pub struct RemedyView {
    /// By what it is told from every other remedy of the plan.
    pub id: String,
    /// Typeset.
    pub shown: String,
}

impl FindingView {
    pub(super) fn of(finding: Finding) -> Self {
        let remedy = |remedy: Remedy| RemedyView { id: remedy.id, shown: typeset(&remedy.words) };
        Self {
            code: finding.code,
            sentence: typeset(&finding.sentence),
            weight: Severity::ALL
                .iter()
                .position(|of| *of == finding.severity)
                .map_or(0, |at| u32::try_from(at).unwrap_or(0)),
            severity: finding.severity.words(),
            authority: finding.authority.words(),
            remedies: finding.remedies.into_iter().map(remedy).collect(),
        }
    }
}

/// Sentences under a heading.
#[derive(Serialize, Tsify)]
pub struct ParagraphView {
    /// A stable name.
    pub about: &'static str,
    /// The heading.
    pub heading: &'static str,
    /// Its sentences.
    pub runs: Vec<RunView>,
    /// What is unwise in it.
    pub findings: Vec<FindingView>,
    /// What it says, in a line, typeset.
    pub line: String,
}

/// A sentence or two of the specification in short.
#[derive(Serialize, Tsify)]
pub struct ShortView {
    /// A stable name.
    pub about: &'static str,
    /// Its sentences.
    pub runs: Vec<RunView>,
}

/// One size of a piece.
#[derive(Serialize, Tsify)]
pub struct RowView {
    /// What it is called.
    pub term: String,
    /// In inches, typeset.
    pub inches: String,
    /// In centimetres, typeset.
    pub centimetres: String,
    /// What the term means.
    pub meaning: String,
    /// Whether the figure in inches is rounded.
    pub inches_rounded: bool,
    /// Whether the figure in centimetres is rounded.
    pub centimetres_rounded: bool,
}

/// A table of texts, typeset.
#[derive(Serialize, Tsify)]
pub struct ListView {
    /// What it is about.
    pub caption: String,
    /// What stands in each column.
    pub columns: Vec<&'static str>,
    /// Its rows.
    pub rows: Vec<ListRowView>,
    /// What is said below it.
    pub notes: Vec<String>,
    /// What is to be read or copied letter by letter, below that.
    pub as_written: Vec<String>,
}

/// A row of a table.
#[derive(Serialize, Tsify)]
pub struct ListRowView {
    /// One text for each column; the first names the row.
    pub cells: Vec<String>,
    /// What takes the row into the plan: a field, and what to write to it.
    pub offer: Option<[String; 2]>,
}

impl ListView {
    pub(super) fn of(list: List) -> Self {
        let row = |row: ListRow| ListRowView {
            cells: row.cells.iter().map(|cell| typeset(cell)).collect(),
            offer: row.offer.map(|(field, text)| [field.to_string(), text]),
        };
        Self {
            caption: typeset(&list.caption),
            columns: list.columns,
            rows: list.rows.into_iter().map(row).collect(),
            notes: list.notes.iter().map(|note| typeset(note)).collect(),
            as_written: list.as_written,
        }
    }
}

/// Everything the page shows besides the drawing.
#[derive(Serialize, Tsify)]
pub struct View {
    /// The plan's title.
    pub title: String,
    /// `inches` or `centimetres`: the first system.
    #[tsify(type = "'inches' | 'centimetres'")]
    pub units: &'static str,
    /// Whether both systems are shown.
    pub both: bool,
    /// Whether there is something to undo.
    pub can_undo: bool,
    /// Whether there is something to redo.
    pub can_redo: bool,
    /// How many pieces there are.
    pub pieces: u32,
    /// The specification in short.
    pub short: Vec<ShortView>,
    /// What comes of it, in a line.
    pub result: Vec<RunView>,
    /// The specification.
    pub paragraphs: Vec<ParagraphView>,
    /// The sizes of the chosen piece.
    pub table: Vec<RowView>,
    /// The drawing in words.
    pub in_words: String,
    /// Cautions.
    pub caution: &'static str,
}

/// The outcome of a change.
#[derive(Serialize, Tsify)]
pub struct Outcome {
    /// Why not, in a plain sentence; none when it was done.
    pub error: Option<String>,
    /// The offending characters of the text, as a range of UTF-16 code units.
    pub span: Option<[u32; 2]>,
}

impl Outcome {
    pub(super) fn of<E: std::fmt::Display>(result: Result<(), E>) -> Self {
        Self { error: result.err().map(|why| why.to_string()), span: None }
    }
}

/// What to draw on, in device pixels.
#[derive(Deserialize, Tsify)]
pub struct SheetOptions {
    /// Width in device pixels.
    pub width_px: u32,
    /// Height in device pixels.
    pub height_px: u32,
    /// Device pixels to one CSS pixel.
    pub pixel_ratio: f32,
    /// A dark sheet.
    pub dark: bool,
    /// The room from the viewer's place, instead of the wall flat, to scale.
    pub oblique: bool,
    /// Without lines.
    pub clean: bool,
    /// The field that is chosen.
    pub chosen: Option<String>,
}

impl SheetOptions {
    pub(super) fn sheet(self) -> Sheet {
        Sheet {
            pixel_ratio: if self.pixel_ratio.is_finite() { self.pixel_ratio.clamp(0.25, 8.0) } else { 1.0 },
            theme: if self.dark { Theme::DARK } else { Theme::LIGHT },
            chosen: self.chosen.as_deref().and_then(Field::named),
            lines: !self.clean,
            view: if self.oblique { Seen::Oblique } else { Seen::Elevation },
            ..Sheet::new(self.width_px, self.height_px)
        }
    }
}

/// A plan to begin with.
#[derive(Serialize, Tsify)]
pub struct StartView {
    /// A stable name: what is written to `offer.start`.
    pub code: &'static str,
    /// What it is, in plain words.
    pub words: &'static str,
    /// The field that is likely to be stated next.
    pub next: String,
    /// Why it can't be taken now.
    pub error: Option<String>,
}

/// A plan that may stand beside the one at work.
#[derive(Serialize, Tsify)]
pub struct BesideView {
    /// What it is told by.
    pub key: &'static str,
    /// What it is called.
    pub words: &'static str,
    /// The plan, as a file.
    pub plan: String,
    /// Whether it is what the plan was, and not what it could become.
    pub is_before: bool,
}

/// What two plans say of one thing, typeset.
#[derive(Serialize, Tsify)]
pub struct SummaryRowView {
    /// What it is about.
    pub label: &'static str,
    /// What the one says.
    pub one: String,
    /// What the other says.
    pub other: String,
    /// Whether that is the same.
    pub is_same: bool,
}

/// Two plans in a few lines.
#[derive(Serialize, Tsify)]
pub struct SummaryView {
    /// What they say.
    pub rows: Vec<SummaryRowView>,
    /// What became of the one in the other.
    pub changes: Vec<String>,
}

/// A plan that is suggested.
#[derive(Serialize, Tsify)]
pub struct SuggestionView {
    /// What it is, in short, typeset.
    pub words: String,
    /// Why, typeset.
    pub why: String,
    /// What stands against it and could not be had otherwise, typeset.
    pub cautions: Vec<String>,
    /// Whether it is the plan at work.
    pub holds: bool,
}

/// What is suggested.
#[derive(Serialize, Tsify)]
pub struct SuggestedView {
    /// Why nothing can be.
    pub error: Option<String>,
    /// The best first.
    pub suggestions: Vec<SuggestionView>,
    /// What is to be said of them.
    pub said: String,
}

/// A place on the drawing in CSS pixels, from its upper left corner.
#[derive(Serialize, Tsify)]
pub struct PlaceView {
    pub x: f32,
    pub y: f32,
    pub width: f32,
    pub height: f32,
}

/// A figure on the drawing that is a field.
#[derive(Serialize, Tsify)]
pub struct MarkView {
    /// The field.
    pub value: FieldView,
    /// Where it stands.
    pub place: PlaceView,
}

/// A thing on the drawing that can be moved.
#[derive(Serialize, Tsify)]
pub struct HandleView {
    /// Its stable name.
    pub handle: String,
    /// `group`, `fixture`, `corner` or `picture`: what it takes hold of.
    #[tsify(type = "'group' | 'fixture' | 'corner' | 'picture'")]
    pub kind: &'static str,
    /// Of a corner: upper or lower, left or right.
    #[tsify(type = "'ul' | 'ur' | 'll' | 'lr' | undefined")]
    pub corner: Option<&'static str>,
    /// Of a corner or a picture: the piece it belongs to.
    pub piece: Option<u32>,
    /// Whether keys reach it: of four corners one is enough.
    pub by_keys: bool,
    /// What it is.
    pub label: String,
    /// Where it stands.
    pub place: PlaceView,
}

/// What lies on a finished drawing.
#[derive(Serialize, Tsify)]
pub struct DrawingView {
    /// The figures that are fields.
    pub marks: Vec<MarkView>,
    /// The things that can be moved.
    pub handles: Vec<HandleView>,
}

/// A picture file that was added.
#[derive(Deserialize, Tsify)]
pub struct PictureFile {
    /// The name of the file.
    pub file: String,
    /// Width in pixels, upright.
    pub width_px: u32,
    /// Height in pixels, upright.
    pub height_px: u32,
}

/// Picture files that were added.
#[derive(Deserialize, Tsify)]
pub struct PictureFiles {
    /// In the order in which they were chosen.
    pub files: Vec<PictureFile>,
    /// The piece that a single one is for.
    pub piece: Option<u32>,
}

/// Names of pictures that were added, or why not.
#[derive(Serialize, Tsify)]
pub struct Added {
    /// Why not.
    pub error: Option<String>,
    /// Their names in the plan.
    pub names: Vec<String>,
}

/// A picture of the plan whose pixels are not on the desk.
#[derive(Serialize, Tsify)]
pub struct WantedCopy {
    /// Its name in the plan.
    pub name: String,
    /// The name of its file.
    pub file: String,
    /// Width of the file in pixels.
    pub width_px: u32,
    /// Height of the file in pixels.
    pub height_px: u32,
}

/// A picture of the plan, and the copy of it that is on the desk.
#[derive(Serialize, Tsify)]
pub struct CopyView {
    /// Its name in the plan.
    pub name: String,
    /// The name of its file.
    pub file: String,
    /// Width of the file in pixels.
    pub width_px: u32,
    /// Height of the file in pixels.
    pub height_px: u32,
    /// Width of the copy; nothing where there is none.
    pub copy_width_px: u32,
    /// Height of the copy.
    pub copy_height_px: u32,
}

/// What a picture file is, from its first bytes: width and height as stored, before turning.
#[derive(Serialize, Tsify)]
pub struct Header {
    pub error: Option<String>,
    pub width_px: u32,
    pub height_px: u32,
}

/// A font face, as CSS names it.
#[derive(Serialize, Tsify)]
pub struct FontView {
    pub family: &'static str,
    pub weight: &'static str,
    pub style: &'static str,
}
