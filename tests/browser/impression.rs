//! The first impression: asked before all else, locked by the first reading.

use evenshod::present::rubrics::BLANK;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::rubrics::open_part;
use crate::steps::{EXAMINER, enter, fits_across, seal};

/// What a judged criterion adds to the blank rubric.
const OUTLINE: &str = r#"
[[sections.criteria]]
id = "outline"
name = "Outline"
kind = "judged"
levels = [
  { id = "even", name = "Even", text = "Both branches alike.", marks = 6 },
  { id = "near", name = "Nearly even", text = "One branch a little fuller.", marks = 4 },
  { id = "odd", name = "Odd", text = "Nobody would call them a pair.", marks = 0 },
]
"#;

/// Keeps the blank rubric as `title`, with `table` for a first impression, and begins a
/// piece by it.
pub(crate) async fn begin(page: &Page, title: &str, table: &str) {
    let id = title.to_lowercase().replace(' ', "-");
    let text = BLANK
        .replace("id = \"our-shoe\"", &format!("id = \"{id}\""))
        .replace("title = \"Our shoe\"", &format!("title = \"{title}\""));
    let text = format!("{text}{OUTLINE}\n[first_impression]\n{table}\n");
    page.go("/rubrics").await;
    page.choose_file("input[type=file]", "ours.toml", text.as_bytes())
        .await;
    page.wait_text("#rubric-state", "Ready: 10 marks in all.")
        .await;
    keep_and_begin(page, title).await;
}

/// Keeps the rubric in work and begins a piece by it.
pub(crate) async fn keep_and_begin(page: &Page, title: &str) {
    page.click_words(".page-head button", "Keep it to mark by")
        .await;
    page.wait_text(".paper h1", title).await;
    page.wait_saved().await;
    page.go("/pieces/new").await;
    page.click_words(".tile", title).await;
    page.click("[name=who][value=new]").await;
    // Each is somebody else’s, as a page may begin several.
    page.fill("#name", &format!("Cy {title}")).await;
    page.fill("#examiner", EXAMINER).await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_for(".sheet .row").await;
}

async fn line(page: &Page, words: &str) {
    page.wait_text("#impression-line", words).await;
}

#[test]
fn it_is_given_locked_opened_again_and_printed() {
    in_browser(|page| async move {
        begin(&page, "Looked at first", "").await;
        page.wait_text("#impression", "How good is this piece")
            .await;
        page.click_words(".impression .tile", "7").await;
        line(&page, "First impression 7 of 10, locked once you measure.").await;
        page.wait_saved().await;
        // It is stored, and can be changed while nothing is measured.
        page.reload().await;
        line(&page, "7 of 10").await;
        page.click_words(".impression-line button", "Change it")
            .await;
        page.click_words(".impression .tile", "8").await;
        line(&page, "8 of 10").await;
        enter(&page, "width", "131.8").await;
        line(&page, "First impression 8 of 10, locked.").await;
        assert!(!page.shows(".impression-line button").await);
        page.click_words(".tools button", "Undo").await;
        line(&page, "locked once you measure").await;
        page.click_words(".impression-line button", "Change it")
            .await;
        page.click_words(".impression button", "Take it away").await;
        page.wait_for(".impression .tile").await;
        page.click_words(".impression .tile", "6").await;
        enter(&page, "width", "131.8").await;
        page.click_words("#outline .tile", "Nearly even").await;
        line(&page, "First impression 6 of 10, locked.").await;
        seal(&page).await;
        let says = "First impression 6 of 10 (60 %), given before measuring, not counted; the \
                    marks are 80.0 %.";
        page.wait_text(".paper", says).await;
    });
}

#[test]
fn it_may_be_skipped_and_is_missed_by_nobody() {
    in_browser(|page| async move {
        begin(&page, "Skipped", "most = 20\nstep = \"1/2\"").await;
        page.click_words(".impression button", "Skip").await;
        line(&page, "No first impression is given.").await;
        page.click_words(".impression-line button", "Give it").await;
        // What is no number of the scale is told and cannot be given.
        page.fill("#impression-number", "13.2").await;
        page.wait_text("#impression-number-error", "0 to 20 in steps of 0.5")
            .await;
        page.fill("#impression-number", "13").await;
        page.click_words(".impression .step", "+").await;
        page.wait(
            "one step up",
            "document.querySelector('#impression-number').value === '13.5'",
        )
        .await;
        page.click_words(".impression button", "Skip").await;
        enter(&page, "width", "131.8").await;
        line(&page, "No first impression was given before measuring.").await;
        page.click_words("#outline .tile", "Even").await;
        page.wait_text(".dock", "10 of 10").await;
        seal(&page).await;
        let paper = page.text(".paper").await;
        assert!(!paper.contains("First impression"), "{paper}");
    });
}

#[test]
fn a_criterion_that_counts_is_locked_in_its_row() {
    in_browser(|page| async move {
        begin(&page, "Counted", "counts_as = \"outline\"").await;
        page.wait_text("#impression", "Outline, at a first look")
            .await;
        page.click_words(".impression .tile", "Nearly even").await;
        line(&page, "First impression Nearly even").await;
        page.wait_text("#outline > .marks", "4 of 6").await;
        enter(&page, "width", "131.8").await;
        page.wait_for("#outline fieldset:disabled").await;
        page.wait_text("#outline", "Given as the first impression, and locked.")
            .await;
        // The way through the sheet leads past it.
        page.focus("#r-width").await;
        page.keys(crate::browser::key::ENTER).await;
        assert_eq!(page.focused().await, "r-width");
        seal(&page).await;
        page.wait_text(
            ".paper",
            "First impression Nearly even, given before measuring, counted as Outline.",
        )
        .await;
    });
}

#[test]
fn it_is_put_into_a_rubric_by_forms_and_given_by_keyboard() {
    in_browser(|page| async move {
        page.go("/rubrics").await;
        page.click_words(".page-head button", "Begin with a small one")
            .await;
        page.wait_for(".forms").await;
        open_part(&page, "part-head").await;
        page.fill("#f-title", "By forms").await;
        page.fill("#f-id", "by-forms").await;
        open_part(&page, "part-first-impression").await;
        page.click_words(
            "#part-first-impression button",
            "Ask for a first impression that is not counted",
        )
        .await;
        page.fill("#f-first_impression-ask", "Well made?").await;
        page.fill("#f-first_impression-most", "5").await;
        open_part(&page, "part-moderation").await;
        page.click_words("#part-moderation button", "Say how examiners agree")
            .await;
        page.wait_for("#f-moderation-third_examiner").await;
        fits_across(&page, "forms").await;
        page.wait_text("#rubric-state", "Ready: 4 marks in all.")
            .await;
        keep_and_begin(&page, "By forms").await;
        page.wait_text("#impression", "Well made?").await;
        page.tab_to(".impression .tile:nth-child(4)").await;
        page.keys(crate::browser::key::ENTER).await;
        line(&page, "First impression 3 of 5").await;
        // The focus is where one left off.
        page.wait(
            "the focus on the line",
            "document.activeElement.id === 'impression-line'",
        )
        .await;
    });
}
