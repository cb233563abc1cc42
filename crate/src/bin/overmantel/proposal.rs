//! `overmantel proposal`: a plan with its pictures, prices and a message as one page.

use super::failure::{Failure, PictureError, UnpricedError, in_file, write_file};
use super::picture::{find, load};
use super::prices::{asked, warn};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use clap::Args;
use image::ExtendedColorType;
use image::codecs::jpeg::JpegEncoder;
use overmantel::figures::Figures;
use overmantel::papers::read_date;
use overmantel::plan::Plan;
use overmantel::prices::{Missing, priced};
use overmantel::proposal::{Proposal, in_page};
use overmantel::resample::Raster;
use overmantel::stock::Stock;
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str = "\
The page is one that `cargo page` built (www/dist/overmantel.html) or any that was handed out; the proposal is a copy of it with the plan
inside. Pictures go with it reduced, and with nothing of the camera or the place in them. They are looked for by the file names in the
plan, in the plan's folder and in the folders given by --pictures.

With a price book there is a total only where everything has a price. Where something has none, nothing is written and the exit code
is 3, unless you say --without-prices.

Examples:
  overmantel proposal plan.json --page overmantel.html --book ours.json --with varnish --out proposal.html
  overmantel proposal plan.json --page overmantel.html --from \"The painter\" --price \"Three prints, framed: 640 EUR\" --out proposal.html";

/// Of which plan, and what goes with it.
#[derive(Args)]
pub(crate) struct ProposalOf {
    /// The plan file
    plan: PathBuf,
    /// The page that it goes into
    #[arg(long, value_name = "FILE")]
    page: PathBuf,
    /// The HTML file to write
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// What it is called; the plan's title when left out
    #[arg(long)]
    title: Option<String>,
    /// Who sends it
    #[arg(long, default_value = "")]
    from: String,
    /// What there is to say
    #[arg(long, default_value = "")]
    note: String,
    /// Until when it holds, such as 2027-01-31
    #[arg(long, value_parser = read_date, value_name = "DATE")]
    valid_until: Option<(u16, u8, u8)>,
    /// A line of the prices; may be given several times. Beside a price book it stands apart, as not in the total
    #[arg(long, value_name = "LINE")]
    price: Vec<String>,
    /// Your price book, whose lines and total stand before the lines of --price
    #[arg(long, value_name = "FILE")]
    book: Option<PathBuf>,
    /// What of the book is asked for, by its name: an extra, a way of shipping, a discount; may be given several times
    #[arg(long, value_name = "NAME", requires = "book")]
    with: Vec<String>,
    /// Write the proposal without the book's prices where something has none
    #[arg(long, requires = "book")]
    without_prices: bool,
    /// A list of your own that replaces or adds to what is on offer
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// The address of a published page, for answers as links
    #[arg(long, value_name = "ADDRESS", default_value = "")]
    address: String,
    /// A further folder with picture files; may be given several times
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
}

/// Bytes that a page may have.
pub(crate) const PAGE_BYTES: usize = 64 << 20;
/// Half of the longer side of a picture that goes with it, in pixels: pictures are loaded at twice a drawing's width.
pub(crate) const HALF_PX: u32 = 600;
/// The quality of its JPEG.
const QUALITY: u8 = 82;

pub(crate) fn run(stated: &ProposalOf) -> Result<(), Failure> {
    let plan = super::read_plan(&stated.plan)?;
    let figures = Figures::of(&plan)?;
    let stock = super::read_stock(stated.stock.as_deref())?;
    let prices = prices(stated, &plan, &figures, &stock)?;
    let page = super::read_text(&stated.page, PAGE_BYTES, "a page")?;
    let mut folders = vec![stated.plan.parent().map_or_else(PathBuf::new, Path::to_path_buf)];
    folders.extend(stated.pictures.iter().cloned());
    let mut copies = Vec::new();
    for picture in &plan.pictures {
        copies.push(match find(picture, &folders) {
            Some(path) => Some(filed(load(picture, &path, HALF_PX)?.pyramid.raster())?),
            None => {
                eprintln!("overmantel: {} was not found, so the proposal is without it", picture.file);
                None
            }
        });
    }
    let proposal = Proposal {
        title: stated.title.clone().unwrap_or_else(|| plan.title.clone()),
        from: stated.from.clone(),
        note: stated.note.clone(),
        address: stated.address.clone(),
        valid_until: stated.valid_until,
        prices,
        plan,
        copies,
    };
    let text = in_page(&page, &proposal).map_err(in_file(&stated.page))?;
    write_file(&stated.out, text)
}

/// What the book makes of the plan, and the lines stated: apart where there is a total, in which they are not.
fn prices(
    stated: &ProposalOf,
    plan: &Plan,
    figures: &Figures,
    stock: &Stock,
) -> Result<Vec<String>, Failure> {
    let Some(path) = &stated.book else { return Ok(stated.price.clone()) };
    let book = asked(path, &stated.with)?;
    let price = priced(plan, figures, stock, &book);
    warn(&price);
    if price.totals.is_none() {
        let missing: Vec<String> = price.missing.iter().map(Missing::text).collect();
        let why = UnpricedError { missing: missing.join("\n  ") };
        return if stated.without_prices { Ok(stated.price.clone()) } else { Err(Failure::Unpriced(why)) };
    }
    let apart = stated.price.iter().map(|line| format!("not in this total: {line}"));
    Ok(price.text(&book).into_iter().chain(apart).collect())
}

/// A JPEG of nothing but the pixels, in base64.
pub(crate) fn filed(raster: &Raster) -> Result<String, PictureError> {
    let opaque: Vec<u8> =
        raster.pixels().chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, QUALITY).encode(
        &opaque,
        raster.width_px(),
        raster.height_px(),
        ExtendedColorType::Rgb8,
    )?;
    Ok(STANDARD.encode(bytes))
}
