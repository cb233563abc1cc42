//! Hardware: what is screwed, taped and glued to a thing that hangs, down to the length of its screws.
//!
//! Numbers and distances here are common practice, no source, unless a line says more. They are a list to buy from; whoever
//! assembles it judges by the work in hand.
//!
//! ```
//! use overmantel::{figures::Figures, hardware::hardware, making::things, plan::Plan, stock::Stock};
//! let (plan, stock) = (Plan::starting(), Stock::offered());
//! let figures = Figures::of(&plan).unwrap();
//! let thing = &things(&plan, &figures, &stock)[0];
//! let parts = hardware(&plan, &figures, &stock, thing);
//! assert!(parts.iter().any(|part| part.name == "D-ring on one screw" && part.quantity == 2));
//! ```

use crate::cut_list::{CutPart, Extent};
use crate::figures::Figures;
use crate::framing::{BuildUp, FrameSizes};
use crate::geometry::Size;
use crate::hang::Hanging;
use crate::hangers::{NeededRating, depth_of_holder, fixings, to_buy};
use crate::length::Length;
use crate::making::Thing;
use crate::measure::{Grade, shown};
use crate::plan::{Coating, Finish, Floater, Framing, Glazing, Hanger, Plan, System, Units};
use crate::rounding::{Mode, divide};
use crate::stock::{Stock, name_in};

/// A rule of thumb as each system has it, in its own round figures.
struct Rule {
    inches: Length,
    metric: Length,
}

impl Rule {
    const fn new(inches: Length, metric: Length) -> Self {
        Self { inches, metric }
    }

    const fn of(&self, system: System) -> Length {
        match system {
            System::Inches => self.inches,
            System::Centimetres => self.metric,
        }
    }
}

/// Of a wire, what is wound round itself at each end.
const WIRE_END: Rule = Rule::new(Length::inches(6), Length::mm(150));
/// From one point or clip to the next, at most.
const POINTS_APART: Rule = Rule::new(Length::inches(4), Length::mm(100));
/// A dust cover stays so far within the outside on each side.
const COVER_WITHIN: Rule = Rule::new(Length::inches_ratio(1, 8), Length::mm(3));
/// A sheet up to this width hangs by two hinges.
const TWO_HINGES: Rule = Rule::new(Length::inches(24), Length::mm(600));
/// Each further foot takes one more.
const HINGE_MORE: Rule = Rule::new(Length::inches(12), Length::mm(300));
/// From one screw of a floater frame to the next.
const FLOATER_SCREWS_APART: Rule = Rule::new(Length::inches(12), Length::mm(300));
/// Wood that is left before the point of a screw.
const BEFORE_THE_POINT: Length = Length::inches_ratio(1, 8);
/// Screws as they are sold, in sixteenths of an inch and in millimetres.
const SCREWS: [(System, &[i64]); 2] =
    [(System::Inches, &[6, 8, 10, 12, 16, 20]), (System::Centimetres, &[10, 12, 16, 20, 25, 30])];
/// Hangers take no longer ones; a cleat has its own thickness before it.
const LONGEST: Length = Length::mm(20);

/// The longest screw on sale up to `most` that stays in wood so deep, with 1/8 in before its point.
///
/// ```
/// use overmantel::{hardware::screw_for, length::Length, plan::System};
/// let inches = |depth| screw_for(depth, Length::inches(1), System::Inches);
/// assert_eq!(inches(Length::inches_ratio(3, 4)), Some(Length::inches_ratio(5, 8)));
/// assert_eq!(inches(Length::inches_ratio(7, 16)), None, "3/8 in would leave 1/16");
/// ```
#[must_use]
pub fn screw_for(depth: Length, most: Length, system: System) -> Option<Length> {
    let most = (depth - BEFORE_THE_POINT).min(most);
    let (_, sold) = SCREWS.iter().find(|(of, _)| *of == system)?;
    let length = |number: i64| match system {
        System::Inches => Length::inches_ratio(number, 16),
        System::Centimetres => Length::mm(number),
    };
    sold.iter().map(|number| length(*number)).rfind(|length| *length <= most)
}

/// Parts as they are gathered.
struct Bag<'a> {
    plan: &'a Plan,
    parts: Vec<CutPart>,
}

