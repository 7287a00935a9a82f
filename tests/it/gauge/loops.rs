//! Loops that are cut off a line that is followed.

use evenshod::gauge::steel::without_loops;
use kurbo::Point;
use proptest::prelude::*;

fn circle(count: u32, turned: f64) -> Vec<Point> {
    let angle = |place: u32| turned + std::f64::consts::TAU * f64::from(place) / f64::from(count);
    (0..count)
        .map(|place| Point::new(60.0 * angle(place).cos(), 60.0 * angle(place).sin()))
        .collect()
}

/// Twice the area that a closed line goes round, in either direction.
fn area(line: &[Point]) -> f64 {
    let ends = line.iter().cycle().skip(1);
    let sides = line.iter().zip(ends);
    sides
        .map(|(from, to)| from.to_vec2().cross(to.to_vec2()))
        .sum::<f64>()
        .abs()
}

#[test]
fn a_line_without_loops_stays() {
    let line = circle(90, 0.3);
    assert_eq!(without_loops(line.clone()), line);
    assert_eq!(without_loops(Vec::new()), []);
    let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(Point::from);
    assert_eq!(without_loops(square.to_vec()), square);
}

proptest! {
    /// Wherever the line begins and whichever way it goes, a loop outside is cut off and the rest
    /// stays: all places but those of the loop lie on the circle.
    #[test]
    fn a_loop_goes_and_the_rest_stays(at in 0_usize..90, first in 0_usize..96, is_back: bool) {
        let circle = circle(90, 0.0);
        let (here, next) = (circle[at], circle[(at + 1) % 90]);
        let out = here.to_vec2().normalize();
        let along = next - here;
        // Forth beyond the next place, out, back behind this one: a loop across itself.
        let away = [
            here + along * 0.6 + out * 1.0,
            here + along * 2.0 + out * 3.0,
            here - along * 1.0 + out * 3.0,
            here + along * 0.5 + out * 1.0,
        ];
        let mut line = circle.clone();
        let tail = line.split_off(at + 1);
        line.extend(away);
        line.extend(tail);
        let count = line.len();
        line.rotate_left(first % count);
        if is_back {
            line.reverse();
        }
        let cut = without_loops(line);
        prop_assert!(cut.len() >= 90);
        let whole = area(&circle);
        prop_assert!((area(&cut) - whole).abs() < 0.002 * whole, "{} of {whole}", area(&cut));
        prop_assert_eq!(without_loops(cut.clone()), cut);
    }
}
