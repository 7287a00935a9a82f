//! Marking one's own piece: alone on a phone, and beside an examiner, each unseen by the
//! other until both are sealed.

use evenshod::present::offers;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::keyboard::mark_whole_shoe;
use crate::steps::{EXAMINER, MAKER, enter, fits_across, seal, start_piece};

/// The digest of a rubric that ships.
pub(crate) fn digest(id: &str) -> String {
    let all = offers();
    let found = all.iter().find(|offer| offer.rubric.rubric_id == id);
    found.expect("it ships").key().to_owned()
}

/// Starts a bar shoe that examiner and maker mark; gives its address.
pub(crate) async fn start_both(page: &Page, maker: &str) -> String {
    page.go("/pieces/new").await;
    page.click("[name=who][value=new]").await;
    page.fill("#name", maker).await;
    page.click("[name=marked-by][value=both]").await;
    page.fill("#examiner", EXAMINER).await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_text("h1", "Who marks now?").await;
    page.wait_saved().await;
    page.path().await
}

/// Seals the marking whose mark sheet is open while another one of its piece is open.
pub(crate) async fn seal_unseen(page: &Page) {
    page.click_words(".dock .button", "Seal").await;
    page.wait_text("dialog", "still open").await;
    page.click("dialog[open] .button[data-kind=primary]").await;
    page.wait_text("h1", "Not to be seen yet").await;
    page.wait_saved().await;
}

async fn open_own(page: &Page, piece: &str) {
    page.go(piece).await;
    page.click_words(".choice", "The maker").await;
    page.wait_text(".page-head", "own marking").await;
    page.wait_for(".sheet .row").await;
}

/// No page but a mark sheet of one's own says marks of what is begun.
async fn shows_no_marks(page: &Page, piece: &str) {
    for path in ["/", "/learners", piece, &format!("{piece}/sheet")] {
        page.go(path).await;
        page.wait_for("main h1").await;
        assert!(!page.shows("main .marks").await, "marks on {path}");
        assert!(!page.shows("main .paper").await, "a sheet on {path}");
    }
}

#[test]
fn maker_and_examiner_mark_unseen_and_then_see_both() {
    in_browser(|page| async move {
        let piece = start_both(&page, MAKER).await;
        shows_no_marks(&page, &piece).await;
        open_own(&page, &piece).await;
        let own = page.path().await;
        assert!(own.starts_with(&format!("{piece}/marking/")), "{own}");
        enter(&page, "width", "130").await;
        seal_unseen(&page).await;
        let said = page.text("main").await;
        assert!(
            said.contains(&format!("Own marking by {MAKER}, sealed")),
            "{said}"
        );
        page.go("/").await;
        page.wait_text(".piece", "another is sealed and unseen")
            .await;
        assert!(!page.shows("main .marks").await);
        page.go(&own).await;
        page.wait_text("main", "This marking is sealed").await;
        page.click_words("main a", "See the scored sheet").await;
        page.wait_text("h1", "Not to be seen yet").await;

        page.click_words(".choice", "Examiner").await;
        page.wait_for(".sheet .row").await;
        enter(&page, "width", "140").await;
        page.click_words(".dock .button", "Seal").await;
        page.wait_text("dialog", "The piece ended: finished").await;
        assert!(!page.shows("dialog [name=ended]").await, "it is said once");
        page.keys(crate::browser::key::ESCAPE).await;
        seal(&page).await;
        assert_eq!(page.path().await, format!("{piece}/sheet"));
        page.wait_text(".paper", "140 mm").await;
        page.click_words("main a", "Side by side").await;
        page.wait_text(".paper", "side by side").await;
        let side = page.text(".paper").await;
        assert!(side.contains("130 mm") && side.contains("140 mm"), "{side}");
        assert!(side.contains("more than the examiner"), "{side}");
        page.click_words("main a", "The maker’s own sheet").await;
        page.wait_text(".paper", "Own, by the maker").await;
        page.wait_text(".paper", "130 mm").await;
        page.click_words("main a", "The examiner’s sheet").await;
        page.wait_text(".paper", "140 mm").await;
    });
}

