//! What is unwise about mats, glazing and frames: whether they hold, and whether they touch.

use super::context::{Context, cut, fine, length, on_pieces, set_length, words};
use super::made::{WARMING_KELVIN, acrylic_growth};
use super::{About, Authority, Case, Row, Severity, Value};
use crate::field::{self, Edit, Field, To};
use crate::geometry::{Sides, Size};
use crate::length::Length;
use crate::measure::Grade;
use crate::plan::{self, Finish, Frame, Framing, Glazing, Material, OpeningRule, Shared};
use crate::rounding::Mode;
use crate::stock::name_in;
use crate::stock::thresholds::*;
use crate::words::in_units;

const LIBRARY: Authority = Authority::Guidance("Library of Congress, preservation guidance");

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "sheet-falls-through",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "The mat opening is {by} larger than the sheet on each side, or just as large: the sheet would fall through. Float the sheet, or leave more white paper.",
        find: |on| held_by_mat(on, true),
    },
    Row {
        code: "sheet-not-held",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The mat covers {overlap} of the sheet on each side; with less than about {least} the sheet can slip through its opening.",
        find: |on| held_by_mat(on, false),
    },
    Row {
        code: "not-held-by-the-lip",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "The lip is {missing} too narrow on each side to cover the allowance: what is in the frame would fall through. Choose a wider rabbet or less allowance.",
        find: not_held_by_the_lip,
    },
    Row {
        code: "lip-on-the-image",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "Without a mat, the frame's lip covers {covered} of the image on each side.",
        find: lip_on_the_image,
    },
    Row {
        code: "glazing-on-the-print",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: LIBRARY,
        words: "Without a mat, the glazing lies on the print; a mat or spacers keep them apart.",
        find: glazing_on_the_print,
    },
    Row {
        code: "rabbet-deeper-than-moulding",
        about: About::Made,
        severity: Severity::CannotBeMade,
        authority: Authority::Sizes,
        words: "The rabbet is {rabbet} deep and the moulding {moulding}: that leaves no lip.",
        find: |on| rabbet(on, Rabbet::Impossible),
    },
    Row {
        code: "package-too-thick",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "The package is {package} thick and the rabbet {rabbet} deep: the package is proud of the frame by {by}. Choose a deeper moulding or a thinner backing, or hold it with offset clips and build up the back.",
        find: |on| rabbet(on, Rabbet::Full),
    },
    Row {
        code: "no-room-for-points",
        about: About::Made,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The package is {package} thick and leaves {left} of the rabbet's depth; points or brads need about {room}.",
        find: |on| rabbet(on, Rabbet::Tight),
    },
    Row {
        code: "thin-mat",
        about: About::Made,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The mat is {border} wide at its narrowest; under {least} it looks thin.",
        find: thin_mat,
    },
    Row {
        code: "foot-narrower-than-head",
        about: About::Made,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "The mat is {head} wide at the top and {foot} at the bottom; with a narrower bottom, the picture seems to slip down.",
        find: foot_narrower_than_head,
    },
    Row {
        code: "weighting-in-the-play",
        about: About::Made,
        severity: Severity::Taste,
        authority: Authority::Sizes,
        words: "The mat is only {extra} wider at the bottom than at the top, and the package may sink by the allowance of {play}: nobody would see the difference.",
        find: weighting_in_the_play,
    },
    Row {
        code: "weak-bar",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The bar between the openings is {bar} wide; under {least} it is weak.",
        find: weak_bar,
    },
    Row {
        code: "glazing-on-the-work",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "The floated work is {thick} thick and there is only {before} in front of the mount board: the glazing would press on it. Choose a deeper spacer.",
        find: |on| floated(on, true),
    },
    Row {
        code: "float-without-spacer",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: LIBRARY,
        words: "A floated sheet can curl against the glazing; a spacer keeps them apart.",
        find: |on| floated(on, false),
    },
    Row {
        code: "acrylic-without-play",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Guidance("makers' technical sheets of cast acrylic"),
        words: "Acrylic of {size} grows by {growth} when it warms by {kelvin} °C, more than the allowance of {play}: it would bow.",
        find: acrylic,
    },
    Row {
        code: "floater-too-shallow",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "The work is {depth} deep and the floater frame {frame}: that leaves no ledge to hold it.",
        find: floaters,
    },
    Row {
        code: "mount-yellows",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: LIBRARY,
        words: "A mount board of {material} yellows paper; hinge the sheet to museum board.",
        find: acid,
    },
];

