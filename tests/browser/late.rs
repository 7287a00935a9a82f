//! The program's second module: fetched at once, missed without harm.

use serde_json::json;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::steps::{EXAMINER, MAKER, enter, wait_marks};

/// Its file, among the built ones.
const LATE: &str = "late.wasm";

#[test]
fn the_page_works_on_once_the_network_is_gone() {
    in_browser(|page| async move {
        page.go("/").await;
        page.wait("the second module", &is_fetched()).await;
        page.cdp("Network.enable", json!({})).await;
        page.cdp(
            "Network.emulateNetworkConditions",
            json!({ "offline": true, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0 }),
        )
        .await;
        start_from_bench(&page).await;
        enter(&page, "width", "130").await;
        wait_marks(&page, "width", "4").await;
        page.click(".nav a[href='/']").await;
        page.wait_text(".piece", MAKER).await;
    });
}

#[test]
fn a_module_that_does_not_come_is_told_of_and_can_be_fetched_again() {
    in_browser(|page| async move {
        block(&page, &["*late.wasm"]).await;
        page.go("/").await;
        page.wait_text(".notices", "Only a part of the page came")
            .await;
        page.wait_text("h1", "Nothing on the bench yet").await;
        page.click(".nav a[href='/help']").await;
        page.wait_text("h1", "Help").await;
        page.click(".nav a[href='/learners']").await;
        page.wait_text("h1", "This page is missing").await;
        page.wait_text(".notices", "Only a part of the page came")
            .await;
        page.forgive_console("Failed to fetch").await;
        block(&page, &[]).await;
        page.click_words(".notices button", "Try again").await;
        page.wait_text("h1", "Learners").await;
        assert!(!page.shows("[data-notice=not-fetched]").await);
        page.click(".nav a[href='/']").await;
        start_from_bench(&page).await;
    });
}

async fn start_from_bench(page: &Page) {
    page.click("main a[href='/pieces/new']").await;
    page.fill("#name", MAKER).await;
    page.fill("#examiner", EXAMINER).await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_for(".sheet .row").await;
}

async fn block(page: &Page, addresses: &[&str]) {
    page.cdp("Network.enable", json!({})).await;
    page.cdp("Network.setBlockedURLs", json!({ "urls": addresses }))
        .await;
}

fn is_fetched() -> String {
    format!(
        "performance.getEntriesByType('resource')
            .some(one => one.name.endsWith('{LATE}') && one.responseEnd > 0)"
    )
}
