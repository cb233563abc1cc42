//! What is on offer for one picture: every size in every make-up, with the points that it has by itself.

use super::rules::Rules;
use super::{Question, SuggestError, SuggestionWish, pattern};
use crate::asked;
use crate::figures::Figures;
use crate::findings::Grave;
use crate::fit::{Fit, Way, from_picture};
use crate::geometry::Size;
use crate::length::{Length, UNITS_PER_INCH};
use crate::plan::*;
use crate::prices::priced;
use crate::print::Exact;
use crate::rounding::{Mode, divide};
use crate::stock::{
    StandardSize, Stock,
    thresholds::{COARSE_PPI, CROP_LOSS},
};
use std::cell::Cell;
use std::rc::Rc;

/// How pieces may be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Make {
    /// On paper, framed to the edge of the sheet.
    Framed,
    /// On paper, framed behind a mat.
    Matted,
    /// On paper with white round the image, framed.
    Bordered,
    /// On canvas.
    Canvas,
    /// On canvas, in a floater frame.
    Floated,
    /// On an aluminium sheet.
    Aluminium,
}

impl Make {
    /// Every make-up.
    pub const ALL: [Self; 6] =
        [Self::Framed, Self::Matted, Self::Bordered, Self::Canvas, Self::Floated, Self::Aluminium];

    /// How the pieces of a plan are made, each way once; what a plan has without a frame is here framed.
    #[must_use]
    pub fn of(plan: &Plan) -> Vec<Self> {
        let mut found = Vec::new();
        for piece in &plan.pieces {
            let make = match &piece.finish {
                Finish::Paper(paper) if paper.framing.mat.is_some() => Self::Matted,
                Finish::Paper(paper) if paper.border == Surround::even(Length::ZERO) => Self::Framed,
                Finish::Paper(_) => Self::Bordered,
                Finish::Canvas(canvas) if canvas.floater.is_some() => Self::Floated,
                Finish::Canvas(_) => Self::Canvas,
                Finish::Aluminium(_) => Self::Aluminium,
                Finish::Original(_) => continue,
            };
            if !found.contains(&make) {
                found.push(make);
            }
        }
        found
    }

    /// Whether two are of one material.
    pub(super) fn is_of_the_material_of(self, other: Self) -> bool {
        let material = |make| match make {
            Self::Framed | Self::Matted | Self::Bordered => 0,
            Self::Canvas | Self::Floated => 1,
            Self::Aluminium => 2,
        };
        material(self) == material(other)
    }

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Framed => "on paper, framed to the edge",
            Self::Matted => "on paper, framed behind a mat",
            Self::Bordered => "on paper with a white border, framed",
            Self::Canvas => "on canvas",
            Self::Floated => "on canvas, in a floater frame",
            Self::Aluminium => "on aluminium",
        }
    }

    /// A piece made so: as one of the plan is, or as is usual.
    pub(super) fn pattern(self, plan: &Plan) -> Piece {
        let own = |is_it: fn(&Finish) -> bool| plan.pieces.iter().find(|piece| is_it(&piece.finish)).cloned();
        let system = plan.units.first;
        let made = |finish| Piece { finish, ..Piece::starting_in(system) };
        match self {
            Self::Framed | Self::Matted | Self::Bordered => {
                let own = own(|finish| matches!(finish, Finish::Paper(_)));
                let mut piece = own.unwrap_or_else(|| Piece::starting_in(system));
                if let Some(framing) = piece.finish.framing_mut() {
                    framing.frame.get_or_insert_with(|| Frame::starting_in(system));
                }
                piece
            }
            Self::Canvas | Self::Floated => {
                let own = own(|finish| matches!(finish, Finish::Canvas(_)));
                let mut piece = own.unwrap_or_else(|| made(Finish::Canvas(Canvas::starting_in(system))));
                if let Finish::Canvas(canvas) = &mut piece.finish {
                    let (depth, floats) = (canvas.depth, self == Self::Floated);
                    let floater = canvas.floater.take().or_else(|| Some(Floater::round_in(depth, system)));
                    canvas.floater = floater.filter(|_| floats);
                }
                piece
            }
            Self::Aluminium => own(|finish| matches!(finish, Finish::Aluminium(_)))
                .unwrap_or_else(|| made(Finish::Aluminium(Aluminium::starting_in(system)))),
        }
    }

    const fn is_way(self, way: Way) -> bool {
        match self {
            Self::Matted => matches!(way, Way::Matted),
            Self::Bordered => matches!(way, Way::Bordered),
            _ => matches!(way, Way::Whole | Way::Cropped),
        }
    }
}

