//! Rows, keys and inputs of the mark sheet.

use std::collections::BTreeSet;

use evenshod::marking::{Facts, Pause, ReadingFact, mark};
use evenshod::present::mark_sheet::{
    Input, Key, Order, RowForm, Taking, face, pause_texts, plan, press, step, summary, text_in,
    untouched_fault_lists, with_fault, with_first_pause, with_text,
};
use evenshod::quantity::{Dimension, Unit};
use evenshod::rubric::{Rubric, read_rubric, shipped};

fn bar_shoe() -> Rubric {
    read_rubric(shipped()[0].text).rubric.unwrap()
}

fn input(member: Option<usize>) -> Input {
    Input {
        slot: "web".to_owned(),
        member,
        dom: "r-web".to_owned(),
        label: String::new(),
        dimension: Dimension::Length,
    }
}

#[test]
fn both_orders_have_every_row_once_and_the_shoe_is_turned_once() {
    for shipped in shipped() {
        let rubric = read_rubric(shipped.text).rubric.unwrap();
        let ids = |order| {
            let parts = plan(&rubric, order);
            let ids = parts
                .iter()
                .flat_map(|part| part.rows.iter().map(|row| row.id.clone()));
            ids.collect::<Vec<_>>()
        };
        let (mut as_written, mut turned) = (ids(Order::Rubric), ids(Order::Turned));
        assert_ne!(as_written, turned);
        as_written.sort();
        turned.sort();
        assert_eq!(as_written, turned);
        let names: Vec<String> = plan(&rubric, Order::Turned)
            .into_iter()
            .map(|part| part.name)
            .collect();
        let mut once = names.clone();
        once.sort();
        once.dedup();
        assert_eq!(once.len(), names.len(), "{names:?}");
    }
}

#[test]
fn every_input_and_row_has_an_id_of_its_own() {
    for shipped in shipped() {
        let rubric = read_rubric(shipped.text).rubric.unwrap();
        let mut ids: Vec<String> = Vec::new();
        let mut asked: Vec<String> = Vec::new();
        for row in plan(&rubric, Order::Rubric)
            .iter()
            .flat_map(|part| &part.rows)
        {
            ids.push(row.dom.clone());
            if let RowForm::Readings { inputs, .. } = &row.form {
                ids.extend(inputs.iter().map(|input| input.dom.clone()));
                asked.extend(inputs.iter().map(|input| input.slot.clone()));
            }
        }
        let count = ids.len();
        ids.sort();
        ids.dedup();
        assert_eq!(ids.len(), count, "{}", rubric.id);
        // Each reading is asked for, and in one row.
        let slots: BTreeSet<String> = rubric.slots().into_iter().map(|slot| slot.id).collect();
        assert_eq!(
            asked.into_iter().collect::<BTreeSet<_>>(),
            slots,
            "{}",
            rubric.id
        );
    }
}

#[test]
fn keys_write_as_a_person_would() {
    let keys = [
        Key::Put("1"),
        Key::Put("1/2"),
        Key::Back,
        Key::Back,
        Key::Back,
        Key::Put(","),
    ];
    let mut text = String::new();
    let mut seen = Vec::new();
    for key in keys {
        text = press(&text, key);
        seen.push(text.clone());
    }
    assert_eq!(seen, ["1", "1 1/2", "1 1/", "1 1", "1 ", "1 ,"]);
    assert_eq!(press("3", Key::Put("/8")), "3/8");
    assert_eq!(press("12", Key::Clear), "");
    assert_eq!(press("", Key::Put("1/2")), "1/2");
}

#[test]
fn a_step_is_a_tenth_or_a_thirty_second() {
    let up = |text: &str, dimension, unit| step(text, dimension, unit, true, None);
    assert_eq!(up("10", Dimension::Length, Unit::Millimetre), "10.1");
    assert_eq!(up("10,9", Dimension::Length, Unit::Millimetre), "11.0");
    assert_eq!(up("3/8 in", Dimension::Length, Unit::Inch64), "13/32 in");
    assert_eq!(up("", Dimension::Count, Unit::Millimetre), "1");
    assert_eq!(up("12", Dimension::Duration, Unit::Minute), "13 min");
    assert_eq!(
        up("within", Dimension::Length, Unit::Millimetre),
        "within",
        "no value, no step"
    );
    assert_eq!(
        step("0", Dimension::Count, Unit::One, false, None),
        "0",
        "never below nothing"
    );
}

fn mm(hot: bool) -> Taking {
    Taking {
        unit: Some(Unit::Millimetre),
        hot,
        instrument: None,
    }
}

fn inches() -> Taking {
    Taking {
        unit: Some(Unit::Inch64),
        ..Taking::default()
    }
}

#[test]
fn repeats_and_members_come_back_as_typed() {
    for text in ["10.2", "10.2;", "10.2; 10.4", ";", "10.2;;3", " x ; y "] {
        let facts = with_text(&[], &input(None), text, &mm(false));
        assert_eq!(text_in(&facts, &input(None)), text);
    }
    assert!(with_text(&[], &input(None), "", &mm(false)).is_empty());
    let second = with_text(&[], &input(Some(1)), "22", &mm(false));
    assert_eq!(text_in(&second, &input(Some(0))), "");
    assert_eq!(text_in(&second, &input(Some(1))), "22");
    let both = with_text(&second, &input(Some(0)), "21", &inches());
    assert_eq!(
        (both[0].unit, both[1].unit),
        (Some(Unit::Inch64), Some(Unit::Millimetre))
    );
    let none = with_text(
        &with_text(&both, &input(Some(0)), "", &inches()),
        &input(Some(1)),
        "",
        &inches(),
    );
    assert!(none.is_empty());
}

