//! What mouldings, sticks and stretcher bars consist of in a stock file.

use super::super::check::RowFault;
use super::super::{Bar, Profile, Stick};
use super::{Listed, MATERIAL, TEXT, flag, maybe, measure, named, or_nothing};
use crate::colour::Colour;
use crate::described::{Item, Member, Row, Thing, maybe_filled};
use crate::length::Length;

impl Thing for Profile {
    fn title(&self) -> (&'static str, &'static str) {
        ("Profile", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, is_floater, face, rabbet_width, rabbet_depth, depth, material, wood, colour } = self;
        vec![
            Member::of(const { &named("What it is called; no two mouldings share a name.") }, name),
            Member::of(
                const {
                    &flag(
                        "floater",
                        "Whether it is a floater frame: it goes round a canvas with a gap and has no rabbet (rebate).",
                    )
                },
                is_floater,
            ),
            Member::of(const { &measure("face", "face", "Width of its face.") }, face),
            Member::of(
                const {
                    &or_nothing(
                        "rabbet_width",
                        "width of the rabbet (rebate)",
                        "Width of the rabbet (rebate); none when left out.",
                    )
                },
                rabbet_width,
            ),
            Member::of(
                const {
                    &or_nothing(
                        "rabbet_depth",
                        "depth of the rabbet (rebate)",
                        "Depth of the rabbet (rebate); none when left out.",
                    )
                },
                rabbet_depth,
            ),
            Member::of(const { &measure("depth", "depth", "From its back to its front.") }, depth),
            Member::choice(&MATERIAL, material),
            maybe_filled(
                const {
                    &maybe(
                        "wood",
                        "The name of the wood, such as ash, where the material only gives its weight; the material's name when left out.",
                    )
                },
                wood,
                const { &Row::new("", "", 0, "wood", "", TEXT) },
                String::new(),
            ),
            maybe_filled(
                const { &maybe("colour", "The colour it is sold in; any colour when left out.") },
                colour,
                const { &Row::colour("", "", 0, "colour", "", 0) },
                Colour::hex(0),
            ),
        ]
    }
}

impl Item for Profile {}

impl Listed for Profile {
    const FORM: &'static str = "List4";

    fn called(&self) -> &str {
        &self.name
    }

    fn wrong(&self) -> Option<RowFault> {
        let Profile { is_floater, face, rabbet_width, rabbet_depth, depth, .. } = *self;
        if rabbet_width > face {
            Some(RowFault::Lip { rabbet: rabbet_width, face })
        } else if rabbet_depth > depth {
            Some(RowFault::Deep { rabbet: rabbet_depth, depth })
        } else {
            let has_rabbet = (rabbet_width, rabbet_depth) != (Length::ZERO, Length::ZERO);
            (is_floater && has_rabbet).then_some(RowFault::Floater)
        }
    }
}

impl Thing for Stick {
    fn title(&self) -> (&'static str, &'static str) {
        ("Stick", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, length, kerf, trim } = self;
        vec![
            Member::of(const { &named("What it is called; no two sticks share a name.") }, name),
            Member::of(const { &measure("length", "length", "") }, length),
            Member::of(
                const { &or_nothing("kerf", "kerf", "What the saw takes with each cut; 0 when left out.") },
                kerf,
            ),
            Member::of(
                const { &or_nothing("trim", "trim", "Cut off its two ends, together; 0 when left out.") },
                trim,
            ),
        ]
    }
}

impl Item for Stick {}

impl Listed for Stick {
    const FORM: &'static str = "List5";

    fn called(&self) -> &str {
        &self.name
    }

    fn wrong(&self) -> Option<RowFault> {
        let Stick { length, trim, .. } = *self;
        (trim >= length).then_some(RowFault::Trim { trim, length })
    }
}

impl Thing for Bar {
    fn title(&self) -> (&'static str, &'static str) {
        ("Bar", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, depth, width } = self;
        vec![
            Member::of(const { &named("What it is called; no two bars share a name.") }, name),
            Member::of(
                const { &measure("depth", "depth", "From its back to the face of the canvas.") },
                depth,
            ),
            Member::of(const { &measure("width", "width", "Its width, seen from the back.") }, width),
        ]
    }
}

impl Item for Bar {}

impl Listed for Bar {
    const FORM: &'static str = "List9";

    fn called(&self) -> &str {
        &self.name
    }
}
