//! How sure a marking is, as a document.

use evenshod::conformity::{
    AwardCertainty, Certainty, MarksChance, Method, Settle, chance_words, weigh,
};
use evenshod::marking::Award;
use evenshod::quantity::Marks;
use evenshod::records::{Ledger, MarkingId};
use evenshod::sheet::{Block, Document, Scored, Table, sure_document};

use super::sample::{bar_shoe_text, plain, read, whole_bar_shoe};

fn certainty(ledger: &Ledger, marking: MarkingId) -> Certainty {
    let facts = &ledger.marking(marking).unwrap().facts;
    weigh(&read(bar_shoe_text()), facts).unwrap()
}

fn document_of(ledger: &Ledger, marking: MarkingId, certainty: &Certainty) -> Document {
    let rubric = read(bar_shoe_text());
    let parts = ledger.seal_parts(ledger.marking(marking).unwrap()).unwrap();
    sure_document(&Scored::of(parts, &rubric), certainty)
}

/// The document of a whole bar shoe, after `change` to what was worked out.
fn document(change: impl FnOnce(&mut Certainty)) -> Document {
    let (ledger, marking) = whole_bar_shoe();
    let mut certainty = certainty(&ledger, marking);
    change(&mut certainty);
    document_of(&ledger, marking, &certainty)
}

fn tables(document: &Document) -> Vec<&Table> {
    let tables = document.blocks.iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    tables.collect()
}

fn texts(table: &Table) -> Vec<Vec<&str>> {
    let rows = table.groups.iter().flat_map(|group| &group.rows);
    let texts = rows.map(|row| row.iter().map(|cell| cell.text.as_str()).collect());
    texts.collect()
}

fn chance(marks: i64, probability: f64) -> MarksChance {
    MarksChance {
        marks: Marks::whole(marks),
        probability,
    }
}

#[test]
fn it_says_what_it_covers_and_what_not() {
    let text = plain(&document(|_| {}));
    for words in [
        "covers measuring only",
        "How the examiner judges what is seen by eye is not in it",
        "Probability of a pass",
        "Expected marks",
        "Ada Smith",
    ] {
        assert!(text.contains(words), "{words}:\n{text}");
    }
}

#[test]
fn the_shape_of_a_half_width_is_said() {
    let (ledger, marking) = whole_bar_shoe();
    let certainty = certainty(&ledger, marking);
    let parts = ledger.seal_parts(ledger.marking(marking).unwrap()).unwrap();
    let usual = "half_width = \"0.5 mm\"";
    let shaped = bar_shoe_text().replacen(usual, &format!("{usual}\nshape = \"triangular\""), 1);
    for (text, is_said) in [(bar_shoe_text(), false), (&shaped, true)] {
        let rubric = read(text);
        let said = plain(&sure_document(&Scored::of(parts, &rubric), &certainty));
        let words = "off by at most 0.5 mm, small errors likelier (triangular)";
        assert_eq!(said.contains(words), is_said, "{said}");
        assert_eq!(said.contains("is counted by its shape"), is_said, "{said}");
    }
}

#[test]
fn every_total_and_every_mark_is_in_a_table() {
    let (ledger, marking) = whole_bar_shoe();
    let certainty = certainty(&ledger, marking);
    let document = document_of(&ledger, marking, &certainty);
    let tables = tables(&document);
    let shown = texts(tables[0]);
    let common = certainty
        .total
        .iter()
        .filter(|one| one.probability >= 0.001);
    let common: Vec<String> = common.rev().map(|one| one.marks.to_string()).collect();
    let marks: Vec<&str> = shown.iter().map(|row| row[0]).collect();
    assert_eq!(marks, common, "the most marks first");
    let criteria = texts(tables.last().unwrap());
    assert_eq!(criteria.len(), certainty.criteria.len());
    for (row, one) in criteria.iter().zip(&certainty.criteria) {
        for chance in &one.chances {
            let words = format!("{}: {}", chance.marks, chance_words(chance.probability));
            assert!(row[5].contains(&words), "{words}: {row:?}");
        }
    }
}

