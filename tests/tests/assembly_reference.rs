//! What may be off and where a lamp goes: worked out on paper from the sizes that stand beside it. That a mat is cut to 1/32 in and a lamp
//! shines 30° from the vertical is common practice, no source.

use overmantel::framing::build_up;
use overmantel::geometry::{Point, Rect, Size};
use overmantel::length::{Length, Unit};
use overmantel::picture_light::{InTheRoom, eye_of, lamp_from_wall, mirrored_area, mirrored_at};
use overmantel::plan::{Plan, ViewerOffset};
use overmantel::tolerances::{Measured, Tolerance, tolerances};
use overmantel_tests::given::{changed, length, length_in, size};

fn rows(changes: &[(&str, &str)]) -> Vec<Tolerance> {
    let plan = changed(Plan::starting(), changes);
    tolerances(&plan.pieces[0], &build_up(&plan.pieces[0]).expect("a piece"))
}

#[track_caller]
fn check(rows: &[Tolerance], part: &str, stated: Measured, smaller: Option<&str>, larger: Option<&str>) {
    let row = rows.iter().find(|row| row.part == part).unwrap_or_else(|| panic!("no {part}"));
    assert_eq!(row.stated, stated, "{part}");
    assert_eq!(row.smaller_by, smaller.map(length), "{part}, smaller");
    assert_eq!(row.larger_by, larger.map(length), "{part}, larger");
}

/// 16 × 20 in on a board of 20 × 24 under a mat that covers 1/8; a rabbet of 20 1/8 × 24 1/8 with 1/8 of allowance and a lip of 1/4.
#[test]
fn of_a_framed_print() {
    let rows = rows(&[]);
    // 2 × (1/8 - 1/32); up to the edge of the board 20 - 16.
    check(&rows, "sheet", Measured::Size(size("16x20")), Some("3/16"), Some("4"));
    // Pushed to one side it lies 1/4 - 1/8 behind the other lip.
    check(&rows, "mat, glazing and boards", Measured::Size(size("20x24")), Some("1/8"), Some("1/8"));
    check(&rows, "rabbet of the frame", Measured::Size(size("20 1/8 x 24 1/8")), Some("1/8"), Some("1/8"));
    // √(20.125² + 24.125²) = 31.41656…; 2 × 20.125 × 0.125 / that = 0.160147.
    let diagonals = rows.iter().find(|row| row.part == "diagonals of the rabbet").expect("diagonals");
    let by = diagonals.smaller_by.expect("a limit").to_mm() / 25.4;
    assert!((by - 0.160_147).abs() < 1e-5, "{by}");
    // 5/8 less the package of 2 mm + 1/16 + 1/16 + 3/16: 5/16 in - 2 mm.
    let package = rows.iter().find(|row| row.part == "package, front to back").expect("a package");
    assert_eq!(package.smaller_by, None);
    assert_eq!(package.larger_by, Some(Length::inches_ratio(5, 16) - Length::mm(2)));
}

/// 3/8 of the white shows, on paper with 1 in of it: the image may grow by 2 × (3/8 - 1/32) = 11/16, the sheet shrink by
/// 2 × (1 - 3/8 - 1/32) = 1 3/16.
#[test]
fn of_a_print_with_a_reveal() {
    let rows = rows(&[
        ("piece.all.paper.border", "1"),
        ("piece.all.mat.opening", "reveal"),
        ("piece.all.mat.by", "3/8"),
    ]);
    check(&rows, "image", Measured::Size(size("16x20")), None, Some("11/16"));
    let sheet = rows.iter().find(|row| row.part == "sheet").expect("a sheet");
    assert_eq!(sheet.smaller_by, Some(length("1 3/16")));
}

/// With a gap of 1/2 in round it a floated sheet may grow by 2 × (1/2 - 1/32).
#[test]
fn of_a_floated_print() {
    let rows = rows(&[("piece.all.mat.opening", "float"), ("piece.all.mat.by", "1/2")]);
    check(&rows, "sheet", Measured::Size(size("16x20")), None, Some("15/16"));
}

