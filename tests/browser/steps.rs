//! What people do on the page, for tests that are about what comes of it.

use crate::bar_shoe;
use crate::browser::Page;
use crate::own::digest;

/// Who made the piece that tests start, and who marks it; both are invented.
pub(crate) const MAKER: &str = "Asa Marsh";
pub(crate) const EXAMINER: &str = "J. Whitlock";

/// Starts a bar shoe of [`MAKER`]; gives the address of its mark sheet.
pub(crate) async fn start_piece(page: &Page) -> String {
    start_piece_of(page, MAKER).await
}

/// The same, with a sheet in millimetres (`mm`) or in inches (`in32`, `in64`).
pub(crate) async fn start_piece_in(page: &Page, maker: &str, unit: &str) -> String {
    page.go("/pieces/new").await;
    fill_start(page, maker, unit).await
}

/// Starts a bar shoe, whichever rubric was used last; gives the address of its sheet.
pub(crate) async fn start_bar_shoe(page: &Page) -> String {
    start_bar_shoe_of(page, MAKER).await
}

/// The same of somebody else.
pub(crate) async fn start_bar_shoe_of(page: &Page, maker: &str) -> String {
    start_by(page, "straight-bar-shoe", maker).await
}

/// Starts a piece by a shipped rubric; gives the address of its sheet.
pub(crate) async fn start_by(page: &Page, rubric: &str, maker: &str) -> String {
    page.go("/pieces/new").await;
    let rubric = digest(rubric);
    page.click(&format!("[name=rubric][value='{rubric}']"))
        .await;
    fill_start(page, maker, "mm").await
}

async fn fill_start(page: &Page, maker: &str, unit: &str) -> String {
    page.click("[name=who][value=new]").await;
    page.fill("#name", maker).await;
    page.fill("#examiner", EXAMINER).await;
    page.click(&format!("[name=unit][value={unit}]")).await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_for(".sheet .row").await;
    page.path().await
}

/// Starts a bar shoe of somebody new.
pub(crate) async fn start_piece_of(page: &Page, maker: &str) -> String {
    start_piece_in(page, maker, "mm").await
}

/// Types a reading into its field and waits until it is stored.
pub(crate) async fn enter(page: &Page, slot: &str, text: &str) {
    page.fill(&format!("#r-{slot}"), text).await;
    page.wait_saved().await;
}

/// What a field holds.
pub(crate) async fn held(page: &Page, selector: &str) -> String {
    page.look(&format!("document.querySelector('{selector}').value"))
        .await
}

/// The marks of a row, as it shows them.
pub(crate) async fn marks(page: &Page, entry: &str) -> String {
    page.text(&format!("#{entry} > .marks")).await
}

/// The reason of a row, or what is wrong with it.
pub(crate) async fn why(page: &Page, entry: &str) -> String {
    page.text(&format!("#{entry} > .row-why")).await
}

/// Waits until a row's marks read so.
pub(crate) async fn wait_marks(page: &Page, entry: &str, marks: &str) {
    let of = bar_shoe::marking();
    let of = of.criterion(entry).expect("the rubric has it").out_of;
    page.wait_text(&format!("#{entry} > .marks"), &format!("{marks} of {of}"))
        .await;
}

/// Seals the marking whose mark sheet is open, and waits for its sheet.
pub(crate) async fn seal(page: &Page) {
    page.click_words(".dock .button", "Seal").await;
    page.click("dialog[open] .button[data-kind=primary]").await;
    page.wait_for(".paper").await;
    page.wait_saved().await;
}

/// Fails where the page is wider than the window.
pub(crate) async fn fits_across(page: &Page, name: &str) {
    let wide = page
        .value("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
        .await;
    let number = |at: usize| wide[at].as_u64().unwrap();
    if number(0) <= number(1) {
        return;
    }
    let widest = page
        .look(
            "[...document.querySelectorAll('body *')]
            .filter(one => one.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
            .slice(0, 5).map(one => one.outerHTML.slice(0, 120)).join('\\n')",
        )
        .await;
    panic!(
        "{name} is {} px wide in {} px:\n{widest}",
        number(0),
        number(1)
    );
}
