//! What is allowed and yet seldom meant: a person should look.

use super::table::Source;
use crate::quantity::{Dimension, Exact, Marks};
use crate::rubric::model::{
    Criterion, Instrument, Judged, Kind, Limit, Limits, Rubric, Scale, Section, Uncertainty,
};

/// Warns of what `rubric`, which has no errors, seldom means.
pub(super) fn advise(source: &Source<'_>, rubric: &Rubric) {
    for section in &rubric.sections {
        capped(source, section);
        for criterion in &section.criteria {
            let one = One { source, criterion };
            one.bands();
            one.told_apart(rubric);
            one.levels();
            one.faults();
        }
    }
    readings(source, rubric);
    remedies(source, rubric);
}

/// A cap is there to be reached; one criterion alone should not pass it.
fn capped(source: &Source<'_>, section: &Section) {
    let Some(cap) = section.cap else {
        return;
    };
    let over = section
        .criteria
        .iter()
        .find(|criterion| criterion.out_of().is_some_and(|most| most > cap));
    if let Some(criterion) = over {
        let name = format!("section `{}`", section.id);
        let what = format!(
            "the section gives {cap} at most and `{}` alone gives more, so its best marks are never reached",
            criterion.id
        );
        source.warn(source.place(&name, "cap"), what, "raise the cap");
    }
}

struct One<'a> {
    source: &'a Source<'a>,
    criterion: &'a Criterion,
}

impl One<'_> {
    fn warn(&self, key: &str, what: String, remedy: &str) {
        let name = format!("criterion `{}`", self.criterion.id);
        self.source
            .warn(self.source.place(&name, key), what, remedy);
    }

    fn bands(&self) {
        let Some(scale) = self.criterion.scale() else {
            return;
        };
        let mut least: Option<Marks> = None;
        for (index, band) in scale.bands.iter().enumerate() {
            if least.is_some_and(|least| band.marks > least) {
                let what = format!("band {} gives more marks than one before it", index + 1);
                self.warn("bands", what, "give the narrowest band the most marks");
            }
            least = Some(least.map_or(band.marks, |least| least.min(band.marks)));
        }
        if least.is_some_and(|least| scale.beyond > least) {
            let what = "outside every band there are more marks than inside one".to_owned();
            self.warn("beyond", what, "make `beyond` the least");
        }
        self.crossing(scale);
    }

    /// Stretches that share a part, none holding the other: which marks a value has there
    /// hangs on the order alone.
    fn crossing(&self, scale: &Scale) {
        let stretches: Vec<Option<(Exact, Exact)>> = scale
            .bands
            .iter()
            .map(|band| stretch(scale, &band.limits))
            .collect();
        for (index, one) in stretches.iter().enumerate() {
            let earlier = stretches.iter().take(index).flatten();
            let Some(one) = one else {
                continue;
            };
            let crosses = |other: &(Exact, Exact)| {
                let is_apart = one.1 <= other.0 || other.1 <= one.0;
                let holds = |outer: &(Exact, Exact), inner: &(Exact, Exact)| {
                    outer.0 <= inner.0 && inner.1 <= outer.1
                };
                !is_apart && !holds(one, other) && !holds(other, one)
            };
            if earlier.clone().any(crosses) {
                let what = format!(
                    "band {} overlaps an earlier one in part; where they overlap the earlier one counts",
                    index + 1
                );
                self.warn("bands", what, "let one end where the next begins");
            }
        }
    }

    /// A band must be wider than its instrument is off by, or which band a part is in is
    /// chance.
    fn told_apart(&self, rubric: &Rubric) {
        let Some(scale) = self.criterion.scale() else {
            return;
        };
        // Four nails are four: counts are exact.
        if scale.dimension == Dimension::Count {
            return;
        }
        let instrument = self.criterion.instrument();
        let instrument = instrument.and_then(|id| rubric.instrument(id));
        for (index, band) in scale.bands.iter().enumerate() {
            let Some(width) = width(scale, &band.limits) else {
                continue;
            };
            let band = index + 1;
            if width.is_zero() {
                let what = format!("band {band} has no width: no part is ever exactly so");
                self.warn("bands", what, "widen the band");
            } else if let Some(one) = instrument.filter(|one| is_within_error(width, one)) {
                let what = format!(
                    "band {band} is narrower than {} can tell apart",
                    one.name.to_lowercase()
                );
                self.warn("bands", what, "widen the band, or name a surer instrument");
            }
        }
    }

    fn levels(&self) {
        let Kind::Judged(Judged::Levels(levels)) = &self.criterion.kind else {
            return;
        };
        let pairs = levels.iter().zip(levels.iter().skip(1));
        for (better, worse) in pairs {
            if worse.marks > better.marks {
                let what = format!(
                    "level `{}` gives more marks than the one before it",
                    worse.id
                );
                self.warn("levels", what, "write the best level first");
            }
        }
    }

    fn faults(&self) {
        for fault in &self.criterion.faults {
            if fault.most.is_some_and(|most| most < fault.deduct) {
                let what = format!("fault `{}` costs more than its most", fault.id);
                self.warn("faults", what, "make `most` at least as large as `deduct`");
            }
        }
    }
}

