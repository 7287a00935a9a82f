use super::class::Class;
use super::drawing::{Drawing, Shape};

/// A straight bar shoe from the ground side, toe up: the sign of an empty bench.
/// It is nobody's specification.
pub fn bar_shoe_sign() -> Drawing {
    let outline = "M-64,63 A64,63 0 0 1 64,63 C64,90 59,120 55,130 Q54,134 49,134 H-49 \
                   Q-54,134 -55,130 C-59,120 -64,90 -64,63 Z \
                   M-42,63 A42,41 0 0 1 42,63 C42,84 36,98 34,112 H-34 C-36,98 -42,84 -42,63 Z";
    let mut shapes = vec![
        Shape::Path {
            d: outline.to_owned(),
            class: Class::Steel,
        },
        Shape::Groove {
            d: "M-52.7,49.9 A54,52 0 0 1 -23,14.7".to_owned(),
            width: 6.0,
            class: Class::Fuller,
        },
        Shape::Groove {
            d: "M23,14.7 A54,52 0 0 1 52.7,49.9".to_owned(),
            width: 6.0,
            class: Class::Fuller,
        },
    ];
    let holes = [
        (51.4, 45.0, 72.0),
        (45.6, 33.1, 57.0),
        (37.0, 23.4, 41.0),
        (26.0, 16.1, 27.0),
    ];
    for side in [-1.0, 1.0] {
        shapes.extend(holes.map(|(x, y, degrees)| Shape::TurnedRect {
            x: side * x,
            y,
            width: 5.2,
            height: 3.0,
            degrees: side * degrees,
            class: Class::Hole,
        }));
    }
    shapes.push(Shape::Line {
        x1: 0.0,
        y1: -6.0,
        x2: 0.0,
        y2: 140.0,
        class: Class::Centre,
    });
    Drawing {
        left: -70.0,
        top: -8.0,
        width: 140.0,
        height: 150.0,
        title: "Straight bar shoe, ground side, toe up".to_owned(),
        description: String::new(),
        shapes,
        readings: Vec::new(),
        days: None,
    }
}
