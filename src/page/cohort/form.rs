use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use crate::cohort::Asked;
use crate::page::keeper::Keeper;
use crate::page::paths;
use crate::page::widgets::{SelectField, TextField};
use crate::present::cohort::{CohortQuery, cohort_choices, cohort_query, days_faults};

/// What is chosen. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Form {
    rubric: RwSignal<String>,
    group: RwSignal<String>,
    latest: RwSignal<String>,
    from: RwSignal<String>,
    to: RwSignal<String>,
    other: RwSignal<String>,
}

impl Form {
    pub(super) fn of(query: CohortQuery) -> Self {
        Self {
            rubric: RwSignal::new(query.rubric),
            group: RwSignal::new(query.group),
            latest: RwSignal::new(query.latest),
            from: RwSignal::new(query.from),
            to: RwSignal::new(query.to),
            other: RwSignal::new(query.other),
        }
    }

    /// What it asks now.
    pub(super) fn query(self) -> CohortQuery {
        CohortQuery {
            rubric: self.rubric.get(),
            group: self.group.get(),
            latest: self.latest.get(),
            from: self.from.get(),
            to: self.to.get(),
            other: self.other.get(),
        }
    }

    /// Keeps the address at what is asked, so that it can be kept, sent and gone back to.
    pub(super) fn stands_in_address(self, asked: Memo<Option<Asked>>) {
        let navigate = use_navigate();
        Effect::new(move |before: Option<Option<CohortQuery>>| {
            let query = asked.with(|asked| asked.as_ref().map(cohort_query));
            if let (Some(before), Some(query)) = (before, &query)
                && before.as_ref() != Some(query)
            {
                let stay = NavigateOptions {
                    replace: true,
                    scroll: false,
                    ..NavigateOptions::default()
                };
                navigate(&paths::cohort_by(query), stay);
            }
            query
        });
    }

    /// The fields; nothing before the first piece.
    pub(super) fn view(self, keeper: Keeper) -> Option<AnyView> {
        let [rubrics, groups, counts, others] = keeper.look_now(|ledger, _| cohort_choices(ledger));
        if rubrics.is_empty() {
            return None;
        }
        let faults = Memo::new(move |_| days_faults(&self.query()));
        let first = Signal::derive(move || faults.get().0);
        let last = Signal::derive(move || faults.get().1);
        let fields = view! {
            <div class="part cohort-choices screen-only">
                <SelectField id="cohort-rubric" label="Rubric" options=rubrics value=self.rubric />
                <SelectField id="cohort-group" label="Who" options=groups value=self.group />
                <SelectField id="cohort-latest" label="What stands for a learner" options=counts value=self.latest />
                <SelectField id="cohort-other" label="Compare with" options=others value=self.other />
                <TextField id="cohort-from" label="Made from" kind="date" error=first value=self.from />
                <TextField id="cohort-to" label="Made up to" kind="date" error=last value=self.to />
            </div>
        };
        Some(fields.into_any())
    }
}
