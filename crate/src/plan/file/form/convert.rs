//! Between the plan and its file form.

use super::*;

type Read<T> = Result<T, String>;

impl ColourForm {
    fn of(colour: Colour) -> Option<Self> {
        Some(Self(colour.to_string()))
    }
}

/// Reads the texts of a form; a length without a unit is in `bare`.
#[derive(Clone, Copy)]
struct Reader {
    bare: Unit,
}

impl Reader {
    fn length(self, what: &str, text: &Text) -> Read<Length> {
        parse(&text.0, self.bare).map_err(|why| format!("{what}: {why}"))
    }

    fn length_or(self, what: &str, text: Option<&Text>, otherwise: Length) -> Read<Length> {
        text.map_or(Ok(otherwise), |text| self.length(what, text))
    }

    fn size(self, what: &str, [width, height]: &SizeForm) -> Read<Size> {
        Ok(Size::new(
            self.length(&format!("{what}, width"), width)?,
            self.length(&format!("{what}, height"), height)?,
        ))
    }

    fn colour(self, what: &str, form: Option<ColourForm>, otherwise: Colour) -> Read<Colour> {
        let Some(ColourForm(text)) = form else { return Ok(otherwise) };
        Colour::parse(&text).ok_or_else(|| {
            format!("{what}: \"{text}\" is not a colour; write it as #rrggbb, such as #d5dcd6")
        })
    }
}

fn find<'a>(what: &str, name: &str, mut names: impl Iterator<Item = &'a str>) -> Read<usize> {
    names
        .position(|candidate| candidate == name)
        .ok_or_else(|| format!("{what} refers to \"{name}\", and the plan has nothing of that name"))
}

impl PlanForm {
    pub(in crate::plan::file) fn into_plan(self) -> Read<Plan> {
        let starting = Plan::starting();
        let first = match self.units {
            UnitsForm::Inches => System::Inches,
            UnitsForm::Centimetres => System::Centimetres,
        };
        let reader = Reader { bare: first.bare_unit() };
        let fixtures =
            self.fixtures.into_iter().map(|form| form.read(reader)).collect::<Read<Vec<Fixture>>>()?;
        let pictures: Vec<Picture> = self
            .pictures
            .into_iter()
            .map(|PictureForm { name, file, pixels: [width_px, height_px] }| Picture {
                name,
                file,
                width_px,
                height_px,
            })
            .collect();
        let picture =
            |what: &str, name: &str| find(what, name, pictures.iter().map(|known| known.name.as_str()));
        let split = self
            .split
            .map(|form| {
                Ok::<_, String>(Split {
                    picture: picture("the split", &form.picture)?,
                    focus: focus(form.focus),
                    strips: match form.strips {
                        StripsForm::Hidden => Strips::Hidden,
                        StripsForm::Kept => Strips::Kept,
                    },
                })
            })
            .transpose()?;
        let pieces = self
            .pieces
            .into_iter()
            .enumerate()
            .map(|(index, form)| {
                let what = format!("piece {}", index + 1);
                Ok(Piece {
                    picture: form.picture.as_deref().map(|name| picture(&what, name)).transpose()?,
                    focus: focus(form.focus),
                    image: reader.size(&format!("{what}, image"), &form.image)?,
                    finish: form.made.read(reader).map_err(|why| format!("{what}, {why}"))?,
                })
            })
            .collect::<Read<Vec<Piece>>>()?;
        let group = self.group.read(reader, &fixtures)?;
        Ok(Plan {
            title: self.title,
            units: Units { first, both: self.both_units },
            wall: Wall {
                size: reader.size("the wall", &self.wall.size)?,
                paint: reader.colour("the wall's paint", self.wall.paint, starting.wall.paint)?,
                floor: reader.colour("the floor", self.wall.floor, starting.wall.floor)?,
                skirting: reader.length_or(
                    "the skirting",
                    self.wall.skirting.as_ref(),
                    starting.wall.skirting,
                )?,
            },
            viewing: match self.viewing {
                None => starting.viewing,
                Some(form) => Viewing {
                    distance: reader.length("the viewing distance", &form.distance)?,
                    eye_level: reader.length("the eye level", &form.eye_level)?,
                    figure: form.figure,
                },
            },
            fixtures,
            pictures,
            pieces,
            split,
            group,
            fixing: self.fixing.map_or(Ok(starting.fixing), |form| form.read(reader))?,
        })
    }