/// A piece on offer for a picture.
#[derive(Clone, Debug)]
pub struct Offered {
    /// The piece.
    pub piece: Piece,
    /// Its outside.
    pub outside: Size,
    /// What of it shows the picture.
    pub window: Size,
    /// Points for sharpness, crop, off the shelf and border, each a whole number.
    pub points: [i64; 4],
    /// What it costs without tax and before any discount, in hundredths; nothing without a book.
    pub price: i64,
    /// The size by its name: of the frame, or of the print where it has none.
    pub name: String,
    is_panel: bool,
    /// How far it stands off the wall.
    pub(super) depth: Length,
    /// What its picture makes grave, and what stands whatever hangs there.
    shown: Grave,
    /// All else that is grave about it, once that has been asked; it is the same for every picture in which nothing is marked.
    made: Rc<Cell<Option<Grave>>>,
}

impl Offered {
    /// What is known to be grave about it; there may be more.
    pub(super) fn known(&self) -> Grave {
        self.shown.and(self.made.get().unwrap_or_default())
    }

    /// Whether all that is grave about it is known.
    pub(super) fn is_known(&self) -> bool {
        self.made.get().is_some()
    }

    /// All that is grave about it, wherever it hangs; above a bed what is so there only.
    pub(super) fn grave(&self, judged: &Plan, plan: &Plan, stock: &Stock) -> Grave {
        if !self.is_known() {
            let mut alone = Plan { pieces: vec![self.piece.clone()], ..judged.clone() };
            if self.has_subject(plan) {
                alone.pictures = plan.pictures.clone();
            } else {
                alone.pieces[0].picture = None;
            }
            let found = Figures::of(&alone).map(|figures| Grave::of_pieces(&alone, &figures, stock));
            self.made.set(Some(found.unwrap_or(Grave::ANYTHING)));
        }
        self.known()
    }

    /// Whether another is offered in the same size.
    fn is_size_of(&self, other: &Self) -> bool {
        other.name == self.name && other.piece.image == self.piece.image
    }

    /// Whether something is marked in its picture that has to be kept; of a panel, that is another question.
    fn has_subject(&self, plan: &Plan) -> bool {
        let picture = self.piece.picture.filter(|_| !self.is_panel);
        picture.is_some_and(|picture| plan.pictures[picture].subject.is_some())
    }

    /// What is made as another is known as far as that is.
    pub(super) fn share(&mut self, others: &[Self], plan: &Plan) {
        let is_as = |other: &&Self| {
            other.piece.image == self.piece.image
                && other.piece.finish == self.piece.finish
                && !other.has_subject(plan)
        };
        if let Some(other) = others.iter().find(is_as).filter(|_| !self.has_subject(plan)) {
            self.made = Rc::clone(&other.made);
        }
    }
}

/// The plan with one piece only.
pub(super) fn alone(plan: &Plan, piece: Piece) -> Plan {
    let fixing = plan.fixing.at_usual_places();
    Plan {
        pieces: vec![piece],
        split: None,
        shared: None,
        in_hand: None,
        space: None,
        fixing,
        ..plan.clone()
    }
}

/// How a picture fills a window.
pub(super) struct Binding {
    /// The pixels along the side that binds, and how long that is in units.
    pub(super) pixels: i128,
    pub(super) side: i128,
    /// The lesser and the greater shape: what is shown of the picture is the one over the other.
    pub(super) shapes: [i128; 2],
}

