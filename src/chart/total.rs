use super::class::Class;
use super::drawing::{Align, Drawing, Shape};

const WIDTH: f64 = 600.0;

/// Marks so far on a ruler, the pass mark cut into it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Total {
    /// Marks so far.
    pub marks: f64,
    /// Marks that pass.
    pub pass: f64,
    /// Marks that can be had in all.
    pub out_of: f64,
    /// Marks at each fifth of the ruler, from its left end to its right.
    pub labels: [String; 6],
    /// The pass mark in words.
    pub pass_words: String,
    /// What it says.
    pub title: String,
}

/// Draws marks so far against the pass mark.
pub fn total(plan: &Total) -> Drawing {
    let out_of = if plan.out_of > 0.0 { plan.out_of } else { 1.0 };
    let place = |marks: f64| (marks / out_of * WIDTH).clamp(0.0, WIDTH);
    let rect = |width: f64, height: f64, class| Shape::Rect {
        x: 0.0,
        y: 16.0,
        width,
        height,
        class,
        band: None,
    };
    let mut shapes = vec![rect(WIDTH, 20.0, Class::Frame)];
    for tenth in 0..=10_u8 {
        let x = WIDTH * f64::from(tenth) / 10.0;
        shapes.push(Shape::Line {
            x1: x,
            y1: 27.0,
            x2: x,
            y2: 36.0,
            class: Class::Tick,
        });
    }
    for (fifth, text) in (0_u8..).zip(&plan.labels) {
        let align = match fifth {
            0 => Align::Start,
            5 => Align::End,
            _ => Align::Middle,
        };
        shapes.push(Shape::Text {
            x: WIDTH * f64::from(fifth) / 5.0,
            y: 50.0,
            align,
            text: text.clone(),
            class: Class::Label,
        });
    }
    let (won, pass) = (place(plan.marks), place(plan.pass));
    shapes.push(rect(won, 7.0, Class::Won));
    shapes.push(Shape::Path {
        d: format!("M{won:.1},16 l-7,-12 h14 Z"),
        class: Class::Plumb,
    });
    shapes.push(Shape::Path {
        d: format!("M{pass:.1},8 v34"),
        class: Class::Pass,
    });
    let (x, align) = beside_pass(pass, won);
    let text = plan.pass_words.clone();
    shapes.push(Shape::Text {
        x,
        y: 13.0,
        align,
        text,
        class: Class::PassLabel,
    });
    Drawing {
        left: 0.0,
        top: 0.0,
        width: WIDTH,
        height: 52.0,
        title: plan.title.clone(),
        description: String::new(),
        shapes,
        readings: Vec::new(),
        days: None,
    }
}

/// Where the words of the pass mark stand: right of it, or left where there is no room,
/// and off the plumb when it hangs close by.
fn beside_pass(pass: f64, won: f64) -> (f64, Align) {
    const WORDS: f64 = 90.0;
    const PLUMB: f64 = 8.0;
    const GAP: f64 = 5.0;
    let is_close = (won - pass).abs() < WORDS + PLUMB + GAP;
    let (left, right) = if is_close {
        (pass.min(won - PLUMB) - GAP, pass.max(won + PLUMB) + GAP)
    } else {
        (pass - GAP, pass + GAP)
    };
    let fits_left = left >= WORDS;
    let fits_right = right + WORDS <= WIDTH;
    if fits_left && (!fits_right || (is_close && won >= pass)) {
        (left, Align::End)
    } else {
        (right, Align::Start)
    }
}
