use std::collections::BTreeSet;

use leptos::prelude::*;

use super::ticks::tick;
use crate::page::keeper::Keeper;
use crate::page::widgets::{CARDS, Each, PAGES, SaveEach, TileChoice, Tiles};
use crate::page::{clock, dom};
use crate::present::{Handout, class_title, handout, learner_choices};
use crate::records::LearnerId;

/// What is handed to each learner of a class, made in one go.
#[component]
pub(crate) fn ClassPage() -> impl IntoView {
    dom::set_title("For a class");
    let keeper = Keeper::here();
    let learners = Memo::new(move |_| keeper.with_ledger(|ledger| learner_choices(ledger, "")));
    let left_out = RwSignal::new(BTreeSet::<LearnerId>::new());
    let what = RwSignal::new(Handout::default().word().to_owned());
    let choices = Handout::ALL.map(Handout::choice);
    let choices = choices.map(|(word, title, note)| TileChoice::new(word, title, note));
    let each = Callback::new(move |()| {
        let wanted = Handout::from_word(&what.get_untracked());
        let all = learners.get_untracked();
        let left_out = left_out.get_untracked();
        let ids = all.into_iter().map(|learner| learner.id);
        let (base, title) = class_title(wanted, clock::now().day());
        Each {
            base,
            title,
            of: ids.filter(|id| !left_out.contains(id)).collect(),
            make: Callback::new(move |id: LearnerId| {
                keeper
                    .look_now(|ledger, rubrics| handout(ledger, rubrics, id, wanted, clock::now()))
            }),
        }
    });
    let ticks = move || {
        let learners = learners.get().into_iter();
        learners
            .map(|learner| tick(learner.id, left_out, learner.name, String::new()))
            .collect_view()
    };
    let save = move || {
        let is_card = what.with(|what| what == Handout::Card.word());
        view! { <SaveEach each sizes=if is_card { CARDS } else { PAGES } /> }
    };
    view! {
        <div class="page-head">
            <div>
                <h1>"For a class"</h1>
                <p>"What each learner is handed, made in one go. It holds released marks only; who has none yet is left out."</p>
            </div>
            <div class="actions">{save}</div>
        </div>
        <div class="part stack">
            <Tiles name="handout" legend="What" choices=choices.to_vec() value=what columns=3 />
            <fieldset class="field">
                <legend>"For whom"</legend>
                <div class="tiles">{ticks}</div>
            </fieldset>
        </div>
    }
}
