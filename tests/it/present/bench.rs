use evenshod::command::{Command, Who};
use evenshod::present::{Bench, Rubrics, bench, interrupted, offers};
use evenshod::records::Ledger;

use crate::records::sample::{after, level, named, now, seal, stamp, start_piece};

fn shown(ledger: &Ledger) -> Bench {
    bench(ledger, &Rubrics::default(), now())
}

/// A piece made to the first rubric that ships.
fn start(who: Who) -> Command {
    let mut what = start_piece(who);
    what.rubric = offers().remove(0).rubric;
    Command::StartPiece(Box::new(what))
}

fn ticket(number: &str) -> Who {
    Who::Ticket {
        ticket: number.to_owned(),
        learner: None,
    }
}

#[test]
fn an_empty_ledger_gives_an_empty_bench() {
    assert!(shown(&Ledger::default()).is_empty());
}

#[test]
fn a_draft_says_what_was_typed_when_and_by_whom() {
    let (ledger, made) = after(&Ledger::default(), start(named("Ada Smith")), &stamp(0));
    let bench = shown(&ledger);
    assert_eq!(bench.drafts_counted(), "1 draft");
    let row = &bench.drafts[0];
    assert_eq!((row.title.as_str(), row.sealed), ("Ada Smith", false));
    assert!(row.about.ends_with(", practice"), "{}", row.about);
    assert!(row.now.starts_with("nothing typed yet, "), "{}", row.now);
    assert!(
        row.now.ends_with("missing, saved 11:42, by Wm. Green"),
        "{}",
        row.now
    );
    assert_eq!(row.marks, None);
    let marking = made.marking.unwrap();
    let (ledger, _) = after(&ledger, level(marking, "no-such-entry", "x"), &stamp(60));
    let row = &shown(&ledger).drafts[0];
    assert!(row.now.starts_with("1 entry typed, "), "{}", row.now);
    assert!(row.now.contains("saved 11:43"), "{}", row.now);
    let (_, of) = row.marks.clone().unwrap();
    assert!(of.ends_with(" so far"), "{of}");
}

#[test]
fn the_draft_written_last_comes_first() {
    let (ledger, first) = after(&Ledger::default(), start(named("Ada")), &stamp(0));
    let (ledger, _) = after(&ledger, start(named("Ben")), &stamp(10));
    let titles = |ledger: &Ledger| -> Vec<String> {
        let drafts = shown(ledger).drafts.into_iter();
        drafts.map(|row| row.title).collect()
    };
    assert_eq!(titles(&ledger), ["Ben", "Ada"]);
    let (ledger, _) = after(&ledger, level(first.marking.unwrap(), "x", "y"), &stamp(20));
    assert_eq!(titles(&ledger), ["Ada", "Ben"]);
}

#[test]
fn a_sealed_piece_moves_to_the_latest_with_its_award() {
    let (ledger, made) = after(&Ledger::default(), start(named("Ada Smith")), &stamp(0));
    let (ledger, _) = after(&ledger, seal(made.marking.unwrap()), &stamp(1));
    let bench = shown(&ledger);
    assert!(bench.drafts.is_empty());
    let row = &bench.latest[0];
    assert!(row.sealed);
    assert_eq!(row.title, "Ada Smith");
    assert!(row.about.ends_with(", practice, today"), "{}", row.about);
    assert_eq!(row.now, "incomplete");
}

#[test]
fn a_ticket_hides_the_learner_until_the_seal() {
    let (ledger, ada) = after(&Ledger::default(), start(named("Ada Smith")), &stamp(0));
    let hidden = Who::Ticket {
        ticket: "14".to_owned(),
        learner: ada.learner,
    };
    let (ledger, made) = after(&ledger, start(hidden), &stamp(1));
    let row = &shown(&ledger).drafts[0];
    assert_eq!(row.title, "Ticket 14");
    assert!(!row.about.contains("attempt"), "{}", row.about);
    let (ledger, _) = after(&ledger, seal(made.marking.unwrap()), &stamp(2));
    let row = &shown(&ledger).latest[0];
    assert_eq!(row.title, "Ada Smith");
    assert!(row.about.contains("second attempt"), "{}", row.about);
}

#[test]
fn a_rubric_that_cannot_be_read_leaves_the_marks_out() {
    // The sample's rubric is no rubric.
    let who = Command::StartPiece(Box::new(start_piece(ticket("14"))));
    let (ledger, _) = after(&Ledger::default(), who, &stamp(0));
    let row = &shown(&ledger).drafts[0];
    assert_eq!(row.now, "nothing typed yet, saved 11:42, by Wm. Green");
    assert_eq!(row.marks, None);
}

#[test]
fn an_interrupted_draft_is_named_until_it_is_sealed() {
    let (ledger, made) = after(&Ledger::default(), start(named("Ada Smith")), &stamp(0));
    let marking = made.marking.unwrap();
    let found = interrupted(&ledger, marking, now()).unwrap();
    assert_eq!(Some(found.piece), made.piece);
    let title = offers().remove(0).rubric.title;
    assert_eq!(
        found.text,
        format!(
            "You were marking Ada Smith ({title}, practice) at 11:42. Everything typed is kept."
        )
    );
    let (ledger, _) = after(&ledger, seal(marking), &stamp(1));
    assert_eq!(interrupted(&ledger, marking, now()), None);
    assert_eq!(interrupted(&Ledger::default(), marking, now()), None);
}
