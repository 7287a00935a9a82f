use leptos::prelude::*;

use super::dom;

#[component]
pub(super) fn LearnersPage() -> impl IntoView {
    dom::set_title("Learners");
    view! { <div class="page-head"><div><h1>"Learners"</h1></div></div> }
}
