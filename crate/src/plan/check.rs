//! Whether a plan holds together: ranges, names and references.

use super::*;
use crate::length::print::plain;

pub(super) fn plan(plan: &Plan) -> Result<(), String> {
    count("pieces", plan.pieces.len(), 1, limits::PIECES)?;
    count("fixtures", plan.fixtures.len(), 0, limits::FIXTURES)?;
    count("pictures", plan.pictures.len(), 0, limits::PICTURES)?;
    name("the title", &plan.title)?;
    size("the wall", plan.wall.size, limits::ROOM)?;
    within("the skirting", plan.wall.skirting, Length::ZERO, plan.wall.size.height)?;
    positive("the viewing distance", plan.viewing.distance, limits::ROOM)?;
    if let Aside::Left(by) | Aside::Right(by) = plan.viewing.aside {
        within("the viewer's way to the side", by, Length::ZERO, limits::ROOM)?;
    }
    within("the eye level", plan.viewing.eye_level, Length::ZERO, limits::ROOM)?;
    names(plan.fixtures.iter().map(|fixture| fixture.name.as_str()), "fixture")?;
    names(plan.pictures.iter().map(|picture| picture.name.as_str()), "picture")?;
    plan.fixtures.iter().try_for_each(fixture)?;
    plan.pictures.iter().try_for_each(picture)?;
    plan.pieces.iter().try_for_each(|stated| piece(stated, plan))?;
    if let Some(split) = plan.split {
        refers("the split", split.picture, plan.pictures.len(), "picture")?;
        focus(split.focus)?;
    }
    group(&plan.group, plan)?;
    shared(plan)?;
    fixing(&plan.fixing)?;
    if !(1..=limits::FINENESS).contains(&plan.fineness) {
        return Err(format!(
            "the fineness wished for is {} pixels to the inch; allowed is 1 to {}",
            plan.fineness,
            limits::FINENESS
        ));
    }
    plan.in_hand.as_ref().map_or(Ok(()), in_hand)?;
    site(plan)?;
    plan.space.map_or(Ok(()), |space| size("the space on the wall", space, limits::ROOM))
}

fn group(group: &Group, plan: &Plan) -> Result<(), String> {
    within("the gap", group.gap, Length::ZERO, limits::PIECE)?;
    if let Arrangement::Stepped(rise) = group.arrangement {
        within("the step", rise, -limits::PIECE, limits::PIECE)?;
    }
    match group.across {
        GroupAcross::WallMiddle => {}
        GroupAcross::FixtureMiddle(index) => refers("the group", index, plan.fixtures.len(), "fixture")?,
        GroupAcross::CentreAt(x) => within("the group's middle", x, -limits::ROOM, limits::ROOM)?,
    }
    match group.up {
        GroupUp::EyeLevel => {}
        GroupUp::CentreAt(y) => within("the group's centre height", y, -limits::ROOM, limits::ROOM)?,
        GroupUp::Above { fixture, clearance } => {
            refers("the group", fixture, plan.fixtures.len(), "fixture")?;
            within("the clearance above", clearance, Length::ZERO, limits::ROOM)?;
        }
    }
    Ok(())
}

fn fixing(fixing: &Fixing) -> Result<(), String> {
    let (Fixing::Rings { inset, down } | Fixing::Wire { inset, down, .. }) = *fixing;
    within("the inset of the rings", inset, Length::ZERO, limits::PIECE)?;
    within("the depth of the rings below the top", down, Length::ZERO, limits::PIECE)?;
    if let Fixing::Wire { slack, hooks_apart, .. } = *fixing {
        within("the slack of the wire", slack, Length::ZERO, limits::PIECE)?;
        within("the distance between hooks", hooks_apart.unwrap_or_default(), Length::ZERO, limits::PIECE)?;
    }
    Ok(())
}

fn fixture(fixture: &Fixture) -> Result<(), String> {
    let what = format!("the {}", fixture.name);
    size(&what, fixture.size, limits::ROOM)?;
    within(&format!("{what}'s depth"), fixture.depth, Length::ZERO, limits::ROOM)?;
    within(&format!("{what}'s height from the floor"), fixture.from_floor, Length::ZERO, limits::ROOM)?;
    match fixture.across {
        Across::Middle => Ok(()),
        Across::FromLeft(x) | Across::FromRight(x) => {
            within(&format!("{what}'s distance from the corner"), x, -limits::ROOM, limits::ROOM)
        }
    }
}

fn picture(picture: &Picture) -> Result<(), String> {
    picture.subject.map_or(Ok(()), focus)?;
    if picture.file.chars().count() > limits::NAME * 2 {
        return Err(format!(
            "the file name of {} is longer than {} characters",
            picture.name,
            limits::NAME * 2
        ));
    }
    for side in [picture.width_px, picture.height_px] {
        if !(1..=limits::PICTURE_SIDE_PX).contains(&side) {
            return Err(format!(
                "{} has {} × {} pixels; each side takes 1 to {}",
                picture.name,
                picture.width_px,
                picture.height_px,
                limits::PICTURE_SIDE_PX
            ));
        }
    }
    Ok(())
}

