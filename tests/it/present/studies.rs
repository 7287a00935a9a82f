//! The page of an instrument study.

use evenshod::present::{
    StudyEdit, StudyStep, StudyTaking, StudyText, begin_study, moved, study_cell, study_grid,
    study_head, study_rows, study_shape, study_taking,
};
use evenshod::records::{Ledger, Place, StudyId};

use crate::records::sample::{after, caliper, day, set_instrument, stamp};

fn begun() -> (Ledger, StudyId) {
    let none = Ledger::default();
    let ledger = after(
        &none,
        set_instrument(&none, "caliper", caliper()),
        &stamp(0),
    )
    .0;
    let (ledger, made) = after(&ledger, begin_study("caliper", day()), &stamp(1));
    (ledger, made.study.unwrap())
}

fn act(ledger: &Ledger, id: StudyId, edit: StudyEdit, seconds: u64) -> Ledger {
    let command = edit.command(ledger, id).unwrap().unwrap();
    after(ledger, command, &stamp(seconds)).0
}

fn typed(text: StudyText, typed: &str) -> StudyEdit {
    StudyEdit::Type(text, typed.to_owned())
}

fn place(part: u32, person: u32, trial: u32) -> Place {
    Place {
        part,
        person,
        trial,
    }
}

#[test]
fn a_new_study_has_a_grid_to_fill_in() {
    let (ledger, id) = begun();
    let head = study_head(&ledger, id).unwrap();
    assert_eq!(head.title, "Study of Caliper 7");
    assert!(head.about.ends_with("0 of 45 readings"), "{}", head.about);
    assert!(!head.has_readings);
    let grid = study_grid(&ledger, id).unwrap();
    assert_eq!(grid.columns, ["Trial 1", "Trial 2", "Trial 3"]);
    assert_eq!(grid.parts.len(), 5);
    let (part, lines) = &grid.parts[1];
    assert_eq!((part.as_str(), lines.len()), ("Part 2", 3));
    assert_eq!(
        lines[1].cells[2],
        (place(2, 2, 3), "Part 2, B, trial 3".to_owned())
    );
    assert_eq!(study_rows(&ledger)[0].title, "Study of Caliper 7");
}

#[test]
fn what_is_typed_comes_back_and_what_is_wrong_is_told_beside_it() {
    let (ledger, id) = begun();
    let at = place(1, 1, 1);
    let reading = StudyText::Reading(at);
    let ledger = act(&ledger, id, typed(reading, "tall"), 2);
    assert_eq!(reading.of(&ledger.study(id).unwrap().facts), "tall");
    let said = &study_cell(&ledger, id)[&at];
    assert!(
        said.is_wrong && said.says.starts_with("`tall` is not"),
        "{said:?}"
    );
    let ledger = act(&ledger, id, typed(reading, "-0.02"), 3);
    assert!(!study_cell(&ledger, id)[&at].is_wrong);
    let ledger = act(&ledger, id, typed(reading, "10.2"), 4);
    assert!(study_cell(&ledger, id).is_empty());
    for (text, word) in [
        (StudyText::Name, "Spring"),
        (StudyText::Day, "2026-03-02"),
        (StudyText::Unit, "in"),
        (StudyText::Trials, "4"),
        (StudyText::Note, "cold"),
        (StudyText::Part(2), "Toe"),
        (StudyText::Size(2), "10 mm"),
        (StudyText::Uncertainty(2), "0.01 mm"),
        (StudyText::Person(3), "Cy"),
    ] {
        let ledger = act(&ledger, id, typed(text, word), 5);
        assert_eq!(text.of(&ledger.study(id).unwrap().facts), word);
    }
    for (text, wrong) in [(StudyText::Day, "soon"), (StudyText::Trials, "a few")] {
        let refused = typed(text, wrong).command(&ledger, id).unwrap();
        assert!(
            refused
                .unwrap_err()
                .starts_with(&format!("`{wrong}` is no"))
        );
    }
}

