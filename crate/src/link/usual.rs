//! What a link of version 1 leaves out: the plan that its fields are measured by. It never changes, whatever a new user's plan
//! becomes, so that every link that was ever made means what it meant.

use crate::colour::Colour;
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::*;

pub(super) fn plan() -> Plan {
    Plan {
        title: String::new(),
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
        fixtures: Vec::new(),
        pictures: Vec::new(),
        pieces: Vec::new(),
        split: None,
        group: Group {
            arrangement: Arrangement::Row,
            gap: Length::inches(3),
            align: Align::Centre,
            across: GroupAcross::WallMiddle,
            up: GroupUp::EyeLevel,
        },
        fixing: Fixing::Rings { inset: Length::inches_ratio(3, 8), down: Length::inches(5) },
        shared: None,
        fineness: 200,
        in_hand: None,
        space: None,
        site: SITE,
    }
}

pub(super) const SITE: Site = Site {
    built: Built::Unstated,
    is_public_way: false,
    has_earthquakes: false,
    has_sun: false,
    has_window_opposite: false,
    cornice: Length::ZERO,
    rated_pounds: None,
    signature: Signature::None,
    ways: [None; 3],
};

pub(super) const SPLIT: Split = Split { picture: 0, focus: Focus::MIDDLE, strips: Strips::Hidden };

pub(super) const IN_HAND: InHand = InHand {
    measured: Measured::Glass,
    size: Size::inches(16, 20),
    face: FRAME.face,
    rabbet_width: FRAME.rabbet_width,
    allowance: FRAME.allowance,
};

pub(super) fn fixture(kind: FixtureKind) -> Fixture {
    let (size, depth, relation) = match kind {
        FixtureKind::Sofa => (Size::inches(84, 34), 36, Relation::HangAbove),
        FixtureKind::Sideboard => (Size::inches(60, 32), 18, Relation::HangAbove),
        _ => (Size::inches(36, 48), 1, Relation::KeepClear),
    };
    Fixture {
        kind,
        name: kind.name().to_owned(),
        size,
        depth: Length::inches(depth),
        across: Across::Middle,
        from_floor: Length::ZERO,
        relation,
        swing: Swing::Clear,
    }
}

pub(super) fn picture() -> Picture {
    Picture { name: String::new(), file: String::new(), width_px: 6000, height_px: 4000, subject: None }
}

/// The file that a picture of this name usually comes from.
pub(super) fn file_of(name: &str) -> String {
    let words: Vec<String> = name
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    words.join("-") + ".jpg"
}

pub(super) fn piece() -> Piece {
    Piece { picture: None, focus: Focus::MIDDLE, image: Size::inches(16, 20), finish: Finish::Paper(paper()) }
}

pub(super) fn paper() -> Paper {
    let board = |material, thickness| Some(Board { material, thickness });
    Paper {
        border: Surround::even(Length::ZERO),
        grammage: 310,
        framing: Framing {
            frame: Some(FRAME),
            glazing: Glazing::Glass(Length::mm(2)),
            spacer: Length::ZERO,
            mat: Some(MAT),
            mount: board(Material::MatBoard, Length::inches_ratio(1, 16)),
            backing: board(Material::FoamBoard, Length::inches_ratio(3, 16)),
        },
    }
}

pub(super) const BOARD: Board =
    Board { material: Material::MatBoard, thickness: Length::inches_ratio(1, 16) };

pub(super) const MAT: Mat = Mat {
    opening: OpeningRule::Overlap(Length::inches_ratio(1, 8)),
    surround: Surround::even(Length::inches_ratio(17, 8)),
    inner_reveal: None,
    thickness: Length::inches_ratio(1, 16),
    colour: Colour::hex(0xf3_ee_e1),
    inner_colour: None,
};

pub(super) const FRAME: Frame = Frame {
    face: Length::inches_ratio(3, 4),
    rabbet_width: Length::inches_ratio(1, 4),
    rabbet_depth: Length::inches_ratio(5, 8),
    depth: Length::inches_ratio(9, 8),
    allowance: Length::inches_ratio(1, 8),
    material: Material::Oak,
    shape: FaceShape::Flat,
    surface: Surface::Grain,
    colour: Colour::hex(0x3b_2b_20),
};

pub(super) const CANVAS: Canvas = Canvas {
    depth: Length::inches_ratio(3, 2),
    edge: Edge::Mirrored,
    fold: Length::inches(1),
    grammage: 400,
    floater: None,
};

pub(super) const FLOATER: Floater = Floater {
    gap: Length::inches_ratio(1, 4),
    face: Length::inches_ratio(3, 8),
    depth: Length::inches(2),
    colour: Colour::hex(0x3b_2b_20),
};

pub(super) const ALUMINIUM: Aluminium = Aluminium {
    thickness: Length::inches_ratio(45, 1000),
    stand_off: Length::inches_ratio(3, 4),
    corner_radius: Length::ZERO,
    sub_frame: None,
};

pub(super) const SUB_FRAME: SubFrame = SubFrame { inset: Length::inches(2), width: Length::inches(1) };

pub(super) const ORIGINAL: Original = Original {
    depth: Length::inches_ratio(3, 4),
    framing: Framing {
        frame: None,
        glazing: Glazing::None,
        spacer: Length::ZERO,
        mat: None,
        mount: None,
        backing: None,
    },
    floater: None,
};
