use evenshod::chart::{PlanPart, Shape, Side, shoe_plan, svg_inside};
use evenshod::piece::{MadeShoe, Place};

use crate::piece::sample::ten;

fn parts() -> Vec<PlanPart> {
    let part = |(word, place): &(&str, Place)| PlanPart {
        place: *place,
        href: format!("#{}", word.replace(' ', "-")),
        label: format!("{word}: 3 of 4"),
        rank: Some(3),
    };
    Place::WORDS.iter().map(part).collect()
}

fn links(shapes: &[Shape]) -> Vec<&str> {
    let mut led = Vec::new();
    for shape in shapes {
        if let Shape::Link { href, .. } = shape {
            led.push(href.as_str());
        }
    }
    led
}

#[test]
fn each_part_that_is_seen_leads_somewhere() {
    for (name, piece, foot) in ten() {
        let shoe = MadeShoe::of(&piece, foot).unwrap();
        for side in [Side::Ground, Side::Foot] {
            let drawing = shoe_plan(&shoe, side, &parts(), name);
            let led = links(&drawing.shapes);
            for (word, place) in Place::WORDS {
                let is_hidden = *place == Place::Fuller && side == Side::Foot;
                let is_there = led.contains(&format!("#{}", word.replace(' ', "-")).as_str());
                assert_eq!(is_there, shoe.has(*place) && !is_hidden, "{name}, {word}");
            }
            assert!(drawing.has_links());
            assert!(drawing.width > 0.0 && drawing.height > 0.0);
        }
        assert!(!shoe_plan(&shoe, Side::Ground, &[], name).has_links());
    }
}

/// The foot side is the ground side in a mirror.
#[test]
fn turned_over_left_is_right() {
    let (name, piece, foot) = ten().swap_remove(5);
    let shoe = MadeShoe::of(&piece, foot).unwrap();
    let holes = |side| -> Vec<(f64, f64)> {
        let drawing = shoe_plan(&shoe, side, &[], name);
        let hole = |shape: &Shape| match shape {
            Shape::TurnedRect { x, y, .. } => Some((*x, *y)),
            _ => None,
        };
        drawing.shapes.iter().filter_map(hole).collect()
    };
    let (ground, foot) = (holes(Side::Ground), holes(Side::Foot));
    assert_eq!(ground.len(), 7);
    for (one, other) in ground.iter().zip(&foot) {
        assert!((one.0 + other.0).abs() < 1e-9 && (one.1 - other.1).abs() < 1e-9);
    }
}

#[test]
fn words_of_a_part_are_escaped() {
    let (name, piece, foot) = ten().swap_remove(0);
    let shoe = MadeShoe::of(&piece, foot).unwrap();
    let mut parts = parts();
    for part in &mut parts {
        part.label = "a<b>\"c\"&".to_owned();
        part.href = "#\"><script>".to_owned();
    }
    let svg = svg_inside(&shoe_plan(&shoe, Side::Ground, &parts, name), "t", "d");
    assert!(
        svg.contains("aria-label=\"a&lt;b&gt;&quot;c&quot;&amp;\""),
        "{svg}"
    );
    assert!(!svg.contains("<script>"));
}
