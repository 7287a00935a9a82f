use leptos::prelude::*;

use super::file_making::FileMaking;
use super::save_paper::tiles;
use super::{Dialog, Tiles};
use crate::cohort::{Asked, Cohort};
use crate::job::CohortForm;
use crate::page::keeper::Keeper;
use crate::page::save_file;
use crate::present::cohort::{cohort_base, cohort_job, file_choices};

/// A button that asks in which format, and saves the figures of a cohort as a table.
#[component]
pub(crate) fn SaveCohort(
    /// What was asked about, and its numbers once they are all there.
    wanted: Callback<(), Option<(Asked, Cohort)>>,
) -> impl IntoView {
    let open = RwSignal::new(false);
    view! {
        <button type="button" class="button" on:click=move |_| open.set(true)>"Save as table"</button>
        <Dialog labelled_by="save-cohort" open>
            <Inside wanted open />
        </Dialog>
    }
}

#[component]
fn Inside(wanted: Callback<(), Option<(Asked, Cohort)>>, open: RwSignal<bool>) -> impl IntoView {
    let keeper = Keeper::here();
    let making = FileMaking::new();
    let form = RwSignal::new(CohortForm::Xlsx.word().to_owned());
    let make = move || {
        let form = form.with_untracked(|word| CohortForm::from_word(word));
        match wanted.run(()) {
            None => making.fail(NOT_YET.to_owned()),
            Some((asked, cohort)) => {
                let base = cohort_base(&cohort);
                let job = cohort_job(&keeper.ledger_now(), &asked, cohort, form);
                making.ask(base, file_kind(form), Ok(job));
            }
        }
    };
    view! {
        <div class="stack">
            <h2 id="save-cohort">"Save as table"</h2>
            <Tiles name="cohort-file" legend="Format" choices=tiles(file_choices()) value=form columns=1 />
            {making.view("cohort", open, make)}
        </div>
    }
}

/// What is said while there is nothing to save.
const NOT_YET: &str = "There is nothing to save yet: the pieces are still being marked, or none \
    of this group counts.";

fn file_kind(form: CohortForm) -> save_file::Kind {
    match form {
        CohortForm::Csv => save_file::Kind::Csv,
        CohortForm::Sheet | CohortForm::Xlsx => save_file::Kind::Xlsx,
    }
}
