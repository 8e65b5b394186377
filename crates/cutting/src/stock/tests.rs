use super::*;
use proptest::prelude::*;

fn problem(stock: &[u32], pieces: &[(u32, u32)]) -> StockProblem {
    let lengths = pieces.iter().flat_map(|(length, count)| std::iter::repeat_n(*length, *count as usize));
    StockProblem::new(stock, lengths).expect("a problem")
}

/// That a plan cuts exactly what is needed, from stock lengths that exist, nothing in two.
fn check(problem: &StockProblem, plan: &CuttingPlan) {
    let mut cuts: Vec<u32> = Vec::new();
    for drum in &plan.drums {
        assert!(problem.stock.contains(&drum.stock));
        assert!(drum.cuts.iter().sum::<u32>() <= drum.stock && !drum.cuts.is_empty());
        cuts.extend(&drum.cuts);
    }
    cuts.sort_unstable_by(|a, b| b.cmp(a));
    let needed: Vec<u32> = problem
        .pieces
        .iter()
        .flat_map(|piece| std::iter::repeat_n(piece.length, piece.count as usize))
        .collect();
    assert_eq!(cuts, needed);
    assert!(plan.bound <= plan.bought() && plan.bound >= problem.needed());
}

/// V. Chvátal, Linear Programming (1983), chapter 13: rolls 100 inches wide; 97 of 45, 610 of 36,
/// 395 of 31, 211 of 14 inches. The linear program gives 452.25 rolls, so 453 are needed, and 453
/// suffice.
#[test]
fn the_paper_rolls_of_chvatal() {
    let problem = problem(&[100], &[(45, 97), (36, 610), (31, 395), (14, 211)]);
    let plan = solve(&problem);
    check(&problem, &plan);
    assert_eq!((plan.bound, plan.bought()), (45_300, 45_300));
}

/// The example of the encyclopaedia article "Cutting stock problem" (Wikipedia): master rolls of
/// 5600 mm, 13 lengths; the published least number is 73.
#[test]
fn the_master_rolls_of_the_encyclopaedia() {
    let pieces = [
        (1380, 22),
        (1520, 25),
        (1560, 12),
        (1710, 14),
        (1820, 18),
        (1880, 18),
        (1930, 20),
        (2000, 10),
        (2050, 12),
        (2100, 14),
        (2140, 16),
        (2150, 18),
        (2200, 20),
    ];
    let problem = problem(&[5600], &pieces);
    let plan = solve(&problem);
    check(&problem, &plan);
    assert_eq!((plan.bound / 5600, plan.bought() / 5600), (73, 73));
}

#[test]
fn what_does_not_fit_is_named() {
    assert_eq!(StockProblem::new(&[], [1]), Err(CuttingError::NoStock));
    assert_eq!(StockProblem::new(&[0], [1]), Err(CuttingError::NoStock));
    assert_eq!(StockProblem::new(&[10, 20], [21]), Err(CuttingError::TooLong { piece: 21, longest: 20 }));
    let empty = StockProblem::new(&[10], []).expect("nothing to cut");
    assert_eq!(solve(&empty), CuttingPlan { drums: Vec::new(), bound: 0 });
}

/// By hand: 6, 10 and 15 reach no sum of 1 to 5, 7 to 9, 11, 13, 14, 17, 19, 23, 29; 29 is the greatest
/// (the known Frobenius number of 6, 10, 15).
#[test]
fn sums_of_stock_lengths() {
    let next = |least| next_sum(&[6, 10, 15], least);
    assert_eq!(
        [next(0), next(1), next(7), next(11), next(29), next(30), next(31)],
        [0, 6, 10, 12, 30, 30, 31]
    );
    assert_eq!([next_sum(&[1000, 5000], 1), next_sum(&[1000, 5000], 1001)], [1000, 2000]);
    assert_eq!(next_sum(&[7], 15), 21);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Small problems against all partitions of the pieces into drums.
    #[test]
    fn small_problems_against_every_partition(
        pieces in prop::collection::vec(1_u32..30, 1..8),
        stock in prop::collection::btree_set(30_u32..60, 1..3),
    ) {
        let stock: Vec<u32> = stock.into_iter().collect();
        let problem = StockProblem::new(&stock, pieces.iter().copied()).expect("everything fits");
        let plan = solve(&problem);
        check(&problem, &plan);
        let least = least_by_partition(&stock, &pieces, &mut Vec::new());
        prop_assert!(plan.bound <= least, "bound {} of {least}", plan.bound);
        prop_assert!(plan.bought() <= least + u64::from(stock[stock.len() - 1]));
    }

    #[test]
    fn any_prices_prove_a_bound(prices in prop::collection::vec(0_u64..1000, 3)) {
        let problem = problem(&[100], &[(45, 10), (36, 20), (14, 7)]);
        prop_assert!(dual_bound(&problem, &prices) <= solve(&problem).bought());
    }
}

/// Least total by trying every way to put the pieces into groups.
fn least_by_partition(stock: &[u32], pieces: &[u32], groups: &mut Vec<u32>) -> u64 {
    let Some((first, rest)) = pieces.split_first() else {
        return groups
            .iter()
            .map(|sum| {
                stock.iter().find(|length| *length >= sum).map_or(u64::MAX / 64, |length| u64::from(*length))
            })
            .sum();
    };
    let mut least = u64::MAX / 2;
    for index in 0..groups.len() {
        groups[index] += first;
        least = least.min(least_by_partition(stock, rest, groups));
        groups[index] -= first;
    }
    groups.push(*first);
    least = least.min(least_by_partition(stock, rest, groups));
    groups.pop();
    least
}