#[test]
fn a_part_taken_out_comes_back_with_its_readings() {
    let (ledger, id) = begun();
    let ledger = act(
        &ledger,
        id,
        typed(StudyText::Reading(place(2, 1, 1)), "8"),
        2,
    );
    let without = act(&ledger, id, StudyEdit::RemovePart(2), 3);
    assert_eq!(study_shape(&without, id).unwrap().parts.len(), 4);
    assert!(without.study(id).unwrap().facts.readings.is_empty());
    let step = StudyStep::between(&ledger, &without, id).unwrap();
    assert_eq!(
        step.lost().as_deref(),
        Some("1 reading went along. Undo gives them back.")
    );
    let back = after(&without, step.undo(), &stamp(4)).0;
    assert_eq!(
        back.study(id).unwrap().facts,
        ledger.study(id).unwrap().facts
    );
    assert_eq!(StudyStep::between(&ledger, &ledger, id), None);
    let cleared = act(
        &ledger,
        id,
        typed(StudyText::Reading(place(2, 1, 1)), ""),
        3,
    );
    let step = StudyStep::between(&ledger, &cleared, id).unwrap();
    assert_eq!(step.lost(), None, "it was cleared, which is seen");
    let more = act(&ledger, id, StudyEdit::AddPerson, 5);
    assert_eq!(study_shape(&more, id).unwrap().people[3].1, "Person 4");
}

#[test]
fn keys_go_down_a_column_and_on_to_the_next() {
    let (ledger, id) = begun();
    let grid = study_grid(&ledger, id).unwrap();
    let first = place(1, 1, 1);
    let go = |from, key, shift| moved(&grid, from, key, shift);
    assert_eq!(go(first, "Enter", false), Some(place(1, 2, 1)));
    assert_eq!(go(place(1, 3, 1), "ArrowDown", false), Some(place(2, 1, 1)));
    assert_eq!(go(place(5, 3, 1), "Enter", false), Some(place(1, 1, 2)));
    assert_eq!(go(place(1, 1, 2), "ArrowUp", false), Some(place(5, 3, 1)));
    assert_eq!(go(place(1, 2, 1), "Enter", true), Some(first));
    assert_eq!(go(first, "ArrowUp", false), None);
    assert_eq!(go(place(5, 3, 3), "Enter", false), None);
    assert_eq!(go(first, "a", false), None);
}

#[test]
fn what_was_taken_over_is_taken_back() {
    let (before, id) = begun();
    let Some(StudyTaking::Changes { command, undo, .. }) =
        study_taking(&before, id, Some("0.022 mm"))
    else {
        panic!("nothing to take over");
    };
    let over = after(&before, *command, &stamp(2)).0;
    let back = after(&over, *undo, &stamp(3)).0;
    let fact = |ledger: &Ledger| ledger.instrument("caliper").unwrap().fact.clone();
    assert_ne!(fact(&over), fact(&before));
    assert_eq!(fact(&back), fact(&before));
}

#[test]
fn taking_over_shows_what_changes_first() {
    let (ledger, id) = begun();
    let Some(StudyTaking::Changes { rows, command, .. }) =
        study_taking(&ledger, id, Some("0.022 mm"))
    else {
        panic!("nothing to take over");
    };
    assert_eq!(
        rows[0],
        ("Repeatability", "0.05 mm".to_owned(), "0.022 mm".to_owned())
    );
    assert!(rows[1].2.contains("5 parts, 3 people, 3 trials"));
    let ledger = after(&ledger, *command, &stamp(2)).0;
    let own = ledger.instrument("caliper").unwrap();
    assert_eq!(own.fact.repeatability.as_deref(), Some("0.022 mm"));
    assert_eq!(own.fact.half_width, caliper().half_width);
    let nothing = |repeatability| match study_taking(&ledger, id, repeatability) {
        Some(StudyTaking::Nothing(why)) => why,
        other => panic!("{other:?}"),
    };
    assert_eq!(
        nothing(Some("0.022 mm")),
        "Caliper 7 has this repeatability."
    );
    assert!(nothing(None).starts_with("There is no repeatability"));
    let (ledger, made) = after(&ledger, begin_study("rule", day()), &stamp(3));
    let Some(StudyTaking::Nothing(why)) = study_taking(&ledger, made.study.unwrap(), Some("1 mm"))
    else {
        panic!("an instrument that is not here");
    };
    assert!(why.starts_with("There is no instrument `rule`"), "{why}");
}
