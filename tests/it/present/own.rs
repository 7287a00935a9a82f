//! A piece that its maker and an examiner mark, each unseen by the other.

use evenshod::command::{Command, OwnMarking, StartPiece, Who};
use evenshod::present::rubrics::{NoTrial, try_page, try_rows};
use evenshod::present::{
    CourseAsked, NoSheet, PieceWay, Rubrics, bench, examiner_names, interrupted, learner_page,
    learner_rows, marker_words, offers, open_markings, piece_way, seal_commands, seal_view,
    sheet_json, sheet_page, side_page,
};
use evenshod::records::{Ended, Ledger, MarkingId, PieceId, Role, Whom};

use crate::job::tables::csv_of;
use crate::records::sample::{after, level, named, now, seal, stamp, start_piece};
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
    let page = learner_page(
        ledger,
        &rubrics,
        learner,
        &CourseAsked::default(),
        now(),
        Whom::Learner,
    )
    .unwrap();
    let rows = learner_rows(ledger, &rubrics, now());
    let marks = bench.drafts.iter().chain(&bench.latest).chain(&page.pieces);
    let marks: Vec<_> = marks.filter_map(|row| row.marks.clone()).collect();
    let others: Vec<_> = rows.into_iter().filter_map(|row| row.marks).collect();
    format!("{marks:?} {others:?} {:?}", page.course.iter().count())
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
        assert_eq!(
            side_page(&ledger, &rubrics(), piece, Whom::Learner),
            Err(NoSheet::Unseen)
        );
        let refused = sheet_json(&ledger, early).unwrap_err();
        assert!(refused.contains("stays unseen"), "{refused}");
        assert_eq!(csv_of(&ledger, early), None);
        let all = offers();
        assert_eq!(try_rows(&ledger, all[0].key()), []);
        assert_eq!(
            try_page(&ledger, &rubrics(), &all, all[0].key(), piece),
            Err(NoTrial::Unseen)
        );
        // Whoever marks sees their own.
        assert!(sheet_page(&ledger, &rubrics(), piece, Some(late)).is_ok());
        assert!(csv_of(&ledger, late).is_some());

        let ledger = performed(ledger, vec![seal(late)]);
        let page = sheet_page(&ledger, &rubrics(), piece, None).unwrap();
        assert_eq!(page.marking, other, "the examiner's counts");
        assert_eq!(page.other, Some((own, "The maker’s own sheet")));
        assert_eq!(page.again, [("second", "Mark as second examiner")]);
        let page = sheet_page(&ledger, &rubrics(), piece, Some(own)).unwrap();
        assert_eq!(page.other, Some((other, "The examiner’s sheet")));
        assert!(csv_of(&ledger, early).is_some());
        assert!(sheet_json(&ledger, early).is_ok());
        let side = side_page(&ledger, &rubrics(), piece, Whom::Learner).unwrap();
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
        side_page(&ledger, &rubrics(), bea.piece.unwrap(), Whom::Learner).map(|_| ()),
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
    assert_eq!(page.again[0], ("self", "Mark it yourself"));
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
            csv_of(ledger, own),
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
