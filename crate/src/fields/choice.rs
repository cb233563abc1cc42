//! Fields that are chosen from a few things.
//!
//! `options` is the one table: for each field, its options in words and which of them the plan has now. `write` finds
//! the option and applies it.

use super::*;

mod fixture;
mod piece;
mod profile;
mod site;

use fixture::{add_fixture, fixture_options, write_fixture};
use piece::{piece_options, write_piece};
pub(super) use site::way;

/// The choices of a field and the one that holds.
struct Choice {
    options: Vec<String>,
    current: String,
    colour: bool,
}

pub(super) fn read(plan: &Plan, stock: &Stock, path: &[&str], label: String) -> Option<Value> {
    let Choice { options, current, colour } = options(plan, stock, path)?;
    let kind = if colour { Kind::Colour } else { Kind::Choice };
    Some(Value { kind, text: current, other: None, options, label, rounded: false })
}

/// Whether the options of a field are better seen than read: arrangements, edges, the sections and shapes of mouldings.
#[must_use]
pub fn is_drawn(field: &str) -> bool {
    let path: Vec<&str> = field.split('.').collect();
    matches!(
        path[..],
        ["group", "arrangement"]
            | ["piece", _, "canvas", "edge"]
            | ["piece", _, "frame", "profile" | "shape"]
            | ["piece", _, "floater", "profile"]
    )
}

fn of(options: &[&str], current: &str) -> Option<Choice> {
    let options = options.iter().map(|&option| option.to_owned()).collect();
    Some(Choice { options, current: current.to_owned(), colour: false })
}

fn colours(list: &[stock::Named], current: crate::colour::Colour) -> Option<Choice> {
    Some(Choice {
        options: list.iter().map(|entry| entry.name.to_owned()).collect(),
        current: stock::name_of(list, current),
        colour: true,
    })
}

/// Words of a count.
pub const COUNTS: [&str; 3] = ["one", "two", "three"];
/// What a piece may be made of.
pub const MATERIALS: [&str; 4] = ["paper", "canvas", "aluminium", "the original"];
/// How the mat's opening follows from the art.
pub const OPENINGS: [&str; 3] =
    ["covering the sheet by", "showing its white border by", "floating it with air of"];
/// What is on a canvas's edges.
pub const CANVAS_EDGES: [&str; 3] = ["the picture carried round", "the face mirrored", "a plain colour"];
/// What covers a work on paper.
pub const GLAZINGS: [&str; 3] = ["no glazing", "glass", "acrylic"];
/// With a thing or without it.
pub const WITH: [&str; 2] = ["with", "without"];
/// How pieces stand together.
pub const ARRANGEMENTS: [&str; 3] = ["a row", "a column", "steps"];
/// What pieces hang by.
pub const FIXINGS: [&str; 3] = ["two rings", "a wire over one hook", "a wire over two hooks"];
/// Whether pieces share a frame.
pub const FRAMES: [&str; 2] = ["each in a frame of its own", "all in one frame"];
/// What was measured of a frame in hand.
pub const MEASURED: [&str; 5] =
    ["no frame in hand", "by its glass", "by its rabbet", "by its sight opening", "by its outside"];
/// Whether a space on the wall is stated.
pub const SPACE: [&str; 2] = ["any width and height", "no more than"];
/// How white paper round an image is stated.
pub const PAPERS: [&str; 2] = ["white paper of", "what is left of a sheet of"];
/// How a mat's board is stated.
pub const BOARDS: [&str; 2] = ["of", "on a board of"];
/// How the foot stands to the head.
pub const WEIGHTINGS: [&str; 2] = ["wider at the foot by", "foot to head as"];
/// What a mount or a backing may be, and what a moulding may be made of.
pub const BOARD_MATERIALS: [Material; 6] = [
    Material::MatBoard,
    Material::FoamBoard,
    Material::FlutedBoard,
    Material::Hardboard,
    Material::Mdf,
    Material::AluminiumComposite,
];
/// What a moulding may be made of.
pub const MOULDING_MATERIALS: [Material; 6] =
    [Material::Pine, Material::Obeche, Material::Poplar, Material::Oak, Material::Mdf, Material::Aluminium];
