//! `overmantel papers`: what the buyer, the print shop, the framer and whoever hangs it need on paper, as PDF.

use super::failure::{Failure, PictureError, in_file, make_folder, unreadable, write_file};
use clap::{Args, ValueEnum};
use image::codecs::jpeg::JpegEncoder;
use overmantel::figures::Figures;
use overmantel::link::{self, Link};
use overmantel::papers::{Job, Kind, Paper, Reader, jpeg::Photo, pdf, read_date};
use overmantel::plan::{Plan, System};
use std::fs;
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str = "\
Each sheet is a PDF of its own, named after the plan file: low-water-proposal.pdf, -order, -cut-list, -assembly, -hanging, -template, -record.
Print them at 100 %, without fitting to the page; two bars at the foot of every page tell whether that was done.
A JPEG goes into the PDF as it is encoded, without its place, date and names; other pictures, and very large ones, are encoded again.
Without --date the papers bear none. The same plan and date give the same bytes.

Examples:
  overmantel papers plan.json --out papers
  overmantel papers plan.json --out papers --sheet hanging,template --paper letter
  overmantel papers plans/*.json --out papers --date 2026-11-26 --valid-until 2027-01-31 --book ours.json --pictures ~/paintings";

/// Of which plans, which, and where to.
#[derive(Args)]
pub(crate) struct Papers {
    /// The plan files
    #[arg(required = true)]
    plans: Vec<PathBuf>,
    /// The folder to write to; made where there is none
    #[arg(long, value_name = "FOLDER")]
    out: PathBuf,
    /// Which sheets; all when left out
    #[arg(long, value_enum, value_delimiter = ',')]
    sheet: Vec<SheetOf>,
    /// On what they are printed; letter for a plan in inches and A4 for one in centimetres when left out
    #[arg(long, value_enum)]
    paper: Option<PaperOf>,
    /// Of when they are, such as 2026-11-26
    #[arg(long, value_parser = read_date)]
    date: Option<(u16, u8, u8)>,
    /// Until when the proposal holds, such as 2027-01-31
    #[arg(long, value_parser = read_date, value_name = "DATE")]
    valid_until: Option<(u16, u8, u8)>,
    /// What the proposal is called; the plan's title when left out
    #[arg(long, default_value = "")]
    title: String,
    /// Whose they are
    #[arg(long, value_name = "NAME", default_value = "")]
    author: String,
    /// What else the proposal says
    #[arg(long, value_name = "TEXT", default_value = "")]
    note: String,
    /// For whom the proposal is: a client reads what it is, where it hangs and what it costs, a maker the whole specification
    #[arg(long = "for", value_enum, default_value = "client", value_name = "READER")]
    reader: ReaderOf,
    /// The template of the hooks alone, on as few sheets as they reach over
    #[arg(long)]
    hooks_only: bool,
    /// The address of a published page: the proposal then has the plan's link as a QR code
    #[arg(long, value_name = "ADDRESS")]
    address: Option<String>,
    /// Your price book; without one the proposal names no prices
    #[arg(long, value_name = "FILE")]
    book: Option<PathBuf>,
    /// A list of your own that replaces or adds to what is on offer
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// A further folder with picture files; may be given several times
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
}

#[derive(Clone, Copy, ValueEnum)]
enum SheetOf {
    /// For the buyer: the drawing to scale, the specification, prices
    Proposal,
    /// For the print shop: crops in pixels, sizes in both systems
    Order,
    /// For the framer: mats, boards, rails, and a section
    CutList,
    /// For whoever puts it together: what to measure first and how far it may be off, and the order of steps
    Assembly,
    /// For whoever hangs it: every hook from one corner and the floor, and where a lamp goes
    Hanging,
    /// The same at full size, over as many sheets as it takes
    Template,
    /// For whoever keeps it: what it is and where it hangs, so that a later piece can match
    Record,
}

#[derive(Clone, Copy, ValueEnum)]
enum ReaderOf {
    Client,
    Maker,
}

#[derive(Clone, Copy, ValueEnum)]
enum PaperOf {
    A4,
    Letter,
}

pub(crate) fn run(stated: &Papers) -> Result<(), Failure> {
    let stock = super::read_stock(stated.stock.as_deref())?;
    let book = stated.book.as_deref().map(super::read_book).transpose()?;
    make_folder(&stated.out)?;
    let kinds: Vec<Kind> = if stated.sheet.is_empty() {
        Kind::ALL.to_vec()
    } else {
        stated.sheet.iter().map(|sheet| Kind::ALL[*sheet as usize]).collect()
    };
    for (index, path) in stated.plans.iter().enumerate() {
        let plan = super::read_plan(path)?;
        let figures = Figures::of(&plan).map_err(in_file(path))?;
        let paper = match (stated.paper, plan.units.first) {
            (Some(PaperOf::A4), _) | (None, System::Centimetres) => Paper::A4,
            (Some(PaperOf::Letter), _) | (None, System::Inches) => Paper::Letter,
        };
        let job = Job {
            title: stated.title.clone(),
            author: stated.author.clone(),
            date: stated.date,
            valid_until: stated.valid_until,
            note: stated.note.clone(),
            book: book.as_ref(),
            reader: match stated.reader {
                ReaderOf::Client => Reader::Client,
                ReaderOf::Maker => Reader::Maker,
            },
            hooks_only: stated.hooks_only,
            address: stated
                .address
                .as_deref()
                .map(|page| link::address(page, &link::write(&Link::of(plan.clone()))))
                .transpose()?,
            ..Job::new(&plan, &figures, &stock, paper)
        };
        let photos = photos(&plan, path, &stated.pictures)?;
        let stem = path.file_stem().map_or_else(|| "plan".into(), |stem| stem.to_string_lossy());
        for kind in &kinds {
            let document = job.document(*kind).map_err(in_file(path))?;
            let file = stated.out.join(format!("{stem}-{}.pdf", kind.name()));
            write_file(&file, pdf::write(&document, &photos))?;
            let (of, pages) = (stated.plans.len(), document.pages.len());
            eprintln!("{} of {of}: {}, {pages} {}", index + 1, file.display(), plural(pages));
        }
    }
    Ok(())
}

const fn plural(pages: usize) -> &'static str {
    if pages == 1 { "page" } else { "pages" }
}

/// The pictures of a plan, as far as they are found.
pub(crate) fn photos(
    plan: &Plan,
    path: &Path,
    further: &[PathBuf],
) -> Result<Vec<Option<Photo>>, PictureError> {
    let mut folders = vec![path.parent().map_or_else(PathBuf::new, Path::to_path_buf)];
    folders.extend(further.iter().cloned());
    let photo = |picture: &overmantel::plan::Picture| {
        let Some(path) = super::picture::find(picture, &folders) else {
            eprintln!("overmantel: {} was not found, so its place is left toned", picture.file);
            return Ok(None);
        };
        photo(&path).map(Some)
    };
    plan.pictures.iter().map(photo).collect()
}

/// Up to so many bytes a JPEG goes into a paper as it is.
const MOST_BYTES: u64 = 8 * 1024 * 1024;
/// Pixels along the longer side of what is encoded again.
const MOST_PX: u32 = 2400;

fn photo(path: &Path) -> Result<Photo, PictureError> {
    let is_small = fs::metadata(path).map_err(unreadable(path))?.len() <= MOST_BYTES;
    if is_small {
        let bytes = fs::read(path).map_err(unreadable(path))?;
        if bytes.starts_with(&[0xff, 0xd8]) {
            return Photo::read(&bytes).map_err(unreadable(path));
        }
    }
    let image = super::picture::decoded(path)?;
    let image =
        if image.width().max(image.height()) > MOST_PX { image.thumbnail(MOST_PX, MOST_PX) } else { image };
    let (width, height) = (image.width(), image.height());
    let rgba = super::picture::over_white(image.into_rgba8().into_raw());
    let rgb: Vec<u8> = rgba.chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
    let mut jpeg = Vec::new();
    JpegEncoder::new_with_quality(&mut jpeg, 90)
        .encode(&rgb, width, height, image::ExtendedColorType::Rgb8)
        .map_err(unreadable(path))?;
    Photo::read(&jpeg).map_err(unreadable(path))
}
