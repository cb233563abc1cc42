//! Pulling a corner of a piece to change its size, and the picture inside its opening to choose what is kept.

use super::{Desk, Held};
use crate::field::Field;
use crate::fields::step;
use crate::figures::Figures;
use crate::geometry::{Point, Rect, Size};
use crate::length::{Length, UNITS_PER_INCH};
use crate::measure;
use crate::plan::{self, Focus, Plan};
use crate::print::Exact;
use crate::rounding::{Mode, divide};

/// A corner of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Corner {
    /// Which piece.
    pub piece: usize,
    /// Whether on its right.
    pub right: bool,
    /// Whether at its top.
    pub upper: bool,
    /// Whether this piece alone is meant, and not all that have its size.
    pub alone: bool,
}

impl Desk {
    /// Where a piece is by itself: its outside, or its image where it shares a frame.
    #[must_use]
    pub fn place_of(&self, piece: usize) -> Option<Rect> {
        place_of(&self.plan, &self.figures, piece)
    }

    /// Where a corner is; `None` where there is no such piece.
    #[must_use]
    pub fn corner(&self, corner: Corner) -> Option<Point> {
        corner_of(&self.plan, &self.figures, corner)
    }

    /// The plan with the corner pulled so far, and what to say of it.
    pub(super) fn pulled(
        &self,
        before: &Plan,
        corner: Corner,
        by: Point,
        free: bool,
    ) -> Option<(Plan, String)> {
        let figures = Figures::of(before).ok()?;
        let from = corner_of(before, &figures, corner)?;
        // How far the corner goes when the image grows by an inch: half of it where the piece keeps its middle.
        let inch = Length::inches(1);
        let grown = sized(before, corner, Size::new(inch, inch), true);
        let to = corner_of(&grown, &Figures::of(&grown).ok()?, corner)?;
        let share = |by: Length, went: Length, outwards: bool| {
            let way = if outwards { inch } else { -inch };
            let went =
                if went.half().half().units().signum() * way.units().signum() > 0 { went } else { way };
            by.times_ratio(inch.units(), went.units())
        };
        let now = before.pieces.get(corner.piece)?.image;
        let wanted = Size::new(
            now.width + share(by.x, to.x - from.x, corner.right),
            now.height + share(by.y, to.y - from.y, corner.upper),
        );
        let grain = self.grain();
        let image = if free {
            Size::new(wanted.width.to_nearest(grain).max(grain), wanted.height.to_nearest(grain).max(grain))
        } else {
            let field = Field::piece(&plan::PIECE_IMAGE, corner.piece);
            let turned = Size::new(now.height, now.width);
            let mut sizes = step::offered(before, &self.stock, field, now);
            sizes.extend(step::offered(before, &self.stock, field, turned));
            let off = |size: &Size| (size.width - wanted.width).abs() + (size.height - wanted.height).abs();
            sizes.into_iter().min_by_key(off)?
        };
        let told = measure::shown_size(image, before.units);
        let how = if free { "freely" } else { "a size that is sold; hold Shift for any size" };
        Some((sized(before, corner, image, false), format!("{told}, {how}")))
    }

    /// Which part of its picture a piece shows; nothing where it shows none.
    pub(super) fn crop_in_words(&self, piece: usize) -> Option<String> {
        let window = shown(&self.plan, piece)?;
        let now = |axis: Axis| axis.focus(axis.start);
        Some(text(&window, Focus { x_permille: now(window.across), y_permille: now(window.down) }))
    }

    /// Makes a piece larger or smaller with keys: to the next size that is sold, or freely in one direction.
    pub fn nudge_corner(&mut self, corner: Corner, right: i8, up: i8, free: bool) {
        self.abandon();
        let Some(now) = self.plan.pieces.get(corner.piece).map(|piece| piece.image) else { return };
        let image = if free {
            let step = self.grain() * 2;
            Size::new(now.width + step * i64::from(right), now.height + step * i64::from(up))
        } else {
            let field = Field::piece(&plan::PIECE_IMAGE, corner.piece);
            step::next_size(&self.plan, &self.stock, field, now, right + up > 0, false)
        };
        if self.corner(corner).is_some() && image.is_positive() {
            self.nudge_step(Held::Corner(corner), sized(&self.plan, corner, image, false));
        }
    }

    /// The plan with the picture of a piece moved in its opening by so much, and what to say of it.
    pub(super) fn slid(
        &self,
        before: &Plan,
        piece: usize,
        by: Point,
        reach: Length,
    ) -> Option<(Plan, String)> {
        let window = shown(before, piece)?;
        let px =
            |length: Length| window.px_per_inch * Exact::new(length.units().into(), UNITS_PER_INCH.into());
        let slid = |axis: Axis, by: Exact| {
            let at = axis.slid(by);
            // The middle of the picture catches.
            let middle = (Exact::from_integer(axis.whole) - axis.span) / 2;
            let off = at - middle;
            let near = off.max(-off) <= px(reach);
            axis.focus(if near { middle } else { at })
        };
        let focus =
            Focus { x_permille: slid(window.across, -px(by.x)), y_permille: slid(window.down, px(by.y)) };
        Some((focused(before, piece, focus), text(&window, focus)))
    }

    /// Moves the picture of a piece in its opening by hundredths of the picture, five at once for a large step.
    pub fn nudge_picture(&mut self, piece: usize, right: i8, up: i8, large: bool) -> String {
        self.abandon();
        let Some(window) = shown(&self.plan, piece) else { return String::new() };
        let step = |axis: Axis, steps: i8| {
            let hundredths = i128::from(steps) * if large { 5 } else { 1 };
            axis.focus(axis.slid(Exact::new(axis.whole * hundredths, 100)))
        };
        let focus = Focus { x_permille: step(window.across, -right), y_permille: step(window.down, up) };
        self.nudge_step(Held::Picture(piece), focused(&self.plan, piece, focus));
        text(&window, focus)
    }
}

