//! The main job with nothing but a keyboard.

use evenshod::present::mark_sheet::{Row, RowForm};

use crate::bar_shoe;
use crate::browser::{Page, key};
use crate::harness::in_browser;
use crate::steps::{EXAMINER, MAKER, start_piece};

#[test]
fn a_shoe_is_marked_by_keyboard_alone() {
    in_browser(|page| async move {
        start(&page).await;
        fill_every_row(&page).await;
        no_faults_in_the_rest(&page).await;
        summary_is_as_worked_out(&page).await;
        seal(&page).await;
        sheet_is_as_worked_out(&page).await;
    });
}

#[test]
fn enter_leads_through_the_fields_and_back() {
    in_browser(|page| async move {
        start_piece(&page).await;
        let stops: Vec<String> = bar_shoe::rows()
            .iter()
            .map(bar_shoe::first_control)
            .collect();
        page.focus("#r-branches-right").await;
        let is_at = |selector: &str| format!("document.activeElement.matches('{selector}')");
        page.keys(key::ENTER).await;
        page.wait("the width", &is_at("#r-width")).await;
        page.keys_with(&[key::SHIFT], key::ENTER).await;
        page.keys_with(&[key::SHIFT], key::ENTER).await;
        page.wait("the left branch", &is_at("#r-branches-left"))
            .await;
        page.focus(stops.first().unwrap()).await;
        page.keys_with(&[key::SHIFT], key::ENTER).await;
        page.wait("the first field still", &is_at(&stops[0])).await;
        page.click_words(".dock .button", "Next missing").await;
        page.wait("the first missing row", &is_at(&stops[1])).await;
        page.keys(key::SPACE).await;
        page.click_words(".dock .button", "Next missing").await;
        page.wait("the next missing row", &is_at(&stops[2])).await;
    });
}

/// Fills the mark sheet that is open, for tests that need a whole one.
pub(crate) async fn mark_whole_shoe(page: &Page) {
    page.focus("main h1").await;
    fill_every_row(page).await;
    page.click_words(".tools button", "No faults in the rest")
        .await;
    page.wait_saved().await;
}

async fn start(page: &Page) {
    page.go("/").await;
    page.wait_text("h1", "Nothing on the bench yet").await;
    page.tab_to(".skip").await;
    page.tab_to("main a[href='/pieces/new']").await;
    assert!(page.focus_is_seen().await);
    page.keys(key::ENTER).await;
    page.wait_for("#name").await;
    page.tab_to("#name").await;
    page.keys(MAKER).await;
    page.tab_to("[name=rubric]").await;
    let chosen = page
        .look("document.querySelector('[name=rubric]:checked').value")
        .await;
    assert!(!chosen.is_empty(), "a rubric is offered");
    page.tab_to("[name=sitting]").await;
    page.keys(key::DOWN).await;
    let kind = page
        .look("document.querySelector('[name=sitting]:checked').value")
        .await;
    assert_eq!(kind, "mock", "arrows choose among tiles");
    page.tab_to("#examiner").await;
    page.keys(EXAMINER).await;
    page.keys(key::ENTER).await;
    page.wait_for(".sheet .row").await;
    page.wait_text("h1", MAKER).await;
    page.wait_text(".page-head", "mock").await;
}

/// Readings and tallies lead on by Enter, choices by the tab key.
async fn fill_every_row(page: &Page) {
    let rows = bar_shoe::rows();
    page.tab_to(&bar_shoe::first_control(&rows[0])).await;
    for (row, next) in rows.iter().zip(rows.iter().skip(1).map(Some).chain([None])) {
        let control = bar_shoe::first_control(row);
        page.tab_to(&control).await;
        assert!(page.focus_is_seen().await, "the focus shows in {}", row.id);
        fill(page, row).await;
        if let (RowForm::Readings { .. } | RowForm::Tally { .. }, Some(next)) = (&row.form, next) {
            page.keys(key::ENTER).await;
            let control = bar_shoe::first_control(next);
            let is_there = format!("document.activeElement.matches('{control}')");
            page.wait(
                &format!("Enter to lead from {} to {}", row.id, next.id),
                &is_there,
            )
            .await;
        }
    }
}

