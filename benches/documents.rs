//! How long thirty sheets take as one PDF, against the bar of 3 s in the worker. The worker
//! also works out how sure each marking is; that is not in it, and wasm is slower.

// Clippy takes helpers of a benchmark for production code.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

use std::time::Instant;

use evenshod::demo::demo_ledger;
use evenshod::output::pdf::{Paper, pdf_of_many};
use evenshod::present::{Rubrics, sheet_page};
use evenshod::records::Day;
use evenshod::rubric::shipped;
use evenshod::sheet::Document;

const SHEETS: usize = 30;
const BAR_S: f64 = 3.0;

fn main() {
    let texts: Vec<&str> = shipped().iter().map(|file| file.text).take(5).collect();
    let ledger = demo_ledger(&texts, Day::new(2026, 11, 25).unwrap(), 1895).unwrap();
    let rubrics = Rubrics::default();
    let sealed = ledger.markings().filter(|one| one.seal.is_some());
    let sheets = sealed.filter_map(|one| {
        let page = sheet_page(&ledger, &rubrics, one.piece, Some(one.id));
        page.ok().map(|page| page.document)
    });
    let sheets: Vec<Document> = sheets.take(SHEETS).collect();
    assert_eq!(sheets.len(), SHEETS);
    let since = Instant::now();
    let pdf = pdf_of_many(&sheets, Paper::A4, "Sheets", "en").unwrap();
    let took = since.elapsed().as_secs_f64();
    println!(
        "{SHEETS} sheets, {} pages, {} kB: {took:.2} s, {:.2} of the bar",
        pdf.pages,
        pdf.bytes.len() / 1000,
        took / BAR_S
    );
}
