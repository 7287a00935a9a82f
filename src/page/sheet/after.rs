//! What can be done with a marking once it is sealed, at the foot of its sheet.

use leptos::prelude::*;

use crate::command::Command;
use crate::page::keeper::Keeper;
use crate::page::notices::{Notice, Weight};
use crate::page::widgets::Dialog;
use crate::page::{clock, dom, paths};
use crate::present::{AfterSeal as Shown, ERASING_DOES, sentence};
use crate::records::{MarkingId, PieceId};

/// Key of the notice that it was refused.
const NOT_DONE: &str = "not-done";

/// Ways to the markings that this one is tied to: its correction, or what it corrects.
pub(super) fn kin(piece: PieceId, shown: &Shown) -> impl IntoView + use<> {
    let way = |marking: Option<MarkingId>, text: &'static str| {
        let href = marking.map(|marking| paths::sheet_of(piece, marking));
        href.map(|href| view! { <a class="button" href=href>{text}</a> })
    };
    let after = way(shown.after, "The sheet that replaces it");
    let before = way(shown.before, "The sheet that it corrects");
    view! {
        {after}
        {before}
    }
}

/// Correct, erase, verify.
#[component]
pub(super) fn AfterSeal(
    /// The piece.
    piece: PieceId,
    /// The sealed marking.
    marking: MarkingId,
    /// What can be done with it.
    shown: Shown,
) -> impl IntoView {
    let correct = shown.corrects.then(|| {
        let href = paths::correct(piece, marking);
        view! { <a class="button" href=href>"Correct this marking"</a> }
    });
    let open = shown.open.map(|open| {
        let href = paths::marking(piece, open);
        view! {
            <a class="button" href=href>"Go on with the correction"</a>
            <Throw correction=open />
        }
    });
    let erase = shown.erases.then(|| view! { <Erase marking /> });
    view! {
        <section class="part screen-only" aria-labelledby="after-seal">
            <h2 id="after-seal">"Now that it is sealed"</h2>
            <div class="actions">
                <a class="button" href=paths::VERIFY>"Verify a saved file"</a>
                {correct}
                {open}
                {erase}
            </div>
        </section>
    }
}

fn perform(keeper: Keeper, command: Command) {
    match keeper.perform(command) {
        Ok(_) => keeper.notices().clear(NOT_DONE),
        Err(error) => keeper.notices().show(Notice {
            key: NOT_DONE,
            weight: Weight::Stop,
            text: sentence(&error.to_string()),
            remedy: None,
            closes: true,
        }),
    }
    request_animation_frame(dom::focus_heading);
}

#[component]
fn Throw(correction: MarkingId) -> impl IntoView {
    let keeper = Keeper::here();
    let asked = RwSignal::new(false);
    let throw = move |_| {
        asked.set(false);
        let marking = correction;
        perform(keeper, Command::DeleteDraft { marking });
    };
    view! {
        <button type="button" class="button" on:click=move |_| asked.set(true)>
            "Throw the correction away"
        </button>
        <Dialog labelled_by="throw-heading" open=asked>
            <div class="stack">
                <h2 id="throw-heading">"Throw the correction away?"</h2>
                <p>"What is changed in it is gone for good. The sealed marking stays as it is and counts."</p>
                <div class="actions">
                    <button type="button" class="button" data-kind="primary" on:click=throw>
                        "Throw it away"
                    </button>
                    <button type="button" class="button" autofocus on:click=move |_| asked.set(false)>
                        "Keep it"
                    </button>
                </div>
            </div>
        </Dialog>
    }
}

#[component]
fn Erase(marking: MarkingId) -> impl IntoView {
    let keeper = Keeper::here();
    let asked = RwSignal::new(false);
    let erase = move |_| {
        asked.set(false);
        let at = clock::now();
        perform(keeper, Command::EraseText { marking, at });
    };
    view! {
        <button type="button" class="button" on:click=move |_| asked.set(true)>
            "Erase the comments"
        </button>
        <Dialog labelled_by="erase-heading" open=asked>
            <div class="stack">
                <h2 id="erase-heading">"Erase the comments for good?"</h2>
                {ERASING_DOES.map(|text| view! { <p>{text}</p> }).into_iter().collect_view()}
                <div class="actions">
                    <button type="button" class="button" data-kind="primary" on:click=erase>
                        "Erase them"
                    </button>
                    <button type="button" class="button" autofocus on:click=move |_| asked.set(false)>
                        "Keep them"
                    </button>
                </div>
            </div>
        </Dialog>
    }
}
