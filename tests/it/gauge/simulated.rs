//! The covariance of a photo's values, held to a simulation of its causes: other cameras, each
//! fitted anew to edges of a sheet that are off, another thickness, and edges of steel that are
//! off alike over short ways. What is known before of a camera is a standard deviation here.

use evenshod::gauge::features::{Measures, measure};
use evenshod::gauge::sheet::{Before, Edge, Seen, Sheet, fit};
use evenshod::gauge::steel::{Followed, evened};
use evenshod::gauge::{ALL_OFF, Basis, Camera, Estimates, estimates, is_raised_by_noise, value_of};
use evenshod::piece::Feature;
use kurbo::{Point, Vec2};
use nalgebra::Point3;
use rand_distr::{Distribution, StandardNormal};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;

use super::camera::camera;
use super::features::known;

/// So many photographs.
const PHOTOS: usize = 60;
/// What the file tells of the focal length, in pixels, and how sure that is.
const FOCAL: (f64, f64) = (1_250.0, 0.01);
/// Thickness of the shoe and what the caliper leaves, in mm.
const THICKNESS: (f64, f64) = (9.5, 0.15);
/// Edges of the sheet lie off by this, in pixels, four neighbours alike.
const SHEET_OFF: f64 = 0.25;
/// Edges of the steel lie off by this, in mm.
const STEEL_OFF: f64 = 0.12;

fn normal(random: &mut Xoshiro256PlusPlus) -> f64 {
    StandardNormal.sample(random)
}

fn before() -> Before {
    Before {
        focal: FOCAL,
        centre: (Point::new(799.5, 599.5), 6.4),
        k1: (0.0, 0.02),
        least_spread: 0.03,
    }
}

/// One of the cameras that `before` tells of.
fn one_camera(random: &mut Xoshiro256PlusPlus) -> Camera {
    let before = before();
    let (centre, off) = before.centre;
    Camera {
        focal: FOCAL.0 * (FOCAL.1 * normal(random)).exp(),
        centre: centre + Vec2::new(normal(random), normal(random)) * off,
        k1: before.k1.1 * normal(random),
        ..camera(400.0, (0.12, -0.08), 1.3, 0.0)
    }
}

/// The sheet's edges as this camera shows them, a little off.
fn edges_of(camera: &Camera, random: &mut Xoshiro256PlusPlus) -> Vec<Edge> {
    let corners = Sheet::A4.corners();
    let mut all = Vec::new();
    for side in 0..4 {
        let (from, to) = (corners[side], corners[(side + 1) % 4]);
        let mut off = 0.0;
        for step in 0..20 {
            if step % 4 == 0 {
                off = SHEET_OFF * normal(random);
            }
            let on_sheet = from.lerp(to, (f64::from(step) + 0.5) / 20.0);
            let shown = |at: Point| camera.project(Point3::new(at.x, at.y, 0.0)).unwrap();
            let along = (shown(on_sheet.lerp(to, 0.01)) - shown(on_sheet)).normalize();
            all.push(Edge {
                side,
                at: shown(on_sheet) + Vec2::new(-along.y, along.x) * off,
                on_sheet,
                step: 0.5,
            });
        }
    }
    all
}

/// The bar shoe's outlines, laid on the sheet.
fn laid() -> Vec<Vec<Point>> {
    let shoes = known();
    let shoe = shoes.iter().find(|shoe| !shoe.inner().is_empty()).unwrap();
    let mut lines = vec![shoe.outer()];
    lines.extend(shoe.inner());
    let count = lines[0].len() as f64;
    let middle = lines[0]
        .iter()
        .fold(Vec2::ZERO, |sum, at| sum + at.to_vec2())
        / count;
    for line in &mut lines {
        // A line of 1.5 mm to a place is quicker to measure, and as good here.
        let places: Vec<Point> = line.iter().copied().step_by(3).collect();
        *line = places;
        for at in line {
            *at = *at - middle + Vec2::new(6.0, -10.0);
        }
    }
    lines
}

fn followed(line: &[Point], is_hole: bool) -> Followed {
    let count = line.len();
    let area: f64 = (0..count)
        .map(|place| {
            line[place]
                .to_vec2()
                .cross(line[(place + 1) % count].to_vec2())
        })
        .sum();
    let sign = area.signum() * if is_hole { -1.0 } else { 1.0 };
    let outward = (0..count).map(|place| {
        let along = line[(place + 1) % count] - line[(place + count - 1) % count];
        Vec2::new(along.y, -along.x).normalize() * sign
    });
    Followed {
        outward: outward.collect(),
        unsure: vec![STEEL_OFF; count],
        likely: vec![0.0; count],
        line: line.to_vec(),
    }
}

