use std::collections::BTreeSet;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::cohort::Asked;
use crate::page::keeper::Keeper;
use crate::page::slices::{Slice, breathe};
use crate::present::cohort::{CohortCell, CohortCells, CohortPage, cohort_cells};
use crate::records::LearnerId;

/// The medians of the learners, worked out in slices: of those in view first. A copy is a
/// handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Medians {
    keeper: Keeper,
    asked: Memo<Option<Asked>>,
    page: Memo<CohortPage>,
    cells: RwSignal<CohortCells>,
    is_done: RwSignal<bool>,
    in_view: StoredValue<Vec<LearnerId>>,
    /// Which run is the latest: older ones end.
    run: StoredValue<u64>,
}

impl Medians {
    /// Begins, and begins anew whenever something else is asked or the ledger changes.
    pub(super) fn begin(
        keeper: Keeper,
        asked: Memo<Option<Asked>>,
        page: Memo<CohortPage>,
    ) -> Self {
        let medians = Self {
            keeper,
            asked,
            page,
            cells: RwSignal::default(),
            is_done: RwSignal::new(false),
            in_view: StoredValue::default(),
            run: StoredValue::new(0),
        };
        Effect::new(move |before: Option<(Option<Asked>, Vec<_>)>| {
            let now = (asked.get(), page.with(|page| page.heads.clone()));
            keeper.look(|_, _| ());
            // After a change of the ledger the old ones stand until the new ones are there.
            if before.is_some_and(|before| before != now) {
                medians.cells.set(CohortCells::new());
            }
            medians.again();
            now
        });
        medians
    }

    /// Those of one learner, once they are there.
    pub(super) fn of(self, learner: LearnerId) -> Memo<Option<Vec<CohortCell>>> {
        let cells = self.cells;
        Memo::new(move |_| cells.with(|cells| cells.get(&learner).cloned()))
    }

    /// Whether those of all learners are there.
    pub(super) fn is_done(self) -> Signal<bool> {
        self.is_done.into()
    }

    /// Those that are there; nobody hears of changes.
    pub(super) fn with_now<T>(self, see: impl FnOnce(&CohortCells) -> T) -> T {
        self.cells.with_untracked(see)
    }

    /// Names the learners in view, whose medians come first.
    pub(super) fn show_first(self, learners: Vec<LearnerId>) {
        self.in_view.set_value(learners);
    }

    fn again(self) {
        let run = self.run.get_value() + 1;
        self.run.set_value(run);
        self.is_done.set(false);
        if let Some(asked) = self.asked.get_untracked() {
            spawn_local(self.work(asked, run));
        }
    }

    async fn work(self, asked: Asked, run: u64) {
        // The names stand first.
        breathe().await;
        let is_latest = || self.run.try_get_value() == Some(run);
        if !is_latest() {
            return;
        }
        let page = self.page.get_untracked();
        let mut left: BTreeSet<LearnerId> = page.rows.iter().map(|row| row.id).collect();
        let mut by_name = page.rows.iter().map(|row| row.id);
        let mut slice = Slice::begin();
        let mut found = CohortCells::new();
        while let Some(next) = self.next(&mut left, &mut by_name) {
            let cells = self.keeper.look_now(|ledger, rubrics| {
                cohort_cells(ledger, rubrics, &asked, &page.heads, next)
            });
            found.insert(next, cells);
            if slice.is_over() {
                self.cells.update(|cells| cells.append(&mut found));
                breathe().await;
                if !is_latest() {
                    return;
                }
                slice = Slice::begin();
            }
        }
        self.cells.update(|cells| cells.append(&mut found));
        self.is_done.set(true);
    }

    /// The next learner of those that are left: one in view, or else the next by name.
    fn next(
        self,
        left: &mut BTreeSet<LearnerId>,
        by_name: &mut impl Iterator<Item = LearnerId>,
    ) -> Option<LearnerId> {
        let in_view = self.in_view.with_value(|in_view| {
            let mut waiting = in_view.iter().filter(|id| left.contains(id));
            waiting.next().copied()
        });
        let next = in_view.or_else(|| by_name.find(|id| left.contains(id)))?;
        left.remove(&next);
        Some(next)
    }
}
