//! Hanging: where the hooks go, from the floor and from one corner of the wall.
//!
//! Every distance is from the same two lines (the left corner and the floor), never from one hook to the next, so that
//! errors of marking don't add up. A hook's place is the point on which the ring or the wire rests; the nail of a picture
//! hook is higher by the hook's own offset. Slots and teeth rest on the screw itself, a cleat on its other half.
//!
//! # Wire
//! The rings are a span s apart and the wire is L long. Over one hook it makes two legs of L/2, whose rise over the rings
//! is r = √((L/2)² - (s/2)²). Over two hooks that are g apart, level and in the middle, L - g is left for the legs and
//! s - g for their spread: r = √(((L - g)/2)² - ((s - g)/2)²). The point of support is ring depth - r below the upper edge.
//!
//! ```
//! use overmantel::{hang::rise, length::Length};
//! let r = rise(Length::mm(400), Length::mm(420), Length::ZERO);
//! assert!((r.to_mm() - 64.031).abs() < 0.001, "√(210² - 200²) = 64.031");
//! ```

use crate::framing::BuildUp;
use crate::geometry::{Point, Rect, Size};
use crate::length::{Length, print::plain};
use crate::plan::{Fixing, Hanger};
use crate::print::Exact;
use crate::rounding::{Mode, divide, square_root};
use std::fmt;

/// What a piece hangs by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hanging {
    /// Where each ring, slot or row of teeth rests, or the wire: x from the left corner of the wall, y from the floor. Of a
    /// cleat, the ends of the upper edge of the batten on the wall.
    pub hooks: Vec<Point>,
    /// From the upper edge of the outside to the point of support, with the wire pulled taut.
    pub drop: Length,
    /// Where the hangers are on the back.
    pub places: HangerPlaces,
    /// Distance between the hangers on the back; of a cleat its length, of a single one nothing.
    pub span: Length,
    /// The wire, if any.
    pub wire: Option<Wire>,
    /// How far the back stands off the wall by the hanger: the thickness of a cleat.
    pub off_wall: Length,
}

/// Where hangers are on a back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct HangerPlaces {
    /// From each side of the outside to the middle of the ring or plate, or to the end of the cleat.
    pub from_sides: Length,
    /// From the upper edge of the outside to the ring, or to where slots, teeth or cleat rest.
    pub down: Length,
}

/// How thick the battens of a cleat are: 1/2 in (from memory; 12 mm plywood is as usual).
pub const CLEAT_THICKNESS: Length = Length::inches_ratio(1, 2);
/// A cleat ends so far from the sides, where nobody sees it (common practice, no source).
const CLEAT_FROM_SIDES: Length = Length::inches(2);

/// Where hangers usually are on a piece (common practice, no source):
/// - rings and keyhole plates in the middle of the leg, bar or block that holds them, a quarter of the height down; the rings of
///   a wire, which rises, a third;
/// - a cleat in the middle of the upper leg or bar, 2 in from the sides, or from block to block;
/// - a sawtooth hanger in the middle of the upper leg or bar.
///
/// Zero where nothing holds a hanger.
///
/// ```
/// use overmantel::{framing::build_up, hang::hanger_places, length::Length, plan::{Hanger, Piece}};
/// let piece = build_up(&Piece::starting()).unwrap();
/// let rings = hanger_places(&piece, Hanger::Rings);
/// assert_eq!(rings.from_sides, Length::inches_ratio(3, 8), "half of a face of 3/4 in");
/// assert_eq!(rings.down * 4, piece.outside.height);
/// ```
#[must_use]
pub fn hanger_places(piece: &BuildUp, hanger: Hanger) -> HangerPlaces {
    let Some(held) = holder(piece, hanger) else { return HangerPlaces::default() };
    let Size { width, height } = piece.outside;
    let down = height - held.centre().y;
    match hanger {
        Hanger::Rings | Hanger::Keyholes => beside(piece, held, height.times_ratio(1, 4)),
        Hanger::Wire { .. } => beside(piece, held, height.times_ratio(1, 3)),
        Hanger::Cleat => {
            let is_across = held.right() >= width.half();
            let from_sides = if is_across { held.x + CLEAT_FROM_SIDES } else { held.centre().x };
            HangerPlaces { from_sides: from_sides.min(width.times_ratio(1, 4)), down }
        }
        Hanger::Sawtooth => HangerPlaces { from_sides: width.half(), down },
    }
}

/// What holds a hanger of this kind, or the left one of two: the leg, bar or block at the left; for a cleat or a sawtooth hanger the
/// highest that crosses the middle, where there is one.
#[must_use]
pub fn holder(piece: &BuildUp, hanger: Hanger) -> Option<Rect> {
    let middle = piece.outside.width.half();
    let across = piece.holds.iter().filter(|rect| rect.x <= middle && middle <= rect.right());
    let upper = across.max_by_key(|rect| rect.top());
    let upper = upper.filter(|_| matches!(hanger, Hanger::Cleat | Hanger::Sawtooth));
    upper.or(piece.holds.first()).copied()
}

/// The place of a ring or plate at the sides, so far down if that is held.
fn beside(piece: &BuildUp, left: Rect, wanted: Length) -> HangerPlaces {
    let height = piece.outside.height;
    // The middle of the leg, seen from the front; where the rabbet takes more than half of it, of what is left.
    let half_face = piece.frame.as_ref().map(|frame| frame.sight.x.half());
    let from_sides = half_face.filter(|x| *x <= left.right()).unwrap_or(left.x + left.size.width.half());
    // However narrow the piece is, there is some distance between its rings.
    let from_sides = from_sides.min(piece.outside.width.times_ratio(1, 4));
    let (least, most) = (height - left.top(), height - left.y);
    let down = if (least..=most).contains(&wanted) { wanted } else { height - left.centre().y };
    HangerPlaces { from_sides, down }
}

