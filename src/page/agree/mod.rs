//! Where examiners agree: each criterion that they marked differently, to settle.

mod point;

use leptos::ev;
use leptos::prelude::*;

use super::again::ExaminerField;
use super::keeper::Keeper;
use super::seal::SealDialog;
use super::sheet::{alone, no_sheet};
use super::ways::ThrowAgreed;
use super::{clock, dom, paths, preferences};
use crate::present::{
    AgreePage as Shown, AgreeStage, NoSheet, OpenAgreement, agree_command, agree_page,
    examiner_names, sentence,
};
use crate::records::{MarkingId, PieceId};
use point::Point;

/// What stays as it is while people settle one criterion after the other.
#[derive(Debug, Clone, PartialEq)]
enum Way {
    Head(Box<Shown>),
    Open {
        marking: MarkingId,
        dom: Vec<String>,
    },
    Missing(NoSheet),
}

/// The examiners of the piece in the address agree.
#[component]
pub(crate) fn AgreePage() -> impl IntoView {
    dom::set_title("Agreed marking");
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let page = Memo::new(move |_| {
        let piece = piece.get().ok_or(NoSheet::Lost)?;
        keeper.look(|ledger, rubrics| agree_page(ledger, rubrics, piece))
    });
    let way = Memo::new(move |_| match page.get() {
        Err(why) => Way::Missing(why),
        Ok(shown) => match &shown.stage {
            AgreeStage::Open(open) => Way::Open {
                marking: open.marking,
                dom: open.points.iter().map(|point| point.dom.clone()).collect(),
            },
            _ => Way::Head(Box::new(shown)),
        },
    });
    move || match way.get() {
        Way::Missing(NoSheet::Alone) => alone(piece.get_untracked(), "Agreed marking"),
        Way::Missing(why) => no_sheet(why, piece.get_untracked()),
        Way::Head(shown) => closed(*shown),
        Way::Open { marking, .. } => view! { <Open page marking /> }.into_any(),
    }
}

fn head(shown: &Shown) -> AnyView {
    let (title, about, rule) = (shown.title.clone(), shown.about.clone(), shown.rule.clone());
    view! {
        <div class="page-head">
            <div>
                <h1>"Agreed marking"</h1>
                <p><bdi>{title}</bdi> ": " {about}</p>
            </div>
        </div>
        <p class="part">{rule}</p>
    }
    .into_any()
}

/// Nothing to settle now: not begun, waiting for a third examiner, or sealed.
fn closed(shown: Shown) -> AnyView {
    let side = paths::examiners(shown.piece);
    let side = view! { <a class="button" href=side>"Examiners side by side"</a> };
    let inside = match shown.stage {
        AgreeStage::Open(_) => ().into_any(),
        AgreeStage::Begin => view! { <Begin piece=shown.piece /> }.into_any(),
        AgreeStage::Third => {
            let again = paths::again_as(shown.piece, "third");
            view! {
                <div class="notice">
                    <p>"The two awards differ, and the rubric asks for a third examiner then. You agree once the third marking is sealed."</p>
                    <div class="actions">
                        <a class="button" data-kind="primary" href=again>"Mark as third examiner"</a>
                        {side}
                    </div>
                </div>
            }
            .into_any()
        }
        AgreeStage::Sealed(marking) => {
            let sheet = paths::sheet_of(shown.piece, marking);
            view! {
                <div class="notice">
                    <p><b>"The agreed marking is sealed."</b> " The markings that it is made from stay as they are."</p>
                    <div class="actions">
                        <a class="button" data-kind="primary" href=sheet>"See the agreed sheet"</a>
                        {side}
                    </div>
                </div>
            }
            .into_any()
        }
    };
    view! {
        {head(&Shown { stage: AgreeStage::Begin, ..shown })}
        {inside}
    }
    .into_any()
}

#[component]
fn Begin(piece: PieceId) -> impl IntoView {
    let keeper = Keeper::here();
    let examiner = RwSignal::new(preferences::examiner());
    let wrong = RwSignal::new(None::<String>);
    let names = examiner_names(&keeper.ledger_now());
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let command = examiner.with_untracked(|name| agree_command(piece, name, clock::now()));
        let made = command.and_then(|command| {
            let made = keeper.perform(command);
            made.map_err(|error| sentence(&error.to_string()))
        });
        if let Err(why) = made {
            wrong.set(Some(why));
            dom::focus_soon("examiner");
        }
    };
    view! {
        <form class="stack narrow" novalidate on:submit=submit>
            <p>"The agreed marking is made from the sealed ones. They stay as they are; the sheet names them and says how each difference was settled."</p>
            <ExaminerField names error=wrong.into() value=examiner />
            <div class="actions">
                <button class="button" data-kind="primary">"Begin the agreed marking"</button>
                <a class="button" href=paths::examiners(piece)>"Examiners side by side"</a>
            </div>
        </form>
    }
}

#[component]
fn Open(page: Memo<Result<Shown, NoSheet>>, marking: MarkingId) -> impl IntoView {
    let Ok(first) = page.get_untracked() else {
        return ().into_any();
    };
    let open = Memo::new(move |_| match page.get().map(|shown| shown.stage) {
        Ok(AgreeStage::Open(open)) => Some(open),
        _ => None,
    });
    let say = move |pick: fn(&OpenAgreement) -> String| {
        move || open.with(|open| open.as_ref().map(pick).unwrap_or_default())
    };
    let is_done = move || open.with(|open| open.as_ref().is_some_and(|open| open.is_done));
    let sealing = RwSignal::new(false);
    let count = open.with_untracked(|open| open.as_ref().map_or(0, |open| open.points.len()));
    let points = (0..count).map(|at| {
        let point = Memo::new(move |_| {
            open.with(|open| open.as_ref().and_then(|open| open.points.get(at).cloned()))
        });
        view! { <Point point marking /> }
    });
    view! {
        {head(&first)}
        <div class="stack agree">
            {points.collect_view()}
            <div class="notice">
                <p role="status"><b>{say(|open| open.far.clone())}</b></p>
                <p>{say(|open| open.total.clone())}</p>
                <div class="actions">
                    <button
                        type="button"
                        class="button"
                        data-kind="primary"
                        disabled=move || !is_done()
                        on:click=move |_| sealing.set(true)
                    >
                        "Seal the agreed marking"
                    </button>
                    <a class="button" href=paths::sheet_of(first.piece, marking)>"See it as a sheet"</a>
                    <a class="button" href=paths::examiners(first.piece)>"Examiners side by side"</a>
                </div>
            </div>
            <ThrowAgreed marking />
        </div>
        <SealDialog marking open=sealing />
    }
    .into_any()
}
