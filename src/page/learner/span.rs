use leptos::ev;
use leptos::prelude::*;
use leptos_router::NavigateOptions;
use leptos_router::hooks::{use_navigate, use_query_map};

use crate::page::paths;
use crate::page::widgets::TextField;
use crate::present::{CourseAsked, SpanForm};
use crate::records::LearnerId;

/// What the address asks to be told of.
pub(super) fn asked_in_address() -> Memo<CourseAsked> {
    let query = use_query_map();
    Memo::new(move |_| {
        query.with(|query| {
            CourseAsked::in_address(query.get("rubric"), query.get("from"), query.get("to"))
        })
    })
}

/// The days of which pieces are told, to choose.
#[component]
pub(super) fn Span(id: LearnerId, asked: Memo<CourseAsked>) -> impl IntoView {
    let navigate = StoredValue::new_local(use_navigate());
    let (from, to) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let wrong = RwSignal::new((None, None));
    Effect::new(move |_| {
        let form = asked.with(CourseAsked::form);
        from.set(form.from);
        to.set(form.to);
    });
    let go = move |span| {
        let asked = CourseAsked {
            span,
            ..asked.get_untracked()
        };
        let address = paths::learner_by(id, &asked);
        navigate.with_value(|navigate| navigate(&address, NavigateOptions::default()));
    };
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let form = SpanForm {
            from: from.get_untracked(),
            to: to.get_untracked(),
        };
        match form.read() {
            Ok(span) => {
                wrong.set((None, None));
                go(span);
            }
            Err(errors) => wrong.set(errors),
        }
    };
    let all = move |_| {
        wrong.set((None, None));
        go(CourseAsked::default().span);
    };
    let first = Signal::derive(move || wrong.with(|(first, _)| first.clone()));
    let last = Signal::derive(move || wrong.with(|(_, last)| last.clone()));
    view! {
        <details class="part screen-only">
            <summary>"Days to tell of"</summary>
            <form class="stack" novalidate on:submit=submit>
                <div class="dates">
                    <TextField id="from" label="From" kind="date" error=first value=from />
                    <TextField id="to" label="Up to" kind="date" error=last value=to />
                </div>
                <div class="actions">
                    <button type="submit" class="button" data-kind="primary">"Show"</button>
                    <button type="button" class="button" on:click=all>"All days"</button>
                </div>
            </form>
        </details>
    }
}

/// Which days are told of, where somebody chose.
pub(super) fn told_of(words: &str, is_empty: bool) -> Option<AnyView> {
    let rest = if is_empty {
        "none was marked in these days"
    } else {
        "the list at the end holds all"
    };
    (!words.is_empty()).then(|| {
        view! { <p class="part notice" role="status">{format!("Told of pieces {words}; {rest}.")}</p> }
            .into_any()
    })
}
