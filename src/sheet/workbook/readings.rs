//! A row for each reading that was written, and for each count and duration.

use crate::conformity::reading_uncertainty;
use crate::marking::{ReadingFact, read_fact, taken_with};
use crate::quantity::{Dimension, Exact, Quantity, Reading, Unit, read_quantity};
use crate::rubric::{Entry, Kind, Slot};

use super::who::{IDS, Whose, fields, heads, ids};
use crate::sheet::readings::with_unit;
use crate::sheet::rows::{Field, Rows};
use crate::sheet::scored::Scored;

const HEADS: [&str; 15] = [
    "Section",
    "Criterion",
    "Reading",
    "Shoe",
    "No.",
    "Typed",
    "Unit typed",
    "Value",
    "From",
    "To",
    "Unit",
    "Instrument",
    "Standard uncertainty",
    "Taken hot",
    "Comment",
];

/// Every reading of `markings`; of an agreed one those of its sources.
pub(super) fn rows(markings: &[Scored<'_>]) -> Rows {
    let own = HEADS.into_iter().chain(IDS).chain(["Reading id"]);
    let rows = markings.iter().flat_map(Whose::measuring);
    let rows = rows.flat_map(|who| {
        let mut rows = Vec::new();
        for slot in &who.scored.slots {
            rows.extend(of_slot(&who, slot));
        }
        let entries = who.scored.entries.iter();
        rows.extend(entries.filter_map(|entry| of_tally(&who, entry)));
        rows
    });
    Rows {
        columns: heads().chain(own.map(str::to_owned)).collect(),
        rows: rows.collect(),
    }
}

/// One reading with what it says.
struct Taken {
    number: usize,
    typed: String,
    unit_typed: String,
    value: Option<Exact>,
    ends: Option<(Exact, Exact)>,
    unit: &'static str,
    instrument: String,
    uncertainty: Option<f64>,
    is_hot: bool,
}

fn of_slot(who: &Whose<'_>, slot: &Slot<'_>) -> Vec<Vec<Field>> {
    let readings = who.marking.facts.readings.get(&slot.id);
    let written = readings
        .into_iter()
        .flatten()
        .filter(|one| one.is_written());
    let asked = slot.asked_by.as_deref();
    let entry = who
        .scored
        .entries
        .iter()
        .find(|entry| Some(entry.id.as_str()) == asked);
    let section = entry.map_or("", |entry| &entry.section.name);
    let criterion = entry.map_or("", |entry| &entry.criterion.name);
    let shoe = slot.shoe.map_or("", |shoe| &shoe.name);
    // What is written on a criterion stands with its marks.
    let comments = &who.marking.comments;
    let comment = comments.get(&slot.id).filter(|_| asked != Some(&slot.id));
    let rows = (1..).zip(written).map(|(number, fact)| {
        let head = [section, criterion, &slot.name, shoe];
        row(
            who,
            head,
            &taken(who, slot, number, fact),
            comment,
            &slot.id,
        )
    });
    rows.collect()
}

fn taken(who: &Whose<'_>, slot: &Slot<'_>, number: usize, fact: &ReadingFact) -> Taken {
    let rubric = who.scored.rubric;
    let unit = slot.dimension.usual_unit();
    let in_unit = |quantity: Quantity| quantity.base.over(unit.in_base());
    let said = read_fact(slot, fact, rubric.unit).ok();
    let (value, ends) = match said {
        Some(Reading::Value(quantity)) => (in_unit(quantity), None),
        Some(Reading::Interval { from, to }) => (None, in_unit(from).zip(in_unit(to))),
        Some(Reading::Verdict { .. }) | None => (None, None),
    };
    let instrument = taken_with(rubric, &who.marking.facts, slot, fact);
    let has_value = value.is_some() || ends.is_some();
    // In the base unit of the dimension, until it is put into the file's.
    let width = ends.map_or(0.0, |(from, to)| to.to_f64() - from.to_f64());
    let uncertainty = instrument.as_ref().filter(|_| has_value);
    let uncertainty = uncertainty.map(|found| {
        let base = unit.in_base().to_f64();
        reading_uncertainty(found, width * base / 2.0) / base
    });
    Taken {
        number,
        typed: fact.text.trim().to_owned(),
        unit_typed: if has_value {
            unit_typed(
                &fact.text,
                slot.dimension,
                fact.meant(slot.dimension, rubric.unit),
            )
        } else {
            String::new()
        },
        value,
        ends,
        unit: if has_value { unit.symbol() } else { "" },
        instrument: instrument.map_or_else(
            || fact.instrument.clone().unwrap_or_default(),
            |found| found.name,
        ),
        uncertainty,
        is_hot: fact.hot,
    }
}

/// The unit that a text names after its number, or else what a bare number in it means.
fn unit_typed(text: &str, dimension: Dimension, meant: Unit) -> String {
    let whole = with_unit(text, dimension, meant);
    let is_number = |c: char| c.is_numeric() || c == '.' || c == ',';
    let unit = whole.rsplit(is_number).next();
    unit.unwrap_or_default().trim().to_owned()
}

fn of_tally(who: &Whose<'_>, entry: &Entry<'_>) -> Option<Vec<Field>> {
    let Kind::Tally(tally) = &entry.criterion.kind else {
        return None;
    };
    let text = who.marking.facts.tally(tally, &entry.id)?;
    let text = text.trim();
    let unit = tally.dimension.usual_unit();
    let value = read_quantity(text, tally.dimension, unit).ok();
    let value = value.and_then(|value| value.base.over(unit.in_base()));
    let taken = Taken {
        number: 1,
        typed: text.to_owned(),
        unit_typed: unit_typed(text, tally.dimension, unit),
        value,
        ends: None,
        unit: unit.symbol(),
        instrument: String::new(),
        uncertainty: None,
        is_hot: false,
    };
    let name = entry.criterion.name.as_str();
    let shoe = entry.shoe.map_or("", |shoe| &shoe.name);
    let head = [entry.section.name.as_str(), name, name, shoe];
    Some(row(who, head, &taken, None, &entry.id))
}

fn row(
    who: &Whose<'_>,
    head: [&str; 4],
    taken: &Taken,
    comment: Option<&String>,
    id: &str,
) -> Vec<Field> {
    let decimal = |value: Option<Exact>| value.map_or_else(Field::empty, Field::decimal);
    let (from, to) = taken.ends.unzip();
    let own = [
        Field::whole(taken.number),
        Field::text(&taken.typed),
        Field::text(&taken.unit_typed),
        decimal(taken.value),
        decimal(from),
        decimal(to),
        Field::text(taken.unit),
        Field::text(&taken.instrument),
        taken.uncertainty.map_or_else(Field::empty, Field::measure),
        Field::text(if taken.is_hot { "yes, not used" } else { "" }),
        Field::text(comment.cloned().unwrap_or_default()),
    ];
    let all = fields(who).chain(head.map(Field::text)).chain(own);
    all.chain(ids(who)).chain([Field::text(id)]).collect()
}
