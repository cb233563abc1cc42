//! `overmantel plan`: a first plan to start from.

use super::failure::pictures::ReadError;
use super::failure::{Failure, FirstPlanError};
use super::given::tell_unit;
use super::pictures::{Inks, open};
use super::suggest::Sizes;
use clap::Args;
use overmantel::fields::{FieldError, read_size};
use overmantel::figures::NoAnswer;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::picture_file::look;
use overmantel::plan::{Picture, Plan, System, file, limits};
use overmantel::suggest::first_plan;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str = "\
Without options, this is the plan that a new user starts from: three framed prints above a sofa, on a wall of 12 × 8 ft.
With a wall or pictures, it is a plan for that wall without furniture: the pictures side by side, uncropped and all of one height, matted
and framed. The group takes at most 57 % of the wall's width; images are no larger than their files allow (200 pixels
per inch) and than the stock list allows. Their height is one that is sold, or otherwise in whole quarters of an inch or half
centimetres.
The pictures themselves stay where they are: the plan has their file names and numbers of pixels, and other commands look for them in
the plan's folder and in those given with --pictures. Write what stands in front of the wall under \"fixtures\", and everything else as
`overmantel schema plan` says; `overmantel suggest` then suggests other plans for the same wall.

Examples:
  overmantel plan > plan.json
  overmantel plan --wall 144x96in --picture flats.jpg --picture harbour.jpg --picture boats.jpg --out plan.json
      three pictures on a wall 144 in wide and 96 in high; width always comes before height
  overmantel plan --wall \"4.2 m x 260 cm\" --picture harbour.jpg | overmantel findings -
      in centimetres, because the wall is, and what is unwise about it
  overmantel plan --wall 420x260 --in centimetres
      three places for pictures that you choose later";

/// The wall and the pictures, and where to write the plan.
#[derive(Args)]
pub(crate) struct FirstPlan {
    /// Width and height of the wall, such as 144x96in, "12' x 8'" or "4.2 m x 2.6 m"; 12 × 8 ft or 3.6 × 2.4 m when left out
    #[arg(long, value_name = "SIZE", value_parser = is_size)]
    wall: Option<String>,
    /// A picture file: JPEG, PNG, WebP or AVIF; can be repeated up to three times, from left to right
    #[arg(long, value_name = "FILE")]
    picture: Vec<PathBuf>,
    /// The units of the plan, and of a wall without a unit; when left out, the wall's units, and inches for a wall without a unit
    #[arg(long = "in", value_enum, value_name = "SYSTEM")]
    system: Option<Sizes>,
    /// What the plan is called
    #[arg(long)]
    title: Option<String>,
    /// Your own stock list, which replaces or adds to the standard one
    #[arg(long, value_name = "FILE")]
    stock: Option<PathBuf>,
    #[command(flatten)]
    to: super::To,
}

/// Bytes of a file in which its size is looked for.
const HEAD_BYTES: u64 = 2 * 1024 * 1024;

pub(crate) fn run(stated: &FirstPlan) -> Result<(), Failure> {
    let plan = if stated.wall.is_none() && stated.picture.is_empty() && stated.system.is_none() {
        let plan = Plan::starting();
        Plan { title: stated.title.clone().unwrap_or(plan.title), ..plan }
    } else {
        let (wall, system) = wall(stated);
        // Who states the units of the plan knows what the wall is read in.
        if let (Some(text), None) = (&stated.wall, stated.system) {
            tell_unit(text, system, wall);
        }
        let stock = super::files::read_stock(stated.stock.as_deref())?;
        let title = stated.title.as_deref().unwrap_or("A first plan");
        first_plan(title, wall, system, pictures(&stated.picture)?, &stock)?
    };
    plan.check().map_err(NoAnswer::from)?;
    stated.to.put(&(file::write(&plan) + "\n"))
}

/// Whether a text is a size, in whatever units.
fn is_size(text: &str) -> Result<String, FieldError> {
    read_size(text, System::Inches).map(|_| text.to_owned())
}

/// The wall, and the units of the plan. Of the units that are read, those of metres alone have an m in them.
fn wall(stated: &FirstPlan) -> (Size, System) {
    let text = stated.wall.as_deref().unwrap_or_default();
    let own = if text.to_lowercase().contains('m') { System::Centimetres } else { System::Inches };
    let system = stated.system.map_or(own, Sizes::system);
    let usual = match system {
        System::Inches => Size::inches(144, 96),
        System::Centimetres => Size::new(Length::mm(3600), Length::mm(2400)),
    };
    (read_size(text, system).unwrap_or(usual), system)
}

/// The pictures of these files, each with a title of its own.
fn pictures(files: &[PathBuf]) -> Result<Vec<Picture>, Failure> {
    let mut pictures: Vec<Picture> = Vec::new();
    for path in files {
        let mut picture = picture(path)?;
        if pictures.iter().any(|other| other.file == picture.file) {
            return Err(FirstPlanError::Twice(picture.file).into());
        }
        if pictures.iter().any(|other| other.name == picture.name) {
            picture.name.clone_from(&picture.file);
        }
        pictures.push(picture);
    }
    Ok(pictures)
}

/// A picture by its file: the title is its name without the ending.
fn picture(path: &Path) -> Result<Picture, Failure> {
    super::files::noted(path);
    let file = File::open(path).map_err(|why| Failure::Open { path: path.to_owned(), why })?;
    let mut head = Vec::new();
    file.take(HEAD_BYTES)
        .read_to_end(&mut head)
        .map_err(|why| Failure::Read { path: path.to_owned(), why })?;
    let looked = look(&head, &path.display().to_string()).map_err(FirstPlanError::Picture)?;
    // What can't be decoded here, such as AVIF, is taken as it is stored.
    let (width_px, height_px) = match open(path, Inks::Shown) {
        Ok(source) => source.upright_px(),
        Err(ReadError::Unknown(_)) => looked,
        Err(why) => return Err(why.into()),
    };
    let named = |part: Option<&std::ffi::OsStr>| {
        part.map_or_else(String::new, |name| name.to_string_lossy().into_owned())
    };
    let name = named(path.file_stem()).replace(['-', '_'], " ");
    let name = name.chars().take(limits::NAME).collect();
    Ok(Picture { name, file: named(path.file_name()), width_px, height_px, subject: None })
}
