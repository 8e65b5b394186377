//! The table of rates.

use crate::with_demo;
use latchline_locate::{Age, BUILT_IN, Kind, Rates, RatesError, hypotheses};

#[test]
fn the_built_in_table_names_every_kind_and_adds_up_to_a_hundred() {
    let rates = Rates::read(BUILT_IN).unwrap();
    assert_eq!(rates.kinds.len(), Kind::ALL.len());
    for age in [Age::FirstMonth, Age::InService] {
        let sum: f64 = Kind::ALL.iter().map(|kind| rates.prior(*kind, age)).sum();
        assert!((sum - 1.0).abs() < 1e-9, "{sum}");
    }
}

#[test]
fn prior_probabilities_add_up_with_none_of_these() {
    with_demo(|plant| {
        let rates = Rates::built_in();
        let sum: f64 = hypotheses(plant, &rates, Age::InService).iter().map(|one| one.prior).sum();
        assert!((sum + rates.none_of_these - 1.0).abs() < 1e-12);
    });
}

#[test]
fn a_mistake_in_a_table_is_named() {
    let with = |from: &str, to: &str| Rates::read(&BUILT_IN.replacen(from, to, 1)).unwrap_err();
    assert_eq!(with("[symptoms.dim]", "[symptoms.dull]"), RatesError::Unknown("symptoms.dull".into()));
    assert_eq!(with("joint               =", "solder ="), RatesError::Unknown("kinds.solder".into()));
    assert!(matches!(with("share = 0.55", "share = 0.5"), RatesError::Shares(_)));
    assert!(matches!(with("[groups]", "[groups"), RatesError::Syntax { .. }));
    assert!(matches!(with(", low = 0.5, high = 200", ""), RatesError::Value(_)));
}
