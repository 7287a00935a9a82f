//! The list of instruments, its form, and the choice on the mark sheet.

use evenshod::command::{Command, apply};
use evenshod::marking::{Facts, InstrumentFact, ReadingFact, mark};
use evenshod::present::mark_sheet::{
    Input, Order, Row, Taking, chosen_instrument, face, instrument_tiles, more_words, plan,
    with_text,
};
use evenshod::present::{
    InstrumentErrors, InstrumentForm, instruments_page, repeats_said, retire_command,
    usual_commands, usual_instruments,
};
use evenshod::quantity::{Dimension, Unit};
use evenshod::records::Ledger;
use evenshod::rubric::{Rubric, ShapeWord, read_rubric, shipped};
use proptest::prelude::*;

use crate::records::sample::{after, caliper, set_instrument, stamp};

fn bar_shoe() -> Rubric {
    read_rubric(shipped()[0].text).rubric.unwrap()
}

fn row(rubric: &Rubric, id: &str) -> Row {
    let parts = plan(rubric, Order::Rubric).into_iter();
    let mut rows = parts.flat_map(|part| part.rows);
    rows.find(|row| row.id == id).unwrap()
}

fn with_usual() -> Ledger {
    let commands = usual_commands(&Ledger::default()).into_iter().zip(0..);
    commands.fold(Ledger::default(), |ledger, (command, seconds)| {
        after(&ledger, command, &stamp(seconds)).0
    })
}

/// The apprentice's own hand is said to scatter more.
#[test]
fn the_usual_ones_say_what_the_shipped_rubrics_say() {
    let usual = usual_instruments();
    assert_eq!(usual.len(), 8);
    let mut met = 0;
    for (id, fact) in &usual {
        let own = fact.read(id).unwrap();
        for file in shipped()
            .iter()
            .filter(|file| file.id != "apprentice-self-check")
        {
            let rubric = read_rubric(file.text).rubric.unwrap();
            let Some(of_rubric) = rubric.instrument(id) else {
                continue;
            };
            met += 1;
            assert_eq!(
                own.uncertainty, of_rubric.uncertainty,
                "{id} in {}",
                file.id
            );
            assert_eq!(own.shared, of_rubric.shared, "{id} in {}", file.id);
            assert_eq!(own.source, of_rubric.source);
        }
    }
    assert!(met > 20, "{met}");
}

#[test]
fn the_list_says_figures_in_words_and_what_is_retired() {
    let empty = instruments_page(&Ledger::default());
    assert!(empty.used.is_empty() && empty.lacks_usual);
    let ledger = with_usual();
    assert!(usual_commands(&ledger).is_empty());
    let page = instruments_page(&ledger);
    assert_eq!(
        (page.counted.as_str(), page.lacks_usual),
        ("8 in use", false)
    );
    let caliper = page.used.iter().find(|row| row.id == "caliper").unwrap();
    assert_eq!(caliper.measures, "caliper, measures lengths");
    assert_eq!(
        caliper.figures,
        "Off by at most 0.05 mm; repeats scatter by 0.1 mm; zero error 0.02 mm, shared by all its \
         readings; common practice, no source."
    );
    let retire = retire_command(&ledger, "caliper", true).unwrap();
    let ledger = after(&ledger, retire, &stamp(20)).0;
    let page = instruments_page(&ledger);
    assert_eq!(
        (page.used.len(), page.retired[0].id.as_str()),
        (7, "caliper")
    );
    let back = retire_command(&ledger, "caliper", false).unwrap();
    let ledger = after(&ledger, back, &stamp(21)).0;
    assert!(instruments_page(&ledger).retired.is_empty());
    assert_eq!(retire_command(&ledger, "laser", true), None);
}

