use std::process::{Command, Stdio};
use std::sync::LazyLock;

use evenshod::records::{Bundle, BundleError, Ledger, RawRecord, Record, sha256_hex};
use proptest::prelude::*;
use serde_json::{Value, json};

use super::sample::{bundle, full_bundle, full_ledger, jpeg, now, picture};

static TEXT: LazyLock<String> = LazyLock::new(|| full_bundle().write().unwrap());

fn read(text: &str) -> Result<Bundle, BundleError> {
    Bundle::read(text.as_bytes())
}

/// The file's digest, worked out as its description says and not as the program does.
fn digest(file: &Value) -> String {
    let head: serde_json::Map<String, Value> = file
        .as_object()
        .unwrap()
        .iter()
        .filter(|(key, _)| {
            ["format", "schema", "written", "device", "count"].contains(&key.as_str())
        })
        .map(|(key, value)| (key.clone(), value.clone()))
        .collect();
    let lists =
        ["records", "unreadable", "pictures"].map(|list| file[list].as_array().unwrap().clone());
    let lines = std::iter::once(Value::Object(head)).chain(lists.into_iter().flatten());
    // A map of serde_json sorts its keys, and these are all plain letters.
    let text: String = lines.map(|line| format!("{line}\n")).collect();
    sha256_hex(text.as_bytes())
}

/// The full file after `change`, with count, sums and digest made to fit again.
fn forged(change: impl Fn(&mut Value)) -> String {
    let mut file: Value = serde_json::from_str(&TEXT).unwrap();
    change(&mut file);
    let records = file["records"].as_array().unwrap();
    let sums: Vec<_> = records
        .iter()
        .map(|record| sha256_hex(record.to_string().as_bytes())[..8].to_owned())
        .collect();
    file["count"] = json!(sums.len());
    file["sums"] = json!(sums);
    file["sha256"] = json!(digest(&file));
    file.to_string()
}

#[test]
fn a_ledger_comes_back_as_it_was() {
    let whole = full_bundle();
    let back = read(&TEXT).unwrap();
    assert_eq!(back, whole);
    assert_eq!(back.records(), full_ledger().records().collect::<Vec<_>>());
    assert_eq!(back.write().as_deref(), Ok(TEXT.as_str()), "byte for byte");
    assert_eq!((back.written(), back.device()), (now(), "bench tablet"));
    assert_eq!(back.unreadable()[0].key, "learner/1");
}

#[test]
fn an_empty_ledger_is_a_file_too() {
    let text = bundle(&Ledger::default()).write().unwrap();
    let back = read(&text).unwrap();
    assert_eq!((back.records(), back.unreadable()), (&[][..], &[][..]));
}

#[test]
fn the_digest_is_as_described() {
    let file: Value = serde_json::from_str(&TEXT).unwrap();
    assert_eq!(file["sha256"], json!(digest(&file)));
}

/// The line that the room's documentation gives, where the tools for it are there.
#[test]
fn the_digest_can_be_checked_from_the_shell() {
    let jq = "jq -cS 'del(.sha256, .sums, .records, .unreadable, .pictures), .records[], .unreadable[], .pictures[]?' | sha256sum";
    let told = Command::new("sh")
        .args(["-c", &format!("command -v jq sha256sum >&2 && {jq}")])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn();
    let Ok(mut told) = told else { return };
    let file: Value = serde_json::from_str(&TEXT).unwrap();
    let written = std::io::Write::write_all(&mut told.stdin.take().unwrap(), TEXT.as_bytes());
    let told = told.wait_with_output().unwrap();
    if written.is_ok() && told.status.success() {
        let told = String::from_utf8(told.stdout).unwrap();
        assert_eq!(told.split(' ').next(), file["sha256"].as_str());
    }
}

#[test]
fn a_file_that_was_only_laid_out_anew_still_stands() {
    let file: Value = serde_json::from_str(&TEXT).unwrap();
    for text in [
        file.to_string(),
        serde_json::to_string_pretty(&file).unwrap(),
        format!("\u{feff}{}", TEXT.as_str()),
        TEXT.replace('\n', "\r\n"),
    ] {
        assert_eq!(read(&text), Ok(full_bundle()));
    }
}

