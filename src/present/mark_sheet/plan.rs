use crate::chart::Side;
use crate::quantity::{Dimension, Marks, Unit};
use crate::rubric::{Entry, Judged, Kind, Limits, NotApplicable, Rubric, SeenFrom, Slot};
use crate::sheet::capital;

use super::instruments::takes_instrument;
use super::tiles::{FaultTile, LevelTile, fault_tiles, level_tiles, sentences};

/// In which order the rows stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Order {
    /// Section by section.
    #[default]
    Rubric,
    /// As the shoe is picked up and turned.
    Turned,
}

/// A group of rows under one heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Id of its heading.
    pub id: String,
    /// Heading.
    pub name: String,
    /// Its rows.
    pub rows: Vec<Row>,
}

/// One row of the sheet, as far as the rubric says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Entry id, or the key of a reading that is not marked by itself.
    pub id: String,
    /// The same as an id of the document.
    pub dom: String,
    /// Whether it is a reading that is not marked by itself.
    pub unmarked: bool,
    /// Name, with the shoe where there are several.
    pub name: String,
    /// How it is looked at.
    pub about: String,
    /// Side of the shoe that lies up meanwhile; `None` where either may.
    pub side: Option<Side>,
    /// Id of the usual instrument of its readings.
    pub instrument: Option<String>,
    /// What is entered.
    pub form: RowForm,
    /// Typical faults, for rows that are no fault list.
    pub faults: Vec<FaultTile>,
    /// What "not applicable" would do, where the rubric allows it.
    pub not_applicable: Option<&'static str>,
    /// Most marks that can be given by decision, before the weight.
    pub most: Marks,
}

impl Row {
    /// Keys of the readings that are entered in it.
    pub fn slots(&self) -> impl Iterator<Item = &str> {
        let inputs = match &self.form {
            RowForm::Readings { inputs, .. } => inputs.as_slice(),
            _ => &[],
        };
        inputs.iter().map(|input| input.slot.as_str())
    }
}

/// What the button says that opens what is rare in a row.
pub fn more_words(row: &Row) -> String {
    let faults = (!row.faults.is_empty()).then_some("faults");
    let instrument = takes_instrument(row).then_some("instrument");
    let marked = (!row.unmarked).then_some("state, comment");
    let words = [instrument, faults, marked].into_iter().flatten();
    capital(&words.collect::<Vec<_>>().join(", "))
}

/// What is entered in a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RowForm {
    /// Readings; `verdicts` where a gauge may decide.
    Readings {
        /// The inputs, one a reading or member.
        inputs: Vec<Input>,
        /// Whether under, within and over are offered.
        verdicts: bool,
    },
    /// A count or a duration.
    Tally {
        /// Whether it is a time that the time rule governs.
        is_time: bool,
        /// Sign behind the number.
        unit: &'static str,
        /// What is counted.
        dimension: Dimension,
    },
    /// Levels.
    Levels(Vec<LevelTile>),
    /// Numbers with words at some.
    Numbers {
        /// Every number that may be given.
        allowed: Vec<String>,
        /// Words at some.
        descriptors: Vec<(String, String)>,
    },
    /// Nothing but faults.
    Faults(Vec<FaultTile>),
}

/// One input for a reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Input {
    /// Key of the readings.
    pub slot: String,
    /// Which member of a series; `None` for a reading with its repeats.
    pub member: Option<usize>,
    /// Id of the document.
    pub dom: String,
    /// Label, where there are several.
    pub label: String,
    /// What is measured.
    pub dimension: Dimension,
}

/// The rows of a rubric in the order asked for.
pub fn plan(rubric: &Rubric, order: Order) -> Vec<Part> {
    let slots = rubric.slots();
    let entries = rubric.entries();
    match order {
        Order::Rubric => by_section(rubric, &slots, &entries),
        Order::Turned => by_side(rubric, &slots, &entries),
    }
}

fn by_section(rubric: &Rubric, slots: &[Slot<'_>], entries: &[Entry<'_>]) -> Vec<Part> {
    let named: Vec<Row> = slots
        .iter()
        .filter(|slot| slot.is_named)
        .map(named_row)
        .collect();
    let mut parts = Vec::new();
    if !named.is_empty() {
        parts.push(Part {
            id: "p-readings".to_owned(),
            name: "Readings that others need".to_owned(),
            rows: named,
        });
    }
    for section in &rubric.sections {
        let own = entries
            .iter()
            .filter(|entry| entry.section.id == section.id);
        let rows = own.map(|entry| entry_row(rubric, slots, entry)).collect();
        parts.push(Part {
            id: format!("p-{}", section.id),
            name: section.name.clone(),
            rows,
        });
    }
    parts
}

/// First when, then from where, then the rubric's order: the shoe is turned once.
fn by_side(rubric: &Rubric, slots: &[Slot<'_>], entries: &[Entry<'_>]) -> Vec<Part> {
    let named = slots.iter().filter(|slot| slot.is_named);
    let named = named.map(|slot| (slot.when, slot.seen_from, named_row(slot)));
    let marked = entries.iter().map(|entry| {
        let criterion = entry.criterion;
        (
            criterion.when,
            criterion.seen_from,
            entry_row(rubric, slots, entry),
        )
    });
    let mut rows: Vec<_> = named.chain(marked).collect();
    rows.sort_by_key(|(when, side, _)| (*when, *side));
    let mut parts: Vec<(crate::rubric::When, SeenFrom, Part)> = Vec::new();
    for (when, side, row) in rows {
        match parts.last_mut() {
            Some((last, at, part)) if (*last, *at) == (when, side) => part.rows.push(row),
            _ => {
                let name = side_name(when, side);
                let id = format!("p-{}", dom_id(&name));
                parts.push((
                    when,
                    side,
                    Part {
                        id,
                        name,
                        rows: vec![row],
                    },
                ));
            }
        }
    }
    parts.into_iter().map(|(_, _, part)| part).collect()
}

