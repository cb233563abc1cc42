//! The one place where a number is rounded.
//!
//! Everything before an edge of the program (a printed figure, a pixel, a coordinate in a file) is exact. At the edge
//! the caller names the mode; nothing rounded is ever fed back into a plan.
//!
//! ```
//! use overmantel::rounding::{Mode, divide};
//! assert_eq!(divide(7, 2, Mode::HalfAway), 4, "a tie goes away from zero");
//! assert_eq!(divide(-7, 2, Mode::HalfAway), -4, "on both sides of zero alike");
//! assert_eq!(divide(7, 2, Mode::Down), 3);
//! assert_eq!(divide(7, 2, Mode::Up), 4);
//! ```

/// How a quotient that is not whole becomes whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// To the nearest whole number; a tie goes away from zero. The mode for every figure that is shown.
    HalfAway,
    /// Towards minus infinity: what surely fits.
    Down,
    /// Towards plus infinity: what surely suffices.
    Up,
}

/// Divides two integers and rounds once, in the mode given.
///
/// # Panics
/// When `divisor` is zero.
#[must_use]
pub const fn divide(dividend: i128, divisor: i128, mode: Mode) -> i128 {
    assert!(divisor != 0, "a division by zero has no answer");
    let (dividend, divisor) = if divisor < 0 { (-dividend, -divisor) } else { (dividend, divisor) };
    let floor = dividend.div_euclid(divisor);
    let rest = dividend.rem_euclid(divisor);
    match mode {
        Mode::Down => floor,
        Mode::Up => floor + (rest > 0) as i128,
        Mode::HalfAway => {
            let up = if dividend >= 0 { 2 * rest >= divisor } else { 2 * rest > divisor };
            floor + up as i128
        }
    }
}

/// The integer nearest to the square root of `square`; zero for a negative argument.
///
/// Used for the rise of a hanging wire, the only length in the project that is not rational.
///
/// ```
/// use overmantel::rounding::square_root;
/// assert_eq!(square_root(24), 5, "4.899 is nearer to 5");
/// assert_eq!(square_root(20), 4, "4.472 is nearer to 4");
/// ```
#[must_use]
pub const fn square_root(square: i128) -> i128 {
    if square <= 0 {
        return 0;
    }
    let root = square.isqrt();
    // Nearest: (root + 1/2)^2 = root^2 + root + 1/4, so the next root is nearer when square > root^2 + root.
    root + (square - root * root > root) as i128
}

/// A real number to the nearest integer, ties away from zero, held within the range of `i64`.
///
/// For the edges where a length comes in as a coordinate of a pointer. Not a number becomes zero.
#[must_use]
#[expect(
    clippy::cast_possible_truncation,
    reason = "the cast saturates, and this is the place where that is decided"
)]
pub fn nearest(value: f64) -> i64 {
    libm::round(value) as i64
}
