//! What a change takes: by hand from the labour and prices of the catalogue.

use crate::common::site;
use latchline_finding::Money;
use latchline_site::bill::Bill;
use latchline_site::changes::{Effort, dwellings_to_enter};

const SITE: &str = r#"
[site]
title = "House"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.5"
[buildings]
A = { floors = ["G", "1"] }
[supplies]
PS = { model = "ostrel-ps-60", place = "A/G" }
[distributors]
D = { model = "ostrel-d4", place = "A/G" }
[entrances]
E = { role = "main", place = "A/G" }
[dwellings]
A-1 = { place = "A/1" }
A-2 = { place = "A/1" }
A-3 = { place = "A/1" }
[runs]
feed = { from = "PS", to = "D", length = "5 m" }
door = { from = "D.1", to = "E", length = "9 m" }
flats = { from = "D.2", to = ["A-1", "A-2", "A-3"], lengths = ["12 m", "8 m", "4 m"] }
"#;

/// The first text changed into the second: what is bought, and the minutes.
fn effort(before: &str, from: &str, to: &str) -> (Option<Money>, f64) {
    assert!(before.contains(from));
    let (old, new) = (site(before), site(&before.replace(from, to)));
    let Effort { material, minutes } = Effort::of(&old, &Bill::of(&old), &new);
    (material, (minutes * 1000.0).round() / 1000.0)
}

fn money(amount: f64) -> Option<Money> {
    Some(Money::from_units(amount))
}

/// The new supply is fitted and the old one taken out, which takes half of that.
#[test]
fn a_supply_is_taken_out_and_another_put_in() {
    let catalogue = site(SITE).catalogue;
    let head = |name: &str| &catalogue.supplies[name].head;
    let minutes = |name| head(name).labour_minutes.as_ref().unwrap().value;
    let price = |name| head(name).price.as_ref().unwrap().value;
    let expected = minutes("ostrel-ps-120") + 0.5 * minutes("ostrel-ps-60");
    assert!(minutes("ostrel-ps-60") > 0.0);
    let more = price("ostrel-ps-120") - price("ostrel-ps-60");
    assert_eq!(effort(SITE, "ostrel-ps-60", "ostrel-ps-120"), (Some(more), expected));
}

/// 24 m of pair-0.8 at 0.52 a metre, pulled in 1.3 min a metre. Of a plan the 24 m of pair-0.5 at 0.25 are not bought; those that somebody
/// has measured are in the wall, and nothing comes back for them.
#[test]
fn a_measured_cable_is_in_the_wall() {
    let flats = "[\"12 m\", \"8 m\", \"4 m\"]";
    let other = "[\"12 m\", \"8 m\", \"4 m\"], cable = \"pair-0.8\"";
    assert_eq!(effort(SITE, flats, other), (money(24.0 * (0.52 - 0.25)), 31.2));
    let measured = SITE.replace(flats, &format!("{flats}, measured = {{ loop = \"4.5 ohm\" }}"));
    let flats = format!("{flats}, measured = {{ loop = \"4.5 ohm\" }}");
    assert_eq!(effort(&measured, &flats, other), (money(24.0 * 0.52), 31.2));
    let existing = SITE.replace("\"4 m\"]", "\"4 m\"], existing = true");
    assert_eq!(effort(&existing, ", existing = true", ", cable = \"pair-0.8\""), (money(24.0 * 0.52), 31.2));
}

/// One end at the box, 5 min; in the dwellings nothing is touched. A second pair is connected at both ends of three lengths.
#[test]
fn another_port_is_work_at_the_box_alone() {
    assert_eq!(effort(SITE, "from = \"D.2\"", "from = \"D.3\""), (money(0.0), 5.0));
    let (old, new) = (site(SITE), site(&SITE.replace("from = \"D.2\"", "from = \"D.3\"")));
    assert!(dwellings_to_enter(&old, &new).is_empty());
    let doubled = "\"4 m\"], pairs = 2";
    assert_eq!(effort(SITE, "\"4 m\"]", doubled), (money(0.0), 30.0));
    let (old, new) = (site(SITE), site(&SITE.replace("\"4 m\"]", doubled)));
    assert_eq!(dwellings_to_enter(&old, &new).len(), 3);
}

/// A chain cut in two: the dwelling before the cut loses a cable, the one behind it gets one, and the last one has the cables that it had.
#[test]
fn behind_a_cut_only_the_first_dwelling_is_entered() {
    let four = SITE
        .replace(
            "\"A-3\"], lengths = [\"12 m\", \"8 m\", \"4 m\"]",
            "\"A-3\", \"A-4\"], lengths = [\"12 m\", \"8 m\", \"4 m\", \"4 m\"]",
        )
        .replace("A-3 = { place = \"A/1\" }", "A-3 = { place = \"A/1\" }\nA-4 = { place = \"A/1\" }");
    let cut = four.replace(
        "to = [\"A-1\", \"A-2\", \"A-3\", \"A-4\"], lengths = [\"12 m\", \"8 m\", \"4 m\", \"4 m\"] }",
        "to = [\"A-1\", \"A-2\"], lengths = [\"12 m\", \"8 m\"] }\nflatsb = { from = \"D.3\", to = [\"A-3\", \"A-4\"], lengths = [\"24 m\", \"4 m\"] }",
    );
    assert_ne!(cut, four);
    let entered = dwellings_to_enter(&site(&four), &site(&cut));
    assert_eq!(entered.iter().map(ToString::to_string).collect::<Vec<_>>(), ["A-2", "A-3"]);
}
