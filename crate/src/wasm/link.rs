//! Links at the boundary: the plan as one, and the plan of one.

use super::{Desk, Handed, handed};
use crate::link::{self, Answer, CodeSquare, Detail, Verdict};
use crate::{papers, proposal};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::{Clamped, JsError, prelude::wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageData};

/// The plan as a link, with so much of its pictures.
#[derive(Serialize, Tsify)]
pub struct LinkView {
    /// How much of the pictures is in it, in words.
    pub words: &'static str,
    /// All of it, with the address of the page.
    pub address: String,
    /// How long it is, in words.
    pub length: String,
    /// What a link of that length can be used for.
    pub means: &'static str,
    /// Whether it is short enough for a QR code.
    pub has_square: bool,
}

/// What came out of a link.
#[derive(Serialize, Tsify)]
pub struct OpenedView {
    /// Why it could not be opened.
    pub error: Option<String>,
    /// What of it was not understood.
    pub told: Option<String>,
    /// The titles of pictures of which something came with the link, and which are not here.
    pub sketched: Vec<String>,
    /// When it is an answer to another plan.
    pub answer: Option<AnswerView>,
}

/// What the recipient of a proposal says to it.
#[derive(Serialize, Tsify)]
pub struct AnswerView {
    /// The mark of the plan that was sent.
    pub to: u32,
    /// Who answers.
    pub from: String,
    /// What else there is to say.
    pub note: String,
    /// The mark of the proposal that is answered; 0 for a plan that came by itself.
    pub proposal: u32,
    /// Which of its options, counted from 1; 0 for none.
    pub option: u32,
    /// What is said of it, as a sentence.
    pub decision: String,
    /// Whether an option is accepted.
    pub is_accepted: bool,
    /// Of when it is, in words; may be empty.
    pub date: String,
    /// What it answers, by its number and version; may be empty.
    pub heading: String,
}

const STEPS: [(&str, Option<Detail>); 4] = [
    ("nothing", None),
    ("their main colours", Some(Detail::Colours)),
    ("a hint of each", Some(Detail::Hint)),
    ("a small likeness of each", Some(Detail::Likeness)),
];

#[wasm_bindgen]
impl Desk {
    /// The plan as links to the page of this address, from the shortest to the longest; without an address as texts that say what to
    /// do with them.
    pub fn links(&self, page: &str) -> Result<Vec<Ts<LinkView>>, JsError> {
        let view = |(words, detail): (&'static str, Option<Detail>)| {
            let around =
                if page.is_empty() { link::message("").len() } else { link::address(page, "")?.len() };
            let link = self.desk.link(detail, None, around);
            let address = if page.is_empty() { link::message(&link) } else { link::address(page, &link)? };
            let characters = address.len();
            handed(LinkView {
                words,
                length: characters.to_string() + " characters",
                means: link::means(characters),
                has_square: !page.is_empty() && CodeSquare::of(&address).is_some(),
                address,
            }) as Handed<_>
        };
        STEPS.into_iter().map(view).collect()
    }

    /// Opens the plan of a link as a step that can be undone.
    pub fn open_link(&mut self, text: &str) -> Handed<OpenedView> {
        let opened = self.desk.open_link(text);
        let names = self.desk.plan().pictures.iter().map(|picture| &picture.name);
        let sketched = names.filter(|name| self.desk.is_sketched(name)).cloned().collect();
        handed(match opened {
            Ok(opened) => OpenedView {
                error: None,
                told: opened.told,
                sketched,
                answer: opened.answer.map(AnswerView::of),
            },
            Err(why) => {
                OpenedView { error: Some(why.to_string()), told: None, sketched: Vec::new(), answer: None }
            }
        })
    }

    /// Takes what a link has of pictures, for a plan that came out of it earlier.
    pub fn take_sketches(&mut self, text: &str) {
        self.desk.take_sketches(text);
    }

    /// Whether something of a picture came with a link, and it is not here itself.
    pub fn is_sketched(&self, name: &str) -> bool {
        self.desk.is_sketched(name)
    }

    /// Draws an address as a QR code into a canvas, which takes the size that it needs at so many device pixels to a module; whether
    /// it is short enough.
    pub fn draw_square(
        &self,
        canvas: &HtmlCanvasElement,
        context: &CanvasRenderingContext2d,
        address: &str,
        module_px: u32,
    ) -> Result<bool, JsError> {
        let Some(square) = CodeSquare::of(address) else { return Ok(false) };
        let failed = |_| JsError::new("the browser could not take the QR code");
        let module_px = module_px.clamp(1, 16);
        let side = square.side() * module_px;
        let pixels = square.pixels(module_px);
        let image =
            ImageData::new_with_u8_clamped_array_and_sh(Clamped(&pixels), side, side).map_err(failed)?;
        canvas.set_width(side);
        canvas.set_height(side);
        context.put_image_data(&image, 0.0, 0.0).map_err(failed)?;
        Ok(true)
    }

    /// A mark of the plan, by which an answer says what it answers.
    pub fn mark(&self) -> u32 {
        link::mark(self.desk.plan())
    }
}

impl AnswerView {
    pub(super) fn of(answer: Answer) -> Self {
        Self {
            decision: proposal::decision(answer.verdict, &answer.name, answer.decided),
            is_accepted: answer.verdict == Verdict::Accepted,
            date: papers::read_day(&answer.date).ok().flatten().map_or(String::new(), papers::written_date),
            heading: proposal::heading("", &answer.number, answer.revision),
            to: answer.to,
            from: answer.from,
            note: answer.note,
            proposal: answer.proposal,
            option: answer.option,
        }
    }
}
