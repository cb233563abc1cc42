//! What whoever listens is told: what a thing of the drawing is and where, what caught it, and what a step changed. Each is one
//! sentence without its full stop, of at most [`MOST`] characters.

use super::Desk;
use super::handling::Held;
use crate::compare::{Difference, differences};
use crate::length::Length;
use crate::measure::{Grade, shown, shown_size};
use crate::plan::{GroupUp, Plan};
use crate::spec::capital;

/// So many characters are said at once; more is not listened to.
pub const MOST: usize = 120;

/// A text with as many of its further parts, in their order, as one saying holds.
fn within(said: String, parts: impl IntoIterator<Item = String>) -> String {
    parts.into_iter().fold(said, |said, part| {
        let longer = [said.as_str(), ", ", &part].concat();
        if longer.chars().count() <= MOST { longer } else { said }
    })
}

/// Which of several pieces: `piece 2, the second of three`; of one, the piece.
fn which(plan: &Plan, piece: usize) -> String {
    let (ordinals, numbers) = (["first", "second", "third"], ["one", "two", "three"]);
    let number = ["piece ", &(piece + 1).to_string()].concat();
    let named = ordinals.get(piece).zip(numbers.get(plan.pieces.len().wrapping_sub(1)));
    match named.filter(|_| plan.pieces.len() > 1) {
        Some((ordinal, count)) => [&number, ", the ", ordinal, " of ", count].concat(),
        None => number,
    }
}

impl Desk {
    /// What a thing of the drawing is, where it is and what caught it there.
    ///
    /// ```
    /// use overmantel::{desk::{Desk, Held}, plan::Plan};
    /// let desk = Desk::new(Plan::starting()).unwrap();
    /// let said = desk.said_of(Held::Group(0));
    /// assert!(said.starts_with("The pieces together, middle 6' 0\" from the left corner, "), "{said}");
    /// assert!(said.ends_with("over the middle of the sofa, 8\" above the sofa"), "{said}");
    /// ```
    #[must_use]
    pub fn said_of(&self, held: Held) -> String {
        let (plan, arranged) = (&self.plan, &self.figures.arranged);
        let at = |length: Length| shown(length, Grade::Room, plan.units);
        let caught = |snaps: Vec<super::handling::Snap>| snaps.into_iter().map(|snap| snap.reason);
        let mut moved = plan.clone();
        match held {
            Held::Group(_) => {
                let what = match (plan.pieces.len(), plan.shared) {
                    (1, _) => "The piece",
                    (_, Some(_)) => "The frame with all pieces",
                    _ => "The pieces together",
                };
                let middle = arranged.group.centre();
                let place =
                    [what, ", middle ", &at(middle.x), " from the left corner, ", &at(middle.y), " up"];
                let mut reasons: Vec<String> =
                    caught(self.move_group(&mut moved, middle, Length::ZERO)).collect();
                // What it hangs above it keeps its distance from, usual or not.
                if let GroupUp::Above { fixture, clearance } = plan.group.up {
                    let above = plan.fixtures.get(fixture).map(|fixture| {
                        [&shown(clearance, Grade::Piece, plan.units), " above the ", &fixture.name].concat()
                    });
                    reasons.retain(|reason| !reason.contains(" above the "));
                    reasons.extend(above);
                }
                within(place.concat(), reasons)
            }
            Held::Fixture(index) => {
                let Some((fixture, place)) = plan.fixtures.get(index).zip(arranged.fixtures.get(index))
                else {
                    return String::new();
                };
                let said =
                    ["The ", &fixture.name, ", left edge ", &at(place.x), " from the left corner"].concat();
                within(said, caught(self.move_fixture(&mut moved, index, place.x, Length::ZERO)))
            }
            Held::Corner(corner) => {
                let Some(piece) = plan.pieces.get(corner.piece) else { return String::new() };
                let image = shown_size(piece.image, plan.units);
                let said = ["Size of ", &which(plan, corner.piece), ", ", &image].concat();
                let left = self
                    .place_of(corner.piece)
                    .map(|place| ["left edge ", &at(place.x), " from the left corner"].concat());
                within(said, left)
            }
            Held::Picture(piece) => {
                let said = ["The picture in ", &which(plan, piece)].concat();
                within(said, self.crop_in_words(piece))
            }
        }
    }

    /// What a thing of the drawing is called.
    #[must_use]
    pub fn called(&self, held: Held) -> String {
        match held {
            Held::Group(piece) | Held::Picture(piece) => which(&self.plan, piece),
            Held::Corner(corner) => which(&self.plan, corner.piece),
            Held::Fixture(index) => {
                let fixture = self.plan.fixtures.get(index);
                fixture.map_or(String::new(), |fixture| ["the ", &fixture.name].concat())
            }
        }
    }

    /// What a step back or forward made of a plan: what is back or gone as a whole, otherwise the first difference; and how many
    /// there are besides.
    ///
    /// ```
    /// use overmantel::{desk::Desk, plan::{Plan, WALL_WIDTH}};
    /// let mut desk = Desk::new(Plan::starting()).unwrap();
    /// desk.set(&WALL_WIDTH, "13'").unwrap();
    /// assert_eq!(desk.said_since(&Plan::starting()), "Width of the wall: 12' 0\" became 13' 0\"");
    /// ```
    #[must_use]
    pub fn said_since(&self, before: &Plan) -> String {
        let now = &self.plan;
        let found = differences(before, now, &self.stock).unwrap_or_default();
        let is_thing = |found: &&Difference| {
            before.fixtures.iter().chain(&now.fixtures).any(|fixture| fixture.name == found.label)
        };
        let Some(first) = found.iter().find(is_thing).or(found.first()) else {
            return match (before.title != now.title, before.units != now.units) {
                (true, _) => within("Title: ".to_owned() + &now.title, []).chars().take(MOST - 10).collect(),
                (false, true) => "units of length".to_owned(),
                (false, false) => String::new(),
            };
        };
        let more = match found.len() {
            1 => String::new(),
            2 => ", and one more change".to_owned(),
            count => [", and ", &(count - 1).to_string(), " more changes"].concat(),
        };
        // "Undone: " stands before it.
        let room = MOST - 10;
        let how = match (&first.one, &first.other) {
            (None, _) => " is back",
            (_, None) => " is gone",
            _ => {
                let whole = [&first.in_words(), more.as_str()].concat();
                if whole.chars().count() <= room {
                    return whole;
                }
                " is as before"
            }
        };
        let label: String = capital(&first.label).chars().take(room - more.len() - how.len()).collect();
        [&label, how, more.as_str()].concat()
    }
}
