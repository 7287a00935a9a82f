//! How long figures of agreement take: an intraclass correlation with its interval by 2,000
//! draws, and an ordinal alpha, which `scripts/figures-time` sets beside the same in Python; and
//! severity of examiners, against its bar.

// Clippy takes helpers of a benchmark for production code.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

use std::hint::black_box;
use std::time::{Duration, Instant};

use evenshod::figures::Resampling;
use evenshod::figures::agreement::{Metric, Model, Ratings, Score, alpha, icc, icc_bootstrap};
use evenshod::figures::severity::{Design, Rating, severity};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng as _, SeedableRng as _};

/// Each is measured for so long, or once.
const FOR: Duration = Duration::from_secs(2);

/// Targets that differ, raters that are more or less strict, and chance; of every hundred
/// cells so many are empty.
fn table(targets: usize, raters: usize, gaps: u64) -> Ratings {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(1);
    let mut below = |end: u64| u32::try_from(random.next_u64() % end).unwrap();
    let strict: Vec<u32> = (0..raters).map(|_| below(3)).collect();
    let rows = (0..targets).map(|_| {
        let true_score = below(6);
        let cells = strict.iter().map(|strict| {
            let score = true_score + strict + below(4);
            (u64::from(below(100)) >= gaps).then(|| f64::from(score))
        });
        cells.collect()
    });
    Ratings::new(&rows.collect::<Vec<_>>()).unwrap()
}

/// 20,000 ratings: 300 learners, 20 criteria, 8 examiners of whom each learner sees three or
/// four.
fn ratings() -> Design {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(2);
    let mut below = |end: u64| usize::try_from(random.next_u64() % end).unwrap();
    let mut ratings = Vec::new();
    for learner in 0..300 {
        let able = learner % 3;
        for turn in 0..3 + usize::from(learner % 3 == 0) {
            let examiner = (learner + 3 * turn) % 8;
            for criterion in 0..20 {
                let level = able + below(3) - usize::from(examiner > 5 && able > 0);
                ratings.push(Rating {
                    learner,
                    criterion,
                    examiner,
                    level: level.min(4),
                });
            }
        }
    }
    Design::of(ratings, 4).unwrap()
}

/// Milliseconds that it takes, as a mean.
fn time(what: impl Fn()) -> f64 {
    let since = Instant::now();
    let mut times = 0_u32;
    while times == 0 || since.elapsed() < FOR {
        what();
        times += 1;
    }
    since.elapsed().as_secs_f64() * 1e3 / f64::from(times)
}

fn main() {
    let whole = table(200, 6, 0);
    let draws = Resampling {
        draws: 2000,
        seed: 1,
        level: 0.95,
    };
    let (model, score) = (Model::Agreement, Score::Single);
    let took = time(|| {
        black_box(icc(black_box(&whole), model, score, draws.level).unwrap());
        black_box(icc_bootstrap(black_box(&whole), model, score, &draws).unwrap());
    });
    println!("ICC 2,1 with 2,000 draws on 200 x 6: {took:.1} ms");
    let gappy = table(500, 8, 10);
    let took = time(|| {
        black_box(alpha(black_box(&gappy), Metric::Ordinal).unwrap());
    });
    println!("alpha, ordinal, on 500 x 8 with gaps: {took:.3} ms");
    let design = ratings();
    let many = design.ratings().len();
    let took = time(|| {
        black_box(severity(black_box(&design)).unwrap());
    });
    println!("severity, {many} ratings of 300 learners by 8 examiners: {took:.0} ms, bar 500");
}
