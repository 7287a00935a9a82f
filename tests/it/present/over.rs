//! One shoe laid over another: what may be chosen, and what is said of it.

use evenshod::command::{Command, Edit, RubricText, StartPiece, Who};
use evenshod::gauge::over::Edges;
use evenshod::marking::OutlineFact;
use evenshod::piece::{Foot, MadeShoe};
use evenshod::present::Rubrics;
use evenshod::present::over::{
    Outlined, TwoPieces, asked_outline, has_outlines, over, over_of, photo_over, two_pieces,
};
use evenshod::records::{Change, LearnerId, Ledger, MarkingId, Role, SittingKind};
use evenshod::rubric::{Rubric, shipped};
use kurbo::Point;

use crate::records::sample::{seal, stamp, start_piece};
use crate::sheet::sample::{bar_shoe_text, begun_bar_shoe, performed, read};

const WIDER: i32 = 100;

/// What the bar shoe's numbers draw, as a marking keeps it, its right half so many hundredths of
/// a mm further out.
fn fact(right_by: i32) -> OutlineFact {
    let asked = asked_outline(&read(bar_shoe_text()), None).unwrap();
    let edge = |edge: &Vec<Point>| {
        let places = edge.iter().map(|at| {
            let (x, y) = OutlineFact::place((at.x, at.y)).unwrap();
            (if x > 4_000 { x + right_by } else { x }, y)
        });
        places.step_by(edge.len().div_ceil(200)).collect()
    };
    OutlineFact {
        shoe: None,
        photo: "a".repeat(64),
        outer: edge(&asked.edges.outer),
        inner: asked.edges.inner.iter().map(edge).collect(),
        holes: Vec::new(),
        unsure: 15,
    }
}

fn keep(marking: MarkingId, fact: OutlineFact) -> Command {
    let take = Edit::TakeReadings {
        readings: [].into(),
        instruments: [].into(),
        outline: Some(fact),
    };
    Command::edit(marking, take)
}

/// A learner with two sealed bar shoes, each with an outline.
fn two_sealed() -> (Ledger, LearnerId, [MarkingId; 2]) {
    let (ledger, first) = begun_bar_shoe();
    let piece = ledger.piece(ledger.marking(first).unwrap().piece).unwrap();
    let learner = piece.learner.unwrap();
    let version = ledger.rubrics().next().unwrap();
    let again = StartPiece {
        rubric: RubricText {
            digest: version.digest.clone(),
            rubric_id: version.rubric_id.clone(),
            version: version.version.clone(),
            title: version.title.clone(),
            text: version.text.clone(),
        },
        ..start_piece(Who::Learner(learner))
    };
    let ledger = performed(ledger, vec![Command::StartPiece(Box::new(again))]);
    let second = ledger.drafts().find(|draft| draft.id != first).unwrap().id;
    let commands = vec![
        keep(first, fact(0)),
        keep(second, fact(WIDER)),
        seal(first),
        seal(second),
    ];
    (performed(ledger, commands), learner, [first, second])
}

fn chosen(ledger: &Ledger, learner: LearnerId, one: &str, other: &str) -> TwoPieces {
    two_pieces(ledger, &Rubrics::default(), learner, one, other).unwrap()
}

fn keys(choices: &[(String, String)]) -> Vec<&str> {
    choices.iter().map(|(key, _)| key.as_str()).collect()
}

#[test]
fn sealed_pieces_of_one_learner_are_laid_over_each_other_newest_first() {
    let (ledger, learner, [first, second]) = two_sealed();
    let (older, newer) = (format!("{first}/"), format!("{second}/"));
    let shown = chosen(&ledger, learner, "", "");
    assert_eq!(keys(&shown.ones), [&newer, &older]);
    assert!(shown.ones[0].1.contains("25 Nov 2026"), "{:?}", shown.ones);
    assert!(has_outlines(&ledger, learner));
    let shown = chosen(&ledger, learner, &newer, &older);
    assert!(keys(&shown.choice.others).contains(&older.as_str()));
    let laid = shown.choice.over.unwrap().unwrap();
    assert!(
        laid.lines[0].starts_with("Stands out by "),
        "{:?}",
        laid.lines
    );
    // 2 × √(0.15² + 0.15²) = 0.42 mm.
    let vague = &laid.notes[1];
    assert!(
        vague.contains("± 0.30 mm") && vague.contains("less than 0.42 mm"),
        "{vague}"
    );
}

