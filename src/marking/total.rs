//! From entries to sections, from sections to the award.

use crate::quantity::{Exact, Marks};
use crate::rubric::{Award as AwardRule, Entry, Rubric, Section, Threshold};

use super::entry::Judgement;
use super::facts::Facts;
use super::result::{Award, SectionResult, Stop};

/// Sums of one section as far as it has marks; `None` on overflow.
pub(super) fn total_section(
    section: &Section,
    entries: &[Entry<'_>],
    judgements: &[Judgement],
) -> Option<SectionResult> {
    let (mut sum, mut marked, mut out_of) = (Marks::ZERO, Marks::ZERO, Marks::ZERO);
    let own = entries
        .iter()
        .zip(judgements)
        .filter(|(entry, _)| entry.section.id == section.id);
    for (_, Judgement { result, .. }) in own {
        out_of = out_of.plus(result.out_of)?;
        if let Some(marks) = result.marks {
            sum = sum.plus(marks)?;
            marked = marked.plus(result.out_of)?;
        }
    }
    let rule = SectionRule::of(section, out_of)?;
    Some(SectionResult {
        id: section.id.clone(),
        marks: rule.counted(sum)?,
        marked_out_of: rule.counted(marked)?,
        out_of: rule.out_of,
        minimum: rule.minimum,
        capped: section.cap.is_some_and(|cap| sum > cap),
    })
}

/// How the sum of a section's marks counts in the total.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SectionRule {
    cap: Option<Marks>,
    factor: Exact,
    /// Marks that can be had, as they count.
    pub out_of: Marks,
    /// Least that is asked for, as it counts.
    pub minimum: Option<Marks>,
}

impl SectionRule {
    /// The rule of a section in which the sum of `out_of` can be had; `None` on overflow.
    pub(super) fn of(section: &Section, out_of: Marks) -> Option<Self> {
        let capped = section.cap.map_or(out_of, |cap| out_of.min(cap));
        let factor = match section.weight {
            Some(weight) if capped > Marks::ZERO => weight.0.over(capped.0)?,
            _ => Exact::ONE,
        };
        let counted = capped.times(factor)?;
        let minimum = match section.minimum {
            Some(minimum) => Some(minimum.of(counted)?),
            None => None,
        };
        Some(Self {
            cap: section.cap,
            factor,
            out_of: counted,
            minimum,
        })
    }

    /// What `sum` counts: held by the cap, then scaled; `None` on overflow.
    pub fn counted(&self, sum: Marks) -> Option<Marks> {
        self.cap.map_or(sum, |cap| sum.min(cap)).times(self.factor)
    }

    /// Whether a sum counts in proportion, whatever it is: no cap, no minimum.
    pub fn is_straight(&self) -> bool {
        self.cap.is_none() && self.minimum.is_none()
    }

    /// Whatever a sum of whole `units` counts is a whole number of the first, or is the
    /// second; `None` on overflow.
    pub fn steps(&self, unit: Marks) -> Option<[Marks; 2]> {
        let most = self.cap.unwrap_or(Marks::ZERO);
        Some([unit.times(self.factor)?, most.times(self.factor)?])
    }
}

/// A threshold of the whole: a number of marks shrinks with the total where
/// criteria do not apply. `None` on overflow.
pub(super) fn scaled(threshold: Threshold, out_of: Marks, full: Marks) -> Option<Marks> {
    match threshold {
        Threshold::Marks(marks) if out_of != full && full > Marks::ZERO => {
            marks.times(out_of.0.over(full.0)?)
        }
        threshold => threshold.of(out_of),
    }
}

/// Stops and warnings of the whole piece.
pub(super) struct Stops {
    pub stops: Vec<Stop>,
    pub warnings: Vec<String>,
}

