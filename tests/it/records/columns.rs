//! Columns of tables under a college's own names.

use evenshod::records::{ColumnFault, Layout, NamedColumn, column_faults};

fn faults(layout: Layout, columns: &[(&str, &str)]) -> Vec<(usize, ColumnFault)> {
    let columns = columns.iter().map(|(key, name)| NamedColumn {
        key: (*key).to_owned(),
        name: (*name).to_owned(),
    });
    column_faults(layout, &columns.collect::<Vec<_>>())
}

fn said(layout: Layout, columns: &[(&str, &str)]) -> String {
    let faults = faults(layout, columns);
    let said = faults.iter().map(|(at, fault)| format!("{at} {fault}"));
    said.collect::<Vec<_>>().join("\n")
}

#[test]
fn the_usual_columns_are_in_order() {
    for layout in Layout::ALL {
        assert_eq!(column_faults(layout, &layout.usual()), []);
        assert_eq!(layout.usual().len(), layout.keys().len());
    }
}

#[test]
fn unknown_and_doubled_ones_are_told_with_their_place_and_what_to_do() {
    let two = [
        ("learner", "Name"),
        ("lerner", "Who"),
        ("learner", "Again"),
        ("award", "name"),
        ("total", " "),
        ("date", "a\nb"),
    ];
    let text = said(Layout::Long, &two);
    for says in [
        "1 `lerner` is no column of this table; take a key",
        "2 `learner` stands here twice; take one",
        "3 `name` is the name of learner and of award; give one",
        "4 `total` has no name; write one",
        "5 the name of `date` has a line end",
    ] {
        assert!(text.contains(says), "{says}\n{text}");
    }
    assert_eq!(text.lines().count(), 5, "{text}");
}

#[test]
fn criteria_have_columns_in_a_wide_table_alone() {
    let one = [("marks.near.toe-length", "Toe"), ("marks", "Mark *")];
    assert_eq!(faults(Layout::Wide, &one), []);
    assert_eq!(faults(Layout::Long, &[("marks", "Marks")]), []);
    assert!(said(Layout::Long, &one).contains("`marks.near.toe-length` is no column"));
    for key in ["marks.", "marks..a", "marks.A b", "marks-a", "marked.a"] {
        assert!(
            said(Layout::Wide, &[(key, "x")]).contains("is no column"),
            "{key}"
        );
    }
    for name in ["Marks", "* and *"] {
        assert_eq!(
            faults(Layout::Wide, &[("marks", name)]),
            [(0, ColumnFault::NoPlace)]
        );
    }
}
