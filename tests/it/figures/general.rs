//! Generalizability: variance components and decision studies.

use evenshod::figures::Lacking;
use evenshod::figures::general::{
    Analysis, Choice, Coefficient, Components, Decision, Design, Facet, Planned, crossed_with_gaps,
    least,
};

use super::{all_close, close, rows};

fn analyse(design: &Design, marks: &[f64]) -> Analysis {
    Analysis::of(design, marks).unwrap()
}

fn squares(analysis: &Analysis, names: &[&str]) -> Vec<f64> {
    let sources = analysis.sources.iter();
    let found: Vec<&str> = sources.clone().map(|s| s.name.as_str()).collect();
    assert_eq!(found, names);
    sources.map(|source| source.squares).collect()
}

fn estimates(components: &Components) -> Vec<f64> {
    let parts = components.parts.iter();
    parts.map(|part| part.estimate).collect()
}

fn plan(levels: &[(char, usize)]) -> Vec<Planned> {
    let planned = |(letter, levels): &(char, usize)| Planned {
        letter: *letter,
        levels: *levels,
        is_fixed: false,
    };
    levels.iter().map(planned).collect()
}

fn numbers(found: &Decision) -> [f64; 4] {
    [
        found.relative_error,
        found.absolute_error,
        found.g,
        found.phi,
    ]
}

/// Six persons by four items.
const ONE: &str = "9 9 7 4
    9 8 4 6
    8 8 6 2
    9 8 6 3
    10 9 8 7
    6 4 5 1";

/// Huebner and Lucht 2019 (Practical Assessment, Research and Evaluation 24, 5), tables 3
/// and 4, as a published test file quotes them.
#[test]
fn persons_by_items_as_published() {
    let design = Design::crossed(&[('p', 6), ('i', 4)]).unwrap();
    let analysis = analyse(&design, &rows(ONE).concat());
    let found = squares(&analysis, &["p", "i", "pi"]);
    all_close(
        &found,
        &[44.5, 76.333_333_333_333_33, 19.166_666_666_666_67],
        1e-9,
    );
    let components = analysis.components();
    let wanted = [
        1.905_555_555_555_556,
        4.027_777_777_777_778,
        1.277_777_777_777_778,
    ];
    all_close(&estimates(&components), &wanted, 1e-9);
    let four = components.decide('p', &plan(&[('i', 4)])).unwrap();
    let wanted = [0.319_444_444, 1.326_388_889, 0.856_429_463, 0.589_600_344];
    all_close(&numbers(&four), &wanted, 1e-8);
    let ten = components.decide('p', &plan(&[('i', 10)])).unwrap();
    let wanted = [0.127_777_778, 0.530_555_556, 0.937_158_47, 0.782_212_087];
    all_close(&numbers(&ten), &wanted, 1e-8);
}

/// Brennan 2001, synthetic data set 1, as a published library's fixture quotes it. The book
/// prints .693 .819 .871 .901 for G and .586 .740 .810 .850 for Phi with 5, 10, 15 and 20
/// items, partly not rounded from these data, so to 1.1e-3.
#[test]
fn zero_and_one_items_as_published() {
    let typed = "101000000000 111001000000 111110000000 110110010000 111110100000
                 111011100000 111111100000 111101111100 111111111110 111111111111";
    let marks = typed.split_whitespace().flat_map(str::chars);
    let marks: Vec<f64> = marks.map(|c| f64::from(u8::from(c == '1'))).collect();
    let design = Design::crossed(&[('p', 10), ('i', 12)]).unwrap();
    let analysis = analyse(&design, &marks);
    let found = squares(&analysis, &["p", "i", "pi"]);
    all_close(&found, &[7.3417, 9.6917, 12.5583], 6e-5);
    let means: Vec<f64> = analysis.sources.iter().map(|s| s.mean_square).collect();
    all_close(&means, &[0.8157, 0.8811, 0.1269], 6e-5);
    let components = analysis.components();
    all_close(&estimates(&components), &[0.0574, 0.0754, 0.1269], 6e-5);
    let table = components
        .decisions(
            'p',
            &[Choice {
                letter: 'i',
                levels: vec![5, 10, 15, 20],
                is_fixed: false,
            }],
        )
        .unwrap();
    let g: Vec<f64> = table.iter().map(|row| row.g).collect();
    let phi: Vec<f64> = table.iter().map(|row| row.phi).collect();
    all_close(&g, &[0.693, 0.819, 0.871, 0.901], 1.1e-3);
    all_close(&phi, &[0.586, 0.74, 0.81, 0.85], 1.1e-3);
    let enough = least(&table, 0.8, Coefficient::Relative).unwrap();
    assert_eq!(enough[0].plan[0].levels, 10);
    let enough = least(&table, 0.8, Coefficient::Absolute).unwrap();
    assert_eq!(enough[0].plan[0].levels, 15);
    assert!(least(&table, 0.99, Coefficient::Absolute).is_err());
}

