//! Where in a plan the lengths, sizes and numbers of a field are.

use super::*;

/// The pieces that a path names: `all`, or one by its number from 0.
pub(super) fn pieces<'a>(plan: &'a mut Plan, which: &str) -> Vec<&'a mut Piece> {
    match which {
        "all" => plan.pieces.iter_mut().collect(),
        number => match number.parse::<usize>() {
            Ok(index) => plan.pieces.get_mut(index).into_iter().collect(),
            Err(_) => Vec::new(),
        },
    }
}

/// Where in a plan the lengths of a field are, and how finely it is shown. `None` when the field is not a length that
/// is stated in this plan.
pub(super) fn lengths<'a>(plan: &'a mut Plan, path: &[&str]) -> Option<(Vec<&'a mut Length>, Grade)> {
    use Grade::{Fine, Piece, Room};
    Some(match path {
        ["wall", "width"] => (vec![&mut plan.wall.size.width], Room),
        ["wall", "height"] => (vec![&mut plan.wall.size.height], Room),
        ["wall", "skirting"] => (vec![&mut plan.wall.skirting], Piece),
        ["viewing", "distance"] => (vec![&mut plan.viewing.distance], Room),
        ["viewing", "eye_level"] => (vec![&mut plan.viewing.eye_level], Piece),
        ["viewing", "aside"] => match &mut plan.viewing.aside {
            Aside::Left(by) | Aside::Right(by) => (vec![by], Room),
            Aside::Straight => return None,
        },
        ["fixture", index, part] => {
            let fixture = plan.fixtures.get_mut(index.parse::<usize>().ok()?)?;
            match (*part, &mut fixture.across) {
                ("width", _) => (vec![&mut fixture.size.width], Room),
                ("height", _) => (vec![&mut fixture.size.height], Piece),
                ("depth", _) if fixture.kind.has_depth() => (vec![&mut fixture.depth], Piece),
                ("from_floor", _) => (vec![&mut fixture.from_floor], Piece),
                ("distance", Across::FromLeft(x) | Across::FromRight(x)) => (vec![x], Room),
                _ => return None,
            }
        }
        ["piece", which, rest @ ..] => {
            let grade = if rest.last() == Some(&"thickness") { Fine } else { Piece };
            let found: Vec<&mut Length> =
                pieces(plan, which).into_iter().filter_map(|piece| piece_length(piece, rest)).collect();
            if found.is_empty() {
                return None;
            }
            (found, grade)
        }
        ["site", "cornice"] => (vec![&mut plan.site.cornice], Piece),
        ["site", "signature", "by"] => match &mut plan.site.signature {
            Signature::Below(by) | Signature::Within(by) => (vec![by], Piece),
            Signature::None => return None,
        },
        ["group", "gap"] => (vec![&mut plan.group.gap], Piece),
        ["shared", "bar"] => (vec![&mut plan.shared.as_mut()?.bar], Piece),
        ["in_hand", part] => {
            let stated = plan.in_hand.as_mut()?;
            let length = match *part {
                "face" => &mut stated.face,
                "rabbet_width" => &mut stated.rabbet_width,
                "allowance" => &mut stated.allowance,
                _ => return None,
            };
            (vec![length], Piece)
        }
        ["group", "step"] => match &mut plan.group.arrangement {
            Arrangement::Stepped(rise) => (vec![rise], Piece),
            _ => return None,
        },
        ["group", "clearance"] => match &mut plan.group.up {
            GroupUp::Above { clearance, .. } => (vec![clearance], Piece),
            _ => return None,
        },
        ["fixing", part] => {
            let length = match (*part, &mut plan.fixing) {
                ("inset", Fixing::Rings { inset, .. } | Fixing::Wire { inset, .. }) => inset,
                ("down", Fixing::Rings { down, .. } | Fixing::Wire { down, .. }) => down,
                ("slack", Fixing::Wire { slack, .. }) => slack,
                ("apart", Fixing::Wire { hooks_apart: Some(apart), .. }) => apart,
                _ => return None,
            };
            (vec![length], Piece)
        }
        _ => return None,
    })
}

