//! An option taken: what a table says by its slot, and what follows from it for the rest of the plan.

use super::options::{self, REMOVE, point};
use super::{FieldError, fixture, profile, short, visit};
use crate::colour::Colour;
use crate::described::{self, Choosable, Row, Slot};
use crate::field::{self, Field, Whose};
use crate::figures::Figures;
use crate::framing::BuildUp;
use crate::geometry::Size;
use crate::hang::is_held;
use crate::length::Length;
use crate::plan::{
    self, Across, Arrangement, Canvas, Edge, Extent, Finish, FixtureKind, Floater, Focus, Framing, Glazing,
    GroupAcross, GroupUp, Hanger, HangerPlace, InHand, Mat, Measured, OpeningRule, Paper, Piece, Plan,
    Shared, Split, Strips, Surround, System,
};
use crate::stock::{self, Stock};

/// Takes the option of a field that has this key. What holds already stays, with everything that was stated under it.
pub(super) fn choose(plan: &mut Plan, stock: &Stock, field: Field, key: &str) -> Result<(), FieldError> {
    let known = options::of(plan, stock, field).ok_or(FieldError::NoField(field))?;
    let Some(place) = known.list.iter().position(|choice| choice.key == key) else {
        let words = known.list.into_iter().map(|choice| choice.words).collect();
        return Err(FieldError::Option { given: key.to_owned(), words });
    };
    let before = (*field.row == plan::PIECE_MATERIAL).then(|| plan.pieces.clone());
    let system = plan.units.first;
    match field.of {
        Whose::Pieces | Whose::Piece(_) => {
            let built = Figures::of(plan).map(|figures| figures.build_ups).unwrap_or_default();
            let open: Vec<usize> = field
                .pieces_of(plan)
                .into_iter()
                .filter(|&piece| !options::holds(plan, stock, Field::piece(field.row, piece), key))
                .collect();
            for piece in open {
                let (stated, built) = (&mut plan.pieces[piece], built.get(piece));
                if system == System::Inches {
                    of_piece(stated, stock, field.row, (key, place), built);
                } else {
                    of_metric_piece(stated, stock, field.row, (key, place), built);
                }
            }
        }
        _ if known.key() == Some(key) => {}
        Whose::Fixture(number) => of_fixture(plan, field, number, key),
        Whose::Picture(picture) => {
            if let Some(picture) = plan.pictures.get_mut(picture) {
                picture.subject = point(key);
            }
        }
        Whose::Plan if system == System::Inches => of_plan(plan, field, key, place)?,
        Whose::Plan => of_metric_plan(plan, field, key, place)?,
    }
    if before.is_some_and(|before| before != plan.pieces) {
        release_hangers(plan);
    }
    Ok(())
}

/// As [`of_piece`]; what that puts into the piece gets round metric lengths, but for a moulding, which is as the stock has it.
fn of_metric_piece(
    piece: &mut Piece,
    stock: &Stock,
    row: &'static Row,
    option: (&str, usize),
    built: Option<&BuildUp>,
) {
    let held = described::lengths(piece);
    of_piece(piece, stock, row, option, built);
    if [&field::FRAME_PROFILE, &field::FLOATER_PROFILE].contains(&row) {
        return;
    }
    described::to_metric(piece, &held);
    let is_floater = *row == field::FLOATER_LOOK;
    if let (true, Some(place)) = (is_floater || *row == field::FRAME_LOOK, option.1.checked_sub(1)) {
        profile::write(piece, stock, is_floater, place);
    } else if *row == plan::CANVAS_FLOATER && option.0 == "yes" {
        let depth = built.map_or(Length::mm(38), |sizes| sizes.stack.thickness());
        if let Some(floater) = piece.finish.floater_mut() {
            *floater = Some(Floater::round_in(depth, System::Centimetres));
        }
    }
}

