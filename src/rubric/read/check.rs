//! What can only be checked when the whole file is read.

use std::collections::BTreeMap;

use super::impression::check_first_impression;
use super::photo::check_photos;
use super::table::Source;
use crate::quantity::{Dimension, Exact, Marks, Quantity};
use crate::rubric::expression::Expression;
use crate::rubric::model::{Criterion, Instrument, Kind, Limit, Limits, Rubric, Scale, Threshold};

pub(super) fn check(source: &Source<'_>, rubric: &Rubric) {
    if !has_sane_size(source, rubric) {
        return;
    }
    let readings = dimensions_of_readings(source, rubric);
    for section in &rubric.sections {
        for criterion in &section.criteria {
            let checker = Checker {
                source,
                rubric,
                criterion,
                readings: &readings,
            };
            checker.names();
            checker.scale();
            checker.stops();
        }
    }
    for (index, heats) in rubric.heats.iter().enumerate() {
        if heats
            .step
            .as_ref()
            .is_some_and(|step| rubric.step(step).is_none())
        {
            let span = source.place(&format!("heats number {}", index + 1), "step");
            let what = format!(
                "planned heats name a step that is not there: {}",
                heats.part
            );
            source.error(span, what, "use the id of one of the [[steps]]");
        }
    }
    for reading in &rubric.readings {
        if reading
            .instrument
            .as_ref()
            .is_some_and(|id| rubric.instrument(id).is_none())
        {
            let span = source.place(&format!("reading `{}`", reading.id), "instrument");
            source.error(
                span,
                "there is no such instrument",
                "use an id of [[instruments]]",
            );
        }
    }
    for instrument in &rubric.instruments {
        check_replaced(source, rubric, instrument);
    }
    check_photos(source, rubric);
    check_first_impression(source, rubric);
    check_totals(source, rubric);
}

/// What an instrument stands in for is there and measures the same.
fn check_replaced(source: &Source<'_>, rubric: &Rubric, instrument: &Instrument) {
    for id in &instrument.in_place_of {
        let what = match rubric.instrument(id) {
            None => format!("there is no instrument `{id}`"),
            Some(_) if *id == instrument.id => "an instrument in place of itself".to_owned(),
            Some(other) if other.dimension() != instrument.dimension() => {
                let word = other.dimension().word();
                format!("`{id}` measures {word}, and this does not")
            }
            Some(_) => continue,
        };
        let span = source.place(&format!("instrument `{}`", instrument.id), "in_place_of");
        source.error(
            span,
            what,
            "use ids of other [[instruments]] that measure the same",
        );
    }
}

/// More lines than a person marks on one piece.
const MOST_ENTRIES: usize = 1000;
const MOST_SECTIONS: usize = 100;
const MOST_BANDS: usize = 50;

/// Counts before anything is multiplied out, so that a file made to be slow is
/// refused at once.
fn has_sane_size(source: &Source<'_>, rubric: &Rubric) -> bool {
    let criteria = || rubric.sections.iter().flat_map(|section| &section.criteria);
    let lines = criteria().count().saturating_add(rubric.readings.len());
    let too_long = lines.saturating_mul(rubric.shoes.len()) > MOST_ENTRIES;
    if too_long {
        let what = "the mark sheet would have more than 1000 lines";
        source.error(0..0, what, "use fewer criteria, readings or shoes");
    }
    let too_parted = rubric.sections.len() > MOST_SECTIONS;
    if too_parted {
        let what = "the rubric has more than 100 sections";
        source.error(0..0, what, "put criteria together in fewer sections");
    }
    let many_bands = criteria().find(|criterion| {
        let scale = criterion.scale();
        scale.is_some_and(|scale| scale.bands.len() > MOST_BANDS)
    });
    if let Some(criterion) = many_bands {
        let span = source.place(&format!("criterion `{}`", criterion.id), "bands");
        source.error(span, "more than 50 bands", "use fewer");
    }
    !too_long && !too_parted && many_bands.is_none()
}

/// Every reading key with its dimension; a key of two dimensions is an error.
fn dimensions_of_readings(source: &Source<'_>, rubric: &Rubric) -> BTreeMap<String, Dimension> {
    let mut found: BTreeMap<String, Dimension> = BTreeMap::new();
    for slot in rubric.slots() {
        found.insert(slot.id, slot.dimension);
    }
    for entry in rubric.entries() {
        let Some(scale) = entry.criterion.scale() else {
            continue;
        };
        for reading in entry.criterion.measured() {
            let id = rubric.slot_id(&entry, reading);
            if found
                .get(&id)
                .is_some_and(|dimension| *dimension != scale.dimension)
            {
                let name = format!("criterion `{}`", entry.criterion.id);
                let what = format!("`{reading}` is measured as something else elsewhere");
                source.error(
                    source.place(&name, "measures"),
                    what,
                    "give `measures` alike",
                );
            }
        }
    }
    found
}

struct Checker<'a> {
    source: &'a Source<'a>,
    rubric: &'a Rubric,
    criterion: &'a Criterion,
    readings: &'a BTreeMap<String, Dimension>,
}

