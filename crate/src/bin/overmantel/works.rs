//! `overmantel works`: a body of work, from a list or a folder, and which of it prints at which size.

use super::failure::{ChoiceError, Failure, in_file};
use super::files::{CSV, Destination, JSON, is_dash, named, noted, read_stock, read_whole_text};
use super::pictures::copy::copy;
use super::say::{say, say_json, sum_up, tell};
use super::suggest::Sizes;
use clap::{Args, ValueEnum};
use overmantel::fields::read_size;
use overmantel::fit::Way;
use overmantel::geometry::Size;
use overmantel::length::parse::{ParseError, parse_typed};
use overmantel::length::{Length, Unit};
use overmantel::papers::survey::rows;
use overmantel::picture_header::{Bytes, read};
use overmantel::plan::System;
use overmantel::report;
use overmantel::stock::Stock;
use overmantel::works::matched::{Found, Note, folded};
use overmantel::works::suited::{suited, with_works};
use overmantel::works::survey::{On, Question, Shape, survey};
use overmantel::works::{Key, Palette, Works, limits};
use std::fs::File;
use std::io::{Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

mod words;

pub(crate) const HELP: &str = "\
The list is CSV, with commas, semicolons or tabs, or JSON; `overmantel schema works` prints what each column means. The first row has the names of the
columns, in any order; the usual ones are identifier, title, creator, dateCreated, artMedium, width, height, availability, price, file,
widthPx and heightPx. Other columns are kept. A cell that can't be read is told with its row and column, and everything else stands.
With a folder in place of the list, its pictures are the works (JPEG, PNG, WebP, TIFF); if it has a works.csv or works.json, that is the
list. Of each picture only the header is read: its pixels, and what it says in XMP, IPTC and Exif of title, creator and date. What
the list leaves out comes from there; where they disagree, it is told. --write writes the list with what was added, and leaves the rest of
it as it is, byte for byte in CSV.

Each work is tried in every size of the stock list: whole, in a mat, with a white border, cropped. What may be asked narrows that down. Without --ppi a print
keeps 200 pixels per inch, and on canvas 150, or what your stock list calls soft. The stock's rolls and sheets limit prints too.

Exit codes: 0 at least one work suits; 1 a file can't be read or written; 2 the command was not understood; 3 no work suits.

Examples:
  overmantel works works.csv --since 2023 --size 24x36in --on canvas --ppi 150 --way whole --available
      works of 2023 or later that print at 24 × 36 in on canvas at 150 ppi or better, whole, still available
  overmantel works paintings --write works.csv
      a first list from the headers of a folder's pictures
  overmantel works works.csv --pictures paintings --write new.csv --force
      the list with the pixels, titles and dates that it lacks
  overmantel works works.csv --shape panorama --title ebb --in centimetres
  overmantel works works.csv --for plan.json --pictures paintings --palettes --write new.csv
      which works suit the pieces of a plan, as large as they are, also by their colours; `--for plan.json --take 1` prints the first plan
  overmantel works works.csv --csv > sizes.csv
      every size of every work, a row each; --json has the same as data, `overmantel schema works-survey` its names";

/// The works, and what is asked of them.
#[derive(Args)]
pub(crate) struct WorksOf {
    /// The list of works, a folder of pictures, or - for a list from standard input
    #[arg(value_name = "LIST|FOLDER")]
    list: PathBuf,
    /// The folder of the pictures, whose headers are read
    #[arg(long, value_name = "FOLDER")]
    pictures: Option<PathBuf>,
    /// Made in this year or later
    #[arg(long, value_name = "YEAR", value_parser = super::given::whole::<u16>(1, 9999))]
    since: Option<u16>,
    /// Made in this year or earlier
    #[arg(long, value_name = "YEAR", value_parser = super::given::whole::<u16>(1, 9999))]
    until: Option<u16>,
    /// Printed, or framed with a mat, in this size, such as 24x36in, "50 x 70 cm" or A3
    #[arg(long, value_name = "SIZE")]
    size: Option<String>,
    /// What it is printed on; paper when left out
    #[arg(long, value_enum, value_name = "MATERIAL")]
    on: Option<Material>,
    /// Pixels per inch at least
    #[arg(long, value_name = "PPI", value_parser = super::given::whole::<u32>(1, 2400))]
    ppi: Option<u32>,
    /// How it may be printed; any way when left out; can be repeated
    #[arg(long, value_enum, value_name = "WAY")]
    way: Vec<HowPrinted>,
    /// Only works whose originals are available
    #[arg(long)]
    available: bool,
    /// Only pictures of this shape
    #[arg(long, value_enum, value_name = "SHAPE")]
    shape: Option<Shaped>,
    /// Only works with these words in the title; can be repeated
    #[arg(long, value_name = "WORDS")]
    title: Vec<String>,
    /// The longest that the smaller side of a print may be, such as 24in
    #[arg(long, value_name = "LENGTH")]
    smaller_side: Option<String>,
    /// Only sizes of this system of units, which are told in it; lengths of the list without a unit are in it, too
    #[arg(long = "in", value_enum, value_name = "SYSTEM")]
    system: Option<Sizes>,
    /// Your own stock list, which replaces or adds to the standard one
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// Which works suit the pieces of this plan, the same wall with other works; what is asked of sizes does not count then
    #[arg(long = "for", value_name = "PLAN", conflicts_with_all = ["size", "on", "way", "ppi", "smaller_side", "limited", "csv", "json"])]
    plan: Option<PathBuf>,
    /// Print the plan with the works of this suggestion
    #[arg(long, value_name = "NUMBER", requires = "plan")]
    take: Option<usize>,
    /// How many sets of works at most
    #[arg(long, value_name = "NUMBER", default_value_t = 4, requires = "plan", value_parser = super::given::whole::<u8>(1, 100))]
    most: u8,
    /// Find the main colours of works that have no palette; the pictures are read whole for this
    #[arg(long)]
    palettes: bool,
    /// Also the sizes that can't be printed, with what stands against them
    #[arg(long)]
    limited: bool,
    /// Print JSON
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print CSV, a row for each size of each work
    #[arg(long)]
    csv: bool,
    /// Write the list with what the pictures' headers add, with a name that ends as the list's form does: .csv or .json
    #[arg(long, value_name = "FILE")]
    write: Option<PathBuf>,
    /// Overwrite a file that already exists
    #[arg(long, requires = "write")]
    force: bool,
}

/// What is printed on.
#[derive(Clone, Copy, ValueEnum)]
enum Material {
    /// Paper
    Paper,
    /// Stretched canvas, its edges in mirror image
    Canvas,
    /// Aluminium
    Aluminium,
}

/// How something is printed.
#[derive(Clone, Copy, ValueEnum)]
enum HowPrinted {
    /// Whole, to the edge
    Whole,
    /// Whole, behind a mat in a larger frame
    Mat,
    /// Whole, with a white border
    Border,
    /// Cropped to the shape of the sheet
    Crop,
}

/// The shape of a picture.
#[derive(Clone, Copy, ValueEnum)]
enum Shaped {
    /// Higher than wide
    Portrait,
    /// Wider than high
    Landscape,
    /// As wide as high, within a twentieth
    Square,
    /// At least twice as wide as high
    Panorama,
}

/// What a script is told when no work suits.
const NOTHING: u8 = 3;

/// Why a length that was given can't be read.
#[derive(Debug, thiserror::Error)]
#[error("--smaller-side: {0}")]
pub(crate) struct NoLength(#[from] ParseError);

/// A file, read where it is asked for.
struct Sought(File);

impl Bytes for Sought {
    fn at(&mut self, place: u64, most: usize) -> Vec<u8> {
        let mut bytes = Vec::new();
        // What can't be read is as if it were not there.
        if self.0.seek(SeekFrom::Start(place)).is_ok() {
            let _ = (&self.0).take(most as u64).read_to_end(&mut bytes);
        }
        bytes
    }
}

pub(crate) fn run(stated: &WorksOf) -> Result<ExitCode, Failure> {
    let system = stated.system.map(Sizes::system);
    let stock = read_stock(stated.stock.as_deref())?;
    let asked = question(stated, &stock, system)?;
    let (mut works, folder) = list(stated, system)?;
    let kind = if works.is_json() { JSON } else { CSV };
    let target = stated.write.as_deref().map(|path| Destination::of(path, stated.force, kind)).transpose()?;
    for problem in &works.problems {
        tell(problem);
    }
    let notes = folder.as_deref().map_or_else(|| Ok(Vec::new()), |folder| take_files(&mut works, folder))?;
    tell_notes(&notes);
    if let Some(folder) = folder.filter(|_| stated.palettes) {
        palettes(&mut works, &folder);
    }
    if let Some(target) = target {
        target.put(works.write().as_bytes())?;
    }
    if let Some(plan) = &stated.plan {
        return for_plan(stated, plan, &works, &stock, &asked);
    }
    let found = survey(&works.works, &stock, &asked);
    if stated.json {
        let text = serde_json::to_string_pretty(&report::works(&works, &asked, &found, &notes))?;
        say_json(&[&text, "\n"].concat())?;
    } else if stated.csv {
        say(&rows(&works, &found, stated.limited).csv())?;
    } else if !matches!(&stated.write, Some(path) if is_dash(path)) {
        say(&words::in_words(&works, &asked, &found, stated.limited))?;
    }
    Ok(if found.suited.is_empty() { ExitCode::from(NOTHING) } else { ExitCode::SUCCESS })
}

/// Which works suit the pieces of a plan.
fn for_plan(
    stated: &WorksOf,
    path: &Path,
    works: &Works,
    stock: &Stock,
    asked: &Question,
) -> Result<ExitCode, Failure> {
    let plan = super::files::read_plan(path)?;
    let places: Vec<usize> =
        (0..works.works.len()).filter(|&place| asked.leaves_out(&works.works[place]).is_none()).collect();
    let found =
        suited(&plan, stock, &works.works, &places, stated.most.into()).map_err(in_file(named(path)))?;
    if let Some(number) = stated.take {
        let one = number.checked_sub(1).and_then(|index| found.get(index));
        let one = one.ok_or(ChoiceError::NoSuggestion { number, count: found.len() })?;
        let made = with_works(&plan, &works.works, &one.works)?;
        say_json(&(overmantel::plan::file::write(&made) + "\n"))?;
    } else {
        say(&words::for_plan(&plan, works, &found, places.len()))?;
    }
    Ok(if found.is_empty() { ExitCode::from(NOTHING) } else { ExitCode::SUCCESS })
}

/// Pixels of the longer side from which a palette is found: more do not change it.
const PALETTE_PX: u32 = 200;

/// Finds the palettes that the list lacks.
fn palettes(works: &mut Works, folder: &Path) {
    let mut found = 0;
    for place in 0..works.works.len() {
        let work = &works.works[place];
        if work.palette.is_some() || work.file.is_empty() {
            continue;
        }
        let file = folded(&work.file);
        let is_it =
            |path: &PathBuf| path.file_name().is_some_and(|name| folded(&name.to_string_lossy()) == file);
        let mut paths = std::fs::read_dir(folder).into_iter().flatten().flatten().map(|entry| entry.path());
        let Some(path) = paths.find(is_it) else { continue };
        match copy(&path, PALETTE_PX) {
            Ok((raster, _)) => {
                if let Some(palette) = Palette::of(raster.pixels()) {
                    found += 1;
                    works.set(place, Key::Palette, &palette.to_string());
                }
            }
            Err(why) => tell(why),
        }
    }
    sum_up(format_args!("the palettes of {found} works were found"));
}

/// What is asked.
fn question(stated: &WorksOf, stock: &Stock, system: Option<System>) -> Result<Question, Failure> {
    let size = stated.size.as_deref().map(|text| size(text, stock, system)).transpose()?;
    let bare = unit(system);
    let smaller_side = stated.smaller_side.as_deref().map(|text| parse_typed(text, bare)).transpose();
    let ways = stated.way.iter().map(|way| match way {
        HowPrinted::Whole => Way::Whole,
        HowPrinted::Mat => Way::Matted,
        HowPrinted::Border => Way::Bordered,
        HowPrinted::Crop => Way::Cropped,
    });
    Ok(Question {
        since: stated.since,
        until: stated.until,
        size,
        on: stated.on.map_or(On::Paper, |on| On::ALL[on as usize]),
        least_ppi: stated.ppi,
        ways: ways.collect(),
        is_available: stated.available,
        shape: stated.shape.map(|shape| match shape {
            Shaped::Portrait => Shape::Portrait,
            Shaped::Landscape => Shape::Landscape,
            Shaped::Square => Shape::Square,
            Shaped::Panorama => Shape::Panorama,
        }),
        words: stated.title.iter().flat_map(|text| text.split_whitespace()).map(str::to_owned).collect(),
        smaller_side: smaller_side.map_err(NoLength)?.filter(|length| *length > Length::ZERO),
        system,
    })
}

const fn unit(system: Option<System>) -> Unit {
    match system {
        Some(System::Centimetres) => Unit::Centimetre,
        _ => Unit::Inch,
    }
}

/// A size by its name in the stock list, or by its measures.
fn size(text: &str, stock: &Stock, system: Option<System>) -> Result<Size, Failure> {
    if let Some(row) = stock.sizes.iter().find(|row| row.name.eq_ignore_ascii_case(text.trim())) {
        return Ok(row.size);
    }
    let read = read_size(text, system.unwrap_or_default());
    read.map_err(|why| Failure::Given { text: text.to_owned(), why: why.to_string() })
}

/// The list of works, and the folder of their pictures, if there is one.
fn list(stated: &WorksOf, system: Option<System>) -> Result<(Works, Option<PathBuf>), Failure> {
    let (mut path, mut folder) = (Some(stated.list.clone()), stated.pictures.clone());
    if !is_dash(&stated.list) && stated.list.is_dir() {
        let lists = ["works.csv", "works.json"].map(|name| stated.list.join(name));
        path = lists.into_iter().find(|path| path.is_file());
        folder = folder.or_else(|| Some(stated.list.clone()));
    }
    let Some(path) = path else { return Ok((Works::empty(), folder)) };
    let text = read_whole_text(&path, limits::FILE_BYTES, "a list of works")?;
    let works = Works::read_in(&text, unit(system)).map_err(in_file(named(&path)))?;
    Ok((works, folder))
}

/// Takes what the headers of a folder's pictures say into the list.
fn take_files(works: &mut Works, folder: &Path) -> Result<Vec<Note>, Failure> {
    let unread = |why| Failure::Read { path: folder.to_owned(), why };
    let mut paths = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(unread)? {
        let path = entry.map_err(unread)?.path();
        if is_picture(&path) && path.is_file() {
            paths.push(path);
        }
    }
    paths.sort();
    let mut found = Vec::new();
    for path in paths {
        noted(&path);
        let file = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        let opened = File::open(&path).map_err(|why| Failure::Open { path: path.clone(), why })?;
        let header = read(&mut Sought(opened), &file);
        found.push(Found { file, header });
    }
    Ok(works.take_files(&found))
}

fn is_picture(path: &Path) -> bool {
    let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    ending.is_some_and(|ending| {
        ["jpg", "jpeg", "png", "webp", "tif", "tiff", "avif"].contains(&ending.as_str())
    })
}

/// Tells what list and files disagree about; what was merely added, in one line.
fn tell_notes(notes: &[Note]) {
    let added = notes.iter().filter(|note| matches!(note, Note::Added(_))).count();
    let undated = notes.iter().filter(|note| matches!(note, Note::Photographed { .. })).count();
    for note in notes {
        if !matches!(note, Note::Added(_) | Note::Photographed { .. }) {
            tell(note);
        }
    }
    if added > 0 {
        sum_up(format_args!("{added} pictures of the folder were not in the list and were added at its end"));
    }
    if undated > 0 {
        sum_up(format_args!(
            "{undated} works have no date; when they were photographed is known, but that is not when they were made"
        ));
    }
}
