//! Checking saved files, correcting and erasing what is sealed, signing.

use evenshod::output::json;
use evenshod::records::{PublicKey, Signature};
use p256::ecdsa::VerifyingKey;
use p256::ecdsa::signature::Verifier as _;
use p256::pkcs8::DecodePublicKey as _;
use serde_json::json;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::keyboard::mark_whole_shoe;
use crate::ledger::stored;
use crate::steps::{EXAMINER, MAKER, enter, fits_across, seal, start_piece, start_piece_of};

/// Saves the sheet that is open as JSON; gives the file.
pub(crate) async fn save_json(page: &Page) -> Vec<u8> {
    page.click_words("main .button", "Save as JSON").await;
    page.download("straight-bar-shoe.json").await.1
}

pub(crate) async fn verify(page: &Page, bytes: &[u8]) {
    page.go("/verify").await;
    choose(page, bytes).await;
}

async fn choose(page: &Page, bytes: &[u8]) {
    page.choose_file("#verify-file", "saved.json", bytes).await;
}

/// The file with one byte of its reading of the width changed.
pub(crate) fn altered(bytes: &[u8]) -> Vec<u8> {
    let reading = b"\"width\":[{\"text\":\"";
    let mut places = bytes.windows(reading.len());
    let at = places.position(|part| part == reading).unwrap() + reading.len();
    let mut changed = bytes.to_vec();
    changed[at] = if bytes[at] == b'9' { b'8' } else { b'9' };
    changed
}

#[test]
fn a_marking_sealed_by_hand_is_intact_and_one_altered_byte_is_refused() {
    in_browser(|page| async move {
        start_piece(&page).await;
        mark_whole_shoe(&page).await;
        seal(&page).await;
        let bytes = save_json(&page).await;
        let sheet = page.text(".paper code").await;
        let wide =
            "document.querySelector('.code-dark').closest('svg').getBoundingClientRect().width";
        // 32 mm at 96 pixels to the inch, of which the clear edge takes 8 of 45.
        let wide = page.value(wide).await.as_f64().unwrap();
        assert!(wide * 37.0 / 45.0 * 25.4 / 96.0 >= 25.0, "{wide}");
        page.click_words("main a", "Verify a saved file").await;
        page.wait_text("h1", "Verify").await;
        let before = stored(&page).await;
        choose(&page, &bytes).await;
        page.wait_text("#verify-verdict", "Intact").await;
        page.wait_text("#verify-says", "Unsigned").await;
        let paper = page.text(".paper").await;
        assert!(paper.contains(MAKER) && paper.contains(EXAMINER), "{paper}");
        assert!(paper.contains(crate::bar_shoe::TOTAL), "{paper}");
        page.fill("#digest", &sheet).await;
        page.wait_text("#digest-says", "is that of this file").await;

        let changed = altered(&bytes);
        choose(&page, &changed).await;
        page.wait_text("#verify-verdict", "Altered since sealing")
            .await;
        page.wait_text(".paper", "altered since sealing").await;
        page.fill("#digest", &sheet).await;
        page.wait_text("#digest-says", "is not that of this file")
            .await;
        page.fill("#digest", "12").await;
        page.wait_text("#digest-error", "these are 2").await;

        choose(&page, &bytes[..bytes.len() / 2]).await;
        page.wait_text("#verify-says", "The end of the file is missing")
            .await;
        assert!(!page.shows(".paper").await);
        choose(&page, b"{\"a\":1}").await;
        page.wait_text("#verify-says", "This is no sealed marking")
            .await;
        assert_eq!(stored(&page).await, before, "nothing is taken in");
    });
}

#[test]
fn markup_in_a_file_is_shown_as_text() {
    in_browser(|page| async move {
        start_piece(&page).await;
        mark_whole_shoe(&page).await;
        let odd = "<img src=x onerror=\"document.title='ran'\"><script>1</script> \u{202e}\u{5e9}e\u{301}";
        page.fill("#overall", odd).await;
        seal(&page).await;
        let bytes = save_json(&page).await;
        verify(&page, &bytes).await;
        page.wait_text("#verify-verdict", "Intact").await;
        let paper = page.text(".paper").await;
        assert!(paper.contains("<script>1</script>"), "{paper}");
        let made = "document.querySelectorAll('.paper :is(img, script)').length";
        assert_eq!(page.value(made).await, 0);
        assert_eq!(page.look("document.title").await, "Verify · Evenshod");
    });
}

