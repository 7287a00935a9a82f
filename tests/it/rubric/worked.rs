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

/// Each rubric with the marks that a perfect shoe gets and those that the worst one keeps,
/// added up by hand from the file: of each cause, what its criteria give together less the
/// most that one error may cost.
const BY_HAND: &[(&str, &str, &str)] = &[
    // Cut length 4 + 4 + 3, at most 6.
    ("straight-bar-shoe", "100", "5"),
    // Cut length 4 + 4 + 4, at most 6.
    ("concave-front-shoe", "100", "6"),
    // Cut length 4 + 4 + 4, at most 6; middle mark 2 + 3 + 3 + 5, at most 6.
    ("open-heeled-front-shoe", "100", "13"),
    // Cut length 12, at most 6; clips marked 4 + 3, at most 4, and drawn 4 + 3, at most 5.
    ("hind-shoe", "100", "11"),
    // Cut length 2 + 2 + 2, at most 4, for each shoe; unlike size 4 + 3 + 2 + 6, at most 12.
    ("pair-of-fronts", "100", "7"),
    // Cut length 12, at most 6; a flat at the weld 6 + 4, at most 6; halves 4 + 2, at most 4.
    ("egg-bar-shoe", "100", "12"),
    // No cause.
    ("apprentice-self-check", "40", "0"),
];

#[test]
fn a_perfect_and_a_worst_shoe_are_as_added_up_by_hand() {
    assert_eq!(BY_HAND.len(), shipped().len());
    for (id, all, kept) in BY_HAND {
        let rubric = rubric(&format!("{id}.toml"));
        check(&rubric, &faultless(&rubric), &format!("{all}, pass"));
        let marking = check(&rubric, &worst(&rubric), &format!("{kept}, not yet"));
        assert!(!marking.stops.is_empty(), "{id}");
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
