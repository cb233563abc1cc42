//! Skies: a fall of colour to the horizon, banks of cloud in perspective, and the light around the sun.

use crate::chance::{cloudy, noise};
use crate::colour::{Colour, bell, mix, shifted, step};

/// A sky over the whole width, from the top (0) to the horizon (1).
pub(crate) struct Sky {
    /// Width over height of the picture.
    pub(crate) ratio: f32,
    /// Height of the horizon below the top, as a share of the picture's height.
    pub(crate) horizon: f32,
    /// Colours at the top, half-way down and at the horizon.
    pub(crate) fall: [Colour; 3],
    /// Clouds where they are lit, and where they are not.
    pub(crate) cloud: [Colour; 2],
    /// How much of the sky is cloud: 0.3 little, 0.6 most.
    pub(crate) cover: f32,
    /// Breadth of the softness at the edge of a cloud.
    pub(crate) softness: f32,
    /// How much longer than high the clouds are.
    pub(crate) stretch: f32,
    /// Where the sun stands (shares of the width and of the way down to the horizon), and the colour of its light.
    pub(crate) sun: ([f32; 2], Colour),
    /// How far its light reaches, in widths of the picture; 0 for none.
    pub(crate) glow: f32,
    /// What makes these clouds differ from others.
    pub(crate) seed: u64,
}

impl Sky {
    /// The colour at a share of the width and a share of the way down to the horizon.
    pub(crate) fn colour(&self, u: f32, down: f32) -> Colour {
        let [top, middle, low] = self.fall;
        let down = down.clamp(0.0, 1.0);
        let sway = (noise(u * 3.0 * self.ratio, down * 4.0, self.seed ^ 9) - 0.5) * 0.16;
        let fall = mix(mix(top, middle, (down + sway) * 2.0), low, (down + sway) * 2.0 - 1.0);
        let ([sun_u, sun_down], sunlight) = self.sun;
        let (dx, dy) = ((u - sun_u) * self.ratio, (down - sun_down) * self.horizon);
        let from_sun = (dx * dx * 0.55 + dy * dy).sqrt();
        let near = if self.glow > 0.0 { bell(from_sun, self.glow * self.ratio) } else { 0.0 };
        let clear = mix(fall, sunlight, near * 0.85);
        let thickness = self.thickness(u, down);
        let edge = 0.62 - self.cover * 0.4;
        let share = step(edge - self.softness, edge + self.softness, thickness);
        // Lit on the side of the light: where the cloud is thinner a little towards the sun.
        let (toward_u, toward_down) = if self.glow > 0.0 {
            (0.03 * (sun_u - u).clamp(-1.0, 1.0), 0.05 * (sun_down - down).clamp(-1.0, 1.0))
        } else {
            (-0.012, -0.05)
        };
        let thinner = thickness - self.thickness(u + toward_u, down + toward_down);
        let lit = step(-0.07, 0.10, thinner) * 0.8 + near * 0.5;
        let [bright, dark] = self.cloud;
        let cloud = mix(mix(dark, bright, lit), fall, 0.18 + 0.45 * step(0.7, 1.0, down));
        let broken = (noise(u * 14.0 * self.ratio, down * 18.0, self.seed ^ 4) - 0.5) * 0.03;
        shifted(mix(clear, cloud, share * 0.94), broken, broken * 0.4)
    }

    fn thickness(&self, u: f32, down: f32) -> f32 {
        let away = 1.0 / (1.22 - down.min(1.0));
        let (x, y) =
            ((u - 0.5) * self.ratio * away * 1.9 / self.stretch.sqrt(), away * 1.5 * self.stretch.sqrt());
        cloudy(x + 0.4 * noise(x * 1.3, y * 1.3, self.seed ^ 2), y, 5, self.seed)
    }
}
