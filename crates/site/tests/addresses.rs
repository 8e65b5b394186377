//! Numbers of devices in the three built-in schemes, and lists of found devices against them.
//!
//! Switch positions are positional notation and are worked by hand where they are checked.

use crate::common::site;
use latchline_finding::{Argument, Edit, Severity};
use latchline_site::addresses::{
    Cause, DeviceClass, assign, freeze, number_in_name, read_found_list, reconcile, settings,
};
use latchline_site::edit::apply;
use proptest::prelude::*;

/// A site of one run with these dwellings, entrances and buildings (lines of TOML).
fn text(family: &str, dwellings: &[String], entrances: &[String], buildings: &[String]) -> String {
    let (short, indoor, door, supply) = match family {
        "ostrel-48" => ("ostrel", "v4", "da1", "ps-120"),
        "larkfen-24" => ("larkfen", "h1", "dv2", "ps-40"),
        _ => ("mossop", "t1", "p1", "ps-24"),
    };
    let names = |lines: &[String]| -> Vec<String> {
        lines.iter().map(|line| line.split(" = ").next().expect("a name").to_string()).collect()
    };
    let mut stops = names(dwellings);
    for line in dwellings {
        let extensions = line.matches("extension-of").count();
        let name = line.split(" = ").next().expect("a name");
        stops.extend((2..2 + extensions).map(|number| format!("{}:{number}", name.trim_matches('"'))));
    }
    stops.extend(names(entrances));
    let stops: Vec<String> = stops.iter().map(|stop| format!("\"{}\"", stop.trim_matches('"'))).collect();
    let extension = format!("\"{short}-{indoor}\"");
    format!(
        "[site]\ntitle = \"t\"\nfamily = \"{family}\"\nindoor_station = \"{short}-{indoor}\"\ndoor_station = \"{short}-{door}\"\ncable = \"pair-0.8\"\n\
         [buildings]\n{}\n[supplies]\nPS = {{ model = \"{short}-{supply}\" }}\n[entrances]\n{}\n[dwellings]\n{}\n\
         [runs]\nr = {{ from = \"PS\", to = [{}], spacing = \"5 m\" }}\n",
        buildings.join("\n"),
        entrances.join("\n"),
        dwellings.join("\n").replace("\"extension-of\"", &extension),
        stops.join(", ")
    )
}

fn lines(names: &[&str], body: &str) -> Vec<String> {
    names.iter().map(|name| format!("\"{name}\" = {{ {body} }}")).collect()
}

fn one_building() -> Vec<String> {
    vec!["A = { floors = [\"0\"] }".to_string()]
}

fn main_door() -> Vec<String> {
    vec!["front = { role = \"main\" }".to_string()]
}

#[test]
fn numbers_come_from_names_and_later_ones_yield() {
    let dwellings = lines(&["A-12", "12A", "Penthouse", "A-2", "A-1", "A-500"], "place = \"A\"");
    let plan = assign(&site(&text("ostrel-48", &dwellings, &main_door(), &one_building())));
    // Two get another number than their name has, and are told in one line; Penthouse has none in its name.
    let told: Vec<_> = plan.findings.iter().map(|finding| finding.code.as_str()).collect();
    assert_eq!(told, ["address-not-of-name"]);
    let numbers = ["12A (3)", "A-500 (5)"].map(String::from).to_vec();
    assert_eq!(plan.findings[0].argument("numbers"), Some(&Argument::Texts(numbers)));
    // 12A wants 12, which is taken, 500 is out of range: they and Penthouse get the lowest that no name says, in the order of the file.
    let numbers: Vec<u32> = plan.dwellings.iter().map(|number| number.unwrap()).collect();
    assert_eq!(numbers, [12, 3, 4, 2, 1, 5]);
    assert_eq!(plan.numbers(0), Some(&[0, 12, 1][..]));
    assert_eq!(plan.stations[6].class, DeviceClass::Door);
    assert_eq!(plan.numbers(6), Some(&[0, 0][..]), "0 means the main entrance");
}

