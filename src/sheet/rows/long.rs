//! Rows of markings, one a criterion, and what is true of a whole marking.

use crate::marking::{CriterionResult, Measured, Reach, counted, impression_number};
use crate::quantity::{Exact, Unit};
use crate::records::Layout;
use crate::rubric::{Entry, FirstImpression, Kind};

use super::{Field, Named, Rows, rows_of};
use crate::sheet::readings::faults_words;
use crate::sheet::scored::Scored;

/// Markings as rows, one a criterion; what is true of the whole piece stands in
/// every row.
///
/// *Marks* are exact as `marks_numerator` over `marks_denominator`, because
/// spreadsheets take `13/2` for a date; `marks` and `out_of` are decimals of at most
/// six places. *Value* is what was held against the bands, or what counted of a time or a count with
/// the pauses taken off, in `value_unit`; *reading* is what was typed.
pub fn long_rows(markings: &[Scored<'_>]) -> Rows {
    let rows = markings.iter().flat_map(|scored| {
        let (whole, handed) = (whole(scored), handed(scored));
        let entries = scored.entries.iter().zip(&scored.outcome.criteria);
        entries.map(move |(entry, result)| {
            let own = criterion(scored, entry, result);
            let whole = whole.iter().cloned().chain(own);
            whole.chain(handed.iter().cloned()).collect()
        })
    });
    rows_of(Layout::Long, rows)
}

/// What is true of the whole piece.
pub(super) fn whole(scored: &Scored<'_>) -> Vec<Named> {
    let parts = &scored.parts;
    let (marking, piece, outcome) = (parts.marking, parts.piece, &scored.outcome);
    let seal = marking.seal.as_ref();
    let attempt = if scored.names_learner() {
        Field::whole(piece.attempt)
    } else {
        Field::empty()
    };
    vec![
        ("piece_id", Field::text(piece.id.to_string())),
        ("marking_id", Field::text(marking.id.to_string())),
        ("learner", Field::text(scored.learner().unwrap_or_default())),
        (
            "ticket",
            Field::text(piece.ticket.clone().unwrap_or_default()),
        ),
        ("sitting", Field::text(parts.sitting.kind.word())),
        ("date", Field::Day(parts.sitting.day)),
        ("attempt", attempt),
        (
            "ended",
            Field::text(piece.ended.map_or("", crate::records::Ended::word)),
        ),
        ("examiner", Field::text(scored.examiner())),
        ("role", Field::text(marking.role.word())),
        ("rubric_id", Field::text(&parts.rubric.rubric_id)),
        ("rubric_version", Field::text(&parts.rubric.version)),
        ("rubric_digest", Field::text(&parts.rubric.digest)),
        (
            "sealed_at",
            seal.map_or_else(Field::empty, |seal| Field::Moment(seal.at)),
        ),
        (
            "marking_digest",
            Field::text(seal.map_or_else(String::new, |seal| seal.digest.clone())),
        ),
        ("award", Field::text(outcome.award.word())),
        ("total", Field::decimal(outcome.marks.0)),
        ("total_out_of", Field::decimal(outcome.out_of.0)),
        ("pass_mark", Field::decimal(outcome.pass_mark.0)),
        (
            "overall_comment",
            Field::text(marking.overall.clone().unwrap_or_default()),
        ),
        (
            "award_reason",
            Field::text(outcome.award_reasons.join("; ")),
        ),
        ("first_impression", first_impression(scored)),
    ]
}

/// What was thought before anything was measured: a number where it is one that can be
/// given, else as it stands in the facts.
pub(in crate::sheet) fn first_impression(scored: &Scored<'_>) -> Field {
    let facts = &scored.parts.marking.facts;
    let text = facts.impression.clone().unwrap_or_default();
    match &scored.rubric.first_impression {
        Some(FirstImpression::Apart { allowed, .. }) => impression_number(allowed, &text)
            .map_or_else(|_| Field::text(text), |given| Field::decimal(given.0)),
        _ => Field::text(text),
    }
}

/// When its sitting was released and when feedback was given. Instead of a moment stands
/// `held`, or `by sealing` where that releases it; nothing for what the maker gave.
pub(in crate::sheet) fn handed(scored: &Scored<'_>) -> [Named; 2] {
    let parts = &scored.parts;
    let sitting = parts.sitting;
    let released = match sitting.release() {
        _ if scored.is_own() => Field::empty(),
        Some(release) => Field::Moment(release.at),
        None if sitting.is_held() => Field::text("held"),
        None => Field::text("by sealing"),
    };
    let feedback = parts.piece.feedback;
    let feedback = feedback.map_or_else(Field::empty, |deed| Field::Moment(deed.at));
    [("released", released), ("feedback", feedback)]
}

fn criterion(scored: &Scored<'_>, entry: &Entry<'_>, result: &CriterionResult) -> Vec<Named> {
    let marking = scored.parts.marking;
    let marks = result.marks.map(|marks| marks.0);
    let number = |part: fn(Exact) -> i128| {
        marks.map_or_else(Field::empty, |marks| Field::whole(part(marks)))
    };
    let (typed, unit) = typed(scored, entry);
    let (value, value_unit) = value(scored, entry, result);
    let comment = marking.comments.get(&entry.id);
    vec![
        ("section_id", Field::text(&entry.section.id)),
        ("section", Field::text(&entry.section.name)),
        ("criterion_id", Field::text(&entry.id)),
        ("criterion", Field::text(&entry.criterion.name)),
        (
            "shoe",
            Field::text(entry.shoe.map_or("", |shoe| shoe.id.as_str())),
        ),
        ("kind", Field::text(kind_word(&entry.criterion.kind))),
        ("reading", Field::text(typed)),
        ("unit", Field::text(unit)),
        ("value", value),
        ("value_unit", Field::text(value_unit)),
        ("standard_uncertainty", uncertainty(scored, entry, result)),
        ("state", Field::text(result.state.word())),
        ("marks_numerator", number(Exact::numerator)),
        ("marks_denominator", number(Exact::denominator)),
        ("marks", marks.map_or_else(Field::empty, Field::decimal)),
        ("out_of", Field::decimal(result.out_of.0)),
        ("reason", Field::text(&result.reason)),
        ("faults", Field::text(faults_words(entry, &marking.facts))),
        ("comment", Field::text(comment.cloned().unwrap_or_default())),
    ]
}

pub(in crate::sheet) fn kind_word(kind: &Kind) -> &'static str {
    match kind {
        Kind::Toleranced(_) => "toleranced",
        Kind::Paired(_) => "paired",
        Kind::Spread(_) => "spread",
        Kind::Tally(_) => "tally",
        Kind::Judged(_) => "judged",
        Kind::Faults(_) => "faults",
    }
}

