use evenshod::demo::Chance;

/// Source: Rosetta Code, "Pseudo-random numbers/Splitmix64", the first five of seed
/// 1234567, which agree with Vigna's `splitmix64.c`.
#[test]
fn the_numbers_are_those_of_splitmix64() {
    let mut chance = Chance::of(1_234_567);
    let drawn: Vec<u64> = (0..5).map(|_| chance.draw()).collect();
    assert_eq!(
        drawn,
        [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ]
    );
}

#[test]
fn draws_below_an_end_are_even_and_below_it() {
    let mut chance = Chance::of(1);
    let mut seen = [0_u32; 6];
    for _ in 0..60_000 {
        seen[usize::try_from(chance.below(6)).unwrap()] += 1;
    }
    // Six standard deviations of a binomial with a mean of 10,000.
    assert!(
        seen.iter().all(|count| count.abs_diff(10_000) < 550),
        "{seen:?}"
    );
    assert_eq!(
        (chance.below(1), chance.below(0), chance.below(-3)),
        (0, 0, 0)
    );
}

#[test]
fn the_bell_has_mean_0_and_deviation_1000() {
    let mut chance = Chance::of(2);
    let drawn: Vec<i64> = (0..40_000).map(|_| chance.bell()).collect();
    let mean = drawn.iter().sum::<i64>() / 40_000;
    let variance = drawn.iter().map(|one| one * one).sum::<i64>() / 40_000;
    // Six standard errors: 30 of the mean, about 4 per cent of the variance.
    assert!(mean.abs() <= 30, "{mean}");
    assert!((960_000..1_045_000).contains(&variance), "{variance}");
    assert!(drawn.iter().all(|one| one.abs() <= 6000));
}

#[test]
fn a_fork_moves_its_parent_by_one_draw_however_much_it_draws() {
    let (mut one, mut other) = (Chance::of(3), Chance::of(3));
    let mut fork = one.fork();
    for _ in 0..10 {
        fork.draw();
    }
    other.draw();
    assert_eq!(one, other);
}
