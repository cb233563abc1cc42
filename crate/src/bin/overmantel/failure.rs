//! Why a task of the command line can't be done.

use overmantel::figures::NoAnswer;
use overmantel::link::LinkError;
use overmantel::mend::MendError;
use overmantel::papers::PaperError;
use overmantel::picture_file::PictureFileError;
use overmantel::plan::file::FileError;
use overmantel::prices::NotWaiting;
use overmantel::prices::file::BookError;
use overmantel::proposal::ProposalError;
use overmantel::report::SuggestionsError;
use overmantel::stock::file::StockError;
use overmantel::suggest::wishes::WishError;
use overmantel::suggest::{FirstError, Lean, SuggestError};
use std::error::Error;
use std::io;
use std::path::{Path, PathBuf};

pub(crate) mod print_file;

use print_file::{MakeError, ReadError};

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
    #[error("{path} has more than {most} bytes, the most that {what} may have")]
    Long { path: PathBuf, most: usize, what: &'static str },
    /// Standard input can't be read.
    #[error("standard input can't be read: {0}")]
    Input(io::Error),
    /// A file can't be written.
    #[error("{path} can't be written: {why}")]
    Write { path: PathBuf, why: Cause },
    /// A file is there already.
    #[error("{0} is there already and is left as it is; give another name, or --force to write over it")]
    Exists(PathBuf),
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
    #[error("the plan has {pieces} pieces, so there is no piece {number}")]
    NoPiece { number: u8, pieces: usize },
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
}

/// Why a proposal has no total.
#[derive(Debug, thiserror::Error)]
#[error(
    "the price book has no price for all of the plan, so no proposal is written; add the rows, or say --without-prices\n  {missing}"
)]
pub(crate) struct UnpricedError {
    /// What is missing, with the row to add, a line each.
    pub(crate) missing: String,
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
}

/// Why no first plan can be made of picture files.
#[derive(Debug, thiserror::Error)]
pub(crate) enum FirstPlanError {
    /// A file is no picture.
    #[error(transparent)]
    Picture(#[from] PictureFileError),
    /// Two files have one name.
    #[error(
        "two pictures have the file name {0}, by which a plan finds them; rename one of them, or give it once and change the plan"
    )]
    Twice(String),
}

/// Why a remedy that was asked for can't be told from the others, or is none.
#[derive(Debug, thiserror::Error)]
pub(crate) enum RemedyError {
    /// What follows the code is no number.
    #[error("\"{0}\" ends in no number of a remedy; write one from 1")]
    Number(String),
    /// The plan has no such finding.
    #[error("the plan has no finding \"{0}\"; leave --mend out to see those that it has")]
    NoFinding(String),
    /// The finding has fewer remedies.
    #[error("the finding \"{code}\" has {count} remedies; choose another number, or change the plan by hand")]
    NoRemedy { code: String, count: usize },
    /// Several findings have the code.
    #[error(
        "{count} findings are called \"{code}\"; write which remedy is meant by its name, such as {names}"
    )]
    Several { code: String, count: usize, names: String },
}

/// Why what was asked of suggestions can't be done.
#[derive(Debug, thiserror::Error)]
pub(crate) enum ChoiceError {
    /// There are not so many suggestions.
    #[error("there is no suggestion {number}; there are {count}, counted from 1")]
    NoSuggestion { number: usize, count: usize },
    /// The text is no lean.
    #[error(
        "\"{0}\" is no lean; write price, size, sharpness or off-the-shelf, then = and percent from 0 to {most}, such as price=200",
        most = Lean::MOST
    )]
    NoLean(String),
}

/// Why a folder can't become a studio's page.
#[derive(Debug, thiserror::Error)]
pub(crate) enum TableError {
    /// A line of the table has no title.
    #[error("pictures.csv has the line \"{0}\"; write the file's name, a comma and the title")]
    NoTitle(String),
    /// The table names a picture that is not in the folder.
    #[error("pictures.csv names {0}, and the folder has no such picture")]
    NoPicture(String),
    /// No plan can be made of the pictures.
    #[error("{folder} (JPEG, PNG or WebP): {why}")]
    Folder { folder: PathBuf, why: Box<ProposalError> },
}

/// Why a picture can't be read or made.
#[derive(Debug, thiserror::Error)]
pub(crate) enum PictureError {
    /// It is no picture that is read here, or its file is damaged or can't be had.
    #[error("{path} can't be read as a picture: {why}")]
    Unreadable { path: PathBuf, why: Cause },
    /// It has no pixels.
    #[error("{0} can't be read as a picture: it is empty")]
    Empty(PathBuf),
    /// It can't be coded as a JPEG.
    #[error("a picture can't be encoded: {0}")]
    Unencoded(#[from] image::ImageError),
    /// What is to be drawn takes more memory than there is.
    #[error("there is no room for so many pixels; ask for a smaller --width")]
    NoRoom,
}

/// Names the file that an error is about.
pub(crate) fn in_file<E: Into<InFile>>(path: &Path) -> impl FnOnce(E) -> Failure {
    move |why| Failure::In { path: path.to_owned(), why: Box::new(why.into()) }
}

/// Writes a file whole.
///
/// # Errors
/// When it can't be written.
pub(crate) fn write_file(path: &Path, contents: impl AsRef<[u8]>) -> Result<(), Failure> {
    std::fs::write(path, contents).map_err(|why| Failure::Write { path: path.to_owned(), why: why.into() })
}

/// Makes a folder and those that it lies in.
///
/// # Errors
/// When it can't be made.
pub(crate) fn make_folder(path: &Path) -> Result<(), Failure> {
    std::fs::create_dir_all(path).map_err(|why| Failure::Folder { path: path.to_owned(), why })
}

/// Names the picture that can't be read.
pub(crate) fn unreadable<E: Into<Cause>>(path: &Path) -> impl FnOnce(E) -> PictureError {
    move |why| PictureError::Unreadable { path: path.to_owned(), why: why.into() }
}

/// Names the file that can't be written.
pub(crate) fn unwritable<E: Into<Cause>>(path: &Path) -> impl FnOnce(E) -> Failure {
    move |why| Failure::Write { path: path.to_owned(), why: why.into() }
}
