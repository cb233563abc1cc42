//! Fields: arithmetic in them, against exact rationals and sums done by hand; and the next value of each, up and down.

use num_rational::Ratio;
use overmantel::fields::step;
use overmantel::length::parse::parse;
use overmantel::length::{Length, Unit};
use overmantel::plan::{InHand, Plan, System, Units};
use overmantel::stock::Stock;
use overmantel_tests::given;
use proptest::prelude::*;

/// Sums by hand, in micrometres: 25 400 to the inch.
#[test]
fn sums_by_hand() {
    for (text, bare, micrometres) in [
        ("20 + 2*3", Unit::Inch, 660_400),
        ("144/3", Unit::Inch, 1_219_200),
        ("144 / 3", Unit::Inch, 1_219_200),
        ("144 in / 3", Unit::Centimetre, 1_219_200),
        ("12' / 3 - 2 in", Unit::Inch, 1_168_400),
        ("16 1/2 / 3", Unit::Inch, 139_700),
        ("3 * 16 1/2 + 2 * 3", Unit::Inch, 1_409_700),
        ("1/2 + 1/4", Unit::Inch, 19_050),
        ("(84 - 69 3/8) / 2", Unit::Inch, 185_738), // 7 5/16 in = 185.7375 mm
        ("((2))", Unit::Centimetre, 20_000),
        ("20,5 + 2*0,5", Unit::Centimetre, 215_000),
        ("20 in + 5 cm", Unit::Inch, 558_000),
        ("20 cm + 5", Unit::Centimetre, 250_000),
        ("5' 6\" + 3", Unit::Inch, 1_752_600),
        ("2 * 5 cm", Unit::Inch, 100_000),
        ("5 cm * 2 * (1 + 1)", Unit::Inch, 200_000),
        ("-3 + 5", Unit::Inch, 50_800),
        ("10−4", Unit::Inch, 152_400),
        ("10 - 4 - 3", Unit::Inch, 76_200),
        ("2 - 3", Unit::Inch, -25_400),
        ("7 in ÷ 2", Unit::Inch, 88_900),
    ] {
        let read = parse(text, bare);
        let read = read.unwrap_or_else(|error| panic!("{text}: {error}"));
        // 1,440 units to the micrometre.
        assert_eq!((read.units() + 720).div_euclid(1_440), micrometres, "{text}");
    }
    assert_eq!(parse("(84 - 69 3/8) / 2", Unit::Inch), Ok(Length::inches_ratio(117, 16)), "exactly 7 5/16");
    assert_eq!(parse("100/3 + 100/3 + 100/3", Unit::Inch), Ok(Length::inches(100)), "thirds lose nothing");
}

/// A product: some factors, and the unit of its last, with what that is in millimetres (NIST SP 811).
fn any_product() -> impl Strategy<Value = (String, Ratio<i128>)> {
    let factor = (0_i128..500, 0_i128..8);
    let units = prop::sample::select(vec![
        ("in", Ratio::new(254, 10)),
        ("cm", Ratio::from_integer(10)),
        ("mm", Ratio::from_integer(1)),
        ("'", Ratio::new(3048, 10)),
    ]);
    (prop::collection::vec(factor, 1..3), units, 1_i128..40).prop_map(|(factors, (unit, millimetres), by)| {
        let last = factors.len() - 1;
        let mut value = millimetres;
        let mut text = String::new();
        for (index, (whole, eighths)) in factors.into_iter().enumerate() {
            value *= Ratio::from_integer(whole) + Ratio::new(eighths, 8);
            text += &if eighths > 0 { format!("{whole} {eighths}/8") } else { format!("{whole}") };
            text += &if index == last { format!(" {unit}") } else { String::from(" * ") };
        }
        (format!("{text} / {by}"), value / by)
    })
}

proptest! {
    /// Sums of products in mixed units agree with a library of rationals, rounded once at the end.
    #[test]
    fn sums_agree_with_exact_rationals(
        terms in prop::collection::vec((any_product(), any::<bool>()), 1..3),
        times in 1_i128..9,
    ) {
        let mut text = String::new();
        let mut value = Ratio::from_integer(0);
        for (index, ((part, worth), is_less)) in terms.into_iter().enumerate() {
            if index == 0 {
                text = part;
                value = worth;
            } else {
                text += &format!("{}{part}", if is_less { " - " } else { "+" });
                value += if is_less { -worth } else { worth };
            }
        }
        let text = format!("{times}*({text})");
        prop_assume!(text.chars().count() <= 64);
        let exact = value * times * Ratio::from_integer(1_440_000);
        // 1,440,000 units to the millimetre; `round` has ties away from zero.
        prop_assert_eq!(
            parse(&text, Unit::Metre).map(|length| i128::from(length.units())),
            Ok(exact.round().to_integer()),
            "{}", text
        );
    }
}

