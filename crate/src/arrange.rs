//! Arrangement: where each piece and each fixture is on the wall.
//!
//! Gaps are from outside to outside. The group is the rectangle round all pieces; it is placed as one thing, along the
//! wall and in height separately.
//!
//! ```
//! use overmantel::{arrange::arrange, geometry::Size, length::Length, plan::Plan};
//! let plan = Plan::starting(); // a wall of 144 in, a gap of 3 in
//! let side = Length::inches_ratio(209, 8); // 26 1/8 in
//! let arranged = arrange(&plan, &[Size::new(side, side); 3]);
//! assert_eq!(arranged.group.size.width, Length::inches_ratio(675, 8), "3 × 26 1/8 + 2 × 3 = 84 3/8");
//! assert_eq!(arranged.group.x, Length::inches_ratio(477, 16), "(144 - 84 3/8) / 2 = 29 13/16");
//! ```

use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::Length;
use crate::line_up::line_up;
use crate::plan::{Across, Fixture, FixtureKind, GroupAcross, GroupUp, Plan, Rise};
use crate::rounding::Mode;

/// Where everything is on the wall.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Arranged {
    /// The outside of each piece, in the order of the plan.
    pub outsides: Vec<Rect>,
    /// The rectangle round all pieces.
    pub group: Rect,
    /// Each fixture, in the order of the plan.
    pub fixtures: Vec<Rect>,
    /// The same with the casings of doors and windows: what of the wall they take.
    pub taken: Vec<Rect>,
}

/// What a fixture takes of the wall: its place, and its casing at both sides and above, round a window below as well.
fn with_casing(fixture: &Fixture, place: Rect) -> Rect {
    let casing = fixture.casing();
    let foot = if fixture.kind == FixtureKind::Window { casing } else { Length::ZERO };
    place.shrunk(Sides { left: -casing, top: -casing, right: -casing, bottom: -foot })
}

/// Places pieces of the given outside sizes.
///
/// A reference to a fixture that the plan does not have counts as the middle of the wall at the floor; [`Plan::check`]
/// refuses such a plan.
#[must_use]
pub fn arrange(plan: &Plan, outsides: &[Size]) -> Arranged {
    let fixtures: Vec<Rect> = plan.fixtures.iter().map(|fixture| place(fixture, plan.wall.size)).collect();
    let taken =
        plan.fixtures.iter().zip(&fixtures).map(|(fixture, &place)| with_casing(fixture, place)).collect();
    // In a shared frame every piece has the outside of the frame.
    let hung = if plan.shared.is_some() { outsides.get(..1).unwrap_or_default() } else { outsides };
    let loose = line_up(hung, plan.group.arrangement, plan.group.gap, plan.group.align);
    let size = loose.iter().copied().reduce(Rect::union).unwrap_or_default().size;
    let Point { x, mut y } =
        corner(plan.wall.size, plan.viewing.eye_level, &fixtures, plan.group.across, plan.group.up, size);
    if let GroupUp::Above { fixture, clearance } = plan.group.up
        && let Some(stated) = plan.fixtures.get(fixture)
    {
        let along: Vec<Rect> = loose.iter().map(|piece| piece.moved(x, Length::ZERO)).collect();
        y = rest(stated, fixtures[fixture], &along) + clearance;
    }
    let placed = loose.iter().cycle().take(outsides.len());
    Arranged {
        outsides: placed.map(|piece| piece.moved(x, y)).collect(),
        group: Rect::new(x, y, size),
        fixtures,
        taken,
    }
}

/// Where the lower left corner of a group of this size is; see [`arrange`].
pub(crate) fn corner(
    wall: Size,
    eye_level: Length,
    fixtures: &[Rect],
    across: GroupAcross,
    up: GroupUp,
    size: Size,
) -> Point {
    let floor = Rect::new(Length::ZERO, Length::ZERO, Size::new(wall.width, Length::ZERO));
    let fixture = |index: usize| fixtures.get(index).copied().unwrap_or(floor);
    let x = match across {
        GroupAcross::WallMiddle => Rect::centred(size, floor).x,
        GroupAcross::FixtureMiddle(index) => Rect::centred(size, fixture(index)).x,
        GroupAcross::CentreAt(x) => x - size.width.half(),
    };
    let y = match up {
        GroupUp::EyeLevel => eye_level - size.height.half(),
        GroupUp::CentreAt(y) => y - size.height.half(),
        GroupUp::Above { fixture: index, clearance } => fixture(index).top() + clearance,
    };
    Point::new(x, y)
}

/// How high pieces come to rest on a fixture: of pieces that are where they are along the wall, the height of what is 0 in their
/// heights. On stairs the nearest of them touches the line of the nosings.
pub(crate) fn rest(fixture: &Fixture, place: Rect, pieces: &[Rect]) -> Length {
    let touches = pieces.iter().map(|piece| top_below(fixture, place, *piece) - piece.y);
    touches.max().unwrap_or_else(|| place.top())
}

/// How high a fixture reaches below a piece: its top or, of stairs, the highest point of the line of their nosings below the piece.
///
/// The line goes through the front edges of the steps: each of the n steps is one n-th of the height and of the width.
pub(crate) fn top_below(fixture: &Fixture, place: Rect, piece: Rect) -> Length {
    if fixture.kind != FixtureKind::Stairs {
        return place.top();
    }
    // From the bottom of the stairs to the end of the piece that is further up.
    let along = match fixture.rise {
        Rise::Right => piece.right() - place.x,
        Rise::Left => place.right() - piece.x,
    };
    let (width, height, steps) = (place.size.width, place.size.height, fixture.steps());
    let along = along.clamp(Length::ZERO, width);
    // height / n + height × along / width, in one quotient.
    let whole = i128::from(height.units())
        * (i128::from(width.units()) + i128::from(along.units()) * i128::from(steps));
    let risen = Length::from_ratio(whole, i128::from(width.units()) * i128::from(steps), Mode::Up);
    place.y + risen.min(height)
}

/// Whether a piece covers a part of a fixture, which takes so much of the wall: of stairs what is below the line of their nosings.
pub(crate) fn covers(piece: Rect, fixture: &Fixture, taken: Rect) -> bool {
    piece.common(taken).is_some()
        && (fixture.kind != FixtureKind::Stairs || piece.y < top_below(fixture, taken, piece))
}

/// Where a fixture is on the wall.
fn place(fixture: &Fixture, wall: Size) -> Rect {
    let x = match fixture.across {
        Across::Middle => (wall.width - fixture.size.width).half(),
        Across::FromLeft(x) => x,
        Across::FromRight(x) => wall.width - x - fixture.size.width,
    };
    Rect::new(x, fixture.from_floor, fixture.size)
}
