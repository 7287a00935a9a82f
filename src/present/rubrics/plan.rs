//! Which fields there are, for a text that may be half a rubric.

use super::fields::{
    AWARD, BAND, BEYOND, COUNT, CRITERION, FAULT, FAULT_LIST, HEAD, INTENDED, LEVEL, NUMBERS,
    PIECE, SECTION, Spec, TALLY, TARGET, TIME,
};
use super::form::{Add, FormField, FormPart, FormPlan, FormRow, FormTable};
use super::from_photo::{Asked, photo_field, readings};
use super::ids::{free_criterion, free_id};
use super::optional::{first_impression, moderation};
use crate::rubric::edit::{Edit, Outline, Path, Written};

/// The forms for what stands in `outline`.
pub fn form_plan(outline: &Outline) -> FormPlan {
    let root = Path::root();
    let mut parts = vec![
        part("head", "Title and version", fields(&root, HEAD)),
        part(
            "award",
            "When it is passed",
            fields(&root.key("award"), AWARD),
        ),
        piece(outline),
    ];
    parts.push(moderation(outline));
    parts.push(first_impression(outline));
    let time = root.key("time");
    if outline.has(&time) {
        parts.push(part("time", "Time", fields(&time, TIME)));
    }
    parts.extend(readings(outline));
    let sections = root.key("sections");
    let count = outline.count(&sections);
    parts.extend((0..count).map(|index| section(outline, &sections.at(index), index, count)));
    let adds = vec![Add {
        words: "Add a section".to_owned(),
        edit: Edit::Insert {
            at: sections.at(count),
            item: vec![
                ("id", text(&free_id(outline, &sections, "section"))),
                ("name", text("New section")),
            ],
        },
    }];
    FormPlan { parts, adds }
}

pub(super) fn part(dom: &str, title: &str, fields: Vec<FormField>) -> FormPart {
    FormPart {
        dom: format!("part-{dom}"),
        title: title.to_owned(),
        name: None,
        fields,
        tables: Vec::new(),
        parts: Vec::new(),
        adds: Vec::new(),
        changes: Vec::new(),
    }
}

pub(super) fn fields(at: &Path, specs: &[Spec]) -> Vec<FormField> {
    specs.iter().map(|spec| field(at, spec)).collect()
}

pub(super) fn field(at: &Path, (key, label, hint, kind): &Spec) -> FormField {
    FormField {
        path: at.key(key),
        label,
        hint,
        kind: *kind,
    }
}

fn piece(outline: &Outline) -> FormPart {
    let mut found = Vec::new();
    for (at, specs) in PIECE {
        let at = at.split('.').fold(Path::root(), |path, key| path.key(key));
        if outline.has(&at) {
            found.extend(fields(&at, specs));
        }
    }
    part("piece", "The piece asked for", found)
}

fn section(outline: &Outline, at: &Path, index: usize, count: usize) -> FormPart {
    let criteria = at.key("criteria");
    let own = outline.count(&criteria);
    let adds = NEW_CRITERIA.iter().map(|(words, kind)| Add {
        words: (*words).to_owned(),
        edit: Edit::Insert {
            at: criteria.at(own),
            item: new_criterion(outline, kind),
        },
    });
    FormPart {
        name: Some(at.key("name")),
        parts: (0..own)
            .map(|index| criterion(outline, &criteria.at(index), index, own))
            .collect(),
        adds: adds.collect(),
        changes: changes(at, index, count, "section"),
        ..part(&dom(at), "Section", fields(at, SECTION))
    }
}

pub(super) fn dom(at: &Path) -> String {
    at.to_string().replace('.', "-")
}

/// Up, down and out, as far as there is room.
fn changes(at: &Path, index: usize, count: usize, what: &str) -> Vec<Add> {
    let relocate = |to: usize, word: &str| Add {
        words: format!("Move this {what} {word}"),
        edit: Edit::Move { at: at.clone(), to },
    };
    let up = index.checked_sub(1).map(|to| relocate(to, "up"));
    let down = (index + 1 < count).then(|| relocate(index + 1, "down"));
    let out = (count > 1).then(|| Add {
        words: format!("Take this {what} out"),
        edit: Edit::Remove { at: at.clone() },
    });
    [up, down, out].into_iter().flatten().collect()
}

const NEW_CRITERIA: &[(&str, &str)] = &[
    ("Add a measured criterion", "toleranced"),
    ("Add a pair, left against right", "paired"),
    ("Add a series", "spread"),
    ("Add a criterion by eye", "judged"),
    ("Add a count", "tally"),
    ("Add a list of faults", "faults"),
];

pub(super) fn text(text: &str) -> Written {
    Written::Text(text.to_owned())
}

pub(super) fn amount(text: &str) -> Written {
    Written::Amount(text.to_owned())
}

