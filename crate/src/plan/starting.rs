//! The plan and the parts that a new user starts from.
//!
//! Sizes of furniture, fittings, mouldings and mats are common practice, no source.

use super::*;

impl Plan {
    /// Three prints over a sofa, with no picture chosen yet.
    #[must_use]
    pub fn starting() -> Self {
        Self {
            title: String::from("Three above a sofa"),
            units: Units { first: System::Inches, both: false },
            wall: Wall {
                size: Size::inches(144, 96),
                paint: Colour::hex(0xd5_dc_d6),
                floor: Colour::hex(0xa5_83_63),
                skirting: Length::inches(4),
                finish: WallFinish::Smooth,
            },
            viewing: Viewing {
                distance: Length::inches(108),
                eye_level: Length::inches(57),
                aside: Aside::Straight,
                figure: None,
                light: LightOf::Day,
                reflection: false,
            },
            fixtures: vec![Fixture::starting(FixtureKind::Sofa)],
            pictures: Vec::new(),
            pieces: vec![Piece::starting(); 3],
            split: None,
            group: Group {
                arrangement: Arrangement::Row,
                gap: Length::inches(3),
                align: Align::Centre,
                across: GroupAcross::FixtureMiddle(0),
                up: GroupUp::Above { fixture: 0, clearance: Length::inches(8) },
            },
            fixing: Fixing::Rings { inset: Length::inches_ratio(3, 8), down: Length::inches(5) },
            shared: None,
            fineness: 200,
            in_hand: None,
            space: None,
            site: Site::default(),
        }
    }
}

impl Piece {
    /// A 16 × 20 in print on paper, matted and framed.
    #[must_use]
    pub fn starting() -> Self {
        Self {
            picture: None,
            focus: Focus::MIDDLE,
            image: Size::inches(16, 20),
            finish: Finish::Paper(Paper::starting()),
        }
    }
}

impl Paper {
    /// A print to the edge of its sheet of 310 g/m², in a mat and a frame under glass.
    #[must_use]
    pub fn starting() -> Self {
        Self { border: Surround::even(Length::ZERO), grammage: 310, framing: Framing::starting() }
    }
}

impl Framing {
    /// A frame with 2 mm of glass, a mat, a 4-ply mount and 3/16 in of foam board behind it.
    #[must_use]
    pub fn starting() -> Self {
        let board = |material, thickness| Some(Board { material, thickness });
        Self {
            frame: Some(Frame::starting()),
            glazing: Glazing::Glass(Length::mm(2)),
            spacer: Length::ZERO,
            mat: Some(Mat::starting()),
            mount: board(Material::MatBoard, Length::inches_ratio(1, 16)),
            backing: board(Material::FoamBoard, Length::inches_ratio(3, 16)),
        }
    }

    /// No frame, no mat, nothing behind.
    pub const NONE: Self = Self {
        frame: None,
        glazing: Glazing::None,
        spacer: Length::ZERO,
        mat: None,
        mount: None,
        backing: None,
    };
}

impl Mat {
    /// A 4-ply board (1/16 in) with an opening 1/8 in within the sheet and 2 1/8 in of board round it.
    #[must_use]
    pub fn starting() -> Self {
        Self {
            opening: OpeningRule::Overlap(Length::inches_ratio(1, 8)),
            surround: Surround::even(Length::inches_ratio(17, 8)),
            inner_reveal: None,
            thickness: Length::inches_ratio(1, 16),
            colour: Colour::hex(0xf3_ee_e1),
            inner_colour: None,
        }
    }
}

impl Frame {
    /// A 3/4 in moulding with a 1/4 in lip and 1/8 in of play.
    #[must_use]
    pub fn starting() -> Self {
        Self {
            face: Length::inches_ratio(3, 4),
            rabbet_width: Length::inches_ratio(1, 4),
            rabbet_depth: Length::inches_ratio(5, 8),
            depth: Length::inches_ratio(9, 8),
            allowance: Length::inches_ratio(1, 8),
            material: Material::Oak,
            shape: FaceShape::Flat,
            surface: Surface::Grain,
            colour: Colour::hex(0x3b_2b_20),
        }
    }
}

impl Canvas {
    /// Bars 1 1/2 in deep with the edge in mirror image and 1 in of cloth of 400 g/m² behind.
    #[must_use]
    pub fn starting() -> Self {
        Self {
            depth: Length::inches_ratio(3, 2),
            edge: Edge::Mirrored,
            fold: Length::inches(1),
            grammage: 400,
            floater: None,
        }
    }
}

impl Floater {
    /// A 3/8 in face with 1/4 in of air, 1/2 in deeper than what stands in it: 1/8 in before it, 3/8 in of ledge behind.
    #[must_use]
    pub fn round(work: Length) -> Self {
        Self { depth: work + Length::inches_ratio(1, 2), ..Self::starting() }
    }

    /// A 3/8 in face with 1/4 in of air, for bars of 1 1/2 in.
    #[must_use]
    pub fn starting() -> Self {
        Self {
            gap: Length::inches_ratio(1, 4),
            face: Length::inches_ratio(3, 8),
            depth: Length::inches(2),
            colour: Colour::hex(0x3b_2b_20),
        }
    }
}

impl Aluminium {
    /// A sheet of 0.045 in on blocks of 3/4 in.
    #[must_use]
    pub fn starting() -> Self {
        Self {
            thickness: Length::inches_ratio(45, 1000),
            stand_off: Length::inches_ratio(3, 4),
            corner_radius: Length::ZERO,
            sub_frame: None,
        }
    }
}

impl SubFrame {
    /// Bars of 1 in, 2 in from the edges.
    #[must_use]
    pub fn starting() -> Self {
        Self { inset: Length::inches(2), width: Length::inches(1) }
    }
}

impl Original {
    /// On bars of 3/4 in, without a frame.
    #[must_use]
    pub fn starting() -> Self {
        Self { depth: Length::inches_ratio(3, 4), framing: Framing::NONE, floater: None }
    }
}

impl InHand {
    /// A 16 × 20 in frame by its glass, with the moulding that a plan starts from.
    #[must_use]
    pub fn starting() -> Self {
        let Frame { face, rabbet_width, allowance, .. } = Frame::starting();
        Self { measured: Measured::Glass, size: Size::inches(16, 20), face, rabbet_width, allowance }
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
        };
        let relation = match kind {
            FixtureKind::Door
            | FixtureKind::Window
            | FixtureKind::Switch
            | FixtureKind::Socket
            | FixtureKind::Thermostat
            | FixtureKind::Lamp
            | FixtureKind::Plant => Relation::KeepClear,
            _ => Relation::HangAbove,
        };
        let (from_floor, depth) = (Length::inches(from_floor), Length::inches(depth));
        let name = kind.name().to_owned();
        Self { kind, name, size, depth, across, from_floor, relation, swing: Swing::Clear }
    }
}
