use leptos::prelude::*;

use super::controls::TextBox;
use crate::command::Command;
use crate::page::keeper::Keeper;
use crate::present::columns::{
    HOW_COLUMNS, HOW_CRITERIA, columns_text, left_out, read_columns, usual_text,
};
use crate::present::sentence;
use crate::records::{Layout, NamedColumn};

/// The columns of tables of one layout, to be named, left out and put in order.
#[component]
pub(super) fn ColumnNames(layout: Layout) -> impl IntoView {
    let keeper = Keeper::here();
    let kept = move || keeper.look_now(|ledger, _| columns_text(ledger, layout));
    let text = RwSignal::new(kept());
    let wrong = RwSignal::new(String::new());
    let done = RwSignal::new("");
    // What stood before the last step, for Undo.
    let before = RwSignal::new(None::<Vec<NamedColumn>>);
    let write = move |columns: Vec<NamedColumn>| -> bool {
        let old = keeper.look_now(|ledger, _| ledger.columns(layout).to_vec());
        match keeper.perform(Command::SetColumns { layout, columns }) {
            Ok(_) => {
                wrong.set(String::new());
                text.set(kept());
                before.set(Some(old));
                true
            }
            Err(error) => {
                wrong.set(sentence(&error.to_string()));
                false
            }
        }
    };
    let keep = move |_| match text.with(|text| read_columns(layout, text)) {
        Ok(columns) => {
            if write(columns) {
                done.set("These columns are kept in the ledger.");
            }
        }
        Err(faults) => {
            done.set("");
            wrong.set(faults.join(" "));
        }
    };
    let usual = move |_| {
        wrong.set(String::new());
        done.set("The usual columns stand here. Keep them, or change them first.");
        text.set(usual_text(layout));
    };
    let undo = move |_| {
        if let Some(old) = before.get_untracked()
            && write(old)
        {
            before.set(None);
            done.set("The columns are as they were before.");
        }
    };
    let typed = Callback::new(move |typed: String| {
        done.set("");
        text.set(typed);
    });
    let area = TextBox {
        id: "column-names".to_owned(),
        label: "Columns".to_owned(),
        hint: HOW_COLUMNS,
        lines: 8,
        value: text.into(),
        wrong: wrong.into(),
        typed,
    };
    let left = Memo::new(move |_| text.with(|text| left_out(layout, text)));
    let left = move || {
        let left = left.get();
        (!left.is_empty()).then(|| view! { <p class="hint">"Left out: " {left}</p> })
    };
    view! {
        <details class="stack">
            <summary>"Column names"</summary>
            <div class="stack">
                {area.view()}
                {(layout == Layout::Wide).then(|| view! { <p class="hint">{HOW_CRITERIA}</p> })}
                {left}
                <p role="status" id="columns-say">{move || done.get()}</p>
                <div class="actions">
                    <button type="button" class="button" id="keep-columns" on:click=keep>"Keep these columns"</button>
                    <button type="button" class="button" on:click=usual>"Usual columns"</button>
                    <Show when=move || before.with(Option::is_some)>
                        <button type="button" class="button" on:click=undo>"Undo"</button>
                    </Show>
                </div>
            </div>
        </details>
    }
}
