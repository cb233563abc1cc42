//! The scene: everything to be drawn, placed in exact lengths. Every output translates the same scene; none works out the
//! layout again.
//!
//! The frame of reference is the wall's: origin at its lower left corner, x to the right, y up from the floor.

use crate::colour::Colour;
use crate::figures::Figures;
use crate::framing::face::relief;
use crate::framing::{BuildUp, MatSizes, floater_recess};
use crate::geometry::{Point, Rect, Size};
use crate::length::Length;
use crate::measure::{self, Grade};
use crate::plan::{
    Edge, FaceShape, Finish, FixtureKind, Glazing, GroupUp, Lighting, Mat, OpeningRule, Piece, Plan, Posture,
    Rise, Surface, System, Wall,
};
use crate::print::{Cut, Exact, Source};

pub mod dimension;
pub mod section;
pub use dimension::{Dimension, Lane, Tone};

/// What there is to draw.
///
/// ```
/// use overmantel::{figures::Figures, plan::Plan, scene::scene};
///
/// let plan = Plan::starting();
/// let scene = scene(&plan, &Figures::of(&plan)?);
/// assert_eq!((scene.pieces.len(), scene.fixtures.len()), (3, 1)); // three prints above a sofa
/// # Ok::<(), overmantel::figures::NoAnswer>(())
/// ```
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
    /// Where it is seen from.
    pub viewer: Viewer,
    /// A figure for scale, where one is wanted.
    pub figure: Option<ScenicFigure>,
    /// Where hooks go.
    pub hooks: Vec<Point>,
    /// Dimension lines.
    pub dimensions: Vec<Dimension>,
    /// For how many lanes of them there is room below the wall, though some may be empty: a group that is dragged from above a
    /// fixture to eye level and back changes its lines, and must not change the scale.
    pub lanes_below: u8,
    /// By which light it is seen.
    pub light: Lighting,
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
    /// From the wall to its front.
    pub depth: Length,
    /// How wide its casing is.
    pub casing: Length,
    /// To which side it rises, for stairs.
    pub rise: Rise,
    /// The colour of its fabric or wood, where one is stated.
    pub colour: Option<Colour>,
}

/// A figure for scale, in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScenicFigure {
    /// How it holds itself.
    pub posture: Posture,
    /// Where it is.
    pub rect: Rect,
}

/// Where the viewer's eye is: from the left corner, from the floor and from the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Viewer {
    /// Along the wall.
    pub x: Length,
    /// Above the floor.
    pub y: Length,
    /// Before the wall; more than zero.
    pub distance: Length,
}

/// A piece in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScenicPiece {
    /// Its outside, on the wall.
    pub outside: Rect,
    /// From the wall to its front.
    pub depth: Length,
    /// From the wall to its back: more than zero where it floats off the wall.
    pub stand_off: Length,
    /// Radius of its four corners; zero for square ones.
    pub corner_radius: Length,
    /// What is seen of it from the side.
    pub flanks: Flanks,
    /// What it is made of, from the back to the front, each in the piece's own frame of reference (origin at the lower
    /// left corner of its outside).
    pub layers: Vec<Layer>,
}

/// The outer sides of a piece, between its back and its front.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Flanks {
    /// All in one colour.
    Plain(Colour),
    /// The cut edges of a metal sheet, in its colour: they catch the light.
    Metal(Colour),
    /// Edges of a canvas that show the picture.
    Picture {
        /// Which of the plan's pictures, and the part of it on the left, upper, right and lower side, as it lies in the file.
        shows: (usize, Box<[Source; 4]>),
        /// Whether each part is turned over its edge.
        mirrored: bool,
    },
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
    /// A board with openings in it: what is within them stays as it is.
    Board {
        /// The board.
        rect: Rect,
        /// Its openings.
        openings: Vec<Rect>,
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
    /// What a face does to the light, over what is on it.
    Face {
        /// Where.
        rect: Rect,
        /// What.
        sheen: Sheen,
    },
    /// The shadow round a sheet that floats before what is behind it.
    Lifted {
        /// The sheet.
        rect: Rect,
        /// How far before it.
        height: Length,
    },
    /// The front edges of something that has no frame: they catch the light at the top and lose it at the bottom.
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
        /// Thickness of the board: how far it stands above what it shows.
        height: Length,
    },
    /// A mitred moulding.
    Moulding {
        /// Its outer edge.
        outer: Rect,
        /// Its inner edge.
        inner: Rect,
        /// Its colour.
        colour: Colour,
        /// How its face is shaped.
        shape: FaceShape,
        /// How it is finished.
        surface: Surface,
        /// How much lower the lowest part of its face is than its highest.
        relief: Length,
        /// How far its front stands above what it encloses: the shadow it casts inwards.
        height: Length,
    },
}

