use evenshod::command::{Command, Edit, Who, apply};
use evenshod::marking::heat_log::{Stop, Tap, What};
use evenshod::present::{Bench, Rubrics, bench, ended_sentence, interrupted, offers, seal_view};
use evenshod::records::{Ended, Ledger, MarkingId};

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

fn tapped(ledger: &Ledger, marking: MarkingId, what: What, seconds: u64) -> Ledger {
    let (at, run) = (now(), None);
    let tap = Tap { at, run, what };
    let edit = Command::edit(marking, Edit::Tap { tap });
    after(ledger, edit, &stamp(seconds)).0
}

fn stopped(how: Stop) -> What {
    let reason = "Horse needed".to_owned();
    What::Stopped { how, reason }
}

#[test]
fn how_a_piece_ended_is_said_before_the_seal_and_taken_back_with_its_tap() {
    let (ledger, made) = after(&Ledger::default(), start(ticket("14")), &stamp(0));
    let (id, marking) = (made.piece.unwrap(), made.marking.unwrap());
    let ended = |ledger: &Ledger| ledger.ended(ledger.piece(id).unwrap());
    let now_words = |ledger: &Ledger| shown(ledger).drafts[0].now.clone();
    assert_eq!(ended(&ledger), None);
    let given_up = tapped(&ledger, marking, stopped(Stop::Withdrawn), 5);
    assert_eq!(ended(&given_up), Some(Ended::Withdrawn));
    let words = now_words(&given_up);
    assert!(
        words.starts_with("withdrawn, not sealed, 1 entry"),
        "{words}"
    );
    let piece = given_up.piece(id).unwrap();
    assert_eq!(ended_sentence(&given_up, piece), " Withdrawn, not sealed.");
    let view = seal_view(&given_up, &Rubrics::default(), marking).unwrap();
    assert_eq!(view.ended, "withdrawn");
    let back = Command::edit(marking, Edit::TakeBackTap { index: 0 });
    let (back, _) = after(&given_up, back, &stamp(6));
    assert_eq!(ended(&back), None);
    assert!(!now_words(&back).contains("not sealed"));
    // What the seal says of the piece stands, whatever the log says.
    let (sealed, _) = after(&given_up, seal(marking), &stamp(7));
    assert_eq!(ended(&sealed), sealed.piece(id).unwrap().ended);
    assert_eq!(ended_sentence(&sealed, sealed.piece(id).unwrap()), "");
}

#[test]
fn a_piece_that_broke_gives_its_ticket_up_before_the_seal() {
    let (ledger, made) = after(&Ledger::default(), start(ticket("14")), &stamp(0));
    let marking = made.marking.unwrap();
    let finished = tapped(&ledger, marking, What::Finished, 5);
    assert!(apply(&finished, start(ticket("14")), &stamp(6)).is_err());
    let broken = tapped(&ledger, marking, stopped(Stop::BrokenOrRestarted), 5);
    let (again, _) = after(&broken, start(ticket("14")), &stamp(6));
    assert_eq!(shown(&again).drafts.len(), 2);
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
