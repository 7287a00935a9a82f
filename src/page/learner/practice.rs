use leptos::prelude::*;

use crate::chart::Drawing;
use crate::page::keeper::Keeper;
use crate::page::widgets::Drawn;
use crate::page::{clock, paths};
use crate::present::{PracticePage, practice_page};
use crate::records::LearnerId;
use crate::sheet::PracticeShown;

/// What to practise next, as cards.
pub(super) fn practice(id: LearnerId, shown: Vec<PracticeShown>) -> Option<AnyView> {
    let is_any = !shown.is_empty();
    let cards = shown.into_iter().map(card).collect_view();
    is_any.then(|| {
        view! {
            <section class="part" aria-labelledby="practice">
                <h2 id="practice">"To practise next"</h2>
                <div class="actions">
                    <a class="button" href=paths::learner_talk(id)>"Talk it over"</a>
                    <a class="button" href=paths::learner_card(id)>"Practice card"</a>
                </div>
                <ol class="practice">{cards}</ol>
            </section>
        }
        .into_any()
    })
}

/// What the learner in the address has to practise.
pub(super) fn practice_in_path() -> Memo<Option<(LearnerId, PracticePage)>> {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<LearnerId>("learner");
    Memo::new(move |_| {
        let id = id.get()?;
        let shown = keeper.look(|ledger, rubrics| practice_page(ledger, rubrics, id, clock::now()));
        Some((id, shown?))
    })
}

/// Lines with a label each; those that say nothing are left out.
pub(super) fn told<const N: usize>(lines: [(&'static str, String); N]) -> AnyView {
    let lines = lines.into_iter().filter(|(_, text)| !text.is_empty());
    let lines = lines
        .map(|(label, text)| view! { <div><dt>{label}</dt><dd dir="auto">{text}</dd></div> })
        .collect_view();
    view! { <dl>{lines}</dl> }.into_any()
}

/// The shoe with the part that it is about.
pub(super) fn where_on_it(place: Drawing) -> AnyView {
    let title = place.title.clone();
    view! {
        <figure class="place">
            <Drawn drawing=place class="shoe" />
            <figcaption>{title}</figcaption>
        </figure>
    }
    .into_any()
}

fn card(shown: PracticeShown) -> AnyView {
    let lines = told([
        ("Practise", shown.remedy),
        ("Cause", shown.cause),
        ("Step", shown.step),
        ("Asked for", shown.asked),
    ]);
    view! {
        <li>
            <h3 dir="auto">{shown.name}</h3>
            {shown.place.map(where_on_it)}
            <p>{shown.why}</p>
            <p>{shown.seen}</p>
            {lines}
        </li>
    }
    .into_any()
}
