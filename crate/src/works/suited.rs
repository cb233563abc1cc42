//! The same wall with other works: which works of a list go into the pieces of a plan, as large as they are, the best first.
//!
//! # Points
//! Fewer are better. Sharpness and crop of each work in its piece have the points of [`crate::suggest`]; [`TERMS`] has what is added here: how far the palettes of
//! works that hang together are apart, and how little a work stands off from the paint of the wall. How much that is worth is our own
//! choice, no source. Works without a palette have no points for it. A work of which something that must be kept is cropped off is none.
//!
//! # Exact
//! Of each set of works the best order is kept, and of sets the best; a set is passed over only when the points that are certain reach those
//! of what is kept. A property in the tests tries every set.

use super::Work;
use super::palette::{Measured, Palette};
use crate::colour::Colour;
use crate::figures::{Figures, NoAnswer};
use crate::plan::{Focus, Picture, Plan, limits};
use crate::print::{Exact, fill};
use crate::stock::Stock;
use crate::suggest::picture_points;
use std::fmt;

/// What points are given for besides sharpness and crop, with how many.
pub const TERMS: [(&str, &str); 2] = [
    (
        "palette",
        "1 for each hundredth of OKLab by which the palettes of two works are apart, at most 30; the mean of all pairs",
    ),
    (
        "paint",
        "1 for each hundredth of OKLab by which a palette is nearer to the wall's paint than 12 of them",
    ),
];

/// Palettes further apart than this are simply other palettes, in thousandths of OKLab.
const MOST_APART: i64 = 300;
/// A palette nearer to the paint than this is hardly seen from afar, in thousandths of OKLab.
const OFF_THE_WALL: i64 = 120;

/// Why no works can be chosen for a plan.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SuitedError {
    /// The plan has no answer.
    NoAnswer(#[from] NoAnswer),
    /// The pieces show one picture together.
    Split,
    /// An original hangs there.
    Original,
}

impl fmt::Display for SuitedError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoAnswer(why) => why.fmt(f),
            Self::Split => f.write_str(
                "the pieces of the plan show one picture together, and other works go into pieces of their own; use a plan without a split picture",
            ),
            Self::Original => f.write_str(
                "an original hangs in the plan, and has the size that it has; use a plan of prints",
            ),
        }
    }
}

/// Works for the pieces of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suited {
    /// The place of each piece's work in the list.
    pub works: Vec<usize>,
    /// The points, in sixths: of each piece for sharpness and crop, of the pairs for their palettes, of each piece for the paint.
    pub points: [i64; 4],
    /// All of them, in sixths.
    pub total: i64,
}

impl Suited {
    /// All points as a number.
    #[must_use]
    pub fn number(&self) -> Exact {
        Exact::new(self.total.into(), 6)
    }
}

/// A work that may hang in a piece.
#[derive(Clone, Copy, Debug)]
struct Candidate {
    work: usize,
    /// Sharpness, crop, paint, in sixths of a point.
    points: [i64; 3],
    sum: i64,
}

/// Sixths of a point of one of so many.
const fn each(count: usize) -> i64 {
    [0, 6, 3, 2][count]
}

/// Everything that is searched.
struct Search {
    /// For each piece the works that may hang in it, those with the fewest points first.
    pools: Vec<Vec<Candidate>>,
    /// How far apart works are, in sixths of a point, by their rows and columns.
    apart: Vec<Vec<i64>>,
    /// What the nearest other work is apart.
    nearest: Vec<i64>,
    most: usize,
    found: Vec<Suited>,
}

/// The works of a list that go best into the pieces of a plan, so many sets at most, the best first. Only works at these places of the list are tried.
///
/// # Errors
/// When the plan has no answer, or shows what other works can't take the place of.
pub fn suited(
    plan: &Plan,
    stock: &Stock,
    works: &[Work],
    places: &[usize],
    most: usize,
) -> Result<Vec<Suited>, SuitedError> {
    if plan.split.is_some() {
        return Err(SuitedError::Split);
    }
    if plan.pieces.iter().any(|piece| piece.finish.is_original()) {
        return Err(SuitedError::Original);
    }
    let figures = Figures::of(plan)?;
    let count = plan.pieces.len().min(limits::PIECES);
    let paint = plan.wall.paint;
    let pools: Vec<Vec<Candidate>> = (0..count)
        .map(|piece| {
            let window = figures.build_ups[piece].picture.size;
            let mut pool: Vec<Candidate> = Vec::new();
            for &place in places {
                let work = &works[place];
                let Some(px) = work.px else { continue };
                if work.subject.is_some_and(|subject| is_lost(px, window, subject)) {
                    continue;
                }
                let [sharp, crop] = picture_points(px, window, plan.fineness, stock);
                let points =
                    [sharp, crop, of_paint(work.palette.as_ref(), paint)].map(|one| one * each(count));
                pool.push(Candidate { work: place, points, sum: points.iter().sum() });
            }
            crate::order::sort_by_key(&mut pool, |one| (one.sum, one.work));
            pool
        })
        .collect();
    let mut search = Search::of(works, pools, places, most);
    if most > 0 && count > 0 {
        search.descend(&mut Vec::new(), 0);
    }
    Ok(search.found)
}

