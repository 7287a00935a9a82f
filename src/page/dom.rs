//! The few things that are asked of the document itself.

use leptos::prelude::{document, request_animation_frame, window};
use wasm_bindgen::JsCast as _;
use web_sys::{FocusOptions, HtmlElement, HtmlInputElement};

/// Takes the element `id` away.
pub(super) fn remove(id: &str) {
    if let Some(element) = document().get_element_by_id(id) {
        element.remove();
    }
}

/// Replaces what the element `id` says.
pub(super) fn say(id: &str, text: &str) {
    if let Some(element) = document().get_element_by_id(id) {
        element.set_text_content(Some(text));
    }
}

/// Names the page in the browser's tab and history.
pub(crate) fn set_title(page: &str) {
    document().set_title(&format!("{page} · Evenshod"));
}

/// Focuses the element `id` once the page has changed.
pub(crate) fn focus_soon(id: &'static str) {
    focus_soon_at(id.to_owned());
}

/// As [`focus_soon`], for ids that are made up as one goes.
pub(crate) fn focus_soon_at(id: String) {
    request_animation_frame(move || {
        if let Some(element) = html_element(&format!("#{id}")) {
            // Focus that cannot be set is no loss but of comfort.
            let _ = element.focus();
        }
    });
}

/// Focuses the field `id` at once with all that it holds, so that what is typed next takes
/// the place of that.
pub(crate) fn select(id: &str) {
    let field = document().get_element_by_id(id);
    let field = field.and_then(|field| field.dyn_into::<HtmlInputElement>().ok());
    if let Some(field) = field {
        // Focus that cannot be set is no loss but of comfort.
        let _ = field.focus();
        field.select();
    }
}

/// Focuses the page's heading, so that a screen reader says where one is; the
/// window stays where it stands.
pub(super) fn focus_heading() {
    let Some(heading) = html_element("main h1").or_else(|| html_element("main")) else {
        return;
    };
    // An element that refuses the attribute refuses the focus too, and that is all.
    let _ = heading.set_attribute("tabindex", "-1");
    let options = FocusOptions::new();
    options.set_prevent_scroll(true);
    let _ = heading.focus_with_options(&options);
}

/// Whether the focus is on the page's heading.
pub(super) fn is_heading_focused() -> bool {
    document()
        .active_element()
        .is_some_and(|element| element.matches("main h1") == Ok(true))
}

/// Focuses the page itself, past its head.
pub(super) fn focus_main() {
    if let Some(main) = html_element("main") {
        // Focus that cannot be set is no loss but of comfort.
        let _ = main.focus();
    }
}

/// Loads the page again.
pub(super) fn reload() {
    // A browser that refuses leaves the notice that asked for it.
    let _ = window().location().reload();
}

fn html_element(selector: &str) -> Option<HtmlElement> {
    document()
        .query_selector(selector)
        .ok()
        .flatten()?
        .dyn_into()
        .ok()
}

/// Whether there is room for two columns: as the style sheet has it. A browser that
/// does not say has it.
pub(super) fn is_wide() -> bool {
    let wide = window().match_media("(min-width: 700px)");
    wide.ok().flatten().is_none_or(|query| query.matches())
}
