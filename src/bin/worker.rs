//! The worker beside the page: takes [`evenshod::worker`]'s jobs in the browser.

#[cfg(target_arch = "wasm32")]
fn main() {
    evenshod::worker::listen();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {}
