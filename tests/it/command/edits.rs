use std::collections::BTreeMap;

use evenshod::command::{Command, CommandError, Edit, Entered, apply};
use evenshod::marking::heat_log::{Afterwards, HeatLog, Refusal, Stop, Tap, What};
use evenshod::marking::{CutFact, Facts, Lift, PHOTO_GAUGE, Pause, ReadingFact, State, StateFact};
use evenshod::records::{Change, Marking, MarkingId, Moment, Unit};

use crate::records::sample::{
    after, caliper, level, now, outline, seal, stamp, stamp_of, with_draft, with_full_draft,
};

fn entry() -> String {
    "near.width".to_owned()
}

fn pause() -> Pause {
    Pause {
        duration: "4 min".to_owned(),
        reason: "fire went out".to_owned(),
    }
}

fn afterwards() -> Afterwards {
    Afterwards {
        time: Some("52 min".to_owned()),
        ..Afterwards::default()
    }
}

fn cut() -> CutFact {
    CutFact::of("16 in", Unit::Inch64)
}

fn tap(what: What) -> Edit {
    Edit::Tap {
        tap: Tap {
            at: now(),
            run: None,
            what,
        },
    }
}

fn fault() -> Tap {
    Tap {
        at: now(),
        run: None,
        what: What::Fault {
            entry: "bench".to_owned(),
            fault: "no-apron".to_owned(),
        },
    }
}

/// One edit of every sort, all of them changing something in a fresh draft.
fn every_edit() -> Vec<Edit> {
    let faults = Some(vec!["cold-shut".to_owned()]);
    let lift = Lift {
        entry: entry(),
        by: "Chief".to_owned(),
        reason: "burr only".to_owned(),
    };
    let state = StateFact {
        state: State::NotMade,
        reason: None,
        marks: None,
    };
    vec![
        // Refused once anything else is in.
        Edit::SetImpression {
            impression: Some("7".to_owned()),
        },
        Edit::SetInstrument {
            entries: vec!["web".to_owned()],
            instrument: Some("caliper".to_owned()),
            own: Some(caliper()),
        },
        Edit::SetReadings {
            entry: entry(),
            readings: vec![ReadingFact::of("10.5")],
        },
        Edit::TakeReadings {
            readings: BTreeMap::from([("toe".to_owned(), vec![ReadingFact::of("22.5")])]),
            instruments: BTreeMap::from([(PHOTO_GAUGE.to_owned(), caliper())]),
            outline: Some(outline(None)),
        },
        Edit::SetLevel {
            entry: entry(),
            level: Some("good".to_owned()),
        },
        Edit::SetTally {
            entry: entry(),
            tally: Some("3".to_owned()),
        },
        Edit::SetFaults {
            entry: entry(),
            faults: faults.clone(),
        },
        Edit::SetFaultsOnMany {
            faults: [
                ("toe".to_owned(), faults),
                ("heel".to_owned(), Some(vec![])),
            ]
            .into(),
        },
        Edit::SetState {
            entry: entry(),
            state: Some(state),
        },
        Edit::SetComment {
            entry: Some(entry()),
            comment: Some("wide".to_owned()),
        },
        Edit::SetComment {
            entry: None,
            comment: Some("good".to_owned()),
        },
        Edit::SetUnit { unit: Unit::Inch32 },
        Edit::SetPauses {
            pauses: vec![pause()],
        },
        Edit::SetExtraTime {
            extra_time: Some(pause()),
        },
        Edit::SetLifts { lifts: vec![lift] },
        Edit::Tap { tap: fault() },
        Edit::SetHeatPlan { plan: Some(vec![]) },
        Edit::SetAfterwards {
            afterwards: Some(afterwards()),
        },
        Edit::SetCut { cut: Some(cut()) },
        Edit::TakeBack {
            before: Box::new(Entered {
                comments: [("heel".to_owned(), "long".to_owned())].into(),
                ..nothing()
            }),
            after: Box::new(nothing()),
        },
    ]
}

