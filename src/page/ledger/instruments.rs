//! The instruments of this ledger.

use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::instrument_form::form;
use crate::page::keeper::Keeper;
use crate::page::widgets::PushButton;
use crate::page::{clock, dom, paths};
use crate::present::{
    InstrumentRow, StudyRow, WHAT_FIGURES_MEAN, begin_study, instruments_page, retire_command,
    sentence, set_apart, study_rows, usual_commands,
};

/// Id of the button that opens the form for a new one.
pub(super) const ADD: &str = "instrument-add";

/// What is open: nothing, the form for a new instrument, or that of one.
pub(super) type Open = RwSignal<Option<Option<String>>>;

/// The list with what can be done with each.
#[component]
pub(crate) fn InstrumentsPage() -> impl IntoView {
    dom::set_title("Instruments");
    let keeper = Keeper::here();
    let shown = Memo::new(move |_| keeper.with_ledger(instruments_page));
    let open: Open = RwSignal::new(None);
    let said = RwSignal::new(String::new());
    let counted = move || shown.with(|shown| shown.counted.clone());
    let lacks_usual = Memo::new(move |_| shown.with(|shown| shown.lacks_usual));
    let usual = move || PushButton::plain("Add the usual ones", move || add_usual(keeper, said));
    let meaning = WHAT_FIGURES_MEAN
        .map(|text| view! { <p>{text}</p> })
        .collect_view();
    view! {
        <div class="page-head">
            <div>
                <h1>"Instruments"</h1>
                <p>{counted}</p>
            </div>
            <div class="actions">
                <a class="button" data-kind="quiet" href=paths::LEDGER>"Back to the ledger"</a>
            </div>
        </div>
        <div class="stack narrow">
            <p>
                "A marking begun from now on takes these figures in place of those that its rubric gives for the same short name. Markings that are begun keep theirs."
            </p>
            <div class="actions">
                <button
                    type="button"
                    class="button"
                    data-kind="primary"
                    id=ADD
                    on:click=move |_| open.set(Some(None))
                >
                    "Add an instrument"
                </button>
                <Show when=move || lacks_usual.get()>{usual().view()}</Show>
            </div>
            <p class="quiet" role="status" id="instruments-say">{move || said.get()}</p>
        </div>
        {move || open.get().map(|id| form(keeper, id, open, said))}
        {move || part("used", "In use", shown.with(|shown| shown.used.clone()), open, said)}
        {move || part("retired", "Retired", shown.with(|shown| shown.retired.clone()), open, said)}
        {studies(keeper)}
        <section class="part" aria-labelledby="meaning">
            <h2 id="meaning">"What the figures mean"</h2>
            <div class="stack narrow">{meaning}</div>
        </section>
    }
}

/// The studies of instruments; none is shown until there is one.
fn studies(keeper: Keeper) -> AnyView {
    let rows = Memo::new(move |_| keeper.with_ledger(study_rows));
    let row = |row: StudyRow| {
        view! {
            <li class="piece" data-kind="instrument">
                <a href=paths::study(row.id) dir="auto">{row.title}</a>
                <p>{row.about}</p>
            </li>
        }
        .into_any()
    };
    let part = move || {
        let rows: Vec<AnyView> = rows.get().into_iter().map(row).collect();
        (!rows.is_empty()).then(|| {
            view! {
                <section class="part" aria-labelledby="studies">
                    <h2 id="studies">"Studies"</h2>
                    <ul class="pieces">{rows}</ul>
                </section>
            }
        })
    };
    view! { {part} }.into_any()
}

/// Begins a study of an instrument and opens it.
fn begin(
    keeper: Keeper,
    instrument: &str,
    said: RwSignal<String>,
    go: impl Fn(&str, NavigateOptions),
) {
    match keeper.perform(begin_study(instrument, clock::today())) {
        Ok(made) => {
            if let Some(id) = made.study {
                go(&paths::study(id), NavigateOptions::default());
            }
        }
        Err(error) => said.set(sentence(&error.to_string())),
    }
}

fn add_usual(keeper: Keeper, said: RwSignal<String>) {
    let commands = usual_commands(&keeper.ledger_now());
    let refused = commands
        .into_iter()
        .find_map(|command| keeper.perform(command).err());
    said.set(match refused {
        None => "The usual instruments are added. Put in the figures of yours.".to_owned(),
        Some(error) => sentence(&error.to_string()),
    });
    dom::focus_soon(ADD);
}

fn part(
    id: &'static str,
    title: &'static str,
    rows: Vec<InstrumentRow>,
    open: Open,
    said: RwSignal<String>,
) -> Option<AnyView> {
    let is_empty = rows.is_empty();
    let rows = rows.into_iter().map(|shown| row(shown, open, said));
    let rows = rows.collect_view();
    (!is_empty).then(|| {
        view! {
            <section class="part" aria-labelledby=id>
                <h2 id=id>{title}</h2>
                <ul class="pieces">{rows}</ul>
            </section>
        }
        .into_any()
    })
}

fn row(shown: InstrumentRow, open: Open, said: RwSignal<String>) -> AnyView {
    let keeper = Keeper::here();
    let InstrumentRow {
        id,
        name,
        measures,
        figures,
        retired,
        can_study,
    } = shown;
    let of_row = id.clone();
    let change = PushButton {
        label: Some(format!("Change: {name}")),
        ..PushButton::plain("Change", move || open.set(Some(Some(of_row.clone()))))
    };
    let (word, done) = match retired {
        true => ("Bring back", "in use again"),
        false => ("Retire", "retired"),
    };
    let (of_row, called) = (id.clone(), name.clone());
    let retire = PushButton {
        label: Some(format!("{word}: {name}")),
        ..PushButton::plain(word, move || {
            let command = retire_command(&keeper.ledger_now(), &of_row, !retired);
            let refused = command.and_then(|command| keeper.perform(command).err());
            said.set(match refused {
                None => format!("{} is {done}.", set_apart(&called)),
                Some(error) => sentence(&error.to_string()),
            });
            dom::focus_soon(ADD);
        })
    };
    let of_row = id.clone();
    let go = use_navigate();
    let study = can_study.then(|| {
        let study = PushButton {
            label: Some(format!("New study: {}", set_apart(&name))),
            ..PushButton::plain("New study", move || {
                begin(keeper, &of_row, said, go.clone())
            })
        };
        study.view()
    });
    view! {
        <li class="piece" data-kind="instrument" id=format!("instrument-{id}")>
            <h3 dir="auto">{name}</h3>
            <p>{measures}</p>
            <p class="now" dir="auto">{figures}</p>
            <div class="actions">{change.view()} {study} {retire.view()}</div>
        </li>
    }
    .into_any()
}
