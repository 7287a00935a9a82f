//! Change, spread, practice and own marks, held against sums by hand.

use std::sync::Arc;

use evenshod::figures::Lacking;
use evenshod::progress::{
    Made, Numbers, Pair, all_series, change, last_alike, own_bias, practised, usual,
};
use evenshod::quantity::Exact;
use evenshod::records::{Role, SittingKind};
use proptest::prelude::*;

use super::{RUBRIC, made, made_of, seen};
use crate::marking::rubric;

fn is_near(one: f64, other: f64) {
    assert!((one - other).abs() < 1e-9, "{one} against {other}");
}

/// 15 slopes, of which the eighth is 2; 14 pairs rise and one falls. The score scatters by
/// the root of 6 · 5 · 17 / 18, so that Sen's ranks are 2 and 14.
#[test]
fn a_rise_is_told_with_sens_interval() {
    let found = change(&[50.0, 54.0, 52.0, 58.0, 60.0, 62.0]).unwrap();
    is_near(found.line.slope, 2.0);
    is_near(found.line.interval.low, 1.0);
    is_near(found.line.interval.high, 4.0);
    is_near(found.ranks.score, 13.0);
    is_near(found.ranks.tau, 13.0 / 15.0);
    // The rise alone makes no piece resemble its neighbour.
    assert_eq!(found.serial, None);
    assert!(found.ranks.lag_one > 0.3);
    let few = change(&[50.0, 54.0, 52.0, 58.0]);
    assert!(matches!(
        few,
        Err(Lacking::TooFew {
            has: 4,
            needs: 5,
            ..
        })
    ));
    assert!(matches!(change(&[50.0; 6]), Err(Lacking::NoSpread(_))));
}

/// Good and poor ones in rows, around no rise.
#[test]
fn days_in_rows_are_told_after_the_line_is_taken_off() {
    let high = [3.0, 4.0, 3.5, 4.0, 3.0, 3.5];
    let mut percents: Vec<f64> = high.iter().map(|off| 60.0 + off).collect();
    percents.extend(high.iter().map(|off| 60.0 - off));
    percents.extend(high.iter().map(|off| 60.0 + off));
    let found = change(&percents).unwrap();
    assert!(found.serial.unwrap() > 0.5);
}

/// About the line 40 + 2 x, off by 1 and -1 in turn but for the ninth, which lies 20 below.
#[test]
fn a_piece_stands_out_from_the_line_and_not_by_the_rise() {
    let percents: Vec<f64> = (1..=12_i32)
        .map(|at| {
            let off = if at % 2 == 0 { 1.0 } else { -1.0 };
            let off = if at == 9 { -20.0 } else { off };
            40.0 + 2.0 * f64::from(at) + off
        })
        .collect();
    let found = usual(&percents).unwrap();
    assert_eq!(found.beyond, [8]);
    // Limits run along the line.
    is_near(found.high[5] - found.low[5], found.high[0] - found.low[0]);
    let steep: Vec<f64> = (1..=12_i32)
        .map(|at| 5.0 * f64::from(at) + f64::from(at % 2))
        .collect();
    assert!(usual(&steep).unwrap().beyond.is_empty());
    let straight: Vec<f64> = (1..=6_i32).map(|at| 10.0 * f64::from(at)).collect();
    assert!(matches!(usual(&straight), Err(Lacking::NoSpread(_))));
    assert!(matches!(usual(&steep[..4]), Err(Lacking::TooFew { .. })));
}

#[test]
fn a_floor_is_told_only_where_it_is_known() {
    let off = [0.2, -0.3, 0.1, 0.2, -0.2, 0.1, -0.1, 0.0];
    let minutes: Vec<f64> = (0..)
        .zip(off)
        .map(|(at, off): (i32, f64)| 22.0 + 12.0 * (-0.6 * f64::from(at)).exp() + off)
        .collect();
    let found = practised(&minutes).unwrap();
    assert_eq!(found.heights.len(), 8);
    assert!((found.heights[0] - 34.0).abs() < 0.5);
    let towards = found.towards.unwrap();
    assert!(towards.low < 22.0 && 22.0 < towards.high);
    // Falls too evenly to say where it ends.
    let on = practised(&[60.0, 48.5, 40.9, 37.8, 34.1, 32.6, 30.2, 29.4]).unwrap();
    assert_eq!(on.towards, None);
    let rises: Vec<f64> = minutes.iter().map(|one| 60.0 - one).collect();
    assert!(practised(&rises).is_err());
    assert!(matches!(
        practised(&minutes[..4]),
        Err(Lacking::TooFew { .. })
    ));
}

