use leptos::ev;
use leptos::prelude::*;
use leptos_router::hooks::{use_navigate, use_query_map};

use crate::page::again::{ExaminerField, unit_choices};
use crate::page::keeper::Keeper;
use crate::page::widgets::{TextBox, TextField, TileChoice, Tiles};
use crate::page::{clock, dom, paths, preferences};
use crate::present::{Offer, StartForm, TicketErrors, TicketForm, examiner_names, sitting_words};

const LIST_HINT: &str = "How many, such as 8 for the numbers 1 to 8; or one a line, with the \
    learner’s name behind the number where it is known: 12 Ada Smith";

/// The form's fields, each its own signal.
#[derive(Debug, Clone, Copy)]
struct Fields {
    list: RwSignal<String>,
    names: RwSignal<String>,
    rubric: RwSignal<String>,
    sitting: RwSignal<String>,
    day: RwSignal<String>,
    examiner: RwSignal<String>,
    unit: RwSignal<String>,
}

impl Fields {
    fn of(form: TicketForm) -> Self {
        Self {
            list: RwSignal::new(form.list),
            names: RwSignal::new(form.names),
            rubric: RwSignal::new(form.rubric),
            sitting: RwSignal::new(form.sitting),
            day: RwSignal::new(form.day),
            examiner: RwSignal::new(form.examiner),
            unit: RwSignal::new(form.unit),
        }
    }

    fn form(self) -> TicketForm {
        TicketForm {
            list: self.list.get_untracked(),
            names: self.names.get_untracked(),
            rubric: self.rubric.get_untracked(),
            sitting: self.sitting.get_untracked(),
            day: self.day.get_untracked(),
            examiner: self.examiner.get_untracked(),
            unit: self.unit.get_untracked(),
        }
    }
}

/// Issues tickets of a sitting.
#[component]
pub(crate) fn IssuePage() -> impl IntoView {
    dom::set_title("Issue tickets");
    let keeper = Keeper::here();
    let offers = StoredValue::new(keeper.every_offer());
    let fields = Fields::of(first_form(keeper, &offers.get_value()));
    let errors = RwSignal::new(TicketErrors::default());
    let navigate = use_navigate();
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        match issue(keeper, &fields.form(), &offers.get_value()) {
            Ok(address) => navigate(&address, Default::default()),
            Err(found) => {
                if let Some(id) = found.first_field() {
                    dom::focus_soon(id);
                }
                errors.set(*found);
            }
        }
    };
    let wrong = move |see: fn(&TicketErrors) -> &Option<String>| {
        Signal::derive(move || errors.with(|errors| see(errors).clone()))
    };
    let list = TextBox {
        id: "tickets".to_owned(),
        label: "Tickets".to_owned(),
        hint: LIST_HINT,
        lines: 8,
        value: fields.list.into(),
        wrong: Signal::derive(move || {
            errors.with(|errors| errors.list.clone().unwrap_or_default())
        }),
        typed: Callback::new(move |text| fields.list.set(text)),
    };
    let names = vec![
        TileChoice::new(TicketForm::HIDDEN, "Hidden", "until the marking is sealed"),
        TileChoice::new(TicketForm::SHOWN, "Shown", "all along"),
    ];
    let rubrics = offers
        .get_value()
        .into_iter()
        .map(|offer| TileChoice::new(offer.key(), &offer.rubric.title, &offer.about));
    let kinds = TicketForm::KINDS.map(|kind| {
        let (title, note) = sitting_words(kind);
        TileChoice::new(kind.word(), title, note)
    });
    let examiners = examiner_names(&keeper.ledger_now());
    view! {
        <form class="stack narrow" novalidate on:submit=submit>
            <div class="page-head"><div><h1>"Issue tickets"</h1></div></div>
            {list.view()}
            <Tiles name="names" legend="Learners’ names" choices=names value=fields.names columns=2 />
            <Tiles name="rubric" legend="Rubric" choices=rubrics.collect() value=fields.rubric error=wrong(|errors| &errors.rubric) />
            <Tiles name="sitting" legend="Sitting" choices=kinds.to_vec() value=fields.sitting error=wrong(|errors| &errors.sitting) />
            <TextField id="date" label="Date" kind="date" error=wrong(|errors| &errors.day) value=fields.day />
            <Tiles name="unit" legend="Readings in" choices=unit_choices() value=fields.unit columns=3 />
            <ExaminerField names=examiners error=wrong(|errors| &errors.examiner) value=fields.examiner />
            <div class="actions">
                <button class="button" data-kind="primary">"Issue them"</button>
                <a class="button" data-kind="quiet" href=paths::SITTINGS>"All sittings"</a>
            </div>
        </form>
    }
}

/// The form as it opens: for the sitting in the address, if any.
fn first_form(keeper: Keeper, offers: &[Offer]) -> TicketForm {
    let ledger = keeper.ledger_now();
    let sitting = use_query_map().with_untracked(|query| query.get("sitting")?.parse().ok());
    let start = StartForm::fresh(
        &ledger,
        offers,
        clock::today(),
        preferences::examiner(),
        &preferences::unit(),
    );
    TicketForm::fresh(&ledger, start, sitting)
}

/// Issues what the form asks for; gives the address of its sitting.
fn issue(keeper: Keeper, form: &TicketForm, offers: &[Offer]) -> Result<String, Box<TicketErrors>> {
    let command = form.read(offers, clock::now())?;
    let made = keeper
        .perform(command)
        .map_err(|error| Box::new(TicketErrors::refused(&error)))?;
    preferences::set_last_start(&form.unit, &form.examiner);
    let ledger = keeper.ledger_now();
    let piece = made.piece.and_then(|id| ledger.piece(id));
    Ok(piece.map_or_else(
        || paths::SITTINGS.to_owned(),
        |piece| paths::sitting(piece.sitting),
    ))
}
