//! A piece planned, and what is printed of it.

use serde_json::json;

use crate::browser::Page;
use crate::documents::{ask, made};
use crate::harness::in_browser;

const CHOOSE: &str = "const field = document.querySelector(arguments[0]);
    field.value = arguments[1];
    field.dispatchEvent(new Event('change', { bubbles: true }));";

pub(crate) async fn plan_of(page: &Page, rubric: &str) {
    page.go("/rubrics").await;
    page.wait_for(".piece").await;
    page.click_words(".piece a", rubric).await;
    page.wait_for("#versions").await;
    page.click_words(".actions .button", "Plan the piece").await;
    page.wait_text(".paper", "Beside old rules").await;
}

/// The file of what is open.
async fn saved(page: &Page) -> Vec<u8> {
    ask(page, "Save as a file").await;
    made(page, ".pdf").await.1
}

/// What is typed stands when the page is opened again, and on the card.
#[test]
fn a_straight_bar_shoe_is_planned_by_a_length_of_its_makers_own() {
    in_browser(|page| async move {
        plan_of(&page, "Straight bar shoe").await;
        page.run(CHOOSE, vec![json!("#plan-choice"), json!("own")])
            .await;
        page.wait_for("#plan-own").await;
        page.fill("#plan-own", "16 in").await;
        // 16 in is 406.4 mm; the heel mark of such a bar lies 2 in from each end, 50.8 mm:
        // common practice, no source.
        page.wait_text(".paper", "406.4 mm, as you chose").await;
        page.wait_text(".paper", "50.8 mm").await;
        page.fill("#plan-lap", "much").await;
        page.wait_text("#plan-lap-error", "`much` is not a number")
            .await;
        page.fill("#plan-lap", "10").await;
        page.click_words(".actions .button", "Bench card").await;
        page.wait_text(".paper", "406.4 mm, as you chose").await;
        let card = saved(&page).await;
        assert!(card.starts_with(b"%PDF"));
        page.go(&page.look("location.pathname").await).await;
        page.wait_text(".paper", "406.4 mm, as you chose").await;
    });
}

/// An open-heeled hind has no half-bars to mark, and a gauge to lay it on.
#[test]
fn an_open_heeled_hind_is_planned_and_has_its_gauge() {
    in_browser(|page| async move {
        plan_of(&page, "Hind").await;
        let words = page
            .look("document.querySelector('.paper').innerText")
            .await;
        assert!(words.contains("toe nail, outer"), "{words}");
        page.click_words(".actions .button", "Lay-on gauge").await;
        page.wait_text(".paper", "ground side up").await;
        page.run(CHOOSE, vec![json!("#gauge-side"), json!("foot side")])
            .await;
        page.wait_text(".paper", "foot side up").await;
        page.fill("#plan-gauge", "30").await;
        page.wait_text("#plan-gauge-error", "at most 20 mm").await;
        page.fill("#plan-gauge", "2.5").await;
        page.wait_text(".paper", "\u{b1}2.5 mm of width").await;
        let gauge = saved(&page).await;
        assert!(gauge.starts_with(b"%PDF"));
        // Its drawing, too, is as large as the shoe, and says so by check lines.
        page.click_words("dialog[open] button", "Close").await;
        page.click(".save-drawing summary").await;
        page.click_words(".save-drawing button", "SVG").await;
        let (_, svg) = page.download(".svg").await;
        let svg = String::from_utf8(svg).unwrap();
        assert!(svg.contains("100 mm"), "{svg}");
    });
}

/// On a phone the answer stands near the top; what is behind it opens by a tap, and all of it to be
/// printed. The bar of the card bears check lines that keep its scale.
#[test]
fn on_a_phone_the_answer_is_near_the_top() {
    in_browser(|page| async move {
        page.resize(390, 844, true).await;
        plan_of(&page, "Straight bar shoe").await;
        let number = async |look: &str| page.value(look).await.as_f64().unwrap();
        let top = "document.querySelector('.paper h2').getBoundingClientRect().top + scrollY";
        let high = "document.documentElement.scrollHeight";
        let open = "document.querySelectorAll('.paper-part[open]').length";
        let (top, all) = (number(top).await, number(high).await);
        println!("the answer begins {top} px down a page of {all} px");
        assert!(top < 1_300.0 && all < 6_000.0, "{top} of {all}");
        assert!(number(open).await < 0.5);
        page.click_words(".paper-part summary", "What each method says")
            .await;
        page.wait_text(".paper", "Lungwitz").await;
        page.run("window.dispatchEvent(new Event('beforeprint'));", vec![])
            .await;
        page.wait("all parts open", &format!("{open} === 4")).await;
        page.click_words(".actions .button", "Bench card").await;
        page.wait_text(
            ".true-size figcaption",
            "check lines measure 100 mm and 4 in",
        )
        .await;
        // The longer line is 4 in where the bar is 15.
        let long = "(() => { const wide = (shape) => shape.getBoundingClientRect().width;
            const lines = [...document.querySelectorAll('.true-size svg line')].map(wide);
            return Math.max(...lines) / wide(document.querySelector('.true-size svg rect')); })()";
        let share = number(long).await;
        assert!((share - 4.0 / 15.0).abs() < 0.01, "{share}");
    });
}
