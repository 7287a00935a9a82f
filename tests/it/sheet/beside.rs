//! A maker's own marking beside the examiner's.

use evenshod::command::{Command, Edit, OwnMarking, RubricText, StartPiece};
use evenshod::marking::State;
use evenshod::records::{Ledger, MarkingId, Role, sha256_hex};
use evenshod::rubric::shipped;
use evenshod::sheet::{Block, Document, Scored, Table, beside};

use super::sample::{bar_shoe_text, edited, faults, performed, plain, read, readings, state};
use crate::records::sample::{after, level, named, seal, stamp, start_piece};

fn text_of(file: &str) -> &'static str {
    let found = shipped().iter().find(|shipped| shipped.file == file);
    found.unwrap().text
}

fn rubric_text(text: &str) -> RubricText {
    let rubric = read(text);
    RubricText {
        digest: sha256_hex(text.as_bytes()),
        rubric_id: rubric.id,
        version: rubric.version,
        title: rubric.title,
        text: text.to_owned(),
    }
}

/// A piece that Wm. Green and its maker mark; the maker by `own`, where that is another
/// rubric. Gives the examiner's marking and the maker's.
pub fn both(text: &str, own: Option<&str>) -> (Ledger, MarkingId, MarkingId) {
    let what = StartPiece {
        rubric: rubric_text(text),
        own: Some(OwnMarking {
            rubric: own.map(rubric_text),
        }),
        ..start_piece(named("Ada Smith"))
    };
    let start = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    let mut all = ledger.markings_of(made.piece.unwrap());
    let own = all.find(|one| one.role == Role::Own).unwrap().id;
    (ledger.clone(), made.marking.unwrap(), own)
}

fn shown(ledger: &Ledger, own: MarkingId, other: MarkingId) -> Document {
    let [own, other] = [own, other].map(|id| {
        let parts = ledger.seal_parts(ledger.marking(id).unwrap()).unwrap();
        (parts, read(&parts.rubric.text))
    });
    let own = Scored::of(own.0, &own.1);
    beside("Ada Smith", &own, &Scored::of(other.0, &other.1))
}

fn table(document: &Document) -> &Table {
    let found = document.blocks.iter().find_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    found.unwrap()
}

/// The rows under `heading`, each as its cells' texts.
fn rows<'a>(document: &'a Document, heading: &str) -> Vec<Vec<&'a str>> {
    let groups = table(document).groups.iter();
    let own = groups.filter(|group| group.heading == heading);
    own.flat_map(|group| &group.rows)
        .map(|row| row.iter().map(|cell| cell.text.as_str()).collect())
        .collect()
}

fn sealed(ledger: Ledger, both: [MarkingId; 2]) -> Ledger {
    performed(ledger, both.map(seal).to_vec())
}

#[test]
fn by_one_rubric_marks_are_taken_from_marks() {
    let (ledger, other, own) = both(bar_shoe_text(), None);
    let ledger = edited(
        ledger,
        other,
        vec![
            readings("width", &["130"]),
            faults("safety", &[]),
            faults("finish", &["fin1"]),
        ],
    );
    let ledger = edited(
        ledger,
        own,
        vec![
            readings("width", &["140"]),
            faults("safety", &["black-heat"]),
            faults("finish", &[]),
            state("toe-roll", State::NotMade, "time was up"),
        ],
    );
    let given = [
        level(other, "weld", "open"),
        level(own, "weld", "line"),
        level(other, "toe-bend", "true"),
        level(own, "toe-bend", "near"),
        level(other, "fuller-walls", "clean"),
        level(own, "fuller-walls", "clean"),
    ];
    let ledger = sealed(performed(ledger, given.to_vec()), [own, other]);
    let document = shown(&ledger, own, other);
    let text = plain(&document);
    let compared = rows(&document, "");
    let names: Vec<&str> = compared.iter().map(|row| row[0]).collect();
    // By the share of what could be had: 4/4, 5/7, 1/2, 1/4, 1/5, none.
    assert_eq!(
        names,
        [
            "Finished width",
            "Weld",
            "Safety",
            "Toe bend",
            "Finish",
            "Walls of the fuller"
        ],
        "{text}"
    );
    let of = |name: &str| compared.iter().find(|row| row[0] == name).unwrap().clone();
    assert_eq!(
        of("Finished width")[1..],
        [
            "140 mm",
            "0 of 4",
            "130 mm",
            "4 of 4",
            "4 less than the examiner"
        ]
    );
    assert_eq!(of("Weld")[5], "5 more than the examiner");
    assert_eq!(of("Toe bend")[5], "1 less than the examiner");
    assert_eq!(of("Walls of the fuller")[5], "the same");
    let alone = rows(&document, "Not marked by both");
    let roll = alone.iter().find(|row| row[0] == "Toe roll").unwrap();
    assert_eq!(roll[1..3], ["not made", "0 of 4"]);
    assert_eq!(roll[4..], ["– of 4", "not compared"]);
    let all = read(bar_shoe_text()).entries().len();
    assert_eq!(
        compared.len() + alone.len(),
        all,
        "every criterion is there once"
    );
    assert!(text.contains("6 criteria have marks from both. In 2 maker and examiner agree"));
    assert!(text.contains("The maker was kinder than the examiner in 2: Weld, Finish."));
    assert!(text.contains("The maker was harder than the examiner in 2: Finished width, Safety."));
    assert!(text.contains("Examiner: Wm. Green"));
    assert!(
        !text.contains("The maker marked by"),
        "one rubric needs no name"
    );
}

