//! How the programs here that time something run in a page and natively alike.

/// Shows what `measured` says, in the page or on the standard output; what it is given tells
/// milliseconds since some moment.
#[cfg(target_arch = "wasm32")]
pub(super) fn show(measured: impl Fn(&dyn Fn() -> f64) -> String) {
    let said = measured(&js_sys::Date::now);
    let body = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.body());
    if let Some(body) = body {
        body.set_text_content(Some(&said));
    }
}

/// Shows what `measured` says, in the page or on the standard output; what it is given tells
/// milliseconds since some moment.
#[cfg(not(target_arch = "wasm32"))]
pub(super) fn show(measured: impl Fn(&dyn Fn() -> f64) -> String) {
    let start = std::time::Instant::now();
    let said = measured(&|| start.elapsed().as_secs_f64() * 1e3);
    // Where nobody reads, nothing is lost.
    let _ = std::io::Write::write_all(&mut std::io::stdout(), said.as_bytes());
}
