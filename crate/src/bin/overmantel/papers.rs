//! `overmantel papers`: what the buyer, the print shop, the framer and whoever hangs it need on paper, as PDF.

use super::batch::{Plans, Turn, each};
use super::failure::pictures::{Fault, ReadError, unreadable};
use super::failure::{Failure, OtherPicture, PictureError, UnpricedError, in_file};
use super::files;
use super::picture::{find, is_as_counted_on, not_found, shown};
use super::pictures::copy::copy;
use super::pictures::{Inks, open};
use super::room::{SeenIn, seen};
use super::say;
use clap::{Args, ValueEnum};
use image::codecs::jpeg::JpegEncoder;
use overmantel::figures::Figures;
use overmantel::link::{self, Link};
use overmantel::papers::{Job, Kind, Paper, Reader, jpeg::Photo, pdf, read_date};
use overmantel::plan::{Picture, Plan, System};
use overmantel::prices::{Book, priced};
use overmantel::resample::Raster;
use overmantel::stock::Stock;
use std::fs;
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str =
    "\
Each paper is a separate PDF, named after the plan file: low-water-proposal.pdf, -order, -cut-list, -assembly, -hanging, -template, -record.
Print them at 100 %, without fitting to the page; two bars at the bottom of every page show whether that worked.
A JPEG goes into the PDF as it is, but without its location, date and names; other pictures, and very large ones, are encoded again.
Pictures must have the pixels that the plan expects, because the papers state what is kept in pixels. --smaller accepts copies with fewer.
If a plan fails, the others still get their papers; the failures are listed at the end. One paper of one plan can be printed with --out -.
Without --date the papers have no date. The same plan and date give the same bytes.

Exit codes: 0 done; 1 a plan is not possible, or a file can't be read or written; 2 the command was not understood; 3 the book does not have a
price for everything in the only plan, and there is no proposal.

