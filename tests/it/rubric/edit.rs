//! Changes to a rubric's text against the text as it was: the one line, and nothing else.

use evenshod::rubric::edit::{Edit, EditError, Outline, Path, Written, change, compare};
use evenshod::rubric::{read_rubric, shipped};
use proptest::prelude::*;

fn path(text: &str) -> Path {
    text.parse().unwrap()
}

fn set(at: &str, to: Written) -> Edit {
    Edit::Set { at: path(at), to }
}

fn amount(text: &str) -> Written {
    Written::Amount(text.to_owned())
}

fn made(text: &str, edit: &Edit) -> String {
    change(text, edit).unwrap()
}

const SMALL: &str = r#"# What it is for.
id = "small" # stays

[award]
pass = "60 %"    # half and a bit

# The first.
[[sections]]
id = "form"

  # Width.
  [[sections.criteria]]
  id = "width"
  kind = "toleranced"
  target = "130 mm"
  bands = [
    { name = "close", within = "1.5 mm", marks = 4 }, # best
    { within = "3 mm", marks = 2 },
  ]

  [[sections.criteria]]
  id = "outline"
  numbers = { least = 0, most = 8 }
"#;

#[test]
fn a_value_is_written_in_the_place_of_the_old_one() {
    let after = made(SMALL, &set("award.pass", amount("65 %")));
    assert_eq!(after, SMALL.replace("60 %", "65 %"));
    let after = made(
        SMALL,
        &set("sections.0.criteria.0.bands.1.marks", amount("2.50")),
    );
    assert_eq!(after, SMALL.replace("marks = 2 }", "marks = 2.50 }"));
    let after = made(
        SMALL,
        &set("sections.0.criteria.1.numbers.most", amount("20/3")),
    );
    assert_eq!(after, SMALL.replace("most = 8", "most = \"20/3\""));
}

#[test]
fn a_key_that_was_not_there_follows_the_last_one() {
    let after = made(SMALL, &set("sections.0.criteria.1.weight", amount("2")));
    let with = "  numbers = { least = 0, most = 8 }\n  weight = 2\n";
    assert_eq!(
        after,
        SMALL.replace("  numbers = { least = 0, most = 8 }\n", with)
    );
    let after = made(
        SMALL,
        &set("sections.0.criteria.1.numbers.step", amount("0.5")),
    );
    assert_eq!(after, SMALL.replace("most = 8 }", "most = 8, step = 0.5 }"));
}

#[test]
fn bands_come_and_go_on_lines_of_their_own() {
    let band = Edit::Insert {
        at: path("sections.0.criteria.0.bands.2"),
        item: vec![("within", amount("4.5 mm")), ("marks", amount("1"))],
    };
    let after = made(SMALL, &band);
    let with = "    { within = \"3 mm\", marks = 2 },\n    { within = \"4.5 mm\", marks = 1 },\n";
    assert_eq!(
        after,
        SMALL.replace("    { within = \"3 mm\", marks = 2 },\n", with)
    );
    let gone = Edit::Remove {
        at: path("sections.0.criteria.0.bands.2"),
    };
    assert_eq!(made(&after, &gone), SMALL);
}

#[test]
fn blocks_come_go_and_move_with_their_comments() {
    let new = Edit::Insert {
        at: path("sections.0.criteria.2"),
        item: vec![
            ("id", Written::Text("level".into())),
            ("kind", Written::Text("judged".into())),
        ],
    };
    let after = made(SMALL, &new);
    let block = "\n  [[sections.criteria]]\n  id = \"level\"\n  kind = \"judged\"\n";
    assert_eq!(after, format!("{SMALL}{block}"));
    let gone = Edit::Remove {
        at: path("sections.0.criteria.2"),
    };
    assert_eq!(made(&after, &gone), SMALL);
    let up = Edit::Move {
        at: path("sections.0.criteria.1"),
        to: 0,
    };
    let moved = made(SMALL, &up);
    assert!(
        moved.find("outline").unwrap() < moved.find("# Width.").unwrap(),
        "{moved}"
    );
    assert_eq!(made(&moved, &up), SMALL);
}

#[test]
fn a_table_comes_behind_all_others_and_goes() {
    let on = Edit::Begin {
        at: path("moderation"),
        keys: vec![
            ("settle", Written::Text("mean".into())),
            ("third_examiner", Written::Flag(true)),
        ],
    };
    let after = made(SMALL, &on);
    let table = "\n[moderation]\nsettle = \"mean\"\nthird_examiner = true\n";
    assert_eq!(after, format!("{SMALL}{table}"));
    // What stands there stays, however it is written.
    for text in [
        after.as_str(),
        "moderation = 3\n",
        "moderation.settle = 1\n",
    ] {
        assert!(matches!(change(text, &on), Err(EditError::Missing { .. })));
    }
    let gone = Edit::Remove {
        at: path("moderation"),
    };
    assert_eq!(made(&after, &gone), SMALL);
}

