//! Mouldings and floater frames by their section, as the stock lists them.

use super::options::{FieldOption, Options};
use crate::plan::{Floater, Frame, Piece};
use crate::stock::{Profile, Stock};

/// The sections on offer for a piece, and which of them it has; `None` where it has no such frame.
pub(super) fn options(piece: &Piece, stock: &Stock, is_floater: bool) -> Option<Options> {
    let mut rows = offered(stock, is_floater);
    let held = if is_floater {
        let floater = piece.finish.floater()?;
        rows.position(|row| (row.face, row.depth) == (floater.face, floater.depth))
    } else {
        let frame = piece.finish.framing()?.frame.as_ref()?;
        rows.position(|row| row == &Profile { name: row.name.clone(), ..profile_of(frame) })
    };
    let list = offered(stock, is_floater).map(|row| FieldOption::plain(row.name.clone())).collect();
    Options::new(list, held, "a section of its own")
}

fn offered(stock: &Stock, is_floater: bool) -> impl Iterator<Item = &Profile> {
    stock.mouldings.iter().filter(move |row| row.is_floater == is_floater)
}

fn profile_of(frame: &Frame) -> Profile {
    let Frame { face, rabbet_width, rabbet_depth, depth, material, .. } = *frame;
    Profile { name: String::new(), is_floater: false, face, rabbet_width, rabbet_depth, depth, material }
}

/// Gives a piece a section of the stock; colour and play stay.
pub(super) fn write(piece: &mut Piece, stock: &Stock, is_floater: bool, place: usize) {
    let Some(row) = offered(stock, is_floater).nth(place) else { return };
    if is_floater {
        if let Some(Some(floater)) = piece.finish.floater_mut() {
            *floater = Floater { face: row.face, depth: row.depth, ..floater.clone() };
        }
    } else if let Some(frame) = piece.finish.framing_mut().and_then(|framing| framing.frame.as_mut()) {
        let Profile { face, rabbet_width, rabbet_depth, depth, material, .. } = *row;
        *frame = Frame { face, rabbet_width, rabbet_depth, depth, material, ..frame.clone() };
    }
}
