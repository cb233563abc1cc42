//! What is painted after what: boxes along the axes of the room, those further from the eye first.

use super::super::furniture::Solid;
use super::camera::{Place, rectangle};
use crate::geometry::Rect;
use crate::scene::ScenicPiece;
use kurbo::Shape;
use std::cmp::Ordering;

/// A box along the three axes: from and to, in inches.
#[derive(Clone, Copy)]
pub(super) struct Bounds(pub(super) [[f64; 2]; 3]);

impl Bounds {
    pub(super) fn of(rect: Rect, z: [f64; 2]) -> Self {
        Self([
            [rect.x.to_inches(), rect.right().to_inches()],
            [rect.y.to_inches(), rect.top().to_inches()],
            z,
        ])
    }

    pub(super) fn of_piece(piece: &ScenicPiece) -> Self {
        Self::of(piece.outside, [piece.stand_off.to_inches(), piece.depth.to_inches()])
    }

    pub(super) fn of_solid(solid: &Solid) -> Self {
        let bounds = solid.outline.bounding_box();
        Self([[bounds.x0, bounds.x1], [bounds.y0, bounds.y1], solid.z.map(f64::from)])
    }

    /// The least that holds both.
    pub(super) fn with(self, other: Self) -> Self {
        Self([0, 1, 2].map(|axis| {
            let ([a, b], [c, d]) = (self.0[axis], other.0[axis]);
            [a.min(c), b.max(d)]
        }))
    }

    /// The corners of its front.
    pub(super) fn front(&self) -> [Place; 4] {
        let [[left, right], [foot, head], [_, z]] = self.0;
        rectangle([left, foot, right, head], z)
    }

    /// Whether this box may hide another from an eye, where a plane across an axis has one on each side of it: only what reaches to
    /// the eye's side of the plane may. None where no such plane is between them.
    fn hides(&self, other: &Self, eye: Place) -> Option<bool> {
        const TOUCH: f64 = 1e-6;
        // Out from the wall first: there the eye is always beyond both.
        [2, 0, 1].into_iter().find_map(|axis| {
            let ([from, to], [other_from, other_to]) = (self.0[axis], other.0[axis]);
            // Two flat things in one plane are not apart.
            let are_flat = from >= to && other_from >= other_to;
            if are_flat {
                None
            } else if from + TOUCH >= other_to {
                Some(eye[axis] >= from)
            } else if other_from + TOUCH >= to {
                Some(eye[axis] <= to)
            } else {
                None
            }
        })
    }
}

/// The order in which boxes are to be painted, so that what is nearer to the eye comes later. Where boxes cross, the one that
/// reaches further out from the wall counts as nearer.
pub(super) fn from_the_back(boxes: &[Bounds], eye: Place) -> Vec<usize> {
    let nearer = |one: usize, other: usize| {
        boxes[one].hides(&boxes[other], eye).unwrap_or_else(|| {
            boxes[one].0[2][1].total_cmp(&boxes[other].0[2][1]).then(one.cmp(&other)) == Ordering::Greater
        })
    };
    let mut left: Vec<usize> = (0..boxes.len()).collect();
    let mut order = Vec::with_capacity(left.len());
    while !left.is_empty() {
        // What hides nothing that is left comes next; in a ring of boxes each hiding the next, the first of them.
        let next = left.iter().position(|&one| !left.iter().any(|&other| other != one && nearer(one, other)));
        order.push(left.remove(next.unwrap_or(0)));
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    const EYE: Place = [100.0, 57.0, 108.0];

    #[track_caller]
    fn check(boxes: &[[[f64; 2]; 3]], eye: Place, expected: &[usize]) {
        let boxes: Vec<Bounds> = boxes.iter().copied().map(Bounds).collect();
        assert_eq!(from_the_back(&boxes, eye), expected);
    }

    const SIDEBOARD: [[f64; 2]; 3] = [[80.0, 140.0], [0.0, 31.0], [0.0, 18.0]];
    const SOCKET: [[f64; 2]; 3] = [[150.0, 153.0], [12.0, 16.0], [0.0, 0.0]];
    const WINDOW: [[f64; 2]; 3] = [[12.0, 58.0], [31.0, 87.0], [0.0, 2.5]];

    #[test]
    fn what_stands_before_the_wall_comes_after_what_is_on_it() {
        check(&[SIDEBOARD, SOCKET], EYE, &[1, 0]);
        check(&[SOCKET, SIDEBOARD], EYE, &[0, 1]);
    }

    #[test]
    fn of_two_side_by_side_the_one_on_the_eyes_side_comes_later() {
        let (near, far) = ([[0.0, 10.0], [0.0, 30.0], [0.0, 30.0]], [[20.0, 30.0], [0.0, 30.0], [0.0, 30.0]]);
        check(&[near, far], [-50.0, 57.0, 20.0], &[1, 0]);
        check(&[near, far], [80.0, 57.0, 20.0], &[0, 1]);
    }

    /// An eye between two things sees both: neither may hold back a third.
    #[test]
    fn an_eye_between_two_things_makes_no_ring() {
        check(&[SIDEBOARD, WINDOW, SOCKET], [65.0, 57.0, 80.0], &[2, 0, 1]);
    }

    #[test]
    fn of_two_above_each_other_the_one_at_the_height_of_the_eye_comes_later() {
        let picture = [[90.0, 110.0], [40.0, 70.0], [0.0, 2.0]];
        check(&[picture, SIDEBOARD], EYE, &[1, 0]);
    }

    /// Two leaves in one plane: as they stand in the list.
    #[test]
    fn flat_things_in_one_plane_keep_their_order() {
        let leaf = [[0.0, 4.0], [0.0, 4.0], [9.0, 9.0]];
        check(&[leaf, leaf, leaf], EYE, &[0, 1, 2]);
    }
}
