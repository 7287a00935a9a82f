//! How long files and a large cohort take, printed for `scripts/paper-time` and
//! `scripts/cohort-time`; nothing here fails by the clock.

use serde_json::{Value, json};

use crate::documents::{ask, ask_for_largest_sitting};
use crate::harness::in_browser;
use crate::large;
use crate::plan::plan_of;

/// Keeps what is posted to workers, and the longest task of the page.
const WATCH: &str = "window.posted = [];
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (message) {
        window.posted.push(message);
        return post.apply(this, arguments);
    };
    window.longest = 0;
    new PerformanceObserver(list => {
        for (const task of list.getEntries()) window.longest = Math.max(window.longest, task.duration);
    }).observe({ entryTypes: ['longtask'] });";

/// Asks a worker of its own for thirty sheets three times; gives the times in milliseconds,
/// pages and bytes.
const THIRTY: &str = "const done = arguments[arguments.length - 1];
    const request = JSON.parse(window.posted.find(text => text.includes('\"papers\"')));
    const sheets = request.job.papers.content.sheets;
    const all = sheets.markings;
    sheets.markings = Array.from({ length: 30 }, (_, at) => all[at % all.length]);
    const worker = new Worker(document.querySelector('script[data-worker]').dataset.worker, { type: 'module' });
    const next = () => new Promise(take => {
        worker.onmessage = event => {
            const said = JSON.parse(event.data);
            if (said === 'ready' || said.about.answer.done || said.about.answer.failed) take(said);
        };
    });
    (async () => {
        await next();
        const runs = [];
        for (let id = 1; id <= 3; id += 1) {
            request.id = id;
            const answer = next();
            const since = performance.now();
            worker.postMessage(JSON.stringify(request));
            const made = (await answer).about.answer.done.papers;
            runs.push([performance.now() - since, made.pages, made.data.length * 0.75]);
        }
        worker.terminate();
        done(runs);
    })();";

fn heap() -> &'static str {
    "String(performance.memory.usedJSHeapSize)"
}

#[test]
#[ignore = "measures and prints; scripts/paper-time runs it"]
fn thirty_sheets_as_one_file() {
    in_browser(|page| async move {
        ask_for_largest_sitting(&page).await;
        page.click_words("dialog[open] button", "Close").await;
        page.run(WATCH, vec![]).await;
        let before: f64 = page.look(heap()).await.parse().unwrap();
        ask(&page, "Save all as files").await;
        page.run("window.longest = 0", vec![]).await;
        page.click("#make-paper").await;
        page.wait_text("#paper-says", ".pdf: ").await;
        let longest = page.look("String(window.longest)").await;
        let said = page.text("#paper-says").await;
        page.click("#make-paper").await;
        let stop = "const done = arguments[arguments.length - 1];
            const since = performance.now();
            const stop = [...document.querySelectorAll('dialog[open] button')].find(one => one.innerText === 'Stop');
            stop.click();
            const look = () => document.querySelector('#paper-says').innerText.includes('Stopped')
                ? done(performance.now() - since) : setTimeout(look, 1);
            look();";
        let stopped = page.run_async(stop, vec![]).await;
        page.click_words("dialog[open] button", "Close").await;
        let after: f64 = page.look(heap()).await.parse().unwrap();
        let runs = page.run_async(THIRTY, vec![]).await;
        for run in runs.as_array().unwrap() {
            let of = |at: usize| run[at].as_f64().unwrap();
            println!(
                "thirty sheets as one PDF: {:.0} ms, {:.2} of the bar of 3 s; {} pages, {:.1} MB",
                of(0),
                of(0) / 3000.0,
                of(1),
                of(2) / 1e6
            );
        }
        println!("longest task of the page meanwhile: {longest} ms, bar 50 ms ({said})");
        let stopped = stopped.as_f64().unwrap_or(f64::NAN);
        println!("stopped after {stopped:.0} ms, bar 200 ms");
        println!(
            "more on the page's heap afterwards: {:.1} MB",
            (after - before) / 1e6
        );
        assert!(matches!(runs, Value::Array(_)));
    });
}

