//! The parts of one thing that hangs, and what each weighs.

use super::{Bench, Section};
use crate::cut_list::{Extent, Rails};
use crate::described::Choosable;
use crate::framing::{BuildUp, FLOAT_BLOCK, MatSizes, floater_ledge};
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::length::print::plain;
use crate::plan::{Aluminium, Board, Canvas, Finish, Floater, Frame, Framing, Glazing, Material, Piece};
use crate::stock::Stock;
use crate::weigh::{self, Area, Mass, Volume};
use crate::words::in_units;

/// What goes into a frame and the frame: of one work, or of several behind one mat.
pub(super) fn package(bench: &mut Bench, stock: &Stock, works: &[(&Piece, &BuildUp)]) {
    let (first, sizes) = works[0];
    let Some(framing) = first.finish.framing() else { return };
    let nominal = sizes
        .frame
        .as_ref()
        .map_or(sizes.mat.as_ref().map_or(sizes.sheet.size, |mat| mat.board.size), |frame| frame.nominal);
    let hidden = sizes.frame.as_ref().map_or(Length::ZERO, |cut| cut.lip_hides.max(Length::ZERO));
    glazing(bench, stock, framing, nominal, hidden);
    if let Some(mat) = &framing.mat {
        let board = Board { material: Material::MatBoard, thickness: mat.thickness };
        let openings = |pick: fn(&MatSizes) -> Rect| -> Vec<Size> {
            works.iter().filter_map(|(_, sizes)| sizes.mat.as_ref().map(pick)).map(|rect| rect.size).collect()
        };
        if mat.inner_reveal.is_some() {
            let inner = mat.inner_colour.unwrap_or(mat.colour);
            let upper = (board, mat.colour);
            bench.mat(stock, "top mat", upper, nominal, &openings(|mat| mat.upper_opening));
            bench.mat(stock, "bottom mat", (board, inner), nominal, &openings(|mat| mat.opening));
        } else {
            bench.mat(stock, "mat", (board, mat.colour), nominal, &openings(|mat| mat.opening));
        }
    }
    for (piece, sizes) in works {
        let size = sizes.sheet.size;
        match &piece.finish {
            Finish::Paper(paper) => {
                let mass = weigh::by_grammage(Area::of(size), paper.grammage);
                let note = format!("{} g/m²", paper.grammage);
                bench.add("print", None, Extent::Size(size), note, mass);
            }
            _ => original(bench, size),
        }
    }
    for (name, board) in [("mount board", framing.mount), ("backing", framing.backing)] {
        if let Some(board) = board {
            bench.board(stock, name, board, nominal, &[]);
        }
    }
    if let (Some(frame), Some(cut)) = (&framing.frame, &sizes.frame) {
        rails(bench, stock, frame, cut.rabbet.size, cut.sight.size, sizes.outside);
    }
}

/// An original is handed in and not weighed.
pub(super) fn original(bench: &mut Bench, size: Size) {
    bench.add("original", None, Extent::Size(size), String::from("weigh it"), Mass::default());
    bench.not_weighed = "the original itself";
}

/// Spacers that no lip hides are this wide (from memory).
const FILLET: Length = Length::inches_ratio(1, 4);

/// Glazing, and the spacers behind it: no wider than the lip hides them, where there is one.
fn glazing(bench: &mut Bench, stock: &Stock, framing: &Framing, nominal: Size, hidden: Length) {
    let (material, thickness) = match framing.glazing {
        Glazing::None => return,
        Glazing::Glass(thickness) => (Material::Glass, thickness),
        Glazing::Acrylic(thickness) => (Material::Acrylic, thickness),
    };
    bench.board(stock, "glazing", Board { material, thickness }, nominal, &[]);
    if let Some((part, _)) = bench.parts.last_mut().filter(|(part, _)| part.name == "glazing") {
        part.note += ", ";
        part.note += framing.coating.entry().words;
    }
    if framing.spacer > Length::ZERO {
        let wide = if framing.frame.is_some() { hidden } else { FILLET };
        let volume = weigh::bars(nominal, wide, framing.spacer);
        // Those across go from side to side, the upright ones between them.
        let across = Area::of(Size::new(nominal.width, (wide * 2).min(nominal.height))).times(framing.spacer);
        let lengths = Size::new(nominal.width, nominal.height - wide * 2);
        let note = format!("{} wide and {} deep", bench.text(wide), bench.text(framing.spacer));
        bench.pairs(stock, "spacer", lengths, (volume, across), &note);
    }
}

/// The four legs of a frame with a lip, by their outside lengths.
fn rails(bench: &mut Bench, stock: &Stock, frame: &Frame, rabbet: Size, sight: Size, outside: Size) {
    let depth = frame.rabbet_depth.min(frame.depth);
    let whole = weigh::mitred_moulding(outside, sight, rabbet, frame.depth, depth);
    let across = weigh::across(outside, sight).times(frame.depth) - weigh::across(rabbet, sight).times(depth);
    four_rails(bench, stock, Section::of_frame(frame), outside, (whole, across));
}

