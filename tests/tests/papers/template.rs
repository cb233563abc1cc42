//! The template: put together again from its sheets, it is the wall at full size.

use super::{Seen, demo, is_red, near, read_back};
use overmantel::figures::Figures;
use overmantel::papers::{Kind, Paper};

/// A level or upright line on the wall, in millimetres.
type Segment = [f64; 4];
/// A sheet: which row and column it is, and what it shows, with its inks.
type Shown = ((usize, usize), Vec<(Segment, [f64; 3])>);

/// The sheets of a template laid where their names say: row from the top, place in the row. A4 has a window of 190 × 253 mm, from 10 mm
/// of the left and 26 mm of the foot; neighbours share 10 mm.
struct Joined {
    /// Which row and column, and what it shows, on the wall of the template.
    sheets: Vec<Shown>,
    rows: usize,
}

/// Which row from the top and place in it a sheet says that it is: "Row 2, sheet 3" is 1 and 2.
pub(crate) fn place_of(page: &Seen) -> (usize, usize) {
    let words: Vec<&str> = page.text.split_whitespace().collect();
    let number = |text: &str| text.trim_end_matches(',').parse::<usize>().ok();
    let place = words.windows(4).find_map(|four| match four {
        ["Row", row, "sheet", sheet] => Some((number(row)?, number(sheet)?)),
        _ => None,
    });
    let (row, sheet) = place.expect("a name");
    (row - 1, sheet - 1)
}

fn joined(plan: &overmantel::plan::Plan) -> Joined {
    let (_, seen) = read_back(plan, Kind::Template, Paper::A4);
    let mut sheets = Vec::new();
    let mut rows = 0;
    for page in seen.iter().skip(1) {
        let (row, column) = place_of(page);
        rows = rows.max(row + 1);
        sheets.push(((row, column), page.lines.clone()));
    }
    #[expect(clippy::cast_precision_loss, reason = "few sheets")]
    let place = |((row, column), lines): Shown| {
        let (right, up) = (column as f64 * 180.0 - 10.0, (rows - 1 - row) as f64 * 243.0 - 26.0);
        let moved = |[x, y, x2, y2]: Segment| [x + right, y + up, x2 + right, y2 + up];
        ((row, column), lines.into_iter().map(|(line, ink)| (moved(line), ink)).collect())
    };
    Joined { sheets: sheets.into_iter().map(place).collect(), rows }
}

/// Whether segments along one line cover it from end to end without a hole of more than 0.1 mm.
fn covers(mut parts: Vec<[f64; 2]>, [from, to]: [f64; 2]) -> bool {
    parts.sort_by(|one, other| one[0].total_cmp(&other[0]));
    let mut reached = from;
    for [start, end] in parts {
        if start > reached + 0.1 {
            return false;
        }
        reached = reached.max(end);
    }
    near(reached, to)
}

#[test]
fn outside_edges_are_whole_and_where_the_figures_have_them() {
    for name in ["low-water", "harbour-pair", "three-along-the-stairs"] {
        let plan = demo(name);
        let figures = Figures::of(&plan).expect("figures");
        let group = figures.arranged.group;
        // The template begins 12 mm left of and below the group.
        let (left, foot) = (group.x.to_mm() - 12.0, group.y.to_mm() - 12.0);
        let whole = joined(&plan);
        let lines: Vec<Segment> =
            whole.sheets.iter().flat_map(|sheet| &sheet.1).map(|(line, _)| *line).collect();
        for outside in &figures.arranged.outsides {
            let [x, y] = [outside.x.to_mm() - left, outside.y.to_mm() - foot];
            let [right, top] = [outside.right().to_mm() - left, outside.top().to_mm() - foot];
            for at in [y, top] {
                let parts = lines.iter().filter(|line| near(line[1], at) && near(line[3], at));
                let parts = parts
                    .map(|line| [line[0], line[2]])
                    .filter(|part| part[0] > x - 0.1 && part[1] < right + 0.1);
                assert!(
                    covers(parts.collect(), [x, right]),
                    "{name}: level edge at {at} of {} rows",
                    whole.rows
                );
            }
            for at in [x, right] {
                let parts = lines.iter().filter(|line| near(line[0], at) && near(line[2], at));
                let parts = parts
                    .map(|line| [line[1], line[3]])
                    .filter(|part| part[0] > y - 0.1 && part[1] < top + 0.1);
                assert!(covers(parts.collect(), [y, top]), "{name}: upright edge at {at}");
            }
        }
    }
}

