use leptos::ev;
use leptos::prelude::*;
use leptos_router::hooks::{use_navigate, use_query_map};

use super::again::{ExaminerField, own_rubric_tiles, unit_choices};
use super::widgets::{Caution, SelectField, TextField, TileChoice, Tiles};
use super::{Keeper, clock, dom, paths, preferences};
use crate::present::{
    LearnerChoice, MarkedBy, Offer, StartErrors, StartForm, WhoForm, examiner_names,
    learner_choices, own_rubrics, sitting_words,
};
use crate::records::SittingKind;

/// The form's fields, each its own signal.
#[derive(Debug, Clone, Copy)]
struct Fields {
    who: RwSignal<String>,
    learner: RwSignal<String>,
    name: RwSignal<String>,
    ticket: RwSignal<String>,
    ticket_learner: RwSignal<String>,
    rubric: RwSignal<String>,
    sitting: RwSignal<String>,
    day: RwSignal<String>,
    marked_by: RwSignal<String>,
    own_rubric: RwSignal<String>,
    examiner: RwSignal<String>,
    unit: RwSignal<String>,
    second_examiner: RwSignal<String>,
}

impl Fields {
    fn of(form: StartForm) -> Self {
        Self {
            who: RwSignal::new(form.who),
            learner: RwSignal::new(form.learner),
            name: RwSignal::new(form.name),
            ticket: RwSignal::new(form.ticket),
            ticket_learner: RwSignal::new(form.ticket_learner),
            rubric: RwSignal::new(form.rubric),
            sitting: RwSignal::new(form.sitting),
            day: RwSignal::new(form.day),
            marked_by: RwSignal::new(form.marked_by),
            own_rubric: RwSignal::new(form.own_rubric),
            examiner: RwSignal::new(form.examiner),
            unit: RwSignal::new(form.unit),
            second_examiner: RwSignal::new(form.second_examiner),
        }
    }

    fn form(self) -> StartForm {
        StartForm {
            who: self.who.get_untracked(),
            learner: self.learner.get_untracked(),
            name: self.name.get_untracked(),
            ticket: self.ticket.get_untracked(),
            ticket_learner: self.ticket_learner.get_untracked(),
            rubric: self.rubric.get_untracked(),
            sitting: self.sitting.get_untracked(),
            day: self.day.get_untracked(),
            marked_by: self.marked_by.get_untracked(),
            own_rubric: self.own_rubric.get_untracked(),
            examiner: self.examiner.get_untracked(),
            unit: self.unit.get_untracked(),
            second_examiner: self.second_examiner.get_untracked(),
        }
    }
}

/// Start a piece.
#[component]
pub(super) fn StartPage() -> impl IntoView {
    dom::set_title("Start a piece");
    let keeper = Keeper::here();
    let offers = StoredValue::new(keeper.every_offer());
    let fields = Fields::of(first_form(keeper, &offers.get_value()));
    let errors = RwSignal::new(StartErrors::default());
    let navigate = use_navigate();
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let form = fields.form();
        match start(keeper, &form, &offers.get_value()) {
            Ok(address) => navigate(&address, Default::default()),
            Err(found) => {
                if let Some(id) = found.first_field() {
                    dom::focus_soon(id);
                }
                errors.set(*found);
            }
        }
    };
    let no_day = Signal::derive(move || errors.with(|errors| errors.day.clone()));
    view! {
        <form class="stack narrow" novalidate on:submit=submit>
            <div class="page-head"><div><h1>"Start a piece"</h1></div></div>
            <Whose keeper fields errors />
            <What offers=offers.get_value() fields errors />
            <TextField id="date" label="Date" kind="date" error=no_day value=fields.day />
            <WhoMarks keeper offers fields errors />
            <Caution />
            {move || errors.with(|errors| errors.other.clone()).map(|text| view! {
                <p class="error" role="alert">{text}</p>
            })}
            <div class="actions">
                <button class="button" data-kind="primary">"Put it on the bench"</button>
                <a class="button" data-kind="quiet" href=paths::BENCH>"Back to the bench"</a>
            </div>
        </form>
    }
}

/// The form as it opens: for the learner in the address, if any.
fn first_form(keeper: Keeper, offers: &[Offer]) -> StartForm {
    let ledger = keeper.ledger_now();
    let learner = use_query_map().with_untracked(|query| query.get("learner"));
    let fresh = StartForm::fresh(
        &ledger,
        offers,
        clock::today(),
        preferences::examiner(),
        &preferences::unit(),
    );
    fresh.asked_for(&ledger, &learner.unwrap_or_default())
}

/// Starts the piece that the form asks for; gives its address.
fn start(keeper: Keeper, form: &StartForm, offers: &[Offer]) -> Result<String, Box<StartErrors>> {
    let command = form.read(offers, clock::now())?;
    let made = keeper
        .perform(command)
        .map_err(|error| Box::new(StartErrors::refused(form, &error)))?;
    if StartForm::asks_marker(&form.sitting) {
        preferences::set_last_start(&form.unit, &form.examiner);
    } else {
        preferences::set_last_unit(&form.unit);
    }
    Ok(made
        .piece
        .map_or_else(|| paths::BENCH.to_owned(), paths::piece))
}

