//! The section: a cut through the bottom of a piece, upright and across the wall, with every layer to scale.
//!
//! The frame of reference: x from the wall towards the viewer, y up from the lower edge of the outside. Where the board
//! between the frame and the opening is long, a part of it that is everywhere alike is left out at a break; everything
//! else is to scale. Paper and canvas are drawn as thick as a line: at a quarter of a millimetre they could not be seen.

use crate::colour::Colour;
use crate::figures::Figures;
use crate::framing::face::{line, relief};
use crate::framing::stack::{StackLayer, StackPart};
use crate::framing::{BuildUp, FLOAT_BLOCK, FrameSizes, MatSizes, floater_recess};
use crate::geometry::{Point, Rect, Size};
use crate::length::Length;
use crate::measure::{Grade, shown, shown_size};
use crate::plan::{
    Aluminium, Arrangement, Canvas, Edge, Finish, Floater, Frame, Framing, Material, OpeningRule, Original,
    Plan, Units,
};
use crate::stock::BAR_WIDTH;
use crate::terms::Term;
use crate::words::in_units;

/// A cut through a piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// What is shown.
    pub bounds: Rect,
    /// What is cut, from the back to the front.
    pub parts: Vec<CutPart>,
    /// Where a part is left out, if one is: a point on the front of the package, at its height on the drawing.
    pub left_out: Option<Point>,
    /// What the parts are, from the front to the back.
    pub notes: Vec<Note>,
    /// What is named only where its term is explained: elsewhere it would crowd what matters more.
    pub of_terms: Vec<Note>,
    /// Depths along x, from below the piece downwards.
    pub depths: Vec<Depth>,
}

/// Something that is cut: a polygon.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutPart {
    /// Its corners.
    pub corners: Vec<Point>,
    /// What it is made of.
    pub substance: Substance,
}

/// What a cut part is made of: how its cut face is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Substance {
    /// The wall.
    Wall,
    /// Wood or metal of a moulding, in its colour.
    Moulding(Colour),
    /// Bare wood: bars, spacers, blocks.
    Wood,
    /// Glass or acrylic.
    Glazing,
    /// A mat in its colour, with a white core.
    Mat(Colour),
    /// Board, foam or fluted.
    Board(Material),
    /// Paper or canvas, as a line.
    Sheet,
    /// Metal sheet.
    Metal,
}

/// What a part is, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// A point on the part.
    pub at: Point,
    /// Its name and thickness.
    pub text: String,
    /// The term that it shows, if it shows one.
    pub term: Option<Term>,
}

/// A depth with its figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Depth {
    /// From here.
    pub from: Length,
    /// To here.
    pub to: Length,
    /// What it is, with its figure.
    pub text: String,
    /// The term that it shows, if it shows one.
    pub term: Option<Term>,
}

/// How thick paper and canvas are drawn.
const SHEET: Length = Length::micrometres(350);
/// What is shown below the outside, and of the wall.
const AROUND: Length = Length::inches_ratio(5, 16);
/// What is shown above the bottom of what is seen.
const ABOVE: Length = Length::inches(1);
/// What of a board is shown on both sides of a break.
const BESIDE_BREAK: Length = Length::inches_ratio(5, 8);

/// Cuts through a piece of the plan; `None` when it has no such piece.
///
/// In a shared frame, frame and mat are those of the first piece, and the bottom of a column is below its last one.
#[must_use]
pub fn section(plan: &Plan, figures: &Figures, piece: usize) -> Option<Section> {
    let mut stated = plan.pieces.get(piece)?;
    let mut sizes = figures.build_ups.get(piece)?;
    let mut framed = stated;
    if plan.shared.is_some() {
        framed = plan.pieces.first()?;
        if plan.group.arrangement == Arrangement::Column {
            (stated, sizes) = (plan.pieces.last()?, figures.build_ups.last()?);
        }
    }
    let framing = framed.finish.framing();
    let mut cut = Cutting::new(&stated.finish, framing, sizes, plan.units);
    match (&stated.finish, framing) {
        (Finish::Canvas(canvas), _) => cut.canvas(canvas),
        (Finish::Aluminium(sheet), _) => cut.metal(sheet),
        (Finish::Original(Original { floater: Some(floater), .. }), _) => cut.floated(floater),
        (finish, Some(framing)) => cut.package(finish, framing),
        (_, None) => {}
    }
    Some(cut.finish())
}

