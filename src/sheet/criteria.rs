use crate::chart::Drawing;
use crate::conformity::chance_words;
use crate::marking::{CriterionResult, ResultState, SectionResult};
use crate::rubric::{Entry, Kind, Section};

use super::document::{Block, Cell, CellRole, Group, Table, columns};
use super::readings::entry_words;
use super::scale::drawn_strip;
use super::scored::Scored;
use super::sure_criteria::uncertainty_words;
use super::tolerance::Asked;
use super::words::{capital, join};

/// What the table of criteria is called, by its heading too.
pub(super) const CRITERIA: &str = "Criteria";

const COLUMNS: [(&str, CellRole); 4] = [
    ("Criterion", CellRole::Text),
    ("Tolerance", CellRole::Quiet),
    ("Found", CellRole::Text),
    ("Marks", CellRole::Number),
];

/// Every criterion with its tolerance, what was found and why that gives its marks, section
/// by section.
pub(super) fn criteria_table(scored: &Scored<'_>) -> Table {
    let outcome = &scored.outcome;
    let groups = scored.rubric.sections.iter().map(|section| {
        let result = outcome
            .sections
            .iter()
            .find(|result| result.id == section.id);
        let own = scored.entries.iter().zip(&outcome.criteria);
        let own = own.filter(|(entry, _)| entry.section.id == section.id);
        Group {
            heading: section_words(section, result),
            rows: own
                .map(|(entry, result)| row(scored, entry, result))
                .collect(),
        }
    });
    let total = Cell::new(
        CellRole::Number,
        format!("{} of {}", outcome.marks, outcome.out_of),
    );
    Table {
        caption: CRITERIA.to_owned(),
        columns: columns(&COLUMNS),
        groups: groups.collect(),
        foot: vec![
            Cell::text("Total"),
            Cell::text(""),
            Cell::text(capital(outcome.award.word())),
            total,
        ],
    }
}

fn section_words(section: &Section, result: Option<&SectionResult>) -> String {
    let Some(result) = result else {
        return section.name.clone();
    };
    let minimum = result.minimum.map(|least| {
        let reached = if result.reaches_minimum() {
            "reached"
        } else {
            "not reached"
        };
        format!("minimum {least} {reached}")
    });
    let capped = section
        .cap
        .filter(|_| result.capped)
        .map(|cap| format!("capped at {cap}"));
    let weight = section
        .weight
        .map(|weight| format!("its marks count out of {weight}"));
    join(
        [
            format!("{}, {} of {}", section.name, result.marks, result.out_of),
            minimum.unwrap_or_default(),
            capped.unwrap_or_default(),
            weight.unwrap_or_default(),
        ],
        "; ",
    )
}

fn row(scored: &Scored<'_>, entry: &Entry<'_>, result: &CriterionResult) -> Vec<Cell> {
    let marks = Cell {
        drawing: on_tolerance(scored, entry, result),
        ..marks(result)
    };
    vec![
        Cell::text(entry.name()),
        Cell::new(CellRole::Quiet, tolerance(scored, entry, result)),
        Cell::text(found(scored, entry, result)),
        marks,
    ]
}

/// Where the value lies on its tolerance, with how far measuring can be off.
fn on_tolerance(
    scored: &Scored<'_>,
    entry: &Entry<'_>,
    result: &CriterionResult,
) -> Option<Drawing> {
    let measured = result.measured.as_ref()?;
    measured.value?;
    let most = entry.criterion.most_unweighted();
    let unit = scored.parts.marking.unit;
    drawn_strip(
        measured,
        most,
        unit,
        &entry.name(),
        expanded(scored, entry, result),
    )
}

/// The expanded uncertainty of a value in base units; none where it has none.
fn expanded(scored: &Scored<'_>, entry: &Entry<'_>, result: &CriterionResult) -> f64 {
    let is_valued = result.state == ResultState::Valued;
    let uncertain = scored.uncertain.get(&entry.id).filter(|_| is_valued);
    uncertain.map_or(0.0, |value| COVERAGE * value.standard())
}

