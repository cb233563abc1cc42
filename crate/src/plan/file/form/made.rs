//! What a piece is made of, as a plan file states it, and its conversion to and from the plan.

use super::*;

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub(super) enum MadeForm {
    /// A print on paper.
    Paper(Box<PaperForm>),
    /// A print on stretched canvas.
    Canvas(CanvasForm),
    /// A print on aluminium.
    Aluminium(AluminiumForm),
    /// The original.
    Original(Box<OriginalForm>),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct PaperForm {
    /// White paper on each side of the image; the foot as its weighting says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    border: Option<Text>,
    /// Width and height of the sheet, in place of `border`: the borders are what is left over.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sheet: Option<SizeForm>,
    /// By how much the foot's border is wider than the head's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    foot_extra: Option<Text>,
    /// In place of that: parts at the head and at the foot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(inner(range(min = 1, max = 100))))]
    foot_ratio: Option<[u16; 2]>,
    /// Grams to the square metre; 310 when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(max = 2_000)))]
    grammage: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    mat: Option<MatForm>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    frame: Option<FrameForm>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    glazing: Option<GlazingForm>,
    /// Fillets that hold the glazing off what is behind it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spacer: Option<Text>,
    /// The board that the work is hinged to; the usual one in a frame when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    mount: Option<BoardForm>,
    /// The board that closes the frame; the usual one in a frame when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    backing: Option<BoardForm>,
}

/// Mat, frame and what goes with them, as for a print on paper.
#[derive(Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct FramingForm {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    mat: Option<MatForm>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    frame: Option<FrameForm>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    glazing: Option<GlazingForm>,
    /// Fillets that hold the glazing off what is behind it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spacer: Option<Text>,
    /// The board that the work is hinged to; the usual one in a frame when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    mount: Option<BoardForm>,
    /// The board that closes the frame; the usual one in a frame when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    backing: Option<BoardForm>,
}

