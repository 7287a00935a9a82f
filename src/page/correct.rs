//! The form for a correction of a sealed marking.

use leptos::ev;
use leptos::prelude::*;
use leptos_router::hooks::use_navigate;

use super::again::ExaminerField;
use super::keeper::Keeper;
use super::lost::LostPage;
use super::widgets::TextBox;
use super::{clock, dom, paths, preferences};
use crate::present::{
    CORRECTING_DOES, CorrectErrors, CorrectForm, CorrectPage as Shown, correct_page, examiner_names,
};
use crate::records::PieceId;

/// Begin a correction of the marking in the address.
#[component]
pub(super) fn CorrectPage() -> impl IntoView {
    dom::set_title("Correct a marking");
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let marking = paths::marking_in_path();
    let shown = Memo::new(move |_| {
        let marking = marking.get().ok().flatten()?;
        let piece = piece.get()?;
        keeper.with_ledger(|ledger| correct_page(ledger, piece, marking))
    });
    move || match shown.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(shown) => view! { <Asked shown /> }.into_any(),
    }
}

#[component]
fn Asked(shown: Shown) -> impl IntoView {
    let keeper = Keeper::here();
    let examiner = RwSignal::new(preferences::examiner());
    let reason = RwSignal::new(String::new());
    let errors = RwSignal::new(CorrectErrors::default());
    let navigate = use_navigate();
    let (title, about) = (shown.title.clone(), shown.about.clone());
    let sheet = paths::sheet_of(shown.piece, shown.marking);
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let form = CorrectForm {
            examiner: examiner.get_untracked(),
            reason: reason.get_untracked(),
        };
        match begin(keeper, &shown, &form) {
            Ok(address) => navigate(&address, Default::default()),
            Err(found) => {
                let wrong = [
                    (found.examiner.is_some(), "examiner"),
                    (found.reason.is_some(), "reason"),
                ];
                if let Some((_, field)) = wrong.into_iter().find(|(is_wrong, _)| *is_wrong) {
                    dom::focus_soon(field);
                }
                errors.set(found);
            }
        }
    };
    let does = CORRECTING_DOES.map(|text| view! { <p>{text}</p> });
    let names = examiner_names(&keeper.ledger_now());
    let of_examiner = Signal::derive(move || errors.with(|errors| errors.examiner.clone()));
    let why = TextBox {
        id: "reason".to_owned(),
        label: "Why it is corrected".to_owned(),
        hint: "Both sheets print it, and it cannot be changed later.",
        lines: 3,
        value: reason.into(),
        wrong: Signal::derive(move || {
            errors.with(|errors| errors.reason.clone().unwrap_or_default())
        }),
        typed: Callback::new(move |text| reason.set(text)),
    };
    view! {
        <form class="stack narrow" novalidate on:submit=submit>
            <div class="page-head">
                <div>
                    <h1>"Correct this marking"</h1>
                    <p><bdi>{title}</bdi> ": " {about}</p>
                </div>
            </div>
            <div class="notice">{does.into_iter().collect_view()}</div>
            <ExaminerField names error=of_examiner value=examiner />
            {why.view()}
            {move || errors.with(|errors| errors.other.clone()).map(|text| view! {
                <p class="error" role="alert">{text}</p>
            })}
            <div class="actions">
                <button class="button" data-kind="primary">"Begin the correction"</button>
                <a class="button" data-kind="quiet" href=sheet>"Back to the sheet"</a>
            </div>
        </form>
    }
}

/// Begins the correction; gives the address of its mark sheet.
fn begin(keeper: Keeper, shown: &Shown, form: &CorrectForm) -> Result<String, CorrectErrors> {
    let command = form.read(shown, clock::now())?;
    let made = keeper
        .perform(command)
        .map_err(|error| CorrectErrors::refused(&error))?;
    Ok(made.marking.map_or_else(
        || paths::piece(shown.piece),
        |id| paths::marking(shown.piece, id),
    ))
}
