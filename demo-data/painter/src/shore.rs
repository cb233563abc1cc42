//! Tidal flats under a sky: wet sand that mirrors it, banks that do not, and channels that wind away.

use crate::chance::{cloudy, noise};
use crate::colour::{Colour, bell, mix, shifted, step};
use crate::sky::Sky;

/// A channel of water on the flats, from far to near.
pub(crate) struct Channel {
    /// For some shares of the way from the horizon (0) to the lower edge (1): the middle and half the breadth, as
    /// shares of the width.
    pub(crate) course: &'static [(f32, f32, f32)],
}

/// The flats below the horizon.
pub(crate) struct Shore {
    /// The sky that they mirror.
    pub(crate) sky: Sky,
    /// Sand in light, sand in shade, and what the distance turns to.
    pub(crate) sand: [Colour; 2],
    /// What far things turn to.
    pub(crate) haze: Colour,
    /// The colour of water looked into from above.
    pub(crate) depth: Colour,
    /// How much of the sun lies on the water below it.
    pub(crate) path: f32,
    /// How much darker water is at the painter's feet than far out.
    pub(crate) gloom: f32,
    /// The channels.
    pub(crate) channels: Vec<Channel>,
    /// How much of the sand has a skin of water: 0 none, 1 all.
    pub(crate) wetness: f32,
    /// What makes this shore differ from others.
    pub(crate) seed: u64,
}

impl Shore {
    /// The colour and the direction of strokes at shares of the width and of the height of the picture.
    pub(crate) fn seen(&self, u: f32, v: f32) -> (Colour, f32) {
        let horizon = self.sky.horizon;
        if v < horizon {
            let down = v / horizon;
            let drift = cloudy(u * 2.0 * self.sky.ratio, down * 2.2, 2, self.seed ^ 11) - 0.5;
            return (self.sky.colour(u, down), -0.10 + drift * 0.65 * (1.0 - 0.8 * down));
        }
        let near = (v - horizon) / (1.0 - horizon);
        let drift = cloudy(u * 3.0 * self.sky.ratio, near * 5.0, 2, self.seed ^ 12) - 0.5;
        (self.ground(u, near), drift * 0.5 * near)
    }

    /// How surely there is standing water, from 0 to 1.
    pub(crate) fn water(&self, u: f32, near: f32) -> f32 {
        let wander =
            (cloudy(u * 9.0 * self.sky.ratio, near * 26.0 / (0.35 + near), 3, self.seed ^ 3) - 0.5) * 1.5;
        self.channels
            .iter()
            .map(|channel| {
                let (middle, half_width) = channel.at(near);
                let off = ((u - middle).abs() / half_width.max(1e-4)) + wander * 0.55;
                1.0 - step(0.86, 1.12, off)
            })
            .fold(0.0, f32::max)
    }

    fn ground(&self, u: f32, near: f32) -> Colour {
        let away = 1.0 / (near + 0.06);
        let x = (u - 0.5) * self.sky.ratio * away;
        let relief = cloudy(x * 0.9, away * 1.5, 5, self.seed);
        let edge = 0.68 - self.wetness * 0.36;
        let film = step(edge - 0.05, edge + 0.06, relief) * (0.86 - 0.3 * near);
        let water = self.water(u, near);
        let wet = film.max(water);
        // Ripples drag the mirror image up and down.
        let ripple = (noise(x * 5.0, away * 22.0, self.seed ^ 6) - 0.5) * 0.10 * (0.3 + near);
        let mirrored = self.sky.colour(u + ripple * 0.15, 1.0 - near * 0.82 + ripple);
        let mirror = mix(mirrored, self.depth, 0.08 + self.gloom * near + 0.16 * (1.0 - water));
        let ([sun_u, _], sunlight) = self.sky.sun;
        let path = if self.sky.glow > 0.0 { bell(u - sun_u, 0.03 + 0.05 * near) * water } else { 0.0 };
        let mirror = mix(mirror, sunlight, self.path * path);
        let [light, shade] = self.sand;
        let grain = cloudy(x * 2.2, away * 6.0, 3, self.seed ^ 7);
        let sand = mix(shade, light, step(0.30, 0.66, grain * 0.6 + (1.0 - relief) * 0.4));
        // The cut edge of a bank, seen where water lies just below it.
        let below = self.water(u, near + 0.012 + 0.022 * near);
        let lip = (below - water).max(0.0) * step(0.02, 0.2, near);
        let sand = mix(sand, shifted(shade, -0.10, 0.01), lip * 0.85);
        let sand = mix(self.haze, sand, step(-0.02, 0.30, near) * 0.9 + 0.06);
        let broken = (noise(x * 9.0, away * 15.0, self.seed ^ 8) - 0.5) * 0.035;
        shifted(mix(sand, mirror, wet * 0.93), broken, broken * 0.5)
    }
}

impl Channel {
    fn at(&self, near: f32) -> (f32, f32) {
        let mut last = self.course[0];
        for &next in self.course {
            if near <= next.0 {
                let share = step(last.0, next.0.max(last.0 + 1e-4), near);
                let linear = ((near - last.0) / (next.0 - last.0).max(1e-4)).clamp(0.0, 1.0);
                return (last.1 + (next.1 - last.1) * share, last.2 + (next.2 - last.2) * linear);
            }
            last = next;
        }
        (last.1, last.2)
    }
}
