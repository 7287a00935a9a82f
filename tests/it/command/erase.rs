//! Erasing all that says who a learner is.

use evenshod::command::{Change, Command, CommandError, Edit, MarkAgain, apply};
use evenshod::records::{
    Kind, LearnerId, LearnerStatus, Ledger, Made, MarkingId, Merge, NAME_ERASED, PersonalText,
    Record, RecordKey, Role, Unit, What, check_seal,
};

use crate::records::sample::{
    after, bundle, comment, jpeg, keep, named, now, photos, rename, seal, stamp, stamp_of, start,
    start_piece, with_draft,
};

fn erase(learner: LearnerId) -> Command {
    Command::EraseLearner { learner, at: now() }
}

/// A piece of Ada Smith's, marked by Wm. Green with comment and photo and by herself, both
/// sealed.
fn sealed_by_both() -> (Ledger, Made, MarkingId) {
    let (mut ledger, made) = with_draft();
    let first = made.marking.unwrap();
    let own = MarkAgain {
        piece: made.piece.unwrap(),
        examiner: String::new(),
        rubric: None,
        unit: Unit::Millimetre,
        role: Role::Own,
        at: now(),
    };
    let add = Edit::AddPhoto {
        photo: photos()[0].clone(),
    };
    let commands = [
        comment(first, None, "Ada rushed it."),
        keep(&jpeg(1)),
        Command::edit(first, add),
        Command::MarkAgain(Box::new(own)),
        seal(first),
    ];
    let mut own = None;
    for (seconds, command) in (1..).zip(commands) {
        let (next, made) = after(&ledger, command, &stamp(seconds));
        ledger = next;
        own = made.marking.or(own);
    }
    let own = own.unwrap();
    (after(&ledger, seal(own), &stamp(9)).0, made, own)
}

fn everything(ledger: &Ledger) -> String {
    let texts = ledger.records().map(|record| record.write().unwrap());
    texts.collect::<Vec<_>>().join("\n")
}

#[test]
fn nothing_says_who_it_was_and_every_seal_stands() {
    let (ledger, made, own) = sealed_by_both();
    let all = everything(&ledger);
    assert!(all.contains("Ada Smith") && all.contains("Ada rushed it."));
    let erased = after(&ledger, erase(made.learner.unwrap()), &stamp(20)).0;
    let all = everything(&erased);
    assert!(!all.contains("Ada"), "{all}");
    assert_eq!(erased.pictures().count(), 0);
    assert!(all.contains("Wm. Green"), "who marked others stays");
    let learner = erased.learner(made.learner.unwrap()).unwrap();
    assert_eq!(
        (learner.name.as_str(), learner.status, learner.erased),
        (NAME_ERASED, LearnerStatus::Left, Some(now()))
    );
    for (id, texts) in [
        (
            made.marking.unwrap(),
            &["learner", "overall", "photo/001"][..],
        ),
        (own, &["learner", "examiner"]),
    ] {
        let marking = erased.marking(id).unwrap();
        let check = check_seal(erased.seal_parts(marking).unwrap()).unwrap();
        assert!(check.intact);
        for text in texts {
            assert_eq!(
                check.personal.get(*text),
                Some(&PersonalText::Erased),
                "{text}"
            );
        }
        let before = ledger.marking(id).unwrap();
        assert_eq!(marking.facts, before.facts);
        assert_eq!(marking.seal, before.seal);
    }
    let again = apply(&erased, erase(learner.id), &stamp(30)).unwrap();
    assert_eq!(again, Change::default());
}

#[test]
fn drafts_stand_in_the_way() {
    let (ledger, made) = with_draft();
    let learner = made.learner.unwrap();
    let refused = apply(&ledger, erase(learner), &stamp(1)).unwrap_err();
    assert_eq!(refused, CommandError::EraseWithDrafts { count: 1 });
    assert_eq!(
        refused.to_string(),
        "1 of this learner’s markings is not sealed; seal or delete it first"
    );
    let two = CommandError::EraseWithDrafts { count: 2 }.to_string();
    assert!(
        two.ends_with("markings are not sealed; seal or delete them first"),
        "{two}"
    );
}

#[test]
fn an_erased_learner_is_not_found_by_name_and_takes_no_new_piece_or_name() {
    let (ledger, made, _) = sealed_by_both();
    let learner = made.learner.unwrap();
    let ledger = after(&ledger, erase(learner), &stamp(20)).0;
    for name in ["Ada Smith", NAME_ERASED] {
        let (with, made) = after(&ledger, start(named(name)), &stamp(21));
        assert_ne!(made.learner, Some(learner), "{name}");
        assert!(
            with.learner(made.learner.unwrap())
                .unwrap()
                .erased
                .is_none()
        );
    }
    let who = evenshod::command::Who::Learner(learner);
    let refused = apply(
        &ledger,
        Command::StartPiece(Box::new(start_piece(who))),
        &stamp(22),
    );
    assert_eq!(refused.unwrap_err(), CommandError::NameErased);
    let refused = apply(&ledger, rename(&ledger, learner, "Ada Smith"), &stamp(23));
    assert_eq!(refused.unwrap_err(), CommandError::NameErased);
}

/// One who marks others too, or has released or explained marks, is no longer only a maker.
#[test]
fn a_maker_who_examines_keeps_the_name_as_examiner() {
    let (ledger, made, _) = sealed_by_both();
    let mut other = start_piece(named("Bea Coe"));
    other.examiner = "Ada Smith".to_owned();
    let (ledger, other) = after(&ledger, Command::StartPiece(Box::new(other)), &stamp(10));
    let ledger = after(&ledger, erase(made.learner.unwrap()), &stamp(20)).0;
    let examiner = ledger.examiner(other.examiner.unwrap()).unwrap();
    assert_eq!(
        (examiner.name.as_str(), examiner.erased),
        ("Ada Smith", None)
    );
}

#[test]
fn what_is_erased_on_one_device_is_erased_on_all_in_either_order() {
    let (ledger, made, _) = sealed_by_both();
    let id = made.learner.unwrap();
    let erased = after(&ledger, erase(id), &stamp(20)).0;
    // The other device has renamed the learner meanwhile, later than the erasing.
    let other = after(&ledger, rename(&ledger, id, "Ada Smyth"), &stamp_of(2, 60)).0;
    let take = |here: &Ledger, file: &Ledger| {
        let merge = Merge::of(here, &bundle(file), &[].into());
        (here.with(&merge.change), merge.notes)
    };
    let (one, notes) = take(&erased, &other);
    assert_eq!(everything(&one), everything(&erased));
    let about = RecordKey::new(Kind::Learner, id);
    let told = |what| move |note: &evenshod::records::Note| note.what == what;
    assert!(
        notes
            .iter()
            .any(|note| note.about == about && told(What::ErasedHere)(note))
    );
    let (two, notes) = take(&other, &erased);
    assert_eq!(everything(&two), everything(&erased));
    assert!(
        notes
            .iter()
            .any(|note| note.about == about && told(What::ErasedInFile)(note))
    );
}

#[test]
fn an_erased_name_is_written_and_read() {
    let (ledger, made, _) = sealed_by_both();
    let ledger = after(&ledger, erase(made.learner.unwrap()), &stamp(20)).0;
    for record in ledger.records() {
        assert_eq!(Record::read(&record.write().unwrap()), Ok(record));
    }
}
