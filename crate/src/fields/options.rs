//! What may be chosen in a field, and which of it holds: by keys, with words for people.
//!
//! Most of it stands in the tables beside the plan's enums. What depends on the plan at hand is put together here.

use super::{Kind, Value, profile, short, visit};
use crate::colour::Colour;
use crate::described::{Choosable, Entry, Form, Row, Slot, Words};
use crate::field::{self, Field, Whose, above, focus_key, over_middle};
use crate::plan::{
    self, Align, Arrangement, FixtureKind, Focus, GroupAcross, GroupUp, Hanger, HangerPlace, Measured, Plan,
    RATINGS,
};
use crate::stock::{self, Named, Stock};
use crate::words::in_units;

/// Something that may be chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FieldOption {
    /// What it is told by.
    pub key: String,
    /// What it is called.
    pub words: String,
}

impl FieldOption {
    pub(super) fn new(key: impl Into<String>, words: impl Into<String>) -> Self {
        Self { key: key.into(), words: words.into() }
    }

    /// A text that is its own key.
    pub(super) fn plain(text: impl Into<String>) -> Self {
        let text = text.into();
        Self { key: text.clone(), words: text }
    }
}

/// What holds of what may be chosen.
pub(super) enum Held {
    /// An option of the list, by its place.
    Option(usize),
    /// Something else, in these words.
    Other(String),
}

/// What may be chosen, and what of it holds.
pub(super) struct Options {
    pub(super) list: Vec<FieldOption>,
    pub(super) held: Held,
    kind: Kind,
}

impl Options {
    pub(super) fn new(list: Vec<FieldOption>, held: Option<usize>, otherwise: &str) -> Option<Self> {
        let held = held.filter(|&place| place < list.len());
        let held = held.map_or_else(|| Held::Other(otherwise.to_owned()), Held::Option);
        Some(Self { list, held, kind: Kind::Choice })
    }

    /// The key of what holds.
    pub(super) fn key(&self) -> Option<&str> {
        match self.held {
            Held::Option(place) => Some(self.list[place].key.as_str()),
            Held::Other(_) => None,
        }
    }

    /// The place of what holds.
    pub(super) const fn place(&self) -> Option<usize> {
        match self.held {
            Held::Option(place) => Some(place),
            Held::Other(_) => None,
        }
    }

    pub(super) fn value(self, field: Field) -> Value {
        let text = match &self.held {
            Held::Option(place) => self.list[*place].words.clone(),
            Held::Other(words) => words.clone(),
        };
        let key = self.key().map(str::to_owned);
        Value { key, options: self.list, ..Value::plain(self.kind, text, field) }
    }
}

/// The key of the kind by which a fixture is removed.
pub const REMOVE: &str = "remove";

/// Points that a crop may keep.
const KEPT: [(&str, Focus); 5] = [
    ("its middle", Focus::MIDDLE),
    ("its left", Focus { x_permille: 0, y_permille: 500 }),
    ("its right", Focus { x_permille: 1000, y_permille: 500 }),
    ("its top", Focus { x_permille: 500, y_permille: 0 }),
    ("its bottom", Focus { x_permille: 500, y_permille: 1000 }),
];

/// Points of a picture that must not be cut, by the words for them.
const SUBJECTS: [(&str, Option<(u16, u16)>); 10] = [
    ("nothing needs to be kept out of the crop", None),
    ("what matters is in the middle", Some((500, 500))),
    ("what matters is left of its middle", Some((333, 500))),
    ("what matters is right of its middle", Some((667, 500))),
    ("what matters is above its middle", Some((500, 333))),
    ("what matters is below its middle", Some((500, 667))),
    ("what matters is near its left edge", Some((60, 500))),
    ("what matters is near its right edge", Some((940, 500))),
    ("what matters is near its top", Some((500, 60))),
    ("what matters is near its bottom", Some((500, 940))),
];

/// The point of a key, as [`focus_key`] writes it.
pub(super) fn point(key: &str) -> Option<Focus> {
    let (x, y) = key.split_once(',')?;
    Some(Focus { x_permille: x.parse().ok()?, y_permille: y.parse().ok()? })
}

