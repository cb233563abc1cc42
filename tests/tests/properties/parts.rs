//! Parts and wholes: borders, frames, openings, crops, panels and hooks sum to what they are parts of, and lie within it.

use super::any_plan::{any_plan, fixing, focus, frame, mat, part, side_px, size, within};
use overmantel::arrange::arrange;
use overmantel::framing::{build_up, build_up_shared};
use overmantel::geometry::{Rect, Sides, Size};
use overmantel::hang::{HangerPlaces, hang};
use overmantel::length::Length;
use overmantel::plan::{
    Align, Arrangement, Extent, Finish, Focus, Framing, Group, OpeningRule, Paper, Piece, Plan, Shared,
    Strips, Surround, Weighting, limits,
};
use overmantel::print::{Exact, fill, split};
use overmantel_tests::given::exact;
use overmantel_tests::share::Share;
use proptest::collection::vec;
use proptest::prelude::*;

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
            Arrangement::StackRight | Arrangement::StackLeft => {
                let [first, others @ ..] = &arranged.outsides[..] else { panic!("a piece") };
                for other in others {
                    let right = other.x - first.right();
                    let left = first.x - other.right();
                    let is_right = plan.group.arrangement == Arrangement::StackRight;
                    prop_assert_eq!(if is_right { right } else { left }, plan.group.gap);
                }
                for pair in others.windows(2) {
                    prop_assert!(pair[0].y - pair[1].top() >= plan.group.gap);
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
        // More than a half of what is tried has no answer; that is checked elsewhere.
        static JUDGED: Share = Share::after(20, 200);
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
        prop_assert_eq!(frame.sight.shrunk(Sides::all(-stated.rabbet_width)), frame.rabbet);
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
        static JUDGED: Share = Share::after(10, 120);
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
        arrangement in prop::sample::select(vec![Arrangement::Row, Arrangement::Column, Arrangement::StackRight, Arrangement::StackLeft]),
        even: bool,
    ) {
        let starting = Plan::starting();
        let group = Group { arrangement, gap, ..starting.group };
        let outsides = if even { vec![outsides[0]; outsides.len()] } else { outsides };
        let windows = arrange(&Plan { group, ..starting }, &outsides).outsides;
        let whole = (Exact::from_integer(px.0.into()), Exact::from_integer(px.1.into()));
        let per_unit = |density: Exact| density / i128::from(overmantel::length::UNITS_PER_INCH);
        let hidden = split(px, &windows, Strips::Hidden, arrangement, focus);
        for (index, cut) in hidden.iter().enumerate() {
            let (source, window, scale) = (cut.source, windows[index], per_unit(cut.pixels_per_inch));
            prop_assert_eq!(source.width, exact(window.size.width) * scale);
            prop_assert_eq!(source.left - hidden[0].source.left, exact(window.x - windows[0].x) * scale);
            prop_assert_eq!(source.top - hidden[0].source.top, exact(windows[0].top() - window.top()) * scale);
            prop_assert!(source.left >= Exact::from_integer(0) && source.left + source.width <= whole.0);
            prop_assert!(source.top >= Exact::from_integer(0) && source.top + source.height <= whole.1);
        }
        for (index, pair) in split(px, &windows, Strips::Kept, arrangement, focus).windows(2).enumerate() {
            let (one, next) = (pair[0].source, pair[1].source);
            match arrangement {
                Arrangement::StackLeft if index == 0 => prop_assert_eq!(next.left + next.width, one.left),
                Arrangement::Column => prop_assert_eq!(one.top + one.height, next.top),
                _ if arrangement.is_mixed() && index > 0 => prop_assert_eq!(one.top + one.height, next.top),
                _ => prop_assert_eq!(one.left + one.width, next.left),
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
        let Ok(hanging) = hang(outside, fixing, HangerPlaces::default()) else {
            JUDGED.left_out();
            return Ok(());
        };
        JUDGED.judged();
        prop_assert_eq!(hanging.drop, fixing.down.or(Length::ZERO) - hanging.wire.map_or(Length::ZERO, |wire| wire.rise));
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
            let apart = fixing.hanger.hooks_apart().unwrap_or_default();
            let square = |length: Length| i128::from(length.units()).pow(2);
            let legs = square(wire.length - apart) - square(hanging.span - apart);
            let off = (legs - 4 * square(wire.rise)).abs();
            prop_assert!(off <= 4 * i128::from(wire.rise.units()) + 4, "{off}");
        }
    }
}
