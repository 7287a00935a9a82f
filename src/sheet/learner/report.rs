use std::cmp::Reverse;

use super::ready::standing_of;
use super::{
    Charted, CourseFigures, CriterionShown, MilestoneShown, PracticeShown, criteria_shown,
    held_words, marks_over_time, milestones_facts, next_shown, own_shown, practice_shown,
    series_title, steps_shown, tallies_shown, with_flags,
};
use crate::chart::Drawing;
use crate::progress::{Made, Pair, Series, all_series, shown_series};
use crate::sheet::document::{Block, Document, Fact, Item, Weight};
use crate::sheet::scored::{heading, notice};
use crate::sheet::words::{capital, join};

/// How many criteria it names, so that it all fits one page.
const CRITERIA: usize = 5;
/// How many making steps it shows, for the same reason.
const STEPS: usize = 3;

/// What a learner's page to print is made of.
#[derive(Debug)]
pub struct Report<'a> {
    /// The learner, as sheets name them.
    pub name: String,
    /// Short facts about them.
    pub facts: Vec<Fact>,
    /// The day that it is printed on, in words.
    pub day: String,
    /// Their pieces, oldest first.
    pub pieces: &'a [Made<'a>],
    /// Those that they marked themselves too, oldest first.
    pub pairs: &'a [Pair<'a>],
    /// The rubric to tell about, by its own id; see [`shown_series`].
    pub rubric: Option<&'a str>,
    /// What happened in these days of their training, oldest first: the latest of them.
    pub milestones: &'a [MilestoneShown],
    /// How many earlier ones there are in these days.
    pub left_out: usize,
    /// How many more are marked and held back from them.
    pub held: usize,
    /// What takes long about the pieces by that rubric, where it is known.
    pub figures: Option<&'a CourseFigures>,
}

/// One page about one learner: how they stand, what to practise, marks over time, heats and
/// time, marks lost by making step, where there is most to win, milestones.
pub fn learner_report(report: &Report<'_>) -> Document {
    let all = all_series(report.pieces);
    let shown = shown_series(&all, report.rubric);
    let facts = report.facts.iter().cloned();
    let mut blocks = vec![Block::Facts(facts.chain(shown.map(standing)).collect())];
    if report.held > 0 {
        blocks.push(notice(Weight::Info, held_words(report.held), Vec::new()));
    }
    match shown {
        Some(series) => blocks.extend(told(report, series)),
        None if report.held > 0 => {}
        None => blocks.push(notice(
            Weight::Info,
            "Nothing of theirs is marked and sealed yet.",
            Vec::new(),
        )),
    }
    let noted = milestones_facts(report.milestones, report.left_out);
    blocks.extend(noted.map(Block::Series));
    blocks.push(Block::Signatures(vec![
        "Learner, date".to_owned(),
        "Examiner, date".to_owned(),
    ]));
    Document {
        title: report.name.clone(),
        about: format!("Learner’s record, {}", report.day),
        language: "en-GB".into(),
        most_pages: Some(1),
        blocks,
    }
}

/// `Standing: on the way`.
fn standing(series: &Series<'_>) -> Fact {
    Fact {
        label: "Standing".into(),
        value: capital(standing_of(series).standing.word()),
    }
}

fn told(report: &Report<'_>, series: &Series<'_>) -> Vec<Block> {
    let practice = practice_shown(report.pieces);
    let mut blocks = Vec::new();
    if !practice.is_empty() {
        blocks.push(heading("To practise next"));
        blocks.push(Block::Items(practice.iter().map(item).collect()));
    }
    blocks.push(heading(&format!("{} over time", series_title(series))));
    blocks.push(Block::Drawings(drawings(report, series)));
    // One page has room for one: that of the latest purpose that has a figure.
    let mut next = next_shown(series).into_iter();
    let next = next.find(|next| next.has_figure);
    blocks.extend(next.map(|next| Block::Paragraph(format!("{}: {}", next.name, next.words))));
    blocks.push(Block::Paragraph(criteria_words(series)));
    blocks
}

fn item(practice: &PracticeShown) -> Item {
    let cause = (!practice.cause.is_empty()).then(|| format!("Cause: {}", practice.cause));
    let remedy = (!practice.remedy.is_empty()).then(|| format!("Practise: {}", practice.remedy));
    let seen = [practice.seen.clone(), cause.unwrap_or_default()];
    let lines = [join(seen, ". "), remedy.unwrap_or_default()];
    Item {
        lead: practice.name.clone(),
        lines: lines.into_iter().filter(|line| !line.is_empty()).collect(),
    }
}

/// The charts, each with its caption as its title.
fn drawings(report: &Report<'_>, series: &Series<'_>) -> Vec<Drawing> {
    let within = report.figures.map_or(&[][..], |figures| &figures.within);
    let marks = marks_over_time(series, within);
    // The heading over the drawings is its own.
    let marks = Charted {
        heading: String::new(),
        ..marks
    };
    // A page has no room for what is said of curves; the screen has.
    let tallies = tallies_shown(series, &[]);
    let steps = steps_shown(series, Some(STEPS));
    let own = own_shown(report.pairs).map(|own| own.chart);
    let charts = [marks].into_iter().chain(tallies).chain(steps).chain(own);
    let mut drawings = charts.map(|chart| Drawing {
        title: join([chart.heading, chart.caption], ". "),
        ..chart.drawing
    });
    // Flags take height, and one page has it for the chart that comes first.
    let marks = drawings.next();
    let marks = marks.map(|marks| with_flags(marks, report.milestones));
    marks.into_iter().chain(drawings).collect()
}

/// The criteria in which there is most to win, the most first: `Most to win, marks of the
/// total a piece: Toe bend 2 of 4, to win 1.7; width 3 of 4, to win 1.`
fn criteria_words(series: &Series<'_>) -> String {
    let sections = criteria_shown(series);
    let all = sections.iter().flat_map(|section| &section.criteria);
    let mut all: Vec<&CriterionShown> = all.filter(|one| !one.to_win.is_empty()).collect();
    all.sort_by_key(|one| Reverse(one.wins));
    let said = all.iter().take(CRITERIA);
    let said = said.map(|one| format!("{} {}, {}", one.name, one.latest, one.to_win));
    match said.collect::<Vec<_>>() {
        none if none.is_empty() => "The latest pieces lost no marks.".to_owned(),
        said => format!(
            "Most to win, marks of the total a piece: {}.",
            said.join("; ")
        ),
    }
}
