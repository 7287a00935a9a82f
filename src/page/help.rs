use leptos::prelude::*;

use super::dom;

#[component]
pub(super) fn HelpPage() -> impl IntoView {
    dom::set_title("Help and cautions");
    view! { <div class="page-head"><div><h1>"Help and cautions"</h1></div></div> }
}