/// Huebner and Lucht 2019, tables 5 and 6: six persons, four items, two occasions.
#[test]
fn persons_by_items_by_occasions_as_published() {
    let typed = rows(
        "9 9 9 8 7 5 4 5
         9 6 8 5 4 3 6 3
         8 8 8 7 6 3 2 2
         9 9 8 6 6 6 3 2
         10 8 9 8 8 9 7 7
         6 3 4 2 5 3 1 2",
    );
    let design = Design::crossed(&[('p', 6), ('i', 4), ('o', 2)]).unwrap();
    let analysis = analyse(&design, &typed.concat());
    let found = squares(&analysis, &["p", "i", "o", "pi", "po", "io", "pio"]);
    let wanted = [
        112.9375,
        117.895_833_333,
        15.1875,
        35.479_166_667,
        5.9375,
        2.895_833_333,
        12.479_166_667,
    ];
    all_close(&found, &wanted, 1e-9);
    let components = analysis.components();
    let wanted = [
        2.483_333_333,
        3.066_666_667,
        0.577_777_778,
        0.766_666_667,
        0.088_888_889,
        0.022_222_222,
        0.831_944_444,
    ];
    all_close(&estimates(&components), &wanted, 1e-8);
    for (levels, wanted) in [
        (
            (4, 2),
            [0.340_104_167, 1.398_437_5, 0.879_542_52, 0.639_742_386],
        ),
        (
            (5, 3),
            [0.238_425_926, 1.045_833_333, 0.912_400_068, 0.703_659_976],
        ),
    ] {
        let plan = plan(&[('i', levels.0), ('o', levels.1)]);
        let found = components.decide('p', &plan).unwrap();
        all_close(&numbers(&found), &wanted, 1e-8);
    }
}

/// Brennan 2001, synthetic data set 3: columns are occasion and item, each of ten persons.
/// The book prints 1.3383 for the mean square of po, which its sum of squares does not give.
#[test]
fn data_set_3_as_published() {
    let columns = rows(
        "2 4 5 5 4 4 2 3 0 6
         6 5 5 9 3 4 6 4 5 8
         7 6 4 8 5 4 6 4 4 7
         5 7 6 6 6 7 5 5 5 6
         2 6 5 5 4 6 2 6 5 6
         5 7 4 7 5 4 7 6 5 8
         5 5 5 7 6 7 7 6 5 8
         5 7 5 6 4 8 5 4 3 6",
    );
    let design = Design::crossed(&[('o', 2), ('i', 4), ('p', 10)]).unwrap();
    let components = analyse(&design, &columns.concat()).components();
    let of = |name: &str| components.named(name).unwrap().estimate;
    let found = ["p", "i", "o", "ip", "op", "oi", "oip"].map(of);
    let printed = [0.5528, 0.4417, 0.0074, 0.575, 0.1009, 0.1565, 0.9352];
    all_close(&found, &printed, 1.1e-4);
    let found = components
        .decide('p', &plan(&[('i', 4), ('o', 2)]))
        .unwrap();
    close(found.g, 0.64, 6e-3);
    close(found.phi, 0.55, 6e-3);
    all_close(
        &[found.g, found.phi],
        &[0.639_871_382_6, 0.554_124_608_4],
        1e-9,
    );
}

/// Brennan 2001, synthetic data set 4: three tasks with four raters each, ten persons.
fn data_set_4() -> Vec<f64> {
    let columns = rows(
        "5 9 3 7 9 3 7 5 9 4
         6 3 4 5 2 4 3 8 9 4
         5 7 3 5 9 3 7 5 8 4
         5 7 3 3 7 5 7 7 8 3
         5 7 5 3 7 3 7 7 6 3
         3 5 3 1 7 3 5 5 6 5
         4 5 3 4 3 6 5 5 6 6
         5 5 5 3 7 3 7 4 5 5
         6 7 6 5 2 4 5 3 5 5
         7 7 5 3 7 5 5 2 8 7
         3 5 1 3 5 1 5 1 1 1
         3 2 6 5 3 2 4 1 1 1",
    );
    let person = |at: usize| columns.iter().map(move |column| column[at]);
    (0..10).flat_map(person).collect()
}

