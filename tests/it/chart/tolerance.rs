//! The drawn tolerance and the ruler of the total.

use evenshod::chart::{
    Align, Class, Shape, Stretch, Tolerance, Total, tolerance, tolerance_strip, total,
};

fn plan(value: Option<(f64, f64)>) -> Tolerance {
    let stretch = |from, to, rank| Stretch { from, to, rank };
    Tolerance {
        stretches: vec![
            stretch(0.0, 1.0, 4),
            stretch(1.0, 2.0, 2),
            stretch(2.0, 4.0, 0),
        ],
        labels: vec![(1.0, "1".to_owned()), (2.0, "2".to_owned())],
        value,
        off: 0.0,
        title: "Back edge".to_owned(),
        description: String::new(),
    }
}

fn plumb_at(value: (f64, f64)) -> f64 {
    let shapes = tolerance(&plan(Some(value))).shapes;
    let path = shapes.into_iter().find_map(|shape| match shape {
        Shape::Path {
            d,
            class: Class::Plumb,
        } => Some(d),
        _ => None,
    });
    path.unwrap()[1..]
        .split(',')
        .next()
        .unwrap()
        .parse()
        .unwrap()
}

#[test]
fn stretches_fill_the_ruler_without_gaps() {
    let shapes = tolerance(&plan(None)).shapes;
    let stretches: Vec<(f64, f64, Option<u8>)> = shapes
        .iter()
        .filter_map(|shape| match shape {
            Shape::Rect {
                x,
                width,
                band,
                class: Class::Stretch,
                ..
            } => Some((*x, x + width, *band)),
            _ => None,
        })
        .collect();
    assert_eq!(
        stretches,
        [
            (0.0, 100.0, Some(4)),
            (100.0, 200.0, Some(2)),
            (200.0, 400.0, Some(0))
        ]
    );
}

#[test]
fn the_plumb_stands_at_the_reading_and_never_off_the_ruler() {
    assert!((plumb_at((1.5, 1.5)) - 150.0).abs() < 0.01);
    assert!((plumb_at((9.0, 9.0)) - 400.0).abs() < 0.01);
    assert!((plumb_at((-3.0, -3.0)) - 0.0).abs() < 0.01);
    assert!(
        (plumb_at((1.0, 2.0)) - 150.0).abs() < 0.01,
        "middle of an interval"
    );
}

#[test]
fn a_line_over_the_reading_is_as_long_as_it_can_be_off() {
    let ends = |value: f64, off: f64| {
        let plan = Tolerance {
            off,
            ..plan(Some((value, value)))
        };
        let shapes = tolerance_strip(&plan).shapes;
        let plumb = shapes.iter().find_map(|shape| match shape {
            Shape::Path { d, .. } => Some(d.clone()),
            _ => None,
        });
        let line = shapes.iter().find_map(|shape| match shape {
            Shape::Line {
                x1,
                x2,
                class: Class::Whisker,
                ..
            } => Some((*x1, *x2)),
            _ => None,
        });
        (plumb.unwrap(), line)
    };
    // Four units are 160 wide.
    let (plumb, line) = ends(1.0, 0.25);
    assert!(plumb.starts_with("M40.0,"), "{plumb}");
    assert_eq!(line, Some((30.0, 50.0)));
    // The line ends with the ruler, and the plumb stays where the reading is.
    let (plumb, line) = ends(0.1, 0.25);
    assert!(plumb.starts_with("M4.0,"), "{plumb}");
    assert_eq!(line, Some((0.0, 14.0)));
    assert_eq!(ends(1.0, 0.0).1, None);
}

#[test]
fn nothing_to_draw_draws_nothing() {
    assert!(tolerance(&Tolerance::default()).shapes.is_empty());
    let empty = total(&Total::default());
    assert!(empty.shapes.iter().all(|shape| match shape {
        Shape::Rect { width, .. } => width.is_finite(),
        _ => true,
    }));
}

#[test]
fn marks_and_pass_mark_stand_in_proportion() {
    let plan = Total {
        marks: 61.0,
        pass: 65.0,
        out_of: 100.0,
        pass_words: "pass 65".to_owned(),
        ..Total::default()
    };
    let shapes = total(&plan).shapes;
    let paths: Vec<&str> = shapes
        .iter()
        .filter_map(|shape| match shape {
            Shape::Path { d, .. } => Some(d.as_str()),
            _ => None,
        })
        .collect();
    assert_eq!(paths, ["M366.0,16 l-7,-12 h14 Z", "M390.0,8 v34"]);
}

#[test]
fn words_of_the_pass_mark_keep_off_the_plumb() {
    for out_of in [40.0, 100.0] {
        for marks in 0..=40_u8 {
            for pass in [4.0, 20.0, 26.0, 36.0] {
                let plan = Total {
                    marks: f64::from(marks),
                    pass,
                    out_of,
                    pass_words: "pass".to_owned(),
                    ..Total::default()
                };
                let won = f64::from(marks) / out_of * 600.0;
                let shapes = total(&plan).shapes;
                let words = shapes.iter().find_map(|shape| match shape {
                    Shape::Text { x, align, text, .. } if text == "pass" => Some((*x, *align)),
                    _ => None,
                });
                let (x, align) = words.unwrap();
                // The plumb is 14 wide; the words at most 90.
                let (from, to) = match align {
                    Align::End => (x - 90.0, x),
                    _ => (x, x + 90.0),
                };
                assert!(
                    to <= won - 7.0 || from >= won + 7.0,
                    "{marks} of {out_of}, pass {pass}: words from {from} to {to}, plumb at {won}"
                );
                assert!(from >= 0.0 && to <= 600.0);
            }
        }
    }
}
