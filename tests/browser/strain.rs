//! Every page under strain: long names, names that run from right to left, text twice as
//! large, no motion, the system's own few colours.

use serde_json::{Value, json};

use crate::access::violations;
use crate::browser::Page;
use crate::harness::{in_browser, shots};
use crate::pages::Sight;
use crate::steps::{enter, seal};

/// Invented, each hard in its own way: no place to break, many places, right to left with
/// digits of both kinds.
const NAMES: [&str; 4] = [
    "Wilhelminathaliabartholomewfeatherstonehaughcholmondeleyknatchbullhugessenmarjoribanks",
    "Anna Maria Louisa Constance of the Upper Forge beside the Long Bridge at Nether Wexcombe by the Water",
    "ليلى حداد 12",
    "נועם לוי 7b",
];
const WIDTHS: [(u32, u32, bool); 3] = [(320, 640, true), (390, 844, true), (1440, 900, false)];
const FORCED: [(&str, &str); 2] = [
    ("forced-colors", "active"),
    ("prefers-reduced-motion", "reduce"),
];

#[test]
fn long_and_right_to_left_names_turn_and_widen_nothing() {
    in_browser(|page| async move {
        let mut found = Vec::new();
        for name in NAMES {
            found.extend(look_at_pages_of(&page, name).await);
        }
        learner_with_number(&page, NAMES[2], "0815").await;
        for path in ["/", "/learners", "/pieces/new"] {
            page.go(path).await;
            found.extend(look(&page, &format!("{path} with all names")).await);
        }
        assert!(found.is_empty(), "{}", found.join("\n"));
        number_stays_behind(&page, NAMES[2], "(0815)").await;
    });
}

/// A mark sheet, its question before the seal, the sheet, the learner and the page to
/// print, all of somebody called so, marked by somebody called so.
async fn look_at_pages_of(page: &Page, name: &str) -> Vec<String> {
    let mut found = Vec::new();
    page.go("/pieces/new").await;
    page.click("[name=who][value=new]").await;
    page.fill("#name", name).await;
    page.fill("#examiner", name).await;
    found.extend(look(page, &format!("start of {name}")).await);
    page.click("form .button[data-kind=primary]").await;
    page.wait_for(".sheet .row").await;
    enter(page, "width", "130").await;
    found.extend(look(page, &format!("mark sheet of {name}")).await);
    page.click_words(".dock .button", "Seal").await;
    page.wait_for("dialog[open]").await;
    found.extend(look(page, &format!("seal of {name}")).await);
    page.keys(crate::browser::key::ESCAPE).await;
    seal(page).await;
    found.extend(look(page, &format!("sheet of {name}")).await);
    page.click(".actions a[data-kind=quiet]").await;
    page.wait_text("main", "Page to print").await;
    found.extend(look(page, &format!("learner {name}")).await);
    page.click_words(".actions a", "Page to print").await;
    page.wait_for(".one-page .paper").await;
    found.extend(look(page, &format!("print of {name}")).await);
    // A ticket may be as bad, and stands on the bench as a draft.
    page.go("/pieces/new").await;
    page.click("[name=who][value=ticket]").await;
    page.fill("#ticket", name).await;
    page.fill("#examiner", name).await;
    page.click("form .button[data-kind=primary]").await;
    page.wait_for(".sheet .row").await;
    enter(page, "width", "130").await;
    found.extend(look(page, &format!("ticket {name}")).await);
    found
}

async fn look(page: &Page, name: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (width, height, is_phone) in WIDTHS {
        page.resize(width, height, is_phone).await;
        found.extend(faults(page, &format!("{name} at {width}"), CUT).await);
    }
    found.extend(violations(page, name).await);
    found
}

async fn learner_with_number(page: &Page, name: &str, number: &str) {
    page.go("/learners").await;
    page.fill("#new", name).await;
    page.fill("#new-number", number).await;
    page.keys(crate::browser::key::ENTER).await;
    page.wait_text("main", number).await;
    page.wait_saved().await;
}

/// The number stands right of the name, as in any line from left to right; the same words
/// without marks around the name show that this is not so by itself.
async fn number_stays_behind(page: &Page, name: &str, number: &str) {
    page.go("/learners").await;
    page.wait_text(".pieces", number).await;
    let script = "const [name, number] = arguments;
        const place = (node, words) => {
            const range = document.createRange();
            const from = node.data.indexOf(words);
            range.setStart(node, from);
            range.setEnd(node, from + words.length);
            return range.getBoundingClientRect();
        };
        const is_behind = node => place(node, number).left >= place(node, name).right - 1;
        const walk = document.createTreeWalker(document.querySelector('.pieces'), NodeFilter.SHOW_TEXT);
        let own = null;
        while (walk.nextNode()) if (walk.currentNode.data.includes(number)) own = walk.currentNode;
        const plain = document.createElement('p');
        plain.textContent = `${name} ${number}`;
        document.querySelector('main').append(plain);
        return [is_behind(own), is_behind(plain.firstChild)];";
    let found = page.run(script, vec![json!(name), json!(number)]).await;
    assert_eq!(found, json!([true, false]));
}

