//! The upshot, on top.

use super::naming::Naming;
use super::strictness;
use super::words::{about, lacking};
use crate::moderation::{Agreement, to_rewrite};
use crate::quantity::print_figure;
use crate::sheet::document::{Block, Item};
use crate::sheet::scored::heading;

pub(super) fn blocks(agreement: &Agreement, naming: &Naming) -> Vec<Block> {
    let item = |lead: &str, text: String| Item {
        lead: lead.to_owned(),
        lines: vec![text],
    };
    let mut items = vec![item("Totals", totals(agreement))];
    items.extend(trouble(agreement).map(|text| item("Most trouble", text)));
    items.push(item("Severity", strictness::upshot(agreement, naming)));
    let rewrite = to_rewrite(&agreement.descriptors);
    let named: Vec<&str> = rewrite.iter().map(|one| one.name.as_str()).collect();
    let named = if named.is_empty() {
        "No descriptor stands out as one to write anew.".to_owned()
    } else {
        format!("Write anew first: {}.", named.join("; "))
    };
    items.push(item("Descriptors", named));
    vec![heading("In short"), Block::Items(items)]
}

fn totals(agreement: &Agreement) -> String {
    let totals = &agreement.totals;
    let apart = totals.apart.map(|apart| {
        format!(
            "Two examiners of one piece lie {} per cent of the marks apart on the mean; in {} of \
             {} pieces their awards are the same.",
            about(apart),
            totals.same_award,
            totals.pieces
        )
    });
    let icc = match &totals.icc {
        Ok(icc) if icc.value > 0.0 => format!(
            "Of the differences between totals {} per cent belong to the pieces, the rest to who \
             marked them.",
            print_figure(icc.value * 100.0, 0)
        ),
        Ok(_) => "Totals differ as much by who marked as by the piece.".to_owned(),
        Err(why) => lacking(why),
    };
    match apart {
        Some(apart) => format!("{apart} {icc}"),
        None => "No piece was marked as a whole by two examiners.".to_owned(),
    }
}

fn trouble(agreement: &Agreement) -> Option<String> {
    let first = agreement.criteria.first()?;
    let apart = first.apart.filter(|apart| !apart.is_zero())?;
    Some(format!(
        "{}: two examiners of one piece lie {} of {} marks apart on the mean.",
        first.name,
        about(apart),
        first.out_of
    ))
}
