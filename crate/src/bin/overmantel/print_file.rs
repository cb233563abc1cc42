//! `overmantel print-file`: pieces as print-ready pictures, row by row, so that pictures of hundreds of megapixels need little memory.

use super::batch::{Plans, Turn, each};
use super::failure::pictures::ReadError;
use super::failure::print_file::MakeError;
use super::failure::{Failure, in_file};
use super::files;
use super::picture::find;
use super::pictures::{Inks, MOST_BYTES, open};
use super::tell;
use clap::Args;
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::length::parse::parse;
use overmantel::plan::Plan;
use overmantel::print_file::{PrintFileError, PrintWish, Recipe, is_meant, limits};
use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};

mod exif;
mod made;
mod profile;
mod progress;
mod turned;
mod written;

use made::Made;
use progress::Progress;
use turned::Upright;
use written::Format;

pub(crate) const HELP: &str = "\
Each piece becomes one file: what the plan keeps of the picture, at the picture's full resolution and with no pixel changed, or scaled in linear
light to the resolution you give. The white border of a sheet, the edges of a canvas (wrapped round the edge, mirrored or solid) and a
bleed are added. The file states its resolution: exactly in a TIFF and in the Exif of a JPEG, in whole pixels per metre in a PNG, which has no
other. Its colour profile is the picture's own, byte for byte; Exif with its names and places is never copied.

A bleed continues what is outermost. A picture continues with its own pixels as far as its file has any beyond what is kept, and with a mirror image for
the rest; a white border stays white, a solid edge keeps its colour, and a mirrored wrap continues in mirror image.

Read and written row by row: PNG, TIFF (a compressed one by its strips or tiles), and JPEG that is not progressive. WebP, interlaced PNG and
progressive JPEG are read as a whole. A picture that is stored on its side is first turned in a temporary file next to the output. Grey and RGB of 8 or 16 bits work; CMYK does not.
A file that already exists is left alone unless you give --force. What was made of each piece is printed to standard error.

