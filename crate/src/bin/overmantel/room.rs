//! `overmantel room`: a photograph of a room with a sheet of paper on its wall, measured, and a plan's pieces drawn in it.

use super::failure::Failure;
use super::files::{Destination, JSON, Kind, PNG, folders, read_text};
use super::picture::{Pixels, find, load, not_found, shown, write_png};
use super::pictures::copy::copy;
use clap::Args;
use image::ImageEncoder;
use image::codecs::jpeg::JpegEncoder;
use overmantel::draw::LoadedPicture;
use overmantel::figures::Figures;
use overmantel::length::{Length, Unit, parse::parse};
use overmantel::photograph::paper::Paper;
use overmantel::photograph::room::{LightFrom, MOST_SIDE_PX, Room, RoomError, Thing};
use overmantel::photograph::taken::Taken;
use overmantel::photograph::view::Drawn;
use overmantel::plan::{Picture, Plan};
use overmantel::resample::Raster;
use overmantel::scene::scene;
use std::io::Write;
use std::path::{Path, PathBuf};

pub(crate) const HELP: &str =
    "\
Tape a sheet of A4 or Letter flat and upright to the wall and take one photograph from in front of it, with much of the wall, its floor line and
its ceiling. The sheet is found by itself, and so are edges along the wall that are level or plumb: they make lengths far from the sheet sure.
Pixels are those of the photograph upright and, where it has more, reduced to 2400 on its longer side, counted from its upper left corner.

Examples:
  overmantel room plan.json --photo wall.jpg --out room.jpg --pictures ~/paintings
  overmantel room plan.json --photo wall.jpg --left 12,400 --right 1507,124 --floor 800,1010 --ceiling 800,95 --json -
  overmantel room plan.json --photo wall.jpg --sheet letter --corners 582,439 662,437 665,548 587,550 --out room.png
  overmantel room plan.json --photo wall.jpg --length 1170,370 1172,1130 \"2.04 m\" --take measured.json

What it can't promise: a centimetre near the sheet and a few in the corners of the room, no wide angles, two colours of light only roughly, a
phone's own tone curve. Measure the wall before you drill.";

/// Pictures of a view.
const VIEW: Kind = Kind { words: "a PNG or a JPEG", endings: &["png", "jpg", "jpeg"] };
/// Bytes of marks at most.
const MOST_MARKS_BYTES: usize = 4 << 20;

