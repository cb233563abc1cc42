//! Dimension lines: which there are, what they say and which field each of them is.
//!
//! In the manner of ISO 129-1: extension lines that start off the object, oblique strokes at the ends, the figure in a gap
//! of its line. (The manner is from memory of drawings so made, not from the text of the standard.)

use crate::arrange::top_below;
use crate::field::{self, Field};
use crate::figures::Figures;
use crate::geometry::Rect;
use crate::length::Length;
use crate::measure::{self, Grade};
use crate::plan::{self, Arrangement, Fixture, GroupUp, Plan, Units};

/// A dimension line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dimension {
    /// Where its line is.
    pub lane: Lane,
    /// From this coordinate along the line.
    pub from: Length,
    /// To this one, which is greater.
    pub to: Length,
    /// Where the extension lines at its two ends start: the coordinates of the objects across the line.
    pub objects: [Length; 2],
    /// Where it may stand otherwise, with where its extension lines then start: at the other side of its objects.
    pub other: Option<(Lane, [Length; 2])>,
    /// What stands before the figure, such as "sofa".
    pub prefix: &'static str,
    /// The figure, in plain text: in both systems when the plan wants both.
    pub text: String,
    /// The figure in the first system alone, for narrow drawings.
    pub short: String,
    /// Whether the figure is rounded.
    pub rounded: bool,
    /// The field that the figure is; none for a figure that only follows.
    pub field: Option<Field>,
    /// In which ink.
    pub tone: Tone,
    /// How much it matters where there is no room for all.
    pub rank: Rank,
}

/// How much a dimension matters: the first keeps its place longest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// The outside of the wall, of the group, of a piece.
    Outside,
    /// A distance from one thing to another.
    Distance,
    /// The rest.
    Other,
}

/// Where a dimension line is. Lanes off the wall are counted outwards from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lane {
    /// Horizontal, above the wall.
    Above(u8),
    /// Horizontal, below the floor.
    Below(u8),
    /// Vertical, left of the wall.
    Left(u8),
    /// Vertical, right of the wall.
    Right(u8),
    /// Horizontal, on the wall, a little above this height.
    Over(Length),
    /// Horizontal, on the wall, a little below this height.
    Under(Length),
    /// Vertical, on the wall, a little to the right of this place.
    Beside(Length),
    /// Vertical, on the wall, a little to the left of this place.
    BesideLeft(Length),
}

/// The ink of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Plain.
    Ink,
    /// What the drawing is about.
    Red,
    /// Inside dimensions.
    Quiet,
}

/// A length to be dimensioned, before it is put into words.
struct Measured {
    lane: Lane,
    from: Length,
    to: Length,
    objects: [Length; 2],
    other: Option<(Lane, [Length; 2])>,
    grade: Grade,
    prefix: &'static str,
    field: Option<Field>,
    tone: Tone,
    rank: Rank,
}

impl Measured {
    fn new(lane: Lane, from: Length, to: Length, object: Length) -> Self {
        let on_wall = matches!(lane, Lane::Over(_) | Lane::Under(_) | Lane::Beside(_) | Lane::BesideLeft(_));
        Self {
            lane,
            from,
            to,
            objects: [object; 2],
            other: None,
            grade: if on_wall { Grade::Piece } else { Grade::Room },
            prefix: "",
            field: None,
            tone: if on_wall { Tone::Quiet } else { Tone::Ink },
            rank: Rank::Distance,
        }
    }

    fn field(self, field: impl Into<Field>) -> Self {
        Self { field: Some(field.into()), ..self }
    }

    fn or(self, lane: Lane, objects: [Length; 2]) -> Self {
        Self { other: Some((lane, objects)), ..self }
    }

    fn rank(self, rank: Rank) -> Self {
        Self { rank, ..self }
    }

    fn into_dimension(self, units: Units) -> Dimension {
        let length = self.to - self.from;
        Dimension {
            lane: self.lane,
            from: self.from,
            to: self.to,
            objects: self.objects,
            other: self.other,
            prefix: self.prefix,
            text: measure::shown(length, self.grade, units),
            short: measure::first(length, self.grade, units).text,
            rounded: measure::is_rounded(length, self.grade, units),
            field: self.field,
            tone: self.tone,
            rank: self.rank,
        }
    }
}

/// The dimension lines of a plan. Lines of no length are left out.
pub(super) fn dimensions(plan: &Plan, figures: &Figures) -> Vec<Dimension> {
    let mut lines = room_lines(plan, figures);
    lines.extend(furniture_lines(plan, figures));
    let hung = if plan.shared.is_some() { 1 } else { plan.pieces.len() };
    lines.extend(piece_lines(plan, &figures.arranged.outsides[..hung]));
    lines.into_iter().filter(|line| line.to > line.from).map(|line| line.into_dimension(plan.units)).collect()
}

/// Lanes below the wall: of the group, and of the fixture that it hangs above or can be hung above.
pub(super) fn lanes_below(plan: &Plan) -> u8 {
    let hangs_above = matches!(plan.group.up, GroupUp::Above { .. });
    if hangs_above || plan.fixtures.iter().any(Fixture::is_hung_above) { 2 } else { 1 }
}

