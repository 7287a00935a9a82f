use leptos::prelude::*;

use super::gather::Gathered;
use crate::page::paper::show_blocks;
use crate::page::paths;
use crate::page::widgets::{not_worked_out, working};
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
        CohortState::Busy { text, share } => {
            let stop = move || gathered.stop();
            view! { <section class="part stack">{working(text, share, stop)}</section> }.into_any()
        }
        CohortState::None(why) if !why.is_empty() => {
            let again = move || gathered.again();
            let again = not_worked_out(why, Some("Work them out"), again);
            view! { <section class="part stack">{again}</section> }.into_any()
        }
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
