//! Print: which part of a picture file a piece shows, and how many pixels that gives to the inch.
//!
//! A crop fills its window: with `k` the larger of window width / picture width and window height / picture height, in
//! length per pixel, the picture is laid at k to the pixel and what sticks out is lost. The density that a file declares
//! of itself plays no part; only its pixels do. How fine that is says [`sharpness`]; which whole pixels to cut, [`whole_px`].
//!
//! ```
//! use overmantel::{geometry::Size, plan::Focus, print::fill};
//! let cut = fill((4000, 6000), Size::inches(16, 20), Focus::MIDDLE);
//! assert_eq!(cut.pixels_per_inch.to_integer(), 250, "4000 px / 16 in; 6000 / 20 would be 300");
//! assert_eq!(cut.source.height.to_integer(), 5000, "20 in × 250 px/in, so one sixth of the height is lost");
//! assert_eq!(cut.source.top.to_integer(), 500, "half of the loss at the head");
//! ```

use crate::geometry::{Rect, Size};
use crate::length::{Length, UNITS_PER_INCH};
use crate::plan::{Arrangement, Focus, Strips};
use num_rational::Ratio;

pub mod sharpness;
pub mod whole_px;

pub use sharpness::merging_distance;
pub use whole_px::PixelCrop;

/// An exact quotient of integers.
pub type Exact = Ratio<i128>;

/// A part of a picture in its pixels, from its upper left corner, x to the right and y down as pictures are stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// From the left edge of the picture.
    pub left: Exact,
    /// From the upper edge of the picture.
    pub top: Exact,
    /// Width in pixels.
    pub width: Exact,
    /// Height in pixels.
    pub height: Exact,
}

/// A crop and its resolution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cut {
    /// What is shown.
    pub source: Source,
    /// Pixels of the file to an inch of the print.
    pub pixels_per_inch: Exact,
}

impl Cut {
    /// The share of a picture's area that the crop leaves out, 0 to 1.
    #[must_use]
    pub fn lost(&self, picture_px: (u32, u32)) -> Exact {
        let whole = Exact::from_integer(i128::from(picture_px.0) * i128::from(picture_px.1));
        Exact::from_integer(1) - self.source.width * self.source.height / whole
    }

    /// The pixels that lie in a part of what is filled: `over` is all of it, and both are in one frame of reference.
    ///
    /// ```
    /// use overmantel::{geometry::{Rect, Size}, length::Length, plan::Focus, print::fill};
    /// let print = Rect::new(Length::ZERO, Length::ZERO, Size::inches(16, 20));
    /// let cut = fill((4800, 6000), print.size, Focus::MIDDLE);
    /// let seen = cut.part(print, print.grown(-Length::inches_ratio(1, 8)));
    /// assert_eq!((*seen.left.numer(), *seen.left.denom()), (75, 2), "1/8 in at 300 pixels to the inch");
    /// assert_eq!(seen.height.to_integer(), 5925, "19 3/4 in");
    /// ```
    #[must_use]
    pub fn part(&self, over: Rect, part: Rect) -> Source {
        let to_px =
            |length: Length| self.pixels_per_inch * Exact::new(units(length), i128::from(UNITS_PER_INCH));
        Source {
            left: self.source.left + to_px(part.x - over.x),
            top: self.source.top + to_px(over.top() - part.top()),
            width: to_px(part.size.width),
            height: to_px(part.size.height),
        }
    }
}

/// Fills a window with a picture, keeping the focus as near the middle of the window as the picture allows.
///
/// `picture_px` is width and height in pixels, both at least one; the window is positive.
#[must_use]
pub fn fill(picture_px: (u32, u32), window: Size, focus: Focus) -> Cut {
    let (width_px, height_px) = (i128::from(picture_px.0), i128::from(picture_px.1));
    let (window_width, window_height) = (units(window.width), units(window.height));
    // Pixels to the unit of length, by the side that binds: the smaller of the two quotients.
    let pixels_per_unit = Exact::new(width_px, window_width).min(Exact::new(height_px, window_height));
    let width = pixels_per_unit * window_width;
    let height = pixels_per_unit * window_height;
    Cut {
        source: Source {
            left: start(width_px, width, focus.x_permille),
            top: start(height_px, height, focus.y_permille),
            width,
            height,
        },
        pixels_per_inch: pixels_per_unit * i128::from(UNITS_PER_INCH),
    }
}

