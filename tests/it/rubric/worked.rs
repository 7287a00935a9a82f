//! The shipped rubrics at work: a perfect shoe, a short one, one with an open
//! weld.

use std::collections::BTreeSet;

use evenshod::marking::{Facts, Marking, ReadingFact, mark};
use evenshod::quantity::Marks;
use evenshod::rubric::{Rubric, shipped};

use super::pieces::{faultless, one_for_each, worst};
use super::sample::read;

fn rubric(file: &str) -> Rubric {
    let file = shipped().iter().find(|shipped| shipped.file == file);
    read(file.unwrap().text)
}

#[track_caller]
fn check(rubric: &Rubric, facts: &Facts, expect: &str) -> Marking {
    let marking = mark(rubric, facts);
    assert!(marking.problems.is_empty(), "{:?}", marking.problems);
    let (marks, award) = (marking.marks, marking.award.word());
    assert_eq!(
        format!("{marks}, {award}"),
        expect,
        "{:#?}",
        marking.criteria
    );
    marking
}

#[test]
fn a_perfect_shoe_gets_every_mark() {
    for file in shipped() {
        let rubric = rubric(file.file);
        let is_self_check = file.id == "apprentice-self-check";
        let all = if is_self_check { "40" } else { "100" };
        check(&rubric, &faultless(&rubric), &format!("{all}, pass"));
    }
}

/// Wrong wherever it can be, a shoe has no marks but those that one error, charged once, may
/// not take: each cause gives back what it took beyond its most.
#[test]
fn the_worst_shoe_keeps_only_what_is_charged_once() {
    for file in shipped() {
        let rubric = rubric(file.file);
        let marking = mark(&rubric, &worst(&rubric));
        assert!(marking.problems.is_empty(), "{:?}", marking.problems);
        let least: Marks = marking
            .charged_once
            .iter()
            .map(|cause| cause.lost.minus(cause.charged).unwrap())
            .fold(Marks::ZERO, |sum, marks| sum.plus(marks).unwrap());
        assert_eq!(marking.marks, least, "{}", file.file);
        assert_eq!(marking.award.word(), "not yet", "{}", file.file);
        assert!(!marking.stops.is_empty(), "{}", file.file);
    }
}

/// For every number of marks of every criterion there is a shoe that gets it.
#[test]
fn every_mark_of_every_criterion_is_reached() {
    for file in shipped() {
        let rubric = rubric(file.file);
        for (at, entry) in rubric.entries().iter().enumerate() {
            let weighted = |marks: Marks| entry.criterion.weighted(marks);
            let wanted = entry.criterion.possible_marks().into_iter().map(weighted);
            let wanted: BTreeSet<Marks> = wanted.collect();
            let shoes = one_for_each(&rubric, entry);
            let given = shoes.iter().map(|facts| mark(&rubric, facts));
            let given: BTreeSet<Marks> = given
                .map(|marking| marking.criteria[at].marks.unwrap())
                .collect();
            let name = format!("{}, {}", file.file, entry.id);
            assert!(wanted.is_subset(&given), "{name}: {wanted:?}, {given:?}");
        }
    }
}

fn set(facts: &mut Facts, reading: &str, text: &str) {
    facts
        .readings
        .insert(reading.to_owned(), vec![ReadingFact::of(text)]);
}

/// 4 mm narrow loses 3, 5 mm short 4, 5 mm close at the heels 3: ten marks, six
/// of them charged.
#[test]
fn a_short_bar_is_charged_once() {
    let rubric = rubric("straight-bar-shoe.toml");
    let mut facts = faultless(&rubric);
    set(&mut facts, "width", "126.175 mm");
    set(&mut facts, "length", "128.35 mm");
    set(&mut facts, "heel-gap", "52.15 mm");
    let marking = check(&rubric, &facts, "94, pass");
    let charged = &marking.charged_once[0];
    assert_eq!(
        (charged.lost.to_string(), charged.charged.to_string()),
        ("10".into(), "6".into())
    );
}

#[test]
fn an_open_weld_stops_a_shoe_of_93() {
    let rubric = rubric("straight-bar-shoe.toml");
    let mut facts = faultless(&rubric);
    facts.levels.insert("weld".to_owned(), "open".to_owned());
    let marking = check(&rubric, &facts, "93, not yet");
    assert_eq!(marking.stopped_by, ["weld"]);
}

/// The bar at 11 of 25 is below half, the whole at 86 far above the pass mark.
#[test]
fn a_poor_bar_is_not_made_good_elsewhere() {
    let rubric = rubric("straight-bar-shoe.toml");
    let mut facts = faultless(&rubric);
    facts.levels.insert("weld".to_owned(), "lap".to_owned());
    set(&mut facts, "bar-width", "15 mm");
    set(&mut facts, "bar-thickness", "6 mm");
    set(&mut facts, "bar-square", "4 deg");
    let marking = check(&rubric, &facts, "86, not yet");
    assert_eq!(marking.stopped_by, Vec::<String>::new());
    let bar = &marking.sections[1];
    assert!(!bar.reaches_minimum() && bar.marks.to_string() == "11");
}

/// The depth asked for follows the measured thickness: 2/3 of 9 mm is 6 mm.
#[test]
fn the_fuller_is_held_against_the_measured_thickness() {
    let rubric = rubric("straight-bar-shoe.toml");
    let depth = |text: &str| {
        let mut facts = faultless(&rubric);
        set(&mut facts, "thickness", "9 mm");
        set(&mut facts, "bar-thickness", "9 mm");
        set(&mut facts, "fuller-depth", text);
        let marks = mark(&rubric, &facts)
            .criterion("fuller-depth")
            .unwrap()
            .marks;
        marks.unwrap().to_string()
    };
    let depths = [
        "6 mm", "6.6 mm", "6.601 mm", "7.2 mm", "7.201 mm", "4.8 mm", "4.799 mm",
    ];
    assert_eq!(depths.map(depth), ["4", "4", "2", "2", "0", "2", "0"]);
}

/// Nine heats are planned: two more cost a mark, and so do two started minutes.
#[test]
fn heats_and_minutes_over_the_plan() {
    let rubric = rubric("straight-bar-shoe.toml");
    let mut facts = faultless(&rubric);
    facts.tallies.insert("heats".to_owned(), "11".to_owned());
    facts
        .tallies
        .insert("time".to_owned(), "61 min 10 s".to_owned());
    check(&rubric, &facts, "98, pass");
    facts
        .tallies
        .insert("time".to_owned(), "75 min 1 s".to_owned());
    let marking = check(&rubric, &facts, "97, not yet");
    assert_eq!(marking.stopped_by, ["time"]);
}
