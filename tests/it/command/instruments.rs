//! Instruments of the ledger, and what becomes of them in a marking.

use evenshod::command::{
    Command, CommandError, Edit, InstrumentDetails, MarkAgain, RubricText, apply,
};
use evenshod::marking::{InstrumentFact, ReadingFact};
use evenshod::quantity::Dimension;
use evenshod::records::{Change, Ledger, Marking, MarkingId, Role, Unit, sha256_hex};
use evenshod::rubric::shipped;

use crate::records::sample::{
    after, caliper, named, now, seal, set_instrument, stamp, start_piece, with_draft,
};

fn with_caliper() -> Ledger {
    let none = Ledger::default();
    after(
        &none,
        set_instrument(&none, "caliper", caliper()),
        &stamp(0),
    )
    .0
}

/// Changes the caliper, which stood there as it was added.
fn change(fact: InstrumentFact, retired: bool) -> Command {
    Command::SetInstrument {
        id: "caliper".to_owned(),
        before: Some(Box::new(InstrumentDetails {
            fact: caliper(),
            retired: false,
        })),
        after: Box::new(InstrumentDetails { fact, retired }),
    }
}

fn half(text: &str) -> InstrumentFact {
    InstrumentFact {
        half_width: Some(text.to_owned()),
        ..caliper()
    }
}

#[test]
fn an_instrument_is_kept_tidy_and_the_same_again_changes_nothing() {
    let typed = InstrumentFact {
        name: "  Caliper  7".to_owned(),
        standard_uncertainty: Some(" ".to_owned()),
        ..half(" 0.03 mm ")
    };
    let none = Ledger::default();
    let command = set_instrument(&none, "caliper", typed);
    let (ledger, _) = after(&none, command.clone(), &stamp(0));
    assert_eq!(ledger.instrument("caliper").unwrap().fact, caliper());
    assert_eq!(apply(&ledger, command, &stamp(1)), Ok(Change::default()));
    let refused = apply(
        &ledger,
        set_instrument(&none, "caliper", half("1 mm")),
        &stamp(2),
    );
    assert_eq!(
        refused.unwrap_err().to_string(),
        "`caliper` is the short name of Caliper 7 already; change that one, or give this one \
         another"
    );
}

#[test]
fn two_tabs_that_change_different_figures_both_count() {
    let ledger = with_caliper();
    let (ledger, _) = after(&ledger, change(half("0.04 mm"), false), &stamp(1));
    let other = InstrumentFact {
        shared: None,
        ..caliper()
    };
    let (ledger, _) = after(&ledger, change(other, true), &stamp(2));
    let here = ledger.instrument("caliper").unwrap();
    let wanted = InstrumentFact {
        shared: None,
        ..half("0.04 mm")
    };
    assert_eq!((&here.fact, here.retired), (&wanted, true));
    // Each right by itself, both together said twice.
    let (ledger, _) = after(&with_caliper(), change(half("0.04 mm"), false), &stamp(1));
    let standard = InstrumentFact {
        standard_uncertainty: Some("0.02 mm".to_owned()),
        ..caliper()
    };
    let refused = apply(&ledger, change(standard, false), &stamp(2)).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "Caliper 7: half-width and standard uncertainty say the same thing; keep one"
    );
}

#[test]
fn figures_that_cannot_be_used_are_refused_by_name_with_the_remedy() {
    let cases = [
        (
            half("-0.1 mm"),
            "half-width: `-0.1 mm` is below zero; write how much it is",
        ),
        (
            half("0 mm"),
            "half-width: nothing is measured without any error; write how much it is, or leave \
             it out",
        ),
        (
            InstrumentFact {
                half_width: None,
                ..caliper()
            },
            "write a half-width or a standard uncertainty, such as 0.5 mm",
        ),
        (
            InstrumentFact {
                source: " ".to_owned(),
                ..caliper()
            },
            "source: write where the figures come from, such as a certificate and its date, or \
             `common practice, no source`",
        ),
    ];
    for (fact, why) in cases {
        let refused = apply(&with_caliper(), change(fact, false), &stamp(1)).unwrap_err();
        assert_eq!(refused.to_string(), format!("Caliper 7: {why}"));
    }
    let wrong_unit = InstrumentFact {
        measures: Dimension::Angle,
        ..caliper()
    };
    let refused = apply(&with_caliper(), change(wrong_unit, false), &stamp(1)).unwrap_err();
    assert!(refused.to_string().contains("half-width: "), "{refused}");
}

#[test]
fn short_names_and_names_tell_instruments_apart() {
    let ledger = with_caliper();
    for id in ["", "Caliper", "a/b", "caliper 7", "é"] {
        let refused = apply(&ledger, set_instrument(&ledger, id, caliper()), &stamp(1));
        assert!(
            matches!(refused, Err(CommandError::InstrumentId { .. })),
            "{id}"
        );
    }
    let same_name = set_instrument(&ledger, "other", half("1 mm"));
    let refused = apply(&ledger, same_name, &stamp(1));
    assert!(matches!(refused, Err(CommandError::NameTaken { .. })));
    let nameless = InstrumentFact {
        name: " ".to_owned(),
        ..caliper()
    };
    let refused = apply(
        &ledger,
        set_instrument(&ledger, "other", nameless),
        &stamp(1),
    );
    assert!(matches!(refused, Err(CommandError::NoName { .. })));
}

