//! Plans of every kind, the nasty ones first: nothing, a unit more or less, nearly equal, as large as is allowed.

use overmantel::colour::Colour;
use overmantel::described::Choosable;
use overmantel::geometry::Size;
use overmantel::length::{Length, UNITS_PER_INCH};
use overmantel::plan::*;
use overmantel::rounding::Mode;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use std::collections::BTreeSet;

/// Lengths from `least` to `most`, both in reach; many of them beside marks of a rule, or near each other.
pub(crate) fn within(least: Length, most: Length) -> BoxedStrategy<Length> {
    let (low, high) = (least.units(), most.units());
    prop_oneof![
        1 => (0_i64..=2).prop_map(move |off| low + off),
        1 => (0_i64..=2).prop_map(move |off| high - off),
        // Marks of a rule up to 64 in, and a unit beside them.
        6 => (0_i64..=1024, -1_i64..=1).prop_map(|(marks, off)| marks * (UNITS_PER_INCH / 16) + off),
        // Whole millimetres up to 2 m.
        4 => (0_i64..=2000).prop_map(|millimetres| Length::mm(millimetres).units()),
        // Always nearly the same.
        3 => (-2_i64..=2).prop_map(|off| UNITS_PER_INCH * 20 + off),
        1 => low..=high,
    ]
    .prop_map(move |units| Length::from_units(units.clamp(low, high)))
    .boxed()
}

/// Lengths of a piece's parts: nothing to 10 m.
pub(crate) fn part() -> BoxedStrategy<Length> {
    within(Length::ZERO, limits::PIECE)
}

/// Lengths that are usual for a part up to so many inches: small ones, and nothing.
fn small(inches: i64) -> BoxedStrategy<Length> {
    prop_oneof![
        4 => (0..=inches * 16, -1_i64..=1)
            .prop_map(|(marks, off)| Length::from_units((marks * (UNITS_PER_INCH / 16) + off).max(0))),
        1 => (0..=inches * 25).prop_map(Length::mm),
    ]
    .boxed()
}

const LEAST: Length = Length::from_units(1);

fn positive(most: Length) -> BoxedStrategy<Length> {
    within(LEAST, most)
}

pub(crate) fn size(most: Length) -> impl Strategy<Value = Size> + Clone {
    (positive(most), positive(most)).prop_map(|(width, height)| Size::new(width, height))
}

pub(crate) fn colour() -> impl Strategy<Value = Colour> {
    any::<[u8; 3]>().prop_map(|[red, green, blue]| Colour { red, green, blue })
}

/// A text of one line that is not blank: any characters but control characters.
fn name() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => "[a-zA-Z][a-z ,.'0-9-]{0,20}",
        1 => vec(any::<char>(), 1..=limits::NAME).prop_map(String::from_iter),
    ]
    .prop_map(|text| text.chars().filter(|letter| !letter.is_control()).collect())
    .prop_filter("not blank", |text: &String| !text.trim().is_empty())
}

/// Different names, so many.
fn names(count: usize) -> impl Strategy<Value = Vec<String>> {
    vec(name(), count)
        .prop_filter("all different", |names| names.iter().collect::<BTreeSet<_>>().len() == names.len())
}

pub(crate) fn focus() -> impl Strategy<Value = Focus> {
    let permille = || prop_oneof![Just(0_u16), Just(1000), Just(500), 0..=1000_u16];
    (permille(), permille()).prop_map(|(x_permille, y_permille)| Focus { x_permille, y_permille })
}

/// Pixels along one side.
pub(crate) fn side_px() -> impl Strategy<Value = u32> + Clone {
    prop_oneof![
        1 => 1_u32..=3,
        4 => 500_u32..=12_000,
        1 => Just(limits::PICTURE_SIDE_PX),
        1 => 1..=limits::PICTURE_SIDE_PX,
    ]
}

fn ratio() -> impl Strategy<Value = Weighting> {
    let parts = || prop_oneof![3 => 1..=5_u16, 1 => 1..=limits::RATIO_PARTS];
    (parts(), parts()).prop_map(|(head, foot)| Weighting::Ratio { head, foot })
}

pub(crate) fn surround() -> impl Strategy<Value = Surround> {
    let extent = prop_oneof![
        2 => Just(Extent::Border(Length::ZERO)),
        3 => small(8).prop_map(Extent::Border),
        3 => size(limits::PIECE).prop_map(Extent::Whole),
        1 => part().prop_map(Extent::Border),
    ];
    let weighting = prop_oneof![
        3 => small(2).prop_map(Weighting::Extra),
        1 => within(-limits::PIECE, limits::PIECE).prop_map(Weighting::Extra),
        2 => ratio(),
    ];
    (extent, weighting).prop_map(|(extent, weighting)| Surround { extent, weighting })
}

