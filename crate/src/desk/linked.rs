//! The desk and links: the plan at work as one, and the plan of one on the desk.

use super::{Desk, DeskError};
use crate::draw::LoadedPicture;
use crate::link::{self, Answer, Detail, Link, Sketch};
use crate::plan::{Picture, Plan};
use crate::resample::{Pyramid, Raster, RasterPart};
use std::collections::BTreeMap;

/// Pixels of a picture that a sketch is made from at most.
const SKETCHED_PX: u32 = 400;

/// What a link has of a picture that is not here, as it came and as it is drawn.
#[derive(Debug)]
pub(super) struct Sketched {
    sketch: Sketch,
    copy: LoadedPicture,
}

/// What came with a plan out of a link.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opened {
    /// What of it was not understood, in a sentence.
    pub told: Option<String>,
    /// When it is an answer to another plan.
    pub answer: Option<Answer>,
}

/// The copies of a plan's pictures, in their order; where there is none, what a link had of it.
pub(super) fn shown<'a>(
    plan: &Plan,
    copies: &'a BTreeMap<String, LoadedPicture>,
    sketches: &'a BTreeMap<String, Sketched>,
) -> Vec<Option<&'a LoadedPicture>> {
    let shown = |picture: &Picture| {
        // Plans from elsewhere may call other pictures by the names of one's own.
        let is_its = |copy: &&LoadedPicture| {
            (copy.file_width_px, copy.file_height_px) == (picture.width_px.max(1), picture.height_px.max(1))
        };
        let sketched = || sketches.get(&picture.name).map(|sketched| &sketched.copy).filter(is_its);
        copies.get(&picture.name).filter(is_its).or_else(sketched)
    };
    plan.pictures.iter().map(shown).collect()
}

impl Desk {
    /// Opens the plan of a link; the present one can be had back by undoing.
    ///
    /// # Errors
    /// When the text is no whole link or its plan has no answer; then all is as it was.
    pub fn open_link(&mut self, text: &str) -> Result<Opened, DeskError> {
        self.abandon();
        let (Link { plan, sketches, answer }, unread) = link::read(text)?;
        self.step(plan)?;
        let pictures = self.plan.pictures.clone();
        self.keep_sketches(&pictures, sketches);
        Ok(Opened { told: link::text(unread), answer })
    }

    /// Takes what a link has of pictures, and leaves its plan aside: for a plan that came out of it earlier.
    pub fn take_sketches(&mut self, text: &str) {
        if let Ok((Link { plan, sketches, .. }, _)) = link::read(text) {
            self.keep_sketches(&plan.pictures, sketches);
        }
    }

    fn keep_sketches(&mut self, pictures: &[Picture], sketches: Vec<Option<Sketch>>) {
        for (picture, sketch) in pictures.iter().zip(sketches) {
            let Some((raster, sketch)) = sketch.and_then(|sketch| Some((sketch.raster()?, sketch))) else {
                continue;
            };
            self.revision += 1;
            let copy = LoadedPicture {
                pyramid: Pyramid::of(raster),
                file_width_px: picture.width_px.max(1),
                file_height_px: picture.height_px.max(1),
                revision: self.revision,
            };
            self.sketches.insert(picture.name.clone(), Sketched { sketch, copy });
        }
    }

    /// Whether something of a picture came with a link, and it is not here itself.
    #[must_use]
    pub fn is_sketched(&self, name: &str) -> bool {
        self.sketches.contains_key(name) && !self.has_copy(name)
    }

    /// The plan as a link, with so much of its pictures; of one that is not here, what came with a link. So many characters are to stand
    /// around it.
    #[must_use]
    pub fn link(&self, detail: Option<Detail>, answer: Option<Answer>, around: usize) -> String {
        let came = |name: &str| self.sketches.get(name).map(|came| came.sketch.clone());
        let names = || self.plan.pictures.iter().map(|picture| picture.name.as_str());
        let mut link = Link { answer, ..Link::of(self.plan.clone()) };
        let Some(detail) = detail else { return link::write(&link) };
        link.sketches = names().map(|name| came(name).filter(|_| !self.copies.contains_key(name))).collect();
        let here = names().filter(|name| self.copies.contains_key(*name)).count();
        let room = link::room(&link, detail, here, around);
        for (sketch, name) in link.sketches.iter_mut().zip(names()) {
            if let Some(copy) = self.copies.get(name) {
                *sketch = Some(sketched(&copy.pyramid, detail, room));
            }
        }
        link::write(&link)
    }
}

fn sketched(pyramid: &Pyramid, detail: Detail, room: usize) -> Sketch {
    let whole = pyramid.raster();
    let longer = u64::from(whole.width_px().max(whole.height_px()));
    let most = u64::from(SKETCHED_PX).min(longer);
    let [width, height] = [whole.width_px(), whole.height_px()]
        .map(|side| u32::try_from(u64::from(side) * most / longer).unwrap_or(1).max(1));
    let small: Raster = pyramid.scaled(RasterPart::whole(whole), width, height);
    Sketch::of(&small, detail, room)
}
