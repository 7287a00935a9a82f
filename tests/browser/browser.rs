//! A Chromium, and the page in it.

use std::ffi::OsStr;
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use fantoccini::actions::{InputSource as _, KeyAction, KeyActions, PointerAction, TouchActions};
use fantoccini::wd::{Capabilities, WindowHandle};
use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};

use crate::cdp::{Cdp, ConsoleLog};
use crate::harness::{Process, Room, kill_group, shots};

/// How long anything may take before a test gives up on it.
const PATIENCE: Duration = Duration::from_secs(15);
/// How often it is looked at meanwhile.
const GLANCE: Duration = Duration::from_millis(15);

/// Keys without a letter, as WebDriver names them.
pub(crate) mod key {
    pub(crate) const BACKSPACE: &str = "\u{E003}";
    pub(crate) const TAB: &str = "\u{E004}";
    pub(crate) const ENTER: &str = "\u{E007}";
    pub(crate) const SHIFT: char = '\u{E008}';
    pub(crate) const CONTROL: char = '\u{E009}';
    pub(crate) const ESCAPE: &str = "\u{E00C}";
    pub(crate) const SPACE: &str = " ";
    pub(crate) const DOWN: &str = "\u{E015}";
}

/// A running browser with its driver.
pub(crate) struct Browser {
    page: Page,
    /// Leader of the browser's process group.
    group: u32,
    _driver: Process,
}

/// A driver and its port. A free port of one address family may be taken in the other, and
/// then the driver ends at once: it is started again.
fn start_driver(path: &OsStr) -> (Process, String) {
    for _ in 0..5 {
        let driver = Command::new(path)
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .process_group(0)
            .spawn();
        let driver = driver.unwrap_or_else(|fault| {
            panic!("chromedriver ({}) does not start: {fault}; name it in CHROMEDRIVER, or run scripts/check", path.display())
        });
        let mut driver = Process(driver);
        let port = driver.find_line(|line| {
            let port = line.split("successfully on port ").nth(1)?;
            Some(port.trim().trim_end_matches('.').to_owned())
        });
        if let Some(port) = port {
            return (driver, port);
        }
    }
    panic!(
        "chromedriver ({}) ends at once, five times over",
        path.display()
    );
}

impl Browser {
    /// Starts one in the room's only profile.
    pub(crate) async fn open(room: &Room) -> Self {
        let path = std::env::var_os("CHROMEDRIVER").unwrap_or_else(|| "chromedriver".into());
        let (driver, port) = start_driver(&path);
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities(room))
            .connect(&format!("http://127.0.0.1:{port}"))
            .await
            .expect("Chromium starts; its path is CHROME");
        let found = client
            .capabilities()
            .and_then(|found| found.get("goog:processID"));
        let group = found
            .and_then(Value::as_u64)
            .expect("the driver tells the browser's process");
        let downloads = room.folder.join("downloads");
        std::fs::create_dir_all(&downloads).unwrap();
        let page = Page {
            client,
            address: room.address.clone(),
            downloads,
        };
        let folder = page.downloads.display().to_string();
        page.cdp(
            "Browser.setDownloadBehavior",
            json!({ "behavior": "allow", "downloadPath": folder }),
        )
        .await;
        Self {
            page,
            group: u32::try_from(group).unwrap(),
            _driver: driver,
        }
    }

    /// The page in its first tab.
    pub(crate) fn page(&self) -> Page {
        self.page.clone()
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        kill_group(self.group);
    }
}

