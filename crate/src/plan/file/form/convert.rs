//! Between the plan and its file form.

use super::*;

pub(super) type Read<T> = Result<T, String>;

impl ColourForm {
    pub(super) fn of(colour: Colour) -> Option<Self> {
        Some(Self(colour.to_string()))
    }
}

/// Reads the texts of a form; a length without a unit is in `bare`.
#[derive(Clone, Copy)]
pub(super) struct Reader {
    bare: Unit,
}

impl Reader {
    pub(super) fn length(self, what: &str, text: &Text) -> Read<Length> {
        parse(&text.0, self.bare).map_err(|why| format!("{what}: {why}"))
    }

    pub(super) fn length_or(self, what: &str, text: Option<&Text>, otherwise: Length) -> Read<Length> {
        text.map_or(Ok(otherwise), |text| self.length(what, text))
    }

    pub(super) fn size(self, what: &str, [width, height]: &SizeForm) -> Read<Size> {
        Ok(Size::new(
            self.length(&format!("{what}, width"), width)?,
            self.length(&format!("{what}, height"), height)?,
        ))
    }

    pub(super) fn colour(self, what: &str, form: Option<ColourForm>, otherwise: Colour) -> Read<Colour> {
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
    /// The copy of each picture, which is no part of the plan.
    pub(in crate::plan::file) fn copies(&mut self) -> impl Iterator<Item = (&str, &mut Option<String>)> {
        self.pictures.iter_mut().map(|picture| (picture.name.as_str(), &mut picture.copy))
    }

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
            .map(|PictureForm { name, file, pixels: [width_px, height_px], subject, copy: _ }| Picture {
                name,
                file,
                width_px,
                height_px,
                subject: subject.map(focus),
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
                finish: match self.wall.finish {
                    WallFinishForm::Smooth => WallFinish::Smooth,
                    WallFinishForm::Plaster => WallFinish::Plaster,
                },
            },
            viewing: match self.viewing {
                None => starting.viewing,
                Some(form) => Viewing {
                    distance: reader.length("the viewing distance", &form.distance)?,
                    eye_level: reader.length("the eye level", &form.eye_level)?,
                    aside: match form.aside {
                        None => Aside::Straight,
                        Some(AsideForm::Left(by)) => {
                            Aside::Left(reader.length("the viewer's way to the side", &by)?)
                        }
                        Some(AsideForm::Right(by)) => {
                            Aside::Right(reader.length("the viewer's way to the side", &by)?)
                        }
                    },
                    figure: match (form.figure, form.seated) {
                        (false, _) => None,
                        (true, false) => Some(Posture::Standing),
                        (true, true) => Some(Posture::Seated),
                    },
                    reflection: form.reflection,
                    light: match form.light {
                        LightForm::Day => LightOf::Day,
                        LightForm::Evening => LightOf::Evening,
                    },
                },
            },
            fixtures,
            pictures,
            pieces,
            split,
            group,
            fixing: self.fixing.map_or(Ok(starting.fixing), |form| form.read(reader))?,
            shared: self
                .shared
                .map(|form| Ok::<_, String>(Shared { bar: reader.length("the bar", &form.bar)? }))
                .transpose()?,
            fineness: self.fineness.unwrap_or(starting.fineness),
            in_hand: self.in_hand.map(|form| form.read(reader)).transpose()?,
            space: self.space.map(|form| reader.size("the space on the wall", &form)).transpose()?,
            site: self.site.map_or(Ok(Site::default()), |form| form.read(reader))?,
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
                finish: match plan.wall.finish {
                    WallFinish::Smooth => WallFinishForm::Smooth,
                    WallFinish::Plaster => WallFinishForm::Plaster,
                },
            },
            viewing: Some(ViewingForm {
                distance: Text::of(plan.viewing.distance),
                eye_level: Text::of(plan.viewing.eye_level),
                aside: match plan.viewing.aside {
                    Aside::Straight => None,
                    Aside::Left(by) => Some(AsideForm::Left(Text::of(by))),
                    Aside::Right(by) => Some(AsideForm::Right(Text::of(by))),
                },
                figure: plan.viewing.figure.is_some(),
                seated: plan.viewing.figure == Some(Posture::Seated),
                reflection: plan.viewing.reflection,
                light: match plan.viewing.light {
                    LightOf::Day => LightForm::Day,
                    LightOf::Evening => LightForm::Evening,
                },
            }),
            fixtures: plan.fixtures.iter().map(FixtureForm::of).collect(),
            pictures: plan
                .pictures
                .iter()
                .map(|picture| PictureForm {
                    name: picture.name.clone(),
                    file: picture.file.clone(),
                    pixels: [picture.width_px, picture.height_px],
                    subject: picture.subject.map(|focus| [focus.x_permille, focus.y_permille]),
                    copy: None,
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
            shared: plan.shared.map(|shared| SharedForm { bar: Text::of(shared.bar) }),
            fineness: Some(plan.fineness),
            in_hand: plan.in_hand.as_ref().map(InHandForm::of),
            space: plan.space.map(size_of),
            site: SiteForm::of(&plan.site),
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
            depth: reader.length_or(&name, self.depth.as_ref(), usual.depth)?,
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
            swing: SwingForm::read(self.swing),
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
            depth: Some(Text::of(fixture.depth)),
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
            swing: SwingForm::of(fixture.swing),
        }
    }
}

/// What can be measured of a frame beside its form.
const MEASURED: [(MeasuredForm, Measured); 4] = [
    (MeasuredForm::Glass, Measured::Glass),
    (MeasuredForm::Rabbet, Measured::Rabbet),
    (MeasuredForm::Sight, Measured::Sight),
    (MeasuredForm::Outside, Measured::Outside),
];

impl InHandForm {
    fn read(self, reader: Reader) -> Read<InHand> {
        let usual = InHand::starting();
        let or = |what, text: &Option<Text>, otherwise| reader.length_or(what, text.as_ref(), otherwise);
        Ok(InHand {
            measured: MEASURED
                .iter()
                .find(|(form, _)| *form == self.measured)
                .map_or(usual.measured, |entry| entry.1),
            size: reader.size("the frame in hand", &self.size)?,
            face: or("the frame in hand, face", &self.face, usual.face)?,
            rabbet_width: or("the frame in hand, rabbet width", &self.rabbet_width, usual.rabbet_width)?,
            allowance: or("the frame in hand, allowance", &self.allowance, usual.allowance)?,
        })
    }

    fn of(stated: &InHand) -> Self {
        Self {
            measured: MEASURED
                .iter()
                .find(|entry| entry.1 == stated.measured)
                .map_or(MeasuredForm::Glass, |entry| entry.0),
            size: size_of(stated.size),
            face: Some(Text::of(stated.face)),
            rabbet_width: Some(Text::of(stated.rabbet_width)),
            allowance: Some(Text::of(stated.allowance)),
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
