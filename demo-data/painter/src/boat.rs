//! Things that stand on a shore: boats, posts, a line of hills.

use crate::brush::Stroke;
use crate::chance::{Chance, cloudy, noise};
use crate::colour::{Colour, mix, shifted, step};
use crate::study::{Place, Study};

/// A fishing boat seen from the side, aground or afloat.
pub(crate) struct Boat {
    /// Where the middle of the keel touches, in units in which the picture's area is 1.
    pub(crate) keel: Place,
    /// Length over all, likewise.
    pub(crate) length: f32,
    /// 1 with the bow to the right, -1 to the left.
    pub(crate) heading: f32,
    /// How far it leans or pitches, as an angle.
    pub(crate) tilt: f32,
    /// The side, the band below the gunwale, the bottom paint and the wheelhouse, all in the light of the day.
    pub(crate) paint: [Colour; 4],
    /// Whether it has a wheelhouse.
    pub(crate) has_house: bool,
    /// Height of the mast, in lengths; 0 for none.
    pub(crate) mast: f32,
    /// The colour of its shadow.
    pub(crate) shadow: Colour,
    /// How clearly its mirror image is seen: 0 on dry sand, 1 in still water.
    pub(crate) mirrored: f32,
    /// What makes its touches differ from those of other boats.
    pub(crate) seed: u64,
}

impl Boat {
    /// A place from lengths along the keel towards the bow and up from it.
    fn place(&self, [along, up]: Place) -> Place {
        let (sin, cos) = (libm::sinf(self.tilt), libm::cosf(self.tilt));
        let (x, y) = (along * self.heading * self.length, -up * self.length);
        [self.keel[0] + x * cos - y * sin, self.keel[1] + x * sin + y * cos]
    }

    fn mirror(&self, place: Place) -> Place {
        let fall = self.keel[1] - place[1];
        [place[0] + fall * 0.04, self.keel[1] + 0.01 * self.length + fall * 0.86]
    }

    /// Paints the boat into the study; returns the last touches.
    pub(crate) fn paint(&self, study: &mut Study) -> Vec<Stroke> {
        let [hull, stripe, keel, house] = self.paint;
        let (seed, middle, long) = (self.seed, self.keel, self.length);
        let placed = |outline: &[Place]| outline.iter().map(|&p| self.place(p)).collect::<Vec<_>>();
        let side: Vec<Place> = SHEER.iter().chain(&BOTTOM).copied().collect();
        if self.mirrored > 0.0 {
            self.paint_image(study, &side);
        }
        let pool = [
            [-0.60, 0.0],
            [-0.3, 0.024],
            [0.2, 0.026],
            [0.66, 0.006],
            [0.5, -0.04],
            [0.1, -0.06],
            [-0.45, -0.055],
        ]
        .map(|[along, up]: Place| [middle[0] + along * long, middle[1] - up * long]);
        let shadow = self.shadow;
        study.lay(&pool, true, Some(0.0), move |_, under| mix(under, shadow, 0.66));
        let worn = move |colour: Colour| {
            move |[x, y]: Place, _: Colour| {
                let wear = cloudy(x * 60.0, y * 90.0, 3, seed) - 0.5;
                shifted(colour, wear * 0.16, wear * 0.06)
            }
        };
        if self.has_house {
            study.lay(&placed(&HOUSE), false, Some(self.tilt + 1.5), worn(house));
            study.lay(&placed(&HOUSE_SHADE), false, Some(self.tilt + 1.5), worn(mix(house, shadow, 0.55)));
            study.lay(&placed(&ROOF), false, Some(self.lie()), worn(mix(house, shadow, 0.3)));
        }
        study.lay(&placed(&side), true, Some(self.lie()), move |place, under| {
            // Rounded below, so darker there.
            let fall = ((place[1] - middle[1]) / long + 0.24) / 0.26;
            mix(shifted(worn(hull)(place, under), 0.05, 0.01), shadow, (0.75 * fall).clamp(0.0, 0.8))
        });
        study.lay(&placed(&BELOW), true, Some(self.lie()), move |place, under| {
            mix(worn(keel)(place, under), shadow, 0.25)
        });
        let band: Vec<Place> =
            SHEER.iter().copied().chain(SHEER.iter().rev().map(|[along, up]| [*along, up - 0.028])).collect();
        study.lay(&placed(&band), true, Some(self.lie()), worn(stripe));
        self.touches()
    }