/// How a picture of so many pixels fills a window.
pub(super) fn binding(px: (u32, u32), window: Size) -> Binding {
    let (width, height) = (i128::from(window.width.units()), i128::from(window.height.units()));
    let (across, upright) = (i128::from(px.0), i128::from(px.1));
    // The side that binds: across / width against upright / height.
    let (one, other) = (across * height, upright * width);
    let (pixels, side) = if one < other { (across, width) } else { (upright, height) };
    Binding { pixels, side, shapes: [one.min(other), one.max(other)] }
}

/// Points for the sharpness and the crop of a picture that fills a window; none without a picture's file.
pub(crate) fn picture_points(px: (u32, u32), window: Size, fineness: u32, stock: &Stock) -> [i64; 2] {
    let Binding { pixels, side, shapes: [least, most] } = binding(px, window);
    let per_inch = pixels * i128::from(UNITS_PER_INCH);
    let wished = i128::from(fineness.max(1)) * side;
    let below = whole(divide((wished - per_inch).max(0) * 100, wished, Mode::Up));
    let (over, under) = stock.limit_number(&COARSE_PPI);
    let coarse = if per_inch * i128::from(under) < i128::from(over) * side { DISAPPOINTS } else { 0 };
    let (over, under) = stock.limit_number(&CROP_LOSS);
    let is_much = (most - least) * i128::from(under) > most * i128::from(over);
    let lost = whole(divide((most - least) * 200, most, Mode::HalfAway));
    [below + coarse, lost + if is_much { DISAPPOINTS } else { 0 }]
}

fn whole(number: i128) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX / 1_000_000)
}

/// What disappoints has so many points more.
pub(super) const DISAPPOINTS: i64 = 30;
const FRAME_TO_MEASURE: i64 = 15;
const PRINT_TO_MEASURE: i64 = 10;

/// A picture that pieces show: its pixels, or without one the shape that stands for it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shown {
    pub(super) picture: Option<usize>,
    pub(super) focus: Focus,
    pub(super) px: (u32, u32),
}

/// What the frame in hand is called among the sizes.
const FRAME_IN_HAND: &str = "the frame you already have";

/// The stock with no frame in it but the one in hand.
///
/// # Errors
/// When the plan states none, or it holds nothing.
pub(super) fn with_frame_in_hand(plan: &Plan, stock: &Stock) -> Result<Stock, SuggestError> {
    let order = asked::in_hand(plan, &Figures::of(plan)?, 0);
    let order = order.ok_or(SuggestError::NoFrame)?;
    let size = order.map_err(SuggestError::InHand)?.nominal;
    let turned = Size::new(size.height, size.width);
    let prints = stock.sizes.iter().filter(|listed| listed.is_print);
    let mut sizes: Vec<StandardSize> =
        prints.map(|listed| StandardSize { is_frame: false, ..listed.clone() }).collect();
    let is_print = sizes.iter().any(|listed| listed.size == size || listed.size == turned);
    sizes.retain(|listed| listed.size != size && listed.size != turned);
    sizes.push(StandardSize {
        name: FRAME_IN_HAND.to_owned(),
        series: FRAME_IN_HAND.to_owned(),
        system: plan.units.first,
        size,
        is_print,
        is_frame: true,
    });
    Ok(Stock { sizes, ..stock.clone() })
}

/// So many ways to make pieces stouter are offered, each from the smallest of so many sizes that gains by it.
const STOUTER: usize = 2;
/// See [`STOUTER`].
const TRIED: usize = 3;
/// So many sizes in a row that need nothing stouter speak for all that are smaller.
const STEADY: usize = 4;

/// The places of a pool, the smallest outside first.
fn by_area(pool: &[Offered]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..pool.len()).collect();
    crate::order::sort_by_key(&mut order, |&at| {
        let Size { width, height } = pool[at].outside;
        i128::from(width.units()) * i128::from(height.units())
    });
    order
}

