//! What cannot be built: parts that lie in nothing, hang on nothing or have no thickness, and pictures that are covered.

use super::context::{Context, fine, image, length, on_pieces, set, set_length, words};
use super::place::{moved_away, touching};
use super::{About, Authority, Case, Row, Severity, Value};
use crate::field::{Edit, Field, To};
use crate::framing::{BuildUp, FLOAT_BLOCK};
use crate::geometry::{Rect, Sides, Size};
use crate::hang::{holder, is_held};
use crate::length::Length;
use crate::plan::{self, Edge, Finish, Glazing, Material, OpeningRule, Piece};
use crate::rounding::Mode;
use crate::stock::thresholds::{ROUND_FITTINGS, THIN_BORDER};
use crate::words::in_units;

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "hung-by-nothing",
        about: About::Hanging,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "There is nothing at the back of {piece} to fix a hanger to: a bare sheet cannot hold one.",
        find: hung_by_nothing,
    },
    Row {
        code: "rings-in-nothing",
        about: About::Hanging,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "{piece} cannot hold a {hanger} {sides} from its sides and {down} from its top edge. Put it {least} to {most} from the sides and {high} to {low} from the top edge.",
        find: rings_in_nothing,
    },
    Row {
        code: "hooks-in-one-place",
        about: About::Hanging,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "The two hooks are in the same place: there is no distance between them.",
        find: hooks_in_one_place,
    },
    Row {
        code: "sheet-larger-than-board",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "The sheet is {sheet} and is {by} larger than the mat board of {board}: it does not fit in the frame.",
        find: sheet_larger_than_board,
    },
    Row {
        code: "sheets-behind-the-bar",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "Two sheets overlap by {by} behind the bar of the mat.",
        find: sheets_behind_the_bar,
    },
    Row {
        code: "lip-past-the-mat",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "The frame's lip hides {lip} of the mat, which is {border} wide at its narrowest, so it covers {by} of the picture in the opening.",
        find: lip_past_the_mat,
    },
    Row {
        code: "mirrored-past-the-face",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "Edges {depth} deep cannot mirror a face of {face}: the face is too small for that.",
        find: mirrored_past_the_face,
    },
    Row {
        code: "narrower-than-its-bars",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Practice,
        words: "A canvas of {face} is narrower than two stretcher bars of {bar} side by side.",
        find: narrower_than_its_bars,
    },
    Row {
        code: "hook-off-the-wall",
        about: About::Hanging,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "{piece} would need a hook {up} above the floor, and the wall is {wall} high.",
        find: hook_off_the_wall,
    },
    Row {
        code: "over-an-opening",
        about: About::Hanging,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "{piece} hangs over the {fixture}: there is no wall behind it.",
        find: over_an_opening,
    },
    Row {
        code: "floats-on-nothing",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "A sheet that floats in its mat needs a mount board to be hinged to, and there is none.",
        find: floats_on_nothing,
    },
    Row {
        code: "no-room-for-blocks",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Practice,
        words: "A sheet of {size} is too small for float blocks of {block}, {from} in from its edges.",
        find: no_room_for_blocks,
    },
    Row {
        code: "no-thickness",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "The {part} has no thickness.",
        find: no_thickness,
    },
    Row {
        code: "inner-mat-unseen",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "The bottom mat does not show: its opening is as large as that of the top mat.",
        find: inner_mat_unseen,
    },
];

/// The hangers at their usual place again.
pub(super) fn as_usual() -> [Edit; 2] {
    [&plan::FIXING_FROM_SIDES, &plan::FIXING_DOWN].map(|row| set(row, To::key(plan::USUAL_PLACE)))
}

fn hung_by_nothing(on: &Context<'_>) -> Vec<Case> {
    let held_by_nothing = |sizes: &BuildUp| sizes.holds.is_empty();
    let found: Vec<usize> =
        on.pieces().filter(|(_, _, sizes)| held_by_nothing(sizes)).map(|(piece, ..)| piece).collect();
    let Some(&first) = found.first() else { return Vec::new() };
    let framed: Vec<usize> =
        found.iter().copied().filter(|&piece| on.plan.pieces[piece].finish.framing().is_some()).collect();
    let case = Case::of([words(on.one(first))]);
    let sheets = found.iter().filter(|&&piece| matches!(on.plan.pieces[piece].finish, Finish::Aluminium(_)));
    let sheets: Vec<usize> = sheets.copied().collect();
    let case = if framed.is_empty() {
        case
    } else {
        case.mend("Frame it", on_pieces(&framed, &plan::FRAME, To::yes(true)))
    };
    let case = if sheets.is_empty() {
        case
    } else {
        case.mend("Put float blocks behind it", on_pieces(&sheets, &plan::ALUMINIUM_BACK, To::yes(false)))
    };
    vec![case]
}

