//! Heat logs of some learners' pieces: the first were not watched, of some the heats were entered
//! afterwards, the later ones were tapped.
//!
//! A log comes to what is typed in the tallies, and takes no chance of the school's: whatever else
//! is drawn is what it would be without it.

use std::collections::BTreeMap;

use super::amount::minutes_text;
use super::chance::Chance;
use super::piece::Made;
use super::plan::{Course, Planned};
use crate::command::Edit;
use crate::marking::heat_log::{Afterwards, Stop, Tap, What};
use crate::quantity::{Moment, Quantity};
use crate::rubric::{Kind, Rubric, TallyOf};

/// Whose making is watched, by their number.
const WATCHED: [usize; 3] = [0, 1, 5];
/// From this piece on heats are entered afterwards, and from that on tapped.
const FROM: (i64, i64) = (2, 5);
/// More heats in a piece are not made up.
const MOST_HEATS: usize = 40;
/// Added to a skill for each heat that a step has, so that not all go to one.
const SPREAD: i64 = 120;
/// From the end of making until somebody marks it, in milliseconds.
const COOLS: i64 = 10 * 60_000;

/// One trip to the fire.
#[derive(Debug, Clone)]
struct Heat {
    step: Option<String>,
    weld: bool,
}

/// What the tallies say.
struct Counted {
    heats: usize,
    welds: usize,
    time: Quantity,
}

/// What was entered or tapped while a planned piece was made; nothing where nobody watched, or its
/// sheet counts neither heats nor time.
pub(super) fn watched(
    rubric: &Rubric,
    planned: &Planned,
    made: &Made,
    skill: &dyn Fn(Option<&str>) -> i64,
) -> Vec<Edit> {
    let is_whole = matches!(
        planned.course,
        Course::Marked | Course::Twice | Course::OwnFirst
    );
    let (entered, tapped) = FROM;
    if !is_whole || planned.piece < entered || !WATCHED.contains(&planned.learner) {
        return Vec::new();
    }
    let Some(counted) = counted(rubric, made) else {
        return Vec::new();
    };
    let Some(heats) = heats(rubric, &counted, skill) else {
        return Vec::new();
    };
    if planned.piece < tapped {
        let afterwards = Some(afterwards(&heats, &counted));
        return vec![Edit::SetAfterwards { afterwards }];
    }
    let taps = taps(&heats, &counted, planned.opens, made.ran_out);
    taps.into_iter().map(|tap| Edit::Tap { tap }).collect()
}

fn counted(rubric: &Rubric, made: &Made) -> Option<Counted> {
    let mut by_tally: BTreeMap<&str, Quantity> = BTreeMap::new();
    for entry in rubric.entries() {
        let Kind::Tally(tally) = &entry.criterion.kind else {
            continue;
        };
        let is_valued = !made.states.contains_key(&entry.id);
        let counted = made.tallies.get(&entry.id).filter(|_| is_valued);
        if let (Some(of), Some(counted)) = (tally.counts, counted) {
            by_tally.insert(key(of), *counted);
        }
    }
    let count = |of| {
        let counted: Option<&Quantity> = by_tally.get(key(of));
        usize::try_from(counted?.base.numerator()).ok()
    };
    let planned = || rubric.heats.iter().filter(|heats| heats.weld);
    let planned = || planned().fold(0_u32, |sum, heats| sum.saturating_add(heats.count));
    let welds = count(TallyOf::WeldHeats).or_else(|| usize::try_from(planned()).ok())?;
    let heats = count(TallyOf::Heats)?;
    (welds <= heats && heats <= MOST_HEATS).then_some(Counted {
        heats,
        welds,
        time: *by_tally.get(key(TallyOf::Time))?,
    })
}

fn key(of: TallyOf) -> &'static str {
    match of {
        TallyOf::Heats => "heats",
        TallyOf::WeldHeats => "weld heats",
        TallyOf::Time => "time",
    }
}

