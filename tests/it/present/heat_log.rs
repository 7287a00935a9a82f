use std::collections::BTreeMap;

use evenshod::marking::heat_log::{Afterwards, HeatLog, PlannedPart, Run, Stop, Tap, What};
use evenshod::marking::{Facts, Pause};
use evenshod::present::heat_log::{
    after_form, after_typed, cut_text, cut_typed, cut_wrong, heat_buttons, heat_clock, heat_result,
    heats_wrong, spoken, time_wrong, with_planned,
};
use evenshod::quantity::Unit;
use evenshod::records::Moment;
use evenshod::rubric::{Rubric, read_rubric, shipped};

fn rubric() -> Rubric {
    let mut shipped = shipped().iter();
    let bar = shipped.find(|file| file.text.contains("id = \"straight-bar-shoe\""));
    read_rubric(bar.unwrap().text).rubric.unwrap()
}

fn clocks(seconds: u32) -> (Moment, Option<Run>) {
    let ms = u64::from(seconds) * 1_000;
    let at = Moment::new(1_795_603_320_000 + i64::from(seconds) * 1_000, 0);
    (at, Some(Run { page: 7, ms }))
}

/// Taps, each so many seconds after the page was opened.
fn tapped(taps: &[(u32, What)]) -> Facts {
    let taps = taps.iter().map(|(seconds, what)| {
        let (at, run) = clocks(*seconds);
        let what = what.clone();
        Tap { at, run, what }
    });
    let heat_log = HeatLog {
        taps: taps.collect(),
        ..HeatLog::default()
    };
    Facts {
        heat_log,
        ..Facts::default()
    }
}

fn step(step: &str) -> What {
    What::Step {
        step: step.to_owned(),
    }
}

/// Two heats and a weld, with a pause of two minutes that no clock counts.
fn made() -> Vec<(u32, What)> {
    vec![
        (0, What::Start),
        (10, step("toe-bend")),
        (20, What::Fire),
        (200, What::Anvil { weld: false }),
        (
            260,
            What::Pause {
                reason: "tongs".to_owned(),
            },
        ),
        (380, What::Resume),
        (400, step("weld")),
        (410, What::Fire),
        (590, What::Anvil { weld: true }),
    ]
}

#[test]
fn the_clock_runs_without_pauses_against_the_time_allowed() {
    let facts = tapped(&made());
    // 600 s from the start, 120 of them paused.
    let clock = heat_clock(&rubric(), &facts, clocks(600));
    assert_eq!(clock.time, "8:00");
    assert_eq!(clock.left, "52:00 left of 1:00:00");
    assert_eq!(
        (clock.state.as_str(), clock.since.as_str()),
        ("At the anvil", "0:10")
    );
    // 61 minutes of work are one too many of the sixty.
    let late = heat_clock(&rubric(), &facts, clocks(120 + 61 * 60));
    assert_eq!(late.left, "1:00 over 1:00:00");
    assert!(late.is_over);
    let before = heat_clock(&rubric(), &Facts::default(), clocks(5));
    assert_eq!((before.time.as_str(), before.left.as_str()), ("", ""));
}

#[test]
fn the_large_button_is_what_comes_next() {
    let rubric = rubric();
    let label = |facts: &Facts| -> Vec<&str> {
        heat_buttons(&rubric, facts)
            .big
            .iter()
            .map(|big| big.label)
            .collect()
    };
    assert_eq!(label(&Facts::default()), ["Start the clock"]);
    let mut taps = made();
    assert_eq!(label(&tapped(&taps)), ["Into the fire"]);
    taps.push((600, What::Fire));
    // The plan has two weld heats, and one is made.
    assert_eq!(
        label(&tapped(&taps)),
        ["Out at welding heat", "Out to the anvil"]
    );
    taps.push((
        610,
        What::Pause {
            reason: "fire".to_owned(),
        },
    ));
    assert_eq!(label(&tapped(&taps)), ["Go on"]);
    taps.extend([(620, What::Resume), (630, What::Finished)]);
    assert_eq!(label(&tapped(&taps)), [""; 0]);
}

#[test]
fn planned_and_made_stand_side_by_side() {
    let mut taps = made();
    taps.push((620, What::Finished));
    let result = heat_result(&rubric(), &tapped(&taps), Unit::Millimetre);
    let totals: BTreeMap<&str, String> = result.totals.into_iter().collect();
    assert_eq!(totals["Heats"], "2, 9 planned");
    assert_eq!(totals["Weld heats"], "1, 2 planned");
    // 620 s less the pause.
    assert_eq!(totals["Time"], "8:20");
    assert_eq!(totals["In the fire"], "6:00");
    let table = result.table.unwrap();
    let rows = table.groups[0].rows.iter();
    let rows: Vec<Vec<&str>> = rows
        .map(|row| row.iter().map(|cell| cell.text.as_str()).collect())
        .collect();
    assert!(
        rows.contains(&vec!["Welding", "2", "1", "13:20", "3:40", "0"]),
        "{rows:?}"
    );
    let shared = "the time allowed of 1:00:00, shared out evenly by heats";
    assert!(table.caption.ends_with(shared), "{}", table.caption);
    let (drawing, legend) = result.drawing.unwrap();
    assert!(legend.contains(shared), "{legend}");
    // Two heats of nine come before the two at welding heat.
    let welding = "Welding: 1 of 2 heats, 3:40, planned 13:20 to 26:40";
    assert!(
        drawing.description.contains(welding) && drawing.description.contains(shared),
        "{}",
        drawing.description
    );
    assert!(result.jumps.is_empty());
}

