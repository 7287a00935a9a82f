use super::buttons::heats_words;
use super::planned::{boxes, minutes, words};
use crate::chart::{Drawing, HeatLanes, StepLane, heat_lanes};
use crate::marking::Facts;
use crate::marking::heat_log::{Place, PlannedSpan, Stretch, Timeline, What, planned_spans};
use crate::rubric::Rubric;
use crate::sheet::{shared_words, spoken, step_name};

/// When each step was planned and worked on, with what says how to read it; `None` where the
/// clock was never started.
pub(super) fn drawn(
    rubric: &Rubric,
    facts: &Facts,
    timeline: &Timeline,
) -> Option<(Drawing, String)> {
    let end = timeline.stretches.last()?.to_ms;
    let taps = &facts.heat_log.taps;
    let faults = timeline.marks.iter().filter(|(_, index)| {
        let tap = taps.get(*index);
        tap.is_some_and(|tap| matches!(tap.what, What::Fault { .. }))
    });
    let shared = facts.shared_time(rubric, timeline);
    let parts = facts.heat_log.parts(rubric);
    let spans = shared.map_or_else(Vec::new, |time| planned_spans(&parts, time));
    let planned = shared.filter(|_| !spans.is_empty()).map(shared_words);
    let planned = planned.map(|words| format!("Planned: {words}."));
    let (lanes, said) = lanes(rubric, timeline, &spans);
    let paused = span_of(timeline, |stretch| stretch.at == Place::Paused);
    let drawing = heat_lanes(&HeatLanes {
        description: [planned.clone(), Some(said)]
            .into_iter()
            .flatten()
            .collect::<Vec<String>>()
            .join(" "),
        end: minutes(end),
        limit: facts
            .allowed_ms(rubric)
            .map(|limit| minutes(limit.saturating_add(paused))),
        faults: faults.map(|(ms, _)| minutes(*ms)).collect(),
        title: match planned {
            Some(_) => "When each step was planned and worked on, in minutes from the start",
            None => "When each step was worked on, in minutes from the start",
        }
        .to_owned(),
        lanes,
    });
    Some((drawing, legend(planned)))
}

/// What each mark of the drawing is.
fn legend(planned: Option<String>) -> String {
    let made = "Minutes from the start. Thin: in the fire; thick: out of it; diamond: welding heat; \
        square: fault; upright line: time allowed.";
    let planned = planned.map(|words| format!(" Hollow, above: heats as planned. {words}"));
    format!("{made}{}", planned.unwrap_or_default())
}

fn span_of(timeline: &Timeline, which: impl Fn(&Stretch) -> bool) -> u64 {
    let stretches = timeline.stretches.iter().filter(|one| which(one));
    stretches.map(|one| one.to_ms - one.from_ms).sum()
}

/// The rows, and what they say in words.
fn lanes(rubric: &Rubric, timeline: &Timeline, spans: &[PlannedSpan]) -> (Vec<StepLane>, String) {
    let unnamed = span_of(timeline, |stretch| stretch.step.is_none());
    let is_unnamed = unnamed > 0 || spans.iter().any(|span| span.step.is_none());
    let took = |ms: u64| if ms > 0 { spoken(ms) } else { String::new() };
    let other = is_unnamed.then(|| (None, "No step named".to_owned(), took(unnamed)));
    let steps = timeline.steps.iter().map(|time| {
        let words = listed([heats_words(time), took(time.ms)]);
        (Some(&*time.step), step_name(rubric, &time.step), words)
    });
    let rows = other.into_iter().chain(steps);
    let rows = rows.map(|(step, label, made)| {
        let said = format!("{label}: {}", listed([made.clone(), words(spans, step)]));
        let planned = boxes(spans, step);
        let made = lane(&timeline.stretches, step, label, made);
        (StepLane { planned, ..made }, said)
    });
    let (lanes, said): (Vec<_>, Vec<_>) = rows.unzip();
    (lanes, said.join("; "))
}

fn listed(words: [String; 2]) -> String {
    let words = words.into_iter().filter(|text| !text.is_empty());
    words.collect::<Vec<String>>().join(", ")
}

fn lane(stretches: &[Stretch], step: Option<&str>, label: String, words: String) -> StepLane {
    let of_step = || {
        stretches
            .iter()
            .filter(|stretch| stretch.step.as_deref() == step)
    };
    let at = |places: &[Place]| -> Vec<(f64, f64)> {
        let here = of_step().filter(|stretch| places.contains(&stretch.at));
        here.map(|stretch| (minutes(stretch.from_ms), minutes(stretch.to_ms)))
            .collect()
    };
    let welds = of_step().filter(|stretch| stretch.at == Place::Anvil && stretch.weld);
    StepLane {
        label,
        words,
        planned: Vec::new(),
        fire: at(&[Place::Fire]),
        anvil: at(&[Place::Anvil, Place::Elsewhere]),
        welds: welds.map(|stretch| minutes(stretch.from_ms)).collect(),
    }
}
