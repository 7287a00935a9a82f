use super::cut::volume::fullness_of;
use super::inputs::Inputs;
use super::solid::Solid;
use super::steel::{bar_mass, bar_mass_by_handbook, volume_mass};
use super::{Chosen, Made, PlanFault, heat};
use crate::piece::{PieceSpecification, Section};
use crate::quantity::{Length, Mass};

/// What bar and shoe weigh.
#[derive(Debug, Clone, PartialEq)]
pub struct Masses {
    /// A metre of the bar.
    pub metre: Result<Mass, PlanFault>,
    /// The bar that was chosen.
    pub bar: Result<Mass, PlanFault>,
    /// The same by the handbook rule of 3.4 lb to the foot of a square inch; flat bar only.
    pub bar_by_handbook: Option<Mass>,
    /// What the heats leave of that bar, before holes are punched.
    pub after_heats: Result<Mass, PlanFault>,
    /// The finished shoe, from its own sizes.
    pub shoe: Result<Mass, PlanFault>,
}

pub(super) fn masses(
    piece: &PieceSpecification,
    inputs: &Inputs,
    made: &Made,
    chosen: &Result<Chosen, PlanFault>,
) -> Masses {
    let stock = &piece.stock;
    let length = chosen.as_ref().map(|chosen| chosen.length);
    let length = length.map_err(Clone::clone);
    let checked = super::sizes::check_piece(piece).and_then(|()| fullness_of(piece, inputs));
    let of = |length: Length| {
        let share = checked.clone()?;
        let whole = bar_mass(length, stock.width, stock.thickness).ok_or(TOO_HEAVY)?;
        part(whole, share)
    };
    let bar = length.clone().and_then(of);
    let is_flat = stock.section == Section::Flat && checked.is_ok();
    let by_handbook = |length: Length| bar_mass_by_handbook(length, stock.width, stock.thickness);
    Masses {
        metre: of(Length::from_base(1_000_000_000)),
        after_heats: bar.clone().and_then(|bar| {
            super::sizes::check_inputs(inputs)?;
            heat::left_of(bar, inputs.scale_loss, inputs.heats).ok_or(TOO_HEAVY)
        }),
        bar,
        bar_by_handbook: length.ok().filter(|_| is_flat).and_then(by_handbook),
        shoe: shoe(piece, made, checked),
    }
}

fn shoe(
    piece: &PieceSpecification,
    made: &Made,
    fullness: Result<f64, PlanFault>,
) -> Result<Mass, PlanFault> {
    let (shoe, _) = made.as_ref().map_err(Clone::clone)?;
    let fullness = fullness?;
    let solid = Solid::of(piece, shoe);
    let less = solid.body * (1.0 - fullness);
    let mass = volume_mass(solid.finished() - less).filter(|mass| mass.base() > 0);
    mass.ok_or_else(|| PlanFault::Contradicts {
        what: "fuller, roll and holes leave no metal in the shoe".to_owned(),
        lengths: Vec::new(),
        remedy: "make them smaller in the piece",
    })
}

fn part(mass: Mass, share: f64) -> Result<Mass, PlanFault> {
    use num_traits::ToPrimitive as _;
    let part = mass.base().to_f64().map(|base| (base * share).round());
    let part = part.and_then(|base| base.to_i64());
    part.map(Mass::from_base).ok_or(TOO_HEAVY)
}

/// No mass holds what sizes come to.
const TOO_HEAVY: PlanFault = PlanFault::Needs {
    what: "a mass that can be held",
    remedy: "make the sizes smaller",
};
