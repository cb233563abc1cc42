//! Pages with something inside: a proposal, or a studio's pictures. Their script and style are a page's own, so that its policy
//! holds.

use super::{Proposal, ProposalError};
use crate::link;
use crate::plan::{Picture, Piece, Plan, file, limits};
use crate::prices::Book;
use crate::stock::Stock;

/// What says that a block is a list of stock.
const OWN_STOCK: &str = "id=\"own-stock\"";

/// A page of Overmantel with a proposal inside and without its demo; with the list of stock by which its plans are made, where that
/// is not the one on offer.
///
/// # Errors
/// When the text is no page of Overmantel, or the proposal can't be written.
pub fn in_page(page: &str, proposal: &Proposal, stock: Option<&str>) -> Result<String, ProposalError> {
    page_with(page, &proposal.title, &proposal.block(stock)?)
}

/// The data of the proposal in a text: all of it where it is that, or what stands in a page with one inside.
///
/// # Errors
/// When the text is a page without a proposal.
pub fn in_text(text: &str) -> Result<&str, ProposalError> {
    if text.trim_start().starts_with('{') {
        return Ok(text);
    }
    let (_, behind) = text.split_once("id=\"proposal\"").ok_or(ProposalError::NoProposal)?;
    let (_, behind) = behind.split_once('>').ok_or(ProposalError::NoProposal)?;
    behind.split_once("</script>").map(|(data, _)| data).ok_or(ProposalError::NoProposal)
}

/// What a studio offers with its pictures, as files.
#[derive(Clone, Copy, Debug, Default)]
pub struct Offered<'a> {
    /// Its sizes and mouldings: a stock file. Default: none.
    pub stock: Option<&'a str>,
    /// Its prices: a price book. Default: none.
    pub book: Option<&'a str>,
}

/// The plan from which a studio's buyers start: the first of its pictures on a wall.
///
/// # Errors
/// When there are no pictures or too many, or one of them can't be in a plan.
pub fn studio_plan(title: &str, mut pictures: Vec<Picture>) -> Result<Plan, ProposalError> {
    let count = pictures.len();
    if count == 0 || count > limits::PICTURES {
        return Err(ProposalError::Count(count));
    }
    // A page finds a picture by the name of its file.
    for index in 1..count {
        let file = pictures[index].file.clone();
        if pictures[..index].iter().any(|other| other.file == file) {
            pictures[index].file = [&index.to_string(), "-", &file].concat();
        }
    }
    let shown = count.min(limits::PIECES);
    let pieces = (0..shown).map(|index| Piece { picture: Some(index), ..Piece::starting() }).collect();
    let plan = Plan { title: title.to_owned(), pictures, pieces, ..Plan::starting() };
    plan.check()?;
    Ok(plan)
}

/// A studio's page: one of Overmantel with a painter's own pictures in place of the demo's, a plan that shows the first of them, and
/// the sizes, mouldings and prices that are offered with them, where there are files of them.
///
/// Each picture comes as a JPEG in base64, in the order of the plan's pictures.
///
/// # Errors
/// When the text is no page of Overmantel, or what goes into it can't.
pub fn studio(
    page: &str,
    plan: &Plan,
    pictures: &[String],
    offered: Offered<'_>,
) -> Result<String, ProposalError> {
    page_with(page, &plan.title, &studio_blocks(plan, pictures, offered)?)
}

/// What makes a page a studio's: the data that stands in it before its script.
///
/// # Errors
/// When there are not as many pictures as the plan names, or a file of what is offered can't be read.
pub fn studio_blocks(
    plan: &Plan,
    pictures: &[String],
    offered: Offered<'_>,
) -> Result<String, ProposalError> {
    if pictures.len() != plan.pictures.len() {
        return Err(ProposalError::Pictures { named: plan.pictures.len(), given: pictures.len() });
    }
    let mut blocks: Vec<String> = Vec::new();
    for (picture, jpeg) in plan.pictures.iter().zip(pictures) {
        let name = escaped(&picture.file).replace('"', "&quot;");
        let head = "<script type=\"image/jpeg;base64\" class=\"demo-picture\" data-name=\"";
        blocks.push([head, &name, "\">", jpeg, "</script>"].concat());
    }
    // By the mark, what is kept of plans made on this page is kept apart from what other pages keep.
    let attributes =
        format!("class=\"demo-plan\" data-name=\"studio.json\" data-mark=\"{:08x}\"", link::mark(plan));
    blocks.push(block(&attributes, &file::write(plan)));
    blocks.extend(offered.stock.map(stock_block).transpose()?);
    if let Some(book) = offered.book {
        Book::read(book).map_err(ProposalError::Book)?;
        blocks.push(block("id=\"own-prices\"", book));
    }
    Ok(blocks.join("\n"))
}

