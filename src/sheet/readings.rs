//! What was typed, with its unit.

use crate::marking::{Facts, ReadingFact, instrument};
use crate::quantity::{Dimension, Unit};
use crate::rubric::{Entry, Judged, Kind, Rubric, Slot};

use super::words::join;

/// The readings of one slot as typed, each with its unit.
pub(super) fn slot_words(rubric: &Rubric, slot: &Slot<'_>, facts: &Facts) -> String {
    let readings = facts.readings.get(&slot.id).map_or(&[][..], Vec::as_slice);
    let said = readings
        .iter()
        .filter(|fact| fact.is_written())
        .map(|fact| one(rubric, slot, facts, fact));
    said.collect::<Vec<_>>().join(", ")
}

fn one(rubric: &Rubric, slot: &Slot<'_>, facts: &Facts, fact: &ReadingFact) -> String {
    let unit = fact.unit.unwrap_or(rubric.unit).or_usual(slot.dimension);
    let text = with_unit(&fact.text, slot.dimension, unit);
    let other = fact
        .instrument
        .as_deref()
        .filter(|id| slot.instrument != Some(id))
        .map(|id| match instrument(rubric, facts, id) {
            Some(instrument) => format!(" with {}", instrument.name.to_lowercase()),
            None => format!(" with {id}"),
        });
    let hot = if fact.hot {
        " (taken hot, not used)"
    } else {
        ""
    };
    format!("{text}{}{hot}", other.unwrap_or_default())
}

/// A text as typed with the unit that a bare number in it means; a text that names
/// its unit, or is no number, stays as it is.
pub(super) fn with_unit(text: &str, dimension: Dimension, unit: Unit) -> String {
    let text = text.trim();
    let of = |part: &str| bare_unit(part.trim(), dimension, unit);
    let ends = text.split_once("..").or_else(|| text.split_once('…'));
    let symbol = match ends {
        None => of(text),
        Some((from, to)) => match (of(from), of(to)) {
            (Some(from), Some(to)) if from == to => Some(to),
            (Some(low), Some(high)) => return format!("{from} {low}..{to} {high}"),
            _ => None,
        },
    };
    match symbol {
        Some(symbol) if !symbol.is_empty() => format!("{text} {symbol}"),
        _ => text.to_owned(),
    }
}

/// The unit of a part that is nothing but a number.
fn bare_unit(part: &str, dimension: Dimension, unit: Unit) -> Option<&'static str> {
    let is_vulgar = |c: char| "½¼¾⅓⅔⅛⅜⅝⅞".contains(c);
    let is_bare =
        |c: char| c.is_ascii_digit() || ".,/⁄-−+ \u{a0}\u{202f}".contains(c) || is_vulgar(c);
    let has_number = part.contains(|c: char| c.is_ascii_digit() || is_vulgar(c));
    if !has_number || !part.chars().all(is_bare) {
        return None;
    }
    let is_fraction = part.contains(|c: char| c == '/' || c == '⁄' || is_vulgar(c));
    Some(if is_fraction && dimension == Dimension::Length {
        Unit::Inch64.symbol()
    } else {
        unit.symbol()
    })
}

/// What was entered for an entry, in words; empty where nothing was.
pub(super) fn entry_words(
    rubric: &Rubric,
    entry: &Entry<'_>,
    slots: &[Slot<'_>],
    facts: &Facts,
) -> String {
    let criterion = entry.criterion;
    match &criterion.kind {
        Kind::Toleranced(_) | Kind::Paired(_) | Kind::Spread(_) => {
            let sides: &[&str] = if matches!(criterion.kind, Kind::Paired(_)) {
                &["left ", "right "]
            } else {
                &[""]
            };
            let said = criterion.measured().into_iter().zip(sides);
            let said = said.map(|(reading, side)| {
                let id = rubric.slot_id(entry, reading);
                let slot = slots.iter().find(|slot| slot.id == id);
                let words = slot.map_or_else(String::new, |slot| slot_words(rubric, slot, facts));
                if words.is_empty() {
                    words
                } else {
                    format!("{side}{words}")
                }
            });
            join(said.collect::<Vec<_>>(), "; ")
        }
        Kind::Tally(tally) => {
            let text = facts.tally(tally, &entry.id).unwrap_or_default();
            let unit = tally.dimension.usual_unit();
            with_unit(&text, tally.dimension, unit)
        }
        Kind::Judged(judged) => {
            let given = facts.levels.get(&entry.id).map_or("", String::as_str);
            level_name(judged, given)
        }
        Kind::Faults(_) => match facts.faults.get(&entry.id) {
            None => String::new(),
            Some(faults) if faults.is_empty() => "none seen".to_owned(),
            Some(_) => faults_words(entry, facts),
        },
    }
}

pub(super) fn level_name(judged: &Judged, given: &str) -> String {
    match judged {
        Judged::Levels(levels) => levels
            .iter()
            .find(|level| level.id == given)
            .map_or(given, |level| level.name.as_str())
            .to_owned(),
        Judged::Numbers { .. } => given.to_owned(),
    }
}

/// Names of the faults noted at an entry, each once, with how often.
pub(super) fn faults_words(entry: &Entry<'_>, facts: &Facts) -> String {
    let noted = facts.faults.get(&entry.id).map_or(&[][..], Vec::as_slice);
    let mut ids: Vec<&str> = Vec::new();
    for id in noted {
        if !ids.contains(&id.as_str()) {
            ids.push(id);
        }
    }
    let said = ids.into_iter().map(|id| {
        let fault = entry.criterion.faults.iter().find(|fault| fault.id == id);
        let name = fault.map_or(id, |fault| fault.name.as_str());
        match noted.iter().filter(|other| *other == id).count() {
            0 | 1 => name.to_owned(),
            times => format!("{name} ({times} times)"),
        }
    });
    said.collect::<Vec<_>>().join(", ")
}
