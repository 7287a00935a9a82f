//! What other programs say of a file. They come with the packages qpdf and poppler-utils,
//! which scripts/check installs.

use std::fs;
use std::path::PathBuf;
use std::process::{Command, Output};
use std::sync::atomic::{AtomicUsize, Ordering};

use serde_json::Value;

static FILES: AtomicUsize = AtomicUsize::new(0);

/// A file of a test, gone with it.
struct Written(PathBuf);

impl Written {
    fn new(bytes: &[u8]) -> Self {
        let number = FILES.fetch_add(1, Ordering::Relaxed);
        let name = format!("pdf-{}-{number}.pdf", std::process::id());
        let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
        fs::write(&path, bytes).unwrap();
        Self(path)
    }
}

impl Drop for Written {
    fn drop(&mut self) {
        let _ = fs::remove_file(&self.0);
    }
}

fn run(program: &str, before: &[&str], file: &Written, after: &[&str]) -> Output {
    let said = Command::new(program)
        .args(before)
        .arg(&file.0)
        .args(after)
        .output();
    said.unwrap_or_else(|error| {
        panic!(
            "{program} could not be run: {error}; install qpdf and poppler-utils, or run scripts/check"
        )
    })
}

/// Holds the file to what qpdf can check of its syntax.
pub fn check_syntax(bytes: &[u8]) {
    let said = run("qpdf", &["--check"], &Written::new(bytes), &[]);
    let text = String::from_utf8_lossy(&said.stdout);
    let errors = String::from_utf8_lossy(&said.stderr);
    assert!(said.status.success(), "{text}{errors}");
}

/// The objects of the file, as qpdf writes them in JSON.
pub fn objects(bytes: &[u8]) -> Vec<Value> {
    let said = run("qpdf", &["--json"], &Written::new(bytes), &[]);
    let json: Value = serde_json::from_slice(&said.stdout).unwrap();
    let mut found = Vec::new();
    gather(&json, &mut found);
    found
}

fn gather(value: &Value, found: &mut Vec<Value>) {
    match value {
        Value::Object(fields) => {
            found.push(value.clone());
            fields.values().for_each(|field| gather(field, found));
        }
        Value::Array(values) => values.iter().for_each(|value| gather(value, found)),
        _ => {}
    }
}

/// The file without compression, its text cut where it is none.
pub fn operators(bytes: &[u8]) -> String {
    let said = run(
        "qpdf",
        &["--qdf", "--object-streams=disable"],
        &Written::new(bytes),
        &["-"],
    );
    String::from_utf8_lossy(&said.stdout).into_owned()
}

/// The text of each page in the order in which it is drawn.
pub fn pages(bytes: &[u8]) -> Vec<String> {
    let said = run("pdftotext", &["-raw"], &Written::new(bytes), &["-"]);
    let text = String::from_utf8(said.stdout).unwrap();
    let text = text.strip_suffix('\u{c}').unwrap_or(&text);
    text.split('\u{c}').map(str::to_owned).collect()
}

/// The tag tree with its texts, one a line, as poppler prints it.
pub fn tags(bytes: &[u8]) -> Vec<String> {
    let said = run("pdfinfo", &["-struct-text"], &Written::new(bytes), &[]);
    let text = String::from_utf8(said.stdout).unwrap();
    text.lines().map(str::to_owned).collect()
}

/// What poppler says of the whole file, such as `Tagged` or `Page size`.
pub fn told(bytes: &[u8], name: &str) -> String {
    let said = run("pdfinfo", &[], &Written::new(bytes), &[]);
    let text = String::from_utf8(said.stdout).unwrap();
    let mut values = text.lines().filter_map(|line| line.split_once(':'));
    let found = values.find(|(own, _)| *own == name);
    found.unwrap().1.trim().to_owned()
}

/// Width, height and encoding of every image in the file, as poppler lists them.
pub fn images(bytes: &[u8]) -> Vec<(u32, u32, String)> {
    let said = run("pdfimages", &["-list"], &Written::new(bytes), &[]);
    assert!(said.status.success());
    let text = String::from_utf8(said.stdout).unwrap();
    // Two lines of heads; then page, number, type, width, height, colour, components, bits,
    // encoding and more.
    let rows = text.lines().skip(2).map(|line| {
        let cells: Vec<&str> = line.split_whitespace().collect();
        (
            cells[3].parse().unwrap(),
            cells[4].parse().unwrap(),
            cells[8].to_owned(),
        )
    });
    rows.collect()
}
