use evenshod::chart::{Class, Drawing, HeatLanes, Shape, StepLane, heat_lanes};

fn lane(label: &str, planned: &[(f64, f64, bool)], anvil: &[(f64, f64)]) -> StepLane {
    StepLane {
        label: label.to_owned(),
        words: String::new(),
        planned: planned.to_vec(),
        fire: Vec::new(),
        anvil: anvil.to_vec(),
        welds: Vec::new(),
    }
}

/// From, to, top and foot of every box of a class.
fn boxes(drawing: &Drawing, of: Class) -> Vec<[f64; 4]> {
    let boxes = drawing.shapes.iter().filter_map(|shape| match *shape {
        Shape::Rect {
            x,
            y,
            width,
            height,
            class,
            ..
        } if class == of => Some([x, x + width, y, y + height]),
        _ => None,
    });
    boxes.collect()
}

#[test]
fn what_was_planned_stands_above_what_was_made() {
    let lanes = vec![
        lane("Bend", &[(0.0, 15.0, false)], &[(0.0, 30.0)]),
        lane(
            "Weld",
            &[(15.0, 30.0, true), (30.0, 45.0, true)],
            &[(30.0, 60.0)],
        ),
    ];
    let drawing = heat_lanes(&HeatLanes {
        lanes,
        end: 60.0,
        limit: Some(45.0),
        faults: Vec::new(),
        title: "Try".to_owned(),
        description: String::new(),
    });
    let planned = boxes(&drawing, Class::Frame);
    let made = boxes(&drawing, Class::BarBefore);
    assert_eq!((planned.len(), made.len()), (3, 2));
    // One after the other, on the scale of what was made.
    assert!((planned[0][1] - planned[1][0]).abs() < 1e-9);
    assert!((planned[1][0] - planned[0][0]) * 2.0 - (made[0][1] - made[0][0]) < 1e-9);
    // Clear of it: the foot of one over the top of the other, in the row of its step.
    assert!(planned[0][3] < made[0][2] && planned[1][3] < made[1][2]);
    assert!(made[0][3] < planned[1][2]);
    let open = drawing.shapes.iter().filter(|shape| {
        matches!(
            shape,
            Shape::Path {
                class: Class::PointOpen,
                ..
            }
        )
    });
    assert_eq!(open.count(), 2);
    assert!(made[1][3] < drawing.height);
}
