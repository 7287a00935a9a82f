//! What shifting, turning, mirroring and scaling a shoe, or seeing it by a camera, does to its
//! measures.

use evenshod::gauge::features::{Both, Heels, Measures, measure};
use kurbo::{Affine, Point, Vec2};
use nalgebra::Point3;
use proptest::prelude::*;

use super::{Known, known};
use crate::gauge::camera::camera;

fn moved(shoe: &Known, by: Affine) -> Measures {
    let all = |ring: Vec<Point>| -> Vec<Point> { ring.iter().map(|at| by * *at).collect() };
    let inner: Vec<Vec<Point>> = shoe.inner().into_iter().map(all).collect();
    measure(&all(shoe.outer()), &inner, None).unwrap()
}

/// Lengths that are the same for both sides, then those of the left, and of the right side.
fn figures(shoe: &Known, found: &Measures, by: Affine) -> [Vec<f64>; 3] {
    let mut whole = vec![
        found.width,
        found.length,
        found.webs.toe,
        found.toe_circle.radius,
        found.deviation.rms,
        found.deviation.first_rms,
    ];
    match found.heels {
        Heels::Bar(bar) => whole.extend([bar.width, bar.straightness]),
        Heels::Open(gap) => whole.push(gap),
    }
    let centres: Vec<Point> = shoe.holes().iter().map(|at| by * *at).collect();
    let holes = found.holes(&centres).unwrap();
    whole.extend(holes.mismatch.iter().map(|mismatch| mismatch.distance()));
    let webs = found.webs;
    let both = [found.branches, webs.toe_quarters, webs.quarters, webs.heels];
    let one = |of: fn(&Both<f64>) -> f64| both.iter().map(of).collect::<Vec<f64>>();
    let (mut left, mut right) = (one(|both| both.left), one(|both| both.right));
    left.extend(
        holes
            .holes
            .left
            .iter()
            .flat_map(|hole| [hole.to_edge, hole.along]),
    );
    right.extend(
        holes
            .holes
            .right
            .iter()
            .flat_map(|hole| [hole.to_edge, hole.along]),
    );
    left.extend(holes.gaps.left);
    right.extend(holes.gaps.right);
    [whole, left, right]
}

fn angle(found: &Measures) -> f64 {
    match found.heels {
        Heels::Bar(bar) => bar.angle,
        Heels::Open(_) => 0.0,
    }
}

fn are_alike(found: &[f64], expect: &[f64], scale: f64) -> Result<(), TestCaseError> {
    prop_assert_eq!(found.len(), expect.len());
    for (found, expect) in found.iter().zip(expect) {
        let off = (found - expect * scale).abs();
        prop_assert!(
            off < 2e-3 * scale,
            "{} for {} times {}",
            found,
            expect,
            scale
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn a_moved_shoe_is_the_same_and_a_mirrored_one_the_other_way_round(
        which in 0..6_usize,
        turn in 0.0..std::f64::consts::TAU,
        shift in (-300.0..300.0_f64, -300.0..300.0_f64),
        scale in 0.05..20.0_f64,
        first in 0..800_usize,
    ) {
        let mut shoe = known().swap_remove(which);
        let found = moved(&shoe, Affine::IDENTITY);
        let expect = figures(&shoe, &found, Affine::IDENTITY);
        // Where the outline is begun does not matter either.
        shoe.outer.rotate_left(first);
        let to = Affine::translate(Vec2::from(shift)) * Affine::rotate(turn) * Affine::scale(scale);
        let same = moved(&shoe, to);
        let [whole, left, right] = figures(&shoe, &same, to);
        are_alike(&whole, &expect[0], scale)?;
        are_alike(&left, &expect[1], scale)?;
        are_alike(&right, &expect[2], scale)?;
        prop_assert!((angle(&same) - angle(&found)).abs() < 2e-5);
        prop_assert!((same.frame.toe - to * found.frame.toe).hypot() < 2e-3 * scale);
        let mirror = to * Affine::FLIP_X;
        let mirrored = moved(&shoe, mirror);
        let [whole, left, right] = figures(&shoe, &mirrored, mirror);
        are_alike(&whole, &expect[0], scale)?;
        are_alike(&left, &expect[2], scale)?;
        are_alike(&right, &expect[1], scale)?;
        prop_assert!((angle(&mirrored) + angle(&found)).abs() < 2e-5);
    }

    /// Seen by a camera that leans, turns and bends, and brought back to its plane, a shoe has the
    /// measures that it had.
    #[test]
    fn a_shoe_that_a_camera_saw_is_the_same(
        which in 0..6_usize,
        height in 300.0..700.0_f64,
        lean in (-0.4..0.4_f64, -0.4..0.4_f64),
        turn in -3.2..3.2_f64,
        k1 in -0.1..0.1_f64,
        thickness in 0.0..14.0_f64,
    ) {
        let shoe = known().swap_remove(which);
        let camera = camera(height, lean, turn, k1);
        let seen = |ring: Vec<Point>| -> Vec<Point> {
            let pixels = ring.iter().map(|at| camera.project(Point3::new(at.x, at.y, thickness)));
            let back = pixels.map(|pixel| camera.meets(pixel.unwrap(), thickness));
            back.map(Option::unwrap).collect()
        };
        let inner: Vec<Vec<Point>> = shoe.inner().into_iter().map(seen).collect();
        let found = measure(&seen(shoe.outer()), &inner, None).unwrap();
        let straight = moved(&shoe, Affine::IDENTITY);
        let expect = figures(&shoe, &straight, Affine::IDENTITY);
        for (found, expect) in figures(&shoe, &found, Affine::IDENTITY).iter().zip(&expect) {
            are_alike(found, expect, 1.0)?;
        }
        prop_assert!((angle(&found) - angle(&straight)).abs() < 2e-5);
    }
}
