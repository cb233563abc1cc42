//! Terms that are explained with a cut: which have one, and what it points at.

use crate::pieces::{cut, print_in, usual, with_mat};
use overmantel::geometry::Size;
use overmantel::plan::{Aluminium, Canvas, Finish, Floater, Framing, SubFrame, System};
use overmantel::scene::section::Section;
use overmantel::terms::Term;
use overmantel_tests::given::length;

const TERMS: [Term; 16] = [
    Term::Mat,
    Term::MatOpening,
    Term::BottomMat,
    Term::Glazing,
    Term::Spacer,
    Term::MountBoard,
    Term::Backing,
    Term::Moulding,
    Term::Rabbet,
    Term::Allowance,
    Term::Bars,
    Term::Edge,
    Term::StapleMargin,
    Term::Floater,
    Term::StandOff,
    Term::SubFrame,
];

/// The terms that a cut shows, each by one note or by depths.
fn shown(cut: &Section) -> Vec<Term> {
    TERMS.into_iter().filter(|term| cut.clone().of_term(*term).is_some()).collect()
}

fn canvas() -> Canvas {
    Canvas { fold: length("1"), ..Canvas::starting() }
}

fn floated() -> Finish {
    let canvas = canvas();
    let floater = Floater::round_in(canvas.depth, System::Inches);
    Finish::Canvas(Canvas { floater: Some(floater), ..canvas })
}

/// What a framed print, a canvas and a sheet are made of, read off the meanings of the terms: each term is shown by the pieces that have
/// the thing, and by no other.
#[test]
fn every_term_has_a_cut_where_there_is_the_thing() {
    let framed = with_mat(|mat| mat.inner_reveal = Some(length("1/4")));
    let framed = Framing { spacer: length("1/8"), ..framed };
    let at = Size::inches(16, 20);
    let of = |finish: Finish| shown(&cut(at, finish));
    assert_eq!(of(print_in(framed)), TERMS[..10]);
    assert_eq!(of(Finish::Canvas(canvas())), [Term::Bars, Term::Edge, Term::StapleMargin]);
    assert_eq!(of(floated()), [Term::Bars, Term::Edge, Term::StapleMargin, Term::Floater]);
    let sheet = Aluminium { sub_frame: None, ..Aluminium::starting() };
    assert_eq!(of(Finish::Aluminium(sheet.clone())), [Term::StandOff]);
    let barred = Aluminium { sub_frame: Some(SubFrame::starting()), ..sheet };
    assert_eq!(of(Finish::Aluminium(barred)), [Term::StandOff, Term::SubFrame]);
    // Without the thing there is nothing to point at.
    let mut tight = usual();
    let frame = tight.frame.as_mut().expect("a frame");
    frame.allowance = length("0");
    assert!(cut(at, print_in(tight)).of_term(Term::Allowance).is_none());
    let unfolded = Canvas { fold: length("0"), ..canvas() };
    assert!(cut(at, Finish::Canvas(unfolded)).of_term(Term::StapleMargin).is_none());
}

/// The wall of the rabbet is at 3/4 - 1/4 = 1/2, the package begins at 9/16: half of the 1/8 of allowance is between them.
#[test]
fn the_allowance_is_the_gap_below_the_package() {
    let whole = cut(Size::inches(16, 20), print_in(usual()));
    assert!(whole.notes.iter().all(|note| !note.text.contains("allowance")), "only where it is explained");
    let cut = whole.of_term(Term::Allowance).expect("a cut");
    let [note] = &cut.notes[..] else { panic!("{:?}", cut.notes) };
    assert_eq!((note.at.y, note.text.as_str()), (length("17/32"), "allowance 1/8\", half of it here"));
    assert!(cut.depths.is_empty(), "{:?}", cut.depths);
    // The package is 1/8 + 1/16 + 1/16 + 3/16 deep, and its front is 5/8 off the wall.
    assert!(length("3/16") < note.at.x && note.at.x < length("5/8"), "{:?}", note.at);
}

/// An inch of canvas on the back of the bar, from its foot up: pointed at in its middle, on the back, which is at the wall.
#[test]
fn the_staple_margin_is_on_the_back_of_the_bar() {
    let cut = cut(Size::inches(16, 20), Finish::Canvas(canvas())).of_term(Term::StapleMargin).expect("a cut");
    let [note] = &cut.notes[..] else { panic!("{:?}", cut.notes) };
    assert_eq!((note.at.y, note.text.as_str()), (length("1/2"), "staple margin 1\""));
    assert!(length("0") <= note.at.x && note.at.x < length("1/32"), "{:?}", note.at);
}