impl Bag<'_> {
    const fn by(&self, rule: &Rule) -> Length {
        rule.of(self.plan.units.first)
    }

    fn text(&self, length: Length) -> String {
        shown(length, Grade::Fine, Units { both: false, ..self.plan.units })
    }

    fn add(&mut self, name: &str, quantity: u32, extent: Extent, note: String) {
        let part =
            CutPart { name: name.to_owned(), quantity, material: None, made_of: String::new(), extent, note };
        let is_like = |other: &&mut CutPart| CutPart { quantity, ..(**other).clone() } == part;
        match self.parts.iter_mut().find(is_like) {
            Some(other) => other.quantity += quantity,
            None => self.parts.push(part),
        }
    }
}

/// What is screwed, taped and glued to a thing that hangs, and what it hangs on; from the front to the wall.
#[must_use]
pub fn hardware(plan: &Plan, figures: &Figures, stock: &Stock, thing: &Thing) -> Vec<CutPart> {
    let piece = thing.pieces[0];
    let (finish, sizes) = (&plan.pieces[piece].finish, &figures.build_ups[piece]);
    let mut bag = Bag { plan, parts: Vec::new() };
    for &piece in &thing.pieces {
        hinges(&mut bag, &plan.pieces[piece].finish, &figures.build_ups[piece]);
    }
    if let (Some(framing), Some(frame)) = (finish.framing(), &sizes.frame) {
        framed(&mut bag, framing, frame, sizes.outside);
    }
    if let Some(floater) = finish.floater() {
        floater_screws(&mut bag, floater, sizes);
    }
    if let Finish::Canvas(_) = finish {
        let is_braced = thing.parts.iter().any(|(part, _)| part.name == "cross brace");
        let keys = if is_braced { 12 } else { 8 };
        let note = String::from(
            "a pair in each corner and at each end of a cross brace; tap them in only when the canvas is slack",
        );
        bag.add("stretcher key", keys, Extent::Each, note);
    }
    hung(&mut bag, stock, thing, &figures.hanging[piece]);
    bag.parts
}

/// A sheet with a board behind it is hinged to that, by its upper edge, and never glued all over (Library of Congress,
/// preservation guidance).
fn hinges(bag: &mut Bag<'_>, finish: &Finish, sizes: &BuildUp) {
    let is_flat = match finish {
        Finish::Paper(_) => true,
        Finish::Original(original) => original.depth == Length::ZERO,
        Finish::Canvas(_) | Finish::Aluminium(_) => false,
    };
    if !is_flat || finish.framing().is_none_or(|framing| framing.mount.is_none()) {
        return;
    }
    let further = (sizes.sheet.size.width - bag.by(&TWO_HINGES)).max(Length::ZERO);
    let more = count(further, bag.by(&HINGE_MORE));
    let note = String::from("of Japanese paper and wheat starch paste, on the top edge only");
    bag.add("hinge", 2 + more, Extent::Each, note);
}

/// How many steps a length takes, up.
fn count(length: Length, step: Length) -> u32 {
    u32::try_from((length.units() + step.units() - 1).div_euclid(step.units())).unwrap_or(0)
}

/// What closes a frame: joints, points or clips, tape and cover.
fn framed(bag: &mut Bag<'_>, framing: &Framing, frame: &FrameSizes, outside: Size) {
    let depth = framing.frame.as_ref().map_or(Length::ZERO, |frame| frame.depth);
    let layers = if depth >= Length::inches(1) { 2 } else { 1 };
    let note =
        ["glue, and ", if layers == 2 { "two, one above the other," } else { "one" }, " in each corner"];
    bag.add("V-nail", 4 * layers, Extent::Each, note.concat());
    let apart = bag.by(&POINTS_APART);
    let sides = [frame.rabbet.size.width, frame.rabbet.size.height].map(|side| count(side, apart).max(2));
    let points = 2 * (sides[0] + sides[1]);
    if frame.spare_depth < Length::ZERO {
        let proud = bag.text(-frame.spare_depth);
        let note = ["offset of ", &proud, ", by which the package is proud of the frame"].concat();
        bag.add("clip with its screw", points, Extent::Each, note);
    } else {
        bag.add("point", points, Extent::Each, ["at most ", &bag.text(apart), " apart"].concat());
    }
    if framing.glazing != Glazing::None {
        let kind = match framing.coating {
            Coating::Plain => "round glazing, mat and boards, before they go in",
            _ => "round glazing, mat and boards; on a coated glazing, follow its maker's instructions",
        };
        let round = (frame.nominal.width + frame.nominal.height) * 2;
        bag.add("sealing tape", 1, Extent::Length(round), String::from(kind));
    }
    if framing.backing.is_some() {
        let cover = outside.grown(-bag.by(&COVER_WITHIN));
        let note = String::from("kraft paper, glued to the back of the frame");
        bag.add("dust cover", 1, Extent::Size(cover), note);
    }
}

