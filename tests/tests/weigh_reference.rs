//! Weights against worked examples, a library of polygons (`geo`) and a library of units (`uom`).
//!
//! No expected value here is from Overmantel. The examples were worked out on paper from the densities that each test names:
//! glass 2500 and acrylic 1190 kg/m³ are common practice, no source; the others from memory. 1 lb = 0.45359237 kg exactly.

use geo::{Area as _, polygon};
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::Material;
use overmantel::stock::{Density, Stock};
use overmantel::weigh::{
    Area, Mass, Volume, bars, blocks, by_density, by_grammage, estimate, in_kilograms, in_pounds,
    mitred_moulding, sheet,
};
use overmantel_tests::given::{length, size};
use proptest::prelude::*;
use uom::si::f64::{Area as OtherArea, Length as OtherLength, Mass as OtherMass};
use uom::si::{
    area::square_meter,
    length::{inch, meter},
    mass::{kilogram, pound},
};

fn area(text: &str) -> Area {
    Area::of(size(text))
}

#[track_caller]
fn check(mass: Mass, kilograms: &str, pounds: &str) {
    assert_eq!(in_kilograms(mass.likely_mg, 3), format!("{kilograms} kg"));
    assert_eq!(in_pounds(mass.likely_mg, 3), format!("{pounds} lb"));
}

/// 24 × 36 in is 0.55741824 m²; 2 mm of glass are 2.7870912 kg, and 2.7870912 / 0.45359237 = 6.144484 lb.
#[test]
fn sheets_of_24_by_36() {
    let stock = Stock::offered();
    let weight = |material, thickness| sheet(&stock, material, length(thickness), area("24x36"));
    assert_eq!(format!("{:.8}", area("24x36").to_square_metres()), "0.55741824");
    check(weight(Material::Glass, "2 mm"), "2.787", "6.144");
    check(weight(Material::Glass, "2.5 mm"), "3.484", "7.681");
    check(weight(Material::Glass, "3 mm"), "4.181", "9.217");
    check(weight(Material::Acrylic, "2 mm"), "1.327", "2.925");
    check(weight(Material::Acrylic, "2.5 mm"), "1.658", "3.656");
    check(weight(Material::Acrylic, "3 mm"), "1.990", "4.387");
    check(weight(Material::MatBoard, "1/16 in"), "0.502", "1.106");
    check(weight(Material::FoamBoard, "5 mm"), "0.307", "0.676");
    check(weight(Material::Mdf, "3 mm"), "1.254", "2.765");
    check(weight(Material::Aluminium, "1.14 mm"), "1.716", "3.783");
    check(weight(Material::Aluminium, "1.2 mm"), "1.806", "3.982");
    check(weight(Material::AluminiumComposite, "3 mm"), "2.118", "4.670");
}

/// One square metre: glass 2.5 kg to the millimetre; aluminium of 0.045 in, 1.143 mm: 2700 × 0.001143 = 3.0861; of 1.14 mm 3.078; of
/// 1.2 mm 3.24.
#[test]
fn square_metres() {
    let stock = Stock::offered();
    let metre = Area::of(Size::new(Length::mm(1000), Length::mm(1000)));
    let weight = |material, thickness| sheet(&stock, material, length(thickness), metre).likely_mg;
    assert_eq!(weight(Material::Glass, "1 mm"), 2_500_000);
    assert_eq!(weight(Material::Aluminium, "0.045 in"), 3_086_100);
    assert_eq!(weight(Material::Aluminium, "1.14 mm"), 3_078_000);
    assert_eq!(weight(Material::Aluminium, "1.2 mm"), 3_240_000);
    assert_eq!(weight(Material::FlutedBoard, "4 mm"), 700_000);
    // In 6 mm, no row of the stock says otherwise: 175 × 0.006.
    assert_eq!(weight(Material::FlutedBoard, "6 mm"), 1_050_000);
}

/// Grammage times area: 310 g/m² of 24 × 36 in is 172.7996544 g; 80 g/m² of A4, 0.06237 m², is 4.9896 g.
#[test]
fn paper() {
    assert_eq!(by_grammage(area("24x36"), 310), Mass::exactly(172_800));
    assert_eq!(by_grammage(area("210 mm x 297 mm"), 80), Mass::exactly(4_990));
    assert_eq!(by_grammage(area("1 m x 1 m"), 1), Mass::exactly(1_000));
    assert_eq!(by_grammage(area("20x30"), 310), Mass::exactly(120_000), "0.387096 m²: 119.99976 g");
}

