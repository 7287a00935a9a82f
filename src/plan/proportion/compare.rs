use super::fit::fit;
use super::rules::{
    AVERAGE_THICKNESS, AXE, FLEMING, HUNTING, LUNGWITZ, MOST_NAILS, NAIL_SPACING, USDA,
    clip_height, french, fuller_depth, mean_web, rearmost_hole,
};
use super::{Proportion, Stands};
use crate::piece::{Branch, Foot, MadeShoe, PieceSpecification};
use crate::plan::inputs::Inputs;
use crate::plan::line::Lines;
use crate::plan::sizes::{check_piece, from_mm};
use crate::quantity::{Exact, Length, Quantity, Unit};

/// Sizes this near are one, in nanometres: 0.5 mm, what a rule is read to. Common practice, no
/// source.
const NEAR: u64 = 500_000;

/// Every rule that has something to say of the piece. None where its sizes are no shoe's.
pub(in crate::plan) fn proportions(
    piece: &PieceSpecification,
    inputs: &Inputs,
    made: Option<&(MadeShoe, Lines)>,
) -> Vec<Proportion> {
    if check_piece(piece).is_err() {
        return Vec::new();
    }
    let say = Say(inputs.unit);
    let mut found = Vec::new();
    found.extend(fuller(piece, say));
    found.push(thickness(piece, say));
    found.extend(web(piece, inputs, say));
    found.extend(holes(piece, inputs.foot, made, say));
    found.extend(clips(piece, say));
    found.extend(toe(piece, made, say));
    found.extend(fit(piece, inputs.unit));
    found
}

#[derive(Clone, Copy)]
struct Say(Unit);

impl Say {
    fn length(self, length: Length) -> String {
        length.quantity().print(self.0)
    }
}

fn near(one: Length, other: Length) -> Stands {
    stands(one.base().abs_diff(other.base()) <= NEAR)
}

fn stands(keeps: bool) -> Stands {
    if keeps {
        Stands::Keeps
    } else {
        Stands::Differs
    }
}

fn fuller(piece: &PieceSpecification, say: Say) -> Option<Proportion> {
    let fuller = piece.fuller.as_ref()?;
    let rule = fuller_depth(piece.finished.thickness);
    Some(Proportion {
        what: "depth of the fuller",
        rule: format!("two thirds of the thickness: {}", say.length(rule)),
        asked: say.length(fuller.depth),
        stands: near(fuller.depth, rule),
        source: LUNGWITZ,
    })
}

fn thickness(piece: &PieceSpecification, say: Say) -> Proportion {
    let asked = piece.finished.thickness;
    Proportion {
        what: "thickness",
        rule: format!("{} on the average", say.length(AVERAGE_THICKNESS)),
        asked: say.length(asked),
        stands: near(asked, AVERAGE_THICKNESS),
        source: LUNGWITZ,
    }
}

fn web(piece: &PieceSpecification, inputs: &Inputs, say: Say) -> Option<Proportion> {
    let wall = inputs.hoof.and_then(|hoof| hoof.wall)?;
    let rule = mean_web(wall);
    let web = &piece.web;
    let all = [web.toe, web.quarter, web.heel].map(|web| web.quantity().base);
    let mean = Exact::mean(&all).map(|mean| Quantity {
        base: mean,
        ..web.toe.quantity()
    });
    let mean = mean.and_then(Length::nearest)?;
    Some(Proportion {
        what: "mean width of the web",
        rule: format!("about twice the wall: {}", say.length(rule)),
        asked: say.length(mean),
        stands: near(mean, rule),
        source: LUNGWITZ,
    })
}

fn holes(
    piece: &PieceSpecification,
    foot: Foot,
    made: Option<&(MadeShoe, Lines)>,
    say: Say,
) -> Vec<Proportion> {
    let Some(nails) = &piece.nails else {
        return Vec::new();
    };
    let count = nails.outer.saturating_add(nails.inner);
    let mut found = vec![
        Proportion {
            what: "number of nail holes",
            rule: format!(
                "4 or 5 in small, 5 to 7 in medium, 8 in heavy shoes; never over {MOST_NAILS}"
            ),
            asked: count.to_string(),
            stands: stands((4..=MOST_NAILS).contains(&count)),
            source: if count > MOST_NAILS { AXE } else { HUNTING },
        },
        Proportion {
            what: "distance of nail holes",
            rule: format!(
                "{} to {}",
                say.length(NAIL_SPACING.least),
                say.length(NAIL_SPACING.most)
            ),
            asked: say.length(nails.spacing),
            stands: stands(NAIL_SPACING.holds(nails.spacing)),
            source: HUNTING,
        },
    ];
    let is_hind = matches!(foot, Foot::NearHind | Foot::OffHind);
    let most = rearmost_hole(piece.finished.length, is_hind);
    let share = if is_hind { "two thirds" } else { "half" };
    let last = made.and_then(|(shoe, _)| {
        let behind = shoe.holes.iter().map(|hole| hole.centre.y);
        behind.reduce(f64::max).and_then(from_mm)
    });
    found.extend(last.map(|last| Proportion {
        what: "last nail hole behind the toe",
        rule: format!(
            "within the fore {share} of the shoe: {} at most",
            say.length(most)
        ),
        asked: say.length(last),
        stands: stands(last <= most),
        source: USDA,
    }));
    found
}

fn clips(piece: &PieceSpecification, say: Say) -> impl Iterator<Item = Proportion> {
    let rule = clip_height(piece.finished.thickness);
    let clip = move |clip: &crate::piece::Clip| Proportion {
        what: "height of a clip",
        rule: format!("the thickness of the shoe: {}", say.length(rule)),
        asked: format!("{}, {}", say.length(clip.height), clip.place.word()),
        stands: near(clip.height, rule),
        source: LUNGWITZ,
    };
    piece.clips.iter().map(clip)
}

fn toe(
    piece: &PieceSpecification,
    made: Option<&(MadeShoe, Lines)>,
    say: Say,
) -> Option<Proportion> {
    let rule = french(piece.web.toe);
    let last = |branch: Branch| {
        let (shoe, _) = made?;
        let mut holes = shoe.holes.iter().filter(|hole| hole.branch == branch);
        holes.next_back().map(|hole| across(shoe, hole.centre.y))
    };
    let width = last(Branch::Outer).zip(last(Branch::Inner));
    let width = width
        .map(|(one, other)| f64::midpoint(one, other))
        .and_then(from_mm)?;
    let is_kept = near(piece.finished.length, rule.length) == Stands::Keeps
        && near(width, rule.width) == Stands::Keeps;
    Some(Proportion {
        what: "length and width by the toe",
        rule: format!(
            "four times the web at the toe long, three and a half times wide across the last nails: \
             {} and {}",
            say.length(rule.length),
            say.length(rule.width)
        ),
        asked: format!(
            "{} and {}",
            say.length(piece.finished.length),
            say.length(width)
        ),
        stands: stands(is_kept),
        source: FLEMING,
    })
}

/// Width of the shoe so far behind the toe, in mm.
fn across(shoe: &MadeShoe, y: f64) -> f64 {
    let out = |edge: &crate::piece::Edge| {
        let (mut low, mut high) = (0.0, edge.heel());
        for _ in 0..24 {
            let middle = f64::midpoint(low, high);
            if edge.at(middle).0.y < y {
                low = middle;
            } else {
                high = middle;
            }
        }
        edge.at(high).0.x.abs()
    };
    out(&shoe.right) + out(&shoe.left)
}
