//! `overmantel link` and `overmantel open`: a plan as a link, and the plan of a link.

use super::failure::Failure;
use super::picture::{find, load};
use clap::Args;
use overmantel::draw::LoadedPicture;
use overmantel::link::{self, Detail, Link, Sketch};
use std::path::PathBuf;

pub(crate) const HELP: &str =
    "\
The whole plan is in the link, after the #; a browser does not send that part to any server. Pictures are not in it: in their place it has
anything from their main colours (about 15 characters each) to a small likeness, which takes what
is left of 2000 characters. Pictures are found by the
file names in the plan, in the plan's folder and in the folders given with --pictures.
About 2000 characters work in any mail or chat, about 1000 in a QR code that a phone reads off a screen.

Examples:
  overmantel link plan.json
      what goes after # in the address of a page of Overmantel
  overmantel link plan.json --address https://example.org/wall.html --sketches likeness
  overmantel open \"$(overmantel link plan.json)\"
      the same plan again";

pub(crate) const OPEN_HELP: &str =
    "\
Takes an address, the part after # in it, or - to read it from standard input. Anything from a newer page that this program
does not know is left out, with a note.

Examples:
  overmantel open 'https://example.org/wall.html#AQ…' > plan.json
  overmantel open - < answer.txt";

/// The plan, and how.
#[derive(Args)]
pub(crate) struct LinkTo {
    /// The plan file, or - for standard input
    plan: PathBuf,
    /// The address of a published page, to go before the #
    #[arg(long, value_name = "ADDRESS")]
    address: Option<String>,
    /// How much of each picture goes into the link
    #[arg(long, value_enum, default_value_t = Sketches::Colours)]
    sketches: Sketches,
    /// Another folder with picture files; can be repeated
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
}

/// How much of a picture goes into a link.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Sketches {
    /// Nothing
    None,
    /// Its main colours
    Colours,
    /// A hint, as if seen from across a street
    Hint,
    /// A small likeness
    Likeness,
}

/// Pixels of a picture that a sketch is made from at most.
const SKETCHED_PX: u32 = 400;

pub(crate) fn run(stated: &LinkTo) -> Result<(), Failure> {
    let plan = super::files::read_plan(&stated.plan)?;
    overmantel::figures::Figures::of(&plan)?;
    let detail = match stated.sketches {
        Sketches::None => None,
        Sketches::Colours => Some(Detail::Colours),
        Sketches::Hint => Some(Detail::Hint),
        Sketches::Likeness => Some(Detail::Likeness),
    };
    let folders = super::files::folders(&stated.plan, &stated.pictures);
    let mut copies = Vec::new();
    if detail.is_some() {
        for picture in &plan.pictures {
            copies.push(match find(picture, &folders) {
                Some(path) => Some(load(picture, &path, SKETCHED_PX)?),
                None => {
                    super::tell(format_args!(
                        "{} was not found, so the link has no colours or likeness of it",
                        picture.file
                    ));
                    None
                }
            });
        }
    }
    let around =
        stated.address.as_ref().map_or(Ok(1), |page| link::address(page, "").map(|all| all.len()))?;
    let mut link = Link::of(plan);
    if let Some(detail) = detail {
        let room = link::room(&link, detail, copies.iter().flatten().count(), around);
        let sketch = |copy: &LoadedPicture| Sketch::of(copy.pyramid.raster(), detail, room);
        link.sketches = copies.iter().map(|copy| copy.as_ref().map(sketch)).collect();
    }
    let text = link::write(&link);
    super::say(&match &stated.address {
        Some(address) => format!("{}\n", link::address(address, &text)?),
        None => text + "\n",
    })
}

/// The link to open.
#[derive(Args)]
pub(crate) struct Open {
    /// The link, or - for standard input
    #[arg(value_name = "LINK")]
    link: String,
}

pub(crate) fn open(stated: &Open) -> Result<(), Failure> {
    let text = if stated.link == "-" { standard_input()? } else { stated.link.clone() };
    let (link, unread) = link::read(&text)?;
    if let Some(told) = link::text(unread) {
        super::tell(told);
    }
    // What has no figures is of no use to any other command.
    overmantel::figures::Figures::of(&link.plan)?;
    super::say_json(&(overmantel::plan::file::write(&link.plan) + "\n"))
}

fn standard_input() -> Result<String, Failure> {
    use std::io::Read;
    let mut text = String::new();
    // Longer than any link with an address and a letter round it; the rest would be refused anyway.
    let most = link::MOST_CHARACTERS as u64 * 2;
    std::io::stdin().take(most).read_to_string(&mut text).map_err(Failure::Input)?;
    Ok(text)
}
