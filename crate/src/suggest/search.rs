//! What can be combined: counts, make-ups, sizes, arrangements, gaps and places; and what a combination has against it.

use super::best::Cost;
use super::offer::{DISAPPOINTS, Make, Offer, Offered, Shown, picture_points, pictures, steps};
use super::rules::{self, Rules};
use super::{Points, Question, SuggestError, SuggestionWish, hung, stacked};
use crate::arrange::corner;
use crate::figures::Figures;
use crate::findings::Grave;
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
    /// The width of the furniture that it is above, if any.
    above: Option<Length>,
    /// The width that it should fill, and how much of that at least and at most.
    width: [Length; 3],
}

/// What the best is kept of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Form {
    /// How many pieces.
    pub count: usize,
    /// Whether two are stacked beside a large one.
    pub is_mixed: bool,
    /// How they are made.
    pub make: Make,
}

/// So many pieces in one make-up.
#[derive(Clone, Debug)]
pub(super) struct Kind {
    pub(super) form: Form,
    /// How bad what is grave is about one of its sizes: what promises best is searched first.
    pub(super) promise: u32,
    /// What is on offer for each piece, by its place in [`Space::pools`].
    pools: [usize; 3],
    /// The picture, where it goes over all of them.
    pub(super) split: Option<Shown>,
}

