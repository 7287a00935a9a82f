use super::texts;
use evenshod::chart::{Chances, Class, Drawing, Shape, chances};
use proptest::prelude::*;

fn plan(points: &[(f64, f64)]) -> Chances {
    Chances {
        chances: points.to_vec(),
        given: (71.0, "given 71".to_owned()),
        pass: (65.0, "pass 65".to_owned()),
        title: "Probability of every total".to_owned(),
        description: "It says so.".to_owned(),
    }
}

/// Left edge, width and height of every column.
fn columns(drawing: &Drawing) -> Vec<(f64, f64, f64)> {
    let columns = drawing.shapes.iter().filter_map(|shape| match shape {
        Shape::Rect {
            x,
            width,
            height,
            class: Class::Chance,
            ..
        } => Some((*x, *width, *height)),
        _ => None,
    });
    columns.collect()
}

#[test]
fn columns_are_as_high_as_their_chances_and_stand_apart() {
    let drawing = chances(&plan(&[(68.0, 0.25), (71.0, 0.5), (72.0, 0.25)]));
    let columns = columns(&drawing);
    let heights: Vec<f64> = columns.iter().map(|(_, _, height)| *height).collect();
    assert_eq!(heights.len(), 3);
    assert!((heights[1] - 2.0 * heights[0]).abs() < 1e-9);
    assert!((heights[0] - heights[2]).abs() < 1e-9);
    let gap = columns[2].0 - columns[1].0;
    assert!(gap > columns[1].1, "they do not touch");
    let apart = columns[1].0 - columns[0].0;
    assert!((apart - 3.0 * gap).abs() < 1e-9, "marks are to scale");
}

#[test]
fn it_says_the_marks_given_the_pass_mark_and_whole_marks_below() {
    let drawing = chances(&plan(&[(68.0, 0.25), (71.0, 0.75)]));
    let texts = texts(&drawing);
    for text in ["given 71", "pass 65", "66", "70", "0 %", "80 %"] {
        assert!(texts.contains(&text), "{text}: {texts:?}");
    }
}

#[test]
fn one_certain_total_on_the_pass_mark_stands_in_the_middle() {
    let certain = Chances {
        pass: (71.0, "pass 71".to_owned()),
        ..plan(&[(71.0, 1.0)])
    };
    let drawing = chances(&certain);
    let columns = columns(&drawing);
    assert_eq!(columns.len(), 1);
    let middle = columns[0].0 + columns[0].1 / 2.0;
    assert!((250.0..400.0).contains(&middle), "{middle}");
}

proptest! {
    #[test]
    fn nothing_leaves_the_chart_and_no_chance_is_lost(
        steps in prop::collection::vec((0.001_f64..3.0, 0.0_f64..1.0), 1..400),
        given in 0.0_f64..400.0,
        pass in 0.0_f64..400.0,
    ) {
        let mut marks = 0.0;
        let all: f64 = steps.iter().map(|(_, chance)| chance).sum();
        prop_assume!(all > 0.0);
        let points: Vec<(f64, f64)> = steps
            .iter()
            .map(|(step, chance)| {
                marks += step;
                (marks, chance / all)
            })
            .collect();
        let drawing = chances(&Chances {
            given: (given, "given".to_owned()),
            pass: (pass, "pass".to_owned()),
            ..plan(&points)
        });
        let columns = columns(&drawing);
        let highest = columns.iter().map(|(_, _, height)| *height).fold(0.0, f64::max);
        prop_assert!(highest > 0.0 && highest <= drawing.height);
        for (x, width, height) in &columns {
            prop_assert!(*x >= 0.0 && x + width <= drawing.width && *height >= 0.0);
        }
        let most = points.iter().map(|(_, chance)| *chance).fold(0.0, f64::max);
        prop_assert!(columns.len() <= points.len());
        // Columns may gather several totals, so the highest stands for at least the likeliest.
        let sum: f64 = columns.iter().map(|(_, _, height)| height / highest).sum();
        prop_assert!(sum <= 1.0 / most + 1e-6);
    }
}
