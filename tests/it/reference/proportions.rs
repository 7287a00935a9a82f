//! Handbook rules of proportion against their printed numbers.

use evenshod::plan::proportion::{
    AVERAGE_THICKNESS, BASE_NARROW_LONGER, EXPANSION, HorseSize, MOST_NAILS, NAIL_SPACING, Slope,
    clip_height, french, fuller_depth, heel_extension, mean_web, most_overhang, nail_counts,
    rearmost_hole,
};
use evenshod::quantity::Length;

fn length(text: &str) -> Length {
    Length::read(text).unwrap()
}

#[track_caller]
fn near(found: Length, mm: f64) {
    assert!((found.to_mm() - mm).abs() < 0.01, "{found} for {mm}");
}

/// Source: A. Lungwitz and J. W. Adams, A Text-Book of Horseshoeing, 1913, p. 110; US Department
/// of Agriculture, Special Report on Diseases of the Horse: two thirds of the thickness.
#[test]
fn fuller_to_two_thirds() {
    assert_eq!(fuller_depth(length("3/8")), length("1/4"));
    for (thick, mm) in [("7/16", 7.41), ("5/16", 5.29), ("10", 6.67)] {
        near(fuller_depth(length(thick)), mm);
    }
}

/// Source: as above: twice the wall; 7/16 in thick on the average.
#[test]
fn web_and_thickness() {
    assert_eq!(mean_web(length("10")), length("20"));
    assert_eq!(AVERAGE_THICKNESS, length("11.1125"));
}

/// Source: as above: as thick as the shoe; at most 1/8 in upright; nearly twice when acute.
#[test]
fn heels_past_the_buttress() {
    let of = |slope| heel_extension(length("10"), slope);
    assert!(of(Slope::Regular).holds(length("10")));
    assert!(!of(Slope::Regular).holds(length("10.1")));
    assert_eq!(of(Slope::Upright).most, length("3.175"));
    assert!(of(Slope::Acute).holds(length("19.999")));
    assert!(!of(Slope::Acute).holds(length("20")));
}

/// Source: Lungwitz and Adams, 1913: outer branch 1/4 in longer; 1/16 to 1/8 in outside the wall.
#[test]
fn base_narrow_and_expansion() {
    assert_eq!(BASE_NARROW_LONGER, length("6.35"));
    let stands = ["1.5", "1.5875", "2.4", "3.175", "3.5"].map(|text| EXPANSION.holds(length(text)));
    assert_eq!(stands, [false, true, true, true, false]);
}

/// Source: US Department of Agriculture: fore half of a front, fore two thirds of a hind.
#[test]
fn the_last_hole() {
    assert_eq!(rearmost_hole(length("132"), false), length("66"));
    assert_eq!(rearmost_hole(length("132"), true), length("88"));
}

/// Source: W. Hunting, The Art of Horse-Shoeing, 1895: 1 to 1 1/2 in apart; 4 or 5 small, 5 to 7
/// medium, 8 heavy. Never over 8: J. W. Axe (ed.), The Horse, vol. 4, 1906.
#[test]
fn nails() {
    let stands = ["24", "25.4", "30", "38.1", "39"].map(|text| NAIL_SPACING.holds(length(text)));
    assert_eq!(stands, [false, true, true, true, false]);
    assert_eq!(nail_counts(HorseSize::Small), 4..=5);
    assert_eq!(nail_counts(HorseSize::Medium), 5..=7);
    assert_eq!(nail_counts(HorseSize::Heavy), 8..=8);
    assert_eq!(MOST_NAILS, 8);
}

/// Source: Lungwitz and Adams, 1913; US Department of Agriculture: as high as the shoe is thick.
#[test]
fn clips() {
    assert_eq!(clip_height(length("9.5")), length("9.5"));
}

/// Source: American Farrier's Association as quoted in American Farriers Journal, article 13770:
/// 75 % of the width of the stock.
#[test]
fn overhang() {
    assert_eq!(most_overhang(length("3/4 in")), length("9/16 in"));
    near(most_overhang(length("3/4 in")), 14.29);
    assert_eq!(most_overhang(length("25")), length("18.75"));
}

/// Source: G. Fleming, Horse-Shoes and Horse-Shoeing, 1869, p. 492.
#[test]
fn the_french_proportion() {
    let found = french(length("1 1/2 in"));
    assert_eq!(found.length, length("6 in"));
    assert_eq!(found.width, length("5 1/4 in"));
}
