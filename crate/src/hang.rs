//! Hanging: where the hooks go, from the floor and from one corner of the wall.
//!
//! Every distance is from the same two lines (the left corner and the floor), never from one hook to the next, so that
//! errors of marking don't add up. A hook's place is the point on which the ring or the wire rests; the nail of a picture
//! hook is higher by the hook's own offset.
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
use crate::plan::Fixing;
use crate::print::Exact;
use crate::rounding::{Mode, divide, square_root};
use std::fmt;

/// What a piece hangs by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hanging {
    /// Where each ring or the wire rests on its hook: x from the left corner of the wall, y from the floor.
    pub hooks: Vec<Point>,
    /// From the upper edge of the outside to the point of support, with the wire pulled taut.
    pub drop: Length,
    /// Where the rings are on the back.
    pub rings: RingPlaces,
    /// The rings on the back: distance between them.
    pub span: Length,
    /// The wire, if any.
    pub wire: Option<Wire>,
}

impl Hanging {
    /// The pull along each leg of the wire, in weights of the piece: half of the weight on each leg, over the sine of its angle
    /// above the horizontal, T = W / (2 sin a). It is the same over one hook and over two.
    ///
    /// Nothing without a wire, or where it does not rise over its rings and would be pulled without end.
    ///
    /// ```
    /// use overmantel::{geometry::{Rect, Size}, hang::{RingPlaces, hang}, length::Length, plan::{Fixing, RingPlace}, print::Exact};
    /// let at = |inches| RingPlace::At(Length::inches(inches));
    /// let wire = Fixing::Wire { from_sides: at(2), down: at(9), slack: Length::inches(4), hooks_apart: None };
    /// let outside = Rect::new(Length::ZERO, Length::ZERO, Size::inches(20, 20));
    /// let hung = hang(outside, wire, RingPlaces::default()).unwrap();
    /// assert_eq!(hung.pull_of_wire(), Some(Exact::new(5, 6)), "legs of 10 in rise by 6: 1 / (2 × 6/10)");
    /// assert_eq!(hung.pull_on_rings(), Some(Exact::new(2, 3)), "and run by 8: 1 / (2 × 6/8)");
    /// ```
    #[must_use]
    pub fn pull_of_wire(&self) -> Option<Exact> {
        self.wire.and_then(|wire| over(wire.length - self.hooks_apart(), wire.rise * 4))
    }

    /// By which the wire draws each ring inwards, in weights of the piece: W / (2 tan a); see [`Self::pull_of_wire`].
    #[must_use]
    pub fn pull_on_rings(&self) -> Option<Exact> {
        self.wire.and_then(|wire| over(wire.leg_run, wire.rise * 2))
    }

    fn hooks_apart(&self) -> Length {
        match self.hooks[..] {
            [one, other] => other.x - one.x,
            _ => Length::ZERO,
        }
    }
}

fn over(one: Length, other: Length) -> Option<Exact> {
    (other > Length::ZERO).then(|| Exact::new(one.units().into(), other.units().into()))
}

/// Where rings are on a back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct RingPlaces {
    /// From each side of the outside to the middle of the ring.
    pub from_sides: Length,
    /// From the upper edge of the outside to the ring.
    pub down: Length,
}

/// Where rings usually are on a piece: in the middle of the rail, bar or block that holds them, a quarter of the height down,
/// a third with a wire, which rises (both common practice, no source). On a block, in its middle.
///
/// Zero where nothing holds a ring.
///
/// ```
/// use overmantel::{framing::build_up, hang::ring_places, length::Length, plan::Piece};
/// let piece = build_up(&Piece::starting()).unwrap();
/// let rings = ring_places(&piece, false);
/// assert_eq!(rings.from_sides, Length::inches_ratio(3, 8), "half of a face of 3/4 in");
/// assert_eq!(rings.down * 4, piece.outside.height);
/// ```
#[must_use]
pub fn ring_places(piece: &BuildUp, has_wire: bool) -> RingPlaces {
    let Some(&left) = piece.holds.first() else { return RingPlaces::default() };
    let height = piece.outside.height;
    let wanted = height.times_ratio(1, if has_wire { 3 } else { 4 });
    // The middle of the rail, seen from the front; where the rabbet takes more than half of it, of what is left.
    let half_face = piece.frame.as_ref().map(|frame| frame.sight.x.half());
    let from_sides = half_face.filter(|x| *x <= left.right()).unwrap_or(left.x + left.size.width.half());
    // However narrow the piece is, there is some distance between its rings.
    let from_sides = from_sides.min(piece.outside.width.times_ratio(1, 4));
    let (least, most) = (height - left.top(), height - left.y);
    let down = if (least..=most).contains(&wanted) { wanted } else { height - left.centre().y };
    RingPlaces { from_sides, down }
}

/// Whether both rings of a piece lie on something at its back that holds them.
#[must_use]
pub fn is_held(piece: &BuildUp, rings: RingPlaces) -> bool {
    let Size { width, height } = piece.outside;
    let holds = |x| piece.holds.iter().any(|rect| rect.contains(Point::new(x, height - rings.down)));
    holds(rings.from_sides) && holds(width - rings.from_sides)
}

/// A hanging wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wire {
    /// From ring to ring along the wire; what is twisted round the rings comes on top.
    pub length: Length,
    /// How far the point of support is above the rings.
    pub rise: Length,
    /// Half the spread of the two legs: with the rise it gives their angle.
    pub leg_run: Length,
}

impl Wire {
    /// Angle of the legs above the horizontal, in degrees, 0 to 90.
    #[must_use]
    pub fn angle_degrees(self) -> f64 {
        libm::atan2(self.rise.to_mm(), self.leg_run.to_mm()).to_degrees()
    }
}

/// Why a piece can't be hung so.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum HangError {
    /// The rings would be side by side or past each other.
    NoSpan {
        /// From each side to the ring.
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
                "rings {} from each side of a piece {} wide leave no distance between them; set them nearer to the sides",
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

/// The hooks of a piece whose outside is at `outside` on the wall, and whose rings are usually at `usual`.
///
/// # Errors
/// When the rings or the hooks leave no room for each other.
pub fn hang(outside: Rect, fixing: Fixing, usual: RingPlaces) -> Result<Hanging, HangError> {
    let (Fixing::Rings { from_sides, down } | Fixing::Wire { from_sides, down, .. }) = fixing;
    let (from_sides, down) = (from_sides.or(usual.from_sides), down.or(usual.down));
    let rings = RingPlaces { from_sides, down };
    let span = outside.size.width - from_sides * 2;
    if span <= Length::ZERO {
        return Err(HangError::NoSpan { from_sides, width: outside.size.width });
    }
    let (drop, apart, wire) = match fixing {
        Fixing::Rings { .. } => (down, Some(span), None),
        Fixing::Wire { slack, hooks_apart, .. } => {
            let apart = hooks_apart.unwrap_or_default();
            if apart >= span {
                return Err(HangError::HooksTooFarApart { apart, span });
            }
            let length = span + slack;
            let rise = rise(span, length, apart);
            let wire = Wire { length, rise, leg_run: (span - apart).half() };
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
    Ok(Hanging { hooks, drop, rings, span, wire })
}