/// The wall, and where the group is on it.
fn room_lines(plan: &Plan, figures: &Figures) -> Vec<Measured> {
    let group = figures.arranged.group;
    let (wall, zero) = (plan.wall.size, Length::ZERO);
    vec![
        Measured::new(Lane::Above(0), zero, wall.width, wall.height)
            .field(&plan::WALL_WIDTH)
            .rank(Rank::Outside),
        Measured::new(Lane::Left(0), zero, wall.height, zero).field(&plan::WALL_HEIGHT).rank(Rank::Outside),
        Measured {
            prefix: "group",
            tone: Tone::Red,
            ..Measured::new(Lane::Below(0), group.x, group.right(), zero)
        }
        .field(&field::GROUP_WIDTH)
        .rank(Rank::Outside),
        Measured::new(Lane::Below(0), zero, group.x, zero).field(&field::GROUP_LEFT),
        Measured::new(Lane::Below(0), group.right(), wall.width, zero).field(&field::GROUP_RIGHT),
        Measured {
            prefix: "centre",
            grade: Grade::Piece,
            objects: [wall.width, group.right()],
            ..Measured::new(Lane::Right(0), zero, group.centre().y, wall.width)
        }
        .field(&field::GROUP_CENTRE),
    ]
}

/// What the group hangs above.
fn furniture_lines(plan: &Plan, figures: &Figures) -> Vec<Measured> {
    let GroupUp::Above { fixture: index, .. } = plan.group.up else { return Vec::new() };
    let (rect, stated) = (figures.arranged.fixtures[index], &plan.fixtures[index]);
    let group = figures.arranged.group;
    // Beside the piece that comes nearest to it, of several the rightmost: in steps the others hang higher.
    let room = |outside: &Rect| outside.y - top_below(stated, rect, *outside);
    let least = figures.arranged.outsides.iter().map(room).min();
    let lowest: Vec<&Rect> =
        figures.arranged.outsides.iter().filter(|outside| Some(room(outside)) == least).collect();
    let (foot, top) = lowest
        .first()
        .map_or((group.y, rect.top()), |outside| (outside.y, top_below(stated, rect, **outside)));
    let right = lowest.iter().map(|outside| outside.right()).max().unwrap_or(group.right());
    let left = lowest.iter().map(|outside| outside.x).min().unwrap_or(group.x);
    vec![
        Measured {
            objects: [rect.right().min(right), right],
            ..Measured::new(Lane::Beside(right), top, foot, right)
        }
        .or(Lane::BesideLeft(left), [rect.x.max(left), left])
        .field(&plan::GROUP_CLEARANCE),
        Measured {
            prefix: plan.fixtures[index].kind.name(),
            ..Measured::new(Lane::Below(1), rect.x, rect.right(), Length::ZERO)
        }
        .field(Field::fixture(&plan::FIXTURE_WIDTH, index))
        .rank(Rank::Other),
        Measured::new(Lane::BesideLeft(rect.x), rect.y, rect.top(), rect.x)
            .or(Lane::Beside(rect.right()), [rect.right(); 2])
            .field(Field::fixture(&plan::FIXTURE_HEIGHT, index))
            .rank(Rank::Other),
    ]
}

/// The outside of each piece that is not like the one before, and the gap between the first two.
fn piece_lines(plan: &Plan, outsides: &[Rect]) -> Vec<Measured> {
    let mut lines = Vec::new();
    let alike = outsides.iter().all(|outside| outside.size == outsides[0].size);
    for (index, outside) in outsides.iter().enumerate() {
        if index > 0 && alike {
            break;
        }
        let which = (!alike).then_some(index);
        lines.push(
            Measured::new(Lane::Over(outside.top()), outside.x, outside.right(), outside.top())
                .or(Lane::Under(outside.y), [outside.y; 2])
                .field(Field::chosen(&field::OUTSIDE_WIDTH, which))
                .rank(Rank::Outside),
        );
        // Heights stand outside the group: at the left of the first piece, at the right of the last.
        let last = &outsides[outsides.len() - 1];
        let arrangement = plan.group.arrangement;
        let is_column = arrangement == Arrangement::Column;
        let is_turned = arrangement == Arrangement::StackLeft;
        let beside = |outside: &Rect| (Lane::Beside(outside.right()), [outside.right(); 2]);
        let height = |lane, object| {
            Measured::new(lane, outside.y, outside.top(), object)
                .field(Field::chosen(&field::OUTSIDE_HEIGHT, which))
                .rank(Rank::Outside)
        };
        if index == 0 {
            let line = if is_turned {
                height(Lane::Beside(outside.right()), outside.right())
            } else {
                height(Lane::BesideLeft(outside.x), outside.x)
            };
            lines.push(if is_turned {
                line
            } else if is_column || outsides.len() == 1 {
                Measured { other: Some(beside(outside)), ..line }
            } else if alike && last.y == outside.y {
                Measured { other: Some(beside(last)), ..line }
            } else {
                line
            });
        } else if index + 1 == outsides.len() && outside.size.height != outsides[0].size.height {
            lines.push(if is_turned {
                height(Lane::BesideLeft(outside.x), outside.x)
            } else {
                height(Lane::Beside(outside.right()), outside.right())
            });
        }
    }
    if let [one, other, ..] = outsides {
        // From left to right.
        let is_turned = plan.group.arrangement == Arrangement::StackLeft;
        let (first, second) = if is_turned { (other, one) } else { (one, other) };
        lines.push(
            match plan.group.arrangement {
                Arrangement::Row
                | Arrangement::Stepped(_)
                | Arrangement::StackRight
                | Arrangement::StackLeft => {
                    let top = first.top().max(second.top());
                    Measured {
                        objects: [first.top(), second.top()],
                        ..Measured::new(Lane::Over(top), first.right(), second.x, top)
                    }
                    .or(Lane::Under(first.y.min(second.y)), [first.y, second.y])
                }
                Arrangement::Column => {
                    let right = first.right().max(second.right());
                    Measured {
                        objects: [second.right(), first.right()],
                        ..Measured::new(Lane::Beside(right), second.top(), first.y, right)
                    }
                    .or(Lane::BesideLeft(first.x.min(second.x)), [second.x, first.x])
                }
            }
            .field(&plan::GROUP_GAP),
        );
    }
    lines
}
