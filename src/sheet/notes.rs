//! What stands under the criteria: other readings, time, causes, faults with what to
//! practise, comments, cautions.

use crate::marking::instrument;
use crate::quantity::{Dimension, Marks, Unit};
use crate::rubric::{Fault, Instrument};

use super::criteria::about_uncertainty;
use super::document::{Block, Cell, Fact, Item, plain_table, text};
use super::readings::{slot_words, with_unit};
use super::scored::{Scored, heading};
use super::stated::StatedReadings;
use super::words::{figures_words, join, marks_words};

/// What stands after ±, readings that no criterion shows, and the instruments.
pub(super) fn how_measured(scored: &Scored<'_>) -> Vec<Block> {
    let series = [other_readings(scored), measured_with(scored)].into_iter();
    let series = series.filter(|facts| !facts.is_empty()).map(Block::Series);
    let blocks: Vec<Block> = about_uncertainty(scored)
        .into_iter()
        .chain(series)
        .collect();
    if blocks.is_empty() {
        return blocks;
    }
    [vec![heading("How it was measured")], blocks].concat()
}

/// Readings that are taken for others and stand beside no criterion.
fn other_readings(scored: &Scored<'_>) -> Vec<Fact> {
    let said = scored.entries.iter().flat_map(|entry| {
        let own = entry.criterion.measured().into_iter();
        own.map(|reading| scored.rubric.slot_id(entry, reading))
    });
    let said: Vec<String> = said.collect();
    let named = scored.slots.iter().filter(|slot| slot.is_named);
    let named = named.filter(|slot| !said.contains(&slot.id));
    let facts = named.map(|slot| {
        let said = slot_words(scored.rubric, slot, &scored.parts.marking.facts);
        Fact {
            label: slot.full_name().into(),
            value: if said.is_empty() {
                "no reading".to_owned()
            } else {
                said
            },
        }
    });
    facts.collect()
}

/// The instruments of all readings, in the order of their use.
pub(super) fn instruments_used(scored: &Scored<'_>) -> Vec<Instrument> {
    let marking = scored.parts.marking;
    let mut used: Vec<&str> = Vec::new();
    for slot in &scored.slots {
        let readings = marking.facts.readings.get(&slot.id).into_iter().flatten();
        let written = readings.filter(|reading| reading.is_written());
        for id in written.filter_map(|one| one.instrument.as_deref().or(slot.instrument)) {
            if !used.contains(&id) {
                used.push(id);
            }
        }
    }
    let used = used.into_iter();
    used.filter_map(|id| instrument(scored.rubric, &marking.facts, id))
        .collect()
}

/// The instruments of all readings with their figures; where all of these come from one
/// source, that is said once.
fn measured_with(scored: &Scored<'_>) -> Vec<Fact> {
    let mut used = instruments_used(scored);
    let source = used.first().map_or("", |first| &first.source).to_owned();
    let is_one = !source.is_empty() && used.len() > 1;
    let is_shared = is_one && used.iter().all(|found| found.source == source);
    if is_shared {
        used.iter_mut().for_each(|found| found.source.clear());
    }
    let facts = used.into_iter().map(|found| Fact {
        value: figures_of(scored, &found),
        label: found.name.into(),
    });
    let said = is_shared.then(|| Fact {
        label: "All these figures".into(),
        value: source,
    });
    facts.chain(said).collect()
}

/// The figures of an instrument, or what its readings say in their place.
fn figures_of(scored: &Scored<'_>, instrument: &Instrument) -> String {
    let unit = scored.parts.marking.unit;
    let (facts, id) = (scored.facts(), instrument.id.as_str());
    let stated = StatedReadings::of(scored.rubric, facts, &scored.slots, id);
    let Some(own) = stated.words(unit.or_usual(instrument.dimension())) else {
        return figures_words(instrument, unit);
    };
    let own = format!("{own}, as each reading states it");
    match stated.has_others {
        true => join([&own, &figures_words(instrument, unit)], "; else "),
        false => join([&own, &instrument.source], "; "),
    }
}

