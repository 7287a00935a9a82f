//! Sheets as files: of one piece and of a sitting, with how far that is, stopped, and where
//! the typeface lacks something.

use crate::browser::Page;
use crate::harness::in_browser;
use crate::invented::look_round;
use crate::keyboard::mark_whole_shoe;
use crate::pictures::add_photo;
use crate::steps::{seal, start_piece_of};

/// Opens the question on which paper.
pub(crate) async fn ask(page: &Page, words: &str) {
    page.click_words("main button", words).await;
    page.wait_for("dialog[open] #make-paper").await;
}

/// Has the file made that was asked for, and takes it.
pub(crate) async fn made(page: &Page, ending: &str) -> (String, Vec<u8>) {
    page.click("#make-paper").await;
    page.wait_text("#paper-says", &format!("{ending}: ")).await;
    page.download(ending).await
}

/// The sitting of the invented school with the most pieces.
async fn largest_sitting(page: &Page) {
    page.go("/sittings").await;
    page.wait_for(".piece a").await;
    let go = "const rows = [...document.querySelectorAll('.piece')];
        const count = row => Number(/(\\d+) pieces?/.exec(row.innerText)?.[1] ?? 0);
        rows.sort((one, other) => count(other) - count(one))[0].querySelector('a').click();";
    page.run(go, vec![]).await;
    page.wait_for("#pieces").await;
}

/// Opens the invented school and asks for all sheets of its largest sitting.
pub(crate) async fn ask_for_largest_sitting(page: &Page) {
    page.go("/").await;
    look_round(page).await;
    largest_sitting(page).await;
    ask(page, "Save all as files").await;
}

/// How many pages the bytes of a PDF say that they have.
fn pages_in(bytes: &[u8]) -> usize {
    let text = String::from_utf8_lossy(bytes);
    let parts = text.split("/Type /Page").chain(text.split("/Type/Page"));
    parts
        .filter(|rest| rest.starts_with(|next: char| !next.is_alphanumeric()))
        .count()
}

#[test]
fn a_sheet_is_saved_as_pdf_on_the_paper_that_was_chosen_last() {
    in_browser(|page| async move {
        start_piece_of(&page, "王 Asa").await;
        mark_whole_shoe(&page).await;
        add_photo(&page, "ground side").await;
        seal(&page).await;
        ask(&page, "Save as a file").await;
        page.click("[name=paper][value=letter]").await;
        page.click("#make-paper").await;
        page.wait_text("#paper-says", "straight-bar-shoe.pdf: ")
            .await;
        page.wait_text("#paper-says", "One character is drawn as a box")
            .await;
        let (name, bytes) = page.download(".pdf").await;
        assert!(name.ends_with("straight-bar-shoe.pdf"), "{name}");
        assert!(bytes.starts_with(b"%PDF-"));
        assert!(pages_in(&bytes) > 1, "{}", pages_in(&bytes));
        let has = |what: &[u8]| bytes.windows(what.len()).any(|part| part == what);
        // 8.5 by 11 inches, and the photo as it is kept.
        assert!(has(b"612") && has(b"792") && has(b"DCTDecode"));
        page.click_words("dialog[open] button", "Close").await;
        ask(&page, "Save as a file").await;
        let chosen = page
            .look("document.querySelector('[name=paper]:checked').value")
            .await;
        assert_eq!(chosen, "letter");
    });
}

#[test]
fn a_sitting_is_one_file_or_a_zip_and_can_be_stopped() {
    in_browser(|page| async move {
        ask_for_largest_sitting(&page).await;
        page.click("#make-paper").await;
        page.click_words("dialog[open] button", "Stop").await;
        page.wait_text("#paper-says", "Stopped before the file was made")
            .await;
        page.click("#make-paper").await;
        page.wait_text("#paper-says", ".pdf: ").await;
        let (_, one) = page.download(".pdf").await;
        assert!(one.starts_with(b"%PDF-"));
        page.click("[name=binding][value=zip]").await;
        page.click("#make-paper").await;
        page.wait_text("#paper-says", ".zip: ").await;
        let (_, zip) = page.download(".zip").await;
        assert!(zip.starts_with(b"PK\x03\x04"));
        let has = zip.windows(5).filter(|part| *part == b"%PDF-").count();
        let said = page.text("#paper-says").await;
        assert!(
            said.contains(&format!("{has} documents on")),
            "{said}, {has} in the file"
        );
    });
}

/// The result is let go once it is handed over.
#[test]
fn closing_the_question_ends_what_is_under_way() {
    in_browser(|page| async move {
        ask_for_largest_sitting(&page).await;
        page.click("#make-paper").await;
        page.keys(crate::browser::key::ESCAPE).await;
        page.wait(
            "the question to close",
            "!document.querySelector('dialog[open]')",
        )
        .await;
        ask(&page, "Save all as files").await;
        assert_eq!(page.text("#paper-says").await, "");
        page.click("#make-paper").await;
        page.wait_text("#paper-says", ".pdf: ").await;
    });
}
