mod details;

use leptos::prelude::*;

use super::keeper::Keeper;
use super::lost::LostPage;
use super::widgets::{Drawn, PieceList};
use super::{clock, dom, paths};
use crate::present::{self, Chart, learner_page};
use crate::records::LearnerId;
use details::{Details, DetailsButton, Facts};

/// One learner: what they made, how it was marked, and how it goes.
#[component]
pub(super) fn LearnerPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<LearnerId>("learner");
    let shown = Memo::new(move |_| {
        let id = id.get()?;
        keeper.look(|ledger, rubrics| learner_page(ledger, rubrics, id, clock::now()))
    });
    // The address alone decides which page there is; what is on it may change.
    let who = Memo::new(move |_| shown.with(Option::is_some).then(|| id.get()).flatten());
    Effect::new(move |_| {
        shown.with(|page| {
            dom::set_title(page.as_ref().map_or("No such learner", |page| &page.title));
        });
    });
    move || match who.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(id) => view! { <KnownLearner id shown /> }.into_any(),
    }
}

#[component]
fn KnownLearner(id: LearnerId, shown: Memo<Option<present::LearnerPage>>) -> impl IntoView {
    let part = move |see: fn(&present::LearnerPage) -> &String| {
        shown.with(|page| page.as_ref().map(see).cloned().unwrap_or_default())
    };
    let details = RwSignal::new(false);
    let pieces = Memo::new(move |_| {
        shown
            .with(|page| page.as_ref().map(|page| page.pieces.clone()))
            .unwrap_or_default()
    });
    let charts = Memo::new(move |_| {
        shown
            .with(|page| page.as_ref().map(|page| page.charts.clone()))
            .unwrap_or_default()
    });
    view! {
        <div class="page-head">
            <div>
                <h1>{move || part(|page| &page.title)}</h1>
                <p>{move || part(|page| &page.about)}</p>
            </div>
            <div class="actions">
                <a class="button" data-kind="primary" href=paths::start_for(id)>"Start a piece"</a>
                <DetailsButton open=details />
            </div>
        </div>
        <Facts id />
        <Details id open=details />
        {move || charts.get().into_iter().enumerate().map(chart).collect_view()}
        <Show
            when=move || !pieces.with(Vec::is_empty)
            fallback=|| view! { <p class="part">"Nothing of theirs was marked yet."</p> }
        >
            <section class="part" aria-labelledby="pieces">
                <h2 id="pieces">"Pieces"</h2>
                <PieceList rows=pieces />
            </section>
        </Show>
    }
}

fn chart((at, chart): (usize, Chart)) -> impl IntoView {
    let id = format!("chart-{at}");
    let labelled_by = id.clone();
    view! {
        <section class="part" aria-labelledby=labelled_by>
            <h2 id=id>{chart.heading}</h2>
            <figure class="chart">
                <Drawn drawing=chart.drawing />
                <figcaption>{chart.caption}</figcaption>
            </figure>
        </section>
    }
}