#[test]
fn every_scheme_sets_its_switches() {
    let dwellings = lines(&["A-42"], "place = \"A\"");
    let show = |family: &str, field: usize| {
        let site = site(&text(family, &dwellings, &main_door(), &one_building()));
        let plan = assign(&site);
        assert_eq!(plan.findings, []);
        let number = plan.numbers(0).unwrap()[field];
        settings(&site.family().addresses.indoor[field], number).unwrap().to_string()
    };
    assert_eq!(show("ostrel-48", 0), "1 OFF, 2 OFF, 3 OFF, 4 OFF");
    assert_eq!(show("ostrel-48", 1), "4 2");
    assert_eq!(show("larkfen-24", 0), "2 A", "42 = 2 x 16 + 10");
    // 42 - 1 = 41 = 00101001, most significant first, ON stands for 0.
    assert_eq!(show("mossop-24", 0), "1 ON, 2 ON, 3 OFF, 4 ON, 5 OFF, 6 ON, 7 ON, 8 OFF");
}

/// Worked by hand: b and c are stated 7 as a is, so each of the three answers with the other two; d is alone. An extension
/// of b differs in its last number, and answers with nobody; in a scheme where extensions share the address, with a and c.
#[test]
fn devices_with_one_number_know_each_other() {
    let extension = "extensions = [\"extension-of\"]";
    let dwellings: Vec<String> = [("a", 7, ""), ("b", 7, extension), ("c", 7, ""), ("d", 8, "")]
        .map(|(name, number, more)| {
            let more = if more.is_empty() { String::new() } else { format!(", {more}") };
            format!("\"{name}\" = {{ place = \"A\", number = {number}{more} }}")
        })
        .to_vec();
    let doubles = |family: &str| -> Vec<(String, Option<String>)> {
        let site = site(&text(family, &dwellings, &main_door(), &one_building()));
        let plan = assign(&site);
        let of = |(index, station): (usize, &latchline_site::model::Station)| {
            (station.id.to_string(), plan.doubles(&site, index))
        };
        site.stations.iter().enumerate().map(of).collect()
    };
    let expected = |pairs: &[(&str, &str)]| -> Vec<(String, Option<String>)> {
        let some = |others: &str| (!others.is_empty()).then(|| others.to_string());
        pairs.iter().map(|(name, others)| (name.to_string(), some(others))).collect()
    };
    let mut found = doubles("ostrel-48");
    found.sort();
    let wanted = [("a", "b, c"), ("b", "a, c"), ("b:2", ""), ("c", "a, b"), ("d", ""), ("front", "")];
    assert_eq!(found, expected(&wanted));
    let mut found = doubles("mossop-24");
    found.sort();
    let wanted =
        [("a", "b, b:2, c"), ("b", "a, c"), ("b:2", "a, c"), ("c", "a, b, b:2"), ("d", ""), ("front", "")];
    assert_eq!(found, expected(&wanted));
}

fn codes(
    family: &str,
    dwellings: &[String],
    entrances: &[String],
    buildings: &[String],
) -> Vec<(&'static str, String)> {
    let plan = assign(&site(&text(family, dwellings, entrances, buildings)));
    plan.findings
        .iter()
        .filter(|finding| finding.severity == Severity::Error)
        .map(|finding| (finding.code.0, finding.element.as_ref().expect("an element").to_string()))
        .collect()
}

