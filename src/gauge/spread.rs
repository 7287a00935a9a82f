use kurbo::Point;
use nalgebra::{DMatrix, DVector};
use rand_distr::{Distribution, StandardNormal};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;

use super::feature::{is_raised_by_noise, value_of};
use super::features::{Frame, Measures, measure_near};
use super::sheet::{Seen, UNKNOWNS, moved};
use super::steel::{Followed, evened};
use crate::piece::Feature;

/// What was measured of a shoe, with one covariance matrix over all of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimates {
    /// What, in order.
    pub features: Vec<Feature>,
    /// The values, in mm and radians.
    pub values: Vec<f64>,
    /// Their covariance in all.
    pub covariance: DMatrix<f64>,
    /// The part of it that comes from camera, sheet and thickness, which all share.
    pub shared: DMatrix<f64>,
    /// Of each place that was asked for, the variance of its x and y in the shoe's frame, in
    /// mm², as far as it comes from camera, thickness and how that frame lies.
    pub places: Vec<[f64; 2]>,
}

impl Estimates {
    /// The standard uncertainty of each.
    pub fn uncertainties(&self) -> Vec<f64> {
        self.covariance
            .diagonal()
            .iter()
            .map(|square| square.max(0.0).sqrt())
            .collect()
    }
}

/// Edges seen at neighbouring places err alike over a way in mm, each with so much of the
/// variance that the picture tells.
///
/// *Source:* measured on rendered photographs of known shoes.
const ALIKE: [(f64, f64); 2] = [(3.0, 0.253), (20.0, 0.338)];
/// All of an outline may lie this far off at once, in mm; measured as above.
pub const ALL_OFF: f64 = 0.06;
/// How often the edges are drawn anew.
const DRAWS: usize = 24;
/// Where the draws begin; the same photograph gives the same uncertainty.
const SEED: u64 = 7;

/// What the estimates rest on.
pub struct Basis<'a> {
    /// The camera with its covariance.
    pub seen: &'a Seen,
    /// The outlines on the plane of the ground face, the outer one first.
    pub outlines: &'a [Followed],
    /// What was measured by them.
    pub measures: &'a Measures,
    /// Places on the plane of the ground face.
    pub places: &'a [Point],
    /// Places of the outlines that cannot be relied on: the axis leaves them out.
    pub unclear: &'a [Point],
    /// What is left blank.
    pub blank: &'a dyn Fn(Feature) -> bool,
    /// Height of that plane and its standard uncertainty, in mm.
    pub thickness: (f64, f64),
    /// All of an outline may lie this far off at once, in mm.
    pub all_off: f64,
}

/// Values with their covariance: each cause of error moves the outlines by one standard
/// deviation, and all is measured anew.
///
/// *Source:* JCGM 100:2008 (GUM), 5.1.3 note 2 and 5.2.2, for the shared causes by differences;
/// JCGM 101:2008 (propagation of distributions) for the edges. Noise raises what cannot be less
/// than nothing; the mean rise over the draws is taken off (a bootstrap estimate of bias, B.
/// Efron and R. Tibshirani 1993, chapter 10).
pub fn estimates(basis: &Basis<'_>) -> Option<Estimates> {
    let told = |measures: &Measures| -> Vec<Option<f64>> {
        let all = Feature::ALL.iter();
        all.map(|feature| value_of(*feature, measures).filter(|_| !(basis.blank)(*feature)))
            .collect()
    };
    let base = told(basis.measures);
    let features: Vec<Feature> = Feature::ALL
        .into_iter()
        .zip(&base)
        .filter(|(_, value)| value.is_some())
        .map(|(feature, _)| feature)
        .collect();
    let only = |values: Vec<Option<f64>>| -> Option<DVector<f64>> {
        let kept = values
            .into_iter()
            .zip(&base)
            .filter(|(_, base)| base.is_some());
        let kept: Option<Vec<f64>> = kept.map(|(value, _)| value).collect();
        kept.map(DVector::from_vec)
    };
    // The features, and after them x and y of each place.
    let with = |values: Vec<Option<f64>>, frame: &Frame, places: &[Point]| {
        let places = places.iter().map(|at| frame.into_shoe(*at));
        let coordinates = places.flat_map(|at| [at.x, at.y]);
        let values = only(values)?;
        let all: Vec<f64> = values.iter().copied().chain(coordinates).collect();
        Some(DVector::from_vec(all))
    };
    let at = with(base.clone(), &basis.measures.frame, basis.places)?;
    let count = at.len();
    let again = |outlines: &[Vec<Point>], places: &[Point]| -> Option<DVector<f64>> {
        let (outer, inner) = outlines.split_first()?;
        let found = measure_near(outer, inner, &basis.measures.frame, basis.unclear).ok()?;
        with(told(&found), &found.frame, places)
    };
    let mut shared = DMatrix::zeros(count, count);
    for (outlines, places) in shared_shifts(basis)? {
        // A shift under which nothing can be measured tells nothing; the others do.
        if let Some(values) = again(&outlines, &places) {
            let off = values - &at;
            shared += &off * off.transpose();
        }
    }
    let mut random = Xoshiro256PlusPlus::seed_from_u64(SEED);
    let draws: Vec<DVector<f64>> = (0..DRAWS)
        .filter_map(|_| again(&drawn(basis.outlines, &mut random), basis.places))
        .collect();
    if draws.len() < DRAWS / 2 {
        return None;
    }
    let number = draws.len() as f64;
    let mean = draws.iter().sum::<DVector<f64>>() / number;
    let mut own = DMatrix::zeros(count, count);
    for draw in &draws {
        let off = draw - &mean;
        own += &off * off.transpose() / (number - 1.0);
    }
    let raised = &mean - &at;
    // What is taken off is known no better than by its own size; a judgement, no source.
    let each = features.iter().enumerate();
    for (place, _) in each.filter(|(_, feature)| is_raised_by_noise(**feature)) {
        let off = raised.get(place).copied().unwrap_or(0.0);
        if let Some(square) = own.get_mut((place, place)) {
            *square += off * off;
        }
    }
    let values = features.iter().zip(at.iter().zip(raised.iter()));
    let values = values.map(|(feature, (value, raised))| {
        if is_raised_by_noise(*feature) {
            (value - raised).max(0.0)
        } else {
            *value
        }
    });
    let values = values.collect();
    let told = features.len();
    let covariance = &own + &shared;
    let of_places = covariance
        .diagonal()
        .iter()
        .skip(told)
        .copied()
        .collect::<Vec<f64>>();
    Some(Estimates {
        values,
        features,
        covariance: covariance.view((0, 0), (told, told)).into_owned(),
        shared: shared.view((0, 0), (told, told)).into_owned(),
        places: of_places.as_chunks().0.to_vec(),
    })
}

