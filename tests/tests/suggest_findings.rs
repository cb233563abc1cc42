//! Suggestions and findings: what is suggested never has a grave finding that another suggestion would not have.
//!
//! Rooms, photos and wishes are drawn at random, of the kinds that people have; what is grave is read from the findings of the whole
//! plan, as it is when a suggestion was taken. What this does not prove: that the findings are right; they have references of their own.

use overmantel::figures::Figures;
use overmantel::findings::{Finding, Severity, findings};
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::stock::Stock;
use overmantel::suggest::{Make, Question, SuggestError, SuggestionWish, suggest};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

/// A photo's pixels, and where its subject is.
type Shot = ((u32, u32), Option<(u16, u16)>);

/// A wish without its borrowed parts.
#[derive(Clone, Debug)]
struct Wished {
    question: Question,
    counts: Vec<usize>,
    makes: Vec<Make>,
}

impl Wished {
    fn wish(&self) -> SuggestionWish<'_> {
        SuggestionWish {
            question: self.question,
            counts: &self.counts,
            makes: &self.makes,
            ..SuggestionWish::default()
        }
    }
}

/// From a postcard's scan to a stitched panorama.
const PHOTOS: [(u32, u32); 9] = [
    (451, 300),
    (640, 960),
    (1500, 1000),
    (2400, 2400),
    (3000, 4000),
    (6000, 4000),
    (12_000, 3000),
    (900, 7000),
    (16_000, 12_000),
];

fn pictures() -> impl Strategy<Value = Vec<Picture>> {
    let subject = prop::option::weighted(0.2, select(vec![(500_u16, 500_u16), (80, 300), (700, 960)]));
    prop::collection::vec((select(PHOTOS.to_vec()), subject), 0..=3).prop_map(|photos| {
        let picture = |(index, ((width_px, height_px), subject)): (usize, Shot)| Picture {
            name: format!("Mudflats {index}"),
            file: format!("{index}.jpg"),
            width_px,
            height_px,
            subject: subject.map(|(x_permille, y_permille)| Focus { x_permille, y_permille }),
        };
        photos.into_iter().enumerate().map(picture).collect()
    })
}

fn fixtures() -> impl Strategy<Value = Vec<Fixture>> {
    use FixtureKind::{Bed, Door, Mantel, Radiator, Sideboard, Sofa, Switch, Table, Window};
    let below =
        prop::option::weighted(0.8, select(vec![Sofa, Sofa, Bed, Bed, Sideboard, Table, Radiator, Mantel]));
    let beside = subsequence(vec![Door, Window, Radiator, Switch], 0..=2);
    let swing = select(vec![Swing::Clear, Swing::Left, Swing::Right]);
    let sides = (any::<bool>(), 0..40_i64, swing);
    (below, 30..100_i64, beside, sides).prop_map(|(below, wide, beside, (is_left, at, swing))| {
        let below = below.map(|kind| {
            let mut fixture = Fixture::starting(kind);
            fixture.size.width = Length::inches(wide);
            fixture
        });
        let beside = beside.into_iter().enumerate().map(|(index, kind)| {
            let at = Length::inches(at + 30 * i64::try_from(index).unwrap_or(0));
            let across = if is_left { Across::FromLeft(at) } else { Across::FromRight(at) };
            let name = format!("{} {index}", kind.name());
            Fixture { across, swing, name, ..Fixture::starting(kind) }
        });
        below.into_iter().chain(beside).collect()
    })
}

fn site() -> impl Strategy<Value = Site> {
    let built = select(vec![Built::Unstated, Built::Plasterboard, Built::Masonry]);
    let seldom = || prop::bool::weighted(0.2);
    let rated = prop::option::weighted(0.3, select(RATINGS.to_vec()));
    let half = Length::inches_ratio(1, 2);
    let signature = prop_oneof![
        8 => Just(Signature::None),
        1 => Just(Signature::Below(half)),
        1 => Just(Signature::Within(half)),
    ];
    let door = prop::option::weighted(0.2, Just(overmantel::geometry::Size::inches(28, 76)));
    (built, seldom(), prop::bool::weighted(0.4), seldom(), seldom(), rated, signature, door).prop_map(
        |(
            built,
            is_public_way,
            has_earthquakes,
            has_sun,
            has_window_opposite,
            rated_pounds,
            signature,
            door,
        )| Site {
            built,
            is_public_way,
            has_earthquakes,
            has_sun,
            has_window_opposite,
            cornice: Length::ZERO,
            rated_pounds,
            signature,
            ways: [door, None, None],
        },
    )
}

