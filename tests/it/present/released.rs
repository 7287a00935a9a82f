//! What pages for learners say of marks that wait for a release, and the pages on which
//! they are released.

use evenshod::command::Command;
use evenshod::present::{
    CourseAsked, Feedback, Handing, HandingChoices, Leads, NoSheet, Rubrics, SittingsPage, bench,
    learner_page, learner_print, learner_rows, own_sheet, sheet_page, side_page, sitting_page,
    sittings_page,
};
use evenshod::records::{LearnerId, Ledger, MarkingId, PieceId, SittingId, Whom};

use crate::job::tables::csv_of;
use crate::records::sample::{after, in_exam, named, now, seal, stamp, start};
use crate::sheet::beside::both;
use crate::sheet::sample::{bar_shoe_text, performed, plain, whole_bar_shoe};

/// What was made in the exam, and who and what is in it.
struct Exam {
    ledger: Ledger,
    learner: LearnerId,
    piece: PieceId,
    marking: MarkingId,
    sitting: SittingId,
}

impl Exam {
    fn of(ledger: &Ledger, marking: MarkingId) -> Self {
        let ledger = in_exam(ledger);
        let piece = ledger.marking(marking).unwrap().piece;
        let piece = ledger.piece(piece).unwrap();
        Self {
            learner: piece.learner.unwrap(),
            piece: piece.id,
            sitting: piece.sitting,
            marking,
            ledger: ledger.clone(),
        }
    }

    fn begun() -> Self {
        let (ledger, marking) = whole_bar_shoe();
        Self::of(&ledger, marking)
    }

    fn sealed() -> Self {
        let exam = Self::begun();
        exam.after(seal(exam.marking))
    }

    fn after(&self, command: Command) -> Self {
        let ledger = performed(self.ledger.clone(), vec![command]);
        Self { ledger, ..*self }
    }

    /// Released by Wm. Green.
    fn released(&self) -> Self {
        self.done(Handing::Release(self.sitting))
    }

    fn done(&self, handing: Handing) -> Self {
        let choices = HandingChoices::of(&self.ledger, "");
        self.after(handing.read(&choices.chosen, now()).unwrap())
    }

    fn sheet(&self, marking: MarkingId) -> String {
        let page = sheet_page(&self.ledger, &rubrics(), self.piece, Some(marking));
        plain(&page.unwrap().document)
    }

    fn csv(&self, marking: MarkingId) -> [String; 2] {
        let text = csv_of(&self.ledger, marking).unwrap();
        let mut lines = text.lines().map(|line| line.rsplitn(3, ','));
        assert_eq!(
            lines.next().unwrap().take(2).collect::<Vec<_>>(),
            ["feedback", "released"]
        );
        let mut last = lines.next().unwrap().map(str::to_owned);
        let [feedback, released] = [last.next().unwrap(), last.next().unwrap()];
        [released, feedback]
    }

    /// Everything that pages for learners say, as one text.
    fn said_to_learners(&self) -> String {
        let Self {
            ledger, learner, ..
        } = self;
        let bench = bench(ledger, &rubrics(), now());
        let rows = learner_rows(ledger, &rubrics(), now());
        let page = learner_page(
            ledger,
            &rubrics(),
            *learner,
            &CourseAsked::default(),
            now(),
            Whom::Learner,
        );
        let print = learner_print(ledger, &rubrics(), *learner, &CourseAsked::default(), now());
        let side = side_page(ledger, &rubrics(), self.piece, Whom::Learner);
        format!(
            "{bench:?} {rows:?} {page:?} {} {side:?}",
            plain(&print.unwrap())
        )
    }
}

fn rubrics() -> Rubrics {
    Rubrics::default()
}

/// 72 of 100, a pass; toe bend lost a mark.
const TELLTALE: [&str; 4] = ["72", "pass", "Toe bend", " over time"];

#[test]
fn pages_for_learners_say_nothing_of_what_is_held() {
    let told = Exam::sealed().released().said_to_learners();
    for word in TELLTALE {
        assert!(told.contains(word), "a released piece tells {word}");
    }
    for exam in [Exam::begun(), Exam::sealed()] {
        let said = exam.said_to_learners();
        for word in TELLTALE {
            assert!(!said.contains(word), "{word} in {said}");
        }
    }
}