fn nothing() -> Entered {
    Entered {
        facts: Facts::default(),
        comments: BTreeMap::new(),
        overall: None,
        photos: Vec::new(),
        typist: None,
        unit: Unit::Millimetre,
    }
}

/// The draft after `edits`, each a second later.
fn edited(edits: Vec<Edit>) -> Marking {
    let (mut ledger, made) = with_draft();
    let id = made.marking.unwrap();
    for (seconds, edit) in (1..).zip(edits) {
        ledger = after(&ledger, Command::edit(id, edit), &stamp(seconds)).0;
    }
    ledger.marking(id).unwrap().clone()
}

#[test]
fn each_edit_changes_its_field_and_no_other() {
    let mut edits = every_edit();
    edits.pop();
    let marking = edited(edits);
    let facts = &marking.facts;
    assert_eq!(facts.readings[&entry()], [ReadingFact::of("10.5")]);
    assert_eq!(facts.levels[&entry()], "good");
    assert_eq!(facts.tallies[&entry()], "3");
    assert_eq!(facts.faults[&entry()], ["cold-shut"]);
    assert_eq!(facts.faults["toe"], ["cold-shut"]);
    assert!(facts.faults["heel"].is_empty());
    assert_eq!(facts.faults["bench"], ["no-apron"]);
    let log = &facts.heat_log;
    assert_eq!(log.taps, [fault()]);
    assert_eq!(log.plan, Some(vec![]));
    assert_eq!(log.afterwards, Some(afterwards()));
    assert_eq!(facts.cut, Some(cut()));
    assert_eq!(facts.states[&entry()].state, State::NotMade);
    assert_eq!(facts.pauses, [pause()]);
    assert_eq!(facts.extra_time, Some(pause()));
    assert_eq!(facts.lifts.len(), 1);
    assert_eq!(marking.comments[&entry()], "wide");
    assert_eq!(marking.overall.as_deref(), Some("good"));
    assert_eq!(marking.unit, Unit::Inch32);
    assert_eq!(
        facts.readings["web"][0].instrument.as_deref(),
        Some("caliper")
    );
    assert_eq!(facts.instruments["caliper"], caliper());
    assert_eq!(facts.readings["toe"], [ReadingFact::of("22.5")]);
    assert_eq!(facts.instruments[PHOTO_GAUGE], caliper());
    assert_eq!(facts.outlines, [outline(None)]);
    assert_eq!(facts.impression.as_deref(), Some("7"));
    assert_eq!(marking.stamp, stamp(19));
}

#[test]
fn clearing_leaves_nothing_behind() {
    let mut edits = every_edit();
    edits.pop();
    edits.extend([
        Edit::SetInstrument {
            entries: vec!["web".to_owned()],
            instrument: None,
            own: None,
        },
        Edit::SetReadings {
            entry: entry(),
            readings: vec![],
        },
        Edit::SetReadings {
            entry: "toe".to_owned(),
            readings: vec![],
        },
        Edit::SetLevel {
            entry: entry(),
            level: None,
        },
        Edit::SetTally {
            entry: entry(),
            tally: None,
        },
        Edit::SetFaults {
            entry: entry(),
            faults: None,
        },
        Edit::SetFaultsOnMany {
            faults: [("toe".to_owned(), None), ("heel".to_owned(), None)].into(),
        },
        Edit::SetState {
            entry: entry(),
            state: None,
        },
        Edit::SetComment {
            entry: Some(entry()),
            comment: None,
        },
        Edit::SetComment {
            entry: None,
            comment: Some("  ".to_owned()),
        },
        Edit::SetPauses { pauses: vec![] },
        Edit::SetExtraTime { extra_time: None },
        Edit::SetLifts { lifts: vec![] },
        Edit::TakeBackTap { index: 0 },
        Edit::SetHeatPlan { plan: None },
        Edit::SetAfterwards {
            afterwards: Some(Afterwards::default()),
        },
        Edit::SetCut {
            cut: Some(CutFact::of("  ", Unit::Millimetre)),
        },
        Edit::SetImpression { impression: None },
        // The outline goes with the photo that it was measured in.
        Edit::RemovePhoto {
            picture: outline(None).photo,
        },
    ]);
    let marking = edited(edits);
    // An instrument that lies ready is nothing that was seen.
    assert!(marking.facts.is_blank());
    assert_eq!((marking.comments, marking.overall), (BTreeMap::new(), None));
}

