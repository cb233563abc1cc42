//! Files in and out. A file is written beside its place, under a name of its own, and takes its name when it is whole; so nothing is
//! ever half there. Never over another unless that is asked for, never over what was read, never through a symbolic link.

use crate::failure::{Cause, Failure, in_file};
use crate::say;
use overmantel::plan::Plan;
use overmantel::prices::Book;
use overmantel::stock::Stock;
use std::error::Error as _;
use std::ffi::OsStr;
use std::fs::{self, File};
use std::io::{self, BufWriter, ErrorKind, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};

/// Stands for standard input and output.
const DASH: &str = "-";

/// What a plan from standard input is called in messages.
const INPUT: &str = "standard input";

/// Whether a file has come from standard input, which has no second one.
static IS_INPUT_READ: AtomicBool = AtomicBool::new(false);

/// The files that this run has read, by their real places.
static READ: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

/// Remembers a file that is read, so that it is not written over.
pub(crate) fn noted(path: &Path) {
    if let Ok(real) = fs::canonicalize(path) {
        READ.lock().unwrap_or_else(PoisonError::into_inner).push(real);
    }
}

fn was_read(path: &Path) -> bool {
    let real = fs::canonicalize(path).ok();
    let read = READ.lock().unwrap_or_else(PoisonError::into_inner);
    real.is_some_and(|real| read.contains(&real))
}

/// Whether a path stands for standard input or output.
pub(crate) fn is_dash(path: &Path) -> bool {
    path.as_os_str() == DASH
}

/// The name of a plan file without its ending, after which further files are named.
pub(crate) fn stem(plan: &Path) -> String {
    let stem = plan.file_stem().filter(|_| !is_dash(plan));
    stem.map_or_else(|| "plan".into(), |stem| stem.to_string_lossy().into_owned())
}

/// The folders in which a plan's pictures are looked for: its own, and further ones.
pub(crate) fn folders(plan: &Path, further: &[PathBuf]) -> Vec<PathBuf> {
    let own = plan.parent().map_or_else(PathBuf::new, Path::to_path_buf);
    [own].into_iter().chain(further.iter().cloned()).collect()
}

/// Reads a plan file, or a plan from standard input.
///
/// # Errors
/// When it can't be read or is none.
pub(crate) fn read_plan(path: &Path) -> Result<Plan, Failure> {
    let text = read_text(path, overmantel::plan::limits::FULL_FILE_BYTES, "a plan file")?;
    overmantel::plan::file::read(&text).map_err(in_file(named(path)))
}

/// A file as messages name it.
pub(crate) fn named(path: &Path) -> &Path {
    if is_dash(path) { Path::new(INPUT) } else { path }
}

/// Reads a list of the user's own over what is on offer, where one is named.
///
/// # Errors
/// When it can't be read or is none.
pub(crate) fn read_stock(path: Option<&Path>) -> Result<Stock, Failure> {
    let Some(path) = path else { return Ok(Stock::offered()) };
    let text = read_text(path, overmantel::stock::limits::FILE_BYTES, "a stock file")?;
    Stock::read(&text).map_err(in_file(named(path)))
}

/// Reads a price book.
///
/// # Errors
/// When it can't be read or is none.
pub(crate) fn read_book(path: &Path) -> Result<Book, Failure> {
    let text = read_text(path, overmantel::prices::limits::FILE_BYTES, "a price book")?;
    Book::read(&text).map_err(in_file(named(path)))
}

/// Reads a text of at most so many bytes, whatever the file says of its length; without the mark of the order of bytes, which some
/// programs write at the beginning of UTF-8 text.
///
/// # Errors
/// When it can't be read, is too long or is no text.
pub(crate) fn read_text(path: &Path, most: usize, what: &'static str) -> Result<String, Failure> {
    let mut text = read_whole_text(path, most, what)?;
    if text.starts_with('\u{feff}') {
        text.remove(0);
    }
    Ok(text)
}

