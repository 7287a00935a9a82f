//! Tallies, judged levels and numbers.

use crate::quantity::{Dimension, Exact, Marks, Quantity, Unit, read_exact, read_quantity};
use crate::rubric::{BeyondAllowance, Effect, Judged, OnTheLimit, Tally};

use super::facts::{Facts, Pause};
use super::found::{Found, TOO_LARGE};

/// Marks of a count or a duration.
pub(super) fn find_tally(tally: &Tally, entry: &str, facts: &Facts) -> Found {
    let Some((text, source)) = facts.tally_with_source(tally, entry) else {
        return Found::missing(match facts.seen_at_least(tally, entry) {
            Some(count) => format!("not counted: {count} or more, and not all were watched"),
            None => "nothing counted yet".to_owned(),
        });
    };
    let text = text.trim();
    let unit = tally.dimension.usual_unit();
    let gross = match read_quantity(text, tally.dimension, unit) {
        Ok(quantity) => quantity,
        Err(fault) => return Found::problem(fault.to_string()),
    };
    let is_count = tally.dimension == Dimension::Count;
    if is_count && (gross.base.is_negative() || gross.base.denominator() != 1) {
        return Found::problem(format!("`{text}` cannot be counted; write a whole number"));
    }
    if gross.base.is_negative() {
        return Found::problem(format!("`{text}` is below zero; write how much it was"));
    }
    match Clock::read(tally, facts) {
        Ok(clock) => {
            let source = source.words(tally.counts);
            let found = weigh(tally, gross, &clock, source);
            found.unwrap_or_else(|| Found::problem(TOO_LARGE))
        }
        Err(message) => Found::problem(message),
    }
}

/// What counts of a tally: what was counted, with the pauses of the time rule taken off;
/// `None` where nothing was counted, or nothing that can be used.
pub fn counted(tally: &Tally, entry: &str, facts: &Facts) -> Option<Quantity> {
    let text = facts.tally(tally, entry)?;
    let unit = tally.dimension.usual_unit();
    let gross = read_quantity(&text, tally.dimension, unit).ok()?;
    let net = gross.minus(Clock::read(tally, facts).ok()?.stood)?;
    (!net.base.is_negative()).then_some(net)
}

/// What pauses and extra time do to a tally under the time rule.
struct Clock {
    stood: Quantity,
    extra: Quantity,
}

impl Clock {
    fn read(tally: &Tally, facts: &Facts) -> Result<Self, String> {
        let nothing = Quantity::zero(tally.dimension);
        if !tally.is_time {
            return Ok(Self {
                stood: nothing,
                extra: nothing,
            });
        }
        let read = |pause: &Pause| {
            let quantity = read_quantity(&pause.duration, Dimension::Duration, Unit::Minute)
                .map_err(|fault| fault.to_string())?;
            if quantity.base.is_negative() {
                return Err("a pause below zero; write how long the clock stood".to_owned());
            }
            if pause.reason.trim().is_empty() {
                return Err("a pause or extra time needs its reason; write why".to_owned());
            }
            Ok(quantity)
        };
        let mut stood = nothing;
        for pause in &facts.pauses {
            stood = stood
                .plus(read(pause)?)
                .ok_or_else(|| TOO_LARGE.to_owned())?;
        }
        let extra = facts.extra_time.as_ref().map(read).transpose()?;
        Ok(Self {
            stood,
            extra: extra.unwrap_or(nothing),
        })
    }
}

