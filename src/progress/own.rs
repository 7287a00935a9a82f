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
/// difference first. Criteria that only one of the two marked are left out; entries of one
/// id count as one criterion, whatever the rubric.
pub fn own_differences(pairs: &[Pair<'_>]) -> Vec<OwnDifference> {
    let mut found: Vec<(OwnDifference, Vec<Exact>)> = Vec::new();
    // The newest names it, as the examiner's rubric does.
    for pair in pairs.iter().rev() {
        for entry in pair.counts.rubric.entries() {
            let share = |made: &Made<'_>| made.outcome.criterion(&entry.id)?.share();
            let shares = share(&pair.own).zip(share(&pair.counts));
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
