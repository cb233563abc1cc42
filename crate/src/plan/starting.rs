//! The plan and the parts that a new user starts from.
//!
//! What a part is to begin with stands in its rows; here is what rows can't say. Sizes of furniture, fittings, mouldings and
//! mats are common practice, no source.

use super::{
    Across, Aluminium, Board, CASING, Canvas, Coating, Fixture, FixtureKind, Floater, Frame, Framing,
    Glazing, Group, GroupAcross, GroupUp, InHand, Mat, Material, Original, Paper, Piece, Plan, Relation,
    Rise, SubFrame, Swing,
};
use crate::described::usual;
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
}

macro_rules! starting {
    ($($(#[$about:meta])* $type:ty),*) => {$(
        impl $type {
            $(#[$about])*
            #[must_use]
            pub fn starting() -> Self {
                usual()
            }
        }
    )*};
}
starting!(
    /// A 16 × 20 in print on paper, matted and framed.
    Piece,
    /// A print to the edge of its sheet of 310 g/m², in a mat and a frame under glass.
    Paper,
    /// A frame with 2 mm of glass, a mat, a 4-ply mount and 3/16 in of foam board behind it.
    Framing,
    /// A 4-ply board (1/16 in) with an opening 1/8 in within the sheet and 2 1/8 in of board round it.
    Mat,
    /// A 3/4 in moulding with a 1/4 in lip and 1/8 in of play.
    Frame,
    /// Bars 1 1/2 in deep with the edge in mirror image and 1 in of cloth of 400 g/m² behind.
    Canvas,
    /// A 3/8 in face with 1/4 in of air, for bars of 1 1/2 in.
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
    /// A 3/8 in face with 1/4 in of air, 1/2 in deeper than what stands in it: 1/8 in before it, 3/8 in of ledge behind.
    #[must_use]
    pub fn round(work: Length) -> Self {
        Self { depth: work + Length::inches_ratio(1, 2), ..Self::starting() }
    }
}

impl Fixture {
    /// A fixture of a usual size, in a usual place.
    #[must_use]
    pub fn starting(kind: FixtureKind) -> Self {
        let plate = Size::new(Length::inches_ratio(11, 4), Length::inches_ratio(9, 2));
        let right = |inches| Across::FromRight(Length::inches(inches));
        let left = |inches| Across::FromLeft(Length::inches(inches));
        let (size, depth, from_floor, across) = match kind {
            FixtureKind::Sofa => (Size::inches(84, 34), 36, 0, Across::Middle),
            FixtureKind::Sideboard => (Size::inches(60, 32), 18, 0, Across::Middle),
            FixtureKind::Bed => (Size::inches(62, 44), 82, 0, Across::Middle),
            FixtureKind::Table => (Size::inches(48, 30), 18, 0, Across::Middle),
            FixtureKind::Lamp => (Size::inches(16, 60), 16, 0, left(12)),
            FixtureKind::Plant => (Size::inches(26, 48), 24, 0, right(8)),
            FixtureKind::Mantel => (Size::inches(60, 50), 8, 0, Across::Middle),
            FixtureKind::Radiator => (Size::inches(40, 24), 4, 4, right(12)),
            FixtureKind::Door => (Size::inches(30, 80), 1, 0, right(6)),
            FixtureKind::Window => (Size::inches(36, 48), 1, 34, left(8)),
            FixtureKind::Switch => (plate, 0, 46, right(7)),
            FixtureKind::Socket => (plate, 0, 13, left(10)),
            FixtureKind::Thermostat => (Size::inches(4, 4), 1, 52, right(14)),
            FixtureKind::Television => (Size::inches(49, 28), 3, 30, Across::Middle),
            FixtureKind::Bookcase => (Size::inches(36, 72), 12, 0, left(10)),
            FixtureKind::Desk => (Size::inches(56, 29), 28, 0, Across::Middle),
            // Ten steps of 7 3/4 in, each 10 in deep.
            FixtureKind::Stairs => {
                (Size::new(Length::inches(100), Length::inches_ratio(155, 2)), 36, 0, Across::Middle)
            }
            FixtureKind::Curtain => (Size::inches(40, 88), 5, 0, left(4)),
            FixtureKind::PictureRail => (Size::inches(144, 2), 1, 84, Across::Middle),
            FixtureKind::Beam => (Size::inches(144, 8), 6, 88, Across::Middle),
        };
        let relation = match kind {
            FixtureKind::Door
            | FixtureKind::Window
            | FixtureKind::Switch
            | FixtureKind::Socket
            | FixtureKind::Thermostat
            | FixtureKind::Lamp
            | FixtureKind::Plant
            | FixtureKind::Television
            | FixtureKind::Bookcase
            | FixtureKind::Stairs
            | FixtureKind::Curtain
            | FixtureKind::PictureRail
            | FixtureKind::Beam => Relation::KeepClear,
            _ => Relation::HangAbove,
        };
        let (from_floor, depth) = (Length::inches(from_floor), Length::inches(depth));
        let name = kind.name().to_owned();
        let (swing, casing, rise) = (Swing::Clear, CASING, Rise::Right);
        Self { kind, name, size, depth, across, from_floor, relation, swing, casing, rise }
    }

    /// The same on a wall of this size: what runs across the wall is as long as the wall, and what is above head height is under
    /// the ceiling.
    #[must_use]
    pub fn starting_on(kind: FixtureKind, wall: Size) -> Self {
        let mut fixture = Self::starting(kind);
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
