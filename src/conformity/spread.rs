use rustc_hash::FxHashMap;

use super::key::Key;

/// More states than this are not kept apart.
pub(super) const MOST_STATES: usize = 200_000;
/// Less than this changes nothing that is said.
const LEAST_CHANCE: f64 = 1e-20;
/// A table of at most so many places a product is worth, as looking up costs more.
const PLACES_PER_PRODUCT: usize = 4;

/// What some independent units come to together: every state with its probability, in
/// order, each once.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Spread(Vec<(Key, f64)>);

impl Spread {
    /// One state, for certain.
    pub fn sure(key: Key) -> Self {
        Self(vec![(key, 1.0)])
    }

    /// States in any order, equal ones added up.
    pub fn of(states: impl IntoIterator<Item = (Key, f64)>) -> Self {
        let mut sums: FxHashMap<Key, f64> = FxHashMap::default();
        for (key, chance) in states {
            *sums.entry(key).or_insert(0.0) += chance;
        }
        let sums = sums.into_iter();
        let mut list: Vec<(Key, f64)> = sums.filter(|(_, sum)| *sum > LEAST_CHANCE).collect();
        list.sort_unstable_by_key(|(key, _)| *key);
        Self(list)
    }

    pub fn iter(&self) -> impl DoubleEndedIterator<Item = (Key, f64)> + '_ {
        self.0.iter().copied()
    }

    /// Both together; `None` where there are too many states.
    pub fn with(&self, other: &Self) -> Option<Self> {
        let sums = match self.table(other) {
            Some(range) => self.by_table(other, range),
            None => Self::of(self.products(other)),
        };
        (sums.0.len() <= MOST_STATES).then_some(sums)
    }

    fn products<'a>(&'a self, other: &'a Self) -> impl Iterator<Item = (Key, f64)> + 'a {
        self.iter().flat_map(move |(a, of_a)| {
            let others = other.iter();
            others.map(move |(b, of_b)| (a.plus(b), of_a * of_b))
        })
    }

    /// How many digits the states of both can have, where a table of them is worth it.
    fn table(&self, other: &Self) -> Option<usize> {
        let most = |spread: &Self| spread.iter().map(|(key, _)| key.digits()).max();
        let range = most(self)?.saturating_add(most(other)?).saturating_add(1);
        let range = usize::try_from(range).ok()?;
        let products = self.0.len().saturating_mul(other.0.len());
        (range <= products.saturating_mul(PLACES_PER_PRODUCT)).then_some(range)
    }

    fn by_table(&self, other: &Self, range: usize) -> Self {
        let mut table = vec![0.0; 2 * range];
        let digits = |key: Key| usize::try_from(key.digits()).unwrap_or(usize::MAX);
        for (a, of_a) in self.iter() {
            for (b, of_b) in other.iter() {
                let stops = usize::from(a.stops() || b.stops());
                let at = digits(a) + digits(b) + stops * range;
                if let Some(sum) = table.get_mut(at) {
                    *sum += of_a * of_b;
                }
            }
        }
        let places = table.into_iter().enumerate();
        let reached = places.filter(|(_, chance)| *chance > LEAST_CHANCE);
        let key = |at: usize| {
            let digits = u64::try_from(at % range).unwrap_or(u64::MAX);
            Key::new(digits, at >= range)
        };
        Self(reached.map(|(at, chance)| (key(at), chance)).collect())
    }
}

/// For each of `parts` all the others together, beside `first`; `None` where there are too
/// many states.
pub(super) fn all_but_each(first: &Spread, parts: &[&Spread]) -> Option<Vec<Spread>> {
    let mut after = vec![Spread::sure(Key::default())];
    for part in parts.iter().skip(1).rev() {
        let next = after.last()?.with(part)?;
        after.push(next);
    }
    let mut before = first.clone();
    let mut all = Vec::new();
    for (part, after) in parts.iter().zip(after.iter().rev()) {
        all.push(before.with(after)?);
        before = before.with(part)?;
    }
    Some(all)
}
