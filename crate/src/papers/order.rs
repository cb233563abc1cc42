//! The order for the print shop: each print with its crop drawn and in pixels, and every size in both systems.

use super::Said;
use super::elevation::thumbnail;
use super::flow::{BODY, Early, Flow, NOTE, Table};
use super::sheet::{Page, Role};
use super::{Job, Kind};
use crate::framing::BuildUp;
use crate::geometry::{Rect, Sides, Size};
use crate::length::Length;
use crate::measure::{self, Grade, print_in};
use crate::plan::{Canvas, Edge, Finish, Paper, System};
use crate::print::{PixelCrop, from_corner};
use crate::rounding::{Mode, divide};
use crate::stock;

/// Which size of a print, or which single measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// The picture, as it is printed.
    Picture,
    /// What of it is on the face of a canvas.
    Face,
    /// The sheet of paper.
    Sheet,
    /// Face and edges of a canvas.
    FaceAndEdges,
    /// The canvas that is cut.
    Canvas,
    /// The white border, the same on every side.
    Border,
    /// The white border at the left.
    Left,
    /// At the top.
    Top,
    /// At the right.
    Right,
    /// At the bottom.
    Bottom,
    /// The edge of a canvas.
    Edge,
    /// The staple margin behind it.
    Fold,
    /// The radius of the corners of a metal sheet.
    Radius,
}

impl Measured {
    /// In words, as a paper has it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Picture => "Picture printed",
            Self::Face => "Face",
            Self::Sheet => "Sheet",
            Self::FaceAndEdges => "Face and four edges",
            Self::Canvas => "Canvas to cut",
            Self::Border => "White border, all round",
            Self::Left => "White border, left",
            Self::Top => "White border, top",
            Self::Right => "White border, right",
            Self::Bottom => "White border, bottom",
            Self::Edge => "Edge, on each side",
            Self::Fold => "Staple margin behind it",
            Self::Radius => "Radius of the corners",
        }
    }
}

/// One print, and how many of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Print {
    /// Which pieces of the plan it is for, counted from 1.
    pub pieces: Vec<usize>,
    /// Which of the plan's pictures; none while there is none.
    pub picture: Option<usize>,
    /// Its pixels in the file.
    pub crop: Option<PixelCrop>,
    /// Whole pixels of the file to an inch of the print; what is left over is dropped.
    pub ppi: Option<i128>,
    /// What is printed on, in words.
    pub on: String,
    /// What is on the edges, in words; empty where there are none.
    pub edges: &'static str,
    /// Its sizes by name: what is printed, the image, the sheet.
    pub sizes: Vec<(Measured, Size)>,
    /// Single measures: borders, edges, fold.
    pub lengths: Vec<(Measured, Length)>,
}

/// The prints of a plan, those that are alike once. Originals are none.
#[must_use]
pub fn prints(job: &Job<'_>) -> Vec<Print> {
    let plan = job.plan;
    let mut found: Vec<Print> = Vec::new();
    for (index, (piece, sizes)) in plan.pieces.iter().zip(&job.figures.build_ups).enumerate() {
        let picture = plan.split.map(|split| split.picture).or(piece.picture);
        let cut = job.figures.cuts[index].as_ref().zip(picture);
        let file = |picture: usize| (plan.pictures[picture].width_px, plan.pictures[picture].height_px);
        let mut print = Print {
            pieces: Vec::new(),
            picture,
            crop: cut.map(|(cut, picture)| cut.whole_px(file(picture))),
            ppi: cut.map(|(cut, _)| {
                divide(*cut.pixels_per_inch.numer(), *cut.pixels_per_inch.denom(), Mode::Down)
            }),
            on: String::new(),
            edges: "",
            sizes: vec![(Measured::Picture, sizes.picture.size)],
            lengths: Vec::new(),
        };
        if sizes.picture.size != sizes.image.size {
            print.sizes.push((Measured::Face, sizes.image.size));
        }
        match &piece.finish {
            Finish::Paper(paper) => on_paper(&mut print, paper, sizes),
            Finish::Canvas(canvas) => on_canvas(&mut print, canvas, sizes),
            Finish::Aluminium(sheet) => {
                print.on = ["aluminium sheet, ", &job.both(sheet.thickness, Grade::Fine), " thick"].said();
                if sheet.corner_radius > Length::ZERO {
                    print.lengths.push((Measured::Radius, sheet.corner_radius));
                }
            }
            Finish::Original(_) => continue,
        }
        let alike = |known: &&mut Print| Print { pieces: Vec::new(), ..(**known).clone() } == print;
        match found.iter_mut().find(alike) {
            Some(known) => known.pieces.push(index + 1),
            None => {
                print.pieces.push(index + 1);
                found.push(print);
            }
        }
    }
    found
}

fn on_paper(print: &mut Print, paper: &Paper, sizes: &BuildUp) {
    print.on = ["paper of ", &paper.grammage.to_string(), " g/m²"].said();
    print.sizes.push((Measured::Sheet, sizes.sheet.size));
    let Sides { left, top, right, bottom } = sizes.sheet_borders;
    match sizes.sheet_borders.even() {
        Some(Length::ZERO) => {}
        Some(even) => print.lengths.push((Measured::Border, even)),
        None => print.lengths.extend([
            (Measured::Left, left),
            (Measured::Top, top),
            (Measured::Right, right),
            (Measured::Bottom, bottom),
        ]),
    }
}

