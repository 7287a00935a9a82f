//! What is allowed and yet seldom meant.

use evenshod::rubric::{Severity, read_rubric};

use super::sample::{with_criterion, with_root};

#[track_caller]
fn warned(text: &str, said: &[&str]) {
    let checked = read_rubric(text);
    assert!(checked.rubric.is_some(), "{:?}", checked.diagnostics);
    let found = checked.diagnostics.iter();
    let found = found.map(|found| {
        assert_eq!(found.severity, Severity::Warning);
        found.to_string()
    });
    let found: Vec<String> = found.collect();
    assert_eq!(found, said, "in\n{text}");
}

fn said_of(text: &str) -> Vec<String> {
    let found = read_rubric(text).diagnostics;
    found.iter().map(ToString::to_string).collect()
}

const REMEDY: &str = "faults = [{ id = \"f\", name = \"F\", remedy = \"Slower.\" }]";

fn width(lines: &str) -> String {
    with_criterion(&format!(
        "id = \"width\"\nname = \"Width\"\nkind = \"toleranced\"\n{lines}\n{REMEDY}"
    ))
}

#[test]
fn bands_that_reward_the_worse() {
    warned(
        &width("target = 100\nbands = [{ within = 1, marks = 2 }, { within = 2, marks = 4 }]"),
        &[
            "line 24, column 9: band 2 gives more marks than one before it; give the narrowest \
           band the most marks",
        ],
    );
    warned(
        &width("target = 100\nbands = [{ within = 1, marks = 2 }]\nbeyond = 3"),
        &[
            "line 25, column 10: outside every band there are more marks than inside one; make \
           `beyond` the least",
        ],
    );
}

#[test]
fn bands_that_overlap_in_part() {
    let said = "line 23, column 9: band 2 overlaps an earlier one in part; where they overlap the \
                earlier one counts; let one end where the next begins";
    warned(
        &width("bands = [{ from = 10, to = 20, marks = 4 }, { from = 15, to = 30, marks = 2 }]"),
        &[said],
    );
    // One form against another.
    warned(
        &width(
            "target = 12\nbands = [{ within = 5, marks = 4 }, { from = 10, to = 30, marks = 2 }]",
        ),
        &[&said.replace("line 23", "line 24")],
    );
    warned(
        &width("bands = [{ from = 10, to = 20, marks = 4 }, { from = 20, to = 30, marks = 2 }]"),
        &[],
    );
}

#[test]
fn levels_in_the_wrong_order() {
    let levels = "id = \"it\"\nname = \"It\"\nkind = \"judged\"\nlevels = [{ id = \"poor\", name = \
                  \"Poor\", marks = 1 }, { id = \"good\", name = \"Good\", marks = 4 }]";
    warned(
        &with_criterion(&format!("{levels}\n{REMEDY}")),
        &[
            "line 23, column 10: level `good` gives more marks than the one before it; write the \
           best level first",
        ],
    );
}

#[test]
fn a_cap_that_one_criterion_passes() {
    let text = with_criterion(&format!(
        "id = \"it\"\nname = \"It\"\nkind = \"judged\"\nnumbers = {{ least = 0, most = 8 }}\n{REMEDY}"
    ));
    warned(
        &text.replace("name = \"One\"\n", "name = \"One\"\ncap = 5\n"),
        &[
            "line 18, column 7: the section gives 5 at most and `it` alone gives more, so its best \
           marks are never reached; raise the cap",
        ],
    );
}

#[test]
fn a_fault_that_costs_more_than_its_most() {
    let text = with_criterion(
        "id = \"it\"\nname = \"It\"\nkind = \"faults\"\nmarks = 4\nfaults = [{ id = \"f\", name = \"F\", \
         remedy = \"Slower.\", effect = \"deduct\", deduct = 3, most = 2 }]",
    );
    warned(
        &text,
        &[
            "line 24, column 10: fault `f` costs more than its most; make `most` at least as large \
           as `deduct`",
        ],
    );
}

fn three_on_one(cause: &str) -> String {
    let one = |id: &str| {
        format!(
            "[[sections.criteria]]\nid = \"{id}\"\nname = \"{id}\"\nkind = \"toleranced\"\nreading = \
             \"gap\"\ntarget = 50\nbands = [{{ within = 1, marks = 2 }}]\n{cause}{REMEDY}\n"
        )
    };
    let criteria: String = ["a", "b", "c"].map(one).concat();
    with_root(&format!(
        "[[causes]]\nid = \"one\"\nname = \"One\"\nmost = 2\n[[sections]]\nid = \"s\"\nname = \
         \"S\"\n{criteria}"
    ))
}