fn capabilities(room: &Room) -> Capabilities {
    let chrome = std::env::var_os("CHROME").map_or("/usr/bin/chromium".into(), PathBuf::from);
    let profile = room.folder.join("profile");
    let mut arguments = vec![
        "--headless=new".to_owned(),
        "--disable-gpu".to_owned(),
        "--disable-background-networking".to_owned(),
        "--disable-component-update".to_owned(),
        "--disable-dev-shm-usage".to_owned(),
        "--disable-sync".to_owned(),
        "--no-first-run".to_owned(),
        "--lang=en-GB".to_owned(),
        "--window-size=1280,900".to_owned(),
        "--hide-scrollbars".to_owned(),
        // A page that still glides is hit beside what is clicked.
        "--force-prefers-reduced-motion".to_owned(),
        format!("--user-data-dir={}", profile.display()),
    ];
    if is_root() {
        arguments.push("--no-sandbox".to_owned());
    }
    let options = json!({
        "goog:chromeOptions": { "binary": chrome, "args": arguments },
        "goog:loggingPrefs": { "browser": "ALL" },
        "unhandledPromptBehavior": "ignore",
    });
    options.as_object().cloned().unwrap()
}

fn is_root() -> bool {
    let id = Command::new("id").arg("-u").output();
    id.is_ok_and(|id| id.stdout.trim_ascii() == b"0")
}

/// The page, as somebody who sits at it has it. A copy is a handle.
#[derive(Debug, Clone)]
pub(crate) struct Page {
    client: Client,
    address: String,
    downloads: PathBuf,
}

impl Page {
    /// Goes to an address of the page and waits until it is there.
    pub(crate) async fn go(&self, path: &str) {
        let address = format!("{}{path}", self.address);
        self.client.goto(&address).await.unwrap();
        self.wait_ready().await;
    }

    /// Leaves the page for an empty one.
    pub(crate) async fn leave(&self) {
        self.client.goto("about:blank").await.unwrap();
    }

    /// Loads the page again.
    pub(crate) async fn reload(&self) {
        self.client.refresh().await.unwrap();
        self.wait_ready().await;
    }

    async fn wait_ready(&self) {
        self.wait(
            "the page to start",
            "!!document.querySelector('main h1') && !document.querySelector('main [aria-busy]')",
        )
        .await;
    }

    /// The browser's way back.
    pub(crate) async fn back(&self) {
        self.client.back().await.unwrap();
    }

    /// The path of the address.
    pub(crate) async fn path(&self) -> String {
        self.look("location.pathname").await
    }

    /// What a JavaScript expression gives.
    pub(crate) async fn value(&self, expression: &str) -> Value {
        let script = format!("return ({expression});");
        let found = self.client.execute(&script, Vec::new()).await;
        found.unwrap_or_else(|fault| panic!("`{expression}` cannot be evaluated: {fault}"))
    }

    /// A text that a JavaScript expression gives; empty for none.
    pub(crate) async fn look(&self, expression: &str) -> String {
        match self.value(expression).await {
            Value::String(text) => text,
            Value::Null => String::new(),
            other => other.to_string(),
        }
    }

    /// Runs a function body with arguments.
    pub(crate) async fn run(&self, body: &str, arguments: Vec<Value>) -> Value {
        let found = self.client.execute(body, arguments).await;
        found.unwrap_or_else(|fault| panic!("a script cannot be run: {fault}"))
    }

    /// Runs a function body whose last argument is to be called with the answer.
    pub(crate) async fn run_async(&self, body: &str, arguments: Vec<Value>) -> Value {
        let found = self.client.execute_async(body, arguments).await;
        found.unwrap_or_else(|fault| panic!("a script cannot be run: {fault}"))
    }

    /// Text on the page under `selector`; empty where there is none.
    pub(crate) async fn text(&self, selector: &str) -> String {
        let script = "const found = document.querySelector(arguments[0]);
            return found ? found.innerText.trim().replace(/\\s+/g, ' ') : '';";
        let found = self.run(script, vec![json!(selector)]).await;
        found.as_str().unwrap_or_default().to_owned()
    }

    /// Whether there is something under `selector` that takes room on the page.
    pub(crate) async fn shows(&self, selector: &str) -> bool {
        self.value(&shown(selector)).await == json!(true)
    }

    /// Waits until a JavaScript expression is true, or gives what is as good as true.
    pub(crate) async fn wait(&self, what: &str, expression: &str) -> Value {
        let until = Instant::now() + PATIENCE;
        let script = format!("return ({expression});");
        loop {
            // The document may just be going away.
            let found = self.client.execute(&script, Vec::new()).await;
            match &found {
                Ok(Value::Null | Value::Bool(false)) | Err(_) => {}
                Ok(Value::String(text)) if text.is_empty() => {}
                Ok(found) => return found.clone(),
            }
            assert!(
                Instant::now() < until,
                "waited in vain for {what}: `{expression}` gives {found:?}"
            );
            tokio::time::sleep(GLANCE).await;
        }
    }

