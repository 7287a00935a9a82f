//! Handing marks over: a button that asks who does it.

use leptos::prelude::*;

use super::{Dialog, PushButton, SelectField};
use crate::command::Command;
use crate::page::keeper::Keeper;
use crate::page::{clock, dom, preferences};
use crate::present::{Feedback, Handing, HandingChoices};
use crate::records::PieceId;

/// Key of the notice that it was refused.
const NOT_HANDED: &str = "not-handed";
/// Id of the field that asks who.
const WHO: &str = "handing-who";

/// Releases marks, holds them back or notes feedback, once somebody is chosen who does it.
#[component]
pub(crate) fn HandingButton(
    /// What is done.
    handing: Handing,
    /// What it is done with, where the page has several such buttons.
    #[prop(optional, into)]
    of: String,
) -> impl IntoView {
    let keeper = Keeper::here();
    let open = RwSignal::new(false);
    let ask = PushButton {
        label: (!of.is_empty()).then(|| format!("{}: {of}", handing.button())),
        ..PushButton::plain(handing.button(), move || open.set(true))
    };
    view! {
        {ask.view()}
        <Dialog labelled_by="handing-heading" open>
            {asked(keeper, handing, open)}
        </Dialog>
    }
}

fn asked(keeper: Keeper, handing: Handing, open: RwSignal<bool>) -> AnyView {
    let choices = HandingChoices::of(&keeper.ledger_now(), &preferences::examiner());
    let by = RwSignal::new(choices.chosen);
    let error = RwSignal::new(None::<String>);
    let done = move |_| match handing.read(&by.get_untracked(), clock::now()) {
        Ok(command) => {
            open.set(false);
            perform(keeper, command);
        }
        Err(text) => {
            error.set(Some(text));
            dom::focus_soon(WHO);
        }
    };
    let does = handing.does().iter().map(|text| view! { <p>{*text}</p> });
    view! {
        <div class="stack">
            <h2 id="handing-heading">{handing.asks()}</h2>
            {does.collect_view()}
            <SelectField id=WHO label=handing.who() options=choices.options error value=by />
            <div class="actions">
                <button type="button" class="button" data-kind="primary" on:click=done>
                    {handing.yes()}
                </button>
                <button type="button" class="button" on:click=move |_| open.set(false)>
                    "Leave it as it is"
                </button>
            </div>
        </div>
    }
    .into_any()
}

fn perform(keeper: Keeper, command: Command) {
    keeper.perform_or_say(NOT_HANDED, command);
    // The button that asked goes, and the row or sheet says what was done.
    request_animation_frame(dom::focus_heading);
}

/// Whether feedback was given, with the way to note it or to take the note back; nothing
/// where neither is so. `of` is whose piece it is, where the page has several.
pub(crate) fn feedback(piece: PieceId, shown: Feedback, of: &str) -> Option<AnyView> {
    let keeper = Keeper::here();
    let give = shown
        .give
        .map(|handing| view! { <HandingButton handing of=of.to_owned() /> });
    let given = (!shown.given.is_empty()).then(|| {
        let words = "Take the note back";
        let back = PushButton {
            label: (!of.is_empty()).then(|| format!("{words}: {of}")),
            ..PushButton::plain(words, move || {
                perform(keeper, Command::TakeBackFeedback { piece });
            })
        };
        view! {
            <p>{shown.given}</p>
            {back.view()}
        }
    });
    (give.is_some() || given.is_some())
        .then(|| view! { <div class="actions">{given} {give}</div> }.into_any())
}
