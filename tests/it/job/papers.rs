//! Sheets as files, as the page asks for them and the worker makes them.

use std::io::Write as _;
use std::process::{Command as Program, Stdio};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use evenshod::command::Command;
use evenshod::conformity::weigh;
use evenshod::job::{
    Answer, Binding, Content, Fault, Form, Job, Made, Outcome, PaperKind, PaperSize, Papers, Queue,
    Request, Said, State,
};
use evenshod::output::pdf::{Paper, pdf};
use evenshod::present::Rubrics;
use evenshod::present::paper_files::{
    FileState, PapersWanted, Says, document_wanted, file_state, papers_job, pictures_in,
    sheet_wanted, sitting_wanted,
};
use evenshod::records::{Kind, Ledger, MarkingId, Whom, sha256_hex};
use evenshod::sheet::{Scored, scored_sheet};
use evenshod::worker::take;

use crate::demo::sample::demo;
use crate::records::sample::{after, day, jpeg, keep, photos, rename, seal, stamp};
use crate::sheet::sample::{bar_shoe_text, performed, read, sealed_bar_shoe, whole_bar_shoe};

fn job(ledger: &Ledger, wanted: &PapersWanted, binding: Binding) -> Job {
    let form = Form {
        binding,
        ..Form::default()
    };
    let made = papers_job(ledger, wanted.clone(), Vec::new(), form);
    made.unwrap().1
}

/// All that the worker says, each as it goes over the wire.
fn said(job: Job) -> Vec<Answer> {
    let mut answers = Vec::new();
    let text = Request { id: 5, job }.write().unwrap();
    take(
        &text,
        &mut |one| match Said::read(&one.write().unwrap()).unwrap() {
            Said::About { answer, .. } => answers.push(answer),
            Said::Ready => {}
        },
    );
    answers
}

fn made(job: Job) -> Made {
    match said(job).pop().unwrap() {
        Answer::Done(Outcome::Papers(made)) => made,
        other => panic!("{other:?}"),
    }
}

fn one(ledger: &Ledger, marking: MarkingId) -> PapersWanted {
    sheet_wanted(ledger, &Rubrics::default(), marking).unwrap()
}

fn markings(wanted: &PapersWanted) -> &[MarkingId] {
    match &wanted.says {
        Says::Sheets(markings) => markings,
        Says::Documents(documents) => panic!("{documents:?}"),
    }
}

fn papers(job: Job) -> Papers {
    match job {
        Job::Papers(papers) => papers,
        other => panic!("{other:?}"),
    }
}

/// The records that the worker makes sheets from.
fn records(papers: &mut Papers) -> &mut Vec<String> {
    match &mut papers.content {
        Content::Sheets { records, .. } => records,
        Content::Documents(documents) => panic!("{documents:?}"),
    }
}

/// The sitting of the demo with the most sealed pieces.
fn largest(ledger: &Ledger) -> PapersWanted {
    let sittings = ledger.sittings();
    let wanted = sittings.filter_map(|sitting| sitting_wanted(ledger, sitting.id));
    wanted.max_by_key(|wanted| markings(wanted).len()).unwrap()
}

#[test]
fn the_file_is_the_sheet_with_how_sure_it_is() {
    let (ledger, marking) = sealed_bar_shoe();
    let wanted = one(&ledger, marking);
    assert_eq!(wanted.base, "2026-11-25_ada-smith_straight-bar-shoe");
    let made = made(job(&ledger, &wanted, Binding::One));
    let rubric = read(bar_shoe_text());
    let record = ledger.marking(marking).unwrap();
    let certainty = weigh(&rubric, &record.facts).unwrap();
    let scored = Scored::in_ledger(&ledger, record, &rubric).unwrap();
    let same = pdf(&scored_sheet(&scored.weighed(&certainty)), Paper::A4).unwrap();
    assert!(same.bytes.starts_with(b"%PDF-"));
    assert_eq!(STANDARD.decode(&made.data).unwrap(), same.bytes);
    assert_eq!((made.documents, made.pages), (1, same.pages));
    assert!(made.missing.is_empty(), "{:?}", made.missing);
}

#[test]
fn a_sitting_is_one_file_and_says_how_far_it_is() {
    let ledger = demo();
    let wanted = largest(ledger);
    assert!(markings(&wanted).len() > 3, "{wanted:?}");
    let answers = said(job(ledger, &wanted, Binding::One));
    let shares = answers.iter().filter_map(|answer| match answer {
        Answer::Progress(share) => Some(*share),
        _ => None,
    });
    let shares: Vec<f64> = shares.collect();
    assert!(shares.is_sorted() && shares.len() == markings(&wanted).len() + 1);
    let Some(Answer::Done(Outcome::Papers(made))) = answers.last() else {
        panic!("{:?}", answers.last());
    };
    assert_eq!(made.documents, markings(&wanted).len());
    assert!(made.pages >= made.documents);
}

