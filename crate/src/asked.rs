//! Asked: what a plan asks and what answers it. Which sizes the picture suits; what to order for a frame that is there; how
//! large the prints may be in a space on the wall; and whether a size may have been meant otherwise. Each answer can be taken
//! into the plan.
//!
//! Without a picture the shape of the image stands for it, as if it had 1000 pixels per inch.
//!
//! ```
//! use overmantel::{asked, figures::Figures, geometry::Size, plan::Plan};
//! let plan = Plan { space: Some(Size::inches(84, 60)), ..Plan::starting() };
//! let image = asked::in_space(&plan, &Figures::of(&plan).unwrap()).unwrap();
//! let taken = asked::take_space(&plan).unwrap();
//! assert_eq!(taken.pieces[0].image, image);
//! assert!(Figures::of(&taken).unwrap().arranged.group.size.width <= Size::inches(84, 60).width);
//! ```

use crate::field::Field;
use crate::figures::{Figures, NoAnswer};
use crate::fit::in_hand::{InHandError, Order, Print, from_frame};
use crate::fit::space::{Spread, in_space as largest_in_space};
use crate::fit::systems::{SystemNote, system_note};
use crate::fit::{Fit, FitWish, Way, from_picture};
use crate::geometry::{Rect, Size};
use crate::length::Length;
use crate::line_up::line_up;
use crate::plan::{
    self, Arrangement, Extent, Finish, Frame, InHand, Mat, OpeningRule, Paper, Piece, Plan, Signature,
    Surround, System, Weighting, limits,
};
use crate::print::Exact;
use crate::rounding::{Mode, divide};
use crate::stock::Stock;

/// Pixels of the picture that a piece shows; of a part of one picture, what it shows of that; without a picture, the image's
/// shape. To the nearest pixel, at least one in each direction.
#[must_use]
pub fn picture_px(plan: &Plan, figures: &Figures, piece: usize) -> (u32, u32) {
    let cut = figures.cuts.get(piece).copied().flatten();
    let stated = plan.pieces.get(piece).and_then(|stated| plan.pictures.get(stated.picture?));
    match (plan.split, stated, cut) {
        (Some(_), _, Some(cut)) => {
            let side = |pixels: Exact| {
                u32::try_from(divide(*pixels.numer(), *pixels.denom(), Mode::HalfAway)).unwrap_or(1).max(1)
            };
            (side(cut.source.width), side(cut.source.height))
        }
        (None, Some(picture), _) => (picture.width_px, picture.height_px),
        _ => {
            let image = plan.pieces.get(piece).map_or(Size::inches(4, 5), |stated| stated.image);
            let side = |length: Length| {
                let thousandth = Length::inches_ratio(1, 1000);
                u32::try_from(length.units() / thousandth.units()).unwrap_or(u32::MAX).max(1)
            };
            (side(image.width), side(image.height))
        }
    }
}

/// What is wished of a fit: the plan's resolution, the piece's focus; where it has a mat, how far that covers the sheet and how much
/// wider its bottom is; where a signature is below the image, white paper for it that no lip covers.
#[must_use]
pub fn wish(plan: &Plan, piece: usize) -> FitWish {
    let usual = FitWish { fineness_ppi: Exact::from_integer(plan.fineness.into()), ..FitWish::default() };
    let Some(stated) = plan.pieces.get(piece) else { return usual };
    let framing = stated.finish.framing();
    let mat = framing.and_then(|framing| framing.mat.as_ref());
    let lip = framing.and_then(|framing| framing.frame.as_ref()).map(|frame| frame.rabbet_width);
    let signed = match plan.site.signature {
        Signature::Below(room) => room + lip.unwrap_or(Length::ZERO),
        _ => Length::ZERO,
    };
    FitWish {
        focus: stated.focus,
        least_border: usual.least_border.max(signed),
        mat_overlap: match mat.map(|mat| mat.opening) {
            Some(OpeningRule::Overlap(overlap)) => overlap,
            _ => usual.mat_overlap,
        },
        foot_extra: match mat.map(|mat| mat.surround.weighting) {
            Some(Weighting::Extra(extra)) => extra.max(Length::ZERO),
            _ => usual.foot_extra,
        },
        step: Some(plan_step(plan)),
        ..usual
    }
}

/// The step of a rule by which a print is ordered: 1/16 in, or 1 mm.
pub(crate) fn plan_step(plan: &Plan) -> Length {
    match plan.units.first {
        System::Inches => Length::inches_ratio(1, 16),
        System::Centimetres => Length::mm(1),
    }
}