#[test]
fn a_file_that_is_dropped_is_checked_and_a_ledger_file_too() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        seal(&page).await;
        page.go("/ledger").await;
        page.click("#save-all").await;
        let (_, bytes) = page.download(".json").await;
        page.click_words("main a", "Verify a saved file").await;
        let text = String::from_utf8(bytes).unwrap();
        for (text, verdict) in [
            (text.clone(), "Intact: every sealed marking"),
            (
                text.replacen("\"text\":\"130\"", "\"text\":\"131\"", 1),
                "1 marking altered",
            ),
        ] {
            let drop = "const data = new DataTransfer();
                data.items.add(new File([arguments[0]], 'l.json'));
                document.querySelector('.drop').dispatchEvent(
                    new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));";
            page.run(drop, vec![json!(text)]).await;
            page.wait_text("#verify-verdict", verdict).await;
            page.wait_text("#verify-says", "1 of 1 sealed marking checked")
                .await;
        }
        page.wait_text("main", "The file was altered after it was saved")
            .await;
        page.wait_text(".list", MAKER).await;
    });
}

#[test]
fn a_correction_takes_the_place_of_what_was_sealed_and_both_sheets_stay() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        mark_whole_shoe(&page).await;
        enter(&page, "width", "130").await;
        seal(&page).await;
        page.click_words("main a", "Correct this marking").await;
        page.wait_text("h1", "Correct this marking").await;
        let form = page.path().await;
        page.fill("#examiner", "").await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_text("#reason-error", "Say why").await;
        page.wait_text("#examiner-error", "Give the name").await;
        page.fill("#examiner", "Nora Finch").await;
        page.fill("#reason", "the width was read on another shoe")
            .await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_for(".sheet .row").await;
        assert_eq!(crate::steps::held(&page, "#r-width").await, "130");
        page.wait_text(".page-head", "the width was read on another shoe")
            .await;

        // Thrown away and begun again.
        let old = form.replace("/correct/", "/sheet/");
        page.go(&old).await;
        page.click_words("main button", "Throw the correction away")
            .await;
        page.click("dialog[open] .button[data-kind=primary]").await;
        page.click_words("main a", "Correct this marking").await;
        page.fill("#examiner", "Nora Finch").await;
        page.fill("#reason", "the width was read on another shoe")
            .await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_for(".sheet .row").await;
        enter(&page, "width", "131").await;
        seal(&page).await;
        assert_eq!(page.path().await, format!("{piece}/sheet"));
        page.wait_text(".paper", "131 mm").await;
        page.wait_text(".paper", "A correction of the marking")
            .await;
        page.click_words("main a", "The sheet that it corrects")
            .await;
        page.wait_text(".paper", "by Nora Finch. This marking no longer counts")
            .await;
        page.wait_text(".paper", "130 mm").await;
        page.wait_text(".paper", "the width was read on another shoe")
            .await;
        page.click_words("main a", "The sheet that replaces it")
            .await;
        page.wait_text(".paper", "131 mm").await;
    });
}

#[test]
fn erased_comments_are_gone_from_the_device_and_the_marks_verify() {
    in_browser(|page| async move {
        start_piece(&page).await;
        mark_whole_shoe(&page).await;
        page.fill("#overall", "Sound, a cautious start").await;
        page.wait_saved().await;
        seal(&page).await;
        page.wait_text(".paper", "a cautious start").await;
        page.click_words("main button", "Erase comments and photos")
            .await;
        page.wait_text("dialog[open]", "It cannot be undone").await;
        page.click_words("dialog .button", "Keep them").await;
        page.click_words("main button", "Erase comments and photos")
            .await;
        page.click("dialog[open] .button[data-kind=primary]").await;
        page.wait_text(".paper", "Marks intact, personal text erased on")
            .await;
        page.wait_saved().await;
        assert!(!page.text("main").await.contains("a cautious start"));
        assert!(!stored(&page).await.contains("a cautious start"));
        let bytes = save_json(&page).await;
        verify(&page, &bytes).await;
        page.wait_text("#verify-verdict", "Marks intact, personal text erased on")
            .await;
        page.wait_text("main", "The comment on the whole: erased since sealing")
            .await;
    });
}

