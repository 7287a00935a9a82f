use leptos::prelude::*;

/// That the worker is at it, how far, and the button that stops it.
pub(crate) fn working(
    text: impl IntoView + 'static,
    share: Option<f64>,
    stop: impl Fn() + 'static,
) -> AnyView {
    view! {
        <p role="status">{text}</p>
        <progress aria-label="How much is done" value=share max="1"></progress>
        <div class="actions">
            <button type="button" class="button" on:click=move |_| stop()>"Stop"</button>
        </div>
    }
    .into_any()
}

/// Why there is no result, and the button that asks for it again, where that may help.
pub(crate) fn not_worked_out(
    why: String,
    again: Option<&'static str>,
    ask: impl Fn() + 'static,
) -> AnyView {
    let again = again.map(|words| {
        view! {
            <div class="actions">
                <button type="button" class="button" on:click=move |_| ask()>{words}</button>
            </div>
        }
    });
    view! {
        <div class="notice" data-kind="warn" role="alert"><p>{why}</p></div>
        {again}
    }
    .into_any()
}