#[test]
fn taking_everything_back_leaves_an_empty_sheet() {
    let (_, made) = with_draft();
    let mut edits = every_edit();
    edits.pop();
    let full = edited(edits.clone());
    let fresh = edited(Vec::new());
    edits.push(Edit::TakeBack {
        before: Box::new(Entered::of(&fresh)),
        after: Box::new(Entered::of(&full)),
    });
    let marking = edited(edits);
    assert_eq!(Entered::of(&marking), Entered::of(&fresh));
    assert_eq!(Some(marking.id), made.marking);
}

#[test]
fn taking_back_leaves_what_another_tab_wrote_since() {
    let reading = |entry: &str, text: &str| Edit::SetReadings {
        entry: entry.to_owned(),
        readings: vec![ReadingFact::of(text)],
    };
    let (own, other) = (reading("width", "130"), reading("length", "133"));
    let back = Edit::TakeBack {
        before: Box::new(nothing()),
        after: Box::new(Entered::of(&edited(vec![own.clone()]))),
    };
    let marking = edited(vec![own.clone(), other.clone(), back.clone()]);
    assert_eq!(marking.facts, edited(vec![other]).facts);
    let over = reading("width", "140");
    let marking = edited(vec![own, over.clone(), back]);
    assert_eq!(
        marking.facts,
        edited(vec![over]).facts,
        "a later word stays"
    );
}

#[test]
fn an_edit_that_changes_nothing_writes_nothing() {
    let (ledger, made) = with_draft();
    let id = made.marking.unwrap();
    for edit in every_edit() {
        let command = Command::edit(id, edit);
        let (once, _) = after(&ledger, command.clone(), &stamp(1));
        assert_ne!(once, ledger);
        assert_eq!(apply(&once, command, &stamp(2)), Ok(Change::default()));
    }
}

#[test]
fn a_slow_clock_still_writes_a_later_stamp() {
    let (ledger, made) = with_draft();
    let id = made.marking.unwrap();
    let (ledger, _) = after(&ledger, level(id, "finish", "good"), &stamp(100));
    let (ledger, _) = after(&ledger, level(id, "finish", "fair"), &stamp_of(2, 1));
    let marking = ledger.marking(id).unwrap();
    assert_eq!(marking.facts.levels["finish"], "fair");
    assert!(marking.stamp > stamp(100));
}

#[test]
fn a_sealed_marking_refuses_every_edit_and_says_what_to_do() {
    let (ledger, made) = with_full_draft();
    let id = made.marking.unwrap();
    let (sealed, _) = after(&ledger, seal(id), &stamp(50));
    let edits = every_edit().into_iter();
    let commands = edits
        .map(|edit| Command::edit(id, edit))
        .chain([seal(id), Command::DeleteDraft { marking: id }]);
    for command in commands {
        let error = apply(&sealed, command, &stamp(51)).unwrap_err();
        assert_eq!(error, CommandError::Sealed { at: now() });
        assert_eq!(
            error.to_string(),
            "this marking was sealed on 25 Nov 2026 11:42 and no longer changes; to correct \
             it, open its sheet and choose Correct this marking"
        );
    }
}

#[test]
fn an_unknown_marking_refuses_every_command() {
    let (ledger, _) = with_draft();
    let id = MarkingId::made_by(&stamp(99), 4);
    let edits = every_edit().into_iter();
    let commands = edits
        .map(|edit| Command::edit(id, edit))
        .chain([seal(id), Command::DeleteDraft { marking: id }]);
    for command in commands {
        let error = apply(&ledger, command, &stamp(1)).unwrap_err();
        assert!(matches!(error, CommandError::Missing { .. }));
        assert!(error.to_string().contains(&id.to_string()));
    }
}

