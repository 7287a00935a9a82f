use super::Charted;
use crate::chart::{Drawing, Flag, flagged};
use crate::records::Day;
use crate::sheet::document::{Cell, Fact, Group};
use crate::sheet::words::join;

/// A milestone as it is shown: under a number that stands on charts too.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MilestoneShown {
    /// Its number, from 1 for the oldest that is shown.
    pub number: usize,
    /// When it was.
    pub day: Day,
    /// What it was.
    pub text: String,
}

impl MilestoneShown {
    fn flag(&self) -> Flag {
        let Self { number, day, text } = self;
        Flag {
            date: day.date(),
            number: *number,
            words: format!("Milestone {number}, {day}: {text}"),
        }
    }

    fn is_one_of(&self, flags: &[&Flag]) -> bool {
        flags.iter().any(|flag| flag.number == self.number)
    }
}

/// `chart` with a numbered flag for each milestone that lies between its first day and its
/// last, in its words and in its table too.
///
/// *Shape:* `milestones` oldest first.
pub fn with_milestones(chart: Charted, milestones: &[MilestoneShown]) -> Charted {
    let flags = flags_of(milestones);
    let (drawing, flown) = flown(chart.drawing, &flags);
    if flown.is_empty() {
        return Charted { drawing, ..chart };
    }
    let mut table = chart.table;
    let wide = table.columns.len();
    let shown = milestones.iter().filter(|one| one.is_one_of(&flown));
    table.groups.push(Group {
        heading: "Milestones".to_owned(),
        rows: shown.map(|one| row(one, wide)).collect(),
    });
    Charted {
        drawing,
        caption: join([&*chart.caption, "Numbered flags: milestones."], " "),
        table,
        ..chart
    }
}

/// A drawing alone with these flags, in its words too.
pub(super) fn with_flags(drawing: Drawing, milestones: &[MilestoneShown]) -> Drawing {
    flown(drawing, &flags_of(milestones)).0
}

fn flags_of(milestones: &[MilestoneShown]) -> Vec<Flag> {
    milestones.iter().map(MilestoneShown::flag).collect()
}

fn flown(drawing: Drawing, flags: &[Flag]) -> (Drawing, Vec<&Flag>) {
    let (mut drawing, flown) = flagged(drawing, flags);
    let told = flown.iter().map(|flag| format!("{}.", flag.words));
    drawing.description = join(std::iter::once(drawing.description).chain(told), " ");
    (drawing, flown)
}

/// A row of a chart's table, which is two columns wide or more.
fn row(milestone: &MilestoneShown, wide: usize) -> Vec<Cell> {
    let MilestoneShown { number, day, text } = milestone;
    let said = [
        Cell::text(day.to_string()),
        Cell::text(format!("{number}: {text}")),
    ];
    let rest = std::iter::repeat_n(Cell::text("–"), wide.saturating_sub(2));
    said.into_iter().chain(rest).collect()
}

/// Milestones in few lines, for one page of paper, and how many earlier ones are left out;
/// `None` where there are none.
pub(super) fn milestones_facts(
    milestones: &[MilestoneShown],
    left_out: usize,
) -> Option<Vec<Fact>> {
    let earlier = (left_out > 0).then(|| Fact {
        label: "Earlier milestones".into(),
        value: format!("{left_out}, on the learner’s page"),
    });
    let facts = milestones.iter().map(|one| Fact {
        label: format!("Milestone {}, {}", one.number, one.day).into(),
        value: one.text.clone(),
    });
    (!milestones.is_empty()).then(|| earlier.into_iter().chain(facts).collect())
}
