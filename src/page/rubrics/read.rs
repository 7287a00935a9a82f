use std::collections::BTreeSet;

use leptos::prelude::*;
use leptos_router::hooks::use_navigate;

use super::{begin, taken_ids};
use crate::command::Command;
use crate::page::keeper::Keeper;
use crate::page::lost::LostPage;
use crate::page::paper::Paper;
use crate::page::save_file;
use crate::page::widgets::{PushButton, SaveDocument};
use crate::page::{clock, dom, paths};
use crate::present::rubrics::{
    RubricPage, TryRow, VersionRow, copy_of, next_version, rubric_page, try_rows,
};
use crate::present::sentence;

/// One rubric as people read it.
#[component]
pub(crate) fn ReadPage() -> impl IntoView {
    let keeper = Keeper::here();
    let digest = paths::text_in_path("rubric");
    let shipped = StoredValue::new(keeper.offers());
    let page = Memo::new(move |_| {
        let digest = digest.get();
        keeper.look(|ledger, _| {
            shipped.with_value(|shipped| rubric_page(ledger, shipped, &digest, None, clock::now()))
        })
    });
    move || match page.get() {
        None => view! { <LostPage /> }.into_any(),
        Some(page) => {
            dom::set_title(&page.title);
            view! { <Opened page digest=digest.get_untracked() /> }.into_any()
        }
    }
}

#[component]
fn Opened(page: RubricPage, digest: String) -> impl IntoView {
    let keeper = Keeper::here();
    let wrong = RwSignal::new(String::new());
    let navigate = StoredValue::new_local(use_navigate());
    let text = StoredValue::new(page.text);
    let start = move |text: String| {
        let begun = navigate.with_value(|navigate| begin(keeper, navigate, text));
        wrong.set(begun.err().unwrap_or_default());
    };
    let copy = PushButton {
        kind: Some("primary"),
        ..PushButton::plain("Make it your own", move || {
            start(text.with_value(|text| copy_of(text, &taken_ids(keeper))));
        })
    };
    let names: BTreeSet<String> = page
        .versions
        .iter()
        .map(|version| version.name.trim_start_matches("version ").to_owned())
        .collect();
    let next = (!page.is_shipped).then(|| {
        let next = PushButton {
            kind: Some("primary"),
            ..PushButton::plain("Write the next version", move || {
                start(text.with_value(|text| next_version(text, &names)));
            })
        };
        next.view()
    });
    let copy = PushButton {
        kind: copy.kind.filter(|_| page.is_shipped),
        words: Signal::stored(
            if page.is_shipped {
                "Make it your own"
            } else {
                "Copy it"
            }
            .to_owned(),
        ),
        ..copy
    };
    let name = page.file_name;
    let save = PushButton::plain("Save the rubric file", move || {
        let saved = text.with_value(|text| save_file::offer(&name, save_file::Kind::Toml, text));
        wrong.set(saved.err().unwrap_or_default());
    });
    let gone = digest.clone();
    let remove = page.is_free.then(|| {
        let remove = PushButton {
            kind: Some("quiet"),
            ..PushButton::plain("Remove this version", move || {
                let digest = gone.clone();
                match keeper.perform(Command::RemoveRubric { digest }) {
                    Ok(_) => {
                        navigate.with_value(|navigate| navigate(paths::RUBRICS, Default::default()))
                    }
                    Err(refused) => wrong.set(sentence(&refused.to_string())),
                }
            })
        };
        remove.view()
    });
    let warnings = (!page.warnings.is_empty()).then(|| {
        let items = page
            .warnings
            .into_iter()
            .map(|text| view! { <li>{text}</li> });
        view! {
            <div class="notice" data-kind="warn">
                <p>"To look at"</p>
                <ul>{items.collect_view()}</ul>
            </div>
        }
    });
    let (blank, plan) = (paths::rubric_blank(&digest), paths::rubric_plan(&digest));
    let of = digest.clone();
    let versions = page.versions.into_iter().map(move |row| version(&of, row));
    let tries = Memo::new(move |_| keeper.with_ledger(|ledger| try_rows(ledger, &digest)));
    view! {
        <div class="actions screen-only">{next} {copy.view()} {save.view()} <SaveDocument document=page.document.clone() what="rubric" /> <a class="button" href=blank>"Sheet to fill in by hand"</a> <a class="button" href=plan>"Plan the piece"</a> {remove}</div>
        {move || wrong.with(|wrong| (!wrong.is_empty()).then(|| view! {
            <p class="error" role="alert">{wrong.clone()}</p>
        }))}
        {warnings}
        <section class="part screen-only" aria-labelledby="versions">
            <h2 id="versions">"Versions"</h2>
            <ul class="pieces">{versions.collect_view()}</ul>
        </section>
        {move || tries_part(&tries.get())}
        <div class="part"><Paper document=page.document /></div>
    }
}

fn version(here: &str, row: VersionRow) -> AnyView {
    let name = if row.is_here {
        view! { <b aria-current="true">{row.name.clone()} ", read below"</b> }.into_any()
    } else {
        view! { <a class="plain-link" href=paths::rubric(&row.digest)>{row.name.clone()}</a> }
            .into_any()
    };
    let changed = row.before.map(|before| {
        let href = paths::rubric_compare(&row.digest, &before);
        view! {
            <a class="button" data-kind="quiet" href=href>
                "What changed" <span class="unseen">{format!(" in {}", row.name)}</span>
            </a>
        }
    });
    let against = (!row.is_here).then(|| {
        let href = paths::rubric_compare(here, &row.digest);
        view! {
            <a class="button" data-kind="quiet" href=href>
                "Compare with the one below" <span class="unseen">{format!(": {}", row.name)}</span>
            </a>
        }
    });
    view! {
        <li class="row-line">
            <p>{name}</p>
            <p class="quiet">{row.about}</p>
            <div class="actions">{changed} {against}</div>
        </li>
    }
    .into_any()
}

/// Old pieces that the rubric can be tried on.
pub(super) fn tries_part(rows: &[TryRow]) -> Option<AnyView> {
    if rows.is_empty() {
        return None;
    }
    let rows = rows.iter().map(|row| {
        view! {
            <li class="row-line">
                <p><a class="plain-link" href=paths::rubric_try(&row.rubric, row.piece)>{row.title.clone()}</a></p>
                <p class="quiet">{row.about.clone()}</p>
            </li>
        }
    });
    let rows = rows.collect_view();
    Some(
        view! {
            <details class="part screen-only">
                <summary>"Try it on an old piece: what would have changed"</summary>
                <ul class="pieces">{rows}</ul>
            </details>
        }
        .into_any(),
    )
}
