//! The mark sheet under a thumb: a phone, fingers, the number pad.

use serde_json::json;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::pages::Sight;
use crate::steps::{EXAMINER, MAKER, fits_across, held, wait_marks};

async fn on_a_phone(page: &Page) {
    page.resize(390, 844, true).await;
}

#[test]
fn a_shoe_is_marked_with_a_thumb() {
    in_browser(|page| async move {
        on_a_phone(&page).await;
        start(&page).await;
        assert!(
            page.shows(".pad").await,
            "where fingers point, the pad is open"
        );
        readings(&page).await;
        verdicts_and_levels(&page).await;
        tallies_and_faults(&page).await;
        fits_across(&page, "the mark sheet").await;
        page.tap(".dock .button[data-kind=primary]").await;
        page.wait_for("dialog[open]").await;
        fits_across(&page, "the question before the seal").await;
        page.tap("dialog .button[data-kind=primary]").await;
        page.wait_for(".paper").await;
        fits_across(&page, "the scored sheet").await;
    });
}

/// Who has gone on to a field that is no reading does not change one by the pad.
#[test]
fn the_pad_lets_go_of_a_reading() {
    in_browser(|page| async move {
        on_a_phone(&page).await;
        start(&page).await;
        page.tap("#r-width").await;
        press(&page, &["1", "3"]).await;
        page.wait_text(".pad-for", "Finished width").await;
        page.tap("#bar-width .more").await;
        page.tap("#c-bar-width").await;
        page.wait_text(".pad-for", "Choose a reading").await;
        press(&page, &["0"]).await;
        assert_eq!(held(&page, "#r-width").await, "13");
        page.tap("#r-width").await;
        press(&page, &["0"]).await;
        wait_held(&page, "width", "130").await;
    });
}

async fn start(page: &Page) {
    page.go("/").await;
    page.tap("main a[href='/pieces/new']").await;
    page.tap("#name").await;
    page.keys(MAKER).await;
    page.tap("#examiner").await;
    page.keys(EXAMINER).await;
    page.tap("form .button[data-kind=primary]").await;
    page.wait_for(".sheet .row").await;
}

/// Taps keys of the pad by what is on them.
async fn press(page: &Page, keys: &[&str]) {
    for key in keys {
        page.tap(&format!(".key[data-key={}]", json!(key))).await;
    }
}

async fn wait_held(page: &Page, slot: &str, text: &str) {
    let expression = format!(
        "document.querySelector('#r-{slot}').value === {}",
        json!(text)
    );
    page.wait(&format!("{slot} to hold {text:?}"), &expression)
        .await;
}

async fn readings(page: &Page) {
    page.tap("#r-length").await;
    press(page, &["1", "3", "4", ",", "9"]).await;
    wait_held(page, "length", "134,9").await;
    wait_marks(page, "length", "2").await;
    press(page, &["minus"]).await;
    wait_held(page, "length", "134.8").await;
    wait_marks(page, "length", "4").await;
    press(page, &["plus", "back", "clear", "1", "3", "3"]).await;
    wait_held(page, "length", "133").await;

    page.tap("#r-width").await;
    press(page, &["5", "fractions"]).await;
    page.wait_for("[data-key='1/8']").await;
    press(page, &["1/8"]).await;
    wait_held(page, "width", "5 1/8").await;
    wait_marks(page, "width", "4").await;
    press(page, &["next"]).await;
    page.wait(
        "next to lead on",
        "document.activeElement.id === 'r-length'",
    )
    .await;
    press(page, &["next"]).await;
    page.wait(
        "next to lead on",
        "document.activeElement.id === 'r-heel-gap'",
    )
    .await;
    press(page, &["fractions", "5", "9"]).await;
    wait_marks(page, "heel-gap", "2").await;
    press(page, &["in"]).await;
    wait_marks(page, "heel-gap", "0").await;
    press(page, &["mm"]).await;
    wait_marks(page, "heel-gap", "2").await;

    page.tap("#r-level").await;
    press(page, &["0", ",", "4", "..", "0", ",", "5"]).await;
    wait_held(page, "level", "0,4..0,5").await;
    wait_marks(page, "level", "4").await;
    assert_eq!(held(page, "#r-width").await, "5 1/8");
}

async fn verdicts_and_levels(page: &Page) {
    page.tap("#bar-straight .verdict:nth-child(2)").await;
    wait_marks(page, "bar-straight", "3").await;
    page.tap("#weld .tile:nth-child(2) input").await;
    wait_marks(page, "weld", "5").await;
    page.tap("#outline .tile:nth-child(10) input").await;
    wait_marks(page, "outline", "4.5").await;
}

