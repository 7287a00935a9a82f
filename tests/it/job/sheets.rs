//! Sheets as files, as the page asks for them and the worker makes them.

use std::io::Write as _;
use std::process::{Command as Program, Stdio};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use evenshod::command::Command;
use evenshod::conformity::weigh;
use evenshod::job::{
    Answer, Binding, Fault, Job, Made, Outcome, PaperSize, Queue, Request, Said, State,
};
use evenshod::output::pdf::{Paper, pdf};
use evenshod::present::Rubrics;
use evenshod::present::sheet_files::{
    FileState, SheetsWanted, file_state, pictures_on, sheet_wanted, sheets_job, sitting_wanted,
};
use evenshod::records::{Kind, Ledger, MarkingId, Whom, sha256_hex};
use evenshod::sheet::{Scored, scored_sheet};
use evenshod::worker::take;

use crate::demo::sample::demo;
use crate::records::sample::{after, jpeg, keep, photos, rename, seal, stamp};
use crate::sheet::sample::{bar_shoe_text, performed, read, sealed_bar_shoe, whole_bar_shoe};

fn job(ledger: &Ledger, wanted: &SheetsWanted, binding: Binding) -> Job {
    let made = sheets_job(ledger, wanted, Vec::new(), PaperSize::A4, binding);
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
        Answer::Done(Outcome::Sheets(made)) => made,
        other => panic!("{other:?}"),
    }
}

fn one(ledger: &Ledger, marking: MarkingId) -> SheetsWanted {
    sheet_wanted(ledger, &Rubrics::default(), marking).unwrap()
}

/// The sitting of the demo with the most sealed pieces.
fn largest(ledger: &Ledger) -> SheetsWanted {
    let sittings = ledger.sittings();
    let wanted = sittings.filter_map(|sitting| sitting_wanted(ledger, sitting.id));
    wanted.max_by_key(|wanted| wanted.markings.len()).unwrap()
}

#[test]
fn the_file_is_the_sheet_with_how_sure_it_is() {
    let (ledger, marking) = sealed_bar_shoe();
    let wanted = one(&ledger, marking);
    assert_eq!(wanted.base, "2026-11-25_ada-smith_straight-bar-shoe");
    let made = made(job(&ledger, &wanted, Binding::OnePdf));
    let rubric = read(bar_shoe_text());
    let record = ledger.marking(marking).unwrap();
    let certainty = weigh(&rubric, &record.facts).unwrap();
    let scored = Scored::in_ledger(&ledger, record, &rubric).unwrap();
    let same = pdf(&scored_sheet(&scored.weighed(&certainty)), Paper::A4).unwrap();
    assert!(same.bytes.starts_with(b"%PDF-"));
    assert_eq!(STANDARD.decode(&made.data).unwrap(), same.bytes);
    assert_eq!((made.sheets, made.pages), (1, same.pages));
    assert!(made.missing.is_empty(), "{:?}", made.missing);
}

#[test]
fn a_sitting_is_one_file_and_says_how_far_it_is() {
    let ledger = demo();
    let wanted = largest(ledger);
    assert!(wanted.markings.len() > 3, "{wanted:?}");
    let answers = said(job(ledger, &wanted, Binding::OnePdf));
    let shares = answers.iter().filter_map(|answer| match answer {
        Answer::Progress(share) => Some(*share),
        _ => None,
    });
    let shares: Vec<f64> = shares.collect();
    assert!(shares.is_sorted() && shares.len() == wanted.markings.len() + 1);
    let Some(Answer::Done(Outcome::Sheets(made))) = answers.last() else {
        panic!("{:?}", answers.last());
    };
    assert_eq!(made.sheets, wanted.markings.len());
    assert!(made.pages >= made.sheets);
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
    assert_eq!(files.len(), wanted.markings.len());
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
    let Job::Sheets(sheets) = job(ledger, &wanted, Binding::OnePdf) else {
        panic!("another job");
    };
    assert!(sheets.records.len() * 3 < ledger.records().count());
    let markings = wanted.markings.iter();
    let pieces = markings.map(|id| ledger.marking(*id).unwrap().piece);
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
    assert_eq!(pictures_on(&ledger, &wanted), std::slice::from_ref(&digest));
    let pictures = vec![(digest.clone(), jpeg(1).into())];
    let asked = sheets_job(
        &ledger,
        &wanted,
        pictures,
        PaperSize::Letter,
        Binding::OnePdf,
    );
    let Job::Sheets(sheets) = asked.unwrap().1 else {
        panic!("another job");
    };
    assert_eq!(sheets.pictures[&digest], STANDARD.encode(jpeg(1)));
    assert_eq!(sheets.paper, PaperSize::Letter);
}

#[test]
fn characters_that_the_typeface_lacks_are_told() {
    let (ledger, marking) = sealed_bar_shoe();
    let learner = ledger.learners().next().unwrap().id;
    let ledger = after(&ledger, rename(&ledger, learner, "王 小明 Ada"), &stamp(90)).0;
    let made = made(job(&ledger, &one(&ledger, marking), Binding::OnePdf));
    let named: Vec<char> = made.missing.keys().copied().collect();
    assert_eq!(named, ['小', '明', '王']);
    let state = State::Done(std::sync::Arc::new(Outcome::Sheets(made)));
    let FileState::Ready { bytes, text, boxes } = file_state(Some(&state)) else {
        panic!("no file");
    };
    assert!(
        bytes.starts_with(b"%PDF-") && text.starts_with("1 sheet on "),
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
    let broken = |change: &dyn Fn(&mut evenshod::job::Sheets)| {
        let Job::Sheets(mut sheets) = job(&ledger, &wanted, Binding::Zip) else {
            panic!("another job");
        };
        change(&mut sheets);
        match said(Job::Sheets(sheets)).pop() {
            Some(Answer::Failed(why)) => why,
            other => panic!("{other:?}"),
        }
    };
    let lost = broken(&|sheets| {
        sheets
            .records
            .retain(|text| !text.contains("\"kind\":\"rubric\""))
    });
    assert!(
        lost.ends_with("is no longer here; reload the page"),
        "{lost}"
    );
    let text = broken(&|sheets| sheets.records[0] = "{".to_owned());
    assert!(text.starts_with("this is not a record"), "{text}");
    let none = said(Job::Sheets(evenshod::job::Sheets {
        title: String::new(),
        records: Vec::new(),
        pictures: Default::default(),
        markings: Vec::new(),
        paper: PaperSize::A4,
        binding: Binding::OnePdf,
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
            !wanted.markings.contains(&draft.id),
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
    let asked = sheets_job(&ledger, &wanted, Vec::new(), PaperSize::A4, Binding::OnePdf);
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
