//! One examiner's heat log taken over by another.

use evenshod::command::{Command, CommandError, Edit, Entered, apply};
use evenshod::marking::heat_log::{HeatLog, Run, Tap, What};
use evenshod::present::Rubrics;
use evenshod::present::heat_log::{log_offers, log_taken, take_over_log};
use evenshod::records::{ExaminerId, Kind, MarkingId, Moment, RecordKey, Role, check_seal};
use evenshod::sheet::Block;

use crate::records::sample::{now, seal, stamp};
use crate::records::two::{Two, again};

fn tap(seconds: u32, what: What) -> Tap {
    Tap {
        at: Moment::new(1_795_603_320_000 + i64::from(seconds) * 1000, 0),
        run: Some(Run {
            page: 3,
            ms: u64::from(seconds) * 1000,
        }),
        what,
    }
}

fn fault() -> What {
    What::Fault {
        entry: "outline".to_owned(),
        fault: "lopsided".to_owned(),
    }
}

/// What the first examiner taps: two heats, a fault, a note, the end.
fn taps() -> Vec<Tap> {
    let note = What::Note {
        text: "poor toe".to_owned(),
    };
    vec![
        tap(0, What::Start),
        tap(10, What::Fire),
        tap(100, What::Anvil { weld: false }),
        tap(110, fault()),
        tap(120, note),
        tap(130, What::Fire),
        tap(200, What::Anvil { weld: false }),
        tap(300, What::Finished),
    ]
}

fn tapped() -> Two {
    let mut two = Two::begun("", ["7", "8"], ["5", "6"]);
    for tap in taps() {
        two.perform(Command::edit(two.first, Edit::Tap { tap }));
    }
    two
}

fn log(two: &Two, marking: MarkingId) -> &HeatLog {
    &two.ledger.marking(marking).unwrap().facts.heat_log
}

fn taken() -> Two {
    let mut two = tapped();
    let edit = take_over_log(&two.ledger, two.second, two.first, now()).unwrap();
    two.perform(Command::edit(two.second, edit));
    two
}

fn refused(two: &Two, edit: Edit) -> CommandError {
    apply(&two.ledger, Command::edit(two.second, edit), &stamp(90)).unwrap_err()
}

#[test]
fn the_log_of_the_first_is_offered_to_the_second_alone() {
    let two = tapped();
    let offers = log_offers(&two.ledger, two.second);
    assert_eq!(offers.len(), 1);
    assert_eq!(offers[0].words, "Take over the heat log of Wm. Green");
    assert_eq!(offers[0].says, "6 taps, finished.");
    assert_eq!(log_offers(&two.ledger, two.first), []);
    // The maker marks for practice, and examiners' logs may be held from the maker.
    let mut two = two;
    let own = two
        .perform(again(two.piece, Role::Own, "Ada Smith"))
        .unwrap();
    assert_eq!(log_offers(&two.ledger, own), []);
    assert_eq!(log_offers(&taken().ledger, two.second), []);
}

#[test]
fn one_that_is_sealed_is_offered_too_and_one_that_runs_says_so() {
    let mut two = tapped();
    two.perform(seal(two.first));
    assert!(two.ledger.standing(two.piece).is_unseen());
    assert_eq!(log_offers(&two.ledger, two.second).len(), 1);
    let mut two = Two::begun("", ["7", "8"], ["5", "6"]);
    let start = tap(0, What::Start);
    two.perform(Command::edit(two.first, Edit::Tap { tap: start }));
    let says = &log_offers(&two.ledger, two.second)[0].says;
    assert_eq!(
        says,
        "1 tap, not ended: what is tapped there later does not come along."
    );
}

/// Clocks come along; faults, as the first examiner's marks, and notes do not.
#[test]
fn taps_keep_their_clocks_and_say_who_took_them() {
    let two = taken();
    let wanted: Vec<Tap> = taps()
        .into_iter()
        .filter(|tap| tap.at != taps()[3].at && tap.at != taps()[4].at)
        .collect();
    assert_eq!(log(&two, two.second).taps, wanted);
    let second = two.ledger.marking(two.second).unwrap();
    assert!(second.facts.faults.is_empty());
    assert_eq!(second.facts.levels.len(), 2);
    let from = log(&two, two.second).taken_over.as_ref().unwrap();
    let first = two.ledger.marking(two.first).unwrap();
    assert_eq!(
        (from.marking.clone(), from.examiner.parse::<ExaminerId>()),
        (two.first.to_string(), Ok(first.examiner))
    );
    assert_eq!((from.at, from.taps), (now(), 6));
    let said = log_taken(&two.ledger, two.second, now()).unwrap();
    assert!(
        said.says
            .starts_with("The first 6 taps were taken over from the heat log of Wm. Green"),
        "{}",
        said.says
    );
    assert!(said.may_give_back);
    // A file of the piece has whom it names.
    let keys: Vec<RecordKey> = two
        .ledger
        .about([two.piece])
        .iter()
        .map(|one| one.key())
        .collect();
    assert!(keys.contains(&RecordKey::new(Kind::Examiner, first.examiner)));
}