/// Whether a point of a picture is not seen in a window that is filled so that it is as near the middle as it can be.
fn is_lost(px: (u32, u32), window: crate::geometry::Size, subject: Focus) -> bool {
    let source = fill(px, window, subject).source;
    let at = |permille: u16, px: u32| Exact::new(i128::from(permille) * i128::from(px), 1000);
    let (x, y) = (at(subject.x_permille, px.0), at(subject.y_permille, px.1));
    x < source.left || x > source.left + source.width || y < source.top || y > source.top + source.height
}

/// Points for a palette that hardly stands off from the paint.
fn of_paint(palette: Option<&Palette>, paint: Colour) -> i64 {
    let Some(palette) = palette else { return 0 };
    let apart = palette.apart(&Palette { colours: vec![(paint, 100)] });
    (OFF_THE_WALL - apart).max(0) / 10
}

/// Points for two palettes.
fn of_pair(one: Option<&Measured>, other: Option<&Measured>) -> i64 {
    match (one, other) {
        (Some(one), Some(other)) => one.apart(other).min(MOST_APART) / 10,
        _ => 0,
    }
}

impl Search {
    fn of(works: &[Work], pools: Vec<Vec<Candidate>>, places: &[usize], most: usize) -> Self {
        let pairs = pools.len();
        let mut apart = Vec::new();
        let mut nearest = Vec::new();
        if pairs > 1 {
            apart = vec![Vec::new(); works.len()];
            nearest = vec![0; works.len()];
            let palettes: Vec<Option<Measured>> =
                works.iter().map(|work| work.palette.as_ref().map(Measured::of)).collect();
            // One pair of two, three of three: sixths of a point, so that the mean is whole.
            let times = if pairs == 2 { 6 } else { 2 };
            for &one in places {
                apart[one] = vec![0; works.len()];
            }
            for (at, &one) in places.iter().enumerate() {
                for &other in &places[..at] {
                    let points = times * of_pair(palettes[one].as_ref(), palettes[other].as_ref());
                    (apart[one][other], apart[other][one]) = (points, points);
                }
            }
            for &one in places {
                let others = places.iter().filter(|&&other| other != one);
                nearest[one] = others.map(|&other| apart[one][other]).min().unwrap_or(0);
            }
        }
        Self { pools, apart, nearest, most, found: Vec::new() }
    }

    /// Only what has fewer points than this is of interest.
    fn cutoff(&self) -> i64 {
        match self.found.get(self.most - 1) {
            Some(last) => last.total,
            None => i64::MAX,
        }
    }

    fn descend(&mut self, chosen: &mut Vec<Candidate>, points: i64) {
        let slot = chosen.len();
        if slot == self.pools.len() {
            self.keep(chosen, points);
            return;
        }
        let rest: i64 = self.pools[slot + 1..].iter().map(|pool| pool.first().map_or(0, |one| one.sum)).sum();
        // Each that is still to come is apart from each that is chosen by no less than from its nearest.
        let to_come = i64::try_from(self.pools.len() - slot - 1).unwrap_or(0);
        for at in 0..self.pools[slot].len() {
            let next = self.pools[slot][at];
            let sure = points + next.sum + rest;
            // What comes later in the pool has more points.
            if sure >= self.cutoff() {
                return;
            }
            if chosen.iter().any(|other| other.work == next.work) {
                continue;
            }
            let pairs: i64 = chosen.iter().map(|other| self.apart[other.work][next.work]).sum();
            let near: i64 = match to_come {
                0 => 0,
                _ => {
                    let of = |one: &Candidate| self.nearest[one.work];
                    to_come * (chosen.iter().map(of).sum::<i64>() + of(&next))
                }
            };
            if sure + pairs + near >= self.cutoff() {
                continue;
            }
            chosen.push(next);
            self.descend(chosen, points + next.sum + pairs);
            chosen.pop();
        }
    }

