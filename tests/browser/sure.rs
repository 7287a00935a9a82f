//! How sure a marking is: worked out by the worker beside the page, which never stands still.

use std::fmt::Write as _;
use std::time::Duration;

use evenshod::command::{Command, Edit, RubricText, StartPiece, Who, apply};
use evenshod::marking::ReadingFact;
use evenshod::quantity::Unit;
use evenshod::records::{
    Bundle, Day, Device, Ledger, Moment, Role, SittingKind, Stamp, sha256_hex,
};
use evenshod::rubric::read_rubric;
use serde_json::json;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::keyboard::mark_whole_shoe;
use crate::steps::{MAKER, enter, start_piece};

/// So many series, whose greatest distance from the mean has to be drawn for each, keep the
/// worker busy for many seconds; how many it takes is the rubric's affair, not the page's.
const LONG: usize = 240;

#[test]
fn the_worker_answers_and_coming_back_shows_it_at_once() {
    in_browser(|page| async move {
        let sheet = start_piece(&page).await;
        mark_whole_shoe(&page).await;
        page.go(&format!("{sheet}/sheet")).await;
        page.click_words("main a", "How sure").await;
        page.wait_text(".paper", "covers measuring only").await;
        page.wait_text(".paper table", "That or more").await;
        assert!(page.path().await.ends_with("/sure"));
        assert!(page.shows(".paper svg .chance").await);
        page.run(NOTE_BUSY, vec![]).await;
        page.click_words("main a", "See the scored sheet").await;
        page.wait_text(".paper", "Scored sheet").await;
        page.click_words("main a", "How sure").await;
        page.wait_text(".paper", "covers measuring only").await;
        assert_eq!(page.value("window.wasBusy").await, json!(false));
        // What is typed since is asked for anew.
        page.go(&sheet).await;
        enter(&page, "width", "120").await;
        page.go(&format!("{sheet}/sure")).await;
        page.wait_text(".paper", "covers measuring only").await;
        page.wait_text(".paper", "120").await;
    });
}

#[test]
fn a_long_job_holds_nothing_up_and_can_be_stopped() {
    in_browser(|page| async move {
        let long = long_ledger();
        take_over(&page, &long).await;
        page.click(".nav a[href='/']").await;
        page.click_words(".pieces a", MAKER).await;
        page.wait_for(".sheet .row").await;
        let sheet = page.path().await;
        page.go(&format!("{sheet}/sheet")).await;
        page.click_words("main a", "How sure").await;
        page.wait_text("main [role=status]", "Working out").await;
        let before = page_seconds(&page).await;
        tokio::time::sleep(Duration::from_millis(1500)).await;
        let took = page_seconds(&page).await - before;
        page.wait_text("main [role=status]", "Working out").await;
        assert!(took < 0.1, "the page itself worked for {took} s");
        // A click elsewhere answers, and the work goes on meanwhile.
        page.click(".nav a[href='/help']").await;
        page.wait_text("h1", "Help").await;
        page.back().await;
        page.wait_text("main [role=status]", "Working out").await;
        page.click_words("main button", "Stop").await;
        page.wait_text("main", "Stopped before it was worked out")
            .await;
        page.click_words("main button", "Work it out").await;
        page.wait_text("main [role=status]", "Working out").await;
        page.click_words("main button", "Stop").await;
        page.wait_text("main", "Stopped before it was worked out")
            .await;
        // The next job has a worker of its own. The rubric used last is offered first.
        let sheet = start_piece(&page).await;
        enter(&page, "c0", "100.4").await;
        page.go(&format!("{sheet}/sure")).await;
        page.wait_text(".paper", "covers measuring only").await;
    });
}

#[test]
fn a_worker_that_does_not_come_is_told_of_and_can_be_tried_again() {
    in_browser(|page| async move {
        let sheet = start_piece(&page).await;
        enter(&page, "width", "130").await;
        page.go(&format!("{sheet}/sheet")).await;
        no_worker(&page).await;
        page.wait_text("main [role=alert]", "marks and award stand")
            .await;
        right_worker(&page).await;
        page.click_words("main button", "Try again").await;
        page.wait_text(".paper", "covers measuring only").await;
    });
}

/// From a scored sheet to how sure it is, with a worker whose file does not come: the page
/// is loaded anew, as the sheet has asked the worker already.
pub(crate) async fn no_worker(page: &Page) {
    page.before_each_page(
        "const Right = Worker;
        window.Worker = function (address, options) {
            return new Right(sessionStorage.getItem('worker') ?? address, options);
        };",
    )
    .await;
    page.run("sessionStorage.setItem('worker', '/missing.js')", vec![])
        .await;
    page.reload().await;
    page.click_words("main a", "How sure").await;
    page.wait_text("main [role=alert]", "did not start").await;
}