/// Which pieces a row speaks of, and what it says of the first of them.
fn numbers<T>(found: &[(usize, T)]) -> Vec<usize> {
    found.iter().map(|entry| entry.0).collect()
}

fn narrowest(sides: Sides) -> Length {
    sides.left.min(sides.top).min(sides.right).min(sides.bottom)
}

fn held_by_mat(on: &Context<'_>, falls: bool) -> Vec<Case> {
    let least = on.limit(&LEAST_OVERLAP);
    let loose: Vec<(usize, Length)> = on
        .framed()
        .filter_map(|(piece, framing, sizes)| {
            let (stated, mat) = (framing.mat.as_ref()?, sizes.mat.as_ref()?);
            if let OpeningRule::Float(_) = stated.opening {
                return None;
            }
            let (Size { width, height }, sheet) = (mat.opening.size, sizes.sheet.size);
            let overlap = (sheet.width - width).min(sheet.height - height).half();
            (overlap < least && (overlap <= Length::ZERO) == falls).then_some((piece, overlap))
        })
        .collect();
    let Some(&(first, overlap)) = loose.first() else { return Vec::new() };
    let pieces = numbers(&loose);
    let by = on.to_mark(least, Mode::Up);
    let case = if falls { Case::of([cut(-overlap)]) } else { Case::of([cut(overlap), cut(least)]) };
    let how = ["Let the mat cover ", &on.text(by), " of the sheet"].concat();
    let over = on_pieces(&pieces, &plan::MAT_OPENING, To::one_of(&OpeningRule::Overlap(Length::ZERO)));
    let case = case.mend(how, [over, on_pieces(&pieces, &plan::MAT_BY, To::Length(by))].concat());
    // A rim of white keeps what it shows, on paper wide enough to be held.
    let framing = on.plan.pieces[first].finish.framing();
    let opening = framing.and_then(|framing| framing.mat.as_ref()).map(|mat| mat.opening);
    let Some(OpeningRule::Reveal(rim)) = opening else { return vec![case] };
    let border = To::Length(on.to_mark(rim + by, Mode::Up));
    let settings = [
        on_pieces(&pieces, &plan::PAPER_EXTENT, To::key(plan::BY_BORDER)),
        on_pieces(&pieces, &plan::PAPER_BORDER, border),
    ];
    vec![case.mend("Leave more white paper", settings.concat())]
}

fn not_held_by_the_lip(on: &Context<'_>) -> Vec<Case> {
    let loose: Vec<(usize, Length)> = on
        .pieces()
        .filter_map(|(piece, _, sizes)| Some((piece, -sizes.frame.as_ref()?.lip_hides)))
        .filter(|(_, missing)| *missing >= Length::ZERO)
        .collect();
    let Some(&(first, missing)) = loose.first() else { return Vec::new() };
    let rabbet = frame(on, first).map_or(Length::ZERO, |frame| frame.rabbet_width);
    let play = To::Length(on.to_mark(rabbet, Mode::Down));
    let settings = on_pieces(&numbers(&loose), &plan::FRAME_ALLOWANCE, play);
    vec![Case::of([cut(missing)]).mend("Leave less allowance", settings)]
}

pub(super) fn frame<'a>(on: &Context<'a>, piece: usize) -> Option<&'a Frame> {
    on.plan.pieces.get(piece)?.finish.framing()?.frame.as_ref()
}