/// By which light a wall is drawn.
pub const LIGHTS: [&str; 2] = ["by daylight", "by a lamp in the evening"];
/// A figure for scale.
pub const FIGURES: [&str; 3] = ["a standing figure", "a seated figure", "no figure"];
/// Where along the wall a viewer stands.
pub const ASIDE: [&str; 3] =
    ["straight before the pictures", "to the left of them by", "to the right of them by"];
/// What glass and acrylic are drawn with.
pub const REFLECTIONS: [&str; 2] = ["a faint reflection", "no reflection"];
/// How a wall is finished under its paint.
pub const WALL_FINISHES: [&str; 2] = ["smooth", "plastered by hand"];
/// What holds a metal sheet off the wall.
pub const METAL_BACKS: [&str; 2] = ["on float blocks", "on a sub-frame"];
/// What becomes of the strips behind gaps.
pub const STRIPS: [&str; 2] = ["hidden, so that lines meet", "kept, so that nothing is lost"];
/// Whether pieces share a picture.
pub const SHARING: [&str; 2] = ["a picture of its own", "a part of one picture"];
/// The option that takes a fixture away.
pub const TAKE_AWAY: &str = "take it away";
/// The place of a fixture along the wall.
pub const ACROSS: [&str; 3] = ["in the middle", "from the left corner", "from the right corner"];

/// What a crop keeps, and where that is in thousandths from the left and from the top.
const KEPT: [(&str, Focus); 5] = [
    ("its middle", Focus::MIDDLE),
    ("its left", Focus { x_permille: 0, y_permille: 500 }),
    ("its right", Focus { x_permille: 1000, y_permille: 500 }),
    ("its head", Focus { x_permille: 500, y_permille: 0 }),
    ("its foot", Focus { x_permille: 500, y_permille: 1000 }),
];

fn kept(focus: Focus) -> Option<Choice> {
    let current =
        KEPT.iter().find(|(_, known)| *known == focus).map_or("a point of its own", |(name, _)| name);
    of(&KEPT.map(|(name, _)| name), current)
}