fn piece(piece: &Piece, plan: &Plan) -> Result<(), String> {
    size("the image", piece.image, limits::PIECE)?;
    focus(piece.focus)?;
    if let Some(index) = piece.picture {
        refers("a piece", index, plan.pictures.len(), "picture")?;
    }
    match &piece.finish {
        Finish::Paper(sheet) => {
            surround("the white border", &sheet.border)?;
            grammage("the paper", sheet.grammage)?;
            framing(&sheet.framing)
        }
        Finish::Canvas(canvas) => {
            some("the canvas's depth", canvas.depth)?;
            some("the cloth behind the bars", canvas.fold)?;
            grammage("the cloth", canvas.grammage)?;
            canvas.floater.as_ref().map_or(Ok(()), floater)
        }
        Finish::Aluminium(sheet) => aluminium(sheet, piece.image),
        Finish::Original(original) => {
            some("the original's depth", original.depth)?;
            framing(&original.framing)?;
            let Some(stated) = &original.floater else { return Ok(()) };
            if original.framing.frame.is_some() || original.framing.mat.is_some() {
                return Err(String::from(
                    "the original has a floater frame and a mat or a frame with a lip; take one of them away",
                ));
            }
            floater(stated)
        }
    }
}

fn floater(floater: &Floater) -> Result<(), String> {
    some("the floater's gap", floater.gap)?;
    positive("the floater's face", floater.face, limits::PIECE)?;
    positive("the floater's depth", floater.depth, limits::PIECE)
}

fn aluminium(sheet: &Aluminium, image: Size) -> Result<(), String> {
    some("the sheet's thickness", sheet.thickness)?;
    some("the stand-off", sheet.stand_off)?;
    let most = image.width.min(image.height).half();
    within("the radius of the corners", sheet.corner_radius, Length::ZERO, most)?;
    let Some(bars) = sheet.sub_frame else { return Ok(()) };
    some("the distance of the sub-frame from the edges", bars.inset)?;
    positive("the width of the sub-frame's bars", bars.width, limits::PIECE)?;
    if bars.inset + bars.width > most {
        return Err(format!(
            "the sub-frame's bars, {} wide and {} from each edge, leave no frame behind a sheet of {} × {}; set them nearer to the edges",
            plain(bars.width),
            plain(bars.inset),
            plain(image.width),
            plain(image.height)
        ));
    }
    Ok(())
}

fn surround(what: &str, surround: &Surround) -> Result<(), String> {
    match surround.extent {
        Extent::Border(border) => some(what, border)?,
        Extent::Whole(whole) => size(&format!("the whole of {what}"), whole, limits::PIECE)?,
    }
    match surround.weighting {
        Weighting::Extra(extra) => {
            within(&format!("what {what} has more at the foot"), extra, -limits::PIECE, limits::PIECE)
        }
        Weighting::Ratio { head, foot } => {
            let allowed = 1..=limits::RATIO_PARTS;
            if allowed.contains(&head) && allowed.contains(&foot) {
                return Ok(());
            }
            Err(format!(
                "{what} is {head} at the head to {foot} at the foot; each takes 1 to {}",
                limits::RATIO_PARTS
            ))
        }
    }
}

fn framing(framing: &Framing) -> Result<(), String> {
    if let Some(mat) = &framing.mat {
        let (OpeningRule::Overlap(by) | OpeningRule::Reveal(by) | OpeningRule::Float(by)) = mat.opening;
        some("the mat's overlap, rim or air", by)?;
        surround("the mat's border", &mat.surround)?;
        some("the inner mat's reveal", mat.inner_reveal.unwrap_or_default())?;
        some("the mat's thickness", mat.thickness)?;
    }
    if let Some(frame) = &framing.frame {
        moulding(frame.face, frame.rabbet_width, frame.allowance)?;
        some("the rabbet's depth", frame.rabbet_depth)?;
        positive("the frame's depth", frame.depth, limits::PIECE)?;
    }
    some("the spacer", framing.spacer)?;
    for (what, board) in [("the mount", framing.mount), ("the backing", framing.backing)] {
        some(&format!("{what}'s thickness"), board.map_or(Length::ZERO, |board| board.thickness))?;
    }
    match framing.glazing {
        Glazing::None => Ok(()),
        Glazing::Glass(thickness) | Glazing::Acrylic(thickness) => some("the glazing", thickness),
    }
}

/// A moulding's cross-section.
fn moulding(face: Length, rabbet_width: Length, allowance: Length) -> Result<(), String> {
    positive("the moulding's face", face, limits::PIECE)?;
    some("the rabbet's width", rabbet_width)?;
    some("the frame's allowance", allowance)?;
    if rabbet_width > face {
        return Err(format!(
            "the rabbet is {} wide and the moulding's face {}; the lip cannot reach further than the face",
            plain(rabbet_width),
            plain(face)
        ));
    }
    Ok(())
}