Examples:
  overmantel papers plan.json --out papers
  overmantel papers plan.json --out papers --sheet hanging,template --paper letter
  overmantel papers plans/*.json --out papers --date 2026-11-26 --valid-until 2027-01-31 --book ours.json --pictures ~/paintings --smaller";

/// The plans, which papers, and where to write them.
#[derive(Args)]
pub(crate) struct Papers {
    #[command(flatten)]
    plans: Plans,
    /// The folder to write to, created if it does not exist; or - for standard output
    #[arg(long, value_name = "FOLDER")]
    out: PathBuf,
    /// Which papers; all when left out
    #[arg(long, value_enum, value_delimiter = ',')]
    sheet: Vec<SheetOf>,
    /// The paper size; when left out, letter for a plan in inches and A4 for one in centimetres
    #[arg(long, value_enum)]
    paper: Option<PaperOf>,
    /// The date on them, such as 2026-11-26
    #[arg(long, value_parser = read_date)]
    date: Option<(u16, u8, u8)>,
    /// The date until which the proposal is valid, such as 2027-01-31
    #[arg(long, value_parser = read_date, value_name = "DATE")]
    valid_until: Option<(u16, u8, u8)>,
    /// The title of the proposal; the plan's title when left out
    #[arg(long, default_value = "", hide_default_value = true)]
    title: String,
    /// Who they are from
    #[arg(long, value_name = "NAME", default_value = "", hide_default_value = true)]
    author: String,
    /// What they were ordered by, such as "Proposal 2026-014 · for the harbour office · option: Three canvases"
    #[arg(long, value_name = "TEXT", default_value = "", hide_default_value = true)]
    reference: String,
    /// A message in the proposal
    #[arg(long, value_name = "TEXT", default_value = "", hide_default_value = true)]
    note: String,
    /// Who the proposal is for
    #[arg(long = "for", value_enum, default_value = "buyer", value_name = "READER")]
    reader: ReaderOf,
    /// Write a proposal even if the book does not have a price for everything in the plan; it then has no prices
    #[arg(long, requires = "book")]
    without_prices: bool,
    /// Only the hooks in the template, on as few sheets as possible
    #[arg(long)]
    hooks_only: bool,
    /// The address of a published page; the proposal then has the plan's link as a QR code
    #[arg(long, value_name = "ADDRESS")]
    address: Option<String>,
    /// Your price book; without one the proposal has no prices
    #[arg(long, value_name = "FILE")]
    book: Option<PathBuf>,
    /// Your own stock list, which replaces or adds to the standard one
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// Another folder with picture files; can be repeated
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
    #[command(flatten)]
    room: SeenIn,
    /// Accept a picture with fewer pixels than the plan expects
    #[arg(long)]
    smaller: bool,
    /// Overwrite files that already exist
    #[arg(long)]
    force: bool,
}

#[derive(Clone, Copy, ValueEnum)]
enum SheetOf {
    /// For the buyer: the drawing to scale, the specification, prices
    Proposal,
    /// For the print shop: what is kept in pixels, sizes in both systems
    Order,
    /// For the framer: mats, boards, legs and a section
    CutList,
    /// For the person who assembles it: what to measure first, how far off it may be, and the order of steps
    Assembly,
    /// For the person who hangs it: every hook from one corner and the floor, and where a lamp goes
    Hanging,
    /// The same at full size, on as many sheets as it needs
    Template,
    /// For the owner: what it is and where it hangs, so that a later piece can match
    Record,
}

#[derive(Clone, Copy, ValueEnum)]
enum ReaderOf {
    /// A buyer, who reads what it is, where it hangs and what it costs
    #[value(alias = "client")]
    Buyer,
    /// A maker, who reads the whole specification
    Maker,
}

#[derive(Clone, Copy, ValueEnum)]
enum PaperOf {
    A4,
    Letter,
}

pub(crate) fn run(stated: &Papers) -> Result<(), Failure> {
    let plans = stated.plans.files()?;
    let kinds: Vec<Kind> = if stated.sheet.is_empty() {
        Kind::ALL.to_vec()
    } else {
        stated.sheet.iter().map(|sheet| Kind::ALL[*sheet as usize]).collect()
    };
    let stock = files::read_stock(stated.stock.as_deref())?;
    let book = stated.book.as_deref().map(files::read_book).transpose()?;
    if !files::is_dash(&stated.out) {
        files::make_folder(&stated.out)?;
    } else if plans.len() > 1 || kinds.len() > 1 {
        return Err(Failure::OneWanted);
    }
    each(&plans, ["paper", "papers"], |turn| papers(stated, turn, &kinds, &stock, book.as_ref()))
}

/// Writes these papers of a plan.
fn papers(
    stated: &Papers,
    turn: &Turn<'_>,
    kinds: &[Kind],
    stock: &Stock,
    book: Option<&Book>,
) -> Result<(), Failure> {
    let path = turn.path;
    let stem = files::stem(path);
    let file = |kind: &Kind| stated.out.join(format!("{stem}-{}.pdf", kind.name()));
    let is_printed = files::is_dash(&stated.out);
    if !is_printed {
        kinds.iter().try_for_each(|kind| files::check_free(&file(kind), stated.force))?;
    }
    let plan = files::read_plan(path)?;
    let figures = Figures::of(&plan).map_err(in_file(path))?;
    let paper = match (stated.paper, plan.units.first) {
        (Some(PaperOf::A4), _) | (None, System::Centimetres) => Paper::A4,
        (Some(PaperOf::Letter), _) | (None, System::Inches) => Paper::Letter,
    };
    let mut book = book;
    if let (Some(priced_by), true) = (book, kinds.contains(&Kind::Proposal)) {
        let price = priced(&plan, &figures, stock, priced_by);
        let is_priced = price.totals.is_some();
        if !is_priced && !stated.without_prices {
            return Err(UnpricedError::of(&price).into());
        }
        book = book.filter(|_| is_priced);
    }
    let job = Job {
        title: stated.title.clone(),
        author: stated.author.clone(),
        reference: stated.reference.clone(),
        date: stated.date,
        valid_until: stated.valid_until,
        note: stated.note.clone(),
        book,
        reader: match stated.reader {
            ReaderOf::Buyer => Reader::Client,
            ReaderOf::Maker => Reader::Maker,
        },
        hooks_only: stated.hooks_only,
        address: stated
            .address
            .as_deref()
            .map(|page| link::address(page, &link::write(&Link::of(plan.clone()))))
            .transpose()?,
        ..Job::new(&plan, &figures, stock, paper)
    };
    let view = match stated.room.taken()? {
        Some(mut photograph) if kinds.contains(&Kind::Proposal) => {
            Some(seen(&mut photograph, &plan, path, &stated.pictures)?)
        }
        Some(_) => {
            super::tell("the photograph is not used: only the proposal shows the pieces in it");
            None
        }
        None => None,
    };
    let job = Job { in_room: view.as_ref().map(|view| (view.width_px(), view.height_px())), ..job };
    let is_meant = |picture: &Picture, found| is_as_counted_on(picture, found, stated.smaller);
    let mut photos = photos(&plan, path, &stated.pictures, is_meant)?;
    photos.extend(view.map(|view| jpeg(&view, path).map(Some)).transpose()?);
    let documents = kinds.iter().map(|kind| job.document(*kind).map_err(in_file(path)));
    // What can't be laid out is known before anything is written.
    let documents = documents.collect::<Result<Vec<_>, Failure>>()?;
    for (kind, document) in kinds.iter().zip(documents) {
        let (bytes, pages) = (pdf::write(&document, &photos), document.pages.len());
        if is_printed {
            say::put(&bytes)?;
            turn.wrote(format_args!("{}, {pages} {}", kind.name(), plural(pages)));
        } else {
            files::put(&file(kind), stated.force, &bytes)?;
            turn.wrote(format_args!("{}, {pages} {}", file(kind).display(), plural(pages)));
        }
    }
    Ok(())
}

const fn plural(pages: usize) -> &'static str {
    if pages == 1 { "page" } else { "pages" }
}

/// The pictures that pieces of a plan show, as far as they are found; `is_meant` says whether one with the pixels that were found is.
///
/// # Errors
/// When one can't be read, or is not the one that is meant.
pub(crate) fn photos(
    plan: &Plan,
    path: &Path,
    further: &[PathBuf],
    is_meant: impl Fn(&Picture, (u32, u32)) -> Result<(), OtherPicture>,
) -> Result<Vec<Option<Photo>>, Failure> {
    let (folders, shown) = (files::folders(path, further), shown(plan));
    let photo = |(index, picture): (usize, &Picture)| {
        if !shown.contains(&index) {
            return Ok(None);
        }
        let Some(path) = find(picture, &folders) else {
            not_found(picture);
            return Ok(None);
        };
        photo(&path, &|found| is_meant(picture, found)).map(Some)
    };
    plan.pictures.iter().enumerate().map(photo).collect()
}

/// Up to so many bytes a JPEG goes into a paper as it is.
const MOST_BYTES: u64 = 8 * 1024 * 1024;
/// Pixels along the longer side of what is encoded again.
const MOST_PX: u32 = 2400;

/// A picture's file as it is, where it is a JPEG that is sound from its beginning to its end; otherwise a copy of it.
fn photo(path: &Path, is_meant: &dyn Fn((u32, u32)) -> Result<(), OtherPicture>) -> Result<Photo, Failure> {
    let read = |why| ReadError::File { path: path.to_owned(), why };
    let source = open(path, Inks::Shown)?;
    is_meant(source.upright_px())?;
    let stored_px = source.stored_px;
    if fs::metadata(path).map_err(read)?.len() <= MOST_BYTES {
        let bytes = fs::read(path).map_err(read)?;
        if bytes.starts_with(&[0xff, 0xd8]) {
            source.check_to_the_end()?;
            let photo = Photo::read(&bytes).map_err(unreadable(path, "JPEG"))?;
            if (photo.width_px.into(), photo.height_px.into()) != stored_px {
                return Err(unreadable(path, "JPEG")(Fault::Sizes).into());
            }
            return Ok(photo);
        }
    }
    drop(source);
    jpeg(&copy(path, MOST_PX)?.0, path)
}

/// A JPEG of nothing but the pixels; `path` is what is named where it can't be made.
fn jpeg(raster: &Raster, path: &Path) -> Result<Photo, Failure> {
    let rgb: Vec<u8> =
        raster.pixels().as_chunks::<4>().0.iter().flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
    let mut jpeg = Vec::new();
    JpegEncoder::new_with_quality(&mut jpeg, 90)
        .encode(&rgb, raster.width_px(), raster.height_px(), image::ExtendedColorType::Rgb8)
        .map_err(PictureError::Unencoded)?;
    Ok(Photo::read(&jpeg).map_err(unreadable(path, "JPEG"))?)
}