fn piece_length<'a>(piece: &'a mut Piece, rest: &[&str]) -> Option<&'a mut Length> {
    Some(match (rest, &mut piece.finish) {
        (["width"], _) => &mut piece.image.width,
        (["height"], _) => &mut piece.image.height,
        (["paper", part], Finish::Paper(paper)) => return surround_length(&mut paper.border, part),
        (["canvas", "depth"], Finish::Canvas(canvas)) => &mut canvas.depth,
        (["canvas", "fold"], Finish::Canvas(canvas)) => &mut canvas.fold,
        (["aluminium", "thickness"], Finish::Aluminium(sheet)) => &mut sheet.thickness,
        (["aluminium", "stand_off"], Finish::Aluminium(sheet)) => &mut sheet.stand_off,
        (["aluminium", "corner_radius"], Finish::Aluminium(sheet)) => &mut sheet.corner_radius,
        (["sub_frame", "inset"], Finish::Aluminium(sheet)) => &mut sheet.sub_frame.as_mut()?.inset,
        (["sub_frame", "width"], Finish::Aluminium(sheet)) => &mut sheet.sub_frame.as_mut()?.width,
        (["original", "depth"], Finish::Original(original)) => &mut original.depth,
        (["floater", part], finish) => {
            let floater = finish.floater_mut()?.as_mut()?;
            match *part {
                "gap" => &mut floater.gap,
                "face" => &mut floater.face,
                "depth" => &mut floater.depth,
                _ => return None,
            }
        }
        (rest, finish) => return framing_length(finish.framing_mut()?, rest),
    })
}

/// Where the lengths of a surround are.
fn surround_length<'a>(surround: &'a mut Surround, part: &str) -> Option<&'a mut Length> {
    match (part, &mut surround.extent, &mut surround.weighting) {
        ("border", Extent::Border(border), _) => Some(border),
        ("foot", _, Weighting::Extra(extra)) => Some(extra),
        _ => None,
    }
}

fn framing_length<'a>(framing: &'a mut Framing, rest: &[&str]) -> Option<&'a mut Length> {
    Some(match rest {
        ["mat", part] => {
            let mat = framing.mat.as_mut()?;
            match *part {
                "by" => match &mut mat.opening {
                    OpeningRule::Overlap(by) | OpeningRule::Reveal(by) | OpeningRule::Float(by) => by,
                },
                "inner" => mat.inner_reveal.as_mut()?,
                "thickness" => &mut mat.thickness,
                "board_width" | "board_height" => {
                    let Extent::Whole(board) = &mut mat.surround.extent else { return None };
                    if *part == "board_width" { &mut board.width } else { &mut board.height }
                }
                _ => return surround_length(&mut mat.surround, part),
            }
        }
        ["frame", part] => {
            let frame = framing.frame.as_mut()?;
            match *part {
                "face" => &mut frame.face,
                "rabbet_width" => &mut frame.rabbet_width,
                "rabbet_depth" => &mut frame.rabbet_depth,
                "depth" => &mut frame.depth,
                "allowance" => &mut frame.allowance,
                _ => return None,
            }
        }
        ["glazing", "thickness"] => match &mut framing.glazing {
            Glazing::Glass(thickness) | Glazing::Acrylic(thickness) => thickness,
            Glazing::None => return None,
        },
        ["spacer"] => &mut framing.spacer,
        ["mount", "thickness"] => &mut framing.mount.as_mut()?.thickness,
        ["backing", "thickness"] => &mut framing.backing.as_mut()?.thickness,
        _ => return None,
    })
}

