//! The specification as a buyer reads it: what there is, in sentences, and nothing of what there is not.

use super::made::{Around, OF_MAT, OF_PAPER};
use super::{
    Writer, alike, fixed, headings, in_plain_words, named, percent, placed, sharpness, shown, shown_size,
    subjects, weight,
};
use crate::described::Row;
use crate::field::Field;
use crate::fields;
use crate::figures::Figures;
use crate::framing::{BuildUp, MatSizes};
use crate::length::Length;
use crate::making::Section;
use crate::measure::Grade;
use crate::plan::{
    self, Across, Canvas, Coating, Edge, Extent, Finish, FixtureKind, Floater, Frame, Framing, Glazing, Mat,
    Plan, Surround, System, ViewerOffset, Weighting,
};
use crate::stock::Stock;

/// The specification for whoever decides: headings, each with its sentences.
#[must_use]
pub fn text(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<(&'static str, Vec<String>)> {
    told(&Telling { plan, figures, stock, is_short: false })
}

/// The same in short, for a client: the pictures, how they are made, and where they hang, without what only its maker needs.
#[must_use]
pub fn short_text(plan: &Plan, figures: &Figures, stock: &Stock) -> Vec<(&'static str, Vec<String>)> {
    told(&Telling { plan, figures, stock, is_short: true })
}

fn told(telling: &Telling<'_>) -> Vec<(&'static str, Vec<String>)> {
    let Telling { plan, figures, stock, is_short } = *telling;
    let plain = |writer: Writer| in_plain_words(plan, stock, &writer.0).trim().to_owned();
    let made = if alike(plan) {
        let each = if plan.pieces.len() > 1 && plan.shared.is_some() {
            "The pieces are ".to_owned() + &telling.read(&plan::SHARED) + ". "
        } else {
            String::new()
        };
        vec![each + &telling.made(0)]
    } else {
        let piece = |index: usize| ["Piece ", &(index + 1).to_string(), ": ", &telling.made(index)].concat();
        (0..plan.pieces.len()).map(piece).collect()
    };
    let mut place = placed(plan, figures);
    if !is_short {
        fixed(plan, &mut place);
    }
    let mut hung = plain(place);
    if !is_short {
        hung += &telling.hooks();
    }
    let mut seen = named(plan);
    if !plan.pictures.is_empty() && !is_short {
        sharpness(plan, figures, &mut seen);
        subjects(plan, &mut seen, |picture| picture.subject.is_some());
    }
    let [wall, fixtures, picture, _, how, hanging, _] = headings(plan);
    let mut paragraphs = Vec::new();
    if !is_short {
        paragraphs.push((wall, vec![telling.wall()]));
    }
    if !plan.fixtures.is_empty() && !is_short {
        paragraphs.push((fixtures, vec![telling.fixtures()]));
    }
    paragraphs.extend([(picture, vec![plain(seen)]), (how, made), (hanging, vec![hung])]);
    paragraphs
}

/// A part of a sentence: words, or a field as it is read aloud.
#[derive(Clone, Copy)]
enum Phrase {
    Said(&'static str),
    Of(&'static Row),
}
use Phrase::{Of, Said};

impl Phrase {
    fn read(self, field: impl Fn(&'static Row) -> String) -> String {
        match self {
            Said(words) => words.to_owned(),
            Of(row) => field(row),
        }
    }
}

/// Reads parts of a sentence about one piece.
type All<'a> = &'a dyn Fn(&[Phrase]) -> String;

struct Telling<'a> {
    plan: &'a Plan,
    figures: &'a Figures,
    stock: &'a Stock,
    /// Whether what only a maker needs is left out.
    is_short: bool,
}

/// A colour by its name, or in other words where it has none.
fn named_or(colour: String, otherwise: &str) -> String {
    if colour.starts_with('#') { otherwise.to_owned() } else { colour }
}

/// A canvas: its canvas, its bars and what goes round them.
fn canvas_in_words(canvas: &Canvas, sizes: &BuildUp, all: All<'_>) -> String {
    let mut text = all(&[
        Said(" of "),
        Of(&plan::CANVAS_GRAMMAGE),
        Said(" g/m², on bars "),
        Of(&plan::CANVAS_DEPTH),
        Said(" deep, with "),
        Of(&plan::CANVAS_EDGE),
    ]);
    if matches!(canvas.edge, Edge::Plain(_)) {
        text += " in ";
        text += &named_or(all(&[Of(&plan::CANVAS_EDGE_COLOUR)]), "a custom colour");
    }
    if canvas.edge == Edge::Carried {
        let bars = crate::framing::inverse::Bars { depth: canvas.depth, fold: canvas.fold };
        let share = percent(bars.share_carried_round(sizes.image.size));
        text += &[", which takes ", &share, " of the print"].concat();
    }
    text
}

impl Telling<'_> {
    /// A field, as it is read aloud.
    fn read(&self, field: impl Into<Field>) -> String {
        fields::read(self.plan, self.stock, field.into()).map_or(String::new(), |value| value.text)
    }

    /// A text with fields of the plan.
    fn all<const N: usize>(&self, parts: [Phrase; N]) -> String {
        parts.iter().map(|part| part.read(|row| self.read(row))).collect()
    }

    fn length(&self, length: Length) -> String {
        shown(length, Grade::Piece, self.plan.units)
    }

    fn wall(&self) -> String {
        let mut text = self.all([
            Said("The wall is "),
            Of(&plan::WALL_WIDTH),
            Said(" wide and "),
            Of(&plan::WALL_HEIGHT),
            Said(" high, "),
            Of(&plan::WALL_FINISH),
            Said(", "),
        ]);
        text += &match self.read(&plan::WALL_PAINT) {
            own if own.starts_with('#') => "painted in a custom colour".to_owned(),
            paint => "painted ".to_owned() + &paint,
        };
        text += ", over ";
        text += &named_or(self.read(&plan::WALL_FLOOR), "a floor in a custom colour");
        if self.plan.wall.skirting > Length::ZERO {
            text += &self.all([
                Said(if self.plan.units.first == System::Inches {
                    " with a baseboard of "
                } else {
                    " with a skirting of "
                }),
                Of(&plan::WALL_SKIRTING),
            ]);
        }
        if self.plan.from_photograph.is_some() {
            text += &self.all([Said(", measured in a photograph, ± "), Of(&plan::FROM_PHOTOGRAPH_OFF)]);
        }
        text += &self.all([
            Said(". People see it "),
            Of(&plan::VIEWING_LIGHT),
            Said(" from "),
            Of(&plan::VIEWING_DISTANCE),
            Said(", "),
        ]);
        if self.plan.viewing.aside != ViewerOffset::Straight {
            text += &self.all([Of(&plan::VIEWING_ASIDE), Said(" ")]);
        }
        text + &self.all([
            Of(&plan::VIEWING_SIDE),
            Said(", at an eye level of "),
            Of(&plan::VIEWING_EYE_LEVEL),
            Said("."),
        ])
    }

    fn fixtures(&self) -> String {
        let mut texts = Vec::new();
        for (index, fixture) in self.plan.fixtures.iter().enumerate() {
            let read = |row| self.read(Field::fixture(row, index));
            let colour = match fixture.colour {
                Some(_) => [" in ", &named_or(read(&plan::FIXTURE_COLOUR), "a colour of its own")].concat(),
                None => String::new(),
            };
            let mut text = [
                if index == 0 { "A " } else { "a " },
                &read(&plan::FIXTURE_KIND),
                &colour,
                ", ",
                &read(&plan::FIXTURE_WIDTH),
                " wide",
            ]
            .concat();
            if fixture.kind.has_depth() {
                text += &[
                    ", ",
                    &read(&plan::FIXTURE_HEIGHT),
                    " high and ",
                    &read(&plan::FIXTURE_DEPTH),
                    " deep, ",
                ]
                .concat();
            } else {
                text += &[" and ", &read(&plan::FIXTURE_HEIGHT), " high, "].concat();
            }
            if fixture.across != Across::Middle {
                text += &[&read(&plan::FIXTURE_DISTANCE), " "].concat();
            }
            text += &read(&plan::FIXTURE_ACROSS);
            if fixture.from_floor > Length::ZERO {
                text += &[" and ", &read(&plan::FIXTURE_FROM_FLOOR), " from the floor"].concat();
            }
            if fixture.kind.has_room_above() {
                text += &[", and ", &read(&plan::FIXTURE_RELATION)].concat();
            }
            if fixture.kind == FixtureKind::Stairs {
                text += &[", and it ", &read(&plan::FIXTURE_RISE)].concat();
            }
            if fixture.kind == FixtureKind::Door {
                text += &[", and it ", &read(&plan::FIXTURE_SWING)].concat();
            }
            texts.push(text);
        }
        texts.join("; ") + "."
    }

    /// How a piece is made, how large it is outside and what it weighs.
    fn made(&self, index: usize) -> String {
        let (piece, sizes) = (&self.plan.pieces[index], &self.figures.build_ups[index]);
        let all = |parts: &[Phrase]| -> String {
            parts.iter().map(|part| part.read(|row| self.read(Field::piece(row, index)))).collect()
        };
        let mut text = match piece.finish {
            Finish::Original(_) => {
                all(&[Said("It is "), Of(&plan::PIECE_IMAGE), Said(", "), Of(&plan::PIECE_MATERIAL)])
            }
            _ => all(&[Said("Printed "), Of(&plan::PIECE_IMAGE), Said(" on "), Of(&plan::PIECE_MATERIAL)]),
        };
        match &piece.finish {
            Finish::Paper(paper) => {
                if !self.is_short {
                    text += &all(&[Said(" of "), Of(&plan::PAPER_GRAMMAGE), Said(" g/m²")]);
                }
                if paper.border != Surround::even(Length::ZERO) {
                    text += ", with ";
                    text += &surround(&paper.border, OF_PAPER, &all);
                }
                text += &self.framing(&paper.framing, sizes, &all);
            }
            Finish::Canvas(canvas) => {
                text += &canvas_in_words(canvas, sizes, &all);
                text += &floater(canvas.floater.as_ref(), self.stock, &all);
            }
            Finish::Aluminium(sheet) => {
                text += &all(&[Said(", a sheet "), Of(&plan::ALUMINIUM_THICKNESS), Said(" thick with ")]);
                text += &if sheet.corner_radius > Length::ZERO {
                    all(&[Said("corners of "), Of(&plan::ALUMINIUM_CORNER_RADIUS), Said(" radius")])
                } else {
                    "square corners".to_owned()
                };
                text += &all(&[
                    Said(", floating "),
                    Of(&plan::ALUMINIUM_STAND_OFF),
                    Said(" off the wall "),
                    Of(&plan::ALUMINIUM_BACK),
                ]);
            }
            Finish::Original(original) => {
                text += &all(&[Said(", "), Of(&plan::ORIGINAL_DEPTH), Said(" deep")]);
                if original.floater.is_some() {
                    text += &floater(original.floater.as_ref(), self.stock, &all);
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
        if let Some(frame) = sizes.frame.as_ref().filter(|_| !self.is_short) {
            text += &["; order the frame as ", &shown_size(frame.nominal, self.plan.units)].concat();
        }
        let mut last = Writer::default();
        weight(self.plan, self.figures, self.stock, index, &mut last);
        text + in_plain_words(self.plan, self.stock, &last.text(".").0).trim_end()
    }

    fn framing(&self, framing: &Framing, sizes: &BuildUp, all: All<'_>) -> String {
        if *framing == Framing::NONE {
            return ". It comes without mat, glazing and frame".to_owned();
        }
        let mut text = String::new();
        if let (Some(mat), Some(cut)) = (&framing.mat, &sizes.mat) {
            text += &self.mat(mat, cut, all);
        } else {
            text += ". It comes without a mat";
        }
        text += &if framing.glazing == Glazing::None {
            ". It has no glazing".to_owned()
        } else {
            let mut text = all(&[Said(". It is behind "), Of(&plan::GLAZING)]);
            if !self.is_short {
                text += &all(&[Said(" of "), Of(&plan::GLAZING_THICKNESS)]);
            }
            text
        };
        if framing.glazing != Glazing::None && framing.coating != Coating::Plain {
            text += &all(&[Said(", "), Of(&plan::GLAZING_COATING)]);
            text += if self.is_short { "" } else { "," };
        }
        if framing.glazing != Glazing::None && framing.spacer > Length::ZERO && !self.is_short {
            text += &all(&[Said(" over a spacer of "), Of(&plan::SPACER)]);
        }
        let behind: Vec<String> = [
            framing
                .mount
                .as_ref()
                .map(|_| all(&[Of(&plan::MOUNT), Said(" of "), Of(&plan::MOUNT_THICKNESS)])),
            framing
                .backing
                .as_ref()
                .map(|_| all(&[Of(&plan::BACKING), Said(" of "), Of(&plan::BACKING_THICKNESS)])),
        ]
        .into_iter()
        .flatten()
        .collect();
        if !behind.is_empty() && !self.is_short {
            text += &["; behind the picture, ", &behind.join(" and ")].concat();
        }
        match &framing.frame {
            None => text + ". It comes without a frame",
            Some(frame) => text + &self.frame(frame, sizes, all),
        }
    }

    /// Its mat, from its colour to its opening.
    fn mat(&self, mat: &Mat, cut: &MatSizes, all: All<'_>) -> String {
        let mut text = all(&[Said(". It comes with a "), Of(&plan::MAT_DOUBLE), Said(" mat, ")]);
        text += &named_or(all(&[Of(&plan::MAT_COLOUR)]), "in a custom colour");
        text += ", ";
        text += &surround(&mat.surround, OF_MAT, all);
        if self.is_short {
            return text;
        }
        let [head, foot] =
            [cut.visible_borders.top, cut.visible_borders.bottom].map(|seen| self.length(seen));
        text += &if head == foot {
            [" (", &head, " visible)"].concat()
        } else {
            [" (", &head, " visible at the top, ", &foot, " at the bottom)"].concat()
        };
        text +=
            &all(&[Said(", "), Of(&plan::MAT_OPENING), Said(" "), Of(&plan::MAT_BY), Said(" on each side")]);
        if mat.inner_reveal.is_some() {
            text += &all(&[
                Said(", with a bottom mat of which "),
                Of(&plan::MAT_INNER),
                Said(" shows, in "),
                Of(&plan::MAT_INNER_COLOUR),
            ]);
        }
        text += &[": the mat opening is ", &shown_size(cut.opening.size, self.plan.units)].concat();
        text
    }

    /// The moulding of its frame, and what is proud of it.
    fn frame(&self, frame: &Frame, sizes: &BuildUp, all: All<'_>) -> String {
        let section = Section::of_frame(frame);
        let mut text = all(&[Said(". The frame is a "), Of(&plan::FRAME_SHAPE), Said(" ")]);
        text += section.made_of(self.stock);
        text += " moulding, ";
        text += &section.finish(self.stock);
        text += &all(&[Said(", "), Of(&plan::FRAME_FACE), Said(" wide")]);
        if self.is_short {
            return text;
        }
        text += &all(&[Said(" and "), Of(&plan::FRAME_DEPTH), Said(" deep")]);
        let out = sizes.frame.as_ref().map_or(Length::ZERO, |cut| -cut.spare_depth);
        if out > Length::ZERO {
            text += &["; the package is proud of the frame by ", &shown(out, Grade::Fine, self.plan.units)]
                .concat();
        }
        text
    }

    /// At what height the hooks are.
    fn hooks(&self) -> String {
        let mut heights = self.figures.hanging.iter().flat_map(|hung| &hung.hooks).map(|hook| hook.y);
        let first = heights.next().unwrap_or_default();
        let is_one = heights.clone().next().is_none();
        if heights.all(|height| height == first) {
            let [are, each] = if is_one { ["is ", "it is"] } else { ["are ", "each one is"] };
            let hooks = self.plan.fixing.hanger.at_wall(!is_one);
            let height = self.length(first);
            [" The ", hooks, " ", are, &height, " above the floor; the hanging plan says where ", each, "."]
                .concat()
        } else {
            " The hanging plan says where each hook is.".to_owned()
        }
    }
}

/// So much round an image on each side, or what is left of a sheet; more at the bottom only where there is more.
fn surround(border: &Surround, rows: Around, all: All<'_>) -> String {
    let [extent, width, whole, weighting, foot, ratio] = rows;
    let much = if matches!(border.extent, Extent::Border(_)) { width } else { whole };
    let text = all(&[Of(extent), Said(" "), Of(much)]);
    let much = match border.weighting {
        Weighting::Extra(extra) if extra == Length::ZERO => return text,
        Weighting::Extra(_) => foot,
        Weighting::Ratio { .. } => ratio,
    };
    text + &all(&[Said(", "), Of(weighting), Said(" "), Of(much)])
}

fn floater(there: Option<&Floater>, stock: &Stock, all: All<'_>) -> String {
    let Some(floater) = there else { return "; without a floater frame".to_owned() };
    let section = Section::of_floater(floater, stock);
    ["; in a floater frame of ", &section.made_of_and_finish(stock), ", "].concat()
        + &all(&[
            Of(&plan::FLOATER_FACE),
            Said(" wide and "),
            Of(&plan::FLOATER_DEPTH),
            Said(" deep, with a gap of "),
            Of(&plan::FLOATER_GAP),
            Said(" round it"),
        ])
}
