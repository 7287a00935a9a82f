use evenshod::plan::heat::left_of;
use evenshod::plan::{Choice, plan};
use evenshod::quantity::{Exact, Unit};

use super::sample::{bar, hind, length, shipped_piece};

#[test]
fn bar_and_shoe_weigh_what_their_volume_does() {
    let (piece, mut inputs) = bar();
    inputs.choice = Choice::Own(length("14 in"));
    let masses = plan(&piece, &inputs).masses;
    let bar = masses.bar.clone().unwrap();
    assert_eq!(bar.quantity().print(Unit::Gram), "506.5 g");
    let by_handbook = masses.bar_by_handbook.unwrap();
    assert_eq!(by_handbook.quantity().print(Unit::Gram), "506.0 g");
    assert_eq!(
        masses.metre.unwrap().quantity().print(Unit::Gram),
        "1424.4 g"
    );
    let left = left_of(bar, Exact::fraction(1, 100).unwrap(), 9).unwrap();
    assert_eq!(masses.after_heats.unwrap(), left);
}

#[test]
fn a_shoe_weighs_less_than_the_bar_that_it_is_planned_from() {
    for (piece, inputs) in [bar(), hind()] {
        let masses = plan(&piece, &inputs).masses;
        let [shoe, bar] = [masses.shoe.unwrap(), masses.bar.unwrap()];
        let share = shoe
            .quantity()
            .base
            .over(bar.quantity().base)
            .unwrap()
            .to_f64();
        assert!((0.8..1.0).contains(&share), "{shoe} of {bar}");
    }
}

#[test]
fn concave_bar_has_no_mass_until_it_is_weighed() {
    let (piece, foot) = shipped_piece("concave-front-shoe");
    let masses = plan(&piece, &evenshod::plan::Inputs::usual(&piece, foot)).masses;
    for mass in [masses.metre, masses.shoe] {
        assert!(mass.unwrap_err().to_string().contains("weigh a sample"));
    }
    assert_eq!(masses.bar_by_handbook, None);
}
