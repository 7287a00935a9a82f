use leptos::prelude::*;

use super::keeper::Keeper;
use super::{dom, late};

/// How much a notice weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Weight {
    /// Good to know.
    Info,
    /// Somebody should look.
    Warn,
    /// Something does not go on until somebody acts.
    Stop,
}

impl Weight {
    /// What the style sheet calls it; nothing for the plain one.
    pub(crate) fn kind(self) -> Option<&'static str> {
        match self {
            Self::Info => None,
            Self::Warn => Some("warn"),
            Self::Stop => Some("stop"),
        }
    }
}

/// What a notice offers to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Remedy {
    /// Saves again.
    TryAgain,
    /// Loads the page again.
    Reload,
    /// Fetches the rest of the page's program.
    FetchAgain,
    /// Goes to a page.
    GoTo { href: String, text: String },
}

/// A message above the page. One with the same key takes its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Notice {
    pub(crate) key: &'static str,
    pub(crate) weight: Weight,
    pub(crate) text: String,
    pub(crate) remedy: Option<Remedy>,
    /// Whether a person may put it away.
    pub(crate) closes: bool,
}

/// The messages above the page.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Notices(RwSignal<Vec<Notice>>);

impl Notices {
    pub(super) fn new() -> Self {
        Self(RwSignal::new(Vec::new()))
    }

    /// Shows `notice` in place of the one with its key, if any.
    pub(crate) fn show(self, notice: Notice) {
        self.0.update(|notices| {
            let old = notices.iter_mut().find(|old| old.key == notice.key);
            match old {
                Some(old) => *old = notice,
                None => notices.push(notice),
            }
        });
    }

    /// Takes the notice with this key away.
    pub(crate) fn clear(self, key: &str) {
        if self.is_shown(key) {
            self.0
                .update(|notices| notices.retain(|notice| notice.key != key));
        }
    }

    /// Whether there is a notice with this key.
    pub(crate) fn is_shown(self, key: &str) -> bool {
        self.0
            .with_untracked(|notices| notices.iter().any(|notice| notice.key == key))
    }
}

/// Every notice, the first one first.
#[component]
pub(super) fn NoticeList() -> impl IntoView {
    let keeper = Keeper::here();
    let Notices(all) = keeper.notices();
    let each = move || all.get();
    let key = |notice: &Notice| (notice.key, notice.text.clone());
    view! {
        <div class="notices stack" role="status">
            <For each=each key=key let(notice)>
                {one_notice(keeper, notice)}
            </For>
        </div>
    }
}

fn one_notice(keeper: Keeper, notice: Notice) -> impl IntoView {
    let Notice {
        key,
        weight,
        text,
        remedy,
        closes,
    } = notice;
    let remedy = remedy.map(|remedy| match remedy {
        Remedy::TryAgain => {
            let again = move |_| keeper.save_again();
            view! { <button class="button" type="button" on:click=again>"Try again"</button> }
                .into_any()
        }
        Remedy::FetchAgain => {
            let again = move |_| late::fetch_again(keeper);
            view! { <button class="button" type="button" on:click=again>"Try again"</button> }
                .into_any()
        }
        Remedy::Reload => {
            view! { <button class="button" type="button" on:click=|_| dom::reload()>"Reload the page"</button> }
                .into_any()
        }
        Remedy::GoTo { href, text } => {
            let close = move |_| keeper.notices().clear(key);
            view! { <a class="button" href=href on:click=close>{text}</a> }.into_any()
        }
    });
    let close = closes.then(|| {
        let close = move |_| keeper.notices().clear(key);
        view! {
            <button class="button" data-kind="quiet" type="button" on:click=close>
                "Put this away"
            </button>
        }
    });
    view! {
        <div class="notice" data-kind=weight.kind() data-notice=key>
            <p>{text}</p>
            {(remedy.is_some() || close.is_some())
                .then(|| view! { <div class="actions">{remedy} {close}</div> })}
        </div>
    }
    .into_any()
}
