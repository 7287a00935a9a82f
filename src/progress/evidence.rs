use super::made::Made;
use crate::marking::ResultState;
use crate::quantity::Marks;
use crate::rubric::{Qualification, Rubric};

/// A unit of a qualification, and what pieces show of it.
#[derive(Debug, Clone)]
pub struct UnitEvidence<'a> {
    /// Unit code.
    pub code: &'a str,
    /// Unit title.
    pub title: &'a str,
    /// Its outcomes, in the order in which the unit names them.
    pub outcomes: Vec<OutcomeEvidence<'a>>,
}

/// One outcome, and the pieces that give evidence for it.
#[derive(Debug, Clone)]
pub struct OutcomeEvidence<'a> {
    /// Its code.
    pub code: &'a str,
    /// What it says.
    pub text: &'a str,
    /// The pieces, oldest first; none is a gap.
    pub pieces: Vec<PieceEvidence<'a>>,
}

/// What one piece shows of an outcome.
#[derive(Debug, Clone, Copy)]
pub struct PieceEvidence<'a> {
    /// The piece.
    pub made: &'a Made<'a>,
    /// Marks of the criteria that give evidence for the outcome.
    pub marks: Marks,
    /// Most marks of these criteria.
    pub out_of: Marks,
}

/// What `pieces` show of the units that their rubrics serve, and of those of `others`, which
/// no piece of them need have: units in the order of their codes.
///
/// A unit is told by its code and title; its outcomes are those that any of these rubrics
/// names, in the words of the latest piece. A piece gives evidence for an outcome when a
/// criterion that names it was marked; whether that is enough is the college's to say.
///
/// *Shape:* `pieces` oldest first.
pub fn evidence<'a>(pieces: &'a [Made<'a>], others: &'a [&'a Rubric]) -> Vec<UnitEvidence<'a>> {
    let latest_first = pieces.iter().rev().map(|made| &*made.rubric);
    let units = latest_first.chain(others.iter().copied());
    let mut found: Vec<UnitEvidence<'_>> = Vec::new();
    for unit in units.filter_map(|rubric| rubric.qualification.as_ref()) {
        add_unit(&mut found, unit);
    }
    for unit in &mut found {
        for outcome in &mut unit.outcomes {
            let own = pieces
                .iter()
                .filter(|made| serves(&made.rubric, unit.code, unit.title));
            outcome.pieces = own
                .filter_map(|made| shown_by(made, outcome.code))
                .collect();
        }
    }
    found.sort_by_key(|unit| (unit.code, unit.title));
    found
}

fn add_unit<'a>(found: &mut Vec<UnitEvidence<'a>>, unit: &'a Qualification) {
    let known = found
        .iter_mut()
        .find(|known| known.code == unit.code && known.title == unit.title);
    let outcome = |(code, text): &'a (String, String)| OutcomeEvidence {
        code,
        text,
        pieces: Vec::new(),
    };
    match known {
        None => found.push(UnitEvidence {
            code: &unit.code,
            title: &unit.title,
            outcomes: unit.outcomes.iter().map(outcome).collect(),
        }),
        Some(known) => {
            for new in unit.outcomes.iter().map(outcome) {
                if known
                    .outcomes
                    .iter()
                    .all(|outcome| outcome.code != new.code)
                {
                    known.outcomes.push(new);
                }
            }
        }
    }
}

fn serves(rubric: &Rubric, code: &str, title: &str) -> bool {
    let unit = rubric.qualification.as_ref();
    unit.is_some_and(|unit| unit.code == code && unit.title == title)
}

fn shown_by<'a>(made: &'a Made<'a>, code: &str) -> Option<PieceEvidence<'a>> {
    let entries = made.rubric.entries();
    let named = entries
        .iter()
        .filter(|entry| entry.criterion.outcomes.iter().any(|own| own == code));
    let results = named.filter_map(|entry| made.outcome.criterion(&entry.id));
    let marked = results.filter(|result| result.state != ResultState::NotApplicable);
    let marked: Vec<(Marks, Marks)> = marked
        .filter_map(|result| Some((result.marks?, result.out_of)))
        .collect();
    if marked.is_empty() {
        return None;
    }
    Some(PieceEvidence {
        made,
        marks: Marks::sum(marked.iter().map(|(marks, _)| *marks))?,
        out_of: Marks::sum(marked.iter().map(|(_, out_of)| *out_of))?,
    })
}