async fn fill(page: &Page, row: &Row) {
    match &row.form {
        RowForm::Readings { inputs, .. } => {
            for (at, input) in inputs.iter().enumerate() {
                if at > 0 {
                    page.keys(key::ENTER).await;
                }
                assert_eq!(
                    page.focused().await,
                    input.dom,
                    "Enter leads on in {}",
                    row.id
                );
                page.keys(bar_shoe::typed(input)).await;
            }
        }
        RowForm::Tally { .. } => page.keys(&bar_shoe::facts().tallies[&row.id]).await,
        RowForm::Levels(_) | RowForm::Numbers { .. } => match bar_shoe::chosen_tile(row) {
            0 => page.keys(key::SPACE).await,
            steps => page.keys(&key::DOWN.repeat(steps)).await,
        },
        RowForm::Faults(tiles) => {
            for fault in &bar_shoe::facts().faults[&row.id] {
                // "None seen" stands before the faults.
                let at = tiles.iter().position(|tile| tile.id == *fault).unwrap() + 1;
                page.keys(&key::TAB.repeat(at)).await;
                page.keys(key::SPACE).await;
            }
        }
    }
}

async fn no_faults_in_the_rest(page: &Page) {
    let missing = page.text(".sum-words").await;
    assert!(
        missing.ends_with(", 1 missing"),
        "safety alone is left: {missing}"
    );
    let button = ".tools button:not([aria-pressed])";
    page.tab_to(button).await;
    let words = page.look("document.activeElement.innerText").await;
    assert_eq!(words, "No faults in the rest");
    page.keys(key::SPACE).await;
}

async fn summary_is_as_worked_out(page: &Page) {
    let worked_out = bar_shoe::marking();
    assert!(worked_out.complete, "missing: {:?}", worked_out.missing);
    assert_eq!(worked_out.marks.to_string(), bar_shoe::TOTAL);
    page.wait_text(
        ".sum-words",
        &format!("{} of {}", worked_out.marks, worked_out.out_of),
    )
    .await;
    let award = format!(
        "{} to pass: {}",
        worked_out.pass_mark,
        worked_out.award.word()
    );
    page.wait_text(".sum-words", &award).await;
    for result in &worked_out.criteria {
        let shown = page.text(&format!("#{} > .marks", result.id)).await;
        let marks = result.marks.expect("every entry has marks");
        assert_eq!(
            shown,
            format!("{marks} of {}", result.out_of),
            "{}",
            result.id
        );
        // The reason comes first; behind it may stand that it is a close call.
        let why = page.text(&format!("#{} > .row-why > p", result.id)).await;
        assert_eq!(why, result.reason, "{}", result.id);
    }
}

async fn seal(page: &Page) {
    // Backward, past the head of the page, is the short way to its foot.
    page.tab_back_to(".dock .button[data-kind=primary]").await;
    page.keys(key::ENTER).await;
    page.wait_for("dialog[open]").await;
    page.keys(key::ESCAPE).await;
    page.wait(
        "the question to be put away",
        "!document.querySelector('dialog[open]')",
    )
    .await;
    let back = "document.activeElement.matches('.dock .button[data-kind=primary]')";
    page.wait("the focus to be where it was", back).await;
    page.keys(key::ENTER).await;
    page.wait_for("dialog[open]").await;
    page.tab_to("dialog .button[data-kind=primary]").await;
    page.keys(key::ENTER).await;
}

async fn sheet_is_as_worked_out(page: &Page) {
    let worked_out = bar_shoe::marking();
    page.wait_for(".paper").await;
    assert!(page.path().await.ends_with("/sheet"));
    let sheet = page.text(".paper").await;
    for words in [MAKER, EXAMINER, worked_out.award.word()] {
        let is_there = sheet.to_lowercase().contains(&words.to_lowercase());
        assert!(is_there, "the sheet lacks {words}: {sheet}");
    }
    assert_eq!(page.text(".verdict-line .marks b").await, bar_shoe::TOTAL);
    for result in &worked_out.criteria {
        for words in [&result.value, &result.because] {
            assert!(sheet.contains(words), "the sheet lacks: {words}");
        }
    }
    let digest: String = sheet_digest(&sheet);
    assert_eq!(digest.len(), 64);
    page.wait_saved().await;
}

/// The first run of 64 hexadecimal digits, in groups or not.
fn sheet_digest(sheet: &str) -> String {
    let is_hex = |word: &&str| {
        word.len() >= 4
            && word
                .chars()
                .all(|c| c.is_ascii_digit() || ('a'..='f').contains(&c))
    };
    let words: Vec<&str> = sheet.split_whitespace().collect();
    let mut run = String::new();
    for word in words {
        if is_hex(&word) {
            run += word;
        } else {
            run.clear();
        }
        if run.len() >= 64 {
            break;
        }
    }
    run
}