/// A list of stock as a block of a page.
pub(super) fn stock_block(stock: &str) -> Result<String, ProposalError> {
    Stock::read(stock).map_err(ProposalError::Stock)?;
    Ok(block(OWN_STOCK, stock))
}

/// A block of JSON in a page.
pub(super) fn block(attributes: &str, json: &str) -> String {
    ["<script type=\"application/json\" ", attributes, ">", &inert(json), "</script>"].concat()
}

/// JSON that can't end the element it stands in, as ASCII: the letters that are spelled otherwise occur only inside strings.
pub(super) fn inert(json: &str) -> String {
    let mut text = String::new();
    for c in json.trim().chars() {
        if c.is_ascii() && c != '<' {
            text.push(c);
        } else {
            text.extend(c.encode_utf16(&mut [0; 2]).iter().map(|unit| format!("\\u{unit:04x}")));
        }
    }
    text
}

/// What marks the core in pages that were handed out before it came in parts.
const OLDER_CORE: &str = "id=\"core\"";

/// A page with other data blocks than its own. Its script and its style are the same, so that its policy holds.
fn page_with(page: &str, title: &str, blocks: &str) -> Result<String, ProposalError> {
    // The script that runs is the only one without a type; data blocks have no `<` in them.
    let (before, script) = page.split_once("<script>").ok_or(ProposalError::NoPage)?;
    let (start, rest) = before.split_once("<title>").ok_or(ProposalError::NoPage)?;
    let (_, mut rest) = rest.split_once("</title>").ok_or(ProposalError::NoPage)?;
    // The core comes behind it; in older pages it stands before it, as one block.
    if !script.contains("class=\"core\"") && !rest.contains(OLDER_CORE) {
        return Err(ProposalError::NoPage);
    }
    let mut text = [start, "<title>", &escaped(title), "</title>"].concat();
    // Blocks of the demo, and of a proposal that was inside before, are left out.
    while let Some((kept, block)) = rest.split_once("<script type=\"") {
        text += kept;
        let (head, behind) = block.split_once('>').ok_or(ProposalError::NoPage)?;
        let (body, behind) = behind.split_once("</script>").ok_or(ProposalError::NoPage)?;
        let is_stock = head.contains(OWN_STOCK) && !blocks.contains(OWN_STOCK);
        if head.contains(OLDER_CORE) || is_stock {
            text += &["<script type=\"", head, ">", body, "</script>"].concat();
        }
        rest = behind;
    }
    text += rest;
    text.truncate(text.trim_end().len());
    text += &["\n", blocks, "\n<script>"].concat();
    // Behind the script are the core's blocks, and among them pictures of the demo.
    let (code, mut rest) = script.split_once("</script>").ok_or(ProposalError::NoPage)?;
    text += &[code, "</script>"].concat();
    while let Some((kept, block)) = rest.split_once("<script type=\"") {
        text += kept;
        let (block, behind) = block.split_once("</script>").ok_or(ProposalError::NoPage)?;
        let head = block.split_once('>').map_or("", |(head, _)| head);
        if head.contains("class=\"demo-picture\"") {
            rest = behind.trim_start();
        } else {
            text += &["<script type=\"", block, "</script>"].concat();
            rest = behind;
        }
    }
    text += rest;
    Ok(text)
}

/// Text in a page, as ASCII.
fn escaped(text: &str) -> String {
    let one = |c: char| {
        if c.is_ascii() && !"&<".contains(c) { c.to_string() } else { format!("&#{};", u32::from(c)) }
    };
    text.chars().map(one).collect()
}