    /// Keeps a set, or the better order of one that is kept.
    fn keep(&mut self, chosen: &[Candidate], total: i64) {
        let works: Vec<usize> = chosen.iter().map(|one| one.work).collect();
        let set = |works: &[usize]| {
            let mut set = works.to_vec();
            crate::order::sort(&mut set);
            set
        };
        let own = set(&works);
        match self.found.iter().position(|other| set(&other.works) == own) {
            Some(at) if self.found[at].total <= total => return,
            Some(at) => {
                self.found.remove(at);
            }
            None => {}
        }
        let of = |term: usize| chosen.iter().map(|one| one.points[term]).sum::<i64>();
        let [sharp, crop, paint] = [0, 1, 2].map(of);
        let points = [sharp, crop, total - sharp - crop - paint, paint];
        let place = self.found.iter().position(|other| other.total > total).unwrap_or(self.found.len());
        self.found.insert(place, Suited { works, points, total });
        self.found.truncate(self.most);
    }
}

/// The plan with these works in its pieces, one for each.
///
/// # Errors
/// When it has no answer.
pub fn with_works(plan: &Plan, works: &[Work], places: &[usize]) -> Result<Plan, NoAnswer> {
    let mut made = Plan { pictures: Vec::new(), ..plan.clone() };
    for (piece, &place) in made.pieces.iter_mut().zip(places) {
        let work = &works[place];
        let Some((width_px, height_px)) = work.px else { continue };
        let held = |text: &str, most: usize| text.chars().take(most).collect::<String>();
        let title = held(&work.name(), limits::NAME - 4);
        let is_taken = |name: &String| made.pictures.iter().any(|other: &Picture| other.name == *name);
        let others = (2..=limits::PIECES + 1).map(|number| format!("{title} ({number})"));
        let name = [title.clone()].into_iter().chain(others).find(|name| !is_taken(name)).unwrap_or(title);
        let file = work.file.rsplit(['/', '\\']).next().unwrap_or_default();
        piece.picture = Some(made.pictures.len());
        piece.focus = work.subject.unwrap_or(Focus::MIDDLE);
        made.pictures.push(Picture {
            name,
            file: held(file, limits::NAME * 2),
            width_px,
            height_px,
            subject: work.subject,
        });
    }
    made.check()?;
    Figures::of(&made)?;
    Ok(made)
}

/// Why a set suits, in short sentences.
#[must_use]
pub fn reasons(plan: &Plan, works: &[Work], suited: &Suited) -> Vec<String> {
    let Ok(figures) = Figures::of(plan) else { return Vec::new() };
    let mut said = Vec::new();
    for (piece, &place) in suited.works.iter().enumerate() {
        let work = &works[place];
        let Some(px) = work.px else { continue };
        let cut = fill(px, figures.build_ups[piece].picture.size, work.subject.unwrap_or(Focus::MIDDLE));
        let lost = cut.lost(px);
        let tenths =
            crate::rounding::divide(lost.numer() * 1000, *lost.denom(), crate::rounding::Mode::HalfAway);
        let cropped = match tenths {
            0 => "nothing is cropped".to_owned(),
            _ => format!("{}.{} % is cropped", tenths / 10, tenths % 10),
        };
        said.push(format!("{}: {} ppi, {cropped}", work.name(), cut.pixels_per_inch.to_integer()));
    }
    let palettes: Vec<&Palette> =
        suited.works.iter().filter_map(|&place| works[place].palette.as_ref()).collect();
    if palettes.len() == suited.works.len() && palettes.len() > 1 {
        let pairs = (0..palettes.len()).flat_map(|one| (0..one).map(move |other| (one, other)));
        let furthest = pairs.map(|(one, other)| palettes[one].apart(palettes[other])).max().unwrap_or(0);
        said.push(
            match furthest {
                0..=60 => "their colours are nearly the same",
                61..=140 => "their colours are related",
                _ => "their colours differ",
            }
            .to_owned(),
        );
    }
    let paint = Palette { colours: vec![(plan.wall.paint, 100)] };
    for &place in &suited.works {
        if works[place].palette.as_ref().is_some_and(|palette| palette.apart(&paint) < OFF_THE_WALL) {
            said.push(format!("{} has nearly the colour of the wall", works[place].name()));
        }
    }
    said
}
