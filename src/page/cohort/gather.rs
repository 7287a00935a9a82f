use std::cell::RefCell;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::cohort::{Asked, Cohort, Kept, Worked};
use crate::job::{CohortForm, Topic};
use crate::page::keeper::Keeper;
use crate::page::slices::{Slice, breathe};
use crate::page::{clock, jobs};
use crate::present::cohort::{CohortState, cohort_job, cohort_pieces, cohort_start, cohort_state};

thread_local! {
    /// What outlives the page, so that only pieces that were written since are marked anew.
    static KEPT: RefCell<Kept<Vec<Worked>>> = RefCell::default();
}

/// How far the numbers of all pieces are.
#[derive(Debug, Clone, PartialEq)]
enum Stage {
    /// The medians come first.
    Waiting,
    /// So many learners of so many are marked.
    Marking(usize, usize),
    /// The worker has them.
    Asked(Topic),
    /// No piece counts.
    Nothing,
    /// Somebody stopped it.
    Stopped,
}

/// The numbers of all pieces of a cohort, worked out in slices, and what the worker makes of
/// them. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gathered {
    keeper: Keeper,
    asked: Memo<Option<Asked>>,
    may_begin: Signal<bool>,
    stage: RwSignal<Stage>,
    cohort: StoredValue<Option<(Asked, Cohort)>>,
    /// Which run is the latest: older ones end.
    run: StoredValue<u64>,
}

impl Gathered {
    /// Begins as soon as it may, and begins anew whenever something else is asked or the
    /// ledger changes.
    pub(super) fn begin(
        keeper: Keeper,
        asked: Memo<Option<Asked>>,
        may_begin: Signal<bool>,
    ) -> Self {
        let gathered = Self {
            keeper,
            asked,
            may_begin,
            stage: RwSignal::new(Stage::Waiting),
            cohort: StoredValue::new(None),
            run: StoredValue::new(0),
        };
        Effect::new(move |_| {
            asked.track();
            keeper.look(|_, _| ());
            gathered.again();
        });
        Effect::new(move |_| {
            may_begin.track();
            // Who stopped it while it waited does not want it once it could begin.
            if gathered.stage.get_untracked() != Stage::Stopped {
                gathered.again();
            }
        });
        gathered
    }

    /// Begins anew.
    pub(super) fn again(self) {
        let run = self.next_run();
        self.cohort.set_value(None);
        let Some(asked) = self.asked.get_untracked() else {
            self.stage.set(Stage::Nothing);
            return;
        };
        if self.may_begin.get_untracked() {
            spawn_local(self.work(asked, run));
        } else {
            self.stage.set(Stage::Waiting);
        }
    }

    /// Ends what is under way.
    pub(super) fn stop(self) {
        self.next_run();
        match self.stage.get_untracked() {
            Stage::Asked(topic) => jobs::stop(&topic.about),
            _ => self.stage.set(Stage::Stopped),
        }
    }

    /// How it stands.
    pub(super) fn state(self) -> Memo<CohortState> {
        let stage = self.stage;
        Memo::new(move |_| match stage.get() {
            Stage::Waiting => CohortState::waiting(),
            Stage::Marking(done, of) => CohortState::marking(done, of),
            Stage::Asked(topic) => cohort_state(jobs::state(&topic).as_ref()),
            Stage::Nothing => CohortState::None(String::new()),
            Stage::Stopped => cohort_state(Some(&crate::job::State::Stopped)),
        })
    }

    /// What was asked and all numbers, once they are there.
    pub(super) fn cohort(self) -> Option<(Asked, Cohort)> {
        self.cohort.get_value()
    }

    fn next_run(self) -> u64 {
        let next = self.run.get_value() + 1;
        self.run.set_value(next);
        next
    }

    fn is_latest(self, run: u64) -> bool {
        self.run.try_get_value() == Some(run)
    }

    async fn work(self, asked: Asked, run: u64) {
        breathe().await;
        if !self.is_latest(run) {
            return;
        }
        let ledger = self.keeper.ledger_now();
        let day = clock::now().day();
        let look = self.keeper;
        let started = look.look_now(|_, rubrics| cohort_start(&ledger, rubrics, &asked, day));
        let Some(mut cohort) = started else {
            self.stage.set(Stage::Nothing);
            return;
        };
        KEPT.with_borrow_mut(|kept| kept.turn_to(&ledger, &asked, &cohort.plan));
        let (plan, of) = (cohort.plan.clone(), cohort.count());
        let mut slice = Slice::begin();
        for (number, one) in cohort.all_mut().enumerate() {
            let kept = KEPT.with_borrow(|kept| kept.get(one.id).cloned());
            one.pieces = kept.unwrap_or_else(|| {
                let pieces = look
                    .look_now(|_, rubrics| cohort_pieces(&ledger, rubrics, &asked, &plan, one.id));
                KEPT.with_borrow_mut(|kept| kept.put(one.id, pieces.clone()));
                pieces
            });
            if slice.is_over() {
                self.stage.set(Stage::Marking(number + 1, of));
                breathe().await;
                if !self.is_latest(run) {
                    return;
                }
                slice = Slice::begin();
            }
        }
        self.cohort.set_value(Some((asked.clone(), cohort.clone())));
        let (topic, job) = cohort_job(&ledger, &asked, cohort, CohortForm::Sheet);
        self.stage.set(Stage::Asked(topic.clone()));
        jobs::ask(topic, job);
    }
}
