use super::{lacking_words, share_words};
use crate::chart::{Span, spans};
use crate::cohort::{Cohort, Spread, medians, spreads};
use crate::figures::Quartiles;
use crate::quantity::Marks;
use crate::sheet::document::{
    Block, Cell, CellRole, Column, Group, Table, figure, number, plain_table, text,
};
use crate::sheet::scored::heading;
use crate::sheet::words::whole_percent;

/// How the spread is worked out.
pub(super) const HOW: &str = "For each learner and criterion the median of the shares of the \
    marks in the latest pieces; over learners the least, the quartiles and the greatest \
    (Hyndman and Fan, Am. Stat. 50, 1996, 361, definition 7). Where many have all marks, the \
    criterion no longer tells good from better (ceiling); where many have none, it does not \
    tell poor from worse (floor).";

/// So many criteria stand side by side on paper.
const ABREAST: usize = 6;

/// How learners are spread over each criterion.
pub(super) fn blocks(cohort: &Cohort) -> Vec<Block> {
    let all = spreads(cohort);
    let known: Vec<(&Spread, &Quartiles)> = all
        .iter()
        .filter_map(|spread| Some((spread, spread.quartiles.as_ref().ok()?)))
        .collect();
    let Some(first) = all.first() else {
        return Vec::new();
    };
    let mut blocks = vec![heading("Spread over each criterion")];
    if known.is_empty() {
        let why = first.quartiles.as_ref().err().map(lacking_words);
        blocks.push(Block::Paragraph(why.unwrap_or_default()));
        return blocks;
    }
    let drawn = known.iter().map(|(spread, quartiles)| Span {
        label: name(cohort, spread),
        words: format!("middle {}", share_words(quartiles.middle)),
        whole: (quartiles.least * 100.0, quartiles.most * 100.0),
        half: Some((quartiles.lower * 100.0, quartiles.upper * 100.0)),
        middle: quartiles.middle * 100.0,
    });
    blocks.push(Block::Drawings(vec![spans(
        "Learners’ share of the marks by criterion, per cent".to_owned(),
        "For each criterion a line from the least to the greatest share, a box around the \
         middle half of the learners, and a diamond at the middle one. The numbers are in the \
         table below."
            .to_owned(),
        &drawn.collect::<Vec<_>>(),
    )]));
    blocks.push(Block::Table(plain_table(
        "Shares of the marks over learners, by criterion".to_owned(),
        vec![
            text("Criterion"),
            number("Learners"),
            number("Least"),
            number("Lower quarter"),
            number("Middle"),
            number("Upper quarter"),
            number("Greatest"),
            number("With all marks"),
            number("With none"),
        ],
        all.iter().map(|spread| row(cohort, spread)).collect(),
    )));
    blocks
}

fn name(cohort: &Cohort, spread: &Spread) -> String {
    let column = cohort.plan.columns.get(spread.column);
    column.map_or_else(String::new, |column| column.name.clone())
}

fn row(cohort: &Cohort, spread: &Spread) -> Vec<Cell> {
    let name = Cell::text(name(cohort, spread));
    let Ok(quartiles) = &spread.quartiles else {
        let hidden = (0..8).map(|_| figure("–"));
        return [name].into_iter().chain(hidden).collect();
    };
    let shares = [
        quartiles.least,
        quartiles.lower,
        quartiles.middle,
        quartiles.upper,
        quartiles.most,
    ];
    let counts = [spread.at_most, spread.at_least];
    [name, figure(spread.learners.to_string())]
        .into_iter()
        .chain(shares.map(|share| figure(share_words(share))))
        .chain(counts.map(|count| figure(count.to_string())))
        .collect()
}

/// Learners by criterion as tables for paper, a few criteria side by side.
pub(super) fn matrix(cohort: &Cohort) -> Vec<Block> {
    if cohort.people.is_empty() || cohort.plan.columns.is_empty() {
        return Vec::new();
    }
    let shares: Vec<_> = cohort
        .people
        .iter()
        .map(|person| medians(cohort, person))
        .collect();
    let numbers: Vec<usize> = (0..cohort.plan.columns.len()).collect();
    let tables = numbers.chunks(ABREAST).map(|chunk| {
        let first = chunk.first().copied().unwrap_or(0);
        let heads = chunk.iter().filter_map(|at| cohort.plan.columns.get(*at));
        let heads = heads.map(|column| Column {
            title: column.name.clone().into(),
            role: CellRole::Number,
        });
        let rows = cohort.people.iter().zip(&shares).map(|(person, shares)| {
            let cells = chunk.iter().map(|at| {
                let share = shares.get(*at).copied().flatten();
                let words = share.map_or_else(|| "–".to_owned(), |cell| whole_percent(cell.share));
                Cell {
                    band: share.map(|cell| Marks(cell.share).rank(Marks::whole(1))),
                    ..Cell::new(CellRole::Number, words)
                }
            });
            [Cell::text(person.name.clone())]
                .into_iter()
                .chain(cells)
                .collect()
        });
        Block::Table(Table {
            // Of several tables each has a name of its own.
            caption: format!(
                "Median share of the marks in the latest pieces, criteria {} to {} of {}",
                first + 1,
                first + chunk.len(),
                numbers.len()
            ),
            columns: [text("Learner")].into_iter().chain(heads).collect(),
            groups: vec![Group {
                heading: String::new(),
                rows: rows.collect(),
            }],
            foot: Vec::new(),
        })
    });
    [heading("Learners by criterion")]
        .into_iter()
        .chain(tables)
        .collect()
}
