//! Documents as plain text.

use evenshod::output::text;
use evenshod::sheet::{Block, Document, Weight};

use super::pdf::sample::{bar_shoe, document, heading, notice, rubric, said, table, words};

/// The words of a document, save names of columns, which stand at each cell.
fn words_of(document: &Document) -> Vec<String> {
    let mut document = document.clone();
    for block in &mut document.blocks {
        if let Block::Table(table) = block {
            table
                .columns
                .iter_mut()
                .for_each(|column| column.title = "".into());
        }
    }
    words(&said(&document))
}

#[test]
fn every_word_stands_in_it_in_its_order() {
    for document in [bar_shoe(), rubric()] {
        let expect = words_of(&document);
        assert!(expect.len() > 200);
        let all = words(&[text(&document)]);
        let mut rest = all.iter();
        for word in expect {
            assert!(
                rest.any(|one| *one == word),
                "{word} is not where it should be"
            );
        }
    }
}

#[test]
fn headings_rows_and_notices_are_told_apart() {
    let blocks = vec![
        heading("Marks"),
        table(["Toe bend".to_owned()]),
        notice(Weight::Stop, "Too short.", &["length 120 mm"]),
        Block::Signatures(vec!["Examiner, date".to_owned()]),
    ];
    let expect = "\
Straight bar shoe
=================
Scored sheet

Marks
-----

Marks by criterion

Form

Toe bend
  Marks: 3 of 4
  Reason: within 1.5 mm of what is asked for

Total 80.5 of 100

Stop: Too short.
- length 120 mm

Examiner, date: ______________________________
";
    assert_eq!(text(&document(blocks)), expect);
}

/// What a person typed stays as it is, whatever it holds.
#[test]
fn a_text_of_any_script_stays_as_it_was_typed() {
    let typed = "  عمر \u{202e}王\tsmith 🙂 <b> =1+1  ";
    let document = document(vec![Block::Paragraph(typed.to_owned())]);
    assert!(text(&document).contains(typed));
}
