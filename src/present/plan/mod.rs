//! The plan of a piece: what is typed, and the document that it comes to.

mod fields;
mod gauge;
mod own;
mod typed;

use std::collections::BTreeMap;

use super::offers::Offer;
use super::rubrics::text_of;
use crate::plan::plan;
use crate::records::Ledger;
use crate::rubric::{Rubric, read_rubric};
use crate::sheet::{BenchCard, Document, Planned, bench_card, plan_sheet};
pub use fields::{
    PLAN_CHOICE, PLAN_FIELDS, PLAN_FOOT, PLAN_GAUGE, PLAN_LEARNER, PLAN_OWN, PLAN_PAST, PlanField,
    PlanPart,
};
pub use gauge::{GaugeShown, gauge_side, gauge_sides, gauge_usual, plan_gauge};
pub use own::{OwnRecord, OwnRow, own_record, plan_learners, with_piece};
pub use typed::{PlanTyped, is_own_length, plan_choices, plan_feet};

/// A plan as it is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanShown {
    /// What it says.
    pub document: Document,
    /// What is wrong with a field, by its name.
    pub wrong: BTreeMap<&'static str, String>,
}

/// The rubric of this address, to be planned; `None` where there is none that can be read.
pub fn planned_rubric(ledger: &Ledger, shipped: &[Offer], key: &str) -> Option<Rubric> {
    read_rubric(&text_of(ledger, shipped, key)?).rubric
}

/// What the fields show where nothing is typed.
pub fn plan_usual(rubric: &Rubric) -> BTreeMap<&'static str, String> {
    typed::usual_texts(rubric)
}

/// The plan of a rubric's piece by what is typed, and by what the records have of a learner.
pub fn plan_shown(rubric: &Rubric, typed: &PlanTyped, own: &OwnRecord) -> PlanShown {
    let read = typed::read(typed, rubric, own);
    let plan = plan(&rubric.piece, &read.inputs);
    PlanShown {
        document: plan_sheet(&Planned {
            rubric,
            inputs: &read.inputs,
            plan: &plan,
            hot: read.hot,
        }),
        wrong: read.wrong,
    }
}

/// What goes to the anvil, by what is typed about the plan.
pub fn plan_card(rubric: &Rubric, typed: &PlanTyped, own: &OwnRecord) -> Document {
    let inputs = typed::read(typed, rubric, own).inputs;
    bench_card(&BenchCard {
        rubric,
        plan: &plan(&rubric.piece, &inputs),
        unit: inputs.unit,
    })
}