/// Every way in which the picture of a piece suits the sizes of the stock, the best first; none for an original, which has its size.
#[must_use]
pub fn fits<'a>(plan: &Plan, figures: &Figures, stock: &'a Stock, piece: usize) -> Vec<Fit<'a>> {
    if plan.pieces[piece].finish.is_original() {
        return Vec::new();
    }
    from_picture(picture_px(plan, figures, piece), &stock.sizes, &wish(plan, piece))
}

/// What to order for the frame in hand; `None` when the plan states none. The frame is hung as the picture is: on its side, where
/// that is wide and the frame was measured upright, or the other way round.
#[must_use]
pub fn in_hand(plan: &Plan, figures: &Figures, piece: usize) -> Option<Result<Order, InHandError>> {
    let stated = plan.in_hand?;
    let Size { width, height } = stated.size;
    let size = if is_turned(plan, figures, piece) { Size::new(height, width) } else { stated.size };
    let frame = InHand { size, ..stated };
    Some(from_frame(&frame, picture_px(plan, figures, piece), &wish(plan, piece)))
}

/// Whether the frame in hand hangs on its side for a piece.
#[must_use]
pub fn is_turned(plan: &Plan, figures: &Figures, piece: usize) -> bool {
    let Some(InHand { size: Size { width, height }, .. }) = plan.in_hand else { return false };
    if piece >= plan.pieces.len() {
        return false;
    }
    let (width_px, height_px) = picture_px(plan, figures, piece);
    width_px > height_px && width < height || width_px < height_px && width > height
}

/// The largest image, in the shape of the first piece's, with which all pieces keep within the space stated; `None` when the plan states none, or nothing is left for an image.
#[must_use]
pub fn in_space(plan: &Plan, figures: &Figures) -> Option<Size> {
    let image = plan.pieces.first()?.image;
    let shape = Exact::new(image.width.units().into(), image.height.units().into());
    let count = u32::try_from(plan.pieces.len()).ok()?;
    let is_stacked = plan.group.arrangement == Arrangement::Column;
    let images = Spread { around: Size::default(), count, gap: Length::ZERO, is_stacked };
    // What is not an image stays as it is, however large the images are. Reckoned with images as large as the largest now, so
    // that nothing is less than nothing.
    let of_all = |side: fn(Size) -> Length| plan.pieces.iter().map(|piece| side(piece.image)).max();
    let alike = Size::new(of_all(|size| size.width)?, of_all(|size| size.height)?);
    let taken = images.outside(alike);
    let (now, then) = (block(plan, figures, None), block(plan, figures, Some(alike)));
    let beyond = less(figures.arranged.group.size, now);
    let allowed = less(plan.space?, beyond);
    if plan.group.arrangement.is_mixed() {
        // Across there are the first and one of the stack, up there is the stack; each is a limit of its own.
        let far = limits::ROOM * 4;
        let across = Spread { count: count.min(2), is_stacked: false, ..images };
        let up = Spread { count: (count - 1).max(1), is_stacked: true, ..images };
        let left = |spread: &Spread| less(allowed, less(then, spread.outside(alike)));
        let wide = largest_in_space(Size::new(left(&across).width, far), &across, shape)?;
        let high = largest_in_space(Size::new(far, left(&up).height), &up, shape)?;
        return Some(if wide.width < high.width { wide } else { high });
    }
    largest_in_space(less(allowed, less(then, taken)), &images, shape)
}

/// The extent of all pieces as they are lined up, or of all openings in the mat of a shared frame; with images as they are, or
/// with every image of this size.
fn block(plan: &Plan, figures: &Figures, image: Option<Size>) -> Size {
    let sizes: Vec<Size> = plan
        .pieces
        .iter()
        .zip(&figures.build_ups)
        .map(|(piece, sizes)| {
            let whole = match (plan.shared, &sizes.mat) {
                (Some(_), Some(mat)) => mat.opening.size,
                _ => sizes.outside,
            };
            let more = image.map_or(Size::default(), |image| less(image, piece.image));
            Size::new(whole.width + more.width, whole.height + more.height)
        })
        .collect();
    let gap = plan.shared.map_or(plan.group.gap, |shared| shared.bar);
    let placed = line_up(&sizes, plan.group.arrangement, gap, plan.group.align);
    placed.into_iter().reduce(Rect::union).unwrap_or_default().size
}

