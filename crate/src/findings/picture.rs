//! What is unwise about what is shown of the pictures, and how finely.

use super::context::{Context, image, length, on_pieces, set, set_length, words};
use super::{About, Authority, Case, Row, Severity, Value};
use crate::colour::Colour;
use crate::field::{self, Edit, Field, To};
use crate::framing::inverse::Bars;
use crate::framing::{BuildUp, safe_margin};
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::measure::Grade;
use crate::plan::{self, Canvas, Edge, Finish, Focus, OpeningRule, Picture, Signature, Strips};
use crate::print::sharpness::{ACUITY, merging_distance_for, needed_ppi};
use crate::print::{Cut, Exact};
use crate::rounding::{Mode, divide};
use crate::stock::thresholds::*;

pub(super) const ROWS: &[Row] = &[
    Row {
        code: "few-pixels",
        about: About::Picture,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "{ppi} ppi will look soft to anyone who walks up to it; a print needs at least {good} ppi, so choose a smaller size or a larger file.",
        find: |on| few_pixels(on, true),
    },
    Row {
        code: "soft-print",
        about: About::Picture,
        severity: Severity::Taste,
        authority: Authority::Practice,
        words: "{ppi} ppi looks {soft} from close up; {good} ppi or more is better.",
        find: |on| few_pixels(on, false),
    },
    Row {
        code: "coarse-from-there",
        about: About::Picture,
        severity: Severity::Disappoints,
        authority: Authority::Standard("ISO 8596, as quoted: an eye of grade 1.0 resolves one arc minute"),
        words: "From {distance} the eye can see {needed} ppi, and the print has {ppi}: you would see the pixels.",
        find: coarse_from_there,
    },
    Row {
        code: "crop-loses-much",
        about: About::Picture,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "{share} of “{picture}” is cropped; cropping more than {most} changes the picture.",
        find: crop_loses_much,
    },
    Row {
        code: "cuts-what-matters",
        about: About::Picture,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "What matters in “{picture}” is cropped, or closer to an edge than {share} of the visible picture.",
        find: cuts_what_matters,
    },
    Row {
        code: "mirrors-what-matters",
        about: About::Picture,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "What matters in “{picture}” is {by} from the edge of a canvas {depth} deep: the mirrored wrap would show it twice.",
        find: mirrors_what_matters,
    },
    Row {
        code: "wrap-takes-much",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Practice,
        words: "The edges take {share} of the picture; when they take more than {most}, the face misses it.",
        find: wrap_takes_much,
    },
    Row {
        code: "signature-covered",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "{seen} of white paper shows below the image, and the signature needs {room}: it would be covered.",
        find: signature_covered,
    },
    Row {
        code: "signature-at-the-edge",
        about: About::Made,
        severity: Severity::Disappoints,
        authority: Authority::Sizes,
        words: "The signature is {by} from the edge of the print, and {hidden} of that edge is hidden or wrapped round: it would be lost.",
        find: signature_at_the_edge,
    },
];

/// The pieces that are printed, with what they show.
fn printed<'a>(on: &'a Context<'_>) -> impl Iterator<Item = (usize, &'a Cut)> {
    let cuts = on.figures.cuts.iter().enumerate();
    cuts.filter(|(piece, _)| !on.plan.pieces[*piece].finish.is_original())
        .filter_map(|(piece, cut)| Some((piece, cut.as_ref()?)))
}

fn worst(on: &Context<'_>) -> Option<Exact> {
    printed(on).map(|(_, cut)| cut.pixels_per_inch).min()
}