fn pieces() -> impl Strategy<Value = Vec<Piece>> {
    let edge = select(vec![Edge::Mirrored, Edge::Carried]);
    let glazing = select(vec![Glazing::Glass(Length::mm(2)), Glazing::Acrylic(Length::mm(2)), Glazing::None]);
    (1..=3_usize, 0..5_usize, edge, glazing, any::<bool>()).prop_map(
        |(count, make, edge, glazing, has_mat)| {
            let mut piece = Piece::starting();
            match make {
                0 => piece.finish = Finish::Canvas(Canvas { edge, ..Canvas::starting() }),
                1 => piece.finish = Finish::Aluminium(Aluminium::starting()),
                _ => {}
            }
            if let Some(framing) = piece.finish.framing_mut() {
                framing.glazing = glazing;
                framing.mat = framing.mat.take().filter(|_| has_mat);
            }
            vec![piece; count]
        },
    )
}

fn fixing() -> impl Strategy<Value = Fixing> {
    let wire = |slack, hooks_apart| Fixing {
        hanger: Hanger::Wire { slack: Length::inches_ratio(slack, 4), hooks_apart },
        ..Fixing::default()
    };
    let rings = Fixing::default();
    select(vec![rings, wire(4, None), wire(1, None), wire(8, Some(Length::inches(6)))])
}

fn room() -> impl Strategy<Value = Plan> {
    let wall = (50..220_i64, 80..120_i64, any::<bool>());
    (wall, fixtures(), pictures(), site(), pieces(), fixing(), 4..16_i64).prop_map(
        |((width, height, is_metric), fixtures, pictures, site, mut pieces, fixing, feet)| {
            let mut plan = Plan::starting();
            if is_metric {
                plan.units.first = System::Centimetres;
            }
            let shown = pictures.len();
            for (index, piece) in pieces.iter_mut().enumerate() {
                piece.picture = (shown > 0).then(|| index.min(shown - 1));
            }
            plan.wall.size = overmantel::geometry::Size::inches(width, height);
            plan.viewing.distance = Length::inches(feet * 12);
            plan.group = Group { across: GroupAcross::WallMiddle, up: GroupUp::EyeLevel, ..plan.group };
            Plan { fixtures, pictures, site, pieces, fixing, ..plan }
        },
    )
}

fn wished() -> impl Strategy<Value = Wished> {
    let question = select(vec![
        Question::Best,
        Question::Best,
        Question::Best,
        Question::FillsWall,
        Question::Largest,
        Question::OtherSystem,
    ]);
    let counts = prop_oneof![2 => Just(vec![1, 2, 3]), 1 => subsequence(vec![1, 2, 3], 1)];
    let makes = prop_oneof![2 => Just(Make::ALL.to_vec()), 1 => subsequence(Make::ALL.to_vec(), 1..=2)];
    (question, counts, makes).prop_map(|(question, counts, makes)| Wished { question, counts, makes })
}

/// What is grave about a plan.
fn grave(plan: &Plan, stock: &Stock) -> Vec<Finding> {
    let figures = Figures::of(plan).unwrap_or_else(|why| panic!("{why}"));
    let found = findings(plan, &figures, stock).into_iter();
    found.filter(|finding| finding.severity >= Severity::Disappoints).collect()
}

/// Suggestions for rooms, photos and wishes drawn at random, as many as are asked for.
fn drawn(cases: usize) -> Vec<(Plan, Wished)> {
    let mut runner = TestRunner::deterministic();
    let mut found = Vec::new();
    while found.len() < cases {
        let (plan, wished) = (room(), wished()).new_tree(&mut runner).expect("a room").current();
        match suggest(&plan, &Stock::offered(), &wished.wish()) {
            Ok(_) => found.push((plan, wished)),
            Err(why) => assert_eq!(why, SuggestError::NoPicture),
        }
    }
    found
}