impl Section {
    /// The same cut with nothing named but what shows a term; `None` where nothing in it does.
    #[must_use]
    pub fn of_term(mut self, term: Term) -> Option<Self> {
        self.notes.append(&mut self.of_terms);
        self.notes.retain(|note| note.term == Some(term));
        self.depths.retain(|depth| depth.term == Some(term));
        (!self.notes.is_empty() || !self.depths.is_empty()).then_some(self)
    }

    /// The section in words for those who don't see it: its parts from the top down, and the depths.
    #[must_use]
    pub fn in_words(&self) -> String {
        let mut notes: Vec<&Note> = self.notes.iter().collect();
        crate::order::sort_by_key(&mut notes, |note| std::cmp::Reverse(note.at.y));
        let notes = notes.iter().map(|note| note.text.as_str());
        let texts: Vec<&str> = notes.chain(self.depths.iter().map(|depth| depth.text.as_str())).collect();
        format!("A cut through the bottom, from the wall to the front: {}.", texts.join("; "))
    }
}

/// A section in the making.
struct Cutting<'a> {
    sizes: &'a BuildUp,
    units: Units,
    /// The upper edge of what is shown, before the break.
    top: Length,
    /// What is shown above the bottom of what is seen.
    above: Length,
    /// What the break leaves out: from a height, so much.
    gap: Option<(Length, Length)>,
    /// The front of the package.
    front: Length,
    parts: Vec<CutPart>,
    notes: Vec<Note>,
    of_terms: Vec<Note>,
    depths: Vec<Depth>,
    /// The term that the next note or depth shows.
    term: Option<Term>,
}

impl<'a> Cutting<'a> {
    fn new(finish: &Finish, framing: Option<&Framing>, sizes: &'a BuildUp, units: Units) -> Self {
        // From the bottom up: the frame, the mat's border, and something of what is seen, but not beyond its middle.
        let face =
            framing.and_then(|framing| framing.frame.as_ref()).map_or(Length::ZERO, |frame| frame.face);
        let seen = sizes.mat.as_ref().map_or(face, |mat| mat.opening.y).max(sizes.sheet.y);
        let end = sizes.sheet.top().min(sizes.window.top());
        let wanted = match finish {
            Finish::Canvas(_) => BAR_WIDTH + ABOVE,
            Finish::Aluminium(sheet) => behind_metal(sheet, sizes.outside).top() + ABOVE.half(),
            Finish::Paper(_) | Finish::Original(_) => ABOVE,
        };
        let above = wanted.min((end - seen).half()).max(Length::ZERO);
        Self {
            sizes,
            units,
            top: seen + above,
            above,
            gap: sizes.mat.as_ref().zip(framing).and_then(|(cut, framing)| gap(sizes, cut, framing)),
            front: Length::ZERO,
            parts: Vec::new(),
            notes: Vec::new(),
            of_terms: Vec::new(),
            depths: Vec::new(),
            term: None,
        }
    }

    /// What is named next shows this term.
    fn shows(&mut self, term: Term) -> &mut Self {
        self.term = Some(term);
        self
    }

    /// A height on the drawing, where the break leaves something out.
    fn drawn(&self, y: Length) -> Length {
        match self.gap {
            Some((from, left_out)) if y > from => (y - left_out).max(from),
            _ => y,
        }
    }

    fn polygon(&mut self, substance: Substance, corners: &[(Length, Length)]) {
        let corners = corners.iter().map(|&(x, y)| Point::new(x, self.drawn(y))).collect();
        self.parts.push(CutPart { corners, substance });
    }

    fn block(&mut self, substance: Substance, [left, right]: [Length; 2], [bottom, top]: [Length; 2]) {
        if right > left && top > bottom {
            self.polygon(substance, &[(left, bottom), (right, bottom), (right, top), (left, top)]);
        }
    }

