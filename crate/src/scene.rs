//! The scene: everything to be drawn, placed in exact lengths. Every output translates the same scene; none works out the
//! layout again.
//!
//! The frame of reference is the wall's: origin at its lower left corner, x to the right, y up from the floor.

use crate::colour::Colour;
use crate::figures::Figures;
use crate::framing::BuildUp;
use crate::geometry::{Point, Rect, Sides, Size};
use crate::length::Length;
use crate::measure::{self, Grade};
use crate::plan::{Finish, FixtureKind, GroupUp, Piece, Plan, Relation, System, Wall};
use crate::print::{Cut, Exact, Source};

pub mod dimension;
pub use dimension::{Dimension, Lane, Tone};

/// What there is to draw.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scene {
    /// The wall as stated.
    pub wall: Wall,
    /// What stands before the wall, in the order of the plan.
    pub fixtures: Vec<ScenicFixture>,
    /// The pieces, in the order of the plan.
    pub pieces: Vec<ScenicPiece>,
    /// The rectangle round all pieces.
    pub group: Rect,
    /// Height of the eye level by which pictures are hung.
    pub eye_level: Length,
    /// The middle line of the group, drawn from the ceiling to it.
    pub centre_line: Length,
    /// A standing figure for scale, where one is wanted.
    pub figure: Option<Rect>,
    /// Where hooks go.
    pub hooks: Vec<Point>,
    /// Dimension lines.
    pub dimensions: Vec<Dimension>,
    /// The system in which the scale bar is divided.
    pub system: System,
}

/// A fixture in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScenicFixture {
    /// What it is.
    pub kind: FixtureKind,
    /// Where it is.
    pub rect: Rect,
}

/// A piece in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScenicPiece {
    /// Its outside, on the wall.
    pub outside: Rect,
    /// From the wall to its front.
    pub depth: Length,
    /// From the wall to its back: more than nothing where it floats off the wall.
    pub stand_off: Length,
    /// What it is made of, from the back to the front, each in the piece's own frame of reference (origin at the lower
    /// left corner of its outside).
    pub layers: Vec<Layer>,
}

/// One thing in a piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Layer {
    /// A flat area: mat board, sheet of paper, the bottom of a floater's gap.
    Flat {
        /// Where.
        rect: Rect,
        /// Its colour.
        colour: Colour,
    },
    /// A picture, or a toned sheet where there is none yet.
    Picture {
        /// Where.
        rect: Rect,
        /// Which of the plan's pictures, and which part of it in pixels of the file.
        shows: Option<(usize, Source)>,
    },
    /// The front edges of something that has no frame: they catch the light at the head and lose it at the foot.
    Edge {
        /// The face.
        rect: Rect,
    },
    /// The bevelled edge of a mat, between the opening at its face and the one at its back.
    Bevel {
        /// The opening at the face.
        face: Rect,
        /// The opening at the back.
        back: Rect,
    },
    /// A mitred moulding.
    Moulding {
        /// Its outer edge.
        outer: Rect,
        /// Its inner edge.
        inner: Rect,
        /// Its colour.
        colour: Colour,
        /// How far its front stands above what it encloses: the shadow it casts inwards.
        height: Length,
    },
}

/// White of paper.
const PAPER: Colour = Colour::hex(0xfb_fa_f6);
/// The bottom of the gap of a floater frame.
const GAP: Colour = Colour::hex(0x17_16_15);

/// Places everything.
#[must_use]
pub fn scene(plan: &Plan, figures: &Figures) -> Scene {
    let pieces = plan
        .pieces
        .iter()
        .zip(&figures.build_ups)
        .enumerate()
        .map(|(index, (piece, sizes))| {
            let picture = plan.split.map(|split| split.picture).or(piece.picture);
            ScenicPiece {
                outside: figures.arranged.outsides[index],
                depth: sizes.depth,
                stand_off: match &piece.finish {
                    Finish::Aluminium(sheet) => sheet.stand_off,
                    _ => Length::ZERO,
                },
                layers: layers(piece, sizes, picture.zip(figures.cuts[index])),
            }
        })
        .collect();
    Scene {
        wall: plan.wall.clone(),
        fixtures: plan
            .fixtures
            .iter()
            .zip(&figures.arranged.fixtures)
            .map(|(fixture, &rect)| ScenicFixture { kind: fixture.kind, rect })
            .collect(),
        pieces,
        group: figures.arranged.group,
        eye_level: plan.viewing.eye_level,
        centre_line: figures.arranged.group.centre().x,
        figure: plan.viewing.figure.then(|| figure(plan, figures)),
        hooks: figures.hanging.iter().flat_map(|hanging| hanging.hooks.clone()).collect(),
        dimensions: dimension::dimensions(plan, figures),
        system: plan.units.first,
    }
}

/// Where a standing figure of 170 cm hides least: of places a hand's breadth apart along the wall, the one that covers
/// least of the pieces, then of the fixtures, then the nearest to the group.
fn figure(plan: &Plan, figures: &Figures) -> Rect {
    let size = Size::new(Length::mm(480), Length::mm(1700));
    let step = Length::mm(100);
    let group = figures.arranged.group;
    let covered = |rect: Rect, others: &[Rect], room: Length| {
        let others = others.iter().map(|other| other.shrunk(Sides::all(-room)));
        others.filter_map(|other| rect.common(other)).map(|common| common.size.width).sum::<Length>()
    };
    let mut places = Vec::new();
    let mut x = Length::ZERO;
    while x + size.width <= plan.wall.size.width {
        let rect = Rect::new(x, Length::ZERO, size);
        let cost = (
            covered(rect, &figures.arranged.outsides, step * 2),
            covered(rect, &figures.arranged.fixtures, step * 3),
            (rect.centre().x - group.centre().x).abs(),
        );
        places.push((cost, rect));
        x += step;
    }
    let best = places.into_iter().min_by_key(|&(cost, _)| cost);
    best.map_or(Rect::new(Length::ZERO, Length::ZERO, size), |(_, rect)| rect)
}

