use crate::quantity::{Exact, Marks, Quantity};
use crate::rubric::{Effect, Expression, Limit, Limits, Scale};

/// Where a value is: between two ends, each of which may be open or missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reach {
    /// Lower end; `None` for no limit.
    pub low: Option<Exact>,
    /// Whether the lower end itself belongs to it.
    pub low_included: bool,
    /// Upper end; `None` for no limit.
    pub high: Option<Exact>,
    /// Whether the upper end itself belongs to it.
    pub high_included: bool,
}

impl Reach {
    /// One exact value.
    pub fn point(value: Exact) -> Self {
        let end = Some(value);
        Self {
            low: end,
            low_included: true,
            high: end,
            high_included: true,
        }
    }

    /// From `low` to `high`, both included.
    pub fn closed(low: Option<Exact>, high: Option<Exact>) -> Self {
        Self {
            low,
            low_included: true,
            high,
            high_included: true,
        }
    }

    /// Whether `value` lies in it.
    pub fn holds(self, value: Exact) -> bool {
        let above = self
            .low
            .is_none_or(|low| value > low || self.low_included && value == low);
        let below = self
            .high
            .is_none_or(|high| value < high || self.high_included && value == high);
        above && below
    }

    /// The value, where there is just one.
    pub fn single(self) -> Option<Exact> {
        self.low.filter(|low| Some(*low) == self.high)
    }
}

/// One band worked out for one piece, in base units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkedBand {
    /// Where it reaches.
    pub reach: Reach,
    /// Name for gauge verdicts.
    pub name: Option<String>,
    /// Marks inside.
    pub marks: Marks,
    /// Effect inside.
    pub effect: Effect,
}

/// Bands worked out for one piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bands {
    /// What was asked for.
    pub target: Option<Exact>,
    /// The best first; the first that holds the value counts.
    pub bands: Vec<WorkedBand>,
    /// Marks outside all.
    pub beyond: Marks,
    /// Effect outside all.
    pub beyond_effect: Effect,
    /// Outside this the award is stopped.
    pub stop_limits: Option<Reach>,
}

/// What a value meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Met {
    /// The band; `None` beyond all.
    pub band: Option<usize>,
    /// Marks.
    pub marks: Marks,
    /// Effect; a stop limit counts.
    pub effect: Effect,
}

impl Met {
    fn decides_like(self, other: Self) -> bool {
        self.marks == other.marks && self.effect == other.effect
    }
}

/// What limits need to be worked out.
pub(super) struct Basis<'a> {
    /// The mean of a reading.
    pub reading: &'a dyn Fn(&str) -> Option<Quantity>,
    /// What per cent counts from where there is no target.
    pub own_mean: Option<Exact>,
    /// Whether an upper limit is meant for both signs (a pair's difference).
    pub both_signs: bool,
}

impl Bands {
    /// Works out target and limits; `None` where a reading is missing or the
    /// numbers overflow.
    pub(super) fn work_out(scale: &Scale, basis: &Basis<'_>) -> Option<Self> {
        let value = |expression: &Expression| Some(expression.value(basis.reading)?.base);
        let target = match &scale.target {
            Some(target) => Some(value(target)?),
            None if basis.both_signs => Some(Exact::ZERO),
            None => None,
        };
        let whole = scale
            .target
            .as_ref()
            .and(target)
            .map(Exact::size)
            .or(basis.own_mean);
        let amount = |limit: &Limit| match limit {
            Limit::Amount(expression) => value(expression),
            Limit::Percent(percent) => whole?.times(percent.over(Exact::HUNDRED)?),
        };
        let reach = |limits: &Limits| {
            Some(match limits {
                Limits::Around { under, over } => {
                    around(target.unwrap_or(Exact::ZERO), amount(under)?, amount(over)?)?
                }
                Limits::AtMost(limit) if basis.both_signs => {
                    let limit = amount(limit)?;
                    around(target.unwrap_or(Exact::ZERO), limit, limit)?
                }
                Limits::AtMost(limit) => Reach::closed(None, Some(amount(limit)?)),
                Limits::AtLeast(limit) => Reach::closed(Some(amount(limit)?), None),
                Limits::Between(from, to) => Reach::closed(Some(amount(from)?), Some(amount(to)?)),
            })
        };
        let mut bands = Vec::new();
        for band in &scale.bands {
            bands.push(WorkedBand {
                reach: reach(&band.limits)?,
                name: band.name.clone(),
                marks: band.marks,
                effect: band.effect,
            });
        }
        let stop_limits = match &scale.stops_outside {
            Some(limits) => Some(reach(limits)?),
            None => None,
        };
        let (beyond, beyond_effect) = (scale.beyond, scale.beyond_effect);
        Some(Self {
            target,
            bands,
            beyond,
            beyond_effect,
            stop_limits,
        })
    }

