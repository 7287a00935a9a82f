//! A piece that its maker and an examiner mark, each unseen by the other.

use evenshod::command::{Command, MarkAgain, OwnMarking, StartPiece, Who};
use evenshod::present::rubrics::{NoTrial, try_page, try_rows};
use evenshod::present::{
    AgainForm, AgainPage, MarkedBy, NoSheet, Offer, PieceWay, Rubrics, StartForm, again_page,
    bench, examiner_names, interrupted, learner_page, learner_rows, marker_words, offers,
    open_markings, own_rubrics, piece_way, seal_commands, seal_view, sheet_csv, sheet_json,
    sheet_page, side_page,
};
use evenshod::records::{Ended, Ledger, MarkingId, PieceId, Role, SittingKind, Unit};

use crate::records::sample::{after, day, level, named, now, seal, stamp, start_piece};
use crate::sheet::beside::both;
use crate::sheet::sample::{bar_shoe_text, performed};

/// The piece, the examiner's marking and the maker's, both drafts with something typed.
fn begun() -> (Ledger, PieceId, MarkingId, MarkingId) {
    let (ledger, other, own) = both(bar_shoe_text(), None);
    let given = [level(other, "weld", "open"), level(own, "weld", "line")];
    let ledger = performed(ledger, given.to_vec());
    let piece = ledger.marking(own).unwrap().piece;
    (ledger, piece, other, own)
}

fn rubrics() -> Rubrics {
    Rubrics::default()
}

/// All that the pages anybody opens say of the marks, as one text.
fn said_of_marks(ledger: &Ledger, piece: PieceId) -> String {
    let rubrics = rubrics();
    let bench = bench(ledger, &rubrics, now());
    let learner = ledger.piece(piece).unwrap().learner.unwrap();
    let page = learner_page(ledger, &rubrics, learner, now()).unwrap();
    let rows = learner_rows(ledger, &rubrics, now());
    let marks = bench.drafts.iter().chain(&bench.latest).chain(&page.pieces);
    let marks: Vec<_> = marks.filter_map(|row| row.marks.clone()).collect();
    let others: Vec<_> = rows.into_iter().filter_map(|row| row.marks).collect();
    format!("{marks:?} {others:?} {:?}", page.charts.len())
}

#[test]
fn nobody_sees_marks_before_both_are_sealed() {
    let nothing = "[] [] 0";
    for examiner_first in [true, false] {
        let (ledger, piece, other, own) = begun();
        assert_eq!(said_of_marks(&ledger, piece), nothing);
        let unseen = || Err(NoSheet::Unseen);
        assert_eq!(sheet_page(&ledger, &rubrics(), piece, None), unseen());
        let [early, late] = if examiner_first {
            [other, own]
        } else {
            [own, other]
        };
        let ledger = performed(ledger, vec![seal(early)]);
        assert_eq!(said_of_marks(&ledger, piece), nothing);
        assert_eq!(sheet_page(&ledger, &rubrics(), piece, None), unseen());
        assert_eq!(
            sheet_page(&ledger, &rubrics(), piece, Some(early)),
            unseen()
        );
        assert_eq!(side_page(&ledger, &rubrics(), piece), Err(NoSheet::Unseen));
        let refused = sheet_json(&ledger, early).unwrap_err();
        assert!(refused.contains("stays unseen"), "{refused}");
        assert_eq!(sheet_csv(&ledger, &rubrics(), early), Err(refused));
        let all = offers();
        assert_eq!(try_rows(&ledger, all[0].key()), []);
        assert_eq!(
            try_page(&ledger, &rubrics(), &all, all[0].key(), piece),
            Err(NoTrial::Unseen)
        );
        // Whoever marks sees their own.
        assert!(sheet_page(&ledger, &rubrics(), piece, Some(late)).is_ok());
        assert!(sheet_csv(&ledger, &rubrics(), late).is_ok());

        let ledger = performed(ledger, vec![seal(late)]);
        let page = sheet_page(&ledger, &rubrics(), piece, None).unwrap();
        assert_eq!(page.marking, other, "the examiner's counts");
        assert_eq!(page.other, Some((own, "The maker’s own sheet")));
        assert_eq!(page.again, None);
        let page = sheet_page(&ledger, &rubrics(), piece, Some(own)).unwrap();
        assert_eq!(page.other, Some((other, "The examiner’s sheet")));
        assert!(sheet_csv(&ledger, &rubrics(), early).is_ok());
        assert!(sheet_json(&ledger, early).is_ok());
        let side = side_page(&ledger, &rubrics(), piece).unwrap();
        assert_eq!((side.own, side.counting), (own, other));
        assert!(side.file_base.ends_with("_side-by-side"));
        assert_eq!(try_rows(&ledger, all[0].key()).len(), 1);
        assert_ne!(said_of_marks(&ledger, piece), nothing);
    }
}

