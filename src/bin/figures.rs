//! How long figures of agreement take: an intraclass correlation with its interval by 2,000
//! draws, and an ordinal alpha, which `scripts/figures-time` sets beside the same in Python; and
//! severity of examiners. It runs natively, and in a browser against the bars of its worker.

#![allow(missing_docs)]

mod timed;

use std::fmt::Write as _;
use std::hint::black_box;

use evenshod::figures::agreement::{Metric, Model, Ratings, Score, alpha, icc, icc_bootstrap};
use evenshod::figures::severity::{Design, Rating, severity};
use evenshod::figures::{Lacking, Resampling};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng as _, SeedableRng as _};

/// Each is measured for so many milliseconds, or once.
const FOR_MS: f64 = 2000.0;
/// The bars of a figure and of the fit, in a browser.
const BAR_MS: f64 = 200.0;
const BAR_OF_FIT_MS: f64 = 500.0;

/// A whole number below `end`, of those that the seed gives in order.
struct Draws(Xoshiro256PlusPlus);

impl Draws {
    fn of(seed: u64) -> Self {
        Self(Xoshiro256PlusPlus::seed_from_u64(seed))
    }

    fn below(&mut self, end: u32) -> u32 {
        u32::try_from(self.0.next_u64() % u64::from(end)).unwrap_or_default()
    }
}

/// Targets that differ, raters that are more or less strict, and chance; of every hundred
/// cells so many are empty.
fn table(targets: usize, raters: usize, gaps: u32) -> Result<Ratings, Lacking> {
    let mut draws = Draws::of(1);
    let strict: Vec<u32> = (0..raters).map(|_| draws.below(3)).collect();
    let rows = (0..targets).map(|_| {
        let true_score = draws.below(6);
        let cells = strict.iter().map(|strict| {
            let score = true_score + strict + draws.below(4);
            (draws.below(100) >= gaps).then(|| f64::from(score))
        });
        cells.collect()
    });
    Ratings::new(&rows.collect::<Vec<_>>())
}

/// 20,000 ratings: 300 learners, 20 criteria, 8 examiners of whom each learner sees three or
/// four.
fn ratings() -> Result<Design, Lacking> {
    let mut draws = Draws::of(2);
    let mut ratings = Vec::new();
    for learner in 0..300 {
        let able = learner % 3;
        for turn in 0..3 + usize::from(able == 0) {
            let examiner = (learner + 3 * turn) % 8;
            for criterion in 0..20 {
                let luck = [0, 1, 2].get(draws.below(3) as usize).copied().unwrap_or(0);
                let level = able + luck - usize::from(examiner > 5 && able > 0);
                ratings.push(Rating {
                    learner,
                    criterion,
                    examiner,
                    level: level.min(4),
                });
            }
        }
    }
    Design::of(ratings, 4)
}

/// Milliseconds that it takes, as a mean; `now` gives milliseconds.
fn time<T>(now: &dyn Fn() -> f64, what: impl Fn() -> Result<T, Lacking>) -> Result<f64, Lacking> {
    let since = now();
    let mut times = 0.0;
    while times == 0.0 || now() - since < FOR_MS {
        black_box(what()?);
        times += 1.0;
    }
    Ok((now() - since) / times)
}

/// One line a figure.
fn measured(now: &dyn Fn() -> f64) -> Result<String, Lacking> {
    let mut said = String::new();
    let mut line = |name: &str, took: f64, bar: f64| {
        let _ = writeln!(said, "{name}: {took:.3} ms, {:.3} of the bar", took / bar);
    };
    let whole = table(200, 6, 0)?;
    let draws = Resampling {
        draws: 2000,
        seed: 1,
        level: 0.95,
    };
    let (model, score) = (Model::Agreement, Score::Single);
    let took = time(now, || {
        icc(black_box(&whole), model, score, draws.level)?;
        icc_bootstrap(black_box(&whole), model, score, &draws)
    })?;
    line("ICC 2,1 with 2,000 draws on 200 x 6", took, BAR_MS);
    let gappy = table(500, 8, 10)?;
    let took = time(now, || alpha(black_box(&gappy), Metric::Ordinal))?;
    line("alpha, ordinal, on 500 x 8 with gaps", took, BAR_MS);
    let design = ratings()?;
    let took = time(now, || severity(black_box(&design)))?;
    let name = format!("severity, {} ratings", design.ratings().len());
    line(&name, took, BAR_OF_FIT_MS);
    Ok(said)
}

fn said(now: &dyn Fn() -> f64) -> String {
    measured(now).unwrap_or_else(|lacking| format!("nothing was measured: {lacking}\n"))
}

fn main() {
    timed::show(said);
}
