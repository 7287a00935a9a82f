//! An instrument study from the list of instruments to the instrument's figure.

use crate::browser::{Page, key};
use crate::harness::in_browser;
use crate::steps::{fits_across, held};

/// Begins a study of the caliper, from the list of instruments.
pub(crate) async fn begin(page: &Page) {
    page.click_words("#instrument-caliper button", "New study")
        .await;
    page.wait_for("#reading-1-1-1").await;
}

/// Types the readings of two trials of every part, column by column with Enter; one part of
/// five cannot be read.
pub(crate) async fn type_readings(page: &Page) {
    const FIRST: [&str; 15] = [
        "10.0", "10.1", "10.2", "12.0", "12.1", "12.3", "8.0", "8.2", "8.1", "15.1", "15.0",
        "15.3", "tall", "9.1", "9.2",
    ];
    const SECOND: [&str; 15] = [
        "10.1", "10.1", "10.3", "12.1", "12.1", "12.2", "8.1", "8.1", "8.1", "15.0", "15.1",
        "15.2", "9.0", "9.1", "9.1",
    ];
    page.fill("#study-trials", "2").await;
    page.keys(key::TAB).await;
    page.wait("two trials", "!document.querySelector('#reading-1-1-3')")
        .await;
    page.focus("#reading-1-1-1").await;
    for text in FIRST.into_iter().chain(SECOND) {
        page.keys(text).await;
        page.keys(key::ENTER).await;
    }
    page.focus("#study-trials").await;
    page.wait_text("h1 + p", "30 of 30").await;
}

#[test]
fn readings_typed_into_the_grid_become_the_instruments_repeatability() {
    in_browser(|page| async move {
        page.go("/ledger/instruments").await;
        page.click_words("main button", "Add the usual ones").await;
        page.wait_for("#instrument-caliper").await;
        begin(&page).await;
        type_readings(&page).await;
        // What cannot be read stays and is told beside it.
        page.wait_text("#reading-5-1-1-says", "`tall` is not a number")
            .await;
        assert_eq!(held(&page, "#reading-5-1-1").await, "tall");
        page.fill("#reading-5-1-1", "9.1").await;
        page.keys(key::TAB).await;
        page.wait_text(".paper", "whoever of such people takes it")
            .await;
        page.wait(
            "the message to go",
            "!document.querySelector('#reading-5-1-1-says')",
        )
        .await;

        // A part taken out comes back with its readings.
        page.click("[aria-label^='Take out: Part 2']").await;
        page.wait(
            "the part to go",
            "!document.querySelector('#reading-2-1-1')",
        )
        .await;
        page.click_words("main button", "Undo").await;
        page.wait_for("#reading-2-1-1").await;
        assert_eq!(held(&page, "#reading-2-1-1").await, "12.0");

        page.wait_for("section[aria-labelledby=study-taking] table")
            .await;
        page.wait_text(
            "section[aria-labelledby=study-taking]",
            "5 parts, 3 people, 2 trials",
        )
        .await;
        page.click_words("section[aria-labelledby=study-taking] button", "Take over")
            .await;
        page.wait_text("#study-says", "has this repeatability from now on")
            .await;
        // What was taken over can be taken back too.
        page.click_words("main button", "Undo").await;
        page.wait_text("#study-says", "is undone").await;
        page.click_words("section[aria-labelledby=study-taking] button", "Take over")
            .await;
        page.wait_text("#study-says", "has this repeatability from now on")
            .await;
        page.wait_saved().await;
        let path = page.path().await;
        page.go("/ledger/instruments").await;
        page.wait_text("#instrument-caliper", "repeatability: study of")
            .await;
        page.wait_text("section[aria-labelledby=studies]", "30 of 30")
            .await;
        page.resize(390, 844, true).await;
        page.go(&path).await;
        page.wait_for("#reading-5-3-2").await;
        assert_eq!(held(&page, "#reading-5-3-2").await, "9.1");
        fits_across(&page, "study").await;
    });
}