/// Whether both hangers of a piece, both ends of a cleat, lie on something at its back that holds them.
#[must_use]
pub fn is_held(piece: &BuildUp, places: HangerPlaces) -> bool {
    let Size { width, height } = piece.outside;
    let holds = |x| piece.holds.iter().any(|rect| rect.contains(Point::new(x, height - places.down)));
    holds(places.from_sides) && holds(width - places.from_sides)
}

/// A hanging wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wire {
    /// From ring to ring along the wire; what is twisted round the rings comes on top.
    pub length: Length,
    /// What is left of it for the two legs, both together.
    pub legs: Length,
    /// How far the point of support is above the rings.
    pub rise: Length,
    /// Half the spread of the two legs: with the rise it gives their angle.
    pub leg_run: Length,
}

impl Wire {
    /// How hard each leg pulls at its ring, in weights of the piece: T = W / (2 sin a), with sin a the rise over half of the legs.
    /// `None` for a wire that does not rise.
    ///
    /// ```
    /// use overmantel::{hang::Wire, length::Length};
    /// // Legs of 5 in over a run of 4 in rise by 3 in: T = W / (2 × 3/5).
    /// let by = Length::inches;
    /// let wire = Wire { length: by(10), legs: by(10), rise: by(3), leg_run: by(4) };
    /// assert_eq!(wire.pull().unwrap(), overmantel::print::Exact::new(5, 6));
    /// ```
    #[must_use]
    pub fn pull(self) -> Option<Exact> {
        let (legs, rise) = (i128::from(self.legs.units()), i128::from(self.rise.units()));
        (rise > 0).then(|| Exact::new(legs.max(0), rise * 4))
    }

    /// How hard the wire draws each ring inwards, in weights of the piece: W / (2 tan a); see [`Self::pull`].
    #[must_use]
    pub fn pull_inwards(self) -> Option<Exact> {
        let (run, rise) = (i128::from(self.leg_run.units()), i128::from(self.rise.units()));
        (rise > 0).then(|| Exact::new(run, rise * 2))
    }

    /// Angle of the legs above the horizontal, in degrees, 0 to 90.
    #[must_use]
    pub fn angle_degrees(self) -> f64 {
        libm::atan2(self.rise.to_mm(), self.leg_run.to_mm()).to_degrees()
    }
}

/// Why a piece can't be hung so.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum HangError {
    /// The hangers would be side by side or past each other.
    NoSpan {
        /// From each side to the hanger.
        from_sides: Length,
        /// Outside width.
        width: Length,
    },
    /// The hooks are further apart than the rings.
    HooksTooFarApart {
        /// Between the hooks.
        apart: Length,
        /// Between the rings.
        span: Length,
    },
}

impl fmt::Display for HangError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSpan { from_sides, width } => write!(
                f,
                "hangers {} from each side of a piece {} wide leave no distance between them; move them nearer to the sides",
                plain(*from_sides),
                plain(*width)
            ),
            Self::HooksTooFarApart { apart, span } => write!(
                f,
                "two hooks {} apart can't carry a wire between rings {} apart; bring the hooks closer together",
                plain(*apart),
                plain(*span)
            ),
        }
    }
}

/// The rise of a wire over its rings, to the nearest unit; zero when the wire is not longer than the span.
#[must_use]
pub fn rise(span: Length, wire: Length, hooks_apart: Length) -> Length {
    let legs = i128::from((wire - hooks_apart).units());
    let spread = i128::from((span - hooks_apart).units());
    let square = divide(legs * legs - spread * spread, 4, Mode::HalfAway);
    Length::from_ratio(square_root(square), 1, Mode::HalfAway)
}

/// The hooks of a piece whose outside is at `outside` on the wall, and whose hangers are usually at `usual`.
///
/// # Errors
/// When the hangers or the hooks leave no room for each other.
pub fn hang(outside: Rect, fixing: Fixing, usual: HangerPlaces) -> Result<Hanging, HangError> {
    let (from_sides, down) = (fixing.from_sides.or(usual.from_sides), fixing.down.or(usual.down));
    let places = HangerPlaces { from_sides, down };
    let is_single = fixing.hanger == Hanger::Sawtooth;
    let span = if is_single { Length::ZERO } else { outside.size.width - from_sides * 2 };
    if span <= Length::ZERO && !is_single {
        return Err(HangError::NoSpan { from_sides, width: outside.size.width });
    }
    let (drop, apart, wire) = match fixing.hanger {
        Hanger::Rings | Hanger::Cleat | Hanger::Keyholes => (down, Some(span), None),
        Hanger::Sawtooth => (down, None, None),
        Hanger::Wire { slack, hooks_apart } => {
            let apart = hooks_apart.unwrap_or_default();
            if apart >= span {
                return Err(HangError::HooksTooFarApart { apart, span });
            }
            let length = span + slack;
            let rise = rise(span, length, apart);
            let wire = Wire { length, legs: length - apart, rise, leg_run: (span - apart).half() };
            (down - rise, hooks_apart, Some(wire))
        }
    };
    let y = outside.top() - drop;
    let centre = outside.centre().x;
    let hooks = match apart {
        None => vec![Point::new(centre, y)],
        Some(apart) => {
            let left = centre - apart.half();
            vec![Point::new(left, y), Point::new(left + apart, y)]
        }
    };
    let off_wall = if fixing.hanger == Hanger::Cleat { CLEAT_THICKNESS } else { Length::ZERO };
    Ok(Hanging { hooks, drop, places, span, wire, off_wall })
}
