//! Where the keyboard goes next on a mark sheet.

use leptos::prelude::document;
use wasm_bindgen::JsCast as _;
use web_sys::{
    Element, HtmlElement, HtmlInputElement, ScrollIntoViewOptions, ScrollLogicalPosition,
};

/// Every control of the rows, one of each group of radios.
fn stops() -> Vec<HtmlElement> {
    let Ok(found) = document().query_selector_all(".rows .row-entry input:not(:disabled)") else {
        return Vec::new();
    };
    let mut stops: Vec<HtmlElement> = Vec::new();
    let mut groups: Vec<String> = Vec::new();
    for index in 0..found.length() {
        let Some(node) = found.get(index) else {
            continue;
        };
        let Ok(input) = node.dyn_into::<HtmlInputElement>() else {
            continue;
        };
        if input.type_() == "radio" {
            let group = input.name();
            let is_known = groups.contains(&group);
            match stops.last_mut() {
                Some(last) if is_known && input.checked() => *last = input.into(),
                _ if is_known => {}
                _ => {
                    groups.push(group);
                    stops.push(input.into());
                }
            }
        } else if input.type_() != "checkbox" || is_first_of_row(&input) {
            stops.push(input.into());
        }
    }
    stops
}

/// A list of faults is one stop: the tab key goes through the rest.
fn is_first_of_row(input: &HtmlInputElement) -> bool {
    let entry = input.closest(".row-entry").ok().flatten();
    let first = entry.and_then(|entry| entry.query_selector("input").ok().flatten());
    first.is_some_and(|first| first == *AsRef::<Element>::as_ref(input))
}

/// Goes to the next control, or to the one before.
pub(super) fn move_on(forward: bool) {
    let stops = stops();
    let active = document().active_element();
    let here = stops
        .iter()
        .position(|stop| active.as_ref() == Some(AsRef::<Element>::as_ref(stop)));
    let next = match (here, forward) {
        (Some(here), true) => stops.get(here + 1),
        (Some(here), false) => here.checked_sub(1).and_then(|before| stops.get(before)),
        (None, _) => stops.first(),
    };
    if let Some(next) = next {
        focus(next);
    }
}

/// Goes to the first missing row behind the one with the focus, or to the first.
pub(super) fn next_missing(missing: &[String]) {
    let active = document().active_element();
    let row = active.and_then(|element| element.closest(".row").ok().flatten());
    let order = |id: &String| document().get_element_by_id(id);
    let behind = missing.iter().filter_map(order).find(|element| {
        row.as_ref()
            .is_some_and(|row| row != element && row.compare_document_position(element) & 4 != 0)
    });
    let Some(target) = behind.or_else(|| missing.first().and_then(order)) else {
        return;
    };
    let control = target.query_selector(".row-entry input").ok().flatten();
    let control = control.or_else(|| target.query_selector("button.more").ok().flatten());
    match control.and_then(|control| control.dyn_into::<HtmlElement>().ok()) {
        Some(control) => focus(&control),
        None => scroll_to(&target),
    }
}

/// Brings a part of the sheet into view and moves the reader there.
pub(super) fn show(id: &str) {
    let Some(element) = document().get_element_by_id(id) else {
        return;
    };
    scroll_to_start(&element);
    if let Ok(element) = element.dyn_into::<HtmlElement>() {
        // An element that refuses focus is still in view.
        let _ = element.set_attribute("tabindex", "-1");
        let options = web_sys::FocusOptions::new();
        options.set_prevent_scroll(true);
        let _ = element.focus_with_options(&options);
    }
}

fn focus(element: &HtmlElement) {
    // An element that refuses focus is still in view.
    let _ = element.focus();
    if let Ok(Some(row)) = element.closest(".row") {
        scroll_to(&row);
    }
}

fn scroll_to(element: &Element) {
    let options = ScrollIntoViewOptions::new();
    options.set_block(ScrollLogicalPosition::Nearest);
    element.scroll_into_view_with_scroll_into_view_options(&options);
}

fn scroll_to_start(element: &Element) {
    let options = ScrollIntoViewOptions::new();
    options.set_block(ScrollLogicalPosition::Start);
    element.scroll_into_view_with_scroll_into_view_options(&options);
}
