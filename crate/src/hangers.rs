//! Hangers: what each way to hang a thing carries, and which of them suits it.
//!
//! What a hanger carries is a row of the stock; the figure on its packet counts first. A hanger is chosen for its share of a multiple of the
//! weight ([`RATED_TIMES`]), as fixings are; a wire pulls at its rings harder than the weight does, the flatter the harder.
//!
//! ```
//! use overmantel::{figures::Figures, hangers::ways, making::things, plan::{Hanger, Plan}, stock::Stock};
//! let (plan, stock) = (Plan::starting(), Stock::offered());
//! let figures = Figures::of(&plan).unwrap();
//! let thing = &things(&plan, &figures, &stock)[0];
//! let ways = ways(&plan, &figures, &stock, thing);
//! let advised = ways.iter().find(|way| way.is_advised).unwrap();
//! assert_eq!(advised.hanger, Hanger::Rings, "two rings for a framed print of 16 × 20 in");
//! ```

use crate::figures::Figures;
use crate::hang::{Hanging, hang, hanger_places, is_held};
use crate::length::Length;
use crate::making::Thing;
use crate::measure::{self, Grade, shown, weight_alone};
use crate::plan::{Finish, Fixing, Hanger, Piece, Plan, RATINGS, System, Units};
use crate::print::Exact;
use crate::stock::thresholds::{HEAVY_PIECE, RATED_TIMES, WIDE_PIECE};
use crate::stock::{CLEAT_PART, Fitting, SoldHanger, Stock};
use crate::weigh::{whole_kilograms, whole_pounds};
use std::fmt;

/// What is screwed to the back for a hanger.
#[must_use]
pub const fn fitting(hanger: Hanger) -> Fitting {
    match hanger {
        Hanger::Rings | Hanger::Wire { .. } => Fitting::Ring,
        Hanger::Cleat => Fitting::Cleat,
        Hanger::Sawtooth => Fitting::Sawtooth,
        Hanger::Keyholes => Fitting::Keyhole,
    }
}

/// The hangers of a kind in a stock, those that carry least first.
#[must_use]
pub fn on_sale(stock: &Stock, hanger: Hanger) -> Vec<&SoldHanger> {
    let mut rows: Vec<&SoldHanger> =
        stock.hangers.iter().filter(|row| row.fitting == fitting(hanger)).collect();
    crate::order::sort_by_key(&mut rows, |row| row.carries_grams);
    rows
}

/// The least wood that any hanger of a kind in a stock needs; nothing where there is none.
#[must_use]
pub fn least_wood(stock: &Stock, hanger: Hanger) -> Option<Length> {
    on_sale(stock, hanger).into_iter().map(|row| row.least_wood).min()
}

/// How deep what holds a hanger is: the frame, the bars, the blocks; nothing where nothing does.
#[must_use]
pub fn depth_of_holder(piece: &Piece) -> Length {
    let framed = piece.finish.framing().and_then(|framing| framing.frame.as_ref());
    let own = match &piece.finish {
        Finish::Canvas(canvas) => canvas.depth,
        Finish::Original(original) => original.depth,
        Finish::Aluminium(sheet) => sheet.stand_off,
        Finish::Paper(_) => Length::ZERO,
    };
    match (framed, piece.finish.floater()) {
        (Some(frame), _) => frame.depth,
        (_, Some(floater)) => floater.depth.max(own),
        _ => own,
    }
}

/// A way to hang a thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// Its key among the options of what pieces hang by.
    pub key: &'static str,
    /// What it is, in words.
    pub words: &'static str,
    /// The hanger, with a wire as it is to begin with.
    pub hanger: Hanger,
    /// Where it then hangs, each hanger at its usual place; nothing where there is no room for it.
    pub hanging: Option<Hanging>,
    /// The heaviest thing that it carries at this size, in milligrams; nothing where it can't be told.
    pub carries_mg: Option<i64>,
    /// What speaks against it.
    pub against: Vec<Against>,
    /// Whether of those that nothing speaks against it is the one to take.
    pub is_advised: bool,
}

