//! A ledger in which two examiners mark a piece, for tests of several rooms.

use evenshod::command::{Agree, Command, Edit, MarkAgain, RubricText, StartPiece};
use evenshod::marking::{Settled, Settlement};
use evenshod::records::{Ledger, MarkingId, PieceId, Role, Unit, sha256_hex};
use evenshod::rubric::{Rubric, read_rubric};

use super::sample::{after, level, named, now, seal, stamp, start_piece};

/// Two criteria by eye of 10 marks for two examiners; `moderation` is the table's inside.
pub fn text(moderation: &str) -> String {
    format!(
        r#"
schema = 1
id = "by-two"
version = "1"
title = "Shoe for two examiners"
examiners = 2
award = {{ pass = "60 %" }}
moderation = {{ {moderation} }}
[piece]
kind = "open-heeled"
stock = {{ width = "3/4 in", thickness = "3/8 in" }}
finished = {{ width = "120 mm", length = "130 mm" }}
heels = {{ gap = "60 mm" }}
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "outline"
name = "Outline"
kind = "judged"
numbers = {{ least = 0, most = 10 }}
[[sections.criteria]]
id = "finish"
name = "Finish"
kind = "judged"
numbers = {{ least = 0, most = 10 }}
"#
    )
}

/// The rubric of [`text`].
pub fn rubric(moderation: &str) -> Rubric {
    read_rubric(&text(moderation)).rubric.unwrap()
}

/// A ledger and what is in it.
#[derive(Debug, Clone)]
pub struct Two {
    pub ledger: Ledger,
    pub piece: PieceId,
    pub first: MarkingId,
    pub second: MarkingId,
    seconds: u64,
}

impl Two {
    /// Wm. Green and Jo Reed, begun at once; each has given these marks for outline and
    /// finish.
    pub fn begun(moderation: &str, one: [&str; 2], other: [&str; 2]) -> Self {
        let text = text(moderation);
        let what = StartPiece {
            rubric: RubricText {
                digest: sha256_hex(text.as_bytes()),
                rubric_id: "by-two".to_owned(),
                version: "1".to_owned(),
                title: "Shoe for two examiners".to_owned(),
                text,
            },
            second: Some("Jo Reed".to_owned()),
            ..start_piece(named("Ada Smith"))
        };
        let start = Command::StartPiece(Box::new(what));
        let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
        let piece = made.piece.unwrap();
        let mut all = ledger.markings_of(piece);
        let second = all.find(|marking| marking.role == Role::Second).unwrap().id;
        let first = made.marking.unwrap();
        let mut two = Self {
            ledger: ledger.clone(),
            piece,
            first,
            second,
            seconds: 0,
        };
        for (marking, [outline, finish]) in [(first, one), (second, other)] {
            two.give(marking, outline, finish);
        }
        two
    }

    /// As [`Two::begun`], both sealed.
    pub fn sealed(moderation: &str, one: [&str; 2], other: [&str; 2]) -> Self {
        let mut two = Self::begun(moderation, one, other);
        two.perform(seal(two.first));
        two.perform(seal(two.second));
        two
    }

    /// Carries a command out; gives the marking that it made.
    #[track_caller]
    pub fn perform(&mut self, command: Command) -> Option<MarkingId> {
        self.seconds += 1;
        let (ledger, made) = after(&self.ledger, command, &stamp(self.seconds));
        self.ledger = ledger;
        made.marking
    }

    pub fn give(&mut self, marking: MarkingId, outline: &str, finish: &str) {
        self.perform(level(marking, "outline", outline));
        self.perform(level(marking, "finish", finish));
    }

    /// One more piece of the sitting, which Wm. Green alone marks and seals.
    pub fn another(&mut self, outline: &str, finish: &str) {
        let version = self.ledger.piece(self.piece).unwrap().rubric.clone();
        let version = self.ledger.rubric(&version).unwrap().clone();
        let what = StartPiece {
            rubric: RubricText {
                digest: version.digest,
                rubric_id: version.rubric_id,
                version: version.version,
                title: version.title,
                text: version.text,
            },
            ..start_piece(named("Ada Smith"))
        };
        let marking = self.perform(Command::StartPiece(Box::new(what))).unwrap();
        self.give(marking, outline, finish);
        self.perform(seal(marking));
    }

    /// The draft of the agreed marking.
    #[track_caller]
    pub fn agree(&mut self) -> MarkingId {
        self.perform(agree(self.piece)).unwrap()
    }
}

pub fn agree(piece: PieceId) -> Command {
    Command::Agree(Box::new(Agree {
        piece,
        examiner: "Wm. Green".to_owned(),
        at: now(),
    }))
}

pub fn again(piece: PieceId, role: Role, examiner: &str) -> Command {
    Command::MarkAgain(Box::new(MarkAgain {
        piece,
        examiner: examiner.to_owned(),
        rubric: None,
        unit: Unit::Millimetre,
        role,
        at: now(),
    }))
}

/// Settles an entry.
pub fn settle(agreed: MarkingId, entry: &str, by: Settlement<MarkingId>, why: &str) -> Command {
    let reason = why.to_owned();
    Command::edit(
        agreed,
        Edit::Settle {
            entry: entry.to_owned(),
            settled: Some(Settled { by, reason }),
        },
    )
}
