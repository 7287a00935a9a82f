//! Criteria whose descriptors leave examiners apart.

use std::collections::BTreeMap;

use super::blind::{Gathered, pairs};
use super::judged::{alpha_of, place, score};
use crate::figures::{Interval, Lacking};
use crate::rubric::{Entry, Judged, Kind};

/// What examiners made of the descriptors of one criterion, all its shoes together.
#[derive(Debug, Clone, PartialEq)]
pub struct Descriptors {
    /// The criterion's id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Krippendorff's alpha, levels in their order.
    pub alpha: Result<f64, Lacking>,
    /// Its interval.
    pub interval: Result<Interval, Lacking>,
    /// How often two examiners judged the same thing.
    pub pairs: usize,
    /// In how many of them they gave different levels.
    pub apart: usize,
    /// The two levels that were given most often to the same thing by two examiners; of
    /// equals the better ones.
    pub mixed: Option<Mixed>,
}

/// Two levels that stand for the same thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mixed {
    /// The better one.
    pub better: String,
    /// The other one.
    pub worse: String,
    /// How often one examiner gave the one and another the other.
    pub times: usize,
}

/// Krippendorff's least alpha from which conclusions may be drawn, tentative ones
/// (Content Analysis, 4th edition 2018, chapter 12).
pub const TENTATIVE: f64 = 0.667;

/// Every judged criterion, in the order of the rubric.
pub(super) fn descriptors(gathered: &Gathered<'_>) -> Vec<Descriptors> {
    let entries = gathered.rubric.entries();
    let mut all: Vec<(&str, Vec<&Entry<'_>>)> = Vec::new();
    for entry in &entries {
        let id = entry.criterion.id.as_str();
        match all.iter_mut().find(|(own, _)| *own == id) {
            Some((_, own)) => own.push(entry),
            None => all.push((id, vec![entry])),
        }
    }
    let of = |(_, entries): (&str, Vec<&Entry<'_>>)| {
        let criterion = entries.first()?.criterion;
        match &criterion.kind {
            Kind::Judged(judged) => Some(described(gathered, &entries, judged)),
            _ => None,
        }
    };
    all.into_iter().filter_map(of).collect()
}

fn described(gathered: &Gathered<'_>, entries: &[&Entry<'_>], judged: &Judged) -> Descriptors {
    let mut rows = Vec::new();
    let mut together: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    for entry in entries {
        rows.extend(gathered.filled_rows(|by| score(place(judged, entry, by)?)));
        for seen in &gathered.twice {
            let given: Vec<usize> = seen
                .by
                .iter()
                .filter_map(|by| place(judged, entry, by))
                .collect();
            for (one, other) in pairs(&given) {
                let pair = (*one.max(other), *one.min(other));
                *together.entry(pair).or_default() += 1;
            }
        }
    }
    let (alpha, interval) = alpha_of(&rows);
    let unlike = together.iter().filter(|((one, other), _)| one != other);
    // The last of equals is the best one.
    let most = unlike.clone().max_by_key(|(_, times)| **times);
    let criterion = entries.first().map(|entry| entry.criterion);
    Descriptors {
        id: criterion.map(|own| own.id.clone()).unwrap_or_default(),
        name: criterion.map(|own| own.name.clone()).unwrap_or_default(),
        alpha,
        interval,
        pairs: together.values().sum(),
        apart: unlike.map(|(_, times)| times).sum(),
        mixed: most.map(|((better, worse), times)| Mixed {
            better: level_name(judged, *better),
            worse: level_name(judged, *worse),
            times: *times,
        }),
    }
}

/// What the level in this place is called; places rise with the level.
fn level_name(judged: &Judged, place: usize) -> String {
    let name = match judged {
        Judged::Levels(levels) => levels.iter().rev().nth(place).map(|one| one.name.clone()),
        Judged::Numbers { allowed, .. } => allowed.get(place).map(ToString::to_string),
    };
    name.unwrap_or_default()
}

/// The criteria whose descriptors should be written anew, the worst first: alpha is below
/// 0.667 and below the middle of all judged criteria, and examiners were apart twice at
/// least. The first is Krippendorff's, the others are our own, without a source.
pub fn to_rewrite(all: &[Descriptors]) -> Vec<&Descriptors> {
    let alpha = |one: &&Descriptors| one.alpha.as_ref().ok().copied();
    let mut alphas: Vec<f64> = all.iter().filter_map(|one| alpha(&one)).collect();
    alphas.sort_by(f64::total_cmp);
    let Some(middle) = alphas.get(alphas.len() / 2).copied() else {
        return Vec::new();
    };
    let mut found: Vec<(f64, &Descriptors)> = all
        .iter()
        .filter_map(|one| Some((alpha(&one)?, one)))
        .filter(|(alpha, one)| *alpha < TENTATIVE && *alpha < middle && one.apart > 1)
        .collect();
    found.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    found.into_iter().map(|(_, one)| one).collect()
}