/// The same with that mark, for what is written back as it was.
///
/// # Errors
/// As [`read_text`].
pub(crate) fn read_whole_text(path: &Path, most: usize, what: &'static str) -> Result<String, Failure> {
    let (bytes, path) = if is_dash(path) {
        if IS_INPUT_READ.swap(true, Ordering::Relaxed) {
            return Err(Failure::InputTwice);
        }
        (bounded(io::stdin(), most).map_err(Failure::Input)?, PathBuf::from(INPUT))
    } else {
        noted(path);
        let path = path.to_owned();
        let file = match File::open(&path) {
            Ok(file) => file,
            Err(why) => return Err(Failure::Open { path, why }),
        };
        match bounded(file, most) {
            Ok(bytes) => (bytes, path),
            Err(why) => return Err(Failure::Read { path, why }),
        }
    };
    if bytes.len() > most {
        return Err(Failure::Long { path, most, what });
    }
    String::from_utf8(bytes).map_err(|_| Failure::NoText { path })
}

/// At most one byte more than may be read.
fn bounded(input: impl Read, most: usize) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    input.take(most as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// A kind of file that is written, with the endings that its name may have.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Kind {
    /// What it is, in words.
    pub(crate) words: &'static str,
    /// Its endings, the usual one first.
    pub(crate) endings: &'static [&'static str],
}

/// A drawing in pixels.
pub(crate) const PNG: Kind = Kind { words: "a PNG", endings: &["png"] };
/// A drawing in lines and areas.
pub(crate) const SVG: Kind = Kind { words: "an SVG file", endings: &["svg"] };
/// A page.
pub(crate) const PAGE: Kind = Kind { words: "an HTML page", endings: &["html", "htm"] };
/// A plan, or a stock file.
pub(crate) const JSON: Kind = Kind { words: "a JSON file", endings: &["json"] };

/// A list of works, or rows.
pub(crate) const CSV: Kind = Kind { words: "a CSV file", endings: &["csv"] };

impl Kind {
    /// The endings as a message has them.
    pub(crate) fn allowed(self) -> String {
        self.endings.iter().map(|ending| format!(".{ending}")).collect::<Vec<_>>().join(" or ")
    }

    fn is_named(self, path: &Path) -> bool {
        let ending = path.extension().map(OsStr::to_string_lossy);
        ending.is_some_and(|ending| self.endings.iter().any(|known| ending.eq_ignore_ascii_case(known)))
    }
}

/// Where something goes: to standard output, or into a file.
#[derive(Clone, Debug)]
pub(crate) enum Destination {
    /// To standard output.
    Standard,
    /// Into a file, over another or not.
    File { path: PathBuf, is_forced: bool },
}

impl Destination {
    /// What was given as `--out`, and whether `--force` was; looked at before there is any work.
    ///
    /// # Errors
    /// When a file of this name can't be of this kind, or must not be written.
    pub(crate) fn of(path: &Path, is_forced: bool, kind: Kind) -> Result<Self, Failure> {
        if is_dash(path) {
            return Ok(Self::Standard);
        }
        if !kind.is_named(path) {
            return Err(Failure::Ending { path: path.to_owned(), kind });
        }
        check_free(path, is_forced)?;
        Ok(Self::File { path: path.to_owned(), is_forced })
    }

    /// Puts bytes there.
    ///
    /// # Errors
    /// When they can't be written.
    pub(crate) fn put(&self, bytes: &[u8]) -> Result<(), Failure> {
        match self {
            Self::Standard => say::put(bytes),
            Self::File { path, is_forced } => put(path, *is_forced, bytes),
        }
    }

    /// Puts there what `fill` writes.
    ///
    /// # Errors
    /// When it can't be written, or `fill` fails.
    pub(crate) fn write(
        &self,
        fill: impl FnOnce(&mut dyn Write) -> Result<(), Cause>,
    ) -> Result<(), Failure> {
        match self {
            Self::Standard => {
                let mut bytes = Vec::new();
                fill(&mut bytes).map_err(|why| Failure::Write { path: DASH.into(), why })?;
                say::put(&bytes)
            }
            Self::File { path, is_forced } => write(path, *is_forced, |out| fill(out)),
        }
    }
}

/// Writes bytes as a file.
///
/// # Errors
/// When they can't be written.
pub(crate) fn put(path: &Path, is_forced: bool, bytes: &[u8]) -> Result<(), Failure> {
    write(path, is_forced, |out| Ok(out.write_all(bytes)?))
}

