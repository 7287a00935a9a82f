//! The heat log, tapped on a phone.

use crate::browser::Page;
use crate::harness::in_browser;
use crate::steps::{EXAMINER, MAKER, enter, fits_across, start_piece};
use crate::two::start_two;

pub(crate) async fn heat_log(page: &Page) {
    start_piece(page).await;
    page.click_words(".tools .button", "Heat log").await;
    page.wait_for(".heat-next").await;
}

async fn next(page: &Page, says: &str) {
    page.wait_text(".heat-next", says).await;
    page.tap(".heat-next").await;
}

async fn part(page: &Page, within: &str, words: &str) {
    page.click_words(within, words).await;
}

/// A piece is made with real taps; the page is opened anew in the middle; what was tapped fills
/// the mark sheet.
#[test]
fn a_piece_is_made_with_taps_and_a_reload_in_the_middle() {
    in_browser(|page| async move {
        page.resize(390, 844, true).await;
        heat_log(&page).await;
        page.wait_text(".heat-last", "Nothing tapped yet").await;
        next(&page, "Start the clock").await;
        part(&page, ".heat-tile", "Toe bump and toe bend").await;
        next(&page, "Into the fire").await;
        page.wait_text(".heat-state", "In the fire").await;
        next(&page, "Out to the anvil").await;
        next(&page, "Into the fire").await;
        // The step of the plan that is at hand is a weld.
        part(&page, ".heat-tile", "Welding").await;
        page.wait_saved().await;
        page.reload().await;
        page.wait_text(".heat-state", "In the fire").await;
        next(&page, "Out at welding heat").await;
        page.wait_text(".heat-last", "Out at welding heat").await;
        // One too many, and taken back.
        next(&page, "Into the fire").await;
        part(&page, ".heat-last .button", "Take back").await;
        page.wait_text(".heat-state", "At the anvil").await;
        part(&page, ".heat-tiles .button", "Pause").await;
        page.wait_text("#heat-words-error", "Write first").await;
        page.fill("#heat-words", "tongs broke").await;
        part(&page, ".heat-tiles .button", "Pause").await;
        next(&page, "Go on").await;
        part(
            &page,
            "#heat-faults ~ .heat-tiles .heat-tile",
            "Hot steel left",
        )
        .await;
        page.wait_text(".heat-last", "Fault").await;
        fits_across(&page, "the heat log").await;
        part(&page, ".heat-tiles .button", "Finished").await;
        page.wait_text(".heat-state", "Finished").await;
        page.wait_text(".facts", "2, 9 planned").await;
        page.wait_text(".facts", "1, 2 planned").await;
        page.wait_text(".heat-drawing", "shared out evenly by heats")
            .await;
        page.click_words(".page-head .button", "The mark sheet")
            .await;
        page.wait_text(".page-head", "Finished, not sealed").await;
        page.wait_text("#heats", "2").await;
        page.wait_text("#heats", "heat log").await;
        page.wait_text("#weld-heats", "heat log").await;
        page.wait_text("#time", "heat log").await;
        page.wait_text("#safety", "Hot steel left").await;
    });
}

/// What nobody tapped is typed when the piece is done.
#[test]
fn heats_and_time_are_entered_afterwards() {
    in_browser(|page| async move {
        heat_log(&page).await;
        page.fill("#heats-of-0", "many").await;
        page.wait_text("#heats-of-0-error", "many").await;
        page.fill("#heats-of-0", "2").await;
        page.fill("#heats-weld", "2").await;
        page.fill("#heats-time", "58 min").await;
        page.wait_text(".facts", "58 min entered afterwards").await;
        page.wait_saved().await;
        page.click_words(".page-head .button", "The mark sheet")
            .await;
        page.wait_text("#time", "afterwards").await;
        page.wait_text("#weld-heats", "afterwards").await;
    });
}

/// What a bar was cut to stands in the log, and the plan of the next piece finds it with the sizes.
#[test]
fn a_cut_length_goes_from_the_log_to_the_plan() {
    in_browser(|page| async move {
        start_piece(&page).await;
        enter(&page, "width", "130").await;
        enter(&page, "length", "134").await;
        page.click_words(".tools .button", "Heat log").await;
        page.fill("#heats-cut", "16").await;
        page.wait_text("#heats-cut-error", "`16` is 16.0 mm").await;
        page.fill("#heats-cut", "16 in").await;
        page.wait_text(".facts", "Bar cut to").await;
        page.wait_text(".facts", "406.4 mm").await;
        page.wait_saved().await;
        page.go("/rubrics").await;
        page.wait_for(".piece").await;
        page.click_words(".piece a", "Straight bar shoe").await;
        page.click_words(".actions .button", "Plan the piece").await;
        page.wait_text(".paper", "Beside old rules").await;
        page.click_words(".form-part summary", "Earlier pieces")
            .await;
        let learner = page
            .look("document.querySelector('#plan-learner').options[1].value")
            .await;
        page.choose("#plan-learner", &learner).await;
        let counts = |count: u8| format!("{count} of 1 piece by {MAKER} of this kind");
        page.wait_text(".plan-page", &counts(1)).await;
        page.wait_text(
            ".plan-page .tile",
            "cut 406.4 mm, came out 130.0 mm by 134.0 mm",
        )
        .await;
        page.wait_text(".paper", "1 of your pieces are of this kind")
            .await;
        page.click(".plan-page .tile input").await;
        page.wait_text(".plan-page", &counts(0)).await;
        page.fill("#plan-past", "400; 130; 134\n402; 130; 134\n404; 130; 134")
            .await;
        page.wait_text(".paper", "3 of your pieces").await;
    });
}

/// The second examiner takes the taps of the first over, gives them back, and takes them again.
#[test]
fn the_second_examiner_takes_the_log_of_the_first_over() {
    in_browser(|page| async move {
        let piece = start_two(&page, MAKER).await;
        page.click_words(".choice", &format!("Examiner: {EXAMINER}"))
            .await;
        page.click_words(".tools .button", "Heat log").await;
        for says in ["Start the clock", "Into the fire", "Out to the anvil"] {
            page.wait_text(".heat-next", says).await;
            page.click(".heat-next").await;
        }
        part(&page, ".heat-tiles .button", "Finished").await;
        page.wait_text(".heat-state", "Finished").await;
        page.wait_saved().await;
        page.go(&piece).await;
        page.click_words(".choice", "Examiner: M. Harrow").await;
        page.click_words(".tools .button", "Heat log").await;
        let take = format!("Take over the heat log of {EXAMINER}");
        page.click_words(".part .button", &take).await;
        page.wait_text(
            "[aria-label='Taken over']",
            "The first 4 taps were taken over",
        )
        .await;
        page.wait_text(".heat-state", "Finished").await;
        page.click_words(".part .button", "Take them out again")
            .await;
        page.wait_text(".heat-last", "Nothing tapped yet").await;
        page.click_words(".part .button", &take).await;
        page.wait_text(".heat-state", "Finished").await;
        page.wait_saved().await;
        page.reload().await;
        page.wait_text("[aria-label='Taken over']", EXAMINER).await;
    });
}