#[test]
fn a_shoe_as_asked_for_lies_on_what_is_asked_for() {
    let (ledger, learner, [first, _]) = two_sealed();
    let shown = chosen(&ledger, learner, &format!("{first}/"), "asked");
    let laid = shown.choice.over.unwrap().unwrap();
    let share = &laid.lines[2];
    assert!(
        share.contains("100 % of the edges lie within 1 mm"),
        "{share}"
    );
    assert!(laid.drawn.stretches.iter().all(|one| one.name == "on"));
}

#[test]
fn drafts_and_held_marks_give_no_outline() {
    let (ledger, learner, [first, _]) = two_sealed();
    let names = |ledger: &Ledger| chosen(ledger, learner, "", "").ones;
    // The same pieces in an exam that is not released.
    let sittings: Vec<_> = ledger
        .sittings()
        .map(|sitting| {
            let mut sitting = sitting.clone();
            sitting.kind = SittingKind::Exam;
            sitting.into()
        })
        .collect();
    let held = ledger.with(&Change {
        puts: sittings,
        ..Change::default()
    });
    assert_eq!(names(&held), []);
    assert!(!has_outlines(&held, learner));
    // A draft beside them.
    let (draft, id) = begun_bar_shoe();
    let draft = performed(draft, vec![keep(id, fact(0))]);
    let owner = draft.pieces().next().unwrap().learner.unwrap();
    assert_eq!(chosen(&draft, owner, "", "").ones, []);
    assert!(chosen(&draft, owner, "", "").choice.over.is_none());
    // A second blind marking of the first piece is open.
    let piece = ledger.marking(first).unwrap().piece;
    let mut open = ledger.marking(first).unwrap().clone();
    open.id = MarkingId::made_by(&stamp(900), 4);
    open.role = Role::Second;
    open.seal = None;
    let blind = ledger.with(&Change {
        puts: vec![open.into()],
        ..Change::default()
    });
    assert!(blind.standing(piece).is_unseen());
    assert_eq!(names(&blind).len(), 1);
}

/// The learner's page leads there where there is something to be laid, and else not.
#[test]
fn the_page_is_offered_where_it_has_outlines() {
    let (ledger, learner, markings) = two_sealed();
    let change = |puts| {
        ledger.with(&Change {
            puts,
            ..Change::default()
        })
    };
    let agrees = |ledger: &Ledger, wanted: usize| {
        let ones = chosen(ledger, learner, "", "").ones;
        assert_eq!(ones.len(), wanted);
        assert_eq!(has_outlines(ledger, learner), wanted > 0);
    };
    agrees(&ledger, 2);
    let pieces = || markings.map(|id| ledger.piece(ledger.marking(id).unwrap().piece).unwrap());
    let tickets = pieces().map(|piece| {
        let mut piece = piece.clone();
        piece.hidden_until_sealed = true;
        piece.into()
    });
    // Sealed, so the names are told.
    agrees(&change(tickets.to_vec()), 2);
    let open = markings.map(|id| {
        let mut marking = ledger.marking(id).unwrap().clone();
        marking.seal = None;
        marking.into()
    });
    agrees(&change([tickets.to_vec(), open.to_vec()].concat()), 0);
}

