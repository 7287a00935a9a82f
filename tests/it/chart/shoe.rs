use evenshod::chart::{
    Drawing, PlanPart, PlanSizes, SectionPlan, Shape, Side, section, shoe_plan, sized_plan,
    svg_inside,
};
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

/// Every size is written, and nothing stands outside the drawing.
#[test]
fn sizes_stand_inside_the_drawing() {
    let words = PlanSizes {
        width: "width".to_owned(),
        length: "length".to_owned(),
        gap: "gap".to_owned(),
        bar: "bar".to_owned(),
    };
    for (name, piece, foot) in ten() {
        let shoe = MadeShoe::of(&piece, foot).unwrap();
        let drawing = sized_plan(&shoe, 40.0, &words, name);
        let mut said = notes(&drawing);
        let has_front = shoe.bar_front.is_some();
        let mut expect = vec!["gap", "length", "width"];
        if has_front {
            expect.insert(0, "bar");
        }
        said.sort_unstable();
        assert_eq!(said, expect, "{name}");
    }
}

#[test]
fn a_section_shows_the_fuller_and_the_slope() {
    let plain = SectionPlan {
        web: 20.0,
        thickness: 10.0,
        web_words: "20 mm".to_owned(),
        thickness_words: "10 mm".to_owned(),
        ..SectionPlan::default()
    };
    let steel = |plan: &SectionPlan| match section(plan).shapes.first() {
        Some(Shape::Path { d, .. }) => d.clone(),
        other => panic!("{other:?}"),
    };
    assert_eq!(steel(&plain), "M0,0 H20.00 V10.00 H0 Z");
    let fullered = SectionPlan {
        fuller: Some([8.0, 6.0, 6.0]),
        depth_words: "6 mm deep".to_owned(),
        ..plain.clone()
    };
    assert_eq!(
        steel(&fullered),
        "M0,0 H5.00 L5.72,6.00 H10.28 L11.00,0 H20.00 V10.00 H0 Z"
    );
    assert_eq!(notes(&section(&fullered)), ["20 mm", "10 mm", "6 mm deep"]);
    let concave = SectionPlan {
        is_concave: true,
        ..plain
    };
    assert_eq!(steel(&concave), "M0,0 H11.00 L20.00,4.50 V10.00 H0 Z");
}

/// The notes of a drawing; each lies inside it.
fn notes(drawing: &Drawing) -> Vec<&str> {
    let mut said = Vec::new();
    for shape in &drawing.shapes {
        if let Shape::Note { x, y, text, .. } = shape {
            let across = drawing.left..drawing.left + drawing.width;
            let down = drawing.top..drawing.top + drawing.height;
            assert!(across.contains(x) && down.contains(y), "{text} at {x}, {y}");
            said.push(text.as_str());
        }
    }
    said
}
