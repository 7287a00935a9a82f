//! Whose marking of which piece a row is about.

use crate::quantity::{Exact, Marks};
use crate::records::Marking;
use crate::sheet::rows::{Field, is_decimal};
use crate::sheet::scored::Scored;
use crate::sheet::words::capital;

/// A marking with who made it. Of an agreed one readings are those of its sources.
#[derive(Clone, Copy)]
pub(super) struct Whose<'a> {
    pub scored: &'a Scored<'a>,
    pub marking: &'a Marking,
    pub examiner: &'a str,
}

impl<'a> Whose<'a> {
    /// The marking itself.
    pub fn itself(scored: &'a Scored<'a>) -> Self {
        Self {
            scored,
            marking: scored.parts.marking,
            examiner: scored.examiner(),
        }
    }

    /// Those that hold the readings: the sources of an agreed marking, else itself.
    pub fn measuring(scored: &'a Scored<'a>) -> Vec<Self> {
        let Some(agreed) = &scored.agreed else {
            return vec![Self::itself(scored)];
        };
        let sources = agreed.sources.iter();
        let sources = sources.map(|(marking, examiner)| Self {
            scored,
            marking,
            examiner,
        });
        sources.collect()
    }
}

/// A column: its heading and what stands in it.
type Column = (&'static str, fn(&Whose<'_>) -> Field);

const WHO: [Column; 10] = [
    ("Learner", |who| {
        Field::text(who.scored.learner().unwrap_or_default())
    }),
    ("Number", |who| Field::text(number(who.scored))),
    ("Ticket", |who| {
        Field::text(who.scored.parts.piece.ticket.clone().unwrap_or_default())
    }),
    ("Examiner", |who| Field::text(who.examiner)),
    ("Marking", |who| {
        Field::text(capital(who.marking.role.word()))
    }),
    ("Piece", |who| Field::text(&who.scored.rubric.title)),
    ("Attempt", |who| {
        if who.scored.names_learner() {
            Field::whole(who.scored.parts.piece.attempt)
        } else {
            Field::empty()
        }
    }),
    ("Day", |who| Field::Day(who.scored.parts.sitting.day)),
    ("Rubric", |who| {
        Field::text(&who.scored.parts.rubric.rubric_id)
    }),
    ("Version", |who| {
        Field::text(&who.scored.parts.rubric.version)
    }),
];

fn number(scored: &Scored<'_>) -> String {
    let learner = scored.parts.learner.filter(|_| scored.names_learner());
    let number = learner.and_then(|learner| learner.given_number.clone());
    number.unwrap_or_default()
}

/// The headings.
pub(super) fn heads() -> impl Iterator<Item = String> {
    WHO.iter().map(|(head, _)| (*head).to_owned())
}

/// The fields of one row.
pub(super) fn fields(who: &Whose<'_>) -> impl Iterator<Item = Field> {
    WHO.iter().map(|(_, field)| field(who))
}

/// What ties the row to those of other sheets and files.
pub(super) fn ids(who: &Whose<'_>) -> [Field; 2] {
    let ids = [who.marking.piece.to_string(), who.marking.id.to_string()];
    ids.map(Field::Text)
}

/// Headings of [`ids`].
pub(super) const IDS: [&str; 2] = ["Piece id", "Marking id"];

/// Marks as a decimal, and as sheets print them where that is not exact.
pub(super) fn marks_and_exact(marks: Option<Marks>) -> [Field; 2] {
    let Some(Marks(value)) = marks else {
        return [Field::empty(), Field::empty()];
    };
    [Field::decimal(value), exact(value)]
}

fn exact(value: Exact) -> Field {
    if is_decimal(value) {
        Field::empty()
    } else {
        Field::text(Marks(value).to_string())
    }
}
