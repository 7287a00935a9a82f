use super::table::Table;
use crate::quantity::{Dimension, Duration, Exact, Marks};
use crate::rubric::model::{
    AfterTheLimit, Award, DecisionRule, Grade, Moderation, OnTheLimit, Settle, Threshold, TimeRule,
};

pub(super) const ON_THE_LIMIT: &[(&str, OnTheLimit)] =
    &[("inside", OnTheLimit::Inside), ("over", OnTheLimit::Over)];

pub(super) const SETTLE: &[(&str, Settle)] = &[
    ("discussion", Settle::Discussion),
    ("mean", Settle::Mean),
    ("lower", Settle::Lower),
];

const NO_TIME: Duration = Duration::from_base(0);
const ONE_MINUTE: Duration = Duration::from_base(60_000);

pub(super) fn read_time(table: Table<'_>) -> TimeRule {
    let duration = |key| {
        table
            .positive(key, Dimension::Duration)
            .and_then(Duration::nearest)
    };
    if !table.has("limit") {
        table.missing("limit", "add a line such as limit = \"90 min\"");
    }
    if !table.has("after") {
        table.missing(
            "after",
            "add after = \"mark as it stands\" or after = \"deduct\"",
        );
    }
    let deducts = table.word("after", &[("mark as it stands", false), ("deduct", true)]);
    let limit = duration("limit").unwrap_or(NO_TIME);
    let grace = duration("grace").unwrap_or(NO_TIME);
    let each = duration("each").unwrap_or(ONE_MINUTE);
    let marks = table.positive_marks("deduct");
    let hard_stop = duration("hard_stop");
    if each == NO_TIME {
        table.error(
            "each",
            "a unit of no time",
            "write a time such as \"1 min\"",
        );
    }
    if hard_stop.is_some_and(|stop| stop < limit) {
        table.error(
            "hard_stop",
            "the hard stop is before the limit",
            "make it later",
        );
    }
    let after = if deducts == Some(true) {
        if marks.is_none() && !table.has("deduct") {
            table.missing("deduct", "add a line such as deduct = 1");
        }
        AfterTheLimit::Deduct {
            each,
            marks: marks.unwrap_or(Marks::ZERO),
            hard_stop,
        }
    } else {
        for key in ["each", "deduct", "hard_stop"] {
            if table.has(key) {
                let remedy = "leave it out, or write after = \"deduct\"";
                table.error(key, "this has no use when work stops at the limit", remedy);
            }
        }
        AfterTheLimit::MarkAsItStands
    };
    let on_the_limit = table
        .word("on_the_limit", ON_THE_LIMIT)
        .unwrap_or(OnTheLimit::Inside);
    table.finish();
    TimeRule {
        limit,
        grace,
        on_the_limit,
        after,
    }
}

pub(super) fn read_award(root: &Table<'_>) -> Award {
    let Some(table) = root.table("award") else {
        root.missing("award", "add [award] with a line such as pass = \"65 %\"");
        return Award {
            pass: Threshold::Marks(Marks::ZERO),
            decision: DecisionRule::Simple,
            warnings_to_stop: 2,
            grades: Vec::new(),
        };
    };
    let award = Award {
        pass: needed_threshold(&table, "pass"),
        decision: read_decision(&table),
        warnings_to_stop: table.positive_count("warnings_to_stop").unwrap_or(2),
        grades: table
            .tables("grades", "grade")
            .into_iter()
            .map(read_grade)
            .collect(),
    };
    table.finish();
    award
}

pub(super) fn read_moderation(table: Table<'_>) -> Moderation {
    let moderation = Moderation {
        settle: table.word("settle", SETTLE).unwrap_or_default(),
        discuss_beyond: table.threshold("discuss_beyond"),
        third_examiner: table.flag("third_examiner"),
    };
    table.finish();
    moderation
}

fn read_decision(table: &Table<'_>) -> DecisionRule {
    let risk = table.percent("risk").unwrap_or(Exact::whole(5));
    let rules = &[
        ("simple", DecisionRule::Simple),
        (
            "guarded acceptance",
            DecisionRule::GuardedAcceptance { risk },
        ),
        ("guarded rejection", DecisionRule::GuardedRejection { risk }),
    ];
    table
        .word("decision", rules)
        .unwrap_or(DecisionRule::Simple)
}

fn read_grade(table: Table<'_>) -> Grade {
    let grade = Grade {
        id: table.needed_id(),
        name: table.needed_text("name"),
        from: needed_threshold(&table, "from"),
    };
    table.finish();
    grade
}

fn needed_threshold(table: &Table<'_>, key: &'static str) -> Threshold {
    if !table.has(key) {
        table.missing(
            key,
            format!("add a line such as {key} = \"65 %\" or {key} = 28"),
        );
    }
    table
        .threshold(key)
        .unwrap_or(Threshold::Marks(Marks::ZERO))
}
