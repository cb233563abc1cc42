//! The plan and the parts that a new user starts from.
//!
//! What a part is to begin with stands in its rows; here is what rows can't say. Sizes of furniture, fittings, mouldings and
//! mats are common practice, no source.

use super::{
    Across, Aluminium, Board, CASING, Canvas, Coating, Fixture, FixtureKind, Floater, Frame, Framing,
    Glazing, Group, GroupAcross, GroupUp, InHand, Mat, Material, Original, Paper, Piece, Plan, Relation,
    Rise, SubFrame, Swing, System,
};
use crate::described::{to_metric, usual};
use crate::geometry::Size;
use crate::length::Length;

impl Plan {
    /// Three prints over a sofa, with no picture chosen yet.
    #[must_use]
    pub fn starting() -> Self {
        let plan: Self = usual();
        Self {
            title: String::from("Three above a sofa"),
            fixtures: vec![Fixture::starting(FixtureKind::Sofa)],
            pieces: vec![Piece::starting(); 3],
            group: Group {
                across: GroupAcross::FixtureMiddle(0),
                up: GroupUp::Above { fixture: 0, clearance: Length::inches(8) },
                ..plan.group
            },
            ..plan
        }
    }

    /// The same in these units.
    #[must_use]
    pub fn starting_in(system: System) -> Self {
        let mut plan = Self::starting();
        plan.units.first = system;
        if system == System::Centimetres {
            to_metric(&mut plan, &[]);
            plan.fixtures = vec![Fixture::starting_in(FixtureKind::Sofa, system)];
            plan.pieces = vec![Piece::starting_in(system); 3];
        }
        plan
    }
}

