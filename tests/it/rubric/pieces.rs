//! Shoes that were never made: one without a fault, one that is wrong all over, and one for
//! every number of marks that a criterion can give. For any rubric.

use std::collections::BTreeMap;

use evenshod::marking::{Facts, ReadingFact};
use evenshod::quantity::{Dimension, Exact, Length, Quantity};
use evenshod::rubric::{Entry, Expression, Judged, Kind, Limit, Limits, Rubric, Scale};

pub fn text_of(quantity: Quantity) -> String {
    match quantity.dimension {
        Dimension::Length => {
            // What no whole nanometre says is written just under: many limits are a most.
            let near = Length::nearest(quantity).unwrap();
            let over = i64::from(near.quantity().base > quantity.base);
            Length::from_base(near.base() - over).to_string()
        }
        _ => {
            let unit = quantity.dimension.usual_unit().in_base();
            quantity.base.over(unit).unwrap().to_string()
        }
    }
}

/// What is read on a shoe, by slot.
pub type Values = BTreeMap<String, Quantity>;

/// Everything as it was asked for.
pub fn ideal(rubric: &Rubric) -> Values {
    let mut values = Values::new();
    let entries = rubric.entries();
    let measured: Vec<String> = entries
        .iter()
        .flat_map(|entry| {
            entry
                .criterion
                .measured()
                .into_iter()
                .map(|id| rubric.slot_id(entry, id))
        })
        .collect();
    let others = rubric.slots().into_iter().filter(|slot| slot.is_named);
    for slot in others.filter(|slot| !measured.contains(&slot.id)) {
        let thickness = rubric.piece.finished.thickness.quantity();
        values.insert(slot.id, thickness);
    }
    // A target may need readings that come after it.
    for _ in 0..4 {
        for entry in rubric.entries() {
            put_ideal(rubric, &entry, &mut values);
        }
    }
    values
}

fn value(rubric: &Rubric, entry: &Entry<'_>, values: &Values, of: &Expression) -> Option<Quantity> {
    of.value(&|id| values.get(&rubric.slot_id(entry, id)).copied())
}

fn put_ideal(rubric: &Rubric, entry: &Entry<'_>, values: &mut Values) {
    let id = |reading: &str| rubric.slot_id(entry, reading);
    match &entry.criterion.kind {
        Kind::Toleranced(kind) if !values.contains_key(&id(&kind.reading)) => {
            if let Some(asked) = asked(rubric, entry, &kind.scale, values) {
                values.insert(id(&kind.reading), asked);
            }
        }
        Kind::Paired(kind) => {
            let dimension = kind.scale.dimension;
            let target = kind.scale.target.as_ref();
            let intended = target.map_or(Some(Quantity::zero(dimension)), |target| {
                value(rubric, entry, values, target)
            });
            let Some(intended) = intended else {
                return;
            };
            let (left, right) = (id(&kind.left), id(&kind.right));
            let usual = Quantity::new(dimension, dimension.usual_unit().in_base());
            let base = usual.times(Exact::HUNDRED).unwrap();
            match (values.get(&left).copied(), values.get(&right).copied()) {
                (None, None) => {
                    values.insert(right, base);
                    values.insert(left, base.plus(intended).unwrap());
                }
                (None, Some(right)) => {
                    values.insert(left, right.plus(intended).unwrap());
                }
                (Some(left), None) => {
                    values.insert(right, left.minus(intended).unwrap());
                }
                _ => {}
            }
        }
        _ => {}
    }
}

/// The target, or the best that the first band holds.
fn asked(rubric: &Rubric, entry: &Entry<'_>, scale: &Scale, values: &Values) -> Option<Quantity> {
    match (&scale.target, &scale.bands[0].limits) {
        (Some(target), _) => value(rubric, entry, values, target),
        (None, Limits::AtMost(_)) => Some(Quantity::zero(scale.dimension)),
        (
            None,
            Limits::AtLeast(Limit::Amount(limit)) | Limits::Between(Limit::Amount(limit), _),
        ) => value(rubric, entry, values, limit),
        (None, limits) => panic!("{}: {limits:?}", entry.id),
    }
}

