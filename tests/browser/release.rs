//! Marks of an exam are held from learners until somebody releases the sitting; then
//! feedback is given on them.

use crate::browser::Page;
use crate::harness::in_browser;
use crate::own::seal_unseen;
use crate::steps::{EXAMINER, enter, held, seal};

/// Starts a bar shoe of somebody new in an exam of today; gives its address.
pub(crate) async fn start_exam(page: &Page, maker: &str) -> String {
    page.go("/pieces/new").await;
    page.click("[name=who][value=new]").await;
    page.fill("#name", maker).await;
    page.click("[name=sitting][value=exam]").await;
    page.fill("#examiner", EXAMINER).await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_for(".sheet .row").await;
    page.path().await
}

/// The same, marked by examiner and maker, the maker last: then their sheet is open. Gives
/// the address of the piece.
pub(crate) async fn exam_marked_by_both(page: &Page, maker: &str) -> String {
    page.go("/pieces/new").await;
    page.click("[name=who][value=new]").await;
    page.fill("#name", maker).await;
    page.click("[name=sitting][value=exam]").await;
    page.click("[name=marked-by][value=both]").await;
    page.fill("#examiner", EXAMINER).await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_text("h1", "Who marks now?").await;
    let piece = page.path().await;
    page.click_words(".choice", "Examiner").await;
    page.wait_for(".sheet .row").await;
    enter(page, "width", "140").await;
    seal_unseen(page).await;
    page.click_words(".choice", "The maker").await;
    page.wait_for(".sheet .row").await;
    enter(page, "width", "130").await;
    seal(page).await;
    piece
}

/// Opens the learner's page from the list of all.
pub(crate) async fn open_learner(page: &Page, name: &str) {
    page.go("/learners").await;
    page.click_words(".piece a", name).await;
    page.wait_text("h1", name).await;
}

/// Answers the question that is open; the only examiner is chosen already.
async fn agree(page: &Page) {
    assert_ne!(held(page, "#handing-who").await, "");
    page.click("dialog[open] .button[data-kind=primary]").await;
    page.wait_saved().await;
}

/// Releases the only sitting of the list that waits.
pub(crate) async fn release(page: &Page) {
    page.go("/sittings").await;
    page.click_words("main button", "Release marks").await;
    agree(page).await;
    page.wait_text(".piece .now", "released").await;
}

#[test]
fn an_exam_is_not_on_the_learners_page_before_it_is_released() {
    in_browser(|page| async move {
        let piece = start_exam(&page, "Ida Jarrow").await;
        enter(&page, "width", "130").await;
        seal(&page).await;
        page.wait_text(".paper", "Not released to the learner")
            .await;
        for path in ["/", "/learners"] {
            page.go(path).await;
            page.wait_for(".piece").await;
            assert!(!page.shows("main .marks").await, "marks on {path}");
        }
        open_learner(&page, "Ida Jarrow").await;
        page.wait_text("#held", "1 piece is held").await;
        page.wait_text(".piece .now", "marked, not released yet")
            .await;
        assert!(!page.shows(".piece a").await, "its sheet is not a tap away");
        for what in ["main .marks", "#over-time", ".practice"] {
            assert!(!page.shows(what).await, "{what}");
        }
        page.click_words("#held button", "Show held marks").await;
        page.wait_for("#over-time").await;
        assert!(page.shows("main .marks").await);
        page.on_paper(true).await;
        assert!(
            !page.shows("main .marks").await,
            "held marks are not printed"
        );
        page.on_paper(false).await;
        page.reload().await;
        page.wait_text("#held", "Show held marks").await;
        assert!(
            !page.shows("main .marks").await,
            "each visit begins without"
        );

        release(&page).await;
        open_learner(&page, "Ida Jarrow").await;
        page.wait_for("#over-time").await;
        assert!(!page.shows("#held").await);
        page.click(".piece a").await;
        page.wait_text(".paper", &format!("by {EXAMINER}")).await;
        let sheet = page.text(".paper").await;
        assert!(
            sheet.contains("Released") && !sheet.contains("Not released"),
            "{sheet}"
        );
        assert!(!sheet.contains("Feedback given"), "{sheet}");
        page.click_words("main button", "Give feedback").await;
        agree(&page).await;
        page.wait_text(".paper", "Feedback given").await;
        page.reload().await;
        page.wait_text(".paper", "Feedback given").await;
        page.click_words("main button", "Take the note back").await;
        page.wait(
            "no feedback",
            "!document.querySelector('.paper').innerText.includes('Feedback given')",
        )
        .await;

        page.click_words("main a", "Its sitting").await;
        page.click_words(".page-head button", "Hold back").await;
        agree(&page).await;
        page.wait_text(".page-head", "held back").await;
        page.go(&format!("{piece}/sheet")).await;
        page.wait_text(".paper", "Not released to the learner")
            .await;
        page.wait_text(".paper", "held back").await;
    });
}

#[test]
fn a_sitting_that_is_still_marked_unseen_is_not_released() {
    in_browser(|page| async move {
        start_exam(&page, "Ida Jarrow").await;
        enter(&page, "width", "130").await;
        seal(&page).await;
        start_exam(&page, "Jem Kirkby").await;
        page.go("/sittings").await;
        page.click_words("main button", "Release marks").await;
        page.click("dialog[open] .button[data-kind=primary]").await;
        page.wait_text("main", "1 marking is still open").await;
        page.wait_text(".piece .now", "held").await;
    });
}

#[test]
fn the_maker_is_not_led_to_what_the_examiner_gave_in_an_exam() {
    in_browser(|page| async move {
        let piece = exam_marked_by_both(&page, "Ida Jarrow").await;
        page.wait_text(".paper", "Own, by the maker").await;
        page.wait_text(".paper", "not released yet").await;
        let ways = page.text("main .actions").await;
        assert!(!ways.contains("Side by side"), "{ways}");
        page.go(&format!("{piece}/side")).await;
        page.wait_text("#held", "held until").await;
        assert!(!page.shows(".paper").await);
        page.click_words("#held button", "Show held marks").await;
        page.wait_text(".paper", "140 mm").await;
        page.on_paper(true).await;
        assert!(!page.shows(".paper").await);
        page.on_paper(false).await;
        release(&page).await;
        page.go(&format!("{piece}/side")).await;
        page.wait_text(".paper", "140 mm").await;
        assert!(!page.shows("#held").await);
    });
}