/// Prints so small that they have this many pixels per inch.
fn finer(on: &Context<'_>, case: Case, wanted: Exact) -> Case {
    let mut settings = Vec::new();
    let mut told = None;
    for (piece, cut) in printed(on).filter(|(_, cut)| cut.pixels_per_inch < wanted) {
        // What is printed beside the image, edges or gaps, stays as it is.
        let ratio = cut.pixels_per_inch / wanted;
        let sizes = &on.figures.build_ups[piece];
        let whole = match on.plan.split {
            Some(_) => on.figures.arranged.group.size,
            None => sizes.picture.size,
        };
        let stated = on.plan.pieces[piece].image;
        let count = match on.plan.split {
            Some(_) => i64::try_from(on.plan.pieces.len()).unwrap_or(1),
            None => 1,
        };
        let less = whole.width - on.of(whole.width, ratio);
        let width = stated.width - less.times_ratio(1, count);
        if width <= Length::ZERO {
            return case;
        }
        let by = super::context::over(width, stated.width);
        let size = on.size_of(stated, by);
        told = told.or(Some(size));
        settings.push(image(piece, size));
    }
    let Some(size) = told else { return case };
    case.mend(["Print it no larger than ", &on.size_text(size)].concat(), settings)
}

/// The pixels per inch that a print is short of: of what its kind wants and of what is seen from there, the more, so that
/// nobody is told two sizes.
fn wanted(on: &Context<'_>, ppi: Exact) -> Exact {
    let limits = [on.number(&SOFT_PPI), needed_ppi(on.plan.viewing.distance, ACUITY)];
    limits.into_iter().filter(|limit| ppi < *limit).max().unwrap_or(ppi)
}

fn few_pixels(on: &Context<'_>, is_coarse: bool) -> Vec<Case> {
    let (coarse, soft) = (on.number(&COARSE_PPI), on.number(&SOFT_PPI));
    let Some(ppi) = worst(on).filter(|ppi| *ppi < soft && (*ppi < coarse) == is_coarse) else {
        return Vec::new();
    };
    let [ppi_told, good] = [ppi, soft].map(|value| Value::Count(value.to_integer()));
    let is_on = |is: fn(&Finish) -> bool| on.plan.pieces.iter().any(|piece| is(&piece.finish));
    let how = match (
        is_on(|finish| matches!(finish, Finish::Canvas(_))),
        is_on(|finish| matches!(finish, Finish::Aluminium(_))),
    ) {
        (true, _) => "a little soft on canvas",
        (_, true) => "soft on aluminium",
        _ => "soft on paper, less so on canvas,",
    };
    let case = if is_coarse { Case::of([ppi_told, good]) } else { Case::of([ppi_told, words(how), good]) };
    vec![finer(on, case, wanted(on, ppi))]
}

fn coarse_from_there(on: &Context<'_>) -> Vec<Case> {
    let distance = on.plan.viewing.distance;
    let needed = needed_ppi(distance, ACUITY);
    let Some(ppi) = worst(on).filter(|ppi| *ppi < needed) else { return Vec::new() };
    let whole = |value: Exact, mode| Value::Count(divide(*value.numer(), *value.denom(), mode));
    let from = Value::Length(distance, Grade::Room);
    let case = finer(on, Case::of([from, whole(needed, Mode::Up), whole(ppi, Mode::Down)]), wanted(on, ppi));
    let far = on.to_mark(merging_distance_for(ppi, ACUITY), Mode::Up);
    vec![case.mend(["Look at it from ", &on.text(far)].concat(), [set_length(&plan::VIEWING_DISTANCE, far)])]
}

fn crop_loses_much(on: &Context<'_>) -> Vec<Case> {
    if on.plan.split.is_some() {
        return Vec::new();
    }
    let most = on.number(&CROP_LOSS);
    let lost = on.plan.pictures.iter().enumerate().filter_map(|(index, picture)| {
        let px = (picture.width_px, picture.height_px);
        let losses: Vec<(usize, Exact)> = on
            .pieces()
            .filter(|(_, stated, _)| stated.picture == Some(index))
            .filter_map(|(piece, _, _)| Some((piece, on.figures.cuts[piece]?.lost(px))))
            .filter(|(_, share)| *share > most)
            .collect();
        let share = losses.iter().map(|entry| entry.1).max()?;
        let (wide, high) = (i128::from(picture.width_px), i128::from(picture.height_px));
        let shape = Exact::new(wide, high);
        let inside = |Size { width, height }: Size| {
            if i128::from(width.units()) * high > i128::from(height.units()) * wide {
                Size::new(on.of(height, shape), height)
            } else {
                Size::new(width, on.of(width, shape.recip()))
            }
        };
        let settings: Vec<Edit> =
            losses.iter().map(|(piece, _)| image(*piece, inside(on.plan.pieces[*piece].image))).collect();
        let first = inside(on.plan.pieces[losses[0].0].image);
        let how = ["Show all of it on ", &on.size_text(first)].concat();
        let case = Case::of([Value::Percent(share), words(picture.name.as_str()), Value::Percent(most)]);
        Some(case.on(&picture.name).mend(how, settings))
    });
    lost.collect()
}

