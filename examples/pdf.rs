//! Writes documents of the invented school as PDF, to look at them:
//! `cargo run --example pdf -- FOLDER`. A4 and US Letter stand side by side, cards on A6 and A5,
//! bench cards on A5 and half Letter.

#![allow(clippy::print_stdout)]

use std::collections::BTreeMap;
use std::error::Error;
use std::path::Path;

use evenshod::chart::Side;
use evenshod::command::apply;
use evenshod::conformity::weigh;
use evenshod::demo::demo_ledger;
use evenshod::job::{Job, Outcome};
use evenshod::output::pdf::{Paper, pdf};
use evenshod::plan::{Inputs, plan};
use evenshod::present::mark_sheet::blank_of_marking;
use evenshod::present::{
    AgreementForm, CourseAsked, Rubrics, agreement_choices, agreement_job, begin_study,
    course_wanted, examiners_page, learner_print, portfolio_choices, portfolio_document,
    practice_page, side_page,
};
use evenshod::quantity::Unit;
use evenshod::records::{Day, Device, Ledger, Moment, Stamp, Whom};
use evenshod::rubric::{Rubric, Shoe, read_rubric, shipped};
use evenshod::sheet::{
    BenchCard, Document, LayOnGauge, Scored, bench_card, gauge_tolerance, lay_on_gauge,
    rubric_document, scored_sheet, study_sheet, sure_document,
};
use evenshod::worker::perform;

