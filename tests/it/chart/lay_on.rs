use evenshod::chart::{Class, LayOn, Shape, Side, lay_on};
use evenshod::piece::{Branch, MadeShoe};
use kurbo::Shape as _;

use crate::piece::sample::ten;

fn asked(side: Side) -> LayOn<'static> {
    LayOn {
        side,
        tolerance: (2.0, 3.0),
        words: &[],
        title: "Gauge",
    }
}

/// Boxes of the paths of a class.
fn boxes(shapes: &[Shape], wanted: Class) -> Vec<kurbo::Rect> {
    let found = shapes.iter().filter_map(|shape| match shape {
        Shape::Path { d, class } if *class == wanted => {
            Some(kurbo::BezPath::from_svg(d).unwrap().bounding_box())
        }
        _ => None,
    });
    found.collect()
}

#[test]
fn limits_are_the_widest_and_the_narrowest_shoe() {
    for (name, piece, foot) in ten() {
        let shoe = MadeShoe::of(&piece, foot).unwrap();
        let drawing = lay_on(&piece, &shoe, &asked(Side::Ground));
        let size = shoe.outline.bounding_box();
        let limits = boxes(&drawing.shapes, Class::GaugeLimit);
        assert_eq!(limits.len(), 2, "{name}");
        for (limit, way) in limits.iter().zip([-1.0, 1.0]) {
            assert!(
                (limit.width() - size.width() - 2.0 * way).abs() < 0.01,
                "{name}"
            );
            assert!((limit.center().x - size.center().x).abs() < 0.01, "{name}");
            if piece.bar.is_some() {
                assert!(
                    (limit.height() - size.height() - 3.0 * way).abs() < 1e-6,
                    "{name}"
                );
            }
        }
        // Two short lines at each free heel, half the tolerance before and behind its end.
        let lines = drawing.shapes.iter().filter_map(|shape| match shape {
            Shape::Line {
                y1,
                y2,
                class: Class::GaugeLimit,
                ..
            } => Some((*y1, *y2)),
            _ => None,
        });
        let lines: Vec<(f64, f64)> = lines.collect();
        assert_eq!(
            lines.len(),
            if piece.bar.is_some() { 0 } else { 4 },
            "{name}"
        );
        let last = lines.iter().map(|line| line.0).fold(0.0, f64::max);
        assert!(
            lines.is_empty() || (last - size.y1 - 1.5).abs() < 1e-6,
            "{name}: {last}"
        );
    }
}

#[test]
fn every_nail_has_a_leader_with_its_number_and_all_lies_in_the_frame() {
    for (name, piece, foot) in ten() {
        let shoe = MadeShoe::of(&piece, foot).unwrap();
        let drawing = lay_on(&piece, &shoe, &asked(Side::Ground));
        let numbers = drawing.shapes.iter().filter_map(|shape| match shape {
            Shape::Note { text, x, y, .. } => text.parse::<u32>().ok().map(|_| (*x, *y)),
            _ => None,
        });
        let numbers: Vec<(f64, f64)> = numbers.collect();
        assert_eq!(numbers.len(), shoe.holes.len(), "{name}");
        for (x, y) in numbers {
            assert!(
                x > drawing.left && x < drawing.left + drawing.width,
                "{name}"
            );
            assert!(
                y > drawing.top && y < drawing.top + drawing.height,
                "{name}"
            );
            assert!(!shoe.outline.contains(kurbo::Point::new(x, y)), "{name}");
        }
    }
}

#[test]
fn foot_side_up_it_is_the_mirror_image_and_shows_no_fuller() {
    let (_, piece, foot) = ten().remove(5);
    let shoe = MadeShoe::of(&piece, foot).unwrap();
    let outer = |side: Side| {
        let drawing = lay_on(&piece, &shoe, &asked(side));
        let at = drawing.shapes.iter().find_map(|shape| match shape {
            Shape::Note { text, x, .. } if text == "outer" => Some(*x),
            _ => None,
        });
        (
            at.unwrap(),
            boxes(&drawing.shapes, Class::GaugeFuller).len(),
        )
    };
    let (ground, grooves) = outer(Side::Ground);
    assert!(ground > 0.0 && grooves == 2);
    let (foot, grooves) = outer(Side::Foot);
    assert!(foot < 0.0 && grooves == 0);
    assert!(shoe.holes.iter().any(|hole| hole.branch == Branch::Inner));
}