#[test]
fn a_text_that_this_program_can_read_is_a_record_again() {
    let ledger = full_ledger();
    let record = ledger.records().next().unwrap();
    let raw = RawRecord {
        key: record.key().to_string(),
        text: record.write().unwrap(),
    };
    let without: Vec<Record> = ledger.records().skip(1).collect();
    let text = Bundle::of(&Ledger::of(without), vec![raw.clone(), raw], "", now())
        .write()
        .unwrap();
    let back = read(&text).unwrap();
    assert_eq!(back.records().len(), ledger.records().count());
    assert!(back.records().contains(&record));
    assert_eq!(back.unreadable(), &[]);
}

#[test]
fn every_truncation_is_found_and_says_how_much_is_there() {
    let text = TEXT.trim_end();
    let count = full_bundle().records().len();
    let bytes = text.as_bytes();
    let mut last = 0;
    for end in 0..bytes.len() {
        let error = Bundle::read(&bytes[..end]).unwrap_err();
        match &error {
            BundleError::Empty => assert_eq!(end, 0),
            BundleError::Foreign { .. } => assert!(end < 30, "{end}: {error}"),
            BundleError::CutShort { there } => {
                if let Some((whole, rest)) = there.split_once(" of ") {
                    assert_eq!(rest, format!("{count} records are there"));
                    let whole = whole.parse().unwrap();
                    assert!(last <= whole, "{end}: {error}");
                    last = whole;
                }
            }
            other => panic!("cut at {end}: {other}"),
        }
    }
    assert_eq!(last, count);
}

#[test]
fn an_altered_record_is_named() {
    let changed = TEXT.replacen("Bea Coe", "Bea Cole", 1);
    let error = read(&changed).unwrap_err().to_string();
    assert!(
        error.starts_with("the file was altered after it was saved: record 2 (learner/0"),
        "{error}"
    );
    let gone: Vec<&str> = TEXT
        .lines()
        .filter(|line| !line.contains("Bea Coe"))
        .collect();
    let error = read(&gone.join("\n")).unwrap_err().to_string();
    assert!(
        error.contains("it says that it holds 16 records, and there are 15"),
        "{error}"
    );
    let swapped = TEXT.replacen("bench tablet\",\"count", "other tablet\",\"count", 1);
    let error = read(&swapped).unwrap_err().to_string();
    assert!(error.contains("the digest that it states"), "{error}");
}

#[test]
fn a_newer_file_is_refused_and_nothing_of_it_is_read() {
    let layout = TEXT.replacen("\"schema\":2", "\"schema\":3,\"branch\":{}", 1);
    let record = forged(|file| {
        file["records"][5]["schema"] = json!(3);
        file["records"][5]["mood"] = json!("good");
    });
    let kind = forged(|file| file["records"][0]["kind"] = json!("horse"));
    for (text, what) in [
        (layout, "its layout is number 3"),
        (record, "record 6 is a sitting of schema 3"),
        (kind, "record 1 is of the kind `horse`"),
    ] {
        let error = read(&text).unwrap_err();
        assert!(matches!(error, BundleError::Newer { .. }), "{error}");
        let error = error.to_string();
        assert!(error.contains(what), "{error}");
        assert!(error.contains("reload the page"), "{error}");
    }
}

#[test]
fn other_files_are_called_by_their_name() {
    let sealed = json!({ "file": "evenshod sealed marking file", "schema": 1 }).to_string();
    for (text, what) in [
        (sealed.as_str(), "it is an `evenshod sealed marking file`"),
        ("{\"format\":\"other\"}", "it calls itself `other`"),
        ("{\"a\":[1,2]}", "it does not say that it is one"),
        ("[]", "it is not written as one"),
        ("id,name\n1,Ada\n", "it is not written as one"),
        (
            "{\"format\":\"evenshod ledger\"}",
            "it does not say which layout",
        ),
        (
            "{\"format\":\"evenshod ledger\",\"schema\":0}",
            "it does not say which layout",
        ),
    ] {
        let error = read(text).unwrap_err();
        assert!(matches!(error, BundleError::Foreign { .. }), "{error}");
        assert!(error.to_string().contains(what), "{error}");
    }
    assert_eq!(read(" \n"), Err(BundleError::Empty));
    let picture = Bundle::read(b"\x89PNG\r\n\x1a\n\xff\xfe").unwrap_err();
    assert!(picture.to_string().contains("it is not text"), "{picture}");
}

