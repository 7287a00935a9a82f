//! Where pages end.

use evenshod::output::pdf::{Kind, Paper, plan};
use evenshod::sheet::{Block, Document, Fact, Item, Weight};

use super::sample::{
    PAPERS, bar_shoe, checked, document, heading, notice, rubric, said, table, words,
};
use super::tools::{pages, tags};

/// What holds for every document: no page ends with a heading or a table's head, and each
/// page that begins within a table begins with its head.
fn assert_well_paged(document: &Document, paper: Paper) -> Vec<Vec<Kind>> {
    let plan = plan(document, paper).unwrap();
    for (number, page) in (1..).zip(&plan) {
        let last = page.last();
        let hangs = |kind: &Kind| {
            matches!(
                kind,
                Kind::Heading | Kind::Caption | Kind::Head | Kind::Group
            )
        };
        assert!(!last.is_some_and(hangs), "page {number} ends with {last:?}");
        let first = page.first();
        let is_bare = |kind: &Kind| matches!(kind, Kind::Group | Kind::Row | Kind::Foot);
        assert!(
            !first.is_some_and(is_bare),
            "page {number} begins with {first:?}"
        );
    }
    plan
}

fn comment(words: usize) -> String {
    let words: Vec<String> = (0..words).map(|number| format!("word{number}")).collect();
    words.join(" ")
}

#[test]
fn real_documents_are_well_paged() {
    for paper in PAPERS {
        assert_well_paged(&bar_shoe(), paper);
        assert_well_paged(&rubric(), paper);
    }
}

#[test]
fn a_heading_goes_with_what_it_heads_wherever_the_page_ends() {
    for lines in 40..60 {
        let mut blocks = vec![Block::Paragraph(vec!["a"; lines].join("\n"))];
        blocks.push(heading("Criteria"));
        blocks.push(table((0..4).map(|row| format!("row {row}"))));
        assert_well_paged(&document(blocks), Paper::A4);
    }
}

#[test]
fn three_hundred_rows_have_their_head_on_every_page() {
    let rows = table((0..300).map(|row| format!("criterion {row}")));
    let rows = document(vec![heading("Criteria"), rows]);
    for paper in PAPERS {
        let plan = assert_well_paged(&rows, paper);
        assert!(plan.len() > 4);
        assert!(plan.iter().all(|page| page.contains(&Kind::Head)));
        let file = checked(&rows, paper);
        let pages = pages(&file.bytes);
        assert_eq!(pages.len(), plan.len());
        for (number, page) in (1..).zip(&pages) {
            assert!(page.contains("Criterion"), "page {number}");
            let foot = format!("Page {number} of {}", pages.len());
            assert!(page.contains(&foot), "{foot}");
        }
        let text = words(&pages);
        for row in 0..300 {
            let row = row.to_string();
            assert!(text.contains(&row), "criterion {row}");
        }
    }
}

#[test]
fn neither_the_first_nor_the_last_row_stands_alone() {
    for lines in 40..58 {
        let blocks = vec![
            Block::Paragraph(vec!["a"; lines].join("\n")),
            table((0..40).map(|row| format!("row {row}"))),
        ];
        let plan = assert_well_paged(&document(blocks), Paper::A4);
        let rows = plan
            .iter()
            .map(|page| page.iter().filter(|kind| **kind == Kind::Row).count());
        let rows: Vec<usize> = rows.filter(|rows| *rows > 0).collect();
        assert_eq!(rows.iter().sum::<usize>(), 40);
        assert!(rows.iter().all(|rows| *rows > 1), "{rows:?}");
    }
}

#[test]
fn a_comment_of_ten_pages_flows_over_pages_and_loses_nothing() {
    let text = comment(6500);
    let item = Item::about("On the whole", &text);
    let blocks = [
        vec![Block::Paragraph(text.clone())],
        vec![heading("What the examiner says"), Block::Items(vec![item])],
        vec![notice(Weight::Stop, &text, &["weld"])],
        vec![heading(&text)],
        vec![Block::Facts(vec![Fact {
            label: "Ended".into(),
            value: text.clone(),
        }])],
        vec![Block::Signatures(vec![text.clone()])],
    ];
    for blocks in blocks {
        let long = document(blocks);
        let file = checked(&long, Paper::A4);
        assert!(file.pages >= 9, "{} pages", file.pages);
        assert_says(&long, &pages(&file.bytes));
    }
}

#[test]
fn a_row_of_ten_pages_flows_over_pages_and_reads_cell_by_cell() {
    let long = document(vec![table([comment(6500), "Weld".to_owned()])]);
    let file = checked(&long, Paper::A4);
    assert!(file.pages >= 9, "{} pages", file.pages);
    // It is drawn page by page; in the tags its cells follow each other.
    assert_says(&long, &tags(&file.bytes));
}

/// Every word of the document is in the text, in the same order.
fn assert_says(document: &Document, text: &[String]) {
    let found = words(text);
    let mut left = found.iter();
    for word in words(&said(document)) {
        assert!(left.any(|found| *found == word), "{word} is missing");
    }
}

#[test]
fn a_word_without_an_end_is_broken_and_stays_whole() {
    let word = "Hufbeschlag".repeat(60);
    let blocks = vec![Block::Paragraph(word.clone()), table([word.clone()])];
    let file = checked(&document(blocks), Paper::A4);
    let text = pages(&file.bytes).concat();
    let text: String = text.chars().filter(|c| c.is_alphanumeric()).collect();
    assert_eq!(text.matches(&word).count(), 2);
}

#[test]
fn a_notice_that_fits_on_a_page_is_on_one() {
    for lines in 42..58 {
        let blocks = vec![
            Block::Paragraph(vec!["a"; lines].join("\n")),
            notice(Weight::Stop, &comment(60), &["weld", "scarf", "bar"]),
            Block::Signatures(vec![
                "Examiner, date".to_owned(),
                "Learner, date".to_owned(),
            ]),
        ];
        let plan = assert_well_paged(&document(blocks), Paper::A4);
        for whole in [Kind::Notice, Kind::Signatures] {
            let pages = plan.iter().filter(|page| page.contains(&whole)).count();
            assert_eq!(pages, 1, "{whole:?} after {lines} lines");
        }
    }
}

#[test]
fn no_line_of_a_paragraph_stands_alone() {
    for lines in 48..60 {
        let blocks = vec![
            Block::Paragraph(vec!["a"; lines].join("\n")),
            notice(Weight::Info, "here", &[]),
            Block::Paragraph(vec!["b"; 20].join("\n")),
        ];
        let plan = plan(&document(blocks), Paper::A4).unwrap();
        let after: Vec<Kind> = plan
            .concat()
            .into_iter()
            .rev()
            .take_while(|kind| *kind != Kind::Notice)
            .collect();
        assert_eq!(after.len(), 20);
        if let [_, second] = plan.as_slice() {
            let alone = second.iter().filter(|kind| **kind == Kind::Text).count();
            assert_ne!(alone, 1, "after {lines} lines");
            assert_ne!(alone, 19, "after {lines} lines");
        }
    }
}
