use super::rules::{
    AFA, BASE_NARROW_LONGER, EXPANSION, LUNGWITZ, Slope, USDA, heel_extension, most_overhang,
};
use super::{Proportion, Stands};
use crate::piece::PieceSpecification;
use crate::quantity::{Length, Unit};

/// Rules about the fit on a foot, with what they come to for this shoe.
pub(super) fn fit(piece: &PieceSpecification, unit: Unit) -> Vec<Proportion> {
    let say = |length: Length| length.quantity().print(unit);
    let thick = piece.finished.thickness;
    let upright = heel_extension(thick, Slope::Upright).most;
    let acute = heel_extension(thick, Slope::Acute).most;
    let overhang = most_overhang(piece.stock.width);
    let rule = |what, rule, source| Proportion {
        what,
        rule,
        asked: String::new(),
        stands: Stands::ForTheFit,
        source,
    };
    vec![
        rule(
            "heel past the buttress",
            format!(
                "as far as the shoe is thick on a regular foot, {}; upright at most {}; acute under {}",
                say(thick),
                say(upright),
                say(acute)
            ),
            USDA,
        ),
        rule(
            "outside the wall, last nail to heel",
            format!("{} to {}", say(EXPANSION.least), say(EXPANSION.most)),
            LUNGWITZ,
        ),
        rule(
            "outer branch of a base-narrow horse",
            format!("{} longer", say(BASE_NARROW_LONGER)),
            LUNGWITZ,
        ),
        rule(
            "past wall and heel, at most",
            format!("75 % of the width of the stock: {}", say(overhang)),
            AFA,
        ),
    ]
}