/// Brennan 2001, synthetic data set 4: `p x (r:t)`, each task has raters of its own.
#[test]
fn raters_within_tasks_as_published() {
    let design = Design::raters_within_tasks(10, 3, 4).unwrap();
    let analysis = analyse(&design, &data_set_4());
    let found = squares(&analysis, &["p", "t", "pt", "r:t", "pr:t"]);
    all_close(&found, &[92.6667, 48.2, 83.1333, 79.7, 192.8], 6e-5);
    let freedom: Vec<f64> = analysis.sources.iter().map(|s| s.freedom).collect();
    assert_eq!(freedom, [9.0, 2.0, 18.0, 9.0, 81.0]);
    let components = analysis.components();
    let printed = [0.4731, 0.3252, 0.5596, 0.6475, 2.3802];
    all_close(&estimates(&components), &printed, 1.1e-4);
    let found = components
        .decide('p', &plan(&[('t', 3), ('r', 4)]))
        .unwrap();
    all_close(&[found.g, found.phi], &[0.55, 0.46], 6e-3);
    all_close(
        &[found.g, found.phi],
        &[0.551_438_848_9, 0.463_702_359_3],
        1e-9,
    );
}

/// With tasks fixed, task and person by task are no longer error: by hand from the components
/// above, `universe = p + pt / 3` and `absolute = (r:t + pr:t) / 12` (Brennan 2001, 5.1).
#[test]
fn a_fixed_facet_belongs_to_what_is_measured() {
    let design = Design::raters_within_tasks(10, 3, 4).unwrap();
    let components = analyse(&design, &data_set_4()).components();
    let of = |name: &str| components.named(name).unwrap().estimate;
    let mut fixed = plan(&[('t', 3), ('r', 4)]);
    fixed[0].is_fixed = true;
    let found = components.decide('p', &fixed).unwrap();
    close(found.universe, of("p") + of("pt") / 3.0, 1e-12);
    close(found.relative_error, of("pr:t") / 12.0, 1e-12);
    close(found.absolute_error, (of("r:t") + of("pr:t")) / 12.0, 1e-12);
    fixed[1].is_fixed = true;
    assert!(components.decide('p', &fixed).is_err());
}

/// Raters of one person each: a one-way layout, where relative and absolute error are one
/// (Brennan 2001, 3.3). The variance of persons is `(MSp - MSr:p) / n`; data of Shrout and
/// Fleiss 1979, whose ICC(1,1) is .17 and ICC(1,4) .44.
#[test]
fn raters_within_persons_as_published() {
    let typed = rows("9 2 5 8\n6 1 3 2\n8 4 6 8\n7 1 2 6\n10 5 6 9\n6 2 4 7");
    let design = Design::raters_within_persons(6, 4).unwrap();
    let components = analyse(&design, &typed.concat()).components();
    let one = components.decide('p', &plan(&[('r', 1)])).unwrap();
    let four = components.decide('p', &plan(&[('r', 4)])).unwrap();
    all_close(&[one.g, four.g], &[0.17, 0.44], 6e-3);
    all_close(&[one.g, four.g], &[0.165_741_768_4, 0.442_797_133_7], 1e-9);
    assert_eq!(one.g, one.phi);
}

/// Constructed: negative estimates are told as they are and count as 0 in coefficients.
#[test]
fn negative_variances_are_told() {
    let typed = rows("5 1 4\n2 6 3\n7 3 8\n1 5 2").concat();
    let design = Design::crossed(&[('p', 4), ('i', 3)]).unwrap();
    let components = analyse(&design, &typed).components();
    // By hand: mean squares 6.30556, 0.33333 and 6.55556.
    let wanted = [-1.0 / 12.0, -1.555_555_555_555_556, 6.555_555_555_555_556];
    all_close(&estimates(&components), &wanted, 1e-9);
    let found = components.decide('p', &plan(&[('i', 3)])).unwrap();
    assert_eq!((found.universe, found.g, found.phi), (0.0, 0.0, 0.0));
}

/// Searle 1971, 10.5 (from memory): the variance of a mean square is `2 MS^2 / freedom`, taken
/// without bias with two more; the residual has itself alone.
#[test]
fn components_have_standard_errors() {
    let design = Design::crossed(&[('p', 6), ('i', 4)]).unwrap();
    let analysis = analyse(&design, &rows(ONE).concat());
    let components = analysis.components();
    let (p, pi) = (
        analysis.sources[0].mean_square,
        analysis.sources[2].mean_square,
    );
    let wanted = (2.0 * (p / 4.0).powi(2) / 7.0 + 2.0 * (pi / 4.0).powi(2) / 17.0).sqrt();
    close(components.parts[0].standard_error.unwrap(), wanted, 1e-12);
    let wanted = pi * (2.0_f64 / 17.0).sqrt();
    close(components.parts[2].standard_error.unwrap(), wanted, 1e-12);
}

