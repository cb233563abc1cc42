//! What is chosen of a piece: its picture, its material, and how it is made up.

use super::*;

/// The choices of a piece and the one that holds; `None` where the piece has no such part.
pub(super) fn piece_options(plan: &Plan, which: &str, rest: &[&str]) -> Option<Choice> {
    let index = if which == "all" { 0 } else { which.parse::<usize>().ok()? };
    let piece = plan.pieces.get(index)?;
    match (rest, &piece.finish) {
        (["picture"], _) => Some(picture_choice(plan, piece.picture)),
        (["focus"], _) => kept(piece.focus),
        (["material"], finish) => {
            let index = match finish {
                Finish::Paper(_) => 0,
                Finish::Canvas(_) => 1,
                Finish::Aluminium(_) => 2,
                Finish::Original(_) => 3,
            };
            of(&MATERIALS, name_of(&MATERIALS, index))
        }
        (["paper", "extent"], Finish::Paper(paper)) => extent(&PAPERS, paper.border),
        (["paper", "weighting"], Finish::Paper(paper)) => weighting(paper.border),
        (["canvas", "edge"], Finish::Canvas(canvas)) => {
            let index = match canvas.edge {
                Edge::Carried => 0,
                Edge::Mirrored => 1,
                Edge::Plain(_) => 2,
            };
            of(&CANVAS_EDGES, name_of(&CANVAS_EDGES, index))
        }
        (["canvas", "edge_colour"], Finish::Canvas(Canvas { edge: Edge::Plain(colour), .. })) => {
            colours(&stock::EDGES, *colour)
        }
        (["aluminium", "back"], Finish::Aluminium(sheet)) => {
            of(&METAL_BACKS, name_of(&METAL_BACKS, usize::from(sheet.sub_frame.is_some())))
        }
        (["floater"], Finish::Canvas(_) | Finish::Original(_)) => with(piece.finish.floater().is_some()),
        (["floater", "colour"], finish) => colours(&stock::MOULDINGS, finish.floater()?.colour),
        (rest, finish) => framing_options(finish.framing()?, rest),
    }
}

fn with(there: bool) -> Option<Choice> {
    of(&WITH, name_of(&WITH, usize::from(!there)))
}

