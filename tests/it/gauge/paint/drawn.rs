use evenshod::gauge::Camera;
use kurbo::Point;

use super::field::Field;
use super::outline::Outline;
use super::rays::Rays;
use super::{Painted, lens, light};

/// Lines on paper that fills the picture. Lengths in mm on the plane of the paper.
#[derive(Debug, Clone)]
pub struct Drawing {
    pub camera: Camera,
    pub size: (usize, usize),
    /// What is drawn, each by its middle.
    pub outlines: Vec<Outline>,
    pub width: f64,
    /// Light of the line as a share of that of the paper.
    pub ink: f64,
    /// Where nothing is drawn: about which place, how far.
    pub gap: Option<(Point, f64)>,
}

/// Light of the paper, and what of it is lost from one side of the picture to the other.
const PAPER: f64 = 0.75;
const FALLOFF: f64 = 0.2;
const BLUR: f64 = 0.6;
const NOISE: f64 = 1.5;
/// Rays to a side of a pixel near a line.
const FINE: usize = 4;

impl Drawing {
    pub fn paint(&self) -> Painted {
        let (width, height) = self.size;
        let fields: Vec<Field> = self.outlines.iter().map(Field::of).collect();
        let rays = Rays::of(&self.camera, self.size, 0.0);
        let is_ink = |at: Point| {
            let near = |field: &Field| field.at(at).abs() < self.width / 2.0;
            let is_gap = self
                .gap
                .is_some_and(|(about, far)| about.distance(at) < far);
            !is_gap && fields.iter().any(near)
        };
        let mut seen = Vec::with_capacity(width * height);
        for y in 0..height {
            for x in 0..width {
                let (x, y) = (x as f64, y as f64);
                let middle = rays.at(x, y);
                let pixel = (rays.at(x + 1.0, y) - middle).hypot();
                let far = |field: &Field| field.at(middle).abs() - self.width / 2.0;
                let share = if fields.iter().all(|field| far(field) > 2.0 * pixel) {
                    0.0
                } else {
                    let step = |index: usize| (index as f64 + 0.5) / FINE as f64 - 0.5;
                    let places = (0..FINE * FINE)
                        .map(|index| rays.at(x + step(index % FINE), y + step(index / FINE)));
                    places.filter(|at| is_ink(*at)).count() as f64 / (FINE * FINE) as f64
                };
                let lit = PAPER * (1.0 - FALLOFF * x / width as f64);
                seen.push(lit * (1.0 - share * (1.0 - self.ink)));
            }
        }
        let seen = lens::blurred(&seen, self.size, BLUR);
        Painted {
            width,
            height,
            pixels: light::coded(&seen, NOISE, 1),
        }
    }
}
