//! A frame's moulding, as a plan file states it.

use super::*;

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct FrameForm {
    /// Width of the moulding's face.
    face: Text,
    /// Width of the rabbet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rabbet_width: Option<Text>,
    /// Depth of the rabbet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rabbet_depth: Option<Text>,
    /// From the wall to the front.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    depth: Option<Text>,
    /// Play in the rabbet, in total over both sides.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    allowance: Option<Text>,
    /// What it is made of; oak when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    material: Option<MouldingForm>,
    /// How its face is shaped; flat when left out.
    #[serde(default)]
    shape: ShapeForm,
    /// How its face is finished; grain when left out.
    #[serde(default)]
    surface: SurfaceForm,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    colour: Option<ColourForm>,
}

#[derive(Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum ShapeForm {
    #[default]
    Flat,
    Bevelled,
    Scooped,
    Stepped,
    Rounded,
}

const SHAPES: [(ShapeForm, FaceShape); 5] = [
    (ShapeForm::Flat, FaceShape::Flat),
    (ShapeForm::Bevelled, FaceShape::Bevelled),
    (ShapeForm::Scooped, FaceShape::Scooped),
    (ShapeForm::Stepped, FaceShape::Stepped),
    (ShapeForm::Rounded, FaceShape::Rounded),
];

#[derive(Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum SurfaceForm {
    #[default]
    Grain,
    Paint,
    Metal,
    Gilt,
}

const SURFACES: [(SurfaceForm, Surface); 4] = [
    (SurfaceForm::Grain, Surface::Grain),
    (SurfaceForm::Paint, Surface::Paint),
    (SurfaceForm::Metal, Surface::Metal),
    (SurfaceForm::Gilt, Surface::Gilt),
];

/// What stands beside a form in a list of pairs.
fn read_of<F: Copy + PartialEq, T: Copy + Default>(pairs: &[(F, T)], form: F) -> T {
    pairs.iter().find(|(known, _)| *known == form).map_or_else(T::default, |pair| pair.1)
}

/// The form that stands beside a thing in a list of pairs.
fn form_of<F: Copy + Default, T: Copy + PartialEq>(pairs: &[(F, T)], thing: T) -> F {
    pairs.iter().find(|(_, known)| *known == thing).map_or_else(F::default, |pair| pair.0)
}

/// What a moulding is made of.
#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum MouldingForm {
    Pine,
    Obeche,
    Poplar,
    Oak,
    Mdf,
    Aluminium,
}

const MOULDINGS: [(MouldingForm, Material); 6] = [
    (MouldingForm::Pine, Material::Pine),
    (MouldingForm::Obeche, Material::Obeche),
    (MouldingForm::Poplar, Material::Poplar),
    (MouldingForm::Oak, Material::Oak),
    (MouldingForm::Mdf, Material::Mdf),
    (MouldingForm::Aluminium, Material::Aluminium),
];

impl FrameForm {
    pub(super) fn read(self, reader: Reader) -> Read<Frame> {
        let usual = Frame::starting();
        let or = |what, text: &Option<Text>, otherwise| reader.length_or(what, text.as_ref(), otherwise);
        Ok(Frame {
            face: reader.length("frame, face", &self.face)?,
            rabbet_width: or("frame, rabbet width", &self.rabbet_width, usual.rabbet_width)?,
            rabbet_depth: or("frame, rabbet depth", &self.rabbet_depth, usual.rabbet_depth)?,
            depth: or("frame, depth", &self.depth, usual.depth)?,
            allowance: or("frame, allowance", &self.allowance, usual.allowance)?,
            material: self.material.map_or(usual.material, |form| {
                MOULDINGS.iter().find(|(known, _)| *known == form).map_or(usual.material, |entry| entry.1)
            }),
            shape: read_of(&SHAPES, self.shape),
            surface: read_of(&SURFACES, self.surface),
            colour: reader.colour("frame, colour", self.colour, usual.colour)?,
        })
    }

    pub(super) fn of(frame: &Frame) -> Self {
        Self {
            face: Text::of(frame.face),
            rabbet_width: Some(Text::of(frame.rabbet_width)),
            rabbet_depth: Some(Text::of(frame.rabbet_depth)),
            depth: Some(Text::of(frame.depth)),
            allowance: Some(Text::of(frame.allowance)),
            material: MOULDINGS.iter().find(|entry| entry.1 == frame.material).map(|entry| entry.0),
            shape: form_of(&SHAPES, frame.shape),
            surface: form_of(&SURFACES, frame.surface),
            colour: ColourForm::of(frame.colour),
        }
    }
}
