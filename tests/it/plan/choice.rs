use evenshod::plan::{Caveat, Choice, Method, PlanFault, plan};

use super::sample::{bar, hind, length};

#[test]
fn the_length_of_the_piece_counts_first() {
    let (mut piece, mut inputs) = bar();
    let chosen = plan(&piece, &inputs).chosen.unwrap();
    assert_eq!(chosen.length, length("15 in"));
    assert!(chosen.is_given && chosen.method.is_none());
    inputs.choice = Choice::Method(Method::Published);
    let chosen = plan(&piece, &inputs).chosen.unwrap();
    assert_eq!(chosen.method, Some(Method::Published));
    assert!(!chosen.is_given);
    piece.stock.length = None;
    inputs.choice = Choice::Usual;
    let chosen = plan(&piece, &inputs).chosen.unwrap();
    assert_eq!(chosen.method, Some(Method::Developed));
}

#[test]
fn a_method_that_refuses_says_why_where_it_is_chosen() {
    let (piece, mut inputs) = hind();
    inputs.choice = Choice::Method(Method::Tape);
    let found = plan(&piece, &inputs);
    let fault = found.chosen.unwrap_err();
    assert!(matches!(fault, PlanFault::Kind { .. }), "{fault}");
    assert_eq!(found.layout.unwrap_err(), fault);
    assert_eq!(found.masses.bar.unwrap_err(), fault);
    // The rest stands.
    assert!(found.masses.shoe.is_ok());
    assert!(!found.proportions.is_empty());
}

#[test]
fn a_bar_lighter_than_its_shoe_is_told() {
    let (piece, mut inputs) = bar();
    assert_eq!(plan(&piece, &inputs).caveats, Vec::new());
    inputs.choice = Choice::Own(length("12 in"));
    let caveats = plan(&piece, &inputs).caveats;
    assert!(
        matches!(caveats[..], [Caveat::LighterThanShoe { .. }]),
        "{caveats:?}"
    );
    let said = caveats[0].to_string();
    assert!(
        said.starts_with("the bar weighs 434 g and the shoe by its sizes 471 g"),
        "{said}"
    );
    inputs.choice = Choice::Method(Method::Handbook);
    assert_eq!(plan(&piece, &inputs).caveats.len(), 3);
}

#[test]
fn a_length_of_ones_own_is_one_that_can_be_cut() {
    let (piece, mut inputs) = hind();
    for wrong in ["0", "-300", "49.9", "3001", "9000000"] {
        inputs.choice = Choice::Own(length(wrong));
        let fault = plan(&piece, &inputs).chosen.unwrap_err().to_string();
        let rest = "; a plan takes 50 mm to 3000 mm: change it in the plan";
        assert_eq!(fault, format!("the length to cut is {wrong} mm{rest}"));
    }
}
