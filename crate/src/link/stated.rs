//! The plan field by field. Numbers of fields and places in lists are for ever: add at the end, never change or give one anew.

use super::code::{Coded, Fields, packed, unpacked};
use super::usual;
use crate::length::Length;
use crate::plan::*;

/// The kinds of fixtures by their places.
const KINDS: [FixtureKind; 13] = [
    FixtureKind::Sofa,
    FixtureKind::Sideboard,
    FixtureKind::Bed,
    FixtureKind::Table,
    FixtureKind::Lamp,
    FixtureKind::Plant,
    FixtureKind::Mantel,
    FixtureKind::Radiator,
    FixtureKind::Door,
    FixtureKind::Window,
    FixtureKind::Switch,
    FixtureKind::Socket,
    FixtureKind::Thermostat,
];
/// Materials by their places.
const MATERIALS: [Material; 13] = [
    Material::Glass,
    Material::Acrylic,
    Material::MatBoard,
    Material::FoamBoard,
    Material::FlutedBoard,
    Material::Hardboard,
    Material::Mdf,
    Material::Pine,
    Material::Obeche,
    Material::Poplar,
    Material::Oak,
    Material::Aluminium,
    Material::AluminiumComposite,
];
const SHAPES: [FaceShape; 5] =
    [FaceShape::Flat, FaceShape::Bevelled, FaceShape::Scooped, FaceShape::Stepped, FaceShape::Rounded];
const SURFACES: [Surface; 4] = [Surface::Grain, Surface::Paint, Surface::Metal, Surface::Gilt];

/// The fields of a plan, from 1 to 31.
pub(super) fn plan(code: &mut Fields<'_>, plan: &mut Plan, usual: &Plan) -> Coded {
    let Plan {
        title,
        units,
        wall: the_wall,
        viewing: seen,
        fixtures,
        pictures,
        pieces,
        split: over_all,
        group: the_group,
        fixing: hung,
        shared,
        fineness,
        in_hand: stated,
        space,
        site: place,
    } = plan;
    code.text(1, title, &usual.title)?;
    code.within(2, units, &usual.units, |code, Units { first, both }, usual| {
        code.choice(1, first, usual.first, &[System::Inches, System::Centimetres])?;
        code.flag(2, both, usual.both)
    })?;
    code.within(3, the_wall, &usual.wall, wall)?;
    code.within(4, seen, &usual.viewing, viewing)?;
    code.list(5, fixtures, limits::FIXTURES, |_| usual::fixture(FixtureKind::Sofa), fixture)?;
    code.list(6, pictures, limits::PICTURES, |_| usual::picture(), picture)?;
    code.list(
        7,
        pieces,
        limits::PIECES,
        |before| before.last().cloned().unwrap_or_else(usual::piece),
        piece,
    )?;
    code.maybe(8, over_all, &usual.split, &usual::SPLIT, split)?;
    code.within(9, the_group, &usual.group, group)?;
    code.within(10, hung, &usual.fixing, fixing)?;
    code.maybe(11, shared, &usual.shared, &Shared { bar: Length::ZERO }, |code, Shared { bar }, usual| {
        code.length(1, bar, usual.bar)
    })?;
    code.number(12, fineness, usual.fineness)?;
    code.maybe(13, stated, &usual.in_hand, &usual::IN_HAND, in_hand)?;
    code.maybe(14, space, &usual.space, &usual.wall.size, |code, space, usual| code.size(1, space, *usual))?;
    code.within(15, place, &usual.site, site)
}

fn wall(code: &mut Fields<'_>, wall: &mut Wall, usual: &Wall) -> Coded {
    let Wall { size, paint, floor, skirting, finish } = wall;
    code.size(1, size, usual.size)?;
    code.colour(3, paint, usual.paint)?;
    code.colour(4, floor, usual.floor)?;
    code.length(5, skirting, usual.skirting)?;
    code.choice(6, finish, usual.finish, &[WallFinish::Smooth, WallFinish::Plaster])
}

fn viewing(code: &mut Fields<'_>, viewing: &mut Viewing, usual: &Viewing) -> Coded {
    let Viewing { distance, eye_level, aside, figure, light, reflection } = viewing;
    code.length(1, distance, usual.distance)?;
    code.length(2, eye_level, usual.eye_level)?;
    let apart = |aside: &Aside| match *aside {
        Aside::Straight => (0, 0),
        Aside::Left(by) => (1, packed(by)),
        Aside::Right(by) => (2, packed(by)),
    };
    code.kind(3, aside, &usual.aside, apart, |kind, by| match kind {
        0 => Some(Aside::Straight),
        1 => Some(Aside::Left(unpacked(by))),
        2 => Some(Aside::Right(unpacked(by))),
        _ => None,
    })?;
    code.choice(5, figure, usual.figure, &[None, Some(Posture::Standing), Some(Posture::Seated)])?;
    code.choice(6, light, usual.light, &[LightOf::Day, LightOf::Evening])?;
    code.flag(7, reflection, usual.reflection)
}

