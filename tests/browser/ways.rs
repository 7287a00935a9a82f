//! Other ways to a photo's scale, and what else a photo may show: a ruler, a scan of a drawn
//! outline, a card, a shoe that lies foot side up or hangs over the edge of a board.

use serde_json::Value;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::photo::{BAR, BAR_KNOWN, at_gauge, known, measure_bar_shoe, wait_measured};
use crate::steps::{MAKER, start_by};

/// Rendered photos of known shoes; `tests/data/gauge/photos/README.md` tells of them.
const CLIPPED: &[u8] = include_bytes!("../data/gauge/photos/clipped.jpg");
const CLIPPED_KNOWN: &str = include_str!("../data/gauge/photos/clipped.json");
const CARD: &[u8] = include_bytes!("../data/gauge/photos/card.jpg");
const CARD_KNOWN: &str = include_str!("../data/gauge/photos/card.json");

const RIGHT: &str = "\u{e014}";
/// Fine enough for a pencil line, in dots per inch.
const DOTS: f64 = 150.0;

/// The overall width in mm and, about 95 %, how far off it may be.
async fn width(page: &Page) -> (f64, f64) {
    let row = "[...document.querySelectorAll('[data-photo=found] tr')]
        .find(row => row.cells[0].textContent.includes('Overall width'))";
    let value = page.look(&format!("{row}.cells[1].textContent")).await;
    let sure = page.look(&format!("{row}.cells[2].textContent")).await;
    let number = |words: &str| {
        let number = words.trim_matches([' ', 'm', '±', '\u{a0}']);
        number.parse().unwrap()
    };
    (number(&value), number(&sure))
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// Where the two marks of a ruler stand at first they are 0.4 of the picture apart; as long as
/// that is on the sheet, known from its corners, what is said of the width holds it. This camera
/// leaned by 16 degrees, three times as much as is allowed for as one standard uncertainty.
#[test]
fn two_marks_on_a_ruler_give_the_scale() {
    in_browser(|page| async move {
        let truth = known(BAR_KNOWN);
        at_gauge(&page, &format!("{} mm", truth["top"]["z"])).await;
        page.click_words("label.tile", "Ruler").await;
        let corner = |place: usize| {
            let at = &truth["sheet_corners_px"][place];
            (number(&at[0]), number(&at[1]))
        };
        let ((x, y), (right, down)) = (corner(0), corner(1));
        let pixels = (right - x).hypot(down - y) / 210.0;
        let mm = 0.4 * 1_600.0 / pixels;
        page.fill("#ruler-length", &format!("{mm:.1} mm")).await;
        page.choose_file("#photo-file", "shoe.jpg", BAR).await;
        page.wait_text("[data-photo=found]", "marked yet").await;
        page.wait_for("[data-handle=corner]").await;
        for name in ["First", "Second"] {
            page.focus(&format!("[data-handle=corner][aria-label^={name}]"))
                .await;
            page.keys(RIGHT).await;
        }
        wait_measured(&page).await;
        page.wait_text("[data-photo=found]", "5 degrees").await;
        let ((found, sure), known) = (width(&page).await, number(&truth["top"]["overall_width"]));
        assert!(
            (found - known).abs() < sure,
            "{found} ± {sure} mm, is {known}"
        );
    });
}

/// The outlines of a known shoe as a scan of two lines drawn 0.5 mm wide, as PNG with its density.
fn scan() -> (Vec<u8>, f64) {
    let text = include_str!("../data/gauge/outlines.json");
    let all: Vec<Value> = serde_json::from_str(text).unwrap();
    let shoe = all
        .iter()
        .find(|shoe| !shoe["inner"].as_array().unwrap().is_empty())
        .unwrap();
    let pixels = DOTS / 25.4;
    let (columns, rows) = ((200.0 * pixels) as usize, (220.0 * pixels) as usize);
    let mut light = vec![245_u8; columns * rows];
    let mut dot = |x: f64, y: f64| {
        let half = 0.25 * pixels;
        let (across, down) = (x.round() as i64, y.round() as i64);
        for row in down - 2..=down + 2 {
            for column in across - 2..=across + 2 {
                let far = (row as f64 - y).hypot(column as f64 - x);
                let at = usize::try_from(row * columns as i64 + column);
                if far <= half
                    && let Some(place) = at.ok().and_then(|at| light.get_mut(at))
                {
                    *place = 70;
                }
            }
        }
    };
    let inner = shoe["inner"].as_array().unwrap().iter();
    for ring in std::iter::once(&shoe["outer"]).chain(inner) {
        let ring: Vec<(f64, f64)> = serde_json::from_value(ring.clone()).unwrap();
        for (from, to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            for step in 0..8 {
                let share = f64::from(step) / 8.0;
                let x = from.0 + share * (to.0 - from.0);
                let y = from.1 + share * (to.1 - from.1);
                dot((100.0 + x) * pixels, (110.0 - y) * pixels);
            }
        }
    }
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, columns as u32, rows as u32);
    encoder.set_color(png::ColorType::Grayscale);
    let per_metre = (DOTS / 0.0254).round() as u32;
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: per_metre,
        yppu: per_metre,
        unit: png::Unit::Meter,
    }));
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(&light).unwrap();
    writer.finish().unwrap();
    (file, number(&shoe["truth"]["overall_width"]))
}

