use leptos::prelude::*;

use super::{no_sheet, of_piece};
use crate::page::keeper::Keeper;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::{SaveDocument, not_worked_out, working};
use crate::page::{dom, jobs, paths};
use crate::present::{Sure, SurePage as Shown, sure, sure_page};

/// How sure the marking in the address is, or the one that its piece stands for.
#[component]
pub(crate) fn SurePage() -> impl IntoView {
    of_piece(
        sure_page,
        |shown| &shown.file_base,
        |shown| view! { <Asked shown /> }.into_any(),
        no_sheet,
    )
}

/// Has it worked out, and shows what comes of it.
#[component]
fn Asked(shown: Shown) -> impl IntoView {
    let keeper = Keeper::here();
    let Shown {
        piece,
        marking,
        title,
        file_base: _,
        topic,
        job,
    } = shown;
    let asked = StoredValue::new((topic, job));
    let ask = move || {
        let (topic, job) = asked.get_value();
        jobs::ask(topic, job);
    };
    let stop = move || asked.with_value(|(topic, _)| jobs::stop(&topic.about));
    Effect::new(move |_| ask());
    let found = Memo::new(move |_| {
        let state = asked.with_value(|(topic, _)| jobs::state(topic));
        keeper.look(|ledger, rubrics| sure(ledger, rubrics, marking, state.as_ref()))
    });
    let head = title.clone();
    view! {
        <div class="actions screen-only">
            {move || match found.get() {
                Sure::Known(document) => Some(view! {
                    <PrintButton />
                    <SaveDocument document what="how-sure" />
                }),
                _ => None,
            }}
            <a class="button" href=paths::sheet_of(piece, marking)>"See the scored sheet"</a>
        </div>
        {move || match found.get() {
            Sure::Known(document) => {
                if dom::is_heading_focused() {
                    // The one that stood for it goes.
                    request_animation_frame(dom::focus_heading);
                }
                view! { <Paper document /> }.into_any()
            }
            Sure::Busy { text, share } => view! {
                <Meanwhile title=head.clone()>
                    {working(text, share, stop)}
                </Meanwhile>
            }
            .into_any(),
            Sure::Unknown { text, again } => {
                view! {
                    <Meanwhile title=head.clone()>{not_worked_out(text, again, ask)}</Meanwhile>
                }
                .into_any()
            }
        }}
    }
}

/// Stands where the result will be.
#[component]
fn Meanwhile(title: String, children: Children) -> impl IntoView {
    view! {
        <article class="part paper">
            <header class="page-head">
                <div>
                    <h1 dir="auto">{title}</h1>
                    <p>"How sure these marks are"</p>
                </div>
            </header>
            <section class="stack">{children()}</section>
        </article>
    }
    .into_any()
}
