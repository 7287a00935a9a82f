use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::{Dialog, TileChoice, Tiles};
use crate::job::{Binding, PaperSize, Topic};
use crate::page::keeper::Keeper;
use crate::page::pictures::fetched;
use crate::page::{jobs, preferences, save_file};
use crate::present::sheet_files::{
    FileState, SheetsWanted, binding_choices, file_state, paper_choices, pictures_on, sheets_job,
};

/// How far a file is, in the order in which that goes.
#[derive(Debug, Clone, PartialEq)]
enum Stage {
    /// Nothing was asked for yet.
    Choosing,
    /// Its pictures are fetched.
    Fetching,
    /// The worker has it.
    Asked(Topic),
    /// It was handed over, or why it was not; and what is drawn as boxes in it.
    Over {
        text: String,
        boxes: String,
        is_well: bool,
    },
}

/// A button that asks on which paper, and saves sheets as a PDF or, where they are several,
/// each as one in a ZIP.
#[component]
pub(crate) fn SavePdf(
    /// Which sheets, as things are when it is asked.
    wanted: Callback<(), Option<SheetsWanted>>,
    /// Whether they are several.
    #[prop(optional)]
    several: bool,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let words = if several {
        "Save all as PDF"
    } else {
        "Save as PDF"
    };
    view! {
        <button type="button" class="button" on:click=move |_| open.set(true)>{words}</button>
        <Dialog labelled_by="save-pdf" open>
            <Inside wanted several open />
        </Dialog>
    }
}

#[component]
fn Inside(
    wanted: Callback<(), Option<SheetsWanted>>,
    several: bool,
    open: RwSignal<bool>,
) -> impl IntoView {
    let keeper = Keeper::here();
    let stage = RwSignal::new(Stage::Choosing);
    let paper = RwSignal::new(preferences::paper().word().to_owned());
    let binding = RwSignal::new(Binding::default().word().to_owned());
    let base = StoredValue::new(String::new());
    let ask = move |_| {
        let size = PaperSize::from_word(&paper.get_untracked());
        preferences::set_paper(size);
        let bound = Binding::from_word(&binding.get_untracked());
        stage.set(Stage::Fetching);
        spawn_local(async move {
            let ledger = keeper.ledger_now();
            let Some(sheets) = wanted.run(()) else {
                drop(stage.try_set(failed(NOTHING.to_owned())));
                return;
            };
            let pictures = fetched(keeper, pictures_on(&ledger, &sheets)).await;
            let job =
                pictures.and_then(|pictures| sheets_job(&ledger, &sheets, pictures, size, bound));
            // Not once the dialog is closed.
            if base.try_set_value(sheets.base).is_some() {
                return;
            }
            match job {
                Ok((topic, job)) => {
                    stage.set(Stage::Asked(topic.clone()));
                    jobs::ask(topic, job);
                }
                Err(why) => stage.set(failed(why)),
            }
        });
    };
    let state = Memo::new(move |_| match stage.get() {
        Stage::Asked(topic) => Some(file_state(jobs::state(&topic).as_ref())),
        _ => None,
    });
    Effect::new(move |_| {
        let over = match state.get() {
            Some(FileState::Ready { bytes, text, boxes }) => {
                let bound = Binding::from_word(&binding.get_untracked());
                let kind = match bound {
                    Binding::Zip if several => save_file::Kind::Zip,
                    _ => save_file::Kind::Pdf,
                };
                let offered = base.with_value(|base| save_file::offer_bytes(base, kind, &bytes));
                match offered {
                    Ok(name) => Stage::Over {
                        text: format!("{name}: {text}"),
                        boxes,
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
    let is_busy =
        Memo::new(move |_| stage.with(|stage| matches!(stage, Stage::Fetching | Stage::Asked(_))));
    let binding_tiles = several.then(|| {
        let choices = binding_choices().map(|(word, title, note)| TileChoice::new(word, title, note));
        view! {
            <Tiles name="binding" legend="Several sheets" choices=choices.to_vec() value=binding columns=2 />
        }
    });
    let choices = paper_choices().map(|(word, title, note)| TileChoice::new(word, title, note));
    let shown = move || says(&stage.get(), state.get());
    view! {
        <div class="stack">
            <h2 id="save-pdf">"Save as PDF"</h2>
            <Tiles name="paper" legend="Paper" choices=choices.to_vec() value=paper columns=2 />
            {binding_tiles}
            <div class="stack" role="status" id="pdf-says">{shown}</div>
            <div class="actions">
                <button
                    type="button"
                    class="button"
                    data-kind="primary"
                    id="make-pdf"
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
                    <button type="button" class="button" on:click=move |_| stop(stage)>"Stop"</button>
                </Show>
            </div>
        </div>
    }
}

/// What is said where there is nothing to save.
const NOTHING: &str =
    "There is no sheet to save yet: nothing of it is sealed, or its rubric is not here.";

fn failed(text: String) -> Stage {
    Stage::Over {
        text,
        boxes: String::new(),
        is_well: false,
    }
}

fn stop(stage: RwSignal<Stage>) {
    match stage.get_untracked() {
        Stage::Asked(topic) => jobs::stop(&topic.about),
        Stage::Fetching => stage.set(Stage::Choosing),
        Stage::Choosing | Stage::Over { .. } => {}
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
        (Stage::Choosing, _) => None,
        (Stage::Fetching, _) => Some(view! { <p>"Fetching its photos."</p> }.into_any()),
        (Stage::Asked(_), Some(FileState::Busy { text, share })) => Some(
            view! {
                <p>{text}</p>
                <progress aria-label="How much is done" value=share max="1"></progress>
            }
            .into_any(),
        ),
        (Stage::Asked(_), _) => None,
        (
            Stage::Over {
                text,
                boxes,
                is_well,
            },
            _,
        ) => {
            let kind = (!is_well).then_some("stop");
            let boxes = (!boxes.is_empty()).then(|| {
                view! { <div class="notice" data-kind="warn"><p>{boxes.clone()}</p></div> }
            });
            Some(
                view! {
                    <div class="notice" data-kind=kind><p>{text.clone()}</p></div>
                    {boxes}
                }
                .into_any(),
            )
        }
    }
}
