use std::sync::Arc;

use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast as _;
use web_sys::Element;

use crate::chart::Side;
use crate::command::{Command, Edit, Entered, edit_draft};
use crate::marking::{Facts, Marking as Marked, ReadingFact, mark_in};
use crate::page::keeper::Keeper;
use crate::page::preferences;
use crate::present::mark_sheet::{
    Face, Input, InstrumentTile, Order, Part, Row, Taking, chosen_instrument, face,
    instrument_tiles, plan, text_in, with_text,
};
use crate::quantity::Unit;
use crate::records::{Marking, MarkingId};
use crate::rubric::Rubric;

/// The notice of an edit that is refused.
const REFUSED: &str = "edit-refused";
/// Steps that can be undone.
const MOST_STEPS: usize = 200;

/// What one step changed.
#[derive(Debug, Clone)]
struct Step {
    /// Where; typing in one place is one step.
    place: String,
    before: Box<Entered>,
    after: Box<Entered>,
}

/// Where the number pad writes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Target {
    pub(super) row: Row,
    /// `None` for a tally.
    pub(super) input: Option<Input>,
}

/// One open mark sheet. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct SheetState {
    keeper: Keeper,
    id: MarkingId,
    /// What is marked on a sheet that no ledger keeps.
    scratch: Option<RwSignal<Marking>>,
    rubric: StoredValue<Arc<Rubric>>,
    record: Memo<Option<Arc<Marking>>>,
    result: Memo<Arc<Marked>>,
    parts: Memo<Arc<Vec<Part>>>,
    steps: RwSignal<Vec<Step>>,
    pub(super) order: RwSignal<Order>,
    pub(super) target: RwSignal<Option<Target>>,
    pub(super) pad_open: RwSignal<bool>,
    /// Side of the shoe that lies up in its drawing.
    pub(super) side: RwSignal<Side>,
    /// Inches as this sheet divides them.
    pub(super) inch: Unit,
}

impl SheetState {
    /// The sheet of a marking; `None` where its rubric cannot be read.
    pub(super) fn open(keeper: Keeper, id: MarkingId) -> Option<Self> {
        let rubric = keeper
            .look_now(|ledger, rubrics| rubrics.get(ledger.rubric(&ledger.marking(id)?.rubric)?))?;
        let record = Memo::new(move |_| {
            keeper.with_ledger(|ledger| ledger.marking(id).cloned().map(Arc::new))
        });
        Some(Self::of(keeper, id, rubric, record, None))
    }

    /// A sheet to try `rubric` out on; no ledger keeps what is entered.
    pub(super) fn tried(keeper: Keeper, rubric: Arc<Rubric>, scratch: RwSignal<Marking>) -> Self {
        let record = Memo::new(move |_| Some(Arc::new(scratch.get())));
        let id = scratch.with_untracked(|marking| marking.id);
        Self::of(keeper, id, rubric, record, Some(scratch))
    }

    /// Whether it only tries a rubric out.
    pub(super) fn is_tried(self) -> bool {
        self.scratch.is_some()
    }

    fn of(
        keeper: Keeper,
        id: MarkingId,
        rubric: Arc<Rubric>,
        record: Memo<Option<Arc<Marking>>>,
        scratch: Option<RwSignal<Marking>>,
    ) -> Self {
        let stored = StoredValue::new(Arc::clone(&rubric));
        let result = Memo::new(move |_| {
            record.with(|record| match record {
                Some(record) => stored
                    .with_value(|rubric| Arc::new(mark_in(rubric, &record.facts, record.unit))),
                None => Arc::new(mark_in(&rubric, &Facts::default(), rubric.unit)),
            })
        });
        let unit = record.with_untracked(|record| record.as_ref().map(|record| record.unit));
        let inch = unit
            .into_iter()
            .chain([stored.with_value(|rubric| rubric.unit)]);
        let inch = inch.into_iter().find(|unit| unit.is_inch());
        let order = RwSignal::new(Order::default());
        let parts =
            Memo::new(move |_| stored.with_value(|rubric| Arc::new(plan(rubric, order.get()))));
        Self {
            keeper,
            id,
            scratch,
            rubric: stored,
            record,
            result,
            parts,
            steps: RwSignal::new(Vec::new()),
            order,
            target: RwSignal::new(None),
            pad_open: RwSignal::new(preferences::wants_pad()),
            side: RwSignal::new(Side::default()),
            inch: inch.unwrap_or(Unit::Inch64),
        }
    }