/// What was entered, what that comes to with its expanded uncertainty, why it gives these
/// marks, and that it is a close call: `133.4 mm ± 0.8 mm; 1.4 mm over 132 mm, within 3 mm`.
fn found(scored: &Scored<'_>, entry: &Entry<'_>, result: &CriterionResult) -> String {
    let said = match &entry.criterion.kind {
        // The reason names each fault with what it takes.
        Kind::Faults(_) if !result.faults.is_empty() && scored.agreed.is_none() => String::new(),
        // It says what is missing.
        _ if result.state == ResultState::Missing => typed(scored, entry),
        _ => reading(scored, entry, result),
    };
    let plus_minus = plus_minus(scored, entry, result);
    let value = match result.value.as_str() {
        "" => join([said, plus_minus], " "),
        value => join([said, join([value, &plus_minus], " ")], "; "),
    };
    let why = with_call(scored, result);
    // A descriptor is a sentence of its own.
    let is_sentence = why.chars().next().is_some_and(char::is_uppercase);
    join([value, why], if is_sentence { ". " } else { "; " })
}

/// The expanded uncertainty of what is held against the bands; empty where there is none.
fn plus_minus(scored: &Scored<'_>, entry: &Entry<'_>, result: &CriterionResult) -> String {
    let expanded = expanded(scored, entry, result);
    let scale = entry.criterion.scale().filter(|_| expanded > 0.0);
    scale.map_or_else(String::new, |scale| {
        let unit = scored.parts.marking.unit.or_usual(scale.dimension);
        format!("± {}", uncertainty_words(expanded, unit))
    })
}

/// Why, and that it is a close call where it is one.
fn with_call(scored: &Scored<'_>, result: &CriterionResult) -> String {
    let criteria = scored
        .certainty
        .into_iter()
        .flat_map(|known| &known.criteria);
    let mut close = criteria.filter(|one| one.is_close && one.entry == result.id);
    let called = close.next().map(|one| {
        let sure = chance_words(one.probability);
        format!("close call, {sure} sure")
    });
    join([result.because.clone(), called.unwrap_or_default()], "; ")
}

/// What the sign ± stands for, where there is one.
pub(super) fn about_uncertainty(scored: &Scored<'_>) -> Option<Block> {
    let any = scored
        .uncertain
        .values()
        .any(|value| value.standard() > 0.0);
    any.then(|| {
        Block::Paragraph(
            "After ± stands the expanded uncertainty of measuring, twice the standard \
             uncertainty (about 95 %), by the figures of the instruments; the line over a \
             tolerance is as long. What is judged by eye has none."
                .to_owned(),
        )
    })
}

/// Coverage factor of an expanded uncertainty (JCGM 100:2008, 6.3.3).
const COVERAGE: f64 = 2.0;

/// What was entered, and the state where it is not simply valued.
pub(super) fn reading(scored: &Scored<'_>, entry: &Entry<'_>, result: &CriterionResult) -> String {
    let typed = typed(scored, entry);
    match result.state {
        ResultState::Valued => typed,
        state => join([state.word(), &typed], "; "),
    }
}

/// What was entered, by each examiner where it is agreed.
fn typed(scored: &Scored<'_>, entry: &Entry<'_>) -> String {
    match &scored.agreed {
        Some(agreed) => agreed.readings(scored, entry),
        None => entry_words(
            scored.rubric,
            entry,
            &scored.slots,
            &scored.parts.marking.facts,
        ),
    }
}

/// The tolerance of an entry in words.
pub(super) fn tolerance(
    scored: &Scored<'_>,
    entry: &Entry<'_>,
    result: &CriterionResult,
) -> String {
    let asked = Asked {
        rubric: scored.rubric,
        entry,
        sheet: scored.parts.marking.unit,
        name: &|id| scored.name_of(id),
    };
    asked.words(result)
}

/// The marks of an entry with their sign: `3 of 4`.
pub(super) fn marks(result: &CriterionResult) -> Cell {
    let given = result
        .marks
        .map_or_else(|| "–".to_owned(), |marks| marks.to_string());
    let has_marks = result.state != ResultState::NotApplicable;
    Cell {
        role: CellRole::Number,
        band: result
            .marks
            .filter(|_| has_marks)
            .map(|marks| marks.rank(result.out_of)),
        text: format!("{given} of {}", result.out_of),
        drawing: None,
    }
}