fn rings_in_nothing(on: &Context<'_>) -> Vec<Case> {
    let loose = on
        .pieces()
        .zip(&on.figures.hanging)
        .find(|((_, _, sizes), hung)| !sizes.holds.is_empty() && !is_held(sizes, hung.places));
    let Some(((piece, _, sizes), hung)) = loose else { return Vec::new() };
    let hanger = on.plan.fixing.hanger;
    let Some(held) = holder(sizes, hanger) else { return Vec::new() };
    let height = sizes.outside.height;
    let two_rings = [vec![set(&plan::FIXING_KIND, To::key(plan::TWO_RINGS))], as_usual().to_vec()].concat();
    vec![
        Case::of([
            words(on.one(piece)),
            words(hanger.noun()),
            length(hung.places.from_sides),
            length(hung.places.down),
            length(held.x),
            length(held.right()),
            length(height - held.top()),
            length(height - held.y),
        ])
        .mend("Put it where the piece can hold it", as_usual())
        .mend("Hang it by two rings", two_rings),
    ]
}

fn hooks_in_one_place(on: &Context<'_>) -> Vec<Case> {
    if on.plan.fixing.hanger.hooks_apart() != Some(Length::ZERO) {
        return Vec::new();
    }
    let span = on.figures.hanging.iter().map(|hung| hung.span).min().unwrap_or_default();
    let apart = on.to_mark(span.times_ratio(1, 3), Mode::Down);
    let how = ["Put them ", &on.text(apart), " apart"].concat();
    vec![
        Case::of([])
            .mend(how, [set_length(&plan::FIXING_APART, apart)])
            .mend("Use one hook", [set(&plan::FIXING_KIND, To::key(plan::ONE_HOOK))]),
    ]
}

fn narrowest(sides: Sides) -> Length {
    sides.left.min(sides.top).min(sides.right).min(sides.bottom)
}

/// The farthest that one rectangle reaches over the edges of another.
fn reaches_over(inner: Rect, whole: Rect) -> Length {
    let across = (whole.x - inner.x).max(inner.right() - whole.right());
    across.max(whole.y - inner.y).max(inner.top() - whole.top())
}

/// Makes the mat so wide.
fn wider_mat(on: &Context<'_>, case: Case, pieces: &[usize], border: Length) -> Case {
    let wide = on.to_mark(border, Mode::Up);
    let settings = [
        on_pieces(pieces, &plan::MAT_EXTENT, To::key(plan::BY_BORDER)),
        on_pieces(pieces, &plan::MAT_BORDER, To::Length(wide)),
        on_pieces(pieces, &plan::MAT_WEIGHTING, To::key(plan::BY_EXTRA)),
        on_pieces(pieces, &plan::MAT_FOOT, To::Length(Length::ZERO)),
    ];
    case.mend(["Make the mat ", &on.text(wide), " wide all round"].concat(), settings.concat())
}

/// Leaves so much less white paper round the images.
fn less_paper(on: &Context<'_>, case: Case, pieces: &[usize], by: Length) -> Case {
    let border = |piece: usize| {
        let stated = &on.figures.build_ups[piece].sheet_borders;
        let is_paper = matches!(on.plan.pieces[piece].finish, Finish::Paper(_));
        is_paper.then(|| on.to_mark(narrowest(*stated) - by, Mode::Down))
    };
    let borders: Option<Vec<Length>> = pieces.iter().map(|&piece| border(piece)).collect();
    let Some(least) = borders.and_then(|borders| borders.into_iter().min()) else { return case };
    if least < Length::ZERO {
        return case;
    }
    let settings = [
        on_pieces(pieces, &plan::PAPER_EXTENT, To::key(plan::BY_BORDER)),
        on_pieces(pieces, &plan::PAPER_BORDER, To::Length(least)),
        on_pieces(pieces, &plan::PAPER_WEIGHTING, To::key(plan::BY_EXTRA)),
        on_pieces(pieces, &plan::PAPER_FOOT, To::Length(Length::ZERO)),
    ];
    case.mend(["Leave ", &on.text(least), " of white paper"].concat(), settings.concat())
}