#[test]
fn a_reading_keeps_what_its_bare_number_meant() {
    let inch = [ReadingFact {
        unit: Some(Unit::Inch64),
        ..ReadingFact::of("1")
    }];
    let after = with_text(&inch, &input(None), "1.5", &mm(false));
    assert_eq!(after[0].unit, Some(Unit::Inch64));
}

#[test]
fn faults_are_counted() {
    let once = with_fault(None, "bar1", 1);
    let twice = with_fault(Some(&once), "bar1", 2);
    assert_eq!(twice, ["bar1", "bar1"]);
    let other = with_fault(Some(&twice), "wld1", 1);
    assert_eq!(with_fault(Some(&other), "bar1", 0), ["wld1"]);
}

#[test]
fn the_summary_counts_what_is_missing_and_says_how_it_stands() {
    let rubric = bar_shoe();
    let parts = plan(&rubric, Order::Rubric);
    let facts = Facts::default();
    let empty = summary(&parts, &mark(&rubric, &facts));
    assert_eq!(empty.missing.len(), rubric.entries().len());
    assert_eq!(
        (empty.marks.as_str(), empty.of.as_str()),
        ("0", "of 0 so far")
    );
    assert!(
        empty.rest.starts_with("100 to come, 65 to pass"),
        "{}",
        empty.rest
    );
    assert!(!untouched_fault_lists(&rubric, &facts).is_empty());
    let filled = Facts {
        faults: untouched_fault_lists(&rubric, &facts)
            .into_iter()
            .filter_map(|(id, faults)| Some((id, faults?)))
            .collect(),
        ..Facts::default()
    };
    assert!(untouched_fault_lists(&rubric, &filled).is_empty());
}

#[test]
fn a_row_shows_the_reading_on_its_tolerance_with_the_reason() {
    let rubric = bar_shoe();
    let parts = plan(&rubric, Order::Rubric);
    let row = parts
        .iter()
        .flat_map(|part| &part.rows)
        .find(|row| matches!(row.form, RowForm::Readings { verdicts: true, .. }))
        .unwrap();
    let RowForm::Readings { inputs, .. } = &row.form else {
        unreachable!()
    };
    let mut facts = Facts::default();
    let text = |facts: &Facts| face(&rubric, row, facts, &mark(&rubric, facts), Unit::Millimetre);
    assert_eq!(
        (text(&facts).state, text(&facts).marks.as_str()),
        ("missing", "–")
    );
    facts
        .readings
        .insert(inputs[0].slot.clone(), vec![ReadingFact::of("thick")]);
    let wrong = text(&facts);
    assert!(wrong.is_wrong(&inputs[0].slot) && wrong.error_words().contains("not a number"));
    facts
        .readings
        .insert(inputs[0].slot.clone(), vec![ReadingFact::of("within")]);
    let within = text(&facts);
    assert_eq!(within.state, "valued");
    assert!(
        within.scale.is_some() && within.why.starts_with("by gauge"),
        "{}",
        within.why
    );
}

/// The depth of the fuller is two thirds of the thickness as measured; the width is
/// 5 1/8 in, which is 130.175 mm.
#[test]
fn a_row_says_what_is_asked_for_in_the_unit_of_the_sheet() {
    let rubric = bar_shoe();
    let parts = plan(&rubric, Order::Rubric);
    let rows: Vec<_> = parts.iter().flat_map(|part| &part.rows).collect();
    let asked = |id: &str, facts: &Facts, unit: Unit| {
        let row = rows.iter().find(|row| row.id == id).unwrap();
        face(&rubric, row, facts, &mark(&rubric, facts), unit).asked
    };
    let mut facts = Facts::default();
    let (mm, inch) = (Unit::Millimetre, Unit::Inch64);
    assert_eq!(asked("width", &facts, mm), "Asked for 130.18 mm.");
    assert_eq!(asked("width", &facts, inch), "Asked for 5 1/8 in.");
    assert_eq!(asked("branches", &facts, mm), "");
    assert_eq!(asked("fuller-depth", &facts, mm), "");
    let thickness = vec![ReadingFact::of("9.6")];
    facts.readings.insert("thickness".to_owned(), thickness);
    assert_eq!(asked("fuller-depth", &facts, mm), "Asked for 6.4 mm.");
}

#[test]
fn of_several_pauses_the_first_is_edited_and_the_others_stay() {
    let pause = |duration: &str, reason: &str| Pause {
        duration: duration.to_owned(),
        reason: reason.to_owned(),
    };
    let typed = |duration: &str, reason: &str| [duration.to_owned(), reason.to_owned()];
    let two = vec![pause("4 min", "fire out"), pause("2 min", "tongs broke")];
    assert_eq!(pause_texts(two.first()), typed("4 min", "fire out"));
    let after = with_first_pause(two.clone(), typed("5 min", "fire out"));
    assert_eq!(after, [pause("5 min", "fire out"), two[1].clone()]);
    assert_eq!(with_first_pause(two.clone(), typed("", "")), two[1..]);
    assert_eq!(
        with_first_pause(Vec::new(), typed("1", "")),
        [pause("1", "")]
    );
    assert_eq!(with_first_pause(Vec::new(), typed("", "")), []);
}

/// A series typed after its first member was said to be hot is hot as a whole.
#[test]
fn what_is_typed_into_a_hot_row_is_hot() {
    let hot = [ReadingFact {
        hot: true,
        ..ReadingFact::of("1")
    }];
    let after = with_text(&hot, &input(Some(1)), "2", &mm(true));
    assert!(after.iter().all(|reading| reading.hot));
    let repeats = with_text(&hot, &input(None), "1; 2", &mm(true));
    assert!(repeats.iter().all(|reading| reading.hot));
    let cold = with_text(&[], &input(Some(0)), "2", &mm(false));
    assert!(!cold[0].hot);
}
