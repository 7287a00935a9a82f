use thiserror::Error;

use crate::marking::{EntryOutcome, Facts, Marking, Opened, mark};
use crate::quantity::Marks;
use crate::rubric::{Entry, Rubric};

use super::certainty::{
    AwardCertainty, Certainty, CriterionCertainty, MarksChance, Method, SectionCertainty,
};
use super::chain::State;
use super::cluster::{Cluster, clusters};
use super::decide::decide;
use super::draws::DRAWS;
use super::entry::{EntryModel, MeasuredEntry};
use super::lattice::Lattice;
use super::settle::settle;
use super::solve::{By, Solved, Task};
use super::total::{Conditions, Whole};
use super::units::{Builder, Unit, charged, groups, outcomes};
use super::value::uncertain;
use super::variable::Variables;

/// Below this probability of the marks given, a criterion is a close call.
const SURE: f64 = 0.95;
/// Above this probability to change the award or a minimum, a close call is decisive.
const DECIDES: f64 = 0.025;

/// Why it cannot be said how sure a marking is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum NotWeighed {
    /// Marks with too many different fractions, or criteria that can come out in too many
    /// ways together.
    #[error(
        "the marks of this rubric combine in too many ways to say how sure they are; the marks \
         themselves stand"
    )]
    TooMany,
}

/// How sure the marks of `facts` by `rubric` are, as far as measuring goes.
///
/// *Formulas:* a reading is normal about its best estimate, an interval reading even
/// between its ends and then normal (JCGM 100:2008, 4.3; JCGM 106:2012, 7.2); the
/// probability of a band is that of the value lying in it (JCGM 106:2012, 7.3 and 7.4).
/// Totals are convolved where criteria share nothing; over one or two shared parts the
/// convolution is integrated; past that it is drawn, 200,000 times from a fixed seed
/// (JCGM 101:2008). *Errors:* [`NotWeighed`].
pub fn weigh(rubric: &Rubric, facts: &Facts) -> Result<Certainty, NotWeighed> {
    Scales::of(rubric, facts)
        .and_then(|scales| scales.certainty())
        .ok_or(NotWeighed::TooMany)
}

/// A marking with everything that the weighing needs.
struct Scales<'a> {
    rubric: &'a Rubric,
    facts: &'a Facts,
    outcome: Marking,
    opened: Opened<'a>,
    entries: Vec<Entry<'a>>,
    variables: Variables,
    models: Vec<EntryModel>,
    /// Of each entry, what it comes to as it stands.
    stands: Vec<EntryOutcome>,
}

impl<'a> Scales<'a> {
    fn of(rubric: &'a Rubric, facts: &'a Facts) -> Option<Self> {
        let opened = Opened::read(rubric, facts);
        let variables = Variables::of(rubric, facts, &opened);
        let entries = rubric.entries();
        let models = entries
            .iter()
            .map(|entry| EntryModel::of(rubric, &opened, entry, &variables))
            .collect::<Option<Vec<_>>>()?;
        let stands = models.iter().map(|model| match model {
            EntryModel::Fixed(outcome) => Some(*outcome),
            EntryModel::Measured(entry) => entry.outcomes.get(entry.given).copied(),
        });
        Some(Self {
            rubric,
            facts,
            outcome: mark(rubric, facts),
            stands: stands.collect::<Option<_>>()?,
            opened,
            entries,
            variables,
            models,
        })
    }

    fn certainty(&self) -> Option<Certainty> {
        let groups = groups(self.rubric, &self.entries);
        let lattice = self.lattice(&groups)?;
        let lifted: Vec<bool> = self
            .entries
            .iter()
            .map(|entry| self.facts.lift_of(&entry.id).is_some())
            .collect();
        let builder = Builder {
            rubric: self.rubric,
            entries: &self.entries,
            models: &self.models,
            lifted: &lifted,
            lattice: &lattice,
        };
        let units = groups.iter().map(|members| builder.unit(members));
        let units: Vec<Unit> = units.collect::<Option<_>>()?;
        let clusters = clusters(&self.models, &groups, &self.variables);
        let tasks: Vec<Task<'_>> = clusters
            .iter()
            .map(|cluster| self.task(cluster, &units))
            .collect();
        let solved: Vec<Solved> = tasks.iter().map(Task::solve).collect::<Option<_>>()?;
        let conditions = self.conditions()?;
        let whole = Whole::of(&solved, self.base(&units), &lattice, &conditions)?;
        let mut criteria = Vec::new();
        for (at, (task, solved)) in tasks.iter().zip(&solved).enumerate() {
            for place in 0..task.entries.len() {
                criteria.push(self.criterion(&whole, at, task, solved, place)?);
            }
        }
        criteria.sort_by_key(|(index, _)| *index);
        let total = whole.totals();
        let expected: f64 = total
            .iter()
            .map(|(marks, chance)| marks.0.to_f64() * chance)
            .sum();
        let square =
            |(marks, chance): &(Marks, f64)| (marks.0.to_f64() - expected).powi(2) * chance;
        Some(Certainty {
            method: method(&solved),
            criteria: criteria
                .into_iter()
                .map(|(_, criterion)| criterion)
                .collect(),
            sections: self.sections(&whole),
            expected,
            deviation: total.iter().map(square).sum::<f64>().sqrt(),
            total: total.into_iter().map(chance).collect(),
            given: self.outcome.marks,
            award: self.award(&whole, &solved)?,
            unstated: self.variables.unstated.clone(),
        })
    }

