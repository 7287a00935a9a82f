//! Whether examiners mark alike.

use leptos::ev;
use leptos::prelude::*;

use super::keeper::Keeper;
use super::paper::{Paper, PrintButton};
use super::widgets::{
    SaveDocument, SelectField, TextField, TileChoice, Tiles, not_worked_out, working,
};
use super::{dom, jobs};
use crate::job::Topic;
use crate::present::{
    AgreementErrors, AgreementForm, HOW_TWICE, NOTHING_TWICE, Sure, agreement_choices,
    agreement_job, agreement_shown,
};

/// Agreement between the examiners who marked by one version of a rubric.
#[component]
pub(super) fn AgreementPage() -> impl IntoView {
    dom::set_title("Agreement between examiners");
    let keeper = Keeper::here();
    // What is merged or sealed meanwhile is there when the page is opened again.
    let choices = keeper.look_now(|ledger, _| agreement_choices(ledger));
    let inside = match AgreementForm::first(&choices) {
        Some(first) => view! { <Chosen choices first /> }.into_any(),
        None => view! {
            <div class="part stack">
                <p><b>{NOTHING_TWICE}</b></p>
                <p>{HOW_TWICE}</p>
            </div>
        }
        .into_any(),
    };
    view! {
        <div class="page-head screen-only">
            <div>
                <h1>"Agreement between examiners"</h1>
                <p>"Do marks depend on who gives them? From pieces that several examiners marked apart, by one version of a rubric."</p>
            </div>
        </div>
        {inside}
    }
}

/// What the form holds while it is changed.
#[derive(Clone, Copy)]
struct Fields {
    rubric: RwSignal<String>,
    from: RwSignal<String>,
    to: RwSignal<String>,
    names: RwSignal<String>,
    examiners: RwSignal<String>,
    pieces: RwSignal<String>,
    each: RwSignal<String>,
}

/// The word of the tile that hides names.
const HIDDEN: &str = "hidden";

impl Fields {
    fn of(form: AgreementForm) -> Self {
        Self {
            rubric: RwSignal::new(form.rubric),
            from: RwSignal::new(form.from),
            to: RwSignal::new(form.to),
            names: RwSignal::new("shown".to_owned()),
            examiners: RwSignal::new(form.examiners),
            pieces: RwSignal::new(form.pieces),
            each: RwSignal::new(form.each),
        }
    }

    fn form(self) -> AgreementForm {
        AgreementForm {
            rubric: self.rubric.get_untracked(),
            from: self.from.get_untracked(),
            to: self.to.get_untracked(),
            hides_names: self.names.with_untracked(|names| names == HIDDEN),
            examiners: self.examiners.get_untracked(),
            pieces: self.pieces.get_untracked(),
            each: self.each.get_untracked(),
        }
    }
}

/// The choices, and what comes of them.
#[component]
fn Chosen(choices: Vec<(String, String)>, first: AgreementForm) -> impl IntoView {
    let keeper = Keeper::here();
    let fields = Fields::of(first);
    let errors = RwSignal::new(AgreementErrors::default());
    let asked = RwSignal::new(None::<Result<Topic, String>>);
    let ask = move || match fields.form().read() {
        Ok(wanted) => {
            errors.set(AgreementErrors::default());
            let job = keeper.look_now(|ledger, _| agreement_job(ledger, &wanted));
            asked.set(Some(job.map(|(topic, job)| {
                jobs::ask(topic.clone(), job);
                topic
            })));
        }
        Err(wrong) => errors.set(wrong),
    };
    Effect::new(move |_| ask());
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        ask();
    };
    view! {
        <form class="part stack screen-only" novalidate on:submit=submit>
            {choice_fields(choices, fields, errors)}
            <div class="actions">
                <button type="submit" class="button" data-kind="primary">"Show"</button>
            </div>
        </form>
        {move || match asked.get() {
            None => ().into_any(),
            Some(Err(why)) => not_worked_out(why, None, || {}),
            Some(Ok(topic)) => view! { <Result topic again=Callback::new(move |()| ask()) /> }.into_any(),
        }}
    }
}

fn choice_fields(
    choices: Vec<(String, String)>,
    fields: Fields,
    errors: RwSignal<AgreementErrors>,
) -> AnyView {
    let wrong = move |of: fn(&AgreementErrors) -> &Option<String>| {
        Signal::derive(move || errors.with(|errors| of(errors).clone()))
    };
    let names = vec![
        TileChoice::new("shown", "Show names", "For the examiners themselves"),
        TileChoice::new(
            HIDDEN,
            "Hide names",
            "Letters for examiners, numbers for pieces",
        ),
    ];
    view! {
        <SelectField id="rubric" label="Rubric" options=choices value=fields.rubric />
        <div class="dates">
            <TextField id="from" label="From" kind="date" error=wrong(|errors| &errors.from) value=fields.from />
            <TextField id="to" label="Up to" kind="date" error=wrong(|errors| &errors.to) value=fields.to />
        </div>
        <Tiles name="names" legend="Names" choices=names value=fields.names columns=2 />
        <fieldset class="field">
            <legend>"A standardisation day to plan"</legend>
            <div class="dates">
                <TextField id="examiners" label="Examiners" error=wrong(|errors| &errors.examiners) value=fields.examiners />
                <TextField id="pieces" label="Pieces" error=wrong(|errors| &errors.pieces) value=fields.pieces />
                <TextField id="each" label="Examiners of each piece" error=wrong(|errors| &errors.each) value=fields.each />
            </div>
        </fieldset>
    }
    .into_any()
}

/// What the worker has come to.
#[component]
fn Result(topic: Topic, again: Callback<()>) -> impl IntoView {
    let topic = StoredValue::new(topic);
    let stop = move || topic.with_value(|topic| jobs::stop(&topic.about));
    let found = Memo::new(move |_| {
        let state = topic.with_value(jobs::state);
        agreement_shown(state.as_ref())
    });
    move || match found.get() {
        Sure::Known(document) => {
            let saved = document.clone();
            view! {
                <div class="part actions screen-only">
                    <PrintButton />
                    <SaveDocument document=saved what="agreement" />
                </div>
                <Paper document />
            }
            .into_any()
        }
        Sure::Busy { text, share } => view! {
            <section class="part stack">{working(text, share, stop)}</section>
        }
        .into_any(),
        Sure::Unknown { text, again: words } => {
            let ask = move || again.run(());
            view! { <section class="part stack">{not_worked_out(text, words, ask)}</section> }
                .into_any()
        }
    }
}
