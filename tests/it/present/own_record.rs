//! The own record of a plan, filled from what the ledger has of a learner.

use evenshod::command::{Command, Edit, RubricText, StartPiece, Who};
use evenshod::marking::CutFact;
use evenshod::present::Rubrics;
use evenshod::present::plan::{
    OwnRecord, PLAN_LEARNER, PLAN_PAST, PlanTyped, own_record, plan_card, plan_learners,
    plan_shown, with_piece,
};
use evenshod::quantity::Unit;
use evenshod::records::{Change, LearnerId, Ledger, MarkingId, Role, SittingKind};
use evenshod::rubric::Rubric;

use crate::records::sample::{seal, start_piece};
use crate::sheet::sample::{bar_shoe_text, begun_bar_shoe, performed, read, readings};

fn again(ledger: &Ledger, who: Who) -> StartPiece {
    let version = ledger.rubrics().next().unwrap();
    StartPiece {
        rubric: RubricText {
            digest: version.digest.clone(),
            rubric_id: version.rubric_id.clone(),
            version: version.version.clone(),
            title: version.title.clone(),
            text: version.text.clone(),
        },
        ..start_piece(who)
    }
}

fn start(ledger: Ledger, what: StartPiece) -> (Ledger, MarkingId) {
    let before: Vec<MarkingId> = ledger.drafts().map(|draft| draft.id).collect();
    let ledger = performed(ledger, vec![Command::StartPiece(Box::new(what))]);
    let drafts: Vec<MarkingId> = ledger.drafts().map(|draft| draft.id).collect();
    let new = drafts.into_iter().find(|id| !before.contains(id)).unwrap();
    (ledger, new)
}

fn cut(text: &str) -> Edit {
    Edit::SetCut {
        cut: Some(CutFact::of(text, Unit::Millimetre)),
    }
}

fn made(ledger: Ledger, marking: MarkingId, cut_to: &str, width: &str, length: &str) -> Ledger {
    let edits = [
        cut(cut_to),
        readings("width", &[width]),
        readings("length", &[length]),
    ];
    let commands = edits.map(|edit| Command::edit(marking, edit));
    performed(ledger, commands.into())
}

/// Three bar shoes of one learner: two sealed, the third a draft. Width and length come to 250,
/// 260 and 270 mm, the cuts to 300, 312 and 320 mm.
fn three() -> (Ledger, LearnerId, [MarkingId; 3]) {
    let (ledger, first) = begun_bar_shoe();
    let piece = ledger.piece(ledger.marking(first).unwrap().piece).unwrap();
    let learner = piece.learner.unwrap();
    let (ledger, second) = {
        let what = again(&ledger, Who::Learner(learner));
        start(ledger, what)
    };
    let (ledger, third) = {
        let what = again(&ledger, Who::Learner(learner));
        start(ledger, what)
    };
    let ledger = made(ledger, first, "300", "124 mm", "126 mm");
    // Repeats count with their mean.
    let ledger = made(ledger, second, "312 mm", "128 mm", "132 mm");
    let repeats = readings("width", &["127.5 mm", "128.5 mm"]);
    let ledger = performed(ledger, vec![Command::edit(second, repeats)]);
    let ledger = made(ledger, third, "320", "132 mm", "138 mm");
    let ledger = performed(ledger, vec![seal(first), seal(second)]);
    (ledger, learner, [first, second, third])
}

fn asked(learner: LearnerId) -> PlanTyped {
    PlanTyped([(PLAN_LEARNER.to_owned(), learner.to_string())].into())
}

fn rubric() -> Rubric {
    read(bar_shoe_text())
}

fn found(ledger: &Ledger, typed: &PlanTyped) -> OwnRecord {
    own_record(ledger, &Rubrics::default(), &rubric(), typed)
}

fn words(typed: &PlanTyped, own: &OwnRecord) -> String {
    serde_json::to_string(&plan_shown(&rubric(), typed, own).document).unwrap()
}

fn piece_key(ledger: &Ledger, marking: MarkingId) -> String {
    ledger.marking(marking).unwrap().piece.to_string()
}

/// Slopes 1.2, 1.0 and 0.8, of which the middle is 1; what it leaves is 50, 52 and 50 mm, of
/// which the middle is 50. The piece asks for 5 1/8 by 5 1/4 in, 263.525 mm: 313.525 mm are cut.
/// SciPy 1.17.1, `theilslopes(…, method="joint")`, gives the same 1 and 50.
#[test]
fn three_pieces_of_the_ledger_give_the_own_record() {
    let (ledger, learner, _) = three();
    let typed = asked(learner);
    let own = found(&ledger, &typed);
    let abouts: Vec<&str> = own.rows.iter().map(|row| row.about.as_str()).collect();
    assert_eq!(
        abouts,
        [
            "cut 300.0 mm, came out 124.0 mm by 126.0 mm",
            "cut 312.0 mm, came out 128.0 mm by 132.0 mm",
            "cut 320.0 mm, came out 132.0 mm by 138.0 mm, not sealed yet",
        ]
    );
    assert_eq!(
        own.says,
        ["3 of 3 pieces by Ada Smith of this kind and stock count."]
    );
    let words = words(&typed, &own);
    assert!(words.contains("313.5 mm"), "{words}");
    assert!(words.contains("3 of your pieces"), "{words}");
    assert!(
        words.contains("1.000 mm of bar for each mm more"),
        "{words}"
    );
    let by_record = ("plan-choice".to_owned(), "own record".to_owned());
    let typed = PlanTyped(typed.0.into_iter().chain([by_record]).collect());
    let card = serde_json::to_string(&plan_card(&rubric(), &typed, &own)).unwrap();
    assert!(card.contains("313.5 mm by own record"), "{card}");
}

