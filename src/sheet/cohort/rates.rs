use super::{lacking_words, share_words};
use crate::chart::{Span, spans};
use crate::cohort::{Cohort, PassRate, pass_rates};
use crate::figures::Interval;
use crate::sheet::capital;
use crate::sheet::document::{Block, Cell, figure, number, plain_table, text};
use crate::sheet::scored::heading;

/// How pass rates are worked out.
pub(super) const HOW: &str = "Pieces that pass over pieces that are decided, with Wilson’s \
    interval at 95 % (Wilson, J. Am. Stat. Assoc. 22, 1927, 209): such a range holds the rate \
    of many more pieces like these in 19 of 20 groups. It takes the pieces as made \
    independently; those of one learner are alike, so the true range is somewhat wider.";

/// Pass rates by what pieces were made for.
pub(super) fn blocks(cohort: &Cohort) -> Vec<Block> {
    let rates = pass_rates(cohort);
    if rates.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("Pass rates")];
    let known = rates
        .iter()
        .filter_map(|rate| Some((rate, rate.interval.as_ref().ok()?)));
    let drawn: Vec<Span> = known
        .map(|(rate, interval)| span(rate, *interval))
        .collect();
    if !drawn.is_empty() {
        let told = drawn
            .iter()
            .map(|span| format!("{}: {}", span.label, span.words));
        let told = told.collect::<Vec<_>>().join("; ");
        blocks.push(Block::Drawings(vec![spans(
            "Pass rates, per cent, each with its range".to_owned(),
            format!("{told}. The numbers are in the table below."),
            &drawn,
        )]));
    }
    blocks.push(Block::Table(plain_table(
        "Pieces that pass, by what they were made for".to_owned(),
        vec![
            text("Made for"),
            number("Passed"),
            number("Of"),
            number("Learners"),
            number("Rate"),
            text("What it says"),
        ],
        rates.iter().map(row).collect(),
    )));
    blocks
}

fn row(rate: &PassRate) -> Vec<Cell> {
    let name = Cell::text(capital(rate.sitting.word()));
    let interval = match &rate.interval {
        Ok(interval) => interval,
        Err(lacking) => {
            let hidden = || figure("–");
            let why = Cell::text(lacking_words(lacking));
            return vec![name, hidden(), hidden(), hidden(), hidden(), why];
        }
    };
    let open = match rate.undecided {
        0 => String::new(),
        1 => " One more is not decided.".to_owned(),
        count => format!(" {count} more are not decided."),
    };
    vec![
        name,
        figure(rate.passed.to_string()),
        figure(rate.of.to_string()),
        figure(rate.learners.to_string()),
        figure(share_words(rate.share())),
        Cell::text(format!(
            "Of many more such pieces between {} and {} would pass.{open}",
            share_words(interval.low),
            share_words(interval.high)
        )),
    ]
}

fn span(rate: &PassRate, interval: Interval) -> Span {
    Span {
        label: capital(rate.sitting.word()),
        words: format!("{} of {} pass", rate.passed, rate.of),
        whole: (interval.low * 100.0, interval.high * 100.0),
        half: None,
        middle: rate.share() * 100.0,
    }
}
