//! Tickets of a sitting, and the board on which it is watched.

use crate::browser::Page;
use crate::harness::in_browser;

/// Issues so many tickets of today's exam by the first rubric; gives the sitting's address.
pub(crate) async fn issue(page: &Page, list: &str) -> String {
    page.go("/sittings/issue").await;
    page.wait_for("#tickets").await;
    page.run(
        "const box = document.querySelector('#tickets');
        box.value = arguments[0];
        box.dispatchEvent(new Event('input', { bubbles: true }));",
        vec![serde_json::json!(list)],
    )
    .await;
    page.fill("#examiner", "Wm. Green").await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_text("h2", "Pieces").await;
    page.wait_saved().await;
    page.path().await
}

/// Opens the board of the sitting that is shown.
pub(crate) async fn open_board(page: &Page) {
    page.click_words(".page-head .button", "Board").await;
    page.wait_for(".board-tile").await;
}

const FIRST: &str = ".board-tile:nth-child(1)";

async fn press(page: &Page, words: &str) {
    page.click_words(&format!("{FIRST} .board-buttons > *"), words)
        .await;
}

#[test]
fn three_candidates_are_watched_through_a_reload() {
    in_browser(|page| async move {
        issue(&page, "3").await;
        open_board(&page).await;
        page.wait_text(FIRST, "not counted").await;
        page.click("#start-all").await;
        page.wait_text(FIRST, "at the anvil").await;
        press(&page, "Heat").await;
        page.wait_text(FIRST, "1 of").await;
        press(&page, "Heat").await;
        page.wait_text(FIRST, "2 of").await;
        page.wait_saved().await;
        page.reload().await;
        page.wait_text(FIRST, "2 of").await;
        press(&page, "Fault").await;
        page.wait_for(&format!("{FIRST} .board-panel")).await;
        page.click(&format!("{FIRST} .board-panel .button")).await;
        page.wait_text(&format!("{FIRST} .board-last"), ", at ")
            .await;
        press(&page, "Undo").await;
        page.wait_for(&format!("{FIRST} .board-last:empty")).await;
        press(&page, "Undo").await;
        page.wait_text(FIRST, "1 of").await;
        press(&page, "Finished").await;
        page.wait_text(FIRST, "finished").await;
        page.wait_text(".board-tile:nth-child(2)", "not counted")
            .await;
        press(&page, "Mark sheet").await;
        page.wait_for(".sheet .row").await;
    });
}

#[test]
fn tickets_are_printed_with_a_code_each() {
    in_browser(|page| async move {
        issue(&page, "12 Ada Smith\n13").await;
        page.click_words(".page-head .button", "Tickets to print")
            .await;
        page.wait_for(".paper .code-dark").await;
        let said = page
            .look("document.querySelector('.paper').innerText")
            .await;
        assert!(!said.contains("Ada Smith"), "{said}");
    });
}

/// Extra time that cannot be read is told of and not given; a piece can be stopped from its tile.
#[test]
fn extra_time_is_given_and_a_piece_is_stopped() {
    in_browser(|page| async move {
        issue(&page, "2").await;
        open_board(&page).await;
        page.click("#start-all").await;
        page.wait_text(FIRST, "at the anvil").await;
        press(&page, "Extra time").await;
        let inputs = format!("{FIRST} .board-panel input");
        page.wait_for(&inputs).await;
        page.fill(
            &format!("{FIRST} input[id^=extra-]:not([id^=extra-why])"),
            "ten",
        )
        .await;
        page.fill(&format!("{FIRST} input[id^=extra-why]"), "By arrangement")
            .await;
        page.wait_text(&format!("{FIRST} .error"), "ten").await;
        let give = format!("{FIRST} .board-panel .button:disabled");
        page.wait_text(&give, "Give extra time").await;
        page.fill(
            &format!("{FIRST} input[id^=extra-]:not([id^=extra-why])"),
            "10",
        )
        .await;
        page.click_words(&format!("{FIRST} .board-panel .button"), "Give extra time")
            .await;
        page.wait_text(FIRST, "with extra time").await;
        press(&page, "Stop").await;
        page.click_words(
            &format!("{FIRST} .board-panel .button"),
            "Stopped for safety",
        )
        .await;
        page.wait_text(&format!("{FIRST} .board-state"), "stopped")
            .await;
        page.wait_text(&format!("{FIRST} .board-clock"), "with extra time")
            .await;
    });
}
