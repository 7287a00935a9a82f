use leptos::prelude::*;

use super::state::SheetState;
use crate::command::Edit;

/// What the examiner says about the whole piece.
#[component]
pub(super) fn Overall() -> impl IntoView {
    let sheet = SheetState::here();
    let text = Memo::new(move |_| sheet.comment(None));
    view! {
        <section class="part" aria-labelledby="p-overall">
            <h2 id="p-overall">"The whole piece"</h2>
            <div class="field">
                <label for="overall">"Comment"</label>
                <p class="hint" id="overall-hint">"What was good, what to practise next."</p>
                <textarea
                    class="input"
                    id="overall"
                    rows="4"
                    dir="auto"
                    aria-describedby="overall-hint"
                    prop:value=text
                    on:input:target=move |event| {
                        let comment = Some(event.target().value());
                        sheet.edit("overall", Edit::SetComment { entry: None, comment });
                    }
                ></textarea>
            </div>
        </section>
    }
}
