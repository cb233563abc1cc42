//! `overmantel proposal`: a plan with its pictures, prices and a message as one page.

use super::failure::{Failure, PictureError, UnpricedError, in_file};
use super::files::{Destination, PAGE, folders};
use super::picture::{find, is_as_counted_on};
use super::pictures::copy::copy;
use super::prices::{asked, warn};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use clap::Args;
use image::ExtendedColorType;
use image::codecs::jpeg::JpegEncoder;
use overmantel::figures::Figures;
use overmantel::papers::read_date;
use overmantel::plan::Plan;
use overmantel::plan::limits::COPY_BYTES;
use overmantel::prices::priced;
use overmantel::proposal::{Proposal, in_page};
use overmantel::resample::Raster;
use overmantel::stock::Stock;
use std::path::PathBuf;

pub(crate) const HELP: &str =
    "\
The page is one that `cargo page` built (www/dist/overmantel.html) or one that somebody sent you; the proposal is a copy of it with the plan
inside. Pictures are included at a smaller size, without camera or location data. They are found by the file names in the
plan, in the plan's folder and in the folders given with --pictures.

With a price book there is a total only if everything has a price. If something has none, nothing is written and the exit code
is 3, unless you give --without-prices.

Exit codes: 0 done; 1 the plan is not possible, or a file can't be read or written; 2 the command was not understood; 3 something has no price.

Examples:
  overmantel proposal plan.json --page overmantel.html --book ours.json --with varnish --out proposal.html
  overmantel proposal plan.json --page overmantel.html --from \"The painter\" --price \"Three prints, framed: 640 EUR\" --out proposal.html";

/// The plan, and what goes with it.
#[derive(Args)]
pub(crate) struct ProposalOf {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// The page to put it into
    #[arg(long, value_name = "FILE")]
    page: PathBuf,
    /// The HTML file to write, or - for standard output
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// The title of the proposal; the plan's title when left out
    #[arg(long)]
    title: Option<String>,
    /// Who it is from
    #[arg(long, default_value = "", hide_default_value = true)]
    from: String,
    /// A message
    #[arg(long, default_value = "", hide_default_value = true)]
    note: String,
    /// The date until which it is valid, such as 2027-01-31
    #[arg(long, value_parser = read_date, value_name = "DATE")]
    valid_until: Option<(u16, u8, u8)>,
    /// A line of prices; can be repeated. With a price book it is listed separately and is not in the total
    #[arg(long, value_name = "LINE")]
    price: Vec<String>,
    /// Your price book; its lines and total come before the lines of --price
    #[arg(long, value_name = "FILE")]
    book: Option<PathBuf>,
    /// Something from the book to add by its name: an extra, a way of shipping, a discount; can be repeated
    #[arg(long, value_name = "NAME", requires = "book")]
    with: Vec<String>,
    /// Write the proposal without the book's prices if something has no price
    #[arg(long, requires = "book")]
    without_prices: bool,
    /// Your own stock list, which replaces or adds to the standard one
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// The address of a published page, for answers as links
    #[arg(long, value_name = "ADDRESS", default_value = "", hide_default_value = true)]
    address: String,
    /// Another folder with picture files; can be repeated
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
    /// Accept a picture with fewer pixels than the plan expects
    #[arg(long)]
    smaller: bool,
    /// Overwrite a file that already exists
    #[arg(long)]
    force: bool,
}

/// Bytes that a page may have.
pub(crate) const PAGE_BYTES: usize = 64 << 20;
/// The longer side of a picture that goes with it, in pixels.
pub(crate) const LONGEST_PX: u32 = 1200;
/// The quality of its JPEG; where it would be too long for a plan file, the next.
const QUALITIES: [u8; 4] = [82, 70, 50, 25];

pub(crate) fn run(stated: &ProposalOf) -> Result<(), Failure> {
    let out = Destination::of(&stated.out, stated.force, PAGE)?;
    let plan = super::files::read_plan(&stated.plan)?;
    let figures = Figures::of(&plan)?;
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    let prices = prices(stated, &plan, &figures, &stock)?;
    let page = super::files::read_text(&stated.page, PAGE_BYTES, "a page")?;
    let folders = folders(&stated.plan, &stated.pictures);
    let mut copies = Vec::new();
    for picture in &plan.pictures {
        copies.push(match find(picture, &folders) {
            Some(path) => {
                let (raster, found) = copy(&path, LONGEST_PX)?;
                is_as_counted_on(picture, found, stated.smaller)?;
                Some(filed(&raster)?)
            }
            None => {
                super::tell(format_args!("{} was not found, so the proposal does not have it", picture.file));
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
    out.put(text.as_bytes())
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
        let why = UnpricedError::of(&price);
        return if stated.without_prices { Ok(stated.price.clone()) } else { Err(why.into()) };
    }
    let apart = stated.price.iter().map(|line| format!("not in this total: {line}"));
    Ok(price.text(&book).into_iter().chain(apart).collect())
}

/// A JPEG of nothing but the pixels, in base64: of the best quality with which it is no longer than a copy may be.
///
/// # Errors
/// When it can't be encoded.
pub(crate) fn filed(raster: &Raster) -> Result<String, PictureError> {
    let opaque: Vec<u8> =
        raster.pixels().chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
    let (width, height) = (raster.width_px(), raster.height_px());
    let mut text = String::new();
    for quality in QUALITIES {
        let mut bytes = Vec::new();
        JpegEncoder::new_with_quality(&mut bytes, quality).encode(
            &opaque,
            width,
            height,
            ExtendedColorType::Rgb8,
        )?;
        text = STANDARD.encode(bytes);
        if text.len() <= COPY_BYTES {
            break;
        }
    }
    Ok(text)
}