/// A frame of 24 × 36 in: face 1 1/4, depth 3/4, lip 1/4, allowance 1/8, rabbet 1/2 in deep. Outside 26 1/8 × 38 1/8, sight
/// 23 5/8 × 35 5/8, rabbet 24 1/8 × 36 1/8.
#[test]
fn a_framed_print_of_24_by_36() {
    let stock = Stock::offered();
    let wood = mitred_moulding(
        size("26.125x38.125"),
        size("23.625x35.625"),
        size("24.125x36.125"),
        length("0.75"),
        length("0.5"),
    );
    assert_eq!(format!("{:.10}", wood.to_cubic_metres()), "0.0016525330");
    let pine = by_density(wood, &stock.density(Material::Pine));
    assert_eq!(in_kilograms(pine.likely_mg, 4), "0.8263 kg");
    let mdf = by_density(wood, &stock.density(Material::Mdf));
    assert_eq!(in_kilograms(mdf.likely_mg, 4), "1.2394 kg");

    let board = area("24x36") - area("19.75x29.75");
    assert_eq!(format!("{:.8}", area("19.75x29.75").to_square_metres()), "0.37907182");
    let mat = sheet(&stock, Material::MatBoard, length("1/16 in"), board);
    assert_eq!(in_kilograms(mat.likely_mg, 4), "0.1605 kg");
    let print = by_grammage(area("20x30"), 310);
    assert_eq!(in_kilograms(print.likely_mg, 4), "0.1200 kg");
    let foam = sheet(&stock, Material::FoamBoard, length("5 mm"), area("24x36"));
    assert_eq!(in_kilograms(foam.likely_mg, 4), "0.3066 kg");

    for (material, kilograms, pounds) in
        [(Material::Glass, "4.2004 kg", "9.260 lb"), (Material::Acrylic, "2.7400 kg", "6.041 lb")]
    {
        let glazing = sheet(&stock, material, length("2 mm"), area("24x36"));
        let whole = estimate([pine, mat, print, foam, glazing]);
        assert_eq!(in_kilograms(whole.likely_mg, 4), kilograms);
        assert_eq!(in_pounds(whole.likely_mg, 3), pounds);
    }
    // A section of 13/16 in² (1 1/4 × 3/4 less 1/4 × 1/2) by the outer perimeter of 128 1/2 in: 0.8555 kg, 3.5 % more.
    let shops = Area::of(Size::new(length("1 in"), length("0.8125"))).times(length("128.5"));
    assert_eq!(in_kilograms(by_density(shops, &stock.density(Material::Pine)).likely_mg, 4), "0.8555 kg");
}

/// Canvas of 24 × 36 in on bars 1 1/4 in wide and 1 1/2 in deep, of 450 kg/m³; cloth of 29 × 41 in at 400 g/m². On paper:
/// (24 × 36 - 21 1/2 × 33 1/2) × 1 1/2 = 215 5/8 in³.
#[test]
fn a_canvas_of_24_by_36() {
    let wood = bars(size("24x36"), length("1.25"), length("1.5"));
    assert_eq!(format!("{:.8}", wood.to_cubic_metres()), "0.00353346");
    let wood = by_density(wood, &Stock::offered().density(Material::Poplar));
    assert_eq!(in_kilograms(wood.likely_mg, 3), "1.590 kg");
    let cloth = by_grammage(area("29x41"), 400);
    assert_eq!(in_kilograms(cloth.likely_mg, 3), "0.307 kg");
    assert_eq!(in_kilograms(estimate([wood, cloth]).likely_mg, 3), "1.897 kg");
}

/// On paper: bars of 6 in in a frame of 10 × 10 meet, so it is solid, 10 × 10 × 1 in³; four blocks of 2 × 3 × 1/2 in are 12 in³; a
/// floater of 3/8 in round an inside of 24 1/2 × 36 1/2: (25 1/4 × 37 1/4 - 24 1/2 × 36 1/2) × 2 = 92 5/8 in³ (940.5625 - 894.25 = 46.3125).
#[test]
fn other_wood() {
    let inches = |volume: Volume| (volume.to_cubic_metres() / 0.0254 / 0.0254 / 0.0254 * 1e9).round() / 1e9;
    let one = Length::inches(1);
    assert!((inches(bars(size("10x10"), length("6"), one)) - 100.0).abs() < 1e-9);
    assert!((inches(bars(size("10x10"), length("5"), one)) - 100.0).abs() < 1e-9);
    assert!((inches(bars(size("10x10"), length("4.5"), one)) - 99.0).abs() < 1e-9);
    assert!((inches(blocks(4, size("2x3"), length("0.5"))) - 12.0).abs() < 1e-9);
    let inside = size("24.5x36.5");
    let floater = mitred_moulding(size("25.25x37.25"), inside, inside, length("2"), Length::ZERO);
    assert!((inches(floater) - 92.625).abs() < 1e-9);
}

