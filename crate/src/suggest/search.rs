//! The search: every combination, with what is certain added up before what has to be looked at.

use super::offer::{DISAPPOINTS, Make, Offered, Shown, offered, picture_points, pictures, steps};
use super::{ALIKE, Points, Question, SuggestError, SuggestionWish};
use crate::arrange::corner;
use crate::figures::Figures;
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::line_up::line_up;
use crate::plan::*;
use crate::prices::Book;
use crate::rounding::{Mode, divide};
use crate::stock::{Stock, thresholds::*};

/// Of a wall without furniture to hang above, a group should span at least this much, and at most [`MOST_OF_WALL`]: our own
/// choice, no source.
const LEAST_OF_WALL: (i64, i64) = (1, 2);
/// See [`LEAST_OF_WALL`].
const MOST_OF_WALL: (i64, i64) = (2, 3);

/// A place for a group.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hang {
    /// Where along the wall.
    pub across: GroupAcross,
    /// How high.
    pub up: GroupUp,
    /// The width that it should fill, and how much of that at least and at most.
    width: [Length; 3],
}

/// So many pieces in one make-up.
#[derive(Clone, Debug)]
struct Kind {
    count: usize,
    make: Make,
    /// What is on offer for each piece, by its place in [`Space::pools`].
    pools: [usize; 3],
    /// The picture, where it goes over all of them.
    split: Option<Shown>,
}

/// A combination.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Combination {
    /// Which count and make-up.
    pub kind: usize,
    /// Which of what is on offer, for each piece.
    pub at: [usize; 3],
    /// How they are lined up.
    pub arrangement: Arrangement,
    /// Which gap.
    pub gap: usize,
    /// Which place.
    pub hang: usize,
}

/// Everything that can be combined.
#[derive(Clone, Debug)]
pub struct Space<'a> {
    plan: &'a Plan,
    stock: &'a Stock,
    book: Option<&'a Book>,
    budget: Option<i64>,
    question: Question,
    most: usize,
    weights: Points,
    kinds: Vec<Kind>,
    pools: Vec<Vec<Offered>>,
    gaps: Vec<Length>,
    hangs: Vec<Hang>,
    fixtures: Vec<Rect>,
    taken: Vec<Rect>,
    /// 50 points are given for this price.
    dear: i64,
    ceiling: Length,
    corners: Length,
    clearances: [Length; 2],
}

