//! What is read off a photograph, as documented JSON.

use super::estimate::{Estimate, PLUS_MINUS, Way};
use super::measured::{Measured, Note, off_afar};
use super::paper::Paper;
use super::room::{Room, RoomError};
use crate::plan::Units;
use serde::Serialize;

/// What a photograph of a room says of its wall. Pixels are counted from the upper left corner of the photograph as it is kept: upright, its
/// longer side at most 2,400 pixels. A ± is 1.96 standard deviations.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel room"))]
pub struct RoomReport {
    /// The version of this form: 1.
    pub version: u8,
    /// The photograph as it is kept: pixels across and down.
    pub pixels: [u32; 2],
    /// The sheet.
    pub sheet: SheetReport,
    /// The camera.
    pub camera: CameraReport,
    /// The lines that were used, longest first.
    pub lines: Vec<LineReport>,
    /// Everything that is marked, measured.
    pub lengths: Vec<Measured>,
    /// What should be known of it.
    pub notes: Vec<Note>,
}

/// The sheet.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SheetReport {
    /// Which paper it is: a4, a3, letter, legal, card; null for a rectangle of another size.
    pub paper: Option<&'static str>,
    /// Across and up as it hangs, in millimetres.
    pub size_mm: [f64; 2],
    /// Its corners in pixels: top left, top right, bottom right, bottom left.
    pub corners_px: [[f64; 2]; 4],
    /// How far askew it hangs, in degrees, anticlockwise as seen.
    pub askew_degrees: f64,
}

/// The camera, from the middle of the sheet.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CameraReport {
    /// The focal length in pixels.
    pub focal_px: f64,
    /// The radial term of the lens, on coordinates in units of the focal length.
    pub radial: f64,
    /// Where the camera is: to the right of the middle of the sheet, above it and before the wall, in millimetres.
    pub place_mm: [f64; 3],
    /// The wall's axes (right, up, out of it), as rows of the camera's (right, down, ahead).
    pub rotation: [[f64; 3]; 3],
    /// How far off places two metres from the sheet may be, in millimetres: the ±. Null where they can't be seen.
    pub plus_minus_two_metres_off_mm: Option<f64>,
    /// What the marks are off by, against what they may be: about 1, or less.
    pub strain: f64,
}

/// A line.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct LineReport {
    /// Which way it runs: level or plumb.
    pub way: Way,
    /// Its ends in pixels.
    pub ends_px: [[f64; 2]; 2],
    /// How far its points are from the line, in pixels: a root mean square.
    pub off_px: f64,
}

impl Room {
    /// What is known, as a report.
    ///
    /// # Errors
    ///
    /// Where nothing is known of the wall: no sheet, or marks that contradict each other.
    pub fn report(&self, units: Units) -> Result<RoomReport, RoomError> {
        let sheet = self.sheet.as_ref().ok_or(RoomError::NoSheet)?;
        let estimate = self.estimate()?;
        let used = self.lines.iter().filter(|line| !line.left_out && line.points.len() > 1);
        let lines = used.zip(&estimate.left_px).filter_map(|(line, left)| {
            let ends_px = [*line.points.first()?, *line.points.last()?];
            Some(LineReport { way: line.way, ends_px, off_px: *left })
        });
        Ok(RoomReport {
            version: 1,
            pixels: self.pixels,
            sheet: SheetReport {
                paper: sheet.paper.map(Paper::key),
                size_mm: sheet.size_mm,
                corners_px: sheet.corners,
                askew_degrees: estimate.tilt.to_degrees(),
            },
            lines: lines.collect(),
            camera: camera(&estimate),
            lengths: self.measured(&estimate, units),
            notes: self.notes(units),
        })
    }
}

fn camera(estimate: &Estimate) -> CameraReport {
    let camera = &estimate.camera;
    let eye = camera.eye();
    CameraReport {
        focal_px: camera.focal_px,
        radial: camera.radial,
        place_mm: [eye.x, eye.y, eye.z],
        rotation: [0, 1, 2].map(|row| [0, 1, 2].map(|column| camera.rotation[(row, column)])),
        plus_minus_two_metres_off_mm: off_afar(estimate).map(|off| PLUS_MINUS * off),
        strain: estimate.strain,
    }
}

/// The JSON Schema (draft 2020-12) of the report.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    serde_json::to_string_pretty(&schemars::schema_for!(RoomReport)).unwrap_or_default() + "\n"
}