pub(crate) fn mat() -> impl Strategy<Value = Mat> {
    let opening = prop_oneof![
        3 => small(2).prop_map(OpeningRule::Overlap),
        2 => small(2).prop_map(OpeningRule::Reveal),
        2 => small(2).prop_map(OpeningRule::Float),
        1 => part().prop_map(OpeningRule::Overlap),
    ];
    (opening, surround(), option::of(small(1)), small(1), (colour(), option::of(colour()))).prop_map(
        |(opening, surround, inner_reveal, thickness, (colour, inner_colour))| Mat {
            opening,
            surround,
            inner_reveal,
            thickness,
            colour,
            inner_colour,
        },
    )
}

pub(crate) fn frame() -> impl Strategy<Value = Frame> {
    let face = prop_oneof![4 => small(4), 1 => part()].prop_map(|face| face.max(LEAST));
    let material = select(MOULDING_MATERIALS.to_vec());
    let looks = (any_of::<FaceShape>(), any_of::<Surface>(), colour());
    (face, 0..=8_i64, part(), positive(limits::PIECE), small(1), material, looks).prop_map(
        |(face, eighths, rabbet_depth, depth, allowance, material, (shape, surface, colour))| Frame {
            face,
            // The lip reaches no further than the face.
            rabbet_width: Length::from_ratio((face.units() * eighths).into(), 8, Mode::Down),
            rabbet_depth,
            depth,
            allowance,
            material,
            shape,
            surface,
            colour,
        },
    )
}

/// Any value of a table.
fn any_of<T: Choosable + std::fmt::Debug>() -> impl Strategy<Value = T> + Clone {
    select(T::ALL.iter().map(|(value, _)| *value).collect::<Vec<T>>())
}

fn board() -> impl Strategy<Value = Option<Board>> {
    let material = select(BOARD_MATERIALS.to_vec());
    option::of((material, small(1)).prop_map(|(material, thickness)| Board { material, thickness }))
}

fn framing() -> impl Strategy<Value = Framing> {
    let glazing = prop_oneof![
        Just(Glazing::None),
        small(1).prop_map(Glazing::Glass),
        small(1).prop_map(Glazing::Acrylic),
    ];
    let coating = select(Coating::ALL.iter().map(|(coating, _)| *coating).collect::<Vec<_>>());
    (option::of(frame()), glazing, coating, small(1), option::of(mat()), board(), board()).prop_map(
        |(frame, glazing, coating, spacer, mat, mount, backing)| Framing {
            frame,
            glazing,
            coating,
            spacer,
            mat,
            mount,
            backing,
        },
    )
}

fn paper() -> impl Strategy<Value = Paper> {
    (surround(), 0..=limits::GRAMMAGE, framing()).prop_map(|(border, grammage, framing)| Paper {
        border,
        grammage,
        framing,
    })
}

fn floater() -> impl Strategy<Value = Option<Floater>> {
    let floater = (part(), positive(limits::PIECE), positive(limits::PIECE), colour())
        .prop_map(|(gap, face, depth, colour)| Floater { gap, face, depth, colour });
    option::of(floater)
}

fn canvas() -> impl Strategy<Value = Canvas> {
    let edge = prop_oneof![Just(Edge::Carried), Just(Edge::Mirrored), colour().prop_map(Edge::Plain)];
    (part(), edge, part(), 0..=limits::GRAMMAGE, floater())
        .prop_map(|(depth, edge, fold, grammage, floater)| Canvas { depth, edge, fold, grammage, floater })
}

fn aluminium() -> impl Strategy<Value = Aluminium> {
    // No corner and no bar is larger than half of the least piece.
    let none = Length::ZERO;
    (part(), part()).prop_map(move |(thickness, stand_off)| Aluminium {
        thickness,
        stand_off,
        corner_radius: none,
        sub_frame: None,
    })
}

fn original() -> impl Strategy<Value = Original> {
    (part(), framing(), floater()).prop_map(|(depth, framing, floater)| {
        let framing = if floater.is_some() { Framing { mat: None, frame: None, ..framing } } else { framing };
        Original { depth, framing, floater }
    })
}