#[test]
fn the_first_fault_of_a_criterion_makes_the_list() {
    let fault = Edit::Insert {
        at: path("sections.0.criteria.1.faults.0"),
        item: vec![
            ("id", Written::Text("frm1".into())),
            ("name", Written::Text("Flat".into())),
        ],
    };
    let after = made(SMALL, &fault);
    assert!(
        after.ends_with("\n[[sections.criteria.faults]]\nid = \"frm1\"\nname = \"Flat\"\n"),
        "{after}"
    );
    let outline = Outline::of(&after).unwrap();
    assert_eq!(outline.count(&path("sections.0.criteria.1.faults")), 1);
}

#[test]
fn what_is_not_there_is_told_and_nothing_changes() {
    for at in [
        "sections.7.id",
        "sections.x",
        "award.pass.more",
        "sections.0.criteria.9",
    ] {
        let at = path(at);
        let edit = Edit::Remove { at: at.clone() };
        assert_eq!(change(SMALL, &edit), Err(EditError::Missing { at }));
    }
    let fault = change("id = ", &set("id", amount("1"))).unwrap_err();
    assert!(
        fault.to_string().contains("cannot be read as TOML"),
        "{fault}"
    );
}

/// Every value in a shipped rubric that a form can hold.
fn leaves(outline: &Outline) -> Vec<Path> {
    let mut found = Vec::new();
    let keys = [
        "id", "title", "about", "version", "source", "pass", "name", "note", "weight", "kind",
        "step", "target", "within", "at_most", "marks", "text", "cause", "remedy", "example",
        "limit", "minimum", "most", "deduct",
    ];
    let lists = [
        "sections", "criteria", "bands", "levels", "faults", "causes", "heats", "steps",
    ];
    let mut open = vec![
        Path::root(),
        path("award"),
        path("time"),
        path("piece.finished"),
    ];
    while let Some(at) = open.pop() {
        found.extend(
            keys.iter()
                .map(|key| at.key(key))
                .filter(|at| outline.text(at).is_some()),
        );
        for list in lists.iter().map(|list| at.key(list)) {
            open.extend((0..outline.count(&list)).map(|index| list.at(index)));
        }
    }
    found
}

fn comments(text: &str) -> Vec<&str> {
    text.lines()
        .filter(|line| line.contains('#'))
        .map(|line| &line[line.find('#').unwrap()..])
        .collect()
}

#[test]
fn there_are_many_places_to_edit() {
    for shipped in shipped() {
        let count = leaves(&Outline::of(shipped.text).unwrap()).len();
        assert!(count > 100, "{}: {count}", shipped.file);
    }
}

proptest! {
    // A shipped rubric takes a while to read without optimisation.
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Comments and order survive: of the lines, the one with the value alone differs.
    #[test]
    fn a_form_changes_one_value_and_nothing_else(
        which in any::<prop::sample::Index>(),
        place in any::<prop::sample::Index>(),
        text in "[a-zA-Z0-9 .,/%\"\\\\#'\u{e9}\u{5d0}-]{0,12}",
        as_text in any::<bool>(),
    ) {
        let before = shipped()[which.index(shipped().len())].text;
        let outline = Outline::of(before).unwrap();
        let places = leaves(&outline);
        let at = &places[place.index(places.len())];
        let to = if as_text { Written::Text(text.clone()) } else { Written::Amount(text.clone()) };
        let after = change(before, &Edit::Set { at: at.clone(), to }).unwrap();
        let was = outline;
        let outline = Outline::of(&after).unwrap();
        let wanted = text;
        prop_assert_eq!(outline.text(at), Some(wanted));
        for other in places.iter().filter(|other| *other != at) {
            prop_assert_eq!(outline.text(other), was.text(other));
        }
        // The value's own bytes, and nothing before or behind them.
        let old = was.span(at).unwrap();
        let new = outline.span(at).unwrap();
        prop_assert_eq!(&before[..old.start], &after[..new.start]);
        prop_assert_eq!(&before[old.end..], &after[new.end..]);
    }

    /// A run of changes of all kinds leaves every comment where it stood among the others.
    #[test]
    fn comments_keep_their_order(
        which in any::<prop::sample::Index>(),
        steps in prop::collection::vec((any::<prop::sample::Index>(), 0_u8..3), 1..6),
    ) {
        let before = shipped()[which.index(shipped().len())].text;
        let mut text = before.to_owned();
        for (place, kind) in steps {
            let outline = Outline::of(&text).unwrap();
            let places = leaves(&outline);
            let at = places[place.index(places.len())].clone();
            let (above, _) = at.parent().unwrap();
            let edit = match kind {
                0 => Edit::Set { at, to: amount("7") },
                1 => Edit::Set { at: above.key("note"), to: Written::Text("new".into()) },
                _ => {
                    let list = path("sections");
                    let end = outline.count(&list);
                    Edit::Insert { at: list.at(end), item: vec![("id", Written::Text("more".into()))] }
                }
            };
            text = change(&text, &edit).unwrap();
        }
        prop_assert_eq!(comments(before), comments(&text));
    }

    #[test]
    fn no_text_and_no_path_panics(text in "\\PC{0,200}", at in "[a-z0-9.]{0,20}", to in 0_usize..5) {
        let at: Path = at.parse().unwrap();
        for edit in [
            Edit::Set { at: at.clone(), to: amount("1") },
            Edit::Remove { at: at.clone() },
            Edit::Insert { at: at.clone(), item: vec![("id", amount("1"))] },
            Edit::Move { at: at.clone(), to },
        ] {
            let _ = change(&text, &edit);
            if let Ok(after) = change(SMALL, &edit) {
                prop_assert!(Outline::of(&after).is_ok(), "{}", after);
            }
        }
    }
}

