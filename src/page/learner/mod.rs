mod card;
mod charted;
mod class;
mod course;
mod details;
mod figures;
mod milestones;
mod portfolio;
mod practice;
mod print;
mod span;
mod talk;
mod ticks;

use leptos::prelude::*;

use super::keeper::Keeper;
use super::lost::LostPage;
use super::widgets::{HeldNotice, PieceList, held_shown, whom};
use super::{clock, dom, paths};
use crate::present::{self, CourseAsked, learner_page, sentence};
use crate::records::LearnerId;
pub(super) use card::CardPage;
pub(super) use class::ClassPage;
use details::{Details, DetailsButton, Facts};
use figures::Figures;
use milestones::Milestones;
pub(super) use portfolio::PortfolioPage;
pub(super) use print::LearnerPrintPage;
use span::{Span, asked_in_address};
pub(super) use talk::TalkPage;

/// One learner: what they made, how it was marked, and how it goes.
#[component]
pub(super) fn LearnerPage() -> impl IntoView {
    let keeper = Keeper::here();
    let id = paths::id_in_path::<LearnerId>("learner");
    let asked = asked_in_address();
    let (shows, turn) = held_shown(id);
    let figures = Figures::begin(id, asked, Signal::derive(move || whom(shows)));
    let shown = Memo::new(move |_| {
        let id = id.get()?;
        let asked = figures.known(asked.get());
        let whom = whom(shows);
        keeper.look(|ledger, rubrics| learner_page(ledger, rubrics, id, &asked, clock::now(), whom))
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
        Some(id) => view! { <KnownLearner id asked figures shown shows turn /> }.into_any(),
    }
}

#[component]
fn KnownLearner(
    id: LearnerId,
    asked: Memo<CourseAsked>,
    figures: Figures,
    shown: Memo<Option<present::LearnerPage>>,
    shows: Signal<bool>,
    turn: Callback<()>,
) -> impl IntoView {
    let part = move |see: fn(&present::LearnerPage) -> &String| {
        shown.with(|page| page.as_ref().map(see).cloned().unwrap_or_default())
    };
    let details = RwSignal::new(false);
    let is_named =
        Memo::new(move |_| shown.with(|page| page.as_ref().is_some_and(|page| page.is_named)));
    let pieces = Memo::new(move |_| {
        shown
            .with(|page| page.as_ref().map(|page| page.pieces.clone()))
            .unwrap_or_default()
    });
    let milestones = part_of(shown, |page| page.milestones.clone());
    let held = Memo::new(move |_| {
        let held = part(|page| &page.held);
        if held.is_empty() {
            held
        } else {
            sentence(&held)
        }
    });
    let print = move || {
        let chosen = shown.with(|page| {
            let mut choices = page.as_ref()?.rubrics.iter();
            let chosen = choices.find(|choice| choice.is_chosen)?;
            Some(chosen.id.clone())
        });
        let asked = asked.get();
        let asked = chosen.map_or_else(|| asked.clone(), |chosen| asked.by(&chosen));
        paths::learner_print(id, &asked)
    };
    let keeper = Keeper::here();
    let has_outlines =
        Memo::new(move |_| keeper.with_ledger(|ledger| present::over::has_outlines(ledger, id)));
    let has_course = Memo::new(move |_| {
        shown.with(|page| page.as_ref().is_some_and(|page| page.course.is_some()))
    });
    view! {
        <div class="page-head">
            <div>
                <h1>{move || part(|page| &page.title)}</h1>
                <p>{move || part(|page| &page.about)}</p>
            </div>
            <div class="actions">
                <Show when=move || is_named.get()>
                    <a class="button" data-kind="primary" href=paths::start_for(id)>"Start a piece"</a>
                </Show>
                <Show when=move || has_course.get()>
                    <a class="button" href=print>"Page to print"</a>
                    <a class="button" href=paths::portfolio(id)>"Portfolio"</a>
                </Show>
                <Show when=move || has_outlines.get()>
                    <a class="button" href=paths::over(id)>"Lay pieces over each other"</a>
                </Show>
                <Show when=move || is_named.get()>
                    <DetailsButton open=details />
                </Show>
            </div>
        </div>
        <Facts id />
        <Details id open=details />
        <Show when=move || held.with(|held| !held.is_empty())>
            <HeldNotice words=held shown=shows turn />
        </Show>
        <div class:screen-only=shows>
            <Span id asked />
            <Progress id asked figures shown />
            <Milestones id shown=milestones is_named />
            <Show
                when=move || !pieces.with(Vec::is_empty)
                fallback=|| view! { <p class="part">"Nothing of theirs was marked yet."</p> }
            >
                <section class="part" aria-labelledby="pieces">
                    <h2 id="pieces">"Pieces"</h2>
                    <PieceList rows=pieces />
                </section>
            </Show>
        </div>
    }
}

/// What to practise and how it goes. Each part is made anew only when it changes, so
/// that what is unfolded stays so.
#[component]
fn Progress(
    id: LearnerId,
    asked: Memo<CourseAsked>,
    figures: Figures,
    shown: Memo<Option<present::LearnerPage>>,
) -> impl IntoView {
    let span = part_of(shown, |page| {
        let is_empty = page.course.is_none();
        (page.span.clone(), is_empty)
    });
    let practice = part_of(shown, |page| page.practice.clone());
    let choices = part_of(shown, |page| page.rubrics.clone());
    let course = part_of(shown, |page| page.course.clone());
    let ready = part_of(shown, |page| {
        page.course.as_ref().map(|course| course.ready.clone())
    });
    let own = part_of(shown, |page| {
        page.own.clone().map(|own| (own, page.own_eye.clone()))
    });
    view! {
        {move || span.get().and_then(|(words, is_empty)| span::told_of(&words, is_empty))}
        {move || ready.get().flatten().map(|ready| charted::told("ready", ready))}
        {move || practice.get().and_then(|shown| practice::practice(id, shown))}
        {move || choices.get().and_then(|choices| course::rubric_choice(id, &asked.get(), choices))}
        {move || course.get().flatten().map(course::course)}
        {move || figures.meanwhile()}
        {move || own.get().flatten().map(|(own, eye)| course::own(own, eye))}
    }
}

fn part_of<T: Clone + PartialEq + Send + Sync + 'static>(
    shown: Memo<Option<present::LearnerPage>>,
    see: fn(&present::LearnerPage) -> T,
) -> Memo<Option<T>> {
    Memo::new(move |_| shown.with(|page| page.as_ref().map(see)))
}