#[test]
fn by_a_self_check_shares_are_compared() {
    let front = text_of("open-heeled-front-shoe.toml");
    let check = text_of("apprentice-self-check.toml");
    let (ledger, other, own) = both(front, Some(check));
    let given = [
        level(other, "outline", "2"),
        level(own, "outline", "runs"),
        level(other, "fuller-walls", "clean"),
        level(own, "fuller-walls", "clean"),
    ];
    let ledger = performed(ledger, given.to_vec());
    let ledger = edited(ledger, other, vec![readings("width", &["5 3/16"])]);
    let ledger = edited(ledger, own, vec![readings("width", &["134.2"])]);
    let ledger = sealed(ledger, [own, other]);
    let document = shown(&ledger, own, other);
    let text = plain(&document);
    let compared = rows(&document, "");
    assert_eq!(compared.len(), 3, "{text}");
    assert_eq!(
        compared[0],
        [
            "Outline",
            "It runs",
            "5 of 5",
            "2",
            "2 of 5",
            "3 more than the examiner"
        ]
    );
    assert_eq!(compared[1][0], "Finished width");
    assert_eq!(
        compared[1][5], "a smaller share, 2 of 3 against 4 of 4",
        "{text}"
    );
    assert!(text.contains("In 1 maker and examiner agree"), "{text}");
    assert!(text.contains("The maker marked by: apprentice-self-check, version 1"));
    assert!(text.contains("The examiner marked by: open-heeled-front-shoe, version"));
    let full = read(front).entries().len();
    let few = read(check).entries().len();
    let only = rows(&document, "Only in the examiner’s marking");
    assert_eq!(only.len(), full - few);
    assert!(only.iter().all(|row| row[1] == "–" && row[2] == "–"));
    assert!(rows(&document, "Only in the maker’s own marking").is_empty());
    assert_eq!(
        rows(&document, "Not marked by both").len(),
        few - 3,
        "{text}"
    );
}

/// The other way round: what only the maker has stands by itself.
#[test]
fn what_only_the_maker_marked_is_listed_apart() {
    let front = text_of("open-heeled-front-shoe.toml");
    let check = text_of("apprentice-self-check.toml");
    let (ledger, other, own) = both(check, Some(front));
    let ledger = sealed(ledger, [own, other]);
    let document = shown(&ledger, own, other);
    let only = rows(&document, "Only in the maker’s own marking");
    let more = read(front).entries().len() - read(check).entries().len();
    assert_eq!(only.len(), more);
    assert!(plain(&document).contains("There is no criterion that both have marked."));
}

#[test]
fn every_row_is_as_wide_as_the_table() {
    let (ledger, other, own) = both(bar_shoe_text(), None);
    let ledger = edited(ledger, own, vec![readings("width", &["130"])]);
    let ledger = sealed(ledger, [own, other]);
    let document = shown(&ledger, own, other);
    let table = table(&document);
    let rows: Vec<_> = table.groups.iter().flat_map(|group| &group.rows).collect();
    assert!(!rows.is_empty());
    assert!(rows.iter().all(|row| row.len() == table.columns.len()));
    assert!(table.groups.iter().all(|group| !group.rows.is_empty()));
}

#[test]
fn a_maker_s_own_sheet_says_so() {
    let (ledger, _, own) = both(bar_shoe_text(), None);
    let ledger = performed(
        ledger,
        vec![
            Command::edit(
                own,
                Edit::SetComment {
                    entry: None,
                    comment: Some("I hurried.".to_owned()),
                },
            ),
            seal(own),
        ],
    );
    let text = plain(&super::sample::sheet(&ledger, own));
    for said in [
        "Marked by: Ada Smith",
        "Marking: Own, by the maker",
        "What the maker says",
        "Marks are the maker’s own; they stand for nobody else’s.",
        "signs: Learner, date",
    ] {
        assert!(text.contains(said), "{said}: {text}");
    }
    assert!(!text.contains("Examiner, date"), "{text}");
}

#[test]
fn a_step_of_the_scale_is_near_as_a_level_is() {
    for (given, agrees) in [("4.5", 1), ("5", 1), ("5.5", 0)] {
        let (ledger, other, own) = both(bar_shoe_text(), None);
        let levels = [level(other, "outline", "4.5"), level(own, "outline", given)];
        let ledger = sealed(performed(ledger, levels.to_vec()), [own, other]);
        let text = plain(&shown(&ledger, own, other));
        let told = format!("1 criterion has marks from both. In {agrees} maker");
        assert!(text.contains(&told), "{given}: {text}");
    }
}