    /// The sheet that this component stands on.
    pub(super) fn here() -> Self {
        expect_context()
    }

    pub(super) fn parts(self) -> Vec<Part> {
        self.parts.with(|parts| parts.as_ref().clone())
    }

    pub(super) fn see_parts<T>(self, see: impl FnOnce(&[Part]) -> T) -> T {
        self.parts.with(|parts| see(parts))
    }

    pub(super) fn see_result<T>(self, see: impl FnOnce(&Marked) -> T) -> T {
        self.result.with(|result| see(result))
    }

    pub(super) fn see_facts<T>(self, see: impl FnOnce(&Facts) -> T) -> T
    where
        T: Default,
    {
        self.record
            .with(|record| record.as_ref().map(|record| see(&record.facts)))
            .unwrap_or_default()
    }

    pub(super) fn facts_now(self) -> Facts {
        self.record
            .with_untracked(|record| record.as_ref().map(|record| record.facts.clone()))
            .unwrap_or_default()
    }

    pub(super) fn rubric<T>(self, see: impl FnOnce(&Rubric) -> T) -> T {
        self.rubric.with_value(|rubric| see(rubric))
    }

    /// What a bare number means on this sheet.
    pub(super) fn unit(self) -> Unit {
        self.record.with(|record| {
            record
                .as_ref()
                .map_or(Unit::Millimetre, |record| record.unit)
        })
    }

    pub(super) fn unit_now(self) -> Unit {
        untrack(|| self.unit())
    }

    /// What `see` finds in the marking; nothing where it is not here.
    pub(super) fn of_record<T: Default>(self, see: impl FnOnce(&Marking) -> T) -> T {
        self.record
            .with(|record| record.as_deref().map(see).unwrap_or_default())
    }

    pub(super) fn comment(self, entry: Option<&str>) -> String {
        self.record.with(|record| {
            let record = record.as_ref();
            let found = match entry {
                Some(entry) => record.and_then(|record| record.comments.get(entry).cloned()),
                None => record.and_then(|record| record.overall.clone()),
            };
            found.unwrap_or_default()
        })
    }

    /// Nothing was entered yet.
    pub(super) fn is_fresh(self) -> bool {
        self.record.with(|record| {
            record
                .as_ref()
                .is_some_and(|record| record.facts.is_blank())
        })
    }

    pub(super) fn face(self, row: &Row) -> Face {
        self.rubric.with_value(|rubric| {
            self.record.with(|record| {
                let none = Facts::default();
                let facts = record.as_ref().map_or(&none, |record| &record.facts);
                let unit = record.as_ref().map_or(rubric.unit, |record| record.unit);
                self.result
                    .with(|result| face(rubric, row, facts, result, unit))
            })
        })
    }

    pub(super) fn readings(self, slot: &str) -> Vec<ReadingFact> {
        self.see_facts(|facts| facts.readings.get(slot).cloned().unwrap_or_default())
    }

    /// What a bare number in this input means.
    pub(super) fn unit_in(self, input: &Input) -> Unit {
        let of_reading = self.see_facts(|facts| {
            let readings = facts.readings.get(&input.slot)?;
            readings.get(input.member.unwrap_or(0))?.unit
        });
        of_reading.unwrap_or_else(|| self.unit())
    }

    /// Carries out an edit as one step; edits of one `place` in a row are one, unless
    /// another tab entered something between them.
    pub(super) fn edit(self, place: &str, edit: Edit) {
        let before = self.entered_now();
        if !self.perform(edit) {
            return;
        }
        let (Some(before), Some(after)) = (before, self.entered_now()) else {
            return;
        };
        self.steps.update(|steps| {
            match steps.last_mut() {
                Some(last) if last.place == place && last.after == before => last.after = after,
                _ => steps.push(Step {
                    place: place.to_owned(),
                    before,
                    after,
                }),
            }
            if steps.len() > MOST_STEPS {
                steps.remove(0);
            }
        });
    }

    fn entered_now(self) -> Option<Box<Entered>> {
        self.record.with_untracked(|record| {
            record
                .as_deref()
                .map(|record| Box::new(Entered::of(record)))
        })
    }

