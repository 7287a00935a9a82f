//! Pieces that would tell most on a day on which examiners come together.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use super::blind::{By, Gathered, Seen};
use super::criteria::CriterionAgreement;
use crate::quantity::Exact;
use crate::records::PieceId;

/// A piece that is proposed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Candidate {
    /// Which.
    pub piece: PieceId,
    /// What it came to on the mean, as a share of what could be had.
    pub share: Exact,
    /// How far two examiners lay apart on its total, on the mean; nothing where one marked
    /// it alone.
    pub apart: Option<Exact>,
    /// How many of the criteria that examiners agree on least were marked differently on it.
    pub troubled: usize,
    /// How many photos were taken of it.
    pub photos: usize,
}

/// So many criteria count as those that examiners agree on least.
const TROUBLED: usize = 5;

/// As many pieces as `wanted`, or all that there are, from the poorest to the best.
///
/// *Rule,* our own: pieces that were marked as a whole are put in the order of their totals
/// and cut into as many runs as pieces are wanted, as equal as can be, so that they spread
/// over the whole range. Of each run that piece is taken on which examiners lay furthest
/// apart; of equals that on which more of the most troubled criteria were marked
/// differently, then that with more photos, then the latest.
///
/// *Shape:* `criteria` in the order of trouble.
pub fn candidates(
    gathered: &Gathered<'_>,
    criteria: &[CriterionAgreement],
    wanted: usize,
) -> Vec<Candidate> {
    let troubled = criteria.iter().filter(|one| one.apart > Some(Exact::ZERO));
    let troubled: Vec<&str> = troubled.take(TROUBLED).map(|one| one.id.as_str()).collect();
    let seen = gathered.twice.iter().chain(&gathered.once);
    let mut all: Vec<(&Seen<'_>, Candidate)> = seen
        .filter_map(|seen| Some((seen, candidate(seen, &troubled)?)))
        .collect();
    all.sort_by_key(|(seen, one)| (one.share, seen.day, one.piece));
    let wanted = wanted.min(all.len());
    let run = |at: usize| {
        let (from, to) = (at * all.len() / wanted, (at + 1) * all.len() / wanted);
        let run = all.get(from..to).unwrap_or_default();
        let best = run.iter().max_by_key(|(seen, one)| {
            (
                one.apart,
                one.troubled,
                one.photos,
                seen.day,
                Reverse(one.piece),
            )
        });
        best.map(|(_, one)| one.clone())
    };
    (0..wanted).filter_map(run).collect()
}

fn candidate(seen: &Seen<'_>, troubled: &[&str]) -> Option<Candidate> {
    let differs = |entry: &&&str| {
        let marks = |by: &By<'_>| Some(by.outcome.criterion(entry)?.marks?.0);
        seen.mean_apart(marks) > Some(Exact::ZERO)
    };
    let photos: BTreeSet<&str> = seen
        .by
        .iter()
        .flat_map(|by| by.marking.pictures())
        .collect();
    Some(Candidate {
        piece: seen.piece.id,
        share: seen.mean_share()?,
        apart: seen.mean_apart(|by| by.share()),
        troubled: troubled.iter().filter(differs).count(),
        photos: photos.len(),
    })
}
