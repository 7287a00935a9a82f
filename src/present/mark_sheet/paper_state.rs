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
/// the examiner gives; the rest is the reason.
pub(super) fn state_in(text: &str) -> Option<StateFact> {
    let (letters, said) = first_word(text);
    let letters = letters.to_lowercase();
    let (_, state) = LETTERS.into_iter().find(|(own, _)| *own == letters)?;
    let (number, rest) = first_word(said);
    let has_marks = state == State::CannotMeasure && read_exact(number).is_ok();
    let (marks, reason) = if has_marks {
        (Some(number.to_owned()), rest)
    } else {
        (None, said)
    };
    Some(StateFact {
        state,
        reason: (!reason.is_empty()).then(|| reason.to_owned()),
        marks,
    })
}

/// `fact` as it is written on paper.
pub(super) fn state_words(fact: &StateFact) -> String {
    let letters = LETTERS.iter().find(|(_, state)| *state == fact.state);
    let letters = letters.map_or("", |(letters, _)| letters);
    let said = [fact.marks.as_deref(), fact.reason.as_deref()];
    let said = said.into_iter().flatten().map(str::trim);
    let said = said.filter(|text| !text.is_empty());
    let words: Vec<&str> = std::iter::once(letters).chain(said).collect();
    words.join(" ")
}

fn first_word(text: &str) -> (&str, &str) {
    let text = text.trim();
    let (word, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    (word, rest.trim())
}