fn place_of(plan: &Plan, figures: &Figures, piece: usize) -> Option<Rect> {
    let outside = *figures.arranged.outsides.get(piece)?;
    match (plan.shared, figures.build_ups.get(piece)) {
        (Some(_), Some(sizes)) => Some(sizes.image.moved(outside.x, outside.y)),
        _ => Some(outside),
    }
}

fn corner_of(plan: &Plan, figures: &Figures, corner: Corner) -> Option<Point> {
    let place = place_of(plan, figures, corner.piece)?;
    let x = if corner.right { place.right() } else { place.x };
    Some(Point::new(x, if corner.upper { place.top() } else { place.y }))
}

/// The plan with the image of a piece, and of those that are like it, in another size; or larger by so much.
fn sized(plan: &Plan, corner: Corner, size: Size, by: bool) -> Plan {
    let mut changed = plan.clone();
    let Some(now) = plan.pieces.get(corner.piece).map(|piece| piece.image) else { return changed };
    for (index, piece) in changed.pieces.iter_mut().enumerate() {
        if index == corner.piece || !corner.alone && piece.image == now {
            let more = if by { size } else { Size::new(size.width - now.width, size.height - now.height) };
            piece.grow(more);
        }
    }
    changed
}

/// One direction of a picture behind its opening, in its pixels.
#[derive(Clone, Copy)]
struct Axis {
    whole: i128,
    start: Exact,
    span: Exact,
}

impl Axis {
    /// Where what is shown begins when it is moved by so much, held within the picture.
    fn slid(self, by: Exact) -> Exact {
        (self.start + by).min(Exact::from_integer(self.whole) - self.span).max(Exact::from_integer(0))
    }

    /// The focus with which what is shown begins there.
    fn focus(self, start: Exact) -> u16 {
        let middle = (start + self.span / 2) * 1000 / self.whole;
        let permille = divide(*middle.numer(), *middle.denom(), Mode::HalfAway);
        u16::try_from(permille.clamp(0, 1000)).unwrap_or(500)
    }

    fn is_whole(self) -> bool {
        self.span >= Exact::from_integer(self.whole)
    }

    /// How much is shown with this focus, and where that stops: `shows 83 % of its width, up to the left edge`.
    fn in_words(self, focus: u16, side: &str, [start, end]: [&str; 2]) -> String {
        let share = self.span / self.whole * 100;
        let percent = divide(*share.numer(), *share.denom(), Mode::HalfAway).to_string();
        let stop = match focus {
            500 => "in the middle".to_owned(),
            focus if focus <= self.focus(Exact::from_integer(0)) => ["up to the ", start, " edge"].concat(),
            focus if focus >= self.focus(Exact::from_integer(self.whole) - self.span) => {
                ["up to the ", end, " edge"].concat()
            }
            focus => ["its middle ", &measure::percent(focus), " from the ", start].concat(),
        };
        [percent.as_str(), " % of its ", side, ", ", &stop].concat()
    }
}

/// What is shown of the picture of a piece: of one over several pieces, by all of them.
struct Shown {
    across: Axis,
    down: Axis,
    px_per_inch: Exact,
}

fn shown(plan: &Plan, piece: usize) -> Option<Shown> {
    let figures = Figures::of(plan).ok()?;
    let picture = plan.split.map(|split| split.picture).or(plan.pieces.get(piece)?.picture)?;
    let picture = plan.pictures.get(picture)?;
    let cuts: Vec<_> = match plan.split {
        Some(_) => figures.cuts.iter().copied().flatten().collect(),
        None => figures.cuts.get(piece).copied().flatten().into_iter().collect(),
    };
    let first = cuts.first()?;
    let axis = |whole: u32, of: fn(&crate::print::Source) -> (Exact, Exact)| {
        let ends = cuts.iter().map(|cut| of(&cut.source));
        let (start, end) = ends
            .map(|(start, span)| (start, start + span))
            .reduce(|one, other| (one.0.min(other.0), one.1.max(other.1)))?;
        Some(Axis { whole: i128::from(whole), start, span: end - start })
    };
    Some(Shown {
        across: axis(picture.width_px, |source| (source.left, source.width))?,
        down: axis(picture.height_px, |source| (source.top, source.height))?,
        px_per_inch: first.pixels_per_inch,
    })
}

fn focused(plan: &Plan, piece: usize, focus: Focus) -> Plan {
    let mut changed = plan.clone();
    match (&mut changed.split, changed.pieces.get_mut(piece)) {
        (Some(split), _) => split.focus = focus,
        (None, Some(piece)) => piece.focus = focus,
        _ => {}
    }
    changed
}

/// Which part of a picture is shown, and where that stops.
fn text(window: &Shown, focus: Focus) -> String {
    let across = || window.across.in_words(focus.x_permille, "width", ["left", "right"]);
    let down = || window.down.in_words(focus.y_permille, "height", ["top", "bottom"]);
    match (window.across.is_whole(), window.down.is_whole()) {
        (true, true) => "the whole picture is shown; there is nothing to move".to_owned(),
        (false, true) => ["shows ", &across(), ", and its whole height"].concat(),
        (true, false) => ["shows its whole width, and ", &down()].concat(),
        (false, false) => ["shows ", &across(), ", and ", &down()].concat(),
    }
}
