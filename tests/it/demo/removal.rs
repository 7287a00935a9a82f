//! The demo goes without a trace, and leaves what a person made.

use std::collections::BTreeMap;

use evenshod::command::{Command, Edit, MarkAgain, RubricText, StartPiece, Who, apply};
use evenshod::demo::{Invented, STALLS, holds_demo, is_invented, kept_on_removal, remove_demo};
use evenshod::records::{
    Change, Kind, Ledger, MarkingId, Record, Role, SittingKind, Stamp, Unit, check_seal, sha256_hex,
};
use evenshod::rubric::shipped;
use evenshod::store::{Batch, Desk, MemoryStore, Store, StoreError};
use proptest::prelude::*;

use super::sample::{demo, opened_in, opening, today};
use crate::records::sample::{
    NOW_MS, after, comment, device, level, named, rename, rubric, seal, stamp, start_piece,
    with_draft,
};
use crate::store::now;

fn removed(ledger: &Ledger, seconds: u64) -> Ledger {
    after(ledger, remove_demo(), &stamp(seconds)).0
}

/// The first rubric of the demo, for a piece of one's own.
fn shipped_rubric() -> RubricText {
    let digest = sha256_hex(shipped()[0].text.as_bytes());
    let version = demo().rubric(&digest).unwrap();
    RubricText {
        digest,
        rubric_id: version.rubric_id.clone(),
        version: version.version.clone(),
        title: version.title.clone(),
        text: version.text.clone(),
    }
}

#[test]
fn all_of_it_goes_and_it_can_be_opened_again() {
    let left = removed(demo(), 1);
    assert_eq!(left.records().count(), 0);
    assert!(!holds_demo(&left));
    let again = opened_in(&left);
    assert!(again.records().eq(demo().records()));
}

#[test]
fn it_pushes_no_clock() {
    let latest = demo().latest().unwrap();
    assert_eq!(Stamp::next(latest, NOW_MS, device(1)), stamp(0));
    // Not even one of a day before.
    let yesterday = NOW_MS - 86_400_000;
    let next = Stamp::next(latest, yesterday, device(1));
    assert_eq!(next, Stamp::first(yesterday, device(1)));
}

#[test]
fn what_a_person_adds_to_it_stays_with_what_it_names_and_is_listed() {
    let ledger = demo().clone();
    let marked = ledger.pieces().find(|piece| {
        let mut of = ledger.markings_of(piece.id);
        of.all(|one| one.role == Role::First && one.seal.is_some())
    });
    let marked = marked.unwrap().clone();
    let second = MarkAgain {
        piece: marked.id,
        examiner: "Jo Reed".to_owned(),
        rubric: None,
        unit: Unit::Millimetre,
        role: Role::Second,
        at: crate::records::sample::now(),
    };
    let (ledger, second) = after(&ledger, Command::MarkAgain(Box::new(second)), &stamp(1));
    let (ledger, _) = after(&ledger, seal(second.marking.unwrap()), &stamp(2));
    let stalls = ledger.learners().find(|one| one.name == STALLS).unwrap().id;
    let what = StartPiece {
        rubric: shipped_rubric(),
        ..start_piece(Who::Learner(stalls))
    };
    let (ledger, own) = after(&ledger, Command::StartPiece(Box::new(what)), &stamp(3));

    let kept = kept_on_removal(&ledger);
    let left = removed(&ledger, 4);
    let invented: Vec<Record> = left.records().filter(is_invented).collect();
    let keys: Vec<_> = invented.iter().map(Record::key).collect();
    assert_eq!(keys, kept);
    let mut kinds: BTreeMap<Kind, usize> = BTreeMap::new();
    for key in &kept {
        *kinds.entry(key.kind).or_default() += 1;
    }
    let learners = if marked.learner == Some(stalls) { 1 } else { 2 };
    let rubrics = if marked.rubric == shipped_rubric().digest {
        1
    } else {
        2
    };
    assert_eq!(
        kinds,
        BTreeMap::from([
            (Kind::Learner, learners),
            (Kind::Sitting, 1),
            (Kind::Rubric, rubrics),
            (Kind::Piece, 1)
        ])
    );
    for id in [second.marking, own.marking] {
        let marking = left.marking(id.unwrap()).unwrap();
        assert!(!marking.id.is_invented());
        let parts = left.seal_parts(marking).unwrap();
        assert!(marking.seal.is_none() || check_seal(parts).unwrap().intact);
    }
    assert!(!left.piece(own.piece.unwrap()).unwrap().id.is_invented());
    // Once one's own work on it is gone, the rest goes too.
    let delete = Command::DeleteDraft {
        marking: own.marking.unwrap(),
    };
    let (left, _) = after(&left, delete, &stamp(5));
    let left = removed(&left, 6);
    assert!(left.learner(stalls).is_none() || marked.learner == Some(stalls));
}