/// Python's own reader of ZIP files (PKWARE's APPNOTE.TXT), which also checks every sum.
#[test]
fn a_zip_holds_a_pdf_for_each_and_another_program_reads_it() {
    let ledger = demo();
    let wanted = largest(ledger);
    let made = made(job(ledger, &wanted, Binding::Zip));
    let script = "import io, json, sys, zipfile
file = zipfile.ZipFile(io.BytesIO(sys.stdin.buffer.read()))
assert file.testzip() is None
print(json.dumps([[name, file.read(name)[:5].decode()] for name in file.namelist()]))";
    let mut python = Program::new("python3")
        .args(["-c", script])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 reads the ZIP of this test; install it");
    let bytes = STANDARD.decode(&made.data).unwrap();
    python.stdin.take().unwrap().write_all(&bytes).unwrap();
    let read = python.wait_with_output().unwrap();
    assert!(read.status.success());
    let files: Vec<(String, String)> = serde_json::from_slice(&read.stdout).unwrap();
    assert_eq!(files.len(), markings(&wanted).len());
    for (name, head) in &files {
        assert!(
            name.ends_with(".pdf") && !name.contains(['/', '\\']),
            "{name}"
        );
        assert_eq!(head, "%PDF-");
    }
    let mut names: Vec<_> = files.iter().map(|(name, _)| name).collect();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), files.len(), "each has a name of its own");
}

#[test]
fn only_what_the_sheets_are_made_from_goes_to_the_worker() {
    let ledger = demo();
    let wanted = largest(ledger);
    let mut papers = papers(job(ledger, &wanted, Binding::One));
    assert!(records(&mut papers).len() * 3 < ledger.records().count());
    let pieces = markings(&wanted)
        .iter()
        .map(|id| ledger.marking(*id).unwrap().piece);
    let part = Ledger::of(ledger.about(pieces.clone()));
    for piece in pieces {
        for whom in [Whom::Examiner, Whom::Learner] {
            let counts = |ledger: &Ledger| {
                let standing = ledger.standing_for(piece, whom);
                standing.counts().map(|marking| marking.id)
            };
            assert_eq!(counts(&part), counts(ledger));
        }
    }
}

#[test]
fn photos_are_asked_for_and_sent_along() {
    let (ledger, marking) = whole_bar_shoe();
    let add = |photo| Command::edit(marking, evenshod::command::Edit::AddPhoto { photo });
    let mut commands = vec![keep(&jpeg(1))];
    commands.extend(photos().into_iter().take(1).map(add));
    commands.push(seal(marking));
    let ledger = performed(ledger, commands);
    let wanted = one(&ledger, marking);
    let digest = sha256_hex(&jpeg(1));
    assert_eq!(pictures_in(&ledger, &wanted), std::slice::from_ref(&digest));
    let pictures = vec![(digest.clone(), jpeg(1).into())];
    let form = Form {
        size: PaperSize::Letter,
        ..Form::default()
    };
    let asked = papers_job(&ledger, wanted, pictures, form).unwrap();
    let papers = papers(asked.1);
    assert_eq!(papers.pictures[&digest], STANDARD.encode(jpeg(1)));
    assert_eq!(papers.form, form);
}

#[test]
fn characters_that_the_typeface_lacks_are_told() {
    let (ledger, marking) = sealed_bar_shoe();
    let learner = ledger.learners().next().unwrap().id;
    let ledger = after(&ledger, rename(&ledger, learner, "王 小明 Ada"), &stamp(90)).0;
    let made = made(job(&ledger, &one(&ledger, marking), Binding::One));
    let named: Vec<char> = made.missing.keys().copied().collect();
    assert_eq!(named, ['小', '明', '王']);
    let state = State::Done(std::sync::Arc::new(Outcome::Papers(made)));
    let FileState::Ready { bytes, text, boxes } = file_state(Some(&state)) else {
        panic!("no file");
    };
    assert!(
        bytes.starts_with(b"%PDF-") && text.ends_with(" pages."),
        "{text}"
    );
    assert!(
        boxes.contains("drawn as a box") && boxes.contains("小 明 王"),
        "{boxes}"
    );
}

#[test]
fn what_is_lost_or_broken_is_an_answer_in_words() {
    let (ledger, marking) = sealed_bar_shoe();
    let wanted = one(&ledger, marking);
    let broken = |change: &dyn Fn(&mut Vec<String>)| {
        let mut papers = papers(job(&ledger, &wanted, Binding::Zip));
        change(records(&mut papers));
        match said(Job::Papers(papers)).pop() {
            Some(Answer::Failed(why)) => why,
            other => panic!("{other:?}"),
        }
    };
    let lost = broken(&|records| records.retain(|text| !text.contains("\"kind\":\"rubric\"")));
    assert!(
        lost.ends_with("is no longer here; reload the page"),
        "{lost}"
    );
    let text = broken(&|records| records[0] = "{".to_owned());
    assert!(text.starts_with("this is not a record"), "{text}");
    let none = said(Job::Papers(Papers {
        title: String::new(),
        content: Content::Documents(Vec::new()),
        pictures: Default::default(),
        form: Form::default(),
    }));
    assert!(matches!(none.last(), Some(Answer::Failed(why)) if why.contains("nothing to write")));
}

