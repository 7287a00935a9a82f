use num_traits::AsPrimitive;

use super::walk::Station;
use crate::gauge::picture::brightness;
use crate::gauge::steel::{DARK, blur};
use crate::gauge::view::View;

/// From so far outside the edge, in mm, in steps of so much.
const FIRST: f64 = -2.0;
const STEP: f64 = 0.2;
/// So many steps: to 26 mm inside.
const COUNT: usize = 141;
/// Values that lie beside the shoe: to 0.6 mm from it.
const BESIDE: usize = 8;
/// Stations over which light is smoothed along the edge.
const SMOOTH: f64 = 1.0;

/// The logarithm of light on a line square to the outer edge.
#[derive(Debug, Clone, PartialEq)]
pub struct Row(Vec<f32>);

/// One row a station.
pub fn rows(view: &View<'_>, stations: &[Station]) -> Vec<Row> {
    let plain: Vec<Vec<f32>> = stations
        .iter()
        .map(|station| {
            let deep = (0..COUNT).map(|place| FIRST + STEP * place as f64);
            deep.map(|deep| {
                let light = view.light(station.at + station.inward * deep);
                (light.map_or(0.0, brightness) + DARK).ln()
            })
            .collect()
        })
        .collect();
    let smooth = blur::around(&plain, &blur::weights(SMOOTH));
    smooth.into_iter().map(Row).collect()
}

impl Row {
    /// The value so far inside the edge, in mm.
    pub fn at(&self, deep: f64) -> f32 {
        let place = ((deep - FIRST) / STEP).clamp(0.0, COUNT as f64 - 1.001);
        let first: usize = place.floor().as_();
        let share: f32 = (place - place.floor()).as_();
        let value = |place: usize| self.0.get(place).copied().unwrap_or(0.0);
        value(first) + (value(first + 1) - value(first)) * share
    }
}

/// The logarithm of light at which the brightest tenth begins of what lies beside the shoe.
pub fn beside(rows: &[Row]) -> f32 {
    let outside = rows.iter().flat_map(|row| row.0.iter().take(BESIDE));
    let mut levels: Vec<f32> = outside.copied().collect();
    levels.sort_by(f32::total_cmp);
    levels.get(levels.len() * 9 / 10).copied().unwrap_or(0.0)
}
