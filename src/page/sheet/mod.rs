//! The scored sheet of a piece: on the screen, on paper, and as files.

mod paper;

use leptos::prelude::*;

use super::keeper::Keeper;
use super::lost::{LostPage, unreadable_rubric};
use super::notices::{Notice, Weight};
use super::{dom, paths, save_file};
use crate::present::{NoSheet, SheetPage as Shown, sheet_csv, sheet_json, sheet_page};
use crate::records::PieceId;
use paper::Paper;

/// Key of the notice that a file could not be made.
const NO_FILE: &str = "no-file";

/// The scored sheet of the piece in the address.
#[component]
pub(super) fn SheetPage() -> impl IntoView {
    let keeper = Keeper::here();
    let piece = paths::id_in_path::<PieceId>("piece");
    let page = Memo::new(move |_| {
        let piece = piece.get().ok_or(NoSheet::Lost)?;
        keeper.look(|ledger, rubrics| sheet_page(ledger, rubrics, piece))
    });
    move || match page.get() {
        Ok(shown) => {
            // A browser that prints to a file names it so.
            document().set_title(&shown.file_base);
            view! { <Opened shown /> }.into_any()
        }
        Err(NoSheet::Lost) => view! { <LostPage /> }.into_any(),
        Err(NoSheet::NoRubric) => {
            dom::set_title("Scored sheet");
            view! {
                <div class="page-head"><div><h1>"Scored sheet"</h1></div></div>
                {unreadable_rubric()}
            }
            .into_any()
        }
    }
}

#[component]
fn Opened(shown: Shown) -> impl IntoView {
    let document = shown.document.clone();
    view! {
        <Actions shown />
        <Paper document />
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
        ..
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
    let save_csv = move |_| {
        let text = keeper.look_now(|ledger, rubrics| sheet_csv(ledger, rubrics, marking));
        file(save_file::Kind::Csv, text);
    };
    let save_json = move |_| {
        let text = keeper.look_now(|ledger, _| sheet_json(ledger, marking));
        file(save_file::Kind::Json, text);
    };
    let print = move |_| {
        if window().print().is_err() {
            file(
                save_file::Kind::Csv,
                Err("This browser does not print; save the sheet as CSV instead.".to_owned()),
            );
        }
    };
    let json = sealed.then(|| {
        view! {
            <button type="button" class="button" on:click=save_json>"Save as JSON"</button>
        }
    });
    let back = match (sealed, learner) {
        (false, _) => Some((paths::piece(piece), "Back to the mark sheet".to_owned())),
        (true, Some((id, name))) => Some((paths::learner(id), name)),
        (true, None) => None,
    };
    let back = back.map(|(href, text)| {
        view! { <a class="button" data-kind="quiet" href=href><bdi>{text}</bdi></a> }
    });
    view! {
        <div class="actions screen-only">
            <button type="button" class="button" data-kind="primary" on:click=print>"Print"</button>
            <button type="button" class="button" on:click=save_csv>"Save as CSV"</button>
            {json}
            {back}
        </div>
    }
}
