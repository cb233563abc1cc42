//! Starting points: whole plans to begin with. The wall, what stands there (but on stairs), the units and the pictures stay as
//! they are; the pieces, their make-up and their places are new. Sizes, gaps and clearances are common practice, no source.
//!
//! ```
//! use overmantel::{plan::Plan, starts};
//! let pair = starts::begin(&Plan::starting(), "pair").unwrap();
//! assert_eq!(pair.pieces.len(), 2);
//! assert_eq!(pair.wall, Plan::starting().wall);
//! ```

use crate::asked::{self, AskedError, Ordered};
use crate::described::Row;
use crate::field::{Field, Whose};
use crate::figures::{Figures, NoAnswer};
use crate::geometry::Size;
use crate::length::Length;
use crate::plan::{
    self, Align, Arrangement, Canvas, Finish, Fixture, FixtureKind, Focus, Group, GroupAcross, GroupUp,
    InHand, Piece, Plan, Rise, Split, Strips, System, limits,
};
use crate::quoted::short;

/// A plan to begin with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Start {
    /// A stable name.
    pub code: &'static str,
    /// What it is, in plain words.
    pub words: &'static str,
    /// The field that a person is likely to state next.
    pub next: Field,
}

const fn of_plan(row: &'static Row) -> Field {
    Field { row, of: Whose::Plan }
}

/// All of them, in the order in which they are offered.
pub static STARTS: [Start; 7] = [
    Start { code: "three", words: "Three above a sofa", next: Field::fixture(&plan::FIXTURE_WIDTH, 0) },
    Start { code: "one", words: "One large", next: Field::pieces(&plan::PIECE_IMAGE) },
    Start { code: "pair", words: "A pair", next: of_plan(&plan::GROUP_GAP) },
    Start { code: "mixed", words: "One large and two small", next: of_plan(&plan::GROUP_ALIGN) },
    Start { code: "stairs", words: "Along the stairs", next: of_plan(&plan::GROUP_STEP) },
    Start { code: "frame", words: "A frame I already have", next: of_plan(&plan::IN_HAND_SIZE) },
    Start { code: "file", words: "How large can I print this file", next: of_plan(&plan::FINENESS) },
];

/// Sizes by shape, the shorter side first, in inches and in centimetres.
type Sizes = ([(i64, i64); 3], [(i64, i64); 3]);

const LARGE: Sizes = ([(24, 36), (30, 40), (30, 30)], [(60, 90), (60, 80), (70, 70)]);
const MIDDLE: Sizes = ([(16, 20), (16, 24), (16, 16)], [(40, 50), (40, 60), (40, 40)]);
const SMALL: Sizes = ([(12, 16), (12, 18), (12, 12)], [(30, 40), (30, 45), (30, 30)]);
const LEAST: Sizes = ([(8, 10), (8, 12), (8, 8)], [(20, 25), (20, 30), (20, 20)]);

/// The plan that a starting point makes of another.
///
/// # Errors
/// A plain sentence when there is no such starting point, or it has no answer here.
pub fn begin(from: &Plan, code: &str) -> Result<Plan, StartError> {
    let start = STARTS.iter().find(|start| start.code == code);
    let Start { words, .. } = start.ok_or_else(|| StartError::Unknown(code.to_owned()))?;
    let mut plan = Plan { title: (*words).to_owned(), pieces: Vec::new(), ..from.clone() };
    (plan.split, plan.shared, plan.in_hand, plan.space) = (None, None, None, None);
    let inches = plan.units.first == System::Inches;
    let either = |whole_inches: i64, centimetres: i64| {
        if inches { Length::inches(whole_inches) } else { Length::mm(centimetres * 10) }
    };
    let gap = either(3, 8);
    plan.group = Group {
        arrangement: Arrangement::Row,
        gap,
        align: Align::Centre,
        across: GroupAcross::WallMiddle,
        up: GroupUp::EyeLevel,
    };
    let system = plan.units.first;
    plan.fixing = Plan::starting_in(system).fixing;
    let shown = shown(from);
    match code {
        "three" => {
            hang(&mut plan, &shown, 3, &MIDDLE);
            let sofa = plan.fixtures.iter().position(|fixture| fixture.kind == FixtureKind::Sofa);
            if sofa.is_none() && plan.fixtures.len() < limits::FIXTURES {
                plan.fixtures.insert(0, own_sofa(&plan));
            }
            hang_above(&mut plan, Some(sofa.unwrap_or(0)), either(8, 20));
        }
        "one" => {
            hang(&mut plan, &shown, 1, &LARGE);
            plan.pieces[0].finish = Finish::Canvas(Canvas::starting_in(system));
            hang_above(&mut plan, None, either(8, 20));
        }
        "pair" => {
            hang(&mut plan, &shown, 2, &MIDDLE);
            hang_above(&mut plan, None, either(8, 20));
        }
        "mixed" => {
            (plan.group.arrangement, plan.group.align) = (Arrangement::StackRight, Align::Both);
            let mut large = plan.clone();
            hang(&mut large, &shown, 1, &LARGE);
            hang(&mut plan, &shown, 3, &LEAST);
            plan.pieces[0] = large.pieces.remove(0);
            hang_above(&mut plan, None, either(8, 20));
        }
        "stairs" => {
            // Nothing stands where stairs are.
            let is_kept =
                |fixture: &Fixture| !fixture.kind.stands_before_wall() || fixture.kind == FixtureKind::Stairs;
            plan.fixtures.retain(is_kept);
            let stairs = plan.fixtures.iter().position(|fixture| fixture.kind == FixtureKind::Stairs);
            if stairs.is_none() && plan.fixtures.len() < limits::FIXTURES {
                let stairs = own_stairs(&plan);
                plan.fixtures.insert(0, stairs);
            }
            plan.group.arrangement = Arrangement::Stepped(gap);
            hang(&mut plan, &shown, 3, &SMALL);
            hang_along(&mut plan, stairs.unwrap_or(0))?;
        }
        "frame" => {
            hang(&mut plan, &shown, 1, &MIDDLE);
            let size = either(16, 40);
            plan.in_hand =
                Some(InHand { size: Size::new(size, either(20, 50)), ..InHand::starting_in(system) });
            plan = asked::take_in_hand(&plan, None, Ordered::Matted)?;
            hang_above(&mut plan, None, either(8, 20));
        }
        _ => {
            plan = in_its_pixels(plan, &shown, either(24, 60))?;
            hang_above(&mut plan, None, either(8, 20));
        }
    }
    Figures::of(&plan)?;
    Ok(plan)
}

