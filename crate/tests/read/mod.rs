//! What picture files state of themselves, read by their standards.

/// A chunk of a PNG by its name: length, name, data and checksum follow each other from byte 8 on (PNG, 5.3).
pub(crate) fn chunk<'a>(png: &'a [u8], name: &str) -> Option<&'a [u8]> {
    let mut rest = &png[8..];
    while let [a, b, c, d, tail @ ..] = rest {
        let length = usize::try_from(u32::from_be_bytes([*a, *b, *c, *d])).ok()?;
        if tail[..4] == *name.as_bytes() {
            return Some(&tail[4..4 + length]);
        }
        rest = &tail[4 + length + 4..];
    }
    None
}

/// The pixels of a PNG of colours, not interlaced, as it stores them: its chunks of pixels one after the other, inflated by another library than
/// packed them, and each row set right by the filter that it names (PNG, third edition, 9.2; 1 is the left, 2 above, 3 their mean, 4 Paeth's).
pub(crate) fn png_pixels(png: &[u8]) -> Vec<u8> {
    let head = chunk(png, "IHDR").expect("a head");
    let width = usize::try_from(u32::from_be_bytes([head[0], head[1], head[2], head[3]])).expect("a width");
    assert_eq!(head[9..], [2, 0, 0, 0], "three colours, not interlaced");
    let bytes = 3 * usize::from(head[8]) / 8;
    let (mut packed, mut rest) = (Vec::new(), png);
    while let Some(data) = chunk(rest, "IDAT") {
        packed.extend_from_slice(data);
        // Past its checksum, less the eight bytes that stand before the chunks of a file.
        rest = &rest[data.as_ptr_range().end as usize - rest.as_ptr() as usize - 4..];
    }
    let rows = miniz_oxide::inflate::decompress_to_vec_zlib(&packed).expect("zlib");
    let mut above = vec![0; width * bytes];
    let mut pixels = Vec::new();
    for row in rows.chunks_exact(width * bytes + 1) {
        let mut now = row[1..].to_vec();
        for at in 0..now.len() {
            let left = if at < bytes { 0 } else { now[at - bytes] };
            let corner = if at < bytes { 0 } else { above[at - bytes] };
            let guess = match row[0] {
                0 => 0,
                1 => left,
                2 => above[at],
                3 => left.midpoint(above[at]),
                4 => {
                    let sum = i16::from(left) + i16::from(above[at]) - i16::from(corner);
                    let off = |byte: &u8| (sum - i16::from(*byte)).abs();
                    // The first of the nearest.
                    [left, above[at], corner].into_iter().min_by_key(off).unwrap_or(0)
                }
                other => panic!("a filter {other}"),
            };
            now[at] = now[at].wrapping_add(guess);
        }
        pixels.extend_from_slice(&now);
        above = now;
    }
    pixels
}

/// The segments of a JPEG up to its pixels: marker and body (T.81, B.1.1).
pub(crate) fn jpeg_segments(file: &[u8]) -> Vec<(u8, Vec<u8>)> {
    let mut found = Vec::new();
    let mut at = 2;
    while file[at + 1] != 0xda {
        let length = usize::from(u16::from_be_bytes([file[at + 2], file[at + 3]]));
        found.push((file[at + 1], file[at + 4..at + 2 + length].to_vec()));
        at += 2 + length;
    }
    found
}

fn long(file: &[u8], at: usize) -> usize {
    let bytes = [file[at], file[at + 1], file[at + 2], file[at + 3]];
    usize::try_from(u32::from_ne_bytes(bytes)).expect("a place in a file")
}

