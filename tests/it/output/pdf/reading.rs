//! What stands in the file is what the document says, in its order and with its tags.

use evenshod::chart::Drawing;
use evenshod::output::pdf::{Paper, pdf};
use evenshod::present::mark_sheet::blank_of_marking;
use evenshod::present::{Rubrics, portfolio_choices, portfolio_document};
use evenshod::sheet::{Block, Document, Item, Pictured, Weight};
use serde_json::Value;

use crate::demo::sample::demo;
use crate::records::sample::now;

use super::sample::{
    PAPERS, bar_shoe, checked, document, heading, notice, rubric, said, table, words,
};
use super::tools::{check_syntax, objects, pages, tags, told};

/// Every word of the document is in the text, in the same order; the feet of pages and the
/// words in drawings stand between.
fn assert_reads(document: &Document, text: &[String]) {
    let found = words(text);
    let mut left = found.iter();
    for word in words(&said(document)) {
        assert!(
            left.any(|found| *found == word),
            "{}: {word} is missing or out of order",
            document.title
        );
    }
}

fn drawings(document: &Document) -> Vec<&Drawing> {
    let mut all = Vec::new();
    for block in &document.blocks {
        match block {
            Block::Drawings(drawings) => all.extend(drawings),
            Block::Illustrated { drawing, .. } => all.push(drawing),
            Block::Verdict(verdict) => all.push(&verdict.ruler),
            Block::Table(table) => {
                let rows = table.groups.iter().flat_map(|group| &group.rows);
                all.extend(rows.flatten().filter_map(|cell| cell.drawing.as_ref()));
            }
            _ => {}
        }
    }
    all
}

#[test]
fn a_scored_sheet_reads_as_its_document_and_is_sound() {
    let sheet = bar_shoe();
    for paper in PAPERS {
        let file = checked(&sheet, paper);
        assert_eq!(file.missing, []);
        assert!((2..=5).contains(&file.pages), "{} pages", file.pages);
        check_syntax(&file.bytes);
        let pages = pages(&file.bytes);
        assert_eq!(pages.len(), file.pages);
        assert_reads(&sheet, &pages);
        assert_eq!(told(&file.bytes, "Tagged"), "yes");
        assert_eq!(told(&file.bytes, "Title"), sheet.title);
    }
}

#[test]
fn a_rubric_reads_as_its_document() {
    let rubric = rubric();
    let file = checked(&rubric, Paper::A4);
    check_syntax(&file.bytes);
    assert_reads(&rubric, &pages(&file.bytes));
}

#[test]
fn a_sheet_to_fill_in_and_a_portfolio_read_as_their_documents() {
    let ledger = demo();
    let rubrics = Rubrics::default();
    let draft = ledger.drafts().next().unwrap();
    let blank = blank_of_marking(ledger, &rubrics, draft.id).unwrap();
    let learner = ledger.learners().next().unwrap().id;
    let (_, choices) = portfolio_choices(ledger, &rubrics, learner).unwrap();
    let pieces = choices.into_iter().map(|choice| choice.piece).collect();
    let portfolio = portfolio_document(ledger, &rubrics, learner, &pieces, now()).unwrap();
    for document in [blank, portfolio] {
        for paper in PAPERS {
            let file = checked(&document, paper);
            check_syntax(&file.bytes);
            assert_reads(&document, &pages(&file.bytes));
        }
    }
}

#[test]
fn pages_are_as_large_as_the_paper() {
    // ISO 216; ANSI/ASME Y14.1.
    let sizes = ["595.276 x 841.89 pts (A4)", "612 x 792 pts (letter)"];
    for (paper, size) in PAPERS.into_iter().zip(sizes) {
        let file = checked(&document(Vec::new()), paper);
        assert_eq!(told(&file.bytes, "Page size"), size);
    }
}

#[test]
fn headings_rows_and_drawings_are_tagged() {
    let sheet = bar_shoe();
    let file = checked(&sheet, Paper::A4);
    let tags = tags(&file.bytes);
    let count = |wanted: &str| {
        let tags = tags.iter().map(|line| line.trim_start());
        tags.filter(|tag| tag.split([' ', ':']).next() == Some(wanted))
            .count()
    };
    let of_level = |wanted| {
        let headings = sheet.blocks.iter();
        headings
            .filter(|block| matches!(block, Block::Heading { level, .. } if *level == wanted))
            .count()
    };
    assert_eq!(count("H1"), 1);
    assert_eq!(count("H2"), of_level(2));
    assert_eq!(count("H3"), of_level(3));
    let tables = sheet.blocks.iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let (mut heads, mut rows, mut names) = (0, 0, 0);
    for table in tables {
        heads += 1;
        rows += 1 + usize::from(!table.foot.is_empty());
        names += table.columns.len() + usize::from(!table.foot.is_empty());
        for group in &table.groups {
            let is_named = usize::from(!group.heading.is_empty());
            rows += group.rows.len() + is_named;
            names += group.rows.len() + is_named;
        }
    }
    assert_eq!(count("Table"), heads);
    assert_eq!(count("THead"), heads);
    assert_eq!(count("TR"), rows);
    assert_eq!(count("TH"), names);
    assert_eq!(count("Figure"), drawings(&sheet).len());
}

