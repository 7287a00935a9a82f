use std::collections::BTreeMap;

use super::key::Layout;
use super::spread::Spread;

/// What a block comes to in the total: marks in units of the total's lattice, warnings, and
/// whether something stands against a pass.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Sum {
    pub units: i64,
    pub warnings: u32,
    pub is_bad: bool,
}

/// Of sums that nothing stands against, for each number of warnings how probable it is to
/// have at least so many units.
pub(super) struct Tail {
    by_warnings: Vec<(u32, Vec<(i64, f64)>)>,
    pass: i64,
    enough: Option<u32>,
}

impl Tail {
    /// Of `sums`, whose keys `layout` reads; `enough` warnings are too many.
    pub fn of(sums: &Spread, layout: &Layout, pass: i64, enough: Option<u32>) -> Self {
        let mut by_warnings: BTreeMap<u32, Vec<(i64, f64)>> = BTreeMap::new();
        for (key, chance) in sums.iter().filter(|(key, _)| !key.stops()) {
            let units = layout.sums(key).map(|(_, sum)| sum).sum();
            let list = by_warnings.entry(layout.warnings(key)).or_default();
            list.push((units, chance));
        }
        for list in by_warnings.values_mut() {
            let mut above = 0.0;
            for (_, chance) in list.iter_mut().rev() {
                above += *chance;
                *chance = above;
            }
        }
        Self {
            by_warnings: by_warnings.into_iter().collect(),
            pass,
            enough,
        }
    }

    /// The probability that each of `sums`, with the rest, passes.
    pub fn passing(&self, sums: &[Sum]) -> f64 {
        if sums.iter().any(|sum| sum.is_bad) {
            return 0.0;
        }
        let least = sums.iter().map(|sum| sum.units).min().unwrap_or(0);
        let most = sums.iter().map(|sum| sum.warnings).max().unwrap_or(0);
        let from = self.pass.saturating_sub(least);
        let fits = |warnings: u32| {
            let all = warnings.saturating_add(most);
            self.enough.is_none_or(|enough| all < enough)
        };
        let lists = self
            .by_warnings
            .iter()
            .filter(|(warnings, _)| fits(*warnings));
        lists
            .map(|(_, list)| {
                let at = list.partition_point(|(units, _)| *units < from);
                list.get(at).map_or(0.0, |(_, above)| *above)
            })
            .sum()
    }
}