#[test]
fn what_is_sealed_is_signed_by_the_devices_key_and_checked() {
    in_browser(|page| async move {
        page.go("/ledger").await;
        page.click("#make-key").await;
        page.wait_for("#fingerprint").await;
        let fingerprint = page.text("#fingerprint").await;
        page.click("#save-key").await;
        let (_, pem) = page.download(".pem").await;
        page.reload().await;
        page.wait_text("#fingerprint", &fingerprint).await;
        let script = "const done = arguments[arguments.length - 1];
            indexedDB.open('evenshod-keys').onsuccess = opened => {
                const database = opened.target.result;
                database.transaction('keys').objectStore('keys').get('device').onsuccess = got => {
                    database.close();
                    const pair = got.target.result;
                    crypto.subtle.exportKey('pkcs8', pair.privateKey)
                        .then(() => done('handed out'), () => done('kept'));
                };
            };";
        assert_eq!(page.run_async(script, vec![]).await, "kept");

        start_piece_of(&page, MAKER).await;
        mark_whole_shoe(&page).await;
        seal(&page).await;
        page.wait_text(".paper", &fingerprint[..17]).await;
        let bytes = save_json(&page).await;
        signature_stands(&bytes, std::str::from_utf8(&pem).unwrap());
        verify(&page, &bytes).await;
        page.wait_text("#verify-verdict", "Intact").await;
        page.wait_text("#verify-says", &format!("Signed by the key {fingerprint}"))
            .await;
        page.choose_file("#key-file", "key.pem", &pem).await;
        page.wait_text("#key-says", "is signed by this key").await;
        page.choose_file("#key-file", "key.pem", b"no key").await;
        page.wait_text("#key-says", "This is no public key").await;

        // Altered, with a digest that was computed anew.
        let text = String::from_utf8(altered(&bytes)).unwrap();
        let found = json::read(&text).unwrap();
        let forged = text.replacen(&found.stated, &found.found, 1);
        choose(&page, forged.as_bytes()).await;
        page.wait_text("#verify-verdict", "The signature does not fit")
            .await;
        page.wait_text("#verify-says", "was changed since it was made")
            .await;
        assert!(!page.shows("#key-file").await);

        page.go("/ledger").await;
        page.click("#save-all").await;
        let until = "evenshod-ledger";
        page.wait_text("#saved-words", until).await;
        let ledger = stored(&page).await;
        assert!(ledger.contains("ecdsa-p256-sha256") && !ledger.contains("privateKey"));
    });
}

/// Checks what Chromium signed by a library that neither it nor the program is made of.
fn signature_stands(file: &[u8], pem: &str) {
    let file = json::read(std::str::from_utf8(file).unwrap()).unwrap();
    let signature = file.records.marking.signature.as_ref().unwrap();
    let key = PublicKey::read(pem).unwrap();
    let key = VerifyingKey::from_public_key_der(key.der()).unwrap();
    let value = p256::ecdsa::Signature::from_slice(&signature.bytes().unwrap()).unwrap();
    key.verify(Signature::signed_bytes(&file.stated), &value)
        .unwrap();
}

#[test]
fn a_file_with_a_marking_that_was_altered_is_told_before_it_is_taken() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        seal(&page).await;
        page.go("/ledger").await;
        page.click("#save-all").await;
        let (_, bytes) = page.download(".json").await;
        // As a forger would, who writes the file's own digests anew.
        let bundle = evenshod::records::Bundle::read(&bytes).unwrap();
        let ledger = evenshod::records::Ledger::of(bundle.records().iter().cloned());
        let mut marking = ledger.markings().next().unwrap().clone();
        marking.facts.readings.get_mut("width").unwrap()[0].text = "131".to_owned();
        let forged = ledger.with(&evenshod::records::Change {
            puts: vec![marking.into()],
            ..Default::default()
        });
        let forged =
            evenshod::records::Bundle::of(&forged, vec![], bundle.device(), bundle.written());
        page.choose_file(
            "#ledger-file",
            "forged.json",
            forged.write().unwrap().as_bytes(),
        )
        .await;
        page.wait_text(".unsound", "altered since sealing").await;
        page.wait_text(".unsound", MAKER).await;
    });
}

#[test]
fn it_works_by_keyboard_and_fits_a_phone() {
    in_browser(|page| async move {
        use crate::browser::key;
        page.resize(390, 844, true).await;
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        seal(&page).await;
        fits_across(&page, "the sheet").await;
        let bytes = save_json(&page).await;
        page.tab_to("main a[href='/verify']").await;
        page.keys(key::ENTER).await;
        page.wait_text("h1", "Verify").await;
        page.tab_to("#verify-file").await;
        assert!(page.focus_is_seen().await);
        choose(&page, &bytes).await;
        page.wait_text("#verify-verdict", "Intact").await;
        page.tab_to("#digest").await;
        assert!(page.focus_is_seen().await);
        fits_across(&page, "the page Verify").await;
    });
}
