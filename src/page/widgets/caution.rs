use leptos::prelude::*;

use crate::page::paths;
use crate::present::FIRST_CAUTION;

/// What to look at before the first reading.
#[component]
pub(crate) fn Caution() -> impl IntoView {
    view! {
        <div class="notice" data-kind="warn">
            <p>
                <b>"Before the first reading: "</b> {FIRST_CAUTION} " "
                <a href=paths::HELP>"All cautions"</a>
            </p>
        </div>
    }
}
