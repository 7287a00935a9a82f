//! Rows of the mark sheet: what stands beside an entry, states, order, unit, undo.

use evenshod::present::mark_sheet::{Order, plan};

use crate::bar_shoe;
use crate::browser::{Page, key};
use crate::harness::in_browser;
use crate::steps::{MAKER, enter, held, marks, start_piece, start_piece_in, wait_marks, why};

#[test]
fn a_bad_entry_stays_as_typed_with_a_message_beside_it() {
    in_browser(|page| async move {
        start_piece(&page).await;
        for bad in ["13.0,2", "thirteen", "5 1/", "130 kg", "=1+1", "3..1"] {
            enter(&page, "width", bad).await;
            assert_eq!(held(&page, "#r-width").await, bad);
            page.wait_for("#width .error").await;
            let words = page.text("#width .error").await;
            assert!(words.len() > 20, "{bad}: {words}");
            assert_eq!(marks(&page, "width").await, "– of 4", "{bad}");
            let told = page
                .look("document.getElementById(document.querySelector('#r-width').getAttribute('aria-describedby')).innerText")
                .await;
            assert_eq!(
                told.replace('\n', " "),
                words,
                "it is told to who cannot see it"
            );
            let wrong = "document.querySelector('#r-width').getAttribute('aria-invalid')";
            assert_eq!(page.look(wrong).await, "true", "{bad}");
        }
        page.reload().await;
        assert_eq!(held(&page, "#r-width").await, "3..1");
        page.wait_for("#width .error").await;
        enter(&page, "width", "130").await;
        wait_marks(&page, "width", "4").await;
        assert!(!page.shows("#width .error").await);
        enter(&page, "branches-left", "118").await;
        enter(&page, "branches-right", "11 8").await;
        let wrong = "[...document.querySelectorAll('#branches [aria-invalid=true]')].map(one => one.id).join()";
        page.wait(
            "the right branch alone to be wrong",
            &format!("{wrong} === 'r-branches-right'"),
        )
        .await;
    });
}

#[test]
fn a_reading_is_taken_as_people_write_it() {
    in_browser(|page| async move {
        start_piece(&page).await;
        // 5 1/8 in is asked for: 130.175 mm.
        for (typed, marks) in [
            ("5 1/8", "4"),
            ("5-1/8 in", "4"),
            ("5 1/8\"", "4"),
            ("130,2", "4"),
            ("13.0175 cm", "4"),
            ("128 mm", "2"),
            ("134", "1"),
            ("140", "0"),
            ("130; 131; 129", "4"),
            ("130..130.5", "4"),
        ] {
            enter(&page, "width", typed).await;
            page.wait_text("#width > .marks", &format!("{marks} of 4"))
                .await;
            assert!(!page.shows("#width .error").await, "{typed}");
        }
        page.click_words("#bar-straight .verdict", "within").await;
        assert_eq!(held(&page, "#r-bar-straight").await, "within");
        let pressed =
            "document.querySelector('#bar-straight .verdict[aria-pressed=true]').innerText";
        assert_eq!(page.look(pressed).await, "within");
        wait_marks(&page, "bar-straight", "3").await;
        page.click_words("#bar-straight .verdict", "within").await;
        assert_eq!(held(&page, "#r-bar-straight").await, "");
        wait_marks(&page, "bar-straight", "–").await;
    });
}

#[test]
fn undo_takes_back_one_place_at_a_time() {
    in_browser(|page| async move {
        start_piece(&page).await;
        let undo_is_off = "[...document.querySelectorAll('.tools button')].find(one => one.innerText === 'Undo').disabled";
        page.wait("nothing to undo", undo_is_off).await;
        enter(&page, "width", "130").await;
        enter(&page, "length", "133.4").await;
        page.click("#weld .tile").await;
        page.click("#weld .more").await;
        page.fill("#c-weld", "sound").await;
        wait_marks(&page, "weld", "7").await;
        undo(&page).await;
        page.wait(
            "the comment to go",
            "document.querySelector('#c-weld').value === ''",
        )
        .await;
        wait_marks(&page, "weld", "7").await;
        undo(&page).await;
        wait_marks(&page, "weld", "–").await;
        let checked = page.value("document.querySelectorAll('#weld .row-entry :checked').length");
        assert_eq!(checked.await, 0);
        undo(&page).await;
        page.wait(
            "length to go",
            "document.querySelector('#r-length').value === ''",
        )
        .await;
        assert_eq!(held(&page, "#r-width").await, "130");
        undo(&page).await;
        page.wait(
            "width to go",
            "document.querySelector('#r-width').value === ''",
        )
        .await;
        page.wait("nothing to undo", undo_is_off).await;
        page.wait_saved().await;
        page.reload().await;
        assert_eq!(held(&page, "#r-width").await, "");
    });
}

