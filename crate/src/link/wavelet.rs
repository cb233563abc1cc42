//! The wavelets of A. Cohen, I. Daubechies and J.-C. Feauveau (9 and 7 taps) by lifting (I. Daubechies, W. Sweldens, "Factoring
//! wavelet transforms into lifting steps", 1998): an image into ever coarser ones, and what each finer one has beside.

/// The steps of lifting; values from memory, held by a test of what they promise: that a slope leaves nothing beside.
const LIFTS: [f32; 4] = [-1.586_134_3, -0.052_980_12, 0.882_911_1, 0.443_506_85];
/// With which lengths are kept.
const SCALE: f32 = 1.149_604_4;

/// A plane of numbers; the coarser ones stand in its upper left corner.
#[derive(Clone)]
pub(super) struct Plane {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) values: Vec<f32>,
}

/// A side after so many halvings.
pub(super) fn halved(side: usize, times: usize) -> usize {
    side.div_ceil(1 << times)
}

impl Plane {
    /// The coarsest image of so many, and what each finer one has beside.
    pub(super) fn split(mut self, levels: usize) -> Self {
        for level in 0..levels {
            self.lines(level, split);
        }
        self
    }

    /// The image again.
    pub(super) fn join(mut self, levels: usize) -> Self {
        for level in (0..levels).rev() {
            self.lines(level, join);
        }
        self
    }

    /// Every row and then every column of the image after so many halvings.
    fn lines(&mut self, level: usize, on: fn(&mut [f32], &mut Vec<f32>)) {
        let (width, height) = (halved(self.width, level), halved(self.height, level));
        let mut spare = Vec::new();
        for row in self.values.chunks_exact_mut(self.width).take(height) {
            on(&mut row[..width], &mut spare);
        }
        let mut column = Vec::new();
        for x in 0..width {
            column.clear();
            column.extend((0..height).map(|y| self.values[y * self.width + x]));
            on(&mut column, &mut spare);
            for (y, value) in column.iter().enumerate() {
                self.values[y * self.width + x] = *value;
            }
        }
    }
}

/// Adds to every other value, from `first` on, a share of both its neighbours; at the ends the line is mirrored.
fn lift(line: &mut [f32], first: usize, share: f32) {
    for at in (first..line.len()).step_by(2) {
        let before = at.checked_sub(1).unwrap_or(at + 1);
        let after = if at + 1 < line.len() { at + 1 } else { before };
        line[at] += share * (line[before] + line[after]);
    }
}

fn split(line: &mut [f32], spare: &mut Vec<f32>) {
    if line.len() < 2 {
        return;
    }
    for (step, share) in LIFTS.iter().enumerate() {
        lift(line, (step + 1) % 2, *share);
    }
    spare.clear();
    spare.extend(line.iter().step_by(2).map(|value| value * SCALE));
    spare.extend(line.iter().skip(1).step_by(2).map(|value| value / SCALE));
    line.copy_from_slice(spare);
}

fn join(line: &mut [f32], spare: &mut Vec<f32>) {
    if line.len() < 2 {
        return;
    }
    let (coarse, beside) = line.split_at(line.len().div_ceil(2));
    spare.clear();
    for (at, value) in coarse.iter().enumerate() {
        spare.push(value / SCALE);
        spare.extend(beside.get(at).map(|value| value * SCALE));
    }
    line.copy_from_slice(spare);
    for (step, share) in LIFTS.iter().enumerate().rev() {
        lift(line, (step + 1) % 2, -share);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Cohen, Daubechies and Feauveau: the wavelets of 9 and 7 taps have four vanishing moments, so that a cubic leaves nothing beside
    /// the coarser image but at its mirrored ends; and what is flat is twice as high in an image of half the size.
    #[test]
    fn what_is_smooth_leaves_nothing_beside() {
        let line: Vec<f32> =
            (0..32_u8).map(|x| f32::from(x) / 8.0).map(|x| 5.0 + x - x * x + x * x * x).collect();
        let mut coded = line.clone();
        split(&mut coded, &mut Vec::new());
        assert!(coded[18..29].iter().all(|value| value.abs() < 0.001), "{coded:?}");
        join(&mut coded, &mut Vec::new());
        assert!(coded.iter().zip(line).all(|(found, line)| (found - line).abs() < 0.001), "{coded:?}");
        let flat = Plane { width: 5, height: 7, values: vec![3.0; 35] }.split(1);
        assert!((0..3).all(|x| (flat.values[x] - 6.0).abs() < 0.001), "{:?}", flat.values);
        assert!(flat.values[3..5].iter().all(|value| value.abs() < 0.001), "{:?}", flat.values);
    }
}