/// Which photograph, and what is known of it.
#[derive(Args)]
pub(crate) struct RoomOf {
    /// The plan file, or - for standard input; when left out, the photograph is only measured
    plan: Option<PathBuf>,
    /// The photograph
    #[arg(long, value_name = "FILE")]
    photo: PathBuf,
    /// Which paper hangs on the wall: a4, a3, letter, legal, card; what its shape says when left out
    #[arg(long, value_name = "PAPER", value_parser = paper)]
    sheet: Option<Paper>,
    /// The size of a rectangle on the wall that is no paper, as it hangs, such as 40x50cm; its corners have to be given
    #[arg(long, value_name = "SIZE", requires = "corners", conflicts_with = "sheet")]
    rectangle: Option<String>,
    /// The corners of the sheet in pixels: top left, top right, bottom right, bottom left; found when left out
    #[arg(long, value_name = "X,Y", num_args = 4, value_parser = pixel, allow_hyphen_values = true)]
    corners: Vec<Pixel>,
    /// An edge along the wall that is level or plumb, from one pixel to another; can be repeated
    #[arg(long, value_name = "X,Y", num_args = 2, value_parser = pixel, allow_hyphen_values = true)]
    line: Vec<Pixel>,
    /// Do not look for such edges
    #[arg(long)]
    no_lines: bool,
    /// A length on the wall that was measured: two pixels and the length; can be repeated
    #[arg(long, value_names = ["X,Y", "X,Y", "LENGTH"], num_args = 3, allow_hyphen_values = true)]
    length: Vec<String>,
    /// A pixel where the wall ends to the left
    #[arg(long, value_name = "X,Y", value_parser = pixel, allow_hyphen_values = true)]
    left: Option<Pixel>,
    /// A pixel where it ends to the right
    #[arg(long, value_name = "X,Y", value_parser = pixel, allow_hyphen_values = true)]
    right: Option<Pixel>,
    /// A pixel where it meets the ceiling
    #[arg(long, value_name = "X,Y", value_parser = pixel, allow_hyphen_values = true)]
    ceiling: Option<Pixel>,
    /// A pixel where it meets the floor
    #[arg(long, value_name = "X,Y", value_parser = pixel, allow_hyphen_values = true)]
    floor: Option<Pixel>,
    /// Something on the wall: its kind as in a plan, and two opposite corners; can be repeated
    #[arg(long, value_names = ["KIND", "X,Y", "X,Y"], num_args = 3, allow_hyphen_values = true)]
    thing: Vec<String>,
    /// Where the middle of the sheet is on the plan's wall: from its left corner and from its floor
    #[arg(long, value_name = "LENGTH", num_args = 2, conflicts_with_all = ["left", "floor"])]
    sheet_at: Vec<String>,
    /// From where the light comes: left, right, above, below, around; read off the wall when left out
    #[arg(long, value_name = "SIDE", value_parser = light)]
    light: Option<LightFrom>,
    /// Draw the pieces before everything, whatever stands there
    #[arg(long)]
    nothing_before: bool,
    /// The focal length for 35 mm film, in millimetres; what the file says when left out
    #[arg(long, value_name = "MM")]
    focal: Option<f64>,
    /// Marks that were saved before, in place of what would be found
    #[arg(long, value_name = "FILE")]
    marks: Option<PathBuf>,
    /// Save the marks, to change and to give again
    #[arg(long, value_name = "FILE")]
    save_marks: Option<PathBuf>,
    /// Write the photograph with the pieces, as PNG or JPEG
    #[arg(long, value_name = "FILE", requires = "plan")]
    out: Option<PathBuf>,
    /// Its longer side in pixels at most
    #[arg(long, default_value_t = MOST_SIDE_PX, value_parser = super::given::whole::<u32>(64, MOST_SIDE_PX))]
    width: u32,
    /// Write what was measured as JSON; printed when left out and nothing else is written
    #[arg(long, value_name = "FILE")]
    json: Option<PathBuf>,
    /// Write the plan with what was measured in it
    #[arg(long, value_name = "FILE", requires = "plan")]
    take: Option<PathBuf>,
    /// Another folder with picture files; can be repeated
    #[arg(long, value_name = "FOLDER")]
    pictures: Vec<PathBuf>,
    /// Overwrite files that already exist
    #[arg(long)]
    force: bool,
}

/// A photograph that something shows the pieces in.
#[derive(Args)]
pub(crate) struct SeenIn {
    /// Also show the pieces in this photograph of the room, with a sheet of paper on its wall; whoever reads it sees the room
    #[arg(long, value_name = "FILE")]
    photo: Option<PathBuf>,
    /// What was marked in it, as `overmantel room --save-marks` wrote it; found when left out
    #[arg(long, value_name = "FILE", requires = "photo")]
    marks: Option<PathBuf>,
}

/// Pixels of the longer side of a view that goes along with something.
const SENT_PX: u32 = 1600;

impl SeenIn {
    /// The photograph, ready for plans to be seen in; none where none is stated.
    pub(crate) fn taken(&self) -> Result<Option<Taken>, Failure> {
        let found = |photo: &PathBuf| photograph(photo, self.marks.as_deref(), None, None);
        self.photo.as_ref().map(found).transpose()
    }
}

/// The pieces of a plan in a photograph, as they go along with something.
pub(crate) fn seen(
    taken: &mut Taken,
    plan: &Plan,
    given: &Path,
    further: &[PathBuf],
) -> Result<Raster, Failure> {
    let Drawn { pixels, width, height, .. } = in_room(plan, &folders(given, further), taken, SENT_PX)?;
    Raster::new(width, height, pixels.to_vec()).ok_or_else(|| RoomError::NoSheet.into())
}

/// A pixel of the photograph.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pixel([f64; 2]);

fn pixel(text: &str) -> Result<Pixel, String> {
    let parts: Vec<Option<f64>> = text.split(',').map(|part| part.trim().parse().ok()).collect();
    match parts[..] {
        [Some(x), Some(y)] if x.is_finite() && y.is_finite() => Ok(Pixel([x, y])),
        _ => Err("a pixel is written as 582.4,438.8: from the left, a comma, from the top".to_owned()),
    }
}