impl<'a> Space<'a> {
    /// What can be combined for a plan.
    ///
    /// # Errors
    /// When the plan has no answer, or an original hangs there, or the largest is asked for without a picture.
    pub fn of(plan: &'a Plan, stock: &'a Stock, wish: &SuggestionWish<'a>) -> Result<Self, SuggestError> {
        let figures = Figures::of(plan)?;
        if plan.pieces.iter().any(|piece| matches!(piece.finish, Finish::Original(_))) {
            return Err(SuggestError::Original);
        }
        let shown = pictures(plan, &figures);
        if wish.question == Question::Largest && shown.iter().any(|shown| shown.picture.is_none()) {
            return Err(SuggestError::NoPicture);
        }
        let (mut kinds, mut pools): (Vec<Kind>, Vec<Vec<Offered>>) = (Vec::new(), Vec::new());
        for &make in wish.makes {
            // One pool for each picture, and one for its panels.
            let first = pools.len();
            for &shown in shown.iter().take(limits::PIECES) {
                pools.push(offered(plan, stock, wish, make, shown, false));
            }
            let panels = pools.len();
            let split = shown.first().copied().filter(|_| shown.len() == 1);
            pools.extend(split.map(|split| offered(plan, stock, wish, make, split, true)));
            for &count in wish.counts.iter().filter(|count| (1..=limits::PIECES).contains(*count)) {
                let split = split.filter(|_| count > 1);
                if split.is_some() || shown.len() >= count {
                    let pool =
                        |slot: usize| if split.is_some() { panels } else { first + slot.min(count - 1) };
                    kinds.push(Kind { count, make, pools: [0, 1, 2].map(pool), split });
                }
            }
        }
        crate::order::sort_by_key(&mut kinds, |kind| kind.count);
        let dearest = pools.iter().flatten().map(|offered| offered.price).max().unwrap_or(0);
        let clearance = match plan.group.up {
            GroupUp::Above { clearance, .. } => Some(clearance),
            _ => None,
        };
        let system = plan.units.first;
        let wall = plan.wall.size.width;
        let share = |width: Length, [least, most]: [(i64, i64); 2]| {
            [width, width.times_ratio(least.0, least.1), width.times_ratio(most.0, most.1)]
        };
        let shares = [stock.limit_number(&LEAST_SHARE), stock.limit_number(&MOST_SHARE)];
        let mut hangs = Vec::new();
        for (fixture, stated) in plan.fixtures.iter().enumerate() {
            if stated.relation == Relation::HangAbove && wish.question != Question::FillsWall {
                let (across, width) = (GroupAcross::FixtureMiddle(fixture), share(stated.size.width, shares));
                let above = steps(clearance, system, [8, 6, 10], [20, 15, 25]);
                let ups = above.into_iter().map(|clearance| GroupUp::Above { fixture, clearance });
                hangs.extend(ups.chain([GroupUp::EyeLevel]).map(|up| Hang { across, up, width }));
            }
        }
        if hangs.is_empty() {
            let width = share(wall, [LEAST_OF_WALL, MOST_OF_WALL]);
            hangs.push(Hang { across: GroupAcross::WallMiddle, up: GroupUp::EyeLevel, width });
        }
        Ok(Self {
            plan,
            stock,
            book: wish.book,
            budget: wish.budget.filter(|_| wish.book.is_some()),
            question: wish.question,
            most: wish.most,
            weights: wish.lean.weights(),
            kinds,
            gaps: steps(Some(plan.group.gap), system, [3, 2, 4], [8, 5, 10]),
            hangs,
            fixtures: figures.arranged.fixtures,
            taken: figures.arranged.taken,
            dear: wish.budget.filter(|_| wish.book.is_some()).unwrap_or(dearest * 3).max(1),
            pools,
            ceiling: plan.wall.size.height - plan.site.cornice - stock.limit(&UNDER_CEILING),
            corners: stock.limit(&FROM_CORNER),
            clearances: [&LEAST_CLEARANCE, &MOST_CLEARANCE].map(|limit| stock.limit(limit)),
        })
    }

    /// The counts and make-ups, by which a [`Combination`] names them.
    pub fn kinds(&self) -> impl Iterator<Item = (usize, Make)> {
        self.kinds.iter().map(|kind| (kind.count, kind.make))
    }

    /// What is on offer for a piece of a count and make-up.
    #[must_use]
    pub fn on_offer(&self, kind: usize, piece: usize) -> &[Offered] {
        &self.pools[self.kinds[kind].pools[piece]]
    }

    /// How pieces of a count and make-up are lined up: side by side, one below the other, and in steps where the plan has them so.
    pub fn arrangements(&self, kind: usize) -> Vec<Arrangement> {
        let Kind { count, split, .. } = &self.kinds[kind];
        let mut tried = vec![Arrangement::Row];
        if *count > 1 {
            tried.push(Arrangement::Column);
            let own = self.plan.group.arrangement;
            tried.extend(Some(own).filter(|own| matches!(own, Arrangement::Stepped(_)) && split.is_none()));
        }
        tried
    }

    /// Gaps that are tried.
    #[must_use]
    pub fn gaps(&self) -> &[Length] {
        &self.gaps
    }

    /// Places that are tried.
    #[must_use]
    pub fn hangs(&self) -> &[Hang] {
        &self.hangs
    }

    /// The plan that a choice makes.
    #[must_use]
    pub fn plan(&self, choice: &Combination) -> Plan {
        let kind = &self.kinds[choice.kind];
        let Hang { across, up, .. } = self.hangs[choice.hang];
        let arrangement = choice.arrangement;
        let strips = self.plan.split.map_or(Strips::Hidden, |split| split.strips);
        let split = kind.split.and_then(|shown| Some((shown.picture?, shown.focus)));
        Plan {
            pieces: self.pieces(choice).map(|offered| offered.piece.clone()).collect(),
            split: split.map(|(picture, focus)| Split { picture, focus, strips }),
            shared: None,
            in_hand: self.plan.in_hand.filter(|_| self.question == Question::FitsFrame),
            group: Group { arrangement, gap: self.gaps[choice.gap], align: Align::Centre, across, up },
            // Rings that were stated for other pieces follow the new ones.
            fixing: self.plan.fixing.at_usual_places(),
            ..self.plan.clone()
        }
    }

