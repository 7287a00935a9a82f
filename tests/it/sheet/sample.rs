//! Pieces marked by the shipped bar shoe rubric.

use evenshod::command::{Command, Edit, RubricText, StartPiece, Who};
use evenshod::marking::{Lift, Pause, ReadingFact, State, StateFact};
use evenshod::records::{Ledger, MarkingId, sha256_hex};
use evenshod::rubric::{Rubric, read_rubric, shipped};
use evenshod::sheet::{Block, Document, Rows, Scored, long_rows, scored_sheet};

use crate::records::sample::{after, comment, level, named, seal, stamp, start_piece};

/// The text of the straight bar shoe.
pub fn bar_shoe_text() -> &'static str {
    let file = shipped()
        .iter()
        .find(|file| file.file == "straight-bar-shoe.toml");
    file.unwrap().text
}

pub fn read(text: &str) -> Rubric {
    let checked = read_rubric(text);
    let errors: Vec<_> = checked.errors().map(ToString::to_string).collect();
    assert!(errors.is_empty(), "{}", errors.join("\n"));
    checked.rubric.unwrap()
}

/// One piece begun by `text`, and its draft.
pub fn begun(text: &str, who: Who) -> (Ledger, MarkingId) {
    let rubric = read(text);
    let what = StartPiece {
        rubric: RubricText {
            digest: sha256_hex(text.as_bytes()),
            rubric_id: rubric.id,
            version: rubric.version,
            title: rubric.title,
            text: text.to_owned(),
        },
        ..start_piece(who)
    };
    let start = Command::StartPiece(Box::new(what));
    let (ledger, made) = after(&Ledger::default(), start, &stamp(0));
    (ledger, made.marking.unwrap())
}

pub fn begun_bar_shoe() -> (Ledger, MarkingId) {
    begun(bar_shoe_text(), named("Ada Smith"))
}

/// The ledger after these edits.
pub fn edited(ledger: Ledger, marking: MarkingId, edits: Vec<Edit>) -> Ledger {
    let commands = edits.into_iter().map(|edit| Command::edit(marking, edit));
    performed(ledger, commands.collect())
}

pub fn performed(mut ledger: Ledger, commands: Vec<Command>) -> Ledger {
    let from = ledger.latest().unwrap().time;
    for (seconds, command) in (1..).zip(commands) {
        let mut later = stamp(0);
        later.time = from + 1000 * seconds;
        ledger = after(&ledger, command, &later).0;
    }
    ledger
}

pub fn readings(entry: &str, texts: &[&str]) -> Edit {
    Edit::SetReadings {
        entry: entry.to_owned(),
        readings: texts.iter().map(|text| ReadingFact::of(*text)).collect(),
    }
}

pub fn tally(entry: &str, text: &str) -> Edit {
    Edit::SetTally {
        entry: entry.to_owned(),
        tally: Some(text.to_owned()),
    }
}

pub fn faults(entry: &str, ids: &[&str]) -> Edit {
    Edit::SetFaults {
        entry: entry.to_owned(),
        faults: Some(ids.iter().map(|id| (*id).to_owned()).collect()),
    }
}

pub fn state(entry: &str, state: State, reason: &str) -> Edit {
    Edit::SetState {
        entry: entry.to_owned(),
        state: Some(StateFact {
            state,
            reason: Some(reason.to_owned()),
            marks: None,
        }),
    }
}

/// A whole bar shoe: every criterion has its marks.
pub fn whole_bar_shoe() -> (Ledger, MarkingId) {
    let (ledger, marking) = begun_bar_shoe();
    let edits = vec![
        readings("thickness", &["9.4", "9.6 mm"]),
        readings("branches-left", &["62,4"]),
        readings("branches-right", &["64.8"]),
        readings("width", &["5 1/4"]),
        readings("length", &["137.5"]),
        readings("heel-gap", &["60.5"]),
        readings("bar-straight", &["0.6..0.7"]),
        readings("bar-square", &["-1.5"]),
        readings("bar-width", &["within"]),
        readings("bar-thickness", &["9.1"]),
        readings("fuller-depth", &["6.0", "6.2"]),
        readings("fuller-inset", &["8"]),
        readings("fuller-ends-left", &["117"]),
        readings("fuller-ends-right", &["118"]),
        readings("nail-count", &["6"]),
        readings("nail-spacing", &["28", "29", "28.5", "30"]),
        readings("nail-inset", &["8.4"]),
        readings("nails-alike-left", &["92"]),
        readings("nails-alike-right", &["94"]),
        readings("level", &["0.35..0.4"]),
        tally("heats", "10"),
        tally("weld-heats", "2"),
        tally("time", "66 min"),
        faults("finish", &["fin1", "fin1", "fin3"]),
        faults("safety", &["black-heat"]),
        faults("weld", &["wld1"]),
        Edit::SetPauses {
            pauses: vec![Pause {
                duration: "4".to_owned(),
                reason: "fire tended for another piece".to_owned(),
            }],
        },
    ];
    let ledger = edited(ledger, marking, edits);
    let judged = [
        ("toe-bend", "near"),
        ("outline", "4.5"),
        ("weld", "line"),
        ("scarf-closed", "trace"),
        ("fuller-walls", "clean"),
        ("nail-fit", "one-off"),
        ("toe-roll", "near"),
    ];
    let commands = judged.map(|(entry, given)| level(marking, entry, given));
    (performed(ledger, commands.to_vec()), marking)
}

