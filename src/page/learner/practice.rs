use leptos::prelude::*;

use crate::sheet::PracticeShown;

/// What to practise next, as cards.
pub(super) fn practice(shown: Vec<PracticeShown>) -> Option<AnyView> {
    let is_any = !shown.is_empty();
    let cards = shown.into_iter().map(card).collect_view();
    is_any.then(|| {
        view! {
            <section class="part" aria-labelledby="practice">
                <h2 id="practice">"To practise next"</h2>
                <ol class="practice">{cards}</ol>
            </section>
        }
        .into_any()
    })
}

fn card(shown: PracticeShown) -> AnyView {
    let lines = [
        ("Practise", shown.remedy),
        ("Cause", shown.cause),
        ("Step", shown.step),
        ("Asked for", shown.asked),
    ];
    let lines = lines.into_iter().filter(|(_, text)| !text.is_empty());
    let lines = lines
        .map(|(label, text)| view! { <div><dt>{label}</dt><dd dir="auto">{text}</dd></div> })
        .collect_view();
    view! {
        <li>
            <h3 dir="auto">{shown.name}</h3>
            <p>{shown.why}</p>
            <p>{shown.seen}</p>
            <dl>{lines}</dl>
        </li>
    }
    .into_any()
}