    /// How many pieces a choice has, and how they are made.
    pub(super) fn kind(&self, choice: &Combination) -> (usize, Make) {
        let Kind { count, make, .. } = self.kinds[choice.kind];
        (count, make)
    }

    /// What a choice hangs, piece by piece.
    pub(super) fn pieces(&self, choice: &Combination) -> impl Iterator<Item = &Offered> {
        let kind = &self.kinds[choice.kind];
        (0..kind.count).map(|slot| &self.pools[kind.pools[slot]][choice.at[slot]])
    }

    /// The points of a choice; none when it is no suggestion.
    #[must_use]
    pub fn points(&self, choice: &Combination) -> Option<Points> {
        let kind = &self.kinds[choice.kind];
        let mut points = [0; 9];
        for offered in self.pieces(choice) {
            for (sum, each) in points.iter_mut().zip(self.of_piece(offered, kind.count)) {
                *sum += each;
            }
        }
        let group = self.of_group(choice, i64::MAX)?;
        points.iter_mut().zip(group).for_each(|(sum, each)| *sum += each);
        Some(points)
    }

    /// All points as they are leaned: in 600ths of a point.
    #[must_use]
    pub fn total(&self, points: &Points) -> i64 {
        points.iter().zip(self.weights).map(|(points, weight)| points * weight).sum()
    }

    /// The points that a piece has by itself, among so many.
    fn of_piece(&self, offered: &Offered, count: usize) -> Points {
        let each = [0, 6, 3, 2][count];
        let [sharp, crop, shelf, border] = offered.points.map(|points| points * each);
        let price = divide(i128::from(offered.price) * 300, self.dear.into(), Mode::HalfAway);
        [sharp, crop, shelf, i64::try_from(price).unwrap_or(i64::MAX / 1_000_000), 0, 0, 0, border, 0]
    }

    /// What a piece counts in the search: the fewer the better.
    fn cost(&self, offered: &Offered, count: usize) -> i64 {
        match self.question {
            Question::Largest => -larger(offered.window),
            _ => self.total(&self.of_piece(offered, count)),
        }
    }

    /// What hangs together counts in the search; none when it comes to so much or more, or it is no suggestion.
    fn cost_of_group(&self, choice: &Combination, fewer_than: i64) -> Option<i64> {
        match self.question {
            Question::Largest => {
                let points = self.of_group(choice, i64::MAX)?;
                // Between groups as large as each other the points decide.
                let [sharp, crop, ..] = points;
                let cost = self.total(&points).clamp(0, LARGER - 1);
                (sharp == 0 && crop < 6 * DISAPPOINTS && cost < fewer_than).then_some(cost)
            }
            _ => self.of_group(choice, fewer_than).map(|points| self.total(&points)),
        }
    }

    /// The points of what hangs together; none when they come to so many or more, or it is no suggestion.
    fn of_group(&self, choice: &Combination, fewer_than: i64) -> Option<Points> {
        let kind = &self.kinds[choice.kind];
        let (pieces, pool) = (kind.count, |slot: usize| &self.pools[kind.pools[slot]][choice.at[slot]]);
        let gap = self.gaps[choice.gap];
        let hang = &self.hangs[choice.hang];
        let size = extent(choice.arrangement, gap, (0..pieces).map(|slot| pool(slot).outside));
        let mut points = [0; 9];
        points[8] = set(pieces, |slot| pool(slot).outside);
        let [whole, least, most] = hang.width;
        let beyond = (least - size.width).max(size.width - most).max(Length::ZERO);
        let wider = if size.width > whole { DISAPPOINTS } else { 0 };
        points[4] = 6 * (rounded(beyond, 200, whole) + wider);
        if self.total(&points) >= fewer_than {
            return None;
        }
        let Plan { wall, viewing, .. } = self.plan;
        let at = corner(wall.size, viewing.eye_level, &self.fixtures, hang.across, hang.up, size);
        let group = Rect::new(at.x, at.y, size);
        points[5] = 6 * rounded((group.centre().y - viewing.eye_level).abs(), 1, Length::inches(1));
        let is_high = group.top() > self.ceiling;
        let is_aside = group.x < self.corners || wall.size.width - group.right() < self.corners;
        let [near, far] = self.clearances;
        let is_off = match hang.across {
            GroupAcross::FixtureMiddle(index) => {
                let clearance = group.y - self.fixtures[index].top();
                clearance < near || clearance > far
            }
            _ => false,
        };
        points[6] = 60 * [is_high, is_aside, is_off].into_iter().map(i64::from).sum::<i64>();
        if let Some(shown) = kind.split.filter(|shown| shown.picture.is_some()) {
            let (outside, window) = (pool(0).outside, pool(0).window);
            let more = |side: Length| (side + gap) * (i64::try_from(pieces).unwrap_or(1) - 1);
            let all = if choice.arrangement == Arrangement::Column {
                Size::new(window.width, window.height + more(outside.height))
            } else {
                Size::new(window.width + more(outside.width), window.height)
            };
            let [sharp, crop] = picture_points(shown.px, all, self.plan.fineness, self.stock);
            (points[0], points[1]) = (6 * sharp, 6 * crop);
        }
        if self.total(&points) >= fewer_than || !self.is_allowed(choice, group) {
            return None;
        }
        Some(points)
    }