/// As [`of_plan`]; what that puts into the plan gets round metric lengths.
fn of_metric_plan(plan: &mut Plan, field: Field, key: &str, place: usize) -> Result<(), FieldError> {
    let held = described::lengths(plan);
    let pieces: Vec<_> = plan.pieces.iter_mut().map(|piece| described::lengths(piece)).collect();
    of_plan(plan, field, key, place)?;
    described::to_metric(plan, &held);
    for (piece, held) in plan.pieces.iter_mut().zip(&pieces) {
        described::to_metric(piece, held);
    }
    Ok(())
}

/// Hangers that were stated for pieces of another make follow the pieces, where these do not hold them.
fn release_hangers(plan: &mut Plan) {
    let Ok(Figures { build_ups, hanging, .. }) = Figures::of(plan) else { return };
    let mut pieces = build_ups.iter().zip(&hanging);
    if pieces.any(|(sizes, hung)| !sizes.holds.is_empty() && !is_held(sizes, hung.places)) {
        plan.fixing = plan.fixing.at_usual_places();
    }
}

/// What a table says: the slot takes the option of this key and place.
fn turn(slot: &mut Slot<'_>, (key, place): (&str, usize)) {
    match slot {
        Slot::Choice(choice) => choice.choose(place),
        Slot::OneOf(one) => one.turn(place),
        Slot::Flag(flag) => **flag = key == "yes",
        Slot::Maybe(maybe) if key == "yes" => maybe.fill(),
        Slot::Maybe(maybe) => maybe.clear(),
        _ => {}
    }
}

/// `built` are the piece's sizes before, from which a whole follows when it is stated again. A piece of another make has no such
/// part, and stays as it is.
fn of_piece(
    piece: &mut Piece,
    stock: &Stock,
    row: &'static Row,
    (key, place): (&str, usize),
    built: Option<&BuildUp>,
) {
    let is = |one: &'static Row| *row == *one;
    if is(&plan::PIECE_PICTURE) {
        piece.picture = Some(place);
        return;
    }
    if is(&plan::PIECE_FOCUS) {
        piece.focus = point(key).unwrap_or_default();
        return;
    }
    if is(&field::FRAME_PROFILE) || is(&field::FLOATER_PROFILE) {
        profile::write(piece, stock, is(&field::FLOATER_PROFILE), place);
        return;
    }
    if is(&field::FLOATER_LOOK) {
        let with = if key == short::NONE { "no" } else { "yes" };
        if piece.finish.floater().is_some() != (with == "yes") {
            of_piece(piece, stock, &plan::CANVAS_FLOATER, (with, 0), built);
        }
    }
    if [&field::FRAME_LOOK, &field::MAT_LOOK, &field::FLOATER_LOOK].contains(&row) {
        short::choose(piece, stock, row, (key, place));
        return;
    }
    described::at(piece, row, &mut |slot| turn(slot, (key, place)));
    let is_with = key == "yes";
    match &mut piece.finish {
        Finish::Paper(paper) if is(&plan::PAPER_EXTENT) => {
            let border = built.map_or(Length::ZERO, |sizes| sizes.sheet_borders.left);
            restate(&mut paper.border, built.map(|sizes| sizes.sheet.size), border);
        }
        // A rim needs white paper to be seen.
        Finish::Paper(paper) if is(&plan::MAT_OPENING) => {
            let is_rim = matches!(&paper.framing.mat, Some(Mat { opening: OpeningRule::Reveal(_), .. }));
            if is_rim && paper.border == Surround::even(Length::ZERO) {
                paper.border = Surround::even(Length::inches(1));
            }
        }
        Finish::Canvas(Canvas { edge: edge @ Edge::Plain(_), .. }) if is(&plan::CANVAS_EDGE) => {
            *edge = Edge::Plain(stock::EDGES[0].colour);
        }
        Finish::Original(original) if is(&plan::MAT) || is(&plan::FRAME) => original.floater = None,
        _ => {}
    }
    if is(&plan::CANVAS_FLOATER) && is_with {
        let depth = built.map_or(Canvas::starting().depth, |sizes| sizes.stack.thickness());
        if let Some(floater) = piece.finish.floater_mut() {
            *floater = Some(Floater::round(depth));
        }
        if let Finish::Original(original) = &mut piece.finish {
            original.framing = Framing::NONE;
        }
    }
    let Some(framing) = piece.finish.framing_mut() else { return };
    if is(&plan::FRAME) && !is_with {
        framing.glazing = Glazing::None;
    }
    if let (true, Some(mat)) = (is(&plan::MAT_EXTENT), &mut framing.mat) {
        let cut = built.and_then(|sizes| sizes.mat.as_ref());
        let border = cut.map_or(Length::inches(2), |cut| cut.borders.left);
        restate(&mut mat.surround, cut.map(|cut| cut.board.size), border);
    }
}

