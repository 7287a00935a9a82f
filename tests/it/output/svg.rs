//! Drawings as files, read by Python's own XML parser.

use std::io::Write as _;
use std::process::{Command, Stdio};

use evenshod::chart::{Align, Class, Drawing, Shape, bar_shoe_sign, qr_code};
use evenshod::output::{svg, with_density};
use evenshod::quantity::Unit;
use evenshod::rubric::shipped;
use evenshod::sheet::{Block, rubric_document};
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::sheet::sample::{read, sealed_bar_shoe, sheet};

/// What the parser finds: name, size and box of the root, the texts of its first children,
/// and every class that no rule speaks of.
const READ: &str = "import json, re, sys
import xml.etree.ElementTree as tree
found = []
for text in json.load(sys.stdin):
    root = tree.fromstring(text)
    space = '{http://www.w3.org/2000/svg}'
    style = root.find(space + 'style').text
    ruled = set(re.findall(r'\\.([a-z-]+)\\{', style))
    used = {word for one in root.iter() for word in one.get('class', '').split()}
    desc = root.find(space + 'desc')
    found.append({'tag': root.tag, 'width': root.get('width'), 'height': root.get('height'),
        'box': root.get('viewBox'), 'title': root.find(space + 'title').text,
        'desc': desc.text if desc is not None else None,
        'links': sum(one.get('href') is not None for one in root.iter()),
        'unruled': sorted(used - ruled - {'shaded'})})
json.dump(found, sys.stdout)";

fn parsed(texts: &[String]) -> Vec<Value> {
    let mut python = Command::new("python3")
        .args(["-c", READ])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 reads the SVG of this test; install it");
    let mut input = python.stdin.take().unwrap();
    input
        .write_all(json!(texts).to_string().as_bytes())
        .unwrap();
    drop(input);
    let read = python.wait_with_output().unwrap();
    assert!(read.status.success());
    serde_json::from_slice(&read.stdout).unwrap()
}

/// The drawings of a sheet and of every rubric that ships.
fn drawings() -> Vec<Drawing> {
    let (ledger, marking) = sealed_bar_shoe();
    let rubrics = shipped()
        .iter()
        .map(|file| rubric_document(&read(file.text), Unit::Millimetre));
    let documents = rubrics.chain([sheet(&ledger, marking)]);
    let blocks = documents.flat_map(|document| document.blocks);
    let drawings = blocks.flat_map(|block| match block {
        Block::Drawings(drawings) => drawings,
        Block::Illustrated { drawing, .. } => vec![drawing],
        Block::Verdict(verdict) => vec![verdict.ruler],
        _ => Vec::new(),
    });
    drawings.chain([bar_shoe_sign()]).collect()
}

#[test]
fn every_drawing_is_a_file_with_title_size_and_a_look_for_all_of_it() {
    let drawings = drawings();
    assert!(drawings.len() > 20);
    let files: Vec<_> = drawings.iter().map(svg).collect();
    let texts: Vec<String> = files.iter().map(|file| file.text.clone()).collect();
    for ((drawing, file), read) in drawings.iter().zip(&files).zip(parsed(&texts)) {
        assert_eq!(read["tag"], "{http://www.w3.org/2000/svg}svg");
        assert_eq!(read["title"], drawing.title.as_str());
        assert_eq!(read["width"], format!("{:.2}mm", file.width));
        assert_eq!(read["height"], format!("{:.2}mm", file.height));
        assert!(file.height <= 220.0 && file.width <= 170.0, "{read}");
        assert_eq!(read["unruled"], json!([]), "{}", drawing.title);
        assert_eq!(read["links"], 0, "{}", drawing.title);
        if !drawing.description.is_empty() {
            assert_eq!(read["desc"], drawing.description.as_str());
        }
        // One unit is as long to the right as down.
        let numbers = read["box"].as_str().unwrap().split(' ');
        let numbers: Vec<f64> = numbers.map(|one| one.parse().unwrap()).collect();
        let ratio = numbers[2] / numbers[3] / (file.width / file.height);
        assert!((ratio - 1.0).abs() < 0.01, "{read}");
    }
}

#[test]
fn a_code_keeps_its_size_and_its_look() {
    let code = qr_code("0123", "Digest".to_owned(), String::new()).unwrap();
    let file = svg(&code);
    assert!(file.width > 32.0 && file.width < 40.0, "{}", file.width);
    assert!(
        file.text.contains(".code-dark{fill:#000000;stroke:none}"),
        "{}",
        file.text
    );
    assert!(file.text.contains(".code-paper{fill:#ffffff;stroke:none}"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]
    #[test]
    fn any_words_give_a_file_that_is_xml(words in prop::collection::vec(any::<String>(), 1..20)) {
        let drawing = |text: &String| Drawing {
            width: 10.0,
            height: 10.0,
            title: text.clone(),
            description: text.clone(),
            shapes: vec![Shape::Text {
                x: 1.0,
                y: 1.0,
                align: Align::Start,
                text: text.clone(),
                class: Class::Label,
            }],
            ..Drawing::default()
        };
        let texts: Vec<String> = words.iter().map(|text| svg(&drawing(text)).text).collect();
        prop_assert_eq!(parsed(&texts).len(), words.len());
    }
}

/// A picture of one white dot, written by Python's zlib; its blocks are read again by it.
const DOT: &[u8] = include_bytes!("../../data/png/dot.png");

#[test]
fn a_picture_says_how_large_it_is_meant() {
    let made = with_density(DOT, 300);
    let script = "import json, struct, sys, zlib
data = sys.stdin.buffer.read()[8:]
blocks = []
while data:
    size, = struct.unpack('>I', data[:4])
    name, body, sums = data[4:8], data[8:8 + size], data[8 + size:12 + size]
    assert struct.unpack('>I', sums)[0] == zlib.crc32(name + body)
    blocks.append([name.decode(), list(struct.unpack('>IIB', body)) if name == b'pHYs' else size])
    data = data[12 + size:]
json.dump(blocks, sys.stdout)";
    let mut python = Command::new("python3")
        .args(["-c", script])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 reads the PNG of this test; install it");
    python.stdin.take().unwrap().write_all(&made).unwrap();
    let read = python.wait_with_output().unwrap();
    assert!(read.status.success());
    let blocks: Value = serde_json::from_slice(&read.stdout).unwrap();
    assert_eq!(blocks[0], json!(["IHDR", 13]));
    // 300 dots to the inch are 11,811 to the metre (ISO 80000-3: 1 in is 25.4 mm).
    assert_eq!(blocks[1], json!(["pHYs", [11_811, 11_811, 1]]));
    assert_eq!(blocks.as_array().unwrap().len(), 4);
    assert_eq!(with_density(b"no picture", 300), b"no picture");
    assert_eq!(with_density(b"", 300), b"");
}