#[test]
fn a_sheet_of_another_piece_or_of_nothing_is_lost() {
    let (ledger, piece, other, own) = begun();
    let ledger = performed(ledger, vec![seal(other), seal(own)]);
    let lost = Err(NoSheet::Lost);
    let asked = |marking| sheet_page(&ledger, &rubrics(), piece, Some(marking)).map(|_| ());
    assert_eq!(asked(MarkingId::LEAST), lost);
    let start = Command::StartPiece(Box::new(start_piece(named("Bea Long"))));
    let (ledger, bea) = after(&ledger, start, &stamp(500));
    let asked = sheet_page(&ledger, &rubrics(), piece, bea.marking).map(|_| ());
    assert_eq!(asked, lost);
    assert_eq!(
        side_page(&ledger, &rubrics(), bea.piece.unwrap()).map(|_| ()),
        Err(NoSheet::Alone)
    );
}

#[test]
fn the_address_of_a_piece_opens_what_there_is_to_do() {
    let (ledger, piece, other, own) = begun();
    let open = |marking, sealed| PieceWay::Open {
        piece,
        marking,
        sealed,
    };
    assert_eq!(
        piece_way(&ledger, piece, None, None),
        PieceWay::Choose(piece)
    );
    assert_eq!(piece_way(&ledger, piece, Some(own), None), open(own, false));
    assert_eq!(
        piece_way(&ledger, piece, Some(MarkingId::LEAST), None),
        PieceWay::Lost
    );
    assert_eq!(
        piece_way(&ledger, PieceId::LEAST, Some(own), None),
        PieceWay::Lost
    );
    // A sheet that is open stays, whatever is begun beside it.
    assert_eq!(piece_way(&ledger, piece, None, Some(own)), open(own, false));
    let ledger = performed(ledger, vec![seal(other)]);
    assert_eq!(piece_way(&ledger, piece, None, None), open(own, false));
    assert_eq!(
        piece_way(&ledger, piece, None, Some(other)),
        open(other, true)
    );
    assert_eq!(
        piece_way(&ledger, piece, Some(other), None),
        open(other, true)
    );
    let ledger = performed(ledger, vec![seal(own)]);
    assert!(matches!(
        piece_way(&ledger, piece, None, None),
        PieceWay::Open { sealed: true, .. }
    ));
}

#[test]
fn rows_and_the_interrupted_draft_lead_to_their_own_marking() {
    let (ledger, piece, other, own) = begun();
    let rows = bench(&ledger, &rubrics(), now()).drafts;
    let drafts: Vec<_> = rows.iter().filter_map(|row| row.draft).collect();
    assert_eq!(drafts.len(), 2);
    assert!(drafts.contains(&own) && drafts.contains(&other));
    let of = |id| rows.iter().find(|row| row.draft == Some(id)).unwrap();
    assert!(of(own).now.ends_with(", own marking"), "{}", of(own).now);
    assert!(of(other).now.ends_with("by Wm. Green"), "{}", of(other).now);
    let found = interrupted(&ledger, own, now()).unwrap();
    assert_eq!((found.piece, found.marking), (piece, own));
    assert!(found.is_one_of_many);
    assert!(found.text.contains("own marking"), "{}", found.text);
    let ledger = performed(ledger, vec![seal(other)]);
    let rows = bench(&ledger, &rubrics(), now()).drafts;
    assert_eq!((rows.len(), rows[0].draft), (1, None));
    assert!(rows[0].now.ends_with("another is sealed and unseen"));
    assert!(!interrupted(&ledger, own, now()).unwrap().is_one_of_many);
}

#[test]
fn who_marks_is_asked_without_a_mark() {
    let (ledger, piece, other, own) = begun();
    let asked = open_markings(&ledger, &rubrics(), piece).unwrap();
    assert_eq!(asked.title, "Ada Smith");
    assert!(asked.sealed.is_empty());
    let who: Vec<_> = asked.ways.iter().map(|way| way.who.as_str()).collect();
    assert!(who.contains(&"Examiner: Wm. Green") && who.contains(&"The maker: Ada Smith"));
    for way in &asked.ways {
        assert!(way.far.starts_with("1 entry typed, "), "{}", way.far);
    }
    let ledger = performed(ledger, vec![seal(other)]);
    let asked = open_markings(&ledger, &rubrics(), piece).unwrap();
    assert_eq!(asked.ways.len(), 1);
    assert_eq!(asked.ways[0].called, "the maker’s own marking");
    assert_eq!(asked.sealed.len(), 1);
    let line = &asked.sealed[0];
    assert!(
        line.starts_with("Examiner’s marking by Wm. Green, sealed "),
        "{line}"
    );
    assert!(asked.says.contains("stay unseen"));
    let drop = Command::DeleteDraft { marking: own };
    let ledger = performed(ledger, vec![drop]);
    assert_eq!(open_markings(&ledger, &rubrics(), piece), None);
    let page = sheet_page(&ledger, &rubrics(), piece, None).unwrap();
    assert_eq!(page.marking, other, "without the open one it is seen");
    assert_eq!(page.again, Some("Mark it yourself"));
    assert_eq!(open_markings(&ledger, &rubrics(), PieceId::LEAST), None);
}

