use leptos::prelude::*;

use super::invented::open_button;
use super::widgets::{Caution, Drawn, PieceList};
use super::{Keeper, clock, dom, paths};
use crate::chart::bar_shoe_sign;
use crate::present::{Bench, bench, long_day};

/// Today: start a piece, go on with one, look at the latest.
#[component]
pub(super) fn BenchPage() -> impl IntoView {
    dom::set_title("Bench");
    let keeper = Keeper::here();
    let shown =
        Memo::new(move |_| keeper.look(|ledger, rubrics| bench(ledger, rubrics, clock::now())));
    let is_empty = Memo::new(move |_| shown.with(Bench::is_empty));
    move || {
        if is_empty.get() {
            view! { <EmptyBench /> }.into_any()
        } else {
            view! { <FullBench shown /> }.into_any()
        }
    }
}

#[component]
fn EmptyBench() -> impl IntoView {
    view! {
        <div class="start">
            <div class="stack">
                <h1>"Nothing on the bench yet"</h1>
                <p>
                    "Pick up a finished shoe, enter what ruler, caliper and eye say, and see its marks with their reasons. Everything stays on this device."
                </p>
                <div class="actions">
                    <a class="button" data-kind="primary" href=paths::START>"Start a piece"</a>
                    <a class="button" data-kind="quiet" href=paths::LEARNERS>"Add learners first"</a>
                    <a class="button" data-kind="quiet" href=paths::LEDGER>"Read a ledger file back"</a>
                </div>
                <p>
                    "Or see first what a year looks like: twelve learners, three examiners and 170 markings that somebody made up. They say so on every page and are taken out in one step."
                </p>
                <div class="actions">{open_button(Keeper::here())}</div>
            </div>
            <Drawn drawing=bar_shoe_sign() class="shoe" />
        </div>
        <div class="part">
            <Caution />
        </div>
    }
}

#[component]
fn FullBench(shown: Memo<Bench>) -> impl IntoView {
    let drafts = Memo::new(move |_| shown.with(|bench| bench.drafts.clone()));
    let latest = Memo::new(move |_| shown.with(|bench| bench.latest.clone()));
    let counted = move || shown.with(Bench::drafts_counted);
    view! {
        <div class="page-head">
            <div>
                <h1>"Bench"</h1>
                <p>{long_day(clock::today())}</p>
            </div>
            <div class="actions">
                <a class="button" data-kind="primary" href=paths::START>"Start a piece"</a>
            </div>
        </div>
        <Show when=move || !drafts.with(Vec::is_empty)>
            <section class="part" aria-labelledby="drafts">
                <h2 id="drafts">"On the bench " <small>{counted}</small></h2>
                <PieceList rows=drafts />
            </section>
        </Show>
        <Show when=move || !latest.with(Vec::is_empty)>
            <section class="part" aria-labelledby="latest">
                <h2 id="latest">
                    "Latest pieces " <small><a href=paths::LEARNERS>"all by learner"</a></small>
                </h2>
                <PieceList rows=latest />
            </section>
        </Show>
    }
}
