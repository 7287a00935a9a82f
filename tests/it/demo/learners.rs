//! The pages of the invented learners, and that they are quick to make.

use std::cmp::Reverse;

use evenshod::job::{Outcome, Request};
use evenshod::output::pdf::{Paper, plan};
use evenshod::present::{
    CourseAsked, LearnerPage, Rubrics, course_wanted, learner_page, learner_print,
};
use evenshod::records::{LearnerId, Moment, Role, Whom};
use evenshod::sheet::{Block, Charted, CourseFigures, Table};
use evenshod::worker::perform;

use super::sample::demo;

fn now() -> Moment {
    crate::records::sample::now()
}

/// Rows but for milestones, which stand under a heading of their own.
fn rows(table: &Table) -> usize {
    let groups = table.groups.iter();
    let groups = groups.filter(|group| group.heading != "Milestones");
    groups.map(|group| group.rows.len()).sum()
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

/// What the worker comes to about a learner's pieces.
fn figures(learner: LearnerId, asked: &CourseAsked) -> CourseFigures {
    let (_, job) =
        course_wanted(demo(), &Rubrics::default(), learner, asked, Whom::Learner).unwrap();
    let asked = Request { id: 3, job };
    let sent = Request::read(&asked.write().unwrap()).unwrap();
    assert_eq!(sent, asked, "over the wire");
    let mut told = Vec::new();
    let outcome = perform(&sent.job, &mut |share| told.push(share)).unwrap();
    assert!(told.is_sorted() && told.last() == Some(&1.0), "{told:?}");
    let Outcome::Course(figures) = outcome else {
        panic!("{outcome:?}");
    };
    *figures
}

/// Weighing everybody's readings takes minutes; those with the most pieces have the longest
/// records.
#[test]
fn a_record_with_bars_and_band_is_one_page() {
    let mut learners: Vec<_> = demo().learners().collect();
    learners.sort_by_key(|learner| Reverse(demo().pieces_of(learner.id).count()));
    for learner in learners.iter().take(2) {
        let mut asked = CourseAsked::default();
        asked.figures = Some(figures(learner.id, &asked));
        let rubrics = Rubrics::default();
        let document = learner_print(demo(), &rubrics, learner.id, &asked, now()).unwrap();
        assert_eq!(
            plan(&document, Paper::A4).unwrap().len(),
            1,
            "{}",
            learner.name
        );
    }
}

/// Days narrow what is told of, and the pages say so; the list of pieces keeps all.
#[test]
fn days_choose_the_pieces_that_are_told_of() {
    let rubrics = Rubrics::default();
    let learner = demo().learners().next().unwrap().id;
    let page = |asked: &CourseAsked| {
        learner_page(demo(), &rubrics, learner, asked, now(), Whom::Learner).unwrap()
    };
    let whole = page(&CourseAsked::default());
    let course = whole.course.as_ref().unwrap();
    let dates: Vec<&str> = course
        .marks
        .drawing
        .readings
        .iter()
        .map(|one| &*one.words)
        .collect();
    let second = dates[1].split(',').next().unwrap();
    let made = demo().pieces_of(learner);
    let days = made.map(|piece| demo().sitting(piece.sitting).unwrap().day);
    let day = days
        .into_iter()
        .find(|day| day.to_string() == second)
        .unwrap();
    let from = |day: String| CourseAsked::in_address(None, Some(day), None);
    let later = from(day.iso()).by(&chosen(&whole));
    let narrowed = page(&later);
    assert_eq!(narrowed.span, format!("made from {second} on"));
    let marks = narrowed.course.unwrap().marks;
    assert!(marks.drawing.readings[0].words.starts_with(second));
    assert!(rows(&marks.table) < rows(&course.marks.table));
    assert_eq!(narrowed.pieces, whole.pieces);
    let document = learner_print(demo(), &rubrics, learner, &later, now()).unwrap();
    let Block::Facts(facts) = &document.blocks[0] else {
        panic!("facts first");
    };
    let said = facts.iter().find(|fact| fact.label == "Told of pieces");
    assert_eq!(said.unwrap().value, narrowed.span);
    // What the worker is asked is about these pieces, so its answer is another one.
    let topic = |asked: &CourseAsked| {
        let wanted = course_wanted(demo(), &rubrics, learner, asked, Whom::Learner);
        wanted.map(|(topic, _)| topic.version)
    };
    assert_ne!(
        topic(&later),
        topic(&CourseAsked::default().by(&chosen(&whole)))
    );
    let none = CourseAsked::in_address(None, None, Some("1999-12-31".to_owned()));
    assert!(page(&none).course.is_none());
    assert_eq!(topic(&none), None);
}

fn chosen(page: &LearnerPage) -> String {
    let mut choices = page.rubrics.iter();
    choices.find(|choice| choice.is_chosen).unwrap().id.clone()
}

/// Bars and curves come from the worker, and the page shows them.
#[test]
fn the_page_shows_what_the_worker_came_to() {
    let learner = demo().learners().next().unwrap().id;
    let mut asked = CourseAsked::default();
    let found = figures(learner, &asked);
    asked.figures = Some(found.clone());
    let page = learner_page(
        demo(),
        &Rubrics::default(),
        learner,
        &asked,
        now(),
        Whom::Learner,
    );
    let course = page.unwrap().course.unwrap();
    assert_eq!(course.change, Some(found.change));
    // But for the flags, which the worker does not know of.
    let stand_out = |chart: &Charted| (chart.heading.clone(), chart.table.groups[0].clone());
    assert_eq!(
        course.usual.as_ref().map(stand_out),
        found.usual.as_ref().map(stand_out)
    );
    let pieces = &course.marks.table.groups[0].rows;
    // Every total lies within its bar.
    let marks = |text: &str| text.parse::<f64>().unwrap();
    let mut bars = 0;
    for row in pieces {
        if let Some((least, most)) = row[5].text.split_once(" to ") {
            let given = marks(row[2].text.split(' ').next().unwrap());
            assert!(marks(least) <= given && given <= marks(most), "{row:?}");
            bars += 1;
        }
    }
    assert!(bars > 2, "{bars}");
}
