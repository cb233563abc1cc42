//! Any plan has its papers, and nothing on them lies beyond the page.

use super::any_plan::any_plan;
use overmantel::figures::Figures;
use overmantel::geometry::{Point, Rect, Size};
use overmantel::length::Length;
use overmantel::papers::sheet::{Item, Page, Step};
use overmantel::papers::{Job, Kind, Paper, PaperError, pdf};
use overmantel::stock::Stock;
use overmantel::text;
use proptest::prelude::*;

/// The corners of what an item covers.
fn corners(item: &Item) -> Vec<Point> {
    match item {
        Item::Text(set) => {
            let long = text::length(set.face, &set.text, set.em);
            let end = if set.is_upright {
                Point::new(set.at.x, set.at.y + long)
            } else {
                Point::new(set.at.x + long, set.at.y)
            };
            vec![set.at, end]
        }
        Item::Line(line) => vec![line.from, line.to],
        Item::Shape { path, .. } => path
            .iter()
            .filter_map(|step| match step {
                Step::Move(to) | Step::Line(to) | Step::Curve([_, _, to]) => Some(*to),
                Step::Close => None,
            })
            .collect(),
        Item::Picture { rect, .. } => vec![Point::new(rect.x, rect.y), Point::new(rect.right(), rect.top())],
    }
}

fn beyond(page: &Page) -> Option<String> {
    let whole = Rect::new(Length::ZERO, Length::ZERO, Size::new(page.size.width, page.size.height));
    let items = page.blocks.iter().flat_map(|block| &block.items);
    let out = items.filter(|item| corners(item).iter().any(|corner| !whole.contains(*corner)));
    out.map(|item| format!("{item:?}")).next()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    #[test]
    fn any_plan_has_its_papers(plan in any_plan().prop_filter("it has an answer", |plan| Figures::of(plan).is_ok())) {
        let figures = Figures::of(&plan).expect("it has an answer");
        let stock = Stock::offered();
        for paper in [Paper::A4, Paper::Letter] {
            let job = Job::new(&plan, &figures, &stock, paper);
            for kind in Kind::ALL {
                match job.document(kind) {
                    Ok(document) => {
                        prop_assert!(!document.pages.is_empty());
                        for page in &document.pages {
                            let found = beyond(page);
                            prop_assert!(found.is_none(), "{kind:?} on {paper:?}: {found:?}");
                        }
                        prop_assert!(pdf::write(&document, &[]).starts_with(b"%PDF-1.7"));
                    }
                    Err(why) => {
                        prop_assert!(kind == Kind::Template && matches!(why, PaperError::Sheets(_)), "{why}");
                    }
                }
            }
        }
    }
}
