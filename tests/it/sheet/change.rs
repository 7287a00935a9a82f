//! How a learner changes, in words, from numbers by hand.

use std::sync::Arc;

use evenshod::chart::Class;
use evenshod::progress::{Numbers, OwnNumbers, PieceNumbers, TallyNumbers, all_series};
use evenshod::quantity::{Dimension, Exact, Marks};
use evenshod::records::{Day, SittingKind};
use evenshod::sheet::{
    CourseFigures, CurveShown, course_figures, marks_over_time, ready_shown, tallies_shown,
};

use crate::marking::rubric;
use crate::progress::{RUBRIC, made_of, seen};

/// Pieces of so many per cent, timed practice, day by day.
fn numbers(percents: &[i128]) -> Numbers {
    let pieces = (1..).zip(percents).map(|(day, percent)| PieceNumbers {
        day: Day::new(2026, 3, day).unwrap(),
        sitting: SittingKind::Practice,
        percent: Exact::whole(*percent),
    });
    let is_enough = percents.len() >= 5;
    Numbers {
        whole: percents.len(),
        alike: is_enough.then_some((SittingKind::Practice, true)),
        pieces: pieces.filter(|_| is_enough).collect(),
        tallies: Vec::new(),
        own: Vec::new(),
    }
}

fn of(numbers: &Numbers) -> CourseFigures {
    course_figures(numbers, Vec::new())
}

/// The sums of the first are in the tests of `progress`; a score of 13 is 2.25 deviations off,
/// which chance gives once in 41.
#[test]
fn a_rise_is_told_with_what_it_rests_on() {
    let told = of(&numbers(&[50, 54, 52, 58, 60, 62])).change;
    assert_eq!(
        told.words,
        [
            "Marks rise. Over 6 pieces (practice, timed) by about 2.0 per cent of the marks from \
             one piece to the next (95 % interval +1.0 to +4.0).",
            "By their order alone, from −1 where each piece is worse than all before it to +1 \
             where each is better, it comes to +0.87 (Kendall’s tau). Pieces in no order at all \
             come as far from 0 about once in 41 times.",
        ]
    );
    assert!(told.how.contains("Sen") && told.how.contains("Kendall"));
    let falls = of(&numbers(&[62, 60, 58, 52, 54, 50])).change;
    assert!(falls.words[0].starts_with("Marks fall. "));
    let none = of(&numbers(&[50, 54, 49, 53, 50, 52])).change;
    assert!(none.words[0].starts_with("Whether marks rise or fall cannot be told from 6 pieces"));
    let same = of(&numbers(&[50; 6])).change;
    assert_eq!(
        same.words,
        ["All 6 pieces (practice, timed) have the same marks: there is no change to tell."]
    );
}

#[test]
fn nothing_is_claimed_from_fewer_than_five() {
    let mut few = numbers(&[50, 54, 52, 58]);
    few.tallies = vec![minutes(&[30.0, 28.0, 27.0, 26.0])];
    few.own = vec![own(60, 50); 4];
    let figures = of(&few);
    assert_eq!(
        figures.change.words,
        [
            "Nothing is claimed: 4 pieces marked as a whole by an examiner, and it takes 5 made \
             alike: for one purpose, timed or untimed, by the latest version of the rubric."
        ]
    );
    assert_eq!(figures.usual, None);
    assert!(figures.curves[0].heights.is_empty());
    assert!(figures.curves[0].words.contains("fewer than 5 pieces"));
    assert!(figures.own.unwrap().words[0].starts_with("Nothing is claimed: 4 pieces were"));
    assert_eq!(of(&numbers(&[])).own, None);
}

#[test]
fn a_piece_that_stands_out_is_named_and_drawn_otherwise() {
    let mut percents: Vec<i128> = (1..=12).map(|at| 40 + 2 * at + at % 2).collect();
    percents[8] = 30;
    let chart = of(&numbers(&percents)).usual.unwrap();
    assert!(
        chart.caption.starts_with(
            "Of 12 pieces (practice, timed) 1 stands out from this learner’s usual spread: \
             9 Mar 2026 with 30 %, poorer than usual. "
        ),
        "{}",
        chart.caption
    );
    let limits = chart.drawing.shapes.iter();
    let limits = limits.filter(|shape| format!("{shape:?}").contains("class: Limit"));
    assert_eq!(limits.count(), 2);
    assert_eq!(chart.drawing.readings.len(), 12);
    assert_eq!(
        chart.drawing.readings[8].words,
        "9 Mar 2026: 30 %, stands out"
    );
    assert_eq!(chart.table.groups[0].rows[8][3].text, "stands out");
    assert_eq!(chart.table.groups[0].rows[0][3].text, "as usual");
}

fn minutes(values: &[f64]) -> TallyNumbers {
    TallyNumbers {
        id: "time".to_owned(),
        dimension: Dimension::Duration,
        values: values.to_vec(),
    }
}

fn own(own: i128, counts: i128) -> OwnNumbers {
    OwnNumbers {
        own: Exact::whole(own),
        counts: Exact::whole(counts),
    }
}