fn less(size: Size, by: Size) -> Size {
    Size::new(size.width - by.width, size.height - by.height)
}

/// The plan with all images in the largest size that the space takes.
///
/// # Errors
/// A plain sentence when no space is stated, or nothing is left in it.
pub fn take_space(plan: &Plan) -> Result<Plan, AskedError> {
    let figures = Figures::of(plan)?;
    let image = in_space(plan, &figures).ok_or(AskedError::NoRoom)?;
    let mut taken = plan.clone();
    for piece in &mut taken.pieces {
        let more = less(image, piece.image);
        if plan.shared.is_some() { piece.grow_sheet(more) } else { piece.grow(more) }
    }
    // The board of a shared frame is the first piece's, and larger by what all openings are.
    if let (Some(_), Some(first)) = (plan.shared, taken.pieces.first_mut()) {
        first.grow_board(less(block(plan, &figures, Some(image)), block(plan, &figures, None)));
    }
    Ok(taken)
}

/// The pieces that a choice is for: one, or all.
fn chosen(plan: &mut Plan, piece: Option<usize>) -> impl Iterator<Item = &mut Piece> {
    let all = piece.is_none();
    plan.pieces
        .iter_mut()
        .enumerate()
        .filter(move |(index, _)| all || piece == Some(*index))
        .map(|(_, piece)| piece)
}

/// The plan with a fit taken for one piece, or for all.
///
/// A print to the edge, with a border or cropped goes into a frame of its own size without a mat; a matted one gets a board of
/// the frame's size, with the borders that the fit was calculated with. Canvas, metal and originals take the size of the print.
#[must_use]
pub fn take_fit(plan: &Plan, piece: Option<usize>, fit: &Fit<'_>) -> Plan {
    let foot_extra = wish(plan, piece.unwrap_or(0)).foot_extra;
    let mut taken = plan.clone();
    for piece in chosen(&mut taken, piece) {
        let Finish::Paper(paper) = &mut piece.finish else {
            piece.image = fit.sheet();
            continue;
        };
        piece.image = fit.image;
        let is_bordered = fit.way == Way::Bordered;
        paper.border = if is_bordered { Surround::whole(fit.sheet()) } else { Surround::even(Length::ZERO) };
        board(paper, fit.nominal(), fit.opening, fit.image, foot_extra);
    }
    taken
}

/// Puts a print behind a mat with this opening on a board of this size, or takes the mat away where there is no opening.
fn board(paper: &mut Paper, board: Size, opening: Option<Size>, image: Size, foot_extra: Length) {
    let Some(opening) = opening else {
        paper.framing.mat = None;
        return;
    };
    let mat = paper.framing.mat.get_or_insert_with(Mat::starting);
    mat.surround = Surround { extent: Extent::Whole(board), weighting: Weighting::Extra(foot_extra) };
    mat.opening = OpeningRule::Overlap((image.width - opening.width).half());
}

/// Why what a plan asks has no answer that can be taken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AskedError {
    /// The plan itself has no answer.
    Figures(#[from] NoAnswer),
    /// The space on the wall leaves nothing for an image.
    NoRoom,
    /// No frame in hand is stated.
    NoFrame,
    /// The frame in hand takes no such print.
    InHand(InHandError),
}

impl std::fmt::Display for AskedError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Figures(why) => why.fmt(f),
            Self::NoRoom => f.write_str(
                "the space on the wall leaves none for an image; allow more, or choose a narrower mat or frame",
            ),
            Self::NoFrame => f.write_str("no frame that you already have is stated; first say what you measured"),
            Self::InHand(why) => why.fmt(f),
        }
    }
}

/// Which of the prints for a frame in hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ordered {
    /// To the edge of the sheet.
    ToTheEdge,
    /// The whole image inside the sight opening.
    InsideSight,
    /// Behind a mat.
    Matted,
}

impl Ordered {
    /// All of them, with their keys and their words.
    pub const ALL: [(Self, &'static str, &'static str); 3] = [
        (Self::ToTheEdge, "to_the_edge", "to the edge"),
        (Self::InsideSight, "inside_sight", "with a white border"),
        (Self::Matted, "matted", "behind a mat"),
    ];

    /// Its key.
    #[must_use]
    pub fn key(self) -> &'static str {
        Self::ALL.iter().find(|(ordered, ..)| *ordered == self).map_or("", |(_, key, _)| key)
    }

    /// The print of an order.
    ///
    /// # Errors
    /// When the frame takes no such print.
    pub fn of(self, order: &Order) -> Result<Print, InHandError> {
        match self {
            Self::ToTheEdge => Ok(order.to_the_edge),
            Self::InsideSight => order.inside_sight,
            Self::Matted => order.matted,
        }
    }
}

