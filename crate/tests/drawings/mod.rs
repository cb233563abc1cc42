//! Drawings whose bytes must be the same natively and in wasm: the demo's plans with a picture made here.
//!
//! The hashes were taken from the native drawings; what they prove is that both draw the same, on every machine. Whether a
//! drawing is right is for the golden pictures and the tests that measure. `BLESS=1` with the native test prints new hashes, and
//! fails.

use overmantel::desk::Desk;
use overmantel::draw::{Sheet, Theme, View, section};
use overmantel::figures::Figures;
use overmantel::link::{self, Detail, Link, Sketch};
use overmantel::papers::{Job, Kind, Paper, pdf};
use overmantel::plan::file;
use overmantel::resample::Raster;
use overmantel::stock::Stock;

/// A drawing and the hash of its bytes.
pub(crate) struct Case {
    /// What it is.
    pub(crate) name: &'static str,
    plan: &'static str,
    dark: bool,
    width_px: u32,
    pixel_ratio: f32,
    view: View,
    /// FNV-1a, 64 bits, of its pixels.
    pub(crate) hash: u64,
}

/// All of them.
pub(crate) const CASES: [Case; 7] = [
    Case {
        name: "low water",
        plan: include_str!("../../../demo-data/plans/low-water.json"),
        dark: false,
        width_px: 900,
        pixel_ratio: 1.0,
        view: View::Elevation,
        hash: 0x53a6_006e_a44c_429f,
    },
    Case {
        name: "low water on a phone",
        plan: include_str!("../../../demo-data/plans/low-water.json"),
        dark: true,
        width_px: 780,
        pixel_ratio: 2.0,
        view: View::Elevation,
        hash: 0xc3eb_01e2_6093_bf7c,
    },
    Case {
        name: "harbour pair",
        plan: include_str!("../../../demo-data/plans/harbour-pair.json"),
        dark: false,
        width_px: 1000,
        pixel_ratio: 1.0,
        view: View::Elevation,
        hash: 0x93c_c603_a4d9_1477,
    },
    Case {
        name: "three along the stairs",
        plan: include_str!("../../../demo-data/plans/three-along-the-stairs.json"),
        dark: true,
        width_px: 700,
        pixel_ratio: 1.0,
        view: View::Elevation,
        hash: 0x1078_bb58_7776_00d8,
    },
    Case {
        name: "evening from the viewer's place",
        plan: include_str!("../../../demo-data/plans/evening-by-the-lamp.json"),
        dark: false,
        width_px: 600,
        pixel_ratio: 1.0,
        view: View::Oblique,
        hash: 0x51bf_9718_b6c1_c1b0,
    },
    Case {
        name: "low water from the viewer's place",
        plan: include_str!("../../../demo-data/plans/low-water.json"),
        dark: false,
        width_px: 600,
        pixel_ratio: 1.0,
        view: View::Oblique,
        hash: 0xc533_5f96_b77e_568d,
    },
    Case {
        name: "harbour pair from the viewer's place",
        plan: include_str!("../../../demo-data/plans/harbour-pair.json"),
        dark: true,
        width_px: 500,
        pixel_ratio: 1.0,
        view: View::Oblique,
        hash: 0x9ffb_bc6f_d125_d3ca,
    },
];

/// The papers of a plan and the hash of their bytes.
pub(crate) const PAPERS: [(&str, &str, u64); 2] = [
    ("low water", include_str!("../../../demo-data/plans/low-water.json"), 0x826c_4af5_acd4_76c4),
    (
        "evening by the lamp",
        include_str!("../../../demo-data/plans/evening-by-the-lamp.json"),
        0x2daf_59e7_9471_e82c,
    ),
];

/// Writes every paper of a plan on both sizes, and hashes their bytes.
pub(crate) fn papers_hash(plan: &str) -> u64 {
    let plan = file::read(plan).expect("the demo's plans are plans");
    let (figures, stock) = (Figures::of(&plan).expect("an answer"), Stock::offered());
    let mut bytes = Vec::new();
    for paper in [Paper::A4, Paper::Letter] {
        let job = Job {
            author: String::from("Orla Tidewell"),
            date: Some((2026, 11, 26)),
            address: Some(String::from("https://example.org/overmantel.html#0")),
            ..Job::new(&plan, &figures, &stock, paper)
        };
        for kind in Kind::ALL {
            bytes.extend(pdf::write(&job.document(kind).expect("a document"), &[]));
        }
    }
    fnv(&bytes)
}

/// Draws a case and the sections of its pieces, and hashes their bytes. Moves the group there and back first, so that what a painter keeps is used.
pub(crate) fn hash(case: &Case) -> u64 {
    let plan = file::read(case.plan).expect("the demo's plans are plans");
    let mut desk = Desk::new(plan).expect("the demo's plans have an answer");
    for picture in desk.plan().pictures.clone() {
        let raster = waves(picture.width_px / 12, picture.height_px / 12);
        desk.put_copy(&picture.name, (picture.width_px, picture.height_px), raster);
    }
    let mut sheet = Sheet::new(case.width_px, 1);
    sheet.pixel_ratio = case.pixel_ratio;
    sheet.view = case.view;
    sheet.theme = if case.dark { Theme::DARK } else { Theme::LIGHT };
    sheet.height_px = desk.height_for_width(&sheet);
    desk.draw(&sheet);
    desk.set(&overmantel::field::GROUP_MIDDLE, "40 in").expect("the group can be moved");
    desk.draw(&sheet);
    assert!(desk.undo(), "a move can be undone");
    let mut bytes = desk.draw(&sheet).pixels.to_vec();
    let system = desk.plan().units.first;
    let narrow = Sheet { width_px: case.width_px / 2, ..sheet };
    for section in (0..desk.plan().pieces.len()).filter_map(|piece| desk.section(piece)) {
        bytes.extend(section::draw(&section, &narrow, system).pixels);
    }
    fnv(&bytes)
}

/// The hash of a link with sketches in every detail, and of their pixels.
pub(crate) const LIKENESSES: u64 = 0x9220_ea73_337e_180f;

/// Sketches a picture in every detail, and hashes the link with them and what it is read as.
pub(crate) fn likenesses_hash() -> u64 {
    let sketch = |detail| Some(Sketch::of(&waves(320, 240), detail, 400));
    let plan = file::read(PAPERS[0].1).expect("the demo's plans are plans");
    let text = link::write(&Link { sketches: Detail::ALL.map(sketch).to_vec(), ..Link::of(plan) });
    let (read, _) = link::read(&text).expect("a link");
    let rasters = read.sketches.iter().flatten().filter_map(Sketch::raster);
    let pixels: Vec<u8> = rasters.flat_map(|raster| raster.pixels().to_vec()).collect();
    fnv(&[text.as_bytes(), &pixels].concat())
}

/// A picture with slopes and edges in all channels, from integers alone.
fn waves(width: u32, height: u32) -> Raster {
    let mut pixels = Vec::new();
    for y in 0..height {
        for x in 0..width {
            let channel = |value: u32| u8::try_from(value % 256).unwrap_or(0);
            pixels.extend([
                channel(x * 3 + y),
                channel((x / 9 + y / 7) % 2 * 180 + x / 8),
                channel(x * y / 64),
                255,
            ]);
        }
    }
    Raster::new(width, height, pixels).expect("four bytes a pixel")
}

/// FNV-1a of 64 bits (Fowler, Noll and Vo; constants as in the IETF draft draft-eastlake-fnv).
fn fnv(bytes: &[u8]) -> u64 {
    bytes
        .iter()
        .fold(0xcbf2_9ce4_8422_2325, |hash, &byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
}
