//! A small ledger that tests of several rooms begin from.

use evenshod::command::{
    Command, Edit, InstrumentDetails, LearnerDetails, Made, MilestoneDetails, RubricText,
    StartPiece, Who, apply,
};
use evenshod::marking::heat_log::{
    Afterwards, HeatLog, PlannedPart, Run, Stop, TakenOver, Tap, What,
};
use evenshod::marking::{
    CutFact, InstrumentFact, Lift, OutlineFact, PHOTO_GAUGE, Pause, ReadingFact, Settled,
    Settlement, State, StateFact, Stated,
};
use evenshod::quantity::Dimension;
use evenshod::records::{
    Agreement, Bundle, Change, Day, Deed, Device, Ended, Layout, Learner, LearnerId, LearnerStatus,
    Ledger, MadeFrom, MarkingId, Milestone, MilestoneId, Moment, NamedColumn, OutsideNumber, Photo,
    PictureBytes, Place, RawRecord, Release, Replaces, Role, Signature, SignatureAlgorithm,
    Sitting, SittingId, SittingKind, Stamp, Study, StudyFacts, StudyPart, StudyPerson, Unit,
    sha256_hex,
};
use evenshod::rubric::ShapeWord;

/// 25 Nov 2026, 10:42 UTC.
pub const NOW_MS: u64 = 1_795_603_320_000;

pub fn device(tab: u8) -> Device {
    Device::new("bench tablet", [tab; 8])
}

/// The stamp `seconds` after [`NOW_MS`] by this tab.
pub fn stamp_of(tab: u8, seconds: u64) -> Stamp {
    Stamp::first(NOW_MS + 1000 * seconds, device(tab))
}

pub fn stamp(seconds: u64) -> Stamp {
    stamp_of(1, seconds)
}

pub fn now() -> Moment {
    Moment::new(i64::try_from(NOW_MS).unwrap(), 60)
}

pub fn day() -> Day {
    Day::new(2026, 11, 25).unwrap()
}

pub fn rubric(version: &str) -> RubricText {
    let text = format!("id = \"plain-front\"\nversion = \"{version}\"\n");
    RubricText {
        digest: sha256_hex(text.as_bytes()),
        rubric_id: "plain-front".to_owned(),
        version: version.to_owned(),
        title: "Plain front shoe".to_owned(),
        text,
    }
}

pub fn start_piece(who: Who) -> StartPiece {
    StartPiece {
        who,
        rubric: rubric("1"),
        sitting: SittingKind::Practice,
        day: day(),
        examiner: "Wm. Green".to_owned(),
        unit: Unit::Millimetre,
        role: Role::First,
        own: None,
        at: now(),
        second: None,
    }
}

pub fn start(who: Who) -> Command {
    Command::StartPiece(Box::new(start_piece(who)))
}

pub fn named(name: &str) -> Who {
    Who::Name(name.to_owned())
}

/// Carries a command out and gives the ledger afterwards.
#[track_caller]
pub fn after(ledger: &Ledger, command: Command, stamp: &Stamp) -> (Ledger, Made) {
    let change = apply(ledger, command, stamp).unwrap();
    (ledger.with(&change), change.made)
}

/// One learner, one piece and its draft, begun at [`stamp`] 0.
pub fn with_draft() -> (Ledger, Made) {
    after(&Ledger::default(), start(named("Ada Smith")), &stamp(0))
}

/// Gives a learner, whom `ledger` may have, another name and no number.
pub fn rename(ledger: &Ledger, learner: LearnerId, name: &str) -> Command {
    let before = ledger.learner(learner).map(LearnerDetails::of);
    let before = before.unwrap_or_default();
    let after = LearnerDetails {
        name: name.to_owned(),
        given_number: None,
        ..before.clone()
    };
    Command::SetLearner {
        learner,
        before: Box::new(before),
        after: Box::new(after),
    }
}

/// Notes something of a learner's training on [`day`].
pub fn milestone(learner: LearnerId, text: &str) -> Command {
    Command::AddMilestone {
        learner,
        day: day(),
        text: text.to_owned(),
    }
}

