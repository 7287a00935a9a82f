use kurbo::{Point, Vec2};
use num_traits::AsPrimitive;

use super::blur;
use super::rough::DARK;
use crate::gauge::picture::brightness;
use crate::gauge::view::View;

/// The picture along a closed line, from inside out: a row for each station of the line, a
/// value for each offset.
#[derive(Debug, Clone)]
pub struct Strip {
    /// From offset to offset across it, in mm.
    pub step: f64,
    /// For each station the logarithm of the light, smoothed along the line.
    pub level: Vec<Vec<f32>>,
    /// The same smoothed over a longer way, which leaves what runs along the line.
    pub calm: Vec<Vec<f32>>,
    /// How rough it is, from nothing to 1.
    pub rough: Vec<Vec<f32>>,
    /// How steeply the level changes across the line, from nothing to 1.
    pub steep: Vec<Vec<f32>>,
    /// The logarithm of red over blue, smoothed along the line.
    pub hue: Vec<Vec<f32>>,
    /// Roughness smoothed over the longer way.
    pub calm_rough: Vec<Vec<f32>>,
    /// The hue smoothed over it.
    pub calm_hue: Vec<Vec<f32>>,
    /// The level smoothed over a longer way still.
    pub calmer: Vec<Vec<f32>>,
    /// Roughness smoothed so.
    pub calmer_rough: Vec<Vec<f32>>,
}

/// Along the line, light is smoothed over this and roughness told from this, in mm.
const SMOOTH: f64 = 0.5;
const SLOW: f64 = 1.5;
const NEAR: f64 = 1.0;
/// The longer way and the one longer still.
const CALM: f64 = 2.5;
const CALMER: f64 = 6.0;
/// Across it, roughness is smoothed over this, in mm.
const ACROSS: f64 = 0.12;
/// Half of full roughness, and of full steepness in logarithms for each mm.
const HALF_ROUGH: f32 = 0.06;
const HALF_STEEP: f32 = 0.8;

impl Strip {
    /// *Shape:* `stations` round the line, each with the unit vector out of it; offsets in mm.
    pub fn of(
        view: &View<'_>,
        stations: &[(Point, Vec2)],
        spacing: f64,
        offsets: &[f64],
        step: f64,
    ) -> Self {
        let seen: Vec<Vec<[f32; 3]>> = stations
            .iter()
            .map(|(at, out)| {
                let places = offsets.iter().map(|offset| *at + *out * *offset);
                places
                    .map(|at| view.light(at).unwrap_or_default())
                    .collect()
            })
            .collect();
        let of = |value: &dyn Fn(&[f32; 3]) -> f32| -> Vec<Vec<f32>> {
            seen.iter()
                .map(|row| row.iter().map(value).collect())
                .collect()
        };
        let level = of(&|light| (brightness(*light) + DARK).ln());
        let hue = of(&|[red, _, blue]| ((red + DARK) / (blue + DARK)).ln());
        let along = blur::weights(SMOOTH / spacing);
        let rough = rough(&level, spacing, step);
        let far = blur::weights(CALM / spacing);
        let farther = blur::weights((CALMER * CALMER - CALM * CALM).sqrt() / spacing);
        let calm = blur::around(&level, &far);
        let calm_rough = blur::around(&rough, &far);
        let level = blur::around(&level, &along);
        let steep = level.iter().map(|row| steep(row, step.as_())).collect();
        Self {
            calmer: blur::around(&calm, &farther),
            calmer_rough: blur::around(&calm_rough, &farther),
            calm_rough,
            calm_hue: blur::around(&hue, &far),
            step,
            level,
            calm,
            rough,
            steep,
            hue: blur::around(&hue, &along),
        }
    }
}

fn rough(level: &[Vec<f32>], spacing: f64, step: f64) -> Vec<Vec<f32>> {
    let slow = blur::around(level, &blur::weights(SLOW / spacing));
    let square: Vec<Vec<f32>> = level
        .iter()
        .zip(&slow)
        .map(|(row, slow)| {
            row.iter()
                .zip(slow)
                .map(|(a, b)| (a - b) * (a - b))
                .collect()
        })
        .collect();
    let across = blur::weights(ACROSS / step);
    blur::around(&square, &blur::weights(NEAR / spacing))
        .iter()
        .map(|row| {
            let row = blur::row(row, &across).into_iter();
            row.map(|square| {
                let rough = (square + 1e-9).sqrt();
                rough / (rough + HALF_ROUGH)
            })
            .collect()
        })
        .collect()
}

fn steep(row: &[f32], step: f32) -> Vec<f32> {
    let last = row.len().saturating_sub(1);
    (0..row.len())
        .map(|place| {
            let (from, to) = (place.saturating_sub(1), (place + 1).min(last));
            let change = row
                .get(to)
                .zip(row.get(from))
                .map_or(0.0, |(to, from)| to - from);
            let slope = change.abs() / ((to - from).max(1) as f32 * step);
            slope / (slope + HALF_STEEP)
        })
        .collect()
}
