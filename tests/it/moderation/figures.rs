//! Figures of five pieces, worked by hand.

use std::collections::BTreeSet;

use evenshod::moderation::{
    Agreement, CriterionAgreement, CriterionFigures, StrictnessLack, candidates,
};
use evenshod::quantity::Exact;
use evenshod::records::{Ledger, Record};

use super::sample::{FIVE, GREEN, REED, STONE, School, figures_of, five};

fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-9, "{found}, not {expected}");
}

fn fraction(numerator: i128, denominator: i128) -> Option<Exact> {
    Exact::fraction(numerator, denominator)
}

fn criterion<'a>(agreement: &'a Agreement, id: &str) -> &'a CriterionAgreement {
    agreement.criteria.iter().find(|one| one.id == id).unwrap()
}

#[test]
fn totals_of_five_pieces() {
    figures_of(&five().ledger, |_, agreement| {
        let totals = &agreement.totals;
        // Marks 32 26, 26 26, 18 17, 40 39, 26 18 of 40: apart 6, 0, 1, 1, 8.
        assert_eq!(totals.pieces, 5);
        assert_eq!(totals.apart, fraction(16 * 100, 5 * 40));
        // 24 of 40 pass: the last piece passes by one alone.
        assert_eq!(totals.same_award, 4);
        // In marks: sums of squares 552.6 (pieces, 4 df), 25.6 (examiners, 1 df) and
        // 25.4 (rest, 4 df): mean squares 138.15, 25.6, 6.35.
        let icc = totals.icc.as_ref().unwrap();
        let expected = (138.15 - 6.35) / (138.15 + 6.35 + 2.0 / 5.0 * (25.6 - 6.35));
        near(icc.value, expected);
        assert!(!icc.has_gaps);
        let interval = icc.interval.as_ref().unwrap();
        assert!(interval.low < icc.value && icc.value < interval.high);
        let [pair] = &totals.pairs[..] else {
            panic!("one pair of examiners");
        };
        // Differences 15, 0, 2.5, 2.5, 20 per cent, or the other way round.
        let bias = pair.limits.bias.value;
        near(bias.abs(), 8.0);
        near(pair.limits.deviation.powi(2), 317.5 / 4.0);
        assert_eq!(pair.points.len(), 5);
    });
}

#[test]
fn criteria_come_by_the_marks_they_cost() {
    figures_of(&five().ledger, |_, agreement| {
        let order: Vec<&str> = agreement.criteria.iter().map(|one| &*one.id).collect();
        // Marks apart: width 0 0 0 0 5, outline 2 0 1 1 3, finish 4 0 0 0 0, weld none.
        assert_eq!(order, ["outline", "width", "finish", "weld"]);
        let apart = |id: &str| criterion(agreement, id).apart;
        assert_eq!(apart("outline"), fraction(7, 5));
        assert_eq!(apart("width"), fraction(1, 1));
        assert_eq!(apart("finish"), fraction(4, 5));
        assert_eq!(apart("weld"), fraction(0, 1));
        let same = |id: &str| {
            let one = criterion(agreement, id);
            (one.same, one.pairs, one.pieces)
        };
        assert_eq!(same("outline"), (1, 5, 5));
        assert_eq!(same("width"), (4, 5, 5));
    });
}

#[test]
fn readings_and_levels_have_figures_of_their_own() {
    figures_of(&five().ledger, |_, agreement| {
        let CriterionFigures::Measured(width) = &criterion(agreement, "width").figures else {
            panic!("it is measured");
        };
        // Differences 0.2, 0.2, 0, 0.1, 0.3 mm: half their squares, five degrees of freedom.
        let within = width.between.as_ref().unwrap();
        near(
            within.deviation.powi(2),
            (0.04 + 0.04 + 0.01 + 0.09) / 2.0 / 5.0,
        );
        near(within.df, 5.0);
        near(width.width.unwrap(), 1.0);
        assert!(width.repeats.is_err(), "nobody took a reading twice");
        assert_eq!(width.pairs[0].points.len(), 5);
        let CriterionFigures::Judged(finish) = &criterion(agreement, "finish").figures else {
            panic!("it is judged");
        };
        // Levels fair (2..): good fair, then fair fair three times, good good: of ten scores
        // three are good. Seen: one pair apart of five; by chance 3 * 7 of 45.
        near(
            *finish.alpha.as_ref().unwrap(),
            1.0 - (1.0 / 5.0) / (21.0 / 45.0),
        );
        let kappa = finish.kappa.as_ref().unwrap();
        // Three levels, linear: half for one step. Shares good 2/5 and 1/5, fair 3/5 and 4/5.
        let (seen, chance) = (1.0 - 0.5 / 5.0, 1.0 - 0.5 * (2.0 * 4.0 + 3.0) / 25.0);
        near(kappa.value, (seen - chance) / (1.0 - chance));
        let CriterionFigures::Judged(weld) = &criterion(agreement, "weld").figures else {
            panic!("it is judged");
        };
        near(*weld.alpha.as_ref().unwrap(), 1.0);
        let mixed = agreement.descriptors.iter().find(|one| one.id == "finish");
        let mixed = mixed.unwrap();
        assert_eq!((mixed.pairs, mixed.apart), (5, 1));
        let mixed = mixed.mixed.as_ref().unwrap();
        assert_eq!(
            (&*mixed.better, &*mixed.worse, mixed.times),
            ("Good", "Fair", 1)
        );
    });
}

