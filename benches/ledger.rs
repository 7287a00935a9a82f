//! How long a big ledger takes as a file: written, read, and merged into another as big,
//! against the bar of 5 s for reading and merging; wasm takes about twice as long.

// Clippy takes helpers of a benchmark for production code.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

use std::collections::BTreeSet;
use std::time::Instant;

use evenshod::marking::ReadingFact;
use evenshod::records::{
    Bundle, Day, Device, Examiner, ExaminerId, Learner, LearnerId, Ledger, Marking, MarkingId,
    Merge, Moment, Piece, PieceId, Record, Role, Sitting, SittingId, SittingKind, Stamp, Unit,
    sha256_hex,
};

const LEARNERS: u64 = 2_000;
const MARKINGS: u64 = 100_000;
const BAR_S: f64 = 5.0;

fn ledger(device: u8) -> Ledger {
    let device = Device::new("bench", [device; 8]);
    let at = |second: u64| Stamp::first(1_795_603_320_000 + 1_000 * second, device.clone());
    let first = at(0);
    let rubric = sha256_hex(b"rubric");
    let id = ExaminerId::made_by(&first, 1);
    let examiner = Examiner::named(id, first.clone(), "Wm. Green".to_owned());
    let sitting = Sitting {
        id: SittingId::made_by(&first, 2),
        stamp: first.clone(),
        kind: SittingKind::Practice,
        day: Day::new(2026, 11, 25).unwrap(),
        name: String::new(),
        released: None,
    };
    let learner = |number: u64| LearnerId::made_by(&at(number), 0);
    let mut records: Vec<Record> = vec![examiner.clone().into(), sitting.clone().into()];
    records.extend((0..LEARNERS).map(|number| {
        let name = format!("Learner {number}");
        Record::from(Learner::named(learner(number), at(number), name))
    }));
    for number in 0..MARKINGS {
        let stamp = at(LEARNERS + number);
        let piece = Piece {
            id: PieceId::made_by(&stamp, 3),
            stamp: stamp.clone(),
            learner: Some(learner(number % LEARNERS)),
            ticket: None,
            hidden_until_sealed: false,
            sitting: sitting.id,
            rubric: rubric.clone(),
            attempt: 1,
            ended: None,
            feedback: None,
        };
        let mut marking = Marking {
            id: MarkingId::made_by(&stamp, 4),
            stamp,
            piece: piece.id,
            role: Role::First,
            examiner: examiner.id,
            order: 1,
            rubric: rubric.clone(),
            unit: Unit::Millimetre,
            facts: Default::default(),
            comments: Default::default(),
            overall: Some("Good shoe, heels a touch long.".to_owned()),
            photos: Vec::new(),
            typist: None,
            started: Moment::new(1_795_603_320_000, 0),
            replaces: None,
            seal: None,
            agreement: None,
            signature: None,
            erased: None,
        };
        for entry in ["width", "length", "bar-width", "web", "thickness", "fuller"] {
            let readings = vec![ReadingFact::of("10.2"), ReadingFact::of("10.4")];
            marking.facts.readings.insert(entry.to_owned(), readings);
        }
        for entry in ["weld", "finish", "toe-bend", "heels", "nails"] {
            let level = "good".to_owned();
            marking.facts.levels.insert(entry.to_owned(), level);
        }
        records.push(piece.into());
        records.push(marking.into());
    }
    Ledger::of(records)
}

fn main() {
    let (here, there) = (ledger(1), ledger(2));
    let time = |what: &str, since: Instant| {
        let took = since.elapsed().as_secs_f64();
        println!("{what}: {took:.2} s, {:.2} of the bar", took / BAR_S);
    };
    let since = Instant::now();
    let bundle = Bundle::of(&there, Vec::new(), "bench", Moment::new(0, 0));
    let text = bundle.write().unwrap();
    time(&format!("written, {} MB", text.len() / 1_000_000), since);
    let since = Instant::now();
    let bundle = Bundle::read(text.as_bytes()).unwrap();
    time("read", since);
    let since = Instant::now();
    let merge = Merge::of(&here, &bundle, &BTreeSet::new());
    let merged = here.with(&merge.change);
    time("merged", since);
    let since = Instant::now();
    assert!(
        Merge::of(&merged, &bundle, &BTreeSet::new())
            .change
            .is_empty()
    );
    time("merged again", since);
}