/// From there to a worker that never says a word: the page's own file, which does nothing
/// by itself.
pub(crate) async fn deaf_worker(page: &Page) {
    let rename = "const { dataset } = document.querySelector('script[data-worker]');
        sessionStorage.setItem('worker', dataset.js);";
    page.run(rename, vec![]).await;
    page.click_words("main button", "Try again").await;
    page.wait_text("main [role=status]", "Getting ready").await;
}

/// From there back to the right one, which starts with the next ask.
pub(crate) async fn right_worker(page: &Page) {
    page.run("sessionStorage.removeItem('worker')", vec![])
        .await;
}

/// Notes whether the page is ever busy from now on.
const NOTE_BUSY: &str = "window.wasBusy = false;
    new MutationObserver(() => {
        if (document.querySelector('main progress')) window.wasBusy = true;
    }).observe(document.body, { childList: true, subtree: true });";

/// How long the page's own thread has worked so far, in seconds of processor time, which
/// other programs on a busy machine do not lengthen. No task can have been longer.
async fn page_seconds(page: &Page) -> f64 {
    page.cdp("Performance.enable", json!({ "timeDomain": "threadTicks" }))
        .await;
    let found = page.cdp("Performance.getMetrics", json!({})).await;
    let metrics = found["metrics"].as_array().unwrap();
    let tasks = metrics.iter().find(|one| one["name"] == "TaskDuration");
    tasks.unwrap()["value"].as_f64().unwrap()
}

async fn take_over(page: &Page, ledger: &Ledger) {
    let bundle = Bundle::of(ledger, Vec::new(), "bench", at());
    let text = bundle.write().unwrap();
    page.go("/ledger").await;
    page.choose_file("#ledger-file", "long.json", text.as_bytes())
        .await;
    page.click("#take-over").await;
    page.wait_text("#ledger-says", "Taken over and stored")
        .await;
}

fn at() -> Moment {
    Moment::new(1_795_603_320_000, 0)
}

/// One piece whose marking takes long to weigh.
fn long_ledger() -> Ledger {
    let text = long_rubric();
    let checked = read_rubric(&text);
    let faults: Vec<String> = checked.errors().map(ToString::to_string).collect();
    let rubric = checked.rubric.unwrap_or_else(|| panic!("{faults:?}"));
    let start = StartPiece {
        who: Who::Name(MAKER.to_owned()),
        rubric: RubricText {
            digest: sha256_hex(text.as_bytes()),
            rubric_id: rubric.id,
            version: rubric.version,
            title: rubric.title,
            text,
        },
        sitting: SittingKind::Practice,
        day: Day::new(2026, 11, 25).unwrap(),
        examiner: "Wm. Green".to_owned(),
        unit: Unit::Millimetre,
        role: Role::First,
        own: None,
        second: None,
        at: at(),
    };
    let device = Device::new("bench", [7; 8]);
    let stamp = |second: u64| Stamp::first(1_795_603_320_000 + 1_000 * second, device.clone());
    let start = Command::StartPiece(Box::new(start));
    let change = apply(&Ledger::default(), start, &stamp(0)).unwrap();
    let marking = change.made.marking.unwrap();
    let mut ledger = Ledger::default().with(&change);
    for (second, criterion) in (1..).zip(0..LONG) {
        let edit = Edit::SetReadings {
            entry: format!("s{criterion}"),
            readings: ["100", "103", "97", "100"].map(ReadingFact::of).to_vec(),
        };
        let change = apply(&ledger, Command::edit(marking, edit), &stamp(second)).unwrap();
        ledger = ledger.with(&change);
    }
    ledger
}

fn long_rubric() -> String {
    let mut text = r#"
schema = 1
id = "long"
version = "1"
title = "A long sheet"
[piece]
kind = "open-heeled"
stock = { width = "20 mm", thickness = "10 mm" }
finished = { width = "120 mm", length = "130 mm" }
heels = { gap = "50 mm" }
[award]
pass = "65 %"
"#
    .to_owned();
    text.push_str(
        r#"[[instruments]]
id = "caliper"
name = "Caliper"
standard_uncertainty = "0.3 mm"
[[sections]]
id = "all"
name = "All"
[[sections.criteria]]
id = "c0"
name = "Criterion"
kind = "toleranced"
target = "100 mm"
instrument = "caliper"
bands = [{ within = "0.5 mm", marks = 2 }, { within = "1 mm", marks = 1 }]
"#,
    );
    for series in 0..LONG {
        write!(
            text,
            "[[sections.criteria]]\nid = \"s{series}\"\nname = \"Series {series}\"\n\
             kind = \"spread\"\nspread = \"farthest from mean\"\ncount = 4\n\
             instrument = \"caliper\"\nbands = [{{ at_most = \"3 mm\", marks = 1 }}]\n"
        )
        .unwrap();
    }
    text
}
