//! The rooms import only what DEVELOPERS.md allows, and pure rooms know neither
//! browser nor clock.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The table of rooms in DEVELOPERS.md: a room and what it may import.
fn table() -> BTreeMap<String, BTreeSet<String>> {
    let text = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let rows = text.lines().filter_map(|line| {
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        let room = cells.first()?.strip_prefix('`')?.strip_suffix("/`")?;
        let imports = cells
            .get(2)?
            .split_whitespace()
            .filter(|word| *word != "nothing");
        Some((room.to_owned(), imports.map(str::to_owned).collect()))
    });
    rows.collect()
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
    found
}

/// Rooms that a file names as `crate::room`, comments left out.
fn named_rooms(text: &str) -> BTreeSet<String> {
    let code = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    let code: Vec<&str> = code.collect();
    let code = code.join("\n");
    code.match_indices("crate::")
        .filter(|(at, _)| !code[..*at].ends_with(|c: char| c.is_alphanumeric() || c == '_'))
        .map(|(at, word)| {
            let rest = &code[at + word.len()..];
            rest.chars()
                .take_while(|c| c.is_ascii_lowercase() || *c == '_')
                .collect()
        })
        .collect()
}

#[test]
fn rooms_import_only_what_the_table_allows() {
    let table = table();
    let mut seen = BTreeSet::new();
    for entry in fs::read_dir(root().join("src")).unwrap() {
        let path = entry.unwrap().path();
        let room = path.file_name().unwrap().to_str().unwrap().to_owned();
        if !path.is_dir() || room == "bin" || room == "shell" {
            continue;
        }
        let allowed = table
            .get(&room)
            .unwrap_or_else(|| panic!("{room} is not in DEVELOPERS.md"));
        for file in files(&path) {
            for named in named_rooms(&fs::read_to_string(&file).unwrap()) {
                let is_fine = named == room || allowed.contains(&named);
                assert!(
                    is_fine,
                    "{} imports {named}, which its row does not name",
                    file.display()
                );
            }
        }
        seen.insert(room);
    }
    let listed: BTreeSet<String> = table.into_keys().collect();
    assert_eq!(seen, listed, "DEVELOPERS.md lists the rooms that there are");
}

#[test]
fn pure_rooms_know_neither_browser_nor_clock_nor_chance() {
    let forbidden = [
        "web_sys",
        "js_sys",
        "leptos",
        "gloo_",
        "wasm_bindgen",
        "SystemTime",
        "Instant::now",
        "Utc::now",
        "Local::now",
        "getrandom",
        "now_v7",
        "new_v4",
    ];
    for room in table().into_keys().filter(|room| room != "page") {
        for file in files(&root().join("src").join(&room)) {
            // The parts of store and worker that are the browser's.
            let of_browser = [
                "store/indexed_db.rs",
                "store/key_store.rs",
                "worker/listen.rs",
            ];
            if of_browser.iter().any(|part| file.ends_with(part)) {
                continue;
            }
            let text = fs::read_to_string(&file).unwrap();
            for word in forbidden {
                assert!(!text.contains(word), "{} uses {word}", file.display());
            }
        }
    }
}

#[test]
fn the_page_holds_no_formula() {
    // Marks and lengths are worked out in pure rooms; the page only shows texts.
    let forbidden = [
        "Ratio",
        ".to_f64()",
        "percent_of",
        "rounded_to",
        "print_decimal",
    ];
    for file in files(&root().join("src/page")) {
        let text = fs::read_to_string(&file).unwrap();
        for word in forbidden {
            assert!(!text.contains(word), "{} uses {word}", file.display());
        }
    }
}
