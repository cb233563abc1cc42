//! Legs: the four sides of a mitred frame, how much moulding they take, and from how many sticks they are cut.
//!
//! Legs are cut one after another from a stick with their outer edges along its outer edge, a kerf between two. The triangles
//! that fall off between mitres lie on the sight side and are within the outside lengths already.

use super::CutError;
use crate::geometry::Size;
use crate::length::Length;
use crate::stock::Stick;

/// Legs at most that are packed at once: those of three frames.
pub const MOST_RAILS: usize = 12;

/// One leg of a mitred frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rail {
    /// Along its outer edge, from point to point: what it takes of the stick.
    pub long_point: Length,
    /// Along its sight edge.
    pub short_point: Length,
}

/// The legs of one frame: two across and two upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rails {
    /// At the top and bottom.
    pub across: Rail,
    /// On the left and on the right.
    pub upright: Rail,
}

impl Rails {
    /// The legs of a frame with this outside and this face: outside lengths (long points) are the outside, and a mitre of 45° takes one face at
    /// either end, so short = long - 2F, the sight.
    #[must_use]
    pub fn of(outside: Size, face: Length) -> Self {
        let rail = |long_point| Rail { long_point, short_point: long_point - face * 2 };
        Self { across: rail(outside.width), upright: rail(outside.height) }
    }

    /// The outside lengths of all four: top, bottom, left, right.
    #[must_use]
    pub fn long_points(self) -> [Length; 4] {
        let (across, upright) = (self.across.long_point, self.upright.long_point);
        [across, across, upright, upright]
    }
}

/// How much moulding a frame takes, by three reckonings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moulding {
    /// In the finished frame: the four outside lengths, 2(W + H) of the outside.
    pub exact: Length,
    /// By the shops' rule, 2(w + h) + 8F of the nominal size (common practice, no source).
    pub by_rule: Length,
    /// Cut from one stick: exact, and a kerf between two legs.
    pub with_kerfs: Length,
}

impl Moulding {
    /// The same from sticks that are cut with this kerf.
    #[must_use]
    pub fn with_kerf(self, kerf: Length) -> Self {
        Self { with_kerfs: self.exact + kerf * 3, ..self }
    }
}

/// How much moulding a frame takes.
#[must_use]
pub fn moulding(outside: Size, nominal: Size, face: Length, kerf: Length) -> Moulding {
    let exact = (outside.width + outside.height) * 2;
    Moulding { exact, by_rule: (nominal.width + nominal.height) * 2 + face * 8, with_kerfs: exact + kerf * 3 }
}

/// What is cut from one stick.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cuts {
    /// Which of the legs, the longest first.
    pub rails: Vec<usize>,
    /// What is left of the stick, its trim taken off; the cut that frees the last leg is not.
    pub left: Length,
}

/// Cuts legs from as few sticks as can be. The same legs give the same cuts.
///
/// A stick takes legs whose outside lengths, with a kerf between two, are no longer than the stick less its trim.
///
/// # Errors
/// When there are more than [`MOST_RAILS`], or a leg that is nothing, or one longer than a stick.
pub fn pack(rails: &[Length], stick: &Stick) -> Result<Vec<Cuts>, CutError> {
    if rails.len() > MOST_RAILS {
        return Err(CutError::ManyRails(rails.len()));
    }
    let usable = stick.length - stick.trim;
    for (index, &length) in rails.iter().enumerate() {
        if length <= Length::ZERO {
            return Err(CutError::NoRail { index, length });
        }
        if length > usable {
            return Err(CutError::LongRail { index, length, stick: stick.name.clone(), usable });
        }
    }
    Ok(fewest_sticks(rails, usable, stick.kerf))
}

/// How far a set of legs has been packed: sticks begun, and what the last of them holds. Fewer sticks are better, then a last one
/// with less in it, so states compare as they stand.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Packed {
    sticks: usize,
    in_last: Length,
}

/// Every set of legs is packed as well as can be from the sets that lack one of its legs: exact, and 2¹² sets at most.
fn fewest_sticks(rails: &[Length], usable: Length, kerf: Length) -> Vec<Cuts> {
    let with = |packed: Packed, rail: Length| {
        let in_last = packed.in_last + kerf + rail;
        if packed.sticks > 0 && in_last <= usable {
            Packed { in_last, ..packed }
        } else {
            Packed { sticks: packed.sticks + 1, in_last: rail }
        }
    };
    // For each set, a bit for each leg: how it is packed best, and the leg that came last.
    let mut best = vec![(Packed { sticks: 0, in_last: Length::ZERO }, 0)];
    for set in 1..1_usize << rails.len() {
        let last = (0..rails.len()).filter(|index| set & (1 << index) != 0);
        let states = last.map(|index| (with(best[set ^ (1 << index)].0, rails[index]), index));
        best.extend(states.min());
    }
    let mut sticks: Vec<Cuts> = Vec::new();
    let mut set = (1_usize << rails.len()) - 1;
    let mut begun = usize::MAX;
    while set != 0 {
        let (packed, index) = best[set];
        if packed.sticks < begun {
            begun = packed.sticks;
            sticks.push(Cuts { rails: Vec::new(), left: usable - packed.in_last });
        }
        if let Some(cuts) = sticks.last_mut() {
            cuts.rails.push(index);
        }
        set ^= 1 << index;
    }
    for cuts in &mut sticks {
        crate::order::sort_by_key(&mut cuts.rails, |index| (-rails[*index], *index));
    }
    crate::order::sort_by_key(&mut sticks, |cuts| cuts.rails.iter().min().copied());
    sticks
}
