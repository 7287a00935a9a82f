//! Broken rubrics and what is said about them: all at once, each with its place
//! and what would be right.

use evenshod::quantity::Exact;
use evenshod::rubric::{DecisionRule, read_rubric};

use super::sample::{read, said_of, with_criterion, with_named_criterion, with_root};

/// Everything that is said about `text` (line, column, what, remedy), and that
/// a rubric with errors is not used.
#[track_caller]
fn check(text: &str, expect: &[&str]) {
    let checked = read_rubric(text);
    let found: Vec<_> = said_of(&checked)
        .into_iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(found, expect, "in\n{text}");
    let has_errors = checked.errors().next().is_some();
    assert_eq!(checked.rubric.is_none(), has_errors);
    for said in &checked.diagnostics {
        assert!(!said.what.is_empty() && !said.remedy.is_empty(), "{said}");
        assert!(text.get(said.span.clone()).is_some(), "{said}");
    }
}

#[test]
fn nothing_at_all() {
    check(
        "",
        &[
            "line 1, column 1: the rubric has no `schema`; add the line schema = 1 at the top",
            "line 1, column 1: the rubric has no `piece`; add [piece] with kind, stock and finished",
            "line 1, column 1: the rubric has no `sections`; add [[sections]] with \
             [[sections.criteria]]",
            "line 1, column 1: the rubric has no `version`; add a line such as version = \"1\"",
            "line 1, column 1: the rubric has no `id`; add a line such as id = \"bar-width\"",
            "line 1, column 1: the rubric has no `title`; add a line such as title = \"…\"",
            "line 1, column 1: the rubric has no `award`; add [award] with a line such as pass = \
             \"65 %\"",
        ],
    );
}