#[component]
fn Whose(keeper: Keeper, fields: Fields, errors: RwSignal<StartErrors>) -> impl IntoView {
    let asked = fields.learner.get_untracked();
    let learners = Memo::new(move |_| keeper.with_ledger(|ledger| learner_choices(ledger, &asked)));
    let any = Memo::new(move |_| learners.with(|learners| !learners.is_empty()));
    let ways = move || {
        let ways = WhoForm::ALL.into_iter();
        let ways = ways.filter(|way| any.get() || *way != WhoForm::Listed);
        let choices = ways.map(|way| {
            let (title, note) = way.words();
            TileChoice::new(way.word(), title, note)
        });
        view! { <Tiles name="who" legend="Whose" choices=choices.collect() value=fields.who /> }
    };
    let who = fields.who;
    let rest = move || {
        let learners = learners.get();
        match who.get() {
            who if who == WhoForm::Listed.word() => {
                let error = Signal::derive(move || errors.with(|errors| errors.learner.clone()));
                let options = options("Choose a learner", learners);
                view! {
                    <SelectField id="learner" label="Learner" error options value=fields.learner />
                }
                .into_any()
            }
            who if who == WhoForm::Ticket.word() => {
                let error = Signal::derive(move || errors.with(|errors| errors.ticket.clone()));
                let options = options("Not known yet", learners);
                view! {
                    <TextField
                        id="ticket"
                        label="Ticket"
                        hint="The number stamped on the piece or tied to it."
                        error
                        value=fields.ticket
                    />
                    {any.get().then(move || view! {
                        <SelectField
                            id="ticket-learner"
                            label="Whose ticket it is"
                            hint="Leave it if you do not know. The name shows once the marking is sealed."
                            options
                            value=fields.ticket_learner
                        />
                    })}
                }
                .into_any()
            }
            _ => {
                let error = Signal::derive(move || errors.with(|errors| errors.name.clone()));
                view! {
                    <TextField
                        id="name"
                        label="New learner’s name"
                        hint="Name or number, as your college keeps it."
                        error
                        value=fields.name
                    />
                }
                .into_any()
            }
        }
    };
    view! { {ways} {rest} }
}

fn options(none: &str, learners: Vec<LearnerChoice>) -> Vec<(String, String)> {
    let none = (String::new(), none.to_owned());
    let learners = learners
        .into_iter()
        .map(|learner| (learner.id.to_string(), learner.name));
    std::iter::once(none).chain(learners).collect()
}

#[component]
fn What(offers: Vec<Offer>, fields: Fields, errors: RwSignal<StartErrors>) -> impl IntoView {
    let rubrics = offers
        .into_iter()
        .map(|offer| TileChoice::new(offer.key(), &offer.rubric.title, &offer.about))
        .collect();
    let kinds = SittingKind::ALL
        .into_iter()
        .map(|kind| {
            let (title, note) = sitting_words(kind);
            TileChoice::new(kind.word(), title, note)
        })
        .collect();
    let units = unit_choices();
    let no_rubric = Signal::derive(move || errors.with(|errors| errors.rubric.clone()));
    let no_kind = Signal::derive(move || errors.with(|errors| errors.sitting.clone()));
    view! {
        <Tiles name="rubric" legend="Rubric" choices=rubrics value=fields.rubric error=no_rubric />
        <Tiles name="sitting" legend="Sitting" choices=kinds value=fields.sitting error=no_kind />
        <Tiles
            name="unit"
            legend="Readings in"
            choices=units
            value=fields.unit
            columns=3
        />
    }
}

/// Who marks: in a self-check the maker alone, so that nobody is asked for.
#[component]
fn WhoMarks(
    keeper: Keeper,
    offers: StoredValue<Vec<Offer>>,
    fields: Fields,
    errors: RwSignal<StartErrors>,
) -> impl IntoView {
    let names = StoredValue::new(examiner_names(&keeper.ledger_now()));
    // What was chosen beside one rubric is perhaps not there beside another.
    Effect::new(move |before: Option<()>| {
        fields.rubric.track();
        if before.is_some() {
            fields.own_rubric.set(StartForm::SAME.to_owned());
        }
    });
    let asks = Memo::new(move |_| {
        fields
            .sitting
            .with(|sitting| StartForm::asks_marker(sitting))
    });
    move || {
        if !asks.get() {
            return view! { <p>"The maker marks, alone. No examiner is asked for."</p> }.into_any();
        }
        let choices = MarkedBy::ALL.map(|way| {
            let (title, note) = way.words();
            TileChoice::new(way.word(), title, note)
        });
        let is_both = move || fields.marked_by.with(|way| way == MarkedBy::Both.word());
        let own = move || {
            let own = offers.with_value(|offers| {
                let own = fields.rubric.with(|key| own_rubrics(offers, key));
                own.into_iter().cloned().collect::<Vec<Offer>>()
            });
            is_both().then(|| own_rubric_tiles(&own, fields.own_rubric))
        };
        let error = Signal::derive(move || errors.with(|errors| errors.examiner.clone()));
        let is_by_two = move || fields.marked_by.with(|way| way == MarkedBy::Two.word());
        let no_second = Signal::derive(move || errors.with(|errors| errors.second.clone()));
        let second = move || {
            is_by_two().then(|| {
                view! {
                    <TextField
                        id="second-examiner"
                        label="Second examiner"
                        hint="Marks on a sheet of their own, without seeing the first one."
                        suggestions=names.get_value()
                        error=no_second
                        value=fields.second_examiner
                    />
                }
            })
        };
        view! {
            <Tiles name="marked-by" legend="Marked by" choices=choices.to_vec() value=fields.marked_by />
            {own}
            <ExaminerField names=names.get_value() error value=fields.examiner />
            {second}
        }
        .into_any()
    }
}
