//! Forms for marking one's own piece: the start form, and one more marking of a piece.

use evenshod::command::{Command, MarkAgain, OwnMarking, StartPiece};
use evenshod::present::{
    AgainForm, AgainPage, MarkedBy, NoSheet, Offer, Rubrics, StartForm, again_page, examiner_names,
    marker_words, offers, open_markings, own_rubrics, sheet_page,
};
use evenshod::records::{Ledger, PieceId, Role, SittingKind, Unit};

use crate::records::sample::{after, day, named, now, seal, stamp, start_piece};
use crate::sheet::sample::performed;

fn rubrics() -> Rubrics {
    Rubrics::default()
}

fn offer<'a>(offers: &'a [Offer], id: &str) -> &'a Offer {
    let found = offers.iter().find(|offer| offer.rubric.rubric_id == id);
    found.unwrap()
}

fn fresh(offers: &[Offer], rubric: &str) -> StartForm {
    let ledger = Ledger::default();
    StartForm {
        name: "Ada Smith".to_owned(),
        rubric: offer(offers, rubric).key().to_owned(),
        ..StartForm::fresh(&ledger, offers, day(), "Wm. Green".to_owned(), "mm")
    }
}

#[track_caller]
fn read(form: &StartForm, offers: &[Offer]) -> StartPiece {
    match form.read(offers, now()) {
        Ok(Command::StartPiece(what)) => *what,
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_form_offers_the_self_check_of_a_rubric() {
    let offers = offers();
    let own = |id: &str| -> Vec<&str> {
        let own = own_rubrics(&offers, offer(&offers, id).key());
        own.iter()
            .map(|own| own.rubric.rubric_id.as_str())
            .collect()
    };
    assert_eq!(own("open-heeled-front-shoe"), ["apprentice-self-check"]);
    assert_eq!(own("straight-bar-shoe"), Vec::<&str>::new());
    assert_eq!(own("apprentice-self-check"), Vec::<&str>::new());
    assert!(own_rubrics(&offers, "nothing").is_empty());
    let form = fresh(&offers, "open-heeled-front-shoe");
    assert_eq!(read(&form, &offers).own, None, "the examiner marks alone");
    let both = StartForm {
        marked_by: MarkedBy::Both.word().to_owned(),
        ..form
    };
    assert_eq!(read(&both, &offers).own, Some(OwnMarking::default()));
    let check = offer(&offers, "apprentice-self-check");
    let by_check = StartForm {
        own_rubric: check.key().to_owned(),
        ..both
    };
    let what = read(&by_check, &offers);
    assert_eq!(what.own.unwrap().rubric.as_ref(), Some(&check.rubric));
    assert_eq!(what.role, Role::First);
    // One that the chosen rubric does not offer counts for nothing.
    let elsewhere = StartForm {
        rubric: offer(&offers, "straight-bar-shoe").key().to_owned(),
        ..by_check
    };
    assert_eq!(read(&elsewhere, &offers).own, Some(OwnMarking::default()));
}

#[test]
fn a_self_check_is_started_without_an_examiner() {
    let offers = offers();
    let form = StartForm {
        sitting: "self-check".to_owned(),
        examiner: String::new(),
        marked_by: MarkedBy::Both.word().to_owned(),
        ..fresh(&offers, "apprentice-self-check")
    };
    assert!(!StartForm::asks_marker(&form.sitting));
    let what = read(&form, &offers);
    assert_eq!(
        (what.sitting, what.role),
        (SittingKind::SelfCheck, Role::Own)
    );
    assert_eq!(what.own, None);
    let start = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    let own = ledger.marking(made.marking.unwrap()).unwrap();
    assert_eq!(ledger.examiner(own.examiner).unwrap().name, "Ada Smith");
    assert!(examiner_names(&ledger).is_empty(), "she marks only her own");
    let practice = StartForm {
        sitting: "practice".to_owned(),
        ..form
    };
    let errors = practice.read(&offers, now()).unwrap_err();
    assert!(errors.examiner.is_some());
}

fn again(ledger: &Ledger, piece: PieceId) -> AgainPage {
    again_page(ledger, &rubrics(), &offers(), piece).unwrap()
}

#[track_caller]
fn marked_again(form: &AgainForm, page: &AgainPage) -> MarkAgain {
    match form.read(page, now()) {
        Ok(Command::MarkAgain(what)) => *what,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_sealed_piece_is_marked_again_by_its_maker() {
    let offers = offers();
    let front = offer(&offers, "open-heeled-front-shoe");
    let check = offer(&offers, "apprentice-self-check");
    let what = StartPiece {
        rubric: front.rubric.clone(),
        ..start_piece(named("Ada Smith"))
    };
    let start = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    let piece = made.piece.unwrap();
    let draft = again(&ledger, piece);
    assert!(draft.does[0].contains("before both are sealed"));
    let ledger = performed(ledger, vec![seal(made.marking.unwrap())]);
    let page = sheet_page(&ledger, &rubrics(), piece, None).unwrap();
    assert_eq!(
        page.again,
        [
            ("self", "Mark it yourself"),
            ("second", "Mark as second examiner"),
        ]
    );
    let page = again(&ledger, piece);
    assert_eq!(page.roles, [Role::Own, Role::Second]);
    assert!(page.does[0].contains("stays unseen"));
    assert!(page.does[1].contains("does not mark blind"));
    assert_eq!(page.own_rubrics, std::slice::from_ref(check));
    let form = AgainForm::fresh(&page, String::new(), "in32");
    let own = marked_again(&form, &page);
    assert_eq!((own.role, own.unit), (Role::Own, Unit::Inch32));
    assert_eq!((own.examiner.as_str(), &own.rubric), ("", &None));
    let by_check = AgainForm {
        rubric: check.key().to_owned(),
        ..form
    };
    let own = marked_again(&by_check, &page);
    assert_eq!(own.rubric.as_ref(), Some(&check.rubric));
    let ledger = performed(ledger, vec![Command::MarkAgain(Box::new(own))]);
    assert_eq!(
        sheet_page(&ledger, &rubrics(), piece, None).map(|_| ()),
        Err(NoSheet::Unseen)
    );
    assert!(again(&ledger, piece).roles.is_empty());
    let asked = open_markings(&ledger, &rubrics(), piece).unwrap();
    assert!(asked.ways[0].role.contains("Apprentice self-check"));
    let own = asked.ways[0].marking;
    assert!(marker_words(&ledger, own).contains("by Apprentice self-check"));
    assert_eq!(
        again_page(&ledger, &rubrics(), &offers, PieceId::LEAST),
        None
    );
}

#[test]
fn what_its_maker_marked_is_marked_by_an_examiner() {
    let what = StartPiece {
        rubric: offers().remove(0).rubric,
        role: Role::Own,
        sitting: SittingKind::SelfCheck,
        examiner: String::new(),
        ..start_piece(named("Ada Smith"))
    };
    let start = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    let piece = made.piece.unwrap();
    let ledger = performed(ledger, vec![seal(made.marking.unwrap())]);
    let page = sheet_page(&ledger, &rubrics(), piece, None).unwrap();
    assert_eq!(page.again, [("first", "Mark as examiner")]);
    let page = again(&ledger, piece);
    assert_eq!(page.roles, [Role::First]);
    let form = AgainForm::fresh(&page, "  ".to_owned(), "no unit");
    assert!(form.read(&page, now()).unwrap_err().examiner.is_some());
    let form = AgainForm {
        examiner: "Jo Reed".to_owned(),
        ..form
    };
    let first = marked_again(&form, &page);
    assert_eq!((first.role, first.unit), (Role::First, Unit::Millimetre));
    assert_eq!(first.rubric, None);
    let ledger = performed(ledger, vec![Command::MarkAgain(Box::new(first))]);
    assert!(ledger.standing(piece).is_unseen());
}

/// The list of rubrics counts what is marked by a self-check as a use of it.
#[test]
fn a_self_check_that_marks_a_piece_is_in_use() {
    let offers = offers();
    let check = offer(&offers, "apprentice-self-check");
    let what = StartPiece {
        rubric: offer(&offers, "open-heeled-front-shoe").rubric.clone(),
        own: Some(OwnMarking {
            rubric: Some(check.rubric.clone()),
        }),
        ..start_piece(named("Ada Smith"))
    };
    let start = Command::StartPiece(Box::new(what));
    let (ledger, _) = after(&Ledger::default(), start, &stamp(0));
    let list = evenshod::present::rubrics::rubric_list(&ledger, &rubrics(), &offers, now());
    let row = list.shipped.iter().find(|row| row.digest == check.key());
    assert_eq!(row.unwrap().now, "1 piece of 1 learner");
}
