//! What many pieces come to, held against sums by hand.

mod change;
pub mod evidence;
mod next;
pub mod step_heats;
mod steps;

use std::sync::Arc;

use evenshod::marking::{Facts, mark};
use evenshod::progress::{
    LATEST, Made, Pair, all_series, criterion_courses, own_differences, shown_series,
    tally_courses, to_practise,
};
use evenshod::quantity::{Exact, Marks};
use evenshod::records::{Day, PieceId, Role, SittingKind};
use evenshod::rubric::Rubric;

use crate::marking::{facts, rubric};
use crate::records::sample::stamp;

/// Two sections: the first counts twice, its five marks are scaled to ten.
pub const RUBRIC: &str = r#"
award = { pass = "60 %" }
time = { limit = "35 min", after = "deduct", deduct = 1 }
[[steps]]
id = "bend"
name = "Bending"
[[steps]]
id = "groove"
name = "Fullering"
[[sections]]
id = "form"
name = "Form"
weight = 10
[[sections.criteria]]
id = "toe"
name = "Toe"
kind = "judged"
step = "bend"
numbers = { least = 0, most = 4, step = 1 }
faults = [
  { id = "flat", name = "Flat toe", cause = "bent cold", remedy = "bend at a bright heat", effect = "noted" },
  { id = "point", name = "Pointed toe", cause = "bent over the edge", remedy = "bend over the horn", effect = "noted" },
]
[[sections.criteria]]
id = "heels"
name = "Heels"
kind = "judged"
numbers = { least = 0, most = 1, step = 1 }
faults = [{ id = "thin", name = "Thin heel", remedy = "leave more stock", step = "groove", effect = "noted" }]
[[sections]]
id = "fuller"
name = "Fuller"
[[sections.criteria]]
id = "depth"
name = "Depth"
kind = "judged"
not_applicable = "keep"
step = "groove"
numbers = { least = 0, most = 6, step = 1 }
faults = [{ id = "shallow", name = "Shallow", remedy = "bend at a bright heat", effect = "noted" }]
[[sections.criteria]]
id = "heats"
name = "Heats"
kind = "tally"
marks = 2
allowance = 6
deduct = 1
[[sections.criteria]]
id = "time"
name = "Time"
kind = "tally"
time_rule = true
marks = 2
"#;

/// The facts of a piece: levels of toe, heels and depth, heats, and a fault.
pub fn seen(toe: u32, heels: u32, depth: u32, heats: u32, fault: &str) -> Facts {
    let noted = |entry: &str, known: &[&str]| {
        let is_here = known.contains(&fault);
        is_here.then(|| format!(r#""{entry}": ["{fault}"]"#))
    };
    let noted = [
        noted("toe", &["flat", "point"]),
        noted("heels", &["thin"]),
        noted("depth", &["shallow"]),
    ];
    let faults: Vec<_> = noted.into_iter().flatten().collect();
    facts(&format!(
        r#"{{"levels": {{"toe": "{toe}", "heels": "{heels}", "depth": "{depth}"}},
            "tallies": {{"heats": "{heats}", "time": "30"}}, "faults": {{{}}}}}"#,
        faults.join(", ")
    ))
}

pub fn made<'a>(rubric: &Arc<Rubric>, facts: &'a Facts, at: u32, role: Role) -> Made<'a> {
    Made {
        piece: PieceId::made_by(&stamp(at.into()), 3),
        day: Day::new(2026, 3, at + 1).unwrap(),
        sitting: SittingKind::Practice,
        role,
        outcome: mark(rubric, facts),
        rubric: Arc::clone(rubric),
        facts,
    }
}

pub fn made_of<'a>(rubric: &Arc<Rubric>, all: &'a [Facts]) -> Vec<Made<'a>> {
    let made = (0..)
        .zip(all)
        .map(|(at, facts)| made(rubric, facts, at, Role::First));
    made.collect()
}

fn fraction(numerator: i128, denominator: i128) -> Exact {
    Exact::fraction(numerator, denominator).unwrap()
}

