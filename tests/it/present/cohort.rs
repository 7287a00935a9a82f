use std::collections::BTreeMap;

use evenshod::cohort::{Asked, Standing};
use evenshod::present::Rubrics;
use evenshod::present::cohort::{
    CohortCell, CohortCells, CohortPage, CohortQuery, CohortRow, Place, SortBy, cohort_asked,
    cohort_cells, cohort_choices, cohort_page, cohort_pieces, cohort_query, cohort_start,
    days_faults, order, place, step,
};
use evenshod::quantity::Exact;
use evenshod::records::{LearnerId, Ledger, Whom};

use crate::demo::sample::{demo, today};
use crate::records::sample::stamp;

fn row(number: u64, name: &str) -> CohortRow {
    CohortRow {
        id: LearnerId::made_by(&stamp(number), 0),
        name: name.to_owned(),
    }
}

fn cell(percent: Option<i128>) -> CohortCell {
    CohortCell {
        band: None,
        words: String::new(),
        share: percent.and_then(|percent| Exact::fraction(percent, 100)),
    }
}

/// The page of what is asked, with all of its medians.
fn page_and_cells(asked: &Asked) -> (CohortPage, CohortCells) {
    let rubrics = Rubrics::default();
    let page = cohort_page(demo(), &rubrics, Some(asked));
    let of = |row: &CohortRow| {
        let cells = cohort_cells(demo(), &rubrics, asked, &page.plan, row.id);
        (row.id, cells)
    };
    let cells = page.rows.iter().map(of).collect();
    (page, cells)
}

#[test]
fn rows_sort_by_any_head_and_gaps_come_last() {
    let names = ["Ada", "Ben", "Cara", "Dee", "Eve"];
    let rows: Vec<CohortRow> = (0..).zip(names).map(|(at, name)| row(at, name)).collect();
    let shares = [Some(50), None, Some(20), Some(50)];
    // Of the last one nothing is known yet.
    let cells: CohortCells = rows
        .iter()
        .zip(shares)
        .map(|(row, share)| (row.id, vec![cell(share)]))
        .collect();
    let none = BTreeMap::new();
    let by = SortBy::default();
    let order = |standings: &BTreeMap<_, _>, by| order(&rows, &cells, standings, by);
    assert_eq!(order(&none, by), [0, 1, 2, 3, 4]);
    assert_eq!(order(&none, by.tapped(0)), [4, 3, 2, 1, 0]);
    let rising = by.tapped(2);
    assert_eq!(order(&none, rising), [2, 0, 3, 1, 4]);
    let falling = rising.tapped(2);
    assert_eq!(order(&none, falling), [0, 3, 2, 1, 4]);
    assert_eq!((falling.aria(2), falling.aria(1)), ("descending", "none"));
    let standings = BTreeMap::from([
        (rows[3].id, Standing::Ready),
        (rows[0].id, Standing::TooFew),
    ]);
    assert_eq!(order(&standings, by.tapped(1)), [3, 0, 1, 2, 4]);
}

#[test]
fn keys_lead_as_the_grid_pattern_says_and_stay_inside() {
    let last = Place { row: 9, column: 4 };
    let at = Place { row: 5, column: 2 };
    let to = |key, control| {
        let to = step(key, control, at, last, 3)?;
        Some((to.row, to.column))
    };
    assert_eq!(to("ArrowUp", false), Some((4, 2)));
    assert_eq!(to("ArrowDown", false), Some((6, 2)));
    assert_eq!(to("ArrowLeft", false), Some((5, 1)));
    assert_eq!(to("ArrowRight", false), Some((5, 3)));
    assert_eq!(to("Home", false), Some((5, 0)));
    assert_eq!(to("End", false), Some((5, 4)));
    assert_eq!(to("Home", true), Some((0, 0)));
    assert_eq!(to("End", true), Some((9, 4)));
    assert_eq!(to("PageUp", false), Some((2, 2)));
    assert_eq!(to("PageDown", false), Some((8, 2)));
    assert_eq!(to("a", false), None);
    assert_eq!(step("PageDown", false, last, last, 3), Some(last));
    assert_eq!(Place::from_id(&place(at)), Some(at));
    assert_eq!(Place::from_id("cohort-rubric"), None);
}

