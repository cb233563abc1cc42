//! The rows of each list in the stock file.

use super::*;

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "lowercase")]
pub(super) enum SystemForm {
    #[default]
    Inches,
    Centimetres,
}

impl From<SystemForm> for System {
    fn from(form: SystemForm) -> Self {
        match form {
            SystemForm::Inches => Self::Inches,
            SystemForm::Centimetres => Self::Centimetres,
        }
    }
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum MaterialForm {
    Glass,
    Acrylic,
    MatBoard,
    FoamBoard,
    FlutedBoard,
    Hardboard,
    Mdf,
    Pine,
    Obeche,
    Poplar,
    Oak,
    Aluminium,
    AluminiumComposite,
}

impl MaterialForm {
    fn of(material: Material) -> Self {
        match material {
            Material::Glass => Self::Glass,
            Material::Acrylic => Self::Acrylic,
            Material::MatBoard => Self::MatBoard,
            Material::FoamBoard => Self::FoamBoard,
            Material::FlutedBoard => Self::FlutedBoard,
            Material::Hardboard => Self::Hardboard,
            Material::Mdf => Self::Mdf,
            Material::Pine => Self::Pine,
            Material::Obeche => Self::Obeche,
            Material::Poplar => Self::Poplar,
            Material::Oak => Self::Oak,
            Material::Aluminium => Self::Aluminium,
            Material::AluminiumComposite => Self::AluminiumComposite,
        }
    }