fn plan(system: System) -> Plan {
    Plan {
        units: Units { first: system, both: false },
        in_hand: Some(InHand::starting()),
        ..Plan::starting()
    }
}

/// Steps of a rule, from where the value is to the next whole one.
#[test]
fn the_next_value_up_and_down() {
    let stock = Stock::offered();
    let (inches, metric) = (plan(System::Inches), plan(System::Centimetres));
    for (plan, field, up, down, far) in [
        // 144 in; 366 cm is the first whole centimetre above 365.76.
        (&inches, "wall.width", "145 in", "143 in", "156 in"),
        (&metric, "wall.width", "3660 mm", "3650 mm", "3700 mm"),
        // 3 in, and 76.2 mm.
        (&inches, "group.gap", "3 1/8 in", "2 7/8 in", "4 in"),
        (&metric, "group.gap", "77 mm", "76 mm", "80 mm"),
        // 57 in, and 144.78 cm: the next whole half is 145 and 144.5.
        (&inches, "viewing.eye_level", "57 1/4 in", "56 3/4 in", "58 in"),
        (&metric, "viewing.eye_level", "1450 mm", "1445 mm", "1450 mm"),
        (&inches, "piece.all.mat.border", "2 1/4 in", "2 in", "3 in"),
        // From the left corner to the group: 37 5/16 in.
        (&inches, "group.left", "38 in", "37 in", "48 in"),
        (&inches, "fineness", "210", "190", "250"),
    ] {
        let next = |is_up, is_large| step::stepped(plan, &stock, given::field(field), is_up, is_large);
        let parsed = |text: &str| parse(text, Unit::Inch).ok();
        for (expected, found) in
            [(up, next(true, false)), (down, next(false, false)), (far, next(true, true))]
        {
            let found = found.unwrap_or_default();
            assert!(
                expected == found || parsed(expected).is_some() && parsed(expected) == parsed(&found),
                "{field}: {found}, and not {expected}"
            );
            assert!(given::write(plan, &stock, field, &found).is_ok(), "{field} takes {found}");
        }
    }
}

/// Sizes go to the next that is sold, turned as they are: by what they cover 16 × 20 is 320, 16 × 22 (a mat and its
/// frame, Canadian Conservation Institute, Notes 11/5) 352, 16 × 24 is 384, 20 × 20 is 400.
#[test]
fn a_size_goes_to_the_next_on_offer() {
    let (stock, mut plan) = (Stock::offered(), plan(System::Inches));
    let next = |plan: &Plan, field, is_up| {
        let text = step::stepped(plan, &stock, given::field(field), is_up, false).unwrap_or_default();
        let changed = given::write(plan, &stock, field, &text).expect("a size that is on offer");
        given::read(&changed, &stock, field).map(|value| value.text).unwrap_or_default()
    };
    assert_eq!(next(&plan, "piece.all.image", true), "16 × 24\"");
    for piece in &mut plan.pieces {
        piece.image = overmantel::geometry::Size::inches(20, 16);
    }
    assert_eq!(next(&plan, "piece.0.image", true), "24 × 16\"");
    assert_eq!(next(&plan, "in_hand.size", true), "16 × 22\"");
    // Glass of 2 mm: the next that the stock has, not an amount.
    let text = step::stepped(&plan, &stock, given::field("piece.all.glazing.thickness"), true, false)
        .unwrap_or_default();
    let offered = given::read(&plan, &stock, "piece.all.glazing.thickness").unwrap_or_else(|| unreachable!());
    assert!(offered.options.iter().any(|choice| choice.key == text), "{text} of {:?}", offered.options);
}

/// 26 in are 66.04 cm; 16 × 20 in are 40.64 × 50.8 cm.
#[test]
fn what_a_text_comes_to() {
    let (stock, plan) = (Stock::offered(), plan(System::Inches));
    let text = |field, text| step::comes_to(&plan, &stock, given::field(field), text);
    assert_eq!(text("group.gap", "20 + 2*3"), Some("26\" (66 cm)".to_owned()));
    assert_eq!(text("piece.all.image", "8*2 x 20"), Some("16 × 20\" (40.6 × 50.8 cm)".to_owned()));
    assert_eq!(text("group.gap", "twenty"), None);
    assert_eq!(text("title", "20"), None);
}
