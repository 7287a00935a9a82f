//! The whole ledger as one file, and back again.

use evenshod::records::Bundle;
use serde_json::json;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::steps::{MAKER, enter, seal, start_piece, start_piece_of, wait_marks};

/// Saves everything; gives the file's name and what is in it.
async fn save_all(page: &Page) -> (String, Vec<u8>) {
    page.go("/ledger").await;
    page.click("#save-all").await;
    page.wait_text("#saved-words", "records").await;
    page.download(".json").await
}

async fn choose(page: &Page, name: &str, bytes: &[u8]) {
    page.choose_file("#ledger-file", name, bytes).await;
}

/// Everything that this browser keeps is gone, as on a device that is new.
pub(crate) async fn forget_all(page: &Page) {
    let origin = page.look("location.origin").await;
    // An open page would say that its store was taken away.
    page.leave().await;
    page.cdp(
        "Storage.clearDataForOrigin",
        json!({ "origin": origin, "storageTypes": "all" }),
    )
    .await;
    page.go("/").await;
    page.wait_text("h1", "Nothing on the bench yet").await;
}

/// Every stored text by its key.
pub(crate) async fn stored(page: &Page) -> String {
    let script = "const done = arguments[arguments.length - 1];
        indexedDB.open('evenshod').onsuccess = opened => {
            const store = opened.target.result.transaction('records').objectStore('records');
            const keys = store.getAllKeys();
            store.getAll().onsuccess = all => {
                opened.target.result.close();
                done(JSON.stringify(keys.result.map((key, at) => [key, all.target.result[at]])));
            };
        };";
    let found = page.run_async(script, vec![]).await;
    found.as_str().unwrap_or_default().to_owned()
}

#[test]
fn everything_goes_into_one_file_and_back_onto_an_empty_device() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        enter(&page, "width", "130").await;
        seal(&page).await;
        let draft = start_piece_of(&page, "Bea Coe").await;
        enter(&page, "length", "133.4").await;
        let before = stored(&page).await;
        let (name, bytes) = save_all(&page).await;
        assert!(
            name.starts_with("evenshod-ledger-2")
                && name.len() == "evenshod-ledger-2026-11-26.json".len(),
            "{name}"
        );
        let bundle = Bundle::read(&bytes).unwrap();
        let count = bundle.records().len();
        page.wait_text(".page-head", &format!("{count} records on this device"))
            .await;

        forget_all(&page).await;
        page.click(".nav a[href='/ledger']").await;
        page.wait_text(".page-head", "nothing on this device yet")
            .await;
        assert!(!page.shows("#save-all").await);
        choose(&page, "copy.json", &bytes).await;
        page.wait_text(
            "main",
            &format!("{count} records would be added, none replaced"),
        )
        .await;
        assert_eq!(page.focused().await, "would-change");
        assert_eq!(stored(&page).await, "[]", "nothing is changed yet");
        page.click_words("main .button", "Take it over").await;
        page.wait_text(
            "#ledger-says",
            &format!("{count} records added, 0 replaced"),
        )
        .await;
        assert_eq!(stored(&page).await, before, "to the letter");
        page.go(&draft).await;
        wait_marks(&page, "length", "4").await;
        page.go(&format!("{piece}/sheet")).await;
        page.wait_text(".paper", MAKER).await;
    });
}

#[test]
fn the_same_file_again_changes_nothing() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        let (_, bytes) = save_all(&page).await;
        let before = stored(&page).await;
        for _ in 0..2 {
            choose(&page, "same.json", &bytes).await;
            page.wait_text("main", "Nothing would change").await;
            assert!(!page.shows("#take-over").await);
            page.click_words("main .button", "Put it away").await;
            page.wait(
                "the table to go",
                "!document.querySelector('#would-change')",
            )
            .await;
        }
        assert_eq!(stored(&page).await, before);
    });
}

#[test]
fn a_filled_ledger_shows_what_stays_and_may_be_left_as_it_is() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        enter(&page, "width", "130").await;
        let (_, bytes) = save_all(&page).await;
        page.go(&piece).await;
        enter(&page, "width", "128").await;
        seal(&page).await;
        let before = stored(&page).await;
        page.go("/ledger").await;
        choose(&page, "older.json", &bytes).await;
        page.wait_text("main", "Nothing would change").await;
        page.click("#leave").await;

        forget_all(&page).await;
        start_piece_of(&page, "Bea Coe").await;
        page.wait_saved().await;
        page.go("/ledger").await;
        choose(&page, "older.json", &bytes).await;
        page.wait_text("main", "would be added").await;
        page.click("#leave").await;
        page.wait("the focus", "document.activeElement.id === 'ledger-file'")
            .await;
        assert_ne!(stored(&page).await, before);
        page.go("/learners").await;
        assert!(!page.text("main").await.contains(MAKER));
        page.go("/ledger").await;
        choose(&page, "older.json", &bytes).await;
        page.click("#take-over").await;
        page.wait_text("#ledger-says", "Taken over and stored")
            .await;
        page.go("/learners").await;
        page.wait_text("main", MAKER).await;
        page.wait_text("main", "Bea Coe").await;
    });
}

#[test]
fn a_broken_file_is_told_of_and_nothing_changes() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        let (_, bytes) = save_all(&page).await;
        let before = stored(&page).await;
        let text = String::from_utf8(bytes.clone()).unwrap();
        let newer = text.replacen("\"schema\":2", "\"schema\":3", 1);
        let altered = text.replace(MAKER, "Somebody Else");
        for (broken, told) in [
            (&bytes[..bytes.len() / 2], "The end of the file is missing"),
            (altered.as_bytes(), "record 1 (learner/"),
            (newer.as_bytes(), "written by a newer version"),
            (&b"{\"a\":1}"[..], "This is no ledger file"),
            (&b""[..], "The file is empty"),
        ] {
            choose(&page, "broken.json", broken).await;
            page.wait_text("#ledger-says", told).await;
            page.wait_text("#ledger-says", "Nothing here has changed")
                .await;
            assert!(!page.shows("#take-over").await);
        }
        assert_eq!(stored(&page).await, before);
        // And a good one after them.
        choose(&page, "good.json", &bytes).await;
        page.wait_text("main", "Nothing would change").await;
        assert_eq!(page.text("#ledger-says").await, "");
    });
}

#[test]
fn all_of_it_works_by_keyboard() {
    in_browser(|page| async move {
        use crate::browser::key;
        start_piece(&page).await;
        page.wait_saved().await;
        page.go("/").await;
        page.tab_to(".nav a[href='/ledger']").await;
        page.keys(key::ENTER).await;
        page.wait_text("h1", "Ledger").await;
        page.tab_to("#save-all").await;
        page.keys(key::ENTER).await;
        let (_, bytes) = page.download(".json").await;
        forget_all(&page).await;
        page.go("/ledger").await;
        page.tab_to("#ledger-file").await;
        assert!(page.focus_is_seen().await);
        // The browser's own window for files is not the page's.
        choose(&page, "copy.json", &bytes).await;
        page.wait_for("#take-over").await;
        page.tab_to("#take-over").await;
        assert!(page.focus_is_seen().await);
        page.keys(key::SPACE).await;
        page.wait_text("#ledger-says", "Taken over and stored")
            .await;
    });
}
