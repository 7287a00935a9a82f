use leptos::prelude::*;

use super::column_names::ColumnNames;
use super::{Dialog, TileChoice, Tiles};
use crate::job::{TableFormat, Topic};
use crate::page::keeper::Keeper;
use crate::page::{jobs, save_file};
use crate::present::paper_files::{FileState, PapersWanted, file_state};
use crate::present::table_files::{format_choices, table_base, tables_job};

/// How far a table is.
#[derive(Debug, Clone, PartialEq)]
enum Stage {
    /// Nothing was asked for yet.
    Choosing,
    /// The worker has it.
    Asked(Topic),
    /// It was handed over, or why it was not.
    Over { text: String, is_well: bool },
}

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
    let stage = RwSignal::new(Stage::Choosing);
    let format = RwSignal::new(TableFormat::Xlsx.word().to_owned());
    let chosen = Memo::new(move |_| format.with(|word| TableFormat::from_word(word)));
    // What was asked for, whatever is chosen since.
    let file = StoredValue::new(None::<(String, save_file::Kind)>);
    let ask = move |_| {
        let Some(sheets) = wanted.run(()) else {
            stage.set(failed(NOTHING.to_owned()));
            return;
        };
        let format = chosen.get_untracked();
        file.set_value(Some((table_base(&sheets, format), file_kind(format))));
        match tables_job(&keeper.ledger_now(), &sheets, format) {
            Ok((topic, job)) => {
                stage.set(Stage::Asked(topic.clone()));
                jobs::ask(topic, job);
            }
            Err(why) => stage.set(failed(why)),
        }
    };
    let state = Memo::new(move |_| match stage.get() {
        Stage::Asked(topic) => Some(file_state(jobs::state(&topic).as_ref())),
        _ => None,
    });
    Effect::new(move |_| {
        let over = match state.get() {
            Some(FileState::Ready { bytes, text, .. }) => {
                let Some((base, kind)) = file.get_value() else {
                    return;
                };
                match save_file::offer_bytes(&base, kind, &bytes) {
                    Ok(name) => Stage::Over {
                        text: format!("{name}: {text}"),
                        is_well: true,
                    },
                    Err(why) => failed(why),
                }
            }
            Some(FileState::None(why)) => failed(why),
            Some(FileState::Busy { .. }) | None => return,
        };
        let_go(stage);
        stage.set(over);
    });
    // Whoever closes it wants it no more.
    on_cleanup(move || let_go(stage));
    let is_busy = Memo::new(move |_| stage.with(|stage| matches!(stage, Stage::Asked(_))));
    let choices = format_choices().into_iter();
    let choices = choices.map(|(word, title, note)| TileChoice::new(word, title, note));
    let choices: Vec<TileChoice> = choices.collect();
    let names = move || match chosen.get() {
        TableFormat::Csv(layout) => Some(view! { <ColumnNames layout /> }),
        TableFormat::Xlsx => None,
    };
    let stop = move |_| {
        if let Stage::Asked(topic) = stage.get_untracked() {
            jobs::stop(&topic.about);
        }
    };
    view! {
        <div class="stack">
            <h2 id="save-table">"Save as table"</h2>
            <Tiles name="table" legend="Format" choices value=format columns=1 />
            {names}
            <div class="stack" role="status" id="table-says">
                {move || says(&stage.get(), state.get())}
            </div>
            <div class="actions">
                <button
                    type="button"
                    class="button"
                    data-kind="primary"
                    id="make-table"
                    disabled=move || is_busy.get()
                    on:click=ask
                >
                    "Make the file"
                </button>
                <Show
                    when=move || is_busy.get()
                    fallback=move || view! {
                        <button type="button" class="button" on:click=move |_| open.set(false)>"Close"</button>
                    }
                >
                    <button type="button" class="button" on:click=stop>"Stop"</button>
                </Show>
            </div>
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

fn failed(text: String) -> Stage {
    Stage::Over {
        text,
        is_well: false,
    }
}

/// Ends what is under way, and keeps nothing of it.
fn let_go(stage: RwSignal<Stage>) {
    if let Some(Stage::Asked(topic)) = stage.try_get_untracked() {
        jobs::stop(&topic.about);
        jobs::forget(&topic.about);
    }
}

fn says(stage: &Stage, state: Option<FileState>) -> Option<AnyView> {
    match (stage, state) {
        (Stage::Asked(_), Some(FileState::Busy { text, share })) => Some(
            view! {
                <p>{text}</p>
                <progress aria-label="How much is done" value=share max="1"></progress>
            }
            .into_any(),
        ),
        (Stage::Choosing | Stage::Asked(_), _) => None,
        (Stage::Over { text, is_well }, _) => {
            let kind = (!is_well).then_some("stop");
            let text = text.clone();
            Some(view! { <div class="notice" data-kind=kind><p>{text}</p></div> }.into_any())
        }
    }
}