fn sheet_larger_than_board(on: &Context<'_>) -> Vec<Case> {
    let over = on.pieces().filter_map(|(piece, _, sizes)| {
        let board = sizes.mat.as_ref()?.board;
        let by = reaches_over(sizes.sheet, board);
        (by > Length::ZERO).then_some((piece, sizes.sheet.size, board.size, by))
    });
    let over: Vec<_> = over.collect();
    let Some(&(first, sheet, board, _)) = over.first() else { return Vec::new() };
    let by = over.iter().map(|entry| entry.3).max().unwrap_or_default();
    let pieces: Vec<usize> = over.iter().map(|entry| entry.0).collect();
    let border = on.figures.build_ups[first].mat.as_ref().map_or(Length::ZERO, |mat| narrowest(mat.borders));
    let case = Case::of([Value::Size(sheet), fine(by), Value::Size(board)]);
    vec![less_paper(on, wider_mat(on, case, &pieces, border + by), &pieces, by)]
}

fn sheets_behind_the_bar(on: &Context<'_>) -> Vec<Case> {
    let Some(shared) = on.plan.shared else { return Vec::new() };
    let sheets: Vec<Rect> = on.figures.build_ups.iter().map(|sizes| sizes.sheet).collect();
    let meet = sheets.windows(2).filter_map(|pair| pair[0].common(pair[1]));
    let by = meet.map(|common| common.size.width.min(common.size.height)).max();
    let Some(by) = by.filter(|by| *by > Length::ZERO) else { return Vec::new() };
    let pieces: Vec<usize> = (0..on.plan.pieces.len()).collect();
    let wide = on.to_mark(shared.bar + by, Mode::Up);
    let how = ["Make the bar ", &on.text(wide), " wide"].concat();
    let case = Case::of([fine(by)]).mend(how, [set_length(&plan::SHARED_BAR, wide)]);
    // Each of two sheets gives way by half.
    vec![less_paper(on, case, &pieces, by.half() + Length::from_units(1))]
}

fn lip_past_the_mat(on: &Context<'_>) -> Vec<Case> {
    let covered = on.framed().filter_map(|(piece, framing, sizes)| {
        let (frame, mat) = (framing.frame.as_ref()?, sizes.mat.as_ref()?);
        let by = -narrowest(mat.visible_borders);
        (by > Length::ZERO).then_some((
            piece,
            sizes.frame.as_ref()?.lip_hides,
            narrowest(mat.borders),
            by,
            frame,
        ))
    });
    let covered: Vec<_> = covered.collect();
    let Some(&(_, lip, border, by, frame)) = covered.first() else { return Vec::new() };
    let pieces: Vec<usize> = covered.iter().map(|entry| entry.0).collect();
    let wide = on.limit(&THIN_BORDER).max(lip + by);
    let case = wider_mat(on, Case::of([fine(lip), fine(border), fine(by)]), &pieces, wide);
    // What is left of the mat is seen then; the lip still reaches over the allowance.
    let narrow = on.to_mark(border + frame.allowance.half(), Mode::Down);
    if narrow <= frame.allowance.half() {
        return vec![case];
    }
    let how =
        ["Choose a ", &in_units("rabbet", on.plan.units.first), " ", &on.text(narrow), " wide"].concat();
    vec![case.mend(how, on_pieces(&pieces, &plan::FRAME_RABBET_WIDTH, To::Length(narrow)))]
}

/// The canvases that something is wrong with, with what is.
fn canvases<'a, T>(
    on: &Context<'a>,
    wrong: impl Fn(&plan::Canvas, Size) -> Option<T>,
) -> (Vec<usize>, Option<(Size, T)>) {
    let mut pieces = Vec::new();
    let mut first = None;
    for (piece, Piece { image, finish, .. }, _) in on.pieces() {
        let Finish::Canvas(canvas) = finish else { continue };
        if let Some(found) = wrong(canvas, *image) {
            pieces.push(piece);
            first.get_or_insert((*image, found));
        }
    }
    (pieces, first)
}

