use super::criterion::{Common, EFFECTS};
use super::table::{Table, split_message};
use crate::quantity::{Dimension, Marks, Quantity, read_exact};
use crate::rubric::expression::{Context, Expression};
use crate::rubric::model::{Band, Effect, Limit, Limits, Scale};

/// Reads target, bands, beyond and `stops_outside` of a measured criterion.
/// `target_key` is `target`, or `intended` of a pair.
pub(super) fn read_scale(
    table: &Table<'_>,
    dimension: Dimension,
    target_key: &'static str,
    common: &Common<'_>,
) -> Scale {
    // A target that cannot be read is an error; nothing stands in for it so that
    // it is not called missing as well.
    let target = read_expression(table, target_key, dimension, common).or_else(|| {
        let nothing = Expression::Amount(Quantity::zero(dimension));
        table.has(target_key).then_some(nothing)
    });
    let bands: Vec<Band> = table
        .tables("bands", "band")
        .into_iter()
        .filter_map(|band| read_band(band, dimension, common))
        .collect();
    if bands.is_empty() && !table.has("bands") {
        let remedy = "add bands = [{ within = \"1.5 mm\", marks = 4 }, …], the best first";
        table.missing("bands", remedy);
    }
    let stops_outside = table.table("stops_outside").and_then(|limits| {
        let read = read_limits(&limits, dimension, common);
        limits.finish();
        read
    });
    let needs_target = bands
        .iter()
        .map(|band| &band.limits)
        .chain(&stops_outside)
        .any(|limits| matches!(limits, Limits::Around { .. }));
    if needs_target && target.is_none() && target_key == "target" {
        table.missing(
            "target",
            "`within` counts from a target; add target = \"…\"",
        );
    }
    Scale {
        dimension,
        target,
        bands,
        beyond: table.positive_marks("beyond").unwrap_or(Marks::ZERO),
        beyond_effect: table
            .word("beyond_effect", EFFECTS)
            .unwrap_or(Effect::Noted),
        stops_outside,
    }
}

/// `None` where its limits cannot be read, which is then an error.
fn read_band(table: Table<'_>, dimension: Dimension, common: &Common<'_>) -> Option<Band> {
    if !table.has("marks") {
        table.missing("marks", "add marks = …");
    }
    let limits = read_limits(&table, dimension, common);
    let name = table.text("name").map(|name| name.to_lowercase());
    let marks = table.positive_marks("marks").unwrap_or(Marks::ZERO);
    let effect = table.word("effect", EFFECTS).unwrap_or(Effect::Noted);
    table.finish();
    Some(Band {
        name,
        limits: limits?,
        marks,
        effect,
    })
}

fn read_limits(table: &Table<'_>, dimension: Dimension, common: &Common<'_>) -> Option<Limits> {
    let faults_before = table.source.diagnostics.borrow().len();
    let limit = |key| read_limit(table, key, dimension, common);
    let (within, under, over) = (limit("within"), limit("under"), limit("over"));
    let (at_most, at_least) = (limit("at_most"), limit("at_least"));
    let (from, to) = (limit("from"), limit("to"));
    Some(match (within, under, over, at_most, at_least, from, to) {
        (Some(limit), None, None, None, None, None, None) => Limits::Around {
            under: limit.clone(),
            over: limit,
        },
        (None, Some(under), Some(over), None, None, None, None) => Limits::Around { under, over },
        (None, None, None, Some(limit), None, None, None) => Limits::AtMost(limit),
        (None, None, None, None, Some(limit), None, None) => Limits::AtLeast(limit),
        (None, None, None, None, None, Some(from), Some(to)) => Limits::Between(from, to),
        _ => {
            if table.source.diagnostics.borrow().len() == faults_before {
                let what = "one form of limit is needed";
                let remedy =
                    "write within; or under and over; or at_most; or at_least; or from and to";
                table.source.error(table.span.clone(), what, remedy);
            }
            return None;
        }
    })
}

fn read_limit(
    table: &Table<'_>,
    key: &'static str,
    dimension: Dimension,
    common: &Common<'_>,
) -> Option<Limit> {
    let text = table.number_text(key)?;
    match text.strip_suffix('%') {
        Some(_) => {
            let percent = table.read(key, |text| read_exact(text.trim_end_matches('%')))?;
            if percent.is_negative() {
                table.error(key, "a limit below zero per cent", "write zero or more");
            }
            Some(Limit::Percent(percent))
        }
        None => read_expression(table, key, dimension, common).map(Limit::Amount),
    }
}

pub(super) fn read_expression(
    table: &Table<'_>,
    key: &'static str,
    dimension: Dimension,
    common: &Common<'_>,
) -> Option<Expression> {
    let text = table.number_text(key)?;
    let context = Context {
        dimension,
        bare_unit: table.bare_unit(dimension),
        piece_number: common.piece_number,
    };
    Expression::read(&text, &context)
        .inspect_err(|fault| {
            let (what, remedy) = split_message(&fault.to_string());
            table.error(key, what, remedy);
        })
        .ok()
}