/// As [`whole_bar_shoe`], with an open weld whose stop is lifted, comments, sealed.
pub fn sealed_bar_shoe() -> (Ledger, MarkingId) {
    let (ledger, marking) = whole_bar_shoe();
    let lift = Lift {
        entry: "weld".to_owned(),
        by: "Chief Examiner".to_owned(),
        reason: "opened in the break test that the sitting asks for".to_owned(),
    };
    let commands = vec![
        level(marking, "weld", "open"),
        Command::edit(marking, Edit::SetLifts { lifts: vec![lift] }),
        comment(marking, Some("weld"), "Scarf too short."),
        comment(marking, None, "Sound work.\nMind the fire."),
        seal(marking),
    ];
    (performed(ledger, commands), marking)
}

/// Looks at one marking with what it comes to.
pub fn look<T>(ledger: &Ledger, marking: MarkingId, see: impl FnOnce(&Scored<'_>) -> T) -> T {
    let marking = ledger.marking(marking).unwrap();
    let parts = ledger.seal_parts(marking).unwrap();
    let rubric = read(&parts.rubric.text);
    see(&Scored::of(parts, &rubric))
}

/// The rows of one marking, one a criterion.
pub fn long(scored: &Scored<'_>) -> Rows {
    long_rows(std::slice::from_ref(scored))
}

pub fn sheet(ledger: &Ledger, marking: MarkingId) -> Document {
    look(ledger, marking, scored_sheet)
}

/// A document as plain text, one line a part, ` | ` between cells.
pub fn plain(document: &Document) -> String {
    let mut lines = vec![format!("# {}", document.title), document.about.clone()];
    lines.extend(plain_blocks(&document.blocks));
    lines.join("\n")
}

fn plain_blocks(blocks: &[Block]) -> Vec<String> {
    let mut lines = Vec::new();
    for block in blocks {
        match block {
            Block::Heading { level, text } => {
                lines.push(format!("{} {text}", "#".repeat(usize::from(*level))));
            }
            Block::Paragraph(text) => lines.push(text.clone()),
            Block::Drawings(drawings) => {
                lines.extend(
                    drawings
                        .iter()
                        .map(|drawing| format!("({})", drawing.title)),
                );
            }
            Block::TrueSize { drawing, .. } => lines.push(format!("({})", drawing.title)),
            Block::Illustrated { drawing, beside } => {
                lines.push(format!("({})", drawing.title));
                lines.extend(plain_blocks(beside));
            }
            Block::Pictures(pictures) => {
                let said = pictures.iter();
                lines.extend(said.map(|one| format!("[{}] {}", one.alt, one.caption)));
            }
            Block::Facts(facts) | Block::Series(facts) => {
                let said = facts
                    .iter()
                    .map(|fact| format!("{}: {}", fact.label, fact.value));
                lines.extend(said);
            }
            Block::Verdict(verdict) => lines.push(format!(
                "{} {} {}; {}",
                verdict.award, verdict.marks, verdict.out_of, verdict.rest
            )),
            Block::Notice(notice) => {
                lines.push(format!("{:?}! {}", notice.weight, notice.text));
                lines.extend(notice.items.iter().map(|item| format!("  {item}")));
            }
            Block::Table(table) => {
                lines.push(table.caption.clone());
                let titles: Vec<_> = table
                    .columns
                    .iter()
                    .map(|column| column.title.clone())
                    .collect();
                lines.push(titles.join(" | "));
                for group in &table.groups {
                    lines.push(format!("[{}]", group.heading));
                    for row in group.rows.iter() {
                        let cells: Vec<_> = row.iter().map(|cell| cell.text.as_str()).collect();
                        lines.push(cells.join(" | "));
                    }
                }
                let foot: Vec<_> = table.foot.iter().map(|cell| cell.text.as_str()).collect();
                lines.push(foot.join(" | "));
            }
            Block::Items(items) => {
                for item in items {
                    lines.push(format!("- {}. {}", item.lead, item.lines.join(" / ")));
                }
            }
            Block::Code { label, groups } => {
                lines.push(format!("{label} {}", groups.join(" ")));
            }
            Block::Signatures(signs) => lines.push(format!("signs: {}", signs.join(" | "))),
        }
    }
    lines
}