/// Outlines and places.
type Shifted = (Vec<Vec<Point>>, Vec<Point>);

/// The outlines and places as they would lie if one of the causes that all share were off by its
/// standard uncertainty: the camera along each of its independent directions, the thickness, and
/// how the edge is told.
fn shared_shifts(basis: &Basis<'_>) -> Option<Vec<Shifted>> {
    let camera = &basis.seen.camera;
    let (height, unsure) = basis.thickness;
    let in_picture = |line: &[Point]| -> Option<Vec<Point>> {
        line.iter()
            .map(|at| camera.project(nalgebra::Point3::new(at.x, at.y, height)))
            .collect()
    };
    let lines = basis
        .outlines
        .iter()
        .map(|outline| in_picture(&outline.line));
    let pixels = lines.collect::<Option<Vec<Vec<Point>>>>()?;
    let places = in_picture(basis.places)?;
    let seen_by = |camera: &super::Camera, height: f64| -> Option<Shifted> {
        let seen = |line: &Vec<Point>| -> Option<Vec<Point>> {
            line.iter().map(|at| camera.meets(*at, height)).collect()
        };
        Some((
            pixels.iter().map(seen).collect::<Option<_>>()?,
            seen(&places)?,
        ))
    };
    let root = basis.seen.covariance.cholesky()?.l();
    let mut shifts = Vec::with_capacity(UNKNOWNS + 2);
    for direction in 0..UNKNOWNS {
        let off = root.column(direction).into_owned();
        shifts.extend(seen_by(&moved(camera, &off), height));
    }
    shifts.extend(seen_by(camera, height + unsure));
    let outlines = basis.outlines.iter();
    let outlines = outlines.map(|outline| shifted(outline, std::iter::repeat(basis.all_off)));
    shifts.push((outlines.collect(), basis.places.to_vec()));
    Some(shifts)
}

fn shifted(outline: &Followed, by: impl Iterator<Item = f64>) -> Vec<Point> {
    let places = outline.line.iter().zip(&outline.outward).zip(by);
    places.map(|((at, out), by)| *at + *out * by).collect()
}

/// The outlines with errors as their edges may have, alike over short ways.
fn drawn(outlines: &[Followed], random: &mut Xoshiro256PlusPlus) -> Vec<Vec<Point>> {
    outlines
        .iter()
        .map(|outline| {
            let count = outline.line.len();
            let mut errors = vec![0.0; count];
            for (alike, part) in ALIKE {
                let noise = along(outline, alike, random);
                for ((error, noise), unsure) in errors.iter_mut().zip(noise).zip(&outline.unsure) {
                    *error += f64::sqrt(part) * noise * unsure;
                }
            }
            evened(&shifted(outline, errors.into_iter()))
        })
        .collect()
}

/// Noise of variance 1 along a closed line, whose correlation falls to 1/e over so many mm.
fn along(outline: &Followed, alike: f64, random: &mut Xoshiro256PlusPlus) -> Vec<f64> {
    let ends = outline.line.iter().cycle().skip(1);
    let steps = outline
        .line
        .iter()
        .zip(ends)
        .map(|(from, to)| (*to - *from).hypot());
    let kept: Vec<f64> = steps.map(|step| (-step / alike).exp()).collect();
    let mut value: f64 = StandardNormal.sample(random);
    let next = kept.into_iter().map(|kept| {
        let new: f64 = StandardNormal.sample(random);
        value = kept * value + (1.0 - kept * kept).sqrt() * new;
        value
    });
    next.collect()
}
