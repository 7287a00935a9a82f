//! The form for marking a piece once more.

use leptos::ev;
use leptos::prelude::*;
use leptos_router::hooks::{use_navigate, use_query_map};

use super::keeper::Keeper;
use super::lost::LostPage;
use super::widgets::{TextField, TileChoice, Tiles};
use super::{clock, dom, paths, preferences};
use crate::present::{
    AgainErrors, AgainForm, AgainPage as Shown, Offer, StartForm, again_page, examiner_names,
    role_choice,
};
use crate::records::PieceId;

/// Mark the piece in the address once more, as its maker or as its examiner.
#[component]
pub(super) fn AgainPage() -> impl IntoView {
    dom::set_title("Mark it again");
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let offers = StoredValue::new(keeper.every_offer());
    let shown = Memo::new(move |_| {
        let piece = piece.get()?;
        keeper.look(|ledger, rubrics| {
            offers.with_value(|offers| again_page(ledger, rubrics, offers, piece))
        })
    });
    move || {
        match shown.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(shown) if shown.roles.is_empty() => view! {
            {head(&shown)}
            <p class="part">"Everybody who could mark this piece has a marking of it already, or its examiners are agreeing on it now."</p>
            <div class="actions">
                <a class="button" href=paths::piece(shown.piece)>"To the piece"</a>
            </div>
        }
        .into_any(),
        Some(shown) => view! { <AskedAgain shown /> }.into_any(),
    }
    }
}

fn head(shown: &Shown) -> AnyView {
    let (title, about) = (shown.title.clone(), shown.about.clone());
    view! {
        <div class="page-head">
            <div>
                <h1>"Mark it again"</h1>
                <p><bdi>{title}</bdi> ": " {about}</p>
            </div>
        </div>
    }
    .into_any()
}

#[component]
fn AskedAgain(shown: Shown) -> impl IntoView {
    let keeper = Keeper::here();
    let asked = use_query_map().with_untracked(|query| query.get("as"));
    let form = AgainForm::fresh(&shown, preferences::examiner(), &preferences::unit())
        .asked_for(&shown, &asked.unwrap_or_default());
    let [role, examiner, rubric, unit] =
        [form.role, form.examiner, form.rubric, form.unit].map(RwSignal::new);
    let errors = RwSignal::new(AgainErrors::default());
    let navigate = use_navigate();
    let kept = StoredValue::new(shown.clone());
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let form = AgainForm {
            role: role.get_untracked(),
            examiner: examiner.get_untracked(),
            rubric: rubric.get_untracked(),
            unit: unit.get_untracked(),
        };
        match kept.with_value(|shown| begin(keeper, shown, &form)) {
            Ok(address) => navigate(&address, Default::default()),
            Err(found) => {
                if found.examiner.is_some() {
                    dom::focus_soon("examiner");
                }
                errors.set(found);
            }
        }
    };
    let roles = match shown.roles.as_slice() {
        [role] => {
            let (title, note) = role_choice(*role);
            view! { <p>"Who marks: " <b>{title}</b> ", who " {note} "."</p> }.into_any()
        }
        roles => {
            let roles = roles.iter().map(|role| {
                let (title, note) = role_choice(*role);
                TileChoice::new(role.word(), title, note)
            });
            view! { <Tiles name="role" legend="Who marks" choices=roles.collect() value=role /> }
                .into_any()
        }
    };
    let does = shown.does.map(|text| view! { <p>{text}</p> });
    let names = StoredValue::new(examiner_names(&keeper.ledger_now()));
    let asked = move || {
        if role.with(|role| AgainForm::is_own(role)) {
            kept.with_value(|shown| own_rubric_tiles(&shown.own_rubrics, rubric))
        } else {
            let error = Signal::derive(move || errors.with(|errors| errors.examiner.clone()));
            view! { <ExaminerField names=names.get_value() error value=examiner /> }.into_any()
        }
    };
    let units = unit_choices();
    view! {
        <form class="stack narrow" novalidate on:submit=submit>
            {head(&shown)}
            <div class="notice">{does.into_iter().collect_view()}</div>
            {roles}
            {asked}
            <Tiles name="unit" legend="Readings in" choices=units value=unit columns=3 />
            {move || errors.with(|errors| errors.other.clone()).map(|text| view! {
                <p class="error" role="alert">{text}</p>
            })}
            <div class="actions">
                <button class="button" data-kind="primary">"Begin the marking"</button>
                <a class="button" data-kind="quiet" href=paths::sheet(shown.piece)>"Back to the sheet"</a>
            </div>
        </form>
    }
}

/// Begins the marking; gives the address of its mark sheet.
fn begin(keeper: Keeper, shown: &Shown, form: &AgainForm) -> Result<String, AgainErrors> {
    let command = form.read(shown, clock::now())?;
    let made = keeper
        .perform(command)
        .map_err(|error| AgainErrors::refused(&error))?;
    if AgainForm::is_own(&form.role) {
        preferences::set_last_unit(&form.unit);
    } else {
        preferences::set_last_start(&form.unit, &form.examiner);
    }
    Ok(made.marking.map_or_else(
        || paths::piece(shown.piece),
        |id| paths::marking(shown.piece, id),
    ))
}

/// By which rubric the maker marks; nothing where there is no choice.
pub(super) fn own_rubric_tiles(offers: &[Offer], value: RwSignal<String>) -> AnyView {
    if offers.is_empty() {
        return ().into_any();
    }
    let same = TileChoice::new(StartForm::SAME, "The same rubric", "every criterion");
    let others = offers
        .iter()
        .map(|offer| TileChoice::new(offer.key(), &offer.rubric.title, &offer.about));
    let choices = std::iter::once(same).chain(others).collect();
    view! { <Tiles name="own-rubric" legend="The maker marks by" choices value /> }.into_any()
}

/// Units that a sheet may be kept in.
pub(super) fn unit_choices() -> Vec<TileChoice> {
    let units = StartForm::UNITS.into_iter();
    units
        .map(|(word, title, note, _)| TileChoice::new(word, title, note))
        .collect()
}

/// Asks for the examiner's name.
#[component]
pub(super) fn ExaminerField(
    /// Names to offer.
    names: Vec<String>,
    /// What is wrong with it.
    error: Signal<Option<String>>,
    /// The name.
    value: RwSignal<String>,
) -> impl IntoView {
    view! {
        <TextField
            id="examiner"
            label="Examiner"
            hint="Whoever marks, as the sheet shall say it."
            autocomplete="name"
            suggestions=names
            error
            value
        />
    }
}
