//! JPEG files row by row, where their pixels are coded from the top down (baseline and extended sequential, T.81); others have to be read whole.
//!
//! The decoder takes whole files. So rows of blocks are written, one by one, as scans of their own: their coefficients stay as they are coded,
//! only each starts afresh (as after a restart marker). Some of them, with the one above and the one below that colours are smoothed from, make
//! a small file, which the decoder decodes to the very pixels that it would find in the whole.

use super::MOST_EXTRA_BYTES;
use super::source::{Alpha, Samples, Source, StoredRows};
use crate::failure::pictures::{Fault, ReadError, broken, unreadable};
use bits::Huffman;
use error::JpegError;
use image::codecs::jpeg::JpegDecoder;
use image::metadata::Orientation;
use image::{ColorType, ImageDecoder};
use overmantel::print_file::Form;
use scan::{Component, Scan};
use std::collections::VecDeque;
use std::fs::File;
use std::io::{BufReader, Cursor, Read};
use std::path::{Path, PathBuf};

pub(super) mod bits;
pub(super) mod error;
mod scan;

/// Opens a JPEG; none where its pixels are not coded from the top down.
pub(super) fn open(path: &Path) -> Result<Option<Source>, ReadError> {
    let file = File::open(path).map_err(unreadable(path, "JPEG"))?;
    let mut input = BufReader::with_capacity(1 << 18, file);
    let head = Head::read(&mut input).map_err(unreadable(path, "JPEG"))?;
    let Some(scan) = head.scan(input) else { return Ok(None) };
    let form = Form { is_coloured: head.components.len() == 3, is_wide: false };
    let profile = head.profile();
    Ok(Some(Source {
        form,
        stored_px: (head.width.into(), head.height.into()),
        orientation: head.orientation,
        profile,
        bytes: 0,
        said: Vec::new(),
        rows: Box::new(JpegRows {
            samples: Samples { count: form.samples(), form, alpha: Alpha::None },
            head,
            scan,
            coded: VecDeque::new(),
            first: 0,
            pixels: Vec::new(),
            next: 0,
            have: 0,
            path: path.to_owned(),
        }),
    }))
}

/// What stands before the coded pixels.
#[derive(Default)]
struct Head {
    width: u16,
    height: u16,
    /// Whether pixels come from the top down, in eight bits, coded by Huffman's method, all colours together.
    is_in_order: bool,
    frame: u8,
    components: Vec<Component>,
    /// Segments that every part needs: tables of quanta, and how colours are coded.
    kept: Vec<u8>,
    dc: [Option<Huffman>; 4],
    ac: [Option<Huffman>; 4],
    /// The tables for what is not the mean of a block, as segments.
    ac_kept: Vec<u8>,
    restart: u16,
    orientation: u8,
    profile: Vec<(u8, Vec<u8>)>,
}

/// The next marker, past the bytes that fill up before it.
pub(super) fn next_marker(input: &mut impl Read) -> Result<u8, JpegError> {
    let mut byte = [0];
    input.read_exact(&mut byte)?;
    if byte != [0xff] {
        return Err(JpegError::NoMarker);
    }
    while byte == [0xff] {
        input.read_exact(&mut byte)?;
    }
    Ok(byte[0])
}

impl Head {
    fn read(input: &mut impl Read) -> Result<Self, JpegError> {
        let mut head = Self { orientation: 1, ..Self::default() };
        let mut pair = [0; 2];
        input.read_exact(&mut pair)?;
        let mut all = 0;
        loop {
            let marker = next_marker(input)?;
            input.read_exact(&mut pair)?;
            let length = usize::from(u16::from_be_bytes(pair)).checked_sub(2).ok_or(JpegError::NoLength)?;
            all += length;
            if all > MOST_EXTRA_BYTES {
                return Err(JpegError::Long);
            }
            let mut body = vec![0; length];
            input.read_exact(&mut body)?;
            head.take(marker, &body).ok_or(JpegError::CutOff)?;
            if marker == 0xda {
                return Ok(head);
            }
        }
    }

