//! Handling: taking hold of a thing on the drawing and moving it.

use super::pull::Corner;
use super::{Desk, DeskError};
use crate::draw::Guide;
use crate::draw::projection::Projection;
use crate::field::{self, Field};
use crate::fields;
use crate::geometry::Point;
use crate::length::Length;
use crate::plan::{self, Across, GroupAcross, GroupUp, Plan, System};

/// What was taken hold of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// The pieces, all together; and which of them is under the pointer.
    Group(usize),
    /// A fixture.
    Fixture(usize),
    /// A corner of a piece.
    Corner(Corner),
    /// The picture of a piece, inside its opening.
    Picture(usize),
}

/// Why a thing stopped where it did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Snap {
    /// The reason, in words.
    pub reason: String,
    /// The line that it stopped at.
    pub guide: Guide,
}

/// A move under way.
#[derive(Debug)]
pub(super) struct Drag {
    held: Held,
    from: Point,
    /// Where the thing's own reference was: the middle of the group, the left edge of the fixture.
    origin: Point,
    before: Plan,
    guides: Vec<Guide>,
}

/// How near a thing has to come, in CSS pixels, to snap.
const REACH_PX: f32 = 7.0;

fn parted(snaps: Vec<Snap>) -> (Vec<String>, Vec<Guide>) {
    snaps.into_iter().map(|snap| (snap.reason, snap.guide)).unzip()
}

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
        self.take_hold(held, projection, x_px, y_px);
        Some(held)
    }

    /// Takes hold of something at a point.
    pub fn take_hold(&mut self, held: Held, projection: Projection, x_px: f32, y_px: f32) {
        self.drag = Some(Drag {
            held,
            from: projection.place(x_px, y_px),
            origin: self.reference(held),
            before: self.plan.clone(),
            guides: Vec::new(),
        });
    }

    /// The lines at which what is held has stopped.
    #[must_use]
    pub fn guides(&self) -> &[Guide] {
        self.drag.as_ref().map_or(&[], |drag| &drag.guides)
    }

    fn reference(&self, held: Held) -> Point {
        match held {
            Held::Group(_) => self.figures.arranged.group.centre(),
            Held::Fixture(index) => {
                let rect = self.figures.arranged.fixtures.get(index).copied().unwrap_or_default();
                Point::new(rect.x, rect.y)
            }
            Held::Corner(_) | Held::Picture(_) => Point::default(),
        }
    }

    /// Moves what is held to a point; `css_px` is how many device pixels a CSS pixel has. `free` moves it without catching. Returns
    /// what there is to say of it.
    pub fn drag_to(
        &mut self,
        projection: Projection,
        x_px: f32,
        y_px: f32,
        css_px: f32,
        free: bool,
    ) -> Vec<String> {
        let Some(drag) = &self.drag else { return Vec::new() };
        let at = projection.place(x_px, y_px);
        let by = Point::new(at.x - drag.from.x, at.y - drag.from.y);
        let wanted = Point::new(drag.origin.x + by.x, drag.origin.y + by.y);
        let wanted = self.within_wall(drag.held, wanted);
        let mut plan = drag.before.clone();
        let reach = if free { -Length::inches(1) } else { projection.reach(REACH_PX * css_px) };
        let told = match drag.held {
            Held::Corner(corner) => self.pulled(&drag.before, corner, by, free),
            Held::Picture(piece) => self.slid(&drag.before, piece, by, reach),
            _ => None,
        };
        let (said, guides) = match (drag.held, told) {
            (Held::Group(_), _) => parted(self.move_group(&mut plan, wanted, reach)),
            (Held::Fixture(index), _) => parted(self.move_fixture(&mut plan, index, wanted.x, reach)),
            (_, None) => return Vec::new(),
            (_, Some((changed, said))) => {
                plan = changed;
                (vec![said], Vec::new())
            }
        };
        // A place that has no answer (beyond the limits of a plan) is not gone to.
        let _stays = self.replace(plan);
        if let Some(drag) = &mut self.drag {
            drag.guides = guides;
        }
        said
    }

    /// Lets go: the whole move becomes one step of history.
    pub fn release(&mut self) {
        let Some(drag) = self.drag.take() else { return };
        if drag.before != self.plan {
            self.past.push(super::Step::of(drag.before));
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
    /// Moves of one thing that follow each other are one step of history.
    /// Returns what there is to say of where it is then.
    pub fn nudge(&mut self, held: Held, right: i8, up: i8, large: bool) -> String {
        self.step_by(held, right, up, large);
        self.said_of(held)
    }

    fn step_by(&mut self, held: Held, right: i8, up: i8, large: bool) {
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
            Held::Corner(corner) => return self.nudge_corner(corner, right, up, large),
            Held::Picture(piece) => {
                self.nudge_picture(piece, right, up, large);
                return;
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
        self.nudge_step(held, plan);
    }

    /// Removes a thing of the drawing: a fixture, or one of several pieces.
    ///
    /// # Errors
    /// When it is the last piece, or the group of several.
    pub fn remove(&mut self, held: Held) -> Result<(), DeskError> {
        self.abandon();
        let piece = match held {
            Held::Fixture(index) => {
                let removed = fields::write(
                    &self.plan,
                    &self.stock,
                    Field::fixture(&plan::FIXTURE_KIND, index),
                    fields::REMOVE,
                );
                return Ok(self.step(removed.map_err(|_| DeskError::Gone)?)?);
            }
            Held::Group(_) if self.plan.pieces.len() > 1 => return Err(DeskError::WhichPiece),
            Held::Group(piece) | Held::Picture(piece) => piece,
            Held::Corner(corner) => corner.piece,
        };
        let left = self.plan.pieces.len().saturating_sub(1);
        if left == 0 {
            return Err(DeskError::LastPiece);
        }
        let mut plan = self.plan.clone();
        // It is the last that goes.
        if let Some(rest) = plan.pieces.get_mut(piece..) {
            rest.rotate_left(1);
        }
        let count = Field::from(&field::PIECES_COUNT);
        let fewer = fields::write(&plan, &self.stock, count, &left.to_string());
        Ok(self.step(fewer.map_err(|_| DeskError::Gone)?)?)
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
            Held::Corner(_) | Held::Picture(_) => wanted,
        }
    }

    /// The step to which a free move is rounded: 1/8 in or 5 mm.
    pub(super) fn grain(&self) -> Length {
        match self.plan.units.first {
            System::Inches => Length::inches_ratio(1, 8),
            System::Centimetres => Length::mm(5),
        }
    }
}