    pub(in crate::plan::file) fn from_plan(plan: &Plan) -> Self {
        let picture =
            |index: usize| plan.pictures.get(index).map_or(String::new(), |known| known.name.clone());
        let fixture =
            |index: usize| plan.fixtures.get(index).map_or(String::new(), |known| known.name.clone());
        Self {
            overmantel: VERSION,
            title: plan.title.clone(),
            units: match plan.units.first {
                System::Inches => UnitsForm::Inches,
                System::Centimetres => UnitsForm::Centimetres,
            },
            both_units: plan.units.both,
            wall: WallForm {
                size: size_of(plan.wall.size),
                paint: ColourForm::of(plan.wall.paint),
                floor: ColourForm::of(plan.wall.floor),
                skirting: Some(Text::of(plan.wall.skirting)),
            },
            viewing: Some(ViewingForm {
                distance: Text::of(plan.viewing.distance),
                eye_level: Text::of(plan.viewing.eye_level),
                figure: plan.viewing.figure,
            }),
            fixtures: plan.fixtures.iter().map(FixtureForm::of).collect(),
            pictures: plan
                .pictures
                .iter()
                .map(|picture| PictureForm {
                    name: picture.name.clone(),
                    file: picture.file.clone(),
                    pixels: [picture.width_px, picture.height_px],
                })
                .collect(),
            split: plan.split.map(|split| SplitForm {
                picture: picture(split.picture),
                focus: [split.focus.x_permille, split.focus.y_permille],
                strips: match split.strips {
                    Strips::Hidden => StripsForm::Hidden,
                    Strips::Kept => StripsForm::Kept,
                },
            }),
            pieces: plan
                .pieces
                .iter()
                .map(|piece| PieceForm {
                    picture: piece.picture.map(picture),
                    focus: [piece.focus.x_permille, piece.focus.y_permille],
                    image: size_of(piece.image),
                    made: MadeForm::of(&piece.finish),
                })
                .collect(),
            group: GroupForm {
                arrangement: match plan.group.arrangement {
                    Arrangement::Row => ArrangementForm::Row,
                    Arrangement::Column => ArrangementForm::Column,
                    Arrangement::Stepped(rise) => ArrangementForm::Stepped(Text::of(rise)),
                },
                gap: Text::of(plan.group.gap),
                align: match plan.group.align {
                    Align::Centre => AlignForm::Centre,
                    Align::Start => AlignForm::Start,
                    Align::End => AlignForm::End,
                },
                across: match plan.group.across {
                    GroupAcross::WallMiddle => GroupAcrossForm::WallMiddle,
                    GroupAcross::FixtureMiddle(index) => GroupAcrossForm::FixtureMiddle(fixture(index)),
                    GroupAcross::CentreAt(x) => GroupAcrossForm::CentreAt(Text::of(x)),
                },
                up: match plan.group.up {
                    GroupUp::EyeLevel => GroupUpForm::EyeLevel,
                    GroupUp::CentreAt(y) => GroupUpForm::CentreAt(Text::of(y)),
                    GroupUp::Above { fixture: index, clearance } => {
                        GroupUpForm::Above { fixture: fixture(index), clearance: Text::of(clearance) }
                    }
                },
            },
            fixing: Some(FixingForm::of(plan.fixing)),
        }
    }
}

fn focus([x_permille, y_permille]: FocusForm) -> Focus {
    Focus { x_permille, y_permille }
}

impl FixtureForm {
    fn read(self, reader: Reader) -> Read<Fixture> {
        let kind = KINDS
            .iter()
            .find(|(form, _)| std::mem::discriminant(form) == std::mem::discriminant(&self.kind))
            .map_or(FixtureKind::Sofa, |&(_, kind)| kind);
        let usual = Fixture::starting(kind);
        let name = self.name.unwrap_or_else(|| usual.name.clone());
        Ok(Fixture {
            size: match &self.size {
                None => usual.size,
                Some(size) => reader.size(&name, size)?,
            },
            across: match &self.across {
                None => usual.across,
                Some(AcrossForm::Middle) => Across::Middle,
                Some(AcrossForm::FromLeft(x)) => Across::FromLeft(reader.length(&name, x)?),
                Some(AcrossForm::FromRight(x)) => Across::FromRight(reader.length(&name, x)?),
            },
            from_floor: reader.length_or(&name, self.from_floor.as_ref(), usual.from_floor)?,
            relation: match self.pictures {
                None => usual.relation,
                Some(RelationForm::Above) => Relation::HangAbove,
                Some(RelationForm::Clear) => Relation::KeepClear,
            },
            name,
            kind,
        })
    }

    fn of(fixture: &Fixture) -> Self {
        Self {
            kind: KINDS
                .iter()
                .find(|(_, kind)| *kind == fixture.kind)
                .map_or(KindForm::Sofa, |&(form, _)| form),
            name: Some(fixture.name.clone()),
            size: Some(size_of(fixture.size)),
            across: Some(match fixture.across {
                Across::Middle => AcrossForm::Middle,
                Across::FromLeft(x) => AcrossForm::FromLeft(Text::of(x)),
                Across::FromRight(x) => AcrossForm::FromRight(Text::of(x)),
            }),
            from_floor: Some(Text::of(fixture.from_floor)),
            pictures: Some(match fixture.relation {
                Relation::HangAbove => RelationForm::Above,
                Relation::KeepClear => RelationForm::Clear,
            }),
        }
    }
}