async fn undo(page: &Page) {
    page.click_words(".tools button", "Undo").await;
}

#[test]
fn no_faults_in_the_rest_is_one_step() {
    in_browser(|page| async move {
        start_piece(&page).await;
        page.click_words("#finish .tile", "Hammer marks").await;
        wait_marks(&page, "finish", "4").await;
        page.click_words(".tools button", "No faults in the rest")
            .await;
        wait_marks(&page, "safety", "2").await;
        wait_marks(&page, "finish", "4").await;
        page.wait(
            "none seen to be ticked",
            "document.querySelector('#safety .row-entry input').checked",
        )
        .await;
        let is_off = "[...document.querySelectorAll('.tools button')].find(one => one.innerText.startsWith('No faults')).disabled";
        page.wait("no list to be left", is_off).await;
        undo(&page).await;
        wait_marks(&page, "safety", "–").await;
        wait_marks(&page, "finish", "4").await;
        undo(&page).await;
        wait_marks(&page, "finish", "–").await;
    });
}

#[test]
fn a_fault_is_counted_as_often_as_it_is_seen() {
    in_browser(|page| async move {
        start_piece(&page).await;
        page.click_words("#finish .tile", "Hammer marks").await;
        wait_marks(&page, "finish", "4").await;
        page.click_words("#finish button", "Seen again").await;
        wait_marks(&page, "finish", "3").await;
        page.wait_text("#finish button", "2 times").await;
        page.click_words("#finish button", "Seen again").await;
        // It takes two marks at most.
        page.wait_text("#finish button", "3 times").await;
        wait_marks(&page, "finish", "3").await;
        page.click_words("#finish .tile", "Hammer marks").await;
        wait_marks(&page, "finish", "5").await;
    });
}

#[test]
fn a_stop_is_said_and_lifted_by_name() {
    in_browser(|page| async move {
        start_piece(&page).await;
        page.click_words("#safety .tile", "No eye protection").await;
        page.wait_text(".sum-stop", "Stopped").await;
        page.click("#safety .more").await;
        page.fill("#b-safety", "R. Oakes").await;
        page.wait_for(".sum-stop").await;
        page.fill("#b-safety-why", "glasses broke in the blow")
            .await;
        page.wait(
            "the stop to be lifted",
            "!document.querySelector('.sum-stop')",
        )
        .await;
    });
}

#[test]
fn rows_stand_as_the_shoe_is_turned() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        for order in [Order::Turned, Order::Rubric] {
            let words = match order {
                Order::Turned => "as the shoe is turned",
                Order::Rubric => "as in the rubric",
            };
            page.click_words(".tools .tile", words).await;
            let expected: Vec<String> = plan(&bar_shoe::rubric(), order)
                .into_iter()
                .flat_map(|part| {
                    std::iter::once(part.id).chain(part.rows.into_iter().map(|row| row.dom))
                })
                .collect();
            let shown = "[...document.querySelectorAll('.rows h2:not(#p-overall, #p-photos), .rows .row')].map(one => one.id).join()";
            page.wait(words, &format!("{shown} === '{}'", expected.join(",")))
                .await;
            assert_eq!(held(&page, "#r-width").await, "130");
            wait_marks(&page, "width", "4").await;
        }
    });
}

