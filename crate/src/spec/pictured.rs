//! Which pictures there are, what their files give and what is cut from them, in sentences.

use super::{Run, Writer};
use crate::field::{self, Field, Whose};
use crate::figures::Figures;
use crate::geometry::Size;
use crate::measure;
use crate::plan::{self, Picture, Plan};
use crate::print::sharpness::{ACUITY, largest_image, sharpness as sharpness_of};
use crate::print::{Exact, merging_distance};
use crate::rounding::{Mode, divide};

impl Writer {
    /// A picture by its name, in quotation marks: that this is a title is not said otherwise.
    pub(super) fn picture(&mut self, plan: &Plan, field: impl Into<Field>) -> &mut Self {
        let field = field.into();
        let is_named = match field.of {
            Whose::Piece(piece) => plan.pieces.get(piece).is_some_and(|piece| piece.picture.is_some()),
            _ => true,
        };
        let [opens, closes] = if is_named { ["“", "”"] } else { ["", ""] };
        self.text(opens).field(field).text(closes)
    }
}

pub(super) fn pictures(plan: &Plan, figures: &Figures) -> Writer {
    let mut writer = named(plan);
    if !plan.pictures.is_empty() {
        sharpness(plan, figures, &mut writer);
        if plan.pieces.iter().any(|piece| !piece.finish.is_original()) {
            writer.text(" Files go to the print shop ").field(&plan::FILE_RESOLUTION);
            if plan.file_resolution.is_some() {
                writer.text(" ").field(&plan::FILE_RESOLUTION_PPI).text(" ppi");
            }
            writer.text(".");
        }
        subjects(plan, &mut writer, |_| true);
    }
    writer
}

/// Which pictures there are.
pub(super) fn named(plan: &Plan) -> Writer {
    let mut writer = Writer::default();
    let several = plan.pieces.len() > 1;
    if plan.pictures.is_empty() {
        writer.text(if several { "There are " } else { "There is " }).field(&field::PIECES_COUNT);
        writer.text(if several {
            " pieces, without a picture yet."
        } else {
            " piece, without a picture yet."
        });
        return writer;
    }
    if plan.split.is_some() {
        writer
            .picture(plan, &plan::SPLIT_PICTURE)
            .text(" runs over ")
            .field(&field::PIECES_COUNT)
            .text([" panels. Each shows ", " panels. Each is "][usize::from(plan.are_all_originals())]);
        writer
            .field(&field::PIECES_SHARE)
            .text(if plan.are_all_originals() { "; in its photograph, " } else { "; " })
            .text("the strip behind each gap is ")
            .field(&plan::SPLIT_STRIPS)
            .text(". ");
    } else if several {
        writer
            .text("There are ")
            .field(&field::PIECES_COUNT)
            .text([" pieces. Each shows ", " pieces. Each is "][usize::from(plan.are_all_originals())])
            .field(&field::PIECES_SHARE)
            .text(": ");
        for index in 0..plan.pieces.len() {
            writer.text(
                ["", ", ", " and "]
                    [if index == 0 { 0 } else { 1 + usize::from(index + 1 == plan.pieces.len()) }],
            );
            writer.picture(plan, Field::piece(&plan::PIECE_PICTURE, index));
        }
        writer.text(". ");
    } else {
        writer
            .text("There is ")
            .field(&field::PIECES_COUNT)
            .text(" piece, ")
            .picture(plan, Field::piece(&plan::PIECE_PICTURE, 0))
            .text(". ");
    }
    writer
}

/// A print from a file, with the pixels that it has to the inch.
#[derive(PartialEq)]
struct Printed {
    picture: usize,
    file: (u32, u32),
    ppi: Exact,
}

/// All in a row, `A, B and C`; or one of them where all are alike, which the second value says.
fn listed(all: impl Iterator<Item = impl ToString>) -> (String, bool) {
    let texts: Vec<String> = all.map(|one| one.to_string()).collect();
    match texts.split_last() {
        Some((last, others)) if others.iter().any(|other| other != last) => {
            ([&others.join(", "), " and ", last].concat(), false)
        }
        last => (last.map_or(String::new(), |(last, _)| last.clone()), true),
    }
}

