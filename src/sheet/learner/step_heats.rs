use super::{Charted, about, figure, mean_words, number, pieces, plain_table, series_title, text};
use crate::chart::{Bar, bars};
use crate::progress::{HeatsSpent, LATEST, Series, StepHeats, heats_by_step};
use crate::quantity::{Exact, Marks};
use crate::sheet::document::Cell;

const NOT_COUNTED: &str = "not counted";

/// Heats a piece, by making step, of the same pieces and in the same order as the marks lost,
/// which stand beside them in the table; `None` where nobody counted heats.
pub fn step_heats_shown(series: &Series<'_>) -> Option<Charted> {
    let all = heats_by_step(series);
    let first = all.first()?;
    let rows: Vec<_> = all.iter().map(bar).collect();
    let told = rows.iter();
    let told = told.map(|row| format!("{}: {}", row.label, row.words));
    let told: Vec<_> = told.collect();
    let heading = "Heats, by making step".to_owned();
    let latest = match first.points.len() {
        1 => "the only piece that was marked as a whole".to_owned(),
        count => format!("the latest {}", pieces(count.min(LATEST))),
    };
    let before = first.before.is_some();
    let before = before.then_some(" Thin bars: all pieces before.");
    let caption = format!(
        "A piece of {}, on the mean of the pieces in which they were counted, by taps or entered \
         afterwards. Bars: {latest}.{} A step that costs marks and takes many heats is one to \
         practise. A dash in the table: not counted.",
        series_title(series),
        before.unwrap_or_default(),
    );
    Some(Charted {
        table: plain_table(
            "Heats and marks lost a piece, by making step".to_owned(),
            vec![
                text("Step"),
                text("Heats, piece by piece"),
                number("Heats, latest"),
                number("Heats, before"),
                number("Marks lost, latest"),
                number("Marks lost, before"),
            ],
            all.iter().map(cells).collect(),
        ),
        drawing: bars(heading.clone(), told.join("; "), &rows),
        caption,
        heading,
        how: String::new(),
    })
}

fn cells(step: &StepHeats) -> Vec<Cell> {
    let dash = || "–".to_owned();
    let point = |heats: &Option<u32>| heats.map_or_else(dash, |heats| heats.to_string());
    let points: Vec<_> = step.points.iter().map(point).collect();
    let lost = step.lost.as_ref();
    let before = step.before.as_ref();
    let lost_before = lost.map_or(Some(Marks::ZERO), |lost| lost.before);
    let lost_before = lost_before.filter(|_| before.is_some());
    vec![
        Cell::text(name(step)),
        Cell::text(points.join(", ")),
        figure(spent(&step.latest)),
        figure(before.map_or_else(dash, spent)),
        figure(about(lost.map_or(Marks::ZERO, |lost| lost.latest))),
        figure(lost_before.map_or_else(dash, about)),
    ]
}

fn bar(step: &StepHeats) -> Bar {
    let long = |spent: &HeatsSpent| spent.mean.map_or(0.0, Exact::to_f64);
    let latest = spent(&step.latest);
    Bar {
        label: name(step),
        value: long(&step.latest),
        before: step.before.as_ref().map(long),
        words: match &step.before {
            Some(before) => format!("{latest}, before {}", spent(before)),
            None => latest,
        },
    }
}

/// `2.5`, or `2.5 in 2 of 3` where they were not counted in every piece.
fn spent(spent: &HeatsSpent) -> String {
    let Some(mean) = spent.mean else {
        return NOT_COUNTED.to_owned();
    };
    let mean = mean_words(mean);
    if spent.counted == spent.pieces {
        mean
    } else {
        format!("{mean} in {} of {}", spent.counted, spent.pieces)
    }
}

fn name(step: &StepHeats) -> String {
    let name = step.name.clone();
    name.unwrap_or_else(|| "No step named".to_owned())
}