#[test]
fn a_unit_counts_from_where_it_is_switched() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "length", "133.4").await;
        page.click_words(".tools button", "Number pad").await;
        page.focus("#r-width").await;
        page.click("[data-key=in]").await;
        let sign = |slot: &str| format!("document.querySelector('#r-{slot} + .unit').innerText");
        page.wait(
            "an empty field to be in inches",
            &format!("{} === 'in'", sign("width")),
        )
        .await;
        enter(&page, "width", "5.125").await;
        wait_marks(&page, "width", "4").await;
        assert_eq!(
            page.look(&sign("length")).await,
            "mm",
            "what was typed before stays"
        );
        wait_marks(&page, "length", "4").await;
        page.click("[data-key=mm]").await;
        wait_marks(&page, "width", "0").await;
        page.click("[data-key=in]").await;
        wait_marks(&page, "width", "4").await;
        page.wait_saved().await;
        page.reload().await;
        wait_marks(&page, "width", "4").await;
        wait_marks(&page, "length", "4").await;
        assert_eq!(page.look(&sign("heel-gap")).await, "in");
    });
}

#[test]
fn undo_takes_back_a_unit() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        page.click_words(".tools button", "Number pad").await;
        page.focus("#r-width").await;
        page.click("[data-key=in]").await;
        wait_marks(&page, "width", "0").await;
        undo(&page).await;
        wait_marks(&page, "width", "4").await;
        let sign = "document.querySelector('#r-heel-gap + .unit').innerText";
        page.wait(
            "the sheet to be in millimetres",
            &format!("{sign} === 'mm'"),
        )
        .await;
    });
}

#[test]
fn a_part_that_is_not_made_or_not_measured_says_so() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "fuller-depth", "6").await;
        page.click("#fuller-ends .more").await;
        page.click_words("#fuller-ends .tile", "Not made").await;
        wait_marks(&page, "fuller-ends", "0").await;
        assert!(
            why(&page, "fuller-ends")
                .await
                .to_lowercase()
                .contains("not made")
        );
        assert!(
            !page.shows("#fuller-ends .row-entry").await,
            "nothing is to be entered"
        );
        page.click_words("#fuller-ends .tile", "Marked").await;
        wait_marks(&page, "fuller-ends", "–").await;
        page.wait_for("#fuller-ends .row-entry").await;

        page.click("#bar-width .more").await;
        page.click_words("#bar-width .tile", "Can’t be measured")
            .await;
        wait_marks(&page, "bar-width", "–").await;
        page.fill("#w-bar-width", "weld scale on both edges").await;
        page.fill("#d-bar-width", "two").await;
        page.wait_text("#d-bar-width-error", "not a number").await;
        wait_marks(&page, "bar-width", "–").await;
        page.click("#bar-width .more").await;
        page.click("#bar-width .more").await;
        assert_eq!(
            held(&page, "#d-bar-width").await,
            "two",
            "it stays as typed"
        );
        page.wait_saved().await;
        page.reload().await;
        page.click("#bar-width .more").await;
        assert_eq!(held(&page, "#d-bar-width").await, "two");
        page.fill("#d-bar-width", "2.5").await;
        wait_marks(&page, "bar-width", "2.5").await;
        undo(&page).await;
        page.wait(
            "the text to be as before",
            "document.querySelector('#d-bar-width').value === 'two'",
        )
        .await;
        assert_eq!(
            held(&page, "#w-bar-width").await,
            "weld scale on both edges"
        );
        page.fill("#d-bar-width", "2.5").await;
        wait_marks(&page, "bar-width", "2.5").await;
        assert!(
            why(&page, "bar-width")
                .await
                .contains("weld scale on both edges")
        );
        page.wait_saved().await;
        page.reload().await;
        wait_marks(&page, "bar-width", "2.5").await;
        let offers = "document.querySelector('#bar-width').innerText.includes('Not applicable')";
        assert_eq!(
            page.value(offers).await,
            false,
            "the rubric does not allow it"
        );
    });
}

