//! Dimension lines: which there are, what they say and which field each of them is.
//!
//! In the manner of ISO 129-1: extension lines that start off the object, oblique strokes at the ends, the figure in a gap
//! of its line. (The manner is from memory of drawings so made, not from the text of the standard.)

use crate::figures::Figures;
use crate::geometry::Rect;
use crate::length::Length;
use crate::measure::{self, Grade};
use crate::plan::{Arrangement, GroupUp, Plan};

/// A dimension line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dimension {
    /// Where its line is.
    pub lane: Lane,
    /// From this coordinate along the line.
    pub from: Length,
    /// To this one, which is greater.
    pub to: Length,
    /// Where the extension lines start: the coordinate of the object across the line.
    pub object: Length,
    /// What stands before the figure, such as "sofa".
    pub prefix: &'static str,
    /// The figure, in plain text.
    pub text: String,
    /// The field that the figure is; none for a figure that only follows.
    pub field: Option<String>,
    /// In which ink.
    pub tone: Tone,
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

/// The dimension lines of a plan.
pub(super) fn dimensions(plan: &Plan, figures: &Figures) -> Vec<Dimension> {
    let group = figures.arranged.group;
    let wall = plan.wall.size;
    let text = |length, grade| measure::shown(length, grade, plan.units);
    let line = |lane, from: Length, to: Length, object| Dimension {
        lane,
        from,
        to,
        object,
        prefix: "",
        text: text(to - from, Grade::Room),
        field: None,
        tone: Tone::Ink,
    };
    let field = |name: &str| Some(name.to_owned());
    let mut lines = vec![
        Dimension {
            field: field("wall.width"),
            ..line(Lane::Above(0), Length::ZERO, wall.width, wall.height)
        },
        Dimension {
            field: field("wall.height"),
            ..line(Lane::Left(0), Length::ZERO, wall.height, Length::ZERO)
        },
        Dimension {
            prefix: "group",
            tone: Tone::Red,
            ..line(Lane::Below(0), group.x, group.right(), Length::ZERO)
        },
    ];
    if group.x > Length::ZERO {
        lines.push(Dimension {
            field: field("group.left"),
            ..line(Lane::Below(0), Length::ZERO, group.x, Length::ZERO)
        });
    }
    if group.right() < wall.width {
        lines.push(Dimension {
            field: field("group.right"),
            ..line(Lane::Below(0), group.right(), wall.width, Length::ZERO)
        });
    }
    if group.centre().y > Length::ZERO {
        lines.push(Dimension {
            prefix: "centre",
            text: text(group.centre().y, Grade::Piece),
            field: field("group.centre"),
            ..line(Lane::Right(0), Length::ZERO, group.centre().y, group.right())
        });
    }
    if let GroupUp::Above { fixture, clearance } = plan.group.up {
        let rect = figures.arranged.fixtures[fixture];
        if clearance > Length::ZERO {
            lines.push(Dimension {
                text: text(clearance, Grade::Piece),
                field: field("group.clearance"),
                tone: Tone::Quiet,
                ..line(Lane::Beside(group.right()), rect.top(), group.y, group.right())
            });
        }
        lines.push(Dimension {
            prefix: plan.fixtures[fixture].kind.name(),
            field: Some(format!("fixture.{fixture}.width")),
            ..line(Lane::Below(1), rect.x, rect.right(), Length::ZERO)
        });
        lines.push(Dimension {
            text: text(rect.size.height, Grade::Piece),
            field: Some(format!("fixture.{fixture}.height")),
            tone: Tone::Quiet,
            ..line(Lane::BesideLeft(rect.x), rect.y, rect.top(), rect.x)
        });
    }
    lines.extend(piece_lines(plan, &figures.arranged.outsides));
    lines
}

/// The width of each piece that differs from the one before, and the first gap of a row.
fn piece_lines(plan: &Plan, outsides: &[Rect]) -> Vec<Dimension> {
    let text = |length| measure::shown(length, Grade::Piece, plan.units);
    let mut lines = Vec::new();
    for (index, outside) in outsides.iter().enumerate() {
        let same = index > 0 && outsides[index - 1].size == outside.size;
        if !same {
            lines.push(Dimension {
                lane: Lane::Over(outside.top()),
                from: outside.x,
                to: outside.right(),
                object: outside.top(),
                prefix: "",
                text: text(outside.size.width),
                field: None,
                tone: Tone::Quiet,
            });
        }
    }
    if let [first, second, ..] = outsides {
        let gap = plan.group.gap;
        if gap > Length::ZERO {
            let (lane, from, to, object) = match plan.group.arrangement {
                Arrangement::Row | Arrangement::Stepped(_) => {
                    let top = first.top().max(second.top());
                    (Lane::Over(top), first.right(), second.x, top)
                }
                Arrangement::Column => {
                    let right = first.right().max(second.right());
                    (Lane::Beside(right), second.top(), first.y, right)
                }
            };
            lines.push(Dimension {
                lane,
                from,
                to,
                object,
                prefix: "",
                text: text(gap),
                field: Some("group.gap".to_owned()),
                tone: Tone::Quiet,
            });
        }
    }
    // The height of the first piece stands at its left.
    if let Some(first) = outsides.first() {
        lines.push(Dimension {
            lane: Lane::BesideLeft(first.x),
            from: first.y,
            to: first.top(),
            object: first.x,
            prefix: "",
            text: text(first.size.height),
            field: None,
            tone: Tone::Quiet,
        });
    }
    lines
}
