use super::super::chance::f_quantile;
use super::super::numbers::{confidence, finite};
use super::super::{Interval, Lacking, Resampling, Spread};
use super::bootstrap::bootstrap;
use super::components::Components;
use super::mean_squares::{MeanSquares, mean_squares};
use super::ratings::Ratings;
use super::tests::FTest;

/// What counts as error between raters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Model {
    /// Every target has raters of its own: Shrout and Fleiss' case 1, McGraw and Wong's ICC(1).
    OneWay,
    /// The same raters, and it counts that one is stricter: case 2, ICC(A).
    Agreement,
    /// The same raters, and how strict each is does not count: case 3, ICC(C).
    Consistency,
}

/// What is relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Score {
    /// The score of one rater.
    Single,
    /// The mean of all raters' scores.
    Mean,
}

/// An intraclass correlation.
#[derive(Debug, Clone, PartialEq)]
pub struct Icc {
    /// At most 1; below 0 where targets differ less than error alone would make them.
    pub value: f64,
    /// Its interval.
    pub interval: Result<Interval, Lacking>,
    /// Whether targets differ at all: no test of how good the figure is.
    pub test: Result<FTest, Lacking>,
}

/// One of the six intraclass correlations of a table without empty cells.
///
/// *Formulas:* with the variance between targets `t = (MSB - MSE) / k` and that of the error
/// of one score `e`, the figure is `t / (t + e / m)`, where `m` is 1 for a single score and
/// `k` for the mean of `k` (Shrout and Fleiss 1979; McGraw and Wong 1996, table 4). One-way:
/// `MSW` stands for `MSE`, and `e = MSW`. Consistency: `e = MSE`. Agreement:
/// `e = MSE + (MSC - MSE) / n`. The interval (table 7 there) has the same form: for its lower
/// end the mean squares of error are multiplied by the quantile `F(n - 1, v)`, for its upper
/// end that of the targets by `F(v, n - 1)`. `v` is the degrees of freedom of the error, for
/// agreement by Satterthwaite at the value found. The test is `MSB / MSE` (one-way: by `MSW`).
///
/// # Errors
/// Those of [`mean_squares`]; `NotPositive` where the variance comes out as nothing or less;
/// `NotFound` in the interval where its degrees of freedom are hardly any.
pub fn icc(ratings: &Ratings, model: Model, score: Score, level: f64) -> Result<Icc, Lacking> {
    let level = confidence(level)?;
    let squares = mean_squares(ratings)?;
    let (residual, df) = error_of(model, &squares);
    let statistic = squares.between / residual;
    Ok(Icc {
        value: value_of(model, score, &squares)?,
        interval: interval(model, score, &squares, level),
        test: if residual > 0.0 {
            FTest::of(statistic, squares.targets - 1.0, df)
        } else {
            Err(Lacking::NoSpread("the scores of each target"))
        },
    })
}

/// The interval of an intraclass correlation by drawing targets anew; see [`bootstrap`].
///
/// # Errors
/// Those of [`icc`] and of [`bootstrap`].
pub fn icc_bootstrap(
    ratings: &Ratings,
    model: Model,
    score: Score,
    draws: &Resampling,
) -> Result<Spread, Lacking> {
    bootstrap(ratings, draws, |drawn| {
        value_of(model, score, &mean_squares(drawn)?)
    })
}

/// The mean square of the error that the test takes, and its degrees of freedom.
fn error_of(model: Model, squares: &MeanSquares) -> (f64, f64) {
    let MeanSquares {
        targets, raters, ..
    } = squares;
    match model {
        Model::OneWay => (squares.within, targets * (raters - 1.0)),
        Model::Agreement | Model::Consistency => (squares.error, (targets - 1.0) * (raters - 1.0)),
    }
}

fn value_of(model: Model, score: Score, squares: &MeanSquares) -> Result<f64, Lacking> {
    let (residual, _) = error_of(model, squares);
    let between = (squares.between - residual) / squares.raters;
    let judges = match model {
        Model::Agreement => (squares.judges - residual) / squares.targets,
        Model::OneWay | Model::Consistency => 0.0,
    };
    let divisor = match score {
        Score::Single => 1.0,
        Score::Mean => squares.raters,
    };
    Components {
        targets: between,
        raters: judges,
        residual,
    }
    .agreement(divisor)
}

fn interval(
    model: Model,
    score: Score,
    squares: &MeanSquares,
    level: f64,
) -> Result<Interval, Lacking> {
    let above = (1.0 - level) / 2.0;
    let df = squares.targets - 1.0;
    let df_error = match model {
        Model::Agreement => satterthwaite(squares)?,
        Model::OneWay | Model::Consistency => error_of(model, squares).1,
    };
    let down = f_quantile(above, df, df_error)?;
    let up = f_quantile(above, df_error, df)?;
    let lower = MeanSquares {
        within: squares.within * down,
        judges: squares.judges * down,
        error: squares.error * down,
        ..*squares
    };
    let upper = MeanSquares {
        between: squares.between * up,
        ..*squares
    };
    Ok(Interval {
        low: value_of(model, score, &lower)?,
        high: value_of(model, score, &upper)?,
        level,
    })
}

/// The degrees of freedom of the error of agreement (McGraw and Wong 1996, table 7), at the
/// value of a single score; its `a` and `b` are multiplied by `n (1 - value)` here, which
/// leaves the figure as it is and is defined for a value of 1.
fn satterthwaite(squares: &MeanSquares) -> Result<f64, Lacking> {
    let MeanSquares {
        targets, raters, ..
    } = *squares;
    let value = value_of(Model::Agreement, Score::Single, squares)?;
    let judges = raters * value * squares.judges;
    let error = (targets * (1.0 - value) + raters * value * (targets - 1.0)) * squares.error;
    let df = (raters - 1.0, (targets - 1.0) * (raters - 1.0));
    let parts = judges.powi(2) / df.0 + error.powi(2) / df.1;
    if parts > 0.0 {
        finite((judges + error).powi(2) / parts, "the degrees of freedom")
    } else {
        // No error at all: both ends are 1, whatever the degrees of freedom.
        Ok(df.1)
    }
}
