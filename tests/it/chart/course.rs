use chrono::NaiveDate;
use evenshod::chart::{
    Ahead, Axis, Bar, Class, CourseLine, CoursePlan, CoursePoint, Drawing, Level, Shape,
    SmallCourse, Symbol, bar_shoe_sign, bars, course, small_course, small_courses,
};

fn point(year: i32, month: u32, day: u32, percent: f64) -> CoursePoint {
    CoursePoint {
        date: NaiveDate::from_ymd_opt(year, month, day).unwrap(),
        value: percent,
        symbol: Symbol::Dot,
        is_open: false,
        run: 0,
        beside: None,
        reach: None,
        words: format!("{day}: {percent}"),
    }
}

fn draw(points: &[CoursePoint], pass: f64) -> Drawing {
    let pass = Level {
        value: pass,
        label: format!("pass {pass} %"),
    };
    let axis = Axis::percent();
    let plan = CoursePlan {
        level: Some(&pass),
        ..CoursePlan::of(&axis, points)
    };
    course("Marks".to_owned(), String::new(), &plan)
}

/// The corners of each line between points.
fn lines(drawing: &Drawing) -> Vec<usize> {
    let lines = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Path {
            d,
            class: Class::Series,
        } => Some(d.split(' ').count()),
        _ => None,
    });
    lines.collect()
}

fn classes(drawing: &Drawing, of: Class) -> usize {
    let of_class = |shape: &&Shape| match shape {
        Shape::Circle { class, .. } | Shape::Path { class, .. } | Shape::Line { class, .. } => {
            *class == of
        }
        _ => false,
    };
    drawing.shapes.iter().filter(of_class).count()
}

#[test]
fn a_line_joins_one_run_and_nothing_open() {
    let mut points: Vec<_> = (1..=6).map(|day| point(2026, 1, day, 50.0)).collect();
    points[3].run = 1;
    points[4].run = 1;
    points[5].is_open = true;
    let drawing = draw(&points, 65.0);
    assert_eq!(lines(&drawing), [3, 2]);
    assert_eq!(classes(&drawing, Class::Point), 5);
    assert_eq!(classes(&drawing, Class::PointOpen), 1);
    points[4].is_open = true;
    assert_eq!(lines(&draw(&points, 65.0)), [3]);
}

#[test]
fn every_symbol_has_a_shape_of_its_own() {
    let of = |symbol| {
        let mut point = point(2026, 1, 1, 50.0);
        point.symbol = symbol;
        let drawing = draw(&[point], 65.0);
        let shape = drawing.shapes.into_iter().find(|shape| {
            matches!(
                shape,
                Shape::Circle { .. }
                    | Shape::Path {
                        class: Class::Point,
                        ..
                    }
            )
        });
        format!("{:?}", shape.unwrap())
    };
    let all = [
        Symbol::Dot,
        Symbol::Square,
        Symbol::Diamond,
        Symbol::Triangle,
    ]
    .map(of);
    for (at, one) in all.iter().enumerate() {
        assert!(!all[..at].contains(one), "{one}");
    }
}

#[test]
fn a_value_beside_is_tied_to_its_point() {
    let mut both = point(2026, 1, 1, 40.0);
    both.beside = Some((90.0, Symbol::Triangle));
    let drawing = draw(&[both], 65.0);
    assert_eq!(classes(&drawing, Class::PointOpen), 1);
    let tie = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Line {
            y1,
            y2,
            class: Class::Tie,
            ..
        } => Some((*y1, *y2)),
        _ => None,
    });
    assert_eq!(tie, Some((128.0, 38.0)));
}

#[test]
fn an_axis_of_whole_numbers_reaches_what_it_must() {
    for (most, top, ticks) in [
        (0.0, 1.0, 2),
        (3.0, 3.0, 4),
        (11.0, 12.0, 7),
        (75.0, 80.0, 5),
        (300.0, 300.0, 7),
    ] {
        let axis = Axis::up_to(most);
        assert_eq!((axis.most, axis.ticks.len()), (top, ticks), "{most}");
    }
    // No number makes it hang or draw for ever.
    for most in [f64::INFINITY, f64::NAN, -5.0, 1e300] {
        assert!(Axis::up_to(most).ticks.len() <= 7);
    }
}

#[test]
fn a_small_course_leaves_a_place_for_what_is_missing() {
    let shares = [Some(0.0), None, Some(1.0), Some(0.5)];
    let words = ["1", "2", "3", "4"].map(str::to_owned);
    let drawing = small_course("Toe".to_owned(), String::new(), &shares, &words);
    assert_eq!(lines(&drawing), [3]);
    let path = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Path { d, .. } => Some(d.clone()),
        _ => None,
    });
    assert_eq!(path.unwrap(), "M10.0,46.0 L156.7,10.0 L230.0,28.0");
    let read = drawing.readings.iter();
    let read: Vec<_> = read
        .map(|one| (one.x.round(), one.y, &*one.words))
        .collect();
    let wanted = [(10.0, 46.0, "1"), (157.0, 10.0, "3"), (230.0, 28.0, "4")];
    assert_eq!(read, wanted);
    assert_eq!(classes(&drawing, Class::Point), 1);
    for none in [&[][..], &[None]] {
        let drawing = small_course("Toe".to_owned(), String::new(), none, &[]);
        assert_eq!(classes(&drawing, Class::Point), 0);
    }
}