/// A fixture is measured by the usual one of its kind.
fn fixture(code: &mut Fields<'_>, fixture: &mut Fixture, usual: &Fixture) -> Coded {
    let Fixture { kind, name, size, depth, across, from_floor, relation, swing } = fixture;
    code.choice(1, kind, usual.kind, &KINDS)?;
    let usual = usual::fixture(*kind);
    code.text(2, name, &usual.name)?;
    code.size(3, size, usual.size)?;
    code.length(5, depth, usual.depth)?;
    let apart = |across: &Across| match *across {
        Across::Middle => (0, 0),
        Across::FromLeft(x) => (1, packed(x)),
        Across::FromRight(x) => (2, packed(x)),
    };
    code.kind(6, across, &usual.across, apart, |kind, x| match kind {
        0 => Some(Across::Middle),
        1 => Some(Across::FromLeft(unpacked(x))),
        2 => Some(Across::FromRight(unpacked(x))),
        _ => None,
    })?;
    code.length(8, from_floor, usual.from_floor)?;
    code.choice(9, relation, usual.relation, &[Relation::HangAbove, Relation::KeepClear])?;
    code.choice(10, swing, usual.swing, &[Swing::Clear, Swing::Left, Swing::Right])
}

fn focus(code: &mut Fields<'_>, focus: &mut Focus, usual: &Focus) -> Coded {
    let Focus { x_permille, y_permille } = focus;
    code.number(1, x_permille, usual.x_permille)?;
    code.number(2, y_permille, usual.y_permille)
}

fn picture(code: &mut Fields<'_>, picture: &mut Picture, usual: &Picture) -> Coded {
    let Picture { name, file, width_px, height_px, subject } = picture;
    code.text(1, name, &usual.name)?;
    code.text(2, file, &usual::file_of(name))?;
    code.number(3, width_px, usual.width_px)?;
    code.number(4, height_px, usual.height_px)?;
    code.maybe(5, subject, &usual.subject, &Focus::MIDDLE, focus)
}

fn split(code: &mut Fields<'_>, split: &mut Split, usual: &Split) -> Coded {
    let Split { picture, focus: kept, strips } = split;
    code.number(1, picture, usual.picture)?;
    code.within(2, kept, &usual.focus, focus)?;
    code.choice(3, strips, usual.strips, &[Strips::Hidden, Strips::Kept])
}

fn group(code: &mut Fields<'_>, group: &mut Group, usual: &Group) -> Coded {
    let Group { arrangement, gap, align, across, up } = group;
    let apart = |arrangement: &Arrangement| match *arrangement {
        Arrangement::Row => (0, 0),
        Arrangement::Column => (1, 0),
        Arrangement::Stepped(rise) => (2, packed(rise)),
    };
    code.kind(1, arrangement, &usual.arrangement, apart, |kind, rise| match kind {
        0 => Some(Arrangement::Row),
        1 => Some(Arrangement::Column),
        2 => Some(Arrangement::Stepped(unpacked(rise))),
        _ => None,
    })?;
    code.length(3, gap, usual.gap)?;
    code.choice(4, align, usual.align, &[Align::Centre, Align::Start, Align::End])?;
    let apart = |across: &GroupAcross| match *across {
        GroupAcross::WallMiddle => (0, 0),
        GroupAcross::FixtureMiddle(fixture) => (1, index(fixture)),
        GroupAcross::CentreAt(x) => (2, packed(x)),
    };
    code.kind(5, across, &usual.across, apart, |kind, amount| match kind {
        0 => Some(GroupAcross::WallMiddle),
        1 => Some(GroupAcross::FixtureMiddle(place(amount))),
        2 => Some(GroupAcross::CentreAt(unpacked(amount))),
        _ => None,
    })?;
    let apart = |up: &GroupUp| match *up {
        GroupUp::EyeLevel => (0, 0),
        GroupUp::CentreAt(y) => (1, packed(y)),
        GroupUp::Above { clearance, .. } => (2, packed(clearance)),
    };
    // The fixture has a field of its own.
    let mut over = if let GroupUp::Above { fixture, .. } = *up { fixture } else { 0 };
    code.kind(7, up, &usual.up, apart, |kind, amount| match kind {
        0 => Some(GroupUp::EyeLevel),
        1 => Some(GroupUp::CentreAt(unpacked(amount))),
        2 => Some(GroupUp::Above { fixture: 0, clearance: unpacked(amount) }),
        _ => None,
    })?;
    code.number(9, &mut over, 0)?;
    if let GroupUp::Above { fixture, .. } = up {
        *fixture = over;
    }
    Ok(())
}