/// States a surround by its whole or by its border, whichever it is now, so that its sizes stay.
fn restate(surround: &mut Surround, whole: Option<Size>, border: Length) {
    surround.extent = match (surround.extent, whole) {
        (Extent::Whole(_), Some(whole)) => Extent::Whole(whole),
        _ => Extent::Border(border.max(Length::ZERO)),
    };
}

/// Gives the bottom mats of pieces a colour; one that shows it already stays as it is stated.
pub(super) fn colour_inner_mats(plan: &mut Plan, field: Field, colour: Colour) {
    for piece in field.pieces_of(plan) {
        let mat = plan.pieces[piece].finish.framing_mut().and_then(|framing| framing.mat.as_mut());
        if let Some(mat) = mat.filter(|mat| mat.inner_colour.unwrap_or(mat.colour) != colour) {
            mat.inner_colour = Some(colour);
        }
    }
}

fn of_fixture(plan: &mut Plan, field: Field, number: usize, key: &str) {
    let wall = plan.wall.size.width;
    if *field.row == plan::FIXTURE_KIND {
        match FixtureKind::of_key(key) {
            Some(kind) => fixture::replace(plan, number, kind),
            None if key == REMOVE => fixture::remove(plan, number),
            None => {}
        }
        return;
    }
    let Some(fixture) = plan.fixtures.get_mut(number) else { return };
    let (before, width) = (fixture.across, fixture.size.width);
    visit(plan, field, &mut |slot| match slot {
        Slot::OneOf(one) => {
            if let Some(place) = one.variants().entries.iter().position(|entry| entry.key == key) {
                one.turn(place);
            }
        }
        Slot::Choice(choice) => {
            if let Some(place) = choice.entries().iter().position(|entry| entry.key == key) {
                choice.choose(place);
            }
        }
        _ => {}
    });
    // It stays where it is, whatever it is measured from.
    let left = match before {
        Across::Middle => (wall - width).half(),
        Across::FromLeft(x) => x,
        Across::FromRight(x) => wall - x - width,
    };
    if let (true, Some(fixture)) = (*field.row == plan::FIXTURE_ACROSS, plan.fixtures.get_mut(number)) {
        match &mut fixture.across {
            Across::Middle => {}
            Across::FromLeft(x) => *x = left,
            Across::FromRight(x) => *x = wall - left - width,
        }
    }
}

