use leptos::ev;
use leptos::html;
use leptos::prelude::*;

/// A native dialog over the page, open while `open` is set. Escape and the
/// browser's own ways to close it unset `open`; focus goes back where it was.
#[component]
pub(crate) fn Dialog(
    /// Id of the heading inside, which names the dialog.
    labelled_by: &'static str,
    /// Whether it is open.
    open: RwSignal<bool>,
    /// What stands in it; made each time it opens.
    children: ChildrenFn,
) -> impl IntoView {
    let element = NodeRef::<html::Dialog>::new();
    Effect::new(move |_| {
        let Some(dialog) = element.get() else {
            return;
        };
        match (open.get(), dialog.open()) {
            (true, false) => {
                // Fails only for a dialog that is not in the page, which this one is.
                let _ = dialog.show_modal();
            }
            (false, true) => dialog.close(),
            _ => {}
        }
    });
    view! {
        <dialog
            class="dialog"
            aria-labelledby=labelled_by
            node_ref=element
            on:close=move |_: ev::Event| open.set(false)
        >
            <Show when=move || open.get()>{children()}</Show>
        </dialog>
    }
}
