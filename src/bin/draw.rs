//! How long a shoe takes to draw, against the bar of 5 ms in the browser, for each rubric
//! that ships. `scripts/draw-time` runs it in one; natively it prints the same.

#![allow(missing_docs)]

mod timed;

use std::fmt::Write as _;
use std::hint::black_box;

use evenshod::chart::{Side, shoe_plan};
use evenshod::piece::MadeShoe;
use evenshod::rubric::{Rubric, read_rubric, shipped};

const TIMES: u32 = 100;
const BAR_MS: f64 = 5.0;

/// One line a rubric; `now` gives milliseconds.
fn measured(now: &dyn Fn() -> f64) -> String {
    let mut said = String::new();
    for rubric in shipped()
        .iter()
        .filter_map(|file| read_rubric(file.text).rubric)
    {
        let start = now();
        for _ in 0..TIMES {
            black_box(draw(black_box(&rubric)));
        }
        let each = (now() - start) / f64::from(TIMES);
        let ratio = each / BAR_MS;
        let _ = writeln!(
            said,
            "{}: {each:.2} ms a shoe, {ratio:.2} of the bar",
            rubric.id
        );
    }
    said
}

/// How many shapes the first shoe takes; none where it cannot be drawn.
fn draw(rubric: &Rubric) -> usize {
    let foot = rubric.shoes.first().map(evenshod::rubric::Shoe::drawn_foot);
    let shoe = foot.and_then(|foot| MadeShoe::of(&rubric.piece, foot).ok());
    shoe.map_or(0, |shoe| {
        shoe_plan(&shoe, Side::Ground, &[], "shoe").shapes.len()
    })
}

fn main() {
    timed::show(measured);
}