    /// Takes a segment (T.81, annex B); `None` where it is too short.
    fn take(&mut self, marker: u8, body: &[u8]) -> Option<()> {
        match marker {
            0xc4 => self.tables(body)?,
            0xc0..=0xcf if !matches!(marker, 0xc8 | 0xcc) => {
                self.frame = marker;
                self.is_in_order = matches!(marker, 0xc0 | 0xc1) && *body.first()? == 8;
                self.height = u16::from_be_bytes([*body.get(1)?, *body.get(2)?]);
                self.width = u16::from_be_bytes([*body.get(3)?, *body.get(4)?]);
                for part in body.get(6..6 + usize::from(*body.get(5)?) * 3)?.as_chunks::<3>().0 {
                    self.components.push(Component::new(*part));
                }
            }
            0xda => {
                let count = usize::from(*body.first()?);
                self.is_in_order &= count == self.components.len();
                for (index, part) in body.get(1..=count * 2)?.as_chunks::<2>().0.iter().enumerate() {
                    let component = self.components.get_mut(index)?;
                    self.is_in_order &= component.name == part[0];
                    component.dc = usize::from(part[1] >> 4) & 3;
                    component.ac = usize::from(part[1]) & 3;
                }
            }
            0xdd => self.restart = u16::from_be_bytes([*body.first()?, *body.get(1)?]),
            0xe1 => {
                let turned = body.strip_prefix(b"Exif\0\0").and_then(Orientation::from_exif_chunk);
                self.orientation = turned.map_or(self.orientation, Orientation::to_exif);
            }
            0xe2 => {
                if let Some(rest) = body.strip_prefix(b"ICC_PROFILE\0").filter(|rest| rest.len() > 2) {
                    self.profile.push((rest[0], rest[2..].to_vec()));
                }
            }
            // Quanta, and the JFIF and Adobe segments.
            0xdb | 0xe0 | 0xee => segment(&mut self.kept, marker, body),
            _ => {}
        }
        Some(())
    }

    fn tables(&mut self, mut body: &[u8]) -> Option<()> {
        while let [kind, rest @ ..] = body {
            let counts = rest.get(..16)?;
            let codes = counts.iter().map(|count| usize::from(*count)).sum::<usize>();
            let symbols = rest.get(16..16 + codes)?;
            let table = Huffman::new(counts, symbols)?;
            let place = usize::from(kind & 3);
            if kind >> 4 == 0 {
                self.dc[place] = Some(table);
            } else {
                self.ac[place] = Some(table);
                segment(&mut self.ac_kept, 0xc4, &body[..17 + codes]);
            }
            body = &rest[16 + codes..];
        }
        Some(())
    }

    fn profile(&self) -> Option<Vec<u8>> {
        let mut parts = self.profile.clone();
        parts.sort_by_key(|part| part.0);
        (!parts.is_empty()).then(|| parts.into_iter().flat_map(|part| part.1).collect())
    }

    /// The coded pixels, if they can be taken row by row.
    fn scan(&self, input: BufReader<File>) -> Option<Scan> {
        let is_sized = self.width > 0 && self.height > 0;
        if !self.is_in_order || !is_sized || !matches!(self.components.len(), 1 | 3) {
            return None;
        }
        let tables = self
            .components
            .iter()
            .map(|part| Some((self.dc[part.dc].clone()?, self.ac[part.ac].clone()?)))
            .collect::<Option<Vec<_>>>()?;
        Scan::new(input, &self.components, tables, self.width, self.restart)
    }

