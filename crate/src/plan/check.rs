//! Whether a plan holds together: ranges, names and references.

use super::{ALUMINIUM_CORNER_RADIUS, Framing, SITE_CORNICE, limits};
use super::{
    Aluminium, Arrangement, Finish, GroupAcross, GroupUp, Original, Piece, Plan, RATINGS, WALL_SKIRTING,
};
use crate::described::{Fault, Row, Thing, fault, within};
use crate::geometry::Size;
use crate::length::Length;
use crate::length::print::plain;
use std::fmt;

/// Why a plan does not hold together.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// A value is out of its range.
    Range {
        /// Of which member.
        row: &'static Row,
        /// Of which thing it is a part: `piece 1`, the name of a fixture; empty for the plan itself.
        of: String,
        /// What is wrong with it.
        fault: Fault,
    },
    /// There are too few or too many of something.
    Count {
        /// What they are.
        what: &'static str,
        /// How many were given.
        given: usize,
        /// How many have to be there.
        least: usize,
        /// How many there may be.
        most: usize,
    },
    /// Two things have one name.
    Twice {
        /// What they are.
        kind: &'static str,
        /// Their name.
        name: String,
    },
    /// Something refers to what is not there.
    Missing {
        /// What refers.
        what: &'static str,
        /// To what.
        to: &'static str,
    },
    /// An original has a floater frame and a mat or a frame with a lip.
    FramedTwice,
    /// The bars behind a sheet leave no frame.
    Bars {
        /// How wide they are.
        width: Length,
        /// How far from the edges.
        from_edges: Length,
        /// The sheet.
        sheet: Size,
    },
    /// A lip is wider than its moulding's face.
    Lip {
        /// The rabbet's width.
        rabbet: Length,
        /// The face's width.
        face: Length,
    },
    /// One piece shares a frame.
    Alone,
    /// Pieces in steps share a frame.
    Steps,
    /// Pieces without a mat share a frame.
    Matless,
    /// A rating that no hook has.
    Rating(u16),
}

impl fmt::Display for PlanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range { row, of, fault } => {
                let called = called(row.label, of);
                let is_clause = ["what ", "how ", "where ", "whether ", "which "]
                    .iter()
                    .any(|word| called.starts_with(word));
                write!(f, "{}{called} {fault}", if is_clause { "" } else { "the " })
            }
            Self::Count { what, given, least, most } => {
                write!(f, "{given} {what} were given; a plan takes {least} to {most}")
            }
            Self::Twice { kind, name } => {
                write!(f, "two {kind}s are called {name}; give each a name of its own")
            }
            Self::Missing { what, to } => write!(f, "{what} refers to a {to} that is not in the plan; name one that is, or change {what}"),
            Self::FramedTwice => f.write_str(
                "the original has a floater frame and also a mat or a frame with a lip; remove one of them",
            ),
            Self::Bars { width, from_edges, sheet } => write!(
                f,
                "the sub-frame's bars, {} wide and {} from each edge, leave no room for a frame behind a sheet of {} × {}; move them nearer to the edges",
                plain(*width),
                plain(*from_edges),
                plain(sheet.width),
                plain(sheet.height)
            ),
            Self::Lip { rabbet, face } => write!(
                f,
                "the rabbet (rebate) is {} wide and the moulding's face {}; make the rabbet narrower or the face wider, as the lip is part of the face",
                plain(*rabbet),
                plain(*face)
            ),
            Self::Alone => f.write_str("a shared frame takes two or three pieces, and the plan has one; add a piece or give it its own frame"),
            Self::Steps => f.write_str(
                "pieces in one frame can be in a row or a column, not in steps or stacked beside one; choose one of those",
            ),
            Self::Matless => f.write_str(
                "pieces that share a frame each need a mat; give every piece a mat, or its own frame",
            ),
            Self::Rating(pounds) => {
                let allowed: Vec<String> = RATINGS.iter().map(ToString::to_string).collect();
                write!(f, "each fixing is rated for {pounds} lb; choose one of {}", allowed.join(", "))
            }
        }
    }
}

/// What a member of a thing is called: `*` in its label is the thing; without one, it follows.
pub(crate) fn called(label: &str, of: &str) -> String {
    match (label.contains('*'), of) {
        (true, of) => label.replace('*', of),
        (false, "") => label.to_owned(),
        (false, of) => [label, " of ", of].concat(),
    }
}

type Check = Result<(), PlanError>;

