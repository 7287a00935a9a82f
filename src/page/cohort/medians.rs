use std::cell::RefCell;
use std::collections::BTreeSet;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::cohort::{Asked, Kept};
use crate::page::keeper::Keeper;
use crate::page::slices::{Slice, breathe};
use crate::present::cohort::{CohortCell, CohortCells, CohortPage, cohort_cells};
use crate::records::LearnerId;

thread_local! {
    /// What outlives the page, so that it stands at once when the page is opened again.
    static KEPT: RefCell<Kept<Vec<CohortCell>>> = RefCell::default();
}

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
        Effect::new(move |_| {
            asked.track();
            page.track();
            keeper.look(|_, _| ());
            medians.again();
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
        let Some(asked) = self.asked.get_untracked() else {
            self.cells.set(CohortCells::new());
            return;
        };
        let page = self.page.get_untracked();
        let ledger = self.keeper.ledger_now();
        let known = KEPT.with_borrow_mut(|kept| {
            kept.turn_to(&ledger, &asked, &page.plan);
            let rows = page.rows.iter();
            rows.filter_map(|row| Some((row.id, kept.get(row.id)?.clone())))
                .collect::<CohortCells>()
        });
        let rows = page.rows.iter().map(|row| row.id);
        let left: BTreeSet<LearnerId> = rows.filter(|id| !known.contains_key(id)).collect();
        self.cells.set(known);
        self.is_done.set(left.is_empty());
        if !left.is_empty() {
            spawn_local(self.work(asked, page, left, run));
        }
    }

    async fn work(self, asked: Asked, page: CohortPage, mut left: BTreeSet<LearnerId>, run: u64) {
        // The names stand first.
        breathe().await;
        let mut by_name = page.rows.iter().map(|row| row.id);
        while self.run.try_get_value() == Some(run) {
            let mut found = CohortCells::new();
            let slice = self.slice(&left);
            while !slice.is_over()
                && let Some(next) = self.next(&mut left, &mut by_name)
            {
                let cells = self.keeper.look_now(|ledger, rubrics| {
                    cohort_cells(ledger, rubrics, &asked, &page.plan, next)
                });
                KEPT.with_borrow_mut(|kept| kept.put(next, cells.clone()));
                found.insert(next, cells);
            }
            self.cells.update(|cells| cells.append(&mut found));
            if left.is_empty() {
                self.is_done.set(true);
                return;
            }
            breathe().await;
        }
    }

    /// What is in view is waited for: to draw it once takes less than to draw it row by row.
    fn slice(self, left: &BTreeSet<LearnerId>) -> Slice {
        let is_waited_for = self
            .in_view
            .with_value(|in_view| in_view.iter().any(|id| left.contains(id)));
        if is_waited_for {
            Slice::begin_waited_for()
        } else {
            Slice::begin()
        }
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