/// One frame for all pieces.
fn shared(plan: &Plan) -> Result<(), String> {
    let Some(Shared { bar }) = plan.shared else { return Ok(()) };
    some("the bar between openings", bar)?;
    if plan.pieces.len() < 2 {
        return Err(String::from("a shared frame takes two or three pieces; there is one"));
    }
    if let Arrangement::Stepped(_) = plan.group.arrangement {
        return Err(String::from("pieces in one frame stand in a row or a column, not in steps"));
    }
    let matted = |piece: &Piece| piece.finish.framing().is_some_and(|framing| framing.mat.is_some());
    if plan.pieces.iter().all(matted) {
        return Ok(());
    }
    Err(String::from(
        "pieces that share a frame each need a mat; give all of them one, or a frame of their own",
    ))
}

fn in_hand(stated: &InHand) -> Result<(), String> {
    size("the frame in hand", stated.size, limits::PIECE)?;
    moulding(stated.face, stated.rabbet_width, stated.allowance)
}

fn site(plan: &Plan) -> Result<(), String> {
    let site = &plan.site;
    within("the cornice", site.cornice, Length::ZERO, plan.wall.size.height)?;
    if let Signature::Below(by) | Signature::Within(by) = site.signature {
        some("the room for the signature", by)?;
    }
    if let Some(pounds) = site.rated_pounds.filter(|pounds| !RATINGS.contains(pounds)) {
        return Err(format!("each fixing is rated for {pounds} lb; allowed are 10, 20, 30, 50, 75 and 100"));
    }
    for (what, way) in WAYS.iter().zip(site.ways) {
        way.map_or(Ok(()), |way| size(&format!("the {what} on the way"), way, limits::ROOM))?;
    }
    Ok(())
}

fn grammage(what: &str, grams: u32) -> Result<(), String> {
    if grams <= limits::GRAMMAGE {
        return Ok(());
    }
    Err(format!("{what} has {grams} g to the square metre; allowed is 0 to {}", limits::GRAMMAGE))
}

fn focus(focus: Focus) -> Result<(), String> {
    if focus.x_permille > 1000 || focus.y_permille > 1000 {
        return Err(format!(
            "the focus is at {}, {} thousandths of the picture; it lies between 0 and 1000",
            focus.x_permille, focus.y_permille
        ));
    }
    Ok(())
}

fn count(what: &str, given: usize, least: usize, most: usize) -> Result<(), String> {
    if (least..=most).contains(&given) {
        return Ok(());
    }
    Err(format!("{given} {what} were given; a plan takes {least} to {most}"))
}

fn refers(what: &str, index: usize, len: usize, to: &str) -> Result<(), String> {
    if index < len { Ok(()) } else { Err(format!("{what} refers to a {to} that the plan does not have")) }
}

fn name(what: &str, text: &str) -> Result<(), String> {
    if text.trim().is_empty() {
        return Err(format!("{what} is empty; write at least one character"));
    }
    let characters = text.chars().count();
    if characters > limits::NAME {
        return Err(format!("{what} has {characters} characters; write at most {}", limits::NAME));
    }
    if text.chars().any(char::is_control) {
        return Err(format!("{what} has a control character in it; write plain text on one line"));
    }
    Ok(())
}

fn names<'a>(given: impl Iterator<Item = &'a str>, kind: &str) -> Result<(), String> {
    let mut seen = std::collections::BTreeSet::new();
    for text in given {
        name(&format!("the name of a {kind}"), text)?;
        if !seen.insert(text) {
            return Err(format!("two {kind}s are called {text}; give each a name of its own"));
        }
    }
    Ok(())
}

fn size(what: &str, size: Size, most: Length) -> Result<(), String> {
    positive(&format!("{what}'s width"), size.width, most)?;
    positive(&format!("{what}'s height"), size.height, most)
}

fn some(what: &str, length: Length) -> Result<(), String> {
    within(what, length, Length::ZERO, limits::PIECE)
}

fn positive(what: &str, length: Length, most: Length) -> Result<(), String> {
    if length <= Length::ZERO {
        return Err(format!("{what} is {}; it must be more than nothing", plain(length)));
    }
    within(what, length, Length::ZERO, most)
}

fn within(what: &str, length: Length, least: Length, most: Length) -> Result<(), String> {
    if (least..=most).contains(&length) {
        return Ok(());
    }
    Err(format!("{what} is {}; allowed is {} to {}", plain(length), limit(least), limit(most)))
}

/// A limit in words: in metres with feet beside them where it is one of the large ones.
fn limit(length: Length) -> String {
    let metre = Unit::Metre.length();
    if length == Length::ZERO || length.to_nearest(metre) != length {
        return plain(length);
    }
    let metres = length.units() / metre.units();
    let feet = length.units() / Unit::Foot.length().units();
    format!("{metres} m (about {feet} ft)")
}