/// The rubric's plan with heats more where the learner is weak, or fewer where strong; `None`
/// where it plans none.
fn heats(
    rubric: &Rubric,
    counted: &Counted,
    skill: &dyn Fn(Option<&str>) -> i64,
) -> Option<Vec<Heat>> {
    let plan = rubric.heats.iter().flat_map(|heats| {
        let heat = Heat {
            step: heats.step.clone(),
            weld: heats.weld,
        };
        let count = usize::try_from(heats.count).unwrap_or(0);
        std::iter::repeat_n(heat, count.min(MOST_HEATS))
    });
    let mut heats: Vec<Heat> = plan.collect();
    fit(&mut heats, true, counted.welds, skill)?;
    fit(&mut heats, false, counted.heats - counted.welds, skill)?;
    Some(heats)
}

fn fit(
    heats: &mut Vec<Heat>,
    weld: bool,
    wanted: usize,
    skill: &dyn Fn(Option<&str>) -> i64,
) -> Option<()> {
    loop {
        let of_step = |step: &Option<String>| heats.iter().filter(|one| one.step == *step).count();
        let ease = |(_, heat): &(usize, &Heat)| {
            let had = i64::try_from(of_step(&heat.step)).unwrap_or(0);
            skill(heat.step.as_deref()) + SPREAD * had
        };
        let of_kind = heats.iter().enumerate().filter(|(_, one)| one.weld == weld);
        let count = of_kind.clone().count();
        if count == wanted {
            return Some(());
        }
        if count < wanted {
            let (at, heat) = of_kind.min_by_key(ease)?;
            let again = heat.clone();
            heats.insert(at, again);
        } else {
            let (at, _) = of_kind.max_by_key(ease)?;
            heats.remove(at);
        }
    }
}

fn afterwards(heats: &[Heat], counted: &Counted) -> Afterwards {
    let mut by_step: BTreeMap<String, usize> = BTreeMap::new();
    for heat in heats {
        *by_step
            .entry(heat.step.clone().unwrap_or_default())
            .or_default() += 1;
    }
    let by_step = by_step.into_iter();
    Afterwards {
        heats: by_step
            .map(|(step, heats)| (step, heats.to_string()))
            .collect(),
        weld_heats: (counted.welds > 0).then(|| counted.welds.to_string()),
        time: Some(minutes_text(counted.time)),
        at_the_fire: None,
    }
}

/// Every heat as long as the time allows, some a little longer than others; all of it is over
/// before the forge `opens` for whoever marks.
fn taps(heats: &[Heat], counted: &Counted, opens: i64, ran_out: bool) -> Vec<Tap> {
    let took = i64::try_from(counted.time.base.floor()).unwrap_or(0);
    let start = opens - COOLS - took;
    // Two examiners of a piece have the same log: one of them watched.
    let mut chance = Chance::of(opens.unsigned_abs());
    let parts: Vec<i64> = heats.iter().map(|_| 80 + chance.below(40)).collect();
    let whole: i64 = parts.iter().sum::<i64>().max(1);
    let at = |passed: i64| start + took * passed / whole;
    let mut taps = vec![tap(start, What::Start)];
    let (mut passed, mut on) = (0, None);
    for (heat, part) in heats.iter().zip(&parts) {
        if let Some(step) = heat.step.clone().filter(|step| Some(step) != on.as_ref()) {
            on = Some(step.clone());
            taps.push(tap(at(passed), What::Step { step }));
        }
        let fire = part * (55 + chance.below(10)) / 100;
        taps.push(tap(at(passed), What::Fire));
        taps.push(tap(at(passed + fire), What::Anvil { weld: heat.weld }));
        passed += part;
    }
    let end = if ran_out {
        What::Stopped {
            how: Stop::UnfinishedAtTime,
            reason: String::new(),
        }
    } else {
        What::Finished
    };
    taps.push(tap(start + took, end));
    taps
}

fn tap(ms: i64, what: What) -> Tap {
    Tap {
        at: Moment::new(ms, 0),
        run: None,
        what,
    }
}
