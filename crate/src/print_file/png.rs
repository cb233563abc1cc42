//! PNG files row by row, of eight bits and three colours, with their density and nothing else (PNG, third edition).
//!
//! The page has no other way to write them by rows; the command line has its own.
//!
//! ```
//! use overmantel::print_file::png::Png;
//! let mut png = Png::new((2, 1), 3937);
//! png.row(&[255, 0, 0, 0, 0, 255]);
//! let file = png.finish();
//! assert_eq!(file[..8], *b"\x89PNG\r\n\x1a\n");
//! ```

use crate::checksum::crc32;
use miniz_oxide::deflate::core::{
    CompressorOxide, TDEFLFlush, compress_to_output, create_comp_flags_from_zip_params,
};

/// A PNG file on its way.
pub struct Png {
    compressor: Box<CompressorOxide>,
    /// The row before, and one that is filtered.
    before: Vec<u8>,
    filtered: Vec<u8>,
    /// Packed bytes that are in no chunk yet.
    packed: Vec<u8>,
    /// What of the file was not taken yet.
    file: Vec<u8>,
}

/// Bytes of a chunk of pixels, about.
const CHUNK_BYTES: usize = 1 << 16;

/// How hard to pack, 0 to 10, and the zlib form.
const LEVEL: i32 = 2;
const ZLIB: i32 = 1;

impl Png {
    /// Begins a file of so many pixels, width first, at so many to the metre.
    #[must_use]
    pub fn new((width_px, height_px): (u32, u32), pixels_per_metre: u32) -> Self {
        let flags = create_comp_flags_from_zip_params(LEVEL, ZLIB, 0);
        let mut png = Self {
            compressor: Box::new(CompressorOxide::new(flags)),
            before: vec![0; width_px as usize * 3],
            filtered: Vec::new(),
            packed: Vec::new(),
            file: b"\x89PNG\r\n\x1a\n".to_vec(),
        };
        let sides = |one: u32, other: u32| [one.to_be_bytes(), other.to_be_bytes()].concat();
        // Eight bits, three colours, packed and filtered in the one way there is, not interlaced (11.2.1).
        png.chunk(b"IHDR", &[sides(width_px, height_px), vec![8, 2, 0, 0, 0]].concat());
        // To be seen as it is, by the perceptual intent (11.3.2.5); 1 is the metre (11.3.4.3).
        png.chunk(b"sRGB", &[0]);
        png.chunk(b"pHYs", &[sides(pixels_per_metre, pixels_per_metre), vec![1]].concat());
        png
    }

    /// The next row.
    pub fn row(&mut self, row: &[u8]) {
        self.filtered.clear();
        // Each byte less the mean of that before it and that above it (9.3), which suits pictures and is quick.
        self.filtered.push(3);
        for (index, (&byte, &above)) in row.iter().zip(&self.before).enumerate() {
            let left = if index < 3 { 0 } else { row[index - 3] };
            self.filtered.push(byte.wrapping_sub(left.midpoint(above)));
        }
        self.before.copy_from_slice(row);
        self.pack(TDEFLFlush::None);
        if self.packed.len() >= CHUNK_BYTES {
            self.pixels();
        }
    }

    fn pack(&mut self, flush: TDEFLFlush) {
        let packed = &mut self.packed;
        compress_to_output(&mut self.compressor, &self.filtered, flush, |bytes| {
            packed.extend_from_slice(bytes);
            true
        });
    }

    fn pixels(&mut self) {
        let packed = std::mem::take(&mut self.packed);
        self.chunk(b"IDAT", &packed);
    }

    /// Length, name, data and checksum (5.3).
    fn chunk(&mut self, name: &[u8; 4], data: &[u8]) {
        self.file.extend(u32::try_from(data.len()).unwrap_or(u32::MAX).to_be_bytes());
        self.file.extend(name);
        self.file.extend(data);
        self.file.extend(crc32(crc32(0, name), data).to_be_bytes());
    }

    /// What of the file is there and was not taken yet.
    #[must_use]
    pub fn take(&mut self) -> Vec<u8> {
        std::mem::take(&mut self.file)
    }

    /// The rest of the file, after the last row.
    #[must_use]
    pub fn finish(mut self) -> Vec<u8> {
        self.filtered.clear();
        self.pack(TDEFLFlush::Finish);
        self.pixels();
        self.chunk(b"IEND", &[]);
        self.file
    }
}
