//! Two marks on a ruler, in pictures from cameras that are known.

use evenshod::gauge::scale::see;
use evenshod::gauge::{Ask, Camera, Picture, Refused, Scale, Warning, look};
use kurbo::Point;
use nalgebra::Point3;
use proptest::prelude::*;

use super::{ask, assert_within, camera, drawn, length, picture, shoes, truth};
use crate::gauge::paint::Drawing;

const SIZE: (usize, usize) = (800, 600);
/// As many degrees a camera leans.
const LEAN: f64 = 5.0;

/// The marks at both ends of 100 mm, left of what is measured, on a ruler of 0.8 mm.
fn ends(camera: &Camera) -> Option<[(f64, f64); 2]> {
    Some([(-105.0, -50.0), (-105.0, 50.0)].map(|(x, y)| {
        let at = camera.project(Point3::new(x, y, 0.8)).unwrap();
        (at.x, at.y)
    }))
}

fn by_ruler(camera: &Camera, focal: Option<(f64, f64)>) -> Ask {
    Ask {
        scale: Scale::Ruler {
            ends: ends(camera),
            mm: 100.0,
        },
        focal,
        ..ask()
    }
}

fn grey() -> Picture {
    Picture::of(SIZE.0, SIZE.1, vec![200; SIZE.0 * SIZE.1 * 3]).unwrap()
}

/// Whichever way the camera leans by 5 degrees, lengths of a shoe of 10 mm lie in their interval;
/// from straight above they are right to a tenth of a mm.
#[test]
fn lengths_by_a_ruler_lie_in_their_interval() {
    let lengths = [[(-65.0, 0.0), (65.0, 0.0)], [(0.0, -70.0), (0.0, 66.0)]];
    for focal in [Some((720.0, 0.015)), None] {
        for way in 0..9 {
            let by = if way == 8 { 0.0 } else { LEAN.to_radians() };
            let (down, right) = (f64::from(way) * std::f64::consts::FRAC_PI_4).sin_cos();
            let camera = camera(SIZE, 720.0, 420.0, (by * down, by * right));
            let ask = by_ruler(&camera, focal);
            let seen = see(&grey(), &ask).unwrap();
            for ends in lengths {
                let [one, other] = ends.map(Point::from);
                let truth = one.distance(other);
                let pixels =
                    [one, other].map(|at| camera.project(Point3::new(at.x, at.y, 10.0)).unwrap());
                let (length, unsure) = length(&seen, pixels, ask.height());
                let off = length - truth;
                assert!(off.abs() < 2.0 * unsure, "{way}: {off}, u {unsure}");
                assert!(unsure < 4.0, "{unsure}");
                if way == 8 && focal.is_some() {
                    assert!(off.abs() < 0.1, "{off}");
                }
            }
        }
    }
}

/// A drawn outline beside a ruler, from a camera that leans.
#[test]
fn a_drawn_outline_by_a_ruler_lies_in_its_interval() {
    let [bar, _] = shoes();
    let camera = camera(SIZE, 720.0, 420.0, (LEAN.to_radians(), 0.0));
    let drawing = Drawing {
        camera: camera.clone(),
        size: SIZE,
        outlines: vec![drawn(&bar)],
        width: 0.8,
        ink: 0.2,
        gap: None,
    };
    let ask = Ask {
        is_drawn: true,
        ..by_ruler(&camera, Some((720.0, 0.015)))
    };
    let found = look(&picture(drawing.paint()), &ask, |_| ()).unwrap();
    assert_eq!(found.warnings, [Warning::Level, Warning::Traced]);
    assert_within(&found, &truth(&bar));
}

#[test]
fn marks_too_near_each_other_are_refused() {
    let with = |ends, mm| {
        let ask = Ask {
            scale: Scale::Ruler { ends, mm },
            ..ask()
        };
        see(&grey(), &ask)
    };
    assert_eq!(with(None, 100.0), Err(Refused::Unmarked));
    let near = with(Some([(400.0, 300.0), (500.0, 300.0)]), 50.0);
    assert!(matches!(near, Err(Refused::Near(_))), "{near:?}");
    let far = with(Some([(100.0, 300.0), (400.0, 300.0)]), 300.0);
    assert!(matches!(far, Err(Refused::Far(_))), "{far:?}");
}

proptest! {
    /// Whatever is marked, there is an answer.
    #[test]
    fn any_marks_get_an_answer(
        ends in prop::array::uniform2((any::<f64>(), any::<f64>())),
        near in prop::array::uniform2((-50.0..1_050.0_f64, -50.0..800.0_f64)),
        mm in prop_oneof![any::<f64>(), 1.0..500.0_f64],
        focal in prop::option::of((100.0..5_000.0_f64, 0.001..0.5_f64)),
        is_drawn: bool,
    ) {
        for ends in [ends, near] {
            let ask = Ask {
                scale: Scale::Ruler { ends: Some(ends), mm },
                is_drawn,
                focal,
                ..ask()
            };
            if let Ok(seen) = see(&grey(), &ask) {
                prop_assert!(seen.covariance.cholesky().is_some());
                let (height, unsure) = ask.height();
                prop_assert!(height.is_finite() && unsure.is_finite());
            }
        }
    }
}
