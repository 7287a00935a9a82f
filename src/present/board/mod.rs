//! The sitting board: one tile for each piece of a sitting that an examiner watches.

mod warnings;
mod words;

use super::heat_log::{FaultTile, fault_tiles, state_words};
use super::makers::{maker_name, name_known};
use super::scores::Rubrics;
use super::sittings::{pieces_in_order, title};
use crate::marking::heat_log::{Progress, Run, What, may, timeline_at};
use crate::records::{Ledger, Marking, MarkingId, Moment, Piece, PieceId, Role, SittingId};
use crate::rubric::Rubric;
use warnings::last_warning;
use words::{clock_words, heat_words, warning_words};

/// A sitting that is watched.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Board {
    /// Kind, name and day of the sitting.
    pub title: String,
    /// Its open first markings by ticket and name.
    pub tiles: Vec<BoardTile>,
}

impl Board {
    /// The markings whose clock a common start starts.
    pub fn not_started(&self) -> impl Iterator<Item = MarkingId> {
        let tiles = self.tiles.iter().filter(|tile| tile.may_start);
        tiles.map(|tile| tile.marking)
    }
}

/// One piece that is watched.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BoardTile {
    /// Its piece.
    pub piece: PieceId,
    /// The examiner's open marking.
    pub marking: MarkingId,
    /// Ticket and name; a hidden name stays hidden.
    pub name: String,
    /// How far making has come, in a word or two.
    pub state: &'static str,
    /// Whether its clock may be started by a common start.
    pub may_start: bool,
    /// `12:34` left, `3:10 over`, or how long it took where no time is set.
    pub clock: String,
    /// What the clock says: `left of 60 min`.
    pub clock_of: String,
    /// Whether the time is over.
    pub is_over: bool,
    /// `7 of 9`, `at least 5` or `not counted`.
    pub heats: String,
    /// The last warning of any kind with its time; empty where there was none.
    pub last: String,
    /// Whether its plan has weld heats.
    pub has_welds: bool,
    /// Safety faults that may be seen while it is made.
    pub faults: Vec<FaultTile>,
    /// Whether a heat may be counted.
    pub may_heat: bool,
    /// Whether a fault, a call or the end may be noted.
    pub may_note: bool,
    /// Whether its clock may stand.
    pub may_pause: bool,
    /// Whether its clock stands.
    pub is_paused: bool,
    /// Place of the last tap, which can be taken back.
    pub last_tap: Option<usize>,
    /// Extra time as typed: how much and why.
    pub extra: (String, String),
}

/// The board of a sitting, with the clocks at `now`; `None` where there is no such sitting.
pub fn board(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: SittingId,
    now: (Moment, Option<Run>),
) -> Option<Board> {
    let sitting = ledger.sitting(id)?;
    let pieces = pieces_in_order(ledger, id).into_iter();
    let tiles = pieces.filter_map(|piece| {
        let mut markings = ledger.markings_of(piece.id);
        let marking = markings.find(|one| one.role == Role::First && one.seal.is_none())?;
        let rubric = rubrics.get(ledger.rubric(&marking.rubric)?)?;
        Some(tile(ledger, &rubric, (piece, marking), now))
    });
    Some(Board {
        title: title(sitting),
        tiles: tiles.collect(),
    })
}

fn tile(
    ledger: &Ledger,
    rubric: &Rubric,
    (piece, marking): (&Piece, &Marking),
    now: (Moment, Option<Run>),
) -> BoardTile {
    let log = &marking.facts.heat_log;
    let parts = log.parts(rubric);
    let line = timeline_at(log, &parts, now);
    let clock = clock_words(rubric, &marking.facts, &line);
    let may = |what: What| may(log, &what);
    let has_started = log.taps.iter().any(|tap| tap.what == What::Start);
    let planned = parts
        .iter()
        .fold(0_u32, |sum, part| sum.saturating_add(part.count));
    let has_welds = parts.iter().any(|part| part.weld && part.count > 0);
    let extra = marking.facts.extra_time.as_ref();
    BoardTile {
        piece: piece.id,
        marking: marking.id,
        name: called(ledger, piece),
        state: match line.state {
            // What was tapped before the common start has no time.
            Progress::AtAnvil | Progress::InFire if !has_started => "not started",
            state => state_words(state),
        },
        may_start: !has_started && may(What::Start),
        clock: clock.figure,
        clock_of: clock.of,
        is_over: clock.is_over,
        heats: heat_words(line.heats, planned),
        last: last_warning(rubric, &marking.facts, &parts, &line)
            .map_or_else(String::new, |(ms, warning)| warning_words(&warning, ms)),
        has_welds,
        faults: fault_tiles(rubric, &marking.facts),
        may_heat: may(What::Heat { weld: false }),
        may_note: may(What::Called),
        may_pause: has_started
            && may(What::Pause {
                reason: String::new(),
            }),
        is_paused: line.state == Progress::Paused,
        last_tap: log.taps.len().checked_sub(1),
        extra: extra.map_or_else(Default::default, |extra| {
            (extra.duration.clone(), extra.reason.clone())
        }),
    }
}

/// Ticket and name: the number is what hangs at the anvil.
fn called(ledger: &Ledger, piece: &Piece) -> String {
    let name = maker_name(ledger, piece);
    match &piece.ticket {
        Some(ticket) if piece.learner.is_some() && name_known(ledger, piece) => {
            format!("{ticket}, {name}")
        }
        _ => name,
    }
}
