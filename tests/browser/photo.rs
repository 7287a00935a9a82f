//! The photo gauge: real JPEGs through the worker, onto the mark sheet and back.

use serde_json::{Value, json};

use crate::browser::Page;
use crate::harness::in_browser;
use crate::steps::{enter, held, start_bar_shoe};

/// Rendered photos of known shoes; `tests/data/gauge/photos/README.md` tells of them.
pub(crate) const BAR: &[u8] = include_bytes!("../data/gauge/photos/bar.jpg");
pub(crate) const BAR_KNOWN: &str = include_str!("../data/gauge/photos/bar.json");
const COVERED: &[u8] = include_bytes!("../data/gauge/photos/covered.jpg");
const COVERED_KNOWN: &str = include_str!("../data/gauge/photos/covered.json");

pub(crate) fn known(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

/// Starts a bar shoe and opens the photo gauge from its sheet.
pub(crate) async fn at_gauge(page: &Page, thickness: &str) -> String {
    let sheet = start_bar_shoe(page).await;
    page.click_words(".tools a", "Photo gauge").await;
    page.wait_for("#photo-file").await;
    page.fill("#thickness", thickness).await;
    sheet
}

/// Has the bar shoe's photo measured; the address of its sheet.
pub(crate) async fn measure_bar_shoe(page: &Page) -> String {
    let thickness = format!("{} mm", known(BAR_KNOWN)["top"]["z"]);
    let sheet = at_gauge(page, &thickness).await;
    page.choose_file("#photo-file", "shoe.jpg", BAR).await;
    wait_measured(page).await;
    sheet
}

/// Has a photo with a covered corner refused, and its corners ready to be marked.
pub(crate) async fn refuse_covered_corner(page: &Page) {
    let thickness = format!("{} mm", known(COVERED_KNOWN)["top"]["z"]);
    at_gauge(page, &thickness).await;
    page.choose_file("#photo-file", "covered.jpg", COVERED)
        .await;
    page.wait_text("[data-photo=found]", "The corner of the sheet")
        .await;
    page.click_words("[data-photo=found] .button", "Move corners")
        .await;
    page.wait_for(".photo-corner").await;
}

pub(crate) async fn wait_measured(page: &Page) {
    page.wait_for(".photo-plane .measure").await;
    page.wait("the work to be done", "!document.querySelector('.stages')")
        .await;
}

/// The value of a measure, as its row shows it, without its unit.
async fn value(page: &Page, name: &str) -> f64 {
    let words = page
        .look(&format!(
            "[...document.querySelectorAll('[data-photo=rows] tr')]
                .find(row => row.cells[0].textContent.includes('{name}')).cells[1].textContent"
        ))
        .await;
    let number = words.trim_end_matches([' ', 'm', '°', '\u{a0}']);
    number.replace('\u{2212}', "-").parse().unwrap()
}

/// Measured, looked at, taken, kept over a reload, and taken back.
#[test]
fn a_shoe_is_measured_in_a_photo_and_its_readings_taken() {
    in_browser(|page| async move {
        page.resize(390, 844, true).await;
        let sheet = measure_bar_shoe(&page).await;
        let truth = &known(BAR_KNOWN)["top"];
        for (name, known) in [
            ("Overall width", &truth["overall_width"]),
            ("Overall length", &truth["overall_length"]),
            ("Bar width", &truth["bar"]["width_on_axis"]),
        ] {
            let (value, known) = (value(&page, name).await, known.as_f64().unwrap());
            assert!((value - known).abs() < 0.6, "{name}: {value} for {known}");
        }
        // What is pointed at in the list is drawn in the photo.
        page.click_words("[data-photo=rows] button", "1. Overall width")
            .await;
        page.wait_for(".photo-plane .measure[data-pointed]").await;
        page.click_words("[data-photo=found] .button", "Take 9 readings")
            .await;
        page.wait_text("#photo-said", "9 readings are on the mark sheet")
            .await;
        page.wait_saved().await;
        page.go(&sheet).await;
        page.reload().await;
        page.wait_for("#r-width").await;
        let width: f64 = held(&page, "#r-width")
            .await
            .trim_end_matches(" mm")
            .parse()
            .unwrap();
        assert!((width - truth["overall_width"].as_f64().unwrap()).abs() < 0.6);
        page.wait_for(".figures img.picture").await;
        let note = held(&page, "#photo-1").await;
        assert!(
            note.contains("sheet A4") && note.contains("SHA-256"),
            "{note}"
        );
    });
}

/// A reading by hand is not replaced unasked, and what is taken can be taken back.
#[test]
fn what_is_taken_from_a_photo_can_be_undone() {
    in_browser(|page| async move {
        let sheet = start_bar_shoe(&page).await;
        enter(&page, "width", "131").await;
        page.click_words(".tools a", "Photo gauge").await;
        page.wait_for("#photo-file").await;
        page.choose_file("#photo-file", "shoe.jpg", BAR).await;
        wait_measured(&page).await;
        page.wait_text("[data-photo=rows]", "(now 131)").await;
        page.click_words("[data-photo=found] .button", "Take 8 readings")
            .await;
        page.wait_text("#photo-said", "8 readings are on the mark sheet")
            .await;
        page.click_words("[data-photo=found] .button", "Undo").await;
        page.wait_text("#photo-said", "as they were").await;
        page.wait_saved().await;
        page.go(&sheet).await;
        page.wait_for("#r-width").await;
        assert_eq!(held(&page, "#r-width").await, "131");
        assert_eq!(held(&page, "#r-length").await, "");
        assert!(!page.shows(".figures img.picture").await);
    });
}

/// A photo with a covered corner says so, and is measured by corners that are marked.
#[test]
fn corners_can_be_marked_where_one_is_covered() {
    in_browser(|page| async move {
        let truth = known(COVERED_KNOWN);
        refuse_covered_corner(&page).await;
        for (place, corner) in truth["sheet_corners_px"]
            .as_array()
            .unwrap()
            .iter()
            .enumerate()
        {
            drag(&page, place, corner).await;
        }
        wait_measured(&page).await;
        let (width, known) = (
            value(&page, "Overall width").await,
            &truth["top"]["overall_width"],
        );
        let known = known.as_f64().unwrap();
        assert!((width - known).abs() < 1.0, "{width} for {known}");
        // With the keys a corner moves too, and all is measured anew.
        page.focus(".photo-corner").await;
        page.keys("\u{e014}").await;
        page.wait_for(".stages").await;
        wait_measured(&page).await;
    });
}

/// Adds a point to the edge by keys, after which all is measured anew.
pub(crate) async fn add_edge_point(page: &Page) {
    page.click_words("[data-photo=found] .button", "Move edge")
        .await;
    page.wait_text("#photo-edge", "Points on the edge: 0").await;
    page.focus("[aria-label='Points on the edge'] button").await;
    page.keys("\u{e007}").await;
    page.wait_for("[data-handle=edge]:focus").await;
    page.wait_for(".stages").await;
    wait_measured(page).await;
}

/// A point on the edge is added, moved and taken off by keys alone, and all is measured anew
/// each time.
#[test]
fn the_edge_is_moved_by_keys() {
    const LEFT: &str = "\u{e012}";
    const DELETE: &str = "\u{e017}";
    in_browser(|page| async move {
        measure_bar_shoe(&page).await;
        add_edge_point(&page).await;
        page.wait_text("#photo-edge", "Held: Point 1 of 1").await;
        page.wait_for("[data-handle=edge]:focus").await;
        page.keys(LEFT).await;
        page.wait_for(".stages").await;
        wait_measured(&page).await;
        page.click_words("[data-photo=found] .button", "Take 9 readings")
            .await;
        page.wait_text("#photo-said", "9 readings are on the mark sheet")
            .await;
        page.focus("[data-handle=edge]").await;
        page.keys(DELETE).await;
        page.wait_for(".stages").await;
        wait_measured(&page).await;
        page.wait_text("#photo-edge", "Points on the edge: 0").await;
        assert!(!page.shows("[data-handle=edge]").await);
    });
}

/// Drags a handle to a place of the photo, in its pixels.
async fn drag(page: &Page, place: usize, to: &Value) {
    let script = "const [place, [x, y]] = arguments;
        const handle = document.querySelectorAll('.photo-corner')[place];
        const plane = handle.parentElement.getBoundingClientRect();
        const at = { clientX: plane.left + (x + 0.5) / 1600 * plane.width,
            clientY: plane.top + (y + 0.5) / 1200 * plane.height, pointerId: 1, bubbles: true };
        for (const what of ['pointerdown', 'pointermove', 'pointerup'])
            handle.dispatchEvent(new PointerEvent(what, at));";
    page.run(script, vec![json!(place), to.clone()]).await;
}

#[test]
fn measuring_can_be_stopped() {
    in_browser(|page| async move {
        at_gauge(&page, "10").await;
        page.choose_file("#photo-file", "shoe.jpg", BAR).await;
        page.wait_for(".stages").await;
        page.click_words("[data-photo=found] .button", "Stop").await;
        page.wait_text("[data-photo=found]", "Stopped before").await;
        page.choose_file("#photo-camera", "no.jpg", b"not a photo")
            .await;
        page.wait_text(".photo-page [role=alert]", "no.jpg is no picture")
            .await;
        page.click_words("[data-photo=found] .button", "Measure it again")
            .await;
        wait_measured(&page).await;
    });
}

macro_rules! hostile {
    ($name:literal) => {
        include_bytes!(concat!("../data/gauge/files/", $name))
    };
}

/// A sheet of A4 with nothing on it, as PNG.
fn bare_sheet() -> Vec<u8> {
    let is_paper = |x: usize, y: usize| (103..697).contains(&x) && (90..510).contains(&y);
    let places = (0..600).flat_map(|y| (0..800).map(move |x| (x, y)));
    let light: Vec<u8> = places
        .map(|(x, y)| if is_paper(x, y) { 235 } else { 60 })
        .collect();
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, 800, 600);
    encoder.set_color(png::ColorType::Grayscale);
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(&light).unwrap();
    writer.finish().unwrap();
    file
}

