//! Putting lists in order: one stable merge sort for all of them. The standard library's is compiled again for each type, 5 to 10 KB of
//! the page each; lists here are short, and this one is compiled once, over places in the list.

use std::cmp::Ordering;

/// Sorts by a comparison; what is equal stays in its order.
pub(crate) fn sort_by<T>(list: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    let order = order(list.len(), &|one, other| compare(&list[one], &list[other]));
    for at in 0..order.len() {
        // What belongs here may have been moved on since.
        let mut from = order[at];
        while from < at {
            from = order[from];
        }
        list.swap(at, from);
    }
}

/// Sorts by a key; what is equal stays in its order.
pub(crate) fn sort_by_key<T, K: Ord>(list: &mut [T], key: impl Fn(&T) -> K) {
    sort_by(list, |one, other| key(one).cmp(&key(other)));
}

/// Sorts what has an order of its own.
pub(crate) fn sort<T: Ord>(list: &mut [T]) {
    sort_by(list, Ord::cmp);
}

/// The places of a list in order.
#[inline(never)]
fn order(len: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..len).collect();
    let mut merged = Vec::with_capacity(len);
    let mut width = 1;
    while width < len {
        for start in (0..len).step_by(2 * width) {
            let (middle, end) = ((start + width).min(len), (start + 2 * width).min(len));
            let (mut left, mut right) = (start, middle);
            while left < middle || right < end {
                let takes_left =
                    right == end || left < middle && compare(order[left], order[right]) != Ordering::Greater;
                let next = if takes_left { &mut left } else { &mut right };
                merged.push(order[*next]);
                *next += 1;
            }
        }
        std::mem::swap(&mut order, &mut merged);
        merged.clear();
        width *= 2;
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the standard library's stable sort.
    #[test]
    fn as_the_standard_library() {
        for len in 0..70_u32 {
            for seed in 0..20_u32 {
                let list: Vec<(u32, u32)> = (0..len)
                    .map(|at| (at.wrapping_mul(2_654_435_761).wrapping_add(seed * at * at) % 11, at))
                    .collect();
                let (mut ours, mut theirs) = (list.clone(), list);
                sort_by_key(&mut ours, |row| row.0);
                theirs.sort_by_key(|row| row.0);
                assert_eq!(ours, theirs);
                sort(&mut ours);
                theirs.sort();
                assert_eq!(ours, theirs);
            }
        }
    }
}
