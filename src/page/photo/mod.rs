//! Measuring the shoe of a draft in a photo: the photo, what is found in it, and which readings
//! it fills.

mod advice;
mod corners;
mod edging;
mod flat;
mod form;
mod handle;
mod help;
mod holding;
mod moving;
mod over;
mod rows;
mod scale;
mod state;
mod viewer;
mod work;
mod zoom;

use leptos::prelude::*;

use super::keeper::Keeper;
use super::lost::{LostPage, unreadable_rubric};
use super::widgets::Caution;
use super::{dom, paths};
use crate::present::photo::{photo_caution, photo_head};
use crate::records::{MarkingId, PieceId};
pub(super) use help::PhotoHelpPage;
use state::PhotoState;

/// The photo gauge of one marking.
#[component]
pub(super) fn PhotoPage() -> impl IntoView {
    let keeper = Keeper::here();
    let open = paths::draft_in_path(keeper);
    move || match open.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((piece, id)) => opened(keeper, piece, id),
    }
}

fn opened(keeper: Keeper, piece: PieceId, id: MarkingId) -> AnyView {
    let found = keeper.look_now(|ledger, rubrics| {
        let rubric = rubrics.get(ledger.rubric(&ledger.marking(id)?.rubric)?)?;
        Some((photo_head(ledger, rubrics, id)?, rubric))
    });
    let Some((head, rubric)) = found else {
        return unreadable_rubric().into_any();
    };
    dom::set_title(&format!("{}, photo gauge", head.title));
    let (title, about) = (head.title.clone(), head.about.clone());
    let cautions = photo_caution(&head);
    let cautions = cautions.into_iter().map(|text| {
        view! { <div class="notice" data-kind="warn"><p>{text}</p></div> }
    });
    let state = PhotoState::new(keeper, id, rubric, head);
    view! {
        <div class="page-head">
            <div>
                <h1>"Photo gauge"</h1>
                <p>{title} ". " {about} "."</p>
            </div>
            <div class="actions">
                <a class="button" href=paths::marking(piece, id)>"Back to the mark sheet"</a>
                <a class="button" data-kind="quiet" href=paths::PHOTO_HELP>"How it measures"</a>
            </div>
        </div>
        <Caution />
        {cautions.collect_view()}
        <div class="photo-page">{form::form(state)} {work::work(state)}</div>
    }
    .into_any()
}
