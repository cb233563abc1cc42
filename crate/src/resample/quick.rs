//! Scaling for drawings, in whole numbers of 16 bits: many are multiplied at once, and every machine has the same sums.
//!
//! The result is made in bands of some rows. First the rows of the source that a row of the band is made of are summed, many columns
//! at once; what comes of it is laid with neighbouring columns together, so that the columns that a pixel is made of are summed in
//! the same way, many rows at once.

use super::{Raster, RasterPart, Taps};
use crate::colour::decode_table;
use std::ops::Range;
use std::sync::LazyLock;
use wide::{i16x8, i32x4, i32x8};

/// White. Above it and below black is room for what the filter overshoots.
const WHITE: i16 = 28_672;

/// The sRGB code nearest to each light there may be, by the bits of its number; beyond black and white it is theirs.
static CODES: LazyLock<Box<[u8; 1 << 16]>> = LazyLock::new(|| {
    let mut codes = crate::colour::codes(usize::from(WHITE.cast_unsigned()));
    codes.resize(1 << 15, u8::MAX);
    codes.resize(1 << 16, 0);
    codes.try_into().unwrap_or_else(|_| Box::new([0; 1 << 16]))
});

/// The table of codes, for loops over many pixels.
pub(super) fn codes() -> &'static [u8; 1 << 16] {
    &CODES
}

/// A share of one is so many bits long.
const SHARE_BITS: u32 = 14;

/// Neighbours that are summed at once. A band has as many rows.
pub(super) const AT_ONCE: usize = 16;

/// Light at two neighbouring places: in an upper and a lower row, or in a left and a right column.
type Two = [i16; 2];

/// A picture in linear light, 0 to [`WHITE`], two rows together: of both first the red, then the green, then the blue.
#[derive(Clone)]
pub(super) struct Linear {
    width_px: u32,
    height_px: u32,
    pairs: Vec<Two>,
}

impl Linear {
    /// None anywhere.
    fn dark(width_px: u32, height_px: u32) -> Self {
        let pairs = vec![[0; 2]; Self::stride(width_px) * 3 * height_px.div_ceil(2) as usize];
        Self { width_px, height_px, pairs }
    }

    /// All of a source at another size.
    pub(super) fn of(source: Source<'_>, (width_px, height_px): (u32, u32)) -> Self {
        let (width, height) = source.size();
        let part = RasterPart { left: 0.0, top: 0.0, width: f64::from(width), height: f64::from(height) };
        let mut light = Self::dark(width_px, height_px);
        let stride = Self::stride(width_px);
        scale(source, part, (width_px, height_px), |rows, band| {
            let channels = light.pairs[rows.start / 2 * stride * 3..].chunks_exact_mut(stride);
            for (index, channel) in channels.take(rows.len().div_ceil(2) * 3).enumerate() {
                for (two, column) in channel.iter_mut().zip(&band[index % 3]) {
                    *two = column.as_chunks().0[index / 3];
                }
            }
        });
        light
    }

    pub(super) fn size(&self) -> (u32, u32) {
        (self.width_px, self.height_px)
    }

    /// Places from a row's first red to its first green: enough that columns are summed together everywhere.
    fn stride(width_px: u32) -> usize {
        width_px as usize + AT_ONCE
    }

    /// Of two rows one channel, from a column on.
    fn channel(&self, pair: usize, channel: usize, from: usize) -> &[[Two; AT_ONCE]] {
        let stride = Self::stride(self.width_px);
        self.pairs[(pair * 3 + channel) * stride..][..stride][from..].as_chunks().0
    }
}

/// What is scaled.
#[derive(Clone, Copy)]
pub(super) enum Source<'a> {
    /// Codes, which become light as they are needed.
    Codes(&'a Raster),
    /// A picture that is in linear light.
    Linear(&'a Linear),
}

impl Source<'_> {
    fn size(self) -> (u32, u32) {
        match self {
            Self::Codes(raster) => (raster.width_px, raster.height_px),
            Self::Linear(light) => light.size(),
        }
    }
}

