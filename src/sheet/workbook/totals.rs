//! A row for each marking.

use crate::marking::counted;
use crate::quantity::{Dimension, Exact, Quantity};
use crate::records::Ended;
use crate::rubric::Kind;

use super::who::{IDS, Whose, fields, heads, ids, marks_and_exact};
use crate::sheet::rows::{Field, Rows, first_impression, handed};
use crate::sheet::scored::Scored;
use crate::sheet::words::{capital, join};

const HEADS: [&str; 13] = [
    "Sitting",
    "Sitting name",
    "Ended",
    "Total",
    "Exact",
    "Of",
    "Pass mark",
    "Per cent",
    "Award",
    "Award code",
    "Grade",
    "Qualification",
    "Why",
];

/// Headings after the columns of what was counted.
const LAST: [&str; 6] = [
    "First impression",
    "On the whole",
    "Sealed",
    "Digest",
    "Released",
    "Feedback",
];

/// A count or duration that a rubric asks for: its name and what it is.
type Counted = (String, Dimension);

/// Every marking.
pub(super) fn rows(markings: &[Scored<'_>]) -> Rows {
    let tallies = tallies(markings);
    let counted = tallies.iter().map(|(name, dimension)| match dimension {
        Dimension::Duration => format!("{name} (min)"),
        _ => name.clone(),
    });
    let own = HEADS.into_iter().map(str::to_owned).chain(counted);
    let last = LAST.into_iter().chain(IDS).map(str::to_owned);
    Rows {
        columns: heads().chain(own).chain(last).collect(),
        rows: markings
            .iter()
            .map(|scored| row(scored, &tallies))
            .collect(),
    }
}

/// All that the rubrics count, each once, in their order: heats, time.
fn tallies(markings: &[Scored<'_>]) -> Vec<Counted> {
    let mut found: Vec<Counted> = Vec::new();
    for entry in markings.iter().flat_map(|scored| &scored.entries) {
        if let Kind::Tally(tally) = &entry.criterion.kind {
            let one = (entry.name(), tally.dimension);
            if !found.contains(&one) {
                found.push(one);
            }
        }
    }
    found
}

fn row(scored: &Scored<'_>, tallies: &[Counted]) -> Vec<Field> {
    let who = Whose::itself(scored);
    let (sitting, outcome) = (scored.parts.sitting, &scored.outcome);
    let [total, exact] = marks_and_exact(Some(outcome.marks));
    let qualification = scored.rubric.qualification.as_ref();
    let qualification = qualification.map(|unit| join([unit.code.as_str(), &unit.title], ", "));
    let own = [
        Field::text(capital(sitting.kind.word())),
        Field::text(&sitting.name),
        Field::text(scored.parts.piece.ended.map_or("", Ended::word)),
        total,
        exact,
        Field::decimal(outcome.out_of.0),
        Field::decimal(outcome.pass_mark.0),
        Field::decimal(outcome.percent),
        Field::text(capital(outcome.award.word())),
        Field::text(outcome.award.word().replace(' ', "-")),
        Field::text(outcome.grade.clone().unwrap_or_default()),
        Field::text(qualification.unwrap_or_default()),
        Field::text(outcome.award_reasons.join("; ")),
    ];
    let counts = tallies.iter().map(|tally| count(scored, tally));
    let last = last(scored).into_iter();
    let all = fields(&who).chain(own).chain(counts);
    all.chain(last).chain(ids(&who)).collect()
}

/// The count in its usual unit, where all whose readings count have the same.
fn count(scored: &Scored<'_>, (name, dimension): &Counted) -> Field {
    let entry = scored.entries.iter().find(|entry| entry.name() == *name);
    let Some((entry, Kind::Tally(tally))) = entry.map(|entry| (entry, &entry.criterion.kind))
    else {
        return Field::empty();
    };
    let said = Whose::measuring(scored).into_iter();
    let mut said = said.map(|who| counted(tally, &entry.id, &who.marking.facts));
    let first = said
        .next()
        .flatten()
        .filter(|one| one.dimension == *dimension);
    first
        .filter(|first| said.all(|other| other.as_ref() == Some(first)))
        .and_then(in_usual_unit)
        .map_or_else(Field::empty, Field::decimal)
}

fn in_usual_unit(amount: Quantity) -> Option<Exact> {
    amount.base.over(amount.dimension.usual_unit().in_base())
}

fn last(scored: &Scored<'_>) -> [Field; 6] {
    let marking = scored.parts.marking;
    let seal = marking.seal.as_ref();
    let [released, feedback] = handed(scored).map(|(_, field)| field);
    [
        first_impression(scored),
        Field::text(marking.overall.clone().unwrap_or_default()),
        seal.map_or_else(Field::empty, |seal| Field::Moment(seal.at)),
        Field::text(seal.map_or_else(String::new, |seal| seal.digest.clone())),
        released,
        feedback,
    ]
}
