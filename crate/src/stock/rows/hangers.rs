//! What hangers consist of in a stock file.

use super::super::limits::HANGER_GRAMS;
use super::super::{Fitting, SoldHanger};
use super::{Listed, measure, named, number};
use crate::described::{Choosable, Entry, Item, Member, Row, Thing};

impl Choosable for Fitting {
    const NAME: &'static str = "Fitting";
    const ALL: &'static [(Self, Entry)] = &[
        (Self::Ring, Entry::new("ring", 0, "ring").about("A D-ring; a wire is tied to two of them.")),
        (Self::Cleat, Entry::new("cleat", 1, "cleat").about("A French cleat.")),
        (Self::Sawtooth, Entry::new("sawtooth", 2, "sawtooth").about("A toothed strip.")),
        (Self::Keyhole, Entry::new("keyhole", 3, "keyhole").about("A keyhole plate.")),
    ];
}

impl Thing for SoldHanger {
    fn title(&self) -> (&'static str, &'static str) {
        ("Hanger", "")
    }

    fn members(&mut self) -> Vec<Member<'_>> {
        let Self { name, fitting, carries_grams, least_wood } = self;
        vec![
            Member::of(const { &named("What it is called; no two hangers share a name.") }, name),
            Member::choice(const { &Row::choice("", "fitting", 0, "", "What it is.").needed() }, fitting),
            Member::of(
                const {
                    &number(
                        "carries_grams",
                        "load in grams",
                        "The most that one of them carries, in grams; for a cleat, the most for each 12 in of it.",
                        HANGER_GRAMS,
                    )
                },
                carries_grams,
            ),
            Member::of(
                const {
                    &measure(
                        "least_wood",
                        "least wood",
                        "How deep the wood must be for its screws or its recess.",
                    )
                },
                least_wood,
            ),
        ]
    }
}

impl Item for SoldHanger {}

impl Listed for SoldHanger {
    const FORM: &'static str = "List10";

    fn called(&self) -> &str {
        &self.name
    }
}
