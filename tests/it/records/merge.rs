use std::collections::BTreeSet;
use std::sync::Arc;

use evenshod::command::{Command, Edit, Made, Who, apply};
use evenshod::records::{
    Bundle, Change, Counts, Ended, Kind, Ledger, MarkingId, Merge, Moment, NAME_ERASED, Record,
    RecordKey, Stamp, What,
};
use proptest::prelude::*;

use super::sample::{
    after, begin_study, bundle, caliper, comment, erase, feedback, full_ledger, level, milestone,
    named, now, rename, seal, set_instrument, set_milestone, stamp, stamp_of, start, start_piece,
    type_reading, with_draft, with_exam_draft, with_full_draft,
};

fn merge(here: &Ledger, there: &Ledger) -> Merge {
    // Through the file, as it goes between devices.
    let text = bundle(there).write().unwrap();
    let there = Bundle::read(text.as_bytes()).unwrap();
    Merge::of(here, &there, &BTreeSet::new())
}

fn taken(here: &Ledger, there: &Ledger) -> Ledger {
    here.with(&merge(here, there).change)
}

fn told(merge: &Merge) -> Vec<What> {
    merge.notes.iter().map(|note| note.what).collect()
}

fn counts(merge: &Merge, kind: Kind) -> Counts {
    merge.counts.get(&kind).copied().unwrap_or_default()
}

#[test]
fn an_empty_ledger_takes_everything_and_the_same_file_again_changes_nothing() {
    let full = full_ledger();
    let first = merge(&Ledger::default(), &full);
    assert_eq!(first.changes(), full.records().count());
    assert_eq!(first.notes, []);
    let restored = Ledger::default().with(&first.change);
    assert_eq!(restored, full);
    let again = merge(&restored, &full);
    assert_eq!(again.changes(), 0);
    assert!(again.change.is_empty());
    assert_eq!(again.notes, []);
    let markings = counts(&again, Kind::Marking);
    assert_eq!((markings.same, markings.new), (2, 0));
}

#[test]
fn the_later_stamp_wins_and_a_replaced_draft_is_told() {
    let (old, made) = with_draft();
    let marking = made.marking.unwrap();
    let new = after(&old, level(marking, "finish", "good"), &stamp_of(2, 9)).0;
    let newer = merge(&old, &new);
    assert_eq!(counts(&newer, Kind::Marking).newer, 1);
    assert_eq!(told(&newer), [What::DraftReplaced]);
    assert_eq!(old.with(&newer.change), new);
    let older = merge(&new, &old);
    assert_eq!(counts(&older, Kind::Marking).older, 1);
    assert_eq!(told(&older), []);
    assert!(older.change.is_empty());
}

#[test]
fn a_sealed_marking_beats_later_edits_of_its_draft_and_is_told_on_both_sides() {
    let (draft, made) = with_full_draft();
    let marking = made.marking.unwrap();
    let sealed = after(&draft, seal(marking), &stamp_of(2, 50)).0;
    let edited = after(&draft, level(marking, "finish", "fair"), &stamp_of(3, 90)).0;
    let ended = Command::SetEnded {
        piece: made.piece.unwrap(),
        ended: Some(Ended::Withdrawn),
    };
    let edited = after(&edited, ended, &stamp_of(3, 91)).0;

    let stays = merge(&sealed, &edited);
    assert!(stays.change.is_empty());
    assert_eq!(told(&stays), [What::SealedHere, What::SealedHere]);
    let gives_way = merge(&edited, &sealed);
    assert_eq!(told(&gives_way), [What::SealedInFile, What::SealedInFile]);
    let merged = edited.with(&gives_way.change);
    assert_eq!(
        merged.records().collect::<Vec<_>>(),
        sealed.records().collect::<Vec<_>>()
    );
    let parts = merged.seal_parts(merged.marking(marking).unwrap()).unwrap();
    assert!(evenshod::records::check_seal(parts).unwrap().intact);
    // The seal would not stand with another piece: it must not be sealed meanwhile.
    let key = RecordKey::new(Kind::Marking, marking);
    assert_eq!(gives_way.change.relies_on, [key]);
}