#[test]
fn a_stopped_piece_says_when_and_takes_no_time() {
    let mut taps = made();
    let how = Stop::StoppedForSafety;
    taps.push((
        620,
        What::Stopped {
            how,
            reason: "loose head".to_owned(),
        },
    ));
    let result = heat_result(&rubric(), &tapped(&taps), Unit::Millimetre);
    assert!(
        result
            .totals
            .contains(&("Time", "stopped after 8:20".to_owned()))
    );
    assert!(
        result.taps[0].ends_with("Stopped for safety: loose head"),
        "{:?}",
        result.taps
    );
}

#[test]
fn a_clock_that_was_put_forward_is_told() {
    let mut facts = tapped(&made());
    let last = facts.heat_log.taps.last_mut().unwrap();
    last.at = Moment::new(last.at.utc_ms() + 3_600_000, 0);
    let jumps = heat_result(&rubric(), &facts, Unit::Millimetre).jumps;
    assert_eq!(jumps.len(), 1);
    assert!(jumps[0].contains("put forward"), "{jumps:?}");
}

#[test]
fn what_was_entered_afterwards_is_kept_as_typed() {
    let rubric = rubric();
    let mut form = after_form(&rubric, &Facts::default());
    assert_eq!(after_typed(&form), None);
    form.time = "52 ".to_owned();
    form.heats[0].2 = "2".to_owned();
    let typed = after_typed(&form).unwrap();
    assert_eq!(typed.time.as_deref(), Some("52 "));
    let mut facts = Facts::default();
    facts.heat_log.afterwards = Some(Afterwards { ..typed });
    assert_eq!(after_form(&rubric, &facts), form);
}

#[test]
fn a_plan_changes_for_one_piece_and_back() {
    let rubric = rubric();
    let mut facts = Facts::default();
    let changed = with_planned(&rubric, &facts, 0, "3").unwrap();
    assert_eq!(changed.as_ref().unwrap()[0].count, 3);
    facts.heat_log.plan = changed;
    let back = PlannedPart::of(&rubric)[0].count.to_string();
    assert_eq!(with_planned(&rubric, &facts, 0, &back), Ok(None));
    let wrong = with_planned(&rubric, &facts, 0, "many").unwrap_err();
    assert_eq!(wrong, "`many` cannot be a number of heats; write 0 to 99");
}

#[test]
fn a_time_is_spoken_in_whole_seconds() {
    assert_eq!(spoken(59_999), "0:59");
    assert_eq!(spoken(3_729_000), "1:02:09");
}

#[test]
fn what_was_entered_afterwards_stands_where_nobody_tapped() {
    let mut facts = Facts::default();
    facts.heat_log.afterwards = Some(Afterwards {
        heats: BTreeMap::from([("weld".to_owned(), "2".to_owned())]),
        time: Some("52 min".to_owned()),
        at_the_fire: Some("20 min".to_owned()),
        ..Afterwards::default()
    });
    let result = heat_result(&rubric(), &facts, Unit::Millimetre);
    let totals: BTreeMap<&str, String> = result.totals.into_iter().collect();
    assert_eq!(totals["Heats"], "2 entered afterwards, 9 planned");
    assert_eq!(totals["Weld heats"], "not counted, 2 planned");
    assert_eq!(totals["Time"], "52 min entered afterwards");
    assert_eq!(totals["In the fire"], "20 min entered afterwards");
    let table = result.table.unwrap();
    let mut rows = table.groups[0].rows.iter();
    assert!(rows.any(|row| row[0].text == "Welding" && row[2].text == "2"));
}

#[test]
fn what_cannot_be_counted_is_told_with_what_would_do() {
    assert_eq!(heats_wrong(" "), "");
    assert_eq!(heats_wrong("2"), "");
    assert_eq!(
        heats_wrong("1.5"),
        "`1.5` cannot be counted; write a whole number"
    );
    assert_eq!(time_wrong("1 h 4 min"), "");
    assert_eq!(
        time_wrong("-3"),
        "`-3` is below zero; write how long it was"
    );
    assert_ne!(time_wrong("long"), "");
}

#[test]
fn typed_pauses_come_off_the_clock() {
    let mut facts = tapped(&made());
    facts.pauses.push(Pause {
        duration: "1 min".to_owned(),
        reason: "fire drill".to_owned(),
    });
    assert_eq!(heat_clock(&rubric(), &facts, clocks(600)).time, "7:00");
}

/// 16 in on a sheet in mm stays 16 in as it is told: the unit that it was typed in.
#[test]
fn what_the_bar_was_cut_to_is_told_first() {
    let mut facts = Facts {
        cut: cut_typed("16".to_owned(), Unit::Inch32),
        ..Facts::default()
    };
    let told = |facts: &Facts| heat_result(&rubric(), facts, Unit::Millimetre).totals[0].clone();
    assert_eq!(told(&facts), ("Bar cut to", "16 in".to_owned()));
    assert_eq!(
        (
            cut_text(&facts).as_str(),
            cut_wrong(&rubric(), &facts).as_str()
        ),
        ("16", "")
    );
    facts.cut = cut_typed("16".to_owned(), Unit::Millimetre);
    assert_eq!(told(&facts).1, "“16”, which cannot be used");
    assert!(cut_wrong(&rubric(), &facts).starts_with("A bar for a shoe is cut to 50.0 mm"));
    assert_eq!(cut_typed(" ".to_owned(), Unit::Millimetre), None);
    assert_eq!(told(&Facts::default()).0, "Heats");
}
