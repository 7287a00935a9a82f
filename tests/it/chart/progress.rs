use chrono::NaiveDate;
use evenshod::chart::{Drawing, PassMark, ProgressPoint, Shape, bar_shoe_sign, progress};

fn point(year: i32, month: u32, day: u32, percent: f64) -> ProgressPoint {
    ProgressPoint {
        date: NaiveDate::from_ymd_opt(year, month, day).unwrap(),
        percent,
        stopped: false,
    }
}

fn draw(points: &[ProgressPoint], pass: f64) -> Drawing {
    let pass = PassMark {
        percent: pass,
        label: format!("pass {pass} %"),
    };
    progress("Marks".to_owned(), String::new(), points, Some(&pass))
}

fn texts<'a>(drawing: &'a Drawing, of: &str) -> Vec<&'a str> {
    let texts = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Text { text, class, .. } if *class == of => Some(text.as_str()),
        _ => None,
    });
    texts.collect()
}

/// Labels under the chart: those of the scale come first.
fn dates(drawing: &Drawing) -> Vec<&str> {
    texts(drawing, "label").split_off(6)
}

fn circles(drawing: &Drawing) -> Vec<(f64, f64)> {
    let circles = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Circle { x, y, .. } => Some((*x, *y)),
        _ => None,
    });
    circles.collect()
}

#[test]
fn marks_stand_at_their_height() {
    let drawing = draw(
        &[
            point(2026, 1, 1, 0.0),
            point(2026, 1, 2, 50.0),
            point(2026, 1, 3, 100.0),
        ],
        65.0,
    );
    let heights: Vec<_> = circles(&drawing).into_iter().map(|(_, y)| y).collect();
    assert_eq!(heights, [200.0, 110.0, 20.0]);
    assert_eq!(texts(&drawing, "pass-label"), ["pass 65 %"]);
}

#[test]
fn everything_stays_inside_the_drawing() {
    for percent in [-20.0, 0.0, 100.0, 130.0, f64::INFINITY] {
        let points = [point(2026, 1, 1, percent), point(2031, 12, 31, percent)];
        let drawing = draw(&points, percent);
        for (x, y) in circles(&drawing) {
            assert!((0.0..=drawing.width).contains(&x));
            assert!((0.0..=drawing.height).contains(&y));
        }
        for shape in &drawing.shapes {
            if let Shape::Text { y, .. } = shape {
                assert!((0.0..=drawing.height).contains(y), "{shape:?}");
            }
        }
    }
}

#[test]
fn months_are_named_once_with_their_year() {
    let drawing = draw(&[point(2025, 11, 20, 50.0), point(2026, 2, 10, 60.0)], 65.0);
    assert_eq!(dates(&drawing), ["Dec 2025", "Jan 2026", "Feb"]);
}

#[test]
fn a_few_days_are_named_by_their_ends() {
    let drawing = draw(&[point(2026, 5, 3, 50.0), point(2026, 5, 20, 60.0)], 65.0);
    assert_eq!(dates(&drawing), ["3 May 2026", "20 May"]);
    let drawing = draw(&[point(2026, 5, 3, 50.0)], 65.0);
    assert_eq!(dates(&drawing), ["3 May 2026"]);
}

#[test]
fn many_years_are_thinned() {
    let drawing = draw(&[point(1990, 1, 1, 50.0), point(2026, 1, 1, 60.0)], 65.0);
    assert!(dates(&drawing).len() <= 8, "{:?}", dates(&drawing));
    assert!(!dates(&drawing).is_empty());
}

#[test]
fn one_day_stands_in_the_middle_and_nothing_draws_nothing() {
    let drawing = draw(&[point(2026, 5, 3, 50.0), point(2026, 5, 3, 70.0)], 65.0);
    assert!(circles(&drawing).into_iter().all(|(x, _)| x == 320.0));
    assert!(circles(&draw(&[], 65.0)).is_empty());
}

#[test]
fn the_sign_of_the_bench_is_named() {
    assert!(!bar_shoe_sign().title.is_empty());
}
