//! Outlines with no more corners than tell them.

use evenshod::gauge::thinned;
use evenshod::piece::Chain;
use kurbo::Point;
use proptest::prelude::*;

fn ring(places: usize, wave: f64) -> Vec<Point> {
    let at = |place: usize| {
        let angle = std::f64::consts::TAU * place as f64 / places as f64;
        let radius = 60.0 + wave * (9.0 * angle).sin();
        Point::new(radius * angle.cos(), radius * angle.sin())
    };
    (0..places).map(at).collect()
}

fn furthest(from: &[Point], closed: &[Point]) -> f64 {
    let closed: Vec<Point> = closed.iter().chain(closed.first()).copied().collect();
    let chain = Chain::of(&closed).unwrap();
    let far = from.iter().map(|at| chain.nearest(*at, &mut 0).distance());
    far.fold(0.0, f64::max)
}

/// Chords of a circle leave it by r (1 - cos(half angle)): with 60 mm and 0.05 mm they may take
/// 4.68 degrees each, so 77 at least; halving takes up to twice as many.
#[test]
fn a_circle_keeps_as_many_corners_as_it_takes() {
    let line = ring(754, 0.0);
    let kept = thinned(&line, 0.05);
    assert!((77..=154).contains(&kept.len()), "{}", kept.len());
    assert!(furthest(&line, &kept) <= 0.05);
}

#[test]
fn a_square_keeps_its_corners() {
    let side = |x: f64, y: f64, dx: f64, dy: f64| {
        (0..50).map(move |at| Point::new(x + dx * f64::from(at), y + dy * f64::from(at)))
    };
    let sides = side(0.0, 0.0, 1.0, 0.0)
        .chain(side(50.0, 0.0, 0.0, 1.0))
        .chain(side(50.0, 50.0, -1.0, 0.0))
        .chain(side(0.0, 50.0, 0.0, -1.0));
    let kept = thinned(&sides.collect::<Vec<_>>(), 0.05);
    let corners = [(0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0)];
    assert_eq!(kept, corners.map(Point::from));
}

#[test]
fn what_is_no_line_stays_as_it_is() {
    assert_eq!(thinned(&[], 0.05), []);
    let one = [Point::new(1.0, 2.0)];
    assert_eq!(thinned(&one, 0.05), one);
    let nowhere = vec![Point::new(f64::NAN, 0.0); 9];
    assert!(thinned(&nowhere, 0.05).len() <= 9);
}

proptest! {
    #[test]
    fn no_corner_is_further_off_than_is_asked_for(
        places in 24_usize..900,
        wave in 0.0_f64..8.0,
        off in 0.01_f64..1.0,
    ) {
        let line = ring(places, wave);
        let kept = thinned(&line, off);
        prop_assert!(kept.len() <= line.len());
        prop_assert!(kept.iter().all(|at| line.contains(at)));
        prop_assert!(furthest(&line, &kept) <= off + 1e-9);
    }
}