/// Whatever is chosen, it is said what is wrong with it, by the gauge or because this browser opens
/// no such file, and the next file is measured, whatever its name ends in.
#[test]
fn files_that_cannot_be_measured_say_why() {
    in_browser(|page| async move {
        at_gauge(&page, "10").await;
        let (half, bare) = (&BAR[..BAR.len() / 2], bare_sheet());
        let files: [(&str, &[u8], &str); 8] = [
            ("passes.jpg", hostile!("progressive.jpg"), "not measured"),
            ("half.jpg", half, "ends before its picture does"),
            ("dot.png", hostile!("dot.png"), "too small to measure"),
            ("huge.png", hostile!("huge.png"), "million can be measured"),
            ("inks.jpg", hostile!("cmyk.jpg"), "CMYK"),
            ("moving.webp", hostile!("moving.webp"), "which moment"),
            ("empty.jpg", b"", "the file is empty"),
            ("bare.png", &bare, "shoe was found"),
        ];
        for (name, bytes, words) in files {
            page.choose_file("#photo-file", name, bytes).await;
            let said = format!(
                "[...document.querySelectorAll('.photo-page [role=alert], [data-photo=found]')]
                    .some(one => one.innerText.includes({})
                        || one.innerText.includes({}))",
                json!(words),
                json!(format!("{name} is no picture")),
            );
            page.wait(&format!("{words:?} of {name}"), &said).await;
        }
        page.choose_file("#photo-file", "shoe.png", BAR).await;
        wait_measured(&page).await;
    });
}
