//! The window: the part of a drawing that fills its sheet, when one goes nearer.

/// A part of a drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// How many times larger things are than on the whole drawing, from 1.
    pub zoom: f32,
    /// Where its left edge is on the whole drawing, as a share of the sheet's width.
    pub x: f32,
    /// Where its upper edge is, as a share of the sheet's height.
    pub y: f32,
}

impl Window {
    /// All of the drawing.
    pub const WHOLE: Self = Self { zoom: 1.0, x: 0.0, y: 0.0 };

    /// Nearer or farther by a factor; what is at a point (in shares of the sheet) stays there. `most` is how near one can go.
    #[must_use]
    pub fn zoomed(self, factor: f32, at: (f32, f32), most: f32) -> Self {
        let factor = if factor.is_finite() { factor } else { 1.0 };
        let zoom = (self.zoom * factor).clamp(1.0, most.max(1.0));
        let (x, y) = (self.x + at.0 / self.zoom, self.y + at.1 / self.zoom);
        Self { zoom, x: x - at.0 / zoom, y: y - at.1 / zoom }.held()
    }

    /// Moved over the drawing, by shares of the sheet.
    #[must_use]
    pub fn moved(self, right: f32, down: f32) -> Self {
        Self { x: self.x + right / self.zoom, y: self.y + down / self.zoom, ..self }.held()
    }

    /// Within the drawing.
    fn held(self) -> Self {
        let hold = |at: f32| if at.is_finite() { at.clamp(0.0, 1.0 - 1.0 / self.zoom) } else { 0.0 };
        Self { x: hold(self.x), y: hold(self.y), ..self }
    }
}
