//! Light on what hangs: where a lamp goes, and what the glazing then mirrors.

use super::flow::{BODY, Flow, NOTE, Table};
use super::hanging::text;
use super::{Job, Said};
use crate::geometry::{Point, Rect};
use crate::picture_light::{InTheRoom, eye_of, lamp_from_wall, mirrored_area, mirrored_at};
use crate::plan::Glazing;

/// The glazing of a thing on the wall, of which this is the first piece; `None` where there is none, or one that hardly mirrors.
fn glazing(job: &Job<'_>, piece: usize) -> Option<Rect> {
    let framing = job.plan.pieces[piece].finish.framing()?;
    let is_mirror = framing.glazing != Glazing::None && !framing.coating.is_anti_reflective();
    let sizes = &job.figures.build_ups[piece];
    let seen = sizes.frame.as_ref().map_or(sizes.sheet, |frame| frame.sight);
    is_mirror.then(|| job.figures.on_wall(piece, seen))
}

/// Where a lamp goes for each thing, and what of it is mirrored for the viewer.
pub(super) fn light(job: &Job<'_>, flow: &mut Flow) {
    let (plan, arranged) = (job.plan, &job.figures.arranged);
    let ceiling = plan.wall.size.height;
    let eye = eye_of(plan, arranged.group);
    let together = if plan.shared.is_some() { plan.pieces.len() } else { 1 };
    let pieces: Vec<usize> = (0..plan.pieces.len()).step_by(together.max(1)).collect();
    let mut table = Table::new(&[
        "Piece",
        "Lamp from the left corner",
        "Lamp from the wall",
        "Its reflection, from the floor",
    ]);
    for &piece in &pieces {
        let centre = arranged.outsides[piece].centre();
        let Some(from_wall) = lamp_from_wall(ceiling, centre.y) else { continue };
        let lamp = InTheRoom { at: Point::new(centre.x, ceiling), from_wall };
        let at = mirrored_at(lamp, eye);
        let mirrored = match glazing(job, piece) {
            None => String::from("no glazing reflects it"),
            Some(glass) if glass.contains(at) => {
                [&text(job, at.y), ": in the glazing; move it to one side"].said()
            }
            Some(glass) if at.y > glass.top() => [&text(job, at.y), ": above the glazing"].said(),
            Some(_) => [&text(job, at.y), ": beside or below it"].said(),
        };
        let name =
            if pieces.len() == 1 { "the piece".into() } else { (piece / together.max(1) + 1).to_string() };
        table.rows.push(vec![name, text(job, centre.x), text(job, from_wall), mirrored]);
    }
    if table.rows.is_empty() {
        return;
    }
    flow.titled("Lighting", &table);
    let is_framed =
        job.figures.build_ups.iter().any(|sizes| sizes.frame.is_some() || sizes.floater_inside.is_some());
    let nearer = if is_framed {
        "the frame throws a shadow on the picture"
    } else {
        "its light rakes over the surface and shows every unevenness"
    };
    let is_glazed = pieces.iter().any(|&piece| glazing(job, piece).is_some());
    let farther = if is_glazed { "you see it in the glazing" } else { "it dazzles whoever stands there" };
    flow.text(BODY, &["Put a ceiling lamp at the distance from the wall where its beam hits the middle of the piece 30° from the vertical (common practice, no source). If it is nearer, ", nearer, "; if it is farther, ", farther, ". Prints and paintings fade: about 50 lux, without ultraviolet, and never direct sun (from memory). Leave electrical work to a licensed electrician."].said());
    let glass = pieces.iter().filter_map(|&piece| glazing(job, piece)).reduce(Rect::union);
    if let Some(glass) = glass {
        let seen = mirrored_area(glass, eye);
        flow.text(
            NOTE,
            &[
                "The reflection is where an eye ",
                &text(job, eye.at.y),
                " up and ",
                &text(job, eye.from_wall),
                " from the wall sees it. From there the glazing reflects whatever is as far from the wall as the viewer, between ",
                &text(job, seen.y),
                " and ",
                &text(job, seen.top()),
                " up, from ",
                &text(job, seen.x),
                " to ",
                &text(job, seen.right()),
                " along the wall: a bright window or lamp there will glare.",
            ]
            .said(),
        );
    }
}
