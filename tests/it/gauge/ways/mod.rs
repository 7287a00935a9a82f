//! Other ways to a scale than a sheet, and drawn outlines.

mod card;
mod drawn;
mod ruler;

use evenshod::gauge::sheet::{Seen, Sheet, UNKNOWNS, moved};
use evenshod::gauge::{Ask, Camera, Found, Picture, Scale};
use evenshod::piece::Feature;
use kurbo::Point;
use nalgebra::{Rotation3, SVector, Vector3};

use super::features::{Known, known};
use super::paint::{Outline, Painted};

/// A shoe of 10 mm on A4.
fn ask() -> Ask {
    Ask::of(Scale::Sheet(Sheet::A4), (10.0, 0.05))
}

fn picture(painted: Painted) -> Picture {
    Picture::of(painted.width, painted.height, painted.pixels).unwrap()
}

/// A camera over the middle of the paper, which the middle of the picture shows, leaning by
/// angles in radians; y runs up the picture.
fn camera(size: (usize, usize), focal: f64, height: f64, lean: (f64, f64)) -> Camera {
    let down = Rotation3::from_euler_angles(std::f64::consts::PI, 0.0, 0.0);
    let rotation = Rotation3::from_euler_angles(lean.0, lean.1, 0.0) * down;
    Camera {
        rotation: *rotation.matrix(),
        translation: Vector3::new(0.0, 0.0, height),
        focal,
        centre: Point::new((size.0 as f64 - 1.0) / 2.0, (size.1 as f64 - 1.0) / 2.0),
        k1: 0.0,
    }
}

/// The first known shoe with a bar, and the first without.
fn shoes() -> [Known; 2] {
    [false, true].map(|is_open| {
        let mut all = known().into_iter();
        all.find(|known| known.inner().is_empty() == is_open)
            .unwrap()
    })
}

/// Its outlines about the middle of the paper.
fn drawn(known: &Known) -> Outline {
    let outer = known.outer();
    let sum: kurbo::Vec2 = outer.iter().map(|at| at.to_vec2()).sum();
    let middle = sum / outer.len() as f64;
    let about = |ring: &[Point]| ring.iter().map(|at| *at - middle).collect();
    Outline {
        outer: about(&outer),
        inner: known.inner().first().map_or(Vec::new(), |ring| about(ring)),
    }
}

/// What a shoe measures where its outlines are known.
fn truth(known: &Known) -> Vec<(Feature, f64)> {
    let measures = known.measured();
    let mut all = vec![
        (Feature::OverallWidth, measures.width),
        (Feature::OverallLength, measures.length),
        (Feature::BranchLengthLeft, measures.branches.left),
        (Feature::BranchLengthRight, measures.branches.right),
        (Feature::WebToe, measures.webs.toe),
        (Feature::WebQuarterLeft, measures.webs.quarters.left),
        (Feature::WebHeelRight, measures.webs.heels.right),
        (Feature::ToeRadius, measures.toe_circle.radius),
    ];
    if let evenshod::gauge::features::Heels::Bar(bar) = measures.heels {
        all.push((Feature::BarWidth, bar.width));
        all.push((Feature::BarBackSquareness, bar.angle));
    }
    all
}

/// Each value within its interval of about 95 %; how far off it is.
fn assert_within(found: &Found, truth: &[(Feature, f64)]) -> Vec<(Feature, f64)> {
    let estimates = &found.estimates;
    let sure = estimates.uncertainties();
    let each = truth.iter().map(|(feature, known)| {
        let mut places = estimates.features.iter();
        let place = places.position(|one| one == feature).unwrap();
        let (off, u) = (estimates.values[place] - known, sure[place]);
        assert!(off.abs() < 2.0 * u, "{feature:?}: off by {off}, u {u}");
        (*feature, off)
    });
    each.collect()
}

/// A length between two pixels on a plane, and its standard uncertainty (JCGM 100:2008, 5.1.3
/// note 2).
fn length(seen: &Seen, pixels: [Point; 2], (height, unsure): (f64, f64)) -> (f64, f64) {
    let of = |camera: &Camera, height: f64| {
        let [one, other] = pixels.map(|at| camera.meets(at, height).unwrap());
        one.distance(other)
    };
    let length = of(&seen.camera, height);
    let root = seen.covariance.cholesky().unwrap().l();
    let shifts = (0..UNKNOWNS).map(|column| {
        let by: SVector<f64, UNKNOWNS> = root.column(column).into_owned();
        of(&moved(&seen.camera, &by), height) - length
    });
    let higher = of(&seen.camera, height + unsure) - length;
    let squares: f64 = shifts.chain([higher]).map(|off| off * off).sum();
    (length, squares.sqrt())
}
