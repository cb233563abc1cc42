//! The steps of a session as text, so that they outlast a reload of the page.
//!
//! A line for each plan, as a link: how many steps there are to go back, those, the plan at work, and those that were undone. What was
//! written for another plan is not taken.

use super::Desk;
use crate::link::{self, Link};
use crate::plan::Plan;

/// So many steps back and forward at the most; there may be more while the page is open.
const MOST_STEPS: usize = 200;

impl Desk {
    /// The steps of this session, as a text that [`Self::take_steps`] takes: the last 200 to go back, and up to 200 to go forward.
    #[must_use]
    pub fn steps(&self) -> String {
        let [past, future] =
            [&self.past, &self.future].map(|plans| &plans[plans.len().saturating_sub(MOST_STEPS)..]);
        let plans = past.iter().chain([&self.plan]).chain(future);
        let lines = plans.map(|plan| link::write(&Link::of(plan.clone())));
        std::iter::once(past.len().to_string()).chain(lines).collect::<Vec<_>>().join("\n")
    }

    /// Takes steps of a session before this one, in which the plan was as it is now; whether they were taken. What was done in this
    /// session stays the last of them.
    ///
    /// ```
    /// use overmantel::{desk::Desk, plan::{Plan, WALL_WIDTH}};
    /// let mut desk = Desk::new(Plan::starting()).unwrap();
    /// desk.set(&WALL_WIDTH, "4 m").unwrap();
    /// let mut reopened = Desk::new(desk.plan().clone()).unwrap();
    /// assert!(reopened.take_steps(&desk.steps()) && reopened.undo());
    /// assert_eq!(reopened.plan(), &Plan::starting());
    /// ```
    pub fn take_steps(&mut self, text: &str) -> bool {
        let Some((mut past, now, future)) = read(text) else { return false };
        let began = self.past.first().unwrap_or(&self.plan);
        if now != *began {
            return false;
        }
        if self.past.is_empty() && self.future.is_empty() {
            self.future = future;
        }
        past.append(&mut self.past);
        self.past = past;
        true
    }
}

/// Steps back, the plan at work, and steps forward.
fn read(text: &str) -> Option<(Vec<Plan>, Plan, Vec<Plan>)> {
    let mut lines = text.lines();
    let count: usize = lines.next()?.parse().ok()?;
    let plans = lines.take(2 * MOST_STEPS + 1).map(|line| Some(link::read(line).ok()?.0.plan));
    let mut past = plans.collect::<Option<Vec<Plan>>>()?;
    if count >= past.len() {
        return None;
    }
    let future = past.split_off(count + 1);
    let now = past.pop()?;
    Some((past, now, future))
}
