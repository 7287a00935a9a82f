//! States as they are written on paper: two letters, then what is said about it.

use crate::marking::{State, StateFact};
use crate::quantity::read_exact;

/// The letters of each state.
const LETTERS: [(&str, State); 3] = [
    ("nm", State::NotMade),
    ("cm", State::CannotMeasure),
    ("na", State::NotApplicable),
];

/// The state that `text` writes: `nm`, `na`, `cm 2 bar broken off`; `None` where it
/// writes none. Of what cannot be measured, a number after the letters is the marks that
/// the examiner gives; the rest is the reason. A colon may part them: `cm 2: 3 holes gone`.
pub(super) fn state_in(text: &str) -> Option<StateFact> {
    let (letters, said) = first_word(text);
    let letters = letters.to_lowercase();
    let (_, state) = LETTERS.into_iter().find(|(own, _)| *own == letters)?;
    let (marks, reason) = match state {
        State::CannotMeasure => marks_in(said),
        State::NotMade | State::NotApplicable => (None, said),
    };
    Some(StateFact {
        state,
        reason: (!reason.is_empty()).then(|| reason.to_owned()),
        marks: marks.map(str::to_owned),
    })
}

/// The marks that `said` begins with, `2` or `1 1/2`, and the rest.
fn marks_in(said: &str) -> (Option<&str>, &str) {
    let is_number = |text: &str| read_exact(text).is_ok();
    if let Some((marks, reason)) = said.split_once(':') {
        let marks = marks.trim();
        if marks.is_empty() || is_number(marks) {
            return (Some(marks).filter(|marks| !marks.is_empty()), reason.trim());
        }
    }
    let (first, rest) = first_word(said);
    let (_, after) = first_word(rest);
    let both = said.strip_suffix(after).map_or("", str::trim);
    let numbers = [(both, after), (first, rest)];
    let found = numbers.into_iter().find(|(number, _)| is_number(number));
    found.map_or((None, said), |(number, rest)| (Some(number), rest))
}

/// `fact` as it is written on paper; with a colon where it would be read as another without.
pub(super) fn state_words(fact: &StateFact) -> String {
    let letters = LETTERS.iter().find(|(_, state)| *state == fact.state);
    let letters = letters.map_or("", |(letters, _)| letters);
    let part = |text: &Option<String>| text.as_deref().unwrap_or_default().trim().to_owned();
    let (marks, reason) = (part(&fact.marks), part(&fact.reason));
    let words = [letters, &marks, &reason];
    let words: Vec<&str> = words.into_iter().filter(|text| !text.is_empty()).collect();
    let plain = words.join(" ");
    if state_in(&plain).is_some_and(|read| part(&read.marks) == marks) {
        plain
    } else {
        format!("{letters} {marks}: {reason}")
    }
}

fn first_word(text: &str) -> (&str, &str) {
    let text = text.trim();
    let (word, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    (word, rest.trim())
}