#[test]
fn a_held_piece_stands_on_the_learners_page_without_marks_and_is_counted() {
    let exam = Exam::sealed();
    let Exam {
        ledger, learner, ..
    } = &exam;
    let page = |whom| {
        learner_page(
            ledger,
            &rubrics(),
            *learner,
            &CourseAsked::default(),
            now(),
            whom,
        )
        .unwrap()
    };
    let shown = page(Whom::Learner);
    assert_eq!(shown.about, "1 piece, 1 held");
    let held = "1 piece is held: it is marked, and its marks are not released yet";
    assert_eq!(shown.held, held);
    let [row] = &shown.pieces[..] else {
        panic!("{:?}", shown.pieces)
    };
    assert_eq!(
        (row.now.as_str(), &row.marks),
        ("marked, not released yet", &None)
    );
    assert_eq!(row.leads, Leads::Nowhere);
    assert!(shown.course.is_none() && shown.practice.is_empty());
    // An examiner who asks sees all, with a word that it is not released.
    let all = page(Whom::Examiner);
    assert_eq!((all.about, all.held), (shown.about, shown.held.clone()));
    assert_eq!(
        all.pieces[0].marks,
        Some(("72".to_owned(), "100".to_owned()))
    );
    assert_eq!(all.pieces[0].now, "pass, not released yet");
    assert!(all.course.is_some() && !all.practice.is_empty());
    let print = plain(
        &learner_print(ledger, &rubrics(), *learner, &CourseAsked::default(), now()).unwrap(),
    );
    assert!(print.contains(held), "{print}");
    assert!(!print.contains("Nothing of theirs is marked"), "{print}");
}

#[test]
fn the_bench_leads_examiners_on_without_marks() {
    let exam = Exam::sealed();
    let bench = bench(&exam.ledger, &rubrics(), now());
    let row = &bench.latest[0];
    assert_eq!(
        (row.now.as_str(), &row.marks),
        ("marked, not released yet", &None)
    );
    assert_eq!(row.leads, Leads::Piece);
    let row = &learner_rows(&exam.ledger, &rubrics(), now())[0];
    let held = "latest today, not released yet";
    assert_eq!((row.now.as_str(), &row.marks), (held, &None));
}

#[test]
fn sheet_and_csv_say_how_far_the_marks_have_come() {
    let exam = Exam::sealed();
    let held = exam.sheet(exam.marking);
    assert!(held.contains("Info! Not released to the learner"), "{held}");
    assert!(!held.contains("Released:"), "{held}");
    assert_eq!(exam.csv(exam.marking), ["held", ""]);
    let released = exam.released();
    let sheet = released.sheet(exam.marking);
    assert!(!sheet.contains("Not released"), "{sheet}");
    assert!(
        sheet.contains("Released: 25 Nov 2026 11:42 by Wm. Green"),
        "{sheet}"
    );
    let moment = now().rfc3339();
    assert_eq!(released.csv(exam.marking), [moment.as_str(), ""]);
    let told = released.done(Handing::Feedback(exam.piece));
    let sheet = told.sheet(exam.marking);
    assert!(
        sheet.contains("Feedback given: 25 Nov 2026 11:42 by Wm. Green"),
        "{sheet}"
    );
    assert_eq!(told.csv(exam.marking), [moment.as_str(), moment.as_str()]);
    let back = told.done(Handing::HoldBack(exam.sitting));
    let sheet = back.sheet(exam.marking);
    assert!(
        sheet.contains(
            "Info! Not released to the learner\n  Released 25 Nov 2026 11:42 by Wm. Green, \
             held back 25 Nov 2026 11:42 by Wm. Green"
        ),
        "{sheet}"
    );
    assert!(sheet.contains("Feedback given:"), "it was given");
    // A practice needs no release and says nothing of one.
    let (ledger, marking) = whole_bar_shoe();
    let piece = ledger.marking(marking).unwrap().piece;
    let ledger = performed(ledger, vec![seal(marking)]);
    let page = sheet_page(&ledger, &rubrics(), piece, None).unwrap();
    let sheet = plain(&page.document);
    assert!(!sheet.contains("eleased"), "{sheet}");
    let csv = csv_of(&ledger, marking).unwrap();
    assert!(
        csv.lines().nth(1).unwrap().ends_with(",by sealing,"),
        "{csv}"
    );
}

#[test]
fn the_examiners_side_stays_hidden_beside_the_makers_own() {
    let (ledger, other, own) = both(bar_shoe_text(), None);
    let exam = Exam::of(&ledger, other);
    let exam = exam.after(seal(other)).after(seal(own));
    let side = |exam: &Exam, whom| side_page(&exam.ledger, &rubrics(), exam.piece, whom);
    assert_eq!(side(&exam, Whom::Learner), Err(NoSheet::Held { own }));
    let asked = side(&exam, Whom::Examiner).unwrap();
    assert!(asked.is_held);
    assert!(plain(&asked.document).contains("Not released to the learner"));
    // The maker's sheet tells why, and has no way to the other one.
    let sheet =
        |exam: &Exam, id| sheet_page(&exam.ledger, &rubrics(), exam.piece, Some(id)).unwrap();
    assert_eq!(sheet(&exam, own).other, None);
    assert!(
        exam.sheet(own)
            .contains("Info! What the examiner gave is not released yet")
    );
    assert_eq!(exam.csv(own), ["", ""]);
    assert!(sheet(&exam, other).other.is_some());
    assert_eq!(own_sheet(&exam.ledger, own), Some(own), "once it is sealed");
    assert_eq!(own_sheet(&exam.ledger, other), None);
    // The learner's page leads to it, and pairs nothing.
    let page = learner_page(
        &exam.ledger,
        &rubrics(),
        exam.learner,
        &CourseAsked::default(),
        now(),
        Whom::Learner,
    );
    let page = page.unwrap();
    assert_eq!(page.pieces[0].leads, Leads::Own(own));
    assert!(page.own.is_none() && page.pieces[0].marks.is_none());
    let released = exam.released();
    assert!(!side(&released, Whom::Learner).unwrap().is_held);
    assert_eq!(own_sheet(&released.ledger, own), None);
    assert_eq!(sheet(&released, own).other.unwrap().0, other);
    assert!(!released.sheet(own).contains("not released"));
}