#[test]
fn pieces_stand_by_rubric_the_last_used_first() {
    let (one, other) = (Arc::new(rubric(RUBRIC)), Arc::new(other("other")));
    let facts = seen(4, 1, 6, 6, "");
    let pieces = [
        made(&one, &facts, 0, Role::First),
        made(&other, &facts, 1, Role::First),
        made(&one, &facts, 2, Role::First),
    ];
    let all = all_series(&pieces);
    let ids: Vec<_> = all.iter().map(|series| series.rubric_id.as_str()).collect();
    assert_eq!(ids, ["try", "other"]);
    assert_eq!(all[0].pieces.len(), 2);
    assert_eq!(all_series(&pieces[..2])[0].rubric_id, "other");
    assert!(all_series(&[]).is_empty());
    // That with most pieces is shown, or what is asked for.
    let shown = |of: &[Made<'_>], asked| {
        let all = all_series(of);
        shown_series(&all, asked).map(|series| series.rubric_id.clone())
    };
    assert_eq!(shown(&pieces, None).unwrap(), "try");
    assert_eq!(shown(&pieces, Some("other")).unwrap(), "other");
    assert_eq!(shown(&pieces, Some("none")).unwrap(), "try");
    assert_eq!(shown(&pieces[..2], None).unwrap(), "other");
    assert_eq!(shown(&[], None), None);
}

fn other(id: &str) -> Rubric {
    let mut rubric = rubric(RUBRIC);
    rubric.id = id.to_owned();
    rubric
}

#[test]
fn a_criterion_has_a_share_for_each_piece() {
    let rubric = Arc::new(rubric(RUBRIC));
    let all = [seen(1, 0, 6, 6, ""), facts("{}"), seen(3, 1, 2, 6, "")];
    let pieces = made_of(&rubric, &all);
    let series = &all_series(&pieces)[0];
    let courses = criterion_courses(series);
    let names: Vec<_> = courses.iter().map(|course| course.name.as_str()).collect();
    assert_eq!(names[..3], ["Toe", "Heels", "Depth"]);
    let shares: Vec<_> = courses[0]
        .points
        .iter()
        .map(|point| point.map(|point| point.share))
        .collect();
    assert_eq!(shares, [Some(fraction(1, 4)), None, Some(fraction(3, 4))]);
    assert_eq!(courses[2].latest().unwrap().marks, Marks::whole(2));
}