#[test]
fn what_is_sealed_on_both_sides_and_differs_is_never_overwritten() {
    let (draft, made) = with_full_draft();
    let marking = made.marking.unwrap();
    let seal_after = |ended, tab, seconds| {
        let piece = made.piece.unwrap();
        let set = Command::SetEnded { piece, ended };
        let ledger = after(&draft, set, &stamp_of(tab, seconds)).0;
        after(&ledger, seal(marking), &stamp_of(tab, seconds + 1)).0
    };
    let here = seal_after(Some(Ended::Finished), 2, 50);
    let there = seal_after(Some(Ended::UnfinishedAtTime), 3, 70);
    for (one, other) in [(&here, &there), (&there, &here)] {
        let found = merge(one, other);
        assert!(found.change.is_empty());
        assert_eq!(told(&found), [What::SealedPiece, What::SealedTwice]);
        assert_eq!(counts(&found, Kind::Marking).left, 1);
    }
}

#[test]
fn what_is_erased_on_one_device_is_erased_on_both_and_told() {
    let (draft, made) = with_full_draft();
    let marking = made.marking.unwrap();
    let sealed = after(&draft, seal(marking), &stamp_of(2, 50)).0;
    let erased = after(&sealed, erase(marking), &stamp_of(3, 60)).0;
    let comes = merge(&sealed, &erased);
    assert_eq!(told(&comes), [What::ErasedInFile]);
    assert_eq!(sealed.with(&comes.change), erased);
    let stays = merge(&erased, &sealed);
    assert_eq!(told(&stays), [What::ErasedHere]);
    assert!(stays.change.is_empty());
    // Erased on both, each by itself.
    let also = after(&sealed, erase(marking), &stamp_of(4, 70)).0;
    assert_eq!(taken(&erased, &also), also);
    assert_eq!(taken(&also, &erased), also);
    // A comment that differs without having been erased was altered.
    let mut altered = sealed.marking(marking).unwrap().clone();
    altered.overall = Some("Bad shoe.".to_owned());
    let altered = sealed.with(&Change {
        puts: vec![altered.into()],
        ..Change::default()
    });
    assert_eq!(told(&merge(&sealed, &altered)), [What::SealedTwice]);
}

#[test]
fn a_rubric_text_is_never_overwritten_and_one_text_is_alike_whenever_it_was_stored() {
    let (here, _) = after(&Ledger::default(), start(named("Ada Smith")), &stamp(0));
    let (later, _) = after(&Ledger::default(), start(named("Bea Coe")), &stamp_of(2, 5));
    let found = merge(&here, &later);
    assert_eq!(counts(&found, Kind::Rubric).same, 1);
    let one = taken(&here, &later);
    let other = taken(&later, &here);
    assert!(one.records().eq(other.records()));

    let Some(Record::Rubric(mut rubric)) =
        here.records().find(|record| record.kind() == Kind::Rubric)
    else {
        panic!("a piece brings its rubric");
    };
    Arc::make_mut(&mut rubric).text.push('\n');
    Arc::make_mut(&mut rubric).stamp = stamp(900);
    let changed = here.with(&Change {
        puts: vec![Record::Rubric(rubric)],
        ..Change::default()
    });
    let found = merge(&here, &changed);
    assert_eq!(told(&found), [What::RubricDiffers]);
    assert!(found.change.is_empty());
}

#[test]
fn one_name_and_one_ticket_of_two_devices_are_told() {
    let ticket = |tab| {
        let who = Who::Ticket {
            ticket: "17".to_owned(),
            learner: None,
        };
        let ledger = after(&Ledger::default(), start(who), &stamp_of(tab, 0)).0;
        after(&ledger, start(named("Ada Smith")), &stamp_of(tab, 1)).0
    };
    let (here, there) = (ticket(1), ticket(2));
    let found = merge(&here, &there);
    let [
        What::SameName { here: learner },
        What::SameTicket { here: piece },
    ] = told(&found)[..]
    else {
        panic!("{found:?}");
    };
    assert!(here.learner(learner).is_some());
    assert!(here.piece(piece).is_some());
    let merged = here.with(&found.change);
    assert_eq!(merged.learners().count(), 2, "nothing is dropped");
    assert_eq!(told(&merge(&merged, &there)), []);
}

