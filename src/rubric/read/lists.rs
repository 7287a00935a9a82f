use super::photo::read_photo;
use super::table::{Ids, Table, split_message};
use crate::piece::Foot;
use crate::quantity::{Dimension, Quantity};
use crate::rubric::model::{
    AppliesTo, CauseGroup, Instrument, NamedReading, PlannedHeats, Qualification, SeenFrom, Shape,
    ShapeFault, ShapeWord, Shoe, Step, Uncertainty, When,
};

pub(super) const DIMENSIONS: &[(&str, Dimension)] = &[
    ("length", Dimension::Length),
    ("angle", Dimension::Angle),
    ("mass", Dimension::Mass),
    ("duration", Dimension::Duration),
    ("count", Dimension::Count),
];

/// Reads a list of tables whose ids must differ.
fn read_list<'s, T>(
    root: &Table<'s>,
    key: &'static str,
    what: &'static str,
    read: impl Fn(&Table<'s>) -> (String, T),
) -> Vec<T> {
    let mut ids = Ids::new(root.source, what);
    let one = what.split_once(' ').map_or(what, |(_, noun)| noun);
    let mut list = Vec::new();
    for table in root.tables(key, one) {
        let (id, member) = read(&table);
        ids.add(&id, table.span_of("id"));
        table.finish();
        list.push(member);
    }
    list
}

pub(super) fn read_shoes(root: &Table<'_>) -> Vec<Shoe> {
    let mut shoes = read_list(root, "shoes", "a shoe", |table| {
        let id = table.needed_id();
        let name = table.text("name").unwrap_or_else(|| id.clone());
        (
            id.clone(),
            Shoe {
                id,
                name,
                foot: table.word("foot", Foot::WORDS),
            },
        )
    });
    if shoes.is_empty() {
        shoes.push(Shoe {
            id: "shoe".to_owned(),
            name: "Shoe".to_owned(),
            foot: None,
        });
    }
    shoes
}

pub(super) fn read_heats(root: &Table<'_>) -> Vec<PlannedHeats> {
    let read = |table: Table<'_>| {
        let heats = PlannedHeats {
            part: table.needed_text("part"),
            step: table.id("step"),
            count: table.count("count").unwrap_or(1),
            weld: table.flag("weld"),
        };
        table.finish();
        heats
    };
    root.tables("heats", "heats")
        .into_iter()
        .map(read)
        .collect()
}

pub(super) fn read_applies_to(table: &Table<'_>, shoes: &[Shoe]) -> AppliesTo {
    let Some(text) = table.text("for") else {
        return AppliesTo::EachShoe;
    };
    match text.as_str() {
        "each shoe" => AppliesTo::EachShoe,
        "piece" => AppliesTo::Piece,
        id if shoes.iter().any(|shoe| shoe.id == id) => AppliesTo::Shoe(text),
        _ => {
            let remedy = "use \"each shoe\", \"piece\" or the id of a shoe";
            table.error("for", format!("there is no shoe `{text}`"), remedy);
            AppliesTo::EachShoe
        }
    }
}

pub(super) fn read_readings(root: &Table<'_>, shoes: &[Shoe]) -> Vec<NamedReading> {
    read_list(root, "readings", "a reading", |table| {
        let id = table.needed_id();
        let dimension = table
            .word("measures", DIMENSIONS)
            .unwrap_or(Dimension::Length);
        let several_places = table.flag("several_places");
        let reading = NamedReading {
            id: id.clone(),
            name: table.needed_text("name"),
            note: table.text_or_empty("note"),
            dimension,
            instrument: table.id("instrument"),
            several_places,
            photo: read_photo(table, dimension, several_places),
            applies_to: read_applies_to(table, shoes),
            seen_from: table
                .word("seen_from", SeenFrom::WORDS)
                .unwrap_or(SeenFrom::GroundSide),
            when: table.word("when", When::WORDS).unwrap_or(When::After),
        };
        (id, reading)
    })
}