#[test]
fn it_is_given_back_and_undone_tap_by_tap() {
    let mut two = taken();
    two.perform(Command::edit(two.second, Edit::GiveBackLog));
    assert_eq!(log(&two, two.second), &HeatLog::default());
    assert_eq!(log_offers(&two.ledger, two.second).len(), 1);

    let mut two = taken();
    two.perform(Command::edit(two.second, Edit::TakeBackTap { index: 5 }));
    assert_eq!(log(&two, two.second).taken_over.as_ref().unwrap().taps, 5);
    let more = tap(400, What::Called);
    two.perform(Command::edit(two.second, Edit::Tap { tap: more }));
    assert_eq!(refused(&two, Edit::GiveBackLog), CommandError::TapNotLast);
    assert!(
        !log_taken(&two.ledger, two.second, now())
            .unwrap()
            .may_give_back
    );
    for index in (0..6).rev() {
        two.perform(Command::edit(two.second, Edit::TakeBackTap { index }));
    }
    assert_eq!(log(&two, two.second), &HeatLog::default());
}

/// Undo of the mark sheet takes all of it back at once.
#[test]
fn undo_takes_it_back() {
    let two = tapped();
    let before = Entered::of(two.ledger.marking(two.second).unwrap());
    let mut two = taken();
    let after = Entered::of(two.ledger.marking(two.second).unwrap());
    let undo = Edit::TakeBack {
        before: Box::new(before),
        after: Box::new(after),
    };
    two.perform(Command::edit(two.second, undo));
    assert_eq!(log(&two, two.second), &HeatLog::default());
}

#[test]
fn a_log_with_taps_takes_none_over_and_the_same_twice_is_once() {
    let mut two = tapped();
    let edit = take_over_log(&two.ledger, two.second, two.first, now()).unwrap();
    two.perform(Command::edit(two.second, edit.clone()));
    let once = log(&two, two.second).clone();
    two.perform(Command::edit(two.second, edit.clone()));
    assert_eq!(log(&two, two.second), &once);
    let mut own = tapped();
    let start = tap(500, What::Start);
    own.perform(Command::edit(own.second, Edit::Tap { tap: start }));
    assert_eq!(log_offers(&own.ledger, own.second), []);
    assert_eq!(refused(&own, edit), CommandError::LogNotEmpty);
}

/// Whatever a command is given, faults and notes stay with who noted them.
#[test]
fn a_command_lets_no_fault_through() {
    let mut two = tapped();
    let Some(Edit::TakeOverLog { from, .. }) =
        take_over_log(&two.ledger, two.second, two.first, now())
    else {
        panic!();
    };
    let all = Edit::TakeOverLog { from, taps: taps() };
    two.perform(Command::edit(two.second, all));
    assert_eq!(log(&two, two.second).taps.len(), 6);
    assert_eq!(log(&two, two.second).taken_over_taps(), 6);
}

#[test]
fn the_sheet_says_it_and_the_seal_covers_it() {
    let mut two = taken();
    two.perform(seal(two.first));
    two.perform(seal(two.second));
    let marking = two.ledger.marking(two.second).unwrap();
    let rubrics = Rubrics::default();
    let rubric = rubrics
        .get(two.ledger.rubric(&marking.rubric).unwrap())
        .unwrap();
    let scored = evenshod::sheet::Scored::in_ledger(&two.ledger, marking, &rubric).unwrap();
    let sheet = evenshod::sheet::scored_sheet(&scored);
    let id = two.first.to_string();
    assert!(sheet.blocks.iter().any(|block| matches!(
        block,
        Block::Paragraph(text)
            if text.starts_with("The first 6 taps were taken over") && text.contains(&id)
    )));
    let parts = two.ledger.seal_parts(marking).unwrap();
    assert!(check_seal(parts).unwrap().intact);
    let mut other = marking.clone();
    other.facts.heat_log.taken_over = None;
    let parts = evenshod::records::SealParts {
        marking: &other,
        ..two.ledger.seal_parts(marking).unwrap()
    };
    assert!(!check_seal(parts).unwrap().intact);
}
