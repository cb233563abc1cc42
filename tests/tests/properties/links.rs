//! Links: every plan comes back whole, and what is no link is refused with a sentence.

use super::any_plan::any_plan;
use overmantel::compare::{PlanPart, parts, taken};
use overmantel::described::Choosable as _;
use overmantel::link::{self, Answer, Decided, Detail, Link, Sketch, Verdict};
use overmantel::plan::{Plan, file};
use overmantel::resample::Raster;
use overmantel_tests::{link_is_read_or_refused, link_of_deflated, link_round};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};

/// A sketch of a picture of a few pixels, or none.
fn sketch() -> impl Strategy<Value = Option<Sketch>> {
    let picture = (1_u32..9, 1_u32..9).prop_flat_map(|(width, height)| {
        vec(any::<u8>(), (width * height * 4) as usize)
            .prop_map(move |pixels| Raster::new(width, height, pixels))
    });
    proptest::option::of((picture, select(Detail::ALL.to_vec()), 0_usize..500))
        .prop_map(|made| made.and_then(|(picture, detail, room)| Some(Sketch::of(&picture?, detail, room))))
}

fn answer() -> impl Strategy<Value = Option<Answer>> {
    let texts = (vec(any::<char>(), 0..=120), vec(any::<char>(), 0..=2_000));
    let option = (any::<u32>(), 0_u32..=6, 0_u32..=999, select(Verdict::all().collect::<Vec<_>>()));
    let names = (vec(any::<char>(), 0..=120), vec(any::<char>(), 0..=120), "[0-9-]{0,10}");
    let made = (any::<u32>(), any::<[bool; 3]>(), texts, option, names);
    proptest::option::of(made.prop_map(|(to, [size, make_up, frame], (from, note), of, names)| Answer {
        to,
        decided: Decided { size, make_up, frame },
        from: from.into_iter().collect(),
        note: note.into_iter().collect(),
        proposal: of.0,
        option: of.1,
        revision: of.2,
        verdict: of.3,
        name: names.0.into_iter().collect(),
        number: names.1.into_iter().collect(),
        date: names.2,
    }))
}

/// Without those at the end that are none: nothing tells them from none at all.
fn trimmed(mut sketches: Vec<Option<Sketch>>) -> Vec<Option<Sketch>> {
    if sketches.iter().all(Option::is_none) {
        sketches.clear();
    }
    sketches
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    /// Every field of a plan is carried, and the same plan gives the same link.
    #[test]
    fn a_plan_comes_back_out_of_its_link(plan in any_plan(), sketches in vec(sketch(), 0..=3), answer in answer()) {
        let sent = Link { plan, sketches: trimmed(sketches), answer };
        let text = link::write(&sent);
        prop_assert!(text.len() <= link::MOST_CHARACTERS, "{}", text.len());
        let (read, unread) = link::read(&text).map_err(|why| TestCaseError::fail(why.to_string()))?;
        prop_assert_eq!(&read, &sent);
        prop_assert_eq!(unread, 0);
        prop_assert_eq!(link::write(&read), text);
        prop_assert_eq!(link::mark(&read.plan), link::mark(&sent.plan));
    }

    /// All parts of another plan make it the other; a part that was taken differs no more, and nothing is taken from a plan alike.
    #[test]
    fn parts_are_taken_exactly(one in any_plan(), other in any_plan()) {
        if let Ok(all) = taken(&one, &other, &PlanPart::ALL) {
            prop_assert_eq!(&all, &Plan { units: one.units, ..other.clone() });
        }
        prop_assert!(parts(&one, &one).is_empty());
        for part in PlanPart::ALL {
            if let Ok(plan) = taken(&one, &other, &[part]) {
                prop_assert_eq!(taken(&plan, &other, &[part]), Ok(plan));
            }
        }
    }

    /// It is the same plan as the file's.
    #[test]
    fn a_link_and_a_file_state_the_same(plan in any_plan()) {
        let filed = file::read(&file::write(&plan)).map_err(|why| TestCaseError::fail(why.to_string()))?;
        prop_assert_eq!(link::write(&Link::of(filed)), link::write(&Link::of(plan)));
    }

    #[test]
    fn any_bytes_are_read_or_refused(bytes in vec(any::<u8>(), 0..400), version in any::<u8>()) {
        link_is_read_or_refused(&String::from_utf8_lossy(&bytes));
        for version in [1, version] {
            link_is_read_or_refused(&link_round(version, &bytes));
            link_is_read_or_refused(&link_of_deflated(version, &bytes));
        }
    }

    /// Whatever stands behind the head of a likeness is one and can be drawn; without a good head it is skipped and counted.
    #[test]
    fn any_bytes_are_a_likeness_or_skipped(mut bytes in vec(any::<u8>(), 5..200), has_mark in any::<bool>()) {
        if has_mark {
            bytes[0] = 0xf1;
        }
        // By hand from RFC 8949: a map of three (a3), 1 to "A", 7 to an array of one empty map, 34 (18 22) to an array of one string of bytes (58).
        let head = [0xa3, 1, 0x61, 0x41, 7, 0x81, 0xa0, 0x18, 0x22, 0x81, 0x58, u8::try_from(bytes.len()).unwrap_or(0)];
        let read = link::read(&link_round(1, &[&head[..], &bytes].concat()));
        let (link, unread) = read.map_err(|why| TestCaseError::fail(why.to_string()))?;
        let sides = [u32::from(bytes[1]), u32::from(bytes[2])];
        let is_one = bytes[0] == 0xf1 && sides.iter().all(|side| (1..=240).contains(side)) && bytes[3] <= 127;
        prop_assert_eq!(unread, usize::from(!is_one));
        let drawn = link.sketches[0].as_ref().map(|sketch| sketch.raster().map(|raster| [raster.width_px(), raster.height_px()]));
        prop_assert_eq!(drawn, is_one.then_some(Some(sides)));
        prop_assert_eq!(link::read(&link::write(&link)), Ok((Link { sketches: trimmed(link.sketches.clone()), ..link }, 0)));
    }

    /// A good map with bytes changed, and cut short, under a checksum that is right.
    #[test]
    fn any_damaged_map_is_read_or_refused(
        plan in any_plan(),
        changes in vec((any::<Index>(), any::<u8>()), 1..4),
        end in prop_oneof![4 => Just(None), 1 => any::<Index>().prop_map(Some)],
    ) {
        let mut map = map_of(&link::write(&Link::of(plan)));
        for (index, byte) in changes {
            *index.get_mut(&mut map) = byte;
        }
        if let Some(end) = end {
            map.truncate(end.index(map.len()));
        }
        link_is_read_or_refused(&link_round(1, &map));
    }
}

/// The map in a link, inflated by another library than the core's.
fn map_of(link: &str) -> Vec<u8> {
    use base64::Engine as _;
    use std::io::Read as _;
    let bytes = base64::engine::general_purpose::URL_SAFE_NO_PAD.decode(link).unwrap_or_default();
    let mut map = Vec::new();
    let _read = flate2::read::DeflateDecoder::new(&bytes[5..]).read_to_end(&mut map);
    map
}