#[test]
fn the_form_adds_and_changes_and_says_beside_which_field_something_is_wrong() {
    let ledger = with_usual();
    let form = InstrumentForm {
        name: "Caliper no. 2".to_owned(),
        amount: "0.03".to_owned(),
        source: "certificate".to_owned(),
        ..InstrumentForm::of(None)
    };
    let (ledger, _) = after(&ledger, form.command(None), &stamp(20));
    let here = ledger.instrument("caliper-no-2").unwrap();
    assert_eq!(here.fact.half_width.as_deref(), Some("0.03"));
    assert_eq!(InstrumentForm::of(Some(here)).command(Some(here)), {
        let mut same = set_instrument(&ledger, "caliper-no-2", here.fact.clone());
        if let Command::SetInstrument { after, .. } = &mut same {
            after.fact.repeatability = Some(String::new());
            after.fact.shared = Some(String::new());
        }
        same
    });
    let standard = InstrumentForm {
        kind: "standard-uncertainty".to_owned(),
        amount: "0.02 mm".to_owned(),
        ..InstrumentForm::of(Some(here))
    };
    let (changed, _) = after(&ledger, standard.command(Some(here)), &stamp(21));
    let fact = &changed.instrument("caliper-no-2").unwrap().fact;
    assert_eq!(fact.half_width, None);
    let opened = InstrumentForm::of(changed.instrument("caliper-no-2"));
    assert_eq!(opened, standard);

    let shaped = InstrumentForm {
        shape: "trapezoid".to_owned(),
        level_share: "0.5".to_owned(),
        ..InstrumentForm::of(Some(here))
    };
    assert!(InstrumentForm::asks_level(&shaped.kind, &shaped.shape));
    let (changed, _) = after(&ledger, shaped.command(Some(here)), &stamp(22));
    let now = changed.instrument("caliper-no-2").unwrap();
    assert_eq!(now.fact.shape, Some(ShapeWord::Trapezoid));
    assert_eq!(InstrumentForm::of(Some(now)), shaped);
    let figures = &instruments_page(&changed).used;
    let figures = figures.iter().find(|row| row.id == "caliper-no-2").unwrap();
    let words = "alike over 50 % of the width and rarer beyond (trapezoid)";
    assert!(figures.figures.contains(words), "{}", figures.figures);
    // A standard uncertainty has no shape.
    let standard = InstrumentForm {
        kind: "standard-uncertainty".to_owned(),
        ..shaped
    };
    let (changed, _) = after(&changed, standard.command(Some(now)), &stamp(23));
    let fact = &changed.instrument("caliper-no-2").unwrap().fact;
    assert_eq!((fact.shape, &fact.level_share), (None, &None));

    type Spoil = fn(&mut InstrumentForm);
    let wrong: [(&str, Spoil); 10] = [
        ("instrument-level-share", |form| {
            form.shape = "trapezoid".to_owned();
        }),
        ("instrument-level-share", |form| {
            form.shape = "trapezoid".to_owned();
            form.level_share = "half".to_owned();
        }),
        ("instrument-name", |form| {
            form.name.clear();
            form.id = "laser".to_owned();
        }),
        ("instrument-name", |form| {
            form.name = "Steel rule".to_owned();
            form.id = "other-rule".to_owned();
        }),
        ("instrument-id", |form| form.id = "Not so".to_owned()),
        ("instrument-id", |form| form.id = "caliper".to_owned()),
        ("instrument-amount", |form| form.amount.clear()),
        ("instrument-amount", |form| form.amount = "-1 mm".to_owned()),
        ("instrument-shared", |form| form.shared = "x".to_owned()),
        ("instrument-source", |form| form.source.clear()),
    ];
    for (field, spoil) in wrong {
        let mut form = InstrumentForm {
            name: "Laser".to_owned(),
            ..form.clone()
        };
        spoil(&mut form);
        let refused = apply(&ledger, form.command(None), &stamp(22)).unwrap_err();
        let errors = InstrumentErrors::refused(&refused);
        assert_eq!(errors.first_field(), Some(field), "{refused}");
        assert_eq!(errors.other, None);
    }
}

fn words(rubric: &Rubric, row: &Row, facts: &Facts) -> String {
    let result = mark(rubric, facts);
    face(rubric, row, facts, &result, Unit::Millimetre).with
}

#[test]
fn a_row_says_its_instrument_and_offers_those_that_measure_the_same() {
    let rubric = bar_shoe();
    let width = row(&rubric, "width");
    let mut facts = Facts::default();
    let usual = width.instrument.clone().unwrap();
    let said = words(&rubric, &width, &facts);
    assert_eq!(said, "Steel rule, off by at most 0.5 mm");
    assert!(!width.about.contains("With "), "{}", width.about);
    assert_eq!(more_words(&width), "Instrument, faults, state, comment");

    let mut ledger = with_usual();
    let laser = InstrumentFact {
        name: "Laser".to_owned(),
        ..caliper()
    };
    ledger = after(
        &ledger,
        set_instrument(&ledger, "laser", laser.clone()),
        &stamp(20),
    )
    .0;
    let tiles = instrument_tiles(&rubric, &width, &facts, &ledger, Unit::Millimetre);
    assert_eq!(
        (tiles[0].id.as_str(), &tiles[0].sets),
        (usual.as_str(), &None)
    );
    assert!(tiles.iter().all(|tile| tile.id != "protractor"));
    let of_ledger = tiles.iter().find(|tile| tile.id == "laser").unwrap();
    assert_eq!(of_ledger.own, Some(laser.clone()));
    // What the rubric has too stays the rubric's in a marking that is begun.
    let known = tiles.iter().find(|tile| tile.id == "caliper").unwrap();
    assert_eq!(known.own, None);

    facts.instruments.insert("laser".to_owned(), laser);
    let reading = ReadingFact {
        instrument: Some("laser".to_owned()),
        ..ReadingFact::of("")
    };
    facts.readings.insert("width".to_owned(), vec![reading]);
    assert_eq!(
        words(&rubric, &width, &facts),
        "Laser, off by at most 0.03 mm"
    );
    assert_eq!(chosen_instrument(&width, &facts).as_deref(), Some("laser"));
    let retire = retire_command(&ledger, "laser", true).unwrap();
    let ledger = after(&ledger, retire, &stamp(21)).0;
    let tiles = instrument_tiles(&rubric, &width, &facts, &ledger, Unit::Millimetre);
    let kept = tiles.iter().find(|tile| tile.id == "laser").unwrap();
    assert_eq!(kept.own, None, "the marking has its copy");
}

