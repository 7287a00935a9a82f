//! Marks as tables: a workbook and CSV of a piece and of a sitting, and a college's own columns.

use crate::browser::Page;
use crate::documents::largest_sitting;
use crate::harness::in_browser;
use crate::invented::look_round;
use crate::keyboard::mark_whole_shoe;
use crate::steps::{held, seal, start_piece_of};

/// Opens the question in which format.
pub(crate) async fn ask_table(page: &Page) {
    page.click_words("main button", "Save as table").await;
    page.wait_for("dialog[open] #make-table").await;
}

/// Chooses a format of CSV and unfolds its columns.
pub(crate) async fn unfold_columns(page: &Page, format: &str) {
    page.click(&format!("[name=table][value={format}]")).await;
    page.wait_for("dialog[open] summary").await;
    page.click("dialog[open] summary").await;
    page.wait_for("#column-names").await;
}

/// The file of a ZIP that is stored or deflated under this name, as text.
pub(crate) fn part_of(bytes: &[u8], name: &str) -> String {
    let script = "import io, sys, zipfile
book = zipfile.ZipFile(io.BytesIO(sys.stdin.buffer.read()))
assert book.testzip() is None
sys.stdout.buffer.write(book.read(sys.argv[1]))";
    let mut python = std::process::Command::new("python3")
        .args(["-c", script, name])
        .stdin(std::process::Stdio::piped())
        .stdout(std::process::Stdio::piped())
        .spawn()
        .expect("python3 reads the workbook of this test; install it");
    let mut input = python.stdin.take().unwrap();
    std::io::Write::write_all(&mut input, bytes).unwrap();
    drop(input);
    let read = python.wait_with_output().unwrap();
    assert!(read.status.success(), "{name}");
    String::from_utf8(read.stdout).unwrap()
}

#[test]
fn a_workbook_of_a_piece_holds_its_marks_and_no_formula() {
    in_browser(|page| async move {
        start_piece_of(&page, "=1+1").await;
        mark_whole_shoe(&page).await;
        seal(&page).await;
        ask_table(&page).await;
        page.click("#make-table").await;
        page.wait_text("#table-says", "straight-bar-shoe.xlsx: 1 marking.")
            .await;
        let (name, bytes) = page.download(".xlsx").await;
        assert!(name.ends_with("straight-bar-shoe.xlsx"), "{name}");
        let texts = part_of(&bytes, "xl/sharedStrings.xml");
        assert!(texts.contains(">=1+1<"), "{texts}");
        for sheet in 1..=5 {
            let cells = part_of(&bytes, &format!("xl/worksheets/sheet{sheet}.xml"));
            assert!(!cells.contains("<f>") && !cells.contains("<f "), "{cells}");
            assert!(cells.contains("state=\"frozen\""), "{cells}");
        }
    });
}

#[test]
fn a_sitting_is_saved_wide_under_a_colleges_own_columns() {
    in_browser(|page| async move {
        page.go("/").await;
        look_round(&page).await;
        largest_sitting(&page).await;
        ask_table(&page).await;
        unfold_columns(&page, "csv-wide").await;
        let usual = held(&page, "#column-names").await;
        assert!(usual.starts_with("piece_id = piece_id\n"), "{usual}");
        let own = "award = Outcome\nlearner = Candidate\nmarks = Mark *";
        // What is refused stays in its field.
        page.fill("#column-names", &format!("{own}\nhorse = Horse"))
            .await;
        page.click("#keep-columns").await;
        page.wait_text("#column-names-error", "Line 4: `horse` is no column")
            .await;
        assert!(
            held(&page, "#column-names")
                .await
                .ends_with("horse = Horse")
        );
        page.fill("#column-names", own).await;
        page.click("#keep-columns").await;
        page.wait_text("#columns-say", "kept").await;
        page.click("#make-table").await;
        page.wait_text("#table-says", "_wide.csv: ").await;
        let (_, bytes) = page.download(".csv").await;
        let text = String::from_utf8(bytes).unwrap();
        assert!(text.starts_with("Outcome,Candidate,Mark "), "{text}");
        let said = page.text("#table-says").await;
        let rows = text.lines().count() - 1;
        assert!(said.contains(&format!("{rows} markings")), "{said}, {rows}");
        // They are there again, and can be taken back.
        page.reload().await;
        page.wait_for("#pieces").await;
        ask_table(&page).await;
        unfold_columns(&page, "csv-wide").await;
        assert_eq!(held(&page, "#column-names").await, own);
        page.click_words("dialog[open] button", "Usual columns")
            .await;
        page.click("#keep-columns").await;
        page.wait_text("#columns-say", "kept").await;
        assert_eq!(held(&page, "#column-names").await, usual);
        page.click_words("dialog[open] button", "Undo").await;
        page.wait_text("#columns-say", "as they were before").await;
        assert_eq!(held(&page, "#column-names").await, own);
    });
}
