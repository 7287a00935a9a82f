//! Pictures: examples beside the levels of a rubric, photos of a piece, and where they go.

use evenshod::present::rubrics::BLANK;
use evenshod::records::{Bundle, Media};
use serde_json::{Value, json};

use crate::browser::Page;
use crate::harness::in_browser;
use crate::impression::keep_and_begin;
use crate::ledger::{forget_all, stored};
use crate::rubrics::open_part;
use crate::steps::{MAKER, fits_across, seal, start_piece};
use crate::verify::{save_json, verify};

/// A shoe drawn by `tests/data/pictures/make.py`, stored lying on its side, 2400 by 1600,
/// with where it was taken. Red is at the bottom left of what was seen.
pub(crate) const SIDEWAYS: &[u8] = include_bytes!("../data/pictures/sideways.jpg");

/// A small picture, clear but for a dark bar across its middle.
const CLEAR: &[u8] = include_bytes!("../data/pictures/clear.png");

/// The photo field of the first level of the judged criterion in [`judged`].
const PHOTO: &str = "#f-sections-0-criteria-1-levels-0-photo";

/// The blank rubric with a criterion by eye, as text.
fn judged(title: &str) -> String {
    let id = title.to_lowercase().replace(' ', "-");
    let text = BLANK
        .replace("id = \"our-shoe\"", &format!("id = \"{id}\""))
        .replace("title = \"Our shoe\"", &format!("title = \"{title}\""));
    format!(
        "{text}
[[sections.criteria]]
id = \"outline\"
name = \"Outline\"
kind = \"judged\"
levels = [
  {{ id = \"even\", name = \"Even\", text = \"Both branches alike.\", marks = 6 }},
  {{ id = \"odd\", name = \"Odd\", text = \"Nobody would call them a pair.\", marks = 0 }},
]
"
    )
}

/// Opens a rubric of one's own in the forms, at its levels.
pub(crate) async fn at_levels(page: &Page, title: &str) {
    page.go("/rubrics").await;
    page.choose_file("input[type=file]", "ours.toml", judged(title).as_bytes())
        .await;
    page.wait_text("#rubric-state", "Ready: 10 marks in all.")
        .await;
    open_part(page, "part-sections-0").await;
    open_part(page, "part-sections-0-criteria-1").await;
}

/// Gives the first level its photo.
pub(crate) async fn give_example(page: &Page) {
    give(page, "even.jpg", SIDEWAYS).await;
}

/// Gives it another one, and takes it off again.
pub(crate) async fn give_and_take_off(page: &Page) {
    give(page, "clear.png", CLEAR).await;
    page.click_words("#part-sections-0 button", "Take the photo off")
        .await;
    page.wait_saved().await;
}

async fn give(page: &Page, name: &str, bytes: &[u8]) {
    page.choose_file(PHOTO, name, bytes).await;
    page.wait_for("#part-sections-0-criteria-1 img.picture")
        .await;
    page.wait_saved().await;
}

/// Adds a photo to the mark sheet that is open, and what it shows.
pub(crate) async fn add_photo(page: &Page, note: &str) {
    page.choose_file("#add-photo", "shoe.jpg", SIDEWAYS).await;
    page.fill("#photo-1", note).await;
    page.wait_saved().await;
}

/// Digests of all stored pictures with their sizes in bytes; one whose bytes are missing
/// has none.
async fn stored_pictures(page: &Page) -> Vec<(String, u64)> {
    let script = "const done = arguments[arguments.length - 1];
        indexedDB.open('evenshod').onsuccess = opened => {
            const store = opened.target.result.transaction('pictures').objectStore('pictures');
            const keys = store.getAllKeys();
            store.getAll().onsuccess = all => {
                opened.target.result.close();
                done(keys.result.map((key, at) => [key, all.target.result[at].length]));
            };
        };";
    let found = page.run_async(script, vec![]).await;
    serde_json::from_value(found).unwrap()
}

/// Width and height of the picture that `selector` shows, once it is drawn, and the colour
/// near its bottom left.
async fn drawn(page: &Page, selector: &str) -> (u64, u64, Vec<u64>) {
    let ready = format!("document.querySelector(\"{selector}\")?.naturalWidth > 0");
    page.wait("the picture to be drawn", &ready).await;
    let script = "const image = document.querySelector(arguments[0]);
        const canvas = document.createElement('canvas');
        canvas.width = image.naturalWidth; canvas.height = image.naturalHeight;
        const context = canvas.getContext('2d');
        context.drawImage(image, 0, 0);
        const at = [canvas.width * 0.15, canvas.height * 0.92];
        return [canvas.width, canvas.height, [...context.getImageData(...at, 1, 1).data]];";
    let found = page.run(script, vec![json!(selector)]).await;
    serde_json::from_value(found).unwrap()
}

fn is_red(colour: &[u64]) -> bool {
    colour[0] > 150 && colour[1] < 110 && colour[2] < 90
}

#[test]
fn an_example_stands_beside_its_level_upright_and_small() {
    in_browser(|page| async move {
        at_levels(&page, "Even shoe").await;
        give_example(&page).await;
        // Twelve hundred pixels of the longer side, as it was seen and not as it lay.
        let (width, height, colour) = drawn(&page, "#part-sections-0 img.picture").await;
        assert_eq!((width, height), (800, 1200));
        assert!(is_red(&colour), "{colour:?}");
        keep_and_begin(&page, "Even shoe").await;
        let tile = ".row .tile.level img.picture";
        assert_eq!(drawn(&page, tile).await.0, 800);
        let alt = page
            .look(&format!("document.querySelector('{tile}').alt"))
            .await;
        assert_eq!(alt, "An example of Even");
        page.click_words(".tile.level", "Even").await;
        page.wait_text("#outline > .marks", "6 of 6").await;
        page.wait_saved().await;
        page.reload().await;
        assert_eq!(drawn(&page, tile).await.1, 1200);
        for width in [320, 390, 820] {
            page.resize(width, 900, width < 600).await;
            fits_across(&page, "levels with a photo").await;
        }
        // In the rubric as people read it.
        page.go("/rubrics").await;
        page.click_words("main a", "Even shoe").await;
        assert_eq!(drawn(&page, ".paper figure img.picture").await.0, 800);
        page.wait_text(".paper figure figcaption", "Even").await;
        // Camera and place were in the file and are in nothing that is kept.
        let stored = stored_pictures(&page).await;
        assert_eq!(stored.len(), 1);
        assert!(stored[0].1 < 120_000, "{stored:?}");
    });
}

#[test]
fn a_photo_is_taken_off_undone_and_one_that_nothing_names_is_thrown_away() {
    in_browser(|page| async move {
        at_levels(&page, "Off shoe").await;
        give_example(&page).await;
        page.click_words("#part-sections-0 button", "Take the photo off")
            .await;
        page.wait("the photo to go", "!document.querySelector('img.picture')")
            .await;
        page.click_words(".work-tools button, .page-head button, main button", "Undo")
            .await;
        page.wait_for("#part-sections-0 img.picture").await;
        page.click_words("#part-sections-0 button", "Take the photo off")
            .await;
        page.wait_saved().await;
        page.go("/ledger").await;
        page.wait_text("#unused-pictures ~ *", "1 picture is named by no rubric")
            .await;
        page.click_words("main button", "Throw them away").await;
        page.click_words("dialog[open] button", "Throw them away")
            .await;
        page.wait(
            "the part to go",
            "!document.querySelector('#unused-pictures')",
        )
        .await;
        page.wait_saved().await;
        assert_eq!(stored_pictures(&page).await, []);
    });
}

#[test]
fn photos_of_a_piece_go_onto_its_sheet_into_the_file_and_back() {
    in_browser(|page| async move {
        start_piece(&page).await;
        add_photo(&page, "ground side, the bar").await;
        let shown = ".rows figure img.picture";
        let (width, height, colour) = drawn(&page, shown).await;
        assert_eq!((width, height), (1200, 1800));
        assert!(is_red(&colour), "{colour:?}");
        // The same again is the same photo.
        page.choose_file("#add-photo", "again.jpg", SIDEWAYS).await;
        page.wait_saved().await;
        let count = "document.querySelectorAll('.rows figure img.picture').length";
        assert_eq!(page.value(count).await, 1);
        seal(&page).await;
        assert_eq!(drawn(&page, ".paper figure img.picture").await.1, 1800);
        page.wait_text(
            ".paper figure:has(img) figcaption",
            "Photo 1: ground side, the bar",
        )
        .await;
        let sheet = page.path().await;

        // The sealed file has the digest, salted, and the text to check it by.
        let json: Value = serde_json::from_slice(&save_json(&page).await).unwrap();
        let digest = stored_pictures(&page).await[0].0.clone();
        let text = json["personal"]["photo/001"]["text"].as_str().unwrap();
        assert_eq!(text, format!("{digest} ground side, the bar"));
        assert!(!json["document"].to_string().contains(&digest));

        page.go("/ledger").await;
        page.click("#save-all").await;
        page.wait_text("#saved-words", "evenshod-ledger-").await;
        let bytes = page.download_named("evenshod-ledger-").await;
        let bundle = Bundle::read(&bytes).unwrap();
        let picture = bundle.picture(&digest).unwrap();
        assert_eq!(Media::of(picture), Some(Media::Jpeg));
        let has = |what: &[u8]| picture.windows(what.len()).any(|part| part == what);
        assert!(!has(b"Exif") && !has(b"No camera"));
        forget_all(&page).await;
        page.go("/ledger").await;
        page.choose_file("#ledger-file", "copy.json", &bytes).await;
        page.click_words("main button", "Take it over").await;
        page.wait_text("#ledger-says", "Taken over and stored")
            .await;
        page.go(&sheet).await;
        assert_eq!(drawn(&page, ".paper figure img.picture").await.1, 1800);

        // Erased, it is nowhere on this device, and the marks stand.
        page.click_words("main button", "Erase comments and photos")
            .await;
        page.click_words("dialog[open] button", "Erase them").await;
        page.wait_text(".paper", "Marks intact, personal text erased on")
            .await;
        page.wait_text(".paper", "Photo 1: erased since sealing")
            .await;
        page.wait_saved().await;
        assert_eq!(stored_pictures(&page).await, []);
        assert!(!page.shows(".paper img").await);
    });
}

#[test]
fn what_is_no_picture_is_refused_and_a_missing_one_says_so() {
    in_browser(|page| async move {
        start_piece(&page).await;
        page.choose_file("#add-photo", "notes.jpg", b"not a picture")
            .await;
        page.wait_text(
            "#add-photo-error",
            "notes.jpg is no picture that this browser can open",
        )
        .await;
        page.choose_file("#add-photo", "half.jpg", &SIDEWAYS[..300])
            .await;
        page.wait_text("#add-photo-error", "half.jpg is no picture")
            .await;
        assert_eq!(stored_pictures(&page).await, []);
        // The field takes the next one, and the message goes.
        add_photo(&page, "").await;
        page.wait(
            "the message to go",
            "document.querySelector('#add-photo-error').textContent === ''",
        )
        .await;
        let lose = "const done = arguments[arguments.length - 1];
            indexedDB.open('evenshod').onsuccess = opened => {
                const change = opened.target.result.transaction('pictures', 'readwrite');
                change.objectStore('pictures').clear();
                change.oncomplete = () => { opened.target.result.close(); done(null); };
            };";
        page.run_async(lose, vec![]).await;
        page.reload().await;
        page.wait_text("[data-state=missing]", "This picture is not on this device")
            .await;
    });
}

/// Version 1 of the database had records only.
#[test]
fn a_database_of_before_gets_room_for_pictures_and_keeps_its_records() {
    in_browser(|page| async move {
        let piece = start_piece(&page).await;
        page.wait_saved().await;
        let records = stored(&page).await;
        let origin = page.look("location.origin").await;
        let old = "const done = arguments[arguments.length - 1];
            const gone = indexedDB.deleteDatabase('evenshod');
            gone.onsuccess = () => {
                const asked = indexedDB.open('evenshod', 1);
                asked.onupgradeneeded = () => asked.result.createObjectStore('records');
                asked.onsuccess = () => {
                    const change = asked.result.transaction('records', 'readwrite');
                    for (const [key, text] of JSON.parse(arguments[0])) {
                        change.objectStore('records').put(text, key);
                    }
                    change.oncomplete = () => { asked.result.close(); done(location.origin); };
                };
            };";
        assert_eq!(
            page.run_async(old, vec![json!(records)]).await,
            json!(origin)
        );
        page.go(&piece).await;
        page.wait_for(".sheet .row").await;
        add_photo(&page, "after the change").await;
        assert_eq!(stored_pictures(&page).await.len(), 1);
    });
}

#[test]
fn an_erased_learner_has_no_name_anywhere_and_the_marks_stand() {
    in_browser(|page| async move {
        start_piece(&page).await;
        add_photo(&page, "by the door").await;
        page.fill("#overall", "Asa hurried the weld.").await;
        page.wait_saved().await;
        let draft = page.path().await;
        page.go("/learners").await;
        page.click_words(".piece a", MAKER).await;
        page.wait_text("h1", MAKER).await;
        let learner = page.path().await;
        erase_learner(&page).await;
        page.wait_text(
            "main, .notices",
            "1 of this learner’s markings is not sealed",
        )
        .await;
        page.go(&draft).await;
        page.wait_for(".sheet .row").await;
        seal(&page).await;
        let sheet = page.path().await;
        page.go(&learner).await;
        erase_learner(&page).await;
        page.wait_text("h1", "name erased").await;
        page.wait_text(".learner-facts", "Name and details erased")
            .await;
        assert!(!page.shows("#details-button").await);
        page.wait_saved().await;
        let stored = stored(&page).await;
        assert!(
            !stored.contains(MAKER) && !stored.contains("Asa"),
            "{stored}"
        );
        assert_eq!(stored_pictures(&page).await, []);
        page.go(&sheet).await;
        page.wait_text(".paper", "The learner’s name: erased since sealing")
            .await;
        page.wait_text(".paper", "Marks intact, personal text erased on")
            .await;
        let json = save_json(&page).await;
        verify(&page, &json).await;
        page.wait_text("main", "intact").await;
        page.go("/pieces/new").await;
        page.wait_for("#name, [name=who]").await;
        assert!(!page.text("main").await.contains("name erased"));
    });
}

async fn erase_learner(page: &Page) {
    page.click("#details-button").await;
    page.click_words("#details button", "Erase this learner")
        .await;
    page.click_words("dialog[open] button", "Erase them").await;
}

#[test]
fn what_is_clear_becomes_paper_and_what_is_small_stays_so() {
    in_browser(|page| async move {
        at_levels(&page, "Clear shoe").await;
        give(&page, "clear.png", CLEAR).await;
        let (width, height, colour) = drawn(&page, "#part-sections-0 img.picture").await;
        assert_eq!((width, height), (60, 40));
        assert!(colour[..3].iter().all(|part| *part > 245), "{colour:?}");
    });
}
