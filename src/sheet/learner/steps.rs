use super::{Charted, about, figure, number, pieces, plain_table, series_title, text};
use crate::chart::{Bar, bars};
use crate::progress::{LATEST, Series, StepLoss, losses_by_step};
use crate::sheet::document::Cell;

/// Marks lost a piece, by making step: all of them, or the `most` that cost most in the
/// latest pieces; `None` where nothing was lost, or no piece was marked as a whole.
pub fn steps_shown(series: &Series<'_>, most: Option<usize>) -> Option<Charted> {
    let all = losses_by_step(series);
    let losses = costliest(&all, most.unwrap_or(all.len()));
    if losses.is_empty() {
        return None;
    }
    let whole = series.pieces.iter().filter(|made| made.is_whole()).count();
    let rows: Vec<_> = losses.iter().map(bar).collect();
    let told = rows
        .iter()
        .map(|row| format!("{}: {}", row.label, row.words));
    let described = told.collect::<Vec<_>>().join("; ");
    let heading = "Marks lost, by making step".to_owned();
    let latest = match whole {
        1 => "the only piece that was marked as a whole".to_owned(),
        count => format!("the latest {}", pieces(count.min(LATEST))),
    };
    let before = (whole > LATEST).then_some(" Thin bars: all pieces before.");
    let left_out = all.len() - losses.len();
    let left_out = (left_out > 0).then(|| format!(" Left out, as they cost less: {left_out}."));
    let caption = format!(
        "A piece of {}, on the mean. Bars: {latest}.{} Longer is worse.{}",
        series_title(series),
        before.unwrap_or_default(),
        left_out.unwrap_or_default()
    );
    let table_rows = losses.iter().map(|loss| {
        vec![
            Cell::text(name(loss)),
            figure(about(loss.latest)),
            figure(loss.before.map_or_else(|| "–".to_owned(), about)),
        ]
    });
    Some(Charted {
        table: plain_table(
            "Marks lost a piece, by making step".to_owned(),
            vec![text("Step"), number("Latest"), number("Before")],
            table_rows.collect(),
        ),
        drawing: bars(heading.clone(), described, &rows),
        caption,
        heading,
        how: String::new(),
    })
}

/// The `most` that cost most, in the order of the making.
fn costliest(all: &[StepLoss], most: usize) -> Vec<StepLoss> {
    let mut by_cost: Vec<(usize, &StepLoss)> = all.iter().enumerate().collect();
    by_cost.sort_by_key(|(_, loss)| std::cmp::Reverse((loss.latest, loss.before)));
    by_cost.truncate(most);
    by_cost.sort_by_key(|(at, _)| *at);
    by_cost.into_iter().map(|(_, loss)| loss.clone()).collect()
}

fn bar(loss: &StepLoss) -> Bar {
    let latest = about(loss.latest);
    Bar {
        label: name(loss),
        value: loss.latest.0.to_f64(),
        before: loss.before.map(|before| before.0.to_f64()),
        words: match loss.before {
            Some(before) => format!("{latest}, before {}", about(before)),
            None => latest,
        },
    }
}

fn name(loss: &StepLoss) -> String {
    loss.name
        .clone()
        .unwrap_or_else(|| "No step named".to_owned())
}
