//! rubrics/README.md against the reader: every example is read, every key and
//! word that one of them knows stands in the other.

use std::collections::BTreeSet;

use evenshod::piece::{
    BarShape, ClipPlace, Feature, Foot, FullerExtent, HeelShape, Section, ShoeKind, ToeShape,
};
use evenshod::rubric::{SeenFrom, When};

use super::sample::{read, with_criterion, with_root};

const README: &str = include_str!("../../../rubrics/README.md");

const READER: &[&str] = &[
    include_str!("../../../src/rubric/read/mod.rs"),
    include_str!("../../../src/rubric/read/root.rs"),
    include_str!("../../../src/rubric/read/award.rs"),
    include_str!("../../../src/rubric/read/criterion.rs"),
    include_str!("../../../src/rubric/read/impression.rs"),
    include_str!("../../../src/rubric/read/kinds.rs"),
    include_str!("../../../src/rubric/read/lists.rs"),
    include_str!("../../../src/rubric/read/numbers.rs"),
    include_str!("../../../src/rubric/read/photo.rs"),
    include_str!("../../../src/rubric/read/piece.rs"),
    include_str!("../../../src/rubric/read/scale.rs"),
    include_str!("../../../src/rubric/read/table.rs"),
];

/// The code blocks: what stands after the three ticks, and the text.
fn blocks() -> Vec<(&'static str, &'static str)> {
    let fenced = README.split("```").skip(1).step_by(2);
    fenced
        .map(|block| block.split_once('\n').unwrap())
        .collect()
}

/// A plain `toml` block is a whole rubric; `toml root` goes to the root of the
/// smallest rubric in place of what it has there; `toml criterion` becomes its
/// only criterion.
#[test]
fn every_example_is_read() {
    let mut counts = [0; 3];
    for (tag, text) in blocks() {
        let (at, text) = match tag {
            "toml" => (0, text.to_owned()),
            "toml root" => (1, with_root(text)),
            "toml criterion" => (2, with_criterion(text)),
            other => panic!("no rule for a block of `{other}`"),
        };
        // A pair of shoes names its readings by shoe.
        read(&text);
        counts[at] += 1;
    }
    assert!(counts.iter().all(|count| *count > 0), "{counts:?}");
}

/// First cells of the tables that list keys.
fn keys_of_readme() -> BTreeSet<&'static str> {
    let mut keys = BTreeSet::new();
    let mut in_table = false;
    for line in README.lines() {
        if line.starts_with("| key |") {
            in_table = true;
        } else if !line.starts_with('|') {
            in_table = false;
        } else if in_table {
            let cell = line.split('|').nth(1).unwrap_or("");
            keys.extend(cell.split('`').skip(1).step_by(2));
        }
    }
    keys
}

/// Key literals: first arguments of the calls by which the reader asks a table.
fn keys_of_reader() -> BTreeSet<&'static str> {
    const CALLS: &[&str] = &[
        ".angle(",
        ".count(",
        ".exact(",
        ".flag(",
        ".has(",
        ".id(",
        ".length(",
        ".marks(",
        ".needed_length(",
        ".needed_marks(",
        ".needed_text(",
        ".number_text(",
        ".percent(",
        ".positive(",
        ".positive_count(",
        ".positive_marks(",
        ".quantity(",
        ".read(",
        ".table(",
        ".tables(",
        ".text(",
        ".text_or_empty(",
        ".texts(",
        ".threshold(",
        ".word(",
        " angle(",
        " duration(",
        "(limit(",
        " limit(",
        "read_list(root, ",
        "needed_threshold(&table, ",
        "read_scale(table, dimension, ",
        "read_scale(table, read_dimension(table), ",
    ];
    let mut keys = BTreeSet::from(["id"]);
    for source in READER {
        for call in CALLS {
            for after in source.split(call).skip(1) {
                let literal = after.trim_start().strip_prefix('"');
                keys.extend(literal.and_then(|text| text.split('"').next()));
            }
        }
    }
    keys
}

#[test]
fn every_key_that_the_reader_knows_is_described_and_no_other() {
    let (reader, readme) = (keys_of_reader(), keys_of_readme());
    let undescribed: Vec<_> = reader.difference(&readme).collect();
    assert!(undescribed.is_empty(), "not in README: {undescribed:?}");
    let unknown: Vec<_> = readme.difference(&reader).collect();
    assert!(unknown.is_empty(), "only in README: {unknown:?}");
    assert!(reader.len() > 90, "{} keys found", reader.len());
}

#[test]
fn every_word_that_a_key_may_hold_is_named() {
    fn words<T>(list: &[(&'static str, T)]) -> Vec<&'static str> {
        list.iter().map(|(word, _)| *word).collect()
    }
    let fixed = [
        "mm",
        "in",
        "length",
        "angle",
        "mass",
        "duration",
        "count",
        "toleranced",
        "paired",
        "spread",
        "tally",
        "judged",
        "faults",
        "noted",
        "deduct",
        "warn",
        "stop",
        "refused",
        "rescale",
        "keep",
        "range",
        "farthest from mean",
        "inside",
        "over",
        "mark as it stands",
        "planned heats",
        "planned weld heats",
        "simple",
        "guarded acceptance",
        "guarded rejection",
        "each shoe",
        "discussion",
        "mean",
        "lower",
        "piece",
    ];
    let lists = [
        words(ShoeKind::WORDS),
        words(Foot::WORDS),
        words(Section::WORDS),
        words(ToeShape::WORDS),
        words(FullerExtent::WORDS),
        words(HeelShape::WORDS),
        words(BarShape::WORDS),
        words(ClipPlace::WORDS),
        words(When::WORDS),
        words(SeenFrom::WORDS),
        fixed.to_vec(),
        Feature::ALL.map(Feature::word).to_vec(),
    ];
    let missing: Vec<_> = lists
        .into_iter()
        .flatten()
        .filter(|word| !README.contains(&format!("`\"{word}\"`")))
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
}

/// The contents at the top lead somewhere.
#[test]
fn every_link_inside_leads_to_a_heading() {
    let anchors: BTreeSet<String> = README
        .lines()
        .filter_map(|line| line.strip_prefix("## ").or(line.strip_prefix("### ")))
        .map(|heading| heading.to_lowercase().replace(',', "").replace(' ', "-"))
        .collect();
    for link in README.split("](#").skip(1) {
        let anchor = link.split(')').next().unwrap();
        assert!(anchors.contains(anchor), "#{anchor}");
    }
}

#[test]
fn the_smallest_whole_rubric_gives_the_marks_that_the_text_says() {
    let (_, text) = blocks()
        .into_iter()
        .find(|(tag, _)| *tag == "toml")
        .unwrap();
    let out_of = read(text).out_of().unwrap();
    assert!(README.contains(&format!("It is complete: {out_of} marks")));
}
