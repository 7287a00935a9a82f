use evenshod::command::{Command, CommandError, MilestoneDetails, apply};
use evenshod::records::{Change, Day, Kind, LearnerId, Ledger, MilestoneId, RecordKey};

use crate::records::sample::{
    after, day, milestone, now, seal, set_milestone, stamp, stamp_of, with_draft,
};

const WELD: &str = "First weld that held";

/// A learner with a sealed piece and a milestone.
fn noted() -> (Ledger, LearnerId, MilestoneId) {
    let (ledger, made) = with_draft();
    let learner = made.learner.unwrap();
    let ledger = after(&ledger, seal(made.marking.unwrap()), &stamp(1)).0;
    let (ledger, made) = after(&ledger, milestone(learner, WELD), &stamp(2));
    (ledger, learner, made.milestone.unwrap())
}

fn details(ledger: &Ledger, id: MilestoneId) -> MilestoneDetails {
    MilestoneDetails::of(ledger.milestone(id).unwrap())
}

#[test]
fn a_milestone_is_one_tidy_line_of_a_known_learner() {
    let (ledger, learner, _) = noted();
    let (with, made) = after(&ledger, milestone(learner, " Began\n at  it "), &stamp(3));
    let id = made.milestone.unwrap();
    let note = with.milestone(id).unwrap();
    assert_eq!((&*note.text, note.day), ("Began at it", day()));
    assert!(note.is_shown());
    assert_eq!(with.milestones_of(learner).count(), 2);
    // The same command once more, as after a restart of the desk.
    let again = apply(&with, milestone(learner, "Began at it"), &stamp(3)).unwrap();
    assert!(again.is_empty());
    assert_eq!(again.made.milestone, Some(id));

    let refused = |text: &str| apply(&ledger, milestone(learner, text), &stamp(3)).unwrap_err();
    assert_eq!(refused(" \n "), CommandError::MilestoneEmpty);
    // Characters count, not bytes.
    assert!(apply(&ledger, milestone(learner, &"é".repeat(200)), &stamp(3)).is_ok());
    let too_long = CommandError::MilestoneTooLong { chars: 201 };
    assert_eq!(refused(&"é".repeat(201)), too_long);
    assert_eq!(
        too_long.to_string(),
        "a milestone is one line of at most 200 characters, and this has 201; shorten it"
    );
    let nobody = milestone(LearnerId::LEAST, WELD);
    let key = RecordKey::new(Kind::Learner, LearnerId::LEAST);
    let refused = apply(&ledger, nobody, &stamp(3)).unwrap_err();
    assert_eq!(refused, CommandError::Missing { key });
}

#[test]
fn what_two_tabs_write_of_one_is_kept_field_by_field() {
    let (ledger, _, id) = noted();
    let text = set_milestone(&ledger, id, |note| {
        note.text = "Second weld that held".to_owned();
    });
    let other = Day::new(2026, 11, 20).unwrap();
    let moved = set_milestone(&ledger, id, |note| note.day = other);
    let both = after(&ledger, text, &stamp(5)).0;
    let both = after(&both, moved, &stamp_of(2, 4)).0;
    let wanted = MilestoneDetails {
        day: other,
        text: "Second weld that held".to_owned(),
        taken_back: false,
    };
    assert_eq!(details(&both, id), wanted);
    assert!(both.milestone(id).unwrap().stamp > stamp(5));
    let same = set_milestone(&both, id, |_| {});
    assert_eq!(apply(&both, same, &stamp(6)).unwrap(), Change::default());
    let none = set_milestone(&both, id, |note| note.text = String::new());
    let refused = apply(&both, none, &stamp(6)).unwrap_err();
    assert_eq!(refused, CommandError::MilestoneEmpty);
}

#[test]
fn one_that_is_taken_back_is_not_shown_and_undo_shows_it_again() {
    let (ledger, _, id) = noted();
    let back = set_milestone(&ledger, id, |note| note.taken_back = true);
    let taken = after(&ledger, back, &stamp(5)).0;
    assert!(!taken.milestone(id).unwrap().is_shown());
    let undo = set_milestone(&taken, id, |note| note.taken_back = false);
    let undone = after(&taken, undo, &stamp(6)).0;
    assert!(undone.milestone(id).unwrap().is_shown());
    assert_eq!(details(&undone, id), details(&ledger, id));
}

#[test]
fn erasing_a_learner_takes_the_words_of_every_milestone() {
    let (ledger, learner, first) = noted();
    let back = set_milestone(&ledger, first, |note| note.taken_back = true);
    let ledger = after(&ledger, back, &stamp(5)).0;
    let ledger = after(&ledger, milestone(learner, "Ada’s wrist"), &stamp(6)).0;
    let erase = Command::EraseLearner { learner, at: now() };
    let erased = after(&ledger, erase, &stamp(7)).0;
    assert_eq!(erased.milestones().count(), 2);
    for note in erased.milestones() {
        assert_eq!((&*note.text, note.erased), ("", Some(now())));
        assert!(!note.is_shown());
        assert!(note.stamp > ledger.milestone(note.id).unwrap().stamp);
    }
    let refused = apply(&erased, milestone(learner, WELD), &stamp(8)).unwrap_err();
    assert_eq!(refused, CommandError::NameErased);
    let undo = set_milestone(&erased, first, |note| {
        note.text = WELD.to_owned();
        note.taken_back = false;
    });
    let refused = apply(&erased, undo, &stamp(8)).unwrap_err();
    assert_eq!(refused, CommandError::NameErased);
}
