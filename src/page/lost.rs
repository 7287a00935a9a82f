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