    /// Holds every number of marks that an entry can come to, with what causes give back.
    fn lattice(&self, groups: &[Vec<usize>]) -> Option<Lattice> {
        let of_entries = self.models.iter().flat_map(outcomes);
        let of_entries = of_entries.flat_map(|outcome| [outcome.marks, Some(outcome.out_of)]);
        let of_causes = self.rubric.causes.iter().map(|group| Some(group.most));
        let of_causes = of_causes.filter(|_| groups.iter().any(|group| group.len() > 1));
        Lattice::of(of_entries.chain(of_causes).flatten())
    }

    fn task<'t>(&'t self, cluster: &'t Cluster, units: &[Unit]) -> Task<'t> {
        let measured = |index: &usize| match self.models.get(*index) {
            Some(EntryModel::Measured(entry)) => Some(entry),
            _ => None,
        };
        let holds = |unit: &&Unit| {
            cluster
                .entries
                .iter()
                .any(|index| unit.members.contains(index))
        };
        Task {
            cluster,
            entries: cluster.entries.iter().filter_map(measured).collect(),
            units: units.iter().filter(holds).cloned().collect(),
            variables: &self.variables,
        }
    }

    /// What does not vary: the units without a measured member.
    fn base(&self, units: &[Unit]) -> State {
        let mut base = State {
            sums: vec![0; self.rubric.sections.len()],
            stops: false,
            warnings: 0,
        };
        for way in units.iter().filter_map(|unit| match unit.ways.as_slice() {
            [way] => Some(way),
            _ => None,
        }) {
            for (section, units) in &way.sums {
                if let Some(sum) = base.sums.get_mut(*section) {
                    *sum += units;
                }
            }
            base.stops |= way.stops;
            base.warnings = base.warnings.saturating_add(way.warnings);
        }
        base
    }

    fn conditions(&self) -> Option<Conditions> {
        let enough = self.rubric.award.warnings_to_stop;
        let count = usize::try_from(enough).unwrap_or(usize::MAX);
        let warned = self.outcome.warnings.get(count.saturating_sub(1));
        let lifted = warned.is_some_and(|entry| {
            let mut of_entry = self
                .outcome
                .stops
                .iter()
                .filter(|stop| stop.entry == *entry);
            of_entry.any(|stop| stop.lifted.is_some())
        });
        Some(Conditions {
            rules: self.opened.section_rules(&self.stands)?,
            pass: self.outcome.pass_mark,
            enough_warnings: enough,
            warnings_lifted: lifted,
        })
    }

    /// How sure the entry at `place` of a cluster is, with its index.
    fn criterion(
        &self,
        whole: &Whole<'_>,
        cluster: usize,
        task: &Task<'_>,
        solved: &Solved,
        place: usize,
    ) -> Option<(usize, CriterionCertainty)> {
        let index = *task.cluster.entries.get(place)?;
        let (entry, measured) = (self.entries.get(index)?, *task.entries.get(place)?);
        let chances = self.chances(task, solved, place)?;
        let given = self.given(entry)?;
        let probability = chances.iter().find(|(marks, _)| *marks == given);
        let probability = probability.map_or(0.0, |(_, chance)| *chance);
        let is_close = probability < SURE;
        let changes = if is_close && self.outcome.complete {
            whole.differs(cluster, &task.changes(place, solved)?)?
        } else {
            0.0
        };
        Some((
            index,
            CriterionCertainty {
                entry: entry.id.clone(),
                value: uncertain(&measured.value, &self.variables),
                given,
                probability,
                chances: chances.into_iter().map(chance).collect(),
                is_close,
                changes,
                is_decisive: is_close && changes > DECIDES,
                settle: if is_close {
                    self.settle(index, measured, task.unit_of(place)?)
                } else {
                    None
                },
            },
        ))
    }