#[test]
fn repeats_of_one_examiner_have_a_scatter_of_their_own() {
    let mut school = School::default();
    let given = |width| [width, "6", "good", "fair"];
    for at in 0..5 {
        let [one, other] = [["9.9;10.1", "10.4"], ["10", "9.8; 10.2"]][at % 2];
        school.marked(&[(GREEN, given(one)), (REED, given(other))]);
    }
    figures_of(&school.ledger, |_, agreement| {
        let CriterionFigures::Measured(width) = &criterion(agreement, "width").figures else {
            panic!("it is measured");
        };
        // Squares about their mean: 0.02 three times, 0.08 twice, one degree of freedom each.
        let repeats = width.repeats.as_ref().unwrap();
        near(repeats.df, 5.0);
        near(repeats.deviation.powi(2), (3.0 * 0.02 + 2.0 * 0.08) / 5.0);
        // Examiners by their means: 10 and 10.4 three times, 10 and 10 twice.
        let between = width.between.as_ref().unwrap();
        near(between.deviation.powi(2), 3.0 * 0.08 / 5.0);
    });
}

#[test]
fn kappa_is_for_two_examiners_alone() {
    let mut school = five();
    school.marked(&[(GREEN, FIVE[0][0]), (STONE, FIVE[0][1])]);
    figures_of(&school.ledger, |_, agreement| {
        let CriterionFigures::Judged(finish) = &criterion(agreement, "finish").figures else {
            panic!("it is judged");
        };
        assert!(finish.alpha.is_ok() && finish.kappa.is_none());
        assert!(agreement.totals.icc.as_ref().unwrap().has_gaps);
    });
}

#[test]
fn from_fewer_than_five_pieces_nothing_is_claimed() {
    let mut school = School::default();
    for [one, other] in FIVE.into_iter().take(4) {
        school.marked(&[(GREEN, one), (REED, other)]);
    }
    figures_of(&school.ledger, |gathered, agreement| {
        assert_eq!(gathered.twice.len(), 4);
        assert!(agreement.totals.icc.is_err() && agreement.totals.pairs.is_empty());
        assert_eq!(agreement.strictness, Err(StrictnessLack::Pieces(4)));
        assert!(agreement.needs.one_piece.is_err() && agreement.needs.pieces.is_err());
        for one in &agreement.criteria {
            match &one.figures {
                CriterionFigures::Measured(own) => assert!(own.between.is_err()),
                CriterionFigures::Judged(own) => {
                    assert!(own.alpha.is_err() && own.kappa.is_none());
                }
                CriterionFigures::Counted => {}
            }
        }
        // What was given is told all the same.
        assert!(agreement.totals.apart.is_some());
    });
}

/// The same school under other names, its records in another order.
fn turned(ledger: &Ledger) -> Ledger {
    let renamed = ledger.records().map(|record| match record {
        Record::Examiner(one) => {
            let mut one = (*one).clone();
            one.name = format!("Somebody else {}", one.name.len());
            Record::from(one)
        }
        record => record,
    });
    let mut records: Vec<Record> = renamed.collect();
    records.reverse();
    Ledger::of(records)
}

#[test]
fn neither_names_nor_the_order_of_records_matter() {
    let ledger = five().ledger;
    let said = |ledger: &Ledger| figures_of(ledger, |_, agreement| format!("{agreement:?}"));
    assert_eq!(said(&ledger), said(&turned(&ledger)));
}

#[test]
fn examiners_without_a_piece_in_common_are_not_compared() {
    let mut school = School::default();
    let four = [GREEN, REED, STONE, "Di Marsh"];
    let given = [
        ["10.0", "6", "good", "fair"],
        ["10.0", "6", "fair", "fair"],
        ["10.0", "6", "poor", "fair"],
        ["10.0", "6", "good", "poor"],
    ];
    for at in 0..8 {
        let pair = if at < 4 { &four[..2] } else { &four[2..] };
        let (one, other) = (given[at % 4], given[(at + 1) % 4]);
        school.marked(&[(pair[0], one), (pair[1], other)]);
    }
    figures_of(&school.ledger, |_, agreement| {
        let Err(StrictnessLack::Apart(groups)) = &agreement.strictness else {
            panic!("{:?}", agreement.strictness);
        };
        let sizes: Vec<usize> = groups.iter().map(BTreeSet::len).collect();
        assert_eq!(sizes, [2, 2]);
    });
}

#[test]
fn proposed_pieces_spread_over_the_totals() {
    let school = five();
    figures_of(&school.ledger, |gathered, agreement| {
        let shares = |wanted| -> Vec<f64> {
            let found = candidates(gathered, &agreement.criteria, wanted);
            found.iter().map(|one| one.share.to_f64() * 40.0).collect()
        };
        // Means of totals: 17.5, 22, 26, 29, 39.5; apart 1, 8, 0, 6, 1.
        assert_eq!(shares(2), [22.0, 29.0]);
        assert_eq!(shares(5), [17.5, 22.0, 26.0, 29.0, 39.5]);
        assert_eq!(shares(9).len(), 5);
        assert!(shares(0).is_empty());
    });
}
