//! Instruments: the list, figures of one's own, and the choice on the mark sheet.

use crate::browser::Page;
use crate::harness::in_browser;
use crate::steps::{enter, held, marks, seal, start_piece};

/// Opens the list and puts the usual instruments in.
async fn add_usual(page: &Page) {
    page.go("/ledger").await;
    page.click_words("main a", "Instruments").await;
    page.wait_text("h1", "Instruments").await;
    page.click_words("main button", "Add the usual ones").await;
    page.wait_for("#instrument-caliper").await;
}

async fn change_amount(page: &Page, id: &str, amount: &str) {
    page.click_words(&format!("#instrument-{id} button"), "Change")
        .await;
    page.wait(
        "the name to have the focus",
        "document.activeElement.id === 'instrument-name'",
    )
    .await;
    page.fill("#instrument-amount", amount).await;
    page.click_words("form .button", "Keep this instrument")
        .await;
}

#[test]
fn figures_of_ones_own_count_in_the_next_marking_and_a_choice_on_its_sheet_is_kept() {
    in_browser(|page| async move {
        add_usual(&page).await;
        change_amount(&page, "caliper", "0 mm").await;
        page.wait_text("#instrument-amount-error", "Nothing is measured")
            .await;
        assert_eq!(held(&page, "#instrument-amount").await, "0 mm");
        page.fill("#instrument-amount", "0.03 mm").await;
        page.click_words("form .button", "Keep this instrument")
            .await;
        page.wait_text("#instrument-caliper", "Off by at most 0.03 mm")
            .await;
        page.click_words("#instrument-by-eye button", "Retire")
            .await;
        page.wait_text("section[aria-labelledby=retired]", "By eye")
            .await;
        page.wait_saved().await;

        start_piece(&page).await;
        page.wait_text("#width .with", "Steel rule, off by at most 0.5 mm")
            .await;
        page.click("#width .more").await;
        page.click_words("#width .tile", "Caliper").await;
        page.wait_text("#width .with", "Caliper, off by at most 0.03 mm")
            .await;
        // The choice comes first, the reading keeps it, also once it was emptied.
        enter(&page, "width", "129").await;
        enter(&page, "width", "").await;
        enter(&page, "width", "129; 130").await;
        page.wait_text("#width .with", "Caliper").await;
        page.wait_text("#width .doubt", "differ by 1 mm").await;
        assert_eq!(marks(&page, "width").await, "4 of 4");
        page.wait_saved().await;
        page.reload().await;
        page.wait_text("#width .with", "Caliper, off by at most 0.03 mm")
            .await;
        // A reading that others need has its instrument too.
        page.click("#thickness .more").await;
        page.wait_text("#thickness .row-panel", "the usual one here")
            .await;
        // Later figures change no marking that is begun.
        let sheet = page.path().await;
        page.go("/ledger/instruments").await;
        change_amount(&page, "caliper", "0.2 mm").await;
        page.wait_text("#instrument-caliper", "Off by at most 0.2 mm")
            .await;
        page.wait_saved().await;
        page.go(&sheet).await;
        page.wait_text("#width .with", "Caliper, off by at most 0.03 mm")
            .await;
        seal(&page).await;
        page.wait_text(".paper", "130 mm with caliper").await;
        page.wait_text(".paper", "Repeats that disagree").await;
        page.wait_text(".paper", "off by at most 0.03 mm").await;
    });
}

#[test]
fn choosing_an_instrument_is_one_step_to_undo() {
    in_browser(|page| async move {
        add_usual(&page).await;
        start_piece(&page).await;
        enter(&page, "width", "129").await;
        page.click("#width .more").await;
        page.click_words("#width .tile", "Depth gauge").await;
        page.wait_text("#width .with", "Depth gauge").await;
        page.click_words(".tools button", "Undo").await;
        page.wait_text("#width .with", "Steel rule").await;
        assert_eq!(held(&page, "#r-width").await, "129");
    });
}

#[test]
fn repeats_of_one_place_give_the_repeatability() {
    in_browser(|page| async move {
        page.go("/ledger/instruments").await;
        page.click("#instrument-add").await;
        page.fill("#instrument-name", "Vernier").await;
        page.fill("#instrument-amount", "0.05 mm").await;
        page.fill("#instrument-source", "a trial of our own").await;
        page.fill("#instrument-repeats", "10.2 10.4").await;
        page.wait_text("#instrument-repeats-error", "semicolon")
            .await;
        page.fill(
            "#instrument-repeats",
            "10.0002; 10.0004; 10.0003; 10.0001; 10.0005",
        )
        .await;
        page.wait_text("form [role=status]", "5 readings: mean 10.000300 mm")
            .await;
        page.click_words("form button", "Take 0.000158 mm").await;
        assert_eq!(
            held(&page, "#instrument-repeatability").await,
            "0.000158 mm"
        );
        page.click_words("form .button", "Keep this instrument")
            .await;
        page.wait_text("#instrument-vernier", "Off by at most 0.05 mm")
            .await;
    });
}