/// The first framed piece without a mat, where the lip holds at all.
fn without_mat<'a>(on: &Context<'a>) -> Option<(usize, &'a Framing, Length)> {
    if on
        .figures
        .build_ups
        .iter()
        .any(|sizes| sizes.frame.as_ref().is_some_and(|frame| frame.lip_hides <= Length::ZERO))
    {
        return None;
    }
    on.framed().find_map(|(piece, framing, sizes)| {
        let (frame, None) = (sizes.frame.as_ref()?, &sizes.mat) else { return None };
        Some((piece, framing, frame.lip_hides - narrowest(sizes.sheet_borders)))
    })
}

/// All pieces that have a frame and no mat.
fn bare(on: &Context<'_>) -> Vec<usize> {
    let bare = on.framed().filter(|(_, framing, _)| framing.frame.is_some() && framing.mat.is_none());
    bare.map(|(piece, _, _)| piece).collect()
}

fn lip_on_the_image(on: &Context<'_>) -> Vec<Case> {
    let Some((piece, _, covered)) = without_mat(on).filter(|found| found.2 > Length::ZERO) else {
        return Vec::new();
    };
    let hides = on.figures.build_ups[piece].frame.as_ref().map_or(Length::ZERO, |frame| frame.lip_hides);
    let pieces = bare(on);
    let border = on.to_mark(hides, Mode::Up);
    let settings = [
        on_pieces(&pieces, &plan::PAPER_EXTENT, To::key(plan::BY_BORDER)),
        on_pieces(&pieces, &plan::PAPER_BORDER, To::Length(border)),
    ];
    vec![
        Case::of([length(covered)])
            .mend(["Leave ", &on.text(border), " of white paper"].concat(), settings.concat())
            .mend("Put a mat round it", on_pieces(&pieces, &plan::MAT, To::yes(true))),
    ]
}

/// Spacers that keep glazing off a print: common practice, no source.
fn spacers(on: &Context<'_>) -> Length {
    on.in_system(Length::inches_ratio(1, 8), Length::mm(3))
}

fn put_spacers(on: &Context<'_>) -> String {
    ["Put spacers of ", &on.text(spacers(on)), " between them"].concat()
}

fn glazing_on_the_print(on: &Context<'_>) -> Vec<Case> {
    let touches = |framing: &Framing| framing.glazing != Glazing::None && framing.spacer == Length::ZERO;
    if without_mat(on).is_none_or(|(_, framing, _)| !touches(framing)) {
        return Vec::new();
    }
    let pieces = bare(on);
    vec![
        Case::of([])
            .mend(put_spacers(on), on_pieces(&pieces, &plan::SPACER, To::Length(spacers(on))))
            .mend("Put a mat round it", on_pieces(&pieces, &plan::MAT, To::yes(true)))
            .mend("Leave out the glazing", on_pieces(&pieces, &plan::GLAZING, To::one_of(&Glazing::None))),
    ]
}

/// What may be wrong with a rabbet.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Rabbet {
    Impossible,
    Full,
    Tight,
}

/// How thick a lip is at least (from memory).
const LEAST_LIP: Length = Length::inches_ratio(1, 8);

