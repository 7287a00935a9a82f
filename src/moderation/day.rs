//! Who marks what on a day on which examiners come together.

use thiserror::Error;

/// Why there is no plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum DayFault {
    /// Nobody to compare with.
    #[error("{0} examiners: it takes two at least")]
    Examiners(usize),
    /// Each piece is to be marked by too few or by more than there are.
    #[error(
        "each piece marked by {each} of {examiners} examiners: it takes two at least, and no more than there are"
    )]
    Each {
        /// By how many.
        each: usize,
        /// How many there are.
        examiners: usize,
    },
    /// Too few pieces to tie all examiners together.
    #[error(
        "{pieces} pieces tie {examiners} examiners together only if {needs} are marked; choose more pieces, or more examiners for each"
    )]
    Pieces {
        /// How many there are.
        pieces: usize,
        /// How many it takes.
        needs: usize,
        /// How many examiners.
        examiners: usize,
    },
}

/// Which examiners mark which piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayPlan {
    /// Of each piece the examiners who mark it, from 0, in rising order.
    pub pieces: Vec<Vec<usize>>,
    /// Of each examiner the pieces to mark, from 0, in the order of marking: each begins at
    /// another place, so that what drifts over a day does not look like a piece.
    pub orders: Vec<Vec<usize>>,
}

/// The least number of examiners of each piece, two or more, with which so many pieces tie so
/// many examiners together; nothing where even all of them do not.
pub fn least_each(examiners: usize, pieces: usize) -> Option<usize> {
    (2..=examiners).find(|each| needed(examiners, *each) <= pieces)
}

/// So many pieces tie examiners together: each piece of `each` joins `each` parts to one.
fn needed(examiners: usize, each: usize) -> usize {
    let joins = each.saturating_sub(1).max(1);
    examiners.saturating_sub(1).div_ceil(joins)
}

/// Shares pieces out.
///
/// *What is guaranteed:* each piece has `each` examiners, no two of whom are one; of any two
/// examiners one marks at most one piece more than the other; and from each examiner one
/// comes to each other one over pieces that two marked, so that all can be compared.
/// *Method:* piece by piece the examiners with the least to do; of equals one who is not tied
/// yet to those chosen, then one who has met them least.
///
/// *Errors:* [`DayFault`].
pub fn plan_day(examiners: usize, pieces: usize, each: usize) -> Result<DayPlan, DayFault> {
    if examiners < 2 {
        return Err(DayFault::Examiners(examiners));
    }
    if each < 2 || each > examiners {
        return Err(DayFault::Each { each, examiners });
    }
    let needs = needed(examiners, each);
    if pieces < needs {
        return Err(DayFault::Pieces {
            pieces,
            needs,
            examiners,
        });
    }
    let mut table = Sharing::of(examiners);
    let shared: Vec<Vec<usize>> = (0..pieces).map(|_| table.next(each)).collect();
    let orders = (0..examiners).map(|one| order(&shared, one, examiners));
    Ok(DayPlan {
        orders: orders.collect(),
        pieces: shared,
    })
}

/// The pieces of one examiner, begun so far into them as the examiner stands among all.
fn order(shared: &[Vec<usize>], examiner: usize, examiners: usize) -> Vec<usize> {
    let pieces = shared.iter().enumerate();
    let own = pieces.filter(|(_, by)| by.contains(&examiner));
    let mut own: Vec<usize> = own.map(|(piece, _)| piece).collect();
    let begin = examiner * own.len() / examiners.max(1);
    let begin = begin.min(own.len());
    own.rotate_left(begin);
    own
}

/// How far the sharing has come.
struct Sharing {
    /// How many pieces each examiner has.
    loads: Vec<usize>,
    /// The part that each is tied to, by the number of one of it.
    parts: Vec<usize>,
    /// How often two examiners have the same piece.
    met: Vec<Vec<usize>>,
}

impl Sharing {
    fn of(examiners: usize) -> Self {
        Self {
            loads: vec![0; examiners],
            parts: (0..examiners).collect(),
            met: vec![vec![0; examiners]; examiners],
        }
    }

    /// The examiners of the next piece.
    fn next(&mut self, each: usize) -> Vec<usize> {
        let mut chosen: Vec<usize> = Vec::new();
        for _ in 0..each {
            let free = (0..self.loads.len()).filter(|one| !chosen.contains(one));
            let best = free.min_by_key(|one| self.cost(*one, &chosen));
            chosen.extend(best);
        }
        self.take(&chosen);
        chosen.sort_unstable();
        chosen
    }

    /// What speaks against an examiner beside those chosen.
    fn cost(&self, one: usize, chosen: &[usize]) -> (usize, bool, usize, usize) {
        let part = self.parts.get(one);
        let is_tied = chosen.iter().any(|other| self.parts.get(*other) == part);
        let met = self.met.get(one);
        let met = chosen.iter().filter_map(|other| met?.get(*other));
        (
            self.loads.get(one).copied().unwrap_or(0),
            is_tied,
            met.sum(),
            one,
        )
    }

    fn take(&mut self, chosen: &[usize]) {
        let parts = chosen
            .iter()
            .filter_map(|one| self.parts.get(*one).copied());
        let joined: Vec<usize> = parts.collect();
        let Some(first) = joined.first().copied() else {
            return;
        };
        for part in &mut self.parts {
            if joined.contains(part) {
                *part = first;
            }
        }
        for one in chosen {
            if let Some(load) = self.loads.get_mut(*one) {
                *load += 1;
            }
            for other in chosen {
                let met = self.met.get_mut(*one).and_then(|row| row.get_mut(*other));
                if let Some(met) = met {
                    *met += 1;
                }
            }
        }
    }
}
