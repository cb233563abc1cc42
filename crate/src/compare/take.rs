//! Taking a part of another plan into one's own, exactly as it is there.

use crate::figures::{Figures, NoAnswer};
use crate::plan::{Finish, Fixture, Group, GroupAcross, GroupUp, Plan};

/// What can be taken by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlanPart {
    /// The wall, and from where it is seen.
    Wall,
    /// What stands there.
    Fixtures,
    /// Which pictures are shown, and what of them.
    Pictures,
    /// The sizes of the images.
    Sizes,
    /// Of what the pieces are made, but for their frames.
    MakeUp,
    /// Their frames.
    Frames,
    /// How many pieces there are, how they stand together, where they hang and on what.
    Hanging,
    /// All that is left: the title, the site, what is wished for.
    Rest,
}

impl PlanPart {
    /// Every part, in the order of the specification.
    pub const ALL: [Self; 8] = [
        Self::Wall,
        Self::Fixtures,
        Self::Pictures,
        Self::Sizes,
        Self::MakeUp,
        Self::Frames,
        Self::Hanging,
        Self::Rest,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Wall => "the wall",
            Self::Fixtures => "what is on the wall and in front of it",
            Self::Pictures => "the pictures",
            Self::Sizes => "the sizes",
            Self::MakeUp => "the make-up",
            Self::Frames => "the frames",
            Self::Hanging => "the hanging",
            Self::Rest => "everything else",
        }
    }

    /// Puts this part of another plan into one.
    fn put(self, one: &mut Plan, other: &Plan) {
        match self {
            Self::Wall => (one.wall, one.viewing) = (other.wall.clone(), other.viewing),
            Self::Fixtures => {
                // What the group hangs by stays the same thing, where it is still there.
                one.group = by_fixtures(one.group, &one.fixtures, &other.fixtures);
                one.fixtures.clone_from(&other.fixtures);
            }
            Self::Pictures => {
                one.pictures.clone_from(&other.pictures);
                one.split = other.split;
                for (index, piece) in one.pieces.iter_mut().enumerate() {
                    let new = other.pieces.get(index);
                    piece.picture = new.and_then(|new| new.picture);
                    piece.focus = new.map_or(piece.focus, |new| new.focus);
                }
            }
            Self::Sizes => {
                one.pieces.iter_mut().zip(&other.pieces).for_each(|(piece, new)| piece.image = new.image);
            }
            Self::MakeUp => {
                for (piece, new) in one.pieces.iter_mut().zip(&other.pieces) {
                    let before = std::mem::replace(&mut piece.finish, new.finish.clone());
                    reframe(&mut piece.finish, &before);
                }
            }
            Self::Frames => {
                one.pieces
                    .iter_mut()
                    .zip(&other.pieces)
                    .for_each(|(piece, new)| reframe(&mut piece.finish, &new.finish));
            }
            Self::Hanging => {
                let kept = one.pieces.clone();
                one.pieces.clone_from(&other.pieces);
                // Pieces that both have stay as they are.
                one.pieces.iter_mut().zip(kept).for_each(|(piece, before)| *piece = before);
                for piece in one.pieces.iter_mut().skip(1) {
                    piece.picture = piece.picture.filter(|&picture| picture < one.pictures.len());
                }
                (one.fixing, one.shared) = (other.fixing, other.shared);
                one.group = by_fixtures(other.group, &other.fixtures, &one.fixtures);
            }
            Self::Rest => {
                // Whatever is no other part's, so that a new statement is of this one.
                let own = std::mem::replace(one, other.clone());
                (one.units, one.wall, one.viewing, one.fixtures) =
                    (own.units, own.wall, own.viewing, own.fixtures);
                (one.pictures, one.pieces, one.split) = (own.pictures, own.pieces, own.split);
                (one.shared, one.group, one.fixing) = (own.shared, own.group, own.fixing);
            }
        }
    }
}

/// Where a group hangs that hung by the fixtures of one plan, by those of another: fixtures are known by their names.
fn by_fixtures(group: Group, of: &[Fixture], among: &[Fixture]) -> Group {
    let place = |at: usize| {
        let name = &of.get(at)?.name;
        among.iter().position(|fixture| fixture.name == *name)
    };
    let across = match group.across {
        GroupAcross::FixtureMiddle(at) => {
            place(at).map_or(GroupAcross::WallMiddle, GroupAcross::FixtureMiddle)
        }
        across => across,
    };
    let up = match group.up {
        GroupUp::Above { fixture, clearance } => {
            place(fixture).map_or(GroupUp::EyeLevel, |fixture| GroupUp::Above { fixture, clearance })
        }
        up => up,
    };
    Group { across, up, ..group }
}

/// Gives a finish the frame of another, where it can have one.
fn reframe(finish: &mut Finish, from: &Finish) {
    if let (Some(own), Some(new)) = (finish.framing_mut(), from.framing()) {
        own.frame.clone_from(&new.frame);
    }
    if let (Some(own), true) = (finish.floater_mut(), matches!(from, Finish::Canvas(_) | Finish::Original(_)))
    {
        *own = from.floater().cloned();
    }
}

/// The parts in which two plans differ, as far as one can be taken without the others.
#[must_use]
pub fn parts(one: &Plan, other: &Plan) -> Vec<PlanPart> {
    let can_be_taken = |part: &PlanPart| taken(one, other, &[*part]).is_ok_and(|plan| plan != *one);
    PlanPart::ALL.into_iter().filter(can_be_taken).collect()
}

/// One plan with parts of another; with all of them it is the other, in the one's units.
///
/// # Errors
/// When the parts don't go together.
pub fn taken(one: &Plan, other: &Plan, parts: &[PlanPart]) -> Result<Plan, NoAnswer> {
    let mut plan = one.clone();
    if PlanPart::ALL.iter().all(|part| parts.contains(part)) {
        plan = Plan { units: one.units, ..other.clone() };
    } else {
        parts.iter().for_each(|part| part.put(&mut plan, other));
    }
    Figures::of(&plan)?;
    Ok(plan)
}
