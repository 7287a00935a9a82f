//! What a page looks like, as far as a program can tell.

use std::collections::BTreeSet;

use evenshod::output::pdf::Paper;
use evenshod::sheet::{Block, Cell, CellRole, Column, Group, Table};
use num_traits::ToPrimitive;

use super::sample::{checked, document};
use super::tools::{operators, pages};

/// The colours that shapes are filled with, as `#rrggbb`.
fn fills(bytes: &[u8]) -> BTreeSet<String> {
    let hex = |share: &str| {
        let byte = (share.parse::<f32>().unwrap() * 255.0).round();
        format!("{:02x}", byte.to_u8().unwrap())
    };
    let text = operators(bytes);
    let colours = text.lines().filter_map(|line| {
        let [red, green, blue] = line
            .strip_suffix(" rg")
            .or_else(|| line.strip_suffix(" scn"))?
            .split(' ')
            .collect::<Vec<_>>()
            .try_into()
            .ok()?;
        Some(format!("#{}", [red, green, blue].map(hex).concat()))
    });
    colours.collect()
}

#[test]
fn bands_have_the_colours_of_the_page_by_light() {
    let style = include_str!("../../../../style/tokens.css");
    let row = |band| {
        let marks = Cell {
            role: CellRole::Number,
            band: Some(band),
            text: "3 of 4".to_owned(),
            drawing: None,
        };
        vec![Cell::text("Weld"), marks]
    };
    let table = Table {
        caption: String::new(),
        columns: vec![
            Column {
                title: "Criterion".into(),
                role: CellRole::Text,
            },
            Column {
                title: "Marks".into(),
                role: CellRole::Number,
            },
        ],
        groups: vec![Group {
            heading: String::new(),
            rows: (0..=4).map(row).collect(),
        }],
        foot: Vec::new(),
    };
    let fills = fills(&checked(&document(vec![Block::Table(table)]), Paper::A4).bytes);
    for name in ["straw", "dark-straw", "bronze", "purple", "blue"] {
        let start = format!("--{name}: light-dark(");
        let at = style.find(&start).unwrap() + start.len();
        let colour = &style[at..at + 7];
        assert!(fills.contains(colour), "{name} {colour}: {fills:?}");
    }
}

#[test]
fn a_number_stays_with_its_fraction_its_unit_and_what_it_is_of() {
    for lead in 0..20 {
        let said = "left 5 1/8 in, right 134.94 mm ± 0.033 in, 2 of 4 at 80.5 %; ".repeat(12);
        let text = format!("{} {said}", "a".repeat(lead));
        let file = checked(&document(vec![Block::Paragraph(text)]), Paper::A4);
        let text = pages(&file.bytes).concat();
        for line in text.lines() {
            let line = line.trim_end();
            let splits = ["left 5", "134.94", "±", "0.033", " 2", " of", "80.5"];
            let split = splits.iter().find(|end| line.ends_with(*end));
            assert!(split.is_none(), "{line}");
        }
    }
}
