//! The specification as a buyer reads it: what there is, in sentences, and nothing of what there is not.

use super::*;

/// The specification for whoever decides: headings, each with its sentences.
#[must_use]
pub fn told(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<(&'static str, Vec<String>)> {
    let telling = Telling { plan, figures, stock };
    let plain = |writer: Writer| in_plain_words(plan, stock, &writer.0).trim().to_owned();
    let made = if alike(plan) {
        let each = if plan.pieces.len() > 1 && plan.shared.is_some() {
            "They stand ".to_owned() + &telling.read("shared") + ". "
        } else {
            String::new()
        };
        vec![each + &telling.made(0)]
    } else {
        let piece = |index: usize| ["Piece ", &(index + 1).to_string(), ": ", &telling.made(index)].concat();
        (0..plan.pieces.len()).map(piece).collect()
    };
    let mut hung = plain(hung(plan, figures));
    hung += &telling.hooks();
    let mut seen = named(plan);
    if !plan.pictures.is_empty() {
        sharpness(plan, figures, &mut seen);
        subjects(plan, &mut seen, |picture| picture.subject.is_some());
    }
    let [wall, fixtures, picture, _, how, hanging, _] = headings(plan);
    let mut paragraphs = vec![(wall, vec![telling.wall()])];
    if !plan.fixtures.is_empty() {
        paragraphs.push((fixtures, vec![telling.fixtures()]));
    }
    paragraphs.extend([(picture, vec![plain(seen)]), (how, made), (hanging, vec![hung])]);
    paragraphs
}

struct Telling<'a> {
    plan: &'a Plan,
    figures: &'a Figures,
    stock: &'a Stock,
}

/// A colour by its name, or in other words where it has none.
fn named_or(colour: String, otherwise: &str) -> String {
    if colour.starts_with('#') { otherwise.to_owned() } else { colour }
}

