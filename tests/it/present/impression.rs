//! The card that asks for the first impression, and its row where it counts.

use evenshod::marking::{Facts, mark};
use evenshod::present::mark_sheet::{
    Face, ImpressionChoices, Order, face, impression_form, impression_state, next_choice, plan,
    typed_choice,
};
use evenshod::rubric::Rubric;

use crate::marking::facts;
use crate::rubric::impression::rubric;
use crate::rubric::sample::{read, with_root};

fn stands(table: &str, json: &str) -> (bool, String) {
    let state = impression_state(&rubric(table), &facts(json));
    (state.is_open, state.words)
}

#[test]
fn a_card_asks_where_the_rubric_does() {
    assert!(impression_form(&read(&with_root(""))).is_none());
    let form = impression_form(&rubric("ask = \"Well?\"\nmost = 3")).unwrap();
    assert_eq!(form.ask, "Well?");
    let tiles = ["0", "1", "2", "3"].map(str::to_owned).to_vec();
    assert_eq!(form.choices, ImpressionChoices::Tiles(tiles));
    // Up to 12 numbers are tiles.
    let is_typed = |table: &str| {
        let form = impression_form(&rubric(table)).unwrap();
        matches!(form.choices, ImpressionChoices::Typed(_))
    };
    assert!(!is_typed("most = 11"));
    assert!(is_typed("most = 12"));
    assert!(!is_typed("counts_as = \"whole\""));
    let form = impression_form(&rubric("counts_as = \"weld\"")).unwrap();
    assert_eq!(form.ask, "Weld, at a first look");
    let ImpressionChoices::Levels(levels) = form.choices else {
        panic!("levels are tiles");
    };
    assert_eq!(levels.len(), 2);
}

#[test]
fn it_says_how_it_stands() {
    let given = r#"{"impression": "7"}"#;
    let late = r#"{"readings": {"width": ["130"]}}"#;
    let both = r#"{"impression": "7", "readings": {"width": ["130"]}}"#;
    let words = |open: bool, text: &str| (open, text.to_owned());
    assert_eq!(stands("", "{}"), words(true, ""));
    assert_eq!(
        stands("", given),
        words(true, "First impression 7 of 10, locked once you measure.")
    );
    assert_eq!(
        stands("", both),
        words(false, "First impression 7 of 10, locked.")
    );
    assert_eq!(
        stands("", late),
        words(false, "No first impression was given before measuring.")
    );
    // What cannot be read is shown as it stands.
    assert_eq!(
        stands("most = 5", both),
        words(false, "First impression 7, locked.")
    );
}

fn face_of(rubric: &Rubric, entry: &str, facts: &Facts) -> Face {
    let parts = plan(rubric, Order::Rubric);
    let mut rows = parts.iter().flat_map(|part| &part.rows);
    let row = rows.find(|row| row.id == entry).unwrap();
    face(rubric, row, facts, &mark(rubric, facts), rubric.unit)
}

#[test]
fn the_row_that_counts_says_whether_it_came_first_and_is_locked_then() {
    let counts = rubric("counts_as = \"weld\"");
    let row = |json: &str| {
        let face = face_of(&counts, "weld", &facts(json));
        (face.first, face.locked)
    };
    let words = |text: &str, locked: bool| (text.to_owned(), locked);
    assert_eq!(row("{}"), words("", false));
    assert_eq!(
        row(r#"{"levels": {"weld": "sound"}, "impression": "sound"}"#),
        words(
            "Given as the first impression, locked once you measure.",
            false
        )
    );
    let first =
        r#"{"levels": {"weld": "sound"}, "impression": "sound", "readings": {"width": ["130"]}}"#;
    assert_eq!(
        row(first),
        words("Given as the first impression, and locked.", true)
    );
    assert_eq!(
        row(r#"{"readings": {"width": ["130"]}}"#),
        words(
            "Not given as the first impression; the sheet will say so.",
            false
        )
    );
    assert_eq!(
        row(r#"{"levels": {"weld": "sound"}, "readings": {"width": ["130"]}}"#),
        words("Given after measuring.", false)
    );
    let other = face_of(&counts, "whole", &facts(first));
    assert_eq!((other.first.as_str(), other.locked), ("", false));
}

#[test]
fn a_number_is_typed_or_gone_through() {
    let choices: Vec<String> = (0..=20)
        .map(|half| format!("{}", f64::from(half) / 2.0))
        .collect();
    assert_eq!(next_choice(&choices, "", true), "5");
    assert_eq!(next_choice(&choices, "7", true), "7.5");
    assert_eq!(next_choice(&choices, "7,5", false), "7");
    assert_eq!(next_choice(&choices, "0", false), "0");
    assert_eq!(next_choice(&choices, "10", true), "10");
    assert_eq!(next_choice(&[], "10", true), "");
    assert_eq!(typed_choice(&choices, " 15/2 "), Ok("7.5".to_owned()));
    assert_eq!(
        typed_choice(&choices, "7.3"),
        Err("`7.3` cannot be given; use 0 to 10 in steps of 0.5.".to_owned())
    );
}