/// A mat that covers less than it is cut to takes nothing up; its board is 15 31/32 + 4 1/4 = 20 7/32 wide.
#[test]
fn of_a_mat_that_hardly_covers() {
    let rows = rows(&[("piece.all.mat.by", "1/64")]);
    check(&rows, "sheet", Measured::Size(size("16x20")), Some("0"), Some("4 7/32"));
}

#[test]
fn of_what_nothing_covers() {
    assert_eq!(rows(&[("piece.all.material", "canvas")]), []);
    assert_eq!(rows(&[("piece.all.material", "aluminium")]), []);
    let floated = rows(&[("piece.all.material", "canvas"), ("piece.all.floater", "yes")]);
    check(&floated, "canvas", Measured::Size(size("16x20")), Some("1/4"), Some("1/4"));
    let inside = Measured::Size(size("16.5x20.5"));
    check(&floated, "inside of the floater frame", inside, Some("1/4"), Some("1/4"));
}

/// tan 30° × (96 - 57 in) = 22.517 in (trigonometry); nothing for a centre at the ceiling.
#[test]
fn lamp_thirty_degrees_from_the_vertical() {
    let near = |ceiling, centre, expected: f64| {
        let found = lamp_from_wall(ceiling, centre).expect("room for a lamp").to_mm();
        assert!((found - expected).abs() < 0.0005, "{found}");
    };
    near(length("96"), length("57"), 571.923);
    near(Length::mm(2500), Length::mm(1500), 577.350);
    assert_eq!(lamp_from_wall(length("96"), length("96")), None);
    assert_eq!(lamp_from_wall(length("96"), length("97")), None);
}

/// The angle at which light falls on the mirror is that at which it is seen: (height of the light - point) / its distance is
/// (point - eye) / the eye's.
#[test]
fn mirror_image_of_a_light() {
    for (light, eye) in
        [([72, 96, 20], [72, 57, 108]), ([10, 90, 31], [140, 60, 77]), ([50, 40, 100], [60, 66, 25])]
    {
        let of = |[x, y, from_wall]: [i64; 3]| InTheRoom {
            at: Point::new(Length::inches(x), Length::inches(y)),
            from_wall: Length::inches(from_wall),
        };
        let (light, eye) = (of(light), of(eye));
        let at = mirrored_at(light, eye);
        let slope = |of: Length, to: Length, over: InTheRoom| (of - to).to_mm() / over.from_wall.to_mm();
        assert!((slope(light.at.y, at.y, light) + slope(eye.at.y, at.y, eye)).abs() < 1e-9);
        assert!((slope(light.at.x, at.x, light) + slope(eye.at.x, at.x, eye)).abs() < 1e-9);
    }
}

/// A mirror from 42 to 66 in up, seen from 57: at the eye's own distance it shows 2 × 42 - 57 = 27 to 2 × 66 - 57 = 75.
#[test]
fn what_the_glazing_mirrors() {
    let glass = Rect::new(length("60"), length("42"), Size::inches(24, 24));
    let eye = InTheRoom { at: Point::new(length("72"), length("57")), from_wall: length("108") };
    assert_eq!(mirrored_area(glass, eye), Rect::new(length("48"), length("27"), Size::inches(48, 48)));
    // Its edges are mirrored where they are: what is at the far edge of the area is seen at the edge of the glass.
    let corner = InTheRoom { at: Point::new(length("48"), length("27")), from_wall: length("108") };
    assert_eq!(mirrored_at(corner, eye), Point::new(length("60"), length("42")));
}

#[test]
fn the_eye_is_the_plans_viewer() {
    let mut plan = Plan::starting();
    let group = Rect::new(length("40"), length("42"), Size::inches(64, 24));
    plan.viewing.aside = ViewerOffset::Left(length_in("12", Unit::Inch));
    let eye = eye_of(&plan, group);
    assert_eq!(eye.at.x, length("60"), "40 + 32 - 12");
    assert_eq!((eye.at.y, eye.from_wall), (plan.viewing.eye_level, plan.viewing.distance));
}