/// What speaks against a way to hang a thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Nothing at the back holds the hanger.
    NothingHolds(Hanger),
    /// There is none in the stock.
    NotInStock,
    /// What holds it is not deep enough for its screws.
    TooShallow {
        /// How deep it is.
        depth: Length,
        /// How deep it must be.
        least: Length,
    },
    /// The thing may be heavier than it carries.
    TooHeavy {
        /// What it carries, in milligrams.
        carries_mg: i64,
    },
    /// One point carries a wide or a heavy thing.
    OnePoint,
    /// It can come off in an earthquake.
    Shakes,
    /// What it hangs on would stand above its top edge, in sight.
    Shows,
}

impl Against {
    /// As a table says it, in the plan's units.
    #[must_use]
    pub fn text(self, units: Units) -> String {
        struct Told(Against, Units);
        impl fmt::Display for Told {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                let length = |length| shown(length, Grade::Fine, Units { both: false, ..self.1 });
                match self.0 {
                    // Teeth sit in the middle; all others hold at the left and at the right.
                    Against::NothingHolds(Hanger::Sawtooth) => {
                        f.write_str("it needs wood in the middle of the top, and there is none")
                    }
                    Against::NothingHolds(_) => {
                        f.write_str("it needs wood at the left and at the right, and there is none")
                    }
                    Against::NotInStock => f.write_str("not in the stock list"),
                    Against::TooShallow { depth, least } => {
                        write!(f, "the wood is {} deep and it needs {}", length(depth), length(least))
                    }
                    Against::TooHeavy { carries_mg } => {
                        write!(f, "carries at most {}", weight_alone(carries_mg, self.1.first))
                    }
                    Against::OnePoint => f.write_str("one point is too few for a wide or heavy piece"),
                    Against::Shakes => f.write_str("can come off in an earthquake"),
                    Against::Shows => f.write_str("the hook would show above the top edge"),
                }
            }
        }
        Told(self, units).to_string()
    }
}

/// What at the back of a metal sheet carries a hanger: a sheet itself takes no screw (common practice, no source). Nothing for what
/// hangs by its own wood.
#[must_use]
pub fn carried_by(piece: &Piece, hanger: Hanger) -> Option<&'static str> {
    let Finish::Aluminium(sheet) = &piece.finish else { return None };
    Some(match (sheet.sub_frame.is_some(), hanger) {
        (true, Hanger::Sawtooth) => "on the top bar of the sub-frame",
        (true, Hanger::Cleat) => "along the top bar of the sub-frame",
        (true, _) => "on the side bars of the sub-frame",
        (false, Hanger::Cleat) => "across the two upper float blocks",
        (false, _) => "on the two upper float blocks",
    })
}

/// The most that a thing may weigh on this hanger as it hangs, in milligrams; nothing for a wire that does not rise, and where
/// there is no such hanger in the stock.
#[must_use]
pub fn carries(hanger: Hanger, hanging: &Hanging, stock: &Stock) -> Option<i64> {
    let strongest = i128::from(on_sale(stock, hanger).last()?.carries_grams) * 1000;
    let share = share(hanger, hanging)?;
    let (over, under) = stock.limit_number(&RATED_TIMES);
    let most = Exact::from_integer(strongest) / share / Exact::new(over.into(), under.into());
    i64::try_from(most.to_integer()).ok()
}

/// The smallest hanger on sale that carries a thing of this weight with a margin; nothing where none does.
#[must_use]
pub fn to_buy<'a>(
    hanger: Hanger,
    hanging: &Hanging,
    stock: &'a Stock,
    most_mg: i64,
) -> Option<&'a SoldHanger> {
    let (over, under) = stock.limit_number(&RATED_TIMES);
    let load =
        share(hanger, hanging)? * Exact::new(over.into(), under.into()) * Exact::from(i128::from(most_mg));
    let carries = |row: &SoldHanger| Exact::from(i128::from(row.carries_grams) * 1000);
    on_sale(stock, hanger).into_iter().find(|row| carries(row) >= load)
}