/// The edges as a picture tells them: all off at once, and alike over 3 mm and over 20 mm, as
/// the gauge says that they are.
fn told(outline: &Followed, all: f64, random: &mut Xoshiro256PlusPlus) -> Vec<Point> {
    let mut off = vec![all; outline.line.len()];
    for (alike, part) in [(3.0, 0.253_f64), (20.0, 0.338)] {
        let mut value = normal(random);
        for place in 0..off.len() {
            off[place] += part.sqrt() * STEEL_OFF * value;
            let next = outline.line[(place + 1) % off.len()];
            let kept = f64::exp(-(next - outline.line[place]).hypot() / alike);
            value = kept * value + (1.0 - kept * kept).sqrt() * normal(random);
        }
    }
    let places = outline.line.iter().zip(&outline.outward).zip(off);
    evened(
        &places
            .map(|((at, out), off)| *at + *out * off)
            .collect::<Vec<Point>>(),
    )
}

struct Simulated {
    seen: Seen,
    outlines: Vec<Followed>,
    measures: Measures,
}

/// One photograph of the shoe, measured.
fn photographed(truth: &[Followed], random: &mut Xoshiro256PlusPlus) -> Simulated {
    let taken_by = one_camera(random);
    let start = camera(400.0, (0.12, -0.08), 1.3, 0.0);
    let start = Camera {
        focal: FOCAL.0,
        ..start
    };
    let seen = fit(&start, Sheet::A4, &edges_of(&taken_by, random), &before()).unwrap();
    let height = THICKNESS.0 + THICKNESS.1 * normal(random);
    let all = ALL_OFF * normal(random);
    let outlines: Vec<Followed> = truth
        .iter()
        .enumerate()
        .map(|(place, outline)| {
            let line = told(outline, all, random).into_iter().map(|at| {
                let pixel = taken_by.project(Point3::new(at.x, at.y, height)).unwrap();
                seen.camera.meets(pixel, THICKNESS.0).unwrap()
            });
            followed(&line.collect::<Vec<Point>>(), place > 0)
        })
        .collect();
    let lines: Vec<Vec<Point>> = outlines.iter().map(|one| one.line.clone()).collect();
    let measures = measure(&lines[0], &lines[1..], None).unwrap();
    Simulated {
        seen,
        outlines,
        measures,
    }
}

fn estimated(photo: &Simulated) -> Estimates {
    estimates(&Basis {
        seen: &photo.seen,
        outlines: &photo.outlines,
        measures: &photo.measures,
        places: &[],
        unclear: &[],
        blank: &|_| false,
        thickness: THICKNESS,
        all_off: ALL_OFF,
    })
    .unwrap()
}
/// The errors of each measure over all photographs.
type Errors = Vec<(Feature, Vec<f64>)>;

fn simulated() -> (Errors, Estimates) {
    let lines = laid();
    let truth: Vec<Followed> = lines
        .iter()
        .enumerate()
        .map(|(place, line)| followed(&evened(line), place > 0))
        .collect();
    let lines: Vec<Vec<Point>> = truth.iter().map(|one| one.line.clone()).collect();
    let exact = measure(&lines[0], &lines[1..], None).unwrap();
    let mut random = Xoshiro256PlusPlus::seed_from_u64(1);
    let photos: Vec<Simulated> = (0..PHOTOS)
        .map(|_| photographed(&truth, &mut random))
        .collect();
    let stated = estimated(&photos[0]);
    let errors = |feature: Feature| -> Vec<f64> {
        let of = |measures: &Measures| value_of(feature, measures).unwrap();
        let each = photos.iter();
        each.map(|photo| of(&photo.measures) - of(&exact)).collect()
    };
    let all = stated.features.iter().copied();
    (
        all.map(|feature| (feature, errors(feature))).collect(),
        stated,
    )
}

fn mean_product(one: &[f64], other: &[f64]) -> f64 {
    let products = one.iter().zip(other).map(|(a, b)| a * b);
    products.sum::<f64>() / one.len() as f64
}

/// The spread of the errors is what is stated, and so is how far they go together, within what
/// so few photographs and the gauge's 24 draws can tell: standard deviations to about an eighth
/// and a seventh of themselves, correlations to about an eighth and a fifth.
#[test]
fn errors_are_as_large_and_as_alike_as_they_are_said_to_be() {
    let (errors, stated) = simulated();
    // Noise raises these by more than it spreads them; `estimates` takes the rise off.
    let told: Vec<(usize, &(Feature, Vec<f64>))> = errors
        .iter()
        .enumerate()
        .filter(|(_, (feature, _))| !is_raised_by_noise(*feature))
        .collect();
    assert_eq!(told.len(), 16);
    let unsure = stated.uncertainties();
    let mut apart = Vec::new();
    for (place, (feature, off)) in &told {
        let ratio = mean_product(off, off).sqrt() / unsure[*place];
        assert!((0.65..1.5).contains(&ratio), "{feature:?}: {ratio}");
        for (after, (_, other)) in told.iter().filter(|(after, _)| after > place) {
            let sizes = (mean_product(off, off) * mean_product(other, other)).sqrt();
            let seen = mean_product(off, other) / sizes;
            let said = stated.covariance[(*place, *after)] / (unsure[*place] * unsure[*after]);
            apart.push(seen - said);
        }
    }
    let root = mean_product(&apart, &apart).sqrt();
    assert!(root < 0.3, "correlations are {root} from what is stated");
}
