//! A row for each band, level and fault of the rubrics.

use std::collections::BTreeSet;

use crate::marking::{CriterionResult, Facts, mark_in};
use crate::quantity::Marks;
use crate::rubric::{Criterion, Effect, Entry, Fault, Judged, Kind, Level, Rubric, Scale, Tally};

use crate::sheet::rows::{Field, Rows, kind_word};
use crate::sheet::scored::Scored;
use crate::sheet::tolerance::Asked;
use crate::sheet::words::join;

const HEADS: [&str; 15] = [
    "Rubric",
    "Version",
    "Title",
    "Section",
    "Section counts out of",
    "Criterion",
    "Kind",
    "Most marks",
    "What",
    "Name",
    "Marks",
    "Effect",
    "Seen",
    "Outcomes",
    "Criterion id",
];

/// The rubrics of `markings`, each version once, in their order.
pub(super) fn rows(markings: &[Scored<'_>]) -> Rows {
    let mut seen = BTreeSet::new();
    let mut rows = Vec::new();
    for scored in markings {
        if seen.insert(scored.parts.rubric.digest.as_str()) {
            rows.extend(of_rubric(scored));
        }
    }
    Rows {
        columns: HEADS.map(str::to_owned).to_vec(),
        rows,
    }
}

/// One step to marks: a band, a level, a fault.
struct Step {
    what: &'static str,
    name: String,
    marks: Option<Marks>,
    effect: Effect,
    seen: String,
}

fn of_rubric(scored: &Scored<'_>) -> Vec<Vec<Field>> {
    let (rubric, unit) = (scored.rubric, scored.parts.marking.unit);
    // Without facts, so that limits are said as the rubric has them and not as one piece does.
    let blank = mark_in(rubric, &Facts::default(), unit);
    let name = |id: &str| scored.name_of(id);
    let mut rows = Vec::new();
    let mut seen = BTreeSet::new();
    for (entry, result) in scored.entries.iter().zip(&blank.criteria) {
        if seen.insert((&entry.section.id, &entry.criterion.id)) {
            let asked = Asked {
                rubric,
                entry,
                sheet: unit,
                name: &name,
            };
            let steps = steps(&asked, result).into_iter();
            rows.extend(steps.map(|step| row(rubric, entry, step)));
        }
    }
    rows
}

fn row(rubric: &Rubric, entry: &Entry<'_>, step: Step) -> Vec<Field> {
    let criterion = entry.criterion;
    let marks = |marks: Option<Marks>| {
        let weighted = marks.map(|marks| criterion.weighted(marks).0);
        weighted.map_or_else(Field::empty, Field::decimal)
    };
    let weight = entry.section.weight.map(|weight| weight.0);
    let effect = match step.effect {
        Effect::Noted => "",
        Effect::Warn => "warning",
        Effect::Stop => "stops the award",
    };
    vec![
        Field::text(&rubric.id),
        Field::text(&rubric.version),
        Field::text(&rubric.title),
        Field::text(&entry.section.name),
        weight.map_or_else(Field::empty, Field::decimal),
        Field::text(&criterion.name),
        Field::text(kind_word(&criterion.kind)),
        marks(Some(criterion.most_unweighted())),
        Field::text(step.what),
        Field::text(step.name),
        marks(step.marks),
        Field::text(effect),
        Field::text(step.seen),
        Field::text(criterion.outcomes.join("; ")),
        Field::text(&criterion.id),
    ]
}

fn steps(asked: &Asked<'_>, result: &CriterionResult) -> Vec<Step> {
    let criterion = asked.entry.criterion;
    let mut steps = match &criterion.kind {
        Kind::Toleranced(kind) => bands(asked, &kind.scale, result),
        Kind::Paired(kind) => bands(asked, &kind.scale, result),
        Kind::Spread(kind) => bands(asked, &kind.scale, result),
        Kind::Tally(tally) => allowance(asked, tally, result),
        Kind::Judged(Judged::Levels(levels)) => levels.iter().map(level).collect(),
        Kind::Judged(Judged::Numbers {
            allowed,
            descriptors,
        }) => numbers(allowed, descriptors),
        Kind::Faults(list) => vec![plain("no fault", "none seen", Some(list.marks))],
    };
    steps.extend(
        criterion
            .faults
            .iter()
            .map(|fault| of_fault(criterion, fault)),
    );
    steps
}

fn plain(what: &'static str, name: impl Into<String>, marks: Option<Marks>) -> Step {
    Step {
        what,
        name: name.into(),
        marks,
        effect: Effect::Noted,
        seen: String::new(),
    }
}

fn bands(asked: &Asked<'_>, scale: &Scale, result: &CriterionResult) -> Vec<Step> {
    let of_band = scale.bands.iter().enumerate().map(|(at, band)| Step {
        effect: band.effect,
        seen: band.name.clone().unwrap_or_default(),
        ..plain("band", asked.band(scale, at, result), Some(band.marks))
    });
    let beyond = Step {
        effect: scale.beyond_effect,
        ..plain("band", "else", Some(scale.beyond))
    };
    let target = asked.head(scale, result);
    let target = (!target.is_empty()).then(|| plain("asked for", target, None));
    target.into_iter().chain(of_band).chain([beyond]).collect()
}

fn allowance(asked: &Asked<'_>, tally: &Tally, result: &CriterionResult) -> Vec<Step> {
    vec![plain("allowance", asked.words(result), Some(tally.marks))]
}

fn level(level: &Level) -> Step {
    let example = level
        .example
        .as_ref()
        .map(|text| format!("For example: {text}"));
    Step {
        effect: level.effect,
        seen: join([level.text.clone(), example.unwrap_or_default()], " "),
        ..plain("level", &level.name, Some(level.marks))
    }
}

/// The least and the most, and those that have words.
fn numbers(allowed: &[Marks], descriptors: &[(Marks, String)]) -> Vec<Step> {
    let ends = [allowed.last(), allowed.first()].into_iter().flatten();
    let mut all: Vec<(Marks, &str)> = descriptors
        .iter()
        .map(|(at, text)| (*at, &**text))
        .collect();
    for end in ends {
        if !all.iter().any(|(at, _)| at == end) {
            all.push((*end, ""));
        }
    }
    all.sort_by_key(|(at, _)| std::cmp::Reverse(*at));
    let steps = all.into_iter().map(|(at, text)| Step {
        seen: text.to_owned(),
        ..plain("number", at.to_string(), Some(at))
    });
    steps.collect()
}

fn of_fault(criterion: &Criterion, fault: &Fault) -> Step {
    let takes = (fault.deduct > Marks::ZERO).then(|| Marks(fault.deduct.0.negated()));
    let most = fault
        .most
        .map(|most| format!("at most {} in all", criterion.weighted(most)));
    let cause = (!fault.cause.is_empty()).then(|| format!("Cause: {}", fault.cause));
    let remedy = (!fault.remedy.is_empty()).then(|| format!("Practise: {}", fault.remedy));
    let said = [most, cause, remedy].into_iter().flatten();
    Step {
        effect: fault.effect,
        seen: join(said, "; "),
        ..plain("fault", &fault.name, takes)
    }
}