fn mirrored_past_the_face(on: &Context<'_>) -> Vec<Case> {
    let past = |canvas: &plan::Canvas, face: Size| {
        (canvas.edge == Edge::Mirrored && canvas.depth > face.width.min(face.height)).then_some(canvas.depth)
    };
    let (pieces, Some((face, depth))) = canvases(on, past) else { return Vec::new() };
    let plain = To::one_of(&Edge::Plain(crate::colour::Colour::default()));
    let least =
        pieces.iter().map(|&piece| on.plan.pieces[piece].image).map(|face| face.width.min(face.height));
    let shallow = on.to_mark(least.min().unwrap_or_default(), Mode::Down);
    let case = Case::of([length(depth), Value::Size(face)])
        .mend("Give it a solid edge", on_pieces(&pieces, &plan::CANVAS_EDGE, plain));
    if shallow <= Length::ZERO {
        return vec![case];
    }
    let how = ["Choose bars ", &on.text(shallow), " deep"].concat();
    vec![case.mend(how, on_pieces(&pieces, &plan::CANVAS_DEPTH, To::Length(shallow)))]
}

fn narrower_than_its_bars(on: &Context<'_>) -> Vec<Case> {
    let narrow = |canvas: &plan::Canvas, face: Size| {
        let bar = on.stock.bar_width(canvas.depth);
        (face.width < bar * 2 || face.height < bar * 2).then_some(bar)
    };
    let (pieces, Some((face, bar))) = canvases(on, narrow) else { return Vec::new() };
    let widths = pieces.iter().filter_map(|&piece| match &on.plan.pieces[piece].finish {
        Finish::Canvas(canvas) => Some(on.stock.bar_width(canvas.depth)),
        _ => None,
    });
    let wide = on.to_mark(widths.max().unwrap_or(bar) * 2, Mode::Up);
    let larger = |piece: &usize| {
        let Size { width, height } = on.plan.pieces[*piece].image;
        image(*piece, Size::new(width.max(wide), height.max(wide)))
    };
    let settings: Vec<Edit> = pieces.iter().map(larger).collect();
    vec![
        Case::of([Value::Size(face), length(bar)])
            .mend(["Make it at least ", &on.text(wide), " each way"].concat(), settings),
    ]
}

/// The long wire of a piece on the wall may still take its hook beyond it.
fn hook_off_the_wall(on: &Context<'_>) -> Vec<Case> {
    let wall = on.plan.wall.size.height;
    let hangs = on.figures.hanging.iter().enumerate();
    let found = hangs.filter_map(|(piece, hung)| {
        let up = hung.hooks.iter().map(|hook| hook.y).max()?;
        let is_on_the_wall = on.figures.arranged.outsides[piece].top() <= wall;
        (up > wall && is_on_the_wall).then_some((piece, up))
    });
    let Some((piece, up)) = found.max_by_key(|(_, up)| *up) else { return Vec::new() };
    let two_rings = set(&plan::FIXING_KIND, To::key(plan::TWO_RINGS));
    vec![Case::of([words(on.one(piece)), length(up), length(wall)]).mend("Hang it by two rings", [two_rings])]
}

/// Doors and windows themselves, without their casings.
fn over_an_opening(on: &Context<'_>) -> Vec<Case> {
    let openings = on.fixtures().filter(|(_, fixture, _)| fixture.kind.has_casing());
    let found = openings.filter_map(|(index, fixture, rect)| {
        let (piece, _) = touching(on, rect)?;
        let case = Case::of([words(on.one(piece)), words(fixture.name.as_str())]).on(&fixture.name);
        Some(moved_away(on, case, on.figures.arranged.taken[index], on.limit(&ROUND_FITTINGS)))
    });
    found.collect()
}

fn floats_on_nothing(on: &Context<'_>) -> Vec<Case> {
    let floating = on.framed().filter(|(_, framing, _)| {
        let floats = |mat: &plan::Mat| matches!(mat.opening, OpeningRule::Float(_));
        framing.mount.is_none() && framing.mat.as_ref().is_some_and(floats)
    });
    let pieces: Vec<usize> = floating.map(|(piece, ..)| piece).collect();
    if pieces.is_empty() {
        return Vec::new();
    }
    vec![Case::of([]).mend(
        "Hinge it to a mount board of museum quality",
        on_pieces(&pieces, &plan::MOUNT, To::choice(Material::MatBoard)),
    )]
}

