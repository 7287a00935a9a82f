use super::person::{Cohort, Detail, Person, Worked};
use super::rates::enough;
use crate::figures::Lacking;
use crate::quantity::Exact;
use crate::records::{LearnerId, PieceId};

/// A making step at which the group loses marks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeakStep {
    /// Number of the step.
    pub step: usize,
    /// Marks lost there, per cent of what a piece could have: the mean over the learners of
    /// the mean of each one's latest pieces.
    pub percent: Exact,
    /// Pieces that lost most there, each of another learner, the costliest first.
    pub examples: Vec<Example>,
}

/// A piece that lost marks at a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Example {
    /// Whose.
    pub learner: LearnerId,
    /// Which.
    pub piece: PieceId,
    /// Marks lost there, per cent of what the piece could have.
    pub percent: Exact,
}

/// So many pieces are examples of a step.
const EXAMPLES: usize = 3;

/// The steps at which the group loses marks, the costliest first; each learner weighs alike,
/// however many pieces stand for them.
///
/// *Errors:* [`Lacking::TooFew`] learners.
pub fn weakest_steps(cohort: &Cohort) -> Result<Vec<WeakStep>, Lacking> {
    let with_pieces = cohort.people.iter();
    let with_pieces = with_pieces.filter(|person| person.latest().next().is_some());
    let people: Vec<&Person> = with_pieces.collect();
    enough(people.len())?;
    let steps = 0..cohort.plan.steps.len();
    let mut weak: Vec<WeakStep> = steps.filter_map(|step| weak(&people, step)).collect();
    weak.sort_by_key(|weak| std::cmp::Reverse(weak.percent));
    Ok(weak)
}

/// One step; `None` where nothing was lost there.
fn weak(people: &[&Person], step: usize) -> Option<WeakStep> {
    let mut means = Vec::new();
    let mut examples = Vec::new();
    for person in people {
        let lost: Vec<(PieceId, Exact)> = person
            .latest()
            .filter_map(|(piece, detail)| Some((piece.piece, percent(piece, detail, step)?)))
            .collect();
        let percents: Vec<Exact> = lost.iter().map(|(_, percent)| *percent).collect();
        means.extend(Exact::mean(&percents));
        let worst = lost.into_iter().max_by_key(|(piece, lost)| (*lost, *piece));
        examples.extend(worst.map(|(piece, percent)| Example {
            learner: person.id,
            piece,
            percent,
        }));
    }
    let percent = Exact::mean(&means).filter(|mean| *mean > Exact::ZERO)?;
    examples.retain(|example| example.percent > Exact::ZERO);
    examples.sort_by_key(|example| std::cmp::Reverse((example.percent, example.piece)));
    examples.truncate(EXAMPLES);
    Some(WeakStep {
        step,
        percent,
        examples,
    })
}

fn percent(piece: &Worked, detail: &Detail, step: usize) -> Option<Exact> {
    detail.lost.get(step)?.percent_of(piece.out_of)
}