/// What was typed, character for character, several with `; ` between them, and what
/// a bare number in it means.
fn typed(scored: &Scored<'_>, entry: &Entry<'_>) -> (String, &'static str) {
    let facts = &scored.parts.marking.facts;
    match &entry.criterion.kind {
        Kind::Tally(tally) => {
            let text = facts.tally(tally, &entry.id).unwrap_or_default();
            (text.into_owned(), tally.dimension.usual_unit().symbol())
        }
        Kind::Judged(_) => (facts.levels.get(&entry.id).cloned().unwrap_or_default(), ""),
        Kind::Faults(_) => (String::new(), ""),
        _ => {
            let ids = entry.criterion.measured().into_iter();
            let ids = ids.map(|reading| scored.rubric.slot_id(entry, reading));
            let own: Vec<_> = ids
                .filter_map(|id| facts.readings.get(&id))
                .flatten()
                .collect();
            let texts: Vec<&str> = own.iter().map(|fact| fact.text.trim()).collect();
            let meant = own.iter().find_map(|fact| fact.unit);
            let dimension = entry.criterion.scale().map(|scale| scale.dimension);
            let unit =
                dimension.map(|dimension| meant.unwrap_or(scored.rubric.unit).or_usual(dimension));
            (texts.join("; "), unit.map_or("", Unit::symbol))
        }
    }
}

/// The standard uncertainty of the value, in the value's unit; empty where there is no
/// single value.
fn uncertainty(scored: &Scored<'_>, entry: &Entry<'_>, result: &CriterionResult) -> Field {
    let is_single = |measured: &&Measured| measured.value.and_then(Reach::single).is_some();
    let measured = result.measured.as_ref().filter(is_single);
    let known = scored.uncertain.get(&entry.id);
    let Some((measured, known)) = measured.zip(known) else {
        return Field::empty();
    };
    Field::measure(known.standard() / value_unit(scored, measured).in_base().to_f64())
}

/// Lengths go into files in millimetres.
fn value_unit(scored: &Scored<'_>, measured: &Measured) -> Unit {
    match scored.parts.marking.unit.or_usual(measured.dimension) {
        unit if unit.is_inch() => Unit::Millimetre,
        unit => unit,
    }
}

/// What was held against the bands or counted, and its unit.
fn value(
    scored: &Scored<'_>,
    entry: &Entry<'_>,
    result: &CriterionResult,
) -> (Field, &'static str) {
    let none = (Field::empty(), "");
    if let Kind::Tally(tally) = &entry.criterion.kind {
        let unit = tally.dimension.usual_unit();
        let counted = counted(tally, &entry.id, &scored.parts.marking.facts);
        return match counted.and_then(|quantity| quantity.base.over(unit.in_base())) {
            Some(number) => (Field::decimal(number), unit.symbol()),
            None => none,
        };
    }
    let Some(measured) = &result.measured else {
        return none;
    };
    let unit = value_unit(scored, measured);
    let single = measured.value.and_then(Reach::single);
    match single.and_then(|base| base.over(unit.in_base())) {
        Some(number) => (Field::decimal(number), unit.symbol()),
        None => none,
    }
}
