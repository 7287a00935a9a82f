use kurbo::{Point, Vec2};
use nalgebra::{Matrix3, Point3, Vector3};
use serde::{Deserialize, Serialize};

use super::camera::Camera;
use super::features::Frame;
use super::shown::Dot;

/// How places in a picture and places of the shoe in it belong together: the camera with its
/// lens, how high the ground face lies, and the shoe's own frame.
///
/// *Frames:* those of [`Camera`] and of [`features`](super::features). *Units:* mm and pixels.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plane {
    /// The camera's rotation, column by column.
    rotation: [f64; 9],
    translation: [f64; 3],
    focal: f64,
    centre: Dot,
    k1: f64,
    /// Of the ground face above the sheet.
    height: f64,
    /// The toe on the plane of the ground face.
    toe: Dot,
    /// The way from there to the heels.
    back: Dot,
}

/// How high something of the shoe lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Level {
    /// On the ground face.
    Face,
    /// What is seen of a nail hole: below it.
    Hole,
}

/// What is seen of a hole lies about so high above the paper, as a share of the thickness.
const IN_HOLE: f64 = 0.4;

impl Plane {
    /// Of a camera, a ground face so many mm above the sheet and a frame on it.
    pub fn of(camera: &Camera, height: f64, frame: &Frame) -> Self {
        let dot = |x: f64, y: f64| (x, y);
        Self {
            rotation: camera
                .rotation
                .data
                .0
                .as_flattened()
                .try_into()
                .unwrap_or_default(),
            translation: camera.translation.into(),
            focal: camera.focal,
            centre: dot(camera.centre.x, camera.centre.y),
            k1: camera.k1,
            height,
            toe: dot(frame.toe.x, frame.toe.y),
            back: dot(frame.back.x, frame.back.y),
        }
    }

    /// The place of the shoe that a pixel shows, in the shoe's frame; `None` where none does.
    pub fn place(&self, at: Dot, level: Level) -> Option<Point> {
        Some(self.frame().into_shoe(self.on_face(at, level)?))
    }

    /// The same in the frame of the sheet, for the measures.
    pub(super) fn on_face(&self, (x, y): Dot, level: Level) -> Option<Point> {
        self.camera().meets(Point::new(x, y), self.above(level))
    }

    /// The way from the toe to the heels in the frame of the sheet.
    pub(super) fn back(&self) -> Vec2 {
        Vec2::from(self.back)
    }

    /// Where a place of the shoe's frame appears, in pixels.
    pub fn pixel(&self, place: Point, level: Level) -> Option<Dot> {
        let at = self.frame().into_input(place);
        let seen = Point3::new(at.x, at.y, self.above(level));
        self.camera().project(seen).map(|at| (at.x, at.y))
    }

    fn above(&self, level: Level) -> f64 {
        match level {
            Level::Face => self.height,
            Level::Hole => IN_HOLE * self.height,
        }
    }

    fn camera(&self) -> Camera {
        Camera {
            rotation: Matrix3::from_column_slice(&self.rotation),
            translation: Vector3::from(self.translation),
            focal: self.focal,
            centre: self.centre.into(),
            k1: self.k1,
        }
    }

    fn frame(&self) -> Frame {
        Frame::along(self.toe.into(), Vec2::from(self.back))
    }
}
