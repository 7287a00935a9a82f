//! All figures of one version of a rubric.

use std::collections::BTreeMap;

use super::blind::Gathered;
use super::criteria::{CriterionAgreement, criteria};
use super::descriptors::{Descriptors, descriptors};
use super::needs::{Needs, needs};
use super::strictness::{Strictness, StrictnessLack, against_others, strictness};
use super::totals::{TotalsFigures, totals};
use crate::quantity::Exact;
use crate::records::ExaminerId;

/// How well examiners agree, and what follows from it.
#[derive(Debug, Clone)]
pub struct Agreement {
    /// Of totals.
    pub totals: TotalsFigures,
    /// Of each criterion, most trouble first.
    pub criteria: Vec<CriterionAgreement>,
    /// How severe each examiner is.
    pub strictness: Result<Strictness, StrictnessLack>,
    /// How far each examiner's totals lie above those of others on the same pieces, on the
    /// mean, in per cent of the marks, and on how many pieces.
    pub against_others: BTreeMap<ExaminerId, (Option<Exact>, usize)>,
    /// How many examiners and pieces a mark needs.
    pub needs: Needs,
    /// What examiners made of the descriptors of judged criteria, in the rubric's order.
    pub descriptors: Vec<Descriptors>,
}

/// Works out how well the examiners of these markings agree; `tell` hears how much is done,
/// from 0 to 1.
pub fn agreement(gathered: &Gathered<'_>, tell: &mut dyn FnMut(f64)) -> Agreement {
    // Nearly all of the time goes into drawing pieces anew for each criterion.
    const CRITERIA: f64 = 0.6;
    let mut done = |done: usize, of: usize| {
        let count = |count: usize| u32::try_from(count).map_or(1.0, f64::from);
        tell(CRITERIA * count(done) / count(of).max(1.0));
    };
    let criteria = criteria(gathered, &mut done);
    let descriptors = descriptors(gathered);
    tell(0.9);
    Agreement {
        totals: totals(gathered),
        criteria,
        strictness: strictness(gathered),
        against_others: against_others(gathered),
        needs: needs(gathered),
        descriptors,
    }
}
