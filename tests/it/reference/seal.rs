use evenshod::records::{canonical_json, sha256_hex};

#[track_caller]
fn check_canonical(input: &str, expect: &str) {
    let value = serde_json::from_str(input).unwrap();
    assert_eq!(canonical_json(&value).unwrap(), expect);
}

/// Source: FIPS 180-2, appendix B.1, `abc` (from memory).
#[test]
fn sha256_of_abc() {
    assert_eq!(
        sha256_hex(b"abc"),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
}

/// Source: FIPS 180-2, appendix B.2 (from memory).
#[test]
fn sha256_of_two_blocks() {
    assert_eq!(
        sha256_hex(b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
    );
}

/// Source: RFC 8785, section 3.2.2, the sample and its serialization (from memory).
#[test]
fn literals_numbers_and_strings_as_published() {
    check_canonical(
        r#"{
            "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
            "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
            "literals": [null, true, false]
        }"#,
        r#"{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}"#,
    );
}

/// Source: RFC 8785, section 3.2.3, sorting by UTF-16 code units (from memory).
#[test]
fn keys_sort_by_utf_16_units_as_published() {
    check_canonical(
        r#"{
            "\u20ac": "Euro Sign",
            "\r": "Carriage Return",
            "\ufb33": "Hebrew Letter Dalet With Dagesh",
            "1": "One",
            "\ud83d\ude00": "Emoji: Grinning Face",
            "\u0080": "Control",
            "\u00f6": "Latin Small Letter O With Diaeresis"
        }"#,
        concat!(
            r#"{"\r":"Carriage Return","1":"One",""#,
            "\u{80}",
            r#"":"Control","ö":"Latin Small Letter O With Diaeresis","#,
            r#""€":"Euro Sign","😀":"Emoji: Grinning Face","#,
            "\"\u{fb33}\":\"Hebrew Letter Dalet With Dagesh\"}"
        ),
    );
}