/// What a face does to the light.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sheen {
    /// The weave of a canvas.
    Weave,
    /// The gloss of a coated sheet of metal.
    Gloss,
    /// The room, faintly mirrored in glass or acrylic.
    Glazing,
    /// The same where a coating keeps most of it back.
    CoatedGlazing,
}

impl Sheen {
    /// That of a print's own face, without any glazing.
    pub(crate) const fn of(finish: &Finish) -> Option<Self> {
        match finish {
            Finish::Canvas(_) => Some(Self::Weave),
            Finish::Aluminium(_) => Some(Self::Gloss),
            Finish::Paper(_) | Finish::Original(_) => None,
        }
    }
}

/// How far a sheet that floats in a mat stands before what it is hinged to: a thin board behind it (common practice, no source).
const FLOAT_LIFT: Length = Length::inches_ratio(1, 8);
/// White of paper.
const PAPER: Colour = Colour::hex(0xfb_fa_f6);
/// The bottom of the gap of a floater frame.
const GAP: Colour = Colour::hex(0x17_16_15);

/// The side of a canvas on its bars, as woven.
const CLOTH: Colour = Colour::hex(0xe2_da_c8);
/// The cut edge of an aluminium sheet.
const METAL: Colour = Colour::hex(0xb4_b8_ba);

/// Places everything.
#[must_use]
pub fn scene(plan: &Plan, figures: &Figures) -> Scene {
    let shown = |index: usize| {
        let picture = plan.split.map(|split| split.picture).or(plan.pieces[index].picture);
        picture.zip(figures.cuts[index])
    };
    let all: Vec<ShownPiece<'_>> = plan
        .pieces
        .iter()
        .zip(&figures.build_ups)
        .enumerate()
        .map(|(index, (piece, sizes))| ShownPiece { piece, sizes, shown: shown(index) })
        .collect();
    // In a shared frame all parts make one piece.
    let hung = if plan.shared.is_some() { all.len() } else { 1 };
    let pieces = all
        .chunks(hung)
        .zip(figures.arranged.outsides.iter().step_by(hung))
        .filter_map(|(parts, &outside)| {
            let ShownPiece { piece, sizes, .. } = parts.first()?;
            Some(ScenicPiece {
                outside,
                depth: sizes.depth,
                stand_off: match &piece.finish {
                    Finish::Aluminium(sheet) => sheet.stand_off,
                    _ => Length::ZERO,
                },
                corner_radius: sizes.corner_radius,
                flanks: flanks(&parts[0]),
                layers: layers(parts, plan.viewing.reflection),
            })
        })
        .collect();
    Scene {
        wall: plan.wall.clone(),
        fixtures: plan
            .fixtures
            .iter()
            .zip(&figures.arranged.fixtures)
            .map(|(fixture, &rect)| ScenicFixture {
                kind: fixture.kind,
                rect,
                depth: fixture.depth,
                casing: fixture.casing(),
                rise: fixture.rise,
                colour: fixture.colour.filter(|_| fixture.kind.usual_colour().is_some()),
            })
            .collect(),
        pieces,
        group: figures.arranged.group,
        eye_level: plan.viewing.eye_level,
        centre_line: figures.arranged.group.centre().x,
        viewer: Viewer {
            x: figures.arranged.group.centre().x + plan.viewing.aside.to_the_right(),
            y: plan.viewing.eye_level,
            distance: plan.viewing.distance,
        },
        figure: plan.viewing.figure.map(|posture| figure(posture, plan, figures)),
        hooks: figures.hanging.iter().step_by(hung).flat_map(|hanging| hanging.hooks.clone()).collect(),
        dimensions: dimension::dimensions(plan, figures),
        lanes_below: dimension::lanes_below(plan),
        light: plan.viewing.light,
        system: plan.units.first,
    }
}

