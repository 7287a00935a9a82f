//! The page: mounts [`evenshod::page`] in the browser.

#[cfg(target_arch = "wasm32")]
fn main() {
    evenshod::page::mount();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {}