/// Light of the rows under the filter, from a raster: place `pair % places` holds a pair.
struct Held<'a> {
    raster: &'a Raster,
    columns: Range<usize>,
    light: Linear,
    places: usize,
    /// The pair that comes next.
    next: usize,
    decoded: [i16; 256],
}

impl<'a> Held<'a> {
    fn new(raster: &'a Raster, columns: Range<usize>, places: usize) -> Self {
        let side = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        let light = Linear::dark(side(columns.len()), side(places * 2));
        let decoded = decode_table().map(|light| whole(light * f32::from(WHITE)));
        Self { raster, columns, light, places, next: 0, decoded }
    }

    /// Sees to it that the pairs are there.
    fn read(&mut self, pairs: Range<usize>) {
        let Self { raster, columns, light, places, next, decoded } = self;
        let (width, stride) = (raster.width_px as usize * 4, Linear::stride(light.width_px));
        for pair in pairs.start.max(*next)..pairs.end {
            let mut rows = raster.pixels[pair * 2 * width..]
                .chunks_exact(width)
                .map(|row| row[columns.start * 4..columns.end * 4].as_chunks::<4>().0);
            let upper = rows.next().unwrap_or_default();
            // Below the last row there is nothing, which has no share in anything.
            let lower = rows.next().unwrap_or(upper);
            let (red, rest) = light.pairs[pair % *places * stride * 3..].split_at_mut(stride);
            let (green, blue) = rest.split_at_mut(stride);
            for (((upper, lower), red), (green, blue)) in
                upper.iter().zip(lower).zip(red).zip(green.iter_mut().zip(blue))
            {
                let two = |channel: usize| [upper, lower].map(|pixel| decoded[usize::from(pixel[channel])]);
                (*red, *green, *blue) = (two(0), two(1), two(2));
            }
        }
        *next = pairs.end.max(*next);
    }
}

/// Rows of the result, of which the first may be all that are wanted: of each channel, by column.
pub(super) type Band = [Vec<[i16; AT_ONCE]>; 3];

/// Scales a part of a source and hands over the rows of the result, a band after the other, with which rows those are.
pub(super) fn scale(
    source: Source<'_>,
    part: RasterPart,
    (width_px, height_px): (u32, u32),
    mut finished: impl FnMut(Range<usize>, &Band),
) {
    let size = source.size();
    let across = Taps::new(part.left, part.width, size.0, width_px);
    // From an even column on.
    let columns = across.reach().start & !1..across.reach().end;
    let across = Shares::new(&across, columns.start);
    let down = Shares::new(&Taps::new(part.top, part.height, size.1, height_px), 0);
    let mut held = match source {
        Source::Codes(raster) => Some(Held::new(raster, columns.clone(), down.most)),
        Source::Linear(_) => None,
    };
    let (width, height) = (width_px as usize, height_px as usize);
    let blocks = columns.len().div_ceil(AT_ONCE);
    // By channel and pair of columns.
    let mut narrow = [(); 3].map(|()| vec![[[0; 2]; AT_ONCE]; blocks * AT_ONCE / 2]);
    let mut band = [(); 3].map(|()| vec![[0; AT_ONCE]; width]);
    for top in (0..height).step_by(AT_ONCE) {
        let rows = top..height.min(top + AT_ONCE);
        for row in rows.clone() {
            let (pairs, shares) = down.of(row);
            if let Some(held) = &mut held {
                held.read(pairs.clone());
            }
            for (channel, narrow) in narrow.iter_mut().enumerate() {
                let light = |pair| match (source, &held) {
                    (Source::Linear(light), _) => light.channel(pair, channel, columns.start),
                    (Source::Codes(_), Some(held)) => held.light.channel(pair % held.places, channel, 0),
                    (Source::Codes(_), None) => &[],
                };
                let light: Vec<&[[Two; AT_ONCE]]> = pairs.clone().map(light).collect();
                for (at, narrow) in narrow.as_chunks_mut::<{ AT_ONCE / 2 }>().0.iter_mut().enumerate() {
                    let light = light.iter().filter_map(|light| light.get(at));
                    for (pair, two) in narrow.iter_mut().zip(summed(light, shares).as_chunks().0) {
                        pair[row - top] = *two;
                    }
                }
            }
        }
        for (band, narrow) in band.iter_mut().zip(&narrow) {
            for (column, light) in band.iter_mut().enumerate() {
                let (pairs, shares) = across.of(column);
                *light = summed(narrow[pairs].iter(), shares);
            }
        }
        finished(rows, &band);
    }
}

