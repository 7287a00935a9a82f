//! The heat log, tapped on a phone.

use crate::browser::Page;
use crate::harness::in_browser;
use crate::steps::{fits_across, start_piece};

pub(crate) async fn heat_log(page: &Page) {
    start_piece(page).await;
    page.click_words(".tools .button", "Heat log").await;
    page.wait_for(".heat-next").await;
}

async fn next(page: &Page, says: &str) {
    page.wait_text(".heat-next", says).await;
    page.tap(".heat-next").await;
}

async fn part(page: &Page, within: &str, words: &str) {
    page.click_words(within, words).await;
}

/// A piece is made with real taps; the page is opened anew in the middle; what was tapped fills
/// the mark sheet.
#[test]
fn a_piece_is_made_with_taps_and_a_reload_in_the_middle() {
    in_browser(|page| async move {
        page.resize(390, 844, true).await;
        heat_log(&page).await;
        page.wait_text(".heat-last", "Nothing tapped yet").await;
        next(&page, "Start the clock").await;
        part(&page, ".heat-tile", "Toe bump and toe bend").await;
        next(&page, "Into the fire").await;
        page.wait_text(".heat-state", "In the fire").await;
        next(&page, "Out to the anvil").await;
        next(&page, "Into the fire").await;
        // The step of the plan that is at hand is a weld.
        part(&page, ".heat-tile", "Welding").await;
        page.wait_saved().await;
        page.reload().await;
        page.wait_text(".heat-state", "In the fire").await;
        next(&page, "Out at welding heat").await;
        page.wait_text(".heat-last", "Out at welding heat").await;
        // One too many, and taken back.
        next(&page, "Into the fire").await;
        part(&page, ".heat-last .button", "Take back").await;
        page.wait_text(".heat-state", "At the anvil").await;
        part(&page, ".heat-tiles .button", "Pause").await;
        page.wait_text("#heat-words-error", "Write first").await;
        page.fill("#heat-words", "tongs broke").await;
        part(&page, ".heat-tiles .button", "Pause").await;
        next(&page, "Go on").await;
        part(
            &page,
            "#heat-faults ~ .heat-tiles .heat-tile",
            "Hot steel left",
        )
        .await;
        page.wait_text(".heat-last", "Fault").await;
        fits_across(&page, "the heat log").await;
        part(&page, ".heat-tiles .button", "Finished").await;
        page.wait_text(".heat-state", "Finished").await;
        page.wait_text(".facts", "2, 9 planned").await;
        page.wait_text(".facts", "1, 2 planned").await;
        page.wait_text(".heat-drawing", "shared out evenly by heats")
            .await;
        page.click_words(".page-head .button", "The mark sheet")
            .await;
        page.wait_text(".page-head", "Finished, not sealed").await;
        page.wait_text("#heats", "2").await;
        page.wait_text("#heats", "heat log").await;
        page.wait_text("#weld-heats", "heat log").await;
        page.wait_text("#time", "heat log").await;
        page.wait_text("#safety", "Hot steel left").await;
    });
}

/// What nobody tapped is typed when the piece is done.
#[test]
fn heats_and_time_are_entered_afterwards() {
    in_browser(|page| async move {
        heat_log(&page).await;
        page.fill("#heats-of-0", "many").await;
        page.wait_text("#heats-of-0-error", "many").await;
        page.fill("#heats-of-0", "2").await;
        page.fill("#heats-weld", "2").await;
        page.fill("#heats-time", "58 min").await;
        page.wait_text(".facts", "58 min entered afterwards").await;
        page.wait_saved().await;
        page.click_words(".page-head .button", "The mark sheet")
            .await;
        page.wait_text("#time", "afterwards").await;
        page.wait_text("#weld-heats", "afterwards").await;
    });
}
