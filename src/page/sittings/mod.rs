//! Sittings: which there are, whose marks are released, and the pieces of one.

mod board;
mod issue;
mod one;
mod tickets;

use leptos::prelude::*;

use super::keeper::Keeper;
use super::widgets::HandingButton;
use super::{dom, paths};
use crate::present::{SittingRow, SittingsPage as Shown, sittings_page};
pub(super) use board::BoardPage;
pub(super) use issue::IssuePage;
pub(super) use one::SittingPage;
pub(super) use tickets::TicketsPage;

/// Every sitting, and the ways to release its marks or to hold them back.
#[component]
pub(super) fn SittingsPage() -> impl IntoView {
    dom::set_title("Sittings");
    let keeper = Keeper::here();
    let shown = Memo::new(move |_| keeper.look(sittings_page));
    view! {
        <div class="page-head">
            <div>
                <h1>"Sittings"</h1>
                <p>{move || shown.with(|shown| shown.about.clone())}</p>
            </div>
            <div class="actions">
                <a class="button" href=paths::ISSUE>"Issue tickets"</a>
                <a class="button" href=paths::AGREEMENT>"Agreement between examiners"</a>
            </div>
        </div>
        {move || shown.with(|Shown { waiting, .. }| part(
            "waiting",
            "Mocks and exams",
            "What examiners gave is shown on learners’ own pages once somebody releases it.",
            waiting,
        ))}
        {move || shown.with(|Shown { others, .. }| part(
            "others",
            "Practice and self-checks",
            "What examiners gave is released by sealing it.",
            others,
        ))}
    }
}

fn part(
    id: &'static str,
    title: &'static str,
    says: &'static str,
    rows: &[SittingRow],
) -> Option<AnyView> {
    let shown = rows.iter().cloned().map(row).collect_view();
    (!rows.is_empty()).then(|| {
        view! {
            <section class="part" aria-labelledby=id>
                <h2 id=id>{title}</h2>
                <div class="stack">
                    <p class="quiet">{says}</p>
                    <ul class="pieces">{shown}</ul>
                </div>
            </section>
        }
        .into_any()
    })
}

fn row(row: SittingRow) -> AnyView {
    let of = row.title.clone();
    let hand = row.handing.map(|handing| {
        view! { <div class="next"><HandingButton handing of /></div> }
    });
    view! {
        <li class="piece" data-kind="sitting">
            <a href=paths::sitting(row.id)>{row.title}</a>
            <p>{row.about}</p>
            <p class="now">{row.now}</p>
            {hand}
        </li>
    }
    .into_any()
}
