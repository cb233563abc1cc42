//! The site: what the place and the way there are like, as far as it bears on what is wise.

use crate::geometry::Size;
use crate::length::Length;

/// The place where the pieces hang, and the way there. A plan that says nothing of it means a home of which nothing is known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Site {
    /// Of what the wall is built.
    pub built: Built,
    /// Whether it is a public way, on which people pass close by.
    pub is_public_way: bool,
    /// Whether the ground may shake.
    pub has_earthquakes: bool,
    /// Whether the sun falls on the wall.
    pub has_sun: bool,
    /// Whether a window is opposite, to be mirrored in glazing.
    pub has_window_opposite: bool,
    /// Height of the cornice, from the ceiling down; zero for none.
    pub cornice: Length,
    /// What each fixing is rated for in pounds, if that is known: one of [`RATINGS`].
    pub rated_pounds: Option<u16>,
    /// Where the pieces are signed.
    pub signature: Signature,
    /// Width and height of what they have to pass, in the order of [`WAYS`].
    pub ways: [Option<Size>; 3],
}

/// Of what a wall is built.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Built {
    /// Nobody has said.
    #[default]
    Unstated,
    /// Plasterboard, away from its studs.
    Plasterboard,
    /// The studs of a framed wall, or boards.
    Timber,
    /// Brick, stone or concrete.
    Masonry,
}

/// Where a piece is signed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Signature {
    /// Nowhere.
    #[default]
    None,
    /// On the white paper below the image, taking so much of it.
    Below(Length),
    /// In the picture, so far from the edge of what is printed.
    Within(Length),
}

/// What picture hooks are sold for, in pounds (common practice, no source).
pub const RATINGS: [u16; 6] = [10, 20, 30, 50, 75, 100];

/// What pieces may have to pass.
pub const WAYS: [&str; 3] = ["door", "turn of the stairs", "car"];

/// To which side a door opens against the wall.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Swing {
    /// Away from the wall, or nobody has said.
    #[default]
    Clear,
    /// Against the wall to its left.
    Left,
    /// Against the wall to its right.
    Right,
}
