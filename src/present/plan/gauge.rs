//! The lay-on gauge of a plan.

use super::fields::PLAN_GAUGE;
use super::own::OwnRecord;
use super::typed::{PlanTyped, length, read};
use crate::chart::Side;
use crate::present::start::sentence;
use crate::quantity::{Length, Unit};
use crate::rubric::Rubric;
use crate::sheet::{Document, GaugeTolerance, LayOnGauge, capital, gauge_tolerance, lay_on_gauge};

/// A gauge as it is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct GaugeShown {
    /// The gauge, or why the piece's sizes give no shoe.
    pub document: Result<Document, String>,
    /// What is wrong with the tolerance as typed; empty while nothing is.
    pub wrong: String,
}

/// The sides that may lie up: word and name.
pub fn gauge_sides() -> Vec<(String, String)> {
    let sides = [Side::Ground, Side::Foot].into_iter();
    sides
        .map(|side| (side.word().to_owned(), capital(side.word())))
        .collect()
}

/// The side of that word; the ground side for any other.
pub fn gauge_side(word: &str) -> Side {
    if word == Side::Foot.word() {
        Side::Foot
    } else {
        Side::Ground
    }
}

/// What the field of the tolerance shows while nothing is typed: the usual one.
pub fn gauge_usual(rubric: &Rubric) -> String {
    say(usual(rubric).width, rubric.unit)
}

/// The gauge to lay the made shoe on, for the foot of the plan.
pub fn plan_gauge(rubric: &Rubric, typed: &PlanTyped, side: Side) -> GaugeShown {
    let inputs = read(typed, rubric, &OwnRecord::default()).inputs;
    let tolerance = tolerance(rubric, typed);
    let gauge = LayOnGauge {
        piece: &rubric.piece,
        title: &rubric.title,
        foot: inputs.foot,
        side,
        tolerance: tolerance.clone().unwrap_or_else(|_| usual(rubric)),
        unit: inputs.unit,
    };
    GaugeShown {
        document: lay_on_gauge(&gauge).map_err(|fault| sentence(&fault.words(inputs.unit))),
        wrong: tolerance.err().unwrap_or_default(),
    }
}

fn usual(rubric: &Rubric) -> GaugeTolerance {
    gauge_tolerance(rubric).unwrap_or_default()
}

/// The tolerance as it is typed, or the usual one where nothing else is.
///
/// *Errors:* what is wrong with the text, and what would do.
fn tolerance(rubric: &Rubric, typed: &PlanTyped) -> Result<GaugeTolerance, String> {
    let text = typed.0.get(PLAN_GAUGE).map_or("", |text| text.trim());
    if text.is_empty() || text == gauge_usual(rubric) {
        return Ok(usual(rubric));
    }
    let size = length(text, rubric.unit)?;
    GaugeTolerance::typed(size).ok_or_else(|| {
        format!(
            "`{text}` is no tolerance of a gauge. Write how far a shoe may be off to either side, \
             above zero and at most {}.",
            say(GaugeTolerance::most(), rubric.unit)
        )
    })
}

fn say(length: Length, unit: Unit) -> String {
    length.quantity().print_limit(unit)
}