/// Writes a milestone anew, or takes it back, by `change`.
pub fn set_milestone(
    ledger: &Ledger,
    id: MilestoneId,
    change: impl FnOnce(&mut MilestoneDetails),
) -> Command {
    let before = MilestoneDetails::of(ledger.milestone(id).unwrap());
    let mut after = before.clone();
    change(&mut after);
    Command::SetMilestone {
        milestone: id,
        before: Box::new(before),
        after: Box::new(after),
    }
}

pub fn level(marking: MarkingId, entry: &str, level: &str) -> Command {
    Command::edit(
        marking,
        Edit::SetLevel {
            entry: entry.to_owned(),
            level: Some(level.to_owned()),
        },
    )
}

pub fn comment(marking: MarkingId, entry: Option<&str>, text: &str) -> Command {
    Command::edit(
        marking,
        Edit::SetComment {
            entry: entry.map(str::to_owned),
            comment: Some(text.to_owned()),
        },
    )
}

pub fn seal(marking: MarkingId) -> Command {
    Command::Seal {
        marking,
        seed: [9; 32],
        at: now(),
        signature: None,
    }
}

/// [`with_draft`] with something of every sort in it.
pub fn with_full_draft() -> (Ledger, Made) {
    let (mut ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let hot = ReadingFact {
        unit: Some(Unit::Inch64),
        hot: true,
        ..ReadingFact::of("3/8")
    };
    let state = StateFact {
        state: State::CannotMeasure,
        reason: Some("scale in the fuller".to_owned()),
        marks: Some("20/3".to_owned()),
    };
    let commands = [
        Command::edit(
            marking,
            Edit::SetReadings {
                entry: "near.width".to_owned(),
                readings: vec![ReadingFact::of("10,5"), hot],
            },
        ),
        level(marking, "finish", "good"),
        Command::edit(
            marking,
            Edit::SetState {
                entry: "fuller".to_owned(),
                state: Some(state),
            },
        ),
        Command::edit(
            marking,
            Edit::SetFaults {
                entry: "toe".to_owned(),
                faults: Some(vec![]),
            },
        ),
        comment(marking, Some("toe"), "Toe a touch \"long\" – 2 mm"),
        comment(marking, None, "Good shoe."),
    ];
    for (seconds, command) in (1..).zip(commands) {
        ledger = after(&ledger, command, &stamp(seconds)).0;
    }
    (ledger, made)
}

/// Every kind of record, with every field that may be left out, and without.
pub fn full_ledger() -> Ledger {
    let (mut ledger, made) = with_full_draft();
    let marking = made.marking.unwrap();
    let piece = made.piece.unwrap();
    let pause = Pause {
        duration: "4 min".to_owned(),
        reason: "gas bottle changed".to_owned(),
    };
    let lift = Lift {
        entry: "safety".to_owned(),
        by: "C. Reed".to_owned(),
        reason: "seen by both examiners".to_owned(),
    };
    let tally = Edit::SetTally {
        entry: "heats".to_owned(),
        tally: Some("11".to_owned()),
    };
    let pauses = Edit::SetPauses {
        pauses: vec![pause.clone()],
    };
    let extra_time = Edit::SetExtraTime {
        extra_time: Some(pause),
    };
    let ended = Some(Ended::Finished);
    let ticket = Who::Ticket {
        ticket: "17".to_owned(),
        learner: made.learner,
    };
    let commands = [
        Command::edit(marking, tally),
        Command::edit(marking, pauses),
        Command::edit(marking, extra_time),
        Command::edit(marking, Edit::SetLifts { lifts: vec![lift] }),
        Command::edit(
            marking,
            Edit::SetTypist {
                name: Some("D. Moss".to_owned()),
            },
        ),
        Command::SetEnded { piece, ended },
        seal(marking),
        start(ticket),
        feedback(&made),
        milestone(made.learner.unwrap(), "First weld that held"),
    ];
    for (seconds, command) in (20..).zip(commands) {
        ledger = after(&ledger, command, &stamp(seconds)).0;
    }
    // What takes more than one sealed marking, or a browser.
    let draft = ledger.drafts().next().unwrap();
    let mut amended = draft.clone();
    amended.role = Role::Amended;
    amended.replaces = Some(Replaces {
        marking,
        reason: "the wrong shoe was marked".to_owned(),
    });
    amended.comments = ledger.marking(marking).unwrap().comments.clone();
    amended.overall = Some("Good shoe.".to_owned());
    let mut sealed = ledger.marking(marking).unwrap().clone();
    sealed.signature = Some(signature());
    let mut gauged = ReadingFact::of("over fair");
    gauged.instrument = Some("feeler".to_owned());
    let from_photo = ReadingFact {
        instrument: Some(PHOTO_GAUGE.to_owned()),
        stated: Some(Stated {
            own: "0.12 mm".to_owned(),
            shared: Some("-0.05 mm".to_owned()),
        }),
        ..ReadingFact::of("150.2 mm")
    };
    let readings = &mut amended.facts.readings;
    readings.insert("fuller".to_owned(), vec![gauged]);
    readings.insert("near.length".to_owned(), vec![from_photo]);
    let protractor = InstrumentFact {
        measures: Dimension::Angle,
        half_width: None,
        standard_uncertainty: Some("0.3 deg".to_owned()),
        ..caliper()
    };
    let shaped = InstrumentFact {
        shape: Some(ShapeWord::Trapezoid),
        level_share: Some("0.5".to_owned()),
        ..caliper()
    };
    let instruments = &mut amended.facts.instruments;
    instruments.insert("protractor".to_owned(), protractor);
    instruments.insert("depth-gauge".to_owned(), shaped);
    amended.facts.outlines = vec![outline(Some("near"))];
    amended.facts.heat_log = heat_log();
    amended.facts.cut = Some(CutFact::of("15 3/4", Unit::Inch64));
    amended.photos = photos();
    let ledger = after(&ledger, keep(&jpeg(1)), &stamp(42)).0;
    let ledger = after(
        &ledger,
        set_instrument(&ledger, "caliper", caliper()),
        &stamp(41),
    )
    .0;
    let ledger = after(&ledger, begin_study(), &stamp(44)).0;
    let mut study = ledger.studies().next().unwrap().clone();
    study.erased = Some(now());
    let columns = vec![NamedColumn {
        key: "learner".to_owned(),
        name: "Candidate".to_owned(),
    }];
    let layout = Layout::Wide;
    let command = Command::SetColumns { layout, columns };
    let ledger = after(&ledger, command, &stamp(43)).0;
    let why = |by| Settled {
        by,
        reason: "seen again".to_owned(),
    };
    amended.facts.impression = Some("7".to_owned());
    let settled = [
        ("finish", why(Settlement::From(marking))),
        ("toe", why(Settlement::Marks("7.5".to_owned()))),
        ("fuller", why(Settlement::Mean)),
    ];
    amended.agreement = Some(Agreement {
        from: vec![MadeFrom {
            marking,
            digest: "0".repeat(64),
        }],
        settled: settled
            .map(|(entry, settled)| (entry.to_owned(), settled))
            .into(),
    });
    let stamp = stamp(40);
    let learner = Learner {
        given_number: Some("4711".to_owned()),
        outside_numbers: vec![OutsideNumber {
            by: "Wexcombe Guild".to_owned(),
            number: "WG 0815".to_owned(),
        }],
        employer: Some("Thornwick Forge".to_owned()),
        started: Day::new(2024, 9, 2),
        planned_end: Day::new(2027, 8, 31),
        status: LearnerStatus::Paused,
        ..Learner::named(
            LearnerId::made_by(&stamp, 0),
            stamp.clone(),
            "Bea Coe".to_owned(),
        )
    };
    let forgotten = Milestone {
        id: MilestoneId::made_by(&stamp, 11),
        stamp: stamp.clone(),
        learner: learner.id,
        day: day(),
        text: String::new(),
        taken_back: true,
        erased: Some(now()),
    };
    let sitting = Sitting {
        id: SittingId::made_by(&stamp, 2),
        stamp,
        kind: SittingKind::Exam,
        day: day(),
        name: "Spring".to_owned(),
        released: Some(Release {
            at: now(),
            by: made.examiner.unwrap(),
            held_back: Some(Deed {
                at: now(),
                by: made.examiner.unwrap(),
            }),
        }),
    };
    let ledger = ledger.with(&Change {
        puts: vec![
            learner.into(),
            forgotten.into(),
            sitting.into(),
            study.into(),
            amended.into(),
            sealed.into(),
        ],
        ..Change::default()
    });
    after(&ledger, erase(marking), &super::sample::stamp(41)).0
}

/// By whoever marked.
pub fn feedback(made: &Made) -> Command {
    Command::GiveFeedback {
        piece: made.piece.unwrap(),
        by: made.examiner.unwrap(),
        at: now(),
    }
}

/// [`with_full_draft`] in an exam.
pub fn with_exam_draft() -> (Ledger, Made) {
    let (ledger, made) = with_full_draft();
    (in_exam(&ledger), made)
}

/// `ledger` as if what was begun first in it had been begun in an exam.
pub fn in_exam(ledger: &Ledger) -> Ledger {
    let mut sitting = ledger.sittings().next().unwrap().clone();
    sitting.kind = SittingKind::Exam;
    let puts = vec![sitting.into()];
    ledger.with(&Change {
        puts,
        ..Change::default()
    })
}

pub fn erase(marking: MarkingId) -> Command {
    Command::EraseText { marking, at: now() }
}

/// What OpenSSL 3.0 signed with: `openssl ecparam -name prime256v1 -genkey`, then
/// `openssl dgst -sha256 -sign`.
pub const PUBLIC_KEY: &str = "MFkwEwYHKoZIzj0CAQYIKoZIzj0DAQcDQgAEpAFYSoS9xq96hWHVeQXjuyyx3zzr7qnsioCk53TEgTeKGua8IQ4/259Jo0yqvZYZX+38+Y3Ei0GFTh4ST1SToQ==";

/// That key's signature on the digest of `abc`.
pub fn signature() -> Signature {
    Signature {
        algorithm: SignatureAlgorithm::EcdsaP256Sha256,
        public_key: PUBLIC_KEY.to_owned(),
        value: "Db27fD+TjccXuGJ97EWitjs32Qtw7/rz+RNspv8EAlphT1bK6kaWlPfVTl+EhodWv5aZhkgw6G43ov1cT3BqTA==".to_owned(),
    }
}

/// A caliper with every figure but the standard uncertainty and a shape.
pub fn caliper() -> InstrumentFact {
    InstrumentFact {
        name: "Caliper 7".to_owned(),
        measures: Dimension::Length,
        half_width: Some("0.03 mm".to_owned()),
        shape: None,
        level_share: None,
        standard_uncertainty: None,
        repeatability: Some("0.05 mm".to_owned()),
        shared: Some("0.01 mm".to_owned()),
        source: "certificate of March 2026".to_owned(),
    }
}

/// A heat log with every tap there is, a plan and figures from afterwards.
pub fn heat_log() -> HeatLog {
    let taps = [
        What::Start,
        What::Step {
            step: "toe".to_owned(),
        },
        What::Fire,
        What::Anvil { weld: true },
        What::Heat { weld: true },
        What::Fault {
            entry: "near.length".to_owned(),
            fault: "burnt".to_owned(),
        },
        What::Note {
            text: "fire too small".to_owned(),
        },
        What::NotWatched,
        What::Pause {
            reason: "gas".to_owned(),
        },
        What::Resume,
        What::Called,
        What::Finished,
        What::Stopped {
            how: Stop::Withdrawn,
            reason: "burn".to_owned(),
        },
    ];
    let taps = taps.into_iter().zip(0_u32..).map(|(what, at)| Tap {
        at: Moment::new(now().utc_ms() + 1000 * i64::from(at), 60),
        run: (at != 1).then_some(Run {
            page: u32::MAX,
            ms: u64::from(at) * 1000,
        }),
        what,
    });
    HeatLog {
        taps: taps.collect(),
        plan: Some(vec![PlannedPart {
            part: "toe".to_owned(),
            step: Some("toe".to_owned()),
            count: 3,
            weld: true,
        }]),
        afterwards: Some(Afterwards {
            heats: [("toe".to_owned(), "3".to_owned())].into(),
            weld_heats: Some("1".to_owned()),
            time: Some("52 min".to_owned()),
            at_the_fire: Some("20 min".to_owned()),
        }),
        taken_over: Some(TakenOver {
            marking: "01a12b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b".to_owned(),
            examiner: "01a12b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c".to_owned(),
            at: now(),
            taps: 3,
        }),
    }
}

/// The outline of a round bar shoe with one nail hole.
pub fn outline(shoe: Option<&str>) -> OutlineFact {
    let ring = |radius: f64| {
        let places = (0..36).map(|place| (10.0 * f64::from(place)).to_radians());
        let at = |angle: f64| (radius * angle.sin(), 60.0 - radius * angle.cos());
        places
            .map(|angle| OutlineFact::place(at(angle)).unwrap())
            .collect()
    };
    OutlineFact {
        shoe: shoe.map(str::to_owned),
        photo: "a".repeat(64),
        outer: ring(60.0),
        inner: vec![ring(40.0)],
        holes: vec![(-5_000, 6_000)],
        unsure: 15,
    }
}

/// Adds an instrument, or gives one that `ledger` has other figures.
pub fn set_instrument(ledger: &Ledger, id: &str, fact: InstrumentFact) -> Command {
    let before = ledger.instrument(id).map(InstrumentDetails::of);
    let retired = before.as_ref().is_some_and(|before| before.retired);
    Command::SetInstrument {
        id: id.to_owned(),
        before: before.map(Box::new),
        after: Box::new(InstrumentDetails { fact, retired }),
    }
}

/// One part of known size and one of another, two people, two trials, one reading.
pub fn study() -> StudyFacts {
    let part = StudyPart {
        name: "Toe".to_owned(),
        reference: Some("10 mm".to_owned()),
        uncertainty: Some("0.002 mm".to_owned()),
        ..StudyPart::default()
    };
    let person = |name: &str| StudyPerson {
        id: 0,
        name: name.to_owned(),
    };
    let place = Place {
        part: 1,
        person: 2,
        trial: 2,
    };
    StudyFacts {
        name: "Spring".to_owned(),
        instrument: "caliper".to_owned(),
        day: day(),
        unit: Unit::Millimetre,
        parts: vec![part, StudyPart::default()],
        people: vec![person("Ada Smith"), person("B")],
        trials: 2,
        readings: [(place, "10.02".to_owned())].into(),
        note: "cold".to_owned(),
    }
}

pub fn begin_study() -> Command {
    let facts = Box::new(study());
    Command::BeginStudy { facts }
}

/// Types a reading into the first cell.
pub fn type_reading(study: &Study, text: &str) -> Command {
    let before = Box::new(study.facts.clone());
    let mut after = before.clone();
    let place = before.places().next().unwrap();
    after.readings.insert(place, text.to_owned());
    Command::SetStudy {
        study: study.id,
        before,
        after,
    }
}

/// The first bytes of a JPEG and one that tells it apart: nothing here looks into pictures.
pub fn jpeg(which: u8) -> Vec<u8> {
    vec![0xff, 0xd8, 0xff, 0xe0, which]
}

/// Digest and bytes.
pub fn picture(bytes: &[u8]) -> (String, PictureBytes) {
    (sha256_hex(bytes), bytes.into())
}

pub fn keep(bytes: &[u8]) -> Command {
    Command::KeepPicture {
        bytes: bytes.into(),
    }
}

/// One with a note and one without.
pub fn photos() -> Vec<Photo> {
    let photo = |which, note: &str| Photo {
        picture: sha256_hex(&jpeg(which)),
        note: note.to_owned(),
    };
    vec![photo(1, "ground side, the bar"), photo(2, "")]
}

/// The whole of a ledger as a file has it.
pub fn bundle(ledger: &Ledger) -> Bundle {
    Bundle::of(ledger, Vec::new(), "bench tablet", now())
}

/// [`full_ledger`] and a text that nobody can read.
pub fn full_bundle() -> Bundle {
    let raw = RawRecord {
        key: "learner/1".to_owned(),
        text: "{\"kind\":\"learner\", \"na".to_owned(),
    };
    let bundle = Bundle::of(&full_ledger(), vec![raw], "bench tablet", now());
    bundle.with_pictures([picture(&jpeg(1))])
}