pub(super) fn read_qualification(table: Table<'_>) -> Qualification {
    let outcomes = table
        .tables("outcomes", "outcome")
        .into_iter()
        .map(|outcome| {
            let pair = (outcome.needed_text("code"), outcome.text_or_empty("text"));
            outcome.finish();
            pair
        });
    let outcomes = outcomes.collect();
    let qualification = Qualification {
        code: table.needed_text("code"),
        title: table.text_or_empty("title"),
        outcomes,
    };
    table.finish();
    qualification
}

pub(super) fn read_instruments(root: &Table<'_>) -> Vec<Instrument> {
    read_list(root, "instruments", "an instrument", |table| {
        let instrument = read_instrument(table);
        (instrument.id.clone(), instrument)
    })
}

fn read_instrument(table: &Table<'_>) -> Instrument {
    let dimension = table
        .word("measures", DIMENSIONS)
        .unwrap_or(Dimension::Length);
    let shape = read_shape(table);
    let half = table
        .positive("half_width", dimension)
        .map(|half| Uncertainty::HalfWidth(half, shape));
    let standard = table
        .positive("standard_uncertainty", dimension)
        .map(Uncertainty::Standard);
    if half.is_some() && standard.is_some() {
        let remedy = "keep either half_width or standard_uncertainty";
        table.error(
            "standard_uncertainty",
            "the uncertainty is stated twice",
            remedy,
        );
    }
    if !table.has("half_width") && !table.has("standard_uncertainty") {
        table.missing("half_width", "add a line such as half_width = \"0.5 mm\"");
    }
    let nothing = Uncertainty::Standard(Quantity::zero(dimension));
    Instrument {
        id: table.needed_id(),
        name: table.needed_text("name"),
        uncertainty: half.or(standard).unwrap_or(nothing),
        repeatability: table.positive("repeatability", dimension),
        shared: table.positive("shared", dimension),
        source: table.text_or_empty("source"),
        in_place_of: table
            .texts("in_place_of")
            .into_iter()
            .map(|(id, _)| id)
            .collect(),
    }
}

/// How errors are spread between the ends of a half-width.
fn read_shape(table: &Table<'_>) -> Shape {
    if table.has("shape") && !table.has("half_width") {
        let remedy = "leave it out, or give half_width";
        table.error("shape", "only a half-width has a shape", remedy);
    }
    let word = table.word("shape", ShapeWord::WORDS);
    let level = table.exact("level_share");
    let is_read =
        table.has("shape") == word.is_some() && table.has("level_share") == level.is_some();
    let shape = Shape::of(word.unwrap_or(ShapeWord::Rectangular), level);
    match shape {
        Ok(shape) => return shape,
        Err(fault) if is_read => {
            let (what, remedy) = split_message(&fault.to_string());
            let key = match fault {
                ShapeFault::NoLevel => "shape",
                ShapeFault::LevelOutside | ShapeFault::NeedlessLevel => "level_share",
            };
            table.error(key, what, remedy);
        }
        // What cannot be read is told already.
        Err(_) => {}
    }
    Shape::default()
}

pub(super) fn read_steps(root: &Table<'_>) -> Vec<Step> {
    read_list(root, "steps", "a step", |table| {
        let id = table.needed_id();
        (
            id.clone(),
            Step {
                id,
                name: table.needed_text("name"),
            },
        )
    })
}

pub(super) fn read_causes(root: &Table<'_>) -> Vec<CauseGroup> {
    read_list(root, "causes", "a cause group", |table| {
        let id = table.needed_id();
        let most = table.needed_marks("most");
        if most.0.is_negative() {
            table.error("most", "marks below zero", "write zero or more");
        }
        (
            id.clone(),
            CauseGroup {
                id,
                name: table.needed_text("name"),
                most,
            },
        )
    })
}
