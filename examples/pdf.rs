//! Writes documents of the invented school as PDF, to look at them:
//! `cargo run --example pdf -- FOLDER`. A4 and US Letter stand side by side.

#![allow(clippy::print_stdout)]

use std::collections::BTreeMap;
use std::error::Error;
use std::path::Path;

use evenshod::conformity::weigh;
use evenshod::demo::demo_ledger;
use evenshod::output::pdf::{Paper, pdf};
use evenshod::present::{Rubrics, examiners_page, learner_print, sheet_page, side_page};
use evenshod::records::{Day, Moment, Whom};
use evenshod::rubric::{read_rubric, shipped};
use evenshod::sheet::{Document, Scored, rubric_document, sure_document};

/// A noon in November 2026.
const NOW: i64 = 1_795_608_000_000;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("say: pdf FOLDER")?;
    for (name, document) in documents()? {
        for (size, paper) in [("a4", Paper::A4), ("letter", Paper::Letter)] {
            let pdf = pdf(&document, paper)?;
            let path = Path::new(&folder).join(format!("{name}-{size}.pdf"));
            println!(
                "{}: {} pages, {} bytes, {} kinds of boxes",
                path.display(),
                pdf.pages,
                pdf.bytes.len(),
                pdf.missing.len()
            );
            std::fs::write(path, pdf.bytes)?;
        }
    }
    Ok(())
}

/// One document of each kind.
fn documents() -> Result<BTreeMap<&'static str, Document>, Box<dyn Error>> {
    let texts: Vec<&str> = shipped().iter().map(|file| file.text).take(5).collect();
    let today = Day::new(2026, 11, 25).ok_or("no such day")?;
    let ledger = demo_ledger(&texts, today, 1895)?;
    let rubrics = Rubrics::default();
    let mut all = BTreeMap::new();
    for marking in ledger.markings().filter(|marking| marking.seal.is_some()) {
        let piece = marking.piece;
        if let Ok(page) = sheet_page(&ledger, &rubrics, piece, Some(marking.id)) {
            let title = page.document.title.clone();
            if title.contains("ar shoe") || title.contains("Bar") {
                all.entry("sheet-bar").or_insert(page.document);
            } else {
                all.entry("sheet").or_insert(page.document);
            }
        }
        if let Ok(page) = side_page(&ledger, &rubrics, piece, Whom::Examiner) {
            all.entry("beside").or_insert(page.document);
        }
        if let Ok(page) = examiners_page(&ledger, &rubrics, piece) {
            all.entry("examiners").or_insert(page.document);
        }
        if !all.contains_key("sure") {
            let version = ledger.rubric(&marking.rubric).ok_or("no rubric")?;
            let rubric = read_rubric(&version.text).rubric.ok_or("no rubric")?;
            let scored = Scored::in_ledger(&ledger, marking, &rubric);
            if let (Some(scored), Ok(certainty)) = (scored, weigh(&rubric, &marking.facts)) {
                all.insert("sure", sure_document(&scored, &certainty));
            }
        }
    }
    let now = Moment::new(NOW, 60);
    let most = ledger
        .learners()
        .max_by_key(|one| ledger.pieces_of(one.id).count());
    if let Some(learner) = most {
        let document = learner_print(&ledger, &rubrics, learner.id, None, now);
        all.extend(document.map(|document| ("learner", document)));
    }
    for text in texts.iter().take(1) {
        let rubric = read_rubric(text).rubric.ok_or("no rubric")?;
        all.insert("rubric", rubric_document(&rubric, rubric.unit));
    }
    Ok(all)
}
