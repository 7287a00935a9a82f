//! What can be done with a marking once it is sealed, at the foot of its sheet.

use leptos::prelude::*;

use crate::command::Command;
use crate::page::keeper::Keeper;
use crate::page::widgets::{Question, feedback as feedback_line};
use crate::page::{clock, dom, paths};
use crate::present::{AfterSeal as Shown, ERASING_DOES, Feedback};
use crate::records::{MarkingId, PieceId, SittingId};

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

/// Give feedback, correct, erase, verify.
#[component]
pub(super) fn AfterSeal(
    /// The piece.
    piece: PieceId,
    /// The sealed marking.
    marking: MarkingId,
    /// What can be done with it.
    shown: Shown,
    /// Whether its learner was told what to make of it.
    feedback: Feedback,
    /// The sitting that is to be released first, where it waits for that.
    sitting: Option<SittingId>,
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
    let sitting = sitting.map(|sitting| {
        let href = paths::sitting(sitting);
        view! { <a class="button" href=href>"Its sitting"</a> }
    });
    let erase = shown.erases.then(|| view! { <Erase marking /> });
    view! {
        <section class="part stack screen-only" aria-labelledby="after-seal">
            <h2 id="after-seal">"Now that it is sealed"</h2>
            {feedback_line(piece, feedback, "")}
            <div class="actions">
                {sitting}
                <a class="button" href=paths::VERIFY>"Verify a saved file"</a>
                {correct}
                {open}
                {erase}
            </div>
        </section>
    }
}

fn perform(keeper: Keeper, command: Command) {
    keeper.perform_or_say(NOT_DONE, command);
    request_animation_frame(dom::focus_heading);
}

#[component]
fn Throw(correction: MarkingId) -> impl IntoView {
    let keeper = Keeper::here();
    let asked = RwSignal::new(false);
    let marking = correction;
    let throw = Callback::new(move |()| perform(keeper, Command::DeleteDraft { marking }));
    view! {
        <button type="button" class="button" on:click=move |_| asked.set(true)>
            "Throw the correction away"
        </button>
        <Question
            id="throw-heading"
            open=asked
            asks=|| "Throw the correction away?"
            yes="Throw it away"
            no="Keep it"
            done=throw
        >
            <p>"What is changed in it is gone for good. The sealed marking stays as it is and counts."</p>
        </Question>
    }
}

#[component]
fn Erase(marking: MarkingId) -> impl IntoView {
    let keeper = Keeper::here();
    let asked = RwSignal::new(false);
    let erase = Callback::new(move |()| {
        let at = clock::now();
        perform(keeper, Command::EraseText { marking, at });
    });
    view! {
        <button type="button" class="button" on:click=move |_| asked.set(true)>
            "Erase comments and photos"
        </button>
        <Question
            id="erase-heading"
            open=asked
            asks=|| "Erase comments and photos for good?"
            yes="Erase them"
            no="Keep them"
            done=erase
        >
            {ERASING_DOES.map(|text| view! { <p>{text}</p> }).into_iter().collect_view()}
        </Question>
    }
}
