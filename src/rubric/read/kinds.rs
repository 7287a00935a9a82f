use super::award::ON_THE_LIMIT;
use super::criterion::{Common, EFFECTS};
use super::lists::DIMENSIONS;
use super::numbers::read_numbers;
use super::photo::{read_photo, read_photo_pair, read_photo_series};
use super::scale::read_scale;
use super::table::{Ids, Table};
use crate::quantity::{Dimension, Exact, Marks, Quantity};
use crate::rubric::model::{
    AfterTheLimit, BeyondAllowance, Effect, FaultList, Judged, Kind, Level, OnTheLimit, Paired,
    Spread, SpreadMeasure, Tally, TallyOf, Toleranced,
};

#[derive(Clone, Copy)]
enum KindWord {
    Toleranced,
    Paired,
    Spread,
    Tally,
    Judged,
    Faults,
}

const KINDS: &[(&str, KindWord)] = &[
    ("toleranced", KindWord::Toleranced),
    ("paired", KindWord::Paired),
    ("spread", KindWord::Spread),
    ("tally", KindWord::Tally),
    ("judged", KindWord::Judged),
    ("faults", KindWord::Faults),
];

const COUNTS: &[(&str, TallyOf)] = &[
    ("heats", TallyOf::Heats),
    ("weld heats", TallyOf::WeldHeats),
    ("time", TallyOf::Time),
];

/// Keys that only some kinds have: none is called unknown while the kind is.
const KEYS_OF_KINDS: &[&str] = &[
    "allowance",
    "bands",
    "beyond",
    "beyond_effect",
    "count",
    "counts",
    "deduct",
    "descriptors",
    "each",
    "hard_limit",
    "instrument",
    "intended",
    "least",
    "left",
    "levels",
    "marks",
    "measures",
    "numbers",
    "on_the_limit",
    "photo",
    "reading",
    "right",
    "several_places",
    "spread",
    "stops_outside",
    "target",
    "time_rule",
];

pub(super) fn read_kind(table: &Table<'_>, id: &str, common: &Common<'_>) -> Kind {
    if !table.has("kind") {
        table.missing("kind", "add a line such as kind = \"toleranced\"");
    }
    match table.word("kind", KINDS) {
        Some(KindWord::Toleranced) => Kind::Toleranced(read_toleranced(table, id, common)),
        Some(KindWord::Paired) => Kind::Paired(read_paired(table, id, common)),
        Some(KindWord::Spread) => Kind::Spread(read_spread(table, id, common)),
        Some(KindWord::Tally) => Kind::Tally(read_tally(table, common)),
        Some(KindWord::Judged) => Kind::Judged(read_judged(table)),
        Some(KindWord::Faults) => Kind::Faults(FaultList {
            marks: table.positive_marks("marks").unwrap_or(Marks::ZERO),
            least: table.marks("least").unwrap_or(Marks::ZERO),
        }),
        None => {
            KEYS_OF_KINDS.iter().for_each(|key| {
                table.has(key);
            });
            Kind::Judged(Judged::Levels(Vec::new()))
        }
    }
}

fn read_dimension(table: &Table<'_>) -> Dimension {
    table
        .word("measures", DIMENSIONS)
        .unwrap_or(Dimension::Length)
}

fn read_toleranced(table: &Table<'_>, id: &str, common: &Common<'_>) -> Toleranced {
    let dimension = read_dimension(table);
    let several_places = table.flag("several_places");
    Toleranced {
        reading: table.text("reading").unwrap_or_else(|| id.to_owned()),
        instrument: table.id("instrument"),
        several_places,
        photo: read_photo(table, dimension, several_places),
        scale: read_scale(table, dimension, "target", common),
    }
}

fn read_paired(table: &Table<'_>, id: &str, common: &Common<'_>) -> Paired {
    let dimension = read_dimension(table);
    Paired {
        left: table.text("left").unwrap_or_else(|| format!("{id}-left")),
        right: table.text("right").unwrap_or_else(|| format!("{id}-right")),
        instrument: table.id("instrument"),
        photo: read_photo_pair(table, dimension),
        scale: read_scale(table, dimension, "intended", common),
    }
}

