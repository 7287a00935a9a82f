//! Pictures of a bar shoe on a sheet, painted from exact geometry, for tests: what a test asks
//! for is what is there.
//!
//! A ray of a pixel meets the ground face, or passes into the steel below it (then a side wall
//! is seen), or goes on to sheet or bench. Light falls off across the sheet, the shoe casts a
//! soft shadow; then come blur, noise from a seed, and the coding of sRGB.

mod drawn;
mod field;
mod lens;
mod light;
mod outline;
mod rays;

use evenshod::gauge::Camera;
use kurbo::Point;
use nalgebra::Point3;

pub use drawn::Drawing;
pub use outline::{BarShoe, Outline};

use field::Field;
use rays::Rays;

/// What is painted, and so the truth. Lengths in mm, in the world of [`Camera`].
#[derive(Debug, Clone)]
pub struct Scene {
    pub camera: Camera,
    /// Columns, rows.
    pub size: (usize, usize),
    /// Short and long side of the sheet.
    pub sheet: (f64, f64),
    /// Edges of the ground face and how far it is above the sheet.
    pub shoe: Outline,
    pub thickness: f64,
    pub look: Look,
}

/// Light as a share of full white, before coding; lengths in mm, blur in pixels.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    pub paper: f64,
    pub bench: f64,
    pub steel: f64,
    pub wall: f64,
    /// Share of light that is lost from one long end of the sheet to the other.
    pub falloff: f64,
    /// Share of light that the shadow takes, where it falls, how soft it is.
    pub shadow: (f64, (f64, f64), f64),
    /// Standard deviation of a Gaussian.
    pub blur: f64,
    /// Standard deviation, in codes of 255.
    pub noise: f64,
    pub seed: u64,
    /// Radius of the sheet's corners.
    pub rounded: f64,
}

impl Default for Look {
    fn default() -> Self {
        Self {
            paper: 0.72,
            bench: 0.12,
            steel: 0.1,
            wall: 0.05,
            falloff: 0.25,
            shadow: (0.35, (2.0, -2.5), 3.0),
            blur: 0.7,
            noise: 1.2,
            seed: 1,
            rounded: 0.0,
        }
    }
}

/// Red, green and blue of 8 bits, row by row.
#[derive(Debug, Clone, PartialEq)]
pub struct Painted {
    pub width: usize,
    pub height: usize,
    pub pixels: Vec<u8>,
}

/// Rays to a side of a pixel in which something ends.
const FINE: usize = 4;

impl Scene {
    /// Corners of the sheet in the picture: top left, top right, bottom right, bottom left.
    pub fn corners(&self) -> [Point; 4] {
        let (right, top) = (self.sheet.0 / 2.0, self.sheet.1 / 2.0);
        [(-right, top), (right, top), (right, -top), (-right, -top)].map(|(x, y)| {
            let seen = self.camera.project(Point3::new(x, y, 0.0));
            seen.expect("the sheet is before the camera")
        })
    }

    /// The outer edge of the ground face in the picture.
    pub fn outer_in_picture(&self) -> Vec<Point> {
        let seen = |at: &Point| self.camera.project(Point3::new(at.x, at.y, self.thickness));
        self.shoe.outer.iter().filter_map(seen).collect()
    }

    pub fn paint(&self) -> Painted {
        let (width, height) = self.size;
        let field = Field::of(&self.shoe);
        let face = Rays::of(&self.camera, self.size, self.thickness);
        let floor = Rays::of(&self.camera, self.size, 0.0);
        let mut light = Vec::with_capacity(width * height);
        for y in 0..height {
            for x in 0..width {
                let at = |x: f64, y: f64| (face.at(x, y), floor.at(x, y));
                let (x, y) = (x as f64, y as f64);
                let middle = at(x, y);
                // Nothing ends within a pixel's width, which is a good deal under a mm.
                let pixel = (face.at(x + 1.0, y) - middle.0).hypot();
                if self.clear_of_edges(&field, middle) > 2.0 * pixel {
                    light.push(self.seen(&field, middle));
                    continue;
                }
                let step = |index: usize| (index as f64 + 0.5) / FINE as f64 - 0.5;
                let rays = (0..FINE * FINE).map(|index| {
                    self.seen(&field, at(x + step(index % FINE), y + step(index / FINE)))
                });
                light.push(rays.sum::<f64>() / (FINE * FINE) as f64);
            }
        }
        let light = lens::blurred(&light, self.size, self.look.blur);
        Painted {
            width,
            height,
            pixels: light::coded(&light, self.look.noise, self.look.seed),
        }
    }

    /// Light of a ray by where it meets the plane of the ground face and that of the sheet.
    fn seen(&self, field: &Field, (face, floor): (Point, Point)) -> f64 {
        let look = &self.look;
        let fall = (floor.y / self.sheet.1 + 0.3 * floor.x / self.sheet.0).clamp(-0.6, 0.6);
        let lit = 1.0 - look.falloff * (0.5 - fall);
        if field.at(face) < 0.0 {
            return look.steel * lit;
        }
        if passes_steel(field, face, floor) {
            return look.wall * lit;
        }
        let (strength, (right, up), soft) = look.shadow;
        let from_edge = field.at(floor - kurbo::Vec2::new(right, up));
        let dark = (0.5 - from_edge / (2.0 * soft)).clamp(0.0, 1.0);
        let ground = if self.off_sheet(floor) < 0.0 {
            look.paper
        } else {
            look.bench
        };
        ground * lit * (1.0 - strength * dark)
    }

    /// How far outside the sheet, less than nothing inside.
    fn off_sheet(&self, at: Point) -> f64 {
        let round = self.look.rounded;
        let (x, y) = (
            at.x.abs() - self.sheet.0 / 2.0 + round,
            at.y.abs() - self.sheet.1 / 2.0 + round,
        );
        // Beyond both ends of the straight sides a corner is an arc.
        x.max(y).min(0.0) + x.max(0.0).hypot(y.max(0.0)) - round
    }

    /// At most as far as to the nearest place where what is seen changes at once.
    fn clear_of_edges(&self, field: &Field, (face, floor): (Point, Point)) -> f64 {
        let from_steel = field.at(face);
        let from_wall = if from_steel > 0.0 {
            // The foot of a wall is as far off as the ray goes beneath the ground face.
            from_steel - (floor - face).hypot()
        } else {
            -from_steel
        };
        from_wall.min(self.off_sheet(floor).abs())
    }
}

/// Whether a ray goes into steel between the plane of the ground face and that of the sheet.
fn passes_steel(field: &Field, face: Point, floor: Point) -> bool {
    let way = floor - face;
    if field.at(face) > way.hypot() {
        return false;
    }
    (1..=16).any(|step| field.at(face + way * (f64::from(step) / 16.0)) < 0.0)
}
