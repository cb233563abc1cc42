//! Papers as two other programs read them: poppler and mupdf.
//!
//! What is measured is what they draw, at 127 dots to the inch, which are five pixels to the millimetre. They may not be on a machine, so these
//! tests are left out of others; `cargo verify --only viewers` runs them, and names the programs in variables.

use super::{DEMOS, bytes, demo, read_back, template};
use image::RgbImage;
use overmantel::papers::{Kind, Paper};
use std::collections::BTreeMap;
use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

const PIXELS_PER_MM: f64 = 5.0;
/// Two pixels: a line's edge is spread over two of them, and poppler rounds a page up to whole ones.
const TOLERANCE_MM: f64 = 0.4;

#[derive(Clone, Copy, Debug)]
enum Viewer {
    Poppler,
    Mupdf,
}

const VIEWERS: [Viewer; 2] = [Viewer::Poppler, Viewer::Mupdf];

/// What a program writes to its output.
#[track_caller]
fn output(variable: &str, name: &str, arguments: &[&str]) -> String {
    let program = env::var_os(variable).unwrap_or_else(|| name.into());
    let output = Command::new(program).args(arguments).output().unwrap_or_else(|why| panic!("{name}: {why}"));
    assert!(output.status.success(), "{name} {arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// A new folder of this test's own.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("viewers").join(name);
    let _gone = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

/// A paper of the demo as a file.
fn written(folder: &Path, name: &str, kind: Kind, paper: Paper) -> String {
    let file = folder.join(format!("{name}-{kind:?}.pdf"));
    fs::write(&file, bytes(&demo(name), kind, paper, &[])).expect("a file");
    file.to_str().expect("a path in letters").to_owned()
}

impl Viewer {
    /// Every page of a file.
    fn drawn(self, file: &str, folder: &Path) -> Vec<RgbImage> {
        let start = folder.join(format!("{self:?}"));
        let start = start.to_str().expect("a path in letters");
        match self {
            Self::Poppler => output("PDFTOPPM", "pdftoppm", &["-r", "127", "-png", file, start]),
            Self::Mupdf => {
                let pages = format!("{start}-%d.png");
                output("MUTOOL", "mutool", &["draw", "-q", "-r", "127", "-c", "rgb", "-o", &pages, file])
            }
        };
        let mut pages = BTreeMap::new();
        for path in fs::read_dir(folder).expect("a folder").flatten().map(|entry| entry.path()) {
            let name = path.file_stem().and_then(|name| name.to_str()).unwrap_or_default();
            if let Some(page) =
                name.strip_prefix(&format!("{self:?}-")).and_then(|page| page.parse::<u32>().ok())
            {
                pages.insert(page, image::open(&path).expect("a picture").to_rgb8());
                fs::remove_file(&path).expect("it was read");
            }
        }
        pages.into_values().collect()
    }

    /// The text of a page, counted from 1.
    fn text(self, file: &str, page: usize) -> String {
        let page = page.to_string();
        match self {
            Self::Poppler => output("PDFTOTEXT", "pdftotext", &["-f", &page, "-l", &page, file, "-"]),
            Self::Mupdf => output("MUTOOL", "mutool", &["draw", "-q", "-F", "txt", file, &page]),
        }
    }
}

/// A page's pixels by its millimetres from the lower left corner.
struct Pixels<'a> {
    image: &'a RgbImage,
    height_mm: f64,
}

impl Pixels<'_> {
    fn at(&self, x: f64, y: f64) -> Option<[u8; 3]> {
        let whole = |mm: f64| u32::try_from(overmantel::rounding::nearest((mm * PIXELS_PER_MM).floor())).ok();
        let (x, y) = (whole(x)?, whole(self.height_mm - y)?);
        self.image.get_pixel_checked(x, y).map(|pixel| pixel.0)
    }

    /// The first and the last place of a run along a line at which a pixel is so, as the edges of those pixels.
    fn extent(&self, from: [f64; 2], to: [f64; 2], is: impl Fn([u8; 3]) -> bool) -> Option<[f64; 2]> {
        // Level or upright.
        let length = (to[0] - from[0]).abs() + (to[1] - from[1]).abs();
        let mut steps = 0.0;
        let mut found: Option<[f64; 2]> = None;
        while steps < length {
            let share = steps / length;
            let place = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
            if self.at(place[0], place[1]).is_some_and(&is) {
                found = Some([found.map_or(steps, |found| found[0]), steps]);
            }
            steps += 0.05;
        }
        found
    }
}

fn is_dark(pixel: [u8; 3]) -> bool {
    pixel.iter().all(|&channel| channel < 190)
}

fn is_red(pixel: [u8; 3]) -> bool {
    pixel[0] > 140 && pixel[1] < 140 && pixel[2] < 140
}

#[track_caller]
fn assert_near(found: f64, expected: f64, what: &str) {
    assert!((found - expected).abs() <= TOLERANCE_MM, "{what}: {found:.2} mm for {expected:.2}");
}