pub(super) fn collect_stops(rubric: &Rubric, facts: &Facts, judgements: &[Judgement]) -> Stops {
    let mut stops = Vec::new();
    let mut warnings = Vec::new();
    let lift_of = |entry: &str| {
        let lift = facts.lift_of(entry)?;
        Some((lift.by.clone(), lift.reason.clone()))
    };
    for Judgement {
        result,
        stops: own,
        warnings: count,
        ..
    } in judgements
    {
        for why in own {
            let lifted = lift_of(&result.id);
            stops.push(Stop {
                entry: result.id.clone(),
                why: why.clone(),
                lifted,
            });
        }
        for _ in 0..(*count).min(1000) {
            warnings.push(result.id.clone());
        }
    }
    let enough = usize::try_from(rubric.award.warnings_to_stop).unwrap_or(usize::MAX);
    if let Some(entry) = warnings.get(enough.saturating_sub(1)) {
        let why = match (warnings.len(), enough) {
            (1, _) => "a warning, and one stops the award".to_owned(),
            (count, 1) => format!("{count} warnings, and one stops the award"),
            (count, _) => format!("{count} warnings, and {enough} stop the award"),
        };
        stops.push(Stop {
            entry: entry.clone(),
            why,
            lifted: lift_of(entry),
        });
    }
    Stops { stops, warnings }
}

/// What the award needs to know.
pub(super) struct Standing<'a> {
    pub rubric: &'a Rubric,
    pub complete: bool,
    pub marks: Marks,
    pub out_of: Marks,
    pub full: Marks,
    pub pass_mark: Marks,
    pub sections: &'a [SectionResult],
    pub stops: &'a [Stop],
}

impl Standing<'_> {
    /// The award and why; `None` on overflow.
    pub fn decide(&self) -> (Award, Vec<String>) {
        let mut reasons = Vec::new();
        let mut stands_against = false;
        for stop in self.stops {
            let name = entry_name(self.rubric, &stop.entry);
            match &stop.lifted {
                None => {
                    stands_against = true;
                    reasons.push(format!("stopped by {name}: {}", stop.why));
                }
                Some((by, why)) => {
                    reasons.push(format!("stop by {name} lifted by {by}: {why}"));
                }
            }
        }
        for (section, result) in self.rubric.sections.iter().zip(self.sections) {
            if let Some(least) = result.minimum.filter(|_| !result.reaches_minimum()) {
                stands_against = true;
                let (name, marks) = (&section.name, result.marks);
                reasons.push(format!("{name} has {marks}, its minimum is {least}"));
            }
        }
        let reaches = self.marks >= self.pass_mark;
        let word = if reaches { "reaches" } else { "is below" };
        let (marks, out_of, pass) = (self.marks, self.out_of, self.pass_mark);
        reasons.push(format!(
            "{marks} of {out_of} {word} the pass mark of {pass}"
        ));
        if !self.complete {
            reasons.insert(0, "some criteria have no marks yet".to_owned());
            return (Award::Incomplete, reasons);
        }
        (
            if reaches && !stands_against {
                Award::Pass
            } else {
                Award::NotYet
            },
            reasons,
        )
    }

    /// The highest grade reached, where nothing stops the award.
    pub fn grade(&self) -> Option<String> {
        let AwardRule { grades, .. } = &self.rubric.award;
        let stopped = self.stops.iter().any(|stop| stop.lifted.is_none());
        if !self.complete || stopped || !self.sections.iter().all(SectionResult::reaches_minimum) {
            return None;
        }
        let reached = grades.iter().filter_map(|grade| {
            let from = scaled(grade.from, self.out_of, self.full)?;
            (self.marks >= from).then_some((from, grade))
        });
        reached
            .max_by_key(|(from, _)| *from)
            .map(|(_, grade)| grade.name.clone())
    }
}

fn entry_name(rubric: &Rubric, id: &str) -> String {
    let entries = rubric.entries();
    let entry = entries.iter().find(|entry| entry.id == id);
    entry.map_or_else(|| id.to_owned(), |entry| entry.name())
}