#[test]
fn what_cannot_be_numbered_is_told() {
    let stated = |numbers: &[(&str, u32)]| -> Vec<String> {
        numbers
            .iter()
            .map(|(name, number)| format!("\"{name}\" = {{ place = \"A\", number = {number} }}"))
            .collect()
    };
    let one = |code: &'static str, element: &str| vec![(code, element.to_string())];
    let (door, house) = (main_door(), one_building());
    assert_eq!(codes("ostrel-48", &stated(&[("a", 99)]), &door, &house), []);
    assert_eq!(codes("ostrel-48", &stated(&[("a", 100)]), &door, &house), one("address-out-of-range", "a"));
    assert_eq!(codes("ostrel-48", &stated(&[("a", 0)]), &door, &house), one("address-out-of-range", "a"));
    assert_eq!(codes("mossop-24", &stated(&[("a", 128)]), &door, &house), one("address-reserved", "a"));
    assert_eq!(
        codes("mossop-24", &stated(&[("a", 7), ("b", 7)]), &door, &house),
        one("address-duplicate", "b")
    );
    let flats = lines(&["A-1"], "place = \"A\"");
    let two_main = vec!["x = { role = \"main\" }".to_string(), "y = { role = \"main\" }".to_string()];
    assert_eq!(codes("ostrel-48", &flats, &two_main, &house), one("two-main-entrances", "y"));
    let extensions = |count: usize| {
        vec![format!(
            "a = {{ place = \"A\", extensions = [{}] }}",
            vec!["\"extension-of\""; count].join(", ")
        )]
    };
    assert_eq!(codes("ostrel-48", &extensions(3), &door, &house), []);
    assert_eq!(codes("ostrel-48", &extensions(4), &door, &house), one("extension-without-room", "a:5"));
    assert_eq!(
        codes("mossop-24", &extensions(1), &door, &house),
        [],
        "extensions share the address on purpose"
    );
    let houses: Vec<String> = (0..17).map(|house| format!("B{house} = {{ floors = [\"0\"] }}")).collect();
    let flat = lines(&["A-1"], "place = \"B0\"");
    assert_eq!(codes("ostrel-48", &flat, &door, &houses[..16]), []);
    assert_eq!(codes("ostrel-48", &flat, &door, &houses), one("too-many-buildings", "B16"));
    let hundred: Vec<String> = (1..=100).map(|flat| format!("f{flat} = {{ place = \"A\" }}")).collect();
    assert_eq!(codes("ostrel-48", &hundred[..99], &door, &house), []);
    assert_eq!(codes("ostrel-48", &hundred, &door, &house), one("addresses-exhausted", "f100"));
}

/// Eighteen houses, each with a supply, a door and a flat of its own; sixteen numbers. The last two share one bus with each other.
#[test]
fn buildings_on_buses_of_their_own_may_share_a_number() {
    let many = |line: &dyn Fn(usize) -> String| (0..18).map(line).collect::<Vec<_>>().join("\n");
    let houses = many(&|house| format!("B{house} = {{ floors = [\"0\"] }}"));
    let supplies = many(&|house| format!("PS{house} = {{ model = \"ostrel-ps-120\" }}"));
    let doors = many(&|house| {
        format!("e{house} = {{ role = \"main\", place = \"B{house}\", calls = [\"B{house}\"] }}")
    });
    let flats = many(&|house| format!("f{house} = {{ place = \"B{house}\" }}"));
    let runs = many(&|house| {
        let from = if house == 17 { 16 } else { house };
        format!("r{house} = {{ from = \"PS{from}\", to = [\"f{house}\", \"e{house}\"], spacing = \"5 m\" }}")
    });
    let plan = assign(&site(&format!(
        "[site]\ntitle = \"t\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-da1\"\ncable = \"pair-0.8\"\n\
         [buildings]\n{houses}\n[supplies]\n{supplies}\n[entrances]\n{doors}\n[dwellings]\n{flats}\n[runs]\n{runs}\n"
    )));
    let numbers: Vec<u32> = plan.buildings.iter().map(|number| number.expect("a number")).collect();
    assert_eq!(numbers[..16], (0..16).collect::<Vec<_>>()[..]);
    // The lowest that nobody on the same bus has.
    assert_eq!(numbers[16..], [0, 1]);
    let told: Vec<_> = plan.findings.iter().map(|finding| finding.code.as_str()).collect();
    assert!(told.contains(&"address-repeated"), "{told:?}");
    assert!(plan.findings.iter().all(|finding| finding.severity < Severity::Error), "{told:?}");
    // Both doors of a number are the main one, each on its bus, and flats keep the numbers of their names.
    assert_eq!(plan.entrances[0], plan.entrances[16]);
    assert_eq!((plan.dwellings[1], plan.dwellings[17]), (Some(1), Some(17)));
}