/// Where a figure of 170 cm, or the same seated (130 cm), hides least: of places a hand's breadth apart along the wall, the one that covers
/// least of the pieces, then of the fixtures, then the nearest to the group.
fn figure(posture: Posture, plan: &Plan, figures: &Figures) -> ScenicFigure {
    let height = match posture {
        Posture::Standing => 1700,
        Posture::Seated => 1300,
    };
    let size = Size::new(Length::mm(480), Length::mm(height));
    let step = Length::mm(100);
    let group = figures.arranged.group;
    let covered = |rect: Rect, others: &[Rect], room: Length| {
        let others = others.iter().map(|other| other.grown(room));
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
    let rect = best.map_or(Rect::new(Length::ZERO, Length::ZERO, size), |(_, rect)| rect);
    ScenicFigure { posture, rect }
}

/// A piece with its sizes and what it shows.
struct ShownPiece<'a> {
    piece: &'a Piece,
    sizes: &'a BuildUp,
    shown: Option<(usize, Cut)>,
}

/// What is seen of a piece from the side.
fn flanks(ShownPiece { piece, sizes, shown }: &ShownPiece<'_>) -> Flanks {
    let frame = piece.finish.framing().and_then(|framing| framing.frame.as_ref()).map(|frame| frame.colour);
    if let Some(colour) = frame.or(piece.finish.floater().map(|floater| floater.colour)) {
        return Flanks::Plain(colour);
    }
    let canvas = match &piece.finish {
        Finish::Paper(_) => return Flanks::Plain(PAPER),
        Finish::Aluminium(_) => return Flanks::Metal(METAL),
        Finish::Original(_) => return Flanks::Plain(CLOTH),
        Finish::Canvas(canvas) => canvas,
    };
    let mirrored = match canvas.edge {
        Edge::Plain(colour) => return Flanks::Plain(colour),
        Edge::Mirrored => true,
        Edge::Carried => false,
    };
    let Some((index, cut)) = shown else { return Flanks::Plain(CLOTH) };
    let face = sizes.image;
    let deep = |most: Length| sizes.depth.min(most);
    // Of the strips beside the face, or just within it, as much as the bars are deep.
    let (across, down) = if mirrored {
        (deep(face.size.width), deep(face.size.height))
    } else {
        (deep(face.x - sizes.picture.x), deep(face.y - sizes.picture.y))
    };
    let inwards = if mirrored { Length::ZERO } else { across };
    let downwards = if mirrored { Length::ZERO } else { down };
    let upright = Size::new(across, face.size.height);
    let level = Size::new(face.size.width, down);
    let strips = [
        Rect::new(face.x - inwards, face.y, upright),
        Rect::new(face.x, face.top() + downwards - down, level),
        Rect::new(face.right() + inwards - across, face.y, upright),
        Rect::new(face.x, face.y - downwards, level),
    ];
    if across <= Length::ZERO || down <= Length::ZERO {
        return Flanks::Plain(CLOTH);
    }
    let parts = Box::new(strips.map(|strip| part_of(cut.source, sizes.picture, strip)));
    Flanks::Picture { shows: (*index, parts), mirrored }
}