fn read_spread(table: &Table<'_>, id: &str, common: &Common<'_>) -> Spread {
    let measures = &[
        ("range", SpreadMeasure::Range),
        ("farthest from mean", SpreadMeasure::FarthestFromMean),
    ];
    let count = table.count("count").unwrap_or(0);
    if count < 2 {
        let remedy = "say how many members the series has, at least 2, as in count = 6";
        table.error("count", "a series of fewer than two", remedy);
    }
    let dimension = read_dimension(table);
    Spread {
        reading: table.text("reading").unwrap_or_else(|| id.to_owned()),
        count,
        measure: table
            .word("spread", measures)
            .unwrap_or(SpreadMeasure::Range),
        instrument: table.id("instrument"),
        photo: read_photo_series(table, dimension),
        scale: read_scale(table, dimension, "target", common),
    }
}

fn read_tally(table: &Table<'_>, common: &Common<'_>) -> Tally {
    if table.flag("time_rule") {
        return read_time_tally(table, common);
    }
    let dimension = match read_tally_dimension(table) {
        Some(dimension) => dimension,
        None => Dimension::Count,
    };
    let unit = Quantity::new(dimension, dimension.usual_unit().in_base());
    let each = table.positive("each", dimension).unwrap_or(unit);
    if each.base.is_zero() {
        table.error(
            "each",
            "a unit of nothing",
            "write 1, or a time such as \"1 min\"",
        );
    }
    let beyond = match table.positive_marks("deduct") {
        Some(marks) => BeyondAllowance::Deduct { each, marks },
        None => BeyondAllowance::AllMarks,
    };
    let allowed = table.number_text("allowance");
    Tally {
        dimension,
        marks: table.needed_marks("marks"),
        allowance: read_allowance(table, dimension, allowed.as_deref(), common),
        on_the_limit: table
            .word("on_the_limit", ON_THE_LIMIT)
            .unwrap_or(OnTheLimit::Inside),
        beyond,
        hard_limit: table.positive("hard_limit", dimension),
        is_time: false,
        counts: read_counts(table, dimension, allowed.as_deref()),
    }
}

fn read_tally_dimension(table: &Table<'_>) -> Option<Dimension> {
    let dimensions = &[
        ("count", Dimension::Count),
        ("duration", Dimension::Duration),
    ];
    table.word("measures", dimensions)
}

/// What of a heat log it counts: what it says, or what its allowance says.
fn read_counts(table: &Table<'_>, dimension: Dimension, allowed: Option<&str>) -> Option<TallyOf> {
    if !table.has("counts") {
        return match allowed {
            Some("planned heats") => Some(TallyOf::Heats),
            Some("planned weld heats") => Some(TallyOf::WeldHeats),
            _ => None,
        };
    }
    let counts = table.word("counts", COUNTS)?;
    if counts.dimension() != dimension {
        let what = "a count of heats is no duration, and a time is no count";
        table.error("counts", what, "let it go with measures");
    }
    Some(counts)
}

fn read_allowance(
    table: &Table<'_>,
    dimension: Dimension,
    allowed: Option<&str>,
    common: &Common<'_>,
) -> Quantity {
    let weld_only = match allowed {
        Some("planned heats") => false,
        Some("planned weld heats") => true,
        None => {
            let remedy = "add a line such as allowance = 10 or allowance = \"planned heats\"";
            table.missing("allowance", remedy);
            return Quantity::zero(dimension);
        }
        Some(_) => {
            let allowance = table.positive("allowance", dimension);
            return allowance.unwrap_or(Quantity::zero(dimension));
        }
    };
    if dimension != Dimension::Count || common.heats.is_empty() {
        table.error(
            "allowance",
            "no heats are planned here",
            "add [[heats]] with part and count",
        );
    }
    let heats = common.heats.iter().filter(|heats| heats.weld || !weld_only);
    let count: u64 = heats.map(|heats| u64::from(heats.count)).sum();
    Quantity::new(Dimension::Count, Exact::whole(count.into()))
}