    /// The image in the wet below, broken by ripples.
    fn paint_image(&self, study: &mut Study, side: &[Place]) {
        let [hull, _, keel, house] = self.paint;
        let mirrored =
            |outline: &[Place]| outline.iter().map(|&p| self.mirror(self.place(p))).collect::<Vec<_>>();
        let reach = self.length * (0.5 + 0.4 * self.mirrored * self.mast);
        let (top, strength, seed) = (self.keel[1], self.mirrored, self.seed);
        let image = move |colour: Colour| {
            move |[x, y]: Place, under: Colour| {
                let ripple = step(0.30, 0.62, noise(x * 14.0, y * 80.0, seed ^ 5));
                let fade = 1.0 - step(0.1, 1.0, (y - top) / reach);
                mix(under, colour, strength * fade * (0.35 + 0.6 * ripple))
            }
        };
        if self.has_house {
            study.lay(&mirrored(&HOUSE), false, Some(0.0), image(mix(house, self.shadow, 0.25)));
        }
        if self.mast > 0.0 {
            let spar = [[0.118, 0.16], [0.105, self.mast], [0.135, self.mast], [0.142, 0.16]];
            study.lay(&mirrored(&spar), false, Some(1.57), image(mix(self.shadow, hull, 0.35)));
        }
        study.lay(&mirrored(side), true, Some(0.0), image(mix(mix(hull, keel, 0.3), self.shadow, 0.35)));
    }

    fn lie(&self) -> f32 {
        self.tilt - 0.06 * self.heading
    }

    fn touches(&self) -> Vec<Stroke> {
        let mut chance = Chance::new(self.seed);
        let mut touches = Vec::new();
        let fine = self.length * 0.0048;
        let [hull, stripe, keel, house] = self.paint;
        let dark = self.shadow;
        let mut line = |a: Place, b: Place, half_width: f32, colour: Colour, load: f32| {
            touches.push(touch(a, b, half_width, colour, load, &mut chance));
        };
        if self.mast > 0.0 {
            let (foot, head) = (self.place([0.13, 0.16]), self.place([0.12, self.mast]));
            let spar = mix(dark, keel, 0.35);
            line(foot, head, fine * 1.25, spar, 1.1);
            let wire = mix(spar, house, 0.4);
            line(head, self.place([0.51, 0.31]), fine * 0.42, wire, 0.55);
            line(head, self.place([-0.46, 0.22]), fine * 0.42, wire, 0.50);
            line(head, self.place([-0.02, 0.19]), fine * 0.36, wire, 0.45);
            if self.has_house {
                let boom = self.place([-0.24, 0.20 + self.mast * 0.36]);
                line(self.place([0.12, 0.27]), boom, fine * 0.85, spar, 0.8);
                line(boom, self.place([0.12, self.mast * 0.9]), fine * 0.34, wire, 0.5);
            }
        }
        // Gear on deck: nets, fenders, boxes.
        for (at, colour) in
            [(0.02, keel), (0.07, dark), (0.24, mix(stripe, keel, 0.4)), (0.30, dark), (-0.38, hull)]
        {
            let low = self.place([at, 0.15 + 0.1 * at * at]);
            let high = self.place([at + 0.035, 0.205 + 0.1 * at * at]);
            line(low, high, fine * 3.0, mix(colour, dark, 0.3), 0.7);
        }
        // The light on the gunwale, broken, and the dark where it meets the ground.
        let light = mix(stripe, house, 0.5);
        line(self.place([-0.47, 0.206]), self.place([-0.12, 0.160]), fine * 0.7, light, 0.55);
        line(self.place([0.18, 0.178]), self.place([0.51, 0.302]), fine * 0.8, light, 0.62);
        line(self.place([-0.40, 0.115]), self.place([0.10, 0.095]), fine * 0.8, mix(hull, light, 0.35), 0.45);
        line(self.place([-0.32, -0.004]), self.place([0.22, -0.006]), fine * 2.0, dark, 0.75);
        if self.has_house {
            // Two panes, each of three touches, one above the other.
            for (pane, row) in
                [(-0.195, 0_u8), (-0.195, 1), (-0.195, 2), (-0.115, 0), (-0.115, 1), (-0.115, 2)]
            {
                let up = 0.252 + 0.0145 * f32::from(row);
                let (a, b) = (self.place([pane, up]), self.place([pane + 0.045, up + 0.001]));
                line(a, b, self.length * 0.0105, mix(dark, [0.36, 0.42, 0.46], 0.3), 1.2);
            }
            line(self.place([-0.34, 0.362]), self.place([-0.06, 0.366]), fine * 0.8, light, 0.6);
        }
        touches
    }
}

