//! Walls as people have them, and worse: few pieces and many, tiny gaps, narrow sheets, any paint by day and in the evening.

use overmantel::colour::Colour;
use overmantel::described::Choosable;
use overmantel::draw::{Sheet, Theme, projection::Projection};
use overmantel::field::Field;
use overmantel::figures::Figures;
use overmantel::geometry::Size;
use overmantel::length::Length;
use overmantel::plan::*;
use overmantel::scene::{Scene, scene};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

fn mm(least: i64, most: i64) -> impl Strategy<Value = Length> + Clone {
    (least..=most).prop_map(Length::mm)
}

fn colour() -> impl Strategy<Value = Colour> {
    prop_oneof![
        2 => any::<[u8; 3]>().prop_map(|[red, green, blue]| Colour { red, green, blue }),
        // Greys, on which neither dark nor light ink has much contrast.
        1 => any::<u8>().prop_map(|grey| Colour { red: grey, green: grey, blue: grey }),
    ]
}

fn piece() -> impl Strategy<Value = Piece> {
    let side = || prop_oneof![2 => mm(100, 400), 3 => mm(200, 1000), 1 => mm(1000, 2600)];
    (side(), side(), any::<bool>()).prop_map(|(width, height, framed)| {
        let image = Size::new(width, height);
        let sheet = Finish::Aluminium(Aluminium { corner_radius: Length::ZERO, ..Aluminium::starting() });
        Piece { image, finish: if framed { Piece::starting().finish } else { sheet }, ..Piece::starting() }
    })
}

fn fixture(index: usize) -> impl Strategy<Value = Fixture> {
    let across = prop_oneof![
        Just(Across::Middle),
        mm(0, 3000).prop_map(Across::FromLeft),
        mm(0, 3000).prop_map(Across::FromRight),
    ];
    (select(FixtureKind::all().collect::<Vec<_>>()), across).prop_map(move |(kind, across)| {
        let starting = Fixture::starting(kind);
        Fixture { name: format!("{} {index}", starting.name), across, ..starting }
    })
}

fn group(fixtures: usize) -> impl Strategy<Value = Group> {
    let up = prop_oneof![
        Just(GroupUp::EyeLevel),
        mm(600, 2200).prop_map(GroupUp::CentreAt),
        mm(20, 500).prop_map(move |clearance| match fixtures {
            0 => GroupUp::EyeLevel,
            _ => GroupUp::Above { fixture: 0, clearance },
        }),
    ];
    let across =
        prop_oneof![2 => Just(GroupAcross::WallMiddle), 1 => mm(300, 5000).prop_map(GroupAcross::CentreAt)];
    let arrangement = prop_oneof![
        2 => Just(Arrangement::Row),
        1 => Just(Arrangement::Column),
        1 => mm(-300, 300).prop_map(Arrangement::Stepped),
        1 => Just(Arrangement::StackRight),
        1 => Just(Arrangement::StackLeft),
    ];
    let gap = prop_oneof![1 => Just(Length::ZERO), 2 => mm(1, 40), 3 => mm(30, 300)];
    (arrangement, gap, select(vec![Align::Centre, Align::Start, Align::End, Align::Both]), across, up)
        .prop_map(|(arrangement, gap, align, across, up)| Group { arrangement, gap, align, across, up })
}

pub(crate) fn any_wall() -> impl Strategy<Value = Plan> {
    (0..=3_usize).prop_flat_map(|fixtures| {
        let pieces = prop_oneof![
            2 => vec(piece(), 1..=3),
            1 => (piece(), 2..=3_usize).prop_map(|(piece, count)| vec![piece; count]),
        ];
        let wall = (
            mm(1500, 8000),
            mm(1500, 4000),
            colour(),
            colour(),
            prop_oneof![Just(Length::ZERO), mm(40, 250)],
        );
        let standing: Vec<_> = (0..fixtures).map(fixture).collect();
        let units = (any::<bool>(), any::<bool>());
        let viewing =
            (any::<bool>(), option::of(select(vec![Posture::Standing, Posture::Seated])), any::<bool>());
        (pieces, wall, standing, group(fixtures), units, viewing).prop_map(
            |(pieces, (width, height, paint, floor, skirting), fixtures, group, (metric, both), viewing)| {
                let starting = Plan::starting();
                let (evening, figure, plaster) = viewing;
                let light = if evening { Lighting::Evening } else { Lighting::Day };
                let finish = if plaster { WallFinish::Plaster } else { WallFinish::Smooth };
                let first = if metric { System::Centimetres } else { System::Inches };
                Plan {
                    units: Units { first, both },
                    wall: Wall { size: Size::new(width, height), paint, floor, skirting, finish },
                    viewing: Viewing { light, figure, ..starting.viewing },
                    fixtures,
                    pieces,
                    group,
                    ..starting
                }
            },
        )
    })
}

/// Which of a scene's fields is chosen, in shares of all there are; the sheet's width in CSS pixels and its ratio; how much of
/// the height that the wall needs it has; and whether it is dark.
#[derive(Clone, Debug)]
pub(crate) struct Seen {
    pub(crate) width_css_px: u32,
    pub(crate) ratio: f32,
    pub(crate) height_share: f32,
    pub(crate) dark: bool,
    pub(crate) chosen: Option<usize>,
}

pub(crate) fn any_seen(most_px: u32) -> impl Strategy<Value = Seen> {
    let width = prop_oneof![Just(320_u32), 320..=560_u32, 320..=most_px];
    let ratio = select(vec![1.0_f32, 1.25, 1.5, 2.0, 2.625, 3.0]);
    let share = prop_oneof![2 => Just(1.0_f32), 1 => 0.5_f32..1.3];
    (width, ratio, share, any::<bool>(), option::of(0..20_usize)).prop_map(
        move |(width_css_px, ratio, height_share, dark, chosen)| Seen {
            width_css_px,
            // No more device pixels than the widest of screens has.
            ratio: if pixels(width_css_px, ratio) > most_px { 1.0 } else { ratio },
            height_share,
            dark,
            chosen,
        },
    )
}

fn pixels(css: u32, ratio: f32) -> u32 {
    u32::try_from(overmantel::rounding::nearest(f64::from(css) * f64::from(ratio))).unwrap_or(1)
}

impl Seen {
    /// The sheet for a scene.
    pub(crate) fn sheet(&self, scene: &Scene) -> Sheet {
        let fields: Vec<Field> = scene.dimensions.iter().filter_map(|line| line.field).collect();
        let theme = if self.dark { Theme::DARK } else { Theme::LIGHT };
        let mut sheet =
            Sheet { theme, pixel_ratio: self.ratio, ..Sheet::new(pixels(self.width_css_px, self.ratio), 1) };
        let height = Projection::height_for_width(scene, &sheet).min(8000);
        sheet.height_px = pixels(height, self.height_share).max(1);
        sheet.chosen = self.chosen.and_then(|index| fields.get(index)).copied();
        sheet
    }
}

/// The scene of a plan that has an answer.
pub(crate) fn placed(plan: &Plan) -> Option<Scene> {
    plan.check().ok()?;
    Some(scene(plan, &Figures::of(plan).ok()?))
}
