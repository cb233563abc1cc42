//! Snapping: where a thing that is moved catches, why, and the guide that shows it.

use super::Desk;
use super::handling::Snap;
use crate::draw::Guide;
use crate::geometry::{Point, Rect};
use crate::length::Length;
use crate::plan::{Across, FixtureKind, GroupAcross, GroupUp, Plan, System};

/// A place at which a thing catches.
struct Catch<T> {
    at: Length,
    reason: String,
    guide: Guide,
    then: T,
}

/// The first place within reach.
fn caught<T>(catches: Vec<Catch<T>>, wanted: Length, reach: Length) -> Option<Catch<T>> {
    catches.into_iter().find(|catch| (catch.at - wanted).abs() <= reach)
}

/// The middle of what is free between the things to the left and to the right of a place, and what these are. `None` between the
/// two corners: that is the middle of the wall.
fn evenly(wall: Length, at: Length, beside: &[(Rect, &str)]) -> Option<(Length, String)> {
    let left = beside.iter().filter(|(rect, _)| rect.centre().x < at).max_by_key(|(rect, _)| rect.right());
    let right = beside.iter().filter(|(rect, _)| rect.centre().x > at).min_by_key(|(rect, _)| rect.x);
    if left.is_none() && right.is_none() {
        return None;
    }
    let from = left.map_or(Length::ZERO, |(rect, _)| rect.right());
    let to = right.map_or(wall, |(rect, _)| rect.x);
    let name = |thing: Option<&(Rect, &str)>, corner: &str| {
        thing.map_or_else(|| format!("the {corner} corner"), |(_, name)| format!("the {name}"))
    };
    let reason = format!("as far from {} as from {}", name(left, "left"), name(right, "right"));
    Some(((from + to).half(), reason))
}

impl Desk {
    pub(super) fn move_group(&self, plan: &mut Plan, wanted: Point, reach: Length) -> Vec<Snap> {
        let (across, up) = (self.catches_across(plan, wanted), self.catches_up(plan));
        let mut snaps = Vec::new();
        plan.group.across = match caught(across, wanted.x, reach) {
            Some(Catch { reason, guide, then, .. }) => {
                snaps.push(Snap { reason, guide });
                then
            }
            None => GroupAcross::CentreAt(wanted.x.to_nearest(self.grain())),
        };
        let arranged = &self.figures.arranged;
        let foot = wanted.y - arranged.group.size.height.half();
        // How high the group would rest on a fixture there.
        let rest = |fixture: usize, across: GroupAcross| {
            let x = match across {
                GroupAcross::CentreAt(x) => x,
                _ => wanted.x,
            };
            let by = (x - arranged.group.centre().x, -arranged.group.y);
            let pieces: Vec<Rect> = arranged.outsides.iter().map(|piece| piece.moved(by.0, by.1)).collect();
            crate::arrange::rest(&self.plan.fixtures[fixture], arranged.fixtures[fixture], &pieces)
        };
        plan.group.up = match (caught(up, wanted.y, reach), plan.group.up) {
            (Some(Catch { reason, guide, then, .. }), _) => {
                snaps.push(Snap { reason, guide });
                then
            }
            (None, GroupUp::Above { fixture, .. }) if foot >= rest(fixture, plan.group.across) => {
                let clearance = foot - rest(fixture, plan.group.across);
                GroupUp::Above { fixture, clearance: clearance.to_nearest(self.grain()) }
            }
            _ => GroupUp::CentreAt(wanted.y.to_nearest(self.grain())),
        };
        snaps
    }

    fn catches_across(&self, plan: &Plan, wanted: Point) -> Vec<Catch<GroupAcross>> {
        let (wall, group) = (plan.wall.size.width, self.figures.arranged.group);
        let half = group.size.width.half();
        let fixtures: Vec<_> =
            plan.fixtures.iter().zip(self.figures.arranged.fixtures.iter().copied()).collect();
        let mut catches = Vec::new();
        let mut add = |at: Length, reason: String, line: Length, then: GroupAcross| {
            catches.push(Catch { at, reason, guide: Guide::Upright(line), then });
        };
        for (index, (fixture, rect)) in fixtures.iter().enumerate() {
            if fixture.is_hung_above() {
                let (x, reason) = (rect.centre().x, format!("over the middle of the {}", fixture.name));
                add(x, reason, x, GroupAcross::FixtureMiddle(index));
            }
        }
        add(wall.half(), "in the middle of the wall".to_owned(), wall.half(), GroupAcross::WallMiddle);
        let level = Rect::new(Length::ZERO, wanted.y - group.size.height.half(), group.size);
        let beside: Vec<(Rect, &str)> = fixtures
            .iter()
            .filter(|(fixture, _)| !fixture.is_hung_above() && !fixture.kind.crosses_others())
            .filter(|(_, rect)| rect.y < level.top() && level.y < rect.top())
            .map(|(fixture, rect)| (*rect, fixture.name.as_str()))
            .collect();
        if let Some((x, reason)) = evenly(wall, wanted.x, &beside) {
            add(x, reason, x, GroupAcross::CentreAt(x));
        }
        for (fixture, rect) in fixtures {
            for (side, line, at) in
                [("left", rect.x, rect.x + half), ("right", rect.right(), rect.right() - half)]
            {
                let reason = format!("the {side} edge in line with that of the {}", fixture.name);
                add(at, reason, line, GroupAcross::CentreAt(at));
            }
        }
        catches
    }

