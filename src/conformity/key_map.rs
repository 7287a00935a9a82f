use rustc_hash::FxHashMap;

use super::key::Key;

/// Up to so many places stand in a table, as they are found there at once.
const MOST_PLACES: usize = 1 << 16;

/// Something for each key.
#[derive(Debug, Clone)]
pub(super) struct KeyMap<T> {
    /// How many digits a key of the table can have; 0 where there is none.
    range: usize,
    table: Vec<Option<T>>,
    others: FxHashMap<Key, T>,
}

impl<T: Copy> KeyMap<T> {
    /// Nothing yet, for keys with at most so many `digits`.
    pub fn up_to(digits: u64) -> Self {
        let range = usize::try_from(digits).unwrap_or(usize::MAX);
        let range = range.saturating_add(1);
        let range = if range <= MOST_PLACES / 2 { range } else { 0 };
        Self {
            range,
            table: vec![None; 2 * range],
            others: FxHashMap::default(),
        }
    }

    fn place(&self, key: Key) -> Option<usize> {
        let digits = usize::try_from(key.digits()).ok()?;
        (digits < self.range).then(|| digits + usize::from(key.stops()) * self.range)
    }

    pub fn get(&self, key: Key) -> Option<T> {
        match self.place(key) {
            Some(at) => *self.table.get(at)?,
            None => self.others.get(&key).copied(),
        }
    }

    pub fn insert(&mut self, key: Key, value: T) {
        match self.place(key).and_then(|at| self.table.get_mut(at)) {
            Some(place) => *place = Some(value),
            None => {
                self.others.insert(key, value);
            }
        }
    }
}
