//! The site in the plan file.

use super::*;

/// The place where the pieces hang, and the way there; what is left out is not known.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(super) struct SiteForm {
    /// Of what the wall is built.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    wall: Option<BuiltForm>,
    /// People pass close by on a public way.
    #[serde(default, skip_serializing_if = "is_false")]
    public_way: bool,
    /// The ground may shake.
    #[serde(default, skip_serializing_if = "is_false")]
    earthquakes: bool,
    /// The sun falls on the wall.
    #[serde(default, skip_serializing_if = "is_false")]
    direct_sun: bool,
    /// A window is opposite.
    #[serde(default, skip_serializing_if = "is_false")]
    window_opposite: bool,
    /// Height of the cornice, from the ceiling down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    cornice: Option<Text>,
    /// What each fixing is rated for: 10, 20, 30, 50, 75 or 100 lb.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 10, max = 100)))]
    rated_pounds: Option<u16>,
    /// Where the pieces are signed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    signature: Option<SignatureForm>,
    /// Width and height of the narrowest door on the way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    door: Option<SizeForm>,
    /// Width and height of the narrowest turn of the stairs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stairs: Option<SizeForm>,
    /// Width and height of the opening of the car.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    car: Option<SizeForm>,
}

#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum BuiltForm {
    /// Away from its studs.
    Plasterboard,
    /// Studs or boards.
    Timber,
    /// Brick, stone or concrete.
    Masonry,
}

const BUILT: [(BuiltForm, Built); 3] = [
    (BuiltForm::Plasterboard, Built::Plasterboard),
    (BuiltForm::Timber, Built::Timber),
    (BuiltForm::Masonry, Built::Masonry),
];

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum SignatureForm {
    /// On the white paper below the image, taking so much of it.
    Below(Text),
    /// In the picture, so far from the edge of what is printed.
    Within(Text),
}

impl SiteForm {
    pub(super) fn read(self, reader: Reader) -> Read<Site> {
        let size = |what: &str, form: Option<SizeForm>| form.map(|form| reader.size(what, &form)).transpose();
        Ok(Site {
            built: BUILT
                .iter()
                .find(|entry| Some(entry.0) == self.wall)
                .map_or(Built::Unstated, |entry| entry.1),
            is_public_way: self.public_way,
            has_earthquakes: self.earthquakes,
            has_sun: self.direct_sun,
            has_window_opposite: self.window_opposite,
            cornice: reader.length_or("the cornice", self.cornice.as_ref(), Length::ZERO)?,
            rated_pounds: self.rated_pounds,
            signature: match self.signature {
                None => Signature::None,
                Some(SignatureForm::Below(by)) => Signature::Below(reader.length("the signature", &by)?),
                Some(SignatureForm::Within(by)) => Signature::Within(reader.length("the signature", &by)?),
            },
            ways: [
                size("the door on the way", self.door)?,
                size("the turn of the stairs on the way", self.stairs)?,
                size("the car on the way", self.car)?,
            ],
        })
    }

    /// Nothing for a site of which nothing is known.
    pub(super) fn of(site: &Site) -> Option<Self> {
        if *site == Site::default() {
            return None;
        }
        let [door, stairs, car] = site.ways.map(|way| way.map(size_of));
        Some(Self {
            wall: BUILT.iter().find(|entry| entry.1 == site.built).map(|entry| entry.0),
            public_way: site.is_public_way,
            earthquakes: site.has_earthquakes,
            direct_sun: site.has_sun,
            window_opposite: site.has_window_opposite,
            cornice: (site.cornice != Length::ZERO).then(|| Text::of(site.cornice)),
            rated_pounds: site.rated_pounds,
            signature: match site.signature {
                Signature::None => None,
                Signature::Below(by) => Some(SignatureForm::Below(Text::of(by))),
                Signature::Within(by) => Some(SignatureForm::Within(Text::of(by))),
            },
            door,
            stairs,
            car,
        })
    }
}

#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub(super) enum SwingForm {
    /// Against the wall to its left.
    Left,
    /// Against the wall to its right.
    Right,
}

impl SwingForm {
    pub(super) fn of(swing: Swing) -> Option<Self> {
        match swing {
            Swing::Clear => None,
            Swing::Left => Some(Self::Left),
            Swing::Right => Some(Self::Right),
        }
    }

    pub(super) fn read(form: Option<Self>) -> Swing {
        match form {
            None => Swing::Clear,
            Some(Self::Left) => Swing::Left,
            Some(Self::Right) => Swing::Right,
        }
    }
}