impl Checker<'_> {
    fn error(&self, key: &str, what: String, remedy: &str) {
        let name = format!("criterion `{}`", self.criterion.id);
        self.source
            .error(self.source.place(&name, key), what, remedy);
    }

    fn names(&self) {
        let (rubric, criterion) = (self.rubric, self.criterion);
        for reading in criterion.measured() {
            let shoe = reading.split_once('.').map(|(shoe, _)| shoe);
            if let Some(shoe) = shoe.filter(|shoe| rubric.shoes.iter().all(|one| one.id != **shoe))
            {
                self.error(
                    "kind",
                    format!("`{reading}` names a shoe `{shoe}` that is not there"),
                    "use the id of one of the [[shoes]]",
                );
            }
        }
        if let Some(cause) = &criterion.cause
            && !rubric.causes.iter().any(|group| &group.id == cause)
        {
            self.error(
                "cause",
                format!("there is no cause group `{cause}`"),
                "add it to [[causes]]",
            );
        }
        if let Some(step) = &criterion.step
            && rubric.step(step).is_none()
        {
            self.error(
                "step",
                format!("there is no step `{step}`"),
                "add it to [[steps]]",
            );
        }
        for fault in &criterion.faults {
            if let Some(step) = fault
                .step
                .as_ref()
                .filter(|step| rubric.step(step).is_none())
            {
                let what = format!(
                    "fault `{}` names a step `{step}` that is not there",
                    fault.id
                );
                self.error("faults", what, "add it to [[steps]]");
            }
        }
        for outcome in &criterion.outcomes {
            let known = rubric.qualification.iter().flat_map(|unit| &unit.outcomes);
            if !known.into_iter().any(|(code, _)| code == outcome) {
                let what = format!("there is no outcome `{outcome}`");
                self.error("outcomes", what, "add it to [qualification] outcomes");
            }
        }
        let instrument = match &criterion.kind {
            Kind::Toleranced(kind) => kind.instrument.as_ref(),
            Kind::Paired(kind) => kind.instrument.as_ref(),
            Kind::Spread(kind) => kind.instrument.as_ref(),
            _ => None,
        };
        if let Some(id) = instrument
            && rubric.instrument(id).is_none()
        {
            self.error(
                "instrument",
                format!("there is no instrument `{id}`"),
                "add it to [[instruments]]",
            );
        }
    }

    fn scale(&self) {
        let Some(scale) = self.criterion.scale() else {
            return;
        };
        let target_key = if matches!(self.criterion.kind, Kind::Paired(_)) {
            "intended"
        } else {
            "target"
        };
        if let Some(target) = &scale.target {
            self.expression(target_key, target, scale.dimension);
            self.own_target(target);
        }
        let limits = scale.bands.iter().map(|band| (&band.limits, "bands"));
        for (limits, key) in limits.chain(scale.stops_outside.iter().map(|l| (l, "stops_outside")))
        {
            for limit in limits.parts() {
                match limit {
                    Limit::Amount(expression) => self.expression(key, expression, scale.dimension),
                    Limit::Percent(_) if scale.target.is_none() && !self.has_own_mean() => {
                        let what = "per cent of what? There is no target".to_owned();
                        self.error(key, what, "add a target, or write an amount");
                    }
                    Limit::Percent(_) => {}
                }
            }
        }
        self.names_of_bands(scale);
        self.order_of_bands(scale);
    }

    /// A reading held against itself would always be right.
    fn own_target(&self, target: &Expression) {
        if let Kind::Toleranced(kind) = &self.criterion.kind
            && *target == Expression::Reading(kind.reading.clone())
        {
            let what = "the target is the very reading that is marked".to_owned();
            self.error("target", what, "use an amount or another reading");
        }
    }

    /// Pairs and series can take per cent of their own mean.
    fn has_own_mean(&self) -> bool {
        !matches!(self.criterion.kind, Kind::Toleranced(_))
    }

    fn expression(&self, key: &str, expression: &Expression, dimension: Dimension) {
        let needed = expression.readings();
        if needed.is_empty() {
            return;
        }
        let entries = self.rubric.entries();
        let own = entries
            .iter()
            .filter(|entry| entry.criterion.id == self.criterion.id);
        for entry in own {
            for reading in needed.iter().copied() {
                match self.readings.get(&self.rubric.slot_id(entry, reading)) {
                    Some(found) if *found == dimension => {}
                    Some(found) => {
                        let what = format!(
                            "`{reading}` measures {}, not {}",
                            found.word(),
                            dimension.word()
                        );
                        self.error(key, what, "use a reading that measures the same");
                    }
                    None => {
                        let what = format!("there is no reading `{reading}`");
                        self.error(
                            key,
                            what,
                            "use the id of a reading or of a measured criterion",
                        );
                    }
                }
            }
        }
    }

    fn names_of_bands(&self, scale: &Scale) {
        let names: Vec<_> = scale
            .bands
            .iter()
            .filter_map(|band| band.name.as_ref())
            .collect();
        for (index, name) in names.iter().enumerate() {
            if names.iter().take(index).any(|earlier| earlier == name) {
                let what = format!("two bands are called `{name}`");
                self.error("bands", what, "give each a name of its own");
            }
        }
    }

    /// A later band that an earlier one holds whole can never give its marks.
    fn order_of_bands(&self, scale: &Scale) {
        for (index, band) in scale.bands.iter().enumerate() {
            let earlier = scale.bands.iter().take(index);
            let own = fixed_reach(&band.limits);
            let hidden = earlier
                .filter_map(|wide| fixed_reach(&wide.limits))
                .any(|wide| {
                    own.is_some_and(|own| {
                        own.form == wide.form && own.low >= wide.low && own.high <= wide.high
                    })
                });
            if hidden {
                let what = format!(
                    "band {} lies inside an earlier one and is never reached",
                    index + 1
                );
                self.error(
                    "bands",
                    what,
                    "write the bands from the narrowest to the widest",
                );
            }
            if own.is_some_and(|own| own.low > own.high) {
                let what = format!("band {} ends before it begins", index + 1);
                self.error("bands", what, "write the smaller limit first");
            }
        }
    }

    fn stops(&self) {
        let most = self.criterion.most_unweighted();
        if self.criterion.stops_below.is_some_and(|stop| stop > most) {
            let what = "every number of marks would stop the award".to_owned();
            self.error("stops_below", what, "write a number that can be reached");
        }
        if let Kind::Faults(list) = &self.criterion.kind {
            if self.criterion.faults.is_empty() {
                let what = "a list of faults without faults".to_owned();
                self.error("kind", what, "add faults = [{ id, name, effect }, …]");
            }
            if list.least > list.marks {
                self.error(
                    "least",
                    "the least is above the marks".to_owned(),
                    "make it smaller",
                );
            }
        }
    }
}