/// On paper. Glass of 2 mm on 24 × 36 in: 2.7870912 kg; 2450 to 2550 kg/m³ gives 2.731349376 to 2.842832448, and a whole is known to
/// ±15 %: 2.36902752 to 3.20515488. Mat board by its row of 900 g/m²: 501.676416 g likely; by its density, 530 to 700 of 600, 443.147501 to
/// 585.289152. Pine by its range alone, 370 to 560 of 500, is wider than 15 % below and narrower above: one litre is 370 g to 575 g.
#[test]
fn uncertainty() {
    let stock = Stock::offered();
    let glass = sheet(&stock, Material::Glass, length("2 mm"), area("24x36"));
    assert_eq!(glass, Mass { least_mg: 2_731_349, likely_mg: 2_787_091, most_mg: 2_842_834 });
    let whole = estimate([glass]);
    assert_eq!(whole, Mass { least_mg: 2_369_027, likely_mg: 2_787_091, most_mg: 3_205_155 });
    let mat = sheet(&stock, Material::MatBoard, length("1/16 in"), area("24x36"));
    assert_eq!(mat, Mass { least_mg: 443_147, likely_mg: 501_676, most_mg: 585_290 });
    let litre = area("100 mm x 100 mm").times(Length::mm(100));
    let pine = by_density(litre, &stock.density(Material::Pine));
    assert_eq!(pine, Mass { least_mg: 370_000, likely_mg: 500_000, most_mg: 560_000 });
    assert_eq!(estimate([pine]), Mass { least_mg: 370_000, likely_mg: 500_000, most_mg: 575_000 });
    // Ranges add up: 370 + 443.147 and 560 + 585.290, both wider than 15 % of 1001.676.
    let both = estimate([pine, mat]);
    assert_eq!(both, Mass { least_mg: 813_147, likely_mg: 1_001_676, most_mg: 1_151_928 });
    assert_eq!(estimate([]), Mass::default());
}

/// What no wall holds: a board of 2⁶³ - 1 units each way is more milligrams than 2⁶³, even of 1 g/m²; a metre has 1.44 × 10⁹ units.
#[test]
fn weights_stay_within_their_type() {
    let most = Length::from_units(i64::MAX);
    let all = Area::of(Size::new(most, most));
    assert_eq!(by_grammage(all, 1), Mass::exactly(i64::MAX));
    assert_eq!(by_grammage(Area::default() - all, 1), Mass::exactly(i64::MIN));
}

/// 0.45359237 kg to the pound; ties go away from zero.
#[test]
fn printing() {
    assert_eq!(in_pounds(45_359_237, 2), "100.00 lb");
    assert_eq!(in_pounds(453_592, 3), "1.000 lb");
    assert_eq!(in_pounds(31_751_466, 3), "70.000 lb");
    assert_eq!(in_kilograms(1_234_500, 3), "1.235 kg");
    assert_eq!(in_kilograms(-1_234_500, 3), "-1.235 kg");
    assert_eq!(in_kilograms(1_045_000, 3), "1.045 kg");
    assert_eq!(in_kilograms(500_000, 0), "1 kg");
    assert_eq!(in_kilograms(499_999, 0), "0 kg");
    assert_eq!(in_kilograms(1, 255), "0.000001 kg");
}

/// Four mitred rails as polygons of another library: trapezoids whose long side is the outside and whose short one the opening.
fn four_trapezoids(outside: Size, opening: Size) -> f64 {
    let (w, h) = (outside.width.to_inches(), outside.height.to_inches());
    let (x, y) = ((w - opening.width.to_inches()) / 2.0, (h - opening.height.to_inches()) / 2.0);
    let foot = polygon![(x: 0.0, y: 0.0), (x: w, y: 0.0), (x: w - x, y: y), (x: x, y: y)];
    let right = polygon![(x: w, y: 0.0), (x: w, y: h), (x: w - x, y: h - y), (x: w - x, y: y)];
    let head = polygon![(x: w, y: h), (x: 0.0, y: h), (x: x, y: h - y), (x: w - x, y: h - y)];
    let left = polygon![(x: 0.0, y: h), (x: 0.0, y: 0.0), (x: x, y: y), (x: x, y: h - y)];
    [foot, right, head, left].iter().map(|rail| rail.unsigned_area()).sum()
}