#[test]
fn one_reading_that_feeds_three_criteria() {
    warned(&three_on_one("cause = \"one\"\n"), &[]);
    let text = three_on_one("");
    let said = said_of(&text);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0]
            .contains("3 criteria are marked by the one reading `gap`: a, b, c; name one `cause`"),
        "{said:?}"
    );
}

#[test]
fn criteria_without_anything_to_practise() {
    let criterion = |id: &str| {
        format!(
            "{{ id = \"{id}\", name = \"{id}\", kind = \"judged\", numbers = {{ least = 0, most = 1 }} }}"
        )
    };
    let all = ["a", "b", "c", "d", "e"].map(criterion).join(", ");
    let text = with_root(&format!(
        "[[sections]]\nid = \"s\"\nname = \"S\"\ncriteria = [{all}]\n"
    ));
    let said = said_of(&text);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0].contains("nothing to practise is said at a, b, c and 2 more"),
        "{said:?}"
    );
}

fn by(instrument: &str, criterion: &str) -> String {
    let criterion = format!(
        "[[sections.criteria]]\nid = \"gap\"\nname = \"Gap\"\ninstrument = \"it\"\n{criterion}\n{REMEDY}\n"
    );
    with_root(&format!(
        "[[instruments]]\nid = \"it\"\nname = \"Steel rule\"\n{instrument}\n[[sections]]\nid = \
         \"s\"\nname = \"S\"\n{criterion}"
    ))
}

/// Half-width of a rectangular distribution: `u sqrt 3` (JCGM 100:2008, 4.3.7).
#[test]
fn a_band_that_its_instrument_cannot_tell_apart() {
    let cases = [
        (
            "half_width = 0.5",
            "kind = \"toleranced\"\ntarget = 50\nbands = [{ within = 0.49, marks = 2 }]",
            true,
        ),
        (
            "half_width = 0.5",
            "kind = \"toleranced\"\ntarget = 50\nbands = [{ within = 0.5, marks = 2 }]",
            false,
        ),
        (
            "half_width = 0.5",
            "kind = \"toleranced\"\nbands = [{ at_most = 0.4, marks = 2 }]",
            true,
        ),
        (
            "half_width = 0.5",
            "kind = \"toleranced\"\nbands = [{ from = 5, to = 5.9, marks = 2 }]",
            true,
        ),
        (
            "half_width = 0.5",
            "kind = \"toleranced\"\nbands = [{ at_least = 5, marks = 2 }]",
            false,
        ),
        (
            "standard_uncertainty = 0.5",
            "kind = \"toleranced\"\ntarget = 50\nbands = [{ within = 0.86, marks = 2 }]",
            true,
        ),
        (
            "standard_uncertainty = 0.5",
            "kind = \"toleranced\"\ntarget = 50\nbands = [{ within = 0.87, marks = 2 }]",
            false,
        ),
        (
            "half_width = 0.5",
            "kind = \"paired\"\nleft = \"l\"\nright = \"r\"\nbands = [{ at_most = 0.4, marks = 2 }]",
            true,
        ),
    ];
    for (instrument, criterion, is_told) in cases {
        let said = said_of(&by(instrument, criterion));
        let told = said.iter().any(|one| {
            one.contains("band 1 is narrower than steel rule can tell apart; widen the band, or")
        });
        assert_eq!(
            (told, said.len()),
            (is_told, usize::from(is_told)),
            "{criterion}: {said:?}"
        );
    }
}

#[test]
fn a_band_without_width() {
    let said = "band 1 has no width: no part is ever exactly so; widen the band";
    for bands in [
        "target = 50\nbands = [{ within = 0, marks = 2 }]",
        "bands = [{ from = 5, to = 5, marks = 2 }]",
    ] {
        let found = said_of(&width(bands));
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].contains(said), "{found:?}");
    }
    // Four nails are four.
    let count = "measures = \"count\"\nbands = [{ from = 4, to = 4, marks = 2 }]";
    assert_eq!(said_of(&width(count)), Vec::<String>::new());
}
