use super::made::Made;
use super::steps::lost_of_total;
use crate::quantity::{Exact, Marks};
use crate::rubric::{Entry, Fault};

/// How many of the latest pieces tell what to practise.
pub const LATEST: usize = 3;

/// Something to practise: a criterion that cost marks in the latest pieces.
#[derive(Debug, Clone)]
pub struct Practice<'a> {
    /// The latest piece in which it cost marks.
    pub made: &'a Made<'a>,
    /// Its entry there; of several shoes, that which lost most.
    pub entry: Entry<'a>,
    /// In how many of the pieces it cost marks, and how many had it marked.
    pub cost_in: (usize, usize),
    /// What it cost in all, per cent of what the piece could have.
    pub lost_percent: Exact,
    /// Faults that were seen in these pieces, the most frequent first.
    pub faults: Vec<SeenFault<'a>>,
}

/// A fault that was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SeenFault<'a> {
    /// The fault, as the rubric describes it.
    pub fault: &'a Fault,
    /// How often it was seen.
    pub times: u32,
}

impl Practice<'_> {
    /// What to practise first: the remedy of the fault that was seen most, or of the
    /// criterion's usual one where none was noted.
    pub fn fault(&self) -> Option<&Fault> {
        let has_remedy = |fault: &&Fault| !fault.remedy.is_empty();
        let seen = self.faults.iter().map(|seen| seen.fault);
        let usual = self.entry.criterion.faults.iter();
        seen.chain(usual).find(has_remedy)
    }
}

/// One criterion of one piece, over all shoes.
struct Here<'a> {
    /// What it cost, per cent of what the piece could have.
    percent: Exact,
    /// The entry that lost most, and what that was.
    worst: (Entry<'a>, Marks),
    faults: Vec<SeenFault<'a>>,
}

/// The `most` criteria that cost most in the latest [`LATEST`] pieces, whatever rubric
/// they are marked by. What an examiner marked counts; where none did, what its maker
/// did.
///
/// Each loss counts as a share of what its piece could have, so that rubrics of 40 and
/// of 100 marks weigh alike. Of two that have one remedy, the costlier stays.
///
/// *Shape:* `pieces` oldest first.
pub fn to_practise<'a>(pieces: &'a [Made<'a>], most: usize) -> Vec<Practice<'a>> {
    let any_by_examiner = pieces.iter().any(|made| !made.is_own());
    let counts = |made: &&Made<'_>| !(any_by_examiner && made.is_own());
    let latest = pieces.iter().rev().filter(counts).take(LATEST);
    let mut found: Vec<Practice<'_>> = Vec::new();
    for made in latest {
        for here in look_through(made) {
            add(&mut found, made, here);
        }
    }
    found.retain(|practice| practice.cost_in.0 > 0);
    // Stable: of equal ones that of the later piece stays first, in the rubric's order.
    found.sort_by_key(|practice| std::cmp::Reverse(practice.lost_percent));
    let mut kept: Vec<Practice<'_>> = Vec::new();
    for practice in found {
        let remedy = practice.fault().map(|fault| &fault.remedy);
        let same = |kept: &Practice<'_>| kept.fault().map(|fault| &fault.remedy) == remedy;
        if remedy.is_none() || !kept.iter().any(same) {
            kept.push(practice);
        }
    }
    kept.truncate(most);
    kept
}

/// What the criteria of a piece cost, in the rubric's order; those without marks are
/// left out.
fn look_through<'a>(made: &'a Made<'a>) -> Vec<Here<'a>> {
    let mut all: Vec<Here<'_>> = Vec::new();
    for entry in made.rubric.entries() {
        let lost = lost_of_total(made, &entry);
        let cost = lost.and_then(|lost| Some((lost, lost.percent_of(made.outcome.out_of)?)));
        let Some((lost, percent)) = cost else {
            continue;
        };
        let faults = faults_seen(made, &entry);
        let known = all
            .iter_mut()
            .find(|here| here.worst.0.criterion.id == entry.criterion.id);
        match known {
            Some(here) => {
                here.percent = here.percent.plus(percent).unwrap_or(here.percent);
                if lost > here.worst.1 {
                    here.worst = (entry, lost);
                }
                faults
                    .into_iter()
                    .for_each(|seen| see(&mut here.faults, seen));
            }
            None => all.push(Here {
                percent,
                worst: (entry, lost),
                faults,
            }),
        }
    }
    all
}

fn faults_seen<'a>(made: &Made<'_>, entry: &Entry<'a>) -> Vec<SeenFault<'a>> {
    let seen = made.outcome.criterion(&entry.id);
    let seen = seen.map_or(&[][..], |result| &result.faults);
    let faults = seen.iter().filter_map(|(id, times)| {
        let mut faults = entry.criterion.faults.iter();
        Some(SeenFault {
            fault: faults.find(|fault| fault.id == *id)?,
            times: *times,
        })
    });
    faults.collect()
}

fn see<'a>(known: &mut Vec<SeenFault<'a>>, seen: SeenFault<'a>) {
    match known.iter_mut().find(|one| one.fault.id == seen.fault.id) {
        Some(one) => one.times = one.times.saturating_add(seen.times),
        None => known.push(seen),
    }
}

/// Adds what a criterion cost in `made`, which is older than all before it.
fn add<'a>(found: &mut Vec<Practice<'a>>, made: &'a Made<'a>, here: Here<'a>) {
    let (entry, _) = here.worst;
    let is_cost = here.percent > Exact::ZERO;
    let known = found.iter_mut().find(|known| {
        known.made.rubric.id == made.rubric.id && known.entry.criterion.id == entry.criterion.id
    });
    match known {
        Some(known) => {
            if is_cost && known.cost_in.0 == 0 {
                known.made = made;
                known.entry = entry;
            }
            known.cost_in.0 += usize::from(is_cost);
            known.cost_in.1 += 1;
            let sum = known.lost_percent.plus(here.percent);
            known.lost_percent = sum.unwrap_or(known.lost_percent);
            here.faults
                .into_iter()
                .for_each(|seen| see(&mut known.faults, seen));
            known
                .faults
                .sort_by_key(|seen| std::cmp::Reverse(seen.times));
        }
        None => found.push(Practice {
            made,
            entry,
            cost_in: (usize::from(is_cost), 1),
            lost_percent: here.percent,
            faults: here.faults,
        }),
    }
}