/// Where on a piece, in its own frame of reference, a point of its picture lies.
fn point(cut: &Cut, sizes: &BuildUp, picture: &Picture, focus: Focus) -> (Length, Length) {
    let px = |side: u32, permille: u16| Exact::new(i128::from(side) * i128::from(permille), 1000);
    let along = |share: Exact, whole: Length| {
        Length::from_ratio(i128::from(whole.units()) * share.numer(), *share.denom(), Mode::HalfAway)
    };
    let area = sizes.picture;
    let x = (px(picture.width_px, focus.x_permille) - cut.source.left) / cut.source.width;
    let y = (px(picture.height_px, focus.y_permille) - cut.source.top) / cut.source.height;
    (area.x + along(x, area.size.width), area.top() - along(y, area.size.height))
}

/// How far within a rectangle a point is; less than nothing outside of it.
fn within(rect: Rect, (x, y): (Length, Length)) -> Length {
    (x - rect.x).min(rect.right() - x).min(y - rect.y).min(rect.top() - y)
}

/// The pieces that show a picture in which something matters, with where that is.
fn with_subject(on: &Context<'_>) -> impl Iterator<Item = (usize, usize, (Length, Length))> {
    on.pieces().filter_map(|(piece, stated, sizes)| {
        let index = on.plan.split.map(|split| split.picture).or(stated.picture)?;
        let picture = on.plan.pictures.get(index)?;
        let cut = on.figures.cuts[piece]?;
        Some((piece, index, point(&cut, sizes, picture, picture.subject?)))
    })
}

fn cuts_what_matters(on: &Context<'_>) -> Vec<Case> {
    let near = on.number(&NEAR_SUBJECT);
    let mut wrong: Vec<usize> = Vec::new();
    let mut right: Vec<usize> = Vec::new();
    for (piece, picture, point) in with_subject(on) {
        let sizes = &on.figures.build_ups[piece];
        let Some(seen) = sizes.window.common(sizes.picture) else { continue };
        let Some(cut) = on.figures.cuts[piece] else { continue };
        let side = seen.size.width.min(seen.size.height);
        let room = Length::from_ratio(i128::from(side.units()) * near.numer(), *near.denom(), Mode::HalfAway);
        // Where the picture itself ends nothing is cut.
        let file = &on.plan.pictures[picture];
        let ends = |seen_edge: Length, edge: Length, at_end: bool| at_end && seen_edge == edge;
        let far = Length::from_units(i64::MAX / 4);
        let open = |is_end: bool, length: Length| if is_end { length - far } else { length };
        let past = |is_end: bool, length: Length| if is_end { length + far } else { length };
        let source = cut.source;
        let [left, top] = [source.left, source.top].map(|edge| edge == Exact::from_integer(0));
        let right_end = source.left + source.width == Exact::from_integer(file.width_px.into());
        let foot_end = source.top + source.height == Exact::from_integer(file.height_px.into());
        let x = open(ends(seen.x, sizes.picture.x, left), seen.x);
        let y = open(ends(seen.y, sizes.picture.y, foot_end), seen.y);
        let to_x = past(ends(seen.right(), sizes.picture.right(), right_end), seen.right());
        let to_y = past(ends(seen.top(), sizes.picture.top(), top), seen.top());
        let is_kept = within(Rect::new(x, y, Size::new(to_x - x, to_y - y)), point) >= room
            && within(seen, point) >= Length::ZERO;
        if is_kept {
            right.push(picture)
        } else if !wrong.contains(&picture) {
            wrong.push(picture)
        }
    }
    // Of one picture over several panels one has to show it.
    wrong.retain(|picture| on.plan.split.is_none() || !right.contains(picture));
    let told = wrong.into_iter().map(|picture| {
        let name = on.plan.pictures[picture].name.as_str();
        let mut case = Case::of([words(name), Value::Percent(near)]).on(name);
        let showing: Vec<usize> = on
            .pieces()
            .filter(|(_, stated, _)| stated.picture == Some(picture))
            .map(|(piece, _, _)| piece)
            .collect();
        for (how, keeps) in [
            ("Keep the left of it", (0, 500)),
            ("Keep the right of it", (1000, 500)),
            ("Keep the top of it", (500, 0)),
            ("Keep the bottom of it", (500, 1000)),
            ("Keep the middle of it", (500, 500)),
        ] {
            let keeps = To::focus(Focus { x_permille: keeps.0, y_permille: keeps.1 });
            case = match on.plan.split {
                Some(_) => case.mend(how, [set(&plan::SPLIT_FOCUS, keeps)]),
                None => case.mend(how, on_pieces(&showing, &plan::PIECE_FOCUS, keeps)),
            };
        }
        if on.plan.split.is_some() {
            case = case
                .mend("Keep the strips behind the gaps", [set(&plan::SPLIT_STRIPS, To::choice(Strips::Kept))])
                .mend("Choose three panels", [set(&field::PIECES_COUNT, To::key("3"))])
                .mend("Choose two panels", [set(&field::PIECES_COUNT, To::key("2"))]);
        }
        case
    });
    told.collect()
}