/// A rubric that forms have changed is still a rubric.
#[test]
fn a_shipped_rubric_edited_by_forms_is_read() {
    let mut text = shipped()[0].text.to_owned();
    for edit in [
        set("id", Written::Text("our-bar-shoe".into())),
        set("version", Written::Text("2".into())),
        set("award.pass", amount("70 %")),
        set("sections.0.minimum", amount("50 %")),
    ] {
        text = made(&text, &edit);
    }
    let rubric = read_rubric(&text).rubric.unwrap();
    assert_eq!(
        (rubric.id.as_str(), rubric.version.as_str()),
        ("our-bar-shoe", "2")
    );
    assert!(rubric.sections[0].minimum.is_some());
}

fn differences(after: &str) -> Vec<String> {
    let found = compare(SMALL, after).unwrap();
    let said = found.iter().map(|one| {
        let side = |side: &Option<String>| side.clone().unwrap_or("-".into());
        let place = one.place.join("/");
        format!(
            "{place}/{}: {} > {}",
            one.what,
            side(&one.before),
            side(&one.after)
        )
    });
    said.collect()
}

#[test]
fn differences_are_told_by_place() {
    assert!(differences(&SMALL.replace("# best", "# better")).is_empty());
    assert_eq!(
        differences(&SMALL.replace("60 %", "65 %")),
        ["award/pass: 60 % > 65 %"]
    );
    assert_eq!(
        differences(&SMALL.replace("1.5 mm", "2 mm")),
        ["form/width/close/within: 1.5 mm > 2 mm"]
    );
    assert_eq!(
        differences(&SMALL.replace("    { within = \"3 mm\", marks = 2 },\n", "")),
        ["form/width/number 2/band: within: 3 mm, marks: 2 > -"]
    );
    let up = Edit::Move {
        at: path("sections.0.criteria.1"),
        to: 0,
    };
    assert_eq!(
        differences(&made(SMALL, &up)),
        ["form/order of criteria: width, outline > outline, width"]
    );
    let renamed = SMALL.replace("id = \"outline\"", "id = \"curve\"");
    assert_eq!(
        differences(&renamed),
        [
            "form/outline/criterion: id: outline, numbers: least: 0, most: 8 > -",
            "form/curve/criterion: - > id: curve, numbers: least: 0, most: 8",
        ]
    );
    assert!(compare("x = [", SMALL).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Every change that a form makes is one difference, and no rubric differs from itself.
    #[test]
    fn every_edit_of_a_form_is_one_difference(
        which in any::<prop::sample::Index>(),
        place in any::<prop::sample::Index>(),
    ) {
        let text = shipped()[which.index(shipped().len())].text;
        prop_assert_eq!(compare(text, text).unwrap(), vec![]);
        let places = leaves(&Outline::of(text).unwrap());
        let at = places[place.index(places.len())].clone();
        let names = at.to_string().ends_with(".id") || at.to_string().ends_with(".name");
        let after = change(text, &Edit::Set { at, to: Written::Text("quite another".into()) }).unwrap();
        let found = compare(text, &after).unwrap();
        // An item under another id is another item.
        prop_assert!(found.len() == 1 || names, "{:?}", found);
        prop_assert!(!found.is_empty());
    }

    #[test]
    fn comparing_never_panics(one in "\\PC{0,200}", other in "\\PC{0,200}") {
        let _ = compare(&one, &other);
        let _ = compare(&one, SMALL);
    }
}
