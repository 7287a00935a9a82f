use leptos::prelude::*;

use crate::page::lost::LostPage;

/// Two rubrics compared.
#[component]
pub(crate) fn ComparePage() -> impl IntoView {
    view! { <LostPage /> }
}

/// An old piece marked by another rubric.
#[component]
pub(crate) fn TryPage() -> impl IntoView {
    view! { <LostPage /> }
}
