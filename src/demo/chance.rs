/// A seeded source of numbers: the same seed gives the same numbers everywhere.
///
/// *Source:* SplitMix64 by Sebastiano Vigna, `splitmix64.c`, public domain, after
/// Steele, Lea and Flood 2014, "Fast splittable pseudorandom number generators".
/// Whole numbers only, so nothing depends on how a machine rounds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chance(u64);

impl Chance {
    /// The numbers of this seed.
    pub fn of(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub fn draw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A source of its own, so that what is drawn there moves nothing here.
    pub fn fork(&mut self) -> Self {
        Self(self.draw())
    }

    /// A whole number from 0 and below `end`; 0 where `end` is not above it. The
    /// multiply-and-shift favours some numbers by less than `end` in 2^64.
    pub fn below(&mut self, end: i64) -> i64 {
        let end = u128::try_from(end).unwrap_or(0);
        let scaled = (u128::from(self.draw()) * end) >> 64;
        i64::try_from(scaled).unwrap_or(0)
    }

    /// Happens so many times in a thousand.
    pub fn happens(&mut self, per_mille: i64) -> bool {
        self.below(1000) < per_mille
    }

    /// Bell-shaped about 0 with a standard deviation of 1000, never beyond 6000:
    /// the sum of twelve even draws, which needs neither logarithm nor sine.
    pub fn bell(&mut self) -> i64 {
        let sum: i64 = (0..12).map(|_| self.below(1001)).sum();
        sum - 6000
    }

    /// One of `all`.
    pub fn pick<'a, T>(&mut self, all: &'a [T]) -> Option<&'a T> {
        let count = i64::try_from(all.len()).ok()?;
        all.get(usize::try_from(self.below(count)).ok()?)
    }
}