/// A combination.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Combination {
    /// Which count and make-up, lined up or mixed.
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
    pub(super) question: Question,
    pub(super) most: usize,
    weights: Points,
    pub(super) kinds: Vec<Kind>,
    pools: Vec<Vec<Offered>>,
    pub(super) gaps: Vec<Length>,
    pub(super) hangs: Vec<Hang>,
    rules: Rules,
    judged: Plan,
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
        if plan.pieces.iter().any(|piece| piece.finish.is_original()) {
            return Err(SuggestError::Original);
        }
        let shown = pictures(plan, &figures);
        if wish.question == Question::Largest && shown.iter().any(|shown| shown.picture.is_none()) {
            return Err(SuggestError::NoPicture);
        }
        let (rules, judged) = (Rules::of(plan, &figures, stock), rules::judged(plan));
        let offer = Offer::of(plan, stock, wish, &rules, &judged);
        let (mut kinds, mut pools): (Vec<Kind>, Vec<Vec<Offered>>) = (Vec::new(), Vec::new());
        let split = shown.first().copied().filter(|_| shown.len() == 1);
        let patterns =
            |make: Make| shown.first().map(|&first| offer.patterns(make, first)).unwrap_or_default();
        let each = |make: Make| patterns(make).into_iter().map(move |pattern| (make, pattern));
        let mut ways: Vec<(Make, usize)> = Vec::new();
        for (make, (finish, pool)) in wish.makes.iter().flat_map(|&make| each(make)) {
            // One pool for each picture, and one for its panels.
            let first = pools.len();
            pools.push(pool);
            let others = shown.iter().take(limits::PIECES).skip(1).map(|&shown| (shown, false));
            let panels = first + shown.len().min(limits::PIECES);
            for (shown, is_panel) in others.chain(split.map(|split| (split, true))) {
                let mut pool = offer.offered(make, &finish, shown, is_panel);
                pools[first..].iter().for_each(|made| pool.iter_mut().for_each(|one| one.share(made, plan)));
                pools.push(pool);
            }
            // Stouter is only what needs it.
            let (made, stouter) = pools.split_at_mut(first);
            ways.retain(|way| way.0 == make);
            for (at, pool) in stouter.iter_mut().enumerate().filter(|_| !ways.is_empty()) {
                let usual: Vec<&[Offered]> = ways.iter().map(|way| made[way.1 + at].as_slice()).collect();
                pool.retain(|one| offer.is_needed(one, &usual));
            }
            ways.push((make, first));
            let like = pools[first].get(pools[first].len() / 2);
            let promise = like.map_or(0, |like| like.grave(&judged, plan, stock).rank());
            for &count in wish.counts.iter().filter(|count| (1..=limits::PIECES).contains(*count)) {
                let split = split.filter(|_| count > 1);
                if split.is_some() || shown.len() >= count {
                    let pool =
                        |slot: usize| if split.is_some() { panels } else { first + slot.min(count - 1) };
                    let pools = [0, 1, 2].map(pool);
                    let is_stacked = split.is_none() && count == stacked::COUNT;
                    for is_mixed in [false, true].into_iter().filter(|is_mixed| is_stacked || !is_mixed) {
                        kinds.push(Kind { form: Form { count, is_mixed, make }, promise, pools, split });
                    }
                }
            }
        }
        crate::order::sort_by_key(&mut kinds, |kind| (kind.form.count, kind.form.is_mixed));
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
            let is_other = matches!(stated.kind, FixtureKind::Radiator | FixtureKind::Stairs);
            if stated.is_hung_above() && !is_other && wish.question != Question::FillsWall {
                let (across, width) = (GroupAcross::FixtureMiddle(fixture), share(stated.size.width, shares));
                let above = steps(clearance, system, [8, 6, 10], [20, 15, 25]);
                let ups = above.into_iter().map(|clearance| GroupUp::Above { fixture, clearance });
                hangs.extend(ups.chain([GroupUp::EyeLevel]).map(|up| {
                    let above = rules::hung_above(plan, up);
                    Hang { across, up, above, width }
                }));
            }
        }
        if hangs.is_empty() {
            let width = share(wall, [LEAST_OF_WALL, MOST_OF_WALL]);
            hangs.push(Hang { across: GroupAcross::WallMiddle, up: GroupUp::EyeLevel, above: None, width });
        }
        hangs.extend(clear_of(plan, &figures, &rules).map(|(middle, width)| {
            let width = share(width, [LEAST_OF_WALL, MOST_OF_WALL]);
            Hang { across: GroupAcross::CentreAt(middle), up: GroupUp::EyeLevel, above: None, width }
        }));
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
            rules,
            judged,
            ceiling: plan.wall.size.height - plan.site.cornice - stock.limit(&UNDER_CEILING),
            corners: stock.limit(&FROM_CORNER),
            clearances: [&LEAST_CLEARANCE, &MOST_CLEARANCE].map(|limit| stock.limit(limit)),
        })
    }

    /// The counts and make-ups, by which a [`Combination`] names them.
    pub fn kinds(&self) -> impl Iterator<Item = Form> {
        self.kinds.iter().map(|kind| kind.form)
    }

    /// What is on offer for a piece of a count and make-up.
    #[must_use]
    pub fn on_offer(&self, kind: usize, piece: usize) -> &[Offered] {
        &self.pools[self.kinds[kind].pools[piece]]
    }

    /// How pieces of a count and make-up are lined up: side by side, one below the other, and in steps where the plan has them so; or two
    /// beside a large one.
    pub fn arrangements(&self, kind: usize) -> Vec<Arrangement> {
        let Kind { form, split, .. } = &self.kinds[kind];
        if form.is_mixed {
            return vec![Arrangement::StackRight, Arrangement::StackLeft];
        }
        let mut tried = vec![Arrangement::Row];
        if form.count > 1 {
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

    /// The plan that a choice makes; by other fixings, where its own would not be safe.
    #[must_use]
    pub fn plan(&self, choice: &Combination) -> Plan {
        let kind = &self.kinds[choice.kind];
        let Hang { across, up, .. } = self.hangs[choice.hang];
        let arrangement = choice.arrangement;
        let strips = self.plan.split.map_or(Strips::Hidden, |split| split.strips);
        let split = kind.split.and_then(|shown| Some((shown.picture?, shown.focus)));
        let plan = Plan {
            pieces: self.pieces(choice).map(|offered| offered.piece.clone()).collect(),
            split: split.map(|(picture, focus)| Split { picture, focus, strips }),
            shared: None,
            in_hand: self.plan.in_hand.filter(|_| self.question == Question::FitsFrame),
            group: Group { arrangement, gap: self.gaps[choice.gap], align: aligned(arrangement), across, up },
            // Rings that were stated for other pieces follow the new ones.
            fixing: self.plan.fixing.at_usual_places(),
            ..self.plan.clone()
        };
        hung::well(plan, self.stock)
    }

    /// All that is grave about the plan that a choice makes.
    pub(super) fn grave(&self, choice: &Combination) -> Grave {
        let plan = self.plan(choice);
        let found = Figures::of(&plan).map(|figures| Grave::of(&plan, &figures, self.stock));
        found.map_or(Grave::ANYTHING, |grave| grave.without(self.rules.of_others))
    }

    /// How bad what is known of a piece is: above a bed is what is told when it is known where that hangs.
    pub(super) fn rank_of(&self, offered: &Offered) -> u32 {
        self.rank(offered.known())
    }

    /// How bad it is, wherever it hangs.
    pub(super) fn rank(&self, grave: Grave) -> u32 {
        grave.without(self.rules.above_bed).rank()
    }

    /// What is grave about what is on offer for a piece, once it has been looked at whole.
    pub(super) fn grave_of(&self, offered: &Offered) -> Grave {
        offered.grave(&self.judged, self.plan, self.stock)
    }

    /// The plan that all this is for.
    pub(super) const fn stated(&self) -> &Plan {
        self.plan
    }

    /// The stock that it is made from.
    pub(super) const fn stock(&self) -> &Stock {
        self.stock
    }

    /// What form a choice is of.
    pub(super) fn form(&self, choice: &Combination) -> Form {
        self.kinds[choice.kind].form
    }

    /// What a choice hangs, piece by piece.
    pub(super) fn pieces(&self, choice: &Combination) -> impl Iterator<Item = &Offered> {
        let kind = &self.kinds[choice.kind];
        (0..kind.form.count).map(|slot| &self.pools[kind.pools[slot]][choice.at[slot]])
    }

    /// The points of a choice; none when it is no suggestion.
    #[must_use]
    pub fn points(&self, choice: &Combination) -> Option<Points> {
        let kind = &self.kinds[choice.kind];
        let mut points = [0; 9];
        for offered in self.pieces(choice) {
            for (sum, each) in points.iter_mut().zip(self.of_piece(offered, kind.form.count)) {
                *sum += each;
            }
        }
        let (group, _) = self.of_group(choice, Grave::NONE, Cost::MOST)?;
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
    pub(super) fn cost(&self, offered: &Offered, count: usize) -> i64 {
        match self.question {
            Question::Largest => -larger(offered.window),
            _ => self.total(&self.of_piece(offered, count)),
        }
    }

    /// What a combination comes to in the search, where its pieces have so much against them: none when that is no less than
    /// another cost, or it is no suggestion.
    pub(super) fn cost_of_group(
        &self,
        choice: &Combination,
        pieces: (Grave, i64),
        less_than: Cost,
    ) -> Option<Cost> {
        let (grave, points) = pieces;
        let left = Cost { points: less_than.points.saturating_sub(points), ..less_than };
        let (found, grave) =
            self.of_group(choice, grave, if self.question == Question::Largest { Cost::MOST } else { left })?;
        let mut group = self.total(&found);
        if self.question == Question::Largest {
            let [sharp, crop, ..] = found;
            if sharp != 0 || crop >= 6 * DISAPPOINTS {
                return None;
            }
            // Between groups as large as each other the points decide.
            group = group.clamp(0, LARGER - 1);
        }
        let cost = Cost { grave: grave.rank(), points: points + group };
        (cost < less_than).then_some(cost)
    }

    /// The points of what hangs together, and what is grave about it all when so much is about its pieces; none when that comes to
    /// no less than a cost, or it is no suggestion.
    fn of_group(&self, choice: &Combination, pieces: Grave, less_than: Cost) -> Option<(Points, Grave)> {
        let kind = &self.kinds[choice.kind];
        let (count, pool) = (kind.form.count, |slot: usize| &self.pools[kind.pools[slot]][choice.at[slot]]);
        let gap = self.gaps[choice.gap];
        let hang = &self.hangs[choice.hang];
        let outsides = [0, 1, 2].map(|slot| if slot < count { pool(slot).outside } else { Size::default() });
        let outsides = &outsides[..count];
        let is_mixed = kind.form.is_mixed;
        if is_mixed && !stacked::is_beside(outsides, gap) {
            return None;
        }
        let size = extent(choice.arrangement, gap, outsides);
        let mut points = [0; 9];
        points[8] = if is_mixed { stacked::set(outsides, gap) } else { set(outsides) };
        let [whole, least, most] = hang.width;
        let beyond = (least - size.width).max(size.width - most).max(Length::ZERO);
        let wider = if size.width > whole { DISAPPOINTS } else { 0 };
        points[4] = 6 * (rounded(beyond, 200, whole) + wider);
        // Above a bed is what is told when it is known where each piece is.
        let mut grave =
            pieces.without(self.rules.above_bed).and(self.rules.of_sizes(hang.above, size, outsides));
        let is_less = |grave: Grave, points: &Points| {
            Cost { grave: grave.rank(), points: self.total(points) } < less_than
        };
        if !is_less(grave, &points) {
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
            let more = |side: Length| (side + gap) * (i64::try_from(count).unwrap_or(1) - 1);
            let all = if choice.arrangement == Arrangement::Column {
                Size::new(window.width, window.height + more(outside.height))
            } else {
                Size::new(window.width + more(outside.width), window.height)
            };
            let [sharp, crop] = picture_points(shown.px, all, self.plan.fineness, self.stock);
            (points[0], points[1]) = (6 * sharp, 6 * crop);
            grave = grave
                .and(self.rules.few_pixels(shown.px, all))
                .and(self.rules.of_panels(&pool(0).piece, gap));
        }
        if !is_less(grave, &points) {
            return None;
        }
        let needs_places = self.rules.ask_for_places(group);
        let is_near = self.taken.iter().any(|fixture| fixture.common(group).is_some());
        let placed = if needs_places || is_near {
            let placed = line_up(outsides, choice.arrangement, gap, aligned(choice.arrangement));
            placed.into_iter().map(|piece| piece.moved(group.x, group.y)).collect()
        } else {
            Vec::new()
        };
        if needs_places {
            let of_places = placed
                .iter()
                .enumerate()
                .map(|(slot, &outside)| self.rules.of_place(pool(slot).known(), pool(slot).depth, outside));
            grave = of_places.fold(grave, Grave::and);
        }
        let is_less = !needs_places || is_less(grave, &points);
        (is_less && self.is_allowed(choice, group, &placed)).then_some((points, grave))
    }

    /// Whether no hard limit is broken; the pieces are placed where something is near that has to stay clear.
    fn is_allowed(&self, choice: &Combination, group: Rect, placed: &[Rect]) -> bool {
        let wall = self.plan.wall.size;
        let space = self.plan.space.unwrap_or(wall);
        let within = |at: Length, end: Length, most: Length| at >= Length::ZERO && end <= most;
        let fits = within(group.x, group.right(), wall.width)
            && within(group.y, group.top(), wall.height)
            && group.size.width <= space.width
            && group.size.height <= space.height;
        let is_covered = |piece: &Rect| self.taken.iter().any(|fixture| fixture.common(*piece).is_some());
        if !fits || placed.iter().any(is_covered) {
            return false;
        }
        let (Some(budget), Some(book)) = (self.budget, self.book) else { return true };
        let sum = self.pieces(choice).map(|offered| offered.price).sum();
        book.taxed(sum).1 <= budget
    }
}

/// A square sixteenth of an inch counts so much more than any points.
const LARGER: i64 = 1_000_000;

/// How large a picture is shown, when the largest is asked for.
fn larger(window: Size) -> i64 {
    let sixteenth = Length::inches_ratio(1, 16).units();
    window.width.units() / sixteenth * (window.height.units() / sixteenth) * LARGER
}

/// The middle and the width of the widest part of the wall that is free at eye level, where a door opens over it or the air of a
/// radiator rises.
fn clear_of(plan: &Plan, figures: &Figures, rules: &Rules) -> Option<(Length, Length)> {
    let eye = plan.viewing.eye_level;
    let fixtures = plan.fixtures.iter().zip(&figures.arranged.taken);
    let clear = fixtures.filter(|(one, _)| !one.is_hung_above()).map(|(_, &rect)| rect);
    let mut closed: Vec<Rect> = rules.zones().collect();
    if closed.is_empty() {
        return None;
    }
    closed.extend(clear);
    closed.retain(|rect| rect.y < eye && eye < rect.top());
    crate::order::sort_by_key(&mut closed, |rect| rect.x);
    let mut widest = (Length::ZERO, Length::ZERO);
    let mut from = Length::ZERO;
    let ends = closed.iter().map(|rect| (rect.x, rect.right()));
    for (x, right) in ends.chain([(plan.wall.size.width, plan.wall.size.width)]) {
        if x - from > widest.1 {
            widest = (from, x - from);
        }
        from = from.max(right);
    }
    let (left, width) = widest;
    let step = crate::asked::plan_step(plan);
    (width > Length::ZERO).then(|| ((left + width.half()).to_nearest(step), width))
}

/// Which edges are in line.
const fn aligned(arrangement: Arrangement) -> Align {
    if arrangement.is_mixed() { Align::Both } else { Align::Centre }
}

/// The size of a group, as [`line_up`] has it.
fn extent(arrangement: Arrangement, gap: Length, outsides: &[Size]) -> Size {
    if arrangement.is_mixed() {
        return stacked::extent(outsides, gap);
    }
    let mut size = Size::default();
    let (mut middle, mut above, mut below) = (Length::ZERO, Length::ZERO, Length::ZERO);
    for (slot, &Size { width, height }) in outsides.iter().enumerate() {
        let between = if slot > 0 { gap } else { Length::ZERO };
        size = match arrangement {
            Arrangement::Column => Size::new(size.width.max(width), size.height + between + height),
            Arrangement::Row | Arrangement::StackRight | Arrangement::StackLeft => {
                Size::new(size.width + between + width, size.height.max(height))
            }
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
fn set(outsides: &[Size]) -> i64 {
    let alike = |one: usize, other: usize| is_alike(outsides[one], outsides[other]);
    6 * match outsides.len() {
        2 if !alike(0, 1) => 12,
        3 if !alike(0, 2) => 16,
        3 if !alike(0, 1) => 4,
        _ => 0,
    }
}

/// Whether two are of one size, whichever way round they hang.
pub(super) fn is_alike(one: Size, other: Size) -> bool {
    one == other || one == Size::new(other.height, other.width)
}

/// `length` × `times` / `by`, to the nearest whole number.
pub(super) fn rounded(length: Length, times: i64, by: Length) -> i64 {
    let by = i128::from(by.units()).max(1);
    i64::try_from(divide(i128::from(length.units()) * i128::from(times), by, Mode::HalfAway)).unwrap_or(0)
}
