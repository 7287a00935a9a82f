//! Tallies that the heat log fills.

use evenshod::marking::heat_log::{HeatLog, What};
use evenshod::marking::{Facts, mark};
use evenshod::rubric::{Kind, Rubric, TallyOf, read_rubric, shipped};
use serde_json::json;

use super::super::{check, facts, rubric, told};
use super::{at, log, out, weld};

fn bar_shoe() -> Rubric {
    let mut shipped = shipped().iter();
    let shoe = shipped.find(|one| one.id == "straight-bar-shoe").unwrap();
    read_rubric(shoe.text).rubric.unwrap()
}

/// Ten heats of 5 min, two of them welds, and a finish 130.5 s after the last.
fn made() -> HeatLog {
    let heats = (0..10_u32).flat_map(|heat| {
        let out = if heat == 3 || heat == 5 {
            weld()
        } else {
            out()
        };
        [at(heat * 300, What::Fire), at(heat * 300 + 170, out)]
    });
    let start = [at(0, What::Start)].into_iter();
    let mut log = log(start.chain(heats).chain([at(3000, What::Finished)]));
    let last = log.taps.last_mut().unwrap();
    last.run.as_mut().unwrap().ms += 500;
    log
}

fn with_log(heat_log: HeatLog) -> Facts {
    Facts {
        heat_log,
        ..Facts::default()
    }
}

#[test]
fn a_rubric_says_what_it_takes_from_a_log() {
    let rubric = bar_shoe();
    let taken = |id: &str| {
        let mut entries = rubric.entries().into_iter();
        let entry = entries.find(|entry| entry.id == id).unwrap();
        match &entry.criterion.kind {
            Kind::Tally(tally) => tally.counts,
            _ => None,
        }
    };
    assert_eq!(taken("heats"), Some(TallyOf::Heats));
    assert_eq!(taken("weld-heats"), Some(TallyOf::WeldHeats));
    assert_eq!(taken("time"), Some(TallyOf::Time));
}

