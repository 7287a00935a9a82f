//! The invented school's examiners.

use std::sync::OnceLock;

use evenshod::job::{Agreed, Job, Outcome};
use evenshod::moderation::offers;
use evenshod::output::text;
use evenshod::records::Record;
use evenshod::sheet::{Block, DayAsked, Document};
use evenshod::worker::perform;

use crate::demo::sample::demo;

/// What the worker is sent for the first version on offer.
pub fn wanted(hides_names: bool) -> Agreed {
    let offer = offers(demo()).remove(0);
    let pieces = demo().pieces_by(&offer.digest).map(|piece| piece.id);
    let records = demo().about(pieces);
    let records = records.iter().map(Record::write);
    Agreed {
        records: records.collect::<Result<_, _>>().unwrap(),
        rubric: offer.digest,
        from: None,
        to: None,
        hides_names,
        day: DayAsked {
            examiners: 4,
            pieces: 6,
            each: 2,
        },
    }
}

pub fn document(hides_names: bool) -> Document {
    let said = perform(&Job::Agreement(wanted(hides_names)), &mut |_| ()).unwrap();
    let Outcome::Agreement(document) = said else {
        panic!("{said:?}");
    };
    document
}

/// With names.
fn shown() -> &'static Document {
    static SHOWN: OnceLock<Document> = OnceLock::new();
    SHOWN.get_or_init(|| document(false))
}

#[test]
fn every_part_has_something_to_show() {
    let said = text(shown());
    for heading in [
        "In short",
        "Marked by several examiners",
        "Totals",
        "Criteria, by trouble",
        "Severity",
        "Descriptors to write anew",
        "How many examiners and pieces",
        "A standardisation day",
    ] {
        assert!(said.contains(heading), "{heading}");
    }
    assert!(said.contains("Concave front shoe"), "that of most pieces");
    let drawings = shown().blocks.iter().flat_map(|block| match block {
        Block::Drawings(drawings) => drawings.iter().collect(),
        Block::Illustrated { drawing, .. } => vec![drawing],
        _ => Vec::new(),
    });
    let drawings: Vec<_> = drawings.collect();
    assert!(drawings.len() > 3, "{}", drawings.len());
    for drawing in drawings {
        assert!(!drawing.title.is_empty() && drawing.description.len() > 60);
    }
    for fault in ["NaN", "inf", "−0.00", "There is no such figure"] {
        assert!(!said.contains(fault), "{fault}");
    }
}

#[test]
fn the_severest_examiner_is_who_the_school_made_so() {
    // Kindness 0, −45 and 40 in thousandths (demo/people.rs).
    let said = text(shown());
    let drawn = said.find("most severe first: Rufus Achterveld");
    let from = drawn.expect("he is the most severe");
    let order = ["Rufus", "Edda", "Wanjiru"].map(|name| said[from..].find(name).unwrap());
    assert!(order.is_sorted(), "{order:?}");
}

#[test]
fn hidden_names_are_nowhere() {
    let said = text(&document(true));
    for examiner in demo().examiners() {
        assert!(!said.contains(&examiner.name), "{}", examiner.name);
    }
    for learner in demo().learners() {
        assert!(!said.contains(&learner.name), "{}", learner.name);
    }
    assert!(!said.contains("ticket"), "a ticket leads to who made it");
    for letter in ["Examiner A", "Examiner B", "Examiner C"] {
        assert!(said.contains(letter), "{letter}");
    }
}

#[test]
fn the_same_records_give_the_same_document() {
    let mut turned = wanted(false);
    turned.records.reverse();
    let said = perform(&Job::Agreement(turned), &mut |_| ()).unwrap();
    assert_eq!(said, Outcome::Agreement(shown().clone()));
}

#[test]
fn progress_rises_to_no_more_than_all() {
    let mut told = Vec::new();
    perform(&Job::Agreement(wanted(true)), &mut |share| told.push(share)).unwrap();
    assert!(told.len() > 5 && told.is_sorted(), "{told:?}");
    assert!(told.iter().all(|share| (0.0..=1.0).contains(share)));
}

#[test]
fn a_rubric_that_is_not_sent_is_told() {
    let lost = Agreed {
        records: Vec::new(),
        ..wanted(false)
    };
    let said = perform(&Job::Agreement(lost), &mut |_| ());
    assert!(said.unwrap_err().contains("reload the page"));
}
