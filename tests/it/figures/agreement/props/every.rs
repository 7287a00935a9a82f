//! Every figure of a table.

use evenshod::figures::Lacking;
use evenshod::figures::agreement::{
    LimitsAsked, Metric, Model, Ratings, Score, Weights, alpha, bland_altman, cohen_kappa,
    components, concordance, fleiss_kappa, icc, kendall_w,
};

const METRICS: [Metric; 4] = [
    Metric::Nominal,
    Metric::Ordinal,
    Metric::Interval,
    Metric::Ratio,
];
pub const MODELS: [Model; 3] = [Model::OneWay, Model::Agreement, Model::Consistency];

/// Every figure of a table: the values that the order of targets and raters leaves alone.
pub fn figures(ratings: &Ratings) -> Vec<Result<f64, Lacking>> {
    let mut all = Vec::new();
    for model in MODELS {
        for score in [Score::Single, Score::Mean] {
            let found = icc(ratings, model, score, 0.95);
            all.push(
                found
                    .as_ref()
                    .map(|found| found.value)
                    .map_err(Lacking::clone),
            );
            if let Ok(found) = found {
                all.extend([
                    found.interval.clone().map(|interval| interval.low),
                    found.interval.map(|interval| interval.high),
                    found.test.clone().map(|test| test.statistic),
                    found.test.map(|test| test.p),
                ]);
            }
        }
    }
    let parts = components(ratings);
    all.push(parts.clone().map(|parts| parts.targets));
    all.push(parts.clone().map(|parts| parts.raters));
    all.push(parts.clone().map(|parts| parts.residual));
    all.push(parts.and_then(|parts| parts.agreement(1.0)));
    all.extend(METRICS.map(|metric| alpha(ratings, metric)));
    let kendall = kendall_w(ratings);
    all.push(kendall.clone().map(|kendall| kendall.value));
    all.push(kendall.map(|kendall| kendall.test.p));
    let fleiss = fleiss_kappa(ratings);
    all.push(fleiss.clone().map(|kappa| kappa.value));
    all.push(fleiss.and_then(|kappa| kappa.test).map(|test| test.p));
    all.extend(of_two(ratings));
    all
}

/// The figures of two raters, where there are two.
fn of_two(ratings: &Ratings) -> Vec<Result<f64, Lacking>> {
    let Ok((first, second)) = ratings.pairs() else {
        return Vec::new();
    };
    let scale = ratings.distinct();
    let mut all = Vec::new();
    for weights in [Weights::Equal, Weights::Linear, Weights::Quadratic] {
        let kappa = cohen_kappa(&first, &second, &scale, weights, 0.95);
        all.push(kappa.clone().map(|kappa| kappa.value));
        all.push(kappa.clone().map(|kappa| kappa.error));
        all.push(kappa.and_then(|kappa| kappa.test).map(|test| test.p));
    }
    let limits = bland_altman(&first, &second, LimitsAsked::default());
    all.push(limits.clone().map(|limits| limits.deviation));
    all.push(limits.map(|limits| limits.low.error));
    let lin = concordance(&first, &second, 0.95);
    all.push(lin.clone().map(|lin| lin.value));
    all.push(
        lin.and_then(|lin| lin.interval)
            .map(|interval| interval.high),
    );
    all
}