fn side_name(when: crate::rubric::When, side: SeenFrom) -> String {
    use crate::rubric::When;
    let word = side.word();
    let named = match when {
        When::During if side == SeenFrom::Anvil => "while it is made".to_owned(),
        When::During => format!("while it is made, {word}"),
        When::WhenCalled => format!("when called, {word}"),
        When::After => word.to_owned(),
    };
    let mut letters = named.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Letters, digits and hyphens; everything else becomes a hyphen.
fn dom_id(text: &str) -> String {
    let plain = |c: char| {
        if c.is_ascii_alphanumeric() {
            c.to_ascii_lowercase()
        } else {
            '-'
        }
    };
    text.chars().map(plain).collect()
}

fn named_row(slot: &Slot<'_>) -> Row {
    Row {
        id: slot.id.clone(),
        dom: dom_id(&slot.id),
        unmarked: true,
        name: slot.full_name(),
        about: sentences([Some(slot.note.to_owned())]),
        side: side_of(slot.seen_from),
        instrument: slot.instrument.map(str::to_owned),
        form: RowForm::Readings {
            inputs: inputs_of(slot, ""),
            verdicts: false,
        },
        faults: Vec::new(),
        not_applicable: None,
        most: Marks::ZERO,
    }
}

fn inputs_of(slot: &Slot<'_>, label: &str) -> Vec<Input> {
    let input = |member: Option<usize>, label: String| Input {
        slot: slot.id.clone(),
        member,
        dom: match member {
            Some(member) => format!("r-{}-{}", dom_id(&slot.id), member + 1),
            None => format!("r-{}", dom_id(&slot.id)),
        },
        label,
        dimension: slot.dimension,
    };
    if slot.members < 2 {
        return vec![input(None, label.to_owned())];
    }
    let members = usize::try_from(slot.members).unwrap_or(2);
    (0..members)
        .map(|member| input(Some(member), format!("{}", member + 1)))
        .collect()
}

fn entry_row(rubric: &Rubric, slots: &[Slot<'_>], entry: &Entry<'_>) -> Row {
    let criterion = entry.criterion;
    let is_list = matches!(criterion.kind, Kind::Faults(_));
    Row {
        id: entry.id.clone(),
        dom: dom_id(&entry.id),
        unmarked: false,
        name: entry.name(),
        about: sentences([Some(criterion.note.clone())]),
        side: side_of(criterion.seen_from),
        instrument: criterion.instrument().map(str::to_owned),
        form: form_of(rubric, slots, entry),
        faults: if is_list {
            Vec::new()
        } else {
            fault_tiles(criterion)
        },
        not_applicable: match criterion.not_applicable {
            NotApplicable::Refused => None,
            NotApplicable::Rescale => Some("its marks leave the total"),
            NotApplicable::Keep => Some("no marks, the total stays"),
        },
        most: criterion.most_unweighted(),
    }
}

fn side_of(seen_from: SeenFrom) -> Option<Side> {
    match seen_from {
        SeenFrom::FootSide => Some(Side::Foot),
        SeenFrom::GroundSide | SeenFrom::NailInHole => Some(Side::Ground),
        SeenFrom::Anvil | SeenFrom::Edge | SeenFrom::FlatPlate | SeenFrom::AfterBreakTest => None,
    }
}

fn form_of(rubric: &Rubric, slots: &[Slot<'_>], entry: &Entry<'_>) -> RowForm {
    let criterion = entry.criterion;
    match &criterion.kind {
        Kind::Toleranced(_) | Kind::Paired(_) | Kind::Spread(_) => {
            let is_pair = matches!(criterion.kind, Kind::Paired(_));
            let labels: &[&str] = if is_pair { &["left", "right"] } else { &[""] };
            let own = criterion.measured().into_iter().zip(labels);
            let inputs = own.filter_map(|(reading, label)| {
                let id = rubric.slot_id(entry, reading);
                // A reading that stands in a row of its own is not asked for twice.
                let asked_here = |slot: &&Slot<'_>| slot.asked_by.as_ref() == Some(&entry.id);
                let slot = slots.iter().filter(asked_here).find(|slot| slot.id == id)?;
                Some(inputs_of(slot, label))
            });
            let inputs: Vec<Input> = inputs.flatten().collect();
            let verdicts = matches!(criterion.kind, Kind::Toleranced(_))
                && !inputs.is_empty()
                && criterion.scale().is_some_and(|scale| {
                    scale
                        .bands
                        .iter()
                        .any(|band| !matches!(band.limits, Limits::AtLeast(_)))
                });
            RowForm::Readings { inputs, verdicts }
        }
        Kind::Tally(tally) => RowForm::Tally {
            is_time: tally.is_time,
            unit: if tally.dimension == Dimension::Duration {
                Unit::Minute.symbol()
            } else {
                ""
            },
            dimension: tally.dimension,
        },
        Kind::Judged(Judged::Levels(_)) => RowForm::Levels(level_tiles(criterion)),
        Kind::Judged(Judged::Numbers {
            allowed,
            descriptors,
        }) => RowForm::Numbers {
            allowed: allowed.iter().map(ToString::to_string).collect(),
            descriptors: descriptors
                .iter()
                .map(|(at, text)| (at.to_string(), text.clone()))
                .collect(),
        },
        Kind::Faults(_) => RowForm::Faults(fault_tiles(criterion)),
    }
}
