use crate::marking::{Facts, impression_is_locked, impression_number, is_counted_first};
use crate::quantity::Marks;
use crate::rubric::{FirstImpression, Judged, Kind, Rubric};
use crate::sheet::impression_words;

use super::tiles::{LevelTile, level_tiles, sentences};

/// More numbers than these are typed, as nobody looks through so many tiles.
const MOST_TILES: usize = 12;

/// What is asked at a first look, as far as the rubric says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ImpressionForm {
    /// The question.
    pub ask: String,
    /// What to know of it.
    pub about: String,
    /// What there is to choose from.
    pub choices: ImpressionChoices,
}

/// What there is to choose from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ImpressionChoices {
    /// Levels of the criterion that it counts as.
    Levels(Vec<LevelTile>),
    /// Numbers, each a tile.
    Tiles(Vec<String>),
    /// Numbers, to type or to go through step by step.
    Typed(Vec<String>),
}

/// How the first impression stands.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct ImpressionState {
    /// What is given; `None` while nothing is.
    pub given: Option<String>,
    /// Whether it may still be given, changed and taken away.
    pub is_open: bool,
    /// That in words; empty where it is simply asked for.
    pub words: String,
}

/// What `rubric` asks for at a first look; `None` where it asks for nothing.
pub fn impression_form(rubric: &Rubric) -> Option<ImpressionForm> {
    let numbers = |allowed: &[Marks]| {
        let words = allowed.iter().map(ToString::to_string).collect();
        if allowed.len() > MOST_TILES {
            ImpressionChoices::Typed(words)
        } else {
            ImpressionChoices::Tiles(words)
        }
    };
    match rubric.first_impression.as_ref()? {
        FirstImpression::Apart { ask, allowed } => Some(ImpressionForm {
            ask: ask.clone(),
            about: "Before anything is measured. It gives no marks and may be left out.".to_owned(),
            choices: numbers(allowed),
        }),
        FirstImpression::Counts { .. } => {
            let counted = rubric.counted_impression()?;
            let choices = match &counted.criterion.kind {
                Kind::Judged(Judged::Numbers { allowed, .. }) => numbers(allowed),
                _ => ImpressionChoices::Levels(level_tiles(counted.criterion)),
            };
            let counts = "It counts. Given before anything is measured, it is locked from then on.";
            Some(ImpressionForm {
                ask: format!("{}, at a first look", counted.name()),
                about: sentences([
                    Some(counted.criterion.note.clone()),
                    Some(counts.to_owned()),
                ]),
                choices,
            })
        }
    }
}

/// How the first impression stands for `facts`.
pub fn impression_state(rubric: &Rubric, facts: &Facts) -> ImpressionState {
    let is_open = !impression_is_locked(Some(rubric), facts);
    let given = facts.impression.clone();
    let said = impression_words(rubric, facts).or_else(|| given.clone());
    let words = match (said, is_open) {
        (Some(said), true) => format!("First impression {said}, locked once you measure."),
        (Some(said), false) => format!("First impression {said}, locked."),
        (None, true) => String::new(),
        (None, false) => "No first impression was given before measuring.".to_owned(),
    };
    ImpressionState {
        given,
        is_open,
        words,
    }
}

/// What the row of the criterion says that counts as the first impression, and whether its
/// level is locked; nothing for every other row.
pub(super) fn row_impression(rubric: &Rubric, row: &str, facts: &Facts) -> (String, bool) {
    let counted = rubric.counted_impression();
    if counted.is_none_or(|counted| counted.id != row) {
        return (String::new(), false);
    }
    let is_locked = impression_is_locked(Some(rubric), facts);
    let words = match (is_counted_first(rubric, facts), is_locked) {
        (true, true) => "Given as the first impression, and locked.",
        (true, false) => "Given as the first impression, locked once you measure.",
        (false, true) if facts.levels.contains_key(row) => "Given after measuring.",
        (false, true) => "Not given as the first impression; the sheet will say so.",
        (false, false) => "",
    };
    (
        words.to_owned(),
        is_locked && is_counted_first(rubric, facts),
    )
}

/// The choice above or below `text`; the middle one where it is none of them.
pub fn next_choice(choices: &[String], text: &str, up: bool) -> String {
    let here = typed_choice(choices, text).ok();
    let at = choices
        .iter()
        .position(|choice| here.as_ref() == Some(choice));
    let next = match at {
        None => choices.len() / 2,
        Some(at) if up => at + 1,
        Some(at) => at.saturating_sub(1),
    };
    let next = choices.get(next).or_else(|| choices.last());
    next.cloned().unwrap_or_default()
}

/// The choice that `text` says, however it is written. An error says what would do.
pub fn typed_choice(choices: &[String], text: &str) -> Result<String, String> {
    let allowed: Vec<Marks> = choices.iter().filter_map(|one| one.parse().ok()).collect();
    match impression_number(&allowed, text) {
        Ok(given) => Ok(given.to_string()),
        Err(wrong) => Err(sentences([Some(wrong)])),
    }
}
