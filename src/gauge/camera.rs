use kurbo::Point;
use nalgebra::{Matrix3, Point3, Vector3};

/// A camera as the central projection with one radial term of distortion has it.
///
/// *Frames:* the world has its origin in the middle of the sheet, X to the right along its
/// short side, Y up the page and Z towards the camera, in mm; pixels have their centres at
/// whole numbers, x to the right and y down. *Source:* R. Hartley and A. Zisserman, Multiple
/// View Geometry, second edition, chapter 6, and section 7.4 for the distortion (from memory).
#[derive(Debug, Clone, PartialEq)]
pub struct Camera {
    /// From the world's axes to the camera's: right, down, and into the picture.
    pub rotation: Matrix3<f64>,
    /// The world's origin as the camera has it, in mm.
    pub translation: Vector3<f64>,
    /// Focal length in pixels.
    pub focal: f64,
    /// Where the optical axis meets the picture.
    pub centre: Point,
    /// The radial term: a ray at distance r from the axis, at depth 1, appears at
    /// r (1 + k1 r^2).
    pub k1: f64,
}

/// Steps until a distorted ray is straight, at most: near it, each doubles the digits.
const STEPS: usize = 12;
/// A step by less than this share of the ray's radius is the last one.
const STRAIGHT: f64 = 1e-14;
/// Where the picture's radius grows with the ray's by less than this share, it is as good as
/// folded back on itself.
const LEAST_GROWTH: f64 = 0.05;

impl Camera {
    /// Where a point of the world appears; `None` behind the lens and beyond where its
    /// distortion would fold the picture.
    pub fn project(&self, at: Point3<f64>) -> Option<Point> {
        let seen = self.rotation * at.coords + self.translation;
        if seen.z <= 0.0 {
            return None;
        }
        let (x, y) = (seen.x / seen.z, seen.y / seen.z);
        let square = x * x + y * y;
        let bent = self.focal * (1.0 + self.k1 * square);
        self.is_unfolded(square)
            .then(|| Point::new(self.centre.x + x * bent, self.centre.y + y * bent))
    }

    /// Where the ray of a pixel meets the plane so many mm above the sheet; `None` where it
    /// does not.
    pub fn meets(&self, pixel: Point, height: f64) -> Option<Point> {
        let ray = self.rotation.transpose() * self.ray(pixel)?;
        let lens = self.lens();
        let along = (height - lens.z) / ray.z;
        // What is not a number lies nowhere.
        (along > 0.0 && along.is_finite())
            .then(|| Point::new(lens.x + along * ray.x, lens.y + along * ray.y))
    }

    /// The lens in the world.
    pub fn lens(&self) -> Point3<f64> {
        Point3::from(-(self.rotation.transpose() * self.translation))
    }

    /// How far the optical axis leans from square to the sheet, in radians.
    pub fn tilt(&self) -> f64 {
        // The world's Z points to the camera, the camera's into the picture.
        let into = self.rotation.column(2).z;
        (-into).clamp(-1.0, 1.0).acos()
    }

    /// Whether the picture's radius still grows with the ray's, whose square is given.
    fn is_unfolded(&self, square: f64) -> bool {
        1.0 + 3.0 * self.k1 * square > LEAST_GROWTH
    }

    /// The straight ray of a pixel, at depth 1 of the camera; `None` beyond the fold.
    ///
    /// By Newton's method from the bent radius, which meets the straight one from one side.
    fn ray(&self, pixel: Point) -> Option<Vector3<f64>> {
        let bent = (pixel - self.centre) / self.focal;
        let radius = bent.hypot();
        let mut straight = radius;
        for _ in 0..STEPS {
            let square = straight * straight;
            if !self.is_unfolded(square) {
                return None;
            }
            let over = straight * (1.0 + self.k1 * square) - radius;
            let step = over / (1.0 + 3.0 * self.k1 * square);
            straight -= step;
            if step.abs() <= STRAIGHT * radius {
                break;
            }
        }
        let ray = bent / (1.0 + self.k1 * straight * straight);
        self.is_unfolded(straight * straight)
            .then(|| Vector3::new(ray.x, ray.y, 1.0))
    }
}
