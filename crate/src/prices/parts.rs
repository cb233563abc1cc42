//! What of a thing that hangs may have a price, and by which names a row may be only for it.

use super::{Book, PricedPart};
use crate::figures::Figures;
use crate::framing::BuildUp;
use crate::geometry::Size;
use crate::length::Length;
use crate::making::Thing;
use crate::plan::{Edge, Finish, Framing, Glazing, Picture, Plan};
use crate::stock::{self, Profile, Stock};

/// One thing of which a part may have a price.
#[derive(PartialEq)]
pub(super) struct Priced {
    pub(super) part: PricedPart,
    /// Its own name in a line; empty for none.
    pub(super) of: String,
    /// The names by which a row may be only for it.
    pub(super) only: Vec<String>,
    pub(super) size: Size,
    pub(super) moulding: Length,
}

/// Parts as they are gathered.
struct Gathered {
    found: Vec<Priced>,
    moulding: Length,
}

impl Gathered {
    fn add(&mut self, part: PricedPart, only: Vec<String>, size: Size) {
        self.found.push(Priced { part, of: String::new(), only, size, moulding: self.moulding });
    }

    fn named(&mut self, part: PricedPart, of: &str, only: Vec<String>, size: Size) {
        self.found.push(Priced { part, of: of.to_owned(), only, size, moulding: self.moulding });
    }
}

/// By which names the original of a picture may be priced: its title, its file, and that without its ending.
fn names_of(picture: &Picture) -> Vec<String> {
    let stem = picture.file.rsplit_once('.').map_or(picture.file.as_str(), |(stem, _)| stem);
    [picture.name.as_str(), &picture.file, stem].map(str::to_owned).into()
}

/// What of a thing may have a price.
pub(super) fn parts(
    plan: &Plan,
    figures: &Figures,
    stock: &Stock,
    book: &Book,
    thing: &Thing,
) -> Vec<Priced> {
    let moulding = thing.rails.map_or(Length::ZERO, |(_, moulding)| moulding.by_rule);
    let mut gathered = Gathered { found: Vec::new(), moulding };
    for &piece in &thing.pieces {
        let (stated, sizes) = (&plan.pieces[piece], &figures.build_ups[piece]);
        match &stated.finish {
            Finish::Paper(_) => gathered.add(PricedPart::Paper, Vec::new(), sizes.sheet.size),
            Finish::Canvas(canvas) => {
                gathered.add(PricedPart::Canvas, Vec::new(), sizes.image.size);
                let (edge, only) = match canvas.edge {
                    Edge::Carried => (PricedPart::EdgeCarried, Vec::new()),
                    Edge::Mirrored => (PricedPart::EdgeMirrored, Vec::new()),
                    Edge::Plain(colour) => {
                        (PricedPart::EdgePlain, vec![stock::name_of(&stock::EDGES, colour)])
                    }
                };
                gathered.add(edge, only, sizes.image.size);
            }
            Finish::Aluminium(_) => gathered.add(PricedPart::Aluminium, Vec::new(), sizes.image.size),
            Finish::Original(_) => {
                let picture = plan.split.map(|split| split.picture).or(stated.picture);
                let picture = picture.map(|picture| &plan.pictures[picture]);
                let of = picture.map_or("", |picture| &picture.name);
                let only = picture.map_or_else(Vec::new, names_of);
                gathered.named(PricedPart::Original, of, only, sizes.image.size);
            }
        }
        for (_, name) in book.waiting().into_iter().filter(|(part, _)| *part == PricedPart::Extra) {
            if book.asked.iter().any(|asked| asked == name) {
                gathered.named(PricedPart::Extra, name, vec![name.to_owned()], sizes.image.size);
            }
        }
    }
    let (first, sizes) = (&plan.pieces[thing.pieces[0]], &figures.build_ups[thing.pieces[0]]);
    if let Some(framing) = first.finish.framing() {
        framed(&mut gathered, stock, framing, sizes);
    }
    if let Some(floater) = first.finish.floater() {
        let rows = stock.mouldings.iter().filter(|row| row.is_of_floater(floater));
        gathered.add(PricedPart::Floater, rows.flat_map(Profile::names).collect(), sizes.outside);
    }
    for part in [PricedPart::Handling, PricedPart::Packing, PricedPart::Shipping, PricedPart::Hanging] {
        gathered.add(part, book.asked.clone(), sizes.outside);
    }
    gathered.found
}

/// Mat, frame, glazing and boards. Boards and glazing are as large as what goes into the frame.
fn framed(gathered: &mut Gathered, stock: &Stock, framing: &Framing, sizes: &BuildUp) {
    let inside = sizes.frame.as_ref().map(|frame| frame.nominal);
    let inside = inside.or(sizes.mat.as_ref().map(|mat| mat.board.size)).unwrap_or(sizes.sheet.size);
    if let Some(mat) = &framing.mat {
        gathered.add(PricedPart::Mat, vec![stock::name_of(&stock::MATS, mat.colour)], inside);
    }
    if let Some(frame) = &framing.frame {
        let rows = stock.mouldings.iter().filter(|row| row.is_of_frame(frame));
        let names = rows.flat_map(Profile::names).chain([frame.material.name().to_owned()]);
        gathered.add(PricedPart::Frame, names.collect(), inside);
    }
    match framing.glazing {
        Glazing::None => {}
        Glazing::Glass(_) => gathered.add(PricedPart::Glass(framing.coating), Vec::new(), inside),
        Glazing::Acrylic(_) => gathered.add(PricedPart::Acrylic(framing.coating), Vec::new(), inside),
    }
    for (part, board) in [(PricedPart::Mount, framing.mount), (PricedPart::Backing, framing.backing)] {
        if let Some(board) = board {
            gathered.add(part, vec![board.material.name().to_owned()], inside);
        }
    }
}
