//! A learner over time: charts with their numbers, another rubric by its link, one page
//! of paper.

use serde_json::json;

use crate::access::violations;
use crate::browser::Page;
use crate::harness::in_browser;
use crate::invented::look_round;
use crate::print::printed;

/// Opens the invented school on an empty bench, and goes to this learner.
pub(crate) async fn invented_learner(page: &Page, name: &str) {
    page.go("/").await;
    look_round(page).await;
    page.go("/learners").await;
    page.click_words(".piece a", name).await;
    page.wait_for(".practice").await;
}

/// Unfolds the numbers behind every chart.
pub(crate) async fn unfold_numbers(page: &Page) {
    page.value("[...document.querySelectorAll('.numbers-behind')].every(one => one.open = true)")
        .await;
}

async fn count(page: &Page, selector: &str) -> u64 {
    let script = format!("document.querySelectorAll('{selector}').length");
    page.value(&script).await.as_u64().unwrap()
}

/// How many pages the browser prints on paper of this size, in inches.
async fn printed_pages(page: &Page, width: f64, height: f64) -> usize {
    let bytes = printed(page, width, height).await;
    // Chromium writes each page as an object of its own, unpacked.
    let text = String::from_utf8_lossy(&bytes);
    let pages = text.split("/Type /Page").skip(1);
    pages.filter(|rest| !rest.starts_with('s')).count()
}

#[test]
fn every_chart_has_a_name_and_its_numbers() {
    in_browser(|page| async move {
        invented_learner(&page, "Bram Kuiperdal").await;
        for part in [
            "over-time",
            "by-step",
            "heats-by-step",
            "each-criterion",
            "tally-1",
            "tally-2",
        ] {
            assert!(page.shows(&format!("#{part}")).await, "{part}");
        }
        // The pieces that stand out are a chart that comes from the worker.
        page.wait_for("#real-change").await;
        unfold_numbers(&page).await;
        let charts = count(&page, ".chart svg[aria-labelledby]").await;
        assert!(charts >= 4, "{charts}");
        assert_eq!(count(&page, ".chart .table").await, charts);
        // Each chart can be saved, and the small ones by section.
        assert_eq!(count(&page, ".chart .save-drawing").await, charts);
        let sections = count(&page, "[aria-labelledby=each-criterion] h3").await;
        let saved = count(&page, "[aria-labelledby=each-criterion] .save-drawing").await;
        assert_eq!(saved, sections);
        // Each named by a title that is there, each with a description.
        let nameless = page
            .value(
                "[...document.querySelectorAll('main svg')].filter(one => {
                    const text = name => document.getElementById(one.getAttribute(name) || '')?.textContent || '';
                    // The ring around what is read off says nothing of its own.
                    return !one.closest('[aria-hidden]') && (!text('aria-labelledby') || !text('aria-describedby'));
                }).map(one => one.outerHTML.slice(0, 200))",
            )
            .await;
        assert_eq!(nameless, json!([]));
    });
}

#[test]
fn another_rubric_is_a_link_away_and_has_an_address() {
    in_browser(|page| async move {
        invented_learner(&page, "Bram Kuiperdal").await;
        let first = page.text("#over-time").await;
        page.click_words(".jump a:not([aria-current])", "").await;
        page.wait(
            "another course",
            &format!("document.querySelector('#over-time').innerText !== '{first}'"),
        )
        .await;
        let second = page.text("#over-time").await;
        page.reload().await;
        page.wait_text("#over-time", &second).await;
        page.click_words(".page-head .button", "Page to print")
            .await;
        page.wait_text(".paper", &second).await;
    });
}

/// Invented learners with much to tell; with the sign of the invented school.
#[test]
fn the_page_to_print_is_one_page() {
    in_browser(|page| async move {
        invented_learner(&page, "Bram Kuiperdal").await;
        // The last one marked own pieces too, which is one more chart.
        for name in ["Bram Kuiperdal", "Sione Fatulele", "Nell Ashgrove"] {
            page.go("/learners").await;
            page.click_words(".piece a", name).await;
            page.wait_for(".practice").await;
            page.click_words(".page-head .button", "Page to print")
                .await;
            page.wait_for(".one-page .paper").await;
            for (paper, width, height) in [("A4", 8.27, 11.69), ("Letter", 8.5, 11.0)] {
                let pages = printed_pages(&page, width, height).await;
                assert_eq!(pages, 1, "{name} on {paper}");
            }
        }
    });
}

/// What the worker has to say comes behind the page; a point is read off by keys and by a
/// tap, days narrow what is told of.
#[test]
fn change_is_told_points_are_read_off_and_days_chosen() {
    in_browser(|page| async move {
        invented_learner(&page, "Bram Kuiperdal").await;
        page.wait_text("#ready", "Readiness: ").await;
        page.wait_for("#real-change").await;
        let section = "[aria-labelledby=over-time]";
        let words = format!("{section} .read-words");
        page.wait_text(&words, "Tap a point").await;
        page.focus(&format!("{section} .read-step")).await;
        // The last is what the next piece comes to; the one before it is a piece.
        page.keys("\u{e012}").await;
        page.wait_text(&words, " of 100 ").await;
        let by_key = page.text(&words).await;
        page.keys("\u{e011}").await;
        page.wait(
            "the first piece",
            &format!("document.querySelector('{words}').innerText !== '{by_key}'"),
        )
        .await;
        page.tap(&format!("{section} .read-surface")).await;
        page.wait_for(&format!("{section} .ring")).await;

        page.click_words("main summary", "Days to tell of").await;
        page.set_date("#to", "2001-01-31").await;
        page.click_words("main form .button", "Show").await;
        page.wait_text("main .notice", "made up to 31 Jan 2001; none was")
            .await;
        assert!(!page.shows("#over-time").await);
        assert!(page.look("location.search").await.contains("to=2001-01-31"));
        page.click_words("main form .button", "All days").await;
        page.wait_for("#over-time").await;
        page.wait_for("#real-change").await;
        let none = Vec::<String>::new();
        assert_eq!(violations(&page, "a learner").await, none);
        page.resize(390, 844, true).await;
        assert_eq!(violations(&page, "a learner on a phone").await, none);
    });
}