#[test]
fn what_cannot_be_read_here_is_left_and_told() {
    let full = full_ledger();
    let key = full.records().next().unwrap().key();
    let leave = BTreeSet::from([key.clone()]);
    let found = Merge::of(&Ledger::default(), &bundle(&full), &leave);
    assert_eq!(found.notes[0].about, key);
    assert_eq!(found.notes[0].what, What::UnreadableHere);
    assert_eq!(found.changes(), full.records().count() - 1);
    assert!(!found.change.puts.iter().any(|record| record.key() == key));
}

#[test]
fn the_command_makes_the_change_and_makes_it_once() {
    let full = full_ledger();
    let command = Command::TakeOver {
        bundle: Arc::new(bundle(&full)),
        leave: BTreeSet::new(),
    };
    let (ledger, _) = after(&Ledger::default(), command.clone(), &stamp(0));
    assert_eq!(ledger, full);
    assert!(apply(&full, command, &stamp(0)).unwrap().is_empty());
}

/// One thing that a device does to a ledger that it has from another.
#[derive(Debug, Clone)]
enum Act {
    Level(u8),
    Overall(u8),
    Seal,
    Erase,
    End(u8),
    Rename(u8),
    Add(u8),
    Measure(u8),
    Start(u8),
    Delete,
    Release,
    HoldBack,
    Feedback,
    TakeBackFeedback,
    Note(u8),
    NoteAnew(u8),
    TakeNoteBack,
    Study,
    Reading(u8),
    EraseLearner,
}

fn acts() -> impl Strategy<Value = Vec<(Act, u8)>> {
    let act = prop_oneof![
        3 => any::<u8>().prop_map(Act::Level),
        1 => any::<u8>().prop_map(Act::Overall),
        2 => Just(Act::Seal),
        1 => Just(Act::Erase),
        2 => any::<u8>().prop_map(Act::End),
        1 => any::<u8>().prop_map(Act::Rename),
        1 => any::<u8>().prop_map(Act::Add),
        2 => any::<u8>().prop_map(Act::Measure),
        2 => any::<u8>().prop_map(Act::Start),
        1 => Just(Act::Delete),
        2 => Just(Act::Release),
        1 => Just(Act::HoldBack),
        2 => Just(Act::Feedback),
        1 => Just(Act::TakeBackFeedback),
        2 => any::<u8>().prop_map(Act::Note),
        2 => any::<u8>().prop_map(Act::NoteAnew),
        1 => Just(Act::TakeNoteBack),
        1 => Just(Act::Study),
        2 => any::<u8>().prop_map(Act::Reading),
        2 => Just(Act::EraseLearner),
    ];
    prop::collection::vec((act, any::<u8>()), 0..12)
}

/// What both devices have to begin with: a sealed marking, a milestone of its learner and a
/// study.
fn shared() -> Ledger {
    after(&with_noted().0, begin_study(), &stamp(52)).0
}