#[test]
fn a_log_alone_gives_the_marks_that_typed_tallies_give() {
    let rubric = bar_shoe();
    let logged = with_log(made());
    let typed = facts(r#"{"tallies": {"heats": 10, "weld-heats": 2, "time": "50 min"}}"#);
    let (logged, typed) = (mark(&rubric, &logged), mark(&rubric, &typed));
    assert_eq!(logged.marks, typed.marks);
    assert!(logged.marks > evenshod::quantity::Marks::ZERO);
    for (own, other) in logged.criteria.iter().zip(&typed.criteria) {
        assert_eq!((&own.id, own.marks), (&other.id, other.marks));
    }
    let reason = |id: &str| {
        let mut criteria = logged.criteria.iter();
        criteria.find(|one| one.id == id).unwrap().reason.clone()
    };
    assert_eq!(
        reason("heats"),
        "10 counted in the heat log, 9 allowed, 1 over, 0.5 off for each 1 started: 1.5 of 2"
    );
    assert!(reason("time").starts_with("50 min by the clock of the heat log, "));
    assert!(logged.problems.is_empty(), "{}", told(&logged));
}

fn by_count() -> Rubric {
    rubric(
        r#"
award = { pass = "65 %" }
heats = [{ part = "toe", count = 3 }]
time = { limit = "10 min", after = "mark as it stands" }
[[sections]]
id = "work"
name = "Work"
[[sections.criteria]]
id = "heats"
name = "Heats"
kind = "tally"
marks = 5
allowance = 3
counts = "heats"
[[sections.criteria]]
id = "time"
name = "Time"
kind = "tally"
marks = 5
time_rule = true
"#,
    )
}

/// Start, so many heats a minute apart, finish a minute after the last.
fn short(heats: u32) -> serde_json::Value {
    let heats = (1..=heats).map(|heat| at(heat * 60, What::Heat { weld: false }));
    let taps = [at(0, What::Start)].into_iter().chain(heats);
    json!(log(taps))["taps"].clone()
}

#[test]
fn what_is_typed_comes_first() {
    let taps = short(2);
    check(
        &by_count(),
        &json!({"tallies": {"heats": "4"}, "heat_log": {"taps": taps}}).to_string(),
        "heats [valued] 4, 3 allowed, 1 over: 0 of 5
         time [missing] nothing counted yet
         0 of 10: incomplete",
    );
}

#[test]
fn entered_afterwards_counts_where_taps_do_not_tell() {
    check(
        &by_count(),
        &json!({
            "pauses": [{"duration": "1 min", "reason": "gas"}],
            "heat_log": {"taps": short(2), "afterwards": {
                "heats": {"": "1", "toe-bend": "9"}, "time": "9 min 30 s"
            }}
        })
        .to_string(),
        "heats [valued] 2 counted in the heat log, 3 allowed: 5 of 5
         time [valued] 8 min 30 s without pauses of 1 min, entered afterwards, 10 min allowed: 5 of 5
         10 of 10: pass
         ! toe-bend: the rubric has no making step `toe-bend`, which the heat log names; use an \
         id of the rubric",
    );
    check(
        &by_count(),
        r#"{"heat_log": {"afterwards": {"heats": {"": "2 ", "x": "two"}}}}"#,
        "heats [missing] `two` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2
         time [missing] nothing counted yet
         0 of 10: incomplete
         ! x: the rubric has no making step `x`, which the heat log names; use an id of the rubric
         ! heats: `two` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
    );
}

#[test]
fn what_nobody_watched_is_not_counted() {
    let mut taps = short(2);
    let more = at(300, What::NotWatched);
    taps.as_array_mut().unwrap().push(json!(more));
    check(
        &by_count(),
        &json!({"heat_log": {"taps": taps}}).to_string(),
        "heats [missing] not counted: 2 or more, and not all were watched
         time [missing] nothing counted yet
         0 of 10: incomplete",
    );
}

#[test]
fn unknown_steps_and_faults_of_taps_are_told() {
    let fault = |entry: &str, fault: &str| What::Fault {
        entry: entry.to_owned(),
        fault: fault.to_owned(),
    };
    let taps = [
        at(0, super::step("forging")),
        at(1, fault("heats", "slow")),
        at(2, fault("elsewhere", "slow")),
    ];
    let marked = mark(&by_count(), &with_log(log(taps)));
    let problems: Vec<&str> = marked.problems.iter().map(|one| one.id.as_str()).collect();
    assert_eq!(problems, ["forging", "elsewhere", "heats"]);
}

#[test]
fn counts_that_do_not_fit_are_refused() {
    let with = |rest: &str| {
        let text = shipped()
            .iter()
            .find(|one| one.id == "straight-bar-shoe")
            .unwrap()
            .text
            .replacen("allowance = \"planned heats\"", rest, 1);
        let checked = read_rubric(&text);
        let faults: Vec<String> = checked.errors().map(ToString::to_string).collect();
        faults.join("\n")
    };
    assert_eq!(with("allowance = 9\ncounts = \"heats\""), "");
    let wrong = with("allowance = 9\ncounts = \"time\"");
    assert!(wrong.contains("let it go with measures"), "{wrong}");
    let unknown = with("allowance = 9\ncounts = \"blows\"");
    assert!(unknown.contains("\"weld heats\""), "{unknown}");
}

#[test]
fn a_log_of_two_shoes_fills_no_tally_of_one() {
    let rubric = by_count();
    let entries = rubric.entries();
    let Kind::Tally(tally) = &entries[0].criterion.kind else {
        panic!("heats are a tally");
    };
    let facts = with_log(made());
    assert_eq!(facts.tally(tally, "heats").as_deref(), Some("10"));
    assert_eq!(facts.tally(tally, "near.heats"), None);
}
