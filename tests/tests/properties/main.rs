//! What holds of every plan, tried where it is most likely not to.

use overmantel::arrange::arrange;
use overmantel::desk::Desk;
use overmantel::field::{Field, Whose};
use overmantel::fields::{self, Kind};
use overmantel::figures::Figures;
use overmantel::framing::{build_up, build_up_shared};
use overmantel::geometry::{Rect, Sides, Size};
use overmantel::hang::hang;
use overmantel::length::Length;
use overmantel::plan::{
    Align, Arrangement, Extent, Finish, Fixing, Focus, Framing, Group, GroupAcross, Mat, OpeningRule, Paper,
    Piece, Plan, Shared, Strips, Surround, System, Weighting, file,
};
use overmantel::print::{Exact, fill, split};
use proptest::collection::vec;
use proptest::prelude::*;

mod any_plan;
mod links;
mod painter;
mod papers;
mod remedies;
mod untrusted;

use any_plan::{any_plan, fixing, focus, frame, mat, part, side_px, size, within};
use overmantel::plan::limits;
use overmantel_tests::given::exact;
use overmantel_tests::share::Share;

fn piece_of(image: Size, border: Length, framing: Framing) -> Piece {
    let paper = Paper { border: Surround::even(border), framing, ..Paper::starting() };
    Piece { picture: None, focus: Focus::MIDDLE, image, finish: Finish::Paper(paper) }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    /// The parts of a row (a column, of steps) sum to the group, without a unit lost.
    #[test]
    fn parts_sum_to_the_group(mut plan in any_plan(), outsides in vec(size(limits::PIECE), 1..=3)) {
        plan.shared = None;
        let arranged = arrange(&plan, &outsides);
        let group = arranged.group;
        let found: Vec<Size> = arranged.outsides.iter().map(|piece| piece.size).collect();
        prop_assert_eq!(&found, &outsides);
        let gaps = plan.group.gap * i64::try_from(outsides.len() - 1).unwrap_or_default();
        let widths = outsides.iter().map(|size| size.width).sum::<Length>();
        let heights = outsides.iter().map(|size| size.height).sum::<Length>();
        let pairs = arranged.outsides.windows(2);
        match plan.group.arrangement {
            Arrangement::Column => {
                prop_assert_eq!(group.size.height, heights + gaps);
                for pair in pairs {
                    prop_assert_eq!(pair[0].y - pair[1].top(), plan.group.gap);
                }
            }
            Arrangement::Row | Arrangement::Stepped(_) => {
                prop_assert_eq!(group.size.width, widths + gaps);
                for pair in pairs {
                    prop_assert_eq!(pair[1].x - pair[0].right(), plan.group.gap);
                }
            }
        }
        // The group is the smallest rectangle round its pieces.
        prop_assert_eq!(arranged.outsides.iter().copied().reduce(Rect::union), Some(group));
    }

    /// Left border + opening + right border = board, and so upright; each mat lies within the one above it.
    #[test]
    fn borders_and_opening_sum_to_the_board(
        image in size(limits::PIECE),
        border in part(),
        stated in mat(),
    ) {
        let piece = piece_of(image, border, Framing { mat: Some(stated.clone()), ..Framing::NONE });
        // Nearly a half of what is tried has no answer; that is checked elsewhere.
        static JUDGED: Share = Share::percent(20);
        let Ok(sizes) = build_up(&piece) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let Some(cut) = sizes.mat else { return Err(TestCaseError::fail("the mat is gone")) };
        let Sides { left, top, right, bottom } = cut.borders;
        prop_assert_eq!(left + cut.opening.size.width + right, cut.board.size.width);
        prop_assert_eq!(top + cut.opening.size.height + bottom, cut.board.size.height);
        prop_assert_eq!(cut.board.shrunk(cut.borders), cut.opening);
        match stated.surround.extent {
            Extent::Whole(board) => prop_assert_eq!(cut.board.size, board),
            Extent::Border(border) => prop_assert_eq!((left, top, right), (border, border, border)),
        }
        // The foot's weighting is exact but for what a unit has not: half of one, or one part in the head.
        let (odd, most) = match stated.surround.weighting {
            Weighting::Extra(extra) => (bottom - top - extra, 1),
            Weighting::Ratio { head, foot } => {
                (bottom * i64::from(head) - top * i64::from(foot), i64::from(head) + i64::from(foot))
            }
        };
        prop_assert!(odd.abs() <= Length::from_units(most), "{:?}", odd);
        let reveal = Sides::all(stated.inner_reveal.unwrap_or_default());
        prop_assert_eq!(cut.upper_opening.shrunk(reveal), cut.opening);
        prop_assert_eq!(cut.face_opening.shrunk(Sides::all(stated.thickness)), cut.upper_opening);
        // From the art to the opening and back.
        let sheet = sizes.sheet.size;
        let again = match stated.opening {
            OpeningRule::Overlap(by) => cut.opening.size.grown(by) == sheet,
            OpeningRule::Float(by) => cut.opening.size.grown(-by) == sheet,
            OpeningRule::Reveal(by) => cut.opening.size.grown(-by) == image,
        };
        prop_assert!(again, "{:?}", cut.opening);
    }

    /// A frame round anything: face, sight and rabbet fit into each other on every side.
    #[test]
    fn a_frame_closes_round_its_package(
        image in size(limits::PIECE),
        board in proptest::option::of(mat()),
        stated in frame(),
    ) {
        let unframed = Framing { mat: board, ..Framing::NONE };
        let bare = piece_of(image, Length::ZERO, unframed.clone());
        let framed = piece_of(image, Length::ZERO, Framing { frame: Some(stated.clone()), ..unframed });
        static JUDGED: Share = Share::percent(40);
        let (Ok(package), Ok(sizes)) = (build_up(&bare), build_up(&framed)) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let Some(frame) = sizes.frame else { return Err(TestCaseError::fail("the frame is gone")) };
        let whole = Rect::new(Length::ZERO, Length::ZERO, sizes.outside);
        prop_assert_eq!(whole.shrunk(Sides::all(stated.face)), frame.sight);
        prop_assert_eq!(frame.sight.grown(stated.rabbet_width), frame.rabbet);
        prop_assert_eq!(frame.nominal, package.outside);
        prop_assert_eq!(frame.rabbet.size.width, frame.nominal.width + stated.allowance);
        prop_assert_eq!(frame.moulding_exact, (sizes.outside.width + sizes.outside.height) * 2);
        // By the rule less exactly: 8R - 4A.
        let more = stated.rabbet_width * 8 - stated.allowance * 4;
        prop_assert_eq!(frame.moulding_by_rule - frame.moulding_exact, more);
        // The package is in the middle of the rabbet, to half a unit.
        let play = (sizes.image.x - package.image.x) * 2 - (whole.size.width - package.outside.width);
        prop_assert!(play.abs() <= Length::from_units(1), "{:?}", play);
        // What is seen is within the sight opening and within what could be seen without the frame.
        prop_assert_eq!(sizes.window.common(frame.sight), Some(sizes.window));
    }

    /// In one mat the openings, the bars between them and the borders round them sum to the board, without a unit lost; every
    /// opening lies in the board and over its own piece, and all pieces have one outside.
    #[test]
    fn openings_and_bars_sum_to_the_board(
        images in vec(size(limits::PIECE), 2..=3),
        stated in mat(),
        bar in part(),
        is_column in any::<bool>(),
        align in prop::sample::select(vec![Align::Centre, Align::Start, Align::End]),
        board in proptest::option::of(frame()),
    ) {
        let framing = Framing { mat: Some(stated.clone()), frame: board, ..Framing::NONE };
        let pieces: Vec<Piece> =
            images.iter().map(|&image| piece_of(image, Length::ZERO, framing.clone())).collect();
        let arrangement = if is_column { Arrangement::Column } else { Arrangement::Row };
        let group = Group { arrangement, align, ..Plan::starting().group };
        static JUDGED: Share = Share::percent(10);
        let Ok(built) = build_up_shared(&pieces, Shared { bar }, &group) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let cuts: Vec<_> = built.iter().filter_map(|sizes| sizes.mat.clone()).collect();
        prop_assert_eq!(cuts.len(), pieces.len());
        for (sizes, cut) in built.iter().zip(&cuts) {
            prop_assert_eq!((sizes.outside, cut.board), (built[0].outside, cuts[0].board));
            prop_assert_eq!(cut.board.shrunk(cut.borders), cut.opening);
            prop_assert_eq!(cut.opening.common(cut.board), Some(cut.opening));
            prop_assert_eq!(sizes.image.centre(), cut.opening.centre());
        }
        for pair in cuts.windows(2) {
            let between = if is_column {
                pair[0].opening.y - pair[1].opening.top()
            } else {
                pair[1].opening.x - pair[0].opening.right()
            };
            prop_assert_eq!(between, bar);
        }
        let along = |rect: Rect| if is_column { rect.size.height } else { rect.size.width };
        let (first, last) = (&cuts[0].borders, &cuts[cuts.len() - 1].borders);
        let ends = if is_column { first.top + last.bottom } else { first.left + last.right };
        let openings = cuts.iter().map(|cut| along(cut.opening)).sum::<Length>();
        let bars = bar * i64::try_from(cuts.len() - 1).unwrap_or_default();
        prop_assert_eq!(ends + openings + bars, along(cuts[0].board));
    }

    /// A crop lies within its picture, has the very ratio of its window, and reaches two opposite edges.
    #[test]
    fn a_crop_is_within_its_picture(
        px in (side_px(), side_px()),
        window in size(limits::PIECE),
        focus in focus(),
    ) {
        let cut = fill(px, window, focus);
        let zero = Exact::from_integer(0);
        let whole = (Exact::from_integer(px.0.into()), Exact::from_integer(px.1.into()));
        let source = cut.source;
        prop_assert!(source.left >= zero && source.left + source.width <= whole.0);
        prop_assert!(source.top >= zero && source.top + source.height <= whole.1);
        prop_assert_eq!(source.width * exact(window.height), source.height * exact(window.width));
        prop_assert!(source.width == whole.0 || source.height == whole.1);
        let lost = cut.lost(px);
        prop_assert!(lost >= zero && lost < Exact::from_integer(1));
    }

    /// With hidden strips all windows look through to one picture: what is between two windows on the wall is between their
    /// parts of the picture too, at the same density. Kept, each goes on exactly where the one before ends.
    #[test]
    fn panels_continue_each_other(
        px in (side_px(), side_px()),
        outsides in vec(size(limits::PIECE), 1..=3),
        gap in part(),
        focus in focus(),
        stacked: bool,
        even: bool,
    ) {
        let starting = Plan::starting();
        let arrangement = if stacked { Arrangement::Column } else { Arrangement::Row };
        let group = Group { arrangement, gap, ..starting.group };
        let outsides = if even { vec![outsides[0]; outsides.len()] } else { outsides };
        let windows = arrange(&Plan { group, ..starting }, &outsides).outsides;
        let whole = (Exact::from_integer(px.0.into()), Exact::from_integer(px.1.into()));
        let per_unit = |density: Exact| density / i128::from(overmantel::length::UNITS_PER_INCH);
        let hidden = split(px, &windows, Strips::Hidden, stacked, focus);
        for (index, cut) in hidden.iter().enumerate() {
            let (source, window, scale) = (cut.source, windows[index], per_unit(cut.pixels_per_inch));
            prop_assert_eq!(source.width, exact(window.size.width) * scale);
            prop_assert_eq!(source.left - hidden[0].source.left, exact(window.x - windows[0].x) * scale);
            prop_assert_eq!(source.top - hidden[0].source.top, exact(windows[0].top() - window.top()) * scale);
            prop_assert!(source.left >= Exact::from_integer(0) && source.left + source.width <= whole.0);
            prop_assert!(source.top >= Exact::from_integer(0) && source.top + source.height <= whole.1);
        }
        for pair in split(px, &windows, Strips::Kept, stacked, focus).windows(2) {
            let (one, next) = (pair[0].source, pair[1].source);
            if stacked {
                prop_assert_eq!(one.top + one.height, next.top);
            } else {
                prop_assert_eq!(one.left + one.width, next.left);
            }
        }
    }

    /// Hooks are within the outside of their piece, and as far from one side as from the other, when rings are on the piece and the
    /// wire does not rise above it.
    #[test]
    fn hooks_lie_within_the_piece(
        outside in size(limits::PIECE),
        at in (within(-limits::ROOM, limits::ROOM), within(-limits::ROOM, limits::ROOM)),
        fixing in fixing(),
    ) {
        let outside = Rect::new(at.0, at.1, outside);
        static JUDGED: Share = Share::percent(50);
        let Ok(hanging) = hang(outside, fixing) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let (Fixing::Rings { down, .. } | Fixing::Wire { down, .. }) = fixing;
        prop_assert_eq!(hanging.drop, down - hanging.wire.map_or(Length::ZERO, |wire| wire.rise));
        if hanging.drop >= Length::ZERO && hanging.drop <= outside.size.height {
            for &hook in &hanging.hooks {
                prop_assert!(outside.contains(hook), "{:?} in {:?}", hook, outside);
            }
        }
        if let [left, right] = hanging.hooks[..] {
            let odd = (left.x - outside.x) - (outside.right() - right.x);
            prop_assert!(odd.abs() <= Length::from_units(1), "{:?}", odd);
        }
        if let Some(wire) = hanging.wire {
            // Pythagoras, backwards: the legs are as long as the wire that is left for them, to the rounding of the rise.
            let apart = match fixing {
                Fixing::Wire { hooks_apart, .. } => hooks_apart.unwrap_or_default(),
                Fixing::Rings { .. } => Length::ZERO,
            };
            let square = |length: Length| i128::from(length.units()).pow(2);
            let legs = square(wire.length - apart) - square(hanging.span - apart);
            let off = (legs - 4 * square(wire.rise)).abs();
            prop_assert!(off <= 4 * i128::from(wire.rise.units()) + 4, "{off}");
        }
    }
}