/// From what everything on offer follows.
pub(super) struct Offer<'a> {
    pub(super) plan: &'a Plan,
    pub(super) stock: &'a Stock,
    pub(super) wish: &'a SuggestionWish<'a>,
    pub(super) rules: &'a Rules,
    /// The plan in which a single piece is judged.
    pub(super) judged: &'a Plan,
    /// The sizes of the system that is asked for.
    pub(super) sizes: Vec<StandardSize>,
}

impl<'a> Offer<'a> {
    pub(super) fn of(
        plan: &'a Plan,
        stock: &'a Stock,
        wish: &'a SuggestionWish<'a>,
        rules: &'a Rules,
        judged: &'a Plan,
    ) -> Self {
        let system = wish.system.unwrap_or(plan.units.first);
        let sizes = stock.sizes.iter().filter(|listed| listed.system == system).cloned().collect();
        Self { plan, stock, wish, rules, judged, sizes }
    }

    fn frame_in_hand(&self) -> Option<InHand> {
        self.plan.in_hand.filter(|_| self.wish.question == Question::FitsFrame)
    }

    /// How pieces of one make-up may be made, each with what that offers for a picture: as the plan's own are, or otherwise where much
    /// is grave about that; and stouter, step by step, in the sizes that need it.
    pub(super) fn patterns(&self, make: Make, shown: Shown) -> Vec<(Finish, Vec<Offered>)> {
        let mut own = make.pattern(self.plan).finish;
        let frame = own.framing_mut().and_then(|framing| framing.frame.as_mut());
        if let (Some(InHand { face, rabbet_width, allowance, .. }), Some(frame)) =
            (self.frame_in_hand(), frame)
        {
            *frame = Frame { face, rabbet_width, allowance, ..frame.clone() };
        }
        let pool = self.offered(make, &own, shown, false);
        let middle = by_area(&pool).get(pool.len() / 2).copied();
        let mended = middle.and_then(|at| self.mended(make, &pool[at], shown));
        let mut patterns = vec![mended.unwrap_or((own, pool))];
        for _ in 0..STOUTER {
            let pools: Vec<&[Offered]> = patterns.iter().map(|(_, pool)| pool.as_slice()).collect();
            let is_fine = |one: &&Offered| one.shown == self.rules.given;
            let Some(usual) = self.least_of(pools[0].iter().filter(is_fine), &pools) else { break };
            let in_order = by_area(pools[0]).into_iter().map(|at| &pools[0][at]);
            let needs = self.needing(in_order.filter(is_fine), usual, &pools);
            // What the smallest gain nothing by leaves the larger a chance, and no more.
            let stouter = needs.iter().take(TRIED).find_map(|one| self.mended(make, one, shown));
            let Some((finish, mut pool)) = stouter else { break };
            pool.retain(|one| needs.iter().any(|other| one.is_size_of(other)) && self.is_needed(one, &pools));
            patterns.push((finish, pool));
        }
        patterns
    }

    fn grave(&self, one: &Offered) -> Grave {
        one.grave(self.judged, self.plan, self.stock)
    }

    /// What is made as one on offer is, but better, with what is on offer so; what has no price is not.
    fn mended(&self, make: Make, like: &Offered, shown: Shown) -> Option<(Finish, Vec<Offered>)> {
        let piece = Piece { picture: None, ..like.piece.clone() };
        let alone = Plan { pieces: vec![piece], ..self.judged.clone() };
        let finish = pattern::mended(&alone, self.stock, self.frame_in_hand().is_some())?.finish;
        let pool = self.offered(make, &finish, shown, false);
        (!pool.is_empty()).then_some((finish, pool))
    }

    /// How bad a size is by the best of some ways to make it.
    fn least_grave(&self, one: &Offered, ways: &[&[Offered]]) -> u32 {
        let alike = ways.iter().filter_map(|pool| pool.iter().find(|other| one.is_size_of(other)));
        alike.map(|other| self.grave(other).rank()).min().unwrap_or(u32::MAX)
    }

