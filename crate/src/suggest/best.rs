//! The search: of every count and make-up the best combination, with what is certain added up before what has to be calculated.
//!
//! What is grave counts before any points. As far as that is known of a piece from a few numbers it prunes; all of it is known of
//! every piece before that is combined, and of the whole plan before a combination is kept.

use super::offer::{DISAPPOINTS, Offered};
use super::search::{Combination, Form, Kind, Space};
use super::{ALIKE, Question, stacked};
use crate::findings::Grave;
use crate::geometry::Size;

/// What a combination has against it: first what is grave, then its points.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost {
    pub(super) grave: u32,
    pub(super) points: i64,
}

impl Cost {
    /// More than anything has.
    pub(super) const MOST: Self = Self { grave: u32::MAX, points: i64::MAX };
}

/// What the search found.
pub(super) struct Best {
    /// As they are picked.
    pub(super) picked: Vec<Combination>,
    /// How many combinations there were.
    pub(super) considered: u64,
    /// How many had to be calculated.
    pub(super) looked_at: u64,
}

/// Whole plans have the last word; so often at most is a count and make-up searched again when they say otherwise.
const AGAIN: usize = 24;

impl Space<'_> {
    /// The best of the counts and make-ups, as they are picked: of those that have the fewest grave findings.
    pub(super) fn best(&self) -> Best {
        let mut kept: Vec<(Cost, Combination)> = Vec::new();
        let mut best = Best { picked: Vec::new(), considered: 0, looked_at: 0 };
        let mut least = u32::MAX;
        let mut promising: Vec<usize> = (0..self.kinds.len()).collect();
        crate::order::sort_by_key(&mut promising, |&index| self.kinds[index].promise);
        for index in promising {
            let kind = &self.kinds[index];
            // One make-up may be made in two ways.
            let alike = kept.iter().position(|(_, other)| self.form(other) == kind.form);
            let cutoff = alike.map_or(Cost { grave: least, points: i64::MAX }, |at| kept[at].0);
            let cutoff = cutoff.min(Cost { grave: least, points: i64::MAX });
            if let Some(found) = self.best_of(index, cutoff, &mut best) {
                least = least.min(found.0.grave);
                match alike {
                    Some(at) => kept[at] = found,
                    None => kept.push(found),
                }
            }
        }
        kept.retain(|(cost, _)| cost.grave == least);
        crate::order::sort_by_key(&mut kept, |(_, choice)| choice.kind);
        best.picked = self.picked(kept);
        best
    }

    /// The best of one count and make-up, if it has less against it than a cost.
    fn best_of(&self, index: usize, cutoff: Cost, counts: &mut Best) -> Option<(Cost, Combination)> {
        let mut search = Search::of(self, index, cutoff);
        counts.considered += search.combinations(index);
        loop {
            search.run(index);
            let (cost, choice) = (search.cutoff, search.found?);
            let grave = self.grave(&choice).rank();
            if grave <= cost.grave || search.refuted.len() == AGAIN {
                counts.looked_at += search.looked_at;
                let cost = Cost { grave: grave.max(cost.grave), ..cost };
                return (cost < cutoff).then_some((cost, choice));
            }
            search.refuted.push((choice, grave));
            (search.cutoff, search.found) = (cutoff, None);
        }
    }

    /// Of what is kept the best, and then what is best and another thing.
    fn picked(&self, mut kept: Vec<(Cost, Combination)>) -> Vec<Combination> {
        let mut picked: Vec<Combination> = Vec::new();
        while picked.len() < self.most {
            let alike = |choice: &Combination| {
                let form = self.form(choice);
                let others = || picked.iter().map(|picked| self.form(picked));
                let group = |form: Form| (form.count, form.is_mixed);
                let is_alike = [
                    others().any(|other| group(other) == group(form)),
                    others().any(|other| other.make.is_of_the_material_of(form.make)),
                ];
                is_alike.into_iter().map(i64::from).sum::<i64>() * ALIKE * 600
            };
            let points = |at: usize| kept[at].0.points.saturating_add(alike(&kept[at].1));
            let Some(next) = (0..kept.len()).min_by_key(|&at| (points(at), at)) else { break };
            picked.push(kept.remove(next).1);
        }
        picked
    }
}

/// What is on offer for a piece: how bad what is known to be grave about it is, its leaned points, its place in its pool.
type Choice = (u32, i64, usize);

/// A search among the combinations of one count and make-up.
struct Search<'a> {
    space: &'a Space<'a>,
    /// What is on offer for each piece, the least bad first.
    orders: Vec<Vec<Choice>>,
    /// The fewest points of the pieces behind each.
    rest: [i64; 3],
    /// Only what has less against it is of interest.
    cutoff: Cost,
    found: Option<Combination>,
    looked_at: u64,
    /// Combinations of which the whole plan says more.
    refuted: Vec<(Combination, u32)>,
    /// Whether more is known of a piece than when they were put in order.
    has_learned: bool,
}