/// The plan as it looks in a mirror: every length from the left is from the right, the last piece is the first.
fn mirrored(plan: &Plan) -> Plan {
    use overmantel::plan::Across;
    let mut plan = plan.clone();
    for fixture in &mut plan.fixtures {
        fixture.across = match fixture.across {
            Across::Middle => Across::Middle,
            Across::FromLeft(x) => Across::FromRight(x),
            Across::FromRight(x) => Across::FromLeft(x),
        };
    }
    if let GroupAcross::CentreAt(x) = plan.group.across {
        plan.group.across = GroupAcross::CentreAt(plan.wall.size.width - x);
    }
    match plan.group.arrangement {
        Arrangement::Row => {
            plan.pieces.reverse();
            if plan.shared.is_some() {
                frame_stays_first(&mut plan.pieces);
            }
        }
        Arrangement::Stepped(rise) => {
            plan.pieces.reverse();
            plan.group.arrangement = Arrangement::Stepped(-rise);
        }
        Arrangement::Column => {
            plan.group.align = match plan.group.align {
                Align::Centre => Align::Centre,
                Align::Start => Align::End,
                Align::End => Align::Start,
            };
        }
    }
    plan
}

/// A shared frame is that of the first piece, and each opening follows from its own piece: the frame of what was first before
/// goes to what is first now.
fn frame_stays_first(reversed: &mut [Piece]) {
    let Some(shared) = reversed.last().and_then(|piece| piece.finish.framing()).cloned() else { return };
    let Some(own) = reversed.first_mut().and_then(|piece| piece.finish.framing_mut()) else { return };
    let opening = own.mat.as_ref().map(|mat| mat.opening);
    let mat = shared.mat.zip(opening).map(|(mat, opening)| Mat { opening, ..mat });
    *own = Framing { mat, ..shared };
}