    /// How bad the best of some sizes is by the best of some ways to make them; none of no sizes.
    fn least_of<'b>(&self, sizes: impl Iterator<Item = &'b Offered>, ways: &[&[Offered]]) -> Option<u32> {
        let mut least = None;
        for one in sizes {
            let rank = self.least_grave(one, ways);
            if rank == 0 {
                return Some(0);
            }
            least = Some(least.map_or(rank, |least: u32| least.min(rank)));
        }
        least
    }

    /// The sizes that are worse than usual by every way to make them, in their order, which is the smallest first. The larger a piece is,
    /// the more it needs: where several in a row are as usual, the smaller are taken to be so too.
    fn needing<'b>(
        &self,
        sizes: impl DoubleEndedIterator<Item = &'b Offered>,
        usual: u32,
        ways: &[&[Offered]],
    ) -> Vec<&'b Offered> {
        let mut found = Vec::new();
        let mut fine = 0;
        for one in sizes.rev() {
            if self.least_grave(one, ways) > usual {
                fine = 0;
                found.push(one);
            } else {
                fine += 1;
                if fine == STEADY {
                    break;
                }
            }
        }
        found.reverse();
        found
    }

    /// Whether the picture allows a size, and this way to make it is better than some others.
    pub(super) fn is_needed(&self, one: &Offered, others: &[&[Offered]]) -> bool {
        if one.shown != self.rules.given {
            return false;
        }
        let least = self.least_grave(one, others);
        least > 0 && self.grave(one).rank() < least
    }

    /// Everything on offer in one make-up that is made so: for a picture, or for a panel of one picture over several, of which the
    /// points follow from all of them together.
    pub(super) fn offered(&self, make: Make, finish: &Finish, shown: Shown, is_panel: bool) -> Vec<Offered> {
        let Self { plan, judged, ref sizes, .. } = *self;
        let piece =
            Piece { picture: shown.picture, focus: shown.focus, finish: finish.clone(), ..Piece::starting() };
        let pattern = Plan { pieces: vec![piece], ..judged.clone() };
        let longest = Some(plan.wall.size.width.max(plan.wall.size.height));
        let fit_wish = crate::fit::FitWish { longest, ..asked::wish(&pattern, 0) };
        let shapes = match (is_panel, make) {
            (false, _) => vec![shown.px],
            (true, Make::Bordered) => Vec::new(),
            // Behind a mat a panel is as large as its print, so that it may have the shape of any.
            (true, Make::Matted) => print_shapes(sizes),
            (true, _) => vec![(4, 5), (5, 4)],
        };
        let mut found: Vec<Offered> = Vec::new();
        for fit in shapes.iter().flat_map(|&px| from_picture(px, sizes, &fit_wish)) {
            let listed = fit.frame.unwrap_or(fit.print).listed;
            if !make.is_way(fit.way) || self.frame_in_hand().is_some() && listed.name != FRAME_IN_HAND {
                continue;
            }
            let Some(offered) = self.as_piece(make, (shown, is_panel), &pattern, &fit) else { continue };
            // A size that is listed twice counts once, by its better name.
            match found.iter_mut().find(|other| other.piece == offered.piece) {
                Some(other) if other.points <= offered.points => {}
                Some(other) => *other = offered,
                None => found.push(offered),
            }
        }
        found
    }

    /// What is on offer in one size, with its points and its price; none where it is larger than the wall or a price is missing.
    fn as_piece(
        &self,
        make: Make,
        (shown, is_panel): (Shown, bool),
        pattern: &Plan,
        fit: &Fit<'_>,
    ) -> Option<Offered> {
        let Self { plan, stock, wish, .. } = *self;
        let listed = fit.frame.unwrap_or(fit.print).listed;
        let mut piece = asked::take_fit(pattern, Some(0), fit).pieces.swap_remove(0);
        piece.image = if make == Make::Bordered { fit.image } else { fit.sheet() };
        let sizes = crate::framing::build_up(&piece).ok()?;
        let (outside, window) = (sizes.outside, sizes.picture.size);
        let wall = plan.wall.size;
        if outside.width > wall.width || outside.height > wall.height {
            return None;
        }
        let has_frame = !matches!(make, Make::Canvas | Make::Aluminium);
        let mut shelf = if has_frame && !listed.is_frame { FRAME_TO_MEASURE } else { 0 };
        shelf += if fit.print.listed.is_print { 0 } else { PRINT_TO_MEASURE };
        let [sharp, crop] = match shown.picture {
            _ if is_panel => [0, 0],
            None => [0, picture_points(shown.px, window, 1, stock)[1]],
            Some(_) => picture_points(shown.px, window, plan.fineness, stock),
        };
        let price = match wish.book {
            None => 0,
            Some(book) => {
                let alone = alone(plan, piece.clone());
                let price = priced(&alone, &Figures::of(&alone).ok()?, stock, book);
                price.totals?.full
            }
        };
        let differ = i128::from((fit.borders.left - fit.borders.top).abs().units());
        let shorter = i128::from(outside.width.min(outside.height).units());
        let border = whole(divide(differ * 300, shorter, Mode::HalfAway));
        let points = [sharp, crop, shelf, border];
        let px = shown.picture.filter(|_| !is_panel).map(|_| shown.px);
        let (shown, made) = (self.rules.of_piece(px, window), Rc::default());
        let (name, depth) = (listed.name.clone(), sizes.depth);
        Some(Offered { piece, outside, window, points, price, name, is_panel, depth, shown, made })
    }
}

