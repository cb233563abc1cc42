//! How many of the cases that a property is tried with get to its end.
//!
//! A case may have no answer, and the property then says nothing of it. Were that so of nearly all of them, it would pass and prove
//! nothing; so what leaves a case out counts it, and fails the test once too few have been judged.

use std::sync::atomic::{AtomicU32, Ordering};

/// So many cases may be left out before the share is judged; of a small share more, so that a run of bad luck is not taken for it.
const FIRST: u32 = 40;
/// So many cases are to be expected, by the least share, before it is judged.
const EXPECTED: u32 = 4;

/// The least share of cases that a property must judge, in percent, and what has been counted so far.
///
/// ```
/// use overmantel_tests::share::Share;
///
/// static JUDGED: Share = Share::percent(50);
/// for number in 0..1_000 {
///     if number % 4 == 0 {
///         JUDGED.left_out();
///         continue;
///     }
///     JUDGED.judged();
/// }
/// ```
///
/// ```should_panic
/// # use overmantel_tests::share::Share;
/// static JUDGED: Share = Share::percent(50);
/// for _ in 0..1_000 {
///     JUDGED.left_out();
/// }
/// ```
#[derive(Debug)]
pub struct Share {
    percent: u32,
    first: u32,
    judged: AtomicU32,
    left_out: AtomicU32,
}

impl Share {
    /// At least so many of a hundred.
    #[must_use]
    pub const fn percent(percent: u32) -> Self {
        Self { percent, first: FIRST, judged: AtomicU32::new(0), left_out: AtomicU32::new(0) }
    }

    /// The same, judged once so many are left out: where many cases are tried, so that a run of bad luck is not taken for a small share.
    #[must_use]
    pub const fn after(percent: u32, first: u32) -> Self {
        Self { percent, first, judged: AtomicU32::new(0), left_out: AtomicU32::new(0) }
    }

    /// Counts a case that gets to the end.
    pub fn judged(&self) {
        self.judged.fetch_add(1, Ordering::Relaxed);
    }

    /// Counts a case of which nothing is said.
    ///
    /// # Panics
    /// When too few have been judged.
    #[track_caller]
    pub fn left_out(&self) {
        let left_out = self.left_out.fetch_add(1, Ordering::Relaxed) + 1;
        let judged = self.judged.load(Ordering::Relaxed);
        let tried = judged + left_out;
        let first = self.first.max(EXPECTED * 100 / self.percent.max(1));
        assert!(
            left_out < first || judged * 100 >= tried * self.percent,
            "only {judged} of {tried} cases were judged, of which at least {} in a hundred must be",
            self.percent
        );
    }
}
