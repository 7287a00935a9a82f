use super::outlined::Outlined;
use crate::gauge::features::Side;
use crate::gauge::over::{Edge, LaidOver, Off, Part, Whereabouts};
use crate::quantity::print_figure;
use crate::sheet::capital;

/// A value lies within so many standard uncertainties with about 95 % (JCGM 100:2008, 6.3.3).
const COVERAGE: f64 = 2.0;
/// Distances of which shares are told, in mm.
const NEAR: [f64; 2] = [1.0, 2.0];

/// How left and right are meant.
const ACROSS: &str =
    "Left and right are those of who looks down on the ground face with the toe up.";

/// How far apart two shoes lie and where, and what is to be known of it; a sentence each.
pub(super) fn over_words(
    shoe: &Outlined,
    under: &Outlined,
    laid: &LaidOver,
) -> (Vec<String>, Vec<String>) {
    let most = |off: Option<&Off>, verb: &str, none: &str| match off {
        Some(off) => format!(
            "{verb} by {} at most: {}.",
            mm(off.by.abs()),
            where_words(off.whereabouts, !shoe.edges.inner.is_empty())
        ),
        None => none.to_owned(),
    };
    let [near, further] = NEAR.map(|within| percent(laid.share_within(within)));
    let lines = vec![
        most(laid.furthest_out(), "Stands out", "Stands out nowhere."),
        most(laid.furthest_in(), "Falls short", "Falls short nowhere."),
        format!(
            "Root mean square {}; {near} of the edges lie within 1 mm, {further} within 2 mm.",
            mm(laid.rms)
        ),
    ];
    let feet = shoe.foot.map(|foot| {
        let side = if foot.outer_is_right() {
            "right"
        } else {
            "left"
        };
        format!(" For a {} the outer branch is the {side} one.", foot.word())
    });
    let notes = vec![
        format!("{ACROSS}{}", feet.unwrap_or_default()),
        vague(shoe, under),
    ];
    (lines, notes)
}

/// How far two outlines may differ and be the same.
fn vague(shoe: &Outlined, under: &Outlined) -> String {
    let wide = |one: &Outlined| {
        let sure = (one.unsure > 0.0).then(|| mm(COVERAGE * one.unsure));
        sure.map(|sure| format!("{} is ± {sure}", uncapital(&one.name)))
    };
    let known: Vec<String> = [shoe, under].into_iter().filter_map(wide).collect();
    let both = COVERAGE * shoe.unsure.hypot(under.unsure);
    if known.is_empty() {
        return "How sure these outlines are is not known.".to_owned();
    }
    format!(
        "Over its overall width, {} (about 95 %). What differs by less than {} in all may be the \
         photo alone.",
        known.join(" and "),
        mm(both)
    )
}

/// Where a place is: `left branch, outer edge, 40 % of the way from the toe`.
fn where_words(whereabouts: Whereabouts, has_bar: bool) -> String {
    let Whereabouts { part, edge } = whereabouts;
    let edge = match (part, edge) {
        (Part::Bar, Edge::Outer) => "back edge",
        (Part::Bar, Edge::Inner) => "front edge",
        (_, Edge::Outer) => "outer edge",
        (_, Edge::Inner) => "inner edge",
    };
    match part {
        Part::Toe => format!("at the toe, {edge}"),
        Part::Bar => format!("at the bar, {edge}"),
        Part::Heel(side) => format!("at the {} heel", side_word(side)),
        Part::Branch(side, share) if has_bar && share > 0.98 => {
            format!(
                "on the {} branch, {edge}, at the heel corner",
                side_word(side)
            )
        }
        Part::Branch(side, share) => format!(
            "on the {} branch, {edge}, {} of the way from the toe",
            side_word(side),
            percent(share)
        ),
    }
}

fn side_word(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

fn mm(value: f64) -> String {
    format!("{} mm", print_figure(value, 2))
}

fn percent(share: f64) -> String {
    format!("{} %", print_figure(100.0 * share, 0))
}

/// A name within a sentence: `The shoe` becomes `the shoe`; what begins otherwise stays.
fn uncapital(name: &str) -> String {
    name.strip_prefix("The ")
        .map_or_else(|| capital(name), |rest| format!("the {rest}"))
}
