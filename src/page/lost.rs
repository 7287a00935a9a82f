use leptos::prelude::*;

use super::{dom, paths};

/// For an address that leads nowhere.
#[component]
pub(super) fn LostPage() -> impl IntoView {
    dom::set_title("No such page");
    view! {
        <div class="page-head">
            <div>
                <h1>"No such page"</h1>
                <p>"This address leads nowhere here, or what it named was deleted."</p>
            </div>
            <div class="actions">
                <a class="button" data-kind="primary" href=paths::BENCH>"To the bench"</a>
            </div>
        </div>
    }
}

/// Stands where a piece would, when nothing here can read its rubric.
pub(super) fn unreadable_rubric() -> impl IntoView {
    view! {
        <div class="notice" data-kind="stop">
            <p>
                "The rubric of this piece cannot be read by this version. Nothing is lost: "
                "open it with the version that started the piece, or a newer one."
            </p>
        </div>
    }
}