    /// What one value meets.
    pub fn at(&self, value: Exact) -> Met {
        let band = self.bands.iter().position(|band| band.reach.holds(value));
        let met = band.and_then(|index| self.bands.get(index));
        let (marks, effect) = met.map_or((self.beyond, self.beyond_effect), |band| {
            (band.marks, band.effect)
        });
        let stopped = self.stop_limits.is_some_and(|limits| !limits.holds(value));
        Met {
            band,
            marks,
            effect: if stopped { Effect::Stop } else { effect },
        }
    }

    /// What every value of `reach` meets, where they all meet the same marks
    /// and effect; otherwise the limit that the reach lies across.
    pub fn within(&self, reach: Reach) -> Result<Met, Option<Exact>> {
        if let Some(point) = reach.single() {
            return Ok(self.at(point));
        }
        let mut met: Option<(Met, Exact)> = None;
        for value in self.samples(reach) {
            let here = self.at(value);
            match met {
                Some((first, at)) if !first.decides_like(here) => {
                    return Err(self.limit_between(at, value));
                }
                Some(_) => {}
                None => met = Some((here, value)),
            }
        }
        met.map(|(met, _)| met).ok_or(None)
    }

    /// Whether values below zero are meant: a target at zero or below, of which a value is
    /// off in either direction, or a limit there.
    pub(super) fn reach_below_zero(&self) -> bool {
        let below = |reach: Reach| match (reach.low, reach.high) {
            (Some(low), _) => low.is_negative(),
            (None, Some(high)) => high <= Exact::ZERO,
            (None, None) => false,
        };
        let reaches = self.bands.iter().map(|band| band.reach);
        self.target.is_some_and(|target| target <= Exact::ZERO)
            || reaches.chain(self.stop_limits).any(below)
    }

    /// Every limit of bands and stop, in order.
    pub fn limits(&self) -> Vec<Exact> {
        let reaches = self
            .bands
            .iter()
            .map(|band| band.reach)
            .chain(self.stop_limits);
        let mut limits: Vec<Exact> = reaches
            .flat_map(|reach| [reach.low, reach.high])
            .flatten()
            .collect();
        limits.sort_unstable();
        limits.dedup();
        limits
    }

    fn limit_between(&self, a: Exact, b: Exact) -> Option<Exact> {
        let (low, high) = if a < b { (a, b) } else { (b, a) };
        self.limits()
            .into_iter()
            .find(|limit| *limit >= low && *limit <= high)
    }

    /// One value of every stretch between limits that `reach` touches: what
    /// holds for these holds for all.
    fn samples(&self, reach: Reach) -> Vec<Exact> {
        let mut ends = self.limits();
        ends.extend([reach.low, reach.high].into_iter().flatten());
        ends.sort_unstable();
        ends.dedup();
        let half = |sum: Exact| Exact::fraction(1, 2).and_then(|half| sum.times(half));
        let middles: Vec<Exact> = ends
            .iter()
            .zip(ends.iter().skip(1))
            .filter_map(|(a, b)| half(a.plus(*b)?))
            .collect();
        let outside = [
            ends.first().and_then(|first| first.minus(Exact::ONE)),
            ends.last().and_then(|last| last.plus(Exact::ONE)),
        ];
        ends.extend(middles);
        ends.extend(outside.into_iter().flatten());
        if ends.is_empty() {
            ends.push(Exact::ZERO);
        }
        ends.sort_unstable();
        ends.into_iter()
            .filter(|value| reach.holds(*value))
            .collect()
    }
}

fn around(target: Exact, under: Exact, over: Exact) -> Option<Reach> {
    Some(Reach::closed(
        Some(target.minus(under)?),
        Some(target.plus(over)?),
    ))
}
