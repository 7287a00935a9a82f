use std::sync::Arc;

use leptos::prelude::*;

use crate::command::{Command, Edit};
use crate::marking::Facts;
use crate::marking::heat_log::What;
use crate::page::keeper::Keeper;
use crate::page::tapping::tap;
use crate::present::heat_log::{HeatButtons, heat_buttons};
use crate::quantity::Unit;
use crate::records::{Ledger, Marking, MarkingId};
use crate::rubric::Rubric;

/// The notice of a tap that is refused.
const REFUSED: &str = "tap-refused";

/// The heat log of one marking. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Heats {
    keeper: Keeper,
    id: MarkingId,
    rubric: StoredValue<Arc<Rubric>>,
    record: Memo<Option<Arc<Marking>>>,
    buttons: Memo<HeatButtons>,
}

impl Heats {
    /// Of a marking; `None` where its rubric cannot be read.
    pub(super) fn open(keeper: Keeper, id: MarkingId) -> Option<Self> {
        let rubric = keeper
            .look_now(|ledger, rubrics| rubrics.get(ledger.rubric(&ledger.marking(id)?.rubric)?))?;
        let rubric = StoredValue::new(rubric);
        let record = Memo::new(move |_| {
            keeper.with_ledger(|ledger| ledger.marking(id).cloned().map(Arc::new))
        });
        let buttons = Memo::new(move |_| seen(rubric, record, heat_buttons));
        Some(Self {
            keeper,
            id,
            rubric,
            record,
            buttons,
        })
    }

    /// What `see` finds in the rubric and the facts as they are now.
    pub(super) fn see<T: Default>(self, see: impl FnOnce(&Rubric, &Facts) -> T) -> T {
        seen(self.rubric, self.record, see)
    }

    /// What `see` finds in the ledger of this marking.
    pub(super) fn look<T>(self, see: impl FnOnce(&Ledger, MarkingId) -> T) -> T {
        self.keeper.with_ledger(|ledger| see(ledger, self.id))
    }

    /// What a bare number means on the sheet.
    pub(super) fn unit(self) -> Unit {
        let own = self
            .record
            .with(|record| record.as_ref().map(|record| record.unit));
        own.unwrap_or(Unit::Millimetre)
    }

    /// What can be tapped now.
    pub(super) fn buttons(self) -> HeatButtons {
        self.buttons.get()
    }

    /// What can be tapped now, without hearing of changes.
    pub(super) fn buttons_now(self) -> HeatButtons {
        self.buttons.get_untracked()
    }

    /// One tap.
    pub(super) fn tap(self, what: What) -> bool {
        self.edit(Edit::Tap { tap: tap(what) })
    }

    /// Takes the last tap back.
    pub(super) fn undo(self) {
        let index = self.buttons_now().last_index;
        self.edit(Edit::TakeBackTap { index });
    }

    /// Another change of the log.
    pub(super) fn edit(self, edit: Edit) -> bool {
        self.keeper
            .perform_or_say(REFUSED, Command::edit(self.id, edit))
    }
}

fn seen<T: Default>(
    rubric: StoredValue<Arc<Rubric>>,
    record: Memo<Option<Arc<Marking>>>,
    see: impl FnOnce(&Rubric, &Facts) -> T,
) -> T {
    record.with(|record| {
        let record = record.as_ref();
        record.map_or_else(T::default, |record| {
            rubric.with_value(|rubric| see(rubric, &record.facts))
        })
    })
}