/// One piece as large as its file is sharp, and no larger than the wall shows with some room left.
fn in_its_pixels(mut plan: Plan, shown: &[usize], room: Length) -> Result<Plan, StartError> {
    let Some(picture) = shown.first().and_then(|&picture| plan.pictures.get(picture)) else {
        return Err(StartError::NoPicture);
    };
    let side = |px: u32| {
        let whole = Length::from_ratio(
            i128::from(px) * i128::from(Length::inches(1).units()),
            plan.fineness.max(1).into(),
            crate::rounding::Mode::Down,
        );
        let step = asked::plan_step(&plan);
        Length::from_units(whole.units() / step.units() * step.units()).clamp(step, limits::PIECE)
    };
    let image = Size::new(side(picture.width_px), side(picture.height_px));
    hang(&mut plan, shown, 1, &MIDDLE);
    plan.pieces[0].image = image;
    if let Some(framing) = plan.pieces[0].finish.framing_mut() {
        framing.mat = None;
    }
    // No larger than the wall shows with a foot left on every side.
    let free = |whole: Length| (whole - room).max(whole.half());
    let space = Size::new(free(plan.wall.size.width), free(plan.wall.size.height));
    let outside = Figures::of(&plan)?.arranged.group.size;
    if outside.width > space.width || outside.height > space.height {
        plan.space = Some(space);
        plan = asked::take_space(&plan)?;
    }
    Ok(plan)
}

/// Why a starting point can't be taken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum StartError {
    /// There is none of this code.
    Unknown(String),
    /// It needs a picture.
    NoPicture,
    /// It has no answer here.
    Asked(#[from] AskedError),
}

impl std::fmt::Display for StartError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unknown(code) => {
                write!(f, "\"{}\" is not a starting point; choose one of those offered", short(code))
            }
            Self::NoPicture => {
                f.write_str("choose a picture first; how large it can be printed depends on its pixels")
            }
            Self::Asked(why) => why.fmt(f),
        }
    }
}

impl From<NoAnswer> for StartError {
    fn from(why: NoAnswer) -> Self {
        Self::Asked(why.into())
    }
}

/// The pictures in the order in which they are shown now, those that are not shown last.
pub(crate) fn shown(plan: &Plan) -> Vec<usize> {
    let split = plan.split.map(|split| split.picture);
    let mut shown: Vec<usize> = Vec::new();
    let hung = split.into_iter().chain(plan.pieces.iter().filter_map(|piece| piece.picture));
    for picture in hung.chain(0..plan.pictures.len()) {
        if !shown.contains(&picture) {
            shown.push(picture);
        }
    }
    shown
}

/// Puts so many pieces into a plan, each with a picture of its own as far as there are any, in the size that crops it least. Where
/// there is only one picture, and it is wide, it goes over all of a row.
fn hang(plan: &mut Plan, shown: &[usize], count: usize, sizes: &Sizes) {
    let (list, unit) = match plan.units.first {
        System::Inches => (sizes.0, Length::inches(1)),
        System::Centimetres => (sizes.1, Length::mm(10)),
    };
    let is_wide = |&picture: &usize| plan.pictures.get(picture).is_some_and(|px| px.width_px > px.height_px);
    if let [only] = *shown
        && count > 1
        && plan.group.arrangement == Arrangement::Row
        && is_wide(&only)
    {
        plan.split = Some(Split { picture: only, focus: Focus::MIDDLE, strips: Strips::Hidden });
    }
    for index in 0..count {
        let picture = shown.get(index % shown.len().max(1)).copied();
        let px = picture.filter(|_| plan.split.is_none());
        let px = px.and_then(|picture| plan.pictures.get(picture));
        let (width, height) = px.map_or((4, 5), |px| (i64::from(px.width_px), i64::from(px.height_px)));
        // How much of the longer side is lost, in thousandths, either way.
        let lost = |&(short, long): &(i64, i64)| {
            let (one, other) = (width.min(height) * long, width.max(height) * short);
            1000 - one.min(other) * 1000 / one.max(other).max(1)
        };
        let (short, long) = list.iter().min_by_key(|size| lost(size)).copied().unwrap_or(list[0]);
        let (across, up) = if width > height { (long, short) } else { (short, long) };
        plan.pieces.push(Piece {
            picture,
            image: Size::new(unit * across, unit * up),
            ..Piece::starting_in(plan.units.first)
        });
    }
}

