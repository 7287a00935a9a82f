//! Marks that are held back from learners, for examiners who ask.

use leptos::prelude::*;

use crate::present::EXAMINERS_ONLY;
use crate::records::Whom;

/// Whether an examiner asks to see what is held back about what the address names, and how
/// to ask or no longer: on each visit nobody has asked yet.
pub(crate) fn held_shown<T>(id: Memo<Option<T>>) -> (Signal<bool>, Callback<()>)
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let asked = RwSignal::new(None::<T>);
    Effect::new(move |before: Option<Option<T>>| {
        let now = id.get();
        if before.is_some_and(|before| before != now) {
            asked.set(None);
        }
        now
    });
    // The effect runs after the page is drawn anew, so what was asked about is compared.
    let shown = Signal::derive(move || asked.get().is_some() && asked.get() == id.get());
    let turn = Callback::new(move |()| {
        let id = id.get_untracked();
        asked.update(|asked| *asked = id.filter(|_| asked.is_none()));
    });
    (shown, turn)
}

/// Who looks, where `shows` says whether an examiner asked.
pub(crate) fn whom(shows: Signal<bool>) -> Whom {
    if shows.get() {
        Whom::Examiner
    } else {
        Whom::Learner
    }
}

/// Says that marks are held back, and lets an examiner see them all the same.
#[component]
pub(crate) fn HeldNotice(
    /// What is held.
    #[prop(into)]
    words: Signal<String>,
    /// Whether it is shown.
    shown: Signal<bool>,
    /// Shows it, or no longer.
    turn: Callback<()>,
) -> impl IntoView {
    view! {
        <div class="notice" id="held">
            <p>{words}</p>
            {move || shown.get().then(|| view! {
                <p class="screen-only">{EXAMINERS_ONLY}</p>
                <p class="paper-only">"Held marks are not printed: hide them before you print."</p>
            })}
            <div class="actions">
                <button type="button" class="button" on:click=move |_| turn.run(())>
                    {move || if shown.get() {
                        "Hide held marks"
                    } else {
                        "Show held marks (examiners)"
                    }}
                </button>
            </div>
        </div>
    }
}
