use std::collections::BTreeSet;

use leptos::prelude::*;

use super::ticks::tick;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::SaveDocument;
use crate::page::{clock, dom, paths};
use crate::present::{PortfolioChoice, portfolio_choices, portfolio_document};
use crate::records::{LearnerId, PieceId};

/// The evidence of one learner, from the pieces that are chosen.
#[component]
pub(crate) fn PortfolioPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<LearnerId>("learner");
    let choices = Memo::new(move |_| {
        let id = id.get()?;
        let found = keeper.look(|ledger, rubrics| portfolio_choices(ledger, rubrics, id));
        found.map(|(name, choices)| (id, name, choices))
    });
    // Every piece until somebody leaves one out.
    let left_out = RwSignal::new(BTreeSet::<PieceId>::new());
    move || match choices.get() {
        None => view! { <LostPage /> }.into_any(),
        Some((id, name, choices)) => shown(id, name, choices, left_out),
    }
}

fn shown(
    id: LearnerId,
    name: String,
    choices: Vec<PortfolioChoice>,
    left_out: RwSignal<BTreeSet<PieceId>>,
) -> AnyView {
    dom::set_title(&format!("{name}, portfolio"));
    let keeper = Keeper::here();
    let all: BTreeSet<PieceId> = choices.iter().map(|choice| choice.piece).collect();
    let document = Memo::new(move |_| {
        let wanted = left_out.with(|left_out| &all - left_out);
        keeper
            .look(|ledger, rubrics| portfolio_document(ledger, rubrics, id, &wanted, clock::now()))
    });
    let ticks = choices
        .into_iter()
        .map(|choice| tick(choice.piece, left_out, choice.title, choice.about))
        .collect_view();
    view! {
        <div class="actions screen-only">
            <PrintButton />
            {move || document.get().map(|document| view! { <SaveDocument document what="portfolio" /> })}
            <a class="button" data-kind="quiet" href=paths::learner(id)><bdi>{name}</bdi></a>
        </div>
        <details class="part screen-only" open>
            <summary>"Pieces in it"</summary>
            <fieldset>
                <legend class="unseen">"Pieces in it"</legend>
                <div class="tiles">{ticks}</div>
            </fieldset>
        </details>
        {move || document.get().map(|document| view! { <Paper document /> })}
    }
    .into_any()
}
