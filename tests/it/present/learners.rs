use evenshod::chart::Shape;
use evenshod::command::{Command, Who};
use evenshod::present::{
    CourseAsked, LearnerPage, Rubrics, learner_choices, learner_page, learner_rows,
    learners_counted, offers, set_apart,
};
use evenshod::records::{Day, LearnerId, Ledger, Whom};

use crate::records::sample::{after, named, now, seal, stamp, start_piece};

fn add(ledger: &Ledger, name: &str, number: Option<&str>, at: u64) -> Ledger {
    let command = Command::AddLearner {
        name: name.to_owned(),
        given_number: number.map(str::to_owned),
    };
    after(ledger, command, &stamp(at)).0
}

/// Starts a piece made on `day`, and seals it.
fn sealed(ledger: &Ledger, who: Who, day: Day, at: u64) -> (Ledger, LearnerId) {
    let mut what = start_piece(who);
    what.rubric = offers().remove(0).rubric;
    what.day = day;
    let (ledger, made) = after(ledger, Command::StartPiece(Box::new(what)), &stamp(at));
    let (ledger, _) = after(&ledger, seal(made.marking.unwrap()), &stamp(at + 1));
    (ledger, made.learner.unwrap())
}

fn page(ledger: &Ledger, id: LearnerId) -> LearnerPage {
    learner_page(
        ledger,
        &Rubrics::default(),
        id,
        &CourseAsked::default(),
        now(),
        Whom::Learner,
    )
    .unwrap()
}

#[test]
fn learners_stand_by_name_whatever_its_case() {
    let ledger = add(&Ledger::default(), "ben", None, 0);
    let ledger = add(&ledger, "Ada", Some("7"), 1);
    let ledger = add(&ledger, "Cara", None, 2);
    let names: Vec<_> = learner_choices(&ledger, "")
        .into_iter()
        .map(|choice| choice.name)
        .collect();
    assert_eq!(names, ["Ada (7)", "ben", "Cara"]);
    let rows = learner_rows(&ledger, &Rubrics::default(), now());
    assert_eq!(rows[0].about, "no pieces yet");
    assert_eq!((rows[0].now.as_str(), &rows[0].marks), ("", &None));
    assert_eq!(learners_counted(rows.len()), "3 on this device");
    assert_eq!(learners_counted(0), "nobody on this device yet");
}

/// Marks that are not seen keep a name that runs from right to left in its place; other
/// names stay as they are.
#[test]
fn names_from_right_to_left_are_set_apart() {
    let ledger = add(&Ledger::default(), "ליאת", Some("7"), 0);
    let choices = learner_choices(&ledger, "");
    assert_eq!(choices[0].name, "\u{2068}ליאת\u{2069} (7)");
    assert_eq!(set_apart("ليلى 12"), "\u{2068}ليلى 12\u{2069}");
    for name in ["Zoë O’Brien", "Łukasz", "Ἀλέξανδρος", "山田", ""] {
        assert_eq!(set_apart(name), name);
    }
}

#[test]
fn a_row_shows_the_piece_made_last() {
    let old = Day::new(2026, 5, 1).unwrap();
    let new = Day::new(2026, 11, 24).unwrap();
    // Entered in the wrong order: the day that a piece was made on counts.
    let (ledger, _) = sealed(&Ledger::default(), named("Ada"), new, 0);
    let (ledger, id) = sealed(&ledger, named("Ada"), old, 10);
    let rows = learner_rows(&ledger, &Rubrics::default(), now());
    assert_eq!(rows[0].about, "2 pieces");
    assert_eq!(rows[0].now, "latest yesterday");
    let pieces = page(&ledger, id).pieces;
    assert!(
        pieces[0].about.ends_with("practice, yesterday"),
        "{}",
        pieces[0].about
    );
    assert!(
        pieces[1].about.ends_with("1 May 2026"),
        "{}",
        pieces[1].about
    );
}

#[test]
fn a_page_charts_sealed_pieces_oldest_first() {
    let days = [(2026, 9, 1), (2026, 10, 1), (2026, 11, 1)];
    let mut ledger = Ledger::default();
    let mut id = None;
    for (at, (year, month, day)) in (0..).step_by(10).zip(days) {
        let day = Day::new(year, month, day).unwrap();
        let (next, learner) = sealed(&ledger, named("Ada"), day, at);
        (ledger, id) = (next, Some(learner));
    }
    let page = page(&ledger, id.unwrap());
    assert_eq!(page.about, "3 pieces");
    let chart = &page.course.as_ref().unwrap().marks;
    assert!(chart.heading.ends_with(" over time"));
    assert!(
        chart
            .drawing
            .description
            .starts_with("3 pieces, from 0 of 100 at first")
    );
    let across: Vec<_> = chart
        .drawing
        .shapes
        .iter()
        .filter_map(|shape| match shape {
            Shape::Circle { x, .. } => Some(*x),
            _ => None,
        })
        .collect();
    assert_eq!(across.len(), 3);
    assert!(across.is_sorted());
}

#[test]
fn a_ticket_on_the_bench_is_not_on_its_learners_page() {
    let (ledger, ada) = sealed(
        &Ledger::default(),
        named("Ada"),
        Day::new(2026, 11, 1).unwrap(),
        0,
    );
    let hidden = start_piece(Who::Ticket {
        ticket: "14".to_owned(),
        learner: Some(ada),
    });
    let (ledger, made) = after(&ledger, Command::StartPiece(Box::new(hidden)), &stamp(20));
    assert_eq!(page(&ledger, ada).about, "1 piece");
    let (ledger, _) = after(&ledger, seal(made.marking.unwrap()), &stamp(21));
    assert_eq!(page(&ledger, ada).about, "2 pieces");
}

#[test]
fn a_draft_stands_on_its_learners_page_as_on_the_bench() {
    let start = Command::StartPiece(Box::new(start_piece(named("Ada"))));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    let page = page(&ledger, made.learner.unwrap());
    assert_eq!(page.about, "1 piece, 1 on the bench");
    assert_eq!(page.pieces[0].title, "Plain front shoe");
    assert_eq!(page.pieces[0].about, "practice, on the bench");
    assert!(page.course.is_none());
}

#[test]
fn nobody_has_no_page() {
    let (ledger, made) = after(
        &Ledger::default(),
        Command::StartPiece(Box::new(start_piece(named("Ada")))),
        &stamp(0),
    );
    let id = made.learner.unwrap();
    assert!(
        learner_page(
            &ledger,
            &Rubrics::default(),
            id,
            &CourseAsked::default(),
            now(),
            Whom::Learner
        )
        .is_some()
    );
    assert_eq!(
        learner_page(
            &Ledger::default(),
            &Rubrics::default(),
            id,
            &CourseAsked::default(),
            now(),
            Whom::Learner
        ),
        None
    );
}