    fn catches_up(&self, plan: &Plan) -> Vec<Catch<GroupUp>> {
        let half = self.figures.arranged.group.size.height.half();
        let eye = plan.viewing.eye_level;
        let (usual, told) = match plan.units.first {
            System::Inches => (Length::inches(8), "8 in"),
            System::Centimetres => (Length::mm(200), "20 cm"),
        };
        let mut catches = vec![Catch {
            at: eye,
            reason: "centred at eye level".to_owned(),
            guide: Guide::Level(eye),
            then: GroupUp::EyeLevel,
        }];
        for (index, (fixture, rect)) in plan.fixtures.iter().zip(&self.figures.arranged.fixtures).enumerate()
        {
            let (line, reason, then);
            if fixture.kind == FixtureKind::Stairs {
                continue;
            }
            if fixture.is_hung_above() {
                line = rect.top() + usual;
                reason = format!("{told} above the {}", fixture.name);
                then = GroupUp::Above { fixture: index, clearance: usual };
                catches.push(Catch { at: line + half, reason, guide: Guide::Level(line), then });
            } else if fixture.kind.spans_wall() {
                line = rect.y;
                reason = format!("the top edge in line with the bottom edge of the {}", fixture.name);
                then = GroupUp::CentreAt(line - half);
                catches.push(Catch { at: line - half, reason, guide: Guide::Level(line), then });
            } else {
                line = rect.top();
                reason = format!("the top edge in line with the top of the {}", fixture.name);
                then = GroupUp::CentreAt(line - half);
                catches.push(Catch { at: line - half, reason, guide: Guide::Level(line), then });
            }
        }
        catches
    }

    pub(super) fn move_fixture(
        &self,
        plan: &mut Plan,
        index: usize,
        left: Length,
        reach: Length,
    ) -> Vec<Snap> {
        let grain = self.grain();
        let (wall, group) = (plan.wall.size.width, self.figures.arranged.group);
        let Some(fixture) = plan.fixtures.get(index) else { return Vec::new() };
        let (width, across) = (fixture.size.width, fixture.across);
        let (half, level) =
            (width.half(), self.figures.arranged.fixtures.get(index).copied().unwrap_or_default());
        let stated = |left: Length| match across {
            Across::FromRight(_) => Across::FromRight(wall - left - width),
            _ => Across::FromLeft(left),
        };
        let mut catches = Vec::new();
        let mut add = |at: Length, reason: String, line: Length, then: Across| {
            catches.push(Catch { at, reason, guide: Guide::Upright(line), then });
        };
        let middle = (wall - width).half();
        add(middle, "in the middle of the wall".to_owned(), wall.half(), Across::Middle);
        // Where the group stands over this very thing, it moves along.
        if plan.group.across != GroupAcross::FixtureMiddle(index) {
            let axis = group.centre().x;
            add(axis - half, "on the centre line of the pieces".to_owned(), axis, stated(axis - half));
            for (side, line, at) in
                [("left", group.x, group.x), ("right", group.right(), group.right() - width)]
            {
                let reason = format!("the {side} edge in line with that of the pieces");
                add(at, reason, line, stated(at));
            }
        }
        let others = plan.fixtures.iter().zip(&self.figures.arranged.fixtures).enumerate();
        let beside: Vec<(Rect, &str)> = others
            .filter(|(other, (_, rect))| *other != index && rect.y < level.top() && level.y < rect.top())
            .map(|(_, (fixture, rect))| (*rect, fixture.name.as_str()))
            .collect();
        if let Some((x, reason)) = evenly(wall, left + half, &beside) {
            add(x - half, reason, x, stated(x - half));
        }
        let found = caught(catches, left, reach);
        let Some(fixture) = plan.fixtures.get_mut(index) else { return Vec::new() };
        match found {
            Some(Catch { reason, guide, then, .. }) => {
                fixture.across = then;
                vec![Snap { reason, guide }]
            }
            None => {
                fixture.across = match across {
                    Across::FromRight(_) => Across::FromRight((wall - left - width).to_nearest(grain)),
                    _ => Across::FromLeft(left.to_nearest(grain)),
                };
                Vec::new()
            }
        }
    }
}
