//! The method by analysis of variance.

use serde::Serialize;

use super::super::Lacking;
use super::super::chance::f_above;
use super::super::general::{Component, Source};
use super::super::numbers::number;
use super::crossed::Crossed;
use super::deviations::Deviations;
use super::uncertainty::{Combined, Term, add};

/// The level above which the interaction is pooled with repeatability unless another is
/// asked for. Bancroft 1964 (from memory) advises 0.25 for pooling after a test; 0.05 is
/// common practice, no source.
pub const POOLING_LEVEL: f64 = 0.25;

/// What the analysis says of operators' ways with single parts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Interaction {
    /// Its mean square over that of repeatability.
    pub f: f64,
    /// Degrees of freedom of the two.
    pub freedom: (f64, f64),
    /// The probability of at least such an `f` if there were no interaction.
    pub p: f64,
    /// Its variance before pooling, as it comes out.
    pub estimate: f64,
    /// Whether it was pooled with repeatability.
    pub is_pooled: bool,
}

/// A gauge study by analysis of variance, parts and operators random.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VarianceStudy {
    /// The lines of the table before pooling: `p` parts, `o` operators, `po` the
    /// interaction, `t:po` repeatability.
    pub sources: Vec<Source>,
    /// The interaction; nothing where repeatability is exactly 0, when none is pooled.
    pub interaction: Option<Interaction>,
    /// Variance of repeatability, with the interaction where that is pooled.
    pub repeatability: f64,
    /// Variance of operators, as it comes out.
    pub operator: f64,
    /// Variance of the interaction as it comes out; nothing where it is pooled.
    pub operator_by_part: Option<f64>,
    /// Variance of parts, as it comes out.
    pub part: f64,
    /// The standard deviations, negative variances counted as 0.
    pub deviations: Deviations,
    /// What the variance of one reading is added up from.
    reading: Vec<Term>,
}

impl Crossed {
    /// The study by analysis of variance (AIAG, 4th edition, appendix A).
    ///
    /// The interaction is pooled with repeatability, sums of squares and degrees of freedom
    /// added, where its F test gives a probability above `pooling_level` (see
    /// [`POOLING_LEVEL`]); 1 pools never, 0 always.
    ///
    /// # Errors
    ///
    /// A level outside 0 to 1, or readings so large that their squares are not finite.
    pub fn by_variance(&self, pooling_level: f64) -> Result<VarianceStudy, Lacking> {
        if !(0.0..=1.0).contains(&pooling_level) {
            return Err(Lacking::NotANumber("the level for pooling"));
        }
        let analysis = self.analysis()?;
        let line = |name| {
            let line = analysis.source(name);
            line.ok_or(Lacking::Design("parts by operators by trials"))
        };
        let (part, operator) = (line("p")?.mean_square, line("o")?.mean_square);
        let (both, cell) = (line("po")?, line("t:po")?);
        let (parts, operators) = (number(self.parts()), number(self.operators()));
        let trials = number(self.trials());
        let components = analysis.components();
        let estimate = components
            .named("po")
            .map_or(0.0, |c: &Component| c.estimate);
        let interaction = interaction(both, cell, estimate, pooling_level)?;
        let is_pooled = interaction.is_some_and(|found| found.is_pooled);
        // What operators and parts are held against.
        let (within, beside) = if is_pooled {
            let freedom = both.freedom + cell.freedom;
            let pooled = Mean {
                square: (both.squares + cell.squares) / freedom,
                freedom,
            };
            (pooled, pooled)
        } else {
            (Mean::of(cell), Mean::of(both))
        };
        let operator = Mean {
            square: operator,
            freedom: operators - 1.0,
        };
        let of_operator = (operator.square - beside.square) / (parts * trials);
        let of_both = (beside.square - within.square) / trials;
        let of_part = (part - beside.square) / (operators * trials);
        // The shares of mean squares that the variances above 0 add up to.
        let a = if of_operator > 0.0 {
            1.0 / (parts * trials)
        } else {
            0.0
        };
        let b = if of_both > 0.0 { 1.0 / trials } else { 0.0 };
        let shares = if is_pooled {
            vec![(a, operator), (1.0 - a, within)]
        } else {
            vec![(a, operator), (b - a, beside), (1.0 - b, within)]
        };
        let reading = shares.iter().map(|(share, mean)| Term {
            variance: share * mean.square,
            freedom: mean.freedom,
        });
        Ok(VarianceStudy {
            interaction,
            repeatability: within.square,
            operator: of_operator,
            operator_by_part: (!is_pooled).then_some(of_both),
            part: of_part,
            deviations: Deviations::of_variances(
                within.square,
                of_operator.max(0.0) + of_both.max(0.0),
                of_part.max(0.0),
            ),
            reading: reading.collect(),
            sources: analysis.sources,
        })
    }
}

/// A mean square with its degrees of freedom.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Mean {
    square: f64,
    freedom: f64,
}

impl Mean {
    fn of(source: &Source) -> Self {
        Self {
            square: source.mean_square,
            freedom: source.freedom,
        }
    }
}

/// The test of the interaction; nothing where repeatability is exactly 0.
fn interaction(
    both: &Source,
    cell: &Source,
    estimate: f64,
    level: f64,
) -> Result<Option<Interaction>, Lacking> {
    let f = both.mean_square / cell.mean_square;
    if !f.is_finite() {
        return Ok(None);
    }
    let p = f_above(f, both.freedom, cell.freedom)?;
    Ok(Some(Interaction {
        f,
        freedom: (both.freedom, cell.freedom),
        p,
        estimate,
        is_pooled: p > level,
    }))
}

impl VarianceStudy {
    /// Standard uncertainty of one reading of a part by any operator, in the unit of the
    /// readings, with its degrees of freedom.
    ///
    /// Its variance is that of repeatability and those of operators and interaction that are
    /// above 0, put together from mean squares; the degrees of freedom are those of
    /// Welch and Satterthwaite for such a sum (JCGM 100:2008, G.2b; Satterthwaite 1946).
    /// What all operators share, as the bias of the gauge, is not in it.
    ///
    /// # Errors
    ///
    /// Readings of one part that are all alike, as these have no degrees of freedom.
    pub fn reading_uncertainty(&self) -> Result<Combined, Lacking> {
        add(&self.reading)
    }
}