impl Telling<'_> {
    /// A field, as it is read aloud.
    fn read(&self, name: &str) -> String {
        fields::read(self.plan, self.stock, name).map_or(String::new(), |value| value.text)
    }

    /// A text with fields: every other part is the name of one.
    fn all<const N: usize>(&self, parts: [&str; N]) -> String {
        let part =
            |(index, part): (usize, &&str)| if index % 2 == 0 { (*part).to_owned() } else { self.read(part) };
        parts.iter().enumerate().map(part).collect()
    }

    fn length(&self, length: Length) -> String {
        shown(length, Grade::Piece, self.plan.units)
    }

    fn wall(&self) -> String {
        let mut text = self.all([
            "The wall is ",
            "wall.width",
            " wide and ",
            "wall.height",
            " high, ",
            "wall.finish",
            ", ",
        ]);
        text += &match self.read("wall.paint") {
            own if own.starts_with('#') => "painted in a colour of its own".to_owned(),
            paint => "painted ".to_owned() + &paint,
        };
        text += ", over ";
        text += &named_or(self.read("wall.floor"), "a floor in a colour of its own");
        if self.plan.wall.skirting > Length::ZERO {
            text += &self.all([" with a skirting of ", "wall.skirting"]);
        }
        text += &self.all([
            ". People look at it ",
            "viewing.light",
            " from ",
            "viewing.distance",
            ", ",
            "viewing.side",
        ]);
        if self.plan.viewing.aside != Aside::Straight {
            text += &self.all([" ", "viewing.aside"]);
        }
        text + &self.all([", with their eyes at ", "viewing.eye_level", "."])
    }

    fn fixtures(&self) -> String {
        let mut texts = Vec::new();
        for (index, fixture) in self.plan.fixtures.iter().enumerate() {
            let read = |part: &str| self.read(&["fixture.", &index.to_string(), ".", part].concat());
            let mut text =
                [if index == 0 { "A " } else { "a " }, &read("kind"), ", ", &read("width"), " wide"].concat();
            if fixture.kind.has_depth() {
                text += &[", ", &read("height"), " high and ", &read("depth"), " deep, "].concat();
            } else {
                text += &[" and ", &read("height"), " high, "].concat();
            }
            if fixture.across != Across::Middle {
                text += &[&read("distance"), " "].concat();
            }
            text += &read("across");
            if fixture.from_floor > Length::ZERO {
                text += &[" and ", &read("from_floor"), " from the floor"].concat();
            }
            text += &[", where ", &read("pictures")].concat();
            if fixture.kind == FixtureKind::Door {
                text += &[" and which ", &read("swing")].concat();
            }
            texts.push(text);
        }
        texts.join("; ") + "."
    }

    /// How a piece is made, how large it is outside and what it weighs.
    fn made(&self, index: usize) -> String {
        let (piece, sizes) = (&self.plan.pieces[index], &self.figures.build_ups[index]);
        let field = |part: &str| ["piece.", &index.to_string(), ".", part].concat();
        let all = |parts: &[&str]| -> String {
            let part = |(index, part): (usize, &&str)| {
                if index % 2 == 0 { (*part).to_owned() } else { self.read(&field(part)) }
            };
            parts.iter().enumerate().map(part).collect()
        };
        let mut text = match piece.finish {
            Finish::Original(_) => all(&["It is ", "image", ", ", "material"]),
            _ => all(&["Printed ", "image", " on ", "material"]),
        };
        match &piece.finish {
            Finish::Paper(paper) => {
                text += &all(&[" of ", "paper.grammage", " g/m²"]);
                if paper.border != Surround::even(Length::ZERO) {
                    text += ", with ";
                    text += &surround(&paper.border, "paper", &all);
                }
                text += &self.framing(&paper.framing, sizes, &all);
            }
            Finish::Canvas(canvas) => {
                text += &all(&[
                    " of ",
                    "canvas.grammage",
                    " g/m², on bars ",
                    "canvas.depth",
                    " deep, with ",
                    "canvas.edge",
                ]);
                if matches!(canvas.edge, Edge::Plain(_)) {
                    text += ", ";
                    text += &named_or(all(&["", "canvas.edge_colour"]), "in a colour of its own");
                    text += ",";
                }
                text += " on its edges";
                if canvas.edge == Edge::Carried {
                    let bars = crate::framing::inverse::Bars { depth: canvas.depth, fold: canvas.fold };
                    let share = percent(bars.share_carried_round(sizes.image.size));
                    text += &[", which take ", &share, " of what is printed"].concat();
                }
                text += &floater(canvas.floater.as_ref(), &all);
            }
            Finish::Aluminium(sheet) => {
                text += &all(&[", a sheet ", "aluminium.thickness", " thick with "]);
                text += &if sheet.corner_radius > Length::ZERO {
                    all(&["corners of ", "aluminium.corner_radius", " radius"])
                } else {
                    "square corners".to_owned()
                };
                text += &all(&[", that floats ", "aluminium.stand_off", " off the wall ", "aluminium.back"]);
            }
            Finish::Original(original) => {
                text += &all(&[", ", "original.depth", " deep"]);
                if original.floater.is_some() {
                    text += &floater(original.floater.as_ref(), &all);
                } else {
                    text += &self.framing(&original.framing, sizes, &all);
                }
            }
        }
        text += &[
            ". Outside ",
            &shown_size(sizes.outside, self.plan.units),
            ", ",
            &self.length(sizes.depth),
            " deep",
        ]
        .concat();
        if let Some(frame) = &sizes.frame {
            text += &["; its frame is sold as ", &shown_size(frame.nominal, self.plan.units)].concat();
        }
        let mut last = Writer::default();
        weight(self.plan, self.figures, self.stock, index, &mut last);
        text + in_plain_words(self.plan, self.stock, &last.text(".").0).trim_end()
    }

    fn framing(&self, framing: &Framing, sizes: &BuildUp, all: &dyn Fn(&[&str]) -> String) -> String {
        if *framing == Framing::NONE {
            return ". It comes without mat, glazing and frame".to_owned();
        }
        let mut text = String::new();
        if let (Some(mat), Some(cut)) = (&framing.mat, &sizes.mat) {
            text += &all(&[". It comes with a mat, ", "mat.double", " and "]);
            text += &named_or(all(&["", "mat.colour"]), "in a colour of its own");
            text += ", ";
            text += &surround(&mat.surround, "mat", all);
            let [head, foot] =
                [cut.visible_borders.top, cut.visible_borders.bottom].map(|seen| self.length(seen));
            text += &if head == foot {
                [" (", &head, " in view)"].concat()
            } else {
                [" (", &head, " in view at the head, ", &foot, " at the foot)"].concat()
            };
            text += &all(&[", ", "mat.opening", " ", "mat.by", " a side"]);
            if mat.inner_reveal.is_some() {
                text += &all(&[", the inner mat showing ", "mat.inner", " of ", "mat.inner_colour"]);
            }
            text += &[": its opening is ", &shown_size(cut.opening.size, self.plan.units)].concat();
        } else {
            text += ". It comes without a mat";
        }
        text += &if framing.glazing == Glazing::None {
            ". There is no glazing before it".to_owned()
        } else {
            all(&[". Before it is ", "glazing", " of ", "glazing.thickness"])
        };
        if framing.glazing != Glazing::None && framing.spacer > Length::ZERO {
            text += &all(&[" over a spacer of ", "spacer"]);
        }
        let behind: Vec<String> = [
            framing.mount.as_ref().map(|_| all(&["", "mount", " of ", "mount.thickness"])),
            framing.backing.as_ref().map(|_| all(&["", "backing", " of ", "backing.thickness"])),
        ]
        .into_iter()
        .flatten()
        .collect();
        if !behind.is_empty() {
            text += &[", behind it ", &behind.join(" and ")].concat();
        }
        if framing.frame.is_none() {
            return text + ". It comes without a frame";
        }
        text += &all(&[
            ". The frame is a ",
            "frame.shape",
            ", ",
            "frame.surface",
            " moulding in ",
            "frame.material",
            ", ",
        ]);
        text += &named_or(all(&["", "frame.colour"]), "in a colour of its own");
        text += &all(&[", ", "frame.face", " wide and ", "frame.depth", " deep"]);
        let out = sizes.frame.as_ref().map_or(Length::ZERO, |cut| -cut.spare_depth);
        if out > Length::ZERO {
            text += &[
                ", out of which the package stands ",
                &shown(out, Grade::Fine, self.plan.units),
                " at the back",
            ]
            .concat();
        }
        text
    }

    /// At what height the hooks are.
    fn hooks(&self) -> String {
        let mut heights = self.figures.hanging.iter().flat_map(|hung| &hung.hooks).map(|hook| hook.y);
        let first = heights.next().unwrap_or_default();
        if heights.all(|height| height == first) {
            [
                " The hooks are ",
                &self.length(first),
                " from the floor; the hanging plan has the place of each.",
            ]
            .concat()
        } else {
            " The hanging plan has the place of every hook.".to_owned()
        }
    }
}

/// So much round an image on each side, or what is left of a sheet; more at the foot only where there is more.
fn surround(border: &Surround, part: &str, all: &dyn Fn(&[&str]) -> String) -> String {
    let named = |end: &str| [part, ".", end].concat();
    let much = named(if matches!(border.extent, Extent::Border(_)) { "border" } else { "whole" });
    let mut text = all(&["", &named("extent"), " ", &much]);
    let foot = match border.weighting {
        Weighting::Extra(extra) if extra == Length::ZERO => return text,
        Weighting::Extra(_) => "foot",
        Weighting::Ratio { .. } => "ratio",
    };
    text += &all(&[", ", &named("weighting"), " ", &named(foot)]);
    text
}

fn floater(there: Option<&Floater>, all: &dyn Fn(&[&str]) -> String) -> String {
    if there.is_none() {
        return "; without a floater frame".to_owned();
    }
    let colour = named_or(all(&["", "floater.colour"]), "a colour of its own");
    ["; in a floater frame, ", &all(&["", "floater.face"]), " of ", &colour].concat()
        + &all(&[", ", "floater.depth", " deep, ", "floater.gap", " of air round it"])
}
