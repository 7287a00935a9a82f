//! Several documents in one file.

use evenshod::output::pdf::{Paper, PdfError, checked_pdf_of_many, pdf_of_many};
use serde_json::Value;

use super::sample::{document, heading, table};
use super::tools::{check_syntax, objects, pages, tags};

#[test]
fn each_document_has_a_bookmark_and_page_numbers_of_its_own() {
    let mut first = document(vec![
        heading("Criteria"),
        table((0..80).map(|row| format!("row {row}"))),
    ]);
    first.title = "Ada Smith".to_owned();
    let mut second = document(vec![heading("Seal")]);
    second.title = "Jo Reed".to_owned();
    second.language = "de".into();
    let file = checked_pdf_of_many([&first, &second], Paper::A4, "Mock, 25 Nov", "en").unwrap();
    check_syntax(&file.bytes);
    let pages = pages(&file.bytes);
    assert_eq!(pages.len(), file.pages);
    let last = pages.len() - 1;
    assert!(last >= 2);
    for (at, page) in pages.iter().enumerate() {
        let (title, number, of) = if at < last {
            ("Ada Smith", at + 1, last)
        } else {
            ("Jo Reed", 1, 1)
        };
        assert!(page.contains(&format!("Page {number} of {of}")), "{page}");
        assert!(page.contains(title), "{page}");
    }
    let objects = objects(&file.bytes);
    for title in ["u:Ada Smith", "u:Jo Reed", "u:Criteria", "u:Seal"] {
        let is_bookmark = |object: &&Value| {
            object["/Title"].as_str() == Some(title) && object["/Dest"] != Value::Null
        };
        assert!(objects.iter().any(|object| is_bookmark(&object)), "{title}");
    }
    assert!(
        objects
            .iter()
            .any(|object| object["/Lang"].as_str() == Some("u:de"))
    );
    let parts = tags(&file.bytes);
    let parts = parts
        .iter()
        .filter(|tag| tag.trim_start().starts_with("Part"));
    assert_eq!(parts.count(), 2);
}

#[test]
fn no_document_is_told_as_such() {
    let none = pdf_of_many([], Paper::A4, "Mock", "en");
    assert_eq!(none, Err(PdfError::Nothing));
}
