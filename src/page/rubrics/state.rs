use std::collections::BTreeSet;
use std::sync::Arc;
use std::time::Duration;

use leptos::prelude::*;

use crate::command::Command;
use crate::page::clock;
use crate::page::keeper::Keeper;
use crate::present::rubrics::{FormPlan, Work, form_plan, work};
use crate::present::sentence;
use crate::records::RubricDraftId;
use crate::rubric::edit::{Edit, change};

/// The text is read once the hand rests.
const REST: Duration = Duration::from_millis(250);
/// Typing in one place is one step, until the hand has rested so long.
const ONE_STEP_MS: u64 = 2_000;
const MOST_STEPS: usize = 100;

#[derive(Debug, Clone)]
struct Step {
    place: String,
    at: u64,
    before: String,
}

/// One rubric in work. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct WorkState {
    keeper: Keeper,
    pub(super) id: RubricDraftId,
    /// The text as it stands, typed here or in another tab.
    pub(super) text: Memo<String>,
    /// What was last made of it.
    pub(super) work: RwSignal<Arc<Work>>,
    /// The forms of the last text that could be read.
    pub(super) plan: RwSignal<Arc<FormPlan>>,
    /// Parts of the forms that are open.
    pub(super) open: RwSignal<BTreeSet<String>>,
    pub(super) wrong: RwSignal<String>,
    steps: RwSignal<Vec<Step>>,
    round: StoredValue<u64>,
}

impl WorkState {
    pub(super) fn open(keeper: Keeper, id: RubricDraftId) -> Self {
        let text = Memo::new(move |_| {
            keeper.with_ledger(|ledger| {
                let draft = ledger.rubric_draft(id);
                draft.map(|draft| draft.text.clone()).unwrap_or_default()
            })
        });
        let first = Arc::new(text.with_untracked(|text| work(text)));
        let plan = first.outline.as_deref().map(form_plan).unwrap_or_default();
        let state = Self {
            keeper,
            id,
            text,
            work: RwSignal::new(first),
            plan: RwSignal::new(Arc::new(plan)),
            open: RwSignal::new(BTreeSet::new()),
            wrong: RwSignal::new(String::new()),
            steps: RwSignal::new(Vec::new()),
            round: StoredValue::new(0),
        };
        Effect::new(move |was: Option<()>| {
            text.track();
            if was.is_some() {
                state.read_soon();
            }
        });
        state
    }

    /// Reads the text unless more is typed meanwhile.
    fn read_soon(self) {
        let Some(round) = self.round.try_update_value(|round| {
            *round += 1;
            *round
        }) else {
            return;
        };
        set_timeout(
            move || {
                // The page may have been left, and more may have been typed.
                if self.round.try_get_value() == Some(round) {
                    self.read_now();
                }
            },
            REST,
        );
    }

    fn read_now(self) {
        let read = Arc::new(self.text.with_untracked(|text| work(text)));
        if let Some(outline) = read.outline.as_deref() {
            let plan = form_plan(outline);
            if self.plan.with_untracked(|old| **old != plan) {
                self.plan.set(Arc::new(plan));
            }
        }
        self.work.set(read);
    }

    /// Writes the whole text.
    pub(super) fn write(self, place: &str, text: String) {
        let before = self.text.get_untracked();
        if before == text {
            return;
        }
        if !self.store(text) {
            return;
        }
        let at = clock::now_ms();
        self.steps.update(|steps| {
            match steps.last_mut() {
                Some(last) if last.place == place && at.saturating_sub(last.at) < ONE_STEP_MS => {
                    last.at = at;
                }
                _ => steps.push(Step {
                    place: place.to_owned(),
                    at,
                    before,
                }),
            }
            if steps.len() > MOST_STEPS {
                steps.remove(0);
            }
        });
    }

    /// Carries out one change that a form asks for.
    pub(super) fn change(self, place: &str, edit: &Edit) {
        let changed = self.text.with_untracked(|text| change(text, edit));
        match changed {
            Ok(text) => {
                self.wrong.set(String::new());
                self.write(place, text);
            }
            Err(why) => self.wrong.set(sentence(&why.to_string())),
        }
    }

    /// As [`WorkState::change`], for what brings or takes fields: they are there at once.
    pub(super) fn rebuild(self, edit: &Edit) {
        self.change("rebuild", edit);
        self.read_now();
    }

    pub(super) fn can_undo(self) -> bool {
        self.steps.with(|steps| !steps.is_empty())
    }

    pub(super) fn undo(self) {
        if let Some(step) = self.steps.try_update(Vec::pop).flatten() {
            self.store(step.before);
            self.read_now();
        }
    }

    fn store(self, text: String) -> bool {
        let command = Command::WriteRubric {
            draft: self.id,
            text,
        };
        let refused = self.keeper.perform(command).err();
        if let Some(refused) = &refused {
            self.wrong.set(sentence(&refused.to_string()));
        }
        refused.is_none()
    }
}
