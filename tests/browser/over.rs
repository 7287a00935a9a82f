//! A measured shoe laid over others, and measures and nail holes that are moved by hand.

use serde_json::json;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::photo::measure_bar_shoe;
use crate::release::open_learner;
use crate::steps::{MAKER, fits_across, held, seal};

const RIGHT: &str = "\u{e014}";
const DELETE: &str = "\u{e017}";

/// What the row of a measure says.
async fn row(page: &Page, name: &str) -> String {
    page.look(&format!(
        "[...document.querySelectorAll('[data-photo=rows] tr')]
            .find(row => row.cells[0].textContent.includes('{name}')).textContent"
    ))
    .await
}

async fn count(page: &Page, selector: &str) -> u64 {
    let script = "return document.querySelectorAll(arguments[0]).length";
    page.run(script, vec![json!(selector)])
        .await
        .as_u64()
        .unwrap()
}

/// Takes a measured shoe's readings, seals its sheet and lays it over what is asked for.
async fn lay_sealed_over(page: &Page, sheet: &str) {
    page.click_words("[data-photo=found] .button", "Take 9 readings")
        .await;
    page.wait_text("#photo-said", "9 readings are on the mark sheet")
        .await;
    page.wait_saved().await;
    page.go(sheet).await;
    page.wait_for("#r-width").await;
    seal(page).await;
    page.click_words(".actions a", "Lay it over another").await;
    page.wait_text("h1", "Two pieces laid over each other")
        .await;
    page.wait_text("[data-over=lines]", "Root mean square")
        .await;
}

/// A sealed shoe laid over what is asked for.
pub async fn lay_over(page: &Page) {
    let sheet = measure_bar_shoe(page).await;
    lay_sealed_over(page, &sheet).await;
}

/// Moves an end of the width of a measured shoe by two pixels.
pub async fn move_width(page: &Page) {
    page.click_words("[data-photo=found] .button", "Move measures")
        .await;
    page.click_words("[data-photo=rows] button", "1. Overall width")
        .await;
    page.wait_for("[data-handle=end]").await;
    page.focus("[data-handle=end]").await;
    page.keys(RIGHT).await;
    page.keys(RIGHT).await;
    page.wait_text("[data-photo=rows]", "ends moved by hand")
        .await;
}

/// Laid over what is asked for at once; once sealed, from its sheet and the learner's page.
#[test]
fn a_measured_shoe_is_laid_over_what_is_asked_for() {
    in_browser(|page| async move {
        page.resize(390, 844, true).await;
        let sheet = measure_bar_shoe(&page).await;
        page.wait_text("[data-over=lines]", "Root mean square")
            .await;
        page.wait_for(".over-figure .over-under").await;
        fits_across(&page, "the photo page with shoes over each other").await;
        lay_sealed_over(&page, &sheet).await;
        fits_across(&page, "two pieces over each other").await;
        open_learner(&page, MAKER).await;
        page.click_words(".actions a", "Lay pieces over each other")
            .await;
        page.wait_text("[data-over=lines]", "within 1 mm").await;
        assert_eq!(held(&page, "#over-under").await, "asked");
    });
}

/// Presses Next: that mark is held, and its handle has the focus.
async fn press_next(page: &Page, name: &str) {
    page.click_words("[data-photo=found] .button", "Next").await;
    page.wait_text("#photo-moving", name).await;
    page.wait(
        "the focus on its handle",
        "document.activeElement.id == 'photo-held'",
    )
    .await;
}

/// Goes down at a mark and up a little or far beside it, as a finger or a mouse does.
async fn touch_mark(page: &Page, place: u64, dragged: f64) {
    let script = "const [place, dragged] = arguments;
        const plane = document.querySelector('.photo-plane');
        const box = document.querySelectorAll('[data-mark=hole]')[place].getBoundingClientRect();
        const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
        const at = { clientX: x, clientY: y, pointerId: 7, isPrimary: true, button: 0, bubbles: true };
        plane.dispatchEvent(new PointerEvent('pointerdown', at));
        plane.dispatchEvent(new PointerEvent('pointerup', { ...at, clientX: x + dragged }));";
    page.run(script, vec![json!(place), json!(dragged)]).await;
}

/// A tap near a mark holds it; what drags the photo holds nothing.
#[test]
fn a_tap_on_the_photo_holds_the_nearest_mark() {
    in_browser(|page| async move {
        page.resize(390, 844, true).await;
        measure_bar_shoe(&page).await;
        page.click_words("[data-photo=found] .button", "Move measures")
            .await;
        page.wait_text("#photo-moving", "Nail hole, left 1 from the toe")
            .await;
        touch_mark(&page, 2, 60.0).await;
        touch_mark(&page, 1, 3.0).await;
        page.wait_text("#photo-moving", "Nail hole, left 2 from the toe")
            .await;
        assert_eq!(count(&page, "[data-handle]").await, 1);
        page.click_words("[data-photo=found] .button", "Previous")
            .await;
        page.wait_text("#photo-moving", "Nail hole, left 1 from the toe")
            .await;
    });
}

/// By the keys, as a hand that trembles would; then all is put back.
#[test]
fn ends_and_holes_are_moved_by_keys_and_put_back() {
    in_browser(|page| async move {
        measure_bar_shoe(&page).await;
        let before = row(&page, "Overall width").await;
        move_width(&page).await;
        assert_eq!(count(&page, "[data-mark=end]").await, 2);
        assert_eq!(count(&page, "[data-handle]").await, 1);
        assert_ne!(row(&page, "Overall width").await, before);
        page.click_words("[data-photo=rows] .button", "Put back")
            .await;
        page.wait(
            "the row as it was",
            "!document.querySelector('[data-photo=rows]').textContent.includes('moved by hand')",
        )
        .await;
        assert_eq!(row(&page, "Overall width").await, before);

        let holes = count(&page, "[data-mark=hole]").await;
        assert!(holes > 0, "the bar shoe has nail holes");
        press_next(&page, "Second end of the overall width").await;
        press_next(&page, "Nail hole, left 1 from the toe").await;
        page.keys(DELETE).await;
        let fewer = format!(
            "document.querySelectorAll('[data-mark=hole]').length == {}",
            holes - 1
        );
        page.wait("one hole less", &fewer).await;
        page.click_words("[data-photo=found] .button", "Add a hole on the right")
            .await;
        let again = format!("document.querySelectorAll('[data-mark=hole]').length == {holes}");
        page.wait("one hole more", &again).await;
        page.wait(
            "a hole by hand",
            "document.querySelector('[data-photo=found]').textContent.includes(', by hand')",
        )
        .await;
        page.click_words("[data-photo=found] .button", "Put holes back")
            .await;
        page.wait(
            "no hole by hand",
            "!document.querySelector('[data-photo=found]').textContent.includes(', by hand')",
        )
        .await;
    });
}