#[test]
fn a_piece_is_left_out_and_taken_again_and_typed_ones_join() {
    let (ledger, learner, [first, ..]) = three();
    let key = piece_key(&ledger, first);
    let without = with_piece(asked(learner), &key, false);
    let own = found(&ledger, &without);
    assert_eq!(
        own.says,
        ["2 of 3 pieces by Ada Smith of this kind and stock count."]
    );
    assert!(words(&without, &own).contains("2 of your pieces are of this kind and stock"));
    let mut typed = without.clone();
    typed
        .0
        .insert(PLAN_PAST.id.to_owned(), "300 mm; 124 mm; 126 mm".to_owned());
    assert!(words(&typed, &found(&ledger, &typed)).contains("3 of your pieces"));
    let again = with_piece(without, &key, true);
    assert!(found(&ledger, &again).rows.iter().all(|row| row.counts));
}

#[test]
fn what_cannot_count_is_told() {
    let (ledger, learner, [_, _, third]) = three();
    let clear = Command::edit(third, readings("length", &[]));
    let ledger = performed(ledger, vec![clear]);
    let own = found(&ledger, &asked(learner));
    assert_eq!(
        own.says[1],
        "Wednesday 25 Nov 2026: its finished length was not measured as a number, so it does not count."
    );
    let short = Command::edit(third, cut("12"));
    let ledger = performed(ledger, vec![short]);
    let own = found(&ledger, &asked(learner));
    assert!(own.says[1].contains("`12` is 12.0 mm"), "{:?}", own.says);
    let none = Command::edit(third, Edit::SetCut { cut: None });
    let ledger = performed(ledger, vec![none]);
    let own = found(&ledger, &asked(learner));
    assert!(
        own.says[1].starts_with("1 piece has no cut length"),
        "{:?}",
        own.says
    );
    // By another stock of this piece none counts.
    let mut other = rubric();
    other.piece.fuller = None;
    let own = own_record(&ledger, &Rubrics::default(), &other, &asked(learner));
    assert_eq!(own.rows, []);
    assert!(
        own.says[1].starts_with("2 pieces are of another kind"),
        "{:?}",
        own.says
    );
}

/// Nothing is read off a piece that somebody marks unseen by others, nor off an exam before it
/// is released, nor off one whose maker is not told yet.
#[test]
fn what_may_not_be_seen_does_not_count() {
    let (ledger, learner, [first, _, third]) = three();
    let rows = |ledger: &Ledger| found(ledger, &asked(learner)).rows.len();
    let change = |change: &dyn Fn(&mut evenshod::records::Marking)| {
        let mut blind = ledger.marking(third).unwrap().clone();
        change(&mut blind);
        ledger.with(&Change {
            puts: vec![blind.into()],
            ..Change::default()
        })
    };
    let apart = change(&|marking| {
        marking.piece = ledger.marking(first).unwrap().piece;
        marking.role = Role::Second;
    });
    assert_eq!(rows(&apart), 1);
    let mut sitting = ledger.sittings().next().unwrap().clone();
    sitting.kind = SittingKind::Exam;
    let held = ledger.with(&Change {
        puts: vec![sitting.into()],
        ..Change::default()
    });
    assert_eq!(rows(&held), 0);
    let mut piece = ledger
        .piece(ledger.marking(third).unwrap().piece)
        .unwrap()
        .clone();
    piece.hidden_until_sealed = true;
    let hidden = ledger.with(&Change {
        puts: vec![piece.into()],
        ..Change::default()
    });
    assert_eq!(rows(&hidden), 2);
}

#[test]
fn nobody_is_chosen_at_first() {
    let (ledger, learner, _) = three();
    let typed = PlanTyped::default();
    assert_eq!(found(&ledger, &typed), OwnRecord::default());
    let choices = plan_learners(&ledger, &typed);
    assert_eq!(choices[0].0, "");
    assert_eq!(choices[1], (learner.to_string(), "Ada Smith".to_owned()));
    let gone = PlanTyped([(PLAN_LEARNER.to_owned(), "nobody".to_owned())].into());
    assert_eq!(found(&ledger, &gone), OwnRecord::default());
}