fn of_plan(plan: &mut Plan, field: Field, key: &str, place: usize) -> Result<(), FieldError> {
    let is = |one: &'static Row| *field.row == *one;
    if is(&field::FIXTURES_ADD) {
        let kind = FixtureKind::of_key(key).unwrap_or_default();
        return fixture::add(plan, kind);
    }
    if is(&field::PIECES_COUNT) {
        recount(plan, place + 1);
    } else if is(&field::PIECES_SHARE) {
        let picture = plan.pieces.iter().find_map(|piece| piece.picture).unwrap_or(0);
        plan.split =
            (key == "yes").then_some(Split { picture, focus: Focus::MIDDLE, strips: Strips::Hidden });
    } else if let (true, Some((count, is_split))) = (is(&field::PIECES_SHOWN), short::shown_of(key)) {
        recount(plan, count);
        if plan.split.is_some() != is_split {
            of_plan(plan, Field::from(&field::PIECES_SHARE), if is_split { "yes" } else { "no" }, 0)?;
        }
    } else if is(&field::GROUP_PLACE) {
        short::hang(plan, key);
    } else if is(&plan::SHARED) {
        share(plan, key == "yes");
    } else if is(&plan::IN_HAND_MEASURED) {
        let stated = plan.in_hand.unwrap_or_else(InHand::starting);
        plan.in_hand = Measured::of_key(key).map(|measured| InHand { measured, ..stated });
    } else if is(&plan::SPACE) {
        let now = (key == "yes").then(|| Figures::of(plan).map(|figures| figures.arranged.group.size));
        plan.space = now.transpose()?;
    } else if let (true, Some(split)) = (is(&plan::SPLIT_FOCUS), &mut plan.split) {
        split.focus = point(key).unwrap_or_default();
    } else if let (true, Some(split)) = (is(&plan::SPLIT_PICTURE), &mut plan.split) {
        split.picture = place;
    } else if is(&plan::GROUP_ACROSS) {
        let now = Figures::of(plan)?.arranged.group;
        plan.group.across = match key {
            "wall_middle" => GroupAcross::WallMiddle,
            "centre_at" => GroupAcross::CentreAt(now.centre().x),
            _ => GroupAcross::FixtureMiddle(index_in(key)),
        };
    } else if is(&plan::GROUP_UP) {
        let now = Figures::of(plan)?.arranged.group;
        let clearance = match plan.group.up {
            GroupUp::Above { clearance, .. } => clearance,
            _ => Length::inches(8),
        };
        plan.group.up = match key {
            "eye_level" => GroupUp::EyeLevel,
            "centre_at" => GroupUp::CentreAt(now.centre().y),
            _ => GroupUp::Above { fixture: index_in(key), clearance },
        };
    } else if is(&plan::FIXING_KIND) {
        plan.fixing.set_hanger(hanger(plan.fixing.hanger, key));
        release_hangers(plan);
    } else if is(&plan::FIXING_FROM_SIDES) || is(&plan::FIXING_DOWN) {
        let [sides, down] = plan.fixing.places_mut();
        *if is(&plan::FIXING_DOWN) { down } else { sides } = HangerPlace::Usual;
    } else if is(&plan::SITE_RATED) {
        plan.site.rated_pounds = key.parse().ok();
    } else {
        visit(plan, field, &mut |slot| turn(slot, (key, place)));
    }
    Ok(())
}

/// The fixture that a key ends with; see [`field::above`].
fn index_in(key: &str) -> usize {
    key.rsplit(' ').next().and_then(|index| index.parse().ok()).unwrap_or(0)
}

fn recount(plan: &mut Plan, count: usize) {
    let last = plan.pieces.last().cloned().unwrap_or_else(Piece::starting);
    plan.pieces.resize(count, last);
    if count > 1 {
        return;
    }
    plan.shared = None;
    if let (Some(split), Some(piece)) = (plan.split.take(), plan.pieces.first_mut()) {
        piece.picture = Some(split.picture);
        piece.focus = split.focus;
    }
}

/// Puts all pieces into one frame, or gives each its own again. In one frame every piece has a mat, and steps become a row.
fn share(plan: &mut Plan, together: bool) {
    plan.shared = together.then(|| Shared { bar: Length::inches(2) });
    if !together {
        return;
    }
    if !matches!(plan.group.arrangement, Arrangement::Row | Arrangement::Column) {
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

/// The hanger of this key, with the slack that a wire already has.
fn hanger(now: Hanger, key: &str) -> Hanger {
    let wanted = Hanger::OFFERED.iter().find(|(known, ..)| *known == key).map_or(now, |(.., hanger)| *hanger);
    match (now, wanted) {
        (Hanger::Wire { slack, .. }, Hanger::Wire { hooks_apart, .. }) => Hanger::Wire { slack, hooks_apart },
        _ => wanted,
    }
}
