//! Characters that the faces lack, and those that they have.

use evenshod::output::pdf::{Missing, Paper};
use evenshod::sheet::Block;

use super::sample::{checked, document, heading, table};
use super::tools::{check_syntax, pages};

#[test]
fn what_the_faces_lack_is_counted_and_copies_as_itself() {
    let blocks = vec![
        heading("蹄 hoof"),
        Block::Paragraph("سلام 蹄 蹄 \u{1f40e} at last".to_owned()),
        table(["蹄".to_owned()]),
    ];
    let file = checked(&document(blocks), Paper::A4);
    check_syntax(&file.bytes);
    let count = |character| {
        let found = file.missing.iter();
        let found = found.filter(|missing| missing.character == character);
        found.map(|missing| missing.count).sum::<usize>()
    };
    assert_eq!(count('蹄'), 4);
    assert_eq!(count('\u{1f40e}'), 1);
    assert_eq!(count('س'), 1);
    assert_eq!(count('h'), 0);
    let text = pages(&file.bytes).concat();
    assert_eq!(text.matches('蹄').count(), 4, "{text}");
    assert_eq!(text.matches('\u{1f40e}').count(), 1, "{text}");
    // Arabic is not turned around: its letters stand as they were typed.
    for letter in "سلام".chars() {
        assert!(text.contains(letter), "{letter}: {text}");
    }
}

#[test]
fn missing_characters_come_by_code_point() {
    let text = Block::Paragraph("\u{1f40e}蹄\u{1f40e}".to_owned());
    let file = checked(&document(vec![text]), Paper::A4);
    let expected = [
        Missing {
            character: '蹄',
            count: 1,
        },
        Missing {
            character: '\u{1f40e}',
            count: 2,
        },
    ];
    assert_eq!(file.missing, expected);
}

#[test]
fn the_faces_have_what_documents_and_their_readers_write() {
    let texts = [
        // Signs in the documents themselves.
        "’‘“”„«»–—…·•±−×÷≤≥≠≈√∞°′″⁄½¼¾⅓⅔⅛⅜⅝⅞²³µ⌀→←↑↓✓✗□■●○▲◆№€£₺₽₹",
        "Ångström, façade, Łódź, Dvořák, İstanbul, Győr, Þór, Ñandú, ß ẞ",
        "Người thợ rèn móng ngựa Việt Nam",
        "Ιπποπέδιλο Πεταλωτής ΆΈΉΊΌΎΏ",
        "Кузнец Ковалівна Ђорђе Љубица ѐ",
        // Combining marks after their letters.
        "e\u{301} o\u{308} a\u{30a} i\u{302}\u{301}",
    ];
    let blocks = texts.map(|text| Block::Paragraph(text.to_owned()));
    let mut bold = texts.map(heading).to_vec();
    bold.extend(blocks);
    let file = checked(&document(bold), Paper::A4);
    assert_eq!(file.missing, []);
}
