//! What fields are called: in a mistake, in a list of differences, and by whoever has the page read aloud.

/// What is called otherwise than its place in the plan reads. Of a piece or a fixture `*` is "piece 1" and so on; where there is
/// none, "of piece 1" follows.
const WORDS: [(&str, &str); 80] = [
    ("wall.finish", "plaster of the wall"),
    ("wall.floor", "floor"),
    ("wall.paint", "paint of the wall"),
    ("wall.skirting", "height of the skirting"),
    ("viewing.light", "light"),
    ("viewing.figure", "figure drawn for scale"),
    ("viewing.reflection", "reflection in the glazing"),
    ("viewing.eye_level", "eye level"),
    ("viewing.aside", "the viewer's way to the side"),
    ("viewing.side", "where the viewer stands"),
    ("fixtures.add", "something more that stands there"),
    ("fixture.across", "where * stands along the wall"),
    ("fixture.pictures", "whether pictures may hang above *"),
    ("fixture.distance", "distance of * from the corner"),
    ("fixture.from_floor", "height of * above the floor"),
    ("split.picture", "picture over all panels"),
    ("split.strips", "strip behind each gap"),
    ("split.focus", "what the panels keep of the picture"),
    ("pieces.count", "number of pieces"),
    ("pieces.share", "what each piece shows"),
    ("fineness", "pixels to the inch to be wished for"),
    ("in_hand.measured", "frame in hand"),
    ("in_hand.size", "size of the frame in hand"),
    ("in_hand.face", "face of the frame in hand"),
    ("in_hand.rabbet_width", "rabbet width of the frame in hand"),
    ("in_hand.allowance", "play in the frame in hand"),
    ("space", "space for the pictures"),
    ("space.size", "size of the space for the pictures"),
    ("shared", "a frame for each piece, or one for all"),
    ("shared.bar", "board between openings"),
    ("piece.focus", "what the crop of * keeps of the picture"),
    ("piece.paper.grammage", "paper weight"),
    ("piece.paper.extent", "way the paper is stated"),
    ("piece.paper.whole", "whole paper"),
    ("piece.paper.weighting", "weighting of the paper border"),
    ("piece.paper.foot", "paper border at the foot"),
    ("piece.mat.double", "single or double mat"),
    ("piece.mat.extent", "way the mat is stated"),
    ("piece.mat.whole", "whole mat"),
    ("piece.mat.weighting", "weighting of the mat border"),
    ("piece.mat.foot", "mat border at the foot"),
    ("piece.mat.opening", "how the mat opening lies"),
    ("piece.mat.by", "overlap or reveal of the mat opening"),
    ("piece.mat.inner", "reveal of the inner mat"),
    ("piece.mat.inner_colour", "colour of the inner mat"),
    ("piece.mat.thickness", "thickness of the mat board"),
    ("piece.spacer", "depth of the spacer"),
    ("piece.mount", "mount board"),
    ("piece.frame.profile", "moulding of the frame"),
    ("piece.frame.face", "face width of the frame"),
    ("piece.frame.shape", "face shape of the frame"),
    ("piece.frame.allowance", "play in the frame"),
    ("piece.canvas.grammage", "canvas weight"),
    ("piece.canvas.depth", "depth of the stretcher bars"),
    ("piece.canvas.edge_colour", "colour of the canvas edge"),
    ("piece.canvas.fold", "cloth folded behind the canvas"),
    ("piece.floater.profile", "moulding of the floater frame"),
    ("piece.aluminium.corner_radius", "corner radius of the sheet"),
    ("piece.aluminium.thickness", "thickness of the sheet"),
    ("piece.aluminium.stand_off", "distance of the sheet from the wall"),
    ("piece.aluminium.back", "back of the sheet"),
    ("group.left", "distance from the left corner to the group"),
    ("group.right", "distance from the group to the right corner"),
    ("group.centre", "height of the group's centre from the floor"),
    ("group.bottom", "height of the group's lower edge from the floor"),
    ("group.width", "width of the group"),
    ("group.middle", "distance from the left corner to the middle of the group"),
    ("group.gap", "gap between pieces"),
    ("group.clearance", "clearance below the group"),
    ("group.step", "rise from one piece to the next"),
    ("group.arrangement", "arrangement of the pieces"),
    ("group.align", "which edges are in line"),
    ("group.across", "place of the group along the wall"),
    ("group.up", "height by which the group hangs"),
    ("fixing.kind", "what the pieces hang by"),
    ("fixing.down", "hangers from the upper edge"),
    ("fixing.inset", "hangers from the sides"),
    ("fixing.slack", "wire longer than the span"),
    ("site.way", "home or public way"),
    ("site.signature.by", "room for the signature"),
];

/// What a field is, in words.
///
/// ```
/// use overmantel::fields::label;
/// assert_eq!(label("fixture.0.from_floor"), "height of fixture 1 above the floor");
/// assert_eq!(label("piece.all.frame.depth"), "frame depth of each piece");
/// ```
#[must_use]
pub fn label(field: &str) -> String {
    let path: Vec<&str> = field.split('.').collect();
    let number = |text: &str| text.parse::<usize>().map_or(0, |index| index + 1);
    let called = |field: &str| {
        let words = WORDS.iter().find(|(of, _)| *of == field).map(|(_, words)| (*words).to_owned());
        words.unwrap_or_else(|| {
            let plain = field.strip_prefix("piece.").or(field.strip_prefix("fixture.")).unwrap_or(field);
            plain.replace(['.', '_'], " ")
        })
    };
    match path[..] {
        ["split", part @ ("focus_across" | "focus_down")] => crop_label(part, "the picture"),
        ["piece", which, part @ ("focus_across" | "focus_down")] => {
            crop_label(part, &format!("the picture in piece {}", number(which)))
        }
        [kind @ ("piece" | "fixture"), index, ref rest @ ..] => {
            let whose = match index {
                "all" => "each piece".to_owned(),
                _ => format!("{kind} {}", number(index)),
            };
            let words = called(&[&[kind], rest].concat().join("."));
            if words.contains('*') { words.replace('*', &whose) } else { format!("{words} of {whose}") }
        }
        ["picture", index, "subject"] => format!("what matters in picture {}", number(index)),
        ["site", way @ ("door" | "stairs" | "car"), ref rest @ ..] => {
            [&["the way there,", way], rest].concat().join(" ").replace('_', " ")
        }
        _ => called(field),
    }
}

fn crop_label(part: &str, picture: &str) -> String {
    let from = if part == "focus_across" { "left edge" } else { "head" };
    format!("middle of the crop, from the {from} of {picture}")
}
