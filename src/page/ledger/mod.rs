//! The whole ledger: what is on this device, everything as one file, and such a file
//! read back.

mod instrument_form;
mod instruments;
mod pictures;
mod read_back;
mod sign;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::keeper::Keeper;
use super::notices::{Notice, Weight};
use super::pictures::fetched;
use super::{clock, dom, paths, save_file};
use crate::present::{LedgerPage as Shown, ledger_file, ledger_page};
use crate::records::PictureBytes;
pub(super) use instruments::InstrumentsPage;
use read_back::ReadBack;
use sign::Sign;

/// Key of the notice that a file could not be made.
const NO_FILE: &str = "no-ledger-file";

/// What is on this device, as one file and from one.
#[component]
pub(super) fn LedgerPage() -> impl IntoView {
    dom::set_title("Ledger");
    let keeper = Keeper::here();
    let shown = Memo::new(move |_| {
        let unreadable = keeper.unreadable();
        unreadable.with(|unreadable| keeper.with_ledger(|ledger| ledger_page(ledger, unreadable)))
    });
    let counted = move || shown.with(|shown| shown.counted.clone());
    let has_something = Memo::new(move |_| shown.with(|shown| shown.has_something));
    view! {
        <div class="page-head">
            <div>
                <h1>"Ledger"</h1>
                <p>{counted}</p>
            </div>
            <div class="actions">
                <a class="button" href=paths::INSTRUMENTS>"Instruments"</a>
            </div>
        </div>
        {move || shown.with(unreadable)}
        <Show when=move || has_something.get()>
            <dl class="facts">{move || shown.with(kinds)}</dl>
            <SaveAll />
            {pictures::unused()}
        </Show>
        <ReadBack />
        <section class="part" aria-labelledby="verify">
            <h2 id="verify">"Verify"</h2>
            <div class="stack narrow">
                <p>"See whether a saved marking or ledger file is as it was sealed. Nothing of it is taken in."</p>
                <div class="actions">
                    <a class="button" href=paths::VERIFY>"Verify a saved file"</a>
                </div>
            </div>
        </section>
        <Sign />
    }
}

fn kinds(shown: &Shown) -> AnyView {
    let kinds = shown.kinds.iter();
    kinds
        .map(|(kind, count)| view! { <div><dt>{*kind}</dt><dd>{count.clone()}</dd></div> })
        .collect_view()
        .into_any()
}

fn unreadable(shown: &Shown) -> Option<AnyView> {
    let items = shown.unreadable.iter();
    let items = items
        .map(|text| view! { <li>{text.clone()}</li> })
        .collect_view();
    (!shown.unreadable.is_empty()).then(|| {
        view! {
            <div class="notice part" data-kind="warn">
                <p>
                    <b>"These records cannot be read. "</b>
                    "They stay as they are, and the file has them as they are:"
                </p>
                <ul>{items}</ul>
            </div>
        }
        .into_any()
    })
}

#[component]
fn SaveAll() -> impl IntoView {
    let keeper = Keeper::here();
    let saved = RwSignal::new(String::new());
    let busy = RwSignal::new(false);
    let save = move |pictures: Result<Vec<(String, PictureBytes)>, String>| {
        let file = pictures.and_then(|pictures| {
            keeper.unreadable().with_untracked(|unreadable| {
                ledger_file(
                    &keeper.ledger_now(),
                    unreadable,
                    pictures,
                    &keeper.device(),
                    clock::now(),
                )
            })
        });
        let file = file.and_then(|file| {
            save_file::offer(&file.base, save_file::Kind::Json, &file.text).map(|()| file.words)
        });
        match file {
            Ok(words) => {
                saved.set(words);
                keeper.notices().clear(NO_FILE);
            }
            Err(text) => keeper.notices().show(Notice {
                key: NO_FILE,
                weight: Weight::Stop,
                text,
                remedy: None,
                closes: true,
            }),
        }
    };
    let save_all = move |_| {
        busy.set(true);
        spawn_local(async move {
            let ledger = keeper.ledger_now();
            let digests = ledger.pictures().map(|known| known.digest.clone());
            let found = fetched(keeper, digests.collect()).await;
            // Not once the page is left.
            if busy.try_set(false).is_none() {
                save(found);
            }
        });
    };
    view! {
        <section class="part" aria-labelledby="save">
            <h2 id="save">"Save"</h2>
            <div class="stack narrow">
                <p>
                    "One file holds every learner, piece and marking of this device, with the rubrics they were marked by. It is not locked: who has the file can read it."
                </p>
                <div class="actions">
                    <button
                        type="button"
                        class="button"
                        data-kind="primary"
                        id="save-all"
                        disabled=move || busy.get()
                        on:click=save_all
                    >
                        "Save everything as one file"
                    </button>
                </div>
                <p class="quiet" role="status" id="saved-words">{move || saved.get()}</p>
            </div>
        </section>
    }
}