/// Puts texts of records where the page keeps them.
const PUT: &str = "const [rows, done] = [arguments[0], arguments[arguments.length - 1]];
    const open = indexedDB.open('evenshod');
    open.onsuccess = () => {
        const database = open.result;
        const put = database.transaction('records', 'readwrite');
        for (const [key, text] of rows) put.objectStore('records').put(text, key);
        put.oncomplete = () => { database.close(); done('put'); };
    };";

/// Goes to the cohort, and gives how long it took until every row in view had all of its
/// medians, looked at in each frame without having it laid out; then until the last one had
/// them.
const COHORT: &str = "const done = arguments[arguments.length - 1];
    const since = performance.now();
    const in_view = () => {
        const frame = document.querySelector('.cohort-frame');
        const rows = frame ? [...frame.querySelectorAll('tbody tr[aria-rowindex]')] : [];
        const cells = rows.flatMap(row => [...row.querySelectorAll('td:not([aria-colindex=\"2\"])')]);
        return cells.length > 0 && cells.every(cell => cell.textContent !== '…');
    };
    const all = () => !document.querySelector('main').textContent.includes('Marking the latest pieces');
    const until = (what, then) => requestAnimationFrame(() => what() ? then(performance.now() - since) : until(what, then));
    [...document.querySelectorAll('main .button')].find(one => one.innerText === 'Cohort').click();
    until(in_view, first => until(all, last => done([first, last])));";

#[test]
#[ignore = "measures and prints; scripts/cohort-time runs it"]
fn five_hundred_learners_as_a_cohort() {
    in_browser(|page| async move {
        page.go("/learners").await;
        page.wait_for("#new").await;
        let records: Vec<Value> = large::ledger("straight-bar-shoe")
            .records()
            .map(|record| json!([record.key().to_string(), record.write().unwrap()]))
            .collect();
        for some in records.chunks(1_000) {
            page.run_async(PUT, vec![some.into()]).await;
        }
        for run in 1..=3 {
            page.go("/learners").await;
            page.wait_text("main", "Learner 499").await;
            page.run(WATCH, vec![]).await;
            let took = page.run_async(COHORT, vec![]).await;
            let of = |at: usize| took[at].as_f64().unwrap();
            let longest = page.look("String(window.longest)").await;
            println!(
                "cohort of 500 learners, run {run}: {:.0} ms, {:.2} of the bar of 300 ms; the rows \
                 out of view after {:.0} ms; longest task of the page meanwhile {longest} ms",
                of(0),
                of(0) / 300.0,
                of(1)
            );
        }
    });
}

/// Types into one field of the plan after the other and gives how long each took in milliseconds,
/// until all was worked out and drawn anew, in order of size.
const TYPED: &str = "const done = arguments[arguments.length - 1];
    const fields = [...document.querySelectorAll('.plan-page input.input')];
    const took = [];
    const next = () => {
        if (took.length === 120) return done(took.sort((one, other) => one - other));
        const field = fields[took.length % fields.length];
        field.value = String(20 + took.length);
        const since = performance.now();
        field.dispatchEvent(new Event('input', { bubbles: true }));
        // Behind what the event left to be done.
        setTimeout(() => {
            document.body.getBoundingClientRect();
            took.push(performance.now() - since);
            setTimeout(next, 50);
        }, 0);
    };
    next();";

#[test]
#[ignore = "measures and prints; scripts/plan-time runs it"]
fn a_plan_is_worked_out_at_every_key() {
    in_browser(|page| async move {
        plan_of(&page, "Straight bar shoe").await;
        let took = page.run_async(TYPED, vec![]).await;
        let took = took.as_array().unwrap();
        let at = |share: usize| took[took.len() * share / 100].as_f64().unwrap();
        println!(
            "a number of a plan changed: {:.1} ms, {:.2} of the bar of a frame, 16.7 ms; 9 of 10 \
             within {:.1} ms",
            at(50),
            at(50) / 16.7,
            at(90)
        );
    });
}