/// Looks whether a file may be written.
///
/// # Errors
/// When there is another that is not to be written over.
pub(crate) fn check_free(path: &Path, is_forced: bool) -> Result<(), Failure> {
    let named = || path.to_owned();
    let found = match fs::symlink_metadata(path) {
        Ok(found) => found,
        Err(why) if why.kind() == ErrorKind::NotFound => return Ok(()),
        Err(why) => return Err(unwritten(path, &why)),
    };
    if found.is_symlink() {
        return Err(Failure::Symlink(named()));
    }
    if !found.is_file() {
        return Err(Failure::NoFile(named()));
    }
    if was_read(path) {
        return Err(Failure::Own(named()));
    }
    if is_forced { Ok(()) } else { Err(Failure::Exists(named())) }
}

/// Prints what is filled in, by way of a temporary file: its writer goes back in it.
///
/// # Errors
/// When there is no space for it, `fill` fails, or standard output takes nothing.
pub(crate) fn print(fill: impl FnOnce(&mut BufWriter<&File>) -> Result<(), Cause>) -> Result<(), Failure> {
    let failed = |why: Cause| Failure::Write { path: DASH.into(), why };
    let mut file = tempfile::tempfile().map_err(|why| failed(why.into()))?;
    let mut out = BufWriter::with_capacity(1 << 20, &file);
    fill(&mut out).map_err(failed)?;
    out.flush().map_err(|why| failed(why.into()))?;
    drop(out);
    file.seek(SeekFrom::Start(0)).map_err(|why| failed(why.into()))?;
    match io::copy(&mut file, &mut io::stdout()) {
        Err(why) if why.kind() != ErrorKind::BrokenPipe => Err(Failure::Output(why)),
        _ => Ok(()),
    }
}

/// Writes a file: beside its place first, under a name that no other process has, and gives it its name when it is whole and on the
/// disk. What goes wrong before leaves nothing behind.
///
/// # Errors
/// When it must not or can't be written, or `fill` fails.
pub(crate) fn write(
    path: &Path,
    is_forced: bool,
    fill: impl FnOnce(&mut BufWriter<&File>) -> Result<(), Cause>,
) -> Result<(), Failure> {
    check_free(path, is_forced)?;
    let failed = |why: Cause| Failure::Write { path: path.to_owned(), why };
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut beside = tempfile::Builder::new();
    beside.prefix(".overmantel-").suffix(".part");
    let before = fs::metadata(path).ok();
    #[cfg(unix)]
    let permissions: fs::Permissions = std::os::unix::fs::PermissionsExt::from_mode(0o666);
    // As any new file has them, which the user's mask makes fewer.
    #[cfg(unix)]
    beside.permissions(permissions);
    let beside = beside.tempfile_in(folder).map_err(|why| unwritten(path, &why))?;
    let mut out = BufWriter::with_capacity(1 << 20, beside.as_file());
    fill(&mut out).map_err(failed)?;
    out.flush().map_err(|why| failed(why.into()))?;
    drop(out);
    if let Some(before) = before {
        beside.as_file().set_permissions(before.permissions()).map_err(|why| failed(why.into()))?;
    }
    beside.as_file().sync_all().map_err(|why| failed(why.into()))?;
    // Since it was looked at, another program may have made a file there.
    check_free(path, is_forced)?;
    let kept = if is_forced { beside.persist(path) } else { beside.persist_noclobber(path) };
    match kept {
        Ok(_) => Ok(()),
        Err(why) if why.error.kind() == ErrorKind::AlreadyExists => Err(Failure::Exists(path.to_owned())),
        Err(why) => Err(unwritten(path, &why.error)),
    }
}

/// Names the file that was to be written, and not the one beside it.
fn unwritten(path: &Path, why: &io::Error) -> Failure {
    let cause = why.source().map_or_else(|| why.to_string(), ToString::to_string);
    Failure::Write { path: path.to_owned(), why: cause.into() }
}

/// Makes a folder and those that it lies in.
///
/// # Errors
/// When it can't be made.
pub(crate) fn make_folder(path: &Path) -> Result<(), Failure> {
    if is_dash(path) {
        return Err(Failure::FolderWanted);
    }
    fs::create_dir_all(path).map_err(|why| Failure::Folder { path: path.to_owned(), why })
}