fn new_criterion(outline: &Outline, kind: &str) -> Vec<(&'static str, Written)> {
    let mut item = vec![
        ("id", text(&free_criterion(outline))),
        ("name", text("New criterion")),
        ("kind", text(kind)),
    ];
    match kind {
        "toleranced" => item.push(("target", amount("100 mm"))),
        "spread" => item.push(("count", amount("4"))),
        "tally" => item.extend([
            ("marks", amount("2")),
            ("allowance", amount("1")),
            ("seen_from", text("at the anvil")),
            ("when", text("during")),
        ]),
        "faults" => item.push(("marks", amount("4"))),
        _ => {}
    }
    item
}

fn criterion(outline: &Outline, at: &Path, index: usize, count: usize) -> FormPart {
    let kind = outline.text(&at.key("kind")).unwrap_or_default();
    let mut found = fields(at, CRITERION);
    let mut tables = Vec::new();
    match kind.as_str() {
        "toleranced" | "paired" | "spread" => {
            let (own, asked) = match kind.as_str() {
                "toleranced" => (&TARGET, Asked::Reading),
                "paired" => (&INTENDED, Asked::Pair),
                _ => (&COUNT, Asked::Series),
            };
            found.extend(photo_field(outline, at, asked));
            found.push(field(at, own));
            found.push(field(at, &BEYOND));
            let has_target = kind == "toleranced" && outline.has(&at.key("target"));
            tables.push(bands(outline, at, has_target || kind == "paired"));
        }
        "tally" => found.extend(fields(at, TALLY)),
        "judged" if outline.has(&at.key("numbers")) => {
            found.extend(fields(&at.key("numbers"), NUMBERS));
        }
        "judged" => tables.push(rows(
            outline,
            &at.key("levels"),
            "Levels, the best first",
            LEVEL,
            || Add {
                words: "Add a level".to_owned(),
                edit: Edit::Insert {
                    at: at.key("levels").at(outline.count(&at.key("levels"))),
                    item: vec![
                        ("id", text(&free_id(outline, &at.key("levels"), "level"))),
                        ("name", text("New level")),
                        ("text", text("")),
                        ("marks", amount("0")),
                    ],
                },
            },
        )),
        "faults" => found.extend(fields(at, FAULT_LIST)),
        _ => {}
    }
    let faults = at.key("faults");
    tables.push(rows(outline, &faults, "Faults", FAULT, || Add {
        words: "Add a fault".to_owned(),
        edit: Edit::Insert {
            at: faults.at(outline.count(&faults)),
            item: vec![
                ("id", text(&free_id(outline, &faults, "fault"))),
                ("name", text("New fault")),
                ("cause", text("")),
                ("remedy", text("")),
            ],
        },
    }));
    FormPart {
        name: Some(at.key("name")),
        tables,
        changes: changes(at, index, count, "criterion"),
        ..part(&dom(at), "Criterion", found)
    }
}

/// A band's row has the limits that it is written with; a new one is written as the last.
fn bands(outline: &Outline, at: &Path, has_target: bool) -> FormTable {
    let list = at.key("bands");
    let count = outline.count(&list);
    let limits = |band: &Path| -> Vec<&'static str> {
        let keys = BAND.iter().map(|(key, ..)| *key);
        let keys = keys.filter(|key| *key != "name" && *key != "marks");
        keys.filter(|key| outline.has(&band.key(key))).collect()
    };
    let last = count.checked_sub(1).map(|last| limits(&list.at(last)));
    let form = match last {
        Some(last) if !last.is_empty() => last,
        _ if has_target => vec!["within"],
        _ => vec!["at_most"],
    };
    let mut item: Vec<(&'static str, Written)> =
        form.iter().map(|key| (*key, amount("3 mm"))).collect();
    item.push(("marks", amount("1")));
    let band_rows = (0..count).map(|index| {
        let band = list.at(index);
        let own = limits(&band);
        let shown = BAND
            .iter()
            .filter(|(key, ..)| *key == "name" || *key == "marks" || own.contains(key));
        FormRow {
            fields: shown.map(|spec| field(&band, spec)).collect(),
            remove: remove(&band, "band", index),
        }
    });
    FormTable {
        title: "Bands, the narrowest first",
        path: list.clone(),
        rows: band_rows.collect(),
        add: Add {
            words: "Add a band".to_owned(),
            edit: Edit::Insert {
                at: list.at(count),
                item,
            },
        },
    }
}

fn rows(
    outline: &Outline,
    list: &Path,
    title: &'static str,
    specs: &[Spec],
    add: impl Fn() -> Add,
) -> FormTable {
    let what = if title == "Faults" { "fault" } else { "level" };
    let own = (0..outline.count(list)).map(|index| FormRow {
        fields: fields(&list.at(index), specs),
        remove: remove(&list.at(index), what, index),
    });
    FormTable {
        title,
        path: list.clone(),
        rows: own.collect(),
        add: add(),
    }
}

fn remove(at: &Path, what: &str, index: usize) -> Add {
    Add {
        words: format!("Take {what} {} out", index + 1),
        edit: Edit::Remove { at: at.clone() },
    }
}