    /// A block and its name, with the name's point in the middle of its thickness; nothing where there is no block.
    fn named(
        &mut self,
        substance: Substance,
        [left, right]: [Length; 2],
        [bottom, top]: [Length; 2],
        y: Length,
        text: String,
    ) {
        if right > left && top > bottom {
            self.block(substance, [left, right], [bottom, top]);
            self.note(left + (right - left).half(), y, text);
        }
    }

    fn note(&mut self, x: Length, y: Length, text: impl Into<String>) {
        let (at, term) = (Point::new(x, self.drawn(y)), self.term.take());
        self.notes.push(Note { at, text: text.into(), term });
    }

    /// A note that stands only where its term is explained.
    fn explain(&mut self, term: Term, (x, y): (Length, Length), text: String) {
        self.of_terms.push(Note { at: Point::new(x, self.drawn(y)), text, term: Some(term) });
    }

    fn thin(&self, length: Length) -> String {
        shown(length, Grade::Fine, self.units)
    }

    fn depth(&mut self, from: Length, to: Length, what: &str) {
        if to > from {
            let text = format!("{what} {}", self.thin(to - from));
            let term = self.term.take();
            self.depths.push(Depth { from, to, text, term });
        }
    }

    fn finish(mut self) -> Section {
        let bounds = Rect::new(
            -AROUND,
            -AROUND,
            Size::new(self.sizes.depth + AROUND * 2, self.drawn(self.top) + AROUND),
        );
        self.term = None;
        self.depth(Length::ZERO, self.sizes.depth, "depth");
        let wall = [(-AROUND, -AROUND), (Length::ZERO, -AROUND)];
        let top = self.top;
        self.polygon(Substance::Wall, &[wall[0], wall[1], (Length::ZERO, top), (-AROUND, top)]);
        self.parts.rotate_right(1);
        Section {
            bounds,
            left_out: self.gap.map(|(from, _)| Point::new(self.front, from)),
            parts: self.parts,
            notes: self.notes,
            of_terms: self.of_terms,
            depths: self.depths,
        }
    }

    /// A work behind a mat, in a frame, or hung as it is.
    fn package(&mut self, finish: &Finish, framing: &Framing) {
        let sizes = self.sizes;
        let thick = sizes.stack.thickness();
        // The package's front: against the lip, or at the front of what has no frame.
        let (front, foot) = match (&framing.frame, &sizes.frame) {
            (Some(frame), Some(cut)) => {
                let back = (-cut.spare_depth).max(Length::ZERO);
                let rabbet = self.moulding(frame, cut, back);
                (rabbet, frame.face - cut.lip_hides)
            }
            _ => (thick, Length::ZERO),
        };
        self.front = front;
        let mut x = front;
        let mut sheet_done = false;
        for layer in &sizes.stack.layers {
            let behind_the_sheet = matches!(layer.part, StackPart::Mount(_) | StackPart::Backing(_));
            if behind_the_sheet && !sheet_done {
                self.shown_before(x, finish, framing);
                sheet_done = true;
            }
            self.layer(layer, x, foot, framing);
            x -= layer.thickness;
        }
        if !sheet_done {
            self.shown_before(x, finish, framing);
        }
        if let Some(cut) = &sizes.frame {
            let free = cut.spare_depth;
            let at = foot + Length::inches_ratio(1, 2).min((self.top - foot).half());
            if free > Length::ZERO {
                self.note(
                    x - free.half(),
                    at,
                    format!("left in the {} {}", in_units("rabbet", self.units.first), self.thin(free)),
                );
            } else if free < Length::ZERO {
                // On the layer that is farthest back.
                let last = sizes.stack.layers.last().map_or(Length::ZERO, |layer| layer.thickness);
                self.note(x + last.min(-free).half(), at, format!("proud by {}", self.thin(-free)));
            }
            self.depth(x, front, "package");
            self.allowance(framing, foot, [x, front]);
        }
    }