pub(super) fn plan(plan: &Plan) -> Check {
    count("pieces", plan.pieces.len(), 1, limits::PIECES)?;
    count("fixtures", plan.fixtures.len(), 0, limits::FIXTURES)?;
    count("pictures", plan.pictures.len(), 0, limits::PICTURES)?;
    // The walk takes things to be changed, and changes nothing.
    let mut walked = plan.clone();
    ranges(&mut walked, "")?;
    names(plan.fixtures.iter().map(|fixture| fixture.name.as_str()), "fixture")?;
    names(plan.pictures.iter().map(|picture| picture.name.as_str()), "picture")?;
    for (index, fixture) in walked.fixtures.iter_mut().enumerate() {
        let name = ["the ", &fixture.name].concat();
        let of = text("fixture", index, &fixture.name, name);
        ranges(fixture, &of)?;
    }
    for (index, picture) in walked.pictures.iter_mut().enumerate() {
        let name = picture.name.clone();
        let of = text("picture", index, &name, name.clone());
        ranges(picture, &of)?;
    }
    for (index, piece) in walked.pieces.iter_mut().enumerate() {
        let name = ["piece ", &(index + 1).to_string()].concat();
        ranges(piece, &name)?;
        made(piece, plan, &name)?;
    }
    let height = plan.wall.size.height;
    let up_to_ceiling = |row, length| {
        let fault = within(length, Length::ZERO, height);
        fault.map_err(|fault| PlanError::Range { row, of: String::new(), fault })
    };
    up_to_ceiling(&WALL_SKIRTING, plan.wall.skirting)?;
    up_to_ceiling(&SITE_CORNICE, plan.site.cornice)?;
    if let Some(split) = plan.split {
        refers("the split", split.picture, plan.pictures.len(), "picture")?;
    }
    if let GroupAcross::FixtureMiddle(fixture) = plan.group.across {
        refers("the group", fixture, plan.fixtures.len(), "fixture")?;
    }
    if let GroupUp::Above { fixture, .. } = plan.group.up {
        refers("the group", fixture, plan.fixtures.len(), "fixture")?;
    }
    shared(plan)?;
    if let Some(stated) = plan.in_hand {
        lip(stated.rabbet_width, stated.face)?;
    }
    match plan.site.rated_pounds.filter(|pounds| !RATINGS.contains(pounds)) {
        Some(pounds) => Err(PlanError::Rating(pounds)),
        None => Ok(()),
    }
}

/// A thing by its name, or by its number where the name is what is wrong with it.
fn text(kind: &str, index: usize, name: &str, told: String) -> String {
    let is_name = !name.trim().is_empty() && name.chars().count() <= limits::NAME;
    if is_name { told } else { [kind, " ", &(index + 1).to_string()].concat() }
}

/// The range of every member by its row.
fn ranges(thing: &mut dyn Thing, of: &str) -> Check {
    match fault(thing) {
        Some((row, fault)) => Err(PlanError::Range { row, of: of.to_owned(), fault }),
        None => Ok(()),
    }
}

/// What the members of a piece have to do with each other.
fn made(piece: &Piece, plan: &Plan, name: &str) -> Check {
    if let Some(index) = piece.picture {
        refers("a piece", index, plan.pictures.len(), "picture")?;
    }
    match &piece.finish {
        Finish::Paper(sheet) => framing(&sheet.framing),
        Finish::Canvas(_) => Ok(()),
        Finish::Aluminium(sheet) => aluminium(sheet, piece.image, name),
        Finish::Original(Original { framing: stated, floater, .. }) => {
            framing(stated)?;
            let is_framed = stated.frame.is_some() || stated.mat.is_some();
            if floater.is_some() && is_framed { Err(PlanError::FramedTwice) } else { Ok(()) }
        }
    }
}

fn aluminium(sheet: &Aluminium, image: Size, name: &str) -> Check {
    let most = image.width.min(image.height).half();
    within(sheet.corner_radius, Length::ZERO, most).map_err(|fault| PlanError::Range {
        row: &ALUMINIUM_CORNER_RADIUS,
        of: name.to_owned(),
        fault,
    })?;
    match sheet.sub_frame.filter(|bars| bars.from_edges + bars.width > most) {
        Some(bars) => Err(PlanError::Bars { width: bars.width, from_edges: bars.from_edges, sheet: image }),
        None => Ok(()),
    }
}

fn framing(framing: &Framing) -> Check {
    framing.frame.as_ref().map_or(Ok(()), |frame| lip(frame.rabbet_width, frame.face))
}

fn lip(rabbet: Length, face: Length) -> Check {
    if rabbet > face { Err(PlanError::Lip { rabbet, face }) } else { Ok(()) }
}

/// One frame for all pieces.
fn shared(plan: &Plan) -> Check {
    if plan.shared.is_none() {
        return Ok(());
    }
    if plan.pieces.len() < 2 {
        return Err(PlanError::Alone);
    }
    if !matches!(plan.group.arrangement, Arrangement::Row | Arrangement::Column) {
        return Err(PlanError::Steps);
    }
    let matted = |piece: &Piece| piece.finish.framing().is_some_and(|framing| framing.mat.is_some());
    if plan.pieces.iter().all(matted) { Ok(()) } else { Err(PlanError::Matless) }
}

fn count(what: &'static str, given: usize, least: usize, most: usize) -> Check {
    if (least..=most).contains(&given) { Ok(()) } else { Err(PlanError::Count { what, given, least, most }) }
}

fn refers(what: &'static str, index: usize, len: usize, to: &'static str) -> Check {
    if index < len { Ok(()) } else { Err(PlanError::Missing { what, to }) }
}

fn names<'a>(given: impl Iterator<Item = &'a str>, kind: &'static str) -> Check {
    let mut seen = std::collections::BTreeSet::new();
    for name in given {
        if !seen.insert(name) {
            return Err(PlanError::Twice { kind, name: name.to_owned() });
        }
    }
    Ok(())
}
