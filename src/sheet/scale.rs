use crate::chart::{Drawing, Stretch, Tolerance, tolerance, tolerance_strip};
use crate::marking::{Measured, Reach};
use crate::quantity::{Dimension, Exact, Marks, Quantity, Unit};

/// The tolerance of a measured criterion, drawn; `None` where it has no limits.
pub fn drawn_scale(measured: &Measured, most: Marks, sheet: Unit, name: &str) -> Option<Drawing> {
    planned(measured, most, sheet, name).map(|plan| tolerance(&plan))
}

/// The same for a row of a table, with a line over what measuring leaves open: `off`, in
/// base units, on both sides of the value.
pub(super) fn drawn_strip(
    measured: &Measured,
    most: Marks,
    sheet: Unit,
    name: &str,
    off: f64,
) -> Option<Drawing> {
    let mut plan = planned(measured, most, sheet, name)?;
    plan.off = off / sheet.or_usual(measured.dimension).in_base().to_f64();
    plan.labels.clear();
    Some(tolerance_strip(&plan))
}

fn planned(measured: &Measured, most: Marks, sheet: Unit, name: &str) -> Option<Tolerance> {
    let unit = sheet.or_usual(measured.dimension);
    let ends = Ends::of(measured)?;
    let number = |base: Exact| base.over(unit.in_base()).map_or(0.0, Exact::to_f64);
    let within = |cuts: &mut Vec<Exact>| cuts.retain(|cut| *cut > ends.low && *cut < ends.high);
    let mut limits: Vec<Exact> = measured.bands.limits();
    within(&mut limits);
    let mut cuts = match measured.dimension {
        Dimension::Count => between_whole(measured),
        _ => limits.clone(),
    };
    within(&mut cuts);
    let mut marks_at = vec![ends.low];
    marks_at.extend(cuts.iter().copied());
    marks_at.push(ends.high);
    let stretches = marks_at
        .iter()
        .zip(marks_at.iter().skip(1))
        .filter_map(|(from, to)| {
            let middle = Exact::mean(&[*from, *to])?;
            let rank = measured.bands.at(middle).marks.rank(most);
            Some(Stretch {
                from: number(*from),
                to: number(*to),
                rank,
            })
        });
    let in_words = |base: Exact| Quantity::new(measured.dimension, base).print_limit(unit);
    // The unit stands beside the reading; a limit that is not said in it keeps its own.
    let say = |base: Exact| {
        let text = in_words(base);
        let number = text.strip_suffix(unit.symbol()).map(str::trim_end);
        number.unwrap_or(&text).to_owned()
    };
    let value = measured.value.and_then(|reach| ends.shown(reach));
    let full = measured.bands.bands.first().map(|band| band.reach);
    Some(Tolerance {
        stretches: join_alike(stretches.collect()),
        labels: limits.iter().map(|cut| (number(*cut), say(*cut))).collect(),
        value: value.map(|(from, to)| (number(from), number(to))),
        off: 0.0,
        title: format!("{name} on its tolerance"),
        description: describe(measured, full, &in_words),
    })
}

/// Where marks change among counted things: halfway from a limit to the next whole
/// number outside, so that "6 exactly" has room to be drawn.
fn between_whole(measured: &Measured) -> Vec<Exact> {
    let half = Exact::fraction(1, 2);
    let reaches = measured.bands.bands.iter().map(|band| band.reach);
    let mut cuts: Vec<Exact> = reaches
        .chain(measured.bands.stop_limits)
        .flat_map(|reach| {
            let low = reach.low.zip(half).and_then(|(low, half)| low.minus(half));
            let high = reach
                .high
                .zip(half)
                .and_then(|(high, half)| high.plus(half));
            [low, high]
        })
        .flatten()
        .collect();
    cuts.sort_unstable();
    cuts.dedup();
    cuts
}

fn describe(measured: &Measured, full: Option<Reach>, say: &impl Fn(Exact) -> String) -> String {
    let value = match measured.value.and_then(Reach::single) {
        Some(value) => format!("reading {}", say(value)),
        None if measured.value.is_some() => "reading by interval or gauge".to_owned(),
        None => "no reading yet".to_owned(),
    };
    let most = match full.map(|reach| (reach.low, reach.high)) {
        Some((Some(low), Some(high))) => format!("most marks from {} to {}", say(low), say(high)),
        Some((None, Some(high))) => format!("most marks up to {}", say(high)),
        Some((Some(low), None)) => format!("most marks from {}", say(low)),
        _ => return value,
    };
    format!("{value}; {most}")
}

/// Neighbours of one rank are one stretch, so that no line parts them.
fn join_alike(stretches: Vec<Stretch>) -> Vec<Stretch> {
    let mut joined: Vec<Stretch> = Vec::new();
    for stretch in stretches {
        match joined.last_mut() {
            Some(last) if last.rank == stretch.rank => last.to = stretch.to,
            _ => joined.push(stretch),
        }
    }
    joined
}

/// How far the drawing reaches.
struct Ends {
    low: Exact,
    high: Exact,
}

impl Ends {
    /// A third of the limits' range further out on each open side.
    fn of(measured: &Measured) -> Option<Self> {
        let limits = measured.bands.limits();
        let (first, last) = (*limits.first()?, *limits.last()?);
        let one_sided = measured
            .bands
            .bands
            .iter()
            .all(|band| band.reach.low.is_none());
        let range = last.minus(first)?;
        let whole = if one_sided || range.is_zero() {
            last.size()
        } else {
            range
        };
        let margin = whole.over(Exact::whole(3))?;
        let margin = if margin.is_zero() { Exact::ONE } else { margin };
        let low = if one_sided {
            Exact::ZERO.min(first)
        } else {
            first.minus(margin)?
        };
        Some(Self {
            low,
            high: last.plus(margin)?,
        })
    }

    /// Both ends of a value on the drawing.
    fn shown(&self, reach: Reach) -> Option<(Exact, Exact)> {
        let from = reach.low.unwrap_or(self.low).max(self.low).min(self.high);
        let to = reach.high.unwrap_or(self.high).min(self.high).max(self.low);
        (from <= to).then_some((from, to))
    }
}