// Outlines in lengths of the boat, from amidships towards the bow, and up from the keel.
const SHEER: [Place; 6] =
    [[-0.50, 0.21], [-0.30, 0.175], [-0.05, 0.155], [0.20, 0.178], [0.40, 0.235], [0.535, 0.31]];
const BOTTOM: [Place; 6] =
    [[0.47, 0.16], [0.37, 0.045], [0.16, -0.005], [-0.12, -0.01], [-0.37, 0.02], [-0.475, 0.10]];
const BELOW: [Place; 8] = [
    [-0.47, 0.085],
    [-0.2, 0.050],
    [0.1, 0.045],
    [0.43, 0.105],
    [0.37, 0.035],
    [0.16, -0.012],
    [-0.12, -0.018],
    [-0.37, 0.012],
];
const HOUSE: [Place; 5] = [[-0.33, 0.15], [-0.325, 0.33], [-0.09, 0.335], [-0.055, 0.32], [-0.045, 0.15]];
const HOUSE_SHADE: [Place; 4] = [[-0.33, 0.15], [-0.325, 0.33], [-0.225, 0.332], [-0.23, 0.15]];
const ROOF: [Place; 4] = [[-0.35, 0.325], [-0.345, 0.362], [-0.04, 0.366], [-0.025, 0.332]];

/// One touch of a small brush.
pub(crate) fn touch(
    from: Place,
    to: Place,
    half_width: f32,
    colour: Colour,
    load: f32,
    chance: &mut Chance,
) -> Stroke {
    // The brush is round: its ends fall short of where it is set down and lifted.
    let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
    let over = 0.7 * half_width / (dx * dx + dy * dy).sqrt().max(1e-6);
    let from = [from[0] - dx * over, from[1] - dy * over];
    let to = [to[0] + dx * over, to[1] + dy * over];
    Stroke {
        from,
        to,
        bend: chance.about() * half_width * 0.8,
        half_width,
        colour,
        second: shifted(colour, chance.about() * 0.05, chance.about() * 0.03),
        load,
        body: 0.9,
        seed: chance.seed(),
    }
}

/// A post in the mud, and its image in what is wet around it.
pub(crate) fn post(
    foot: Place,
    height: f32,
    half_width: f32,
    colour: Colour,
    mirrored: f32,
    chance: &mut Chance,
) -> Vec<Stroke> {
    let lean = chance.about() * 0.035 * height;
    let head = [foot[0] + lean, foot[1] - height];
    let image = [foot[0] + lean * 0.8, foot[1] + height * 0.75];
    let faint = mix(colour, [0.62, 0.63, 0.62], 0.35);
    vec![
        touch(foot, image, half_width * 1.2, faint, 0.62 * mirrored, chance),
        touch(head, foot, half_width, colour, 1.15, chance),
        touch(
            [head[0] - half_width * 0.5, head[1] + height * 0.06],
            [foot[0] - half_width * 0.5, foot[1] - height * 0.35],
            half_width * 0.35,
            shifted(colour, 0.14, 0.02),
            0.55,
            chance,
        ),
    ]
}