fn no_room_for_blocks(on: &Context<'_>) -> Vec<Case> {
    // Two blocks side by side, each with its distance from the edge.
    let least = (FLOAT_BLOCK.x + FLOAT_BLOCK.size.width) * 2;
    let small = on.pieces().find_map(|(piece, stated, sizes)| {
        let Finish::Aluminium(sheet) = &stated.finish else { return None };
        let on_blocks = sheet.sub_frame.is_none() && sheet.stand_off > Length::ZERO;
        let shorter = sizes.image.size.width.min(sizes.image.size.height);
        (on_blocks && shorter < least).then_some((piece, sizes.image.size, shorter))
    });
    let Some((piece, size, shorter)) = small else { return Vec::new() };
    let by = on.to_mark(shorter.times_ratio(1, 8), Mode::Up);
    let settings = [
        on_pieces(&[piece], &plan::ALUMINIUM_BACK, To::yes(true)),
        on_pieces(&[piece], &plan::SUB_FRAME_FROM_EDGES, To::Length(by)),
        on_pieces(&[piece], &plan::SUB_FRAME_WIDTH, To::Length(by)),
    ];
    let block = Value::Size(FLOAT_BLOCK.size);
    vec![
        Case::of([Value::Size(size), block, length(FLOAT_BLOCK.x)])
            .mend("Put it on a sub-frame of narrow bars", settings.concat()),
    ]
}

fn no_thickness(on: &Context<'_>) -> Vec<Case> {
    let mut found: Vec<Case> = Vec::new();
    let mut told: Vec<&str> = Vec::new();
    for (_, piece, _) in on.pieces() {
        for (part, row, thickness) in thicknesses(piece) {
            if thickness > Length::ZERO || told.contains(&part) {
                continue;
            }
            told.push(part);
            let crate::described::Form::Length { usual, .. } = row.form else { continue };
            let thin =
                |piece: &Piece| thicknesses(piece).iter().any(|one| one.0 == part && one.2 <= Length::ZERO);
            let pieces: Vec<usize> =
                on.pieces().filter(|(_, piece, _)| thin(piece)).map(|(piece, ..)| piece).collect();
            let how = ["Make it ", &Value::Length(usual, crate::measure::Grade::Fine).shown(on.plan.units)]
                .concat();
            let edits = pieces.iter().map(|&piece| Edit::length(Field::piece(row, piece), usual));
            found.push(Case::of([words(part)]).on(part).mend(how, edits.collect::<Vec<_>>()));
        }
    }
    found
}

/// What of a piece has to have a thickness, with that.
fn thicknesses(piece: &Piece) -> Vec<(&'static str, &'static crate::described::Row, Length)> {
    let mut found = match &piece.finish {
        Finish::Canvas(canvas) => vec![("canvas", &plan::CANVAS_DEPTH, canvas.depth)],
        Finish::Aluminium(sheet) => vec![("sheet", &plan::ALUMINIUM_THICKNESS, sheet.thickness)],
        Finish::Paper(_) | Finish::Original(_) => Vec::new(),
    };
    let Some(framing) = piece.finish.framing().filter(|_| piece.finish.floater().is_none()) else {
        return found;
    };
    match framing.glazing {
        Glazing::None => {}
        Glazing::Glass(thickness) => found.push(("glass", &plan::GLAZING_THICKNESS, thickness)),
        Glazing::Acrylic(thickness) => found.push(("acrylic", &plan::GLAZING_THICKNESS, thickness)),
    }
    if let Some(mat) = &framing.mat {
        found.push(("mat", &plan::MAT_THICKNESS, mat.thickness));
    }
    if let Some(mount) = framing.mount {
        found.push(("mount board", &plan::MOUNT_THICKNESS, mount.thickness));
    }
    if let Some(backing) = framing.backing {
        found.push(("backing", &plan::BACKING_THICKNESS, backing.thickness));
    }
    found
}

fn inner_mat_unseen(on: &Context<'_>) -> Vec<Case> {
    let unseen = on.framed().filter(|(_, framing, _)| {
        framing.mat.as_ref().is_some_and(|mat| mat.inner_reveal == Some(Length::ZERO))
    });
    let pieces: Vec<usize> = unseen.map(|(piece, ..)| piece).collect();
    if pieces.is_empty() {
        return Vec::new();
    }
    let quarter = Length::inches_ratio(1, 4);
    vec![
        Case::of([])
            .mend(
                ["Let ", &on.text(quarter), " of it show"].concat(),
                on_pieces(&pieces, &plan::MAT_INNER, To::Length(quarter)),
            )
            .mend("Choose a single mat", on_pieces(&pieces, &plan::MAT_DOUBLE, To::yes(false))),
    ]
}
