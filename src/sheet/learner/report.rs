use super::{
    Charted, CourseFigures, PracticeShown, criteria_shown, held_words, marks_over_time, next_shown,
    number, outcome_cells, own_shown, plain_table, practice_shown, series_title, steps_shown,
    tallies_shown, text,
};
use crate::chart::Drawing;
use crate::progress::{Made, Pair, Series, all_series, shown_series};
use crate::sheet::document::{Block, Cell, Document, Fact, Item, Table, Weight};
use crate::sheet::scored::{heading, notice};
use crate::sheet::words::join;

/// How many of the latest pieces the table names, so that it all fits one page.
const LATEST: usize = 4;
/// How many making steps it shows, for the same reason.
const STEPS: usize = 6;

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
    /// How many more are marked and held back from them.
    pub held: usize,
    /// What takes long about the pieces by that rubric, where it is known.
    pub figures: Option<&'a CourseFigures>,
}

/// One page about one learner: what to practise, marks over time, heats and time, marks
/// lost by making step, the latest pieces.
pub fn learner_report(report: &Report<'_>) -> Document {
    let all = all_series(report.pieces);
    let mut blocks = vec![Block::Facts(report.facts.clone())];
    if report.held > 0 {
        blocks.push(notice(Weight::Info, held_words(report.held), Vec::new()));
    }
    match shown_series(&all, report.rubric) {
        Some(series) => blocks.extend(told(report, series)),
        None if report.held > 0 => {}
        None => blocks.push(notice(
            Weight::Info,
            "Nothing of theirs is marked and sealed yet.",
            Vec::new(),
        )),
    }
    blocks.push(Block::Signatures(vec![
        "Learner, date".to_owned(),
        "Examiner, date".to_owned(),
    ]));
    Document {
        title: report.name.clone(),
        about: format!("Learner’s record, {}", report.day),
        language: "en-GB".into(),
        blocks,
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
    blocks.push(heading("Each criterion"));
    blocks.push(Block::Paragraph(criteria_words(series)));
    blocks.push(heading("Latest pieces"));
    blocks.push(Block::Table(latest(report.pieces)));
    blocks
}

fn item(practice: &PracticeShown) -> Item {
    let cause = (!practice.cause.is_empty()).then(|| format!("Cause: {}", practice.cause));
    let remedy = (!practice.remedy.is_empty()).then(|| format!("Practise: {}", practice.remedy));
    let lines = [Some(practice.seen.clone()), cause, remedy];
    Item {
        lead: practice.name.clone(),
        lines: lines
            .into_iter()
            .flatten()
            .filter(|line| !line.is_empty())
            .collect(),
    }
}

/// The charts, each with its caption as its title.
fn drawings(report: &Report<'_>, series: &Series<'_>) -> Vec<Drawing> {
    let figures = report.figures;
    let marks = marks_over_time(series, figures.map_or(&[], |figures| &figures.within));
    // The heading over the drawings is its own.
    let marks = Charted {
        heading: String::new(),
        ..marks
    };
    let tallies = tallies_shown(series, figures.map_or(&[], |figures| &figures.curves));
    let steps = steps_shown(series, Some(STEPS));
    let own = own_shown(report.pairs).map(|own| own.chart);
    let charts = [marks].into_iter().chain(tallies).chain(steps).chain(own);
    charts
        .map(|chart| Drawing {
            title: join([chart.heading, chart.caption], ". "),
            ..chart.drawing
        })
        .collect()
}

/// The latest marks of each criterion: `Toe bend 4 of 4, width 3 of 4`.
fn criteria_words(series: &Series<'_>) -> String {
    let sections = criteria_shown(series);
    let sections = sections.iter().map(|section| {
        let criteria = section.criteria.iter();
        let said = criteria.map(|criterion| format!("{} {}", criterion.name, criterion.latest));
        format!(
            "{}: {}.",
            section.heading,
            said.collect::<Vec<_>>().join(", ")
        )
    });
    sections.collect::<Vec<_>>().join(" ")
}

fn latest(pieces: &[Made<'_>]) -> Table {
    let rows = pieces.iter().rev().take(LATEST).map(|made| {
        let which = [made.day.to_string(), made.rubric.title.clone()].map(Cell::text);
        which.into_iter().chain(outcome_cells(made)).collect()
    });
    let caption = match pieces.len() {
        count if count > LATEST => format!("The latest {LATEST} of {count} pieces"),
        count => super::pieces(count),
    };
    plain_table(
        caption,
        vec![
            text("Date"),
            text("Rubric"),
            text("Sitting"),
            number("Marks"),
            number("Per cent"),
            text("Award"),
        ],
        rows.collect(),
    )
}