/// A channel marker: a pile with a top mark, a can (square) or a cone.
pub(crate) fn marker(
    study: &mut Study,
    foot: Place,
    height: f32,
    paint: Colour,
    is_can: bool,
    dark: Colour,
    seed: u64,
) -> Vec<Stroke> {
    let [x, y] = foot;
    let (half, top) = (height * 0.042, y - height);
    let (width, depth) = (height * 0.105, height * 0.20);
    let mark = if is_can {
        vec![[x - width, top], [x + width, top], [x + width, top + depth], [x - width, top + depth]]
    } else {
        vec![[x, top - depth * 0.2], [x + width * 1.25, top + depth], [x - width * 1.25, top + depth]]
    };
    let band = [
        [x - half, top + depth * 0.9],
        [x + half, top + depth * 0.9],
        [x + half * 1.15, y],
        [x - half * 1.15, y],
    ];
    let image = |outline: &[Place]| outline.iter().map(|[a, b]| [*a, y + (y - b) * 0.8]).collect::<Vec<_>>();
    let broken = move |colour: Colour| {
        move |[a, b]: Place, under: Colour| {
            let ripple = step(0.35, 0.6, noise(a * 20.0, b * 110.0, seed ^ 5));
            mix(under, colour, 0.75 * ripple * (1.0 - step(0.2, 1.0, (b - y) / height)))
        }
    };
    study.lay(&image(&band), false, Some(0.0), broken(dark));
    study.lay(&image(&mark), false, Some(0.0), broken(mix(paint, dark, 0.3)));
    let worn = move |colour: Colour| {
        move |[a, b]: Place, _: Colour| {
            let side = ((a - x) / half).clamp(-1.5, 1.5);
            let wear = cloudy(a * 90.0, b * 60.0, 3, seed) - 0.5;
            shifted(colour, wear * 0.14 - side * 0.06, wear * 0.05)
        }
    };
    study.lay(&band, false, Some(1.57), worn(mix(dark, paint, 0.04)));
    study.lay(&mark, false, Some(1.57), worn(paint));
    let mut chance = Chance::new(seed);
    let lit = shifted(mix(paint, dark, 0.2), 0.2, 0.02);
    vec![
        touch([x, top + depth], [x, y - height * 0.55], half * 0.6, dark, 1.1, &mut chance),
        touch(
            [x - half * 0.8, y - height * 0.64],
            [x - half * 0.7, y - height * 0.2],
            half * 0.3,
            mix(dark, lit, 0.5),
            0.6,
            &mut chance,
        ),
        touch(
            [x - half * 1.8, y + half * 0.3],
            [x + half * 2.2, y + half * 0.3],
            half * 0.6,
            mix(dark, lit, 0.3),
            0.6,
            &mut chance,
        ),
        touch(
            [x - width * 0.8, top + depth * 0.15],
            [x - width * 0.7, top + depth * 0.8],
            half * 0.35,
            lit,
            0.6,
            &mut chance,
        ),
    ]
}

/// A line of hills or woods along the horizon, between two shares of the width.
pub(crate) fn hills(study: &mut Study, horizon: f32, span: [f32; 2], height: f32, colour: Colour, seed: u64) {
    let base = horizon * study.height;
    let (left, right) = (span[0] * study.width, span[1] * study.width);
    let mut outline = vec![[left, base + 0.002]];
    for at in 0..=60_u8 {
        let share = f32::from(at) / 60.0;
        let x = left + (right - left) * share;
        let ends = step(0.0, 0.22, share) * (1.0 - step(0.72, 1.0, share));
        let rise = cloudy(share * 5.0, 0.5, 4, seed) * ends;
        outline.push([x, base - height * (0.12 + rise)]);
    }
    outline.push([right, base + 0.002]);
    study.lay(&outline, false, Some(0.0), move |[x, y], under| {
        let wash = noise(x * 30.0, y * 60.0, seed ^ 3) - 0.5;
        mix(shifted(colour, wash * 0.05, wash * 0.03), under, 0.12)
    });
}