#[test]
fn rare_totals_stand_together_and_nothing_is_left_out_of_that_or_more() {
    let document = document(|certainty| {
        certainty.total = vec![
            chance(60, 0.0004),
            chance(70, 0.2493),
            chance(71, 0.75),
            chance(72, 0.0003),
        ];
    });
    let table = tables(&document)[0];
    assert_eq!(
        texts(table),
        [["71", "75.0 %", "75.0 %"], ["70", "24.9 %", "over 99.9 %"]]
    );
    let foot: Vec<_> = table.foot.iter().map(|cell| cell.text.as_str()).collect();
    assert_eq!(foot, ["Any other total", "under 0.1 %", ""]);
}

#[test]
fn a_close_call_says_what_would_settle_it_and_a_decisive_one_stands_on_top() {
    let document = document(|certainty| {
        for (at, one) in certainty.criteria.iter_mut().enumerate() {
            (one.is_close, one.is_decisive) = (at < 2, at == 1);
            one.probability = 0.8;
            (one.changes, one.settle) = (0.0, None);
        }
        certainty.criteria[1].changes = 0.12;
        certainty.criteria[1].settle = Some(Settle {
            instrument: "caliper".to_owned(),
            name: "Caliper".to_owned(),
            readings: 4,
            probability: 0.97,
        });
    });
    let text = plain(&document);
    let top = document.blocks.iter().position(|block| {
        matches!(block, Block::Notice(notice) if notice.items.iter().any(|item| item.contains("its marks are 80.0 % sure")))
    });
    assert!(top.unwrap() < 3, "{text}");
    let calls = document.blocks.iter().find_map(|block| match block {
        Block::Items(items) if items.len() == 2 && !items[0].lead.is_empty() => Some(items),
        _ => None,
    });
    let calls = calls.unwrap();
    assert_eq!(
        calls[0].lines[1],
        "Probability that the award, or a minimum, turns by it: 12.0 %."
    );
    let settle = "To settle it: the mean of 4 readings with Caliper. If that gives the same \
                  value, the marks are 97.0 % sure.";
    assert_eq!(calls[0].lines[2], settle);
    assert_eq!(
        calls[1].lines.last().unwrap(),
        "Nothing at hand measures it more surely."
    );
}

#[test]
fn how_it_was_worked_out_is_said() {
    for (method, words) in [
        (Method::Exact, "worked out exactly"),
        (Method::Quadrature, "integrated over that shared part"),
        (Method::Draws(200_000), "drawn 200000 times"),
    ] {
        let text = plain(&document(|certainty| certainty.method = method));
        assert!(text.contains(words), "{words}");
    }
}

#[test]
fn the_award_says_the_standard_error_and_both_where_the_rule_decides_otherwise() {
    let award = AwardCertainty {
        best: Award::Pass,
        decided: Award::Undecided,
        pass: 0.9,
        standard_error: Some(0.0007),
    };
    let text = plain(&document(|certainty| certainty.award = Some(award)));
    assert!(text.contains("90.0 %, standard error 0.07 %"), "{text}");
    assert!(
        text.contains("Undecided by the rubric’s rule; pass by the best estimate"),
        "{text}"
    );
    let text = plain(&document(|certainty| certainty.award = None));
    assert!(text.contains("open while something has no marks"), "{text}");
}

#[test]
fn a_marking_without_uncertain_readings_says_so() {
    let document = document(|certainty| {
        certainty.criteria.clear();
        certainty.sections.clear();
        certainty.unstated = vec!["width".to_owned()];
    });
    let text = plain(&document);
    assert!(
        text.contains("No measured criterion is uncertain"),
        "{text}"
    );
    assert!(text.contains("No close calls"), "{text}");
    assert!(
        text.contains("no instrument with figures is named for them"),
        "{text}"
    );
    assert_eq!(tables(&document).len(), 1);
}