/// Its density comes with the file; the line's middle is the outline, to a pixel of 0.17 mm.
#[test]
fn a_scan_of_a_drawn_outline_is_measured() {
    in_browser(|page| async move {
        at_gauge(&page, "10 mm").await;
        page.click_words("label.tile", "Scan").await;
        page.wait_for("#scan-dots").await;
        let (file, known) = scan();
        page.choose_file("#photo-file", "drawn.png", &file).await;
        wait_measured(&page).await;
        page.wait_text("[data-photo=found]", "pencil").await;
        let (found, _) = width(&page).await;
        assert!((found - known).abs() < 0.4, "{found} mm, is {known}");
    });
}

/// Turned over, the left branch of the photo fills the reading of the right.
#[test]
fn foot_side_up_the_sides_change_places() {
    in_browser(|page| async move {
        measure_bar_shoe(&page).await;
        let reading = "[...document.querySelectorAll('[data-photo=rows] tr')]
            .find(row => row.cells[0].textContent.includes('Branch chord left')).cells[3].textContent";
        let before = page.look(reading).await;
        assert!(before.contains("left"), "{before}");
        page.click_words("label.tile", "The shoe, foot side up")
            .await;
        let turned = "[...document.querySelectorAll('[data-photo=rows] tr')]
            .find(row => row.cells[0].textContent.includes('Branch chord left'))?.cells[3].textContent.includes('right')";
        page.wait("the sides changed", turned).await;
        let holes = "document.querySelectorAll('.photo-plane .nail-hole').length";
        assert_eq!(page.look(&format!("String({holes})")).await, "0");
    });
}

/// A card beside the shoe, all of it on white: the width lies in its interval, and it is said what
/// a card is good for.
#[test]
fn a_card_beside_the_shoe_gives_the_scale() {
    in_browser(|page| async move {
        let truth = known(CARD_KNOWN);
        at_gauge(&page, &format!("{} mm", truth["top"]["z"])).await;
        page.click_words("label.tile", "Card").await;
        page.choose_file("#photo-file", "card.jpg", CARD).await;
        wait_measured(&page).await;
        let ((found, sure), known) = (width(&page).await, number(&truth["top"]["overall_width"]));
        assert!(sure < 2.0, "{sure}");
        assert!(
            (found - known).abs() < sure,
            "{found} ± {sure} mm, is {known}"
        );
    });
}

/// A shoe with a clip at the toe is measured ground side up once it is said that the clip hangs
/// over the edge of a board, and what rests on the toe stays blank.
#[test]
fn a_toe_that_hangs_over_a_board_is_left_blank() {
    in_browser(|page| async move {
        let truth = known(CLIPPED_KNOWN);
        start_by(&page, "concave-front-shoe", MAKER).await;
        page.click_words(".tools a", "Photo gauge").await;
        page.wait_for("#photo-file").await;
        page.fill("#thickness", &format!("{} mm", truth["top"]["z"]))
            .await;
        page.choose_file("#photo-file", "clipped.jpg", CLIPPED)
            .await;
        page.wait_text("#photo-over-edge-error", "rests on its clips")
            .await;
        page.click("#photo-over-edge").await;
        wait_measured(&page).await;
        page.wait_text("[data-photo=found]", "at the toe a clip hangs")
            .await;
        let ((found, _), known) = (width(&page).await, number(&truth["top"]["overall_width"]));
        assert!((found - known).abs() < 0.6, "{found} mm, is {known}");
        let told = page.text("[data-photo=rows]").await;
        assert!(!told.contains("Toe radius"), "{told}");
    });
}