/// Times when the clock stood and time added, each with its reason.
pub(super) fn time_facts(scored: &Scored<'_>) -> Vec<Block> {
    let facts = &scored.parts.marking.facts;
    let say = |text: &str| with_unit(text, Dimension::Duration, Unit::Minute);
    let pauses = facts.pauses.iter().map(|pause| {
        Item::about(
            format!("Clock stood {}", say(&pause.duration)),
            &pause.reason,
        )
    });
    let extra = facts.extra_time.iter().map(|extra| {
        Item::about(
            format!("Extra time {}", say(&extra.duration)),
            &extra.reason,
        )
    });
    with_heading("Time", pauses.chain(extra).collect())
}

/// Cause groups that gave marks back.
pub(super) fn charged_once(scored: &Scored<'_>) -> Vec<Block> {
    let items = scored.outcome.charged_once.iter().map(|cause| {
        let back = cause.lost.minus(cause.charged).unwrap_or(Marks::ZERO);
        let text = format!(
            "lost {} together, charged {}, given back {}",
            marks_words(cause.lost),
            cause.charged,
            back
        );
        Item::about(&cause.name, &text)
    });
    with_heading("One error, charged once", items.collect())
}

/// Faults seen, each with its usual cause and what to practise.
pub(super) fn faults_and_practice(scored: &Scored<'_>) -> Vec<Block> {
    let mut rows = Vec::new();
    for (entry, result) in scored.entries.iter().zip(&scored.outcome.criteria) {
        for (id, times) in &result.faults {
            let faults = &entry.criterion.faults;
            if let Some(fault) = faults.iter().find(|fault| &fault.id == id) {
                rows.push(fault_row(scored, &entry.name(), fault, *times));
            }
        }
    }
    if rows.is_empty() {
        return Vec::new();
    }
    let columns = ["Fault", "Usual cause, by making step", "Practise"].map(text);
    let title = "Faults, causes and practice";
    let table = plain_table(title.to_owned(), columns.to_vec(), rows);
    vec![heading(title), Block::Table(table)]
}

fn fault_row(scored: &Scored<'_>, entry: &str, fault: &Fault, times: u32) -> Vec<Cell> {
    let often = if times > 1 {
        format!(", {times} times")
    } else {
        String::new()
    };
    let step = fault.step.as_deref().and_then(|id| scored.rubric.step(id));
    let step = step.map_or("", |step| step.name.as_str());
    vec![
        Cell::text(format!("{entry}: {}{often}", fault.name)),
        Cell::text(join([step, &fault.cause], ": ")),
        Cell::text(&fault.remedy),
    ]
}

/// What the examiner wrote, on the whole first.
pub(super) fn comments(scored: &Scored<'_>) -> Vec<Block> {
    let marking = scored.parts.marking;
    let overall = marking
        .overall
        .as_ref()
        .map(|text| Item::about("On the whole", text));
    let in_order = scored.entries.iter().filter_map(|entry| {
        let text = marking.comments.get(&entry.id)?;
        Some(Item::about(entry.name(), text))
    });
    // Comments on readings, and on what the rubric does not have, come last.
    let of_entry = |id: &str| scored.entries.iter().any(|entry| entry.id == id);
    let others = marking.comments.iter().filter(|(id, _)| !of_entry(id));
    let others = others.map(|(id, text)| Item::about(scored.name_of(id), text));
    let items = overall.into_iter().chain(in_order).chain(others);
    let heading = if scored.is_own() {
        "What the maker says"
    } else {
        "What the examiner says"
    };
    with_heading(heading, items.collect())
}

/// What a person who holds the sheet must know.
pub(super) fn cautions(scored: &Scored<'_>) -> Vec<Block> {
    let whose = if scored.is_own() {
        "Marks are the maker’s own; they stand for nobody else’s."
    } else {
        "Marks are the examiner’s; the college’s or awarding body’s rules decide."
    };
    let fixed = [
        "Practice specimen. Fit to a horse only as law allows and, for therapeutic patterns, \
         under veterinary direction.",
        whose,
        "Measure and handle steel cold: black heat burns.",
    ];
    let own = scored.rubric.cautions.iter().map(String::as_str);
    let said = join(fixed.into_iter().chain(own), " ");
    vec![heading("Cautions"), Block::Paragraph(said)]
}

fn with_heading(text: &str, items: Vec<Item>) -> Vec<Block> {
    if items.is_empty() {
        return Vec::new();
    }
    vec![heading(text), Block::Items(items)]
}
