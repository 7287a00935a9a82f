//! Reloads and killed browsers: what was typed is there, and the page says so.

use crate::browser::key;
use crate::harness::{in_browser, in_room};
use crate::heats::heat_log;
use crate::steps::{MAKER, enter, held, start_piece, wait_marks};

#[test]
fn a_reload_keeps_what_was_typed_and_says_so() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        enter(&page, "width", "130").await;
        enter(&page, "length", "13 3 or so").await;
        page.click("#toe-bend .tile").await;
        page.click("#width .more").await;
        page.fill("#c-width", "dressed on the left").await;
        page.fill("#overall", "Good toe.\nPractise welds.").await;
        page.wait_saved().await;
        page.reload().await;
        assert_eq!(page.path().await, piece);
        page.wait_text(".notices", &format!("You were marking {MAKER}"))
            .await;
        page.wait_text(".notices", "Everything typed is kept").await;
        assert_eq!(held(&page, "#r-width").await, "130");
        assert_eq!(held(&page, "#r-length").await, "13 3 or so");
        wait_marks(&page, "toe-bend", "4").await;
        page.wait_text("#width .note", "dressed on the left").await;
        assert_eq!(held(&page, "#overall").await, "Good toe.\nPractise welds.");
        page.go("/").await;
        page.wait_text(".notices", "You were marking").await;
        page.click_words(".notices a", "Go on marking").await;
        page.wait_for("#r-width").await;
        assert!(!page.shows(".notices .notice").await, "it is said once");
        page.click(".nav a[href='/help']").await;
        page.wait_text("h1", "Help").await;
        page.reload().await;
        assert!(
            !page.shows(".notices .notice").await,
            "who left the draft was not interrupted"
        );
    });
}

#[test]
fn a_reload_in_the_middle_of_a_word_keeps_it() {
    in_browser(|page| async move {
        start_piece(&page).await;
        page.focus("#r-width").await;
        page.type_at_hand_speed("129.875").await;
        page.reload().await;
        let kept = held(&page, "#r-width").await;
        assert!(
            ["129.875", "129.87"].contains(&kept.as_str()),
            "more than the last key is lost: {kept}"
        );
    });
}

#[test]
fn a_killed_browser_loses_at_most_the_last_key() {
    in_room(|room, page| async move {
        let piece = start_piece(&page).await;
        page.click("#weld .tile:nth-child(2)").await;
        page.focus("#r-length").await;
        page.keys("134.8").await;
        page.wait_saved().await;
        page.keys("7").await;
        room.kill_browsers();
        let page = room.open_browser().await;
        page.go("/").await;
        page.wait_text(".piece", MAKER).await;
        page.wait_text(".piece", "2 entries typed").await;
        page.focus(".piece a").await;
        page.keys(key::ENTER).await;
        page.wait_for("#r-length").await;
        assert_eq!(page.path().await, piece);
        let kept = held(&page, "#r-length").await;
        assert!(["134.8", "134.87"].contains(&kept.as_str()), "{kept}");
        wait_marks(&page, "weld", "5").await;
    });
}

/// As where a battery dies at the fire: the last tap is there with its second, and the clock
/// went on.
#[test]
fn a_killed_browser_keeps_the_last_tap() {
    in_room(|room, page| async move {
        heat_log(&page).await;
        let log = page.path().await;
        for says in ["Start the clock", "Into the fire"] {
            page.wait_text(".heat-next", says).await;
            page.click(".heat-next").await;
        }
        page.wait_text(".heat-state", "In the fire").await;
        let last_tap = "document.querySelector('.heat-last').innerText";
        let told = page.look(last_tap).await;
        page.wait_saved().await;
        room.kill_browsers();
        let page = room.open_browser().await;
        page.go(&log).await;
        page.wait_text(".heat-next", "Out to the anvil").await;
        page.wait_text(".heat-state", "In the fire").await;
        assert_eq!(page.look(last_tap).await, told);
        page.wait(
            "the clock goes on",
            "!['0:00', '0:01'].includes(document.querySelector('.heat-time').innerText)",
        )
        .await;
    });
}

#[test]
fn a_browser_killed_while_somebody_types_keeps_a_whole_draft() {
    in_room(|room, page| async move {
        start_piece(&page).await;
        let readings = ["width", "length", "heel-gap", "bar-width"];
        for slot in readings {
            page.focus(&format!("#r-{slot}")).await;
            page.type_at_hand_speed("101").await;
        }
        room.kill_browsers();
        let page = room.open_browser().await;
        page.go("/").await;
        page.click(".piece a").await;
        page.wait_for("#r-width").await;
        let mut kept = String::new();
        for slot in readings {
            kept += &held(&page, &format!("#r-{slot}")).await;
        }
        let typed = "101".repeat(readings.len());
        assert!(
            kept == typed || typed.strip_suffix('1') == Some(&kept),
            "more than the last key is lost: {kept}"
        );
    });
}
