use leptos::prelude::*;

use super::moving::Moving;
use super::state::PhotoState;
use crate::page::over::laid_over;
use crate::present::over::photo_over;

/// The shoe in the photo laid over another outline.
pub(super) fn over(state: PhotoState, moving: Moving) -> AnyView {
    let chosen = RwSignal::new(String::new());
    let choice = Memo::new(move |_| {
        let (shoe, chosen) = (state.shoe.get(), chosen.get());
        let rubric = state.rubric.get_value();
        let about = (state.marking, rubric.as_ref(), shoe.as_deref());
        state.keeper.look(|ledger, rubrics| {
            photo_over(ledger, rubrics, about, moving.found().as_deref(), &chosen)
        })
    });
    view! {
        <section class="stack" aria-labelledby="laid-over">
            <h3 id="laid-over">"Laid over"</h3>
            {laid_over(choice, chosen)}
        </section>
    }
    .into_any()
}
