//! The cohort: its matrix by keyboard, and figures that come behind it.

use crate::access::violations;
use crate::harness::in_browser;
use crate::invented::look_round;
use crate::print::printed;
use crate::tables::part_of;

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
        for (keys, held, at) in [
            ("\u{e015}", None, "cohort-1-2"),
            ("\u{e014}", None, "cohort-1-3"),
            ("\u{e011}", None, "cohort-1-0"),
            ("\u{e015}\u{e015}", None, "cohort-3-0"),
            ("\u{e011}", Some('\u{e009}'), "cohort-0-0"),
        ] {
            match held {
                None => page.keys(keys).await,
                Some(held) => page.keys_with(&[held], keys).await,
            }
            page.wait(at, &format!("document.activeElement.id === '{at}'"))
                .await;
        }
        assert_eq!(page.look(stops).await, "1", "still one tab stop");
        // What five or more learners show comes from the worker.
        page.wait_text(".paper", "How each learner stands").await;
        page.wait_text(".paper", "Pass rates").await;
        let none = Vec::<String>::new();
        assert_eq!(violations(&page, "cohort").await, none);
        page.resize(390, 844, true).await;
        assert_eq!(violations(&page, "cohort on a phone").await, none);
    });
}

#[test]
fn a_cohort_leaves_as_a_workbook_and_on_paper() {
    in_browser(|page| async move {
        page.go("/").await;
        look_round(&page).await;
        page.go("/cohort").await;
        page.wait_text(".paper", "How each learner stands").await;
        page.click_words("main button", "Save as table").await;
        page.wait_for("dialog[open] #make-cohort").await;
        page.click("#make-cohort").await;
        page.wait_text("#cohort-says", ".xlsx").await;
        let (_, bytes) = page.download(".xlsx").await;
        let texts = part_of(&bytes, "xl/sharedStrings.xml");
        for said in ["Bram Kuiperdal", "Pass rates", "Upper quarter (%)"] {
            let is_sheet = part_of(&bytes, "xl/workbook.xml").contains(said);
            assert!(texts.contains(said) || is_sheet, "{said}: {texts}");
        }
        for sheet in 1..=3 {
            let cells = part_of(&bytes, &format!("xl/worksheets/sheet{sheet}.xml"));
            assert!(!cells.contains("<f>") && !cells.contains("<f "), "{cells}");
        }
        page.go("/cohort").await;
        page.wait_for(".cohort tbody tr[aria-rowindex='2']").await;
        page.click_words("main .button", "Page to print").await;
        page.wait_text(".paper", "Learners by criterion").await;
        assert_eq!(
            violations(&page, "cohort to print").await,
            Vec::<String>::new()
        );
        // A4 and US Letter, in inches.
        for (width, height) in [(8.27, 11.69), (8.5, 11.0)] {
            assert!(printed(&page, width, height).await.starts_with(b"%PDF"));
        }
    });
}

#[test]
fn two_groups_are_compared_over_a_span_and_the_address_keeps_what_is_asked() {
    in_browser(|page| async move {
        page.go("/").await;
        look_round(&page).await;
        page.go("/cohort").await;
        page.wait_text(".paper", "The rubric as a test").await;
        page.wait_text(".paper", "Pass or not, made again").await;
        // Two years that began with five learners and more, each with a mean.
        let years = "[...document.querySelectorAll('#cohort-group option')]
            .map(one => one.value).filter(one => /^[0-9]+$/.test(one)).sort().reverse().join()";
        let years = page.look(years).await;
        let years: Vec<&str> = years.split(',').collect();
        page.choose("#cohort-group", years[0]).await;
        page.choose("#cohort-other", years[1]).await;
        page.wait_text(".paper", "in the mean, those of Began in")
            .await;
        page.choose("#cohort-group", "all").await;
        page.choose("#cohort-other", "in-training").await;
        page.wait_text(".paper", "Everybody beside Everybody in training")
            .await;
        page.wait_text(".paper", "are in both groups").await;
        let none = Vec::<String>::new();
        assert_eq!(violations(&page, "cohorts compared").await, none);
        page.set_date("#cohort-from", "2026-06-01").await;
        page.wait_text(".page-head", "made from 1 Jun 2026 on")
            .await;
        page.set_date("#cohort-to", "2026-05-01").await;
        page.wait_text(".cohort-choices", "The last day lies before the first")
            .await;
        page.set_date("#cohort-to", "2026-11-30").await;
        let kept = "location.search.includes('from=2026-06-01&to=2026-11-30&other=in-training')";
        page.wait("the address to keep it", kept).await;
        page.reload().await;
        page.wait_text(".paper", "Everybody beside Everybody in training")
            .await;
        assert_eq!(
            page.look("document.querySelector('#cohort-to').value")
                .await,
            "2026-11-30"
        );
    });
}