fn paper(text: &str) -> Result<Paper, String> {
    Paper::of_key(text).ok_or_else(|| "choose a4, a3, letter, legal or card, or give --rectangle".to_owned())
}

fn light(text: &str) -> Result<LightFrom, String> {
    serde_json::from_value(text.into()).map_err(|_| "choose left, right, above, below or around".to_owned())
}

fn given(text: &str) -> Result<[f64; 2], Failure> {
    pixel(text).map(|Pixel(at)| at).map_err(|why| Failure::Given { text: text.to_owned(), why })
}

fn stated_length(text: &str) -> Result<Length, Failure> {
    parse(text, Unit::Centimetre)
        .map_err(|why| Failure::Given { text: text.to_owned(), why: why.to_string() })
}

pub(crate) fn run(stated: &RoomOf) -> Result<(), Failure> {
    let to = |path: &Option<PathBuf>, kind: Kind| {
        path.as_ref().map(|path| Destination::of(path, stated.force, kind)).transpose()
    };
    let (out, json) = (to(&stated.out, VIEW)?, to(&stated.json, JSON)?);
    let (take, save_marks) = (to(&stated.take, JSON)?, to(&stated.save_marks, JSON)?);
    let plan = stated.plan.as_ref().map(|path| super::files::read_plan(path)).transpose()?;
    let mut taken = photograph(&stated.photo, stated.marks.as_deref(), stated.focal, stated.sheet)?;
    mark(&mut taken, stated)?;
    let units = plan.as_ref().map_or_else(|| Plan::starting().units, |plan| plan.units);
    let report = taken.report(units)?;
    for note in report.notes.iter().filter(|note| note.is_warning) {
        super::tell(&note.text);
    }
    if let Some(out) = &save_marks {
        out.put((taken.room().write() + "\n").as_bytes())?;
    }
    let text = serde_json::to_string_pretty(&report)? + "\n";
    match &json {
        Some(out) => out.put(text.as_bytes())?,
        None if out.is_none() && take.is_none() && save_marks.is_none() => {
            super::files::print(|out| Ok(out.write_all(text.as_bytes())?))?;
        }
        None => {}
    }
    let Some(plan) = plan else { return Ok(()) };
    if let Some(take) = &take {
        let measured = taken.room().taken_into(&plan)?;
        Figures::of(&measured)?;
        take.put(overmantel::plan::file::write(&measured).as_bytes())?;
    }
    if let (Some(out), Some(path), Some(given)) = (&out, &stated.out, &stated.plan) {
        draw(&plan, given, &mut taken, stated, (out, path))?;
    }
    Ok(())
}

/// The photograph, with what was found in it or marked before.
fn photograph(
    photo: &Path,
    marks: Option<&Path>,
    focal: Option<f64>,
    sheet: Option<Paper>,
) -> Result<Taken, Failure> {
    let (raster, _) = copy(photo, MOST_SIDE_PX)?;
    if let Some(path) = marks {
        return Ok(Taken::with(raster, &read_text(path, MOST_MARKS_BYTES, "a file of marks")?)?);
    }
    let focal = match focal {
        Some(focal) => Some(focal),
        None => focal_of(photo)?,
    };
    Ok(Taken::found(raster, focal, sheet)?)
}

/// The focal length that a file states.
fn focal_of(path: &Path) -> Result<Option<f64>, Failure> {
    use std::io::Read;
    /// Where the Exif of a file is, from its start.
    const START_BYTES: u64 = 256 << 10;
    let mut start = Vec::new();
    let read = std::fs::File::open(path).and_then(|file| file.take(START_BYTES).read_to_end(&mut start));
    read.map_err(|why| Failure::Read { path: path.to_owned(), why })?;
    Ok(overmantel::photograph::exif::focal_35mm(&start))
}