#[test]
fn every_page_bears_large_text_no_motion_and_few_colours() {
    in_browser(|page| async move {
        let folder = shots("strain");
        let mut found = Vec::new();
        page.resize(1280, 900, false).await;
        for sight in Sight::ALL {
            sight.show(&page).await;
            let name = sight.name();
            found.extend(faults(&page, name, MOVES).await);
            for scheme in ["light", "dark"] {
                page.feign(&[FORCED[0], FORCED[1], ("prefers-color-scheme", scheme)])
                    .await;
                let name = format!("{name} in forced {scheme}");
                found.extend(faults(&page, &name, PALE).await);
                if PICTURED.contains(&sight) {
                    let picture = folder.join(format!("{}-forced-{scheme}.png", sight.name()));
                    page.whole_picture(&picture).await;
                }
            }
            page.prefer("light").await;
            enlarge(&page, "200%").await;
            for (width, height, is_phone) in [(1280, 900, false), (390, 844, true)] {
                page.resize(width, height, is_phone).await;
                let name = format!("{name} with large text at {width}");
                found.extend(faults(&page, &name, CUT).await);
                if is_phone && PICTURED.contains(&sight) {
                    let picture = folder.join(format!("{}-large-{width}.png", sight.name()));
                    page.whole_picture(&picture).await;
                }
            }
            page.resize(1280, 900, false).await;
            enlarge(&page, "").await;
        }
        assert!(
            found.is_empty(),
            "{} faults:\n{}",
            found.len(),
            found.join("\n")
        );
    });
}

/// Pages that hold something of every kind.
const PICTURED: [Sight; 5] = [
    Sight::FullMarkSheet,
    Sight::ScoredSheet,
    Sight::Learner,
    Sight::Rubric,
    Sight::Ledger,
];

/// Sets the size of all text, and waits until the page stands so.
async fn enlarge(page: &Page, size: &str) {
    page.run_async(
        "const [size, done] = arguments;
        document.documentElement.style.fontSize = size;
        requestAnimationFrame(() => requestAnimationFrame(() => done(true)));",
        vec![json!(size)],
    )
    .await;
}

async fn faults(page: &Page, name: &str, script: &str) -> Vec<String> {
    let Value::Array(found) = page.run(script, Vec::new()).await else {
        panic!("the script for {name} gives no list");
    };
    let found = found.iter().filter_map(Value::as_str);
    found.map(|fault| format!("{name}: {fault}")).collect()
}

/// What moves although the device asks for no motion.
const MOVES: &str = "
    const found = document.getAnimations().map(one => `moves: ${one.animationName ?? one.transitionProperty}`);
    const seconds = text => Math.max(...text.split(',').map(parseFloat));
    for (const one of document.querySelectorAll('*')) {
        const style = getComputedStyle(one);
        if (seconds(style.transitionDuration) > 0.01) found.push(`glides: ${one.outerHTML.slice(0, 90)}`);
        if (style.scrollBehavior !== 'auto') found.push(`scrolls smoothly: ${one.tagName}`);
    }
    return found;";

/// What is wider than the window, cut off, or lies over something else to press.
const CUT: &str = "
    const found = [];
    const across = document.documentElement;
    if (across.scrollWidth > across.clientWidth) {
        found.push(`${across.scrollWidth} px wide in ${across.clientWidth}`);
        const wide = [...document.querySelectorAll('main *, .top *')]
            .filter(one => one.getBoundingClientRect().right > across.clientWidth + 1);
        found.push(...wide.slice(0, 4).map(one => `wide: ${one.outerHTML.slice(0, 120)}`));
    }
    const seen = [...document.querySelectorAll('button, a, .tile, summary, label, select, .input, h1, h2, h3')]
        .filter(one => one.checkVisibility({ visibilityProperty: true }) && !one.closest('svg, .unseen, .skip'));
    for (const one of seen) {
        if (getComputedStyle(one).display === 'inline') continue;
        const box = one.getBoundingClientRect();
        const walk = document.createTreeWalker(one, NodeFilter.SHOW_TEXT);
        const range = document.createRange();
        while (walk.nextNode()) {
            if (walk.currentNode.parentElement.closest('.unseen')) continue;
            range.selectNodeContents(walk.currentNode);
            const off = [...range.getClientRects()].some(line => line.left < box.left - 1
                || line.right > box.right + 1 || line.top < box.top - line.height * 0.4
                || line.bottom > box.bottom + line.height * 0.4);
            if (off) {
                found.push(`cut off: ${walk.currentNode.data} in ${one.outerHTML.slice(0, 120)}`);
                break;
            }
        }
    }
    for (const one of document.querySelectorAll('main :is(p, li, dt, dd, span, b, td, th)')) {
        if (!one.checkVisibility() || one.closest('.unseen, svg, .code')) continue;
        const range = document.createRange();
        range.selectNodeContents(one);
        const lines = [...range.getClientRects()].filter(line => line.width > 0);
        const widest = Math.max(...lines.map(line => line.width));
        if (one.innerText.length > 8 && lines.length > 4 && widest < 1.6 * parseFloat(getComputedStyle(one).fontSize))
            found.push(`squeezed: ${one.innerText.slice(0, 60)} in ${one.outerHTML.slice(0, 90)}`);
    }
    // Only a dialog can be reached while one is open.
    const dialog = document.querySelector('dialog[open]');
    const press = seen.filter(one => one.matches('button, a, .tile, summary, select, input')
        && (!dialog || dialog.contains(one)));
    // What a photo's frame has scrolled away cannot be pressed.
    const pressed = one => {
        const box = one.getBoundingClientRect();
        const frame = one.closest('.photo-frame')?.getBoundingClientRect() ?? box;
        return { left: Math.max(box.left, frame.left), right: Math.min(box.right, frame.right),
            top: Math.max(box.top, frame.top), bottom: Math.min(box.bottom, frame.bottom) };
    };
    const boxes = press.map(one => [one, pressed(one), !!one.closest('.dock')]);
    boxes.forEach(([one, a, docked], at) => {
        for (const [other, b, also] of boxes.slice(at + 1)) {
            if (docked !== also || one.contains(other) || other.contains(one)) continue;
            const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
            const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
            if (wide > 1 && high > 1)
                found.push(`overlap: ${one.outerHTML.slice(0, 90)} and ${other.outerHTML.slice(0, 90)}`);
        }
    });
    return found;";

