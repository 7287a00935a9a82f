use crate::chart::{Drawing, PlanPart, Side, shoe_plan};
use crate::piece::MadeShoe;
use crate::progress::{Made, Practice, to_practise};
use crate::rubric::{Fault, SeenFrom};
use crate::sheet::aim::aim_words;
use crate::sheet::capital;
use crate::sheet::tolerance::asked_words;

/// How many things to practise are named.
const MOST: usize = 3;

/// One thing to practise.
#[derive(Debug, Clone, PartialEq)]
pub struct PracticeShown {
    /// The criterion.
    pub name: String,
    /// How often it cost marks, and in which piece last.
    pub why: String,
    /// What was seen, or what is usual.
    pub seen: String,
    /// Its usual cause; may be empty.
    pub cause: String,
    /// What to practise; may be empty.
    pub remedy: String,
    /// The making step; may be empty.
    pub step: String,
    /// What is asked for, with the marks that it gives.
    pub asked: String,
    /// What gives all marks.
    pub aim: String,
    /// Where on the shoe it is, where that can be drawn.
    pub place: Option<Drawing>,
}

/// What to practise next, the costliest first.
///
/// *Shape:* `pieces` oldest first.
pub fn practice_shown(pieces: &[Made<'_>]) -> Vec<PracticeShown> {
    let practices = to_practise(pieces, MOST);
    practices.iter().map(shown).collect()
}

fn shown(practice: &Practice<'_>) -> PracticeShown {
    let (rubric, entry) = (&*practice.made.rubric, &practice.entry);
    let result = practice.made.outcome.criterion(&entry.id);
    let fault = practice.fault();
    let step = step_of(practice).and_then(|id| rubric.step(id));
    let marks = result.and_then(|result| Some((result.marks?, result.out_of)));
    let marks = marks.map(|(marks, out_of)| format!(", {marks} of {out_of}"));
    PracticeShown {
        name: entry.name(),
        why: format!(
            "{}. Last {}, {}{}.",
            how_often(practice.cost_in),
            practice.made.day,
            rubric.title,
            marks.unwrap_or_default()
        ),
        seen: seen(practice),
        cause: of(fault, |fault| &fault.cause),
        remedy: of(fault, |fault| &fault.remedy),
        step: step.map_or_else(String::new, |step| step.name.clone()),
        asked: result.map_or_else(String::new, |result| {
            asked_words(rubric, entry, result, rubric.unit)
        }),
        aim: result.map_or_else(String::new, |result| {
            capital(&aim_words(rubric, entry, result, rubric.unit))
        }),
        place: drawn(practice),
    }
}

/// The shade of what to practise: the darkest, which has no notches. It says where and not
/// how many marks were won, as a card lies where others read it.
const SHADE: u8 = 0;

/// The shoe as it is asked for, from the side where the criterion is seen, with its part
/// shaded; `None` of a criterion about no part.
fn drawn(practice: &Practice<'_>) -> Option<Drawing> {
    let (rubric, entry) = (&*practice.made.rubric, &practice.entry);
    let place = entry.criterion.place?;
    let shoe = entry.shoe.or(rubric.shoes.first())?;
    let shape = MadeShoe::of(&rubric.piece, shoe.drawn_foot()).ok()?;
    let side = match entry.criterion.seen_from {
        SeenFrom::FootSide => Side::Foot,
        _ => Side::Ground,
    };
    let part = PlanPart {
        place,
        href: None,
        label: capital(place.word()),
        rank: Some(SHADE),
    };
    let title = format!("{}, {}, toe up", capital(place.word()), side.word());
    Some(Drawing {
        description: format!("Shaded is what to practise at: {}.", place.word()),
        ..shoe_plan(&shape, side, &[part], &title)
    })
}

/// The step that the fault comes from where it was seen; else the criterion's own, or
/// that of the usual fault.
fn step_of<'a>(practice: &'a Practice<'_>) -> Option<&'a String> {
    let of_fault = practice.fault().and_then(|fault| fault.step.as_ref());
    let own = practice.entry.criterion.step.as_ref();
    if practice.faults.is_empty() {
        own.or(of_fault)
    } else {
        of_fault.or(own)
    }
}

fn of(fault: Option<&Fault>, part: fn(&Fault) -> &String) -> String {
    fault.map_or_else(String::new, |fault| capital(part(fault)))
}

/// It cost marks in so many of the latest pieces that ask for it.
fn how_often((cost, of): (usize, usize)) -> String {
    match (cost, of) {
        (1, 1) => "Cost marks in the latest piece that asks for it".to_owned(),
        (cost, of) if cost == of => {
            format!("Cost marks in each of the {of} latest pieces that ask for it")
        }
        (cost, of) => format!("Cost marks in {cost} of the {of} latest pieces that ask for it"),
    }
}

fn seen(practice: &Practice<'_>) -> String {
    let faults = practice.faults.iter().map(|seen| match seen.times {
        1 => seen.fault.name.clone(),
        times => format!("{} ({times} times)", seen.fault.name),
    });
    let faults: Vec<_> = faults.collect();
    match (faults.is_empty(), practice.fault()) {
        (false, _) => format!("Seen: {}", faults.join(", ")),
        (true, Some(usual)) => format!("No fault was noted. A usual one: {}", usual.name),
        (true, None) => String::new(),
    }
}