#[test]
fn a_rubric_that_is_here_before_keeps_its_stamp() {
    let what = StartPiece {
        rubric: shipped_rubric(),
        ..start_piece(named("Ada Smith"))
    };
    let (own, _) = after(
        &Ledger::default(),
        Command::StartPiece(Box::new(what)),
        &stamp(0),
    );
    let ledger = opened_in(&own);
    let digest = shipped_rubric().digest;
    assert_eq!(ledger.rubric(&digest), own.rubric(&digest));
    assert!(removed(&ledger, 1).records().eq(own.records()));
}

/// A tab that stores all that its desk holds, and starts over where it must.
fn store_all(desk: &mut Desk, store: &MemoryStore) {
    while let Some(batch) = desk.take_batch() {
        match now(store.commit(&batch)) {
            Ok(()) => desk.batch_saved(),
            Err(error) => {
                assert!(matches!(error, StoreError::Changed { .. }), "{error}");
                desk.batch_failed(&error);
                let refused = desk.rebase(now(store.load()).unwrap().ledger).unwrap();
                assert_eq!(refused, []);
            }
        }
    }
}

#[test]
fn one_tab_takes_it_out_while_another_edits_a_draft_of_it() {
    let (before, made) = with_draft();
    let own = made.marking.unwrap();
    let store = MemoryStore::default();
    let puts = before.records().collect();
    let change = Change {
        puts,
        ..Change::default()
    };
    now(store.commit(&Batch::of(&Ledger::default(), change))).unwrap();
    let mut one = Desk::new(before.clone());
    one.perform(opening().clone(), stamp(2)).unwrap();
    store_all(&mut one, &store);

    let mut two = Desk::new(now(store.load()).unwrap().ledger);
    let draft = two
        .ledger()
        .drafts()
        .find(|one| one.id.is_invented())
        .unwrap();
    let draft = draft.id;
    two.perform(comment(draft, None, "Tried it."), stamp(3))
        .unwrap();
    two.perform(level(own, "finish", "good"), stamp(4)).unwrap();
    store_all(&mut two, &store);

    one.perform(remove_demo(), stamp(5)).unwrap();
    store_all(&mut one, &store);
    let left = now(store.load()).unwrap().ledger;
    assert!(!holds_demo(&left));
    assert_eq!(left.records().count(), before.records().count());
    assert_eq!(left.marking(own).unwrap().facts.levels["finish"], "good");
}

/// Something that a person does.
#[derive(Debug, Clone)]
enum Act {
    Start(u8, bool),
    AddLearner(u8),
    Edit(usize, u8),
    Seal(usize),
    Delete(usize),
    /// On a draft or a learner of the demo, where there is one.
    Play(u8),
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        3 => (0..4_u8, any::<bool>()).prop_map(|(who, own)| Act::Start(who, own)),
        1 => (0..4_u8).prop_map(Act::AddLearner),
        4 => (0..8_usize, any::<u8>()).prop_map(|(at, value)| Act::Edit(at, value)),
        1 => (0..8_usize).prop_map(Act::Seal),
        1 => (0..8_usize).prop_map(Act::Delete),
        2 => (0..4_u8).prop_map(Act::Play),
    ]
}

