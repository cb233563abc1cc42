//! `overmantel studio`: a folder of pictures as a page from which buyers start.

use super::failure::{Failure, TableError, in_file};
use super::files::{Destination, PAGE};
use super::pictures::copy::copy;
use super::proposal::{LONGEST_PX, PAGE_BYTES, filed};
use clap::Args;
use overmantel::plan::Picture;
use overmantel::proposal::{Offered, studio, studio_plan};
use overmantel::{prices, stock};
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str =
    "\
The page is one that `cargo page` built; the studio's page is a copy of it with your pictures instead of the demo's, at a smaller size and
without camera or location data. Put it on any static host: a buyer starts from your first three.
Titles come from a file pictures.csv in the folder, one line each: the file's name, a comma, the title, with or without quotation marks. Without it, the names of the files
are the titles, in alphabetical order.

Example:
  overmantel studio paintings --page overmantel.html --title \"Tidal flats and harbours\" --stock ours.json --book prices.json --out studio.html";

/// The pictures, and what goes with them.
#[derive(Args)]
pub(crate) struct StudioOf {
    /// The folder of pictures: JPEG, PNG or WebP, at most 12
    folder: PathBuf,
    /// The page to put them into
    #[arg(long, value_name = "FILE")]
    page: PathBuf,
    /// The HTML file to write, or - for standard output
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// The name of the studio
    #[arg(long, default_value = "From the studio")]
    title: String,
    /// A stock file with the sizes and mouldings that you offer
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// Your price book; it shows every visitor what a plan costs
    #[arg(long, value_name = "FILE")]
    book: Option<PathBuf>,
    /// Overwrite a file that already exists
    #[arg(long)]
    force: bool,
}

/// Bytes of the table of titles at most.
const TABLE_BYTES: usize = 64 * 1024;

pub(crate) fn run(stated: &StudioOf) -> Result<(), Failure> {
    let out = Destination::of(&stated.out, stated.force, PAGE)?;
    let page = super::files::read_text(&stated.page, PAGE_BYTES, "a page")?;
    super::files::read_stock(stated.stock.as_deref())?;
    stated.book.as_deref().map(super::files::read_book).transpose()?;
    let text_of = |path: &Option<PathBuf>, most, what| {
        path.as_deref().map(|path| super::files::read_text(path, most, what)).transpose()
    };
    let stock = text_of(&stated.stock, stock::limits::FILE_BYTES, "a stock file")?;
    let book = text_of(&stated.book, prices::limits::FILE_BYTES, "a price book")?;
    let mut pictures = Vec::new();
    let mut filed_pictures = Vec::new();
    for (path, title) in titled(&stated.folder)? {
        let (raster, (width_px, height_px)) = copy(&path, LONGEST_PX)?;
        let file = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        let picture = Picture { name: title, file, width_px, height_px, subject: None };
        filed_pictures.push(filed(&raster)?);
        pictures.push(picture);
    }
    let plan = studio_plan(&stated.title, pictures)
        .map_err(|why| TableError::Folder { folder: stated.folder.clone(), why: Box::new(why) })?;
    let offered = Offered { stock: stock.as_deref(), book: book.as_deref() };
    let text = studio(&page, &plan, &filed_pictures, offered).map_err(in_file(&stated.page))?;
    out.put(text.as_bytes())
}

/// The pictures with their titles: in the order of the table, or of their names.
fn titled(folder: &Path) -> Result<Vec<(PathBuf, String)>, Failure> {
    let table = folder.join("pictures.csv");
    if table.is_file() {
        let text = super::files::read_text(&table, TABLE_BYTES, "a table of titles")?;
        return rows(folder, &text).map_err(Failure::from);
    }
    let entries = std::fs::read_dir(folder).map_err(|why| Failure::Read { path: folder.to_owned(), why })?;
    let mut found: Vec<PathBuf> =
        entries.flatten().map(|entry| entry.path()).filter(|path| is_picture(path)).collect();
    found.sort();
    let title = |path: &PathBuf| {
        path.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().replace(['-', '_'], " "))
    };
    Ok(found.into_iter().map(|path| (path.clone(), title(&path))).collect())
}

/// The lines of the table, as RFC 4180 has them: what stands in quotation marks may have commas in it. So may a title without them.
fn rows(folder: &Path, text: &str) -> Result<Vec<(PathBuf, String)>, TableError> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
    let mut found = Vec::new();
    for record in reader.records() {
        let record = record?;
        let cells: Vec<&str> = record.iter().collect();
        if let [file, title @ ..] = &cells[..]
            && cells.iter().any(|cell| !cell.trim().is_empty())
        {
            found.push(row(folder, file.trim(), title)?);
        }
    }
    Ok(found)
}

fn row(folder: &Path, file: &str, title: &[&str]) -> Result<(PathBuf, String), TableError> {
    if title.is_empty() {
        return Err(TableError::NoTitle(file.to_owned()));
    }
    // Only the last part of the name counts: a table must not reach into other folders.
    let name = Path::new(file).file_name();
    let path = name.map(|name| folder.join(name)).filter(|path| path.is_file() && is_picture(path));
    let title = title.join(",");
    let title = title.trim();
    // After a comma and a space, quotation marks are part of the cell, though they are not meant so.
    let bare = title.strip_prefix('"').and_then(|rest| rest.strip_suffix('"'));
    let title = bare.map_or_else(|| title.to_owned(), |bare| bare.replace("\"\"", "\""));
    path.map(|path| (path, title)).ok_or_else(|| TableError::NoPicture(file.to_owned()))
}

fn is_picture(path: &Path) -> bool {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    ending.is_some_and(|ending| ["jpg", "jpeg", "png", "webp"].contains(&ending.as_str()))
}