/// Legs across and upright, each pair with what its own wood weighs.
fn four_rails(
    bench: &mut Bench,
    stock: &Stock,
    section: Section,
    outside: Size,
    (whole, across): (Volume, Volume),
) {
    let rails = Rails::of(outside, section.face);
    let density = stock.density(section.material);
    let made_of = section.made_of_and_finish(stock);
    let across = weigh::by_density(across, &density);
    let mass = weigh::by_density(whole, &density);
    for (rail, mass) in [(rails.across, across), (rails.upright, mass - across)] {
        let mut note = String::from("outside length (long points)");
        let (rabbet_width, _) = section.rabbet;
        if rabbet_width > Length::ZERO {
            let chop = rail.long_point - (section.face - rabbet_width) * 2;
            let step = in_units("rabbet", bench.units.first);
            note += &format!("; chop size ({step}) {}", bench.text(chop));
        }
        note += &format!("; short points {}", bench.text(rail.short_point));
        bench.add("leg", Some(section.material), Extent::Length(rail.long_point), note, mass);
        if let Some((part, _)) = bench.parts.last_mut() {
            part.quantity = 2;
            part.made_of.clone_from(&made_of);
        }
    }
}

/// Bars and canvas.
pub(super) fn canvas(bench: &mut Bench, stock: &Stock, canvas: &Canvas, sizes: &BuildUp) {
    if let Some(cloth) = sizes.cloth {
        let mass = weigh::by_grammage(Area::of(cloth), canvas.grammage);
        bench.add("canvas", None, Extent::Size(cloth), format!("{} g/m²", canvas.grammage), mass);
    }
    let face = sizes.sheet.size;
    let width = stock.bar_width(canvas.depth);
    let volume = weigh::bars(face, width, canvas.depth);
    let brace = brace(face, width);
    let note = format!("{} wide and {} deep, mitred", bench.text(width), plain(canvas.depth));
    bench.pairs(stock, "stretcher bar", face, (volume, across_of(face, width, canvas.depth)), &note);
    if let Some(length) = brace {
        let volume = Area::of(Size::new(length, width)).times(canvas.depth);
        let note = format!("{} wide, between the longer bars", bench.text(width));
        bench.wood(stock, "cross brace", Extent::Length(length), volume, note);
    }
}

/// The two level bars of four that are mitred round an opening.
fn across_of(outside: Size, width: Length, depth: Length) -> Volume {
    let within = outside.grown(-width);
    let within = if within.is_positive() { within } else { Size::default() };
    weigh::across(outside, within).times(depth)
}

/// From this size on, either way up, bars are held apart by one across (common practice, no source).
const BRACED: Size = Size::inches(30, 40);

/// The length of the brace across the middle of the longer bars, where a canvas wants one.
fn brace(face: Size, width: Length) -> Option<Length> {
    let (shorter, longer) = (face.width.min(face.height), face.width.max(face.height));
    let length = shorter - width * 2;
    (shorter >= BRACED.width && longer >= BRACED.height && length > Length::ZERO).then_some(length)
}

/// A metal sheet and what holds it off the wall.
pub(super) fn metal(bench: &mut Bench, stock: &Stock, sheet: &Aluminium, sizes: &BuildUp) {
    let face = sizes.sheet.size;
    let board = Board { material: Material::Aluminium, thickness: sheet.thickness };
    bench.board(stock, "sheet", board, face, &[]);
    let note = format!("{} deep", plain(sheet.stand_off));
    if sheet.stand_off <= Length::ZERO {
        return;
    }
    match sheet.sub_frame {
        Some(bars) => {
            let outside = face.grown(-bars.from_edges);
            let volume = weigh::bars(outside, bars.width, sheet.stand_off);
            let note = format!("{} wide and {note}, mitred", bench.text(bars.width));
            let across = across_of(outside, bars.width, sheet.stand_off);
            bench.pairs(stock, "sub-frame bar", outside, (volume, across), &note);
        }
        None => {
            const COUNT: u32 = 4;
            let volume = weigh::blocks(COUNT, FLOAT_BLOCK.size, sheet.stand_off);
            bench.wood(stock, "float block", Extent::Size(FLOAT_BLOCK.size), volume, note);
            if let Some((part, _)) = bench.parts.last_mut() {
                part.quantity = COUNT;
            }
        }
    }
}

/// A floater frame: its sides, and the ledge behind what stands in it. It is of the wood that the stock has this section in,
/// otherwise of obeche.
pub(super) fn floater(bench: &mut Bench, stock: &Stock, floater: &Floater, sizes: &BuildUp) {
    let Some(inside) = sizes.floater_inside else { return };
    let thickness = sizes.stack.thickness();
    let ledge = floater_ledge(floater, thickness);
    let sides = weigh::mitred_moulding(sizes.outside, inside.size, inside.size, floater.depth, Length::ZERO);
    let behind = weigh::bars(inside.size, floater.gap + LEDGE, ledge);
    // The ledge is a part of each leg, mitred like it.
    let within = inside.size.grown(-(floater.gap + LEDGE));
    let within = if within.is_positive() { within } else { Size::default() };
    let across = weigh::across(sizes.outside, inside.size).times(floater.depth)
        + weigh::across(inside.size, within).times(ledge);
    let section = Section::of_floater(floater, stock);
    four_rails(bench, stock, section, sizes.outside, (sides + behind, across));
}

/// How far the ledge of a floater frame reaches behind what stands in it (from memory).
const LEDGE: Length = Length::inches_ratio(5, 8);
