//! The link on a proposal: read off the drawn page by a reader of QR codes that had no part in making it.

use super::demo;
use overmantel::figures::Figures;
use overmantel::link::{self, Link};
use overmantel::papers::{Job, Kind, Paper, raster};
use overmantel::stock::Stock;

/// What a reader finds on the pages of a proposal with this address, and all that is written on them.
fn read(address: &str) -> (Vec<String>, String) {
    let plan = demo("low-water.json");
    let (figures, stock) = (Figures::of(&plan).expect("figures"), Stock::offered());
    let job = Job { address: Some(address.to_owned()), ..Job::new(&plan, &figures, &stock, Paper::A4) };
    let document = job.document(Kind::Proposal).expect("a document");
    let (mut found, mut written) = (Vec::new(), String::new());
    for page in &document.pages {
        // 210 mm at 2520 pixels: 12 to the millimetre, as a printer sets them.
        let (width, height) = (2520, raster::height(page, 2520));
        let pixels = raster::draw(page, width, &[]).expect("pixels");
        let grey = |x: usize, y: usize| pixels[(y * width as usize + x) * 4 + 1];
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(width as usize, height as usize, grey);
        found.extend(image.detect_grids().iter().map(|grid| grid.decode().expect("a code").1));
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
    let plan = demo("low-water.json");
    let long =
        link::address("https://example.org/overmantel.html", &link::write(&Link::of(plan))).expect("a link");
    let (found, written) = read(&long);
    assert_eq!(found, std::slice::from_ref(&long));
    assert!(written.contains(&format!("The address has {} characters", long.len())), "{written}");
    let short = "https://example.org/w#AbC-dEf_123";
    let (found, written) = read(short);
    assert_eq!(found, [short]);
    assert!(written.contains(short), "{written}");
    let (found, written) = read(&"a".repeat(930));
    assert!(found.is_empty() && written.contains("930 characters, too many for a QR code"), "{written}");
}
