use leptos::prelude::*;

use super::state::Heats;
use crate::command::Edit;
use crate::page::widgets::TextBox;
use crate::present::heat_log::{cut_text, cut_typed, cut_wrong};

/// What the bar was cut to: known before the start, or entered afterwards.
pub(super) fn cut(heats: Heats) -> AnyView {
    let field = TextBox {
        id: "heats-cut".to_owned(),
        label: "Length that the bar was cut to".to_owned(),
        hint: "Such as 16 in, 15 3/4 in or 405 mm; of a pair each shoe’s. It gives no marks: \
               plans of later pieces can go by it.",
        lines: 1,
        value: Signal::derive(move || heats.see(|_, facts| cut_text(facts))),
        wrong: Signal::derive(move || heats.see(cut_wrong)),
        typed: Callback::new(move |text| {
            let cut = cut_typed(text, untrack(|| heats.unit()));
            heats.edit(Edit::SetCut { cut });
        }),
    };
    view! {
        <section class="part stack" aria-labelledby="heat-cut">
            <h2 id="heat-cut">"The bar"</h2>
            {field.view()}
        </section>
    }
    .into_any()
}