fn rabbet(on: &Context<'_>, kind: Rabbet) -> Vec<Case> {
    let room = on.limit(&ROOM_FOR_POINTS);
    let wrong: Vec<(usize, (&Frame, Length, Rabbet))> = on
        .framed()
        .filter_map(|(piece, framing, sizes)| {
            let (frame, spare) = (framing.frame.as_ref()?, sizes.frame.as_ref()?.spare_depth);
            let found = if frame.rabbet_depth >= frame.depth {
                Rabbet::Impossible
            } else if spare < Length::ZERO {
                Rabbet::Full
            } else if spare < room {
                Rabbet::Tight
            } else {
                return None;
            };
            Some((piece, (frame, spare, found)))
        })
        .collect();
    let Some(&(first, (frame, spare, _))) = wrong.iter().find(|entry| entry.1.2 == kind) else {
        return Vec::new();
    };
    let pieces: Vec<usize> = wrong.iter().filter(|entry| entry.1.2 == kind).map(|entry| entry.0).collect();
    let package = frame.rabbet_depth - spare;
    if kind == Rabbet::Impossible {
        let deep = frame.rabbet_depth + LEAST_LIP;
        let how = ["Choose a moulding ", &on.text(deep), " deep"].concat();
        return vec![
            Case::of([fine(frame.rabbet_depth), fine(frame.depth)])
                .mend(how, on_pieces(&pieces, &plan::FRAME_DEPTH, To::Length(deep))),
        ];
    }
    let case = if kind == Rabbet::Full {
        Case::of([fine(package), fine(frame.rabbet_depth), fine(-spare)])
    } else {
        Case::of([fine(package), fine(spare), fine(room)])
    };
    // The moulding on offer that is deep enough and nearest in its face.
    let fits = on.stock.mouldings.iter().filter(|row| {
        !row.is_floater && row.rabbet_depth >= package + room && row.rabbet_width >= frame.rabbet_width
    });
    let nearest = fits.min_by_key(|row| ((row.face - frame.face).abs(), row.rabbet_depth));
    let case = match nearest {
        Some(row) => {
            let how = ["Choose the moulding \"", &name_in(&row.name, on.plan.units.first), "\""].concat();
            case.mend(how, on_pieces(&pieces, &field::FRAME_PROFILE, To::key(&row.name)))
        }
        None => case,
    };
    let deep = on.to_mark(package + room, Mode::Up);
    let deeper = [
        on_pieces(&pieces, &plan::FRAME_DEPTH, To::Length(deep.max(frame.depth))),
        on_pieces(&pieces, &plan::FRAME_RABBET_DEPTH, To::Length(deep)),
    ];
    let case = case.mend(
        ["Choose a ", &in_units("rabbet", on.plan.units.first), " ", &on.text(deep), " deep"].concat(),
        deeper.concat(),
    );
    let backing = on.plan.pieces[first].finish.framing().and_then(|framing| framing.backing);
    let Some(board) = backing else { return vec![case] };
    // A thinner backing of the same material, the thickest that goes in.
    let left = board.thickness + spare - room;
    let thinner =
        on.stock.sheets.iter().filter(|row| row.material == board.material && row.thickness <= left);
    match thinner.map(|row| row.thickness).max() {
        Some(thickness) => {
            let told = Value::Length(thickness, Grade::Fine).shown(on.plan.units);
            let settings = on_pieces(&pieces, &plan::BACKING_THICKNESS, To::Length(thickness));
            vec![case.mend(["Choose a backing of ", &told].concat(), settings)]
        }
        None => vec![case],
    }
}

/// The borders of each mat, with the pieces that they are round: in one frame those round all openings.
fn mats(on: &Context<'_>) -> Vec<(usize, Sides)> {
    let borders = on.pieces().filter_map(|(piece, _, sizes)| Some((piece, sizes.mat.as_ref()?.borders)));
    if on.plan.shared.is_none() {
        return borders.collect();
    }
    let narrower = |(piece, one): (usize, Sides), (_, other): (usize, Sides)| {
        let sides = Sides {
            left: one.left.min(other.left),
            top: one.top.min(other.top),
            right: one.right.min(other.right),
            bottom: one.bottom.min(other.bottom),
        };
        (piece, sides)
    };
    borders.reduce(narrower).into_iter().collect()
}

fn thin_mat(on: &Context<'_>) -> Vec<Case> {
    let least = on.limit(&THIN_BORDER);
    let thin: Vec<(usize, Length)> = mats(on)
        .into_iter()
        .map(|(piece, sides)| (piece, narrowest(sides)))
        .filter(|(_, border)| *border < least)
        .collect();
    let Some(border) = thin.iter().map(|entry| entry.1).min() else { return Vec::new() };
    let pieces = numbers(&thin);
    let wanted = on.to_mark(least, Mode::Up);
    let wide = [
        on_pieces(&pieces, &plan::MAT_EXTENT, To::key(plan::BY_BORDER)),
        on_pieces(&pieces, &plan::MAT_BORDER, To::Length(wanted)),
    ];
    let even = [
        wide.concat(),
        on_pieces(&pieces, &plan::MAT_WEIGHTING, To::key(plan::BY_EXTRA)),
        on_pieces(&pieces, &plan::MAT_FOOT, To::Length(Length::ZERO)),
    ];
    let how = ["Make the mat ", &on.text(wanted), " wide"].concat();
    vec![
        Case::of([length(border), length(least)])
            .mend(how.clone(), wide.concat())
            .mend(how + " all round", even.concat())
            .mend("Leave out the mat", on_pieces(&pieces, &plan::MAT, To::yes(false))),
    ]
}