/// ISO 216: A4 is 210 × 297 mm; Letter 8 1/2 × 11 in. By poppler's own account, to a hundredth of a millimetre, and by the pixels of both.
#[test]
#[ignore = "needs poppler and mupdf"]
fn pages_have_their_sizes() {
    let folder = folder("sizes");
    for (paper, size) in [(Paper::A4, [210.0, 297.0]), (Paper::Letter, [215.9, 279.4])] {
        let file = written(&folder, "low-water", Kind::Hanging, paper);
        let told = output("PDFINFO", "pdfinfo", &["-f", "1", "-l", "99", &file]);
        let sizes: Vec<Vec<f64>> = told
            .lines()
            .filter_map(|line| line.strip_prefix("Page ")?.split_once("size:"))
            .map(|(_, size)| size.split_whitespace().filter_map(|word| word.parse().ok()).collect())
            .collect();
        assert!(!sizes.is_empty(), "{told}");
        for found in &sizes {
            for (points, mm) in found.iter().zip(size) {
                assert!((points / 72.0 * 25.4 - mm).abs() < 0.01, "{found:?} for {size:?}");
            }
        }
        for viewer in VIEWERS {
            let pages = viewer.drawn(&file, &folder);
            assert_eq!(pages.len(), sizes.len(), "{viewer:?}");
            for page in &pages {
                assert_near(f64::from(page.width()) / PIXELS_PER_MM, size[0], "width");
                assert_near(f64::from(page.height()) / PIXELS_PER_MM, size[1], "height");
            }
        }
    }
}

/// From the first to the last dark pixel along the middle of each bar are 100 mm, and 4 in or 101.6 mm, and the outline's half at both ends.
#[test]
#[ignore = "needs poppler and mupdf"]
fn bars_are_as_long_as_they_say() {
    let folder = folder("bars");
    for (name, paper, height_mm) in [("low-water", Paper::Letter, 279.4), ("harbour-pair", Paper::A4, 297.0)]
    {
        for kind in Kind::ALL {
            let file = written(&folder, name, kind, paper);
            let (_, seen) = read_back(&demo(name), kind, paper);
            for viewer in VIEWERS {
                let pages = viewer.drawn(&file, &folder);
                assert_eq!(pages.len(), seen.len(), "{name} {kind:?} {viewer:?}");
                for (number, (image, page)) in pages.iter().zip(&seen).enumerate() {
                    let pixels = Pixels { image, height_mm };
                    for long in [100.0, 101.6] {
                        // Where to look is lopdf's to say; how long it is, is measured.
                        let bars = page.sized(long, 1.4);
                        let &[[x, y, _, height]] = bars.as_slice() else {
                            panic!("{name} {kind:?}: one bar")
                        };
                        let middle = y + height / 2.0;
                        let [first, last] = pixels
                            .extent([x - 3.0, middle], [x + long + 1.5, middle], is_dark)
                            .unwrap_or_else(|| {
                                panic!("{name} {kind:?} {viewer:?}: no bar on page {}", number + 1)
                            });
                        assert_near(
                            last - first,
                            long,
                            &format!("{name} {kind:?} {viewer:?}, page {}", number + 1),
                        );
                        assert_near(first, 3.0, "the bar's beginning");
                    }
                }
            }
        }
    }
}

