//! How long what is in view of 500 learners with 50 pieces each takes, against the bar of
//! 300 ms for the whole page, and what a page works out in slices behind it; wasm takes about
//! twice as long.

// Clippy takes helpers of a benchmark for production code.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod large;

use std::time::Instant;

use evenshod::cohort::{Asked, Group, used_rubrics};
use evenshod::present::Rubrics;
use evenshod::present::cohort::{cohort_cells, cohort_page, cohort_pieces, cohort_start};
use evenshod::records::Whom;
use evenshod::sheet::cohort_sheet;
use large::{ledger, today};

const BAR_MS: f64 = 300.0;
/// The rows that a page has at first.
const IN_VIEW: usize = 20;

fn main() {
    let ledger = ledger("straight-bar-shoe");
    let rubrics = Rubrics::default();
    let asked = Asked {
        rubric: used_rubrics(&ledger).remove(0).0,
        group: Group::All,
        span: Default::default(),
        other: None,
        latest: 3,
        whom: Whom::Learner,
    };
    let ms = |since: Instant| since.elapsed().as_secs_f64() * 1000.0;
    let since = Instant::now();
    let page = cohort_page(&ledger, &rubrics, Some(&asked));
    let medians = |from: usize, to: usize| {
        let rows = page.rows.iter().take(to).skip(from);
        rows.map(|row| cohort_cells(&ledger, &rubrics, &asked, &page.plan, row.id).len())
            .sum::<usize>()
    };
    let in_view = medians(0, IN_VIEW);
    let took = ms(since);
    println!(
        "{} learners, and {in_view} medians of those in view: {took:.0} ms, {:.2} of the bar",
        page.rows.len(),
        took / BAR_MS
    );
    let since = Instant::now();
    let others = medians(IN_VIEW, page.rows.len());
    println!("the other {others} medians, in slices: {:.0} ms", ms(since));
    let since = Instant::now();
    let mut cohort = cohort_start(&ledger, &rubrics, &asked, today()).unwrap();
    let plan = cohort.plan.clone();
    for one in cohort.all_mut() {
        one.pieces = cohort_pieces(&ledger, &rubrics, &asked, &plan, one.id);
    }
    println!("numbers of all pieces, in slices: {:.0} ms", ms(since));
    let since = Instant::now();
    let text = serde_json::to_string(&cohort).unwrap();
    println!(
        "numbers as JSON, {} kB: {:.0} ms",
        text.len() / 1000,
        ms(since)
    );
    let since = Instant::now();
    let texts: Vec<String> = ledger
        .records()
        .map(|record| record.write().unwrap())
        .collect();
    let bytes: usize = texts.iter().map(String::len).sum();
    let text = serde_json::to_string(&texts).unwrap();
    println!(
        "records as JSON instead, {} kB, {} kB as sent: {:.0} ms",
        bytes / 1000,
        text.len() / 1000,
        ms(since)
    );
    let since = Instant::now();
    let sheet = cohort_sheet(&cohort);
    println!(
        "figures of {} people: {:.0} ms",
        sheet.people.len(),
        ms(since)
    );
}
