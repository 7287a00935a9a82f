use leptos::prelude::*;

use super::dom;

#[component]
pub(super) fn LearnerPage() -> impl IntoView {
    dom::set_title("Learner");
    view! { <div class="page-head"><div><h1>"Learner"</h1></div></div> }
}