    /// The gap between the bottom of the rabbet and that of the package, which is in the middle of its allowance.
    fn allowance(&mut self, framing: &Framing, foot: Length, [back, front]: [Length; 2]) {
        let Some(frame) = &framing.frame else { return };
        let bottom = frame.face - frame.rabbet_width;
        if foot > bottom && front > back {
            let at = (back + (front - back).half(), bottom + (foot - bottom).half());
            let text = format!("allowance {}, half of it here", self.thin(frame.allowance));
            self.explain(Term::Allowance, at, text);
        }
    }

    /// What lies before the mount board and is no layer of its own: paper, or an original that floats in the mat's opening.
    fn shown_before(&mut self, x: Length, finish: &Finish, framing: &Framing) {
        let floats = framing.mat.as_ref().is_some_and(|mat| matches!(mat.opening, OpeningRule::Float(_)));
        match finish {
            Finish::Paper(_) => self.sheet(x),
            Finish::Original(original) if floats => {
                let bottom = self.sizes.sheet.y;
                self.block(Substance::Wood, [x, x + original.depth], [bottom, self.top]);
                let text = format!("the original {}", self.thin(original.depth));
                self.note(x + original.depth.half(), bottom + (self.top - bottom).half(), text);
            }
            _ => {}
        }
    }

    /// The bottom leg of a frame whose back is so far off the wall: a rebated bar. Returns where its lip begins.
    fn moulding(&mut self, frame: &Frame, cut: &FrameSizes, back: Length) -> Length {
        let front = back + frame.depth;
        let rabbet = back + frame.rabbet_depth.min(frame.depth);
        let wall_of_rabbet = frame.face - frame.rabbet_width;
        let zero = Length::ZERO;
        // Up the front along the shape of the face, and back round the rabbet.
        let fall = relief(frame);
        let face = line(frame.shape).into_iter().map(|(across, up)| {
            (front - fall.times_ratio(1000 - up, 1000), frame.face.times_ratio(across, 1000))
        });
        let mut corners = vec![(back, zero)];
        corners.extend(face);
        corners.extend([(rabbet, frame.face), (rabbet, wall_of_rabbet), (back, wall_of_rabbet)]);
        self.polygon(Substance::Moulding(frame.colour), &corners);
        let size = shown_size(Size::new(frame.face, frame.depth), self.units);
        let text = format!("moulding in {}, {size}", frame.material.name());
        // In the thinnest part of the lip, whatever the shape of the face.
        let lip = rabbet + (front - fall - rabbet).half();
        // Where the rabbet is as wide as the face there is nothing but the lip.
        let at = if wall_of_rabbet > zero {
            (lip, wall_of_rabbet.half())
        } else {
            (lip, frame.face.half().half())
        };
        self.shows(Term::Moulding).note(at.0, at.1, text);
        if cut.lip_hides > zero {
            let text = format!("lip hides {}", self.thin(cut.lip_hides));
            self.note(lip, frame.face - frame.rabbet_width.half().half(), text);
        }
        let step = in_units("rabbet", self.units.first);
        self.shows(Term::Rabbet).depth(back, rabbet, &step);
        rabbet
    }