/// `source` is where the amount comes from, in words, or nothing.
fn weigh(tally: &Tally, gross: Quantity, clock: &Clock, source: &str) -> Option<Found> {
    let net = gross.minus(clock.stood)?;
    if net.base.is_negative() {
        return Some(Found::problem(
            "the pauses are longer than the time; mend one of them",
        ));
    }
    let allowance = tally.allowance.plus(clock.extra)?;
    let over = net.minus(allowance)?.base;
    let is_over = |beyond: Exact| {
        let on_it = beyond.is_zero() && tally.on_the_limit == OnTheLimit::Over;
        on_it || !beyond.is_negative() && !beyond.is_zero()
    };
    let say = |quantity: Quantity| quantity.print(tally.dimension.usual_unit());
    let stood = if clock.stood.base.is_zero() {
        String::new()
    } else {
        format!("{} without pauses of {}", say(net), say(clock.stood))
    };
    let found = |marks, because: String, effect| {
        let own = match source {
            "" => because,
            source => format!("{source}, {because}"),
        };
        let why = match (stood.as_str(), source) {
            ("", "") => format!("{}, {own}", say(net)),
            ("", _) => format!("{} {own}", say(net)),
            (stood, _) => format!("{stood}, {own}"),
        };
        Found::valued(marks, why, effect).apart(&stood, own)
    };
    let mut why = format!("{} allowed", say(allowance));
    if !clock.extra.base.is_zero() {
        why.push_str(&format!(" with {} extra time", say(clock.extra)));
    }
    let hard_limit = match tally.hard_limit {
        Some(limit) => Some(limit.plus(clock.extra)?),
        None => None,
    };
    if let Some(limit) = hard_limit
        && is_over(net.minus(limit)?.base)
    {
        why.push_str(&format!(", past the hard limit of {}", say(limit)));
        return Some(found(Marks::ZERO, why, Effect::Stop));
    }
    if !is_over(over) {
        return Some(found(tally.marks, why, Effect::Noted));
    }
    let over_words = if over.is_zero() {
        "exactly on the limit, which counts as over".to_owned()
    } else {
        format!("{} over", say(Quantity::new(tally.dimension, over)))
    };
    match tally.beyond {
        BeyondAllowance::AllMarks => {
            let end = if tally.is_time {
                "; marked as it stood at the limit"
            } else {
                ""
            };
            let why = format!("{why}, {over_words}{end}");
            Some(found(Marks::ZERO, why, Effect::Noted))
        }
        BeyondAllowance::Deduct { each, marks } => {
            let started = over.over(each.base)?.ceil().max(1);
            let cost = marks.times(Exact::whole(started))?;
            let left = tally.marks.minus(cost)?.max(Marks::ZERO);
            let why = format!(
                "{why}, {over_words}, {marks} off for each {} started",
                say(each)
            );
            Some(found(left, why, Effect::Noted))
        }
    }
}

/// Marks of a level or a number given by eye.
pub(super) fn find_judged(judged: &Judged, text: Option<&str>) -> Found {
    let Some(text) = text.map(str::trim).filter(|text| !text.is_empty()) else {
        return Found::missing("not judged yet");
    };
    match judged {
        Judged::Levels(levels) => match levels.iter().find(|level| level.id == text) {
            Some(level) => told(level.marks, &level.name, &level.text, level.effect),
            None => {
                let ids: Vec<&str> = levels.iter().map(|level| level.id.as_str()).collect();
                Found::problem(format!(
                    "there is no level `{text}`; use one of {}",
                    ids.join(", ")
                ))
            }
        },
        Judged::Numbers {
            allowed,
            descriptors,
        } => {
            let given = match given_number(allowed, text) {
                Ok(given) => given,
                Err(message) => return Found::problem(message),
            };
            let words = descriptors
                .iter()
                .find(|(at, _)| *at == given)
                .map(|(_, text)| text);
            let words = words.map_or("", String::as_str);
            told(given, &format!("given {given}"), words, Effect::Noted)
        }
    }
}

/// One of the numbers that can be given. An error says which would do.
pub(super) fn given_number(allowed: &[Marks], text: &str) -> Result<Marks, String> {
    let given = read_exact(text).ok().map(Marks);
    given
        .filter(|given| allowed.contains(given))
        .ok_or_else(|| format!("`{text}` cannot be given; use {}", numbers_words(allowed)))
}

/// Marks for a name and the words that go with it, so that the marks can follow: a text
/// that is a sentence of its own stands as one, without its full stop.
fn told(marks: Marks, name: &str, words: &str, effect: Effect) -> Found {
    let words = words.trim().trim_end_matches('.');
    let why = match words.chars().next() {
        None => name.to_owned(),
        Some(first) if first.is_uppercase() => format!("{name}. {words}"),
        Some(_) => format!("{name}, {words}"),
    };
    Found::valued(marks, why, effect).apart("", words)
}

/// The numbers that can be given, in few words: `0, 2, 5`, or `0 to 10 in steps of 0.5`.
pub fn numbers_words(allowed: &[Marks]) -> String {
    let say = |marks: &[Marks]| {
        let words: Vec<String> = marks.iter().map(ToString::to_string).collect();
        words.join(", ")
    };
    match (allowed.first(), allowed.last()) {
        (Some(least), Some(most)) if allowed.len() > 8 => {
            let steps = allowed.iter().zip(allowed.iter().skip(1));
            let mut steps: Vec<Option<Marks>> = steps.map(|(low, high)| high.minus(*low)).collect();
            steps.dedup();
            match steps.as_slice() {
                [Some(step)] => format!("{least} to {most} in steps of {step}"),
                _ => say(allowed),
            }
        }
        _ => say(allowed),
    }
}