#[test]
fn nothing_made_and_nobody_there_are_told() {
    let empty = Ledger::default();
    let query = CohortQuery::default();
    assert_eq!(cohort_asked(&empty, &query, Whom::Learner), None);
    let page = cohort_page(&empty, &Rubrics::default(), None);
    assert!(
        page.empty.starts_with("No piece was made yet"),
        "{}",
        page.empty
    );
    let query = CohortQuery {
        group: "1999".to_owned(),
        ..query
    };
    let asked = cohort_asked(demo(), &query, Whom::Learner);
    let page = cohort_page(demo(), &Rubrics::default(), asked.as_ref());
    assert!(
        page.empty.starts_with("Nobody is in this group"),
        "{}",
        page.empty
    );
}

#[test]
fn the_school_is_a_matrix_and_held_marks_are_told() {
    let asked = cohort_asked(demo(), &CohortQuery::default(), Whom::Learner).unwrap();
    let [rubrics, groups, _, others] = cohort_choices(demo());
    assert_eq!(rubrics[0].0, asked.rubric);
    assert_eq!(rubrics.len(), 5);
    assert!(groups.len() > 3, "years of enrolment: {groups:?}");
    assert_eq!(
        others.len(),
        groups.len() + 1,
        "no other group is one choice"
    );
    let (page, cells) = page_and_cells(&asked);
    assert_eq!(page.rows.len(), 11, "one of twelve has left");
    let count = page.plan.columns.len() + 1;
    assert!(cells.values().all(|cells| cells.len() == count));
    let again = cohort_query(&asked);
    assert_eq!(cohort_asked(demo(), &again, Whom::Learner), Some(asked));
    // What is held back is left out until an examiner asks.
    let held = rubrics.iter().filter(|(rubric, _)| {
        let query = CohortQuery {
            rubric: rubric.clone(),
            group: "all".to_owned(),
            ..CohortQuery::default()
        };
        let shown = |whom| {
            let asked = cohort_asked(demo(), &query, whom).unwrap();
            page_and_cells(&asked)
        };
        let ((learner, seen), (_, all)) = (shown(Whom::Learner), shown(Whom::Examiner));
        let differs = seen != all;
        assert!(
            !differs || learner.held.contains("held"),
            "{}",
            learner.held
        );
        differs
    });
    assert!(held.count() > 0, "the last exam of the school is held");
}

#[test]
fn a_span_of_days_and_another_group_stand_in_the_address() {
    let query = CohortQuery {
        group: "all".to_owned(),
        from: "2026-03-01".to_owned(),
        to: "2026-06-30".to_owned(),
        other: "2025".to_owned(),
        ..CohortQuery::default()
    };
    let asked = cohort_asked(demo(), &query, Whom::Learner).unwrap();
    let again = cohort_query(&asked);
    assert_eq!(
        (again.from, again.to, again.other),
        (query.from.clone(), query.to.clone(), query.other.clone())
    );
    assert_eq!(days_faults(&query), (None, None));
    // Fewer pieces lie in four months than in all.
    let rubrics = Rubrics::default();
    let count = |query: &CohortQuery| {
        let asked = cohort_asked(demo(), query, Whom::Examiner).unwrap();
        let mut cohort = cohort_start(demo(), &rubrics, &asked, today()).unwrap();
        let plan = cohort.plan.clone();
        for one in cohort.all_mut() {
            one.pieces = cohort_pieces(demo(), &rubrics, &asked, &plan, one.id);
        }
        let days = cohort.people.iter().flat_map(|person| &person.pieces);
        let days: Vec<String> = days.map(|piece| piece.day.iso()).collect();
        (days, cohort.other.map(|other| other.people))
    };
    let (days, other) = count(&query);
    assert!(!days.is_empty());
    let spans = |day: &String| query.from <= *day && *day <= query.to;
    assert!(days.iter().all(spans), "{days:?}");
    let other = other.unwrap();
    assert!(other.iter().any(|person| !person.pieces.is_empty()));
    let (all, none) = count(&CohortQuery {
        group: "all".to_owned(),
        ..CohortQuery::default()
    });
    assert!(all.len() > days.len() && none.is_none());
    let turned = CohortQuery {
        from: query.to.clone(),
        to: query.from.clone(),
        other: query.group.clone(),
        ..query
    };
    let last = days_faults(&turned).1.unwrap();
    assert!(
        last.starts_with("The last day lies before the first"),
        "{last}"
    );
    let asked = cohort_asked(demo(), &turned, Whom::Learner).unwrap();
    assert_eq!(asked.other, None, "a group is not held against itself");
    let nonsense = CohortQuery {
        from: "soon".to_owned(),
        ..CohortQuery::default()
    };
    assert_eq!(
        cohort_asked(demo(), &nonsense, Whom::Learner)
            .unwrap()
            .span
            .from,
        None
    );
}
