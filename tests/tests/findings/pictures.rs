//! Findings on pictures: pixels, crops, what matters in them, edges of canvas, signatures.

use super::*;

/// 100 and 150 pixels to the inch: common practice, no source. From d in an eye of grade 1.0 resolves 3437.7467 / d pixels to the
/// inch (ISO 8596, as quoted: one arc minute): 149.87 from 22 15/16 in, 150.28 from 22 7/8 in.
#[test]
fn pixels() {
    // 16 × 20 in of 1600 × 2000 pixels.
    check("few-pixels", &showing(1600, 2000, None), false);
    check("few-pixels", &showing(1599, 2000, None), true);
    check("soft-print", &showing(1600, 2000, None), true);
    check("soft-print", &showing(1599, 2000, None), false);
    check("soft-print", &showing(2400, 3000, None), false);
    check("soft-print", &showing(2400, 2999, None), true);
    let from = |distance| changed(showing(2400, 3000, None), &[("viewing.distance", distance)]);
    check("coarse-from-there", &from("22 15/16"), false);
    check("coarse-from-there", &from("22 7/8"), true);
    let original = changed(showing(400, 500, None), &[("piece.all.material", "the original")]);
    check("few-pixels", &original, false);
}

/// Of 3000 × h pixels in a shape of 4 : 5, 3750 / h are kept. More than a tenth: our own choice, no source.
#[test]
fn crops() {
    check("crop-loses-much", &showing(3000, 4166, None), false);
    check("crop-loses-much", &showing(3000, 4167, None), true);
    check("crop-loses-much", &split(3000, 3000, None), false);
}

/// One picture of 9000 × 4200 pixels over three prints has 9000 / 64 1/4 = 140.0778 pixels to the inch; the second image begins at
/// 24 1/8 in, its opening at 24 1/4, which is 15 3/4 wide. A tenth of that within (our own choice, no source) is at 25.825 in, or
/// 3617.5 pixels. A third of the picture, 21.4 in, is behind the first gap.
#[test]
fn what_matters_in_a_picture() {
    check("cuts-what-matters", &split(9000, 4200, None), false);
    check("cuts-what-matters", &split(9000, 4200, Some((500, 500))), false);
    check("cuts-what-matters", &split(9000, 4200, Some((333, 500))), true);
    check("cuts-what-matters", &split(9000, 4200, Some((402, 500))), false);
    check("cuts-what-matters", &split(9000, 4200, Some((401, 500))), true);
    // Where the picture itself ends, nothing is cut but what the mat covers: 1/8 of 16 in, 8 thousandths.
    check("cuts-what-matters", &showing(1600, 2000, Some((500, 500))), false);
    check("cuts-what-matters", &showing(1600, 2000, Some((7, 500))), true);
    // A canvas mirrored on bars of 1 1/2 in shows what lies within 1 1/2 + 1/4 in of 16 twice: 109.375 thousandths.
    let canvas = |x| changed(showing(1600, 2000, Some((x, 500))), &[("piece.all.material", "canvas")]);
    check("mirrors-what-matters", &canvas(110), false);
    check("mirrors-what-matters", &canvas(109), true);
    let plain = changed(canvas(50), &[("piece.all.canvas.edge", "a solid edge")]);
    check("mirrors-what-matters", &plain, false);
}

/// 1 - (16 / (16 + 2 d))² is 0.149 for bars of 43/64 in and 0.152 for 11/16. More than 0.15: our own choice, no source.
#[test]
fn edges_of_canvas() {
    let carried = [
        ("piece.all.material", "canvas"),
        ("piece.all.image", "16 x 16"),
        ("piece.all.canvas.edge", "the image wrapped round the edge"),
    ];
    pair("wrap-takes-much", &carried, "piece.all.canvas.depth", "43/64", "11/16");
    let mirrored = ("piece.all.canvas.edge", "a mirrored wrap");
    check("wrap-takes-much", &changed(changed(Plan::starting(), &carried), &[mirrored]), false);
}

/// A signature of 1/2 in below the image; one in the picture where a mat covers 1/8 in, or 1 1/2 in and the margin of the fold of
/// 1/4 in (common practice, no source) go round.
#[test]
fn signatures() {
    let below = [
        ("site.signature", "signed below the image, in a space of"),
        ("site.signature.by", "1/2"),
        ("piece.all.paper.border", "1"),
        ("piece.all.mat.opening", "showing its white border by"),
    ];
    pair("signature-covered", &below, "piece.all.mat.by", "1/2", "7/16");
    check("signature-covered", &changed(Plan::starting(), &below[..2]), true);
    let within = ("site.signature", "signed in the picture, at a distance from its edge of");
    pair("signature-at-the-edge", &[within], "site.signature.by", "9/64", "1/8");
    let carried = [
        within,
        ("piece.all.material", "canvas"),
        ("piece.all.canvas.edge", "the image wrapped round the edge"),
    ];
    pair("signature-at-the-edge", &carried, "site.signature.by", "1 49/64", "1 3/4");
    check("signature-at-the-edge", &Plan::starting(), false);
}

/// A photo of 451 × 300 px on 20 × 16 in has 18 pixels to the inch: too few for a print (150) and for an eye 9 ft away (31.83). Both
/// ask for the same size, the smaller.
#[test]
fn one_limit_for_one_photo() {
    let plan = changed(showing(451, 300, None), &[("piece.all.image", "20 x 16")]);
    let found = found(&plan, &Stock::offered());
    let size = |code: &str| {
        let finding =
            found.iter().find(|finding| finding.code == code).unwrap_or_else(|| panic!("no {code}"));
        finding
            .remedies
            .iter()
            .map(|remedy| remedy.words.clone())
            .find(|words| words.starts_with("Print it no larger"))
    };
    assert_eq!(size("few-pixels"), size("coarse-from-there"));
    assert!(size("few-pixels").is_some());
}
