use super::criterion::{Common, EFFECTS};
use super::table::{Table, split_message};
use crate::quantity::{Dimension, Exact, Marks, read_exact};
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
    let target = read_expression(table, target_key, dimension, common);
    let bands: Vec<Band> = table
        .tables("bands", "band")
        .into_iter()
        .map(|band| read_band(band, dimension, common))
        .collect();
    if bands.is_empty() {
        let remedy = "add bands = [{ within = \"1.5 mm\", marks = 4 }, …], the best first";
        table.missing("bands", remedy);
    }
    let needs_target = bands
        .iter()
        .any(|band| matches!(band.limits, Limits::Around { .. }));
    if needs_target && target.is_none() && target_key == "target" {
        table.missing(
            "target",
            "`within` counts from a target; add target = \"…\"",
        );
    }
    let stops_outside = table.table("stops_outside").map(|limits| {
        let read = read_limits(&limits, dimension, common);
        limits.finish();
        read
    });
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

fn read_band(table: Table<'_>, dimension: Dimension, common: &Common<'_>) -> Band {
    if !table.has("marks") {
        table.missing("marks", "add marks = …");
    }
    let band = Band {
        name: table.text("name").map(|name| name.to_lowercase()),
        limits: read_limits(&table, dimension, common),
        marks: table.positive_marks("marks").unwrap_or(Marks::ZERO),
        effect: table.word("effect", EFFECTS).unwrap_or(Effect::Noted),
    };
    table.finish();
    band
}

fn read_limits(table: &Table<'_>, dimension: Dimension, common: &Common<'_>) -> Limits {
    let limit = |key| read_limit(table, key, dimension, common);
    let (within, under, over) = (limit("within"), limit("under"), limit("over"));
    let (at_most, at_least) = (limit("at_most"), limit("at_least"));
    let (from, to) = (limit("from"), limit("to"));
    match (within, under, over, at_most, at_least, from, to) {
        (Some(limit), None, None, None, None, None, None) => Limits::Around {
            under: limit.clone(),
            over: limit,
        },
        (None, Some(under), Some(over), None, None, None, None) => Limits::Around { under, over },
        (None, None, None, Some(limit), None, None, None) => Limits::AtMost(limit),
        (None, None, None, None, Some(limit), None, None) => Limits::AtLeast(limit),
        (None, None, None, None, None, Some(from), Some(to)) => Limits::Between(from, to),
        _ => {
            let what = "a band needs one form of limit";
            let remedy = "write within; or under and over; or at_most; or at_least; or from and to";
            table.source.error(table.span.clone(), what, remedy);
            Limits::AtMost(Limit::Percent(Exact::ZERO))
        }
    }
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
