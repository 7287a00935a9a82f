//! A small ledger that tests of several rooms begin from.

use evenshod::command::{Command, Edit, Made, RubricText, StartPiece, Who, apply};
use evenshod::marking::{ReadingFact, State, StateFact};
use evenshod::records::{
    Day, Device, Ledger, MarkingId, Moment, Role, SittingKind, Stamp, Unit, sha256_hex,
};

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
        at: now(),
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