#[test]
fn what_no_program_writes_is_refused_though_the_digest_fits() {
    let twice = forged(|file| {
        let copy = file["records"][0].clone();
        file["records"].as_array_mut().unwrap().push(copy);
    });
    let error = read(&twice).unwrap_err();
    let is_told = matches!(
        error,
        BundleError::Twice {
            first: 1,
            second: 17,
            ..
        }
    );
    assert!(is_told, "{error}");
    let unknown = forged(|file| file["records"][1]["surname"] = json!("Coe"));
    let error = read(&unknown).unwrap_err().to_string();
    assert!(
        error.starts_with("record 2 of the file cannot be read (learner: unknown field `surname`"),
        "{error}"
    );
    let more = forged(|file| file["extra"] = json!(1));
    let error = read(&more).unwrap_err();
    assert!(matches!(error, BundleError::Damaged { .. }), "{error}");
    // A key that stands twice.
    let double = TEXT.replacen("\"count\":", "\"device\":\"x\",\"count\":", 1);
    let error = read(&double).unwrap_err().to_string();
    assert!(
        error.contains("line 1: duplicate field `device`"),
        "{error}"
    );
}

#[test]
fn deep_nests_are_refused() {
    for (open, close) in [("[", "]"), ("{\"a\":", "}")] {
        let deep = format!("{}1{}", open.repeat(200_000), close.repeat(200_000));
        read(&deep).unwrap_err();
        let inside = TEXT.replacen("\"records\":[", &format!("\"records\":[{deep},"), 1);
        read(&inside).unwrap_err();
        let instead = TEXT.replacen("\"bench tablet\"", &deep, 1);
        read(&instead).unwrap_err();
    }
}

proptest! {
    #[test]
    fn a_changed_byte_is_found_or_changes_nothing(
        at in any::<prop::sample::Index>(),
        to in any::<u8>(),
    ) {
        let mut bytes = TEXT.clone().into_bytes();
        let at = at.index(bytes.len());
        bytes[at] = to;
        if let Ok(back) = Bundle::read(&bytes) {
            prop_assert_eq!(back, full_bundle());
        }
    }

    #[test]
    fn mangled_files_never_panic(
        edits in prop::collection::vec(
            (any::<prop::sample::Index>(), any::<prop::sample::Index>(), 0..5_u8, any::<u8>()),
            1..8,
        ),
    ) {
        let mut bytes = TEXT.clone().into_bytes();
        for (at, other, how, byte) in edits {
            if bytes.is_empty() {
                break;
            }
            let (at, other) = (at.index(bytes.len()), other.index(bytes.len()));
            let (from, to) = (at.min(other), at.max(other));
            match how {
                0 => bytes.truncate(at),
                1 => bytes[at] = byte,
                2 => drop(bytes.drain(from..to)),
                3 => bytes.insert(at, b"{}[]\",:\\9"[usize::from(byte) % 9]),
                _ => {
                    let part = bytes[from..to].to_vec();
                    bytes.splice(at..at, part);
                }
            }
        }
        if let Ok(back) = Bundle::read(&bytes) {
            prop_assert_eq!(back, full_bundle());
        }
    }

    #[test]
    fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        let _ = Bundle::read(&bytes);
    }
}

#[test]
fn pictures_come_back_and_one_that_was_altered_is_named() {
    let back = read(&TEXT).unwrap();
    let (digest, bytes) = picture(&jpeg(1));
    assert_eq!(back.picture(&digest), Some(&bytes));
    let mut file: Value = serde_json::from_str(&TEXT).unwrap();
    file["pictures"][0]["data"] = json!("AAAA");
    let told = read(&file.to_string()).unwrap_err().to_string();
    let what = format!(
        "the bytes of picture 1 ({}…) are not those of its digest",
        &digest[..60]
    );
    assert!(told.contains(&what), "{told}");
    file["pictures"] = json!([]);
    let told = read(&file.to_string()).unwrap_err().to_string();
    assert!(
        told.contains("does not have the digest that it states"),
        "{told}"
    );
}

/// Layout 1 of the file, which older versions wrote, has no pictures.
#[test]
fn a_file_of_the_first_layout_is_read() {
    let text = forged(|file| {
        file["schema"] = json!(1);
        file["pictures"] = json!([]);
    });
    let mut file: Value = serde_json::from_str(&text).unwrap();
    file.as_object_mut().unwrap().remove("pictures");
    let back = read(&file.to_string()).unwrap();
    assert_eq!(back.records(), full_bundle().records());
    assert_eq!(back.picture(&picture(&jpeg(1)).0), None);
}
