use leptos::prelude::*;

use super::Dialog;

/// Asks before something is done for good: a heading, what it means, and two answers, of
/// which the one that does nothing has the focus.
#[component]
pub(crate) fn Question(
    /// Id of the heading.
    id: &'static str,
    /// Whether it is asked.
    open: RwSignal<bool>,
    /// What is asked.
    #[prop(into)]
    asks: ViewFn,
    /// The answer that does it.
    yes: &'static str,
    /// The answer that does not.
    no: &'static str,
    /// Does it; the question is closed before.
    done: Callback<()>,
    /// What it means; made each time it is asked.
    children: ChildrenFn,
) -> impl IntoView {
    let children = StoredValue::new(children);
    let asks = StoredValue::new(asks);
    let agreed = move |_| {
        open.set(false);
        done.run(());
    };
    view! {
        <Dialog labelled_by=id open>
            <div class="stack">
                <h2 id=id>{asks.with_value(ViewFn::run)}</h2>
                {children.with_value(|children| children())}
                <div class="actions">
                    <button type="button" class="button" data-kind="primary" on:click=agreed>
                        {yes}
                    </button>
                    <button type="button" class="button" autofocus on:click=move |_| open.set(false)>
                        {no}
                    </button>
                </div>
            </div>
        </Dialog>
    }
}
