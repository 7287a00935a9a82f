//! Sealing, what it freezes, and the files that are handed over.

use evenshod::records::verify;
use serde_json::Value;

use crate::bar_shoe;
use crate::browser::Page;
use crate::harness::in_browser;
use crate::keyboard::mark_whole_shoe;
use crate::steps::{EXAMINER, MAKER, enter, held, seal, start_piece, wait_marks};
use crate::tables::ask_table;

#[test]
fn a_sealed_marking_cannot_be_edited() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        enter(&page, "width", "130").await;
        page.click_words(".dock .button", "Seal").await;
        page.wait_text("dialog", "missing").await;
        page.click_words("dialog .button", "Go on marking").await;
        page.wait(
            "the question to go",
            "!document.querySelector('dialog[open]')",
        )
        .await;
        enter(&page, "length", "133").await;
        seal(&page).await;
        assert_eq!(page.path().await, format!("{piece}/sheet"));
        page.go(&piece).await;
        page.wait_text("main", "This marking is sealed").await;
        let inputs = "document.querySelectorAll('main :is(input, textarea, select), .dock').length";
        assert_eq!(page.value(inputs).await, 0);
        page.click_words("main a", "See the scored sheet").await;
        page.wait_for(".paper").await;
        let inputs = "document.querySelectorAll('main :is(input, textarea, select)').length";
        assert_eq!(page.value(inputs).await, 0);
        page.go("/").await;
        page.click_words(".piece a", MAKER).await;
        page.wait_for(".paper").await;
    });
}

#[test]
fn going_back_from_the_sheet_does_not_open_the_marking_again() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        seal(&page).await;
        page.back().await;
        page.wait_text("main", "This marking is sealed").await;
        assert!(!page.shows("#r-width").await);
    });
}

#[test]
fn a_seal_in_one_tab_stops_the_other() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        let one = page.tab_here().await;
        enter(&page, "width", "130").await;
        let two = page.open_tab(&piece).await;
        page.focus("#r-length").await;
        page.to_tab(&one).await;
        seal(&page).await;
        page.to_tab(&two).await;
        page.wait_text("main", "This marking is sealed").await;
        assert!(!page.shows("#r-length").await);
        page.click_words("main a", "See the scored sheet").await;
        page.wait_for(".paper").await;
    });
}

/// The other tab's edit was under way when the seal came: it is refused, said, and
/// the sealed marking stands.
#[test]
fn an_edit_that_a_seal_overtakes_is_refused_and_told() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        let one = page.tab_here().await;
        enter(&page, "width", "130").await;
        let two = page.open_deaf_tab(&piece).await;
        page.to_tab(&one).await;
        seal(&page).await;
        page.to_tab(&two).await;
        page.fill("#r-length", "133").await;
        page.wait_text(".notices", "could not be kept").await;
        page.wait_text(".notices", "was sealed on").await;
        page.wait_text("main", "This marking is sealed").await;
        page.click_words("main a", "See the scored sheet").await;
        page.wait_for(".paper").await;
        let sheet = page.text(".paper").await;
        assert!(sheet.contains("130 mm"), "what was sealed stands: {sheet}");
    });
}

#[test]
fn the_files_hold_what_was_marked() {
    in_browser(|page| async move {
        start_piece(&page).await;
        mark_whole_shoe(&page).await;
        page.click("#weld .more").await;
        page.fill("#c-weld", "=SUM(1;2)").await;
        page.fill("#overall", "Sound, \"quick\";\nclean").await;
        wait_marks(&page, "weld", "5").await;
        seal(&page).await;
        ask_table(&page).await;
        page.click("[name=table][value=csv-long]").await;
        page.click("#make-table").await;
        let (name, bytes) = page.download(".csv").await;
        assert!(name.contains("Marsh") || name.contains("marsh"), "{name}");
        csv_is_right(&bytes);
        page.click_words("dialog[open] button", "Close").await;
        page.click_words("main .button", "Save as JSON").await;
        let (_, bytes) = page.download(".json").await;
        json_is_right(&page, &bytes).await;
    });
}

fn csv_is_right(bytes: &[u8]) {
    let mut reader = csv::Reader::from_reader(bytes);
    let columns = reader.headers().unwrap().clone();
    let at = |name: &str| {
        columns
            .iter()
            .position(|column| column == name)
            .unwrap_or_else(|| panic!("no column {name}"))
    };
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let worked_out = bar_shoe::marking();
    assert_eq!(rows.len(), worked_out.criteria.len());
    for (row, result) in rows.iter().zip(&worked_out.criteria) {
        let marks = result.marks.unwrap().0;
        let fraction = format!(
            "{}/{}",
            &row[at("marks_numerator")],
            &row[at("marks_denominator")]
        );
        let exact = marks.to_string();
        let exact = if exact.contains('/') {
            exact
        } else {
            format!("{exact}/1")
        };
        assert_eq!(fraction, exact, "{}", result.id);
        assert_eq!(&row[at("learner")], MAKER);
        assert_eq!(&row[at("examiner")], EXAMINER);
        assert_eq!(&row[at("total")], bar_shoe::TOTAL);
        assert_eq!(&row[at("award")], worked_out.award.word());
        assert_eq!(&row[at("overall_comment")], "Sound, \"quick\";\nclean");
    }
    let all = String::from_utf8_lossy(bytes);
    assert!(all.contains("'=SUM(1;2)"), "a formula is made harmless");
}

async fn json_is_right(page: &Page, bytes: &[u8]) {
    let file: Value = serde_json::from_slice(bytes).unwrap();
    let digest = file["sha256"].as_str().unwrap();
    let document = evenshod::records::canonical_json(&file["document"]).unwrap();
    verify(&document, digest).unwrap();
    let sheet: String = page.text(".paper").await.split_whitespace().collect();
    assert!(sheet.contains(digest), "the sheet prints the same digest");
    let facts = serde_json::from_value(file["document"]["facts"].clone());
    let facts: evenshod::marking::Facts = facts.unwrap();
    assert_eq!(facts, bar_shoe::facts());
    let personal = file["document"].to_string();
    assert!(
        !personal.contains(MAKER),
        "names are in the seal as digests only"
    );
    assert_eq!(file["personal"]["learner"]["text"], MAKER);
}

#[test]
fn a_ticket_hides_its_learner_until_the_seal() {
    in_browser(|page| async move {
        page.go("/learners").await;
        page.fill("#new", "Bea Coe").await;
        page.keys(crate::browser::key::ENTER).await;
        page.wait_text("main", "Bea Coe is added").await;
        page.go("/pieces/new").await;
        page.click("[name=who][value=ticket]").await;
        page.fill("#ticket", "17").await;
        page.focus("#ticket-learner").await;
        page.keys("Bea").await;
        page.fill("#examiner", EXAMINER).await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_for("#r-width").await;
        assert!(!page.text("body").await.contains("Bea Coe"));
        enter(&page, "width", "130").await;
        assert_eq!(held(&page, "#r-width").await, "130");
        seal(&page).await;
        page.wait_text(".paper", "Bea Coe").await;
    });
}
