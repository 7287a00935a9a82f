//! The scored sheet of a piece: on the screen, on paper, and as files.

mod after;
mod examiners;
mod side;
mod sure;

use leptos::prelude::*;

use super::keeper::Keeper;
use super::lost::{LostPage, unreadable_rubric};
use super::notices::{Notice, Weight};
use super::paper::{Paper, PrintButton};
use super::ways::Unseen;
use super::widgets::{SavePaper, SaveTable};
use super::{dom, jobs, paths, save_file};
use crate::present::over::over_of;
use crate::present::paper_files::sheet_wanted;
use crate::present::{
    NoSheet, Rubrics, SheetPage as Shown, certainty_job, done, sheet_json, sheet_page,
    weighed_sheet,
};
use crate::records::{Ledger, MarkingId, PieceId};
use after::AfterSeal;
pub(super) use examiners::{ExaminersPage, alone};
pub(super) use side::SidePage;
pub(super) use sure::SurePage;

/// Key of the notice that a file could not be made.
const NO_FILE: &str = "no-file";

/// The scored sheet of the piece in the address, or of the marking in it.
#[component]
pub(super) fn SheetPage() -> impl IntoView {
    of_piece(
        sheet_page,
        |shown| &shown.file_base,
        |shown| view! { <Opened shown /> }.into_any(),
        no_sheet,
    )
}

/// A page about the piece in the address, or about the marking of it that stands there:
/// what `find` finds is shown, or what stands for it. A browser that prints to a file
/// names it by what `file_base` gives.
pub(super) fn of_piece<T>(
    find: impl Fn(&Ledger, &Rubrics, PieceId, Option<MarkingId>) -> Result<T, NoSheet>
    + Send
    + Sync
    + 'static,
    file_base: fn(&T) -> &str,
    show: impl Fn(T) -> AnyView + Send + 'static,
    none: impl Fn(NoSheet, Option<PieceId>) -> AnyView + Send + 'static,
) -> AnyView
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let marking = paths::marking_in_path();
    let page = Memo::new(move |_| {
        let (Some(piece), Ok(marking)) = (piece.get(), marking.get()) else {
            return Err(NoSheet::Lost);
        };
        keeper.look(|ledger, rubrics| find(ledger, rubrics, piece, marking))
    });
    (move || match page.get() {
        Ok(shown) => {
            document().set_title(file_base(&shown));
            show(shown)
        }
        Err(why) => none(why, piece.get_untracked()),
    })
    .into_any()
}

/// Stands for a sheet that is not shown.
pub(super) fn no_sheet(why: NoSheet, piece: Option<PieceId>) -> AnyView {
    match (why, piece) {
        (NoSheet::Unseen, Some(piece)) => view! { <Unseen piece /> }.into_any(),
        (NoSheet::NoRubric, _) => {
            dom::set_title("Scored sheet");
            view! {
                <div class="page-head"><div><h1>"Scored sheet"</h1></div></div>
                {unreadable_rubric()}
            }
            .into_any()
        }
        (NoSheet::Lost | NoSheet::Alone | NoSheet::Unseen | NoSheet::Held { .. }, _) => {
            view! { <LostPage /> }.into_any()
        }
    }
}

