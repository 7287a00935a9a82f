use super::standing;
use crate::cohort::{Cohort, medians, pass_rates, spreads};
use crate::quantity::Exact;
use crate::sheet::capital;
use crate::sheet::rows::{Field, Rows};
use crate::sheet::workbook::{Workbook, WorkbookSheet};

/// A row for each learner: how they stand, and their median share of the marks of each
/// criterion in per cent.
pub fn cohort_rows(cohort: &Cohort) -> Rows {
    let heads = [
        "Learner",
        "Learner id",
        "Standing",
        "Why",
        "Pieces",
        "Latest pieces",
    ];
    let columns = cohort
        .plan
        .columns
        .iter()
        .map(|column| format!("{} (%)", column.name));
    let people = standing::people(cohort);
    let rows = cohort.people.iter().zip(&people).map(|(person, shown)| {
        let behind = person.pieces.iter().filter(|piece| piece.detail.is_some());
        let first = [
            Field::text(&person.name),
            Field::text(person.id.to_string()),
            Field::text(capital(shown.standing.word())),
            Field::text(&shown.reason),
            Field::whole(shown.pieces),
            Field::whole(behind.count()),
        ];
        let shares = medians(cohort, person).into_iter().map(|cell| {
            let percent = cell.and_then(|cell| cell.share.times(Exact::HUNDRED));
            percent.map_or_else(Field::empty, Field::decimal)
        });
        first.into_iter().chain(shares).collect()
    });
    Rows {
        columns: heads
            .into_iter()
            .map(str::to_owned)
            .chain(columns)
            .collect(),
        rows: rows.collect(),
    }
}

/// All figures of a cohort as a workbook.
pub fn cohort_workbook(cohort: &Cohort) -> Workbook {
    let sheets = [
        ("Learners", cohort_rows(cohort)),
        ("Pass rates", rate_rows(cohort)),
        ("Spread", spread_rows(cohort)),
    ];
    Workbook {
        title: format!("{}: {}", cohort.rubric, cohort.group),
        language: "en-GB",
        made: None,
        sheets: sheets
            .map(|(name, rows)| WorkbookSheet { name, rows })
            .to_vec(),
    }
}

fn heads<const N: usize>(heads: [&str; N]) -> Vec<String> {
    heads.map(str::to_owned).to_vec()
}

/// A number, or nothing where the group is too small.
fn percent(share: Option<f64>) -> Field {
    share.map_or_else(Field::empty, |share| Field::measure(share * 100.0))
}

fn rate_rows(cohort: &Cohort) -> Rows {
    let rates = pass_rates(cohort);
    let rows = rates.iter().map(|rate| {
        let interval = rate.interval.as_ref().ok();
        let shown = |count: usize| interval.map_or_else(Field::empty, |_| Field::whole(count));
        vec![
            Field::text(capital(rate.sitting.word())),
            shown(rate.passed),
            shown(rate.of),
            shown(rate.learners),
            percent(interval.map(|_| rate.share())),
            percent(interval.map(|interval| interval.low)),
            percent(interval.map(|interval| interval.high)),
        ]
    });
    Rows {
        columns: heads([
            "Made for", "Passed", "Of", "Learners", "Rate (%)", "From (%)", "To (%)",
        ]),
        rows: rows.collect(),
    }
}

fn spread_rows(cohort: &Cohort) -> Rows {
    let rows = spreads(cohort).into_iter().map(|spread| {
        let column = cohort.plan.columns.get(spread.column);
        let known = spread.quartiles.as_ref().ok();
        let shown = |count: usize| known.map_or_else(Field::empty, |_| Field::whole(count));
        vec![
            Field::text(column.map_or("", |column| &column.section)),
            Field::text(column.map_or("", |column| &column.name)),
            shown(spread.learners),
            percent(known.map(|quartiles| quartiles.least)),
            percent(known.map(|quartiles| quartiles.lower)),
            percent(known.map(|quartiles| quartiles.middle)),
            percent(known.map(|quartiles| quartiles.upper)),
            percent(known.map(|quartiles| quartiles.most)),
            shown(spread.at_most),
            shown(spread.at_least),
        ]
    });
    Rows {
        columns: heads([
            "Section",
            "Criterion",
            "Learners",
            "Least (%)",
            "Lower quarter (%)",
            "Middle (%)",
            "Upper quarter (%)",
            "Greatest (%)",
            "With all marks",
            "With none",
        ]),
        rows: rows.collect(),
    }
}