#[test]
fn the_least_numbers_are_one_row_for_each_way() {
    let typed = data_set_4();
    let design = Design::raters_within_tasks(10, 3, 4).unwrap();
    let components = analyse(&design, &typed).components();
    let choice = |letter| Choice {
        letter,
        levels: (1..=12).collect(),
        is_fixed: false,
    };
    let table = components
        .decisions('p', &[choice('t'), choice('r')])
        .unwrap();
    assert_eq!(table.len(), 144);
    let kept = least(&table, 0.7, Coefficient::Relative).unwrap();
    assert!(kept.len() > 1);
    for row in &kept {
        let (tasks, raters) = (row.plan[0].levels, row.plan[1].levels);
        assert!(row.g >= 0.7);
        // One task or one rater less is not enough.
        for fewer in [(tasks - 1, raters), (tasks, raters - 1)] {
            if fewer.0 > 0 && fewer.1 > 0 {
                let fewer = plan(&[('t', fewer.0), ('r', fewer.1)]);
                assert!(components.decide('p', &fewer).unwrap().g < 0.7);
            }
        }
    }
}

/// With every cell there, Henderson's method 1 is the balanced analysis.
#[test]
fn no_gaps_give_the_balanced_estimates() {
    let typed = rows(ONE);
    let cells = typed
        .iter()
        .map(|row| row.iter().map(|mark| Some(*mark)).collect());
    let found = crossed_with_gaps(&cells.collect::<Vec<Vec<Option<f64>>>>()).unwrap();
    let wanted = [
        1.905_555_555_555_556,
        4.027_777_777_777_778,
        1.277_777_777_777_778,
    ];
    all_close(&estimates(&found), &wanted, 1e-9);
}

/// Constructed, solved by hand: persons have 2, 2 and 1 marks, levels 3 and 2, all 5, so that
/// `a = 9/5` and `b = 13/5`.
#[test]
fn gaps_solved_by_hand() {
    let rows = [
        vec![Some(1.0), Some(2.0)],
        vec![Some(3.0), Some(5.0)],
        vec![Some(2.0), None],
    ];
    // T(x) - T(p) = 0.5 + 2, T(x) - T(i) = 2 + 4.5, T(x) - T(mean) = 43 - 169 / 5.
    let level_and_cell = 2.5 / 2.0;
    let person_and_cell = 6.5 / 3.0;
    let total = 43.0 - 169.0 / 5.0;
    let cell =
        (total - (5.0 - 1.8) * person_and_cell - (5.0 - 2.6) * level_and_cell) / (4.0 - 3.2 - 2.4);
    let wanted = [person_and_cell - cell, level_and_cell - cell, cell];
    let found = crossed_with_gaps(&rows).unwrap();
    all_close(&estimates(&found), &wanted, 1e-12);
    assert!(found.decide('p', &plan(&[('i', 2)])).is_ok());
}

#[test]
fn too_few_cells_are_refused() {
    let alone = [vec![Some(1.0), None], vec![None, Some(2.0)]];
    assert!(matches!(
        crossed_with_gaps(&alone),
        Err(Lacking::Dependent(_))
    ));
    let one = [vec![Some(1.0)], vec![Some(2.0)]];
    assert!(matches!(
        crossed_with_gaps(&one),
        Err(Lacking::TooFew { .. })
    ));
    let uneven = [vec![Some(1.0)], vec![Some(2.0), None]];
    assert!(matches!(crossed_with_gaps(&uneven), Err(Lacking::Gaps(_))));
}

#[test]
fn designs_that_say_nothing_are_refused() {
    assert!(Design::crossed(&[]).is_err());
    assert!(Design::crossed(&[('p', 3), ('p', 3)]).is_err());
    assert!(Design::crossed(&[('p', 3), ('i', 1)]).is_err());
    let orphan = Facet {
        letter: 'r',
        levels: 2,
        within: vec!['t'],
    };
    assert!(Design::new(vec![orphan]).is_err());
    let design = Design::raters_within_tasks(3, 2, 2).unwrap();
    assert!(Analysis::of(&design, &[1.0; 11]).is_err());
    let components = analyse(&design, &[4.0; 12]).components();
    let both = plan(&[('t', 2), ('r', 2)]);
    let alike = components.decide('p', &both);
    assert_eq!(alike, Err(Lacking::NoSpread("true scores")));
    for (object, plan) in [
        ('x', both.clone()),
        ('r', plan(&[('p', 2), ('t', 2)])),
        ('p', plan(&[('t', 2)])),
        ('p', plan(&[('t', 2), ('t', 2)])),
        ('p', plan(&[('t', 0), ('r', 2)])),
    ] {
        let found = components.decide(object, &plan);
        assert!(
            matches!(found, Err(Lacking::Design(_))),
            "{object} {plan:?}"
        );
    }
}