/// A field of the first directory of a TIFF in the order of bytes of this machine: tag, type, count, and the value or where it is (TIFF 6.0,
/// section 2).
pub(crate) fn field(tiff: &[u8], tag: u16) -> Option<Vec<u8>> {
    let is_little = cfg!(target_endian = "little");
    assert_eq!(tiff[..2], if is_little { *b"II" } else { *b"MM" });
    let start = long(tiff, 4);
    let count = usize::from(u16::from_ne_bytes([tiff[start], tiff[start + 1]]));
    let entry = (0..count)
        .map(|index| start + 2 + index * 12)
        .find(|at| u16::from_ne_bytes([tiff[*at], tiff[at + 1]]) == tag)?;
    // 1 byte, 2 text, 3 short, 4 long, 5 ratio, 7 undefined.
    let size = match u16::from_ne_bytes([tiff[entry + 2], tiff[entry + 3]]) {
        1 | 2 | 7 => 1,
        3 => 2,
        4 => 4,
        _ => 8,
    };
    let bytes = size * long(tiff, entry + 4);
    let at = if bytes <= 4 { entry + 8 } else { long(tiff, entry + 8) };
    Some(tiff[at..at + bytes].to_vec())
}

/// All strips of a TIFF that is not packed, one after the other (tags 273 and 279).
pub(crate) fn tiff_pixels(tiff: &[u8]) -> Vec<u8> {
    assert_eq!(field(tiff, 259).expect("how it is packed")[..2], 1_u16.to_ne_bytes(), "not packed");
    let [offsets, counts] = [273, 279].map(|tag| field(tiff, tag).expect("strips"));
    let strips = offsets.chunks_exact(4).zip(counts.chunks_exact(4));
    strips.flat_map(|(at, count)| tiff[long(at, 0)..][..long(count, 0)].to_vec()).collect()
}

/// A grey TIFF of sixteen bits in tiles that are not packed, the higher byte first.
pub(crate) fn tiled(size: (u32, u32), tile: (u32, u32), grey: impl Fn(u32, u32) -> u16) -> Vec<u8> {
    let (across, down) = (size.0.div_ceil(tile.0), size.1.div_ceil(tile.1));
    let mut file = b"MM\0\x2a\0\0\0\0".to_vec();
    let mut offsets = Vec::new();
    for index in 0..across * down {
        offsets.push(u32::try_from(file.len()).expect("a small file"));
        let (left, top) = (index % across * tile.0, index / across * tile.1);
        for (y, x) in (top..top + tile.1).flat_map(|y| (left..left + tile.0).map(move |x| (y, x))) {
            let sample = if x < size.0 && y < size.1 { grey(x, y) } else { 0 };
            file.extend(sample.to_be_bytes());
        }
    }
    let listed =
        |values: &mut dyn Iterator<Item = u32>| values.flat_map(u32::to_be_bytes).collect::<Vec<u8>>();
    let place = |file: &[u8]| u32::try_from(file.len()).expect("a small file");
    let offsets_at = place(&file);
    file.extend(listed(&mut offsets.iter().copied()));
    let counts_at = place(&file);
    file.extend(listed(&mut offsets.iter().map(|_| tile.0 * tile.1 * 2)));
    let directory = place(&file);
    file[4..8].copy_from_slice(&directory.to_be_bytes());
    // Tag, type (3 short, 4 long), count, value: a short stands on the left.
    let count = across * down;
    let fields = [
        (256, 4, 1, size.0),
        (257, 4, 1, size.1),
        (258, 3, 1, 16 << 16),
        (259, 3, 1, 1 << 16),
        (262, 3, 1, 1 << 16),
        (277, 3, 1, 1 << 16),
        (322, 4, 1, tile.0),
        (323, 4, 1, tile.1),
        (324, 4, count, offsets_at),
        (325, 4, count, counts_at),
    ];
    file.extend(u16::try_from(fields.len()).expect("ten").to_be_bytes());
    for (tag, kind, count, value) in fields {
        let (tag, kind): (u16, u16) = (tag, kind);
        file.extend(tag.to_be_bytes());
        file.extend(kind.to_be_bytes());
        file.extend(count.to_be_bytes());
        file.extend(value.to_be_bytes());
    }
    file.extend([0; 4]);
    file
}
