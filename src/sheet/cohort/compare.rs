use super::{lacking_words, share_words};
use crate::cohort::{Cohort, Compared, ComparedRate, Comparison, PassRate, compare};
use crate::figures::{Difference, Lacking};
use crate::quantity::counted;
use crate::sheet::capital;
use crate::sheet::document::{Block, Cell, figure, number, plain_table, text};
use crate::sheet::scored::heading;

/// What stands for a number of a group that is not told.
const NOT_TOLD: &str = "–";

/// How two groups are compared.
pub(super) const HOW: &str = "For each learner the median of the shares in the latest pieces, \
    then the mean over learners. The range of the difference of two means is Welch’s at 95 % \
    (Biometrika 34, 1947, 28), that of two pass rates Newcombe’s (Statist. Med. 17, 1998, 873, \
    method 10), which takes pieces of one learner as no more alike than those of several. \
    Where the two share learners and differ by fewer than five, only the first is told of, as \
    the marks of those few could be worked out from both. \
    Where a range holds 0, the groups cannot be told apart there. Of many criteria one in \
    twenty seems to differ by luck alone.";

/// The group beside another one; nothing where none was asked for.
pub(super) fn blocks(cohort: &Cohort) -> Vec<Block> {
    let (Some(other), Some(found)) = (&cohort.other, compare(cohort)) else {
        return Vec::new();
    };
    let names = [cohort.group.as_str(), other.group.as_str()];
    let mut blocks = vec![
        heading(&format!("{} beside {}", names[0], names[1])),
        Block::Paragraph(verdict(&found, names)),
    ];
    if found.in_both > 0 {
        blocks.push(Block::Paragraph(format!(
            "{} in both groups and count in both, so the ranges are wider than they need be.",
            counted(found.in_both, "learner is", "learners are")
        )));
    }
    blocks.push(Block::Table(shares(cohort, &found, names)));
    if !found.rates.is_empty() {
        blocks.push(Block::Table(rates(&found, names)));
    }
    blocks
}

/// The whole in a sentence.
fn verdict(found: &Comparison, [here, there]: [&str; 2]) -> String {
    let difference = match &found.total.difference {
        Ok(difference) => difference,
        Err(lacking) => return lacking_words(lacking),
    };
    let [low, high] = [difference.interval.low, difference.interval.high];
    let means = found.total.means.map(mean_words);
    let means = format!(
        "Of all marks the learners of {here} have {} in the mean, those of {there} {}.",
        means[0], means[1]
    );
    if low > 0.0 || high < 0.0 {
        let who = if low > 0.0 { here } else { there };
        format!("{means} {who} is ahead, by {}.", apart(low, high))
    } else {
        format!("{means} They cannot be told apart.")
    }
}

/// How far, without a sign: `between 2 and 9 points`.
fn apart(low: f64, high: f64) -> String {
    let (near, far) = (low.abs().min(high.abs()), low.abs().max(high.abs()));
    format!("between {:.0} and {:.0} points", near * 100.0, far * 100.0)
}

fn shares(cohort: &Cohort, found: &Comparison, names: [&str; 2]) -> crate::sheet::Table {
    let columns = cohort
        .plan
        .columns
        .iter()
        .map(|column| column.name.as_str());
    let rows = std::iter::once("All marks").chain(columns);
    let rows = rows.zip(std::iter::once(&found.total).chain(&found.columns));
    plain_table(
        "Mean share of the marks in both groups".to_owned(),
        vec![
            text("Criterion"),
            number(names[0].to_owned()),
            number(names[1].to_owned()),
            number("Difference"),
            text("What it says"),
        ],
        rows.map(|(name, compared)| share_row(name, compared, names))
            .collect(),
    )
}

fn share_row(name: &str, compared: &Compared, names: [&str; 2]) -> Vec<Cell> {
    let mut row = vec![Cell::text(name)];
    row.extend(compared.means.map(mean_words).map(figure));
    row.extend(differing(&compared.difference, names));
    row
}

/// A mean in words; a dash where it is not told.
fn mean_words(mean: Option<f64>) -> String {
    mean.map_or_else(|| NOT_TOLD.to_owned(), share_words)
}

fn rates(found: &Comparison, names: [&str; 2]) -> crate::sheet::Table {
    plain_table(
        "Pieces that pass in both groups, by what they were made for".to_owned(),
        vec![
            text("Made for"),
            number(names[0].to_owned()),
            number(names[1].to_owned()),
            number("Difference"),
            text("What it says"),
        ],
        found
            .rates
            .iter()
            .map(|rate| rate_row(rate, names))
            .collect(),
    )
}

fn rate_row(compared: &ComparedRate, names: [&str; 2]) -> Vec<Cell> {
    let mut row = vec![Cell::text(capital(compared.sitting.word()))];
    row.extend(
        compared
            .rates
            .iter()
            .map(|rate| figure(rate_words(rate.as_ref()))),
    );
    row.extend(differing(&compared.difference, names));
    row
}

/// A pass rate in words; a dash where it is not told.
fn rate_words(rate: Option<&PassRate>) -> String {
    rate.map_or_else(
        || NOT_TOLD.to_owned(),
        |rate| {
            format!(
                "{} ({} of {})",
                share_words(rate.share()),
                rate.passed,
                rate.of
            )
        },
    )
}

/// The difference in points, and what it says.
fn differing(difference: &Result<Difference, Lacking>, [here, there]: [&str; 2]) -> [Cell; 2] {
    match difference {
        Err(lacking) => [figure(NOT_TOLD), Cell::text(lacking_words(lacking))],
        Ok(found) => {
            let [low, high] = [found.interval.low, found.interval.high];
            let says = if low > 0.0 {
                format!("{} ahead by {}.", here, apart(low, high))
            } else if high < 0.0 {
                format!("{} ahead by {}.", there, apart(low, high))
            } else {
                format!(
                    "Not to be told apart: between {} and {} points.",
                    signed(low),
                    signed(high)
                )
            };
            [figure(signed(found.difference)), Cell::text(says)]
        }
    }
}

/// Points with their sign: `+4`, `−3`, `0`.
fn signed(share: f64) -> String {
    crate::quantity::print_signed(share * 100.0, 0)
}
