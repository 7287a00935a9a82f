use leptos::ev;
use leptos::prelude::*;

use crate::command::{Command, LearnerDetails};
use crate::page::keeper::Keeper;
use crate::page::widgets::{Question, TextBox, TextField, TileChoice, Tiles};
use crate::page::{clock, dom};
use crate::present::{
    DetailsErrors, DetailsForm, ERASING_A_LEARNER_DOES, OutsideRow, details_words, status_words,
};
use crate::records::{LearnerId, LearnerStatus};

/// Id of the button that opens the form.
const BUTTON: &str = "details-button";
/// Key of the notice that a learner was not erased.
const NOT_ERASED: &str = "not-erased";
/// Id of the button that adds a row.
const ADD: &str = "outside-add";

/// What is known of a learner, at the head of the page.
#[component]
pub(super) fn Facts(id: LearnerId) -> impl IntoView {
    let keeper = Keeper::here();
    let facts = Memo::new(move |_| {
        keeper.with_ledger(|ledger| {
            let learner = ledger.learner(id);
            learner.map(|learner| details_words(learner, clock::today()))
        })
    });
    move || {
        let facts = facts.get().filter(|facts| !facts.is_empty())?;
        let facts = facts
            .into_iter()
            .map(|(label, value)| view! { <div><dt dir="auto">{label}</dt><dd dir="auto">{value}</dd></div> })
            .collect_view();
        Some(view! { <dl class="facts learner-facts">{facts}</dl> })
    }
}

/// Opens and closes the form.
#[component]
pub(super) fn DetailsButton(open: RwSignal<bool>) -> impl IntoView {
    view! {
        <button
            class="button"
            type="button"
            id=BUTTON
            aria-expanded=move || open.get().to_string()
            aria-controls="details"
            on:click=move |_| open.update(|open| *open = !*open)
        >
            "Details"
        </button>
    }
}

/// The form, while it is open.
#[component]
pub(super) fn Details(id: LearnerId, open: RwSignal<bool>) -> impl IntoView {
    let form = move || {
        let keeper = Keeper::here();
        let ledger = keeper.ledger_now();
        let learner = ledger.learner(id)?;
        let before = LearnerDetails::of(learner);
        let form = DetailsForm::of(learner);
        Some(view! { <DetailsFields keeper id before form open /> })
    };
    view! {
        <div id="details" class="details" hidden=move || !open.get()>
            {move || open.get().then(form)}
            {move || open.get().then(|| view! { <Erase id open /> })}
        </div>
    }
}

/// Takes out all that says who the learner is, once that is asked.
#[component]
fn Erase(id: LearnerId, open: RwSignal<bool>) -> impl IntoView {
    let keeper = Keeper::here();
    let asked = RwSignal::new(false);
    let erase = Callback::new(move |()| {
        let at = clock::now();
        if keeper.perform_or_say(NOT_ERASED, Command::EraseLearner { learner: id, at }) {
            open.set(false);
        }
        request_animation_frame(dom::focus_heading);
    });
    view! {
        <div class="part actions">
            <button class="button" type="button" on:click=move |_| asked.set(true)>
                "Erase this learner"
            </button>
        </div>
        <Question
            id="erase-learner"
            open=asked
            asks=|| "Erase this learner’s name and texts for good?"
            yes="Erase them"
            no="Keep them"
            done=erase
        >
            {ERASING_A_LEARNER_DOES.map(|text| view! { <p>{text}</p> }).into_iter().collect_view()}
        </Question>
    }
}

/// The form's fields, each its own signal.
#[derive(Debug, Clone, Copy)]
struct Fields {
    name: RwSignal<String>,
    number: RwSignal<String>,
    outside: RwSignal<Vec<OutsideRow>>,
    employer: RwSignal<String>,
    started: RwSignal<String>,
    planned_end: RwSignal<String>,
    status: RwSignal<String>,
}

impl Fields {
    fn of(form: DetailsForm) -> Self {
        Self {
            name: RwSignal::new(form.name),
            number: RwSignal::new(form.number),
            outside: RwSignal::new(form.outside),
            employer: RwSignal::new(form.employer),
            started: RwSignal::new(form.started),
            planned_end: RwSignal::new(form.planned_end),
            status: RwSignal::new(form.status),
        }
    }

    fn form(self) -> DetailsForm {
        DetailsForm {
            name: self.name.get_untracked(),
            number: self.number.get_untracked(),
            outside: self.outside.get_untracked(),
            employer: self.employer.get_untracked(),
            started: self.started.get_untracked(),
            planned_end: self.planned_end.get_untracked(),
            status: self.status.get_untracked(),
        }
    }
}