#[component]
fn Opened(shown: Shown) -> impl IntoView {
    let keeper = Keeper::here();
    let (piece, marking, after_seal) = (shown.piece, shown.marking, shown.after_seal.clone());
    let (feedback, sitting) = (shown.feedback.clone(), shown.sitting);
    let foot = shown
        .sealed
        .then(|| view! { <AfterSeal piece marking shown=after_seal feedback sitting /> });
    let plain = StoredValue::new(shown.document.clone());
    let asked = keeper.look_now(|ledger, _| certainty_job(ledger, ledger.marking(marking)?));
    let topic = StoredValue::new(asked.as_ref().map(|(topic, _)| topic.clone()));
    Effect::new(move |_| {
        if let Some((topic, job)) = asked.clone() {
            jobs::ask(topic, job);
        }
    });
    // The sheet stands at once; how sure it is comes when it is worked out.
    let document = Memo::new(move |_| {
        let state = topic.with_value(|topic| topic.as_ref().and_then(jobs::state));
        let outcome = state.as_ref().and_then(done);
        let weighed = outcome.and_then(|outcome| {
            keeper.look(|ledger, rubrics| weighed_sheet(ledger, rubrics, marking, &outcome))
        });
        weighed.unwrap_or_else(|| plain.get_value())
    });
    view! {
        <Actions shown />
        {move || {
            if dom::is_heading_focused() {
                // The one that stood for it goes.
                request_animation_frame(dom::focus_heading);
            }
            view! { <Paper document=document.get() /> }
        }}
        {foot}
    }
}

#[component]
fn Actions(shown: Shown) -> impl IntoView {
    let keeper = Keeper::here();
    let Shown {
        piece,
        marking,
        file_base,
        sealed,
        learner,
        other,
        again,
        agree,
        is_agreed,
        after_seal,
        feedback: _,
        sitting: _,
        document: _,
    } = shown;
    let name = StoredValue::new(file_base);
    let file = move |kind: save_file::Kind, text: Result<String, String>| {
        let saved =
            text.and_then(|text| name.with_value(|name| save_file::offer(name, kind, &text)));
        match saved {
            Ok(()) => keeper.notices().clear(NO_FILE),
            Err(text) => keeper.notices().show(Notice {
                key: NO_FILE,
                weight: Weight::Stop,
                text,
                remedy: None,
                closes: true,
            }),
        }
    };
    let wanted = Callback::new(move |()| {
        keeper.look_now(|ledger, rubrics| sheet_wanted(ledger, rubrics, marking))
    });
    let save_json = move |_| {
        let text = keeper.look_now(|ledger, _| sheet_json(ledger, marking));
        file(save_file::Kind::Json, text);
    };
    let json = sealed.then(|| {
        view! {
            <button type="button" class="button" on:click=save_json>"Save as JSON"</button>
        }
    });
    let back = match (sealed, learner) {
        (false, _) => {
            let href = paths::marking(piece, marking);
            Some((href, "Back to the mark sheet".to_owned()))
        }
        (true, Some((id, name))) => Some((paths::learner(id), name)),
        (true, None) => None,
    };
    let back = back.map(|(href, text)| {
        view! { <a class="button" data-kind="quiet" href=href><bdi>{text}</bdi></a> }
    });
    let sure = (!is_agreed).then(|| {
        view! { <a class="button" href=paths::sure(piece, marking)>"How sure"</a> }
    });
    let other = other.map(|(other, text)| {
        view! {
            <a class="button" href=paths::side(piece)>"Side by side"</a>
            <a class="button" href=paths::sheet_of(piece, other)>{text}</a>
        }
    });
    let agree = agree.map(|text| {
        view! {
            <a class="button" href=paths::examiners(piece)>"Examiners side by side"</a>
            <a class="button" href=paths::agree(piece)>{text}</a>
        }
    });
    let over = keeper.look_now(|ledger, rubrics| over_of(ledger, rubrics, marking));
    let over = over.map(|(learner, key)| {
        view! {
            <a class="button" href=paths::over_with(learner, &key)>"Lay it over another"</a>
        }
    });
    let again = again.into_iter().map(|(role, text)| {
        view! { <a class="button" href=paths::again_as(piece, role)>{text}</a> }
    });
    let again = again.collect_view();
    view! {
        <div class="actions screen-only">
            <PrintButton />
            <SavePaper wanted />
            <SaveTable wanted />
            {json}
            {sure}
            {after::kin(piece, &after_seal)}
            {other}
            {over}
            {agree}
            {again}
            {back}
        </div>
    }
}
