use leptos::ev;
use leptos::prelude::*;

use super::widgets::{MarksFigure, TextField};
use super::{Keeper, clock, dom, paths};
use crate::command::Command;
use crate::present::{LearnerRow, learner_rows, learners_counted, sentence, set_apart};

/// Every learner, and a line to add one.
#[component]
pub(super) fn LearnersPage() -> impl IntoView {
    dom::set_title("Learners");
    let keeper = Keeper::here();
    let rows = Memo::new(move |_| {
        keeper.look(|ledger, rubrics| learner_rows(ledger, rubrics, clock::now()))
    });
    let counted = move || rows.with(|rows| learners_counted(rows.len()));
    view! {
        <div class="page-head">
            <div>
                <h1>"Learners"</h1>
                <p>{counted}</p>
            </div>
            <Show when=move || !rows.with(Vec::is_empty)>
                <div class="actions">
                    <a class="button" href=paths::COHORT>"Cohort"</a>
                    <a class="button" href=paths::CLASS>"For a class"</a>
                </div>
            </Show>
        </div>
        <AddLearner keeper />
        <Show when=move || rows.with(|rows| rows.iter().any(|row| !row.is_over))>
            <section class="part" aria-labelledby="all">
                <h2 id="all">"In training"</h2>
                <ul class="pieces">{move || listed(&rows.get(), false)}</ul>
            </section>
        </Show>
        <Show when=move || rows.with(|rows| rows.iter().any(|row| row.is_over))>
            <section class="part" aria-labelledby="over">
                <h2 id="over">"Completed or left"</h2>
                <ul class="pieces">{move || listed(&rows.get(), true)}</ul>
            </section>
        </Show>
    }
}

fn listed(rows: &[LearnerRow], is_over: bool) -> impl IntoView + use<> {
    let rows = rows.iter().filter(|row| row.is_over == is_over).cloned();
    rows.map(row).collect_view()
}

fn row(row: LearnerRow) -> impl IntoView {
    view! {
        <li class="piece">
            <a href=paths::learner(row.id)>{row.name}</a>
            <p>{row.about}</p>
            <p class="now">{row.now}</p>
            <MarksFigure marks=row.marks />
        </li>
    }
}

#[component]
fn AddLearner(keeper: Keeper) -> impl IntoView {
    let name = RwSignal::new(String::new());
    let number = RwSignal::new(String::new());
    let error = RwSignal::new(None::<String>);
    let added = RwSignal::new(String::new());
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let command = Command::AddLearner {
            name: name.get_untracked(),
            given_number: Some(number.get_untracked()),
        };
        match keeper.perform(command) {
            Ok(_) => {
                added.set(format!(
                    "{} is added.",
                    set_apart(name.get_untracked().trim())
                ));
                name.set(String::new());
                number.set(String::new());
                error.set(None);
            }
            Err(refused) => {
                added.set(String::new());
                error.set(Some(sentence(&refused.to_string())));
            }
        }
        dom::focus_soon("new");
    };
    view! {
        <form class="stack narrow" novalidate on:submit=submit>
            <TextField
                id="new"
                label="New learner"
                hint="Name, as the sheet shall say it."
                error
                value=name
            />
            <TextField
                id="new-number"
                label="Number, if there is one"
                hint="It tells people of one name apart, and stands beside the name."
                value=number
            />
            <div class="actions">
                <button class="button" data-kind="primary">"Add learner"</button>
                <p class="quiet" role="status">{move || added.get()}</p>
            </div>
        </form>
    }
}
