use super::{figure, number, outcome_cells, text};
use crate::progress::{Made, OutcomeEvidence, PieceEvidence, UnitEvidence};
use crate::sheet::document::{
    Block, Cell, CellRole, Column, Document, Fact, Group, Pictured, Table, Weight,
};
use crate::sheet::scored::{heading, notice};
use crate::sheet::words::join;

/// What a portfolio is made of.
#[derive(Debug)]
pub struct Portfolio<'a> {
    /// The learner, as sheets name them.
    pub name: String,
    /// Short facts about them.
    pub facts: Vec<Fact>,
    /// The day that it is made on, in words.
    pub day: String,
    /// What the chosen pieces show, unit by unit.
    pub units: &'a [UnitEvidence<'a>],
    /// The chosen pieces, oldest first.
    pub pieces: Vec<PortfolioPiece<'a>>,
}

/// A piece of a portfolio.
#[derive(Debug)]
pub struct PortfolioPiece<'a> {
    /// What it comes to.
    pub made: &'a Made<'a>,
    /// Who marked it.
    pub examiner: String,
    /// The first letters of its seal's digest, to find the sheet by.
    pub digest: String,
    /// Photos of it.
    pub photos: Vec<Pictured>,
}

/// What is set where an outcome has no piece.
const NO_PIECE: &str = "No piece yet";

/// The evidence of one learner: by unit and outcome, with what is missing, places for dated
/// initials, then the pieces with their photos.
pub fn portfolio(portfolio: &Portfolio<'_>) -> Document {
    let mut blocks = vec![Block::Facts(portfolio.facts.clone())];
    blocks.extend(gaps(portfolio.units));
    for unit in portfolio
        .units
        .iter()
        .filter(|unit| !unit.outcomes.is_empty())
    {
        blocks.push(heading(&join([unit.code, unit.title], ", ")));
        blocks.push(Block::Table(unit_table(unit)));
    }
    blocks.push(heading("Pieces"));
    if portfolio.pieces.is_empty() {
        blocks.push(Block::Paragraph("No piece was chosen.".to_owned()));
    }
    for piece in &portfolio.pieces {
        blocks.extend(told(piece));
    }
    blocks.push(Block::Signatures(vec![
        "Learner, date".to_owned(),
        "Examiner, date".to_owned(),
        "For the college, date".to_owned(),
    ]));
    Document {
        title: portfolio.name.clone(),
        about: format!("Portfolio, {}", portfolio.day),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

/// What no chosen piece shows, in one place.
fn gaps(units: &[UnitEvidence<'_>]) -> Option<Block> {
    let all: usize = units.iter().map(|unit| unit.outcomes.len()).sum();
    let missing = units.iter().flat_map(|unit| {
        let gaps = unit
            .outcomes
            .iter()
            .filter(|outcome| outcome.pieces.is_empty());
        gaps.map(|outcome| outcome_words(outcome))
    });
    let missing: Vec<String> = missing.collect();
    match (all, missing.len()) {
        (0, _) => Some(notice(
            Weight::Info,
            "The rubrics of these pieces name no outcomes of a qualification.",
            Vec::new(),
        )),
        (_, 0) => None,
        (all, count) => Some(notice(
            Weight::Warn,
            format!("{count} of {all} outcomes have no piece yet."),
            missing,
        )),
    }
}

fn outcome_words(outcome: &OutcomeEvidence<'_>) -> String {
    join([outcome.code, outcome.text], " ")
}

fn unit_table(unit: &UnitEvidence<'_>) -> Table {
    let groups = unit.outcomes.iter().map(|outcome| Group {
        heading: outcome_words(outcome),
        rows: if outcome.pieces.is_empty() {
            vec![gap_row()]
        } else {
            outcome.pieces.iter().map(evidence_row).collect()
        },
    });
    Table {
        caption: "Pieces that give evidence, with marks of the criteria that do".to_owned(),
        columns: vec![
            text("Date"),
            text("Rubric"),
            number("Marks"),
            text("Award"),
            Column {
                title: "Initials, date".into(),
                role: CellRole::Blank,
            },
        ],
        groups: groups.collect(),
        foot: Vec::new(),
    }
}

fn gap_row() -> Vec<Cell> {
    let mut row = vec![Cell::new(CellRole::Quiet, NO_PIECE)];
    row.resize(5, Cell::text(""));
    row
}

fn evidence_row(shown: &PieceEvidence<'_>) -> Vec<Cell> {
    let [_, _, _, award] = outcome_cells(shown.made);
    vec![
        Cell::text(shown.made.day.to_string()),
        Cell::text(shown.made.rubric.title.clone()),
        figure(format!("{} of {}", shown.marks, shown.out_of)),
        award,
        Cell::new(CellRole::Blank, ""),
    ]
}

fn told(piece: &PortfolioPiece<'_>) -> Vec<Block> {
    let made = piece.made;
    let [sitting, marks, percent, award] = outcome_cells(made);
    let fact = |label: &'static str, value: String| Fact {
        label: label.into(),
        value,
    };
    let facts = [
        fact("Made for", sitting.text),
        fact("Marks", format!("{}, {}", marks.text, percent.text)),
        fact("Award", award.text),
        fact("Marked by", piece.examiner.clone()),
        fact("Digest of its sheet begins", piece.digest.clone()),
    ];
    let mut blocks = vec![
        Block::Heading {
            level: 3,
            text: format!("{}, {}", made.day, made.rubric.title),
        },
        Block::Facts(
            facts
                .into_iter()
                .filter(|fact| !fact.value.is_empty())
                .collect(),
        ),
    ];
    if !piece.photos.is_empty() {
        blocks.push(Block::Pictures(piece.photos.clone()));
    }
    blocks
}