/// The shapes of prints on offer, upright and on their sides.
fn print_shapes(sizes: &[StandardSize]) -> Vec<(u32, u32)> {
    let mut shapes = Vec::new();
    for listed in sizes.iter().filter(|listed| listed.is_print) {
        let Size { width, height } = listed.size;
        let ratio = Exact::new(width.units().into(), height.units().into());
        let whole = |number: &i128| u32::try_from(*number).unwrap_or(1);
        let (one, other) = (whole(ratio.numer()), whole(ratio.denom()));
        for shape in [(one, other), (other, one)] {
            if !shapes.contains(&shape) {
                shapes.push(shape);
            }
        }
    }
    shapes
}

/// The picture that a plan's pieces would show, in the order in which they hang now.
pub(super) fn pictures(plan: &Plan, figures: &Figures) -> Vec<Shown> {
    let of = |picture: usize| {
        let of_it = |piece: &&Piece| piece.picture == Some(picture);
        let focus = plan.pieces.iter().find(of_it).map_or(Focus::MIDDLE, |piece| piece.focus);
        let Picture { width_px, height_px, .. } = &plan.pictures[picture];
        Shown { picture: Some(picture), focus, px: (*width_px, *height_px) }
    };
    match plan.split {
        Some(split) => vec![Shown { focus: split.focus, ..of(split.picture) }],
        None if plan.pictures.is_empty() => {
            let px = asked::picture_px(plan, figures, 0);
            vec![Shown { picture: None, focus: Focus::MIDDLE, px }; limits::PIECES]
        }
        None => crate::starts::shown(plan).into_iter().map(of).collect(),
    }
}

/// The steps that are tried of a measure: the one stated first, where it is usual.
pub(super) fn steps(stated: Option<Length>, system: System, inches: [i64; 3], cm: [i64; 3]) -> Vec<Length> {
    let usual = match system {
        System::Inches => inches.map(Length::inches),
        System::Centimetres => cm.map(|each| Length::mm(each * 10)),
    };
    let [_, least, most] = usual;
    let mut steps: Vec<Length> =
        stated.filter(|stated| (least..=most).contains(stated)).into_iter().collect();
    for step in usual {
        if !steps.contains(&step) {
            steps.push(step);
        }
    }
    steps
}
