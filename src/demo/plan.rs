//! Who makes what on which day, and what becomes of it.

use super::people::{LEARNERS, Profile};
use crate::records::{Day, Moment, SittingKind};

/// Milliseconds of a day.
pub(super) const DAY_MS: i64 = 86_400_000;
/// The first day of the school lies so many days before today, the last one so many.
const FIRST_DAY: i64 = 275;
const LAST_DAY: i64 = 3;
/// How often the forge is open over the nine months.
const SESSIONS: i64 = 38;

/// What becomes of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Course {
    /// Marked and sealed.
    Marked,
    /// Marked and sealed, and once more by a second examiner.
    Twice,
    /// Marked by its maker, then by an examiner.
    OwnFirst,
    /// Marked by its maker alone.
    OwnOnly,
    /// Given up half-way.
    Withdrawn,
    /// Stopped for safety.
    Stopped,
    /// Half entered and not sealed.
    Draft,
}

/// One piece of the plan.
#[derive(Debug, Clone, Copy)]
pub(super) struct Planned {
    /// Number of the learner.
    pub learner: usize,
    /// Which piece of the learner, from 0.
    pub piece: i64,
    /// Which rubric, of the five or fewer.
    pub rubric: usize,
    /// When the forge opens on its day, in milliseconds since 1970 UTC.
    pub opens: i64,
    pub sitting: SittingKind,
    pub course: Course,
}

/// Every piece, as the days come; `rubrics` is how many there are.
pub(super) fn plan(today: Day, rubrics: usize) -> Vec<Planned> {
    let today_ms = ms_of(today);
    let mut planned = Vec::new();
    for (learner, profile) in LEARNERS.iter().enumerate() {
        let mut others = 0;
        for piece in 0..profile.pieces {
            let course = course(learner, profile, piece);
            // Three of five are of the learner's own rubric, so that a trend can show.
            let is_other = piece % 5 == 1 || piece % 5 == 4;
            let aside = if is_other && rubrics > 1 {
                others += 1;
                1 + others % (rubrics - 1)
            } else {
                0
            };
            planned.push(Planned {
                learner,
                piece,
                rubric: (learner + aside) % rubrics.max(1),
                opens: today_ms + opening(learner, profile, piece),
                sitting: sitting(profile, piece, course),
                course,
            });
        }
    }
    planned.sort_by_key(|planned| (planned.opens, planned.learner));
    planned
}

/// Milliseconds from the start of 1970 to the start of `day`, in UTC.
fn ms_of(day: Day) -> i64 {
    let epoch = Moment::new(0, 0).day();
    day.days_since(epoch).saturating_mul(DAY_MS)
}

/// When the forge opens for a learner's piece, from the start of today.
fn opening(learner: usize, profile: &Profile, piece: i64) -> i64 {
    // A learner's pieces are spread over all sessions; not all come on the same day.
    let shift = i64::try_from(learner % 3).unwrap_or(0);
    let session = shift + piece * (SESSIONS - 3) / (profile.pieces - 1).max(1);
    let span = FIRST_DAY - LAST_DAY;
    let day = session * span / (SESSIONS - 1) - FIRST_DAY;
    day * DAY_MS + DAY_MS * 3 / 8
}

fn course(learner: usize, profile: &Profile, piece: i64) -> Course {
    let last = piece == profile.pieces - 1;
    match (learner, piece) {
        (5, 4) => Course::Withdrawn,
        (8, 3) => Course::Stopped,
        (3 | 6 | 10, _) if last => Course::Draft,
        (0 | 5 | 7, _) if last => Course::Twice,
        (9, 3) => Course::OwnFirst,
        (_, 3) if profile.marks_own => Course::OwnOnly,
        (_, 1 | 5) if profile.marks_own => Course::OwnFirst,
        _ if piece == mock(profile) => Course::Twice,
        _ => Course::Marked,
    }
}

/// The piece that is made as in an exam.
fn mock(profile: &Profile) -> i64 {
    profile.pieces * 2 / 3
}

fn sitting(profile: &Profile, piece: i64, course: Course) -> SittingKind {
    match course {
        Course::OwnOnly => SittingKind::SelfCheck,
        Course::Draft => SittingKind::Practice,
        _ if piece == mock(profile) => SittingKind::Mock,
        _ if piece == profile.pieces - 1 => SittingKind::Exam,
        _ => SittingKind::Practice,
    }
}