#[test]
fn a_field_beyond_its_switches_is_told() {
    let mut site =
        site(&text("ostrel-48", &["a = { number = 12 }".to_string()], &main_door(), &one_building()));
    let family = site.family.value.clone();
    let field = &mut std::sync::Arc::make_mut(&mut site.catalogue)
        .families
        .get_mut(&family)
        .unwrap()
        .addresses
        .indoor[1];
    field.setter = latchline_site::catalogue::Setter::Rotary { switches: 1, positions: 10, offset: 0 };
    let plan = assign(&site);
    assert_eq!(plan.findings[0].code.0, "address-not-expressible");
    assert_eq!(plan.numbers(0), None);
}

#[test]
fn frozen_numbers_are_the_same_numbers() {
    let dwellings = lines(&["A-12", "12A", "Penthouse", "A-2"], "place = \"A\"");
    let before = text("ostrel-48", &dwellings, &main_door(), &one_building());
    let site_before = site(&before);
    let plan = assign(&site_before);
    let after = apply(&before, &freeze(&site_before, &plan)).unwrap();
    let site_after = site(&after);
    let plan_after = assign(&site_after);
    assert_eq!(plan.stations, plan_after.stations);
    assert!(site_after.dwellings.iter().all(|dwelling| dwelling.number.is_some()));
    assert_eq!(freeze(&site_after, &plan_after), Edit::default(), "nothing is left to freeze");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn a_dwelling_added_at_the_end_changes_no_other(
        names in prop::collection::btree_set("[A-C][0-9]{0,2}[a-c]?", 1..30),
        buildings in prop::collection::vec(0..2_usize, 30),
        stated in prop::collection::vec(prop::option::weighted(0.2, 1..99_u32), 30),
        family in prop_oneof![Just("ostrel-48"), Just("larkfen-24"), Just("mossop-24")],
        shuffle in any::<prop::sample::Index>(),
    ) {
        let mut names: Vec<String> = names.into_iter().collect();
        let at = shuffle.index(names.len());
        names.rotate_left(at);
        let dwellings: Vec<String> = names
            .iter()
            .enumerate()
            .map(|(at, name)| {
                let number = stated[at].map_or(String::new(), |number| format!(", number = {number}"));
                format!("\"{name}\" = {{ place = \"H{}\"{number} }}", buildings[at])
            })
            .collect();
        let houses = vec!["H0 = { floors = [] }".to_string(), "H1 = { floors = [] }".to_string()];
        let all = assign(&site(&text(family, &dwellings, &main_door(), &houses)));
        let fewer = assign(&site(&text(family, &dwellings[..dwellings.len() - 1], &main_door(), &houses)));
        // But where it is stated or named after one that was left over: then whoever had that one may change, and nobody whose number is stated or named.
        let last = names.len() - 1;
        let house_of = |at: usize| if family == "ostrel-48" { buildings[at] } else { 0 };
        let is_own = |at: usize, number: Option<u32>| {
            number.is_some() && (stated[at] == number || stated[at].is_none() && number_in_name(&names[at]) == number)
        };
        let was_left = (0..last).any(|at| {
            house_of(at) == house_of(last)
                && fewer.dwellings[at].is_some()
                && fewer.dwellings[at] == all.dwellings[last]
                && !is_own(at, fewer.dwellings[at])
        });
        for at in 0..last {
            if !was_left || is_own(at, fewer.dwellings[at]) {
                prop_assert_eq!(all.dwellings[at], fewer.dwellings[at]);
            }
        }
        // Numbers that nobody stated are unique in their building.
        let mut seen = std::collections::BTreeSet::new();
        for (at, number) in all.dwellings.iter().enumerate() {
            let house = if family == "ostrel-48" { buildings[at] } else { 0 };
            if let (Some(number), None) = (number, stated[at]) {
                prop_assert!(seen.insert((house, *number)));
            }
        }
    }
}

