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
    /// Pieces beside the first as they were, each with the name of its picture, and the first one beside them.
    beside: [Option<Beside>; limits::PIECES],
    split: Option<Over>,
}

/// A picture that was over several pieces.
#[derive(Clone, Debug)]
struct Over {
    split: Split,
    /// It, and the picture that the first piece had beneath it.
    picture: String,
    beneath: Option<String>,
}

/// A piece that was beside others.
#[derive(Clone, Debug)]
struct Beside {
    piece: Piece,
    /// Its picture by name: others may have come and gone.
    picture: Option<String>,
    /// How the first piece was made when it went.
    first: (Finish, crate::geometry::Size),
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
        let name = |picture: usize| plan.pictures.get(picture).map(|picture| picture.name.clone());
        let Some(first) = plan.pieces.first() else { return };
        for (piece, beside) in plan.pieces.iter().zip(&mut self.beside).skip(1) {
            let first = (first.finish.clone(), first.image);
            *beside = Some(Beside { piece: piece.clone(), picture: piece.picture.and_then(name), first });
        }
        if plan.pieces.len() > 1 {
            self.split = plan.split.and_then(|split| {
                let beneath = first.picture.and_then(name);
                Some(Over { split, picture: name(split.picture)?, beneath })
            });
        }
    }

    /// The plan after a change, in which what has come again is as it was before it went.
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
        self.recall_pieces(before, &mut plan);
        plan
    }

    /// Pieces that come back beside others are as they were; where the first has been made otherwise meanwhile, they are made as it is
    /// and show what they showed.
    fn recall_pieces(&self, before: &Plan, plan: &mut Plan) {
        let (had, has) = (before.pieces.len(), plan.pieces.len());
        let Some(first) = plan.pieces.first().cloned().filter(|_| has > had) else { return };
        let pictures = &plan.pictures;
        let find = |name: &String| pictures.iter().position(|picture| picture.name == *name);
        let over = self.split.as_ref().filter(|over| had == 1 && first.picture == find(&over.picture));
        for (piece, beside) in plan.pieces.iter_mut().zip(&self.beside).skip(had) {
            let Some(beside) = beside else { continue };
            if beside.first == (first.finish.clone(), first.image) {
                piece.clone_from(&beside.piece);
            }
            let picture = beside.picture.as_ref().and_then(find);
            piece.picture = picture.or(first.picture.filter(|_| over.is_none()));
            piece.focus = if picture.is_some() { beside.piece.focus } else { first.focus };
        }
        if let Some(Over { split, picture, beneath }) = over
            && let Some(picture) = find(picture)
        {
            plan.pieces[0].picture = beneath.as_ref().and_then(find);
            plan.split = Some(Split { picture, ..*split });
        }
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