/// The maker of a ticket is nowhere named before everything is sealed.
#[test]
fn the_maker_of_a_ticket_stays_unnamed() {
    let (ledger, ada) = after(
        &Ledger::default(),
        Command::StartPiece(Box::new(start_piece(named("Ada Smith")))),
        &stamp(0),
    );
    let what = StartPiece {
        rubric: offers().remove(0).rubric,
        own: Some(OwnMarking::default()),
        ..start_piece(Who::Ticket {
            ticket: "14".to_owned(),
            learner: ada.learner,
        })
    };
    let (ledger, made) = after(&ledger, Command::StartPiece(Box::new(what)), &stamp(1));
    let piece = made.piece.unwrap();
    let own = ledger.markings_of(piece).find(|one| one.role == Role::Own);
    let own = own.unwrap().id;
    let said = |ledger: &Ledger| {
        let rubrics = rubrics();
        let drafts = bench(ledger, &rubrics, now()).drafts;
        let rows = drafts.iter().filter(|row| row.piece == piece);
        let rows: Vec<_> = rows.collect();
        format!(
            "{rows:?} {:?} {:?} {} {:?} {:?} {:?}",
            open_markings(ledger, &rubrics, piece),
            interrupted(ledger, own, now()),
            marker_words(ledger, own),
            seal_view(ledger, &rubrics, own),
            sheet_page(ledger, &rubrics, piece, Some(own)),
            sheet_csv(ledger, &rubrics, own),
        )
    };
    assert!(!said(&ledger).contains("Ada"), "{}", said(&ledger));
    assert!(!examiner_names(&ledger).contains(&"Ada Smith".to_owned()));
    let ledger = performed(ledger, vec![seal(own)]);
    let words = said(&ledger);
    assert!(words.contains("Own marking, sealed"), "{words}");
    assert!(!words.contains("Ada"), "{words}");
    let ledger = performed(ledger, vec![seal(made.marking.unwrap())]);
    let page = sheet_page(&ledger, &rubrics(), piece, Some(own)).unwrap();
    assert!(format!("{:?}", page.document).contains("Ada Smith"));
}

#[test]
fn the_second_seal_asks_no_more_how_the_piece_ended() {
    let (ledger, piece, other, own) = begun();
    let view = seal_view(&ledger, &rubrics(), own).unwrap();
    assert!(view.asks_ended && view.open_words.contains("stay"));
    assert_eq!(view.examiner, "Ada Smith");
    let first = seal_commands(&ledger, own, "withdrawn", [3; 32], now());
    assert_eq!(first.len(), 2);
    let ledger = performed(ledger, first);
    let view = seal_view(&ledger, &rubrics(), other).unwrap();
    assert!(!view.asks_ended && view.open_words.is_empty());
    assert_eq!(view.ended, "withdrawn");
    // Whatever a page that was open before still holds.
    let second = seal_commands(&ledger, other, "finished", [4; 32], now());
    let ledger = performed(ledger, second);
    assert_eq!(ledger.drafts().count(), 0);
    assert_eq!(ledger.piece(piece).unwrap().ended, Some(Ended::Withdrawn));
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

#[test]
fn examiners_are_offered_and_makers_are_not() {
    let (ledger, _, _, _) = begun();
    assert_eq!(examiner_names(&ledger), ["Wm. Green"]);
    let add = Command::AddExaminer {
        name: "Jo Reed".to_owned(),
    };
    let ledger = performed(ledger, vec![add]);
    let mut names = examiner_names(&ledger);
    names.sort();
    assert_eq!(
        names,
        ["Jo Reed", "Wm. Green"],
        "one without any marking too"
    );
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
    assert_eq!(page.again, Some("Mark it yourself"));
    let page = again(&ledger, piece);
    assert_eq!(page.roles, [Role::Own]);
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
    assert_eq!(page.again, Some("Mark as examiner"));
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
