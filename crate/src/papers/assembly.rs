//! Receiving and assembling: what to measure of what comes back and how far it may be off, and the order in which it goes together.

use super::Said;
use super::flow::{BODY, Early, Flow, NOTE, Table};
use super::sheet::Page;
use super::{Job, Kind};
use crate::cut_list::{CutPart, Extent};
use crate::hardware::hardware;
use crate::length::Length;
use crate::making::{Thing, things};
use crate::measure::{self, Grade};
use crate::plan::{Finish, Glazing, Hanger, Piece};
use crate::spec::{alike, capital};
use crate::tolerances::{CUT_TO, Measured, Tolerance, tolerances};
use crate::words::in_units;

pub(super) fn pages(job: &Job<'_>, early: Early) -> Vec<Page> {
    let mut flow = Flow::new(job, Kind::Assembly, early);
    flow.caution(
        &[caution(&job.plan.pieces), " Local rules and licensed practice come before this paper."].said(),
    );
    let all = things(job.plan, job.figures, job.stock);
    let told: Vec<&Thing> = if alike(job.plan) { all.iter().take(1).collect() } else { all.iter().collect() };
    for way in [Way::Packed, Way::Stretched, Way::Sheet] {
        let group: Vec<&Thing> = told.iter().copied().filter(|thing| Way::of(job, thing) == way).collect();
        if group.is_empty() {
            continue;
        }
        let of = if group.len() == told.len() {
            String::new()
        } else {
            [" of ", &in_words(&numbers(&group))].said()
        };
        received(job, &group, &of, &mut flow);
        assembled(job, &group, &of, &mut flow);
    }
    flow.finish()
}

/// How a thing is put together: those of one way are told together, with what differs between them.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Packed,
    Stretched,
    Sheet,
}

impl Way {
    fn of(job: &Job<'_>, thing: &Thing) -> Self {
        match &job.plan.pieces[thing.pieces[0]].finish {
            Finish::Canvas(_) => Self::Stretched,
            Finish::Aluminium(_) => Self::Sheet,
            Finish::Original(original) if original.floater.is_some() => Self::Stretched,
            Finish::Paper(_) | Finish::Original(_) => Self::Packed,
        }
    }
}

/// The numbers of the pieces in some things.
pub(super) fn numbers(things: &[&Thing]) -> Vec<usize> {
    things.iter().flat_map(|thing| thing.pieces.iter().map(|piece| piece + 1)).collect()
}

/// Pieces by their numbers: `piece 2`, `pieces 1 and 3`.
pub(super) fn in_words(numbers: &[usize]) -> String {
    let texts: Vec<String> = numbers.iter().map(usize::to_string).collect();
    match texts.split_last() {
        Some((last, others)) if !others.is_empty() => ["pieces ", &others.join(", "), " and ", last].said(),
        last => ["piece ", last.map_or("", |(last, _)| last.as_str())].said(),
    }
}

/// What is the same of several things once, what differs with the pieces that it is of.
struct Variants<T>(Vec<(Vec<usize>, T)>);

impl<T: PartialEq> Variants<T> {
    fn new() -> Self {
        Self(Vec::new())
    }

    fn add(&mut self, thing: &Thing, one: T) {
        let pieces = numbers(&[thing]);
        match self.0.iter_mut().find(|(_, known)| *known == one) {
            Some((of, _)) => {
                of.extend(pieces.into_iter().filter(|piece| !of.contains(piece)).collect::<Vec<_>>())
            }
            None => self.0.push((pieces, one)),
        }
    }

    /// Each with the pieces that it is of, or with none where it is of all of them.
    fn told(self, all: &[usize]) -> impl Iterator<Item = (String, T)> {
        let of_all = all.len();
        self.0
            .into_iter()
            .map(move |(of, one)| (if of.len() == of_all { String::new() } else { in_words(&of) }, one))
    }
}

/// What may cut the hands or the eyes of whoever assembles these.
fn caution(pieces: &[Piece]) -> &'static str {
    let is_glazed =
        |piece: &Piece| piece.finish.framing().is_some_and(|framing| framing.glazing != Glazing::None);
    let has_metal = pieces.iter().any(|piece| matches!(piece.finish, Finish::Aluminium(_)));
    match (pieces.iter().any(is_glazed), has_metal) {
        (true, true) => "Glass and sheet metal can cut you: wear gloves.",
        (true, false) => "Glass can cut you: wear gloves.",
        (false, true) => "Sheet metal can cut you: wear gloves.",
        (false, false) => "Staples, brads and wire ends can hurt you: wear safety glasses.",
    }
}