#[test]
fn hooks_are_where_the_figures_have_them() {
    let plan = demo("low-water");
    let figures = Figures::of(&plan).expect("figures");
    let group = figures.arranged.group;
    let whole = joined(&plan);
    let crosses: Vec<[f64; 2]> = whole
        .sheets
        .iter()
        .flat_map(|sheet| &sheet.1)
        .filter(|(line, ink)| is_red(*ink) && near(line[2] - line[0], 5.0) && near(line[1], line[3]))
        .map(|(line, _)| [f64::midpoint(line[0], line[2]), line[1]])
        .collect();
    for hook in figures.hanging.iter().flat_map(|hanging| &hanging.hooks) {
        let place = [(hook.x - group.x).to_mm() + 12.0, (hook.y - group.y).to_mm() + 12.0];
        let found =
            crosses.iter().filter(|cross| near(cross[0], place[0]) && near(cross[1], place[1])).count();
        assert!(found > 0, "{hook:?} in {crosses:?}");
    }
    // And no cross is anywhere else.
    for cross in &crosses {
        let is_hook = figures.hanging.iter().flat_map(|hanging| &hanging.hooks).any(|hook| {
            near((hook.x - group.x).to_mm() + 12.0, cross[0])
                && near((hook.y - group.y).to_mm() + 12.0, cross[1])
        });
        assert!(is_hook, "{cross:?}");
    }
}

#[test]
fn neighbours_have_the_same_register_marks() {
    let whole = joined(&demo("low-water"));
    // The level stroke of a register mark is 8 mm long.
    let marks = |lines: &[(Segment, [f64; 3])]| -> Vec<[f64; 2]> {
        let level = lines.iter().filter(|(line, _)| near(line[2] - line[0], 8.0) && near(line[1], line[3]));
        level.map(|(line, _)| [f64::midpoint(line[0], line[2]), line[1]]).collect()
    };
    let mut compared = 0;
    for (place, lines) in &whole.sheets {
        for (other, others) in &whole.sheets {
            let is_beside = place.0 == other.0 && place.1 + 1 == other.1;
            let is_below = place.1 == other.1 && place.0 + 1 == other.0;
            if !is_beside && !is_below {
                continue;
            }
            let (own, theirs) = (marks(lines), marks(others));
            let shared = own
                .iter()
                .filter(|mark| theirs.iter().any(|known| near(mark[0], known[0]) && near(mark[1], known[1])));
            assert!(shared.count() >= 2, "{place:?} and {other:?}: {own:?} {theirs:?}");
            compared += 1;
        }
    }
    assert!(compared > 20, "{compared} pairs of neighbours");
}

#[test]
fn a_template_that_nobody_would_join_is_refused() {
    use overmantel::{geometry::Size, papers::Job, stock::Stock};
    let mut plan = demo("low-water");
    plan.wall.size = Size::inches(2000, 500);
    for piece in &mut plan.pieces {
        piece.image = Size::inches(360, 360);
    }
    let figures = Figures::of(&plan).expect("figures");
    let stock = Stock::offered();
    let why = Job::new(&plan, &figures, &stock, Paper::A4).document(Kind::Template).expect_err("too many");
    let why = why.to_string();
    assert!(
        why.starts_with("the template at full size would need ")
            && why.ends_with("mark the wall from the hanging plan"),
        "{why}"
    );
}