/// A board by its material and thickness, or none.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum BoardForm {
    None,
    MatBoard(Text),
    FoamBoard(Text),
    FlutedBoard(Text),
    Hardboard(Text),
    Mdf(Text),
    AluminiumComposite(Text),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum OpeningForm {
    /// The mat covers so much of the sheet on each side.
    Overlap(Text),
    /// So much white border shows round the image.
    Reveal(Text),
    /// The sheet floats with so much air on each side.
    Float(Text),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum ExtentForm {
    /// So much board on each side of the opening.
    Border(Text),
    /// A board of this width and height.
    Board(SizeForm),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct MatForm {
    opening: OpeningForm,
    extent: ExtentForm,
    /// By how much the foot is wider than the head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    foot_extra: Option<Text>,
    /// In place of that: parts at the head and at the foot.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(inner(range(min = 1, max = 100))))]
    foot_ratio: Option<[u16; 2]>,
    /// How much of an inner mat shows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    inner_reveal: Option<Text>,
    /// Thickness of the board.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    thickness: Option<Text>,
    /// Colour of its face.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    colour: Option<ColourForm>,
    /// Colour of the inner mat's face; that of the board when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    inner_colour: Option<ColourForm>,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum GlazingForm {
    None,
    /// Glass of this thickness.
    Glass(Text),
    /// Acrylic of this thickness.
    Acrylic(Text),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum EdgeForm {
    /// The picture is carried round.
    Carried,
    /// The face is repeated in mirror image.
    Mirrored,
    /// A plain colour.
    Plain(ColourForm),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct CanvasForm {
    /// Depth of the bars.
    depth: Text,
    edge: EdgeForm,
    /// Cloth behind the bars on each side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    fold: Option<Text>,
    /// Weight of the cloth in grams to the square metre; 400 when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(max = 2_000)))]
    grammage: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    floater: Option<FloaterForm>,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct FloaterForm {
    /// Air on each side.
    gap: Text,
    /// Width of the face.
    face: Text,
    /// From the wall to the front.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    depth: Option<Text>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    colour: Option<ColourForm>,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct AluminiumForm {
    thickness: Text,
    /// From the wall to the back of the sheet.
    stand_off: Text,
    /// Radius of its corners; square when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    corner_radius: Option<Text>,
    /// A frame of bars behind it; float blocks when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sub_frame: Option<SubFrameForm>,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct SubFrameForm {
    /// From each edge of the sheet to the bars.
    inset: Text,
    /// Width of the bars.
    width: Text,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct OriginalForm {
    /// From its back to its front.
    depth: Text,
    /// Mat, frame and what goes with them, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    framed: Option<FramingForm>,
    /// A floater frame, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    floater: Option<FloaterForm>,
}

impl MadeForm {
    pub(super) fn read(self, reader: Reader) -> Read<Finish> {
        Ok(match self {
            Self::Paper(form) => Finish::Paper(form.read(reader)?),
            Self::Canvas(form) => {
                let usual = Canvas::starting();
                let depth = reader.length("depth", &form.depth)?;
                Finish::Canvas(Canvas {
                    depth,
                    edge: match form.edge {
                        EdgeForm::Carried => Edge::Carried,
                        EdgeForm::Mirrored => Edge::Mirrored,
                        EdgeForm::Plain(colour) => {
                            Edge::Plain(reader.colour("edge", Some(colour), Colour::hex(0xff_ff_ff))?)
                        }
                    },
                    fold: reader.length_or("fold", form.fold.as_ref(), usual.fold)?,
                    grammage: form.grammage.unwrap_or(usual.grammage),
                    floater: form.floater.map(|form| form.read(reader, depth)).transpose()?,
                })
            }
            Self::Aluminium(form) => Finish::Aluminium(Aluminium {
                thickness: reader.length("thickness", &form.thickness)?,
                stand_off: reader.length("stand-off", &form.stand_off)?,
                corner_radius: reader.length_or(
                    "corner radius",
                    form.corner_radius.as_ref(),
                    Length::ZERO,
                )?,
                sub_frame: form
                    .sub_frame
                    .map(|SubFrameForm { inset, width }| {
                        Ok::<_, String>(SubFrame {
                            inset: reader.length("sub-frame, inset", &inset)?,
                            width: reader.length("sub-frame, width", &width)?,
                        })
                    })
                    .transpose()?,
            }),
            Self::Original(form) => {
                let depth = reader.length("depth", &form.depth)?;
                Finish::Original(Original {
                    depth,
                    framing: form.framed.map_or(Ok(Framing::NONE), |form| form.read(reader))?,
                    floater: form.floater.map(|form| form.read(reader, depth)).transpose()?,
                })
            }
        })
    }

    pub(super) fn of(finish: &Finish) -> Self {
        match finish {
            Finish::Paper(paper) => Self::Paper(Box::new(PaperForm::of(paper))),
            Finish::Canvas(canvas) => Self::Canvas(CanvasForm {
                depth: Text::of(canvas.depth),
                edge: match canvas.edge {
                    Edge::Carried => EdgeForm::Carried,
                    Edge::Mirrored => EdgeForm::Mirrored,
                    Edge::Plain(colour) => EdgeForm::Plain(ColourForm(colour.to_string())),
                },
                fold: Some(Text::of(canvas.fold)),
                grammage: Some(canvas.grammage),
                floater: canvas.floater.as_ref().map(FloaterForm::of),
            }),
            Finish::Aluminium(sheet) => Self::Aluminium(AluminiumForm {
                thickness: Text::of(sheet.thickness),
                stand_off: Text::of(sheet.stand_off),
                corner_radius: Some(Text::of(sheet.corner_radius)),
                sub_frame: sheet
                    .sub_frame
                    .map(|bars| SubFrameForm { inset: Text::of(bars.inset), width: Text::of(bars.width) }),
            }),
            Finish::Original(original) => Self::Original(Box::new(OriginalForm {
                depth: Text::of(original.depth),
                framed: (original.framing != Framing::NONE).then(|| FramingForm::of(&original.framing)),
                floater: original.floater.as_ref().map(FloaterForm::of),
            })),
        }
    }
}

impl FloaterForm {
    /// For a work of this depth, which gives the frame's own where none is stated.
    fn read(self, reader: Reader, work: Length) -> Read<Floater> {
        let usual = Floater::round(work);
        Ok(Floater {
            gap: reader.length("floater, gap", &self.gap)?,
            face: reader.length("floater, face", &self.face)?,
            depth: reader.length_or("floater, depth", self.depth.as_ref(), usual.depth)?,
            colour: reader.colour("floater, colour", self.colour, usual.colour)?,
        })
    }

    fn of(floater: &Floater) -> Self {
        Self {
            gap: Text::of(floater.gap),
            face: Text::of(floater.face),
            depth: Some(Text::of(floater.depth)),
            colour: ColourForm::of(floater.colour),
        }
    }
}

/// A weighting as a file states it: an amount, a ratio of head to foot, or neither.
fn weighting(reader: Reader, what: &str, extra: Option<&Text>, ratio: Option<[u16; 2]>) -> Read<Weighting> {
    match (extra, ratio) {
        (None, None) => Ok(Weighting::EVEN),
        (Some(extra), None) => Ok(Weighting::Extra(reader.length(&format!("{what}, foot"), extra)?)),
        (None, Some([head, foot])) => Ok(Weighting::Ratio { head, foot }),
        (Some(_), Some(_)) => {
            Err(format!("{what} has both a foot_extra and a foot_ratio; state one of the two"))
        }
    }
}

/// The same, to be written.
fn weighting_of(weighting: Weighting) -> (Option<Text>, Option<[u16; 2]>) {
    match weighting {
        Weighting::Extra(extra) => (Some(Text::of(extra)), None),
        Weighting::Ratio { head, foot } => (None, Some([head, foot])),
    }
}

impl PaperForm {
    fn read(self, reader: Reader) -> Read<Paper> {
        let extent = match (&self.border, &self.sheet) {
            (Some(_), Some(_)) => {
                return Err(String::from(
                    "the paper has both a border and a sheet; state one of the two, the other follows",
                ));
            }
            (None, Some(sheet)) => Extent::Whole(reader.size("sheet", sheet)?),
            (border, None) => Extent::Border(reader.length_or("border", border.as_ref(), Length::ZERO)?),
        };
        let weighting = weighting(reader, "the paper", self.foot_extra.as_ref(), self.foot_ratio)?;
        let Self { grammage, mat, frame, glazing, spacer, mount, backing, .. } = self;
        Ok(Paper {
            border: Surround { extent, weighting },
            grammage: grammage.unwrap_or(Paper::starting().grammage),
            framing: FramingForm { mat, frame, glazing, spacer, mount, backing }.read(reader)?,
        })
    }

    fn of(paper: &Paper) -> Self {
        let (foot_extra, foot_ratio) = weighting_of(paper.border.weighting);
        let (border, sheet) = match paper.border.extent {
            Extent::Border(border) => (Some(Text::of(border)), None),
            Extent::Whole(sheet) => (None, Some(size_of(sheet))),
        };
        let FramingForm { mat, frame, glazing, spacer, mount, backing } = FramingForm::of(&paper.framing);
        let grammage = Some(paper.grammage);
        Self { border, sheet, foot_extra, foot_ratio, grammage, mat, frame, glazing, spacer, mount, backing }
    }
}

impl FramingForm {
    fn read(self, reader: Reader) -> Read<Framing> {
        // Files from before boards were stated have the usual ones in their frames.
        let usual = if self.frame.is_some() { Framing::starting() } else { Framing::NONE };
        Ok(Framing {
            mat: self.mat.map(|form| form.read(reader)).transpose()?,
            frame: self.frame.map(|form| form.read(reader)).transpose()?,
            glazing: match self.glazing {
                None | Some(GlazingForm::None) => Glazing::None,
                Some(GlazingForm::Glass(thickness)) => Glazing::Glass(reader.length("glass", &thickness)?),
                Some(GlazingForm::Acrylic(thickness)) => {
                    Glazing::Acrylic(reader.length("acrylic", &thickness)?)
                }
            },
            spacer: reader.length_or("spacer", self.spacer.as_ref(), Length::ZERO)?,
            mount: self.mount.map_or(Ok(usual.mount), |form| form.read("mount", reader))?,
            backing: self.backing.map_or(Ok(usual.backing), |form| form.read("backing", reader))?,
        })
    }

    fn of(framing: &Framing) -> Self {
        Self {
            mat: framing.mat.as_ref().map(MatForm::of),
            frame: framing.frame.as_ref().map(FrameForm::of),
            glazing: Some(match framing.glazing {
                Glazing::None => GlazingForm::None,
                Glazing::Glass(thickness) => GlazingForm::Glass(Text::of(thickness)),
                Glazing::Acrylic(thickness) => GlazingForm::Acrylic(Text::of(thickness)),
            }),
            spacer: Some(Text::of(framing.spacer)),
            mount: Some(BoardForm::of(framing.mount)),
            backing: Some(BoardForm::of(framing.backing)),
        }
    }
}

impl BoardForm {
    fn read(self, what: &str, reader: Reader) -> Read<Option<Board>> {
        let (material, thickness) = match self {
            Self::None => return Ok(None),
            Self::MatBoard(thickness) => (Material::MatBoard, thickness),
            Self::FoamBoard(thickness) => (Material::FoamBoard, thickness),
            Self::FlutedBoard(thickness) => (Material::FlutedBoard, thickness),
            Self::Hardboard(thickness) => (Material::Hardboard, thickness),
            Self::Mdf(thickness) => (Material::Mdf, thickness),
            Self::AluminiumComposite(thickness) => (Material::AluminiumComposite, thickness),
        };
        Ok(Some(Board { material, thickness: reader.length(what, &thickness)? }))
    }

    fn of(board: Option<Board>) -> Self {
        let Some(Board { material, thickness }) = board else { return Self::None };
        let thickness = Text::of(thickness);
        match material {
            Material::FoamBoard => Self::FoamBoard(thickness),
            Material::FlutedBoard => Self::FlutedBoard(thickness),
            Material::Hardboard => Self::Hardboard(thickness),
            Material::Mdf => Self::Mdf(thickness),
            Material::AluminiumComposite => Self::AluminiumComposite(thickness),
            _ => Self::MatBoard(thickness),
        }
    }
}

impl MatForm {
    fn read(self, reader: Reader) -> Read<Mat> {
        let usual = Mat::starting();
        Ok(Mat {
            opening: match &self.opening {
                OpeningForm::Overlap(by) => OpeningRule::Overlap(reader.length("mat, overlap", by)?),
                OpeningForm::Reveal(by) => OpeningRule::Reveal(reader.length("mat, reveal", by)?),
                OpeningForm::Float(by) => OpeningRule::Float(reader.length("mat, float", by)?),
            },
            surround: Surround {
                extent: match &self.extent {
                    ExtentForm::Border(border) => Extent::Border(reader.length("mat, border", border)?),
                    ExtentForm::Board(size) => Extent::Whole(reader.size("mat, board", size)?),
                },
                weighting: weighting(reader, "the mat", self.foot_extra.as_ref(), self.foot_ratio)?,
            },
            inner_reveal: self
                .inner_reveal
                .as_ref()
                .map(|text| reader.length("mat, inner reveal", text))
                .transpose()?,
            thickness: reader.length_or("mat, thickness", self.thickness.as_ref(), usual.thickness)?,
            colour: reader.colour("mat, colour", self.colour, usual.colour)?,
            inner_colour: self
                .inner_colour
                .map(|form| reader.colour("mat, inner colour", Some(form), usual.colour))
                .transpose()?,
        })
    }

    fn of(mat: &Mat) -> Self {
        let (foot_extra, foot_ratio) = weighting_of(mat.surround.weighting);
        Self {
            opening: match mat.opening {
                OpeningRule::Overlap(by) => OpeningForm::Overlap(Text::of(by)),
                OpeningRule::Reveal(by) => OpeningForm::Reveal(Text::of(by)),
                OpeningRule::Float(by) => OpeningForm::Float(Text::of(by)),
            },
            extent: match mat.surround.extent {
                Extent::Border(border) => ExtentForm::Border(Text::of(border)),
                Extent::Whole(size) => ExtentForm::Board(size_of(size)),
            },
            foot_extra,
            foot_ratio,
            inner_reveal: mat.inner_reveal.map(Text::of),
            thickness: Some(Text::of(mat.thickness)),
            colour: ColourForm::of(mat.colour),
            inner_colour: mat.inner_colour.and_then(ColourForm::of),
        }
    }
}
