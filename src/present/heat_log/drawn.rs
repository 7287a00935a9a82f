use super::buttons::heats_words;
use super::clock::limit_ms;
use crate::chart::{Drawing, HeatLanes, StepLane, heat_lanes};
use crate::marking::Facts;
use crate::marking::heat_log::{Place, Stretch, Timeline, What};
use crate::rubric::Rubric;
use crate::sheet::{spoken, step_name};

/// When each step was worked on; `None` where the clock was never started.
pub(super) fn drawn(rubric: &Rubric, facts: &Facts, timeline: &Timeline) -> Option<Drawing> {
    let end = timeline.stretches.last()?.to_ms;
    let paused = timeline
        .stretches
        .iter()
        .filter(|stretch| stretch.at == Place::Paused);
    let paused: u64 = paused.map(|stretch| stretch.to_ms - stretch.from_ms).sum();
    let taps = &facts.heat_log.taps;
    let faults = timeline.marks.iter().filter(|(_, index)| {
        let tap = taps.get(*index);
        tap.is_some_and(|tap| matches!(tap.what, What::Fault { .. }))
    });
    let stretches = &timeline.stretches;
    let unnamed = stretches.iter().filter(|stretch| stretch.step.is_none());
    let unnamed: u64 = unnamed.map(|stretch| stretch.to_ms - stretch.from_ms).sum();
    let other =
        (unnamed > 0).then(|| lane(stretches, None, "No step named".to_owned(), spoken(unnamed)));
    let lanes = timeline.steps.iter().map(|time| {
        let heats = heats_words(time);
        let took = (time.ms > 0).then(|| spoken(time.ms));
        let words: Vec<String> = [Some(heats), took]
            .into_iter()
            .flatten()
            .filter(|text| !text.is_empty())
            .collect();
        lane(
            stretches,
            Some(&time.step),
            step_name(rubric, &time.step),
            words.join(", "),
        )
    });
    let lanes: Vec<StepLane> = other.into_iter().chain(lanes).collect();
    let said = lanes
        .iter()
        .map(|lane| format!("{}: {}", lane.label, lane.words));
    Some(heat_lanes(&HeatLanes {
        description: said.collect::<Vec<String>>().join("; "),
        end: minutes(end),
        limit: limit_ms(rubric, facts).map(|limit| minutes(limit + paused)),
        faults: faults.map(|(ms, _)| minutes(*ms)).collect(),
        title: "When each step was worked on, in minutes from the start".to_owned(),
        lanes,
    }))
}

fn minutes(ms: u64) -> f64 {
    ms as f64 / 60_000.0
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
        fire: at(&[Place::Fire]),
        anvil: at(&[Place::Anvil, Place::Elsewhere]),
        welds: welds.map(|stretch| minutes(stretch.from_ms)).collect(),
    }
}