#[test]
fn what_is_typed_after_a_choice_keeps_it_and_so_does_the_emptied_field() {
    let input = |member| Input {
        slot: "web".to_owned(),
        member,
        dom: "r-web".to_owned(),
        label: String::new(),
        dimension: Dimension::Length,
    };
    let taking = Taking {
        instrument: Some("caliper".to_owned()),
        ..Taking::default()
    };
    let with = |readings: &[ReadingFact]| -> Vec<(String, bool)> {
        let readings = readings.iter();
        let said = readings.map(|one| {
            let is_kept = one.instrument.as_deref() == Some("caliper");
            (one.text.clone(), is_kept)
        });
        said.collect()
    };
    let kept = |text: &str| (text.to_owned(), true);
    let first = with_text(&[], &input(None), "22; 22.1", &taking);
    assert_eq!(with(&first), [kept("22"), kept(" 22.1")]);
    let emptied = with_text(&first, &input(None), "", &taking);
    assert_eq!(with(&emptied), [kept("")]);
    let member = with_text(&emptied, &input(Some(2)), "7", &taking);
    assert_eq!(with(&member), [kept(""), kept(""), kept("7")]);
    let emptied = with_text(&member, &input(Some(2)), "", &taking);
    assert_eq!(with(&emptied), [kept("")]);
}

#[test]
fn repeats_that_disagree_are_told_at_their_row() {
    let rubric = bar_shoe();
    let width = row(&rubric, "width");
    let mut facts = Facts::default();
    let readings = ["129", "131"].map(ReadingFact::of);
    facts.readings.insert("width".to_owned(), readings.to_vec());
    let result = mark(&rubric, &facts);
    let shown = face(&rubric, &width, &facts, &result, Unit::Millimetre);
    assert!(shown.errors.is_empty());
    assert!(
        shown.doubts.starts_with("These two differ by 2 mm"),
        "{}",
        shown.doubts
    );
    assert!(shown.doubts.ends_with("measure again."), "{}", shown.doubts);
}

#[test]
fn repeats_of_one_place_give_the_repeatability() {
    let said = |text: &str| repeats_said(text, "length");
    assert_eq!(said(" ; "), None);
    let found = said("10.2; 10.4 mm; 10,3; 0.4in; 10.1").unwrap().unwrap();
    // numpy 2.4.6: std([10.2, 10.4, 10.3, 10.16, 10.1], ddof=1).
    assert_eq!(found.repeatability.unwrap(), "0.119 mm");
    assert!(found.words.starts_with("5 readings: mean 10.232 mm,"));
    let few = said("10; 11").unwrap().unwrap();
    assert!(few.words.ends_with("So few say little: take ten."));
    let alike = said("10; 10; 10; 10; 10").unwrap().unwrap();
    assert_eq!(alike.repeatability, None);
    assert!(said("10").unwrap().unwrap_err().contains("at least two"));
    let wrong = said("10.2 10.4").unwrap().unwrap_err();
    assert!(wrong.contains("semicolon"), "{wrong}");
    let angles = repeats_said("1; 2; 3", "angle").unwrap().unwrap();
    assert_eq!(angles.repeatability.unwrap(), "1.000 \u{b0}");
}

proptest! {
    /// Whatever is typed gives an answer.
    #[test]
    fn no_repeats_panic(text in "[0-9;., a-z/-]{0,40}|.{0,40}", measures in "length|angle|mass|x") {
        if let Some(Ok(said)) = repeats_said(&text, &measures) {
            prop_assert!(said.words.contains("readings"));
        }
    }
}