fn canvas<'a>(on: &Context<'a>, piece: usize) -> Option<&'a Canvas> {
    match &on.plan.pieces.get(piece)?.finish {
        Finish::Canvas(canvas) => Some(canvas),
        _ => None,
    }
}

/// Solid edges.
fn plain() -> To {
    To::one_of(&Edge::Plain(Colour::default()))
}

/// Edges that repeat the face.
fn mirrored() -> To {
    To::one_of(&Edge::Mirrored)
}

fn mirrors_what_matters(on: &Context<'_>) -> Vec<Case> {
    let fold = on.limit(&FOLD_MARGIN);
    let doubled = with_subject(on).filter_map(|(piece, picture, point)| {
        let stated = canvas(on, piece).filter(|canvas| canvas.edge == Edge::Mirrored)?;
        let by = within(on.figures.build_ups[piece].image, point);
        (Length::ZERO <= by && by <= stated.depth + fold).then(|| {
            let name = on.plan.pictures[picture].name.as_str();
            Case::of([words(name), length(by), length(stated.depth)])
                .on(&["piece ", &(piece + 1).to_string()].concat())
                .mend("Give it a solid edge", on_pieces(&[piece], &plan::CANVAS_EDGE, plain()))
        })
    });
    doubled.collect()
}

fn wrap_takes_much(on: &Context<'_>) -> Vec<Case> {
    let most = on.number(&WRAP_SHARE);
    let wrapped: Vec<(usize, Exact)> = (0..on.plan.pieces.len())
        .filter_map(|piece| {
            let stated = canvas(on, piece).filter(|canvas| canvas.edge == Edge::Carried)?;
            let bars = Bars { depth: stated.depth, fold: stated.fold };
            let share = bars.share_carried_round(on.plan.pieces[piece].image);
            (share > most).then_some((piece, share))
        })
        .collect();
    let Some(&(_, share)) = wrapped.first() else { return Vec::new() };
    let pieces: Vec<usize> = wrapped.iter().map(|entry| entry.0).collect();
    let mut case = Case::of([Value::Percent(share), Value::Percent(most)])
        .mend("Choose a mirrored wrap", on_pieces(&pieces, &plan::CANVAS_EDGE, mirrored()))
        .mend("Give it a solid edge", on_pieces(&pieces, &plan::CANVAS_EDGE, plain()));
    let depth = canvas(on, pieces[0]).map_or(Length::ZERO, |canvas| canvas.depth);
    if let Some(thinner) = on.stock.bars.iter().map(|bar| bar.depth).filter(|bar| *bar < depth).max() {
        let how = ["Choose bars ", &on.text(thinner), " deep"].concat();
        case = case.mend(how, on_pieces(&pieces, &plan::CANVAS_DEPTH, To::Length(thinner)));
    }
    vec![case]
}

