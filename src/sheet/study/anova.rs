//! People and parts in numbers.

use super::Told;
use crate::figures::gauge::{Deviations, VarianceStudy};
use crate::quantity::print_figure;
use crate::sheet::document::{Block, Cell, Table, figure, number, plain_table, text};
use crate::sheet::scored::heading;

pub(super) fn blocks(told: &Told<'_>) -> Vec<Block> {
    let Ok(found) = &told.worked.by_variance else {
        return Vec::new();
    };
    vec![
        heading("People and parts"),
        Block::Table(deviations(told, found)),
        Block::Paragraph(pooled(found)),
        Block::Table(sources(told, found)),
    ]
}

type Pick = fn(&Deviations) -> f64;

fn deviations(told: &Told<'_>, found: &VarianceStudy) -> Table {
    const ROWS: [(&str, Pick); 5] = [
        ("Repeatability: one person", |all| all.repeatability),
        ("Reproducibility: between people", |all| all.reproducibility),
        ("Both: readings of one part", |all| all.gauge),
        ("Parts", |all| all.part),
        ("All together", |all| all.total),
    ];
    let own = &found.deviations;
    let ranges = told.worked.by_ranges.as_ref().ok();
    let rows = ROWS.iter().map(|(name, pick)| {
        let share = pick(own).powi(2) / own.total.powi(2);
        let share = if share.is_finite() {
            format!("{} %", print_figure(share * 100.0, 1))
        } else {
            "–".to_owned()
        };
        let by_ranges = ranges.map(|found| told.bare(pick(&found.deviations)));
        vec![
            Cell::text(*name),
            figure(told.bare(pick(own))),
            figure(share),
            figure(by_ranges.unwrap_or_else(|| "–".to_owned())),
        ]
    });
    let unit = told.worked.unit.symbol();
    plain_table(
        format!("Standard deviations in {unit}, and their shares of the whole variance"),
        vec![
            text("Of what"),
            number("By analysis of variance"),
            number("Share of variance"),
            number("By averages and ranges"),
        ],
        rows.collect(),
    )
}

fn pooled(found: &VarianceStudy) -> String {
    match &found.interaction {
        None => {
            "Readings of one part by one person are all alike, so nothing is pooled.".to_owned()
        }
        Some(one) if one.is_pooled => format!(
            "That people differ from part to part does not show (F {}; chance alone gives as much \
             in {} of 100 such studies), so it counts with repeatability here. The repeatability \
             in the sentences above and for the instrument is that of repeats alone.",
            print_figure(one.f, 2),
            print_figure(one.p * 100.0, 0)
        ),
        Some(one) => format!(
            "How people differ changes from part to part (F {}; chance alone gives as much in {} \
             of 100 such studies). As that is less than one study in four, it counts with \
             reproducibility. Agree how and where each part is measured.",
            print_figure(one.f, 2),
            print_figure(one.p * 100.0, 0)
        ),
    }
}

fn sources(told: &Told<'_>, found: &VarianceStudy) -> Table {
    const NAMES: [(&str, &str); 4] = [
        ("p", "Parts"),
        ("o", "People"),
        ("po", "People from part to part"),
        ("t:po", "Repeats"),
    ];
    let places = (2 * told.places).min(8);
    let rows = NAMES.iter().filter_map(|(key, name)| {
        let source = found.sources.iter().find(|source| source.name == *key)?;
        Some(vec![
            Cell::text(*name),
            figure(print_figure(source.freedom, 0)),
            figure(print_figure(source.squares, places)),
            figure(print_figure(source.mean_square, places)),
        ])
    });
    let unit = told.worked.unit.symbol();
    plain_table(
        format!("Analysis of variance before pooling, squares in {unit} squared"),
        vec![
            text("Source"),
            number("Degrees of freedom"),
            number("Sum of squares"),
            number("Mean square"),
        ],
        rows.collect(),
    )
}