/// What to measure when prints and frames come back.
fn received(job: &Job<'_>, group: &[&Thing], of: &str, flow: &mut Flow) {
    let mut table =
        Table::new(&["Measure", "Stated", "May be smaller by", "May be larger by", "Absorbed by"]);
    // By what is measured, in the order in which it stands in the first that has it.
    let mut measures: Vec<(String, Variants<Vec<String>>)> = Vec::new();
    for thing in group {
        for &piece in &thing.pieces {
            for row in tolerances(&job.plan.pieces[piece], &job.figures.build_ups[piece]) {
                let cells = cells(job, &row);
                let at = measures.iter().position(|(name, _)| *name == cells[0]).unwrap_or_else(|| {
                    measures.push((cells[0].clone(), Variants::new()));
                    measures.len() - 1
                });
                measures[at].1.add(thing, cells);
            }
        }
    }
    let all = numbers(group);
    for (of, mut cells) in measures.into_iter().flat_map(|(_, variants)| variants.told(&all)) {
        if !of.is_empty() && group.len() > 1 {
            cells[0] = [&cells[0], ", ", &of].said();
        }
        table.rows.push(cells);
    }
    let heading = ["When prints and frames come back: measures", of].said();
    if table.rows.is_empty() {
        flow.heading(&heading);
        flow.text(BODY, "Nothing covers its edges, so nothing hides a deviation: compare its width and height with the order on both sides, and its two diagonals with each other, before you join anything.");
        return;
    }
    flow.titled(&heading, &table);
    let cut = job.both(CUT_TO, Grade::Fine);
    let mut pieces = group.iter().flat_map(|thing| &thing.pieces);
    let has_mat = pieces.any(|&piece| job.figures.build_ups[piece].mat.is_some());
    let mat = if has_mat {
        [
            "A mat opening is assumed to be cut to within ",
            &cut,
            " on each side (common practice, no source). ",
        ]
        .said()
    } else {
        String::new()
    };
    flow.text(NOTE, &["Check each one separately: two deviations in the same direction add up. ", &mat, "Measure every piece on both sides, and its diagonals. If something is further off, send it back before you assemble it."].said());
}

fn cells(job: &Job<'_>, row: &Tolerance) -> Vec<String> {
    let stated = match row.stated {
        Measured::Size(size) => {
            let [first, second] = job.systems().map(|system| measure::size(size, Grade::Cut, system).text);
            [&first, " = ", &second].said()
        }
        Measured::Length(length) => job.both(length, Grade::Cut),
        Measured::Thickness(length) => job.both(length, Grade::Fine),
    };
    let by = |length: Option<Length>| match length {
        None => String::from("any amount"),
        Some(Length::ZERO) => String::from("nothing"),
        Some(length) => job.both(length, Grade::Fine),
    };
    let [part, because] = [row.part, row.because].map(|words| in_units(words, job.plan.units.first));
    vec![capital(&part), stated, by(row.smaller_by), by(row.larger_by), because.into_owned()]
}

/// The order of assembling, from the clean bench to the test.
fn assembled(job: &Job<'_>, group: &[&Thing], of: &str, flow: &mut Flow) {
    let mut steps: Vec<(u8, Variants<String>)> = Vec::new();
    for thing in group {
        let piece = &job.plan.pieces[thing.pieces[0]];
        let mut own = match Way::of(job, thing) {
            Way::Stretched => stretched(job, piece),
            Way::Sheet => Steps::of(&[
                "Clear the bench and put a clean soft cloth on it. Lay the sheet on the cloth, face down; hold it by its edges, with gloves.",
                "Check the edges for burrs and remove them with fine sandpaper, away from the face.",
            ]),
            Way::Packed => packaged(piece),
        };
        backed(job, thing, &mut own);
        for (place, step) in own.0 {
            let at = steps.iter().position(|(known, _)| *known >= place).unwrap_or(steps.len());
            if steps.get(at).is_none_or(|(known, _)| *known != place) {
                steps.insert(at, (place, Variants::new()));
            }
            steps[at].1.add(thing, step);
        }
    }
    let all = numbers(group);
    flow.heading(&["Assembly", of, ", step by step"].said());
    for (number, (_, variants)) in (1..).zip(steps) {
        let number: u32 = number;
        let told = variants
            .told(&all)
            .map(|(of, step)| if of.is_empty() { step } else { [&capital(&of), ": ", &step].said() });
        let told = told.collect::<Vec<_>>().join(" ");
        flow.text(BODY, &[&number.to_string(), ". ", &told].said());
    }
    flow.text(
        NOTE,
        "The order is common practice, no source. Take works that matter to a framer or a conservator.",
    );
}

/// Steps, each with its place among all that there can be.
struct Steps(Vec<(u8, String)>);

impl Steps {
    fn of(steps: &[&str]) -> Self {
        Self((0..).zip(steps).map(|(place, step)| (place, (*step).to_owned())).collect())
    }

    fn push(&mut self, place: u8, step: impl Into<String>) {
        self.0.push((place, step.into()));
    }
}

