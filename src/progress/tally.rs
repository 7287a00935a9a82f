use super::made::{Made, Series};
use crate::marking::counted;
use crate::quantity::{Dimension, Exact, Quantity};
use crate::rubric::Kind;

/// How a count or a duration went over the pieces of a series.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TallyCourse {
    /// Entry id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Count or duration.
    pub dimension: Dimension,
    /// What costs nothing, as the latest piece was marked.
    pub allowance: Quantity,
    /// What counted of each piece of the series, in its order, pauses taken off; `None`
    /// where nothing was counted.
    pub points: Vec<Option<Quantity>>,
}

impl TallyCourse {
    /// An amount in the unit that it is usually told in: minutes, or a bare count.
    pub fn in_unit(&self, amount: Quantity) -> f64 {
        let unit = self.dimension.usual_unit();
        let own = amount.base.over(unit.in_base());
        own.map_or(0.0, Exact::to_f64)
    }
}

/// Every count and duration of the rubric as the latest piece was marked by it: heats,
/// time, and whatever else it counts.
pub fn tally_courses(series: &Series<'_>) -> Vec<TallyCourse> {
    let Some(rubric) = series.rubric() else {
        return Vec::new();
    };
    let entries = rubric.entries();
    let tallies = entries.iter().filter_map(|entry| {
        let Kind::Tally(tally) = &entry.criterion.kind else {
            return None;
        };
        let of = |made: &&Made<'_>| value(made, &entry.id, tally.dimension);
        Some(TallyCourse {
            name: entry.name(),
            dimension: tally.dimension,
            allowance: tally.allowance,
            points: series.pieces.iter().map(of).collect(),
            id: entry.id.clone(),
        })
    });
    tallies.collect()
}

fn value(made: &Made<'_>, entry: &str, dimension: Dimension) -> Option<Quantity> {
    let entries = made.rubric.entries();
    let own = entries.iter().find(|own| own.id == entry)?;
    match &own.criterion.kind {
        Kind::Tally(tally) if tally.dimension == dimension => counted(tally, entry, made.facts),
        _ => None,
    }
}
