//! What is known of a learner: written, kept, and where it shows.

use crate::browser::{Page, key};
use crate::harness::{in_browser, shots};
use crate::pages::Sight;
use crate::steps::{fits_across, held};

/// Adds somebody and opens the form.
async fn opened(page: &Page, name: &str) {
    page.go("/learners").await;
    page.fill("#new", name).await;
    page.keys(key::ENTER).await;
    page.click_words(".pieces a", name).await;
    page.wait_text("h1", name).await;
    let expanded = "document.querySelector('#details-button').ariaExpanded";
    assert_eq!(page.look(expanded).await, "false");
    page.click("#details-button").await;
    page.wait(
        "the name to have the focus",
        "document.activeElement.id === 'name'",
    )
    .await;
    assert_eq!(page.look(expanded).await, "true");
}

async fn keep(page: &Page) {
    page.click_words("#details .button", "Keep these details")
        .await;
}

/// Every field of the form and what it holds.
async fn form(page: &Page) -> Vec<String> {
    let mut all = Vec::new();
    for field in [
        "#name",
        "#number",
        "#outside-by-0",
        "#outside-number-0",
        "#outside-by-1",
        "#outside-number-1",
        "#employer",
        "#started",
        "#planned-end",
        "[name=status]:checked",
    ] {
        all.push(held(page, field).await);
    }
    all
}

const WHOLE: [&str; 10] = [
    "Bea Coe-Marsh",
    "17",
    "Wexcombe Guild",
    "WG 2024/031",
    "Register",
    "0815",
    "Oakes Forge",
    "2024-09-02",
    "2027-08-31",
    "paused",
];

async fn fill_all(page: &Page) {
    page.fill("#name", WHOLE[0]).await;
    page.fill("#number", WHOLE[1]).await;
    for (at, words) in [&WHOLE[2..4], &WHOLE[4..6]].iter().enumerate() {
        page.tab_to("#outside-add").await;
        page.keys(key::ENTER).await;
        let by = format!("outside-by-{at}");
        page.wait(
            "the new row",
            &format!("document.activeElement.id === '{by}'"),
        )
        .await;
        page.keys(words[0]).await;
        page.keys(key::TAB).await;
        page.keys(words[1]).await;
    }
    page.fill("#employer", WHOLE[6]).await;
    page.set_date("#started", WHOLE[7]).await;
    page.set_date("#planned-end", WHOLE[8]).await;
    page.click("[name=status][value=paused]").await;
}

#[test]
fn every_detail_is_kept() {
    in_browser(|page| async move {
        opened(&page, "Bea Coe").await;
        fill_all(&page).await;
        keep(&page).await;
        page.wait_text("h1", "Bea Coe-Marsh (17)").await;
        page.wait(
            "the button to have the focus",
            "document.activeElement.id === 'details-button'",
        )
        .await;
        page.wait_saved().await;
        page.reload().await;
        for fact in [
            "Status paused",
            "Employer Oakes Forge",
            "Started 2 September 2024",
            "Planned end 31 August 2027",
            "Wexcombe Guild WG 2024/031",
            "Register 0815",
        ] {
            page.wait_text(".learner-facts div", fact).await;
        }
        page.click("#details-button").await;
        page.wait_for("#outside-number-1").await;
        assert_eq!(form(&page).await, WHOLE);

        // A row goes, and the focus with what comes in its place.
        page.focus("#outside-number-0").await;
        page.tab_to("[aria-label='Remove: outside number 1']").await;
        page.keys(key::ENTER).await;
        page.wait(
            "one row to be left",
            "!document.querySelector('#outside-by-1') && document.activeElement.id === 'outside-by-0'",
        )
        .await;
        assert_eq!(held(&page, "#outside-by-0").await, "Register");
        page.tab_to("[aria-label='Remove: outside number 1']").await;
        page.keys(key::SPACE).await;
        page.wait(
            "the way to a new row",
            "document.activeElement.id === 'outside-add'",
        )
        .await;
        page.click_words("#details .button", "Leave them").await;
        page.click("#details-button").await;
        page.wait_for("#outside-number-1").await;
        assert_eq!(form(&page).await, WHOLE, "as they were");
    });
}

#[test]
fn a_wrong_order_of_dates_is_told_and_nothing_is_lost() {
    in_browser(|page| async move {
        opened(&page, "Bea Coe").await;
        fill_all(&page).await;
        page.set_date("#planned-end", "2024-09-01").await;
        keep(&page).await;
        page.wait_text("#planned-end-error", "lies before the start")
            .await;
        page.wait(
            "the field to have the focus",
            "document.activeElement.id === 'planned-end'",
        )
        .await;
        let described = "document.activeElement.getAttribute('aria-describedby')";
        assert_eq!(page.look(described).await, "planned-end-error");
        let mut wrong = WHOLE;
        wrong[8] = "2024-09-01";
        assert_eq!(form(&page).await, wrong);
        page.wait_text("h1", "Bea Coe").await;
        page.set_date("#planned-end", WHOLE[8]).await;
        keep(&page).await;
        page.wait_text("h1", "Bea Coe-Marsh (17)").await;
    });
}

#[test]
fn who_has_left_stands_apart_and_two_tabs_keep_what_both_changed() {
    in_browser(|page| async move {
        opened(&page, "Bea Coe").await;
        let one = page.tab_here().await;
        let learner = page.path().await;
        page.fill("#employer", "Oakes Forge").await;
        let two = page.open_tab(&learner).await;
        page.click("#details-button").await;
        page.click("[name=status][value=left]").await;
        keep(&page).await;
        page.wait_text(".learner-facts", "left").await;
        page.wait_saved().await;
        page.to_tab(&one).await;
        page.wait_text(".learner-facts", "left").await;
        keep(&page).await;
        page.wait_saved().await;
        page.to_tab(&two).await;
        for fact in ["Status left", "Employer Oakes Forge"] {
            page.wait_text(".learner-facts div", fact).await;
        }
        page.go("/learners").await;
        page.wait_text("section[aria-labelledby=over]", "Bea Coe")
            .await;
        page.wait_text("section[aria-labelledby=over]", "left, no pieces")
            .await;
        assert!(!page.shows("#all").await, "nobody else is here");
    });
}

/// The pictures of these screens alone, for people to look at.
#[test]
fn details_fit_their_window_and_are_pictured() {
    in_browser(|page| async move {
        let folder = shots("details");
        opened(&page, "Bea Coe").await;
        page.click("#details-button").await;
        for sight in [
            Sight::LearnerDetails,
            Sight::LearnerFacts,
            Sight::LearnersOver,
        ] {
            page.resize(1280, 900, false).await;
            sight.show(&page).await;
            for (width, height, is_phone) in [
                (320, 640, true),
                (390, 844, true),
                (820, 1180, true),
                (1440, 900, false),
            ] {
                page.resize(width, height, is_phone).await;
                fits_across(&page, &format!("{} at {width}", sight.name())).await;
                for scheme in ["light", "dark"] {
                    page.prefer(scheme).await;
                    let name = format!("{}-{width}-{scheme}.png", sight.name());
                    page.whole_picture(&folder.join(name)).await;
                }
            }
        }
    });
}