    /// Waits for something under `selector`.
    pub(crate) async fn wait_for(&self, selector: &str) {
        self.wait(selector, &shown(selector)).await;
    }

    /// Waits for words under `selector`.
    pub(crate) async fn wait_text(&self, selector: &str, words: &str) {
        let expression = format!(
            "[...document.querySelectorAll({})].some(found => found.innerText.replace(/\\s+/g, ' ').includes({}))",
            json!(selector),
            json!(words)
        );
        self.wait(&format!("{words:?} in {selector}"), &expression)
            .await;
    }

    /// Waits until everything typed is stored.
    pub(crate) async fn wait_saved(&self) {
        let saved = "document.querySelector('.saved')?.dataset.state === 'saved'";
        self.wait("everything to be stored", saved).await;
    }

    /// Presses each key of `keys` in turn, wherever the focus is.
    pub(crate) async fn keys(&self, keys: &str) {
        self.keys_with(&[], keys).await;
    }

    /// Presses each key of `keys` in turn while others are held.
    pub(crate) async fn keys_with(&self, held: &[char], keys: &str) {
        let mut actions = KeyActions::new("keyboard".to_owned());
        for &value in held {
            actions = actions.then(KeyAction::Down { value });
        }
        for value in keys.chars() {
            actions = actions
                .then(KeyAction::Down { value })
                .then(KeyAction::Up { value });
        }
        for &value in held.iter().rev() {
            actions = actions.then(KeyAction::Up { value });
        }
        self.client.perform_actions(actions).await.unwrap();
    }

    /// Types as fast as somebody who is good at it.
    pub(crate) async fn type_at_hand_speed(&self, text: &str) {
        const PACE: Duration = Duration::from_millis(60);
        let mut actions = KeyActions::new("keyboard".to_owned());
        for value in text.chars() {
            actions = actions
                .then(KeyAction::Pause { duration: PACE })
                .then(KeyAction::Down { value })
                .then(KeyAction::Up { value });
        }
        self.client.perform_actions(actions).await.unwrap();
    }

    /// Tabs forward until the focus is on what `selector` names.
    pub(crate) async fn tab_to(&self, selector: &str) {
        self.tab(&[], selector).await;
    }

    /// Tabs backward until the focus is on what `selector` names.
    pub(crate) async fn tab_back_to(&self, selector: &str) {
        self.tab(&[key::SHIFT], selector).await;
    }

    async fn tab(&self, held: &[char], selector: &str) {
        const MOST: usize = 90;
        let is_there = format!("document.activeElement.matches({})", json!(selector));
        for _ in 0..MOST {
            if self.value(&is_there).await == json!(true) {
                return;
            }
            self.keys_with(held, key::TAB).await;
        }
        let last = self
            .look("document.activeElement.outerHTML.slice(0, 200)")
            .await;
        panic!("{MOST} tabs did not lead to {selector}; the last is at {last}");
    }

