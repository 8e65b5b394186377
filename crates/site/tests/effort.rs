//! What a change takes: by hand from the labour and prices of the catalogue.

use crate::common::site;
use latchline_finding::Money;
use latchline_site::bill::Bill;
use latchline_site::changes::{Changes, Effort, RunWork, dwellings_to_enter};

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
    let Effort { material, minutes, .. } = Effort::of(&old, &Bill::of(&old), &new);
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

/// The labour of a metre of cable, in minutes.
fn minutes_per_metre(cable: &str) -> f64 {
    site(SITE).catalogue.cables[cable]
        .head
        .labour_minutes
        .as_ref()
        .expect("the catalogue says how long a metre takes")
        .value
}

/// Nine flats, cut behind the fourth: 46 m of new cable to the fifth; the fourth has an end taken off, the fifth its end changed. The other
/// seven keep what they have.
#[test]
fn a_cut_chain_is_work_at_the_cut() {
    let names = |numbers: std::ops::RangeInclusive<usize>| -> String {
        numbers.map(|number| format!("\"A-{number}\"")).collect::<Vec<_>>().join(", ")
    };
    let dwellings: String = (4..=9).map(|number| format!("A-{number} = {{ place = \"A/1\" }}\n")).collect();
    let chain = "flats = { from = \"D.2\", to = [\"A-1\", \"A-2\", \"A-3\"], lengths = [\"12 m\", \"8 m\", \"4 m\"] }";
    let nine = SITE.replace("[runs]", &format!("{dwellings}[runs]")).replace(
        chain,
        &format!(
            "flats = {{ from = \"D.2\", to = [{}], first = \"12 m\", spacing = \"8 m\" }}",
            names(1..=9)
        ),
    );
    let cut = format!(
        "flats = {{ from = \"D.2\", to = [{}], first = \"12 m\", spacing = \"8 m\" }}\n\
         flatsb = {{ from = \"D.3\", to = [{}], first = \"44 m\", spacing = \"8 m\" }}",
        names(1..=4),
        names(5..=9)
    );
    let whole =
        format!("flats = {{ from = \"D.2\", to = [{}], first = \"12 m\", spacing = \"8 m\" }}", names(1..=9));
    let (_, minutes) = effort(&nine, &whole, &cut);
    let expected = 44.0 * minutes_per_metre("pair-0.5") + 2.0 * 5.0;
    assert!((minutes - expected).abs() < 1e-9, "{minutes} min, by hand {expected}");
    let (old, new) = (site(&nine), site(&nine.replace(&whole, &cut)));
    let entered = dwellings_to_enter(&old, &new);
    assert_eq!(entered.iter().map(ToString::to_string).collect::<Vec<_>>(), ["A-4", "A-5"]);
    // The same minutes in the difference of the two files, and 44 m of the 76 m of the new run are pulled.
    let changes = Changes::between(&old, &new);
    assert!((changes.minutes - minutes).abs() < 1e-9);
    let new_run = changes.runs.iter().find(|run| run.run.as_str() == "flatsb").unwrap();
    let RunWork::New { length_m, there_m, .. } = &new_run.work else { panic!("{new_run:?}") };
    assert!(
        (length_m - 76.0).abs() < 1e-9 && (there_m - 32.0).abs() < 1e-9,
        "{length_m} m, {there_m} m there"
    );
}

/// A run that is marked as there already is not pulled, whichever cable it is, and nobody goes anywhere to mark it.
#[test]
fn what_is_there_already_is_not_pulled() {
    let lengths = "[\"12 m\", \"8 m\", \"4 m\"]";
    for (marked, pairs_changed) in
        [(", existing = true", false), (", existing = true, cable = \"pair-0.8\"", true)]
    {
        let to = format!("{lengths}{marked}");
        assert_eq!(effort(SITE, lengths, &to).1, 0.0, "{marked}");
        let (old, new) = (site(SITE), site(&SITE.replace(lengths, &to)));
        let works: Vec<RunWork> = Changes::between(&old, &new).runs.into_iter().map(|run| run.work).collect();
        assert_eq!(
            works.iter().any(|work| matches!(work, RunWork::InPlace { .. })),
            pairs_changed,
            "{works:?}"
        );
        assert!(!works.iter().any(|work| matches!(work, RunWork::Cable { .. } | RunWork::New { .. })));
        assert_eq!(dwellings_to_enter(&old, &new).is_empty(), !pairs_changed);
    }
}

/// Two pairs of a lock cable that has two: both ends connected again, 10 min, and nothing pulled. Three pairs need a second cable of 9 m.
#[test]
fn spare_pairs_to_a_lock_are_connected_not_pulled() {
    let door = "E = { role = \"main\", place = \"A/G\" }";
    let lock = |pairs: usize| {
        format!(
            "E = {{ role = \"main\", place = \"A/G\", lock = {{ model = \"strike-12\", cable = \"pair-0.8\", length = \"9 m\", pairs = {pairs} }} }}"
        )
    };
    let one = SITE.replace(door, &lock(1));
    let pulled = |pairs: usize| {
        let (old, new) = (site(&one), site(&one.replace(&lock(1), &lock(pairs))));
        Changes::between(&old, &new).at_doors.iter().map(|one| one.pulled).sum::<u32>()
    };
    assert_eq!((effort(&one, &lock(1), &lock(2)).1, pulled(2)), (10.0, 0));
    let expected = 9.0 * minutes_per_metre("pair-0.8") + 10.0;
    assert!((effort(&one, &lock(1), &lock(3)).1 - expected).abs() < 1e-9);
    assert_eq!(pulled(3), 1);
}