/// What the files give at these sizes.
pub(super) fn sharpness(plan: &Plan, figures: &Figures, writer: &mut Writer) {
    let mut prints: Vec<Printed> = Vec::new();
    for (index, cut) in figures.cuts.iter().enumerate() {
        // An original is not printed: its photograph only shows it.
        if plan.pieces[index].finish.is_original() {
            continue;
        }
        let picture = plan.split.map(|split| split.picture).or(plan.pieces[index].picture);
        if let (Some(cut), Some(picture)) = (cut, picture) {
            let file = &plan.pictures[picture];
            let print = Printed { picture, file: (file.width_px, file.height_px), ppi: cut.pixels_per_inch };
            if !prints.contains(&print) {
                prints.push(print);
            }
        }
    }
    let Some(worst) = prints.iter().map(|print| print.ppi).min() else {
        crops(plan, figures, writer);
        return;
    };
    let is_one = prints.iter().all(|print| print.picture == prints[0].picture);
    writer.text(if is_one { "The file has " } else { "The files have " });
    // One after the other as they hang, so that each resolution is that of the file in the same place; once where all are alike.
    let files = listed(prints.iter().map(|print| format!("{} × {}", print.file.0, print.file.1)));
    let ppis = listed(prints.iter().map(|print| divide(*print.ppi.numer(), *print.ppi.denom(), Mode::Down)));
    let each = |is_alike: bool| if is_alike && !is_one { " each" } else { "" };
    writer.text(&files.0).text(" px").text(each(files.1)).text(": ");
    writer.plain_figure(ppis.0 + " ppi").text(each(ppis.1));
    writer.text(" as hung, sharp from ");
    writer
        .0
        .push(Run::Figure { text: measure::from_afar(merging_distance(worst), plan.units), rounded: true });
    let seen = sharpness_of(worst, plan.viewing.distance, ACUITY);
    writer
        .text(" away; it looks ")
        .text(seen.verdict.words())
        .text(". A print should have ")
        .field(&plan::FINENESS);
    writer.text(if is_one {
        " ppi; at that resolution the file prints up to "
    } else {
        " ppi; at that resolution the files print up to "
    });
    let wanted = Exact::from_integer(plan.fineness.into());
    let mut largest: Vec<Size> = Vec::new();
    let cut_images = plan.pieces.iter().zip(&figures.cuts).zip(&figures.build_ups);
    let cut_images = cut_images.filter(|((piece, _), _)| !piece.finish.is_original());
    let cut_images = cut_images
        .filter_map(|((_, cut), sizes)| largest_image(cut.as_ref()?, wanted, sizes.printed_beyond()));
    for size in cut_images {
        if !largest.contains(&size) {
            largest.push(size);
        }
    }
    for (index, size) in largest.into_iter().enumerate() {
        writer.text(if index == 0 { "" } else { ", " }).size(size, plan.units);
    }
    writer.text(".");
    crops(plan, figures, writer);
}

/// What must not be cut in the pictures that are shown, as far as it is told.
pub(super) fn subjects(plan: &Plan, writer: &mut Writer, is_told: fn(&Picture) -> bool) {
    let mut shown: Vec<usize> = match plan.split {
        Some(split) => vec![split.picture],
        None => plan.pieces.iter().filter_map(|piece| piece.picture).collect(),
    };
    crate::order::sort(&mut shown);
    shown.dedup();
    shown.retain(|picture| is_told(&plan.pictures[*picture]));
    for (index, picture) in shown.iter().enumerate() {
        let name = &plan.pictures[*picture].name;
        writer.text(if index == 0 { " In “" } else { "; in “" }).text(name).text("” ");
        writer.field(Field::picture(&plan::PICTURE_SUBJECT, *picture));
    }
    writer.text(if shown.is_empty() { "" } else { "." });
}

/// A share in whole hundredths.
pub(super) fn percent(share: Exact) -> String {
    let share = share * 100;
    format!("{} %", divide(*share.numer(), *share.denom(), Mode::HalfAway))
}

/// What the crops keep and lose, where anything is lost.
fn crops(plan: &Plan, figures: &Figures, writer: &mut Writer) {
    if let Some(split) = plan.split {
        let file = &plan.pictures[split.picture];
        let shown: Exact = figures
            .cuts
            .iter()
            .flatten()
            .map(|cut| Exact::from_integer(1) - cut.lost((file.width_px, file.height_px)))
            .sum();
        let lost = Exact::from_integer(1) - shown;
        if lost >= Exact::new(1, 200) {
            writer
                .text(" The panels keep ")
                .field(&plan::SPLIT_FOCUS)
                .text(" and show ")
                .plain_figure(percent(shown));
            writer.text(" of it.");
        }
        return;
    }
    let losses: Vec<Exact> = plan
        .pieces
        .iter()
        .zip(&figures.cuts)
        .filter_map(|(piece, cut)| {
            let file = &plan.pictures[piece.picture?];
            Some(cut.as_ref()?.lost((file.width_px, file.height_px)))
        })
        .collect();
    if losses.iter().any(|&lost| lost >= Exact::new(1, 200)) {
        let texts: Vec<String> = losses.iter().map(|&lost| percent(lost)).collect();
        let one = (plan.pieces.len() == 1).then_some(0);
        let picture = if one.is_some() { " Of the picture, " } else { " Of each picture, " };
        writer.text(picture).field(Field::chosen(&plan::PIECE_FOCUS, one)).text(" is kept; ");
        writer
            .plain_figure(texts.join(", "))
            .text(if texts.len() > 1 { " are" } else { " is" })
            .text(" cropped.");
    }
}
