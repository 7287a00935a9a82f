use super::kinds::read_kind;
use super::lists::read_applies_to;
use super::table::{Ids, Table};
use crate::piece::Place;
use crate::quantity::{Exact, Marks};
use crate::rubric::model::{
    Criterion, Effect, Fault, NotApplicable, PlannedHeats, SeenFrom, Shoe, TimeRule, When,
};

/// What every criterion may need from the rest of the file.
pub(super) struct Common<'a> {
    pub shoes: &'a [Shoe],
    pub heats: &'a [PlannedHeats],
    pub time: Option<&'a TimeRule>,
    pub piece_number: &'a dyn Fn(&str) -> Option<String>,
}

pub(super) const EFFECTS: &[(&str, Effect)] = &[
    ("noted", Effect::Noted),
    ("warn", Effect::Warn),
    ("stop", Effect::Stop),
];

pub(super) fn read_criterion(table: Table<'_>, common: &Common<'_>) -> Criterion {
    let id = table.needed_id();
    let kind = read_kind(&table, &id, common);
    let weight = table.exact("weight").unwrap_or(Exact::ONE);
    if weight.is_negative() || weight.is_zero() {
        table.error(
            "weight",
            "a weight must be above zero",
            "write 1, 2 or a fraction",
        );
    }
    let not_applicable = &[
        ("refused", NotApplicable::Refused),
        ("rescale", NotApplicable::Rescale),
        ("keep", NotApplicable::Keep),
    ];
    let criterion = Criterion {
        id,
        name: table.needed_text("name"),
        note: table.text_or_empty("note"),
        weight,
        kind,
        cause: table.id("cause"),
        step: table.id("step"),
        place: table.word("place", Place::WORDS),
        seen_from: table
            .word("seen_from", SeenFrom::WORDS)
            .unwrap_or(SeenFrom::GroundSide),
        when: table.word("when", When::WORDS).unwrap_or(When::After),
        applies_to: read_applies_to(&table, common.shoes),
        not_applicable: table
            .word("not_applicable", not_applicable)
            .unwrap_or(NotApplicable::Refused),
        stops_below: table.marks("stops_below"),
        faults: read_faults(&table),
        outcomes: table
            .texts("outcomes")
            .into_iter()
            .map(|(text, _)| text)
            .collect(),
        source: table.text("source"),
    };
    table.finish();
    criterion
}

fn read_faults(table: &Table<'_>) -> Vec<Fault> {
    let mut ids = Ids::new(table.source, "a fault of this criterion");
    let mut faults = Vec::new();
    for fault in table.tables("faults", "fault") {
        let read = read_fault(&fault);
        ids.add(&read.id, fault.span_of("id"));
        fault.finish();
        faults.push(read);
    }
    faults
}

/// `deduct` is the word for a fault that only costs marks.
fn read_fault(table: &Table<'_>) -> Fault {
    let words = &[
        ("noted", (Effect::Noted, false)),
        ("deduct", (Effect::Noted, true)),
        ("warn", (Effect::Warn, false)),
        ("stop", (Effect::Stop, false)),
    ];
    let (effect, deducts) = table
        .word("effect", words)
        .unwrap_or((Effect::Noted, false));
    let deduct = table.positive_marks("deduct").unwrap_or(Marks::ZERO);
    if deducts && deduct == Marks::ZERO {
        table.missing("deduct", "say how many marks it costs, as in deduct = 1");
    }
    Fault {
        id: table.needed_id(),
        name: table.needed_text("name"),
        cause: table.text_or_empty("cause"),
        remedy: table.text_or_empty("remedy"),
        step: table.id("step"),
        effect,
        deduct,
        most: table.positive_marks("most"),
    }
}
