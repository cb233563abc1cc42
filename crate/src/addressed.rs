//! A plan by an address: one work of a page, at a size, on a wall; behind `#` as `work=low-water&size=40x50cm&wall=420x260cm`.
//!
//! So each work of a shop can have its own link to "see it on your wall". A work is named by its title or its file's name, in small
//! letters and digits with hyphens between them, as addresses commonly have titles.
//!
//! ```
//! use overmantel::addressed::{Addressed, addressed, slug};
//! use overmantel::plan::{Picture, Plan};
//! use overmantel::{geometry::Size, length::Length, stock::Stock};
//! assert_eq!(slug("Low water, évening"), "low-water-évening");
//! let picture = |name: &str| Picture { name: name.to_owned(), width_px: 4000, height_px: 5000, ..Picture::default() };
//! let studio = Plan { pictures: vec![picture("Ebb"), picture("Low water")], ..Plan::starting() };
//! let asked = Addressed { work: "low-water", size: "40x50cm", wall: "" };
//! let plan = addressed(&[studio], &Stock::offered(), &asked)?;
//! assert_eq!(plan.pieces.len(), 1);
//! assert_eq!(plan.pieces[0].picture, Some(1));
//! assert_eq!(plan.pieces[0].image, Size::new(Length::mm(400), Length::mm(500)));
//! # Ok::<(), overmantel::addressed::AddressedError>(())
//! ```

use crate::field::Field;
use crate::fields::{self, FieldError};
use crate::plan::{self, Piece, Plan};
use crate::quoted::short;
use crate::stock::Stock;
use std::fmt;

/// What an address asks for; empty for nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Addressed<'a> {
    /// Which work.
    pub work: &'a str,
    /// The size of its image.
    pub size: &'a str,
    /// The size of the wall.
    pub wall: &'a str,
}

/// Why an address asks for no plan.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AddressedError {
    /// The page has no such work.
    NoWork {
        /// What was asked for.
        given: String,
        /// What there is, as an address has it.
        known: Vec<String>,
    },
    /// A size can't be taken.
    Size {
        /// Of what.
        what: &'static str,
        /// Why.
        why: FieldError,
    },
}

impl fmt::Display for AddressedError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoWork { given, known } if known.is_empty() => {
                write!(f, "there is no work \"{}\" on this page; it has none", short(given))
            }
            Self::NoWork { given, known } => write!(
                f,
                "there is no work \"{}\" on this page; it has {}",
                short(given),
                known.iter().map(|name| short(name).to_string()).collect::<Vec<_>>().join(", ")
            ),
            Self::Size { what, why } => write!(f, "the {what} in the address: {why}"),
        }
    }
}

/// A title as an address has it: letters and digits, small, with one hyphen for whatever stands between them.
#[must_use]
pub fn slug(title: &str) -> String {
    let words = title.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    words.collect::<Vec<_>>().join("-").to_lowercase()
}

/// The plan that an address asks for: this work alone on the wall of the first plan that has it, made as its first piece is. A size
/// without a unit is in the plan's.
///
/// # Errors
/// When no plan has such a work, or a size is none or out of its range.
pub fn addressed(plans: &[Plan], stock: &Stock, asked: &Addressed<'_>) -> Result<Plan, AddressedError> {
    let wanted = slug(asked.work);
    let is_it = |picture: &plan::Picture| {
        let stem = picture.file.rsplit_once('.').map_or(picture.file.as_str(), |(stem, _)| stem);
        [picture.name.as_str(), stem, &picture.file].iter().any(|name| slug(name) == wanted)
    };
    let found = plans.iter().find_map(|plan| Some((plan, plan.pictures.iter().position(is_it)?)));
    let Some((from, picture)) = found.filter(|_| !wanted.is_empty()) else {
        let mut known: Vec<String> = Vec::new();
        for picture in plans.iter().flat_map(|plan| &plan.pictures) {
            let name = slug(&picture.name);
            if !known.contains(&name) {
                known.push(name);
            }
        }
        return Err(AddressedError::NoWork { given: asked.work.to_owned(), known });
    };
    let first = from.pieces.first().cloned().unwrap_or_else(Piece::starting);
    let mut plan = Plan {
        title: from.pictures[picture].name.clone(),
        pieces: vec![Piece { picture: Some(picture), ..first }],
        ..from.clone()
    };
    (plan.split, plan.shared, plan.in_hand, plan.space) = (None, None, None, None);
    let sizes = [
        ("size", asked.size, Field::pieces(&plan::PIECE_IMAGE)),
        ("wall", asked.wall, Field::from(&plan::WALL_SIZE)),
    ];
    for (what, text, field) in sizes.into_iter().filter(|(_, text, _)| !text.trim().is_empty()) {
        plan = fields::write(&plan, stock, field, text).map_err(|why| AddressedError::Size { what, why })?;
    }
    Ok(plan)
}
