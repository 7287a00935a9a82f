//! How long the matrix of 500 learners with 50 pieces each takes, against the bar of 300 ms
//! for the whole page, and the numbers of all pieces, which a page works out in slices; wasm
//! takes about twice as long.

// Clippy takes helpers of a benchmark for production code.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

use std::time::Instant;

use evenshod::cohort::{Asked, Group, used_rubrics};
use evenshod::demo::demo_ledger;
use evenshod::present::Rubrics;
use evenshod::present::cohort::{cohort_page, cohort_person, cohort_start};
use evenshod::records::{
    Day, Device, Learner, LearnerId, Ledger, MarkingId, PieceId, Record, Stamp, Whom,
};
use evenshod::rubric::shipped;
use evenshod::sheet::cohort_sheet;

const LEARNERS: u64 = 500;
const PIECES: u64 = 50;
const BAR_MS: f64 = 300.0;

/// The sealed pieces of one demo rubric, given to as many learners as the bar asks for.
fn ledger(rubric: &str) -> Ledger {
    let text = shipped()
        .iter()
        .find(|file| file.text.contains(rubric))
        .unwrap();
    let demo = demo_ledger(&[text.text], today(), 1895).unwrap();
    let sealed: Vec<_> = demo
        .pieces()
        .filter_map(|piece| Some((piece, demo.standing(piece.id).counts()?)))
        .collect();
    let device = Device::new("bench", [9; 8]);
    let at = |number: u64| Stamp::first(1_795_603_320_000 + number, device.clone());
    let mut records: Vec<Record> = demo
        .records()
        .filter(|record| {
            !matches!(
                record,
                Record::Piece(_) | Record::Marking(_) | Record::Learner(_)
            )
        })
        .collect();
    for number in 0..LEARNERS {
        let id = LearnerId::made_by(&at(number), 0);
        records.push(Learner::named(id, at(number), format!("Learner {number}")).into());
        for piece_number in 0..PIECES {
            let stamp = at(LEARNERS + number * PIECES + piece_number);
            let from = usize::try_from(number * 7 + piece_number).unwrap() % sealed.len();
            let (piece, marking) = sealed.get(from).unwrap();
            let (mut piece, mut marking) = ((*piece).clone(), (*marking).clone());
            piece.id = PieceId::made_by(&stamp, 3);
            piece.learner = Some(id);
            marking.id = MarkingId::made_by(&stamp, 4);
            marking.piece = piece.id;
            marking.replaces = None;
            records.push(piece.into());
            records.push(marking.into());
        }
    }
    Ledger::of(records)
}

fn today() -> Day {
    Day::new(2026, 11, 25).unwrap()
}

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
    let took = ms(since);
    println!(
        "matrix of {} learners by {} criteria: {took:.0} ms, {:.2} of the bar",
        page.rows.len(),
        page.heads.len(),
        took / BAR_MS
    );
    let since = Instant::now();
    let mut cohort = cohort_start(&ledger, &rubrics, &asked, today()).unwrap();
    for number in 0..cohort.people.len() {
        cohort_person(&ledger, &rubrics, &asked, &mut cohort, number);
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