impl MadeForm {
    fn read(self, reader: Reader) -> Read<Finish> {
        Ok(match self {
            Self::Paper(form) => Finish::Paper(form.read(reader)?),
            Self::Canvas(form) => Finish::Canvas(Canvas {
                depth: reader.length("depth", &form.depth)?,
                edge: match form.edge {
                    EdgeForm::Carried => Edge::Carried,
                    EdgeForm::Mirrored => Edge::Mirrored,
                    EdgeForm::Plain(colour) => {
                        Edge::Plain(reader.colour("edge", Some(colour), Colour::hex(0xff_ff_ff))?)
                    }
                },
                fold: reader.length_or("fold", form.fold.as_ref(), Canvas::starting().fold)?,
                floater: form
                    .floater
                    .map(|form| {
                        let usual = Floater::starting();
                        Ok::<_, String>(Floater {
                            gap: reader.length("floater, gap", &form.gap)?,
                            face: reader.length("floater, face", &form.face)?,
                            depth: reader.length_or("floater, depth", form.depth.as_ref(), usual.depth)?,
                            colour: reader.colour("floater, colour", form.colour, usual.colour)?,
                        })
                    })
                    .transpose()?,
            }),
            Self::Aluminium(form) => Finish::Aluminium(Aluminium {
                thickness: reader.length("thickness", &form.thickness)?,
                stand_off: reader.length("stand-off", &form.stand_off)?,
            }),
            Self::Original(form) => {
                Finish::Original(Original { depth: reader.length("depth", &form.depth)? })
            }
        })
    }

    fn of(finish: &Finish) -> Self {
        match finish {
            Finish::Paper(paper) => Self::Paper(PaperForm::of(paper)),
            Finish::Canvas(canvas) => Self::Canvas(CanvasForm {
                depth: Text::of(canvas.depth),
                edge: match canvas.edge {
                    Edge::Carried => EdgeForm::Carried,
                    Edge::Mirrored => EdgeForm::Mirrored,
                    Edge::Plain(colour) => EdgeForm::Plain(ColourForm(colour.to_string())),
                },
                fold: Some(Text::of(canvas.fold)),
                floater: canvas.floater.as_ref().map(|floater| FloaterForm {
                    gap: Text::of(floater.gap),
                    face: Text::of(floater.face),
                    depth: Some(Text::of(floater.depth)),
                    colour: ColourForm::of(floater.colour),
                }),
            }),
            Finish::Aluminium(sheet) => Self::Aluminium(AluminiumForm {
                thickness: Text::of(sheet.thickness),
                stand_off: Text::of(sheet.stand_off),
            }),
            Finish::Original(original) => Self::Original(OriginalForm { depth: Text::of(original.depth) }),
        }
    }
}

impl PaperForm {
    fn read(self, reader: Reader) -> Read<Paper> {
        Ok(Paper {
            border: reader.length_or("border", self.border.as_ref(), Length::ZERO)?,
            mat: self.mat.map(|form| form.read(reader)).transpose()?,
            frame: self.frame.map(|form| form.read(reader)).transpose()?,
            glazing: match self.glazing {
                None | Some(GlazingForm::None) => Glazing::None,
                Some(GlazingForm::Glass(thickness)) => Glazing::Glass(reader.length("glass", &thickness)?),
                Some(GlazingForm::Acrylic(thickness)) => {
                    Glazing::Acrylic(reader.length("acrylic", &thickness)?)
                }
            },
        })
    }

    fn of(paper: &Paper) -> Self {
        Self {
            border: Some(Text::of(paper.border)),
            mat: paper.mat.as_ref().map(MatForm::of),
            frame: paper.frame.as_ref().map(FrameForm::of),
            glazing: Some(match paper.glazing {
                Glazing::None => GlazingForm::None,
                Glazing::Glass(thickness) => GlazingForm::Glass(Text::of(thickness)),
                Glazing::Acrylic(thickness) => GlazingForm::Acrylic(Text::of(thickness)),
            }),
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
            extent: match &self.extent {
                ExtentForm::Border(border) => MatExtent::Border(reader.length("mat, border", border)?),
                ExtentForm::Board(size) => MatExtent::Board(reader.size("mat, board", size)?),
            },
            foot_extra: reader.length_or("mat, foot", self.foot_extra.as_ref(), Length::ZERO)?,
            inner_reveal: self
                .inner_reveal
                .as_ref()
                .map(|text| reader.length("mat, inner reveal", text))
                .transpose()?,
            thickness: reader.length_or("mat, thickness", self.thickness.as_ref(), usual.thickness)?,
            colour: reader.colour("mat, colour", self.colour, usual.colour)?,
        })
    }

    fn of(mat: &Mat) -> Self {
        Self {
            opening: match mat.opening {
                OpeningRule::Overlap(by) => OpeningForm::Overlap(Text::of(by)),
                OpeningRule::Reveal(by) => OpeningForm::Reveal(Text::of(by)),
                OpeningRule::Float(by) => OpeningForm::Float(Text::of(by)),
            },
            extent: match mat.extent {
                MatExtent::Border(border) => ExtentForm::Border(Text::of(border)),
                MatExtent::Board(size) => ExtentForm::Board(size_of(size)),
            },
            foot_extra: Some(Text::of(mat.foot_extra)),
            inner_reveal: mat.inner_reveal.map(Text::of),
            thickness: Some(Text::of(mat.thickness)),
            colour: ColourForm::of(mat.colour),
        }
    }
}

