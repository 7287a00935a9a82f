//! What a study comes to, worked out beside the page, and taking it over.

use leptos::prelude::*;

use super::{Here, REFUSED};
use crate::page::paper::{Paper, PrintButton};
use crate::page::widgets::{PushButton, SaveDocument, not_worked_out, working};
use crate::page::{dom, jobs};
use crate::present::{StudyHead, StudyTaking, Sure, study_job, study_shown, study_taking};
use crate::sheet::StudySheet;

pub(super) fn result(here: Here, head: Memo<Option<StudyHead>>) -> AnyView {
    let Here { keeper, id, .. } = here;
    let job = Memo::new(move |_| {
        let has_any = head.with(|head| head.as_ref().is_some_and(|head| head.has_readings));
        let job = keeper.with_ledger(|ledger| study_job(ledger, id));
        job.filter(|_| has_any)
    });
    let ask = move || {
        if let Some((topic, job)) = job.get() {
            jobs::ask(topic, job);
        }
    };
    Effect::new(move |_| ask());
    let stop = move || jobs::stop(&id.to_string());
    let found = Memo::new(move |_| {
        let topic = job.with(|job| job.as_ref().map(|(topic, _)| topic.clone()))?;
        Some(study_shown(jobs::state(&topic).as_ref()))
    });
    // The last result stays until the next one is there, so that the page does not jump.
    let last: RwSignal<Option<StudySheet>> = RwSignal::new(None);
    Effect::new(move |_| match found.get() {
        None => last.set(None),
        Some(Sure::Known(sheet)) => last.set(Some(sheet)),
        Some(_) => {}
    });
    let is_new = Memo::new(move |_| found.with(|found| matches!(found, Some(Sure::Known(_)))));
    let meanwhile = move || match found.get()? {
        Sure::Known(_) => None,
        Sure::Busy { text, share } => Some(working(text, share, stop)),
        Sure::Unknown { text, again } => Some(not_worked_out(text, again, ask)),
    };
    let paper = move || {
        let document = last.get()?.document;
        Some(view! {
            <div class="part actions screen-only">
                <PrintButton />
                <SaveDocument document=document.clone() what="instrument-study" />
            </div>
            <Paper document />
        })
    };
    let taking = Memo::new(move |_| {
        let sheet = last.get().filter(|_| is_new.get())?;
        let repeatability = sheet.repeatability;
        keeper.with_ledger(|ledger| study_taking(ledger, id, repeatability.as_deref()))
    });
    view! {
        <section class="stack screen-only" aria-label="Working out">{meanwhile}</section>
        {move || taking.get().map(|taking| taken(here, taking))}
        {paper}
    }
    .into_any()
}

fn taken(here: Here, taking: StudyTaking) -> AnyView {
    let inside = match taking {
        StudyTaking::Nothing(why) => view! { <p>{why}</p> }.into_any(),
        StudyTaking::Changes {
            rows,
            done,
            command,
            undo,
        } => {
            let rows = rows.into_iter().map(|(what, before, after)| {
                view! {
                    <tr>
                        <th scope="row">{what}</th>
                        <td data-label="Now" dir="auto">{before}</td>
                        <td data-label="Then" dir="auto">{after}</td>
                    </tr>
                }
                .into_any()
            });
            let rows: Vec<AnyView> = rows.collect();
            let take = move || {
                if here.keeper.perform_or_say(REFUSED, (*command).clone()) {
                    here.said.set(done.clone());
                    here.undos.update(|undos| undos.push((*undo).clone()));
                    dom::focus_soon("study-taking");
                }
            };
            let button = PushButton::plain("Take over as this instrument’s repeatability", take);
            view! {
                <p>"Markings that are begun keep the figures that they have."</p>
                <table class="table" data-stack="">
                    <caption>"What changes in the instrument"</caption>
                    <thead>
                        <tr><th scope="col">"Figure"</th><th scope="col">"Now"</th><th scope="col">"Then"</th></tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
                <div class="actions">{button.view()}</div>
            }
            .into_any()
        }
    };
    view! {
        <section class="part screen-only" aria-labelledby="study-taking">
            <h2 id="study-taking" tabindex="-1">"Take it over"</h2>
            <div class="stack narrow">{inside}</div>
        </section>
    }
    .into_any()
}
