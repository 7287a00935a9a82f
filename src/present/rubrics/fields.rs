//! The fields of the forms by where they stand: key, label, hint, and what each takes.

use super::form::FieldKind;

/// Key, label, hint, kind.
pub(super) type Spec = (&'static str, &'static str, &'static str, FieldKind);

pub(super) const KINDS: &[(&str, &str)] = &[
    ("open-heeled", "open-heeled"),
    ("straight bar", "straight bar"),
    ("egg bar", "egg bar"),
    ("heart bar", "heart bar"),
];
pub(super) const TOES: &[(&str, &str)] =
    &[("round", "round"), ("rolled", "rolled"), ("set", "set")];
pub(super) const UNITS: &[(&str, &str)] = &[("mm", "millimetres"), ("in", "inches")];
pub(super) const EFFECTS: &[(&str, &str)] = &[
    ("noted", "noted"),
    ("deduct", "costs marks"),
    ("warn", "a warning"),
    ("stop", "stops the award"),
];

pub(super) const HEAD: &[Spec] = &[
    ("title", "Title", "", FieldKind::Line),
    (
        "id",
        "Id",
        "Small letters, digits and hyphens; the same over all versions.",
        FieldKind::Line,
    ),
    ("version", "Version", "", FieldKind::Line),
    ("about", "What it is for", "", FieldKind::Lines),
    (
        "source",
        "Where its tolerances come from",
        "",
        FieldKind::Line,
    ),
    ("unit", "A bare length is in", "", FieldKind::Choice(UNITS)),
    (
        "examiners",
        "Examiners",
        "How many mark before there is a result; 1 where nothing is said.",
        FieldKind::Amount,
    ),
];
pub(super) const SETTLE: &[(&str, &str)] = &[
    ("discussion", "the examiners, with a reason"),
    ("mean", "the mean of their marks"),
    ("lower", "the lowest of their marks"),
];
pub(super) const MODERATION: &[Spec] = &[
    (
        "settle",
        "What they mark differently is settled by",
        "",
        FieldKind::Choice(SETTLE),
    ),
    (
        "discuss_beyond",
        "By themselves where they differ by more than",
        "Marks, or per cent such as 20 %.",
        FieldKind::Amount,
    ),
    (
        "third_examiner",
        "A third examiner marks where the awards of two differ",
        "",
        FieldKind::Flag,
    ),
];
pub(super) const IMPRESSION: &[Spec] = &[
    (
        "ask",
        "Question",
        "Where nothing is said: How good is this piece, at a first look?",
        FieldKind::Line,
    ),
    (
        "least",
        "Least",
        "0 where nothing is said.",
        FieldKind::Amount,
    ),
    (
        "most",
        "Most",
        "10 where nothing is said.",
        FieldKind::Amount,
    ),
    (
        "step",
        "Step",
        "1 where nothing is said.",
        FieldKind::Amount,
    ),
];
pub(super) const COUNTS_AS: Spec = (
    "counts_as",
    "Counts as the criterion by eye",
    "Its id, as in the text.",
    FieldKind::Line,
);
pub(super) const AWARD: &[Spec] = &[
    (
        "pass",
        "Pass mark",
        "Marks, or per cent such as 65 %.",
        FieldKind::Amount,
    ),
    (
        "warnings_to_stop",
        "Warnings that stop the award",
        "2 where nothing is said.",
        FieldKind::Amount,
    ),
];
pub(super) const PIECE: &[(&str, &[Spec])] = &[
    (
        "piece",
        &[
            ("kind", "Kind of shoe", "", FieldKind::Choice(KINDS)),
            (
                "outer_fuller_by",
                "Outer branch fuller by",
                "",
                FieldKind::Amount,
            ),
        ],
    ),
    (
        "piece.stock",
        &[
            ("width", "Stock, width", "", FieldKind::Amount),
            ("thickness", "Stock, thickness", "", FieldKind::Amount),
            ("length", "Cut length", "", FieldKind::Amount),
        ],
    ),
    (
        "piece.finished",
        &[
            ("width", "Finished width", "", FieldKind::Amount),
            ("length", "Finished length", "", FieldKind::Amount),
        ],
    ),
    (
        "piece.toe",
        &[
            ("shape", "Toe", "", FieldKind::Choice(TOES)),
            ("radius", "Toe radius", "", FieldKind::Amount),
        ],
    ),
    (
        "piece.heels",
        &[("gap", "Heels apart", "", FieldKind::Amount)],
    ),
    (
        "piece.bar",
        &[
            ("width", "Bar, front to back", "", FieldKind::Amount),
            ("gap", "Heels apart", "", FieldKind::Amount),
            ("behind", "Bar behind the heels", "", FieldKind::Amount),
        ],
    ),
    (
        "piece.fuller",
        &[
            (
                "start",
                "Fuller starts",
                "From the middle of the toe along the outer edge.",
                FieldKind::Amount,
            ),
            ("end", "Fuller ends", "", FieldKind::Amount),
            ("inset", "Fuller from the edge", "", FieldKind::Amount),
            ("width", "Fuller, width", "", FieldKind::Amount),
            ("depth", "Fuller, depth", "", FieldKind::Amount),
        ],
    ),
    (
        "piece.nails",
        &[
            ("outer", "Holes outside", "", FieldKind::Amount),
            ("inner", "Holes inside", "", FieldKind::Amount),
            (
                "first",
                "First hole",
                "From the middle of the toe along the outer edge.",
                FieldKind::Amount,
            ),
            ("spacing", "Hole to hole", "", FieldKind::Amount),
            ("inset", "Holes from the edge", "", FieldKind::Amount),
        ],
    ),
];
pub(super) const TIME: &[Spec] = &[
    (
        "limit",
        "Time allowed",
        "Minutes, or as in 1 h 40 min.",
        FieldKind::Amount,
    ),
    ("grace", "Grace", "", FieldKind::Amount),
    (
        "deduct",
        "Marks off for each started",
        "",
        FieldKind::Amount,
    ),
    ("hard_stop", "Award stopped past", "", FieldKind::Amount),
];
pub(super) const SECTION: &[Spec] = &[
    ("name", "Section", "", FieldKind::Line),
    (
        "weight",
        "Scaled to",
        "Marks that the whole section gives; empty: the sum of its criteria.",
        FieldKind::Amount,
    ),
    ("cap", "Most marks", "", FieldKind::Amount),
    (
        "minimum",
        "Least for a pass",
        "Marks or per cent.",
        FieldKind::Amount,
    ),
];
pub(super) const CRITERION: &[Spec] = &[
    ("name", "Name", "", FieldKind::Line),
    (
        "note",
        "How it is looked at or measured",
        "",
        FieldKind::Lines,
    ),
    (
        "weight",
        "Counts",
        "So many times; once where nothing is said.",
        FieldKind::Amount,
    ),
];
pub(super) const READING: &[Spec] = &[
    ("name", "Name", "", FieldKind::Line),
    ("note", "How it is taken", "", FieldKind::Lines),
];
pub(super) const TARGET: Spec = (
    "target",
    "Asked for",
    "An amount, a reading, or a share such as 2/3 of thickness.",
    FieldKind::Amount,
);
pub(super) const INTENDED: Spec = (
    "intended",
    "Difference asked for",
    "Left minus right; none where nothing is said.",
    FieldKind::Amount,
);
pub(super) const COUNT: Spec = ("count", "Readings in the series", "", FieldKind::Amount);
pub(super) const BEYOND: Spec = ("beyond", "Marks outside every band", "", FieldKind::Amount);
const COUNTS: &[(&str, &str)] = &[
    ("heats", "heats"),
    ("weld heats", "weld heats"),
    ("time", "time"),
];
pub(super) const TALLY: &[Spec] = &[
    ("marks", "Marks within the allowance", "", FieldKind::Amount),
    (
        "allowance",
        "Allowance",
        "A number, planned heats, or planned weld heats.",
        FieldKind::Amount,
    ),
    (
        "counts",
        "Taken from a heat log",
        "Planned heats are by themselves.",
        FieldKind::Choice(COUNTS),
    ),
    ("each", "For each started", "", FieldKind::Amount),
    ("deduct", "Marks off", "", FieldKind::Amount),
    ("hard_limit", "Award stopped past", "", FieldKind::Amount),
];
pub(super) const NUMBERS: &[Spec] = &[
    ("least", "Least", "", FieldKind::Amount),
    ("most", "Most", "", FieldKind::Amount),
    ("step", "Step", "", FieldKind::Amount),
];
pub(super) const FAULT_LIST: &[Spec] = &[
    ("marks", "Marks where none is seen", "", FieldKind::Amount),
    ("least", "Never below", "", FieldKind::Amount),
];
pub(super) const BAND: &[Spec] = &[
    ("name", "Name", "", FieldKind::Line),
    ("within", "Within", "", FieldKind::Amount),
    ("under", "Under by", "", FieldKind::Amount),
    ("over", "Over by", "", FieldKind::Amount),
    ("at_most", "At most", "", FieldKind::Amount),
    ("at_least", "At least", "", FieldKind::Amount),
    ("from", "From", "", FieldKind::Amount),
    ("to", "To", "", FieldKind::Amount),
    ("marks", "Marks", "", FieldKind::Amount),
];
pub(super) const LEVEL: &[Spec] = &[
    ("name", "Level", "", FieldKind::Line),
    ("text", "What is seen", "", FieldKind::Lines),
    ("example", "For example", "", FieldKind::Lines),
    (
        "photo",
        "Photo of an example",
        "Shown beside the level. It is made smaller, and where it was taken is left out.",
        FieldKind::Picture,
    ),
    ("marks", "Marks", "", FieldKind::Amount),
];
pub(super) const FAULT: &[Spec] = &[
    ("name", "Fault", "", FieldKind::Line),
    ("cause", "Usual cause", "", FieldKind::Lines),
    ("remedy", "What to practise", "", FieldKind::Lines),
    ("effect", "What it does", "", FieldKind::Choice(EFFECTS)),
    ("deduct", "Marks off for each", "", FieldKind::Amount),
];
