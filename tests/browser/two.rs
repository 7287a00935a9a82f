//! A piece that two examiners mark, each unseen by the other, compare and agree on.

use crate::browser::Page;
use crate::harness::in_browser;
use crate::own::seal_unseen;
use crate::steps::{EXAMINER, MAKER, enter, seal};

/// The second examiner; invented.
const SECOND: &str = "M. Harrow";

const RUBRIC: &str = r#"schema = 1
id = "for-two"
version = "1"
title = "Shoe for two examiners"
examiners = 2

[piece]
kind = "open-heeled"
stock = { width = "3/4 in", thickness = "3/8 in" }
finished = { width = "120 mm", length = "130 mm" }
heels = { gap = "60 mm" }

[[instruments]]
id = "caliper"
name = "Caliper"
half_width = "0.1 mm"
repeatability = "0.1 mm"
source = "common practice, no source"

[award]
pass = "60 %"

[[sections]]
id = "all"
name = "All"

[[sections.criteria]]
id = "width"
name = "Finished width"
kind = "toleranced"
instrument = "caliper"
target = "piece.finished.width"
bands = [{ within = "1 mm", marks = 5 }, { within = "3 mm", marks = 3 }]

[[sections.criteria]]
id = "outline"
name = "Outline"
kind = "judged"
levels = [
  { id = "even", name = "Even", text = "both branches alike", marks = 5 },
  { id = "near", name = "Nearly even", text = "one branch fuller", marks = 3 },
  { id = "uneven", name = "Uneven", text = "seen from afar", marks = 1 },
]

[[sections.criteria]]
id = "finish"
name = "Finish"
kind = "judged"
numbers = { least = 0, most = 5 }
"#;

/// Keeps the rubric for two examiners.
async fn keep_rubric(page: &Page) {
    page.go("/rubrics").await;
    page.click_words(".page-head button", "Begin with a small one")
        .await;
    page.wait_text("#rubric-state", "Ready").await;
    page.click_words(".work-tools .tile", "Text").await;
    page.fill("#rubric-text", RUBRIC).await;
    page.wait_text("#rubric-state", "Ready").await;
    page.click_words(".page-head button", "Keep it to mark by")
        .await;
    page.wait_text("h1", "Shoe for two examiners").await;
    page.wait_saved().await;
}

/// Fills the form of a piece for two examiners, as far as its names.
pub(crate) async fn ask_two(page: &Page, maker: &str) {
    page.go("/pieces/new").await;
    page.click("[name=who][value=new]").await;
    page.fill("#name", maker).await;
    page.click("[name=marked-by][value=two]").await;
    page.fill("#examiner", EXAMINER).await;
    page.wait_for("#second-examiner").await;
}

/// Starts a piece by the rubric for two; gives its address.
pub(crate) async fn start_two(page: &Page, maker: &str) -> String {
    keep_rubric(page).await;
    ask_two(page, maker).await;
    page.click_words("[class=tile]", "Shoe for two examiners")
        .await;
    page.fill("#second-examiner", SECOND).await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_text("h1", "Who marks now?").await;
    page.path().await
}

/// Marks the piece as one of its examiners; the sheet stays open.
async fn mark_as(page: &Page, examiner: &str, width: &str, level: &str) {
    page.click_words(".choice", &format!("Examiner: {examiner}"))
        .await;
    page.wait_text(".page-head", examiner).await;
    enter(page, "width", width).await;
    page.click_words("#outline .tile", level).await;
    page.click_words("#finish .tile", "4").await;
    page.wait_saved().await;
}

/// Both mark and seal; the sheet of one of them is open then.
pub(crate) async fn mark_by_both(page: &Page) {
    mark_as(page, EXAMINER, "120.2", "Nearly even").await;
    seal_unseen(page).await;
    mark_as(page, SECOND, "121.4", "Uneven").await;
    seal(page).await;
}

#[test]
fn two_examiners_mark_unseen_compare_and_agree() {
    in_browser(|page| async move {
        let piece = start_two(&page, MAKER).await;
        mark_as(&page, EXAMINER, "120.2", "Nearly even").await;
        seal_unseen(&page).await;
        for path in ["sheet", "examiners", "agree"] {
            page.go(&format!("{piece}/{path}")).await;
            page.wait_text("h1", "Not to be seen yet").await;
            assert!(!page.shows(".paper").await, "{path}");
        }
        mark_as(&page, SECOND, "121.4", "Uneven").await;
        let open = page.text("main").await;
        assert!(!open.contains("120.2"), "{open}");
        seal(&page).await;
        page.wait_text(".paper", "no agreed marking").await;
        page.go("/").await;
        page.wait_text(".piece", "incomplete: two examiners have marked")
            .await;
        page.click_words(".piece .next a", "Agree on one marking")
            .await;
        page.wait_text("main", "settle each criterion").await;

        page.click_words("main a", "Examiners side by side").await;
        page.wait_text(".paper", "side by side").await;
        let side = page.text(".paper").await;
        assert!(
            side.contains("120.2 mm") && side.contains("121.4 mm"),
            "{side}"
        );
        assert!(side.contains("measure again"), "{side}");
        assert!(side.contains("1 level apart"), "{side}");
        page.click_words("main a", "Agree on one marking").await;

        page.fill("#examiner", EXAMINER).await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_text("main", "0 of 2 settled").await;
        page.click_words("#agree-0 .tile", &format!("3 {SECOND}"))
            .await;
        page.wait_text("#agree-0", "give a reason").await;
        page.fill("#agree-0-why", "measured again: 121.3").await;
        page.wait_text("main", "1 of 2 settled").await;
        page.click_words("#agree-1 .tile", "Other").await;
        page.fill("#agree-1-marks", "7").await;
        page.wait_text("#agree-1", "use 0 to 5").await;
        page.fill("#agree-1-marks", "2").await;
        page.fill("#agree-1-why", "held side by side").await;
        page.wait_text("main", "2 of 2 settled").await;
        page.wait_saved().await;
        page.reload().await;
        page.wait_text("main", "2 of 2 settled").await;
        page.click_words("main button", "Seal the agreed marking")
            .await;
        page.click("dialog[open] .button[data-kind=primary]").await;
        page.wait_text(".paper", "Agreed sheet").await;
        let sheet = page.text(".paper").await;
        for said in [
            "measured again: 121.3",
            "held side by side",
            EXAMINER,
            SECOND,
            "Digest (SHA-256)",
            "Pass",
        ] {
            assert!(sheet.contains(said), "{said} is not in {sheet}");
        }
        page.go(&format!("{piece}/agree")).await;
        page.wait_text("main", "The agreed marking is sealed").await;
        page.go("/").await;
        page.wait_text(".piece", "pass").await;
    });
}
