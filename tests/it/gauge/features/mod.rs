//! What is measured of outlines.

mod hand;
mod published;
mod refused;
mod rests;
mod same;
mod truth;

use evenshod::gauge::features::{Measures, measure};
use kurbo::{Point, Vec2};
use serde::Deserialize;
use serde_json::Value;

/// A rendered shoe by its outlines on the top face, in mm of the sheet, and what is known of
/// it; `tests/data/gauge/outlines.py` says how it was made.
#[derive(Debug, Clone, Deserialize)]
pub struct Known {
    name: String,
    outer: Vec<(f64, f64)>,
    inner: Vec<Vec<(f64, f64)>>,
    holes: Vec<(f64, f64)>,
    fuller: serde_json::Map<String, Value>,
    frame: Value,
    truth: Value,
}

pub fn points(pairs: &[(f64, f64)]) -> Vec<Point> {
    pairs.iter().copied().map(Point::from).collect()
}

pub fn known() -> Vec<Known> {
    let text = include_str!("../../../data/gauge/outlines.json");
    serde_json::from_str(text).unwrap()
}

impl Known {
    pub fn outer(&self) -> Vec<Point> {
        points(&self.outer)
    }

    pub fn inner(&self) -> Vec<Vec<Point>> {
        self.inner.iter().map(|ring| points(ring)).collect()
    }

    pub fn holes(&self) -> Vec<Point> {
        points(&self.holes)
    }

    pub fn axis(&self, key: &str) -> Vec2 {
        let [x, y] = [0, 1].map(|at| self.frame[key][at].as_f64().unwrap());
        Vec2::new(x, y)
    }

    pub fn measured(&self) -> Measures {
        measure(&self.outer(), &self.inner(), None).unwrap()
    }
}