    /// A layer whose front is at `front` and whose foot is at `foot`.
    fn layer(&mut self, layer: &StackLayer, front: Length, foot: Length, framing: &Framing) {
        let back = front - layer.thickness;
        let middle = back + layer.thickness.half();
        let top = self.top;
        let text = |cutting: &Self, name: &str| format!("{name} {}", cutting.thin(layer.thickness));
        match layer.part {
            StackPart::Mat | StackPart::InnerMat => {
                let (Some(mat), Some(cut)) = (&framing.mat, &self.sizes.mat) else { return };
                let hole = if layer.part == StackPart::Mat { cut.upper_opening } else { cut.opening };
                // The bevel slopes from the smaller hole at the back to the larger one at the face.
                let (edge, face) = (hole.y, hole.y - mat.thickness);
                self.polygon(
                    Substance::Mat(mat.colour),
                    &[(back, foot), (front, foot), (front, face), (back, edge)],
                );
                let name = if layer.part == StackPart::Mat { "mat" } else { "bottom mat" };
                // Not so low that it would be below a narrow board.
                let low = BESIDE_BREAK.half().min((face - foot).half());
                let term = if layer.part == StackPart::Mat { Term::Mat } else { Term::BottomMat };
                let named = text(self, name);
                self.shows(term).note(middle, face - low, named);
                if layer.part == StackPart::Mat {
                    self.shows(Term::MatOpening).note(middle, face + mat.thickness.half(), "bevel, 45°");
                }
            }
            StackPart::Spacer => {
                // As high as the lip hides it.
                let hidden = self.sizes.frame.as_ref().map(|cut| cut.lip_hides);
                let most = hidden.filter(|&hides| hides > Length::ZERO).unwrap_or(layer.thickness);
                self.block(Substance::Wood, [back, front], [foot, foot + most]);
                let named = text(self, "spacer");
                self.shows(Term::Spacer).note(middle, foot + most.half(), named);
            }
            StackPart::Glazing(material) => {
                self.block(Substance::Glazing, [back, front], [foot, top]);
                let (y, named) = (top - self.above.half().half(), text(self, material.name()));
                self.shows(Term::Glazing).note(middle, y, named);
            }
            StackPart::Work => {
                let bottom = self.sizes.sheet.y;
                self.block(Substance::Wood, [back, front], [bottom, top]);
                self.note(middle, top - self.above.half(), text(self, "the original"));
            }
            StackPart::Mount(material) | StackPart::Backing(material) => {
                self.block(Substance::Board(material), [back, front], [foot, top]);
                let name =
                    if matches!(layer.part, StackPart::Mount(_)) { "mount board:" } else { "backing:" };
                let lower = if matches!(layer.part, StackPart::Mount(_)) { 5 } else { 7 };
                let at = top - self.above.times_ratio(lower, 8);
                let named = text(self, &format!("{name} {}", material.name()));
                let is_mount = matches!(layer.part, StackPart::Mount(_));
                self.shows(if is_mount { Term::MountBoard } else { Term::Backing }).note(middle, at, named);
            }
            StackPart::StandOff => {}
        }
    }

    /// The paper, a line in front of what is behind it.
    fn sheet(&mut self, x: Length) {
        let (bottom, y) = (self.sizes.sheet.y, self.top - self.above.times_ratio(3, 8));
        self.named(Substance::Sheet, [x, x + SHEET], [bottom, self.top], y, "print".to_owned());
    }

    /// A canvas round its bars, alone or in a floater frame.
    fn canvas(&mut self, canvas: &Canvas) {
        let (foot, top) = (self.sizes.sheet.y, self.top);
        let bar = (foot + BAR_WIDTH).min(top);
        let back = canvas.floater.as_ref().map_or(Length::ZERO, |stated| self.floater(stated, canvas.depth));
        let face = back + canvas.depth.max(SHEET);
        let text = format!("bar, {} deep", self.thin(canvas.depth));
        let y = foot + (bar - foot).times_ratio(4, 5);
        self.shows(Term::Bars).named(Substance::Wood, [back, back + canvas.depth], [foot, bar], y, text);
        self.term = None;
        let y = top - (top - foot).times_ratio(1, 9);
        self.named(Substance::Sheet, [face - SHEET, face], [foot, top], y, "face of the canvas".to_owned());
        let edge = match canvas.edge {
            Edge::Carried => "edge: image wrapped round",
            Edge::Mirrored => "edge: mirrored wrap",
            Edge::Plain(_) => "edge: solid",
        };
        let y = foot + SHEET.half();
        self.shows(Term::Edge).named(
            Substance::Sheet,
            [back, face],
            [foot, foot + SHEET],
            y,
            edge.to_owned(),
        );
        self.term = None;
        let end = (foot + canvas.fold).min(top);
        self.block(Substance::Sheet, [back, back + SHEET], [foot, end]);
        if canvas.fold > Length::ZERO {
            let at = (back + SHEET.half(), foot + (end - foot).half());
            let text = format!("staple margin {}", self.thin(canvas.fold));
            self.explain(Term::StapleMargin, at, text);
        }
        if canvas.floater.is_some() {
            self.depth(back, face, "bars");
        }
    }