/// Marks what is stated.
fn mark(taken: &mut Taken, stated: &RoomOf) -> Result<(), Failure> {
    if let [a, b, c, d] = stated.corners[..] {
        let corners = [a, b, c, d].map(|Pixel(at)| at);
        taken.change(|room, photograph| {
            room.mark_sheet(photograph, corners, false)?;
            if let Some(paper) = stated.sheet {
                room.set_paper(paper);
            }
            if let Some(size) = &stated.rectangle {
                let (across, up) = size.split_once(['x', '×']).unwrap_or((size, ""));
                // The unit may stand once, at the end.
                let unit: String = up.chars().skip_while(|letter| !letter.is_alphabetic()).collect();
                let has_unit = across.chars().any(|letter| letter.is_alphabetic() || "'\"".contains(letter));
                let across = if has_unit { across.to_owned() } else { format!("{across}{unit}") };
                room.set_size(&across, up)?;
            }
            if !stated.no_lines && stated.marks.is_none() {
                room.find_lines(&overmantel::photograph::grey::Grey::of(photograph));
            }
            Ok(())
        })?;
    }
    if stated.no_lines {
        taken.change(|room, _| {
            room.lines.retain(|line| line.by_hand);
            Ok(())
        })?;
    }
    for ends in stated.line.chunks_exact(2) {
        taken.change(|room, photograph| room.add_line(photograph, [ends[0].0, ends[1].0]))?;
    }
    for parts in stated.length.chunks_exact(3) {
        let ends = [given(&parts[0])?, given(&parts[1])?];
        taken.change(|room, _| room.add_length(ends, &parts[2]))?;
    }
    for parts in stated.thing.chunks_exact(3) {
        let corners = [given(&parts[1])?, given(&parts[2])?];
        let thing = Thing { kind: parts[0].clone(), corners, foot: None, depth: None };
        taken.change(|room, _| room.add_thing(thing))?;
    }
    let ends = [stated.left, stated.right, stated.ceiling, stated.floor];
    let hung = match &stated.sheet_at[..] {
        [across, up] => Some([-stated_length(across)?.to_mm(), -stated_length(up)?.to_mm()]),
        _ => None,
    };
    Ok(taken.change(|room: &mut Room, _| {
        for (end, at) in room.wall.all().into_iter().zip(ends) {
            *end = at.map(|Pixel(at)| at).or(*end);
        }
        room.hung = hung.or(room.hung);
        room.light_from = stated.light.or(room.light_from);
        room.finds_before &= !stated.nothing_before;
        room.check()
    })?)
}

/// Draws the plan's pieces in the photograph.
fn draw(
    plan: &Plan,
    given: &Path,
    taken: &mut Taken,
    stated: &RoomOf,
    (out, path): (&Destination, &Path),
) -> Result<(), Failure> {
    let folders = folders(given, &stated.pictures);
    let Drawn { pixels, width, height, .. } = in_room(plan, &folders, taken, stated.width)?;
    let is_png =
        PNG.endings.iter().any(|ending| path.extension().is_some_and(|own| own.eq_ignore_ascii_case(ending)));
    if is_png || super::files::is_dash(path) {
        return write_png(out, width, height, 144, &Pixels::Opaque(pixels));
    }
    let rgb: Vec<u8> =
        pixels.as_chunks::<4>().0.iter().flat_map(|[red, green, blue, _]| [*red, *green, *blue]).collect();
    out.write(|out| {
        let encoder = JpegEncoder::new_with_quality(out, 92);
        Ok(encoder.write_image(&rgb, width, height, image::ExtendedColorType::Rgb8)?)
    })
}

/// The plan's pieces in the photograph, its longer side at so many pixels at most.
fn in_room<'a>(
    plan: &Plan,
    folders: &[PathBuf],
    taken: &'a mut Taken,
    most_px: u32,
) -> Result<Drawn<'a>, Failure> {
    let wanted = shown(plan);
    let load = |(index, picture): (usize, &Picture)| match find(picture, folders) {
        _ if !wanted.contains(&index) => Ok(None),
        Some(path) => load(picture, &path, MOST_SIDE_PX).map(Some),
        None => {
            not_found(picture);
            Ok(None)
        }
    };
    let copies = plan.pictures.iter().enumerate().map(load).collect::<Result<Vec<_>, Failure>>()?;
    let copies: Vec<Option<&LoadedPicture>> = copies.iter().map(Option::as_ref).collect();
    let scene = scene(plan, &Figures::of(plan)?);
    taken.draw(&scene, &copies, most_px, false).ok_or_else(|| RoomError::NoSheet.into())
}
