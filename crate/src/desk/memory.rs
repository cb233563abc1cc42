//! Memory: what was stated of a part that has been taken away, so that it comes back as it was when the part does. For as long
//! as the page is open; the plan itself has nothing of it.

use crate::plan::*;

/// The last of each thing that a piece has had.
#[derive(Clone, Debug, Default)]
struct PieceMemory {
    paper: Option<Paper>,
    canvas: Option<Canvas>,
    aluminium: Option<Aluminium>,
    original: Option<Original>,
    mat: Option<Mat>,
    /// A frame with the glazing before it.
    frame: Option<(Frame, Glazing)>,
    floater: Option<Floater>,
    sub_frame: Option<SubFrame>,
}

/// What is remembered of a plan's past.
#[derive(Clone, Debug, Default)]
pub(super) struct Memory {
    pieces: [PieceMemory; limits::PIECES],
    in_hand: Option<InHand>,
    space: Option<crate::geometry::Size>,
    shared: Option<Shared>,
}

impl Memory {
    /// Remembers what a plan has.
    pub(super) fn note(&mut self, plan: &Plan) {
        for (piece, memory) in plan.pieces.iter().zip(&mut self.pieces) {
            match &piece.finish {
                Finish::Paper(paper) => memory.paper = Some(paper.clone()),
                Finish::Canvas(canvas) => memory.canvas = Some(canvas.clone()),
                Finish::Aluminium(sheet) => memory.aluminium = Some(sheet.clone()),
                Finish::Original(original) => memory.original = Some(original.clone()),
            }
            if let Some(framing) = piece.finish.framing() {
                keep(&mut memory.mat, framing.mat.as_ref());
                keep(&mut memory.frame, framing.frame.clone().map(|frame| (frame, framing.glazing)).as_ref());
            }
            keep(&mut memory.floater, piece.finish.floater());
            if let Finish::Aluminium(sheet) = &piece.finish {
                keep(&mut memory.sub_frame, sheet.sub_frame.as_ref());
            }
        }
        keep(&mut self.in_hand, plan.in_hand.as_ref());
        keep(&mut self.space, plan.space.as_ref());
        keep(&mut self.shared, plan.shared.as_ref());
    }

    /// The plan after a change, in which what has come anew is as it was before it went.
    pub(super) fn recalled(&self, before: &Plan, after: &Plan) -> Plan {
        let mut plan = after.clone();
        for ((old, new), memory) in before.pieces.iter().zip(&mut plan.pieces).zip(&self.pieces) {
            recall_piece(old, new, memory);
        }
        if let (None, Some(new), Some(known)) = (before.in_hand, &mut plan.in_hand, self.in_hand) {
            *new = InHand { measured: new.measured, ..known };
        }
        if let (None, Some(new), Some(known)) = (before.space, &mut plan.space, self.space) {
            *new = known;
        }
        if let (None, Some(new), Some(known)) = (before.shared, &mut plan.shared, self.shared) {
            *new = known;
        }
        plan
    }
}

fn keep<T: Clone>(memory: &mut Option<T>, now: Option<&T>) {
    if let Some(now) = now {
        *memory = Some(now.clone());
    }
}

fn recall_piece(old: &Piece, new: &mut Piece, memory: &PieceMemory) {
    if std::mem::discriminant(&old.finish) != std::mem::discriminant(&new.finish) {
        let known = match &new.finish {
            Finish::Paper(_) => memory.paper.clone().map(Finish::Paper),
            Finish::Canvas(_) => memory.canvas.clone().map(Finish::Canvas),
            Finish::Aluminium(_) => memory.aluminium.clone().map(Finish::Aluminium),
            Finish::Original(_) => memory.original.clone().map(Finish::Original),
        };
        if let Some(known) = known {
            new.finish = known;
        }
        return;
    }
    if let (Some(before), Some(after)) = (old.finish.framing(), new.finish.framing_mut()) {
        if let (None, Some(mat), Some(known)) = (&before.mat, &mut after.mat, &memory.mat) {
            mat.clone_from(known);
        }
        if let (None, Some(frame), Some((known, glazing))) = (&before.frame, &mut after.frame, &memory.frame)
        {
            frame.clone_from(known);
            after.glazing = *glazing;
        }
    }
    let had = old.finish.floater().is_some();
    if let (false, Some(Some(floater)), Some(known)) = (had, new.finish.floater_mut(), &memory.floater) {
        floater.clone_from(known);
    }
    if let (Finish::Aluminium(before), Finish::Aluminium(after)) = (&old.finish, &mut new.finish)
        && let (None, Some(bars), Some(known)) = (before.sub_frame, &mut after.sub_frame, memory.sub_frame)
    {
        *bars = known;
    }
}