/// The ledger of a device after these acts; acts that do not apply are left out.
fn device(tab: u8, from: &Ledger, acts: &[(Act, u8)]) -> Ledger {
    let mut ledger = from.clone();
    for (act, seconds) in acts {
        // Clocks of devices differ: now and then one is behind what it has seen.
        let mut stamp = stamp_of(tab, u64::from(*seconds));
        if let Some(latest) = ledger.latest()
            && *latest >= stamp
        {
            stamp = Stamp::next(latest, stamp.time, stamp.device.clone());
        }
        let marking = ledger.markings().last().map(|marking| marking.id);
        let marking = marking.unwrap_or(MarkingId::LEAST);
        let learner = ledger.learners().next().map(|learner| learner.id);
        let piece = ledger.marking(marking).map(|marking| marking.piece);
        let note = ledger.milestones().next().map(|note| note.id);
        let sitting = ledger.sittings().next().unwrap().id;
        let (by, at) = (ledger.examiners().next().unwrap().id, now());
        let command = match act {
            Act::Level(level_number) => level(marking, "finish", &level_number.to_string()),
            Act::Overall(text) => comment(marking, None, &text.to_string()),
            Act::Seal => seal(marking),
            Act::Erase => erase(marking),
            Act::Delete => Command::DeleteDraft { marking },
            Act::End(how) => {
                let Some(piece) = piece else { continue };
                let ended = Some(Ended::ALL[usize::from(*how) % 6]);
                Command::SetEnded { piece, ended }
            }
            Act::Rename(name) => {
                let Some(learner) = learner else { continue };
                rename(&ledger, learner, &format!("Ada {name}"))
            }
            Act::Add(name) => Command::AddLearner {
                name: format!("Bea {}", name % 3),
                given_number: None,
            },
            Act::Measure(tenths) => {
                let mut fact = caliper();
                fact.half_width = Some(format!("0.{} mm", tenths % 4 + 1));
                set_instrument(&ledger, "caliper", fact)
            }
            Act::Start(version) => {
                let mut what = start_piece(named("Ada Smith"));
                what.rubric = super::sample::rubric(&(version % 2).to_string());
                Command::StartPiece(Box::new(what))
            }
            Act::Study => begin_study(),
            Act::Reading(number) => {
                let Some(study) = ledger.studies().last() else {
                    continue;
                };
                type_reading(study, &number.to_string())
            }
            Act::Note(text) => {
                let Some(learner) = learner else { continue };
                milestone(learner, &format!("Weld {text}"))
            }
            Act::NoteAnew(text) => {
                let Some(note) = note else { continue };
                set_milestone(&ledger, note, |note| note.text = format!("Yard {text}"))
            }
            Act::TakeNoteBack => {
                let Some(note) = note else { continue };
                set_milestone(&ledger, note, |note| note.taken_back = true)
            }
            Act::EraseLearner => {
                let Some(learner) = learner else { continue };
                Command::EraseLearner {
                    learner,
                    // Devices do it at different moments.
                    at: Moment::new(stamp.time.try_into().unwrap(), 0),
                }
            }
            Act::Release => Command::Release { sitting, by, at },
            Act::HoldBack => Command::HoldBack { sitting, by, at },
            Act::Feedback | Act::TakeBackFeedback => {
                let Some(piece) = piece else { continue };
                if matches!(act, Act::Feedback) {
                    Command::GiveFeedback { piece, by, at }
                } else {
                    Command::TakeBackFeedback { piece }
                }
            }
        };
        if let Ok(change) = apply(&ledger, command, &stamp) {
            ledger = ledger.with(&change);
        }
    }
    ledger
}

/// Keys that merging told of as differing: their records stay each where they are.
fn left(merges: &[Merge]) -> BTreeSet<RecordKey> {
    let notes = merges.iter().flat_map(|merge| &merge.notes);
    notes
        .filter(|note| matches!(note.what, What::SealedTwice | What::SealedPiece))
        .map(|note| note.about.clone())
        .collect()
}

fn records(ledger: &Ledger, without: &BTreeSet<RecordKey>) -> Vec<Record> {
    ledger
        .records()
        .filter(|record| !without.contains(&record.key()))
        .collect()
}

#[test]
fn what_is_done_after_the_seal_goes_between_devices() {
    let (draft, made) = with_exam_draft();
    let sealed = after(&draft, seal(made.marking.unwrap()), &stamp_of(2, 50)).0;
    let sitting = sealed.sittings().next().unwrap().id;
    let (by, at) = (made.examiner.unwrap(), now());
    let release = Command::Release { sitting, by, at };
    let released = after(&sealed, release, &stamp_of(2, 60)).0;
    let told = after(&released, feedback(&made), &stamp_of(2, 61)).0;
    // A device that still has the draft, and one that has the seal.
    for here in [&draft, &sealed] {
        assert_eq!(
            taken(here, &told).records().collect::<Vec<_>>(),
            told.records().collect::<Vec<_>>()
        );
    }
    let back = Command::HoldBack { sitting, by, at };
    let back = after(&told, back, &stamp_of(3, 70)).0;
    let merged = taken(&told, &back);
    assert!(
        merged.sitting(sitting).unwrap().is_held(),
        "the later word counts"
    );
    assert_eq!(merged, taken(&back, &told));
}