#[component]
fn DetailsFields(
    keeper: Keeper,
    id: LearnerId,
    before: LearnerDetails,
    form: DetailsForm,
    open: RwSignal<bool>,
) -> impl IntoView {
    let fields = Fields::of(form);
    let errors = RwSignal::new(DetailsErrors::default());
    dom::focus_soon("name");
    let close = move || {
        open.set(false);
        dom::focus_soon(BUTTON);
    };
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        match keep(keeper, id, &before, &fields.form()) {
            Ok(()) => close(),
            Err(found) => {
                if let Some(id) = found.first_field() {
                    dom::focus_soon_at(id);
                }
                errors.set(*found);
            }
        }
    };
    let wrong = move |see: fn(&DetailsErrors) -> &Option<String>| {
        Signal::derive(move || errors.with(|errors| see(errors).clone()))
    };
    let statuses = LearnerStatus::ALL.into_iter().map(|status| {
        let (title, note) = status_words(status);
        TileChoice::new(status.word(), title, note)
    });
    view! {
        <form class="stack narrow" novalidate on:submit=submit>
            <TextField
                id="name"
                label="Name"
                hint="Sheets sealed before show the new name too, and their seal tells that it changed."
                error=wrong(|errors| &errors.name)
                value=fields.name
            />
            <TextField
                id="number"
                label="Number, if there is one"
                hint="It tells people of one name apart, and stands beside the name."
                value=fields.number
            />
            <Outside rows=fields.outside errors />
            <TextField id="employer" label="Employer, if there is one" value=fields.employer />
            <div class="dates">
                <TextField
                    id="started"
                    label="Started"
                    kind="date"
                    error=wrong(|errors| &errors.started)
                    value=fields.started
                />
                <TextField
                    id="planned-end"
                    label="Planned end"
                    kind="date"
                    error=wrong(|errors| &errors.planned_end)
                    value=fields.planned_end
                />
            </div>
            <Tiles
                name="status"
                legend="Status"
                choices=statuses.collect()
                value=fields.status
                columns=2
                error=wrong(|errors| &errors.status)
            />
            {move || errors.with(|errors| errors.other.clone()).map(|text| view! {
                <p class="error" role="alert">{text}</p>
            })}
            <div class="actions">
                <button class="button">"Keep these details"</button>
                <button class="button" data-kind="quiet" type="button" on:click=move |_| close()>
                    "Leave them as they were"
                </button>
            </div>
        </form>
    }
}

/// Writes what the form says, but for what it left as it was.
fn keep(
    keeper: Keeper,
    learner: LearnerId,
    before: &LearnerDetails,
    form: &DetailsForm,
) -> Result<(), Box<DetailsErrors>> {
    let command = Command::SetLearner {
        learner,
        before: Box::new(before.clone()),
        after: Box::new(form.read()?),
    };
    match keeper.perform(command) {
        Ok(_) => Ok(()),
        Err(error) => Err(Box::new(DetailsErrors::refused(&error))),
    }
}

/// Outside numbers, a row each.
#[component]
fn Outside(rows: RwSignal<Vec<OutsideRow>>, errors: RwSignal<DetailsErrors>) -> impl IntoView {
    let count = Memo::new(move |_| rows.with(Vec::len));
    let add = move |_| {
        let at = count.get_untracked();
        rows.update(|rows| rows.push(OutsideRow::default()));
        dom::focus_soon_at(format!("outside-by-{at}"));
    };
    view! {
        <fieldset class="field" aria-describedby="outside-hint">
            <legend>"Outside numbers"</legend>
            <p class="hint" id="outside-hint">"From an awarding body, a register or a college."</p>
            {move || (0..count.get()).map(|at| outside_row(rows, errors, at)).collect_view()}
            <div class="actions">
                <button class="button" type="button" id=ADD on:click=add>
                    "Add an outside number"
                </button>
            </div>
        </fieldset>
    }
}

fn outside_row(
    rows: RwSignal<Vec<OutsideRow>>,
    errors: RwSignal<DetailsErrors>,
    at: usize,
) -> AnyView {
    let held = move |see: fn(&OutsideRow) -> &String| {
        Signal::derive(move || {
            rows.with(|rows| rows.get(at).map(see).cloned())
                .unwrap_or_default()
        })
    };
    let write = move |field: fn(&mut OutsideRow) -> &mut String| {
        Callback::new(move |text| {
            rows.update(|rows| {
                if let Some(row) = rows.get_mut(at) {
                    *field(row) = text;
                }
            });
        })
    };
    let by = TextBox {
        id: format!("outside-by-{at}"),
        label: "Given by".to_owned(),
        hint: "",
        lines: 1,
        value: held(|row| &row.by),
        wrong: Signal::stored(String::new()),
        typed: write(|row| &mut row.by),
    };
    let number = TextBox {
        id: format!("outside-number-{at}"),
        label: "Number".to_owned(),
        hint: "",
        lines: 1,
        value: held(|row| &row.number),
        wrong: Signal::derive(move || {
            errors
                .with(|errors| errors.outside.get(at).cloned().flatten())
                .unwrap_or_default()
        }),
        typed: write(|row| &mut row.number),
    };
    let remove = move |_| {
        let left = rows.with_untracked(Vec::len).saturating_sub(1);
        errors.update(|errors| {
            if at < errors.outside.len() {
                errors.outside.remove(at);
            }
        });
        rows.update(|rows| {
            if at < rows.len() {
                rows.remove(at);
            }
        });
        // To what has come in its place, or else to the last one.
        dom::focus_soon_at(match left.checked_sub(1) {
            Some(last) => format!("outside-by-{}", at.min(last)),
            None => ADD.to_owned(),
        });
    };
    let words = format!("Outside number {}", at + 1);
    view! {
        <fieldset class="outside-row">
            <legend class="unseen">{words.clone()}</legend>
            {by.view()}
            {number.view()}
            <button
                class="button"
                data-kind="quiet"
                type="button"
                aria-label=format!("Remove: {}", words.to_lowercase())
                on:click=remove
            >
                "Remove"
            </button>
        </fieldset>
    }
    .into_any()
}
