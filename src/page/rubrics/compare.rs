use leptos::prelude::*;

use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::Paper;
use crate::page::{dom, paths};
use crate::present::rubrics::{NoTrial, compare_page, try_page};
use crate::records::PieceId;

/// Two rubrics compared.
#[component]
pub(crate) fn ComparePage() -> impl IntoView {
    dom::set_title("What changed");
    let keeper = Keeper::here();
    let (key, other) = (paths::text_in_path("rubric"), paths::text_in_path("other"));
    let shipped = StoredValue::new(keeper.offers());
    let document = Memo::new(move |_| {
        let (key, other) = (key.get(), other.get());
        keeper.with_ledger(|ledger| {
            shipped.with_value(|shipped| compare_page(ledger, shipped, &key, &other))
        })
    });
    move || match document.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(document) => view! {
            <Paper document />
            <p class="screen-only">
                <a class="plain-link" href=move || paths::rubric(&key.get())>"Read the rubric"</a>
            </p>
        }
        .into_any(),
    }
}

/// An old piece marked by another rubric.
#[component]
pub(crate) fn TryPage() -> impl IntoView {
    dom::set_title("Tried on an old piece");
    let keeper = Keeper::here();
    let key = paths::text_in_path("rubric");
    let piece = paths::id_in_path::<PieceId>("piece");
    let shipped = StoredValue::new(keeper.offers());
    let document = Memo::new(move |_| {
        let (key, piece) = (key.get(), piece.get().ok_or(NoTrial::Lost)?);
        keeper.look(|ledger, rubrics| {
            shipped.with_value(|shipped| try_page(ledger, rubrics, shipped, &key, piece))
        })
    });
    move || {
        match document.get() {
        Ok(document) => view! { <Paper document /> }.into_any(),
        Err(NoTrial::Lost) => view! { <LostPage /> }.into_any(),
        Err(NoTrial::Unseen) => view! {
            <div class="page-head">
                <div>
                    <h1>"Not to be seen yet"</h1>
                    <p>"This piece is marked unseen by more than one. Try a rubric on it once every marking of it is sealed."</p>
                </div>
            </div>
        }
        .into_any(),
        Err(NoTrial::NotReady) => view! {
            <div class="page-head">
                <div>
                    <h1>"Not ready to be tried"</h1>
                    <p>"The rubric has something to mend first; go back and look at what it says."</p>
                </div>
            </div>
        }
        .into_any(),
    }
    }
}