#[derive(Clone, Copy)]
struct Reach {
    form: u8,
    low: Exact,
    high: Exact,
}

/// How far a band reaches where its limits are fixed; bands of one form can be
/// compared.
fn fixed_reach(limits: &Limits) -> Option<Reach> {
    let fixed = |limit: &Limit| match limit {
        Limit::Amount(expression) => expression
            .constant()
            .map(|quantity: Quantity| quantity.base),
        Limit::Percent(_) => None,
    };
    let percent = |limit: &Limit| match limit {
        Limit::Percent(percent) => Some(*percent),
        Limit::Amount(_) => None,
    };
    Some(match limits {
        Limits::Around { under, over } => match (fixed(under), fixed(over)) {
            (Some(under), Some(over)) => Reach {
                form: 0,
                low: under.negated(),
                high: over,
            },
            _ => Reach {
                form: 1,
                low: percent(under)?.negated(),
                high: percent(over)?,
            },
        },
        Limits::AtMost(limit) => Reach {
            form: 2,
            low: Exact::ZERO,
            high: fixed(limit)?.size(),
        },
        Limits::AtLeast(limit) => Reach {
            form: 3,
            low: fixed(limit)?,
            high: Exact::whole(i128::from(i64::MAX)),
        },
        Limits::Between(from, to) => Reach {
            form: 4,
            low: fixed(from)?,
            high: fixed(to)?,
        },
    })
}

/// A rubric whose common denominator passes this is refused.
const MOST_DENOMINATOR: i128 = 1_000_000;

fn check_totals(source: &Source<'_>, rubric: &Rubric) {
    let remedy = "use whole marks, halves or quarters, and round weights";
    match rubric.common_denominator() {
        Some(common) if common <= MOST_DENOMINATOR => {}
        _ => {
            let what = "the marks have no common denominator up to 1,000,000, so they cannot be \
                        added up exactly";
            source.error(0..0, what, remedy);
            return;
        }
    }
    let Some(out_of) = rubric.out_of() else {
        source.error(0..0, "the marks are too large to add up", remedy);
        return;
    };
    let faultless = source.diagnostics.borrow().is_empty();
    if out_of == Marks::ZERO && faultless {
        source.error(0..0, "no marks can be had at all", "give criteria marks");
    }
    let pass = source.place("`award`", "pass");
    if matches!(rubric.award.pass, Threshold::Marks(marks) if marks > out_of) {
        let what = format!("the pass mark is above the {out_of} marks that can be had");
        source.error(pass, what, "lower it");
    }
    for section in &rubric.sections {
        check_section(source, rubric, section);
    }
}

fn check_section(source: &Source<'_>, rubric: &Rubric, section: &crate::rubric::model::Section) {
    let Some(totals) = rubric.section_totals(section) else {
        return;
    };
    let name = format!("section `{}`", section.id);
    if section.weight.is_some_and(|weight| weight > Marks::ZERO) && totals.capped == Marks::ZERO {
        let what = "a weight on a section that gives no marks";
        source.error(
            source.place(&name, "weight"),
            what,
            "give its criteria marks",
        );
    }
    if matches!(section.minimum, Some(Threshold::Marks(least)) if least > totals.counted) {
        let what = format!(
            "the minimum is above the {} marks of the section",
            totals.counted
        );
        source.error(source.place(&name, "minimum"), what, "lower it");
    }
}
