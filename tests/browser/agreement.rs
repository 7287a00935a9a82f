//! Agreement between examiners: nothing yet, and the invented school's.

use crate::browser::Page;
use crate::harness::in_browser;
use crate::invented::look_round;

/// Opens the page from the sittings and waits for what the worker says.
pub(crate) async fn shown(page: &Page) {
    page.go("/sittings").await;
    page.click_words("main a", "Agreement between examiners")
        .await;
    page.wait_text(".paper", "A standardisation day").await;
}

#[test]
fn before_two_marked_a_piece_it_says_how_to() {
    in_browser(|page| async move {
        page.go("/rubrics").await;
        page.click_words("main a", "Agreement between examiners")
            .await;
        page.wait_text("main", "No piece was marked by two examiners apart yet")
            .await;
        page.wait_text("main", "Name a second examiner").await;
        assert!(!page.shows("form").await);
    });
}

#[test]
fn the_invented_examiners_are_shown_and_their_names_hidden() {
    in_browser(|page| async move {
        page.go("/").await;
        look_round(&page).await;
        shown(&page).await;
        page.wait_text(".paper", "Rufus Achterveld").await;
        page.wait_for(".paper svg .whisker").await;
        // What cannot be read is told at its field, and what is shown stays.
        page.fill("#examiners", "1").await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_text("#examiners-error", "from 2 to 20").await;
        page.wait_text(".paper", "Rufus Achterveld").await;
        page.fill("#examiners", "5").await;
        page.click("input[name=names][value=hidden]").await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_text(".paper", "5 examiners mark").await;
        page.wait_text(".paper", "Examiner A").await;
        page.wait(
            "no name",
            "!document.querySelector('.paper').innerText.includes('Achterveld')",
        )
        .await;
    });
}
