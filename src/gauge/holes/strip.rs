use num_traits::AsPrimitive;

use super::middle::{Place, STEP};
use crate::gauge::picture::brightness;
use crate::gauge::steel::{DARK, blur};
use crate::gauge::view::View;

/// So many steps to either side of the groove's middle are looked at: 5 mm.
pub const ASIDE: usize = 20;
/// Steps over which light is smoothed, both ways.
const SMOOTH: f64 = 1.0;

/// The picture along a groove, on the plane of its floor and on the paper: for each place a row
/// of the logarithm of light, from the side of the shoe's outer edge.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// On the plane of the floor.
    pub floor: Vec<Vec<f32>>,
    /// On the paper.
    pub paper: Vec<Vec<f32>>,
    /// How far the eye lies along and inward for each mm that it is up, of each place.
    pub slant: Vec<[f32; 2]>,
    /// The logarithm of light of bright paper.
    pub bright: f32,
}

impl Strip {
    /// *Shape:* `floor` is its height above the paper in mm.
    pub fn of(view: &View<'_>, places: &[Place], floor: f64, bright: f32) -> Self {
        let lens = view.camera.lens();
        let slant = places.iter().map(|place| {
            let way = kurbo::Point::new(lens.x, lens.y) - place.at;
            [place.along, place.inward].map(|axis| (way.dot(axis) / lens.z).as_())
        });
        Self {
            slant: slant.collect(),
            floor: seen(view, places, floor),
            paper: seen(view, places, 0.0),
            bright,
        }
    }
}

fn seen(view: &View<'_>, places: &[Place], height: f64) -> Vec<Vec<f32>> {
    let view = View { height, ..*view };
    let weights = blur::weights(SMOOTH);
    let rows: Vec<Vec<f32>> = places
        .iter()
        .map(|place| {
            let aside = (0..=2 * ASIDE).map(|aside| (aside as f64 - ASIDE as f64) * STEP);
            let row = aside.map(|aside| {
                let light = view.light(place.at + place.inward * aside);
                (light.map_or(0.0, brightness) + DARK).ln()
            });
            blur::row(&row.collect::<Vec<f32>>(), &weights)
        })
        .collect();
    blur::around(&rows, &weights)
}
