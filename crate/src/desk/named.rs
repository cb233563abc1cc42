//! What a plan is called until a person says, and the pictures that only stand in until one's own come.

use super::Desk;
use crate::plan::{Picture, Plan, limits};
use crate::starts::STARTS;

/// The pictures of the demo, and what its plans are called.
#[derive(Clone, Debug, Default)]
pub(super) struct Demo {
    pictures: Vec<Picture>,
    titles: Vec<String>,
}

impl Demo {
    /// Whether a picture is one of the demo's.
    pub(super) fn has(&self, picture: &Picture) -> bool {
        self.pictures.contains(picture)
    }
}

/// A plan's name after its pictures, in the order in which they hang: `Ebb, Mudflats and Three boats`; none where it shows none.
pub(super) fn after_its_pictures(plan: &Plan) -> Option<String> {
    let split = plan.split.map(|split| split.picture);
    let hung = plan.pieces.iter().filter_map(|piece| piece.picture);
    let mut names: Vec<&str> = Vec::new();
    for index in split.map_or_else(|| hung.collect(), |picture| vec![picture]) {
        let name = plan.pictures.get(index).map(|picture| picture.name.as_str());
        names.extend(name.filter(|name| !names.contains(name)));
    }
    let (last, others) = names.split_last()?;
    let whole =
        if others.is_empty() { String::from(*last) } else { [&others.join(", "), " and ", last].concat() };
    if whole.chars().count() <= limits::NAME {
        return Some(whole);
    }
    let more = [" and ", &others.len().to_string(), " more"].concat();
    let more = if others.is_empty() { String::new() } else { more };
    let kept = limits::NAME - more.chars().count();
    Some(names[0].chars().take(kept).collect::<String>() + &more)
}

impl Desk {
    /// Says which plans are the demo's: their pictures stand only until one's own come, and their titles were given by nobody.
    pub fn know_demo(&mut self, plans: &[Plan]) {
        self.demo = Demo {
            pictures: plans.iter().flat_map(|plan| plan.pictures.clone()).collect(),
            titles: plans.iter().map(|plan| plan.title.clone()).collect(),
        };
    }

    /// A plan that comes after the one at work, with the title that it should have: the one that a person gave, or it is named after
    /// its pictures.
    pub(super) fn named(&self, after: Plan, is_begun: bool) -> Plan {
        let before = &self.plan;
        let of_pictures = after_its_pictures(before);
        let is_named = of_pictures.as_deref() == Some(before.title.as_str());
        let is_given = !is_named
            && before.title != Plan::starting().title
            && !self.demo.titles.contains(&before.title)
            && !STARTS.iter().any(|start| start.words == before.title);
        let title = match after_its_pictures(&after) {
            _ if is_begun && is_given => Some(before.title.clone()),
            // Whoever writes the title gives it.
            Some(name) if is_begun || is_named && after.title == before.title => Some(name),
            Some(name) if !is_given && !self.shows_demo(&after) && self.shows_demo(before) => Some(name),
            _ => None,
        };
        Plan { title: title.unwrap_or(after.title), ..after }
    }

    fn shows_demo(&self, plan: &Plan) -> bool {
        plan.pictures.iter().any(|picture| self.demo.has(picture))
    }
}
