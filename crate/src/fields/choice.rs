//! Fields that are chosen from a few things.
//!
//! `options` is the one table: for each field, its options in words and which of them the plan has now. `write` finds
//! the option and applies it.

use super::*;

/// The choices of a field and the one that holds.
struct Choice {
    options: Vec<String>,
    current: String,
    colour: bool,
}

pub(super) fn read(plan: &Plan, path: &[&str], label: String) -> Option<Value> {
    let Choice { options, current, colour } = options(plan, path)?;
    let kind = if colour { Kind::Colour } else { Kind::Choice };
    Some(Value { kind, text: current, other: None, options, label, rounded: false })
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

fn options(plan: &Plan, path: &[&str]) -> Option<Choice> {
    match path {
        ["units"] => of(
            &["inches", "centimetres"],
            name_of(&["inches", "centimetres"], usize::from(plan.units.first == System::Centimetres)),
        ),
        ["wall", "paint"] => colours(&stock::PAINTS, plan.wall.paint),
        ["wall", "floor"] => colours(&stock::FLOORS, plan.wall.floor),
        ["viewing", "figure"] => {
            let options = ["a standing figure", "no figure"];
            of(&options, name_of(&options, usize::from(!plan.viewing.figure)))
        }
        ["fixtures", "add"] => {
            let options: Vec<&str> = FixtureKind::ALL.iter().map(|kind| kind.name()).collect();
            of(&options, "Add something")
        }
        ["fixture", index, part] => fixture_options(plan.fixtures.get(index.parse::<usize>().ok()?)?, part),
        ["pieces", "count"] => of(&COUNTS, name_of(&COUNTS, plan.pieces.len() - 1)),
        ["pieces", "share"] => {
            if plan.pieces.len() < 2 || plan.pictures.is_empty() {
                return None;
            }
            of(&SHARING, name_of(&SHARING, usize::from(plan.split.is_some())))
        }
        ["split", "strips"] => of(&STRIPS, name_of(&STRIPS, usize::from(plan.split?.strips == Strips::Kept))),
        ["split", "focus"] => kept(plan.split?.focus),
        ["split", "picture"] => Some(picture_choice(plan, Some(plan.split?.picture))),
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

fn fixture_options(fixture: &Fixture, part: &str) -> Option<Choice> {
    match part {
        "kind" => {
            let mut options: Vec<&str> = FixtureKind::ALL.iter().map(|kind| kind.name()).collect();
            options.push(TAKE_AWAY);
            of(&options, fixture.kind.name())
        }
        "across" => {
            let index = match fixture.across {
                Across::Middle => 0,
                Across::FromLeft(_) => 1,
                Across::FromRight(_) => 2,
            };
            of(&ACROSS, name_of(&ACROSS, index))
        }
        "pictures" => {
            let options = ["pictures may hang above it", "pictures keep clear of it"];
            of(&options, name_of(&options, usize::from(fixture.relation == Relation::KeepClear)))
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

fn piece_options(plan: &Plan, which: &str, rest: &[&str]) -> Option<Choice> {
    let index = if which == "all" { 0 } else { which.parse::<usize>().ok()? };
    let piece = plan.pieces.get(index)?;
    let with = |there: bool| of(&WITH, name_of(&WITH, usize::from(!there)));
    match (rest, &piece.finish) {
        (["picture"], _) => Some(picture_choice(plan, piece.picture)),
        (["focus"], _) => kept(piece.focus),
        (["material"], finish) => {
            let index = match finish {
                Finish::Paper(_) => 0,
                Finish::Canvas(_) => 1,
                Finish::Aluminium(_) => 2,
                Finish::Original(_) => 3,
            };
            of(&MATERIALS, name_of(&MATERIALS, index))
        }
        (["mat"], Finish::Paper(paper)) => with(paper.mat.is_some()),
        (["frame"], Finish::Paper(paper)) => with(paper.frame.is_some()),
        (["mat", "opening"], Finish::Paper(Paper { mat: Some(mat), .. })) => {
            let index = match mat.opening {
                OpeningRule::Overlap(_) => 0,
                OpeningRule::Reveal(_) => 1,
                OpeningRule::Float(_) => 2,
            };
            of(&OPENINGS, name_of(&OPENINGS, index))
        }
        (["mat", "double"], Finish::Paper(Paper { mat: Some(mat), .. })) => {
            let options = ["single", "double"];
            of(&options, name_of(&options, usize::from(mat.inner_reveal.is_some())))
        }
        (["mat", "colour"], Finish::Paper(Paper { mat: Some(mat), .. })) => colours(&stock::MATS, mat.colour),
        (["frame", "colour"], Finish::Paper(Paper { frame: Some(frame), .. })) => {
            colours(&stock::MOULDINGS, frame.colour)
        }
        (["glazing"], Finish::Paper(paper)) => {
            let index = match paper.glazing {
                Glazing::None => 0,
                Glazing::Glass(_) => 1,
                Glazing::Acrylic(_) => 2,
            };
            of(&GLAZINGS, name_of(&GLAZINGS, index))
        }
        (["canvas", "edge"], Finish::Canvas(canvas)) => {
            let index = match canvas.edge {
                Edge::Carried => 0,
                Edge::Mirrored => 1,
                Edge::Plain(_) => 2,
            };
            of(&CANVAS_EDGES, name_of(&CANVAS_EDGES, index))
        }
        (["canvas", "edge_colour"], Finish::Canvas(Canvas { edge: Edge::Plain(colour), .. })) => {
            colours(&stock::EDGES, *colour)
        }
        (["floater"], Finish::Canvas(canvas)) => with(canvas.floater.is_some()),
        (["floater", "colour"], Finish::Canvas(Canvas { floater: Some(floater), .. })) => {
            colours(&stock::MOULDINGS, floater.colour)
        }
        _ => None,
    }
}

pub(super) fn write(plan: &mut Plan, path: &[&str], text: &str) -> Result<(), FieldError> {
    let known = options(plan, path).ok_or_else(|| unknown(&path.join(".")))?;
    let names: Vec<&str> = known.options.iter().map(String::as_str).collect();
    let index = if known.colour { 0 } else { index_of(&names, text)? };
    // What holds already stays, with everything that was stated under it.
    let holds = |choice: &Choice| !choice.colour && choice.options.get(index) == Some(&choice.current);
    match path {
        ["piece", which, rest @ ..] => {
            let held: Vec<bool> = (0..plan.pieces.len())
                .map(|number| piece_options(plan, &number.to_string(), rest).as_ref().is_some_and(holds))
                .collect();
            let one = which.parse::<usize>().ok();
            for (number, piece) in plan.pieces.iter_mut().enumerate() {
                if !held[number] && one.is_none_or(|one| one == number) {
                    write_piece(piece, rest, index, text)?;
                }
            }
        }
        _ if holds(&known) => {}
        ["units"] => plan.units.first = if index == 0 { System::Inches } else { System::Centimetres },
        ["wall", "paint"] => plan.wall.paint = stock::find(&stock::PAINTS, text)?,
        ["wall", "floor"] => plan.wall.floor = stock::find(&stock::FLOORS, text)?,
        ["viewing", "figure"] => plan.viewing.figure = index == 0,
        ["fixtures", "add"] => add_fixture(plan, FixtureKind::ALL[index])?,
        ["fixture", number, part] => {
            let number = number.parse::<usize>().unwrap_or(usize::MAX);
            write_fixture(plan, number, part, index);
        }
        ["pieces", "count"] => {
            let last = plan.pieces.last().cloned().unwrap_or_else(Piece::starting);
            plan.pieces.resize(index + 1, last);
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

/// A fixture of this kind with a name of its own.
fn add_fixture(plan: &mut Plan, kind: FixtureKind) -> Result<(), FieldError> {
    if plan.fixtures.len() == limits::FIXTURES {
        return Err(FieldError::from(format!(
            "this plan has {} fixtures already, and takes no more",
            limits::FIXTURES
        )));
    }
    let mut fixture = Fixture::starting(kind);
    fixture.name = own_name(plan, kind, usize::MAX);
    fixture.across = free_place(plan, &fixture);
    plan.fixtures.push(fixture);
    Ok(())
}

/// The usual place of a fixture or, where something stands already, the first place from the left where nothing does.
fn free_place(plan: &Plan, fixture: &Fixture) -> Across {
    let standing = crate::arrange::arrange(plan, &[]).fixtures;
    let is_free = |across: Across| {
        let mut tried = plan.clone();
        tried.fixtures = vec![Fixture { across, ..fixture.clone() }];
        let room = crate::geometry::Sides::all(-Length::inches(2));
        let places = crate::arrange::arrange(&tried, &[]).fixtures;
        places.iter().all(|place| standing.iter().all(|other| place.common(other.shrunk(room)).is_none()))
    };
    if is_free(fixture.across) {
        return fixture.across;
    }
    let step = Length::inches(2);
    let mut left = step;
    while left + fixture.size.width <= plan.wall.size.width {
        if is_free(Across::FromLeft(left)) {
            return Across::FromLeft(left);
        }
        left += step;
    }
    fixture.across
}

fn own_name(plan: &Plan, kind: FixtureKind, but: usize) -> String {
    let taken = |name: &str| {
        plan.fixtures.iter().enumerate().any(|(index, known)| index != but && known.name == name)
    };
    let mut name = kind.name().to_owned();
    let mut number = 2;
    while taken(&name) {
        name = format!("{} {number}", kind.name());
        number += 1;
    }
    name
}

fn write_fixture(plan: &mut Plan, number: usize, part: &str, index: usize) {
    if part == "kind" && index == FixtureKind::ALL.len() {
        remove_fixture(plan, number);
        return;
    }
    let wall = plan.wall.size.width;
    let renamed = (part == "kind").then(|| own_name(plan, FixtureKind::ALL[index], number));
    let Some(fixture) = plan.fixtures.get_mut(number) else { return };
    match part {
        "kind" => {
            let new = Fixture::starting(FixtureKind::ALL[index]);
            *fixture = Fixture { name: renamed.unwrap_or_default(), ..new };
        }
        "across" => {
            let width = fixture.size.width;
            let left = match fixture.across {
                Across::Middle => (wall - width).half(),
                Across::FromLeft(x) => x,
                Across::FromRight(x) => wall - x - width,
            };
            fixture.across = match index {
                0 => Across::Middle,
                1 => Across::FromLeft(left),
                _ => Across::FromRight(wall - left - width),
            };
        }
        _ => {
            fixture.relation = if index == 0 { Relation::HangAbove } else { Relation::KeepClear };
        }
    }
}

/// Takes a fixture away; what was placed by it stays where it is.
fn remove_fixture(plan: &mut Plan, number: usize) {
    if number >= plan.fixtures.len() {
        return;
    }
    let centre = Figures::of(plan).map(|figures| figures.arranged.group.centre()).unwrap_or_default();
    plan.fixtures.remove(number);
    let moved =
        |index: usize| if index > number { Some(index - 1) } else { (index < number).then_some(index) };
    if let GroupAcross::FixtureMiddle(index) = plan.group.across {
        plan.group.across = moved(index).map_or(GroupAcross::CentreAt(centre.x), GroupAcross::FixtureMiddle);
    }
    if let GroupUp::Above { fixture, clearance } = plan.group.up {
        plan.group.up = moved(fixture)
            .map_or(GroupUp::CentreAt(centre.y), |fixture| GroupUp::Above { fixture, clearance });
    }
}

fn write_piece(piece: &mut Piece, rest: &[&str], index: usize, text: &str) -> Result<(), FieldError> {
    match (rest, &mut piece.finish) {
        (["picture"], _) => piece.picture = Some(index),
        (["focus"], _) => piece.focus = KEPT[index].1,
        (["material"], finish) => {
            *finish = match index {
                0 => Finish::Paper(Paper::starting()),
                1 => Finish::Canvas(Canvas::starting()),
                2 => Finish::Aluminium(Aluminium::starting()),
                _ => Finish::Original(Original::starting()),
            };
        }
        (["mat"], Finish::Paper(paper)) => paper.mat = (index == 0).then(Mat::starting),
        (["frame"], Finish::Paper(paper)) => {
            paper.frame = (index == 0).then(Frame::starting);
            if index == 1 {
                paper.glazing = Glazing::None;
            }
        }
        (["mat", "opening"], Finish::Paper(Paper { mat: Some(mat), border, .. })) => {
            let quarter = Length::inches_ratio(1, 4);
            mat.opening = match index {
                0 => OpeningRule::Overlap(Length::inches_ratio(1, 8)),
                1 => OpeningRule::Reveal(quarter),
                _ => OpeningRule::Float(Length::inches_ratio(1, 2)),
            };
            if index == 1 && *border == Length::ZERO {
                *border = Length::inches(1);
            }
        }
        (["mat", "double"], Finish::Paper(Paper { mat: Some(mat), .. })) => {
            mat.inner_reveal = (index == 1).then(|| Length::inches_ratio(1, 4));
        }
        (["mat", "colour"], Finish::Paper(Paper { mat: Some(mat), .. })) => {
            mat.colour = stock::find(&stock::MATS, text)?;
        }
        (["frame", "colour"], Finish::Paper(Paper { frame: Some(frame), .. })) => {
            frame.colour = stock::find(&stock::MOULDINGS, text)?;
        }
        (["glazing"], Finish::Paper(paper)) => {
            let thickness = match paper.glazing {
                Glazing::None => Length::mm(2),
                Glazing::Glass(thickness) | Glazing::Acrylic(thickness) => thickness,
            };
            paper.glazing = match index {
                0 => Glazing::None,
                1 => Glazing::Glass(thickness),
                _ => Glazing::Acrylic(thickness),
            };
        }
        (["canvas", "edge"], Finish::Canvas(canvas)) => {
            canvas.edge = match index {
                0 => Edge::Carried,
                1 => Edge::Mirrored,
                _ => Edge::Plain(stock::EDGES[0].colour),
            };
        }
        (["canvas", "edge_colour"], Finish::Canvas(canvas)) => {
            canvas.edge = Edge::Plain(stock::find(&stock::EDGES, text)?);
        }
        (["floater"], Finish::Canvas(canvas)) => canvas.floater = (index == 0).then(Floater::starting),
        (["floater", "colour"], Finish::Canvas(Canvas { floater: Some(floater), .. })) => {
            floater.colour = stock::find(&stock::MOULDINGS, text)?;
        }
        // A piece of another make has no such part: a change to all leaves it as it is.
        _ => {}
    }
    Ok(())
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
