//! Milestones of a learner: written, shown on charts, changed, taken back and undone.

use serde_json::json;

use crate::access::violations;
use crate::browser::key;
use crate::harness::in_browser;
use crate::learner::invented_learner;
use crate::steps::fits_across;

#[test]
fn a_milestone_is_added_shown_on_charts_taken_back_and_undone() {
    in_browser(|page| async move {
        invented_learner(&page, "Bram Kuiperdal").await;
        page.wait_text(".milestones", "Out six weeks, wrist").await;
        let rows = "document.querySelectorAll('.milestones > li').length";
        let flags = "document.querySelectorAll('[aria-labelledby=over-time] .flag-words').length";
        let before = page.value(flags).await;
        assert_ne!(before, json!(0));

        // An empty text is refused beside its field.
        page.click_words(".milestone-form .button", "Add").await;
        page.wait_for("#milestone-text-error").await;
        page.fill("#milestone-text", "First bar that met").await;
        page.keys(key::ENTER).await;
        page.wait_text(".milestones", "First bar that met").await;
        assert_eq!(page.value(rows).await, json!(3));

        page.click("#milestone-undo").await;
        page.wait("two rows", &format!("{rows} === 2")).await;

        page.click_words(".milestones .button", "Take back").await;
        page.wait("one row", &format!("{rows} === 1")).await;
        page.click("#milestone-undo").await;
        page.wait("two rows", &format!("{rows} === 2")).await;

        page.click_words(".milestones .button", "Edit").await;
        page.fill("#milestone-edit-text", "Out seven weeks, wrist")
            .await;
        page.keys(key::ENTER).await;
        page.wait_text(".milestones", "Out seven weeks, wrist")
            .await;
        assert_eq!(page.value(flags).await, before);
        fits_across(&page, "a learner with milestones").await;
        assert_eq!(violations(&page, "milestones").await, Vec::<String>::new());

        // A small chart tells what stands at the point that is tapped.
        page.click(".small-charts .read-surface").await;
        page.wait_text(".small-charts .read-words", " of ").await;
    });
}