/// A work behind a mat or a lip.
fn packaged(piece: &Piece) -> Steps {
    let Some(framing) = piece.finish.framing() else { return Steps::of(&[]) };
    let mut steps = Steps::of(&[
        "Clear the bench, wash your hands, and put out clean paper. Measure everything as described above.",
    ]);
    if framing.mount.is_some() {
        steps.push(1, "Hinge the work to the mount board by its top edge only, never all over, so that it can move and can be taken out again (Library of Congress, preservation guidance).");
    }
    if framing.mat.is_some() {
        steps.push(2, "Lay the mat over it and check: the picture is straight, the mat covers it equally on all sides, the signature is visible. Hinge the mat to the mount board along the longer side.");
    }
    if framing.glazing != Glazing::None {
        steps.push(3, match framing.glazing {
            Glazing::Acrylic(_) => String::from("Peel the film off the acrylic, inside first, and wipe it with a damp soft cloth; dry wiping charges it and attracts dust."),
            _ => String::from("Clean the glass on the inside and let it dry; smooth its sharp edges."),
        });
        if framing.spacer > Length::ZERO {
            steps.push(4, "Fix the spacers along the edges of the glazing, so that nothing touches it: the horizontal ones from side to side, the vertical ones between them.");
        } else if framing.mat.is_none() {
            steps.push(5, "Nothing keeps the glazing off the work. Add a mat or spacers: paper that touches glass may stick to it (Library of Congress, preservation guidance).");
        }
        steps.push(6, "Put glazing, mat, work and backing together, look for dust from the front with a lamp held low, and seal the edges all round with tape.");
    }
    if framing.frame.is_some() {
        steps.push(7, "Lay the frame face down, put the package in, and turn it over once more to check it before you close it.");
    }
    steps
}

/// A canvas or a panel.
fn stretched(job: &Job<'_>, piece: &Piece) -> Steps {
    let mut steps = Steps::of(&[]);
    if let Finish::Canvas(_) = piece.finish {
        steps.push(8, "Put the stretcher bars together and make both diagonals the same length before the canvas goes on. Stretch from the middle of each side to the corners, opposite sides in turn; staple at the back, and fold the corners flat.");
    }
    if let Some(floater) = piece.finish.floater() {
        let gap = job.both(floater.gap, Grade::Fine);
        steps.push(9, ["Lay the floater frame face up, put the work in with strips of card in the gap, ", &gap, " on every side, hold both together and turn them over. Screw through the ledge; remove the card and check the gap all round."].said());
    }
    steps
}

/// What all have at the back: points, cover, hangers, bumpers, label, and a test.
fn backed(job: &Job<'_>, thing: &Thing, steps: &mut Steps) {
    let parts = hardware(job.plan, job.figures, job.stock, thing);
    let named = |name: &str| parts.iter().find(|part| part.name.starts_with(name));
    let counted = |part: &CutPart| {
        let plural = if part.quantity == 1 { "" } else { "s" };
        [&part.quantity.to_string(), " ", &part.name, plural].said()
    };
    if let Some(part) = named("point").or_else(|| named("clip")) {
        steps.push(10, ["Close it: ", &counted(part), ", ", &part.note, "."].said());
    }
    if let Some(part) = named("dust cover") {
        let size = match part.extent {
            Extent::Size(size) => {
                measure::shown_size(size, crate::plan::Units { both: true, ..job.plan.units })
            }
            Extent::Length(_) | Extent::Each => String::new(),
        };
        steps.push(
            11,
            [
                "Glue the dust cover on, ",
                &size,
                ", and make two small holes near the bottom so that it can breathe.",
            ]
            .said(),
        );
    }
    let hanging = &job.figures.hanging[thing.pieces[0]];
    let (down, sides) =
        (job.both(hanging.places.down, Grade::Piece), job.both(hanging.places.from_sides, Grade::Piece));
    let hanger = job.plan.fixing.hanger;
    let screws = parts.iter().find(|part| part.note.contains("screws of"));
    let screws = screws.map_or(String::new(), |part| [" Use ", &part.note, "."].said());
    steps.push(
        12,
        match hanger {
            Hanger::Sawtooth => [
                "Fix the sawtooth hanger in the middle of the top edge, with its teeth ",
                &down,
                " down and level.",
                &screws,
            ]
            .said(),
            Hanger::Cleat => [
                "Screw the cleat's half on, its hook edge ",
                &down,
                " from the top edge and level, with its ends ",
                &sides,
                " from the sides, and the strip below.",
                &screws,
            ]
            .said(),
            Hanger::Keyholes => [
                "Set in the keyhole plates: both ",
                &down,
                " from the top edge to the end of the slot and ",
                &sides,
                " from the sides.",
                &screws,
            ]
            .said(),
            Hanger::Rings | Hanger::Wire { .. } => [
                "Screw the rings on: both ",
                &down,
                " from the top edge, measured and not estimated, and ",
                &sides,
                " from the sides. Drill pilot holes first, so that nothing splits.",
                &screws,
            ]
            .said(),
        },
    );
    if let (Some(wire), Some(part)) = (hanging.wire, named("wire")) {
        let (taut, note) = (job.both(wire.length, Grade::Piece), &part.note);
        steps.push(
            13,
            ["Fix the wire: ", &taut, " from ring to ring, wound round itself at both ends; it ", note, "."]
                .said(),
        );
    }
    if named("bumper").is_some() {
        steps.push(
            14,
            "Put bumpers on both lower corners: they let air circulate behind it and stop it from sliding.",
        );
    }
    steps.push(15, "Write title, year, edition number and date on a label, and fix it to the back.");
    steps.push(16, "Weigh it and write down the weight. Hang it low above something soft for an hour before it goes on the wall.");
}
