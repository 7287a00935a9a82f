use leptos::prelude::*;

use super::column_names::ColumnNames;
use super::file_making::FileMaking;
use super::save_paper::tiles;
use super::{Dialog, Tiles};
use crate::job::TableFormat;
use crate::page::keeper::Keeper;
use crate::page::save_file;
use crate::present::paper_files::PapersWanted;
use crate::present::table_files::{format_choices, table_base, tables_job};

/// A button that asks in which format, and saves marks as a table.
#[component]
pub(crate) fn SaveTable(
    /// Which markings, as things are when it is asked.
    wanted: Callback<(), Option<PapersWanted>>,
) -> impl IntoView {
    let open = RwSignal::new(false);
    view! {
        <button type="button" class="button" on:click=move |_| open.set(true)>"Save as table"</button>
        <Dialog labelled_by="save-table" open>
            <Inside wanted open />
        </Dialog>
    }
}

#[component]
fn Inside(wanted: Callback<(), Option<PapersWanted>>, open: RwSignal<bool>) -> impl IntoView {
    let keeper = Keeper::here();
    let making = FileMaking::new();
    let format = RwSignal::new(TableFormat::Xlsx.word().to_owned());
    let chosen = Memo::new(move |_| format.with(|word| TableFormat::from_word(word)));
    let make = move || {
        let format = chosen.get_untracked();
        match wanted.run(()) {
            None => making.fail(NOTHING.to_owned()),
            Some(sheets) => {
                let job = tables_job(&keeper.ledger_now(), &sheets, format);
                making.ask(table_base(&sheets, format), file_kind(format), job);
            }
        }
    };
    let choices = tiles(format_choices());
    let names = move || match chosen.get() {
        TableFormat::Csv(layout) => Some(view! { <ColumnNames layout /> }),
        TableFormat::Xlsx => None,
    };
    view! {
        <div class="stack">
            <h2 id="save-table">"Save as table"</h2>
            <Tiles name="table" legend="Format" choices value=format columns=1 />
            {names}
            {making.view("table", open, make)}
        </div>
    }
}

/// What is said where there is nothing to save.
const NOTHING: &str = "There are no marks to save yet: nothing is sealed, what there is stays \
    unseen, or its rubric is not here.";

fn file_kind(format: TableFormat) -> save_file::Kind {
    match format {
        TableFormat::Xlsx => save_file::Kind::Xlsx,
        TableFormat::Csv(_) => save_file::Kind::Csv,
    }
}
