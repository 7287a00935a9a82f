//! What an examiner writes beside the marks.

use super::chance::Chance;
use crate::marking::{CriterionResult, Marking, ResultState};
use crate::piece::Place;
use crate::quantity::{Dimension, Exact, Marks};
use crate::rubric::{Entry, Kind, Rubric};

/// Said of a piece that was withdrawn.
pub(super) const WITHDRAWN: &str =
    "Withdrawn by the maker: the second branch was burnt. Marked as far as it went.";
/// Said of a piece that was stopped.
pub(super) const STOPPED: &str =
    "Stopped for safety and talked through. Nobody hurt. To be made again from fresh stock.";

/// Now and then a word on one entry.
pub(super) fn on_entry(
    entry: &Entry<'_>,
    result: &CriterionResult,
    chance: &mut Chance,
) -> Option<String> {
    let marks = result.marks?;
    let half = Exact::fraction(1, 2).and_then(|half| result.out_of.times(half))?;
    let is_work =
        entry.criterion.scale().is_some() || matches!(entry.criterion.kind, Kind::Judged(_));
    let words: &[&str] = if result.state != ResultState::Valued || result.out_of == Marks::ZERO {
        return None;
    } else if marks == result.out_of {
        (is_work && chance.happens(15)).then_some(&GOOD)?
    } else if marks <= half {
        chance.happens(110).then_some(poor(entry))?
    } else {
        return None;
    };
    chance.pick(words).map(|text| (*text).to_owned())
}

const GOOD: [&str; 3] = [
    "Nothing to mend here.",
    "Well seen and well done.",
    "As asked.",
];

fn poor(entry: &Entry<'_>) -> &'static [&'static str] {
    match &entry.criterion.kind {
        Kind::Tally(tally) if tally.dimension == Dimension::Duration => &[
            "Time went at the fire, not at the anvil.",
            "Begin with the plan and the clock is kind.",
        ],
        Kind::Tally(_) => &[
            "Say before each heat what it is for.",
            "Two heats went on looking for the tongs.",
        ],
        Kind::Faults(_) => &[
            "Talked through at the anvil.",
            "Look it over before it is handed in.",
        ],
        _ => poor_work(entry.criterion.place),
    }
}

fn poor_work(place: Option<Place>) -> &'static [&'static str] {
    match place {
        Some(Place::Toe) => &[
            "The middle mark was lost at the toe.",
            "Toe worked after it had gone black.",
        ],
        Some(Place::Branches) => &[
            "Second branch turned in a hurry.",
            "Look at both branches over the mark before you go on.",
        ],
        Some(Place::Heels) => &[
            "Heels left to the end again.",
            "Check the heels against each other while there is heat.",
        ],
        Some(Place::Bar) => &[
            "Bar dressed cold.",
            "More heat in the bar, and it will come flat by itself.",
        ],
        Some(Place::Fuller) => &[
            "Fuller wanders where the handle was let go.",
            "Chalk the line before the first blow.",
        ],
        Some(Place::NailHoles) => &[
            "Stamp held out of upright.",
            "Mark all holes before the first is stamped.",
        ],
        Some(Place::Clips) => &[
            "Clip drawn from too little metal.",
            "Keep the corner of the anvil square under the clip.",
        ],
        None => &[
            "Measure sooner; it can still be put right then.",
            "Slow down here.",
        ],
    }
}

/// Mostly a word on the whole.
pub(super) fn on_whole(
    rubric: &Rubric,
    entries: &[Entry<'_>],
    marked: &Marking,
    last: Option<Exact>,
    chance: &mut Chance,
) -> Option<String> {
    if !chance.happens(650) {
        return None;
    }
    let percent = marked.percent;
    let words: &[&str] = if percent >= Exact::whole(85) {
        &[
            "A sound shoe that I would nail on.",
            "Tidy work, and the fire kept in hand throughout.",
            "Clean and close to the drawing.",
        ]
    } else if percent >= Exact::whole(65) {
        &[
            "A fair shoe.",
            "Sound work with one or two things to put right.",
            "Good plan, and kept to.",
        ]
    } else if percent >= Exact::whole(45) {
        &[
            "The form is there; the sizes are not yet.",
            "Too many heats, and it shows.",
            "A start. Measure before each branch is turned.",
        ]
    } else {
        &[
            "Not yet a shoe to fit. Make it again, slower.",
            "Worked too cold from the toe on.",
        ]
    };
    let mut said = vec![chance.pick(words).copied().unwrap_or_default().to_owned()];
    let five = Exact::whole(5);
    let change = last.and_then(|last| percent.minus(last));
    match change {
        Some(change) if change >= five => said.push("Better than the last one.".to_owned()),
        Some(change) if change <= five.negated() => {
            said.push("The last one was better.".to_owned())
        }
        _ => {}
    }
    let step = lost_by_step(entries, marked).and_then(|id| rubric.step(id));
    if let Some(step) = step.filter(|_| percent < Exact::whole(85)) {
        said.push(format!("Practise next: {}.", lower_first(&step.name)));
    }
    Some(said.join(" "))
}

/// The making step that lost most marks in `marked`.
fn lost_by_step<'r>(entries: &[Entry<'r>], marked: &Marking) -> Option<&'r str> {
    let mut lost: Vec<(&str, Exact)> = Vec::new();
    for (entry, result) in entries.iter().zip(&marked.criteria) {
        let step = entry.criterion.step.as_deref();
        let gap = result.marks.and_then(|marks| result.out_of.minus(marks));
        let (Some(step), Some(gap)) = (step, gap) else {
            continue;
        };
        match lost.iter_mut().find(|(known, _)| *known == step) {
            Some((_, sum)) => *sum = sum.plus(gap.0).unwrap_or(*sum),
            None => lost.push((step, gap.0)),
        }
    }
    // The first of equal ones, in the order of the sheet.
    lost.reverse();
    lost.into_iter()
        .max_by_key(|(_, gap)| *gap)
        .map(|(step, _)| step)
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_lowercase().chain(letters).collect(),
        None => String::new(),
    }
}