    fn material(self) -> Material {
        match self {
            Self::Glass => Material::Glass,
            Self::Acrylic => Material::Acrylic,
            Self::MatBoard => Material::MatBoard,
            Self::FoamBoard => Material::FoamBoard,
            Self::FlutedBoard => Material::FlutedBoard,
            Self::Hardboard => Material::Hardboard,
            Self::Mdf => Material::Mdf,
            Self::Pine => Material::Pine,
            Self::Obeche => Material::Obeche,
            Self::Poplar => Material::Poplar,
            Self::Oak => Material::Oak,
            Self::Aluminium => Material::Aluminium,
            Self::AluminiumComposite => Material::AluminiumComposite,
        }
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct SizeForm {
    /// What it is called, its own among the sizes.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// The series it belongs to.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    series: String,
    /// The system of units in which it is defined.
    system: SystemForm,
    /// Width and height; it can be turned.
    size: [Text; 2],
    /// Whether prints of it are on offer.
    #[serde(default)]
    print: bool,
    /// Whether frames of this nominal size are on offer.
    #[serde(default)]
    frame: bool,
}

impl RowForm for SizeForm {
    type Row = StandardSize;

    fn of(row: &StandardSize) -> Self {
        Self {
            name: row.name.clone(),
            series: row.series.clone(),
            system: match row.system {
                System::Inches => SystemForm::Inches,
                System::Centimetres => SystemForm::Centimetres,
            },
            size: [Text::of(row.size.width), Text::of(row.size.height)],
            print: row.is_print,
            frame: row.is_frame,
        }
    }

    fn read(self, reader: Reader) -> Read<StandardSize> {
        Ok(StandardSize {
            size: reader.size(&self.size)?,
            name: self.name,
            series: self.series,
            system: self.system.into(),
            is_print: self.print,
            is_frame: self.frame,
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &StandardSize) -> &str {
        &row.name
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct RollForm {
    /// What it is called, its own among the rolls.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// Width of the roll.
    width: Text,
    /// Left unprinted along each edge of the roll; nothing when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    margin: Option<Text>,
    /// The longest print; any length when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    longest: Option<Text>,
}

impl RowForm for RollForm {
    type Row = Roll;

    fn of(row: &Roll) -> Self {
        Self {
            name: row.name.clone(),
            width: Text::of(row.width),
            margin: Text::unless_zero(row.margin),
            longest: row.longest.map(Text::of),
        }
    }

    fn read(self, reader: Reader) -> Read<Roll> {
        Ok(Roll {
            width: reader.length("the width", &self.width)?,
            margin: reader.length_or_none("the margin", self.margin.as_ref())?.unwrap_or_default(),
            longest: reader.length_or_none("the longest print", self.longest.as_ref())?,
            name: self.name,
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &Roll) -> &str {
        &row.name
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct SheetForm {
    /// What it is called, its own among the sheets.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// What it is made of.
    material: MaterialForm,
    thickness: Text,
    /// Width and height; it can be turned.
    size: [Text; 2],
    /// Its own weight; reckoned by the density of its material when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 200_000)))]
    grams_per_square_metre: Option<u32>,
}

impl RowForm for SheetForm {
    type Row = SheetStock;

    fn of(row: &SheetStock) -> Self {
        Self {
            name: row.name.clone(),
            material: MaterialForm::of(row.material),
            thickness: Text::of(row.thickness),
            size: [Text::of(row.size.width), Text::of(row.size.height)],
            grams_per_square_metre: row.grams_per_square_metre,
        }
    }

    fn read(self, reader: Reader) -> Read<SheetStock> {
        Ok(SheetStock {
            thickness: reader.length("the thickness", &self.thickness)?,
            size: reader.size(&self.size)?,
            name: self.name,
            material: self.material.material(),
            grams_per_square_metre: self.grams_per_square_metre,
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &SheetStock) -> &str {
        &row.name
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct ProfileForm {
    /// What it is called, its own among the mouldings.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// Whether it stands round a canvas with a gap, and has no rabbet.
    #[serde(default)]
    floater: bool,
    /// Width of its face.
    face: Text,
    /// Width of the rabbet; none when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rabbet_width: Option<Text>,
    /// Depth of the rabbet; none when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    rabbet_depth: Option<Text>,
    /// From its back to its front.
    depth: Text,
    /// What it is made of.
    material: MaterialForm,
}

impl RowForm for ProfileForm {
    type Row = Profile;

    fn of(row: &Profile) -> Self {
        Self {
            name: row.name.clone(),
            floater: row.is_floater,
            face: Text::of(row.face),
            rabbet_width: Text::unless_zero(row.rabbet_width),
            rabbet_depth: Text::unless_zero(row.rabbet_depth),
            depth: Text::of(row.depth),
            material: MaterialForm::of(row.material),
        }
    }

    fn read(self, reader: Reader) -> Read<Profile> {
        let or_zero = |what: &str, text: Option<&Text>| {
            reader.length_or_none(what, text).map(Option::unwrap_or_default)
        };
        Ok(Profile {
            is_floater: self.floater,
            face: reader.length("the face", &self.face)?,
            rabbet_width: or_zero("the rabbet's width", self.rabbet_width.as_ref())?,
            rabbet_depth: or_zero("the rabbet's depth", self.rabbet_depth.as_ref())?,
            depth: reader.length("the depth", &self.depth)?,
            name: self.name,
            material: self.material.material(),
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &Profile) -> &str {
        &row.name
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct StickForm {
    /// What it is called, its own among the sticks.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    length: Text,
    /// What the saw takes with each cut; nothing when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    kerf: Option<Text>,
    /// Cut off its two ends together; nothing when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    trim: Option<Text>,
}

impl RowForm for StickForm {
    type Row = Stick;

    fn of(row: &Stick) -> Self {
        Self {
            name: row.name.clone(),
            length: Text::of(row.length),
            kerf: Text::unless_zero(row.kerf),
            trim: Text::unless_zero(row.trim),
        }
    }

    fn read(self, reader: Reader) -> Read<Stick> {
        Ok(Stick {
            length: reader.length("the length", &self.length)?,
            kerf: reader.length_or_none("the kerf", self.kerf.as_ref())?.unwrap_or_default(),
            trim: reader.length_or_none("the trim", self.trim.as_ref())?.unwrap_or_default(),
            name: self.name,
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &Stick) -> &str {
        &row.name
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum DivisorForm {
    /// So many cubic inches to the pound.
    CubicInchesPerPound(#[cfg_attr(feature = "schema", schemars(range(min = 1, max = 100_000)))] u32),
    /// So many cubic centimetres to the kilogram.
    CubicCentimetresPerKilogram(#[cfg_attr(feature = "schema", schemars(range(min = 1, max = 100_000)))] u32),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct ParcelForm {
    /// What it is called, its own among the parcels.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// The longest side; any when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    longest: Option<Text>,
    /// The longest side and the girth, L + 2(W + H); any when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    length_and_girth: Option<Text>,
    /// The heaviest, in grams; any when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 10_000_000)))]
    most_grams: Option<u32>,
    /// How volume is charged as weight; not at all when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    volume_divisor: Option<DivisorForm>,
}

impl RowForm for ParcelForm {
    type Row = Parcel;

    fn of(row: &Parcel) -> Self {
        Self {
            name: row.name.clone(),
            longest: row.longest.map(Text::of),
            length_and_girth: row.length_and_girth.map(Text::of),
            most_grams: row.most_grams,
            volume_divisor: row.volume_divisor.map(|divisor| match divisor {
                VolumeDivisor::CubicInchesPerPound(count) => DivisorForm::CubicInchesPerPound(count),
                VolumeDivisor::CubicCentimetresPerKilogram(count) => {
                    DivisorForm::CubicCentimetresPerKilogram(count)
                }
            }),
        }
    }

    fn read(self, reader: Reader) -> Read<Parcel> {
        Ok(Parcel {
            longest: reader.length_or_none("the longest side", self.longest.as_ref())?,
            length_and_girth: reader.length_or_none("length and girth", self.length_and_girth.as_ref())?,
            name: self.name,
            most_grams: self.most_grams,
            volume_divisor: self.volume_divisor.map(|form| match form {
                DivisorForm::CubicInchesPerPound(count) => VolumeDivisor::CubicInchesPerPound(count),
                DivisorForm::CubicCentimetresPerKilogram(count) => {
                    VolumeDivisor::CubicCentimetresPerKilogram(count)
                }
            }),
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &Parcel) -> &str {
        &row.name
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct TubeForm {
    /// What it is called, its own among the tubes.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// Its diameter within.
    diameter: Text,
    /// By how much it is longer than the print within it; nothing when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    spare: Option<Text>,
}

impl RowForm for TubeForm {
    type Row = Tube;

    fn of(row: &Tube) -> Self {
        Self { name: row.name.clone(), diameter: Text::of(row.diameter), spare: Text::unless_zero(row.spare) }
    }

    fn read(self, reader: Reader) -> Read<Tube> {
        Ok(Tube {
            diameter: reader.length("the diameter", &self.diameter)?,
            spare: reader.length_or_none("the spare length", self.spare.as_ref())?.unwrap_or_default(),
            name: self.name,
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &Tube) -> &str {
        &row.name
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct DensityForm {
    /// Of what.
    material: MaterialForm,
    /// Kilograms to the cubic metre, most likely.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 20_000)))]
    kg_per_m3: u32,
    /// The least that is met with.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 20_000)))]
    least: u32,
    /// The most that is met with.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 20_000)))]
    most: u32,
    /// Where the numbers are from.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    source: String,
}

impl RowForm for DensityForm {
    type Row = Density;

    fn of(row: &Density) -> Self {
        Self {
            material: MaterialForm::of(row.material),
            kg_per_m3: row.kg_per_m3,
            least: row.least,
            most: row.most,
            source: row.source.clone(),
        }
    }

    fn read(self, _: Reader) -> Read<Density> {
        Ok(Density {
            material: self.material.material(),
            kg_per_m3: self.kg_per_m3,
            least: self.least,
            most: self.most,
            source: self.source,
        })
    }

    fn name(&self) -> &str {
        self.material.material().name()
    }

    fn name_of(row: &Density) -> &str {
        row.material.name()
    }
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct BarForm {
    /// What it is called, its own among the bars.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// From its back to the face of the canvas.
    depth: Text,
    /// Its width, seen from the back.
    width: Text,
}

impl RowForm for BarForm {
    type Row = Bar;

    fn of(row: &Bar) -> Self {
        Self { name: row.name.clone(), depth: Text::of(row.depth), width: Text::of(row.width) }
    }

    fn read(self, reader: Reader) -> Read<Bar> {
        Ok(Bar {
            depth: reader.length("the depth", &self.depth)?,
            width: reader.length("the width", &self.width)?,
            name: self.name,
        })
    }

    fn name(&self) -> &str {
        &self.name
    }

    fn name_of(row: &Bar) -> &str {
        &row.name
    }
}