pub(crate) fn piece(pictures: usize) -> impl Strategy<Value = Piece> {
    let finish = prop_oneof![
        4 => paper().prop_map(Finish::Paper),
        2 => canvas().prop_map(Finish::Canvas),
        1 => aluminium().prop_map(Finish::Aluminium),
        1 => original().prop_map(Finish::Original),
    ];
    let picture = (0..=pictures).prop_map(|index| index.checked_sub(1));
    let corners = (0..=8_i64, option::of((0..=4_i64, 1..=4_i64)));
    (picture, focus(), size(limits::PIECE), finish, corners).prop_map(
        |(picture, focus, image, mut finish, (radius, bars))| {
            // Corners and bars are shares of the half of the shorter side.
            let half = image.width.min(image.height).half();
            if let Finish::Aluminium(sheet) = &mut finish {
                sheet.corner_radius = half.times_ratio(radius, 8);
                sheet.sub_frame =
                    bars.filter(|_| half > Length::from_units(8)).map(|(from_edges, width)| SubFrame {
                        from_edges: Length::from_units(half.units() * from_edges / 8),
                        width: Length::from_units(half.units() * width / 8),
                    });
            }
            Piece { picture, focus, image, finish }
        },
    )
}

fn fixture(name: String) -> impl Strategy<Value = Fixture> {
    let distance = || within(-limits::ROOM, limits::ROOM);
    let across = prop_oneof![
        Just(Across::Middle),
        distance().prop_map(Across::FromLeft),
        distance().prop_map(Across::FromRight),
    ];
    let relation = select(vec![Relation::HangAbove, Relation::KeepClear]);
    let from_floor = within(Length::ZERO, limits::ROOM);
    let sizes = (size(limits::ROOM), within(Length::ZERO, limits::ROOM));
    let swing = select(vec![Swing::Clear, Swing::Left, Swing::Right]);
    let casing = within(Length::ZERO, Length::inches(24));
    let looks = (select(vec![Rise::Right, Rise::Left]), option::of(colour()));
    (any_of::<FixtureKind>(), sizes, across, from_floor, relation, (swing, casing), looks).prop_map(
        move |(kind, (size, depth), across, from_floor, relation, (swing, casing), (rise, colour))| Fixture {
            kind,
            name: name.clone(),
            size,
            depth,
            across,
            from_floor,
            relation,
            swing,
            casing,
            rise,
            colour,
        },
    )
}

fn group(fixtures: usize) -> impl Strategy<Value = Group> {
    let arrangement = prop_oneof![
        3 => Just(Arrangement::Row),
        2 => Just(Arrangement::Column),
        2 => within(-limits::PIECE, limits::PIECE).prop_map(Arrangement::Stepped),
        1 => Just(Arrangement::StackRight),
        1 => Just(Arrangement::StackLeft),
    ];
    let place = || within(-limits::ROOM, limits::ROOM);
    // Without fixtures these choices fall on the middle of the wall and on eye level.
    let across = (0..3_usize, 0..fixtures.max(1), place()).prop_map(move |(kind, index, x)| match kind {
        0 => GroupAcross::CentreAt(x),
        1 if fixtures > 0 => GroupAcross::FixtureMiddle(index),
        _ => GroupAcross::WallMiddle,
    });
    let clearance = within(Length::ZERO, limits::ROOM);
    let up = (0..3_usize, 0..fixtures.max(1), place(), clearance).prop_map(
        move |(kind, fixture, y, clearance)| match kind {
            0 => GroupUp::CentreAt(y),
            1 if fixtures > 0 => GroupUp::Above { fixture, clearance },
            _ => GroupUp::EyeLevel,
        },
    );
    let align = select(vec![Align::Centre, Align::Start, Align::End, Align::Both]);
    (arrangement, part(), align, across, up).prop_map(|(arrangement, gap, align, across, up)| Group {
        arrangement,
        gap,
        align,
        across,
        up,
    })
}

pub(crate) fn fixing() -> impl Strategy<Value = Fixing> {
    let at = |most| {
        prop_oneof![
            2 => Just(HangerPlace::Usual),
            3 => small(most).prop_map(HangerPlace::At),
            1 => part().prop_map(HangerPlace::At),
        ]
    };
    let hanger = prop_oneof![
        Just(Hanger::Rings),
        (small(3), option::of(small(8))).prop_map(|(slack, hooks_apart)| Hanger::Wire { slack, hooks_apart }),
        select(vec![Hanger::Cleat, Hanger::Sawtooth, Hanger::Keyholes]),
    ];
    (hanger, at(1), at(8)).prop_map(|(hanger, from_sides, down)| {
        let mut fixing = Fixing { hanger: Hanger::Rings, from_sides, down };
        fixing.set_hanger(hanger);
        fixing
    })
}

fn in_hand() -> impl Strategy<Value = InHand> {
    let measured = select(vec![Measured::Glass, Measured::Rabbet, Measured::Sight, Measured::Outside]);
    (measured, size(limits::PIECE), frame()).prop_map(|(measured, size, frame)| InHand {
        measured,
        size,
        face: frame.face,
        rabbet_width: frame.rabbet_width,
        allowance: frame.allowance,
    })
}