#[test]
fn a_seal_relies_on_all_that_it_covers() {
    let (ledger, made) = with_full_draft();
    let change = apply(&ledger, seal(made.marking.unwrap()), &stamp(50)).unwrap();
    let mut covered: Vec<_> = change.relies_on.iter().map(|key| key.kind).collect();
    covered.sort();
    covered.extend(change.puts.iter().map(evenshod::records::Record::kind));
    let others: Vec<_> = ledger.records().map(|record| record.kind()).collect();
    assert_eq!(covered, others, "there is one record of each kind");
}

/// Undo gives back who typed, unless somebody else has written there since.
#[test]
fn who_types_it_in_can_be_taken_back() {
    let typist = |name: &str| Edit::SetTypist {
        name: Some(name.to_owned()),
    };
    let with = |name: &str| Entered {
        typist: Some(name.to_owned()),
        ..nothing()
    };
    let take_back = || Edit::TakeBack {
        before: Box::new(nothing()),
        after: Box::new(with("Bea")),
    };
    assert_eq!(edited(vec![typist("Bea"), take_back()]).typist, None);
    let other = edited(vec![typist("Bea"), typist("Cy"), take_back()]);
    assert_eq!(other.typist.as_deref(), Some("Cy"));
}

#[test]
fn the_last_tap_is_taken_back_with_its_fault() {
    let back = |index| Edit::TakeBackTap { index };
    let fault = || Edit::Tap { tap: fault() };
    let before = edited(vec![tap(What::Start)]).facts;
    assert_eq!(
        edited(vec![tap(What::Start), fault(), back(1)]).facts,
        before
    );
    // A fault that was noted before stays.
    let noted = || Edit::SetFaults {
        entry: "bench".to_owned(),
        faults: Some(vec!["no-apron".to_owned()]),
    };
    let facts = edited(vec![noted(), fault(), back(0)]).facts;
    assert_eq!(facts, edited(vec![noted()]).facts);
    let none = edited(vec![tap(What::Fire), back(0)]).facts;
    assert_eq!(none.heat_log, HeatLog::default());
}

#[test]
fn a_tap_that_is_not_the_last_is_not_taken_back() {
    let (ledger, made) = with_draft();
    let id = made.marking.unwrap();
    let (ledger, _) = after(&ledger, Command::edit(id, tap(What::Start)), &stamp(1));
    let (ledger, _) = after(&ledger, Command::edit(id, tap(What::Fire)), &stamp_of(2, 2));
    for index in [0, 2, usize::MAX] {
        let command = Command::edit(id, Edit::TakeBackTap { index });
        let refused = apply(&ledger, command, &stamp(3));
        assert_eq!(refused.unwrap_err(), CommandError::TapNotLast);
    }
}

#[test]
fn taps_that_make_no_sense_are_refused() {
    let (ledger, made) = with_draft();
    let id = made.marking.unwrap();
    let stop = What::Stopped {
        how: Stop::StoppedForSafety,
        reason: String::new(),
    };
    let (ledger, _) = after(&ledger, Command::edit(id, tap(What::Fire)), &stamp(1));
    let (ended, _) = after(&ledger, Command::edit(id, tap(stop)), &stamp(2));
    for (ledger, what, why) in [
        (&ledger, What::Resume, Refusal::NotPaused),
        (&ledger, What::Heat { weld: false }, Refusal::InFire),
        (&ended, What::Anvil { weld: false }, Refusal::Ended),
    ] {
        let refused = apply(ledger, Command::edit(id, tap(what)), &stamp(3));
        assert_eq!(refused.unwrap_err(), CommandError::TapRefused(why));
    }
    // A clock that was put back refuses nothing.
    let earlier = Tap {
        at: Moment::new(now().utc_ms() - 3_600_000, 0),
        run: None,
        what: What::Anvil { weld: false },
    };
    let (ledger, _) = after(
        &ledger,
        Command::edit(id, Edit::Tap { tap: earlier }),
        &stamp(3),
    );
    assert_eq!(ledger.marking(id).unwrap().facts.heat_log.taps.len(), 2);
}