#[test]
fn sittings_stand_newest_first_with_how_far_they_are() {
    let exam = Exam::sealed();
    let (ledger, _) = after(&exam.ledger, start(named("Bea Coe")), &stamp(900));
    let SittingsPage {
        about,
        waiting,
        others,
    } = sittings_page(&ledger, &rubrics());
    assert_eq!(about, "2 sittings");
    let [row] = &waiting[..] else {
        panic!("{waiting:?}")
    };
    assert_eq!(row.title, "Exam, Wednesday 25 Nov 2026");
    assert_eq!(
        (row.about.as_str(), row.now.as_str()),
        ("1 piece, 1 sealed", "held")
    );
    assert_eq!(row.handing, Some(Handing::Release(exam.sitting)));
    let [practice] = &others[..] else {
        panic!("{others:?}")
    };
    assert_eq!(practice.about, "1 piece, 1 marking open");
    assert_eq!(
        (practice.now.as_str(), practice.handing),
        ("released by sealing", None)
    );
    let released = exam.released();
    let row = &sittings_page(&released.ledger, &rubrics()).waiting[0];
    assert_eq!(row.now, "released 25 Nov 2026 11:42 by Wm. Green");
    assert_eq!(row.handing, Some(Handing::HoldBack(exam.sitting)));
    let begun = sittings_page(&Exam::begun().ledger, &rubrics());
    assert_eq!(
        begun.waiting[0].handing, None,
        "there is nothing to release"
    );
    let nothing = sittings_page(&Ledger::default(), &rubrics());
    assert!(nothing.about.starts_with("none on this device yet"));
}

#[test]
fn a_sitting_shows_marks_of_held_pieces_to_whoever_asks() {
    let exam = Exam::sealed();
    let page = |exam: &Exam, shows| sitting_page(&exam.ledger, &rubrics(), exam.sitting, shows);
    let shown = page(&exam, false).unwrap();
    assert!(shown.is_held);
    let row = &shown.pieces[0].row;
    assert_eq!(
        (row.title.as_str(), row.now.as_str()),
        ("Ada Smith", "sealed")
    );
    assert_eq!((&row.marks, row.leads), (&None, Leads::Piece));
    assert_eq!(shown.pieces[0].feedback, Feedback::default());
    let asked = page(&exam, true).unwrap();
    let marks = Some(("72".to_owned(), "100".to_owned()));
    assert_eq!(
        (&asked.pieces[0].row.marks, asked.pieces[0].row.now.as_str()),
        (&marks, "pass")
    );
    let released = exam.released();
    let shown = page(&released, false).unwrap();
    assert!(!shown.is_held);
    assert_eq!(shown.pieces[0].row.marks, marks);
    let give = shown.pieces[0].feedback.give;
    assert_eq!(give, Some(Handing::Feedback(exam.piece)));
    let told = released.done(Handing::Feedback(exam.piece));
    let feedback = &page(&told, false).unwrap().pieces[0].feedback;
    assert_eq!(
        feedback.given,
        "Feedback given 25 Nov 2026 11:42 by Wm. Green."
    );
    assert_eq!(feedback.give, None);
    let nowhere = SittingId::made_by(&stamp(77), 2);
    assert_eq!(sitting_page(&exam.ledger, &rubrics(), nowhere, true), None);
}

#[test]
fn whoever_hands_over_is_an_examiner_and_chosen() {
    let (ledger, other, own) = both(bar_shoe_text(), None);
    let exam = Exam::of(&ledger, other);
    let exam = exam.after(seal(other)).after(seal(own));
    let names = |choices: &HandingChoices| -> Vec<String> {
        choices
            .options
            .iter()
            .map(|(_, name)| name.clone())
            .collect()
    };
    let one = HandingChoices::of(&exam.ledger, "");
    assert_eq!(
        names(&one),
        ["Choose an examiner", "Wm. Green"],
        "not the maker"
    );
    assert_eq!(one.chosen, one.options[1].0, "there is no other");
    let name = "Jo Reed".to_owned();
    let two = exam.after(Command::AddExaminer { name });
    assert_eq!(HandingChoices::of(&two.ledger, "Nobody").chosen, "");
    let jo = HandingChoices::of(&two.ledger, "Jo Reed");
    assert_eq!(jo.chosen, jo.options[2].0);
    let refused = Handing::Release(exam.sitting).read("", now()).unwrap_err();
    assert_eq!(refused, "Choose who it is: the sheets say so.");
}
