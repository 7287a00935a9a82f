use leptos::prelude::*;

use super::dom;

/// The scored sheet of a piece.
#[component]
pub(super) fn SheetPage() -> impl IntoView {
    dom::set_title("Scored sheet");
    view! { <div class="page-head"><div><h1>"Scored sheet"</h1></div></div> }
}