#[test]
fn heats_and_time_stand_as_counted_with_the_pauses_off() {
    let rubric = Arc::new(rubric(RUBRIC));
    let mut paused = seen(4, 1, 6, 9, "");
    paused.pauses = facts(r#"{"pauses": [{"duration": "4", "reason": "fire out"}]}"#).pauses;
    let all = [seen(4, 1, 6, 7, ""), facts("{}"), paused];
    let pieces = made_of(&rubric, &all);
    let courses = tally_courses(&all_series(&pieces)[0]);
    let said: Vec<_> = courses
        .iter()
        .map(|course| {
            let unit = course.dimension.usual_unit();
            let points = course
                .points
                .iter()
                .map(|point| point.map(|point| point.print_limit(unit)));
            let points: Vec<_> = points.map(Option::unwrap_or_default).collect();
            format!(
                "{}: {}, allowed {}",
                course.name,
                points.join("; "),
                course.allowance.print_limit(unit)
            )
        })
        .collect();
    assert_eq!(
        said,
        [
            "Heats: 7; ; 9, allowed 6",
            "Time: 30 min; ; 26 min, allowed 35 min",
        ]
    );
}

#[test]
fn the_costliest_criteria_of_the_latest_pieces_come_first() {
    let rubric = Arc::new(rubric(RUBRIC));
    // 20 marks in all. Lost: toe 2 a level (10 %), heels 2, depth 1 (5 %), heats 1 each.
    let all = [
        // Too old to count.
        seen(0, 0, 0, 8, "thin"),
        seen(3, 1, 6, 6, "flat"),
        seen(4, 1, 2, 6, "shallow"),
        seen(2, 1, 6, 7, "point"),
    ];
    let pieces = made_of(&rubric, &all);
    assert_eq!(LATEST, 3);
    let found = to_practise(&pieces, 5);
    let said: Vec<_> = found
        .iter()
        .map(|one| {
            let faults: Vec<_> = one
                .faults
                .iter()
                .map(|seen| seen.fault.name.as_str())
                .collect();
            format!(
                "{} {} in {:?}, last {}: {}",
                one.entry.criterion.id,
                one.lost_percent,
                one.cost_in,
                one.made.day,
                faults.join(", ")
            )
        })
        .collect();
    // Toe: (1 + 2) levels of 2 marks in 20. Depth: 4 marks in 20; its remedy is the
    // same as that of the flat toe, but the toe's first is that of the latest fault.
    assert_eq!(
        said,
        [
            "toe 30 in (2, 3), last 4 Mar 2026: Pointed toe, Flat toe",
            "depth 20 in (1, 3), last 3 Mar 2026: Shallow",
            "heats 5 in (1, 3), last 4 Mar 2026: ",
        ]
    );
    assert_eq!(to_practise(&pieces, 1).len(), 1);
    assert!(to_practise(&[], 3).is_empty());
}

#[test]
fn what_has_one_remedy_is_named_once() {
    let rubric = Arc::new(rubric(RUBRIC));
    let all = [seen(1, 1, 2, 6, "flat"), seen(4, 1, 6, 6, "")];
    let pieces = made_of(&rubric, &all);
    let found = to_practise(&pieces, 3);
    let ids: Vec<_> = found
        .iter()
        .map(|one| one.entry.criterion.id.as_str())
        .collect();
    // Toe lost 6 of 20, depth 4 of 20, and both ask for a bright heat.
    assert_eq!(ids, ["toe"]);
    assert_eq!(found[0].fault().unwrap().id, "flat");
}

#[test]
fn own_marks_count_only_where_there_are_no_others() {
    let rubric = Arc::new(rubric(RUBRIC));
    let (own, other) = (seen(0, 1, 6, 6, ""), seen(4, 0, 6, 6, ""));
    let both = [
        made(&rubric, &other, 0, Role::First),
        made(&rubric, &own, 1, Role::Own),
    ];
    let first = |pieces: &[Made<'_>]| to_practise(pieces, 1)[0].entry.criterion.id.clone();
    assert_eq!(first(&both), "heels");
    assert_eq!(first(&both[1..]), "toe");
}

#[test]
fn a_maker_is_kinder_or_harder_by_the_mean_share() {
    let rubric = Arc::new(rubric(RUBRIC));
    let facts = [
        (seen(4, 1, 6, 6, ""), seen(2, 1, 6, 6, "")),
        (seen(3, 0, 6, 6, ""), seen(2, 1, 6, 6, "")),
    ];
    let pairs: Vec<_> = (0..)
        .zip(&facts)
        .map(|(at, (own, counts))| Pair {
            own: made(&rubric, own, at, Role::Own),
            counts: made(&rubric, counts, at, Role::First),
        })
        .collect();
    let differences = own_differences(&pairs);
    let told: Vec<_> = differences
        .iter()
        .map(|one| (one.id.as_str(), one.mean, one.pieces))
        .collect();
    // Toe: (2/4 + 1/4) / 2 kinder. Heels: (0 - 1) / 2, harder.
    assert_eq!(told[0], ("heels", fraction(-1, 2), 2));
    assert_eq!(told[1], ("toe", fraction(3, 8), 2));
    assert!(told[2..].iter().all(|(_, mean, _)| mean.is_zero()));
    assert_eq!(own_differences(&[]), []);
}

#[test]
fn what_does_not_apply_is_neither_lost_nor_practised_nor_compared() {
    let rubric = Arc::new(rubric(RUBRIC));
    let mut plain = seen(4, 1, 6, 6, "");
    plain.states = facts(r#"{"states": {"depth": "not applicable"}}"#).states;
    let pieces = [made(&rubric, &plain, 0, Role::First)];
    assert_eq!(pieces[0].outcome.marks, Marks::whole(14));
    assert!(to_practise(&pieces, 3).is_empty());
    let courses = criterion_courses(&all_series(&pieces)[0]);
    assert_eq!(courses[2].points, [None]);
    let other = seen(4, 1, 3, 6, "");
    let pair = Pair {
        own: made(&rubric, &other, 0, Role::Own),
        counts: made(&rubric, &plain, 0, Role::First),
    };
    let differences = own_differences(&[pair]);
    assert!(differences.iter().all(|one| one.id != "depth"));
}
