//! The structs behind the plan file, and their conversion to and from the plan, by hand.

use super::*;

/// A length as text with its unit.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(transparent)]
pub(super) struct Text(#[cfg_attr(feature = "schema", schemars(length(min = 1, max = 64)))] String);

impl Text {
    fn of(length: Length) -> Self {
        Self(exact(length))
    }
}

/// Width and height, in that order.
type SizeForm = [Text; 2];

fn size_of(size: Size) -> SizeForm {
    [Text::of(size.width), Text::of(size.height)]
}

/// A plan of Overmantel: pictures on a wall.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel plan"))]
#[serde(deny_unknown_fields)]
pub(super) struct PlanForm {
    /// Version of the form: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 1)))]
    overmantel: u32,
    /// What the plan is called.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 120)))]
    title: String,
    /// The system shown first, in which a length without a unit is read.
    #[serde(default)]
    units: UnitsForm,
    /// Show every length in the other system too.
    #[serde(default)]
    both_units: bool,
    /// The wall.
    wall: WallForm,
    /// Where the viewer stands.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    viewing: Option<ViewingForm>,
    /// What stands before the wall or is let into it.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 24)))]
    fixtures: Vec<FixtureForm>,
    /// The picture files.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(length(max = 12)))]
    pictures: Vec<PictureForm>,
    /// One picture over all pieces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    split: Option<SplitForm>,
    /// One to three pieces, from left to right or from the top down.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 3)))]
    pieces: Vec<PieceForm>,
    /// How they stand together and where.
    group: GroupForm,
    /// What each hangs by.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    fixing: Option<FixingForm>,
    /// One frame for all pieces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    shared: Option<SharedForm>,
    /// Pixels to the inch that a print is wished to have at least; 200 when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 2_400)))]
    fineness: Option<u32>,
    /// A frame that is there already.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    in_hand: Option<InHandForm>,
    /// Width and height that the group may take on the wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    space: Option<SizeForm>,
    /// The place and the way there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    site: Option<SiteForm>,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct SharedForm {
    /// Board between one opening and the next.
    bar: Text,
}

#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum MeasuredForm {
    /// The glass, or the mat or board that came with it.
    Glass,
    /// The rabbet, from wall to wall.
    Rabbet,
    /// The sight opening, from lip to lip.
    Sight,
    /// The outside.
    Outside,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct InHandForm {
    /// What was measured.
    measured: MeasuredForm,
    /// Width and height of that.
    size: SizeForm,
    /// Width of the moulding's face.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    face: Option<Text>,
    /// Width of the rabbet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rabbet_width: Option<Text>,
    /// Play in the rabbet, in total over both sides.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    allowance: Option<Text>,
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
enum UnitsForm {
    #[default]
    Inches,
    Centimetres,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct WallForm {
    /// Width and height.
    size: SizeForm,
    /// Its paint, as #rrggbb.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    paint: Option<ColourForm>,
    /// The floor's colour, as #rrggbb.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    floor: Option<ColourForm>,
    /// Height of the skirting board.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    skirting: Option<Text>,
    /// How it is finished under its paint; smooth when left out.
    #[serde(default, skip_serializing_if = "WallFinishForm::is_smooth")]
    finish: WallFinishForm,
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum WallFinishForm {
    /// Even under its paint.
    #[default]
    Smooth,
    /// Put on by hand.
    Plaster,
}

impl WallFinishForm {
    fn is_smooth(&self) -> bool {
        matches!(self, Self::Smooth)
    }
}

/// An sRGB colour as `#rrggbb`.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(transparent)]
struct ColourForm(#[cfg_attr(feature = "schema", schemars(regex(pattern = r"^#[0-9a-fA-F]{6}$")))] String);

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct ViewingForm {
    /// From the eye to the wall.
    distance: Text,
    /// From the floor to the eye level.
    eye_level: Text,
    /// Where the viewer stands; before the middle of the group when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    aside: Option<AsideForm>,
    /// Draw a figure for scale.
    #[serde(default)]
    figure: bool,
    /// The figure is seated.
    #[serde(default, skip_serializing_if = "is_false")]
    seated: bool,
    /// The room is faintly mirrored in glass and acrylic.
    #[serde(default, skip_serializing_if = "is_false")]
    reflection: bool,
    /// By which light; day when left out.
    #[serde(default)]
    light: LightForm,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "as serde calls it")]
fn is_false(value: &bool) -> bool {
    !value
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum AsideForm {
    /// To the left of the middle of the group, by so much.
    Left(Text),
    /// To its right.
    Right(Text),
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum LightForm {
    /// Daylight from a window.
    #[default]
    Day,
    /// A lamp in the evening.
    Evening,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum KindForm {
    Sofa,
    Sideboard,
    Bed,
    Table,
    Lamp,
    Plant,
    Mantel,
    Radiator,
    Door,
    Window,
    LightSwitch,
    Socket,
    Thermostat,
}

/// Every kind beside its form.
const KINDS: [(KindForm, FixtureKind); 13] = [
    (KindForm::Sofa, FixtureKind::Sofa),
    (KindForm::Sideboard, FixtureKind::Sideboard),
    (KindForm::Bed, FixtureKind::Bed),
    (KindForm::Table, FixtureKind::Table),
    (KindForm::Lamp, FixtureKind::Lamp),
    (KindForm::Plant, FixtureKind::Plant),
    (KindForm::Mantel, FixtureKind::Mantel),
    (KindForm::Radiator, FixtureKind::Radiator),
    (KindForm::Door, FixtureKind::Door),
    (KindForm::Window, FixtureKind::Window),
    (KindForm::LightSwitch, FixtureKind::Switch),
    (KindForm::Socket, FixtureKind::Socket),
    (KindForm::Thermostat, FixtureKind::Thermostat),
];

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum RelationForm {
    Above,
    Clear,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum AcrossForm {
    /// In the middle of the wall.
    Middle,
    /// The left edge from the left corner.
    FromLeft(Text),
    /// The right edge from the right corner.
    FromRight(Text),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct FixtureForm {
    /// What it is.
    kind: KindForm,
    /// Its name, its own among the fixtures; the kind's when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 120)))]
    name: Option<String>,
    /// Width and height; the usual size of its kind when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    size: Option<SizeForm>,
    /// From the wall to its front; the usual depth of its kind when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    depth: Option<Text>,
    /// Where it is along the wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    across: Option<AcrossForm>,
    /// From the floor to its lower edge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    from_floor: Option<Text>,
    /// Whether pictures hang above it or keep clear of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pictures: Option<RelationForm>,
    /// To which side a door opens against the wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    swing: Option<SwingForm>,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct PictureForm {
    /// Its title, its own among the pictures.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 120)))]
    name: String,
    /// The name of its file.
    #[cfg_attr(feature = "schema", schemars(length(max = 240)))]
    file: String,
    /// Width and height of the file in pixels, upright.
    #[cfg_attr(feature = "schema", schemars(inner(range(min = 1, max = 200_000))))]
    pixels: [u32; 2],
    /// What must not be cut: thousandths of the picture from the left and from the top.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(inner(range(max = 1000))))]
    subject: Option<FocusForm>,
    /// The picture itself, reduced: a JPEG in base64. For drawing only; nothing is measured on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(
        feature = "schema",
        schemars(length(max = 1_000_000), regex(pattern = r"^/9j/[A-Za-z0-9+/]*={0,2}$"))
    )]
    copy: Option<String>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum StripsForm {
    Hidden,
    Kept,
}

/// Thousandths of the picture from its left and its upper edge.
type FocusForm = [u16; 2];

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct SplitForm {
    /// Name of the picture.
    picture: String,
    /// What the crop keeps: thousandths of the picture from the left and from the top.
    #[serde(default = "middle")]
    #[cfg_attr(feature = "schema", schemars(inner(range(max = 1000))))]
    focus: FocusForm,
    /// What becomes of the strips behind the gaps: hidden so that lines meet, or kept.
    strips: StripsForm,
}

fn middle() -> FocusForm {
    [500, 500]
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct PieceForm {
    /// Name of the picture; none yet when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    picture: Option<String>,
    /// What the crop keeps: thousandths of the picture from the left and from the top.
    #[serde(default = "middle")]
    #[cfg_attr(feature = "schema", schemars(inner(range(max = 1000))))]
    focus: FocusForm,
    /// Width and height of the printed image.
    image: SizeForm,
    /// What it is made of.
    made: MadeForm,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum ArrangementForm {
    Row,
    Column,
    /// Each so much higher than the one before.
    Stepped(Text),
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum AlignForm {
    Centre,
    /// Upper edges in a row, left edges in a column.
    Start,
    /// Lower edges in a row, right edges in a column.
    End,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum GroupAcrossForm {
    WallMiddle,
    /// Over the middle of the fixture of this name.
    FixtureMiddle(String),
    /// Middle of the group from the left corner.
    CentreAt(Text),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum GroupUpForm {
    EyeLevel,
    /// Middle of the group from the floor.
    CentreAt(Text),
    /// Lower edge above a fixture.
    Above {
        fixture: String,
        clearance: Text,
    },
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct GroupForm {
    arrangement: ArrangementForm,
    /// From outside to outside.
    gap: Text,
    #[serde(default = "centre")]
    align: AlignForm,
    across: GroupAcrossForm,
    up: GroupUpForm,
}

fn centre() -> AlignForm {
    AlignForm::Centre
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum FixingForm {
    /// Two rings on two hooks.
    Rings { inset: Text, down: Text },
    /// A wire over one hook, or over two.
    Wire {
        inset: Text,
        down: Text,
        slack: Text,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        hooks_apart: Option<Text>,
    },
}

mod convert;
mod made;
mod moulding;
mod site;

use convert::{Read, Reader};
use made::MadeForm;
use moulding::FrameForm;
use site::{SiteForm, SwingForm};
