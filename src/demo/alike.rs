//! The day on which the school's examiners mark the same pieces, each by himself or herself,
//! to see whether they mark alike.

use super::plan::{DAY_MS, Planned};

/// One piece of that day: how well it is made, in thousandths, and which of the three
/// examiners mark it, in their order.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shared {
    pub skill: i64,
    pub by: &'static [usize],
}

/// From poor to good in no order. Any two examiners mark five of them or more.
pub(super) const SHARED: [Shared; 8] = [
    shared(560, &[0, 1, 2]),
    shared(820, &[0, 1]),
    shared(430, &[1, 2, 0]),
    shared(700, &[1, 2]),
    shared(900, &[2, 0, 1]),
    shared(350, &[2, 0]),
    shared(640, &[0, 2, 1]),
    shared(760, &[1, 0]),
];

const fn shared(skill: i64, by: &'static [usize]) -> Shared {
    Shared { skill, by }
}

/// The rubric that most pieces are planned by; of several the first.
pub(super) fn rubric_of_most(plan: &[Planned], rubrics: usize) -> usize {
    let pieces = |rubric: usize| plan.iter().filter(|one| one.rubric == rubric).count();
    // Of equals the last is found, so it is looked for from behind.
    (0..rubrics)
        .rev()
        .max_by_key(|one| pieces(*one))
        .unwrap_or(0)
}

/// Before which piece of the plan the day is held, and when its forge opens: in the latest
/// gap of four days or more before the last fortnight, two days into it. Nothing where there
/// is none.
///
/// *Shape:* `plan` as the days come.
pub(super) fn day_between(plan: &[Planned]) -> Option<(usize, i64)> {
    let last = plan.last()?.opens;
    let gaps = plan.iter().zip(plan.iter().skip(1)).enumerate();
    let mut wide = gaps.filter(|(_, (one, next))| {
        next.opens - one.opens >= 4 * DAY_MS && next.opens <= last - 14 * DAY_MS
    });
    let (at, (one, _)) = wide.next_back()?;
    Some((at + 1, one.opens + 2 * DAY_MS))
}
