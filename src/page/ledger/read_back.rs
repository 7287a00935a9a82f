use std::sync::Arc;

use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::HtmlInputElement;

use crate::page::keeper::Keeper;
use crate::page::verify::check_all;
use crate::page::{dom, open_file};
use crate::present::verify::{LedgerCheck, LedgerFound};
use crate::present::{MergeRow, Saving, TakeOver, read_ledger_file, sentence, too_large};
use crate::records::Bundle;

/// How far a file has come.
#[derive(Debug, Clone)]
enum Stage {
    Waiting,
    Reading,
    /// Its seals are checked; how far that is.
    Checking(String),
    Refused(String),
    /// What it would change is shown, and what its seals came to.
    Read(Arc<Bundle>, Arc<LedgerFound>),
    /// With what to say once it is stored.
    Storing(Arc<Bundle>, String),
    Done(String),
}

/// A file chosen, what it would change, and taking it over.
#[component]
pub(super) fn ReadBack() -> impl IntoView {
    let keeper = Keeper::here();
    let stage = RwSignal::new(Stage::Waiting);
    let chosen = move |event: ev::Event| {
        let input: HtmlInputElement = event_target(&event);
        let file = input.files().and_then(|files| files.get(0));
        let Some(file) = file else { return };
        stage.set(Stage::Reading);
        spawn_local(async move {
            let read = match too_large(open_file::size_of(&file)) {
                Some(text) => Err(text),
                None => open_file::bytes_of(&file).await,
            };
            // The same file may be chosen again.
            input.set_value("");
            match read.and_then(|bytes| read_ledger_file(&bytes)) {
                Err(text) => stage.set(Stage::Refused(text)),
                Ok(bundle) => {
                    let tell = |text: String| drop(stage.try_set(Stage::Checking(text)));
                    let mut check = LedgerCheck::of(&bundle, None);
                    // Not once the page is left.
                    check_all(&mut check, || !stage.is_disposed(), tell).await;
                    stage.try_set(Stage::Read(bundle, Arc::new(check.found())));
                    dom::focus_soon("would-change");
                }
            }
        });
    };
    Effect::new(move |_| finish(keeper, stage));
    let is_busy = Memo::new(move |_| {
        stage.with(|stage| {
            matches!(
                stage,
                Stage::Reading | Stage::Checking(_) | Stage::Storing(..)
            )
        })
    });
    let is_refused = Memo::new(move |_| stage.with(|stage| matches!(stage, Stage::Refused(_))));
    view! {
        <section class="part" aria-labelledby="read">
            <h2 id="read">"Read a file back"</h2>
            <div class="stack narrow">
                <div class="field">
                    <label for="ledger-file">"Ledger file"</label>
                    <p class="hint" id="ledger-file-hint">
                        "Its name begins with evenshod-ledger. You see first what it would change. Nothing here is deleted; drafts that were deleted here since come back."
                    </p>
                    <input
                        class="input"
                        id="ledger-file"
                        type="file"
                        accept=".json,application/json"
                        aria-describedby="ledger-file-hint"
                        aria-invalid=move || is_refused.get().then_some("true")
                        disabled=move || is_busy.get()
                        on:change=chosen
                    />
                </div>
                <div class="stack" role="status" id="ledger-says">
                    {move || says(keeper, &stage.get())}
                </div>
            </div>
        </section>
        {move || match stage.get() {
            Stage::Read(bundle, seals) => Some(view! { <WouldChange bundle seals stage /> }),
            _ => None,
        }}
    }
}

fn says(keeper: Keeper, stage: &Stage) -> Option<AnyView> {
    let notice = |kind: Option<&'static str>, text: String| {
        view! { <div class="notice" data-kind=kind><p>{text}</p></div> }.into_any()
    };
    let plain = |text: &'static str| view! { <p>{text}</p> }.into_any();
    match stage {
        Stage::Waiting | Stage::Read(..) => None,
        Stage::Reading => Some(plain("Reading the file…")),
        Stage::Checking(text) => Some(view! { <p>{text.clone()}</p> }.into_any()),
        Stage::Storing(..) => Some(plain(if keeper.saving() == Saving::NotSaved {
            "Not stored yet. The message at the top of the page says why."
        } else {
            "Storing what the file brings…"
        })),
        Stage::Refused(text) => Some(notice(
            Some("stop"),
            format!("{text} Nothing here has changed."),
        )),
        Stage::Done(text) => Some(notice(None, text.clone())),
    }
}

