//! The invented school: opened, named on every page, taken out in one step.

use crate::browser::Page;
use crate::harness::in_browser;

/// Opens the invented school from a bench without pieces.
pub(crate) async fn look_round(page: &Page) {
    page.wait(
        "the button",
        "[...document.querySelectorAll('main button')].some(one => one.innerText.includes('invented school') && !one.disabled)",
    )
    .await;
    page.click_words("main button", "Look round").await;
    page.wait_text(".invented", "(invented)").await;
    page.wait_saved().await;
}

#[test]
fn the_school_is_opened_named_on_every_page_and_taken_out() {
    in_browser(|page| async move {
        page.go("/learners").await;
        page.fill("#new", "Bea Coe").await;
        page.keys(crate::browser::key::ENTER).await;
        page.wait_text("main", "Bea Coe is added").await;
        page.wait_saved().await;
        // The bench of a ledger without pieces offers it.
        page.go("/").await;
        look_round(&page).await;
        page.wait_text(".invented", "Wexcombe Forge School (invented)")
            .await;
        page.wait_saved().await;
        for path in [
            "/",
            "/learners",
            "/rubrics",
            "/ledger",
            "/help",
            "/pieces/new",
        ] {
            page.go(path).await;
            page.wait_text(".invented", "(invented)").await;
        }
        page.go("/learners").await;
        page.wait_text("main", "Bram Kuiperdal").await;
        page.click_words(".invented button", "Take it out").await;
        page.wait(
            "only her",
            "!document.querySelector('main').innerText.includes('Bram')",
        )
        .await;
        page.wait_saved().await;
        page.reload().await;
        page.wait_text("main", "Bea Coe").await;
        assert!(!page.shows(".invented").await);
        page.go("/").await;
        page.wait_text("h1", "Nothing on the bench yet").await;
    });
}