/// What stands against a suggestion is said with it, in the words of its findings, and nothing is said that does not stand.
#[test]
fn nothing_grave_passes_in_silence() {
    let stock = Stock::offered();
    let (mut told, mut clean) = (0, 0);
    for (plan, wished) in drawn(160) {
        for one in suggest(&plan, &stock, &wished.wish()).expect("suggestions").suggestions {
            let found = grave(&one.plan, &stock);
            told += 1;
            clean += usize::from(found.is_empty());
            assert_eq!(one.cautions.len(), found.len(), "{:?} beside {found:?}", one.cautions);
            for finding in found {
                let is_told = one.cautions.iter().any(|caution| caution.contains(&finding.sentence));
                assert!(is_told, "{} is not in {:?}", finding.sentence, one.cautions);
            }
        }
    }
    assert!(told > 250, "{told} suggestions");
    assert!(clean * 2 > told, "only {clean} of {told} have nothing against them");
}

/// Whoever wishes for anything is not offered first what has something against it, where one count or one make alone would give a
/// suggestion that has nothing.
#[test]
fn what_can_be_avoided_is_avoided() {
    let stock = Stock::offered();
    let mut judged = 0;
    for (plan, wished) in drawn(60) {
        let best = |wished: &Wished| {
            let found = suggest(&plan, &stock, &wished.wish()).ok()?;
            found.suggestions.first().map(|one| grave(&one.plan, &stock).len())
        };
        let Some(against) = best(&wished).filter(|against| *against > 0) else { continue };
        judged += 1;
        for &count in &wished.counts {
            for &make in &wished.makes {
                let narrow = Wished { question: wished.question, counts: vec![count], makes: vec![make] };
                assert_ne!(best(&narrow), Some(0), "{count} of {make:?} would avoid all {against}");
            }
        }
    }
    assert!(judged > 3, "{judged} rooms where something stands");
}

/// A photo of 451 × 300 px: glass above a bed in earthquake country is not offered, and where only large prints are wished for, it is said
/// that they are coarse.
#[test]
fn a_small_photo_above_a_bed_that_shakes() {
    let stock = Stock::offered();
    let mut plan = Plan::starting();
    plan.site.has_earthquakes = true;
    plan.fixtures = vec![Fixture::starting(FixtureKind::Bed)];
    plan.group.across = GroupAcross::FixtureMiddle(0);
    plan.group.up = GroupUp::Above { fixture: 0, clearance: Length::inches(8) };
    plan.pictures = vec![Picture {
        name: "Ebb".to_owned(),
        file: "ebb.jpg".to_owned(),
        width_px: 451,
        height_px: 300,
        subject: None,
    }];
    plan.pieces.truncate(1);
    plan.pieces[0].picture = Some(0);
    let wished = |question| Wished { question, counts: vec![1], makes: Make::ALL.to_vec() };
    for question in [Question::Best, Question::FillsWall, Question::Largest] {
        let Ok(found) = suggest(&plan, &stock, &wished(question).wish()) else { continue };
        for one in found.suggestions {
            let codes: Vec<&str> = grave(&one.plan, &stock).iter().map(|finding| finding.code).collect();
            assert!(
                !codes.contains(&"glass-above-a-bed") && !codes.contains(&"glass-where-it-shakes"),
                "{codes:?}"
            );
            assert_eq!(codes.is_empty(), one.cautions.is_empty(), "{codes:?} {:?}", one.cautions);
        }
    }
}

/// Whoever leaves count and make open is offered first what has nothing against it but the room itself: sun on the wall, or furniture that
/// is measured wrong.
#[test]
fn what_stands_is_the_rooms_own() {
    let stock = Stock::offered();
    let of_the_room = ["beyond-the-wall", "past-the-wall", "in-the-sun"];
    let mut judged = 0;
    for (plan, _) in drawn(80) {
        let open = Wished { question: Question::Best, counts: vec![1, 2, 3], makes: Make::ALL.to_vec() };
        let found = suggest(&plan, &stock, &open.wish()).expect("suggestions");
        let Some(one) = found.suggestions.first() else { continue };
        judged += 1;
        for finding in grave(&one.plan, &stock) {
            assert!(of_the_room.contains(&finding.code), "{}: {}", finding.code, finding.sentence);
        }
    }
    assert!(judged > 60, "{judged} rooms with a suggestion");
}
