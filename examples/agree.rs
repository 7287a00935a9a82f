//! Says how well raters agree whose scores stand in a CSV file; see README.md here.

use std::collections::BTreeMap;
use std::io::Write;
use std::process::ExitCode;

use evenshod::figures::Lacking;
use evenshod::figures::agreement::{
    Draws, LimitsAsked, Metric, Model, Ratings, Score, Weights, alpha, bland_altman, bootstrap,
    cohen_kappa, components, icc, kendall_w,
};
use serde_json::{Map, Value, json};

const COLUMNS: [&str; 3] = ["target", "rater", "score"];
const LEVEL: f64 = 0.95;
const DRAWS: Draws = Draws {
    count: 2000,
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
    let ratings = read(&text).map_err(|fault| format!("{path}, {fault}"))?;
    Ok(Answer::default().about(&ratings).to_string())
}

/// The table of the file, with its targets and raters in the order of their names.
fn read(text: &str) -> Result<Ratings, String> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let told = |fault: csv::Error| told(text, &fault);
    let order = order(reader.headers().map_err(told)?)?;
    let mut cells: BTreeMap<(String, String), (u64, Option<f64>)> = BTreeMap::new();
    for record in reader.records() {
        let record = record.map_err(told)?;
        let line = record.position().map_or(1, |position| line(text, position));
        let field = |at: usize| record.get(at).unwrap_or_default();
        let [target, rater, score] = order.map(field);
        for (name, field) in [("target", target), ("rater", rater)] {
            if field.is_empty() {
                return Err(format!("line {line}: the {name} is missing"));
            }
        }
        let score = read_score(score).map_err(|fault| format!("line {line}: {fault}"))?;
        let cell = (target.to_owned(), rater.to_owned());
        if let Some((before, _)) = cells.insert(cell, (line, score)) {
            return Err(format!(
                "line {line}: rater {rater} scored target {target} on line {before} already"
            ));
        }
    }
    table(&cells)
}

/// Where each of the columns stands.
fn order(header: &csv::StringRecord) -> Result<[usize; 3], String> {
    let known = "the first line names the columns target, rater and score";
    if let Some(name) = header.iter().find(|name| !COLUMNS.contains(name)) {
        return Err(format!("line 1: there is no column `{name}`; {known}"));
    }
    let mut order = [0; 3];
    for (place, column) in order.iter_mut().zip(COLUMNS) {
        let mut found = header
            .iter()
            .enumerate()
            .filter(|(_, name)| *name == column);
        *place = match (found.next(), found.next()) {
            (Some((at, _)), None) => at,
            (None, _) => return Err(format!("line 1: the column `{column}` is missing; {known}")),
            _ => {
                return Err(format!(
                    "line 1: the column `{column}` is there twice; {known}"
                ));
            }
        };
    }
    Ok(order)
}

fn read_score(text: &str) -> Result<Option<f64>, String> {
    if text.is_empty() {
        return Ok(None);
    }
    match text.parse::<f64>() {
        Ok(score) if score.is_finite() => Ok(Some(score)),
        _ => Err(format!(
            "`{text}` is not a number; write a score as 3 or 3.5, or leave it empty"
        )),
    }
}

fn told(text: &str, fault: &csv::Error) -> String {
    let line = fault.position().map_or(1, |position| line(text, position));
    match fault.kind() {
        csv::ErrorKind::UnequalLengths {
            expected_len, len, ..
        } => format!("line {line}: {len} fields instead of {expected_len}"),
        _ => format!("line {line}: {fault}"),
    }
}

/// The line of what begins there. The reader stands where the record before ended, which may
/// be ahead of empty lines.
fn line(text: &str, position: &csv::Position) -> u64 {
    let from = usize::try_from(position.byte()).unwrap_or(usize::MAX);
    let ahead = text.bytes().skip(from);
    let empty = ahead.take_while(|byte| matches!(byte, b'\r' | b'\n'));
    position.line() + empty.map(|byte| u64::from(byte == b'\n')).sum::<u64>()
}

fn table(cells: &BTreeMap<(String, String), (u64, Option<f64>)>) -> Result<Ratings, String> {
    let mut raters: Vec<&String> = cells.keys().map(|(_, rater)| rater).collect();
    raters.sort_unstable();
    raters.dedup();
    let mut targets: Vec<&String> = cells.keys().map(|(target, _)| target).collect();
    targets.dedup();
    if targets.is_empty() {
        return Err("line 2: there are no scores below the header".to_owned());
    }
    let cell = |target: &String, rater: &String| {
        let found = cells.get(&(target.clone(), rater.clone()));
        found.and_then(|(_, score)| *score)
    };
    let row = |target| raters.iter().map(|rater| cell(target, rater)).collect();
    let rows: Vec<Vec<Option<f64>>> = targets.into_iter().map(row).collect();
    Ratings::new(&rows).map_err(|lacking| lacking.to_string())
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