fn extent(names: &[&'static str; 2], surround: Surround) -> Option<Choice> {
    of(names, name_of(names, usize::from(matches!(surround.extent, Extent::Whole(_)))))
}

fn weighting(surround: Surround) -> Option<Choice> {
    of(&WEIGHTINGS, name_of(&WEIGHTINGS, usize::from(matches!(surround.weighting, Weighting::Ratio { .. }))))
}

/// The choice of a board, "no mount" and the like standing first.
fn board(none: &str, board: Option<Board>) -> Option<Choice> {
    let names: Vec<&str> =
        [none].into_iter().chain(BOARD_MATERIALS.iter().map(|material| material.name())).collect();
    of(&names, board.map_or(none, |board| board.material.name()))
}

const NO_MOUNT: &str = "no mount";
const NO_BACKING: &str = "no backing";

fn framing_options(framing: &Framing, rest: &[&str]) -> Option<Choice> {
    match rest {
        ["mat"] => with(framing.mat.is_some()),
        ["frame"] => with(framing.frame.is_some()),
        ["glazing"] => {
            let index = match framing.glazing {
                Glazing::None => 0,
                Glazing::Glass(_) => 1,
                Glazing::Acrylic(_) => 2,
            };
            of(&GLAZINGS, name_of(&GLAZINGS, index))
        }
        ["mount"] => board(NO_MOUNT, framing.mount),
        ["backing"] => board(NO_BACKING, framing.backing),
        ["mat", part] => {
            let mat = framing.mat.as_ref()?;
            match *part {
                "opening" => {
                    let index = match mat.opening {
                        OpeningRule::Overlap(_) => 0,
                        OpeningRule::Reveal(_) => 1,
                        OpeningRule::Float(_) => 2,
                    };
                    of(&OPENINGS, name_of(&OPENINGS, index))
                }
                "double" => {
                    let options = ["single", "double"];
                    of(&options, name_of(&options, usize::from(mat.inner_reveal.is_some())))
                }
                "extent" => extent(&BOARDS, mat.surround),
                "weighting" => weighting(mat.surround),
                "colour" => colours(&stock::MATS, mat.colour),
                "inner_colour" if mat.inner_reveal.is_some() => {
                    colours(&stock::MATS, mat.inner_colour.unwrap_or(mat.colour))
                }
                _ => None,
            }
        }
        ["frame", part] => {
            let frame = framing.frame.as_ref()?;
            match *part {
                "colour" => colours(&stock::MOULDINGS, frame.colour),
                "shape" => of(&FaceShape::ALL.map(FaceShape::name), frame.shape.name()),
                "surface" => of(&Surface::ALL.map(Surface::name), frame.surface.name()),
                "material" => of(&MOULDING_MATERIALS.map(Material::name), frame.material.name()),
                _ => None,
            }
        }
        _ => None,
    }
}

/// Applies the option of this index; `built` are the sizes before, from which a whole follows when it is stated anew. A
/// piece of another make has no such part: a change to all leaves it as it is.
pub(super) fn write_piece(
    piece: &mut Piece,
    rest: &[&str],
    index: usize,
    text: &str,
    built: Option<&BuildUp>,
) -> Result<(), FieldError> {
    match (rest, &mut piece.finish) {
        (["picture"], _) => piece.picture = Some(index),
        (["focus"], _) => piece.focus = KEPT[index].1,
        (["material"], finish) => {
            *finish = match index {
                0 => Finish::Paper(Paper::starting()),
                1 => Finish::Canvas(Canvas::starting()),
                2 => Finish::Aluminium(Aluminium::starting()),
                _ => Finish::Original(Original::starting()),
            };
        }
        (["paper", "extent"], Finish::Paper(paper)) => {
            let sheet = built.map(|sizes| sizes.sheet.size);
            let border = built.map_or(Length::ZERO, |sizes| sizes.sheet_borders.left);
            restate(&mut paper.border, index, sheet, border);
        }
        (["paper", "weighting"], Finish::Paper(paper)) => reweigh(&mut paper.border, index),
        (["canvas", "edge"], Finish::Canvas(canvas)) => {
            canvas.edge = match index {
                0 => Edge::Carried,
                1 => Edge::Mirrored,
                _ => Edge::Plain(stock::EDGES[0].colour),
            };
        }
        (["canvas", "edge_colour"], Finish::Canvas(canvas)) => {
            canvas.edge = Edge::Plain(stock::find(&stock::EDGES, text)?);
        }
        (["aluminium", "back"], Finish::Aluminium(sheet)) => {
            sheet.sub_frame = (index == 1).then(SubFrame::starting);
        }
        (["floater"], finish) => {
            let depth = built.map_or(Canvas::starting().depth, |sizes| sizes.stack.thickness());
            if let Some(floater) = finish.floater_mut() {
                *floater = (index == 0).then(|| Floater::round(depth));
            }
            if let (0, Finish::Original(original)) = (index, finish) {
                original.framing = Framing::NONE;
            }
        }
        (["floater", "colour"], finish) => {
            if let Some(Some(floater)) = finish.floater_mut() {
                floater.colour = stock::find(&stock::MOULDINGS, text)?;
            }
        }
        (["mat", "opening"], Finish::Paper(paper)) => {
            // A rim needs white paper to be seen.
            if index == 1 && paper.border == Surround::even(Length::ZERO) {
                paper.border = Surround::even(Length::inches(1));
            }
            write_framing(&mut paper.framing, rest, index, text, built)?;
        }
        (["mat" | "frame"], Finish::Original(original)) => {
            original.floater = None;
            write_framing(&mut original.framing, rest, index, text, built)?;
        }
        (rest, finish) => {
            if let Some(framing) = finish.framing_mut() {
                write_framing(framing, rest, index, text, built)?;
            }
        }
    }
    Ok(())
}

/// States a surround by its whole or by its border, so that its sizes stay.
fn restate(surround: &mut Surround, index: usize, whole: Option<Size>, border: Length) {
    surround.extent = match (index, whole) {
        (1, Some(whole)) => Extent::Whole(whole),
        _ => Extent::Border(border.max(Length::ZERO)),
    };
}

fn reweigh(surround: &mut Surround, index: usize) {
    surround.weighting = if index == 0 { Weighting::EVEN } else { Weighting::Ratio { head: 3, foot: 4 } };
}

fn write_framing(
    framing: &mut Framing,
    rest: &[&str],
    index: usize,
    text: &str,
    built: Option<&BuildUp>,
) -> Result<(), FieldError> {
    let usual = Framing::starting();
    let board = |held: Option<Board>, usual: Option<Board>| {
        let thickness = held.or(usual).map_or(Length::inches_ratio(1, 16), |board| board.thickness);
        BOARD_MATERIALS.get(index.wrapping_sub(1)).map(|&material| Board { material, thickness })
    };
    match (rest, framing) {
        (["mat"], framing) => framing.mat = (index == 0).then(Mat::starting),
        (["frame"], framing) => {
            framing.frame = (index == 0).then(Frame::starting);
            if index == 1 {
                framing.glazing = Glazing::None;
            }
        }
        (["glazing"], framing) => {
            let thickness = match framing.glazing {
                Glazing::None => Length::mm(2),
                Glazing::Glass(thickness) | Glazing::Acrylic(thickness) => thickness,
            };
            framing.glazing = match index {
                0 => Glazing::None,
                1 => Glazing::Glass(thickness),
                _ => Glazing::Acrylic(thickness),
            };
        }
        (["mount"], framing) => framing.mount = board(framing.mount, usual.mount),
        (["backing"], framing) => framing.backing = board(framing.backing, usual.backing),
        (["mat", part], Framing { mat: Some(mat), .. }) => match *part {
            "opening" => {
                mat.opening = match index {
                    0 => OpeningRule::Overlap(Length::inches_ratio(1, 8)),
                    1 => OpeningRule::Reveal(Length::inches_ratio(1, 4)),
                    _ => OpeningRule::Float(Length::inches_ratio(1, 2)),
                };
            }
            "double" => mat.inner_reveal = (index == 1).then(|| Length::inches_ratio(1, 4)),
            "extent" => {
                let cut = built.and_then(|sizes| sizes.mat.as_ref());
                let border = cut.map_or(Length::inches(2), |cut| cut.borders.left);
                restate(&mut mat.surround, index, cut.map(|cut| cut.board.size), border);
            }
            "weighting" => reweigh(&mut mat.surround, index),
            "inner_colour" => {
                let colour = stock::find(&stock::MATS, text)?;
                if mat.inner_colour.unwrap_or(mat.colour) != colour {
                    mat.inner_colour = Some(colour);
                }
            }
            _ => mat.colour = stock::find(&stock::MATS, text)?,
        },
        (["frame", part], Framing { frame: Some(frame), .. }) => match *part {
            "material" => frame.material = MOULDING_MATERIALS[index],
            "shape" => frame.shape = FaceShape::ALL[index],
            "surface" => frame.surface = Surface::ALL[index],
            _ => frame.colour = stock::find(&stock::MOULDINGS, text)?,
        },
        _ => {}
    }
    Ok(())
}
