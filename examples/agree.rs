//! Says how well raters agree whose scores stand in a CSV file; see README.md here.

use std::io::Write;
use std::process::ExitCode;

use evenshod::figures::agreement::{
    LimitsAsked, Metric, Model, Ratings, Score, Weights, alpha, bland_altman, bootstrap,
    cohen_kappa, components, icc, kendall_w,
};
use evenshod::figures::{Lacking, Resampling};
use serde_json::{Map, Value, json};

#[path = "agree/read.rs"]
mod read;

const LEVEL: f64 = 0.95;
const DRAWS: Resampling = Resampling {
    draws: 2000,
    seed: 1,
    level: LEVEL,
};

fn main() -> ExitCode {
    let answer = run();
    let (written, code) = match &answer {
        Ok(json) => (writeln!(std::io::stdout(), "{json}"), ExitCode::SUCCESS),
        Err(message) => (writeln!(std::io::stderr(), "{message}"), ExitCode::from(2)),
    };
    if written.is_err() {
        ExitCode::FAILURE
    } else {
        code
    }
}

fn run() -> Result<String, String> {
    let mut arguments = std::env::args().skip(1);
    let (Some(path), None) = (arguments.next(), arguments.next()) else {
        return Err("write: agree RATINGS.csv".to_owned());
    };
    let text = std::fs::read_to_string(&path)
        .map_err(|fault| format!("{path} cannot be read: {fault}"))?;
    let ratings = read::read(&text).map_err(|fault| format!("{path}, {fault}"))?;
    Ok(Answer::default().about(&ratings).to_string())
}

/// What is said, and why something is not.
#[derive(Default)]
struct Answer {
    why: Vec<String>,
}

impl Answer {
    fn about(mut self, ratings: &Ratings) -> Value {
        let mut all = json!({
            "n_targets": ratings.targets(),
            "n_raters": ratings.raters(),
            "n_missing": ratings.missing(),
            "icc": self.icc(ratings),
            "krippendorff": self.krippendorff(ratings),
            "kendall_w": self.value("kendall_w", kendall_w(ratings).map(|w| w.value)),
            "kappa": self.kappa(ratings),
            "bland_altman": self.bland_altman(ratings),
        });
        if let Some(map) = all.as_object_mut() {
            map.insert("why".to_owned(), json!(self.why));
        }
        all
    }

    /// The value, or null and a line that says why.
    fn value<V: Into<Value>>(&mut self, name: &str, found: Result<V, Lacking>) -> Value {
        match found {
            Ok(value) => value.into(),
            Err(lacking) => {
                self.why.push(format!("{name}: {lacking}"));
                Value::Null
            }
        }
    }

    fn icc(&mut self, ratings: &Ratings) -> Value {
        let forms = [
            ("1,1", Model::OneWay, Score::Single),
            ("2,1", Model::Agreement, Score::Single),
            ("3,1", Model::Consistency, Score::Single),
            ("1,k", Model::OneWay, Score::Mean),
            ("2,k", Model::Agreement, Score::Mean),
            ("3,k", Model::Consistency, Score::Mean),
        ];
        let mut all = Map::new();
        for (form, model, score) in forms {
            let name = format!("icc {form}");
            let is_single_agreement = (model, score) == (Model::Agreement, Score::Single);
            let one = if ratings.missing() > 0 && is_single_agreement {
                self.with_gaps(&name, ratings)
            } else {
                let found = icc(ratings, model, score, LEVEL);
                let ends = found.clone().and_then(|found| found.interval);
                let ends = ends.map(|ends| (ends.low, ends.high));
                self.with_ends(&name, found.map(|found| found.value), ends, "mean squares")
            };
            all.insert(form.to_owned(), one);
        }
        Value::Object(all)
    }

    /// Absolute agreement from the components of variance, which bear empty cells.
    fn with_gaps(&mut self, name: &str, ratings: &Ratings) -> Value {
        let value = |ratings: &Ratings| components(ratings)?.agreement(1.0);
        let drawn = bootstrap(ratings, &DRAWS, value);
        let ends = drawn.map(|drawn| (drawn.interval.low, drawn.interval.high));
        self.with_ends(name, value(ratings), ends, "components of variance")
    }

    fn with_ends(
        &mut self,
        name: &str,
        value: Result<f64, Lacking>,
        ends: Result<(f64, f64), Lacking>,
        method: &str,
    ) -> Value {
        let found = value.map(|value| match ends {
            Ok((low, high)) => {
                json!({"value": value, "low": low, "high": high, "method": method})
            }
            Err(lacking) => {
                self.why.push(format!("{name}, interval: {lacking}"));
                json!({"value": value, "low": null, "high": null, "method": method})
            }
        });
        self.value(name, found)
    }

    fn krippendorff(&mut self, ratings: &Ratings) -> Value {
        let mut of = |name: &str, metric| {
            self.value(&format!("krippendorff {name}"), alpha(ratings, metric))
        };
        json!({
            "nominal": of("nominal", Metric::Nominal),
            "ordinal": of("ordinal", Metric::Ordinal),
            "interval": of("interval", Metric::Interval),
        })
    }

    fn kappa(&mut self, ratings: &Ratings) -> Value {
        let pairs = match ratings.pairs() {
            Ok(pairs) => pairs,
            Err(lacking) => return self.value::<Value>("kappa", Err(lacking)),
        };
        let scale = ratings.distinct();
        let mut of = |name: &str, weights| {
            let found = cohen_kappa(&pairs.0, &pairs.1, &scale, weights, LEVEL);
            self.value(&format!("kappa {name}"), found.map(|kappa| kappa.value))
        };
        json!({
            "unweighted": of("unweighted", Weights::Equal),
            "linear": of("linear", Weights::Linear),
            "quadratic": of("quadratic", Weights::Quadratic),
        })
    }

    fn bland_altman(&mut self, ratings: &Ratings) -> Value {
        let limits = ratings
            .pairs()
            .and_then(|(first, second)| bland_altman(&first, &second, LimitsAsked::default()));
        let limits = limits.map(|limits| {
            json!({
                "bias": limits.bias.value,
                "low": limits.low.value,
                "high": limits.high.value,
            })
        });
        self.value("bland_altman", limits)
    }
}
