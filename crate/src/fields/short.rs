//! Choices that a buyer makes in one go, and a maker in several: with a frame and which, with a mat and its colour, how many
//! pieces and what they show, where along the wall and how high.

use super::options::{FieldOption, Options};
use super::profile;
use crate::described::Row;
use crate::field::{self, above};
use crate::length::{Length, print::exact};
use crate::making::Section;
use crate::measure::{Grade, print_in};
use crate::plan::{
    Finish, FixtureKind, Frame, Framing, Glazing, GroupAcross, GroupUp, Mat, Piece, Plan, System, Units,
};
use crate::stock::{self, Stock};

/// The key of going without.
pub(super) const NONE: &str = "none";
/// The key of hanging in the middle of the wall at eye level.
const WALL: &str = "wall";
/// The key of one picture over several panels, before their number.
const SPLIT: &str = "split ";

/// What may be chosen in a field of one piece; `None` where the piece can't have it.
pub(super) fn of_piece(piece: &Piece, stock: &Stock, row: &'static Row, units: Units) -> Option<Options> {
    if *row == field::MAT_LOOK {
        return mats(piece.finish.framing()?);
    }
    let is_floater = *row == field::FLOATER_LOOK;
    let has_one = if is_floater {
        floats(piece).then(|| piece.finish.floater().is_some())?
    } else {
        piece.finish.framing()?.frame.is_some()
    };
    let known = profile::options(piece, stock, is_floater, units);
    let held = known.as_ref().and_then(Options::place).map(|place| place + 1);
    let list = [FieldOption::new(NONE, "none")].into_iter().chain(profile::listed(stock, is_floater, units));
    Options::new(
        list.collect(),
        if has_one { held } else { Some(0) },
        &own_section(piece, stock, is_floater, units),
    )
}

/// A moulding that the stock does not list, by its colour (or what it is made of) and how wide it is: `dark oak, 3/4 in`.
pub(super) fn own_section(piece: &Piece, stock: &Stock, is_floater: bool, units: Units) -> String {
    let (section, face, colour) = match (is_floater, piece.finish.floater(), piece.finish.framing()) {
        (true, Some(floater), _) => (Section::of_floater(floater, stock), floater.face, floater.colour),
        (false, _, Some(Framing { frame: Some(frame), .. })) => {
            (Section::of_frame(frame), frame.face, frame.colour)
        }
        _ => return String::new(),
    };
    let face_text = match units.first {
        System::Inches => exact(face),
        System::Centimetres => print_in(face, Grade::Cut, units.first),
    };
    let known = stock::MOULDINGS.iter().find(|named| named.colour == colour);
    let looks = known.map_or_else(|| section.made_of_and_finish(stock), |named| named.name.to_owned());
    [&looks, ", ", &face_text].concat()
}

/// Whether a piece stands free or in a floater frame, and in no other.
pub(super) fn floats(piece: &Piece) -> bool {
    match &piece.finish {
        Finish::Canvas(_) => true,
        Finish::Original(original) => original.framing == Framing::NONE,
        Finish::Paper(_) | Finish::Aluminium(_) => false,
    }
}

fn mats(framing: &Framing) -> Option<Options> {
    let colours = stock::MATS.iter().map(|named| FieldOption::new(named.colour.to_string(), named.name));
    let list = [FieldOption::new(NONE, "none")].into_iter().chain(colours).collect();
    let held = framing.mat.as_ref().map_or(Some(0), |mat| {
        stock::MATS.iter().position(|named| named.colour == mat.colour).map(|place| place + 1)
    });
    let own = framing.mat.as_ref().map(|mat| mat.colour.to_string()).unwrap_or_default();
    Options::new(list, held, &own)
}

