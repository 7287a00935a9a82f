//! Small ledgers of pieces that several examiners marked.

use evenshod::command::{Command, RubricText, StartPiece};
use evenshod::moderation::{Agreement, Gathered, agreement};
use evenshod::records::{Ledger, MarkingId, PieceId, Role, Span, sha256_hex};
use evenshod::rubric::{Rubric, read_rubric};

use crate::records::sample::{after, level, named, seal, stamp, start_piece};
use crate::records::two::again;
use crate::sheet::sample::readings;

/// Forty marks: a width of 10 mm, an outline by number, finish and weld by levels.
pub const TEXT: &str = r#"
schema = 1
id = "alike"
version = "1"
title = "Shoe for several examiners"
award = { pass = "60 %" }
[piece]
kind = "open-heeled"
stock = { width = "3/4 in", thickness = "3/8 in" }
finished = { width = "120 mm", length = "130 mm" }
heels = { gap = "60 mm" }
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "width"
name = "Width"
kind = "toleranced"
target = "10 mm"
bands = [{ within = "0.5 mm", marks = 10 }, { within = "1 mm", marks = 5 }]
[[sections.criteria]]
id = "outline"
name = "Outline"
kind = "judged"
numbers = { least = 0, most = 10 }
[[sections.criteria]]
id = "finish"
name = "Finish"
kind = "judged"
levels = [
  { id = "good", name = "Good", text = "No marks", marks = 10 },
  { id = "fair", name = "Fair", text = "Few marks", marks = 6 },
  { id = "poor", name = "Poor", text = "Many marks", marks = 2 },
]
[[sections.criteria]]
id = "weld"
name = "Weld"
kind = "judged"
levels = [
  { id = "good", name = "Good", text = "Closed", marks = 10 },
  { id = "fair", name = "Fair", text = "A line", marks = 6 },
  { id = "poor", name = "Poor", text = "Open", marks = 2 },
]
"#;

/// What an examiner gives: width, outline, finish, weld.
pub type Given = [&'static str; 4];

pub const GREEN: &str = "Wm. Green";
pub const REED: &str = "Jo Reed";
pub const STONE: &str = "Al Stone";
const ROLES: [Role; 3] = [Role::First, Role::Second, Role::Third];

pub fn rubric() -> Rubric {
    let checked = read_rubric(TEXT);
    let errors: Vec<_> = checked.errors().map(ToString::to_string).collect();
    assert!(errors.is_empty(), "{}", errors.join("\n"));
    checked.rubric.unwrap()
}

pub fn digest() -> String {
    sha256_hex(TEXT.as_bytes())
}

/// A ledger that grows by commands.
#[derive(Debug, Clone, Default)]
pub struct School {
    pub ledger: Ledger,
    pub pieces: Vec<PieceId>,
    seconds: u64,
}

impl School {
    /// Each piece as its examiners have it, by their names.
    pub fn of(pieces: &[&[(&str, Given)]]) -> Self {
        let mut school = Self::default();
        for piece in pieces {
            school.marked(piece);
        }
        school
    }

    #[track_caller]
    pub fn perform(&mut self, command: Command) -> Option<MarkingId> {
        self.seconds += 1;
        let (ledger, made) = after(&self.ledger, command, &stamp(self.seconds));
        self.ledger = ledger;
        if let Some(piece) = made.piece
            && self.pieces.last() != Some(&piece)
        {
            self.pieces.push(piece);
        }
        made.marking
    }

    /// One more piece, marked by these in turn.
    pub fn marked(&mut self, by: &[(&str, Given)]) {
        for (role, (examiner, given)) in ROLES.into_iter().zip(by) {
            let marking = self.begun(role, examiner);
            self.give(marking, *given);
            self.perform(seal(marking));
        }
    }

    /// A marking that is open: the first is of a piece of its own.
    pub fn begun(&mut self, role: Role, examiner: &str) -> MarkingId {
        let command = if role == Role::First {
            Command::StartPiece(Box::new(StartPiece {
                rubric: RubricText {
                    digest: digest(),
                    rubric_id: "alike".to_owned(),
                    version: "1".to_owned(),
                    title: "Shoe for several examiners".to_owned(),
                    text: TEXT.to_owned(),
                },
                examiner: examiner.to_owned(),
                ..start_piece(named("Ada Smith"))
            }))
        } else {
            again(*self.pieces.last().unwrap(), role, examiner)
        };
        self.perform(command).unwrap()
    }

    /// A width of several readings has a semicolon between them.
    pub fn give(&mut self, marking: MarkingId, [width, outline, finish, weld]: Given) {
        let widths: Vec<&str> = width.split(';').collect();
        self.perform(Command::edit(marking, readings("width", &widths)));
        for (entry, given) in [("outline", outline), ("finish", finish), ("weld", weld)] {
            self.perform(level(marking, entry, given));
        }
    }
}

/// Something of what was gathered, and all its figures.
pub fn figures_of<T>(ledger: &Ledger, see: impl FnOnce(&Gathered<'_>, &Agreement) -> T) -> T {
    let rubric = rubric();
    let gathered = Gathered::of(ledger, &rubric, &digest(), Span::default());
    let agreement = agreement(&gathered, &mut |_| ());
    see(&gathered, &agreement)
}

/// Five pieces that two examiners marked:
/// totals 32, 26, 18, 40, 26 of 40 and 26, 26, 17, 39, 18.
pub const FIVE: [[Given; 2]; 5] = [
    [["10.0", "6", "good", "fair"], ["10.2", "4", "fair", "fair"]],
    [["10.6", "9", "fair", "fair"], ["10.8", "9", "fair", "fair"]],
    [
        ["11.2", "10", "fair", "poor"],
        ["11.2", "9", "fair", "poor"],
    ],
    [
        ["10.4", "10", "good", "good"],
        ["10.3", "9", "good", "good"],
    ],
    [["9.5", "8", "fair", "poor"], ["9.2", "5", "fair", "poor"]],
];

pub fn five() -> School {
    let mut school = School::default();
    for [one, other] in FIVE {
        school.marked(&[(GREEN, one), (REED, other)]);
    }
    school
}
