use leptos::prelude::*;

use super::state::SheetState;
use crate::command::Edit;
use crate::page::widgets::{TextBox, never_wrong};

/// What the examiner says about the whole piece.
pub(super) fn overall() -> AnyView {
    let sheet = SheetState::here();
    let comment = TextBox {
        id: "overall".to_owned(),
        label: "Comment".to_owned(),
        hint: "What was good, what to practise next.",
        lines: 4,
        value: Memo::new(move |_| sheet.comment(None)).into(),
        wrong: never_wrong(),
        typed: Callback::new(move |text: String| {
            sheet.edit(
                "overall",
                Edit::SetComment {
                    entry: None,
                    comment: Some(text),
                },
            );
        }),
    };
    view! {
        <section class="part" aria-labelledby="p-overall">
            <h2 id="p-overall">"The whole piece"</h2>
            {comment.view()}
        </section>
    }
    .into_any()
}
