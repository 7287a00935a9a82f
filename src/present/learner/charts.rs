use std::collections::BTreeMap;

use super::super::scores::Score;
use super::works::Work;
use crate::chart::{Drawing, PassMark, ProgressPoint, progress};
use crate::records::{Day, Ledger};

/// A chart with its words.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What it shows.
    pub heading: String,
    /// The drawing.
    pub drawing: Drawing,
    /// What stands below it.
    pub caption: String,
}

pub(super) fn charts(ledger: &Ledger, sealed: &[Work<'_>], scores: &[Option<Score>]) -> Vec<Chart> {
    let mut by_rubric: BTreeMap<&str, Vec<(&Work<'_>, Day, &Score)>> = BTreeMap::new();
    // Oldest first, as they stand on the chart.
    for (work, score) in sealed.iter().zip(scores).rev() {
        let rubric = ledger.rubric(&work.piece.rubric);
        if let (Some(rubric), Some(day), Some(score)) = (rubric, work.day, score) {
            let drawn = by_rubric.entry(&rubric.rubric_id).or_default();
            drawn.push((work, day, score));
        }
    }
    let mut charts: Vec<_> = by_rubric
        .into_values()
        .filter_map(|drawn| chart(ledger, &drawn))
        .collect();
    charts.sort_unstable_by(|one, other| one.heading.cmp(&other.heading));
    charts
}

fn chart(ledger: &Ledger, drawn: &[(&Work<'_>, Day, &Score)]) -> Option<Chart> {
    let (newest, _, latest) = drawn.last()?;
    let (_, _, first) = drawn.first()?;
    let title = &ledger.rubric(&newest.piece.rubric)?.title;
    let heading = format!("{title} over time");
    let points: Vec<_> = drawn
        .iter()
        .map(|(_, day, score)| ProgressPoint {
            date: day.date(),
            percent: score.percent,
            stopped: score.stopped,
        })
        .collect();
    let pass = latest.pass_percent.map(|percent| PassMark {
        percent,
        label: format!("pass {}", latest.pass_words),
    });
    let pieces = match drawn.len() {
        1 => format!("One piece, {} of {}", latest.marks, latest.out_of),
        count => format!(
            "{count} pieces, from {} of {} at first to {} of {} at last",
            first.marks, first.out_of, latest.marks, latest.out_of
        ),
    };
    let open = if points.iter().any(|point| point.stopped) {
        "; an open one was stopped"
    } else {
        ""
    };
    Some(Chart {
        drawing: progress(
            heading.clone(),
            format!(
                "{pieces}; the pass mark is {}. The pieces are listed below.",
                latest.pass_words
            ),
            &points,
            pass.as_ref(),
        ),
        heading,
        caption: format!("Each dot is one piece{open}. Marks in per cent of what could be had."),
    })
}
