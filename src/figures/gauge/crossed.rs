use super::super::Lacking;
use super::super::general::{Analysis, Design, Facet};
use super::super::numbers::{all_finite, at_least, mean};

/// Readings of a gauge study in which every operator measures every part equally often.
#[derive(Debug, Clone, PartialEq)]
pub struct Crossed {
    parts: usize,
    operators: usize,
    trials: usize,
    readings: Vec<f64>,
}

impl Crossed {
    /// Readings by part, then operator, then trial.
    ///
    /// # Errors
    ///
    /// Fewer than two parts, operators or trials; a part that an operator has not measured
    /// or has measured less often than the others, as both methods here rest on equal
    /// numbers; a reading that is not finite.
    pub fn of(readings: &[Vec<Vec<f64>>]) -> Result<Self, Lacking> {
        let operators = readings.iter().map(Vec::len).max().unwrap_or(0);
        let trials = readings.iter().flatten().map(Vec::len).max().unwrap_or(0);
        at_least(readings.len(), 2, "parts")?;
        at_least(operators, 2, "operators")?;
        at_least(trials, 2, "trials")?;
        if readings.iter().any(|part| part.len() != operators) {
            return Err(Lacking::Gaps("operators who measured each part"));
        }
        if readings.iter().flatten().any(|cell| cell.len() != trials) {
            return Err(Lacking::Gaps("trials of each part by each operator"));
        }
        let flat: Vec<f64> = readings.iter().flatten().flatten().copied().collect();
        all_finite(&flat, "a reading")?;
        Ok(Self {
            parts: readings.len(),
            operators,
            trials,
            readings: flat,
        })
    }

    /// How many parts there are.
    #[must_use]
    pub fn parts(&self) -> usize {
        self.parts
    }

    /// How many operators there are.
    #[must_use]
    pub fn operators(&self) -> usize {
        self.operators
    }

    /// How many trials there are of each part by each operator.
    #[must_use]
    pub fn trials(&self) -> usize {
        self.trials
    }

    /// The readings of one part by one operator, cell after cell.
    pub(super) fn cells(&self) -> impl Iterator<Item = &[f64]> {
        self.readings.chunks(self.trials)
    }

    /// The mean of each part.
    pub(super) fn part_means(&self) -> Vec<f64> {
        let parts = self.readings.chunks(self.operators * self.trials);
        parts.map(mean).collect()
    }

    /// The mean of each operator.
    pub(super) fn operator_means(&self) -> Vec<f64> {
        let cells: Vec<f64> = self.cells().map(mean).collect();
        let of = |operator: usize| {
            let own = cells.iter().skip(operator).step_by(self.operators);
            mean(&own.copied().collect::<Vec<f64>>())
        };
        (0..self.operators).map(of).collect()
    }

    /// The analysis of variance of parts by operators with trials within both.
    pub(super) fn analysis(&self) -> Result<Analysis, Lacking> {
        let design = Design::new(vec![
            Facet::new('p', self.parts, &[]),
            Facet::new('o', self.operators, &[]),
            Facet::new('t', self.trials, &['p', 'o']),
        ])?;
        Analysis::of(&design, &self.readings)
    }
}