fn index(place: usize) -> i64 {
    i64::try_from(place).unwrap_or(i64::MAX)
}

fn place(index: i64) -> usize {
    usize::try_from(index).unwrap_or(usize::MAX)
}

/// Rings are a wire's without wire: the fields of both have the same numbers.
fn fixing(code: &mut Fields<'_>, fixing: &mut Fixing, usual: &Fixing) -> Coded {
    type Apart = (usize, Length, Length, Length, Option<Length>);
    let apart = |fixing: &Fixing| -> Apart {
        match *fixing {
            Fixing::Rings { inset, down } => (0, inset, down, Length::ZERO, None),
            Fixing::Wire { inset, down, slack, hooks_apart } => (1, inset, down, slack, hooks_apart),
        }
    };
    let (mut kind, mut inset, mut down, mut slack, mut hooks_apart) = apart(fixing);
    let usual = apart(usual);
    code.choice(1, &mut kind, usual.0, &[0, 1])?;
    code.length(2, &mut inset, usual.1)?;
    code.length(3, &mut down, usual.2)?;
    code.length(4, &mut slack, usual.3)?;
    length(code, 5, &mut hooks_apart, usual.4)?;
    *fixing = match kind {
        0 => Fixing::Rings { inset, down },
        _ => Fixing::Wire { inset, down, slack, hooks_apart },
    };
    Ok(())
}

/// A length that may be missing.
fn length(code: &mut Fields<'_>, key: u64, value: &mut Option<Length>, usual: Option<Length>) -> Coded {
    code.maybe(key, value, &usual, &Length::ZERO, |code, length, usual| code.length(1, length, *usual))
}

fn in_hand(code: &mut Fields<'_>, stated: &mut InHand, usual: &InHand) -> Coded {
    let InHand { measured, size, face, rabbet_width, allowance } = stated;
    let all = [Measured::Glass, Measured::Rabbet, Measured::Sight, Measured::Outside];
    code.choice(1, measured, usual.measured, &all)?;
    code.size(2, size, usual.size)?;
    code.length(4, face, usual.face)?;
    code.length(5, rabbet_width, usual.rabbet_width)?;
    code.length(6, allowance, usual.allowance)
}

fn site(code: &mut Fields<'_>, site: &mut Site, usual: &Site) -> Coded {
    let Site {
        built,
        is_public_way,
        has_earthquakes,
        has_sun,
        has_window_opposite,
        cornice,
        rated_pounds,
        signature,
        ways,
    } = site;
    let all = [Built::Unstated, Built::Plasterboard, Built::Timber, Built::Masonry];
    code.choice(1, built, usual.built, &all)?;
    code.flag(2, is_public_way, usual.is_public_way)?;
    code.flag(3, has_earthquakes, usual.has_earthquakes)?;
    code.flag(4, has_sun, usual.has_sun)?;
    code.flag(5, has_window_opposite, usual.has_window_opposite)?;
    code.length(6, cornice, usual.cornice)?;
    code.maybe(7, rated_pounds, &usual.rated_pounds, &0, |code, pounds, usual| {
        code.number(1, pounds, *usual)
    })?;
    let apart = |signature: &Signature| match *signature {
        Signature::None => (0, 0),
        Signature::Below(by) => (1, packed(by)),
        Signature::Within(by) => (2, packed(by)),
    };
    code.kind(8, signature, &usual.signature, apart, |kind, by| match kind {
        0 => Some(Signature::None),
        1 => Some(Signature::Below(unpacked(by))),
        2 => Some(Signature::Within(unpacked(by))),
        _ => None,
    })?;
    for (key, (way, usual)) in (10..).zip(ways.iter_mut().zip(&usual.ways)) {
        let blank = crate::geometry::Size::inches(30, 80);
        code.maybe(key, way, usual, &blank, |code, way, usual| code.size(1, way, *usual))?;
    }
    Ok(())
}

/// A piece is measured by the one before it.
fn piece(code: &mut Fields<'_>, piece: &mut Piece, usual: &Piece) -> Coded {
    let Piece { picture, focus: kept, image, finish: made } = piece;
    code.maybe(1, picture, &usual.picture, &0, |code, picture, usual| code.number(1, picture, *usual))?;
    code.within(2, kept, &usual.focus, focus)?;
    code.size(3, image, usual.image)?;
    finish(code, made, &usual.finish)
}