/// Screws through the ledge of a floater frame, from behind.
fn floater_screws(bag: &mut Bag<'_>, floater: &Floater, sizes: &BuildUp) {
    let Some(inside) = sizes.floater_inside else { return };
    let sides = [inside.size.width, inside.size.height];
    let apart = bag.by(&FLOATER_SCREWS_APART);
    let [across, upright] = sides.map(|side| count(side, apart).max(2));
    let note = ["through the ledge into the bars, with a gap of ", &bag.text(floater.gap), " all round"];
    bag.add("screw", 2 * (across + upright), Extent::Each, note.concat());
}

/// What it hangs by, and on.
fn hung(bag: &mut Bag<'_>, stock: &Stock, thing: &Thing, hanging: &Hanging) {
    let (hanger, most_mg) = (bag.plan.fixing.hanger, thing.rated_mg());
    let system = bag.plan.units.first;
    let depth = depth_of_holder(&bag.plan.pieces[thing.pieces[0]]);
    let before = hanging.off_wall;
    let screws = match screw_for(depth + before, LONGEST + before, system) {
        Some(screw) => {
            ["screws of ", &bag.text(screw), " at most, in wood ", &bag.text(depth), " deep"].concat()
        }
        None => ["no screw is short enough for wood ", &bag.text(depth), " deep"].concat(),
    };
    let sold = to_buy(hanger, hanging, stock, most_mg);
    let name = &*sold.map_or(hanger.noun().into(), |sold| name_in(&sold.name, bag.plan.units.first));
    let note = if sold.is_some() { screws } else { [&screws, "; none on sale carries this weight"].concat() };
    match hanger {
        Hanger::Cleat => {
            let span = Extent::Length(hanging.span);
            bag.add(name, 2, span, ["one half on the back and one on the wall; ", &note].concat());
            bag.add(
                "strip",
                1,
                span,
                ["across the back below, ", &bag.text(hanging.off_wall), " thick"].concat(),
            );
        }
        Hanger::Sawtooth => bag.add(name, 1, Extent::Each, note),
        Hanger::Rings | Hanger::Wire { .. } | Hanger::Keyholes => bag.add(name, 2, Extent::Each, note),
    }
    if let Some(wire) = hanging.wire {
        let bears = whole_up(most_mg * 4, system);
        let note = if most_mg > 0 {
            ["holds at least ", &bears, ", four times the weight"].concat()
        } else {
            String::from("holds at least four times the weight")
        };
        bag.add("wire", 1, Extent::Length(wire.length + WIRE_END.of(system) * 2), note);
    }
    let bumpers = if hanger == Hanger::Cleat { 0 } else { 2 };
    if bumpers > 0 {
        bag.add("bumper", bumpers, Extent::Each, String::from("on the lower corners"));
    }
    let number = fixings(hanger, hanging, system);
    let name = if hanger.at_wall(false) == "hook" {
        "hook with its nail or screw"
    } else {
        "wall screw with its plug"
    };
    bag.add(name, number, Extent::Each, rating(stock, most_mg, number, system));
}

/// A weight in whole pounds or kilograms, up.
fn whole_up(milligrams: i64, system: System) -> String {
    let (unit, name) = match system {
        System::Inches => (453_592, " lb"),
        System::Centimetres => (1_000_000, " kg"),
    };
    [&divide(milligrams.into(), unit, Mode::Up).to_string(), name].concat()
}

/// What each fixing is to be rated for.
fn rating(stock: &Stock, most_mg: i64, number: u32, system: System) -> String {
    match NeededRating::of(stock, most_mg, number) {
        Some(needed) => ["each rated for at least ", &needed.text(system), " in this wall"].concat(),
        None => String::from("weigh the piece first"),
    }
}
