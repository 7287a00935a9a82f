use super::made::Made;
use crate::quantity::Exact;

/// One piece, as its maker marked it and as an examiner did.
#[derive(Debug, Clone)]
pub struct Pair<'a> {
    /// As its maker marked it.
    pub own: Made<'a>,
    /// As it counts.
    pub counts: Made<'a>,
}

/// How a maker's marks for one criterion differ from the examiner's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnDifference {
    /// Entry id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// The maker's share of what could be had less the examiner's, the mean over all
    /// pieces: above nothing where the maker is the kinder one.
    pub mean: Exact,
    /// Over how many pieces.
    pub pieces: usize,
}

/// How a maker's marks differ from the examiner's, criterion by criterion, the greatest
/// difference first. Criteria that only one of the two marked are left out.
pub fn own_differences(pairs: &[Pair<'_>]) -> Vec<OwnDifference> {
    let mut found: Vec<(OwnDifference, Vec<Exact>)> = Vec::new();
    // The newest names it.
    for pair in pairs.iter().rev() {
        for entry in pair.own.rubric.entries() {
            let shares = share(&pair.own, &entry.id).zip(share(&pair.counts, &entry.id));
            let Some(difference) = shares.and_then(|(own, other)| own.minus(other)) else {
                continue;
            };
            match found.iter_mut().find(|(known, _)| known.id == entry.id) {
                Some((_, all)) => all.push(difference),
                None => {
                    let known = OwnDifference {
                        name: entry.name(),
                        id: entry.id,
                        mean: Exact::ZERO,
                        pieces: 0,
                    };
                    found.push((known, vec![difference]));
                }
            }
        }
    }
    let mut differences: Vec<_> = found
        .into_iter()
        .filter_map(|(known, all)| {
            Some(OwnDifference {
                mean: Exact::mean(&all)?,
                pieces: all.len(),
                ..known
            })
        })
        .collect();
    differences.sort_by_key(|difference| std::cmp::Reverse(difference.mean.size()));
    differences
}

/// The share of what could be had that an entry was given.
fn share(made: &Made<'_>, entry: &str) -> Option<Exact> {
    let result = made.outcome.criterion(entry)?;
    result.marks?.0.over(result.out_of.0)
}
