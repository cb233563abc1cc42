//! The link on a proposal: read off the drawn page by a reader of QR codes that had no part in making it.

use super::demo;
use overmantel::figures::Figures;
use overmantel::link::{self, Link};
use overmantel::papers::{Job, Kind, Paper, raster};
use overmantel::stock::Stock;

/// What a reader finds on the pages of a proposal with this address, and all that is written on them.
fn read(address: &str) -> (Vec<String>, String) {
    let plan = demo("low-water");
    let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
    let job = Job { address: Some(address.to_owned()), ..Job::new(&plan, &figures, &stock, Paper::A4) };
    let document = job.document(Kind::Proposal).expect("a document");
    let (mut found, mut written) = (Vec::new(), String::new());
    for page in &document.pages {
        // The paper is 210 mm wide: so many pixels to the millimetre.
        for px_per_mm in [4, 5, 6] {
            let width = 210 * px_per_mm;
            let height = raster::height(page, width);
            let pixels = raster::draw(page, width, &[]).expect("pixels");
            let grey = |x: usize, y: usize| pixels[(y * width as usize + x) * 4 + 1];
            let mut image =
                rqrr::PreparedImage::prepare_from_greyscale(width as usize, height as usize, grey);
            for grid in image.detect_grids() {
                found.push(grid.decode().unwrap_or_else(|why| panic!("at {px_per_mm} px/mm: {why}")).1);
            }
        }
        for item in page.blocks.iter().flat_map(|block| &block.items) {
            if let overmantel::papers::sheet::Item::Text(line) = item {
                written = [&written, " ", line.text.as_str()].concat();
            }
        }
    }
    (found, written)
}

#[test]
fn a_proposal_has_the_link_as_a_code_that_can_be_read() {
    let plan = demo("low-water");
    let long =
        link::address("https://example.org/overmantel.html", &link::write(&Link::of(plan))).expect("a link");
    let (found, written) = read(&long);
    assert_eq!(found, [long.as_str(); 3], "at each fineness");
    assert!(written.contains(&format!("The address has {} characters", long.len())), "{written}");
    let short = "https://example.org/w#AbC-dEf_123";
    let (found, written) = read(short);
    assert_eq!(found, [short; 3]);
    assert!(written.contains(short), "{written}");
    let (found, written) = read(&"a".repeat(930));
    assert!(found.is_empty() && written.contains("930 characters, too many for a QR code"), "{written}");
}

#[test]
fn a_code_is_drawn_in_modules_of_half_a_millimetre_and_more_without_seams() {
    use overmantel::link::CodeSquare;
    // As long as a code takes by byte mode at level L in version 21 (ISO/IEC 18004, table 7: 929 bytes), and a short one.
    for (length, side) in [(929, 101 + 8), (17, 21 + 8)] {
        let square = CodeSquare::of(&"a".repeat(length)).expect("a code");
        assert_eq!(square.side(), side);
        let outlines = square.outlines();
        // The area within the outlines (a light hole is taken away) is that of the dark modules.
        let twice: i64 = outlines
            .iter()
            .map(|outline| {
                let next = outline.iter().cycle().skip(1);
                let pairs = outline.iter().zip(next);
                pairs
                    .map(|(a, b)| i64::from(a[0]) * i64::from(b[1]) - i64::from(b[0]) * i64::from(a[1]))
                    .sum::<i64>()
            })
            .sum();
        let dark = (0..side * side).filter(|at| square.is_dark(at % side, at / side)).count();
        assert_eq!(twice, 2 * i64::try_from(dark).expect("a count"));
        for outline in &outlines {
            for (one, other) in outline.iter().zip(outline.iter().cycle().skip(1)) {
                assert!(
                    (one[0] == other[0]) != (one[1] == other[1]),
                    "{one:?} to {other:?} is upright or level"
                );
                assert!(
                    one.iter().all(|&at| (4..=side - 4).contains(&at)),
                    "four quiet modules round it: {one:?}"
                );
            }
        }
        // The three finders have a ring and a middle each; no square of 7 modules shows a seam.
        for [x, y] in [[4, 4], [side - 11, 4], [4, side - 11]] {
            let ring = outlines
                .iter()
                .filter(|outline| {
                    outline.len() == 4 && outline.contains(&[x + 7, y + 7]) && outline.contains(&[x, y])
                })
                .count();
            assert_eq!(ring, 1, "one outline round the finder at {x}, {y}");
        }
    }
}
