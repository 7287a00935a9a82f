//! The pictures of a ledger that nothing names.

use leptos::prelude::*;

use crate::command::Command;
use crate::page::dom;
use crate::page::keeper::Keeper;
use crate::page::widgets::Question;
use crate::present::pictures::unused_words;

/// Key of the notice that they could not be thrown away.
const NOT_THROWN: &str = "pictures-not-thrown";

/// What nothing names any more, and a way to throw it away; nothing where all is named.
pub(super) fn unused() -> AnyView {
    let keeper = Keeper::here();
    let words = Memo::new(move |_| keeper.with_ledger(unused_words));
    let asked = RwSignal::new(false);
    let throw = Callback::new(move |()| {
        keeper.perform_or_say(NOT_THROWN, Command::DropUnusedPictures);
        request_animation_frame(dom::focus_heading);
    });
    view! {
        <Show when=move || words.with(Option::is_some)>
            <section class="part" aria-labelledby="unused-pictures">
                <h2 id="unused-pictures">"Pictures that are not used"</h2>
                <div class="stack narrow">
                    <p>{move || words.get()}</p>
                    <div class="actions">
                        <button type="button" class="button" on:click=move |_| asked.set(true)>
                            "Throw them away"
                        </button>
                    </div>
                </div>
            </section>
        </Show>
        <Question
            id="throw-pictures"
            open=asked
            asks=|| "Throw these pictures away?"
            yes="Throw them away"
            no="Keep them"
            done=throw
        >
            <p>"They are gone from this device for good. Undoing a step in an open mark sheet or rubric cannot bring them back."</p>
        </Question>
    }
    .into_any()
}
