//! Findings: what is unwise about a plan that works, and why.
//!
//! A finding never stops a plan. Each has a stable code, the numbers that it rests on and its authority.

use crate::figures::Figures;
use crate::geometry::{Sides, Size};
use crate::length::Length;
use crate::measure::{Grade, shown, shown_size};
use crate::plan::{Finish, Glazing, GroupUp, OpeningRule, Plan, Relation, System};
use crate::print::Exact;
use crate::stock::Stock;

/// What a finding is about: the paragraph beside which it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the paragraphs of the specification")]
pub enum About {
    Wall,
    Fixtures,
    Picture,
    Fit,
    Made,
    Hanging,
}

/// Something unwise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// A stable name.
    pub code: &'static str,
    /// What it is about.
    pub about: About,
    /// The reason in one sentence, with its numbers.
    pub sentence: String,
    /// On what it rests.
    pub authority: &'static str,
}

mod made;
pub use made::{ACRYLIC_PER_KELVIN, ROOM_FOR_POINTS, THIN_BORDER, WARMING_KELVIN, WEAK_BAR, acrylic_growth};

const STOCK: &str = "what the stock has on offer";
const COMMON: &str = "common practice, no source";
const GEOMETRY: &str = "follows from the sizes";
const LIBRARY: &str = "Library of Congress, preservation guidance";

/// Below this many pixels to the inch a print looks soft to everyone who walks up to it (common practice, no source).
pub const SOFT_PPI: i128 = 100;
/// Below this many it is soft on paper, though canvas forgives it (common practice, no source).
pub const GOOD_PPI: i128 = 150;
/// A group is usually from two thirds of the width of what it hangs above … (common practice, no source).
pub const LEAST_SHARE: (i64, i64) = (2, 3);
/// … to three quarters of it (common practice, no source).
pub const MOST_SHARE: (i64, i64) = (3, 4);

/// A mat covers the sheet by so much at the least: 3 mm, which is nearly 1/8 in (common practice, no source).
pub const LEAST_OVERLAP: Length = Length::mm(3);