    fn settle(&self, index: usize, measured: &MeasuredEntry, unit: &Unit) -> Option<super::Settle> {
        let entry = self.entries.get(index)?;
        let given = self.given(entry)?;
        let probability = |variables: &Variables| self.alone(index, given, unit, variables);
        settle(
            self.rubric,
            self.facts,
            &self.opened,
            entry,
            measured,
            &self.variables,
            &probability,
        )
    }

    fn given(&self, entry: &Entry<'_>) -> Option<Marks> {
        self.outcome.criterion(&entry.id)?.marks
    }

    /// The probability of so many marks of an entry with these readings, its unit by itself.
    fn alone(&self, index: usize, given: Marks, unit: &Unit, variables: &Variables) -> Option<f64> {
        let models: Vec<EntryModel> = self
            .models
            .iter()
            .zip(&self.stands)
            .enumerate()
            .map(|(at, (model, stands))| {
                if unit.members.contains(&at) {
                    model.clone()
                } else {
                    EntryModel::Fixed(*stands)
                }
            })
            .collect();
        let clusters = clusters(&models, std::slice::from_ref(&unit.members), variables);
        let holds = |cluster: &&Cluster| cluster.entries.contains(&index);
        let cluster = clusters.iter().find(holds)?;
        let task = Task {
            variables,
            ..self.task(cluster, std::slice::from_ref(unit))
        };
        let solved = task.solve()?;
        let place = cluster.entries.iter().position(|known| *known == index)?;
        let chances = self.chances(&task, &solved, place)?;
        let same = chances.iter().find(|(marks, _)| *marks == given);
        Some(same.map_or(0.0, |(_, chance)| *chance))
    }

    /// The marks that an entry can come to, causes charged once, the most first.
    fn chances(&self, task: &Task<'_>, solved: &Solved, place: usize) -> Option<Vec<(Marks, f64)>> {
        let (unit, member) = task.member(place)?;
        let known = task.units.get(unit)?;
        let mut chances: Vec<(Marks, f64)> = Vec::new();
        for (way, probability) in solved.ways.get(unit)?.iter().enumerate() {
            let mut left = way;
            let mut chosen = Vec::new();
            for (index, count) in known.members.iter().zip(&known.counts) {
                let of = outcomes(self.models.get(*index)?);
                chosen.push(*of.get(left % count)?);
                left /= count;
            }
            let charged = charged(self.rubric, &self.entries, &known.members, &chosen)?;
            let marks = charged.get(member)?.marks?;
            match chances.iter_mut().find(|(known, _)| *known == marks) {
                Some((_, sum)) => *sum += probability,
                None => chances.push((marks, *probability)),
            }
        }
        chances.sort_by(|(a, _), (b, _)| b.cmp(a));
        Some(chances)
    }

    fn sections(&self, whole: &Whole<'_>) -> Vec<SectionCertainty> {
        let sections = self.outcome.sections.iter().enumerate();
        sections
            .filter_map(|(at, section)| {
                Some(SectionCertainty {
                    section: section.id.clone(),
                    minimum: section.minimum?,
                    is_reached: section.reaches_minimum(),
                    probability: whole.reaches(at),
                })
            })
            .collect()
    }

    /// `Some(None)` while something has no marks; `None` on overflow.
    fn award(&self, whole: &Whole<'_>, solved: &[Solved]) -> Option<Option<AwardCertainty>> {
        if !self.outcome.complete {
            return Some(None);
        }
        let pass = whole.pass();
        let drawn = solved.iter().enumerate();
        let drawn = drawn.filter(|(_, solved)| matches!(solved.by, By::Draws(_)));
        let mut variance = None;
        for (at, _) in drawn {
            variance = Some(variance.unwrap_or(0.0) + whole.variance(at)?);
        }
        let best = self.outcome.award;
        Some(Some(AwardCertainty {
            best,
            decided: decide(self.rubric.award.decision, best, pass),
            pass,
            standard_error: variance.map(|variance| (variance / f64::from(DRAWS)).sqrt()),
        }))
    }
}

fn chance((marks, probability): (Marks, f64)) -> MarksChance {
    MarksChance { marks, probability }
}

fn method(solved: &[Solved]) -> Method {
    let drawn = solved
        .iter()
        .any(|solved| matches!(solved.by, By::Draws(_)));
    let single = |solved: &Solved| matches!(&solved.by, By::Closed(plan) if plan.is_single());
    if drawn {
        Method::Draws(DRAWS)
    } else if solved.iter().all(single) {
        Method::Exact
    } else {
        Method::Quadrature
    }
}
