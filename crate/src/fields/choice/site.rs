//! What is chosen of the site.

use super::*;
use crate::plan::{Built, RATINGS, Signature, Site};

/// Of what the wall is built.
const BUILT: [(&str, Built); 4] = [
    ("of a kind not stated", Built::Unstated),
    ("of plasterboard", Built::Plasterboard),
    ("of studs or boards", Built::Timber),
    ("of masonry", Built::Masonry),
];
const WAYS: [&str; 2] = ["in a home", "on a public way"];
const SUN: [&str; 2] = ["out of the sun", "where the sun falls on it"];
const OPPOSITE: [&str; 2] = ["no window opposite", "a window opposite"];
const GROUND: [&str; 2] = ["where the ground keeps still", "in earthquake country"];
const SIGNED: [&str; 3] =
    ["not signed", "signed below the image, which takes", "signed in the picture, from its edge by"];
/// The words for each of [`crate::plan::WAYS`], where it is of any size and where its size is stated.
const PASSED: [(&str, [&str; 2]); 3] = [
    ("door", ["any door", "a door of"]),
    ("stairs", ["any stairs", "a turn of the stairs of"]),
    ("car", ["any car", "a car with an opening of"]),
];
/// What something on the way measures before it is measured: a door of 30 × 80 in (from memory).
const PASSAGE: Size = Size::inches(30, 80);

/// Which of the things on the way a name means.
pub(in crate::fields) fn way(name: &str) -> Option<usize> {
    PASSED.iter().position(|entry| entry.0 == name)
}

fn rated(pounds: Option<u16>) -> String {
    match pounds {
        None => String::from("of a rating not stated"),
        Some(pounds) => ["rated for ", &pounds.to_string(), " lb"].concat(),
    }
}

pub(super) fn options(site: &Site, part: &str) -> Option<Choice> {
    let pair = |names: &[&'static str; 2], is_second: bool| of(names, name_of(names, usize::from(is_second)));
    match part {
        "wall" => {
            let current = BUILT.iter().find(|entry| entry.1 == site.built)?;
            of(&BUILT.map(|entry| entry.0), current.0)
        }
        "way" => pair(&WAYS, site.is_public_way),
        "sun" => pair(&SUN, site.has_sun),
        "opposite" => pair(&OPPOSITE, site.has_window_opposite),
        "ground" => pair(&GROUND, site.has_earthquakes),
        "rated" => {
            let options = [None].into_iter().chain(RATINGS.map(Some)).map(rated).collect();
            Some(Choice { options, current: rated(site.rated_pounds), colour: false })
        }
        "signature" => {
            let index = match site.signature {
                Signature::None => 0,
                Signature::Below(_) => 1,
                Signature::Within(_) => 2,
            };
            of(&SIGNED, name_of(&SIGNED, index))
        }
        name => {
            let index = way(name)?;
            pair(&PASSED[index].1, site.ways[index].is_some())
        }
    }
}

pub(super) fn write(site: &mut Site, part: &str, index: usize) {
    match part {
        "wall" => site.built = BUILT[index].1,
        "way" => site.is_public_way = index == 1,
        "sun" => site.has_sun = index == 1,
        "opposite" => site.has_window_opposite = index == 1,
        "ground" => site.has_earthquakes = index == 1,
        "rated" => site.rated_pounds = index.checked_sub(1).map(|index| RATINGS[index]),
        "signature" => {
            let by = match site.signature {
                Signature::None => Length::inches_ratio(1, 2),
                Signature::Below(by) | Signature::Within(by) => by,
            };
            site.signature = [Signature::None, Signature::Below(by), Signature::Within(by)][index];
        }
        name => {
            if let Some(passed) = way(name) {
                site.ways[passed] = (index == 1).then_some(PASSAGE);
            }
        }
    }
}

/// Points of a picture that must not be cut, by the words for them.
const SUBJECTS: [(&str, Option<(u16, u16)>); 10] = [
    ("nothing that must be kept whole", None),
    ("what matters in its middle", Some((500, 500))),
    ("what matters left of its middle", Some((333, 500))),
    ("what matters right of its middle", Some((667, 500))),
    ("what matters above its middle", Some((500, 333))),
    ("what matters below its middle", Some((500, 667))),
    ("what matters near its left edge", Some((60, 500))),
    ("what matters near its right edge", Some((940, 500))),
    ("what matters near its head", Some((500, 60))),
    ("what matters near its foot", Some((500, 940))),
];

pub(super) fn subjects(subject: Option<Focus>) -> Option<Choice> {
    let point = subject.map(|focus| (focus.x_permille, focus.y_permille));
    let current = SUBJECTS.iter().find(|entry| entry.1 == point);
    of(&SUBJECTS.map(|entry| entry.0), current.map_or("what matters at a point of its own", |entry| entry.0))
}

pub(super) fn subject(index: usize) -> Option<Focus> {
    SUBJECTS[index].1.map(|(x_permille, y_permille)| Focus { x_permille, y_permille })
}