/// The plan with a print for the frame in hand, for one piece or for all, in a frame of that section.
///
/// # Errors
/// A plain sentence when no frame that you already have is stated, or it takes no such print.
pub fn take_in_hand(plan: &Plan, piece: Option<usize>, ordered: Ordered) -> Result<Plan, AskedError> {
    let figures = Figures::of(plan)?;
    let Some(InHand { face, rabbet_width, allowance, .. }) = plan.in_hand else {
        return Err(AskedError::NoFrame);
    };
    let order = in_hand(plan, &figures, piece.unwrap_or(0));
    let order = order.transpose().map_err(AskedError::InHand)?.ok_or(AskedError::NoFrame)?;
    let print = ordered.of(&order).map_err(AskedError::InHand)?;
    let foot_extra = wish(plan, piece.unwrap_or(0)).foot_extra;
    let mut taken = plan.clone();
    for piece in chosen(&mut taken, piece) {
        if !matches!(piece.finish, Finish::Paper(_)) {
            piece.finish = Finish::Paper(Paper::starting_in(plan.units.first));
        }
        let Finish::Paper(paper) = &mut piece.finish else { continue };
        piece.image = print.image;
        paper.border = match ordered {
            Ordered::InsideSight => Surround::whole(print.sheet),
            Ordered::ToTheEdge | Ordered::Matted => Surround::even(Length::ZERO),
        };
        board(paper, order.nominal, print.opening, print.image, foot_extra);
        let frame = paper.framing.frame.get_or_insert_with(|| Frame::starting_in(plan.units.first));
        *frame = Frame { face, rabbet_width, allowance, ..frame.clone() };
    }
    Ok(taken)
}

/// A stated size that may have been meant in the other system of units.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doubt {
    /// The field that states it.
    pub field: Field,
    /// What it is, in words.
    pub what: &'static str,
    /// Why it is doubted.
    pub note: SystemNote,
}

/// The sizes of a plan that may have been meant in the other system: images, sheets, boards, the frame in hand. A size is
/// taken as stated in the system in which its numbers are the rounder; of several pieces of one size the first is named.
#[must_use]
pub fn doubts(plan: &Plan, stock: &Stock) -> Vec<Doubt> {
    let mut stated: Vec<(Field, &'static str, Size)> = Vec::new();
    if let Some(InHand { size, .. }) = plan.in_hand {
        stated.push((Field::from(&plan::IN_HAND_SIZE), "frame you already have", size));
    }
    for (index, piece) in plan.pieces.iter().enumerate() {
        let what = if piece.finish.is_original() { "original" } else { "print" };
        stated.push((Field::piece(&plan::PIECE_IMAGE, index), what, piece.image));
        if let Finish::Paper(paper) = &piece.finish {
            let sheet = whole(paper.border);
            stated.extend(sheet.map(|size| (Field::piece(&plan::PAPER_WHOLE, index), "sheet", size)));
        }
        let mat = piece.finish.framing().and_then(|framing| framing.mat.as_ref());
        let board = mat.and_then(|mat| whole(mat.surround));
        stated.extend(board.map(|size| (Field::piece(&plan::MAT_WHOLE, index), "mat board", size)));
    }
    let mut seen: Vec<Size> = Vec::new();
    let mut found = Vec::new();
    for (field, what, size) in stated {
        if seen.contains(&size) {
            continue;
        }
        seen.push(size);
        let note = system_of(size).and_then(|system| system_note(size, system, &stock.sizes));
        found.extend(note.map(|note| Doubt { field, what, note }));
    }
    found
}

fn whole(surround: Surround) -> Option<Size> {
    match surround.extent {
        Extent::Whole(size) => Some(size),
        Extent::Border(_) => None,
    }
}

/// The system in which both sides of a size are whole numbers, or halves; `None` where that is neither or both.
fn system_of(size: Size) -> Option<System> {
    let is_round = |system: System| {
        let half = system.bare_unit().length().half();
        [size.width, size.height].iter().all(|side| side.to_nearest(half) == *side)
    };
    match (is_round(System::Inches), is_round(System::Centimetres)) {
        (true, false) => Some(System::Inches),
        (false, true) => Some(System::Centimetres),
        _ => None,
    }
}
