//! What a test stands on: the page served on a port of its own, and a browser with
//! a fresh profile. All of it ends with the test, however that ends.

use std::future::Future;
use std::io::{BufRead as _, BufReader};
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Arc, Mutex};

use crate::browser::{Browser, Page};

/// Runs `test` on a page in a browser of its own, and fails if the console has an
/// error at its end. A failing test leaves what it saw in `shots/failed/`.
pub(crate) fn in_browser<F>(test: impl FnOnce(Page) -> F)
where
    F: Future<Output = ()> + Send + 'static,
{
    in_room(|_, page| test(page));
}

/// As [`in_browser`], for tests that end the browser and start it again.
pub(crate) fn in_room<F>(test: impl FnOnce(Arc<Room>, Page) -> F)
where
    F: Future<Output = ()> + Send + 'static,
{
    let room = Arc::new(Room::open());
    let runtime = runtime();
    let page = runtime.block_on(room.open_browser());
    let outcome = runtime.block_on(runtime.spawn(test(Arc::clone(&room), page)));
    runtime.block_on(room.leave(outcome.is_err()));
    if let Err(fault) = outcome {
        std::panic::resume_unwind(fault.into_panic());
    }
}

fn runtime() -> tokio::runtime::Runtime {
    tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .unwrap()
}

/// One served page and the folders that its browsers write to.
pub(crate) struct Room {
    pub(crate) address: String,
    pub(crate) folder: PathBuf,
    browsers: Mutex<Vec<Browser>>,
    _serve: Process,
}

impl Room {
    fn open() -> Self {
        let dist = dist();
        let serve = Command::new(env!("CARGO_BIN_EXE_serve"))
            .arg(&dist)
            .arg("0")
            .stdout(Stdio::piped())
            .process_group(0)
            .spawn()
            .expect("serve starts");
        let mut serve = Process(serve);
        let address = serve.wait_for_line(|line| {
            let from = line.find("http://")?;
            line[from..].split_whitespace().next().map(str::to_owned)
        });
        Self {
            address: address.trim_end_matches('/').to_owned(),
            folder: new_folder(),
            browsers: Mutex::default(),
            _serve: serve,
        }
    }

    /// Starts a browser in the room's only profile.
    pub(crate) async fn open_browser(&self) -> Page {
        let browser = Browser::open(self).await;
        let page = browser.page();
        self.browsers.lock().unwrap().push(browser);
        page
    }

    /// Ends every process of the browsers at once, as a crash or an empty battery
    /// would: nothing is told to them first.
    pub(crate) fn kill_browsers(&self) {
        self.browsers.lock().unwrap().clear();
        // A killed browser leaves its mark on the profile, and the next would not start.
        for mark in ["SingletonLock", "SingletonSocket", "SingletonCookie"] {
            let _ = std::fs::remove_file(self.folder.join("profile").join(mark));
        }
    }

    /// Ends the browsers; `failed` keeps what they showed.
    async fn leave(&self, failed: bool) {
        let browsers = std::mem::take(&mut *self.browsers.lock().unwrap());
        for browser in browsers {
            if failed {
                browser.page().keep_sight().await;
            } else {
                browser.page().check_console().await;
            }
        }
    }
}

impl Drop for Room {
    fn drop(&mut self) {
        self.browsers.get_mut().unwrap().clear();
        // A browser that is just ending may still hold a file; the system's own
        // cleaning takes what stays.
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

/// The built page.
fn dist() -> PathBuf {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let named = std::env::var_os("EVENSHOD_DIST").map(PathBuf::from);
    let dist = named.unwrap_or_else(|| root.join("dist"));
    assert!(
        dist.join("index.html").is_file(),
        "{} holds no built page: run scripts/check, which builds it, or name it in EVENSHOD_DIST",
        dist.display()
    );
    dist
}

/// A folder that no other test has.
fn new_folder() -> PathBuf {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    let number = NEXT.fetch_add(1, Ordering::Relaxed);
    let name = format!("evenshod-{}-{number}", std::process::id());
    let folder = std::env::temp_dir().join(name);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// Where pictures go: a folder that git ignores.
pub(crate) fn shots(folder: &str) -> PathBuf {
    let shots = Path::new(env!("CARGO_MANIFEST_DIR")).join("shots");
    let shots = shots.join(folder);
    std::fs::create_dir_all(&shots).unwrap();
    shots
}

/// A process in a group of its own; all of the group ends with this.
pub(crate) struct Process(pub(crate) Child);

impl Process {
    /// Reads what it prints until `find` finds something in a line.
    pub(crate) fn wait_for_line(&mut self, find: impl Fn(&str) -> Option<String>) -> String {
        self.find_line(find)
            .expect("a process ended before it said where it is")
    }

    /// As [`Process::wait_for_line`]; `None` where it ends before.
    pub(crate) fn find_line(&mut self, find: impl Fn(&str) -> Option<String>) -> Option<String> {
        let out = self.0.stdout.take().expect("its output is piped");
        let mut out = BufReader::new(out);
        let mut line = String::new();
        while out.read_line(&mut line).unwrap_or(0) > 0 {
            if let Some(found) = find(&line) {
                // Goes on reading, or the process would stand still once the pipe is full.
                std::thread::spawn(move || std::io::copy(&mut out, &mut std::io::sink()));
                return Some(found);
            }
            line.clear();
        }
        None
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        kill_group(self.0.id());
        let _ = self.0.wait();
    }
}

/// Ends a whole process group at once, with no chance to tidy up.
pub(crate) fn kill_group(leader: u32) {
    let _ = Command::new("sh")
        .args(["-c", &format!("kill -s KILL -- -{leader}")])
        .stderr(Stdio::null())
        .status();
}
