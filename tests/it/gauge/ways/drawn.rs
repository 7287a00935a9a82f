//! Drawn outlines of known shoes, scanned and photographed.

use evenshod::gauge::features::Heels;
use evenshod::gauge::scale::see;
use evenshod::gauge::{Ask, Found, Picture, Refused, Scale, Unclear, Warning, look};
use kurbo::{Affine, Point};

use super::{ask, assert_within, camera, drawn, picture, shoes, truth};
use crate::gauge::features::Known;
use crate::gauge::paint::{Drawing, Outline};

/// Dots per inch of the scans.
const DOTS: f64 = 64.0;

/// Lines of a pencil on a scan of 200 mm each way.
fn scanned(outlines: Vec<Outline>) -> Drawing {
    let size = (504, 504);
    // From a metre, so that a pixel is an inch over the dots for each.
    Drawing {
        camera: camera(size, 1_000.0 * DOTS / 25.4, 1_000.0, (0.0, 0.0)),
        size,
        outlines,
        width: 0.7,
        ink: 0.35,
        gap: None,
    }
}

fn measured(drawing: &Drawing, dots: Option<f64>) -> Result<Found, Refused> {
    let ask = Ask {
        scale: Scale::Scan(dots),
        density: Some(DOTS),
        ..ask()
    };
    look(&picture(drawing.paint()), &ask, |_| ())
}

fn unclear(drawing: &Drawing) -> Unclear {
    match measured(drawing, None) {
        Err(Refused::Drawn(why)) => why,
        other => panic!("{other:?}"),
    }
}

fn moved(outline: &Outline, by: Affine) -> Outline {
    let moved = |ring: &[Point]| ring.iter().map(|at| by * *at).collect();
    Outline {
        outer: moved(&outline.outer),
        inner: moved(&outline.inner),
    }
}

/// The middle of the line lies where it was drawn, to a fifth of its width.
fn assert_measured(known: &Known) {
    let found = measured(&scanned(vec![drawn(known)]), Some(DOTS)).unwrap();
    assert_eq!(found.warnings, [Warning::Traced]);
    assert_eq!(
        matches!(found.measures.heels, Heels::Bar(_)),
        !known.inner().is_empty()
    );
    assert!(found.holes.is_empty());
    for (feature, off) in assert_within(&found, &truth(known)) {
        assert!(off.abs() < 0.15, "{feature:?}: {off}");
    }
    // What has two edges is known to √2 × 0.5 mm at best.
    assert!(found.estimates.uncertainties()[0] > 0.7);
}

#[test]
fn a_scan_of_a_bar_shoe_is_measured() {
    let [bar, _] = shoes();
    assert_measured(&bar);
}

#[test]
fn a_scan_of_an_open_shoe_is_measured() {
    let [_, open] = shoes();
    assert_measured(&open);
}

/// As many dots to the inch as are typed, or as the file tells.
#[test]
fn the_resolution_is_the_scale() {
    let picture = Picture::of(720, 720, vec![200; 720 * 720 * 3]).unwrap();
    let inch = |dots, density| {
        let ask = Ask {
            scale: Scale::Scan(dots),
            density,
            ..ask()
        };
        let camera = see(&picture, &ask)?.camera;
        let [from, to] = [100.0, 400.0].map(|x| camera.meets(Point::new(x, 90.0), 0.0));
        Ok::<f64, Refused>(from.unwrap().distance(to.unwrap()))
    };
    assert!((inch(Some(300.0), None).unwrap() - 25.4).abs() < 1e-9);
    assert!((inch(None, Some(300.0)).unwrap() - 25.4).abs() < 1e-9);
    assert!((inch(Some(150.0), Some(300.0)).unwrap() - 50.8).abs() < 1e-9);
    assert_eq!(inch(None, None), Err(Refused::NoDensity));
    for wrong in [20.0, -300.0, 0.0, f64::NAN, f64::INFINITY] {
        let found = inch(Some(wrong), None);
        assert!(matches!(found, Err(Refused::Far(_))), "{wrong}: {found:?}");
    }
}

#[test]
fn what_is_no_plain_closed_line_is_refused() {
    let [bar, _] = shoes();
    let outline = drawn(&bar);
    let toe = outline.outer[0];
    let open = Drawing {
        gap: Some((toe, 4.0)),
        ..scanned(vec![outline.clone()])
    };
    assert_eq!(unclear(&open), Unclear::Open);
    let beside = moved(&outline, Affine::translate((1.6, 0.8)));
    let doubled = scanned(vec![outline.clone(), beside]);
    assert_eq!(unclear(&doubled), Unclear::Doubled);
    assert_eq!(unclear(&scanned(Vec::new())), Unclear::Missing);
    let small = moved(&outline, Affine::scale(0.3));
    let two = scanned(vec![
        moved(&small, Affine::translate((-45.0, 0.0))),
        moved(&small, Affine::translate((45.0, 0.0))),
    ]);
    assert_eq!(unclear(&two), Unclear::Others);
}
