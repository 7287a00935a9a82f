//! One error may cost only so much over several criteria: charged once.

use crate::quantity::Marks;
use crate::rubric::{CauseGroup, Entry, Rubric};

use super::entry::Judgement;
use super::result::CauseResult;
use super::words::also;

/// Gives back what a cause group took beyond its cap, group by group and, where
/// the piece has several shoes, shoe by shoe. The largest loss is charged
/// first; of equal losses the first in the rubric's order. `None` on overflow.
pub(super) fn charge_once(
    rubric: &Rubric,
    entries: &[Entry<'_>],
    judgements: &mut [Judgement],
) -> Option<Vec<CauseResult>> {
    let mut results = Vec::new();
    for group in &rubric.causes {
        let mut shoes: Vec<Option<&str>> = Vec::new();
        for entry in entries.iter().filter(|entry| belongs(entry, group)) {
            let shoe = entry.shoe.map(|shoe| shoe.id.as_str());
            if !shoes.contains(&shoe) {
                shoes.push(shoe);
            }
        }
        for shoe in shoes {
            let of_shoe = |entry: &Entry<'_>| {
                belongs(entry, group) && entry.shoe.map(|shoe| shoe.id.as_str()) == shoe
            };
            let members = entries.iter().zip(judgements.iter_mut());
            let members = members.filter(|(entry, _)| of_shoe(entry));
            results.extend(charge(
                group,
                members.map(|(_, judgement)| judgement).collect(),
            )?);
        }
    }
    Some(results)
}

fn belongs(entry: &Entry<'_>, group: &CauseGroup) -> bool {
    entry.criterion.cause.as_deref() == Some(group.id.as_str())
}

/// `Some(None)` where the group stayed under its cap.
fn charge(group: &CauseGroup, members: Vec<&mut Judgement>) -> Option<Option<CauseResult>> {
    let mut losses = Vec::new();
    let mut marked = Vec::new();
    for judgement in members {
        if let Some(marks) = judgement.result.marks {
            losses.push(judgement.result.out_of.minus(marks)?);
            marked.push(judgement);
        }
    }
    let lost = Marks::sum(losses.iter().copied())?;
    if lost <= group.most {
        return Some(None);
    }
    for (back, judgement) in given_back(group.most, &losses)?.into_iter().zip(marked) {
        if back > Marks::ZERO {
            let result = &mut judgement.result;
            result.marks = Some(result.marks?.plus(back)?);
            result.given_back = back;
            let words = format!("{back} given back, charged once for {}", group.name);
            for why in [&mut result.reason, &mut result.because] {
                also(why, &words);
            }
        }
    }
    Some(Some(CauseResult {
        name: group.name.clone(),
        lost,
        charged: group.most,
    }))
}

/// What each of the `losses` of one cause gets back so that they cost `most` together;
/// `None` on overflow.
pub(super) fn given_back(most: Marks, losses: &[Marks]) -> Option<Vec<Marks>> {
    let mut order: Vec<(usize, Marks)> = losses.iter().copied().enumerate().collect();
    order.sort_by(|(_, a), (_, b)| b.cmp(a));
    let mut back = vec![Marks::ZERO; losses.len()];
    let mut left = most;
    for (index, loss) in order {
        let charged = loss.min(left);
        left = left.minus(charged)?;
        if let Some(place) = back.get_mut(index) {
            *place = loss.minus(charged)?;
        }
    }
    Some(back)
}
