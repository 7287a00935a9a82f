use evenshod::chart::{
    Class, Drawing, PlanPart, PlanSizes, SectionPlan, Shape, Side, section, shoe_plan, sized_plan,
    svg_inside,
};
use evenshod::piece::{MadeShoe, Place};

use crate::piece::sample::ten;

fn parts() -> Vec<PlanPart> {
    let part = |(word, place): &(&str, Place)| PlanPart {
        place: *place,
        href: Some(format!("#{}", word.replace(' ', "-"))),
        label: format!("{word}: 3 of 4"),
        rank: Some(3),
    };
    Place::WORDS.iter().map(part).collect()
}

fn links(shapes: &[Shape]) -> Vec<&str> {
    let mut led = Vec::new();
    for shape in shapes {
        if let Shape::Part {
            href: Some(href), ..
        } = shape
        {
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

/// ARIA 1.2, 8.6: a `g` without a role may not be named.
#[test]
fn a_part_that_leads_nowhere_has_no_name_of_its_own() {
    let (name, piece, foot) = ten().swap_remove(0);
    let shoe = MadeShoe::of(&piece, foot).unwrap();
    let mut parts = parts();
    let led = svg_inside(&shoe_plan(&shoe, Side::Ground, &parts, name), "t", "d");
    assert!(led.contains("<a href=") && led.contains(" aria-label="));
    for part in &mut parts {
        part.href = None;
    }
    let svg = svg_inside(&shoe_plan(&shoe, Side::Ground, &parts, name), "t", "d");
    assert!(svg.contains("<g class=\"shaded\" data-band=\""));
    assert!(!svg.contains("aria-label=") && !svg.contains("href="));
}

#[test]
fn words_of_a_part_are_escaped() {
    let (name, piece, foot) = ten().swap_remove(0);
    let shoe = MadeShoe::of(&piece, foot).unwrap();
    let mut parts = parts();
    for part in &mut parts {
        part.label = "a<b>\"c\"&".to_owned();
        part.href = Some("#\"><script>".to_owned());
    }
    let svg = svg_inside(&shoe_plan(&shoe, Side::Ground, &parts, name), "t", "d");
    assert!(
        svg.contains("aria-label=\"a&lt;b&gt;&quot;c&quot;&amp;\""),
        "{svg}"
    );
    assert!(!svg.contains("<script>"));
}

fn size_words() -> PlanSizes {
    PlanSizes {
        width: "width".to_owned(),
        length: "length".to_owned(),
        gap: "gap".to_owned(),
        bar: "bar".to_owned(),
    }
}

/// Every size is written on both sides, and nothing stands outside the drawing.
#[test]
fn sizes_stand_inside_the_drawing() {
    for (name, piece, foot) in ten() {
        let shoe = MadeShoe::of(&piece, foot).unwrap();
        for side in [Side::Ground, Side::Foot] {
            let drawing = sized_plan(&shoe, side, 40.0, &size_words(), name);
            let mut said = notes(&drawing);
            let has_front = shoe.bar_front.is_some();
            let mut expect = vec!["gap", "length", "width"];
            if has_front {
                expect.insert(0, "bar");
            }
            said.sort_unstable();
            assert_eq!(said, expect, "{name}");
            // Those who do not see it hear every size too.
            let bar = if has_front { ", bar bar" } else { "" };
            assert_eq!(
                drawing.description,
                format!("Width width, length length, between the heels gap{bar}.")
            );
        }
    }
}

fn lines<'a>(drawing: &'a Drawing, of: Class) -> Vec<[f64; 4]> {
    let line = |shape: &'a Shape| match shape {
        Shape::Line {
            x1,
            y1,
            x2,
            y2,
            class,
        } if *class == of => Some([*x1, *y1, *x2, *y2]),
        _ => None,
    };
    drawing.shapes.iter().filter_map(line).collect()
}

fn classes(drawing: &Drawing) -> Vec<Class> {
    let class = |shape: &Shape| match shape {
        Shape::Path { class, .. } | Shape::Groove { class, .. } => Some(*class),
        _ => None,
    };
    drawing.shapes.iter().filter_map(class).collect()
}

/// Both sides with their sizes are one shoe: what is measured across lies mirrored, what is
/// measured down is as long and at the same height, and only the ground side has a fuller.
#[test]
fn sizes_of_both_sides_agree() {
    for (name, piece, foot) in ten() {
        let shoe = MadeShoe::of(&piece, foot).unwrap();
        let plan = |side| sized_plan(&shoe, side, 40.0, &size_words(), name);
        let (ground, foot) = (plan(Side::Ground), plan(Side::Foot));
        let (one, other) = (lines(&ground, Class::Measure), lines(&foot, Class::Measure));
        // A line and its two ends each.
        let sizes = if shoe.bar_front.is_some() { 4 } else { 3 };
        assert_eq!((one.len(), other.len()), (3 * sizes, 3 * sizes), "{name}");
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        for (one, other) in one.iter().zip(&other).step_by(3) {
            let [x1, y1, x2, y2] = *one;
            let [a1, b1, a2, b2] = *other;
            assert!(near(y1, b1) && near(y2, b2), "{name}: {one:?}, {other:?}");
            if near(y1, y2) {
                assert!(near(x1, -a2) && near(x2, -a1), "{name}: {one:?}, {other:?}");
            }
        }
        let [from, to] = [&ground, &foot].map(|drawing| lines(drawing, Class::Centre));
        assert_eq!((from.len(), to.len()), (1, 1), "{name}");
        for (one, other) in from.iter().zip(&to) {
            assert!(near(one[0], -other[0]) && near(one[2], -other[2]), "{name}");
        }
        assert!(!classes(&foot).contains(&Class::Fuller), "{name}");
        assert_eq!(
            classes(&ground).contains(&Class::Fuller),
            shoe.has(Place::Fuller),
            "{name}"
        );
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
    assert_eq!(
        section(&fullered).description,
        "Web 20 mm, thickness 10 mm, fuller 6 mm deep."
    );
    assert_eq!(section(&plain).description, "Web 20 mm, thickness 10 mm.");
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