fn layers(piece: &Piece, sizes: &BuildUp, shown: Option<(usize, Cut)>) -> Vec<Layer> {
    let mut layers = Vec::new();
    let whole = Rect::new(Length::ZERO, Length::ZERO, sizes.outside);
    if let Some(inside) = sizes.floater_inside {
        layers.push(Layer::Flat { rect: inside, colour: GAP });
    }
    if let (Finish::Paper(paper), Some(mat)) = (&piece.finish, &sizes.mat)
        && let Some(stated) = &paper.mat
    {
        // Seen through the opening: the mount board where the sheet floats, then the sheet.
        layers.push(Layer::Flat { rect: mat.opening, colour: stated.colour.lit(0.93) });
    }
    let seen = |rect: Rect| rect.common(sizes.window);
    if matches!(piece.finish, Finish::Paper(_)) {
        layers.extend(seen(sizes.sheet).map(|rect| Layer::Flat { rect, colour: PAPER }));
    }
    if let Some(rect) = seen(sizes.image) {
        let shows = shown.map(|(index, cut)| (index, part(cut.source, sizes.picture, rect)));
        layers.push(Layer::Picture { rect, shows });
    }
    if !matches!(piece.finish, Finish::Paper(_)) {
        layers.push(Layer::Edge { rect: sizes.sheet });
    }
    if let Finish::Paper(paper) = &piece.finish {
        if let (Some(stated), Some(mat)) = (&paper.mat, &sizes.mat) {
            let bevel = |back: Rect| back.shrunk(Sides::all(-stated.thickness));
            if mat.upper_opening != mat.opening {
                let face = bevel(mat.opening);
                layers.extend(surround(mat.upper_opening, face, stated.colour.lit(0.82)));
                layers.push(Layer::Bevel { face, back: mat.opening });
            }
            layers.extend(surround(mat.board, mat.face_opening, stated.colour));
            layers.push(Layer::Bevel { face: mat.face_opening, back: mat.upper_opening });
        }
        if let (Some(stated), Some(frame)) = (&paper.frame, &sizes.frame) {
            let colour = stated.colour;
            let height = stated.depth - stated.rabbet_depth;
            layers.push(Layer::Moulding { outer: whole, inner: frame.sight, colour, height });
        }
    }
    if let (Finish::Canvas(canvas), Some(inner)) = (&piece.finish, sizes.floater_inside)
        && let Some(floater) = &canvas.floater
    {
        let height = (floater.depth - canvas.depth).max(Length::ZERO);
        layers.push(Layer::Moulding { outer: whole, inner, colour: floater.colour, height });
    }
    layers
}

/// The four strips of a board round an opening, so that what is within stays as it is.
fn surround(board: Rect, opening: Rect, colour: Colour) -> Vec<Layer> {
    let strip = |x: Length, y: Length, right: Length, top: Length| Layer::Flat {
        rect: Rect::new(x, y, Size::new(right - x, top - y)),
        colour,
    };
    vec![
        strip(board.x, opening.top(), board.right(), board.top()),
        strip(board.x, board.y, board.right(), opening.y),
        strip(board.x, opening.y, opening.x, opening.top()),
        strip(opening.right(), opening.y, board.right(), opening.top()),
    ]
}

/// The part of a source that falls on `rect`, when all of it falls on `whole`.
fn part(source: Source, whole: Rect, rect: Rect) -> Source {
    let share = |part: Length, of: Length| Exact::new(part.units().into(), of.units().into());
    Source {
        left: source.left + source.width * share(rect.x - whole.x, whole.size.width),
        top: source.top + source.height * share(whole.top() - rect.top(), whole.size.height),
        width: source.width * share(rect.size.width, whole.size.width),
        height: source.height * share(rect.size.height, whole.size.height),
    }
}

/// The plan in words for those who don't see the drawing: what is where, in reading order.
#[must_use]
pub fn in_words(plan: &Plan, figures: &Figures) -> String {
    let length = |length, grade| measure::shown(length, grade, plan.units);
    let mut text = format!(
        "A wall {} wide and {} high. ",
        length(plan.wall.size.width, Grade::Room),
        length(plan.wall.size.height, Grade::Room)
    );
    for (fixture, rect) in plan.fixtures.iter().zip(&figures.arranged.fixtures) {
        text += &format!(
            "A {} {} wide and {} high, its left edge {} from the left corner. ",
            fixture.name,
            length(rect.size.width, Grade::Room),
            length(rect.size.height, Grade::Piece),
            length(rect.x, Grade::Room)
        );
    }
    for (index, outside) in figures.arranged.outsides.iter().enumerate() {
        text += &format!(
            "Piece {}: {} outside, its left edge {} from the left corner, its lower edge {} from the floor. ",
            index + 1,
            measure::shown_size(outside.size, plan.units),
            length(outside.x, Grade::Room),
            length(outside.y, Grade::Piece)
        );
    }
    let group = figures.arranged.group;
    text += &format!(
        "Together they are {} wide and {} high, centred {} from the floor",
        length(group.size.width, Grade::Room),
        length(group.size.height, Grade::Piece),
        length(group.centre().y, Grade::Piece)
    );
    if let GroupUp::Above { fixture, clearance } = plan.group.up
        && let Some(fixture) =
            plan.fixtures.get(fixture).filter(|known| known.relation == Relation::HangAbove)
    {
        text += &format!(", {} above the {}", length(clearance, Grade::Piece), fixture.name);
    }
    text + "."
}
