//! The page.
#[cfg(target_arch = "wasm32")]
fn main() {
    use leptos::prelude::*;
    console_error_panic_hook::set_once();
    if let Some(starting) = document().get_element_by_id("starting") {
        starting.remove();
    }
    mount_to_body(|| view! { <h1>"Evenshod"</h1> });
}
#[cfg(not(target_arch = "wasm32"))]
fn main() {}