fn even_foot(pieces: &[usize], extra: Length) -> Vec<Edit> {
    [
        on_pieces(pieces, &plan::MAT_WEIGHTING, To::key(plan::BY_EXTRA)),
        on_pieces(pieces, &plan::MAT_FOOT, To::Length(extra)),
    ]
    .concat()
}

fn foot_narrower_than_head(on: &Context<'_>) -> Vec<Case> {
    let narrow: Vec<(usize, Sides)> =
        mats(on).into_iter().filter(|(_, sides)| sides.bottom < sides.top).collect();
    let Some(&(_, sides)) = narrow.first() else { return Vec::new() };
    let pieces = numbers(&narrow);
    let wider = on.in_system(Length::inches_ratio(1, 2), Length::mm(10));
    vec![
        Case::of([length(sides.top), length(sides.bottom)])
            .mend("Make top and bottom the same", even_foot(&pieces, Length::ZERO))
            .mend(["Make the bottom ", &on.text(wider), " wider"].concat(), even_foot(&pieces, wider)),
    ]
}

fn weighting_in_the_play(on: &Context<'_>) -> Vec<Case> {
    let lost: Vec<(usize, (Length, Length))> = mats(on)
        .into_iter()
        .filter_map(|(piece, sides)| {
            let (extra, play) = (sides.bottom - sides.top, frame(on, piece)?.allowance);
            (Length::from_units(2) < extra && extra <= play).then_some((piece, (extra, play)))
        })
        .collect();
    let Some(&(_, (extra, play))) = lost.first() else { return Vec::new() };
    let wanted = on.to_mark(play + Length::inches_ratio(1, 4), Mode::Up);
    let how = ["Make the bottom ", &on.text(wanted), " wider"].concat();
    vec![
        Case::of([fine(extra), fine(play)])
            .mend(how, even_foot(&numbers(&lost), wanted))
            .mend("Make top and bottom the same", even_foot(&numbers(&lost), Length::ZERO)),
    ]
}

fn weak_bar(on: &Context<'_>) -> Vec<Case> {
    let (Some(Shared { bar }), least) = (on.plan.shared, on.limit(&WEAK_BAR)) else { return Vec::new() };
    let first = on.plan.pieces.first().and_then(|piece| piece.finish.framing()?.mat.as_ref());
    let taken = first.map_or(Length::ZERO, |mat| mat.inner_reveal.unwrap_or_default() + mat.thickness) * 2;
    if bar - taken >= least {
        return Vec::new();
    }
    let wanted = on.to_mark(least + taken, Mode::Up);
    let how = ["Make the bar ", &on.text(wanted), " wide"].concat();
    vec![Case::of([length(bar - taken), length(least)]).mend(how, [set_length(&plan::SHARED_BAR, wanted)])]
}

/// Works that float behind glazing: nothing but a spacer keeps it off them.
fn floated(on: &Context<'_>, presses: bool) -> Vec<Case> {
    let floating = on.pieces().filter_map(|(piece, stated, _)| {
        let framing = stated.finish.framing()?;
        let mat = framing.mat.as_ref()?;
        let depth =
            if let Finish::Original(original) = &stated.finish { original.depth } else { Length::ZERO };
        let before = framing.spacer + mat.thickness * if mat.inner_reveal.is_some() { 2 } else { 1 };
        let floats = matches!(mat.opening, OpeningRule::Float(_)) && framing.glazing != Glazing::None;
        let found = floats && (before <= depth || framing.spacer == Length::ZERO);
        found.then_some((piece, (depth, before, framing.spacer)))
    });
    let wrong: Vec<(usize, (Length, Length, Length))> = floating.collect();
    let Some(&(_, (depth, before, spacer))) =
        wrong.first().filter(|entry| (entry.1.1 <= entry.1.0) == presses)
    else {
        return Vec::new();
    };
    let pieces = numbers(&wrong);
    if !presses {
        return vec![
            Case::of([]).mend(put_spacers(on), on_pieces(&pieces, &plan::SPACER, To::Length(spacers(on)))),
        ];
    }
    let deep = on.to_mark(spacer + depth - before + Length::inches_ratio(1, 8), Mode::Up);
    let how = ["Use spacers of ", &on.text(deep)].concat();
    vec![Case::of([fine(depth), fine(before)]).mend(how, on_pieces(&pieces, &plan::SPACER, To::Length(deep)))]
}