/// The colours that a field takes by name.
pub(super) fn colours(row: &'static Row) -> Option<&'static [Named]> {
    let is = |one: &'static Row| *row == *one;
    Some(if is(&plan::WALL_PAINT) {
        &stock::PAINTS
    } else if is(&plan::WALL_FLOOR) {
        &stock::FLOORS
    } else if is(&plan::FIXTURE_COLOUR) {
        &stock::FURNITURE
    } else if is(&plan::MAT_COLOUR) || is(&plan::MAT_INNER_COLOUR) {
        &stock::MATS
    } else if is(&plan::CANVAS_EDGE_COLOUR) {
        &stock::EDGES
    } else if is(&plan::FRAME_COLOUR) || is(&plan::FLOATER_COLOUR) {
        &stock::MOULDINGS
    } else {
        return None;
    })
}

fn coloured(list: &'static [Named], colour: Colour) -> Option<Options> {
    let choices = list.iter().map(|named| FieldOption::new(named.colour.to_string(), named.name)).collect();
    let held = list.iter().position(|named| named.colour == colour);
    Some(Options { kind: Kind::Colour, ..Options::new(choices, held, &colour.to_string())? })
}

fn entries(entries: &[&'static Entry], place: usize) -> Option<Options> {
    Options::new(
        entries.iter().map(|entry| FieldOption::new(entry.key, entry.words)).collect(),
        Some(place),
        "",
    )
}

/// Yes and no in words.
fn yes_no(words: Words, is_so: bool) -> Option<Options> {
    if words == Words::NONE {
        return None;
    }
    let [yes, no] = [FieldOption::new("yes", words.yes), FieldOption::new("no", words.no)];
    let list = if words.yes_first { vec![yes, no] } else { vec![no, yes] };
    Options::new(list, Some(usize::from(is_so != words.yes_first)), "")
}

/// The options of a field; none where it has none, or the plan has no such field.
pub(super) fn of(plan: &Plan, stock: &Stock, field: Field) -> Option<Options> {
    special(plan, stock, field).unwrap_or_else(|| {
        let list = colours(field.row);
        let mut found = None;
        visit(&mut plan.clone(), field, &mut |slot| {
            if found.is_none() {
                found = Some(match (&*slot, field.row.form, list) {
                    (Slot::Colour(colour), _, Some(list)) => coloured(list, **colour),
                    (Slot::Flag(flag), Form::Flag(words), _) => yes_no(words, **flag),
                    (Slot::Maybe(maybe), Form::Maybe { words, .. }, _) => yes_no(words, maybe.is_there()),
                    (Slot::Choice(choice), ..) => entries(&choice.entries(), choice.place()),
                    (Slot::OneOf(one), ..) => {
                        entries(&one.variants().entries.iter().collect::<Vec<_>>(), one.place())
                    }
                    _ => None,
                });
            }
        });
        found.flatten()
    })
}

/// What depends on the plan; `None` for a field of which a table tells all, `Some(None)` where the plan has no such field.
fn special(plan: &Plan, stock: &Stock, field: Field) -> Option<Option<Options>> {
    let row = field.row;
    let is = |one: &'static Row| *row == *one;
    Some(if is(&field::FIXTURES_ADD) {
        Options::new(kinds(), None, "Add something")
    } else if is(&plan::FIXTURE_KIND) {
        kind(plan, field)
    } else if is(&field::PIECES_COUNT) {
        let list = ["one", "two", "three"].into_iter().enumerate();
        let list = list.map(|(index, words)| FieldOption::new((index + 1).to_string(), words)).collect();
        Options::new(list, Some(plan.pieces.len() - 1), "")
    } else if is(&field::PIECES_SHARE) {
        let Form::Flag(mut words) = row.form else { return Some(None) };
        // An original is no part of anything, unless the work itself was made in panels.
        if plan.are_all_originals() {
            words = Words::no_yes("a work of its own", "one panel of a single work");
        }
        if plan.pieces.len() < 2 || plan.pictures.is_empty() {
            None
        } else {
            yes_no(words, plan.split.is_some())
        }
    } else if is(&field::PIECES_SHOWN) {
        short::shown(plan)
    } else if is(&field::GROUP_PLACE) {
        short::place(plan)
    } else if [&field::FRAME_LOOK, &field::MAT_LOOK, &field::FLOATER_LOOK].contains(&row) {
        piece(plan, field).and_then(|piece| short::of_piece(piece, stock, row, plan.units))
    } else if is(&plan::SHARED) && plan.pieces.len() < 2 {
        None
    } else if is(&plan::IN_HAND_MEASURED) {
        let none = FieldOption::new("none", "no frame that must be used");
        let measured = Measured::ALL
            .iter()
            .map(|(_, entry)| FieldOption::new(entry.key, in_units(entry.words, plan.units.first)));
        let list = [none].into_iter().chain(measured).collect();
        Options::new(list, Some(plan.in_hand.map_or(0, |stated| stated.measured.place() + 1)), "")
    } else if is(&plan::SPLIT_FOCUS) {
        plan.split.and_then(|split| kept(split.focus))
    } else if is(&plan::SPLIT_PICTURE) {
        plan.split.and_then(|split| pictures(plan, Some(split.picture)))
    } else if is(&plan::PIECE_FOCUS) {
        piece(plan, field).and_then(|piece| kept(piece.focus))
    } else if is(&plan::PIECE_PICTURE) {
        piece(plan, field).and_then(|piece| pictures(plan, piece.picture))
    } else if is(&plan::MAT_INNER_COLOUR) {
        let mat = piece(plan, field)
            .and_then(|piece| piece.finish.framing())
            .and_then(|framing| framing.mat.as_ref());
        let mat = mat.filter(|mat| mat.inner_reveal.is_some());
        mat.and_then(|mat| coloured(&stock::MATS, mat.inner_colour.unwrap_or(mat.colour)))
    } else if is(&plan::FIXTURE_COLOUR) {
        let Whose::Fixture(number) = field.of else { return Some(None) };
        let fixture = plan.fixtures.get(number);
        let shown = fixture.and_then(|fixture| Some(fixture.colour.unwrap_or(fixture.kind.usual_colour()?)));
        shown.and_then(|colour| coloured(&stock::FURNITURE, colour))
    } else if is(&plan::PICTURE_SUBJECT) {
        subject(plan, field)
    } else if is(&field::FRAME_PROFILE) || is(&field::FLOATER_PROFILE) {
        piece(plan, field)
            .and_then(|piece| profile::options(piece, stock, is(&field::FLOATER_PROFILE), plan.units))
    } else if is(&plan::GROUP_ALIGN) {
        align(plan)
    } else if is(&plan::GROUP_ACROSS) {
        across(plan)
    } else if is(&plan::GROUP_UP) {
        up(plan)
    } else if is(&plan::FIXING_KIND) {
        let list = Hanger::OFFERED.iter().map(|(key, words, _)| FieldOption::new(*key, *words)).collect();
        Options::new(list, plan.fixing.hanger.offered(), "")
    } else if let Some(usual) = usual_place(field) {
        let [from_sides, down] = [plan.fixing.from_sides, plan.fixing.down];
        let place = if is(&plan::FIXING_DOWN) { down } else { from_sides };
        Options::new(vec![usual], (place == HangerPlace::Usual).then_some(0), "")
    } else if is(&plan::SITE_RATED) {
        rated(plan)
    } else {
        return None;
    })
}

/// What rings at their usual place are called.
pub(super) const USUAL_PLACE_WORDS: &str = "as usual";

/// The option of rings at their usual place, for the fields of where they are.
pub(super) fn usual_place(field: Field) -> Option<FieldOption> {
    let is_of_rings = [&plan::FIXING_FROM_SIDES, &plan::FIXING_DOWN].contains(&field.row);
    is_of_rings.then(|| FieldOption::new(plan::USUAL_PLACE, USUAL_PLACE_WORDS))
}

/// The first piece that a field is of.
fn piece(plan: &Plan, field: Field) -> Option<&plan::Piece> {
    plan.pieces.get(*field.pieces_of(plan).first()?)
}

fn kinds() -> Vec<FieldOption> {
    FixtureKind::ALL.iter().map(|(_, entry)| FieldOption::new(entry.key, entry.words)).collect()
}

fn kind(plan: &Plan, field: Field) -> Option<Options> {
    let Whose::Fixture(fixture) = field.of else { return None };
    let held = plan.fixtures.get(fixture)?.kind.place();
    let list = kinds().into_iter().chain([FieldOption::new(REMOVE, "remove")]).collect();
    Options::new(list, Some(held), "")
}

fn kept(focus: Focus) -> Option<Options> {
    let list = KEPT.iter().map(|(words, focus)| FieldOption::new(focus_key(*focus), *words)).collect();
    Options::new(list, KEPT.iter().position(|(_, known)| *known == focus), "a point of your own")
}

fn pictures(plan: &Plan, shown: Option<usize>) -> Option<Options> {
    let list = plan.pictures.iter().map(|picture| FieldOption::plain(picture.name.clone())).collect();
    Options::new(list, shown, "no picture yet")
}

fn subject(plan: &Plan, field: Field) -> Option<Options> {
    let Whose::Picture(picture) = field.of else { return None };
    let subject = plan.pictures.get(picture)?.subject.map(|focus| (focus.x_permille, focus.y_permille));
    let key = |point: Option<(u16, u16)>| {
        point.map_or_else(
            || "none".to_owned(),
            |(x_permille, y_permille)| focus_key(Focus { x_permille, y_permille }),
        )
    };
    let list = SUBJECTS.iter().map(|(words, point)| FieldOption::new(key(*point), *words)).collect();
    let held = SUBJECTS.iter().position(|(_, point)| *point == subject);
    Options::new(list, held, "what matters is at a point of your own")
}

fn align(plan: &Plan) -> Option<Options> {
    let words = match plan.group.arrangement {
        Arrangement::Column => ["their centres", "their left edges", "their right edges"],
        _ => ["their centres", "their top edges", "their bottom edges"],
    };
    let is_mixed = plan.group.arrangement.is_mixed();
    let words = words.into_iter().chain(is_mixed.then_some("their outer edges"));
    let list =
        Align::ALL.iter().zip(words).map(|((_, entry), words)| FieldOption::new(entry.key, words)).collect();
    let held = if is_mixed || plan.group.align != Align::Both { plan.group.align } else { Align::Centre };
    Options::new(list, Some(held.place()), "")
}

/// In the middle of the wall, over each fixture, at a distance.
fn across(plan: &Plan) -> Option<Options> {
    let held = match plan.group.across {
        GroupAcross::WallMiddle => "wall_middle".to_owned(),
        GroupAcross::FixtureMiddle(index) => over_middle(index),
        GroupAcross::CentreAt(_) => "centre_at".to_owned(),
    };
    let mut list = vec![FieldOption::new("wall_middle", "in the middle of the wall")];
    list.extend(over(plan, over_middle, &held, "over the middle of the "));
    list.push(FieldOption::new("centre_at", "at a distance from the left corner"));
    let held = list.iter().position(|option| option.key == held);
    Options::new(list, held, "")
}

/// At eye level, at a height, above each fixture.
fn up(plan: &Plan) -> Option<Options> {
    let mut list = vec![
        FieldOption::new("eye_level", "centred at eye level"),
        FieldOption::new("centre_at", "centred at a height"),
    ];
    let held = match plan.group.up {
        GroupUp::EyeLevel => "eye_level".to_owned(),
        GroupUp::CentreAt(_) => "centre_at".to_owned(),
        GroupUp::Above { fixture, .. } => above(fixture),
    };
    list.extend(over(plan, above, &held, "above the "));
    let held = list.iter().position(|option| option.key == held);
    Options::new(list, held, "")
}

/// An option for each fixture that a group can hang over, and for the one that holds.
fn over(plan: &Plan, key: fn(usize) -> String, held: &str, words: &str) -> Vec<FieldOption> {
    let fixtures = plan.fixtures.iter().enumerate();
    let offered = fixtures.filter(|(index, fixture)| fixture.kind.has_room_above() || key(*index) == held);
    offered.map(|(index, fixture)| FieldOption::new(key(index), [words, &fixture.name].concat())).collect()
}

fn rated(plan: &Plan) -> Option<Options> {
    let none = FieldOption::new("none", "of a rating not known yet");
    let words = |pounds: u16| ["rated for ", &crate::measure::rating(pounds, plan.units.first)].concat();
    let rated = RATINGS.iter().map(|&pounds| FieldOption::new(pounds.to_string(), words(pounds)));
    let list = [none].into_iter().chain(rated).collect();
    let held = plan
        .site
        .rated_pounds
        .map_or(Some(0), |pounds| RATINGS.iter().position(|known| *known == pounds).map(|place| place + 1));
    Options::new(list, held, "")
}

/// Whether a piece's choice holds already.
pub(super) fn holds(plan: &Plan, stock: &Stock, field: Field, key: &str) -> bool {
    of(plan, stock, field).is_some_and(|options| options.key() == Some(key))
}
