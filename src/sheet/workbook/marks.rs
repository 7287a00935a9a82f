//! A row for each criterion of each marking.

use crate::marking::CriterionResult;
use crate::rubric::Entry;

use super::who::{IDS, Whose, fields, heads, ids, marks_and_exact};
use crate::sheet::criteria::reading;
use crate::sheet::readings::faults_words;
use crate::sheet::rows::{Field, Rows};
use crate::sheet::scored::Scored;
use crate::sheet::words::join;

const HEADS: [&str; 15] = [
    "Section",
    "Criterion",
    "Shoe",
    "Entered",
    "State",
    "Marks",
    "Exact",
    "Of",
    "Effect",
    "Reason",
    "Faults",
    "Comment",
    "Outcomes",
    "Section id",
    "Criterion id",
];

/// Every criterion of `markings`.
pub(super) fn rows(markings: &[Scored<'_>]) -> Rows {
    let own = HEADS.into_iter().chain(IDS).map(str::to_owned);
    let rows = markings.iter().flat_map(|scored| {
        let entries = scored.entries.iter().zip(&scored.outcome.criteria);
        entries.map(|(entry, result)| row(scored, entry, result))
    });
    Rows {
        columns: heads().chain(own).collect(),
        rows: rows.collect(),
    }
}

fn row(scored: &Scored<'_>, entry: &Entry<'_>, result: &CriterionResult) -> Vec<Field> {
    let who = Whose::itself(scored);
    let marking = who.marking;
    let [marks, exact] = marks_and_exact(result.marks);
    let comment = marking.comments.get(&entry.id);
    let shoe = entry.shoe.map(|shoe| shoe.name.as_str());
    let own = [
        Field::text(&entry.section.name),
        Field::text(&entry.criterion.name),
        Field::text(shoe.unwrap_or_default()),
        Field::text(reading(scored, entry, result)),
        Field::text(result.state.word()),
        marks,
        exact,
        Field::decimal(result.out_of.0),
        Field::text(effect(scored, &entry.id)),
        Field::text(&result.reason),
        Field::text(faults_words(entry, &marking.facts)),
        Field::text(comment.cloned().unwrap_or_default()),
        Field::text(entry.criterion.outcomes.join("; ")),
        Field::text(&entry.section.id),
        Field::text(&entry.id),
    ];
    fields(&who).chain(own).chain(ids(&who)).collect()
}

/// What meeting it does beside giving marks; empty where nothing.
fn effect(scored: &Scored<'_>, entry: &str) -> String {
    let stops = scored.outcome.stops.iter();
    let mut said: Vec<String> = stops
        .filter(|stop| stop.entry == entry)
        .map(|stop| match &stop.lifted {
            Some((by, why)) => format!("stop set aside by {by}: {why}"),
            None => "stops the award".to_owned(),
        })
        .collect();
    let warnings = scored.outcome.warnings.iter();
    match warnings.filter(|warned| *warned == entry).count() {
        0 => {}
        1 => said.push("warning".to_owned()),
        count => said.push(format!("{count} warnings")),
    }
    join(said, "; ")
}
