//! A ledger as large as the bar of the cohort page asks for: made, not measured, by every
//! learner alike.

use evenshod::demo::demo_ledger;
use evenshod::records::{
    Day, Device, Learner, LearnerId, Ledger, MarkingId, PieceId, Record, Stamp,
};
use evenshod::rubric::shipped;

const LEARNERS: u64 = 500;
const PIECES: u64 = 50;

/// The sealed pieces of one rubric of the invented school, given to as many learners as the
/// bar asks for.
pub fn ledger(rubric: &str) -> Ledger {
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

/// The day on which it is looked at.
pub fn today() -> Day {
    Day::new(2026, 11, 25).unwrap()
}
