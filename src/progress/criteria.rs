use super::made::Series;
use super::practice::LATEST;
use super::steps::lost_of_total;
use crate::quantity::{Exact, Marks};

/// How one criterion went over the pieces of a series.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CriterionCourse {
    /// Entry id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Name of its section.
    pub section: String,
    /// Marks of the total that it lost a piece, the mean of the latest pieces that were marked
    /// as a whole: what there is to win. `None` where none of them was.
    pub to_win: Option<Marks>,
    /// One for each piece of the series, in its order; `None` where the piece has no
    /// such entry, no marks for it, or where it does not apply.
    pub points: Vec<Option<CriterionPoint>>,
}

/// One criterion of one piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CriterionPoint {
    /// Marks given.
    pub marks: Marks,
    /// Marks that could be had, more than none.
    pub out_of: Marks,
    /// The share of them that was given, from 0 to 1.
    pub share: Exact,
}

impl CriterionCourse {
    /// The latest that there is.
    pub fn latest(&self) -> Option<CriterionPoint> {
        self.points.iter().rev().find_map(|point| *point)
    }
}

/// Every criterion of the rubric as the latest piece was marked by it, in its order.
pub fn criterion_courses(series: &Series<'_>) -> Vec<CriterionCourse> {
    let Some(rubric) = series.rubric() else {
        return Vec::new();
    };
    let entries = rubric.entries();
    let course = entries.iter().map(|entry| CriterionCourse {
        name: entry.name(),
        section: entry.section.name.clone(),
        to_win: to_win(series, &entry.id),
        points: points(series, &entry.id),
        id: entry.id.clone(),
    });
    course.collect()
}

/// The mean of what the entry lost in the latest whole pieces that have marks for it.
fn to_win(series: &Series<'_>, entry: &str) -> Option<Marks> {
    let whole = series.pieces.iter().rev().filter(|made| made.is_whole());
    let lost = whole.take(LATEST).filter_map(|made| {
        let entries = made.rubric.entries();
        let own = entries.iter().find(|own| own.id == entry)?;
        Some(lost_of_total(made, own)?.0)
    });
    Exact::mean(&lost.collect::<Vec<_>>()).map(Marks)
}

fn points(series: &Series<'_>, entry: &str) -> Vec<Option<CriterionPoint>> {
    let of = |made: &&super::Made<'_>| {
        let result = made.outcome.criterion(entry)?;
        let (marks, out_of) = (result.marks?, result.out_of);
        Some(CriterionPoint {
            marks,
            out_of,
            share: result.share()?,
        })
    };
    series.pieces.iter().map(of).collect()
}