fn finish(code: &mut Fields<'_>, finish: &mut Finish, usual: &Finish) -> Coded {
    let which = |finish: &Finish| match finish {
        Finish::Paper(_) => 0,
        Finish::Canvas(_) => 1,
        Finish::Aluminium(_) => 2,
        Finish::Original(_) => 3,
    };
    let mut kind = which(finish);
    code.whole(5, &mut kind, which(usual))?;
    let base = match kind {
        kind if kind == which(usual) => usual.clone(),
        0 => Finish::Paper(usual::paper()),
        1 => Finish::Canvas(usual::CANVAS),
        2 => Finish::Aluminium(usual::ALUMINIUM),
        3 => Finish::Original(usual::ORIGINAL),
        _ => {
            code.miss(1);
            finish.clone_from(usual);
            return Ok(());
        }
    };
    if code.is_reading() {
        finish.clone_from(&base);
    }
    match (finish, &base) {
        (Finish::Paper(value), Finish::Paper(usual)) => code.within(6, value, usual, paper),
        (Finish::Canvas(value), Finish::Canvas(usual)) => code.within(6, value, usual, canvas),
        (Finish::Aluminium(value), Finish::Aluminium(usual)) => code.within(6, value, usual, aluminium),
        (Finish::Original(value), Finish::Original(usual)) => code.within(6, value, usual, original),
        _ => Ok(()),
    }
}

fn paper(code: &mut Fields<'_>, paper: &mut Paper, usual: &Paper) -> Coded {
    let Paper { border, grammage, framing: framed } = paper;
    code.within(1, border, &usual.border, surround)?;
    code.number(2, grammage, usual.grammage)?;
    code.within(3, framed, &usual.framing, framing)
}

fn surround(code: &mut Fields<'_>, surround: &mut Surround, usual: &Surround) -> Coded {
    let Surround { extent, weighting } = surround;
    let whole = |extent: Extent| if let Extent::Whole(size) = extent { Some(size) } else { None };
    let apart = |extent: &Extent| match *extent {
        Extent::Border(border) => (0, packed(border)),
        Extent::Whole(_) => (1, 0),
    };
    let blank = crate::geometry::Size::inches(16, 20);
    let mut size = whole(*extent).unwrap_or(blank);
    code.kind(1, extent, &usual.extent, apart, |kind, border| match kind {
        0 => Some(Extent::Border(unpacked(border))),
        1 => Some(Extent::Whole(crate::geometry::Size::inches(16, 20))),
        _ => None,
    })?;
    if let Extent::Whole(stated) = extent {
        code.size(3, &mut size, whole(usual.extent).unwrap_or(blank))?;
        *stated = size;
    }
    let apart = |weighting: &Weighting| match *weighting {
        Weighting::Extra(extra) => (0, packed(extra)),
        Weighting::Ratio { head, foot } => (1, i64::from(head) << 16 | i64::from(foot)),
    };
    code.kind(5, weighting, &usual.weighting, apart, |kind, amount| match kind {
        0 => Some(Weighting::Extra(unpacked(amount))),
        1 => {
            let part = |part: i64| u16::try_from(part).unwrap_or(u16::MAX);
            Some(Weighting::Ratio { head: part(amount >> 16), foot: part(amount & 0xff_ff) })
        }
        _ => None,
    })
}

fn framing(code: &mut Fields<'_>, framing: &mut Framing, usual: &Framing) -> Coded {
    let Framing { frame: lipped, glazing, spacer, mat: window, mount, backing } = framing;
    code.maybe(1, lipped, &usual.frame, &usual::FRAME, frame)?;
    let apart = |glazing: &Glazing| match *glazing {
        Glazing::None => (0, 0),
        Glazing::Glass(thickness) => (1, packed(thickness)),
        Glazing::Acrylic(thickness) => (2, packed(thickness)),
    };
    code.kind(2, glazing, &usual.glazing, apart, |kind, thickness| match kind {
        0 => Some(Glazing::None),
        1 => Some(Glazing::Glass(unpacked(thickness))),
        2 => Some(Glazing::Acrylic(unpacked(thickness))),
        _ => None,
    })?;
    code.length(4, spacer, usual.spacer)?;
    code.maybe(5, window, &usual.mat, &usual::MAT, mat)?;
    code.maybe(6, mount, &usual.mount, &usual::BOARD, board)?;
    code.maybe(7, backing, &usual.backing, &usual::BOARD, board)
}

