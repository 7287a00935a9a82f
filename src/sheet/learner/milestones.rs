use super::{Charted, figure, text};
use crate::chart::{Flag, flagged};
use crate::records::Day;
use crate::sheet::document::{Cell, Group, Table, number, plain_table};
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
    let flags: Vec<Flag> = milestones.iter().map(MilestoneShown::flag).collect();
    let (mut drawing, flown) = flagged(chart.drawing, &flags);
    if flown.is_empty() {
        return Charted { drawing, ..chart };
    }
    let told = flown.iter().map(|flag| format!("{}.", flag.words));
    drawing.description = join(std::iter::once(drawing.description).chain(told), " ");
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

/// Milestones as a table; `None` where there are none. `of` is how many there are in all.
pub(super) fn milestones_table(milestones: &[MilestoneShown], of: usize) -> Option<Table> {
    let caption = match milestones.len() {
        shown if shown < of => format!("Milestones, the latest {shown} of {of}"),
        _ => "Milestones".to_owned(),
    };
    let rows = milestones.iter().map(|one| {
        vec![
            figure(one.number.to_string()),
            Cell::text(one.day.to_string()),
            Cell::text(one.text.clone()),
        ]
    });
    (!milestones.is_empty()).then(|| {
        plain_table(
            caption,
            vec![number("Flag"), text("Day"), text("What it was")],
            rows.collect(),
        )
    })
}
