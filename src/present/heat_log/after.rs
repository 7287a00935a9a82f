use std::collections::BTreeMap;

use crate::marking::Facts;
use crate::marking::heat_log::{Afterwards, PlannedPart};
use crate::quantity::{Dimension, Duration, Unit, read_quantity};
use crate::rubric::Rubric;

/// What is entered when the piece is done, and the plan that it was made to.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct AfterForm {
    /// For each making step that heats are planned for: its id, its name with what is planned,
    /// and the heats as typed.
    pub heats: Vec<(String, String, String)>,
    /// Weld heats as typed; `None` where the plan has none.
    pub weld_heats: Option<String>,
    /// The time as typed.
    pub time: String,
    /// Of it in the fire, as typed.
    pub at_the_fire: String,
    /// The plan: each part with its heats as typed.
    pub plan: Vec<(String, String)>,
    /// Whether the plan is not the rubric's.
    pub is_changed: bool,
}

/// The form as it stands in the facts.
pub fn after_form(rubric: &Rubric, facts: &Facts) -> AfterForm {
    let log = &facts.heat_log;
    let parts = log.parts(rubric);
    let none = Afterwards::default();
    let typed = log.afterwards.as_ref().unwrap_or(&none);
    let mut steps: Vec<(String, u32)> = Vec::new();
    for part in &parts {
        let id = part.step.clone().unwrap_or_default();
        match steps.iter_mut().find(|(step, _)| *step == id) {
            Some((_, count)) => *count = count.saturating_add(part.count),
            None => steps.push((id, part.count)),
        }
    }
    let heats = steps.into_iter().map(|(id, planned)| {
        let name = rubric.step(&id).map_or("Other heats", |step| &step.name);
        let heats = typed.heats.get(&id).cloned().unwrap_or_default();
        let label = format!("{name}, {planned} planned");
        (id, label, heats)
    });
    let has_welds = parts.iter().any(|part| part.weld);
    AfterForm {
        heats: heats.collect(),
        weld_heats: has_welds.then(|| typed.weld_heats.clone().unwrap_or_default()),
        time: typed.time.clone().unwrap_or_default(),
        at_the_fire: typed.at_the_fire.clone().unwrap_or_default(),
        plan: parts
            .iter()
            .map(|part| (part.part.clone(), part.count.to_string()))
            .collect(),
        is_changed: log.plan.is_some(),
    }
}

/// What a form says; `None` where nothing is typed in it.
pub fn after_typed(form: &AfterForm) -> Option<Afterwards> {
    // As typed: a space at the end may be followed by a unit.
    let said = |text: &str| (!text.trim().is_empty()).then(|| text.to_owned());
    let heats = form.heats.iter();
    let heats = heats.filter_map(|(step, _, text)| Some((step.clone(), said(text)?)));
    let typed = Afterwards {
        heats: heats.collect::<BTreeMap<_, _>>(),
        weld_heats: form.weld_heats.as_deref().and_then(said),
        time: said(&form.time),
        at_the_fire: said(&form.at_the_fire),
    };
    (typed != Afterwards::default()).then_some(typed)
}

/// The plan with another count for one part. The rubric's own where nothing differs any more.
///
/// # Errors
///
/// What cannot be a count of heats, with what would do.
pub fn with_planned(
    rubric: &Rubric,
    facts: &Facts,
    part: usize,
    typed: &str,
) -> Result<Option<Vec<PlannedPart>>, String> {
    let count: u32 = typed
        .trim()
        .parse()
        .ok()
        .filter(|count| *count <= 99)
        .ok_or_else(|| {
            format!(
                "`{}` cannot be a number of heats; write 0 to 99",
                typed.trim()
            )
        })?;
    let mut parts = facts.heat_log.parts(rubric);
    if let Some(part) = parts.get_mut(part) {
        part.count = count;
    }
    Ok((parts != PlannedPart::of(rubric)).then_some(parts))
}

/// What is wrong with heats as typed, and what would do; nothing while nothing is typed.
pub fn heats_wrong(text: &str) -> String {
    if text.trim().is_empty() {
        return String::new();
    }
    match read_quantity(text, Dimension::Count, Unit::One) {
        Err(fault) => fault.to_string(),
        Ok(count) if count.base.is_negative() || count.base.denominator() != 1 => {
            format!("`{}` cannot be counted; write a whole number", text.trim())
        }
        Ok(_) => String::new(),
    }
}

/// What is wrong with a time as typed, and what would do; nothing while nothing is typed.
pub fn time_wrong(text: &str) -> String {
    if text.trim().is_empty() {
        return String::new();
    }
    match Duration::read(text) {
        Err(fault) => fault.to_string(),
        Ok(time) if time.base() < 0 => {
            format!("`{}` is below zero; write how long it was", text.trim())
        }
        Ok(_) => String::new(),
    }
}