/// Pairs by their shares.
#[inline(always)]
fn summed<'a>(light: impl Iterator<Item = &'a [Two; AT_ONCE]>, shares: &[i16x8]) -> [i16; AT_ONCE] {
    let half = 1 << (SHARE_BITS - 1);
    let mut sums = [i32x4::splat(half); AT_ONCE / 4];
    for (light, &shares) in light.zip(shares) {
        for (sum, &light) in sums.iter_mut().zip(light.as_flattened().as_chunks().0) {
            *sum += i16x8::new(light).dot(shares);
        }
    }
    let mut result = [0; AT_ONCE];
    for (result, sums) in result.as_chunks_mut().0.iter_mut().zip(sums.as_chunks::<2>().0) {
        let [low, high] = sums.map(|sum| (sum >> SHARE_BITS).to_array());
        let both = std::array::from_fn(|at| if at < 4 { low[at] } else { high[at - 4] });
        *result = i16x8::from_i32x8_saturate(i32x8::new(both)).to_array();
    }
    result
}

/// Which pairs of neighbours along an axis each pixel of the result is made of, and in which shares.
struct Shares {
    pairs: Vec<Range<usize>>,
    /// Pairs of a pixel at most.
    most: usize,
    shares: Vec<i16x8>,
}

impl Shares {
    /// Counted from `start`, which is even.
    fn new(taps: &Taps, start: usize) -> Self {
        let most = taps.count / 2 + 1;
        let mut shares = Self { pairs: Vec::new(), most, shares: Vec::new() };
        let mut whole = vec![0; most * 2];
        for (index, first) in taps.first.iter().map(|first| first - start).enumerate() {
            whole.fill(0);
            in_whole_numbers(taps.weights(index), &mut whole[first % 2..]);
            let both = |&[one, two]: &Two| i16x8::new([one, two, one, two, one, two, one, two]);
            shares.shares.extend(whole.as_chunks().0.iter().map(both));
            shares.pairs.push(first / 2..(first + taps.count).div_ceil(2));
        }
        shares
    }

    fn of(&self, index: usize) -> (Range<usize>, &[i16x8]) {
        (self.pairs[index].clone(), &self.shares[index * self.most..][..self.most])
    }
}

/// Shares in whole numbers, which together are one exactly: what rounding leaves is given to the greatest.
fn in_whole_numbers(shares: &[f32], whole_shares: &mut [i16]) {
    let one: i16 = 1 << SHARE_BITS;
    let mut left = one;
    let mut greatest = 0;
    for (at, (whole_share, share)) in whole_shares.iter_mut().zip(shares).enumerate() {
        *whole_share = whole(share * f32::from(one));
        left = left.saturating_sub(*whole_share);
        if *share > shares[greatest] {
            greatest = at;
        }
    }
    whole_shares[greatest] = whole_shares[greatest].saturating_add(left);
}

/// The nearest whole number, held within 16 bits.
fn whole(value: f32) -> i16 {
    #[expect(clippy::cast_possible_truncation, reason = "saturates")]
    let whole = (value + if value < 0.0 { -0.5 } else { 0.5 }) as i16;
    whole
}
