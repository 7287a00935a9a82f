//! The form for an instrument.

use leptos::ev;
use leptos::prelude::*;

use super::instruments::{ADD, Open};
use crate::page::dom;
use crate::page::keeper::Keeper;
use crate::page::widgets::{TextField, TileChoice, Tiles};
use crate::present::{
    InstrumentErrors, InstrumentForm, MEASURED, SHAPES, UNCERTAINTIES, repeats_said, set_apart,
};
use crate::records::OwnInstrument;

/// The form's fields, each its own signal.
#[derive(Debug, Clone, Copy)]
struct Fields {
    name: RwSignal<String>,
    id: RwSignal<String>,
    measures: RwSignal<String>,
    kind: RwSignal<String>,
    amount: RwSignal<String>,
    shape: RwSignal<String>,
    level_share: RwSignal<String>,
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
            shape: RwSignal::new(form.shape),
            level_share: RwSignal::new(form.level_share),
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
            shape: self.shape.get_untracked(),
            level_share: self.level_share.get_untracked(),
            repeatability: self.repeatability.get_untracked(),
            shared: self.shared.get_untracked(),
            source: self.source.get_untracked(),
        }
    }
}

/// The form for a new instrument, or for the one named `id`.
pub(super) fn form(
    keeper: Keeper,
    id: Option<String>,
    open: Open,
    said: RwSignal<String>,
) -> AnyView {
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

/// The repeatability worked out from repeats, once some are written.
fn repeats(fields: Fields) -> AnyView {
    let typed = RwSignal::new(String::new());
    let said = Memo::new(move |_| {
        fields
            .measures
            .with(|measures| typed.with(|typed| repeats_said(typed, measures)))
    });
    let error = Signal::derive(move || said.get().and_then(Result::err));
    let words = move || said.get()?.ok().map(|said| said.words);
    let take = move || {
        let found = said.get()?.ok()?.repeatability?;
        let label = format!("Take {found} as repeatability");
        let take = move |_| fields.repeatability.set(found.clone());
        Some(view! {
            <div class="actions">
                <button class="button" type="button" on:click=take>{label}</button>
            </div>
        })
    };
    view! {
        <TextField
            id="instrument-repeats"
            label="Or work it out: readings of one place by one person"
            hint="Ten are good, with a semicolon between them: 10.2; 10.4; 10.3"
            error=error
            value=typed
        />
        <p role="status">{words}</p>
        {take}
    }
    .into_any()
}

/// The shape of a half-width, and the level share of a trapezoid.
fn shape(fields: Fields, errors: RwSignal<InstrumentErrors>) -> AnyView {
    let shapes = SHAPES.map(|(word, title, note)| TileChoice::new(word, title, note));
    let asks_shape = Memo::new(move |_| fields.kind.with(|kind| InstrumentForm::asks_shape(kind)));
    let asks_level = Memo::new(move |_| {
        let shape = fields.shape.get();
        fields
            .kind
            .with(|kind| InstrumentForm::asks_level(kind, &shape))
    });
    let tiles = move || {
        asks_shape.get().then(|| {
            view! {
                <Tiles
                    name="instrument-shape"
                    legend="How errors are spread within it"
                    choices=shapes.to_vec()
                    value=fields.shape
                    columns=2
                />
            }
        })
    };
    let level = move || {
        asks_level.get().then(|| {
            view! {
                <TextField
                    id="instrument-level-share"
                    label="Level share"
                    hint="How much of the width is level, from 0 (a triangle) to 1 (a rectangle)."
                    error=about(errors, |errors| &errors.level_share)
                    value=fields.level_share
                />
            }
        })
    };
    view! { {tiles}{level} }.into_any()
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
        {shape(fields, errors)}
        <TextField
            id="instrument-repeatability"
            label="Repeatability, if it is known"
            hint="Standard deviation of one person’s repeats. Repeats that differ by far more are asked for again."
            error=about(errors, |errors| &errors.repeatability)
            value=fields.repeatability
        />
        {repeats(fields)}
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
