//! Works for the pieces of a plan: the search against every set of works in every order, its points written out here without the project's code (but for
//! distances of palettes, which the module's own tests hold).

use num_rational::Ratio;
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::UNITS_PER_INCH;
use overmantel::plan::{Finish, Focus, Plan, Split};
use overmantel::stock::Stock;
use overmantel::works::suited::{SuitedError, suited, with_works};
use overmantel::works::{Palette, Work};
use proptest::prelude::*;
use std::collections::BTreeMap;

type Q = Ratio<i128>;

/// What `suggest` says of its points: 1 for each percent, or part of one, below the resolution wanted, and 30 below 100 ppi; 2 for each percent that is
/// cropped, to the nearest point, and 30 above a tenth.
fn of_picture(px: (u32, u32), window: Size, wanted: u32) -> i64 {
    let side = |length: i64| Q::new(length.into(), UNITS_PER_INCH.into());
    let (across, down) = (Q::from_integer(px.0.into()), Q::from_integer(px.1.into()));
    let ppi = (across / side(window.width.units())).min(down / side(window.height.units()));
    let lost = Q::from_integer(1)
        - ppi * ppi * side(window.width.units()) * side(window.height.units()) / (across * down);
    let wanted = Q::from_integer(wanted.into());
    let below = ((wanted - ppi).max(Q::from_integer(0)) * 100 / wanted).ceil().to_integer();
    let coarse = if ppi < Q::from_integer(100) { 30 } else { 0 };
    let much = if lost > Q::new(1, 10) { 30 } else { 0 };
    let cropped = (lost * 200 + Q::new(1, 2)).floor().to_integer();
    i64::try_from(below + cropped).unwrap_or(0) + coarse + much
}

/// Whether the point is beyond what is seen, when it is kept as near the middle as the picture allows.
fn is_lost(px: (u32, u32), window: Size, subject: Focus) -> bool {
    let one = |px: u32, other: u32, length: i64, across: i64, permille: u16| {
        // What is seen of this side, as a share of it.
        let seen = (Q::new(i128::from(other) * i128::from(length), i128::from(across) * i128::from(px)))
            .min(Q::from_integer(1));
        let at = Q::new(permille.into(), 1000);
        let start = (at - seen / 2).min(Q::from_integer(1) - seen).max(Q::from_integer(0));
        at < start || at > start + seen
    };
    let (width, height) = (window.width.units(), window.height.units());
    one(px.0, px.1, width, height, subject.x_permille) || one(px.1, px.0, height, width, subject.y_permille)
}

/// Each set of works with the fewest points in any order, in sixths.
fn every_set(plan: &Plan, works: &[Work]) -> BTreeMap<Vec<usize>, i64> {
    let figures = Figures::of(plan).unwrap_or_else(|why| panic!("{why}"));
    let count = plan.pieces.len();
    let each = [0, 6, 3, 2][count];
    let paint = Palette { colours: vec![(plan.wall.paint, 100)] };
    let own = |piece: usize, place: usize| {
        let (px, window) = (works[place].px?, figures.build_ups[piece].picture.size);
        if works[place].subject.is_some_and(|subject| is_lost(px, window, subject)) {
            return None;
        }
        let near =
            works[place].palette.as_ref().map_or(0, |palette| (120 - palette.apart(&paint)).max(0) / 10);
        Some(each * (of_picture(px, window, plan.fineness) + near))
    };
    let pair = |one: usize, other: usize| match (&works[one].palette, &works[other].palette) {
        (Some(one), Some(other)) => [0, 0, 6, 2][count] * (one.apart(other).min(300) / 10),
        _ => 0,
    };
    let mut found = BTreeMap::new();
    let mut orders: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in 0..count {
        let further = orders.iter().flat_map(|order| {
            (0..works.len())
                .filter(|place| !order.contains(place))
                .map(|place| [&order[..], &[place]].concat())
        });
        orders = further.collect();
    }
    for order in orders {
        let single: Option<i64> = order.iter().enumerate().map(|(piece, &place)| own(piece, place)).sum();
        let Some(single) = single else { continue };
        let pairs: i64 = (0..count)
            .flat_map(|one| (0..one).map(move |other| (one, other)))
            .map(|(one, other)| pair(order[one], order[other]))
            .sum();
        let mut set = order.clone();
        set.sort_unstable();
        let least = found.entry(set).or_insert(i64::MAX);
        *least = single.saturating_add(pairs).min(*least);
    }
    found
}

