//! The shoe with its sizes, and a section through its branch.

use super::class::Class;
use kurbo::Shape as _;

use super::drawing::{Align, Drawing, Shape};
use super::shoe::{Side, plan_seen};
use crate::piece::MadeShoe;

/// Height of the letters against the width of the shoe.
const LETTERS: f64 = 0.075;

/// Sizes of a plan in words.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PlanSizes {
    /// Greatest width.
    pub width: String,
    /// Greatest length.
    pub length: String,
    /// Distance between the heels.
    pub gap: String,
    /// Width of the bar; empty for free heels.
    pub bar: String,
}

impl PlanSizes {
    /// The sizes as a sentence, for those who do not see the drawing.
    fn in_words(&self, has_bar: bool) -> String {
        let Self {
            width,
            length,
            gap,
            bar,
        } = self;
        let bar = (has_bar && !bar.is_empty()).then(|| format!(", bar {bar}"));
        let bar = bar.unwrap_or_default();
        format!("Width {width}, length {length}, between the heels {gap}{bar}.")
    }
}

/// One side with the sizes that are taken on it; `gap` is the distance between the heels
/// in mm. The foot side is the ground side in a mirror, and hides the fuller.
pub fn sized_plan(
    shoe: &MadeShoe,
    side: Side,
    gap: f64,
    words: &PlanSizes,
    title: &str,
) -> Drawing {
    let shoe = side.seen(shoe);
    let mut drawing = plan_seen(&shoe, side, &[], title);
    let size = shoe.outline.bounding_box();
    let letter = LETTERS * size.width();
    let mut measures = Measures {
        letter,
        shapes: &mut drawing.shapes,
    };
    measures.across((size.x0, size.x1), size.y1 + 1.6 * letter, &words.width);
    measures.down(size.x1 + 1.2 * letter, (size.y0, size.y1), &words.length);
    let heels = shoe.bar_front.unwrap_or(size.y1) - 1.1 * letter;
    measures.across((-gap / 2.0, gap / 2.0), heels - letter, &words.gap);
    if let Some(front) = shoe.bar_front.filter(|_| !words.bar.is_empty()) {
        // Off the centre line, so that both are seen.
        measures.down(-gap / 4.0, (front, size.y1), &words.bar);
    }
    drawing.description = words.in_words(shoe.bar_front.is_some());
    let (left, right) = (letter, 8.5 * letter);
    drawing.left = size.x0 - left;
    drawing.width = size.width() + left + right;
    drawing.height = size.y1 + 3.4 * letter - drawing.top;
    drawing
}

/// A section square through the branch, ground side up, outer edge on the left. In mm.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct SectionPlan {
    /// Width of the web.
    pub web: f64,
    /// Thickness.
    pub thickness: f64,
    /// Whether the ground face slopes in towards the inner edge.
    pub is_concave: bool,
    /// Inset to the middle, width and depth of the fuller.
    pub fuller: Option<[f64; 3]>,
    /// The web in words.
    pub web_words: String,
    /// The thickness in words.
    pub thickness_words: String,
    /// Depth of the fuller in words; may be empty.
    pub depth_words: String,
    /// What it is.
    pub title: String,
}

impl SectionPlan {
    /// The sizes as a sentence, for those who do not see the drawing.
    fn in_words(&self) -> String {
        let Self {
            web_words,
            thickness_words,
            depth_words,
            ..
        } = self;
        let fuller = (!depth_words.is_empty()).then(|| format!(", fuller {depth_words}"));
        let fuller = fuller.unwrap_or_default();
        format!("Web {web_words}, thickness {thickness_words}{fuller}.")
    }
}

/// Draws a section.
pub fn section(plan: &SectionPlan) -> Drawing {
    let (web, deep) = (plan.web.max(0.1), plan.thickness.max(0.1));
    let mut d = "M0,0".to_owned();
    if let Some([inset, width, depth]) = plan.fuller {
        let (from, to) = (inset - width / 2.0, inset + width / 2.0);
        // The walls lean in a little, as a fuller leaves them.
        let lean = 0.12 * width;
        d.push_str(&format!(
            " H{from:.2} L{:.2},{depth:.2} H{:.2} L{to:.2},0",
            from + lean,
            to - lean
        ));
    }
    if plan.is_concave {
        d.push_str(&format!(" H{:.2} L{web:.2},{:.2}", 0.55 * web, 0.45 * deep));
    } else {
        d.push_str(&format!(" H{web:.2}"));
    }
    d.push_str(&format!(" V{deep:.2} H0 Z"));
    let mut shapes = vec![Shape::Path {
        d,
        class: Class::Steel,
    }];
    let letter = 0.11 * web;
    let mut measures = Measures {
        letter,
        shapes: &mut shapes,
    };
    measures.across((0.0, web), deep + 1.2 * letter, &plan.web_words);
    measures.down(web + letter, (0.0, deep), &plan.thickness_words);
    if let Some([inset, _, depth]) = plan.fuller.filter(|_| !plan.depth_words.is_empty()) {
        measures.note(
            inset,
            depth + 1.2 * letter,
            Align::Middle,
            &plan.depth_words,
        );
    }
    Drawing {
        left: -0.6 * letter,
        top: -0.6 * letter,
        width: web + 8.0 * letter,
        height: deep + 3.6 * letter,
        title: plan.title.clone(),
        description: plan.in_words(),
        shapes,
        readings: Vec::new(),
        days: None,
    }
}

/// Writes sizes into a drawing.
struct Measures<'a> {
    letter: f64,
    shapes: &'a mut Vec<Shape>,
}

impl Measures<'_> {
    fn line(&mut self, (x1, y1): (f64, f64), (x2, y2): (f64, f64)) {
        self.shapes.push(Shape::Line {
            x1,
            y1,
            x2,
            y2,
            class: Class::Measure,
        });
    }

    fn note(&mut self, x: f64, y: f64, align: Align, text: &str) {
        self.shapes.push(Shape::Note {
            x,
            y,
            align,
            height: self.letter,
            text: text.to_owned(),
            class: Class::Size,
        });
    }

    /// From left to right at `y`, its words under it.
    fn across(&mut self, (from, to): (f64, f64), y: f64, words: &str) {
        let end = 0.4 * self.letter;
        self.line((from, y), (to, y));
        for x in [from, to] {
            self.line((x, y - end), (x, y + end));
        }
        self.note(
            (from + to) / 2.0,
            y + 1.25 * self.letter,
            Align::Middle,
            words,
        );
    }

    /// From top to bottom at `x`, its words on the right.
    fn down(&mut self, x: f64, (from, to): (f64, f64), words: &str) {
        let end = 0.4 * self.letter;
        self.line((x, from), (x, to));
        for y in [from, to] {
            self.line((x - end, y), (x + end, y));
        }
        let middle = (from + to) / 2.0 + 0.35 * self.letter;
        self.note(x + 0.6 * self.letter, middle, Align::Start, words);
    }
}
