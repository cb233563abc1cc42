//! Handling: taking hold of a thing on the drawing, moving it, and what it snaps to.

use super::Desk;
use crate::draw::projection::Projection;
use crate::geometry::Point;
use crate::length::Length;
use crate::plan::{Across, GroupAcross, GroupUp, Plan, Relation, System};

/// What was taken hold of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// The pieces, all together; and which of them is under the pointer.
    Group(usize),
    /// A fixture.
    Fixture(usize),
}

/// Why a thing stopped where it did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Snap {
    /// The reason, in words.
    pub reason: String,
}

/// A move under way.
#[derive(Debug)]
pub(super) struct Drag {
    held: Held,
    from: Point,
    /// Where the thing's own reference was: the middle of the group, the left edge of the fixture.
    origin: Point,
    before: Plan,
}

/// How near a thing has to come, in CSS pixels, to snap.
const REACH_PX: f32 = 7.0;

impl Desk {
    /// What is under a point of the drawing: pieces before fixtures.
    #[must_use]
    pub fn under(&self, projection: Projection, x_px: f32, y_px: f32) -> Option<Held> {
        let at = projection.place(x_px, y_px);
        let arranged = &self.figures.arranged;
        let piece = arranged.outsides.iter().position(|outside| outside.contains(at)).map(Held::Group);
        piece.or_else(|| arranged.fixtures.iter().rposition(|rect| rect.contains(at)).map(Held::Fixture))
    }

    /// Takes hold of what is under a point.
    pub fn take(&mut self, projection: Projection, x_px: f32, y_px: f32) -> Option<Held> {
        let held = self.under(projection, x_px, y_px)?;
        self.drag = Some(Drag {
            held,
            from: projection.place(x_px, y_px),
            origin: self.reference(held),
            before: self.plan.clone(),
        });
        Some(held)
    }

    fn reference(&self, held: Held) -> Point {
        match held {
            Held::Group(_) => self.figures.arranged.group.centre(),
            Held::Fixture(index) => {
                let rect = self.figures.arranged.fixtures.get(index).copied().unwrap_or_default();
                Point::new(rect.x, rect.y)
            }
        }
    }

    /// Moves what is held to a point; `css_px` is how many device pixels a CSS pixel has. Returns what it snapped to.
    pub fn drag_to(&mut self, projection: Projection, x_px: f32, y_px: f32, css_px: f32) -> Vec<Snap> {
        let Some(drag) = &self.drag else { return Vec::new() };
        let at = projection.place(x_px, y_px);
        let wanted = Point::new(drag.origin.x + at.x - drag.from.x, drag.origin.y + at.y - drag.from.y);
        let wanted = self.within_wall(drag.held, wanted);
        let mut plan = drag.before.clone();
        let reach = projection.reach(REACH_PX * css_px);
        let snaps = match drag.held {
            Held::Group(_) => self.move_group(&mut plan, wanted, reach),
            Held::Fixture(index) => self.move_fixture(&mut plan, index, wanted.x, reach),
        };
        // A place that has no answer (beyond the limits of a plan) is not gone to.
        let _stays = self.replace(plan);
        snaps
    }

    /// Lets go: the whole move becomes one step of history.
    pub fn release(&mut self) {
        let Some(drag) = self.drag.take() else { return };
        if drag.before != self.plan {
            self.past.push(drag.before);
            self.future.clear();
        }
    }

    /// Lets go and puts everything back.
    pub fn abandon(&mut self) {
        if let Some(drag) = self.drag.take() {
            let _was_good = self.replace(drag.before);
        }
    }

    /// Moves a thing by so many steps to the right and up, without snapping: a step is 1/4 in or 5 mm, a large one 2 in or 5 cm.
    pub fn nudge(&mut self, held: Held, right: i8, up: i8, large: bool) {
        self.abandon();
        let step = match (self.plan.units.first, large) {
            (System::Inches, false) => Length::inches_ratio(1, 4),
            (System::Inches, true) => Length::inches(2),
            (System::Centimetres, false) => Length::mm(5),
            (System::Centimetres, true) => Length::mm(50),
        };
        let from = self.reference(held);
        let wanted = Point::new(from.x + step * i64::from(right), from.y + step * i64::from(up));
        let wanted = self.within_wall(held, wanted);
        let mut plan = self.plan.clone();
        match held {
            Held::Group(_) => {
                if right != 0 {
                    plan.group.across = GroupAcross::CentreAt(wanted.x);
                }
                if up != 0 {
                    plan.group.up = match plan.group.up {
                        GroupUp::Above { fixture, clearance } => GroupUp::Above {
                            fixture,
                            clearance: (clearance + wanted.y - from.y).max(Length::ZERO),
                        },
                        _ => GroupUp::CentreAt(wanted.y),
                    };
                }
            }
            Held::Fixture(index) => {
                if let Some(fixture) = plan.fixtures.get_mut(index).filter(|_| right != 0) {
                    fixture.across = match fixture.across {
                        Across::FromRight(_) => {
                            Across::FromRight(plan.wall.size.width - wanted.x - fixture.size.width)
                        }
                        _ => Across::FromLeft(wanted.x),
                    };
                }
            }
        }
        // A step beyond the limits of a plan is not taken.
        let _stays = self.step(plan);
    }

