//! Rubrics as documents: read, compared, tried on a piece.

use evenshod::marking::{Facts, ReadingFact};
use evenshod::quantity::Unit;
use evenshod::rubric::edit::compare;
use evenshod::rubric::{Judged, Kind, Rubric, read_rubric, shipped};
use evenshod::sheet::{Block, Document, compared, rubric_document, tried};

use crate::rubric::pieces::faultless;

fn text_of(document: &Document) -> String {
    let mut all = vec![document.title.clone(), document.about.clone()];
    for block in &document.blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => all.push(text.clone()),
            Block::Facts(facts) => all.extend(facts.iter().map(|fact| fact.value.clone())),
            Block::Items(items) => all.extend(items.iter().flat_map(|item| item.lines.clone())),
            Block::Drawings(drawings) => {
                all.extend(drawings.iter().map(|drawing| drawing.title.clone()));
            }
            Block::Table(table) => {
                all.push(table.caption.clone());
                for group in &table.groups {
                    all.push(group.heading.clone());
                    let cells = group.rows.iter().flatten();
                    all.extend(cells.map(|cell| cell.text.clone()));
                }
            }
            other => panic!("not in a rubric: {other:?}"),
        }
    }
    all.join("\n")
}

/// What an examiner needs to know stands on the page, whatever the rubric.
#[test]
fn a_rubric_says_all_that_is_in_it() {
    for shipped in shipped() {
        let rubric = read_rubric(shipped.text).rubric.unwrap();
        let document = rubric_document(&rubric, Unit::Millimetre);
        let text = text_of(&document);
        let says = |wanted: &str| {
            assert!(text.contains(wanted.trim()), "{}: {wanted}", shipped.id);
        };
        for criterion in rubric.sections.iter().flat_map(|section| &section.criteria) {
            says(&format!("{}, ", criterion.name));
            says(&criterion.note);
            for fault in &criterion.faults {
                for said in [&fault.name, &fault.cause, &fault.remedy] {
                    says(said);
                }
            }
            match &criterion.kind {
                Kind::Judged(Judged::Levels(levels)) => {
                    for level in levels {
                        for said in [&level.name, &level.text] {
                            says(said);
                        }
                    }
                }
                Kind::Judged(Judged::Numbers { descriptors, .. }) => {
                    descriptors.iter().for_each(|(_, said)| says(said));
                }
                Kind::Toleranced(kind)
                    if kind
                        .scale
                        .target
                        .as_ref()
                        .is_some_and(|target| target.constant().is_some()) =>
                {
                    says(&format!("{} on its tolerance", criterion.name));
                }
                _ => {}
            }
        }
        rubric.instruments.iter().for_each(|one| says(&one.name));
        rubric.heats.iter().for_each(|heats| says(&heats.part));
        rubric.cautions.iter().for_each(|caution| says(caution));
        rubric.causes.iter().for_each(|cause| says(&cause.name));
    }
}

fn bar_shoe(change: &[(&str, &str)]) -> (String, Rubric) {
    let mut text = shipped()[0].text.to_owned();
    for (old, new) in change {
        assert!(text.contains(old), "{old}");
        text = text.replacen(old, new, 1);
    }
    let rubric = read_rubric(&text).rubric.unwrap();
    (text, rubric)
}

#[test]
fn what_changed_is_told_by_place() {
    let (old, _) = bar_shoe(&[]);
    let (new, _) = bar_shoe(&[("pass = \"65 %\"", "pass = \"70 %\"")]);
    let differences = compare(&old, &new).unwrap();
    let said = text_of(&compared("version 1", "version 2", &differences));
    for wanted in [
        "From version 1 to version 2",
        "1 difference",
        "award",
        "Pass",
        "65 %",
        "70 %",
    ] {
        assert!(said.contains(wanted), "{wanted} in {said}");
    }
    let same = text_of(&compared("one", "two", &[]));
    assert!(same.contains("Nothing differs but comments"), "{same}");
}

/// The width 2 mm over: outside 1.5 mm, within 3 mm, 2 of 4; with 2 mm allowed, 4 of 4.
#[test]
fn a_wider_band_would_have_given_more() {
    let (_, old) = bar_shoe(&[]);
    let width = "note = \"Widest place";
    let (text, _) = bar_shoe(&[(width, width)]);
    let at = text.find("id = \"width\"").unwrap();
    let mut wider = text.clone();
    wider.replace_range(
        at..,
        &text[at..].replacen("within = \"1.5 mm\"", "within = \"2 mm\"", 1),
    );
    let new = read_rubric(&wider).rubric.unwrap();
    let mut facts: Facts = faultless(&old);
    // 5 1/8 in is 130.175 mm.
    facts
        .readings
        .insert("width".to_owned(), vec![ReadingFact::of("132.175 mm")]);
    let said = text_of(&tried("Bea Coe", &old, &new, &facts, Unit::Millimetre));
    for wanted in [
        "98 of 100, pass",
        "100 of 100, pass",
        "Finished width\n2 of 4\n4 of 4",
        "tried on Bea Coe",
    ] {
        assert!(said.contains(wanted), "{wanted} in {said}");
    }
    let same = text_of(&tried("Bea Coe", &old, &old, &facts, Unit::Millimetre));
    assert!(
        same.contains("No criterion would have other marks."),
        "{same}"
    );
}

/// Facts of one piece by the rubric of another: what is not in it counts for nothing.
#[test]
fn any_rubric_is_tried_on_any_piece() {
    let all: Vec<Rubric> = shipped()
        .iter()
        .map(|one| read_rubric(one.text).rubric.unwrap())
        .collect();
    for old in &all {
        let facts = faultless(old);
        for new in &all {
            let said = text_of(&tried("Bea Coe", old, new, &facts, Unit::Inch32));
            let same = old.id == new.id;
            assert_eq!(said.contains("No criterion would have other marks."), same);
        }
    }
}