/// Own marks off by 8, 6, 4, 2, 0: mean 4, standard error sqrt 2, t on 4 is 2.776445; each
/// slope of the distances is -2.
#[test]
fn own_marks_that_come_closer_are_told_so() {
    let others = [60.0, 62.0, 58.0, 65.0, 66.0];
    let own = [68.0, 68.0, 62.0, 67.0, 66.0];
    let found = own_bias(&own, &others).unwrap();
    is_near(found.mean.value, 4.0);
    let off = 2.776_445_105_2 * 2.0_f64.sqrt();
    assert!((found.mean.interval.high - 4.0 - off).abs() < 1e-6);
    is_near(found.distance.slope, -2.0);
    assert!(found.distance.interval.high < 0.0);
    // Stricter by as much: the same distance.
    let turned = own_bias(&others, &own).unwrap();
    is_near(turned.mean.value, -4.0);
    is_near(turned.distance.slope, -2.0);
    assert!(own_bias(&own[..4], &others[..4]).is_err());
}

#[test]
fn numbers_are_those_of_the_pieces_made_alike_last() {
    let rubric = Arc::new(rubric(RUBRIC));
    let all = [1, 3, 2, 4, 5, 4, 6].map(|depth| seen(2, 1, depth, 7, ""));
    let mut pieces = made_of(&rubric, &all);
    pieces[6].sitting = SittingKind::Mock;
    pieces[5] = made(&rubric, &all[5], 5, Role::Own);
    let pair = Pair {
        own: made(&rubric, &all[6], 2, Role::Own),
        counts: made(&rubric, &all[0], 2, Role::First),
    };
    let numbers = Numbers::of(&all_series(&pieces)[0], &[pair]);
    assert_eq!(numbers.whole, 6);
    assert_eq!(numbers.alike, Some((SittingKind::Practice, true)));
    // 6 of form, so many of depth, 1 of heats as one was over, 2 of time; of 20.
    let percents: Vec<Exact> = numbers.pieces.iter().map(|piece| piece.percent).collect();
    let of_20 = |marks: i128| Exact::whole(marks * 5);
    assert_eq!(percents, [10, 12, 11, 13, 14].map(of_20));
    assert_eq!(numbers.tallies.len(), 2);
    assert_eq!(numbers.tallies[0].values, [7.0; 7]);
    assert_eq!(numbers.tallies[1].values, [30.0; 7]);
    assert_eq!(numbers.own[0].own, of_20(15));
    assert_eq!(numbers.own[0].counts, of_20(10));
    let few = Numbers::of(&all_series(&pieces[1..])[0], &[]);
    assert_eq!((few.alike, few.pieces.len(), few.whole), (None, 0, 5));
}

#[test]
fn an_older_version_is_not_alike() {
    let old = Arc::new(rubric(RUBRIC));
    let mut new = rubric(RUBRIC);
    new.version = "2".to_owned();
    let new = Arc::new(new);
    let whole = seen(2, 1, 4, 6, "");
    let mut pieces: Vec<Made<'_>> = (0..5)
        .map(|at| made(&old, &whole, at, Role::First))
        .collect();
    let alike = |pieces: &[Made<'_>]| {
        let all: Vec<&Made<'_>> = pieces.iter().collect();
        let kind = |made: &Made<'_>| (made.sitting, made.is_timed());
        let found = last_alike(&all, |made| &made.rubric.version, kind);
        found.map(|(_, pieces)| pieces.len())
    };
    assert_eq!(alike(&pieces), Some(5));
    pieces.push(made(&new, &whole, 6, Role::First));
    assert_eq!(alike(&pieces), None);
    assert_eq!(alike(&[]), None);
}

proptest! {
    /// A rise turned over is a fall of the same size; marks added to all change nothing.
    #[test]
    fn change_turns_with_its_marks(percents in prop::collection::vec(0.0..100.0_f64, 5..14)) {
        let Ok(found) = change(&percents) else { return Ok(()) };
        let turned: Vec<f64> = percents.iter().map(|one| 100.0 - one).collect();
        let turned = change(&turned).unwrap();
        prop_assert!((found.line.slope + turned.line.slope).abs() < 1e-9);
        prop_assert!((found.ranks.tau + turned.ranks.tau).abs() < 1e-12);
        let limits = usual(&percents);
        if let Ok(limits) = limits {
            let moved: Vec<f64> = percents.iter().map(|one| one + 7.0).collect();
            prop_assert_eq!(usual(&moved).unwrap().beyond, limits.beyond);
        }
    }
}