/// The command of an own act, by what stands in the ledger without the demo.
fn own_command(act: &Act, own: &Ledger) -> Option<Command> {
    let drafts: Vec<MarkingId> = own.drafts().map(|one| one.id).collect();
    let draft = |at: usize| drafts.get(at % drafts.len().max(1)).copied();
    match act {
        Act::Start(who, is_shipped) => Some(Command::StartPiece(Box::new(StartPiece {
            rubric: if *is_shipped {
                shipped_rubric()
            } else {
                rubric("1")
            },
            day: today(),
            sitting: SittingKind::ALL[usize::from(*who) % 4],
            ..start_piece(named(&format!("Own {who}")))
        }))),
        Act::AddLearner(who) => Some(Command::AddLearner {
            name: format!("Own {who}"),
            given_number: Some("7".to_owned()),
        }),
        Act::Edit(at, value) => Some(Command::edit(
            draft(*at)?,
            Edit::SetTally {
                entry: "heats".to_owned(),
                tally: Some(value.to_string()),
            },
        )),
        Act::Seal(at) => Some(seal(draft(*at)?)),
        Act::Delete(at) => Some(Command::DeleteDraft {
            marking: draft(*at)?,
        }),
        Act::Play(_) => None,
    }
}

/// What a person may do to the demo itself.
fn play(what: u8, both: &Ledger) -> Option<Command> {
    let draft = both.drafts().find(|one| one.id.is_invented())?.id;
    let learner = both.learners().find(|one| one.id.is_invented())?.id;
    Some(match what {
        0 => level(draft, "finish", "good"),
        1 => seal(draft),
        2 => Command::DeleteDraft { marking: draft },
        _ => rename(both, learner, "Somebody Else"),
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// The same acts with and without the demo come to the same own records.
    #[test]
    fn removal_gives_exactly_the_own_records(
        before in prop::collection::vec(act(), 0..12),
        during in prop::collection::vec(act(), 0..12),
        later in prop::collection::vec(act(), 0..6),
    ) {
        let (mut own, mut both) = (Ledger::default(), Ledger::default());
        let (opens, closes) = (before.len(), before.len() + during.len());
        let acts = before.iter().chain(&during).chain(&later);
        for (at, act) in acts.enumerate() {
            if at == opens {
                both = opened_in(&both);
            }
            if at == closes {
                both = removed(&both, 10_000);
            }
            let stamp = stamp(u64::try_from(at).unwrap());
            if let Act::Play(what) = act {
                if let Some(command) = play(*what, &both) {
                    both = after(&both, command, &stamp).0;
                }
            } else if let Some(command) = own_command(act, &own) {
                let here = apply(&own, command.clone(), &stamp);
                let there = apply(&both, command, &stamp);
                prop_assert_eq!(here.is_ok(), there.is_ok());
                if let (Ok(here), Ok(there)) = (here, there) {
                    own = own.with(&here);
                    both = both.with(&there);
                }
            }
        }
        let left = removed(&opened_in(&both), 20_000);
        // A rubric's text that the demo brought first bears the demo's stamp, and goes
        // where no piece is left that is made to it.
        for record in own.records().filter(|record| record.kind() == Kind::Rubric) {
            let key = record.key();
            let is_used = own.pieces().any(|piece| piece.rubric == key.id);
            let (mine, theirs) = (own.rubric(&key.id), left.rubric(&key.id));
            prop_assert!(!is_used || theirs.is_some());
            if let (Some(mine), Some(theirs)) = (mine, theirs) {
                prop_assert_eq!(&mine.text, &theirs.text);
            }
        }
        let not_rubric = |record: &Record| record.kind() != Kind::Rubric;
        let left: Vec<Record> = left.records().filter(not_rubric).collect();
        let own: Vec<Record> = own.records().filter(not_rubric).collect();
        prop_assert_eq!(left, own);
    }
}
