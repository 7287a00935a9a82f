//! Which facets a set of marks has, and which effects follow from them.

use serde::Serialize;

use super::super::Lacking;
use super::super::numbers::number;

/// The most facets of a design; with five, every effect can still be told apart by its name.
const MOST: usize = 5;

/// One side from which marks differ: pieces, examiners, criteria, tasks.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Facet {
    /// Its letter in the names of effects.
    pub letter: char,
    /// How many levels there are; of a facet within others, how many in each of them.
    pub levels: usize,
    /// Letters of the facets that it stands within, if any: `t` for raters of one task each.
    pub within: Vec<char>,
}

impl Facet {
    /// A facet of so many levels within the facets of these letters, if any.
    pub fn new(letter: char, levels: usize, within: &[char]) -> Self {
        Self {
            letter,
            levels,
            within: within.to_vec(),
        }
    }
}

/// A balanced design: every level of a facet meets every level of those that it crosses.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Design {
    facets: Vec<Facet>,
    /// Of each facet those that it stands within, as bits.
    within: Vec<u32>,
}

/// An effect: the facets of its index, as bits.
pub(in super::super) type Effect = u32;

impl Design {
    /// A design of these facets.
    ///
    /// # Errors
    ///
    /// No facet or more than five, one letter twice, a facet within an unknown one or one
    /// that comes after it, or fewer than two levels.
    pub fn new(facets: Vec<Facet>) -> Result<Self, Lacking> {
        if facets.is_empty() || facets.len() > MOST {
            return Err(Lacking::Design("one to five facets"));
        }
        let mut within: Vec<u32> = Vec::new();
        for (at, facet) in facets.iter().enumerate() {
            let before = facets.get(..at).unwrap_or_default();
            if before.iter().any(|other| other.letter == facet.letter) {
                return Err(Lacking::Design("each facet has a letter of its own"));
            }
            if facet.levels < 2 {
                return Err(Lacking::TooFew {
                    what: "levels of a facet",
                    has: facet.levels,
                    needs: 2,
                });
            }
            let mut nests = 0;
            for letter in &facet.within {
                let place = before.iter().position(|other| other.letter == *letter);
                let unknown = Lacking::Design("a facet stands within facets named before it");
                let place = place.ok_or(unknown)?;
                // What holds the holder holds it too.
                nests |= 1 << place | within.get(place).copied().unwrap_or(0);
            }
            within.push(nests);
        }
        Ok(Self { facets, within })
    }

    /// Facets that all cross one another, by letter and number of levels: `p x i`,
    /// `p x r x i`.
    ///
    /// # Errors
    ///
    /// Those of [`Design::new`].
    pub fn crossed(facets: &[(char, usize)]) -> Result<Self, Lacking> {
        let facet = |(letter, levels): &(char, usize)| Facet::new(*letter, *levels, &[]);
        Self::new(facets.iter().map(facet).collect())
    }

    /// `p x (r:t)`: every person does every task, and each task has raters of its own.
    ///
    /// # Errors
    ///
    /// Those of [`Design::new`].
    pub fn raters_within_tasks(
        persons: usize,
        tasks: usize,
        raters: usize,
    ) -> Result<Self, Lacking> {
        Self::new(vec![
            Facet::new('p', persons, &[]),
            Facet::new('t', tasks, &[]),
            Facet::new('r', raters, &['t']),
        ])
    }

    /// `r:p`: each person has raters of their own.
    ///
    /// # Errors
    ///
    /// Those of [`Design::new`].
    pub fn raters_within_persons(persons: usize, raters: usize) -> Result<Self, Lacking> {
        Self::new(vec![
            Facet::new('p', persons, &[]),
            Facet::new('r', raters, &['p']),
        ])
    }

    /// The facets, in the order in which marks are laid out: the last changes fastest.
    #[must_use]
    pub fn facets(&self) -> &[Facet] {
        &self.facets
    }

    /// How many marks the design has.
    #[must_use]
    pub fn cells(&self) -> usize {
        let levels = self.facets.iter().map(|facet| facet.levels);
        levels.fold(1, usize::saturating_mul)
    }

    /// Every effect, those of fewer facets first. An effect's index names with a facet also
    /// what it stands within.
    pub(in super::super) fn effects(&self) -> Vec<Effect> {
        let all = 1_u32 << self.facets.len();
        let is_closed = |effect: &u32| {
            let mut nests = self.places(*effect).zip(self.nests(*effect));
            nests.all(|(_, nests)| nests & effect == nests)
        };
        let mut effects: Vec<u32> = (1..all).filter(is_closed).collect();
        effects.sort_by_key(|effect| effect.count_ones());
        effects
    }

    /// The bit of the facet with this letter.
    pub(super) fn bit(&self, letter: char) -> Result<Effect, Lacking> {
        let place = self.facets.iter().position(|facet| facet.letter == letter);
        place
            .map(|place| 1 << place)
            .ok_or(Lacking::Design("there is no facet with this letter"))
    }

    /// Whether the facet stands within another, or another within it.
    pub(super) fn stands_within(&self, bit: Effect) -> bool {
        self.nests(bit).any(|nests| nests != 0)
    }

    fn places(&self, effect: Effect) -> impl Iterator<Item = usize> + '_ {
        (0..self.facets.len()).filter(move |place| effect & (1 << place) != 0)
    }

    fn nests(&self, effect: Effect) -> impl Iterator<Item = u32> + '_ {
        let within = self.places(effect);
        within.map(|place| self.within.get(place).copied().unwrap_or(0))
    }

    /// The facets of an effect that no other of its facets stands within: the letters
    /// before the colon.
    fn first(&self, effect: Effect) -> Effect {
        effect & !self.nests(effect).fold(0, |all, nests| all | nests)
    }

    /// The name of an effect: `p`, `pi`, `r:t`, `pr:t`.
    pub(super) fn name(&self, effect: Effect) -> String {
        let letters = |part: Effect| -> String {
            let facets = self.places(part).filter_map(|place| self.facets.get(place));
            facets.map(|facet| facet.letter).collect()
        };
        let first = self.first(effect);
        let rest = effect & !first;
        if rest == 0 {
            letters(first)
        } else {
            format!("{}:{}", letters(first), letters(rest))
        }
    }

    /// Degrees of freedom: levels less one of the letters before the colon, times the levels
    /// of those after it.
    pub(super) fn freedom(&self, effect: Effect) -> f64 {
        let first = self.first(effect);
        let factor = |place: usize| {
            let levels = self.facets.get(place).map_or(1, |facet| facet.levels);
            number(levels) - f64::from(u8::from(first & (1 << place) != 0))
        };
        self.places(effect).map(factor).product()
    }

    /// How many marks there are to each cell of an effect.
    pub(super) fn to_each(&self, effect: Effect) -> f64 {
        let rest = self.places(!effect);
        let levels = rest.filter_map(|place| self.facets.get(place));
        levels.map(|facet| number(facet.levels)).product()
    }

    /// Of each mark the number of its cell in an effect, and how many cells there are.
    pub(super) fn cells_of(&self, effect: Effect) -> (Vec<usize>, usize) {
        let mut cells = vec![0];
        let mut count = 1;
        for (place, facet) in self.facets.iter().enumerate() {
            let own = effect & (1 << place) != 0;
            let one = |cell: usize| {
                let level = (0..facet.levels).map(move |level| if own { level } else { 0 });
                level.map(move |level| cell * if own { facet.levels } else { 1 } + level)
            };
            cells = cells.into_iter().flat_map(one).collect();
            count *= if own { facet.levels } else { 1 };
        }
        (cells, count)
    }
}