/// Where a span begins that has the focus in its middle, held within the picture.
fn start(whole_px: i128, span: Exact, focus_permille: u16) -> Exact {
    let wanted = Exact::new(whole_px * i128::from(focus_permille), 1000) - span / 2;
    wanted.min(Exact::from_integer(whole_px) - span).max(Exact::from_integer(0))
}

fn units(length: Length) -> i128 {
    i128::from(length.units())
}

/// One picture over several windows.
///
/// With [`Strips::Hidden`] the windows look through to one picture behind the wall, so that lines meet across the gaps.
/// With [`Strips::Kept`] the windows are pushed together first, as they are arranged: side by side, one below the other, or beside the first.
/// The windows are where they hang; their order is that of the pieces.
#[must_use]
pub fn split(
    picture_px: (u32, u32),
    windows: &[Rect],
    strips: Strips,
    arrangement: Arrangement,
    focus: Focus,
) -> Vec<Cut> {
    let windows = match strips {
        Strips::Hidden => windows.to_vec(),
        Strips::Kept => pushed_together(windows, arrangement),
    };
    let Some(whole) = windows.iter().copied().reduce(Rect::union) else { return Vec::new() };
    let cut = fill(picture_px, whole.size, focus);
    windows.iter().map(|window| Cut { source: cut.part(whole, *window), ..cut }).collect()
}

/// The same windows without gaps: side by side, each as high as it hangs, or one below the other, each as far to the side;
/// so that a horizon goes on from one to the next however they are aligned or stepped.
fn pushed_together(windows: &[Rect], arrangement: Arrangement) -> Vec<Rect> {
    if let (true, [first, others @ ..]) = (arrangement.is_mixed(), windows) {
        let mut pushed = vec![*first];
        pushed.extend(pushed_beside(*first, others, arrangement == Arrangement::StackLeft));
        return pushed;
    }
    let mut along = Length::ZERO;
    windows
        .iter()
        .map(|window| {
            let Size { width, height } = window.size;
            if arrangement == Arrangement::Column {
                along += height;
                Rect::new(window.x, -along, window.size)
            } else {
                along += width;
                Rect::new(along - width, window.y, window.size)
            }
        })
        .collect()
}

/// A stack without gaps, against the first: its middle as high as it hangs, so that each is moved as little as can be.
fn pushed_beside(first: Rect, others: &[Rect], is_left: bool) -> Vec<Rect> {
    let heights = others.iter().map(|other| other.size.height).sum::<Length>();
    let [Some(top), Some(foot)] = [others.first().map(|upper| upper.top()), others.last().map(|last| last.y)]
    else {
        return Vec::new();
    };
    let mut along = foot + (top - foot - heights).half() + heights;
    let push = |other: &Rect| {
        along -= other.size.height;
        let x = if is_left { first.x - other.size.width } else { first.right() };
        Rect::new(x, along, other.size)
    };
    others.iter().map(push).collect()
}

/// Where in the upright file pixels begin, in words.
///
/// ```
/// use overmantel::print::from_corner;
/// assert_eq!(from_corner(0, 0), "from its top left corner");
/// assert_eq!(from_corner(12, 0), "from 12 px to the right of its top left corner");
/// assert_eq!(from_corner(12, 40), "from 12 px to the right of its top left corner and 40 px down");
/// ```
#[must_use]
pub fn from_corner(left: u32, top: u32) -> String {
    let [right, down] = [left, top].map(|px| px.to_string());
    match (left, top) {
        (0, 0) => "from its top left corner".to_owned(),
        (_, 0) => ["from ", &right, " px to the right of its top left corner"].concat(),
        (0, _) => ["from ", &down, " px below its top left corner"].concat(),
        _ => ["from ", &right, " px to the right of its top left corner and ", &down, " px down"].concat(),
    }
}