/// Looks a plan over that is made from a stock.
#[must_use]
pub fn findings(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<Finding> {
    let mut found = Vec::new();
    for check in [
        off_the_wall,
        covered,
        share_of_furniture,
        sharpness,
        made::systems,
        made::nearly_a_size,
        held_by_mat,
        under_the_lip,
        made::rabbet,
        made::mat_borders,
        made::acrylic,
        made::acid,
        made::floated,
        made::floaters,
        made::split_edges,
        made::unlike_in_one_frame,
        made::limits_of_the_maker,
        wire_in_sight,
    ] {
        check(plan, figures, stock, &mut found);
    }
    found
}

fn off_the_wall(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    let named = plan.fixtures.iter().map(|fixture| format!("The {}", fixture.name));
    let group = if plan.pieces.len() == 1 { "The piece" } else { "The group" };
    let things = named
        .zip(figures.arranged.fixtures.iter().copied())
        .map(|(name, rect)| (About::Fixtures, name, rect))
        .chain([(About::Hanging, group.to_owned(), figures.arranged.group)]);
    let wall = plan.wall.size;
    for (about, name, rect) in things {
        let beyond = [
            (-rect.x, "the left corner of the wall"),
            (rect.right() - wall.width, "the right corner of the wall"),
            (rect.top() - wall.height, "the ceiling"),
            (-rect.y, "the floor"),
        ];
        for (by, edge) in beyond.into_iter().filter(|(by, _)| *by > Length::ZERO) {
            found.push(Finding {
                code: "beyond-the-wall",
                about,
                sentence: format!("{name} reaches {} beyond {edge}.", shown(by, Grade::Room, plan.units)),
                authority: GEOMETRY,
            });
        }
    }
}

fn covered(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    for (fixture, &rect) in plan.fixtures.iter().zip(&figures.arranged.fixtures) {
        let covering = figures.arranged.outsides.iter().position(|outside| outside.common(rect).is_some());
        let Some(piece) = covering else { continue };
        let what =
            if plan.pieces.len() == 1 { "The piece".to_owned() } else { format!("Piece {}", piece + 1) };
        found.push(Finding {
            code: "covers-a-fixture",
            about: About::Hanging,
            sentence: match fixture.relation {
                Relation::KeepClear => {
                    format!("{what} hangs over the {}, which has to stay clear.", fixture.name)
                }
                Relation::HangAbove => format!("{what} reaches down behind the {}.", fixture.name),
            },
            authority: GEOMETRY,
        });
    }
}

fn share_of_furniture(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    let GroupUp::Above { fixture, .. } = plan.group.up else { return };
    let (group, below) = (figures.arranged.group.size.width, figures.arranged.fixtures[fixture].size.width);
    let name = &plan.fixtures[fixture].name;
    if plan.fixtures[fixture].relation == Relation::KeepClear {
        return;
    }
    let usual = group >= below.times_ratio(LEAST_SHARE.0, LEAST_SHARE.1)
        && group <= below.times_ratio(MOST_SHARE.0, MOST_SHARE.1);
    if usual {
        return;
    }
    let sentence = format!(
        "The group spans {:.2} of the {name}; two thirds to three quarters of what it hangs above is usual.",
        group / below
    );
    found.push(Finding { code: "share-of-furniture", about: About::Hanging, sentence, authority: COMMON });
}

fn sharpness(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    let worst = figures
        .cuts
        .iter()
        .zip(&plan.pieces)
        .filter(|(_, piece)| !matches!(piece.finish, Finish::Original(_)))
        .filter_map(|(cut, _)| Some(cut.as_ref()?.pixels_per_inch))
        .min();
    let Some(worst) = worst else { return };
    let whole = worst.to_integer();
    let sentence = if worst < Exact::from_integer(SOFT_PPI) {
        format!(
            "{whole} pixels to the inch will look soft to anyone who walks up to it; {GOOD_PPI} is the least for a print, so choose a smaller size or a larger file."
        )
    } else if worst < Exact::from_integer(GOOD_PPI) {
        format!(
            "{whole} pixels to the inch is soft on paper when seen from near; {GOOD_PPI} or more is better, and canvas forgives more than paper."
        )
    } else {
        return;
    };
    found.push(Finding { code: "few-pixels", about: About::Picture, sentence, authority: COMMON });
}

fn held_by_mat(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    for (piece, sizes) in plan.pieces.iter().zip(&figures.build_ups) {
        let stated = piece.finish.framing().and_then(|framing| framing.mat.as_ref());
        let (Some(stated), Some(mat)) = (stated, &sizes.mat) else { continue };
        if let OpeningRule::Float(_) = stated.opening {
            continue;
        }
        let Size { width, height } = mat.opening.size;
        let overlap = (sizes.sheet.size.width - width).min(sizes.sheet.size.height - height).half();
        let told = |length: Length| shown(length, Grade::Cut, plan.units);
        if overlap < LEAST_OVERLAP {
            let sentence = if overlap <= Length::ZERO {
                format!(
                    "The mat's opening is as large as the sheet or larger, by {} on each side: the sheet would fall through. Let it float, or leave more white paper.",
                    told(-overlap)
                )
            } else {
                format!(
                    "The mat covers {} of the sheet on each side; with less than about {} the sheet can slip through its opening.",
                    told(overlap),
                    told(LEAST_OVERLAP)
                )
            };
            found.push(Finding { code: "sheet-not-held", about: About::Made, sentence, authority: COMMON });
            return;
        }
    }
}

fn under_the_lip(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    let loose = figures.build_ups.iter().filter_map(|sizes| sizes.frame.as_ref());
    if let Some(frame) = loose.into_iter().find(|frame| frame.lip_hides <= Length::ZERO) {
        found.push(Finding {
            code: "not-held-by-the-lip",
            about: About::Made,
            sentence: format!(
                "The lip does not reach over the play: on each side {} are missing, and what is in the frame would fall through. Take a wider rabbet or less play.",
                shown(-frame.lip_hides, Grade::Cut, plan.units)
            ),
            authority: GEOMETRY,
        });
        return;
    }
    for (piece, sizes) in plan.pieces.iter().zip(&figures.build_ups) {
        let (Some(framing), Some(frame), None) = (piece.finish.framing(), &sizes.frame, &sizes.mat) else {
            continue;
        };
        let Sides { left, top, right, bottom } = sizes.sheet_borders;
        let covered = frame.lip_hides - left.min(top).min(right).min(bottom);
        if covered > Length::ZERO {
            found.push(Finding {
                code: "lip-on-the-image",
                about: About::Made,
                sentence: format!(
                    "Without a mat the frame's lip covers {} of the image on each side.",
                    shown(covered, Grade::Piece, plan.units)
                ),
                authority: GEOMETRY,
            });
        }
        if framing.glazing != Glazing::None && framing.spacer == Length::ZERO {
            found.push(Finding {
                code: "glazing-on-the-print",
                about: About::Made,
                sentence: "Without a mat the glazing lies on the print; a mat or spacers keep them apart."
                    .to_owned(),
                authority: LIBRARY,
            });
        }
        return;
    }
}

fn wire_in_sight(plan: &Plan, figures: &Figures, _: &Stock, found: &mut Vec<Finding>) {
    let highest = figures.hanging.iter().filter(|hung| hung.wire.is_some()).map(|hung| hung.drop).min();
    let Some(drop) = highest.filter(|&drop| drop < Length::inches(2)) else { return };
    found.push(Finding {
        code: "wire-in-sight",
        about: About::Hanging,
        sentence: format!(
            "The wire comes within {} of the upper edge; 2 in or more keeps the hook out of sight.",
            shown(drop, Grade::Piece, plan.units)
        ),
        authority: COMMON,
    });
}
