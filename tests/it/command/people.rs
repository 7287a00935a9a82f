use evenshod::command::{Command, CommandError, apply};
use evenshod::records::{Change, LearnerId, Ledger};

use crate::records::sample::{after, rename, stamp, stamp_of};

fn add(name: &str, number: Option<&str>) -> Command {
    Command::AddLearner {
        name: name.to_owned(),
        given_number: number.map(str::to_owned),
    }
}

fn examiner(name: &str) -> Command {
    Command::AddExaminer {
        name: name.to_owned(),
    }
}

#[test]
fn a_learner_is_added_with_a_tidy_name() {
    let (ledger, made) = after(
        &Ledger::default(),
        add("  Ada \t Smith ", Some(" ")),
        &stamp(0),
    );
    let learner = ledger.learner(made.learner.unwrap()).unwrap();
    assert_eq!(
        (learner.name.as_str(), &learner.given_number),
        ("Ada Smith", &None)
    );
    assert_eq!(learner.stamp, stamp(0));
}

#[test]
fn two_of_one_name_need_a_number() {
    let (ledger, _) = after(&Ledger::default(), add("Ada Smith", None), &stamp(0));
    let error = apply(&ledger, add("ada smith", None), &stamp(1)).unwrap_err();
    assert!(error.to_string().contains("add a number"), "{error}");
    let (ledger, _) = after(&ledger, add("Ada Smith", Some("17")), &stamp(1));
    assert_eq!(ledger.learners().count(), 2);
}

#[test]
fn a_name_of_spaces_is_refused() {
    for command in [add(" ", None), examiner("")] {
        let refused = apply(&Ledger::default(), command, &stamp(0));
        assert!(matches!(refused, Err(CommandError::NoName { .. })));
    }
}

#[test]
fn a_learner_is_renamed_under_a_later_stamp_even_by_a_slow_clock() {
    let (ledger, made) = after(&Ledger::default(), add("Ada Smith", None), &stamp(10));
    let learner = made.learner.unwrap();
    let same = apply(&ledger, rename(&ledger, learner, "Ada Smith"), &stamp(11)).unwrap();
    assert_eq!(same, Change::default());
    let command = rename(&ledger, learner, "Ada Jones");
    let (ledger, _) = after(&ledger, command, &stamp_of(2, 0));
    let renamed = ledger.learner(learner).unwrap();
    assert_eq!(renamed.name, "Ada Jones");
    assert!(renamed.stamp > stamp(10));

    let nobody = LearnerId::made_by(&stamp(99), 0);
    let error = apply(&ledger, rename(&ledger, nobody, "X"), &stamp(12)).unwrap_err();
    assert!(
        error.to_string().contains("is not in this ledger"),
        "{error}"
    );
}

#[test]
fn an_examiner_is_added_once() {
    let (ledger, made) = after(&Ledger::default(), examiner("Wm. Green"), &stamp(0));
    assert!(ledger.examiner(made.examiner.unwrap()).is_some());
    let refused = apply(&ledger, examiner("WM.  GREEN"), &stamp(1));
    assert!(matches!(refused, Err(CommandError::NameTaken { .. })));
}

#[test]
fn a_command_applied_again_makes_nothing_new_and_names_the_same_ids() {
    for command in [add("Ada Smith", None), examiner("Wm. Green")] {
        let (ledger, made) = after(&Ledger::default(), command.clone(), &stamp(0));
        let again = apply(&ledger, command, &stamp(0)).unwrap();
        assert!(again.is_empty());
        assert_eq!(again.made, made);
    }
}
