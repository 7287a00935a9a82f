//! Browsers that keep nothing: the page says so and works all the same.

use crate::harness::in_browser;
use crate::steps::{start_piece, wait_marks};

#[test]
fn a_browser_without_a_database_is_told_of() {
    works_without("Object.defineProperty(window, 'indexedDB', { value: undefined });");
}

#[test]
fn a_browser_that_refuses_its_database_is_told_of() {
    works_without(
        "IDBFactory.prototype.open = () => {
            throw new DOMException('The user denied permission', 'SecurityError');
        };",
    );
}

#[test]
fn a_browser_without_any_storage_is_told_of() {
    works_without(
        "for (const name of ['indexedDB', 'localStorage', 'sessionStorage']) {
            Object.defineProperty(window, name, {
                get() { throw new DOMException('denied', 'SecurityError'); },
            });
        }",
    );
}

fn works_without(script: &'static str) {
    in_browser(|page| async move {
        page.before_each_page(script).await;
        page.go("/").await;
        page.wait_text(".notices", "Nothing you enter outlasts this page")
            .await;
        page.click("main a[href='/pieces/new']").await;
        page.fill("#name", "Asa Marsh").await;
        page.fill("#examiner", "J. Whitlock").await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_for("#r-width").await;
        page.fill("#r-width", "130").await;
        wait_marks(&page, "width", "4").await;
        page.wait_text(".saved", "only while this page is open")
            .await;
        page.wait_text(".notices", "Nothing you enter outlasts this page")
            .await;
        page.click(".nav a[href='/']").await;
        page.wait_text(".piece", "Asa Marsh").await;
        page.click(".nav a[href='/help']").await;
        page.wait_text("main", "this browser keeps nothing").await;
    });
}

#[test]
fn a_full_disk_is_told_of_and_can_be_tried_again() {
    in_browser(|page| async move {
        page.before_each_page(
            "const put = IDBObjectStore.prototype.put;
            IDBObjectStore.prototype.put = function (...all) {
                if (window.isFull) throw new DOMException('full', 'QuotaExceededError');
                return put.apply(this, all);
            };",
        )
        .await;
        start_piece(&page).await;
        page.wait_saved().await;
        page.value("window.isFull = true").await;
        page.fill("#r-width", "130").await;
        page.wait_text(".saved", "Not saved").await;
        page.wait_text(".notices", "full").await;
        wait_marks(&page, "width", "4").await;
        page.value("window.isFull = false").await;
        page.click_words(".notices button", "Try again").await;
        page.wait_saved().await;
        assert!(!page.shows("[data-notice=not-saved]").await);
        page.reload().await;
        wait_marks(&page, "width", "4").await;
    });
}
