//! Instrument studies as they are typed, by one and by two.

use evenshod::command::{Change, Command, apply};
use evenshod::records::{Ledger, Place, Stamp, Study, StudyFacts, StudyId, StudyPart, StudyPerson};

use crate::records::sample::{after, begin_study, stamp, stamp_of, study, type_reading};

fn begun() -> (Ledger, StudyId) {
    let (ledger, made) = after(&Ledger::default(), begin_study(), &stamp(0));
    (ledger, made.study.unwrap())
}

fn set(from: &Ledger, id: StudyId, change: impl Fn(&mut StudyFacts)) -> Command {
    let before = Box::new(from.study(id).unwrap().facts.clone());
    let mut after = before.clone();
    change(&mut after);
    Command::SetStudy {
        study: id,
        before,
        after,
    }
}

type Take = fn(&mut StudyFacts);

fn part(name: &str) -> StudyPart {
    StudyPart {
        name: name.to_owned(),
        ..StudyPart::default()
    }
}

fn place(part: u32, person: u32, trial: u32) -> Place {
    Place {
        part,
        person,
        trial,
    }
}

fn both(from: &Ledger, commands: [Command; 2]) -> Ledger {
    let mut ledger = from.clone();
    for (tab, command) in (1..).zip(commands) {
        ledger = after(&ledger, command, &stamp_of(tab, u64::from(tab))).0;
    }
    ledger
}

#[test]
fn a_study_is_begun_once_with_its_parts_and_people_numbered() {
    let (ledger, id) = begun();
    let facts = &ledger.study(id).unwrap().facts;
    let ids: Vec<u32> = facts.parts.iter().map(|part| part.id).collect();
    assert_eq!(ids, [1, 2]);
    let ids: Vec<u32> = facts.people.iter().map(|person| person.id).collect();
    assert_eq!(ids, [1, 2]);
    let again = apply(&ledger, begin_study(), &stamp(0)).unwrap();
    assert!(again.is_empty());
    assert_eq!(again.made.study, Some(id));
}

#[test]
fn what_is_typed_is_tidied_and_the_same_again_changes_nothing() {
    let (ledger, id) = begun();
    let typed = type_reading(ledger.study(id).unwrap(), "  10.1   mm ");
    let ledger = after(&ledger, typed.clone(), &stamp(1)).0;
    let facts = &ledger.study(id).unwrap().facts;
    assert_eq!(facts.readings[&place(1, 1, 1)], "10.1 mm");
    assert_eq!(apply(&ledger, typed, &stamp(2)), Ok(Change::default()));
    let cleared = type_reading(ledger.study(id).unwrap(), " ");
    let ledger = after(&ledger, cleared, &stamp(3)).0;
    assert_eq!(ledger.study(id).unwrap().facts.readings.len(), 1);
}

#[test]
fn two_tabs_that_add_rename_and_type_at_once_both_count() {
    let (ledger, id) = begun();
    let one = set(&ledger, id, |facts| {
        facts.parts.push(part("Heel"));
        facts.parts[1].name = "Quarter".to_owned();
    });
    let other = set(&ledger, id, |facts| {
        facts.parts.push(part("Clip"));
        facts.people.push(StudyPerson::default());
        facts.readings.insert(place(2, 1, 1), "8.2".to_owned());
        facts.parts[1].reference = Some("8 mm".to_owned());
    });
    let ledger = both(&ledger, [one.clone(), other.clone()]);
    let facts = &ledger.study(id).unwrap().facts;
    let names: Vec<&str> = facts.parts.iter().map(|part| &*part.name).collect();
    assert_eq!(names, ["Toe", "Quarter", "Heel", "Clip"]);
    assert_eq!(facts.parts[1].reference.as_deref(), Some("8 mm"));
    assert_ne!(facts.parts[2].id, facts.parts[3].id);
    assert_eq!(facts.people.len(), 3);
    assert_eq!(facts.reading(place(2, 1, 1)), Some("8.2"));
    // Applied again, as the desk does, they are the same parts.
    let again = both(&ledger, [one, other]);
    assert_eq!(again, ledger);
}

#[test]
fn what_is_taken_out_takes_its_readings_along_and_undo_gives_them_back() {
    let (ledger, id) = begun();
    let takes_out: [Take; 3] = [
        |facts| drop(facts.parts.remove(0)),
        |facts| drop(facts.people.pop()),
        |facts| facts.trials = 2,
    ];
    let more = set(&ledger, id, |facts| {
        facts.trials = 3;
        facts.readings.insert(place(1, 2, 3), "10.3".to_owned());
        facts.readings.insert(place(2, 1, 1), "8.2".to_owned());
    });
    let ledger = after(&ledger, more, &stamp(1)).0;
    let full = &ledger.study(id).unwrap().facts;
    for (take_out, left) in takes_out.into_iter().zip([1, 1, 2]) {
        let gone = after(&ledger, set(&ledger, id, take_out), &stamp(2)).0;
        let less = &gone.study(id).unwrap().facts;
        assert_eq!(less.readings.len(), left);
        let undo = Command::SetStudy {
            study: id,
            before: Box::new(less.clone()),
            after: Box::new(full.clone()),
        };
        let back = after(&gone, undo, &stamp(3)).0;
        assert_eq!(&back.study(id).unwrap().facts, full);
    }
}

#[test]
fn a_reading_of_what_another_tab_took_out_is_refused() {
    let (ledger, id) = begun();
    let typed = type_reading(ledger.study(id).unwrap(), "10.1");
    let without = set(&ledger, id, |facts| drop(facts.parts.remove(0)));
    let ledger = after(&ledger, without, &stamp(1)).0;
    let refused = apply(&ledger, typed, &stamp(2)).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "a reading stands at 1.1.1, whose part, person or trial is not in the study; look at the \
         grid again"
    );
}

#[test]
fn limits_are_held() {
    let (ledger, id) = begun();
    let cases: [(Take, &str); 4] = [
        (|facts| facts.trials = 1, "trials: 1 of each; give 2 to 10"),
        (
            |facts| facts.parts.clear(),
            "parts: there are 0; give 1 to 20",
        ),
        (
            |facts| facts.people = vec![StudyPerson::default(); 9],
            "people: there are 9; give 1 to 8",
        ),
        (
            |facts| facts.note = "n".repeat(4_001),
            "note: more than 4000 letters; write it shorter",
        ),
    ];
    for (change, why) in cases {
        let refused = apply(&ledger, set(&ledger, id, change), &stamp(1)).unwrap_err();
        assert_eq!(refused.to_string(), why);
        let mut facts = study();
        change(&mut facts);
        let facts = Box::new(facts);
        let refused = apply(&ledger, Command::BeginStudy { facts }, &stamp(9)).unwrap_err();
        assert_eq!(refused.to_string(), why);
    }
}

#[test]
fn a_study_is_set_aside_and_brought_back() {
    let (ledger, id) = begun();
    let aside = |set_aside| Command::SetStudyAside {
        study: id,
        set_aside,
    };
    let away = after(&ledger, aside(true), &stamp(1)).0;
    assert!(away.study(id).unwrap().set_aside);
    assert_eq!(apply(&away, aside(true), &stamp(2)), Ok(Change::default()));
    let back = after(&away, aside(false), &stamp(3)).0;
    let stamped = |study: &Study, stamp: Stamp| Study {
        stamp,
        ..study.clone()
    };
    assert_eq!(
        stamped(back.study(id).unwrap(), stamp(0)),
        stamped(ledger.study(id).unwrap(), stamp(0))
    );
}
