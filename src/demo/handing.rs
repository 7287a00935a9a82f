//! Marks that are released, and explained to learners, before the forge opens again.

use crate::command::Command;
use crate::records::{Ledger, Moment, Role};

/// How long one release or one talk about marks takes, in milliseconds.
const EACH: i64 = 600_000;
/// How long before the forge opens again all of that is to begin, in milliseconds.
pub(super) const HANDING_OVER: i64 = 12 * 3_600_000;

/// What releases every mock and exam that waits in `ledger` and notes the feedback on its
/// pieces, each with its time in milliseconds since 1970 UTC, later than `since`. By the
/// first examiner of its first piece.
///
/// Whatever is made last stays held, as nobody comes back to the forge after it.
pub(super) fn handed_over(ledger: &Ledger, since: i64) -> Vec<(i64, Command)> {
    let mut done = Vec::new();
    let mut clock = since;
    let mut tick = || {
        clock = clock.saturating_add(EACH);
        (clock, Moment::new(clock, 0))
    };
    for sitting in ledger.sittings().filter(|sitting| sitting.is_held()) {
        let sitting = sitting.id;
        let pieces = ledger.pieces().filter(|piece| piece.sitting == sitting);
        let pieces: Vec<_> = pieces.map(|piece| piece.id).collect();
        let mut markings = pieces.iter().flat_map(|piece| ledger.markings_of(*piece));
        let Some(first) = markings.find(|marking| marking.role == Role::First) else {
            continue;
        };
        let by = first.examiner;
        let (ms, at) = tick();
        done.push((ms, Command::Release { sitting, by, at }));
        for piece in pieces {
            let (ms, at) = tick();
            done.push((ms, Command::GiveFeedback { piece, by, at }));
        }
    }
    done
}