impl FrameForm {
    fn read(self, reader: Reader) -> Read<Frame> {
        let usual = Frame::starting();
        let or = |what, text: &Option<Text>, otherwise| reader.length_or(what, text.as_ref(), otherwise);
        Ok(Frame {
            face: reader.length("frame, face", &self.face)?,
            rabbet_width: or("frame, rabbet width", &self.rabbet_width, usual.rabbet_width)?,
            rabbet_depth: or("frame, rabbet depth", &self.rabbet_depth, usual.rabbet_depth)?,
            depth: or("frame, depth", &self.depth, usual.depth)?,
            allowance: or("frame, allowance", &self.allowance, usual.allowance)?,
            colour: reader.colour("frame, colour", self.colour, usual.colour)?,
        })
    }

    fn of(frame: &Frame) -> Self {
        Self {
            face: Text::of(frame.face),
            rabbet_width: Some(Text::of(frame.rabbet_width)),
            rabbet_depth: Some(Text::of(frame.rabbet_depth)),
            depth: Some(Text::of(frame.depth)),
            allowance: Some(Text::of(frame.allowance)),
            colour: ColourForm::of(frame.colour),
        }
    }
}

impl GroupForm {
    fn read(self, reader: Reader, fixtures: &[Fixture]) -> Read<Group> {
        let fixture = |name: &str| find("the group", name, fixtures.iter().map(|known| known.name.as_str()));
        Ok(Group {
            arrangement: match &self.arrangement {
                ArrangementForm::Row => Arrangement::Row,
                ArrangementForm::Column => Arrangement::Column,
                ArrangementForm::Stepped(rise) => Arrangement::Stepped(reader.length("the step", rise)?),
            },
            gap: reader.length("the gap", &self.gap)?,
            align: match self.align {
                AlignForm::Centre => Align::Centre,
                AlignForm::Start => Align::Start,
                AlignForm::End => Align::End,
            },
            across: match &self.across {
                GroupAcrossForm::WallMiddle => GroupAcross::WallMiddle,
                GroupAcrossForm::FixtureMiddle(name) => GroupAcross::FixtureMiddle(fixture(name)?),
                GroupAcrossForm::CentreAt(x) => {
                    GroupAcross::CentreAt(reader.length("the group's middle", x)?)
                }
            },
            up: match &self.up {
                GroupUpForm::EyeLevel => GroupUp::EyeLevel,
                GroupUpForm::CentreAt(y) => GroupUp::CentreAt(reader.length("the group's centre height", y)?),
                GroupUpForm::Above { fixture: name, clearance } => GroupUp::Above {
                    fixture: fixture(name)?,
                    clearance: reader.length("the clearance", clearance)?,
                },
            },
        })
    }
}

impl FixingForm {
    fn read(self, reader: Reader) -> Read<Fixing> {
        let length = |what, text: &Text| reader.length(what, text);
        Ok(match &self {
            Self::Rings { inset, down } => {
                Fixing::Rings { inset: length("rings, inset", inset)?, down: length("rings, down", down)? }
            }
            Self::Wire { inset, down, slack, hooks_apart } => Fixing::Wire {
                inset: length("wire, inset", inset)?,
                down: length("wire, down", down)?,
                slack: length("wire, slack", slack)?,
                hooks_apart: hooks_apart
                    .as_ref()
                    .map(|text| length("wire, hooks apart", text))
                    .transpose()?,
            },
        })
    }

    fn of(fixing: Fixing) -> Self {
        match fixing {
            Fixing::Rings { inset, down } => Self::Rings { inset: Text::of(inset), down: Text::of(down) },
            Fixing::Wire { inset, down, slack, hooks_apart } => Self::Wire {
                inset: Text::of(inset),
                down: Text::of(down),
                slack: Text::of(slack),
                hooks_apart: hooks_apart.map(Text::of),
            },
        }
    }
}
