//! Two tabs on one draft: nothing is lost, and each is told.

use crate::harness::in_browser;
use crate::steps::{MAKER, enter, held, start_piece, wait_marks};

#[test]
fn what_is_typed_in_two_tabs_is_kept_in_both() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        let one = page.tab_here().await;
        let two = page.open_tab(&piece).await;
        page.focus("#r-length").await;
        page.keys("133.4").await;
        page.to_tab(&one).await;
        page.focus("#r-width").await;
        page.keys("130").await;
        page.to_tab(&two).await;
        page.click("#weld .tile").await;
        page.to_tab(&one).await;
        page.click("#toe-bend .tile").await;
        for tab in [&one, &two] {
            page.to_tab(tab).await;
            for (entry, marks) in [
                ("width", "4"),
                ("length", "4"),
                ("weld", "7"),
                ("toe-bend", "4"),
            ] {
                wait_marks(&page, entry, marks).await;
            }
            assert_eq!(held(&page, "#r-width").await, "130");
            assert_eq!(held(&page, "#r-length").await, "133.4");
            page.wait_text(".notices", "changed in another tab").await;
            page.wait_saved().await;
        }
        page.reload().await;
        for (entry, marks) in [
            ("width", "4"),
            ("length", "4"),
            ("weld", "7"),
            ("toe-bend", "4"),
        ] {
            wait_marks(&page, entry, marks).await;
        }
    });
}

#[test]
fn the_last_word_on_one_field_counts_in_both_tabs() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        let one = page.tab_here().await;
        enter(&page, "width", "130").await;
        let two = page.open_tab(&piece).await;
        assert_eq!(held(&page, "#r-width").await, "130");
        enter(&page, "width", "140").await;
        page.to_tab(&one).await;
        page.wait(
            "the other tab's word",
            "document.querySelector('#r-width').value === '140'",
        )
        .await;
        page.wait_text(".notices", "changed in another tab").await;
        enter(&page, "width", "128").await;
        page.to_tab(&two).await;
        page.wait(
            "the last word",
            "document.querySelector('#r-width').value === '128'",
        )
        .await;
        wait_marks(&page, "width", "2").await;
    });
}

#[test]
fn undo_leaves_the_other_tab_s_entries() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        let one = page.tab_here().await;
        enter(&page, "width", "130").await;
        let two = page.open_tab(&piece).await;
        enter(&page, "length", "133.4").await;
        page.to_tab(&one).await;
        wait_marks(&page, "length", "4").await;
        page.click_words(".tools button", "Undo").await;
        wait_marks(&page, "width", "–").await;
        assert_eq!(held(&page, "#r-length").await, "133.4");
        page.wait_saved().await;
        page.to_tab(&two).await;
        page.wait(
            "width to go here too",
            "document.querySelector('#r-width').value === ''",
        )
        .await;
        assert_eq!(held(&page, "#r-length").await, "133.4");
    });
}

/// Keystrokes in one field are one step, unless another tab wrote between them: then
/// taking the later ones back must not take back what the other tab wrote.
#[test]
fn undo_leaves_what_another_tab_entered_between_two_keys() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        let one = page.tab_here().await;
        page.focus("#r-width").await;
        page.keys("13").await;
        page.wait_saved().await;
        let two = page.open_tab(&piece).await;
        enter(&page, "length", "133.4").await;
        page.to_tab(&one).await;
        wait_marks(&page, "length", "4").await;
        page.keys("0").await;
        wait_marks(&page, "width", "4").await;
        for left in ["13", ""] {
            page.click_words(".tools button", "Undo").await;
            page.wait(
                "the step to be taken back",
                &format!("document.querySelector('#r-width').value === '{left}'"),
            )
            .await;
            assert_eq!(held(&page, "#r-length").await, "133.4");
        }
        page.wait_saved().await;
        page.to_tab(&two).await;
        assert_eq!(held(&page, "#r-length").await, "133.4");
    });
}

#[test]
fn a_learner_renamed_elsewhere_leaves_the_open_sheet_as_it_is() {
    in_browser(|page| async move {
        start_piece(&page).await;
        let one = page.tab_here().await;
        page.click("#weld .more").await;
        page.focus("#r-width").await;
        page.keys("130").await;
        page.wait_saved().await;
        page.open_tab("/learners").await;
        page.click_words("main a", MAKER).await;
        page.click("#details-button").await;
        page.fill("#name", "Asa Marsh-Reed").await;
        page.click_words("form .button", "Keep these details").await;
        page.wait_text("h1", "Asa Marsh-Reed").await;
        page.wait_saved().await;
        page.to_tab(&one).await;
        page.wait_text("h1", "Asa Marsh-Reed").await;
        page.wait(
            "the tab's title",
            "document.title.includes('Asa Marsh-Reed')",
        )
        .await;
        assert_eq!(page.look("document.activeElement.id").await, "r-width");
        assert!(page.shows("#c-weld").await, "the panel stays open");
        page.click_words(".tools button", "Undo").await;
        wait_marks(&page, "width", "–").await;
    });
}
