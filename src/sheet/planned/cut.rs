use super::super::document::{Block, Cell, CellRole, Weight, columns, figure, plain_table};
use super::super::scored::notice;
use super::{Planned, fact, heading, or_why};
use crate::plan::{Answer, Fit, Spread};
use crate::quantity::Unit;
use crate::sheet::bench_card::chosen_words;
use crate::sheet::words::capital;

/// The length that was chosen.
pub(super) fn chosen(planned: &Planned<'_>) -> Vec<Block> {
    let chosen = or_why(&planned.plan.chosen, planned.unit(), |chosen| {
        chosen_words(*chosen, planned.unit())
    });
    let mut blocks = vec![
        heading("The length to cut"),
        Block::Facts(vec![fact("Cut", chosen)]),
    ];
    let caveats = planned.plan.caveats.iter();
    let caveats: Vec<String> = caveats
        .map(|caveat| capital(&caveat.words(planned.unit())))
        .collect();
    if !caveats.is_empty() {
        blocks.push(notice(Weight::Warn, "With care", caveats));
    }
    blocks
}

/// What each method says of it.
pub(super) fn methods(planned: &Planned<'_>) -> Vec<Block> {
    const TITLE: &str = "What each method says";
    let rows = planned.plan.answers.iter();
    let table = plain_table(
        TITLE.to_owned(),
        columns(&[
            ("Method", CellRole::Text),
            ("Length to cut", CellRole::Number),
            ("How sure", CellRole::Text),
            (
                "Whether it fits, how it is worked out, and its source",
                CellRole::Quiet,
            ),
        ]),
        rows.map(|answer| row(planned, answer)).collect(),
    );
    vec![heading(TITLE), Block::Table(table)]
}

fn row(planned: &Planned<'_>, answer: &Answer) -> Vec<Cell> {
    let length = answer
        .length
        .map_or("none".to_owned(), |length| planned.say(length));
    let sure = answer.spread.map(|spread| sure(planned, spread));
    vec![
        Cell::text(capital(answer.method.word())),
        figure(length),
        Cell::text(sure.unwrap_or_default()),
        Cell::new(CellRole::Quiet, worked_out(answer, planned.unit())),
    ]
}

fn sure(planned: &Planned<'_>, spread: Spread) -> String {
    match spread {
        Spread::About(about) => format!("± {}, rough", planned.say(about)),
        Spread::Between { low, high } => {
            format!("{} to {}", planned.say(low), planned.say(high))
        }
        Spread::Interval { low, high, level } => format!(
            "{:.0} % of such pieces between {} and {}",
            level * 100.0,
            planned.say(low),
            planned.say(high)
        ),
    }
}

fn worked_out(answer: &Answer, unit: Unit) -> String {
    let mut parts = match &answer.fit {
        Fit::Fits => Vec::new(),
        Fit::Warns(caveats) => caveats
            .iter()
            .map(|caveat| format!("With care: {}.", caveat.words(unit)))
            .collect(),
        Fit::Refuses(fault) => vec![format!("It gives none: {}.", fault.words(unit))],
    };
    if !answer.working.is_empty() {
        parts.push(format!(
            "{}.",
            capital(answer.working.trim_end_matches('.'))
        ));
    }
    parts.push(format!("Source: {}.", answer.source));
    parts.join(" ")
}