/// [`with_exam_draft`], sealed, with a milestone of its learner.
fn with_noted() -> (Ledger, Made) {
    let (draft, made) = with_exam_draft();
    let sealed = after(&draft, seal(made.marking.unwrap()), &stamp(50)).0;
    let note = milestone(made.learner.unwrap(), "Began at the new yard");
    let (noted, note) = after(&sealed, note, &stamp(51));
    let milestone = note.milestone;
    (noted, Made { milestone, ..made })
}

/// A milestone that another device adds or writes after the learner was erased here.
#[test]
fn what_is_noted_later_of_an_erased_learner_says_nothing() {
    let (from, made) = with_noted();
    let (learner, at) = (made.learner.unwrap(), now());
    let erased = after(&from, Command::EraseLearner { learner, at }, &stamp(60)).0;
    let note = made.milestone.unwrap();
    let anew = set_milestone(&from, note, |note| note.text = "At Ada’s yard".to_owned());
    let other = after(&from, anew, &stamp_of(2, 70)).0;
    let other = after(&other, milestone(learner, "Ada’s wrist"), &stamp_of(2, 71)).0;
    let found = merge(&erased, &other);
    let kept = erased.with(&found.change);
    assert_eq!(kept.milestones().count(), 2);
    for note in kept.milestones() {
        assert_eq!((&*note.text, note.erased), ("", Some(at)));
    }
    let of_notes = found
        .notes
        .iter()
        .filter(|note| note.about.kind == Kind::Milestone);
    assert!(
        of_notes
            .map(|note| note.what)
            .eq([What::ErasedHere, What::ErasedHere])
    );
    let back = taken(&other, &erased);
    assert!(back.records().eq(kept.records()), "in either order");
    assert!(merge(&kept, &other).change.is_empty(), "and once for all");
}