Examples:
  overmantel print-file plan.json --out prints --pictures ~/paintings
  overmantel print-file plan.json --piece 2 --out prints --format tiff --bleed \"1/8 in\"
  overmantel print-file plan.json --out prints --format jpeg --quality 92 --resolution 300
  overmantel print-file plans/*.json --out prints --pictures ~/paintings
  overmantel print-file plan.json --piece 1 --out - > print.png";

/// Of which plan and piece, how, and where to.
#[derive(Args)]
pub(crate) struct PrintFile {
    #[command(flatten)]
    plans: Plans,
    /// Which piece, counted from 1, or all
    #[arg(long, default_value = "all", value_parser = read_piece)]
    piece: Which,
    /// The folder to write to, created if it does not exist; or - for standard output, for one piece of one plan
    #[arg(long, value_name = "FOLDER")]
    out: PathBuf,
    /// Another folder with picture files; can be repeated
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
    /// The kind of file
    #[arg(long, value_enum, default_value_t = Format::Png)]
    format: Format,
    /// Quality of a JPEG, 1 to 100
    #[arg(long, default_value_t = 95, value_parser = super::given::whole::<u8>(1, 100))]
    quality: u8,
    /// Resolution to scale the picture to, in pixels per inch; when left out, the plan's, or otherwise the file's own
    #[arg(long, alias = "density", value_name = "PPI", value_parser = super::given::whole::<u32>(limits::DENSITY[0], limits::DENSITY[1]))]
    resolution: Option<u32>,
    /// Bleed on each side, such as "1/8 in" or "3 mm": the picture's own pixels beyond what is kept where its file has any, otherwise its mirror
    /// image; or the border's or the edge's colour
    #[arg(long, value_name = "LENGTH")]
    bleed: Option<String>,
    /// Leave the white border of a sheet to the shop
    #[arg(long)]
    no_border: bool,
    /// Accept a picture with fewer pixels than the plan expects
    #[arg(long)]
    smaller: bool,
    /// Overwrite files that already exist
    #[arg(long)]
    force: bool,
}

/// Which pieces.
#[derive(Clone, Copy)]
enum Which {
    All,
    One(usize),
}

/// The text names no piece.
#[derive(Debug, thiserror::Error)]
#[error("give 1, 2 and so on, or all")]
struct NotAPiece;

fn read_piece(text: &str) -> Result<Which, NotAPiece> {
    if text == "all" {
        return Ok(Which::All);
    }
    let number = text.parse().ok().filter(|number| *number > 0);
    number.map(|number: usize| Which::One(number - 1)).ok_or(NotAPiece)
}

/// A piece on its way into a file.
struct Job {
    /// The units of its plan.
    first: overmantel::plan::System,
    number: usize,
    recipe: Recipe,
    picture: PathBuf,
    file: PathBuf,
}

pub(crate) fn run(stated: &PrintFile) -> Result<(), Failure> {
    let plans = stated.plans.files()?;
    if files::is_dash(&stated.out) && plans.len() > 1 {
        return Err(Failure::OneWanted);
    }
    each(&plans, ["picture", "pictures"], |turn| pieces(stated, turn))
}

/// Makes what is wanted of a plan.
fn pieces(stated: &PrintFile, turn: &Turn<'_>) -> Result<(), Failure> {
    let path = turn.path;
    let mut plan = files::read_plan(path)?;
    let bleed = match &stated.bleed {
        Some(text) => {
            let bleed = parse(text, plan.units.first.bare_unit()).map_err(MakeError::Bleed)?;
            super::given::tell_unit(text, plan.units.first, Size::new(bleed, bleed));
            bleed
        }
        None => Length::ZERO,
    };
    let wish = PrintWish {
        density: stated.resolution.or(plan.file_resolution),
        bleed,
        has_border: !stated.no_border,
    };
    let pieces: Vec<usize> = match stated.piece {
        Which::All => (0..plan.pieces.len()).collect(),
        Which::One(piece) => vec![piece],
    };
    let first = Figures::of(&plan).map_err(in_file(path))?;
    let mut meant = Vec::new();
    let mut found: Vec<Option<PathBuf>> = vec![None; plan.pictures.len()];
    for piece in pieces {
        match Recipe::of(&plan, &first, piece, wish) {
            Ok(recipe) => meant.push((piece, recipe.picture)),
            Err(why) if matches!(stated.piece, Which::All) && is_original(&plan, piece) => {
                tell(&why);
            }
            Err(why) => return Err(MakeError::Recipe(why).into()),
        }
    }
    if meant.is_empty() {
        return Err(MakeError::Nothing.into());
    }
    for &(_, picture) in &meant {
        if found[picture].is_none() {
            found[picture] = Some(looked_up(stated, path, &mut plan, picture)?);
        }
    }
    // What is kept is calculated again in the pixels that the files have.
    let figures = Figures::of(&plan).map_err(in_file(path))?;
    let stem = files::stem(path);
    let jobs = meant.into_iter().map(|(piece, picture)| {
        let number = piece + 1;
        Ok(Job {
            first: plan.units.first,
            number,
            recipe: Recipe::of(&plan, &figures, piece, wish)?,
            picture: found[picture].clone().unwrap_or_default(),
            file: stated.out.join(format!("{stem}-{number}.{}", stated.format.ending())),
        })
    });
    let jobs = jobs.collect::<Result<Vec<_>, PrintFileError>>().map_err(MakeError::Recipe)?;
    if !files::is_dash(&stated.out) {
        jobs.iter().try_for_each(|job| files::check_free(&job.file, stated.force))?;
        files::make_folder(&stated.out)?;
    } else if jobs.len() > 1 {
        return Err(Failure::OneWanted);
    }
    jobs.iter().try_for_each(|job| make(stated, job, turn))
}

fn is_original(plan: &Plan, piece: usize) -> bool {
    plan.pieces.get(piece).is_some_and(|piece| piece.finish.is_original())
}

/// Finds a picture's file, sees that it is the one that is meant, and takes over how many pixels it has.
fn looked_up(stated: &PrintFile, path: &Path, plan: &mut Plan, picture: usize) -> Result<PathBuf, Failure> {
    let folders = files::folders(path, &stated.pictures);
    let picture = &mut plan.pictures[picture];
    let path = find(picture, &folders).ok_or_else(|| MakeError::NotFound(picture.file.clone()))?;
    let upright = open(&path, Inks::Refused)?.upright_px();
    let stated_px = (picture.width_px, picture.height_px);
    let said = is_meant(&picture.file, stated_px, upright, stated.smaller).map_err(|why| {
        if upright.0 < stated_px.0 { MakeError::Smaller(why) } else { MakeError::Recipe(why) }
    })?;
    if let Some(said) = said {
        tell(said);
    }
    (picture.width_px, picture.height_px) = upright;
    Ok(path)
}

fn make(stated: &PrintFile, job: &Job, turn: &Turn<'_>) -> Result<(), Failure> {
    let recipe = &job.recipe;
    let source = open(&job.picture, Inks::Refused)?;
    let (form, profile, mut said) = (source.form, source.profile.clone(), source.said.clone());
    let white = overmantel::colour::Colour::hex(0xff_ff_ff);
    let (out_form, colour) =
        profile::pixel(recipe.colour().unwrap_or(white), form, profile.as_deref()).ok_or_else(|| {
            MakeError::GreyProfile { piece: job.number, colour: recipe.colour().unwrap_or(white) }
        })?;
    said.push(profile::said(profile.as_deref()));
    if out_form.is_coloured && !form.is_coloured {
        said.push("the grey picture becomes RGB because of the edge's colour".into());
    }
    if stated.format == Format::Jpeg && form.is_wide {
        said.push("16 bits become 8, as JPEG requires".into());
    }
    let bytes = recipe.held_bytes(out_form).saturating_add(source.bytes);
    if bytes > MOST_BYTES {
        return Err(MakeError::Memory { piece: job.number, bytes, most: MOST_BYTES }.into());
    }
    let first = overmantel::print_file::Rows::new(recipe, out_form, &colour).needed().start;
    let (height, label) = (source.stored_px.1, format!("piece {}", job.number));
    let mut laying = Progress::new(format!("{label}, turning"));
    let temporary = std::env::temp_dir();
    let beside = if files::is_dash(&stated.out) { &temporary } else { &stated.out };
    let upright = Upright::of(source, first, beside, &mut |row| laying.at(row, height))?;
    drop(laying);
    let made = Made::new(recipe, (form, out_form), &colour, upright, Progress::new(label));
    let fill = |out: &mut BufWriter<&File>| {
        stated.format.write(out, recipe, profile.as_deref(), stated.quality, made)
    };
    let written = if files::is_dash(&stated.out) {
        files::print(fill)
    } else {
        files::write(&job.file, stated.force, fill)
    };
    written.map_err(of_the_picture)?;
    turn.wrote(report(stated, job, &said));
    Ok(())
}

/// What goes wrong in the picture is not the fault of the file that is made of it.
fn of_the_picture(why: Failure) -> Failure {
    match why {
        Failure::Write { path, why } => match why.downcast::<ReadError>() {
            Ok(why) => Failure::ReadRows(*why),
            Err(why) => Failure::Write { path, why },
        },
        other => other,
    }
}

/// What was made, in words.
fn report(stated: &PrintFile, job: &Job, said: &[String]) -> String {
    let recipe = &job.recipe;
    let picture =
        job.picture.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let mut lines = recipe.words(&picture, job.first);
    lines[0] = format!("piece {}: {}, {}", job.number, job.file.display(), lines[0]);
    lines.push(format!("resolution in the file: {}", stated.format.density(recipe)));
    lines.extend(said.iter().cloned());
    lines.join("\n    ")
}