/// What of the drawings cannot be told from the page behind it, and chosen tiles that
/// look like the others. Bands keep their own colours in a frame, notches lie on bands, and
/// lines over a photo lie on the photo.
const PALE: &str = "
    const found = [];
    const probe = document.createElement('i');
    const system = name => {
        probe.style.cssText = `forced-color-adjust: none; color: ${name}`;
        return getComputedStyle(probe).color;
    };
    document.body.append(probe);
    const [canvas, highlight] = [system('Canvas'), system('Highlight')];
    probe.remove();
    if (!matchMedia('(forced-colors: active)').matches) found.push('colours are not forced');
    const parts = text => (text.match(/[\\d.]+/g) ?? []).map(Number);
    const light = text => parts(text).slice(0, 3)
        .map(part => part / 255)
        .map(part => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)
        .reduce((sum, part, at) => sum + part * [0.2126, 0.7152, 0.0722][at], 0);
    const ratio = text => {
        const [a, b] = [light(text), light(canvas)];
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    };
    const is_paint = text => text.startsWith('rgb') && parts(text)[3] !== 0;
    for (const one of document.querySelectorAll('svg :is(path, line, rect, circle, text)')) {
        // A code is dark on light whatever the colours, as no reader reads it otherwise.
        if (one.matches('.code-paper, .code-dark')) continue;
        if (one.matches('.zone, .hit, [data-band], .notch, .notch-lit') || one.closest('[data-band], .photo-plane')) continue;
        if (!one.checkVisibility()) continue;
        const style = getComputedStyle(one);
        const best = Math.max(...[style.fill, style.stroke].filter(is_paint).map(ratio), 0);
        const least = one.matches('text') ? 4.5 : one.matches('.grid-line') ? 2 : 3;
        if (best < least) found.push(`pale (${best.toFixed(1)}): ${one.outerHTML.slice(0, 100)}`);
    }
    for (const one of document.querySelectorAll('.tile:has(:checked), [aria-pressed=true]')) {
        if (one.checkVisibility() && getComputedStyle(one).backgroundColor !== highlight)
            found.push(`chosen, but not shown so: ${one.outerHTML.slice(0, 100)}`);
    }
    return found;";

/// Checks that find nothing may be ones that look at nothing.
#[test]
fn planted_strains_are_found() {
    in_browser(|page| async move {
        page.go("/").await;
        page.run(
            "document.querySelector('main').insertAdjacentHTML('beforeend',
                `<button id=cut>supercalifragilisticexpialidocious</button><button id=over>over</button>
                <svg width=20 height=20><rect id=pale class=planted width=9 height=9></rect></svg>`);
            const set = (id, style) => Object.assign(document.getElementById(id).style, style);
            set('cut', { width: '60px', padding: '0', overflowWrap: 'normal', position: 'absolute', top: '0', left: '0' });
            set('over', { position: 'absolute', top: '0', left: '20px', transition: 'color 1s' });
            set('pale', { fill: 'Canvas' });",
            Vec::new(),
        )
        .await;
        let cut = faults(&page, "bench", CUT).await.join("\n");
        assert!(cut.contains("cut off") && cut.contains("overlap"), "{cut}");
        assert!(
            faults(&page, "bench", MOVES)
                .await
                .join("\n")
                .contains("glides")
        );
        page.feign(&[("prefers-reduced-motion", "no-preference")])
            .await;
        let moves = faults(&page, "bench", MOVES).await.join("\n");
        assert!(moves.contains("scrolls smoothly: HTML"), "{moves}");
        page.feign(&FORCED).await;
        let pale = faults(&page, "bench", PALE).await.join("\n");
        assert!(pale.contains("planted"), "{pale}");
    });
}
