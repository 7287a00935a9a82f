//! CSV as RFC 4180, section 2, rules 1 to 7 have it (from memory), read back by a
//! reader that is not ours.

use evenshod::output::csv::{guarded, write};
use evenshod::sheet::{Field, Rows};

use crate::output::csv::{read, texts};

#[track_caller]
fn check(rows: &[&[&str]], expect: &str) {
    assert_eq!(write(&texts(rows)).unwrap(), expect);
}

/// Rules 1 and 2: each record on a line of its own, ended by CR LF, the last one too.
/// Rule 3: a header line of the same form.
#[test]
fn lines_end_with_cr_lf_and_the_first_is_the_header() {
    check(
        &[&["aaa", "bbb", "ccc"], &["zzz", "yyy", "xxx"]],
        "a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
    );
}

/// Rule 4: the same number of fields in each line; spaces belong to a field.
#[test]
fn spaces_are_kept_and_empty_fields_stand() {
    check(&[&[" a ", " b "]], "a,b\r\n a , b \r\n");
    check(&[&["a", "", "c"]], "a,b,c\r\na,,c\r\n");
}

/// Rule 5: fields need no quotes, and have none where they do not.
#[test]
fn plain_fields_have_no_quotes() {
    check(
        &[&["plain text 10.5", "6 2/3"]],
        "a,b\r\nplain text 10.5,6 2/3\r\n",
    );
}

/// Rule 6: fields with line breaks, quotes and commas are quoted.
#[test]
fn line_ends_and_commas_are_quoted() {
    check(
        &[&["aaa", "b \r\nbb", "ccc"]],
        "a,b,c\r\naaa,\"b \r\nbb\",ccc\r\n",
    );
    check(&[&["x,y", "z"]], "a,b\r\n\"x,y\",z\r\n");
    check(
        &[&["one\ntwo", "three\rfour"]],
        "a,b\r\n\"one\ntwo\",\"three\rfour\"\r\n",
    );
}

/// Rule 7: a quotation mark inside a field is doubled.
#[test]
fn quotes_are_doubled() {
    check(
        &[&["aaa", "b\"bb", "ccc"]],
        "a,b,c\r\naaa,\"b\"\"bb\",ccc\r\n",
    );
    check(&[&["b \"q\" c", "x"]], "a,b\r\n\"b \"\"q\"\" c\",x\r\n");
}

/// Source: the characters are those that the OWASP page on CSV injection lists, with
/// their full-width forms (from memory); the texts are ours.
#[test]
fn texts_that_act_as_formulas_get_an_apostrophe() {
    let cases = [
        ("=1+1", "'=1+1"),
        ("+44 7700", "'+44 7700"),
        ("-0.35 (text)", "'-0.35 (text)"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("\t=1", "'\t=1"),
        ("\r=1", "'\r=1"),
        ("\n=1", "'\n=1"),
        ("＝1", "'＝1"),
        ("＋1", "'＋1"),
        ("－1", "'－1"),
        ("＠SUM(A1)", "'＠SUM(A1)"),
        ("ok", "ok"),
        ("a=1", "a=1"),
        ("-0.35", "-0.35"),
        ("-1", "-1"),
        ("-", "'-"),
        ("-1-1", "'-1-1"),
        ("−0.35", "−0.35"),
    ];
    for (text, expect) in cases {
        assert_eq!(guarded(text), expect, "{text:?}");
    }
}

#[test]
fn numbers_stay_numbers() {
    let rows = Rows {
        columns: vec!["value".to_owned()],
        rows: vec![vec![Field::Number("-0.35".to_owned())]],
    };
    assert_eq!(write(&rows).unwrap(), "value\r\n-0.35\r\n");
}

/// Source: the rules of RFC 4180, section 2; the rows are made up here. What Python's
/// module read of `rows.csv` is `rows.json`; `read.py` beside them made it.
#[test]
fn pythons_csv_module_reads_the_same_fields() {
    let table = texts(&[
        &["1", "2", "3"],
        &["a", "b \"q\" c", ""],
        &["line1\r\nline2", "x", "line1\nline2"],
        &["x,y", "z", ";"],
        &[" a ", " b ", "\u{a0}"],
        &["ä漢😀", "\u{202e}rtl", "عربي"],
        &["'", "\"", "\"\""],
        &["", "", ""],
    ]);
    let text = write(&table).unwrap();
    let ours = read(&text);
    let fields = |row: &Vec<Field>| -> Vec<String> { row.iter().map(Field::words).collect() };
    let expect: Vec<Vec<String>> = table.rows.iter().map(fields).collect();
    assert_eq!(ours[1..], expect[..], "the csv crate");
    assert_eq!(text, include_str!("../../data/csv/rows.csv"));
    let theirs: Vec<Vec<String>> =
        serde_json::from_str(include_str!("../../data/csv/rows.json")).unwrap();
    assert_eq!(theirs, ours, "Python's csv module");
}