/// A tally whose allowance, deduction and hard limit stand in `[time]`.
fn read_time_tally(table: &Table<'_>, common: &Common<'_>) -> Tally {
    for key in [
        "allowance",
        "each",
        "deduct",
        "hard_limit",
        "on_the_limit",
        "measures",
        "counts",
    ] {
        if table.has(key) {
            table.error(
                key,
                "the time rule already says this",
                "leave it out, or time_rule",
            );
        }
    }
    let nothing = Quantity::zero(Dimension::Duration);
    let Some(rule) = common.time else {
        table.error(
            "time_rule",
            "there is no time rule",
            "add [time] with limit and after",
        );
        return Tally {
            dimension: Dimension::Duration,
            marks: table.needed_marks("marks"),
            allowance: nothing,
            on_the_limit: OnTheLimit::Inside,
            beyond: BeyondAllowance::AllMarks,
            hard_limit: None,
            is_time: true,
            counts: Some(TallyOf::Time),
        };
    };
    let (beyond, hard_limit) = match rule.after {
        AfterTheLimit::MarkAsItStands => (BeyondAllowance::AllMarks, None),
        AfterTheLimit::Deduct {
            each,
            marks,
            hard_stop,
        } => (
            BeyondAllowance::Deduct {
                each: each.quantity(),
                marks,
            },
            hard_stop.map(|stop| stop.quantity()),
        ),
    };
    let allowance = rule.limit.quantity().plus(rule.grace.quantity());
    Tally {
        dimension: Dimension::Duration,
        marks: table.needed_marks("marks"),
        allowance: allowance.unwrap_or(nothing),
        on_the_limit: rule.on_the_limit,
        beyond,
        hard_limit,
        is_time: true,
        counts: Some(TallyOf::Time),
    }
}

fn read_judged(table: &Table<'_>) -> Judged {
    let levels = table.tables("levels", "level");
    let numbers = table.table("numbers");
    match (levels.is_empty(), numbers) {
        (false, None) => Judged::Levels(read_levels(table, levels)),
        (true, Some(numbers)) => read_numbers(table, numbers),
        (false, Some(_)) => {
            table.error("numbers", "levels and numbers together", "keep one of them");
            Judged::Levels(Vec::new())
        }
        (true, None) => {
            let remedy = "add levels = [{ id, name, marks, text }, …] or numbers = { least = 1, \
                          most = 10, step = 1 }";
            table.missing("levels", remedy);
            Judged::Levels(Vec::new())
        }
    }
}

fn read_level_photo(level: &Table<'_>) -> Option<String> {
    let photo = level.text("photo")?;
    let is_digit = |letter: char| matches!(letter, '0'..='9' | 'a'..='f');
    if photo.len() == 64 && photo.chars().all(is_digit) {
        return Some(photo);
    }
    let remedy = "choose the photo in the forms, which write it, or write the SHA-256 of its file \
                  as 64 digits 0 to 9 and a to f";
    level.error("photo", format!("`{photo}` names no picture"), remedy);
    None
}

fn read_levels(table: &Table<'_>, levels: Vec<Table<'_>>) -> Vec<Level> {
    let mut ids = Ids::new(table.source, "a level of this criterion");
    let mut read = Vec::new();
    for level in levels {
        if !level.has("marks") {
            level.missing("marks", "add marks = …");
        }
        let one = Level {
            id: level.needed_id(),
            name: level.needed_text("name"),
            text: level.text_or_empty("text"),
            marks: level.positive_marks("marks").unwrap_or(Marks::ZERO),
            effect: level.word("effect", EFFECTS).unwrap_or(Effect::Noted),
            example: level.text("example"),
            photo: read_level_photo(&level),
        };
        ids.add(&one.id, level.span_of("id"));
        level.finish();
        read.push(one);
    }
    if read.len() < 2 {
        table.error(
            "levels",
            "one level leaves nothing to judge",
            "write at least two levels",
        );
    }
    read
}
