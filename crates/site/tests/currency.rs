//! Price lists in different currencies: converted at a stated rate, or left out and told, never relabelled.

use latchline_finding::{Money, Sources};
use latchline_site::{LoadedCatalogues, builtin_catalogue};

const OWN: &str = "[cables.mine]\ntitle = \"Mine\"\nsource = \"test\"\ngauge = \"0.8 mm\"\nprice = 0.5\n";

fn loaded(head: &str) -> LoadedCatalogues {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let built_in = sources.add(name, text);
    let own = sources.add("own.toml", format!("{head}{OWN}"));
    let loaded = LoadedCatalogues::new(&sources, &[built_in, own]);
    assert_eq!(loaded.findings(), []);
    loaded
}

fn price(loaded: &LoadedCatalogues, cable: &str) -> (Option<Money>, Option<String>) {
    let head = &loaded.catalogue().cables[cable].head;
    (head.price.as_ref().map(|price| price.value), head.price_left_out_in.clone())
}

/// The built-in 0.8 mm pair is 0.52 EUR a metre.
#[test]
fn prices_of_another_currency_are_left_out_without_a_rate() {
    let pounds = loaded("currency = \"GBP\"\n");
    assert_eq!(pounds.catalogue().currency, "GBP");
    assert_eq!(price(&pounds, "pair-0.8"), (None, Some(String::from("EUR"))));
    assert_eq!(price(&pounds, "mine"), (Some(Money::from_units(0.5)), None));
    let supply = &pounds.catalogue().supplies["ostrel-ps-120"].head;
    assert!(supply.price.is_none() && supply.price_left_out_in.is_some());
}

/// 0.52 x 0.86 = 0.4472.
#[test]
fn a_stated_rate_converts_them() {
    let pounds = loaded("currency = \"GBP\"\n[rates]\nEUR = { worth = 0.86, date = 2026-11-02 }\n");
    assert_eq!(price(&pounds, "pair-0.8"), (Some(Money::from_units(0.4472)), None));
    assert_eq!(price(&pounds, "mine"), (Some(Money::from_units(0.5)), None));
}

#[test]
fn one_currency_changes_nothing() {
    for head in ["currency = \"EUR\"\n", ""] {
        let same = loaded(head);
        assert_eq!(same.catalogue().currency, "EUR");
        assert_eq!(price(&same, "pair-0.8"), (Some(Money::from_units(0.52)), None));
        assert_eq!(price(&same, "mine"), (Some(Money::from_units(0.5)), None));
    }
}
