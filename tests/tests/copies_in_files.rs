//! Plan files with reduced pictures in them: what goes in comes out, and what can't be a picture is refused before it is decoded.

use overmantel::plan::file::{read, read_with_copies, write, write_with_copies};
use overmantel::plan::*;

/// A start of a JPEG: FF D8 FF E0 00 10 4A 46 49 46 00, then as base64 by the table of RFC 4648, section 4.
const JPEG: &str = "/9j/4AAQSkZJRgA=";

fn plan() -> Plan {
    let picture = |name: &str| Picture {
        name: name.to_owned(),
        file: format!("{name}.jpg"),
        width_px: 3000,
        height_px: 2000,
        subject: None,
    };
    Plan { pictures: vec![picture("Ebb"), picture("Slack water")], ..Plan::starting() }
}

#[test]
fn copies_go_in_and_come_out_and_the_plan_is_the_same_without_them() {
    let copies = vec![None, Some(JPEG.to_owned())];
    let text = write_with_copies(&plan(), &copies).unwrap();
    assert!(text.contains(JPEG));
    assert_eq!(read_with_copies(&text).unwrap(), (plan(), copies));
    assert_eq!(read(&text).unwrap(), plan());
    assert_eq!(write(&read(&text).unwrap()), write(&plan()), "what is kept has no copies in it");
    assert_eq!(
        read_with_copies(&write(&plan())).unwrap(),
        (plan(), vec![None, None]),
        "a file without them opens too"
    );
}

#[test]
fn what_is_no_copy_is_refused_with_a_sentence_and_before_it_is_decoded() {
    let filed =
        |copy: &str| write_with_copies(&plan(), &[None, Some(JPEG.to_owned())]).unwrap().replace(JPEG, copy);
    // The first eight bytes of a PNG, a JPEG that lacks a letter, one with a letter outside the alphabet, and nothing.
    for copy in ["iVBORw0KGgo=", "/9j/4AAQSkZJRgA", "/9j/4AAQ*kZJRgA=", "", "/9j/4A==SkZJRgA="] {
        let why = read(&filed(copy)).unwrap_err().to_string();
        assert!(why.contains("Slack water") && why.contains("not a JPEG file in base64"), "{copy}: {why}");
    }
    let long = format!("/9j/{}", "A".repeat(limits::COPY_BYTES));
    let why = read(&filed(&long)).unwrap_err().to_string();
    assert!(why.contains("1000004 characters, and at most 1000000"), "{why}");
    assert!(write_with_copies(&plan(), &[Some(long)]).is_err(), "nor is it written");
    let padded = filed(JPEG) + &" ".repeat(limits::FILE_BYTES);
    assert!(
        read(&padded).unwrap_err().to_string().contains("bytes, and a plan may have at most"),
        "copies are no room for anything else"
    );
}