fn acrylic(on: &Context<'_>) -> Vec<Case> {
    let bowed: Vec<(usize, (Length, Length, Length))> = on
        .framed()
        .filter_map(|(piece, framing, sizes)| {
            let (Glazing::Acrylic(_), Some(frame)) = (framing.glazing, &framing.frame) else { return None };
            let nominal = sizes.frame.as_ref()?.nominal;
            let longest = nominal.width.max(nominal.height);
            let growth = acrylic_growth(longest, WARMING_KELVIN);
            (growth > frame.allowance).then_some((piece, (longest, growth, frame.allowance)))
        })
        .collect();
    let Some(&(_, (longest, growth, play))) = bowed.first() else { return Vec::new() };
    let pieces = numbers(&bowed);
    let most = bowed.iter().map(|entry| entry.1.1).max().unwrap_or(growth);
    let wanted = on.to_mark(most, Mode::Up);
    let kelvin = Value::Count(WARMING_KELVIN.into());
    vec![
        Case::of([length(longest), fine(growth), kelvin, fine(play)])
            .mend(
                ["Leave ", &on.text(wanted), " of allowance"].concat(),
                on_pieces(&pieces, &plan::FRAME_ALLOWANCE, To::Length(wanted)),
            )
            .mend("Use glass", on_pieces(&pieces, &plan::GLAZING, To::one_of(&Glazing::Glass(Length::ZERO)))),
    ]
}

/// Boards that are not meant to stand behind a work for long.
fn acid(on: &Context<'_>) -> Vec<Case> {
    use crate::plan::Material::{Hardboard, Mdf};
    let brown: Vec<(usize, &'static str)> = on
        .framed()
        .filter_map(|(piece, framing, _)| Some((piece, framing.mount?.material)))
        .filter(|(_, material)| matches!(material, Hardboard | Mdf))
        .map(|(piece, material)| (piece, material.name()))
        .collect();
    let Some(&(_, name)) = brown.first() else { return Vec::new() };
    let settings = on_pieces(&numbers(&brown), &plan::MOUNT, To::choice(Material::MatBoard));
    vec![Case::of([words(name)]).mend("Hinge it to mat board", settings)]
}

/// Floater frames that do not hold what stands in them.
fn floaters(on: &Context<'_>) -> Vec<Case> {
    let shallow: Vec<(usize, (Length, Length))> = on
        .pieces()
        .filter_map(|(piece, stated, sizes)| {
            let (floater, thickness) = (stated.finish.floater()?, sizes.stack.thickness());
            (floater.depth <= thickness).then_some((piece, (thickness, floater.depth)))
        })
        .collect();
    let Some(&(_, (thickness, depth))) = shallow.first() else { return Vec::new() };
    // 1/8 in before the work and 3/8 in of ledge behind it, as a floater starts.
    let settings: Vec<Edit> = shallow
        .iter()
        .map(|(piece, (thickness, _))| {
            let deep = on.to_mark(*thickness + Length::inches_ratio(1, 2), Mode::Up);
            Edit::length(Field::piece(&plan::FLOATER_DEPTH, *piece), deep)
        })
        .collect();
    vec![Case::of([fine(thickness), fine(depth)]).mend("Choose a deeper floater frame", settings).mend(
        "Hang it without a floater frame",
        on_pieces(&numbers(&shallow), &plan::CANVAS_FLOATER, To::yes(false)),
    )]
}
