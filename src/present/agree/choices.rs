use crate::quantity::{Exact, Marks};
use crate::rubric::Settle;
use crate::sheet::{Between, Scored};

/// A way to settle one criterion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AgreeChoice {
    /// What a form holds.
    pub key: String,
    /// Marks that it gives, or what it is.
    pub title: String,
    /// Whose, or how.
    pub note: String,
}

impl AgreeChoice {
    /// Key of the choice that leaves it to the rubric's rule.
    pub const RULE: &'static str = "rule";
    /// Key of the mean.
    pub const MEAN: &'static str = "mean";
    /// Key of marks that are typed.
    pub const OTHER: &'static str = "other";
}

/// Each examiner's marks, the mean where there is one, marks to type; the rule first where
/// it may settle it.
pub(super) fn choices(
    scored: &[Scored<'_>],
    one: &Between<'_, '_>,
    may_rule: bool,
) -> Vec<AgreeChoice> {
    let moderation = scored.first().map(|one| one.rubric.moderation.settle);
    let numbers = one.results.iter().map(|result| {
        let is_alike = one
            .results
            .iter()
            .all(|other| other.out_of == result.out_of);
        result.marks.filter(|_| is_alike)
    });
    let numbers: Option<Vec<Marks>> = numbers.collect();
    let mean = numbers.as_ref().and_then(|marks| {
        let exact: Vec<Exact> = marks.iter().map(|marks| marks.0).collect();
        Some(Marks(Exact::mean(&exact)?))
    });
    let lowest = numbers.and_then(|marks| marks.into_iter().min());
    let ruled = match moderation.filter(|_| may_rule) {
        Some(Settle::Mean) => mean.map(|mean| (mean, "the mean, by the rubric’s rule")),
        Some(Settle::Lower) => lowest.map(|low| (low, "the lowest, by the rubric’s rule")),
        _ => None,
    };
    let choice = |key: &str, title: String, note: &str| AgreeChoice {
        key: key.to_owned(),
        title,
        note: note.to_owned(),
    };
    let is_by_mean = ruled.is_some() && moderation == Some(Settle::Mean);
    let ruled = ruled.map(|(marks, note)| choice(AgreeChoice::RULE, marks.to_string(), note));
    let own = scored.iter().zip(&one.results).filter_map(|(by, result)| {
        let marks = result.marks?;
        let id = by.parts.marking.id.to_string();
        Some(choice(&id, marks.to_string(), by.examiner()))
    });
    let mean = mean.filter(|_| !is_by_mean);
    let mean = mean.map(|mean| choice(AgreeChoice::MEAN, mean.to_string(), "the mean"));
    let other = choice(
        AgreeChoice::OTHER,
        "Other".to_owned(),
        "marks that you agree on",
    );
    ruled
        .into_iter()
        .chain(own)
        .chain(mean)
        .chain([other])
        .collect()
}
