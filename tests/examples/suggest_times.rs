//! How many combinations are considered in what time, and how that grows with the number of sizes.
//!
//! `cargo run --release --package overmantel-tests --example suggest_times`. Times are the median of several runs, all of it: what is on
//! offer worked out, the search, and the plans with their reasons. They depend on the machine.

#![allow(missing_docs, reason = "a program")]

use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::{Picture, Plan, System};
use overmantel::stock::{StandardSize, Stock};
use overmantel::suggest::{SuggestionWish, suggest};
use std::time::Instant;

const ROUNDS: usize = 15;

/// Three pictures of so many pixels over the sofa.
fn plan(width_px: u32, height_px: u32) -> Plan {
    let picture = |name: &str| Picture {
        name: name.to_owned(),
        file: format!("{name}.jpg"),
        width_px,
        height_px,
        subject: None,
    };
    Plan { pictures: ["Ebb", "Slack water", "Flood"].map(picture).into(), ..Plan::starting() }
}

fn report(name: &str, plan: &Plan, stock: &Stock) -> Result<(), Box<dyn std::error::Error>> {
    let mut times = Vec::new();
    let mut counted = (0, 0);
    for _ in 0..ROUNDS {
        let start = Instant::now();
        let found = suggest(plan, stock, &SuggestionWish::default())?;
        times.push(start.elapsed().as_secs_f64() * 1000.0);
        counted = (found.considered, found.looked_at);
    }
    times.sort_by(f64::total_cmp);
    let (considered, looked_at) = counted;
    println!("{name}: {considered} considered, {looked_at} looked at, {:.1} ms", times[ROUNDS / 2]);
    Ok(())
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let offered = Stock::offered();
    for (name, px) in [("large files", (9000, 6000)), ("middling", (4500, 3000)), ("small", (1500, 1000))] {
        report(&format!("what is on offer, {name}"), &plan(px.0, px.1), &offered)?;
    }
    report("what is on offer, of a shape of no size", &plan(7919, 3301), &offered)?;
    for count in [10_i64, 20, 40, 80, 160] {
        let listed = |index: i64| {
            let size =
                Size::new(Length::inches(8 + index % 20), Length::inches(10 + index % 20 + index / 20 * 2));
            StandardSize {
                name: format!("size {index}"),
                series: "made up".to_owned(),
                system: System::Inches,
                size,
                is_print: true,
                is_frame: true,
            }
        };
        let stock = Stock { sizes: (0..count).map(listed).collect(), ..Stock::offered() };
        report(&format!("{count} sizes"), &plan(4500, 3000), &stock)?;
    }
    Ok(())
}
