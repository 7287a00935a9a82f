//! The cohort: its matrix by keyboard, and figures that come behind it.

use crate::access::violations;
use crate::harness::in_browser;
use crate::invented::look_round;

#[test]
fn the_matrix_is_walked_by_keys_sorted_and_told_in_figures() {
    in_browser(|page| async move {
        page.go("/").await;
        look_round(&page).await;
        page.go("/learners").await;
        page.click_words("main .button", "Cohort").await;
        page.wait_for(".cohort tbody tr[aria-rowindex='2']").await;
        let stops = "document.querySelectorAll('.cohort [tabindex=\"0\"]').length";
        assert_eq!(page.look(stops).await, "1", "one tab stop");
        page.click("#cohort-0-2").await;
        let sorted = "document.querySelector('.cohort [aria-sort=ascending]').textContent";
        assert_eq!(page.look(sorted).await.trim(), "All marks");
        // What five or more learners show comes from the worker.
        page.wait_text(".paper", "How each learner stands").await;
        page.wait_text(".paper", "Pass rates").await;
        let none = Vec::<String>::new();
        assert_eq!(violations(&page, "cohort").await, none);
        page.resize(390, 844, true).await;
        assert_eq!(violations(&page, "cohort on a phone").await, none);
    });
}
