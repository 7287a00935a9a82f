use leptos::prelude::*;

use super::gather::Gathered;
use crate::page::paper::show_blocks;
use crate::page::paths;
use crate::present::cohort::CohortState;
use crate::sheet::StepShown;

/// What the group shows, once it is worked out.
#[component]
pub(super) fn Figures(gathered: Gathered) -> impl IntoView {
    let state = gathered.state();
    move || {
        let state = state.get();
        if let Some(sheet) = state.sheet() {
            return view! {
                {examples(&sheet.steps)}
                <article class="part paper">{show_blocks(sheet.document.blocks.clone())}</article>
            }
            .into_any();
        }
        waiting(gathered, state)
    }
}

/// How far it is, or why there is nothing.
pub(super) fn waiting(gathered: Gathered, state: CohortState) -> AnyView {
    match state {
        CohortState::Busy { text, share } => view! {
            <section class="part stack">
                <p role="status">{text}</p>
                <progress aria-label="How much is done" value=share max="1"></progress>
                <div class="actions">
                    <button type="button" class="button" on:click=move |_| gathered.stop()>"Stop"</button>
                </div>
            </section>
        }
        .into_any(),
        CohortState::None(why) if !why.is_empty() => view! {
            <section class="part stack">
                <div class="notice" data-kind="warn" role="alert"><p>{why}</p></div>
                <div class="actions">
                    <button type="button" class="button" on:click=move |_| gathered.again()>"Work them out"</button>
                </div>
            </section>
        }
        .into_any(),
        _ => ().into_any(),
    }
}

/// So many steps are named with pieces to look at.
const MOST: usize = 3;

/// Pieces to look at for the weakest steps.
fn examples(steps: &[StepShown]) -> Option<AnyView> {
    let shown = steps.iter().take(MOST).cloned().map(|step| {
        let pieces = step.examples.into_iter().map(|(piece, words)| {
            view! { <li><a href=paths::sheet(piece)><bdi>{words}</bdi></a></li> }
        });
        let pieces = pieces.collect_view();
        view! {
            <li>
                <p><b>{step.name}</b> ": " {step.words} " of the marks of a piece"</p>
                <ul class="list">{pieces}</ul>
            </li>
        }
    });
    let shown = shown.collect_view();
    (!steps.is_empty()).then(|| {
        view! {
            <section class="part" aria-labelledby="weakest">
                <h2 id="weakest">"Weakest making steps, with pieces to look at"</h2>
                <ul class="list">{shown}</ul>
            </section>
        }
        .into_any()
    })
}