#[test]
fn an_apprentice_checks_alone_on_a_phone() {
    in_browser(|page| async move {
        page.resize(390, 844, true).await;
        page.go("/").await;
        page.tap("main a[href='/pieces/new']").await;
        page.tap("#name").await;
        page.keys(MAKER).await;
        page.tap(&format!(
            "[name=rubric][value='{}']",
            digest("apprentice-self-check")
        ))
        .await;
        page.tap("[name=sitting][value=self-check]").await;
        page.wait_text("form", "No examiner is asked for").await;
        assert!(!page.shows("#examiner").await);
        fits_across(&page, "the form of a self-check").await;
        page.tap("form .button[data-kind=primary]").await;
        page.wait_for(".sheet .row").await;
        page.wait_text(".page-head", "own marking").await;
        page.tap("#r-width").await;
        for digit in ["1", "3", "2"] {
            page.tap(&format!(".key[data-key='{digit}']")).await;
        }
        page.wait_text("#width > .marks", "3 of 3").await;
        page.tap("#outline .level").await;
        page.wait_text("#outline > .marks", "5 of 5").await;
        page.tap(".dock .button[data-kind=primary]").await;
        page.wait_text("dialog", &format!("Sealed by {MAKER}"))
            .await;
        page.tap("dialog .button[data-kind=primary]").await;
        page.wait_text(".paper", "Own, by the maker").await;
        fits_across(&page, "the sheet of a self-check").await;
        page.tap("main a[href*='/again']").await;
        page.wait_text("h1", "Mark it again").await;
        fits_across(&page, "the form for one more marking").await;
        assert!(page.shows("#examiner").await, "an examiner is asked for");
        page.go("/").await;
        page.wait_text(".piece .marks", "8").await;
    });
}

#[test]
fn the_maker_marks_by_a_self_check_beside_the_examiner() {
    in_browser(|page| async move {
        page.go("/pieces/new").await;
        page.click("[name=who][value=new]").await;
        page.fill("#name", MAKER).await;
        page.click("[name=marked-by][value=both]").await;
        assert!(
            !page.shows("[name=own-rubric]").await,
            "a bar shoe has none"
        );
        let front = digest("open-heeled-front-shoe");
        page.click(&format!("[name=rubric][value='{front}']")).await;
        let check = digest("apprentice-self-check");
        page.click(&format!("[name=own-rubric][value='{check}']"))
            .await;
        page.fill("#examiner", EXAMINER).await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_text(".choices", "Apprentice self-check").await;
        page.click_words(".choice", "The maker").await;
        page.wait_text(".page-head", "by Apprentice self-check")
            .await;
        page.wait_text("#outline", "Does your outline run?").await;
    });
}

#[test]
fn a_sealed_piece_is_marked_again_and_the_way_out_is_open() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        mark_whole_shoe(&page).await;
        seal(&page).await;
        page.click_words("main a", "Mark it yourself").await;
        page.wait_text("main", "stays unseen from now").await;
        page.wait_text("main", "does not mark blind").await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_text(".page-head", "own marking").await;
        page.wait_saved().await;
        page.go(&format!("{piece}/sheet")).await;
        page.wait_text("h1", "Not to be seen yet").await;
        assert!(!page.shows(".paper").await);
        page.click_words("main button", "Throw the open marking away")
            .await;
        page.click_words("dialog .button", "Keep it").await;
        assert!(!page.shows(".paper").await);
        page.click_words("main button", "Throw the open marking away")
            .await;
        page.click_words("dialog .button", "Throw it away").await;
        page.wait_for(".paper").await;
        page.wait_saved().await;
        page.go("/").await;
        page.wait_text(".piece .marks", crate::bar_shoe::TOTAL)
            .await;
    });
}

#[test]
fn who_was_interrupted_is_led_to_their_own_marking() {
    in_browser(|page| async move {
        let piece = start_both(&page, MAKER).await;
        open_own(&page, &piece).await;
        let own = page.path().await;
        enter(&page, "width", "130").await;
        page.reload().await;
        page.wait_text(".notices", "own marking").await;
        assert!(!page.shows(".notices a").await, "it is open already");
        page.go(&piece).await;
        page.wait_text("h1", "Who marks now?").await;
        page.wait_text(".notices", "own marking").await;
        page.click_words(".notices a", "Go on marking").await;
        page.wait_for("#r-width").await;
        assert_eq!(page.path().await, own);
    });
}
