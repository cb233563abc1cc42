//! Why a task of the command line can't be done.

use crate::files::Kind;
use overmantel::figures::NoAnswer;
use overmantel::link::LinkError;
use overmantel::mend::MendError;
use overmantel::papers::PaperError;
use overmantel::photograph::room::RoomError;
use overmantel::picture_file::PictureFileError;
use overmantel::plan::file::FileError;
use overmantel::prices::file::BookError;
use overmantel::prices::{Missing, NotWaiting, Price};
use overmantel::print_file::PrintFileError;
use overmantel::proposal::ProposalError;
use overmantel::quoted::short;
use overmantel::report::SuggestionsError;
use overmantel::stock::file::StockError;
use overmantel::suggest::wishes::WishError;
use overmantel::suggest::{FirstError, Lean, SuggestError};
use overmantel::works::ListError;
use overmantel::works::suited::SuitedError;
use std::error::Error;
use std::io;
use std::path::{Path, PathBuf};

pub(crate) mod pictures;
pub(crate) mod print_file;

use pictures::ReadError;
use print_file::MakeError;

/// What a library says of a file that it can't read or write.
pub(crate) type Cause = Box<dyn Error + Send + Sync>;

/// Why a task of the command line can't be done.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// A file can't be opened.
    #[error("{path} can't be opened: {why}")]
    Open { path: PathBuf, why: io::Error },
    /// A file or a folder can't be read.
    #[error("{path} can't be read: {why}")]
    Read { path: PathBuf, why: io::Error },
    /// A file is not the text that it should be.
    #[error("{path} can't be read: it is not UTF-8 text")]
    NoText { path: PathBuf },
    /// A file is longer than its kind may be.
    #[error("{path} has more than {most} bytes, and {what} may have at most that many; use a smaller file")]
    Long { path: PathBuf, most: usize, what: &'static str },
    /// A drawing would have more pixels than one may have.
    #[error(
        "the drawing would have {width} × {height} pixels, and at most 144 million in all are allowed; give a smaller --width or --height"
    )]
    Drawing { width: u32, height: u32 },
    /// Standard input can't be read.
    #[error("standard input can't be read: {0}")]
    Input(io::Error),
    /// A file can't be written.
    #[error("{path} can't be written: {why}")]
    Write { path: PathBuf, why: Cause },
    /// The file already exists.
    #[error("{0} already exists and was left as it is; give another name, or use --force to overwrite it")]
    Exists(PathBuf),
    /// A file of this name is not what is written.
    #[error("{path} can't be written: the output is {}, so use a name that ends in {}", kind.words, kind.allowed())]
    Ending { path: PathBuf, kind: Kind },
    /// A file was read and would be written over.
    #[error("{0} is the input and is never overwritten; give another name")]
    Own(PathBuf),
    /// A symbolic link stands where a file is to be written.
    #[error(
        "{0} is a symbolic link, and the program does not write through links; give the name of the file itself, or another name"
    )]
    Symlink(PathBuf),
    /// Something else than a file stands where one is to be written.
    #[error("{0} is a folder or a device, not a file; give the name of a file, or - for standard output")]
    NoFile(PathBuf),
    /// Several files can't go to standard output.
    #[error("several files can't go to standard output; give a folder")]
    FolderWanted,
    /// As that, where one can be asked for.
    #[error(
        "several files can't go to standard output; give a folder with --out, or ask for one file of one plan with --sheet or --piece"
    )]
    OneWanted,
    /// Two plans of one name.
    #[error(
        "{one} and {other} are both called {stem}, so what is made of them would have the same names; rename one, or write them to separate folders"
    )]
    SameName { one: PathBuf, other: PathBuf, stem: String },
    /// Some of several plans failed; each was told of.
    #[error("{failed} of {of} plans failed; {made} written")]
    Some { failed: usize, of: usize, made: String },
    /// A pattern of names is none.
    #[error(
        "\"{}\" is not a pattern of file names: {why}; write * for any letters and ? for one",
        short(pattern)
    )]
    Pattern { pattern: String, why: &'static str },
    /// A pattern of names matches nothing.
    #[error("no file matches \"{}\"; check the folder and the ending, such as plans/*.json", short(_0))]
    NoMatch(String),
    /// Two files would be read from standard input.
    #[error("two files can't both come from standard input; write - for one of them only")]
    InputTwice,
    /// A picture has other pixels than the plan counts on.
    #[error(transparent)]
    OtherPicture(#[from] OtherPicture),
    /// A folder can't be made.
    #[error("the folder {path} can't be made: {why}")]
    Folder { path: PathBuf, why: io::Error },
    /// Standard output takes nothing.
    #[error("the output could not be written: {0}")]
    Output(io::Error),
    /// What was found can't be written as JSON.
    #[error("the output could not be written as JSON: {0}")]
    Json(#[from] serde_json::Error),
    /// What a file says can't be taken.
    #[error("{path}: {why}")]
    In { path: PathBuf, why: Box<InFile> },
    /// The plan has no piece of this number.
    #[error("there is no piece {number}; the plan has {pieces} pieces")]
    NoPiece { number: u8, pieces: usize },
    /// A part of what was given is not what it should be.
    #[error("\"{}\": {why}", short(text))]
    Given { text: String, why: String },
    #[error(transparent)]
    Room(#[from] RoomError),
    #[error(transparent)]
    NoAnswer(#[from] NoAnswer),
    #[error(transparent)]
    Mend(#[from] MendError),
    #[error(transparent)]
    First(#[from] FirstPlanError),
    #[error(transparent)]
    FirstPlan(#[from] FirstError),
    #[error(transparent)]
    Remedy(#[from] RemedyError),
    #[error(transparent)]
    Suggest(#[from] SuggestError),
    #[error(transparent)]
    Wish(#[from] WishError),
    #[error(transparent)]
    Choice(#[from] ChoiceError),
    #[error(transparent)]
    Report(#[from] SuggestionsError),
    #[error(transparent)]
    Link(#[from] LinkError),
    #[error(transparent)]
    Paper(#[from] PaperError),
    #[error(transparent)]
    Table(#[from] TableError),
    #[error(transparent)]
    Picture(#[from] PictureError),
    #[error(transparent)]
    ReadRows(#[from] ReadError),
    #[error(transparent)]
    Make(#[from] MakeError),
    #[error(transparent)]
    Unpriced(#[from] UnpricedError),
    #[error(transparent)]
    Length(#[from] crate::works::NoLength),
}

/// Why a proposal has no total.
#[derive(Debug, thiserror::Error)]
#[error(
    "the price book does not have a price for everything in the plan, so no proposal was written; add the rows, or use --without-prices\n  {missing}"
)]
pub(crate) struct UnpricedError {
    /// What is missing, with the row to add, a line each.
    pub(crate) missing: String,
}

impl UnpricedError {
    /// What a price lacks.
    pub(crate) fn of(price: &Price) -> Self {
        let missing: Vec<String> = price.missing.iter().map(Missing::text).collect();
        Self { missing: missing.join("\n  ") }
    }
}

/// Why what a file says can't be taken.
#[derive(Debug, thiserror::Error)]
#[error(transparent)]
pub(crate) enum InFile {
    Plan(#[from] FileError),
    Stock(#[from] StockError),
    Book(#[from] BookError),
    NotWaiting(#[from] NotWaiting),
    NoAnswer(#[from] NoAnswer),
    Paper(#[from] PaperError),
    Page(#[from] ProposalError),
    Works(#[from] ListError),
    Suited(#[from] SuitedError),
}

/// Why no first plan can be made of picture files.
#[derive(Debug, thiserror::Error)]
pub(crate) enum FirstPlanError {
    /// A file is no picture.
    #[error(transparent)]
    Picture(#[from] PictureFileError),
    /// Two files have one name.
    #[error(
        "two pictures have the file name {0}, and a plan finds pictures by file name; rename one of them, or give it once and change the plan"
    )]
    Twice(String),
}

/// Why a remedy that was asked for can't be told from the others, or is none.
#[derive(Debug, thiserror::Error)]
pub(crate) enum RemedyError {
    /// What follows the code is no number.
    #[error("\"{}\" does not end in the number of a remedy; write a number from 1", short(_0))]
    Number(String),
    /// The plan has no such finding.
    #[error("the plan has no finding \"{}\"; leave out --mend to see its findings", short(_0))]
    NoFinding(String),
    /// The finding has fewer remedies.
    #[error("the finding \"{code}\" has {count} remedies; choose another number, or change the plan by hand")]
    NoRemedy { code: String, count: usize },
    /// Several findings have the code.
    #[error("{count} findings are called \"{code}\"; give the name of the remedy, such as {names}")]
    Several { code: String, count: usize, names: String },
}

/// Why what was asked of suggestions can't be done.
#[derive(Debug, thiserror::Error)]
pub(crate) enum ChoiceError {
    /// There are not so many suggestions.
    #[error("there is no suggestion {number}; choose one from 1 to {count}")]
    NoSuggestion { number: usize, count: usize },
    /// The text is not a valid lean.
    #[error(
        "\"{}\" is not a value for --lean; write price, size, sharpness or off-the-shelf, then = and a percentage from 0 to {most}, such as price=200",
        short(_0), most = Lean::MOST
    )]
    NoLean(String),
}

/// Why a folder can't become a studio's page.
#[derive(Debug, thiserror::Error)]
pub(crate) enum TableError {
    /// The table is no CSV.
    #[error("pictures.csv can't be read: {0}")]
    NoTable(#[from] csv::Error),
    /// A line of the table has no title.
    #[error("pictures.csv has the line \"{}\"; write the file's name, a comma and the title", short(_0))]
    NoTitle(String),
    /// The table names a picture that is not in the folder.
    #[error("pictures.csv names {}, and that picture is not in the folder", short(_0))]
    NoPicture(String),
    /// No plan can be made of the pictures.
    #[error("{folder} (JPEG, PNG or WebP): {why}")]
    Folder { folder: PathBuf, why: Box<ProposalError> },
}

/// Why a picture that was found is not the one that the plan counts on.
#[derive(Debug, thiserror::Error)]
pub(crate) enum OtherPicture {
    /// It has another shape.
    #[error(transparent)]
    Shape(PrintFileError),
    /// It has fewer pixels.
    #[error(
        "{0}, or use it with --smaller: the pixels that are kept, and sizes in pixels, stay those of the plan"
    )]
    Smaller(PrintFileError),
    /// It has more pixels.
    #[error(
        "{file} has {} × {} pixels, and the plan expects {} × {}; write its pixels in the plan, or use the picture that the plan was made with",
        found.0, found.1, stated.0, stated.1
    )]
    Larger { file: String, stated: (u32, u32), found: (u32, u32) },
}

/// Why a picture can't be made.
#[derive(Debug, thiserror::Error)]
pub(crate) enum PictureError {
    /// It can't be coded as a JPEG.
    #[error("a picture can't be encoded: {0}")]
    Unencoded(#[from] image::ImageError),
    /// What is to be drawn takes more memory than there is.
    #[error("there is not enough memory for that many pixels; give a smaller --width")]
    NoRoom,
}

/// Names the file that an error is about.
pub(crate) fn in_file<E: Into<InFile>>(path: &Path) -> impl FnOnce(E) -> Failure {
    move |why| Failure::In { path: path.to_owned(), why: Box::new(why.into()) }
}