macro_rules! starting {
    ($($(#[$about:meta])* $type:ty),*) => {$(
        impl $type {
            $(#[$about])*
            #[must_use]
            pub fn starting() -> Self {
                usual()
            }

            /// The same for a plan that is in these units first.
            #[must_use]
            pub fn starting_in(system: System) -> Self {
                let mut starting = Self::starting();
                if system == System::Centimetres {
                    to_metric(&mut starting, &[]);
                }
                starting
            }
        }
    )*};
}
starting!(
    /// A 16 × 20 in print on paper, matted and framed.
    Piece,
    /// A print to the edge of its sheet of 310 g/m², in a mat and a frame under glass.
    Paper,
    /// A frame with 2 mm of glass, a mat, a 4-ply mount board and 3/16 in of foam board behind it.
    Framing,
    /// A 4-ply board (1/16 in) with an opening 1/8 in within the sheet and 2 1/8 in of board round it.
    Mat,
    /// A 3/4 in moulding with a 1/4 in lip and 1/8 in of allowance.
    Frame,
    /// Bars 1 1/2 in deep with the edge in mirror image and 1 in of canvas of 400 g/m² behind.
    Canvas,
    /// A 3/8 in face with 1/4 in of gap, for bars of 1 1/2 in.
    Floater,
    /// A sheet of 0.045 in on blocks of 3/4 in.
    Aluminium,
    /// Bars of 1 in, 2 in from the edges.
    SubFrame,
    /// On bars of 3/4 in, without a frame.
    Original,
    /// A 16 × 20 in frame by its glass, with the moulding that a plan starts from.
    InHand
);

impl Framing {
    /// No frame, no mat, nothing behind.
    pub const NONE: Self = Self {
        frame: None,
        glazing: Glazing::None,
        coating: Coating::Plain,
        spacer: Length::ZERO,
        mat: None,
        mount: None,
        backing: None,
    };

    /// The boards of a frame: museum board behind the work, foam board to close it.
    pub(super) const BOARDS: [Option<Board>; 2] = [
        Some(Board { material: Material::MatBoard, thickness: Length::inches_ratio(1, 16) }),
        Some(Board { material: Material::FoamBoard, thickness: Length::inches_ratio(3, 16) }),
    ];
}

impl Floater {
    /// A 3/8 in face with 1/4 in of gap, 1/2 in deeper than what stands in it: 1/8 in before it, 3/8 in of ledge behind.
    #[must_use]
    pub fn round(work: Length) -> Self {
        Self { depth: work + Length::inches_ratio(1, 2), ..Self::starting() }
    }

    /// The same for a plan that is in these units first: in centimetres 12 mm deeper, with 10 mm of face and 6 mm of gap.
    #[must_use]
    pub fn round_in(work: Length, system: System) -> Self {
        match system {
            System::Inches => Self::round(work),
            System::Centimetres => Self { depth: work + Length::mm(12), ..Self::starting_in(system) },
        }
    }
}

/// From where a place is measured.
#[derive(Clone, Copy)]
enum Along {
    Middle,
    Left,
    Right,
}

/// The usual width, height, depth and height above the floor of a kind, and how far it is from a corner: in sixteenths of an inch and
/// in millimetres.
const fn usual_fixture(kind: FixtureKind) -> (Along, [i64; 5], [i64; 5]) {
    use Along::{Left, Middle, Right};
    use FixtureKind as Kind;
    match kind {
        Kind::Sofa => (Middle, [1344, 544, 576, 0, 0], [2150, 860, 900, 0, 0]),
        Kind::Sideboard => (Middle, [960, 512, 288, 0, 0], [1500, 800, 450, 0, 0]),
        Kind::Bed => (Middle, [992, 704, 1312, 0, 0], [1600, 1100, 2100, 0, 0]),
        Kind::Table => (Middle, [768, 480, 288, 0, 0], [1200, 750, 450, 0, 0]),
        Kind::Lamp => (Left, [256, 960, 256, 0, 192], [400, 1500, 400, 0, 300]),
        Kind::Plant => (Right, [416, 768, 384, 0, 128], [650, 1200, 600, 0, 200]),
        Kind::Mantel => (Middle, [960, 800, 128, 0, 0], [1500, 1250, 200, 0, 0]),
        Kind::Radiator => (Right, [640, 384, 64, 64, 192], [1000, 600, 100, 100, 300]),
        Kind::Door => (Right, [480, 1280, 16, 0, 96], [900, 2100, 25, 0, 150]),
        Kind::Window => (Left, [576, 768, 16, 544, 128], [900, 1200, 25, 850, 200]),
        Kind::Switch => (Right, [44, 72, 0, 736, 112], [80, 80, 0, 1050, 180]),
        Kind::Socket => (Left, [44, 72, 0, 208, 160], [80, 80, 0, 300, 250]),
        Kind::Thermostat => (Right, [64, 64, 16, 832, 224], [100, 100, 25, 1350, 350]),
        Kind::Television => (Middle, [784, 448, 48, 480, 0], [1240, 720, 80, 750, 0]),
        Kind::Bookcase => (Left, [576, 1152, 192, 0, 160], [900, 1800, 300, 0, 250]),
        Kind::Desk => (Middle, [896, 464, 448, 0, 0], [1400, 740, 700, 0, 0]),
        // Ten steps: of 7 3/4 in, each 10 in deep, or of 19 cm and 25 cm.
        Kind::Stairs => (Middle, [1600, 1240, 576, 0, 0], [2500, 1900, 900, 0, 0]),
        Kind::Curtain => (Left, [640, 1408, 80, 0, 64], [1000, 2200, 120, 0, 100]),
        Kind::PictureRail => (Middle, [2304, 32, 16, 1344, 0], [3600, 50, 25, 2100, 0]),
        Kind::Beam => (Middle, [2304, 128, 96, 1408, 0], [3600, 200, 150, 2200, 0]),
    }
}

impl Fixture {
    /// A fixture of a usual size, in a usual place.
    #[must_use]
    pub fn starting(kind: FixtureKind) -> Self {
        Self::starting_in(kind, System::Inches)
    }

    /// The same for a plan that is in these units first.
    #[must_use]
    pub fn starting_in(kind: FixtureKind, system: System) -> Self {
        let (from, inches, metric) = usual_fixture(kind);
        let ([width, height, depth, from_floor, aside], casing) = match system {
            System::Inches => (inches.map(|count| Length::inches_ratio(count, 16)), CASING),
            System::Centimetres => (metric.map(Length::mm), Length::mm(60)),
        };
        let across = match from {
            Along::Middle => Across::Middle,
            Along::Left => Across::FromLeft(aside),
            Along::Right => Across::FromRight(aside),
        };
        let relation = match kind {
            FixtureKind::Sofa
            | FixtureKind::Sideboard
            | FixtureKind::Bed
            | FixtureKind::Table
            | FixtureKind::Mantel
            | FixtureKind::Radiator
            | FixtureKind::Desk => Relation::HangAbove,
            _ => Relation::KeepClear,
        };
        let (name, size) = (kind.name().to_owned(), Size::new(width, height));
        let (swing, rise, colour) = (Swing::Clear, Rise::Right, None);
        Self { kind, name, size, depth, across, from_floor, relation, swing, casing, rise, colour }
    }

    /// The same on a wall of this size: what runs across the wall is as long as the wall, and what is higher than a door is under
    /// the ceiling.
    #[must_use]
    pub fn starting_on(kind: FixtureKind, wall: Size, system: System) -> Self {
        let mut fixture = Self::starting_in(kind, system);
        if kind.spans_wall() {
            fixture.size.width = wall.width;
        }
        let highest = (wall.height - fixture.size.height).max(Length::ZERO);
        if kind == FixtureKind::Beam {
            fixture.from_floor = highest;
        } else if kind.crosses_others() {
            fixture.size.height = fixture.size.height.min(wall.height);
            fixture.from_floor = fixture.from_floor.min(highest);
        }
        fixture
    }
}
