use num_integer::Integer;

use crate::quantity::{Exact, Marks};

use super::Entry;
use super::model::{BeyondAllowance, Kind, Rubric, Section};

/// What a section can give at most, step by step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SectionTotals {
    /// Sum over its entries, criterion weights counted.
    pub sum: Marks,
    /// The same under the section's cap.
    pub capped: Marks,
    /// What it counts in the total.
    pub counted: Marks,
}

impl Rubric {
    /// Most marks of one section, all its entries applying; `None` on overflow.
    pub fn section_totals(&self, section: &Section) -> Option<SectionTotals> {
        totals(section, &self.entries())
    }

    /// Most marks of the whole rubric; `None` on overflow.
    pub fn out_of(&self) -> Option<Marks> {
        let entries = self.entries();
        self.sections.iter().try_fold(Marks::ZERO, |sum, section| {
            sum.plus(totals(section, &entries)?.counted)
        })
    }

    /// The least common denominator of every number of marks that can come
    /// about; `None` where it passes what can be held.
    pub fn common_denominator(&self) -> Option<i128> {
        let mut common = 1_i128;
        for section in &self.sections {
            let totals = self.section_totals(section)?;
            let factor = match section.weight {
                Some(weight) => weight.0.over(totals.capped.0).unwrap_or(Exact::ONE),
                None => Exact::ONE,
            };
            let limits = section
                .cap
                .into_iter()
                .chain(section.weight)
                .map(|marks| marks.0);
            let criteria = section.criteria.iter().flat_map(|criterion| {
                let faults = criterion
                    .faults
                    .iter()
                    .flat_map(|f| [Some(f.deduct), f.most]);
                let costs = faults.flatten().chain(deduction(&criterion.kind));
                let all = criterion.possible_marks().into_iter().chain(costs);
                all.map(|marks| marks.0.times(criterion.weight))
                    .collect::<Vec<_>>()
            });
            for marks in criteria.chain(limits.map(Some)) {
                common = lcm(common, marks?.times(factor)?.denominator())?;
            }
        }
        Some(common)
    }
}

fn totals(section: &Section, entries: &[Entry<'_>]) -> Option<SectionTotals> {
    let own = entries
        .iter()
        .filter(|entry| entry.section.id == section.id);
    let mut sum = Marks::ZERO;
    for entry in own {
        sum = sum.plus(entry.criterion.out_of()?)?;
    }
    let capped = section.cap.map_or(sum, |cap| cap.min(sum));
    Some(SectionTotals {
        sum,
        capped,
        counted: section.weight.unwrap_or(capped),
    })
}

fn deduction(kind: &Kind) -> Option<Marks> {
    match kind {
        Kind::Tally(tally) => match tally.beyond {
            BeyondAllowance::Deduct { marks, .. } => Some(marks),
            BeyondAllowance::AllMarks => None,
        },
        Kind::Faults(list) => Some(list.least),
        _ => None,
    }
}

fn lcm(a: i128, b: i128) -> Option<i128> {
    (a / a.gcd(&b)).checked_mul(b)
}
