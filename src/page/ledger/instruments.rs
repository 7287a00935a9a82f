//! The instruments of this ledger: the list, and the form for one.

use leptos::ev;
use leptos::prelude::*;

use crate::page::keeper::Keeper;
use crate::page::widgets::{PushButton, TextField, TileChoice, Tiles};
use crate::page::{dom, paths};
use crate::present::{
    InstrumentErrors, InstrumentForm, InstrumentRow, MEASURED, UNCERTAINTIES, WHAT_FIGURES_MEAN,
    instruments_page, retire_command, sentence, set_apart, usual_commands,
};
use crate::records::OwnInstrument;

/// Id of the button that opens the form for a new one.
const ADD: &str = "instrument-add";

/// What is open: nothing, the form for a new instrument, or that of one.
type Open = RwSignal<Option<Option<String>>>;

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
        <section class="part" aria-labelledby="meaning">
            <h2 id="meaning">"What the figures mean"</h2>
            <div class="stack narrow">{meaning}</div>
        </section>
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
    view! {
        <li class="piece" data-kind="instrument" id=format!("instrument-{id}")>
            <h3 dir="auto">{name}</h3>
            <p>{measures}</p>
            <p class="now" dir="auto">{figures}</p>
            <div class="actions">{change.view()} {retire.view()}</div>
        </li>
    }
    .into_any()
}

/// The form's fields, each its own signal.
#[derive(Debug, Clone, Copy)]
struct Fields {
    name: RwSignal<String>,
    id: RwSignal<String>,
    measures: RwSignal<String>,
    kind: RwSignal<String>,
    amount: RwSignal<String>,
    repeatability: RwSignal<String>,
    shared: RwSignal<String>,
    source: RwSignal<String>,
}

impl Fields {
    fn of(form: InstrumentForm) -> Self {
        Self {
            name: RwSignal::new(form.name),
            id: RwSignal::new(form.id),
            measures: RwSignal::new(form.measures),
            kind: RwSignal::new(form.kind),
            amount: RwSignal::new(form.amount),
            repeatability: RwSignal::new(form.repeatability),
            shared: RwSignal::new(form.shared),
            source: RwSignal::new(form.source),
        }
    }

    fn form(self) -> InstrumentForm {
        InstrumentForm {
            name: self.name.get_untracked(),
            id: self.id.get_untracked(),
            measures: self.measures.get_untracked(),
            kind: self.kind.get_untracked(),
            amount: self.amount.get_untracked(),
            repeatability: self.repeatability.get_untracked(),
            shared: self.shared.get_untracked(),
            source: self.source.get_untracked(),
        }
    }
}

/// The form for a new instrument, or for the one named `id`.
fn form(keeper: Keeper, id: Option<String>, open: Open, said: RwSignal<String>) -> AnyView {
    let ledger = keeper.ledger_now();
    let before = id.and_then(|id| ledger.instrument(&id).cloned());
    let before: StoredValue<Option<OwnInstrument>> = StoredValue::new(before);
    let fields = before.with_value(|before| Fields::of(InstrumentForm::of(before.as_ref())));
    let errors = RwSignal::new(InstrumentErrors::default());
    dom::focus_soon("instrument-name");
    let close = move || {
        open.set(None);
        dom::focus_soon(ADD);
    };
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let command = before.with_value(|before| fields.form().command(before.as_ref()));
        match keeper.perform(command) {
            Ok(_) => {
                let name = fields.name.with_untracked(|name| set_apart(name.trim()));
                said.set(format!("{name} is kept."));
                close();
            }
            Err(refused) => {
                let found = InstrumentErrors::refused(&refused);
                if let Some(id) = found.first_field() {
                    dom::focus_soon(id);
                }
                errors.set(found);
            }
        }
    };
    let other = move || {
        let text = errors.with(|errors| errors.other.clone());
        text.map(|text| view! { <p class="error" role="alert">{text}</p> })
    };
    let title = match before.with_value(Option::is_some) {
        true => "Change an instrument",
        false => "A new instrument",
    };
    view! {
        <section class="part" aria-labelledby="instrument-form">
            <h2 id="instrument-form">{title}</h2>
            <form class="stack narrow" novalidate on:submit=submit>
                {names(fields, errors, before.with_value(Option::is_none))}
                {figures(fields, errors)}
                {other}
                <div class="actions">
                    <button class="button" data-kind="primary">"Keep this instrument"</button>
                    <button class="button" data-kind="quiet" type="button" on:click=move |_| close()>
                        "Leave it as it was"
                    </button>
                </div>
            </form>
        </section>
    }
    .into_any()
}

/// The part of `errors` that is about one field.
fn about(
    errors: RwSignal<InstrumentErrors>,
    see: fn(&InstrumentErrors) -> &Option<String>,
) -> Signal<Option<String>> {
    Signal::derive(move || errors.with(|errors| see(errors).clone()))
}

/// What it is called and what it measures; its short name is asked for while it is new.
fn names(fields: Fields, errors: RwSignal<InstrumentErrors>, is_new: bool) -> AnyView {
    let measured =
        MEASURED.map(|(dimension, title, note)| TileChoice::new(dimension.word(), title, note));
    let id = is_new.then(|| {
        view! {
            <TextField
                id="instrument-id"
                label="Short name"
                hint="Made from the name where nothing is written. With the short name that rubrics use, such as caliper, it takes the place of theirs."
                error=about(errors, |errors| &errors.id)
                value=fields.id
            />
        }
    });
    view! {
        <TextField
            id="instrument-name"
            label="Name"
            error=about(errors, |errors| &errors.name)
            value=fields.name
        />
        {id}
        <Tiles
            name="instrument-measures"
            legend="It measures"
            choices=measured.to_vec()
            value=fields.measures
            columns=3
        />
    }
    .into_any()
}

/// How wrong it can be.
fn figures(fields: Fields, errors: RwSignal<InstrumentErrors>) -> AnyView {
    let kinds = UNCERTAINTIES.map(|(word, title, note)| TileChoice::new(word, title, note));
    view! {
        <Tiles
            name="instrument-kind"
            legend="How its uncertainty is stated"
            choices=kinds.to_vec()
            value=fields.kind
            columns=2
        />
        <TextField
            id="instrument-amount"
            label="How much"
            hint="With its unit, such as 0.05 mm or 0.5 deg."
            error=about(errors, |errors| &errors.amount)
            value=fields.amount
        />
        <TextField
            id="instrument-repeatability"
            label="Repeatability, if it is known"
            hint="Standard deviation of one person’s repeats. Repeats that differ by far more are asked for again."
            error=about(errors, |errors| &errors.repeatability)
            value=fields.repeatability
        />
        <TextField
            id="instrument-shared"
            label="Shared part, if there is one"
            hint="What is the same in all its readings, such as a zero error."
            error=about(errors, |errors| &errors.shared)
            value=fields.shared
        />
        <TextField
            id="instrument-source"
            label="Where the figures come from"
            hint="A certificate and its date, a trial of your own, or common practice, no source."
            error=about(errors, |errors| &errors.source)
            value=fields.source
        />
    }
    .into_any()
}
