use crate::marking::heat_log::PlannedSpan;
use crate::sheet::spoken;

/// Of one part so many heats are drawn one by one; more would be one blot.
const MOST_BOXES: u32 = 99;

/// The planned heats of a step: from, to in minutes, and whether it is a welding heat.
pub(super) fn boxes(spans: &[PlannedSpan], step: Option<&str>) -> Vec<(f64, f64, bool)> {
    let of_step = of_step(spans, step);
    of_step.flat_map(boxes_of).collect()
}

fn boxes_of(span: &PlannedSpan) -> impl Iterator<Item = (f64, f64, bool)> {
    let count = if span.count > MOST_BOXES {
        1
    } else {
        span.count
    };
    let (from, weld) = (minutes(span.from_ms), span.weld);
    let each = (minutes(span.to_ms) - from) / f64::from(count);
    let at = move |heat: u32| from + f64::from(heat) * each;
    (0..count).map(move |heat| (at(heat), at(heat + 1), weld))
}

/// When a step is planned: `planned 26:40 to 40:00`; empty where it is not.
pub(super) fn words(spans: &[PlannedSpan], step: Option<&str>) -> String {
    let mut times: Vec<(u64, u64)> = Vec::new();
    for span in of_step(spans, step) {
        match times.last_mut() {
            Some((_, to)) if *to == span.from_ms => *to = span.to_ms,
            _ => times.push((span.from_ms, span.to_ms)),
        }
    }
    let times = times.into_iter();
    let times = times.map(|(from, to)| format!("{} to {}", spoken(from), spoken(to)));
    let times: Vec<String> = times.collect();
    if times.is_empty() {
        String::new()
    } else {
        format!("planned {}", times.join(" and "))
    }
}

fn of_step<'s>(
    spans: &'s [PlannedSpan],
    step: Option<&str>,
) -> impl Iterator<Item = &'s PlannedSpan> {
    let spans = spans.iter();
    spans.filter(move |span| span.step.as_deref() == step)
}

pub(super) fn minutes(ms: u64) -> f64 {
    ms as f64 / 60_000.0
}
