use evenshod::chart::{
    Drawing, OVERLAP, Shape, Tiles, check_lines, scale_words, tiles, with_check_lines,
};

fn drawing(width: f64, height: f64) -> Drawing {
    Drawing {
        left: -width / 2.0,
        top: -10.0,
        width,
        height,
        ..Drawing::default()
    }
}

/// Middles of the register marks that a sheet shows whole.
fn marks(sheet: &Drawing) -> Vec<(f64, f64)> {
    let found = sheet.shapes.iter().filter_map(|shape| match shape {
        Shape::Circle { x, y, radius, .. } => {
            let is_in = x - radius >= sheet.left
                && x + radius <= sheet.left + sheet.width
                && y - radius >= sheet.top
                && y + radius <= sheet.top + sheet.height;
            is_in.then_some((*x, *y))
        }
        _ => None,
    });
    found.collect()
}

#[test]
fn what_fits_stays_whole() {
    let cut = tiles(&drawing(180.0, 240.0), (180.0, 240.0)).unwrap();
    assert_eq!((cut.columns, cut.rows, cut.sheets.len()), (1, 1, 1));
    assert!(marks(&cut.sheets[0]).is_empty());
}

#[test]
fn sheets_are_alike_cover_all_and_overlap() {
    let whole = drawing(400.0, 300.0);
    let Tiles {
        columns,
        rows,
        sheets,
    } = tiles(&whole, (184.0, 240.0)).unwrap();
    assert_eq!((columns, rows, sheets.len()), (3, 2, 6));
    for sheet in &sheets {
        assert!(sheet.width <= 184.0 && sheet.height <= 240.0);
    }
    assert!((sheets[0].left - whole.left).abs() < 1e-9);
    let last = &sheets[5];
    assert!((last.left + last.width - whole.left - whole.width).abs() < 1e-9);
    assert!((last.top + last.height - whole.top - whole.height).abs() < 1e-9);
    assert!((sheets[0].left + sheets[0].width - sheets[1].left - OVERLAP).abs() < 1e-9);
    assert!((sheets[0].top + sheets[0].height - sheets[3].top - OVERLAP).abs() < 1e-9);
}

#[test]
fn neighbours_share_three_marks_none_on_another() {
    let cut = tiles(&drawing(300.0, 300.0), (184.0, 240.0)).unwrap();
    assert_eq!(cut.sheets.len(), 4);
    let shown: Vec<Vec<(f64, f64)>> = cut.sheets.iter().map(marks).collect();
    for (one, other) in [(0, 1), (0, 2), (1, 3), (2, 3)] {
        let both = shown[one].iter().filter(|mark| shown[other].contains(mark));
        assert!(both.count() >= 3, "{one} and {other}: {shown:?}");
    }
    for sheet in &shown {
        for (at, one) in sheet.iter().enumerate() {
            for other in sheet.iter().skip(at + 1) {
                let apart = (one.0 - other.0).hypot(one.1 - other.1);
                assert!(apart > 8.0, "{one:?} and {other:?}");
            }
        }
    }
}

#[test]
fn what_no_number_of_sheets_holds_is_told() {
    for (size, room) in [
        (drawing(5_000.0, 100.0), (184.0, 240.0)),
        (drawing(100.0, 100.0), (10.0, 240.0)),
        (drawing(100.0, 100.0), (-3.0, 240.0)),
        (drawing(f64::NAN, 100.0), (184.0, 240.0)),
    ] {
        assert_eq!(tiles(&size, room), None);
    }
}

#[test]
fn check_lines_stand_under_the_drawing() {
    let whole = with_check_lines(&drawing(60.0, 50.0));
    assert!((whole.width - check_lines().width).abs() < 1e-9);
    assert!((whole.height - 50.0 - check_lines().height).abs() < 1e-9);
    let long = whole.shapes.iter().filter_map(|shape| match shape {
        Shape::Line { x1, y1, x2, y2, .. } if (y1 - y2).abs() < 1e-9 => Some((x2 - x1, *y1)),
        _ => None,
    });
    let long: Vec<(f64, f64)> = long.collect();
    assert_eq!(long.len(), 2);
    for ((line, y), wanted) in long.into_iter().zip([100.0, 101.6]) {
        assert!((line - wanted).abs() < 1e-9);
        assert!(y > 40.0 && y < whole.top + whole.height);
    }
}

#[test]
fn a_scale_is_said_in_millimetres() {
    assert_eq!(scale_words(0.25), "Not at full size: 1 mm here is 4.00 mm.");
    assert!(scale_words(1.0).starts_with("Drawn at full size"));
}