#[test]
fn found_devices_are_held_against_the_plan() {
    let dwellings = lines(&["A-11", "A-12", "A-30", "A-45"], "place = \"A\"");
    let site = site(&text("ostrel-48", &dwellings, &main_door(), &one_building()));
    let plan = assign(&site);
    let found = |text: &str| reconcile(&site, &plan, &read_found_list(text).devices);
    let all = "indoor 0 11 1\nindoor 0 12 1\nindoor 0 30 1\nindoor 0 45 1\ndoor 0 0\n";
    let right = found(all);
    assert_eq!((right.present.len(), right.missing.len(), right.unexpected.len()), (5, 0, 0));

    let exchanged = found(&all.replace("0 12 1", "0 21 1"));
    assert_eq!(exchanged.missing, [1]);
    let best = &exchanged.unexpected[0].explanations[0];
    assert_eq!((best.station, best.best), (1, true));
    assert_eq!(best.causes, [(1, Cause::ExchangedRotaries)]);

    let next = found(&all.replace("0 45 1", "0 46 1"));
    assert_eq!(
        next.unexpected[0].explanations[0].causes,
        [(1, Cause::WrongRotary { switch: 2, set: 6, should: 5 })]
    );

    let block = found(&all.replace("0 30 1", "4 30 1"));
    assert_eq!(
        block.unexpected[0].explanations[0].causes,
        [(0, Cause::WrongDip { switch: 3, should_be_on: false })]
    );

    // 12 set as 11: one address answers twice, and 12 is missing.
    let twice = found(&all.replace("0 12 1", "0 11 1"));
    assert_eq!((twice.missing.as_slice(), twice.unexpected.len()), (&[1][..], 0));
    assert_eq!((twice.duplicated[0].times, twice.duplicated[0].stations.as_slice()), (2, &[0][..]));
    let best = &twice.duplicated[0].explanations[0];
    assert_eq!((best.station, best.best), (1, true));

    // Two wrong ones: each is explained by another station.
    let two = found(&all.replace("0 12 1", "0 21 1").replace("0 45 1", "0 44 1"));
    let stations: Vec<usize> =
        two.unexpected.iter().map(|unexpected| unexpected.explanations[0].station).collect();
    assert_eq!(stations, [1, 3]);

    let nothing = found("");
    assert_eq!(nothing.missing.len(), 5);
    let strange = found(&format!("{all}indoor 0 77 1\nindoor 5\n"));
    assert!(strange.unexpected.iter().all(|unexpected| unexpected.explanations.is_empty()));
}

#[test]
fn inverted_and_reversed_banks_are_recognised() {
    // Mossop shows the number less one: 42 is 00101001; inverted 11010110 = 214, so 215; read
    // from the other end 10010100 = 148, so 149.
    let site = site(&text("mossop-24", &lines(&["A-42"], "place = \"A\""), &main_door(), &one_building()));
    let plan = assign(&site);
    let cause = |number: u32| {
        let list = read_found_list(&format!("indoor {number}\ndoor 0\n"));
        reconcile(&site, &plan, &list.devices).unexpected[0].explanations[0].causes[0].1.clone()
    };
    assert_eq!(cause(215), Cause::InvertedDip);
    assert_eq!(cause(149), Cause::ReversedDip);
    // 43 is 00101010: two switches. 41 is 00101000: switch 8 stands for 1, ON is 0.
    assert_eq!(cause(43), Cause::SeveralSwitches { count: 2 });
    assert_eq!(cause(41), Cause::WrongDip { switch: 8, should_be_on: false });
}
