use evenshod::chart::{MarkedBar, Shape, marked_bar};

#[test]
fn marks_stand_at_their_places_and_numbers_beside_each_other() {
    // As close as the marks of a bar shoe at its toe.
    let marks = [(40.0, false), (44.0, false), (48.0, true), (70.0, false)];
    let drawing = marked_bar(&MarkedBar {
        length: 381.0,
        width: 19.05,
        marks: &marks,
        title: "Bar",
        description: "Bar",
    });
    assert!((drawing.width - 385.0).abs() < 1e-9);
    let numbers = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Note { x, y, text, .. } => Some((*x, *y, text.as_str())),
        _ => None,
    });
    let numbers: Vec<(f64, f64, &str)> = numbers.collect();
    let said: Vec<&str> = numbers.iter().map(|number| number.2).collect();
    assert_eq!(said, ["1", "2", "3", "4"]);
    for ((x, y, _), (place, _)) in numbers.iter().zip(marks) {
        assert!((x - place).abs() < 1e-9);
        assert!(*y > drawing.top && *y < 0.0);
    }
    for (at, one) in numbers.iter().enumerate() {
        for other in numbers.iter().skip(at + 1) {
            let is_free = (one.0 - other.0).abs() >= 11.0 || (one.1 - other.1).abs() >= 8.99;
            assert!(is_free, "{one:?} and {other:?}");
        }
    }
}
