//! Mouldings and floater frames by their section, as the stock lists them.

use super::*;
use crate::stock::Profile;

/// What stands for a section that the stock does not list.
const OWN: &str = "a section of its own";

/// The sections on offer for a piece, and which of them it has; `None` where it has no such frame.
pub(super) fn options(plan: &Plan, stock: &Stock, which: &str, part: &str) -> Option<Choice> {
    let index = if which == "all" { 0 } else { which.parse::<usize>().ok()? };
    let finish = &plan.pieces.get(index)?.finish;
    let is_floater = part == "floater";
    let current = if is_floater {
        let floater = finish.floater()?;
        offered(stock, true).find(|row| (row.face, row.depth) == (floater.face, floater.depth))
    } else {
        let frame = finish.framing()?.frame.as_ref()?;
        offered(stock, false).find(|row| *row == &Profile { name: row.name.clone(), ..profile_of(frame) })
    };
    Some(Choice {
        options: offered(stock, is_floater).map(|row| row.name.clone()).collect(),
        current: current.map_or(OWN, |row| row.name.as_str()).to_owned(),
        colour: false,
    })
}

fn offered(stock: &Stock, is_floater: bool) -> impl Iterator<Item = &Profile> {
    stock.mouldings.iter().filter(move |row| row.is_floater == is_floater)
}

fn profile_of(frame: &Frame) -> Profile {
    let Frame { face, rabbet_width, rabbet_depth, depth, material, .. } = *frame;
    Profile { name: String::new(), is_floater: false, face, rabbet_width, rabbet_depth, depth, material }
}

/// Gives a piece a section of the stock; colour and play stay.
pub(super) fn write(piece: &mut Piece, stock: &Stock, part: &str, index: usize) {
    let is_floater = part == "floater";
    let Some(row) = offered(stock, is_floater).nth(index) else { return };
    if is_floater {
        if let Some(Some(floater)) = piece.finish.floater_mut() {
            *floater = Floater { face: row.face, depth: row.depth, ..floater.clone() };
        }
    } else if let Some(frame) = piece.finish.framing_mut().and_then(|framing| framing.frame.as_mut()) {
        let Profile { face, rabbet_width, rabbet_depth, depth, material, .. } = *row;
        *frame = Frame { face, rabbet_width, rabbet_depth, depth, material, ..frame.clone() };
    }
}
