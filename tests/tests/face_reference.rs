//! The faces of mouldings against the curves that they are said to be, and how deep they fall.
//!
//! Points are in thousandths of the face's width and of its fall. No expected value is from Overmantel.

use overmantel::framing::face::{line, relief};
use overmantel::length::Length;
use overmantel::plan::{FaceShape, Frame};
use overmantel_tests::given::length;

/// Whether a height is the square root of this, to the whole below or the nearest.
#[track_caller]
fn assert_root(height: i64, square: i64, what: (i64, i64)) {
    assert!(
        height * height <= square + height && (height + 1) * (height + 1) > square,
        "{what:?} for √{square}"
    );
}

#[test]
fn straight_faces() {
    assert_eq!(line(FaceShape::Flat), [(0, 1000), (1000, 1000)]);
    assert_eq!(line(FaceShape::Bevelled), [(0, 1000), (80, 1000), (1000, 0)]);
    let steps = line(FaceShape::Stepped);
    assert_eq!(steps, [(0, 1000), (400, 1000), (430, 600), (700, 600), (730, 250), (1000, 250)]);
}

/// Half of an ellipse over the whole face: up² = 1 - (2t - 1)².
#[test]
fn a_rounded_face_is_half_an_ellipse() {
    let points = line(FaceShape::Rounded);
    assert_eq!(
        (points[0], points[points.len() / 2], points[points.len() - 1]),
        ((0, 0), (500, 1000), (1000, 0))
    );
    assert!(points.len() >= 20 && points.windows(2).all(|pair| pair[0].0 < pair[1].0));
    for point in points {
        assert_root(point.1, 1_000_000 - (2 * point.0 - 1000) * (2 * point.0 - 1000), point);
    }
}

/// Level for 150, then a quarter of a circle, hollow: with s from 0 to 1 over the rest, (1 - up)² = 1 - (1 - s)². Across is whole, so that s may be off by
/// one part of 850 and what is under the root by 2.4 thousandths.
#[test]
fn a_scooped_face_is_a_quarter_of_a_circle() {
    let points = line(FaceShape::Scooped);
    assert_eq!((points[0], points[1], points[points.len() - 1]), ((0, 1000), (150, 1000), (1000, 0)));
    assert!(points.len() >= 20 && points.windows(2).all(|pair| pair[0].0 < pair[1].0));
    for (across, up) in points.into_iter().skip(1) {
        let (left, fall) = ((1000 - across) * 1000 / 850, 1000 - up);
        let off = fall * fall - (1_000_000 - left * left);
        assert!(off.abs() <= 4_500, "{across}, {up}: {off}");
    }
}

/// A third of the face, but at most four fifths of what stands before the rabbet. On paper.
#[test]
fn how_deep_a_face_falls() {
    let frame = |shape, face, depth, rabbet_depth| {
        relief(&Frame {
            shape,
            face: length(face),
            depth: length(depth),
            rabbet_depth: length(rabbet_depth),
            ..Frame::starting()
        })
    };
    assert_eq!(frame(FaceShape::Rounded, "3/4", "1 1/8", "5/8"), length("1/4"), "4/5 of 1/2 is more");
    assert_eq!(frame(FaceShape::Rounded, "3", "1", "3/4"), length("1/5"), "4/5 of 1/4");
    assert_eq!(frame(FaceShape::Bevelled, "3", "3/4", "3/4"), Length::ZERO);
    assert_eq!(frame(FaceShape::Flat, "3/4", "1 1/8", "5/8"), Length::ZERO);
}
