//! A rubric of one's own: from the blank one by forms and text to a marked piece.

use evenshod::rubric::shipped;
use serde_json::json;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::steps::{EXAMINER, enter, fits_across, held, start_piece};

/// Opens a part of the forms.
pub(crate) async fn open_part(page: &Page, id: &str) {
    page.wait_for(&format!("#{id}")).await;
    page.click(&format!("#{id} > summary")).await;
    page.wait_for(&format!("#{id} .form-inside")).await;
}

async fn begin(page: &Page) {
    page.go("/rubrics").await;
    page.click_words(".page-head button", "Begin with a small one")
        .await;
    page.wait_for(".forms").await;
}

#[test]
fn a_rubric_is_made_by_forms_and_text_and_marks_a_piece() {
    in_browser(|page| async move {
        begin(&page).await;
        page.wait_text("#rubric-state", "Ready: 4 marks in all.")
            .await;
        open_part(&page, "part-head").await;
        page.fill("#f-title", "Hook of a gate").await;
        page.fill("#f-id", "gate-hook").await;
        open_part(&page, "part-sections-0").await;
        page.click_words("#part-sections-0 button", "Add a criterion by eye")
            .await;
        open_part(&page, "part-sections-0-criteria-1").await;
        page.fill("#f-sections-0-criteria-1-name", "Point").await;
        for _ in 0..2 {
            page.click_words("#part-sections-0-criteria-1 button", "Add a level")
                .await;
        }
        page.fill("#f-sections-0-criteria-1-levels-0-name", "Sharp")
            .await;
        page.fill("#f-sections-0-criteria-1-levels-0-marks", "6")
            .await;
        page.fill("#f-sections-0-criteria-1-levels-1-name", "Blunt")
            .await;
        page.wait_text("#rubric-state", "Ready: 10 marks in all.")
            .await;

        // As text, a comment of one's own; it outlives the forms.
        page.click_words(".work-tools .tile", "Text").await;
        let text = held(&page, "#rubric-text").await;
        let with = text.replace(
            "name = \"Blunt\"",
            "name = \"Blunt\" # to be seen from a step away",
        );
        page.fill("#rubric-text", &with).await;
        page.wait_saved().await;
        page.click_words(".work-tools .tile", "Forms").await;
        page.fill("#f-sections-0-criteria-1-levels-1-name", "Dull")
            .await;
        page.wait_saved().await;
        page.click_words(".work-tools .tile", "Text").await;
        let text = held(&page, "#rubric-text").await;
        assert!(
            text.contains("name = \"Dull\" # to be seen from a step away"),
            "{text}"
        );

        // The sheet beside it works.
        page.wait_text(".work-sheet #criterion-2", "Dull").await;
        page.click_words(".work-sheet #criterion-2 .tile", "Sharp")
            .await;
        page.wait_text(".work-sheet #criterion-2 > .marks", "6 of 6")
            .await;

        page.wait_text("#rubric-state", "Ready: 10 marks in all.")
            .await;
        page.click_words(".page-head button", "Keep it to mark by")
            .await;
        page.wait_text(".paper h1", "Hook of a gate").await;
        page.wait_saved().await;
        page.click_words(".actions button", "Save the rubric file")
            .await;
        let (name, bytes) = page.download(".toml").await;
        assert_eq!(name, "gate-hook-1.toml");
        assert_eq!(String::from_utf8(bytes).unwrap(), text);

        // A piece is made to it and marked.
        page.go("/pieces/new").await;
        page.click_words(".tile", "Hook of a gate").await;
        page.fill("#name", "Cy Reed").await;
        page.fill("#examiner", EXAMINER).await;
        page.click("form .button[data-kind=primary]").await;
        page.wait_for(".sheet .row").await;
        enter(&page, "width", "131.8").await;
        page.click_words("#criterion-2 .tile", "Sharp").await;
        page.wait_text(".dock", "10 of 10").await;
        page.wait_saved().await;
        page.go("/rubrics").await;
        page.wait_text(".piece", "1 piece of 1 learner").await;
    });
}

#[test]
fn what_is_wrong_stands_beside_its_line_and_leads_there() {
    in_browser(|page| async move {
        begin(&page).await;
        page.click_words(".work-tools .tile", "Text").await;
        let text = held(&page, "#rubric-text").await;
        page.fill(
            "#rubric-text",
            &text.replace("within = \"1.5 mm\"", "within = \"soon\""),
        )
        .await;
        page.wait_text("#rubric-state", "1 thing to mend.").await;
        page.wait_text(".code-said [data-kind=error]", "soon").await;
        page.click_words(".troubles button", "Mend line").await;
        let chosen = page
            .look("(a => a.value.slice(a.selectionStart, a.selectionEnd))(document.querySelector('#rubric-text'))")
            .await;
        assert!(chosen.contains("soon"), "{chosen}");
        // The same beside the field.
        page.click_words(".work-tools .tile", "Forms").await;
        open_part(&page, "part-sections-0").await;
        open_part(&page, "part-sections-0-criteria-0").await;
        page.wait_text("#part-sections-0-criteria-0 .form-table > .error", "soon")
            .await;
        page.fill("#f-sections-0-criteria-0-bands-0-within", "1.5 mmm")
            .await;
        page.wait_text("#f-sections-0-criteria-0-bands-0-within-error", "mmm")
            .await;
        page.fill("#f-sections-0-criteria-0-bands-0-within", "1.5 mm")
            .await;
        page.wait_text("#rubric-state", "Ready").await;
        // Text that is no TOML rests the forms; undo brings them back.
        page.click_words(".work-tools .tile", "Text").await;
        page.fill("#rubric-text", "no = [").await;
        page.wait_text("#rubric-state", "to mend").await;
        page.click_words(".work-tools .tile", "Forms").await;
        page.wait_text(".work-write", "these forms rest").await;
        page.click_words(".work-tools button", "Undo").await;
        page.wait_text("#rubric-state", "Ready").await;
        // All of it outlives the page.
        page.wait_saved().await;
        page.reload().await;
        page.wait_text("#rubric-state", "Ready").await;
    });
}