/// Takes the option of this key for one piece.
pub(super) fn choose(piece: &mut Piece, stock: &Stock, row: &'static Row, (key, place): (&str, usize)) {
    if *row == field::FLOATER_LOOK {
        // `choose` puts a floater where there is none: here is only which.
        if place > 0 {
            profile::write(piece, stock, true, place - 1);
        }
        return;
    }
    let is_paper = matches!(piece.finish, Finish::Paper(_));
    let Some(framing) = piece.finish.framing_mut() else { return };
    if *row == field::MAT_LOOK {
        match stock::MATS.iter().find(|named| named.colour.to_string() == key) {
            Some(named) => framing.mat.get_or_insert_with(Mat::starting).colour = named.colour,
            None => framing.mat = None,
        }
    } else if place == 0 {
        (framing.frame, framing.glazing) = (None, Glazing::None);
    } else {
        if framing.frame.is_none() {
            framing.frame = Some(Frame::starting());
            // Paper is not framed without something before it.
            if is_paper && framing.glazing == Glazing::None {
                framing.glazing = Framing::starting().glazing;
            }
        }
        profile::write(piece, stock, false, place - 1);
    }
}

/// How many pieces there are, and whether one picture goes over all of them.
pub(super) fn shown(plan: &Plan) -> Option<Options> {
    let count = plan.pieces.len();
    if plan.pictures.is_empty() {
        let list = ["one piece", "two pieces", "three pieces"].into_iter().enumerate();
        let list = list.map(|(index, words)| FieldOption::new((index + 1).to_string(), words)).collect();
        return Options::new(list, Some(count - 1), "");
    }
    let across = if plan.are_all_originals() { "one work in " } else { "one picture across " };
    let list = vec![
        FieldOption::new("1", "one picture"),
        FieldOption::new("2", "two pictures"),
        FieldOption::new("3", "three pictures"),
        FieldOption::new([SPLIT, "2"].concat(), [across, "two panels"].concat()),
        FieldOption::new([SPLIT, "3"].concat(), [across, "three panels"].concat()),
    ];
    let held = if plan.split.is_some() && count > 1 { count + 1 } else { count - 1 };
    Options::new(list, Some(held), "")
}

/// How many pieces the key of [`shown`] means, and whether they show one picture.
pub(super) fn shown_of(key: &str) -> Option<(usize, bool)> {
    let bare = key.strip_prefix(SPLIT);
    let count = bare.unwrap_or(key).parse().ok()?;
    Some((count, bare.is_some()))
}

/// In the middle of the wall at eye level, or above what stands there and over its middle.
pub(super) fn place(plan: &Plan) -> Option<Options> {
    let mut list = vec![FieldOption::new(WALL, "in the middle of the wall, at eye level")];
    let mut held =
        (plan.group.across == GroupAcross::WallMiddle && plan.group.up == GroupUp::EyeLevel).then_some(0);
    let mut moved = "where they were moved to".to_owned();
    for (index, fixture) in plan.fixtures.iter().enumerate() {
        let is_above = matches!(plan.group.up, GroupUp::Above { fixture, .. } if fixture == index);
        let is_stairs = fixture.kind == FixtureKind::Stairs;
        // Along stairs the pieces have no one middle to be over.
        let is_held = is_above && (is_stairs || plan.group.across == GroupAcross::FixtureMiddle(index));
        if is_above {
            moved = ["above the ", &fixture.name, ", moved along"].concat();
        }
        if is_held {
            held = Some(list.len());
        }
        if is_held || fixture.is_hung_above() && !is_stairs {
            list.push(FieldOption::new(above(index), ["above the ", &fixture.name].concat()));
        }
    }
    Options::new(list, held, &moved)
}

/// Hangs the group where the key of [`place`] says.
pub(super) fn hang(plan: &mut Plan, key: &str) {
    let Some(index) = key.strip_prefix("above ").and_then(|index| index.parse().ok()) else {
        (plan.group.across, plan.group.up) = (GroupAcross::WallMiddle, GroupUp::EyeLevel);
        return;
    };
    let clearance = match plan.group.up {
        GroupUp::Above { clearance, .. } => clearance,
        _ => Length::inches(8),
    };
    (plan.group.across, plan.group.up) =
        (GroupAcross::FixtureMiddle(index), GroupUp::Above { fixture: index, clearance });
}
