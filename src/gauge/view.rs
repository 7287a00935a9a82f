use kurbo::{Point, Vec2};
use nalgebra::Point3;

use super::camera::Camera;
use super::picture::Picture;

/// A plane above the sheet as a picture shows it.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// The picture.
    pub picture: &'a Picture,
    /// The camera that took it.
    pub camera: &'a Camera,
    /// How high the plane lies above the sheet, in mm.
    pub height: f64,
}

impl View<'_> {
    /// Where a place on the plane appears, in pixels.
    pub fn pixel(&self, at: Point) -> Option<Point> {
        self.camera.project(Point3::new(at.x, at.y, self.height))
    }

    /// Light from a place on the plane, red, green and blue; `None` outside the picture.
    pub fn light(&self, at: Point) -> Option<[f32; 3]> {
        self.picture.light(self.pixel(at)?)
    }

    /// How far outside its upper edge the foot of an upright wall appears on the plane, in mm;
    /// less than nothing where the wall is hidden behind the edge.
    pub fn foot(&self, edge: Point, outward: Vec2) -> f64 {
        let lens = self.camera.lens();
        let away = edge - Point::new(lens.x, lens.y);
        -(away * (self.height / (lens.z - self.height))).dot(outward)
    }
}
