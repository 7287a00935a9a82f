use std::collections::{BTreeMap, BTreeSet};

use crate::figures::Lacking;
use crate::figures::numbers::at_least;

/// One level that one examiner gave one criterion of one learner's work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rating {
    /// Who made it, from 0.
    pub learner: usize,
    /// What was looked at, from 0.
    pub criterion: usize,
    /// Who looked, from 0.
    pub examiner: usize,
    /// The level, from 0 for none up.
    pub level: usize,
}

/// What can be told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Facet {
    /// Who made it.
    Learner,
    /// What was looked at.
    Criterion,
    /// Who looked.
    Examiner,
}

impl Facet {
    /// Every facet, in the order of their parameters.
    pub const ALL: [Self; 3] = [Self::Learner, Self::Criterion, Self::Examiner];

    /// Which one of them a rating is of.
    pub(super) fn of(self, rating: &Rating) -> usize {
        match self {
            Self::Learner => rating.learner,
            Self::Criterion => rating.criterion,
            Self::Examiner => rating.examiner,
        }
    }
}

/// Elements of two facets that were rated with each other, and with no others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Subset {
    /// Both facets.
    pub facets: [Facet; 2],
    /// The elements of the first one.
    pub first: BTreeSet<usize>,
    /// The elements of the second one.
    pub second: BTreeSet<usize>,
}

/// Ratings, and how many of each facet there are.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    ratings: Vec<Rating>,
    counts: [usize; 3],
    levels: usize,
}

impl Design {
    /// Ratings on a scale from 0 to `highest`. Elements are numbered from 0 without gaps.
    ///
    /// *Errors:* fewer than two learners, criteria or examiners, a level above the highest,
    /// or an element without a rating.
    pub fn of(ratings: Vec<Rating>, highest: usize) -> Result<Self, Lacking> {
        at_least(highest, 1, "levels")?;
        if ratings.iter().any(|rating| rating.level > highest) {
            return Err(Lacking::NotANumber("a level above the highest"));
        }
        let seen = Facet::ALL.map(|facet| {
            let all = ratings.iter().map(|rating| facet.of(rating));
            all.collect::<BTreeSet<usize>>()
        });
        let counts = seen.each_ref().map(BTreeSet::len);
        for (what, count) in ["learners", "criteria", "examiners"]
            .into_iter()
            .zip(counts)
        {
            at_least(count, 2, what)?;
        }
        if seen.iter().any(|all| all.iter().copied().ne(0..all.len())) {
            return Err(Lacking::Gaps(
                "the numbers of learners, criteria or examiners",
            ));
        }
        Ok(Self {
            ratings,
            counts,
            levels: highest + 1,
        })
    }

    /// The ratings.
    pub fn ratings(&self) -> &[Rating] {
        &self.ratings
    }

    /// How many levels there are, with none.
    pub fn levels(&self) -> usize {
        self.levels
    }

    /// How many learners, criteria and examiners there are.
    pub fn counts(&self) -> [usize; 3] {
        self.counts
    }

    /// Where two facets fall apart: all subsets of such a pair, none where each pair hangs
    /// together. What is between two subsets cannot be told: all learners of one may be
    /// better, or its examiners milder.
    pub fn subsets(&self) -> Vec<Subset> {
        let pairs = [
            [Facet::Learner, Facet::Examiner],
            [Facet::Learner, Facet::Criterion],
            [Facet::Criterion, Facet::Examiner],
        ];
        let apart = pairs.into_iter().map(|pair| self.subsets_of(pair));
        apart
            .filter(|subsets| subsets.len() > 1)
            .flatten()
            .collect()
    }

    fn subsets_of(&self, facets: [Facet; 2]) -> Vec<Subset> {
        let [first, second] = facets;
        let mut links: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        for rating in &self.ratings {
            let own = links.entry(first.of(rating)).or_default();
            own.insert(second.of(rating));
        }
        let mut subsets: Vec<Subset> = Vec::new();
        for (element, others) in links {
            let mut joined = Subset {
                facets,
                first: [element].into(),
                second: others,
            };
            let (touching, apart): (Vec<Subset>, Vec<Subset>) = subsets
                .into_iter()
                .partition(|subset| !subset.second.is_disjoint(&joined.second));
            for subset in touching {
                joined.first.extend(subset.first);
                joined.second.extend(subset.second);
            }
            subsets = apart;
            subsets.push(joined);
        }
        subsets
    }
}
