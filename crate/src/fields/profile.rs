//! Mouldings and floater frames by their section, as the stock lists them.

use super::options::{FieldOption, Options};
use crate::plan::{Floater, Frame, Piece, Units};
use crate::stock::{Profile, Stock, name_in};

/// The sections on offer for a piece, and which of them it has; `None` where it has no such frame.
pub(super) fn options(piece: &Piece, stock: &Stock, is_floater: bool, units: Units) -> Option<Options> {
    let mut rows = offered(stock, is_floater);
    let held = if is_floater {
        let floater = piece.finish.floater()?;
        rows.position(|row| row.is_of_floater(floater))
    } else {
        let frame = piece.finish.framing()?.frame.as_ref()?;
        rows.position(|row| row.is_of_frame(frame))
    };
    Options::new(
        listed(stock, is_floater, units).collect(),
        held,
        &super::short::own_section(piece, stock, is_floater, units),
    )
}

/// The sections on offer, as they are chosen.
pub(super) fn listed(stock: &Stock, is_floater: bool, units: Units) -> impl Iterator<Item = FieldOption> {
    offered(stock, is_floater).map(move |row| FieldOption::new(&*row.name, name_in(&row.name, units.first)))
}

fn offered(stock: &Stock, is_floater: bool) -> impl Iterator<Item = &Profile> {
    stock.mouldings.iter().filter(move |row| row.is_floater == is_floater)
}

/// Gives a piece a section of the stock; its allowance stays, and its colour where the stock has none.
pub(super) fn write(piece: &mut Piece, stock: &Stock, is_floater: bool, place: usize) {
    let Some(row) = offered(stock, is_floater).nth(place) else { return };
    if is_floater {
        if let Some(Some(floater)) = piece.finish.floater_mut() {
            let colour = row.colour.unwrap_or(floater.colour);
            *floater = Floater { face: row.face, depth: row.depth, colour, ..*floater };
        }
    } else if let Some(frame) = piece.finish.framing_mut().and_then(|framing| framing.frame.as_mut()) {
        let Profile { face, rabbet_width, rabbet_depth, depth, material, .. } = *row;
        let colour = row.colour.unwrap_or(frame.colour);
        *frame = Frame { face, rabbet_width, rabbet_depth, depth, material, colour, ..frame.clone() };
    }
}