/// A sofa whose name no fixture of the plan has.
fn own_sofa(plan: &Plan) -> Fixture {
    let mut sofa = Fixture::starting_in(FixtureKind::Sofa, plan.units.first);
    while plan.fixtures.iter().any(|fixture| fixture.name == sofa.name) {
        sofa.name.push_str(", too");
    }
    sofa
}

/// Stairs along the wall, as far as it reaches: up to ten steps, each 7 3/4 in high and 10 in deep (International Residential Code
/// R311.7.5, from memory), or 19 cm and 25 cm.
fn own_stairs(plan: &Plan) -> Fixture {
    let (deep, high) = match plan.units.first {
        System::Inches => (Length::inches(10), Length::inches_ratio(31, 4)),
        System::Centimetres => (Length::mm(250), Length::mm(190)),
    };
    let usual = Fixture::starting_in(FixtureKind::Stairs, plan.units.first);
    let wall = plan.wall.size;
    let fitting = |whole: Length, step: Length| whole.units() / step.units();
    let steps = fitting(wall.width, deep).min(fitting(wall.height, high)).clamp(1, 10);
    Fixture { size: Size::new(deep * steps, high * steps), ..usual }
}

/// Hangs the group above the slope of stairs, from their bottom on: as steep as they are, as high above them as there is room for.
fn hang_along(plan: &mut Plan, stairs: usize) -> Result<(), StartError> {
    let (inch, least, most, under) = match plan.units.first {
        System::Inches => (Length::inches(1), 8, 36, [6, 1]),
        System::Centimetres => (Length::mm(10), 20, 90, [15, 2]),
    };
    let apart = Figures::of(plan)?.build_ups[0].outside.width + plan.group.gap;
    let Some(flight) = plan.fixtures.get(stairs).filter(|fixture| fixture.kind == FixtureKind::Stairs) else {
        plan.group.arrangement = Arrangement::Stepped(apart.times_ratio(31, 40).to_nearest(inch));
        return Ok(());
    };
    let (size, rises) = (flight.size, flight.rise);
    let rise = apart.times_ratio(size.height.units(), size.width.units()).to_nearest(inch);
    plan.group.arrangement = Arrangement::Stepped(if rises == Rise::Right { rise } else { -rise });
    let arranged = Figures::of(plan)?.arranged;
    let (place, half) = (arranged.fixtures[stairs], arranged.group.size.width.half());
    let middle = match rises {
        Rise::Right => place.x + half,
        Rise::Left => place.right() - half,
    };
    let middle = middle.clamp(half, (plan.wall.size.width - half).max(half)).to_nearest(inch);
    plan.group.across = GroupAcross::CentreAt(middle);
    plan.group.up = GroupUp::Above { fixture: stairs, clearance: inch * most };
    let top = Figures::of(plan)?.arranged.group.top();
    // With some room under the ceiling, where it has that.
    let clearances = under.map(|under| {
        let over = (top + inch * under - plan.wall.size.height).max(Length::ZERO);
        Length::from_units((inch * most - over).units().max(0) / inch.units() * inch.units())
    });
    match clearances.into_iter().find(|clearance| *clearance >= inch * least) {
        Some(clearance) => plan.group.up = GroupUp::Above { fixture: stairs, clearance },
        None => (plan.group.across, plan.group.up) = (GroupAcross::WallMiddle, GroupUp::EyeLevel),
    }
    Ok(())
}

/// Hangs the group above a fixture, or above the widest that pictures hang above, where it fits below the ceiling.
fn hang_above(plan: &mut Plan, fixture: Option<usize>, clearance: Length) {
    let widest = || {
        let above = |&index: &usize| {
            plan.fixtures[index].is_hung_above() && plan.fixtures[index].kind != FixtureKind::Stairs
        };
        (0..plan.fixtures.len()).filter(above).max_by_key(|&index| plan.fixtures[index].size.width)
    };
    let Some(fixture) = fixture.or_else(widest) else { return };
    let mut above = plan.clone();
    above.group.across = GroupAcross::FixtureMiddle(fixture);
    above.group.up = GroupUp::Above { fixture, clearance };
    let fits = |figures: Figures| figures.arranged.group.top() <= plan.wall.size.height;
    if Figures::of(&above).is_ok_and(fits) {
        *plan = above;
    }
}