#[test]
fn faults_of_many_parts_come_together_in_the_order_of_the_text() {
    let text = with_root(
        "titel = \"x\"
[[steps]]
id = \"cut\"
name = \"\"
[[heats]]
part = \"Bar\"
step = \"weld\"
[award]
pass = \"650 %\"
[[sections]]
id = \"form\"
name = \"Form\"
[[sections.criteria]]
id = \"width\"
name = \"Width\"
kind = \"toleranced\"
target = \"piece.finished.widht\"
bands = [{ within = \"1.5 kg\", marks = 4 }]
",
    );
    check(
        &text,
        &[
            "line 5, column 1: the rubric has no key `titel`; did you mean `title`?",
            "line 8, column 8: this text is empty (`name` of step `cut`); write what people \
             should read",
            "line 11, column 8: planned heats name a step that is not there: Bar; use the id of \
             one of the [[steps]]",
            "line 13, column 8: a share outside 0 to 100 % (`pass` of `award`); write a share \
             such as \"65 %\"",
            "line 21, column 10: the piece specification has no length at \
             `piece.finished.widht` (`target` of criterion `width`); use a key that stands under \
             [piece], such as piece.finished.width",
            "line 22, column 21: `kg` is a unit, but not of length (`within` of band number 1); \
             use mm, cm or in",
        ],
    );
}

#[test]
fn toml_itself() {
    check(
        &with_root("about = \"x\nsource = 'y\n"),
        &[
            "line 5, column 11: invalid basic string, expected `\"`; mend the TOML here: key = \
             value, texts in quotes",
            "line 6, column 12: invalid literal string, expected `'`; mend the TOML here: key = \
             value, texts in quotes",
        ],
    );
    check(
        &with_root("schema = 1\n"),
        &["line 5, column 1: duplicate key; mend the TOML here: key = value, texts in quotes"],
    );
}

/// What follows an open bracket is not all wrong.
#[test]
fn one_open_bracket_does_not_make_a_page_of_faults() {
    let checked = read_rubric(&with_root("cautions = [\"x\"\n"));
    assert!(checked.diagnostics.len() <= 10);
    assert!(checked.rubric.is_none());
}

#[test]
fn a_newer_schema_is_refused() {
    let text = with_root("").replace("schema = 1", "schema = 2");
    check(
        &text,
        &[
            "line 1, column 10: this program reads schema 1 only (`schema` of the rubric); use \
             schema = 1, or a newer Evenshod",
        ],
    );
}

#[test]
fn columns_count_characters() {
    check(
        &with_named_criterion(
            "kind = \"judged\"\nnumbers = { least = 0, most = 1 }\nsource = \"Ä\" # é\nnote = 4\n",
        ),
        &[
            "line 25, column 8: this is an integer (`note` of criterion `it`); write a text in quotes",
        ],
    );
    check(
        &with_root("source = \"Ä\"\nqualification = { title = \"É\", code = 4 }\n"),
        &[
            "line 6, column 39: this is an integer (`code` of `qualification`); write a text in quotes",
        ],
    );
}

#[test]
fn unknown_keys_with_what_was_meant() {
    let lines = "kind = \"judged\"\nnumbers = { least = 0, most = 1 }\n";
    for (written, meant) in [
        ("stops-below = 1", "stops_below"),
        ("wieght = 1", "weight"),
        ("not_aplicable = \"keep\"", "not_applicable"),
        ("Step = \"x\"", "step"),
        ("seen_fron = \"edge\"", "seen_from"),
        ("notee = \"x\"", "note"),
    ] {
        let key = written.split(' ').next().unwrap();
        check(
            &with_named_criterion(&format!("{lines}{written}\n")),
            &[&format!(
                "line 24, column 1: criterion `it` has no key `{key}`; did you mean `{meant}`?"
            )],
        );
    }
    check(
        &with_named_criterion(&format!("{lines}bands = []\n")),
        &[
            "line 24, column 1: criterion `it` has no key `bands`; known here: cause, \
             descriptors, faults, for, id, kind, levels, name, not_applicable, note, numbers, \
             outcomes, place, seen_from, source, step, stops_below, weight, when",
        ],
    );
}

#[test]
fn root_values() {
    for (lines, said) in [
        (
            "examiners = 0",
            "line 5, column 13: this may not be zero (`examiners` of the rubric); write 1 or more",
        ),
        (
            "examiners = 1.5",
            "line 5, column 13: 3/2 is no count (`examiners` of the rubric); write a whole number \
             from 0 to 1000",
        ),
        (
            "unit = \"cm\"",
            "line 5, column 8: `cm` is not known here (`unit` of the rubric); use one of \"mm\", \
             \"in\"",
        ),
        (
            "cautions = \"x\"",
            "line 5, column 12: this is no list (`cautions` of the rubric); write cautions = \
             [\"…\", \"…\"]",
        ),
        (
            "steps = [3]",
            "line 5, column 10: member 1 of `steps` is no table; write { … } with keys and values",
        ),
        (
            "steps = 3",
            "line 5, column 9: this is no list of tables (`steps` of the rubric); write [[steps]]",
        ),
        (
            "time = 3",
            "line 5, column 8: this is no table (`time` of the rubric); write time = { … } or \
             [time]",
        ),
        (
            "qualification = { outcomes = [], code = \"\" }",
            "line 5, column 41: this text is empty (`code` of `qualification`); write what people \
             should read",
        ),
        (
            "[[causes]]\nid = \"a\"\nname = \"A\"\nmost = -1",
            "line 8, column 8: marks below zero (`most` of cause group `a`); write zero or more",
        ),
        (
            "[[steps]]\nid = \"a\"\nname = \"A\"\n[[steps]]\nid = \"a\"\nname = \"B\"",
            "line 9, column 6: a step with the id `a` stands here a second time; give each an id \
             of its own",
        ),
        (
            "[[instruments]]\nid = \"Rule\"\nname = \"Rule\"\nhalf_width = 1",
            "line 6, column 6: `Rule` is not an id (`id` of instrument `Rule`); use small \
             letters, digits and hyphens, starting with a letter, at most 60",
        ),
        (
            "[[instruments]]\nid = \"a\"\nname = \"A\"",
            "line 5, column 1: instrument `a` has no `half_width`; add a line such as half_width \
             = \"0.5 mm\"",
        ),
        (
            "[[instruments]]\nid = \"a\"\nname = \"A\"\nhalf_width = 1\nstandard_uncertainty = 1",
            "line 9, column 24: the uncertainty is stated twice (`standard_uncertainty` of \
             instrument `a`); keep either half_width or standard_uncertainty",
        ),
        (
            "[[instruments]]\nid = \"a\"\nname = \"A\"\nhalf_width = -1",
            "line 8, column 14: this length is below zero (`half_width` of instrument `a`); write \
             zero or more",
        ),
        (
            "[[instruments]]\nid = \"a\"\nname = \"A\"\nhalf_width = 1\nshape = \"round\"",
            "line 9, column 9: `round` is not known here (`shape` of instrument `a`); use one of \
             \"rectangular\", \"triangular\", \"u-shaped\", \"trapezoid\"",
        ),
        (
            "[[instruments]]\nid = \"a\"\nname = \"A\"\nhalf_width = 1\nshape = \"trapezoid\"",
            "line 9, column 9: a trapezoid needs its level share (`shape` of instrument `a`); \
             write how much of the width is level, from 0 to 1",
        ),
        (
            "[[instruments]]\nid = \"a\"\nname = \"A\"\nhalf_width = 1\nshape = \"trapezoid\"\nlevel_share = 2",
            "line 10, column 15: a level share outside 0 to 1 (`level_share` of instrument `a`); \
             write how much of the width is level, such as 0.5",
        ),
        (
            "[[instruments]]\nid = \"a\"\nname = \"A\"\nhalf_width = 1\nlevel_share = 0.5",
            "line 9, column 15: only a trapezoid has a level share (`level_share` of instrument \
             `a`); leave it out, or choose that shape",
        ),
        (
            "[[instruments]]\nid = \"a\"\nname = \"A\"\nstandard_uncertainty = 1\nshape = \"triangular\"",
            "line 9, column 9: only a half-width has a shape (`shape` of instrument `a`); leave it \
             out, or give half_width",
        ),
        (
            "[[readings]]\nid = \"t\"\nname = \"T\"\ninstrument = \"no\"",
            "line 8, column 14: there is no such instrument; use an id of [[instruments]]",
        ),
        (
            "[[readings]]\nid = \"t\"\nname = \"T\"\nfor = \"off\"",
            "line 8, column 7: there is no shoe `off` (`for` of reading `t`); use \"each shoe\", \
             \"piece\" or the id of a shoe",
        ),
        (
            "[[heats]]\npart = \"x\"\nweld = \"yes\"",
            "line 7, column 8: this is neither true nor false (`weld` of heats number 1); write \
             true or false",
        ),
    ] {
        check(&with_root(&format!("{lines}\n")), &[said]);
    }
}

#[test]
fn the_piece() {
    let given =
        "stock = { width = 20, thickness = 10 }\nfinished = { width = 130, length = 135 }\n";
    check(
        &with_root("[piece]\n"),
        &[
            "line 5, column 1: `piece` has no `kind`; add a line such as kind = \"straight bar\"",
            "line 5, column 1: `piece` has no `stock`; add [piece.stock] with width and thickness",
            "line 5, column 1: `piece` has no `finished`; add [piece.finished] with width and \
             length",
            "line 5, column 1: `piece` has no `heels`; add [piece.heels] with gap and shape",
        ],
    );
    check(
        &with_root(
            "[piece]\nkind = \"straight bar\"\nheels = { gap = 60 }\n\
             stock = { width = \"wide\", thickness = -3 }\nfinished = { width = 130 }\n",
        ),
        &[
            "line 7, column 9: a bar shoe has no free heels (`heels` of `piece`); leave them out, \
             or change kind",
            "line 8, column 19: `wide` is not a number (`width` of `stock`); write it like 10.5, \
             10,5, 3/8 or 1 1/2",
            "line 8, column 39: this length is below zero (`thickness` of `stock`); write zero or \
             more",
            "line 9, column 12: `finished` has no `length`; add a line such as length = \"22 mm\"",
        ],
    );
    check(
        &with_root(&format!(
            "[piece]\nkind = \"egg bar\"\n{given}bar = {{ width = 20, gap = 60 }}\n"
        )),
        &[
            "line 9, column 7: the kind is egg bar, the bar has another form (`bar` of `piece`); \
             write shape = \"egg\"",
        ],
    );
    check(
        &with_root(&format!("[piece]\nkind = \"heart bar\"\n{given}")),
        &["line 5, column 1: `piece` has no `bar`; add [piece.bar] with width and gap"],
    );
    check(
        &with_root(&format!(
            "[piece]\nkind = \"open-heeled\"\n{given}bar = {{ width = 20, gap = 60 }}\n\
             [piece.fuller]\nstart = 30\nend = 20\ninset = 8\nwidth = 6\ndpth = 6\n"
        )),
        &[
            "line 9, column 7: an open-heeled shoe has no bar (`bar` of `piece`); leave it out, or \
             change kind",
            "line 10, column 1: `fuller` has no `depth`; add a line such as depth = \"22 mm\"",
            "line 12, column 7: the fuller ends before it starts (`end` of `fuller`); make end \
             larger than start",
            "line 15, column 1: `fuller` has no key `dpth`; did you mean `depth`?",
        ],
    );
}

#[test]
fn time_and_award() {
    for (lines, said) in [
        (
            "[time]\nlimit = \"1 h\"",
            "line 5, column 1: `time` has no `after`; add after = \"mark as it stands\" or after = \
             \"deduct\"",
        ),
        (
            "[time]\nlimit = \"1 h\"\nafter = \"mark as it stands\"\ndeduct = 1",
            "line 8, column 10: this has no use when work stops at the limit (`deduct` of \
             `time`); leave it out, or write after = \"deduct\"",
        ),
        (
            "[time]\nlimit = \"1 h\"\nafter = \"deduct\"",
            "line 5, column 1: `time` has no `deduct`; add a line such as deduct = 1",
        ),
        (
            "[time]\nlimit = \"1 h\"\nafter = \"deduct\"\ndeduct = 1\nhard_stop = \"50 min\"",
            "line 9, column 13: the hard stop is before the limit (`hard_stop` of `time`); make it \
             later",
        ),
        (
            "[time]\nlimit = \"1 h\"\nafter = \"deduct\"\ndeduct = 1\neach = 0",
            "line 9, column 8: a unit of no time (`each` of `time`); write a time such as \"1 min\"",
        ),
        (
            "[award]",
            "line 5, column 1: `award` has no `pass`; add a line such as pass = \"65 %\" or pass = \
             28",
        ),
        (
            "[award]\npass = 11",
            "line 6, column 8: the pass mark is above the 10 marks that can be had; lower it",
        ),
        (
            "[award]\npass = 5\nwarnings_to_stop = 0",
            "line 7, column 20: this may not be zero (`warnings_to_stop` of `award`); write 1 or \
             more",
        ),
        (
            "[award]\npass = 5\nrisk = \"-1 %\"",
            "line 7, column 8: a share outside 0 to 100 % (`risk` of `award`); write a share such \
             as \"65 %\"",
        ),
        (
            "[award]\npass = 5\ngrades = [{ id = \"a\", name = \"A\" }]",
            "line 7, column 11: grade `a` has no `from`; add a line such as from = \"65 %\" or \
             from = 28",
        ),
    ] {
        check(&with_root(&format!("{lines}\n")), &[said]);
    }
}

#[test]
fn a_guarded_decision_is_kept() {
    let read = read_rubric(&with_root(
        "[award]\npass = 5\ndecision = \"guarded rejection\"\nrisk = 2.5\n",
    ));
    assert!(said_of(&read).is_empty());
    let risk = Exact::fraction(5, 2).unwrap();
    assert_eq!(
        read.rubric.unwrap().award.decision,
        DecisionRule::GuardedRejection { risk }
    );
}

#[test]
fn what_an_instrument_stands_in_for() {
    let caliper = "[[instruments]]\nid = \"caliper\"\nname = \"Caliper\"\nhalf_width = 0.1\n";
    let of = |ids: &str| format!("{caliper}in_place_of = [{ids}]\n");
    let protractor = "[[instruments]]\nid = \"arc\"\nname = \"Arc\"\nmeasures = \"angle\"\n\
                      half_width = 1\n";
    let remedy = "use ids of other [[instruments]] that measure the same";
    for (lines, what) in [
        (of("\"rule\""), "there is no instrument `rule`"),
        (of("\"caliper\""), "an instrument in place of itself"),
        (
            format!("{}{protractor}", of("\"arc\"")),
            "`arc` measures angle, and this does not",
        ),
    ] {
        let read = read_rubric(&with_root(&lines));
        let said: Vec<String> = read.errors().map(ToString::to_string).collect();
        assert_eq!(said.len(), 1, "{said:?}");
        assert!(said[0].ends_with(&format!("{what}; {remedy}")), "{said:?}");
    }
}

#[test]
fn sections() {
    let ten = "criteria = [{ id = \"b\", name = \"B\", kind = \"judged\", numbers = { least = 0, \
               most = 10 } }]";
    for (lines, said) in [
        (
            String::new(),
            "line 5, column 1: section `a` has no `criteria`; add [[sections.criteria]]",
        ),
        (
            format!("minimum = 11\n{ten}"),
            "line 8, column 11: the minimum is above the 10 marks of the section; lower it",
        ),
        (
            format!("minimum = 8\ncap = 7\n{ten}"),
            "line 8, column 11: the minimum is above the 7 marks of the section; lower it",
        ),
        (
            format!("minimum = 6\nweight = 5\n{ten}"),
            "line 8, column 11: the minimum is above the 5 marks of the section; lower it",
        ),
        (
            format!("minimum = \"150 %\"\n{ten}"),
            "line 8, column 11: a share outside 0 to 100 % (`minimum` of section `a`); write a \
             share such as \"65 %\"",
        ),
        (
            format!("weight = -5\n{ten}"),
            "line 8, column 10: marks below zero (`weight` of section `a`); write zero or more",
        ),
    ] {
        let head = "[[sections]]\nid = \"a\"\nname = \"A\"\n";
        check(&with_root(&format!("{head}{lines}\n")), &[said]);
    }
}

#[test]
fn a_criterion_without_anything() {
    check(
        &with_criterion(""),
        &[
            "line 19, column 1: criterion number 1 has no `id`; add a line such as id = \
             \"bar-width\"",
            "line 19, column 1: criterion number 1 has no `kind`; add a line such as kind = \
             \"toleranced\"",
            "line 19, column 1: criterion number 1 has no `name`; add a line such as name = \"…\"",
        ],
    );
}

/// The keys of the kind that was meant are not called unknown as well.
#[test]
fn an_unknown_kind_is_one_fault() {
    check(
        &with_named_criterion("kind = \"judge\"\nnumbers = { least = 0, most = 1 }\n"),
        &[
            "line 22, column 8: `judge` is not known here (`kind` of criterion `it`); use one of \
             \"toleranced\", \"paired\", \"spread\", \"tally\", \"judged\", \"faults\"",
        ],
    );
}

#[test]
fn names_that_lead_nowhere() {
    check(
        &with_named_criterion(
            "kind = \"toleranced\"\ntarget = \"nothing\"\ninstrument = \"no\"\ncause = \"no\"\n\
             step = \"no\"\noutcomes = [\"1\"]\nfor = \"near\"\nseen_from = \"above\"\n\
             bands = [{ within = \"5 % of elsewhere\", marks = 1 }]\n\
             faults = [{ id = \"f\", name = \"F\", step = \"no\" }]\n",
        ),
        &[
            "line 23, column 10: there is no reading `nothing`; use the id of a reading or of a \
             measured criterion",
            "line 24, column 14: there is no instrument `no`; add it to [[instruments]]",
            "line 25, column 9: there is no cause group `no`; add it to [[causes]]",
            "line 26, column 8: there is no step `no`; add it to [[steps]]",
            "line 27, column 12: there is no outcome `1`; add it to [qualification] outcomes",
            "line 28, column 7: there is no shoe `near` (`for` of criterion `it`); use \"each \
             shoe\", \"piece\" or the id of a shoe",
            "line 29, column 13: `above` is not known here (`seen_from` of criterion `it`); use \
             one of \"at the anvil\", \"foot side\", \"ground side\", \"edge\", \"flat plate\", \
             \"nail in hole\", \"after break test\"",
            "line 30, column 9: there is no reading `elsewhere`; use the id of a reading or of a \
             measured criterion",
            "line 31, column 10: fault `f` names a step `no` that is not there; add it to \
             [[steps]]",
        ],
    );
}

#[test]
fn bands() {
    let form = "one form of limit is needed; write within; or under and over; or at_most; or \
                at_least; or from and to";
    for (lines, said) in [
        (
            "kind = \"toleranced\"",
            "line 19, column 1: criterion `it` has no `bands`; add bands = [{ within = \"1.5 \
             mm\", marks = 4 }, …], the best first"
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\nbands = [{ within = 1, marks = 1 }]",
            "line 19, column 1: criterion `it` has no `target`; `within` counts from a target; \
             add target = \"…\""
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\nbands = [{ at_most = 1, marks = 1 }]\n\
             stops_outside = { within = 4 }",
            "line 19, column 1: criterion `it` has no `target`; `within` counts from a target; \
             add target = \"…\""
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\nbands = [{ at_most = \"10 %\", marks = 1 }]",
            "line 23, column 9: per cent of what? There is no target; add a target, or write an \
             amount"
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\ntarget = \"it\"\nbands = [{ within = 1, marks = 1 }]",
            "line 23, column 10: the target is the very reading that is marked; use an amount or \
             another reading"
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\nbands = [{ within = 1, at_most = 1, marks = 1 }]",
            format!("line 24, column 10: {form}"),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\nbands = [{ under = 1, marks = 1 }]",
            format!("line 24, column 10: {form}"),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\nbands = [{ marks = 1 }]",
            format!("line 24, column 10: {form}"),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\nbands = [{ within = 1 }]",
            "line 24, column 10: band number 1 has no `marks`; add marks = …".to_owned(),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\nbands = [{ within = 1, marks = -1 }]",
            "line 24, column 32: marks below zero (`marks` of band number 1); write zero or more"
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\n\
             bands = [{ within = 2, marks = 1 }, { within = 1, marks = 2 }]",
            "line 24, column 9: band 2 lies inside an earlier one and is never reached; write the \
             bands from the narrowest to the widest"
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\nbands = [{ from = 2, to = 1, marks = 1 }]",
            "line 23, column 9: band 1 ends before it begins; write the smaller limit first"
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\n\
             bands = [{ name = \"a\", within = 1, marks = 2 }, { name = \"A\", within = 2, marks = 1 }]",
            "line 24, column 9: two bands are called `a`; give each a name of its own".to_owned(),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\nbands = [{ within = 1, marks = 1 }]\n\
             beyond_effect = \"deduct\"",
            "line 25, column 17: `deduct` is not known here (`beyond_effect` of criterion `it`); \
             use one of \"noted\", \"warn\", \"stop\""
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\ntarget = 9\nbands = [{ within = 1, marks = 1 }]\n\
             stops_below = 2",
            "line 25, column 15: every number of marks would stop the award; write a number that \
             can be reached"
                .to_owned(),
        ),
        (
            "kind = \"toleranced\"\nmeasures = \"angle\"\ntarget = \"piece.finished.width\"\n\
             bands = [{ within = 1, marks = 1 }]",
            "line 24, column 10: the piece specification has no angle at `piece.finished.width` \
             (`target` of criterion `it`); use a key that stands under [piece], such as \
             piece.finished.width"
                .to_owned(),
        ),
        (
            "kind = \"spread\"\nbands = [{ at_most = 1, marks = 1 }]",
            "line 19, column 1: a series of fewer than two (`count` of criterion `it`); say how \
             many members the series has, at least 2, as in count = 6"
                .to_owned(),
        ),
    ] {
        check(&with_named_criterion(&format!("{lines}\n")), &[&said]);
    }
}

#[test]
fn tallies() {
    for (lines, said) in [
        (
            "allowance = 2",
            "line 19, column 1: criterion `it` has no `marks`; add a line such as marks = 4",
        ),
        (
            "marks = 1",
            "line 19, column 1: criterion `it` has no `allowance`; add a line such as allowance = \
             10 or allowance = \"planned heats\"",
        ),
        (
            "marks = 1\nallowance = \"planned heats\"",
            "line 24, column 13: no heats are planned here (`allowance` of criterion `it`); add \
             [[heats]] with part and count",
        ),
        (
            "marks = 1\nallowance = 2\neach = 0",
            "line 25, column 8: a unit of nothing (`each` of criterion `it`); write 1, or a time \
             such as \"1 min\"",
        ),
        (
            "marks = 1\ntime_rule = true",
            "line 24, column 13: there is no time rule (`time_rule` of criterion `it`); add [time] \
             with limit and after",
        ),
        (
            "marks = 1\nallowance = 2\nmeasures = \"length\"",
            "line 25, column 12: `length` is not known here (`measures` of criterion `it`); use \
             one of \"count\", \"duration\"",
        ),
    ] {
        check(
            &with_named_criterion(&format!("kind = \"tally\"\n{lines}\n")),
            &[said],
        );
    }
    let both = with_root(
        "[time]\nlimit = \"1 h\"\nafter = \"mark as it stands\"\n[[sections]]\nid = \"a\"\n\
         name = \"A\"\n[[sections.criteria]]\nid = \"t\"\nname = \"T\"\nkind = \"tally\"\n\
         marks = 1\ntime_rule = true\nallowance = 2\n",
    );
    check(
        &both,
        &[
            "line 17, column 13: the time rule already says this (`allowance` of criterion `t`); \
             leave it out, or time_rule",
        ],
    );
}

#[test]
fn judged_and_faults() {
    for (lines, said) in [
        (
            "kind = \"judged\"",
            &[
                "line 19, column 1: criterion `it` has no `levels`; add levels = [{ id, name, \
               marks, text }, …] or numbers = { least = 1, most = 10, step = 1 }",
            ][..],
        ),
        (
            "kind = \"judged\"\nlevels = [{ id = \"a\", name = \"A\", marks = 1 }]",
            &[
                "line 23, column 10: one level leaves nothing to judge (`levels` of criterion \
               `it`); write at least two levels",
            ],
        ),
        (
            "kind = \"judged\"\nlevels = [{ id = \"a\", name = \"A\", marks = 1 }]\n\
             numbers = { least = 0, most = 1 }",
            &[
                "line 24, column 11: levels and numbers together (`numbers` of criterion `it`); \
               keep one of them",
            ],
        ),
        (
            "kind = \"judged\"\nlevels = [{ id = \"a\", name = \"A\", marks = 1, photo = \"a.jpg\" }, { id = \"b\", name = \"B\", marks = 0 }]",
            &[
                "line 23, column 54: `a.jpg` names no picture (`photo` of level `a`); choose the \
               photo in the forms, which write it, or write the SHA-256 of its file as 64 digits \
               0 to 9 and a to f",
            ],
        ),
        (
            "kind = \"judged\"\nnumbers = { least = 5, most = 1 }",
            &[
                "line 23, column 11: these numbers cannot be counted out; write least below most, \
               and at most 400 steps between them",
            ],
        ),
        (
            "kind = \"judged\"\nnumbers = { least = 0, most = 1, step = 0 }",
            &[
                "line 23, column 11: these numbers cannot be counted out; write least below most, \
               and at most 400 steps between them",
            ],
        ),
        (
            "kind = \"judged\"\nnumbers = { least = 0, most = 1, step = \"2/5\" }",
            &[
                "line 23, column 41: the steps do not end on the most (`step` of `numbers`); choose \
               a step that leads from least to most",
            ],
        ),
        (
            "kind = \"judged\"\nnumbers = { allowed = [1, \"x\", -2], most = 1 }\n\
             descriptors = [{ at = 3, text = \"x\" }]",
            &[
                "line 23, column 11: marks below zero (`numbers` of criterion `it`); write zero \
                 or more",
                "line 23, column 23: numbers stated twice (`allowed` of `numbers`); keep allowed, \
                 or least, most and step",
                "line 23, column 27: `x` is not a number; write it like 10.5, 10,5, 3/8 or 1 1/2",
                "line 24, column 23: 3 is not one of the numbers (`at` of descriptor number 1); \
                 use a number that can be given",
            ],
        ),
        (
            "kind = \"faults\"\nmarks = 2",
            &[
                "line 22, column 8: a list of faults without faults; add faults = [{ id, name, \
               effect }, …]",
            ],
        ),
        (
            "kind = \"faults\"\nmarks = 2\nleast = 3\nfaults = [{ id = \"a\", name = \"A\", \
             effect = \"deduct\" }, { id = \"a\", name = \"B\" }]",
            &[
                "line 24, column 9: the least is above the marks; make it smaller",
                "line 25, column 11: fault `a` has no `deduct`; say how many marks it costs, as \
                 in deduct = 1",
                "line 25, column 63: a fault of this criterion with the id `a` stands here a \
                 second time; give each an id of its own",
            ],
        ),
        (
            "kind = \"faults\"\nmarks = 2\nweight = 0\nfaults = [{ id = \"a\", name = \"A\" }]",
            &[
                "line 24, column 10: a weight must be above zero (`weight` of criterion `it`); write \
               1, 2 or a fraction",
            ],
        ),
        (
            "kind = \"faults\"\nmarks = 0\nfaults = [{ id = \"a\", name = \"A\" }]",
            &["line 1, column 1: no marks can be had at all; give criteria marks"],
        ),
    ] {
        check(&with_named_criterion(&format!("{lines}\n")), said);
    }
}

#[test]
fn marks_without_a_common_denominator_are_refused() {
    let of = |below: i64| {
        with_named_criterion(&format!(
            "kind = \"faults\"\nmarks = \"1/1000\"\nfaults = [{{ id = \"a\", name = \"A\", deduct = \
             \"1/{below}\" }}]\n"
        ))
    };
    read(&of(999));
    check(
        &of(1001),
        &[
            "line 1, column 1: the marks have no common denominator up to 1,000,000, so they \
             cannot be added up exactly; use whole marks, halves or quarters, and round weights",
        ],
    );
}

#[test]
fn a_file_of_more_than_a_million_bytes_is_refused() {
    check(
        &"#".repeat(1_000_001),
        &["line 1, column 1: the file has more than a million bytes; leave long texts out"],
    );
}

#[test]
fn sizes_that_nobody_marks() {
    let long: String = (0..1001)
        .map(|n| format!("[[readings]]\nid = \"r{n}\"\nname = \"R\"\n"))
        .collect();
    check(
        &with_root(&long),
        &[
            "line 1, column 1: the mark sheet would have more than 1000 lines; use fewer \
             criteria, readings or shoes",
        ],
    );
    let bands: String = (1..52)
        .map(|n| format!("{{ at_most = {n}, marks = 1 }},"))
        .collect();
    check(
        &with_named_criterion(&format!("kind = \"toleranced\"\nbands = [{bands}]\n")),
        &["line 23, column 9: more than 50 bands; use fewer"],
    );
    let numbers: String = (0..402).map(|n| format!("{n},")).collect();
    check(
        &with_named_criterion(&format!(
            "kind = \"judged\"\nnumbers = {{ allowed = [{numbers}] }}\n"
        )),
        &["line 23, column 11: more than 400 numbers (`numbers` of criterion `it`); use fewer"],
    );
}

#[test]
fn a_reading_of_a_shoe_that_is_not_there() {
    let text = with_criterion(
        "id = \"it\"\nname = \"It\"\nkind = \"paired\"\nleft = \"near.width\"\nright = \"b\"\nbands = \
         [{ within = 1, marks = 1 }]",
    );
    let checked = read_rubric(&text);
    let said: Vec<String> = checked.errors().map(ToString::to_string).collect();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0].contains(
            "`near.width` names a shoe `near` that is not there; use the id of one of the [[shoes]]"
        ),
        "{said:?}"
    );
}