/// Facts with these readings, the best of what is judged, no fault, all within allowance.
pub fn faultless_with(rubric: &Rubric, values: &Values) -> Facts {
    let mut facts = Facts::default();
    for (slot, value) in values {
        let reading = vec![ReadingFact::of(text_of(*value))];
        facts.readings.insert(slot.clone(), reading);
    }
    for entry in rubric.entries() {
        let id = entry.id.clone();
        match &entry.criterion.kind {
            Kind::Spread(kind) => {
                let members = usize::try_from(kind.count).unwrap();
                let usual = kind.scale.dimension.usual_unit().in_base();
                let value =
                    Quantity::new(kind.scale.dimension, usual.times(Exact::HUNDRED).unwrap());
                let series = vec![ReadingFact::of(text_of(value)); members];
                facts
                    .readings
                    .insert(rubric.slot_id(&entry, &kind.reading), series);
            }
            Kind::Tally(tally) => {
                facts.tallies.insert(id, text_of(tally.allowance));
            }
            Kind::Judged(Judged::Levels(levels)) => {
                let best = levels.iter().max_by_key(|level| level.marks).unwrap();
                facts.levels.insert(id, best.id.clone());
            }
            Kind::Judged(Judged::Numbers { allowed, .. }) => {
                let best = allowed.iter().max().unwrap();
                facts.levels.insert(id, best.to_string());
            }
            Kind::Faults(_) => {
                facts.faults.insert(id, Vec::new());
            }
            Kind::Toleranced(_) | Kind::Paired(_) => {}
        }
    }
    facts
}

/// A shoe without a fault.
pub fn faultless(rubric: &Rubric) -> Facts {
    faultless_with(rubric, &ideal(rubric))
}

/// A shoe that is wrong wherever it can be: a hand's breadth off, the worst of what is judged,
/// every fault as often as it costs, ten times the allowance.
pub fn worst(rubric: &Rubric) -> Facts {
    let mut facts = faultless(rubric);
    let far = |dimension: Dimension, times: i128| {
        let usual = dimension.usual_unit().in_base();
        Quantity::new(dimension, usual.times(Exact::whole(1000 * times)).unwrap())
    };
    for (at, entry) in rubric.entries().into_iter().enumerate() {
        let id = entry.id.clone();
        let slot = |reading: &str| rubric.slot_id(&entry, reading);
        let times = i128::try_from(at).unwrap() + 1;
        let reading = |quantity: Quantity| vec![ReadingFact::of(text_of(quantity))];
        match &entry.criterion.kind {
            Kind::Toleranced(kind) => {
                // A hand's breadth too much is no fault where there is but a least.
                let at_least = matches!(kind.scale.bands[0].limits, Limits::AtLeast(_));
                let off = if at_least {
                    Quantity::zero(kind.scale.dimension)
                } else {
                    far(kind.scale.dimension, times)
                };
                facts.readings.insert(slot(&kind.reading), reading(off));
            }
            Kind::Paired(kind) => {
                let dimension = kind.scale.dimension;
                facts
                    .readings
                    .insert(slot(&kind.left), reading(far(dimension, times)));
                let other = far(dimension, 500 + times * times);
                facts.readings.insert(slot(&kind.right), reading(other));
            }
            Kind::Spread(kind) => {
                let series = facts.readings.get_mut(&slot(&kind.reading)).unwrap();
                series[0] = ReadingFact::of(text_of(far(kind.scale.dimension, times)));
            }
            Kind::Tally(tally) => {
                let many = Quantity::new(
                    tally.dimension,
                    tally
                        .dimension
                        .usual_unit()
                        .in_base()
                        .times(Exact::whole(1000))
                        .unwrap(),
                );
                facts.tallies.insert(id, text_of(many));
            }
            Kind::Judged(Judged::Levels(levels)) => {
                let least = levels.iter().min_by_key(|level| level.marks).unwrap();
                facts.levels.insert(id, least.id.clone());
            }
            Kind::Judged(Judged::Numbers { allowed, .. }) => {
                let least = allowed.iter().min().unwrap();
                facts.levels.insert(id, least.to_string());
            }
            Kind::Faults(_) => {
                let all = entry.criterion.faults.iter();
                let all = all.flat_map(|fault| vec![fault.id.clone(); 9]);
                facts.faults.insert(id, all.collect());
            }
        }
    }
    facts
}

