//! What takes long about the pieces of one learner: how far each total may be off, and the
//! figures of change.

use super::perform::read;
use super::scored::share;
use crate::conformity::weigh;
use crate::job::CourseWanted;
use crate::rubric::Rubric;
use crate::sheet::{CourseFigures, course_figures};

/// How often the true total lies between the ends that are given.
const LEVEL: f64 = 0.95;

/// Works it out; `tell` hears how much is done, from 0 to 1. A piece whose marks combine in
/// too many ways to be weighed has no ends.
///
/// *Errors:* in words, for people, where a rubric cannot be read or is not here.
pub(super) fn course(
    wanted: &CourseWanted,
    tell: &mut dyn FnMut(f64),
) -> Result<CourseFigures, String> {
    let rubrics: Vec<Rubric> = wanted
        .rubrics
        .iter()
        .map(|text| read(text))
        .collect::<Result<_, _>>()?;
    let mut within = Vec::new();
    for piece in &wanted.weighed {
        within.push(match piece {
            None => None,
            Some((rubric, facts)) => {
                let lost = "the rubric of a piece is not here; reload the page";
                let rubric = rubrics.get(*rubric).ok_or(lost)?;
                let certainty = weigh(rubric, facts).ok();
                certainty.and_then(|certainty| certainty.total_within(LEVEL))
            }
        });
        tell(share(within.len(), wanted.weighed.len()));
    }
    Ok(course_figures(&wanted.numbers, within))
}
