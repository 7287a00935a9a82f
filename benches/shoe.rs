//! How long a shoe takes to draw, against the bar of 5 ms in the browser; wasm takes about
//! twice as long as this does.

// Clippy takes helpers of a benchmark for production code.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

use std::hint::black_box;
use std::time::Instant;

use evenshod::chart::{Side, shoe_plan};
use evenshod::piece::{Foot, MadeShoe};
use evenshod::rubric::{read_rubric, shipped};

const TIMES: u32 = 200;
const BAR_MS: f64 = 5.0;

fn main() {
    for shipped in shipped() {
        let rubric = read_rubric(shipped.text).rubric.unwrap();
        let start = Instant::now();
        for _ in 0..TIMES {
            let shoe = MadeShoe::of(black_box(&rubric.piece), Foot::NearFore).unwrap();
            black_box(shoe_plan(&shoe, Side::Ground, &[], "shoe"));
        }
        let each = start.elapsed().as_secs_f64() * 1e3 / f64::from(TIMES);
        let ratio = each / BAR_MS;
        println!("{}: {each:.3} ms a shoe, {ratio:.2} of the bar", rubric.id);
    }
}