#[test]
fn drawings_are_told_in_words_and_head_cells_say_what_they_name() {
    let sheet = bar_shoe();
    let objects = objects(&checked(&sheet, Paper::A4).bytes);
    let alts = objects
        .iter()
        .filter(|object| object["/S"].as_str() == Some("/Figure"))
        .map(|object| object["/Alt"].as_str().unwrap_or_default());
    let alts: Vec<&str> = alts.collect();
    for drawing in drawings(&sheet) {
        let tells = |alt: &&str| {
            alt.contains(drawing.title.trim_end_matches('.')) && alt.contains(&drawing.description)
        };
        assert!(alts.iter().any(tells), "{}", drawing.title);
    }
    let scope = |wanted: &str| {
        objects
            .iter()
            .filter(|object| object["/Scope"].as_str() == Some(wanted))
            .count()
    };
    let Some(Block::Table(table)) = sheet
        .blocks
        .iter()
        .find(|block| matches!(block, Block::Table(_)))
    else {
        panic!("the sheet has a table");
    };
    assert!(scope("/Column") >= table.columns.len());
    assert!(scope("/Row") >= table.groups.iter().map(|group| group.rows.len()).sum());
}

#[test]
fn how_much_a_notice_weighs_is_said_in_a_word() {
    let blocks = [Weight::Info, Weight::Warn, Weight::Stop]
        .map(|weight| notice(weight, "the weld is open", &["weld", "scarf"]));
    let file = checked(&document(blocks.to_vec()), Paper::A4);
    let text = pages(&file.bytes).join("\n");
    for line in [
        "Note. the weld is open",
        "Look here. the weld is open",
        "Stop. the weld is open",
        "• scarf",
    ] {
        assert!(text.contains(line), "{line}: {text}");
    }
}

#[test]
fn a_picture_has_its_place_its_words_and_what_is_written_under_it() {
    let picture = |alt: &str, caption: &str| Pictured {
        digest: "d".repeat(64),
        alt: alt.to_owned(),
        caption: caption.to_owned(),
    };
    let pictures = Block::Pictures(vec![
        picture("Photo 1", "Photo 1: the weld"),
        picture("", ""),
        picture("Photo 3", "Photo 3"),
    ]);
    let shown = document(vec![heading("Photos"), pictures]);
    let file = checked(&shown, Paper::A4);
    assert_reads(&shown, &pages(&file.bytes));
    let objects = objects(&file.bytes);
    for alt in ["u:Photo 1", "u:A picture", "u:Photo 3"] {
        let is_told = |object: &Value| object["/Alt"].as_str() == Some(alt);
        assert!(objects.iter().any(is_told), "{alt}");
    }
}

#[test]
fn the_same_document_gives_the_same_bytes() {
    let document = document(vec![heading("Criteria"), table(["Weld".to_owned()])]);
    let once = pdf(&document, Paper::A4).unwrap();
    assert_eq!(once, pdf(&document, Paper::A4).unwrap());
}

#[test]
fn a_document_of_nothing_is_a_page_with_its_title() {
    let file = checked(&document(Vec::new()), Paper::Letter);
    check_syntax(&file.bytes);
    let text = pages(&file.bytes).join("\n");
    assert_eq!(file.pages, 1);
    for line in ["Straight bar shoe", "Scored sheet", "Page 1 of 1"] {
        assert!(text.contains(line), "{text}");
    }
}

#[test]
fn blocks_that_hold_nothing_make_a_sound_file() {
    let blocks = vec![
        heading(""),
        Block::Paragraph(String::new()),
        Block::Drawings(Vec::new()),
        Block::Pictures(Vec::new()),
        Block::Illustrated {
            drawing: Drawing::default(),
            beside: Vec::new(),
        },
        Block::Facts(Vec::new()),
        Block::Series(Vec::new()),
        notice(Weight::Stop, "", &[]),
        table([]),
        Block::Items(vec![Item::plain(""), Item::about("", "")]),
        Block::Code {
            label: String::new(),
            groups: Vec::new(),
        },
        Block::Signatures(Vec::new()),
    ];
    let file = checked(&document(blocks), Paper::A4);
    check_syntax(&file.bytes);
    assert_eq!(file.pages, 1);
}

#[test]
fn a_document_without_a_title_has_a_name_to_be_told_by() {
    let mut nameless = document(Vec::new());
    nameless.title = " ".to_owned();
    let file = checked(&nameless, Paper::A4);
    assert_eq!(told(&file.bytes, "Title"), "Without a title");
}
