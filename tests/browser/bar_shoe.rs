//! One made straight bar shoe: what is entered of it, and what it comes to, worked
//! out here without a browser.

use std::collections::BTreeMap;

use evenshod::marking::{Facts, Marking, ReadingFact, mark_in};
use evenshod::present::mark_sheet::{Input, Order, Row, RowForm, plan};
use evenshod::quantity::Unit;
use evenshod::rubric::{Rubric, read_rubric, shipped};

/// What it comes to, added up by hand on paper from the rubric's bands.
pub(crate) const TOTAL: &str = "80";

/// Readings as typed, by the reading's key; a pair and a series have one each.
const READINGS: [(&str, &[&str]); 18] = [
    ("thickness", &["9.4; 9.6"]),
    ("branches-left", &["118"]),
    ("branches-right", &["119.2"]),
    ("width", &["5 1/8"]),
    ("length", &["134,8 mm"]),
    ("heel-gap", &["59"]),
    ("bar-straight", &["0.4..0.5"]),
    ("bar-square", &["1.5"]),
    ("bar-width", &["18.5"]),
    ("bar-thickness", &["10.2"]),
    ("fuller-depth", &["6"]),
    ("fuller-inset", &["9"]),
    ("fuller-ends-left", &["117"]),
    ("fuller-ends-right", &["119"]),
    ("nail-count", &["6"]),
    ("nail-spacing", &["28.5", "29", "28", "30.5"]),
    ("nail-inset", &["8.2"]),
    ("level", &["0.4..0.5"]),
];
const PAIR: [(&str, &[&str]); 2] = [
    ("nails-alike-left", &["92"]),
    ("nails-alike-right", &["93"]),
];
const LEVELS: [(&str, &str); 7] = [
    ("toe-bend", "near"),
    ("outline", "4.5"),
    ("weld", "line"),
    ("scarf-closed", "trace"),
    ("fuller-walls", "stepped"),
    ("nail-fit", "one-off"),
    ("toe-roll", "even"),
];
const TALLIES: [(&str, &str); 3] = [("heats", "11"), ("weld-heats", "2"), ("time", "63")];
const FAULTS: [(&str, &[&str]); 2] = [("finish", &["fin1"]), ("safety", &[])];

/// The rubric of the straight bar shoe, as it ships.
pub(crate) fn rubric() -> Rubric {
    let shipped = shipped().first().expect("a rubric ships");
    read_rubric(shipped.text).rubric.expect("it is read")
}

/// Every row of its mark sheet, from the top.
pub(crate) fn rows() -> Vec<Row> {
    let parts = plan(&rubric(), Order::Rubric);
    parts.into_iter().flat_map(|part| part.rows).collect()
}

/// All that is entered of the shoe.
pub(crate) fn facts() -> Facts {
    let readings = READINGS.iter().chain(&PAIR);
    let texts = |pairs: &[(&str, &str)]| -> BTreeMap<String, String> {
        let owned = |(id, text): &(&str, &str)| ((*id).to_owned(), (*text).to_owned());
        pairs.iter().map(owned).collect()
    };
    Facts {
        readings: readings
            .map(|(slot, typed)| ((*slot).to_owned(), reading_facts(typed)))
            .collect(),
        levels: texts(&LEVELS),
        tallies: texts(&TALLIES),
        faults: FAULTS
            .iter()
            .map(|(id, seen)| {
                let seen = seen.iter().map(|&fault| fault.to_owned()).collect();
                ((*id).to_owned(), seen)
            })
            .collect(),
        ..Facts::default()
    }
}

fn reading_facts(typed: &[&str]) -> Vec<ReadingFact> {
    let parts = typed.iter().flat_map(|text| text.split(';'));
    parts
        .map(|text| ReadingFact {
            unit: Some(Unit::Millimetre),
            ..ReadingFact::of(text)
        })
        .collect()
}

/// What is typed into one input.
pub(crate) fn typed(input: &Input) -> &'static str {
    let all = READINGS.iter().chain(&PAIR);
    let found = all.into_iter().find(|(slot, _)| *slot == input.slot);
    let (_, typed) = found.unwrap_or_else(|| panic!("nothing is entered for {}", input.slot));
    typed[input.member.unwrap_or(0)]
}

/// What it comes to by the library alone.
pub(crate) fn marking() -> Marking {
    mark_in(&rubric(), &facts(), Unit::Millimetre)
}

/// Where the chosen level or number stands among its tiles.
pub(crate) fn chosen_tile(row: &Row) -> usize {
    let facts = facts();
    let chosen = &facts.levels[&row.id];
    let at = match &row.form {
        RowForm::Levels(levels) => levels.iter().position(|level| level.id == *chosen),
        RowForm::Numbers { allowed, .. } => allowed.iter().position(|number| number == chosen),
        _ => None,
    };
    at.unwrap_or_else(|| panic!("{} offers no {chosen}", row.id))
}

/// The first control of a row, as a selector.
pub(crate) fn first_control(row: &Row) -> String {
    match &row.form {
        RowForm::Readings { inputs, .. } => format!("#{}", inputs[0].dom),
        RowForm::Tally { .. } => format!("#r-{}", row.dom),
        RowForm::Levels(_) | RowForm::Numbers { .. } => format!("[name=\"l-{}\"]", row.dom),
        RowForm::Faults(_) => format!("#{} .row-entry input", row.dom),
    }
}