/// How much of the weight pulls at one hanger; of a cleat, at each [`CLEAT_PART`].
#[must_use]
pub fn share(hanger: Hanger, hanging: &Hanging) -> Option<Exact> {
    let half = Exact::new(1, 2);
    match hanger {
        Hanger::Rings | Hanger::Keyholes => Some(half),
        Hanger::Sawtooth => Some(Exact::from_integer(1)),
        Hanger::Cleat => Some(Exact::new(
            CLEAT_PART.units().into(),
            i128::from(hanging.span.units()).max(CLEAT_PART.units().into()),
        )),
        Hanger::Wire { .. } => hanging.wire.and_then(|wire| wire.pull()),
    }
}

/// On how many hooks or screws a thing hangs; a cleat on one at each end and every 16 in or 40 cm between (common practice, no source).
#[must_use]
pub fn fixings(hanger: Hanger, hanging: &Hanging, system: System) -> u32 {
    if hanger != Hanger::Cleat {
        return u32::try_from(hanging.hooks.len()).unwrap_or(1).max(1);
    }
    let apart = match system {
        System::Inches => Length::inches(16),
        System::Centimetres => Length::mm(400),
    };
    let apart = apart.units();
    u32::try_from(hanging.span.units().div_euclid(apart)).unwrap_or(0).saturating_add(2)
}

/// What each wall fixing must be rated for: its share of a multiple of the weight ([`RATED_TIMES`]).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NeededRating {
    /// Exactly, up to the next milligram.
    pub least_mg: i64,
    /// The next rating in pounds that is sold ([`RATINGS`]); nothing where none suffices.
    pub sold: Option<u16>,
}

impl NeededRating {
    /// For a thing that weighs this at most, on so many fixings; nothing where its weight is unknown.
    ///
    /// ```
    /// use overmantel::{hangers::NeededRating, plan::System, stock::Stock};
    /// // 2 × 2.2 kg on one hook: 4.4 kg are 9.7 lb.
    /// let needed = NeededRating::of(&Stock::offered(), 2_200_000, 1).unwrap();
    /// assert_eq!((needed.least_mg, needed.sold), (4_400_000, Some(10)));
    /// assert_eq!(needed.text(System::Inches), "10 lb");
    /// ```
    #[must_use]
    pub fn of(stock: &Stock, most_mg: i64, count: u32) -> Option<Self> {
        let (over, under) = stock.limit_number(&RATED_TIMES);
        let share = Exact::from(i128::from(most_mg)) * Exact::new(over.into(), under.into())
            / i128::from(count.max(1));
        let least_mg = i64::try_from(share.ceil().to_integer()).ok().filter(|least| *least > 0)?;
        let milligrams = |pounds: u16| i128::from(pounds) * 45_359_237;
        let sold = RATINGS.into_iter().find(|pounds| milligrams(*pounds) >= i128::from(least_mg) * 100);
        Some(Self { least_mg, sold })
    }

    /// What to buy: the rating that is sold, or more than all of them.
    #[must_use]
    pub fn text(self, system: System) -> String {
        self.sold.map_or_else(|| self.share(system), |pounds| measure::rating(pounds, system))
    }

    /// What it must carry, up to a tenth of a pound or kilogram, so that it is never said too small.
    #[must_use]
    pub fn share(self, system: System) -> String {
        let (tenths, unit) = match system {
            System::Inches => (whole_pounds(self.least_mg.saturating_mul(10)), " lb"),
            System::Centimetres => (whole_kilograms(self.least_mg.saturating_mul(10)), " kg"),
        };
        [&(tenths / 10).to_string(), ".", &(tenths % 10).to_string(), unit].concat()
    }
}