fn on_canvas(print: &mut Print, canvas: &Canvas, sizes: &BuildUp) {
    print.on = ["canvas of ", &canvas.grammage.to_string(), " g/m², to be stretched"].said();
    print.edges = match canvas.edge {
        Edge::Carried => "image wrapped round the edge: what is kept already includes it",
        Edge::Mirrored => {
            "mirrored wrap: add the outermost part of the face in mirror image, on all four sides"
        }
        Edge::Plain(_) => "solid edge, in the colour stated",
    };
    print.sizes.push((Measured::FaceAndEdges, sizes.image.size.grown(sizes.wrap)));
    print.sizes.extend(sizes.cloth.map(|cloth| (Measured::Canvas, cloth)));
    print.lengths.extend([(Measured::Edge, sizes.wrap), (Measured::Fold, canvas.fold)]);
}

/// The box in which a picture is shown.
const BOX: Size = Size::new(Length::mm(58), Length::mm(62));

pub(super) fn pages(job: &Job<'_>, early: Early) -> Vec<Page> {
    let plan = job.plan;
    let mut flow = Flow::new(job, Kind::Order, early);
    let prints = prints(job);
    if prints.is_empty() {
        let several = plan.pieces.len() > 1;
        flow.text(
            BODY,
            if several {
                "There is nothing to print: all pieces are originals."
            } else {
                "There is nothing to print: this is the original."
            },
        );
        return flow.finish();
    }
    if plan.split.is_some() {
        flow.caution("One picture over several panels: print them together, on the same printer and from the same batch, so that their colours match.");
    }
    for (index, print) in prints.iter().enumerate() {
        one(job, print, [index + 1, prints.len()], &mut flow);
    }
    flow.heading("For all prints");
    flow.text(BODY, "Print at the sizes stated, without fitting to the sheet. Keep only the pixels stated, counted from the top left corner of the upright file. Keep the file's colour profile and do not correct anything. No bleed is needed beyond what is stated.");
    flow.text(NOTE, "Width comes before height. Inches are rounded to the nearest 1/32, millimetres to a tenth; both are rounded from the exact size, so use the one you work in.");
    flow.finish()
}

fn one(job: &Job<'_>, print: &Print, [number, count]: [usize; 2], flow: &mut Flow) {
    let plan = job.plan;
    let file = print.picture.map(|picture| &plan.pictures[picture]);
    let name = file.map_or("no picture yet", |file| file.name.as_str());
    flow.need(BOX.height + Length::mm(34));
    let heading = ["Print ", &number.to_string(), " of ", &count.to_string(), ": ", name].said();
    flow.heading(&heading);
    let top = flow.set_in(BOX.width + Length::mm(6));
    let mut foot = top;
    if let Some((picture, crop)) = print.picture.zip(print.crop) {
        let file = &plan.pictures[picture];
        let (width, height) = (i64::from(file.width_px), i64::from(file.height_px));
        // As wide as the box, or as high.
        let tall = BOX.width.times_ratio(height, width);
        let size = if tall <= BOX.height {
            Size::new(BOX.width, tall)
        } else {
            Size::new(BOX.height.times_ratio(width, height), BOX.height)
        };
        let at = Rect::new(flow.right() - flow.width() - BOX.width - Length::mm(6), top - size.height, size);
        let words = ["The picture \"", name, "\", of which these are kept: ", &pixels(crop)].said();
        foot = at.y - Length::mm(3);
        flow.push(Role::Drawing(words), thumbnail(plan, picture, crop, at));
    }
    let mut facts = Table::new(&["Item", "Details"]);
    let mut fact = |what: &str, how: String| facts.rows.push(vec![what.to_owned(), how]);
    if let Some(file) = file {
        let px = [&file.width_px.to_string(), " × ", &file.height_px.to_string(), " px"].said();
        fact("File", [&file.file, ", ", &px].said());
    }
    if let Some(crop) = print.crop {
        let is_whole = file.is_some_and(|file| (crop.width, crop.height) == (file.width_px, file.height_px));
        fact("Kept", if is_whole { "the whole file".to_owned() } else { pixels(crop) });
    }
    fact("Resolution", print.ppi.map_or("no file yet".into(), |ppi| [&ppi.to_string(), " ppi"].said()));
    fact("On", print.on.clone());
    if !print.edges.is_empty() {
        fact("Edges", edges(job, print));
    }
    let pieces: Vec<String> = print.pieces.iter().map(ToString::to_string).collect();
    fact("Number", [&pieces.len().to_string(), ", for piece ", &pieces.join(", ")].said());
    flow.table(&facts);
    let systems = job.systems();
    let [own, other] = systems.map(System::of_column);
    let mut sizes = Table::new(&["Size", own, other]);
    let mut row = |what: &Measured, cells: [String; 2]| {
        sizes.rows.push([what.words().to_owned()].into_iter().chain(cells).collect());
    };
    for (what, size) in &print.sizes {
        row(what, systems.map(|system| measure::size(*size, Grade::Cut, system).text));
    }
    for (what, length) in &print.lengths {
        row(what, systems.map(|system| print_in(*length, Grade::Cut, system)));
    }
    flow.table(&sizes);
    flow.set_in(Length::ZERO);
    flow.go_down(foot);
}

/// A crop in words.
fn pixels(crop: PixelCrop) -> String {
    let PixelCrop { left, top, width, height } = crop;
    let [width, height] = [width, height].map(|px| px.to_string());
    [&width, " × ", &height, " px, ", &from_corner(left, top)].said()
}

/// What is on the edges, with the colour where it is plain.
fn edges(job: &Job<'_>, print: &Print) -> String {
    let piece = print.pieces.first().map(|piece| &job.plan.pieces[piece - 1].finish);
    match piece {
        Some(Finish::Canvas(Canvas { edge: Edge::Plain(colour), .. })) => {
            let name = stock::name_of(&stock::EDGES, *colour);
            [print.edges, ": ", &name, " (", &colour.to_string(), ")"].said()
        }
        _ => print.edges.to_owned(),
    }
}
