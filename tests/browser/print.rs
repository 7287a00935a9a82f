//! What the browser prints: as many pages as it should be, and no text on another.

use std::io::Write as _;
use std::process::{Command, Stdio};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde_json::json;

use crate::browser::Page;
use crate::harness::in_browser;
use crate::invented::look_round;

/// The page as the browser prints it on paper of this size, in inches: a PDF.
pub(crate) async fn printed(page: &Page, width: f64, height: f64) -> Vec<u8> {
    let paper = json!({ "paperWidth": width, "paperHeight": height });
    let printed = page.cdp("Page.printToPDF", paper).await;
    STANDARD.decode(printed["data"].as_str().unwrap()).unwrap()
}

/// A word with its edges in points: left, top, right, bottom.
struct Word {
    text: String,
    edges: [f64; 4],
}

/// The words of each page, as poppler finds them.
fn words(pdf: &[u8]) -> Vec<Vec<Word>> {
    let mut reader = Command::new("pdftotext")
        .args(["-bbox", "-", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("pdftotext is missing; scripts/check installs it");
    let mut into = reader.stdin.take().unwrap();
    let bytes = pdf.to_vec();
    let writer = std::thread::spawn(move || into.write_all(&bytes));
    let said = reader.wait_with_output().unwrap();
    writer.join().unwrap().unwrap();
    let said = String::from_utf8(said.stdout).unwrap();
    let pages = said.split("<page ").skip(1);
    pages
        .map(|page| page.lines().filter_map(word).collect())
        .collect()
}

fn word(line: &str) -> Option<Word> {
    let rest = line.trim().strip_prefix("<word ")?;
    let edge = |name: &str| -> Option<f64> {
        let (_, rest) = rest.split_once(&format!("{name}=\""))?;
        rest.split_once('"')?.0.parse().ok()
    };
    let (_, text) = rest.split_once('>')?;
    Some(Word {
        text: text.trim_end_matches("</word>").to_owned(),
        edges: [edge("xMin")?, edge("yMin")?, edge("xMax")?, edge("yMax")?],
    })
}

/// Words that lie on one another by more than a third of their height.
fn overlaps(page: &[Word]) -> Vec<String> {
    let mut found = Vec::new();
    for (at, one) in page.iter().enumerate() {
        for other in page.iter().skip(at + 1) {
            let ([a, b, c, d], [e, f, g, h]) = (one.edges, other.edges);
            let (wide, high) = (c.min(g) - a.max(e), d.min(h) - b.max(f));
            if wide > 1.0 && high > 0.35 * (d - b).min(h - f) {
                found.push(format!("{} on {}", one.text, other.text));
            }
        }
    }
    found
}

#[test]
fn no_text_of_a_printed_sheet_lies_on_another() {
    in_browser(|page| async move {
        page.go("/").await;
        look_round(&page).await;
        let sheets = "[...document.querySelectorAll('.piece a')].map(one => \
            one.getAttribute('href')).filter(one => one.endsWith('/sheet')).join(' ')";
        page.wait(
            "sealed pieces",
            "!!document.querySelector('.piece a[href$=\"/sheet\"]')",
        )
        .await;
        let sheets = page.look(sheets).await;
        let sheets: Vec<&str> = sheets.split(' ').take(4).collect();
        assert_eq!(sheets.len(), 4);
        for sheet in sheets {
            page.go(sheet).await;
            page.wait_text(".paper", "After ± stands").await;
            for (width, height) in [(8.27, 11.69), (8.5, 11.0)] {
                let pages = words(&printed(&page, width, height).await);
                assert!(pages.len() > 2 && pages.iter().all(|page| page.len() > 5));
                for (number, words) in (1..).zip(&pages) {
                    let found = overlaps(words);
                    assert!(found.is_empty(), "{sheet}, page {number}: {found:?}");
                }
            }
        }
    });
}