    /// The nearest place at which a thing is within the wall; as near as it can be, when it is larger than the wall.
    fn within_wall(&self, held: Held, wanted: Point) -> Point {
        let wall = self.plan.wall.size;
        let hold = |at: Length, half: Length, whole: Length| {
            if half * 2 > whole { whole.half() } else { at.clamp(half, whole - half) }
        };
        match held {
            Held::Group(_) => {
                let size = self.figures.arranged.group.size;
                Point::new(
                    hold(wanted.x, size.width.half(), wall.width),
                    hold(wanted.y, size.height.half(), wall.height),
                )
            }
            Held::Fixture(index) => {
                let rect = self.figures.arranged.fixtures.get(index).copied().unwrap_or_default();
                let half = rect.size.width.half();
                Point::new(hold(wanted.x + half, half, wall.width) - half, wanted.y)
            }
        }
    }

    /// The step to which a free move is rounded: 1/8 in or 5 mm.
    fn grain(&self) -> Length {
        match self.plan.units.first {
            System::Inches => Length::inches_ratio(1, 8),
            System::Centimetres => Length::mm(5),
        }
    }

    fn move_group(&self, plan: &mut Plan, wanted: Point, reach: Length) -> Vec<Snap> {
        let near = |a: Length, b: Length| (a - b).abs() <= reach;
        let mut snaps = Vec::new();
        let middle = plan.wall.size.width.half();
        let fixtures = &self.figures.arranged.fixtures;
        let over = plan.fixtures.iter().zip(fixtures).position(|(fixture, rect)| {
            fixture.relation == Relation::HangAbove && near(wanted.x, rect.centre().x)
        });
        plan.group.across = if let Some(index) = over {
            snaps.push(Snap { reason: format!("over the middle of the {}", plan.fixtures[index].name) });
            GroupAcross::FixtureMiddle(index)
        } else if near(wanted.x, middle) {
            snaps.push(Snap { reason: "in the middle of the wall".to_owned() });
            GroupAcross::WallMiddle
        } else {
            GroupAcross::CentreAt(wanted.x.to_nearest(self.grain()))
        };
        let foot = wanted.y - self.figures.arranged.group.size.height.half();
        let usual = Length::inches(8);
        let above = plan.fixtures.iter().zip(fixtures).position(|(fixture, rect)| {
            fixture.relation == Relation::HangAbove && near(foot, rect.top() + usual)
        });
        plan.group.up = if near(wanted.y, plan.viewing.eye_level) {
            snaps.push(Snap { reason: "centred at eye level".to_owned() });
            GroupUp::EyeLevel
        } else if let Some(fixture) = above {
            snaps.push(Snap { reason: format!("8 in above the {}", plan.fixtures[fixture].name) });
            GroupUp::Above { fixture, clearance: usual }
        } else if let GroupUp::Above { fixture, .. } = plan.group.up {
            let clearance = (foot - fixtures[fixture].top()).to_nearest(self.grain());
            if clearance >= Length::ZERO {
                GroupUp::Above { fixture, clearance }
            } else {
                GroupUp::CentreAt(wanted.y.to_nearest(self.grain()))
            }
        } else {
            GroupUp::CentreAt(wanted.y.to_nearest(self.grain()))
        };
        snaps
    }

    fn move_fixture(&self, plan: &mut Plan, index: usize, left: Length, reach: Length) -> Vec<Snap> {
        let grain = self.grain();
        let wall = plan.wall.size.width;
        let Some(fixture) = plan.fixtures.get_mut(index) else { return Vec::new() };
        let middle = (wall - fixture.size.width).half();
        if (left - middle).abs() <= reach {
            fixture.across = Across::Middle;
            return vec![Snap { reason: "in the middle of the wall".to_owned() }];
        }
        fixture.across = match fixture.across {
            Across::FromRight(_) => Across::FromRight((wall - left - fixture.size.width).to_nearest(grain)),
            _ => Across::FromLeft(left.to_nearest(grain)),
        };
        Vec::new()
    }
}