impl<'a> Search<'a> {
    fn of(space: &'a Space<'a>, index: usize, cutoff: Cost) -> Self {
        let Kind { form: Form { count, .. }, split, .. } = space.kinds[index];
        let (slots, times) =
            if split.is_some() { (1, i64::try_from(count).unwrap_or(1)) } else { (count, 1) };
        let holds = |offered: &Offered| offered.points[0] == 0 && offered.points[1] < DISAPPOINTS;
        let order = |slot: usize| {
            let pool = space.on_offer(index, slot).iter().enumerate();
            let pool = pool.filter(|(_, one)| space.question != Question::Largest || holds(one));
            pool.map(|(at, one)| (0, space.cost(one, count) * times, at)).collect()
        };
        let orders: Vec<Vec<Choice>> = (0..slots).map(order).collect();
        let fewest = |order: &Vec<Choice>| order.iter().map(|choice| choice.1).min();
        let least = |slot: usize| orders.get(slot).and_then(fewest).unwrap_or(0);
        let rest = [least(1) + least(2), least(2), 0];
        let (found, refuted) = (None, Vec::new());
        Self { space, orders, rest, cutoff, found, looked_at: 0, refuted, has_learned: true }
    }

    fn turns(&self, index: usize) -> usize {
        let gaps = if self.space.kinds[index].form.count > 1 { self.space.gaps.len() } else { 1 };
        gaps * self.space.hangs.len()
    }

    /// How many combinations there are.
    fn combinations(&self, index: usize) -> u64 {
        let turns = self.space.arrangements(index).len() * self.turns(index);
        self.orders.iter().map(|order| order.len() as u64).product::<u64>() * turns as u64
    }

    fn run(&mut self, index: usize) {
        for arrangement in self.space.arrangements(index) {
            for turn in 0..self.turns(index) {
                let (hang, gap) = (turn % self.space.hangs.len(), turn / self.space.hangs.len());
                if std::mem::take(&mut self.has_learned) {
                    self.put_in_order(index);
                }
                let choice = Combination { kind: index, at: [0; 3], arrangement, gap, hang };
                self.descend(0, (Grave::NONE, 0), choice);
            }
        }
    }

    fn put_in_order(&mut self, index: usize) {
        for (slot, order) in self.orders.iter_mut().enumerate() {
            let pool = self.space.on_offer(index, slot);
            order.iter_mut().for_each(|(rank, _, at)| *rank = self.space.rank_of(&pool[*at]));
            crate::order::sort(order);
        }
    }

    fn descend(&mut self, slot: usize, (grave, points): (Grave, i64), choice: Combination) {
        if slot == self.orders.len() {
            return self.look_at(choice, (grave, points));
        }
        let space = self.space;
        let pool = space.on_offer(choice.kind, slot);
        for place in 0..self.orders[slot].len() {
            let (rank, own, at) = self.orders[slot][place];
            let points = points + own;
            // What comes later is no better: as bad with more points, or worse.
            if (Cost { grave: rank, points: points + self.rest[slot] }) >= self.cutoff {
                return;
            }
            let mut choice = choice;
            // Panels of one picture are alike.
            let to = if space.kinds[choice.kind].split.is_some() { 3 } else { slot + 1 };
            choice.at[slot..to].fill(at);
            if choice.arrangement.is_mixed() && !self.is_beside(slot, &choice) {
                continue;
            }
            self.has_learned |= !pool[at].is_known();
            let grave = grave.and(space.grave_of(&pool[at]));
            let bound = Cost { grave: space.rank(grave), points: points + self.rest[slot] };
            if bound >= self.cutoff || bound.grave >= Grave::CANNOT {
                continue;
            }
            self.descend(slot + 1, (grave, points), choice);
        }
    }

    /// Whether the pieces up to this one go beside the first and onto the wall, whatever comes after them.
    fn is_beside(&self, slot: usize, choice: &Combination) -> bool {
        let (space, gap) = (self.space, self.space.gaps[choice.gap]);
        let outside = |slot: usize| space.on_offer(choice.kind, slot)[choice.at[slot]].outside;
        let outsides = [0, 1, 2].map(|other| if other <= slot { outside(other) } else { Size::default() });
        let wall = space.stated().wall.size.width;
        stacked::is_beside(&outsides[..=slot], gap) && stacked::extent(&outsides[..=slot], gap).width <= wall
    }

    fn look_at(&mut self, choice: Combination, pieces: (Grave, i64)) {
        self.looked_at += 1;
        let Some(mut cost) = self.space.cost_of_group(&choice, pieces, self.cutoff) else { return };
        if let Some((_, grave)) = self.refuted.iter().find(|(refuted, _)| *refuted == choice) {
            cost.grave = *grave;
        }
        if cost < self.cutoff {
            (self.cutoff, self.found) = (cost, Some(choice));
        }
    }
}
