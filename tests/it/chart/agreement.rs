//! Drawings of how far examiners lie apart.

use super::texts;
use evenshod::chart::{
    Bound, Class, DifferencePoint, Differences, Drawing, IntervalRow, Shape, differences, intervals,
};
use proptest::prelude::*;

fn bound(value: f64, reach: f64) -> Bound {
    Bound {
        value,
        interval: (value - reach, value + reach),
        label: format!("at {value}"),
    }
}

fn plan(points: &[(f64, f64)], limits: [f64; 3], reach: f64) -> Differences {
    let points = points.iter().zip(1..);
    let points = points.map(|((mean, difference), at)| DifferencePoint {
        mean: *mean,
        difference: *difference,
        name: at.to_string(),
        words: format!("piece {at}"),
    });
    Differences {
        points: points.collect(),
        low: bound(limits[0], reach),
        middle: bound(limits[1], reach),
        high: bound(limits[2], reach),
        across: "mean of both".to_owned(),
        upwards: "first less second".to_owned(),
        title: "Totals".to_owned(),
        description: "It says so.".to_owned(),
    }
}

fn circles(drawing: &Drawing) -> Vec<(f64, f64)> {
    let shapes = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Circle { x, y, .. } => Some((*x, *y)),
        _ => None,
    });
    shapes.collect()
}

/// Both ends of each line of a class.
fn lines(drawing: &Drawing, wanted: Class) -> Vec<[f64; 4]> {
    let shapes = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Line {
            x1,
            y1,
            x2,
            y2,
            class,
        } if *class == wanted => Some([*x1, *y1, *x2, *y2]),
        _ => None,
    });
    shapes.collect()
}

#[test]
fn differences_stand_to_scale_about_nothing() {
    let drawing = differences(&plan(
        &[(60.0, -2.0), (70.0, 0.0), (80.0, 2.0)],
        [-4.0, 0.0, 4.0],
        1.0,
    ));
    let points = circles(&drawing);
    assert_eq!(points.len(), 3);
    let [(x0, y0), (x1, y1), (x2, y2)] = points[..] else {
        panic!("{points:?}");
    };
    assert!((x1 - x0 - (x2 - x1)).abs() < 1e-9 && x1 > x0);
    assert!(
        (y0 - y1 - (y1 - y2)).abs() < 1e-9 && y0 > y1,
        "more is higher"
    );
    // Each point can be read off where it stands.
    let read = drawing.readings.iter();
    let places: Vec<_> = read.clone().map(|one| (one.x, one.y)).collect();
    assert_eq!(places, points);
    assert!(
        read.map(|one| &*one.words)
            .eq(["piece 1", "piece 2", "piece 3"])
    );
    let said = texts(&drawing);
    assert!(
        said.contains(&"\u{2212}4") && said.contains(&"0"),
        "{said:?}"
    );
    assert!(said.contains(&"at -4") && said.contains(&"1"), "{said:?}");
    // An interval to each of the three lines.
    let whiskers = lines(&drawing, Class::Whisker);
    assert_eq!(whiskers.len(), 3);
    let [_, from, _, to] = whiskers[0];
    assert!(
        (from - to - (y0 - y1)).abs() < 1e-9,
        "two units, as from point to point"
    );
}

#[test]
fn intervals_stand_to_scale_and_their_middle_is_drawn() {
    let row = |name: &str, value: f64, reach: f64| IntervalRow {
        name: name.to_owned(),
        value,
        interval: (value - reach, value + reach),
        words: format!("{value}"),
    };
    let rows = [row("One", 1.0, 0.5), row("Other", -0.5, 1.0)];
    let drawing = intervals(
        "Severity".to_owned(),
        "It says so.".to_owned(),
        &rows,
        (0.0, "mean of all"),
        ("milder", "more severe"),
    );
    let points = circles(&drawing);
    let [[from, _, to, _], [other_from, _, other_to, _]] = lines(&drawing, Class::Whisker)[..]
    else {
        panic!("one whisker a row");
    };
    assert!((2.0 * (to - from) - (other_to - other_from)).abs() < 1e-9);
    assert!((points[0].0 - f64::midpoint(from, to)).abs() < 1e-9);
    let [middle, ..] = lines(&drawing, Class::Tie)[0];
    // 1 and -0.5 about 0.
    assert!((points[0].0 - middle + 2.0 * (points[1].0 - middle)).abs() < 1e-9);
    let said = texts(&drawing);
    for words in ["One", "Other", "milder", "more severe", "mean of all"] {
        assert!(said.contains(&words), "{words}");
    }
}

proptest! {
    #[test]
    fn nothing_leaves_the_drawing(
        points in prop::collection::vec((-1e4..1e4, -1e4..1e4), 0..12),
        middle in -1e3..1e3,
        far in 0.0..1e4,
        reach in 0.0..1e3,
    ) {
        let drawing = differences(&plan(&points, [middle - far, middle, middle + far], reach));
        for (x, y) in circles(&drawing) {
            prop_assert!((0.0..=drawing.width).contains(&x));
            prop_assert!((0.0..=drawing.height).contains(&y));
        }
        for [x1, y1, x2, y2] in lines(&drawing, Class::Whisker) {
            prop_assert!(x1 <= drawing.width && x2 <= drawing.width);
            prop_assert!(y1 >= 0.0 && y1 <= drawing.height && y2 >= 0.0 && y2 <= drawing.height);
        }
        let labels = texts(&drawing).len();
        prop_assert!(labels < 60, "{}", labels);
    }
}