    /// Whether no hard limit is broken.
    fn is_allowed(&self, choice: &Combination, group: Rect) -> bool {
        let wall = self.plan.wall.size;
        let space = self.plan.space.unwrap_or(wall);
        let within = |at: Length, end: Length, most: Length| at >= Length::ZERO && end <= most;
        let fits = within(group.x, group.right(), wall.width)
            && within(group.y, group.top(), wall.height)
            && group.size.width <= space.width
            && group.size.height <= space.height;
        if !fits {
            return false;
        }
        if self.taken.iter().any(|fixture| fixture.common(group).is_some()) {
            let outsides: Vec<Size> = self.pieces(choice).map(|offered| offered.outside).collect();
            let gap = self.gaps[choice.gap];
            let placed = line_up(&outsides, choice.arrangement, gap, Align::Centre);
            let mut placed = placed.into_iter().map(|piece| piece.moved(group.x, group.y));
            if placed.any(|piece| self.taken.iter().any(|fixture| fixture.common(piece).is_some())) {
                return false;
            }
        }
        if let (Some(budget), Some(book)) = (self.budget, self.book) {
            let sum = self.pieces(choice).map(|offered| offered.price).sum();
            if book.taxed(sum).1 > budget {
                return false;
            }
        }
        self.pieces(choice).all(|offered| offered.can_be_made(self.plan, self.stock))
    }

    /// The best of the counts and make-ups, as they are picked; how many combinations there were, and how many were looked at.
    pub(super) fn best(&self) -> (Vec<Combination>, u64, u64) {
        let mut kept: Vec<(i64, Combination)> = Vec::new();
        let (mut considered, mut looked_at) = (0_u64, 0);
        for (index, kind) in self.kinds.iter().enumerate() {
            let slots = if kind.split.is_some() { 1 } else { kind.count };
            let times = if kind.split.is_some() { i64::try_from(kind.count).unwrap_or(1) } else { 1 };
            let order = |slot: usize| {
                let holds = |offered: &Offered| offered.points[0] == 0 && offered.points[1] < DISAPPOINTS;
                let pool = self.pools[kind.pools[slot]].iter().enumerate();
                let pool = pool.filter(|(_, one)| self.question != Question::Largest || holds(one));
                let cost = |offered| self.cost(offered, kind.count) * times;
                let mut order: Vec<(i64, usize)> = pool.map(|(at, one)| (cost(one), at)).collect();
                crate::order::sort(&mut order);
                order
            };
            let orders: Vec<_> = (0..slots).map(order).collect();
            let least = |slot: usize| orders.get(slot).and_then(|order| order.first()).map_or(0, |one| one.0);
            let mut search = Search {
                space: self,
                orders: &orders,
                rest: [least(1) + least(2), least(2), 0],
                cutoff: i64::MAX,
                found: None,
                looked_at: 0,
            };
            let gaps = if kind.count > 1 { self.gaps.len() } else { 1 };
            for arrangement in self.arrangements(index) {
                for turn in 0..gaps * self.hangs.len() {
                    let (hang, gap) = (turn % self.hangs.len(), turn / self.hangs.len());
                    search.descend(0, 0, Combination { kind: index, at: [0; 3], arrangement, gap, hang });
                    considered += orders.iter().map(|order| order.len() as u64).product::<u64>();
                }
            }
            looked_at += search.looked_at;
            if let Some(choice) = search.found {
                kept.push((search.cutoff, choice));
            }
        }
        (self.picked(kept), considered, looked_at)
    }