fn board(code: &mut Fields<'_>, board: &mut Board, usual: &Board) -> Coded {
    let Board { material, thickness } = board;
    code.choice(1, material, usual.material, &MATERIALS)?;
    code.length(2, thickness, usual.thickness)
}

fn frame(code: &mut Fields<'_>, frame: &mut Frame, usual: &Frame) -> Coded {
    let Frame { face, rabbet_width, rabbet_depth, depth, allowance, material, shape, surface, colour } =
        frame;
    code.length(1, face, usual.face)?;
    code.length(2, rabbet_width, usual.rabbet_width)?;
    code.length(3, rabbet_depth, usual.rabbet_depth)?;
    code.length(4, depth, usual.depth)?;
    code.length(5, allowance, usual.allowance)?;
    code.choice(6, material, usual.material, &MATERIALS)?;
    code.choice(7, shape, usual.shape, &SHAPES)?;
    code.choice(8, surface, usual.surface, &SURFACES)?;
    code.colour(9, colour, usual.colour)
}

fn mat(code: &mut Fields<'_>, mat: &mut Mat, usual: &Mat) -> Coded {
    let Mat { opening, surround: board, inner_reveal, thickness, colour, inner_colour } = mat;
    let apart = |opening: &OpeningRule| match *opening {
        OpeningRule::Overlap(by) => (0, packed(by)),
        OpeningRule::Reveal(by) => (1, packed(by)),
        OpeningRule::Float(by) => (2, packed(by)),
    };
    code.kind(1, opening, &usual.opening, apart, |kind, by| match kind {
        0 => Some(OpeningRule::Overlap(unpacked(by))),
        1 => Some(OpeningRule::Reveal(unpacked(by))),
        2 => Some(OpeningRule::Float(unpacked(by))),
        _ => None,
    })?;
    code.within(3, board, &usual.surround, surround)?;
    length(code, 4, inner_reveal, usual.inner_reveal)?;
    code.length(5, thickness, usual.thickness)?;
    code.colour(6, colour, usual.colour)?;
    code.maybe(7, inner_colour, &usual.inner_colour, &usual::MAT.colour, |code, colour, usual| {
        code.colour(1, colour, *usual)
    })
}

fn canvas(code: &mut Fields<'_>, canvas: &mut Canvas, usual: &Canvas) -> Coded {
    let Canvas { depth, edge, fold, grammage, floater: stands_in } = canvas;
    code.length(1, depth, usual.depth)?;
    let apart = |edge: &Edge| match *edge {
        Edge::Carried => (0, 0),
        Edge::Mirrored => (1, 0),
        Edge::Plain(colour) => {
            (2, i64::from(colour.red) << 16 | i64::from(colour.green) << 8 | i64::from(colour.blue))
        }
    };
    code.kind(2, edge, &usual.edge, apart, |kind, rgb| match kind {
        0 => Some(Edge::Carried),
        1 => Some(Edge::Mirrored),
        2 => Some(Edge::Plain(crate::colour::Colour::hex(u32::try_from(rgb & 0xff_ff_ff).unwrap_or(0)))),
        _ => None,
    })?;
    code.length(4, fold, usual.fold)?;
    code.number(5, grammage, usual.grammage)?;
    code.maybe(6, stands_in, &usual.floater, &usual::FLOATER, floater)
}

fn floater(code: &mut Fields<'_>, floater: &mut Floater, usual: &Floater) -> Coded {
    let Floater { gap, face, depth, colour } = floater;
    code.length(1, gap, usual.gap)?;
    code.length(2, face, usual.face)?;
    code.length(3, depth, usual.depth)?;
    code.colour(4, colour, usual.colour)
}

fn aluminium(code: &mut Fields<'_>, sheet: &mut Aluminium, usual: &Aluminium) -> Coded {
    let Aluminium { thickness, stand_off, corner_radius, sub_frame } = sheet;
    code.length(1, thickness, usual.thickness)?;
    code.length(2, stand_off, usual.stand_off)?;
    code.length(3, corner_radius, usual.corner_radius)?;
    code.maybe(4, sub_frame, &usual.sub_frame, &usual::SUB_FRAME, |code, bars, usual| {
        let SubFrame { inset, width } = bars;
        code.length(1, inset, usual.inset)?;
        code.length(2, width, usual.width)
    })
}

fn original(code: &mut Fields<'_>, original: &mut Original, usual: &Original) -> Coded {
    let Original { depth, framing: framed, floater: stands_in } = original;
    code.length(1, depth, usual.depth)?;
    code.within(2, framed, &usual.framing, framing)?;
    code.maybe(3, stands_in, &usual.floater, &usual::FLOATER, floater)
}
