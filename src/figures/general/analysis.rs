//! Balanced marks taken apart: sums of squares, mean squares and what they estimate.

use serde::Serialize;

use super::super::Lacking;
use super::super::numbers::{all_finite, number, without_rounding};
use super::components::{Component, Components};
use super::design::{Design, Effect};

/// One line of an analysis of variance.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Source {
    /// The effect, as `p`, `pi`, `r:t` or `pr:t`.
    pub name: String,
    /// Degrees of freedom.
    pub freedom: f64,
    /// Sum of squares.
    pub squares: f64,
    /// Mean square.
    pub mean_square: f64,
    pub(in super::super) effect: Effect,
}

/// The analysis of variance of a balanced design with one mark in each cell.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Analysis {
    /// The design.
    pub design: Design,
    /// Its effects, those of fewer facets first.
    pub sources: Vec<Source>,
}

impl Analysis {
    /// Takes `marks` apart, which are laid out as [`Design::facets`] says.
    ///
    /// The estimated effects are swept out one after the other, those of fewer facets first;
    /// a sum of squares is that of the effects swept. In a balanced design this is the same
    /// as by T terms (Brennan 2001, 3.2), and it cannot come out negative.
    ///
    /// # Errors
    ///
    /// Another number of marks than the design has cells, or a mark that is not finite.
    pub fn of(design: &Design, marks: &[f64]) -> Result<Self, Lacking> {
        if marks.len() != design.cells() {
            return Err(Lacking::Gaps("marks of the design"));
        }
        all_finite(marks, "a mark")?;
        let mut left = marks.to_vec();
        sweep(design, 0, &mut left);
        let mut sources = Vec::new();
        for effect in design.effects() {
            let squares = without_rounding(sweep(design, effect, &mut left), marks);
            let freedom = design.freedom(effect);
            sources.push(Source {
                name: design.name(effect),
                freedom,
                squares,
                mean_square: squares / freedom,
                effect,
            });
        }
        let squares: Vec<f64> = sources.iter().map(|source| source.squares).collect();
        all_finite(&squares, "a sum of squares of so large marks")?;
        Ok(Self {
            design: design.clone(),
            sources,
        })
    }

    /// Variance components, all facets random, from the expected mean squares: that of an
    /// effect is the sum over it and all effects with its facets and more, each component
    /// times the marks to each of its cells (Cornfield and Tukey 1956; Brennan 2001, 3.4).
    ///
    /// Components are given as they come out, negative too. The standard error takes mean
    /// squares as independent multiples of chi-squared:
    /// `sqrt(sum 2 (f MS)^2 / (freedom + 2))` (Brennan 2001, 6.1; Searle 1971).
    #[must_use]
    pub fn components(&self) -> Components {
        let mut parts: Vec<Component> = Vec::new();
        for source in self.sources.iter().rev() {
            let weights = self.weights(source.effect);
            let squares = weights.iter().map(|(weight, other)| {
                let term = weight * other.mean_square;
                (term, 2.0 * term * term / (other.freedom + 2.0))
            });
            let (estimate, variance) = squares.fold((0.0, 0.0), |(all, spread), (term, own)| {
                (all + term, spread + own)
            });
            parts.push(Component {
                name: source.name.clone(),
                estimate,
                standard_error: Some(variance.sqrt()),
                effect: source.effect,
            });
        }
        parts.reverse();
        Components {
            design: self.design.clone(),
            parts,
        }
    }

    /// The weights with which mean squares estimate the component of an effect: turned round
    /// from the expected mean squares, those of more facets first.
    fn weights(&self, effect: Effect) -> Vec<(f64, &Source)> {
        let over = self.sources.iter();
        let over: Vec<&Source> = over.filter(|s| s.effect & effect == effect).collect();
        let mut weights: Vec<(f64, &Source)> = Vec::new();
        for source in over {
            // Of all between the effect and this one, this one's share is taken off.
            let between = weights.iter();
            let taken: f64 = between
                .filter(|(_, other)| source.effect & other.effect == other.effect)
                .map(|(weight, _)| weight)
                .sum();
            let own = if source.effect == effect { 1.0 } else { -taken };
            weights.push((own, source));
        }
        let each = self.design.to_each(effect);
        for (weight, _) in &mut weights {
            *weight /= each;
        }
        weights
    }

    /// The line of an effect.
    pub(in super::super) fn source(&self, name: &str) -> Option<&Source> {
        self.sources.iter().find(|source| source.name == name)
    }
}

/// Takes the means over the cells of an effect off `left`, and gives their sum of squares.
fn sweep(design: &Design, effect: Effect, left: &mut [f64]) -> f64 {
    let (cells, count) = design.cells_of(effect);
    let mut means = vec![0.0; count];
    let each = number(left.len()) / number(count);
    for (cell, value) in cells.iter().zip(left.iter()) {
        if let Some(mean) = means.get_mut(*cell) {
            *mean += value / each;
        }
    }
    for (cell, value) in cells.iter().zip(left.iter_mut()) {
        *value -= means.get(*cell).copied().unwrap_or(0.0);
    }
    means.iter().map(|mean| mean * mean * each).sum()
}