    /// Whether the focus can be seen: an outline or, for tiles, their own.
    pub(crate) async fn focus_is_seen(&self) -> bool {
        let seen = "(() => {
            const at = document.activeElement;
            const held = at.closest('.tile') ?? at;
            return [at, held].some(one => getComputedStyle(one).outlineStyle !== 'none');
        })()";
        self.value(seen).await == json!(true)
    }

    /// Id of what has the focus.
    pub(crate) async fn focused(&self) -> String {
        self.look("document.activeElement.id").await
    }

    /// Clicks the middle of what `selector` names with the mouse.
    pub(crate) async fn click(&self, selector: &str) {
        self.wait_for(selector).await;
        let script = "document.querySelector(arguments[0])
            .scrollIntoView({ block: 'center', behavior: 'instant' });";
        self.run(script, vec![json!(selector)]).await;
        let found = self.client.find(fantoccini::Locator::Css(selector)).await;
        let clicked = match found {
            Ok(found) => found.click().await,
            Err(fault) => Err(fault),
        };
        clicked.unwrap_or_else(|fault| panic!("{selector} cannot be clicked: {fault}"));
    }

    /// Clicks what `selector` names whose words are `words`.
    pub(crate) async fn click_words(&self, selector: &str, words: &str) {
        let script = "const found = [...document.querySelectorAll(arguments[0])]
            .find(one => one.innerText.trim().replace(/\\s+/g, ' ').startsWith(arguments[1]));
            document.querySelectorAll('[data-aim]').forEach(one => delete one.dataset.aim);
            if (found) found.dataset.aim = '';
            return !!found;";
        let until = Instant::now() + PATIENCE;
        while self.run(script, vec![json!(selector), json!(words)]).await != json!(true) {
            assert!(Instant::now() < until, "no {selector} says {words:?}");
            tokio::time::sleep(GLANCE).await;
        }
        self.click("[data-aim]").await;
    }

    /// Puts `text` in place of what the field holds, by keys.
    pub(crate) async fn fill(&self, selector: &str, text: &str) {
        self.focus(selector).await;
        self.keys_with(&[key::CONTROL], "a").await;
        self.keys(if text.is_empty() {
            key::BACKSPACE
        } else {
            text
        })
        .await;
    }

    /// Puts a day like `2026-09-01` into a date field, whose keys go by the browser's
    /// language: what the field hears is the same.
    pub(crate) async fn set_date(&self, selector: &str, day: &str) {
        self.wait_for(selector).await;
        let script = "const field = document.querySelector(arguments[0]);
            field.value = arguments[1];
            field.dispatchEvent(new Event('input', { bubbles: true }));";
        self.run(script, vec![json!(selector), json!(day)]).await;
    }

    /// Chooses the option of this value, which a list offers.
    pub(crate) async fn choose(&self, selector: &str, value: &str) {
        self.wait_for(selector).await;
        let script = "const field = document.querySelector(arguments[0]);
            field.value = arguments[1];
            field.dispatchEvent(new Event('change', { bubbles: true }));";
        self.run(script, vec![json!(selector), json!(value)]).await;
    }

    /// Sets the focus, for tests that are not about how it gets there.
    pub(crate) async fn focus(&self, selector: &str) {
        self.wait_for(selector).await;
        let script = "document.querySelector(arguments[0]).focus();";
        self.run(script, vec![json!(selector)]).await;
    }

    /// Taps the middle of what `selector` names with a finger.
    pub(crate) async fn tap(&self, selector: &str) {
        self.wait_for(selector).await;
        let script = "const found = document.querySelector(arguments[0]);
            const middle = () => {
                const box = found.getBoundingClientRect();
                return [box.x + box.width / 2, box.y + box.height / 2];
            };
            const is_hit = ([x, y]) => {
                const hit = document.elementFromPoint(x, y);
                return !!hit && (found.contains(hit) || hit.contains(found)
                    || hit.closest('label')?.contains(found));
            };
            if (!is_hit(middle())) found.scrollIntoView({ block: 'center', behavior: 'instant' });
            if (!is_hit(middle())) found.scrollIntoView({ block: 'start', behavior: 'instant' });
            return is_hit(middle()) ? middle() : null;";
        let at = self.run(script, vec![json!(selector)]).await;
        let number = |index: usize| at[index].as_f64();
        let (Some(x), Some(y)) = (number(0), number(1)) else {
            panic!("{selector} is covered, so a finger cannot reach it");
        };
        let finger = TouchActions::new("finger".to_owned())
            .then(PointerAction::MoveTo {
                duration: None,
                x: x.floor(),
                y: y.floor(),
            })
            .then(PointerAction::Down { button: 0 })
            .then(PointerAction::Up { button: 0 });
        self.client.perform_actions(finger).await.unwrap();
    }

    /// A command of the browser's debugging protocol.
    pub(crate) async fn cdp(&self, name: &'static str, parameters: Value) -> Value {
        let answer = self.client.issue_cmd(Cdp { name, parameters }).await;
        answer.unwrap_or_else(|fault| panic!("{name} failed: {fault}"))
    }

    /// A window of this size; a phone has fingers.
    pub(crate) async fn resize(&self, width: u32, height: u32, is_phone: bool) {
        let metrics = json!({
            "width": width,
            "height": height,
            "deviceScaleFactor": if is_phone { 2 } else { 1 },
            "mobile": is_phone,
        });
        self.cdp("Emulation.setDeviceMetricsOverride", metrics)
            .await;
        let touch = json!({ "enabled": is_phone, "maxTouchPoints": if is_phone { 5 } else { 1 } });
        self.cdp("Emulation.setTouchEmulationEnabled", touch).await;
    }

    /// The colours that the device asks for.
    pub(crate) async fn prefer(&self, scheme: &str) {
        let feature = json!({ "name": "prefers-color-scheme", "value": scheme });
        let still = json!({ "name": "prefers-reduced-motion", "value": "reduce" });
        let media = json!({ "features": [feature, still] });
        self.cdp("Emulation.setEmulatedMedia", media).await;
    }

    /// What the device asks for, by the names of CSS media features; what is not named is
    /// as the browser has it.
    pub(crate) async fn feign(&self, features: &[(&str, &str)]) {
        let features: Vec<Value> = features
            .iter()
            .map(|(name, value)| json!({ "name": name, "value": value }))
            .collect();
        self.cdp(
            "Emulation.setEmulatedMedia",
            json!({ "features": features }),
        )
        .await;
    }

    /// The page as paper has it, or as the screen has.
    pub(crate) async fn on_paper(&self, is_paper: bool) {
        let media = json!({ "media": if is_paper { "print" } else { "" } });
        self.cdp("Emulation.setEmulatedMedia", media).await;
    }

    /// Runs a script before anything else on each page that is loaded from now on.
    pub(crate) async fn before_each_page(&self, source: &str) {
        self.cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": source }),
        )
        .await;
    }

    /// This tab, to come back to.
    pub(crate) async fn tab_here(&self) -> WindowHandle {
        self.client.window().await.unwrap()
    }

    /// Opens a second tab and goes there.
    pub(crate) async fn open_tab(&self, path: &str) -> WindowHandle {
        let tab = self.client.new_window(true).await.unwrap().handle;
        self.to_tab(&tab).await;
        self.go(path).await;
        tab
    }

    /// Opens a second tab that hears nothing of the others, as one that was asleep.
    pub(crate) async fn open_deaf_tab(&self, path: &str) -> WindowHandle {
        let tab = self.client.new_window(true).await.unwrap().handle;
        self.to_tab(&tab).await;
        self.before_each_page(
            "window.BroadcastChannel = class { constructor() { throw new Error('deaf'); } };",
        )
        .await;
        self.go(path).await;
        tab
    }

    /// Brings a tab to the front.
    pub(crate) async fn to_tab(&self, tab: &WindowHandle) {
        self.client.switch_to_window(tab.clone()).await.unwrap();
    }

    /// Gives a file to the input that `selector` names, as the browser's own window
    /// for files does.
    pub(crate) async fn choose_file(&self, selector: &str, name: &str, bytes: &[u8]) {
        self.wait_for(selector).await;
        let folder = self.downloads.with_file_name("chosen");
        std::fs::create_dir_all(&folder).unwrap();
        let path = folder.join(name);
        std::fs::write(&path, bytes).unwrap();
        let input = self.client.find(fantoccini::Locator::Css(selector)).await;
        let path = path.display().to_string();
        input.unwrap().send_keys(&path).await.unwrap();
    }

    /// Waits for a download whose name ends so, and reads it.
    pub(crate) async fn download(&self, ending: &str) -> (String, Vec<u8>) {
        let until = Instant::now() + PATIENCE;
        loop {
            if let Some(path) = finished(&self.downloads, ending) {
                let name = path.file_name().unwrap().to_string_lossy().into_owned();
                return (name, std::fs::read(path).unwrap());
            }
            assert!(Instant::now() < until, "no download that ends in {ending}");
            tokio::time::sleep(GLANCE).await;
        }
    }

    /// Waits for a download whose name begins so, and reads it.
    pub(crate) async fn download_named(&self, beginning: &str) -> Vec<u8> {
        let until = Instant::now() + PATIENCE;
        loop {
            let entries = std::fs::read_dir(&self.downloads).into_iter().flatten();
            let names = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap());
            let mut names = names.filter(|name| name.starts_with(beginning));
            if let Some(name) = names.find(|name| name.ends_with(".json")) {
                return std::fs::read(self.downloads.join(name)).unwrap();
            }
            assert!(
                Instant::now() < until,
                "no download that begins with {beginning}"
            );
            tokio::time::sleep(GLANCE).await;
        }
    }

    /// Fails if the console has an error.
    pub(crate) async fn check_console(&self) {
        let errors = self.console_errors().await;
        assert!(
            errors.is_empty(),
            "the console says:\n{}",
            errors.join("\n")
        );
    }

    /// Takes errors away that a test has provoked; fails if none is about `what`.
    pub(crate) async fn forgive_console(&self, what: &str) {
        let errors = self.console_errors().await;
        assert!(
            errors.iter().any(|error| error.contains(what)),
            "no error is about {what}:\n{}",
            errors.join("\n")
        );
        assert!(
            !errors.iter().any(|error| error.contains("panicked")),
            "the page panicked:\n{}",
            errors.join("\n")
        );
    }

    /// The console's errors since it was last asked.
    async fn console_errors(&self) -> Vec<String> {
        let entries = self.client.issue_cmd(ConsoleLog).await.unwrap();
        let entries = entries.as_array().cloned().unwrap_or_default();
        entries
            .iter()
            .filter(|entry| entry["level"] == "SEVERE")
            .map(|entry| entry["message"].to_string())
            .collect()
    }

    /// A picture of the window, with what has the focus in its middle.
    pub(crate) async fn picture(&self, path: &Path) {
        self.value("document.activeElement.scrollIntoView({ block: 'center' })")
            .await;
        let picture = self.client.screenshot().await.unwrap();
        std::fs::write(path, picture).unwrap();
    }

    /// A picture of the whole page.
    pub(crate) async fn whole_picture(&self, path: &Path) {
        let answer = self
            .cdp(
                "Page.captureScreenshot",
                json!({ "captureBeyondViewport": true, "optimizeForSpeed": true }),
            )
            .await;
        let picture = STANDARD.decode(answer["data"].as_str().unwrap()).unwrap();
        std::fs::write(path, picture).unwrap();
    }

    /// Keeps what a failing test saw.
    pub(crate) async fn keep_sight(&self) {
        let name = std::thread::current()
            .name()
            .unwrap_or("test")
            .replace("::", "-");
        let folder = shots("failed");
        if let Ok(picture) = self.client.screenshot().await {
            let _ = std::fs::write(folder.join(format!("{name}.png")), picture);
        }
        if let Ok(source) = self.client.source().await {
            let _ = std::fs::write(folder.join(format!("{name}.html")), source);
        }
        if let Ok(entries) = self.client.issue_cmd(ConsoleLog).await {
            for entry in entries.as_array().into_iter().flatten() {
                eprintln!("console: {} {}", entry["level"], entry["message"]);
            }
        }
        eprintln!("what it saw is in {}/{name}.png", folder.display());
    }
}

fn shown(selector: &str) -> String {
    format!(
        "document.querySelector({})?.getClientRects().length > 0",
        json!(selector)
    )
}

fn finished(folder: &Path, ending: &str) -> Option<PathBuf> {
    let entries = std::fs::read_dir(folder).ok()?;
    let paths = entries.filter_map(|entry| Some(entry.ok()?.path()));
    paths
        .filter(|path| path.to_string_lossy().ends_with(ending))
        .find(|path| std::fs::metadata(path).is_ok_and(|data| data.len() > 0))
}