proptest! {
    #[test]
    fn merging_is_idempotent(one in acts(), two in acts()) {
        let from = shared();
        let (one, two) = (device(2, &from, &one), device(3, &from, &two));
        prop_assert!(merge(&one, &one).change.is_empty());
        let merged = taken(&one, &two);
        let again = merge(&merged, &two);
        prop_assert!(again.change.is_empty(), "{again:?}");
        prop_assert_eq!(again.changes(), 0);
        let back = merge(&merged, &one);
        prop_assert!(back.change.is_empty(), "{back:?}");
    }

    #[test]
    fn merging_is_commutative(one in acts(), two in acts()) {
        let from = shared();
        let (one, two) = (device(2, &from, &one), device(3, &from, &two));
        let there = merge(&one, &two);
        let back = merge(&two, &one);
        let differ = left(std::slice::from_ref(&there));
        prop_assert_eq!(&differ, &left(std::slice::from_ref(&back)));
        prop_assert_eq!(
            records(&one.with(&there.change), &differ),
            records(&two.with(&back.change), &differ)
        );
    }

    #[test]
    fn merging_is_associative(one in acts(), two in acts(), three in acts()) {
        let from = shared();
        let one = device(2, &from, &one);
        let two = device(3, &from, &two);
        let three = device(4, &from, &three);
        let differ = left(&[merge(&one, &two), merge(&two, &three), merge(&one, &three)]);
        let left_first = taken(&taken(&one, &two), &three);
        let right_first = taken(&one, &taken(&two, &three));
        prop_assert_eq!(records(&left_first, &differ), records(&right_first, &differ));
    }

    /// Whatever is read, a sealed marking that is here stays as it is but for what was
    /// erased, and so does what its seal covers.
    #[test]
    fn no_file_unsettles_a_seal(one in acts(), two in acts()) {
        let from = shared();
        let (one, two) = (device(2, &from, &one), device(3, &from, &two));
        let merged = taken(&one, &two);
        for marking in one.markings().filter(|marking| marking.seal.is_some()) {
            let kept = merged.marking(marking.id).unwrap();
            if kept.erased == marking.erased {
                let mut as_here = kept.clone();
                if kept.erased.is_some() {
                    // Of two that were erased at one moment the later stamp counts.
                    as_here.stamp.clone_from(&marking.stamp);
                }
                prop_assert_eq!(&as_here, marking);
            }
            prop_assert!(marking.erased.is_none() || kept.erased.is_some());
            prop_assert_eq!(&kept.facts, &marking.facts);
            prop_assert_eq!(&kept.seal, &marking.seal);
            let Some(parts) = merged.seal_parts(kept) else { continue };
            prop_assert!(evenshod::records::check_seal(parts).unwrap().intact);
        }
    }

    /// Milestones of an erased learner say nothing, wherever they come from.
    #[test]
    fn no_file_brings_back_what_a_milestone_said(one in acts(), two in acts()) {
        let from = shared();
        let (one, two) = (device(2, &from, &one), device(3, &from, &two));
        let merged = taken(&one, &two);
        for note in merged.milestones() {
            let gone = merged.learner(note.learner).unwrap().erased;
            prop_assert_eq!(note.erased, gone);
            prop_assert_eq!(note.text.is_empty(), gone.is_some());
        }
    }

    #[test]
    fn nothing_is_lost_or_made_up(one in acts(), two in acts()) {
        let from = shared();
        let (one, two) = (device(2, &from, &one), device(3, &from, &two));
        let merged = taken(&one, &two);
        for record in merged.records() {
            let key = record.key();
            let is_known = [&one, &two].iter().any(|ledger| {
                ledger.get(&key).is_some_and(|own| own == record)
            });
            let is_erased = matches!(&record, Record::Milestone(note) if note.erased.is_some());
            prop_assert!(is_known || is_erased, "{key}");
        }
        for record in one.records().chain(two.records()) {
            prop_assert!(merged.get(&record.key()).is_some());
        }
    }
}

/// As for learners: a name that is erased on one device does not come back from another.
#[test]
fn a_name_erased_from_a_study_stays_erased() {
    let (ledger, made) = with_draft();
    let ledger = after(&ledger, seal(made.marking.unwrap()), &stamp(2)).0;
    let ledger = after(&ledger, begin_study(), &stamp(3)).0;
    let study = ledger.studies().next().unwrap();
    let later = after(&ledger, type_reading(study, "10.1"), &stamp_of(2, 90)).0;
    let (learner, at) = (made.learner.unwrap(), now());
    let erase = Command::EraseLearner { learner, at };
    let erased = after(&ledger, erase, &stamp(5)).0;
    for merged in [taken(&erased, &later), taken(&later, &erased)] {
        let study = merged.study(study.id).unwrap();
        assert_eq!(study.facts.people[0].name, NAME_ERASED);
        assert_eq!(study.facts.people[1].name, "B");
        assert_eq!(study.erased, Some(at));
    }
    let notes = merge(&erased, &later).notes;
    let about = |note: &&evenshod::records::Note| note.about.kind == Kind::Study;
    assert_eq!(notes.iter().find(about).unwrap().what, What::ErasedHere);
}

#[test]
fn edits_go_on_after_the_latest_stamp_of_a_file() {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let ahead = after(
        &ledger,
        level(marking, "finish", "good"),
        &stamp_of(2, 9_000),
    )
    .0;
    let merged = taken(&ledger, &ahead);
    let edit = Command::edit(
        marking,
        Edit::SetLevel {
            entry: "finish".to_owned(),
            level: Some("fair".to_owned()),
        },
    );
    let next = after(&merged, edit, &stamp(20)).0;
    assert!(next.marking(marking).unwrap().stamp > ahead.marking(marking).unwrap().stamp);
    assert_eq!(counts(&merge(&next, &ahead), Kind::Marking).older, 1);
}