/// Differences from what is asked for at which a band ends, and one beyond all.
fn ends(rubric: &Rubric, entry: &Entry<'_>, scale: &Scale, values: &Values) -> Vec<Quantity> {
    let zero = Quantity::zero(scale.dimension);
    let asked = scale.target.as_ref();
    let asked = asked
        .map_or(Some(zero), |target| value(rubric, entry, values, target))
        .unwrap();
    let of = |limit: &Limit| match limit {
        Limit::Amount(limit) => value(rubric, entry, values, limit).unwrap(),
        Limit::Percent(percent) => asked.times(percent.over(Exact::HUNDRED).unwrap()).unwrap(),
    };
    let mut ends = Vec::new();
    for band in &scale.bands {
        ends.extend(match &band.limits {
            Limits::Around { under, over } => {
                vec![
                    asked.minus(of(under)).unwrap(),
                    asked.plus(of(over)).unwrap(),
                ]
            }
            Limits::AtMost(limit) | Limits::AtLeast(limit) => vec![of(limit)],
            Limits::Between(from, to) => vec![of(from), of(to)],
        });
    }
    let usual = scale
        .dimension
        .usual_unit()
        .in_base()
        .times(Exact::whole(900))
        .unwrap();
    ends.push(asked.plus(Quantity::new(scale.dimension, usual)).unwrap());
    ends.push(zero);
    ends
}

/// Facts for each number of marks that the entry may give: a shoe without a fault but in this.
pub fn one_for_each(rubric: &Rubric, entry: &Entry<'_>) -> Vec<Facts> {
    let values = ideal(rubric);
    let all = faultless_with(rubric, &values);
    let slot = |reading: &str| rubric.slot_id(entry, reading);
    let with_reading = |reading: &str, value: Quantity| {
        let mut facts = all.clone();
        let series = facts.readings.get_mut(&slot(reading)).unwrap();
        series[0] = ReadingFact::of(text_of(value));
        facts
    };
    match &entry.criterion.kind {
        Kind::Toleranced(kind) => {
            let ends = ends(rubric, entry, &kind.scale, &values);
            ends.into_iter()
                .map(|end| with_reading(&kind.reading, end))
                .collect()
        }
        Kind::Paired(kind) => {
            let right = values[&slot(&kind.right)];
            let ends = ends(rubric, entry, &kind.scale, &values);
            let ends = ends.into_iter().map(|end| right.plus(end).unwrap());
            ends.map(|left| with_reading(&kind.left, left)).collect()
        }
        Kind::Spread(kind) => {
            let middle = Quantity::new(
                kind.scale.dimension,
                kind.scale
                    .dimension
                    .usual_unit()
                    .in_base()
                    .times(Exact::HUNDRED)
                    .unwrap(),
            );
            let ends = ends(rubric, entry, &kind.scale, &values);
            let ends = ends.into_iter().map(|end| middle.plus(end).unwrap());
            ends.map(|far| with_reading(&kind.reading, far)).collect()
        }
        Kind::Judged(judged) => {
            let words: Vec<String> = match judged {
                Judged::Levels(levels) => levels.iter().map(|level| level.id.clone()).collect(),
                Judged::Numbers { allowed, .. } => {
                    allowed.iter().map(ToString::to_string).collect()
                }
            };
            let of = |word: String| {
                let mut facts = all.clone();
                facts.levels.insert(entry.id.clone(), word);
                facts
            };
            words.into_iter().map(of).collect()
        }
        Kind::Tally(_) | Kind::Faults(_) => vec![all],
    }
}
