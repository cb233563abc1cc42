//! Picture light: where a lamp before the wall goes, and what the glazing mirrors of the room for whoever looks.
//!
//! All of it is geometry of a flat mirror: the image of a light is as far behind the wall as the light is before it, and the eye sees
//! it on the line to that image.
//!
//! ```
//! use overmantel::{length::Length, picture_light::lamp_from_wall};
//! let lamp = lamp_from_wall(Length::inches(96), Length::inches(57)).unwrap();
//! assert!((lamp.to_mm() / 25.4 - 22.517).abs() < 0.001, "tan 30° × (96 - 57)");
//! ```

use crate::geometry::{Point, Rect, Size};
use crate::length::Length;
use crate::plan::Plan;
use crate::rounding::{Mode, divide, square_root};

/// A point before the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InTheRoom {
    /// Where it is before the wall: x from the left corner, y from the floor.
    pub at: Point,
    /// How far from the wall.
    pub from_wall: Length,
}

/// How far from the wall a lamp at the ceiling is whose beam falls on the middle of a piece 30° from the vertical (common practice, no
/// source): tan 30° × (ceiling - centre), to the nearest unit. `None` for a centre that is not below the ceiling.
#[must_use]
pub fn lamp_from_wall(ceiling: Length, centre: Length) -> Option<Length> {
    let up = i128::from((ceiling - centre).units());
    // tan 30° = 1 / √3.
    let square = divide(up * up, 3, Mode::HalfAway);
    (up > 0).then(|| Length::from_ratio(square_root(square), 1, Mode::HalfAway))
}

/// Where on the wall the eye sees the mirror image of a light.
///
/// ```
/// use overmantel::{geometry::Point, length::Length, picture_light::{InTheRoom, mirrored_at}};
/// let by = Length::inches;
/// let lamp = InTheRoom { at: Point::new(by(72), by(96)), from_wall: by(20) };
/// let eye = InTheRoom { at: Point::new(by(72), by(60)), from_wall: by(100) };
/// assert_eq!(mirrored_at(lamp, eye), Point::new(by(72), by(90)), "36 in of fall, a sixth of it before the wall is met");
/// ```
#[must_use]
pub fn mirrored_at(light: InTheRoom, eye: InTheRoom) -> Point {
    let whole = i128::from((light.from_wall + eye.from_wall).units()).max(1);
    let between = |light_at: Length, eye_at: Length| {
        let way = i128::from((eye_at - light_at).units()) * i128::from(light.from_wall.units());
        light_at + Length::from_ratio(divide(way, whole, Mode::HalfAway), 1, Mode::HalfAway)
    };
    Point::new(between(light.at.x, eye.at.x), between(light.at.y, eye.at.y))
}

/// What a flat glazing mirrors for an eye, of what is as far from the wall as the eye itself: twice as wide and as high as the glazing.
#[must_use]
pub fn mirrored_area(glazing: Rect, eye: InTheRoom) -> Rect {
    let twice = |at: Length, eye_at: Length| at * 2 - eye_at;
    let size = Size::new(glazing.size.width * 2, glazing.size.height * 2);
    Rect::new(twice(glazing.x, eye.at.x), twice(glazing.y, eye.at.y), size)
}

/// The eye of the plan's viewer, before a group whose middle is there.
#[must_use]
pub fn eye_of(plan: &Plan, group: Rect) -> InTheRoom {
    let x = group.centre().x + plan.viewing.aside.to_the_right();
    InTheRoom { at: Point::new(x, plan.viewing.eye_level), from_wall: plan.viewing.distance }
}