fn name_of(names: &[&'static str], index: usize) -> &'static str {
    names.get(index).copied().unwrap_or_default()
}

fn index_of(names: &[&str], text: &str) -> Result<usize, FieldError> {
    let wanted = text.trim();
    // First as it is written: names of pictures may differ by a capital or a blank only.
    let exactly = names.iter().position(|&name| name == text);
    exactly.or_else(|| names.iter().position(|name| name.eq_ignore_ascii_case(wanted))).ok_or_else(|| {
        FieldError::from(format!("\"{wanted}\" can't be chosen here; choose {}", names.join(", or ")))
    })
}

fn aligns(plan: &Plan) -> [&'static str; 3] {
    match plan.group.arrangement {
        Arrangement::Column => ["their centres", "their left edges", "their right edges"],
        _ => ["their centres", "their upper edges", "their lower edges"],
    }
}

fn across_options(plan: &Plan) -> Vec<String> {
    let mut options = vec!["in the middle of the wall".to_owned()];
    options.extend(plan.fixtures.iter().map(|fixture| format!("over the middle of the {}", fixture.name)));
    options.push("at a distance from the left corner".to_owned());
    options
}

fn up_options(plan: &Plan) -> Vec<String> {
    let mut options = vec!["centred at eye level".to_owned(), "centred at a height".to_owned()];
    options.extend(plan.fixtures.iter().map(|fixture| format!("above the {}", fixture.name)));
    options
}

fn options(plan: &Plan, stock: &Stock, path: &[&str]) -> Option<Choice> {
    match path {
        ["units"] => of(
            &["inches", "centimetres"],
            name_of(&["inches", "centimetres"], usize::from(plan.units.first == System::Centimetres)),
        ),
        ["wall", "paint"] => colours(&stock::PAINTS, plan.wall.paint),
        ["wall", "floor"] => colours(&stock::FLOORS, plan.wall.floor),
        ["wall", "finish"] => {
            of(&WALL_FINISHES, name_of(&WALL_FINISHES, usize::from(plan.wall.finish == WallFinish::Plaster)))
        }
        ["viewing", "figure"] => {
            let index = match plan.viewing.figure {
                Some(Posture::Standing) => 0,
                Some(Posture::Seated) => 1,
                None => 2,
            };
            of(&FIGURES, name_of(&FIGURES, index))
        }
        ["viewing", "side"] => {
            let index = match plan.viewing.aside {
                Aside::Straight => 0,
                Aside::Left(_) => 1,
                Aside::Right(_) => 2,
            };
            of(&ASIDE, name_of(&ASIDE, index))
        }
        ["viewing", "reflection"] => {
            of(&REFLECTIONS, name_of(&REFLECTIONS, usize::from(!plan.viewing.reflection)))
        }
        ["viewing", "light"] => {
            of(&LIGHTS, name_of(&LIGHTS, usize::from(plan.viewing.light == LightOf::Evening)))
        }
        ["fixtures", "add"] => {
            let options: Vec<&str> = FixtureKind::ALL.iter().map(|kind| kind.name()).collect();
            of(&options, "Add something")
        }
        ["fixture", index, part] => fixture_options(plan.fixtures.get(index.parse::<usize>().ok()?)?, part),
        ["site", part] => site::options(&plan.site, part),
        ["picture", index, "subject"] => {
            site::subjects(plan.pictures.get(index.parse::<usize>().ok()?)?.subject)
        }
        ["pieces", "count"] => of(&COUNTS, name_of(&COUNTS, plan.pieces.len() - 1)),
        ["pieces", "share"] => {
            if plan.pieces.len() < 2 || plan.pictures.is_empty() {
                return None;
            }
            of(&SHARING, name_of(&SHARING, usize::from(plan.split.is_some())))
        }
        ["shared"] => (plan.pieces.len() > 1)
            .then(|| of(&FRAMES, name_of(&FRAMES, usize::from(plan.shared.is_some()))))
            .flatten(),
        ["in_hand", "measured"] => {
            let index = plan.in_hand.map_or(0, |stated| match stated.measured {
                Measured::Glass => 1,
                Measured::Rabbet => 2,
                Measured::Sight => 3,
                Measured::Outside => 4,
            });
            of(&MEASURED, name_of(&MEASURED, index))
        }
        ["space"] => of(&SPACE, name_of(&SPACE, usize::from(plan.space.is_some()))),
        ["split", "strips"] => of(&STRIPS, name_of(&STRIPS, usize::from(plan.split?.strips == Strips::Kept))),
        ["split", "focus"] => kept(plan.split?.focus),
        ["split", "picture"] => Some(picture_choice(plan, Some(plan.split?.picture))),
        ["piece", which, part @ ("frame" | "floater"), "profile"] => {
            profile::options(plan, stock, which, part)
        }
        ["piece", which, rest @ ..] => piece_options(plan, which, rest),
        ["group", "arrangement"] => {
            let index = match plan.group.arrangement {
                Arrangement::Row => 0,
                Arrangement::Column => 1,
                Arrangement::Stepped(_) => 2,
            };
            of(&ARRANGEMENTS, name_of(&ARRANGEMENTS, index))
        }
        ["group", "align"] => {
            let options = aligns(plan);
            of(&options, name_of(&options, plan.group.align as usize))
        }
        ["group", "across"] => {
            let options = across_options(plan);
            let index = match plan.group.across {
                GroupAcross::WallMiddle => 0,
                GroupAcross::FixtureMiddle(index) => index + 1,
                GroupAcross::CentreAt(_) => options.len() - 1,
            };
            Some(Choice { current: options.get(index).cloned().unwrap_or_default(), options, colour: false })
        }
        ["group", "up"] => {
            let options = up_options(plan);
            let index = match plan.group.up {
                GroupUp::EyeLevel => 0,
                GroupUp::CentreAt(_) => 1,
                GroupUp::Above { fixture, .. } => fixture + 2,
            };
            Some(Choice { current: options.get(index).cloned().unwrap_or_default(), options, colour: false })
        }
        ["fixing", "kind"] => {
            let index = match plan.fixing {
                Fixing::Rings { .. } => 0,
                Fixing::Wire { hooks_apart: None, .. } => 1,
                Fixing::Wire { hooks_apart: Some(_), .. } => 2,
            };
            of(&FIXINGS, name_of(&FIXINGS, index))
        }
        _ => None,
    }
}

fn picture_choice(plan: &Plan, current: Option<usize>) -> Choice {
    let named = current.and_then(|index| plan.pictures.get(index)).map(|picture| picture.name.clone());
    Choice {
        options: plan.pictures.iter().map(|picture| picture.name.clone()).collect(),
        current: named.unwrap_or_else(|| "no picture yet".to_owned()),
        colour: false,
    }
}

pub(super) fn write(plan: &mut Plan, stock: &Stock, path: &[&str], text: &str) -> Result<(), FieldError> {
    let known = options(plan, stock, path).ok_or_else(|| unknown(&path.join(".")))?;
    let names: Vec<&str> = known.options.iter().map(String::as_str).collect();
    let index = if known.colour { 0 } else { index_of(&names, text)? };
    // What holds already stays, with everything that was stated under it.
    let holds = |choice: &Choice| !choice.colour && choice.options.get(index) == Some(&choice.current);
    match path {
        ["piece", which, part @ ("frame" | "floater"), "profile"] => {
            let one = which.parse::<usize>().ok();
            for (number, piece) in plan.pieces.iter_mut().enumerate() {
                if one.is_none_or(|one| one == number) {
                    profile::write(piece, stock, part, index);
                }
            }
        }
        ["piece", which, rest @ ..] => {
            let held: Vec<bool> = (0..plan.pieces.len())
                .map(|number| piece_options(plan, &number.to_string(), rest).as_ref().is_some_and(holds))
                .collect();
            let one = which.parse::<usize>().ok();
            let built = Figures::of(plan).map(|figures| figures.build_ups).unwrap_or_default();
            for (number, piece) in plan.pieces.iter_mut().enumerate() {
                if !held[number] && one.is_none_or(|one| one == number) {
                    write_piece(piece, rest, index, text, built.get(number))?;
                }
            }
        }
        _ if holds(&known) => {}
        ["units"] => plan.units.first = if index == 0 { System::Inches } else { System::Centimetres },
        ["wall", "paint"] => plan.wall.paint = stock::find(&stock::PAINTS, text)?,
        ["wall", "floor"] => plan.wall.floor = stock::find(&stock::FLOORS, text)?,
        ["wall", "finish"] => plan.wall.finish = [WallFinish::Smooth, WallFinish::Plaster][index],
        ["viewing", "figure"] => {
            plan.viewing.figure = [Some(Posture::Standing), Some(Posture::Seated), None][index];
        }
        ["viewing", "side"] => {
            let by = match plan.viewing.aside {
                Aside::Straight if plan.units.first == System::Inches => Length::inches(24),
                Aside::Straight => Length::mm(600),
                Aside::Left(by) | Aside::Right(by) => by,
            };
            plan.viewing.aside = [Aside::Straight, Aside::Left(by), Aside::Right(by)][index];
        }
        ["viewing", "reflection"] => plan.viewing.reflection = index == 0,
        ["viewing", "light"] => plan.viewing.light = if index == 0 { LightOf::Day } else { LightOf::Evening },
        ["fixtures", "add"] => add_fixture(plan, FixtureKind::ALL[index])?,
        ["fixture", number, part] => {
            let number = number.parse::<usize>().unwrap_or(usize::MAX);
            write_fixture(plan, number, part, index);
        }
        ["site", part] => site::write(&mut plan.site, part, index),
        ["picture", number, _] => {
            let number = number.parse::<usize>().unwrap_or(usize::MAX);
            if let Some(picture) = plan.pictures.get_mut(number) {
                picture.subject = site::subject(index);
            }
        }
        ["pieces", "count"] => {
            let last = plan.pieces.last().cloned().unwrap_or_else(Piece::starting);
            plan.pieces.resize(index + 1, last);
            if index == 0 {
                plan.shared = None;
            }
            if index == 0
                && let (Some(split), Some(piece)) = (plan.split.take(), plan.pieces.first_mut())
            {
                piece.picture = Some(split.picture);
                piece.focus = split.focus;
            }
        }
        ["pieces", "share"] => {
            let picture = plan.pieces.iter().find_map(|piece| piece.picture).unwrap_or(0);
            plan.split =
                (index == 1).then_some(Split { picture, focus: Focus::MIDDLE, strips: Strips::Hidden });
        }
        ["shared"] => share(plan, index == 1),
        ["in_hand", _] => {
            let stated = plan.in_hand.unwrap_or_else(InHand::starting);
            let measured = [Measured::Glass, Measured::Rabbet, Measured::Sight, Measured::Outside]
                .get(index.wrapping_sub(1));
            plan.in_hand = measured.map(|&measured| InHand { measured, ..stated });
        }
        ["space"] => {
            plan.space = (index == 1)
                .then(|| Figures::of(plan).map(|figures| figures.arranged.group.size))
                .transpose()?;
        }
        ["split", part] => {
            if let Some(split) = &mut plan.split {
                match *part {
                    "focus" => split.focus = KEPT[index].1,
                    "strips" => split.strips = if index == 0 { Strips::Hidden } else { Strips::Kept },
                    _ => split.picture = index,
                }
            }
        }
        ["group", part] => write_group(plan, part, index)?,
        ["fixing", _] => plan.fixing = fixing(plan, index),
        _ => return Err(unknown(&path.join("."))),
    }
    Ok(())
}

/// Puts all pieces into one frame, or gives each its own again. In one frame every piece has a mat, and steps become a row.
fn share(plan: &mut Plan, together: bool) {
    plan.shared = together.then(|| Shared { bar: Length::inches(2) });
    if !together {
        return;
    }
    if let Arrangement::Stepped(_) = plan.group.arrangement {
        plan.group.arrangement = Arrangement::Row;
    }
    for piece in &mut plan.pieces {
        if piece.finish.framing().is_none() {
            piece.finish = Finish::Paper(Paper::starting());
        }
        if let Some(floater) = piece.finish.floater_mut() {
            *floater = None;
        }
        if let Some(framing) = piece.finish.framing_mut() {
            framing.mat.get_or_insert_with(Mat::starting);
        }
    }
}

fn write_group(plan: &mut Plan, part: &str, index: usize) -> Result<(), FieldError> {
    let now = Figures::of(plan)?.arranged.group;
    let last = plan.fixtures.len() + 1;
    let group = &mut plan.group;
    match part {
        "arrangement" => {
            group.arrangement = match index {
                0 => Arrangement::Row,
                1 => Arrangement::Column,
                _ => Arrangement::Stepped(Length::inches(6)),
            };
        }
        "align" => group.align = [Align::Centre, Align::Start, Align::End][index],
        "across" => {
            group.across = match index {
                0 => GroupAcross::WallMiddle,
                index if index == last => GroupAcross::CentreAt(now.centre().x),
                index => GroupAcross::FixtureMiddle(index - 1),
            };
        }
        _ => {
            let clearance = match group.up {
                GroupUp::Above { clearance, .. } => clearance,
                _ => Length::inches(8),
            };
            group.up = match index {
                0 => GroupUp::EyeLevel,
                1 => GroupUp::CentreAt(now.centre().y),
                index => GroupUp::Above { fixture: index - 2, clearance },
            };
        }
    }
    Ok(())
}

fn fixing(plan: &Plan, index: usize) -> Fixing {
    let (Fixing::Rings { inset, down } | Fixing::Wire { inset, down, .. }) = plan.fixing;
    let slack = match plan.fixing {
        Fixing::Wire { slack, .. } => slack,
        Fixing::Rings { .. } => Length::inches(1),
    };
    match index {
        0 => Fixing::Rings { inset, down },
        1 => Fixing::Wire { inset, down, slack, hooks_apart: None },
        _ => Fixing::Wire { inset, down, slack, hooks_apart: Some(Length::inches(6)) },
    }
}
