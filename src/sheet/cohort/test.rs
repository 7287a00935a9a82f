use super::{lacking_words, share_words};
use crate::cohort::{AsTest, Cohort, as_test};
use crate::figures::Lacking;
use crate::figures::items::Item;
use crate::quantity::print_figure;
use crate::sheet::document::{Block, Cell, Fact, figure, number, plain_table, text};
use crate::sheet::scored::heading;

/// How the figures of the rubric as a test are worked out.
pub(super) const HOW: &str = "Each learner’s latest piece is a row, each criterion an item; \
    marks are those of the criteria, before sections are capped or weighted. Cronbach’s alpha \
    is k / (k − 1) times one less the sum of the items’ variances over that of the sum \
    (Cronbach, Psychometrika 16, 1951, 297), its interval that of Feldt (Psychometrika 30, \
    1965, 357). The standard error of measurement is the standard deviation of the sums times \
    the root of one less alpha (Lord and Novick, Statistical Theories of Mental Test Scores, \
    1968). The error near the pass mark is the root of the mean of k s² over the half of the \
    learners nearest to it, with s the standard deviation of one learner’s k marks (Brennan, \
    Appl. Psychol. Meas. 22, 1998, 307). How often a decision comes out alike: two pieces are \
    taken as bivariate normal with alpha as their correlation, the making as normal with its \
    root (Peng and Subkoviak, J. Educ. Meas. 17, 1980, 359); it covers this group and these \
    criteria, not another examiner or another day. Easiness is the mean share of the marks; going along is the correlation with the \
    sum of the other criteria.";

/// What the rubric is like as a test of this group.
pub(super) fn blocks(cohort: &Cohort) -> Vec<Block> {
    if cohort.plan.columns.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("The rubric as a test of this group")];
    match as_test(cohort) {
        Ok(test) => blocks.extend(told(cohort, &test)),
        Err(lacking) => blocks.push(Block::Paragraph(lacking_words(&lacking))),
    }
    blocks
}

fn told(cohort: &Cohort, test: &AsTest) -> Vec<Block> {
    let fact = |label: &'static str, value: String| Fact {
        label: label.into(),
        value,
    };
    let facts = Block::Facts(vec![
        fact("Learners in it", test.learners.to_string()),
        fact(
            "Mean",
            format!("{:.1} of {:.0} marks", test.totals.mean, test.out_of),
        ),
        fact("Cronbach’s alpha", alpha_words(test)),
        fact("Standard error of measurement", error_words(test)),
        fact("Error near the pass mark", near_words(test)),
        fact("Pass or not, made again", decision_words(test)),
    ]);
    let rows = test.columns.iter().zip(&test.items).map(|(column, item)| {
        let column = cohort.plan.columns.get(*column);
        row(column.map_or("", |column| &column.name), item)
    });
    let table = Block::Table(plain_table(
        "Each criterion as an item".to_owned(),
        vec![
            text("Criterion"),
            number("Easiness"),
            number("Goes along"),
            text("What it says"),
        ],
        rows.collect(),
    ));
    vec![facts, table]
}

fn alpha_words(test: &AsTest) -> String {
    match &test.alpha {
        Ok(alpha) => format!(
            "{:.2}, between {:.2} and {:.2} (95 %). Near 1, criteria tell the same learners \
             apart; near 0, each says something else.",
            alpha.alpha, alpha.interval.low, alpha.interval.high
        ),
        Err(lacking) => lacking_words(lacking),
    }
}

fn error_words(test: &AsTest) -> String {
    match &test.error {
        Ok(error) => format!(
            "{error:.1} marks. Two sums that differ by less than about twice that need not come \
             from learners that differ."
        ),
        Err(lacking) => lacking_words(lacking),
    }
}

fn near_words(test: &AsTest) -> String {
    match &test.error_near_pass {
        Ok(error) => format!(
            "{error:.1} marks, for the learners whose sums are nearest to {:.1} of {:.0}.",
            test.pass, test.out_of
        ),
        Err(lacking) => lacking_words(lacking),
    }
}

fn decision_words(test: &AsTest) -> String {
    if matches!(&test.alpha, Ok(alpha) if alpha.alpha <= 0.0) {
        return "Not shown: criteria do not go together here, so one piece says nothing of the \
                next."
            .to_owned();
    }
    match &test.decision {
        Ok(found) => format!(
            "Of 100 such learners about {} would get the same decision from a second piece like \
             this one; if luck alone decided, about {}. About {} pass though their making does \
             not, and {} fail though it does.",
            hundred(found.consistency),
            hundred(found.by_chance),
            hundred(found.false_passes),
            hundred(found.false_fails),
        ),
        Err(lacking) => lacking_words(lacking),
    }
}

/// Of a hundred so many.
fn hundred(share: f64) -> String {
    format!("{:.0}", share * 100.0)
}

fn row(name: &str, item: &Item) -> Vec<Cell> {
    let says = match &item.with_rest {
        Err(Lacking::NoSpread(_)) => "All have the same marks here: it tells nobody apart.",
        Err(_) => "Nothing can be said of it here.",
        Ok(with) if *with < 0.0 => {
            "Who does well elsewhere does worse here: look at how it is marked."
        }
        Ok(with) if *with < 0.2 => "It says little of how well the rest is made.",
        Ok(_) => "Who does well elsewhere does well here.",
    };
    let with = item.with_rest.as_ref();
    vec![
        Cell::text(name),
        figure(share_words(item.share)),
        figure(with.map_or_else(|_| "–".to_owned(), |with| print_figure(*with, 2))),
        Cell::text(says),
    ]
}