    fn perform(self, edit: Edit) -> bool {
        if let Some(scratch) = self.scratch {
            let rubric = self.rubric.get_value();
            let made = scratch
                .try_update(|marking| edit_draft(marking, edit, &|| Some(Arc::clone(&rubric))));
            return self.keeper.done_or_say(REFUSED, made.unwrap_or(Ok(())));
        }
        self.keeper
            .perform_or_say(REFUSED, Command::edit(self.id, edit))
    }

    /// Hears where the focus goes: the number pad does not write into a reading while it is
    /// in a field that is none, and the drawn shoe turns with the rows.
    pub(super) fn focus_went(self, event: &ev::FocusEvent) {
        let target = event.target();
        let element = target.and_then(|target| target.dyn_into::<Element>().ok());
        self.turn_with(element.as_ref());
        let is_other = element
            .is_some_and(|element| element.matches("input:not(.reading), textarea") == Ok(true));
        if is_other && self.target.with_untracked(Option::is_some) {
            self.target.set(None);
        }
    }

    /// Where rows stand as the shoe is turned, its drawing turns with them.
    fn turn_with(self, element: Option<&Element>) {
        if self.order.get_untracked() != Order::Turned {
            return;
        }
        let row = element.and_then(|element| element.closest(".row").ok().flatten());
        let Some(id) = row.map(|row| row.id()) else {
            return;
        };
        let side = self.parts.with_untracked(|parts| {
            let mut rows = parts.iter().flat_map(|part| &part.rows);
            rows.find(|row| row.dom == id)?.side
        });
        if let Some(side) = side {
            self.side.set(side);
        }
    }

    pub(super) fn can_undo(self) -> bool {
        self.steps.with(|steps| !steps.is_empty())
    }

    /// Takes the last step back; what another tab has entered stays.
    pub(super) fn undo(self) {
        let step = self.steps.try_update(Vec::pop).flatten();
        if let Some(Step { before, after, .. }) = step {
            self.perform(Edit::TakeBack { before, after });
        }
    }

    /// Whether anything was entered as a reading of this slot.
    pub(super) fn has(self, slot: &str) -> bool {
        self.readings(slot).iter().any(ReadingFact::is_written)
    }

    /// The instruments that a row's readings may be taken with.
    pub(super) fn instruments_now(self, row: &Row) -> Vec<InstrumentTile> {
        let (facts, unit) = (self.facts_now(), self.unit_now());
        self.keeper.look_now(|ledger, _| {
            self.rubric(|rubric| instrument_tiles(rubric, row, &facts, ledger, unit))
        })
    }

    /// Takes the readings of a row with another instrument, those to come too.
    pub(super) fn take_with(self, row: &Row, tile: &InstrumentTile) {
        let edit = Edit::SetInstrument {
            entries: row.slots().map(str::to_owned).collect(),
            instrument: tile.sets.clone(),
            own: tile.own.clone(),
        };
        self.edit(&format!("i-{}", row.dom), edit);
    }

    /// Whether what the row measures was taken hot.
    pub(super) fn is_hot(self, row: &Row) -> bool {
        row.slots()
            .any(|slot| self.readings(slot).iter().any(|reading| reading.hot))
    }

    /// Writes the text of one input of a row.
    pub(super) fn set_reading(self, row: &Row, input: &Input, text: &str) {
        let (before, hot) = untrack(|| (self.readings(&input.slot), self.is_hot(row)));
        let taking = Taking {
            unit: Some(self.unit_now()),
            hot,
            instrument: chosen_instrument(row, &self.facts_now()),
        };
        let readings = with_text(&before, input, text, &taking);
        let edit = Edit::SetReadings {
            entry: input.slot.clone(),
            readings,
        };
        self.edit(&input.dom, edit);
    }

    /// Writes a count or a duration.
    pub(super) fn set_tally(self, row: &Row, text: &str) {
        let tally = (!text.is_empty()).then(|| text.to_owned());
        self.edit(
            &format!("r-{}", row.dom),
            Edit::SetTally {
                entry: row.id.clone(),
                tally,
            },
        );
    }

    /// The text that stands in an input.
    pub(super) fn text_of(self, input: &Input) -> String {
        self.see_facts(|facts| {
            let readings = facts
                .readings
                .get(&input.slot)
                .map_or(&[][..], Vec::as_slice);
            text_in(readings, input)
        })
    }

    /// The text of a tally.
    pub(super) fn tally_of(self, entry: &str) -> String {
        self.see_facts(|facts| facts.tallies.get(entry).cloned().unwrap_or_default())
    }
}