    /// An original in a floater frame.
    fn floated(&mut self, floater: &Floater) {
        let (bottom, thick) = (self.sizes.sheet.y, self.sizes.stack.thickness());
        let back = self.floater(floater, thick);
        let (y, text) = (self.top - self.above.half(), format!("the original {}", self.thin(thick)));
        self.named(Substance::Wood, [back, back + thick], [bottom, self.top], y, text);
    }

    /// A floater frame: an upright side, and a ledge behind what stands in it. Returns how far off the wall that is.
    fn floater(&mut self, floater: &Floater, thickness: Length) -> Length {
        let foot = self.sizes.sheet.y;
        let back = (floater.depth - thickness - floater_recess(floater, thickness)).max(Length::ZERO);
        let ledge = (foot + BESIDE_BREAK).min(self.top);
        let zero = Length::ZERO;
        self.polygon(
            Substance::Moulding(floater.colour),
            &[
                (zero, zero),
                (floater.depth, zero),
                (floater.depth, floater.face),
                (back, floater.face),
                (back, ledge),
                (zero, ledge),
            ],
        );
        let at = floater.depth - floater.depth.half().half();
        let named = format!("floater frame, face {}", self.thin(floater.face));
        self.shows(Term::Floater).note(at, floater.face.half(), named);
        if floater.gap > zero {
            let text = format!("gap {}", self.thin(floater.gap));
            self.note(back + thickness.half(), foot - floater.gap.half(), text);
        }
        back
    }

    /// A metal sheet on blocks, or on a frame of bars.
    fn metal(&mut self, sheet: &Aluminium) {
        let zero = Length::ZERO;
        let (back, front) = (sheet.stand_off, sheet.stand_off + sheet.thickness);
        let text = format!("aluminium sheet {}", self.thin(sheet.thickness));
        let y = self.top - ABOVE.half().min(self.above).half();
        self.named(Substance::Metal, [back, front], [zero, self.top], y, text);
        let name = if sheet.sub_frame.is_some() { "bar of the sub-frame" } else { "float block" };
        let bar = behind_metal(sheet, self.sizes.outside);
        let (end, text) = (bar.top().min(self.top), format!("{name}, {} deep", self.thin(back)));
        let term = if sheet.sub_frame.is_some() { Term::SubFrame } else { Term::StandOff };
        self.shows(term).named(
            Substance::Wood,
            [zero, back],
            [bar.y, end],
            bar.y + (end - bar.y).half(),
            text,
        );
        self.term = None;
        self.shows(Term::StandOff).depth(zero, back, "stand-off");
    }
}

/// The lowest bar or block behind a metal sheet. On a small sheet a block is nearer to the edge.
fn behind_metal(sheet: &Aluminium, outside: Size) -> Rect {
    let lowest =
        |from_edges: Length, side: Length| Rect::new(Length::ZERO, from_edges, Size::new(side, side));
    match sheet.sub_frame {
        Some(bars) => lowest(bars.from_edges, bars.width),
        None => {
            let Rect { y, size, .. } = FLOAT_BLOCK;
            lowest(y.min(outside.height.half() - size.height).max(Length::ZERO), size.height)
        }
    }
}

/// What is left out below an opening: from a height, so much. Between two heights at which something begins or ends all is
/// alike; the largest such part is left out, but for what is kept beside the break.
fn gap(sizes: &BuildUp, cut: &MatSizes, framing: &Framing) -> Option<(Length, Length)> {
    let thickness = framing.mat.as_ref()?.thickness;
    let face = framing.frame.as_ref().map_or(Length::ZERO, |frame| frame.face);
    let opening = cut.opening.y;
    let upper = cut.upper_opening.y;
    let mut heights = vec![face, sizes.sheet.y, upper - thickness, upper, opening - thickness, opening];
    heights.retain(|height| (face..=opening).contains(height));
    crate::order::sort(&mut heights);
    let alike = heights.windows(2).map(|pair| (pair[0], pair[1]));
    let (from, to) = alike.max_by_key(|&(from, to)| to - from)?;
    // Above the break more of it is kept, for the notes on the mat.
    let (from, to) = (from + BESIDE_BREAK, to - BESIDE_BREAK - Length::inches_ratio(3, 16));
    (to - from > BESIDE_BREAK.half()).then_some((from, to - from))
}