/// Measures of up to so many 64ths of an inch.
fn upto(sixty_fourths: i64) -> impl Strategy<Value = Length> {
    prop_oneof![Just(1), Just(sixty_fourths), 1..=sixty_fourths]
        .prop_map(|count| Length::inches_ratio(count, 64))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    /// A mitred frame in two layers, the lip before the rabbet and the wood beside it, each of four trapezoids.
    #[test]
    fn mitred_rails_as_polygons(
        sight in (upto(6400), upto(6400)), lip in upto(64), beside in upto(256), before in upto(64), rabbet_depth in upto(128),
    ) {
        let sight = Size::new(sight.0, sight.1);
        let rabbet = sight.grown(lip);
        let outside = rabbet.grown(beside);
        let volume = mitred_moulding(outside, sight, rabbet, before + rabbet_depth, rabbet_depth);
        let theirs = four_trapezoids(outside, sight) * before.to_inches()
            + four_trapezoids(outside, rabbet) * rabbet_depth.to_inches();
        let ours = volume.to_cubic_metres() / 0.0254 / 0.0254 / 0.0254;
        prop_assert!((ours - theirs).abs() <= theirs * 1e-9, "{} and {}", ours, theirs);
    }

    /// Areas and weights as another library of units converts them.
    #[test]
    fn as_another_library_converts(width in upto(25_600), height in upto(25_600), kg_per_m3 in 1_u32..=20_000, thick in upto(640)) {
        let theirs: OtherArea =
            OtherLength::new::<inch>(width.to_inches()) * OtherLength::new::<inch>(height.to_inches());
        let ours = Area::of(Size::new(width, height));
        let metres = theirs.get::<square_meter>();
        prop_assert!((ours.to_square_metres() - metres).abs() <= metres * 1e-12);
        let density = Density { material: Material::Oak, kg_per_m3, least: 1, most: 20_000, source: "any".to_owned() };
        let mass = by_density(ours.times(thick), &density);
        let thickness = OtherLength::new::<inch>(thick.to_inches()).get::<meter>();
        let kilograms = metres * thickness * f64::from(kg_per_m3);
        let ours_kg = mass.likely_mg as f64 / 1e6;
        prop_assert!((ours_kg - kilograms).abs() <= kilograms * 1e-12 + 0.51e-6, "{} and {}", ours_kg, kilograms);
        prop_assert!(mass.least_mg <= mass.likely_mg && mass.likely_mg <= mass.most_mg);
        let pounds = OtherMass::new::<kilogram>(ours_kg).get::<pound>();
        let shown: f64 = in_pounds(mass.likely_mg, 6).trim_end_matches(" lb").parse().unwrap_or(f64::NAN);
        // Their pound has 0.4535924 kg, one part in 15 million from the exact one.
        prop_assert!((shown - pounds).abs() <= pounds * 1e-7 + 0.51e-6, "{} and {}", shown, pounds);
        let grammage = by_grammage(ours, kg_per_m3).likely_mg as f64 / 1e6;
        prop_assert!((grammage - metres * f64::from(kg_per_m3) / 1e3).abs() <= grammage * 1e-12 + 0.51e-6);
    }

    /// A whole holds its parts' range and 15 % to both sides.
    #[test]
    fn a_whole_is_never_claimed_too_well(parts in proptest::collection::vec((0_i64..1_000_000_000, 0_i64..1_000, 0_i64..1_000_000), 0..6)) {
        let parts: Vec<Mass> = parts
            .into_iter()
            .map(|(likely_mg, less, more)| Mass { least_mg: (likely_mg - less).max(0), likely_mg, most_mg: likely_mg + more })
            .collect();
        let whole = estimate(parts.iter().copied());
        prop_assert_eq!(whole.likely_mg, parts.iter().map(|part| part.likely_mg).sum::<i64>());
        prop_assert!(whole.least_mg <= parts.iter().map(|part| part.least_mg).sum::<i64>());
        prop_assert!(whole.most_mg >= parts.iter().map(|part| part.most_mg).sum::<i64>());
        prop_assert!(whole.least_mg * 100 <= whole.likely_mg * 85);
        prop_assert!(whole.most_mg * 100 >= whole.likely_mg * 115);
    }
}