#[test]
fn nothing_is_offered_that_may_not_be_seen() {
    let ledger = demo();
    let kinds = ledger.about([]);
    assert_eq!(kinds, []);
    let draft = ledger.drafts().next().unwrap();
    let sitting = ledger.piece(draft.piece).unwrap().sitting;
    if let Some(wanted) = sitting_wanted(ledger, sitting) {
        assert!(
            !markings(&wanted).contains(&draft.id),
            "a draft is on no sheet of a sitting"
        );
    }
    assert!(
        ledger
            .records()
            .any(|record| record.kind() == Kind::Marking)
    );
}

#[test]
fn how_a_file_stands_is_said_in_words() {
    let text = |state: Option<State>| match file_state(state.as_ref()) {
        FileState::Busy { text, .. } => text.to_owned(),
        FileState::None(text) => text,
        FileState::Ready { text, .. } => text,
    };
    assert_eq!(text(None), "Getting ready to make the file.");
    assert_eq!(text(Some(State::Working(0.4))), "Making the file.");
    assert!(text(Some(State::Stopped)).contains("Nothing was saved"));
    for fault in [
        Fault::NotStarted("no".to_owned()),
        Fault::Broken("no".to_owned()),
        Fault::Refused("no".to_owned()),
    ] {
        assert!(text(Some(State::Failed(fault))).ends_with(" no."));
    }
}

#[test]
fn a_result_that_was_taken_is_let_go() {
    let (ledger, marking) = sealed_bar_shoe();
    let wanted = one(&ledger, marking);
    let asked = papers_job(&ledger, wanted, Vec::new(), Form::default());
    let (topic, job) = asked.unwrap();
    let mut queue = Queue::default();
    drop(queue.ask(topic.clone(), job));
    queue.forget(&topic.about);
    assert_eq!(
        queue.state(&topic),
        Some(&State::Waiting),
        "what is to come stays"
    );
    drop(queue.stop(&topic.about));
    queue.forget(&topic.about);
    assert_eq!(queue.state(&topic), None);
}

/// A document is sent as it is, and comes back as the same file as a sheet made there.
#[test]
fn a_document_that_is_shown_goes_over_the_wire_whole() {
    let ledger = demo();
    let markings = ledger.markings().filter(|marking| marking.seal.is_some());
    for marking in markings.step_by(17) {
        let rubric = read(&ledger.rubric(&marking.rubric).unwrap().text);
        let scored = Scored::in_ledger(ledger, marking, &rubric).unwrap();
        let document = scored_sheet(&scored);
        let same = pdf(&document, Paper::A4).unwrap();
        let wanted = document_wanted(day(), "a sheet", document);
        let made = made(job(ledger, &wanted, Binding::One));
        assert_eq!(STANDARD.decode(&made.data).unwrap(), same.bytes);
    }
}

/// A scored sheet of one shoe has three pages at most, with many faults and close calls too;
/// that of a pair has four.
#[test]
fn a_scored_sheet_has_at_most_three_pages() {
    let ledger = demo();
    let markings = ledger.markings().filter(|marking| marking.seal.is_some());
    for marking in markings.step_by(7) {
        let rubric = read(&ledger.rubric(&marking.rubric).unwrap().text);
        let certainty = weigh(&rubric, &marking.facts).unwrap();
        let scored = Scored::in_ledger(ledger, marking, &rubric).unwrap();
        let document = scored_sheet(&scored.weighed(&certainty));
        for paper in [Paper::A4, Paper::Letter] {
            let pages = pdf(&document, paper).unwrap().pages;
            let most = if rubric.shoes.len() < 2 { 3 } else { 4 };
            assert!(pages <= most, "{} on {paper:?}: {pages}", rubric.title);
        }
    }
}

#[test]
fn the_words_alone_are_a_file_too() {
    let (ledger, marking) = sealed_bar_shoe();
    let form = Form {
        kind: PaperKind::Text,
        ..Form::default()
    };
    let asked = papers_job(&ledger, one(&ledger, marking), Vec::new(), form).unwrap();
    let made = made(asked.1);
    assert_eq!((made.documents, made.pages), (1, 0));
    let text = String::from_utf8(STANDARD.decode(&made.data).unwrap()).unwrap();
    assert!(
        text.starts_with("Straight bar shoe") && text.contains("\n====="),
        "{text}"
    );
    // Weighed, as the PDF is.
    assert!(text.contains('±'), "{text}");
}
