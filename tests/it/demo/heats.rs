//! Heat logs of the invented school: they say what is typed, so they change no marks.

use evenshod::marking::heat_log::{HeatLog, Progress, timeline};
use evenshod::marking::mark_in;
use evenshod::records::Marking;
use evenshod::rubric::Kind;

use super::sample::{demo, outcome, rubric_of};

fn with_log(which: impl Fn(&HeatLog) -> bool) -> Vec<&'static Marking> {
    let markings = demo().markings();
    markings.filter(|one| which(&one.facts.heat_log)).collect()
}

#[test]
fn some_pieces_are_tapped_some_entered_afterwards_and_most_are_not_watched() {
    let tapped = with_log(|log| !log.taps.is_empty());
    let entered = with_log(|log| log.afterwards.is_some());
    assert!((12..30).contains(&tapped.len()), "{}", tapped.len());
    assert!((4..12).contains(&entered.len()), "{}", entered.len());
    for marking in tapped {
        let log = &marking.facts.heat_log;
        let line = timeline(log, &log.parts(&rubric_of(demo(), marking)));
        assert!(line.state.has_ended() && line.jumps.is_empty());
        assert!(line.steps.iter().filter(|step| step.heats > 0).count() > 2);
        // Made before it was marked.
        let last = log.taps.last().unwrap().at.utc_ms();
        assert!(last < marking.seal.as_ref().unwrap().at.utc_ms());
    }
}

#[test]
fn a_log_says_what_is_typed_and_changes_no_marks() {
    for marking in with_log(|log| !log.is_empty()) {
        let rubric = rubric_of(demo(), marking);
        let log = &marking.facts.heat_log;
        let state = timeline(log, &[]).state;
        let is_late = matches!(state, Progress::Stopped(_));
        let mut bare = marking.facts.clone();
        for entry in rubric.entries() {
            let Kind::Tally(tally) = &entry.criterion.kind else {
                continue;
            };
            // A piece that was not finished has no time by its log.
            if tally.counts.is_some() && !(tally.is_time && is_late) {
                bare.tallies.remove(&entry.id);
            }
        }
        assert!(bare.tallies.len() < marking.facts.tallies.len());
        let by_log = mark_in(&rubric, &bare, marking.unit);
        let typed = outcome(demo(), marking);
        assert_eq!(by_log.marks, typed.marks, "{}", marking.id);
        assert_eq!(by_log.problems, []);
        // Typed figures stand.
        bare.heat_log = HeatLog::default();
        bare.tallies.clone_from(&marking.facts.tallies);
        assert_eq!(mark_in(&rubric, &bare, marking.unit).marks, typed.marks);
    }
}