#[test]
fn what_a_file_brought_may_be_set_aside_whatever_it_says() {
    let mut wrong = with_caliper().instrument("caliper").unwrap().clone();
    wrong.fact = half("a hair");
    let ledger = Ledger::of([wrong.clone().into()]);
    let command = |retired| Command::SetInstrument {
        id: "caliper".to_owned(),
        before: Some(Box::new(InstrumentDetails::of(&wrong))),
        after: Box::new(InstrumentDetails {
            fact: wrong.fact.clone(),
            retired,
        }),
    };
    let (ledger, _) = after(&ledger, command(true), &stamp(1));
    assert!(ledger.instrument("caliper").unwrap().retired);
}

/// A piece by a rubric that has a caliper and a steel rule.
fn begin(ledger: &Ledger, seconds: u64) -> (Ledger, MarkingId) {
    let rubric = shipped().iter().find(|one| one.id == "concave-front-shoe");
    let text = rubric.unwrap().text.to_owned();
    let rubric = RubricText {
        digest: sha256_hex(text.as_bytes()),
        text,
        ..crate::records::sample::rubric("1")
    };
    let piece = evenshod::command::StartPiece {
        rubric,
        ..start_piece(named("Ada Smith"))
    };
    let command = Command::StartPiece(Box::new(piece));
    let (ledger, made) = after(ledger, command, &stamp(seconds));
    (ledger, made.marking.unwrap())
}

fn own_ids(ledger: &Ledger, marking: MarkingId) -> Vec<&str> {
    let facts = &ledger.marking(marking).unwrap().facts;
    facts.instruments.keys().map(String::as_str).collect()
}

#[test]
fn a_marking_takes_the_ledgers_instruments_that_its_rubric_names_and_keeps_them() {
    let mut ledger = with_caliper();
    for (id, name) in [("steel-rule", "Rule 3"), ("laser", "Laser")] {
        let fact = InstrumentFact {
            name: name.to_owned(),
            ..caliper()
        };
        ledger = after(&ledger, set_instrument(&ledger, id, fact), &stamp(1)).0;
    }
    let rule = ledger.instrument("steel-rule").unwrap().clone();
    let retire = Command::SetInstrument {
        id: rule.id.clone(),
        before: Some(Box::new(InstrumentDetails::of(&rule))),
        after: Box::new(InstrumentDetails {
            fact: rule.fact,
            retired: true,
        }),
    };
    ledger = after(&ledger, retire, &stamp(2)).0;
    let (ledger, marking) = begin(&ledger, 3);
    assert_eq!(own_ids(&ledger, marking), ["caliper"]);
    assert!(ledger.marking(marking).unwrap().facts.is_blank());
    // Later changes of the list change no marking, the next one has them.
    let (ledger, _) = after(&ledger, change(half("0.5 mm"), false), &stamp(4));
    let facts = &ledger.marking(marking).unwrap().facts;
    assert_eq!(facts.instruments["caliper"], caliper());
    let (ledger, _) = after(&ledger, seal(marking), &stamp(5));
    let again = MarkAgain {
        piece: ledger.marking(marking).unwrap().piece,
        examiner: "C. Reed".to_owned(),
        rubric: None,
        unit: Unit::Millimetre,
        role: Role::Second,
        at: now(),
    };
    let (ledger, made) = after(&ledger, Command::MarkAgain(Box::new(again)), &stamp(6));
    let facts = &ledger.marking(made.marking.unwrap()).unwrap().facts;
    assert_eq!(facts.instruments["caliper"], half("0.5 mm"));
}

#[test]
fn without_instruments_of_its_own_a_ledger_puts_none_into_a_marking() {
    let (ledger, marking) = begin(&Ledger::default(), 1);
    assert!(own_ids(&ledger, marking).is_empty());
}

fn draft(ledger: &Ledger, marking: MarkingId) -> &Marking {
    ledger.marking(marking).unwrap()
}

#[test]
fn a_chosen_instrument_is_kept_by_readings_or_an_empty_one_and_taken_back_in_one_step() {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let typed = Edit::SetReadings {
        entry: "web".to_owned(),
        readings: vec![ReadingFact::of("22"), ReadingFact::of("22.2")],
    };
    let (ledger, _) = after(&ledger, Command::edit(marking, typed), &stamp(1));
    let choose = |instrument: Option<&str>, own: Option<InstrumentFact>| Edit::SetInstrument {
        entries: vec!["web".to_owned(), "toe".to_owned()],
        instrument: instrument.map(str::to_owned),
        own,
    };
    let command = Command::edit(marking, choose(Some("laser"), Some(caliper())));
    let (chosen, _) = after(&ledger, command, &stamp(2));
    let facts = &draft(&chosen, marking).facts;
    let named = |entry: &str| -> Vec<(&str, Option<&str>)> {
        let readings = facts.readings[entry].iter();
        readings
            .map(|one| (one.text.as_str(), one.instrument.as_deref()))
            .collect()
    };
    assert_eq!(
        named("web"),
        [("22", Some("laser")), ("22.2", Some("laser"))]
    );
    assert_eq!(named("toe"), [("", Some("laser"))]);
    assert_eq!(facts.instruments["laser"], caliper());
    // What the marking has of that name stays.
    let again = Command::edit(marking, choose(Some("laser"), Some(half("1 mm"))));
    assert_eq!(after(&chosen, again, &stamp(3)).0, chosen);
    let usual = Command::edit(marking, choose(None, None));
    let (usual, _) = after(&chosen, usual, &stamp(4));
    let readings = &draft(&usual, marking).facts.readings;
    assert_eq!(readings, &draft(&ledger, marking).facts.readings);
}
