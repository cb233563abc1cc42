//! The steps of a session as text, so that they outlast a reload of the page.
//!
//! A line for each plan, as a link: how many steps there are to go back, those, the plan at work, and those that were undone. What was
//! written for another plan is not taken.

use super::Desk;
use crate::link::{self, Link};
use crate::plan::Plan;
use std::cell::OnceCell;

/// A plan of the session, with its link once that has been asked for: to write one takes as long as to draw a frame.
#[derive(Clone, Debug)]
pub(super) struct Step {
    pub(super) plan: Plan,
    link: OnceCell<String>,
}

impl Step {
    pub(super) fn of(plan: Plan) -> Self {
        Self { plan, link: OnceCell::new() }
    }

    fn link(&self) -> String {
        self.link.get_or_init(|| link_of(&self.plan)).clone()
    }
}

fn link_of(plan: &Plan) -> String {
    link::write(&Link::of(plan.clone()))
}

/// So many steps back and forward at most; there may be more while the page is open.
const MOST_STEPS: usize = 200;

impl Desk {
    /// The steps of this session, as a text that [`Self::take_steps`] takes: the last 200 to go back, and up to 200 to go forward.
    #[must_use]
    pub fn steps(&self) -> String {
        let last = |steps: &[Step]| -> Vec<String> {
            steps[steps.len().saturating_sub(MOST_STEPS)..].iter().map(Step::link).collect()
        };
        let (past, future) = (last(&self.past), last(&self.future));
        let lines = past.iter().cloned().chain([link_of(&self.plan)]).chain(future);
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
        let began = self.past.first().map_or(&self.plan, |step| &step.plan);
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
fn read(text: &str) -> Option<(Vec<Step>, Plan, Vec<Step>)> {
    let mut lines = text.lines();
    let count: usize = lines.next()?.parse().ok()?;
    let plans = lines.take(2 * MOST_STEPS + 1).map(|line| {
        let plan = link::read(line).ok()?.0.plan;
        Some(Step { plan, link: OnceCell::from(line.to_owned()) })
    });
    let mut past = plans.collect::<Option<Vec<Step>>>()?;
    if count >= past.len() {
        return None;
    }
    let future = past.split_off(count + 1);
    let now = past.pop()?.plan;
    Some((past, now, future))
}