/// The low-water triptych by hand, in inches from the group's lower left corner: outsides of 21 1/8 × 25 1/8, 3 apart; hooks 3/8 from both
/// sides and 62 1/8 - (34 + 8) = 20 1/8 up. On a template the group begins 12 mm from both edges; a sheet of A4 shows 180 × 243 mm of its own,
/// from 10 mm of the left and 26 mm of the foot.
#[test]
#[ignore = "needs poppler and mupdf"]
fn hooks_and_edges_of_the_template_are_at_full_size() {
    let folder = folder("template");
    let file = written(&folder, "low-water", Kind::Template, Paper::A4);
    let (_, seen) = read_back(&demo("low-water"), Kind::Template, Paper::A4);
    let places: Vec<(usize, usize)> = seen.iter().skip(1).map(template::place_of).collect();
    let rows = 1 + places.iter().map(|place| place.0).max().expect("sheets");
    let place = |inches: f64| inches * 25.4 + 12.0;
    let lefts = [0.0, 24.125, 48.25];
    for viewer in VIEWERS {
        let pages = viewer.drawn(&file, &folder);
        assert_eq!(pages.len(), seen.len());
        let (mut hooks, mut edges, mut missed) = (0, 0, Vec::new());
        for (image, &(row, column)) in pages.iter().skip(1).zip(&places) {
            let pixels = Pixels { image, height_mm: 297.0 };
            #[expect(clippy::cast_precision_loss, reason = "few sheets")]
            let (right, up) = (column as f64 * 180.0 - 10.0, (rows - 1 - row) as f64 * 243.0 - 26.0);
            let on_page = |[x, y]: [f64; 2]| [x - right, y - up];
            let is_shown = |[x, y]: [f64; 2]| (14.0..196.0).contains(&x) && (30.0..275.0).contains(&y);
            for x in lefts.iter().flat_map(|left| [left + 0.375, left + 20.75]) {
                let [x, y] = on_page([place(x), place(20.125)]);
                if !is_shown([x, y]) {
                    continue;
                }
                // The cross is 2.6 mm wide and high, and its middle is the hook.
                let level = pixels.extent([x - 1.8, y], [x + 1.8, y], is_red);
                let upright = pixels.extent([x, y - 1.8], [x, y + 1.8], is_red);
                let (Some(level), Some(upright)) = (level, upright) else {
                    panic!("{viewer:?}: no cross at {x:.1}, {y:.1} of {row}, {column}")
                };
                assert_near(f64::midpoint(level[0], level[1]), 1.8, "across");
                assert_near(f64::midpoint(upright[0], upright[1]), 1.8, "up");
                hooks += 1;
            }
            for left in lefts {
                let (x, x2, y, y2) = (place(left), place(left + 21.125), place(0.0), place(25.125));
                let mut along = 10.0;
                while along < 630.0 {
                    let mut spots = Vec::new();
                    if along < x2 - x {
                        spots.extend([([x + along, y], [0.0, 1.5]), ([x + along, y2], [0.0, 1.5])]);
                    }
                    if along < y2 - y {
                        spots.extend([([x, y + along], [1.5, 0.0]), ([x2, y + along], [1.5, 0.0])]);
                    }
                    for (spot, [dx, dy]) in spots {
                        let [x, y] = on_page(spot);
                        if !is_shown([x, y]) {
                            continue;
                        }
                        let found = pixels.extent([x - dx, y - dy], [x + dx, y + dy], is_dark);
                        edges += 1;
                        if !found.is_some_and(|found| {
                            (f64::midpoint(found[0], found[1]) - 1.5).abs() <= TOLERANCE_MM
                        }) {
                            missed.push((spot, found));
                        }
                    }
                    along += 17.0;
                }
            }
        }
        assert!(hooks >= 6, "{viewer:?}: {hooks} crosses are well within a sheet");
        assert!(edges > 200, "{viewer:?}: {edges} places on edges");
        // Lettering and the lines of the middle cross an edge here and there.
        assert!(missed.len() * 50 <= edges, "{viewer:?}: {} of {edges}, as {:?}", missed.len(), missed[0]);
    }
}

/// Words with figures as they are typed: `37¹¹⁄₁₆` as `37 11/16`, `m²` as `m2`.
fn words(text: &str) -> BTreeMap<String, u32> {
    let (over, under) = ("⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉");
    let plain = |letter: char| {
        let digit = |set: &str| set.chars().position(|known| known == letter);
        digit(over)
            .or_else(|| digit(under))
            .and_then(|digit| char::from_digit(u32::try_from(digit).ok()?, 10))
    };
    let mut typed = String::new();
    let mut before = ' ';
    for letter in text.chars() {
        // A whole number stands apart from the fraction after it.
        if over.contains(letter) && before.is_ascii_digit() {
            typed.push(' ');
        }
        typed.push(if letter == '⁄' { '/' } else { plain(letter).unwrap_or(letter) });
        before = letter;
    }
    let mut counted = BTreeMap::new();
    for word in typed.split_whitespace() {
        *counted.entry(word.to_owned()).or_default() += 1;
    }
    counted
}

/// A search and a reader find the same words, so often, in either program and by lopdf.
#[test]
#[ignore = "needs poppler and mupdf"]
fn both_read_the_same_words() {
    let folder = folder("words");
    assert_eq!(words("58¹⁄₁₆″ at 3 g/m²"), words("at 3 58 1/16″ g/m2"));
    for name in DEMOS {
        for kind in Kind::ALL {
            let file = written(&folder, name, kind, Paper::A4);
            let (_, seen) = read_back(&demo(name), kind, Paper::A4);
            for (index, page) in seen.iter().enumerate() {
                let [poppler, mupdf] = VIEWERS.map(|viewer| words(&viewer.text(&file, index + 1)));
                assert!(poppler.len() > 10, "{name} {kind:?}, page {}: {poppler:?}", index + 1);
                let lopdf = words(&page.text);
                for (other, found) in [("poppler", &poppler), ("lopdf", &lopdf)] {
                    let lacks = |one: &BTreeMap<String, u32>, two: &BTreeMap<String, u32>| -> Vec<String> {
                        let is_other = |word: &&String| one.get(*word) != two.get(*word);
                        one.keys().filter(is_other).cloned().collect()
                    };
                    let differ = (lacks(found, &mupdf), lacks(&mupdf, found));
                    assert_eq!(
                        differ,
                        (vec![], vec![]),
                        "{other} and mupdf, {name} {kind:?}, page {}",
                        index + 1
                    );
                }
            }
        }
    }
    // By hand, as in the test of the hanging plan: 37 5/16 + 3/8 in from the corner is 957 mm.
    let hanging = words(&Viewer::Mupdf.text(&written(&folder, "low-water", Kind::Hanging, Paper::A4), 1));
    for word in ["Hanging", "37", "11/16″", "957", "62", "1/8″", "1578"] {
        assert!(hanging.contains_key(word), "{word} in {hanging:?}");
    }
}