/// How wide a band is, if that is fixed. An upper limit alone is taken as a deviation in
/// either direction.
fn width(scale: &Scale, limits: &Limits) -> Option<Exact> {
    let asked = scale.target.as_ref().and_then(|target| target.constant());
    let fixed = |limit: &Limit| match limit {
        Limit::Amount(expression) => expression.constant().map(|quantity| quantity.base),
        Limit::Percent(percent) => asked?.base.size().times(percent.over(Exact::HUNDRED)?),
    };
    let width = match limits {
        Limits::Around { under, over } => fixed(under)?.plus(fixed(over)?),
        Limits::Between(from, to) => fixed(to)?.minus(fixed(from)?),
        Limits::AtMost(limit) => fixed(limit)?.times(Exact::whole(2)),
        Limits::AtLeast(_) => None,
    };
    width.filter(|width| !width.is_negative())
}

/// Whether one reading by `instrument` can be off from one end of the width to the other:
/// less than `2 a` for a half-width `a`; a standard uncertainty `u` stands for the
/// half-width `u sqrt 3` (JCGM 100:2008, 4.3.7).
fn is_within_error(width: Exact, instrument: &Instrument) -> bool {
    let (amount, times) = match instrument.uncertainty {
        Uncertainty::HalfWidth(half, _) => (half.base, 4),
        Uncertainty::Standard(standard) => (standard.base, 12),
    };
    let square = |value: Exact| value.times(value);
    let error = square(amount).and_then(|square| square.times(Exact::whole(times)));
    square(width)
        .zip(error)
        .is_some_and(|(width, error)| width < error)
}

/// Where a band reaches, if that is fixed.
fn stretch(scale: &Scale, limits: &Limits) -> Option<(Exact, Exact)> {
    let asked = scale.target.as_ref().and_then(|target| target.constant());
    let asked = asked.map(|quantity| quantity.base);
    let fixed = |limit: &Limit| match limit {
        Limit::Amount(expression) => expression.constant().map(|quantity| quantity.base),
        Limit::Percent(percent) => asked?.times(percent.over(Exact::HUNDRED)?),
    };
    match limits {
        Limits::Around { under, over } => {
            let asked = asked?;
            Some((asked.minus(fixed(under)?)?, asked.plus(fixed(over)?)?))
        }
        Limits::Between(from, to) => Some((fixed(from)?, fixed(to)?)),
        Limits::AtMost(_) | Limits::AtLeast(_) => None,
    }
}

/// More criteria than this on one reading charge one slip of the ruler too often.
const MOST_ON_ONE: usize = 2;

fn readings(source: &Source<'_>, rubric: &Rubric) {
    let criteria: Vec<&Criterion> = rubric
        .sections
        .iter()
        .flat_map(|section| &section.criteria)
        .collect();
    let mut told: Vec<&str> = Vec::new();
    for reading in criteria.iter().flat_map(|criterion| criterion.measured()) {
        if told.contains(&reading) {
            continue;
        }
        told.push(reading);
        let on_it: Vec<&&Criterion> = criteria
            .iter()
            .filter(|criterion| uses(criterion, reading))
            .collect();
        let first = on_it.first().and_then(|criterion| criterion.cause.as_ref());
        let is_capped = first.is_some() && on_it.iter().all(|one| one.cause.as_ref() == first);
        if on_it.len() > MOST_ON_ONE && !is_capped {
            let names: Vec<&str> = on_it.iter().map(|one| one.name.as_str()).collect();
            let what = format!(
                "{} criteria are marked by the one reading `{reading}`: {}",
                on_it.len(),
                names.join(", ")
            );
            let last = on_it.last().map_or("", |criterion| criterion.id.as_str());
            let place = source.place(&format!("criterion `{last}`"), "");
            source.warn(
                place,
                what,
                "name one `cause` in all of them, so that one error is charged once",
            );
        }
    }
}

fn uses(criterion: &Criterion, reading: &str) -> bool {
    criterion.measured().contains(&reading)
}

/// One warning for all: which criteria tell a learner nothing to practise.
fn remedies(source: &Source<'_>, rubric: &Rubric) {
    const NAMED: usize = 3;
    let criteria = rubric.sections.iter().flat_map(|section| &section.criteria);
    let without: Vec<&Criterion> = criteria
        .filter(|criterion| criterion.faults.iter().all(|fault| fault.remedy.is_empty()))
        .collect();
    let Some(first) = without.first() else {
        return;
    };
    let names: Vec<&str> = without
        .iter()
        .take(NAMED)
        .map(|one| one.name.as_str())
        .collect();
    let more = match without.len().saturating_sub(NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let what = format!("nothing to practise is said at {}{more}", names.join(", "));
    let place = source.place(&format!("criterion `{}`", first.id), "");
    source.warn(place, what, "add a fault with its cause and a remedy");
}