/// By a ticket nobody is to know whose piece it is, so no other piece of theirs is offered.
#[test]
fn a_piece_by_ticket_is_laid_over_no_piece_of_its_maker() {
    let (ledger, learner, [first, second]) = two_sealed();
    let version = ledger.rubrics().next().unwrap();
    let rubric = RubricText {
        digest: version.digest.clone(),
        rubric_id: version.rubric_id.clone(),
        version: version.version.clone(),
        title: version.title.clone(),
        text: version.text.clone(),
    };
    let offered = |who: Who| {
        let start = StartPiece {
            rubric: rubric.clone(),
            ..start_piece(who)
        };
        let start = Command::StartPiece(Box::new(start));
        let ledger = performed(ledger.clone(), vec![start]);
        let draft = ledger.drafts().next().unwrap().id;
        let bar = read(bar_shoe_text());
        let about = (draft, &bar, None);
        let shown = super::photo::shown();
        let found = photo_over(&ledger, &Rubrics::default(), about, Some(&shown), "");
        found
            .others
            .into_iter()
            .map(|(key, _)| key)
            .collect::<Vec<String>>()
    };
    let known = [format!("{second}/"), format!("{first}/")];
    assert_eq!(offered(Who::Learner(learner))[1..], known);
    let ticket = Who::Ticket {
        ticket: "17".to_owned(),
        learner: Some(learner),
    };
    assert_eq!(offered(ticket), ["asked"]);
    let over = |marking| over_of(&ledger, &Rubrics::default(), marking);
    assert_eq!(over(first), Some((learner, format!("{first}/"))));
}

/// A near fore is drawn where no foot is asked for; the other is its mirror image.
#[test]
fn where_no_foot_is_asked_for_both_are_offered() {
    let (ledger, marking) = begun_bar_shoe();
    let mut bar = read(bar_shoe_text());
    bar.shoes[0].foot = None;
    let shown = super::photo::shown();
    let about = (marking, &bar, None);
    let found = photo_over(&ledger, &Rubrics::default(), about, Some(&shown), "");
    let wanted = ["asked", "asked-mirrored"];
    assert_eq!(keys(&found.others), wanted);
    assert!(found.others[1].1.ends_with("for a right foot"));
}

fn outlined(rubric: &Rubric, foot: Foot) -> Outlined {
    let mut rubric = rubric.clone();
    rubric.shoes[0].foot = Some(foot);
    asked_outline(&rubric, None).unwrap()
}

/// How far the outline reaches to the left and to the right.
fn reach(edges: &Edges) -> (f64, f64) {
    let across = edges.outer.iter().map(|at| at.x);
    across.fold((0.0, 0.0), |(left, right), x| (left.max(-x), right.max(x)))
}

/// Ground face seen, toe up, one looks at the foot from below: what is outside on a left (near)
/// foot lies on the right. The shoe of the other foot is its mirror image.
#[test]
fn the_outer_branch_of_a_near_foot_lies_on_the_right() {
    let hind = shipped()
        .iter()
        .map(|one| read(one.text))
        .find(|rubric| rubric.id == "hind-shoe")
        .unwrap();
    for (foot, side) in [
        (Foot::NearFore, "right"),
        (Foot::NearHind, "right"),
        (Foot::OffFore, "left"),
        (Foot::OffHind, "left"),
    ] {
        let shoe = outlined(&hind, foot);
        let (left, right) = reach(&shoe.edges);
        assert_eq!(right > left, side == "right", "{foot:?}: {left} {right}");
        let made = MadeShoe::of(&hind.piece, foot).unwrap();
        assert_eq!(made.outer_is_right, side == "right");
        let laid = over(&shoe, &shoe).unwrap();
        let wanted = format!("For a {} the outer branch is the {side} one.", foot.word());
        assert!(laid.notes[0].contains(&wanted), "{:?}", laid.notes);
        assert!(laid.notes.iter().all(|note| !note.contains("mirrored")));
    }
    let laid = over(
        &outlined(&hind, Foot::NearHind),
        &outlined(&hind, Foot::OffHind),
    )
    .unwrap();
    assert!(
        laid.lines[2].contains("100 % of the edges lie within 1 mm"),
        "{:?}",
        laid.lines
    );
    assert!(
        laid.notes
            .iter()
            .any(|note| note.contains("drawn mirrored"))
    );
}
