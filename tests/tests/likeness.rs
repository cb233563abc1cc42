//! How like their pictures sketches are: by structural similarity, beside the sketches of version 0.1.

use overmantel::link::{Detail, Sketch};
use overmantel::resample::{Raster, RasterPart, resample};
use std::path::Path;

/// The demo's pictures.
const NAMES: [&str; 5] =
    ["channel-markers", "harbour-morning", "low-water-evening", "the-flats-at-noon", "three-boats"];

/// Bytes of a sketch, deflated, and the mean similarity of the five pictures' sketches in waves, on 240 pixels: measured on
/// 30 November 2026 with the code of commit 5266319, at 22, 30, 44 and 54 waves along the longer side.
const IN_WAVES: [(usize, f64); 4] = [(146, 0.5675), (212, 0.5915), (331, 0.6346), (401, 0.6571)];
/// The same of main colours, which are as they were.
const OF_COLOURS: f64 = 0.5279;

/// Z. Wang, A. C. Bovik, H. R. Sheikh, E. P. Simoncelli, "Image quality assessment: from error visibility to structural similarity",
/// IEEE Transactions on Image Processing 13(4), 2004: their window of 11 x 11, gaussian, 1.5 pixels; K1 = 0.01, K2 = 0.03; 8 bits.
/// Only windows that lie within the picture count.
fn similarity(one: &[f64], other: &[f64], width: usize) -> f64 {
    // e to the power of -d^2 / (2 * 1.5^2), d from -5 to 5.
    let bell = [
        0.003_865_920_1,
        0.028_565_500_8,
        0.135_335_283_2,
        0.411_112_290_5,
        0.800_737_402_9,
        1.0,
        0.800_737_402_9,
        0.411_112_290_5,
        0.135_335_283_2,
        0.028_565_500_8,
        0.003_865_920_1,
    ];
    let sum: f64 = bell.iter().sum();
    let blurred = |of: &dyn Fn(f64, f64) -> f64| -> Vec<f64> {
        let plane: Vec<f64> = one.iter().zip(other).map(|(one, other)| of(*one, *other)).collect();
        let share = |values: &mut dyn Iterator<Item = f64>| -> f64 {
            values.zip(bell).map(|(value, weight)| value * weight / sum).sum()
        };
        let across: Vec<Vec<f64>> = plane
            .chunks_exact(width)
            .map(|row| row.windows(11).map(|window| share(&mut window.iter().copied())).collect())
            .collect();
        let rows = across.windows(11);
        rows.flat_map(|rows| (0..width - 10).map(move |x| share(&mut rows.iter().map(|row| row[x]))))
            .collect()
    };
    let (ones, others) = (blurred(&|one, _| one), blurred(&|_, other| other));
    let (squares, others_squares) = (blurred(&|one, _| one * one), blurred(&|_, other| other * other));
    let products = blurred(&|one, other| one * other);
    let (c1, c2) = (2.55 * 2.55, 7.65 * 7.65);
    let total: f64 = (0..ones.len())
        .map(|at| {
            let (one, other) = (ones[at], others[at]);
            let (variance, others_variance) = (squares[at] - one * one, others_squares[at] - other * other);
            let together = products[at] - one * other;
            (2.0 * one * other + c1) * (2.0 * together + c2)
                / ((one * one + other * other + c1) * (variance + others_variance + c2))
        })
        .sum();
    #[expect(clippy::cast_precision_loss, reason = "a count of pixels")]
    let mean = total / ones.len() as f64;
    mean
}

/// By hand: a picture is 1 like itself. Of two flat ones of 100 and 110 the variances are nought, which leaves
/// (2 * 100 * 110 + 6.5025) / (100^2 + 110^2 + 6.5025) = 22006.5025 / 22106.5025 = 0.995476. A pattern beside its negative, both of
/// mean 0, has a covariance that is the negative of the variance: (c2 - 2v) / (c2 + 2v), which for a checkerboard of
/// +-100 (v = 10,000 but for the bell's odd share) is -0.99417.
#[test]
fn the_measure_is_the_published_one() {
    let slope: Vec<f64> = (0..400_u32).map(|at| f64::from(at % 20 * 10 + at / 20)).collect();
    assert!((similarity(&slope, &slope, 20) - 1.0).abs() < 1e-9);
    let flat = similarity(&[100.0; 400], &[110.0; 400], 20);
    assert!((flat - 0.995_476).abs() < 1e-6, "{flat}");
    let checked: Vec<f64> =
        (0..400_u32).map(|at| if (at % 20 + at / 20) % 2 == 0 { 100.0 } else { -100.0 }).collect();
    let negative: Vec<f64> = checked.iter().map(|value| -value).collect();
    let opposite = similarity(&checked, &negative, 20);
    assert!((opposite + 0.994_17).abs() < 1e-4, "{opposite}");
}

fn picture(name: &str) -> Raster {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data/pictures");
    let image =
        image::open(folder.join(name).with_extension("jpg")).expect("a picture of the demo").to_rgba8();
    Raster::new(image.width(), image.height(), image.into_raw()).expect("it has pixels")
}

/// A picture on so many pixels along its longer side.
fn scaled(picture: &Raster, longer: u32) -> Raster {
    let [width, height] = [picture.width_px(), picture.height_px()];
    let side = |side: u32| (side * longer * 2 + width.max(height)) / (width.max(height) * 2);
    resample(picture, RasterPart::whole(picture), side(width), side(height))
}

/// Brightness in codes, as in JFIF.
fn light(raster: &Raster) -> Vec<f64> {
    let of = |[r, g, b, _]: &[u8; 4]| 0.299 * f64::from(*r) + 0.587 * f64::from(*g) + 0.114 * f64::from(*b);
    raster.pixels().as_chunks::<4>().0.iter().map(|pixel| of(pixel).round()).collect()
}

/// The mean similarity of the demo's pictures and their sketches in so many bytes, each scaled to 240 pixels as a drawing scales.
fn mean(detail: Detail, room: usize) -> f64 {
    let of = |name: &&str| {
        let picture = picture(name);
        let small = scaled(&picture, 240);
        let sketch = Sketch::of(&scaled(&picture, 400), detail, room).raster().expect("pixels");
        let drawn = resample(&sketch, RasterPart::whole(&sketch), small.width_px(), small.height_px());
        similarity(&light(&small), &light(&drawn), small.width_px() as usize)
    };
    NAMES.iter().map(of).sum::<f64>() / 5.0
}

/// The measure itself can't be doubled: main colours alone have more than half of what there is. What a hint adds to them is.
#[test]
fn likenesses_show_more_in_as_many_bytes_than_they_did() {
    assert!((mean(Detail::Colours, 0) - OF_COLOURS).abs() < 0.001, "{}", mean(Detail::Colours, 0));
    let details = [Detail::Hint, Detail::Likeness, Detail::Likeness, Detail::Likeness];
    let found = [0, 1, 2, 3].map(|at| mean(details[at], IN_WAVES[at].0));
    let times = [0, 1, 2, 3].map(|at| (found[at] - OF_COLOURS) / (IN_WAVES[at].1 - OF_COLOURS));
    println!("{found:?}, {times:?}");
    for (times, least) in times.iter().zip([2.5, 2.0, 1.75, 1.6]) {
        assert!(*times > least, "{found:?}, {times:?}");
    }
    assert!(found[0] > 0.63 && found[3] > 0.73, "{found:?}");
}
