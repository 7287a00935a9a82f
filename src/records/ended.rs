use super::ledger::Ledger;
use super::piece::{Ended, Piece};
use crate::marking::heat_log::{HeatLog, Progress, timeline};
use crate::quantity::Moment;

impl Ended {
    /// How making ended by what was tapped; `None` while it goes on.
    pub fn by_log(log: &HeatLog) -> Option<Self> {
        // How it ended does not hang on the plan.
        match timeline(log, &[]).state {
            Progress::Finished => Some(Self::Finished),
            Progress::Stopped(how) => Some(how.into()),
            _ => None,
        }
    }
}

impl Ledger {
    /// How the making of a piece ended: as it was said, or else by the heat logs of its drafts.
    ///
    /// Of several logs the one that was tapped last counts. What is said by a log goes when the tap
    /// is taken back, and stands once a marking is sealed, which says it for the piece.
    pub fn ended(&self, piece: &Piece) -> Option<Ended> {
        piece.ended.or_else(|| self.ended_by_logs(piece))
    }

    fn ended_by_logs(&self, piece: &Piece) -> Option<Ended> {
        let is_fixed = self
            .markings_of(piece.id)
            .any(|marking| marking.seal.is_some());
        let logs = self.markings_of(piece.id);
        let logs = logs.map(|marking| &marking.facts.heat_log);
        let ends = logs.filter_map(|log| Some((last_tap(log), Ended::by_log(log)?)));
        let last = ends.max_by_key(|(at, _)| *at);
        last.filter(|_| !is_fixed).map(|(_, ended)| ended)
    }
}

fn last_tap(log: &HeatLog) -> Option<i64> {
    let moments = log.taps.iter().map(|tap| tap.at);
    moments.map(Moment::utc_ms).max()
}