#[test]
fn a_curve_says_from_where_to_where_and_is_drawn() {
    let mut all = numbers(&[]);
    all.tallies = vec![minutes(&[34.2, 28.3, 25.7, 24.2, 22.9, 22.7, 22.2, 22.2])];
    let curve: CurveShown = of(&all).curves.remove(0);
    assert!(
        curve.words.starts_with(
            "Dashes: practice brings it down from about 34 min at the first of 8 pieces to 22 min \
             at the latest, towards about 22 min (95 % interval 22 to 2"
        ),
        "{}",
        curve.words
    );
    let facts = vec![seen(4, 1, 6, 6, ""); 8];
    let pieces = made_of(&Arc::new(rubric(RUBRIC)), &facts);
    let series = &all_series(&pieces)[0];
    let drawn = |curves: &[CurveShown]| {
        let charts = tallies_shown(series, curves);
        let time = charts.iter().find(|chart| chart.heading == "Time").unwrap();
        let is_curve = |shape: &&evenshod::chart::Shape| {
            matches!(
                shape,
                evenshod::chart::Shape::Path {
                    class: Class::Curve,
                    ..
                }
            )
        };
        let lines = time.drawing.shapes.iter().filter(is_curve).count();
        (
            lines,
            time.caption.contains("Dashes: "),
            time.how.is_empty(),
        )
    };
    assert_eq!(drawn(std::slice::from_ref(&curve)), (1, true, false));
    assert_eq!(drawn(&[]), (0, false, true));
    // One of other pieces is not drawn.
    let mut other = curve;
    other.heights.pop();
    assert_eq!(drawn(&[other]).0, 0);
    all.tallies = vec![minutes(&[20.0, 22.0, 24.0, 25.0, 27.0, 29.0])];
    let none = of(&all).curves.remove(0);
    assert_eq!(
        none.words,
        "They do not fall and flatten, so no curve of practice is drawn."
    );
}

/// Off by 8, 6, 4, 2, 0; the sums are in the tests of `progress`.
#[test]
fn own_marks_are_told_kinder_and_closer() {
    let mut all = numbers(&[]);
    all.own = [(68, 60), (68, 62), (62, 58), (67, 65), (66, 66)]
        .map(|(mine, theirs)| own(mine, theirs))
        .to_vec();
    let told = of(&all).own.unwrap();
    assert_eq!(
        told.words,
        [
            "Own marks are the kinder: on the mean 4.0 per cent of the marks higher (over 5 \
             pieces, 95 % interval +0.1 to +7.9).",
            "They come closer to the examiner’s: by about 2.0 per cent of the marks from one \
             piece to the next (95 % interval −2.0 to −2.0).",
        ]
    );
}

#[test]
fn bars_and_band_stand_in_drawing_words_and_table() {
    let facts = [1, 3, 2, 4, 5].map(|depth| seen(2, 1, depth, 6, ""));
    let pieces = made_of(&Arc::new(rubric(RUBRIC)), &facts);
    let series = &all_series(&pieces)[0];
    let marks = |marks| Marks::whole(marks);
    let within = [
        Some((marks(10), marks(13))),
        Some((marks(13), marks(13))),
        None,
        None,
        None,
    ];
    let chart = marks_over_time(series, &within);
    let reach = chart.drawing.shapes.iter().filter(|shape| {
        matches!(
            shape,
            evenshod::chart::Shape::Path {
                class: Class::Reach,
                ..
            }
        )
    });
    // Measuring leaves nothing open of the second.
    assert_eq!(reach.count(), 1);
    assert!(chart.caption.contains("Upright bars: 19 of 20 true totals"));
    assert!(
        chart
            .caption
            .contains("Band: 19 of 20 next pieces (practice, timed) come to between")
    );
    assert!(chart.drawing.description.contains("19 of 20 next pieces"));
    assert!(chart.how.contains("JCGM 101:2008"));
    let rows = &chart.table.groups[0].rows;
    let said: Vec<&str> = rows.iter().map(|row| row[5].text.as_str()).collect();
    assert_eq!(said, ["10 to 13", "13", "–", "–", "–", "–"]);
    assert_eq!(rows[5][0].text, "next");
    let words = &chart.drawing.readings[0].words;
    assert_eq!(
        words,
        "1 Mar 2026, practice: 11 of 20 (55 %), not yet; true total 10 to 13"
    );
    // Without either it is as it was.
    let plain = marks_over_time(&all_series(&pieces[..4])[0], &[]);
    assert!(plain.how.is_empty() && plain.table.columns.len() == 5);
}

#[test]
fn readiness_is_that_of_a_cohort() {
    let rubric = Arc::new(rubric(RUBRIC));
    let facts = [4, 5, 4, 6, 5].map(|depth| seen(4, 1, depth, 6, ""));
    let pieces = made_of(&rubric, &facts);
    let ready = ready_shown(&all_series(&pieces)[0]);
    assert_eq!(ready.heading, "Readiness: ready");
    assert!(
        ready.words[0].starts_with(
            "The next timed practice piece, made as these 5 pieces were, passes with a \
             probability of "
        ),
        "{:?}",
        ready.words
    );
    assert!(ready.how.contains("80 %"));
    let few = ready_shown(&all_series(&pieces[..3])[0]);
    assert_eq!(few.heading, "Readiness: too few pieces");
}