#[test]
fn small_courses_stand_two_and_two_under_their_names() {
    let courses = ["Toe", "Heels", "Nails"].map(|name| SmallCourse {
        name: name.to_owned(),
        latest: "3 of 4".to_owned(),
        shares: vec![Some(0.5), Some(0.75)],
    });
    let drawing = small_courses("Shape".to_owned(), String::new(), &courses);
    let named = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Text { x, y, text, .. } if text != "3 of 4" => Some((text.as_str(), *x, *y)),
        _ => None,
    });
    let named: Vec<_> = named.collect();
    let [(_, left, top), (_, right, beside), (_, below, under)] = named[..] else {
        panic!("three names, not {named:?}");
    };
    assert_eq!(
        (left, top),
        (below, beside),
        "the third stands under the first"
    );
    assert!(right > left + 240.0 && under > top + 56.0, "{named:?}");
    assert_eq!(classes(&drawing, Class::Point), 3);
    // Nothing is cut off at the edges.
    for shape in &drawing.shapes {
        if let Shape::Line { x1, x2, y1, .. } = shape {
            assert!(*x1 >= drawing.left && *x2 <= drawing.left + drawing.width);
            assert!(*y1 < drawing.height);
        }
    }
}

#[test]
fn the_longest_bar_takes_the_whole_width() {
    let bar = |value, before| Bar {
        label: "Fullering".to_owned(),
        value,
        before,
        words: value.to_string(),
    };
    let widths = |rows: &[Bar]| -> Vec<f64> {
        let drawing = bars("Lost".to_owned(), String::new(), rows);
        let widths = drawing.shapes.iter().filter_map(|shape| match shape {
            Shape::Rect { width, .. } => Some(*width),
            _ => None,
        });
        widths.collect()
    };
    assert_eq!(
        widths(&[bar(2.0, Some(4.0)), bar(1.0, None)]),
        [180.0, 360.0, 90.0]
    );
    assert_eq!(widths(&[bar(0.0, None)]), [0.0]);
    assert_eq!(widths(&[]), Vec::<f64>::new());
}

fn texts(drawing: &Drawing, of: Class) -> Vec<&str> {
    let texts = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Text { text, class, .. } if *class == of => Some(text.as_str()),
        _ => None,
    });
    texts.collect()
}

/// Labels under the chart: those of the scale come first.
fn dates(drawing: &Drawing) -> Vec<&str> {
    texts(drawing, Class::Label).split_off(6)
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
    assert_eq!(texts(&drawing, Class::PassLabel), ["pass 65 %"]);
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

#[test]
fn how_far_a_value_may_lie_and_what_comes_next_are_drawn_and_read_off() {
    let mut points = vec![point(2026, 1, 1, 40.0), point(2026, 1, 31, 60.0)];
    points[0].reach = Some((35.0, 50.0));
    let ahead = Ahead {
        low: 50.0,
        middle: 65.0,
        high: 80.0,
        words: "next".to_owned(),
    };
    let line = CourseLine {
        heights: vec![0.0, 100.0],
        class: Class::Curve,
    };
    let axis = Axis::percent();
    let plan = CoursePlan {
        ahead: Some(&ahead),
        lines: &[line],
        ..CoursePlan::of(&axis, &points)
    };
    let drawing = course("Marks".to_owned(), String::new(), &plan);
    let reach = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Path {
            d,
            class: Class::Reach,
        } => Some(d.as_str()),
        _ => None,
    });
    // 200 is nothing, 20 all: 35 per cent stand at 137, 50 at 110.
    assert!(
        reach.unwrap().starts_with("M70.0,137.0 V110.0"),
        "{reach:?}"
    );
    let band = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Rect {
            y,
            height,
            class: Class::Ahead,
            ..
        } => Some((*y, *height)),
        _ => None,
    });
    let (top, height) = band.unwrap();
    assert!((top - 56.0).abs() < 1e-9 && (height - 54.0).abs() < 1e-9);
    let curve = drawing.shapes.iter().find_map(|shape| match shape {
        Shape::Path {
            d,
            class: Class::Curve,
        } => Some(d.as_str()),
        _ => None,
    });
    assert_eq!(curve, Some("M70.0,200.0 L510.0,20.0"));
    let words: Vec<_> = drawing.readings.iter().map(|one| &*one.words).collect();
    assert_eq!(words, ["1: 40", "31: 60", "next"]);
    // A tap is read at the nearest point.
    assert_eq!(drawing.nearest(90.0, 0.0), Some(0));
    assert_eq!(drawing.nearest(500.0, 90.0), Some(1));
    assert_eq!(drawing.nearest(600.0, 90.0), Some(2));
    assert_eq!(Drawing::default().nearest(0.0, 0.0), None);
    // Without it all of the width is there for the dates.
    assert_eq!(draw(&points, 65.0).readings[1].x, 570.0);
}
