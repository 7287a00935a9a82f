//! A first impression is given before all else, or not at all.

use evenshod::command::{Command, CommandError, Edit, Entered, apply};
use evenshod::marking::{Facts, State};
use evenshod::records::{Ledger, MarkingId};

use crate::records::sample::{after, level, named, stamp};
use crate::records::two::Two;
use crate::rubric::impression::text;
use crate::sheet::sample::{begun, edited, faults, performed, readings, state};

fn set(impression: Option<&str>) -> Edit {
    Edit::SetImpression {
        impression: impression.map(str::to_owned),
    }
}

fn begun_by(table: &str) -> (Ledger, MarkingId) {
    begun(&text(table), named("Ada Smith"))
}

fn facts(ledger: &Ledger, marking: MarkingId) -> Facts {
    ledger.marking(marking).unwrap().facts.clone()
}

#[track_caller]
fn refused(ledger: &Ledger, marking: MarkingId, edit: Edit) -> String {
    let error = apply(ledger, Command::edit(marking, edit), &stamp(900)).unwrap_err();
    error.to_string()
}

/// Undo of what led from `before` to now.
fn undo(before: &Ledger, now: &Ledger, marking: MarkingId) -> Edit {
    let entered = |ledger: &Ledger| Box::new(Entered::of(ledger.marking(marking).unwrap()));
    Edit::TakeBack {
        before: entered(before),
        after: entered(now),
    }
}

#[test]
fn it_can_be_changed_until_something_is_measured() {
    let (ledger, marking) = begun_by("");
    let given = edited(
        ledger,
        marking,
        vec![set(Some("7")), set(None), set(Some("8"))],
    );
    assert_eq!(facts(&given, marking).impression.as_deref(), Some("8"));
    // Noted while the shoe was made.
    let given = edited(given, marking, vec![faults("safety", &[]), set(Some("6"))]);
    let measured = edited(given.clone(), marking, vec![readings("width", &["130"])]);
    for edit in [set(Some("9")), set(None)] {
        assert_eq!(
            refused(&measured, marking, edit),
            "the first impression is locked: something has been measured or judged since; if \
             that was a slip, take it back with Undo"
        );
    }
    // The same again changes nothing, and is refused all the same.
    assert!(refused(&measured, marking, set(Some("6"))).contains("locked"));
    let back = undo(&given, &measured, marking);
    let open = edited(measured, marking, vec![back, set(Some("5"))]);
    assert_eq!(facts(&open, marking).impression.as_deref(), Some("5"));
}

#[test]
fn it_is_none_after_something_is_measured() {
    let (ledger, marking) = begun_by("");
    let measured = edited(ledger, marking, vec![readings("width", &["130"])]);
    assert_eq!(
        refused(&measured, marking, set(Some("7"))),
        "something has been measured or judged already, so this would be no first impression; go \
         on without one"
    );
}

#[test]
fn undo_takes_it_away_unless_another_tab_has_measured() {
    let (fresh, marking) = begun_by("");
    let given = edited(fresh.clone(), marking, vec![set(Some("7"))]);
    let back = undo(&fresh, &given, marking);
    let open = edited(given.clone(), marking, vec![back.clone()]);
    assert_eq!(facts(&open, marking), Facts::default());
    let other = edited(given, marking, vec![readings("width", &["130"])]);
    let kept = edited(other.clone(), marking, vec![back]);
    assert_eq!(facts(&kept, marking), facts(&other, marking));
}

#[test]
fn a_level_that_counts_is_locked_if_it_was_given_first() {
    let (ledger, marking) = begun_by("counts_as = \"weld\"");
    // By its own row or by the card, it is the same.
    let by_row = performed(ledger.clone(), vec![level(marking, "weld", "open")]);
    let by_card = edited(ledger.clone(), marking, vec![set(Some("open"))]);
    for first in [by_row, by_card] {
        let found = facts(&first, marking);
        assert_eq!(
            (
                found.levels["weld"].as_str(),
                found.impression.as_deref().unwrap()
            ),
            ("open", "open")
        );
        let other = performed(first, vec![level(marking, "weld", "sound")]);
        let measured = edited(other.clone(), marking, vec![readings("width", &["130"])]);
        let to = |level: Option<&str>| Edit::SetLevel {
            entry: "weld".to_owned(),
            level: level.map(str::to_owned),
        };
        for edit in [
            to(Some("open")),
            to(None),
            set(Some("open")),
            set(None),
            state("weld", State::CannotMeasure, "burr"),
        ] {
            assert!(refused(&measured, marking, edit).contains("is locked"));
        }
        // Other criteria are free.
        let more = performed(measured.clone(), vec![level(marking, "whole", "7")]);
        assert_eq!(facts(&more, marking).levels["whole"], "7");
        let back = undo(&other, &measured, marking);
        let open = edited(measured, marking, vec![back, to(None)]);
        assert_eq!(facts(&open, marking), Facts::default());
    }
}

#[test]
fn a_level_that_counts_may_be_given_later_and_is_no_first_impression_then() {
    let (ledger, marking) = begun_by("counts_as = \"weld\"");
    let measured = edited(ledger, marking, vec![readings("width", &["130"])]);
    for edit in [
        set(Some("open")),
        Edit::SetLevel {
            entry: "weld".to_owned(),
            level: Some("open".to_owned()),
        },
    ] {
        let later = edited(measured.clone(), marking, vec![edit]);
        let found = facts(&later, marking);
        assert_eq!(
            (found.levels["weld"].as_str(), found.impression),
            ("open", None)
        );
        // It stays a criterion as any other.
        let changed = performed(later, vec![level(marking, "weld", "sound")]);
        assert_eq!(facts(&changed, marking).levels["weld"], "sound");
    }
}

#[test]
fn undo_of_a_level_that_counts_keeps_it_where_another_tab_has_measured() {
    let (fresh, marking) = begun_by("counts_as = \"weld\"");
    let given = edited(fresh.clone(), marking, vec![set(Some("sound"))]);
    let back = undo(&fresh, &given, marking);
    let other = edited(given, marking, vec![readings("width", &["130"])]);
    let kept = edited(other.clone(), marking, vec![back]);
    assert_eq!(facts(&kept, marking), facts(&other, marking));
}

/// Two tabs: what was given in one is refused once it reaches the other's reading.
#[test]
fn a_tab_that_comes_late_is_told() {
    let (ledger, marking) = begun_by("");
    let (stored, _) = after(
        &ledger,
        Command::edit(marking, readings("width", &["130"])),
        &stamp(5),
    );
    let late = Command::edit(marking, set(Some("7")));
    assert_eq!(
        apply(&stored, late, &stamp(4)),
        Err(CommandError::ImpressionLate)
    );
}

#[test]
fn an_agreed_marking_has_none() {
    let mut two = Two::sealed("", ["8", "9"], ["8", "7"]);
    let agreed = two.agree();
    two.perform(Command::edit(agreed, set(Some("7"))));
    let marking = two.ledger.marking(agreed).unwrap();
    assert_eq!(marking.facts.impression, None);
}