/// Where in a plan the sizes of a field are; `None` when the field is not a size that is stated in this plan.
pub(super) fn sizes<'a>(plan: &'a mut Plan, path: &[&str]) -> Option<Vec<&'a mut Size>> {
    let found: Vec<&mut Size> = match path {
        ["in_hand", "size"] => plan.in_hand.as_mut().map(|stated| &mut stated.size).into_iter().collect(),
        ["site", way, "size"] => {
            let way = choice::way(way)?;
            plan.site.ways[way].as_mut().into_iter().collect()
        }
        ["space", "size"] => plan.space.as_mut().into_iter().collect(),
        ["piece", which, rest @ ..] => pieces(plan, which)
            .into_iter()
            .filter_map(|piece| match rest {
                ["image"] => Some(&mut piece.image),
                rest => match &mut surround(&mut piece.finish, rest, "whole")?.extent {
                    Extent::Whole(whole) => Some(whole),
                    Extent::Border(_) => None,
                },
            })
            .collect(),
        _ => return None,
    };
    (!found.is_empty()).then_some(found)
}

/// Where in a plan the whole numbers of a field are.
pub(super) fn numbers<'a>(plan: &'a mut Plan, path: &[&str]) -> Option<Vec<&'a mut u32>> {
    let found: Vec<&mut u32> = match path {
        ["fineness"] => vec![&mut plan.fineness],
        ["piece", which, made @ ("paper" | "canvas"), "grammage"] => pieces(plan, which)
            .into_iter()
            .filter_map(|piece| match (*made, &mut piece.finish) {
                ("paper", Finish::Paper(paper)) => Some(&mut paper.grammage),
                ("canvas", Finish::Canvas(canvas)) => Some(&mut canvas.grammage),
                _ => None,
            })
            .collect(),
        _ => return None,
    };
    (!found.is_empty()).then_some(found)
}

/// Where in a plan the middle of a crop is, in thousandths from the picture's left or from its head; not of a piece while all show
/// one picture.
pub(super) fn focuses<'a>(plan: &'a mut Plan, path: &[&str]) -> Option<Vec<&'a mut u16>> {
    let foci: Vec<&mut Focus> = match path {
        ["split", _] => plan.split.as_mut().map(|split| &mut split.focus).into_iter().collect(),
        ["piece", which, _] if plan.split.is_none() => {
            let found = pieces(plan, which).into_iter().filter(|piece| piece.picture.is_some());
            found.map(|piece| &mut piece.focus).collect()
        }
        _ => return None,
    };
    let found: Vec<&mut u16> = match path.last() {
        Some(&"focus_across") => foci.into_iter().map(|focus| &mut focus.x_permille).collect(),
        Some(&"focus_down") => foci.into_iter().map(|focus| &mut focus.y_permille).collect(),
        _ => return None,
    };
    (!found.is_empty()).then_some(found)
}

/// Where in a plan the ratios of foot to head of a field are.
pub(super) fn weightings<'a>(plan: &'a mut Plan, path: &[&str]) -> Option<Vec<&'a mut Weighting>> {
    let ["piece", which, rest @ ..] = path else { return None };
    let found: Vec<&mut Weighting> = pieces(plan, which)
        .into_iter()
        .filter_map(|piece| Some(&mut surround(&mut piece.finish, rest, "ratio")?.weighting))
        .filter(|weighting| matches!(weighting, Weighting::Ratio { .. }))
        .collect();
    (!found.is_empty()).then_some(found)
}

/// The surround that a path names, `paper` or `mat`, when the path ends as it has to.
fn surround<'a>(finish: &'a mut Finish, rest: &[&str], end: &str) -> Option<&'a mut Surround> {
    let [part, last] = rest else { return None };
    match (*part, finish) {
        _ if *last != end => None,
        ("paper", Finish::Paper(paper)) => Some(&mut paper.border),
        ("mat", finish) => Some(&mut finish.framing_mut()?.mat.as_mut()?.surround),
        _ => None,
    }
}