async fn tallies_and_faults(page: &Page) {
    page.tap("#r-heats").await;
    press(page, &["1", "1"]).await;
    wait_marks(page, "heats", "1").await;
    page.tap("#heats .step:first-child").await;
    wait_held(page, "heats", "10").await;
    wait_marks(page, "heats", "1.5").await;
    page.tap("#finish .fault:nth-child(2) input").await;
    wait_marks(page, "finish", "4").await;
    page.tap(".tools > button:nth-of-type(1)").await;
    wait_marks(page, "safety", "2").await;
    page.tap(".tools > button:nth-of-type(2)").await;
    wait_marks(page, "safety", "–").await;
    page.tap("#heats .more").await;
    page.wait_for("#c-heats").await;
}

/// Targets of a page that are less than `least` px in either direction, where a
/// finger may hit what the eye takes for it: the control, its label, its row.
const SMALL: &str = "
    const [least, within] = arguments;
    const half = least / 2 - 1;
    const small = [];
    if (!document.querySelector(within)) small.push('nothing to hit at all');
    for (const one of document.querySelectorAll(within)) {
        const target = one.closest('label') ?? one;
        if (one.disabled || !target.getClientRects().length || one.matches('.skip')) continue;
        // A link in the run of a sentence is as high as its line.
        if (one.matches('p a, li a, small a') && getComputedStyle(one).display === 'inline'
            && !one.matches('.piece a')) continue;
        target.scrollIntoView({ block: 'center', behavior: 'instant' });
        const box = target.getBoundingClientRect();
        const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
        const hits = (dx, dy) => {
            const hit = document.elementFromPoint(x + dx, y + dy);
            return hit && (target.contains(hit) || hit.contains(one) && hit.matches('label'));
        };
        const wide = box.width >= least - 0.5 || hits(-half, 0) && hits(half, 0);
        const high = box.height >= least - 0.5 || hits(0, -half) && hits(0, half);
        if (!(wide && high)) {
            small.push(`${Math.round(box.width)} x ${Math.round(box.height)} ${one.outerHTML.slice(0, 110)}`);
        }
    }
    return small.join('\\n');";

#[test]
fn every_target_is_large_enough_for_a_thumb() {
    in_browser(|page| async move {
        on_a_phone(&page).await;
        let mut small = Vec::new();
        let all =
            "a:not(.tap), button, input, select, textarea, summary, [tabindex='0']:not(.scroller)";
        for sight in Sight::ALL {
            sight.show(&page).await;
            // With a dialog open nothing else can be hit.
            let is_asked = page.shows("dialog[open]").await;
            let within = match is_asked {
                true => "dialog[open] :is(a, button, input, select)",
                false => all,
            };
            let found = page.run(SMALL, vec![json!(44), json!(within)]).await;
            small.extend(lines(sight, &found));
            // The parts of the drawn shoe are another way to what the list of parts leads to.
            let sheet = ":is(.sheet, .impression, .impression-line) :is(a:not(.tap), button, input, select, textarea)";
            if page.shows(".sheet .row").await && !is_asked {
                let found = page.run(SMALL, vec![json!(64), json!(sheet)]).await;
                small.extend(lines(sight, &found));
            }
        }
        small.sort();
        small.dedup();
        assert!(small.is_empty(), "too small:\n{}", small.join("\n"));
    });
}

fn lines(sight: Sight, found: &serde_json::Value) -> Vec<String> {
    let found = found.as_str().unwrap_or_default().lines();
    found
        .map(|line| format!("{}: {line}", sight.name()))
        .collect()
}

#[test]
fn keys_of_the_pad_stand_apart() {
    in_browser(|page| async move {
        on_a_phone(&page).await;
        start(&page).await;
        page.tap("#r-width").await;
        page.tap("[data-key=fractions]").await;
        page.wait_for("[data-key='1/8']").await;
        for (width, height) in [(390, 844), (820, 1180), (844, 390), (1440, 900)] {
            page.resize(width, height, true).await;
            let close = "(() => {
                const boxes = [...document.querySelectorAll('.key')]
                    .map(key => [key.dataset.key, key.getBoundingClientRect()])
                    .filter(([, box]) => box.width > 0);
                const close = [];
                boxes.forEach(([name, one], at) => {
                    if (one.width < 63.5 || one.height < 63.5) close.push(`${name} is ${one.width} x ${one.height}`);
                    for (const [other, two] of boxes.slice(at + 1)) {
                        const dx = Math.max(two.left - one.right, one.left - two.right);
                        const dy = Math.max(two.top - one.bottom, one.top - two.bottom);
                        if (Math.max(dx, dy) < 11.5) close.push(`${name} and ${other}: ${Math.max(dx, dy)}`);
                    }
                });
                // Twelve digits and eight edits at the least.
                return boxes.length < 20 ? `only ${boxes.length} keys are seen` : close.join(', ');
            })()";
            assert_eq!(page.look(close).await, "", "at {width} x {height}");
        }
    });
}
