//! The shipped rubrics at work: a perfect shoe, a short one, one with an open
//! weld.

use evenshod::marking::{Facts, Marking, ReadingFact, mark};
use evenshod::quantity::{Dimension, Length, Quantity, Unit};
use evenshod::rubric::{Judged, Kind, Rubric, shipped};

use super::sample::read;

fn rubric(file: &str) -> Rubric {
    let file = shipped().iter().find(|shipped| shipped.file == file);
    read(file.unwrap().text)
}

fn text_of(quantity: Quantity) -> String {
    match quantity.dimension {
        Dimension::Length => Length::nearest(quantity).unwrap().to_string(),
        _ => quantity
            .base
            .over(quantity.dimension.usual_unit().in_base())
            .unwrap()
            .to_string(),
    }
}

/// What is read on a shoe that is just as it was asked for.
fn perfect(rubric: &Rubric) -> Facts {
    let mut facts = Facts::default();
    let thickness = rubric.piece.finished.thickness.quantity();
    let reading = |id: &str| (id == "thickness").then_some(thickness);
    let mut put = |id: &str, text: String, times: usize| {
        facts
            .readings
            .insert(id.to_owned(), vec![ReadingFact::of(text); times]);
    };
    put("thickness", text_of(thickness), 2);
    for entry in rubric.entries() {
        let id = entry.id;
        match &entry.criterion.kind {
            Kind::Toleranced(kind) => {
                let nothing = Quantity::zero(kind.scale.dimension);
                let target = kind.scale.target.as_ref();
                let asked = target.map_or(nothing, |target| target.value(&reading).unwrap());
                put(&kind.reading, text_of(asked), 1);
            }
            Kind::Paired(kind) => {
                put(&kind.left, "100 mm".to_owned(), 1);
                put(&kind.right, "100 mm".to_owned(), 1);
            }
            Kind::Spread(kind) => put(&kind.reading, "1 1/8 in".to_owned(), kind.count as usize),
            Kind::Tally(tally) => {
                facts.tallies.insert(id, tally.allowance.print(Unit::One));
            }
            Kind::Judged(Judged::Levels(levels)) => {
                facts.levels.insert(id, levels[0].id.clone());
            }
            Kind::Judged(Judged::Numbers { allowed, .. }) => {
                facts.levels.insert(id, allowed.last().unwrap().to_string());
            }
            Kind::Faults(_) => {
                facts.faults.insert(id, Vec::new());
            }
        }
    }
    facts
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
        check(&rubric, &perfect(&rubric), "100, pass");
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
    let mut facts = perfect(&rubric);
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
    let mut facts = perfect(&rubric);
    facts.levels.insert("weld".to_owned(), "open".to_owned());
    let marking = check(&rubric, &facts, "93, not yet");
    assert_eq!(marking.stopped_by, ["weld"]);
}

/// The bar at 11 of 25 is below half, the whole at 86 far above the pass mark.
#[test]
fn a_poor_bar_is_not_made_good_elsewhere() {
    let rubric = rubric("straight-bar-shoe.toml");
    let mut facts = perfect(&rubric);
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
        let mut facts = perfect(&rubric);
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
    let mut facts = perfect(&rubric);
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
