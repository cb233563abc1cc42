//! The focal length that a photograph's file states: read by us, by kamadak-exif, and as segments made here by hand have it (Exif 2.3: 4.5.4
//! for the segment, 4.6.2 for the directories, 4.6.5 for the tag 0xA405).

use overmantel::photograph::exif::focal_35mm;
use std::io::Cursor;
use std::path::Path;

/// A JPEG's beginning with an Exif segment: a first directory with one entry, which points to one with the focal length.
fn made(big: bool, focal: u16) -> Vec<u8> {
    let short = |value: u16| if big { value.to_be_bytes() } else { value.to_le_bytes() };
    let long = |value: u32| if big { value.to_be_bytes() } else { value.to_le_bytes() };
    let mut tiff = if big { b"MM\0*".to_vec() } else { b"II*\0".to_vec() };
    tiff.extend(long(8));
    // At 8: one entry of type LONG, then no other directory.
    tiff.extend(short(1));
    tiff.extend(short(0x8769));
    tiff.extend(short(4));
    tiff.extend(long(1));
    tiff.extend(long(26));
    tiff.extend(long(0));
    // At 26: two entries of type SHORT, of which the second is it.
    tiff.extend(short(2));
    for (tag, value) in [(0xa403, 0), (0xa405, focal)] {
        tiff.extend(short(tag));
        tiff.extend(short(3));
        tiff.extend(long(1));
        tiff.extend(short(value));
        tiff.extend(short(0));
    }
    tiff.extend(long(0));
    let mut jpeg = vec![0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 2, 0xff, 0xff, 0xe1];
    let length = u16::try_from(tiff.len() + 8).expect("short");
    jpeg.extend(length.to_be_bytes());
    jpeg.extend(b"Exif\0\0");
    jpeg.extend(tiff);
    jpeg.extend([0xff, 0xda, 0, 2]);
    jpeg
}

#[test]
fn rooms_say_what_another_reader_and_their_truth_say() {
    let rooms = Path::new(env!("CARGO_MANIFEST_DIR")).join("rooms");
    let mut with = 0;
    for entry in std::fs::read_dir(rooms).expect("rooms") {
        let photo = entry.expect("an entry").path().join("photo.jpg");
        let Ok(bytes) = std::fs::read(&photo) else { continue };
        // The rooms' own directory ends without saying that none follows, which this reader minds but survives.
        let mut reader = exif::Reader::new();
        let read = reader.continue_on_error(true).read_from_container(&mut Cursor::new(&bytes));
        let other = read.or_else(|error| error.distill_partial_result(|_| ())).ok().and_then(|read| {
            let field = read.get_field(exif::Tag::FocalLengthIn35mmFilm, exif::In::PRIMARY)?;
            field.value.get_uint(0).map(f64::from)
        });
        assert_eq!(focal_35mm(&bytes), other, "{}", photo.display());
        let truth = std::fs::read_to_string(photo.with_file_name("truth.json")).expect("truth");
        let truth: serde_json::Value = serde_json::from_str(&truth).expect("JSON");
        let stated =
            truth.pointer("/image/exif/focal_length_in_35mm_film").and_then(serde_json::Value::as_f64);
        assert_eq!(other, stated, "{}", photo.display());
        with += usize::from(stated.is_some());
    }
    assert!(with >= 3, "{with} rooms state it");
}

#[test]
fn both_orders_of_bytes_are_read_and_nothing_is_no_focal_length() {
    for big in [false, true] {
        assert_eq!(focal_35mm(&made(big, 26)), Some(26.0));
        // Exif 2.3, 4.6.5: 0 stands for unknown.
        assert_eq!(focal_35mm(&made(big, 0)), None);
    }
    assert_eq!(focal_35mm(b""), None);
    assert_eq!(focal_35mm(b"\xff\xd8"), None);
    assert_eq!(focal_35mm(b"\x89PNG\r\n\x1a\n"), None);
    let mut of_png = b"\x89PNG\r\n\x1a\n".to_vec();
    of_png.extend(made(true, 26));
    assert_eq!(focal_35mm(&of_png), None);
}

/// What is cut off or altered anywhere is read as it is or not at all, and in the time that a short file takes.
#[test]
fn hostile_bytes_end_nowhere() {
    for big in [false, true] {
        let whole = made(big, 26);
        for end in 0..whole.len() {
            // The entry's value ends twelve bytes before the end: two of it, four of the next directory, four of the picture.
            let read = focal_35mm(&whole[..end]);
            assert!(read.is_none() || read == Some(26.0), "cut at {end}: {read:?}");
        }
        for at in 0..whole.len() {
            for value in [0, 1, 0x7f, 0x80, 0xfe, 0xff] {
                let mut altered = whole.clone();
                altered[at] = value;
                let read = focal_35mm(&altered);
                assert!(read.is_none_or(|focal| focal > 0.0 && focal <= f64::from(u32::MAX)));
            }
        }
    }
    // A directory that is itself the one of Exif, one that claims to be full, and offsets beyond every end.
    let mut own = made(true, 26);
    let place = own.windows(4).position(|four| four == 26_u32.to_be_bytes()).expect("the offset");
    for offset in [8, 0, u32::MAX, u32::MAX - 1, 0x8000_0000] {
        own[place..place + 4].copy_from_slice(&offset.to_be_bytes());
        assert_eq!(focal_35mm(&own), None, "{offset}");
    }
    let mut segments = vec![0xff, 0xd8];
    // Empty segments without an end: 256 KB of them.
    while segments.len() < 256 * 1024 {
        segments.extend([0xff, 0xe1, 0, 2]);
    }
    assert_eq!(focal_35mm(&segments), None);
    assert_eq!(focal_35mm(&[0xff, 0xd8, 0xff, 0xe1, 0, 0, 0xff, 0xe1]), None);
    assert_eq!(focal_35mm(&[0xff; 4096]), None);
}