fn plan(sizes: &[(i64, i64)]) -> Plan {
    let starting = Plan::starting();
    let piece = |&(width, height): &(i64, i64)| overmantel::plan::Piece {
        image: Size::inches(width, height),
        picture: None,
        ..starting.pieces[0].clone()
    };
    Plan { pieces: sizes.iter().map(piece).collect(), pictures: Vec::new(), ..starting }
}

fn work() -> impl Strategy<Value = Work> {
    let side = prop_oneof![Just(1200_u32), Just(2400), Just(3000), Just(4000), Just(6000), 800_u32..9000];
    let colour = prop_oneof![
        Just("#8090a0 60, #202028 40"),
        Just("#8191a1 60, #303038 40"),
        Just("#d5dcd6 90, #a0a0a0 10"),
        Just("#d06030 100"),
        Just("#102040 50, #e0d0b0 50"),
    ];
    let subject =
        (0_u16..=1000, 0_u16..=1000).prop_map(|(x_permille, y_permille)| Focus { x_permille, y_permille });
    (
        prop::option::weighted(0.9, (side.clone(), side)),
        prop::option::weighted(0.8, colour),
        prop::option::weighted(0.3, subject),
    )
        .prop_map(|(px, colour, subject)| Work {
            px,
            palette: colour.and_then(Palette::read),
            subject,
            ..Work::default()
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    /// The sets found are the best of all, with their points; none stands twice.
    #[test]
    fn nothing_better_is_passed_over(
        works in prop::collection::vec(work(), 0..8),
        sizes in prop::collection::vec(prop_oneof![Just((16, 20)), Just((20, 16)), Just((12, 18)), Just((20, 30))], 1..4),
        most in 1_usize..6,
    ) {
        let plan = plan(&sizes);
        let places: Vec<usize> = (0..works.len()).collect();
        let found = suited(&plan, &Stock::offered(), &works, &places, most).unwrap_or_else(|why| panic!("{why}"));
        let all = every_set(&plan, &works);
        let mut best: Vec<i64> = all.values().copied().collect();
        best.sort_unstable();
        best.truncate(most);
        prop_assert_eq!(found.iter().map(|one| one.total).collect::<Vec<_>>(), best);
        let mut seen = Vec::new();
        for one in &found {
            let mut set = one.works.clone();
            set.sort_unstable();
            prop_assert_eq!(all.get(&set), Some(&one.total));
            prop_assert_eq!(one.points.iter().sum::<i64>(), one.total);
            prop_assert!(!seen.contains(&set));
            seen.push(set);
            let made = with_works(&plan, &works, &one.works).unwrap_or_else(|why| panic!("{why}"));
            prop_assert_eq!(made.pieces.iter().map(|piece| piece.image).collect::<Vec<_>>(), plan.pieces.iter().map(|piece| piece.image).collect::<Vec<_>>());
        }
    }
}

#[test]
fn what_has_a_picture_of_its_own_is_refused() {
    let works = [Work { px: Some((4000, 5000)), ..Work::default() }];
    let ask = |plan: &Plan| suited(plan, &Stock::offered(), &works, &[0], 1);
    let split = Plan { split: Some(Split::default()), ..Plan::starting() };
    assert_eq!(ask(&split), Err(SuitedError::Split));
    let mut original = plan(&[(16, 20)]);
    original.pieces[0].finish = Finish::Original(Default::default());
    assert_eq!(ask(&original), Err(SuitedError::Original));
    assert_eq!(ask(&plan(&[(16, 20)])).map(|found| found.len()), Ok(1));
    assert_eq!(ask(&plan(&[(16, 20), (16, 20)])).map(|found| found.len()), Ok(0), "one work is not two");
}