    /// Of what is kept the best, and then what is best and another thing.
    fn picked(&self, mut kept: Vec<(i64, Combination)>) -> Vec<Combination> {
        let mut picked: Vec<Combination> = Vec::new();
        while picked.len() < self.most {
            let alike = |choice: &Combination| {
                let (count, make) = self.kind(choice);
                let others = || picked.iter().map(|picked| self.kind(picked));
                let is_alike = [
                    others().any(|other| other.0 == count),
                    others().any(|other| other.1.is_of_the_material_of(make)),
                ];
                is_alike.into_iter().map(i64::from).sum::<i64>() * ALIKE * 600
            };
            let next = (0..kept.len()).min_by_key(|&at| (kept[at].0.saturating_add(alike(&kept[at].1)), at));
            let Some(next) = next else { break };
            picked.push(kept.remove(next).1);
        }
        picked
    }
}

/// A square sixteenth of an inch counts so much more than any points.
const LARGER: i64 = 1_000_000;

/// How large a picture is shown, when the largest is asked for.
fn larger(window: Size) -> i64 {
    let sixteenth = Length::inches_ratio(1, 16).units();
    window.width.units() / sixteenth * (window.height.units() / sixteenth) * LARGER
}

/// A search among the combinations of one count and make-up.
struct Search<'a> {
    space: &'a Space<'a>,
    /// What is on offer for each piece with its leaned points, the fewest first.
    orders: &'a [Vec<(i64, usize)>],
    /// The fewest points of the pieces behind each.
    rest: [i64; 3],
    /// Only what has fewer is of interest.
    cutoff: i64,
    found: Option<Combination>,
    looked_at: u64,
}

impl Search<'_> {
    fn descend(&mut self, slot: usize, points: i64, choice: Combination) {
        let Some(order) = self.orders.get(slot) else {
            self.looked_at += 1;
            let fewer_than = self.cutoff.saturating_sub(points);
            if let Some(group) = self.space.cost_of_group(&choice, fewer_than) {
                self.cutoff = points + group;
                self.found = Some(choice);
            }
            return;
        };
        for &(own, at) in order {
            let points = points + own;
            if points + self.rest[slot] >= self.cutoff {
                return;
            }
            let mut choice = choice;
            // Panels of one picture are alike.
            let to = if self.space.kinds[choice.kind].split.is_some() { 3 } else { slot + 1 };
            choice.at[slot..to].fill(at);
            self.descend(slot + 1, points, choice);
        }
    }
}

/// The size of a group, as [`line_up`] has it.
fn extent(arrangement: Arrangement, gap: Length, outsides: impl Iterator<Item = Size>) -> Size {
    let mut size = Size::default();
    let (mut middle, mut above, mut below) = (Length::ZERO, Length::ZERO, Length::ZERO);
    for (slot, Size { width, height }) in outsides.enumerate() {
        let between = if slot > 0 { gap } else { Length::ZERO };
        size = match arrangement {
            Arrangement::Column => Size::new(size.width.max(width), size.height + between + height),
            Arrangement::Row => Size::new(size.width + between + width, size.height.max(height)),
            Arrangement::Stepped(step) => {
                // From the middle of the first.
                (above, below) = (above.max(middle + height.half()), below.max(height.half() - middle));
                middle += step;
                Size::new(size.width + between + width, above + below)
            }
        };
    }
    size
}

/// Sixths of points for pieces that are not alike; which way round they hang does not count.
fn set(count: usize, outside: impl Fn(usize) -> Size) -> i64 {
    let sides = |slot: usize| {
        let Size { width, height } = outside(slot);
        (width.min(height), width.max(height))
    };
    let alike = |one: usize, other: usize| sides(one) == sides(other);
    6 * match count {
        2 if !alike(0, 1) => 12,
        3 if !alike(0, 2) => 16,
        3 if !alike(0, 1) => 4,
        _ => 0,
    }
}

/// `length` × `times` / `by`, to the nearest whole number.
fn rounded(length: Length, times: i64, by: Length) -> i64 {
    let by = i128::from(by.units()).max(1);
    i64::try_from(divide(i128::from(length.units()) * i128::from(times), by, Mode::HalfAway)).unwrap_or(0)
}
