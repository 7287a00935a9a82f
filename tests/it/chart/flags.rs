//! Numbered flags over the days of a chart.

use chrono::{Days, NaiveDate};
use evenshod::chart::{
    Axis, Class, CoursePlan, CoursePoint, Drawing, Flag, Shape, Symbol, course, flagged,
};

fn first() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 3, 1).unwrap()
}

/// A course whose points lie so many days after the first of March.
fn drawn(days: &[u64]) -> Drawing {
    let points = days.iter().map(|day| CoursePoint {
        date: first() + Days::new(*day),
        value: 50.0,
        symbol: Symbol::Dot,
        is_open: false,
        run: 0,
        beside: None,
        reach: None,
        words: format!("point {day}"),
    });
    let points: Vec<_> = points.collect();
    let axis = Axis::percent();
    let plan = CoursePlan::of(&axis, &points);
    course("Marks".to_owned(), String::new(), &plan)
}

fn flags(days: &[u64]) -> Vec<Flag> {
    let numbered = (1..).zip(days);
    let flags = numbered.map(|(number, day)| Flag {
        date: first() + Days::new(*day),
        number,
        words: format!("flag {number}"),
    });
    flags.collect()
}

fn poles(drawing: &Drawing) -> Vec<f64> {
    let poles = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Line {
            x1,
            x2,
            class: Class::FlagPole,
            ..
        } => {
            assert_eq!(x1, x2, "upright");
            Some(*x1)
        }
        _ => None,
    });
    poles.collect()
}

/// Left edge, right edge and words of each flag.
fn cloths(drawing: &Drawing) -> Vec<(f64, f64, String)> {
    let cloths = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Rect {
            x,
            y,
            width,
            height,
            class: Class::Flag,
            ..
        } => {
            assert!(*y >= drawing.top && y + height < 20.0, "over the values");
            Some((*x, x + width))
        }
        _ => None,
    });
    let words = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Text {
            text,
            class: Class::FlagWords,
            ..
        } => Some(text.clone()),
        _ => None,
    });
    cloths
        .zip(words)
        .map(|((x, to), words)| (x, to, words))
        .collect()
}

#[test]
fn a_flag_stands_at_its_day_as_a_point_of_that_day_would() {
    let (plain, days) = (drawn(&[0, 40, 100]), flags(&[40]));
    let (with, flown) = flagged(plain.clone(), &days);
    assert_eq!(flown, [&days[0]]);
    let point = plain.readings[1].x;
    assert_eq!(poles(&with), [point]);
    let words: Vec<_> = with.readings.iter().map(|one| &*one.words).collect();
    assert_eq!(words, ["point 0", "point 40", "flag 1", "point 100"]);
    assert_eq!(with.readings[2].x, point);
    // What was there stays where it was; room for the flag is made above it.
    assert_eq!(with.top + with.height, plain.top + plain.height);
    assert!(plain.shapes.iter().all(|shape| with.shapes.contains(shape)));
}

#[test]
fn flags_before_the_first_day_and_after_the_last_are_left_out() {
    let plain = drawn(&[10, 50]);
    let days = flags(&[0, 9, 10, 50, 51, 400]);
    let (with, flown) = flagged(plain.clone(), &days);
    let numbers: Vec<_> = flown.iter().map(|flag| flag.number).collect();
    assert_eq!(numbers, [3, 4]);
    assert_eq!(poles(&with).len(), 2);
    for alone in [drawn(&[]), drawn(&[10])] {
        assert_eq!(flagged(alone.clone(), &days), (alone, Vec::new()));
    }
}

/// Two hundred on a hundred days: no two flags cover one another, and every number is on one.
#[test]
fn flags_that_would_cover_one_another_share_one() {
    let days: Vec<u64> = (0..200).map(|at| at / 2).collect();
    let days = flags(&days);
    let (with, flown) = flagged(drawn(&[0, 99]), &days);
    assert_eq!((flown.len(), poles(&with).len()), (200, 200));
    let cloths = cloths(&with);
    assert!(cloths.len() > 3, "{cloths:?}");
    let mut next = 1;
    for (_, _, words) in &cloths {
        let (from, to) = words.split_once('–').unwrap_or((words, words));
        assert_eq!(from.parse(), Ok(next));
        next = to.parse::<usize>().unwrap() + 1;
    }
    assert_eq!(next, 201);
    // The last is moved to the left where the drawing ends.
    for pair in cloths[..cloths.len() - 1].windows(2) {
        assert!(pair[0].1 < pair[1].0, "{pair:?}");
    }
    assert!(
        cloths
            .iter()
            .all(|(from, to, _)| *from >= 0.0 && *to <= 600.0)
    );
}