/// What was typed before and after the tick is hot alike, and all of it counts again
/// once the tick is gone.
#[test]
fn what_is_taken_hot_is_not_marked() {
    in_browser(|page| async move {
        start_piece(&page).await;
        page.click("#width .more").await;
        let offered = "document.querySelector('#width').innerText.includes('Taken hot')";
        assert_eq!(page.value(offered).await, false, "there is no reading yet");
        enter(&page, "width", "130").await;
        wait_marks(&page, "width", "4").await;
        page.click_words("#width .tile", "Taken hot").await;
        wait_marks(&page, "width", "–").await;
        enter(&page, "width", "131; 130").await;
        wait_marks(&page, "width", "–").await;
        page.wait_text("#width > .row-why", "measure it cold").await;

        page.click("#branches .more").await;
        enter(&page, "branches-left", "118").await;
        page.click_words("#branches .tile", "Taken hot").await;
        enter(&page, "branches-right", "118").await;
        page.wait_text("#branches > .row-why", "measure it cold")
            .await;
        page.click_words("#branches .tile", "Taken hot").await;
        wait_marks(&page, "branches", "4").await;
    });
}

#[test]
fn undo_tells_the_parts_of_a_row_apart() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "fuller-depth", "6").await;
        page.click("#fuller-depth .more").await;
        page.click("#fuller-depth .fault input").await;
        page.wait_text("#fuller-depth > .row-why", "needs a value")
            .await;
        page.click("#fuller-walls .tile").await;
        wait_marks(&page, "fuller-walls", "4").await;
        page.click("#fuller-walls .more").await;
        page.click("#fuller-walls .fault input").await;
        let ticked = "document.querySelectorAll('#fuller-walls .fault input:checked').length";
        page.wait("the fault to be ticked", &format!("{ticked} === 1"))
            .await;
        undo(&page).await;
        page.wait("the fault to go", &format!("{ticked} === 0"))
            .await;
        wait_marks(&page, "fuller-walls", "4").await;
    });
}

/// A sheet in 32nds of an inch is one still after millimetres were used in between.
#[test]
fn the_pad_keeps_how_the_sheet_divides_inches() {
    in_browser(|page| async move {
        start_piece_in(&page, MAKER, "in32").await;
        enter(&page, "branches-left", "4 9/64").await;
        enter(&page, "branches-right", "4 9/64").await;
        wait_marks(&page, "branches", "4").await;
        let before = why(&page, "branches").await;
        page.click_words(".tools button", "Number pad").await;
        page.focus("#r-width").await;
        page.click("[data-key=mm]").await;
        page.wait_text("#branches > .row-why", "mm").await;
        page.click("[data-key=in]").await;
        page.wait_text("#branches > .row-why", " in").await;
        assert_eq!(why(&page, "branches").await, before);
        assert!(!before.contains("/64"), "{before}");
    });
}

/// The drawn shoe is a way into the sheet: by a tap and by keyboard, from both sides.
#[test]
fn a_part_of_the_drawn_shoe_leads_to_its_rows() {
    in_browser(|page| async move {
        start_piece(&page).await;
        let at = |row: &str| format!("document.activeElement.id === '{row}'");
        page.click(".shoes a[aria-label^=Bar] .zone").await;
        page.wait("the bar's first row", &at("heel-gap")).await;
        page.focus(".shoes a[aria-label^=Toe]").await;
        page.keys(key::ENTER).await;
        page.wait("the toe's first row", &at("toe-bend")).await;
        let label =
            "document.querySelector('.shoes a[aria-label^=Toe]').getAttribute('aria-label')";
        assert_eq!(page.look(label).await, "Toe: 2 missing");
        page.click("#toe-bend .tile").await;
        page.click("#toe-roll .tile").await;
        page.wait(
            "the toe to be marked",
            &format!("{label} === 'Toe: 8 of 8'"),
        )
        .await;
        page.wait_for(".shoes a[aria-label^=Toe][data-band='4']")
            .await;
        let fuller = "[...document.querySelectorAll('.shoes a')].filter(one => one.ariaLabel.startsWith('Fuller')).length";
        page.wait("the fuller on the ground side", &format!("{fuller} === 1"))
            .await;
        page.click_words(".shoes button", "Ground side: turn over")
            .await;
        page.wait("no fuller on the foot side", &format!("{fuller} === 0"))
            .await;
        page.wait_text(".shoes button", "Foot side").await;
        page.click_words(".tools .tile", "as the shoe is turned")
            .await;
        page.focus("#r-width").await;
        page.wait_text(".shoes button", "Ground side").await;
    });
}
