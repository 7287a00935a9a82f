//! What learners are handed: practice card, talk, portfolio, and those of a class; and sheets
//! that are filled in by hand and typed in.

use crate::browser::{Page, key};
use crate::documents::{ask, made};
use crate::harness::in_browser;
use crate::invented::look_round;
use crate::steps::{seal, start_piece_of};

/// Opens the learner of the invented school whose page is asked for by name.
async fn open_invented(page: &Page, name: &str) {
    page.go("/").await;
    look_round(page).await;
    page.go("/learners").await;
    page.click_words(".piece a", name).await;
    page.wait_for("#practice").await;
}

#[test]
fn what_to_practise_is_talked_about_and_taken_along() {
    in_browser(|page| async move {
        open_invented(&page, "Aoife Brannockly").await;
        page.click_words("main .button", "Talk it over").await;
        page.wait_for(".talk li").await;
        let count = page
            .look("document.querySelectorAll('.talk > li').length")
            .await;
        assert_eq!(count, "3");
        assert!(page.shows(".talk svg").await);
        // No marks are on it.
        let said = page.text("main").await;
        assert!(
            !said.contains(" of 100") && !said.contains("marks in"),
            "{said}"
        );
        page.click_words("summary", "Marks of the latest piece")
            .await;
        let said = page.text(".numbers-behind p").await;
        assert!(said.contains(" of 100, "), "{said}");
        page.click_words("main .button", "Practice card").await;
        page.wait_for(".card-sized .paper").await;
        ask(&page, "Save as a file").await;
        let sizes = "[...document.querySelectorAll('[name=paper]')].map(one => one.value).join()";
        assert_eq!(page.look(sizes).await, "a6,a5");
        let (name, bytes) = made(&page, ".pdf").await;
        assert!(
            name.ends_with("to-practise-next_practice-card.pdf"),
            "{name}"
        );
        // 105 mm by 148 mm in points, of 25.4 mm an inch and 72 to it.
        let has = |what: &[u8]| bytes.windows(what.len()).any(|part| part == what);
        assert!(has(b"297.6") && has(b"419.5"));
    });
}

#[test]
fn a_portfolio_holds_what_is_ticked() {
    in_browser(|page| async move {
        open_invented(&page, "Aoife Brannockly").await;
        page.click_words(".page-head .button", "Portfolio").await;
        page.wait_for(".paper .table").await;
        let pieces = "String(document.querySelectorAll('.paper h3').length)";
        let all: usize = page.look(pieces).await.parse().unwrap();
        assert!(all > 3);
        page.click(".tile[data-kind=check]").await;
        page.wait("one piece less", &format!("{pieces} === '{}'", all - 1))
            .await;
        ask(&page, "Save as a file").await;
        let (name, bytes) = made(&page, ".pdf").await;
        assert!(name.contains("aoife-brannockly_portfolio"), "{name}");
        assert!(bytes.starts_with(b"%PDF-"));
        page.click("[name=kind][value=text]").await;
        let (_, bytes) = made(&page, ".txt").await;
        let text = String::from_utf8(bytes).unwrap();
        assert!(
            text.starts_with("Aoife Brannockly\n================\nPortfolio"),
            "{text}"
        );
        assert!(text.contains("UNIT-BAR"));
    });
}

#[test]
fn cards_of_a_class_are_made_in_one_go() {
    in_browser(|page| async move {
        page.go("/").await;
        look_round(&page).await;
        page.go("/learners").await;
        page.click_words(".page-head .button", "For a class").await;
        page.wait_for("[name=handout]").await;
        page.click("[name=handout][value=practice-card]").await;
        ask(&page, "Save all as files").await;
        page.click("[name=binding][value=zip]").await;
        let (name, zip) = made(&page, ".zip").await;
        assert!(name.contains("class_practice-card"), "{name}");
        let cards = zip.windows(5).filter(|part| *part == b"%PDF-").count();
        let learners = "document.querySelectorAll('.tile[data-kind=check]').length";
        let learners: usize = page.look(learners).await.parse().unwrap();
        assert!(cards > 5 && cards <= learners, "{cards} of {learners}");
        page.click_words("dialog[open] button", "Close").await;
        page.click("[name=handout][value=learner-record]").await;
        ask(&page, "Save all as files").await;
        let (name, one) = made(&page, ".pdf").await;
        assert!(name.contains("class_learner-record"), "{name}");
        assert!(one.starts_with(b"%PDF-"));
    });
}

/// By keyboard alone from one number to the next; who typed stands on the scored sheet.
#[test]
fn a_sheet_filled_in_by_hand_is_typed_in_by_its_numbers() {
    in_browser(|page| async move {
        start_piece_of(&page, "Paper Pell").await;
        page.click_words(".tools .button", "On paper").await;
        page.wait_for(".from-paper").await;
        ask(&page, "Save as a file").await;
        let (name, bytes) = made(&page, ".pdf").await;
        assert!(name.ends_with("blank-sheet.pdf"), "{name}");
        assert!(bytes.starts_with(b"%PDF-"));
        page.click_words("dialog[open] button", "Close").await;
        page.fill("#typist", "Bea Typist").await;
        page.fill("#go-to", "1").await;
        page.keys(key::ENTER).await;
        page.wait("number 1", "document.activeElement.id === 'n-1'")
            .await;
        page.keys("9.5").await;
        page.keys(key::ENTER).await;
        page.keys("1").await;
        page.keys(key::ENTER).await;
        page.keys("ab").await;
        page.keys(key::ENTER).await;
        page.wait("number 4", "document.activeElement.id === 'n-4'")
            .await;
        // A wrong level stays as it was typed, with what would do.
        page.keys("99").await;
        page.wait_text("#n-4-error", "Write one of these").await;
        page.keys(key::ENTER).await;
        page.wait_saved().await;
        page.reload().await;
        page.wait_for(".from-paper").await;
        let value = |id: &str| format!("document.getElementById('{id}').value");
        assert_eq!(page.look(&value("n-1")).await, "9.5");
        assert_eq!(page.look(&value("n-2")).await, "1");
        assert_eq!(page.look(&value("n-3")).await, "ab");
        assert_eq!(page.look(&value("typist")).await, "Bea Typist");
        page.fill("#n-4", "5").await;
        page.fill("#n-9", "cm 1 Bar broke off").await;
        // Comments by number: one that names no number stays, and says what it lacks.
        let notes = "[...document.querySelectorAll('.from-paper textarea')].at(-1).id";
        let notes = page.look(notes).await;
        page.fill(&format!("#{notes}"), "Crooked").await;
        let wrong = format!("#{notes}-error");
        page.wait_text(&wrong, "Begin with the number").await;
        page.fill(&format!("#{notes}"), "4 Crooked at the toe")
            .await;
        page.wait_saved().await;
        page.reload().await;
        page.wait_for(".from-paper").await;
        assert_eq!(page.look(&value("n-9")).await, "cm 1 Bar broke off");
        assert_eq!(page.look(&value(&notes)).await, "4 Crooked at the toe");
        page.click_words(".page-head .button", "Mark sheet").await;
        page.wait_for(".dock .button").await;
        seal(&page).await;
        page.wait_text(".paper", "Typed in from paper by").await;
        page.wait_text(".paper", "Bea Typist").await;
        page.wait_text(".paper", "Crooked at the toe").await;
        page.wait_text(".paper", "Bar broke off").await;
    });
}