/// What speaks against hanging a thing so, as it is placed.
#[must_use]
pub fn against(
    plan: &Plan,
    figures: &Figures,
    stock: &Stock,
    thing: &Thing,
    (hanger, hanging): (Hanger, &Hanging),
) -> Vec<Against> {
    let piece = thing.pieces[0];
    let sizes = &figures.build_ups[piece];
    let mut found = Vec::new();
    if !is_held(sizes, hanging.places) {
        found.push(Against::NothingHolds(hanger));
    }
    let depth = depth_of_holder(&plan.pieces[piece]);
    let Some(least) = least_wood(stock, hanger) else {
        found.push(Against::NotInStock);
        return found;
    };
    if depth < least {
        found.push(Against::TooShallow { depth, least });
    }
    let carries_mg = carries(hanger, hanging, stock).unwrap_or_default();
    if thing.mass.most_mg > carries_mg {
        found.push(Against::TooHeavy { carries_mg });
    }
    if hanging.hooks.len() == 1 && is_too_much_for_one(stock, thing, sizes.outside.width) {
        found.push(Against::OnePoint);
    }
    if hanging.drop <= Length::ZERO {
        found.push(Against::Shows);
    }
    if plan.site.has_earthquakes && comes_off(hanger) {
        found.push(Against::Shakes);
    }
    found
}

/// Whether one point of support is not enough for a thing so wide.
#[must_use]
pub fn is_too_much_for_one(stock: &Stock, thing: &Thing, width: Length) -> bool {
    let (over, under) = stock.limit_number(&HEAVY_PIECE);
    let most_mg = Exact::new(i128::from(over) * 1000, under.into());
    width > stock.limit(&WIDE_PIECE) || Exact::from(i128::from(thing.mass.likely_mg)) > most_mg
}

/// Whether a hanger jumps off its hook or screw when the wall shakes.
#[must_use]
pub const fn comes_off(hanger: Hanger) -> bool {
    matches!(hanger, Hanger::Wire { .. } | Hanger::Sawtooth)
}

/// Heavier things go on a cleat, whatever else would carry them (common practice, no source).
const FOR_A_CLEAT_MG: i64 = 20_000_000;
/// Up to this weight and width one row of teeth does (common practice, no source).
const FOR_TEETH: (i64, Length) = (2_000_000, Length::inches(12));

/// Every way to hang a thing, with the one that is advised.
#[must_use]
pub fn ways(plan: &Plan, figures: &Figures, stock: &Stock, thing: &Thing) -> Vec<Way> {
    let piece = thing.pieces[0];
    let (sizes, outside) = (&figures.build_ups[piece], figures.arranged.outsides[piece]);
    let mut ways: Vec<Way> = Hanger::OFFERED
        .iter()
        .map(|&(key, words, hanger)| {
            let fixing = Fixing { hanger, ..Fixing::default() };
            let hanging = hang(outside, fixing, hanger_places(sizes, hanger)).ok();
            let against = hanging.as_ref().map_or_else(
                || vec![Against::NothingHolds(hanger)],
                |hanging| against(plan, figures, stock, thing, (hanger, hanging)),
            );
            let carries_mg = hanging.as_ref().and_then(|hanging| carries(hanger, hanging, stock));
            Way { key, words, hanger, hanging, carries_mg, against, is_advised: false }
        })
        .collect();
    let is_light =
        thing.rated_mg() > 0 && thing.rated_mg() <= FOR_TEETH.0 && outside.size.width <= FOR_TEETH.1;
    let first = if thing.mass.most_mg > FOR_A_CLEAT_MG {
        Hanger::Cleat
    } else if is_light {
        Hanger::Sawtooth
    } else {
        Hanger::Rings
    };
    let order = [first, Hanger::Rings, Hanger::Keyholes, Hanger::Cleat];
    let suits =
        |ways: &[Way], hanger| ways.iter().position(|way| way.hanger == hanger && way.against.is_empty());
    if let Some(advised) = order.into_iter().find_map(|hanger| suits(&ways, hanger)) {
        ways[advised].is_advised = true;
    }
    ways
}
