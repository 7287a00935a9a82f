use super::cluster::Cluster;
use super::entry::{Limited, MeasuredEntry};
use super::normal::{flat_below, range_below};
use super::value::Value;
use super::variable::{Variable, Variables};

/// One place of everything that a cluster's entries share: past it they are independent.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Node<'a> {
    cluster: &'a Cluster,
    variables: &'a Variables,
    /// Of each shared part that is held, how many standard uncertainties it is off.
    pub parts: Vec<f64>,
    /// The held readings.
    pub held: Vec<f64>,
}

impl<'a> Node<'a> {
    /// Everything at its best estimate.
    pub fn middle(cluster: &'a Cluster, variables: &'a Variables) -> Self {
        let mean = |index: &usize| variables.all.get(*index).map_or(0.0, |v| v.mean);
        Self {
            cluster,
            variables,
            parts: vec![0.0; cluster.parts.len()],
            held: cluster.held.iter().map(mean).collect(),
        }
    }

    fn variable(&self, index: usize) -> Option<&'a Variable> {
        self.variables.all.get(index)
    }

    fn held_at(&self, index: usize) -> Option<usize> {
        self.cluster.held.iter().position(|known| *known == index)
    }

    /// Where a reading lies as far as the shared parts decide.
    pub fn shifted(&self, index: usize) -> f64 {
        let Some(variable) = self.variable(index) else {
            return 0.0;
        };
        let shifts = self.cluster.parts.iter().zip(&self.parts);
        let shift: f64 = shifts.map(|(part, z)| variable.part(*part) * z).sum();
        variable.mean + shift
    }

    /// A reading's place: itself where it is held, else its mean here.
    pub fn place(&self, index: usize) -> f64 {
        let held = self.held_at(index).and_then(|at| self.held.get(at));
        held.copied().unwrap_or_else(|| self.shifted(index))
    }

    /// Of the held reading at `at` of the cluster: its index, its own standard uncertainty
    /// with what is folded in, its half-width.
    pub fn held_spread(&self, at: usize) -> Option<(usize, f64, f64)> {
        let index = *self.cluster.held.get(at)?;
        let own = *self.cluster.held_own.get(at)?;
        Some((index, own, self.variable(index)?.half))
    }

    /// Own standard uncertainty and half-width of a reading that is left free; nothing of
    /// one that is held.
    pub fn free(&self, index: usize) -> (f64, f64) {
        match (self.held_at(index), self.variable(index)) {
            (None, Some(variable)) => (variable.own, variable.half),
            _ => (0.0, 0.0),
        }
    }

    /// The standard uncertainty of the value of the entry at `at` of the cluster, with what
    /// is held fixed, and the half-width of an interval reading in it.
    pub fn spread_of(&self, at: usize, value: &Value) -> (f64, f64) {
        let folded = self.cluster.folded.get(at).copied().unwrap_or(0.0);
        match value {
            Value::Single(index) => {
                let (own, half) = self.free(*index);
                (own.hypot(folded), half)
            }
            Value::Difference(left, right) => {
                let ((a, _), (b, _)) = (self.free(*left), self.free(*right));
                (a.hypot(b).hypot(folded), 0.0)
            }
            Value::Range(members) | Value::Farthest(members) => {
                let own = members.iter().map(|member| self.free(*member).0);
                (
                    own.filter(|own| *own > 0.0).fold(f64::INFINITY, f64::min),
                    0.0,
                )
            }
        }
    }

    /// The probability of each outcome of the entry at `at` of the cluster. Not for the
    /// greatest distance from the mean, which has no closed form.
    pub fn chances(
        &self,
        at: usize,
        entry: &MeasuredEntry,
        limited: &Limited,
        chances: &mut Vec<f64>,
    ) {
        let place = |index: usize| self.place(index);
        match &entry.value {
            Value::Range(members) => {
                let members: Vec<(f64, f64)> = members
                    .iter()
                    .map(|member| (self.place(*member), self.free(*member).0))
                    .collect();
                entry.spread(limited, &|range| range_below(range, &members), chances);
            }
            value => {
                let (sd, half) = self.spread_of(at, value);
                let centre = value.at(&place);
                if sd <= 0.0 && half <= 0.0 {
                    entry.certain(entry.outcome_at(limited, centre), chances);
                    return;
                }
                entry.spread(limited, &|x| flat_below(x - centre, half, sd), chances);
            }
        }
    }

    /// The limits of an entry here.
    pub fn limits(&self, entry: &MeasuredEntry) -> Limited {
        entry.limits(&|index| self.place(index))
    }
}
