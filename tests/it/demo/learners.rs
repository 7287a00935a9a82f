//! The pages of the invented learners, and that they are quick to make.

use evenshod::present::{CourseAsked, LearnerPage, Rubrics, learner_page, learner_print};
use evenshod::records::{Moment, Role, Whom};
use evenshod::sheet::{Block, Table};

use super::sample::demo;

fn now() -> Moment {
    crate::records::sample::now()
}

fn rows(table: &Table) -> usize {
    table.groups.iter().map(|group| group.rows.len()).sum()
}

fn pages() -> Vec<(String, LearnerPage)> {
    let rubrics = Rubrics::default();
    let ledger = demo();
    let page = |id| {
        learner_page(
            ledger,
            &rubrics,
            id,
            &CourseAsked::default(),
            now(),
            Whom::Learner,
        )
        .unwrap()
    };
    let learners = ledger.learners();
    learners
        .map(|learner| (learner.name.clone(), page(learner.id)))
        .collect()
}

#[test]
fn every_invented_learner_has_a_course_and_something_to_practise() {
    for (name, page) in pages() {
        let course = page.course.expect(&name);
        let chosen = page.rubrics.iter().find(|choice| choice.is_chosen).unwrap();
        // Under the pieces stands what the next one may come to.
        let next = usize::from(course.next.iter().any(|next| next.has_figure));
        assert_eq!(
            (rows(&course.marks.table) - next).to_string(),
            chosen.about.split(' ').next().unwrap()
        );
        assert_eq!(
            course
                .criteria
                .iter()
                .map(|section| section.criteria.len())
                .sum::<usize>(),
            rows(&course.criteria_table)
        );
        assert!((1..=3).contains(&page.practice.len()), "{name}");
        for practice in &page.practice {
            assert!(
                !practice.remedy.is_empty() && !practice.asked.is_empty(),
                "{practice:?}"
            );
        }
    }
}

#[test]
fn the_address_chooses_the_rubric() {
    let ledger = demo();
    let rubrics = Rubrics::default();
    let learner = ledger.learners().next().unwrap().id;
    let page = learner_page(
        ledger,
        &rubrics,
        learner,
        &CourseAsked::default(),
        now(),
        Whom::Learner,
    )
    .unwrap();
    assert!(page.rubrics.len() > 1);
    for choice in &page.rubrics {
        let page = learner_page(
            ledger,
            &rubrics,
            learner,
            &CourseAsked::default().by(&choice.id),
            now(),
            Whom::Learner,
        )
        .unwrap();
        let heading = page.course.unwrap().marks.heading;
        assert_eq!(heading, format!("{} over time", choice.title));
        let document = learner_print(
            ledger,
            &rubrics,
            learner,
            &CourseAsked::default().by(&choice.id),
            now(),
        )
        .unwrap();
        let is_heading =
            |block: &Block| matches!(block, Block::Heading { text, .. } if *text == heading);
        assert!(document.blocks.iter().any(is_heading));
    }
}

#[test]
fn whoever_marked_their_own_pieces_sees_both() {
    let ledger = demo();
    let both = ledger.pieces().filter(|piece| {
        let own = |role: Role| {
            ledger
                .markings_of(piece.id)
                .any(|marking| marking.role == role && marking.seal.is_some())
        };
        own(Role::Own) && own(Role::First)
    });
    let told = pages().into_iter().filter_map(|(_, page)| page.own);
    let told: usize = told.map(|own| rows(&own.chart.table)).sum();
    assert_eq!(told, both.count());
    assert!(told > 5);
}
