use rustc_hash::FxHashMap;

use super::axes::{Axes, Counted};
use super::key::{Key, Layout};
use super::spread::Spread;
use super::tail::Sum;

/// Axes with what their sums count, worked out once.
pub(super) struct Counting<'a> {
    pub axes: &'a Axes,
    known: Vec<FxHashMap<i64, Counted>>,
    enough_warnings: u32,
}

impl<'a> Counting<'a> {
    /// Of these axes; more warnings than `enough_warnings` are as good as so many.
    pub fn of(axes: &'a Axes, enough_warnings: u32) -> Self {
        Self {
            axes,
            known: vec![FxHashMap::default(); axes.count()],
            enough_warnings,
        }
    }

    /// Works out every sum that the states of `spread` hold, so that they are at hand.
    pub fn learn(&mut self, layout: &Layout, spread: &Spread) -> Option<()> {
        for (key, _) in spread.iter() {
            for (axis, sum) in layout.sums(key) {
                let known = self.known.get_mut(axis)?;
                if !known.contains_key(&sum) {
                    known.insert(sum, self.axes.counted(axis, sum)?);
                }
            }
        }
        Some(())
    }

    fn counted(&self, axis: usize, sum: i64) -> Option<Counted> {
        let known = self.known.get(axis)?.get(&sum).copied();
        known.or_else(|| self.axes.counted(axis, sum))
    }

    /// What a state counts in the total; `None` on overflow.
    pub fn sum(&self, layout: &Layout, key: Key) -> Option<Sum> {
        let (mut units, mut is_bad) = (0_i64, key.stops());
        for (axis, sum) in layout.sums(key) {
            let counted = self.counted(axis, sum)?;
            units = units.checked_add(counted.units)?;
            is_bad |= !counted.reaches;
        }
        let warnings = layout.warnings(key).min(self.enough_warnings);
        Some(Sum {
            units,
            warnings,
            is_bad,
        })
    }

    /// Which axes reach their minimum, in the layout's order.
    pub fn minima(&self, layout: &Layout, key: Key) -> Vec<bool> {
        let sums = layout.sums(key);
        sums.map(|(axis, sum)| {
            let counted = self.counted(axis, sum);
            counted.is_some_and(|counted| counted.reaches)
        })
        .collect()
    }
}