/// Chosen, taken out again byte for byte, and wrong beside its field where the text is.
#[test]
fn a_reading_says_which_measure_of_a_photo_fills_it() {
    in_browser(|page| async move {
        const FIELD: &str = "#f-sections-0-criteria-0-photo";
        begin(&page).await;
        page.click_words(".work-tools .tile", "Text").await;
        let text = held(&page, "#rubric-text").await;
        page.click_words(".work-tools .tile", "Forms").await;
        open_part(&page, "part-sections-0").await;
        open_part(&page, "part-sections-0-criteria-0").await;
        assert_eq!(held(&page, FIELD).await, "");
        page.choose(FIELD, "overall width").await;
        page.wait_text("#rubric-state", "Ready: 4 marks in all.")
            .await;
        page.wait_saved().await;
        page.click_words(".work-tools .tile", "Text").await;
        let with = held(&page, "#rubric-text").await;
        assert!(with.contains("photo = \"overall width\"\n"), "{with}");
        page.click_words(".work-tools .tile", "Forms").await;
        page.wait_for(FIELD).await;
        assert_eq!(held(&page, FIELD).await, "overall width");
        page.choose(FIELD, "").await;
        page.wait_saved().await;
        page.click_words(".work-tools .tile", "Text").await;
        assert_eq!(held(&page, "#rubric-text").await, text);
        let many = with.replace("\"overall width\"", "\"hole inset\"");
        page.fill("#rubric-text", &many).await;
        page.wait_text("#rubric-state", "1 thing to mend.").await;
        page.click_words(".work-tools .tile", "Forms").await;
        page.wait_text(&format!("{FIELD}-error"), "this is one reading")
            .await;
        assert_eq!(held(&page, FIELD).await, "hole inset");
    });
}

#[test]
fn a_shipped_rubric_is_read_copied_changed_and_compared() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "132").await;
        page.go("/rubrics").await;
        page.click_words(".piece a", "Straight bar shoe").await;
        page.wait_text(".paper", "Finished width, 4 marks").await;
        page.click_words(".actions button", "Make it your own")
            .await;
        page.wait_text("h1", "our own").await;
        open_part(&page, "part-award").await;
        page.fill("#f-award-pass", "70 %").await;
        page.wait_text("#rubric-state", "Ready: 100 marks in all.")
            .await;
        page.click_words(".page-head button", "Keep it to mark by")
            .await;
        page.wait_text(".paper", "70 %").await;
        page.click_words(".actions button", "Write the next version")
            .await;
        open_part(&page, "part-sections-0").await;
        open_part(&page, "part-sections-0-criteria-3").await;
        page.fill("#f-sections-0-criteria-3-bands-0-within", "2 mm")
            .await;
        page.wait_text("#rubric-state", "Ready").await;
        page.click_words(".page-head button", "Keep it to mark by")
            .await;
        page.wait_text("#versions + ul", "version 2").await;
        page.click_words("#versions + ul a", "What changed").await;
        page.wait_text(".paper", "2 mm").await;
        fits_across(&page, "compare").await;
        page.back().await;
        page.click("details summary").await;
        page.click_words("details a", "Asa Marsh").await;
        page.wait_text(".paper", "Finished width").await;
        fits_across(&page, "try").await;
    });
}

/// Hands the page a file, as the browser's own dialog would.
async fn choose_file(page: &Page, name: &str, text: &str) {
    let script = "const [name, text] = arguments;
        const input = document.querySelector('input[type=file]');
        const chosen = new DataTransfer();
        chosen.items.add(new File([text], name));
        input.files = chosen.files;
        input.dispatchEvent(new Event('change', { bubbles: true }));";
    page.run(script, vec![json!(name), json!(text)]).await;
}

#[test]
fn a_rubric_file_is_opened() {
    in_browser(|page| async move {
        page.go("/rubrics").await;
        page.wait_for("input[type=file]").await;
        let text = shipped()[1]
            .text
            .replacen("id = \"concave", "id = \"our-concave", 1);
        choose_file(&page, "ours.toml", &text).await;
        page.wait_text("#rubric-state", "Ready: 100 marks in all.")
            .await;
        page.wait_saved().await;
        page.go("/rubrics").await;
        page.wait_text("#in-work + ul", "Concave front shoe").await;
        choose_file(&page, "large.toml", &"#".repeat(1_000_001)).await;
        page.wait_text("[role=alert]", "more than a million bytes")
            .await;
        // Whatever it is, it can be looked at and mended.
        choose_file(&page, "photo.jpg", "\u{0}\u{1}JFIF").await;
        page.wait_text("#rubric-state", "to mend").await;
    });
}
