use leptos::ev;
use leptos::prelude::*;

use crate::command::Command;
use crate::page::dom;
use crate::page::keeper::Keeper;
use crate::page::widgets::TextField;
use crate::present::sentence;
use crate::records::LearnerId;

/// Corrects name and number.
#[component]
pub(super) fn Rename(
    id: LearnerId,
    name: String,
    number: String,
    open: RwSignal<bool>,
) -> impl IntoView {
    let keeper = Keeper::here();
    let name = RwSignal::new(name);
    let number = RwSignal::new(number);
    let error = RwSignal::new(None::<String>);
    dom::focus_soon("name");
    let close = move || {
        open.set(false);
        dom::focus_soon("rename-button");
    };
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let command = Command::RenameLearner {
            learner: id,
            name: name.get_untracked(),
            given_number: Some(number.get_untracked()),
        };
        match keeper.perform(command) {
            Ok(_) => close(),
            Err(refused) => {
                error.set(Some(sentence(&refused.to_string())));
                dom::focus_soon("name");
            }
        }
    };
    view! {
        <form class="stack narrow" novalidate on:submit=submit>
            <TextField
                id="name"
                label="Name"
                hint="Sheets sealed before show the new name too, and their seal tells that it changed."
                error
                value=name
            />
            <TextField id="number" label="Number, if there is one" value=number />
            <div class="actions">
                <button class="button">"Keep this name"</button>
                <button class="button" data-kind="quiet" type="button" on:click=move |_| close()>
                    "Leave it as it was"
                </button>
            </div>
        </form>
    }
}