/// The place and the way there.
fn site() -> impl Strategy<Value = Site> {
    let built = select(vec![Built::Unstated, Built::Plasterboard, Built::Timber, Built::Masonry]);
    let signature = prop_oneof![
        Just(Signature::None),
        part().prop_map(Signature::Below),
        small(2).prop_map(Signature::Within),
    ];
    let way = || option::of(size(limits::ROOM));
    let cornice = within(Length::ZERO, limits::ROOM);
    (built, any::<[bool; 4]>(), cornice, option::of(select(RATINGS.to_vec())), signature, way(), way(), way())
        .prop_map(|(built, is, cornice, rated_pounds, signature, door, stairs, car)| Site {
            built,
            is_public_way: is[0],
            has_earthquakes: is[1],
            has_sun: is[2],
            has_window_opposite: is[3],
            cornice,
            rated_pounds,
            signature,
            ways: [door, stairs, car],
        })
}

/// Any plan that passes [`Plan::check`]; it may still have no answer, such as a mat without an opening.
pub(crate) fn any_plan() -> impl Strategy<Value = Plan> {
    let counts = (
        prop_oneof![3 => 0..=3_usize, 1 => Just(limits::FIXTURES)],
        prop_oneof![3 => 0..=3_usize, 1 => Just(limits::PICTURES)],
    );
    counts.prop_flat_map(|(fixtures, pictures)| {
        let room = (size(limits::ROOM), any::<[bool; 3]>(), 0..=4_i64, colour(), colour());
        let way = || within(Length::ZERO, limits::ROOM);
        let aside = prop_oneof![
            Just(ViewerOffset::Straight),
            way().prop_map(ViewerOffset::Left),
            way().prop_map(ViewerOffset::Right),
        ];
        let figure = select(vec![None, Some(Posture::Standing), Some(Posture::Seated)]);
        let finish = select(vec![WallFinish::Smooth, WallFinish::Plaster]);
        let viewing = (positive(limits::ROOM), within(Length::ZERO, limits::ROOM), aside, figure, finish);
        let split = (0..pictures.max(1), focus(), select(vec![Strips::Hidden, Strips::Kept]));
        let fixtures_made =
            names(fixtures).prop_flat_map(|names| names.into_iter().map(fixture).collect::<Vec<_>>());
        let pictures_made = (names(pictures), vec((side_px(), side_px(), option::of(focus())), pictures))
            .prop_map(|(names, sizes)| {
                names
                    .into_iter()
                    .zip(sizes)
                    .map(|(name, (width_px, height_px, subject))| Picture {
                        file: format!("{name}.jpg"),
                        name,
                        width_px,
                        height_px,
                        subject,
                    })
                    .collect::<Vec<_>>()
            });
        let parts = (name(), room, viewing, fixtures_made, pictures_made);
        let things = (vec(piece(pictures), 1..=3), option::of(split), group(fixtures), fixing());
        let resolutions = (1..=limits::FINENESS, option::of(10..=2_400_u32));
        let asked = (option::of(part()), resolutions, option::of(in_hand()), option::of(size(limits::ROOM)));
        let sited = (option::of(site()), option::of((1..=2_000_i64).prop_map(Length::mm)));
        (parts, things, asked, sited).prop_map(
            move |(parts, (pieces, split, group, fixing), asked, (sited, from_photograph))| {
                let (bar, (fineness, file_resolution), in_hand, space) = asked;
                let matted =
                    |piece: &Piece| piece.finish.framing().is_some_and(|framing| framing.mat.is_some());
                let can_share = pieces.len() > 1
                    && pieces.iter().all(matted)
                    && matches!(group.arrangement, Arrangement::Row | Arrangement::Column);
                let (title, room, (distance, eye_level, aside, figure, finish), fixtures, pictures) = parts;
                let (size, [metric, both, reflection], quarters, paint, floor) = room;
                let first = if metric { System::Centimetres } else { System::Inches };
                let skirting = Length::from_ratio((size.height.units() * quarters).into(), 4, Mode::Down);
                let mut site = sited.unwrap_or_default();
                site.cornice = site.cornice.min(size.height);
                Plan {
                    title,
                    units: Units { first, both },
                    wall: Wall { size, paint, floor, skirting, finish },
                    viewing: Viewing {
                        distance,
                        eye_level,
                        aside,
                        figure,
                        reflection,
                        light: if both { Lighting::Day } else { Lighting::Evening },
                    },
                    split: split.filter(|_| !pictures.is_empty()).map(|(picture, focus, strips)| Split {
                        picture,
                        focus,
                        strips,
                    }),
                    fixtures,
                    pictures,
                    pieces,
                    group,
                    fixing,
                    shared: bar.filter(|_| can_share).map(|bar| Shared { bar }),
                    fineness,
                    file_resolution,
                    in_hand,
                    space,
                    site,
                    from_photograph,
                }
            },
        )
    })
}