/// Every length of the plan on a multiple of four units, so that all halves and quarters are whole.
fn in_fours(plan: &Plan) -> Option<Plan> {
    let text = file::write(plan);
    let mut value: serde_json::Value = serde_json::from_str(&text).ok()?;
    to_fours(&mut value);
    file::read(&value.to_string()).ok()
}

fn to_fours(value: &mut serde_json::Value) {
    use overmantel::length::{Unit, parse::parse, print};
    match value {
        serde_json::Value::Array(items) => items.iter_mut().for_each(to_fours),
        serde_json::Value::Object(fields) => {
            for (key, value) in fields {
                if !["title", "name", "picture", "fixture", "fixture_middle", "file"].contains(&key.as_str())
                {
                    to_fours(value);
                }
            }
        }
        serde_json::Value::String(text) => {
            if let Ok(length) = parse(text, Unit::Metre)
                && text.ends_with(|letter: char| letter.is_ascii_alphabetic())
            {
                let fours = length.units() / 4 * 4;
                // What is more than nothing stays so.
                *text = print::exact(Length::from_units(if length > Length::ZERO {
                    fours.max(4)
                } else {
                    fours
                }));
            }
        }
        _ => {}
    }
}

/// Every field that a plan might have, of each of its pieces, fixtures and pictures; the description knows them all.
fn every_field(plan: &Plan) -> Vec<Field> {
    let mut found = Vec::new();
    for Field { row, of } in Field::all() {
        match of {
            Whose::Piece(_) => {
                found.push(Field::pieces(row));
                found.extend((0..plan.pieces.len()).map(|piece| Field::piece(row, piece)));
            }
            Whose::Fixture(_) => found.extend((0..plan.fixtures.len()).map(|at| Field::fixture(row, at))),
            Whose::Picture(_) => found.extend((0..plan.pictures.len()).map(|at| Field::picture(row, at))),
            Whose::Plan | Whose::Pieces => found.push(Field { row, of }),
        }
    }
    found
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn what_is_written_is_read(plan in any_plan()) {
        let text = file::write(&plan);
        let read = file::read(&text);
        prop_assert_eq!(read.as_ref(), Ok(&plan));
        prop_assert_eq!(file::write(&plan), text);
    }

    /// Mirrored, everything is where the mirror shows it: outsides, fixtures, hooks.
    #[test]
    fn a_mirrored_plan_is_the_mirror_image(mut plan in any_plan()) {
        // In one frame the first piece's mat and frame count for all, and the first is another in the mirror.
        plan.shared = None;
        // No half of a unit has to go to one side.
        static JUDGED: Share = Share::percent(20);
        let Some(plan) = in_fours(&plan) else {
            JUDGED.left_out();
            return Ok(());
        };
        let other = mirrored(&plan);
        // A place near the limits of a plan may lie beyond them in the mirror.
        if other.check().is_err() {
            JUDGED.left_out();
            return Ok(());
        }
        let (figures, mirror) = (Figures::of(&plan), Figures::of(&other));
        prop_assert_eq!(figures.is_ok(), mirror.is_ok());
        let (Ok(figures), Ok(mirror)) = (figures, mirror) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let wall = plan.wall.size.width;
        let turned = |rect: &Rect| Rect::new(wall - rect.right(), rect.y, rect.size);
        let mut outsides: Vec<Rect> = figures.arranged.outsides.iter().map(turned).collect();
        let mut hooks: Vec<Vec<_>> = figures
            .hanging
            .iter()
            .map(|hanging| hanging.hooks.iter().rev().map(|hook| (wall - hook.x, hook.y)).collect())
            .collect();
        if plan.group.arrangement != Arrangement::Column {
            outsides.reverse();
            hooks.reverse();
        }
        prop_assert_eq!(&mirror.arranged.outsides, &outsides);
        let fixtures: Vec<Rect> = figures.arranged.fixtures.iter().map(turned).collect();
        prop_assert_eq!(&mirror.arranged.fixtures, &fixtures);
        let found: Vec<Vec<_>> = mirror
            .hanging
            .iter()
            .map(|hanging| hanging.hooks.iter().map(|hook| (hook.x, hook.y)).collect())
            .collect();
        prop_assert_eq!(found, hooks);
    }

    /// A plan in inches, shown in centimetres and back, is the same plan; so is one whose fields are written as they are shown.
    #[test]
    fn units_change_nothing(plan in any_plan()) {
        static JUDGED: Share = Share::percent(25);
        static NAMED: Share = Share::percent(15);
        let Ok(mut desk) = Desk::new(plan.clone()) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let figures = desk.figures().clone();
        let other = match plan.units.first {
            System::Inches => System::Centimetres,
            System::Centimetres => System::Inches,
        };
        desk.show_units(other, !plan.units.both);
        prop_assert_eq!(desk.figures(), &figures);
        desk.show_units(plan.units.first, plan.units.both);
        prop_assert_eq!(desk.plan(), &plan);
        for field in every_field(&plan) {
            let Some(value) = fields::read(&plan, desk.stock(), field) else {
                NAMED.left_out();
                continue;
            };
            let named = match value.kind {
                Kind::Length | Kind::Size => !value.rounded,
                // A choice may also say that there is nothing yet.
                Kind::Choice => value.key.is_some(),
                Kind::Colour | Kind::Number | Kind::Ratio => true,
                // A name with blanks at its ends is taken without them.
                Kind::Name => value.text.trim() == value.text,
            };
            if named {
                NAMED.judged();
                let text = value.key.as_ref().filter(|_| value.kind == Kind::Choice).unwrap_or(&value.text);
                let written = fields::write(&plan, desk.stock(), field, text);
                prop_assert_eq!(written.as_ref(), Ok(&plan), "{}: {:?}", field, value.text);
            } else {
                NAMED.left_out();
            }
        }
    }

    /// Any changes, undone one by one, give the plans there were before; done again, those after.
    #[test]
    fn undone_and_done_again(
        start in any_plan(),
        changes in vec((any::<prop::sample::Index>(), 0..8_usize, any::<prop::sample::Index>()), 0..12),
    ) {
        static JUDGED: Share = Share::percent(30);
        let Ok(mut desk) = Desk::new(start) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        let mut plans = vec![desk.plan().clone()];
        for (which, text, option) in changes {
            let fields_of_it = every_field(desk.plan());
            let field = *which.get(&fields_of_it);
            let options = fields::read(desk.plan(), desk.stock(), field).map(|value| value.options).unwrap_or_default();
            let texts = ["20", "1 1/2 in", "40 cm", "0", "-3", "16 × 20 in", "#102030", "no length"];
            let text = if options.is_empty() { texts[text].to_owned() } else { option.get(&options).key.clone() };
            let before = desk.plan().clone();
            match desk.set(field, &text) {
                Ok(()) if *desk.plan() != before => plans.push(desk.plan().clone()),
                Ok(()) => {}
                Err(_) => prop_assert_eq!(desk.plan(), &before, "a refused change changes nothing"),
            }
        }
        for plan in plans.iter().rev().skip(1) {
            prop_assert!(desk.undo());
            prop_assert_eq!(desk.plan(), plan);
            let figures = Figures::of(plan);
            prop_assert_eq!(Ok(desk.figures()), figures.as_ref());
        }
        prop_assert!(!desk.undo());
        for plan in plans.iter().skip(1) {
            prop_assert!(desk.redo());
            prop_assert_eq!(desk.plan(), plan);
        }
        prop_assert!(!desk.redo());
        prop_assert_eq!(Some(desk.plan()), plans.last());
    }
}