    /// A file of some rows of blocks, each of them coded by itself.
    fn file<'a>(&self, scan: &Scan, rows: impl Iterator<Item = &'a Vec<u8>>, height: u16) -> Vec<u8> {
        let mut file = vec![0xff, 0xd8];
        file.extend_from_slice(&self.kept);
        let count = u8::try_from(self.components.len()).unwrap_or(u8::MAX);
        let mut frame = vec![8];
        frame.extend(height.to_be_bytes());
        frame.extend(self.width.to_be_bytes());
        frame.push(count);
        let mut start = vec![count];
        for part in &self.components {
            frame.extend([part.name, part.sampling, part.quanta]);
            start.extend([part.name, u8::try_from(part.ac).unwrap_or(0)]);
        }
        start.extend([0, 63, 0]);
        segment(&mut file, self.frame, &frame);
        segment(&mut file, 0xc4, &scan::MEANS);
        file.extend_from_slice(&self.ac_kept);
        segment(&mut file, 0xdd, &scan.across.to_be_bytes());
        segment(&mut file, 0xda, &start);
        for (marker, row) in (0_u8..8).cycle().zip(rows) {
            file.extend_from_slice(row);
            file.extend([0xff, 0xd0 + marker]);
        }
        // After the last row the file ends.
        file.pop();
        file.push(0xd9);
        file
    }
}

fn segment(file: &mut Vec<u8>, marker: u8, body: &[u8]) {
    let length = u16::try_from(body.len() + 2).unwrap_or(u16::MAX);
    file.extend([0xff, marker]);
    file.extend(length.to_be_bytes());
    file.extend_from_slice(body);
}

/// Rows of pixels that are decoded together, about.
const TOGETHER: usize = 128;

struct JpegRows {
    samples: Samples,
    head: Head,
    scan: Scan,
    /// Rows of blocks, coded; the first of them is the row `first`.
    coded: VecDeque<Vec<u8>>,
    first: usize,
    /// Pixels from the row `have` down, of which `next` is to be handed over.
    pixels: Vec<u8>,
    have: usize,
    next: usize,
    path: PathBuf,
}

impl JpegRows {
    fn fill(&mut self) -> Result<(), ReadError> {
        let height = usize::from(self.head.height);
        let high = self.scan.high;
        let (from, rows) = (self.next / high, height.div_ceil(high));
        let to = (from + (TOGETHER / high).max(1)).min(rows);
        // One more above and below, where there is one.
        let (above, below) = (from.saturating_sub(1), (to + 1).min(rows));
        while self.first < above {
            self.coded.pop_front();
            self.first += 1;
        }
        while self.first + self.coded.len() < below {
            self.coded.push_back(self.scan.row().map_err(broken(&self.path))?);
        }
        let part = (below * high).min(height) - above * high;
        let part_px = u16::try_from(part).map_err(broken(&self.path))?;
        let file = self.head.file(&self.scan, self.coded.iter().take(below - above), part_px);
        let damaged = |why| broken(&self.path)(Fault::from(why));
        let decoder = JpegDecoder::new(Cursor::new(file)).map_err(damaged)?;
        let is_meant =
            decoder.color_type() == if self.samples.count == 3 { ColorType::Rgb8 } else { ColorType::L8 };
        let bytes = usize::from(self.head.width) * part * self.samples.count;
        if !is_meant || decoder.total_bytes() != bytes as u64 {
            return Err(broken(&self.path)(Fault::Colours));
        }
        self.pixels.resize(bytes, 0);
        decoder.read_image(&mut self.pixels).map_err(damaged)?;
        let stride = usize::from(self.head.width) * self.samples.count;
        self.pixels.truncate(((to * high).min(height) - above * high) * stride);
        self.have = above * high;
        Ok(())
    }
}

impl StoredRows for JpegRows {
    fn next(&mut self, row: &mut Vec<u8>) -> Result<(), ReadError> {
        let stride = usize::from(self.head.width) * self.samples.count;
        if (self.next - self.have + 1) * stride > self.pixels.len() {
            self.fill()?;
        }
        let stored = &self.pixels[(self.next - self.have) * stride..][..stride];
        self.samples.plain(stored, row);
        self.next += 1;
        Ok(())
    }

    fn end(&mut self) -> Result<(), ReadError> {
        let is_end = self.scan.is_end().map_err(broken(&self.path))?;
        if is_end { Ok(()) } else { Err(ReadError::GoesOn(self.path.clone())) }
    }
}