/// Says so once what was taken over is stored.
fn finish(keeper: Keeper, stage: RwSignal<Stage>) {
    let Stage::Storing(bundle, done) = stage.get() else {
        return;
    };
    // Tells when to look again.
    let saving = keeper.saving();
    if !keeper.is_stored() || saving == Saving::NotSaved {
        return;
    }
    let is_in = keeper
        .unreadable()
        .with_untracked(|unreadable| TakeOver::is_in(&keeper.ledger_now(), unreadable, &bundle));
    stage.set(if is_in {
        Stage::Done(done)
    } else {
        Stage::Refused(
            "The file was not taken over. The message at the top of the page says why; read the \
             file again."
                .to_owned(),
        )
    });
}

#[component]
fn WouldChange(
    bundle: Arc<Bundle>,
    seals: Arc<LedgerFound>,
    stage: RwSignal<Stage>,
) -> impl IntoView {
    let keeper = Keeper::here();
    let bundle = StoredValue::new(bundle);
    // As another tab may change it meanwhile.
    let shown = Memo::new(move |_| {
        let unreadable = keeper.unreadable();
        unreadable.with(|unreadable| {
            keeper.with_ledger(|ledger| {
                bundle.with_value(|bundle| TakeOver::of(ledger, unreadable, bundle))
            })
        })
    });
    let take = move |_| {
        let bundle = bundle.get_value();
        let done = shown.with_untracked(|shown| shown.done.clone());
        let command = keeper
            .unreadable()
            .with_untracked(|unreadable| TakeOver::command(unreadable, &bundle));
        dom::focus_soon("ledger-file");
        match keeper.perform(command) {
            Ok(_) => stage.set(Stage::Storing(bundle, done)),
            Err(error) => stage.set(Stage::Refused(sentence(&error.to_string()))),
        }
    };
    let leave = move |_| {
        stage.set(Stage::Waiting);
        dom::focus_soon("ledger-file");
    };
    let changes = Memo::new(move |_| shown.with(|shown| shown.changes));
    view! {
        <section class="part" aria-labelledby="would-change">
            <h2 id="would-change" tabindex="-1">"What would change"</h2>
            <div class="stack">
                <p>
                    {move || shown.with(|shown| shown.from.clone())} " "
                    <b>{move || shown.with(|shown| shown.outcome.clone())}</b>
                </p>
                {unsound(&seals.altered, "These sealed markings were altered since sealing; their seals do not stand:")}
                {unsound(&seals.unfit, "The signatures of these sealed markings do not fit:")}
                {move || shown.with(|shown| notes(&shown.notes))}
                {move || shown.with(|shown| table(&shown.rows))}
                <div class="actions">
                    <Show when=move || changes.get()>
                        <button
                            type="button"
                            class="button"
                            data-kind="primary"
                            id="take-over"
                            on:click=take
                        >
                            "Take it over"
                        </button>
                    </Show>
                    <button type="button" class="button" id="leave" on:click=leave>
                        {move || if changes.get() { "Leave it" } else { "Put it away" }}
                    </button>
                </div>
            </div>
        </section>
    }
}

/// Markings of the file whose seal or signature does not stand.
fn unsound(names: &[String], says: &'static str) -> Option<AnyView> {
    let items = names
        .iter()
        .map(|name| view! { <li dir="auto">{name.clone()}</li> })
        .collect_view();
    (!names.is_empty()).then(|| {
        view! {
            <div class="notice unsound" data-kind="stop">
                <p><b>{says}</b></p>
                <ul>{items}</ul>
            </div>
        }
        .into_any()
    })
}

fn notes(notes: &[String]) -> Option<AnyView> {
    let items = notes
        .iter()
        .map(|text| view! { <li dir="auto">{text.clone()}</li> })
        .collect_view();
    (!notes.is_empty()).then(|| {
        view! {
            <div class="notice" data-kind="warn">
                <p><b>"Look at these first:"</b></p>
                <ul>{items}</ul>
            </div>
        }
        .into_any()
    })
}

fn table(rows: &[MergeRow]) -> Option<AnyView> {
    let first = rows.first()?;
    let heads = first.cells.iter();
    let heads = heads
        .map(|(head, _)| view! { <th scope="col" class="num">{*head}</th> })
        .collect_view();
    let rows = rows.iter().map(|row| {
        let cells = row.cells.iter();
        let cells = cells
            .map(|(head, count)| {
                // On a phone only what there is some of takes a line.
                let is_none = (count == "0").then_some("");
                view! {
                    <td class="num" data-label=*head data-none=is_none>
                        {count.clone()}
                    </td>
                }
            })
            .collect_view();
        view! { <tr><th scope="row">{row.kind}</th>{cells}</tr> }
    });
    Some(
        view! {
            <table class="table" data-stack="">
                <caption>"Records in the file, by what becomes of them"</caption>
                <thead>
                    <tr><th scope="col">"Records"</th>{heads}</tr>
                </thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        }
        .into_any(),
    )
}
