//! `overmantel proposal`: one plan or several with their pictures, prices and a message as one page.

use super::failure::{Failure, PictureError, UnpricedError, in_file};
use super::files::{Destination, PAGE, folders};
use super::picture::{find, is_as_counted_on};
use super::pictures::copy::copy;
use super::prices::{asked, warn};
use super::room::{SeenIn, seen};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use clap::Args;
use image::ExtendedColorType;
use image::codecs::jpeg::JpegEncoder;
use overmantel::described::Choosable as _;
use overmantel::draw::across;
use overmantel::figures::Figures;
use overmantel::papers::{Paper, pdf, read_date};
use overmantel::plan::limits::COPY_BYTES;
use overmantel::plan::{Plan, System};
use overmantel::prices::{Book, priced};
use overmantel::proposal::{BookShare, Offer, Proposal, in_page, in_text};
use overmantel::resample::Raster;
use overmantel::stock::{self, Stock};
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str =
    "\
The page is one that `cargo page` built (www/dist/overmantel.html) or one that somebody sent you; the proposal is a copy of it with the plans
inside, one to six of them, for your client to choose from. Each is called by its title, or by --name, given once for each plan in turn.
Pictures are included at a smaller size (--largest), without camera or location data, and with a line of text across them if
you give --across. They are found by the file names in the plans, in the plans' folders and in the folders given with --pictures.

With a price book there is a total only if everything has a price. If something has none, nothing is written and the exit code
is 3, unless you give --without-prices. What your client changes gets a new price only if your prices go along: --send-prices needed
sends the rows that these plans need, --send-prices all sends the whole book.

To send a proposal again with changes, give the one you sent before with --after: the new one has its number and the next version, and
tells your client what is new in each option of the same name.

With --photo each option is also shown in your photograph of the room, as `overmantel room` draws it. The room can be seen in the proposal.

Exit codes: 0 done; 1 the plan is not possible, or a file can't be read or written; 2 the command was not understood; 3 something has no price.

Examples:
  overmantel proposal plan.json --page overmantel.html --book ours.json --with varnish --out proposal.html
  overmantel proposal paper.json canvas.json --name \"Framed on paper\" --name \"Three canvases\" --page overmantel.html \\
      --book ours.json --send-prices needed --number 2026-014 --client \"The harbour office\" --out proposal.html
  overmantel proposal plan.json --page overmantel.html --from \"The painter\" --price \"Three prints, framed: 640 EUR\" --out proposal.html";