/// A noon in November 2026.
const NOW: i64 = 1_795_608_000_000;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("say: pdf FOLDER")?;
    for (name, document) in documents()? {
        let papers = match name.as_str() {
            "card" => [("a6", Paper::A6), ("a5", Paper::A5)],
            name if name.starts_with("bench-") => {
                [("a5", Paper::A5), ("half-letter", Paper::HalfLetter)]
            }
            _ => [("a4", Paper::A4), ("letter", Paper::Letter)],
        };
        for (size, paper) in papers {
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

/// What goes to the anvil with a rubric's first shoe.
fn anvil(rubric: &Rubric) -> Vec<(String, Document)> {
    let (piece, unit) = (&rubric.piece, Unit::Inch64);
    let Some(foot) = rubric.shoes.first().map(Shoe::drawn_foot) else {
        return Vec::new();
    };
    let inputs = Inputs {
        unit,
        ..Inputs::usual(piece, foot)
    };
    let plan = &plan(piece, &inputs);
    let card = bench_card(&BenchCard { rubric, plan, unit });
    let gauge = lay_on_gauge(&LayOnGauge {
        piece,
        title: &rubric.title,
        foot,
        side: Side::Ground,
        tolerance: gauge_tolerance(rubric).unwrap_or_default(),
        unit,
    });
    let mut all = vec![(format!("bench-{}", rubric.id), card)];
    all.extend(gauge.map(|gauge| (format!("gauge-{}", rubric.id), gauge)));
    all
}

/// One document of each kind.
fn documents() -> Result<BTreeMap<String, Document>, Box<dyn Error>> {
    let texts: Vec<&str> = shipped().iter().map(|file| file.text).take(5).collect();
    let today = Day::new(2026, 11, 25).ok_or("no such day")?;
    let ledger = demo_ledger(&texts, today, 1895)?;
    let rubrics = Rubrics::default();
    let mut all = BTreeMap::new();
    for marking in ledger.markings().filter(|marking| marking.seal.is_some()) {
        let piece = marking.piece;
        if let Ok(page) = side_page(&ledger, &rubrics, piece, Whom::Examiner) {
            all.entry("beside".to_owned()).or_insert(page.document);
        }
        if let Ok(page) = examiners_page(&ledger, &rubrics, piece) {
            all.entry("examiners".to_owned()).or_insert(page.document);
        }
        let version = ledger.rubric(&marking.rubric).ok_or("no rubric")?;
        let name = format!("sheet-{}", version.rubric_id);
        if all.contains_key(&name) {
            continue;
        }
        let rubric = read_rubric(&version.text).rubric.ok_or("no rubric")?;
        let scored = Scored::in_ledger(&ledger, marking, &rubric);
        if let (Some(scored), Ok(certainty)) = (scored, weigh(&rubric, &marking.facts)) {
            all.entry("sure".to_owned())
                .or_insert_with(|| sure_document(&scored, &certainty));
            all.insert(name, scored_sheet(&scored.weighed(&certainty)));
        }
    }
    let now = Moment::new(NOW, 60);
    let most = ledger
        .learners()
        .max_by_key(|one| ledger.pieces_of(one.id).count());
    if let Some(learner) = most {
        let mut asked = CourseAsked::default();
        let wanted = course_wanted(&ledger, &rubrics, learner.id, &asked, Whom::Learner);
        if let Some((_, job)) = wanted
            && let Outcome::Course(figures) = perform(&job, &mut |_| ())?
        {
            asked.figures = Some(*figures);
        }
        let document = learner_print(&ledger, &rubrics, learner.id, &asked, now);
        all.extend(document.map(|document| ("learner".to_owned(), document)));
        let shown = practice_page(&ledger, &rubrics, learner.id, now);
        all.extend(shown.map(|shown| ("card".to_owned(), shown.card)));
        let choices = portfolio_choices(&ledger, &rubrics, learner.id);
        let pieces = choices.into_iter().flat_map(|(_, choices)| choices);
        let pieces = pieces.map(|choice| choice.piece).collect();
        let document = portfolio_document(&ledger, &rubrics, learner.id, &pieces, now);
        all.extend(document.map(|document| ("portfolio".to_owned(), document)));
    }
    if let Some(draft) = ledger.drafts().next() {
        let blank = blank_of_marking(&ledger, &rubrics, draft.id);
        all.extend(blank.map(|document| ("blank".to_owned(), document)));
    }
    for text in texts.iter().take(1) {
        let rubric = read_rubric(text).rubric.ok_or("no rubric")?;
        all.insert("rubric".to_owned(), rubric_document(&rubric, rubric.unit));
    }
    if let Some(form) = AgreementForm::first(&agreement_choices(&ledger)) {
        let asked = form.read().map_err(|wrong| format!("{wrong:?}"))?;
        let (_, job) = agreement_job(&ledger, &asked)?;
        all.insert("agreement".to_owned(), agreement(&job)?);
    }
    all.insert("study".to_owned(), study(today)?);
    for text in texts {
        let rubric = read_rubric(text).rubric.ok_or("no rubric")?;
        all.extend(anvil(&rubric));
    }
    Ok(all)
}

/// An instrument study whose readings are made up by a rule.
fn study(today: Day) -> Result<Document, Box<dyn Error>> {
    let stamp = Stamp::first(0, Device::new("example", [0; 8]));
    let none = Ledger::default();
    let begun = none.with(&apply(&none, begin_study("caliper", today), &stamp)?);
    let begun = begun.studies().next().ok_or("no study")?;
    let mut facts = begun.facts.clone();
    for (at, place) in begun.facts.places().enumerate() {
        let hundredths = (at * 37) % 23 + if place.person == 2 { 15 } else { 0 };
        let text = format!("{}.{hundredths:02}", 8 + 2 * place.part);
        facts.readings.insert(place, text);
    }
    for (part, size) in facts
        .parts
        .iter_mut()
        .zip(["10.1 mm", "12.1 mm", "14.1 mm"])
    {
        part.reference = Some(size.to_owned());
        part.uncertainty = Some("0.01 mm".to_owned());
    }
    Ok(study_sheet(&facts, "Caliper").document)
}

/// What the worker makes of it.
fn agreement(job: &Job) -> Result<Document, Box<dyn Error>> {
    match perform(job, &mut |_| ())? {
        Outcome::Agreement(document) => Ok(document),
        other => Err(format!("another outcome: {other:?}").into()),
    }
}