fn signature_covered(on: &Context<'_>) -> Vec<Case> {
    let Signature::Below(room) = on.plan.site.signature else { return Vec::new() };
    let covered: Vec<(usize, Length)> = on
        .pieces()
        .filter(|(_, stated, _)| matches!(stated.finish, Finish::Paper(_)))
        .filter_map(|(piece, _, sizes)| {
            let seen = (sizes.image.y - sizes.window.y.max(sizes.sheet.y)).max(Length::ZERO);
            (seen < room).then_some((piece, seen))
        })
        .collect();
    let Some(&(_, seen)) = covered.first() else { return Vec::new() };
    let mut settings = Vec::new();
    for &(piece, _) in &covered {
        let sizes = &on.figures.build_ups[piece];
        let hides = match (&sizes.mat, &sizes.frame) {
            (Some(_), _) => on.to_mark(on.limit(&LEAST_OVERLAP), Mode::Up),
            (None, Some(frame)) => on.to_mark(frame.lip_hides, Mode::Up),
            _ => Length::ZERO,
        };
        settings.push(Edit::new(Field::piece(&plan::PAPER_EXTENT, piece), To::key(plan::BY_BORDER)));
        let border = on.to_mark(room + hides, Mode::Up);
        settings.push(Edit::length(Field::piece(&plan::PAPER_BORDER, piece), border));
        if sizes.mat.is_some() {
            let rim = To::one_of(&OpeningRule::Reveal(Length::ZERO));
            settings.push(Edit::new(Field::piece(&plan::MAT_OPENING, piece), rim));
            settings.push(Edit::length(Field::piece(&plan::MAT_BY, piece), room));
        }
    }
    let how = ["Show ", &on.text(room), " of white paper"].concat();
    vec![Case::of([length(seen), length(room)]).mend(how, settings)]
}

fn signature_at_the_edge(on: &Context<'_>) -> Vec<Case> {
    let Signature::Within(by) = on.plan.site.signature else { return Vec::new() };
    let lost: Vec<(usize, Length)> = on
        .pieces()
        .filter_map(|(piece, stated, sizes)| {
            let Rect { x, y, .. } = sizes.window;
            let image = sizes.image;
            let hidden = match &stated.finish {
                Finish::Canvas(canvas) => safe_margin(canvas),
                _ => (x - image.x)
                    .max(y - image.y)
                    .max(image.right() - sizes.window.right())
                    .max(image.top() - sizes.window.top()),
            };
            (hidden > Length::ZERO && by <= hidden).then_some((piece, hidden))
        })
        .collect();
    let Some(&(_, hidden)) = lost.first() else { return Vec::new() };
    let pieces: Vec<usize> = lost.iter().map(|entry| entry.0).collect();
    let white = |border: Length| {
        let extent = on_pieces(&pieces, &plan::PAPER_EXTENT, To::key(plan::BY_BORDER));
        [extent, on_pieces(&pieces, &plan::PAPER_BORDER, To::Length(border))].concat()
    };
    let rim = on_pieces(&pieces, &plan::MAT_OPENING, To::one_of(&OpeningRule::Reveal(Length::ZERO)));
    vec![
        Case::of([length(by), length(hidden)])
            .mend("Choose a mirrored wrap", on_pieces(&pieces, &plan::CANVAS_EDGE, mirrored()))
            .mend("Give it a solid edge", on_pieces(&pieces, &plan::CANVAS_EDGE, plain()))
            .mend("Show white paper round it", [white(Length::inches(1)), rim].concat())
            .mend("Leave white paper under the lip", white(Length::inches_ratio(1, 2))),
    ]
}
