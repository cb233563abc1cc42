//! What is on offer for one picture: every size in every make-up, with the points that it has by itself.

use super::{Question, SuggestError, SuggestionWish};
use crate::asked;
use crate::figures::Figures;
use crate::findings::{Severity, findings};
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
    fn pattern(self, plan: &Plan) -> Piece {
        let own = |is_it: fn(&Finish) -> bool| plan.pieces.iter().find(|piece| is_it(&piece.finish)).cloned();
        let made = |finish| Piece { finish, ..Piece::starting() };
        match self {
            Self::Framed | Self::Matted | Self::Bordered => {
                let own = own(|finish| matches!(finish, Finish::Paper(_)));
                let mut piece = own.unwrap_or_else(Piece::starting);
                if let Some(framing) = piece.finish.framing_mut() {
                    framing.frame.get_or_insert_with(Frame::starting);
                }
                piece
            }
            Self::Canvas | Self::Floated => {
                let own = own(|finish| matches!(finish, Finish::Canvas(_)));
                let mut piece = own.unwrap_or_else(|| made(Finish::Canvas(Canvas::starting())));
                if let Finish::Canvas(canvas) = &mut piece.finish {
                    let (depth, floats) = (canvas.depth, self == Self::Floated);
                    let floater = canvas.floater.take().or_else(|| Some(Floater::round(depth)));
                    canvas.floater = floater.filter(|_| floats);
                }
                piece
            }
            Self::Aluminium => own(|finish| matches!(finish, Finish::Aluminium(_)))
                .unwrap_or_else(|| made(Finish::Aluminium(Aluminium::starting()))),
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
    /// What it costs without tax, in hundredths; nothing without a book.
    pub price: i64,
    /// The size by its name: of the frame, or of the print where it has none.
    pub name: String,
    /// Whether it can be made, once that has been asked.
    can_be_made: Cell<Option<bool>>,
}

impl Offered {
    /// Whether nothing that it is made of is impossible.
    pub(super) fn can_be_made(&self, plan: &Plan, stock: &Stock) -> bool {
        if let Some(known) = self.can_be_made.get() {
            return known;
        }
        let alone = alone(plan, self.piece.clone());
        let found = Figures::of(&alone).map(|figures| findings(&alone, &figures, stock));
        // Where it hangs is another question.
        let is_bad = |code: &str, severity| severity == Severity::CannotBeMade && code != "beyond-the-wall";
        let can = found.is_ok_and(|found| !found.iter().any(|one| is_bad(one.code, one.severity)));
        self.can_be_made.set(Some(can));
        can
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

/// Points for the sharpness and the crop of a picture that fills a window; none without a picture's file.
pub(super) fn picture_points(px: (u32, u32), window: Size, fineness: u32, stock: &Stock) -> [i64; 2] {
    let (width, height) = (i128::from(window.width.units()), i128::from(window.height.units()));
    let (across, upright) = (i128::from(px.0), i128::from(px.1));
    // The side that binds: across / width against upright / height.
    let (one, other) = (across * height, upright * width);
    let (pixels, side) = if one < other { (across, width) } else { (upright, height) };
    let per_inch = pixels * i128::from(UNITS_PER_INCH);
    let wished = i128::from(fineness.max(1)) * side;
    let below = whole(divide((wished - per_inch).max(0) * 100, wished, Mode::Up));
    let (over, under) = stock.limit_number(&COARSE_PPI);
    let coarse = if per_inch * i128::from(under) < i128::from(over) * side { DISAPPOINTS } else { 0 };
    // What is shown is the lesser of the two over the greater.
    let (least, most) = (one.min(other), one.max(other));
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
const FRAME_IN_HAND: &str = "the frame in hand";

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

/// Everything on offer in one make-up: for a picture, or for a panel of one picture over several, of which the points follow from
/// all of them together.
pub(super) fn offered(
    plan: &Plan,
    stock: &Stock,
    wish: &SuggestionWish<'_>,
    make: Make,
    shown: Shown,
    is_panel: bool,
) -> Vec<Offered> {
    let mut pattern = Piece { picture: shown.picture, focus: shown.focus, ..make.pattern(plan) };
    let in_hand = plan.in_hand.filter(|_| wish.question == Question::FitsFrame);
    let frame = pattern.finish.framing_mut().and_then(|framing| framing.frame.as_mut());
    if let (Some(InHand { face, rabbet_width, allowance, .. }), Some(frame)) = (in_hand, frame) {
        *frame = Frame { face, rabbet_width, allowance, ..frame.clone() };
    }
    let pattern = alone(plan, pattern);
    let system = wish.system.unwrap_or(plan.units.first);
    let sizes: Vec<StandardSize> =
        stock.sizes.iter().filter(|listed| listed.system == system).cloned().collect();
    let longest = Some(plan.wall.size.width.max(plan.wall.size.height));
    let fit_wish = crate::fit::FitWish { longest, ..asked::wish(&pattern, 0) };
    let shapes = match (is_panel, make) {
        (false, _) => vec![shown.px],
        (true, Make::Bordered) => Vec::new(),
        // Behind a mat a panel is as large as its print, so that it may have the shape of any.
        (true, Make::Matted) => print_shapes(&sizes),
        (true, _) => vec![(4, 5), (5, 4)],
    };
    let mut found: Vec<Offered> = Vec::new();
    for fit in shapes.iter().flat_map(|&px| from_picture(px, &sizes, &fit_wish)) {
        let listed = fit.frame.unwrap_or(fit.print).listed;
        if !make.is_way(fit.way) || in_hand.is_some() && listed.name != FRAME_IN_HAND {
            continue;
        }
        let Some(offered) = as_piece(plan, stock, wish, make, (shown, is_panel), &pattern, &fit) else {
            continue;
        };
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
    plan: &Plan,
    stock: &Stock,
    wish: &SuggestionWish<'_>,
    make: Make,
    (shown, is_panel): (Shown, bool),
    pattern: &Plan,
    fit: &Fit<'_>,
) -> Option<Offered> {
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
            price.unpriced.is_empty().then_some(price.sum)?
        }
    };
    let differ = i128::from((fit.borders.left - fit.borders.top).abs().units());
    let shorter = i128::from(outside.width.min(outside.height).units());
    let border = whole(divide(differ * 300, shorter, Mode::HalfAway));
    let points = [sharp, crop, shelf, border];
    let name = listed.name.clone();
    Some(Offered { piece, outside, window, points, price, name, can_be_made: Cell::new(None) })
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