/// The plan, and what goes with it.
#[derive(Args)]
pub(crate) struct ProposalOf {
    /// The plan files, one to six; one of them may be - for standard input
    #[arg(required = true, value_name = "PLAN")]
    plans: Vec<PathBuf>,
    /// The page to put it into
    #[arg(long, value_name = "FILE")]
    page: PathBuf,
    /// The HTML file to write, or - for standard output
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Also write it as a PDF: a page that compares the options, and a page for each
    #[arg(long, value_name = "FILE")]
    pdf: Option<PathBuf>,
    /// The title of the proposal; the first plan's title when left out
    #[arg(long)]
    title: Option<String>,
    /// What an option is called; repeat it for each plan in turn. When left out, the plan's title
    #[arg(long)]
    name: Vec<String>,
    /// Your own number for it, such as 2026-014
    #[arg(long, default_value = "", hide_default_value = true)]
    number: String,
    /// Who it is for
    #[arg(long, default_value = "", hide_default_value = true)]
    client: String,
    /// Who it is from
    #[arg(long, default_value = "", hide_default_value = true)]
    from: String,
    /// How to reach you; can be repeated, one line each
    #[arg(long, value_name = "LINE")]
    contact: Vec<String>,
    /// A picture of your mark, shown at the top
    #[arg(long, value_name = "FILE")]
    mark: Option<PathBuf>,
    /// The date of the proposal, such as 2026-11-30
    #[arg(long, value_parser = read_date, value_name = "DATE")]
    date: Option<(u16, u8, u8)>,
    /// The proposal you sent before, as the page or its data: the new one is its next version
    #[arg(long, value_name = "FILE")]
    after: Option<PathBuf>,
    /// A message
    #[arg(long, default_value = "", hide_default_value = true)]
    note: String,
    /// The date until which it is valid, such as 2027-01-31
    #[arg(long, value_parser = read_date, value_name = "DATE")]
    valid_until: Option<(u16, u8, u8)>,
    /// A line of prices for every option; can be repeated. With a price book it is listed separately and is not in the total
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
    /// How much of the book goes along, so that your client's changes get a new price
    #[arg(long, requires = "book", value_name = "HOW MUCH", default_value = "none", value_parser = ["none", "needed", "all"])]
    send_prices: String,
    /// Your own stock list, which replaces or adds to the standard one
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    /// The address of a published page, for answers as links
    #[arg(long, value_name = "ADDRESS", default_value = "", hide_default_value = true)]
    address: String,
    /// Another folder with picture files; can be repeated
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
    /// The longer side of the pictures in it, in pixels: 200 to 2400
    #[arg(long, value_name = "PIXELS", default_value_t = LONGEST_PX, value_parser = clap::value_parser!(u32).range(200..=2400))]
    largest: u32,
    /// A line of text across the pictures
    #[arg(long, value_name = "TEXT", default_value = "", hide_default_value = true)]
    across: String,
    #[command(flatten)]
    room: SeenIn,
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

/// The longer side of the sender's mark, in pixels.
const MARK_PX: u32 = 400;

pub(crate) fn run(stated: &ProposalOf) -> Result<(), Failure> {
    let out = Destination::of(&stated.out, stated.force, PAGE)?;
    let mut proposal = Proposal {
        number: stated.number.clone(),
        from: stated.from.clone(),
        contact: stated.contact.join("\n"),
        client: stated.client.clone(),
        date: stated.date,
        note: stated.note.clone(),
        address: stated.address.clone(),
        valid_until: stated.valid_until,
        ..Proposal::default()
    };
    let stock = super::files::read_stock(stated.stock.as_deref())?;
    let own_stock = stated.stock.as_deref();
    let own_stock =
        own_stock.map(|path| super::files::read_text(path, stock::limits::FILE_BYTES, "a stock file"));
    let own_stock = own_stock.transpose()?;
    let book = stated.book.as_deref().map(|path| asked(path, &stated.with)).transpose()?;
    let mut photograph = stated.room.taken()?;
    for (place, path) in stated.plans.iter().enumerate() {
        let plan = super::files::read_plan(path)?;
        put_pictures(&mut proposal, stated, &plan, path)?;
        let name = stated.name.get(place).cloned().unwrap_or_else(|| plan.title.clone());
        let mut offer = Offer { with: stated.with.clone(), ..Offer::of(&name, plan) };
        price(&mut offer, stated, &stock, book.as_ref())?;
        if let Some(photograph) = &mut photograph {
            offer.in_room = filed(&seen(photograph, &offer.plan, path, &stated.pictures)?)?;
        }
        proposal.offers.push(offer);
    }
    if let [only] = &mut proposal.offers[..]
        && stated.name.is_empty()
    {
        proposal.title = std::mem::take(&mut only.name);
    }
    if proposal.title.is_empty() {
        proposal.title = proposal.offers.first().map_or_else(String::new, |offer| offer.plan.title.clone());
    }
    if let Some(title) = &stated.title {
        proposal.title.clone_from(title);
    }
    if let Some(path) = &stated.mark {
        proposal.emblem = filed(&copy(path, MARK_PX)?.0)?;
    }
    if let Some(book) = &book {
        proposal.send_book(book, BookShare::of_key(&stated.send_prices).unwrap_or_default(), &stock)?;
    }
    if let Some(path) = &stated.after {
        let page = super::files::read_text(path, PAGE_BYTES, "a proposal")?;
        let before = in_text(&page).and_then(Proposal::read).map_err(in_file(path))?;
        proposal.follow(&before, &stock).map_err(in_file(path))?;
    }
    let page = super::files::read_text(&stated.page, PAGE_BYTES, "a page")?;
    let text = in_page(&page, &proposal, own_stock.as_deref()).map_err(in_file(&stated.page))?;
    if let Some(path) = &stated.pdf {
        let metric = proposal.offers.iter().all(|offer| offer.plan.units.first == System::Centimetres);
        let sheet = if metric { Paper::A4 } else { Paper::Letter };
        let (document, photos) = proposal.paper(&stock, sheet).map_err(in_file(path))?;
        super::files::put(path, stated.force, &pdf::write(&document, &photos))?;
    }
    out.put(text.as_bytes())?;
    for line in proposal.along() {
        super::tell(format_args!("goes along: {line}"));
    }
    Ok(())
}

/// Puts the pictures of a plan into a proposal, reduced.
fn put_pictures(
    proposal: &mut Proposal,
    stated: &ProposalOf,
    plan: &Plan,
    path: &Path,
) -> Result<(), Failure> {
    let folders = folders(path, &stated.pictures);
    for picture in &plan.pictures {
        match find(picture, &folders) {
            Some(file) => {
                let (raster, found) = copy(&file, stated.largest)?;
                is_as_counted_on(picture, found, stated.smaller)?;
                proposal.put_copy(&picture.name, &filed(&across(&raster, &stated.across))?);
            }
            None => {
                super::tell(format_args!("{} was not found, so the proposal does not have it", picture.file));
            }
        }
    }
    Ok(())
}

/// What the book makes of an option, and the lines stated: apart where there is a total, in which they are not.
fn price(offer: &mut Offer, stated: &ProposalOf, stock: &Stock, book: Option<&Book>) -> Result<(), Failure> {
    if let Some(book) = book {
        let price = priced(&offer.plan, &Figures::of(&offer.plan)?, stock, book);
        warn(&price);
        if price.totals.is_none() && !stated.without_prices {
            return Err(UnpricedError::of(&price).into());
        }
    }
    offer.price(stock, book)?;
    let is_priced = !offer.total.is_empty();
    let apart = |line: &String| if is_priced { format!("not in this total: {line}") } else { line.clone() };
    offer.prices.extend(stated.price.iter().map(apart));
    Ok(())
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