/// The layers of what hangs as one: of one piece, or of all that share a frame.
fn layers(parts: &[ShownPiece<'_>], reflection: bool) -> Vec<Layer> {
    let mut layers = Vec::new();
    let Some(ShownPiece { piece, sizes: first, .. }) = parts.first() else { return layers };
    let whole = Rect::new(Length::ZERO, Length::ZERO, first.outside);
    if let Some(inside) = first.floater_inside {
        layers.push(Layer::Flat { rect: inside, colour: GAP });
    }
    let framing = piece.finish.framing();
    let mat = framing.and_then(|framing| framing.mat.as_ref());
    for part in parts {
        in_the_opening(part, mat, &mut layers);
    }
    if let Some(mat) = mat {
        let cuts: Vec<&MatSizes> = parts.iter().filter_map(|part| part.sizes.mat.as_ref()).collect();
        mats(mat, &cuts, &mut layers);
    }
    let is_glazed = framing.is_some_and(|framing| framing.glazing != Glazing::None);
    if is_glazed && reflection {
        let rect = first.frame.as_ref().map_or(whole, |frame| frame.sight);
        let is_coated = framing.is_some_and(|framing| framing.coating.is_anti_reflective());
        let sheen = if is_coated { Sheen::CoatedGlazing } else { Sheen::Glazing };
        layers.push(Layer::Face { rect, sheen });
    }
    if let (Some(stated), Some(frame)) = (framing.and_then(|framing| framing.frame.as_ref()), &first.frame) {
        let height = (stated.depth - stated.rabbet_depth).max(Length::ZERO);
        layers.push(Layer::Moulding {
            outer: whole,
            inner: frame.sight,
            colour: stated.colour,
            shape: stated.shape,
            surface: stated.surface,
            relief: relief(stated),
            height,
        });
    }
    if let (Some(floater), Some(inner)) = (piece.finish.floater(), first.floater_inside) {
        let height = floater_recess(floater, first.stack.thickness());
        layers.push(Layer::Moulding {
            outer: whole,
            inner,
            colour: floater.colour,
            shape: FaceShape::Flat,
            surface: Surface::Grain,
            relief: Length::ZERO,
            height,
        });
    }
    layers
}

/// What is seen through an opening, or the whole face of what has none.
fn in_the_opening(part: &ShownPiece<'_>, mat: Option<&Mat>, layers: &mut Vec<Layer>) {
    let ShownPiece { piece, sizes, shown } = part;
    if let (Some(Mat { colour, .. }), Some(cut)) = (mat, &sizes.mat) {
        // The mount board where the sheet floats.
        layers.push(Layer::Flat { rect: cut.opening, colour: colour.lit(0.93) });
        if let Some(Mat { opening: OpeningRule::Float(_), .. }) = mat {
            layers.push(Layer::Lifted { rect: sizes.sheet, height: FLOAT_LIFT });
        }
    }
    let seen = |rect: Rect| rect.common(sizes.window);
    let is_paper = matches!(piece.finish, Finish::Paper(_));
    if is_paper {
        layers.extend(seen(sizes.sheet).map(|rect| Layer::Flat { rect, colour: PAPER }));
    }
    if let Some(rect) = seen(sizes.image) {
        let shows = shown.map(|(index, cut)| (index, part_of(cut.source, sizes.picture, rect)));
        layers.push(Layer::Picture { rect, shows });
        let sheen = Sheen::of(&piece.finish);
        layers.extend(sheen.map(|sheen| Layer::Face { rect, sheen }));
    }
    let covered = sizes.mat.is_some() || sizes.frame.is_some();
    // A canvas turns round its bars: its face has no edge of its own.
    let is_canvas = matches!(piece.finish, Finish::Canvas(_));
    if !is_paper && !is_canvas && !covered {
        layers.push(Layer::Edge { rect: sizes.sheet });
    }
}

/// The mats, the inner one first, each with the bevels of its openings.
fn mats(mat: &Mat, cuts: &[&MatSizes], layers: &mut Vec<Layer>) {
    let bevel = |back: Rect| back.grown(mat.thickness);
    let Some(board) = cuts.first().map(|cut| cut.board) else { return };
    if mat.inner_reveal.is_some() {
        let openings = cuts.iter().map(|cut| bevel(cut.opening)).collect();
        layers.push(Layer::Board {
            rect: board,
            openings,
            colour: mat.inner_colour.unwrap_or(mat.colour.lit(0.82)),
        });
        layers.extend(cuts.iter().map(|cut| Layer::Bevel {
            face: bevel(cut.opening),
            back: cut.opening,
            height: mat.thickness,
        }));
    }
    let openings = cuts.iter().map(|cut| cut.face_opening).collect();
    layers.push(Layer::Board { rect: board, openings, colour: mat.colour });
    layers.extend(cuts.iter().map(|cut| Layer::Bevel {
        face: cut.face_opening,
        back: cut.upper_opening,
        height: mat.thickness,
    }));
}

/// The part of a source that falls on `rect`, when all of it falls on `whole`.
fn part_of(source: Source, whole: Rect, rect: Rect) -> Source {
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
    let hung = if plan.shared.is_some() { plan.pieces.len() } else { 1 };
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
    for (index, outside) in figures.arranged.outsides.iter().step_by(hung).enumerate() {
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
        && let Some(fixture) = plan
            .fixtures
            .get(fixture)
            .filter(|known| known.is_hung_above() || known.kind == FixtureKind::Stairs)
    {
        text += &format!(", {} above the {}", length(clearance, Grade::Piece), fixture.name);
    }
    text + "."
}
