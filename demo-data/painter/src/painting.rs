//! From a study to strokes: broad ones first, then finer ones where the broad ones could not follow.

use crate::brush::{Canvas, Stroke};
use crate::chance::{Chance, noise};
use crate::colour::{Colour, difference, mix, shifted};
use crate::study::{Place, Study};

/// All that makes one painting.
pub(crate) struct Painting {
    /// What is seen.
    pub(crate) study: Study,
    /// The colour of the ground, which shows between strokes and warms all of them.
    pub(crate) ground: Colour,
    /// The last touches, over everything: masts, ropes, glints.
    pub(crate) touches: Vec<Stroke>,
    /// The seed of the hand.
    pub(crate) seed: u64,
}

/// One pass over the canvas with one brush, in units in which the picture's area is 1.
struct Pass {
    half_width: f32,
    /// Below this difference from what the broader brush has seen, the place is left as it is.
    least_difference: f32,
    /// A share of places touched all the same.
    anyway: f32,
    /// Length of the longest stroke, in half widths.
    longest: f32,
    load: f32,
    body: f32,
}

#[rustfmt::skip]
const PASSES: [Pass; 5] = [
    Pass { half_width: 0.036,  least_difference: 0.0,   anyway: 0.92, longest: 9.0,  load: 0.62, body: 0.35 },
    Pass { half_width: 0.019,  least_difference: 0.022, anyway: 0.42, longest: 11.0, load: 0.66, body: 0.6 },
    Pass { half_width: 0.0095, least_difference: 0.026, anyway: 0.13, longest: 12.0, load: 0.70, body: 0.8 },
    Pass { half_width: 0.0052, least_difference: 0.030, anyway: 0.03, longest: 12.0, load: 0.76, body: 0.8 },
    Pass { half_width: 0.0028, least_difference: 0.034, anyway: 0.0,  longest: 11.0, load: 0.85, body: 0.7 },
];

impl Painting {
    /// Every stroke, in order.
    pub(crate) fn strokes(&self) -> Vec<Stroke> {
        let mut chance = Chance::new(self.seed);
        let mut strokes = Vec::new();
        let mut broader: Option<Study> = None;
        for pass in &PASSES {
            let seen = self.study.blurred(pass.half_width * 0.55);
            let mut layer = Vec::new();
            let pitch = pass.half_width * 1.05;
            let mut y = -0.5 * pitch;
            while y < self.study.height + pitch {
                let mut x = -0.5 * pitch;
                while x < self.study.width + pitch {
                    let place = [x + chance.about() * 0.5 * pitch, y + chance.about() * 0.5 * pitch];
                    let is_wanted = broader.as_ref().is_some_and(|broader| {
                        difference(broader.colour(place), seen.colour(place)) >= pass.least_difference
                    });
                    if chance.unit() < pass.anyway || is_wanted {
                        layer.push(self.stroke(&seen, place, pass, &mut chance));
                    }
                    x += pitch;
                }
                y += pitch;
            }
            chance.shuffle(&mut layer);
            strokes.append(&mut layer);
            broader = Some(seen);
        }
        strokes.extend(self.touches.iter().cloned());
        strokes
    }

    /// A stroke through a place, along the form, for as long as its colour holds.
    fn stroke(&self, seen: &Study, place: Place, pass: &Pass, chance: &mut Chance) -> Stroke {
        let colour = seen.colour(place);
        let longest = pass.longest * pass.half_width * chance.between(0.6, 1.1);
        let turn = chance.about() * 0.16;
        let ahead = self.followed(seen, place, colour, pass, longest * 0.5, turn);
        let back = self.followed(seen, place, colour, pass, -longest * 0.5, turn);
        let middle = [(ahead[0] + back[0]) / 2.0, (ahead[1] + back[1]) / 2.0];
        let (dx, dy) = (ahead[0] - back[0], ahead[1] - back[1]);
        let length = (dx * dx + dy * dy).sqrt().max(1e-6);
        let aside = ((place[1] - middle[1]) * dx - (place[0] - middle[0]) * dy) / length;
        let is_turned = chance.unit() < 0.35;
        let (from, to) = if is_turned { (ahead, back) } else { (back, ahead) };
        // The brush picks up a little of the ground and of its neighbours, never quite the same.
        let paint = mix(shifted(colour, chance.about() * 0.030, chance.about() * 0.024), self.ground, 0.05);
        let second = shifted(paint, chance.about() * 0.035, chance.about() * 0.030);
        Stroke {
            from,
            to,
            bend: (if is_turned { -aside } else { aside }).clamp(-0.2 * length, 0.2 * length),
            half_width: pass.half_width * chance.between(0.75, 1.2),
            colour: paint,
            second,
            load: pass.load * chance.between(0.72, 1.2),
            body: pass.body * chance.between(0.6, 1.3),
            seed: chance.seed(),
        }
    }

    /// Where one gets from a place by following the form for `way` (back, if it is negative).
    fn followed(
        &self,
        seen: &Study,
        place: Place,
        colour: Colour,
        pass: &Pass,
        way: f32,
        turn: f32,
    ) -> Place {
        let pace = pass.half_width * 0.5 * way.signum();
        let mut at = place;
        let mut last = self.angle(seen, at, pass);
        let mut gone = 0.0;
        while gone < way.abs() {
            let mut angle = self.angle(seen, at, pass);
            // An angle and its opposite are one direction: keep on.
            if libm::cosf(angle - last) < 0.0 {
                angle += std::f32::consts::PI;
            }
            last = angle;
            let next = [at[0] + pace * libm::cosf(angle + turn), at[1] + pace * libm::sinf(angle + turn)];
            if gone > pass.half_width * 0.8 && difference(seen.colour(next), colour) > 0.055 {
                break;
            }
            at = next;
            gone += pace.abs();
        }
        at
    }

    /// The direction of the form: that of the nearest strong edge, else that of the study.
    fn angle(&self, seen: &Study, place: Place, pass: &Pass) -> f32 {
        let given = self.study.direction(place) + (noise(place[0] * 7.0, place[1] * 7.0, 5) - 0.5) * 0.5;
        let (grain, steepness) = seen.grain(place, pass.half_width * 0.5);
        if steepness * pass.half_width > 0.09 { grain } else { given }
    }

    /// The painting at a number of pixels across, as columns, rows and bytes.
    pub(crate) fn painted(&self, columns: usize) -> (usize, usize, Vec<u8>) {
        let shrink = if columns <= 2_400 { 2 } else { 1 };
        let (width, height) = (self.study.width, self.study.height);
        let mut canvas = Canvas::new(width, height, columns * shrink, self.ground, self.seed);
        for stroke in self.strokes() {
            canvas.lay(&stroke);
        }
        (canvas.columns / shrink, canvas.rows / shrink, canvas.lit(shrink))
    }
}
